//! The diners' file, opened for a command, and the clock that commands go by.

use super::Failure;
use crate::daylog::{Clock, LogError, PlaceError, Store, SystemClock, ZoneError, database_path};
use crate::people::Diner;
use jiff::ZonedDateTime;
use jiff::civil::Date;
use std::path::Path;

/// Puts a fixed moment in the machine clock's place, such as
/// `2026-03-29T00:30:00+01:00[Europe/Berlin]`: for tests and for pages that come out the
/// same every time.
const NOW_VARIABLE: &str = "TRENCHER_NOW";

impl From<LogError> for Failure {
    fn from(error: LogError) -> Self {
        let text = error.to_string();
        match error {
            LogError::NoDiner { .. }
            | LogError::NoEntry { .. }
            | LogError::EntryRemoved { .. }
            | LogError::NameTaken { .. }
            | LogError::Diner(_)
            | LogError::Entry(_)
            | LogError::Read(_)
            | LogError::Import(_) => Failure::Request(text),
            LogError::Output(error) => error.into(),
            _ => Failure::File(text),
        }
    }
}

impl From<PlaceError> for Failure {
    fn from(error: PlaceError) -> Self {
        Failure::File(error.to_string())
    }
}

impl From<ZoneError> for Failure {
    fn from(error: ZoneError) -> Self {
        Failure::Request(error.to_string())
    }
}

/// The file, made where there is none.
pub(super) fn open() -> Result<Store, Failure> {
    opened(&database_path()?)
}

/// The file, which keeps the moment of every change.
fn opened(path: &Path) -> Result<Store, Failure> {
    let mut store = Store::open(path)?;
    store.set_now(now(None)?.timestamp());
    Ok(store)
}

/// The file if there is one: looking makes nothing.
pub(super) fn open_if_any() -> Result<Option<Store>, Failure> {
    let path = database_path()?;
    match path.try_exists() {
        Ok(false) => Ok(None),
        // What cannot be looked at is reported by opening it.
        Ok(true) | Err(_) => Ok(Some(opened(&path)?)),
    }
}

/// The file and the diner asked for; without a name the only one there is.
pub(super) fn diner_of(name: Option<&str>) -> Result<(Store, Diner), Failure> {
    let nobody = |name: &str| LogError::NoDiner {
        name: name.to_owned(),
        known: Vec::new(),
    };
    match (open_if_any()?, name) {
        (Some(store), Some(name)) => {
            let diner = store.diner(name)?;
            Ok((store, diner))
        }
        (None, Some(name)) => Err(nobody(name).into()),
        (Some(store), None) => {
            let mut diners = store.diners()?;
            match (diners.len(), diners.pop()) {
                (1, Some(diner)) => Ok((store, diner)),
                (0, _) => Err(none_yet()),
                (_, last) => {
                    let names: Vec<String> =
                        diners.into_iter().chain(last).map(|d| d.name).collect();
                    Err(Failure::Request(format!(
                        "there is more than one diner: say whose day it is with --diner\n  = known: {}",
                        names.join(", ")
                    )))
                }
            }
        }
        (None, None) => Err(none_yet()),
    }
}

/// The file and the diners asked for, each once; without a name the only one there is.
pub(super) fn diners_of(names: &[String]) -> Result<(Store, Vec<Diner>), Failure> {
    let Some((first, others)) = names.split_first() else {
        let (store, diner) = diner_of(None)?;
        return Ok((store, vec![diner]));
    };
    let (store, diner) = diner_of(Some(first))?;
    let mut diners = vec![diner];
    for name in others {
        let diner = store.diner(name)?;
        if diners.contains(&diner) {
            return Err(Failure::Request(format!("`{}` is named twice", diner.name)));
        }
        diners.push(diner);
    }
    Ok((store, diners))
}

fn none_yet() -> Failure {
    Failure::Request(
        "there is no diner yet\n  = add one with `trencher diner add NAME`; see `trencher diner add --help`"
            .to_owned(),
    )
}

/// The clock of this run.
struct RunClock(Option<ZonedDateTime>);

impl Clock for RunClock {
    fn now(&self) -> ZonedDateTime {
        self.0.clone().unwrap_or_else(|| SystemClock.now())
    }
}

/// The moment in a diner's zone, or the machine's.
pub(super) fn now(zone: Option<&str>) -> Result<ZonedDateTime, Failure> {
    let fixed = match std::env::var(NOW_VARIABLE) {
        Ok(text) if !text.is_empty() => Some(text.parse().map_err(|e| {
            Failure::Request(format!(
                "`{NOW_VARIABLE}` is `{text}`, which is no moment ({e}); write for example `2026-03-29T12:30:00+02:00[Europe/Berlin]`"
            ))
        })?),
        _ => None,
    };
    Ok(crate::daylog::now_for(&RunClock(fixed), zone)?)
}

/// The diner's local date.
pub(super) fn today(diner: &Diner) -> Result<Date, Failure> {
    Ok(now(diner.zone.as_deref())?.date())
}
