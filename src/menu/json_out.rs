//! Rows as NDJSON: one object a line, `null` where nothing is known.

use super::figures::push;
use super::fitted::Cap;
use super::held::Held;
use super::row::Row;
use crate::catalogue::Catalogue;
use crate::groups::{Group, Limit};
use crate::quantity::Range;

/// Writes one row and a line feed.
pub fn row(row: &Row, catalogue: &Catalogue, out: &mut Vec<u8>) {
    out.extend_from_slice(b"{\"item\":");
    text(out, &row.item);
    field(out, "certainty");
    text(out, row.certainty.word());
    field(out, "over");
    list(out, row.over.iter(), |out, cap| text(out, cap.key()));
    field(out, "fitted_share");
    number(out, row.fitted.map(|f| f.share), 2);
    field(out, "held_by");
    match row.fitted.and_then(|f| f.held_by) {
        Some(what) => text(out, what.key()),
        None => out.extend_from_slice(b"null"),
    }
    field(out, "sodium_passes");
    let passes = row.fitted.is_some_and(|f| f.passes_sodium);
    out.extend_from_slice(if passes { b"true" } else { b"false" });
    field(out, "grams");
    range(out, Some(row.tally.grams), 1);
    field(out, "energy_kcal");
    range(out, row.energy(), 0);
    field(out, "printed_kcal");
    match row.printed {
        Some((low, high)) => list(out, [low, high].into_iter(), |out, v| push(out, v, 0)),
        None => out.extend_from_slice(b"null"),
    }
    field(out, "printed");
    match row.printed_is {
        Some(is) => text(out, is.word()),
        None => out.extend_from_slice(b"null"),
    }
    groups(out, row);
    limits(out, row);
    field(out, "components");
    list(out, row.components.iter(), |out, c| {
        component(out, c, catalogue);
    });
    field(out, "unmatched");
    list(out, row.unmatched.iter(), |out, t| text(out, t));
    field(out, "without_amount");
    list(out, row.without_amount.iter(), |out, t| text(out, t));
    out.extend_from_slice(b"}\n");
}

fn groups(out: &mut Vec<u8>, row: &Row) {
    field(out, "groups");
    let all = Group::ALL.iter().zip(&row.tally.groups);
    object(out, all, |out, (group, figures)| {
        text(out, Cap::Group(*group).key());
        out.extend_from_slice(b":{\"unit\":");
        text(out, group.unit().word());
        field(out, "amount");
        range(out, Some(figures.amount), 2);
        field(out, "portions");
        number(out, Some(figures.portions), 2);
        field(out, "share");
        number(out, figures.share, 2);
        out.push(b'}');
    });
}

fn limits(out: &mut Vec<u8>, row: &Row) {
    field(out, "limits");
    let all = Limit::ALL.iter().zip(&row.tally.limits);
    object(out, all, |out, (limit, figures)| {
        text(out, Cap::Limit(*limit).key());
        out.extend_from_slice(b":{\"unit\":");
        text(out, limit.unit());
        field(out, "amount");
        range(out, figures.amount, 1);
        field(out, "share");
        number(out, figures.share, 2);
        out.push(b'}');
    });
}

fn component(out: &mut Vec<u8>, c: &Held, catalogue: &Catalogue) {
    let food = c.food.map(|id| catalogue.food(id));
    out.extend_from_slice(b"{\"text\":");
    text(out, &c.text);
    field(out, "food");
    optional(out, food.map(|f| f.name()));
    field(out, "food_id");
    optional(out, food.map(|f| f.code()));
    field(out, "certainty");
    text(out, c.certainty.word());
    field(out, "grams");
    number(out, c.weight.map(|w| w.likely), 1);
    field(out, "basis");
    optional(out, c.basis.map(crate::estimate::Basis::word));
    out.push(b'}');
}

fn field(out: &mut Vec<u8>, name: &str) {
    out.extend_from_slice(b",\"");
    out.extend_from_slice(name.as_bytes());
    out.extend_from_slice(b"\":");
}

fn optional(out: &mut Vec<u8>, value: Option<&str>) {
    match value {
        Some(value) => text(out, value),
        None => out.extend_from_slice(b"null"),
    }
}

fn text(out: &mut Vec<u8>, value: &str) {
    let plain = |b: u8| (b' '..0x7f).contains(&b) && !matches!(b, b'"' | b'\\');
    if value.bytes().all(plain) {
        out.push(b'"');
        out.extend_from_slice(value.as_bytes());
        out.push(b'"');
    } else {
        // Text into memory: there is nothing that could fail.
        let _ = serde_json::to_writer(out, value);
    }
}

fn number(out: &mut Vec<u8>, value: Option<f64>, decimals: u32) {
    match value {
        Some(value) => push(out, value, decimals),
        None => out.extend_from_slice(b"null"),
    }
}

fn range(out: &mut Vec<u8>, range: Option<Range>, decimals: u32) {
    let Some(range) = range else {
        out.extend_from_slice(b"null");
        return;
    };
    out.extend_from_slice(b"{\"low\":");
    push(out, range.low, decimals);
    field(out, "likely");
    push(out, range.likely, decimals);
    field(out, "high");
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
