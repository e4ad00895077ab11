//! Turns the committed tables into blocks that the program reads in place: no parsing at
//! start.

#![allow(dead_code, missing_docs)]

#[path = "src/catalogue"]
mod catalogue {
    pub mod analysis;
    pub mod blob;
    pub mod columns;
    pub mod index;
    pub mod knowledge;
    pub mod misspellings;
    pub mod slots;
    pub mod store;
    pub mod tables;
    pub mod words;
}

use catalogue::{knowledge, store, tables};
use std::fmt::Write as _;
use std::path::Path;

const TABLES: &str = "src/catalogue/tables";

/// Blocks must start at a multiple of eight bytes to be opened here.
fn aligned(bytes: &[u8]) -> Vec<u64> {
    bytes
        .chunks(8)
        .map(|chunk| {
            let mut word = [0; 8];
            word[..chunk.len()].copy_from_slice(chunk);
            u64::from_ne_bytes(word)
        })
        .collect()
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    println!("cargo::rerun-if-changed=src/catalogue");
    println!("cargo::rerun-if-changed=build.rs");
    let read = |name: &str| {
        std::fs::read_to_string(Path::new(TABLES).join(name))
            .map_err(|e| format!("{TABLES}/{name}: {e}"))
    };
    let known = knowledge::build(
        &tables::class_rows(&read("word_classes.csv")?)?,
        &tables::pair_rows(&read("kinds.csv")?)?,
        &tables::pair_rows(&read("lexicon.csv")?)?,
    )?;
    let foods = tables::foods(
        &read("selection.csv")?,
        &read("figures.csv")?,
        &read("measures.csv")?,
    )?;
    let block = aligned(&known);
    let opened = knowledge::Knowledge::open(bytemuck::cast_slice(&block))?;
    let index = store::build_index(&foods, &opened);
    let out = std::env::var("OUT_DIR")?;
    std::fs::write(Path::new(&out).join("knowledge.bin"), known)?;
    std::fs::write(Path::new(&out).join("foods.bin"), store::build(&foods))?;
    std::fs::write(Path::new(&out).join("names.bin"), index)?;
    std::fs::write(Path::new(&out).join("library.rs"), library()?)?;
    Ok(())
}

/// The dish files as one list of slug, name, kind and text, sorted by slug.
fn library() -> Result<String, Box<dyn std::error::Error>> {
    println!("cargo::rerun-if-changed=dishes");
    let mut files: Vec<_> = std::fs::read_dir("dishes")?
        .map(|entry| entry.map(|e| e.path()))
        .collect::<Result<_, _>>()?;
    files.retain(|path| path.extension().is_some_and(|e| e == "toml"));
    files.sort();
    let mut rows = String::from("static DISHES: &[(&str, &str, &str, &str)] = &[\n");
    for path in files {
        let text = std::fs::read_to_string(&path)?;
        let table: toml::Table = text
            .parse()
            .map_err(|e| format!("{}: {e}", path.display()))?;
        let word = |key: &str| {
            table
                .get(key)
                .and_then(toml::Value::as_str)
                .unwrap_or_default()
                .to_owned()
        };
        let slug = path
            .file_stem()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        let (name, kind) = (word("name"), word("kind"));
        writeln!(rows, "({slug:?}, {name:?}, {kind:?}, {text:?}),")?;
    }
    rows.push_str("];\n");
    Ok(rows)
}
