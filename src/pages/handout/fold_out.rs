//! A plate at life size: a page that says how to join the sheets, then the sheets.

use super::content::{Handout, Options, Paper};
use super::{PageError, rendered, view};
use crate::pages::drawing::{Fork, OVERLAP, Rule, fewest_sheets, life_size};
use minijinja::context;
use minijinja::value::Value;

/// What a printer leaves free around a page, mm across and down: the margins of every page.
const MARGINS: (f64, f64) = (24.0, 22.0);

/// Room against rounding: a sheet a hair too high takes a page more.
const SPARE: f64 = 1.5;

impl Paper {
    /// Width and height upright, mm.
    const fn mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }

    /// The line to check a printer by.
    pub(super) const fn rule(self) -> Rule {
        match self {
            Self::A4 => Rule {
                mm: 100.0,
                words: "10 cm",
            },
            Self::Letter => Rule {
                mm: 101.6,
                words: "4 inches",
            },
        }
    }
}

/// The plate as served over as many sheets as it takes.
pub(crate) fn fold_out(handout: &Handout, options: &Options) -> Result<String, PageError> {
    let (wide, high) = options.paper.mm();
    let room = (wide - MARGINS.0 - SPARE, high - MARGINS.1 - SPARE);
    let (life, sheets) = fewest_sheets(&handout.served, room);
    let rule = options.paper.rule();
    let safe = Value::from_safe_string;
    let drawn = |at| safe(life.sheet(&sheets, at, rule));
    let key = life.key.iter().map(|(number, name, size)| {
        context! { number, name => name.as_str(), size => size.as_str() }
    });
    let content = context! {
        dish => view::dish(handout, "d1", Vec::new()),
        across => sheets.across,
        overlap => format!("{OVERLAP:.0}"),
        wide => format!("{:.0}", life.size.0 / 10.0),
        rule => rule.words,
        strip => view::strip(&handout.served.strip),
        defined => safe(life.defined()),
        plan => safe(life.plan(&sheets)),
        key => key.collect::<Vec<_>>(),
        sheets => (0..sheets.count()).map(drawn).collect::<Vec<_>>(),
    };
    let title = format!("{} at life size", handout.title);
    rendered("fold_out.html", &title, options, content)
}

/// The same as one drawing, for a printer of large sheets.
#[must_use]
pub(crate) fn life_size_svg(handout: &Handout, paper: Paper) -> String {
    life_size(&handout.served, Fork::Below).whole(paper.rule())
}
