//! `trencher food match`: names of one table to names of another, as a stream.

use super::arguments::{MatchArgs, Sureness, Units};
use super::{Failure, Outcome};
use crate::foods::FoodId;
use crate::matching::matcher::{Candidate, Matcher};
use crate::matching::{Catalogue, Certainty, Context, Targets};
use crate::pages::escape::cell;
use crate::store::bounded::{Bounded, Left};
use std::io::{Read, Write};
use std::path::Path;

/// Most matches written for one query.
const MOST: usize = 50;

pub(super) fn run(args: &MatchArgs, catalogue: &Catalogue) -> Result<Outcome, Failure> {
    let queries = open(&args.queries)?;
    match &args.targets {
        Some(path) => {
            let targets = Targets::new(names(path, args.target_column.as_deref())?, catalogue);
            let index = targets.index()?;
            let matcher = Targets::matcher(&index, catalogue);
            stream(args, queries, &matcher, None, &|item| targets.name(item))
        }
        None => stream(
            args,
            queries,
            &catalogue.matcher(),
            Some(catalogue),
            &|item| catalogue.food(FoodId(item)).name(),
        ),
    }
}

/// Largest row of a table of names, bytes.
const MOST_ROW: u64 = 1 << 20;
/// Most names to match to.
const MOST_TARGETS: usize = 200_000;

/// A table of names, and what a row of it may still take.
struct Names {
    rows: csv::Reader<Box<dyn Read>>,
    left: Left,
}

impl Names {
    /// The next row; false at the end.
    fn next(&mut self, record: &mut csv::StringRecord, path: &Path) -> Result<bool, Failure> {
        self.left.begin(MOST_ROW);
        let read = self.rows.read_record(record);
        read.map_err(|e| self.fault(path, &e))
    }

    fn fault(&self, path: &Path, error: &csv::Error) -> Failure {
        if self.left.is_used_up() {
            return Failure::Request(format!(
                "`{}` has a row of more than 1 MB, which no name takes",
                path.display()
            ));
        }
        bad_row(path, error)
    }
}

fn open(path: &Path) -> Result<Names, Failure> {
    let input: Box<dyn Read> = if path == Path::new("-") {
        Box::new(std::io::stdin().lock())
    } else {
        let file = std::fs::File::open(path)
            .map_err(|e| Failure::File(format!("cannot read `{}`: {e}", path.display())))?;
        Box::new(file)
    };
    let left = Left::of(MOST_ROW);
    let input: Box<dyn Read> = Box::new(Bounded::new(input, &left));
    let mut builder = csv::ReaderBuilder::new();
    builder.flexible(true).trim(csv::Trim::All);
    let rows = builder.from_reader(input);
    Ok(Names { rows, left })
}

/// Number of the asked column, or of the first.
fn column(table: &mut Names, path: &Path, name: Option<&str>) -> Result<usize, Failure> {
    let headers = match table.rows.headers() {
        Ok(headers) => headers.clone(),
        Err(error) => return Err(table.fault(path, &error)),
    };
    if headers.is_empty() {
        return Err(Failure::Request(format!(
            "`{}` is empty\n  = it needs a header line, such as `name`, and a name a line",
            path.display()
        )));
    }
    let Some(name) = name else {
        return Ok(0);
    };
    headers
        .iter()
        .position(|h| h.trim_start_matches('\u{feff}') == name)
        .ok_or_else(|| {
            let known = headers.iter().collect::<Vec<_>>().join("`, `");
            Failure::Request(format!(
                "`{}` has no column `{name}`\n  = its columns are `{known}`",
                path.display()
            ))
        })
}

fn bad_row(path: &Path, error: &csv::Error) -> Failure {
    match error.kind() {
        csv::ErrorKind::Io(_) => {
            Failure::File(format!("cannot read `{}`: {error}", path.display()))
        }
        _ => Failure::Request(format!(
            "`{}` is no CSV text in UTF-8: {error}\n  = save it as UTF-8 CSV with a header line",
            path.display()
        )),
    }
}

/// All names of the target table; empty ones are left out.
fn names(path: &Path, name: Option<&str>) -> Result<Vec<String>, Failure> {
    let mut reader = open(path)?;
    let at = column(&mut reader, path, name)?;
    let mut list = Vec::new();
    let mut record = csv::StringRecord::new();
    while reader.next(&mut record, path)? {
        if list.len() == MOST_TARGETS {
            return Err(Failure::Request(format!(
                "`{}` holds more than {MOST_TARGETS} names to match to\n  = split it",
                path.display()
            )));
        }
        list.extend(record.get(at).filter(|n| !n.is_empty()).map(str::to_owned));
    }
    if list.is_empty() {
        return Err(Failure::Request(format!(
            "`{}` holds no names to match to",
            path.display()
        )));
    }
    Ok(list)
}

