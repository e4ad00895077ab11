//! Lists on a day sheet: foods best first, what they equal, free foods, sizes to the eye.

use crate::ledger::{Group, KnownFood, Standard, fraction, free_foods, known_foods};
use crate::matching::Catalogue;

/// Most foods of a group.
const MOST_FOODS: usize = 8;
/// Most of one kind, so that the list has variety; what is rather drunk or nibbled stands once.
const MOST_OF_KIND: usize = 3;
const ONCE: [&str; 6] = ["juice", "snack", "canned", "dried", "sauce", "seeds"];
/// Most free foods of a kind.
const MOST_FREE: usize = 5;

/// Ways to flavour water (common practice).
pub(super) const FLAVOURS: [&str; 6] = [
    "cucumber and mint",
    "lemon and ginger",
    "orange and basil",
    "strawberry and basil",
    "lime and mint",
    "apple and cinnamon",
];

/// What is said of free foods.
pub(super) const FREE_WORDS: &str = "A serving has under 20 kcal and at most 5 g carbohydrate. \
    Herbs, spices, water and plain tea as you like; about three servings a day of the rest.";

/// Sources of the lists.
pub(super) const SOURCES: &str = "Free foods: rule of Choose Your Foods (American Diabetes Association, Academy of Nutrition and \
    Dietetics). To the eye: NHLBI serving size card, USDA-credited table of everyday objects.";

/// Everyday foods of a standard, each with how it ranks.
pub(super) type Known<'c> = Vec<(f64, KnownFood<'c>)>;

/// Everyday foods without the kinds that a standard has none of, best first.
pub(super) fn foods_for<'c>(standard: &Standard, catalogue: &'c Catalogue) -> Known<'c> {
    let known = known_foods(catalogue).into_iter();
    let kept = known.filter(|food| !standard.leaves_out(food.group).contains(&food.row.kind));
    let mut ranked: Known<'c> = kept
        .filter_map(|food| Some((food.density()?, food)))
        .collect();
    ranked.sort_by(|a, b| b.0.total_cmp(&a.0));
    ranked
}

/// Foods of a group, each with what one portion of it is, best first.
pub(super) fn best_first(known: &Known<'_>, group: Group, portion: f64) -> Vec<(String, String)> {
    let mut kinds: Vec<&str> = Vec::new();
    let mut list = Vec::new();
    for (_, food) in known.iter().filter(|(_, food)| food.group == group) {
        let kind = food.row.kind.as_str();
        let most = match group {
            _ if ONCE.contains(&kind) => 1,
            Group::Grains | Group::ProteinFoods => 2,
            _ => MOST_OF_KIND,
        };
        if list.len() >= MOST_FOODS || kinds.iter().filter(|k| **k == kind).count() >= most {
            continue;
        }
        let Some(grams) = food.grams_for(portion) else {
            continue;
        };
        kinds.push(kind);
        list.push((food.row.said.clone(), food.measured(grams)));
    }
    list
}

/// What foods that are not measured in portions equal, in halves: `1 medium bagel = 4 1/2
/// grains`.
pub(super) fn equals(known: &Known<'_>, portion: impl Fn(Group) -> f64) -> Vec<String> {
    let mut awkward: Vec<&KnownFood<'_>> = known
        .iter()
        .map(|(_, food)| food)
        .filter(|food| food.row.awkward)
        .collect();
    awkward.sort_by_key(|food| food.group);
    let words = |food: &&KnownFood<'_>| {
        let halves = (food.of_unit() / portion(food.group) * 2.0).round() / 2.0;
        let group = match food.group {
            Group::ProteinFoods => "protein",
            Group::Oils if halves <= 1.0 => "teaspoon oil",
            Group::Oils => "teaspoons oil",
            Group::Fruits if halves <= 1.0 => "fruit",
            Group::Vegetables if halves <= 1.0 => "vegetable",
            Group::Grains if halves <= 1.0 => "grain",
            other => other.label(),
        };
        let what = one_of(food);
        (halves > 0.0).then(|| format!("{what} = {} {group}", fraction(halves)))
    };
    awkward.iter().filter_map(words).collect()
}

/// `1 slice white bread`, `1 medium bagel`, `1 egg, boiled or poached`.
fn one_of(food: &KnownFood<'_>) -> String {
    let unit = &food.row.unit;
    // `1 slice ham`, not `1 slice sliced ham`.
    let said = food.row.said.trim_start_matches("sliced ");
    let unit_word = unit.rsplit(' ').next().unwrap_or(unit);
    if said.split(' ').any(|word| word == unit_word) {
        let size = unit.strip_suffix(unit_word).unwrap_or_default();
        return format!("1 {size}{said}");
    }
    format!("1 {unit} {said}")
}

/// Free foods by kind.
pub(super) fn free(catalogue: &Catalogue) -> Vec<(String, Vec<String>)> {
    let mut kinds: Vec<(String, Vec<String>)> = Vec::new();
    for food in free_foods(catalogue) {
        let (kind, said) = (&food.row.kind, &food.row.said);
        if kinds.last().is_none_or(|(last, _)| last != kind) {
            kinds.push((kind.clone(), Vec::new()));
        }
        if let Some((_, list)) = kinds.last_mut()
            && list.len() < MOST_FREE
        {
            list.push(said.clone());
        }
    }
    kinds
}

/// What a portion of a group looks like (NHLBI serving size card; USDA-credited table of
/// everyday objects); `portion` in the group's unit.
pub(super) fn looks(group: Group, portion: f64) -> Vec<String> {
    let whole = portion > 0.75;
    let list: &[&str] = match group {
        Group::Vegetables | Group::Pulses if whole => {
            &["1 cup: a baseball or a fist", "raw leaves: two of them"]
        }
        Group::Vegetables | Group::Pulses => {
            &["1/2 cup: half a baseball", "1 cup of raw leaves: a fist"]
        }
        Group::Fruits if whole => &["1 cup, or a medium fruit: a baseball"],
        Group::Fruits => &["1/2 cup: half a baseball", "1/4 cup dried: a golf ball"],
        Group::Grains => &[
            "1/2 cup of rice or pasta: half a baseball",
            "1 cup of flakes: a fist",
        ],
        Group::ProteinFoods => &[
            "3 oz of meat or fish: a deck of cards",
            "2 tablespoons of nut butter: a table-tennis ball",
        ],
        Group::Dairy => &["1 1/2 oz of cheese: four dice"],
        Group::Oils => &["1 teaspoon: one die"],
    };
    list.iter().map(|words| (*words).to_owned()).collect()
}
