//! Linking table-style food descriptions to short names.

use crate::report::{Line, percent};
use serde::Deserialize;
use std::path::Path;
use trencher::matching::{Catalogue, Certainty, Targets};

#[derive(Debug, Deserialize)]
struct Case {
    query: String,
    expect: String,
    has_match: u8,
}

/// Names that count as possible answers.
const TOP: usize = 5;

pub fn run(folder: &Path, catalogue: &Catalogue) -> Result<Vec<Line>, Box<dyn std::error::Error>> {
    let base = folder.join("data/benchmarks");
    let mut reader = csv::Reader::from_path(base.join("name_matching_targets.csv"))?;
    let mut targets = Vec::new();
    for record in reader.records() {
        targets.push(record?[0].to_owned());
    }
    let targets = Targets::new(targets, catalogue);
    let index = targets.index()?;
    let matcher = Targets::matcher(&index, catalogue);
    let mut reader = csv::Reader::from_path(base.join("name_matching_dev.csv"))?;
    let (mut present, mut first, mut five, mut all, mut right) = (0, 0, 0, 0, 0);
    for row in reader.deserialize::<Case>() {
        let row = row?;
        let query = matcher.query(&row.query);
        let answer = matcher.answer(&query, TOP, &|a, b| a == b);
        let list = &answer.candidates;
        let taken = (answer.certainty != Certainty::None)
            .then(|| list.first().map(|c| targets.name(c.item)))
            .flatten();
        all += 1;
        if row.has_match == 0 {
            right += u32::from(taken.is_none());
            continue;
        }
        let names: Vec<&str> = list.iter().map(|c| targets.name(c.item)).collect();
        present += 1;
        first += u32::from(names.first() == Some(&row.expect.as_str()));
        five += u32::from(names.contains(&row.expect.as_str()));
        right += u32::from(taken == Some(row.expect.as_str()));
    }
    let of = |count: u32, whole: u32| percent(f64::from(count) / f64::from(whole));
    Ok(vec![
        Line::new(
            format!("name matching, a match present: right at rank 1, {present} names"),
            of(first, present),
            "at least 85 %",
        ),
        Line::new(
            "name matching, a match present: right in the top 5",
            of(five, present),
            "at least 95 %",
        ),
        Line::new(
            format!("name matching, none among the answers, {all} names"),
            of(right, all),
            "at least 70 %",
        ),
    ])
}
