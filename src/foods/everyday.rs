//! Foods that people know and eat as they are, with the measure they would use, and foods that
//! are free: two tables of our own choice (common practice). Groups are written by their key.

use crate::words::rows;
use std::sync::LazyLock;

/// A row of the table of everyday foods.
#[derive(Debug, serde::Deserialize)]
pub(crate) struct EverydayRow {
    /// Key of the food group it counts with.
    pub group: String,
    /// What it is eaten as: foods of one use stand in for each other.
    #[serde(rename = "use")]
    pub used_as: String,
    /// What it is among those; the nearest to it are of its kind.
    pub kind: String,
    /// Name in the catalogue.
    pub food: String,
    /// What people call it.
    pub said: String,
    /// What it is measured in, in the singular: `cup`, `slice`, `oz`.
    pub unit: String,
    /// A household measure of the catalogue (`oz` is the ounce by weight) ...
    pub measure: String,
    /// ... and how many of it make one unit.
    pub times: f64,
    /// Whether people ask what it equals, because it is not measured by portions.
    #[serde(deserialize_with = "yes")]
    pub awkward: bool,
}

/// A row of the table of free foods.
#[derive(Debug, serde::Deserialize)]
pub(crate) struct FreeRow {
    /// `fresh herbs`, `vinegars` ...
    pub kind: String,
    /// Name in the catalogue.
    pub food: String,
    /// What people call it.
    pub said: String,
    /// One serving, as people measure it.
    pub unit: String,
    /// A household measure of the catalogue ...
    pub measure: String,
    /// ... and how many of it make one serving.
    pub times: f64,
}

fn yes<'d, D: serde::Deserializer<'d>>(cell: D) -> Result<bool, D::Error> {
    let text: String = serde::Deserialize::deserialize(cell)?;
    Ok(text == "yes")
}

static EVERYDAY: LazyLock<Vec<EverydayRow>> =
    LazyLock::new(|| rows(include_str!("tables/everyday.csv")));
static FREE: LazyLock<Vec<FreeRow>> = LazyLock::new(|| rows(include_str!("tables/free.csv")));

/// Everyday foods, those of a group together, the most common of a kind first.
pub(crate) fn everyday() -> &'static [EverydayRow] {
    &EVERYDAY
}

/// Free foods, those of a kind together.
pub(crate) fn free() -> &'static [FreeRow] {
    &FREE
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_reads() {
        let lines = |text: &str| text.lines().count() - 1;
        assert_eq!(everyday().len(), lines(include_str!("tables/everyday.csv")));
        assert_eq!(free().len(), lines(include_str!("tables/free.csv")));
        assert!(everyday().iter().any(|row| row.awkward));
    }
}
