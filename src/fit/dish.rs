//! From a weighed dish and what it may take to the right-sized plate, and back.

use super::kitchen_units::{self, KitchenUnit, Said};
use super::plate::{Budget, Item, Plate, Unfit};
use super::room::{Most, Room};
use super::together::{Bond, Build, Divided, Seen, Whole, bonds, stays_plain};
use crate::foods::{Equivalent, Food, Nutrient, Trait};
use crate::ledger::is_free;
use crate::matching::Catalogue;
use crate::reading::{Amount, Dish, Measure, Served, Vessel, WeightUnit};
use crate::weighing::{Basis, WeighedComponent};
use crate::words::spelt_number;

/// Grams of a fluid ounce of a drink, and of a cup of soup: that of water (NIST Handbook 44).
const FLUID_OUNCE_G: f64 = 29.6;
const CUP_G: f64 = 237.0;
/// Of a usual one, what may still be one.
const ABOUT_ONE: std::ops::Range<f64> = 0.6..1.75;
/// Most soup, grams, that comes in a cup (common practice; soup of 1.03 to 1.08 g/ml).
const SOUP_CUP_G: f64 = 260.0;

/// Slices of a round pizza (common practice).
const SLICES: f64 = 8.0;

/// Vegetables and fruit up to this energy are kept first, kcal in 100 g, when they hold at
/// least this much of their group, cup-equivalents in 100 g. Own choice: plain beans, coleslaw
/// and avocado are in; fries and onion rings are not.
const KEPT_UP_TO_KCAL: f64 = 175.0;
const KEPT_FROM_CUPS: f64 = 0.3;

/// Foods with at least this much protein foods are kept first, ounce-equivalents in 100 g. Own
/// choice: fried chicken and frozen meatballs are in; custard and egg noodles are not.
const KEPT_FROM_OUNCES: f64 = 1.0;

/// What is cut as one is a meal from this much protein foods, ounce-equivalents, or vegetables
/// but starchy ones, cup-equivalents (own choice).
const MEAL_FROM_OUNCES: f64 = 1.0;
const MEAL_FROM_CUPS: f64 = 0.4;

/// A filling is divided by the quarter (own choice).
const FILLING_STEP: f64 = 0.25;

/// What a cap is the share of when what is kept first raised it.
pub(super) const KEPT_FIRST: &str = "kept first";

/// What is cut as one is kept first when at least this part of its weight is.
const KEPT_FROM_PART: f64 = 0.5;

/// Pieces of meat and fish larger than this are cut by the ounce, grams of one.
const CUT_FINER_FROM_G: f64 = 30.0;

/// Bread is torn in half, and in quarters from this, grams of one.
const QUARTERED_FROM_G: f64 = 85.0;

/// So many grams of one component in an item.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Member {
    /// Its place in the dish.
    pub component: usize,
    /// Grams as served that go with this item.
    pub grams: f64,
}

/// A dish made ready for fitting.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitting {
    /// What is eaten by itself, in the order of the dish.
    pub items: Vec<Item>,
    /// What each item is made of: first the component it is named for, then what goes along
    /// with it; or all that is cut as one.
    pub members: Vec<Vec<Member>>,
    /// How many of its members, from the first, each item is named for: one, or all that is
    /// cut as one. The others go along.
    pub heads: Vec<usize>,
    /// What the plate may hold.
    pub budget: Budget,
    /// Components without a food or a weight: not on the plate that is fitted.
    pub left_out: Vec<usize>,
    /// Components whose saturated fat nobody published: counted as none.
    pub fat_unknown: Vec<usize>,
}

/// A right-sized dish.
#[derive(Debug, Clone, PartialEq)]
pub struct RightSized {
    /// What was fitted.
    pub fitting: Fitting,
    /// The answer, one portion for each item.
    pub plate: Plate,
}

/// The right-sized plate of a dish: [`plate_for`], then [`super::fit()`].
///
/// Fails when nothing is left or nothing of the dish fits.
pub fn right_size(
    dish: &Dish<WeighedComponent>,
    catalogue: &Catalogue,
    room: &Room,
) -> Result<RightSized, Unfit> {
    let fitting = plate_for(dish, catalogue, room);
    let plate = super::fit(&fitting.items, &fitting.budget)?;
    Ok(RightSized { fitting, plate })
}

