//! How often `sure`, `likely`, `guess` and `none` are right: the table in benches/README.md.
//!
//! ```text
//! cargo run --release --example calibration -- DATA_FOLDER
//! ```
//!
//! `DATA_FOLDER`, or folders in it, hold `name_matching_dev.csv` (columns `query`, `expect`,
//! `has_match`) with `name_matching_targets.csv` (`name`), and USDA's descriptions of foods:
//! `fndds_foods.csv` (`food_code`, `description`) and `sr28_foods.csv` (`ndb`,
//! `description`). A set whose files are missing is left out, and the run says so.

mod labelled;
mod tally;
mod usda;

use anyhow::{Context as _, Result, bail};
use std::path::{Path, PathBuf};
use trencher::matching::Catalogue;

fn main() -> Result<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [folder] = arguments.as_slice() else {
        bail!("usage: calibration DATA_FOLDER");
    };
    let folder = Path::new(folder);
    let catalogue = Catalogue::embedded()?;
    match (
        find(folder, "name_matching_dev.csv")?,
        find(folder, "name_matching_targets.csv")?,
    ) {
        (Some(queries), Some(targets)) => {
            labelled::tally(&catalogue, &queries, &targets)?
                .print("Labelled names to a table of short names");
        }
        _ => println!("no labelled names in {}: left out\n", folder.display()),
    }
    for (name, code) in [("fndds_foods.csv", "food_code"), ("sr28_foods.csv", "ndb")] {
        let Some(path) = find(folder, name)? else {
            println!("no {name} in {}: left out\n", folder.display());
            continue;
        };
        let (halves, unheld) = usda::tally(&catalogue, &path, code)?;
        for (half, which) in halves.iter().zip(["fitted on", "not fitted on"]) {
            half.strict
                .print(&format!("{name} to our names, {which}: the very food"));
            half.alike.print(&format!(
                "{name} to our names, {which}: the food, or one alike on the plate"
            ));
        }
        unheld.print(&format!("{name}: foods that the catalogue does not hold"));
    }
    Ok(())
}

/// A file in the folder, in a folder inside it, or one further down.
fn find(folder: &Path, name: &str) -> Result<Option<PathBuf>> {
    let mut folders = vec![folder.to_owned()];
    for _ in 0..2 {
        for folder in folders.clone() {
            let listed = std::fs::read_dir(&folder)
                .with_context(|| format!("cannot read `{}`", folder.display()))?;
            let inside = listed.flatten().map(|item| item.path());
            folders.extend(inside.filter(|path| path.is_dir()));
        }
        folders.sort();
        folders.dedup();
    }
    Ok(folders
        .into_iter()
        .map(|folder| folder.join(name))
        .find(|path| path.is_file()))
}
