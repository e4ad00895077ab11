//! One item of a menu, as its row says it, and why a row can not be used.

use crate::quantity::Range;

/// Kilojoules in a kilocalorie (thermochemical).
const KJ_PER_KCAL: f64 = 4.184;
/// Energy above which a printed figure is no figure of one dish, kcal.
const MOST_KCAL: f64 = 50_000.0;

/// Longest name of an item, and longest text of what is served, bytes. Of 4,484 printed items
/// of 55 restaurants none has a name of a fifth of this.
const MOST_NAME: usize = 1_000;
/// Longest description, bytes.
const MOST_DESCRIPTION: usize = 4_000;
/// Most components of one item.
pub(crate) const MOST_COMPONENTS: usize = 200;

/// Component texts of an item, in order.
pub(super) fn texts(components: &str) -> impl Iterator<Item = &str> {
    let all = components.split(';').map(str::trim);
    all.filter(|t| !t.is_empty())
}

/// Bytes held at most while looking for the end of a row. A quote that is still open after
/// so much is taken for one that nobody closed.
pub(crate) const MOST_HELD: usize = 2 << 20;

/// One item of a menu: texts as written, empty where nothing is said.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Item {
    /// What is ordered.
    pub name: String,
    /// The heading that it stands under.
    pub section: String,
    /// The line beneath it.
    pub description: String,
    /// Components parted by `;`.
    pub components: String,
    /// The whole plate: a weight, a volume or a vessel.
    pub served: String,
    /// Energy that the restaurant prints, kcal: one figure, or the low and high of several.
    pub printed: Option<(f64, f64)>,
    /// The restaurant that serves it, where a menu holds several.
    pub restaurant: String,
    /// What the row is known by elsewhere, where it says so.
    pub key: Option<String>,
}

impl Item {
    /// Fails when a field is longer than any menu has it: what takes longest to understand is
    /// bounded by these figures.
    pub(crate) fn check(&self) -> Result<(), RowFault> {
        let fields = [
            ("item", &self.name, MOST_NAME),
            ("description", &self.description, MOST_DESCRIPTION),
            ("served", &self.served, MOST_NAME),
            ("restaurant", &self.restaurant, MOST_NAME),
        ];
        for (field, text, most) in fields {
            if text.len() > most {
                return Err(RowFault::Field {
                    field,
                    bytes: text.len(),
                    most,
                });
            }
        }
        let listed = texts(&self.components).count();
        if listed > MOST_COMPONENTS {
            return Err(RowFault::Components {
                listed,
                most: MOST_COMPONENTS,
            });
        }
        Ok(())
    }

    /// Empties it, keeping its memory.
    pub(crate) fn clear(&mut self) {
        self.name.clear();
        self.section.clear();
        self.description.clear();
        self.components.clear();
        self.served.clear();
        self.restaurant.clear();
        self.printed = None;
        self.key = None;
    }
}

/// Why a row can not be used. The text is made here; the line is told beside it.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum RowFault {
    /// Not UTF-8.
    #[error("not UTF-8 text (first wrong byte at {at} of the row): save the file as UTF-8")]
    NotText {
        /// Offset in the row, from 1.
        at: usize,
    },
    /// A NUL byte.
    #[error("a NUL byte at {at} of the row: take it out")]
    Nul {
        /// Offset in the row, from 1.
        at: usize,
    },
    /// A row too long to be one dish.
    #[error("{bytes} bytes in one row, more than {most}: an item is no book")]
    TooLong {
        /// Its length.
        bytes: usize,
        /// The most.
        most: usize,
    },
    /// A field too long for what it should say.
    #[error("`{field}` holds {bytes} bytes, more than {most}: say it in fewer words")]
    Field {
        /// Which.
        field: &'static str,
        /// Its length.
        bytes: usize,
        /// The most.
        most: usize,
    },
    /// More components than a plate holds.
    #[error("{listed} components, more than {most}: a plate has fewer")]
    Components {
        /// How many.
        listed: usize,
        /// The most.
        most: usize,
    },
    /// A quote that nothing closes.
    #[error("a quote opens here and does not close where a cell ends: close it, or double it")]
    OpenQuote,
    /// The input ends within the row.
    #[error("the input ends within this row")]
    CutOff,
    /// More cells than the header names.
    #[error("{found} cells for {named} columns: put quotes around cells that hold a comma")]
    Cells {
        /// Cells in the row.
        found: usize,
        /// Columns in the header.
        named: usize,
    },
    /// No JSON object, or one whose fields are not as they should be.
    #[error("no item in JSON: {0}")]
    Json(String),
    /// Nothing says what is ordered.
    #[error("`item` is empty: name what is ordered")]
    NoName,
    /// The printed energy is no figure.
    #[error("`{0}` is no energy: write kcal, such as `640` or `540-680`")]
    Energy(String),
    /// What is served can not be read.
    #[error("served: {0}")]
    Served(String),
    /// The library's file for this dish can not be read.
    #[error("the library's dish of this name: {0}")]
    Dish(String),
    /// No word of it means a food.
    #[error("nothing in it means a food: give its components")]
    NoFood,
    /// The main part of it means none: what is named besides makes no total.
    #[error("main dish unknown: `{0}`; say what it is made of in the description or in components")]
    UnknownMain(String),
}

