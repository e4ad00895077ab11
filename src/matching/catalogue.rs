//! The catalogue: the foods, the index over their names, and what is known of words.

use super::certainty::Certainty;
use super::companions;
use super::corrections::{Correction, Corrections};
use super::index::Index;
use super::knowledge::Knowledge;
use super::matcher::{Context, Matcher};
use crate::foods::{CatalogueError, Food, FoodId, Foods};
use crate::words::{senses, words_of};
use std::borrow::Cow;
use std::collections::HashMap;
use std::sync::{Arc, PoisonError, RwLock};

/// Bytes that start at a multiple of eight, so that numbers can be read in place.
#[repr(align(8))]
struct Aligned<T: ?Sized>(T);

static KNOWLEDGE: &Aligned<[u8]> =
    &Aligned(*include_bytes!(concat!(env!("OUT_DIR"), "/knowledge.bin")));
static NAMES: &Aligned<[u8]> = &Aligned(*include_bytes!(concat!(env!("OUT_DIR"), "/names.bin")));

/// The foods, the index over their names and what is known of words.
#[derive(Debug, Clone)]
pub struct Catalogue {
    foods: Foods,
    index: Index<'static>,
    knowledge: Knowledge<'static>,
    corrections: Corrections,
    /// What the program's own words were found to mean.
    own: Arc<RwLock<HashMap<&'static str, Found>>>,
}

/// A food found for some words.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// The food, unless nothing fits.
    pub food: Option<FoodId>,
    /// How sure that is.
    pub certainty: Certainty,
    /// Other foods that fit, best first, with their scores.
    pub alternatives: Vec<(FoodId, f32)>,
    /// Score of `food`, from 0 to 1.
    pub score: f32,
    /// Why it was taken, in one line.
    pub why: String,
}

impl Catalogue {
    /// The catalogue that comes with the program.
    pub fn embedded() -> Result<Self, CatalogueError> {
        let wrong = |e: Box<dyn std::error::Error>| CatalogueError::new(&e);
        Ok(Self {
            foods: Foods::embedded()?,
            index: Index::open(&NAMES.0).map_err(wrong)?,
            knowledge: Knowledge::open(&KNOWLEDGE.0).map_err(wrong)?,
            corrections: Corrections::default(),
            own: Arc::default(),
        })
    }

    /// The same knowledge and corrections over other foods.
    pub(super) fn over(self, foods: Foods, index: Index<'static>) -> Self {
        Self {
            foods,
            index,
            own: Arc::default(),
            ..self
        }
    }

    /// The same catalogue, with what a person has said that words mean.
    #[must_use]
    pub(crate) fn corrected_by(self, corrections: Corrections) -> Self {
        Self {
            corrections,
            own: Arc::default(),
            ..self
        }
    }

    /// What a person has said that words mean.
    #[must_use]
    pub(crate) fn corrections(&self) -> &Corrections {
        &self.corrections
    }

    /// What a person has said that `words` mean, with the food (`None` for no food at all).
    /// A correction to a code that the catalogue does not hold corrects nothing.
    #[must_use]
    pub(crate) fn correction(&self, words: &str) -> Option<(&Correction, Option<FoodId>)> {
        let correction = self.corrections.get(words)?;
        match &correction.code {
            None => Some((correction, None)),
            Some(code) => Some((correction, Some(self.by_code(code)?.id()))),
        }
    }

    /// How many foods.
    #[must_use]
    pub fn len(&self) -> usize {
        self.foods.len()
    }

