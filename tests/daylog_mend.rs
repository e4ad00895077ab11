//! Entries changed, removed, repeated, planned and taken back: whatever is done can be undone,
//! in any copy of the log, and older files lose nothing.

mod common_daylog;

use std::fs;
use std::path::PathBuf;

use common_daylog::{diner, entry, today};
use jiff::ToSpan;
use tempfile::TempDir;
use trencher::daylog::{ChangeKind, Entry, Export, LogError, Record, Store};

fn fresh() -> (TempDir, PathBuf, Store) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("daylog.sqlite");
    let mut store = Store::open(&path).unwrap();
    store.set_now("2026-05-20T10:30:00Z".parse().unwrap());
    (folder, path, store)
}

fn with_two() -> (TempDir, PathBuf, Store) {
    let (folder, path, mut store) = fresh();
    store.add_diner(&diner("Ana"), today()).unwrap();
    store.add_diner(&diner("Bo"), today()).unwrap();
    (folder, path, store)
}

fn put(store: &mut Store, name: &str, number: u32, kind: ChangeKind) -> Record {
    let entries = [entry(today(), number, 2)];
    store.put(&[(name, &entries)], kind).unwrap().remove(0)
}

fn half(record: &Record) -> Entry {
    let mut entry = record.entry.clone();
    entry.share = 0.5;
    entry.fluid_ml = 7.0;
    entry.meal = Some("dinner".to_owned());
    entry.components[0].note = Some("changed".to_owned());
    entry
}

#[test]
fn each_diner_has_numbers_of_their_own_that_stay() {
    let (_folder, path, mut store) = with_two();
    let number = |record: Record| record.number;
    assert_eq!(number(put(&mut store, "Ana", 1, ChangeKind::Eaten)), 1);
    assert_eq!(number(put(&mut store, "Bo", 2, ChangeKind::Eaten)), 1);
    assert_eq!(number(put(&mut store, "Ana", 3, ChangeKind::Planned)), 2);
    store.remove("Ana", &[1]).unwrap();
    assert_eq!(number(put(&mut store, "Ana", 4, ChangeKind::Eaten)), 3);
    let store = Store::open(&path).unwrap();
    assert_eq!(store.entry("ana", 3).unwrap().entry.dish, "dish 4");
    let told = |number| store.entry("Ana", number).unwrap_err().to_string();
    assert!(told(1).contains("was taken back or removed"), "{}", told(1));
    assert!(told(9).contains("no entry has the number 9"), "{}", told(9));
}

#[test]
fn plans_stand_apart_until_they_are_eaten() {
    let (_folder, _path, mut store) = with_two();
    let tomorrow = today().tomorrow().unwrap();
    let plan = [entry(tomorrow, 300, 1)];
    let plan = store.put(&[("Ana", &plan)], ChangeKind::Planned).unwrap();
    assert!(plan[0].planned);
    assert!(store.day("Ana", tomorrow).unwrap().is_empty());
    let mut eaten = plan[0].entry.clone();
    eaten.share = 0.5;
    let now = store
        .replace(&plan[0], &eaten, ChangeKind::Fulfilled)
        .unwrap();
    assert!(!now.planned);
    assert_eq!(
        store.day("Ana", tomorrow).unwrap(),
        std::slice::from_ref(&now)
    );
    // A change of what is planned leaves it planned.
    let other = put(&mut store, "Ana", 5, ChangeKind::Planned);
    let other = store
        .replace(&other, &half(&other), ChangeKind::Edited)
        .unwrap();
    assert!(other.planned);
    store.undo("Ana").unwrap();
    store.undo("Ana").unwrap();
    let undone = store.undo("Ana").unwrap();
    assert_eq!(undone[0].now, plan[0]);
    assert!(store.day("Ana", tomorrow).unwrap().is_empty());
}

#[test]
fn a_change_made_on_old_figures_is_refused() {
    let (_folder, path, mut store) = with_two();
    let record = put(&mut store, "Ana", 1, ChangeKind::Eaten);
    let mut other = Store::open(&path).unwrap();
    other
        .replace(&record, &half(&record), ChangeKind::Edited)
        .unwrap();
    let mine = store.replace(&record, &entry(today(), 2, 1), ChangeKind::Edited);
    assert!(matches!(mine, Err(LogError::Changed { number: 1 })));
    assert_eq!(store.entry("Ana", 1).unwrap().entry, half(&record));
    let mut bad = half(&record);
    bad.share = -1.0;
    let here = store.entry("Ana", 1).unwrap();
    let mine = store.replace(&here, &bad, ChangeKind::Edited);
    assert!(matches!(mine, Err(LogError::Entry(_))));
}

