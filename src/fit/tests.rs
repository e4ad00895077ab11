//! The right-sized plate: caps kept, amounts servable, remarks and requests in words.

use super::asks::{Asked, Candidate, asks, swaps};
use super::*;
use proptest::prelude::*;

fn cap(name: &str, unit: &str, most: f64, kind: CapKind, firm: bool) -> Cap {
    Cap {
        name: name.to_owned(),
        unit: unit.to_owned(),
        most,
        kind,
        firm,
        trace: 0.0,
        of: "this meal".to_owned(),
    }
}

/// Grains, vegetables, saturated fat, sodium (soft).
fn budget(energy_kcal: f64) -> Budget {
    Budget {
        energy_kcal,
        of: "this meal".to_owned(),
        caps: vec![
            cap("grains", "oz-eq", 2.0, CapKind::Group, true),
            cap("vegetables", "cup-eq", 2.5, CapKind::Group, true),
            cap("saturated fat", "g", 7.0, CapKind::Limit, true),
            cap("sodium", "mg", 700.0, CapKind::Limit, false),
        ],
    }
}

fn item(name: &str, grams: f64, kcal: f64, per_100g: [f64; 4], unit: (&str, f64, f64)) -> Item {
    Item {
        name: name.to_owned(),
        served_grams: grams,
        energy_kcal_per_g: kcal / 100.0,
        per_gram: per_100g.iter().map(|v| v / 100.0).collect(),
        unit: KitchenUnit {
            label: unit.0.to_owned(),
            grams_each: unit.1,
            step: unit.2,
        },
        keep_first: per_100g[1] > 0.0,
        sauce: name == "dressing",
        boxable: true,
        components: 1,
    }
}

fn pasta(grams: f64) -> Item {
    item(
        "pasta",
        grams,
        160.0,
        [2.0, 0.0, 0.2, 100.0],
        ("cup", 140.0, 0.25),
    )
}

fn greens(grams: f64) -> Item {
    item(
        "greens",
        grams,
        25.0,
        [0.0, 1.0, 0.0, 30.0],
        ("cup", 60.0, 0.25),
    )
}

fn dressing(grams: f64) -> Item {
    item(
        "dressing",
        grams,
        430.0,
        [0.0, 0.0, 7.0, 900.0],
        ("tbsp", 15.0, 0.5),
    )
}

fn bread(grams: f64) -> Item {
    item(
        "bread",
        grams,
        270.0,
        [3.5, 0.0, 1.0, 490.0],
        ("slice", 30.0, 0.5),
    )
}

/// Breaded shrimp hold a little grain. Where the day's grains are used up that is no reason to
/// leave the shrimp.
#[test]
fn a_component_is_not_left_for_a_limit_that_it_hardly_carries() {
    let shrimp = || Item {
        keep_first: true,
        ..item(
            "shrimp",
            90.0,
            200.0,
            [0.3, 0.0, 1.0, 300.0],
            ("oz", 28.0, 0.5),
        )
    };
    let mut used_up = budget(600.0);
    used_up.caps[0].most = 0.02;
    let unfit = fit(&[shrimp()], &used_up);
    assert!(matches!(unfit, Err(Unfit::Nothing { .. })), "{unfit:?}");
    used_up.caps[0].trace = 0.3;
    let plate = fit(&[shrimp(), bread(60.0)], &used_up).unwrap();
    assert_eq!(plate.portions[0].eat, "all");
    assert_eq!(plate.portions[1].eat, "none");
    let grains = plate.uses.iter().find(|u| u.name == "grains").unwrap();
    assert!(grains.passed && grains.eaten < 0.3, "{grains:?}");
    // It is no remark on sodium or the like that gives way.
    assert!(
        !plate
            .remarks
            .iter()
            .any(|r| matches!(r, Remark::SoftPassed { .. }))
    );
}

