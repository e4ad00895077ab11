//! The day log under fire, with the real binary: killed, crowded, out of room, locked out,
//! damaged, old.

mod common_run;

use common_run::{command, done_at, run_at};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::sync::Mutex;
use std::time::Duration;

use trencher::daylog::{Export, Record, Store};

const FILE: &str = "daylog.sqlite";

const NOW: &str = "2026-05-20T12:30:00+02:00[Europe/Berlin]";

fn trencher(home: &Path, args: &[&str]) -> Command {
    let mut command = command(home, NOW, args);
    command.stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

fn run(home: &Path, args: &[&str]) -> Output {
    run_at(home, NOW, args)
}

fn done(home: &Path, args: &[&str]) -> String {
    done_at(home, NOW, args)
}

/// Fails with code 3 and returns what it said.
fn fails(output: &Output) -> String {
    let error = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(3), "{error}");
    assert!(output.stdout.is_empty(), "nothing is acknowledged");
    error
}

fn home() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    done(folder.path(), &["diner", "add", "Ana", "--energy", "2000"]);
    folder
}

fn rice(grams: usize) -> String {
    format!("{grams} g white rice, cooked")
}

fn spawn_eat(home: &Path, grams: usize) -> Child {
    let item = rice(grams);
    trencher(home, &["day", "eat", "--item", &item])
        .spawn()
        .unwrap()
}

fn eat(home: &Path, grams: usize) -> Output {
    spawn_eat(home, grams).wait_with_output().unwrap()
}

fn records(home: &Path) -> Vec<Record> {
    Export::from_json(&done(home, &["day", "export"]))
        .unwrap()
        .entries
}

/// How often each dish is there; every entry must be whole.
fn counted(home: &Path) -> BTreeMap<String, usize> {
    let mut counts = BTreeMap::new();
    for record in records(home) {
        let entry = &record.entry;
        assert_eq!(entry.check(), Ok(()));
        let grams: f64 = entry.dish.split(' ').next().unwrap().parse().unwrap();
        assert!((entry.grams.likely - grams).abs() < 1e-6, "{}", entry.dish);
        assert_eq!(entry.components.len(), 1);
        let kcal = entry.energy_kcal().unwrap().likely;
        assert!((kcal / grams - 1.3).abs() < 0.2, "{kcal} kcal of {grams} g");
        *counts.entry(entry.dish.clone()).or_insert(0) += 1;
    }
    counts
}

#[cfg(unix)]
#[test]
fn killed_at_random_moments_nothing_acknowledged_is_lost_and_nothing_is_half_there() {
    use std::os::unix::process::ExitStatusExt;
    const HANDS: usize = 4;
    // `TRENCHER_WRITES=5000 cargo test --test daylog_fire killed` goes on for as many.
    let asked = std::env::var("TRENCHER_WRITES").ok();
    let writes: usize = asked.and_then(|many| many.parse().ok()).unwrap_or(500);
    let folder = home();
    let home = folder.path();
    let acknowledged = Mutex::new(Vec::new());
    let killed = Mutex::new(0);
    std::thread::scope(|scope| {
        for hand in 0..HANDS {
            let (acknowledged, killed) = (&acknowledged, &killed);
            scope.spawn(move || {
                let mut random = fastrand::Rng::with_seed(hand as u64 + 1);
                for number in (hand + 1..=writes).step_by(HANDS) {
                    let mut child = spawn_eat(home, number);
                    if random.bool() {
                        std::thread::sleep(Duration::from_micros(random.u64(0..120_000)));
                        child.kill().unwrap();
                    }
                    let output = child.wait_with_output().unwrap();
                    if output.status.signal() == Some(9) {
                        *killed.lock().unwrap() += 1;
                    } else {
                        let error = String::from_utf8_lossy(&output.stderr);
                        assert_eq!(output.status.code(), Some(0), "{error}");
                    }
                    let said = String::from_utf8_lossy(&output.stdout);
                    if said.starts_with("Logged for Ana") {
                        acknowledged.lock().unwrap().push(rice(number));
                    }
                }
            });
        }
    });
    let (acknowledged, killed) = (
        acknowledged.into_inner().unwrap(),
        killed.into_inner().unwrap(),
    );
    let kept = counted(home);
    for dish in &acknowledged {
        assert_eq!(kept.get(dish), Some(&1), "acknowledged and gone: {dish}");
    }
    assert!(
        kept.values().all(|times| *times == 1),
        "something is there twice"
    );
    let written_unheard = kept.len() - acknowledged.len();
    println!(
        "{writes} writes, {killed} killed, {} acknowledged, {written_unheard} kept before they could say so",
        acknowledged.len()
    );
    assert!(killed > writes / 20, "the kills came too late: {killed}");
    assert!(acknowledged.len() > writes / 4);
    // The file is sound, and no journal or draft is left over after the next change.
    done(home, &["day", "undo"]);
    let left: Vec<_> = files(home)
        .into_iter()
        .filter(|f| f.contains("journal"))
        .collect();
    assert!(left.is_empty(), "{left:?}");
}

