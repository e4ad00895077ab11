//! The unit a person serves a food in: quarter cups, half slices, whole pieces.

use std::sync::LazyLock;

use crate::quantity::units::OUNCE_G;

/// Tablespoons in a cup (NIST Handbook 44, appendix C).
const TBSP_IN_CUP: f64 = 16.0;

/// Below this a piece is poured or heaped, not counted (fries, peas), grams. Own choice.
const TINY_PIECE_G: f64 = 8.0;

/// More pieces than this are heaped, not counted, except where the table says so. Own choice.
const MOST_PIECES: f64 = 6.5;

/// From this a piece is cut in half at the table (a breast, a burger), grams. Own choice.
const HALVED_FROM_G: f64 = 85.0;

/// From this it is cut in quarters (a burrito, a large steak), grams. Own choice.
const QUARTERED_FROM_G: f64 = 200.0;

/// A unit and the smallest part of it that is served.
#[derive(Debug, Clone, PartialEq)]
pub struct KitchenUnit {
    /// Singular: `cup`, `slice`, `wing`.
    pub label: String,
    /// Grams of one.
    pub grams_each: f64,
    /// The smallest part served: 0.25, 0.5 or 1.
    pub step: f64,
}

/// How the amount was written, where that says how the food is served.
#[derive(Debug, Clone, PartialEq)]
pub enum Said {
    /// In cups, spoons or fluid ounces.
    Volume,
    /// In ounces, pounds or grams.
    Weight,
    /// So many of something: the word and the grams of one.
    Counted {
        /// `slice`, `wing`; empty for the food itself.
        word: String,
        /// Grams of one.
        grams_each: f64,
    },
}

impl KitchenUnit {
    /// Half ounces, for what has no better measure.
    #[must_use]
    pub(crate) fn ounces() -> Self {
        Self::of("oz", OUNCE_G, 0.5)
    }

    /// A unit by its three figures.
    #[must_use]
    pub(crate) fn of(label: &str, grams_each: f64, step: f64) -> Self {
        Self {
            label: label.to_owned(),
            grams_each,
            step,
        }
    }

    /// A slice is halved; a piece stays whole unless it is large enough to be cut.
    pub(super) fn piece(label: &str, grams_each: f64) -> Self {
        let step = match grams_each {
            _ if label == "slice" => 0.5,
            g if g >= QUARTERED_FROM_G => 0.25,
            g if g >= HALVED_FROM_G => 0.5,
            _ => 1.0,
        };
        Self::of(label, grams_each, step)
    }

    /// Cups by the quarter, or tablespoons where a quarter cup is much of the amount.
    fn volume(cup_grams: f64, served_grams: f64) -> Self {
        let tbsp = cup_grams / TBSP_IN_CUP;
        match served_grams / cup_grams {
            cups if cups >= 0.4 => Self::of("cup", cup_grams, 0.25),
            cups if cups >= 0.1875 => Self::of("tbsp", tbsp, 1.0),
            _ => Self::of("tbsp", tbsp, 0.5),
        }
    }

    /// Grams of the smallest part served.
    #[must_use]
    pub(crate) fn step_grams(&self) -> f64 {
        self.grams_each * self.step
    }

    /// Grams in words: `1 1/4 cups`.
    #[must_use]
    pub(crate) fn say(&self, grams: f64) -> String {
        let units = (grams / self.step_grams()).round() * self.step;
        format!("{} {}", fraction(units), plural(&self.label, units))
    }

    /// What to eat in words; `whole` when nothing is left.
    pub(super) fn eaten(&self, grams: f64, whole: bool) -> String {
        match grams {
            g if g <= 0.0 => "none".to_owned(),
            _ if whole => "all".to_owned(),
            g => self.say(g),
        }
    }

    /// What is left in words. It is what the kitchen served less whole steps, so `about`.
    pub(super) fn left(&self, grams: f64) -> String {
        match grams / self.step_grams() {
            steps if steps <= 0.0 => String::new(),
            steps if steps < 0.5 => format!("about {grams:.0} g"),
            steps if (steps - steps.round()).abs() < 1e-6 => self.say(grams),
            _ => format!("about {}", self.say(grams)),
        }
    }
}

