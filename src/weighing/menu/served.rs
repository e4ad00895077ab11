//! The dish of a menu line as it is served: its size, its weight, and changes to it.

use super::draft::Draft;
use super::whole::a_glass;
use super::wording::{CHILDRENS, is_for_children, size_of_serving};
use crate::matching::Catalogue;
use crate::reading::{Dish, Feeds, MenuLine, MenuPart, PartKind, Served};
use crate::weighing::component::{Unweighed, WeighedComponent};
use crate::weighing::kinds::DishKind;
use crate::weighing::offered::at_chance;
use crate::weighing::passes::{Circumstances, Progress, SERVED, WHOLE, run};
use crate::weighing::phrases::PhraseTable;
use crate::weighing::request::Request;
use crate::weighing::servings::{ServingText, thing_itself};
use crate::weighing::typical::{Setting, beside, fill};
use crate::weighing::weight::Basis;
use crate::words::{prepared, prepared_rows, words_of};
use serde::Deserialize;
use std::sync::LazyLock;

/// Least share of a whole dish that is left when the line lists what it is made of (own
/// choice).
const LEAST_LEFT: f64 = 0.3;
/// What weighs less than this share of the dish in all is a topping, not what the dish is
/// made of (own choice).
const TOPPINGS: f64 = 0.3;

/// How many times its usual amount a side may come to: what restaurants print of green beans
/// is more the energy of their butter than of more beans (own choice).
const MOST_OF_A_SIDE: f64 = 1.6;

/// Dishes of which a usual order is for several.
#[derive(Debug, Deserialize)]
struct Shared {
    words_base: String,
    people: f64,
}

static SHARED: LazyLock<PhraseTable<f64>> = LazyLock::new(|| {
    let list = prepared_rows::<Shared>(prepared!("shared_dishes.csv")).into_iter();
    PhraseTable::new(list.map(|row| (row.words_base, row.people)))
});

/// How many a usual order of a dish is for: a whole platter is no serving of one.
fn people_of_an_order(head: &str) -> f64 {
    SHARED.last(&words_of(head)).map_or(1.0, |hit| *hit.row)
}

/// What comes beside a dish is a serving of its own, on top of it.
fn side_served(
    side: WeighedComponent,
    beside: &Dish<WeighedComponent>,
    around: &Circumstances<'_>,
) -> Vec<WeighedComponent> {
    let words = side.matched.line.food.clone();
    let usual = side.grams().map(|grams| grams.mean);
    let own = Circumstances {
        request: around.request,
        catalogue: around.catalogue,
        kind: None,
        setting: around.setting,
        has_sides: false,
        serving: Some(ServingText {
            name: &words,
            ..ServingText::default()
        }),
    };
    let dish = Dish {
        served: beside.served.clone(),
        components: vec![side],
        ..Dish::default()
    };
    let notes = Vec::new();
    let mut served = run(&SERVED, Progress { dish, notes }, &own).dish.components;
    if let (Some(usual), Some(first)) = (usual, served.first_mut()) {
        at_most(first, usual * MOST_OF_A_SIDE);
    }
    served
}

/// What nobody sized beside a child's dish, as much smaller as the dish is.
fn childs_portion(list: &mut [WeighedComponent]) {
    let unsaid = |c: &&mut WeighedComponent| c.basis().is_some_and(Basis::is_unsaid);
    for c in list.iter_mut().filter(unsaid) {
        let told = format!("beside a child's dish: x {CHILDRENS}");
        c.change(told, |grams| grams.times(CHILDRENS));
    }
}

/// `Beef lasagne, garlic bread, side salad`, `Bavette, salsa verde, frites`: the words of the dish, where
/// they or the food that they are found to be say by themselves what it is, without those of what
/// lies beside it.
fn before_its_sides<'t>(
    text: ServingText<'t>,
    first: Option<&WeighedComponent>,
    catalogue: &Catalogue,
) -> ServingText<'t> {
    let food = || thing_itself(catalogue.food(first?.matched.food?).name());
    match text.name.split_once(',') {
        Some((name, _)) if thing_itself(name).or_else(food).is_some() => {
            ServingText { name, ..text }
        }
        _ => text,
    }
}

/// Brings a component down to an amount.
fn at_most(c: &mut WeighedComponent, grams: f64) {
    let now = c.grams().map_or(0.0, |own| own.mean);
    if now > grams {
        c.change("no more than such sides usually are".to_owned(), |own| {
            own.times(grams / now)
        });
    }
}

