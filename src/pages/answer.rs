//! The answer in one line: limits that are beyond a day first, then the food groups that are
//! reached. Every command says it this way.

use super::layout::{LINE_WIDTH, width};
use super::number::share;
use crate::ledger::{Kind, LedgerLine, Verdict, by_share};

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
