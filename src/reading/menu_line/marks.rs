//! What a menu prints beside its food: energy, allergens, marks of diets, how many it feeds.

use super::lexer::Lexed;
use crate::reading::phrase::PhraseRole;

/// Kilojoules in a kilocalorie (thermochemical).
const KJ_PER_KCAL: f64 = 4.184;
/// No dish has more, kcal.
const MOST_KCAL: f64 = 20_000.0;

/// Energy that a line prints, kcal: low and high.
pub(super) type Printed = (f64, f64);

/// Claims energy, allergen notes, yields and tags; returns the energy printed.
pub(super) fn claim_marks(line: &mut Lexed<'_>) -> Option<Printed> {
    let mut printed: Option<Printed> = None;
    let mut at = 0;
    while at < line.len() {
        if line.claimed(at) {
            at += 1;
            continue;
        }
        if let Some((value, next)) = energy(line, at) {
            line.claim(PhraseRole::PrintedEnergy, at, next);
            printed =
                Some(printed.map_or(value, |(low, high)| (low.min(value.0), high.max(value.1))));
            at = next;
        } else if let Some(next) = allergens(line, at) {
            line.claim(PhraseRole::Allergen, at, next);
            at = next;
        } else if let Some(next) = serves(line, at) {
            line.claim(PhraseRole::Yield, at, next);
            at = next;
        } else if let Some(next) = bracketed_tags(line, at).or_else(|| tag(line, at)) {
            at = next;
        } else {
            at += 1;
        }
    }
    printed
}

const CALORIES: [&str; 6] = ["cal", "cals", "calories", "calorie", "kcal", "kcals"];
const KILOJOULES: [&str; 3] = ["kj", "kilojoules", "kilojoule"];

/// kcal in one of the unit at `at`.
fn energy_unit(line: &Lexed<'_>, at: usize) -> Option<f64> {
    if line.any(at, &CALORIES) {
        Some(1.0)
    } else {
        line.any(at, &KILOJOULES).then_some(1.0 / KJ_PER_KCAL)
    }
}

/// `650 cal`, `450-900 cal`, `2510kJ/600kcal`, `Calories 540`: kcal, and the token behind.
fn energy(line: &Lexed<'_>, at: usize) -> Option<(Printed, usize)> {
    if let Some(each) = energy_unit(line, at) {
        let figure = at + 1 + usize::from(line.mark(at + 1) == Some(':'));
        let value = line.number(figure)? * each;
        // `100 calorie 3 cheese` is a stretch; `Calories 540` and `kcal: 540` are how it is printed.
        return ((40.0..=MOST_KCAL).contains(&value)).then_some(((value, value), figure + 1));
    }
    let low = line.number(at)?;
    let mut high = low;
    let mut next = at + 1;
    let joins = line.is_mark(next, &['-', '\u{2013}', '/']) || line.is(next, "to");
    if joins && line.number(next + 1).is_some() && energy_unit(line, next + 2).is_some() {
        high = line.number(next + 1).unwrap_or(low);
        next += 2;
    }
    let each = energy_unit(line, next)?;
    next += 1;
    // The same energy in the other unit says nothing new.
    if line.is_mark(next, &['/']) && line.number(next + 1).is_some() {
        let other = energy_unit(line, next + 2).filter(|other| (other - each).abs() > 0.1);
        next += if other.is_some() { 3 } else { 0 };
    }
    let value = (low.min(high) * each, low.max(high) * each);
    (value.1 <= MOST_KCAL).then_some((value, next))
}

