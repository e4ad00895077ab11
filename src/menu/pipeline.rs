//! Reader, workers and writer: batches of rows go round between them in a fixed number, so
//! that nothing piles up whoever is slow.

use super::auditor::{Auditor, Setting};
use super::csv_out::CsvRows;
use super::csv_rows::{Header, HeaderFault, delimiter_of};
use super::field::Field;
use super::filter::Filter;
use super::item::RowFault;
use super::item_reader::{ItemReader, RowForm};
use super::json_ld::{LdFault, menu_items};
use super::json_out;
use super::repeats::{Answer, Known, Repeats};
use super::source::{InputForm, Source};
use super::split::{Cut, Shape, Splitter};
use super::summary::Brief;
use crate::ledger::Rest;
use crossbeam_channel::{Receiver, Sender, bounded};
use std::collections::BTreeMap;
use std::io::BufRead;
use std::sync::atomic::{AtomicBool, Ordering};

/// Rows of a batch at most.
const BATCH_ROWS: usize = 48;
/// Bytes from which a batch goes off with fewer rows.
const BATCH_BYTES: usize = 128 << 10;
/// Memory of a batch that is given back after an unusual row.
const KEPT_BYTES: usize = 1 << 20;
/// Batches going round for each worker.
const BATCHES_EACH: usize = 3;

/// How rows are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Encoding {
    /// CSV without its header.
    Csv,
    /// One JSON object a line.
    Ndjson,
    /// Not at all: only the summary is wanted.
    Nothing,
}

/// What rows are sorted by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Order {
    /// The figure.
    pub field: Field,
    /// Largest first.
    pub falling: bool,
}

/// What is to be done with every row.
pub(crate) struct Job<'s> {
    /// What it is audited with.
    pub setting: Setting<'s>,
    /// Which rows are kept.
    pub filter: Option<Filter>,
    /// What rows will be sorted by.
    pub order: Option<Order>,
    /// The rest of a day that rows are held against.
    pub rest: Option<&'s Rest>,
    /// How rows are written.
    pub encoding: Encoding,
    /// Whether the `key` of a row goes along, and rows that cannot be used are written as well.
    pub keyed: bool,
    /// Rows at the start that are left out, done by an earlier run.
    pub skip: u64,
    /// Workers; at least one.
    pub threads: usize,
    /// Becomes true when the run is to stop at the next row.
    pub stop: &'s AtomicBool,
}

/// A row of a batch as found.
#[derive(Debug, Clone, Copy)]
struct RawRow {
    line: u64,
    start: usize,
    end: usize,
    cut: Cut,
}

/// A row written into a batch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Kept {
    /// Where it ends in [`Batch::out`].
    pub end: usize,
    /// What it is sorted by.
    pub key: Option<f64>,
}

/// A row that could not be used.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct BadRow {
    /// Its line, from 1.
    pub line: u64,
    /// Why; nothing for the rest of a row told already.
    pub fault: Option<RowFault>,
    start: usize,
    end: usize,
    cut: Cut,
}

/// Rows on their way.
#[derive(Debug, Default)]
pub(crate) struct Batch {
    number: u64,
    /// Rows of the input up to and with this batch.
    pub rows_so_far: u64,
    bytes: Vec<u8>,
    rows: Vec<RawRow>,
    /// Rows that are kept, as written.
    pub out: Vec<u8>,
    /// Where each of them ends.
    pub kept: Vec<Kept>,
    /// What the summary needs of every row.
    pub briefs: Vec<Brief>,
    /// Rows that could not be used.
    pub bad: Vec<BadRow>,
    /// Rows audited, of which some component is not counted.
    pub incomplete: u64,
}

impl Batch {
    fn clear(&mut self) {
        for memory in [&mut self.bytes, &mut self.out] {
            memory.clear();
            if memory.capacity() > KEPT_BYTES {
                memory.shrink_to(KEPT_BYTES);
            }
        }
        self.rows.clear();
        self.kept.clear();
        self.briefs.clear();
        self.bad.clear();
        self.incomplete = 0;
    }

