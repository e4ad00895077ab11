//! The score of one name for one query.

mod bound;
pub(super) mod weight;

pub(super) use bound::{Bound, Goal};

use super::index::{Entry, TermRow};
use super::knowledge::Class;
use super::matcher::Matcher;
use super::query::{MOST_TERMS, Query, QueryTerm};
use super::scratch::{Mark, Marks};

/// Weight from which a word that does not meet is a food of its own.
const SUBSTANTIAL: f32 = 0.35;

/// Weight of a dimension from which its states are special versions of a food.
const UNUSUAL: f32 = 1.2;

/// The same from which it is another food.
const OTHER: f32 = 2.4;

/// Agreement from which two states are taken for one.
pub(super) const ALIKE: f32 = 0.9;

/// What the words that do not meet add up to.
pub(super) struct Sum {
    extra: f32,
    extra_food: f32,
    extra_cut: bool,
    factor: f32,
    dried: bool,
    /// Dimensions of state that the name speaks of, one bit each.
    spoken: u32,
    /// The name is of a dish that is not asked for: its other words are what is in it.
    dish: bool,
    /// 1: its head is asked for as a modifier; 2: the query's head is a modifier in it.
    turned: u8,
}

/// What of the query a name has, and what not.
#[derive(Default)]
struct Missed {
    /// Weight met.
    met: f32,
    /// Weight missed.
    weight: f32,
    /// The heaviest food word missed.
    food: f32,
    /// A word is missed that says which food it is.
    kind: bool,
    cut: bool,
    /// How well the name goes with states that it does not state.
    unstated_credit: f32,
}

/// What is left of a score where name and query contradict each other.
fn contradictions(query: &Query, missed: &Missed, sum: &Sum) -> f32 {
    let swapped = if query.sweet {
        weight::OTHER_FLAVOUR
    } else {
        weight::SWAPPED
    };
    let found = [
        (sum.turned == 3, weight::TURNED),
        (missed.cut && sum.extra_cut, weight::OTHER_CUT),
        (missed.kind, weight::KIND_MISSED),
        (missed.food.min(sum.extra_food) > SUBSTANTIAL, swapped),
        (
            query.dried.is_some_and(|dried| dried != sum.dried),
            weight::DRIED,
        ),
    ];
    let factors = found.iter().filter(|(holds, _)| *holds);
    factors.fold(missed.unstated_credit, |all, (_, factor)| all * factor)
}

impl Matcher<'_, '_> {
    /// The score of one name, without its prior; 0 for one that has no chance to reach its
    /// goal.
    pub(super) fn score(
        &self,
        query: &Query,
        entry: &Entry,
        marks: &Marks,
        goal: &Goal<'_>,
    ) -> f32 {
        let mut credits = [0.0_f32; MOST_TERMS];
        let mut sum = Sum {
            extra: 0.0,
            extra_food: 0.0,
            extra_cut: false,
            factor: 1.0,
            dried: false,
            spoken: 0,
            dish: self.is_other_dish(entry, marks),
            turned: 0,
        };
        for &row in self.index.terms_of(entry) {
            self.compare(query, row, marks, &mut credits, &mut sum);
            if goal
                .bound
                .below(goal.least, goal.most, sum.extra, sum.factor)
            {
                return 0.0;
            }
        }
        let missed = self.missed(query, &credits, &mut sum);
        if missed.met <= 0.0 {
            return 0.0;
        }
        let rest = missed.met + missed.weight + weight::EXTRA * sum.extra;
        missed.met / rest * sum.factor * contradictions(query, &missed, &sum)
    }

    /// Holds what is asked for against the credits that a name has earned.
    fn missed(&self, query: &Query, credits: &[f32; MOST_TERMS], sum: &mut Sum) -> Missed {
        let mut missed = Missed {
            unstated_credit: 1.0,
            ..Missed::default()
        };
        for (asked, credit) in query.terms.iter().zip(credits) {
            let (credit, class) = (*credit, asked.term.class);
            let lacks = credit < weight::HALF_MET;
            missed.met += credit * asked.weight;
            if asked.term.negated {
                if lacks && matches!(class, Class::Food | Class::Product) {
                    missed.weight += asked.weight * weight::NOT_EXCLUDED;
                }
                continue;
            }
            let unstated = if class == Class::State {
                weight::UNSTATED
            } else {
                1.0
            };
            missed.weight += (1.0 - credit) * asked.weight * unstated;
            sum.factor *= missing(asked, credit);
            let dimension = asked.term.state.0;
            if dimension != 0 && sum.spoken & 1 << dimension == 0 && !asked.term.secondary {
                let unstated_credit = self.knowledge.unstated_credit(asked.term.state.1);
                missed.unstated_credit = missed.unstated_credit.min(unstated_credit);
            }
            missed.cut |= class == Class::Cut && lacks;
            if class == Class::Food && lacks {
                missed.food = missed.food.max(asked.weight);
                missed.kind |= !asked.term.head && asked.weight > SUBSTANTIAL;
            }
        }
        missed
    }

