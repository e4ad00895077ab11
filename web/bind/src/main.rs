//! Writes the JavaScript beside a compiled module: `bind MODULE.wasm FOLDER`.
//!
//! The library behind `wasm-bindgen`'s own command, so that its version is the lock file's.

use anyhow::{Context, Result};
use wasm_bindgen_cli_support::Bindgen;

fn main() -> Result<()> {
    let mut given = std::env::args().skip(1);
    let module = given
        .next()
        .context("which module: bind MODULE.wasm FOLDER")?;
    let folder = given
        .next()
        .context("into which folder: bind MODULE.wasm FOLDER")?;
    Bindgen::new()
        .input_path(&module)
        .web(true)?
        .typescript(false)
        .remove_name_section(true)
        .remove_producers_section(true)
        .out_name("engine")
        .generate(&folder)
        .with_context(|| format!("cannot bind `{module}`"))
}