    /// The bytes of a bad row as they were read, and whether a line break belongs after them.
    pub(crate) fn raw(&self, bad: &BadRow) -> (&[u8], bool) {
        let bytes = self.bytes.get(bad.start..bad.end).unwrap_or_default();
        (bytes, bad.cut != Cut::Piece)
    }
}

/// How the input came to its end.
#[derive(Debug)]
pub(crate) enum Ended {
    /// All of it was read.
    Whole,
    /// It was asked to stop.
    Stopped,
    /// Reading failed; what came before was used.
    Failed(std::io::Error),
    /// The JSON-LD breaks off or goes wrong; what came before was used.
    BrokenJson(String),
}

/// Takes finished batches, in their order.
pub(crate) trait Sink {
    /// One batch. An error ends the run.
    fn take(&mut self, batch: &Batch) -> std::io::Result<()>;
}

/// A menu cut into rows.
pub(crate) enum Rows {
    /// A header and rows.
    Csv(Splitter<Box<dyn BufRead + Send>>, Header),
    /// Objects by the line.
    Lines(Splitter<Box<dyn BufRead + Send>>),
    /// One object.
    Ld(Box<dyn BufRead + Send>),
}

impl Rows {
    /// Begins to read: a CSV menu's header.
    ///
    /// Fails when the header cannot be used, or when reading it fails.
    pub(crate) fn begin(source: Source) -> Result<Self, BeginError> {
        match source.form {
            InputForm::JsonLd => Ok(Self::Ld(source.text)),
            InputForm::Ndjson => Ok(Self::Lines(Splitter::new(source.text, Shape::Lines))),
            InputForm::Csv => {
                let delimiter = delimiter_of(&source.start);
                let mut splitter = Splitter::new(source.text, Shape::Csv(delimiter));
                let header = match splitter.next_row() {
                    Some(row) => Header::parse(row.bytes, delimiter)?,
                    None => {
                        return Err(match splitter.failure() {
                            Some(error) => BeginError::Input(error),
                            None => HeaderFault::Empty.into(),
                        });
                    }
                };
                Ok(Self::Csv(splitter, header))
            }
        }
    }

    /// The header of a CSV menu.
    pub(crate) fn header(&self) -> Option<&Header> {
        match self {
            Self::Csv(_, header) => Some(header),
            _ => None,
        }
    }

    /// How items are made of them, with the header where there is one.
    pub(crate) fn form<'h>(&self, header: Option<&'h Header>) -> RowForm<'h> {
        match (self, header) {
            (Self::Csv(..), Some(header)) => RowForm::Csv(header),
            (Self::Ld(_), _) => RowForm::MenuItem,
            _ => RowForm::Line,
        }
    }
}

/// Why a menu cannot be begun.
#[derive(Debug, thiserror::Error)]
pub(crate) enum BeginError {
    /// The header.
    #[error(transparent)]
    Header(#[from] HeaderFault),
    /// The input.
    #[error(transparent)]
    Input(std::io::Error),
}

/// Audits all rows and hands them to `sink` in their order, whatever the number of workers.
///
/// Fails when the sink does.
pub(crate) fn run(rows: Rows, job: &Job<'_>, sink: &mut dyn Sink) -> std::io::Result<Ended> {
    let threads = job.threads.max(1);
    let going_round = threads * BATCHES_EACH + 2;
    let (free_in, free) = bounded(going_round);
    let (work_in, work) = bounded::<Batch>(going_round);
    let (done_in, done) = bounded::<Batch>(going_round);
    for _ in 0..going_round {
        let _ = free_in.send(Batch::default());
    }
    let header = rows.header().cloned();
    let form = rows.form(header.as_ref());
    std::thread::scope(|scope| {
        let reader = scope.spawn(move || {
            let mut filler = Filler::new(free, work_in, job);
            feed(rows, &mut filler)
        });
        for _ in 0..threads {
            let (work, done_in) = (work.clone(), done_in.clone());
            scope.spawn(move || {
                let mut worker = Worker::new(job, form);
                for mut batch in work {
                    worker.work(&mut batch);
                    if done_in.send(batch).is_err() {
                        return;
                    }
                }
            });
        }
        drop((work, done_in));
        let written = write_in_order(&done, &free_in, sink);
        // Whoever still works finds no one to hand on to and ends.
        drop((done, free_in));
        let ended = reader
            .join()
            .unwrap_or_else(|panic| std::panic::resume_unwind(panic));
        written.map(|()| ended)
    })
}

fn write_in_order(
    done: &Receiver<Batch>,
    free: &Sender<Batch>,
    sink: &mut dyn Sink,
) -> std::io::Result<()> {
    let mut next = 0;
    let mut early = BTreeMap::new();
    for batch in done {
        early.insert(batch.number, batch);
        while let Some(mut batch) = early.remove(&next) {
            sink.take(&batch)?;
            next += 1;
            batch.clear();
            // The reader may have ended already.
            let _ = free.send(batch);
        }
    }
    Ok(())
}

/// Puts rows into batches and sends them off.
struct Filler<'j> {
    free: Receiver<Batch>,
    work: Sender<Batch>,
    stop: &'j AtomicBool,
    skip: u64,
    batch: Option<Batch>,
    number: u64,
    rows: u64,
}

