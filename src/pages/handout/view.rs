//! From figures to the words and drawings that the templates set.

use super::content::{AmountRow, Eat, Handout, Portioning};
use super::lead::{capital, lead, listed, part_words};
use super::sizes::{SIZES_SOURCE, everyday_sizes};
use crate::ledger::LedgerLine;
use crate::pages::drawing::{
    Bar, Extent, Figure, Picture, Portions, Style, Texture, extents, figures, fork_words, share_bar,
};
use crate::pages::number;
use crate::quantity::Range;
use minijinja::context;
use minijinja::value::Value;

/// Everyday sizes on a page.
const SIZES_SHOWN: usize = 4;

/// From this many foods a page is set closer when printed.
const DENSE_FROM: usize = 6;

/// Longest bar, in days: beyond it a bar only says that it is cut off.
const LONGEST_BAR_DAYS: f64 = 4.0;

/// What the width of a bar in the strip under a plate stands for, in days.
const STRIP_DAYS: f64 = 1.5;

/// Drawings with their labels and strips, all at one scale.
pub(super) fn drawings(pictures: &[&Picture], id: &str) -> Vec<Value> {
    let style = Style {
        id_prefix: id.to_owned(),
        text_scale: 1.0,
    };
    let figures = figures(pictures, &style);
    figures
        .into_iter()
        .zip(pictures)
        .map(|(figure, picture)| drawing(figure, picture))
        .collect()
}

fn drawing(figure: Figure, picture: &Picture) -> Value {
    let percent = |part: f64| format!("{part:.2}%");
    let labels: Vec<Value> = figure
        .labels
        .iter()
        .map(|label| {
            context! {
                number => label.number,
                name => label.name.as_str(),
                size => label.size.as_str(),
                group => label.group,
                left => label.left,
                top => percent(label.top),
                x => percent(label.mark.0),
                y => percent(label.mark.1),
            }
        })
        .collect();
    context! {
        svg => Value::from_safe_string(figure.svg),
        wide => format!("{:.4}", figure.aspect),
        narrow => format!("{:.4}", figure.narrow_aspect),
        up => percent(-figure.narrow_top),
        fork => fork_words(),
        labels,
        strip => strip(&picture.strip),
    }
}

pub(super) fn strip(rows: &[Portions]) -> Vec<Value> {
    let cell = |row: &Portions| {
        let share = row.share.unwrap_or(0.0);
        context! {
            name => capital(row.texture.name()),
            appearance => row.texture.appearance(),
            amount => row.amount.as_str(),
            share => row.share_words.as_str(),
            bar => row.share.map(|_| Value::from_safe_string(share_bar(
                Bar { texture: Some(row.texture), share, full: STRIP_DAYS, beyond: false },
            ))),
        }
    };
    rows.iter().map(cell).collect()
}

/// Textures on the pictures, in the order of the key.
pub(super) fn textures(pictures: &[&Picture]) -> Vec<Texture> {
    let mut textures: Vec<Texture> = pictures
        .iter()
        .flat_map(|p| p.foods.iter().map(|patch| patch.texture))
        .collect();
    textures.sort_unstable();
    textures.dedup();
    textures
}

/// What the width of a page's bars stands for, in days' shares.
pub(super) fn full_bar(handouts: &[&Handout]) -> f64 {
    let shares = handouts
        .iter()
        .flat_map(|h| &h.amounts)
        .filter_map(|row| row.line.share());
    shares.fold(1.0, f64::max).min(LONGEST_BAR_DAYS)
}

/// A plain bar: textures stand in the strip under the plate.
fn bar(row: &AmountRow, full: f64) -> Option<Value> {
    let bar = Bar {
        texture: None,
        share: row.line.share()?,
        full,
        beyond: row.line.is_beyond(),
    };
    Some(Value::from_safe_string(share_bar(bar)))
}

pub(super) fn amount(row: &AmountRow, full: f64) -> Value {
    context! {
        name => row_name(row),
        bar => bar(row, full),
        words => row.line.share().map_or_else(
            || "no day’s share is set".to_owned(),
            part_words,
        ),
        figures => amount_words(row),
        fitted => fitted_words(row),
        beyond => row.line.is_beyond(),
    }
}