#[test]
fn what_fits_is_eaten_as_served() {
    let plate = fit(&[pasta(70.0), greens(65.0)], &budget(600.0)).unwrap();
    assert!(plate.is_whole());
    assert_eq!(plate.remarks, [Remark::Whole]);
    assert_eq!(plate.portions[1].eat, "all");
    assert_eq!(plate.portions[1].boxed, "");
    assert!(plate.distance.abs() < 1e-12 && plate.gap.abs() < 1e-12);
}

#[test]
fn grains_are_cut_to_their_cap_in_quarter_cups() {
    let plate = fit(&[pasta(420.0), greens(90.0)], &budget(900.0)).unwrap();
    // 2 oz-eq are 100 g: 2 quarter cups of 35 g are within, 3 are over.
    let pasta = &plate.portions[0];
    assert_eq!((pasta.eat.as_str(), pasta.eat_grams), ("1/2 cup", 70.0));
    assert_eq!(pasta.boxed, "2 1/2 cups");
    assert_eq!(pasta.limited_by, ["grains"]);
    assert_eq!(plate.portions[1].eat, "all");
    let grains = plate.uses.iter().find(|u| u.name == "grains").unwrap();
    assert!(grains.binds && !grains.passed);
    assert!((grains.eaten - 1.4).abs() < 1e-9 && (grains.served - 8.4).abs() < 1e-9);
    assert_eq!(
        plate.remarks[0].to_string(),
        "the pasta alone holds more grains than this meal allows: 8.4 oz-eq served, 2.0 oz-eq \
         allowed"
    );
    let by_weight: f64 = plate.portions.iter().map(|p| p.share_by_weight).sum();
    let by_energy: f64 = plate.portions.iter().map(|p| p.share_by_energy).sum();
    assert!((by_weight - 1.0).abs() < 1e-9 && (by_energy - 1.0).abs() < 1e-9);
}

#[test]
fn vegetables_are_kept_when_energy_is_short() {
    let rice = item(
        "rice",
        200.0,
        100.0,
        [0.5, 0.0, 0.0, 0.0],
        ("cup", 160.0, 0.25),
    );
    let peas = item(
        "peas",
        200.0,
        100.0,
        [0.0, 0.5, 0.0, 0.0],
        ("cup", 160.0, 0.25),
    );
    let plate = fit(&[rice, peas], &budget(300.0)).unwrap();
    assert!(plate.portions[1].eat_grams > plate.portions[0].eat_grams);
}

#[test]
fn a_step_too_large_is_said() {
    let mut tight = budget(600.0);
    tight.caps[0].most = 0.4;
    let plate = fit(&[bread(60.0), greens(60.0)], &tight).unwrap();
    assert_eq!(plate.portions[0].eat, "none");
    assert_eq!(
        plate.remarks[0].to_string(),
        "no bread: 1/2 slice already has 0.53 oz-eq of grains, this meal allows 0.40 oz-eq"
    );
}

#[test]
fn nothing_that_fits_is_said_component_by_component() {
    let mut spent = budget(600.0);
    spent.caps[0].most = 0.0;
    let unfit = fit(&[bread(60.0)], &spent).unwrap_err();
    let Unfit::Nothing { reasons } = &unfit else {
        panic!("{unfit:?}")
    };
    assert_eq!(reasons.len(), 1);
    assert!(
        unfit
            .to_string()
            .starts_with("nothing of the dish fits: no bread")
    );
    assert!(matches!(
        fit(&[bread(60.0)], &budget(0.0)),
        Err(Unfit::Spent { .. })
    ));
    assert!(matches!(
        fit(&[bread(60.0)], &budget(-80.0)),
        Err(Unfit::Spent { .. })
    ));
    assert_eq!(fit(&[], &budget(600.0)), Err(Unfit::Empty));
}

