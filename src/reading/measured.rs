//! Weights, volumes and loose measures after a number, and what may follow them.

use super::error::{ErrorKind, Problem};
use super::loose::{Loose, LooseSize, loose_word};
use super::number::{Number, Reader};
use super::pieces::{Role, piece_word};
use super::scan::{ABOUT, AT_LEAST, Found, What, product};
use super::units::{Size, Unit, VolumeUnit, WeightUnit, unit_word};
use crate::quantity::Range;

/// A measure after a number.
pub(super) struct Measured {
    pub what: What,
    /// One unit, in grams, millilitres or pieces.
    pub one: Range,
    pub loose: bool,
    pub next: usize,
    pub text_end: usize,
}

impl Reader<'_> {
    /// The unit of weight or volume, or the loose measure, at `at`.
    pub(super) fn measured(
        &self,
        at: usize,
        size: Option<Size>,
        article: bool,
    ) -> Option<Measured> {
        let word = self.word(at)?;
        if let Some((unit, next)) = self.volume_words(at) {
            return self.volume(unit, next);
        }
        if let Some((object, next)) = self.object(at) {
            return Some(loose_measure(object, size, next));
        }
        if let Some(loose) = loose_word(word) {
            return Some(loose_measure(loose, size, at + 1));
        }
        // `T-bone` is no tablespoon; `170g-200g` are grams.
        let compound = self.is_hyphen(at + 1) && !self.is_number(at + 2);
        let lone_letter = word.len() == 1 && (article || compound);
        match unit_word(word) {
            Some(Unit::Weight(unit)) if !(lone_letter || self.names_a_cake(at)) => Some(Measured {
                what: What::Weight(Some(unit)),
                one: Range::exact(unit.grams()),
                loose: false,
                next: self.after_unit(at + 1),
                text_end: self.after_unit(at + 1),
            }),
            Some(Unit::Volume(unit))
                if !(lone_letter || unit == VolumeUnit::Cup && size.is_some()) =>
            {
                self.volume(unit, self.after_unit(at + 1))
            }
            _ => None,
        }
    }

    /// A pound cake is named by the pound, not weighed by it.
    fn names_a_cake(&self, at: usize) -> bool {
        self.is(at, "pound") && self.is_any(at + 1, &["cake", "cakes"])
    }

    /// Units of more than one word: `fl oz`, `fluid ounces`, `imperial pint`, `No. 8 scoop`
    /// is handled apart.
    pub(super) fn volume_words(&self, at: usize) -> Option<(VolumeUnit, usize)> {
        let imperial = self.is_any(at, &["imperial", "uk", "british"]);
        let start = at + usize::from(imperial);
        if imperial && self.is_any(start, &["pint", "pints"]) {
            return Some((VolumeUnit::ImperialPint, start + 1));
        }
        if !self.is_any(start, &["fl", "fluid"]) {
            return None;
        }
        let mut ounce = start + 1;
        if self.is_mark(ounce, &['.', '-']) {
            ounce += 1;
        }
        let unit = match self.word(ounce).and_then(unit_word) {
            Some(Unit::Weight(WeightUnit::Ounce)) if imperial => VolumeUnit::ImperialFluidOunce,
            Some(Unit::Weight(WeightUnit::Ounce)) => VolumeUnit::FluidOunce,
            _ => return None,
        };
        Some((unit, self.after_unit(ounce + 1)))
    }

    pub(super) fn volume(&self, unit: VolumeUnit, next: usize) -> Option<Measured> {
        let one = unit.millilitres(self.units)?;
        Some(Measured {
            what: What::Volume(unit),
            one: Range::exact(one),
            loose: false,
            next,
            text_end: next,
        })
    }

    /// Past the point of an abbreviation: `oz.`
    pub(super) fn after_unit(&self, at: usize) -> usize {
        at + usize::from(self.is_mark(at, &['.']) && self.glued(at))
    }

    /// The number and its measure, with what may follow: ranges, sums, ware, `each`.
    pub(super) fn with_measure(
        &self,
        from: usize,
        number: Number,
        measured: &Measured,
        factor: Option<Range>,
    ) -> Result<Found, Problem> {
        let mut range = product(number.range, measured.one);
        if let Some(factor) = factor {
            range = product(range, factor);
        }
        let mut found = Found {
            range,
            what: measured.what,
            approximate: measured.loose || number.vague || factor.is_some_and(|by| !by.is_exact()),
            loose: measured.loose,
            each: false,
            from,
            text_end: measured.text_end,
            next: measured.next,
        };
        if !found.loose {
            self.range_with_units(&mut found)?;
            self.and_a_part(&mut found, measured.one.likely)?;
            self.sum(&mut found)?;
            self.ware(&mut found);
        }
        self.tail(&mut found);
        Ok(found)
    }

    /// `1 cup to 2 cups`, `170g-200g`.
    pub(super) fn range_with_units(&self, found: &mut Found) -> Result<(), Problem> {
        if !found.range.is_exact() {
            return Ok(());
        }
        let Some((high, next)) = self.range_end(found.next)? else {
            return Ok(());
        };
        let Some(measured) = self.measured(next, None, false) else {
            return Ok(());
        };
        if measured.loose || !same_kind(found.what, measured.what) {
            return Ok(());
        }
        let low = found.range.low;
        let high = high * measured.one.likely;
        if high < low {
            return Err(self.problem(ErrorKind::RangeBackwards, found.from, measured.next));
        }
        found.range = Range::new(low, f64::midpoint(low, high), high);
        found.text_end = measured.text_end;
        found.next = measured.next;
        Ok(())
    }

    /// `a cup and a half`, `1 pound and 1/2`.
    pub(super) fn and_a_part(&self, found: &mut Found, one: f64) -> Result<(), Problem> {
        if !self.is(found.next, "and") {
            return Ok(());
        }
        let at = found.next + 1;
        let Some((part, next)) = self.figure(at)? else {
            return Ok(());
        };
        let stated = self.is_number(at) || self.is_article(at) && self.part_word(at + 1).is_some();
        let own_measure = self.measured(next, None, false).is_some()
            || self.is_article(next)
            || self.is(next, "of") && self.is_article(next + 1);
        if part < 1.0 && stated && !own_measure {
            found.range = added(found.range, one * part);
            found.text_end = next;
            found.next = next;
        }
        Ok(())
    }

    /// `1 lb 4 oz`, `1 cup plus 2 tbsp`.
    pub(super) fn sum(&self, found: &mut Found) -> Result<(), Problem> {
        let joint =
            self.is_any(found.next, &["plus", "and"]) || self.is_mark(found.next, &['+', '&']);
        let at = found.next + usize::from(joint);
        let pounds = found.what == What::Weight(Some(WeightUnit::Pound));
        if !(joint || pounds) {
            return Ok(());
        }
        let Some((figure, next)) = self.figure(at)? else {
            return Ok(());
        };
        let Some(measured) = self.measured(next, None, false) else {
            return Ok(());
        };
        let smaller = measured.one.likely * figure < found.range.likely;
        if measured.loose || !smaller || !same_kind(found.what, measured.what) {
            return Ok(());
        }
        let more = measured.one.likely * figure;
        found.range = added(found.range, more);
        found.text_end = measured.text_end;
        found.next = measured.next;
        Ok(())
    }

    /// `12 oz can of`, `8 oz glass`: ware after a measure is part of it, and an ounce in a
    /// drinking vessel or a bowl is a fluid ounce.
    pub(super) fn ware(&self, found: &mut Found) {
        let at = found.next + usize::from(self.is_hyphen(found.next));
        let fluid = self.is_any(
            at,
            &[
                "glass", "mug", "cup", "bowl", "bottle", "pint", "ladle", "ramekin",
            ],
        );
        let ware = self.word(at).and_then(piece_word);
        let ware = ware.is_some_and(|piece| matches!(piece.role, Role::Ware | Role::Measure));
        if !(ware || fluid) {
            return;
        }
        let follows = at + 1;
        if self.word(follows).is_none() && !self.ends_segment(follows) {
            return;
        }
        if fluid {
            self.as_fluid(found);
        }
        found.text_end = follows;
        found.next = follows;
    }

    /// Ounces as fluid ounces.
    pub(super) fn as_fluid(&self, found: &mut Found) {
        let unit = VolumeUnit::FluidOunce;
        if found.what == What::Weight(Some(WeightUnit::Ounce))
            && let Some(one) = unit.millilitres(self.units)
        {
            found.range = found.range.times(one / WeightUnit::Ounce.grams());
            found.what = What::Volume(unit);
        }
    }

    /// `each`, `or so`, `-ish`, `of`.
    pub(super) fn tail(&self, found: &mut Found) {
        if self.is_any(found.next, &["each", "apiece", "ea"]) {
            found.each = true;
            found.next = self.after_unit(found.next + 1);
            found.text_end = found.next;
        }
        if self.is_mark(found.next, &['+']) && self.glued(found.next) && found.is_measured() {
            found.next += 1;
            found.text_end = found.next;
            found.range = product(found.range, AT_LEAST);
            found.approximate = true;
        }
        let ish = found.next + usize::from(self.is_hyphen(found.next));
        let length = if self.is(found.next, "or") && self.is(found.next + 1, "so") {
            2
        } else {
            usize::from(self.is(ish, "ish")) * (ish + 1 - found.next)
        };
        if length > 0 {
            found.next += length;
            found.text_end = found.next;
            found.range = product(found.range, ABOUT);
            found.approximate = true;
        }
        found.next = self.skip_of(found.next);
    }

    /// Past `of`, `of the`.
    pub(super) fn skip_of(&self, at: usize) -> usize {
        if !self.is(at, "of") {
            return at;
        }
        at + 1 + usize::from(self.is_any(at + 1, &["the", "my"]))
    }
}

/// What is as large as `object`.
pub(super) fn likened_to(object: &Loose, next: usize) -> Measured {
    loose_measure(object, None, next)
}

fn loose_measure(loose: &Loose, size: Option<Size>, next: usize) -> Measured {
    let (what, one) = match loose.size {
        LooseSize::Millilitres(range, unit) => (What::Volume(unit), range),
        LooseSize::Grams(range) => (What::Weight(None), range),
    };
    let factor = match size {
        Some(Size::Mini | Size::Thin | Size::Small) => 0.7,
        Some(Size::Large | Size::Thick | Size::ExtraLarge) => 1.4,
        Some(Size::Medium) | None => 1.0,
    };
    Measured {
        what,
        one: one.times(factor),
        loose: true,
        next,
        text_end: next,
    }
}

fn added(range: Range, more: f64) -> Range {
    Range::new(range.low + more, range.likely + more, range.high + more)
}

fn same_kind(one: What, other: What) -> bool {
    matches!(
        (one, other),
        (What::Weight(_), What::Weight(_)) | (What::Volume(_), What::Volume(_))
    )
}
