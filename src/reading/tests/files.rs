//! Component lines, dish files and served amounts as wholes.

use crate::reading::error::ErrorKind;
use crate::reading::{
    Measure, Place, Served, Size, UnitSystem, Vessel, parse_component, parse_dish_file,
    parse_lines, parse_served, to_toml,
};

const US: UnitSystem = UnitSystem::Us;

#[test]
fn lines_comments_and_blanks() {
    let text = "\u{feff}# lunch\r\n2 eggs\r\n\r\n  - 6 oz salmon # guess\n#8 scoop rice\n";
    let (lines, errors) = parse_lines("plate.txt", text, US);
    assert_eq!(errors, []);
    let read: Vec<(&str, usize, usize)> = lines
        .iter()
        .map(|line| (line.food.as_str(), line.place.line, line.place.column))
        .collect();
    assert_eq!(read, [("eggs", 2, 1), ("salmon", 4, 5), ("rice", 5, 1)]);
    assert_eq!(lines[1].text, "6 oz salmon");
}

#[test]
fn one_bad_line_does_not_stop_the_others() {
    let (lines, errors) = parse_lines("plate.txt", "2 eggs\n3 bushels kale\nrice", US);
    assert_eq!(lines.len(), 2);
    assert_eq!(errors.len(), 1);
    assert_eq!((errors[0].place.line, errors[0].place.column), (2, 3));
}

#[test]
fn nothing_to_read_is_said() {
    for text in ["", "\n \n", "# only a comment\n"] {
        let (lines, errors) = parse_lines("plate.txt", text, US);
        assert!(lines.is_empty());
        assert_eq!(*errors[0].kind, ErrorKind::Empty, "{text:?}");
    }
}

#[test]
fn too_long_and_too_large_are_refused_shortly() {
    let (lines, errors) = parse_lines("plate.txt", &"rice ".repeat(200_000), US);
    assert!(lines.is_empty());
    assert_eq!(*errors[0].kind, ErrorKind::LineTooLong(1_000_000));
    assert!(errors[0].to_string().len() < 500);

    let (lines, errors) = parse_lines("plate.txt", &"rice\n".repeat(1_000_000), US);
    assert!(lines.is_empty());
    assert_eq!(*errors[0].kind, ErrorKind::TextTooLarge(5_000_000));
}

const DISH: &str = r#"
name = "Salmon plate"
kind = "fish"
served = "420 g"
source = "our estimate"
note = "as on a Friday"

[[component]]
food = "grilled salmon"
amount = "6 oz"

[[component]]
food = "rice pilaf"
amount = "1 1/2 cups"
note = "buttered"

[[component]]
food = "chicken wings"
amount = "3"

[[component]]
food = "2 lemon wedges"

[[component]]
food = "salad"
amount = "half the plate"
"#;

#[test]
fn a_dish_file_is_read_whole() {
    let dish = parse_dish_file("salmon.toml", DISH, US).unwrap();
    assert_eq!(dish.name.as_deref(), Some("Salmon plate"));
    assert_eq!(dish.kind.as_deref(), Some("fish"));
    assert_eq!(dish.source.as_deref(), Some("our estimate"));
    assert_eq!(dish.note.as_deref(), Some("as on a Friday"));
    assert!(matches!(&dish.served, Some(Served::Weight(amount)) if amount.number.likely == 420.0));
    let foods: Vec<&str> = dish
        .components
        .iter()
        .map(|line| line.food.as_str())
        .collect();
    assert_eq!(
        foods,
        [
            "grilled salmon",
            "rice pilaf",
            "chicken wings",
            "lemon wedges",
            "salad"
        ]
    );
    let wings = dish.components[2].amount.as_ref().unwrap();
    assert!(matches!(&wings.measure, Measure::Count { unit: Some(unit), .. } if unit == "wing"));
    assert_eq!(dish.components[1].note.as_deref(), Some("buttered"));
    assert_eq!(dish.components[0].place, Place::new("salmon.toml", 9, 8));
    let share = dish.components[4].share.as_ref().unwrap();
    assert_eq!(share.vessel, Vessel::Plate);
}

#[test]
fn a_dish_file_survives_writing_and_reading() {
    let dish = parse_dish_file("salmon.toml", DISH, US).unwrap();
    let again = parse_dish_file("salmon.toml", &to_toml(&dish), US).unwrap();
    assert_eq!(dish.served, again.served);
    for (one, other) in dish.components.iter().zip(&again.components) {
        assert_eq!(one.food, other.food);
        assert_eq!(one.amount, other.amount);
        assert_eq!(one.share, other.share);
        assert_eq!(one.note, other.note);
    }
    assert_eq!(to_toml(&dish), to_toml(&again));
}