impl<'j> Filler<'j> {
    fn new(free: Receiver<Batch>, work: Sender<Batch>, job: &Job<'j>) -> Self {
        Self {
            free,
            work,
            stop: job.stop,
            skip: job.skip,
            batch: None,
            number: 0,
            rows: 0,
        }
    }

    /// Takes a row; false when no more are wanted.
    fn take(&mut self, line: u64, bytes: &[u8], cut: Cut) -> bool {
        if self.stop.load(Ordering::Relaxed) {
            return false;
        }
        if cut != Cut::Rest {
            self.rows += 1;
        }
        if self.rows <= self.skip {
            return true;
        }
        let Some(mut batch) = self.batch.take().or_else(|| self.free.recv().ok()) else {
            return false;
        };
        let start = batch.bytes.len();
        batch.bytes.extend_from_slice(bytes);
        batch.rows.push(RawRow {
            line,
            start,
            end: batch.bytes.len(),
            cut,
        });
        let full = batch.rows.len() >= BATCH_ROWS || batch.bytes.len() >= BATCH_BYTES;
        self.batch = Some(batch);
        !full || self.send()
    }

    fn send(&mut self) -> bool {
        let Some(mut batch) = self.batch.take() else {
            return true;
        };
        batch.number = self.number;
        batch.rows_so_far = self.rows;
        self.number += 1;
        self.work.send(batch).is_ok()
    }
}

fn feed(rows: Rows, filler: &mut Filler<'_>) -> Ended {
    let ended = match rows {
        Rows::Csv(splitter, _) | Rows::Lines(splitter) => feed_rows(splitter, filler),
        Rows::Ld(text) => feed_items(text, filler),
    };
    filler.send();
    if filler.stop.load(Ordering::Relaxed) {
        return Ended::Stopped;
    }
    ended
}

fn feed_rows(mut splitter: Splitter<Box<dyn BufRead + Send>>, filler: &mut Filler<'_>) -> Ended {
    while let Some(row) = splitter.next_row() {
        if !filler.take(row.line, row.bytes, row.cut) {
            return Ended::Stopped;
        }
    }
    match splitter.failure() {
        Some(error) => Ended::Failed(error),
        None => Ended::Whole,
    }
}

fn feed_items(mut text: Box<dyn BufRead + Send>, filler: &mut Filler<'_>) -> Ended {
    if text
        .fill_buf()
        .is_ok_and(|start| start.starts_with(b"\xef\xbb\xbf"))
    {
        text.consume(3);
    }
    let done = menu_items(text, &mut |line, item| {
        filler.take(line, item.as_bytes(), Cut::Whole)
    });
    match done {
        Ok(()) => Ended::Whole,
        Err(fault @ (LdFault::Json(_) | LdFault::TooLong { .. })) => {
            Ended::BrokenJson(fault.to_string())
        }
        Err(LdFault::Input(error)) => Ended::Failed(error),
    }
}

