//! Published allowances, and faults in files.

use super::*;

fn patterns() -> impl Iterator<Item = Standard> {
    ["us-style", "vegetarian", "mediterranean"]
        .into_iter()
        .filter_map(Standard::embedded)
}

#[test]
fn every_built_in_standard_reads() {
    for (id, text) in EMBEDDED {
        let standard = Standard::parse(text).unwrap_or_else(|e| panic!("{id}: {e}"));
        assert_eq!(standard.id, id);
    }
    assert_eq!(
        patterns().map(|s| s.levels().len()).collect::<Vec<_>>(),
        [12, 12, 12]
    );
}

/// Dietary Guidelines for Americans 2020-2025, Tables A3-2, A3-4, A3-5: weekly
/// vegetable subgroups make the daily total (published rounded to half cups).
#[test]
fn weekly_vegetables_make_the_daily_total() {
    for standard in patterns() {
        for level in standard.levels().to_vec() {
            let part = |s| {
                standard
                    .subgroup_allowance(level, Group::Vegetables, s)
                    .unwrap()
            };
            let own = |g| {
                standard
                    .allowance(level, g, PulsesAs::Vegetables)
                    .unwrap()
                    .amount
            };
            let sum: f64 = Subgroup::of(Group::Vegetables)
                .iter()
                .map(|s| part(*s))
                .sum::<f64>()
                + own(Group::Pulses);
            let total = own(Group::Vegetables);
            assert!(
                (sum - total).abs() <= 0.26,
                "{} {level}: {sum} for {total}",
                standard.id
            );
        }
    }
}

/// Same tables: whole and refined grains make the total.
#[test]
fn grains_add_up() {
    for standard in patterns() {
        for level in standard.levels().to_vec() {
            let part = |s| {
                standard
                    .subgroup_allowance(level, Group::Grains, s)
                    .unwrap()
            };
            let total = standard
                .allowance(level, Group::Grains, PulsesAs::Vegetables)
                .unwrap()
                .amount;
            let sum = part(Subgroup::WholeGrains) + part(Subgroup::RefinedGrains);
            assert!(
                (sum - total).abs() < 0.01,
                "{} {level}: {sum} for {total}",
                standard.id
            );
        }
    }
}

/// Same tables, row "limit on calories for other uses": printed percent of the level at
/// 1,000 to 3,200 kcal, U.S.-Style.
#[test]
fn other_uses_agree_with_the_printed_percent() {
    let standard = Standard::embedded("us-style").unwrap();
    let printed = [
        13.0, 7.0, 6.0, 6.0, 8.0, 12.0, 11.0, 13.0, 13.0, 13.0, 15.0, 18.0,
    ];
    for (level, percent) in standard.levels().to_vec().into_iter().zip(printed) {
        let share = standard.other_uses_kcal(level).unwrap() / level * 100.0;
        assert!(
            (share - percent).abs() < 0.51,
            "{level}: {share:.1} for {percent}"
        );
    }
}

/// Cells of Table A3-2 at 2,000 kcal.
#[test]
fn two_thousand_kcal_cells() {
    let standard = Standard::embedded("us-style").unwrap();
    let own = |g| {
        standard
            .allowance(2000.0, g, PulsesAs::Vegetables)
            .unwrap()
            .amount
    };
    let cells = [
        (Group::Fruits, 2.0),
        (Group::Vegetables, 2.5),
        (Group::Grains, 6.0),
        (Group::ProteinFoods, 5.5),
        (Group::Dairy, 3.0),
        (Group::Oils, 27.0),
    ];
    for (group, amount) in cells {
        assert!((own(group) - amount).abs() < 1e-9, "{group:?}");
    }
    assert!((own(Group::Pulses) - 1.5 / 7.0).abs() < 1e-3);
    let limit = |l| standard.limit_allowance(2000.0, l).unwrap();
    assert!((limit(Limit::SaturatedFat) - 22.2).abs() < 0.05);
    assert!((limit(Limit::AddedSugars) - 11.9).abs() < 0.05);
    assert!((limit(Limit::Sodium) - 2300.0).abs() < 1e-9);
}

