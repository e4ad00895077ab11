//! Every reader of text from outside, fed with text that nobody would write: none may panic, and
//! what each says of the text must hold.
//!
//! `READERS_SECONDS=600 cargo test --test readers` goes on for ten minutes each; without it each
//! takes the usual number of cases.

use proptest::prelude::*;
use proptest::test_runner::{Config, TestCaseError, TestRunner};
use std::time::{Duration, Instant};
use trencher::Plates;
use trencher::daylog::Export;
use trencher::foods::OwnFoods;
use trencher::ledger::Standard;
use trencher::matching::Corrections;
use trencher::menu::{
    Cells, Cut, Header, Item, Shape, Splitter, from_line, from_menu_item, menu_items, to_item,
};
use trencher::reading::{
    Place, UnitSystem, parse_component, parse_dish_file, parse_lines, parse_menu_line,
    parse_served, parse_told, to_toml,
};

/// Texts of one round.
const ROUND: u32 = 256;

/// Runs a property on texts: once round, or as long as asked for.
fn feed(
    reader: &str,
    pieces: &'static [&'static str],
    most: usize,
    check: impl Fn(String) -> Result<(), TestCaseError>,
) {
    let seconds = std::env::var("READERS_SECONDS")
        .ok()
        .and_then(|s| s.parse().ok())
        .unwrap_or(0);
    let end = Instant::now() + Duration::from_secs(seconds);
    let piece = prop_oneof![
        6 => proptest::sample::select(pieces).prop_map(str::to_owned),
        2 => "[a-z]{1,8}",
        1 => "[0-9]{1,4}",
        1 => any::<char>().prop_map(String::from),
        1 => any::<String>(),
        // The same again and again, and one within the other.
        1 => (proptest::sample::select(pieces), 2..60_usize).prop_map(|(p, times)| p.repeat(times)),
        1 => (0..200_usize).prop_map(|deep| "[".repeat(deep) + &"]".repeat(deep)),
    ];
    let text = proptest::collection::vec(piece, 0..most).prop_map(|list| list.concat());
    let mut rounds = 0_u64;
    loop {
        let mut runner = TestRunner::new(Config {
            failure_persistence: None,
            cases: ROUND,
            ..Config::default()
        });
        if let Err(fault) = runner.run(&text, &check) {
            panic!("{reader}: {fault}");
        }
        rounds += 1;
        if Instant::now() >= end {
            break;
        }
    }
    if seconds > 0 {
        let texts = rounds * u64::from(ROUND);
        eprintln!("{reader}: {texts} texts in {seconds} s without a finding");
    }
}

const COMPONENT: &[&str] = &[
    " ",
    ", ",
    "1/2",
    "1 1/2",
    "½",
    "cup",
    " cups ",
    "oz",
    "fl oz",
    "g",
    "6",
    "-",
    "half the plate:",
    "a handful of",
    "on the side",
    "(",
    ")",
    "rice",
    "chicken breast",
    "#8 scoop",
    "\t",
    "extra",
    "2-3",
    "1.5",
    "0",
    "999999999999",
    "large",
    "12 in",
    "bowl",
    "full",
    "two",
    "dozen",
    "\u{200b}",
];

#[test]
fn component_lines() {
    feed("component lines", COMPONENT, 14, |text| {
        for units in [UnitSystem::Us, UnitSystem::Metric] {
            if let Ok(line) = parse_component(&text, Place::new("fuzz", 1, 1), units) {
                prop_assert!(!line.food.trim().is_empty());
                if let Some(amount) = &line.amount {
                    let n = amount.number;
                    prop_assert!(n.low.is_finite() && n.high.is_finite());
                    prop_assert!(
                        n.low <= n.likely + 1e-9 && n.likely <= n.high + 1e-9,
                        "{n:?}"
                    );
                    prop_assert!(n.low >= 0.0);
                }
            }
            let (read, faults) = parse_lines("fuzz", &text, units);
            prop_assert!(!read.is_empty() || !faults.is_empty());
            for fault in faults {
                prop_assert!(!fault.to_string().is_empty());
            }
            let _ = parse_served(&text, units).map_err(|e| e.to_string());
        }
        Ok(())
    });
}