#[test]
fn what_is_done_together_is_one_step_for_each() {
    let (_folder, _path, mut store) = with_two();
    let shared = [entry(today(), 1, 1), entry(today(), 2, 1)];
    let all = store
        .put(&[("Ana", &shared), ("Bo", &shared)], ChangeKind::Eaten)
        .unwrap();
    assert_eq!(all.len(), 4);
    // All or none: nobody is named so.
    let fails = store.put(&[("Ana", &shared), ("Cy", &shared)], ChangeKind::Eaten);
    assert!(matches!(fails, Err(LogError::NoDiner { .. })));
    assert_eq!(store.day("Ana", today()).unwrap().len(), 2);
    // All or none: the third is not there.
    assert!(store.remove("Ana", &[1, 2, 3]).is_err());
    assert_eq!(store.remove("Ana", &[2, 1]).unwrap().len(), 2);
    assert!(store.day("Ana", today()).unwrap().is_empty());
    assert_eq!(store.undo("Ana").unwrap().len(), 2);
    assert_eq!(store.day("Ana", today()).unwrap().len(), 2);
    assert_eq!(store.undo("Ana").unwrap().len(), 2);
    assert!(store.day("Ana", today()).unwrap().is_empty());
    assert_eq!(store.day("Bo", today()).unwrap().len(), 2);
    let changes = store.changes("Ana", 10).unwrap();
    let told: Vec<(ChangeKind, bool)> = changes.iter().map(|(c, _)| (c.kind, c.undone)).collect();
    let (eaten, removed) = ((ChangeKind::Eaten, true), (ChangeKind::Removed, true));
    assert_eq!(told, [removed, removed, eaten, eaten]);
    assert_eq!(
        changes[0].0.made.unwrap().to_string(),
        "2026-05-20T10:30:00Z"
    );
}

/// What a diner's entries look like, those taken back among them.
fn state(store: &Store) -> Vec<Record> {
    store.export(Some("Ana")).unwrap().entries
}

/// Does something at random to Ana's log; says whether anything was done.
fn at_random(store: &mut Store, random: &mut fastrand::Rng, at: u32) -> bool {
    let counting: Vec<Record> = state(store).into_iter().filter(|r| !r.undone).collect();
    let picked = (!counting.is_empty()).then(|| &counting[random.usize(..counting.len())]);
    match (random.u8(..7), picked) {
        (0 | 1, _) => drop(put(store, "Ana", at, ChangeKind::Eaten)),
        (2, _) => drop(put(store, "Ana", at, ChangeKind::Planned)),
        (3, Some(record)) => {
            let again = [record.entry.clone()];
            store.put(&[("Ana", &again)], ChangeKind::Repeated).unwrap();
        }
        (4, Some(record)) => {
            let mut other = half(record);
            other.dish = format!("dish edited {at}");
            store.replace(record, &other, ChangeKind::Edited).unwrap();
        }
        (5, Some(record)) => {
            store.remove("Ana", &[record.number]).unwrap();
        }
        (6, Some(record)) if record.planned => {
            let kind = ChangeKind::Fulfilled;
            store.replace(record, &record.entry, kind).unwrap();
        }
        _ => return false,
    }
    true
}

