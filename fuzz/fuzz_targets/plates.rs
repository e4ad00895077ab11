//! Whatever is typed: the whole way from the text to a plate and what fits of it.
#![no_main]

use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;
use trencher::Plates;

static PLATES: LazyLock<Plates> = LazyLock::new(|| Plates::new().expect("the catalogue opens"));

fuzz_target!(|text: &str| {
    let Ok(plate) = PLATES.plate(text) else {
        return;
    };
    let grams = plate.grams();
    assert!(grams.low <= grams.likely && grams.likely <= grams.high && grams.high.is_finite());
    assert!(!PLATES.text(&plate).is_empty());
    assert!(PLATES.json(&plate).is_ok());
    let _ = PLATES.right_size(&plate, 1.0 / 3.0);
});