    /// Whether the name's head is a product that the query does not speak of.
    fn is_other_dish(&self, entry: &Entry, marks: &Marks) -> bool {
        let Some(head) = entry.head.checked_sub(1) else {
            return false;
        };
        let mark = marks.of(head);
        mark.asked | mark.above == 0
            && self.index.class(head).is_product()
            && self.index.above(head).all(|sort| marks.of(sort).asked == 0)
    }

    /// Takes one term of the name into account.
    fn compare(
        &self,
        query: &Query,
        row: TermRow,
        marks: &Marks,
        credits: &mut [f32; MOST_TERMS],
        sum: &mut Sum,
    ) {
        let word = row.packed.word();
        let mark = marks.of(word);
        if row.packed.negated() {
            raise(credits, mark.excluded, 1.0);
            sum.factor *= without(query, row, mark);
            return;
        }
        if mark.excluded != 0 {
            sum.factor *= weight::EXCLUDED;
            return;
        }
        let class = Class::from_number(row.class);
        // What only the main name says to be in it matters where the query excludes it.
        if row.packed.implied() && class == Class::Food {
            return;
        }
        sum.dried |= (row.dimension, row.value) == self.dried;
        sum.spoken |= u32::from(row.dimension != 0) << row.dimension;
        let within = sum.dish && !row.packed.behind();
        let heads = mark.asked & query.heads;
        if !row.packed.behind() && mark.asked != 0 {
            sum.turned |= if row.packed.head() {
                u8::from(heads == 0)
            } else {
                2 * u8::from(heads != 0)
            };
        }
        if mark.asked != 0 {
            // What only comes along is not what the query is about.
            let along = row.packed.secondary() || row.packed.implied();
            let (heads, less) = match (along, within) {
                (true, _) => (query.heads, weight::HEAD_ALONG),
                (false, true) => (query.heads, weight::WITHIN),
                (false, false) => (0, weight::WITHIN),
            };
            raise(credits, mark.asked & !heads, 1.0);
            raise(credits, mark.asked & heads, less);
            self.broader(query, row, mark, within, credits);
            return;
        }
        let states = query.dimensions & 1 << row.dimension != 0;
        if states && self.state(query, row, credits, sum)
            || self.broader(query, row, mark, within, credits)
            || row.packed.implied()
        {
            return;
        }
        if !self.narrower(row, marks, credits, sum) {
            self.besides(class, row, sum);
        }
    }

    /// A word whose broader word the query asks for, or excludes.
    fn narrower(
        &self,
        row: TermRow,
        marks: &Marks,
        credits: &mut [f32; MOST_TERMS],
        sum: &mut Sum,
    ) -> bool {
        for broader in self.index.above(row.packed.word()) {
            let mark = marks.of(broader);
            if mark.excluded != 0 {
                sum.factor *= weight::EXCLUDED;
                return true;
            }
            if mark.asked != 0 {
                raise(credits, mark.asked, weight::NARROWER);
                sum.extra += row.weight * weight::NARROWER_EXTRA;
                return true;
            }
        }
        false
    }

    /// A word of the name that the query says nothing about.
    fn besides(&self, class: Class, row: TermRow, sum: &mut Sum) {
        // Nobody orders a coating or a diet version without saying so.
        if class == Class::State {
            sum.factor *= match self.knowledge.dimension_weight(row.dimension) {
                weight if weight >= OTHER => weight::OTHER_MAKE,
                weight if weight >= UNUSUAL => weight::UNASKED,
                _ => 1.0,
            };
        }
        sum.extra += row.weight;
        if class == Class::Food {
            sum.extra_food = sum.extra_food.max(row.weight);
        }
        sum.extra_cut |= class == Class::Cut;
        sum.factor *= unasked(class, row);
    }

