//! The standard file: TOML as written, checked figure by figure.

use super::fault::{Fault, StandardError};
use crate::ledger::{EqUnit, Group, Subgroup};
use serde::Deserialize;
use std::collections::BTreeMap;

/// Energy levels that a standard may have, kcal: 1,000 is the lowest of the Dietary
/// Guidelines patterns; both ends are an own choice.
const LEVELS_KCAL: std::ops::RangeInclusive<f64> = 800.0..=6000.0;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StandardFile {
    pub(super) id: String,
    pub(super) name: String,
    pub(super) source: String,
    #[serde(default)]
    pub(super) status: String,
    #[serde(default)]
    pub(super) adults_from_kcal: f64,
    #[serde(default = "yes")]
    pub(super) vegetables_include_pulses: bool,
    pub(super) levels: Vec<f64>,
    pub(super) groups: BTreeMap<String, GroupFile>,
    #[serde(default)]
    pub(super) limits: LimitsFile,
}

fn yes() -> bool {
    true
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct GroupFile {
    pub(super) unit: EqUnit,
    pub(super) portion: f64,
    pub(super) allowance: Vec<f64>,
    #[serde(default)]
    pub(super) allowance_min: Vec<f64>,
    #[serde(default)]
    pub(super) pulses_within_weekly: Vec<f64>,
    #[serde(default)]
    pub(super) daily: BTreeMap<String, Vec<f64>>,
    #[serde(default)]
    pub(super) weekly: BTreeMap<String, Vec<f64>>,
    /// Kinds of foods of the group that the standard has none of.
    #[serde(default)]
    pub(super) leaves_out: Vec<String>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LimitsFile {
    pub(super) added_sugars_percent: Option<f64>,
    #[serde(default)]
    pub(super) added_sugars_tsp: Vec<f64>,
    pub(super) saturated_fat_percent: Option<f64>,
    pub(super) sodium_mg: Option<f64>,
    pub(super) alcohol_drinks: Option<f64>,
    pub(super) alcohol_drinks_men: Option<f64>,
    #[serde(default)]
    pub(super) solid_fats_g: Vec<f64>,
    #[serde(default)]
    pub(super) other_uses_kcal: Vec<f64>,
}

/// The groups by their keys, and the rest of the file.
type Checked = (BTreeMap<Group, GroupFile>, StandardFile);

/// Reads and checks a standard.
pub(super) fn parse(text: &str) -> Result<Checked, StandardError> {
    let mut file: StandardFile = toml::from_str(text)
        .map_err(|e| StandardError::Syntax(e.to_string().trim_end().to_owned()))?;
    let levels = file.levels.len();
    let rising = file.levels.windows(2).all(|w| w[0] < w[1]);
    if levels == 0 || !rising || file.levels.iter().any(|l| !LEVELS_KCAL.contains(l)) {
        return Err(StandardError::at(text, &["levels"], Fault::Levels));
    }
    let mut groups = BTreeMap::new();
    for (name, group) in std::mem::take(&mut file.groups) {
        let key = known_group(text, &name)?;
        check_group(text, &name, key, &group, levels)?;
        groups.insert(key, group);
    }
    for (key, figures) in [
        ("added_sugars_tsp", &file.limits.added_sugars_tsp),
        ("solid_fats_g", &file.limits.solid_fats_g),
        ("other_uses_kcal", &file.limits.other_uses_kcal),
    ] {
        if !figures.is_empty() {
            check_row(text, &["limits", key], figures, levels)?;
        }
    }
    Ok((groups, file))
}

fn known_group(text: &str, name: &str) -> Result<Group, StandardError> {
    Group::from_words(name).ok_or_else(|| {
        let known: Vec<_> = Group::ALL.iter().map(|g| g.key()).collect();
        let fault = Fault::UnknownGroup {
            known: known.join(", "),
            name: name.to_owned(),
        };
        StandardError::at(text, &["groups", name], fault)
    })
}

fn check_group(
    text: &str,
    name: &str,
    key: Group,
    group: &GroupFile,
    levels: usize,
) -> Result<(), StandardError> {
    if key.unit() != group.unit {
        let fault = Fault::Unit {
            group: name.to_owned(),
            expected: key.unit().word(),
            found: group.unit.word(),
        };
        return Err(StandardError::at(text, &["groups", name, "unit"], fault));
    }
    if !group.portion.is_finite() || group.portion <= 0.0 {
        let fault = Fault::Figure {
            row: format!("groups.{name}.portion"),
            value: group.portion,
        };
        return Err(StandardError::at(text, &["groups", name, "portion"], fault));
    }
    check_row(
        text,
        &["groups", name, "allowance"],
        &group.allowance,
        levels,
    )?;
    for (row, figures) in [
        ("allowance_min", &group.allowance_min),
        ("pulses_within_weekly", &group.pulses_within_weekly),
    ] {
        if !figures.is_empty() {
            check_row(text, &["groups", name, row], figures, levels)?;
        }
    }
    for (period, rows) in [("daily", &group.daily), ("weekly", &group.weekly)] {
        for (part, figures) in rows {
            let path = ["groups", name, period, part.as_str()];
            if !Subgroup::of(key).iter().any(|s| s.key() == part) {
                let fault = Fault::UnknownSubgroup {
                    group: name.to_owned(),
                    name: part.clone(),
                };
                return Err(StandardError::at(text, &path, fault));
            }
            check_row(text, &path, figures, levels)?;
        }
    }
    Ok(())
}

fn check_row(
    text: &str,
    path: &[&str],
    figures: &[f64],
    levels: usize,
) -> Result<(), StandardError> {
    let row = path.join(".");
    let wrong = figures.iter().find(|f| !f.is_finite() || **f < 0.0);
    let fault = if figures.len() != levels {
        Fault::Length {
            row,
            found: figures.len(),
            levels,
        }
    } else if let Some(value) = wrong {
        Fault::Figure { row, value: *value }
    } else {
        return Ok(());
    };
    Err(StandardError::at(text, path, fault))
}
