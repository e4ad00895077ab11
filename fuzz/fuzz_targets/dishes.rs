//! Dish files: what is read can be written, and is read the same.
#![no_main]

use libfuzzer_sys::fuzz_target;
use trencher::ledger::Standard;
use trencher::reading::{UnitSystem, parse_dish_file, to_toml};

fuzz_target!(|text: &str| {
    if let Ok(dish) = parse_dish_file("fuzz", text, UnitSystem::Us) {
        let again = parse_dish_file("fuzz", &to_toml(&dish), UnitSystem::Us).expect("reads again");
        assert_eq!(again.name, dish.name);
        assert_eq!(again.components.len(), dish.components.len());
    }
    let _ = Standard::parse(text).map_err(|e| e.to_string());
});
