//! The grammar as tables: what is written, and what it must be read as.

mod files;
mod properties;

use std::fmt::Write as _;

use super::error::ErrorKind;
use super::{Amount, Measure, Place, ReadingError, UnitSystem, parse_amount, parse_component};

fn component(text: &str) -> Result<super::ComponentLine, ReadingError> {
    parse_component(text, Place::new("test", 1, 1), UnitSystem::Us)
}

fn figure(value: f64) -> String {
    let rounded = (value * 100.0).round() / 100.0;
    rounded.to_string()
}

/// An amount in short: `170.1 g`, `236.59 ml Cup`, `2 slice Large 6in`, `1-2 pieces`.
fn short(amount: Option<&Amount>) -> String {
    let Some(amount) = amount else {
        return "-".into();
    };
    let range = amount.number;
    let mut text = if range.is_exact() {
        figure(range.likely)
    } else {
        format!("{}-{}", figure(range.low), figure(range.high))
    };
    match &amount.measure {
        Measure::Grams => text.push_str(" g"),
        Measure::Millilitres { spoken } => {
            let _ = write!(text, " ml {spoken:?}");
        }
        Measure::Count { unit, size, inches } => {
            text.push(' ');
            text.push_str(unit.as_deref().unwrap_or("pieces"));
            if let Some(size) = size {
                let _ = write!(text, " {size:?}");
            }
            if let Some(inches) = inches {
                let _ = write!(text, " {}in", figure(*inches));
            }
        }
    }
    text
}

