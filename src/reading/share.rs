//! Shares of a vessel: `half the plate: fried rice`.

use super::bounds;
use super::error::{ErrorKind, Problem};
use super::number::Reader;
use super::tokens::{Key, Kind};
use super::units::{Size, Unit, VolumeUnit, WeightUnit, unit_word};
use crate::quantity::Range;

/// What food is served on or in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Vessel {
    /// A flat plate.
    Plate,
    /// A large, often oval, plate.
    Platter,
    /// A bowl.
    Bowl,
    /// A cup.
    Cup,
    /// A mug.
    Mug,
    /// A drinking glass.
    Glass,
    /// A tray.
    Tray,
    /// A basket.
    Basket,
    /// A pan or skillet brought to the table.
    Skillet,
    /// A box or clamshell to take away.
    Box,
    /// A paper pail to take away.
    Pail,
    /// A ramekin or a sauce cup.
    Ramekin,
    /// A board.
    Board,
    /// A tub.
    Tub,
    /// A deep dish, as for a casserole.
    Dish,
}

impl Vessel {
    /// Whether food lies on it rather than in it.
    #[must_use]
    pub(crate) fn is_flat(self) -> bool {
        matches!(self, Self::Plate | Self::Platter | Self::Tray | Self::Board)
    }

    /// The plain word.
    #[must_use]
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Plate => "plate",
            Self::Platter => "platter",
            Self::Bowl => "bowl",
            Self::Cup => "cup",
            Self::Mug => "mug",
            Self::Glass => "glass",
            Self::Tray => "tray",
            Self::Basket => "basket",
            Self::Skillet => "skillet",
            Self::Box => "box",
            Self::Pail => "pail",
            Self::Ramekin => "ramekin",
            Self::Board => "board",
            Self::Tub => "tub",
            Self::Dish => "dish",
        }
    }
}

/// The vessel that `word` names.
pub(super) fn vessel_word(word: &str) -> Option<Vessel> {
    let key = Key::of(word)?;
    Some(match key.as_str() {
        "plate" => Vessel::Plate,
        "platter" => Vessel::Platter,
        "bowl" => Vessel::Bowl,
        "cup" => Vessel::Cup,
        "mug" => Vessel::Mug,
        "glass" | "tumbler" => Vessel::Glass,
        "tray" => Vessel::Tray,
        "basket" => Vessel::Basket,
        "skillet" | "pan" => Vessel::Skillet,
        "box" | "clamshell" | "carton" | "container" => Vessel::Box,
        "pail" => Vessel::Pail,
        "ramekin" => Vessel::Ramekin,
        "board" => Vessel::Board,
        "tub" => Vessel::Tub,
        "dish" | "casserole" => Vessel::Dish,
        _ => return None,
    })
}

/// Words for the use of a vessel, before its name.
pub(super) const VESSEL_USES: [&str; 15] = [
    "dinner", "soup", "salad", "side", "dessert", "pasta", "entree", "serving", "main", "noodle",
    "mixing", "deli", "takeout", "cereal", "standard",
];

/// A share of a vessel that a component takes up.
#[derive(Debug, Clone, PartialEq)]
pub struct ShareOf {
    /// Share of the vessel, 0 to 1; `None` for `the rest of the plate`.
    pub fraction: Option<Range>,
    /// The vessel.
    pub vessel: Vessel,
    /// Its diameter in inches, if said.
    pub inches: Option<f64>,
    /// Its capacity in millilitres, if said.
    pub millilitres: Option<f64>,
    /// Its size in words, if said.
    pub size: Option<Size>,
    /// Height of the heap in inches, if said.
    pub heap_inches: Option<f64>,
    /// The words it was read from.
    pub text: String,
}

/// A share, the end of its text, and the position after it.
pub(super) type FoundShare = (ShareOf, usize, usize);

/// How much of a vessel, the position after it, and whether only a share is said so.
struct Part {
    fraction: Option<Range>,
    next: usize,
    certain: bool,
}

