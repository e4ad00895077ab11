//! What reading a line of a menu costs: own lines, or the items and descriptions of a table of
//! menus whose path stands in `TRENCHER_MENU`.

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use std::hint::black_box;
use trencher::reading::{MenuLine, is_told, parse_menu_line};

/// Names with descriptions.
fn lines() -> Vec<(String, String)> {
    let table = match std::env::var_os("TRENCHER_MENU") {
        Some(path) => std::fs::read_to_string(path).expect("the table of menus"),
        None => include_str!("../tests/data/menu_lines.csv").replacen("line", "item", 1),
    };
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let head = reader.headers().expect("a header line").clone();
    let place = |name: &str| head.iter().position(|cell| cell == name);
    let (item, description) = (place("item").expect("a column item"), place("description"));
    reader
        .records()
        .map(|row| {
            let row = row.expect("a row");
            let cell = |at: Option<usize>| at.and_then(|at| row.get(at)).unwrap_or_default();
            (cell(Some(item)).to_owned(), cell(description).to_owned())
        })
        .collect()
}

fn reading(criterion: &mut Criterion) {
    let lines = lines();
    let mut group = criterion.benchmark_group("reading");
    group.throughput(Throughput::Elements(lines.len() as u64));
    group.sample_size(20);
    group.bench_function("menu lines", |bench| {
        bench.iter(|| {
            for (name, description) in &lines {
                // As every command does: a sentence is told first.
                if !is_told(name) {
                    black_box(MenuLine::described(name, description));
                }
            }
        });
    });
    group.bench_function("names alone", |bench| {
        bench.iter(|| {
            for (name, _) in &lines {
                black_box(parse_menu_line(name));
            }
        });
    });
    group.finish();
}

criterion_group!(benches, reading);
criterion_main!(benches);