/// The unit for a food served at this weight, from its household measures (text and
/// grams), and from how its amount was written where that is known.
///
/// Counted amounts stay counted. Otherwise slices come before pieces, pieces before cups,
/// cups before ounces, except that an amount written as a volume is served by volume and
/// one written as a weight is not counted in pieces nobody spoke of.
#[must_use]
pub(crate) fn choose(
    measures: &[(&str, f64)],
    served_grams: f64,
    said: Option<&Said>,
) -> KitchenUnit {
    let all: Vec<Measured> = measures
        .iter()
        .filter_map(|(text, g)| measured(text, *g))
        .collect();
    let volume = || volume(&all, served_grams);
    let piece = || piece(&all, served_grams);
    let unit = match said {
        Some(Said::Counted { word, grams_each }) if *grams_each > 0.0 => {
            let label = if word.is_empty() { "piece" } else { word };
            // Six fries are counted one by one, but so few grams are not a step to serve.
            (*grams_each >= TINY_PIECE_G)
                .then(|| KitchenUnit::piece(label, *grams_each))
                .or_else(volume)
        }
        Some(Said::Volume) => volume().or_else(piece),
        Some(Said::Weight) => match piece() {
            Some(unit) if unit.label != "slice" => None,
            Some(unit) => Some(unit),
            None => volume(),
        },
        _ => piece().or_else(volume),
    };
    unit.unwrap_or_else(KitchenUnit::ounces)
}

/// What a household measure is for this purpose.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Sort {
    Cup,
    Spoon,
    FluidOunce,
    Piece(&'static str),
}

/// One unit of a household measure.
#[derive(Debug, Clone, Copy)]
struct Measured {
    sort: Sort,
    grams: f64,
    /// Nothing but number and unit: `1 cup`.
    plain: bool,
}

fn volume(all: &[Measured], served_grams: f64) -> Option<KitchenUnit> {
    let of = |sort| {
        let found = || all.iter().filter(move |m| m.sort == sort);
        found()
            .find(|m| m.plain)
            .or_else(|| found().next())
            .map(|m| m.grams)
    };
    if let Some(grams) = of(Sort::FluidOunce) {
        return Some(KitchenUnit::of("fl oz", grams, 1.0));
    }
    let cup = of(Sort::Cup).or_else(|| Some(of(Sort::Spoon)? * TBSP_IN_CUP))?;
    Some(KitchenUnit::volume(cup, served_grams))
}

fn piece(all: &[Measured], served_grams: f64) -> Option<KitchenUnit> {
    let few = |m: &Measured| {
        let pieces = served_grams / m.grams;
        pieces <= MOST_PIECES || matches!(m.sort, Sort::Piece(label) if is_counted(label))
    };
    let fits = |m: &&Measured| m.grams >= TINY_PIECE_G && m.grams <= served_grams * 1.25 && few(m);
    let named = |m: &Measured| match m.sort {
        Sort::Piece(label) => Some((label, m.grams)),
        _ => None,
    };
    let slices = all
        .iter()
        .filter(fits)
        .filter(|m| m.sort == Sort::Piece("slice"));
    let slice = slices
        .clone()
        .find(|m| m.plain)
        .or_else(|| slices.clone().next());
    let pieces = || all.iter().filter(fits).filter(|m| named(m).is_some());
    let best = slice
        .or_else(|| pieces().find(|m| m.plain))
        .or_else(|| pieces().next());
    best.and_then(named)
        .map(|(label, grams)| KitchenUnit::piece(label, grams))
}

/// Words for a piece, as USDA's measures name them, what one is called here, and whether it is
/// counted however many there are (own choice). A size alone means the food itself.
const PIECES: &str = include_str!("tables/pieces.csv");

#[derive(serde::Deserialize)]
struct Row {
    word: String,
    label: String,
    counted: String,
}

static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| crate::words::rows(PIECES));

/// Whether so many of it as there are are counted.
fn is_counted(label: &str) -> bool {
    let mut rows = ROWS.iter().filter(|row| row.label == label);
    rows.any(|row| !row.counted.is_empty())
}

