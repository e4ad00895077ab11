//! The day log against slips and harm: backups of any size, files that are not what they
//! seem, answers that reach nobody, years that are none.

mod common_daylog;
mod common_run;

use common_daylog::{diner, entry, today};
use common_run::{command, told};
use std::fmt::Write as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use tempfile::TempDir;
use trencher::daylog::{ExportForm, Store};

const FILE: &str = "daylog.sqlite";

const NOW: &str = "2026-05-20T12:30:00+02:00[Europe/Berlin]";

fn trencher(home: &Path, args: &[&str]) -> Command {
    command(home, NOW, args)
}

fn run(home: &Path, args: &[&str]) -> Output {
    trencher(home, args).output().unwrap()
}

fn home() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    let ran = run(folder.path(), &["diner", "add", "Ana", "--energy", "2000"]);
    assert_eq!(ran.status.code(), Some(0), "{}", told(&ran));
    folder
}

/// Runs to the end; its output goes to a file. The most memory it held, MB, where the system
/// tells.
fn peak_mb(mut command: Command, to: &Path) -> Option<f64> {
    let out = std::fs::File::create(to).unwrap();
    let mut child = command.stdout(out).spawn().unwrap();
    let status = format!("/proc/{}/status", child.id());
    let mut most: Option<f64> = None;
    loop {
        let text = std::fs::read_to_string(&status).unwrap_or_default();
        let line = text.lines().find_map(|line| line.strip_prefix("VmHWM:"));
        let kb = line.and_then(|line| {
            line.trim()
                .trim_end_matches("kB")
                .trim()
                .parse::<f64>()
                .ok()
        });
        let now = kb.map(|kb| kb / 1024.0);
        most = now
            .filter(|now| most.is_none_or(|most| *now > most))
            .or(most);
        if let Some(ended) = child.try_wait().unwrap() {
            assert_eq!(ended.code(), Some(0));
            return most;
        }
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
}

/// `TRENCHER_ENTRIES=50000 cargo test --release --test attack_log many` does it with as many.
#[test]
fn many_entries_go_out_and_come_back_equal_in_little_memory() {
    let asked = std::env::var("TRENCHER_ENTRIES")
        .ok()
        .and_then(|many| many.parse().ok());
    let many: u32 = asked.unwrap_or(4_000);
    let (here, there) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let mut store = Store::open(&here.path().join(FILE)).unwrap();
    store.add_diner(&diner("Ana"), today()).unwrap();
    for from in (0..many).step_by(1_000) {
        let entries: Vec<_> = (from..many.min(from + 1_000))
            .map(|number| entry(today(), number, 8))
            .collect();
        store.eat_all("Ana", &entries).unwrap();
    }
    store.undo("Ana").unwrap();
    drop(store);
    for (form, name) in [("json", "all.json"), ("csv", "all.csv")] {
        let (first, second) = (here.path().join(name), there.path().join(name));
        let export = ["day", "export", "--format", form];
        let out = peak_mb(trencher(here.path(), &export), &first);
        let import = ["day", "import", first.to_str().unwrap()];
        let back = peak_mb(trencher(there.path(), &import), &there.path().join("said"));
        let said = std::fs::read_to_string(there.path().join("said")).unwrap();
        let brought = format!("{many} entries; here already: 0 entries");
        let present = format!("0 entries; here already: {many} entries");
        assert!(
            said.contains(&brought) || form == "csv" && said.contains(&present),
            "{said}"
        );
        peak_mb(trencher(there.path(), &export), &second);
        let (first, second) = (
            std::fs::read(first).unwrap(),
            std::fs::read(second).unwrap(),
        );
        assert!(first == second, "{form} differs");
        eprintln!(
            "{form}: {many} entries, {} bytes each, out {out:?} MB, back {back:?} MB",
            first.len() / many as usize
        );
        for peak in [out, back].into_iter().flatten() {
            assert!(peak < 100.0, "{form}: {peak} MB");
        }
    }
}

#[test]
fn a_backup_is_read_whatever_its_order_and_only_whole() {
    let here = home();
    let ran = run(here.path(), &["day", "eat", "--item", "1 cup rice"]);
    assert_eq!(ran.status.code(), Some(0), "{}", told(&ran));
    let mut whole = Vec::new();
    let store = Store::open(&here.path().join(FILE)).unwrap();
    store.export_to(None, ExportForm::Json, &mut whole).unwrap();
    let whole = String::from_utf8(whole).unwrap();
    let value: serde_json::Value = serde_json::from_str(&whole).unwrap();
    // Sorted by key, indented, with a mark before: as other programs save it.
    let there = tempfile::tempdir().unwrap();
    let file = there.path().join("b.json");
    let import = ["day", "import", file.to_str().unwrap()];
    let sorted: std::collections::BTreeMap<_, _> =
        value.as_object().unwrap().iter().rev().collect();
    std::fs::write(
        &file,
        format!("\u{feff}{}", serde_json::to_string_pretty(&sorted).unwrap()),
    )
    .unwrap();
    let ran = run(there.path(), &import);
    assert_eq!(ran.status.code(), Some(0), "{}", told(&ran));
    assert_eq!(
        run(there.path(), &["day", "export"]).stdout,
        whole.as_bytes()
    );
    // Broken ones bring nothing, and say why.
    let long = format!("\"{}\"", "x".repeat(3 << 20));
    for (text, part) in [
        (whole[..whole.len() / 2].to_owned(), "line"),
        (
            whole.replacen("\"version\":2", "\"version\":3", 1),
            "version 3",
        ),
        (
            whole.replacen("\"version\":2,", "", 1),
            "missing field `version`",
        ),
        (
            whole.replacen("\"version\":2,", "\"version\":2,\"version\":1,", 1),
            "duplicate",
        ),
        (
            whole.replacen("\"version\":2,", "\"version\":2,\"more\":[],", 1),
            "unknown field `more`",
        ),
        (whole.replacen("\"Ana\"", &long, 1), "larger than 1 MB"),
        (
            whole.replacen("\"entries\"", &format!("{long}:1,\"entries\""), 1),
            "larger than 1 MB",
        ),
    ] {
        let other = tempfile::tempdir().unwrap();
        std::fs::write(&file, text).unwrap();
        let ran = run(other.path(), &import);
        assert_eq!(ran.status.code(), Some(2), "{part}: {}", told(&ran));
        assert!(told(&ran).contains(part), "{part}: {}", told(&ran));
        let ran = run(other.path(), &["diner", "list"]);
        assert!(
            String::from_utf8_lossy(&ran.stdout).contains("no diner yet"),
            "{part}"
        );
    }
}

#[cfg(unix)]
#[test]
fn a_backup_may_come_through_a_pipe() {
    let (here, there) = (home(), tempfile::tempdir().unwrap());
    run(here.path(), &["day", "eat", "--item", "1 cup rice"]);
    let whole = run(here.path(), &["day", "export"]).stdout;
    let pipe = there.path().join("pipe");
    assert!(
        Command::new("mkfifo")
            .arg(&pipe)
            .status()
            .unwrap()
            .success()
    );
    let writer = std::thread::spawn({
        let (pipe, whole) = (pipe.clone(), whole.clone());
        move || std::fs::write(pipe, whole).unwrap()
    });
    let ran = run(there.path(), &["day", "import", pipe.to_str().unwrap()]);
    writer.join().unwrap();
    assert_eq!(ran.status.code(), Some(0), "{}", told(&ran));
    assert_eq!(run(there.path(), &["day", "export"]).stdout, whole);
    let ran = run(there.path(), &["day", "import", "."]);
    assert_eq!(ran.status.code(), Some(3), "{}", told(&ran));
    assert!(told(&ran).contains("folder"), "{}", told(&ran));
}

#[test]
fn limits_are_named_for_what_is_read() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("own.csv");
    let path = file.to_str().unwrap();
    let table = |foods: usize, pad: &str| {
        let mut text = "name,energy_kcal,like,source\n".to_owned();
        for at in 0..foods {
            let _ = writeln!(text, "house dish {at} of the long list,262,bread,{pad}");
        }
        text
    };
    // More than a megabyte, and fewer foods than a person may have.
    std::fs::write(&file, table(600, &"x".repeat(2_000))).unwrap();
    let ran = run(
        folder.path(),
        &[
            "--catalogue",
            path,
            "food",
            "find",
            "house dish 7 of the long list",
        ],
    );
    assert_eq!(ran.status.code(), Some(0), "{}", told(&ran));
    std::fs::write(&file, "x".repeat(33 << 20)).unwrap();
    let ran = run(
        folder.path(),
        &["--catalogue", path, "food", "find", "rice"],
    );
    assert!(told(&ran).contains("20,000 foods"), "{}", told(&ran));
    assert!(!told(&ran).contains("dish"), "{}", told(&ran));
    #[cfg(unix)]
    for args in [
        &["--catalogue", "/dev/zero", "food", "find", "rice"][..],
        &["audit", "/dev/zero"],
        &["audit", "rice", "--standard", "/dev/zero"],
        &["dish", "check", "/dev/zero"],
    ] {
        let ran = run(folder.path(), args);
        assert_eq!(ran.status.code(), Some(3), "{args:?}: {}", told(&ran));
        assert!(
            told(&ran).contains("larger than"),
            "{args:?}: {}",
            told(&ran)
        );
    }
}

