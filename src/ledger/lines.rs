//! The ledger: one line a limit or food group, with its amount, allowance, share and verdict.
//! Every command, page and file holds a dish, a meal, a day or a menu item in this form.

use super::subject::SUBJECTS;
use super::{
    Allowance, Allowances, Amounts, EnergyNutrient, Group, Limit, PulsesAs, Subject, Verdict,
    verdict,
};
use crate::quantity::{Estimate, Range, Term, sum};
use std::sync::Arc;

/// One line of a [`Ledger`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LedgerLine {
    /// The limit or group.
    pub subject: Subject,
    /// How much there is, in the subject's unit, beans, peas and lentils in their own group
    /// only; nothing when a component's figure is not published.
    pub amount: Option<Estimate>,
    /// What share and verdict count: the amount, with beans, peas and lentils where they are
    /// to count.
    pub counted: Option<Estimate>,
    /// Whether the line takes beans, peas and lentils in.
    pub takes_pulses: bool,
    /// What the day allows, in the subject's unit; nothing when the standard names none.
    pub allowance: Option<Allowance>,
    /// One portion of the standard, in the subject's unit; 1 for limits.
    pub portion: f64,
}

impl LedgerLine {
    /// The likely amount that counts, in the subject's unit.
    #[must_use]
    pub fn likely(&self) -> Option<f64> {
        self.counted.map(|counted| counted.mean)
    }

    /// The amount that counts with its 80 % range, in the subject's unit.
    #[must_use]
    pub fn range(&self) -> Option<Range> {
        self.counted.map(Estimate::range)
    }

    /// The likely amount that counts, in portions of the standard.
    #[must_use]
    pub fn portions(&self) -> Option<f64> {
        self.likely().map(|likely| likely / self.portion)
    }

    /// What the day allows, in the subject's unit.
    #[must_use]
    pub fn allowed(&self) -> Option<f64> {
        self.allowance.map(|allowed| allowed.amount)
    }

    /// What the day allows, in portions of the standard.
    #[must_use]
    pub fn allowed_portions(&self) -> Option<f64> {
        self.allowed().map(|allowed| allowed / self.portion)
    }

    /// The likely part of the day's allowance, 1 being all of it; nothing without an
    /// allowance above 0.
    #[must_use]
    pub fn share(&self) -> Option<f64> {
        self.share_of(self.likely()?)
    }

    /// The part of the day's allowance that another amount of the same would be.
    #[must_use]
    pub fn share_of(&self, amount: f64) -> Option<f64> {
        let allowed = self.allowed().filter(|allowed| *allowed > 0.0)?;
        Some(amount / allowed)
    }

    /// The part of the day's allowance with its 80 % range.
    #[must_use]
    pub fn share_range(&self) -> Option<Range> {
        Some(self.range()?.times(self.share_of(1.0)?))
    }

    /// What the share means.
    #[must_use]
    pub fn verdict(&self) -> Option<Verdict> {
        Some(verdict(self.subject.kind(), self.share()?))
    }

    /// Whether it is a limit that is passed.
    #[must_use]
    pub fn is_beyond(&self) -> bool {
        self.verdict() == Some(Verdict::Beyond)
    }

    /// Whether there is any of it, to a reader's eye.
    #[must_use]
    pub fn is_there(&self) -> bool {
        self.range().is_none_or(|counted| counted.high > 0.005)
    }

    /// Whether beans, peas and lentils make a difference to this line.
    #[must_use]
    pub fn has_pulses(&self) -> bool {
        let both = self.counted.zip(self.amount);
        both.is_some_and(|(counted, own)| counted.mean - own.mean > 0.005)
    }

    /// How much of the subject's unit a cup-equivalent of beans, peas and lentils counts for
    /// in this line; 0 where it does not take them in.
    #[must_use]
    pub fn pulses_per_cup(&self) -> f64 {
        let counts = [PulsesAs::Vegetables, PulsesAs::ProteinFoods];
        let per_cup = counts.map(|pulses| pulses.per_cup(self.subject));
        if self.takes_pulses {
            per_cup.into_iter().sum()
        } else {
            0.0
        }
    }

    /// What is left of the day, in the subject's unit, below 0 when it is passed. The low end
    /// belongs to the high end of the amount.
    #[must_use]
    pub fn left(&self) -> Option<Range> {
        let (allowed, used) = (self.allowed()?, self.range()?);
        Some(Range::new(
            allowed - used.high,
            allowed - used.likely,
            allowed - used.low,
        ))
    }
}

/// How much there is of every limit and food group, against what a day allows.
#[derive(Debug, Clone, PartialEq)]
pub struct Ledger {
    grams: Estimate,
    amounts: [Option<Estimate>; SUBJECTS],
    with_pulses: Option<Estimate>,
    allowances: Arc<Allowances>,
}

/// The doubts of a food's weight and what a gram of it holds.
pub(crate) type Holding = (Term, Amounts);

impl Ledger {
    /// A ledger of which nothing is known: no line has an amount.
    pub(crate) fn unknown(allowances: &Arc<Allowances>) -> Self {
        Self {
            grams: Estimate::exact(0.0),
            amounts: [None; SUBJECTS],
            with_pulses: None,
            allowances: Arc::clone(allowances),
        }
    }

