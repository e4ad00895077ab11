//! The three answers at the top of a page: what is over, by how much, what do I eat.

use super::content::{Eat, Handout, Portioning};
use crate::ledger::{Kind, LedgerLine, Limit, Subject, by_share};
use crate::pages::number;
use crate::quantity::Range;
use crate::words::head;
use std::fmt::Write as _;

/// From here on a share is told as a multiple of the day: what is less is a day's share.
const PAST: f64 = 1.055;

/// How many groups or limits the answers name before they say how many more there are.
const NAMED: usize = 3;

/// The answers in sentences.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Lead {
    /// Which limits are beyond a day's share.
    pub over: String,
    /// By how much, with the range.
    pub by_how_much: String,
    /// What is on the plate: portions by food group, energy and its share of the day.
    pub glance: String,
    /// What to eat.
    pub eat: String,
    /// Whether any limit is beyond the day's share.
    pub beyond: bool,
}

/// Makes the answers from a handout's figures.
#[must_use]
pub(crate) fn lead(handout: &Handout) -> Lead {
    let lines = || handout.amounts.iter().map(|row| row.line);
    let of = |kind| by_share(lines().filter(|l| l.subject.kind() == kind));
    let limits = of(Kind::StayWithin);
    let groups: Vec<LedgerLine> = lines()
        .filter(|l| l.subject.kind() == Kind::ToReach)
        .collect();
    let beyond: Vec<LedgerLine> = limits
        .iter()
        .copied()
        .filter(LedgerLine::is_beyond)
        .collect();
    Lead {
        over: over(&beyond, limits.is_empty()),
        by_how_much: by_how_much(&beyond, limits.first()),
        glance: glance(&groups, &limits),
        eat: eat(handout),
        beyond: !beyond.is_empty(),
    }
}

fn over(beyond: &[LedgerLine], nothing_known: bool) -> String {
    if nothing_known {
        return "Not known: no day’s share could be worked out.".to_owned();
    }
    if beyond.is_empty() {
        return "Nothing: every limit stays within one day’s share.".to_owned();
    }
    format!("{}.", capital(&listed(&names(beyond), NAMED)))
}

fn names(lines: &[LedgerLine]) -> Vec<String> {
    let labels = lines.iter().map(|line| line.subject.label());
    labels.map(str::to_owned).collect()
}

/// Such as `Saturated fat 2 times a day’s share (1.8 to 2.3); sodium 1.1 times (0.9 to 1.3).`
fn by_how_much(beyond: &[LedgerLine], nearest: Option<&LedgerLine>) -> String {
    if beyond.is_empty() {
        return nearest.map_or_else(String::new, nearest_words);
    }
    let figure = |(at, line): (usize, &LedgerLine)| {
        let share = line.share_range()?;
        let range = if share.high - share.low > 0.1 {
            format!(" ({} to {})", times(share.low), times(share.high))
        } else {
            String::new()
        };
        let of = if at == 0 { " a day’s share" } else { "" };
        let name = line.subject.label();
        Some(format!("{name} {} times{of}{range}", times(share.likely)))
    };
    let rows = beyond.iter().take(NAMED).enumerate();
    let figures: Vec<String> = rows.filter_map(figure).collect();
    format!("{}.", capital(&figures.join("; ")))
}

fn nearest_words(line: &LedgerLine) -> String {
    let share = share_words(line.share().unwrap_or_default());
    format!("Nearest to it: {}, {share}.", line.subject.label())
}

/// Such as `Protein foods 7.6 oz-eq, grains 2.2 oz-eq; 1,170 kcal (760 to 1,630), about three
/// fifths of a day’s share.`
fn glance(groups: &[LedgerLine], limits: &[LedgerLine]) -> String {
    let there = groups
        .iter()
        .filter(|l| l.share().is_some_and(|s| s >= 0.02));
    let portions = there.filter_map(|line| {
        let unit = line.subject.unit();
        let amount = number::amount(unit, line.likely()?);
        Some(format!("{} {amount} {unit}", line.subject.label()))
    });
    let portions: Vec<String> = portions.collect();
    let energy = limits
        .iter()
        .find(|l| l.subject == Subject::Limit(Limit::Energy));
    let energy = energy.and_then(|line| {
        let Range { low, likely, high } = line.range()?;
        let range = if high > low * 1.02 {
            format!(" ({} to {})", number::kcal(low), number::kcal(high))
        } else {
            String::new()
        };
        let share = line
            .share()
            .map_or_else(String::new, |s| format!(", {}", share_words(s)));
        Some(format!("{} kcal{range}{share}", number::kcal(likely)))
    });
    let listed = (!portions.is_empty()).then(|| portions.join(", "));
    let parts: Vec<String> = listed.into_iter().chain(energy).collect();
    if parts.is_empty() {
        return "Not known: no food could be counted.".to_owned();
    }
    format!("{}.", capital(&parts.join("; ")))
}