#[cfg(unix)]
#[test]
fn rights_are_taken_from_the_log_alone_and_never_through_a_link() {
    use std::os::unix::fs::PermissionsExt;
    let set = |path: &Path| {
        let rights = std::fs::Permissions::from_mode(0o644);
        std::fs::set_permissions(path, rights).unwrap();
    };
    let mode = |path: &Path| std::fs::metadata(path).unwrap().permissions().mode() & 0o777;
    // Something else stands where the log should.
    let folder = tempfile::tempdir().unwrap();
    let other = folder.path().join(FILE);
    std::fs::write(&other, "somebody's notes, of no database at all").unwrap();
    set(&other);
    assert_eq!(run(folder.path(), &["day", "show"]).status.code(), Some(3));
    assert_eq!(mode(&other), 0o644);
    // A log that lies elsewhere.
    let (kept, home) = (home(), tempfile::tempdir().unwrap());
    let kept = kept.path().join(FILE);
    set(&kept);
    std::os::unix::fs::symlink(&kept, home.path().join(FILE)).unwrap();
    assert_eq!(run(home.path(), &["day", "show"]).status.code(), Some(0));
    assert_eq!(mode(&kept), 0o644);
    // The log itself.
    assert_eq!(
        run(kept.parent().unwrap(), &["day", "show"]).status.code(),
        Some(0)
    );
    assert_eq!(mode(&kept), 0o600);
}

