//! Tables that people write: own foods, corrections.
#![no_main]

use libfuzzer_sys::fuzz_target;
use trencher::foods::OwnFoods;
use trencher::matching::Corrections;

fuzz_target!(|text: &str| {
    match OwnFoods::parse(text) {
        Ok(own) => assert!(!own.is_empty()),
        Err(fault) => assert!(fault.line >= 1),
    }
    if let Ok(corrections) = Corrections::parse(text) {
        assert_eq!(Corrections::parse(&corrections.to_text()), Ok(corrections));
    }
});