/// One worker: its auditor and the memory it uses again and again.
struct Worker<'j> {
    job: &'j Job<'j>,
    auditor: Auditor<'j>,
    reader: ItemReader<'j>,
    repeats: Repeats,
}

impl<'j> Worker<'j> {
    fn new(job: &'j Job<'j>, form: RowForm<'j>) -> Self {
        Self {
            job,
            auditor: Auditor::new(job.setting),
            reader: ItemReader::new(form),
            repeats: Repeats::new(),
        }
    }

    fn work(&mut self, batch: &mut Batch) {
        let Batch {
            bytes,
            rows,
            out,
            kept,
            briefs,
            bad,
            incomplete,
            ..
        } = batch;
        for raw in rows.iter() {
            let line = &bytes[raw.start..raw.end];
            let known = match raw.cut {
                Cut::Whole => self.repeats.look(line),
                _ => Known::New,
            };
            if let Known::Answered(answer) = known {
                out.extend_from_slice(&answer.out);
                *incomplete += u64::from(!answer.whole);
                add(answer.brief.clone(), answer.key, out.len(), (kept, briefs));
                continue;
            }
            let again = matches!(known, Known::Seen);
            let from = out.len();
            match self.answer(raw, line, out) {
                Ok((brief, key, whole)) => {
                    *incomplete += u64::from(!whole);
                    if again {
                        let (out, brief) = (out[from..].into(), brief.clone());
                        let answer = Answer {
                            out,
                            brief,
                            key,
                            whole,
                        };
                        self.repeats.keep(line.into(), answer);
                    }
                    add(brief, key, out.len(), (kept, briefs));
                }
                Err(fault) => {
                    let fault = (raw.cut != Cut::Rest).then_some(fault);
                    if let Some(fault) = fault.as_ref().filter(|_| self.job.keyed) {
                        let key = self.reader.item.key.as_deref();
                        json_out::reject(key, line, &fault.to_string(), out);
                    }
                    bad.push(BadRow {
                        line: raw.line,
                        fault,
                        start: raw.start,
                        end: raw.end,
                        cut: raw.cut,
                    });
                }
            }
        }
    }

    /// Audits a row and writes it, if it is wanted: what the summary needs of it, what it is
    /// sorted by, and whether all of it counts.
    fn answer(
        &mut self,
        raw: &RawRow,
        line: &[u8],
        out: &mut Vec<u8>,
    ) -> Result<(Option<Brief>, Option<f64>, bool), RowFault> {
        let catalogue = self.job.setting.catalogue;
        let mut row = self.auditor.row(self.reader.read(raw.cut, line)?)?;
        let rest = self.job.rest;
        row.choice = rest.and_then(|rest| rest.choice(&row.ledger));
        let whole = row.is_whole();
        let wanted = |f: &Filter| f.meets(&row, &self.reader.item.description, catalogue);
        if !self.job.filter.as_ref().is_none_or(wanted) {
            return Ok((None, None, whole));
        }
        match self.job.encoding {
            Encoding::Csv => {
                let mut writer = CsvRows::new(catalogue, rest.is_some(), out);
                // Writing into memory does not fail.
                let _ = writer.row(&row).and_then(|()| writer.finish());
            }
            Encoding::Ndjson => {
                let key = self.reader.item.key.as_deref().filter(|_| self.job.keyed);
                json_out::row(&row, key, catalogue, out);
            }
            Encoding::Nothing => {}
        }
        let key = self.job.order.and_then(|o| o.field.of(&row));
        // Only what is shown to people is drawn.
        let shown = self.job.encoding == Encoding::Nothing;
        let item = shown.then(|| Box::new(self.reader.item.clone()));
        Ok((Some(Brief::of(row, item)), key, whole))
    }
}

/// Adds a row that is wanted, written up to `end`.
fn add(
    brief: Option<Brief>,
    key: Option<f64>,
    end: usize,
    (kept, briefs): (&mut Vec<Kept>, &mut Vec<Brief>),
) {
    if let Some(brief) = brief {
        kept.push(Kept { end, key });
        briefs.push(brief);
    }
}
