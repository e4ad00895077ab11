//! The tables, and how an older file becomes a current one.

use rusqlite::{Connection, TransactionBehavior};

/// Marks the file as a day log (`PRAGMA application_id`): the letters `trnc`.
pub(super) const APPLICATION_ID: i64 = 0x7472_6e63;

/// What each layout adds to the one before; layout 1 starts from nothing. A step that was
/// once released is never changed, only followed by another.
const STEPS: [&str; 3] = [
    // 1: diners, and entries that keep every figure by value.
    "CREATE TABLE diners (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        key TEXT NOT NULL UNIQUE,
        name TEXT NOT NULL,
        body TEXT NOT NULL
    ) STRICT;
    CREATE TABLE entries (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        diner INTEGER NOT NULL REFERENCES diners (id) ON DELETE CASCADE,
        date TEXT NOT NULL,
        time TEXT NOT NULL,
        utc_offset_seconds INTEGER NOT NULL,
        zone TEXT NOT NULL,
        meal TEXT,
        dish TEXT NOT NULL,
        share REAL NOT NULL,
        fluid_ml REAL NOT NULL,
        catalogue TEXT NOT NULL,
        standard TEXT NOT NULL,
        figures TEXT NOT NULL,
        components TEXT NOT NULL,
        undone INTEGER NOT NULL DEFAULT 0 CHECK (undone IN (0, 1))
    ) STRICT;
    CREATE INDEX entries_by_day ON entries (diner, date);",
    // 2: a name for each entry that holds in every copy, so that reading an export back
    // doubles nothing.
    "ALTER TABLE entries ADD COLUMN uid TEXT NOT NULL DEFAULT '';
    UPDATE entries SET uid = lower(hex(randomblob(16)));
    CREATE UNIQUE INDEX entries_by_uid ON entries (uid);",
    // 3: entries have a number each of their diner's own, some are planned and not eaten yet,
    // and every change is kept, so that any can be taken back. What was logged before counts
    // as changes of which the moment is not known.
    "ALTER TABLE entries ADD COLUMN planned INTEGER NOT NULL DEFAULT 0 CHECK (planned IN (0, 1));
    ALTER TABLE entries ADD COLUMN number INTEGER NOT NULL DEFAULT 0;
    UPDATE entries SET number = counted.number FROM
        (SELECT id, row_number() OVER (PARTITION BY diner ORDER BY id) AS number FROM entries)
        AS counted WHERE counted.id = entries.id;
    CREATE UNIQUE INDEX entries_by_number ON entries (diner, number);
    CREATE TABLE changes (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        diner INTEGER NOT NULL REFERENCES diners (id) ON DELETE CASCADE,
        entry INTEGER NOT NULL REFERENCES entries (id) ON DELETE CASCADE,
        step INTEGER NOT NULL,
        kind TEXT NOT NULL,
        made TEXT,
        before TEXT,
        undone INTEGER NOT NULL DEFAULT 0 CHECK (undone IN (0, 1))
    ) STRICT;
    CREATE INDEX changes_by_step ON changes (diner, undone, step);
    CREATE INDEX changes_by_entry ON changes (entry);
    INSERT INTO changes (diner, entry, step, kind, undone)
        SELECT diner, id, number, 'eaten', undone FROM entries ORDER BY id;",
];

/// The latest layout.
#[allow(clippy::cast_possible_wrap)] // a handful of steps
pub(super) const LATEST: i64 = STEPS.len() as i64;

/// Layout of an open file (`PRAGMA user_version`).
pub(super) fn layout(connection: &Connection) -> rusqlite::Result<i64> {
    connection.pragma_query_value(None, "user_version", |row| row.get(0))
}

/// Brings a file to the latest layout: all steps or none.
pub(super) fn migrate(connection: &mut Connection) -> rusqlite::Result<()> {
    migrate_to(connection, LATEST)
}

fn migrate_to(connection: &mut Connection, target: i64) -> rusqlite::Result<()> {
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    // Read under the lock: another process may just have done it.
    let from = layout(&transaction)?;
    for (step, number) in STEPS.iter().zip(1..=target) {
        if number > from {
            transaction.execute_batch(step)?;
            transaction.pragma_update(None, "user_version", number)?;
        }
    }
    if from == 0 {
        transaction.pragma_update(None, "application_id", APPLICATION_ID)?;
    }
    transaction.commit()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tables(connection: &Connection) -> Vec<String> {
        let sql = "SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY name";
        let mut statement = connection.prepare(sql).unwrap();
        let rows = statement.query_map([], |row| row.get(0)).unwrap();
        rows.map(Result::unwrap).collect()
    }

    #[test]
    fn every_older_layout_becomes_the_latest() {
        let mut fresh = Connection::open_in_memory().unwrap();
        migrate(&mut fresh).unwrap();
        for from in 1..=LATEST {
            let mut old = Connection::open_in_memory().unwrap();
            migrate_to(&mut old, from).unwrap();
            assert_eq!(layout(&old).unwrap(), from);
            migrate(&mut old).unwrap();
            assert_eq!(layout(&old).unwrap(), LATEST);
            assert_eq!(tables(&old), tables(&fresh));
        }
    }

    #[test]
    fn a_step_that_fails_leaves_the_old_layout() {
        let mut old = Connection::open_in_memory().unwrap();
        migrate_to(&mut old, 1).unwrap();
        // In the way of what step 2 adds last.
        old.execute_batch("CREATE TABLE entries_by_uid (x TEXT)")
            .unwrap();
        let before = tables(&old);
        migrate(&mut old).unwrap_err();
        assert_eq!(layout(&old).unwrap(), 1);
        assert_eq!(tables(&old), before);
    }
}
