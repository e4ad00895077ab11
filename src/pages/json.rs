//! The audit as JSON, version 1. Keys are stable.

use super::reading_page;
use super::today::Today;
use crate::foods::Nutrient;
use crate::ledger::{self, Audit, AuditedComponent, LedgerLine, Verdict};
use crate::matching::Catalogue;
use crate::quantity::Range;
use serde::Serialize;

/// Version of the layout.
pub(crate) const VERSION: u32 = 1;

#[derive(Debug, Serialize)]
struct Page<'a> {
    version: u32,
    dish: Option<&'a str>,
    served_grams: Option<Span>,
    components: Vec<Component<'a>>,
    limits: Vec<Limit>,
    over: Vec<&'static str>,
    answer: &'static str,
    groups: Vec<Group>,
    nutrients: Ordered<Option<f64>>,
    energy_nutrients: Vec<Limit>,
    not_plausible: &'a [String],
    unmatched: &'a [String],
    notes: &'a [String],
    cautions: Vec<String>,
    main_unknown: Option<&'a str>,
    choices: Vec<reading_page::ChoiceRow<'a>>,
    add_ons: Vec<reading_page::AddOnRow<'a>>,
    allergens: &'a [String],
    read: Vec<reading_page::PhraseRow<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    today: Option<&'a Today>,
}

#[derive(Debug, Serialize)]
struct Component<'a> {
    text: &'a str,
    food: Option<&'a str>,
    food_id: Option<&'a str>,
    source: Option<&'a str>,
    certainty: &'static str,
    alternatives: Vec<&'a str>,
    grams: Option<Span>,
    basis: Option<&'static str>,
    free: bool,
    groups: Ordered<f64>,
    energy_kcal: Option<f64>,
}

#[derive(Debug, Serialize)]
struct Group {
    #[serde(rename = "group")]
    key: &'static str,
    unit: &'static str,
    amount: Option<Span>,
    /// What portions, allowance and share count: the amount, pulses in where they count here.
    counted: Option<Span>,
    pulses_counted: bool,
    portions: Option<f64>,
    allowance: Option<f64>,
    share: Option<f64>,
    verdict: Option<&'static str>,
    subgroups: Ordered<f64>,
}

#[derive(Debug, Serialize)]
struct Limit {
    name: &'static str,
    unit: &'static str,
    amount: Option<Span>,
    allowance: Option<f64>,
    share: Option<f64>,
    verdict: Option<&'static str>,
}

/// A range rounded for files.
#[derive(Debug, Clone, Copy, Serialize)]
pub(super) struct Span {
    low: f64,
    likely: f64,
    high: f64,
}

impl From<Range> for Span {
    fn from(range: Range) -> Self {
        Self {
            low: round(range.low),
            likely: round(range.likely),
            high: round(range.high),
        }
    }
}

/// Keys in the order given.
#[derive(Debug)]
struct Ordered<T>(Vec<(&'static str, T)>);

impl<T: Serialize> Serialize for Ordered<T> {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(key, value)| (key, value)))
    }
}

/// Three decimals: enough for any sum, short enough to read.
pub(super) fn round(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}

/// The audit as one JSON object, ending with a line break.
pub(crate) fn audit(audit: &Audit, catalogue: &Catalogue) -> Result<String, serde_json::Error> {
    audit_for(audit, catalogue, None)
}

/// The audit held against a person's day, under the further key `today`.
pub(crate) fn audit_for(
    audit: &Audit,
    catalogue: &Catalogue,
    today: Option<&Today>,
) -> Result<String, serde_json::Error> {
    let page = Page {
        version: VERSION,
        dish: audit.name.as_deref(),
        served_grams: (audit.unknown_main.is_none()).then(|| audit.served_grams().into()),
        components: audit
            .components
            .iter()
            .map(|c| component(c, catalogue))
            .collect(),
        limits: audit.ledger.limits().map(limit).collect(),
        over: audit.ledger.over().map(ledger::Limit::key).collect(),
        answer: audit.sureness().word(),
        groups: Group::all(audit).collect(),
        nutrients: Ordered(
            audit
                .nutrients
                .iter()
                .map(|(n, v)| (key(*n), v.map(round)))
                .collect(),
        ),
        energy_nutrients: audit.ledger.nutrients().map(limit).collect(),
        not_plausible: &audit.not_plausible,
        unmatched: &audit.unmatched,
        notes: &audit.notes,
        cautions: audit.all_cautions(),
        main_unknown: audit.unknown_main.as_deref(),
        choices: reading_page::choices(audit),
        add_ons: reading_page::add_ons(audit),
        allergens: &audit.line.allergens,
        read: reading_page::phrases(audit.read.as_ref()),
        today,
    };
    crate::pages::escape::json(&page)
}

fn key(nutrient: Nutrient) -> &'static str {
    nutrient.column()
}

fn component<'a>(c: &'a AuditedComponent, catalogue: &'a Catalogue) -> Component<'a> {
    let food = c.food.map(|id| catalogue.food(id));
    Component {
        text: &c.text,
        food: food.map(|f| f.name()),
        food_id: food.map(|f| f.code()),
        source: food.map(|f| f.source()),
        certainty: c.certainty.word(),
        alternatives: c
            .alternatives
            .iter()
            .map(|id| catalogue.food(*id).name())
            .collect(),
        grams: c.grams.map(Span::from),
        basis: c.basis.map(crate::weighing::Basis::word),
        free: c.free,
        groups: Ordered(c.groups().map(|(g, v)| (g.key(), round(v))).collect()),
        energy_kcal: c.energy_kcal().map(round),
    }
}

impl Group {
    fn all(audit: &Audit) -> impl Iterator<Item = Self> + '_ {
        audit
            .ledger
            .groups()
            .zip(ledger::Group::ALL)
            .map(|(line, group)| Self {
                key: group.key(),
                unit: line.subject.unit(),
                amount: line.amount.map(|amount| amount.range().into()),
                counted: line.range().map(Span::from),
                pulses_counted: line.has_pulses(),
                portions: line.portions().map(round),
                allowance: line.allowed_portions().map(round),
                share: line.share().map(round),
                verdict: line.verdict().map(Verdict::word),
                subgroups: Ordered(
                    audit
                        .subgroups_of(*group)
                        .map(|(part, amount)| (part.key(), round(amount)))
                        .collect(),
                ),
            })
    }
}

fn limit(line: LedgerLine) -> Limit {
    Limit {
        name: line.subject.key(),
        unit: line.subject.unit(),
        amount: line.range().map(Span::from),
        allowance: line.allowed().map(round),
        share: line.share().map(round),
        verdict: line.verdict().map(Verdict::word),
    }
}
