//! Random dishes for the right-sized plate: figures in the ranges of restaurant food,
//! invented, the same for the same seed.

use fastrand::Rng;
use trencher::fit::{Budget, Cap, CapKind, Item, KitchenUnit};

/// A kind of component: energy, then grains, vegetables, protein foods, dairy, oils,
/// saturated fat, added sugars, sodium, all in 100 g; and how it is served.
type Kind = (&'static str, [f64; 9], &'static str, f64, f64, bool);

const KINDS: [Kind; 10] = [
    (
        "pasta",
        [160.0, 2.1, 0.0, 0.0, 0.0, 0.0, 0.3, 0.0, 230.0],
        "cup",
        140.0,
        0.25,
        false,
    ),
    (
        "bread",
        [270.0, 3.5, 0.0, 0.0, 0.0, 2.0, 1.0, 1.0, 490.0],
        "slice",
        30.0,
        0.5,
        false,
    ),
    (
        "beef",
        [250.0, 0.0, 0.0, 3.5, 0.0, 0.0, 6.0, 0.0, 380.0],
        "oz",
        28.3495,
        0.5,
        true,
    ),
    (
        "chicken",
        [165.0, 0.0, 0.0, 3.5, 0.0, 0.0, 1.2, 0.0, 350.0],
        "wing",
        35.0,
        1.0,
        true,
    ),
    (
        "greens",
        [20.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 30.0],
        "cup",
        50.0,
        0.25,
        true,
    ),
    (
        "peppers",
        [60.0, 0.0, 0.7, 0.0, 0.0, 3.0, 0.5, 0.0, 200.0],
        "cup",
        110.0,
        0.25,
        true,
    ),
    (
        "fries",
        [310.0, 0.0, 0.9, 0.0, 0.0, 14.0, 2.3, 0.0, 210.0],
        "cup",
        60.0,
        0.25,
        false,
    ),
    (
        "cheese",
        [380.0, 0.0, 0.0, 0.0, 2.3, 0.0, 19.0, 0.0, 640.0],
        "slice",
        21.0,
        0.5,
        false,
    ),
    (
        "dressing",
        [430.0, 0.0, 0.0, 0.0, 0.1, 40.0, 7.0, 1.0, 900.0],
        "tbsp",
        15.0,
        0.5,
        false,
    ),
    (
        "dessert",
        [350.0, 1.2, 0.0, 0.1, 0.2, 5.0, 7.0, 6.0, 300.0],
        "piece",
        90.0,
        0.5,
        false,
    ),
];

/// The caps of one meal of three tenths of 2,000 kcal, times `scale`.
pub fn budget(scale: f64, firm_sodium: bool) -> Budget {
    let cap = |name: &str, unit: &str, most: f64, kind, firm| Cap {
        name: name.to_owned(),
        unit: unit.to_owned(),
        most: most * scale,
        kind,
        firm,
        trace: 0.0,
        of: "this meal".to_owned(),
    };
    Budget {
        energy_kcal: 600.0 * scale,
        of: "this meal".to_owned(),
        caps: vec![
            cap("grains", "oz-eq", 1.8, CapKind::Group, true),
            cap("vegetables", "cup-eq", 2.5, CapKind::Group, true),
            cap("protein foods", "oz-eq", 1.65, CapKind::Group, true),
            cap("dairy", "cup-eq", 0.9, CapKind::Group, true),
            cap("oils", "g", 8.1, CapKind::Group, true),
            cap("saturated fat", "g", 6.6, CapKind::Limit, true),
            cap("added sugars", "tsp-eq", 3.6, CapKind::Limit, true),
            cap("sodium", "mg", 690.0, CapKind::Limit, firm_sodium),
        ],
    }
}

/// So many components; like kinds differ by up to a fifth in every figure.
pub fn dish(rng: &mut Rng, components: usize) -> Vec<Item> {
    (0..components)
        .map(|at| {
            let (name, figures, label, each, step, keep_first) = KINDS[rng.usize(..KINDS.len())];
            let mut vary = |figure: f64| figure * (0.8 + 0.4 * rng.f64()) / 100.0;
            let energy_kcal_per_g = vary(figures[0]);
            let per_gram = figures[1..].iter().map(|f| vary(*f)).collect();
            let steps = 1.0 + 11.0 * rng.f64();
            // Half of the amounts are whole steps, half are not.
            let steps = if rng.bool() { steps.round() } else { steps };
            Item {
                name: format!("{name} {at}"),
                served_grams: steps * each * step,
                energy_kcal_per_g,
                per_gram,
                unit: KitchenUnit {
                    label: label.to_owned(),
                    grams_each: each,
                    step,
                },
                keep_first,
                sauce: name == "dressing",
                boxable: true,
                components: 1,
            }
        })
        .collect()
}