/// What people cannot eat, as menus name it (the major food allergens of the US Food Allergen
/// Labeling and Consumer Protection Act and of EU Regulation 1169/2011, and their usual words).
const ALLERGENS: [&str; 51] = [
    "nut",
    "nuts",
    "tree",
    "peanut",
    "peanuts",
    "walnut",
    "walnuts",
    "almond",
    "almonds",
    "pecan",
    "pecans",
    "cashew",
    "cashews",
    "hazelnut",
    "hazelnuts",
    "pistachio",
    "pistachios",
    "dairy",
    "milk",
    "lactose",
    "gluten",
    "wheat",
    "egg",
    "eggs",
    "soy",
    "soya",
    "soybean",
    "soybeans",
    "sesame",
    "fish",
    "shellfish",
    "crustacean",
    "crustaceans",
    "molluscs",
    "mollusks",
    "shrimp",
    "crab",
    "celery",
    "mustard",
    "sulphites",
    "sulfites",
    "lupin",
    "alcohol",
    "pork",
    "raw",
    "traces",
    "trace",
    "of",
    "and",
    "or",
    "cereals",
];

/// `contains nuts`, `may contain traces of peanuts`, `allergens: milk, eggs`.
fn allergens(line: &Lexed<'_>, at: usize) -> Option<usize> {
    const OPENING: [&str; 10] = [
        "may contain",
        "contains",
        "contain",
        "allergens",
        "allergen",
        "allergy advice",
        "allergy",
        "made with nuts",
        "processed with nuts",
        "allergen info",
    ];
    let mut next = line.longest(at, &OPENING)?;
    if line.is_mark(next, &[':', '-']) {
        next += 1;
    }
    let start = next;
    while next < line.len() {
        let joined = line.is_mark(next, &[',', '/', '&']) && line.any(next + 1, &ALLERGENS);
        let sulphite = line.is_mark(next, &['-']) && line.glued(next);
        if line.any(next, &ALLERGENS) || joined || sulphite {
            next += 1;
        } else {
            break;
        }
    }
    // `contains` before anything else is a description; `allergens` alone is a heading.
    (next > start || line.is(at, "allergens")).then_some(next)
}

/// `serves 2`, `serves 4-6`, `for two`, `per person`.
fn serves(line: &Lexed<'_>, at: usize) -> Option<usize> {
    let people = |at: usize| line.any(at, &["people", "persons", "person", "guests", "ppl"]);
    let shared = line.longest(
        at,
        &[
            "per person",
            "per head",
            "to share",
            "for sharing",
            "for the table",
            "each person",
        ],
    );
    if let Some(next) = shared.filter(|_| at > 0) {
        return Some(next);
    }
    if super::prices::counts_for_price(line, at) {
        return None;
    }
    if line.any(at, &["serves", "feeds", "serving", "for", "minimum"]) {
        let mut next = people_count(line, at + 1)?;
        let range = line.is_mark(next, &['-', '\u{2013}']) || line.any(next, &["to", "or"]);
        if range && people_count(line, next + 1).is_some() {
            next += 2;
        }
        let said = people(next);
        next += usize::from(said);
        let feeding = line.any(at, &["serves", "feeds"]);
        return (feeding || said || line.ends(next) || line.number(next).is_some()).then_some(next);
    }
    None
}

fn people_count(line: &Lexed<'_>, at: usize) -> Option<usize> {
    let small = line
        .number(at)
        .is_some_and(|n| n <= 100.0 && n.fract() == 0.0);
    (small
        || line.any(
            at,
            &["one", "two", "three", "four", "five", "six", "eight", "ten"],
        ))
    .then_some(at + 1)
}

/// Codes that only stand in brackets or in capitals.
const CODES: [&str; 30] = [
    "v",
    "vg",
    "ve",
    "vgn",
    "veg",
    "vo",
    "vgo",
    "veo",
    "gf",
    "gfo",
    "gfa",
    "df",
    "dfo",
    "nf",
    "n",
    "d",
    "g",
    "s",
    "h",
    "k",
    "m",
    "sf",
    "lf",
    "ef",
    "p",
    "vv",
    "vegan",
    "vegetarian",
    "spicy",
    "new",
];
/// Codes that are tags in capitals without brackets as well.
const BARE_CODES: [&str; 15] = [
    "V", "VG", "VE", "VGN", "VO", "VGO", "VEO", "GF", "GFO", "GFA", "DF", "NF", "VV", "SF", "LF",
];
/// Phrases that are tags in brackets.
const IN_BRACKETS: [&str; 25] = [
    "gluten free",
    "dairy free",
    "nut free",
    "lactose free",
    "egg free",
    "soy free",
    "plant based",
    "ve available",
    "v available",
    "gf available",
    "vegan available",
    "vegetarian available",
    "vegan option",
    "vegetarian option",
    "gf option",
    "gluten free option",
    "gluten free available",
    "spicy",
    "mild",
    "very spicy",
    "hot",
    "medium spicy",
    "seasonal",
    "when available",
    "can be made gluten free",
];

