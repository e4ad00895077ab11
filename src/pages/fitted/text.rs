//! The right-sized plate for a terminal of 80 columns.

use super::super::layout::{grid, visible, wrap};
use super::super::number::{self, grams, kcal, portions, span, thousands};
use super::{Answer, Fitted, Row, why};
use crate::fit::{Ask, AskWhat, Member, Portion, Swap, Unfit, several};
use crate::ledger::{Audit, Group};
use crate::matching::Certainty;
use tabled::builder::Builder;

/// Requests shown.
const MOST_ASKS: usize = 5;

/// Columns of a line.
const LINE: usize = 80;

/// A plate with less of the meal's energy than this is no whole meal: what is open is said.
const OPEN_BELOW: f64 = 0.75;

/// The whole page; `with_why` adds how the amounts were found, `closing` are the cautions that
/// it ends with.
pub(crate) fn text(page: &Fitted<'_>, with_why: bool, closing: &[String]) -> String {
    let mut out = headline(page);
    out.push('\n');
    match &page.outcome {
        Ok(answer) => {
            out.push_str(&components(answer));
            out.push_str(&together(page));
            out.push('\n');
            out.push_str(&amounts(page));
            out.push('\n');
            for remark in &answer.sized.plate.remarks {
                out.push_str(&wrap(&sentence(&remark.to_string())));
            }
            out.push_str(&meal(page, answer));
        }
        Err(unfit) => {
            for reason in reasons(unfit) {
                out.push_str(&wrap(&sentence(&reason)));
            }
            out.push('\n');
            out.push_str(&amounts(page));
        }
    }
    out.push_str(&asks(&page.requests.asks));
    out.push_str(&swaps(&page.requests.swaps));
    if with_why {
        out.push('\n');
        out.push_str(&why::text(page));
    }
    out.push('\n');
    out.push_str(&notes(page, closing));
    out
}

/// The answer in three lines: how much of the plate, against what, how sure.
fn headline(page: &Fitted<'_>) -> String {
    let name = visible(page.dish.name.as_deref().unwrap_or("The dish"));
    let mut text = match &page.outcome {
        Ok(answer) => wrap(&format!("{name}: {}", how_much(answer))),
        Err(Unfit::Spent { of }) => {
            // `what is left of lunch` is none.
            let of = of.strip_prefix("what is left of ").unwrap_or(of);
            wrap(&format!("{name}: no energy is left of {of}"))
        }
        Err(_) => wrap(&format!("{name}: nothing of it fits {}", page.room.of)),
    };
    text.push_str(&wrap(&against(page)));
    text.push_str(&wrap(&format!("How sure: {}", sure(page.served))));
    text
}

fn how_much(answer: &Answer<'_>) -> String {
    let plate = &answer.sized.plate;
    if plate.is_whole() {
        return format!(
            "eat all of it, about {} g and {} kcal",
            grams(plate.served_grams),
            kcal(plate.served_kcal)
        );
    }
    format!(
        "eat about {} of {} g ({:.0} %, by energy {:.0} %)",
        grams(plate.eat_grams),
        grams(plate.served_grams),
        plate.kept_by_weight() * 100.0,
        plate.kept_by_energy() * 100.0
    )
}

fn against(page: &Fitted<'_>) -> String {
    let of = match page.against.share {
        Some(share) => format!(
            "{} ({} of {})",
            page.room.of,
            part_of_day(share),
            thousands(page.against.day.energy_kcal)
        ),
        None => page.room.of.clone(),
    };
    let most = kcal(page.room.energy_kcal.max(0.0));
    let Ok(answer) = &page.outcome else {
        return format!("Held to {of}: {most} kcal");
    };
    let start = format!(
        "About {} of {most} kcal for {of}",
        kcal(answer.sized.plate.eat_kcal)
    );
    match page.decided_by().as_slice() {
        [] => start,
        [one] if several(one) => format!("{start}; {one} decide"),
        [one] => format!("{start}; {one} decides"),
        [one, two, ..] => {
            let both = format!("{start}; {one} and {two} decide");
            if both.len() < LINE {
                both
            } else {
                let verb = if several(one) { "decide" } else { "decides" };
                format!("{start}; {one} {verb} most")
            }
        }
    }
}

/// `a third`, `30 %`.
fn part_of_day(share: f64) -> String {
    let near = |of: f64| (share - of).abs() < 1e-6;
    match share {
        _ if near(1.0) => "all".to_owned(),
        _ if near(0.5) => "half".to_owned(),
        _ if near(1.0 / 3.0) => "a third".to_owned(),
        _ if near(0.25) => "a quarter".to_owned(),
        s => format!("{:.0} %", s * 100.0),
    }
}

