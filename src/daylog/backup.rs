//! The day log on its way to a file and back, entry by entry: whatever its size, only the
//! entry at hand is held.

use std::cell::Cell;
use std::fmt;
use std::io::{BufRead, BufReader, Read, Seek};

use serde::de::{Deserialize, DeserializeSeed, Deserializer, Error, IgnoredAny, MapAccess};
use serde::de::{SeqAccess, Visitor};

use super::change::Change;
use super::record::{OLDEST, ReadError, Record, VERSION};
use super::table;
use crate::people::Diner;
use crate::store::bounded::{Bounded, Left};

/// Most bytes of one diner or entry: a plate of hundreds of components holds less.
pub(crate) const MOST_ENTRY: u64 = 1 << 20;

/// Takes what a backup holds, one after the other.
pub(super) trait Take {
    /// A diner; false when no more is wanted.
    fn diner(&mut self, diner: Diner) -> bool;
    /// An entry; false when no more is wanted.
    fn entry(&mut self, record: Record) -> bool;
    /// What was done to an entry; false when no more is wanted.
    fn change(&mut self, change: Change) -> bool;
}

/// Reads a backup, JSON or a CSV table, told apart by its first sign. Fails on other text, on
/// later versions, and on an entry larger than [`MOST_ENTRY`].
pub(super) fn read<R: Read + Seek>(from: &mut R, take: &mut dyn Take) -> Result<(), ReadError> {
    let is_json = {
        let mut start = begun(from)?;
        let text = start.fill_buf().map_err(unread)?;
        let sign = text.iter().find(|b| !b.is_ascii_whitespace());
        matches!(sign, Some(b'{' | b'['))
    };
    if !is_json {
        let left = Left::of(MOST_ENTRY);
        let from = Bounded::new(begun(from)?, &left);
        return table::read_each(from, &mut |record| {
            left.begin(MOST_ENTRY);
            take.entry(record)
        });
    }
    // What is said first must be known first, in whatever order it is written.
    for pass in [Pass::Version, Pass::Diners, Pass::Entries, Pass::Changes] {
        read_pass(from, pass, take)?;
    }
    Ok(())
}

fn unread(error: impl fmt::Display) -> ReadError {
    ReadError::Input {
        detail: error.to_string(),
    }
}

/// The text from its start, without the mark some programs put there.
fn begun<R: Read + Seek>(from: &mut R) -> Result<BufReader<&mut R>, ReadError> {
    from.rewind().map_err(unread)?;
    let mut text = BufReader::with_capacity(64 << 10, from);
    if text
        .fill_buf()
        .map_err(unread)?
        .starts_with(b"\xef\xbb\xbf")
    {
        text.consume(3);
    }
    Ok(text)
}

/// What one pass over the text is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Pass {
    Version,
    Diners,
    Entries,
    Changes,
}

/// Whether a text of this version can be read.
fn is_known(version: u64) -> bool {
    (u64::from(OLDEST)..=u64::from(VERSION)).contains(&version)
}

fn read_pass<R: Read + Seek>(
    from: &mut R,
    pass: Pass,
    take: &mut dyn Take,
) -> Result<(), ReadError> {
    let (left, stopped) = (Left::of(MOST_ENTRY), Cell::new(false));
    let mut text = serde_json::Deserializer::from_reader(Bounded::new(begun(from)?, &left));
    let top = Top {
        pass,
        take,
        left: &left,
        stopped: &stopped,
    };
    let read = top.deserialize(&mut text);
    match read.and_then(|found| text.end().map(|()| found)) {
        _ if stopped.get() => Ok(()),
        Ok(found) if pass == Pass::Version && !is_known(found) => Err(ReadError::Version { found }),
        Ok(_) => Ok(()),
        Err(_) if left.is_used_up() => Err(ReadError::Json {
            detail: "a piece of it is larger than 1 MB, which no entry is".to_owned(),
        }),
        Err(error) => Err(ReadError::Json {
            detail: error.to_string(),
        }),
    }
}

/// The object that holds everything; what it comes to is its version.
struct Top<'t> {
    pass: Pass,
    take: &'t mut dyn Take,
    left: &'t Left,
    stopped: &'t Cell<bool>,
}