    /// Compares a state of the name with those asked for; true when it is asked for.
    fn state(
        &self,
        query: &Query,
        row: TermRow,
        credits: &mut [f32; MOST_TERMS],
        sum: &mut Sum,
    ) -> bool {
        let (dimension, value) = (row.dimension, row.value);
        let mut worst: f32 = 1.0;
        for (at, asked) in query.terms.iter().enumerate() {
            if asked.term.state.0 != dimension {
                continue;
            }
            if asked.term.negated {
                if asked.term.state.1 == value {
                    sum.factor *= weight::EXCLUDED;
                }
                continue;
            }
            let agreement = self.knowledge.agreement(asked.term.state.1, value);
            if asked.term.state.1 == value && asked.term.class != Class::Cut {
                credits[at] = credits[at].max(weight::SAME_STATE);
                return true;
            }
            if agreement >= ALIKE {
                credits[at] = credits[at].max(weight::ALIKE_STATE * agreement);
                return true;
            }
            worst = worst.min(agreement);
        }
        sum.factor *= worst;
        false
    }

    /// Credits the terms of which this word of the name is a broader one.
    fn broader(
        &self,
        query: &Query,
        row: TermRow,
        mark: Mark,
        within: bool,
        credits: &mut [f32; MOST_TERMS],
    ) -> bool {
        if mark.above == 0 || row.packed.implied() || row.packed.aside() {
            return false;
        }
        let credit = match (row.packed.general(), self.index.kind_of(row.packed.word())) {
            (true, _) => weight::SIBLING,
            (false, None) => weight::BROADEST,
            (false, Some(_)) => weight::BROADER,
        };
        let credit = if within {
            credit * weight::HEAD_ALONG
        } else {
            credit
        };
        // Jerky is made of beef, and beef is no jerky.
        let made = if Class::from_number(row.class).is_product() {
            0
        } else {
            query.products
        };
        raise(credits, mark.above & !made, credit);
        raise(credits, mark.above & made, credit.min(weight::MADE_OF));
        true
    }
}

/// Whether the query asks for the state that a word says.
fn asks_state(query: &Query, row: TermRow) -> bool {
    let state = (row.dimension, row.value);
    row.dimension != 0
        && query
            .terms
            .iter()
            .any(|asked| asked.term.state == state && !asked.term.negated)
}

/// Gives the terms of a bit set a credit, if it is more than they have.
fn raise(credits: &mut [f32; MOST_TERMS], mut bits: u32, credit: f32) {
    while bits != 0 {
        let at = bits.trailing_zeros() as usize;
        credits[at] = credits[at].max(credit);
        bits &= bits - 1;
    }
}

/// What an asked word costs that the name does not have.
fn missing(asked: &QueryTerm, credit: f32) -> f32 {
    if credit < 1.0 && asked.number {
        return weight::OTHER_NUMBER;
    }
    if credit >= 0.4 || asked.weight <= 0.0 {
        return 1.0;
    }
    let mut factor = match asked.term.class {
        Class::Product => weight::PRODUCT_MISSED,
        Class::Part => weight::PART,
        _ => 1.0,
    };
    if asked.term.secondary || asked.term.aside {
        factor = 1.0 - weight::ALONG * (1.0 - factor);
    }
    if asked.term.head {
        factor * weight::HEAD_MISSED
    } else {
        factor
    }
}

/// What it costs a name that it is without something.
fn without(query: &Query, row: TermRow, mark: Mark) -> f32 {
    if mark.asked | mark.above != 0 || asks_state(query, row) {
        weight::EXCLUDED
    } else if query.excludes && mark.excluded == 0 && !row.packed.implied() {
        weight::OTHER_EXCLUDED
    } else {
        1.0
    }
}

/// What a word of the name costs that is not asked for.
fn unasked(class: Class, row: TermRow) -> f32 {
    if row.weight <= 0.0 {
        return 1.0;
    }
    let mut factor = match class {
        Class::Product => weight::PRODUCT_EXTRA,
        Class::Part => weight::PART,
        _ => 1.0,
    };
    if row.packed.secondary() {
        factor = 1.0 - weight::ALONG * (1.0 - factor);
    }
    match (row.packed.head(), class) {
        (true, Class::Product) => factor * weight::DISH_EXTRA,
        (true, _) => factor * weight::HEAD_EXTRA,
        _ => factor,
    }
}
