//! The contents of a booklet: every dish with its page, on pages of a known number.

use super::content::Handout;
use super::lead::lead;
use super::view;
use crate::pages::drawing::Picture;
use minijinja::context;
use minijinja::value::Value;

/// Dishes on a page of contents: what three columns of A4 and of Letter hold.
const ON_A_PAGE: usize = 60;

/// Up to so many dishes are listed with their plates, which fill the page.
const DRAWN: usize = 12;

/// The id of the page of contents that lists a dish, by its place in the booklet.
pub(super) fn page_of(place: usize) -> String {
    format!("contents{}", place / ON_A_PAGE + 1)
}

/// The pages of contents. A dish takes one printed page, in large print one or two: which is
/// then not known here.
pub(super) fn listed(handouts: &[Handout], large_print: bool) -> Vec<Value> {
    let pages = handouts.len().div_ceil(ON_A_PAGE);
    let drawn = handouts.len() <= DRAWN;
    let mut drawings = if drawn {
        let plates: Vec<&Picture> = handouts.iter().map(|h| &h.served).collect();
        view::drawings(&plates, "c").into_iter()
    } else {
        Vec::new().into_iter()
    };
    let entry = |place: usize, handout: &Handout, drawing: Option<Value>| {
        let lead = lead(handout);
        context! {
            id => format!("d{}", place + 1),
            title => handout.title.as_str(),
            page => (!large_print).then_some(pages + place + 1),
            beyond => lead.beyond,
            over => lead.over,
            glance => lead.glance,
            drawing,
        }
    };
    let chunks = handouts.chunks(ON_A_PAGE).enumerate();
    chunks
        .map(|(at, some)| {
            let before = at * ON_A_PAGE;
            let entries: Vec<Value> = some
                .iter()
                .enumerate()
                .map(|(i, handout)| entry(before + i, handout, drawings.next()))
                .collect();
            context! { id => page_of(before), first => before + 1, drawn, entries }
        })
        .collect()
}
