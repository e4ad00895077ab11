//! Time to right-size a plate of 5, 12 and 20 components.

use criterion::{Criterion, criterion_group, criterion_main};
use fastrand::Rng;
use std::hint::black_box;
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

criterion_group!(benches, plates);
criterion_main!(benches);