const MENU: &[&str] = &[
    " ",
    ", ",
    " with ",
    " on ",
    " over ",
    " and ",
    "; ",
    "no ",
    "extra ",
    "light ",
    "sub ",
    " instead of ",
    "add ",
    "double ",
    "served with ",
    "side of ",
    "burger",
    "caesar salad",
    "cheese",
    "fries",
    "(",
    ")",
    "|",
    "•",
    "w/ ",
    "mac and cheese",
    "rye",
    "+",
    ": ",
    " - ",
    " \u{2013} ",
    "10 pieces",
    "6 oz",
    "Lunch Plate",
    "2",
];

#[test]
fn menu_lines() {
    feed("menu lines", MENU, 20, |text| {
        let line = parse_menu_line(&text);
        for part in &line.parts {
            prop_assert!(!part.text.trim().is_empty(), "{line:?}");
        }
        // A name is told only where something else describes it, and is never lost.
        if !line.name.is_empty() {
            prop_assert!(line.text.contains(&line.name), "{line:?}");
            prop_assert!(line.by_name().is_none_or(|l| l.name == line.name));
        }
        prop_assert_eq!(parse_menu_line(&text), line);
        Ok(())
    });
}

const DISH: &[&str] = &[
    "name = ",
    "kind = ",
    "served = ",
    "[[component]]\n",
    "food = ",
    "amount = ",
    "note = ",
    "source = ",
    "\"rice\"",
    "\"1 cup\"",
    "\"",
    "\n",
    " = ",
    "[",
    "]",
    "'",
    "450 g",
    "\"Bowl\"\n",
    "\"32 fl oz bowl, full\"",
    "#",
    "true",
    "1979-05-27",
    "\\u0000",
    "component = []\n",
];

#[test]
fn dish_files() {
    feed("dish files", DISH, 24, |text| {
        match parse_dish_file("fuzz", &text, UnitSystem::Us) {
            Ok(dish) => {
                // What is read can be written, and is read the same.
                let written = to_toml(&dish);
                let again = parse_dish_file("fuzz", &written, UnitSystem::Us)
                    .map_err(|e| TestCaseError::fail(format!("{e}\n{written}")))?;
                prop_assert_eq!(again.name, dish.name);
                prop_assert_eq!(again.components.len(), dish.components.len());
            }
            Err(fault) => prop_assert!(!fault.to_string().is_empty()),
        }
        Ok(())
    });
}

const STANDARD: &[&str] = &[
    "name = \"x\"\n",
    "source = \"y\"\n",
    "levels_kcal = [1600, 2000]\n",
    "levels = [2000]\n",
    "[groups.grains]\n",
    "[group.vegetables]\n",
    "portion = 1.0\n",
    "allowance = [5, 6]\n",
    "unit = \"oz-eq\"\n",
    "[limits]\n",
    "sodium_mg = 2300\n",
    "nan",
    "inf",
    "-1",
    "[",
    "]",
    ",",
    " = ",
    "\n",
    "1e308",
    "\"",
];

#[test]
fn standard_files() {
    feed("standard files", STANDARD, 24, |text| {
        // Beside texts of pieces, a good standard with one piece put into it.
        let good = include_str!("../src/ledger/standards/us-style.toml");
        let at = text.len() * 131 % good.len();
        let at = (at..good.len())
            .find(|at| good.is_char_boundary(*at))
            .unwrap_or(0);
        let mixed = format!("{}{text}{}", &good[..at], &good[at..]);
        for text in [&text, &mixed] {
            match Standard::parse(text) {
                Ok(standard) => {
                    prop_assert!(!standard.levels().is_empty());
                    let choice = standard.level(2_000.0);
                    prop_assert!(choice.level_kcal.is_finite());
                }
                Err(fault) => prop_assert!(!fault.to_string().is_empty()),
            }
        }
        Ok(())
    });
}

const FOODS: &[&str] = &[
    "name,energy_kcal,like\n",
    "name,aliases,family,energy_kcal,grains_oz,measures\n",
    "loaf",
    "rice",
    "bread",
    "262",
    "-1",
    "1e9",
    "nan",
    "1 slice = 48",
    "=",
    ";",
    ",",
    ",",
    "\"",
    "\n",
    "\n",
    "\u{feff}",
];

