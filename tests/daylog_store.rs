//! The day log's file: diners, entries, exports, older layouts, damaged files.

mod common_daylog;

use std::fs;
use std::path::{Path, PathBuf};

use common_daylog::{diner, entry, today};
use jiff::ToSpan;
use jiff::civil::date;
use tempfile::TempDir;
use trencher::daylog::{Entry, Export, ImportFault, LogError, Store};
use trencher::people::Aim;

fn fresh() -> (TempDir, PathBuf, Store) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("data/daylog.sqlite");
    let store = Store::open(&path).unwrap();
    (folder, path, store)
}

fn dishes(records: &[trencher::daylog::Record]) -> Vec<String> {
    records
        .iter()
        .map(|record| record.entry.dish.clone())
        .collect()
}

fn files(folder: &Path) -> Vec<String> {
    let names = fs::read_dir(folder).unwrap();
    let mut names: Vec<String> = names
        .map(|file| file.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[cfg(unix)]
#[test]
fn only_the_owner_can_read_it() {
    use std::os::unix::fs::PermissionsExt;
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    let (_folder, path, store) = fresh();
    assert_eq!(mode(&path), 0o600);
    assert_eq!(mode(path.parent().unwrap()), 0o700);
    drop(store);
    fs::set_permissions(&path, fs::Permissions::from_mode(0o644)).unwrap();
    Store::open(&path).unwrap();
    assert_eq!(mode(&path), 0o600);
    assert_eq!(files(path.parent().unwrap()), ["daylog.sqlite"]);
}

#[test]
fn diners_come_back_as_they_were_given() {
    let (_folder, path, mut store) = fresh();
    let mut ana = diner("Ána María");
    ana.aim = Aim::Gain;
    ana.group_portions.insert("grains".to_owned(), 0.1 + 0.2);
    store.add_diner(&ana, today()).unwrap();
    store.add_diner(&diner("Bo"), today()).unwrap();
    let store = Store::open(&path).unwrap();
    assert_eq!(store.diners().unwrap(), [diner("Bo"), ana.clone()]);
    assert_eq!(store.diner(" áNA maría ").unwrap(), ana);
    // The same letters put together from parts.
    assert_eq!(store.diner("A\u{301}na Mari\u{301}a").unwrap(), ana);
}

#[test]
fn names_are_one_persons_and_faults_are_refused() {
    let (_folder, _path, mut store) = fresh();
    store.add_diner(&diner("Ana"), today()).unwrap();
    let taken = store.add_diner(&diner("ANA"), today()).unwrap_err();
    assert_eq!(
        taken.to_string(),
        "there is a diner named `Ana` already; choose another name or remove that one"
    );
    let nobody = trencher::people::Diner::named("No Figures");
    assert!(matches!(
        store.add_diner(&nobody, today()),
        Err(LogError::Diner(_))
    ));
    let missing = store.eat("Bo", &entry(today(), 1, 1)).unwrap_err();
    assert_eq!(missing.to_string(), "no diner is named `Bo`; known: Ana");
    store.add_diner(&diner("Bo"), today()).unwrap();
    let swap = store.update_diner("Bo", &diner("Ana"), today());
    assert!(matches!(swap, Err(LogError::NameTaken { .. })));
    store.eat("Bo", &entry(today(), 1, 1)).unwrap();
    store.update_diner("bo", &diner("Bob"), today()).unwrap();
    assert_eq!(store.day("Bob", today()).unwrap()[0].diner, "Bob");
    assert!(matches!(
        store.day("Bo", today()),
        Err(LogError::NoDiner { .. })
    ));
}

#[test]
fn entries_stay_by_value_and_days_are_apart() {
    let (_folder, path, mut store) = fresh();
    store.add_diner(&diner("Ana"), today()).unwrap();
    store.add_diner(&diner("Bo"), today()).unwrap();
    let yesterday = today().yesterday().unwrap();
    // Logged out of order.
    for (day, number) in [(today(), 300), (today(), 200), (yesterday, 100)] {
        store.eat("Ana", &entry(day, number, 3)).unwrap();
    }
    store.eat("Bo", &entry(today(), 400, 3)).unwrap();
    let store = Store::open(&path).unwrap();
    let day = store.day("ana", today()).unwrap();
    assert_eq!(dishes(&day), ["dish 200", "dish 300"]);
    assert_eq!(day[1].entry, entry(today(), 300, 3));
    assert_eq!(dishes(&store.day("Ana", yesterday).unwrap()), ["dish 100"]);
    assert_eq!(dishes(&store.day("Bo", today()).unwrap()), ["dish 400"]);
    assert!(store.day("Bo", yesterday).unwrap().is_empty());
}

#[test]
fn entries_that_are_no_amounts_are_not_logged() {
    let (_folder, _path, mut store) = fresh();
    store.add_diner(&diner("Ana"), today()).unwrap();
    let mut bad = entry(today(), 1, 1);
    bad.share = f64::NAN;
    assert!(matches!(store.eat("Ana", &bad), Err(LogError::Entry(_))));
    assert!(store.day("Ana", today()).unwrap().is_empty());
}

#[test]
fn undo_takes_back_one_after_another() {
    let (_folder, _path, mut store) = fresh();
    store.add_diner(&diner("Ana"), today()).unwrap();
    store.add_diner(&diner("Bo"), today()).unwrap();
    for number in [1, 2, 3] {
        store.eat("Ana", &entry(today(), number, 1)).unwrap();
    }
    store.eat("Bo", &entry(today(), 4, 1)).unwrap();
    let undone = |undone: Vec<trencher::daylog::Undone>| {
        let last = undone.into_iter().next_back();
        last.map(|undone| (undone.now.entry.dish, undone.now.undone))
    };
    assert_eq!(
        undone(store.undo("Ana").unwrap()),
        Some(("dish 3".to_owned(), true))
    );
    assert_eq!(
        undone(store.undo("Ana").unwrap()),
        Some(("dish 2".to_owned(), true))
    );
    assert_eq!(dishes(&store.day("Ana", today()).unwrap()), ["dish 1"]);
    store.eat("Ana", &entry(today(), 5, 1)).unwrap();
    assert_eq!(
        undone(store.undo("Ana").unwrap()),
        Some(("dish 5".to_owned(), true))
    );
    assert_eq!(
        undone(store.undo("Ana").unwrap()),
        Some(("dish 1".to_owned(), true))
    );
    assert_eq!(store.undo("Ana").unwrap(), []);
    assert_eq!(dishes(&store.day("Bo", today()).unwrap()), ["dish 4"]);
}

#[test]
fn history_has_every_day_and_only_what_counts() {
    let (_folder, _path, mut store) = fresh();
    store.add_diner(&diner("Ana"), today()).unwrap();
    for (back, number) in [(0, 10), (0, 20), (13, 30), (14, 40), (2, 50)] {
        let day = today().checked_sub(back.days()).unwrap();
        store.eat("Ana", &entry(day, number, 1)).unwrap();
    }
    store.undo("Ana").unwrap();
    let history = store.history("Ana", today(), 2).unwrap();
    assert_eq!(history.len(), 14);
    assert_eq!(history[0].date, date(2026, 5, 7));
    assert_eq!(history[13].date, today());
    let counts: Vec<usize> = history.iter().map(|day| day.entries).collect();
    assert_eq!(counts, [1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 2]);
    let energy = history[13].energy().unwrap().amount.likely;
    assert!((energy - (30.0 * 1.1 + 2.0)).abs() < 1e-9);
    // Weeks with a change of the clock have as many days as others.
    let spring = store.history("Ana", date(2026, 3, 30), 1).unwrap();
    assert_eq!(spring.len(), 7);
}

#[test]
fn a_removed_person_leaves_no_trace_in_the_folder() {
    let (_folder, path, mut store) = fresh();
    store.add_diner(&diner("Zebulon Quirk"), today()).unwrap();
    store.add_diner(&diner("Ana"), today()).unwrap();
    for number in 0..60 {
        let mut eaten = entry(today(), number, 20);
        eaten.dish = format!("xylophone soup {number}");
        eaten.components[0].text = "zucchini-of-zebulon".to_owned();
        store.eat("Zebulon Quirk", &eaten).unwrap();
        store.eat("Ana", &entry(today(), number, 20)).unwrap();
    }
    store.undo("Zebulon Quirk").unwrap();
    let traces = |path: &Path| {
        let folder = path.parent().unwrap();
        let mut found = Vec::new();
        for name in files(folder) {
            let bytes = fs::read(folder.join(&name)).unwrap();
            for trace in ["Zebulon", "zebulon", "xylophone"] {
                if bytes
                    .windows(trace.len())
                    .any(|part| part == trace.as_bytes())
                {
                    found.push((name.clone(), trace));
                }
            }
        }
        found
    };
    assert!(!traces(&path).is_empty());
    let before = fs::metadata(&path).unwrap().len();
    let removed = store.remove_diner("zebulon quirk").unwrap();
    assert_eq!(
        (removed.name.as_str(), removed.entries),
        ("Zebulon Quirk", 60)
    );
    assert!(removed.rewritten);
    assert_eq!(traces(&path), []);
    assert!(fs::metadata(&path).unwrap().len() < before * 2 / 3);
    assert_eq!(store.day("Ana", today()).unwrap().len(), 60);
    assert!(matches!(
        store.remove_diner("Zebulon Quirk"),
        Err(LogError::NoDiner { .. })
    ));
}

#[test]
fn bytes_are_overwritten_even_where_the_file_cannot_be_written_anew() {
    let (_folder, path, mut store) = fresh();
    store.add_diner(&diner("Zebulon Quirk"), today()).unwrap();
    for number in 0..30 {
        store
            .eat("Zebulon Quirk", &entry(today(), number, 20))
            .unwrap();
    }
    drop(store);
    // Without the rewriting: only what deleting itself does.
    let store = rusqlite::Connection::open(&path).unwrap();
    store
        .execute_batch("PRAGMA secure_delete = ON; DELETE FROM entries; DELETE FROM diners")
        .unwrap();
    let bytes = fs::read(&path).unwrap();
    for trace in ["Zebulon", "component 3 of"] {
        assert!(
            !bytes
                .windows(trace.len())
                .any(|part| part == trace.as_bytes()),
            "{trace}"
        );
    }
}

#[test]
fn exports_hold_everything_and_come_back_without_loss() {
    let (_folder, _path, mut store) = fresh();
    let mut ana = diner("Ana");
    ana.group_portions.insert("dairy".to_owned(), 2.5);
    store.add_diner(&ana, today()).unwrap();
    store.add_diner(&diner("Bo"), today()).unwrap();
    for number in 0..12 {
        store
            .eat(
                ["Ana", "Bo"][number as usize % 2],
                &entry(today(), number, 4),
            )
            .unwrap();
    }
    let water = Entry::water(
        entry(today(), 99, 0).at,
        "water, with mint",
        333.3,
        "demo 1",
        "s",
    );
    store.eat("Ana", &water).unwrap();
    store.undo("Bo").unwrap();
    let all = store.export(None).unwrap();
    assert_eq!((all.diners.len(), all.entries.len()), (2, 13));
    assert_eq!(all.entries.iter().filter(|record| record.undone).count(), 1);

    let (_other_folder, _other_path, mut other) = fresh();
    let read = Export::from_json(&all.to_json()).unwrap();
    let report = other.import(&read, today()).unwrap();
    assert_eq!((report.diners_added, report.entries_added), (2, 13));
    assert_eq!(other.export(None).unwrap(), all);
    // Again: nothing doubles.
    let report = other.import(&read, today()).unwrap();
    assert_eq!((report.entries_added, report.entries_present), (0, 13));
    assert_eq!(other.export(None).unwrap(), all);
    // Undo goes on where it was.
    assert_eq!(other.undo("Bo").unwrap(), store.undo("Bo").unwrap());

    let (_third_folder, _third_path, mut third) = fresh();
    let table = Export::from_csv(&all.to_csv()).unwrap();
    let fault = third.import(&table, today()).unwrap_err();
    assert!(
        fault
            .to_string()
            .starts_with("nothing was imported: entry 1: no diner is named `Ana`")
    );
    third.add_diner(&ana, today()).unwrap();
    third.add_diner(&diner("Bo"), today()).unwrap();
    third.import(&table, today()).unwrap();
    assert_eq!(third.export(None).unwrap(), all);

    let person = third.export(Some("ana")).unwrap();
    assert_eq!(person.diners, [ana]);
    assert_eq!(person.entries.len(), 7);
    assert!(person.entries.iter().all(|record| record.diner == "Ana"));
}

#[test]
fn an_import_is_all_or_nothing_and_overwrites_nothing() {
    let (_folder, _path, mut store) = fresh();
    store.add_diner(&diner("Ana"), today()).unwrap();
    store.eat("Ana", &entry(today(), 1, 1)).unwrap();
    let here = store.export(None).unwrap();
    let mut changed = here.clone();
    changed.diners[0].stated_energy_kcal = Some(2600.0);
    changed.entries[0].entry.share = 0.5;
    let mut added = changed.entries[0].clone();
    added.uid = "another".to_owned();
    changed.entries.push(added);
    let mut faulty = changed.clone();
    faulty.entries.push(faulty.entries[1].clone());
    faulty.entries[2].uid = "not a uid".to_owned();
    faulty.entries[0].entry.fluid_ml = -1.0;
    let LogError::Import(faults) = store.import(&faulty, today()).unwrap_err() else {
        panic!("imported")
    };
    assert!(matches!(faults[0], ImportFault::Entry { number: 1, .. }));
    assert!(matches!(faults[1], ImportFault::Uid { number: 3, .. }));
    assert_eq!(store.export(None).unwrap(), here);
    let report = store.import(&changed, today()).unwrap();
    assert_eq!(report.diners_differing, ["Ana"]);
    assert_eq!(report.entries_differing, ["dish 1 on 2026-05-20"]);
    assert_eq!(report.entries_added, 1);
    assert_eq!(store.export(None).unwrap().entries[0], here.entries[0]);
    assert_eq!(store.diner("Ana").unwrap(), here.diners[0]);
}

/// Layout 1 as it was, written out here so that a change to the program cannot change it.
const LAYOUT_1: &str = r#"
PRAGMA application_id = 0x74726e63;
CREATE TABLE diners (
    id INTEGER PRIMARY KEY AUTOINCREMENT, key TEXT NOT NULL UNIQUE, name TEXT NOT NULL, body TEXT NOT NULL
) STRICT;
CREATE TABLE entries (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    diner INTEGER NOT NULL REFERENCES diners (id) ON DELETE CASCADE,
    date TEXT NOT NULL, time TEXT NOT NULL, utc_offset_seconds INTEGER NOT NULL, zone TEXT NOT NULL,
    meal TEXT, dish TEXT NOT NULL, share REAL NOT NULL, fluid_ml REAL NOT NULL,
    catalogue TEXT NOT NULL, standard TEXT NOT NULL, figures TEXT NOT NULL, components TEXT NOT NULL,
    undone INTEGER NOT NULL DEFAULT 0 CHECK (undone IN (0, 1))
) STRICT;
CREATE INDEX entries_by_day ON entries (diner, date);
INSERT INTO diners VALUES (7, 'ana', 'Ana', '{"name": "Ana", "stated_energy_kcal": 2000.0}');
INSERT INTO entries VALUES (1, 7, '2026-05-20', '12:30:00', 7200, 'Europe/Berlin', 'lunch', 'soup', 0.5, 250.0, 'demo 1', 's',
    '{"grams": {"low": 1.0, "likely": 2.0, "high": 3.0},
      "groups": {"dairy": {"unit": "cup-eq", "amount": {"low": 0.1, "likely": 0.2, "high": 0.3}, "portions": {"low": 0.1, "likely": 0.2, "high": 0.3}}},
      "limits": {"energy": {"unit": "kcal", "amount": {"low": 80.0, "likely": 100.0, "high": 130.0}}, "sodium": {"unit": "mg", "amount": null}},
      "nutrients": {"protein_g": 3.25}, "uncounted": ["salt"]}',
    '[]', 0);
INSERT INTO entries SELECT 2, diner, date, '19:00:00', utc_offset_seconds, zone, meal, 'bread', share, fluid_ml, catalogue, standard, figures, components, 1 FROM entries;
PRAGMA user_version = 1;
"#;

#[test]
fn a_file_of_layout_1_becomes_a_current_one_with_all_it_held() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("daylog.sqlite");
    rusqlite::Connection::open(&path)
        .unwrap()
        .execute_batch(LAYOUT_1)
        .unwrap();
    let mut store = Store::open(&path).unwrap();
    assert_eq!(store.diners().unwrap(), [diner("Ana")]);
    let all = store.export(None).unwrap().entries;
    assert_eq!(dishes(&all), ["soup", "bread"]);
    assert_eq!((all[0].undone, all[1].undone), (false, true));
    assert!(all[0].uid.len() == 32 && all[0].uid != all[1].uid);
    let soup = &all[0].entry;
    assert_eq!(
        (soup.share, soup.fluid_ml, soup.at.zone.as_str()),
        (0.5, 250.0, "Europe/Berlin")
    );
    assert_eq!(soup.energy_kcal().unwrap().high, 130.0);
    assert_eq!(soup.limits["sodium"].amount, None);
    assert_eq!(soup.groups["dairy"].portions.likely, 0.2);
    assert_eq!(soup.uncounted, ["salt"]);
    store.eat("Ana", &entry(today(), 3, 1)).unwrap();
    drop(store);
    let again = Store::open(&path).unwrap();
    assert_eq!(again.export(None).unwrap().entries[..2], all[..]);
    assert_eq!(again.export(None).unwrap().entries.len(), 3);
}

