//! `trencher swap`.

use super::arguments::{Common, DayArgs, DishArgs, Format};
use super::meal::MealArgs;
use super::plate::{Plate, plates};
use super::whose::Whose;
use super::{Failure, Outcome, cautions, print, whose};
use crate::fit::change::{Change, places, protein_g};
use crate::fit::{Ask, AskWhat, Hold, Room, requests, right_size};
use crate::ledger::{Audit, Day, audit};
use crate::matching::Catalogue;
use crate::pages::number;
use crate::pages::swap_page::{Proposal, ProposalPage, SwapPage};
use crate::reading::Dish;
use crate::weighing::{Basis, WeighedComponent};
use clap::Args;
use std::path::PathBuf;

/// Changes proposed.
const PROPOSALS: usize = 3;

// `swap`.
#[derive(Debug, Clone, Args)]
#[command(after_help = CHANGES)]
pub struct SwapArgs {
    /// A dish: a file, a library name, or a menu line
    #[arg(value_name = "DISH")]
    dish: String,
    /// What to change, such as "fries=side salad" [without it: what to ask for is proposed]
    #[arg(value_name = "CHANGE")]
    changes: Vec<String>,
    /// What the whole serving weighs or fills, such as "450 g" or "32 fl oz bowl, full"
    #[arg(long, value_name = "AMOUNT")]
    served: Option<String>,
    /// Leave out fat and coating that only cooking words imply
    #[arg(long)]
    as_written: bool,
    /// Folder of dish files to use beside the built-in library
    #[arg(long, value_name = "DIR")]
    library: Option<PathBuf>,
    /// Which meal the proposals bring it nearest to
    #[command(flatten)]
    meal: MealArgs,
    /// Whose day
    #[command(flatten)]
    day: DayArgs,
    /// Shared options
    #[command(flatten)]
    common: Common,
}

const CHANGES: &str = "\
Changes:
  \"fries=side salad\"        something else instead; with an amount if you like (1 cup rice)
  \"no mayo\", \"mayo=none\"    without it
  \"rice=half\"               half of it; also 1/3, 60%
  \"dressing=on the side\"    half of it is reckoned to be eaten";

pub(super) fn run(args: &SwapArgs) -> Result<Outcome, Failure> {
    let whose = whose::day(&args.day)?;
    let catalogue = super::corrections::catalogue()?;
    let asked = DishArgs {
        dishes: vec![args.dish.clone()],
        ..dish_args(args)
    };
    let mut all = plates(&asked, args.common.units, &catalogue)?;
    let plate = all.remove(0);
    let page = Page {
        args,
        whose: &whose,
        catalogue: &catalogue,
        plate: &plate,
    };
    let text = if args.changes.is_empty() {
        page.proposals()?
    } else {
        page.changed()?
    };
    print(&text)?;
    Ok(Outcome::done_if(plate.complete))
}

fn dish_args(args: &SwapArgs) -> DishArgs {
    DishArgs {
        dishes: Vec::new(),
        items: Vec::new(),
        served: args.served.clone(),
        choose: Vec::new(),
        with_add_on: Vec::new(),
        as_written: args.as_written,
        service: None,
        printed: None,
        library: args.library.clone(),
        kitchen: None,
    }
}

/// What a change does with a component.
#[derive(Debug, Clone, PartialEq)]
enum What {
    With(String),
    OnTheSide,
    Part(f64),
    Without,
}

/// Part of a sauce on the side that is eaten (common practice).
const ON_THE_SIDE: f64 = 0.5;

/// Takes a change apart: which component, and what becomes of it.
fn parsed(text: &str) -> Result<(String, What), Failure> {
    let form = || {
        Failure::Request(format!(
            "`{text}` is no change\n  = write for example \"fries=side salad\", \"no mayo\" or \"rice=half\""
        ))
    };
    let plain = text.trim();
    let Some((item, with)) = plain.split_once('=') else {
        let lower = plain.to_lowercase();
        let item = ["no ", "without "]
            .iter()
            .find_map(|w| lower.strip_prefix(w));
        let item = item.map(str::trim).filter(|item| !item.is_empty());
        return Ok((item.ok_or_else(form)?.to_owned(), What::Without));
    };
    let (item, with) = (item.trim(), with.trim());
    if item.is_empty() {
        return Err(form());
    }
    let what = match with.to_lowercase().as_str() {
        "" | "none" | "nothing" | "no" => What::Without,
        "half" => What::Part(0.5),
        "on the side" => What::OnTheSide,
        other => match crate::quantity::parse_share(other) {
            Some(part) if part < 1.0 => What::Part(part),
            _ => What::With(with.to_owned()),
        },
    };
    Ok((item.to_owned(), what))
}

