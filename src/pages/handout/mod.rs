//! Handouts: pages to print or send. One file, no network, no scripts; readable on a phone, on
//! paper, in the dark and aloud.
//!
//! ```text
//! Handout (plain data) -> lead (the three answers), view (words and drawings) -> templates
//! ```

mod card;
mod content;
mod contents;
mod facing;
mod fold_out;
mod lead;
mod questions;
mod sizes;
mod view;

pub(crate) use card::card_svg;
pub(crate) use content::{AmountRow, Eat, Paper, Portioning};
pub use content::{Handout, Options, Signed};
pub(crate) use facing::{MOST_PLATES, beside_the_day};
pub(crate) use fold_out::{fold_out, life_size_svg};
pub(in crate::pages) use lead::{part_words, times};
pub(crate) use questions::kitchen_questions;

use crate::pages::escape;
use minijinja::value::{Value, ValueKind};
use minijinja::{Environment, context};
use std::sync::LazyLock;

/// A page could not be put together: a fault in a template, never in the content.
#[derive(Debug, thiserror::Error)]
#[error("the page template failed: {0}")]
pub struct PageError(#[from] minijinja::Error);

/// The templates, parsed once. Every value passes through [`escape::html`] on its way out.
static TEMPLATES: LazyLock<Result<Environment<'static>, minijinja::Error>> = LazyLock::new(|| {
    let mut templates = Environment::new();
    templates.set_formatter(|out, _state, value| {
        if value.is_undefined() || value.is_none() {
            return Ok(());
        }
        let written = if value.is_safe() || value.kind() == ValueKind::Number {
            write!(out, "{value}")
        } else {
            out.write_str(&escape::html(&value.to_string()))
        };
        written.map_err(minijinja::Error::from)
    });
    for (name, source) in [
        ("page.html", include_str!("templates/page.html")),
        ("plate.html", include_str!("templates/plate.html")),
        ("dish.html", include_str!("templates/dish.html")),
        ("single.html", include_str!("templates/single.html")),
        ("two.html", include_str!("templates/two.html")),
        ("booklet.html", include_str!("templates/booklet.html")),
        ("quiz.html", include_str!("templates/quiz.html")),
        ("fold_out.html", include_str!("templates/fold_out.html")),
        ("menu.html", include_str!("templates/menu.html")),
        ("report.html", include_str!("templates/report.html")),
        ("day.html", include_str!("templates/day.html")),
    ] {
        templates.add_template(name, source)?;
    }
    Ok(templates)
});

/// One dish on one page.
pub(crate) fn page(handout: &Handout, options: &Options) -> Result<String, PageError> {
    let dish = view::dish(
        handout,
        "d1",
        view::drawings(&view::pictures(handout), "d1"),
    );
    rendered("single.html", &handout.title, options, context! { dish })
}

/// Two to [`MOST_PLATES`] dishes side by side on one page, at one scale, with their groups
/// facing each other. Dishes beyond that are left out.
/// `whole_day` adds a column with the day's allowance.
pub(crate) fn comparison(
    handouts: &[&Handout],
    whole_day: bool,
    options: &Options,
) -> Result<String, PageError> {
    let shown = &handouts[..handouts.len().min(MOST_PLATES)];
    let titles: Vec<&str> = shown.iter().map(|h| h.title.as_str()).collect();
    let title = match titles.split_last() {
        Some((last, before)) if !before.is_empty() => format!("{} or {last}?", before.join(", ")),
        _ => titles.concat(),
    };
    let two = facing::beside(shown, whole_day);
    rendered("two.html", &title, options, context! { two })
}

/// All that the page of a dish shows, as plain values for a page that is not a file: drawings
/// as SVG, everything else as text.
pub(crate) fn values(handout: &Handout, id: &str) -> Value {
    let drawn = view::drawings(&view::pictures(handout), id);
    view::dish(handout, id, drawn)
}

/// The same of dishes that face each other, at one scale.
pub(crate) fn facing_values(handouts: &[&Handout]) -> Value {
    facing::beside(&handouts[..handouts.len().min(MOST_PLATES)], false)
}

/// A contents page and then one page for each dish.
pub fn booklet(title: &str, handouts: &[Handout], options: &Options) -> Result<String, PageError> {
    bound(title, handouts, options, true)
}

/// One page for each dish, in order.
pub fn pages(title: &str, handouts: &[Handout], options: &Options) -> Result<String, PageError> {
    bound(title, handouts, options, false)
}

fn bound(
    title: &str,
    handouts: &[Handout],
    options: &Options,
    contents: bool,
) -> Result<String, PageError> {
    // All plates of a booklet at one scale.
    let pictures: Vec<_> = handouts.iter().flat_map(view::pictures).collect();
    let mut drawn = view::drawings(&pictures, "b").into_iter();
    let dishes: Vec<Value> = handouts
        .iter()
        .enumerate()
        .map(|(i, handout)| {
            let own = drawn.by_ref().take(view::pictures(handout).len()).collect();
            let dish = view::dish(handout, &format!("d{}", i + 1), own);
            context! { listed => contents::page_of(i), ..dish }
        })
        .collect();
    let listed = contents.then(|| contents::listed(handouts, options.large_print));
    rendered("booklet.html", title, options, context! { dishes, listed })
}

/// For each dish a page with the plate and blanks to fill, then a page with the answers.
pub(crate) fn quiz(
    title: &str,
    handouts: &[Handout],
    options: &Options,
) -> Result<String, PageError> {
    let rounds: Vec<Value> = handouts
        .iter()
        .enumerate()
        .map(|(i, handout)| view::round(handout, i + 1))
        .collect();
    rendered("quiz.html", title, options, context! { rounds })
}

pub(super) fn rendered(
    template: &str,
    title: &str,
    options: &Options,
    content: Value,
) -> Result<String, PageError> {
    let templates = match &*TEMPLATES {
        Ok(templates) => templates,
        Err(error) => {
            return Err(PageError(minijinja::Error::new(
                error.kind(),
                error.to_string(),
            )));
        }
    };
    let setting = context! {
        title,
        lang => "en",
        paper => options.paper.css_name(),
        large => options.large_print,
        signed => signed(&options.signed),
        styles => Value::from_safe_string(include_str!("templates/page.css").to_owned()),
    };
    let page = templates
        .get_template(template)?
        .render(context! { ..content, ..setting })?;
    Ok(page)
}

/// Names and date for the head of a page; nothing where none was said.
fn signed(signed: &Signed) -> Option<Value> {
    (*signed != Signed::default()).then(|| {
        context! {
            client => signed.client.as_deref(),
            coach => signed.coach.as_deref(),
            date => signed.date.as_deref(),
        }
    })
}

#[cfg(test)]
mod tests;