#[test]
fn files_that_are_not_ours_are_refused_and_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("daylog.sqlite");
    let database = rusqlite::Connection::open(&path).unwrap();
    database.execute_batch("CREATE TABLE songs (x)").unwrap();
    refused(&path, |error| matches!(error, LogError::Foreign { .. }));
    database.execute_batch(LAYOUT_1).unwrap();
    database.execute_batch("PRAGMA user_version = 99").unwrap();
    refused(&path, |error| {
        matches!(error, LogError::Newer { found: 99, .. })
    });
    drop(database);
    fs::remove_file(&path).unwrap();
    fs::create_dir(&path).unwrap();
    assert!(Store::open(&path).is_err());
}

#[track_caller]
fn refused(path: &Path, expected: impl Fn(&LogError) -> bool) -> String {
    let before = fs::read(path).unwrap();
    let names = files(path.parent().unwrap());
    let error = Store::open(path).unwrap_err();
    assert!(expected(&error), "{error:?}");
    assert!(fs::read(path).unwrap() == before, "the file was changed");
    assert_eq!(files(path.parent().unwrap()), names);
    error.to_string()
}

#[test]
fn a_damaged_file_is_reported_and_left_alone() {
    let (_folder, path, mut store) = fresh();
    store.add_diner(&diner("Ana"), today()).unwrap();
    for number in 0..40 {
        store.eat("Ana", &entry(today(), number, 20)).unwrap();
    }
    drop(store);
    let sound = fs::read(&path).unwrap();
    let length = sound.len();
    let zeroed = |from: usize, to: usize| {
        let mut bytes = sound.clone();
        bytes[from..to].fill(0);
        bytes
    };
    let mut noise = sound.clone();
    for (at, byte) in noise[4096..8192].iter_mut().enumerate() {
        *byte = (at * 37 % 251) as u8;
    }
    let cases: [(&str, Vec<u8>); 8] = [
        ("zeroed header", zeroed(0, 100)),
        ("zeroed first page", zeroed(0, 4096)),
        ("zeroed page", zeroed(8192, 12288)),
        ("noise in a page", noise),
        ("all zero", vec![0; length]),
        ("half", sound[..length / 2 + 100].to_vec()),
        ("only the header", sound[..100].to_vec()),
        ("empty", Vec::new()),
    ];
    for (what, bytes) in cases {
        fs::write(&path, bytes).unwrap();
        let text = refused(&path, |error| matches!(error, LogError::Damaged { .. }));
        assert!(
            text.contains("left untouched") && text.contains("day import"),
            "{what}: {text}"
        );
    }
    fs::write(&path, "Dear diary, today I had soup. ".repeat(300)).unwrap();
    refused(&path, |error| matches!(error, LogError::Damaged { .. }));
    fs::write(&path, &sound).unwrap();
    assert_eq!(
        Store::open(&path)
            .unwrap()
            .day("Ana", today())
            .unwrap()
            .len(),
        40
    );
}

#[test]
fn a_journal_without_its_day_log_is_not_played_into_a_new_one() {
    let (_folder, path, store) = fresh();
    drop(store);
    fs::remove_file(&path).unwrap();
    let journal = path.with_file_name("daylog.sqlite-journal");
    fs::write(&journal, "left over").unwrap();
    assert!(matches!(Store::open(&path), Err(LogError::Orphaned { .. })));
    assert!(!path.exists() && journal.exists());
}
