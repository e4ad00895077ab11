//! The answer in one line: limits that are beyond a day first, then the food groups that are
//! reached. Every command says it this way.

use super::layout::{LINE_WIDTH, width};
use super::number::share;
use crate::ledger::{Group, Kind, Ledger, LedgerLine, Subject, Verdict, by_share};

/// A teaspoon of oil, g: less is not told in the first line.
const OILS_TOLD_FROM_G: f64 = 4.5;

/// What there is of each food group, in portions, most of the day first (oils
/// last), and what part of the
/// day's energy it is: `3 grains, 1.5 vegetables, 2 protein; 62 % of the day's energy`.
/// Where that is more than `room` columns, oils are left to the table.
pub(super) fn portions(ledger: &Ledger, room: usize) -> String {
    let groups = ledger.groups().filter(|l| l.subject.stands_alone());
    let (oils, groups): (Vec<LedgerLine>, Vec<LedgerLine>) = by_share(groups)
        .into_iter()
        .partition(|line| line.subject == Group::Oils.into());
    let in_words = |lines: &[LedgerLine]| lines.iter().filter_map(in_portions).collect();
    let groups: Vec<String> = in_words(&groups);
    let with_oils = [groups.clone(), in_words(&oils)].concat();
    let whole = told(&with_oils, ledger);
    if width(&whole) <= room || groups.is_empty() {
        return whole;
    }
    told(&groups, ledger)
}

/// Groups in words with the part of the day's energy.
fn told(groups: &[String], ledger: &Ledger) -> String {
    let energy = ledger.line(Subject::ENERGY).share().map_or_else(
        || "energy not known for every component".to_owned(),
        |part| format!("{} the day's energy", of_the(part)),
    );
    let groups = match groups {
        [] => "no portion of any food group".to_owned(),
        some => some.join(", "),
    };
    format!("{groups}; {energy}")
}

/// `62 % of`, `1.8 times`.
fn of_the(part: f64) -> String {
    let words = share(part);
    if words.ends_with("times") {
        words
    } else {
        format!("{words} of")
    }
}

/// `1.5 vegetables`, to the nearest half portion; oils by weight. Nothing below that.
fn in_portions(line: &LedgerLine) -> Option<String> {
    let Subject::Group(group) = line.subject else {
        return None;
    };
    let portions = line.portions()?;
    if group == Group::Oils {
        let oils_g = line.likely().filter(|g| *g >= OILS_TOLD_FROM_G)?;
        return Some(format!("{oils_g:.0} g oils"));
    }
    let halves = (portions * 2.0).round() / 2.0;
    if halves < 0.5 {
        return None;
    }
    let word = match group {
        Group::ProteinFoods => "protein",
        Group::Fruits if halves <= 1.0 => "fruit",
        Group::Vegetables if halves <= 1.0 => "vegetable",
        Group::Grains if halves <= 1.0 => "grain",
        other => other.label(),
    };
    Some(format!("{halves} {word}"))
}

/// The answer, as much of it as a line holds: a limit before a further group.
pub(super) fn line(lines: impl Iterator<Item = LedgerLine>) -> String {
    let lines: Vec<LedgerLine> = lines.collect();
    let of = |kind| {
        let own = |l: &LedgerLine| l.subject.kind() == kind && l.subject.stands_alone();
        by_share(lines.iter().copied().filter(own))
    };
    let (limits, groups) = (of(Kind::StayWithin), of(Kind::ToReach));
    let beyond = words(&limits, |verdict| verdict == Verdict::Beyond);
    let reached = words(&groups, Verdict::is_reached);
    let told = |some: usize, many: usize| {
        let limits = match limits.first() {
            None => "No limit to hold it against".to_owned(),
            Some(most) if beyond.is_empty() => {
                format!("Within a day's limits (most: {})", of_day(most))
            }
            Some(_) => format!("Beyond a day's limit: {}", first(&beyond, some)),
        };
        let groups = match groups.first() {
            Some(most) if reached.is_empty() && many > 0 && most.share() > Some(0.0) => {
                format!("no group reached (most: {})", of_day(most))
            }
            _ if reached.is_empty() => "no group reached yet".to_owned(),
            _ => format!("groups reached: {}", first(&reached, many)),
        };
        format!("{limits}; {groups}")
    };
    let (all, most) = (beyond.len().max(1), reached.len().max(1));
    let counts = (1..=all).rev();
    let fewest = usize::from(!reached.is_empty());
    let mut counts = counts.flat_map(|some| (fewest..=most).rev().map(move |many| (some, many)));
    let fitting = counts.find(|(some, many)| width(&told(*some, *many)) <= LINE_WIDTH);
    let (some, many) = fitting.unwrap_or((1, fewest));
    told(some, many)
}

fn words(lines: &[LedgerLine], keep: impl Fn(Verdict) -> bool) -> Vec<String> {
    let kept = lines.iter().filter(|l| l.verdict().is_some_and(&keep));
    kept.map(of_day).collect()
}

/// `sodium 120 %`.
fn of_day(line: &LedgerLine) -> String {
    let of_day = share(line.share().unwrap_or_default());
    format!("{} {of_day}", line.subject.label())
}

/// The first of a list; dots for the others.
fn first(list: &[String], many: usize) -> String {
    let more = if many < list.len() { ", ..." } else { "" };
    format!("{}{more}", list[..many.min(list.len())].join(", "))
}

/// The words people read; with pulses where they are counted in.
pub(super) fn name(line: &LedgerLine) -> String {
    let label = line.subject.label();
    if line.has_pulses() {
        format!("{label} with pulses")
    } else {
        label.to_owned()
    }
}

/// The word beside a share in a table; nothing beside what is short or within.
pub(super) fn mark(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Short | Verdict::Within => "",
        Verdict::Met | Verdict::More => "reached",
        Verdict::At => "at it",
        Verdict::Beyond => "beyond",
    }
}
