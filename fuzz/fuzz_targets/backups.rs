//! Backups of the day log, JSON or a table: what is read is written and read the same.
#![no_main]

use libfuzzer_sys::fuzz_target;
use trencher::daylog::Export;

fuzz_target!(|text: &str| {
    if let Ok(export) = Export::from_json(text) {
        assert_eq!(Export::from_json(&export.to_json()), Ok(export));
    }
    let _ = Export::from_csv(text).map_err(|e| e.to_string());
});
