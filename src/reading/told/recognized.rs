//! Whether a text tells a meal.

use super::words::{Says, is_frame, phrase_at, plain_words};
use crate::reading::number::Reader;

/// Whether the text tells what somebody ate.
pub(super) fn is_told(reader: &Reader<'_>) -> bool {
    let words = plain_words(reader);
    let word = |at: usize| words.get(at).and_then(Option::as_deref);
    let eats = |at: usize| matches!(phrase_at(reader, &words, at), Some((Says::Eating, _)));
    let eats_near = |at: usize| (at..at + 5).any(eats);
    let first = (0..words.len())
        .find(|at| words[*at].is_some())
        .unwrap_or(0);
    // `Had two eggs`, `Just ate a bagel`.
    let begins = |at: usize| matches!(word(at), Some("had" | "ate" | "drank" | "eaten"));
    if begins(first) || word(first) == Some("just") && begins(first + 1) {
        return true;
    }
    (0..words.len()).any(|at| match word(at) {
        Some("i" | "we") => {
            let past =
                |at: usize| word(at).is_some_and(|word| word.len() > 3 && word.ends_with("ed"));
            eats_near(at) || (at + 1..at + 4).any(past)
        }
        Some("breakfast" | "lunch" | "dinner" | "supper" | "brunch" | "snack" | "meal") => {
            let whose = at.checked_sub(1).is_none_or(|before| {
                word(before).is_some_and(|word| is_frame(word) || word.ends_with("'s"))
            });
            whose && (at + 1..at + 4).any(|at| is_verb_of_meals(word(at), word(at + 1)))
        }
        _ => false,
    })
}

/// `was`, `consisted of`: what a meal does in a sentence.
fn is_verb_of_meals(word: Option<&str>, next: Option<&str>) -> bool {
    matches!(
        word,
        Some(
            "was"
                | "included"
                | "featured"
                | "comprised"
                | "contained"
                | "concluded"
                | "ended"
                | "began"
                | "started"
                | "finished"
                | "starred"
        )
    ) || matches!((word, next), (Some("consisted" | "consists"), Some(_)))
}
