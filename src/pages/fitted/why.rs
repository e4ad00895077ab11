//! How the amounts were found, in words.

use super::super::layout::wrap;
use super::super::number::{amount, thousands};
use super::Fitted;
use crate::fit::{GAP, GIVES_WAY_BELOW, Hold, KEEP_FIRST};

pub(super) fn text(page: &Fitted<'_>) -> String {
    let mut text = String::from("How the amounts were found\n");
    text.push_str(&wrap(&format!(
        "Aim: stay as close as can be to the dish as served. Each component costs its weight \
         (half an equal part for each component it is made of, half its part of the grams) times the square of the part left; \
         protein foods, vegetables, fruit and free foods cost {KEEP_FIRST:.0} times as much, so \
         they are kept first. The sum is the least there is."
    )));
    text.push_str(&wrap(&format!("Held: {}.", held(page))));
    text.push_str(&wrap(match page.against.hold {
        Hold::Strict => {
            "Strictly: every group and every limit to its share of the meal, sodium too."
        }
        Hold::Usual => {
            "Not held: vegetables and fruit, which are amounts to reach; their starchy part and \
             juice are. Protein foods, oils, saturated fat, sodium and alcohol are counted by \
             the day, and so is what protein foods and vegetables hold of everything else (`kept \
             first`). --strict holds everything to the meal."
        }
    }));
    if page.against.hold == Hold::Usual {
        text.push_str(&wrap(&format!(
            "Sodium gives way when keeping it would leave less than {:.0} % of the plate or of \
             what is kept first; then it is shown as beyond. What hardly carries a group or limit is \
             not left for it.",
            GIVES_WAY_BELOW * 100.0
        )));
    }
    if let Ok(answer) = &page.outcome {
        let plate = &answer.sized.plate;
        text.push_str(&wrap(&format!(
            "Result: distance {:.3} (0 the dish as served, 1 nothing of it), proven to be at most \
             {:.1} % above the least possible (aimed at: {:.1} %).",
            plate.distance,
            plate.gap * 100.0,
            GAP * 100.0
        )));
    }
    text.push_str(&wrap(
        "Amounts are steps that people serve: quarter cups, spoons, half slices, half ounces, \
         whole pieces, larger pieces by the half or quarter; grams behind them from USDA's \
         household measures. Figures are the likely ones; see `trencher audit --why` for where \
         each comes from.",
    ));
    text.push_str(&fat_unknown(page));
    text.push_str(&wrap(&format!(
        "Allowances: {}; the gains of a request are of the dish as served.",
        page.served.standard
    )));
    text
}

/// Whose saturated fat nobody publishes; nothing where all of it is known.
fn fat_unknown(page: &Fitted<'_>) -> String {
    let name = |at: &usize| page.dish.components[*at].matched.line.food.as_str();
    let names: Vec<&str> = page.fitting.fat_unknown.iter().map(name).collect();
    if names.is_empty() {
        return String::new();
    }
    let names = names.join(", ");
    wrap(&format!(
        "Saturated fat is not published and counted as none for: {names}."
    ))
}

fn held(page: &Fitted<'_>) -> String {
    let energy = format!("energy {} kcal", thousands(page.room.energy_kcal.max(0.0)));
    let caps = page.fitting.budget.caps.iter().map(|cap| {
        let most = amount(&cap.unit, cap.most);
        let soft = if cap.firm { "" } else { ", gives way" };
        format!("{} {most} {} of {}{soft}", cap.name, cap.unit, cap.of)
    });
    let all: Vec<String> = std::iter::once(energy).chain(caps).collect();
    all.join("; ")
}
