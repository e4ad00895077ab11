//! A menu line's dish while it is worked out, and what is looked up for it.

use super::tongues::in_english;
use super::wording::is_for_children;
use crate::foods::FoodId;
use crate::matching::{Catalogue, Found, with_those_around};
use crate::reading::{ComponentLine, Dish, MenuLine, Place, UnitSystem, parse_component};
use crate::weighing::component::{MatchedComponent, WeighedComponent, match_with, weigh_dish};
use crate::weighing::finds::Finds;
use crate::weighing::kinds::DishKind;
use crate::weighing::passes::{Circumstances, Progress, SAID, run};
use crate::weighing::request::Request;
use crate::weighing::typical::Setting;
use crate::weighing::usual::Role;
use crate::words::words_of;
use std::cell::LazyCell;
use std::sync::Arc;

/// The word for crisps or for fries, in base form, and what it means where it means fries.
const CHIPS: &str = "chip";
const FRIES: &str = "french fries";

/// Finds a dish of the library by name.
pub type Known<'k> = &'k dyn Fn(&str) -> Option<Dish<ComponentLine>>;

/// Where menu lines are understood.
#[derive(Clone, Copy)]
pub struct MenuContext<'m> {
    /// The foods.
    pub finds: &'m Finds<'m>,
    /// The library.
    pub known: Known<'m>,
    /// Cups and spoons.
    pub units: UnitSystem,
    /// British senses of words.
    pub british: bool,
}

impl<'m> MenuContext<'m> {
    pub(super) fn catalogue(&self) -> &'m Catalogue {
        self.finds.catalogue()
    }
}

/// The dish as far as it is worked out.
pub(super) struct Draft<'m> {
    pub(super) context: MenuContext<'m>,
    /// The whole line: what stands around each thing in it.
    pub(super) around: String,
    pub(super) main: Vec<WeighedComponent>,
    pub(super) sides: Vec<WeighedComponent>,
    pub(super) kind: Option<&'static DishKind>,
    /// Whether the main dish was found as a whole, so that what the line names besides comes
    /// on top of it.
    pub(super) whole: bool,
    /// What the line lists as belonging to the dish, neither added to it nor beside it.
    pub(super) listed: Vec<String>,
    /// Whether the line describes a dish that it names.
    pub(super) described: bool,
    /// Whether the line is a dish of the library and nothing else: its weight is known.
    pub(super) is_library_dish: bool,
    /// What foods make together that the line only lists.
    pub(super) list_kind: Option<&'static DishKind>,
    /// Options of choices, each at its part.
    pub(super) options: Vec<WeighedComponent>,
    pub(super) notes: Vec<String>,
}

impl<'m> Draft<'m> {
    /// Of a line nothing is known of yet.
    pub(super) fn new(line: &MenuLine, context: MenuContext<'m>) -> Self {
        Self {
            context,
            around: line.text.clone(),
            main: Vec::new(),
            sides: Vec::new(),
            kind: None,
            whole: false,
            listed: Vec::new(),
            described: !line.name.is_empty(),
            is_library_dish: false,
            list_kind: None,
            options: Vec::new(),
            notes: Vec::new(),
        }
    }
}

