//! Which file takes something from which: paths in `use` lines and in code, followed through
//! what modules pass on (`pub use`) to the file that holds it.

use crate::source::Source;
use std::collections::{BTreeMap, BTreeSet};

/// From a file's name to the names of the files that it takes something from.
pub type Graph = BTreeMap<String, BTreeSet<String>>;

/// A path that some code names, in full from the crate's root.
struct Named {
    path: Vec<String>,
    /// What it is called where it is named; `*` for all.
    called: String,
    /// Passed on to others (`pub use`).
    passed_on: bool,
}

struct Tree<'s> {
    sources: &'s [Source],
    /// Source by module path.
    files: BTreeMap<Vec<String>, usize>,
    /// What each source names.
    named: Vec<Vec<Named>>,
}

/// The imports of all files, those of their unit tests as well.
pub fn graph(sources: &[Source]) -> Graph {
    let files: BTreeMap<Vec<String>, usize> = sources
        .iter()
        .zip(0..)
        .map(|(source, at)| (source.module.clone(), at))
        .collect();
    let named = sources
        .iter()
        .map(|source| named(&source.module, &source.code))
        .collect();
    let tree = Tree {
        sources,
        files,
        named,
    };
    let mut graph = Graph::new();
    for (at, source) in sources.iter().enumerate() {
        let mut taken = BTreeSet::new();
        for named in &tree.named[at] {
            let child = named.path.starts_with(&source.module);
            if named.passed_on && child {
                continue;
            }
            if let Some(holder) = tree.holder(&named.path, 0)
                && holder != at
            {
                taken.insert(sources[holder].name.clone());
            }
        }
        graph.insert(source.name.clone(), taken);
    }
    graph
}

impl Tree<'_> {
    /// The file that holds what a path names, if it is of this crate.
    fn holder(&self, path: &[String], steps: usize) -> Option<usize> {
        let mut length = path.len();
        let file = loop {
            if let Some(file) = self.files.get(&path[..length]) {
                break *file;
            }
            length = length.checked_sub(1)?;
        };
        // The root file passes everything on; only its own items would be held there.
        let Some(item) = path.get(length) else {
            return Some(file);
        };
        let on = self.named[file]
            .iter()
            .find(|named| named.passed_on && named.called == *item);
        let on = on.or_else(|| {
            self.named[file].iter().find(|named| {
                // An import that a child module reaches through its parent.
                named.called == *item && named.path != path[..=length]
            })
        });
        match on {
            Some(named) if steps < 8 && named.path != path => {
                let mut full = named.path.clone();
                full.extend_from_slice(&path[length + 1..]);
                self.holder(&full, steps + 1).or(Some(file))
            }
            _ => Some(file).filter(|_| !self.sources[file].module.is_empty()),
        }
    }
}

