//! What a dish is called, and which of its foods are still to be laid.

use super::food::Seen;
use crate::pages::drawing::Form;
use crate::reading::Dish;
use crate::weighing::WeighedComponent;
use crate::words::spelt_number;
use std::sync::LazyLock;

/// How a dish lies on the table, by the words it is called: the rows of `laid.csv` (common
/// practice).
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Laying {
    /// In a bowl.
    Bowl,
    /// On a plate, whatever is poured over it.
    Plate,
    /// With its foods whole in a broth.
    Soup,
    /// In one heap.
    Mixed,
    /// In a glass or mug.
    Drink,
    /// One on the other, in bread.
    Stacked,
    /// Breaded slices with sauce and cheese on them.
    Topped,
    /// One smooth thing, whatever it is made of.
    Blended,
}

static LAYINGS: LazyLock<Vec<(String, Laying)>> =
    LazyLock::new(|| crate::words::rows(include_str!("laid.csv")));

/// What a dish is called, in words: its kind, and its name up to `with` and after it.
pub(super) struct Words {
    pub kind: Vec<String>,
    pub name: Vec<String>,
    pub with: Vec<String>,
}

impl Words {
    pub(crate) fn of(dish: &Dish<WeighedComponent>) -> Self {
        let split = |text: &str| -> Vec<String> {
            let words = text.split(|c: char| !c.is_alphanumeric() && c != '-');
            words
                .filter(|w| !w.is_empty())
                .map(str::to_lowercase)
                .collect()
        };
        let name = dish.name.as_deref().unwrap_or_default().to_lowercase();
        let (name, with) = name.split_once(" with ").unwrap_or((&name, ""));
        Self {
            kind: split(dish.kind.as_deref().unwrap_or_default()),
            name: split(name),
            with: split(with),
        }
    }

    /// Whether kind or name says one of these words, in the singular or plural.
    pub(crate) fn say(&self, words: &[&str]) -> bool {
        let is = |said: &String| {
            words.iter().any(|w| {
                said == w || said.strip_suffix('s') == Some(w) || said.strip_suffix("es") == Some(w)
            })
        };
        self.kind.iter().chain(&self.name).any(is)
    }

    /// Whether a dish so called lies so.
    pub(crate) fn are(&self, laying: Laying) -> bool {
        let mut rows = LAYINGS.iter().filter(|(_, how)| *how == laying);
        rows.any(|(word, _)| self.say(&[word]))
    }

    /// A number word at the head of the name.
    pub(crate) fn count(&self) -> Option<u32> {
        spelt_number(self.name.first()?).map(|number| number as u32)
    }
}

/// The foods still to be laid.
pub(super) struct Rest<'a> {
    pub seen: &'a [Seen],
    pub left: Vec<usize>,
}

impl Rest<'_> {
    pub(crate) fn form(&self, at: usize) -> Form {
        self.seen[at].look.form
    }

    /// Takes out all that fit.
    pub(crate) fn take(&mut self, fits: impl Fn(&Seen) -> bool) -> Vec<usize> {
        let (taken, left) = self
            .left
            .iter()
            .copied()
            .partition(|i| fits(&self.seen[*i]));
        self.left = left;
        taken
    }

    /// The largest that fits, left where it is.
    pub(crate) fn largest(&self, fits: impl Fn(&Seen) -> bool) -> Option<usize> {
        let fitting = self.left.iter().copied().filter(|i| fits(&self.seen[*i]));
        fitting.max_by(|a, b| {
            self.seen[*a]
                .volume_ml
                .likely
                .total_cmp(&self.seen[*b].volume_ml.likely)
        })
    }

    pub(crate) fn drop(&mut self, at: usize) {
        self.left.retain(|i| *i != at);
    }
}

/// Bread and the like, which comes beside what is in a bowl.
pub(super) const fn is_bread(form: Form) -> bool {
    matches!(
        form,
        Form::Toast
            | Form::Roll
            | Form::Flatbread
            | Form::Naan
            | Form::Rounds
            | Form::Loaf
            | Form::Crackers
            | Form::Tortillas
            | Form::Chips
    )
}

#[cfg(test)]
mod tests {
    #[test]
    fn every_row_of_the_table_is_read() {
        let lines = include_str!("laid.csv").lines().count();
        assert_eq!(super::LAYINGS.len(), lines - 1);
    }
}
