//! The drawing read back from its SVG: areas, overlaps, labels, hostile text, sameness.

use super::lettering::width_em;
use super::{Patch, Picture, Style, Texture, Vessel, VesselBasis, figures, sheet};
use crate::quantity::Range;
use proptest::prelude::*;
use roxmltree::{Document, Node};
use std::collections::HashSet;

type Corner = (f64, f64);

fn patch(label: &str, texture: Texture, likely: f64, depth: f64) -> Patch {
    Patch {
        label: label.to_owned(),
        size_words: "about 2 cups".to_owned(),
        texture,
        volume_ml: Range::new(likely * 0.75, likely, likely * 1.3),
        mean_depth_cm: depth,
        beyond_day: false,
    }
}

fn plate() -> Vessel {
    Vessel::Plate {
        diameter_cm: 26.5,
        rim_cm: 3.0,
    }
}

fn bowl() -> Vessel {
    Vessel::Bowl {
        diameter_cm: 18.0,
        depth_cm: 7.0,
        capacity_ml: 1000.0,
    }
}

fn picture(vessel: Vessel, patches: Vec<Patch>) -> Picture {
    Picture {
        title: "A dish".to_owned(),
        vessel,
        basis: VesselBasis::Typical,
        patches,
    }
}

fn supper(vessel: Vessel) -> Picture {
    picture(
        vessel,
        vec![
            patch("Rice", Texture::Grains, 400.0, 2.5),
            patch("Chicken breast, grilled", Texture::ProteinFoods, 170.0, 2.0),
            patch("Broccoli", Texture::Vegetables, 120.0, 3.0),
            patch("Butter", Texture::Oils, 14.0, 0.8),
        ],
    )
}

fn attribute(node: Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name).unwrap().parse().unwrap()
}

/// The drawn piles: index of the patch, depth in cm, outline in cm.
fn piles(svg: &str) -> Vec<(usize, f64, Vec<Corner>)> {
    let document = Document::parse(svg).unwrap();
    let scale = attribute(document.root_element(), "data-units-per-cm");
    let drawn = document
        .descendants()
        .filter(|n| n.has_attribute("data-patch"));
    drawn
        .map(|node| {
            let d = node.attribute("d").unwrap().trim_end_matches('Z');
            let corners = d[1..].split('L').map(|pair| {
                let (x, y) = pair.split_once(' ').unwrap();
                (
                    x.parse::<f64>().unwrap() / scale,
                    y.parse::<f64>().unwrap() / scale,
                )
            });
            let index = node.attribute("data-patch").unwrap().parse().unwrap();
            (index, attribute(node, "data-depth-cm"), corners.collect())
        })
        .collect()
}

/// Sum of the `translate`s that a node stands under.
fn moved(node: Node<'_, '_>) -> Corner {
    let moves = node.ancestors().filter_map(|n| n.attribute("transform"));
    moves.fold((0.0, 0.0), |sum, transform| {
        let pair = transform
            .strip_prefix("translate(")
            .unwrap()
            .trim_end_matches(')');
        let (x, y) = pair.split_once(' ').unwrap();
        (
            sum.0 + x.parse::<f64>().unwrap(),
            sum.1 + y.parse::<f64>().unwrap(),
        )
    })
}

fn area(corners: &[Corner]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    let twice: f64 = corners
        .iter()
        .zip(next)
        .map(|(a, b)| a.0 * b.1 - b.0 * a.1)
        .sum();
    twice.abs() / 2.0
}

/// Whether two convex outlines share more than a hair: no edge of either parts them.
fn overlap(one: &[Corner], other: &[Corner]) -> bool {
    let parts = |a: &[Corner], b: &[Corner]| {
        let centre = a.iter().fold((0.0, 0.0), |s, p| {
            (s.0 + p.0 / a.len() as f64, s.1 + p.1 / a.len() as f64)
        });
        a.iter().zip(a.iter().cycle().skip(1)).any(|(p, q)| {
            let length = (q.0 - p.0).hypot(q.1 - p.1);
            let height =
                |c: &Corner| ((q.0 - p.0) * (c.1 - p.1) - (q.1 - p.1) * (c.0 - p.0)) / length;
            let inside = height(&centre).signum();
            length > 1e-6 && b.iter().all(|c| height(c) * inside < 0.02)
        })
    };
    !parts(one, other) && !parts(other, one)
}

/// Boxes of all lines of text, by the drawing's own reckoning of widths: left, top, right, bottom.
fn text_boxes(svg: &str) -> Vec<(f64, f64, f64, f64)> {
    let document = Document::parse(svg).unwrap();
    let texts = document.descendants().filter(|n| n.has_tag_name("text"));
    texts
        .map(|node| {
            let size = attribute(node, "font-size");
            let bold = if node.has_attribute("font-weight") {
                super::lettering::BOLD
            } else {
                1.0
            };
            let width = width_em(node.text().unwrap_or("")) * size * bold;
            let (dx, dy) = moved(node);
            let (x, y) = (attribute(node, "x") + dx, attribute(node, "y") + dy);
            let anchor = node.ancestors().find_map(|n| n.attribute("text-anchor"));
            let left = match anchor {
                Some("end") => x - width,
                Some("middle") => x - width / 2.0,
                _ => x,
            };
            (left, y - size * 0.8, left + width, y + size * 0.2)
        })
        .collect()
}

