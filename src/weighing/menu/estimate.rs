//! From a menu line to its dish: by its name, its description, its words, in each size offered.

use super::described::{lies_beside, names_the_dish, starch_beside, told_where_it_is_served};
use super::draft::{Draft, MenuContext};
use super::halves::{half_behind, share_of_an_order};
use super::joined::{is_poured, parted};
use super::offers::several;
use super::turned::{rack_of_ribs, slice_of_pizza, turned};
use super::wording::without_childrens_words;
use crate::foods::Food;
use crate::reading::{
    LineNotes, MenuLine, MenuPart, PartKind, PhraseRole, Reading, Served, parse_menu_line,
};
use crate::weighing::component::WeighedComponent;
use crate::weighing::kinds::DishKind;
use crate::weighing::request::{Estimated, Request};
use crate::weighing::servings::{Said, ServingKind, ServingText};
use crate::words::words_of;

/// Estimates a menu line.
///
/// A pure function: the tables it reads are built once, at the first call. `served` is what
/// the whole weighs or fills, if that is known.
///
/// Of a line that names a dish and describes it, the name decides where the library knows
/// it, and where the description means no food.
#[must_use]
pub fn estimate_line(
    line: &MenuLine,
    served: Option<Served>,
    request: &Request,
    context: MenuContext<'_>,
) -> Estimated {
    estimate_in_section(line, "", served, request, context)
}

/// As [`estimate_line`], of a line that stands under the heading `section` of a menu: it tells
/// what such servings hold.
#[must_use]
pub fn estimate_in_section(
    line: &MenuLine,
    section: &str,
    served: Option<Served>,
    request: &Request,
    context: MenuContext<'_>,
) -> Estimated {
    let (mut line, written) = as_sorted(line.clone().in_section(section), section, context);
    if served.is_none()
        && let Some(own) = parted(&line, context)
    {
        line = own;
    }
    let one = |line: &MenuLine, served| {
        let text = ServingText::of(line, section);
        estimate_named(line, text, served, request, context)
    };
    let offers = std::mem::take(&mut line.offers);
    let mut estimated = several(&offers, context, &|own: &MenuLine| {
        one(&own.clone().in_section(section), None)
    })
    .filter(|_| served.is_none())
    .unwrap_or_else(|| one(&line, served.clone()));
    let known = by_its_place(&line, section, &estimated, served, context, &one);
    estimated = known.unwrap_or(estimated);
    if written.is_some() {
        estimated.dish.name = written;
    }
    let unknown = estimated
        .dish
        .components
        .iter()
        .any(WeighedComponent::is_unknown_main);
    estimated.dish.read = Some(read_as(&line, unknown));
    estimated.dish.line = LineNotes {
        choices: line.choices.clone(),
        add_ons: line.add_ons.clone(),
        allergens: line.allergens.clone(),
    };
    estimated
}

/// The line with its dish last, where it stands first, and then the name that is written.
fn as_sorted(
    line: MenuLine,
    section: &str,
    context: MenuContext<'_>,
) -> (MenuLine, Option<String>) {
    let own = slice_of_pizza(&line)
        .or_else(|| rack_of_ribs(&line))
        .or_else(|| turned(&line, context));
    let Some(own) = own else {
        return (line, None);
    };
    let written = line.title().to_owned();
    let own = MenuLine {
        reading: line.reading,
        ..own.in_section(section)
    };
    (own, Some(written))
}

/// A thing that its name does not tell, by the heading above it or by what it is measured in.
fn by_its_place(
    line: &MenuLine,
    section: &str,
    estimated: &Estimated,
    served: Option<Served>,
    context: MenuContext<'_>,
    one: &dyn Fn(&MenuLine, Option<Served>) -> Estimated,
) -> Option<Estimated> {
    let unanswered = is_unanswered(estimated);
    let as_a_drink =
        |why: DrinkBy<'_>| drink_by_its_place(line, &why, context, |own: &MenuLine| one(own, None));
    let drink = || {
        let heading = ServingKind::named_last(&words_of(section)).filter(|kind| kind.is_drink());
        let flavour = || ServingKind::named_last(&words_of(&line.head)).is_some_and(is_flavour);
        match heading {
            Some(kind) => as_a_drink(DrinkBy::Under(section, kind)),
            None if (unanswered || flavour()) && is_poured_out(line, section) => {
                as_a_drink(DrinkBy::Measured)
            }
            None => None,
        }
    };
    if served.is_none()
        && (unanswered || !holds_drink(estimated, context))
        && let Some(drink) = drink()
    {
        return Some(drink);
    }
    let its_section = |own: &MenuLine| one(own, served);
    unanswered
        .then(|| as_its_section(line, section, its_section))
        .flatten()
}

/// Doubt about a dish of which only the heading above it is known (own choice): things under one
/// heading differ by half.
const ONLY_ITS_SECTION: f64 = 0.5;

/// Whether nothing is known of a dish, or not its main part.
fn is_unanswered(estimated: &Estimated) -> bool {
    let list = &estimated.dish.components;
    list.iter().any(WeighedComponent::is_unknown_main)
        || list.iter().all(|c| c.matched.food.is_none())
}

