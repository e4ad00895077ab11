//! What one plate may take: a share of a day, or what is left of it.

use super::plate::{Budget, Cap, CapKind};
use crate::foods::{Equivalent, Food};
use crate::ledger::{Allowances, Amounts, Day, Group, Limit, PulsesAs, Subgroup, Subject};

/// Below this a group's or limit's rest is not a mark to hold: a tenth of an equivalent is
/// what a crumb coating or a splash of milk holds. Own choice.
const TRACE: f64 = 0.1;

/// The same for grams (oils, saturated fat).
const TRACE_G: f64 = 1.0;

/// A component that holds no more than this part of the day's allowance hardly carries it. Own
/// choice: 0.3 ounce-equivalents of grains, 115 mg of sodium.
const HARDLY: f64 = 0.05;

/// Below half of the last digit shown of a group's amount, cup- or ounce-equivalents.
const ROUNDING: f64 = 0.049;

/// Part of the day's limit that must be left for the limit to be firm: when less is left, no
/// amount of this plate brings the day back below it. Own choice.
const LIMIT_FIRM_FROM: f64 = 0.1;

/// What a plate is held to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measured {
    /// A food group; pulses within vegetables or protein foods.
    Group(Group),
    /// Potatoes, corn and the like.
    StarchyVegetables,
    /// Juice among the fruits.
    FruitJuice,
    /// A limit other than energy.
    Limit(Limit),
}

impl Measured {
    /// Everything that is held, in the order shown.
    #[must_use]
    pub(crate) fn all() -> Vec<Self> {
        let groups = Group::ALL.iter().filter(|g| **g != Group::Pulses);
        let mut all = Vec::new();
        for group in groups {
            all.push(Self::Group(*group));
            match group {
                Group::Fruits => all.push(Self::FruitJuice),
                Group::Vegetables => all.push(Self::StarchyVegetables),
                _ => {}
            }
        }
        let limits = Limit::ALL.iter().filter(|l| **l != Limit::Energy);
        all.extend(limits.map(|l| Self::Limit(*l)));
        all
    }

    /// The words people read.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Group(group) => group.label(),
            Self::StarchyVegetables => "starchy vegetables",
            Self::FruitJuice => "fruit juice",
            Self::Limit(limit) => limit.label(),
        }
    }

    /// The stable key used in files.
    #[must_use]
    pub(crate) fn key(self) -> &'static str {
        match self {
            Self::Group(group) => group.key(),
            Self::StarchyVegetables => "starchy_vegetables",
            Self::FruitJuice => "fruit_juice",
            Self::Limit(limit) => limit.key(),
        }
    }

    /// Unit of its amounts.
    #[must_use]
    pub(crate) fn unit(self) -> &'static str {
        match self {
            Self::Group(group) => group.unit().word(),
            Self::StarchyVegetables | Self::FruitJuice => Group::Vegetables.unit().word(),
            Self::Limit(limit) => limit.unit(),
        }
    }

    /// The group or limit that it is; `None` for the parts of groups that are held by
    /// themselves.
    #[must_use]
    pub fn subject(self) -> Option<Subject> {
        match self {
            Self::Group(group) => Some(group.into()),
            Self::Limit(limit) => Some(limit.into()),
            Self::StarchyVegetables | Self::FruitJuice => None,
        }
    }

    /// How much a gram of a food holds, in [`Self::unit`]; `None` when nobody published it.
    #[must_use]
    pub(crate) fn per_gram(self, food: &Food<'_>, pulses: PulsesAs) -> Option<f64> {
        match self {
            Self::StarchyVegetables => Some(Subgroup::Starchy.per_gram(food)),
            Self::FruitJuice => Some(food.equivalent_per_100g(Equivalent::FruitsJuice) / 100.0),
            Self::Group(group) => Subject::from(group).counted_per_gram(food, pulses),
            Self::Limit(limit) => Subject::from(limit).counted_per_gram(food, pulses),
        }
    }

    /// What a day allows of it, in [`Self::unit`]; `None` when the standard names nothing.
    fn allowed(self, day: &Allowances) -> Option<f64> {
        let subject = match self {
            // The starchy part and juice have no meal mark of their own: each is held to
            // what the meal allows of its whole group.
            Self::StarchyVegetables => Group::Vegetables.into(),
            Self::FruitJuice => Group::Fruits.into(),
            Self::Group(group) => Subject::Group(group),
            Self::Limit(limit) => Subject::Limit(limit),
        };
        day.get(subject).map(|allowed| allowed.amount)
    }
}

