//! What stands on a day sheet, as plain data.

use super::boxes::{Tick, boxes, spread};
use super::lists;
use crate::ledger::{Group, Kind, Ledger, LedgerLine, Limit, PulsesAs, Standard, Subject};
use crate::matching::Catalogue;
use crate::pages::number::{amount, grams, kcal, thousands};
use crate::people::MealShares;

/// Grams of a teaspoon of oil, the portion on the sheet whatever the standard counts in.
const TEASPOON_OIL_G: f64 = 4.5;
/// Days of a week.
const WEEK: [&str; 7] = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
/// A glass, ml: 8 US fluid ounces.
const GLASS_ML: f64 = 236.6;

/// The order of the groups on the sheet: what there should be most of comes first.
const GROUPS: [Group; 6] = [
    Group::Vegetables,
    Group::Fruits,
    Group::Grains,
    Group::ProteinFoods,
    Group::Dairy,
    Group::Oils,
];

/// What the boxes stand under.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Columns<'a> {
    /// One day, all boxes of a group together.
    Day,
    /// One day, the boxes spread over its planned meals.
    Meals(&'a MealShares),
    /// Seven days, each with all boxes.
    Week,
}

/// Whose day is asked for.
#[derive(Debug)]
pub(crate) struct Ask<'a> {
    /// The person, where it is for one.
    pub name: Option<&'a str>,
    /// kcal to plan the day by.
    pub energy_kcal: f64,
    /// The standard, with the portions that a coach set.
    pub standard: &'a Standard,
    /// What the day allows, nothing of it used.
    pub ledger: &'a Ledger,
    /// Where beans, peas and lentils count.
    pub pulses: PulsesAs,
    /// Protein to reach, with its meaning in words, where it can be told.
    pub protein: Option<(f64, String)>,
    /// To drink in a day, ml, where known.
    pub fluid_ml: Option<f64>,
    /// What the boxes stand under.
    pub columns: Columns<'a>,
    /// What to say along, a sentence each.
    pub cautions: Vec<String>,
}

/// A day sheet.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct DaySheet {
    /// `Ana’s day`.
    pub title: String,
    /// Energy and pattern, a phrase.
    pub day: String,
    /// What the columns of boxes are called; one without a name for a whole day.
    pub columns: Vec<String>,
    /// The food groups.
    pub groups: Vec<SheetGroup>,
    /// What to stay within.
    pub bounds: Vec<String>,
    /// Protein to reach.
    pub protein: Option<String>,
    /// Glasses of water, a column each.
    pub water: Vec<Vec<Tick>>,
    /// What is said of water.
    pub water_words: String,
    /// Ways to flavour it.
    pub flavours: &'static [&'static str],
    /// Free foods by kind.
    pub free: Vec<(String, Vec<String>)>,
    /// What is said of free foods.
    pub free_words: &'static str,
    /// What foods that are not measured in portions equal.
    pub equals: Vec<String>,
    /// What to know, a sentence each.
    pub cautions: Vec<String>,
    /// Where the figures come from.
    pub sources: Vec<String>,
}

/// A food group on the sheet.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct SheetGroup {
    /// The group: its boxes have a shape of their own.
    pub group: Group,
    /// Portions a day as the standard has them, in words.
    pub portions: String,
    /// The boxes, a column each.
    pub boxes: Vec<Vec<Tick>>,
    /// What one portion is.
    pub portion: String,
    /// What that looks like.
    pub looks: Vec<String>,
    /// Foods with what one portion of them is, best first.
    pub foods: Vec<(String, String)>,
    /// A remark.
    pub remark: Option<String>,
}

impl DaySheet {
    /// The sheet for a person's day.
    #[must_use]
    pub(crate) fn of(ask: &Ask<'_>, catalogue: &Catalogue) -> Self {
        let known = lists::foods_for(ask.standard, catalogue);
        let lines = GROUPS.iter().map(|group| ask.ledger.line(*group));
        let shown = lines.filter(|line| line.allowed().is_some_and(|a| a > 0.0));
        let glasses = ask.fluid_ml.map_or(0.0, |ml| (ml / GLASS_ML).round());
        Self {
            title: match ask.name {
                Some(name) => format!("{name}’s {}", ask.columns.word()),
                None => format!("A {} of {} kcal", ask.columns.word(), kcal(ask.energy_kcal)),
            },
            day: day_words(ask),
            columns: ask.columns.names(),
            groups: shown
                .filter_map(|line| SheetGroup::of(&line, ask, &known))
                .collect(),
            bounds: bounds(ask),
            protein: ask
                .protein
                .as_ref()
                .map(|(g, _)| format!("{} g or more", grams(*g))),
            water: ask.columns.whole(glasses),
            water_words: water_words(ask.fluid_ml, glasses),
            flavours: &lists::FLAVOURS,
            free: lists::free(catalogue),
            free_words: lists::FREE_WORDS,
            equals: lists::equals(&known, |group| portion_of(&ask.ledger.line(group))),
            cautions: ask.cautions.clone(),
            sources: sources(ask),
        }
    }
}

impl Columns<'_> {
    const fn word(&self) -> &'static str {
        match self {
            Self::Week => "week",
            Self::Day | Self::Meals(_) => "day",
        }
    }

    fn names(&self) -> Vec<String> {
        match self {
            Self::Day => vec![String::new()],
            Self::Meals(meals) => meals.meals().iter().map(|m| m.name.clone()).collect(),
            Self::Week => WEEK.map(str::to_owned).to_vec(),
        }
    }

    /// Portions of a day as boxes, a column each.
    fn boxes(&self, portions: f64) -> Vec<Vec<Tick>> {
        match self {
            Self::Day => vec![boxes(portions)],
            Self::Meals(meals) => {
                let shares: Vec<f64> = meals.meals().iter().map(|meal| meal.share).collect();
                spread(portions, &shares)
            }
            Self::Week => vec![boxes(portions); WEEK.len()],
        }
    }

    /// The same for what is not spread by energy: water goes evenly to the meals.
    fn whole(&self, many: f64) -> Vec<Vec<Tick>> {
        match self {
            Self::Meals(meals) => {
                let each = 1.0 / meals.meals().len().max(1) as f64;
                spread(many, &vec![each; meals.meals().len()])
            }
            Self::Day | Self::Week => self.boxes(many),
        }
    }
}