#[test]
fn a_need_between_levels_takes_the_nearer_and_says_so() {
    let standard = Standard::embedded("us-style").unwrap();
    let of = |kcal: f64| standard.level(kcal).level_kcal;
    let nearest = [2350.0, 2260.0, 2300.0, 2301.0, 1999.0, 9000.0].map(of);
    let expected = [2400.0, 2200.0, 2200.0, 2400.0, 2000.0, 3200.0];
    assert!(
        nearest
            .iter()
            .zip(expected)
            .all(|(a, b)| (a - b).abs() < 1e-9),
        "{nearest:?}"
    );
    let choice = standard.level(2350.0);
    assert!(!choice.exact);
    assert_eq!(
        choice.note.unwrap(),
        "food groups are held against the 2,400 kcal level, which is the nearest; limits \
         against 2,350 kcal"
    );
    assert_eq!(standard.level(2000.0).note, None);
}

/// Dietary Guidelines for Americans 2015-2020, appendix 3: patterns of 1,000 to 1,400 kcal are
/// for ages 2 to 8.
#[test]
fn no_adult_is_held_to_a_level_made_for_children() {
    for id in ["us-style", "vegetarian", "mediterranean"] {
        let standard = Standard::embedded(id).unwrap();
        for kcal in [500.0, 1200.0, 1300.0, 1499.0, 1599.0] {
            let choice = standard.level(kcal);
            assert!((choice.level_kcal - 1600.0).abs() < 1e-9, "{id} {kcal}");
            assert!(choice.note.unwrap().contains("drawn for children"));
        }
    }
    // The DASH plan is for adults at every level.
    let dash = Standard::embedded("dash").unwrap();
    assert!((dash.level(1250.0).level_kcal - 1200.0).abs() < 1e-9);
}

/// The same publication, chapter 1: saturated fat and added sugars each under a tenth of the
/// energy, which is the day's own.
#[test]
fn limits_that_are_a_share_of_energy_follow_the_days_energy() {
    let standard = Standard::embedded("us-style").unwrap();
    for energy_kcal in [1300.0, 1650.0, 2260.0, 3900.0] {
        let day = Day {
            standard: &standard,
            energy_kcal,
            pulses: PulsesAs::Vegetables,
            protein_g: None,
        };
        let allowed = crate::ledger::Allowances::of(day);
        let amount = |limit: Limit| allowed.get(limit).unwrap().amount;
        assert!((amount(Limit::SaturatedFat) * 9.0 - energy_kcal / 10.0).abs() < 1e-6);
        assert!((amount(Limit::AddedSugars) * 4.2 * 4.0 - energy_kcal / 10.0).abs() < 1e-6);
        assert!((amount(Limit::Sodium) - 2300.0).abs() < 1e-9);
    }
}

/// The same publication, chapter 1: two drinks or fewer for men, one or fewer for women.
#[test]
fn two_drinks_for_men_who_drink_and_one_for_women() {
    let drinks = |is_man| {
        let standard = Standard::embedded("us-style").unwrap().for_a_man(is_man);
        standard.limit_allowance(2000.0, Limit::Alcohol)
    };
    assert_eq!((drinks(true), drinks(false)), (Some(2.0), Some(1.0)));
}

#[test]
fn a_person_keeps_their_own_portions_and_lowest_level() {
    let standard = Standard::embedded("us-style").unwrap();
    let standard = standard.for_person([(Group::Vegetables, 4.0)], 1600.0);
    for pulses in [PulsesAs::Vegetables, PulsesAs::ProteinFoods] {
        let own = standard.allowance(2000.0, Group::Vegetables, pulses);
        assert_eq!(own.map(|a| a.amount), Some(4.0));
    }
    let choice = standard.level(1500.0);
    assert!((choice.level_kcal - 1600.0).abs() < 1e-9 && !choice.exact);
    assert!(choice.note.unwrap().contains("1,600 kcal level"));
    // A standard that ends below the floor gives its highest level.
    let beyond = Standard::embedded("us-style")
        .unwrap()
        .for_person([], 5000.0);
    assert!((beyond.level(1500.0).level_kcal - 3200.0).abs() < 1e-9);
}

