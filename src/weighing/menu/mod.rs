//! A menu line becomes a dish: a whole dish or a kind of dish, what the line names, what it
//! adds and takes away, and what comes beside it.

mod changes;
mod chosen;
mod named;
mod parts;
mod whole;
mod wording;

use super::component::weigh_dish;
use super::component::{MatchedComponent, Unweighed, WeighedComponent, match_with};
use super::finds::Finds;
use super::kinds::{DishKind, kind_of};
use super::passes::{Circumstances, Progress, SAID, WHOLE, run};
use super::request::{Estimated, Request};
use super::servings::ServingText;
use super::typical::{Setting, beside, fill};
use super::usual::{Role, usual};
use super::weigh::Basis;
use crate::foods::{FoodId, Trait};
use crate::matching::{Catalogue, Certainty, Context, Found};
use crate::reading::{
    ComponentLine, Dish, LineNotes, MenuLine, MenuPart, PartKind, PhraseRole, Place, Reading,
    Served, UnitSystem, parse_component, parse_menu_line,
};
use crate::words::words;
use wording::{is_for_children, size_of_serving, without_childrens_words};

/// Least share of a whole dish that is left when the line lists what it is made of (own
/// choice).
const LEAST_LEFT: f64 = 0.3;
/// What weighs less than this share of the dish in all is a topping, not what the dish is
/// made of (own choice).
const TOPPINGS: f64 = 0.3;
/// Foods looked at when words are looked up by themselves.
const CANDIDATES: usize = 4;

/// Finds a dish of the library by name.
pub type Known<'k> = &'k dyn Fn(&str) -> Option<Dish<ComponentLine>>;

/// Where menu lines are understood.
#[derive(Clone, Copy)]
pub struct MenuContext<'m> {
    /// The foods.
    pub finds: &'m Finds<'m>,
    /// The library.
    pub known: Known<'m>,
    /// Cups and spoons.
    pub units: UnitSystem,
    /// British senses of words.
    pub british: bool,
}

impl<'m> MenuContext<'m> {
    fn catalogue(&self) -> &'m Catalogue {
        self.finds.catalogue()
    }
}

/// The dish as far as it is worked out.
struct Draft<'m> {
    context: MenuContext<'m>,
    /// The whole line: what stands around each thing in it.
    around: String,
    main: Vec<WeighedComponent>,
    sides: Vec<WeighedComponent>,
    kind: Option<&'static DishKind>,
    /// Whether the main dish was found as a whole, so that what the line names besides comes
    /// on top of it.
    whole: bool,
    /// What the line lists as belonging to the dish, neither added to it nor beside it.
    listed: Vec<String>,
    /// Whether the line describes a dish that it names.
    described: bool,
    /// Whether the line is a dish of the library and nothing else: its weight is known.
    is_library_dish: bool,
    /// Options of choices, each at its part.
    options: Vec<WeighedComponent>,
    notes: Vec<String>,
}

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
    let text = ServingText::of(line, section);
    let line = &line.clone().in_section(section);
    let mut estimated = estimate_named(line, text, served, request, context);
    let unknown = estimated
        .dish
        .components
        .iter()
        .any(WeighedComponent::is_unknown_main);
    estimated.dish.read = Some(read_as(line, unknown));
    estimated.dish.line = LineNotes {
        choices: line.choices.clone(),
        add_ons: line.add_ons.clone(),
        allergens: line.allergens.clone(),
    };
    estimated
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
    if (context.known)(&line.name).is_some()
        && let Some(plain) = line.by_name()
    {
        return estimate_words(&plain, served);
    }
    if let Some(plain) = line.by_description()
        && names_the_dish(&plain, &line.name, context)
    {
        return estimate_words(&plain, served);
    }
    let estimated = estimate_words(line, served.clone());
    let food = |c: &WeighedComponent| c.matched.food.is_some();
    match line.by_name() {
        Some(plain) if !estimated.dish.components.iter().any(food) => {
            estimate_words(&plain, served)
        }
        _ => estimated,
    }
}