#[test]
fn figures_that_cannot_be_used_are_refused_by_name() {
    let refused = |item: Item, budget: &Budget| fit(&[item], budget).unwrap_err().to_string();
    let wrong = Item {
        served_grams: 0.0,
        ..bread(60.0)
    };
    assert_eq!(
        refused(wrong, &budget(600.0)),
        "the served weight of `bread` is 0; it must be a number above 0"
    );
    let wrong = Item {
        energy_kcal_per_g: f64::NAN,
        ..bread(60.0)
    };
    assert!(refused(wrong, &budget(600.0)).contains("the energy of `bread` is NaN"));
    let wrong = Item {
        per_gram: vec![0.1],
        ..bread(60.0)
    };
    assert_eq!(
        refused(wrong, &budget(600.0)),
        "`bread` has 1 figures for 4 caps; give one for each"
    );
    let mut negative = budget(600.0);
    negative.caps[1].most = -1.0;
    assert!(refused(bread(60.0), &negative).contains("the most of `vegetables` is -1"));
    let mut none = bread(60.0);
    none.unit.step = 0.0;
    assert!(refused(none, &budget(600.0)).contains("the kitchen step of `bread`"));
}

#[test]
fn sodium_is_kept_when_half_of_the_plate_remains() {
    // 2 slices hold 294 mg, 100 g of pasta 100 mg, 4 tbsp of dressing 540 mg.
    let plate = fit(
        &[bread(30.0), greens(240.0), dressing(75.0)],
        &budget(900.0),
    )
    .unwrap();
    let sodium = plate.uses.iter().find(|u| u.name == "sodium").unwrap();
    assert!(
        sodium.served > 700.0 && sodium.eaten <= 700.0 && !sodium.passed,
        "{sodium:?}"
    );
}

#[test]
fn sodium_that_would_cost_the_plate_is_reported_instead() {
    let soup = item(
        "soup",
        480.0,
        40.0,
        [0.1, 0.2, 0.3, 400.0],
        ("cup", 240.0, 0.25),
    );
    let mut strict = budget(600.0);
    strict.caps[3].most = 300.0;
    let plate = fit(&[soup], &strict).unwrap();
    assert!(plate.is_whole());
    assert_eq!(
        plate.remarks[1].to_string(),
        "sodium stays over that of this meal, 1,920 mg of 300 mg: keeping to it would leave \
         less than half of this plate"
    );
    assert!(plate.uses.iter().any(|u| u.name == "sodium" && u.passed));
}

#[test]
fn the_component_written_first_keeps_more_of_two_alike() {
    let twin = |name| Item {
        name: String::from(name),
        ..bread(60.0)
    };
    let plate = fit(&[twin("first"), twin("second")], &budget(600.0)).unwrap();
    assert!(plate.portions[0].eat_grams >= plate.portions[1].eat_grams);
    let again = fit(&[twin("first"), twin("second")], &budget(600.0)).unwrap();
    assert_eq!(plate, again);
}

#[test]
fn a_tray_for_a_party_is_served_in_coarser_steps() {
    let plate = fit(&[pasta(40_000.0), greens(30.0)], &budget(60_000.0)).unwrap();
    // 40,000 g in quarter cups would be over a thousand steps, and one coarser step is more
    // than this meal's grains.
    assert_eq!(plate.portions[0].eat, "none");
    assert_eq!(plate.portions[1].eat, "all");
}

#[test]
fn the_kitchen_is_asked_for_what_changes_most() {
    let items = [pasta(280.0), greens(90.0), dressing(60.0)];
    let plate = fit(&items, &budget(300.0)).unwrap();
    let squash = Candidate {
        name: "squash noodles".to_owned(),
        energy_kcal_per_g: 0.2,
        per_gram: vec![0.0, 0.006, 0.0, 0.1],
        unit: KitchenUnit::ounces(),
        grams: None,
    };
    let lean = Candidate {
        name: "barley".to_owned(),
        energy_kcal_per_g: 1.2,
        per_gram: vec![0.02, 0.0, 0.0, 0.03],
        unit: KitchenUnit::of("cup", 160.0, 0.25),
        grams: None,
    };
    let asked = asked(&items, &plate, &[squash, lean]);
    let found = asks(&items, &budget(300.0), &asked).unwrap();
    let said: Vec<(&str, &AskWhat)> = found.iter().map(|a| (a.item.as_str(), &a.what)).collect();
    let barley = AskWhat::Swap {
        with: "barley".to_owned(),
        amount: "1 3/4 cups".to_owned(),
    };
    // Half the pasta brings the grains and the energy down the furthest; barley has as much
    // grain, so it only saves energy; a vegetable is no swap for a grain.
    assert_eq!(
        said,
        [
            ("pasta", &AskWhat::Half),
            ("dressing", &AskWhat::OnTheSide),
            ("pasta", &barley),
        ]
    );
    assert!((found[0].kcal_saved - 224.0).abs() < 1e-9);
    let helps = found[0].helps.as_ref().unwrap();
    assert_eq!(helps.name, "grains");
    assert!((helps.before - 5.6).abs() < 1e-9 && (helps.after - 2.8).abs() < 1e-9);
    assert!(found[0].over_after < found[0].over_before);
    assert!((found[1].kcal_saved - 129.0).abs() < 1e-9);
}