/// How strictly a meal is held to its share of the day.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Hold {
    /// As a coach would, own choice:
    ///
    /// * vegetables and fruit are amounts to reach and not held, but for starchy vegetables
    ///   and juice;
    /// * grains, dairy and added sugars are held to the meal's share, as is energy;
    /// * what protein foods and vegetables hold of these to the day alone, so that they are
    ///   kept and the rest shrinks;
    /// * protein foods, oils, saturated fat, sodium and alcohol to the day: the first two are
    ///   amounts to reach, the others are limits on a day that no restaurant dish keeps meal by
    ///   meal. Sodium is kept only as long as half the plate is left.
    #[default]
    Usual,
    /// Every group and every limit, sodium too, is held to the meal's share.
    Strict,
}

impl Hold {
    /// The part of the day that something is held to, and what that is the share of; `None`
    /// when it is not held.
    fn part(self, what: Measured, share: f64, of: &str) -> Option<(f64, String)> {
        let of_meal = Some((share, of.to_owned()));
        if self == Self::Strict {
            return of_meal;
        }
        match what {
            Measured::Group(Group::Vegetables | Group::Fruits) => None,
            Measured::Group(Group::ProteinFoods | Group::Oils)
            | Measured::Limit(Limit::SaturatedFat | Limit::Sodium | Limit::Alcohol) => {
                Some((1.0, "the day".to_owned()))
            }
            _ => of_meal,
        }
    }
}

impl Hold {
    /// Whether something is held to a meal's own share of the day.
    fn by_meal(self, what: Measured) -> bool {
        let of_the_day = matches!(
            what,
            Measured::Group(Group::Vegetables | Group::Fruits | Group::ProteinFoods | Group::Oils)
                | Measured::Limit(Limit::SaturatedFat | Limit::Sodium | Limit::Alcohol)
        );
        self == Self::Strict || !of_the_day
    }
}

/// The most of one thing that a plate may hold.
#[derive(Debug, Clone, PartialEq)]
pub struct Most {
    /// Of what.
    pub what: Measured,
    /// In its unit; not below a trace, and with room for the last digit shown.
    #[expect(clippy::struct_field_names, reason = "`most` is the amount of the cap")]
    pub most: f64,
    /// The most that protein foods and vegetables may hold of it by themselves, in its unit:
    /// what the day allows or leaves; not below `most`.
    pub day: f64,
    /// A component that holds no more than this hardly carries it, in its unit.
    pub trace: f64,
    /// To be read after `of`: `this meal`, `the day`.
    pub of: String,
    /// Whether it is kept whatever it costs.
    pub firm: bool,
}

/// What one plate may take.
#[derive(Debug, Clone, PartialEq)]
pub struct Room {
    /// kcal.
    pub energy_kcal: f64,
    /// To be read after `of`: `this meal`, `lunch`, `what is left of today`.
    pub of: String,
    /// Groups and limits that are held.
    pub most: Vec<Most>,
    /// Where beans, peas and lentils count.
    pub pulses: PulsesAs,
}

impl Room {
    /// A share (above 0, at most 1) of a day. `of` names it: `this meal`, `lunch`.
    #[must_use]
    pub fn of_day(day: Day<'_>, share: f64, of: &str, hold: Hold) -> Self {
        let allowances = Allowances::of(day);
        let most = |what: Measured| {
            let (part, of) = hold.part(what, share, of)?;
            let all = what.allowed(&allowances)?;
            Some(most(what, all * part, all, all, of, hold))
        };
        Self {
            energy_kcal: day.energy_kcal * share,
            of: of.to_owned(),
            most: Measured::all().into_iter().filter_map(most).collect(),
            pulses: day.pulses,
        }
    }

