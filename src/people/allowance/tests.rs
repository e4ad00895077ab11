use jiff::civil::{Date, date};
use proptest::prelude::*;

use super::super::body::{Activity, HeightCm, WeightKg};
use super::super::diner::Age;
use super::super::energy::Equation;
use super::*;

const TODAY: Date = date(2025, 11, 25);

fn diner(sex: Sex, age: i16, cm: f64, kg: f64, aim: Aim) -> Diner {
    Diner {
        sex: Some(sex),
        age: Some(Age::Born(date(2025 - age, 1, 1))),
        height_cm: Some(HeightCm::new(cm).unwrap()),
        weight_kg: Some(WeightKg::new(kg).unwrap()),
        activity: Some(Activity::Inactive),
        aim,
        ..Diner::named("guest")
    }
}

fn refusal(diner: &Diner) -> Refusal {
    match day_target(diner, TODAY) {
        Err(NoTarget::Refused(refusal)) => refusal,
        other => panic!("{other:?}"),
    }
}

fn target(diner: &Diner) -> DayTarget {
    day_target(diner, TODAY).unwrap()
}

fn with_energy(diner: Diner, kcal: f64) -> Diner {
    Diner {
        stated_energy_kcal: Some(kcal),
        ..diner
    }
}

const AIMS: [Aim; 3] = [Aim::Keep, Aim::Lose, Aim::Gain];

#[test]
fn keep_is_the_need() {
    let man = target(&diner(Sex::Male, 30, 170.0, 70.0, Aim::Keep));
    assert!((man.target_kcal - 2520.17).abs() < 0.005);
    assert_eq!(man.need_kcal(), Some(man.target_kcal));
    assert_eq!(man.cautions, []);
    assert_eq!(man.level_note, None);
}

#[test]
fn losing_takes_500_or_a_fifth_whichever_is_less() {
    // Need 753.07 - 10.83 x 40 + 6.5 x 180 + 14.1 x 100 = 2899.87; a fifth is 579.97.
    let man = target(&diner(Sex::Male, 40, 180.0, 100.0, Aim::Lose));
    assert!((man.target_kcal - 2399.87).abs() < 0.005);
    assert_eq!(man.cautions, []);
    assert_eq!(man.working[2], "2,900 - 500 = 2,400 kcal");
    // Need 584.9 - 7.01 x 40 + 5.72 x 163 + 11.71 x 72 = 2079.98; a fifth is 415.996.
    let woman = target(&diner(Sex::Female, 40, 163.0, 72.0, Aim::Lose));
    assert!((woman.target_kcal - 2079.98 * 0.8).abs() < 0.005);
    assert_eq!(woman.working[2], "2,080 - 416 = 1,664 kcal");
}

#[test]
fn gaining_adds_300() {
    let man = target(&diner(Sex::Male, 30, 170.0, 55.0, Aim::Gain));
    assert!((man.target_kcal - man.need_kcal().unwrap() - 300.0).abs() < 1e-9);
}

#[test]
fn losing_stops_at_the_floor_and_says_so() {
    // Need 753.07 - 10.83 x 78 + 6.5 x 160 + 14.1 x 65 = 1864.83 less 20 % is 1491.86.
    let man = target(&diner(Sex::Male, 78, 160.0, 65.0, Aim::Lose));
    assert!((man.target_kcal - 1500.0).abs() < 1e-9);
    assert!(
        man.cautions
            .contains(&Caution::StoppedAtFloor { floor_kcal: 1500.0 })
    );
    assert!(man.cautions.contains(&Caution::LoseWhenOlder));
    // Rounding down to 1,400 would go under the floor.
    assert_eq!(man.lowest_level_kcal, 1600);
    assert!(man.level_note.unwrap().contains("ages 2 to 8"));
}

#[test]
fn losing_without_room_above_the_floor_is_refused() {
    // Need 753.07 - 10.83 x 90 + 6.5 x 152 + 14.1 x 59 = 1598.27.
    let man = diner(Sex::Male, 90, 152.0, 59.0, Aim::Lose);
    assert_eq!(
        refusal(&man),
        Refusal::LoseAtFloor { floor_kcal: 1500.0 },
        "{:?}",
        day_target(&man, TODAY)
    );
}