impl RightSized {
    /// The part of each component that is eaten, 0 to 1; `None` for those left out.
    #[must_use]
    pub fn parts(&self, dish: &Dish<WeighedComponent>) -> Vec<Option<f64>> {
        let mut eaten = vec![(0.0, 0.0); dish.components.len()];
        for (members, portion) in self.fitting.members.iter().zip(&self.plate.portions) {
            for member in members {
                if let Some(sums) = eaten.get_mut(member.component) {
                    sums.0 += member.grams;
                    sums.1 += member.grams * portion.eat_grams / portion.served_grams;
                }
            }
        }
        let part = |(served, eaten): (f64, f64)| (served > 0.0).then(|| eaten / served);
        eaten.into_iter().map(part).collect()
    }

    /// The dish as it is to be eaten: the same components in the same order, their weights
    /// and ranges less; those not eaten at all weigh 0, those left out stay as they are.
    #[must_use]
    pub fn eaten(&self, dish: &Dish<WeighedComponent>) -> Dish<WeighedComponent> {
        let parts = self.parts(dish);
        let mut at = 0;
        dish.clone().map(|mut component| {
            if let Some(part) = parts.get(at).copied().flatten() {
                component.scale(part);
            }
            at += 1;
            component
        })
    }
}

/// The unit in which a kitchen serves a component; `None` without a food, a weight or an
/// energy.
#[must_use]
pub(crate) fn kitchen_unit(
    component: &WeighedComponent,
    catalogue: &Catalogue,
) -> Option<KitchenUnit> {
    Ready::of(0, component, catalogue).map(|ready| ready.unit())
}

/// A component that can be fitted.
pub(super) struct Ready<'c> {
    pub at: usize,
    pub component: &'c WeighedComponent,
    pub food: Food<'c>,
    pub grams: f64,
    pub kcal_per_g: f64,
}

impl<'c> Ready<'c> {
    /// All components with a food and a weight.
    pub(crate) fn all(dish: &'c Dish<WeighedComponent>, catalogue: &'c Catalogue) -> Vec<Self> {
        let all = dish.components.iter().enumerate();
        all.filter_map(|(at, c)| Self::of(at, c, catalogue))
            .collect()
    }

    fn of(at: usize, component: &'c WeighedComponent, catalogue: &'c Catalogue) -> Option<Self> {
        let food = catalogue.food(component.matched.food?);
        let grams = component.grams()?.mean;
        let kcal_per_g = food.per_100g(Nutrient::EnergyKcal)? / 100.0;
        (grams > 0.0).then_some(Self {
            at,
            component,
            food,
            grams,
            kcal_per_g,
        })
    }