fn eat(handout: &Handout) -> String {
    let rows = &handout.portioning;
    if rows.is_empty() {
        return "No right-sized plate was worked out for this dish.".to_owned();
    }
    if rows.iter().all(|r| r.eat == Eat::All && r.boxed.is_none()) {
        return "All of it: it fits as served.".to_owned();
    }
    let parts: Vec<String> = rows
        .iter()
        .filter_map(|r| match &r.eat {
            Eat::Part(amount) => Some(of_food(amount, plain_name(&r.food, rows))),
            Eat::All | Eat::Nothing => None,
        })
        .collect();
    let mut sentence = match parts.len() {
        0 => String::new(),
        all if all <= NAMED + 1 => parts.join("; "),
        all => format!(
            "{}; smaller portions of {} more (under “Eat and box”)",
            parts[..NAMED].join("; "),
            all - NAMED
        ),
    };
    let whole: Vec<&str> = rows
        .iter()
        .filter(|r| r.eat == Eat::All)
        .map(|r| r.food.as_str())
        .collect();
    if !whole.is_empty() {
        let rest = match (&whole[..], sentence.is_empty()) {
            ([only], _) => format!("all of the {}", plain_name(only, rows)),
            (_, true) => "the rest as served".to_owned(),
            (_, false) => "everything else as served".to_owned(),
        };
        sentence = if sentence.is_empty() {
            rest
        } else {
            format!("{sentence}; {rest}")
        };
    }
    if sentence.is_empty() {
        return if handout.boxable() {
            "Nothing of this dish today: box it.".to_owned()
        } else {
            "Nothing of it today.".to_owned()
        };
    }
    format!("{}.{}", capital(&sentence), left(handout))
}

/// ` Leave the rice. Box what is left.`; nothing where all is eaten.
fn left(handout: &Handout) -> String {
    let rows = &handout.portioning;
    let skipped = rows.iter().filter(|r| r.eat == Eat::Nothing);
    let skipped: Vec<String> = skipped.map(|r| r.food.clone()).collect();
    let mut words = String::new();
    if !skipped.is_empty() {
        let _ = write!(words, " Leave the {}.", listed(&skipped, NAMED));
    }
    let mut over = rows.iter().filter(|r| r.boxed.is_some()).peekable();
    if over.peek().is_some() {
        words.push_str(if over.any(|r| r.boxable) {
            " Box what is left."
        } else {
            " Leave the rest."
        });
    }
    words
}

/// The food without what follows a comma, where that is enough to know it by.
fn plain_name<'f>(food: &'f str, rows: &[Portioning]) -> &'f str {
    let mine = head(food);
    let same = rows.iter().filter(|r| head(&r.food) == mine).count();
    if same > 1 { food } else { mine }
}

/// `1 cup of the rice`; `½ sandwich` needs no more words.
fn of_food(amount: &str, food: &str) -> String {
    let last = |text: &str| {
        let word = text.split(' ').next_back().unwrap_or(text);
        word.trim_end_matches('s').to_lowercase()
    };
    if last(amount) == last(head(food)) {
        amount.to_owned()
    } else {
        format!("{amount} of the {food}")
    }
}

/// A share of the day in words, such as `about half a day’s share`.
#[must_use]
pub(crate) fn share_words(share: f64) -> String {
    let words = part_words(share);
    match share {
        s if s < 0.005 => words,
        s if s >= PAST => format!("{words} a day’s share"),
        _ if words == "about all" => "about one day’s share".to_owned(),
        _ if words == "about half" => "about half a day’s share".to_owned(),
        _ => format!("{words} of a day’s share"),
    }
}

/// The same without naming the day, for a column whose head names it: `about half`.
pub(in crate::pages) fn part_words(share: f64) -> String {
    const PARTS: [(f64, &str); 12] = [
        (0.1, "a tenth"),
        (0.2, "a fifth"),
        (0.25, "a quarter"),
        (1.0 / 3.0, "a third"),
        (0.4, "two fifths"),
        (0.5, "half"),
        (0.6, "three fifths"),
        (2.0 / 3.0, "two thirds"),
        (0.75, "three quarters"),
        (0.8, "four fifths"),
        (0.9, "nine tenths"),
        (1.0, "all"),
    ];
    match share {
        s if s < 0.005 => return "none".to_owned(),
        s if s < 0.05 => return "less than a twentieth".to_owned(),
        s if s >= PAST => return format!("about {} times", times(s)),
        _ => {}
    }
    let nearest = PARTS
        .into_iter()
        .min_by(|a, b| (a.0 - share).abs().total_cmp(&(b.0 - share).abs()));
    nearest.map_or_else(String::new, |(_, words)| format!("about {words}"))
}

/// A factor with as many digits as an estimate bears.
pub(in crate::pages) fn times(factor: f64) -> String {
    if factor >= 10.0 {
        return format!("{factor:.0}");
    }
    let text = format!("{factor:.1}");
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}

/// `a, b and c`, or the first `most` of them and how many more.
pub(super) fn listed(names: &[String], most: usize) -> String {
    let more = names.len().saturating_sub(most);
    if more > 0 {
        return format!("{} and {more} more", names[..most].join(", "));
    }
    match names {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::{listed, share_words, times};

    #[test]
    fn shares_read_as_words() {
        let words = [
            0.0, 0.03, 0.1, 0.26, 0.34, 0.5, 0.99, 1.04, 1.06, 2.0, 2.25, 12.4,
        ]
        .map(share_words);
        assert_eq!(
            words,
            [
                "none",
                "less than a twentieth of a day’s share",
                "about a tenth of a day’s share",
                "about a quarter of a day’s share",
                "about a third of a day’s share",
                "about half a day’s share",
                "about one day’s share",
                "about one day’s share",
                "about 1.1 times a day’s share",
                "about 2 times a day’s share",
                "about 2.2 times a day’s share",
                "about 12 times a day’s share",
            ]
        );
    }

    #[test]
    fn lists_name_a_few_and_count_the_rest() {
        let names = ["a", "b", "c", "d"].map(str::to_owned);
        assert_eq!(listed(&names[..1], 3), "a");
        assert_eq!(listed(&names[..3], 3), "a, b and c");
        assert_eq!(listed(&names, 3), "a, b, c and 1 more");
        assert_eq!(times(1.95), "1.9");
    }
}
