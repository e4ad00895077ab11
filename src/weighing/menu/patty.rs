//! `8 oz burger`, `quarter pound cheeseburger`: the trade says the weight of the raw patty. The bun and
//! what lies on it come on top.

use super::draft::Draft;
use crate::matching::Certainty;
use crate::quantity::units::OUNCE_G;
use crate::reading::{Amount, MenuLine, MenuPart, WeightUnit};
use crate::weighing::kinds::kind_of;
use crate::weighing::usual::Role;
use crate::words::words_of;
use std::ops::RangeInclusive;

/// Kinds of dish that are said so.
const BURGERS: [&str; 2] = ["burger", "cheeseburger"];
/// Words of patties by themselves, and of burgers whose patty is no raw meat.
const NO_BURGER: [&str; 9] = [
    "patty",
    "slider",
    "melt",
    "veggie",
    "vegetable",
    "vegan",
    "plant",
    "bean",
    "mushroom",
];
/// Meats that lie on a burger and are not its patty.
const ON_TOP: [&str; 4] = ["bacon", "ham", "egg", "chili"];
/// What patties weigh, g: from a child's to half a kilogram's (own choice).
const PATTY_G: RangeInclusive<f64> = 50.0..=500.0;
/// Words that say how many patties there are.
const PATTIES: [(&str, f64); 3] = [("double", 2.0), ("triple", 3.0), ("quad", 4.0)];

impl Draft<'_> {
    /// Takes a burger whose patty is weighed; `false` for anything else.
    pub(super) fn take_burger(&mut self, line: &MenuLine, parts: &[&MenuPart]) -> bool {
        let Some(read) = self.read(&line.head) else {
            return false;
        };
        // Grams are what somebody has weighed as it is eaten.
        let by_trade = [Some(WeightUnit::Ounce), Some(WeightUnit::Pound)];
        let said_raw = |own: &&Amount| by_trade.contains(&own.weight_unit);
        let Some(amount) = read.amount.as_ref().filter(said_raw) else {
            return false;
        };
        let words = words_of(&read.food);
        let says = |list: &[&str]| words.iter().any(|word| list.contains(&word.as_str()));
        let Some(hit) = kind_of(&read.food).filter(|hit| BURGERS.contains(&hit.kind.name.as_str()))
        else {
            return false;
        };
        if says(&NO_BURGER) || !PATTY_G.contains(&amount.number.likely) {
            return false;
        }
        let rest = words_of(&hit.rest());
        let (on_top, meat): (Vec<&String>, Vec<&String>) = rest
            .iter()
            .partition(|word| ON_TOP.contains(&word.as_str()));
        let known = |word: &&String| self.find(word).certainty > Certainty::Guess;
        let mut head: Vec<&str> = meat.into_iter().filter(known).map(String::as_str).collect();
        head.push(&hit.kind.name);
        let head = head.join(" ");
        let own = MenuLine {
            main: head.clone(),
            head,
            ..line.clone()
        };
        self.kind = Some(hit.kind);
        self.by_kind(&own, parts);
        for topping in on_top {
            self.push_main(topping, None);
        }
        let patties = PATTIES.iter().find(|(word, _)| says(&[word]));
        let ounces = amount.number.likely * patties.map_or(1.0, |(_, times)| *times) / OUNCE_G;
        self.weigh_patty(ounces);
        true
    }

    /// Gives the meat of a burger its weight, raw.
    fn weigh_patty(&mut self, ounces: f64) {
        let meat = |c: &_| self.role_of(c) == Role::Protein;
        let Some(at) = self.main.iter().position(meat) else {
            return;
        };
        let food = &self.main[at].matched.line.food;
        let patty = format!("{food} patty");
        let food = match self.find(&patty).food {
            Some(_) if !food.ends_with("patty") => &patty,
            _ => food,
        };
        let Some(line) = self.read(&format!("{} oz {food}", (ounces * 10.0).round() / 10.0)) else {
            return;
        };
        let list = self.weighed(vec![(*line).clone()]);
        self.main.splice(at..=at, list);
    }
}
