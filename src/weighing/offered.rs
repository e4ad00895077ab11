//! Amounts of which it is open whether they are eaten at all.

use super::component::WeighedComponent;
use crate::quantity::Estimate;

/// An amount that is eaten with the chance `part`: its mean, and the spread between none and all
/// of it.
pub(super) fn perhaps(grams: Estimate, part: f64) -> Estimate {
    let square = grams.mean.powi(2) + grams.sd().powi(2);
    let mean = grams.mean * part;
    Estimate::with_variance(mean, (square * part - mean * mean).max(0.0)).sharing(grams.shared)
}

/// Leaves what is one of several at its chance.
pub(super) fn at_their_chance(list: &mut [WeighedComponent]) {
    for c in list {
        if let Some(chance) = c.matched.line.chance {
            at_chance(std::slice::from_mut(c), chance);
        }
    }
}

/// Leaves all of it at the chance that it is chosen.
pub(super) fn at_chance(list: &mut [WeighedComponent], chance: f64) {
    let told = format!("to be chosen: counted at {:.0} %", chance * 100.0);
    for c in list {
        c.change(told.clone(), |grams| perhaps(grams, chance));
    }
}

/// What is told of a choice that nobody has made: `part` is what is counted of each option.
pub(super) fn open_choice(options: &[impl AsRef<str>], eaten: u8, part: f64) -> String {
    let eaten = match eaten {
        1 => "one".to_owned(),
        number => number.to_string(),
    };
    let options: Vec<&str> = options.iter().map(AsRef::as_ref).collect();
    format!(
        "{eaten} of {}: each counted at {:.0} %",
        options.join(", "),
        part * 100.0
    )
}