#[test]
fn a_file_that_makes_six_has_the_amounts_of_one() {
    let text = "name = \"Lentil stew\"\nmakes = 6\n\n[[component]]\nfood = \"lentils\"\namount = \"3 cups\"\n";
    let dish = parse_dish_file("stew.toml", text, US).unwrap();
    assert_eq!(dish.makes, Some(6.0));
    let grams = |text: &str| {
        let dish = parse_dish_file("stew.toml", text, US).unwrap();
        dish.components[0].amount.as_ref().unwrap().number.likely
    };
    let one = text.replace("makes = 6\n", "");
    assert!((grams(text) * 6.0 - grams(&one)).abs() < 1e-9);
    let again = parse_dish_file("stew.toml", &to_toml(&dish), US).unwrap();
    assert_eq!(again.makes, dish.makes);
    assert_eq!(again.components[0].amount, dish.components[0].amount);
    for (wrong, told) in [
        ("0", "servings"),
        ("-2", "servings"),
        ("nan", "servings"),
        ("1_001", "servings"),
        ("\"six\"", "makes = 6"),
    ] {
        let text = text.replace("makes = 6", &format!("makes = {wrong}"));
        let error = parse_dish_file("stew.toml", &text, US).unwrap_err();
        assert_eq!(error.place.line, 2, "{wrong}");
        assert!(error.to_string().contains(told), "{error}");
    }
}

#[test]
fn hostile_text_survives_in_quotes() {
    let mut dish = parse_dish_file("a.toml", DISH, US).unwrap();
    let hostile = "say \"hi\" \\ '''x''' # [[component]]\nsecond line";
    dish.note = Some(hostile.into());
    let again = parse_dish_file("a.toml", &to_toml(&dish), US).unwrap();
    assert_eq!(again.note.as_deref(), Some(hostile));
}

#[test]
fn lines_survive_as_dish_files() {
    for text in [
        "2 eggs",
        "3 chicken wings",
        "2 pizza slices",
        "1 can (12 fl oz) cola",
        "2 cans (12 fl oz) cola",
        "2 slices bread, 30 g each",
        "steak 6 oz x2",
        "egg whites x3, 99 g",
        "half an avocado",
        "two 6-inch corn tortillas",
        "banana, 1 medium",
        "large fries",
        "a handful of nuts",
        "about 6 oz salmon",
        "1-2 cups rice",
        "half the plate: fried rice",
        "half the plate: rice, 1.5 inches deep",
        "1 lb 4 oz shrimp",
        "a heaping cup of rice",
        "ranch on the side, 2 fl oz",
        "a dozen eggs",
        "2x30g cheese",
        "garlic, 2 cloves",
        "2 -pc",
        "rL(4.=7;Ernam#8ej]d=odnju",
        "r[H+o++(((lg(((++ schmears",
    ] {
        let line = parse_component(text, Place::new("test", 1, 1), US).unwrap();
        let dish = crate::reading::Dish {
            name: Some("x".into()),
            components: vec![line],
            ..Default::default()
        };
        let written = to_toml(&dish);
        let again = parse_dish_file("x.toml", &written, US)
            .unwrap_or_else(|error| panic!("{text}:\n{written}\n{error}"));
        let (one, other) = (&dish.components[0], &again.components[0]);
        assert_eq!(one.food, other.food, "{text}");
        assert_eq!(one.note, other.note, "{text}");
        assert_eq!(
            one.amount
                .as_ref()
                .map(|amount| (amount.number, &amount.measure)),
            other
                .amount
                .as_ref()
                .map(|amount| (amount.number, &amount.measure)),
            "{text}:\n{written}"
        );
        assert_eq!(
            one.share
                .as_ref()
                .map(|share| (share.fraction, share.heap_inches)),
            other
                .share
                .as_ref()
                .map(|share| (share.fraction, share.heap_inches)),
            "{text}:\n{written}"
        );
    }
}