    fn seen(&self) -> Seen<'_> {
        Seen {
            food: self.food,
            goes_along: self.component.matched.line.goes_along,
            grams: self.grams,
            energy_kcal: self.kcal_per_g * self.grams,
            hidden: self.component.basis() == Some(Basis::Hidden),
            keep_first: self.keep_first(),
        }
    }

    /// Whether the rest of it can go home in a box: not a drink, nor soup by the cup.
    fn boxable(&self) -> bool {
        let by_the_cup = self.food.family() == "soup" && self.grams <= SOUP_CUP_G;
        !by_the_cup && !self.food.has(Trait::Drink)
    }

    /// Protein foods, vegetables, whole fruit, pulses and free foods.
    fn keep_first(&self) -> bool {
        let per_100g = |e| self.food.equivalent_per_100g(e);
        let kcal = self.kcal_per_g * 100.0;
        let starchy = per_100g(Equivalent::Starchy);
        let whole = per_100g(Equivalent::Vegetables) - starchy + per_100g(Equivalent::Fruits)
            - per_100g(Equivalent::FruitsJuice);
        let plain = kcal <= KEPT_UP_TO_KCAL;
        let produce = plain && whole >= KEPT_FROM_CUPS && starchy < whole;
        let pulses = plain && per_100g(Equivalent::Pulses) >= KEPT_FROM_CUPS;
        let protein = per_100g(Equivalent::Protein) >= KEPT_FROM_OUNCES;
        let carbohydrate = self.food.per_100g(Nutrient::CarbohydrateG);
        let free = carbohydrate
            .is_some_and(|c| is_free(self.kcal_per_g * self.grams, c * self.grams / 100.0));
        free || produce || pulses || protein
    }

    fn sauce(&self) -> bool {
        self.food.has(Trait::Dresses) && !self.keep_first()
    }

    fn unit(&self) -> KitchenUnit {
        let name = self.food.name();
        // A `waffle` of fries is a fry, a `cupcake` of carrot cake is no slice of it.
        let its_own = |text: &str| {
            let shapes = ["waffle", "cupcake", "drummette", "cone", "slice"].iter();
            let mut foreign = shapes.filter(|w| text.contains(**w));
            foreign.all(|w| {
                let sliced = *w == "slice" && self.food.family() != "ice cream";
                sliced || name.contains(w) || name.contains("wing")
            })
        };
        let measures: Vec<(&str, f64)> = self
            .food
            .measures()
            .filter(|m| its_own(m.text))
            .map(|m| (m.text, m.grams))
            .collect();
        let said = self.said();
        let counted = matches!(said, Some(Said::Counted { .. }));
        let family = self.food.family();
        if family == "dessert" && !counted {
            return KitchenUnit::of("serving", self.grams, 0.25);
        }
        let mut unit = kitchen_units::choose(&measures, self.grams, said.as_ref());
        // Nobody drinks half a piece.
        if unit.label == "piece" && self.food.has(Trait::Drink) {
            unit = kitchen_units::choose(&measures, self.grams, Some(&Said::Volume));
        }
        let meat = self.food.has(Trait::CutByWeight);
        let by_the_piece = counted || matches!(unit.label.as_str(), "wing" | "drummette" | "rib");
        let spoons = matches!(unit.label.as_str(), "cup" | "tbsp");
        if meat && (spoons || unit.grams_each > CUT_FINER_FROM_G && !by_the_piece) {
            return KitchenUnit::ounces();
        }
        if unit.label == "piece" {
            let words = &self.component.matched.line.food;
            let called = kitchen_units::called(words).unwrap_or("piece");
            called.clone_into(&mut unit.label);
        }
        if matches!(family, "bread" | "tortilla") && unit.label == "oz" {
            // A bun or roll nobody measures by weight: all of it is one.
            let words = &self.component.matched.line.food;
            let called = kitchen_units::called(words).unwrap_or("piece");
            unit = KitchenUnit::of(called, self.grams, 0.5);
        }
        if matches!(family, "bread" | "tortilla") && !spoons {
            let quartered = unit.grams_each >= QUARTERED_FROM_G;
            unit.step = if quartered { 0.25 } else { 0.5 };
        }
        // A burger that nobody counted is one, however heavy this kitchen makes it.
        let named = crate::words::head(&self.component.matched.line.food);
        let one = named.split_whitespace().next_back();
        let about_one = ABOUT_ONE.contains(&(self.grams / unit.grams_each));
        if said.is_none() && about_one && one.is_some_and(|w| w.eq_ignore_ascii_case(&unit.label)) {
            unit.grams_each = self.grams;
        }
        unit
    }

    /// How the amount was written: in the line itself, else how it is served, for a file states
    /// grams and `2 slices` beside them.
    fn said(&self) -> Option<Said> {
        let line = &self.component.matched.line;
        let amount = line.amount.as_ref().and_then(|a| self.said_by(a));
        amount.or_else(|| self.said_by(line.served_as.as_ref()?))
    }

    fn said_by(&self, amount: &Amount) -> Option<Said> {
        match &amount.measure {
            // Grams are how files and labels speak: they say nothing of how it is served.
            Measure::Grams => match amount.weight_unit {
                Some(WeightUnit::Ounce | WeightUnit::Pound) => Some(Said::Weight),
                _ => None,
            },
            Measure::Millilitres { .. } => Some(Said::Volume),
            Measure::Count { unit, .. } => Some(Said::Counted {
                word: unit.clone().unwrap_or_default(),
                grams_each: self.grams / amount.number.likely,
            }),
        }
    }
}

