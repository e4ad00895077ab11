//! What a menu line takes away, doubles or makes light.

use super::draft::Draft;
use crate::foods::{Trait, family_has};
use crate::reading::PartKind;
use crate::weighing::component::WeighedComponent;
use crate::weighing::usual::Role;
use crate::words::words_of;

/// What `extra` and `light` do to an amount (common practice).
const EXTRA: f64 = 1.5;
const LIGHT: f64 = 0.5;

impl Draft<'_> {
    /// Whether `text` means this component: by its words, or by what it does in the dish.
    pub(super) fn meant(&self, c: &WeighedComponent, text: &str) -> bool {
        let said = words_of(text);
        let own = words_of(&c.matched.line.food);
        !said.is_empty()
            && (said.iter().all(|w| own.contains(w))
                || role_meant(&said).is_some_and(|role| role == self.role_of(c)))
    }

    /// As [`Self::meant`], for a food that is only a name yet.
    pub(super) fn is_meant(&self, food: &str, text: &str) -> bool {
        let said = words_of(text);
        let own = words_of(food);
        !said.is_empty()
            && (said.iter().all(|w| own.contains(w))
                || role_meant(&said).is_some_and(|role| role == self.role(food)))
    }

    /// Takes components out; says whether there was one.
    pub(super) fn take_out(&mut self, text: &str) -> bool {
        let before = self.main.len() + self.sides.len();
        let keep = |draft: &Self, list: &[WeighedComponent]| -> Vec<WeighedComponent> {
            list.iter()
                .filter(|c| !draft.meant(c, text))
                .cloned()
                .collect()
        };
        let (main, sides) = (keep(self, &self.main), keep(self, &self.sides));
        (self.main, self.sides) = (main, sides);
        before > self.main.len() + self.sides.len()
    }

    pub(super) fn remove(&mut self, text: &str) {
        if self.take_out(text) {
            return;
        }
        let whole = self.main.iter().filter_map(|c| c.matched.food);
        let families = whole.map(|id| self.context.catalogue().food(id).family());
        self.notes.push(if families.into_iter().any(|f| family_has(f, Trait::WholeDish)) {
            format!("`{text}` cannot be taken out of a dish known only as a whole: what it holds of it is counted")
        } else {
            format!("nothing counted is `{text}`: leaving it out changes nothing")
        });
    }

    /// Takes out the usual side: fries or chips.
    pub(super) fn remove_starch(&mut self) {
        let starch = |c: &WeighedComponent| {
            let own = words_of(&c.matched.line.food);
            own.iter().any(|w| matches!(w.as_str(), "fry" | "chip"))
        };
        self.main.retain(|c| !starch(c));
        self.sides.retain(|c| !starch(c));
    }

    pub(super) fn change_amount(&mut self, text: &str, what: &PartKind) {
        let (factor, word) = match what {
            PartKind::Doubled => (2.0, "double"),
            PartKind::Extra => (EXTRA, "extra"),
            PartKind::Light => (LIGHT, "light"),
            PartKind::Portion(share) => (*share, "the part used of"),
            _ => return,
        };
        let hit: Vec<usize> = (0..self.main.len())
            .filter(|at| self.meant(&self.main[*at], text))
            .collect();
        if hit.is_empty() {
            self.notes.push(format!(
                "`{word} {text}` changes nothing that is known of the dish"
            ));
        }
        for at in hit {
            let c = &mut self.main[at];
            c.change(format!("{word}: x {factor}"), |grams| grams.times(factor));
        }
    }
}

/// The role that words such as `meat` and `bun` mean.
fn role_meant(said: &[String]) -> Option<Role> {
    match said.last()?.as_str() {
        "meat" | "protein" => Some(Role::Protein),
        "cheese" if said.len() == 1 => Some(Role::Cheese),
        "dressing" if said.len() == 1 => Some(Role::Dressing),
        "sauce" if said.len() == 1 => Some(Role::Sauce),
        "veggie" | "vegetable" => Some(Role::Vegetables),
        "bread" | "bun" => Some(Role::Bread),
        _ => None,
    }
}