/// `(V)`, `(vg, gf)`, `[ve available]`: every code in the bracket, the bracket itself filler.
fn bracketed_tags(line: &mut Lexed<'_>, open: usize) -> Option<usize> {
    if !line.is_mark(open, &['(', '[']) {
        return None;
    }
    let close = line.closes(open)?;
    let mut at = open + 1;
    let mut found = Vec::new();
    while at < close {
        if line.is_mark(at, &[',', '/', '+', '&', ';', '|', '\u{b7}', '.', '!'])
            || line.any(at, &["and", "or"])
        {
            at += 1;
            continue;
        }
        // `(vg option)`, `(gf available)`: what a code is followed by.
        if !found.is_empty() && line.any(at, &OFFERED) {
            found.push((at, at + 1));
            at += 1;
            continue;
        }
        let next = line
            .longest(at, &IN_BRACKETS)
            .or_else(|| line.any(at, &CODES).then_some(at + 1))
            .or_else(|| is_allergen_letter(line, at).then_some(at + 1))
            .or_else(|| word_tag(line, at))
            .or_else(|| is_sign(line, at).then_some(at + 1))?;
        found.push((at, next));
        at = next;
    }
    if found.is_empty() {
        return None;
    }
    line.claim(PhraseRole::Filler, open, open + 1);
    line.claim(PhraseRole::Filler, close, close + 1);
    for (from, to) in found {
        line.claim(PhraseRole::Tag, from, to);
    }
    Some(close + 1)
}

/// `(A,C,G)`: a capital letter in brackets stands for an allergen in a list of the house.
fn is_allergen_letter(line: &Lexed<'_>, at: usize) -> bool {
    let mut letters = line.slice(at, at + 1).chars();
    letters.next().is_some_and(|c| c.is_ascii_uppercase()) && letters.next().is_none()
}

/// Words behind a code in brackets: the dish can be had so.
const OFFERED: [&str; 7] = [
    "option",
    "options",
    "optional",
    "available",
    "possible",
    "upon",
    "request",
];

/// Phrases that adorn wherever they stand.
const ADORNING: [&str; 70] = [
    "vom kalb",
    "vom rind",
    "vom schwein",
    "vom lamm",
    "vom huhn",
    "vom grill",
    "hausgemacht",
    "hausgemachte",
    "house favourite",
    "house favorite",
    "house special",
    "house specialty",
    "house speciality",
    "chef's favourite",
    "chef's favorite",
    "chef's special",
    "chef's choice",
    "chef recommends",
    "chef recommended",
    "guest favorite",
    "guest favourite",
    "fan favorite",
    "fan favourite",
    "customer favorite",
    "local favorite",
    "best seller",
    "bestseller",
    "best selling",
    "most popular",
    "staff pick",
    "limited time only",
    "limited time",
    "for a limited time",
    "while supplies last",
    "while it lasts",
    "served all day",
    "available all day",
    "all day",
    "award winning",
    "locally sourced",
    "sustainably sourced",
    "sustainable",
    "organic",
    "halal",
    "kosher",
    "gluten free",
    "dairy free",
    "nut free",
    "lactose free",
    "egg free",
    "soy free",
    "plant based",
    "wild caught",
    "grass fed",
    "cage free",
    "free range",
    "farm to table",
    "made to order",
    "made fresh daily",
    "baked daily",
    "freshly baked daily",
    "hormone free",
    "antibiotic free",
    "line caught",
    "ask your server",
    "when available",
    "subject to availability",
    "seasonal",
    "suitable for vegans",
    "suitable for vegetarians",
];
/// Words that are tags as a part of the line by themselves.
const BY_THEMSELVES: [&str; 12] = [
    "new",
    "vegan",
    "vegetarian",
    "veggie",
    "spicy",
    "popular",
    "favorite",
    "favourite",
    "healthy",
    "signature",
    "mild",
    "limited",
];

