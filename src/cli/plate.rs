//! From the dishes a request names to weighed plates: the one way that every command takes.

use super::arguments::{DishArgs, Units};
use super::input::{self, Read_};
use super::{Failure, kitchen};
use crate::matching::Catalogue;
use crate::pages::day_words::{dish as of_dish, part as part_of};
use crate::reading::{Dish, MenuLine, Served, parse_served};
use crate::store::{KnownDishes, Library, Meaning};
use crate::weighing::servings::ServingText;
use crate::weighing::{Estimated, Finds, MenuContext, Request, WeighedComponent};

/// A dish whose components have a food and a weight as far as could be told.
pub(super) struct Plate {
    /// The weighed dish.
    pub dish: Dish<WeighedComponent>,
    /// Whether every line of the dish could be read.
    pub complete: bool,
    /// What was assumed on the way, a sentence each.
    pub notes: Vec<String>,
}

impl Plate {
    /// Leaves a share of the dish, above 0, and says so in its name.
    pub(super) fn take_share(&mut self, share: f64) {
        for component in &mut self.dish.components {
            component.scale(share);
        }
        if let Some(name) = &mut self.dish.name {
            *name = of_dish(name, share);
        } else {
            self.notes.push(format!(
                "the figures are of {} of what is listed",
                part_of(share)
            ));
        }
    }
}

/// All dishes of a request, in its order.
///
/// Fails when there is none, or when one can not be read at all.
pub(super) fn plates(
    args: &DishArgs,
    units: Units,
    catalogue: &Catalogue,
) -> Result<Vec<Plate>, Failure> {
    weighed(read(args, units)?, args, units, catalogue, NoFood::Refused)
}

/// As [`plates`], for pages that are handed on: what to ask about the estimate is for whoever
/// reads the terminal, and is not worked out.
pub(super) fn plates_for_pages(
    args: &DishArgs,
    units: Units,
    catalogue: &Catalogue,
) -> Result<Vec<Plate>, Failure> {
    let request = Request {
        figures_only: true,
        ..Request::default()
    };
    let read = read(args, units)?;
    weighed_so(read, args, units, catalogue, NoFood::Refused, request)
}

/// What becomes of a menu line in which nothing means a food.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum NoFood {
    /// A wrong request, not an empty plate.
    Refused,
    /// A plate on which nothing can be counted: the person is asked, or was asked and left
    /// it so.
    Shown,
}

/// Dishes that were read, matched and weighed.
///
/// Fails when one means no food at all and that is not to be shown.
pub(super) fn weighed(
    read: Vec<Read_>,
    args: &DishArgs,
    units: Units,
    catalogue: &Catalogue,
    no_food: NoFood,
) -> Result<Vec<Plate>, Failure> {
    weighed_so(read, args, units, catalogue, no_food, Request::default())
}

fn weighed_so(
    read: Vec<Read_>,
    args: &DishArgs,
    units: Units,
    catalogue: &Catalogue,
    no_food: NoFood,
    request: Request,
) -> Result<Vec<Plate>, Failure> {
    if args.printed.is_some() && read.len() > 1 {
        return Err(Failure::Request(
            "--printed is the energy of one dish, and several are named\n  = ask for one dish at a time"
                .to_owned(),
        ));
    }
    let served = match &args.served {
        Some(text) => {
            Some(parse_served(text, units.into()).map_err(|e| Failure::Request(e.to_string()))?)
        }
        None => None,
    };
    let known = known(args)?;
    let context = MenuContext {
        finds: &Finds::new(catalogue),
        known: &known.finder(units.into()),
        units: units.into(),
        british: units == Units::Metric,
    };
    let request = Request {
        as_written: args.as_written,
        service: args.service.map(Into::into),
        printed_kcal: args.printed,
        ..request
    };
    let kitchen = args
        .kitchen
        .as_deref()
        .map(|file| kitchen::learn(file, catalogue, &known, units.into()))
        .transpose()?;
    let read = decided(read, args)?;
    read.into_iter()
        .map(|read| {
            let level = kitchen
                .as_ref()
                .and_then(|k| k.level(text_of(&read.meaning)));
            let request = Request {
                kitchen: level,
                ..request
            };
            plate(read, served.clone(), &request, context, no_food)
        })
        .collect()
}

