//! The rules of the house, held by machine.

mod imports;
mod source;

use source::{Source, item_end, sources};
use std::sync::LazyLock;

/// The flow, top to bottom: a folder may use those above it, never those below.
const FLOW: [&str; 17] = [
    "memo", "words", "quantity", "reading", "foods", "matching", "weighing", "ledger", "people",
    "fit", "store", "daylog", "pages", "menu", "plates", "browser", "cli",
];

/// How many of them, from the top, are the core: it computes, prints nothing, opens no file.
const CORE: usize = 10;

/// Files that may take from each other in a circle: none.
const CIRCLES: &[&[&str]] = &[];

/// Functions above [`LONG`] lines. The number only gets smaller.
const LONG_FUNCTIONS: usize = 5;
const LONG: usize = 60;

/// Items that other crates can name or that are declared as if they could. The number only
/// gets smaller.
const PUBLIC_ITEMS: usize = 600;

static GRAPH: LazyLock<imports::Graph> = LazyLock::new(|| imports::graph(&sources()));

/// The folder of a file, or the file itself where it stands in none.
fn folder(name: &str) -> &str {
    name.split('/')
        .next()
        .unwrap_or(name)
        .trim_end_matches(".rs")
}

fn place(name: &str) -> Option<usize> {
    FLOW.iter().position(|module| *module == folder(name))
}

#[test]
fn data_flows_one_way() {
    let graph = &*GRAPH;
    let mut faults = Vec::new();
    for (file, taken) in graph {
        for other in taken {
            if place(other) > place(file) && place(file).is_some() {
                faults.push(format!("{file} takes from {other}"));
            }
        }
    }
    assert!(
        faults.is_empty(),
        "against the flow:\n{}",
        faults.join("\n")
    );
}

#[test]
fn no_files_take_from_each_other_in_a_circle() {
    let graph = &*GRAPH;
    let mut faults = Vec::new();
    for ring in imports::circles(graph) {
        let known = CIRCLES
            .iter()
            .any(|list| ring.iter().all(|file| list.contains(&file.as_str())));
        if !known {
            let within = |file: &String| {
                let inside = graph[file].iter().filter(|other| ring.contains(other));
                format!(
                    "  {file} -> {}",
                    inside.cloned().collect::<Vec<_>>().join(", ")
                )
            };
            faults.push(ring.iter().map(within).collect::<Vec<_>>().join("\n"));
        }
    }
    assert!(
        faults.is_empty(),
        "circles of imports:\n{}",
        faults.join("\n\n")
    );
}

#[test]
fn every_module_has_its_place() {
    for source in sources() {
        let known =
            place(&source.name).is_some() || ["lib", "main"].contains(&folder(&source.name));
        assert!(known, "{} has no place in the flow", source.name);
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
    for source in sources() {
        let core =
            place(&source.name).is_some_and(|at| at < CORE) || folder(&source.name) == "pages";
        for word in forbidden
            .iter()
            .filter(|word| core && source.production.contains(**word))
        {
            faults.push(format!("{}: {word}", source.name));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_command_matches_with_the_corrections_of_its_user() {
    for source in sources() {
        if folder(&source.name) == "cli" && source.name != "cli/corrections.rs" {
            assert!(
                !source.production.contains("Catalogue::embedded"),
                "{}: take `corrections::catalogue()`, which holds what the user corrected",
                source.name
            );
        }
    }
}

#[test]
fn nothing_unfinished_is_left() {
    for source in sources() {
        for word in [
            "todo!",
            "unimplemented!",
            "dbg!",
            ".unwrap()",
            ".expect(",
            "panic!(",
        ] {
            assert!(!source.production.contains(word), "{}: {word}", source.name);
        }
    }
}

/// Functions of production code above [`LONG`] lines, with their length.
fn long_functions(source: &Source) -> Vec<String> {
    let lines: Vec<&str> = source.production.lines().collect();
    let mut list = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        let words: Vec<&str> = line
            .split_whitespace()
            .take_while(|word| *word != "fn")
            .collect();
        let visible =
            |word: &&str| ["pub", "const", "unsafe"].contains(word) || word.starts_with("pub(");
        let begins = words.len() < line.split_whitespace().count() && words.iter().all(visible);
        if !begins {
            continue;
        }
        let rest = lines[at..].join("\n");
        let length = rest[..item_end(&rest)].lines().count();
        if length > LONG {
            list.push(format!("{}:{} {length} lines", source.name, at + 1));
        }
    }
    list
}

#[test]
fn functions_are_short() {
    let long: Vec<String> = sources().iter().flat_map(long_functions).collect();
    assert!(
        long.len() <= LONG_FUNCTIONS,
        "{} functions above {LONG} lines, {LONG_FUNCTIONS} allowed:\n{}",
        long.len(),
        long.join("\n")
    );
}

#[test]
fn few_items_are_public() {
    let kinds = ["fn", "const", "struct", "enum", "type", "trait", "static"];
    let mut folders = std::collections::BTreeMap::<String, usize>::new();
    for source in sources() {
        let public = source.production.lines().filter(|line| {
            let mut words = line.split_whitespace();
            words.next() == Some("pub") && words.next().is_some_and(|word| kinds.contains(&word))
        });
        *folders.entry(folder(&source.name).to_owned()).or_default() += public.count();
    }
    let all: usize = folders.values().sum();
    assert!(
        all <= PUBLIC_ITEMS,
        "{all} public items, {PUBLIC_ITEMS} allowed: {folders:?}"
    );
}
