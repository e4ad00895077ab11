//! Component lines, menu lines and what is served.
#![no_main]

use libfuzzer_sys::fuzz_target;
use trencher::reading::{Place, UnitSystem, parse_component, parse_lines, parse_menu_line, parse_served};

fuzz_target!(|text: &str| {
    for units in [UnitSystem::Us, UnitSystem::Metric] {
        if let Ok(line) = parse_component(text, Place::new("fuzz", 1, 1), units) {
            assert!(!line.food.trim().is_empty());
        }
        let (read, faults) = parse_lines("fuzz", text, units);
        assert!(!read.is_empty() || !faults.is_empty());
        let _ = parse_served(text, units).map_err(|e| e.to_string());
    }
    let _ = parse_menu_line(text);
});
