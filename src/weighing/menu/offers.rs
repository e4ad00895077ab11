//! A dish that is offered in several sizes: all are weighed, their middle is counted, and the
//! range spans them.

use super::draft::MenuContext;
use crate::foods::Nutrient;
use crate::quantity::{Estimate, Range};
use crate::reading::{MenuLine, Offer, PLAIN};
use crate::weighing::component::WeighedComponent;
use crate::weighing::request::Estimated;

/// One size, weighed.
struct Size<'o> {
    said: &'o str,
    estimated: Estimated,
    grams: Range,
}

/// The dish in the middle of all sizes; `None` where not all of them can be weighed, or they
/// differ in nothing.
pub(super) fn several(
    offers: &[Offer],
    context: MenuContext<'_>,
    one: &dyn Fn(&MenuLine) -> Estimated,
) -> Option<Estimated> {
    let mut sizes = Vec::with_capacity(offers.len());
    let whole = offers.iter().find(|offer| is_whole(offer));
    for offer in offers {
        let share = offer.line.serving.share.filter(|share| *share < 1.0);
        let estimated = match share.zip(whole) {
            // Half is half of what is offered whole beside it.
            Some((share, whole)) => part_of(one(&whole.line), share),
            None => one(&offer.line),
        };
        let grams = weight(&estimated)?;
        sizes.push(Size {
            said: &offer.said,
            estimated,
            grams,
        });
    }
    sizes.sort_by(|a, b| a.grams.likely.total_cmp(&b.grams.likely));
    let (low, high) = (sizes.first()?.grams, sizes.last()?.grams);
    let told = sizes
        .iter()
        .map(|size| told(size, context))
        .collect::<Vec<_>>()
        .join(", ");
    let mean = sizes.iter().map(|size| size.grams.likely).sum::<f64>() / sizes.len() as f64;
    let middle = sizes.swap_remove((sizes.len() - 1) / 2);
    let factor = mean / middle.grams.likely;
    let span = Estimate::from_range(Range::new(low.low, mean, high.high)).log_sd;
    let mut estimated = middle.estimated;
    estimated.one_serving = false;
    let step = format!("in the middle of {} sizes: x {factor:.2}", offers.len());
    for c in &mut estimated.dish.components {
        c.change(step.clone(), |grams| Estimate {
            log_sd: span.max(grams.log_sd),
            ..grams.times(factor)
        });
    }
    estimated.notes.push(format!(
        "offered in several sizes ({told}): their middle is counted and the range spans them; \
         name one for its own figure"
    ));
    Some(estimated)
}

/// Whether a size is the whole dish, of which others are a part.
fn is_whole(offer: &Offer) -> bool {
    ["full", "whole", PLAIN].contains(&offer.said.to_lowercase().as_str())
}

/// A share of a dish.
fn part_of(mut whole: Estimated, share: f64) -> Estimated {
    let told = format!("{:.0} % of the whole", share * 100.0);
    for c in &mut whole.dish.components {
        c.change(told.clone(), |grams| grams.times(share));
    }
    whole
}

/// What a size comes to, for the note.
fn told(size: &Size<'_>, context: MenuContext<'_>) -> String {
    let energy: f64 = size
        .estimated
        .dish
        .components
        .iter()
        .filter_map(|c| {
            let food = context.catalogue().food(c.matched.food?);
            Some(food.per_100g(Nutrient::EnergyKcal)? * c.grams()?.mean / 100.0)
        })
        .sum();
    format!("{} {:.0} g, {energy:.0} kcal", size.said, size.grams.likely)
}

/// Grams of a dish of which all that matters is weighed.
fn weight(estimated: &Estimated) -> Option<Range> {
    let components = &estimated.dish.components;
    if components.iter().any(WeighedComponent::is_unknown_main) {
        return None;
    }
    let grams: Vec<Range> = components
        .iter()
        .filter_map(WeighedComponent::grams)
        .map(Estimate::range)
        .collect();
    let sum = |end: fn(&Range) -> f64| grams.iter().map(end).sum::<f64>();
    let all = Range::new(sum(|r| r.low), sum(|r| r.likely), sum(|r| r.high));
    (all.low > 0.0).then_some(all)
}