    /// Whether there are no foods at all.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// All foods in table order.
    pub fn foods(&self) -> impl Iterator<Item = Food<'_>> {
        (0..self.len() as u32).map(|row| self.food(FoodId(row)))
    }

    /// A food by its row. Rows come from this catalogue; a foreign row shows the last food.
    #[must_use]
    pub fn food(&self, id: FoodId) -> Food<'_> {
        self.foods.food(id)
    }

    /// A food by its USDA code.
    #[must_use]
    pub fn by_code(&self, code: &str) -> Option<Food<'_>> {
        self.foods().find(|food| food.code() == code)
    }

    /// What is known of words.
    #[must_use]
    pub(crate) fn knowledge(&self) -> &Knowledge<'static> {
        &self.knowledge
    }

    /// The index over names.
    #[must_use]
    pub(crate) fn index(&self) -> &Index<'static> {
        &self.index
    }

    /// The matcher over this catalogue.
    #[must_use]
    pub fn matcher(&self) -> Matcher<'_, 'static> {
        Matcher::new(&self.index, &self.knowledge)
    }

    /// Finds the food that `words` mean, with up to `top` foods in all. What a person has
    /// said that they mean goes before any matching.
    #[must_use]
    pub fn find(&self, words: &str, context: &Context, top: usize) -> Found {
        let found = self.match_words(words, context, top);
        match self.correction(words) {
            Some((correction, food)) => corrected(found, correction, food, top),
            None => found,
        }
    }

    /// As [`Self::find`], by themselves, for words of the program's own tables: these are
    /// asked for again and again, and are looked up once.
    #[must_use]
    pub(crate) fn find_own(&self, words: &'static str) -> Found {
        // Whoever broke off while writing left a whole map behind.
        let known = self.own.read().unwrap_or_else(PoisonError::into_inner);
        if let Some(found) = known.get(words) {
            return found.clone();
        }
        drop(known);
        let found = self.find(words, &Context::default(), 1);
        let mut known = self.own.write().unwrap_or_else(PoisonError::into_inner);
        known.insert(words, found.clone());
        found
    }

    /// The words as the catalogue writes them: British senses in American words, where they
    /// are asked for. Names of the catalogue stand as they are.
    #[must_use]
    pub(crate) fn in_our_words<'w>(&self, said: &'w str, context: &Context) -> Cow<'w, str> {
        if let Some(meant) = senses::plural_sense(said) {
            return Cow::Borrowed(meant);
        }
        let several = || words_of(said).len() > 1;
        let is_name = || self.index.exact(&words_of(said).join(" ")).is_some();
        if !context.british || several() && is_name() {
            return Cow::Borrowed(said);
        }
        senses::american(said)
    }

    /// Whether two rows are alike on the plate; see [`Food::is_alike`].
    #[must_use]
    pub fn alike(&self, a: u32, b: u32) -> bool {
        a == b || self.food(FoodId(a)).is_alike(&self.food(FoodId(b)))
    }

    /// Whether the words are general ones that something around could make exact.
    #[must_use]
    pub(crate) fn are_general(&self, said: &str, british: bool) -> bool {
        let context = Context {
            british,
            ..Context::default()
        };
        companions::are_general(&words_of(&self.in_our_words(said, &context)))
    }

    /// What general words mean with what stands around: `dressing` in a Caesar salad is a Caesar
    /// dressing. `None` where nothing around says more; then they mean what they do by
    /// themselves, as all other words do.
    #[must_use]
    pub(crate) fn made_exact(&self, said: &str, context: &Context) -> Option<&'static str> {
        if context.words.is_empty() {
            return None;
        }
        let said = words_of(&self.in_our_words(said, context));
        companions::with_those_around(&said, &context.words)
    }

    fn match_words(&self, said: &str, context: &Context, top: usize) -> Found {
        if let Some(exact) = self.made_exact(said, context) {
            let found = self.match_words(exact, &Context::default(), top);
            return Found {
                // What stands around is a hint, not a statement.
                certainty: found.certainty.min(Certainty::Likely),
                why: format!("read as `{exact}` for what is around; {}", found.why),
                ..found
            };
        }
        let said = self.in_our_words(said, context);
        let matcher = self.matcher();
        let query = matcher.query(&said);
        let answer = matcher.answer(&query, top.max(1), &|a, b| self.alike(a, b));
        let (list, certainty) = (&answer.candidates, answer.certainty);
        let read_as = match &said {
            Cow::Borrowed(_) => String::new(),
            Cow::Owned(said) => format!("read as `{said}`; "),
        };
        let first = list.first().filter(|_| certainty != Certainty::None);
        Found {
            food: first.map(|c| FoodId(c.item)),
            certainty,
            alternatives: list
                .iter()
                .skip(usize::from(first.is_some()))
                .take(top.saturating_sub(1))
                .map(|c| (FoodId(c.item), c.score))
                .collect(),
            score: list.first().map_or(0.0, |c| c.score),
            why: list
                .first()
                .map(|c| read_as + &matcher.why(&query, c) + &answer.lowered_by())
                .unwrap_or_default(),
        }
    }
}

/// Puts a correction before what matching found; the rest stays as alternatives.
fn corrected(found: Found, correction: &Correction, food: Option<FoodId>, top: usize) -> Found {
    let matched = found.food.map(|id| (id, found.score));
    let others = matched.into_iter().chain(found.alternatives);
    let room = top.saturating_sub(usize::from(food.is_some()));
    Found {
        food,
        certainty: food.map_or(Certainty::None, |_| Certainty::Sure),
        alternatives: others
            .filter(|(id, _)| Some(*id) != food)
            .take(room)
            .collect(),
        score: food.map_or(0.0, |_| 1.0),
        why: correction.why(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::words;

    #[test]
    fn peppers_are_no_pepper() {
        let catalogue = Catalogue::embedded().expect("opens");
        let name = |text: &str| {
            let found = catalogue.find(text, &Context::default(), 1);
            catalogue.food(found.food.expect(text)).name().to_owned()
        };
        assert!(name("Peppers").contains("bell pepper"));
        assert_eq!(name("pepper"), "black pepper");
    }

    #[test]
    fn every_sense_is_a_food() {
        let catalogue = Catalogue::embedded().unwrap();
        let changing = senses::senses()
            .iter()
            .filter(|(p, m)| words(m).join(" ") != **p);
        for (phrase, meaning) in changing {
            let found = catalogue.find(meaning, &Context::default(), 1);
            assert!(found.certainty >= Certainty::Likely, "{phrase}: {meaning}");
        }
    }

    #[test]
    fn every_meaning_is_surely_a_food() {
        let catalogue = Catalogue::embedded().unwrap();
        let find = |text: &str| catalogue.find(text, &Context::default(), 1);
        let rows: Vec<_> = companions::rows().values().flatten().collect();
        assert!(rows.len() >= 80);
        for row in rows {
            let found = find(&row.means);
            assert_eq!(found.certainty, Certainty::Sure, "{}", row.means);
            assert!(!row.around.is_empty(), "{}", row.means);
        }
    }
}
