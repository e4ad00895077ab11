//! The beginning of a menu, read ahead for what it tells of its kitchen.
//!
//! A restaurant's menu is far shorter than what is read ahead, so all of its figures count for
//! all of its rows. Of a longer file the first rows speak for the rest: memory stays bounded, a
//! pipe is read as a file is, and every row is answered alike whatever the number of workers.

use super::auditor::Setting;
use super::item::Item;
use super::item_reader::ItemReader;
use super::json_ld::menu_items;
use super::kitchens::Kitchens;
use super::learner::{self, Learner};
use super::pipeline::Rows;
use super::source::Source;
use super::split::Cut;
use std::io::{BufRead, Chain, Cursor, Read};

/// Bytes that are read ahead, unpacked.
const READ_AHEAD: usize = 1 << 20;

/// Items held at most until they are looked at together.
const HELD: usize = 2_000;

/// A reader that fails once, with what reading ahead failed with, before it goes on.
struct Failed {
    with: Option<std::io::Error>,
    rest: Box<dyn BufRead + Send>,
}

impl Read for Failed {
    fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
        match self.with.take() {
            Some(error) => Err(error),
            None => self.rest.read(into),
        }
    }
}

impl BufRead for Failed {
    fn fill_buf(&mut self) -> std::io::Result<&[u8]> {
        match self.with.take() {
            Some(error) => Err(error),
            None => self.rest.fill_buf(),
        }
    }

    fn consume(&mut self, amount: usize) {
        self.rest.consume(amount);
    }
}

type Ahead = Chain<Cursor<Vec<u8>>, Failed>;

/// What the beginning of a menu tells of its kitchens; the menu can then be read from its start
/// as if nothing had been.
///
/// Rows that can not be used are passed over: the run itself tells of them. So is the last row
/// where the menu goes on behind it.
pub(crate) fn learn(source: &mut Source, setting: Setting<'_>, threads: usize) -> Kitchens {
    let mut learner = Learner::new(setting);
    let mut items = Vec::new();
    look_ahead(source, |item| {
        if learner.wants_more() && learner::can_tell(item) {
            items.push(item.clone());
        }
        if items.len() >= HELD {
            learner.take(&items, threads);
            items.clear();
        }
    });
    learner.take(&items, threads);
    learner.kitchens()
}

/// Hands every item of a menu's beginning to `take`.
fn look_ahead(source: &mut Source, mut take: impl FnMut(&Item)) {
    let empty: Box<dyn BufRead + Send> = Box::new(std::io::empty());
    let mut text = std::mem::replace(&mut source.text, empty);
    let mut bytes = Vec::new();
    let read = text
        .by_ref()
        .take(READ_AHEAD as u64)
        .read_to_end(&mut bytes);
    let goes_on = bytes.len() == READ_AHEAD;
    let beginning = Source {
        text: Box::new(Cursor::new(bytes.clone())),
        form: source.form,
        start: source.start.clone(),
        size: source.size,
        read: source.read.clone(),
    };
    let rest = Failed {
        with: read.err(),
        rest: text,
    };
    let ahead: Ahead = Cursor::new(bytes).chain(rest);
    source.text = Box::new(ahead);
    if let Ok(rows) = Rows::begin(beginning) {
        items_of(rows, goes_on, &mut take);
    }
}

/// Hands the items of a menu to `take`, the last one only where the menu ends with it.
fn items_of(rows: Rows, goes_on: bool, take: &mut impl FnMut(&Item)) {
    let header = rows.header().cloned();
    let mut reader = ItemReader::new(rows.form(header.as_ref()));
    let mut hand_on = |bytes: &[u8]| {
        if let Ok(item) = reader.read(Cut::Whole, bytes) {
            take(item);
        }
    };
    match rows {
        Rows::Ld(text) => {
            let _ = menu_items(text, &mut |_, item| {
                hand_on(item.as_bytes());
                true
            });
        }
        Rows::Csv(mut splitter, _) | Rows::Lines(mut splitter) => {
            let mut before: Option<Vec<u8>> = None;
            while let Some(row) = splitter.next_row() {
                let whole = (row.cut == Cut::Whole).then(|| row.bytes.to_vec());
                if let Some(bytes) = std::mem::replace(&mut before, whole) {
                    hand_on(&bytes);
                }
            }
            if let Some(bytes) = before.filter(|_| !goes_on) {
                hand_on(&bytes);
            }
        }
    }
}

/// Whether a menu can tell of its kitchen at all: one with columns must have one for a figure.
pub(crate) fn can_tell(source: &Source) -> bool {
    // Of a pipe perhaps only a piece of the header is there yet.
    if !source.start.contains(&b'\n') {
        return true;
    }
    let Ok(rows) = Rows::begin(Source {
        text: Box::new(Cursor::new(source.start.clone())),
        form: source.form,
        start: source.start.clone(),
        size: None,
        read: source.read.clone(),
    }) else {
        return true;
    };
    rows.header()
        .is_none_or(super::csv_rows::Header::has_figures)
}
