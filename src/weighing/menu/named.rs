//! Dishes that the kitchens of the world know by name, with their usual parts, and food words of
//! other tongues. Names of dishes are food words; parts and amounts are common practice.

use super::draft::Draft;
use crate::reading::{ComponentLine, Measure, MenuLine, MenuPart, PartKind};
use crate::weighing::kinds::{DishKind, kind_named};
use crate::weighing::kitchen::as_another_kitchen;
use crate::weighing::phrases::PhraseTable;
use crate::weighing::usual::Role;
use crate::words::{prepared, prepared_rows, words_of};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Row {
    names: String,
    names_base: String,
    kind: String,
    pieces: Option<f64>,
    parts: String,
}

/// A dish by its name.
#[derive(Debug)]
struct NamedDish {
    name: String,
    kind: Option<&'static DishKind>,
    /// Pieces of a serving, where it comes in pieces.
    pieces: Option<f64>,
    /// Its usual parts with grams.
    parts: Vec<String>,
}

static DISHES: LazyLock<PhraseTable<NamedDish>> = LazyLock::new(|| {
    let list = prepared_rows::<Row>(prepared!("dish_names.csv"));
    PhraseTable::new(list.into_iter().map(|row| {
        let name = row.names.split(';').next().unwrap_or_default().to_owned();
        let dish = NamedDish {
            name,
            kind: (!row.kind.is_empty())
                .then(|| kind_named(&row.kind))
                .flatten(),
            pieces: row.pieces,
            parts: row
                .parts
                .split(';')
                .map(|part| part.trim().to_owned())
                .collect(),
        };
        (row.names_base, dish)
    }))
});

/// What a part of a dish is called that is coated.
const COATED: &str = "breaded fried";

/// Words behind a dish's name that make no other dish of it.
pub(super) const GENERIC: [&str; 12] = [
    "plate", "bowl", "set", "combo", "platter", "dinner", "lunch", "special", "style", "dish",
    "meal", "plato",
];

