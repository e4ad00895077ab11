//! Corrections end to end: made once, kept in a plain file, honoured by every command, taken
//! back; and the file damaged, foreign or out of place.

use assert_cmd::Command;
use predicates::prelude::*;
use predicates::str::contains;
use std::path::Path;

/// Words that no table knows, so that what is found for them rests on the correction.
const WORDS: &str = "zorblax delight";

fn trencher(home: &Path) -> Command {
    let mut command = Command::cargo_bin("trencher").expect("the binary is built");
    command.env("NO_COLOR", "1").env("TRENCHER_HOME", home);
    command
}

fn home() -> tempfile::TempDir {
    tempfile::tempdir().expect("a folder")
}

fn file_of(home: &Path) -> std::path::PathBuf {
    home.join("corrections.csv")
}

fn correct(home: &Path, words: &str, food: &str) {
    trencher(home)
        .args(["food", "find", words, "--correct", food])
        .assert()
        .success()
        .stderr(contains("from now on"));
}

#[test]
fn every_command_that_matches_honours_a_correction_and_says_so() {
    let home = home();
    let home = home.path();
    correct(home, WORDS, "banana");
    trencher(home)
        .args(["food", "find", "Zorblax Delights", "--why"])
        .assert()
        .success()
        .stdout(contains("banana").and(contains("sure")))
        .stdout(predicate::str::is_match(r"corrected by you on \d{4}-\d\d-\d\d").expect("regex"));
    let item = format!("100 g {WORDS}");
    let output = trencher(home)
        .args(["audit", "--item", &item, "--format", "json"])
        .output()
        .expect("runs");
    assert_eq!(output.status.code(), Some(0));
    let audit: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let component = &audit["components"][0];
    assert_eq!(component["certainty"], "sure");
    assert!(
        component["food"]
            .as_str()
            .is_some_and(|f| f.starts_with("banana")),
        "{component}"
    );
    trencher(home)
        .args(["audit", "--item", &item, "--why"])
        .assert()
        .success()
        .stdout(contains("corrected by you on"));
    trencher(home)
        .args(["food", "show", WORDS])
        .assert()
        .success();
    trencher(home)
        .args(["food", "equal", &item])
        .assert()
        .success();
    trencher(home)
        .args(["food", "match", "-", "--why"])
        .write_stdin(format!("name\n{WORDS}\n"))
        .assert()
        .success()
        .stdout(contains("1.000,sure,corrected by you on"));
}

#[test]
fn another_table_is_not_matched_by_corrections_to_ours() {
    let home = home();
    correct(home.path(), "apple", "banana, raw");
    let targets = home.path().join("targets.csv");
    std::fs::write(&targets, "name\napple\nbanana\n").expect("written");
    trencher(home.path())
        .args(["food", "match", "-", "--targets"])
        .arg(&targets)
        .write_stdin("name\napple\n")
        .assert()
        .success()
        .stdout(contains("apple,1,apple,"));
}

#[test]
fn words_can_mean_no_food_at_all() {
    let home = home();
    trencher(home.path())
        .args(["food", "find", "banana", "--correct", "none"])
        .assert()
        .success();
    trencher(home.path())
        .args(["audit", "--item", "100 g banana", "--item", "1 cup rice"])
        .assert()
        .code(1)
        .stdout(contains("banana"));
    trencher(home.path())
        .args(["food", "match", "-"])
        .write_stdin("name\nbananas\n")
        .assert()
        .code(1)
        .stdout(contains("bananas,1,,,none"));
}

