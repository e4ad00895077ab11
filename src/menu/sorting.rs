//! Rows in another order than the menu's: the first few in memory, all of them by way of
//! temporary files, so that memory stays the same whatever the length.

use super::pipeline::Kept;
use std::cmp::Ordering;
use std::collections::BinaryHeap;
use std::fs::File;
use std::io::{BufReader, BufWriter, Read, Seek, Write};

/// Bytes of rows held before they go to a temporary file.
const HELD: usize = 12 << 20;

/// A row with what it is sorted by.
#[derive(Debug, Clone, PartialEq)]
struct Entry {
    key: Option<f64>,
    /// Place in the menu: decides between equals.
    at: u64,
    bytes: Vec<u8>,
}

/// Sorts rows as they come.
pub(crate) struct Sorter {
    falling: bool,
    top: Option<usize>,
    held: Vec<Entry>,
    bytes: usize,
    seen: u64,
    runs: Vec<File>,
}

impl Sorter {
    /// A sorter, largest first if `falling`; with `top`, only so many are kept. Rows whose
    /// figure is not known come last either way.
    #[must_use]
    pub(crate) fn new(falling: bool, top: Option<usize>) -> Self {
        Self {
            falling,
            top,
            held: Vec::new(),
            bytes: 0,
            seen: 0,
            runs: Vec::new(),
        }
    }

    /// Takes the rows of a batch: `out`, cut at the ends in `kept`.
    pub(crate) fn take(&mut self, out: &[u8], kept: &[Kept]) -> std::io::Result<()> {
        let mut start = 0;
        for row in kept {
            let bytes = out.get(start..row.end).unwrap_or_default().to_vec();
            start = row.end;
            self.bytes += bytes.len();
            self.held.push(Entry {
                key: row.key,
                at: self.seen,
                bytes,
            });
            self.seen += 1;
        }
        match self.top {
            Some(top) if self.held.len() > 2 * top + 1024 => self.shorten(top),
            None if self.bytes > HELD => self.set_down()?,
            _ => {}
        }
        Ok(())
    }

    fn sort(&mut self) {
        let falling = self.falling;
        self.held.sort_unstable_by(|a, b| order(a, b, falling));
    }

    fn shorten(&mut self, top: usize) {
        self.sort();
        self.held.truncate(top);
    }

    fn set_down(&mut self) -> std::io::Result<()> {
        self.sort();
        let mut file = BufWriter::new(tempfile::tempfile()?);
        for entry in self.held.drain(..) {
            write_entry(&mut file, &entry)?;
        }
        self.bytes = 0;
        let mut file = file
            .into_inner()
            .map_err(std::io::IntoInnerError::into_error)?;
        file.rewind()?;
        self.runs.push(file);
        Ok(())
    }

    /// Hands on all rows in order.
    pub(crate) fn finish(
        mut self,
        each: &mut dyn FnMut(&[u8]) -> std::io::Result<()>,
    ) -> std::io::Result<()> {
        self.sort();
        if let Some(top) = self.top {
            self.held.truncate(top);
        }
        if self.runs.is_empty() {
            return self.held.iter().try_for_each(|entry| each(&entry.bytes));
        }
        self.set_down()?;
        let falling = self.falling;
        let mut runs: Vec<BufReader<File>> = self.runs.into_iter().map(BufReader::new).collect();
        let mut first = BinaryHeap::new();
        for (run, file) in runs.iter_mut().enumerate() {
            if let Some(entry) = read_entry(file)? {
                first.push(Head {
                    entry,
                    run,
                    falling,
                });
            }
        }
        while let Some(head) = first.pop() {
            each(&head.entry.bytes)?;
            if let Some(entry) = read_entry(&mut runs[head.run])? {
                first.push(Head { entry, ..head });
            }
        }
        Ok(())
    }
}

fn order(a: &Entry, b: &Entry, falling: bool) -> Ordering {
    let by_key = match (a.key, b.key) {
        (Some(a), Some(b)) if falling => b.total_cmp(&a),
        (Some(a), Some(b)) => a.total_cmp(&b),
        (Some(_), None) => Ordering::Less,
        (None, Some(_)) => Ordering::Greater,
        (None, None) => Ordering::Equal,
    };
    by_key.then(a.at.cmp(&b.at))
}

/// First entry of a run; the heap gives out the one that comes first.
struct Head {
    entry: Entry,
    run: usize,
    falling: bool,
}

impl Ord for Head {
    fn cmp(&self, other: &Self) -> Ordering {
        order(&other.entry, &self.entry, self.falling)
    }
}

impl PartialOrd for Head {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Head {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Head {}

fn write_entry(file: &mut impl Write, entry: &Entry) -> std::io::Result<()> {
    file.write_all(&entry.key.unwrap_or(f64::NAN).to_le_bytes())?;
    file.write_all(&entry.at.to_le_bytes())?;
    file.write_all(&(entry.bytes.len() as u64).to_le_bytes())?;
    file.write_all(&entry.bytes)
}

fn read_entry(file: &mut impl Read) -> std::io::Result<Option<Entry>> {
    let mut head = [0; 24];
    match file.read_exact(&mut head) {
        Err(error) if error.kind() == std::io::ErrorKind::UnexpectedEof => return Ok(None),
        read => read?,
    }
    let part = |at: usize| {
        let mut word = [0; 8];
        word.copy_from_slice(&head[at..at + 8]);
        word
    };
    let key = f64::from_le_bytes(part(0));
    let mut bytes = vec![0; u64::from_le_bytes(part(16)) as usize];
    file.read_exact(&mut bytes)?;
    Ok(Some(Entry {
        key: (!key.is_nan()).then_some(key),
        at: u64::from_le_bytes(part(8)),
        bytes,
    }))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sorted(falling: bool, top: Option<usize>, rows: usize, size: usize) -> Vec<u32> {
        let mut sorter = Sorter::new(falling, top);
        for at in 0..rows {
            // Every seventh has no figure; the others repeat.
            let key = (at % 7 != 0).then(|| f64::from((at as u32 * 7919) % 1000));
            let text = format!("{:>size$}", key.map_or(-1.0, |k| k));
            let end = text.len();
            sorter
                .take(text.as_bytes(), &[Kept { end, key }])
                .expect("takes");
        }
        let mut list = Vec::new();
        sorter
            .finish(&mut |bytes| {
                let text = String::from_utf8_lossy(bytes);
                list.push(text.trim().parse::<f64>().expect("a figure") as i64 as u32);
                Ok(())
            })
            .expect("finishes");
        list
    }

    #[test]
    fn all_rows_come_in_order_with_and_without_files() {
        for size in [8, 40_000] {
            let list = sorted(false, None, 1_000, size);
            assert_eq!(list.len(), 1_000);
            let known = list.iter().take_while(|v| **v != u32::MAX).count();
            assert_eq!(known, 1_000 - 143);
            assert!(list[..known].is_sorted());
            assert!(list[known..].iter().all(|v| *v == u32::MAX));
        }
    }

    #[test]
    fn the_first_few_are_the_first_of_all() {
        let all = sorted(true, None, 5_000, 8);
        assert_eq!(sorted(true, Some(10), 5_000, 8), all[..10]);
    }
}