/// All that one run needs.
struct Page<'r> {
    args: &'r SwapArgs,
    whose: &'r Whose,
    catalogue: &'r Catalogue,
    plate: &'r Plate,
}

impl Page<'_> {
    fn day(&self) -> Day<'_> {
        self.whose.day()
    }

    fn audited(&self, dish: &Dish<WeighedComponent>) -> Audit {
        audit(dish, self.catalogue, self.day())
    }

    fn closing(&self) -> Vec<String> {
        match self.args.common.format {
            Format::Text => cautions::closing(),
            Format::Json | Format::Csv => Vec::new(),
        }
    }

    /// The dish with every change taken, all at once.
    fn changed(&self) -> Result<String, Failure> {
        let served = &self.plate.dish;
        let mut notes = self.plate.notes.clone();
        let (mut dish, mut words, mut wishes) = (served.clone(), Vec::new(), Vec::new());
        let (mut goes, mut comes) = (served.clone(), served.clone());
        goes.components.clear();
        comes.components.clear();
        for text in &self.args.changes {
            let (item, what) = parsed(text)?;
            let change = self.change(&dish, &item, &what, &mut notes)?;
            let (out, into) = change.parts(&dish);
            goes.components.extend(out.components);
            comes.components.extend(into.components);
            dish = change.apply(&dish);
            words.push(told(&item, &what));
            wishes.push(wish(&item, &what));
        }
        notes.extend(self.whose.notes.iter().cloned());
        let audits = [served, &dish].map(|d| self.audited(d));
        let parts = [&goes, &comes].map(|d| self.audited(d));
        let closing = self.closing();
        let page = SwapPage {
            wish: wishes.join(" "),
            change: words.join("; "),
            audits: [&audits[0], &audits[1]],
            parts: [&parts[0], &parts[1]],
            protein: [served, &dish, &goes, &comes].map(|d| protein_g(d, self.catalogue)),
            notes: &notes,
            closing: &closing,
        };
        match self.args.common.format {
            Format::Text => Ok(page.text()),
            Format::Json => Ok(page.json()?),
            Format::Csv => Ok(page.csv()?),
        }
    }

    fn change(
        &self,
        dish: &Dish<WeighedComponent>,
        item: &str,
        what: &What,
        notes: &mut Vec<String>,
    ) -> Result<Change, Failure> {
        let out = places(dish, self.catalogue, item);
        if out.is_empty() {
            let has: Vec<&str> = dish
                .components
                .iter()
                .filter(|c| c.basis() != Some(Basis::Hidden))
                .map(|c| c.matched.line.food.as_str())
                .collect();
            return Err(Failure::Request(format!(
                "nothing in the dish is called `{item}`\n  = it has: {}",
                has.join(", ")
            )));
        }
        let (stays, into) = match what {
            What::Without => (0.0, Vec::new()),
            What::OnTheSide => (ON_THE_SIDE, Vec::new()),
            What::Part(part) => (*part, Vec::new()),
            What::With(words) => (0.0, self.instead(dish, &out, words, notes)?),
        };
        Ok(Change { out, stays, into })
    }

    /// What comes instead: as much as was said, as much as of the same kind before it, or what
    /// is usual.
    fn instead(
        &self,
        dish: &Dish<WeighedComponent>,
        out: &[usize],
        words: &str,
        notes: &mut Vec<String>,
    ) -> Result<Vec<WeighedComponent>, Failure> {
        let asked = DishArgs {
            items: vec![words.to_owned()],
            served: None,
            ..dish_args(self.args)
        };
        let mut plates = plates(&asked, self.args.common.units, self.catalogue)?;
        let mut into = plates.remove(0).dish.components;
        if into.iter().any(|c| c.matched.food.is_none()) {
            return Err(Failure::Request(format!(
                "no food is called `{words}`\n  = look with `trencher food find \"{words}\"`"
            )));
        }
        let family =
            |c: &WeighedComponent| c.matched.food.map(|id| self.catalogue.food(id).family());
        let goes = out.iter().filter_map(|at| dish.components.get(*at));
        let goes: Vec<_> = goes.filter(|c| c.grams().is_some()).collect();
        if let ([one], true) = (into.as_mut_slice(), !goes.is_empty()) {
            let alike = goes.iter().all(|c| family(c) == family(one));
            let unsaid = one.basis().is_some_and(Basis::is_unsaid);
            let before: f64 = goes.iter().filter_map(|c| c.grams()).map(|g| g.mean).sum();
            if let Some(usual) = one.grams().filter(|g| alike && unsaid && g.mean > 0.0) {
                one.scale(before / usual.mean);
            }
        }
        let grams: f64 = into
            .iter()
            .filter_map(WeighedComponent::grams)
            .map(|g| g.mean)
            .sum();
        notes.push(format!(
            "{words} is taken as about {} g",
            number::grams(grams)
        ));
        Ok(into)
    }

    /// What to ask for.
    fn proposals(&self) -> Result<String, Failure> {
        let meal = self.args.meal.meal(self.whose)?;
        let room = Room::of_day(self.day(), meal.share, "this meal", Hold::Usual);
        let dish = &self.plate.dish;
        let parts = right_size(dish, self.catalogue, &room).map(|sized| sized.parts(dish));
        let found = requests(dish, self.catalogue, &room, &parts.unwrap_or_default())
            .map_err(|e| Failure::Request(e.to_string()))?;
        let proposals = proposed(&found.asks);
        let mut notes = self.plate.notes.clone();
        notes.extend(self.whose.notes.iter().cloned());
        let served = self.audited(dish);
        let closing = self.closing();
        let page = ProposalPage {
            served: &served,
            meal: &meal.words,
            meal_kcal: room.energy_kcal,
            proposals: &proposals,
            notes: &notes,
            closing: &closing,
        };
        match self.args.common.format {
            Format::Text => Ok(page.text()),
            Format::Json => Ok(page.json()?),
            Format::Csv => Ok(page.csv()?),
        }
    }
}