/// Whether a description begins with the dish itself, said more closely than by its name:
/// `Thursday curry: chickpea curry, rice`, `Dim sum: 4 pork dumplings`.
fn names_the_dish(description: &MenuLine, name: &str, context: MenuContext<'_>) -> bool {
    let Ok(line) = parse_component(
        &description.head,
        Place::new("menu line", 1, 1),
        context.units,
    ) else {
        return false;
    };
    let name = &name.to_lowercase().replace(" of the day", "");
    let ends_in_kind = |text: &str| {
        let last = words(text).pop();
        kind_of(text).filter(|hit| hit.rest.last() != last.as_ref())
    };
    let kinds = ends_in_kind(&line.food).zip(ends_in_kind(name));
    if kinds.is_some_and(|(own, named)| own.kind == named.kind) {
        return true;
    }
    let plainly = Context {
        words: Vec::new(),
        british: context.british,
    };
    let find = |text: &str| context.finds.find(text, &plainly, 1);
    let (own, named) = (find(&line.food), find(name));
    let dish = |id: FoodId| context.catalogue().food(id).has(Trait::WholeDish);
    let same = own.food == named.food && own.food.is_some_and(dish);
    // `Big breakfast: 2 eggs, bacon`: a name that is no dish that anybody knows. Of a kind, what
    // is listed is a part of it, unless it is counted out.
    let mere_name = named.certainty <= Certainty::Guess
        && own.certainty > Certainty::Guess
        && (kind_of(name).is_none() || line.amount.is_some());
    same || mere_name
}

fn estimate_words(
    line: &MenuLine,
    text: ServingText<'_>,
    served: Option<Served>,
    request: &Request,
    context: MenuContext<'_>,
) -> Estimated {
    let mut draft = Draft {
        context,
        around: line.text.clone(),
        main: Vec::new(),
        sides: Vec::new(),
        kind: None,
        whole: false,
        listed: Vec::new(),
        described: !line.name.is_empty(),
        is_library_dish: false,
        options: Vec::new(),
        notes: Vec::new(),
    };
    let plain = without_childrens_words(line);
    let plain = plain.as_ref().unwrap_or(line);
    let shared = draft.share_of_whole(plain);
    let parts = draft.begin(shared.as_ref().map_or(plain, |(_, whole)| whole));
    if let Some(choice) = Draft::head_options(line) {
        let part = f64::from(choice.eaten) / choice.options.len() as f64;
        let told = format!("one of {}", choice.options.join(", "));
        draft.notes.push(format!(
            "{told}: each counted at {:.0} %; decide with --choose",
            part * 100.0
        ));
        for option in &choice.options {
            let own = estimate_words(&parse_menu_line(option), text, None, request, context);
            draft.take_option(own.dish.components, part.min(1.0), &told);
        }
        draft.whole = true;
    }
    // What is served is stated as it lies there; else a change is one to the dish as it is served.
    let before = served.is_some();
    let (changes, own): (Vec<&MenuPart>, Vec<&MenuPart>) = parts
        .into_iter()
        .partition(|part| !before && is_change(&part.what));
    for part in &own {
        draft.part(&part.text, &part.what);
    }
    draft.choose(line);
    draft.leave_out_mere_name(line);
    draft.size(line);
    if let Some((share, _)) = shared.as_ref().filter(|_| before) {
        draft.keep_share(*share);
    }
    // What changes an amount needs the amount first.
    for part in &own {
        draft.change_amount(&part.text, &part.what);
    }
    draft.mark_unknown_main(line);
    let main = draft.main.len();
    let text = match &shared {
        Some((_, whole)) => ServingText {
            name: &whole.head,
            ..text
        },
        // What is changed says nothing of how much is served.
        None if !changes.is_empty() && line.name.is_empty() => ServingText {
            name: &line.main,
            ..text
        },
        None => text,
    };
    let mut dish = draft.served(line, served, request, text);
    let share = shared.as_ref().filter(|_| !before);
    if !changes.is_empty() || share.is_some() {
        draft.main = std::mem::take(&mut dish.components);
        let rest = draft.main.split_off(main.min(draft.main.len()));
        if let Some((share, _)) = share {
            draft.keep_share(*share);
        }
        draft.main.extend(rest);
        for part in &changes {
            draft.change_served(part);
        }
        dish.components = std::mem::take(&mut draft.main);
        dish.components.append(&mut draft.sides);
    }
    Estimated {
        dish,
        notes: draft.notes,
    }
}

/// Whether a part changes the dish as it is served.
fn is_change(what: &PartKind) -> bool {
    !matches!(what, PartKind::Named | PartKind::Under | PartKind::Side)
}