impl Draft<'_> {
    /// The dish as it is served: every pass that needs all of it.
    pub(super) fn served(
        &mut self,
        line: &MenuLine,
        served: Option<Served>,
        request: &Request,
        text: ServingText<'_>,
    ) -> Dish<WeighedComponent> {
        let take = std::mem::take::<Vec<WeighedComponent>>;
        let (main, options, sides) = (
            take(&mut self.main),
            take(&mut self.options),
            take(&mut self.sides),
        );
        let dish = Dish {
            name: Some(line.title().to_owned()),
            kind: self.kind.map(|k| k.name.clone()),
            served,
            components: main.into_iter().chain(options).collect(),
            ..Dish::default()
        };
        let text = if sides.is_empty() {
            text
        } else {
            before_its_sides(text, dish.components.first(), self.context.catalogue())
        };
        let around = Circumstances {
            request: *request,
            catalogue: self.context.catalogue(),
            kind: self.kind,
            setting: Setting::Restaurant,
            has_sides: !sides.is_empty(),
            serving: (!self.is_library_dish && !self.is_weighed_list()).then_some(text),
        };
        let notes = std::mem::take(&mut self.notes);
        let mut so_far = run(&SERVED, Progress { dish, notes }, &around);
        for side in sides {
            let chance = side.matched.line.chance;
            let mut served = side_served(side, &so_far.dish, &around);
            if let Some(chance) = chance {
                at_chance(&mut served, chance);
            }
            if self.is_childs() {
                childs_portion(&mut served);
            }
            so_far.dish.components.extend(served);
        }
        let Progress { dish, notes } = run(&WHOLE, so_far, &around);
        self.notes = notes;
        dish
    }

    /// Whether foods are listed that make a dish of which orders were bought and weighed: what those
    /// weighed tells more than what is printed of other dishes.
    fn is_weighed_list(&self) -> bool {
        self.list_kind.is_some_and(DishKind::is_weighed)
    }

    /// The parts that belong to the dish itself, and its size; `share` is what is left of a
    /// whole whose served weight is known.
    pub(super) fn take_parts(
        &mut self,
        line: &MenuLine,
        own: &[&MenuPart],
        share: Option<&(f64, MenuLine)>,
    ) {
        for part in own {
            self.part(&part.text, &part.what);
        }
        self.choose(line);
        self.leave_out_mere_name(line);
        self.size(line);
        if let Some((share, _)) = share {
            self.keep_share(*share);
        }
        // What changes an amount needs the amount first.
        for part in own {
            self.change_amount(&part.text, &part.what);
        }
        self.mark_unknown_main(line);
    }

    /// A share of the served dish and changes to it; its first `main` components are the main
    /// dish.
    pub(super) fn change_dish(
        &mut self,
        dish: &mut Dish<WeighedComponent>,
        main: usize,
        share: Option<f64>,
        changes: &[&MenuPart],
    ) {
        if changes.is_empty() && share.is_none() {
            return;
        }
        self.main = std::mem::take(&mut dish.components);
        // The salt and fat of the main dish come with it.
        let hidden = |c: &&WeighedComponent| c.basis() == Some(Basis::Hidden);
        let with = self.main.iter().skip(main).take_while(hidden).count();
        let main = if share.is_some() { main + with } else { main };
        let rest = self.main.split_off(main.min(self.main.len()));
        if let Some(share) = share {
            self.keep_share(share);
        }
        self.main.extend(rest);
        for part in changes {
            self.change_served(part);
        }
        dish.components = std::mem::take(&mut self.main);
        dish.components.append(&mut self.sides);
    }

    /// `for two`, `serves 4`: as many servings of what nobody sized.
    pub(super) fn feed(&mut self, dish: &mut Dish<WeighedComponent>, line: &MenuLine) {
        let people = match line.serving.feeds {
            Some(Feeds::People(people)) if people > 1.0 => people,
            Some(Feeds::Table) => {
                let told =
                    "it is for sharing: all of it is counted, and how many share it is not said";
                return self.notes.push(told.to_owned());
            }
            _ => return,
        };
        let usual = people_of_an_order(&line.head);
        let times = (people / usual).max(1.0);
        if times == 1.0 {
            return self.notes.push(format!(
                "an order of it is for {usual} people or so: all of it is counted"
            ));
        }
        let told = if usual > 1.0 {
            format!("for {people} people, a usual order is for {usual}: x {times:.2}")
        } else {
            format!("for {people} people: x {people}")
        };
        for c in &mut dish.components {
            if c.basis().is_some_and(Basis::is_unsaid) {
                c.change(told.clone(), |grams| grams.times(times));
            }
        }
        self.notes.push(format!(
            "it is for {people} people: all of it is counted, one person's part is 1/{people} of it"
        ));
    }

    /// A change to the dish as it is served.
    pub(super) fn change_served(&mut self, part: &MenuPart) {
        let more = matches!(part.what, PartKind::Doubled | PartKind::Extra);
        let there = self.main.iter().any(|c| self.meant(c, &part.text));
        if part.what == PartKind::Added || (more && !there) {
            self.push_side(&part.text);
            return;
        }
        self.part(&part.text, &part.what);
        self.change_amount(&part.text, &part.what);
    }

    /// `Harbour Plate: grilled salmon, brown rice`: where the description says what is on the
    /// plate, a name that means no food is a name.
    pub(super) fn leave_out_mere_name(&mut self, line: &MenuLine) {
        let food = |c: &WeighedComponent| c.matched.food.is_some();
        if !self.described || !self.main.iter().chain(&self.sides).any(food) {
            return;
        }
        let name = words_of(&line.name);
        let mere = |c: &WeighedComponent| {
            let own = words_of(&c.matched.line.food);
            !food(c) && !own.is_empty() && own.iter().all(|w| name.contains(w))
        };
        let before = self.main.len();
        self.main.retain(|c| !mere(c));
        if self.main.len() < before {
            self.notes.push(format!(
                "`{}` is taken for the dish's name, not for a food",
                line.name
            ));
        }
    }

    /// Marks the head of the line where no food fits it and nothing else tells what is ordered: of a
    /// dish whose main part is not known there is no total.
    pub(super) fn mark_unknown_main(&mut self, line: &MenuLine) {
        const LIST: usize = 3;
        let listed = line
            .parts
            .iter()
            .filter(|part| part.what == PartKind::Named)
            .count();
        let commas = !line.text.contains(" with ");
        let known = self.whole || self.kind.is_some() || line.head.is_empty();
        if known || (listed >= LIST && commas) {
            return;
        }
        let head = words_of(&line.head);
        for c in &mut self.main {
            let own = words_of(&c.matched.line.food);
            let of_head = !own.is_empty() && own.iter().all(|word| head.contains(word));
            if c.matched.food.is_none() && of_head {
                c.weight = Err(Unweighed::UnknownMain);
            }
        }
    }

    /// `vodka`, `House red`: all that is ordered is a drink that is known by the glass.
    fn pour(&mut self) {
        let catalogue = self.context.catalogue();
        let [only] = &mut self.main[..] else {
            return;
        };
        let food = only.matched.food.filter(|_| only.grams().is_none());
        let Some(food) = food.map(|id| catalogue.food(id)) else {
            return;
        };
        if let Some(glass) = a_glass(&food, &only.matched.line.food) {
            only.weight = Ok(glass);
        }
    }

    /// Gives the main dish the amounts that nobody said, in the size that the line says.
    pub(super) fn size(&mut self, line: &MenuLine) {
        let catalogue = self.context.catalogue();
        self.pour();
        if self.whole {
            let alone: Vec<bool> = self.main.iter().map(|c| c.grams().is_none()).collect();
            beside(&mut self.main, self.kind, catalogue);
            self.make_room(&alone);
        } else {
            fill(&mut self.main, self.kind, Setting::Restaurant, catalogue);
        }
        let known = self.kind.is_some_and(|k| is_for_children(&k.name));
        let Some((factor, told)) = size_of_serving(line).filter(|_| !known) else {
            return;
        };
        let typical = |c: &&mut WeighedComponent| c.basis() == Some(Basis::Typical);
        for c in self.main.iter_mut().filter(typical) {
            c.change(told.clone(), |grams| grams.times(factor));
        }
    }

    /// A list of two foods or more tells what a whole dish is made of, so their weight is
    /// part of the dish's: it would be counted twice on top. A single one is on top.
    pub(super) fn make_room(&mut self, unsized_before: &[bool]) {
        // Of a dish whose parts are known each has its own amount.
        let parts = |c: &&WeighedComponent| !self.listed.contains(&c.matched.line.food);
        let one = self.main.iter().filter(parts).count() == 1;
        let Some(kind) = self.kind.filter(|kind| one && !kind.has_sides()) else {
            return;
        };
        let within = |c: &WeighedComponent| {
            self.listed.contains(&c.matched.line.food) && kind.share(self.role_of(c)) > 0.0
        };
        let listed: Vec<f64> = self
            .main
            .iter()
            .zip(unsized_before)
            .filter(|(c, unsized_)| **unsized_ && within(c))
            .filter_map(|(c, _)| c.grams().map(|g| g.mean))
            .collect();
        let whole = self.main.first_mut().filter(|_| listed.len() >= 2);
        if let Some((c, grams)) = whole.and_then(|c| c.grams().map(|grams| (c, grams))) {
            let share = listed.iter().sum::<f64>() / grams.mean;
            if share > TOPPINGS {
                let left = (1.0 - share).max(LEAST_LEFT);
                c.change("less what the line lists of it".to_owned(), |g| {
                    g.times(left)
                });
            }
        }
    }
}
