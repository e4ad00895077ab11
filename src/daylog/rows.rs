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
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    energy_nutrients: BTreeMap<String, LimitAmount>,
    uncounted: Vec<String>,
}

/// A name as it is compared: `Ana`, `ANA` and a differently composed `Ána` each find theirs.
pub(super) fn key(name: &str) -> String {
    let composed: String = name.trim().nfc().collect();
    composed.to_lowercase().nfc().collect()
}

pub(super) fn json<T: Serialize>(what: &str, value: &T) -> Result<String, RowError> {
    serde_json::to_string(value).map_err(|error| RowError::Unreadable {
        what: what.to_owned(),
        detail: error.to_string(),
    })
}

pub(super) fn from_json<T: for<'d> Deserialize<'d>>(what: &str, text: &str) -> Result<T, RowError> {
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

/// How an entry comes into the log, beside what was eaten.
#[derive(Clone, Copy, Default)]
pub(super) struct Given<'g> {
    /// Its name across copies; one is made where none is given.
    pub uid: Option<&'g str>,
    /// Planned and not eaten yet.
    pub planned: bool,
    /// Taken back or removed.
    pub undone: bool,
}

/// What became of an entry that was added.
pub(super) struct Added {
    /// The row's number.
    pub id: i64,
    /// Its name across copies.
    pub uid: String,
    /// Its number among the diner's entries.
    pub number: u32,
}

impl Figures {
    fn of(entry: &Entry) -> Self {
        Self {
            grams: entry.grams,
            groups: entry.groups.clone(),
            limits: entry.limits.clone(),
            nutrients: entry.nutrients.clone(),
            energy_nutrients: entry.energy_nutrients.clone(),
            uncounted: entry.uncounted.clone(),
        }
    }
}

/// Adds an entry, which gets the next number of its diner's.
pub(super) fn insert_entry(
    connection: &Connection,
    diner: i64,
    entry: &Entry,
    given: Given<'_>,
) -> Result<Added, RowError> {
    let figures = Figures::of(entry);
    let mut statement = connection.prepare_cached(
        "INSERT INTO entries (diner, date, time, utc_offset_seconds, zone, meal, dish, share,
            fluid_ml, catalogue, standard, figures, components, undone, planned, uid, number)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15,
            coalesce(?16, lower(hex(randomblob(16)))),
            (SELECT coalesce(max(number), 0) + 1 FROM entries WHERE diner = ?1))
         RETURNING id, uid, number",
    )?;
    let added = statement.query_row(
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
            given.undone,
            given.planned,
            given.uid,
        ],
        |row| {
            Ok(Added {
                id: row.get(0)?,
                uid: row.get(1)?,
                number: row.get(2)?,
            })
        },
    )?;
    Ok(added)
}

/// Puts other figures in an entry's row.
pub(super) fn update_entry(
    connection: &Connection,
    id: i64,
    entry: &Entry,
    planned: bool,
) -> Result<(), RowError> {
    connection.execute(
        "UPDATE entries SET date = ?2, time = ?3, utc_offset_seconds = ?4, zone = ?5, meal = ?6,
            dish = ?7, share = ?8, fluid_ml = ?9, catalogue = ?10, standard = ?11, figures = ?12,
            components = ?13, planned = ?14
         WHERE id = ?1",
        params![
            id,
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
            json("the entry", &Figures::of(entry))?,
            json("the entry", &entry.components)?,
            planned,
        ],
    )?;
    Ok(())
}

/// Says whether an entry was taken back or removed.
pub(super) fn set_undone(connection: &Connection, id: i64, undone: bool) -> Result<(), RowError> {
    let sql = "UPDATE entries SET undone = ?2 WHERE id = ?1";
    connection.execute(sql, params![id, undone])?;
    Ok(())
}

/// An entry by its number among a diner's, with the row's number.
pub(super) fn find_entry(
    connection: &Connection,
    diner: i64,
    number: u32,
) -> Result<Option<(i64, Record)>, RowError> {
    one(
        connection,
        "WHERE entries.diner = ?1 AND entries.number = ?2",
        params![diner, number],
    )
}

/// An entry by the row's number.
pub(super) fn entry_at(connection: &Connection, id: i64) -> Result<Record, RowError> {
    let found = one(connection, "WHERE entries.id = ?1", [id])?;
    found
        .map(|(_, record)| record)
        .ok_or_else(|| rusqlite::Error::QueryReturnedNoRows.into())
}

fn one(
    connection: &Connection,
    rest: &str,
    values: impl rusqlite::Params,
) -> Result<Option<(i64, Record)>, RowError> {
    let mut statement = connection.prepare_cached(&format!("{COLUMNS} {rest}"))?;
    let mut rows = statement.query(values)?;
    match rows.next()? {
        Some(row) => Ok(Some((row.get(15)?, record(row)?))),
        None => Ok(None),
    }
}

const COLUMNS: &str = "SELECT diners.name, entries.uid, entries.undone, entries.date, entries.time,
    entries.utc_offset_seconds, entries.zone, entries.meal, entries.dish, entries.share,
    entries.fluid_ml, entries.catalogue, entries.standard, entries.figures, entries.components,
    entries.id, entries.number, entries.planned
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
        energy_nutrients: figures.energy_nutrients,
        uncounted: figures.uncounted,
    };
    Ok(Record {
        uid,
        diner: row.get(0)?,
        number: row.get(16)?,
        planned: row.get(17)?,
        undone: row.get(2)?,
        entry,
    })
}

/// Entries of a diner that count, from one date to another, both within: what was eaten, or
/// what is planned.
pub(super) fn between(
    connection: &Connection,
    diner: i64,
    (from, to): (Date, Date),
    planned: bool,
) -> Result<Vec<Record>, RowError> {
    let rest = "WHERE entries.diner = ?1 AND entries.undone = 0 AND entries.planned = ?4
        AND entries.date BETWEEN ?2 AND ?3";
    records(
        connection,
        rest,
        params![diner, from.to_string(), to.to_string(), planned],
    )
}
