//! The guard rails as a table of cases (`data/guard_rails.csv`): age, pregnancy, body mass index
//! from 15 to 45, aims, conditions, stated energies; what is said, what is refused, and where
//! that comes from. Each row is run with the real binary.

mod common_run;

use common_run::{NOON, run_at};
use std::path::Path;
use std::process::Output;

const CASES: &str = include_str!("data/guard_rails.csv");

#[derive(Debug, serde::Deserialize)]
struct Case {
    #[serde(rename = "case")]
    who: String,
    /// Options of `diner add`; quotes keep words together.
    options: String,
    /// `figure` or `refused`.
    outcome: String,
    /// What the answer says, whatever its line breaks.
    says: String,
    /// What it must not say.
    never: String,
    source: String,
}

fn cases() -> Vec<Case> {
    let mut reader = csv::Reader::from_reader(CASES.as_bytes());
    reader
        .deserialize()
        .collect::<Result<_, _>>()
        .expect("the table reads")
}

fn words(line: &str) -> Vec<String> {
    let parts = line.split('\'').enumerate();
    parts
        .flat_map(|(at, part)| match at % 2 {
            0 => part.split_whitespace().map(str::to_owned).collect(),
            _ => vec![part.to_owned()],
        })
        .collect()
}

fn run(home: &Path, args: &[String]) -> Output {
    run_at(home, NOON, args)
}

/// Both outputs on one line.
fn said(output: &Output) -> String {
    let both = [&output.stdout, &output.stderr].map(|b| String::from_utf8_lossy(b).into_owned());
    both.join(" ")
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}

#[test]
fn every_case_is_answered_as_the_table_says() {
    let cases = cases();
    let mut wrong = Vec::new();
    for case in &cases {
        let home = tempfile::tempdir().expect("a folder");
        let mut args: Vec<String> = ["diner", "add", "Guest"].map(str::to_owned).to_vec();
        args.extend(words(&case.options));
        let output = run(home.path(), &args);
        let said = said(&output);
        let code = if case.outcome == "figure" { 0 } else { 2 };
        let given = output.status.code() == Some(code);
        let silent = case.never.is_empty() || !said.contains(&case.never);
        if !given || !said.contains(&case.says) || !silent {
            wrong.push(format!("{} ({}): {said}", case.who, case.source));
        }
        assert!(!case.source.is_empty(), "{} has no source", case.who);
    }
    assert!(
        wrong.is_empty(),
        "{} of {} wrong:\n{}",
        wrong.len(),
        cases.len(),
        wrong.join("\n")
    );
    assert!(cases.len() > 80, "only {} cases", cases.len());
}

/// What is changed later meets the same rails as what is said at first: whoever has a log keeps
/// it, and an aim or an energy that no figure may be given for is not taken.
#[test]
fn the_same_rails_stand_when_details_are_changed() {
    let cases = cases();
    let mut tried = 0;
    for case in cases.iter().filter(|c| c.options.contains("--activity")) {
        let home = tempfile::tempdir().expect("a folder");
        let add = "diner add Guest --sex female --age 30 --height '170 cm' --weight '65 kg' --activity active";
        assert_eq!(run(home.path(), &words(add)).status.code(), Some(0));
        let mut args: Vec<String> = ["diner", "set", "Guest"].map(str::to_owned).to_vec();
        let options = case
            .options
            .replace("--pregnant-or-nursing", "--pregnant-or-nursing yes");
        args.extend(words(&options));
        let output = run(home.path(), &args);
        let said = said(&output);
        assert!(said.contains(&case.says), "{}: {said}", case.who);
        if case.outcome == "refused" && case.never == "kcal" {
            let page = said.split("as before").last().unwrap_or(&said);
            let page = page.split("no figure now").last().unwrap_or(page);
            assert!(!page.contains("kcal a day"), "{}: {said}", case.who);
        }
        tried += 1;
    }
    assert!(tried > 60, "only {tried} tried");
}