fn assert_drawn_to_scale(picture: &Picture, svg: &str) {
    let piles = piles(svg);
    let bowl = matches!(picture.vessel, Vessel::Bowl { .. });
    let drawn: HashSet<usize> = piles.iter().map(|p| p.0).collect();
    for (index, patch) in picture.patches.iter().enumerate() {
        assert_eq!(
            drawn.contains(&index),
            patch.volume_ml.likely > 1e-3,
            "{}",
            patch.label
        );
    }
    for (index, depth, corners) in &piles {
        let patch = &picture.patches[*index];
        let volume = area(corners) * depth;
        let off = (volume / patch.volume_ml.likely - 1.0).abs();
        assert!(off < 0.02, "{} drawn {:.1} % off", patch.label, off * 100.0);
        assert!(
            bowl || *depth >= patch.mean_depth_cm - 1e-3,
            "{}",
            patch.label
        );
    }
    for (i, one) in piles.iter().enumerate() {
        for other in &piles[i + 1..] {
            assert!(!overlap(&one.2, &other.2), "{} and {}", one.0, other.0);
        }
    }
}

fn assert_labels_apart(svg: &str) {
    let document = Document::parse(svg).unwrap();
    let view: Vec<f64> = document
        .root_element()
        .attribute("viewBox")
        .unwrap()
        .split(' ')
        .map(|n| n.parse().unwrap())
        .collect();
    let boxes = text_boxes(svg);
    for (i, a) in boxes.iter().enumerate() {
        assert!(
            a.0 >= view[0] - 0.1 && a.2 <= view[0] + view[2] + 0.1,
            "{a:?} leaves the sheet"
        );
        assert!(
            a.1 >= view[1] - 0.1 && a.3 <= view[1] + view[3] + 0.1,
            "{a:?} leaves the sheet"
        );
        for b in &boxes[i + 1..] {
            let apart =
                a.2 <= b.0 + 0.01 || b.2 <= a.0 + 0.01 || a.3 <= b.1 + 0.01 || b.3 <= a.1 + 0.01;
            assert!(apart, "{a:?} overlaps {b:?}");
        }
    }
}

#[test]
fn piles_on_a_plate_have_their_areas_and_lie_in_the_well() {
    let supper = supper(plate());
    let svg = &figures(&[&supper], &Style::default())[0];
    assert_drawn_to_scale(&supper, svg);
    let piles = piles(svg);
    assert!((piles[0].1 - 2.5).abs() < 1e-3, "the stated depth is kept");
    let farthest = piles
        .iter()
        .flat_map(|p| &p.2)
        .map(|c| c.0.hypot(c.1))
        .fold(0.0, f64::max);
    assert!(farthest <= 10.27, "{farthest} is beyond the well");
}

#[test]
fn a_bowl_shares_its_surface_and_shows_its_depth() {
    let soup = supper(bowl());
    let svg = &figures(&[&soup], &Style::default())[0];
    assert_drawn_to_scale(&soup, svg);
    assert!(svg.contains("From the side: 7 cm deep, filled to about"));
    assert_labels_apart(svg);
}

#[test]
fn two_plates_share_one_scale_and_keep_each_pile_in_its_place() {
    let served = supper(plate());
    let mut fitted = served.clone();
    for patch in &mut fitted.patches {
        patch.volume_ml = patch.volume_ml.times(0.5);
    }
    let drawn = figures(&[&served, &fitted], &Style::default());
    let (a, b) = (piles(&drawn[0]), piles(&drawn[1]));
    for (one, half) in a.iter().zip(&b) {
        let ratio = area(&half.2) / area(&one.2);
        assert!((ratio - 0.5).abs() < 0.01, "{ratio}");
        let middle = |c: &[Corner]| c.iter().fold((0.0, 0.0), |s, p| (s.0 + p.0, s.1 + p.1));
        let (m, n) = (middle(&one.2), middle(&half.2));
        assert!(m.0 * n.0 + m.1 * n.1 > 0.0, "pile {} changed sides", one.0);
    }
    let view = |svg: &str| {
        let document = Document::parse(svg).unwrap();
        let root = document.root_element();
        let width = root
            .attribute("viewBox")
            .unwrap()
            .split(' ')
            .nth(2)
            .unwrap()
            .to_owned();
        (
            width,
            root.attribute("data-units-per-cm").unwrap().to_owned(),
        )
    };
    assert_eq!(view(&drawn[0]), view(&drawn[1]));
}

