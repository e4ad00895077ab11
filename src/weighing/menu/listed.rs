//! What a bare list of foods makes together, where nobody names the dish: `rice, black beans`.

use super::draft::Draft;
use super::named::GENERIC;
use crate::foods::Trait;
use crate::reading::{MenuLine, MenuPart, PartKind};
use crate::weighing::kinds::{DishKind, kind_named};
use crate::weighing::phrases::{PhraseTable, only_phrases};
use crate::weighing::usual::Role;
use crate::weighing::weight::{Basis, Weight};
use crate::words::{prepared, prepared_rows, words_of};
use serde::Deserialize;
use serde::de::value::{Error, StrDeserializer};
use std::rc::Rc;
use std::sync::LazyLock;

/// Spread of the log of such oil (own choice): kitchens differ by half.
const OIL_SPREAD: f64 = 0.5;

#[derive(Debug, Deserialize)]
struct Row {
    kind: String,
    needs: String,
    without: String,
    oil: Option<f64>,
}

/// A kind of dish by what its list holds.
#[derive(Debug)]
struct ListKind {
    kind: &'static DishKind,
    /// Each is met by a food of the list of its own.
    needs: Vec<Need>,
    /// No other food of the list is one of these.
    without: Need,
    /// Share of the dish's weight that is oil it is fried in, which lists leave unsaid. Own choice, so that
    /// orders that USDA weighed (`tests/data/usda_by_parts.csv`) hold the energy they do: without it their
    /// lists came to 0.75 and 0.87 of that.
    oil: Option<f64>,
}

/// What a food of a list may be, one of these.
#[derive(Debug, Default)]
struct Need {
    any: bool,
    roles: Vec<Role>,
    families: Vec<String>,
    words: Option<PhraseTable<()>>,
}

/// A food of a list.
#[derive(Debug)]
struct Listed {
    words: Rc<[String]>,
    role: Role,
    family: String,
    /// Whether it is a dish by itself.
    dish: bool,
}

static KINDS: LazyLock<Vec<ListKind>> = LazyLock::new(|| {
    let list = prepared_rows::<Row>(prepared!("list_kinds.csv")).into_iter();
    let read = |row: Row| {
        Some(ListKind {
            kind: kind_named(&row.kind)?,
            needs: row.needs.split(';').map(Need::read).collect(),
            without: Need::read(&row.without),
            oil: row.oil,
        })
    };
    list.filter_map(read).collect()
});

/// A role as tables name it.
fn role_named(name: &str) -> Option<Role> {
    Role::deserialize(StrDeserializer::<Error>::new(name)).ok()
}

impl Need {
    /// Reads `@role`, `family:name` and words, parted by bars; `@any` is any food.
    fn read(cell: &str) -> Self {
        let mut need = Self::default();
        let mut phrases = Vec::new();
        for one in cell.split('|').filter(|one| !one.is_empty()) {
            match (one.strip_prefix('@'), one.strip_prefix("family:")) {
                (Some("any"), _) => need.any = true,
                (Some(role), _) => need.roles.extend(role_named(role)),
                (_, Some(family)) => need.families.push(family.to_owned()),
                _ => phrases.push(one),
            }
        }
        need.words = (!phrases.is_empty()).then(|| only_phrases(&phrases.join(";")));
        need
    }

    fn is_met(&self, food: &Listed) -> bool {
        let named = |phrases: &PhraseTable<()>| phrases.any(&food.words);
        self.any
            || self.families.contains(&food.family)
            || self.roles.contains(&food.role)
            || self.words.as_ref().is_some_and(named)
    }
}

impl ListKind {
    /// Whether each need is met by another food of the list, and nothing else speaks against the kind.
    fn is_made_by(&self, list: &[Listed]) -> bool {
        let mut left: Vec<&Listed> = list.iter().collect();
        let met = self.needs.iter().all(|need| {
            let at = left.iter().position(|food| need.is_met(food));
            at.map(|at| left.remove(at)).is_some()
        });
        met && !left
            .iter()
            .any(|food| food.dish || self.without.is_met(food))
    }
}