fn sure(served: &Audit) -> String {
    let count = |c: Certainty| {
        let many = served.components.iter().filter(|a| a.certainty == c);
        (many.count(), c.word())
    };
    let foods: Vec<String> = [
        Certainty::Sure,
        Certainty::Likely,
        Certainty::Guess,
        Certainty::None,
    ]
    .into_iter()
    .map(count)
    .filter(|(many, _)| *many > 0)
    .map(|(many, word)| format!("{many} {word}"))
    .collect();
    let energy = match served.ledger.energy() {
        Some(range) => format!(
            "as served {} kcal, 80 % range {}",
            kcal(range.likely),
            span(range, kcal)
        ),
        None => "energy not known for every component".to_owned(),
    };
    format!("{energy}; foods {}", foods.join(", "))
}

fn components(answer: &Answer<'_>) -> String {
    let mut table = Builder::default();
    table.push_record(["component", "served", "eat", "box"]);
    for portion in &answer.sized.plate.portions {
        table.push_record(component(portion));
    }
    grid(table, &[24, 7, 22, 23], &[1])
}

fn component(portion: &Portion) -> [String; 4] {
    let with_grams = |words: &str, g: f64| {
        if words.ends_with(" g") {
            words.to_owned()
        } else {
            format!("{words}, {} g", grams(g.round().max(1.0)))
        }
    };
    let eat = match portion.eat.as_str() {
        words @ ("all" | "none") => words.to_owned(),
        words => with_grams(words, portion.eat_grams),
    };
    let boxed = if portion.boxed.is_empty() {
        String::new()
    } else {
        let left = with_grams(&portion.boxed, portion.box_grams);
        if portion.boxable {
            left
        } else {
            format!("leave {left}")
        }
    };
    [
        visible(&portion.name),
        format!("{} g", grams(portion.served_grams)),
        eat,
        boxed,
    ]
}

/// What moves together, and what is in no item.
fn together(page: &Fitted<'_>) -> String {
    let name = |at: usize| visible(&page.dish.components[at].matched.line.food);
    let (mut text, mut along) = (String::new(), Vec::new());
    let items = page.fitting.items.iter().zip(&page.fitting.members);
    for ((item, members), heads) in items.zip(&page.fitting.heads) {
        let names = |some: &[Member]| some.iter().map(|m| name(m.component)).collect::<Vec<_>>();
        let (own, with) = members.split_at((*heads).min(members.len()));
        if own.len() > 1 {
            let made_of = format!("the {}: {}", item.name, names(own).join(", "));
            text.push_str(&wrap(&made_of));
        }
        for name in names(with) {
            if !along.contains(&name) {
                along.push(name);
            }
        }
    }
    if !along.is_empty() {
        text.push_str(&wrap(&format!(
            "goes along in proportion: {}",
            along.join(", ")
        )));
    }
    text
}

fn amounts(page: &Fitted<'_>) -> String {
    let mut table = Builder::default();
    table.push_record(["", "served", "eat", "allowed", "share of", ""]);
    let worth = |row: &Row| row.decides || row.passed || row.served.is_none_or(|s| s >= 0.05);
    for row in page.rows().iter().filter(|row| worth(row)) {
        table.push_record(amount(row, page));
    }
    grid(table, &[20, 14, 9, 8, 14, 7], &[1, 2, 3])
}

fn amount(row: &Row, page: &Fitted<'_>) -> [String; 6] {
    let format = figure(row.unit);
    let eaten = match (&page.outcome, row.eaten) {
        (Err(_), _) => "-".to_owned(),
        (Ok(_), Some(eaten)) => format(eaten),
        (Ok(_), None) => "not known".to_owned(),
    };
    let (allowed, of) = match &row.held {
        Some((most, of)) => (format(*most), of.clone()),
        None => ("-".to_owned(), "not held".to_owned()),
    };
    let mark = match (row.passed, row.decides) {
        // A group to reach is never beyond.
        (true, _) if row.is_group => "more",
        (true, _) => "beyond",
        (false, true) => "decides",
        (false, false) => "",
    };
    [
        row.label.to_owned(),
        row.served.map_or("not known".to_owned(), |served| {
            format!("{} {}", format(served), row.unit)
        }),
        eaten,
        allowed,
        of,
        mark.to_owned(),
    ]
}

/// How amounts of a unit are written.
fn figure(unit: &str) -> impl Fn(f64) -> String + '_ {
    move |value| number::amount(unit, value)
}

