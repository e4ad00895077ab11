//! A diner and their day, as text for a terminal of 80 columns and as JSON.

use super::csv_page::row_kind;
use super::csv_table::{csv_table, figure};
use super::day_lines::AllowanceJson;
use super::layout::{grid, set_in, visible, wrap};
use super::number::{amount, grams, kcal, thousands};
use crate::ledger::{Kind, LedgerLine, PulsesAs};
use crate::people::fluid::{self, FluidIntake};
use crate::people::{AgeYears, Aim, Condition, DayTarget, Diner, ProteinTarget};
use serde::Serialize;
use std::fmt::Write as _;
use tabled::builder::Builder;

/// Version of the JSON layout.
pub(crate) const VERSION: u32 = 1;

/// What is shown of a diner.
#[derive(Debug)]
pub(crate) struct DinerPage<'p> {
    /// As stored.
    pub diner: &'p Diner,
    /// Their age today, where known.
    pub age: Option<AgeYears>,
    /// The day's energy, or the sentence that says why none is given.
    pub day: Result<DinerDay, String>,
}

/// A diner's day.
#[derive(Debug)]
pub(crate) struct DinerDay {
    /// The target with its arithmetic.
    pub target: DayTarget,
    /// Name of the standard.
    pub standard: String,
    /// The energy level that serves the day, kcal.
    pub level_kcal: f64,
    /// What the day allows.
    pub allowances: Vec<LedgerLine>,
    /// Protein to reach, where it can be told.
    pub protein: Option<ProteinTarget>,
    /// Water to drink, where sex and age are known.
    pub fluid: Option<FluidIntake>,
}

