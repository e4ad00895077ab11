//! Time to right-size a plate of 5, 12 and 20 components, and the longest of 300 plates of 20.

use criterion::{Criterion, criterion_group, criterion_main};
use fastrand::Rng;
use std::hint::black_box;
use std::time::{Duration, Instant};
use trencher::fit::fit;

#[path = "../tests/support/random_dishes.rs"]
mod random_dishes;

fn plates(c: &mut Criterion) {
    for components in [5, 12, 20] {
        let mut rng = Rng::with_seed(11);
        let dishes: Vec<_> = (0..40)
            .map(|_| {
                let budget = random_dishes::budget(1.0 + rng.f64(), false);
                (random_dishes::dish(&mut rng, components), budget)
            })
            .collect();
        let mut next = dishes.iter().cycle();
        c.bench_function(&format!("fit {components} components"), |b| {
            b.iter(|| {
                next.next()
                    .map(|(items, budget)| black_box(fit(items, budget)))
            });
        });
    }
}

/// A mean hides the few searches that run into their limit.
fn longest(_: &mut Criterion) {
    let mut rng = Rng::with_seed(9);
    let mut times: Vec<Duration> = (0..300)
        .map(|at| {
            let items = random_dishes::dish(&mut rng, 20);
            let budget = random_dishes::budget(0.7 + 1.3 * rng.f64(), at % 2 == 0);
            let start = Instant::now();
            let _ = black_box(fit(&items, &budget));
            start.elapsed()
        })
        .collect();
    times.sort();
    println!(
        "20 components, 300 plates: median {:.1?}, 19 in 20 within {:.1?}, longest {:.1?}",
        times[150], times[285], times[299]
    );
}

criterion_group!(benches, plates, longest);
criterion_main!(benches);
