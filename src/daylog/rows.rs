//! Diners and entries as rows; everything here runs inside a caller's transaction.

use std::collections::BTreeMap;
use std::path::Path;

use jiff::civil::Date;
use rusqlite::{Connection, OptionalExtension, Row, params};
use serde::{Deserialize, Serialize};
use unicode_normalization::UnicodeNormalization;

use super::entry::{Entry, GroupAmount, LimitAmount, Moment};
use super::error::{LogError, explain};
use super::record::Record;
use crate::people::Diner;
use crate::quantity::Range;

/// What goes wrong with rows, before the file's path is known.
pub(super) enum RowError {
    Database(rusqlite::Error),
    Unreadable { what: String, detail: String },
    Log(LogError),
    Output(std::io::Error),
}

impl RowError {
    pub(super) fn of(self, path: &Path) -> LogError {
        match self {
            Self::Database(error) => explain(path, error),
            Self::Unreadable { what, detail } => LogError::Unreadable {
                path: path.to_owned(),
                what,
                detail,
            },
            Self::Log(error) => error,
            Self::Output(error) => LogError::Output(error),
        }
    }
}

impl From<rusqlite::Error> for RowError {
    fn from(error: rusqlite::Error) -> Self {
        Self::Database(error)
    }
}

impl From<std::io::Error> for RowError {
    fn from(error: std::io::Error) -> Self {
        Self::Output(error)
    }
}

impl From<csv::Error> for RowError {
    fn from(error: csv::Error) -> Self {
        Self::Output(match error.into_kind() {
            csv::ErrorKind::Io(error) => error,
            other => std::io::Error::other(format!("{other:?}")),
        })
    }
}

impl From<LogError> for RowError {
    fn from(error: LogError) -> Self {
        Self::Log(error)
    }
}

/// The figures of an entry that no query asks for one by one.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Figures {
    grams: Range,
    groups: BTreeMap<String, GroupAmount>,
    limits: BTreeMap<String, LimitAmount>,
    nutrients: BTreeMap<String, Option<f64>>,
    uncounted: Vec<String>,
}

/// A name as it is compared: `Ana`, `ANA` and a differently composed `Ána` each find theirs.
pub(super) fn key(name: &str) -> String {
    let composed: String = name.trim().nfc().collect();
    composed.to_lowercase().nfc().collect()
}

fn json<T: Serialize>(what: &str, value: &T) -> Result<String, RowError> {
    serde_json::to_string(value).map_err(|error| RowError::Unreadable {
        what: what.to_owned(),
        detail: error.to_string(),
    })
}

fn from_json<T: for<'d> Deserialize<'d>>(what: &str, text: &str) -> Result<T, RowError> {
    serde_json::from_str(text).map_err(|error| RowError::Unreadable {
        what: what.to_owned(),
        detail: error.to_string(),
    })
}

/// All diners by name.
pub(super) fn diners(connection: &Connection) -> Result<Vec<Diner>, RowError> {
    let mut statement = connection.prepare("SELECT name, body FROM diners ORDER BY key")?;
    let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
    rows.map(|row| {
        let (name, body): (String, String) = row?;
        from_json(&format!("diner `{name}`"), &body)
    })
    .collect()
}

/// A diner with the row's number, if there is one of that name.
pub(super) fn find_diner(
    connection: &Connection,
    name: &str,
) -> Result<Option<(i64, Diner)>, RowError> {
    let sql = "SELECT id, body FROM diners WHERE key = ?1";
    let found: Option<(i64, String)> = connection
        .query_row(sql, [key(name)], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    let Some((id, body)) = found else {
        return Ok(None);
    };
    Ok(Some((id, from_json(&format!("diner `{name}`"), &body)?)))
}

/// The row's number of a diner, who must be there.
pub(super) fn diner_id(connection: &Connection, name: &str) -> Result<i64, RowError> {
    let sql = "SELECT id FROM diners WHERE key = ?1";
    let found = connection.query_row(sql, [key(name)], |row| row.get(0));
    match found.optional()? {
        Some(id) => Ok(id),
        None => Err(no_diner(connection, name)?.into()),
    }
}

/// The error for a name nobody has, with the names there are.
pub(super) fn no_diner(connection: &Connection, name: &str) -> Result<LogError, RowError> {
    let mut statement = connection.prepare("SELECT name FROM diners ORDER BY key")?;
    let known = statement.query_map([], |row| row.get(0))?;
    Ok(LogError::NoDiner {
        name: name.to_owned(),
        known: known.collect::<Result<_, _>>()?,
    })
}

/// Adds a diner, whose name must be free.
pub(super) fn insert_diner(connection: &Connection, diner: &Diner) -> Result<(), RowError> {
    let body = json(&format!("diner `{}`", diner.name), diner)?;
    let sql = "INSERT INTO diners (key, name, body) VALUES (?1, ?2, ?3)";
    connection.execute(sql, params![key(&diner.name), diner.name, body])?;
    Ok(())
}

/// Puts other details, and perhaps another name, in a diner's row.
pub(super) fn update_diner(
    connection: &Connection,
    id: i64,
    diner: &Diner,
) -> Result<(), RowError> {
    let body = json(&format!("diner `{}`", diner.name), diner)?;
    let sql = "UPDATE diners SET key = ?1, name = ?2, body = ?3 WHERE id = ?4";
    connection.execute(sql, params![key(&diner.name), diner.name, body, id])?;
    Ok(())
}

/// Adds an entry under a name across copies; makes one where none is given.
pub(super) fn insert_entry(
    connection: &Connection,
    diner: i64,
    entry: &Entry,
    given: Option<(&str, bool)>,
) -> Result<String, RowError> {
    let figures = Figures {
        grams: entry.grams,
        groups: entry.groups.clone(),
        limits: entry.limits.clone(),
        nutrients: entry.nutrients.clone(),
        uncounted: entry.uncounted.clone(),
    };
    let mut statement = connection.prepare_cached(
        "INSERT INTO entries (diner, date, time, utc_offset_seconds, zone, meal, dish, share,
            fluid_ml, catalogue, standard, figures, components, undone, uid)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14,
            coalesce(?15, lower(hex(randomblob(16)))))
         RETURNING uid",
    )?;
    let uid = statement.query_row(
        params![
            diner,
            entry.at.date.to_string(),
            entry.at.time.to_string(),
            entry.at.utc_offset_seconds,
            entry.at.zone,
            entry.meal,
            entry.dish,
            entry.share,
            entry.fluid_ml,
            entry.catalogue,
            entry.standard,
            json("the entry", &figures)?,
            json("the entry", &entry.components)?,
            given.is_some_and(|(_, undone)| undone),
            given.map(|(uid, _)| uid),
        ],
        |row| row.get(0),
    )?;
    Ok(uid)
}