#[test]
fn dish_files_that_must_fail() {
    use ErrorKind as E;
    type Is = fn(&ErrorKind) -> bool;
    let table: &[(&str, usize, usize, Is)] = &[
        ("", 1, 1, |kind| matches!(kind, E::Empty)),
        ("kind = \"soup\"", 1, 1, |kind| {
            matches!(kind, E::MissingKey("name"))
        }),
        ("name = \"x\"\nservd = \"1 lb\"", 2, 1, |kind| {
            matches!(
                kind,
                E::UnknownKey {
                    nearest: Some("served"),
                    ..
                }
            )
        }),
        ("name = \"x\"\ncolour = \"red\"", 2, 1, |kind| {
            matches!(kind, E::UnknownKey { nearest: None, .. })
        }),
        (
            "name = \"x\"\n[[component]]\nfood = \"rice\"\ngrams = 3",
            4,
            1,
            |kind| matches!(kind, E::UnknownKey { .. }),
        ),
        (
            "name = \"x\"\n[[component]]\namount = \"3 oz\"",
            2,
            1,
            |kind| matches!(kind, E::MissingKey("food")),
        ),
        ("name = 3", 1, 8, |kind| matches!(kind, E::WrongType(_))),
        ("name = \"x\"\ncomponent = \"rice\"", 2, 13, |kind| {
            matches!(kind, E::WrongType(_))
        }),
        (
            "name = \"x\"\n[[component]]\nfood = \"rice\"\namount = 120",
            4,
            10,
            |kind| matches!(kind, E::NoUnit),
        ),
        (
            "name = \"x\"\n[[component]]\nfood = \"rice\"\namount = \"3 bushels\"",
            4,
            13,
            |kind| matches!(kind, E::UnknownUnit(_)),
        ),
        (
            "name = \"x\"\n[[component]]\nfood = \"rice\"\namount = \"lots\"",
            4,
            11,
            |kind| matches!(kind, E::NotAnAmount),
        ),
        (
            "name = \"x\"\n[[component]]\nfood = \"6 oz\"",
            3,
            9,
            |kind| matches!(kind, E::NoFood),
        ),
        ("name = \"x\"\nserved = \"lots\"", 2, 11, |kind| {
            matches!(kind, E::NotAnAmount)
        }),
        ("name = \"x\u{202e}\"", 1, 8, |kind| {
            matches!(kind, E::HiddenCharacter(_))
        }),
        ("name = \"x", 1, 10, |kind| matches!(kind, E::Toml(_))),
        ("name = \"x\"\nname = \"y\"", 2, 1, |kind| {
            matches!(kind, E::Toml(_))
        }),
    ];
    for (text, line, column, is) in table {
        match parse_dish_file("x.toml", text, US) {
            Ok(dish) => panic!("{text:?} was read as {dish:?}"),
            Err(error) => {
                assert!(is(&error.kind), "{text:?}: {error}");
                let place = (error.place.line, error.place.column);
                assert_eq!(place, (*line, *column), "{text:?}: {error}");
            }
        }
    }
}

#[test]
fn an_unknown_key_is_told_with_its_place() {
    let text = "name = \"Soup\"\n\n[[component]]\nfod = \"leek\"\n";
    assert_eq!(
        parse_dish_file("soup.toml", text, US)
            .unwrap_err()
            .to_string(),
        "unknown key `fod`
  --> soup.toml:4:1
   |
 4 | fod = \"leek\"
   | ^^^ not a key of a dish file
   = Did you mean `food`?"
    );
}

#[test]
fn served_amounts() {
    assert!(matches!(parse_served("450 g", US), Ok(Served::Weight(_))));
    assert!(matches!(parse_served("1 lb", US), Ok(Served::Weight(_))));
    assert!(matches!(parse_served("2 cups", US), Ok(Served::Volume(_))));
    assert!(matches!(parse_served("500 ml", US), Ok(Served::Volume(_))));
    for (text, vessel, inches, millilitres, fullness) in [
        (
            "32 fl oz bowl, full",
            Some(Vessel::Bowl),
            None,
            Some(946.35),
            0.91,
        ),
        (
            "32 oz bowl, half full",
            Some(Vessel::Bowl),
            None,
            Some(946.35),
            0.5,
        ),
        ("12 in plate", Some(Vessel::Plate), Some(12.0), None, 0.72),
        (
            "a 10-inch dinner plate, 3/4 full",
            Some(Vessel::Plate),
            Some(10.0),
            None,
            0.75,
        ),
        ("bowl, 80% full", Some(Vessel::Bowl), None, None, 0.8),
        ("half a bowl", Some(Vessel::Bowl), None, None, 0.5),
        ("heaped bowl", Some(Vessel::Bowl), None, None, 1.15),
        ("half full", None, None, None, 0.5),
        ("2 cup bowl", Some(Vessel::Bowl), None, Some(473.18), 0.72),
    ] {
        let served = parse_served(text, US).unwrap_or_else(|error| panic!("{text}: {error}"));
        let Served::Vessel {
            vessel: v,
            inches: i,
            millilitres: m,
            fullness: f,
            ..
        } = served
        else {
            panic!("{text}: {served:?}");
        };
        assert_eq!((v, i), (vessel, inches), "{text}");
        assert_eq!(
            m.map(|m| (m * 100.0).round() / 100.0),
            millilitres,
            "{text}"
        );
        assert!((f.likely - fullness).abs() < 1e-9, "{text}: {f:?}");
        assert!(f.low <= f.likely && f.likely <= f.high, "{text}");
    }
    let large = parse_served("large bowl", US);
    assert!(matches!(
        large,
        Ok(Served::Vessel {
            size: Some(Size::Large),
            ..
        })
    ));
    for text in [
        "",
        "lots",
        "2 eggs",
        "0 g",
        "99 kg",
        "900 in plate",
        "150% full",
        "bowl of gravy",
        "\0",
    ] {
        assert!(parse_served(text, US).is_err(), "{text:?}");
    }
}