fn least(sureness: Sureness) -> Certainty {
    match sureness {
        Sureness::Sure => Certainty::Sure,
        Sureness::Likely => Certainty::Likely,
        Sureness::Guess => Certainty::Guess,
        Sureness::None => Certainty::None,
    }
}

/// A match as it is written.
struct Written {
    item: u32,
    score: f32,
    why: String,
}

/// The matches of one query, best first, and how certain the first is. What a person has
/// said that the words mean goes before what was matched.
fn matches(
    text: &str,
    args: &MatchArgs,
    matcher: &Matcher<'_, '_>,
    context: &Context,
    corrected: Option<&Catalogue>,
) -> (Vec<Written>, Certainty) {
    let top = args.top.clamp(1, MOST);
    // Somebody else's table may write as the query does.
    let said = corrected.map_or(text.into(), |c| c.in_our_words(text, context));
    let query = matcher.query(&said);
    let alike = |a: u32, b: u32| corrected.is_some_and(|c| c.alike(a, b));
    let answer = matcher.answer(&query, top, &alike);
    let why = |c: &Candidate| {
        if args.why {
            matcher.why(&query, c)
        } else {
            String::new()
        }
    };
    let mut written: Vec<Written> = answer
        .candidates
        .iter()
        .map(|c| Written {
            item: c.item,
            score: c.score,
            why: why(c),
        })
        .collect();
    if let Some(first) = written.first_mut().filter(|_| args.why) {
        first.why.push_str(&answer.lowered_by());
    }
    let Some((correction, food)) = corrected.and_then(|catalogue| catalogue.correction(text))
    else {
        return (written, answer.certainty);
    };
    let Some(FoodId(item)) = food else {
        return (Vec::new(), Certainty::None);
    };
    written.retain(|w| w.item != item);
    let first = Written {
        item,
        score: 1.0,
        why: correction.why(),
    };
    written.insert(0, first);
    written.truncate(top);
    (written, Certainty::Sure)
}

/// Matches row by row; each row is written before the next is read.
fn stream<'n>(
    args: &MatchArgs,
    mut queries: Names,
    matcher: &Matcher<'_, '_>,
    corrected: Option<&Catalogue>,
    name: &dyn Fn(u32) -> &'n str,
) -> Result<Outcome, Failure> {
    let at = column(&mut queries, &args.queries, args.column.as_deref())?;
    let context = Context {
        words: Vec::new(),
        british: args.units == Units::Metric,
    };
    let failed = |e: csv::Error| match e.into_kind() {
        csv::ErrorKind::Io(e) => Failure::from(e),
        _ => Failure::File("cannot write the matches".to_owned()),
    };
    let mut out = csv::Writer::from_writer(std::io::BufWriter::new(std::io::stdout().lock()));
    let mut header = vec!["query", "rank", "match", "score", "certainty"];
    if args.why {
        header.push("why");
    }
    out.write_record(&header).map_err(failed)?;
    let mut outcome = Outcome::Done;
    let mut record = csv::StringRecord::new();
    while queries.next(&mut record, &args.queries)? {
        let text = record.get(at).unwrap_or_default();
        let (mut kept, certainty) = matches(text, args, matcher, &context, corrected);
        if certainty < least(args.min_certainty) {
            kept.clear();
        }
        for (rank, found) in kept.iter().enumerate() {
            let rank_text = (rank + 1).to_string();
            let score = format!("{:.3}", found.score);
            let word = if rank == 0 { certainty.word() } else { "" };
            let (query, item) = (cell(text), cell(name(found.item)));
            let mut row = vec![query.as_str(), &rank_text, &item, &score, word];
            let why = cell(&found.why);
            if args.why {
                row.push(&why);
            }
            out.write_record(&row).map_err(failed)?;
        }
        if kept.is_empty() {
            outcome = Outcome::Partly;
            let query = cell(text);
            let mut row = vec![query.as_str(), "1", "", "", Certainty::None.word()];
            if args.why {
                row.push("");
            }
            out.write_record(&row).map_err(failed)?;
        }
    }
    out.flush()?;
    out.into_inner()
        .map_err(|e| Failure::from(e.into_error()))?
        .flush()?;
    Ok(outcome)
}