/// An entry as the model below knows it.
#[derive(Debug, Clone, PartialEq)]
struct Known {
    dish: String,
    share: f64,
    planned: bool,
    undone: bool,
}

/// Something done to a log.
#[derive(Debug, Clone, Copy)]
enum Deed {
    Eat(usize),
    Plan(usize),
    Edit(usize, usize),
    Remove(usize),
    Repeat(usize),
    Fulfil(usize),
    Undo,
}

/// What a log should hold, and what it held before each step that can be taken back.
#[derive(Debug, Clone, Default)]
struct Model {
    now: Vec<Known>,
    before: Vec<Vec<Known>>,
}

impl Model {
    /// A deed that can be done, at random.
    fn pick(&self, random: &mut fastrand::Rng, at: usize) -> Deed {
        let counting: Vec<usize> = (0..self.now.len())
            .filter(|n| !self.now[*n].undone)
            .collect();
        let Some(&picked) = counting.get(random.usize(..counting.len().max(1))) else {
            return Deed::Eat(at);
        };
        match random.u8(..8) {
            0 | 1 => Deed::Eat(at),
            2 => Deed::Plan(at),
            3 => Deed::Edit(picked, 2 + random.usize(..8)),
            4 => Deed::Remove(picked),
            5 if !self.before.is_empty() => Deed::Undo,
            6 if self.now[picked].planned => Deed::Fulfil(picked),
            _ => Deed::Repeat(picked),
        }
    }

    fn after(&self, deed: Deed) -> Self {
        let mut after = self.clone();
        if let Deed::Undo = deed {
            let before = after.before.pop().unwrap();
            let known = before.len();
            after.now.splice(..known, before);
            // What came into the log since counts no more.
            for entry in &mut after.now[known..] {
                entry.undone = true;
            }
            return after;
        }
        after.before.push(self.now.clone());
        let new = |grams, planned| Known {
            dish: rice(grams),
            share: 1.0,
            planned,
            undone: false,
        };
        match deed {
            Deed::Eat(grams) => after.now.push(new(grams, false)),
            Deed::Plan(grams) => after.now.push(new(grams, true)),
            Deed::Edit(at, part) => after.now[at].share = 1.0 / part as f64,
            Deed::Remove(at) => after.now[at].undone = true,
            Deed::Fulfil(at) => after.now[at].planned = false,
            Deed::Repeat(at) => after.now.push(Known {
                planned: false,
                ..after.now[at].clone()
            }),
            Deed::Undo => {}
        }
        after
    }

    fn arguments(deed: Deed) -> Vec<String> {
        let words = |text: &str| text.split(' ').map(str::to_owned).collect::<Vec<_>>();
        match deed {
            Deed::Eat(grams) => [words("day eat --item"), vec![rice(grams)]].concat(),
            Deed::Plan(grams) => [words("day plan --at 20:00 --item"), vec![rice(grams)]].concat(),
            Deed::Edit(at, part) => words(&format!("day edit {} --share 1/{part}", at + 1)),
            Deed::Remove(at) => words(&format!("day remove {}", at + 1)),
            Deed::Repeat(at) => words(&format!("day repeat {}", at + 1)),
            Deed::Fulfil(at) => words(&format!("day eat --planned {}", at + 1)),
            Deed::Undo => words("day undo"),
        }
    }
}

/// What the log of a diner really holds.
fn held(home: &Path, diner: &str) -> Vec<Known> {
    let store = Store::open(&home.join(FILE)).unwrap();
    let entries = store.export(Some(diner)).unwrap().entries;
    let known = |(at, record): (usize, Record)| {
        assert_eq!(record.entry.check(), Ok(()));
        assert_eq!(record.number as usize, at + 1);
        // Every figure goes with the share.
        let grams: f64 = record
            .entry
            .dish
            .split(' ')
            .next()
            .unwrap()
            .parse()
            .unwrap();
        let whole = record.entry.grams.likely / record.entry.share;
        assert!(
            (whole - grams).abs() < 1e-6,
            "{whole} g of {}",
            record.entry.dish
        );
        Known {
            dish: record.entry.dish,
            share: record.entry.share,
            planned: record.planned,
            undone: record.undone,
        }
    };
    entries.into_iter().enumerate().map(known).collect()
}

