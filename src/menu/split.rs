//! Cutting a stream of bytes into rows, without looking into them more than that takes.

use super::item::MOST_HELD;
use memchr::{memchr, memchr2, memchr3};
use std::io::{ErrorKind, Read};

/// Bytes asked for at a time.
const CHUNK: usize = 64 << 10;
/// What is wrong with a row as a piece of text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cut {
    /// Nothing.
    Whole,
    /// A quote opens in it and does not close.
    OpenQuote,
    /// The input broke off within it.
    BrokenOff,
    /// It goes on in the next piece: longer than is held.
    Piece,
    /// The rest of such a row.
    Rest,
}

/// A row as found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Found<'b> {
    /// Line it starts on, from 1.
    pub line: u64,
    /// Its bytes, without the line break.
    pub bytes: &'b [u8],
    /// Whether it is whole.
    pub cut: Cut,
}

/// How rows end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// At a line break outside quotes; the delimiter tells where a quote may open.
    Csv(u8),
    /// At every line break.
    Lines,
}

/// Cuts rows out of a stream, holding no more than the row it is at.
pub struct Splitter<R> {
    from: R,
    shape: Shape,
    buffer: Vec<u8>,
    start: usize,
    end: usize,
    /// How far the row at `start` has been looked at.
    scan: usize,
    quoted: bool,
    /// End of the row's first line, once it has more than one, and where the next begins.
    first_line: Option<(usize, usize)>,
    line: u64,
    lines_inside: u64,
    ended: bool,
    rest: bool,
    failed: Option<std::io::Error>,
}

/// What a look at the buffer came to.
enum Step {
    /// A row up to the first figure; the next begins at the second, so many lines on.
    Row(usize, usize, u64, Cut),
    More,
}

impl<R: Read> Splitter<R> {
    /// Rows of a stream.
    pub fn new(from: R, shape: Shape) -> Self {
        Self {
            from,
            shape,
            buffer: Vec::new(),
            start: 0,
            end: 0,
            scan: 0,
            quoted: false,
            first_line: None,
            line: 1,
            lines_inside: 0,
            ended: false,
            rest: false,
            failed: None,
        }
    }