/// A dish that nobody knows by its name, as what the heading above it names: under `Boneless
/// wings` are boneless wings. `None` where the heading names no food either.
fn as_its_section(
    line: &MenuLine,
    section: &str,
    one: impl FnOnce(&MenuLine) -> Estimated,
) -> Option<Estimated> {
    if section.trim().is_empty() {
        return None;
    }
    let text = format!("{section}{}", size_behind(line)?.1);
    let mut estimated = one(&parse_menu_line(&text));
    if is_unanswered(&estimated) {
        return None;
    }
    doubt_all(
        &mut estimated,
        &format!("only that it stands under `{section}` is known"),
    );
    estimated.one_serving = false;
    estimated.dish.name = Some(line.title().to_owned());
    estimated.notes.push(format!(
        "`{}` is not known: it is counted as what stands under `{section}`; say what it is made of",
        line.title()
    ));
    Some(estimated)
}

/// Widens all that is answered of a thing of which only its place is known.
fn doubt_all(estimated: &mut Estimated, told: &str) {
    for c in &mut estimated.dish.components {
        c.change(told.to_owned(), |grams| grams.doubted(ONLY_ITS_SECTION));
    }
}

/// The name of a line, and what is said behind it where that tells a size.
fn size_behind(line: &MenuLine) -> Option<(&str, &str)> {
    let reading = &line.reading;
    let name = reading
        .phrases
        .iter()
        .rfind(|phrase| phrase.role == PhraseRole::Name)?;
    let sized = reading.phrases.iter().any(|phrase| {
        phrase.from >= name.to
            && matches!(
                phrase.role,
                PhraseRole::Size | PhraseRole::Amount | PhraseRole::Count | PhraseRole::Part
            )
    });
    let behind = reading.text.get(name.to..).filter(|_| sized);
    let own = reading.text.get(name.from..name.to)?;
    Some((own, behind.unwrap_or_default()))
}

/// Kinds whose names are flavours under a heading of drinks.
const FLAVOURS: [&str; 2] = ["fruit", "vegetables"];
/// What a drink is where its heading says no more than that.
const ANY_DRINK: &str = "soft drink";

/// Why a thing whose name is no drink is one all the same.
enum DrinkBy<'a> {
    /// It stands under a heading of drinks, of this kind.
    Under(&'a str, &'static ServingKind),
    /// It is measured in fluid ounces.
    Measured,
}

/// Fewest fluid ounces that nobody pours of a sauce (own choice).
const LEAST_POURED_FL_OZ: f64 = 8.0;

/// Whether so many fluid ounces are said of it as only drinks and soups have.
fn is_poured_out(line: &MenuLine, section: &str) -> bool {
    let stated = Said::read(ServingText::of(line, section)).stated;
    stated
        .fluid_ounces
        .is_some_and(|fl_oz| fl_oz >= LEAST_POURED_FL_OZ)
}

/// Whether a kind's name is a flavour where drinks are meant.
fn is_flavour(kind: &ServingKind) -> bool {
    kind.lies_within(&FLAVOURS)
}

/// A thing whose name is no drink where drinks are meant: `White` under `Wine` is white wine,
/// `Strawberry` under `Smoothies` a strawberry smoothie.
fn drink_by_its_place(
    line: &MenuLine,
    why: &DrinkBy<'_>,
    context: MenuContext<'_>,
    one: impl Fn(&MenuLine) -> Estimated,
) -> Option<Estimated> {
    let own = ServingKind::named_last(&words_of(&line.head));
    if line.head.is_empty() || !own.is_none_or(is_flavour) {
        return None;
    }
    let (name, behind) = size_behind(line)?;
    let (kind, told) = match why {
        DrinkBy::Under(section, kind) => (Some(*kind), format!("stands under `{section}`")),
        DrinkBy::Measured => (None, "is measured in fluid ounces".to_owned()),
    };
    // A `drink` with a name that nobody knows is no cocktail, though a mixed drink is one.
    let kind = kind.filter(|kind| !kind.is_any_drink());
    let kind = kind.map_or(ANY_DRINK, |kind| kind.name.as_str());
    let texts = [
        format!("{name} {kind}{behind}"),
        format!("{kind}{behind}"),
        format!("{ANY_DRINK}{behind}"),
    ];
    let mut answers = texts.iter().map(|text| one(&parse_menu_line(text)));
    let mut estimated = answers.find(|own| holds_drink(own, context))?;
    let title = line.title().to_owned();
    // Nothing was found of the name itself.
    let unknown = kind == ANY_DRINK && holds_any_drink(&estimated, context);
    let note = if unknown {
        doubt_all(&mut estimated, &format!("only that it {told} is known"));
        format!("`{title}` is not known and {told}: it is counted as a {ANY_DRINK}; say what it is")
    } else {
        format!("`{title}` {told}: it is counted as a drink")
    };
    estimated.notes.push(note);
    estimated.dish.name = Some(title);
    Some(estimated)
}

/// Whether an answer says no more than that it is some soft drink.
fn holds_any_drink(estimated: &Estimated, context: MenuContext<'_>) -> bool {
    holds(estimated, context, |food| food.name() == ANY_DRINK)
}