/// What the plate means for the meal: what is over its share, and what is still open.
fn meal(page: &Fitted<'_>, answer: &Answer<'_>) -> String {
    let mut text = String::new();
    let over: Vec<String> = page
        .over_the_meal()
        .iter()
        .map(|(name, amount, unit, times)| {
            format!("{name} {} {unit}, {times:.1} times", figure(unit)(*amount))
        })
        .collect();
    if !over.is_empty() {
        text.push_str(&wrap(&format!(
            "More than {}'s share, counted by the day: {}. Eating less alone does not mend \
             that; what is left of the day can.",
            page.room.of,
            over.join("; ")
        )));
    }
    let open = page.room.energy_kcal - answer.sized.plate.eat_kcal;
    if answer.sized.plate.eat_kcal < OPEN_BELOW * page.room.energy_kcal {
        let with = open_groups(page, answer);
        let example = if with.is_empty() {
            String::new()
        } else {
            format!(", for example for {}", with.join(", "))
        };
        text.push_str(&wrap(&format!(
            "This is not the whole of {}: about {} kcal are open{example}.",
            page.room.of,
            kcal(open)
        )));
    }
    text
}

/// Groups of which the plate leaves a good part of the meal's share, vegetables and fruit
/// first.
fn open_groups(page: &Fitted<'_>, answer: &Answer<'_>) -> Vec<String> {
    let share = page.against.share.unwrap_or(1.0);
    let order = [
        Group::Vegetables,
        Group::Fruits,
        Group::Dairy,
        Group::ProteinFoods,
        Group::Grains,
    ];
    let left = |group: Group| {
        let eaten = answer.eaten.ledger.line(group);
        let left = eaten.allowed()? * share - eaten.likely()?;
        (left >= 0.3).then(|| {
            format!(
                "{} {} {}",
                portions(left),
                group.unit().word(),
                group.label()
            )
        })
    };
    order.into_iter().filter_map(left).take(3).collect()
}

fn reasons(unfit: &Unfit) -> Vec<String> {
    match unfit {
        Unfit::Nothing { reasons } => reasons.iter().map(ToString::to_string).collect(),
        other => vec![other.to_string()],
    }
}

fn asks(asks: &[Ask]) -> String {
    if asks.is_empty() {
        return String::new();
    }
    let mut text = String::from("\nAsk the kitchen, largest effect first\n");
    for ask in asks.iter().take(MOST_ASKS) {
        let helps = ask.helps.as_ref().map_or(String::new(), |h| {
            let format = figure(&h.unit);
            let (before, after, most) = (format(h.before), format(h.after), format(h.most));
            format!(
                "; {} {before} to {after} {} (allowed {most})",
                h.name, h.unit
            )
        });
        text.push_str(&wrap(&format!(
            "- {}: about {} kcal less{}",
            wish(ask),
            kcal(ask.kcal_saved.max(0.0)),
            if ask.helps.as_ref().is_some_and(|h| h.name == "energy") {
                String::new()
            } else {
                helps
            }
        )));
    }
    text
}

/// A request in words.
pub(super) fn wish(ask: &Ask) -> String {
    let item = visible(&ask.item);
    match &ask.what {
        AskWhat::OnTheSide => format!("{item} on the side, half of it used"),
        AskWhat::Half => format!("half the {item}"),
        AskWhat::LeaveOut => format!("no {item}"),
        AskWhat::Swap { with, amount } => format!("{with} ({amount}) for the {item}"),
    }
}

fn swaps(swaps: &[Swap]) -> String {
    if swaps.is_empty() {
        return String::new();
    }
    let mut text = String::from("\nLike for like, as much of the same group\n");
    for swap in swaps {
        text.push_str(&wrap(&format!(
            "- {}: {} of {} ({} stay the same), about {} kcal less",
            visible(&swap.item),
            swap.amount,
            swap.with,
            swap.group,
            kcal(swap.kcal_saved)
        )));
    }
    text
}

fn notes(page: &Fitted<'_>, closing: &[String]) -> String {
    let mut text = String::new();
    for at in &page.fitting.left_out {
        let component = &page.dish.components[*at];
        let why = if component.matched.food.is_some() {
            "no amount"
        } else {
            "no such food"
        };
        text.push_str(&wrap(&format!(
            "not on the plate that was fitted, {why}: {}",
            visible(&component.matched.line.text)
        )));
    }
    for note in page.notes {
        text.push_str(&wrap(&format!("note: {}", visible(note))));
    }
    for caution in page.served.own_cautions.iter().chain(closing) {
        text.push_str(&wrap(caution));
    }
    text
}

/// With a capital and a full stop.
fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string());
    format!(
        "{}{}.",
        first.unwrap_or_default(),
        visible(letters.as_str())
    )
}
