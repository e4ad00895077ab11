//! What a menu line names, and what a kind of dish holds without naming it.

use super::draft::Draft;
use super::joined::{is_bowl, is_poured};
use super::tongues::in_english;
use super::wording::{head_kind, without_fillers};
use crate::foods::{FoodId, Trait};
use crate::reading::{Measure, MenuLine, MenuPart, PartKind};
use crate::weighing::apart::Apart;
use crate::weighing::component::WeighedComponent;
use crate::weighing::kinds::DishKind;
use crate::weighing::servings::{ServingKind, is_drink, thing_itself};
use crate::weighing::typical::{Setting, fill};
use crate::weighing::usual::Role;
use crate::words::{rows, words_of};
use serde::Deserialize;
use std::sync::LazyLock;

/// Kinds of dishes, and the kinds of what restaurants serve beside them.
static BESIDE_DISHES: LazyLock<Vec<[Vec<String>; 2]>> = LazyLock::new(|| {
    #[derive(Deserialize)]
    struct Row {
        dishes: String,
        beside: String,
    }
    let kinds = |cell: &str| cell.split(';').map(str::to_owned).collect();
    let list = rows::<Row>(include_str!("../tables/beside_dishes.csv"));
    let list = list.into_iter();
    list.map(|row| [kinds(&row.dishes), kinds(&row.beside)])
        .collect()
});