/// What is known for asking, each with the same candidates.
fn asked(items: &[Item], plate: &Plate, candidates: &[Candidate]) -> Vec<Asked> {
    items
        .iter()
        .zip(&plate.portions)
        .map(|(item, portion)| Asked {
            kept: portion.eat_grams / item.served_grams,
            topping: false,
            candidates: candidates.to_vec(),
        })
        .collect()
}

#[test]
fn a_topping_is_left_off_and_a_kitchen_serves_its_own_amount() {
    let mut cheese = item(
        "cheese",
        30.0,
        400.0,
        [0.0, 0.0, 19.0, 600.0],
        ("slice", 20.0, 0.5),
    );
    cheese.keep_first = false;
    let items = [pasta(280.0), cheese];
    let slaw = Candidate {
        name: "slaw".to_owned(),
        energy_kcal_per_g: 0.5,
        per_gram: vec![0.0, 0.01, 0.0, 0.0],
        unit: KitchenUnit::of("cup", 100.0, 0.25),
        grams: Some(100.0),
    };
    let asked = [
        Asked {
            kept: 0.5,
            topping: false,
            candidates: vec![slaw],
        },
        Asked {
            kept: 0.5,
            topping: true,
            candidates: Vec::new(),
        },
    ];
    let found = asks(&items, &budget(300.0), &asked).unwrap();
    let of = |name: &str| found.iter().filter(|a| a.item == name).collect::<Vec<_>>();
    assert_eq!(of("cheese").len(), 1);
    assert_eq!(of("cheese")[0].what, AskWhat::LeaveOut);
    let swap = AskWhat::Swap {
        with: "slaw".to_owned(),
        amount: "1 cup".to_owned(),
    };
    assert!(
        of("pasta")
            .iter()
            .any(|a| a.what == swap && (a.kcal_saved - 398.0).abs() < 1e-9)
    );
}

#[test]
fn a_swap_gives_as_much_of_the_group_and_breaks_no_cap() {
    let items = [bread(60.0)];
    let candidate = |name: &str, kcal: f64, grains: f64, fat: f64| Candidate {
        name: name.to_owned(),
        energy_kcal_per_g: kcal,
        per_gram: vec![grains, 0.0, fat, 0.0],
        unit: KitchenUnit {
            label: "piece".to_owned(),
            grams_each: 30.0,
            step: 1.0,
        },
        grams: None,
    };
    let candidates = [
        candidate("thin bread", 2.0, 0.035, 0.0),
        candidate("pastry", 1.5, 0.035, 0.2),
        candidate("rich bread", 3.0, 0.035, 0.0),
        candidate("bread", 1.0, 0.035, 0.0),
    ];
    let found = swaps(&items, 0, &candidates, &budget(600.0)).unwrap();
    assert_eq!(found.len(), 1);
    assert_eq!(
        (found[0].with.as_str(), found[0].amount.as_str()),
        ("thin bread", "2 pieces")
    );
    assert!((found[0].kcal_saved - 42.0).abs() < 1e-9);
    assert_eq!(found[0].group, "grains");
    // No group, no swap; no such component, no swap.
    let water = item("water", 200.0, 0.0, [0.0; 4], ("fl oz", 30.0, 1.0));
    assert_eq!(swaps(&[water], 0, &candidates, &budget(600.0)).unwrap(), []);
    assert_eq!(swaps(&items, 9, &candidates, &budget(600.0)).unwrap(), []);
}