/// Every path of this crate that the code of a module names.
fn named(module: &[String], code: &str) -> Vec<Named> {
    let mut list = Vec::new();
    let mut here = vec![(0_i32, module.to_vec())];
    let mut depth = 0;
    let mut at = 0;
    let declared: BTreeSet<&str> = words_behind(code, "mod ").collect();
    while at < code.len() {
        let rest = &code[at..];
        let own = &here.last().expect("the file's own module").1;
        let begins = at == 0 || !code[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_');
        if rest.starts_with('{') {
            depth += 1;
        } else if rest.starts_with('}') {
            depth -= 1;
            if here.len() > 1 && here.last().is_some_and(|(d, _)| *d > depth) {
                here.pop();
            }
        } else if begins && rest.starts_with("use ") {
            let end = rest.find(';').unwrap_or(rest.len());
            let passed_on = code[..at].trim_end().ends_with(['b', ')'])
                && code[..at]
                    .rsplit('\n')
                    .next()
                    .is_some_and(|l| l.trim_start().starts_with("pub"));
            for (path, called) in spread(&rest[4..end]) {
                if let Some(path) = full(own, &path, &declared) {
                    list.push(Named {
                        path,
                        called,
                        passed_on,
                    });
                }
            }
            at += end;
            continue;
        } else if begins && rest.starts_with("mod ") {
            let name = rest[4..]
                .split(|c: char| !c.is_alphanumeric() && c != '_')
                .next()
                .unwrap_or("");
            if rest[4 + name.len()..].trim_start().starts_with('{') {
                let mut inner = own.clone();
                inner.push(name.to_owned());
                here.push((depth + 1, inner));
            }
        } else if begins && ["crate::", "super::"].iter().any(|s| rest.starts_with(s)) {
            let end = rest
                .find(|c: char| !c.is_alphanumeric() && c != '_' && c != ':')
                .unwrap_or(rest.len());
            let parts: Vec<String> = rest[..end]
                .split("::")
                .filter(|p| !p.is_empty())
                .map(str::to_owned)
                .collect();
            if let Some(path) = full(own, &parts, &declared) {
                let called = String::new();
                list.push(Named {
                    path,
                    called,
                    passed_on: false,
                });
            }
            at += end;
            continue;
        }
        at += rest.chars().next().map_or(1, char::len_utf8);
    }
    list
}

fn words_behind<'c>(code: &'c str, mark: &'c str) -> impl Iterator<Item = &'c str> {
    code.match_indices(mark).map(move |(at, _)| {
        let rest = &code[at + mark.len()..];
        &rest[..rest
            .find(|c: char| !c.is_alphanumeric() && c != '_')
            .unwrap_or(rest.len())]
    })
}

/// A path from the crate's root; nothing for one of another crate.
fn full(own: &[String], path: &[String], declared: &BTreeSet<&str>) -> Option<Vec<String>> {
    let first = path.first()?.as_str();
    let mut start = own.to_vec();
    let mut used = 1;
    match first {
        "crate" => start.clear(),
        "self" => {}
        "super" => {
            start.pop();
            while path.get(used).is_some_and(|p| p == "super") {
                start.pop();
                used += 1;
            }
        }
        first if declared.contains(first) => used = 0,
        _ => return None,
    }
    start.extend(
        path[used..]
            .iter()
            .filter(|p| *p != "self" && *p != "*")
            .cloned(),
    );
    Some(start)
}

/// The single paths of a `use`, each with the name that it gives.
fn spread(tree: &str) -> Vec<(Vec<String>, String)> {
    let tree = tree.trim();
    if let Some(open) = tree.find('{') {
        let before: Vec<String> = tree[..open]
            .split("::")
            .map(str::trim)
            .filter(|p| !p.is_empty())
            .map(str::to_owned)
            .collect();
        let inside = &tree[open + 1..tree.rfind('}').unwrap_or(tree.len())];
        let mut list = Vec::new();
        for part in at_commas(inside) {
            for (path, called) in spread(part) {
                let mut whole = before.clone();
                let own_name = path == ["self"];
                whole.extend(path);
                let called = if own_name {
                    before.last().cloned().unwrap_or_default()
                } else {
                    called
                };
                list.push((whole, called));
            }
        }
        return list;
    }
    let (path, called) = tree.split_once(" as ").unwrap_or((tree, ""));
    let path: Vec<String> = path
        .split("::")
        .map(|p| p.trim().to_owned())
        .filter(|p| !p.is_empty())
        .collect();
    let last = path.last().cloned().unwrap_or_default();
    let called = if called.is_empty() {
        last
    } else {
        called.trim().to_owned()
    };
    if path.is_empty() {
        Vec::new()
    } else {
        vec![(path, called)]
    }
}

fn at_commas(text: &str) -> Vec<&str> {
    let mut depth = 0;
    let mut start = 0;
    let mut list = Vec::new();
    for (at, sign) in text.char_indices() {
        match sign {
            '{' => depth += 1,
            '}' => depth -= 1,
            ',' if depth == 0 => {
                list.push(&text[start..at]);
                start = at + 1;
            }
            _ => {}
        }
    }
    list.push(&text[start..]);
    list
}

/// Groups of files that take from each other in a circle.
pub fn circles(graph: &Graph) -> Vec<Vec<String>> {
    let reach = |from: &str| {
        let mut seen: BTreeSet<&str> = BTreeSet::new();
        let mut open: Vec<&str> = vec![from];
        while let Some(file) = open.pop() {
            for next in graph.get(file).into_iter().flatten() {
                if seen.insert(next) {
                    open.push(next);
                }
            }
        }
        seen
    };
    let reached: BTreeMap<&str, BTreeSet<&str>> = graph
        .keys()
        .map(|file| (file.as_str(), reach(file)))
        .collect();
    let mut done: BTreeSet<&str> = BTreeSet::new();
    let mut list = Vec::new();
    for (file, from) in &reached {
        if !from.contains(file) || done.contains(file) {
            continue;
        }
        let ring: Vec<&str> = from
            .iter()
            .copied()
            .filter(|other| reached[other].contains(file))
            .collect();
        done.extend(&ring);
        list.push(ring.into_iter().map(str::to_owned).collect());
    }
    list
}
