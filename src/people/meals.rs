//! Which part of the day each meal is planned to take.

use std::str::FromStr;

use serde::{Deserialize, Serialize};

use crate::quantity::parse_share;

/// One meal's planned share of the day.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Meal {
    /// `breakfast`, `lunch`, or whatever the diner calls it; in lower case.
    pub name: String,
    /// Above 0, at most 1.
    pub share: f64,
}

/// The meals of a day in order; their shares add up to 1.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Vec<Meal>", into = "Vec<Meal>")]
pub struct MealShares(Vec<Meal>);

/// Why meal shares cannot be taken.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum MealError {
    /// Nothing given.
    #[error("no meal given; write for example `breakfast 30%, lunch 30%, dinner 40%`")]
    Empty,
    /// A part without a name and a number.
    #[error("`{text}` is no meal with its share; write for example `lunch 30%` or `lunch 1/3`")]
    Unread {
        /// As written.
        text: String,
    },
    /// Not above 0 and at most 1.
    #[error("the share of `{name}` is {share}; it must be above 0 and at most 1 (100 %)")]
    Share {
        /// The meal.
        name: String,
        /// Its share.
        share: f64,
    },
    /// A meal named more than once.
    #[error("the meal `{name}` is given more than once")]
    Twice {
        /// The meal.
        name: String,
    },
    /// The shares do not make a day.
    #[error("the meal shares add up to {percent:.1} %; they must make 100 %")]
    Sum {
        /// What they add up to.
        percent: f64,
    },
}

/// Thirds written as 0.333 still make a day.
const SUM_TOLERANCE: f64 = 0.005;

impl Default for MealShares {
    /// Breakfast, lunch and dinner 0.3 each and a snack of 0.1 (common practice).
    fn default() -> Self {
        let meal = |name: &str, share| Meal {
            name: name.to_owned(),
            share,
        };
        Self(vec![
            meal("breakfast", 0.3),
            meal("lunch", 0.3),
            meal("dinner", 0.3),
            meal("snack", 0.1),
        ])
    }
}

impl MealShares {
    /// Takes meals whose shares add up to 1 within half a percent, and scales that rest away.
    ///
    /// Fails on no meal, a nameless one, one given twice, a share not above 0, another sum.
    pub(crate) fn new(meals: Vec<Meal>) -> Result<Self, MealError> {
        if meals.is_empty() {
            return Err(MealError::Empty);
        }
        let mut taken: Vec<Meal> = Vec::with_capacity(meals.len());
        for meal in meals {
            let name = meal.name.trim().to_lowercase();
            if name.is_empty() {
                return Err(MealError::Unread { text: meal.name });
            }
            if !(meal.share > 0.0 && meal.share <= 1.0) {
                let share = meal.share;
                return Err(MealError::Share { name, share });
            }
            if taken.iter().any(|other| other.name == name) {
                return Err(MealError::Twice { name });
            }
            taken.push(Meal {
                name,
                share: meal.share,
            });
        }
        let sum: f64 = taken.iter().map(|meal| meal.share).sum();
        if (sum - 1.0).abs() > SUM_TOLERANCE {
            return Err(MealError::Sum {
                percent: sum * 100.0,
            });
        }
        // Shares already exact stay as written, so saving and loading changes nothing.
        if (sum - 1.0).abs() > 1e-9 {
            for meal in &mut taken {
                meal.share /= sum;
            }
        }
        Ok(Self(taken))
    }

    /// The meals in order.
    #[must_use]
    pub(crate) fn meals(&self) -> &[Meal] {
        &self.0
    }

    /// The share of a meal by its name in any case; nothing for a meal not planned.
    #[must_use]
    pub(crate) fn share_of(&self, name: &str) -> Option<f64> {
        self.named(name).map(|meal| meal.share)
    }
}

impl MealShares {
    /// The planned meal that is usual at an hour of the day, 0 to 23 (own choice): breakfast
    /// from 4, lunch from 11, dinner from 17 to before 22, a snack otherwise. Nothing where
    /// no meal of that name is planned.
    #[must_use]
    pub(crate) fn usual_at(&self, hour: i8) -> Option<&Meal> {
        let name = match hour {
            4..=10 => "breakfast",
            11..=15 => "lunch",
            17..=21 => "dinner",
            _ => "snack",
        };
        self.0.iter().find(|meal| meal.name == name)
    }

