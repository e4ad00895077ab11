//! The right-sized plate as JSON and CSV. Keys are stable.

use super::super::csv_table::{csv_table, figure};
use super::super::escape::cell as guard;
use super::super::json::{Span, round};
use super::text::wish;
use super::{Fitted, Row};
use crate::fit::{Ask, AskWhat, Portion, Swap, Unfit};
use crate::ledger::Audit;
use serde::Serialize;

/// Version of the layout.
const VERSION: u32 = 1;

#[derive(Debug, Serialize)]
struct Page<'a> {
    version: u32,
    dish: Option<&'a str>,
    /// `whole`, `reduced`, `nothing` or `spent`.
    outcome: &'static str,
    against: Against<'a>,
    served: Amount,
    eat: Option<Amount>,
    kept: Option<Kept>,
    components: Vec<Component<'a>>,
    amounts: Vec<AmountJson>,
    decided_by: Vec<String>,
    remarks: Vec<String>,
    asks: Vec<Request>,
    swaps: Vec<Instead<'a>>,
    left_out: Vec<&'a str>,
    distance: Option<f64>,
    gap: Option<f64>,
    notes: &'a [String],
    cautions: Vec<String>,
}

#[derive(Debug, Serialize)]
struct Against<'a> {
    of: &'a str,
    share: Option<f64>,
    energy_kcal: f64,
    day_energy_kcal: f64,
    standard: &'a str,
}

#[derive(Debug, Serialize)]
struct Amount {
    grams: Span,
    energy_kcal: Option<Span>,
}

#[derive(Debug, Serialize)]
struct Kept {
    by_weight: f64,
    by_energy: f64,
}

#[derive(Debug, Serialize)]
struct Component<'a> {
    name: &'a str,
    /// The components of the dish that it is made of, as written.
    made_of: Vec<&'a str>,
    served_grams: f64,
    eat: Option<&'a str>,
    eat_grams: Option<f64>,
    r#box: Option<&'a str>,
    box_grams: Option<f64>,
    boxable: Option<bool>,
    energy_kcal: Option<f64>,
    held_by: &'a [String],
}

#[derive(Debug, Serialize)]
struct AmountJson {
    name: &'static str,
    unit: &'static str,
    served: Option<f64>,
    eaten: Option<f64>,
    most: Option<f64>,
    of: Option<String>,
    beyond: bool,
    decides: bool,
}

#[derive(Debug, Serialize)]
struct Request {
    component: String,
    /// `on_the_side`, `half`, `leave_out` or `swap`.
    what: &'static str,
    text: String,
    with: Option<String>,
    amount: Option<String>,
    kcal_saved: f64,
    helps: Option<Helped>,
}

#[derive(Debug, Serialize)]
struct Helped {
    name: String,
    unit: String,
    before: f64,
    after: f64,
    most: f64,
}

#[derive(Debug, Serialize)]
struct Instead<'a> {
    component: &'a str,
    with: &'a str,
    amount: &'a str,
    grams: f64,
    group: &'a str,
    kcal_saved: f64,
}

/// The page as one JSON object, ending with a line break.
pub(crate) fn json(page: &Fitted<'_>) -> Result<String, serde_json::Error> {
    let answer = page.outcome.as_ref().ok();
    let plate = answer.map(|a| &a.sized.plate);
    let object = Page {
        version: VERSION,
        dish: page.dish.name.as_deref(),
        outcome: outcome(page),
        against: Against {
            of: &page.room.of,
            share: page.against.share.map(round),
            energy_kcal: round(page.room.energy_kcal),
            day_energy_kcal: round(page.against.day.energy_kcal),
            standard: &page.served.standard,
        },
        served: amount(page.served),
        eat: answer.map(|a| amount(a.eaten)),
        kept: plate.map(|p| Kept {
            by_weight: round(p.kept_by_weight()),
            by_energy: round(p.kept_by_energy()),
        }),
        components: components(page),
        amounts: page.rows().into_iter().map(held).collect(),
        decided_by: page.decided_by(),
        remarks: remarks(page),
        asks: page.requests.asks.iter().map(request).collect(),
        swaps: page.requests.swaps.iter().map(instead).collect(),
        left_out: page
            .fitting
            .left_out
            .iter()
            .map(|at| page.dish.components[*at].matched.line.text.as_str())
            .collect(),
        distance: plate.map(|p| round(p.distance)),
        gap: plate.map(|p| round(p.gap)),
        notes: page.notes,
        cautions: page.served.all_cautions(),
    };
    crate::pages::escape::json(&object)
}