impl Draft<'_> {
    /// Whether the line is of the children's menu.
    pub(super) fn is_childs(&self) -> bool {
        self.around.split(' ').next().is_some_and(is_for_children)
    }

    /// Words as a component, amount and all; food words of other tongues in English.
    pub(super) fn read(&self, text: &str) -> Option<Arc<ComponentLine>> {
        if let Some(fries) = self.fries(text) {
            let line = ComponentLine {
                text: text.to_owned(),
                ..ComponentLine::clone(self.read(fries)?.as_ref())
            };
            return Some(Arc::new(line));
        }
        let units = self.context.units;
        let read = |text: &str| parse_component(text, Place::new("menu line", 1, 1), units).ok();
        self.context
            .finds
            .read(text, units, || match in_english(text) {
                Some(english) => Some(ComponentLine {
                    text: text.to_owned(),
                    ..read(english)?
                }),
                None => read(text),
            })
    }

    /// What chips are beside steak, fish, pies: a serving of fries, not of crisps.
    pub(super) fn fries(&self, text: &str) -> Option<&'static str> {
        let said = words_of(text);
        if *said != [CHIPS] {
            return None;
        }
        if self.context.british {
            return Some(FRIES);
        }
        let meant = with_those_around(&said, &words_of(&self.around))?;
        (meant == FRIES).then_some(meant)
    }

    /// As [`Self::read`], with a note when the words can not be read.
    pub(super) fn read_or_note(&mut self, text: &str) -> Option<Arc<ComponentLine>> {
        let line = self.read(text);
        if line.is_none() {
            self.notes
                .push(format!("`{text}` could not be read and is left out"));
        }
        line
    }

    /// What words alone are found to mean.
    pub(super) fn find(&self, text: &str) -> Arc<Found> {
        let context = &self.context;
        context.finds.by_itself(text, context.british)
    }

    /// Matches components, each beside the others.
    pub(super) fn matched(&self, dish: Dish<ComponentLine>) -> Dish<MatchedComponent> {
        match_with(dish, self.context.british, self.context.finds)
    }

    pub(super) fn role(&self, text: &str) -> Role {
        self.context.finds.usual(text, self.find(text).food).role
    }

    pub(super) fn role_of(&self, c: &WeighedComponent) -> Role {
        let matched = &c.matched;
        self.context
            .finds
            .usual(&matched.line.food, matched.food)
            .role
    }

    /// Matches and weighs components of this line.
    pub(super) fn weighed(&self, components: Vec<ComponentLine>) -> Vec<WeighedComponent> {
        let dish = Dish {
            name: Some(self.around.clone()),
            components,
            ..Dish::default()
        };
        let catalogue = self.context.catalogue();
        let matched = self
            .matched(dish)
            .map(|c| as_restaurants_make_it(c, catalogue));
        let stated = Progress {
            dish: weigh_dish(matched, catalogue),
            notes: Vec::new(),
        };
        let around = Circumstances {
            request: Request::default(),
            catalogue,
            kind: self.kind,
            setting: Setting::Restaurant,
            has_sides: false,
            serving: None,
        };
        run(&SAID, stated, &around).dish.components
    }
}

/// A restaurant's own version of a food where the catalogue has one: `lasagna with meat,
/// restaurant` for `lasagna with meat`.
pub(super) fn restaurants_own(
    food: FoodId,
    others: &[FoodId],
    catalogue: &Catalogue,
) -> Option<FoodId> {
    let name = LazyCell::new(|| words_of(catalogue.food(food).name()));
    others.iter().copied().find(|id| {
        let other = catalogue.food(*id).name();
        // Few names hold such a word: that is asked first.
        if !holds(other, "restaurant") && !holds(other, "style") {
            return false;
        }
        let mut other = words_of(other).to_vec();
        let before = other.len();
        other.retain(|w| !matches!(w.as_str(), "restaurant" | "style"));
        other.len() < before && *other == **name
    })
}

/// Whether a text holds a word (in lower case), whatever the case of its letters.
fn holds(text: &str, word: &str) -> bool {
    let mut places = text.as_bytes().windows(word.len());
    places.any(|place| place.eq_ignore_ascii_case(word.as_bytes()))
}

fn as_restaurants_make_it(c: MatchedComponent, catalogue: &Catalogue) -> MatchedComponent {
    let own = c
        .food
        .and_then(|food| restaurants_own(food, &c.alternatives, catalogue));
    match (own, c.food) {
        (Some(own), Some(plain)) => MatchedComponent {
            food: Some(own),
            alternatives: c
                .alternatives
                .iter()
                .map(|id| if *id == own { plain } else { *id })
                .collect(),
            why: format!("{}; as restaurants make it", c.why),
            ..c
        },
        _ => c,
    }
}
