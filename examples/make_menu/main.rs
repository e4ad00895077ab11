//! Makes a menu of any length for measuring: `make_menu ROWS [NEW] [LINES] [SEED]`.
//!
//! `NEW` is the share of components that no row before has had, 0 to 1 (0.2 unless given);
//! `LINES` the share of items that list no components and are read as a line of a menu (0.05).
//! The same arguments give the same bytes. Components come from the dish library and from the
//! catalogue's names and other names, with amounts, word order and words around them varied;
//! every item is made up. The share that was really new is told on standard error.

mod maker;

use maker::Maker;
use std::io::{BufWriter, Write};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let number = |at: usize, usual: f64| -> Result<f64, Box<dyn std::error::Error>> {
        Ok(match args.get(at) {
            Some(text) => text.parse()?,
            None => usual,
        })
    };
    let rows = number(0, 10_000.0)? as u64;
    let (new, lines, seed) = (number(1, 0.2)?, number(2, 0.05)?, number(3, 1.0)? as u64);
    let mut maker = Maker::new(seed)?;
    let mut out = BufWriter::new(std::io::stdout().lock());
    maker.menu(rows, new, lines, &mut out)?;
    let share = maker.new as f64 / maker.made.max(1) as f64;
    let _ = writeln!(
        std::io::stderr(),
        "{} components, {:.1} % of them never seen before",
        maker.made,
        share * 100.0
    );
    Ok(())
}