#[cfg(target_os = "linux")]
#[test]
fn an_answer_that_reaches_nobody_says_what_was_kept() {
    let folder = home();
    let full = || {
        std::fs::OpenOptions::new()
            .write(true)
            .open("/dev/full")
            .unwrap()
    };
    for (args, part) in [
        (
            &["day", "eat", "--item", "1 cup rice"][..],
            "is logged for Ana",
        ),
        (&["day", "undo"], "is taken back"),
        (&["diner", "set", "Ana", "--energy", "2100"], "is kept"),
        (&["diner", "add", "Bo", "--energy", "2000"], "`Bo` is kept"),
        (&["diner", "remove", "Bo", "--yes"], "Bo is removed"),
    ] {
        let output = trencher(folder.path(), args)
            .stdout(full())
            .output()
            .unwrap();
        assert_eq!(output.status.code(), Some(3), "{args:?}");
        assert!(told(&output).contains(part), "{args:?}: {}", told(&output));
    }
}

#[test]
fn what_a_killed_first_run_left_is_cleared_away() {
    let folder = home();
    let long_ago = std::time::SystemTime::now() - std::time::Duration::from_hours(1);
    for (name, old) in [
        (".daylog-a1b2c3", true),
        (".daylog-a1b2c3-journal", true),
        (".daylog-new", false),
        (".other", true),
    ] {
        let path = folder.path().join(name);
        let file = std::fs::File::create(&path).unwrap();
        if old {
            file.set_modified(long_ago).unwrap();
        }
    }
    assert_eq!(run(folder.path(), &["day", "show"]).status.code(), Some(0));
    let names = std::fs::read_dir(folder.path()).unwrap();
    let mut names: Vec<_> = names
        .map(|item| item.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    assert_eq!(names, [".daylog-new", ".other", FILE]);
}

#[test]
fn a_removed_person_is_gone_also_where_another_tool_changed_the_journal() {
    let folder = home();
    let note = "zanzibar quandary";
    let item = format!("1 cup rice, {note}");
    run(
        folder.path(),
        &["diner", "add", "Quentin", "--energy", "2000"],
    );
    for _ in 0..3 {
        let ran = run(
            folder.path(),
            &["day", "eat", "--diner", "Quentin", "--item", &item],
        );
        assert!(
            ran.status.code().is_some_and(|code| code <= 1),
            "{}",
            told(&ran)
        );
    }
    let path = folder.path().join(FILE);
    let other = rusqlite::Connection::open(&path).unwrap();
    let mode: String = other
        .query_row("PRAGMA journal_mode = WAL", [], |row| row.get(0))
        .unwrap();
    assert_eq!(mode, "wal");
    run(
        folder.path(),
        &["day", "eat", "--diner", "Quentin", "--item", &item],
    );
    // While the other tool has it open, nothing sure can be said: nobody is removed.
    other
        .query_row("SELECT count(*) FROM entries", [], |row| {
            row.get::<_, i64>(0)
        })
        .unwrap();
    let ran = run(folder.path(), &["diner", "remove", "Quentin", "--yes"]);
    assert_eq!(ran.status.code(), Some(3), "{}", told(&ran));
    assert!(
        told(&ran).contains("nobody was removed") || told(&ran).contains("busy"),
        "{}",
        told(&ran)
    );
    drop(other);
    let ran = run(folder.path(), &["diner", "remove", "Quentin", "--yes"]);
    assert_eq!(ran.status.code(), Some(0), "{}", told(&ran));
    for item in std::fs::read_dir(folder.path()).unwrap() {
        let path = item.unwrap().path();
        let bytes = std::fs::read(&path).unwrap();
        for word in ["zanzibar", "Quentin"] {
            let found = bytes
                .windows(word.len())
                .any(|part| part == word.as_bytes());
            assert!(!found, "`{word}` is still in {}", path.display());
        }
    }
}

#[test]
fn years_that_nobody_logs_in_are_refused_by_name() {
    let folder = home();
    for (args, year) in [
        (
            &[
                "day",
                "eat",
                "--item",
                "1 cup rice",
                "--at",
                "0026-05-01 12:00",
            ][..],
            "26",
        ),
        (
            &[
                "day",
                "eat",
                "--item",
                "1 cup rice",
                "--at",
                "1026-05-01 12:00",
            ],
            "1026",
        ),
        (
            &[
                "day",
                "eat",
                "--item",
                "1 cup rice",
                "--at",
                "9998-05-01 12:00",
            ],
            "9998",
        ),
        (&["day", "show", "--date", "1026-05-01"], "1026"),
        (&["day", "left", "--date", "0026-05-01"], "26"),
    ] {
        let ran = run(folder.path(), args);
        assert_eq!(ran.status.code(), Some(2), "{args:?}: {}", told(&ran));
        assert!(told(&ran).contains(year), "{args:?}: {}", told(&ran));
    }
    assert!(
        !String::from_utf8_lossy(&run(folder.path(), &["day", "export"]).stdout).contains("rice")
    );
}

#[test]
fn a_dish_may_have_a_name_of_any_script() {
    let folder = tempfile::tempdir().unwrap();
    for name in ["親子丼", "Борщ", "समोसा चाट", "كشري"] {
        let into = folder.path().to_str().unwrap();
        let mut child = trencher(folder.path(), &["dish", "new", name, "--into", into])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        std::io::Write::write_all(&mut child.stdin.take().unwrap(), b"1 cup rice\n").unwrap();
        let ran = child.wait_with_output().unwrap();
        assert_eq!(ran.status.code(), Some(0), "{name}: {}", told(&ran));
        let list = run(folder.path(), &["dish", "show", name, "--library", into]);
        assert!(
            String::from_utf8_lossy(&list.stdout).contains(name),
            "{name}: {}",
            told(&list)
        );
    }
}

/// Whether these tests were started to outlive their terminal.
#[cfg(unix)]
fn hang_up_is_ignored() -> bool {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let ignored = status.lines().find_map(|line| line.strip_prefix("SigIgn:"));
    let mask = ignored.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok());
    mask.is_some_and(|mask| mask & 1 == 1)
}