fn outcome(page: &Fitted<'_>) -> &'static str {
    match &page.outcome {
        Ok(answer) if answer.sized.plate.is_whole() => "whole",
        Ok(_) => "reduced",
        Err(Unfit::Spent { .. }) => "spent",
        Err(_) => "nothing",
    }
}

fn amount(audit: &Audit) -> Amount {
    Amount {
        grams: audit.served_grams().into(),
        energy_kcal: audit.ledger.energy().map(Span::from),
    }
}

fn components<'a>(page: &Fitted<'a>) -> Vec<Component<'a>> {
    let portions: &'a [Portion] = match page.outcome {
        Ok(answer) => &answer.sized.plate.portions,
        Err(_) => &[],
    };
    let items = page.fitting.items.iter().zip(&page.fitting.members);
    items
        .enumerate()
        .map(|(at, (item, members))| {
            let portion = portions.get(at);
            let text = |m: &crate::fit::Member| {
                page.dish.components[m.component].matched.line.text.as_str()
            };
            Component {
                name: &item.name,
                made_of: members.iter().map(text).collect(),
                served_grams: round(item.served_grams),
                eat: portion.map(|p| p.eat.as_str()),
                eat_grams: portion.map(|p| round(p.eat_grams)),
                r#box: portion.map(|p| p.boxed.as_str()),
                box_grams: portion.map(|p| round(p.box_grams)),
                boxable: portion.map(|p| p.boxable),
                energy_kcal: portion.map(|p| round(p.energy_kcal)),
                held_by: portion.map_or(&[], |p| p.limited_by.as_slice()),
            }
        })
        .collect()
}

fn held(row: Row) -> AmountJson {
    let (most, of) = row.held.unzip();
    AmountJson {
        name: row.key,
        unit: row.unit,
        served: row.served.map(round),
        eaten: row.eaten.map(round),
        most: most.map(round),
        of,
        beyond: row.passed && !row.is_group,
        decides: row.decides,
    }
}

fn remarks(page: &Fitted<'_>) -> Vec<String> {
    match page.outcome {
        Ok(answer) => {
            let remarks = answer.sized.plate.remarks.iter();
            remarks.map(ToString::to_string).collect()
        }
        Err(Unfit::Nothing { reasons }) => reasons.iter().map(ToString::to_string).collect(),
        Err(other) => vec![other.to_string()],
    }
}

fn request(ask: &Ask) -> Request {
    let (what, with, amount) = match &ask.what {
        AskWhat::OnTheSide => ("on_the_side", None, None),
        AskWhat::Half => ("half", None, None),
        AskWhat::LeaveOut => ("leave_out", None, None),
        AskWhat::Swap { with, amount } => ("swap", Some(with.clone()), Some(amount.clone())),
    };
    Request {
        component: ask.item.clone(),
        what,
        text: wish(ask),
        with,
        amount,
        kcal_saved: round(ask.kcal_saved),
        helps: ask.helps.as_ref().map(|h| Helped {
            name: h.name.clone(),
            unit: h.unit.clone(),
            before: round(h.before),
            after: round(h.after),
            most: round(h.most),
        }),
    }
}

fn instead(swap: &Swap) -> Instead<'_> {
    Instead {
        component: &swap.item,
        with: &swap.with,
        amount: &swap.amount,
        grams: round(swap.grams),
        group: &swap.group,
        kcal_saved: round(swap.kcal_saved),
    }
}

/// The page as CSV: components, then groups and limits, then requests. Empty cells where
/// nothing is known or nothing is held. Fails only when memory does.
pub(crate) fn csv(page: &Fitted<'_>) -> Result<String, csv::Error> {
    let components = components(page).into_iter().map(|c| {
        [
            "component".to_owned(),
            guard(c.name),
            "g".to_owned(),
            figure(c.served_grams),
            figure(c.eat_grams),
            figure(c.box_grams),
            String::new(),
            c.eat.unwrap_or("").to_owned(),
        ]
    });
    let amounts = page.rows().into_iter().map(held).map(|row| {
        [
            "amount".to_owned(),
            row.name.to_owned(),
            row.unit.to_owned(),
            figure(row.served),
            figure(row.eaten),
            String::new(),
            figure(row.most),
            row.of.unwrap_or_default(),
        ]
    });
    let asks = page.requests.asks.iter().map(|ask| {
        [
            "ask".to_owned(),
            guard(&ask.item),
            "kcal".to_owned(),
            String::new(),
            figure(ask.kcal_saved),
            String::new(),
            String::new(),
            guard(&wish(ask)),
        ]
    });
    let header = "row,name,unit,served,eat,box,most,text";
    csv_table(header, components.chain(amounts).chain(asks))
}
