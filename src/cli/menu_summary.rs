//! From a menu's summary to the page that people read.

use super::menu_args::MenuArgs;
use super::menu_held::HeldAgainst;
use super::plated::personal;
use super::whose::Whose;
use crate::ledger::{audit, usual_cautions};
use crate::menu::{Auditor, Brief, Histogram, NamedItem, PrintedIs, Setting, Summary};
use crate::pages::choice_words::choice_line;
use crate::pages::drawing::Picture;
use crate::pages::menu_report::{DRAWN, ListedItem, MenuReport, Plot, ReportItem};
use crate::pages::number;
use crate::pages::plating::{Plated, handout};
use crate::reading::UnitSystem;
use std::path::Path;

/// Most bins of a distribution.
const BARS: usize = 12;
/// Groups and limits named as most often beyond a day.
const OVER: usize = 5;

pub(super) fn report(
    summary: &Summary,
    args: &MenuArgs,
    held: &HeldAgainst,
    whose: &Whose,
    (asks_words, on_page): (bool, bool),
) -> MenuReport {
    let mut over: Vec<(String, u64)> = summary
        .over
        .iter()
        .map(|(cap, count)| (cap.label().to_owned(), *count))
        .collect();
    over.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
    over.truncate(OVER);
    let notes = if on_page {
        personal(whose, args.day.energy.is_some())
    } else {
        &whose.notes
    };
    let mut lines: Vec<String> = held.note.iter().chain(notes).cloned().collect();
    if asks_words {
        lines
            .push("Words on a menu cannot rule an allergen in or out: ask the kitchen.".to_owned());
    }
    lines.extend(usual_cautions());
    MenuReport {
        title: name(&args.file),
        file: args.file.display().to_string(),
        against: format!(
            "{} ({})",
            held.words,
            crate::words::head(&whose.standard.name)
        ),
        items: summary.items,
        chosen: args.filter.as_ref().map(|text| format!("where {text}")),
        unread: summary.bad,
        incomplete: summary.incomplete,
        best_title: match (&held.rest, &whose.diner) {
            (Some(_), Some(diner)) => format!("Fit the rest of {}'s day best", diner.name),
            _ => "Fit this meal best".to_owned(),
        },
        best: summary.best.iter().map(best).collect(),
        beyond: summary.only_beyond().map(beyond).collect(),
        over,
        printed: (summary.printed.iter().sum::<u64>() > 0).then_some(summary.printed),
        plots: vec![
            plot("Energy, kcal an item", "kcal", &summary.energy),
            plot("Sodium, mg an item", "mg", &summary.sodium),
        ],
        unread_rows: summary.bad_rows.clone(),
        listed: summary.first.iter().map(listed).collect(),
        cautions: lines,
    }
}

/// Draws the first items of both ends as they are served.
pub(super) fn draw(page: &mut MenuReport, summary: &Summary, setting: Setting<'_>) {
    let mut auditor = Auditor::new(setting);
    let best = page.best.iter_mut().zip(&summary.best).take(DRAWN);
    let beyond = page.beyond.iter_mut().zip(summary.only_beyond());
    for (shown, item) in best.chain(beyond.take(DRAWN)) {
        shown.picture = picture(&item.brief, &mut auditor, setting);
    }
}

fn picture(brief: &Brief, auditor: &mut Auditor<'_>, setting: Setting<'_>) -> Option<Picture> {
    let dish = auditor.dish(brief.item_read.as_deref()?)?;
    let audit = audit(&dish, setting.catalogue, setting.day);
    let plated = Plated {
        dish: &dish,
        audit: &audit,
        fitted: None,
        day: "",
        standard_source: "",
        notes: &[],
        units: UnitSystem::Us,
    };
    Some(handout(plated, setting.catalogue).served)
}

/// What a menu is called: its file's name without folder and ending.
fn name(file: &Path) -> String {
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    let name = name.split('.').next().unwrap_or_default();
    match name {
        "" | "-" => "Menu".to_owned(),
        name => name.replace('_', " "),
    }
}

