//! Which components of a dish come off the plate together: nobody leaves the oil of a
//! stir-fry or two bites of the bun, but anybody leaves half the burger.
//!
//! What is here is common practice at the table, read from the kind and name of the dish,
//! the family of each food and the note beside it.

use crate::foods::{Food, Trait};
use crate::reading::Dish;
use crate::words;
use std::sync::LazyLock;

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
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
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
    #[serde(rename = "fluid ounces")]
    FluidOunces,
}

/// What the words of a dish's kind and name say of how it is eaten (common practice at the
/// table): `whole`, one thing with a label; `apart`, its parts lie side by side whatever else it
/// is called; `sauced`, its sauce is mixed in.
const BUILDS: &str = include_str!("tables/builds.csv");

#[derive(serde::Deserialize)]
struct Row {
    word: String,
    what: What,
    label: String,
    divided: Option<Divided>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
enum What {
    Whole,
    Apart,
    Sauced,
}

static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| words::rows(BUILDS));

/// The words of one sort.
fn builds(what: What) -> impl Iterator<Item = &'static Row> {
    ROWS.iter().filter(move |row| row.what == what)
}

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
            let row = builds(What::Whole).find(|row| says(list, &row.word))?;
            let divided = row.divided?;
            Some(Whole {
                label: &row.label,
                divided,
            })
        };
        // The kind leads; a plate of several things is whole only by its kind.
        let apart = builds(What::Apart).any(|row| in_kind(&row.word));
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
            sauced: builds(What::Sauced).any(|row| in_kind(&row.word)) || says(&name, "curry"),
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
    /// Goes along with the rest, as its dish says.
    pub goes_along: bool,
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
            let aside = seen.food.is_named(Trait::Side) && !seen.food.has(Trait::Side);
            let open = matches!(whole.label, "quesadilla" | "enchilada" | "pupusa");
            let in_it = [Trait::InIt, Trait::CookedIn];
            let in_it = in_it.iter().any(|t| seen.food.is_named(*t));
            let dip = seen.food.is_named(Trait::Dip) && !in_it;
            let starch = seen.food.is_named(Trait::Starch);
            side || aside || open && (dip || starch) || whole.label == "taco" && starch
        }
    }
}

/// Below both a component is a garnish, grams and kcal. Own choice.
const GARNISH: (f64, f64) = (10.0, 15.0);

/// A broth this large is drunk or left, not stuck to the noodles, grams.
const BROTH_FROM_G: f64 = 100.0;

fn sticks(build: &Build, seen: &Seen<'_>) -> bool {
    let family = seen.food.family();
    let salad = build.style == Style::Salad;
    if matches!(family, "seasoning" | "water") && !salad {
        return true;
    }
    let garnish = seen.grams < GARNISH.0 && seen.energy_kcal < GARNISH.1;
    let oil = seen.food.is_named(Trait::CookedIn);
    if seen.hidden || seen.goes_along || garnish || oil && !salad {
        return true;
    }
    let spooned = seen.keep_first && seen.grams >= SPOONED_FROM_G && !build.curry;
    let broth = family == "soup" && seen.grams >= BROTH_FROM_G;
    let sauce = seen.food.has(Trait::Sticks) && !broth || seen.food.is_named(Trait::SauceBase);
    let curry = build.curry && seen.food.is_named(Trait::CurryBase);
    build.sauced && !spooned && (sauce || curry)
}

/// Whether a component carries none of what sticks: rice and bread beside a curry.
pub(super) fn stays_plain(build: &Build, seen: &Seen<'_>) -> bool {
    let family = seen.food.family();
    let bread = seen.food.has(Trait::Bread) || family == "soup";
    let rice = family == "rice" || seen.food.name().contains("rice");
    let rice_apart = build.names("with") || build.words.is_empty();
    build.sauced && (bread || rice && rice_apart)
}