impl<'de> DeserializeSeed<'de> for Top<'_> {
    type Value = u64;

    fn deserialize<D: Deserializer<'de>>(self, text: D) -> Result<u64, D::Error> {
        text.deserialize_map(self)
    }
}

impl<'de> Visitor<'de> for Top<'_> {
    type Value = u64;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an object with `version`, `diners` and `entries`")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<u64, A::Error> {
        const KEYS: [&str; 4] = ["version", "diners", "entries", "changes"];
        let (mut seen, mut version) = ([false; 4], None);
        loop {
            self.left.begin(MOST_ENTRY);
            let Some(key) = map.next_key::<String>()? else {
                break;
            };
            let place = KEYS.iter().position(|known| *known == key);
            if let Some(place) = place
                && std::mem::replace(&mut seen[place], true)
            {
                return Err(A::Error::custom(format!("duplicate field `{key}`")));
            }
            match (place, self.pass) {
                (Some(0), Pass::Version) => version = Some(map.next_value()?),
                (Some(1), Pass::Diners) => {
                    let diner = |diner: Diner| self.take.diner(diner);
                    map.next_value_seed(list("diner", self.left, self.stopped, diner))?;
                }
                (Some(2), Pass::Entries) => {
                    let entry = |record: Record| self.take.entry(record);
                    map.next_value_seed(list("entry", self.left, self.stopped, entry))?;
                }
                (Some(3), Pass::Changes) => {
                    let change = |change: Change| self.take.change(change);
                    map.next_value_seed(list("change", self.left, self.stopped, change))?;
                }
                // A later version may hold more, and is told as one.
                (None, Pass::Diners | Pass::Entries | Pass::Changes) => {
                    let told = format!(
                        "unknown field `{key}`, expected one of `version`, `diners`, `entries`, \
                         `changes`"
                    );
                    return Err(A::Error::custom(told));
                }
                _ => {
                    self.left.pass_over();
                    map.next_value::<IgnoredAny>()?;
                }
            }
        }
        let is_read = version.is_some_and(is_known) || self.pass != Pass::Version;
        // Version 1 had no changes.
        for (known, there) in KEYS[..3].iter().zip(seen) {
            if !there && (*known == "version" || is_read) {
                return Err(A::Error::custom(format!("missing field `{known}`")));
            }
        }
        Ok(version.unwrap_or_default())
    }
}

/// A list whose pieces are handed on one by one.
struct List<'l, T, F> {
    what: &'static str,
    left: &'l Left,
    stopped: &'l Cell<bool>,
    take: F,
    piece: std::marker::PhantomData<T>,
}

fn list<'l, T, F: FnMut(T) -> bool>(
    what: &'static str,
    left: &'l Left,
    stopped: &'l Cell<bool>,
    take: F,
) -> List<'l, T, F> {
    List {
        what,
        left,
        stopped,
        take,
        piece: std::marker::PhantomData,
    }
}

impl<'de, T: Deserialize<'de>, F: FnMut(T) -> bool> DeserializeSeed<'de> for List<'_, T, F> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, text: D) -> Result<(), D::Error> {
        text.deserialize_seq(self)
    }
}

impl<'de, T: Deserialize<'de>, F: FnMut(T) -> bool> Visitor<'de> for List<'_, T, F> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "a list of what each {} is", self.what)
    }

    fn visit_seq<A: SeqAccess<'de>>(mut self, mut list: A) -> Result<(), A::Error> {
        for number in 1_u64.. {
            self.left.begin(MOST_ENTRY);
            let piece = list.next_element::<T>();
            if self.left.is_used_up() {
                // Told by what it is: the error would name a line of a megabyte.
                self.left.begin(1);
                let told = format!("{} {number} is larger than 1 MB", self.what);
                return Err(A::Error::custom(told));
            }
            let Some(piece) = piece? else { break };
            if !(self.take)(piece) {
                self.stopped.set(true);
                return Err(A::Error::custom("stopped"));
            }
        }
        Ok(())
    }
}