const COLUMNS: &str = "SELECT diners.name, entries.uid, entries.undone, entries.date, entries.time,
    entries.utc_offset_seconds, entries.zone, entries.meal, entries.dish, entries.share,
    entries.fluid_ml, entries.catalogue, entries.standard, entries.figures, entries.components,
    entries.id
    FROM entries JOIN diners ON diners.id = entries.diner";

/// Entries in the order they were logged, by the rest of a query.
pub(super) fn records(
    connection: &Connection,
    rest: &str,
    values: impl rusqlite::Params,
) -> Result<Vec<Record>, RowError> {
    let sql = format!("{COLUMNS} {rest} ORDER BY entries.id");
    let mut statement = connection.prepare(&sql)?;
    let mut rows = statement.query(values)?;
    let mut records = Vec::new();
    while let Some(row) = rows.next()? {
        records.push(record(row)?);
    }
    Ok(records)
}

/// Entries held at a time, and the bytes from which fewer do.
const PAGE: usize = 200;
const PAGE_BYTES: usize = 4 << 20;

/// Hands on every entry of a diner, or of all, in the order they were logged: those that are
/// there when it begins. Between pages others may write, however slowly these are taken.
pub(super) fn each(
    connection: &Connection,
    diner: Option<i64>,
    take: &mut dyn FnMut(Record) -> Result<(), RowError>,
) -> Result<(), RowError> {
    let last: Option<i64> =
        connection.query_row("SELECT max(id) FROM entries", [], |row| row.get(0))?;
    let last = last.unwrap_or(0);
    let mut after = 0;
    while let Some(page) = page(connection, diner, after, last)? {
        for (id, record) in page {
            after = id;
            take(record)?;
        }
    }
    Ok(())
}

type Page = Vec<(i64, Record)>;

fn page(
    connection: &Connection,
    diner: Option<i64>,
    after: i64,
    last: i64,
) -> Result<Option<Page>, RowError> {
    let sql = format!(
        "{COLUMNS} WHERE entries.id > ?1 AND entries.id <= ?2 AND (?3 IS NULL OR entries.diner = ?3)
         ORDER BY entries.id LIMIT {PAGE}"
    );
    let mut statement = connection.prepare_cached(&sql)?;
    let mut rows = statement.query(params![after, last, diner])?;
    let (mut page, mut bytes) = (Vec::new(), 0);
    while let Some(row) = rows.next()? {
        page.push((row.get(15)?, record(row)?));
        for column in [13, 14] {
            bytes += row.get_ref(column)?.as_str().map_or(0, str::len);
        }
        if bytes >= PAGE_BYTES {
            break;
        }
    }
    Ok((!page.is_empty()).then_some(page))
}

fn record(row: &Row<'_>) -> Result<Record, RowError> {
    let uid: String = row.get(1)?;
    let what = format!("entry `{uid}`");
    let figures: Figures = from_json(&what, &row.get::<_, String>(13)?)?;
    let parsed = |detail: jiff::Error| RowError::Unreadable {
        what: what.clone(),
        detail: detail.to_string(),
    };
    let entry = Entry {
        at: Moment {
            date: row.get::<_, String>(3)?.parse().map_err(parsed)?,
            time: row.get::<_, String>(4)?.parse().map_err(parsed)?,
            utc_offset_seconds: row.get(5)?,
            zone: row.get(6)?,
        },
        meal: row.get(7)?,
        dish: row.get(8)?,
        share: row.get(9)?,
        fluid_ml: row.get(10)?,
        catalogue: row.get(11)?,
        standard: row.get(12)?,
        components: from_json(&what, &row.get::<_, String>(14)?)?,
        grams: figures.grams,
        groups: figures.groups,
        limits: figures.limits,
        nutrients: figures.nutrients,
        uncounted: figures.uncounted,
    };
    Ok(Record {
        uid,
        diner: row.get(0)?,
        undone: row.get(2)?,
        entry,
    })
}

/// Entries of a diner that count, from one date to another, both within.
pub(super) fn between(
    connection: &Connection,
    diner: i64,
    from: Date,
    to: Date,
) -> Result<Vec<Record>, RowError> {
    let rest = "WHERE entries.diner = ?1 AND entries.undone = 0 AND entries.date BETWEEN ?2 AND ?3";
    records(
        connection,
        rest,
        params![diner, from.to_string(), to.to_string()],
    )
}