#[cfg(unix)]
#[test]
fn whatever_is_done_and_killed_is_done_whole_or_not_at_all() {
    use std::os::unix::process::ExitStatusExt;
    const HANDS: usize = 4;
    let asked = std::env::var("TRENCHER_DEEDS").ok();
    let deeds: usize = asked.and_then(|many| many.parse().ok()).unwrap_or(40);
    let folder = tempfile::tempdir().unwrap();
    let home = folder.path();
    let counts = Mutex::new((0, 0, 0));
    std::thread::scope(|scope| {
        for hand in 0..HANDS {
            let counts = &counts;
            scope.spawn(move || {
                let name = format!("Diner {hand}");
                done(home, &["diner", "add", &name, "--energy", "2000"]);
                let mut random = fastrand::Rng::with_seed(hand as u64 + 100);
                let mut model = Model::default();
                for at in 1..=deeds {
                    let deed = model.pick(&mut random, at);
                    let mut all = Model::arguments(deed);
                    all.extend(["--diner".to_owned(), name.clone()]);
                    let all: Vec<&str> = all.iter().map(String::as_str).collect();
                    let mut child = trencher(home, &all).spawn().unwrap();
                    if random.bool() {
                        std::thread::sleep(Duration::from_micros(random.u64(0..120_000)));
                        child.kill().unwrap();
                    }
                    let output = child.wait_with_output().unwrap();
                    let (after, really) = (model.after(deed), held(home, &name));
                    let killed = output.status.signal() == Some(9);
                    let mut counts = counts.lock().unwrap();
                    if killed && really == model.now {
                        counts.0 += 1;
                        continue;
                    }
                    if killed {
                        counts.1 += 1;
                    } else {
                        let error = String::from_utf8_lossy(&output.stderr);
                        assert_eq!(output.status.code(), Some(0), "{deed:?}: {error}");
                        counts.2 += 1;
                    }
                    drop(counts);
                    assert_eq!(really, after.now, "{deed:?}, killed: {killed}");
                    model = after;
                }
                // Everything can still be taken back, step by step.
                while !model.before.is_empty() {
                    model = model.after(Deed::Undo);
                    done(home, &["day", "undo", "--diner", &name]);
                    assert_eq!(held(home, &name), model.now);
                }
            });
        }
    });
    let (none, whole, told) = counts.into_inner().unwrap();
    println!("killed before {none}, killed after {whole}, acknowledged {told}");
    assert!(none > 0 && told > HANDS * deeds / 4);
    assert!(!files(home).iter().any(|file| file.contains("journal")));
}

#[test]
fn eight_hands_on_one_log_lose_no_change() {
    const EACH: usize = 6;
    let folder = home();
    let home = folder.path();
    std::thread::scope(|scope| {
        for hand in 0..8 {
            scope.spawn(move || {
                let eaten = [
                    "day",
                    "eat",
                    "--item",
                    &rice(100 + hand),
                    "--format",
                    "json",
                ];
                let eaten: serde_json::Value = serde_json::from_str(&done(home, &eaten)).unwrap();
                let number = eaten[0]["number"].to_string();
                for part in 2..2 + EACH {
                    let share = format!("1/{part}");
                    done(home, &["day", "edit", &number, "--share", &share]);
                }
                done(home, &["day", "repeat", &number]);
                done(home, &["day", "remove", &number]);
            });
        }
    });
    let all = held(home, "Ana");
    assert_eq!(all.len(), 16);
    assert_eq!(all.iter().filter(|known| known.undone).count(), 8);
    let last = 1.0 / (1 + EACH) as f64;
    assert!(all.iter().all(|known| (known.share - last).abs() < 1e-9));
    let changes = done(
        home,
        &["day", "changes", "--last", "1000", "--format", "csv"],
    );
    assert_eq!(changes.lines().count(), 1 + 8 * (EACH + 3));
}

fn files(folder: &Path) -> Vec<String> {
    let names = fs::read_dir(folder).unwrap();
    names
        .map(|file| file.unwrap().file_name().into_string().unwrap())
        .collect()
}

