//! What lists of menus sort by another word than the dish: `Wings honey barbecue`, `Tacos spicy shrimp`,
//! `Supreme, large hand tossed slice`.

use super::draft::MenuContext;
use crate::matching::Certainty;
use crate::reading::{MenuLine, parse_menu_line};
use crate::weighing::servings::ServingKind;
use crate::words::words_of;

/// Dishes that stand first so.
const DISHES: [&str; 16] = [
    "soup",
    "wings",
    "taco",
    "burrito",
    "quesadilla",
    "enchilada",
    "fajita",
    "nachos",
    "wrap",
    "sandwich",
    "burger",
    "slider",
    "pizza",
    "omelette",
    "salad",
    "chicken tenders",
];
/// What can stand behind them and is not the dish: its filling or its sauce.
const FILLINGS: [&str; 16] = [
    "add on",
    "sauce",
    "dressing",
    "meat",
    "poultry",
    "steak",
    "ribs",
    "fish",
    "shellfish",
    "egg",
    "breakfast meat",
    "beans",
    "vegetables",
    "fruit",
    "alcoholic drink",
    "surf and turf",
];
/// Words of other tongues that join what stands behind a dish to it.
const JOINTS: [&str; 12] = [
    "de", "del", "al", "alla", "a", "au", "aux", "con", "di", "of", "du", "mit",
];

/// Words of crusts, by which a slice is one of pizza.
const CRUSTS: [&str; 7] = [
    "pan",
    "crust",
    "tossed",
    "deep dish",
    "thin",
    "sicilian",
    "pizza",
];
const SLICES: [&str; 2] = [" slice", " slices"];

/// Whether a text ends in one of some words, whatever the case of its letters; few do.
fn ends_in_any(text: &str, words: &[&str]) -> bool {
    let ends = |word: &&str| {
        let at = text.len().checked_sub(word.len());
        let end = at.and_then(|at| text.as_bytes().get(at..));
        end.is_some_and(|end| end.eq_ignore_ascii_case(word.as_bytes()))
    };
    words.iter().any(ends)
}

/// A slice of pizza whose topping and crust a comma parts; `None` for any other line.
pub(super) fn slice_of_pizza(line: &MenuLine) -> Option<MenuLine> {
    if !ends_in_any(&line.text, &SLICES) {
        return None;
    }
    let lower = line.text.to_lowercase();
    let said = SLICES.iter().find_map(|word| lower.strip_suffix(word))?;
    let crust = said.split_once(',')?.1;
    if !CRUSTS.iter().any(|word| crust.contains(word)) {
        return None;
    }
    let plain = said.replace(',', " ").replace(" pizza", " ");
    let plain: Vec<&str> = plain.split_whitespace().collect();
    Some(parse_menu_line(&format!("{} pizza slice", plain.join(" "))))
}

/// What is said of ribs alone.
const RACKS: [&str; 3] = ["full rack", "half rack", "rack"];

/// `House barbecue - full rack`: a rack that nobody names is one of ribs. `None` for any other line.
pub(super) fn rack_of_ribs(line: &MenuLine) -> Option<MenuLine> {
    if !ends_in_any(&line.text, &RACKS) {
        return None;
    }
    let lower = line.text.to_lowercase();
    let rack = RACKS.iter().find(|rack| lower.ends_with(**rack))?;
    let name = lower
        .strip_suffix(rack)?
        .trim_end_matches(|c: char| !c.is_alphanumeric());
    let named = ["rib", "lamb"].iter().any(|word| lower.contains(word));
    let text = format!("{rack} of {name} ribs");
    (!named).then(|| parse_menu_line(&text.replace("  ", " ")))
}

/// The line with its dish behind what it is made with; `None` where it is none of these, or is known as
/// it stands.
pub(super) fn turned(line: &MenuLine, context: MenuContext<'_>) -> Option<MenuLine> {
    let head = line.head.trim_start_matches(|c: char| c.is_ascii_digit());
    let (first, rest) = head.trim_start().split_once(' ')?;
    let said = words_of(first);
    let (kind, _) = ServingKind::named_at_end(&said)?;
    // By the very name of the dish: `bún` is no sandwich in a bun.
    if words_of(&kind.name).last() != said.last() {
        return None;
    }
    let next = rest.split(' ').next().unwrap_or_default().to_lowercase();
    if !DISHES.contains(&kind.name.as_str())
        || JOINTS.contains(&next.as_str())
        || !next.starts_with(char::is_alphabetic)
    {
        return None;
    }
    let last = ServingKind::named_at_end(&words_of(rest));
    let another =
        ServingKind::named_last(&words_of(rest)).is_some_and(|kind| kind.lies_within(&DISHES));
    let filling = !another && last.is_none_or(|(kind, _)| kind.lies_within(&FILLINGS));
    let known = || {
        let found = context.finds.by_itself(&line.head, context.british);
        let own = found.food.filter(|_| found.certainty > Certainty::Guess);
        let own = own
            .and_then(|id| ServingKind::named_last(&words_of(context.catalogue().food(id).name())));
        own.is_some_and(|own| own.sized_as() == kind.sized_as())
            || (context.known)(&line.head).is_some()
    };
    if !filling || known() {
        return None;
    }
    let written = format!("{first} {rest}");
    let turned = format!("{rest} {}", first.to_lowercase());
    let own = MenuLine {
        offers: Vec::new(),
        ..parse_menu_line(&line.text.replacen(&written, &turned, 1))
    };
    own.head.ends_with(&turned).then_some(own)
}