    /// The next row that is not blank; nothing at the end of the input. When reading fails,
    /// what was read before comes first, then the end: see [`Splitter::failure`].
    pub fn next_row(&mut self) -> Option<Found<'_>> {
        loop {
            match self.look() {
                Step::Row(end, next, lines, cut) => {
                    let (start, line, was_rest) = (self.start, self.line, self.rest);
                    self.line += lines;
                    self.start = next;
                    self.scan = next;
                    self.quoted = false;
                    self.first_line = None;
                    self.lines_inside = 0;
                    self.rest = cut == Cut::Piece;
                    let blank = self.buffer[start..end].iter().all(u8::is_ascii_whitespace);
                    if blank && cut == Cut::Whole && !was_rest {
                        continue;
                    }
                    let cut = match cut {
                        _ if was_rest && cut != Cut::Piece => Cut::Rest,
                        cut => cut,
                    };
                    return Some(Found {
                        line,
                        bytes: &self.buffer[start..end],
                        cut,
                    });
                }
                Step::More if self.ended && self.start == self.end => return None,
                Step::More => self.read_on(),
            }
        }
    }

    /// Why reading stopped before the end of the input, if it did.
    pub(crate) fn failure(&mut self) -> Option<std::io::Error> {
        self.failed.take()
    }

    fn look(&mut self) -> Step {
        if let Some(step) = match self.shape {
            Shape::Lines => self.look_for_line(),
            Shape::Csv(delimiter) => self.look_for_csv(delimiter),
        } {
            return step;
        }
        if self.ended && self.start < self.end {
            return self.last();
        }
        if self.end - self.start >= MOST_HELD {
            return match self.first_line {
                Some((end, next)) if self.quoted => Step::Row(end, next, 1, Cut::OpenQuote),
                _ => Step::Row(self.end, self.end, 0, Cut::Piece),
            };
        }
        Step::More
    }

    /// What is left when nothing follows.
    fn last(&self) -> Step {
        if self.quoted {
            return match self.first_line {
                Some((end, next)) => Step::Row(end, next, 1, Cut::OpenQuote),
                None => Step::Row(self.end, self.end, 0, Cut::OpenQuote),
            };
        }
        let cut = if self.failed.is_some() {
            Cut::BrokenOff
        } else {
            Cut::Whole
        };
        Step::Row(self.end, self.end, 0, cut)
    }

    fn look_for_line(&mut self) -> Option<Step> {
        let Some(at) = memchr(b'\n', &self.buffer[self.scan..self.end]) else {
            self.scan = self.end;
            return None;
        };
        let at = self.scan + at;
        let end = if at > self.start && self.buffer[at - 1] == b'\r' {
            at - 1
        } else {
            at
        };
        Some(Step::Row(end, at + 1, 1, Cut::Whole))
    }

    fn look_for_csv(&mut self, delimiter: u8) -> Option<Step> {
        loop {
            let part = &self.buffer[self.scan..self.end];
            let found = if self.rest {
                memchr2(b'\n', b'\r', part)
            } else {
                memchr3(b'"', b'\n', b'\r', part)
            };
            let Some(at) = found.map(|at| self.scan + at) else {
                self.scan = self.end;
                return None;
            };
            let next = (at + 1 < self.end).then(|| self.buffer[at + 1]);
            // What follows decides; wait for it.
            if next.is_none() && !self.ended && self.buffer[at] != b'\n' {
                self.scan = at;
                return None;
            }
            if self.buffer[at] == b'"' {
                if let Some(step) = self.quote(at, next, delimiter) {
                    return Some(step);
                }
                continue;
            }
            let after = at + 1 + usize::from(self.buffer[at] == b'\r' && next == Some(b'\n'));
            if !self.quoted {
                return Some(Step::Row(at, after, self.lines_inside + 1, Cut::Whole));
            }
            self.lines_inside += 1;
            self.first_line.get_or_insert((at, after));
            self.scan = after;
        }
    }

    fn quote(&mut self, at: usize, next: Option<u8>, delimiter: u8) -> Option<Step> {
        self.scan = at + 1;
        if !self.quoted {
            let opens = at == self.start || self.buffer[at - 1] == delimiter;
            self.quoted = opens;
            return None;
        }
        match next {
            Some(b'"') => self.scan = at + 2,
            Some(b'\n' | b'\r') | None => self.quoted = false,
            Some(other) if other == delimiter => self.quoted = false,
            // A closing quote with text after it: within one line the writer was sloppy; over
            // several the quote was never meant to run so far.
            Some(_) => {
                if let Some((end, next)) = self.first_line {
                    return Some(Step::Row(end, next, 1, Cut::OpenQuote));
                }
                self.quoted = false;
            }
        }
        None
    }

    fn read_on(&mut self) {
        if self.start > 0 {
            self.buffer.copy_within(self.start..self.end, 0);
            self.end -= self.start;
            self.scan -= self.start;
            if let Some((end, next)) = &mut self.first_line {
                *end -= self.start;
                *next -= self.start;
            }
            self.start = 0;
        }
        if self.buffer.len() < self.end + CHUNK {
            self.buffer.resize(self.end + CHUNK, 0);
        } else if self.buffer.len() > 4 * CHUNK && self.end < CHUNK {
            // A giant row has passed: give its room back.
            self.buffer.truncate(2 * CHUNK);
            self.buffer.shrink_to_fit();
        }
        loop {
            match self.from.read(&mut self.buffer[self.end..]) {
                Ok(0) => self.ended = true,
                Ok(read) => self.end += read,
                Err(error) if error.kind() == ErrorKind::Interrupted => continue,
                Err(error) => {
                    self.ended = true;
                    self.failed = Some(error);
                }
            }
            return;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Gives out a few bytes at a time, so that every row is cut at every place.
    struct Drip<'t>(&'t [u8], usize);

    impl Read for Drip<'_> {
        fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
            let many = self.1.min(self.0.len()).min(into.len());
            into[..many].copy_from_slice(&self.0[..many]);
            self.0 = &self.0[many..];
            Ok(many)
        }
    }

    fn rows(text: &str, shape: Shape) -> Vec<(u64, String, Cut)> {
        let all = |step: usize| {
            let mut splitter = Splitter::new(Drip(text.as_bytes(), step), shape);
            let mut list = Vec::new();
            while let Some(row) = splitter.next_row() {
                let text = String::from_utf8_lossy(row.bytes).into_owned();
                list.push((row.line, text, row.cut));
            }
            list
        };
        let whole = all(usize::MAX);
        for step in [1, 2, 3, 7] {
            assert_eq!(all(step), whole, "in steps of {step}");
        }
        whole
    }

    fn csv(text: &str) -> Vec<(u64, String, Cut)> {
        rows(text, Shape::Csv(b','))
    }

    #[test]
    fn every_kind_of_line_end_ends_a_row() {
        let found = csv("a,1\nb,2\r\nc,3\rd,4\n\n\r\ne,5");
        let texts: Vec<_> = found.iter().map(|(l, t, _)| (*l, t.as_str())).collect();
        assert_eq!(
            texts,
            [(1, "a,1"), (2, "b,2"), (3, "c,3"), (4, "d,4"), (7, "e,5")]
        );
    }

    #[test]
    fn a_cell_may_hold_line_breaks_and_doubled_quotes() {
        let found = csv("a,\"x\r\ny \"\"z\"\"\",1\nb,2\n");
        assert_eq!(found[0].1, "a,\"x\r\ny \"\"z\"\"\",1");
        assert_eq!((found[1].0, found[1].1.as_str()), (3, "b,2"));
    }

    #[test]
    fn a_quote_never_closed_costs_its_own_line_only() {
        let found = csv("\"a,1\nb,\"x\"\n\"c\",3\n");
        assert_eq!(found[0], (1, "\"a,1".to_owned(), Cut::OpenQuote));
        assert_eq!(found[1], (2, "b,\"x\"".to_owned(), Cut::Whole));
        assert_eq!(found[2], (3, "\"c\",3".to_owned(), Cut::Whole));
        let last = csv("a,1\n\"b,2\nc,3\nd,4");
        let lines: Vec<_> = last.iter().map(|r| (r.0, r.2)).collect();
        let whole = Cut::Whole;
        assert_eq!(
            lines,
            [(1, whole), (2, Cut::OpenQuote), (3, whole), (4, whole)]
        );
    }

    #[test]
    fn inches_within_a_quoted_cell_do_not_end_it() {
        let found = csv("\"10\" pizza\",2\nb,3\n");
        assert_eq!(found[0].1, "\"10\" pizza\",2");
        assert_eq!(found[1].1, "b,3");
    }

    #[test]
    fn a_row_longer_than_is_held_comes_in_pieces() {
        let text = format!("a,1\n{},2\nb,3\n", "x".repeat(MOST_HELD + 200_000));
        let mut splitter = Splitter::new(text.as_bytes(), Shape::Csv(b','));
        let mut cuts = Vec::new();
        let mut length = 0;
        while let Some(row) = splitter.next_row() {
            cuts.push((row.line, row.cut));
            length += row.bytes.len();
        }
        let whole = Cut::Whole;
        assert_eq!(
            cuts,
            [(1, whole), (2, Cut::Piece), (2, Cut::Rest), (3, whole)]
        );
        assert_eq!(length, text.len() - 3);
    }

    #[test]
    fn lines_end_at_line_feeds_only() {
        let found = rows("{\"a\":1}\r\n{\"b\":\"x\ry\"}\n", Shape::Lines);
        assert_eq!(found[0].1, "{\"a\":1}");
        assert_eq!(found[1].1, "{\"b\":\"x\ry\"}");
    }
}