/// Printed energy: `640`, `1,150 kcal`, `2680 kJ`, `540/680`, `500-900 calories`; nothing
/// for an empty cell or a dash.
///
/// 21 CFR 101.11 prints two options with a slash and three or more as a low and a high.
/// Fails on anything else, and on figures that no dish can have.
pub(crate) fn printed_energy(text: &str) -> Result<Option<(f64, f64)>, RowFault> {
    let text = text.trim();
    if text.is_empty() || matches!(text, "-" | "–" | "—" | "n/a" | "N/A") {
        return Ok(None);
    }
    let wrong = || RowFault::Energy(shortened(text));
    let lower = text.to_lowercase();
    let digits = lower
        .rfind(|c: char| c.is_ascii_digit())
        .ok_or_else(wrong)?;
    let (figures, unit) = lower.split_at(digits + 1);
    let per = match unit.trim().trim_end_matches('.') {
        "" | "kcal" | "cal" | "cals" | "calories" | "calorie" | "kilocalories" => 1.0,
        "kj" | "kilojoules" => 1.0 / KJ_PER_KCAL,
        _ => return Err(wrong()),
    };
    let mut low_high: Option<(f64, f64)> = None;
    for figure in figures.split(['/', '-', '–', '—']) {
        let plain: String = figure.chars().filter(|c| !matches!(c, ',' | ' ')).collect();
        let plain = plain.trim_start_matches("to");
        let value = plain.parse::<f64>().map_err(|_| wrong())? * per;
        if !(0.0..=MOST_KCAL).contains(&value) {
            return Err(wrong());
        }
        let (low, high) = low_high.unwrap_or((value, value));
        low_high = Some((low.min(value), high.max(value)));
    }
    Ok(low_high)
}

/// Adds a text as one line: breaks and tabs within a cell are spaces.
pub(super) fn push_line(into: &mut String, text: &str) {
    let text = text.trim();
    if text.bytes().any(|b| matches!(b, b'\n' | b'\r' | b'\t')) {
        let space = |c: char| {
            if matches!(c, '\n' | '\r' | '\t') {
                ' '
            } else {
                c
            }
        };
        into.extend(text.chars().map(space));
    } else {
        into.push_str(text);
    }
}

/// A text short enough for a message.
pub(super) fn shortened(text: &str) -> String {
    const MOST: usize = 60;
    if text.chars().count() <= MOST {
        return text.to_owned();
    }
    text.chars().take(MOST).chain("...".chars()).collect()
}

/// Where a printed figure lies against the estimated range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum PrintedIs {
    /// Below the range.
    Below,
    /// In the range.
    Within,
    /// Above the range.
    Above,
}

impl PrintedIs {
    /// Holds printed energy against the estimate. Several printed figures are in the range as
    /// soon as one of them could be.
    #[must_use]
    pub(crate) fn of((low, high): (f64, f64), estimate: Range) -> Self {
        if high < estimate.low {
            Self::Below
        } else if low > estimate.high {
            Self::Above
        } else {
            Self::Within
        }
    }

    /// The word for tables and files.
    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::Below => "below",
            Self::Within => "in",
            Self::Above => "above",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn printed_energy_is_read_as_menus_print_it() {
        let read = |t: &str| printed_energy(t);
        assert_eq!(read(" 640 "), Ok(Some((640.0, 640.0))));
        assert_eq!(read("1,150 kcal"), Ok(Some((1150.0, 1150.0))));
        assert_eq!(read("540/680"), Ok(Some((540.0, 680.0))));
        assert_eq!(read("900 - 500 Calories"), Ok(Some((500.0, 900.0))));
        assert_eq!(read("4184 kJ"), Ok(Some((1000.0, 1000.0))));
        assert_eq!(read(""), Ok(None));
        assert_eq!(read("–"), Ok(None));
        for wrong in ["ask", "640 g", "-20", "1e9", "NaN", "1.2.3"] {
            assert!(matches!(read(wrong), Err(RowFault::Energy(_))), "{wrong}");
        }
    }

    #[test]
    fn a_printed_range_is_in_when_any_of_it_could_be() {
        let estimate = Range::new(500.0, 640.0, 800.0);
        let is = |low, high| PrintedIs::of((low, high), estimate).word();
        assert_eq!([is(400.0, 499.0), is(400.0, 500.0)], ["below", "in"]);
        assert_eq!([is(801.0, 900.0), is(700.0, 900.0)], ["above", "in"]);
    }
}