/// A dish and what it may take, as plain figures for [`super::fit()`]. Components that nobody
/// eats apart are one item; see [`Fitting::members`].
#[must_use]
pub(crate) fn plate_for(
    dish: &Dish<WeighedComponent>,
    catalogue: &Catalogue,
    room: &Room,
) -> Fitting {
    let all = dish.components.iter().enumerate();
    let ready = Ready::all(dish, catalogue);
    let known: Vec<usize> = ready.iter().map(|r| r.at).collect();
    let build = Build::of(dish);
    let fat = |r: &&Ready<'_>| r.food.per_100g(Nutrient::SaturatedFatG).is_none();
    let items = items(dish, &build, &ready, room);
    let budget = raised(room, &items);
    Fitting {
        heads: items.iter().map(|(_, head, _)| *head).collect(),
        members: items
            .iter()
            .map(|(_, _, made_of)| made_of.clone())
            .collect(),
        items: items.into_iter().map(|(item, ..)| item).collect(),
        budget,
        left_out: all
            .map(|(at, _)| at)
            .filter(|at| !known.contains(at))
            .collect(),
        fat_unknown: ready.iter().filter(fat).map(|r| r.at).collect(),
    }
}

/// What the plate may hold, where what is kept first may hold more by itself than the meal's
/// part: as much as it holds, but no more than the day.
fn raised(room: &Room, items: &[(Item, usize, Vec<Member>)]) -> Budget {
    let mut budget = room.budget();
    for (at, (cap, most)) in budget.caps.iter_mut().zip(&room.most).enumerate() {
        let held = |item: &Item| item.per_gram[at] * item.served_grams;
        let first = items.iter().map(|(item, ..)| item);
        let first = first.filter(|item| item.keep_first && held(item) > cap.trace);
        let first: f64 = first.map(held).sum();
        if first.min(most.day) > cap.most {
            cap.most = first.min(most.day);
            KEPT_FIRST.clone_into(&mut cap.of);
        }
    }
    budget
}

/// What an item is named for: one component, or all that are cut or poured as one.
struct Head {
    parts: Vec<usize>,
    joint: bool,
}

