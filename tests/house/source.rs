//! The source files: where each stands in the module tree, its code without comments and
//! texts, with and without its unit tests.

use std::path::{Path, PathBuf};

/// A source file below `src/`.
pub struct Source {
    /// Below `src/`, with forward slashes: `menu/row.rs`.
    pub name: String,
    /// Module path from the crate's root; empty for the root itself.
    pub module: Vec<String>,
    /// Code with comments and the insides of texts blanked; lines stay where they are.
    pub code: String,
    /// The same without modules that only tests have.
    pub production: String,
}

/// All sources below `src/`, in the order of their names.
pub fn sources() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut paths = Vec::new();
    walk(&root, &mut paths);
    paths.sort();
    let read = |path: &PathBuf| {
        let inside = path.strip_prefix(&root).expect("below src");
        let parts: Vec<String> = inside
            .iter()
            .map(|part| part.to_string_lossy().into_owned())
            .collect();
        let whole = std::fs::read_to_string(path).expect("a readable source");
        let code = blanked(&whole);
        let test_only = parts.iter().any(|p| p == "tests" || p == "tests.rs");
        let production = if test_only {
            String::new()
        } else {
            without_tests(&code)
        };
        let name = parts.join("/");
        Source {
            module: module_of(parts),
            name,
            code,
            production,
        }
    };
    paths.iter().map(read).collect()
}

fn walk(folder: &Path, into: &mut Vec<PathBuf>) {
    for item in std::fs::read_dir(folder).expect("a folder").flatten() {
        let path = item.path();
        if path.is_dir() {
            walk(&path, into);
        } else if path.extension().is_some_and(|e| e == "rs") {
            into.push(path);
        }
    }
}

fn module_of(mut parts: Vec<String>) -> Vec<String> {
    let file = parts.pop().unwrap_or_default();
    match file.as_str() {
        "lib.rs" | "mod.rs" => {}
        "main.rs" => parts.push("main".to_owned()),
        file => parts.push(file.trim_end_matches(".rs").to_owned()),
    }
    parts
}

/// Comments and the insides of texts as spaces, everything else in its place.
fn blanked(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let length = skipped(rest);
        if length == 0 {
            out.push(first);
            rest = &rest[first.len_utf8()..];
        } else {
            let blank = |c: char| if c == '\n' { '\n' } else { ' ' };
            out.extend(rest[..length].chars().map(blank));
            rest = &rest[length..];
        }
    }
    out
}

/// Length of the comment, text or character at the start; 0 for code.
fn skipped(rest: &str) -> usize {
    if rest.starts_with("//") {
        return rest.find('\n').unwrap_or(rest.len());
    }
    if rest.starts_with("/*") {
        return rest.find("*/").map_or(rest.len(), |at| at + 2);
    }
    if let Some(hashes) = rest
        .strip_prefix('r')
        .map(|r| r.len() - r.trim_start_matches('#').len())
        && rest[1 + hashes..].starts_with('"')
    {
        let end = format!("\"{}", "#".repeat(hashes));
        let from = 2 + hashes;
        return rest[from..]
            .find(&end)
            .map_or(rest.len(), |at| from + at + end.len());
    }
    if let Some(inside) = rest.strip_prefix('"') {
        let mut escaped = false;
        let end = inside.find(|c| {
            let is_end = c == '"' && !escaped;
            escaped = c == '\\' && !escaped;
            is_end
        });
        return end.map_or(rest.len(), |at| at + 2);
    }
    if rest.starts_with("'\\") {
        return rest[3..].find('\'').map_or(rest.len(), |at| at + 4);
    }
    // A character, but no lifetime.
    let mut letters = rest.chars();
    if letters.next() == Some('\'')
        && let Some(letter) = letters.next()
        && letters.next() == Some('\'')
    {
        return 2 + letter.len_utf8();
    }
    0
}

/// The code without `#[cfg(test)]` items; what stands behind them stays.
fn without_tests(code: &str) -> String {
    const MARK: &str = "#[cfg(test)]";
    let mut out = String::new();
    let mut rest = code;
    while let Some(at) = rest.find(MARK) {
        out.push_str(&rest[..at]);
        let item = &rest[at + MARK.len()..];
        let end = item_end(item);
        out.extend(item[..end].chars().filter(|c| *c == '\n'));
        rest = &item[end..];
    }
    out + rest
}

/// Where the item at the start ends: behind its `;`, or behind the brace that closes it.
pub fn item_end(code: &str) -> usize {
    let mut depth = 0;
    for (at, sign) in code.char_indices() {
        match sign {
            '{' => depth += 1,
            '}' => {
                depth -= 1;
                if depth == 0 {
                    return at + 1;
                }
            }
            ';' if depth == 0 => return at + 1,
            _ => {}
        }
    }
    code.len()
}