/// The best change of each component, swaps and omissions before halves, then further ones of
/// the same; at most three.
fn proposed(asks: &[Ask]) -> Vec<Proposal> {
    let (halves, whole): (Vec<&Ask>, Vec<&Ask>) =
        asks.iter().partition(|ask| ask.what == AskWhat::Half);
    let mut taken: Vec<&Ask> = Vec::new();
    for further in [false, true] {
        for ask in whole.iter().chain(&halves) {
            let same =
                |other: &&Ask| other.item == ask.item && (!further || other.what == ask.what);
            if taken.len() < PROPOSALS && !taken.iter().any(same) {
                taken.push(ask);
            }
        }
    }
    taken.into_iter().map(proposal).collect()
}

fn proposal(ask: &Ask) -> Proposal {
    let (what, change) = match &ask.what {
        AskWhat::OnTheSide => (What::OnTheSide, format!("{}=on the side", ask.item)),
        AskWhat::Half => (What::Part(0.5), format!("{}=half", ask.item)),
        AskWhat::LeaveOut => (What::Without, format!("no {}", ask.item)),
        AskWhat::Swap { with, .. } => (What::With(with.clone()), format!("{}={with}", ask.item)),
    };
    let other = ask.helps.as_ref().filter(|h| h.name != "energy");
    Proposal {
        say: wish(&ask.item, &what),
        change,
        kcal_saved: ask.kcal_saved,
        helps: other.map(|h| {
            let show = |value| number::amount(&h.unit, value);
            format!(
                "{} {} to {} {}",
                h.name,
                show(h.before),
                show(h.after),
                h.unit
            )
        }),
    }
}

/// A change in words to say to the kitchen.
fn wish(item: &str, what: &What) -> String {
    match what {
        What::With(with) => format!("Could I have {with} instead of the {item}?"),
        What::OnTheSide => format!("Could I have the {item} on the side?"),
        What::Part(part) if (part - 0.5).abs() < 1e-9 => format!("Could I have half the {item}?"),
        What::Part(part) => format!("Could I have about {} of the {item}?", number::share(*part)),
        What::Without => format!("Could I have it without the {item}?"),
    }
}

/// A change in words for a page.
fn told(item: &str, what: &What) -> String {
    match what {
        What::With(with) => format!("{with} instead of the {item}"),
        What::OnTheSide => format!("the {item} on the side, half of it eaten"),
        What::Part(part) => format!("{} of the {item}", number::share(*part)),
        What::Without => format!("without the {item}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn changes_are_read_as_people_write_them() {
        let of = |text: &str| parsed(text).expect("a change");
        assert_eq!(
            of("fries = side salad"),
            ("fries".to_owned(), What::With("side salad".to_owned()))
        );
        assert_eq!(of("No mayo"), ("mayo".to_owned(), What::Without));
        assert_eq!(of("mayo=none"), ("mayo".to_owned(), What::Without));
        assert_eq!(of("rice=half"), ("rice".to_owned(), What::Part(0.5)));
        assert_eq!(of("rice=1/3"), ("rice".to_owned(), What::Part(1.0 / 3.0)));
        assert_eq!(of("ranch=On the side").1, What::OnTheSide);
        for wrong in ["", "fries", "=salad", "no "] {
            assert!(parsed(wrong).is_err(), "{wrong}");
        }
    }
}
