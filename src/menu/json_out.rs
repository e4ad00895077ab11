//! Rows as NDJSON: one object a line, `null` where nothing is known.

use super::figures::push;
use super::row::Row;
use super::row_component::RowComponent;
use crate::ledger::{Choice, LedgerLine};
use crate::matching::Catalogue;
use crate::pages::escape::json_escaped;
use crate::quantity::{Estimate, Range};

/// Writes a row that cannot be used, with its key and why, and a line feed.
pub(crate) fn reject(key: Option<&str>, line: &[u8], reason: &str, out: &mut Vec<u8>) {
    raw(out, "{\"key\":");
    optional(out, key);
    raw(out, ",\"row\":");
    text(out, &String::from_utf8_lossy(line));
    raw(out, ",\"reason\":");
    text(out, reason);
    raw(out, "}\n");
}

/// Writes one row, with its key if it has one, and a line feed.
pub(crate) fn row(row: &Row, key: Option<&str>, catalogue: &Catalogue, out: &mut Vec<u8>) {
    raw(out, "{");
    if let Some(key) = key {
        raw(out, "\"key\":");
        text(out, key);
        raw(out, ",");
    }
    raw(out, "\"item\":");
    text(out, &row.item);
    if !row.section.is_empty() {
        raw(out, ",\"section\":");
        text(out, &row.section);
    }
    raw(out, ",\"certainty\":");
    word(out, row.certainty.word());
    raw(out, ",\"answer\":");
    word(out, row.sureness().word());
    raw(out, ",\"over\":");
    list(out, row.ledger.over(), |out, limit| word(out, limit.key()));
    fitted(out, row);
    if let Some(choice) = &row.choice {
        self::choice(out, choice);
    }
    raw(out, ",\"grams\":");
    range(out, Some(row.ledger.grams()), 1);
    raw(out, ",\"energy_kcal\":");
    range(out, row.energy(), 0);
    raw(out, ",\"printed_kcal\":");
    match row.printed {
        Some((low, high)) => list(out, [low, high].into_iter(), |out, v| push(out, v, 0)),
        None => raw(out, "null"),
    }
    raw(out, ",\"printed\":");
    match row.printed_is {
        Some(is) => word(out, is.word()),
        None => raw(out, "null"),
    }
    raw(out, ",\"limits\":");
    object(out, row.ledger.limits(), |out, line| limit(out, &line));
    raw(out, ",\"groups\":");
    object(out, row.ledger.groups(), |out, line| group(out, &line));
    raw(out, ",\"nutrients\":");
    object(out, row.ledger.nutrients(), |out, line| limit(out, &line));
    raw(out, ",\"components\":");
    list(out, row.components.iter(), |out, c| {
        component(out, c, catalogue);
    });
    raw(out, ",\"unmatched\":");
    list(out, row.unmatched.iter(), |out, t| text(out, t));
    raw(out, ",\"not_plausible\":");
    list(out, row.not_plausible.iter(), |out, t| text(out, t));
    raw(out, ",\"without_amount\":");
    list(out, row.without_amount.iter(), |out, t| text(out, t));
    raw(out, "}\n");
}

/// How much of a row fits a meal.
fn fitted(out: &mut Vec<u8>, row: &Row) {
    raw(out, ",\"fitted_share\":");
    number(out, row.fitted.map(|f| f.share), 2);
    raw(out, ",\"held_by\":");
    match row.fitted.and_then(|f| f.limited_by) {
        Some(what) => word(out, what.key()),
        None => raw(out, "null"),
    }
    raw(out, ",\"sodium_passes\":");
    let passes = row.fitted.is_some_and(|f| f.passes_sodium);
    raw(out, if passes { "true" } else { "false" });
}

/// How a row fits the rest of a day.
fn choice(out: &mut Vec<u8>, choice: &Choice) {
    raw(out, ",\"brings_of_short\":");
    object(out, choice.brings.iter(), |out, (subject, part)| {
        word(out, subject.key());
        out.push(b':');
        push(out, *part, 2);
    });
    raw(out, ",\"beyond_left\":");
    object(out, choice.beyond.iter(), |out, (subject, held, room)| {
        word(out, subject.key());
        raw(out, ":{\"unit\":");
        word(out, subject.unit());
        raw(out, ",\"amount\":");
        push(out, *held, 1);
        raw(out, ",\"left\":");
        push(out, *room, 1);
        out.push(b'}');
    });
}

