//! A menu line becomes a dish: a whole dish or a kind of dish, what the line names, what it
//! adds and takes away, and what comes beside it.

mod changes;
mod parts;
mod whole;
mod wording;

use super::component::weigh_dish;
use super::component::{MatchedComponent, WeighedComponent, match_with};
use super::finds::Finds;
use super::kinds::{DishKind, kind_of};
use super::passes::{Circumstances, Progress, SAID, WHOLE, run};
use super::request::{Estimated, Request};
use super::servings::ServingText;
use super::typical::{Setting, beside, fill};
use super::usual::{Role, is_dish, usual};
use super::weigh::Basis;
use crate::foods::FoodId;
use crate::matching::{Catalogue, Certainty, Context, Found};
use crate::reading::{
    ComponentLine, Dish, MenuLine, MenuPart, Place, Served, UnitSystem, parse_component,
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
    let dish = |id: FoodId| is_dish(context.catalogue().food(id).family());
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
        notes: Vec::new(),
    };
    let plain = without_childrens_words(line);
    let plain = plain.as_ref().unwrap_or(line);
    let shared = draft.share_of_whole(plain);
    let parts = draft.begin(shared.as_ref().map_or(plain, |(_, whole)| whole));
    for part in &parts {
        draft.part(&part.text, &part.what);
    }
    draft.leave_out_mere_name(line);
    draft.size(line);
    if let Some((share, _)) = &shared {
        draft.keep_share(*share);
    }
    // What changes an amount needs the amount first.
    for part in &parts {
        draft.change_amount(&part.text, &part.what);
    }
    let Draft {
        main,
        sides,
        kind,
        is_library_dish,
        notes,
        ..
    } = draft;
    let dish = Dish {
        name: Some(line.title().to_owned()),
        kind: kind.map(|k| k.name.clone()),
        served,
        components: main.into_iter().chain(sides).collect(),
        ..Dish::default()
    };
    let around = Circumstances {
        request: *request,
        catalogue: context.catalogue(),
        kind,
        setting: Setting::Restaurant,
        serving: (!is_library_dish).then_some(text),
    };
    let Progress { dish, notes } = run(&WHOLE, Progress { dish, notes }, &around);
    Estimated { dish, notes }
}

impl Draft<'_> {
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

    /// Words as a component, amount and all.
    fn read(&self, text: &str) -> Option<ComponentLine> {
        parse_component(text, Place::new("menu line", 1, 1), self.context.units).ok()
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