#[cfg(unix)]
#[test]
fn a_hang_up_or_a_request_to_end_is_a_stop_like_any_other() {
    use std::io::Write as _;
    for signal in ["-TERM", "-HUP", "-INT"] {
        // Under `nohup` a hang-up is ignored on purpose.
        if signal == "-HUP" && hang_up_is_ignored() {
            continue;
        }
        let folder = tempfile::tempdir().unwrap();
        let (pipe, out) = (folder.path().join("pipe"), folder.path().join("out.csv"));
        assert!(
            Command::new("mkfifo")
                .arg(&pipe)
                .status()
                .unwrap()
                .success()
        );
        let args = [
            "menu",
            pipe.to_str().unwrap(),
            "--input",
            "csv",
            "-o",
            out.to_str().unwrap(),
        ];
        let child = trencher(folder.path(), &args)
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut writer = std::fs::OpenOptions::new().write(true).open(&pipe).unwrap();
        writer.write_all(b"item\n").unwrap();
        for _ in 0..1_000 {
            writer.write_all(b"rice\n").unwrap();
        }
        let partial = folder.path().join("out.csv.partial");
        while std::fs::metadata(&partial).map_or(0, |about| about.len()) < 4_000 {
            std::thread::sleep(std::time::Duration::from_millis(5));
        }
        let sent = Command::new("kill")
            .args([signal, &child.id().to_string()])
            .status()
            .unwrap();
        assert!(sent.success());
        std::thread::sleep(std::time::Duration::from_millis(200));
        // The row that it waits for wakes it.
        let _ = writer.write_all(&b"rice\n".repeat(20_000));
        drop(writer);
        let ended = child.wait_with_output().unwrap();
        assert_eq!(ended.status.code(), Some(1), "{signal}: {}", told(&ended));
        assert!(
            told(&ended).contains("go on with --resume"),
            "{signal}: {}",
            told(&ended)
        );
        assert!(partial.exists() && !out.exists(), "{signal}");
    }
}
