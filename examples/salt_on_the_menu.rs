//! The saltiest items of a menu: reads items from a file, a line each (`name: description`), and
//! lists those that take most of a day's sodium.
//!
//! ```text
//! cargo run --example salt_on_the_menu -- MENU.txt
//! ```

use anyhow::{Context as _, Result};
use trencher::Plates;
use trencher::ledger::Limit;
use trencher::menu::Item;

fn main() -> Result<()> {
    let path = std::env::args().nth(1).context("name a file")?;
    let text = std::fs::read_to_string(&path).with_context(|| format!("cannot read `{path}`"))?;
    let plates = Plates::new()?;
    let mut salty = Vec::new();
    for line in text.lines().filter(|line| !line.trim().is_empty()) {
        let (name, description) = line.split_once(':').unwrap_or((line, ""));
        let item = Item {
            name: name.trim().to_owned(),
            description: description.trim().to_owned(),
            ..Item::default()
        };
        match plates.menu_row(&item) {
            Ok(row) => salty.push((row.ledger.line(Limit::Sodium).share(), row.item)),
            Err(fault) => eprintln!("{name}: {fault}"),
        }
    }
    // What is not known goes last.
    salty.sort_by(|a, b| b.0.unwrap_or(-1.0).total_cmp(&a.0.unwrap_or(-1.0)));
    println!("share of a day's sodium (an estimate)");
    for (share, item) in salty {
        match share {
            Some(share) => println!("{:>5.0} %  {item}", 100.0 * share),
            None => println!("      ?  {item}"),
        }
    }
    Ok(())
}
