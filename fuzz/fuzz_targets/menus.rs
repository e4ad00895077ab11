//! Menus: CSV, lines of JSON, linked data.
#![no_main]

use libfuzzer_sys::fuzz_target;
use trencher::menu::{Cells, Cut, Header, Item, Shape, Splitter, from_line, from_menu_item, menu_items, to_item};

fuzz_target!(|bytes: &[u8]| {
    let mut splitter = Splitter::new(bytes, Shape::Csv(b','));
    let header = splitter.next_row().and_then(|row| Header::parse(row.bytes, b',').ok());
    let (mut cells, mut item) = (Cells::new(b','), Item::default());
    while let Some(row) = splitter.next_row() {
        if row.cut == Cut::Whole
            && cells.read(row.bytes).is_ok()
            && let Some(header) = &header
            && to_item(header, &cells, &mut item).is_ok()
        {
            assert!(!item.name.is_empty());
        }
    }
    let mut lines = Splitter::new(bytes, Shape::Lines);
    while let Some(row) = lines.next_row() {
        let _ = from_line(row.bytes, &mut item);
    }
    let _ = menu_items(bytes, &mut |_, text| {
        let _ = from_menu_item(text.as_bytes(), &mut Item::default());
        true
    });
});
