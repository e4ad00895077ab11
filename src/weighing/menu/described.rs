//! What the description of a named dish says: the dish itself, what lies beside it, or only where it is
//! served.

use super::draft::MenuContext;
use super::joined::is_poured;
use crate::foods::{FoodId, Trait};
use crate::matching::Certainty;
use crate::reading::{
    ComponentLine, Dish, MenuLine, MenuPart, PartKind, Place, is_heading, parse_component,
};
use crate::weighing::kinds::{KindHit, kind_of};
use crate::weighing::usual::Role;

/// Last words of what is no food but a meal that holds some: `big egg breakfast`, `taco combo`.
const MEALS: [&str; 21] = [
    "breakfast",
    "lunch",
    "dinner",
    "brunch",
    "combo",
    "combos",
    "combination",
    "sampler",
    "trio",
    "duo",
    "fiesta",
    "feast",
    "portion",
    "kids",
    "meal",
    "meals",
    "plate",
    "platter",
    "basket",
    "box",
    "special",
];
/// Dishes in the plural under which menus sort others; before a colon they are the dish itself.
const SORTED_UNDER: [&str; 6] = [
    "wraps",
    "burritos",
    "tacos",
    "fajitas",
    "bowls",
    "kids sides",
];
/// A heading of menus that is an ingredient as well.
const INGREDIENT: &str = "pasta";

/// A dish that its name tells, where the description lists the meals and headings under which it is
/// served: `Green beans: sides, kids, big egg breakfast`.
pub(super) fn told_where_it_is_served(
    line: &MenuLine,
    description: &MenuLine,
    context: MenuContext<'_>,
) -> Option<MenuLine> {
    let is_meal = |text: &str| {
        let last = text.split_whitespace().next_back().unwrap_or_default();
        MEALS.contains(&last.to_lowercase().as_str())
    };
    let is_one_of =
        |list: &[&str], text: &str| list.iter().any(|own| text.eq_ignore_ascii_case(own));
    let is_place = |text: &str| {
        let heading = is_heading(text) && !is_one_of(&[INGREDIENT], text);
        heading || is_meal(text) || is_one_of(&SORTED_UNDER, text)
    };
    if is_meal(&line.name) || !texts(description).any(is_place) {
        return None;
    }
    let named = context.finds.by_itself(&line.name, context.british);
    let known = named.food.is_some() || kind_of(&line.name).is_some();
    known.then(|| line.by_name()).flatten()
}

/// The dish that its name tells, with what the description puts beside it, where that is all it does:
/// `Potato soup: 4 saltine crackers`.
pub(super) fn lies_beside(
    line: &MenuLine,
    description: &MenuLine,
    context: MenuContext<'_>,
) -> Option<MenuLine> {
    let role = |text: &str| {
        let found = context.finds.by_itself(text, context.british);
        let food = found.food?;
        let drunk = is_poured(context.catalogue().food(food));
        let role = context.finds.usual(text, found.food).role;
        Some(if drunk { Role::Drink } else { role })
    };
    let aside = |role: Role| {
        matches!(
            role,
            Role::Drink | Role::Topping | Role::Seasoning | Role::Dressing | Role::Bread
        )
    };
    let is_cracker = |text: &str| text.to_lowercase().ends_with("crackers");
    let beside = |text: &str| is_cracker(text) || role(text).is_some_and(aside);
    if role(&line.name).is_none_or(aside) || !texts(description).all(beside) {
        return None;
    }
    let served = |text: &str| match role(text) {
        Some(Role::Drink) if !text.starts_with(char::is_numeric) => format!("glass of {text}"),
        _ => text.to_owned(),
    };
    let mut plain = line.by_name()?;
    plain.parts.extend(texts(description).map(|text| MenuPart {
        text: served(text),
        what: PartKind::Side,
    }));
    Some(plain)
}

/// What a description lists, as written.
fn texts(description: &MenuLine) -> impl Iterator<Item = &str> {
    let parts = description.parts.iter().map(|part| part.text.as_str());
    std::iter::once(description.head.as_str()).chain(parts)
}

/// Pasta, rice or potatoes that the description of a known dish lists, where the dish holds none:
/// `Chicken Parmesan: breaded chicken, marinara, spaghetti`.
pub(super) fn starch_beside(
    dish: &Dish<ComponentLine>,
    line: &MenuLine,
    context: MenuContext<'_>,
) -> Vec<MenuPart> {
    let is_starch = |text: &str| {
        let found = context.finds.by_itself(text, context.british);
        context.finds.usual(text, found.food).role == Role::Base
    };
    if dish.components.iter().any(|c| is_starch(&c.food)) {
        return Vec::new();
    }
    let listed = line
        .parts
        .iter()
        .filter(|part| part.what == PartKind::Named && is_starch(&part.text));
    let beside = listed.map(|part| MenuPart {
        what: PartKind::Side,
        ..part.clone()
    });
    beside.collect()
}

/// Whether a description begins with the dish itself, said more closely than by its name:
/// `Thursday curry: chickpea curry, rice`, `Dim sum: 4 pork dumplings`.
pub(super) fn names_the_dish(description: &MenuLine, name: &str, context: MenuContext<'_>) -> bool {
    let Ok(line) = parse_component(
        &description.head,
        Place::new("menu line", 1, 1),
        context.units,
    ) else {
        return false;
    };
    let name = &name.to_lowercase().replace(" of the day", "");
    let ends_in_kind = |text: &str| kind_of(text).filter(KindHit::is_last);
    let kinds = ends_in_kind(&line.food).zip(ends_in_kind(name));
    let find = |text: &str| context.finds.by_itself(text, context.british);
    let (own, named) = (find(&line.food), find(name));
    let dish = |id: FoodId| context.catalogue().food(id).has(Trait::WholeDish);
    // `Shrimp scampi: linguine, garlic`: pasta is what a dish of pasta stands on.
    let starch = context.finds.usual(&line.food, own.food).role == Role::Base;
    let plain = starch && !own.food.is_some_and(dish);
    if !plain && kinds.is_some_and(|(own, named)| own.kind == named.kind) {
        return true;
    }
    let same = own.food == named.food && own.food.is_some_and(dish);
    // `Big breakfast: 2 eggs, bacon`: a name that is no dish that anybody knows. Of a kind, what
    // is listed is a part of it, unless it is counted out.
    let mere_name = named.certainty <= Certainty::Guess
        && own.certainty > Certainty::Guess
        && (kind_of(name).is_none() || line.amount.is_some());
    same || mere_name
}
