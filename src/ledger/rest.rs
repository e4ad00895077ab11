//! What the rest of a day asks of the next dish: groups still short, limits not yet used up.

use super::{Group, Kind, Ledger, Limit, Subject, Verdict, verdict};

/// What is left of a day for one dish, when other meals are still to come.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Rest {
    /// Groups that are still short: how much is missing, in the subject's unit, above 0.
    short: Vec<(Subject, f64)>,
    /// Limits: how much of each there is room for, in the subject's unit, not below 0, and
    /// what the whole day allows.
    room: Vec<(Subject, f64, f64)>,
}

/// How a dish fits the rest of a day.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Choice {
    /// Groups still short of which it brings some: the part of what is missing (1 for all of
    /// it, or more), the largest first.
    pub brings: Vec<(Subject, f64)>,
    /// Limits that it takes beyond what is left: how much it holds and how much there was room
    /// for, the furthest first.
    pub beyond: Vec<(Subject, f64, f64)>,
    /// For putting dishes in order, the best with the highest; of no use for anything else.
    pub rank: f64,
}

impl Rest {
    /// The rest of a day of which `used` was eaten or is planned, when `others` of it (0 to 1)
    /// is kept for other meals. Oils are left out, which come along by themselves; there is no
    /// room for alcohol, which nobody is advised to use up.
    pub(crate) fn of(used: &Ledger, others: f64) -> Self {
        let mut rest = Self::default();
        for line in used.allowed() {
            let subject = line.subject;
            let allowed = line.allowed().unwrap_or_default();
            let left = allowed * (1.0 - others) - line.likely().unwrap_or_default();
            match subject.kind() {
                Kind::StayWithin if subject == Limit::Alcohol.into() => {
                    rest.room.push((subject, 0.0, allowed));
                }
                Kind::StayWithin => rest.room.push((subject, left.max(0.0), allowed)),
                Kind::ToReach => {
                    let counts = subject.stands_alone() && subject != Group::Oils.into();
                    // As good as reached is reached.
                    let short = verdict(Kind::ToReach, 1.0 - left / allowed) == Verdict::Short;
                    if counts && short {
                        rest.short.push((subject, left));
                    }
                }
            }
        }
        rest
    }

    /// How a dish fits it; nothing when its energy is not known.
    ///
    /// Own choice of order: the mean part of what is missing that the dish brings, groups alike,
    /// less what it takes beyond the room, each limit as a part of its day.
    pub(crate) fn choice(&self, dish: &Ledger) -> Option<Choice> {
        dish.energy()?;
        let likely = |subject: Subject| dish.line(subject).likely();
        let mut brings: Vec<(Subject, f64)> = self
            .short
            .iter()
            .filter_map(|(subject, short)| Some((*subject, likely(*subject)? / short)))
            .filter(|(_, part)| *part > 0.0)
            .collect();
        brings.sort_by(|a, b| b.1.total_cmp(&a.1));
        let filled: f64 = brings.iter().map(|(_, part)| part.min(1.0)).sum();
        let mut against = 0.0;
        let mut past = Vec::new();
        for (subject, room, day) in &self.room {
            let Some(held) = likely(*subject) else {
                continue;
            };
            let over = (held - room) / day;
            // Nobody tells less than a twentieth of a day apart.
            if verdict(Kind::StayWithin, 1.0 + over) == Verdict::Beyond {
                past.push((over, (*subject, held, *room)));
                against += over;
            }
        }
        past.sort_by(|a, b| b.0.total_cmp(&a.0));
        Some(Choice {
            brings,
            beyond: past.into_iter().map(|(_, told)| told).collect(),
            rank: filled / self.short.len().max(1) as f64 - against,
        })
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::super::{Allowances, Day, PulsesAs, Standard};
    use super::*;
    use crate::quantity::Estimate;

    fn ledger(amounts: &[(Subject, f64)]) -> Ledger {
        let standard = Standard::embedded("us-style").unwrap();
        let allowances = Arc::new(Allowances::of(Day {
            standard: &standard,
            energy_kcal: 2000.0,
            pulses: PulsesAs::Vegetables,
            protein_g: None,
        }));
        let of = |subject: Subject| {
            let found = amounts.iter().find(|(s, _)| *s == subject);
            Some(Estimate::exact(found.map_or(0.0, |(_, amount)| *amount)))
        };
        Ledger::of_amounts(Estimate::default(), of, of, &allowances)
    }

    fn group(group: Group, amount: f64) -> (Subject, f64) {
        (group.into(), amount)
    }

    fn limit(limit: Limit, amount: f64) -> (Subject, f64) {
        (limit.into(), amount)
    }

    /// 2,000 kcal: 2 cups of fruits, 2.5 of vegetables, 6 ounces of grains, 5.5 of protein foods,
    /// 3 cups of dairy, 2,300 mg of sodium (Dietary Guidelines 2020-2025, table A3-2). All but
    /// vegetables and grains is reached; 500 kcal and 800 mg are left.
    fn evening() -> Ledger {
        ledger(&[
            limit(Limit::Energy, 1500.0),
            limit(Limit::Sodium, 1500.0),
            group(Group::Fruits, 2.0),
            group(Group::Vegetables, 0.5),
            group(Group::Grains, 4.0),
            group(Group::ProteinFoods, 5.4),
            group(Group::Dairy, 3.0),
        ])
    }

    #[test]
    fn groups_still_short_count_for_and_limits_against() {
        let rest = Rest::of(&evening(), 0.0);
        let kcal = limit(Limit::Energy, 450.0);
        let choice = |amounts: &[(Subject, f64)]| rest.choice(&ledger(amounts)).unwrap();
        let greens = choice(&[
            kcal,
            group(Group::Vegetables, 2.0),
            group(Group::Grains, 1.0),
        ]);
        let told: Vec<(Subject, f64)> = greens.brings.clone();
        assert_eq!(told[0].0, Group::Vegetables.into());
        assert!((told[0].1 - 1.0).abs() < 1e-9 && (told[1].1 - 0.5).abs() < 1e-9);
        assert!((greens.rank - 0.75).abs() < 1e-9 && greens.beyond.is_empty());
        // What is reached already brings nothing.
        let fruit = choice(&[kcal, group(Group::Fruits, 3.0)]);
        assert!(fruit.brings.is_empty() && fruit.rank.abs() < 1e-9);
        // 1,260 mg is 460 beyond the room, a fifth of a day.
        let salty = choice(&[
            kcal,
            group(Group::Vegetables, 2.0),
            limit(Limit::Sodium, 1260.0),
        ]);
        assert_eq!(salty.beyond, [(Limit::Sodium.into(), 1260.0, 800.0)]);
        assert!((salty.rank - (0.5 - 0.2)).abs() < 1e-9);
        let beer = choice(&[kcal, limit(Limit::Alcohol, 0.5)]);
        assert!(beer.rank < 0.0);
    }

    #[test]
    fn what_other_meals_take_is_kept_for_them() {
        let morning = ledger(&[]);
        let all = Rest::of(&morning, 0.0);
        let third = Rest::of(&morning, 2.0 / 3.0);
        let dish = ledger(&[
            limit(Limit::Energy, 900.0),
            group(Group::Vegetables, 2.5 / 3.0),
        ]);
        assert!(all.choice(&dish).unwrap().beyond.is_empty());
        let held = third.choice(&dish).unwrap();
        assert_eq!(held.beyond[0].0, Subject::ENERGY);
        assert!((held.brings[0].1 - 1.0).abs() < 1e-9);
    }
}
