//! Changes as rows; everything here runs inside a caller's transaction.

use jiff::Timestamp;
use rusqlite::{Connection, Row, params};

use super::change::{Before, Change, ChangeKind};
use super::rows::{RowError, from_json, json};

/// A change to be kept.
pub(super) struct New<'n> {
    /// The diner's row.
    pub diner: i64,
    /// The entry's row.
    pub entry: i64,
    /// The step it belongs to.
    pub step: u32,
    /// What was done.
    pub kind: ChangeKind,
    /// When, where known.
    pub made: Option<Timestamp>,
    /// What stood there before.
    pub before: Option<&'n Before>,
    /// Whether it was taken back already.
    pub undone: bool,
}

/// A change as it is kept, with the rows it is of.
pub(super) struct Kept {
    /// The entry's row.
    pub entry_row: i64,
    /// The change.
    pub change: Change,
}

/// The step after the last of a diner's.
pub(super) fn next_step(connection: &Connection, diner: i64) -> Result<u32, RowError> {
    let sql = "SELECT coalesce(max(step), 0) + 1 FROM changes WHERE diner = ?1";
    Ok(connection
        .prepare_cached(sql)?
        .query_row([diner], |row| row.get(0))?)
}

/// Keeps a change.
pub(super) fn insert(connection: &Connection, new: &New<'_>) -> Result<(), RowError> {
    let before = new.before.map(|before| json("the change", before));
    let mut statement = connection.prepare_cached(
        "INSERT INTO changes (diner, entry, step, kind, made, before, undone)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
    )?;
    statement.execute(params![
        new.diner,
        new.entry,
        new.step,
        new.kind.word(),
        new.made.map(|made| made.to_string()),
        before.transpose()?,
        new.undone,
    ])?;
    Ok(())
}

const COLUMNS: &str = "SELECT changes.entry, entries.uid, changes.kind, changes.step, changes.made,
    changes.before, changes.undone, changes.id
    FROM changes JOIN entries ON entries.id = changes.entry";

/// The changes of a diner's last step that was not taken back, in the order they were made.
pub(super) fn last_step(connection: &Connection, diner: i64) -> Result<Vec<Kept>, RowError> {
    let sql = format!(
        "{COLUMNS} WHERE changes.diner = ?1 AND changes.undone = 0 AND changes.step =
            (SELECT max(step) FROM changes WHERE diner = ?1 AND undone = 0)
         ORDER BY changes.id"
    );
    list(connection, &sql, [diner])
}

/// Marks a step as taken back.
pub(super) fn take_back(connection: &Connection, diner: i64, step: u32) -> Result<(), RowError> {
    let sql = "UPDATE changes SET undone = 1 WHERE diner = ?1 AND step = ?2";
    connection.execute(sql, params![diner, step])?;
    Ok(())
}

/// A diner's latest changes, the last first; at most so many.
pub(super) fn latest(
    connection: &Connection,
    diner: i64,
    most: u32,
) -> Result<Vec<Kept>, RowError> {
    let sql = format!(
        "{COLUMNS} WHERE changes.diner = ?1 ORDER BY changes.step DESC, changes.id DESC LIMIT ?2"
    );
    list(connection, &sql, params![diner, most])
}

/// Changes held at a time.
const PAGE: usize = 200;

/// Hands on every change of a diner, or of all, in the order they were made: those that are
/// there when it begins.
pub(super) fn each(
    connection: &Connection,
    diner: Option<i64>,
    take: &mut dyn FnMut(Change) -> Result<(), RowError>,
) -> Result<(), RowError> {
    let last = "SELECT coalesce(max(id), 0) FROM changes";
    let last: i64 = connection.query_row(last, [], |row| row.get(0))?;
    let sql = format!(
        "{COLUMNS} WHERE changes.id > ?1 AND changes.id <= ?2
            AND (?3 IS NULL OR changes.diner = ?3)
         ORDER BY changes.id LIMIT {PAGE}"
    );
    let mut after = 0;
    loop {
        let mut page = Vec::new();
        {
            let mut statement = connection.prepare_cached(&sql)?;
            let mut rows = statement.query(params![after, last, diner])?;
            while let Some(row) = rows.next()? {
                after = row.get(7)?;
                page.push(kept(row)?.change);
            }
        }
        if page.is_empty() {
            return Ok(());
        }
        page.into_iter().try_for_each(&mut *take)?;
    }
}

/// Entries that no change tells of, as exports of older versions and tables bring them: each
/// becomes a step of its own.
pub(super) fn fill_in(connection: &Connection) -> Result<(), RowError> {
    connection.execute_batch(
        "INSERT INTO changes (diner, entry, step, kind, undone)
         SELECT diner, id,
            (SELECT coalesce(max(step), 0) FROM changes WHERE changes.diner = entries.diner)
                + row_number() OVER (PARTITION BY diner ORDER BY id),
            iif(planned, 'planned', 'eaten'), undone
         FROM entries
         WHERE NOT EXISTS (SELECT 1 FROM changes WHERE changes.entry = entries.id)
         ORDER BY id",
    )?;
    Ok(())
}

fn list(
    connection: &Connection,
    sql: &str,
    values: impl rusqlite::Params,
) -> Result<Vec<Kept>, RowError> {
    let mut statement = connection.prepare_cached(sql)?;
    let mut rows = statement.query(values)?;
    let mut all = Vec::new();
    while let Some(row) = rows.next()? {
        all.push(kept(row)?);
    }
    Ok(all)
}

fn kept(row: &Row<'_>) -> Result<Kept, RowError> {
    let entry: String = row.get(1)?;
    let what = format!("a change of entry `{entry}`");
    let unreadable = |detail: String| RowError::Unreadable {
        what: what.clone(),
        detail,
    };
    let word: String = row.get(2)?;
    let kind = ChangeKind::from_word(&word)
        .ok_or_else(|| unreadable(format!("`{word}` is no kind of change")))?;
    let made: Option<String> = row.get(4)?;
    let made = made
        .map(|text| text.parse::<Timestamp>())
        .transpose()
        .map_err(|e| unreadable(e.to_string()))?;
    let before: Option<String> = row.get(5)?;
    let before = before
        .map(|text| from_json::<Before>(&what, &text))
        .transpose()?;
    Ok(Kept {
        entry_row: row.get(0)?,
        change: Change {
            entry,
            kind,
            step: row.get(3)?,
            made,
            before,
            undone: row.get(6)?,
        },
    })
}
