use proptest::prelude::*;

use super::*;

fn cm(text: &str) -> f64 {
    height(text).expect(text).get()
}

fn kg(text: &str) -> f64 {
    weight(text).expect(text).get()
}

#[test]
fn heights_as_people_write_them() {
    let same = [
        "5 ft 10 in",
        "5'10\"",
        "5′10″",
        "5’10”",
        "5'10''",
        "5' 10",
        "5 ft 10",
        "5ft10in",
        "5 feet, 10 inches",
        "5 ft. 10 in.",
        "70 in",
        "70\"",
        "177.8 cm",
        "177,8 cm",
        "1.778 m",
        "1,778 m",
        " 177.8CM ",
    ];
    for text in same {
        assert!((cm(text) - 177.8).abs() < 1e-9, "{text}: {}", cm(text));
    }
    assert!((cm("178 cm") - 178.0).abs() < 1e-9);
    assert!((cm("1.78 m") - 178.0).abs() < 1e-9);
    assert!((cm("1 m 78") - 178.0).abs() < 1e-9);
    assert!((cm("1m78cm") - 178.0).abs() < 1e-9);
    assert!((cm("6 ft") - 182.88).abs() < 1e-9);
    assert!((cm("5 ft 10 1/2 in") - 179.07).abs() < 1e-9);
    assert!((cm("5'10½\"") - 179.07).abs() < 1e-9);
}

#[test]
fn weights_as_people_write_them() {
    assert!((kg("70 kg") - 70.0).abs() < 1e-9);
    assert!((kg("70,5kg") - 70.5).abs() < 1e-9);
    assert!((kg("154 lb") - 69.853).abs() < 1e-9);
    assert!((kg("154 lbs.") - 69.853).abs() < 1e-9);
    // 11 x 14 + 4 = 158 lb
    assert!((kg("11 st 4 lb") - 71.668).abs() < 1e-9);
    assert!((kg("11st 4") - 71.668).abs() < 1e-9);
    assert!((kg("11 stone") - 69.853).abs() < 1e-9);
}

#[test]
fn energies_as_people_write_them() {
    for text in ["2000", "2,000", "2,000 kcal", "2000kcal", "8368 kJ"] {
        assert!((energy(text).expect(text) - 2000.0).abs() < 1e-9, "{text}");
    }
    assert!(matches!(
        energy("lots"),
        Err(MeasureError::NoNumber { what: "energy", .. })
    ));
    assert!(matches!(
        energy("2000 W"),
        Err(MeasureError::UnknownUnit { .. })
    ));
    assert!(matches!(
        energy("20000"),
        Err(MeasureError::OutOfBounds { .. })
    ));
}

#[test]
fn a_bare_number_asks_for_its_unit() {
    assert!(matches!(height("178"), Err(MeasureError::NoUnit { .. })));
    assert!(matches!(weight("154"), Err(MeasureError::NoUnit { .. })));
    let said = weight("154").unwrap_err().to_string();
    assert_eq!(
        said,
        "the weight `154` has no unit; write for example `70 kg` or `154 lb`"
    );
}

#[test]
fn parts_that_do_not_fit_are_refused() {
    for text in [
        "5 ft 14 in",
        "5.5 ft 3 in",
        "178 cm 3 in",
        "5 ft 10 cm",
        "1 ft 2 in 3",
        "10 5",
    ] {
        assert!(
            matches!(height(text), Err(MeasureError::Parts { .. })),
            "{text}: {:?}",
            height(text)
        );
    }
    assert!(matches!(
        weight("11 st 15 lb"),
        Err(MeasureError::Parts { .. })
    ));
    assert!(matches!(
        weight("70 kg 3 lb"),
        Err(MeasureError::Parts { .. })
    ));
}

#[test]
fn slips_are_named() {
    assert!(matches!(height(""), Err(MeasureError::NoNumber { .. })));
    assert!(matches!(height("tall"), Err(MeasureError::NoNumber { .. })));
    assert!(matches!(
        height("-178 cm"),
        Err(MeasureError::NoNumber { .. })
    ));
    assert!(matches!(
        height("1..78 m"),
        Err(MeasureError::NoNumber { .. })
    ));
    assert!(matches!(
        height("178 kg"),
        Err(MeasureError::UnknownUnit { .. })
    ));
    assert!(matches!(
        height("178 m"),
        Err(MeasureError::OutOfBounds { .. })
    ));
    assert!(matches!(
        weight("700 kg"),
        Err(MeasureError::OutOfBounds { .. })
    ));
    let said = height("1.78 cm").unwrap_err().to_string();
    assert_eq!(
        said,
        "a value of 1.8 cm for the height is outside 60 to 260 cm; check the number and its unit"
    );
}

proptest! {
    #[test]
    fn any_text_is_answered_without_panic(text in ".{0,24}") {
        let _ = height(&text);
        let _ = weight(&text);
        let _ = energy(&text);
    }

    #[test]
    fn any_measure_like_text_is_answered_inside_the_bounds(
        text in "[0-9.,/½ ]{0,6}(cm|m|ft|'|\"|in|kg|lb|st)?[0-9.,/½ ]{0,6}(cm|in|\"|lb)?"
    ) {
        if let Ok(height) = height(&text) {
            prop_assert!((60.0..=260.0).contains(&height.get()));
        }
        if let Ok(weight) = weight(&text) {
            prop_assert!((6.0..=400.0).contains(&weight.get()));
        }
    }

    #[test]
    fn feet_and_inches_agree_with_inches(feet in 3_u32..8, inches in 0_u32..12) {
        let split = cm(&format!("{feet} ft {inches} in"));
        let plain = cm(&format!("{} in", feet * 12 + inches));
        prop_assert!((split - plain).abs() < 0.011);
    }
}