    /// What is left of a day after what was eaten; what is not known of that, or not told
    /// apart, counts as none. `of` names it: `what is left of today`.
    ///
    /// A limit of which less than a tenth of the day is left is no longer firm.
    #[must_use]
    pub fn left(day: Day<'_>, eaten: &Amounts, of: &str, hold: Hold) -> Self {
        let allowances = Allowances::of(day);
        let eaten = |subject: Subject| eaten.counted(subject, day.pulses).unwrap_or(0.0);
        let most = |what: Measured| {
            hold.part(what, 1.0, of)?;
            // `what is left of today` is too much for each row: there it is `today`.
            let of = of.rsplit(" of ").next().unwrap_or(of).to_owned();
            let all = what.allowed(&allowances)?;
            let left = all - what.subject().map_or(0.0, eaten);
            Some(most(what, left, left, all, of, hold))
        };
        Self {
            energy_kcal: day.energy_kcal - eaten(Subject::ENERGY),
            of: of.to_owned(),
            most: Measured::all().into_iter().filter_map(most).collect(),
            pulses: day.pulses,
        }
    }

    /// Keeps a share (0 to 1) of a day for other meals: of everything that is held to a meal's
    /// share, so much less is left. What is held to the day stays as it is.
    pub(crate) fn keep_for_others(&mut self, day: Day<'_>, share: f64, hold: Hold) {
        let allowances = Allowances::of(day);
        self.energy_kcal -= day.energy_kcal * share;
        for most in self.most.iter_mut().filter(|most| hold.by_meal(most.what)) {
            let all = most.what.allowed(&allowances).unwrap_or_default();
            most.most = (most.most - all * share).max(0.0);
        }
    }

    /// Takes away what was eaten of it already; what is not known of that counts as none.
    pub(crate) fn take(&mut self, eaten: &Amounts) {
        let pulses = self.pulses;
        let eaten = |subject: Subject| eaten.counted(subject, pulses).unwrap_or(0.0);
        self.energy_kcal -= eaten(Subject::ENERGY);
        for most in &mut self.most {
            let eaten = most.what.subject().map_or(0.0, eaten);
            most.most = (most.most - eaten).max(0.0);
            most.day = (most.day - eaten).max(most.most);
        }
    }

    /// The smaller of both for everything: a meal's share, but no more than is left.
    #[must_use]
    pub(crate) fn within(mut self, other: &Self) -> Self {
        if other.energy_kcal < self.energy_kcal {
            self.energy_kcal = other.energy_kcal;
            self.of.clone_from(&other.of);
        }
        for own in &mut self.most {
            let less = other.most.iter().find(|m| m.what == own.what);
            if let Some(less) = less.filter(|less| less.most < own.most) {
                own.clone_from(less);
            }
        }
        self
    }

    /// The same as caps for [`super::fit()`].
    #[must_use]
    pub(crate) fn budget(&self) -> Budget {
        let cap = |m: &Most| Cap {
            name: m.what.label().to_owned(),
            unit: m.what.unit().to_owned(),
            most: m.most,
            kind: match m.what {
                Measured::Limit(_) => CapKind::Limit,
                _ => CapKind::Group,
            },
            firm: m.firm,
            trace: m.trace,
            of: m.of.clone(),
        };
        Budget {
            energy_kcal: self.energy_kcal,
            of: self.of.clone(),
            caps: self.most.iter().map(cap).collect(),
        }
    }
}

fn most(what: Measured, most: f64, left: f64, day: f64, of: String, hold: Hold) -> Most {
    let trace = if what.unit() == "g" { TRACE_G } else { TRACE };
    let firm = match what {
        _ if hold == Hold::Strict => true,
        Measured::Limit(Limit::Sodium) => false,
        Measured::Limit(_) => most >= day * LIMIT_FIRM_FROM,
        _ => true,
    };
    // Group amounts are shown by the tenth, and what reads as the allowance is within it:
    // half a bagel of 2.04 ounce-equivalents is 2.0.
    let by_tenth = matches!(what.unit(), "cup-eq" | "oz-eq");
    let rounding = if by_tenth { ROUNDING } else { 0.0 };
    let most = most.max(trace) + rounding;
    Most {
        what,
        most,
        day: match hold {
            Hold::Strict => most,
            Hold::Usual => most.max(left),
        },
        trace: day * HARDLY,
        of,
        firm,
    }
}
