//! How much of what was served was eaten: `left half`, `ate two thirds`, `split four ways`.

use super::error::Problem;
use super::number::Reader;
use super::scan::{Found, Search, What};
use crate::quantity::Range;

/// What is left or eaten of a plate when it is said in a word (common practice).
const MOST: Range = Range::new(0.65, 0.8, 0.92);
const SOME_LEFT: Range = Range::new(0.6, 0.75, 0.9);

impl Reader<'_> {
    /// The part eaten that is said at `at`, as a factor on whatever else is found.
    pub(super) fn part_eaten(&self, at: usize) -> Search {
        let start = at + usize::from(self.is(at, "only"));
        let found = if self.is_any(start, &["split", "shared"]) {
            self.shared(start)?
        } else if self.is(start, "left") {
            self.left(start)?
        } else if self.is_any(start, &["ate", "eaten", "finished", "had"]) {
            self.ate(start)?
        } else {
            None
        };
        Ok(found.map(|(range, next)| {
            let next = self.of_it(next);
            Found {
                range,
                what: What::Times,
                approximate: !range.is_exact(),
                loose: false,
                each: false,
                from: at,
                text_end: next,
                next,
            }
        }))
    }

    /// `half the chips`, `two thirds of my soup`: a part of what was served.
    pub(super) fn part_of_the(&self, at: usize) -> Search {
        if !(self.is_number(at) || self.word(at).is_some()) {
            return Ok(None);
        }
        let Some((part, next)) = self.figure(at)? else {
            return Ok(None);
        };
        let of = next + usize::from(self.is(next, "of"));
        let named = self.is_any(of, &["the", "my"]) && self.word(of + 1).is_some();
        if !(named && part > 0.0 && part < 1.0) {
            return Ok(None);
        }
        Ok(Some(Found {
            range: Range::exact(part),
            what: What::Times,
            approximate: false,
            loose: false,
            each: false,
            from: at,
            text_end: next,
            next: of + 1,
        }))
    }

    /// `split four ways, my quarter`, `shared between 3`, `split with two others`.
    fn shared(&self, at: usize) -> Result<Option<(Range, usize)>, Problem> {
        let by = at + 1 + usize::from(self.is_any(at + 1, &["it", "them"]));
        let with = self.is(by, "with");
        let among = with || self.is_any(by, &["between", "among", "by", "for"]);
        let Some((people, next)) = self.figure(by + usize::from(among))? else {
            return Ok(None);
        };
        let ways = self.is_any(next, &["ways", "way"]);
        if !(ways || among) || !(1.0..=20.0).contains(&people) {
            return Ok(None);
        }
        let others = self.is_any(
            next,
            &["others", "other", "friends", "people", "persons", "of"],
        );
        let mut next = next + usize::from(ways || others);
        if self.is(next - 1, "of") {
            next += usize::from(self.is_any(next, &["us", "them"]));
        }
        // `my quarter` says it again.
        let own = next + usize::from(self.is_mark(next, &[',']));
        if self.is_any(own, &["my", "mine"]) {
            let again =
                self.part_word(own + 1).is_some() || self.is_any(own + 1, &["share", "part"]);
            next = own + 1 + usize::from(again);
        }
        let parts = people + f64::from(u8::from(with));
        Ok((parts >= 1.0).then(|| (Range::exact(1.0 / parts), next)))
    }

    /// `left half`, `left a third`, `left some`, `left a few bites`.
    fn left(&self, at: usize) -> Result<Option<(Range, usize)>, Problem> {
        let start = at + 1 + usize::from(self.is_any(at + 1, &["about", "around", "over"]));
        if self.is_any(start, &["some", "a"])
            && self.is_any(start + 1, &["of", "little", "bit", "few"])
            || self.is(start, "some")
        {
            let bites =
                (start..start + 4).find(|at| self.is_any(*at, &["bites", "bit", "little", "some"]));
            return Ok(bites.map(|last| (SOME_LEFT, last + 1)));
        }
        if self.is(start, "most") {
            let left = Range::new(1.0 - MOST.high, 1.0 - MOST.likely, 1.0 - MOST.low);
            return Ok(Some((left, start + 1)));
        }
        let part = self.share_of_it(start)?;
        Ok(part.map(|(part, next)| (Range::exact(1.0 - part), next)))
    }

    /// `ate two thirds`, `only ate half`, `ate most`.
    fn ate(&self, at: usize) -> Result<Option<(Range, usize)>, Problem> {
        let start = at + 1 + usize::from(self.is_any(at + 1, &["only", "just"]));
        let hedge = self.is_any(start, &["about", "around", "maybe", "roughly"]);
        let start = start + usize::from(hedge);
        if self.is(start, "most") {
            return Ok(Some((MOST, start + 1)));
        }
        if self.is_any(start, &["all", "everything"]) {
            return Ok(Some((Range::exact(1.0), start + 1)));
        }
        let part = self.share_of_it(start)?;
        Ok(part.map(|(part, next)| {
            let range = if hedge {
                Range::new(part * 0.85, part, (part * 1.15).min(1.0))
            } else {
                Range::exact(part)
            };
            (range, next)
        }))
    }

    /// A part below one, or per cent, of what was served.
    fn share_of_it(&self, at: usize) -> Result<Option<(f64, usize)>, Problem> {
        let Some((value, next)) = self.figure(at)? else {
            return Ok(None);
        };
        let percent = self.is_mark(next, &['%']) || self.is(next, "percent");
        let (part, next) = if percent {
            (value / 100.0, next + 1)
        } else {
            (value, next)
        };
        let whole = self.ends_segment(next)
            || self.is(next, "of")
                && self.is_any(
                    next + 1,
                    &["it", "them", "that", "this", "mine", "the", "my"],
                );
        Ok((part > 0.0 && part < 1.0 && whole).then_some((part, next)))
    }

    /// Past `of it`, `on the plate`.
    fn of_it(&self, at: usize) -> usize {
        if self.is(at, "of") && self.is_any(at + 1, &["it", "them", "that", "this", "mine"]) {
            return at + 2;
        }
        if self.is_any(at, &["on", "over"])
            && self.is_any(at + 1, &["the", "my"])
            && self.is_any(at + 2, &["plate", "side"])
        {
            return at + 3;
        }
        at + usize::from(self.is_any(at, &["over", "uneaten"]) && self.ends_segment(at + 1))
    }
}
