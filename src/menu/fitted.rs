//! The fitted share: how much of the whole dish keeps a meal within its part of the day.

use super::row_component::RowComponent;
use crate::fit::{GIVES_WAY_BELOW, Measured, Room};
use crate::ledger::Limit;
use crate::matching::Catalogue;

/// The share of a dish that fits a meal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Fitted {
    /// Part of the whole dish to eat, 0 to 1.
    pub share: f64,
    /// What forbids more; nothing when the whole dish fits.
    pub limited_by: Option<Measured>,
    /// Whether sodium goes beyond the meal's room even so: keeping it would leave less than
    /// half of what everything else allows.
    pub passes_sodium: bool,
}

/// The largest share of a dish at which nothing in `room` is passed, the whole dish scaled as
/// it is: no component is traded for another. What is not firm (sodium) gives way when it
/// alone would leave less than half of what the rest allows, as on a right-sized plate.
///
/// Nothing when the energy of a component is not published. A figure that nobody published
/// for a component holds nothing.
pub(crate) fn fitted(
    components: &[RowComponent],
    room: &Room,
    catalogue: &Catalogue,
) -> Option<Fitted> {
    let counted = || {
        components
            .iter()
            .filter_map(|c| Some((catalogue.food(c.food?), c.weight?.mean)))
    };
    let amount = |what: Measured| -> Option<f64> {
        counted()
            .map(|(food, grams)| Some(what.per_gram(&food, room.pulses)? * grams))
            .sum()
    };
    let energy = Measured::Limit(Limit::Energy);
    let mut firm = Fitted {
        share: 1.0,
        limited_by: None,
        passes_sodium: false,
    };
    let kcal = amount(energy)?;
    if kcal > room.energy_kcal {
        firm.share = room.energy_kcal.max(0.0) / kcal;
        firm.limited_by = Some(energy);
    }
    let mut soft = firm;
    for most in &room.most {
        let Some(amount) = amount(most.what).filter(|a| *a > most.most) else {
            continue;
        };
        let share = most.most / amount;
        for (held, counts) in [(&mut firm, most.firm), (&mut soft, true)] {
            if counts && share < held.share {
                held.share = share;
                held.limited_by = Some(most.what);
            }
        }
    }
    if soft.share >= GIVES_WAY_BELOW * firm.share {
        return Some(soft);
    }
    Some(Fitted {
        passes_sodium: true,
        ..firm
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit::Hold;
    use crate::ledger::{Day, Group, PulsesAs, Standard};
    use crate::reading::{Dish, Place, UnitSystem, parse_component};
    use crate::weighing::{Request, estimate, match_dish};

    fn weighed(lines: &[&str], catalogue: &Catalogue) -> Vec<RowComponent> {
        let parse = |text: &&str| {
            parse_component(text, Place::new("test", 1, 1), UnitSystem::Us).expect("reads")
        };
        let dish = Dish {
            components: lines.iter().map(parse).collect(),
            ..Dish::default()
        };
        let matched = match_dish(dish, catalogue, false);
        let dish = estimate(matched, &Request::default(), catalogue).dish;
        dish.components.iter().map(RowComponent::of).collect()
    }

    /// The share of these foods that fits a meal of 30 % of 2,000 kcal.
    fn share(lines: &[&str]) -> Fitted {
        let catalogue = Catalogue::embedded().expect("catalogue");
        let standard = Standard::embedded("us-style").expect("standard");
        let day = Day {
            standard: &standard,
            energy_kcal: 2_000.0,
            pulses: PulsesAs::Vegetables,
            protein_g: None,
        };
        let room = Room::of_day(day, 0.3, "this meal", Hold::Usual);
        fitted(&weighed(lines, &catalogue), &room, &catalogue).expect("energy is known")
    }

    #[test]
    fn the_tightest_mark_holds_the_share() {
        let rice = share(&["400 g white rice, cooked, no added fat"]);
        assert_eq!(rice.limited_by, Some(Measured::Group(Group::Grains)));
        // 1.8 oz-eq in the meal; 400 g hold a little over 5 (FPED: 1 oz-eq is half a cup).
        assert!((0.25..0.45).contains(&rice.share), "{rice:?}");
        let small = share(&["50 g white rice, cooked, no added fat"]);
        assert_eq!((small.share, small.limited_by), (1.0, None));
        let greens = share(&["500 g raw spinach"]);
        assert_eq!(
            greens.limited_by, None,
            "vegetables are there to be reached"
        );
    }

    #[test]
    fn sodium_gives_way_when_it_would_halve_the_plate() {
        let brine = share(&["120 g soy sauce", "1 cup broccoli"]);
        assert!(brine.passes_sodium && brine.share > 0.99, "{brine:?}");
        let salty = share(&["50 g soy sauce"]);
        assert!(!salty.passes_sodium, "{salty:?}");
        assert_eq!(salty.limited_by, Some(Measured::Limit(Limit::Sodium)));
    }
}
