//! Which components of a dish come off the plate together: nobody leaves the oil of a
//! stir-fry or two bites of the bun, but anybody leaves half the burger.
//!
//! What is here is common practice at the table, read from the kind and name of the dish,
//! the family of each food and the note beside it.

use crate::foods::{Food, Trait};
use crate::reading::Dish;
use crate::words;

/// How a component is eaten.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Bond {
    /// By itself.
    Own,
    /// Cut or poured as one with the others that are so.
    Joint,
    /// Sticks to the rest: oil, seasoning, the sauce of a stir-fry.
    Along,
}

/// What is cut or poured as one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Whole {
    /// What one of it is called.
    pub label: &'static str,
    /// How it is divided.
    pub divided: Divided,
}

/// How something whole is divided.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Divided {
    /// Cut: whole pieces, halves or quarters by weight.
    Pieces,
    /// The same, and what is inside can be eaten without all of its bread or tortilla.
    Opened,
    /// Cut into eight slices, common practice for a round pizza.
    Slices,
    /// Poured.
    Cups,
    /// Drunk.
    FluidOunces,
}

const fn whole(label: &'static str, divided: Divided) -> Whole {
    Whole { label, divided }
}

/// Words in a dish's kind, then in its name, that say it is one thing.
const WHOLES: [(&str, Whole); 27] = [
    ("soup", whole("soup", Divided::Cups)),
    ("chowder", whole("soup", Divided::Cups)),
    ("chili", whole("chili", Divided::Cups)),
    ("drink", whole("drink", Divided::FluidOunces)),
    ("smoothie", whole("smoothie", Divided::FluidOunces)),
    ("milkshake", whole("milkshake", Divided::FluidOunces)),
    ("cocktail", whole("drink", Divided::FluidOunces)),
    ("pizza", whole("pizza", Divided::Slices)),
    ("burger", whole("burger", Divided::Opened)),
    ("hamburger", whole("burger", Divided::Opened)),
    ("cheeseburger", whole("burger", Divided::Opened)),
    ("sandwich", whole("sandwich", Divided::Opened)),
    ("hoagie", whole("sandwich", Divided::Opened)),
    ("panini", whole("sandwich", Divided::Opened)),
    ("melt", whole("sandwich", Divided::Opened)),
    ("gyro", whole("gyro", Divided::Opened)),
    ("wrap", whole("wrap", Divided::Opened)),
    ("burrito", whole("burrito", Divided::Opened)),
    ("quesadilla", whole("quesadilla", Divided::Pieces)),
    ("enchilada", whole("enchilada", Divided::Pieces)),
    ("taco", whole("taco", Divided::Opened)),
    ("lasagna", whole("lasagne", Divided::Pieces)),
    ("lasagne", whole("lasagne", Divided::Pieces)),
    ("moussaka", whole("moussaka", Divided::Pieces)),
    ("casserole", whole("casserole", Divided::Cups)),
    ("roll", whole("roll", Divided::Pieces)),
    ("toast", whole("toast", Divided::Pieces)),
];

/// Words that say its parts lie side by side whatever else it is called.
const APART: [&str; 5] = ["salad", "bowl", "plate", "platter", "set"];

/// Kinds whose sauce is mixed in.
const SAUCED: [&str; 8] = [
    "curry",
    "stir-fry",
    "stir",
    "noodle",
    "pasta",
    "rice",
    "stew",
    "casserole",
];

/// Sorts of dish whose small parts are eaten in their own way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Style {
    Salad,
    Dessert,
    Side,
    Other,
}

/// What a dish is like.
#[derive(Debug)]
pub(super) struct Build {
    /// The dish or part of it that is one thing.
    pub whole: Option<Whole>,
    sauced: bool,
    curry: bool,
    style: Style,
    words: Vec<String>,
}

