//! The fitted share: how much of the whole dish keeps a meal within its part of the day.

use super::tally::{GROUPS, LIMITS, Tally};
use crate::fit::SOFT_KEEPS;
use crate::groups::{Group, Limit};

/// What is held against a day: a group or a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cap {
    /// A food group.
    Group(Group),
    /// A limit.
    Limit(Limit),
}

impl Cap {
    /// Groups first, then limits, in their order.
    pub fn all() -> impl Iterator<Item = Cap> {
        let groups = Group::ALL.iter().map(|g| Cap::Group(*g));
        groups.chain(Limit::ALL.iter().map(|l| Cap::Limit(*l)))
    }

    /// The stable key used in files.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Cap::Group(group) => group.key(),
            Cap::Limit(limit) => limit.key(),
        }
    }

    /// The words people read.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Cap::Group(group) => group.label(),
            Cap::Limit(limit) => limit.label(),
        }
    }

    /// Whether a day's amount is one to stay within. Fruits, vegetables and pulses are there to
    /// be reached (Dietary Guidelines for Americans 2020-2025, chapter 1): more of them is told
    /// by its share and never held against a dish.
    #[must_use]
    pub fn is_stayed_within(self) -> bool {
        !matches!(
            self,
            Cap::Group(Group::Fruits | Group::Vegetables | Group::Pulses)
        )
    }
}

/// A set of groups and limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Caps(u16);

impl Caps {
    fn bit(cap: Cap) -> u16 {
        1 << match cap {
            Cap::Group(group) => group as u16,
            Cap::Limit(limit) => GROUPS as u16 + limit as u16,
        }
    }

    /// Adds one.
    pub fn insert(&mut self, cap: Cap) {
        self.0 |= Self::bit(cap);
    }

    /// Whether it is in.
    #[must_use]
    pub fn contains(self, cap: Cap) -> bool {
        self.0 & Self::bit(cap) != 0
    }

    /// Whether none is in.
    #[must_use]
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Those that are in, in order.
    pub fn iter(self) -> impl Iterator<Item = Cap> {
        Cap::all().filter(move |cap| self.contains(*cap))
    }
}

const _: () = assert!(GROUPS + LIMITS <= 16);

/// The share of a dish that fits a meal.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Fitted {
    /// Part of the whole dish to eat, 0 to 1.
    pub share: f64,
    /// What forbids more; nothing when the whole dish fits.
    pub held_by: Option<Cap>,
    /// Whether sodium goes beyond the meal even so: keeping it would leave less than half of
    /// what everything else allows.
    pub passes_sodium: bool,
}

impl Tally {
    /// Share of the day of a group or limit.
    #[must_use]
    pub fn share(&self, cap: Cap) -> Option<f64> {
        match cap {
            Cap::Group(group) => self.groups[group as usize].share,
            Cap::Limit(limit) => self.limits[limit as usize].share,
        }
    }

    /// What goes beyond a whole day's allowance, of the things to stay within.
    #[must_use]
    pub fn beyond_a_day(&self) -> Caps {
        let mut caps = Caps::default();
        for cap in Cap::all().filter(|c| c.is_stayed_within()) {
            if self.share(cap).is_some_and(|s| s > 1.005) {
                caps.insert(cap);
            }
        }
        caps
    }

    /// The largest share of any group or limit to stay within, and which it is.
    #[must_use]
    pub fn most(&self) -> Option<(Cap, f64)> {
        Cap::all()
            .filter(|c| c.is_stayed_within())
            .filter_map(|c| Some((c, self.share(c)?)))
            .reduce(|a, b| if b.1 > a.1 { b } else { a })
    }

    /// The largest share of the dish at which no group and no limit to stay within passes
    /// `meal` (a part of the day, above 0) of the day's allowance. Sodium gives way when it
    /// alone would halve what the others allow, as it does on a right-sized plate.
    ///
    /// Nothing when the energy is unknown: a share that leaves a component out misleads.
    #[must_use]
    pub fn fitted(&self, meal: f64) -> Option<Fitted> {
        self.share(Cap::Limit(Limit::Energy))?;
        let mut firm = Fitted {
            share: 1.0,
            ..Fitted::default()
        };
        let sodium = Cap::Limit(Limit::Sodium);
        for cap in Cap::all().filter(|c| c.is_stayed_within() && *c != sodium) {
            let allows = self.share(cap).filter(|s| *s > 0.0).map(|s| meal / s);
            if let Some(share) = allows.filter(|s| *s < firm.share) {
                firm.share = share;
                firm.held_by = Some(cap);
            }
        }
        let salt = self.share(sodium).filter(|s| *s > 0.0).map(|s| meal / s);
        Some(match salt {
            Some(salt) if salt < firm.share && salt >= SOFT_KEEPS * firm.share => Fitted {
                share: salt,
                held_by: Some(sodium),
                passes_sodium: false,
            },
            Some(salt) if salt < firm.share => Fitted {
                passes_sodium: true,
                ..firm
            },
            _ => firm,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tally(shares: &[(Cap, f64)]) -> Tally {
        let mut tally = Tally::default();
        for (cap, share) in shares {
            match cap {
                Cap::Group(g) => tally.groups[*g as usize].share = Some(*share),
                Cap::Limit(l) => tally.limits[*l as usize].share = Some(*share),
            }
        }
        tally
    }

    const ENERGY: Cap = Cap::Limit(Limit::Energy);
    const SODIUM: Cap = Cap::Limit(Limit::Sodium);
    const GRAINS: Cap = Cap::Group(Group::Grains);

    #[test]
    fn the_tightest_cap_holds_the_share() {
        let plate = tally(&[
            (ENERGY, 0.5),
            (GRAINS, 0.6),
            (Cap::Group(Group::Vegetables), 3.0),
        ]);
        let fitted = plate.fitted(0.3).expect("energy is known");
        assert!((fitted.share - 0.5).abs() < 1e-12);
        assert_eq!(fitted.held_by, Some(GRAINS));
        let small = tally(&[(ENERGY, 0.2)]).fitted(0.3).expect("known");
        assert_eq!((small.share, small.held_by), (1.0, None));
        assert_eq!(tally(&[(GRAINS, 0.2)]).fitted(0.3), None);
    }

    #[test]
    fn sodium_gives_way_when_it_would_halve_the_plate() {
        let salty = tally(&[(ENERGY, 0.3), (SODIUM, 0.5)]).fitted(0.3);
        let salty = salty.expect("known");
        assert_eq!((salty.held_by, salty.passes_sodium), (Some(SODIUM), false));
        let brine = tally(&[(ENERGY, 0.3), (SODIUM, 1.5)]).fitted(0.3);
        let brine = brine.expect("known");
        assert_eq!((brine.share, brine.passes_sodium), (1.0, true));
    }

    #[test]
    fn caps_keep_their_order_and_goals_are_never_beyond() {
        let plate = tally(&[
            (SODIUM, 1.2),
            (GRAINS, 1.1),
            (Cap::Group(Group::Fruits), 4.0),
        ]);
        let keys: Vec<_> = plate.beyond_a_day().iter().map(Cap::key).collect();
        assert_eq!(keys, ["grains", "sodium"]);
        assert_eq!(plate.most(), Some((SODIUM, 1.2)));
    }
}