#[test]
fn own_food_tables() {
    feed("own food tables", FOODS, 30, |text| {
        for text in [text.clone(), format!("name,energy_kcal,like\n{text}")] {
            match OwnFoods::parse(&text) {
                Ok(own) => prop_assert!(!own.is_empty()),
                Err(fault) => {
                    prop_assert!(fault.line >= 1);
                    prop_assert!(fault.line <= text.matches('\n').count() as u64 + 1);
                }
            }
        }
        Ok(())
    });
}

const CORRECTIONS: &[&str] = &[
    "words,code,food,date\n",
    "chips",
    "71201015",
    "none",
    "2026-11-25",
    "'=1",
    "''",
    ",",
    ",",
    ",",
    "\"",
    "\n",
    "\n",
];

#[test]
fn corrections_files() {
    feed("corrections files", CORRECTIONS, 30, |text| {
        for text in [text.clone(), format!("words,code,food,date\n{text}")] {
            if let Ok(corrections) = Corrections::parse(&text) {
                let again = Corrections::parse(&corrections.to_text());
                prop_assert_eq!(again, Ok(corrections));
            }
        }
        Ok(())
    });
}

const BACKUP: &[&str] = &[
    "{\"version\":1,",
    "\"diners\":[",
    "\"entries\":[",
    "{\"name\":\"Ana\"}",
    "{\"uid\":\"a\",\"diner\":\"Ana\",\"undone\":false,\"entry\":{",
    "]",
    "]}",
    "}",
    ",",
    "\"",
    "1e999",
    "null",
    "diner,date,time,utc_offset_seconds\n",
    "\n",
    "\u{feff}",
];

#[test]
fn backups() {
    feed("backups", BACKUP, 24, |text| {
        let whole = format!("{{\"version\":1,\"diners\":[],\"entries\":[{text}]}}");
        for text in [&text, &whole] {
            match Export::from_json(text) {
                Ok(export) => {
                    prop_assert_eq!(Export::from_json(&export.to_json()), Ok(export));
                }
                Err(fault) => prop_assert!(!fault.to_string().is_empty()),
            }
            let _ = Export::from_csv(text).map_err(|e| e.to_string());
        }
        Ok(())
    });
}

const CSV: &[&str] = &[
    "item,components\n",
    "\"",
    "\"\"",
    ",",
    "\n",
    "\r\n",
    "\r",
    ";",
    "1 cup rice",
    "Bowl",
    "\t",
    "\u{feff}",
    "\0",
    "540/680",
    "energy_kcal",
    "=1+1",
    "served",
    "450 g",
    " ",
];

#[test]
fn csv_menus() {
    feed("CSV menus", CSV, 40, |text| {
        let mut splitter = Splitter::new(text.as_bytes(), Shape::Csv(b','));
        let mut header = None;
        let mut cells = Cells::new(b',');
        let mut item = Item::default();
        let (mut line, mut kept) = (0, 0);
        while let Some(row) = splitter.next_row() {
            prop_assert!(row.line >= line);
            line = row.line;
            kept += row.bytes.len();
            if header.is_none() {
                header = Some(Header::parse(row.bytes, b','));
                continue;
            }
            if row.cut == Cut::Whole
                && let Some(Ok(header)) = &header
                && cells.read(row.bytes).is_ok()
                && to_item(header, &cells, &mut item).is_ok()
            {
                prop_assert!(!item.name.is_empty());
                prop_assert!(!item.name.contains(['\n', '\r', '\0']));
            }
        }
        // Nothing but line breaks and blank lines is lost.
        let letters = |t: &str| t.bytes().filter(|b| !b.is_ascii_whitespace()).count();
        prop_assert!(kept >= letters(&text), "{kept} of {}", letters(&text));
        Ok(())
    });
}

