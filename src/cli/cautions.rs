//! The cautions: `trencher cautions`, and when a page carries them in full.

use super::{Failure, Outcome, log, print};
use crate::ledger::{CAUTIONS_LINE, usual_cautions};
use crate::pages::cautions_page;
use crate::store::place::{Kind, close_to_others, make_folder, own_file};
use std::io::{IsTerminal as _, Write as _};

/// Holds the date on which a terminal last showed the cautions in full.
const FILE: &str = "cautions-shown";

/// `cautions`.
pub(super) fn run() -> Result<Outcome, Failure> {
    print(&cautions_page::text())
}

/// The lines that a page on this run's standard output ends with: in full the first time a day
/// on a terminal, else one line. What may be printed or read by a program always has them in
/// full, and does not ask here.
pub(super) fn closing() -> Vec<String> {
    if std::io::stdout().is_terminal() && first_today().unwrap_or(true) {
        return usual_cautions();
    }
    vec![CAUTIONS_LINE.to_owned()]
}

/// Whether nothing was shown in full today, and remembers that it is now; nothing where that
/// cannot be kept, which is as good as not shown.
fn first_today() -> Option<bool> {
    let today = log::now(None).ok()?.date().to_string();
    let path = own_file(Kind::Data, FILE).ok()?;
    if std::fs::read_to_string(&path).is_ok_and(|last| last.trim() == today) {
        return Some(false);
    }
    make_folder(path.parent()?).ok()?;
    let mut file = std::fs::File::create(&path).ok()?;
    file.write_all(today.as_bytes()).ok()?;
    close_to_others(&path).ok()?;
    Some(true)
}
