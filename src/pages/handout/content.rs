//! What a handout is made from: plain data, filled by the audit, the fit and the diner.

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
    /// Food groups and limits against the day.
    pub amounts: Vec<AmountRow>,
    /// What to eat and what to box, food by food; empty where nothing was worked out.
    pub portioning: Vec<Portioning>,
    /// Three questions for the kitchen ([`kitchen_questions`](super::kitchen_questions) offers some).
    pub questions: [String; 3],
    /// Warnings and what could not be reckoned, one sentence each.
    pub cautions: Vec<String>,
    /// Where the figures come from, one entry each.
    pub sources: Vec<String>,
}

/// One food group or limit against the day's allowance.
#[derive(Debug, Clone, PartialEq)]
pub struct AmountRow {
    /// What is counted.
    pub subject: Subject,
    /// Unit in words that follow a number, such as `oz-eq` or `mg`.
    pub unit: String,
    /// On the plate as served, in that unit.
    pub served: Range,
    /// On the right-sized plate, where there is one.
    pub fitted: Option<f64>,
    /// The day's allowance in that unit, where there is one.
    pub allowance: Option<f64>,
    /// Whether beans, peas and lentils are counted in (said beside the name).
    pub with_pulses: bool,
}

/// What a row counts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Subject {
    /// A food group, told by texture and name.
    Group(Texture),
    /// A limit such as sodium, told by name.
    Limit(String),
}

impl Subject {
    /// Name for a reader, lower case.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Group(texture) => texture.name(),
            Self::Limit(name) => name,
        }
    }

    /// Whether the day's amount is one to stay within. For fruits, vegetables and pulses it is
    /// one to reach (Dietary Guidelines for Americans 2020-2025, chapter 1), so having more
    /// of them is told but never marked.
    #[must_use]
    pub const fn is_stayed_within(&self) -> bool {
        !matches!(
            self,
            Self::Group(Texture::Fruits | Texture::Vegetables | Texture::Pulses)
        )
    }
}

impl AmountRow {
    /// Served amount over the day's allowance; `None` without an allowance above 0.
    #[must_use]
    pub fn share(&self) -> Option<Range> {
        let allowance = self.allowance.filter(|a| *a > 0.0)?;
        Some(self.served.times(1.0 / allowance))
    }

    /// Fitted amount over the day's allowance.
    #[must_use]
    pub fn fitted_share(&self) -> Option<f64> {
        let allowance = self.allowance.filter(|a| *a > 0.0)?;
        Some(self.fitted? / allowance)
    }

    /// Whether the served plate likely holds more than the day's allowance (by 5 % at least:
    /// less is no difference a plate can show) of something to stay within.
    #[must_use]
    pub fn is_beyond(&self) -> bool {
        self.subject.is_stayed_within() && self.share().is_some_and(|s| s.likely >= 1.05)
    }

    /// Whether there is any of it on the plate as served.
    #[must_use]
    pub fn is_there(&self) -> bool {
        self.served.high > 0.005
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
    /// Amount to box in words; `None` when nothing is left over.
    pub boxed: Option<String>,
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

/// How a page is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Options {
    /// Paper size for printing.
    pub paper: Paper,
    /// Larger letters throughout; a dish then takes two printed pages.
    pub large_print: bool,
}
