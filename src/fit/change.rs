//! A dish with one component in the place of another, with less of it, or without it.

use crate::foods::Nutrient;
use crate::matching::Catalogue;
use crate::quantity::{Estimate, sum};
use crate::reading::Dish;
use crate::weighing::{Basis, WeighedComponent};
use crate::words;

/// A change to a dish.
#[derive(Debug, Clone)]
pub(crate) struct Change {
    /// The components that it is about, by their places.
    pub out: Vec<usize>,
    /// The part of them that stays, 0 to 1.
    pub stays: f64,
    /// What comes instead.
    pub into: Vec<WeighedComponent>,
}

/// How well a component answers to words, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Answer {
    /// They are its words.
    Exactly,
    /// They are among its words.
    Among,
    /// They are among those of its food's name.
    ByFood,
}

/// The places of the components that words mean: `fries` of `french fries`, all cheeses for
/// `cheese`. Empty when none is called so.
pub(crate) fn places(
    dish: &Dish<WeighedComponent>,
    catalogue: &Catalogue,
    said: &str,
) -> Vec<usize> {
    let said = words::words(said);
    if said.is_empty() {
        return Vec::new();
    }
    let within = |own: &[String]| said.iter().all(|word| own.iter().any(|o| same(o, word)));
    let answer = |c: &WeighedComponent| {
        let own = words::words(&c.matched.line.food);
        let of_food = c
            .matched
            .food
            .map(|id| words::words(catalogue.food(id).name()));
        match () {
            () if within(&own) && own.len() == said.len() => Some(Answer::Exactly),
            () if within(&own) => Some(Answer::Among),
            () => of_food.filter(|name| within(name)).map(|_| Answer::ByFood),
        }
    };
    let written = |c: &WeighedComponent| c.basis() != Some(Basis::Hidden);
    let all = dish.components.iter().enumerate();
    let all: Vec<(usize, Answer)> = all
        .filter(|(_, c)| written(c))
        .filter_map(|(at, c)| Some((at, answer(c)?)))
        .collect();
    let best = all.iter().map(|(_, answer)| *answer).min();
    let of_best = all.into_iter().filter(|(_, answer)| Some(*answer) == best);
    let mut places: Vec<usize> = of_best.map(|(at, _)| at).collect();
    // Fat that only a cooking word implies stands where its component was written.
    let place = |at: usize| &dish.components[at].matched.line.place;
    let implied = (0..dish.components.len()).filter(|at| {
        let hidden = dish.components[*at].basis() == Some(Basis::Hidden);
        hidden && places.iter().any(|of| place(*of) == place(*at))
    });
    let implied: Vec<usize> = implied.collect();
    places.extend(implied);
    places
}

/// Equal but for a plural.
fn same(a: &str, b: &str) -> bool {
    let stem = |word: &str| -> String {
        let long = word.strip_suffix("es").filter(|w| w.len() > 3);
        let short = word.strip_suffix('s').filter(|w| w.len() > 2);
        short.or(long).unwrap_or(word).to_owned()
    };
    a == b || stem(a) == stem(b)
}

impl Change {
    /// The parts of a dish that the change takes away, and those that it brings.
    pub(crate) fn parts(
        &self,
        dish: &Dish<WeighedComponent>,
    ) -> (Dish<WeighedComponent>, Dish<WeighedComponent>) {
        let goes = self.out.iter().filter_map(|at| dish.components.get(*at));
        let goes = goes.map(|component| {
            let mut component = component.clone();
            component.scale(1.0 - self.stays);
            component
        });
        let of = |components: Vec<WeighedComponent>| Dish {
            components,
            ..Dish::default()
        };
        (of(goes.collect()), of(self.into.clone()))
    }

    /// Takes the change: what comes instead stands where the first of what goes stood. Fat that
    /// only a cooking word implies goes with its component.
    pub(crate) fn apply(&self, dish: &Dish<WeighedComponent>) -> Dish<WeighedComponent> {
        let mut changed = dish.clone();
        let first = self.out.iter().min().copied().unwrap_or(0);
        let mut components = Vec::new();
        for (at, mut component) in std::mem::take(&mut changed.components)
            .into_iter()
            .enumerate()
        {
            if at == first {
                components.extend(self.into.iter().cloned());
            }
            if self.out.contains(&at) {
                component.scale(self.stays);
                if self.stays <= 0.0 {
                    continue;
                }
            }
            components.push(component);
        }
        changed.components = components;
        changed
    }
}

/// Protein of a dish, grams; nothing when a component's is not published.
pub(crate) fn protein_g(dish: &Dish<WeighedComponent>, catalogue: &Catalogue) -> Option<Estimate> {
    let of = |c: &WeighedComponent| {
        let food = catalogue.food(c.matched.food?);
        Some((c.term()?, food.per_100g(Nutrient::ProteinG)? / 100.0))
    };
    let sized = dish.components.iter().filter(|c| c.term().is_some());
    let all: Option<Vec<_>> = sized.map(of).collect();
    Some(sum(all?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::{Place, UnitSystem, parse_component};
    use crate::weighing::{match_dish, weigh_dish};

    fn dish(lines: &[&str], catalogue: &Catalogue) -> Dish<WeighedComponent> {
        let line = |text: &&str| {
            parse_component(text, Place::new("test", 1, 1), UnitSystem::Us).expect("reads")
        };
        let dish = Dish {
            components: lines.iter().map(line).collect(),
            ..Dish::default()
        };
        weigh_dish(match_dish(dish, catalogue, false), catalogue)
    }

    const BURGER: [&str; 4] = [
        "80 g hamburger bun",
        "28 g cheddar",
        "16 g bacon",
        "170 g french fries",
    ];

    #[test]
    fn components_answer_to_their_words_their_plurals_and_their_food() {
        let catalogue = Catalogue::embedded().expect("catalogue");
        let burger = dish(&BURGER, &catalogue);
        let of = |said: &str| places(&burger, &catalogue, said);
        assert_eq!(of("fries"), [3]);
        assert_eq!(of("french fries"), [3]);
        assert_eq!(of("Bun"), [0]);
        assert_eq!(of("cheese"), [1]);
        assert_eq!(of("lobster"), [0_usize; 0]);
        assert_eq!(of(" "), [0_usize; 0]);
    }

    #[test]
    fn a_change_takes_what_it_says_and_leaves_the_rest() {
        let catalogue = Catalogue::embedded().expect("catalogue");
        let burger = dish(&BURGER, &catalogue);
        let change = Change {
            out: vec![3],
            stays: 0.0,
            into: dish(&["110 g steamed broccoli"], &catalogue).components,
        };
        let after = change.apply(&burger);
        let food = |c: &WeighedComponent| c.matched.line.food.clone();
        let foods: Vec<String> = after.components.iter().map(food).collect();
        assert_eq!(
            foods,
            ["hamburger bun", "cheddar", "bacon", "steamed broccoli"]
        );
        let half = Change {
            out: vec![3],
            stays: 0.5,
            into: Vec::new(),
        };
        let grams = |d: &Dish<WeighedComponent>| -> f64 {
            d.components
                .iter()
                .filter_map(WeighedComponent::grams)
                .map(|g| g.mean)
                .sum()
        };
        assert!((grams(&burger) - grams(&half.apply(&burger)) - 85.0).abs() < 1e-9);
        assert!((grams(&half.parts(&burger).0) - 85.0).abs() < 1e-9);
    }
}