    /// The planned meal of that name, in any case.
    #[must_use]
    pub(crate) fn named(&self, name: &str) -> Option<&Meal> {
        let name = name.trim().to_lowercase();
        self.0.iter().find(|meal| meal.name == name)
    }
}

impl TryFrom<Vec<Meal>> for MealShares {
    type Error = MealError;

    fn try_from(meals: Vec<Meal>) -> Result<Self, MealError> {
        Self::new(meals)
    }
}

impl From<MealShares> for Vec<Meal> {
    fn from(shares: MealShares) -> Self {
        shares.0
    }
}

impl FromStr for MealShares {
    type Err = MealError;

    /// `breakfast 25%, lunch 0.35, dinner 2/5`; an `=` or `:` between name and share is taken.
    fn from_str(text: &str) -> Result<Self, MealError> {
        let parts = text.split([',', ';']).map(str::trim);
        let meals: Result<Vec<Meal>, MealError> =
            parts.filter(|part| !part.is_empty()).map(meal).collect();
        Self::new(meals?)
    }
}

fn meal(text: &str) -> Result<Meal, MealError> {
    let unread = || MealError::Unread {
        text: text.to_owned(),
    };
    let at = text
        .find(|sign: char| sign.is_ascii_digit() || sign == '.')
        .ok_or_else(unread)?;
    let (name, number) = text.split_at(at);
    let name = name.trim_end_matches(|sign: char| sign.is_whitespace() || "=:".contains(sign));
    let share = parse_share(number).ok_or_else(unread)?;
    Ok(Meal {
        name: name.to_owned(),
        share,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hour_names_a_meal_that_is_planned() {
        let usual = MealShares::default();
        let at = |hour| usual.usual_at(hour).map(|meal| meal.name.as_str());
        assert_eq!(
            [3, 4, 10, 11, 15, 16, 17, 21, 22].map(at),
            [
                "snack",
                "breakfast",
                "breakfast",
                "lunch",
                "lunch",
                "snack",
                "dinner",
                "dinner",
                "snack"
            ]
            .map(Some)
        );
        let two: MealShares = "lunch 40%, dinner 60%".parse().unwrap();
        assert_eq!(two.usual_at(8), None);
        assert_eq!(two.named(" Lunch ").map(|meal| meal.share), Some(0.4));
    }

    #[test]
    fn the_default_is_a_whole_day() {
        let shares = MealShares::default();
        assert_eq!(MealShares::new(shares.0.clone()), Ok(shares.clone()));
        assert_eq!(shares.share_of("Lunch"), Some(0.3));
        assert_eq!(shares.share_of("brunch"), None);
    }

    #[test]
    fn shares_are_read_as_people_write_them() {
        let shares: MealShares = "Breakfast 25%, lunch = 0.35, dinner: 2/5".parse().unwrap();
        assert_eq!(shares.share_of("breakfast"), Some(0.25));
        assert_eq!(shares.share_of("lunch"), Some(0.35));
        assert_eq!(shares.share_of("dinner"), Some(0.4));
        let thirds: MealShares = "a 0.333; b 0.333; c 0.333".parse().unwrap();
        let sum: f64 = thirds.meals().iter().map(|meal| meal.share).sum();
        assert!((sum - 1.0).abs() < 1e-12);
    }

    #[test]
    fn what_is_no_day_is_refused() {
        let read = |text: &str| text.parse::<MealShares>();
        assert_eq!(read(""), Err(MealError::Empty));
        assert_eq!(
            read("lunch 50%, dinner 40%").unwrap_err().to_string(),
            "the meal shares add up to 90.0 %; they must make 100 %"
        );
        assert!(matches!(
            read("lunch 50%, Lunch 50%"),
            Err(MealError::Twice { .. })
        ));
        assert!(matches!(
            read("lunch 0, dinner 1"),
            Err(MealError::Unread { .. })
        ));
        assert!(matches!(read("lunch 120%"), Err(MealError::Share { .. })));
        assert!(matches!(read("lunch"), Err(MealError::Unread { .. })));
        assert!(matches!(read("100%"), Err(MealError::Unread { .. })));
        assert!(matches!(read("lunch 1/0"), Err(MealError::Unread { .. })));
        assert!(matches!(
            read("lunch 0.5 0.5"),
            Err(MealError::Unread { .. })
        ));
    }
}