prop_compose! {
    fn any_item()(
        grams in 1.0..900.0_f64,
        kcal in 0.0..9.0_f64,
        per_gram in prop::collection::vec(prop_oneof![Just(0.0), 0.0..0.5_f64], 4),
        each in 2.0..400.0_f64,
        step in prop::sample::select(vec![0.25, 0.5, 1.0]),
        keep_first: bool,
        sauce: bool,
    ) -> Item {
        Item {
            name: "food".to_owned(),
            served_grams: grams,
            energy_kcal_per_g: kcal,
            per_gram,
            unit: KitchenUnit { label: "piece".to_owned(), grams_each: each, step },
            keep_first,
            sauce,
            boxable: true,
            components: 1,
        }
    }
}

prop_compose! {
    fn any_budget()(
        energy in 1.0..2500.0_f64,
        most in prop::collection::vec(prop_oneof![Just(0.0), 0.0..60.0_f64, Just(1e6)], 4),
    ) -> Budget {
        let mut budget = budget(energy);
        budget.caps.iter_mut().zip(most).for_each(|(cap, most)| cap.most = most);
        budget
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn no_firm_cap_is_ever_passed(
        items in prop::collection::vec(any_item(), 1..9),
        budget in any_budget(),
    ) {
        let Ok(plate) = fit(&items, &budget) else {
            // What is refused is nothing at all: the smallest step of each is too much.
            let nothing = matches!(fit(&items, &budget), Err(Unfit::Nothing { .. }));
            prop_assert!(nothing);
            return Ok(());
        };
        let again = fit(&items, &budget);
        prop_assert_eq!(again.as_ref(), Ok(&plate));
        let energy: f64 =
            items.iter().zip(&plate.portions).map(|(i, p)| i.energy_kcal_per_g * p.eat_grams).sum();
        prop_assert!(energy <= budget.energy_kcal * (1.0 + 1e-5) + 1e-6);
        prop_assert!((energy - plate.eat_kcal).abs() < 1e-6);
        for (at, cap) in budget.caps.iter().enumerate() {
            let sum: f64 =
                items.iter().zip(&plate.portions).map(|(i, p)| i.per_gram[at] * p.eat_grams).sum();
            let within = sum <= cap.most * (1.0 + 1e-5) + 1e-6;
            let shown = &plate.uses[at + 1];
            prop_assert_eq!(within, !shown.passed);
            prop_assert!(within || !cap.firm, "{} is passed: {sum} of {}", cap.name, cap.most);
        }
        for (item, portion) in items.iter().zip(&plate.portions) {
            let steps = portion.eat_grams / item.unit.step_grams();
            let all = (portion.eat_grams - item.served_grams).abs() < 1e-9 * item.served_grams;
            prop_assert!(all || (steps - steps.round()).abs() < 1e-6);
            prop_assert!(portion.eat_grams >= 0.0 && portion.eat_grams <= item.served_grams + 1e-9);
            prop_assert!((portion.eat_grams + portion.box_grams - item.served_grams).abs() < 1e-6 * item.served_grams);
        }
    }

    #[test]
    fn requests_never_fail_and_save_what_they_say(
        items in prop::collection::vec(any_item(), 1..6),
        budget in any_budget(),
    ) {
        let Ok(plate) = fit(&items, &budget) else { return Ok(()) };
        let found = asks(&items, &budget, &asked(&items, &plate, &[])).unwrap();
        prop_assert!(found.len() <= items.len());
        for pair in found.windows(2) {
            let key = |a: &Ask| (a.over_after * 100.0).round();
            prop_assert!(key(&pair[0]) <= key(&pair[1]));
        }
        for ask in &found {
            prop_assert!(ask.kcal_saved >= 0.0 && ask.over_after <= ask.over_before + 1e-9);
        }
    }
}