impl DinerPage<'_> {
    /// The page; with `why`, the arithmetic and its sources.
    pub(crate) fn text(&self, why: bool) -> String {
        let mut page = match &self.day {
            Ok(day) => self.with_figures(day, why),
            Err(sentence) => wrap(&format!("{}: {sentence}", visible(&self.diner.name))),
        };
        page.push_str(&self.said());
        page
    }

    fn with_figures(&self, day: &DinerDay, why: bool) -> String {
        let mut page = self.headline(day);
        page.push_str(&wrap(&format!(
            "Held against the {} kcal level of the {}; beans, peas and lentils count {}",
            thousands(day.level_kcal),
            visible(crate::words::head(&day.standard)),
            match self.diner.pulses_as {
                PulsesAs::Vegetables => "with vegetables",
                PulsesAs::ProteinFoods => "with protein foods",
            }
        )));
        page.push_str(&wrap(&self.meals(day)));
        if let Some(protein) = &day.protein {
            let source = if why {
                format!("; {}", protein.source)
            } else {
                String::new()
            };
            page.push_str(&wrap(&format!("Protein: {}{source}", protein.working)));
        }
        if let Some(fluid) = day.fluid {
            page.push_str(&wrap(&format!(
                "Fluid: about {} ml a day from drinks (adequate intake, National Academies 2004)",
                thousands(f64::from(fluid.beverages_ml))
            )));
        }
        for caution in self.cautions(day) {
            page.push_str(&wrap(&caution));
        }
        page.push('\n');
        page.push_str(&self.allowances(day));
        page.push('\n');
        if why {
            page.push_str("How the figure comes about\n");
            let need = day.target.need.iter().flat_map(|need| &need.working);
            for line in need.chain(&day.target.working) {
                page.push_str(&set_in(line, 2));
            }
        }
        page
    }

    /// What is said with these figures: of the energy and the aim, of the fluid, of what this
    /// person has, or else of what nobody said they have not.
    fn cautions(&self, day: &DinerDay) -> Vec<String> {
        let own = &self.diner.conditions;
        let mut all: Vec<String> = day
            .target
            .cautions
            .iter()
            .map(ToString::to_string)
            .collect();
        all.extend(day.target.level_note.map(ToOwned::to_owned));
        all.extend(day.fluid.map(|_| fluid::CAUTION.to_owned()));
        all.extend(day.protein.iter().flat_map(|p| p.cautions.iter().cloned()));
        let dash = self.diner.standard.as_deref() == Some("dash");
        if dash && !own.contains(&Condition::Kidney) {
            all.push(
                "The DASH plan holds much potassium: with kidney disease ask your clinic first."
                    .to_owned(),
            );
        }
        all.extend(
            own.iter()
                .map(|condition| format!("With {}: {}.", condition.who(), condition.advice())),
        );
        if own.is_empty() {
            let who = Condition::ALL.map(Condition::who).join(", ");
            all.push(format!(
                "Nothing was said of {who}: with one of them ask your clinician first, and say it with --conditions."
            ));
        }
        all
    }

    fn headline(&self, day: &DinerDay) -> String {
        let target = kcal(day.target.target_kcal);
        let how = match (self.diner.stated_energy_kcal, day.target.need_kcal()) {
            (None, Some(need)) => match self.diner.aim {
                Aim::Keep => "the estimated need, to keep the weight".to_owned(),
                Aim::Lose => format!("to lose weight; the estimated need is {}", kcal(need)),
                Aim::Gain => format!("to gain weight; the estimated need is {}", kcal(need)),
            },
            (Some(_), _) | (None, None) => "stated".to_owned(),
        };
        wrap(&format!(
            "{}: {target} kcal a day ({how})",
            visible(&self.diner.name)
        ))
    }

    fn meals(&self, day: &DinerDay) -> String {
        let meals = self.diner.meals.meals().iter().map(|meal| {
            let protein = day.protein.as_ref().map_or(String::new(), |protein| {
                format!(", {} g protein", grams(protein.grams * meal.share))
            });
            format!(
                "{} {:.0} % ({} kcal{protein})",
                visible(&meal.name),
                meal.share * 100.0,
                kcal(day.target.target_kcal * meal.share)
            )
        });
        format!("Meals: {}", meals.collect::<Vec<_>>().join(", "))
    }

    fn allowances(&self, day: &DinerDay) -> String {
        let mut table = Builder::default();
        table.push_record(["", "a day", "", ""]);
        for allowance in &day.allowances {
            let subject = allowance.subject;
            let own = self.diner.group_portions.contains_key(subject.key());
            let at_most = match subject.kind() {
                Kind::ToReach => "",
                Kind::StayWithin => "at most",
            };
            table.push_record([
                subject.label().to_owned(),
                amount(subject.unit(), allowance.allowed().unwrap_or_default()),
                subject.unit().to_owned(),
                if own { "set by the coach" } else { at_most }.to_owned(),
            ]);
        }
        grid(table, &[26, 10, 8, 20], &[1])
    }

    /// What was said of the person.
    fn said(&self) -> String {
        let diner = self.diner;
        let mut said = Vec::new();
        if let Some(sex) = diner.sex {
            said.push(sex.word().to_owned());
        }
        if let Some(age) = self.age {
            said.push(format!("{} years", age.get()));
        }
        if let Some(height) = diner.height_cm {
            said.push(format!("{:.0} cm ({})", height.get(), height.us()));
        }
        if let Some(weight) = diner.weight_kg {
            said.push(format!("{:.1} kg ({})", weight.get(), weight.us()));
        }
        if let Some(activity) = diner.activity {
            said.push(activity.word().to_owned());
        }
        if let Some(zone) = &diner.zone {
            said.push(format!("time zone {}", visible(zone)));
        }
        if !diner.conditions.is_empty() {
            let words: Vec<&str> = diner.conditions.iter().map(|c| c.word()).collect();
            said.push(format!("conditions: {}", words.join(", ")));
        }
        if said.is_empty() {
            return String::new();
        }
        wrap(&format!("As said: {}", said.join(", ")))
    }

    /// The allowances as CSV; only the heading where no figure is given.
    pub(crate) fn csv(&self) -> Result<String, csv::Error> {
        let row = |allowance: &LedgerLine| {
            [
                row_kind(allowance.subject).to_owned(),
                allowance.subject.key().to_owned(),
                allowance.subject.unit().to_owned(),
                figure(allowance.allowed().unwrap_or_default()),
                figure(allowance.portion),
            ]
        };
        let all = self.day.iter().flat_map(|day| &day.allowances);
        csv_table("row,name,unit,a_day,portion", all.map(row))
    }

    /// JSON, version 1.
    pub(crate) fn json(&self) -> Result<String, serde_json::Error> {
        let day = self.day.as_ref().ok();
        let page = Json {
            version: VERSION,
            diner: self.diner,
            refusal: self.day.as_ref().err(),
            target: day.map(|day| &day.target),
            standard: day.map(|day| day.standard.as_str()),
            level_kcal: day.map(|day| day.level_kcal),
            allowances: day.map(|day| day.allowances.iter().map(AllowanceJson::of).collect()),
            fluid: day.and_then(|day| day.fluid),
            protein: day.and_then(|day| day.protein.as_ref()),
            cautions: day.map(|day| self.cautions(day)),
        };
        crate::pages::escape::json(&page)
    }
}

#[derive(Serialize)]
struct Json<'p> {
    version: u32,
    diner: &'p Diner,
    refusal: Option<&'p String>,
    target: Option<&'p DayTarget>,
    standard: Option<&'p str>,
    level_kcal: Option<f64>,
    allowances: Option<Vec<AllowanceJson>>,
    fluid: Option<FluidIntake>,
    protein: Option<&'p ProteinTarget>,
    cautions: Option<Vec<String>>,
}

/// One line for each diner: the name and the day's energy, or that none is given.
pub(crate) fn list(diners: &[(Diner, Option<f64>)]) -> String {
    let mut text = String::new();
    for (diner, target) in diners {
        let day = target.map_or("no figure is given".to_owned(), |target| {
            format!("{} kcal a day", kcal(target))
        });
        let _ = writeln!(text, "{}: {day}", visible(&diner.name));
    }
    text
}