impl Draft<'_> {
    /// The dish as it is served: every pass that needs all of it.
    fn served(
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
            components: main.into_iter().chain(options).chain(sides).collect(),
            ..Dish::default()
        };
        let around = Circumstances {
            request: *request,
            catalogue: self.context.catalogue(),
            kind: self.kind,
            setting: Setting::Restaurant,
            serving: (!self.is_library_dish).then_some(text),
        };
        let notes = std::mem::take(&mut self.notes);
        let Progress { dish, notes } = run(&WHOLE, Progress { dish, notes }, &around);
        self.notes = notes;
        dish
    }

    /// A change to the dish as it is served.
    fn change_served(&mut self, part: &MenuPart) {
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
    fn leave_out_mere_name(&mut self, line: &MenuLine) {
        let food = |c: &WeighedComponent| c.matched.food.is_some();
        if !self.described || !self.main.iter().chain(&self.sides).any(food) {
            return;
        }
        let name = words(&line.name);
        let mere = |c: &WeighedComponent| {
            let own = words(&c.matched.line.food);
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
    fn mark_unknown_main(&mut self, line: &MenuLine) {
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
        let head = words(&line.head);
        for c in &mut self.main {
            let own = words(&c.matched.line.food);
            let of_head = !own.is_empty() && own.iter().all(|word| head.contains(word));
            if c.matched.food.is_none() && of_head {
                c.weight = Err(Unweighed::UnknownMain);
            }
        }
    }

    /// Gives the main dish the amounts that nobody said, in the size that the line says.
    fn size(&mut self, line: &MenuLine) {
        let catalogue = self.context.catalogue();
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
    fn make_room(&mut self, unsized_before: &[bool]) {
        let Some(kind) = self.kind.filter(|kind| !kind.has_sides()) else {
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

    /// Words as a component, amount and all; food words of other tongues in English.
    fn read(&self, text: &str) -> Option<ComponentLine> {
        let read = |text: &str| {
            parse_component(text, Place::new("menu line", 1, 1), self.context.units).ok()
        };
        match named::in_english(text) {
            Some(english) => Some(ComponentLine {
                text: text.to_owned(),
                ..read(english)?
            }),
            None => read(text),
        }
    }

    /// As [`Self::read`], with a note when the words can not be read.
    fn read_or_note(&mut self, text: &str) -> Option<ComponentLine> {
        let line = self.read(text);
        if line.is_none() {
            self.notes
                .push(format!("`{text}` could not be read and is left out"));
        }
        line
    }

    /// What words alone mean.
    fn plainly(&self) -> Context {
        Context {
            words: Vec::new(),
            british: self.context.british,
        }
    }

    /// What words alone are found to mean.
    fn find(&self, text: &str) -> Found {
        self.context.finds.find(text, &self.plainly(), CANDIDATES)
    }

    /// Matches components, each beside the others.
    fn matched(&self, dish: Dish<ComponentLine>) -> Dish<MatchedComponent> {
        match_with(dish, self.context.british, |words, context, top| {
            self.context.finds.find(words, context, top)
        })
    }

    fn role(&self, text: &str) -> Role {
        let found = self.find(text).food;
        usual(text, found.map(|id| self.context.catalogue().food(id))).role
    }

    fn role_of(&self, c: &WeighedComponent) -> Role {
        let food = c.matched.food.map(|id| self.context.catalogue().food(id));
        usual(&c.matched.line.food, food).role
    }

    /// Matches and weighs components of this line.
    fn weighed(&self, components: Vec<ComponentLine>) -> Vec<WeighedComponent> {
        let dish = Dish {
            name: Some(self.around.clone()),
            components,
            ..Dish::default()
        };
        let catalogue = self.context.catalogue();
        let matched = self
            .matched(dish)
            .map(|c| as_restaurants_make_it(c, catalogue));
        let stated = Progress {
            dish: weigh_dish(matched, catalogue),
            notes: Vec::new(),
        };
        let around = Circumstances {
            request: Request::default(),
            catalogue,
            kind: self.kind,
            setting: Setting::Restaurant,
            serving: None,
        };
        run(&SAID, stated, &around).dish.components
    }
}

/// A restaurant's own version of a food where the catalogue has one: `lasagna with meat,
/// restaurant` for `lasagna with meat`.
fn restaurants_own(food: FoodId, others: &[FoodId], catalogue: &Catalogue) -> Option<FoodId> {
    let name = words(catalogue.food(food).name());
    others.iter().copied().find(|id| {
        let mut other = words(catalogue.food(*id).name());
        let before = other.len();
        other.retain(|w| !matches!(w.as_str(), "restaurant" | "style"));
        other.len() < before && other == name
    })
}

fn as_restaurants_make_it(c: MatchedComponent, catalogue: &Catalogue) -> MatchedComponent {
    let own = c
        .food
        .and_then(|food| restaurants_own(food, &c.alternatives, catalogue));
    match (own, c.food) {
        (Some(own), Some(plain)) => MatchedComponent {
            food: Some(own),
            alternatives: c
                .alternatives
                .iter()
                .map(|id| if *id == own { plain } else { *id })
                .collect(),
            why: format!("{}; as restaurants make it", c.why),
            ..c
        },
        _ => c,
    }
}