    /// Adds up components, each with its weight and what a gram of it holds.
    pub(crate) fn of(parts: &[Holding], allowances: &Arc<Allowances>) -> Self {
        // What the whole weighs does not depend on which foods it is made of.
        let grams = parts.iter().map(|(weight, _)| (weight.plain(), 1.0));
        let mut amounts = [None; SUBJECTS];
        for subject in Subject::all() {
            amounts[subject.at()] = total(parts, |held| held.get(subject));
        }
        let taker = allowances.takes_pulses();
        let pulses = allowances.pulses();
        let with_pulses =
            if amounts[Subject::Group(Group::Pulses).at()] == Some(Estimate::default()) {
                amounts[Subject::Group(taker).at()]
            } else {
                total(parts, |held| held.counted(taker, pulses))
            };
        Self {
            grams: sum(grams),
            amounts,
            with_pulses,
            allowances: Arc::clone(allowances),
        }
    }

    /// A ledger of amounts that were added up elsewhere, such as those of a day's entries;
    /// `counted` is that of the group in whose share beans, peas and lentils count.
    pub(crate) fn of_amounts(
        grams: Estimate,
        amount: impl Fn(Subject) -> Option<Estimate>,
        counted: impl FnOnce(Subject) -> Option<Estimate>,
        allowances: &Arc<Allowances>,
    ) -> Self {
        let mut amounts = [None; SUBJECTS];
        for subject in Subject::all() {
            amounts[subject.at()] = amount(subject);
        }
        Self {
            grams,
            amounts,
            with_pulses: counted(allowances.takes_pulses().into()),
            allowances: Arc::clone(allowances),
        }
    }

    /// A day of which nothing is used.
    pub(crate) fn unused(allowances: &Arc<Allowances>) -> Self {
        let nothing = |_| Some(Estimate::default());
        Self::of_amounts(Estimate::default(), nothing, nothing, allowances)
    }

    /// Edible grams, of the components that have a weight.
    #[must_use]
    pub fn grams(&self) -> Range {
        self.grams.range()
    }

    /// What a day allows.
    pub(crate) fn allowances(&self) -> &Allowances {
        &self.allowances
    }

    /// The line of a subject.
    #[must_use]
    pub fn line(&self, subject: impl Into<Subject>) -> LedgerLine {
        let subject = subject.into();
        let amount = self.amounts[subject.at()];
        let takes_pulses = subject == Subject::Group(self.allowances.takes_pulses());
        LedgerLine {
            subject,
            amount,
            counted: if takes_pulses {
                self.with_pulses
            } else {
                amount
            },
            takes_pulses,
            allowance: self.allowances.get(subject),
            portion: self.allowances.portion(subject),
        }
    }

    /// The lines that a day is judged by: limits, then food groups.
    #[must_use]
    pub fn lines(&self) -> impl DoubleEndedIterator<Item = LedgerLine> + Clone + '_ {
        let limits = Limit::ALL.iter().map(|limit| self.line(*limit));
        limits.chain(Group::ALL.iter().map(|group| self.line(*group)))
    }

    /// The lines of the energy nutrients, grams: protein, carbohydrate, fat, fibre. Only
    /// protein has an allowance, where the person has a target.
    pub fn nutrients(&self) -> impl Iterator<Item = LedgerLine> + '_ {
        EnergyNutrient::ALL
            .iter()
            .map(|nutrient| self.line(*nutrient))
    }

    /// The lines whose subject the day allows some of: those that have a share.
    pub fn allowed(&self) -> impl Iterator<Item = LedgerLine> + '_ {
        self.lines()
            .filter(|line| line.allowed().is_some_and(|allowed| allowed > 0.0))
    }

    /// The lines of the limits.
    pub fn limits(&self) -> impl Iterator<Item = LedgerLine> + '_ {
        Limit::ALL.iter().map(|limit| self.line(*limit))
    }

    /// The lines of the food groups.
    pub fn groups(&self) -> impl Iterator<Item = LedgerLine> + '_ {
        Group::ALL.iter().map(|group| self.line(*group))
    }

    /// Energy, kcal; nothing when a component's figure is not published.
    #[must_use]
    pub fn energy(&self) -> Option<Range> {
        self.line(Limit::Energy).range()
    }

    /// The limits that are passed, in their order.
    pub fn over(&self) -> impl Iterator<Item = Limit> + '_ {
        let passed = |limit: &Limit| self.line(*limit).is_beyond();
        Limit::ALL.iter().copied().filter(passed)
    }
}

/// The lines that have a share, largest first, the first of equals first.
pub(crate) fn by_share(lines: impl Iterator<Item = LedgerLine>) -> Vec<LedgerLine> {
    let mut lines: Vec<LedgerLine> = lines.filter(|l| l.share().is_some()).collect();
    lines.sort_by(|a, b| {
        b.share()
            .partial_cmp(&a.share())
            .unwrap_or(std::cmp::Ordering::Equal)
    });
    lines
}

/// The sum of what all parts hold; nothing when a part's figure is missing.
fn total(parts: &[Holding], per_gram: impl Fn(&Amounts) -> Option<f64>) -> Option<Estimate> {
    let mut any = false;
    for (_, held) in parts {
        any |= per_gram(held)? > 0.0;
    }
    if !any {
        return Some(Estimate::default());
    }
    let held = |(weight, held): &Holding| (*weight, per_gram(held).unwrap_or(0.0));
    Some(sum(parts.iter().map(held)))
}