/// Takes a measure apart; nothing for what is not served by (packages, rules of thumb).
fn measured(text: &str, grams: f64) -> Option<Measured> {
    let lower = text.trim().to_lowercase();
    let end = lower.find(|c: char| !(c.is_ascii_digit() || "./".contains(c)))?;
    let (number, rest) = lower.split_at(end);
    let number = match number.split_once('/') {
        Some((over, under)) => over.parse::<f64>().ok()? / under.parse::<f64>().ok()?,
        None => number.parse().ok()?,
    };
    if !(number > 0.0 && number.is_finite() && grams > 0.0) {
        return None;
    }
    let rest = rest.trim();
    // What stands before a comma or bracket is the unit, the rest says more about it.
    let head = rest.split([',', '(']).next().unwrap_or("").trim();
    let words: Vec<&str> = head.split_whitespace().collect();
    let (sort, used) = match words.as_slice() {
        ["cup", ..] => (Sort::Cup, 1),
        ["tbsp" | "tablespoon", ..] => (Sort::Spoon, 1),
        ["fl", "oz", ..] => (Sort::FluidOunce, 2),
        ["small" | "medium" | "large" | "regular" | "whole", noun] => (named(noun)?, 2),
        [noun] => (named(noun)?, 1),
        _ => return None,
    };
    let plain = used == words.len() && head == rest && !matches!(words[0], "small" | "large");
    Some(Measured {
        sort,
        grams: grams / number,
        plain,
    })
}

/// What one of a food is called, when its words say so: `egg` of `fried egg`.
pub(super) fn called(words: &str) -> Option<&'static str> {
    let last = crate::words::head(words)
        .split_whitespace()
        .next_back()?
        .to_lowercase();
    let one = last.strip_suffix('s').unwrap_or(&last);
    let found = ROWS.iter().find(|row| row.word == one)?;
    let label = found.label.as_str();
    (!matches!(label, "piece" | "slice" | "stick" | "bar")).then_some(label)
}

fn named(noun: &str) -> Option<Sort> {
    let found = ROWS.iter().find(|row| row.word == noun);
    found.map(|row| Sort::Piece(&row.label))
}

/// `1.25` as `1 1/4`. Parts other than quarters do not occur.
fn fraction(number: f64) -> String {
    let whole = number.floor();
    let part = match ((number - whole) * 4.0).round() as u8 {
        1 => "1/4",
        2 => "1/2",
        3 => "3/4",
        _ => return format!("{number:.0}"),
    };
    if whole > 0.0 {
        format!("{whole:.0} {part}")
    } else {
        part.to_owned()
    }
}

