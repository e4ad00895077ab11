//! What a handout is made from: plain data, filled by the audit, the fit and the diner.

use crate::ledger::{LedgerLine, Subject};
use crate::pages::drawing::{Picture, Texture};
use crate::quantity::Range;

/// Everything one dish's page says.
#[derive(Debug, Clone, PartialEq)]
pub struct Handout {
    /// Name of the dish.
    pub title: String,
    /// Whose day the shares are of, such as `a day of 2,000 kcal` or `Ana, 1,800 kcal a day`.
    pub day: String,
    /// The plate as served.
    pub served: Picture,
    /// The plate to eat, where one was worked out.
    pub fitted: Option<Picture>,
    /// What the plate to eat is for, such as `a meal of a third of the day`.
    pub fitted_for: Option<String>,
    /// Which foods are counted but not in the drawing, a sentence; `None` when all are.
    pub not_drawn: Option<String>,
    /// Limits and food groups against the day.
    pub amounts: Vec<AmountRow>,
    /// Protein, carbohydrate, fat and fibre as served, grams.
    pub nutrients: Vec<LedgerLine>,
    /// What to eat and what to box, food by food; empty where nothing was worked out.
    pub portioning: Vec<Portioning>,
    /// Three questions for the kitchen ([`kitchen_questions`](super::kitchen_questions) offers some).
    pub questions: [String; 3],
    /// Warnings and what could not be reckoned, one sentence each.
    pub cautions: Vec<String>,
    /// Where the figures come from, one entry each.
    pub sources: Vec<String>,
}

impl Handout {
    /// Whether some of it can go home in a box.
    pub(crate) fn boxable(&self) -> bool {
        self.portioning.is_empty() || self.portioning.iter().any(|row| row.boxable)
    }
}

/// One limit or food group against the day's allowance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AmountRow {
    /// As served.
    pub line: LedgerLine,
    /// On the right-sized plate, in the same unit, where there is one.
    pub fitted: Option<f64>,
}

impl AmountRow {
    /// Name for a reader, lower case.
    #[must_use]
    pub fn name(&self) -> &'static str {
        self.line.subject.label()
    }

    /// On the plate as served, in the subject's unit; nothing where it is not known.
    #[must_use]
    pub fn served(&self) -> Range {
        self.line.range().unwrap_or_default()
    }

    /// Fitted amount over the day's allowance.
    #[must_use]
    pub(crate) fn fitted_share(&self) -> Option<f64> {
        self.line.share_of(self.fitted?)
    }

    /// The texture of a food group; none for a limit.
    #[must_use]
    pub(crate) fn texture(&self) -> Option<Texture> {
        match self.line.subject {
            Subject::Group(group) => Some(Texture::for_group(group.key())),
            Subject::Limit(_) | Subject::Nutrient(_) => None,
        }
    }
}

/// What happens to one food of the dish.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Portioning {
    /// Name of the food.
    pub food: String,
    /// Served amount in words, such as `2 cups`.
    pub served: String,
    /// Amount to eat in words.
    pub eat: Eat,
    /// Amount left over in words; `None` when nothing is left over.
    pub boxed: Option<String>,
    /// Whether it can go home in a box; else it is left.
    pub boxable: bool,
}

/// How much of a food to eat.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Eat {
    /// All that is served.
    All,
    /// None of it.
    Nothing,
    /// This much, in words.
    Part(String),
}

/// Paper to print on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Paper {
    /// 210 by 297 mm.
    #[default]
    A4,
    /// 8.5 by 11 inches.
    Letter,
}

impl Paper {
    pub(super) const fn css_name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "letter",
        }
    }
}

/// Who hands a page to whom, and when: each only where it was said.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Signed {
    /// Whom the page is for.
    pub client: Option<String>,
    /// Who hands it out.
    pub coach: Option<String>,
    /// The day it is handed out, in words.
    pub date: Option<String>,
}

/// How a page is set.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Options {
    /// Paper size for printing.
    pub paper: Paper,
    /// Larger letters throughout; a dish then takes two printed pages.
    pub large_print: bool,
    /// Names and date at the head of every page.
    pub signed: Signed,
}