#[test]
fn a_need_just_under_the_floor_is_raised_and_one_far_under_is_refused() {
    // Need 753.07 - 10.83 x 95 + 6.5 x 150 + 14.1 x 50 = 1404.22.
    let man = target(&diner(Sex::Male, 95, 150.0, 50.0, Aim::Keep));
    assert!((man.target_kcal - 1500.0).abs() < 1e-9);
    assert!(matches!(man.cautions[..], [Caution::RaisedToFloor { .. }]));
    let said = man.cautions[0].to_string();
    assert!(said.contains("1,404 kcal") && said.contains("1,500 kcal"));
    // Need 753.07 - 10.83 x 110 + 6.5 x 140 + 14.1 x 40 = 1035.77.
    let small = diner(Sex::Male, 110, 140.0, 40.0, Aim::Keep);
    assert_eq!(
        refusal(&small),
        Refusal::NeedFarUnderFloor { floor_kcal: 1500.0 }
    );
}

#[test]
fn under_19_gets_no_figure_whatever_is_asked() {
    for aim in AIMS {
        for age in [3, 12, 18] {
            let young = diner(Sex::Female, age, 160.0, 55.0, aim);
            assert_eq!(refusal(&young), Refusal::UnderNineteen);
            assert_eq!(refusal(&with_energy(young, 2500.0)), Refusal::UnderNineteen);
        }
    }
    assert!(day_target(&diner(Sex::Female, 19, 160.0, 55.0, Aim::Keep), TODAY).is_ok());
    let age = AgeYears::new(17.0).ok();
    assert_eq!(
        stated_target(2500.0, None, age),
        Err(NoTarget::Refused(Refusal::UnderNineteen))
    );
}

#[test]
fn under_19_is_told_before_being_asked_for_more() {
    let bare = Diner {
        age: Some(Age::Born(date(2012, 1, 1))),
        ..Diner::named("guest")
    };
    assert_eq!(refusal(&bare), Refusal::UnderNineteen);
}

#[test]
fn pregnant_or_nursing_gets_no_figure_whatever_is_asked() {
    for aim in AIMS {
        let diner = Diner {
            pregnant_or_nursing: true,
            ..diner(Sex::Female, 30, 165.0, 70.0, aim)
        };
        assert_eq!(refusal(&diner), Refusal::PregnantOrNursing);
        assert_eq!(
            refusal(&with_energy(diner, 2500.0)),
            Refusal::PregnantOrNursing
        );
    }
}

#[test]
fn the_weight_rails_stand_where_they_say() {
    // At 200 cm the body mass index is a quarter of the weight.
    let at = |bmi: f64, aim| diner(Sex::Male, 30, 200.0, bmi * 4.0, aim);
    for aim in AIMS {
        assert_eq!(refusal(&at(15.99, aim)), Refusal::WeightVeryLow);
        assert_eq!(
            refusal(&with_energy(at(15.99, aim), 3500.0)),
            Refusal::WeightVeryLow
        );
        assert_eq!(refusal(&at(40.0, aim)), Refusal::WeightVeryHigh);
        assert!(day_target(&at(39.99, aim), TODAY).is_ok());
    }
    assert_eq!(refusal(&at(18.49, Aim::Lose)), Refusal::LoseAtLowWeight);
    assert_eq!(target(&at(18.49, Aim::Gain)).cautions, [Caution::WeightLow]);
    assert_eq!(target(&at(16.0, Aim::Keep)).cautions, [Caution::WeightLow]);
    assert_eq!(
        target(&at(18.5, Aim::Lose)).cautions,
        [Caution::LittleToLose]
    );
    assert_eq!(
        target(&at(20.0, Aim::Lose)).cautions,
        [Caution::LoseOutsideGuideline]
    );
    assert_eq!(
        target(&at(30.0, Aim::Gain)).cautions,
        [Caution::GainAtHighWeight]
    );
    assert_eq!(target(&at(29.9, Aim::Gain)).cautions, []);
    assert_eq!(target(&at(25.0, Aim::Lose)).cautions, []);
}