impl Draft<'_> {
    /// Takes a dish whose name joins several foods (`chicken and waffles`), all that is ordered; says
    /// whether there was one.
    pub(super) fn take_joined_dish(
        &mut self,
        line: &MenuLine,
        parts: &[&MenuPart],
        within: usize,
    ) -> Option<usize> {
        let whole = |list: &[String]| {
            let hit = DISHES.longest(list);
            hit.is_some_and(|hit| hit.length == list.len())
        };
        // `Chicken and leek pie, mash`: what is listed behind it is none of its name.
        let first = line.main.split(',').next().unwrap_or_default();
        let mut names = [line.main.as_str(), first.trim()].into_iter();
        let name = names.find(|name| *name != line.head && whole(&words_of(name)))?;
        let in_name = parts.iter().take_while(|part| name.contains(&*part.text));
        let used = if name == line.main {
            within
        } else {
            in_name.count()
        };
        let joined = MenuLine {
            head: name.to_owned(),
            ..line.clone()
        };
        self.take_named_dish(&joined, &parts[used..])
            .then_some(used)
    }

    /// Takes a dish that is known by its name; says whether there was one.
    pub(super) fn take_named_dish(&mut self, line: &MenuLine, parts: &[&MenuPart]) -> bool {
        let Some(read) = self.read(&line.head) else {
            return false;
        };
        let list = words_of(&read.food);
        let Some(hit) = DISHES.longest(&list) else {
            return false;
        };
        let behind = &list[hit.at + hit.length..];
        let before = &list[..hit.at];
        let whole = behind.iter().all(|word| GENERIC.contains(&word.as_str()));
        let doubles = hit.row.name == "doubles" && hit.length < list.len();
        if !whole || before.len() > 2 || doubles {
            return false;
        }
        let dish = hit.row;
        let count = read
            .amount
            .as_ref()
            .and_then(|amount| match amount.measure {
                Measure::Count { inches: None, .. } => Some(amount.number.likely),
                _ => None,
            });
        // A cup of what is eaten with a spoon is a cup of all its parts.
        let poured = read.amount.as_ref().and_then(|amount| {
            let poured = matches!(amount.measure, Measure::Millilitres { .. });
            poured.then(|| amount.number.likely / self.grams_of(dish))
        });
        if read.amount.is_some() && count.is_none() && poured.is_none() {
            return false;
        }
        let counted = count.map(|count| count / dish.pieces.unwrap_or(1.0));
        let times = counted.or(poured).unwrap_or(1.0);
        let own = before.join(" ");
        self.kind = dish.kind.or(self.kind);
        let components = self.parts_of(dish, &own, parts, times);
        let mut list = self.weighed(components);
        as_another_kitchen(&mut list, &dish.name);
        list.retain(|c| c.matched.food.is_some());
        if list.is_empty() {
            return false;
        }
        self.notes.push(format!(
            "`{}` is taken for what such a dish usually holds (common practice)",
            dish.name
        ));
        self.main.extend(list);
        self.whole = true;
        // Its parts have their amounts: no serving of some other dish says more.
        self.is_library_dish = true;
        true
    }

    /// What a serving of a dish weighs, g.
    fn grams_of(&self, dish: &NamedDish) -> f64 {
        let parts = dish.parts.iter().filter_map(|part| self.read(part));
        let grams = parts.filter_map(|part| Some(part.amount.as_ref()?.number.likely));
        grams.sum::<f64>().max(1.0)
    }

    /// Whether the head with a count is a dish that is known by its name.
    pub(super) fn is_named_dish(&self, line: &MenuLine) -> bool {
        let food = self.read(&line.head).map(|read| words_of(&read.food));
        food.is_some_and(|list| {
            DISHES
                .longest(&list)
                .is_some_and(|hit| hit.length == list.len())
        })
    }

    /// The usual parts, less those that the line names otherwise; `own` are the words before the
    /// dish's name (`lamb` of `lamb korma`).
    fn parts_of(
        &self,
        dish: &NamedDish,
        own: &str,
        parts: &[&MenuPart],
        times: f64,
    ) -> Vec<ComponentLine> {
        let bread = |text: &str| self.role(text) == Role::Bread;
        let named: Vec<&str> = parts
            .iter()
            .filter(|part| {
                part.what == PartKind::Under || part.what == PartKind::Named && bread(&part.text)
            })
            .map(|part| part.text.as_str())
            .collect();
        let mut replaced = false;
        let mut list = Vec::new();
        for part in &dish.parts {
            let Some(read) = self.read(part) else {
                continue;
            };
            let grams = read
                .amount
                .as_ref()
                .map_or(0.0, |amount| amount.number.likely)
                * times;
            let swap = !own.is_empty() && !replaced && self.stands_for(own, &read.food, true);
            // A schnitzel of pork is coated as one of veal is.
            let coated = read
                .food
                .starts_with(COATED)
                .then(|| format!("{COATED} {own}"));
            let food = match (swap, &coated) {
                (true, Some(coated)) => coated,
                (true, None) => own,
                (false, _) => read.food.as_str(),
            };
            replaced |= swap;
            let elsewhere = !swap
                && named
                    .iter()
                    .any(|said| self.is_other_sort(said, &read.food));
            let closer = |part: &&MenuPart| {
                part.what == PartKind::Named && self.is_other_grain(&part.text, &read.food)
            };
            if elsewhere || parts.iter().any(closer) {
                continue;
            }
            let Some(line) = self.read(&format!("{grams:.0} g {food}")) else {
                continue;
            };
            let mut line = (*line).clone();
            line.text = format!("{food}, usual in `{}`", dish.name);
            line.note = Some("inferred".to_owned());
            list.push(line);
        }
        list
    }

    /// `brown rice` of a dish that usually lies on white rice.
    fn is_other_grain(&self, said: &str, usual: &str) -> bool {
        let (a, b) = (words_of(said), words_of(usual));
        a.last() == b.last()
            && self.role(said) == Role::Base
            && self.find(said).food != self.find(usual).food
    }

    /// Whether what is said is the base, bread or dressing that takes the place of a usual one.
    fn is_other_sort(&self, said: &str, usual: &str) -> bool {
        let (a, b) = (words_of(said), words_of(usual));
        let same = a.iter().any(|word| b.contains(word));
        !same && self.stands_for(said, usual, false)
    }
}

#[cfg(test)]
mod tests {
    use super::super::tongues::{in_english, meanings};
    use super::*;
    use crate::matching::{Catalogue, Certainty, Context};

    #[test]
    fn every_part_is_a_food_of_the_catalogue() {
        let catalogue = Catalogue::embedded().expect("the catalogue opens");
        let mut lost = Vec::new();
        let plain = Context::default();
        let foods = DISHES
            .rows()
            .iter()
            .flat_map(|dish| &dish.parts)
            .map(|part| {
                part.split_once(" g ")
                    .expect("grams and a food")
                    .1
                    .to_owned()
            });
        for food in foods.chain(meanings().cloned()) {
            let found = catalogue.find(&food, &plain, 1);
            if found.food.is_none() || found.certainty == Certainty::None {
                lost.push(food);
            }
        }
        lost.sort();
        lost.dedup();
        assert!(lost.is_empty(), "{lost:?}");
    }

    #[test]
    fn the_table_covers_kitchens() {
        #[derive(Deserialize)]
        struct Kitchen {
            kitchen: String,
            source: String,
        }
        let list = prepared_rows::<Kitchen>(prepared!("dish_names.csv"));
        assert!(list.iter().all(|row| !row.source.is_empty()));
        let kitchens: std::collections::HashSet<_> =
            list.into_iter().map(|row| row.kitchen).collect();
        assert!(kitchens.len() >= 25);
        assert_eq!(in_english("Kn\u{f6}del"), Some("potato dumplings"));
        let parsley = in_english("Petersilienkartoffeln");
        assert_eq!(parsley, Some("boiled potatoes"));
        assert_eq!(in_english("kleiner Gurkensalat"), Some("side salad"));
        for english in [
            "pancakes",
            "goulash soup",
            "cheesecake",
            "torte",
            "kohlrabi",
        ] {
            assert_eq!(in_english(english), None, "{english}");
        }
    }
}
