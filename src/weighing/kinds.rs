//! Kinds of dishes: what a restaurant serves of each, and of what.

use super::phrases::{Hit, PhraseTable};
use super::servings::{Fitted, ServingKind};
use super::usual::Role;
use crate::words::{prepared, prepared_rows, words_of};
use serde::Deserialize;
use std::ops::Range;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Row {
    kind: String,
    words_base: String,
    served_g: f64,
    log_sd: f64,
    base: f64,
    protein: f64,
    vegetables: f64,
    fruit: f64,
    cheese: f64,
    sauce: f64,
    fat: f64,
    bread: f64,
    topping: f64,
    implied: String,
    weighed: u32,
    source: String,
}

/// Fewest orders bought and weighed from which a kind's own weight is evidence.
const LEAST_WEIGHED: u32 = 8;

/// A kind of dish.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct DishKind {
    /// Its name.
    pub name: String,
    /// Mean grams as served in a restaurant.
    pub served_g: f64,
    /// Standard deviation of the log of that.
    pub log_sd: f64,
    /// Share of the weight by role; all shares add up to 1.
    shares: [(Role, f64); 9],
    /// What is in it unless the menu says otherwise.
    pub implied: Vec<String>,
    /// Orders that were bought and weighed for it; 0 where the weight is no measured one.
    pub weighed: u32,
    /// Where the weight comes from.
    pub source: String,
}

/// A kind found in a name.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct KindHit {
    /// The kind.
    pub kind: &'static DishKind,
    /// The words of the name, in base forms.
    words: Vec<String>,
    /// Which of them name the kind.
    naming: Range<usize>,
    /// Whether the words that name the kind are joined by `with` or `and`.
    pub joined: bool,
}

impl KindHit {
    /// A kind that no word of a name says.
    #[must_use]
    pub(crate) fn unsaid(kind: &'static DishKind, name: &str) -> Self {
        Self {
            kind,
            words: words_of(name).to_vec(),
            naming: 0..0,
            joined: false,
        }
    }

    /// The words of the name that do not name the kind: `grilled chicken` of `grilled
    /// chicken cobb`, in base forms.
    #[must_use]
    pub(crate) fn rest(&self) -> String {
        let Range { start, end } = self.naming;
        [&self.words[..start], &self.words[end..]]
            .concat()
            .join(" ")
    }

    /// Whether the name ends with the words that name the kind.
    #[must_use]
    pub(crate) fn is_last(&self) -> bool {
        self.naming.end == self.words.len()
    }
}

const TEXT: &str = prepared!("dish_kinds.csv");

static TABLE: LazyLock<PhraseTable<DishKind>> = LazyLock::new(|| {
    let list = prepared_rows::<Row>(TEXT).into_iter();
    PhraseTable::new(list.map(|row| (row.words_base.clone(), row.into())))
});

impl From<Row> for DishKind {
    fn from(row: Row) -> Self {
        Self {
            shares: [
                (Role::Base, row.base),
                (Role::Protein, row.protein),
                (Role::Vegetables, row.vegetables),
                (Role::Fruit, row.fruit),
                (Role::Cheese, row.cheese),
                (Role::Sauce, row.sauce),
                (Role::Fat, row.fat),
                (Role::Bread, row.bread),
                (Role::Topping, row.topping),
            ],
            name: row.kind,
            served_g: row.served_g,
            log_sd: row.log_sd,
            implied: row
                .implied
                .split(';')
                .map(str::trim)
                .filter(|s| !s.is_empty())
                .map(str::to_owned)
                .collect(),
            weighed: row.weighed,
            source: row.source,
        }
    }
}

impl DishKind {
    /// Share of the weight that a role has. Leaves are the base of a salad and vegetables
    /// elsewhere; dressings are sauces.
    #[must_use]
    pub(crate) fn share(&self, role: Role) -> f64 {
        let role = self.role(role);
        self.shares
            .iter()
            .find(|(r, _)| *r == role)
            .map_or(0.0, |(_, share)| *share)
    }

    /// The role as this kind counts it.
    #[must_use]
    pub(crate) fn role(&self, role: Role) -> Role {
        match role {
            Role::Leaves if self.is_salad() => Role::Base,
            Role::Leaves => Role::Vegetables,
            Role::Dressing => Role::Sauce,
            other => other,
        }
    }

    /// Whether it is one main thing that sides are put beside: a steak, a fish, ribs.
    #[must_use]
    pub(crate) fn has_sides(&self) -> bool {
        self.share(Role::Protein) >= 0.75
    }

    /// Whether enough orders of it were bought and weighed.
    #[must_use]
    pub(crate) fn is_weighed(&self) -> bool {
        self.weighed >= LEAST_WEIGHED
    }

