//! A bowl cut through the middle: shows what the view from above cannot, the depth.

use super::Laid;
use super::picture::Vessel;
use super::vessel::{BowlShape, Fill, short};
use std::fmt::Write as _;

/// Steps along the wall of the bowl.
const STEPS: usize = 24;

/// A section drawn with its brim on the line y = 0, centred on x = 0.
pub(super) struct Section {
    /// SVG elements.
    pub svg: String,
    /// Space needed above the brim line.
    pub above: f64,
    /// Space needed below it.
    pub below: f64,
    /// Depth and filling in words.
    pub words: String,
}

/// The section of a bowl at `scale` units a cm; `None` for a plate.
pub(super) fn section(laid: &Laid<'_>, scale: f64) -> Option<Section> {
    let Vessel::Bowl {
        diameter_cm,
        depth_cm,
        capacity_ml,
    } = laid.setting.vessel
    else {
        return None;
    };
    let fill = laid.setting.fill?;
    let bowl = BowlShape::new(diameter_cm, depth_cm, capacity_ml);
    let high = bowl.fill(laid.picture.high_ml());
    let wall = |upto: f64| {
        // Half the outline, bottom to edge, mirrored to the other side.
        let half: Vec<(f64, f64)> = (0..=STEPS)
            .map(|i| {
                // Squared steps set points closely where the bottom curves most.
                let height = upto * (i as f64 / STEPS as f64).powi(2);
                (bowl.radius_at(height) * scale, (depth_cm - height) * scale)
            })
            .collect();
        let left = half.iter().rev().map(|(x, y)| (-x, *y));
        let mut path = String::new();
        for (i, (x, y)) in left.chain(half.iter().copied()).enumerate() {
            let _ = write!(path, "{}{x:.2} {y:.2}", if i == 0 { 'M' } else { 'L' });
        }
        path
    };
    let mut svg = String::new();
    let level = |f: Fill| (depth_cm - f.height_cm) * scale;
    let _ = write!(
        svg,
        r#"<path d="{}{}Z" fill="currentColor" fill-opacity=".14" stroke="none"/>"#,
        wall(fill.height_cm),
        heap(fill, level(fill), scale)
    );
    let _ = write!(
        svg,
        r#"<path d="{}" fill="none" stroke="currentColor" stroke-width=".7"/>"#,
        wall(depth_cm)
    );
    let _ = write!(
        svg,
        r#"<path d="M{x:.2} {y:.2}{}" fill="none" stroke="currentColor" stroke-width=".4"/>"#,
        heap(fill, level(fill), scale),
        x = fill.radius_cm * scale,
        y = level(fill),
    );
    if laid.picture.high_ml() > laid.picture.likely_ml() * 1.02 {
        let _ = write!(
            svg,
            r#"<path d="M{x:.2} {y:.2}{}" fill="none" stroke="currentColor" stroke-width=".35" stroke-dasharray="1.4 1"/>"#,
            heap(high, level(high), scale),
            x = high.radius_cm * scale,
            y = level(high),
        );
    }
    Some(Section {
        svg,
        above: fill.heap_cm.max(high.heap_cm) * scale + 0.5,
        below: depth_cm * scale + 0.5,
        words: format!(
            "From the side: {} cm deep, filled to about {} cm",
            short(depth_cm),
            short(fill.height_cm)
        ),
    })
}

/// The food's top from the right edge to the left: level, or a dome.
fn heap(fill: Fill, level: f64, scale: f64) -> String {
    let x = fill.radius_cm * scale;
    if fill.heap_cm < 0.05 {
        return format!("L{:.2} {level:.2}", -x);
    }
    // A quadratic curve's top lies half way to its control point.
    let control = (fill.heap_cm * 2.0).mul_add(-scale, level);
    format!("Q0 {control:.2} {:.2} {level:.2}", -x)
}
