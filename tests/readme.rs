//! What the README shows is what happens: every command in it is run, and what it prints where
//! the README prints something.
#![cfg(unix)]

use std::collections::VecDeque;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

/// The day that the README's transcripts are of.
const NOW: &str = "2026-11-25T12:30:00-05:00[America/New_York]";

/// Files that the README speaks of, ours.
const FILES: [(&str, &str); 6] = [
    (
        "plate.txt",
        "6 oz grilled chicken breast\n2 cups romaine\n2 fl oz ranch dressing\n",
    ),
    (
        "my-dish.toml",
        "name = \"My dish\"\nkind = \"grain bowl\"\nsource = \"invented for a test\"\n\n[[component]]\nfood = \"brown rice\"\namount = \"1 cup\"\n\n[[component]]\nfood = \"black beans\"\namount = \"1/2 cup\"\n",
    ),
    (
        "lunch.csv",
        "item,components\nGrain bowl,1 cup brown rice; 1/2 cup black beans\nToast,2 slices bread\n",
    ),
    (
        "place.csv",
        "item,energy_kcal,served\nBacon burger,1180,\nBeef burrito,1240,\nCaesar salad,,420 g\n",
    ),
    ("menu.csv", "name\nbrown rice\nromaine\n"),
    (
        "foods.csv",
        "name,like,energy_kcal\nhouse sourdough,sourdough bread,262\n",
    ),
];

/// What is no command of the program, or needs what a test has not: a terminal, a browser,
/// the public data.
const NOT_RUN: [&str; 5] = [
    "cargo test",
    "cargo build",
    "node ",
    "--interactive",
    "web/build",
];

struct Shown {
    command: String,
    /// Lines printed below it; `...` stands for any lines.
    printed: Vec<String>,
}

/// The fenced blocks, as lines.
fn blocks(text: &str) -> Vec<Vec<&str>> {
    let mut blocks = Vec::new();
    let mut open: Option<Vec<&str>> = None;
    for line in text.lines() {
        match (line.starts_with("```"), open.take()) {
            (true, Some(block)) => blocks.push(block),
            (true, None) => open = Some(Vec::new()),
            (false, Some(mut block)) => {
                block.push(line);
                open = Some(block);
            }
            (false, None) => {}
        }
    }
    blocks
}

/// The command of a line without what is said of it after two spaces or more.
fn bare(line: &str) -> &str {
    let mut quoted = false;
    for (at, sign) in line.char_indices() {
        match sign {
            '"' | '\'' => quoted = !quoted,
            ' ' if !quoted && line[at..].starts_with("  ") => return &line[..at],
            _ => {}
        }
    }
    line
}

/// Commands of a block with what is printed below each.
fn commands(block: &[&str]) -> Vec<Shown> {
    let mut list: Vec<Shown> = Vec::new();
    let mut lines: VecDeque<&str> = block.iter().copied().collect();
    let transcript = block.iter().any(|line| line.starts_with("$ "));
    while let Some(line) = lines.pop_front() {
        let start = line.strip_prefix("$ ");
        match (transcript, start) {
            (true, None) => {
                if let Some(last) = list.last_mut() {
                    last.printed.push(line.to_owned());
                }
            }
            (true, Some(text)) => {
                let mut command = text.to_owned();
                while let Some(kept) = command.strip_suffix('\\') {
                    let more = lines.pop_front().unwrap_or_default();
                    command = format!("{kept}{}", more.trim_start());
                }
                let printed = Vec::new();
                list.push(Shown { command, printed });
            }
            (false, _) => list.push(Shown {
                command: bare(line).to_owned(),
                printed: Vec::new(),
            }),
        }
    }
    list
}

/// The program by its name, as installed; what cargo would build is built already.
fn ours(command: &str) -> Option<String> {
    if NOT_RUN.iter().any(|other| command.contains(other)) {
        return None;
    }
    let plain = command.replace("cargo run --release -- ", "trencher ");
    plain.starts_with("trencher ").then_some(plain)
}

