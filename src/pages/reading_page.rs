//! What was read of a text: the role of every phrase, open choices, add-ons, allergen notes.

use super::text::wrap;
use crate::ledger::Audit;
use crate::reading::visible;
use crate::reading::{PhraseRole, Reading};
use serde::Serialize;
use std::fmt::Write as _;

/// A phrase in a file.
#[derive(Debug, Serialize)]
pub(super) struct PhraseRow<'a> {
    text: &'a str,
    role: PhraseRole,
    from: usize,
    to: usize,
}

/// A choice in a file.
#[derive(Debug, Serialize)]
pub(super) struct ChoiceRow<'a> {
    options: &'a [String],
    eaten: u8,
}

/// An add-on in a file.
#[derive(Debug, Serialize)]
pub(super) struct AddOnRow<'a> {
    text: &'a str,
    price: Option<&'a str>,
}

/// Phrases of an audit's text with their roles.
pub(super) fn phrases(reading: Option<&Reading>) -> Vec<PhraseRow<'_>> {
    let all = reading.into_iter().flat_map(|reading| {
        reading.phrases.iter().map(|phrase| PhraseRow {
            text: reading.words_of(phrase),
            role: phrase.role,
            from: phrase.from,
            to: phrase.to,
        })
    });
    all.collect()
}

/// Choices that are open.
pub(super) fn choices(audit: &Audit) -> Vec<ChoiceRow<'_>> {
    audit
        .line
        .choices
        .iter()
        .map(|choice| ChoiceRow {
            options: &choice.options,
            eaten: choice.eaten,
        })
        .collect()
}

/// What can be had on top and is not counted.
pub(super) fn add_ons(audit: &Audit) -> Vec<AddOnRow<'_>> {
    audit
        .line
        .add_ons
        .iter()
        .map(|add_on| AddOnRow {
            text: &add_on.text,
            price: add_on.price.as_deref(),
        })
        .collect()
}

/// The role of every phrase, a line each.
pub(super) fn table(reading: &Reading) -> String {
    let mut page = "As read\n".to_owned();
    for phrase in reading
        .phrases
        .iter()
        .filter(|p| p.role != PhraseRole::Filler)
    {
        let role = phrase.role.word().replace('_', " ");
        let _ = writeln!(page, "  {role:<14} {}", visible(reading.words_of(phrase)));
    }
    page
}

/// Add-ons and allergen notes, for people.
pub(super) fn beside(audit: &Audit) -> String {
    let mut page = String::new();
    for add_on in &audit.line.add_ons {
        let text = visible(&add_on.text);
        page.push_str(&wrap(&format!(
            "not counted, can be had on top: {text} (--with \"{text}\")"
        )));
    }
    for note in &audit.line.allergens {
        page.push_str(&wrap(&format!("the menu says: {}", visible(note))));
    }
    page
}

/// The first lines of a dish whose main part nobody knows; nothing for others.
pub(super) fn unknown_main(audit: &Audit) -> Option<String> {
    let name = audit.unknown_main.as_ref()?;
    Some(format!(
        "main dish unknown: `{}`. What else is named is listed below; no total is given.\nSay what it is made of, such as \"{}: rice, beans, chicken\", or give its components with --item.",
        visible(name),
        visible(name)
    ))
}
