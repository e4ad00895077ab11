//! Meals told in sentences and jots.
#![no_main]

use libfuzzer_sys::fuzz_target;
use trencher::reading::{Place, UnitSystem, is_told, parse_told};

fuzz_target!(|text: &str| {
    let _ = is_told(text);
    for units in [UnitSystem::Us, UnitSystem::Metric] {
        let told = parse_told(text, &Place::new("fuzz", 1, 1), units);
        for line in &told.components {
            assert!(!line.food.trim().is_empty());
        }
        for phrase in &told.read.phrases {
            assert!(text.get(phrase.from..phrase.to).is_some());
        }
    }
});