fn run(command: &str, home: &Path, work: &Path) -> Output {
    let program = Path::new(env!("CARGO_BIN_EXE_trencher"));
    let folder = program.parent().expect("a folder").display().to_string();
    let path = std::env::var("PATH").unwrap_or_default();
    Command::new("sh")
        .args(["-c", command])
        .current_dir(work)
        .env("PATH", format!("{folder}:{path}"))
        .env("TRENCHER_HOME", home)
        .env("TRENCHER_NOW", NOW)
        .env("NO_COLOR", "1")
        .output()
        .expect("sh runs")
}

/// A folder with the files and the library that the README speaks of.
fn work() -> tempfile::TempDir {
    let work = tempfile::tempdir().expect("a folder");
    for (name, text) in FILES {
        fs::write(work.path().join(name), text).expect("written");
    }
    let dishes = Path::new(env!("CARGO_MANIFEST_DIR")).join("dishes");
    std::os::unix::fs::symlink(dishes, work.path().join("dishes")).expect("linked");
    work
}

/// Whether the lines are printed in this order, with nothing between them but where `...` says
/// so; otherwise the first that is not.
fn differs(printed: &[String], really: &str) -> Option<String> {
    let really: Vec<&str> = really.lines().map(str::trim_end).collect();
    let mut at = 0;
    let mut anywhere = false;
    // An empty line below parts it from the next command.
    let end = printed.iter().rposition(|line| !line.trim().is_empty());
    let printed = &printed[..end.map_or(0, |last| last + 1)];
    for line in printed.iter().map(|line| line.trim_end()) {
        if line == "..." {
            anywhere = true;
            continue;
        }
        let found = really[at..].iter().position(|own| *own == line);
        match found {
            Some(0) => at += 1,
            Some(far) if anywhere => at += far + 1,
            _ => return Some(line.to_owned()),
        }
        anywhere = false;
    }
    let more = really[at..].iter().find(|line| !line.is_empty());
    more.filter(|_| !anywhere)
        .map(|line| format!("(more is printed) {line}"))
}

#[test]
fn every_command_of_the_readme_does_what_it_says() {
    let readme = include_str!("../README.md");
    let work = work();
    let diary = tempfile::tempdir().expect("a folder");
    let (mut ran, mut compared) = (0, 0);
    let mut faults = Vec::new();
    for block in blocks(readme) {
        let transcript = block.iter().any(|line| line.starts_with("$ "));
        let own = tempfile::tempdir().expect("a folder");
        // The transcripts are of one person's days; what only lists commands stands alone.
        let home = if transcript { diary.path() } else { own.path() };
        for shown in commands(&block) {
            let Some(command) = ours(&shown.command) else {
                continue;
            };
            let output = run(&command, home, work.path());
            let out = String::from_utf8_lossy(&output.stdout);
            let err = String::from_utf8_lossy(&output.stderr);
            ran += 1;
            if output.status.code() != Some(0) {
                faults.push(format!("{command}\n  ends with {}: {err}", output.status));
            }
            if shown.printed.is_empty() {
                continue;
            }
            compared += 1;
            if let Some(line) = differs(&shown.printed, &out) {
                faults.push(format!("{command}\n  does not print: {line}\n{out}"));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n\n"));
    assert!(ran >= 40 && compared >= 5, "{ran} run, {compared} compared");
}

#[test]
fn a_wrong_line_is_seen() {
    let printed = |text: &str| -> Vec<String> { text.lines().map(str::to_owned).collect() };
    let really = "one\ntwo\nthree\n";
    assert_eq!(differs(&printed("one\n...\nthree"), really), None);
    assert_eq!(differs(&printed("one\n..."), really), None);
    assert!(differs(&printed("one\nthree"), really).is_some());
    assert!(differs(&printed("one\n...\nfour"), really).is_some());
    assert!(differs(&printed("one\ntwo"), really).is_some());
    assert_eq!(
        bare("trencher a \"b  c\"   what it does"),
        "trencher a \"b  c\""
    );
}