fn row_name(row: &AmountRow) -> String {
    let name = capital(row.name());
    if row.line.has_pulses() {
        format!("{name}, with beans, peas, lentils")
    } else {
        name
    }
}

/// The right-sized share, or that nothing changes.
fn fitted_words(row: &AmountRow) -> Option<String> {
    let (fitted, served) = (row.fitted_share()?, row.line.share()?);
    if (fitted - served).abs() < 0.02 * served {
        return Some("the same".to_owned());
    }
    Some(part_words(fitted))
}

/// Such as `13 of 6 oz-eq (9 to 16)`.
fn amount_words(row: &AmountRow) -> String {
    let Range { low, likely, high } = row.served();
    let unit = row.line.subject.unit();
    let number = |value| number::amount(unit, value);
    let range = if high - low > likely * 0.02 && number(low) != number(high) {
        format!(" ({} to {})", number(low), number(high))
    } else {
        String::new()
    };
    let allowed = row.line.allowed();
    let day = allowed.map_or_else(String::new, |a| format!(" of {}", number(a)));
    format!("{}{day} {unit}{range}", number(likely))
}

fn amounts(handout: &Handout, full: f64) -> Vec<Value> {
    let rows = handout.amounts.iter().filter(|row| row.line.is_there());
    rows.map(|row| amount(row, full)).collect()
}

/// Groups and limits that the plate has nothing of, in one list.
fn absent(handout: &Handout) -> Option<String> {
    let rows = handout.amounts.iter().filter(|row| !row.line.is_there());
    let names: Vec<String> = rows.map(|row| row.name().to_owned()).collect();
    (!names.is_empty()).then(|| listed(&names, names.len()))
}

/// `Protein 39 g (25 to 56), carbohydrate 99 g (61 to 145) ...`; nothing where none is known.
fn nutrients(lines: &[LedgerLine]) -> Option<String> {
    let words = |line: &LedgerLine| {
        let range = line.range()?;
        let (low, high) = (number::grams(range.low), number::grams(range.high));
        let range_words = if low == high {
            String::new()
        } else {
            format!(" ({low} to {high})")
        };
        let likely = number::grams(range.likely);
        Some(format!("{} {likely} g{range_words}", line.subject.label()))
    };
    let all: Vec<String> = lines.iter().filter_map(words).collect();
    (!all.is_empty()).then(|| capital(&all.join(", ")))
}

fn portioning(handout: &Handout) -> Vec<Value> {
    let rows = handout.portioning.iter().map(|row| {
        let eat = match &row.eat {
            Eat::All => "all",
            Eat::Nothing => "none",
            Eat::Part(amount) => amount,
        };
        context! {
            food => capital(&row.food),
            served => row.served.clone(),
            eat,
            boxed => match &row.boxed {
                Some(left) if handout.boxable() && !row.boxable => format!("leave {left}"),
                left => left.clone().unwrap_or_else(|| "–".to_owned()),
            },
        }
    });
    rows.collect()
}

pub(super) fn sizes(textures: &[Texture]) -> Vec<Value> {
    everyday_sizes(textures, SIZES_SHOWN)
        .into_iter()
        .map(|size| context! { amount => size.amount, looks_like => size.looks_like })
        .collect()
}

pub(super) fn sources(handouts: &[&Handout], with_sizes: bool) -> Vec<String> {
    let mut sources: Vec<String> = Vec::new();
    for source in handouts.iter().flat_map(|h| &h.sources) {
        if !sources.contains(source) {
            sources.push(source.clone());
        }
    }
    if with_sizes {
        sources.push(SIZES_SOURCE.to_owned());
    }
    sources
}

/// The pictures of a dish: as served, then right-sized where there is one.
pub(super) fn pictures(handout: &Handout) -> Vec<&Picture> {
    let fitted = handout.fitted.as_ref().filter(|_| !fits_as_served(handout));
    std::iter::once(&handout.served).chain(fitted).collect()
}

/// Whether the right-sized plate is the served one.
fn fits_as_served(handout: &Handout) -> bool {
    let whole = |row: &Portioning| row.eat == Eat::All && row.boxed.is_none();
    !handout.portioning.is_empty() && handout.portioning.iter().all(whole)
}