#[test]
fn too_much_food_is_piled_deeper_on_both_plates_and_said() {
    let mut heaped = supper(plate());
    heaped.basis = VesselBasis::Stated;
    heaped.patches[0].volume_ml = Range::new(900.0, 1200.0, 1500.0);
    let mut fitted = heaped.clone();
    fitted.patches[0].volume_ml = Range::exact(200.0);
    let drawn = figures(&[&heaped, &fitted], &Style::default());
    for (picture, svg) in [(&heaped, &drawn[0]), (&fitted, &drawn[1])] {
        assert_drawn_to_scale(picture, svg);
        assert!(svg.contains("times as deep as usual"));
    }
    assert!((piles(&drawn[0])[0].1 - piles(&drawn[1])[0].1).abs() < 1e-6);
}

#[test]
fn the_high_end_is_outlined_and_beyond_the_day_is_said_in_words() {
    let mut supper = supper(plate());
    supper.patches[0].beyond_day = true;
    let svg = &figures(&[&supper], &Style::default())[0];
    assert_eq!(svg.matches("class=\"high\"").count(), 4);
    let words: Vec<_> = Document::parse(svg)
        .unwrap()
        .descendants()
        .filter(|n| n.attribute("class") == Some("accent"))
        .map(|n| n.text().unwrap_or("").to_owned())
        .collect();
    assert_eq!(words.join(" "), "▲ beyond");
    supper.patches[0].beyond_day = false;
    assert!(!figures(&[&supper], &Style::default())[0].contains("accent"));
}

#[test]
fn ids_are_unique_and_names_are_spoken() {
    let svg = sheet(&[&supper(plate()), &supper(bowl())], &Style::default());
    let document = Document::parse(&svg).unwrap();
    let ids: Vec<&str> = document
        .descendants()
        .filter_map(|n| n.attribute("id"))
        .collect();
    assert_eq!(ids.len(), ids.iter().collect::<HashSet<_>>().len());
    let root = document.root_element();
    assert_eq!(root.attribute("role"), Some("img"));
    for reference in ["aria-labelledby", "aria-describedby"] {
        assert!(ids.contains(&root.attribute(reference).unwrap()));
    }
    assert!(svg.contains("Broccoli: about 2 cups, vegetables (leaf veins)."));
    assert_labels_apart(&svg);
}

#[test]
fn hostile_names_are_letters_only() {
    let mut nasty = supper(plate());
    nasty.title = "</title><script>alert(1)</script>".to_owned();
    nasty.patches[0].label =
        "\"><script>alert(1)</script><image href=x onerror=alert(1)>".to_owned();
    nasty.patches[1].label = "W".repeat(400);
    nasty.patches[2].label = "\u{202e}שלום خبز 👩\u{200d}🍳🍕".to_owned();
    nasty.patches[3].size_words = "]]>&amp;<!--\u{0}".to_owned();
    let style = Style {
        id_prefix: "\" onload=\"x".to_owned(),
        ..Style::default()
    };
    for svg in [
        figures(&[&nasty], &style).remove(0),
        sheet(&[&nasty], &style),
    ] {
        let document = Document::parse(&svg).unwrap();
        let allowed = [
            "svg", "title", "desc", "style", "defs", "pattern", "g", "path", "circle", "ellipse",
            "rect", "text",
        ];
        for node in document.descendants().filter(Node::is_element) {
            assert!(
                allowed.contains(&node.tag_name().name()),
                "{:?}",
                node.tag_name()
            );
            assert!(node.attributes().all(|a| !a.name().starts_with("on")));
        }
        assert!(!svg.contains('\u{202e}'));
        assert_labels_apart(&svg);
    }
}

#[test]
fn nothing_to_draw_is_still_a_drawing() {
    let mut empty = picture(plate(), Vec::new());
    assert!(Document::parse(&sheet(&[&empty], &Style::default())).is_ok());
    empty.vessel = bowl();
    assert!(Document::parse(&figures(&[&empty], &Style::default())[0]).is_ok());
    assert!(figures(&[], &Style::default()).is_empty());
}

fn any_patch() -> impl Strategy<Value = Patch> {
    let label = prop_oneof!["[a-z]{1,14}( [a-z]{1,14}){0,4}", any::<String>()];
    (
        label,
        "[a-z0-9 ]{0,40}",
        0usize..8,
        0.0..1500.0f64,
        0.3..6.0f64,
        1.0..2.0f64,
        any::<bool>(),
    )
        .prop_map(
            |(label, size_words, texture, likely, mean_depth_cm, rise, beyond_day)| Patch {
                label,
                size_words,
                texture: Texture::ALL[texture],
                volume_ml: Range::new(likely / rise, likely, likely * rise),
                mean_depth_cm,
                beyond_day,
            },
        )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn any_plate_is_to_scale_with_labels_apart(
        patches in prop::collection::vec(any_patch(), 0..14),
        in_bowl in any::<bool>(),
        stated in any::<bool>(),
        text_scale in 0.8..1.6f64,
    ) {
        let mut picture = picture(if in_bowl { bowl() } else { plate() }, patches);
        if stated {
            picture.basis = VesselBasis::Stated;
        }
        let style = Style { text_scale, ..Style::default() };
        let svg = sheet(&[&picture], &style);
        assert_drawn_to_scale(&picture, &svg);
        assert_labels_apart(&svg);
        prop_assert_eq!(&svg, &sheet(&[&picture], &style), "the same picture, the same drawing");
    }
}
