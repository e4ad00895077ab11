//! Time and accuracy of matching 1,000 queries against the whole catalogue, on one thread,
//! and of a peer in the same run: `RapidFuzz` `process.extractOne` with `WRatio`, over the
//! same names and queries.
//!
//! ```text
//! cargo bench --bench matching
//! ```
//!
//! The peer runs where `python3` (or what `PEER_PYTHON` names) can import `rapidfuzz`;
//! elsewhere it is left out, and the run says so.

mod peer;
mod queries;

use criterion::{Criterion, Throughput};
use queries::{Asked, QUERIES};
use std::hint::black_box;
use std::time::{Duration, Instant};
use trencher::foods::FoodId;
use trencher::matching::{Catalogue, Context};

/// Rounds of which the fastest counts: other work on the machine only ever adds time.
const ROUNDS: usize = 25;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let catalogue = Catalogue::embedded()?;
    let names = queries::names(&catalogue);
    let asked = queries::queries(&names);
    let mut criterion = Criterion::default().configure_from_args();
    criterion_run(&mut criterion, &catalogue, &asked);
    criterion.final_summary();
    compare(&catalogue, &names, &asked)
}

fn criterion_run(criterion: &mut Criterion, catalogue: &Catalogue, asked: &[Asked]) {
    let mut group = criterion.benchmark_group("matching");
    group
        .sample_size(20)
        .throughput(Throughput::Elements(QUERIES as u64));
    group.bench_function("1000 queries, whole catalogue", |b| {
        b.iter(|| {
            answer_all(catalogue, asked, |found| {
                let _ = black_box(found);
            });
        });
    });
    group.finish();
}

fn answer_all(catalogue: &Catalogue, asked: &[Asked], mut take: impl FnMut(Option<FoodId>)) {
    let context = Context::default();
    for query in asked {
        take(catalogue.find(&query.text, &context, 1).food);
    }
}

fn compare(
    catalogue: &Catalogue,
    names: &[(String, FoodId)],
    asked: &[Asked],
) -> Result<(), Box<dyn std::error::Error>> {
    let mut best = Duration::MAX;
    let mut right = 0;
    for _ in 0..ROUNDS {
        let mut found = Vec::with_capacity(asked.len());
        let start = Instant::now();
        answer_all(catalogue, asked, |food| found.push(food));
        best = best.min(start.elapsed());
        right = asked
            .iter()
            .zip(&found)
            .filter(|(query, found)| **found == Some(query.food))
            .count();
    }
    let each = best.as_secs_f64() * 1e6 / asked.len() as f64;
    let share = |right: usize| right as f64 / asked.len() as f64 * 100.0;
    println!(
        "\n{} queries, {} names of {} foods, one thread",
        asked.len(),
        names.len(),
        catalogue.len()
    );
    println!("{:<44} {:>12} {:>8}", "", "us a query", "right");
    println!("{:<44} {each:>12.1} {:>7.1}%", "trencher", share(right));
    match peer::run(names, asked)? {
        peer::Answer::Ran(rows) => {
            for row in rows {
                println!(
                    "{:<44} {:>12.1} {:>7.1}%   {:.0} times our time",
                    row.name,
                    row.us_each,
                    share(row.right),
                    row.us_each / each
                );
            }
        }
        peer::Answer::Absent(why) => println!("peer left out: {why}"),
    }
    Ok(())
}
