//! The peer: a Python program that gets the same menu and all names of the catalogue, and does
//! the matching alone.

use std::error::Error;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use trencher::matching::Catalogue;

const PROGRAM: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/peer/menu_peer.py");
/// Items that the peer is given: it takes some tenths of a second for each.
const ITEMS: usize = 100;

/// One way in which the peer was asked.
#[derive(serde::Deserialize)]
pub struct Row {
    /// Packages, versions and function.
    pub name: String,
    /// Seconds for an item.
    pub seconds_each: f64,
    /// Seconds of processor time for an item.
    pub used_each: f64,
}

/// What became of it.
pub enum Answer {
    /// Times.
    Ran(Vec<Row>),
    /// Why there are none.
    Absent(String),
}

/// Asks the peer, if it is there.
pub fn run(menu: &Path) -> Result<Answer, Box<dyn Error>> {
    let python = std::env::var("PEER_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let there = Command::new(&python)
        .args(["-c", "import pandas, rapidfuzz"])
        .stderr(Stdio::null())
        .status();
    if !there.is_ok_and(|status| status.success()) {
        return Ok(Answer::Absent(format!(
            "`{python}` cannot import `pandas` and `rapidfuzz` (pip install pandas rapidfuzz; PEER_PYTHON names another interpreter)"
        )));
    }
    let catalogue = Catalogue::embedded()?;
    let names: Vec<String> = catalogue
        .foods()
        .flat_map(|food| {
            std::iter::once(food.name())
                .chain(food.aliases())
                .map(str::to_lowercase)
                .collect::<Vec<_>>()
        })
        .collect();
    println!("the peer looks through {} names", names.len());
    let mut child = Command::new(&python)
        .arg(PROGRAM)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()?;
    let request = serde_json::json!({ "menu": menu, "items": ITEMS, "names": names });
    if let Some(mut input) = child.stdin.take() {
        input.write_all(request.to_string().as_bytes())?;
    }
    let output = child.wait_with_output()?;
    if !output.status.success() {
        return Ok(Answer::Absent(format!("it ended with {}", output.status)));
    }
    Ok(Answer::Ran(serde_json::from_slice(&output.stdout)?))
}