#[track_caller]
fn check(table: &[(&str, &str, &str)]) {
    let wrong: Vec<String> = table
        .iter()
        .filter_map(|&(text, food, amount)| {
            let got = match component(text) {
                Ok(line) => (line.food, short(line.amount.as_ref())),
                Err(error) => ("ERROR".to_owned(), error.to_string()),
            };
            (got != (food.to_owned(), amount.to_owned()))
                .then(|| format!("{text:?}: food {:?}, amount {:?}", got.0, got.1))
        })
        .collect();
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn weights() {
    check(&[
        ("120 g rice", "rice", "120 g"),
        ("120g rice", "rice", "120 g"),
        ("120 grams of rice", "rice", "120 g"),
        ("1.2 kg potatoes", "potatoes", "1200 g"),
        ("500 mg salt", "salt", "0.5 g"),
        ("6 oz salmon", "salmon", "170.1 g"),
        ("6oz salmon", "salmon", "170.1 g"),
        ("6-oz salmon", "salmon", "170.1 g"),
        ("6 oz. salmon", "salmon", "170.1 g"),
        ("6 OZ salmon", "salmon", "170.1 g"),
        ("six ounces of salmon", "salmon", "170.1 g"),
        ("8-oz ribeye", "ribeye", "226.8 g"),
        ("an 8-ounce ribeye", "ribeye", "226.8 g"),
        ("8-oz. ribeye", "ribeye", "226.8 g"),
        ("1 lb shrimp", "shrimp", "453.59 g"),
        ("2 lbs. shrimp", "shrimp", "907.18 g"),
        ("1 lb 4 oz shrimp", "shrimp", "566.99 g"),
        ("half a pound of shrimp", "shrimp", "226.8 g"),
        ("quarter pound burger", "burger", "113.4 g"),
        ("half-pounder burger", "burger", "226.8 g"),
        ("a pound of potatoes", "potatoes", "453.59 g"),
        ("1,240 g soup", "soup", "1240 g"),
        ("0,5 kg rice", "rice", "500 g"),
        ("1,5 kg rice", "rice", "1500 g"),
        ("11,91g onion", "onion", "11.91 g"),
        (".5 oz cheese", "cheese", "14.17 g"),
        ("½ lb beef", "beef", "226.8 g"),
        (
            "8.03 g 85% lean ground beef, pan-browned",
            "85% lean ground beef, pan-browned",
            "8.03 g",
        ),
    ]);
}

#[test]
fn volumes() {
    check(&[
        ("2 cups romaine", "romaine", "473.18 ml Cup"),
        ("1 1/2 cups rice", "rice", "354.88 ml Cup"),
        ("1-1/2 cups rice", "rice", "354.88 ml Cup"),
        ("1½ cups rice", "rice", "354.88 ml Cup"),
        ("1 ½ cups rice", "rice", "354.88 ml Cup"),
        ("one and a half cups rice", "rice", "354.88 ml Cup"),
        ("1 and 1/2 cups rice", "rice", "354.88 ml Cup"),
        ("3/4 c. milk", "milk", "177.44 ml Cup"),
        ("1⁄2 cup peas", "peas", "118.29 ml Cup"),
        ("three quarters cup peas", "peas", "177.44 ml Cup"),
        ("two-thirds cup peas", "peas", "157.73 ml Cup"),
        ("half a cup of peas", "peas", "118.29 ml Cup"),
        ("a cup of peas", "peas", "236.59 ml Cup"),
        ("cup of peas", "peas", "236.59 ml Cup"),
        ("2 tbsp oil", "oil", "29.57 ml Tablespoon"),
        ("2 Tbsp. oil", "oil", "29.57 ml Tablespoon"),
        ("2 T oil", "oil", "29.57 ml Tablespoon"),
        ("2 t oil", "oil", "9.86 ml Teaspoon"),
        ("1 tsp sugar", "sugar", "4.93 ml Teaspoon"),
        ("1 heaping tbsp sugar", "sugar", "17.74-23.66 ml Tablespoon"),
        ("12 fl oz cola", "cola", "354.88 ml FluidOunce"),
        ("12 fl. oz. cola", "cola", "354.88 ml FluidOunce"),
        ("12 fluid ounces cola", "cola", "354.88 ml FluidOunce"),
        ("12-fl-oz cola", "cola", "354.88 ml FluidOunce"),
        ("330 ml beer", "beer", "330 ml Millilitre"),
        ("33cl beer", "beer", "330 ml Centilitre"),
        ("1.5 L water", "water", "1500 ml Litre"),
        ("1 pint ale", "ale", "473.18 ml Pint"),
        ("1 imperial pint ale", "ale", "568.26 ml ImperialPint"),
        ("a quart of soup", "soup", "946.35 ml Quart"),
        ("1 cup plus 2 tbsp flour", "flour", "266.16 ml Cup"),
        ("1 cup + 2 tbsp flour", "flour", "266.16 ml Cup"),
        ("1-2 cups rice", "rice", "236.59-473.18 ml Cup"),
        ("1 – 2 cups rice", "rice", "236.59-473.18 ml Cup"),
        ("1 to 1 1/2 cups rice", "rice", "236.59-354.88 ml Cup"),
        ("1 cup to 2 cups rice", "rice", "236.59-473.18 ml Cup"),
        ("between 1 and 2 cups rice", "rice", "236.59-473.18 ml Cup"),
        ("2 to 3 oz cheese", "cheese", "56.7-85.05 g"),
        ("170g-200g cheese", "cheese", "170-200 g"),
        (
            "#8 scoop mashed potatoes",
            "mashed potatoes",
            "118.29 ml NumberedScoop",
        ),
        ("No. 16 scoop of rice", "rice", "59.15 ml NumberedScoop"),
        ("4 oz ladle of gravy", "gravy", "118.29 ml FluidOunce"),
        ("8 oz glass of milk", "milk", "236.59 ml FluidOunce"),
        ("a 12 oz bowl of soup", "soup", "354.88 ml FluidOunce"),
    ]);
}

#[test]
fn counts_and_sizes() {
    check(&[
        ("2 eggs", "eggs", "2 pieces"),
        ("3 large eggs", "eggs", "3 pieces Large"),
        ("a dozen eggs", "eggs", "12 pieces"),
        ("half a dozen oysters", "oysters", "6 pieces"),
        ("two dozen oysters", "oysters", "24 pieces"),
        ("a couple of eggs", "eggs", "2 pieces"),
        ("a few olives", "olives", "2-5 pieces"),
        ("an apple", "apple", "1 pieces"),
        ("half an avocado", "avocado", "0.5 pieces"),
        ("1/2 avocado", "avocado", "0.5 pieces"),
        ("1/2 of an avocado", "avocado", "0.5 pieces"),
        ("half the sandwich", "sandwich", "0.5 serving"),
        ("a quarter chicken", "chicken", "0.25 pieces"),
        ("2 slices rye bread", "rye bread", "2 slice"),
        ("2 slices of rye bread", "rye bread", "2 slice"),
        ("2 thick slices bread", "bread", "2 slice Thick"),
        ("1 large slice pizza", "pizza", "1 slice Large"),
        ("slice of pie", "pie", "1 slice"),
        ("2 pizza slices", "pizza", "2 slice"),
        ("3 cloves garlic", "garlic", "3 clove"),
        ("2 garlic cloves", "garlic", "2 clove"),
        ("1 tsp ground cloves", "ground cloves", "4.93 ml Teaspoon"),
        ("6 chicken wings", "chicken wings", "6 wing"),
        ("2 beef patties", "beef patties", "2 patty"),
        ("3 strips bacon", "bacon", "3 strip"),
        ("1 ear corn", "corn", "1 ear"),
        ("2 ears of corn", "corn", "2 ear"),
        ("1 sprig parsley", "parsley", "1 sprig"),
        ("2 scoops vanilla ice cream", "vanilla ice cream", "2 scoop"),
        ("1 can tuna", "tuna", "1 can"),
        ("a bowl of chili", "chili", "1 bowl"),
        ("a large bowl of chili", "chili", "1 bowl Large"),
        ("1 glass red wine", "red wine", "1 glass"),
        ("1 medium banana", "banana", "1 pieces Medium"),
        ("banana, 1 medium", "banana", "1 pieces Medium"),
        ("banana (1 medium)", "banana", "1 pieces Medium"),
        ("banana, large", "banana", "1 pieces Large"),
        ("1 extra-large egg", "egg", "1 pieces ExtraLarge"),
        ("1 medium-sized potato", "potato", "1 pieces Medium"),
        ("large fries", "fries", "1 pieces Large"),
        (
            "two 6-inch corn tortillas",
            "corn tortillas",
            "2 pieces 6in",
        ),
        ("2 6\" corn tortillas", "corn tortillas", "2 pieces 6in"),
        ("2 (6-inch) tortillas", "tortillas", "2 pieces 6in"),
        ("6-inch sub", "sub", "1 pieces 6in"),
        ("12 in pizza", "pizza", "1 pieces 12in"),
        ("1/4 of a 14 inch pizza", "pizza", "0.25 pieces 14in"),
        ("15 cm tortilla", "tortilla", "1 pieces 5.91in"),
        ("1 2-inch piece ginger", "ginger", "1 piece 2in"),
        ("1 cubic inch cheddar", "cheddar", "1 cubic inch"),
        ("side salad", "side salad", "-"),
        ("a side salad", "side salad", "1 pieces"),
        ("side of coleslaw", "coleslaw", "1 side"),
        ("order of fries", "fries", "1 order"),
        ("2 rolls", "rolls", "2 roll"),
        ("10 chips", "chips", "10 chip"),
        ("1 breast of chicken", "breast of chicken", "1 breast"),
        ("6 spears asparagus, cooked", "asparagus, cooked", "6 spear"),
        ("6-piece chicken nuggets", "chicken nuggets", "6 piece"),
        ("12 pcs sushi", "sushi", "12 piece"),
        ("twenty-five grapes", "grapes", "25 pieces"),
    ]);
}

#[test]
fn amounts_after_the_food() {
    check(&[
        (
            "chicken breast, grilled 6 oz",
            "chicken breast, grilled",
            "170.1 g",
        ),
        ("raw onion, 11.91g", "raw onion", "11.91 g"),
        (
            "fresh red tomato, raw, 18.64g",
            "fresh red tomato, raw",
            "18.64 g",
        ),
        (
            "mild Italian sausage, fried, 27.3g",
            "mild Italian sausage, fried",
            "27.3 g",
        ),
        ("chicken (170 g)", "chicken", "170 g"),
        (
            "grilled salmon (about 6 oz)",
            "grilled salmon",
            "144.58-195.61 g",
        ),
        ("home fries, 1 cup", "home fries", "236.59 ml Cup"),
        ("bread 2 slices", "bread", "2 slice"),
        ("bread: 2 slices", "bread", "2 slice"),
        ("bread - 2 slices", "bread", "2 slice"),
        ("garlic, 2 cloves", "garlic", "2 clove"),
        ("chicken, 2 wings", "chicken, wings", "2 wing"),
        ("eggs x2", "eggs", "2 pieces"),
        ("eggs x 2", "eggs", "2 pieces"),
        ("bread roll x2", "bread roll", "2 roll"),
        ("eggs (x2)", "eggs", "2 pieces"),
        ("eggs 2x", "eggs", "2 pieces"),
        ("2x eggs", "eggs", "2 pieces"),
        ("2 x eggs", "eggs", "2 pieces"),
        ("2× eggs", "eggs", "2 pieces"),
        ("eggs, 2", "eggs", "2 pieces"),
        ("eggs 2", "eggs", "2 pieces"),
        (
            "chicken thigh (with skin) 5 oz",
            "chicken thigh (with skin)",
            "141.75 g",
        ),
        ("chicken 6 oz grilled", "chicken grilled", "170.1 g"),
        (
            "orange juice 8 fl oz",
            "orange juice",
            "236.59 ml FluidOunce",
        ),
        (
            "lemon-butter sauce 1-2 tbsp",
            "lemon-butter sauce",
            "14.79-29.57 ml Tablespoon",
        ),
    ]);
}

#[test]
fn loose_and_approximate() {
    check(&[
        ("about 6 oz salmon", "salmon", "144.58-195.61 g"),
        ("~6 oz salmon", "salmon", "144.58-195.61 g"),
        ("~ 6 oz salmon", "salmon", "144.58-195.61 g"),
        ("approx. 100 g rice", "rice", "85-115 g"),
        ("100 g or so rice", "rice", "85-115 g"),
        ("100-ish g rice", "100-ish g rice", "-"),
        ("up to 100 g rice", "rice", "60-100 g"),
        ("at least 100 g rice", "rice", "100-130 g"),
        ("a handful of nuts", "nuts", "45-125 ml Handful"),
        ("handful of croutons", "croutons", "45-125 ml Handful"),
        ("2 handfuls spinach", "spinach", "90-250 ml Handful"),
        ("a small handful of nuts", "nuts", "31.5-87.5 ml Handful"),
        ("a pinch of salt", "salt", "0.15-0.6 ml Pinch"),
        ("salt, a pinch", "salt", "0.15-0.6 ml Pinch"),
        ("salt, pinch", "salt", "0.15-0.6 ml Pinch"),
        ("dash of hot sauce", "hot sauce", "0.3-1.2 ml Dash"),
        ("a drizzle of olive oil", "olive oil", "3-12 ml Drizzle"),
        ("a knob of butter", "butter", "7-22 g"),
        ("a splash of milk", "milk", "4-16 ml Splash"),
        ("a dollop of sour cream", "sour cream", "12-36 ml Dollop"),
        ("a sprinkle of parmesan", "parmesan", "0.6-7 ml Sprinkle"),
        ("a squeeze of lime", "lime", "2.5-11 ml Squeeze"),
        (
            "a schmear of cream cheese",
            "cream cheese",
            "15-42 ml Schmear",
        ),
        ("1 pat butter", "butter", "3.5-8 g"),
        ("sprinkle donut", "sprinkle donut", "-"),
    ]);
}

#[test]
fn several_amounts_on_one_line() {
    check(&[
        ("1 cup (240 g) rice", "rice", "240 g"),
        ("6 oz (170 g) steak", "steak", "170.1 g"),
        ("1/2 cup (120 ml) milk", "milk", "118.29 ml Cup"),
        ("1 can (12 fl oz) cola", "cola", "354.88 ml FluidOunce"),
        ("2 cans (12 fl oz) cola", "cola", "709.76 ml FluidOunce"),
        ("2 12-oz cans cola", "cola", "680.39 g"),
        ("12 oz can of cola", "cola", "340.19 g"),
        ("1 (14-oz) can black beans", "black beans", "396.89 g"),
        ("1 6 oz container yogurt", "yogurt", "170.1 g"),
        ("2 slices (60 g) bread", "bread", "60 g"),
        ("2 slices bread, 30 g each", "bread", "60 g"),
        ("2 x 30 g cheese", "cheese", "60 g"),
        ("2x30g cheese", "cheese", "60 g"),
        ("2 × 8 oz ribeye", "ribeye", "453.59 g"),
        ("2 8-oz ribeyes", "ribeyes", "453.59 g"),
        ("2 (6 oz) ribeyes", "ribeyes", "340.19 g"),
        ("three 2 oz meatballs", "meatballs", "170.1 g"),
        ("1 medium banana (118 g)", "banana", "118 g"),
        ("2 eggs, large", "eggs", "2 pieces Large"),
        ("side of coleslaw, 1/2 cup", "coleslaw", "118.29 ml Cup"),
        ("6 oz steak x2", "steak", "340.19 g"),
        ("2 eggs, 100 g", "eggs", "100 g"),
    ]);
}

#[test]
fn numbers_that_are_names() {
    check(&[
        ("7-grain bread", "7-grain bread", "-"),
        ("2 slices 7-grain bread", "7-grain bread", "2 slice"),
        ("7 grain bread, 2 slices", "7 grain bread", "2 slice"),
        ("2% milk", "2% milk", "-"),
        ("1 cup 2% milk", "2% milk", "236.59 ml Cup"),
        (
            "85% lean ground beef 4 oz",
            "85% lean ground beef",
            "113.4 g",
        ),
        ("ground beef 80/20, 4 oz", "ground beef 80/20", "113.4 g"),
        ("half and half", "half and half", "-"),
        (
            "half-and-half 2 tbsp",
            "half-and-half",
            "29.57 ml Tablespoon",
        ),
        ("2 tbsp half & half", "half & half", "29.57 ml Tablespoon"),
        ("three bean salad", "three bean salad", "-"),
        (
            "1 cup three-bean salad",
            "three-bean salad",
            "236.59 ml Cup",
        ),
        ("five spice tofu", "five spice tofu", "-"),
        ("thousand island dressing", "thousand island dressing", "-"),
        (
            "1000 island dressing 2 tbsp",
            "1000 island dressing",
            "29.57 ml Tablespoon",
        ),
        ("4 cheese pizza", "4 cheese pizza", "-"),
        ("4 cheese enchiladas", "cheese enchiladas", "4 pieces"),
        ("2 cheese slices", "cheese", "2 slice"),
        ("3-egg omelette", "3-egg omelette", "-"),
        ("3 egg omelette", "3 egg omelette", "-"),
        ("3 egg whites", "egg whites", "3 pieces"),
        ("seven-layer dip", "seven-layer dip", "-"),
        ("chicken 65", "chicken 65", "-"),
        ("7 up", "7 up", "-"),
        ("steak, medium rare", "steak, medium rare", "-"),
        ("ribeye steak, medium", "ribeye steak, medium", "-"),
        (
            "small curd cottage cheese",
            "small curd cottage cheese",
            "-",
        ),
        ("vitamin b12 gummies", "vitamin b12 gummies", "-"),
        ("omega-3 eggs", "omega-3 eggs", "-"),
        ("pound cake", "pound cake", "-"),
        ("1 slice pound cake", "pound cake", "1 slice"),
        (
            "oysters on the half shell, 6",
            "oysters on the half shell",
            "6 pieces",
        ),
        ("1/2 cup 00 flour", "00 flour", "118.29 ml Cup"),
        ("apple pie à la mode", "apple pie à la mode", "-"),
        ("T-bone steak", "T-bone steak", "-"),
        ("2 T-bone steaks", "T-bone steaks", "2 steak"),
        ("beans in tomato sauce", "beans in tomato sauce", "-"),
        ("pizza with 3 cheeses", "pizza with 3 cheeses", "-"),
    ]);
}

#[test]
fn list_marks_are_no_amounts() {
    check(&[
        ("- 2 eggs", "eggs", "2 pieces"),
        ("* 2 eggs", "eggs", "2 pieces"),
        ("• 2 eggs", "eggs", "2 pieces"),
        ("•2 eggs", "eggs", "2 pieces"),
        ("-rice", "rice", "-"),
        ("1. 2 eggs", "eggs", "2 pieces"),
        ("2) rice", "rice", "-"),
        ("[ ] 2 eggs", "eggs", "2 pieces"),
        ("1.5 oz cheese", "cheese", "42.52 g"),
        ("  rice  ", "rice", "-"),
    ]);
}

#[test]
fn turns_of_phrase() {
    check(&[
        ("Two (2) eggs over easy", "eggs over easy", "2 pieces"),
        ("1 ea. banana", "banana", "1 pieces"),
        ("6 each chicken wings", "chicken wings", "6 wing"),
        ("6 shrimp, jumbo", "shrimp", "6 pieces ExtraLarge"),
        ("2 lg eggs", "eggs", "2 pieces Large"),
        ("2 x-large eggs", "eggs", "2 pieces ExtraLarge"),
        ("2, 3-oz pieces of fish", "fish", "170.1 g"),
        ("3 oz piece of fish", "fish", "85.05 g"),
        ("3 x 6\" tortillas", "tortillas", "3 pieces 6in"),
        ("full rack of ribs", "ribs", "1 rack"),
        ("3/4 full bowl of rice", "rice", "0.75 bowl"),
        ("handful lettuce", "lettuce", "45-125 ml Handful"),
        ("heaping cup rice", "rice", "283.91-378.54 ml Cup"),
        ("1 packed cup spinach", "spinach", "236.59 ml Cup"),
        ("a cup and a half of rice", "rice", "354.88 ml Cup"),
        ("a pound and a half of shrimp", "shrimp", "680.39 g"),
        ("100 + 50 g rice", "rice", "150 g"),
        ("100g+ rice", "rice", "100-130 g"),
        ("<100 g rice", "rice", "60-100 g"),
        ("c. 100 g rice", "rice", "85-115 g"),
        ("egg whites x3, 99 g", "egg whites", "99 g"),
        ("5 grains of rice", "grains of rice", "5 pieces"),
        ("1/2 & 1/2, 2 tbsp", "1/2 & 1/2", "29.57 ml Tablespoon"),
        ("A1 sauce", "A1 sauce", "-"),
        ("$5 burger", "$5 burger", "-"),
        ("burger 5.99", "burger 5.99", "-"),
        ("1 stone fruit", "stone fruit", "1 pieces"),
        ("a foot long sub", "foot long sub", "1 pieces"),
        ("lettuce 2 leaves", "lettuce leaves", "2 leaf"),
        (
            "1 can or bottle (12 fl oz) beer",
            "beer",
            "354.88 ml FluidOunce",
        ),
        (
            "1 glass (5 oz) red wine",
            "red wine",
            "147.87 ml FluidOunce",
        ),
        ("the whole pizza", "pizza", "1 pieces"),
        ("\"2 eggs\"", "eggs", "2 pieces"),
        ("burger w/ cheese", "burger w/ cheese", "-"),
        ("200g/7oz rice", "rice", "200 g"),
        ("5-6 oz sirloin (8 oz raw)", "sirloin", "141.75-170.1 g"),
        (
            "chicken breast (8 oz raw)",
            "chicken breast (raw)",
            "226.8 g",
        ),
    ]);
}

#[test]
fn asides_go_to_the_note() {
    for (text, food, amount, note) in [
        (
            "ranch on the side, 2 fl oz",
            "ranch",
            "59.15 ml FluidOunce",
            Some("on the side"),
        ),
        (
            "2 oz cheese (optional)",
            "cheese",
            "56.7 g",
            Some("optional"),
        ),
        ("salt to taste", "salt", "-", Some("to taste")),
        (
            "steak 8 oz, see photo",
            "steak",
            "226.8 g",
            Some("see photo"),
        ),
        (
            "rice 1 cup, estimated",
            "rice",
            "201.1-272.08 ml Cup",
            Some("estimated"),
        ),
        ("some lettuce", "lettuce", "-", Some("some")),
        ("a little olive oil", "olive oil", "-", Some("a little")),
        (
            "rice, note: looked dry",
            "rice",
            "-",
            Some("note: looked dry"),
        ),
        (
            "chicken breast, grilled",
            "chicken breast, grilled",
            "-",
            None,
        ),
        ("2 eggs (fried)", "eggs (fried)", "2 pieces", None),
    ] {
        let line = component(text).unwrap();
        assert_eq!(line.food, food, "{text}");
        assert_eq!(short(line.amount.as_ref()), amount, "{text}");
        assert_eq!(line.note.as_deref(), note, "{text}");
    }
}

#[test]
fn shares_of_a_vessel() {
    use super::Vessel;
    for (text, food, fraction, vessel, heap) in [
        (
            "half the plate: fried rice",
            "fried rice",
            Some(0.5),
            Vessel::Plate,
            None,
        ),
        (
            "fried rice, half the plate",
            "fried rice",
            Some(0.5),
            Vessel::Plate,
            None,
        ),
        ("1/4 plate: beans", "beans", Some(0.25), Vessel::Plate, None),
        (
            "a third of the bowl: noodles",
            "noodles",
            Some(1.0 / 3.0),
            Vessel::Bowl,
            None,
        ),
        (
            "30% of the plate: salad",
            "salad",
            Some(0.3),
            Vessel::Plate,
            None,
        ),
        (
            "half the plate, 1 inch high: rice",
            "rice",
            Some(0.5),
            Vessel::Plate,
            Some(1.0),
        ),
        (
            "half the plate: rice, 1.5 inches deep",
            "rice",
            Some(0.5),
            Vessel::Plate,
            Some(1.5),
        ),
        (
            "the rest of the plate: lettuce",
            "lettuce",
            None,
            Vessel::Plate,
            None,
        ),
        (
            "half a 12 in plate: rice",
            "rice",
            Some(0.5),
            Vessel::Plate,
            None,
        ),
        (
            "two-thirds of the bowl soup",
            "soup",
            Some(2.0 / 3.0),
            Vessel::Bowl,
            None,
        ),
    ] {
        let line = component(text).unwrap();
        assert_eq!(line.food, food, "{text}");
        let share = line.share.unwrap_or_else(|| panic!("{text}: no share"));
        assert_eq!(share.fraction.map(|range| range.likely), fraction, "{text}");
        assert_eq!(share.vessel, vessel, "{text}");
        assert_eq!(share.heap_inches, heap, "{text}");
    }
    let line = component("half a 12 in plate: rice").unwrap();
    assert_eq!(line.share.unwrap().inches, Some(12.0));
    assert_eq!(component("half a bowl of soup").unwrap().share, None);
}

#[test]
fn what_must_fail() {
    use ErrorKind as E;
    type Is = fn(&ErrorKind) -> bool;
    let table: &[(&str, usize, Is)] = &[
        ("", 1, |kind| matches!(kind, E::Empty)),
        ("   ", 4, |kind| matches!(kind, E::Empty)),
        ("---", 1, |kind| matches!(kind, E::Empty)),
        ("6 oz", 1, |kind| matches!(kind, E::NoFood)),
        ("2 slices", 1, |kind| matches!(kind, E::NoFood)),
        ("12", 1, |kind| matches!(kind, E::NoFood)),
        ("3 bushels spinach", 3, |kind| {
            matches!(kind, E::UnknownUnit("cups"))
        }),
        ("3 stone of beef", 3, |kind| {
            matches!(kind, E::UnknownUnit("g"))
        }),
        ("2 tabelspoons oil", 3, |kind| {
            matches!(kind, E::UnknownUnit("tablespoons"))
        }),
        ("-3 oz chicken", 1, |kind| matches!(kind, E::Negative)),
        ("−3 oz chicken", 1, |kind| matches!(kind, E::Negative)),
        ("chicken, -3 oz", 10, |kind| matches!(kind, E::Negative)),
        ("0 g rice", 1, |kind| matches!(kind, E::OutOfBounds { .. })),
        ("0 eggs", 1, |kind| matches!(kind, E::OutOfBounds { .. })),
        ("a tonne of lettuce", 1, |kind| {
            matches!(kind, E::OutOfBounds { .. })
        }),
        ("30 kg rice", 1, |kind| {
            matches!(kind, E::OutOfBounds { .. })
        }),
        ("5000 eggs", 1, |kind| matches!(kind, E::OutOfBounds { .. })),
        ("200 gallons milk", 1, |kind| {
            matches!(kind, E::OutOfBounds { .. })
        }),
        ("99999999999999999999999999999999 g rice", 1, |kind| {
            matches!(kind, E::OutOfBounds { .. })
        }),
        ("pizza, 400 inch", 8, |kind| {
            matches!(kind, E::OutOfBounds { .. })
        }),
        ("1/0 cup rice", 1, |kind| matches!(kind, E::DivisionByZero)),
        ("3-1 cups rice", 1, |kind| matches!(kind, E::RangeBackwards)),
        ("1-2-3 cups rice", 1, |kind| {
            matches!(kind, E::UnreadableNumber)
        }),
        ("1.2.3 oz rice", 1, |kind| {
            matches!(kind, E::UnreadableNumber)
        }),
        ("1 cup (900 g) rice", 8, |kind| {
            matches!(kind, E::Contradiction(_))
        }),
        ("6 oz (300 g) steak", 7, |kind| {
            matches!(kind, E::Contradiction(_))
        }),
        ("2 eggs, 3 slices", 9, |kind| {
            matches!(kind, E::Contradiction(_))
        }),
        ("salad with 2 oz chicken breast", 12, |kind| {
            matches!(kind, E::TwoFoods)
        }),
        ("2 eggs and 1 slice toast", 12, |kind| {
            matches!(kind, E::TwoFoods)
        }),
        ("coffee with a splash of milk", 13, |kind| {
            matches!(kind, E::TwoFoods)
        }),
        ("burger w/ 2 slices bacon", 11, |kind| {
            matches!(kind, E::TwoFoods)
        }),
        ("eggs 2, bacon 3 strips", 15, |kind| {
            matches!(kind, E::Contradiction(_))
        }),
        ("no onions", 1, |kind| matches!(kind, E::Absent)),
        ("hold the mayo", 1, |kind| matches!(kind, E::Absent)),
        ("rice nan g cooked", 6, |kind| {
            matches!(kind, E::UnreadableNumber)
        }),
        ("rice\0", 5, |kind| matches!(kind, E::HiddenCharacter('\0'))),
        ("6 oz ri\u{202e}ce", 8, |kind| {
            matches!(kind, E::HiddenCharacter('\u{202e}'))
        }),
        ("120% of the plate: rice", 1, |kind| {
            matches!(kind, E::OutOfBounds { .. })
        }),
    ];
    for (text, column, is) in table {
        match component(text) {
            Ok(line) => panic!("{text:?} was read as {line:?}"),
            Err(error) => {
                assert!(is(&error.kind), "{text:?}: {error}");
                assert_eq!(error.place.column, *column, "{text:?}: {error}");
            }
        }
    }
}

#[test]
fn lone_amounts() {
    for (text, amount) in [
        ("120 g", "120 g"),
        ("1-2 cups", "236.59-473.18 ml Cup"),
        ("2 large slices", "2 slice Large"),
        ("2 cloves", "2 clove"),
        ("3 wings", "3 wing"),
        ("1 medium", "1 pieces Medium"),
        ("x2", "2 pieces"),
        ("12", "12 pieces"),
        ("half", "0.5 pieces"),
        ("a handful", "45-125 ml Handful"),
        ("1 can (12 fl oz)", "354.88 ml FluidOunce"),
        ("2 slices, 60 g", "60 g"),
        ("about 6 oz", "144.58-195.61 g"),
        ("a dozen", "12 pieces"),
        ("two 6-inch", "2 pieces 6in"),
    ] {
        let got = parse_amount(text, UnitSystem::Us).map(|amount| short(Some(&amount)));
        assert_eq!(got.as_deref(), Ok(amount), "{text}");
    }
    for text in ["", "rice", "6 oz rice", "2 eggs", "half the plate", "lots"] {
        assert!(parse_amount(text, UnitSystem::Us).is_err(), "{text:?}");
    }
}

#[test]
fn metric_cups_hold_250_ml() {
    let line = parse_component("1 cup rice", Place::new("test", 1, 1), UnitSystem::Metric).unwrap();
    assert_eq!(short(line.amount.as_ref()), "250 ml Cup");
}

#[test]
fn stated_figures_are_exact_and_hedged_ones_are_not() {
    let amount = |text| component(text).unwrap().amount.unwrap();
    assert!(!amount("6 oz salmon").approximate);
    assert!(amount("6 oz salmon").number.is_exact());
    assert!(amount("about 6 oz salmon").approximate);
    assert!(amount("a handful of nuts").approximate);
    let range = amount("1-2 eggs").number;
    assert_eq!((range.low, range.likely, range.high), (1.0, 1.5, 2.0));
}