#[test]
fn any_changes_are_taken_back_one_by_one_in_any_copy() {
    for seed in 0..5 {
        let (_folder, _path, mut store) = with_two();
        let mut random = fastrand::Rng::with_seed(seed);
        put(&mut store, "Bo", 1, ChangeKind::Eaten);
        // What only exists later counts as taken back before.
        let mut before = vec![state(&store)];
        for at in 0..40 {
            if random.u8(..6) == 0 && before.len() > 1 {
                store.undo("Ana").unwrap();
                before.pop();
            } else if at_random(&mut store, &mut random, at) {
                before.push(state(&store));
            }
        }
        let all = store.export(None).unwrap();
        let (_other_folder, _other_path, mut other) = fresh();
        let read = Export::from_json(&all.to_json()).unwrap();
        other.import(&read, today()).unwrap();
        assert_eq!(other.export(None).unwrap(), all, "seed {seed}");
        before.pop();
        while let Some(expected) = before.pop() {
            let (undone, copied) = (store.undo("Ana").unwrap(), other.undo("Ana").unwrap());
            assert_eq!(undone, copied);
            assert!(!undone.is_empty(), "seed {seed}");
            let now = state(&store);
            for (at, record) in now.iter().enumerate() {
                match expected.get(at) {
                    Some(expected) => assert_eq!(record, expected, "seed {seed}"),
                    None => assert!(record.undone, "seed {seed}"),
                }
            }
            assert_eq!(state(&other), now, "seed {seed}");
        }
        assert_eq!(store.undo("Ana").unwrap(), [], "seed {seed}");
        assert_eq!(store.day("Bo", today()).unwrap().len(), 1);
    }
}

#[test]
fn a_copy_brought_back_keeps_what_was_done_here() {
    let (_folder, _path, mut store) = with_two();
    let record = put(&mut store, "Ana", 1, ChangeKind::Eaten);
    let early = store.export(None).unwrap();
    store
        .replace(&record, &half(&record), ChangeKind::Edited)
        .unwrap();
    let late = store.export(None).unwrap();
    // The older copy changes nothing here, and says what differs.
    let report = store.import(&early, today()).unwrap();
    assert_eq!(report.entries_differing, ["dish 1 on 2026-05-20"]);
    assert_eq!(store.export(None).unwrap(), late);
    // A copy with more: its changes come along, after those made here.
    let (_other_folder, _other_path, mut other) = fresh();
    other.import(&early, today()).unwrap();
    let there = put(&mut other, "Ana", 7, ChangeKind::Eaten);
    other
        .replace(&there, &half(&there), ChangeKind::Edited)
        .unwrap();
    store.import(&other.export(None).unwrap(), today()).unwrap();
    assert_eq!(store.entry("Ana", 2).unwrap().entry, half(&there));
    let undone = store.undo("Ana").unwrap();
    assert_eq!((undone.len(), &undone[0].now.entry), (1, &there.entry));
    assert!(store.undo("Ana").unwrap()[0].now.undone);
    assert_eq!(store.undo("Ana").unwrap()[0].now.entry, record.entry);
}

#[test]
fn changes_that_fit_no_entry_bring_nothing_back() {
    let (_folder, _path, mut store) = with_two();
    let record = put(&mut store, "Ana", 1, ChangeKind::Eaten);
    store
        .replace(&record, &half(&record), ChangeKind::Edited)
        .unwrap();
    let good = store.export(None).unwrap();
    let mut faults = vec![good.clone(), good.clone(), good];
    faults[0].changes[1].before = None;
    faults[1].changes[0].entry = "nobody".to_owned();
    if let Some(before) = &mut faults[2].changes[1].before {
        before.entry.share = f64::INFINITY;
    }
    for faulty in faults {
        let (_other_folder, _other_path, mut other) = fresh();
        let error = other.import(&faulty, today()).unwrap_err().to_string();
        assert!(error.contains("nothing was imported: change "), "{error}");
        assert!(other.diners().unwrap().is_empty());
    }
}

#[test]
fn a_removed_person_leaves_nothing_of_what_was_changed() {
    let (_folder, path, mut store) = with_two();
    for number in 0..30 {
        let mut eaten = entry(today(), number, 20);
        eaten.dish = format!("xylophone soup {number}");
        let record = store.eat("Ana", &eaten).unwrap();
        let mut other = half(&record);
        other.dish = format!("quince tart {number}");
        store.replace(&record, &other, ChangeKind::Edited).unwrap();
        put(&mut store, "Bo", number, ChangeKind::Eaten);
    }
    store.undo("Ana").unwrap();
    store.remove("Ana", &[3, 4]).unwrap();
    store.remove_diner("Ana").unwrap();
    let bytes = fs::read(&path).unwrap();
    for trace in ["xylophone", "quince", "Ana"] {
        let mut parts = bytes.windows(trace.len());
        assert!(!parts.any(|part| part == trace.as_bytes()), "{trace}");
    }
    assert_eq!(store.undo("Bo").unwrap().len(), 1);
}

