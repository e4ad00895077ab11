//! Turns the committed tables into blocks that the program reads in place: no parsing at
//! start.

#![allow(dead_code, missing_docs)]

#[path = "src/words"]
mod words {
    mod forms;
    pub mod misspellings;
    pub(crate) use forms::words;
}

#[path = "src/foods"]
mod foods {
    pub mod blob;
    pub mod columns;
    pub mod rows;
    pub mod store;
}

#[path = "src/matching"]
mod matching {
    pub mod analysis;
    pub mod index;
    pub mod knowledge;
    pub mod naming;
    pub mod slots;
}

#[path = "building/mod.rs"]
mod building;

use foods::store;
use matching::{knowledge, naming};
use std::fmt::Write as _;
use std::path::Path;

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
    for folder in ["building", "src/words", "src/foods", "src/matching"] {
        println!("cargo::rerun-if-changed={folder}");
    }
    println!("cargo::rerun-if-changed=build.rs");
    let read = |name: &str| {
        let path = Path::new("src").join(name);
        std::fs::read_to_string(&path).map_err(|e| format!("{}: {e}", path.display()))
    };
    let known = building::knowledge::build(
        &building::knowledge::table_rows(&read("matching/tables/word_classes.csv")?)?,
        &building::knowledge::table_rows(&read("matching/tables/kinds.csv")?)?,
        &building::knowledge::table_rows(&read("matching/tables/lexicon.csv")?)?,
    )?;
    let foods = building::foods::foods(
        &read("foods/tables/selection.csv")?,
        &read("foods/tables/figures.csv")?,
        &read("foods/tables/measures.csv")?,
    )?;
    let block = aligned(&known);
    let opened = knowledge::Knowledge::open(bytemuck::cast_slice(&block))?;
    let index = naming::build_index(&foods, &opened);
    let out = std::env::var("OUT_DIR")?;
    std::fs::write(Path::new(&out).join("knowledge.bin"), known)?;
    std::fs::write(Path::new(&out).join("foods.bin"), store::build(&foods))?;
    std::fs::write(Path::new(&out).join("names.bin"), index)?;
    std::fs::write(Path::new(&out).join("library.rs"), library()?)?;
    for (table, columns) in building::tables::TABLES {
        println!("cargo::rerun-if-changed=src/{table}");
        let name = building::tables::prepared_name(table).ok_or("a table without a name")?;
        let text = building::tables::laid_out(&read(table)?, columns)
            .map_err(|e| format!("src/{table}: {e}"))?;
        std::fs::write(Path::new(&out).join(name), text)?;
    }
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