#[test]
fn a_clinicians_figure_can_be_stated_at_a_very_high_weight() {
    let man = with_energy(diner(Sex::Male, 40, 180.0, 140.0, Aim::Lose), 2200.0);
    let target = target(&man);
    assert!((target.target_kcal - 2200.0).abs() < 1e-9);
    assert!(target.cautions.contains(&Caution::StatedShouldBeClinicians));
}

#[test]
fn a_stated_energy_below_the_floor_is_refused() {
    let man = diner(Sex::Male, 30, 170.0, 70.0, Aim::Keep);
    assert_eq!(
        refusal(&with_energy(man.clone(), 1499.0)),
        Refusal::StatedUnderFloor {
            stated_kcal: 1499.0,
            floor_kcal: 1500.0
        }
    );
    let low = target(&with_energy(man, 1500.0));
    assert!(matches!(
        low.cautions[..],
        [Caution::StatedFarUnderNeed { under_kcal }] if (under_kcal - 1020.17).abs() < 0.01
    ));
    let said = stated_target(1100.0, None, None).unwrap_err().to_string();
    assert!(
        said.starts_with("1,100 kcal a day is below 1,200 kcal"),
        "{said}"
    );
    assert!(said.contains("doctor or dietitian"));
    assert!(stated_target(1199.9, Some(Sex::Female), None).is_err());
}

#[test]
fn a_stated_energy_comes_with_what_is_not_known() {
    let guest = stated_target(1400.0, None, None).unwrap();
    assert_eq!(
        guest.cautions,
        [Caution::UnderMensFloor, Caution::AgeUnknown]
    );
    let adult = AgeYears::new(40.0).ok();
    assert_eq!(stated_target(2000.0, None, adult).unwrap().cautions, []);
    assert_eq!(
        stated_target(6001.0, None, adult).unwrap().cautions,
        [Caution::StatedHigh {
            stated_kcal: 6001.0
        }]
    );
    for odd in [f64::NAN, f64::INFINITY, -1.0, 0.0, 20_000.0] {
        assert!(
            matches!(stated_target(odd, None, adult), Err(NoTarget::Faults(_))),
            "{odd}"
        );
    }
}

#[test]
fn at_a_low_weight_a_stated_energy_must_cover_the_need() {
    // Body mass index 17; need 584.9 - 7.01 x 30 + 5.72 x 170 + 11.71 x 49.13 = 1922.31.
    let woman = diner(Sex::Female, 30, 170.0, 49.13, Aim::Keep);
    assert_eq!(
        refusal(&with_energy(woman.clone(), 1850.0)),
        Refusal::StatedUnderNeedAtLowWeight
    );
    assert_eq!(
        target(&with_energy(woman.clone(), 1900.0)).cautions,
        [Caution::WeightLow]
    );
    let unknown = Diner {
        activity: None,
        ..with_energy(woman, 1900.0)
    };
    assert_eq!(refusal(&unknown), Refusal::StatedUnderNeedAtLowWeight);
}

#[test]
fn details_missing_are_asked_for() {
    let bare = Diner {
        weight_kg: None,
        ..diner(Sex::Male, 30, 170.0, 70.0, Aim::Keep)
    };
    let said = day_target(&bare, TODAY).unwrap_err().to_string();
    assert!(said.contains("weight must be given"), "{said}");
}

#[test]
fn refusals_name_whom_to_see_and_no_figure_but_the_floor() {
    let all = [
        Refusal::UnderNineteen,
        Refusal::PregnantOrNursing,
        Refusal::WeightVeryLow,
        Refusal::WeightVeryHigh,
        Refusal::LoseAtLowWeight,
        Refusal::StatedUnderNeedAtLowWeight,
        Refusal::LoseAtFloor { floor_kcal: 1200.0 },
        Refusal::NeedFarUnderFloor { floor_kcal: 1200.0 },
    ];
    for refusal in all {
        let said = refusal.to_string().replace("1,200", "").replace("19", "");
        assert!(said.contains("dietitian"), "{said}");
        assert!(!said.contains(|sign: char| sign.is_ascii_digit()), "{said}");
    }
}

