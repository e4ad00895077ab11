//! General words that what stands around them makes exact: *dressing* in a Caesar salad,
//! *cheese* on a burger.

use crate::memo::Quick;
use crate::words::{prepared, prepared_rows};
use std::collections::HashMap;
use std::sync::OnceLock;

/// Words, what stands around them (one of several phrases), what they mean there, and the source. The
/// first row that fits is taken.
const TABLE: &str = prepared!("companions.csv");

#[derive(serde::Deserialize)]
struct Read {
    words_base: String,
    around_base: String,
    means: String,
}

pub(super) struct Row {
    /// Words of the dish or of its other components, in base form; all must be there.
    pub(super) around: Vec<String>,
    pub(super) means: String,
}

/// Rows in the order of the table, by their words in base form, joined by spaces.
pub(super) fn rows() -> &'static HashMap<String, Vec<Row>, Quick> {
    static ROWS: OnceLock<HashMap<String, Vec<Row>, Quick>> = OnceLock::new();
    ROWS.get_or_init(|| {
        let mut rows: HashMap<String, Vec<Row>, Quick> = HashMap::default();
        for row in prepared_rows::<Read>(TABLE) {
            let own = rows.entry(row.words_base).or_default();
            own.extend(row.around_base.split(';').map(|around| Row {
                around: around.split(' ').map(str::to_owned).collect(),
                means: row.means.clone(),
            }));
        }
        rows
    })
}

/// What the words mean with those around; `None` where nothing around says more.
///
/// `said` and `around` are in base form. Only a general word on its own is made exact:
/// `ranch dressing` stays what it says.
#[must_use]
pub(crate) fn with_those_around(said: &[String], around: &[String]) -> Option<&'static str> {
    if around.is_empty() {
        return None;
    }
    let fits = |row: &&Row| row.around.iter().all(|w| around.contains(w));
    let row = rows().get(&said.join(" "))?.iter().find(fits)?;
    Some(row.means.as_str())
}

/// Whether the words, in base form, are general ones that something around could make exact.
#[must_use]
pub(crate) fn are_general(said: &[String]) -> bool {
    rows().contains_key(&said.join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::words;

    fn meaning(said: &str, around: &str) -> Option<&'static str> {
        with_those_around(&words(said), &words(around))
    }

    #[test]
    fn only_a_general_word_beside_its_companion() {
        assert_eq!(
            meaning("Dressing", "chicken caesar salad"),
            Some("Caesar dressing")
        );
        assert_eq!(meaning("cheese", "double burgers"), Some("American cheese"));
        assert_eq!(meaning("bun", "grilled hot dog"), Some("hot dog bun"));
        assert_eq!(meaning("bun", "hot tea"), None);
        assert_eq!(meaning("dressing", ""), None);
        assert_eq!(meaning("ranch dressing", "caesar salad"), None);
    }
}