/// Layout 2 as it was, written out here so that a change to the program cannot change it.
const LAYOUT_2: &str = r#"
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
    undone INTEGER NOT NULL DEFAULT 0 CHECK (undone IN (0, 1)), uid TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX entries_by_day ON entries (diner, date);
CREATE UNIQUE INDEX entries_by_uid ON entries (uid);
INSERT INTO diners VALUES (3, 'ana', 'Ana', '{"name": "Ana", "stated_energy_kcal": 2000.0}');
INSERT INTO diners VALUES (4, 'bo', 'Bo', '{"name": "Bo", "stated_energy_kcal": 2000.0}');
INSERT INTO entries VALUES (1, 3, '2026-05-20', '12:30:00', 7200, 'Europe/Berlin', 'lunch', 'soup', 0.5, 250.0, 'demo 1', 's',
    '{"grams": {"low": 1.0, "likely": 2.0, "high": 3.0},
      "groups": {"dairy": {"unit": "cup-eq", "amount": {"low": 0.1, "likely": 0.2, "high": 0.3}, "portions": {"low": 0.1, "likely": 0.2, "high": 0.3}}},
      "limits": {"energy": {"unit": "kcal", "amount": {"low": 80.0, "likely": 100.0, "high": 130.0}}, "sodium": {"unit": "mg", "amount": null}},
      "nutrients": {"protein_g": 3.25}, "uncounted": ["salt"]}',
    '[]', 0, 'a');
INSERT INTO entries SELECT 2, 4, date, time, utc_offset_seconds, zone, meal, 'bread', share, fluid_ml, catalogue, standard, figures, components, 0, 'b' FROM entries WHERE id = 1;
INSERT INTO entries SELECT 3, 3, date, time, utc_offset_seconds, zone, meal, 'tea', share, fluid_ml, catalogue, standard, figures, components, 1, 'c' FROM entries WHERE id = 1;
INSERT INTO entries SELECT 4, 3, date, time, utc_offset_seconds, zone, NULL, 'pear', share, fluid_ml, catalogue, standard, figures, components, 0, 'd' FROM entries WHERE id = 1;
PRAGMA user_version = 2;
"#;

#[test]
fn a_file_of_layout_2_becomes_a_current_one_with_all_it_held() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("daylog.sqlite");
    rusqlite::Connection::open(&path)
        .unwrap()
        .execute_batch(LAYOUT_2)
        .unwrap();
    let mut store = Store::open(&path).unwrap();
    let all = store.export(None).unwrap();
    let told: Vec<(&str, &str, u32, bool, bool)> = all
        .entries
        .iter()
        .map(|r| {
            (
                r.uid.as_str(),
                r.diner.as_str(),
                r.number,
                r.planned,
                r.undone,
            )
        })
        .collect();
    let expected = [
        ("a", "Ana", 1, false, false),
        ("b", "Bo", 1, false, false),
        ("c", "Ana", 2, false, true),
        ("d", "Ana", 3, false, false),
    ];
    assert_eq!(told, expected);
    let soup = &all.entries[0].entry;
    assert_eq!((soup.share, soup.fluid_ml), (0.5, 250.0));
    assert_eq!(soup.energy_kcal().unwrap().high, 130.0);
    assert_eq!(soup.limits["sodium"].amount, None);
    assert_eq!(soup.uncounted, ["salt"]);
    assert!(all.changes.iter().all(|change| change.made.is_none()));
    // Undo goes on where it was.
    let dish = |store: &mut Store| {
        let undone = store.undo("Ana").unwrap();
        undone
            .into_iter()
            .map(|u| u.now.entry.dish)
            .collect::<Vec<_>>()
    };
    assert_eq!(dish(&mut store), ["pear"]);
    assert_eq!(dish(&mut store), ["soup"]);
    assert!(dish(&mut store).is_empty());
}

#[test]
fn many_days_are_looked_back_on_without_plans() {
    let (_folder, _path, mut store) = with_two();
    for back in 0..20 {
        let day = today().checked_sub(back.days()).unwrap();
        let entries = [entry(day, 100, 1)];
        let kind = match back % 2 {
            0 => ChangeKind::Eaten,
            _ => ChangeKind::Planned,
        };
        store.put(&[("Ana", &entries)], kind).unwrap();
    }
    let history = store.history("Ana", today(), 2).unwrap();
    assert_eq!(history.iter().map(|day| day.entries).sum::<usize>(), 7);
}