fn plot(title: &str, unit: &str, histogram: &Histogram) -> Plot {
    let at = |part| histogram.quantile(part);
    let quantiles = at(0.1)
        .zip(at(0.5))
        .zip(at(0.9))
        .map(|((low, middle), high)| [low, middle, high]);
    Plot::new(title, unit, quantiles, &histogram.coarse(BARS))
}

fn energy(brief: &Brief) -> String {
    brief.energy.map_or_else(
        || "energy unknown".to_owned(),
        |e| {
            let protein = brief.protein.map_or_else(String::new, |p| {
                format!(", protein {} g", number::grams(p.likely))
            });
            format!("{} kcal{protein}", number::kcal(e.likely))
        },
    )
}

fn best(item: &NamedItem) -> ReportItem {
    let brief = &item.brief;
    let eat = to_eat(brief);
    // Where it is ranked for the rest of a day, every limit is told on a line of its own.
    let by_meal = brief.choice.is_none();
    let salt = if by_meal && brief.fitted.is_some_and(|f| f.passes_sodium) {
        ", sodium beyond the meal"
    } else {
        ""
    };
    ReportItem {
        name: brief.item.clone(),
        words: format!("{eat}, {}{salt}", energy(brief)),
        more: brief.choice.as_ref().map(choice_line),
        picture: None,
    }
}

fn beyond(item: &NamedItem) -> ReportItem {
    let brief = &item.brief;
    ReportItem {
        name: brief.item.clone(),
        words: format!("{} of a day, {}", most(brief), energy(brief)),
        ..ReportItem::default()
    }
}

fn to_eat(brief: &Brief) -> String {
    match brief.fitted {
        Some(fitted) if fitted.limited_by.is_none() => "all of it".to_owned(),
        Some(fitted) => format!("eat {}", share_to_eat(fitted.share)),
        None => String::new(),
    }
}

fn protein(brief: &Brief) -> String {
    brief.protein.map_or_else(
        || "not known".to_owned(),
        |p| {
            format!(
                "{} ({})",
                number::grams(p.likely),
                number::span(p, number::grams)
            )
        },
    )
}

fn listed(brief: &Brief) -> ListedItem {
    let energy = brief.energy.map_or_else(
        || "not known".to_owned(),
        |e| {
            format!(
                "{} ({} to {})",
                number::kcal(e.likely),
                number::kcal(e.low),
                number::kcal(e.high)
            )
        },
    );
    ListedItem {
        name: brief.item.clone(),
        not_counted: brief.not_counted.join("; "),
        energy,
        protein: protein(brief),
        printed: brief.printed.map(|figures| printed(figures, brief)),
        most: most(brief),
        eat: to_eat(brief).trim_start_matches("eat ").to_owned(),
        sure: if brief.whole {
            brief.certainty.word()
        } else {
            "in part"
        }
        .to_owned(),
    }
}

/// The printed energy and where it lies.
fn printed((low, high): (f64, f64), brief: &Brief) -> String {
    let figure = if (high - low).abs() < 0.5 {
        number::thousands(low)
    } else {
        format!("{} to {}", number::thousands(low), number::thousands(high))
    };
    let place = match brief.printed_is {
        Some(PrintedIs::Below) => ", below",
        Some(PrintedIs::Within) => ", in range",
        Some(PrintedIs::Above) => ", above",
        None => "",
    };
    figure + place
}

/// The limit of which it takes most, such as `sodium 84 %`.
fn most(brief: &Brief) -> String {
    brief.most.map_or_else(String::new, |(cap, share)| {
        format!("{} {:.0} %", cap.label(), share * 100.0)
    })
}

/// A share to eat in steps of 5 %, rounded down so that it still fits.
fn share_to_eat(share: f64) -> String {
    let steps = (share * 20.0 + 1e-9).floor() * 5.0;
    if steps < 5.0 {
        "less than 5 %".to_owned()
    } else {
        format!("{steps:.0} % of it")
    }
}