/// Whether a part of an answer is a drink.
fn holds_drink(estimated: &Estimated, context: MenuContext<'_>) -> bool {
    holds(estimated, context, is_poured)
}

fn holds(estimated: &Estimated, context: MenuContext<'_>, is: impl Fn(Food<'_>) -> bool) -> bool {
    let list = &estimated.dish.components;
    let mut foods = list.iter().filter_map(|c| c.matched.food);
    foods.any(|id| is(context.catalogue().food(id)))
}

/// What each phrase says; the name of a dish that nobody knows is unknown.
fn read_as(line: &MenuLine, unknown: bool) -> Reading {
    let mut read = line.reading.clone();
    for phrase in &mut read.phrases {
        if unknown && phrase.role == PhraseRole::Name {
            phrase.role = PhraseRole::Unknown;
        }
    }
    read
}

fn estimate_named(
    line: &MenuLine,
    text: ServingText<'_>,
    served: Option<Served>,
    request: &Request,
    context: MenuContext<'_>,
) -> Estimated {
    let estimate_words =
        |line: &MenuLine, served| estimate_words(line, text, served, request, context);
    if line.name.is_empty() {
        return estimate_words(line, served);
    }
    // A dish that the library knows by name is known better than its description tells.
    if let Some(dish) = (context.known)(&line.name)
        && let Some(mut plain) = line.by_name()
    {
        plain.parts.extend(starch_beside(&dish, line, context));
        return estimate_words(&plain, served);
    }
    if let Some(plain) = line.by_description() {
        if let Some(plain) = told_where_it_is_served(line, &plain, context) {
            return estimate_words(&plain, served);
        }
        if names_the_dish(&plain, &line.name, context) {
            let beside = lies_beside(line, &plain, context);
            return estimate_words(beside.as_ref().unwrap_or(&plain), served);
        }
    }
    let estimated = estimate_words(line, served.clone());
    let food = |c: &WeighedComponent| c.matched.food.is_some();
    if estimated.dish.components.iter().any(food) {
        return estimated;
    }
    match line.by_name() {
        Some(plain) => estimate_words(&plain, served),
        None => estimated,
    }
}

fn estimate_words(
    line: &MenuLine,
    text: ServingText<'_>,
    served: Option<Served>,
    request: &Request,
    context: MenuContext<'_>,
) -> Estimated {
    let mut draft = Draft::new(line, context);
    let plain = without_childrens_words(line);
    let plain = plain.as_ref().unwrap_or(line);
    let shared = share_of_an_order(plain)
        .or_else(|| draft.share_of_whole(plain))
        .or_else(|| half_behind(plain));
    let parts = draft.begin(shared.as_ref().map_or(plain, |(_, whole)| whole));
    if let Some(choice) = Draft::head_options(line) {
        let part = draft.begin_choice(&choice);
        let told = format!("one of {}", choice.options.join(", "));
        for option in &choice.options {
            let own = estimate_words(&parse_menu_line(option), text, None, request, context);
            draft.take_option(own.dish.components, part, &told);
        }
    }
    // What is served is stated as it lies there; else a change is one to the dish as it is served.
    let before = served.is_some();
    let (changes, own): (Vec<&MenuPart>, Vec<&MenuPart>) = parts
        .into_iter()
        .partition(|part| !before && is_change(&part.what));
    draft.take_parts(line, &own, shared.as_ref().filter(|_| before));
    let main = draft.main.len();
    let one_serving = !before
        && shared.is_none()
        && changes.is_empty()
        && draft.sides.is_empty()
        && draft.options.is_empty()
        && line.serving.feeds.is_none();
    let whole = shared.as_ref().map(|(_, whole)| whole);
    let text = told_of(text, line, whole, draft.list_kind, &changes);
    let mut dish = draft.served(line, served, request, text);
    if !before {
        let share = shared.as_ref().map(|(share, _)| *share);
        draft.change_dish(&mut dish, main, share, &changes);
        draft.feed(&mut dish, line);
    }
    Estimated {
        one_serving: one_serving && dish.served.is_none(),
        dish,
        notes: draft.notes,
    }
}

/// What the words say of the serving: of the whole of which a share is served, of what foods make that
/// are listed; what is changed says nothing of how much is served.
fn told_of<'t>(
    text: ServingText<'t>,
    line: &'t MenuLine,
    whole: Option<&'t MenuLine>,
    list_kind: Option<&'static DishKind>,
    changes: &[&MenuPart],
) -> ServingText<'t> {
    let name = match (whole, list_kind) {
        // `Full rack of ribs`, of which a half is served.
        (Some(whole), _) if whole.text != line.text => &whole.text,
        (Some(whole), _) => &whole.head,
        (None, _) if !changes.is_empty() && line.name.is_empty() => &line.main,
        (None, Some(kind)) => &kind.name,
        (None, None) => text.name,
    };
    ServingText { name, ..text }
}

/// Whether a part changes the dish as it is served.
fn is_change(what: &PartKind) -> bool {
    !matches!(what, PartKind::Named | PartKind::Under | PartKind::Side)
}