impl Build {
    pub(crate) fn of<C>(dish: &Dish<C>) -> Self {
        let kind = words::words(dish.kind.as_deref().unwrap_or(""));
        let name = words::words(dish.name.as_deref().unwrap_or(""));
        let says = |list: &[String], word: &str| list.iter().any(|w| same(w, word));
        let in_kind = |word: &str| says(&kind, word);
        let find = |list: &[String]| {
            let mut all = WHOLES.iter();
            all.find(|(word, _)| says(list, word)).map(|(_, w)| *w)
        };
        // The kind leads; a plate of several things is whole only by its kind.
        let apart = APART.iter().any(|w| in_kind(w));
        let mixed = kind.is_empty() || in_kind("mixed") || in_kind("pasta") || in_kind("sushi");
        let side = |w: &Whole| w.divided == Divided::Cups || w.label == "toast";
        let whole = find(&kind)
            .filter(|_| !apart)
            .or_else(|| find(&name).filter(|w| mixed && !side(w)))
            .filter(|w| w.label != "roll" || in_kind("sushi"))
            .filter(|_| !says(&name, "set"));
        let style = match () {
            () if in_kind("salad") || says(&name, "salad") => Style::Salad,
            () if in_kind("dessert") => Style::Dessert,
            () if in_kind("side") => Style::Side,
            () => Style::Other,
        };
        Self {
            whole,
            sauced: SAUCED.iter().any(|w| in_kind(w)) || says(&name, "curry"),
            curry: in_kind("curry") || says(&name, "curry"),
            style,
            words: name,
        }
    }

    /// Whether it is no dessert and no drink.
    pub(crate) fn is_savoury(&self) -> bool {
        let drunk = self
            .whole
            .is_some_and(|w| w.divided == Divided::FluidOunces);
        self.style != Style::Dessert && !drunk
    }

    fn names(&self, word: &str) -> bool {
        self.words.iter().any(|w| same(w, word))
    }
}

/// Equal but for a plural.
fn same(a: &str, b: &str) -> bool {
    a == b || a.strip_suffix('s') == Some(b) || a.strip_suffix("es") == Some(b)
}

/// One component as seen here.
#[derive(Debug, Clone, Copy)]
pub(super) struct Seen<'a> {
    pub food: Food<'a>,
    pub words: &'a str,
    pub note: Option<&'a str>,
    pub grams: f64,
    pub energy_kcal: f64,
    /// Nobody wrote it; cooking words imply it.
    pub hidden: bool,
    /// Protein foods, vegetables, fruit and free foods.
    pub keep_first: bool,
}

/// What is opened is opened when at least this part of its filling is kept first, by weight:
/// a chicken sandwich, not a cheese toastie. Own choice.
const OPENED_FROM: f64 = 0.5;

/// A sauce that is a vegetable by itself is spooned up from this weight on, grams. Own choice.
const SPOONED_FROM_G: f64 = 50.0;

/// The bond of each component.
pub(super) fn bonds(build: &Build, all: &[Seen<'_>]) -> Vec<Bond> {
    let mut bonds: Vec<Bond> = all.iter().map(|seen| bond(build, seen, all)).collect();
    // Cream, yolk and sugar with nothing to stick to are one thing.
    if bonds.iter().all(|b| *b == Bond::Along) {
        bonds.fill(Bond::Joint);
    }
    if build.whole.is_some_and(|w| w.divided == Divided::Opened) {
        open(&mut bonds, all);
    }
    bonds
}

/// Takes bread, tortillas and rice apart from a filling that is kept first.
fn open(bonds: &mut [Bond], all: &[Seen<'_>]) {
    let around = |seen: &Seen<'_>| {
        let bread = matches!(seen.food.family(), "bread" | "tortilla");
        bread || seen.food.has(Trait::Starch) && !seen.keep_first
    };
    let joint = bonds.iter().zip(all).filter(|(b, _)| **b == Bond::Joint);
    let inside: Vec<&Seen<'_>> = joint.map(|(_, s)| s).filter(|s| !around(s)).collect();
    let grams = |first: bool| -> f64 {
        let some = inside.iter().filter(|s| s.keep_first || !first);
        some.map(|s| s.grams).sum()
    };
    if grams(false) <= 0.0 || grams(true) < OPENED_FROM * grams(false) {
        return;
    }
    for (bond, seen) in bonds.iter_mut().zip(all) {
        if *bond == Bond::Joint && around(seen) {
            *bond = Bond::Own;
        }
    }
}

fn bond(build: &Build, seen: &Seen<'_>, all: &[Seen<'_>]) -> Bond {
    if let Some(whole) = build.whole {
        return if beside(build, whole, seen, all) {
            Bond::Own
        } else {
            Bond::Joint
        };
    }
    if build.style == Style::Dessert
        && !build.names("with")
        && !build.names("sundae")
        && all.len() > 1
    {
        return Bond::Joint;
    }
    // A baked potato with what is on it, beans with butter; not a basket of bread.
    if build.style == Style::Side && !build.names("basket") && all.len() > 1 {
        return Bond::Joint;
    }
    if sticks(build, seen) {
        Bond::Along
    } else {
        Bond::Own
    }
}