#[test]
fn eight_processes_at_once_and_every_entry_is_there() {
    const EACH: usize = 8;
    let folder = home();
    let home = folder.path();
    std::thread::scope(|scope| {
        for hand in 0..8 {
            scope.spawn(move || {
                for at in 0..EACH {
                    let output = eat(home, 100 * (hand + 1) + at);
                    let error = String::from_utf8_lossy(&output.stderr);
                    assert_eq!(output.status.code(), Some(0), "{error}");
                }
            });
        }
    });
    let kept = counted(home);
    assert_eq!(kept.len(), 8 * EACH);
    assert!(kept.values().all(|times| *times == 1));
}

#[test]
fn eight_first_runs_at_once_make_one_file() {
    let folder = tempfile::tempdir().unwrap();
    let home = folder.path();
    std::thread::scope(|scope| {
        for hand in 0..8 {
            scope.spawn(move || {
                let name = format!("Diner {hand}");
                done(home, &["diner", "add", &name, "--energy", "2000"]);
            });
        }
    });
    assert_eq!(done(home, &["diner", "list"]).lines().count(), 8);
}

/// A small file system in memory, where the system lets a test have one.
struct SmallDisk {
    folder: tempfile::TempDir,
}

impl SmallDisk {
    fn of(size: &str) -> Option<Self> {
        let folder = tempfile::tempdir().unwrap();
        let options = format!("size={size}");
        let mounted = Command::new("mount")
            .args(["-t", "tmpfs", "-o", &options, "tmpfs"])
            .arg(folder.path())
            .stderr(Stdio::null())
            .status();
        mounted
            .is_ok_and(|s| s.success())
            .then_some(Self { folder })
    }

    fn path(&self) -> &Path {
        self.folder.path()
    }

    fn read_only(&self) -> bool {
        let again = Command::new("mount")
            .args(["-o", "remount,ro"])
            .arg(self.path())
            .status();
        again.is_ok_and(|s| s.success())
    }
}

impl Drop for SmallDisk {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg(self.path()).status();
    }
}

/// Eats until it fails; the failure, and how many went well before.
fn until_full(mut eat: impl FnMut(usize) -> Output) -> (Output, usize) {
    for number in 1..200 {
        let output = eat(number);
        if output.status.code() != Some(0) {
            return (output, number - 1);
        }
    }
    panic!("never full");
}

#[cfg(unix)]
#[test]
fn a_full_disk_is_told_and_leaves_the_old_state() {
    let Some(disk) = SmallDisk::of("160k") else {
        println!("skipped: this system lets no test mount a file system; see the next test");
        return;
    };
    done(disk.path(), &["diner", "add", "Ana", "--energy", "2000"]);
    let (failed, went_well) = until_full(|number| eat(disk.path(), number));
    assert!(went_well > 3, "{went_well}");
    assert!(fails(&failed).contains("the disk is full"));
    let kept = counted(disk.path());
    assert_eq!(kept.len(), went_well);
    // Still there, still the same, still told.
    let again = eat(disk.path(), 500);
    assert!(fails(&again).contains("make room and repeat it"));
    assert_eq!(counted(disk.path()), kept);
}

#[cfg(unix)]
#[test]
fn a_limit_on_file_size_is_told_and_leaves_the_old_state() {
    let folder = home();
    let home = folder.path();
    done(home, &["day", "eat", "--item", &rice(1)]);
    // A wrapper that sets the limit (in blocks of 512 bytes) and lets a write fail instead of
    // killing the program.
    let limited = |number: usize| {
        Command::new("sh")
            .arg("-c")
            .arg("trap '' XFSZ; ulimit -f 96; exec \"$0\" \"$@\"")
            .arg(env!("CARGO_BIN_EXE_trencher"))
            .args(["day", "eat", "--item", &rice(number)])
            .env("TRENCHER_HOME", home)
            .output()
            .unwrap()
    };
    let (failed, went_well) = until_full(|number| limited(number + 1));
    let error = fails(&failed);
    assert!(error.contains("a limit on file size is reached"), "{error}");
    assert_eq!(counted(home).len(), went_well + 1);
    // Without the limit the same write goes through.
    done(home, &["day", "eat", "--item", &rice(900)]);
    assert_eq!(counted(home).len(), went_well + 2);
}