fn group(out: &mut Vec<u8>, line: &LedgerLine) {
    word(out, line.subject.key());
    raw(out, ":{\"unit\":");
    word(out, line.subject.unit());
    raw(out, ",\"amount\":");
    range(out, line.amount.map(Estimate::range), 2);
    raw(out, ",\"portions\":");
    number(out, line.portions(), 2);
    raw(out, ",\"share\":");
    number(out, line.share(), 2);
    raw(out, ",\"pulses_counted\":");
    raw(out, if line.has_pulses() { "true}" } else { "false}" });
}

fn limit(out: &mut Vec<u8>, line: &LedgerLine) {
    word(out, line.subject.key());
    raw(out, ":{\"unit\":");
    word(out, line.subject.unit());
    raw(out, ",\"amount\":");
    range(out, line.range(), 1);
    raw(out, ",\"share\":");
    number(out, line.share(), 2);
    out.push(b'}');
}

fn component(out: &mut Vec<u8>, c: &RowComponent, catalogue: &Catalogue) {
    let food = c.food.map(|id| catalogue.food(id));
    raw(out, "{\"text\":");
    text(out, &c.text);
    raw(out, ",\"food\":");
    optional(out, food.map(|f| f.name()));
    raw(out, ",\"food_id\":");
    optional(out, food.map(|f| f.code()));
    raw(out, ",\"certainty\":");
    word(out, c.certainty.word());
    raw(out, ",\"grams\":");
    number(out, c.weight.map(|w| w.mean), 1);
    raw(out, ",\"basis\":");
    match c.basis {
        Some(basis) => word(out, basis.word()),
        None => raw(out, "null"),
    }
    out.push(b'}');
}

/// What is JSON already.
fn raw(out: &mut Vec<u8>, json: &str) {
    out.extend_from_slice(json.as_bytes());
}

/// One of our own words, which hold nothing to escape.
fn word(out: &mut Vec<u8>, word: &str) {
    out.push(b'"');
    out.extend_from_slice(word.as_bytes());
    out.push(b'"');
}

fn optional(out: &mut Vec<u8>, value: Option<&str>) {
    match value {
        Some(value) => text(out, value),
        None => raw(out, "null"),
    }
}

fn text(out: &mut Vec<u8>, value: &str) {
    let special = |b: u8| !(b' '..0x7f).contains(&b) || b == b'"' || b == b'\\';
    // Without stopping at the first: so the look goes over many bytes at a time.
    let specials = value.bytes().fold(false, |any, b| any | special(b));
    if specials {
        // Text into memory: there is nothing that could fail.
        let text = serde_json::to_string(value).unwrap_or_default();
        raw(out, &json_escaped(text));
    } else {
        word(out, value);
    }
}

fn number(out: &mut Vec<u8>, value: Option<f64>, decimals: u32) {
    match value {
        Some(value) => push(out, value, decimals),
        None => raw(out, "null"),
    }
}

fn range(out: &mut Vec<u8>, range: Option<Range>, decimals: u32) {
    let Some(range) = range else {
        raw(out, "null");
        return;
    };
    if range == Range::default() {
        raw(out, "{\"low\":0,\"likely\":0,\"high\":0}");
        return;
    }
    raw(out, "{\"low\":");
    push(out, range.low, decimals);
    raw(out, ",\"likely\":");
    push(out, range.likely, decimals);
    raw(out, ",\"high\":");
    push(out, range.high, decimals);
    out.push(b'}');
}

fn list<T>(out: &mut Vec<u8>, all: impl Iterator<Item = T>, each: impl Fn(&mut Vec<u8>, T)) {
    out.push(b'[');
    parted(out, all, each);
    out.push(b']');
}

fn object<T>(out: &mut Vec<u8>, all: impl Iterator<Item = T>, each: impl Fn(&mut Vec<u8>, T)) {
    out.push(b'{');
    parted(out, all, each);
    out.push(b'}');
}

fn parted<T>(out: &mut Vec<u8>, all: impl Iterator<Item = T>, each: impl Fn(&mut Vec<u8>, T)) {
    for (at, item) in all.enumerate() {
        if at > 0 {
            out.push(b',');
        }
        each(out, item);
    }
}
