use jiff::civil::date;

use super::*;

fn complete() -> Diner {
    Diner {
        sex: Some(Sex::Female),
        age: Some(Age::Born(date(1985, 3, 9))),
        height_cm: Some(HeightCm::new(163.0).unwrap()),
        weight_kg: Some(WeightKg::new(65.0).unwrap()),
        activity: Some(Activity::LowActive),
        ..Diner::named("table one")
    }
}

#[test]
fn age_counts_completed_years() {
    let born = Age::Born(date(2006, 5, 20));
    let years = |age: Age, on| age.on(on).map(AgeYears::get);
    assert_eq!(years(born, date(2025, 5, 19)), Some(18));
    assert_eq!(years(born, date(2025, 5, 20)), Some(19));
    assert_eq!(years(born, date(2006, 5, 19)), None);
    let leap = Age::Born(date(2004, 2, 29));
    assert_eq!(years(leap, date(2023, 2, 28)), Some(18));
    assert_eq!(years(leap, date(2023, 3, 1)), Some(19));
    assert_eq!(years(leap, date(2024, 2, 29)), Some(20));
    assert_eq!(years(Age::Born(date(1800, 1, 1)), date(2025, 1, 1)), None);
}

#[test]
fn a_stated_age_never_runs_ahead() {
    let stated = Age::Stated {
        years: AgeYears::new(18.0).unwrap(),
        noted_on: date(2024, 12, 1),
    };
    let years = |on| stated.on(on).map(AgeYears::get);
    assert_eq!(years(date(2025, 11, 30)), Some(18));
    assert_eq!(years(date(2025, 12, 1)), Some(19));
    assert_eq!(years(date(2024, 1, 1)), Some(18));
}

#[test]
fn a_complete_diner_has_no_faults() {
    let today = date(2025, 11, 25);
    assert_eq!(complete().faults(today), []);
    let plain = Diner {
        stated_energy_kcal: Some(2000.0),
        ..Diner::named("guest")
    };
    assert_eq!(plain.faults(today), []);
    assert!(plain.body_on(today).is_none());
    assert_eq!(complete().body_on(today).unwrap().age.get(), 40);
}

#[test]
fn all_faults_are_named_at_once() {
    let today = date(2025, 11, 25);
    let bad = Diner {
        age: Some(Age::Born(date(2030, 1, 1))),
        weight_kg: None,
        standard: Some(" ".to_owned()),
        group_portions: BTreeMap::from([("dairy".to_owned(), f64::NAN)]),
        ..complete()
    };
    let bad = Diner {
        name: "../x".to_owned(),
        ..bad
    };
    let faults = bad.faults(today);
    let missing = DinerError::Missing {
        missing: "weight".to_owned(),
    };
    assert!(faults.contains(&missing));
    assert!(
        faults
            .iter()
            .any(|fault| matches!(fault, DinerError::Name { .. }))
    );
    assert!(
        faults
            .iter()
            .any(|fault| matches!(fault, DinerError::Age { .. }))
    );
    assert!(
        faults
            .iter()
            .any(|fault| matches!(fault, DinerError::Portions { .. }))
    );
    assert!(faults.contains(&DinerError::Standard));
    assert_eq!(faults.len(), 5);
    let empty = Diner::named("guest").faults(today);
    assert_eq!(
        empty[0].to_string(),
        "to estimate the energy need, sex, age, height, weight, activity must be given; \
         or state an energy instead"
    );
}

#[test]
fn names_are_words_a_shell_can_carry() {
    for good in ["Ana", "table 4", "名前", "7", "o'neil"] {
        assert!(name_is_usable(good), "{good}");
    }
    for bad in ["", " x", "x ", "-x", "a/b", "a\\b", "a\nb", &"x".repeat(61)] {
        assert!(!name_is_usable(bad), "{bad:?}");
    }
}

#[test]
fn saved_and_loaded_is_the_same_diner() {
    let diner = Diner {
        aim: Aim::Lose,
        equation: Equation::Eer2005,
        standard: Some("own.toml".to_owned()),
        pulses_as: PulsesAs::ProteinFoods,
        group_portions: BTreeMap::from([("dairy".to_owned(), 2.5)]),
        meals: "breakfast 20%, lunch 40%, dinner 40%".parse().unwrap(),
        ..complete()
    };
    let toml = toml::to_string(&diner).unwrap();
    assert_eq!(toml::from_str::<Diner>(&toml).unwrap(), diner, "{toml}");
    let json = serde_json::to_string(&diner).unwrap();
    assert_eq!(serde_json::from_str::<Diner>(&json).unwrap(), diner);
    assert!(json.contains("\"born\":\"1985-03-09\""), "{json}");
}

#[test]
fn a_saved_diner_is_checked_when_loaded() {
    let load = |text: &str| toml::from_str::<Diner>(text);
    assert!(load("name = \"a\"").is_ok());
    let unknown = load("name = \"a\"\nwieght_kg = 70").unwrap_err();
    assert!(unknown.to_string().contains("wieght_kg"));
    let tall = load("name = \"a\"\nheight_cm = 1.78").unwrap_err();
    assert!(tall.to_string().contains("outside 60 to 260 cm"), "{tall}");
    let meals = "name = \"a\"\n[[meals]]\nname = \"lunch\"\nshare = 0.5";
    assert!(load(meals).unwrap_err().to_string().contains("50.0 %"));
}