impl Draft<'_> {
    /// The kind's usual components, and what the line names.
    pub(super) fn by_kind(&mut self, line: &MenuLine, parts: &[&MenuPart]) {
        let hit = head_kind(line);
        let (implied, rest) = match &hit {
            Some(hit) if !hit.kind.implied.is_empty() => (hit.kind.implied.clone(), hit.rest()),
            _ => (Vec::new(), line.head.clone()),
        };
        let mut written: Vec<String> = Vec::new();
        let rest = without_fillers(&rest);
        // `Beer battered fish and chips`: a coat of what the kind holds, and no food of its own.
        let coat = !implied.is_empty() && rest.split(' ').next_back().is_some_and(is_coat);
        if !rest.is_empty() && !coat {
            // Behind a kind's own words there is only what it is made with.
            let several = !implied.is_empty() && !is_drink(&line.head);
            match several.then(|| self.apart().side_by_side(&rest)) {
                Some(foods) => written.extend(foods),
                None => written.push(rest),
            }
        }
        let named: Vec<String> = parts
            .iter()
            .filter(|p| matches!(p.what, PartKind::Named | PartKind::Under | PartKind::Added))
            .map(|p| match p.what {
                PartKind::Under => self.under(&p.text),
                _ => p.text.clone(),
            })
            .collect();
        for food in implied {
            let covered = written
                .iter()
                .map(String::as_str)
                .chain(named.iter().map(String::as_str))
                .enumerate();
            if covered
                .into_iter()
                .any(|(at, said)| self.stands_for(said, &food, at < written.len()))
            {
                continue;
            }
            let name = hit.as_ref().map_or("", |h| h.kind.name.as_str());
            self.push_main(&food, Some(name));
        }
        for text in written {
            self.push_main(&text, None);
        }
    }

    /// Where phrases of several foods are taken apart.
    pub(super) fn apart(&self) -> Apart<'_, '_> {
        Apart {
            finds: self.context.finds,
            british: self.context.british,
        }
    }

    /// Whether what is said takes the place of an implied food.
    pub(super) fn stands_for(&self, said: &str, implied: &str, in_head: bool) -> bool {
        let (a, b) = (words_of(said), words_of(implied));
        if a.iter().any(|w| b.contains(w) && !says_little(w)) {
            return true;
        }
        let (said, implied) = (self.role(said), self.role(implied));
        said == implied
            && (matches!(
                said,
                Role::Base | Role::Bread | Role::Dressing | Role::Leaves
            ) || (in_head && said == Role::Protein))
    }

    /// Adds a component to the dish; `implied_by` names the kind when nobody wrote it.
    pub(super) fn push_main(&mut self, text: &str, implied_by: Option<&str>) {
        let Some(line) = self.read_or_note(text) else {
            return;
        };
        let mut line = (*line).clone();
        if let Some(kind) = implied_by {
            line.text = format!("{text}, implied by `{kind}`");
            line.note = Some("inferred".to_owned());
        }
        let list = self.weighed(vec![line]);
        self.main.extend(list);
    }

    pub(super) fn push_side(&mut self, text: &str) {
        let Some(line) = self.read_or_note(text) else {
            return;
        };
        let mut list = self.weighed(vec![(*line).clone()]);
        fill(
            &mut list,
            None,
            Setting::Restaurant,
            self.context.catalogue(),
        );
        self.sides.extend(list);
    }

    /// A drink beside the dish: of what is a sauce elsewhere (milk) a glass.
    fn push_drink(&mut self, text: &str) {
        if self.role(text) == Role::Drink {
            self.push_side(text);
        } else {
            self.push_side(&format!("glass of {text}"));
        }
    }

    /// Puts a part of the line where it belongs. Of a choice (`fries or salad`) the first.
    pub(super) fn part(&mut self, text: &str, what: &PartKind) {
        let (text, other) = match text.split_once(" or ") {
            Some((first, other)) => (first.trim(), Some(other.trim())),
            None => (text, None),
        };
        if is_only_colour(text) {
            return;
        }
        if let Some(other) = other {
            self.notes
                .push(format!("`{text}` is counted, not `{other}`"));
        }
        match what {
            // A steak or a fish holds no potatoes: what the line lists lies beside it.
            PartKind::Named if self.is_beside_the_main(text) => self.push_side(text),
            PartKind::Named if self.is_drunk_with_it(text) => self.push_drink(text),
            PartKind::Named => {
                if let Some(line) = self.read(text) {
                    self.listed.push(line.food.clone());
                }
                self.replace_general(text);
                self.replace_implied(text);
                self.named(text, false);
            }
            PartKind::Added => self.named(text, true),
            PartKind::Under => {
                let text = self.under(text);
                self.named(&text, false);
            }
            // A dressing or a sauce beside the dish is still the dish's own.
            PartKind::Side
                if matches!(
                    self.role(text),
                    Role::Dressing | Role::Sauce | Role::Seasoning
                ) =>
            {
                self.named(text, false);
            }
            // What a dish is served with may be part of what it is known to be.
            PartKind::Side if self.described && self.holds(text) => {}
            PartKind::Side => self.push_side(text),
            PartKind::Removed => self.remove(text),
            PartKind::InsteadOf(old) => {
                match old {
                    Some(old) => {
                        self.take_out(old);
                    }
                    None => self.remove_starch(),
                }
                self.push_side(text);
            }
            PartKind::Portion(_) => {}
            PartKind::Doubled | PartKind::Extra | PartKind::Light => {
                if !self.main.iter().any(|c| self.meant(c, text)) && *what != PartKind::Light {
                    self.named(text, true);
                }
            }
        }
    }

    /// Whether a part is a starch, vegetables or fruit that a line lists behind one main thing, which was
    /// found.
    pub(super) fn is_beside_the_main(&self, text: &str) -> bool {
        let main = self.main.first().is_some_and(|c| c.matched.food.is_some());
        // A child's plate is one main thing with this and that beside it.
        let has_sides = self.kind.is_some_and(DishKind::has_sides);
        let role = self.role(text);
        let lies_there = match role {
            Role::Base | Role::Vegetables => {
                has_sides || self.is_childs() || self.is_plain_meat() && !self.is_dish(text)
            }
            Role::Leaves | Role::Fruit | Role::Bread => has_sides || self.is_childs(),
            _ => false,
        };
        main && (lies_there || self.is_beside_bread(text) || self.is_beside_a_dish(text))
    }

    /// `Lasagna, garlic bread, side salad`, `French toast with bacon`: what is a serving of its own beside
    /// a dish that does not hold it.
    fn is_beside_a_dish(&self, text: &str) -> bool {
        let found = self
            .main
            .first()
            .is_some_and(|dish| dish.matched.food.is_some());
        if !found || self.is_childs() {
            return false;
        }
        let Some(named) = self.named_first() else {
            return false;
        };
        let meant = self.fries(text).or_else(|| in_english(text));
        let part = ServingKind::named_last(&words_of(meant.unwrap_or(text)));
        part.is_some_and(|part| {
            BESIDE_DISHES
                .iter()
                .any(|[dishes, beside]| named.lies_within(dishes) && part.lies_within(beside))
        })
    }

    /// The kind that the line names before all that it lists.
    fn named_first(&self) -> Option<&'static ServingKind> {
        thing_itself(self.around.split(',').next().unwrap_or_default())
    }

    /// Whether words are found to mean a whole dish.
    fn is_dish(&self, text: &str) -> bool {
        let food = self
            .find(text)
            .food
            .map(|id| self.context.catalogue().food(id));
        food.is_some_and(|food| food.has(Trait::WholeDish))
    }

    /// Whether the dish is meat, poultry or fish by itself, of no kind that is known: `roast duck`.
    fn is_plain_meat(&self) -> bool {
        const MEATS: [&str; 4] = ["meat", "poultry", "fish", "shellfish"];
        let Some((main, more)) = self.main.split_first() else {
            return false;
        };
        let has_more = |c: &WeighedComponent| {
            matches!(
                self.role_of(c),
                Role::Protein | Role::Base | Role::Vegetables | Role::Bread
            )
        };
        if self.kind.is_some() || self.is_childs() || more.iter().any(has_more) {
            return false;
        }
        if !self
            .named_first()
            .is_none_or(|kind| kind.lies_within(&MEATS))
        {
            return false;
        }
        let food = main
            .matched
            .food
            .map(|id| self.context.catalogue().food(id));
        food.is_some_and(|food| food.has(Trait::CutByWeight))
    }

    /// `Turkey club with fries`: what is fried and eaten with the fingers beside a filled bread, and not in it.
    fn is_beside_bread(&self, text: &str) -> bool {
        const BESIDE_BREAD: [&str; 3] = ["fries", "onion rings", "chips"];
        let side = ServingKind::named_last(&words_of(in_english(text).unwrap_or(text)));
        self.is_filled_bread() && side.is_some_and(|kind| kind.lies_within(&BESIDE_BREAD))
    }

    /// Whether the dish is a bread with a filling.
    pub(super) fn is_filled_bread(&self) -> bool {
        let holds = |kind: &DishKind, role| kind.share(role) > 0.0;
        let filled = |kind: &DishKind| holds(kind, Role::Bread) && !holds(kind, Role::Base);
        self.kind.is_some_and(filled)
    }

    /// Whether a part is a drink that a line lists behind a dish: `grilled cheese with apple and
    /// milk`, but `oatmeal with milk`.
    fn is_drunk_with_it(&self, text: &str) -> bool {
        /// Share of grain from which a dish is a bowl of grain, which is eaten with milk.
        const BOWL_OF_GRAIN: f64 = 0.8;
        let catalogue = self.context.catalogue();
        let drink = |c: &WeighedComponent| is_drink(&c.matched.line.food);
        let dish = |c: &WeighedComponent| {
            let food = c.matched.food.map(|id| catalogue.food(id));
            food.is_some_and(|food| food.has(Trait::WholeDish))
        };
        let solid = match self.kind {
            Some(kind) => kind.share(Role::Base) < BOWL_OF_GRAIN,
            None => self.main.iter().any(dish),
        };
        let found = self.find(text).food.map(|id| catalogue.food(id));
        solid
            && is_drink(text)
            && found.is_some_and(is_poured)
            && self.role(text) != Role::Seasoning
            && !self.main.iter().any(drink)
    }

    /// `on rye` is rye bread.
    pub(super) fn under(&self, text: &str) -> String {
        let bread = self.kind.is_some_and(|k| k.share(Role::Bread) > 0.2);
        if bread && self.role(text) != Role::Bread {
            format!("{text} bread")
        } else {
            text.to_owned()
        }
    }

    /// `chicken cobb` with `grilled chicken`: the closer words are about the same chicken.
    fn replace_general(&mut self, text: &str) {
        let said = words_of(text);
        let role = self.role(text);
        let general: Vec<bool> = self
            .main
            .iter()
            .map(|c| {
                let own = words_of(&c.matched.line.food);
                !self.whole
                    && c.grams().is_none()
                    && own.len() < said.len()
                    && own.iter().all(|w| said.contains(w))
                    && self.role_of(c) == role
            })
            .collect();
        let mut at = general.iter();
        self.main.retain(|_| at.next() != Some(&true));
    }

    /// `Steak frites, 8 oz sirloin`: the weighed sirloin is the steak that the kind implies.
    fn replace_implied(&mut self, text: &str) {
        let Some(line) = self.read(text) else {
            return;
        };
        let weighed = line
            .amount
            .as_ref()
            .is_some_and(|amount| amount.measure == Measure::Grams);
        if !weighed || self.whole {
            return;
        }
        let role = self.role(&line.food);
        let implied = |c: &WeighedComponent| {
            c.matched.line.note.as_deref() == Some("inferred") && c.grams().is_none()
        };
        let at = (0..self.main.len())
            .find(|at| implied(&self.main[*at]) && self.role_of(&self.main[*at]) == role);
        if let Some(at) = at {
            self.main.remove(at);
        }
    }

    /// Whether the dish holds what words name.
    pub(super) fn holds(&self, text: &str) -> bool {
        let said = words_of(text);
        self.main.iter().any(|c| {
            let own = words_of(&c.matched.line.food);
            let food = c.matched.food.map(|id| self.context.catalogue().food(id));
            let called = food.map(|food| words_of(food.name()));
            let has = |w: &String| {
                own.contains(w) || called.as_ref().is_some_and(|called| called.contains(w))
            };
            // A whole dish holds what its name names: `beef taco` holds ground beef.
            let whole = c
                .matched
                .food
                .is_some_and(|id| self.context.catalogue().food(id).has(Trait::WholeDish));
            // A soup beside a sandwich with tomato is a dish of its own.
            if whole && !is_bowl(text) {
                said.iter().any(has)
            } else {
                said.iter().all(has)
            }
        })
    }

    /// A component that the line names; not again when the dish holds it already.
    pub(super) fn named(&mut self, text: &str, again: bool) {
        let held = || self.holds(text) || self.is_the_dish_itself(text);
        if !again && (held() || self.is_milk_of_a_drink(text)) {
            return;
        }
        if self.role(text) == Role::Dressing {
            let dressed: Vec<bool> = self
                .main
                .iter()
                .map(|c| self.role_of(c) == Role::Dressing)
                .collect();
            let mut at = dressed.iter();
            self.main.retain(|_| at.next() != Some(&true));
        }
        self.push_main(text, None);
    }

    /// `ramen, tonkotsu`: a sort of the dish, not a second bowl of it.
    fn is_the_dish_itself(&self, text: &str) -> bool {
        let found = self.find(text).food;
        let dish = |id: FoodId| self.context.catalogue().food(id).has(Trait::WholeDish);
        let same = |c: &WeighedComponent| c.matched.food == found;
        found.is_some_and(dish) && self.whole && self.main.iter().any(same)
    }

    /// `latte with whole milk`: the drink holds its milk already.
    fn is_milk_of_a_drink(&self, text: &str) -> bool {
        let catalogue = self.context.catalogue();
        let drink = self.whole
            && self.main.iter().all(|c| {
                let food = c.matched.food.map(|id| catalogue.food(id));
                food.is_some_and(|f| f.has(Trait::HoldsMilk))
            });
        drink && words_of(text).iter().any(|w| w == "milk")
    }
}

/// Whether a word says what something is coated in.
fn is_coat(word: &str) -> bool {
    matches!(word, "battered" | "breaded" | "crusted" | "dusted")
}

/// Whether words only say which sort of a thing it is: `Wine - red`, `coffee, black`.
fn is_only_colour(text: &str) -> bool {
    const COLOURS: [&str; 11] = [
        "red", "white", "green", "black", "brown", "yellow", "pink", "golden", "dark", "light",
        "blonde",
    ];
    let list = words_of(text);
    !list.is_empty() && list.iter().all(|word| COLOURS.contains(&word.as_str()))
}

/// Words that many foods share, so that sharing one means nothing.
fn says_little(word: &str) -> bool {
    matches!(
        word,
        "cooked"
            | "salad"
            | "and"
            | "cheese"
            | "sauce"
            | "red"
            | "green"
            | "white"
            | "fresh"
            | "roasted"
            | "grilled"
            | "fried"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_lies_beside_dishes_is_of_kinds_that_are_known() {
        assert!(BESIDE_DISHES.len() > 4);
        for name in BESIDE_DISHES.iter().flatten().flatten() {
            assert!(ServingKind::of_name(name).is_some(), "{name}");
        }
    }
}