#[cfg(unix)]
#[test]
fn a_folder_that_cannot_be_written_is_told_and_what_is_there_can_be_read() {
    use std::os::unix::fs::PermissionsExt;
    let close = |folder: &Path| {
        fs::set_permissions(folder, fs::Permissions::from_mode(0o555)).unwrap();
        // Whoever is root writes all the same.
        fs::write(folder.join("probe"), "x").is_err()
    };
    let plain = home();
    let disk = SmallDisk::of("1m");
    let locked: PathBuf = if let Some(disk) = &disk {
        done(disk.path(), &["diner", "add", "Ana", "--energy", "2000"]);
        done(disk.path(), &["day", "eat", "--item", &rice(5)]);
        assert!(disk.read_only());
        disk.path().to_owned()
    } else {
        done(plain.path(), &["day", "eat", "--item", &rice(5)]);
        fs::set_permissions(plain.path().join(FILE), fs::Permissions::from_mode(0o400)).unwrap();
        if !close(plain.path()) {
            println!("skipped: root writes into any folder, and no file system can be mounted");
            return;
        }
        plain.path().to_owned()
    };
    let before = fs::read(locked.join(FILE)).unwrap();
    let error = fails(&eat(&locked, 6));
    assert!(
        error.contains("cannot be written, so nothing was changed"),
        "{error}"
    );
    assert!(error.contains("TRENCHER_HOME"), "{error}");
    assert_eq!(fs::read(locked.join(FILE)).unwrap(), before);
    assert_eq!(counted(&locked).len(), 1);
    assert!(done(&locked, &["day", "show"]).contains("5 g white rice"));
    // Nothing there yet and no way to make it.
    let error = fails(&run(
        &locked.join("new"),
        &["diner", "add", "Bo", "--energy", "2000"],
    ));
    assert!(error.contains("cannot be written"), "{error}");
}

#[test]
fn a_damaged_file_is_told_and_never_overwritten() {
    let folder = home();
    let home = folder.path();
    done(home, &["day", "eat", "--item", &rice(5)]);
    let path = home.join(FILE);
    let sound = fs::read(&path).unwrap();
    let mut damages = vec![b"not a database at all".to_vec(), Vec::new()];
    damages.push(sound[..sound.len() / 2].to_vec());
    let mut holes = sound.clone();
    for byte in &mut holes[4096..8192] {
        *byte = 0xA5;
    }
    damages.push(holes);
    for damaged in damages {
        fs::write(&path, &damaged).unwrap();
        for args in [
            &["day", "show"][..],
            &["day", "eat", "--item", "5 g white rice"],
            &["diner", "add", "Bo", "--energy", "2000"],
            &["diner", "remove", "Ana", "--yes"],
            &["audit", "cobb salad", "--diner", "Ana"],
        ] {
            let error = fails(&run(home, args));
            assert!(error.contains("is damaged"), "{args:?}: {error}");
            assert!(error.contains("left untouched"), "{error}");
            assert!(error.contains("trencher day import FILE"), "{error}");
            assert_eq!(fs::read(&path).unwrap(), damaged, "{args:?}");
        }
    }
}

#[test]
fn a_file_of_version_1_becomes_a_current_one_with_all_it_held() {
    let folder = home();
    let home = folder.path();
    done(home, &["day", "eat", "--item", &rice(5)]);
    done(home, &["day", "eat", "--item", &rice(6)]);
    done(home, &["day", "undo"]);
    let before = records(home);
    // Back to version 1: what versions 2 and 3 added is taken away.
    let file = rusqlite::Connection::open(home.join(FILE)).unwrap();
    file.execute_batch(
        "DROP INDEX entries_by_uid; ALTER TABLE entries DROP COLUMN uid;
         DROP TABLE changes; DROP INDEX entries_by_number; ALTER TABLE entries DROP COLUMN number;
         ALTER TABLE entries DROP COLUMN planned; PRAGMA user_version = 1;",
    )
    .unwrap();
    drop(file);
    let after = records(home);
    assert_eq!(after.len(), 2);
    for (old, new) in before.iter().zip(&after) {
        assert_eq!((&old.entry, old.undone), (&new.entry, new.undone));
        assert_eq!(new.uid.len(), 32);
    }
    assert_ne!(after[0].uid, after[1].uid);
    // Undo goes on where it was.
    assert!(done(home, &["day", "undo"]).contains("5 g white rice"));
    assert!(Store::open(&home.join(FILE)).is_ok());
    // A later version is left alone.
    let file = rusqlite::Connection::open(home.join(FILE)).unwrap();
    file.execute_batch("PRAGMA user_version = 99;").unwrap();
    drop(file);
    assert!(fails(&run(home, &["day", "show"])).contains("update trencher"));
}
