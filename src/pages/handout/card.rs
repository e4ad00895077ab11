//! The card of a dish: what fits on a phone's screen at one glance.

use super::content::{AmountRow, Handout};
use super::lead::{capital, lead, share_words};
use crate::ledger::{Limit, Subject};
use crate::pages::drawing::{Card, CardShare, card};
use crate::pages::number;

/// Shares on a card.
const SHARES: usize = 4;

// That the figures are estimates stands at the head.
const NOTE: &str = "Ask about allergens. Not medical advice.";

/// The card of a dish as SVG, 1080 by 1920: its plate, energy and the three largest shares of
/// a day, what to eat.
#[must_use]
pub(crate) fn card_svg(handout: &Handout) -> String {
    let lead = lead(handout);
    card(&Card {
        title: &handout.title,
        day: &handout.day,
        picture: &handout.served,
        shares: shares(handout),
        sentence: &lead.eat,
        note: NOTE,
    })
}

/// Energy first, then the largest shares.
fn shares(handout: &Handout) -> Vec<CardShare> {
    let is_energy = |row: &&AmountRow| row.line.subject == Subject::Limit(Limit::Energy);
    let there = handout.amounts.iter().filter(|row| row.line.is_there());
    let (energy, mut others): (Vec<&AmountRow>, Vec<&AmountRow>) = there.partition(is_energy);
    let share = |row: &AmountRow| row.line.share().unwrap_or_default();
    others.sort_by(|a, b| share(b).total_cmp(&share(a)));
    let rows = energy.into_iter().chain(others);
    rows.filter_map(card_share).take(SHARES).collect()
}

fn card_share(row: &AmountRow) -> Option<CardShare> {
    let share = row.line.share()?;
    let unit = row.line.subject.unit();
    let amount = number::amount(unit, row.line.likely()?);
    Some(CardShare {
        name: capital(row.name()),
        share,
        // Room for the name beside it.
        words: format!(
            "{amount} {unit}, {}",
            share_words(share).trim_end_matches("’s share")
        ),
    })
}
