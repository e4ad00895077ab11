//! A diner's page, whatever command shows it.

use super::arguments::Format;
use super::{Failure, Outcome, log, print, whose};
use crate::ledger::Ledger;
use crate::pages::diner_page::{DinerDay, DinerPage};
use crate::people::fluid;
use crate::people::{DayTarget, Diner, NoTarget, day_target};
use jiff::civil::Date;

/// The page of a diner whose details were just kept, also when it cannot be shown.
pub(super) fn show_kept(diner: &Diner, why: bool, format: Format) -> Result<Outcome, Failure> {
    show(diner, why, format).map_err(|failure| match failure {
        Failure::File(told) => Failure::File(format!(
            "`{}` is kept, but the answer was not shown: {told}",
            diner.name
        )),
        other => other,
    })
}

/// The page of a diner; what stands in for figures where they could do harm is on it.
pub(super) fn show(diner: &Diner, why: bool, format: Format) -> Result<Outcome, Failure> {
    let today = log::today(diner)?;
    let page = page_of(diner, today)?;
    match format {
        Format::Text => print(&page.text(why)),
        Format::Json => print(&page.json()?),
        Format::Csv => print(&page.csv()?),
    }
}

pub(super) fn page_of(diner: &Diner, today: Date) -> Result<DinerPage<'_>, Failure> {
    let day = match day_target(diner, today) {
        Ok(target) => Ok(day_of(diner, target, today)?),
        Err(NoTarget::Refused(sentence)) => Err(sentence.to_string()),
        Err(other) => return Err(other.into()),
    };
    let age = diner.age_on(today);
    Ok(DinerPage { diner, age, day })
}

fn day_of(diner: &Diner, target: DayTarget, today: Date) -> Result<DinerDay, Failure> {
    let whose = whose::of_diner(diner.clone(), &super::arguments::DayArgs::default())?;
    Ok(DinerDay {
        allowances: Ledger::unused(&whose.allowances()).allowed().collect(),
        standard: whose.standard.name.clone(),
        level_kcal: whose.standard.level(whose.energy_kcal).level_kcal,
        fluid: fluid::of_diner(diner, today),
        protein: whose.protein,
        target,
    })
}