    /// Whether enough menus with printed energy name it, or what `name` calls it, for them to tell what
    /// it holds: they print salads and noodle soups, hardly a pho.
    #[must_use]
    pub(crate) fn is_printed(&self, name: &str, fitted: &Fitted) -> bool {
        let all = |list: &[String]| list.iter().all(|word| fitted.is_printed(word));
        fitted.is_printed(&self.name)
            || all(&words_of(&self.name))
            || kind_of(name).is_some_and(|hit| hit.kind == self && all(&hit.words[hit.naming]))
    }

    /// Whether one role makes up nearly all of it, so that a plain food can be all of it.
    #[must_use]
    pub(crate) fn is_one_thing(&self) -> bool {
        self.shares.iter().any(|(_, share)| *share >= 0.75)
    }

    /// Whether it is a drink.
    fn is_poured(&self) -> bool {
        ServingKind::of_name(&self.name).is_some_and(ServingKind::is_drink)
    }

    /// Whether it is a salad of leaves.
    #[must_use]
    pub(crate) fn is_salad(&self) -> bool {
        self.name.ends_with("salad") && self.name != "chicken salad"
    }
}

/// All kinds.
#[must_use]
pub(crate) fn kinds() -> &'static [DishKind] {
    TABLE.rows()
}

/// Words behind which stands what a dish lies in or is flavoured with.
const IN: [&str; 4] = ["in", "al", "alla", "au"];

/// The kind that a dish's name says: of mussels in white wine no wine.
#[must_use]
pub(crate) fn kind_of(name: &str) -> Option<KindHit> {
    let list = words_of(name);
    let behind = list.iter().position(|word| IN.contains(&word.as_str()));
    let head = behind.and_then(|at| TABLE.last(&list[..at]));
    let within = |hit: &Hit<'_, DishKind>| behind.is_none() || !hit.row.is_poured();
    let hit = head.or_else(|| TABLE.last(&list).filter(within))?;
    let (kind, naming) = (hit.row, hit.at..hit.at + hit.length);
    let joins = |w: &String| w == "with" || w == "and";
    Some(KindHit {
        joined: list[naming.clone()].iter().any(joins),
        kind,
        words: list.to_vec(),
        naming,
    })
}

/// The kind of this very name (as in a dish file), or the one that the words say.
#[must_use]
pub(crate) fn kind_named(name: &str) -> Option<&'static DishKind> {
    let exact = kinds()
        .iter()
        .find(|k| k.name.eq_ignore_ascii_case(name.trim()));
    exact.or_else(|| kind_of(name).map(|hit| hit.kind))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_reads_and_its_shares_add_up() {
        let lines = TEXT.lines().skip(1).filter(|l| !l.is_empty());
        assert_eq!(kinds().len(), lines.count());
        for kind in kinds() {
            let sum: f64 = kind.shares.iter().map(|(_, share)| share).sum();
            assert!((sum - 1.0).abs() < 0.02, "{}: {sum}", kind.name);
            assert!((50.0..1000.0).contains(&kind.served_g), "{}", kind.name);
            assert!(kind.source.len() > 5, "{}", kind.name);
        }
    }

    #[test]
    fn names_say_kinds() {
        let hit = kind_of("Grilled chicken cobb").expect("a kind");
        assert_eq!(
            (hit.kind.name.as_str(), hit.rest()),
            ("cobb salad", "grilled chicken".to_owned())
        );
        assert_eq!(
            kind_of("spaghetti & meatballs").expect("a kind").kind.name,
            "spaghetti and meatballs"
        );
        assert_eq!(
            kind_of("bowl of beef curry").expect("a kind").kind.name,
            "curry"
        );
        let kind = |name: &str| kind_of(name).map(|hit| hit.kind.name.as_str());
        assert_eq!(kind("Penne alla vodka"), Some("pasta plate"));
        assert_eq!(kind("Mussels in white wine"), None);
        assert_eq!(kind("Chicken al pastor tacos"), Some("tacos"));
        assert!(kind_of("zzz").is_none());
    }

    /// USDA SR28, restaurant foods: mean weights of orders bought and weighed.
    #[test]
    fn weights_are_those_of_usdas_weighed_dishes() {
        for (name, grams) in [
            ("lasagna", 457.0),           // 36041
            ("kung pao chicken", 604.0),  // 36619
            ("onion rings", 259.0),       // 36036
            ("coleslaw", 108.0),          // 36035
            ("vegetable lo mein", 741.0), // 36625
        ] {
            assert_eq!(
                kind_of(name).map(|k| k.kind.served_g),
                Some(grams),
                "{name}"
            );
        }
    }
}