/// One dish with its drawings made already, so that all of a booklet have one scale.
pub(super) fn dish(handout: &Handout, id: &str, drawn: Vec<Value>) -> Value {
    let pictures = pictures(handout);
    let fitted_caption = handout.fitted_for.as_ref().map_or_else(
        || "The right-sized plate".to_owned(),
        |room| format!("Right-sized for {room}"),
    );
    let served_caption = match &handout.fitted_for {
        Some(room) if fits_as_served(handout) => format!("As served: fits {room}"),
        _ => "As served".to_owned(),
    };
    let captions = [served_caption, fitted_caption];
    let plates: Vec<Value> = drawn
        .into_iter()
        .zip(captions)
        .map(|(drawing, caption)| context! { drawing, caption })
        .collect();
    let textures = textures(&pictures);
    let sizes = sizes(&textures);
    let lead = lead(handout);
    let lines = handout.portioning.len().max(handout.served.foods.len());
    context! {
        id,
        title => handout.title.clone(),
        dense => lines > DENSE_FROM,
        day => handout.day.clone(),
        over => lead.over,
        by_how_much => lead.by_how_much,
        glance => lead.glance,
        leave => if handout.boxable() { "Box" } else { "Leave" },
        heading => if handout.boxable() { "Eat and box" } else { "Have and leave" },
        as_served => fits_as_served(handout),
        eat => lead.eat,
        beyond => lead.beyond,
        plates,
        not_drawn => handout.not_drawn.clone(),
        amounts => amounts(handout, full_bar(&[handout])),
        absent => absent(handout),
        nutrients => nutrients(&handout.nutrients),
        has_fitted => !fits_as_served(handout) && handout.amounts.iter().any(|r| r.fitted.is_some()),
        portioning => portioning(handout),
        questions => handout.questions.clone(),
        sources => sources(&[handout], !sizes.is_empty()),
        sizes,
        cautions => handout.cautions.clone(),
    }
}

/// The picture with nothing in it that gives the answer away.
fn veiled(picture: &Picture) -> Picture {
    let mut veiled = picture.clone();
    veiled.strip.clear();
    for patch in &mut veiled.foods {
        "how much?".clone_into(&mut patch.size_words);
        patch.look.count = None;
        patch.volume_ml = Range::exact(patch.volume_ml.likely);
    }
    veiled
}

/// The veiled picture in words, as an eye would take it in: how wide, which part of the whole.
fn told(picture: &Picture) -> Vec<String> {
    let (extents, plate_cm) = extents(picture);
    let plate = plate_cm.map(|cm| format!("The plate is {cm:.0} cm across."));
    let food = |extent: &Extent| {
        let share = part_words(extent.share);
        let share = if share == "about all" { "all" } else { &share };
        let name = capital(&picture.foods[extent.food].label);
        format!(
            "{name}: {:.0} cm from end to end, {share} of the food that is seen.",
            extent.wide_cm
        )
    };
    plate.into_iter().chain(extents.iter().map(food)).collect()
}

pub(super) fn round(handout: &Handout, number: usize) -> Value {
    let (ask, answer) = (format!("q{number}"), format!("a{number}"));
    let textures = textures(&[&handout.served]);
    let foods: Vec<Value> = handout
        .served
        .foods
        .iter()
        .map(|patch| context! { name => capital(&patch.label), size => patch.size_words.clone() })
        .collect();
    let full = full_bar(&[handout]);
    let drawn = |picture: &Picture, id: &str| drawings(&[picture], id).into_iter().next();
    let veiled = veiled(&handout.served);
    context! {
        number,
        ask => ask.as_str(),
        answer => answer.as_str(),
        title => handout.title.clone(),
        day => handout.day.clone(),
        told => told(&veiled),
        veiled => drawn(&veiled, &ask),
        shown => drawn(&handout.served, &answer),
        foods,
        over => lead(handout).over,
        amounts => amounts(handout, full),
        absent => absent(handout),
        sizes => sizes(&textures),
        cautions => handout.cautions.clone(),
        sources => sources(&[handout], true),
    }
}