#[test]
fn listed_replaced_and_taken_back() {
    let home = home();
    let home = home.path();
    let list = || {
        let mut command = trencher(home);
        command.args(["food", "corrections", "list"]);
        command
    };
    list().assert().success().stdout(contains("No corrections"));
    assert!(!file_of(home).exists(), "listing makes no file");
    correct(home, WORDS, "banana");
    correct(home, WORDS, "apple");
    correct(home, "chips", "fries");
    list()
        .assert()
        .success()
        .stdout(contains("apple").and(contains("banana").not()))
        .stdout(contains(file_of(home).display().to_string()));
    list()
        .args(["--format", "csv"])
        .assert()
        .stdout(predicate::str::starts_with(
            "words,food,code,date\nzorblax delight,",
        ));
    trencher(home)
        .args(["food", "corrections", "remove", "Zorblax", "delights"])
        .assert()
        .success();
    list()
        .assert()
        .stdout(contains("zorblax").not().and(contains("chips")));
    trencher(home)
        .args(["food", "corrections", "remove", WORDS])
        .assert()
        .code(2)
        .stderr(contains("there is no correction of `zorblax delight`"));
}

#[cfg(unix)]
#[test]
fn the_file_is_its_owners_alone() {
    use std::os::unix::fs::PermissionsExt;
    let home = home();
    let inner = home.path().join("new/folder");
    correct(&inner, WORDS, "banana");
    let mode = |path: &Path| {
        let found = std::fs::metadata(path).expect("is there");
        found.permissions().mode() & 0o777
    };
    assert_eq!(mode(&file_of(&inner)), 0o600);
    assert_eq!(mode(&inner), 0o700);
    let text = std::fs::read_to_string(file_of(&inner)).expect("text");
    assert!(
        text.starts_with("words,code,food,date\nzorblax delight,"),
        "{text}"
    );
}

#[test]
fn a_damaged_file_is_told_by_line_and_never_changed() {
    let home = home();
    let text = "words,code,food,date\nchips,71201015,potato chips,yesterday\n";
    std::fs::write(file_of(home.path()), text).expect("written");
    for arguments in [
        &["food", "find", "banana"][..],
        &["food", "find", "banana", "--correct", "apple"],
        &["audit", "--item", "1 banana"],
        &["food", "corrections", "list"],
        &["food", "corrections", "remove", "chips"],
    ] {
        trencher(home.path())
            .args(arguments)
            .assert()
            .code(3)
            .stderr(contains("line 2 `yesterday` is no date").and(contains("corrections.csv")));
    }
    assert_eq!(
        std::fs::read_to_string(file_of(home.path())).expect("text"),
        text
    );
}

#[test]
fn a_correction_to_an_unknown_food_is_reported_and_kept() {
    let home = home();
    let text = "words,code,food,date\nbanana,99999999,moon fruit,2025-01-02\n";
    std::fs::write(file_of(home.path()), text).expect("written");
    trencher(home.path())
        .args(["food", "find", "banana"])
        .assert()
        .success()
        .stdout(contains("banana"))
        .stderr(contains("99999999").and(contains("not used")));
    correct(home.path(), "chips", "fries");
    let kept = std::fs::read_to_string(file_of(home.path())).expect("text");
    assert!(
        kept.contains("banana,99999999,moon fruit,2025-01-02"),
        "{kept}"
    );
}

#[test]
fn wrong_requests() {
    let home = home();
    trencher(home.path())
        .args(["food", "find", "banana", "--correct", "qqqq xxyy"])
        .assert()
        .code(2);
    trencher(home.path())
        .args(["food", "find", "--correct", "banana", "--", "!?"])
        .assert()
        .code(2)
        .stderr(contains("no word to correct"));
    assert!(!file_of(home.path()).exists());
    trencher(Path::new("here"))
        .args(["food", "find", "banana"])
        .assert()
        .code(3)
        .stderr(contains("TRENCHER_HOME"));
    for dish in ["-", "beef and broccoli"] {
        trencher(home.path())
            .args(["audit", dish, "--interactive"])
            .write_stdin("1\ny\n")
            .assert()
            .code(2)
            .stderr(contains("--interactive asks on the terminal"));
    }
}

