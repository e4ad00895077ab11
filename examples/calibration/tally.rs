//! How often each certainty was right.

use trencher::matching::Certainty;

const ALL: [Certainty; 4] = [
    Certainty::Sure,
    Certainty::Likely,
    Certainty::Guess,
    Certainty::None,
];

/// Answers and right answers by certainty, surest first.
#[derive(Debug, Default)]
pub struct Tally {
    counts: [(u32, u32); 4],
}

impl Tally {
    pub fn add(&mut self, certainty: Certainty, right: bool) {
        let at = ALL.iter().position(|c| *c == certainty).unwrap_or(3);
        self.counts[at].0 += 1;
        self.counts[at].1 += u32::from(right);
    }

    pub fn print(&self, title: &str) {
        println!("{title}\n");
        println!("| certainty | answers | right | share | 95 % interval |");
        println!("|---|---:|---:|---:|---|");
        for (certainty, (all, right)) in ALL.iter().zip(self.counts) {
            row(certainty.word(), all, right);
        }
        let (all, right) = self
            .counts
            .iter()
            .fold((0, 0), |sum, count| (sum.0 + count.0, sum.1 + count.1));
        row("all", all, right);
        println!();
    }
}

fn row(label: &str, all: u32, right: u32) {
    if all == 0 {
        println!("| {label} | 0 | 0 | - | - |");
        return;
    }
    let (low, high) = wilson(all, right);
    let share = f64::from(right) / f64::from(all) * 100.0;
    println!("| {label} | {all} | {right} | {share:.1} % | {low:.1} to {high:.1} % |");
}

/// Wilson's score interval, percent (E. B. Wilson, J Am Stat Assoc 22:209, 1927).
fn wilson(all: u32, right: u32) -> (f64, f64) {
    /// Two-sided 95 %.
    const Z: f64 = 1.959_964;
    let (n, p) = (f64::from(all), f64::from(right) / f64::from(all));
    let middle = p + Z * Z / (2.0 * n);
    let half = Z * (p * (1.0 - p) / n + Z * Z / (4.0 * n * n)).sqrt();
    let whole = 1.0 + Z * Z / n;
    (
        (middle - half) / whole * 100.0,
        (middle + half) / whole * 100.0,
    )
}