/// What a kitchen's other dishes are held beside.
fn text_of(meaning: &Meaning) -> ServingText<'_> {
    match meaning {
        Meaning::Line(line) => ServingText::of(line, ""),
        Meaning::Dish { dish, .. } => ServingText {
            name: dish.name.as_deref().unwrap_or_default(),
            ..ServingText::default()
        },
    }
}

/// All dishes of a request as written, in its order.
///
/// Fails when there is none, or when one can not be read at all.
pub(super) fn read(args: &DishArgs, units: Units) -> Result<Vec<Read_>, Failure> {
    let known = known(args)?;
    let mut read = Vec::new();
    if !args.items.is_empty() {
        read.push(input::items(&args.items, units.into())?);
    }
    for argument in &args.dishes {
        read.push(input::dish(argument, &known, units.into())?);
    }
    if read.is_empty() {
        return Err(Failure::Request(
            "no dish was named\n  = name a dish, a file, `-` for standard input, or give --item"
                .to_owned(),
        ));
    }
    Ok(read)
}

/// The dishes that a request may name.
fn known(args: &DishArgs) -> Result<KnownDishes, Failure> {
    let library = Library::with_folder(args.library.as_deref())?;
    Ok(KnownDishes::of(&library))
}

/// Takes the options and add-ons that are asked for.
///
/// Fails when no dish offers what is asked.
fn decided(mut read: Vec<Read_>, args: &DishArgs) -> Result<Vec<Read_>, Failure> {
    for text in &args.choose {
        if !read.iter_mut().any(|read| read.meaning.choose(text)) {
            let all = read.iter().flat_map(|read| read.meaning.options());
            return Err(not_offered("--choose", text, &all.collect::<Vec<_>>()));
        }
    }
    for text in &args.with_add_on {
        if !read.iter_mut().any(|read| read.meaning.with_add_on(text)) {
            let all = read.iter().flat_map(|read| read.meaning.add_ons());
            return Err(not_offered("--with", text, &all.collect::<Vec<_>>()));
        }
    }
    Ok(read)
}

fn not_offered(option: &str, text: &str, offered: &[&str]) -> Failure {
    let all = if offered.is_empty() {
        "the dish offers nothing to choose".to_owned()
    } else {
        format!("offered are: {}", offered.join(", "))
    };
    Failure::Request(format!(
        "{option}: nothing offered is called `{text}`\n  = {all}"
    ))
}

fn plate(
    read: Read_,
    served: Option<Served>,
    request: &Request,
    context: MenuContext<'_>,
    no_food: NoFood,
) -> Result<Plate, Failure> {
    let line = match &read.meaning {
        Meaning::Line(line) => Some(line.clone()),
        Meaning::Dish { .. } => None,
    };
    let request = &Request {
        printed_kcal: request.printed_kcal.or_else(|| read.meaning.printed_kcal()),
        ..*request
    };
    let Estimated { dish, notes, .. } = read.meaning.estimate("", served, request, context);
    if let Some(line) = line {
        let food = |c: &WeighedComponent| c.matched.food.is_some();
        // Without any component there is nothing to ask about either.
        let shown = no_food == NoFood::Shown && !line.text.trim().is_empty();
        if !shown && !dish.components.iter().any(food) {
            return Err(Failure::Unusable(means_no_food(&line)));
        }
    }
    Ok(Plate {
        dish,
        complete: read.complete,
        notes,
    })
}

fn means_no_food(line: &MenuLine) -> String {
    if line.head.is_empty() && !line.parts.is_empty() {
        return format!(
            "`{}` changes a dish but names none\n  = name the dish first, such as `burger, no cheese`",
            line.text
        );
    }
    format!(
        "no file, no dish in the library and no food is called `{}`\n  = list the dishes with `trencher dish list`, or give components with --item",
        line.text
    )
}