/// The plural of a unit when more than one is meant.
fn plural(label: &str, number: f64) -> String {
    if number <= 1.0 || matches!(label, "oz" | "fl oz" | "tbsp" | "shrimp") {
        return label.to_owned();
    }
    match label {
        "leaf" | "loaf" => format!("{}ves", &label[..label.len() - 1]),
        _ if label.ends_with("ty") || label.ends_with("ry") => {
            format!("{}ies", &label[..label.len() - 1])
        }
        "potato" | "tomato" => format!("{label}es"),
        _ if ["s", "x", "ch", "sh"]
            .iter()
            .any(|end| label.ends_with(end)) =>
        {
            format!("{label}es")
        }
        _ => format!("{label}s"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[allow(clippy::needless_pass_by_value)] // test tables read better so
    fn unit(measures: &[(&str, f64)], served: f64, said: Option<Said>) -> (String, f64, f64) {
        let unit = choose(measures, served, said.as_ref());
        (unit.label, unit.grams_each, unit.step)
    }

    #[test]
    fn cups_by_the_quarter_and_small_amounts_by_the_spoon() {
        let rice = [
            ("unstated", 158.0),
            ("1 cup, cooked", 160.0),
            ("1 oz, dry, yields", 80.0),
        ];
        assert_eq!(unit(&rice, 320.0, None), ("cup".into(), 160.0, 0.25));
        assert_eq!(unit(&rice, 60.0, None), ("tbsp".into(), 10.0, 1.0));
        let oil = [("1 tablespoon", 14.0)];
        assert_eq!(unit(&oil, 20.0, None), ("tbsp".into(), 14.0, 0.5));
    }

    #[test]
    fn slices_by_the_half_and_pieces_whole_unless_large() {
        let bread = [("1 cup", 40.0), ("1 small slice", 22.0), ("1 slice", 28.0)];
        assert_eq!(unit(&bread, 84.0, None), ("slice".into(), 28.0, 0.5));
        let wings = [("1 cup", 140.0), ("1 wing, any size", 35.0)];
        assert_eq!(unit(&wings, 350.0, None), ("wing".into(), 35.0, 1.0));
        let breast = [("1 cup, diced", 135.0), ("1 breast", 130.0)];
        assert_eq!(unit(&breast, 130.0, None), ("breast".into(), 130.0, 0.5));
        let burrito = [("1 burrito", 300.0)];
        assert_eq!(unit(&burrito, 300.0, None).2, 0.25);
        // Fries are not counted, and a piece larger than what was served is no unit.
        let fries = [
            ("1 fry, ns as to shape", 5.0),
            ("1 piece", 5.0),
            ("1 cup", 65.0),
        ];
        assert_eq!(unit(&fries, 130.0, None), ("cup".into(), 65.0, 0.25));
        assert_eq!(unit(&breast, 50.0, None).0, "tbsp");
    }

    #[test]
    fn many_small_pieces_are_heaped_not_counted() {
        let florets = [("1 cup", 155.0), ("1 piece", 12.0)];
        assert_eq!(unit(&florets, 155.0, None).0, "cup");
        assert_eq!(unit(&florets, 48.0, None).0, "piece");
        let shrimp = [("1 cup", 135.0), ("1 shrimp", 8.5)];
        assert_eq!(unit(&shrimp, 170.0, None).0, "shrimp");
        assert_eq!(called("fried egg"), Some("egg"));
        assert_eq!(called("corn tortillas, warm"), Some("tortilla"));
        assert_eq!(called("white bread"), None);
    }

    #[test]
    fn the_way_it_was_written_leads() {
        let breast = [("1 cup, diced", 136.0), ("1 breast", 130.0)];
        assert_eq!(
            unit(&breast, 170.0, Some(Said::Weight)),
            ("oz".into(), OUNCE_G, 0.5)
        );
        assert_eq!(
            unit(&breast, 136.0, Some(Said::Volume)),
            ("cup".into(), 136.0, 0.25)
        );
        let counted = Said::Counted {
            word: "slice".into(),
            grams_each: 33.0,
        };
        assert_eq!(
            unit(&breast, 66.0, Some(counted)),
            ("slice".into(), 33.0, 0.5)
        );
        let rice = [("1 cup", 160.0)];
        assert_eq!(unit(&rice, 320.0, Some(Said::Weight)).0, "cup");
        let tea = [("1 fl oz", 30.0), ("1 cup", 240.0)];
        assert_eq!(
            unit(&tea, 480.0, Some(Said::Volume)),
            ("fl oz".into(), 30.0, 1.0)
        );
    }

    #[test]
    fn what_is_no_measure_is_passed_over() {
        let odd = [
            ("unstated", 90.0),
            ("Guideline amount per sandwich", 32.0),
            ("1 large ice cream cup", 480.0),
            ("1 package (3 oz) yields", 85.0),
            ("1/0 cup", 10.0),
            ("", 3.0),
        ];
        assert_eq!(choose(&odd, 200.0, None), KitchenUnit::ounces());
        assert_eq!(choose(&[], 200.0, None), KitchenUnit::ounces());
    }

    #[test]
    fn amounts_read_as_people_say_them() {
        let cup = KitchenUnit::of("cup", 160.0, 0.25);
        assert_eq!(cup.say(40.0), "1/4 cup");
        assert_eq!(cup.say(200.0), "1 1/4 cups");
        assert_eq!(cup.say(160.0), "1 cup");
        assert_eq!(cup.eaten(0.0, false), "none");
        assert_eq!(cup.eaten(137.0, true), "all");
        assert_eq!(cup.left(130.0), "about 3/4 cup");
        assert_eq!(cup.left(120.0), "3/4 cup");
        assert_eq!(cup.left(12.0), "about 12 g");
        assert_eq!(cup.left(0.0), "");
        assert_eq!(KitchenUnit::of("patty", 60.0, 1.0).say(120.0), "2 patties");
        assert_eq!(KitchenUnit::of("tbsp", 15.0, 0.5).say(37.5), "2 1/2 tbsp");
        assert_eq!(
            KitchenUnit::of("sandwich", 200.0, 0.5).say(300.0),
            "1 1/2 sandwiches"
        );
    }
}