/// The stated properties of a vessel.
#[derive(Default)]
pub(super) struct VesselSize {
    pub inches: Option<f64>,
    pub millilitres: Option<f64>,
    pub size: Option<Size>,
}

impl Reader<'_> {
    /// The share of a vessel that begins at `at`.
    pub(super) fn share_at(&self, at: usize) -> Result<Option<FoundShare>, Problem> {
        let Some(part) = self.part(at)? else {
            return Ok(None);
        };
        let of = part.next + usize::from(self.is(part.next, "of"));
        let definite = self.is_any(of, &["the", "my", "this"]);
        let mut next = of + usize::from(definite || self.is_article(of));
        let mut stated = VesselSize::default();
        while let Some(after) = self.vessel_size(next, &mut stated)? {
            next = after;
        }
        let Some(vessel) = self.word(next).and_then(vessel_word) else {
            return Ok(None);
        };
        next += 1;
        let colon = self.is_mark(next, &[':', '=']);
        if !(part.certain || definite || vessel.is_flat() || colon) {
            return Ok(None);
        }
        let mut text_end = next;
        let comma = next + usize::from(self.is_mark(next, &[',']));
        let mut heap_inches = None;
        if let Some((inches, after)) = self.heap_height(comma)? {
            heap_inches = Some(inches);
            text_end = after;
            next = after;
        }
        if self.is_mark(next, &[':', '=', ','])
            || self.is_any(next, &["is", "was", "of", "with"])
            || self.is_dash(next)
        {
            next += 1;
        }
        let share = ShareOf {
            fraction: part.fraction,
            vessel,
            inches: stated.inches,
            millilitres: stated.millilitres,
            size: stated.size,
            heap_inches,
            text: self.slice(at, text_end).to_owned(),
        };
        Ok(Some((share, text_end, next)))
    }

    /// How much of it: `half`, `30%`, `1/4`, `most of`, `the rest of`.
    fn part(&self, at: usize) -> Result<Option<Part>, Problem> {
        let start = at + usize::from(self.is(at, "the"));
        let sure = |fraction, next| {
            Ok(Some(Part {
                fraction,
                next,
                certain: true,
            }))
        };
        if self.is_any(start, &["rest", "remainder"]) {
            return sure(None, start + 1);
        }
        if self.is_any(start, &["all", "whole", "entire"]) {
            return Ok(Some(Part {
                fraction: Some(Range::exact(1.0)),
                next: start + 1,
                certain: false,
            }));
        }
        if self.is(start, "most") {
            return sure(Some(Range::new(0.55, 0.7, 0.9)), start + 1);
        }
        if let Some(Kind::Number(value)) = self.kind(start)
            && (self.is_mark(start + 1, &['%']) || self.is(start + 1, "percent"))
        {
            return self.percent_part(start, value);
        }
        let hedge =
            self.is_any(start, &["about", "around", "roughly"]) || self.is_mark(start, &['~']);
        let start = start + usize::from(hedge);
        let Some((low, next)) = self.figure(start)? else {
            return Ok(None);
        };
        let (high, next) = self.range_end(next)?.unwrap_or((low, next));
        if !(low > 0.0 && low <= high && high < 1.0) {
            return Ok(None);
        }
        let range = Range::new(low, f64::midpoint(low, high), high);
        let range = if hedge {
            Range::new(low * 0.85, range.likely, (high * 1.15).min(1.0))
        } else {
            range
        };
        Ok(Some(Part {
            fraction: Some(range),
            next,
            certain: false,
        }))
    }

    fn percent_part(&self, at: usize, value: f64) -> Result<Option<Part>, Problem> {
        let next = at + 2;
        let of = next + usize::from(self.is(next, "of"));
        let vessel_follows = self.is_any(of, &["the", "my", "this", "a"])
            || self.word(of).and_then(vessel_word).is_some();
        if !vessel_follows {
            return Ok(None);
        }
        if !bounds::SHARE.holds(value / 100.0) {
            let kind = ErrorKind::OutOfBounds {
                figure: value / 100.0,
                bound: &bounds::SHARE,
            };
            return Err(self.problem(kind, at, next));
        }
        Ok(Some(Part {
            fraction: Some(Range::exact(value / 100.0)),
            next,
            certain: true,
        }))
    }

    /// One stated property of a vessel: `12 in`, `32 fl oz`, `large`, `dinner`.
    pub(super) fn vessel_size(
        &self,
        at: usize,
        stated: &mut VesselSize,
    ) -> Result<Option<usize>, Problem> {
        if let Some((size, next)) = self.size(at) {
            stated.size = Some(size);
            return Ok(Some(next));
        }
        if self.is_any(at, &VESSEL_USES) {
            return Ok(Some(at + 1));
        }
        let Some((figure, next)) = self.figure(at)? else {
            return Ok(None);
        };
        let unit_at = next + usize::from(self.is_hyphen(next));
        if let Some((each, after)) = self.length_unit(unit_at) {
            stated.inches = Some(figure * each);
            if !bounds::INCHES.holds(figure * each) {
                let kind = ErrorKind::OutOfBounds {
                    figure: figure * each,
                    bound: &bounds::INCHES,
                };
                return Err(self.problem(kind, at, after));
            }
            return Ok(Some(after));
        }
        let Some((millilitres, after)) = self.capacity(figure, unit_at) else {
            return Ok(None);
        };
        if !bounds::MILLILITRES.holds(millilitres) {
            let kind = ErrorKind::OutOfBounds {
                figure: millilitres,
                bound: &bounds::MILLILITRES,
            };
            return Err(self.problem(kind, at, after));
        }
        stated.millilitres = Some(millilitres);
        Ok(Some(after))
    }

    /// The capacity of a vessel; ounces of a vessel are fluid ounces.
    fn capacity(&self, figure: f64, at: usize) -> Option<(f64, usize)> {
        let (unit, next) = match self.volume_words(at) {
            Some(found) => found,
            None => match unit_word(self.word(at)?)? {
                Unit::Volume(unit) => (unit, self.after_unit(at + 1)),
                Unit::Weight(WeightUnit::Ounce) => {
                    (VolumeUnit::FluidOunce, self.after_unit(at + 1))
                }
                _ => return None,
            },
        };
        let hyphen = usize::from(self.is_hyphen(next));
        Some((figure * unit.millilitres(self.units)?, next + hyphen))
    }

    /// `1 inch high`: inches, and the position after them.
    pub(super) fn heap_height(&self, at: usize) -> Result<Option<(f64, usize)>, Problem> {
        let Some((figure, next)) = self.figure(at)? else {
            return Ok(None);
        };
        let unit_at = next + usize::from(self.is_hyphen(next));
        let Some((each, after)) = self.length_unit(unit_at) else {
            return Ok(None);
        };
        let after = after + usize::from(self.is_hyphen(after));
        if !self.is_any(after, &["high", "deep", "tall", "thick", "heap", "height"]) {
            return Ok(None);
        }
        let inches = figure * each;
        if !bounds::INCHES.holds(inches) {
            let kind = ErrorKind::OutOfBounds {
                figure: inches,
                bound: &bounds::INCHES,
            };
            return Err(self.problem(kind, at, after));
        }
        Ok(Some((inches, after + 1)))
    }

    /// The text of the tokens `from..to`.
    pub(super) fn slice(&self, from: usize, to: usize) -> &str {
        match (
            self.tokens.get(from),
            to.checked_sub(1).and_then(|last| self.tokens.get(last)),
        ) {
            (Some(first), Some(last)) if first.start <= last.end => {
                &self.text[first.start..last.end]
            }
            _ => "",
        }
    }
}