fn diners() -> impl Strategy<Value = Diner> {
    let body = (
        prop::option::of(prop_oneof![Just(Sex::Female), Just(Sex::Male)]),
        prop::option::weighted(0.9, -5_i16..130),
        prop::option::weighted(0.9, 60.0..=260.0_f64),
        prop::option::weighted(0.9, 6.0..=400.0_f64),
        prop::option::weighted(0.9, prop::sample::select(Activity::ALL.to_vec())),
    );
    let wish = (
        prop::sample::select(AIMS.to_vec()),
        prop::sample::select(vec![
            Equation::Eer2023,
            Equation::Eer2005,
            Equation::MifflinStJeor,
        ]),
        prop::option::of(prop_oneof![0.0..20_000.0_f64, Just(f64::NAN)]),
        prop::bool::weighted(0.1),
    );
    (body, wish).prop_map(
        |((sex, age, cm, kg, activity), (aim, equation, stated, baby))| Diner {
            sex,
            age: age.map(|age| Age::Born(date(2025 - age, 6, 1))),
            height_cm: cm.and_then(|cm| HeightCm::new(cm).ok()),
            weight_kg: kg.and_then(|kg| WeightKg::new(kg).ok()),
            activity,
            aim,
            equation,
            stated_energy_kcal: stated,
            pregnant_or_nursing: baby,
            ..Diner::named("guest")
        },
    )
}

/// Adults of everyday size, so that most get a figure.
fn adults() -> impl Strategy<Value = Diner> {
    let activity = prop::sample::select(Activity::ALL.to_vec());
    let sex = prop_oneof![Just(Sex::Female), Just(Sex::Male)];
    (
        diners(),
        sex,
        19_i16..100,
        140.0..200.0_f64,
        16.0..40.0_f64,
        activity,
    )
        .prop_map(|(rest, sex, age, cm, bmi, activity)| Diner {
            activity: Some(activity),
            equation: rest.equation,
            ..diner(sex, age, cm, bmi * (cm / 100.0).powi(2), rest.aim)
        })
}

/// What must hold of every target given.
fn is_safe(diner: &Diner, given: &DayTarget) -> bool {
    let adult = diner.age_on(TODAY).is_none_or(|age| age.get() >= 19);
    let weight = diner.bmi().is_none_or(|bmi| bmi >= 16.0);
    let floor = guard::floor_kcal(diner.sex);
    adult
        && weight
        && !diner.pregnant_or_nursing
        && given.target_kcal >= floor
        && f64::from(given.lowest_level_kcal) >= floor
}

proptest! {
    #[test]
    fn any_diner_is_answered_and_every_target_is_safe(diner in diners()) {
        if let Ok(given) = day_target(&diner, TODAY) {
            prop_assert!(is_safe(&diner, &given), "{given:?}");
        }
    }

    #[test]
    fn adults_who_lose_stay_between_floor_and_need(diner in adults()) {
        let diner = Diner { aim: Aim::Lose, ..diner };
        match day_target(&diner, TODAY) {
            Ok(given) => {
                let need = given.need_kcal().unwrap();
                prop_assert!(given.target_kcal >= guard::floor_kcal(diner.sex));
                prop_assert!(given.target_kcal <= need - CUT_LEAST_KCAL);
                prop_assert!(given.target_kcal >= need - CUT_KCAL);
                prop_assert!(given.target_kcal >= need * (1.0 - CUT_MOST) - 1e-9);
                prop_assert!(diner.bmi().unwrap() >= 18.5);
            }
            Err(NoTarget::Refused(_)) => {}
            Err(other) => prop_assert!(false, "{other}"),
        }
    }

    #[test]
    fn adults_who_keep_or_gain_never_get_less_than_the_need(diner in adults()) {
        prop_assume!(diner.aim != Aim::Lose);
        if let Ok(given) = day_target(&diner, TODAY) {
            prop_assert!(given.target_kcal >= given.need_kcal().unwrap());
            prop_assert!(is_safe(&diner, &given));
        }
    }

    #[test]
    fn any_stated_energy_is_answered_safely(kcal in prop::num::f64::ANY, male: bool) {
        let sex = Some(if male { Sex::Male } else { Sex::Female });
        if let Ok(given) = stated_target(kcal, sex, None) {
            prop_assert!(given.target_kcal >= guard::floor_kcal(sex));
            prop_assert!(given.target_kcal <= ENERGY.high);
        }
    }
}
