//! Names with a label: the row of a small table that they mean, or none.

use super::tally::Tally;
use anyhow::Result;
use std::path::Path;
use trencher::matching::{Catalogue, Certainty, Targets};

#[derive(serde::Deserialize)]
struct Row {
    query: String,
    expect: String,
    has_match: u8,
}

/// `none` is right where no row is; anything else where its first match is the label.
pub fn tally(catalogue: &Catalogue, queries: &Path, targets: &Path) -> Result<Tally> {
    let names: Result<Vec<String>, csv::Error> = csv::Reader::from_path(targets)?
        .records()
        .map(|record| record.map(|r| r.get(0).unwrap_or_default().to_owned()))
        .collect();
    let targets = Targets::new(names?, catalogue);
    let index = targets.index()?;
    let matcher = Targets::matcher(&index, catalogue);
    let mut tally = Tally::default();
    for row in csv::Reader::from_path(queries)?.deserialize() {
        let row: Row = row?;
        let query = matcher.query(&row.query);
        let answer = matcher.answer(&query, 2, &|a, b| a == b);
        let first = answer.candidates.first().map(|c| targets.name(c.item));
        let right = match answer.certainty {
            Certainty::None => row.has_match == 0,
            _ => row.has_match == 1 && first == Some(row.expect.as_str()),
        };
        tally.add(answer.certainty, right);
    }
    Ok(tally)
}