#[test]
fn pulses_are_allowed_for_once() {
    let standard = Standard::embedded("us-style").unwrap();
    let vegetables = |p| {
        standard
            .allowance(2000.0, Group::Vegetables, p)
            .unwrap()
            .amount
    };
    assert!((vegetables(PulsesAs::ProteinFoods) - (2.5 - 1.5 / 7.0)).abs() < 1e-3);
    let dash = Standard::embedded("dash").unwrap();
    let with = dash
        .allowance(2000.0, Group::Vegetables, PulsesAs::Vegetables)
        .unwrap()
        .amount;
    let without = dash
        .allowance(2000.0, Group::Vegetables, PulsesAs::ProteinFoods)
        .unwrap()
        .amount;
    assert!(with > without);
}

/// Table A3-4 at 2,000 kcal: 3.5 oz-eq protein foods of which 6 a week are pulses, and
/// 1.5 cup-eq pulses a week within 2.5 cup-eq vegetables. Whoever eats that to the letter
/// is at the allowance wherever pulses are counted.
#[test]
fn the_vegetarian_pattern_eaten_to_the_letter_fits() {
    let standard = Standard::embedded("vegetarian").unwrap();
    let of = |g, p| standard.allowance(2000.0, g, p).unwrap().amount;
    let pulses_cup = 1.5 / 7.0 + 6.0 / 7.0 * 0.25;
    let vegetables_cup = 2.5 - 1.5 / 7.0;
    let protein_oz = 3.5 - 6.0 / 7.0;
    let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-3, "{a} for {b}");
    near(of(Group::Pulses, PulsesAs::Vegetables), pulses_cup);
    near(
        of(Group::Vegetables, PulsesAs::Vegetables),
        vegetables_cup + pulses_cup,
    );
    near(of(Group::ProteinFoods, PulsesAs::Vegetables), protein_oz);
    near(
        of(Group::Vegetables, PulsesAs::ProteinFoods),
        vegetables_cup,
    );
    near(
        of(Group::ProteinFoods, PulsesAs::ProteinFoods),
        protein_oz + pulses_cup / 0.25,
    );
}

/// The place of the line that starts with `key`, as a message gives it.
fn place(text: &str, key: &str) -> String {
    let line = text
        .lines()
        .position(|l| l.starts_with(key))
        .expect("a line");
    format!("line {}, column 1: ", line + 1)
}

#[test]
fn faults_are_named_with_their_place() {
    let good = EMBEDDED[0].1;
    let fails = |text: &str| Standard::parse(text).unwrap_err().to_string();
    let renamed = good.replace("adults_from_kcal", "adults_form_kcal");
    assert!(fails(&renamed).contains("adults_form_kcal"));
    assert!(fails("levels = [").contains("line 1"));

    let short = good.replace("levels = [1000, ", "levels = [");
    assert!(fails(&short).contains("figures for 11 levels"));

    let flat = good.replacen("portion = 1.0", "portion = 0.0", 1);
    let said = fails(&flat);
    assert!(said.starts_with(&place(&flat, "portion = 0.0")), "{said}");
    assert!(said.contains("holds 0"), "{said}");

    let milky = good.replace("[groups.dairy]", "[groups.milky]");
    let said = fails(&milky);
    assert!(said.contains("no food group `milky`"), "{said}");
    let row = milky.lines().position(|l| l == "[groups.milky]").unwrap();
    assert!(
        said.starts_with(&format!("line {}, column 9: ", row + 1)),
        "{said}"
    );
}