/// Whether a component lies beside what is whole.
fn beside(build: &Build, whole: Whole, seen: &Seen<'_>, all: &[Seen<'_>]) -> bool {
    let family = seen.food.family();
    let name = seen.food.name();
    let has_bread = || all.iter().any(|s| s.food.family() == "bread");
    match whole.divided {
        Divided::Cups => {
            let on_top = build.names("onion") || build.names("lasagne");
            seen.food.has(Trait::Bread) && !on_top || family == "fat" && has_bread() && !on_top
        }
        Divided::FluidOunces | Divided::Slices => false,
        Divided::Pieces | Divided::Opened => {
            let wrapped = build.names("breakfast") || whole.label == "burrito";
            let side = seen.food.has(Trait::Side) && !wrapped;
            let aside = ["fries", "onion rings", "slaw", "salad, no dressing"];
            let fries = aside.iter().any(|w| name.contains(w));
            let open = matches!(whole.label, "quesadilla" | "enchilada" | "pupusa");
            let dip = seen.food.has(Trait::Dip) || name == "guacamole";
            let starch = seen.food.has(Trait::Starch) || name.contains("beans");
            let in_it = name.contains("enchilada") || name.contains("oil");
            side || fries || open && !in_it && (dip || starch) || whole.label == "taco" && starch
        }
    }
}

/// Below both a component is a garnish, grams and kcal. Own choice.
const GARNISH: (f64, f64) = (10.0, 15.0);

/// A broth this large is drunk or left, not stuck to the noodles, grams.
const BROTH_FROM_G: f64 = 100.0;

fn sticks(build: &Build, seen: &Seen<'_>) -> bool {
    let (family, name) = (seen.food.family(), seen.food.name());
    let note = seen.note.unwrap_or("");
    if matches!(family, "seasoning" | "water") && build.style != Style::Salad {
        return true;
    }
    if seen.hidden || seen.grams < GARNISH.0 && seen.energy_kcal < GARNISH.1 {
        return true;
    }
    let worked_in = [
        "for the",
        "in the",
        "held by",
        "taken up",
        "marinade",
        "tossed in",
        "stands for",
    ];
    if worked_in.iter().any(|w| note.contains(w)) {
        return true;
    }
    let oil = name.ends_with(" oil") && !name.contains(',')
        || matches!(name, "ghee" | "lard" | "shortening");
    if oil && build.style != Style::Salad {
        return true;
    }
    let cooked_in = |part: &str| name.contains(part) || seen.words.contains(part);
    let garlic = name == "garlic" || name.starts_with("garlic,");
    let spooned = seen.keep_first && seen.grams >= SPOONED_FROM_G && !build.curry;
    build.sauced
        && !spooned
        && (garlic
            || seen.food.has(Trait::Sticks) && !(family == "soup" && seen.grams >= BROTH_FROM_G)
            || [
                "tomato puree",
                "coconut milk",
                "cornstarch",
                "wine",
                "grated",
                "parmesan",
            ]
            .iter()
            .any(|w| cooked_in(w))
            || build.curry && ["onion", "tomato"].iter().any(|w| cooked_in(w)))
}

/// Whether a component carries none of what sticks: rice and bread beside a curry.
pub(super) fn stays_plain(build: &Build, seen: &Seen<'_>) -> bool {
    let family = seen.food.family();
    let bread = seen.food.has(Trait::Bread) || family == "soup";
    let rice = family == "rice" || seen.food.name().contains("rice");
    let rice_apart = build.names("with") || build.words.is_empty();
    build.sauced && (bread || rice && rice_apart)
}