/// One portion on the sheet, in the group's unit: that of the standard, oils by the teaspoon.
fn portion_of(line: &LedgerLine) -> f64 {
    match line.subject {
        Subject::Group(Group::Oils) => TEASPOON_OIL_G,
        _ => line.portion,
    }
}

/// `1/2 cup-eq`, `1 teaspoon`.
fn portion_words(group: Group, portion: f64) -> String {
    let what = match group {
        Group::Oils => "teaspoon".to_owned(),
        Group::Grains | Group::ProteinFoods => "ounce-equivalent".to_owned(),
        _ => "cup-equivalent".to_owned(),
    };
    let many = match group {
        Group::Oils => portion / TEASPOON_OIL_G,
        _ => portion,
    };
    format!("{} {what}", crate::ledger::fraction(many))
}

impl SheetGroup {
    fn of(line: &LedgerLine, ask: &Ask<'_>, known: &lists::Known<'_>) -> Option<Self> {
        let Subject::Group(group) = line.subject else {
            return None;
        };
        let portion = portion_of(line);
        let portions = line.allowed()? / portion;
        let least = line.allowance.and_then(|a| a.minimum);
        let unit = line.subject.unit();
        let in_unit = match (group, least) {
            (_, Some(least)) if least > 0.0 && least < line.allowed()? - 1e-9 => {
                format!(", {} at least", in_quarters(least / portion))
            }
            (Group::Oils, _) => format!(" ({} g)", grams(line.allowed()?)),
            _ if (portion - 1.0).abs() < 1e-9 => {
                format!(" ({} {unit})", amount(unit, line.allowed()?))
            }
            _ => String::new(),
        };
        Some(Self {
            group,
            portions: format!("{}{in_unit}", number_of(portions)),
            boxes: ask.columns.boxes(portions),
            portion: portion_words(group, portion),
            looks: lists::looks(group, portion),
            foods: lists::best_first(known, group, portion),
            remark: remark(group, ask),
        })
    }
}

fn in_quarters(portions: f64) -> String {
    crate::ledger::fraction((portions * 4.0).round() / 4.0)
}

/// Portions a day: to the nearest quarter, as the boxes are.
fn number_of(portions: f64) -> String {
    let told = in_quarters(portions);
    let many = if portions > 1.0 {
        "portions"
    } else {
        "portion"
    };
    format!("{told} {many}")
}

/// Where beans, peas and lentils count, and how many of them the pattern means.
fn remark(group: Group, ask: &Ask<'_>) -> Option<String> {
    let here = match ask.pulses {
        PulsesAs::Vegetables => Group::Vegetables,
        PulsesAs::ProteinFoods => Group::ProteinFoods,
    };
    let weekly = ask.ledger.line(Group::Pulses).allowed()? * 7.0;
    (group == here && weekly > 0.0).then(|| {
        format!(
            "beans, peas and lentils count here, about {} cups of them a week",
            crate::ledger::fraction((weekly * 2.0).round() / 2.0)
        )
    })
}

fn day_words(ask: &Ask<'_>) -> String {
    let standard = crate::words::head(&ask.standard.name);
    let level = ask.ledger.allowances().level_kcal();
    let by = if (level - ask.energy_kcal).abs() < 1.0 {
        String::new()
    } else {
        format!(" at {} kcal", thousands(level))
    };
    format!(
        "{} kcal a day, by the {standard}{by}. One box is one portion.",
        kcal(ask.energy_kcal)
    )
}

/// What to stay within.
fn bounds(ask: &Ask<'_>) -> Vec<String> {
    let limits = ask.ledger.limits().filter(|line| {
        let shown = line.subject != Limit::Energy.into() && line.subject != Limit::Alcohol.into();
        shown && line.subject.kind() == Kind::StayWithin
    });
    limits
        .filter_map(|line| {
            let unit = line.subject.unit();
            let most = amount(unit, line.allowed()?);
            let unit = if unit == "tsp-eq" { "teaspoons" } else { unit };
            Some(format!("{} at most {most} {unit}", line.subject.label()))
        })
        .collect()
}

fn water_words(fluid_ml: Option<f64>, glasses: f64) -> String {
    match fluid_ml {
        Some(ml) => format!(
            "About {} ml of drinks a day, {glasses:.0} glasses of 8 fl oz (240 ml): mostly water; plain tea \
             and coffee count.",
            thousands((ml / 50.0).round() * 50.0)
        ),
        None => "Water as thirst asks; plain tea and coffee count.".to_owned(),
    }
}

fn sources(ask: &Ask<'_>) -> Vec<String> {
    let mut sources = vec![
        format!("Portions a day: {}.", ask.standard.source),
        "What a portion is: USDA FNDDS 2021-2023 and FPED 2017-2020; best first by NRF9.3 (Fulgoni \
         et al. 2009); which foods: common practice."
            .to_owned(),
        lists::SOURCES.to_owned(),
    ];
    sources.extend(
        ask.protein
            .as_ref()
            .map(|(_, source)| format!("Protein: {source}.")),
    );
    if ask.fluid_ml.is_some() {
        sources.push("Drinks: adequate intake, National Academies 2004.".to_owned());
    }
    sources
}
