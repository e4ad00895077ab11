//! How far the foods of a drawing reach, for those who do not see it: what an eye would compare
//! with the fork, and no measure of the kitchen.

use super::body::area;
use super::figure::laid;
use super::picture::Picture;

/// What one food covers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Extent {
    /// The food, by its place in the picture.
    pub food: usize,
    /// From its left end to its right, cm.
    pub wide_cm: f64,
    /// Part of all that is seen of the foods, 0 to 1.
    pub share: f64,
}

/// The extents of a picture, and the width of its plate in cm, where it lies on one.
#[must_use]
pub(crate) fn extents(picture: &Picture) -> (Vec<Extent>, Option<f64>) {
    let laid = laid(&[picture]);
    let Some(scene) = laid.first().map(|l| &l.scene) else {
        return (Vec::new(), None);
    };
    let all: f64 = picture.foods.iter().map(area).sum();
    let of = |food: usize| {
        let parts = scene.parts.iter().filter(|part| part.food == Some(food));
        let ends = parts.map(|part| part.sketch.bounds());
        let (left, right) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |ends, bounds| {
            (ends.0.min(bounds.0), ends.1.max(bounds.2))
        });
        (right > left).then(|| Extent {
            food,
            wide_cm: right - left,
            share: area(&picture.foods[food]) / all,
        })
    };
    let extents = (0..picture.foods.len()).filter_map(of).collect();
    (extents, scene.plate_cm)
}