/// Eight runs at once, each with five words of its own: none loses another's.
#[test]
fn runs_at_the_same_time_lose_nothing() {
    let home = home();
    let run = |words: &str| {
        std::process::Command::new(assert_cmd::cargo::cargo_bin("trencher"))
            .args(["food", "find", words, "--correct", "banana, raw"])
            .env("TRENCHER_HOME", home.path())
            .stdout(std::process::Stdio::null())
            .stderr(std::process::Stdio::null())
            .spawn()
            .expect("started")
    };
    for round in 0..5 {
        let runs: Vec<_> = (0..8)
            .map(|at| run(&format!("zorblax round{round} run{at}")))
            .collect();
        for mut one in runs {
            assert!(one.wait().expect("ended").success());
        }
    }
    let kept = std::fs::read_to_string(file_of(home.path())).expect("kept");
    for round in 0..5 {
        for at in 0..8 {
            let words = format!("zorblax round{round} run{at},");
            assert!(kept.contains(&words), "{words} is lost:\n{kept}");
        }
    }
}

/// A menu line in which nothing means a food is asked about, at a terminal of its own.
#[cfg(unix)]
#[test]
fn a_menu_line_without_a_food_is_asked_about() -> Result<(), rexpect::error::Error> {
    let home = home();
    let line = "qqxqy zzkw";
    let ask = || {
        let mut command = std::process::Command::new(assert_cmd::cargo::cargo_bin("trencher"));
        command
            .args(["audit", "--interactive", line])
            .env("NO_COLOR", "1")
            .env("TRENCHER_HOME", home.path());
        rexpect::session::spawn_command(command, Some(30_000))
    };
    // Left as it is: shown, with nothing counted.
    let mut session = ask()?;
    session.exp_string("No food fits `qqxqy zzkw`.")?;
    session.exp_string("Which is meant?")?;
    session.send_line("")?;
    let page = session.exp_eof()?;
    assert!(
        page.contains("not counted, no such food: qqxqy zzkw"),
        "{page}"
    );
    assert!(!file_of(home.path()).exists());
    // Answered: it is that food, and so it is from then on.
    let mut session = ask()?;
    session.exp_string("Which is meant?")?;
    session.send_line("brown rice")?;
    session.exp_string("  1  ")?;
    session.exp_string("Which is meant?")?;
    session.send_line("1")?;
    session.exp_string("from now on? [y/N]")?;
    session.send_line("y")?;
    let page = session.exp_eof()?;
    assert!(page.contains("grains"), "{page}");
    assert!(!page.contains("not counted"), "{page}");
    trencher(home.path())
        .args(["audit", line])
        .assert()
        .success()
        .stdout(contains("rice").and(contains("1 sure")));
    Ok(())
}

/// The dialogue at a terminal of its own.
#[cfg(unix)]
#[test]
fn asked_at_the_terminal_answered_and_remembered() -> Result<(), rexpect::error::Error> {
    let home = home();
    let mut command = std::process::Command::new(assert_cmd::cargo::cargo_bin("trencher"));
    command
        .args(["audit", "--interactive", "--item"])
        .arg(format!("100 g {WORDS}"))
        .env("NO_COLOR", "1")
        .env("TRENCHER_HOME", home.path());
    let mut session = rexpect::session::spawn_command(command, Some(30_000))?;
    session.exp_string("Which is meant?")?;
    session.send_line("banana")?;
    session.exp_string("  1  banana")?;
    session.exp_string("Which is meant?")?;
    session.send_line("1")?;
    session.exp_string("from now on? [y/N]")?;
    session.send_line("y")?;
    let page = session.exp_eof()?;
    assert!(page.contains("banana"), "{page}");
    let kept = std::fs::read_to_string(file_of(home.path())).expect("kept");
    assert!(kept.contains("zorblax delight,"), "{kept}");
    trencher(home.path())
        .args(["food", "find", WORDS])
        .assert()
        .success()
        .stdout(contains("sure"));
    Ok(())
}