impl Draft<'_> {
    /// Takes the foods of a line that only lists what makes a kind of dish; says whether it does.
    pub(super) fn take_list(&mut self, line: &MenuLine, parts: &[&MenuPart]) -> bool {
        let Some(made) = self.kind_of_list(line) else {
            return false;
        };
        let kind = made.kind;
        (self.kind, self.list_kind) = (Some(kind), Some(kind));
        self.notes.push(format!(
            "what is listed is taken for one dish ({}), as restaurants serve it",
            kind.name
        ));
        let texts = parts.iter().map(|part| part.text.as_str());
        for text in std::iter::once(line.head.as_str()).chain(texts) {
            self.push_main(text, None);
        }
        if let Some(share) = made.oil {
            self.add_oil(share * kind.served_g, kind);
        }
        true
    }

    /// The oil that a dish is fried in, unless the list names one.
    fn add_oil(&mut self, grams: f64, kind: &DishKind) {
        if self.main.iter().any(|c| self.role_of(c) == Role::Fat) {
            return;
        }
        self.push_main("vegetable oil", Some(&kind.name));
        if let Some(oil) = self.main.last_mut() {
            let told = format!("oil that such dishes are fried in ({})", kind.name);
            oil.weight = Ok(Weight::unsaid(grams, OIL_SPREAD, Basis::Hidden, told));
        }
    }

    /// The kind of dish that a line's foods make together, where it lists foods and names no dish.
    fn kind_of_list(&self, line: &MenuLine) -> Option<&'static ListKind> {
        let named = |part: &MenuPart| part.what == PartKind::Named;
        let bare = line.name.is_empty() && line.choices.is_empty() && line.text.contains(',');
        if !bare
            || line.parts.is_empty()
            || !line.parts.iter().all(named)
            || self.names_a_dish(line)
        {
            return None;
        }
        let texts = std::iter::once(&line.head).chain(line.parts.iter().map(|part| &part.text));
        let list: Option<Vec<Listed>> = texts.map(|text| self.listed_food(text)).collect();
        let list = list?;
        KINDS.iter().find(|kind| kind.is_made_by(&list))
    }

    /// Whether what stands first is no food of a list but the dish: `Shakshuka, feta, toast`, `Carnitas
    /// plate, rice, beans`.
    fn names_a_dish(&self, line: &MenuLine) -> bool {
        let last = line.head.split_whitespace().next_back().unwrap_or_default();
        GENERIC.contains(&last.to_lowercase().as_str()) || self.is_named_dish(line)
    }

    /// A food of a list; `None` of what has an amount or means no food.
    fn listed_food(&self, text: &str) -> Option<Listed> {
        let read = self.read(text).filter(|read| read.amount.is_none())?;
        let food = self.context.catalogue().food(self.find(&read.food).food?);
        Some(Listed {
            words: words_of(&read.food),
            role: self.role(&read.food),
            family: food.family().to_owned(),
            dish: food.has(Trait::WholeDish),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_names_a_kind_of_dish_and_its_reason() {
        #[derive(Deserialize)]
        struct Reason {
            source: String,
        }
        let list = prepared_rows::<Reason>(prepared!("list_kinds.csv"));
        assert_eq!(KINDS.len(), list.len());
        assert!(list.iter().all(|row| row.source.len() > 5));
        let roles = prepared_rows::<Row>(prepared!("list_kinds.csv"))
            .into_iter()
            .flat_map(|row| [row.needs, row.without])
            .flat_map(|cell| {
                let all = cell.split([';', '|']);
                let roles = all.filter_map(|one| one.strip_prefix('@').map(str::to_owned));
                roles.collect::<Vec<_>>()
            });
        for role in roles.filter(|role| role != "any") {
            assert!(role_named(&role).is_some(), "@{role} is no role");
        }
    }
}
