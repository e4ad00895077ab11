//! From matched components to weighed ones: what was said first, then what nobody said.

use super::apart::foods_apart;
use super::component::{MatchedComponent, match_with, weigh_dish};
use super::finds::Finds;
use super::kinds::kind_named;
use super::passes::{Circumstances, Progress, SAID, SERVED, UNSAID, WHOLE, run};
use super::request::{Estimated, Request};
use super::typical::Setting;
use crate::matching::Catalogue;
use crate::reading::{ComponentLine, Dish};

/// Matches and weighs a dish.
#[must_use]
pub(crate) fn estimate_with(
    dish: Dish<ComponentLine>,
    request: &Request,
    finds: &Finds<'_>,
    british: bool,
) -> Estimated {
    let mut dish = dish;
    if !request.other_kitchen {
        dish.components = foods_apart(dish.components, finds, british);
    }
    let matched = match_with(dish, british, finds);
    estimate(matched, request, finds.catalogue())
}

/// Weighs a dish whose components are matched: stated amounts, shares of a vessel, then
/// usual amounts, all within the served weight if that is known.
#[must_use]
pub fn estimate(
    dish: Dish<MatchedComponent>,
    request: &Request,
    catalogue: &Catalogue,
) -> Estimated {
    let around = Circumstances {
        request: *request,
        catalogue,
        kind: dish.kind.as_deref().and_then(kind_named),
        setting: Setting::Anywhere,
        has_sides: false,
        serving: None,
    };
    let stated = Progress {
        dish: weigh_dish(dish, catalogue),
        notes: Vec::new(),
    };
    let passes = [&SAID[..], &UNSAID, &SERVED, &WHOLE].concat();
    let Progress { dish, notes } = run(&passes, stated, &around);
    Estimated {
        one_serving: dish.served.is_none(),
        dish,
        notes,
    }
}

#[cfg(test)]
mod tests {
    use super::super::component::match_dish;
    use super::*;
    use crate::reading::{Place, UnitSystem, parse_component};

    fn factor(text: &str) -> f64 {
        let catalogue = Catalogue::embedded().expect("catalogue");
        let line = parse_component(text, Place::new("test", 1, 1), UnitSystem::Us).expect("reads");
        let dish = Dish {
            components: vec![line],
            ..Dish::default()
        };
        let matched = match_dish(dish, &catalogue, false);
        let weighed = estimate(matched, &Request::default(), &catalogue).dish;
        weighed.components[0].grams().map_or(0.0, |g| g.mean) / 130.0
    }

    /// The order of the words decides nothing: what is cooked weighs what it weighs, what is
    /// dry or in its shell changes (factors of the tables above).
    #[test]
    fn a_weight_is_that_of_the_state_that_is_said() {
        for (text, expected) in [
            ("130 g pinto beans, cooked from dried, no added fat", 1.0),
            ("130 g cooked dried lentils", 1.0),
            ("130 g black beans, from dried", 1.0),
            ("130 g lentils", 1.0),
            // Dry foods of their own, with dry figures.
            ("130 g dried lentils", 1.0),
            ("130 g black beans, dry", 1.0),
            ("130 g white rice before cooking", 2.75),
            ("130 g chicken wings, bone-in", 0.60),
            ("130 g chicken thigh, bone-in", 0.76),
            ("130 g oysters on the half shell", 1.0),
        ] {
            let got = factor(text);
            assert!((got - expected).abs() < 1e-6, "{text}: {got}");
        }
    }
}