impl Head {
    fn grams(&self, ready: &[Ready<'_>]) -> f64 {
        self.parts.iter().map(|i| ready[*i].grams).sum()
    }
}

fn heads(bonds: &[Bond]) -> Vec<Head> {
    let of = |bond| (0..bonds.len()).filter(move |i| bonds[*i] == bond);
    let first = of(Bond::Joint).next();
    let mut heads = Vec::new();
    for (i, bond) in bonds.iter().enumerate() {
        match bond {
            Bond::Own => heads.push(Head {
                parts: vec![i],
                joint: false,
            }),
            Bond::Joint if first == Some(i) => heads.push(Head {
                parts: of(Bond::Joint).collect(),
                joint: true,
            }),
            Bond::Joint | Bond::Along => {}
        }
    }
    heads
}

fn items(
    dish: &Dish<WeighedComponent>,
    build: &Build,
    ready: &[Ready<'_>],
    room: &Room,
) -> Vec<(Item, usize, Vec<Member>)> {
    let seen: Vec<Seen<'_>> = ready.iter().map(Ready::seen).collect();
    let bonds = bonds(build, &seen);
    let heads = heads(&bonds);
    let along: Vec<usize> = (0..ready.len())
        .filter(|i| bonds[*i] == Bond::Along)
        .collect();
    let plain = |head: &Head| !head.joint && stays_plain(build, &seen[head.parts[0]]);
    let all_plain = heads.iter().all(plain);
    let carries = |head: &Head| all_plain || !plain(head);
    let carrying: f64 = heads
        .iter()
        .filter(|h| carries(h))
        .map(|h| h.grams(ready))
        .sum();
    let mut all = Vec::new();
    for head in &heads {
        let part = if carries(head) {
            head.grams(ready) / carrying
        } else {
            0.0
        };
        let own = head.parts.iter().map(|i| (*i, ready[*i].grams));
        let with = along.iter().map(|i| (*i, ready[*i].grams * part));
        let made_of: Vec<(usize, f64)> = own.chain(with).filter(|(_, g)| *g > 0.0).collect();
        let member = |(i, grams): &(usize, f64)| Member {
            component: ready[*i].at,
            grams: *grams,
        };
        all.push((
            item(dish, build, ready, head, &made_of, room),
            head.parts.len(),
            made_of.iter().map(member).collect(),
        ));
    }
    all
}

/// Whether the whole dish comes in what one drinks from.
fn in_a_cup(dish: &Dish<WeighedComponent>) -> bool {
    let Some(Served::Vessel { vessel, .. }) = &dish.served else {
        return false;
    };
    matches!(vessel, Some(Vessel::Cup | Vessel::Mug | Vessel::Glass))
}

fn item(
    dish: &Dish<WeighedComponent>,
    build: &Build,
    ready: &[Ready<'_>],
    head: &Head,
    made_of: &[(usize, f64)],
    room: &Room,
) -> Item {
    let served: f64 = made_of.iter().map(|(_, g)| g).sum();
    let mean = |per_gram: &dyn Fn(&Ready<'_>) -> f64| {
        let parts = made_of.iter();
        parts.map(|(i, g)| per_gram(&ready[*i]) * g).sum::<f64>() / served
    };
    let own = head.grams(ready);
    let one = (head.parts.len() == 1).then(|| &ready[head.parts[0]]);
    let (name, mut unit) = match one {
        Some(one) => (short_name(one, ready), one.unit()),
        None => (
            whole_name(dish, build.whole, is_filling(build, head, ready)),
            whole_unit(
                build.whole,
                pieces(dish, ready),
                own,
                is_filling(build, head, ready),
            ),
        ),
    };
    // The unit is one of the component; the item also holds what goes along with it.
    unit.grams_each *= served / own;
    let per_gram = room
        .most
        .iter()
        .map(|m| mean(&|r: &Ready<'_>| m.what.per_gram(&r.food, room.pulses).unwrap_or(0.0)));
    Item {
        name,
        served_grams: served,
        energy_kcal_per_g: mean(&|r: &Ready<'_>| r.kcal_per_g),
        per_gram: per_gram.collect(),
        unit,
        keep_first: kept_first(build, head, ready),
        sauce: one.is_some_and(Ready::sauce),
        boxable: !in_a_cup(dish) && head.parts.iter().any(|i| ready[*i].boxable()),
        components: head.parts.len() as u32,
    }
}

/// Whether each component sticks to the rest: the oil of a stir-fry, its fish sauce.
pub(super) fn cooked_in(dish: &Dish<WeighedComponent>, ready: &[Ready<'_>]) -> Vec<bool> {
    let seen: Vec<Seen<'_>> = ready.iter().map(Ready::seen).collect();
    let bonds = bonds(&Build::of(dish), &seen);
    bonds.into_iter().map(|bond| bond == Bond::Along).collect()
}

/// Whether most of what an item is named for is kept first, or it is a meal cut as one with
/// protein foods or vegetables in it: a lasagne, not a cake.
fn kept_first(build: &Build, head: &Head, ready: &[Ready<'_>]) -> bool {
    let parts = || head.parts.iter().map(|i| &ready[*i]);
    let kept: f64 = parts().filter(|r| r.keep_first()).map(|r| r.grams).sum();
    if kept >= KEPT_FROM_PART * head.grams(ready) {
        return true;
    }
    let holds = |of: &dyn Fn(&Ready<'_>) -> f64| -> f64 { parts().map(of).sum() };
    let per_gram = |r: &Ready<'_>, e| r.food.equivalent_per_100g(e) / 100.0 * r.grams;
    let protein = holds(&|r| per_gram(r, Equivalent::Protein));
    let vegetables =
        holds(&|r| per_gram(r, Equivalent::Vegetables) - per_gram(r, Equivalent::Starchy));
    let meal = protein >= MEAL_FROM_OUNCES || vegetables >= MEAL_FROM_CUPS;
    head.joint && build.is_savoury() && meal
}

/// The words of a component up to their first comma, unless another's read the same.
fn short_name(one: &Ready<'_>, all: &[Ready<'_>]) -> String {
    fn head<'r>(ready: &'r Ready<'_>) -> &'r str {
        crate::words::head(&ready.component.matched.line.food).trim()
    }
    let alike = all.iter().filter(|other| head(other) == head(one)).count();
    if alike > 1 || head(one).is_empty() {
        return one.component.matched.line.food.clone();
    }
    head(one).to_owned()
}

/// A component as an item by itself, whatever it sticks to.
pub(super) fn loose(ready: &Ready<'_>, all: &[Ready<'_>], room: &Room) -> Item {
    let per_gram = |m: &Most| m.what.per_gram(&ready.food, room.pulses).unwrap_or(0.0);
    Item {
        name: short_name(ready, all),
        served_grams: ready.grams,
        energy_kcal_per_g: ready.kcal_per_g,
        per_gram: room.most.iter().map(per_gram).collect(),
        unit: ready.unit(),
        keep_first: ready.keep_first(),
        sauce: ready.sauce(),
        boxable: ready.boxable(),
        components: 1,
    }
}

/// What is cut as one is called; without its bread it is the filling.
fn whole_name(dish: &Dish<WeighedComponent>, whole: Option<Whole>, filling: bool) -> String {
    match (whole, &dish.name) {
        (Some(whole), _) if filling => format!("{} filling", whole.label),
        (Some(whole), _) => whole.label.to_owned(),
        (None, Some(name)) => name.to_lowercase(),
        (None, None) => "dish".to_owned(),
    }
}

/// Whether what is cut as one is a filling without its bread.
fn is_filling(build: &Build, head: &Head, ready: &[Ready<'_>]) -> bool {
    let around = |i: usize| matches!(ready[i].food.family(), "bread" | "tortilla");
    let opened = build.whole.is_some_and(|w| w.divided == Divided::Opened);
    opened && (0..ready.len()).any(|i| around(i) && !head.parts.contains(&i))
}

fn whole_unit(whole: Option<Whole>, pieces: f64, grams: f64, filling: bool) -> KitchenUnit {
    if filling {
        return KitchenUnit::of("filling", grams / pieces, FILLING_STEP);
    }
    match whole.map(|w| (w.divided, w.label)) {
        Some((Divided::Slices, _)) => KitchenUnit::of("slice", grams / SLICES, 1.0),
        Some((Divided::Cups, _)) => KitchenUnit::of("cup", CUP_G, 0.25),
        Some((Divided::FluidOunces, _)) => KitchenUnit::of("fl oz", FLUID_OUNCE_G, 1.0),
        Some((Divided::Pieces | Divided::Opened, label)) => {
            KitchenUnit::piece(label, grams / pieces)
        }
        None => KitchenUnit::of("serving", grams, 0.25),
    }
}

/// How many of the whole were served: by the dish's name, else by its tortillas, else one.
fn pieces(dish: &Dish<WeighedComponent>, ready: &[Ready<'_>]) -> f64 {
    let name = dish.name.as_deref().unwrap_or("").to_lowercase();
    let first = name.split_whitespace().next().unwrap_or("");
    let named = spelt_number(first).map(|number| number as usize);
    let digits = || first.parse::<usize>().ok();
    let tortillas = || {
        let tortilla = ready.iter().find(|r| r.food.family() == "tortilla")?;
        let line = &tortilla.component.matched.line;
        let counted = |amount: &Amount| match amount.measure {
            Measure::Count { .. } => Some(amount.number.likely.round() as usize),
            _ => None,
        };
        let own = line.amount.as_ref().and_then(counted);
        own.or_else(|| line.served_as.as_ref().and_then(counted))
    };
    let count = named.or_else(digits).or_else(tortillas);
    count.filter(|n| (1..=24).contains(n)).unwrap_or(1) as f64
}
