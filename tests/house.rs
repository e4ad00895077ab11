//! The rules of the house, held by machine.

use std::path::{Path, PathBuf};

/// The flow, top to bottom: a module may use those above it, never those below.
const FLOW: [&str; 15] = [
    "memo", "words", "quantity", "reading", "foods", "matching", "weighing", "ledger", "people",
    "fit", "store", "daylog", "pages", "menu", "cli",
];

/// How many of them, from the top, are the core: it computes, prints nothing, opens no file.
const CORE: usize = 10;

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut list = Vec::new();
    let Ok(items) = std::fs::read_dir(folder) else {
        return list;
    };
    for item in items.flatten() {
        let path = item.path();
        if path.is_dir() {
            if !path.ends_with("tests") {
                list.extend(sources(&path));
            }
        } else if path.extension().is_some_and(|e| e == "rs") && !path.ends_with("tests.rs") {
            list.push(path);
        }
    }
    list.sort();
    list
}

/// Module name and source text, comments and tests taken off.
fn modules() -> Vec<(String, PathBuf, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    sources(&root)
        .into_iter()
        .filter_map(|path| {
            let inside = path.strip_prefix(&root).ok()?;
            let first = inside.iter().next()?.to_string_lossy().replace(".rs", "");
            let text = std::fs::read_to_string(&path).ok()?;
            let code = text.split("#[cfg(test)]").next()?.lines();
            let code = code
                .filter(|l| !l.trim_start().starts_with("//"))
                .collect::<Vec<_>>()
                .join("\n");
            Some((first, path.clone(), code))
        })
        .collect()
}

#[test]
fn data_flows_one_way() {
    let mut faults = Vec::new();
    for (module, path, code) in modules() {
        let Some(own) = FLOW.iter().position(|m| *m == module) else {
            continue;
        };
        for (below, name) in FLOW.iter().enumerate().skip(own + 1) {
            if code.contains(&format!("crate::{name}::")) {
                faults.push(format!("{} uses {name} (place {below})", path.display()));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_module_has_its_place() {
    for (module, path, _) in modules() {
        let known = FLOW.contains(&module.as_str()) || ["lib", "main"].contains(&module.as_str());
        assert!(known, "{} has no place in the flow", path.display());
    }
}

#[test]
fn the_core_prints_nothing_and_opens_no_file() {
    let forbidden = [
        "println!",
        "print!(",
        "eprintln!",
        "eprint!(",
        "std::fs",
        "File::open",
        "std::io::stdout",
        "std::io::stderr",
        "std::env::var",
        "dbg!",
    ];
    let mut faults = Vec::new();
    for (module, path, code) in modules() {
        if FLOW[..CORE].contains(&module.as_str()) || module == "pages" {
            for word in forbidden.iter().filter(|w| code.contains(**w)) {
                faults.push(format!("{}: {word}", path.display()));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_command_matches_with_the_corrections_of_its_user() {
    for (module, path, code) in modules() {
        if module == "cli" && !path.ends_with("corrections.rs") {
            assert!(
                !code.contains("Catalogue::embedded"),
                "{}: take `corrections::catalogue()`, which holds what the user corrected",
                path.display()
            );
        }
    }
}

#[test]
fn nothing_unfinished_is_left() {
    for (_, path, code) in modules() {
        for word in ["todo!", "unimplemented!", "dbg!", ".unwrap()"] {
            assert!(!code.contains(word), "{}: {word}", path.display());
        }
    }
}