/// A tag at `at`, claimed; the token behind it.
fn tag(line: &mut Lexed<'_>, at: usize) -> Option<usize> {
    if is_sign(line, at) {
        let mut next = at + 1;
        while is_sign(line, next) && line.glued(next) {
            next += 1;
        }
        line.claim(PhraseRole::Tag, at, next);
        return Some(next);
    }
    let next = word_tag(line, at)?;
    line.claim(PhraseRole::Tag, at, next);
    Some(next)
}

fn word_tag(line: &Lexed<'_>, at: usize) -> Option<usize> {
    if let Some(next) = advisory(line, at) {
        return Some(next);
    }
    if let Some(next) = line.longest(at, &ADORNING) {
        return Some(next);
    }
    if is_new(line, at) {
        let shout = usize::from(line.mark(at + 1) == Some('!'));
        return Some(at + 1 + shout);
    }
    if line.begins(at) && at > 0 && line.any(at, &BY_THEMSELVES) {
        let shout = usize::from(line.mark(at + 1) == Some('!'));
        return line.ends(at + 1 + shout).then_some(at + 1 + shout);
    }
    // `Garden salad GF 9`: capitals behind a name.
    let bare = at > 0 && line.is_word(at) && BARE_CODES.contains(&line.slice(at, at + 1));
    bare.then_some(at + 1)
}

/// `new!`, `NEW Fish sandwich`: no New York strip, no new potatoes.
fn is_new(line: &Lexed<'_>, at: usize) -> bool {
    if !line.is(at, "new") {
        return false;
    }
    let places = [
        "york", "england", "orleans", "zealand", "mexico", "delhi", "haven", "jersey", "world",
    ];
    let foods = ["potato", "potatoes", "season"];
    let shouted = line.mark(at + 1) == Some('!');
    let capitals = line.slice(at, at + 1) == "NEW"
        && at == 0
        && line.slice(at + 1, at + 2) != line.slice(at + 1, at + 2).to_uppercase();
    let colon = line.mark(at + 1) == Some(':');
    shouted || colon || (capitals && !line.any(at + 1, &places) && !line.any(at + 1, &foods))
}

/// `consuming raw or undercooked ... may increase your risk of foodborne illness`.
fn advisory(line: &Lexed<'_>, at: usize) -> Option<usize> {
    let start = line.longest(
        at,
        &[
            "consuming raw",
            "consumption of raw",
            "consumer advisory",
            "these items may be served raw",
        ],
    )?;
    let end = (start..line.len()).find(|at| {
        line.any(*at, &["illness", "illnesses"]) || line.is_mark(*at, &[')', ']', '\n'])
    });
    Some(match end {
        Some(at) if line.is_word(at) => at + 1,
        Some(at) => at,
        None => line.len(),
    })
}

/// Signs that mark a dish: asterisks, daggers, pictures.
fn is_sign(line: &Lexed<'_>, at: usize) -> bool {
    let Some(mark) = line.mark(at) else {
        return false;
    };
    if mark == '*' {
        // `2 * 30 g`: a product.
        return !(line.number(at + 1).is_some() && at > 0 && line.number(at - 1).is_some());
    }
    matches!(mark,
        '\u{2020}' | '\u{2021}' | '\u{a7}' | '\u{b6}' | '\u{2605}' | '\u{2606}' | '\u{2713}' | '\u{2714}' | '\u{2665}' | '\u{2764}'
        | '\u{ae}' | '\u{2122}' | '\u{a9}' | '\u{2120}' | '\u{fe0f}' | '\u{200d}' | '\u{2600}'..='\u{26ff}' | '\u{24b6}'..='\u{24e9}'
        | '\u{1f000}'..='\u{1faff}' | '\u{2b50}' | '^' | '~')
        && !(mark == '~' && line.number(at + 1).is_some())
}