const JSON: &[&str] = &[
    "{",
    "}",
    "[",
    "]",
    ",",
    ":",
    "\"",
    "\"name\":",
    "\"item\":",
    "\"components\":",
    "\"@type\":",
    "\"MenuItem\"",
    "\"hasMenuItem\":",
    "\"hasMenuSection\":",
    "\"@graph\":",
    "\"nutrition\":",
    "\"calories\":",
    "\"640 calories\"",
    "\"Soup\"",
    "null",
    "true",
    "1e999",
    "{\"name\":\"A\"}",
    "\\u0000",
    "\\ud800",
    "{\"@id\":\"x\"}",
    "\"energy_kcal\":640",
    "\n",
];

#[test]
fn json_menus() {
    feed("JSON menus", JSON, 30, |text| {
        let mut item = Item::default();
        for read in [from_line, from_menu_item] {
            match read(text.as_bytes(), &mut item) {
                Ok(()) => prop_assert!(!item.name.is_empty()),
                Err(fault) => prop_assert!(!fault.to_string().is_empty()),
            }
        }
        for text in [text.clone(), format!("{{\"hasMenuItem\":[{text}]}}")] {
            let mut found = Vec::new();
            let _ = menu_items(text.as_bytes(), &mut |_, item| {
                found.push(item.to_owned());
                found.len() < 100
            });
            for one in found {
                prop_assert!(
                    serde_json::from_str::<&serde_json::value::RawValue>(&one).is_ok(),
                    "{one}"
                );
            }
        }
        Ok(())
    });
}

const TOLD: &[&str] = &[
    "For lunch I had ",
    "I ate ",
    " and ",
    ", ",
    ". ",
    " with ",
    " washed down with ",
    "two slices of ",
    "a 12 fl oz can of ",
    "a handful of ",
    "weighing 102 g",
    "half of ",
    "the size of my palm",
    "pizza",
    "cola",
    "grilled chicken",
    "brown rice",
    "1/2 cup ",
    "about ",
    "3 ",
    "maybe ",
    "left half",
    "split four ways",
    "x2",
    "\n",
    "(",
    ")",
    "-",
    "½",
    "200 g ",
    "yesterday",
    "with my sister",
    "\u{202e}",
];

#[test]
fn sentences() {
    feed("sentences", TOLD, 24, |text| {
        let place = Place::new("fuzz", 1, 1);
        for units in [UnitSystem::Us, UnitSystem::Metric] {
            let told = parse_told(&text, &place, units);
            for line in &told.components {
                prop_assert!(!line.food.trim().is_empty(), "{line:?}");
                if let Some(amount) = &line.amount {
                    let n = amount.number;
                    prop_assert!(n.high.is_finite() && n.low >= 0.0, "{n:?}");
                    prop_assert!(n.low <= n.likely + 1e-9 && n.likely <= n.high + 1e-9);
                }
            }
            for error in &told.errors {
                prop_assert!(!error.to_string().is_empty());
            }
            // Phrases stand in the text, one behind the other.
            let mut last = 0;
            for phrase in &told.read.phrases {
                prop_assert!(
                    last <= phrase.from && phrase.from <= phrase.to,
                    "{phrase:?}"
                );
                prop_assert!(text.get(phrase.from..phrase.to).is_some(), "{phrase:?}");
                last = phrase.to;
            }
            prop_assert_eq!(told, parse_told(&text, &place, units));
        }
        Ok(())
    });
}

/// Whatever is typed: the whole way from the text to a plate and what fits of it.
#[test]
fn whole_plates() {
    let plates = Plates::new().expect("the catalogue opens");
    let check = |text: String| {
        let Ok(plate) = plates.plate(&text) else {
            return Ok(());
        };
        for range in [Some(plate.grams()), plate.energy()].into_iter().flatten() {
            prop_assert!(
                0.0 <= range.low && range.low <= range.likely && range.likely <= range.high,
                "{range:?}"
            );
            prop_assert!(range.high.is_finite(), "{range:?}");
        }
        prop_assert!(!plates.text(&plate).is_empty());
        prop_assert!(plates.json(&plate).is_ok());
        let _ = plates.right_size(&plate, 1.0 / 3.0);
        Ok(())
    };
    feed("plates from lines of menus", MENU, 10, check);
    feed("plates from sentences", TOLD, 10, check);
}
