//! Drawings of the library's dishes, read back: areas agree with the estimates, both plates of
//! a page have one scale, labels say something.

use trencher::fit::{Hold, Room, right_size};
use trencher::ledger::{Day, PulsesAs, Standard, audit};
use trencher::matching::Catalogue;
use trencher::pages::drawing::{Picture, Style, Vessel, figures};
use trencher::pages::handout::Handout;
use trencher::pages::plating::{Fitted, Plated, handout};
use trencher::reading::{UnitSystem, parse_dish_file};
use trencher::store::Library;
use trencher::weighing::{match_dish, weigh_dish};

/// The pages of the library's dishes, right-sized for a third of 2,000 kcal.
fn handouts() -> Vec<Handout> {
    let catalogue = Catalogue::embedded().unwrap();
    let standard = Standard::embedded("us-style").unwrap();
    let day = Day {
        standard: &standard,
        energy_kcal: 2000.0,
        pulses: PulsesAs::Vegetables,
    };
    let room = Room::of_day(day, 1.0 / 3.0, "this meal", Hold::Usual);
    let entries = Library::built_in();
    let pages = entries.entries().iter().map(|entry| {
        let dish = parse_dish_file(&entry.slug, &entry.text, UnitSystem::Us).unwrap();
        let dish = weigh_dish(match_dish(dish, &catalogue, false), &catalogue);
        let audit = audit(&dish, &catalogue, day);
        let sized = right_size(&dish, &catalogue, &room).ok();
        let fitted = sized.map(|s| Fitted::of(&s, &dish, "a third of the day", &[]));
        let plated = Plated {
            dish: &dish,
            audit: &audit,
            fitted: fitted.as_ref(),
            day: "a day of 2,000 kcal",
            standard_source: &standard.source,
            notes: &[],
        };
        handout(plated, &catalogue)
    });
    pages.collect()
}

/// Volume of every patch as drawn: area times depth, ml.
fn drawn_volumes(svg: &str) -> Vec<(usize, f64)> {
    let document = roxmltree::Document::parse(svg).unwrap();
    let number = |node: roxmltree::Node<'_, '_>, name: &str| -> f64 {
        node.attribute(name).unwrap().parse().unwrap()
    };
    let scale = number(document.root_element(), "data-units-per-cm");
    let patches = document
        .descendants()
        .filter(|n| n.has_attribute("data-patch"));
    patches
        .map(|node| {
            let outline = node.attribute("d").unwrap().trim_end_matches('Z');
            let corners: Vec<(f64, f64)> = outline[1..]
                .split('L')
                .map(|pair| pair.split_once(' ').unwrap())
                .map(|(x, y)| (x.parse::<f64>().unwrap(), y.parse::<f64>().unwrap()))
                .collect();
            let next = corners.iter().cycle().skip(1);
            let twice: f64 = corners
                .iter()
                .zip(next)
                .map(|(a, b)| a.0 * b.1 - b.0 * a.1)
                .sum();
            let area_cm2 = twice.abs() / 2.0 / (scale * scale);
            let depth = number(node, "data-depth-cm");
            let at: usize = node.attribute("data-patch").unwrap().parse().unwrap();
            (at, area_cm2 * depth)
        })
        .collect()
}

fn scale(svg: &str) -> String {
    let document = roxmltree::Document::parse(svg).unwrap();
    let scale = document.root_element().attribute("data-units-per-cm");
    scale.unwrap().to_owned()
}

#[test]
fn areas_of_the_librarys_plates_agree_with_the_estimates() {
    let mut checked = 0;
    for page in handouts() {
        let pictures: Vec<&Picture> = std::iter::once(&page.served).chain(&page.fitted).collect();
        let drawings = figures(&pictures, &Style::default());
        let scales: Vec<String> = drawings.iter().map(|d| scale(d)).collect();
        assert!(scales.windows(2).all(|w| w[0] == w[1]), "{}", page.title);
        for (picture, drawing) in pictures.iter().zip(&drawings) {
            let drawn = drawn_volumes(drawing);
            assert_eq!(drawn.len(), picture.patches.len(), "{}", page.title);
            // A bowl's surface is shared out by volume; its depth is the section's.
            let all: f64 = drawn.iter().map(|d| d.1).sum();
            let bowl = matches!(picture.vessel, Vessel::Bowl { .. });
            let factor = if bowl { picture.likely_ml() / all } else { 1.0 };
            for (at, drawn_ml) in drawn {
                let patch = &picture.patches[at];
                let off = drawn_ml * factor / patch.volume_ml.likely - 1.0;
                assert!(
                    off.abs() <= 0.02,
                    "{}: {} is drawn {:.1} % off",
                    page.title,
                    patch.label,
                    off * 100.0
                );
                checked += 1;
            }
        }
    }
    assert!(checked > 1000, "{checked} patches");
}

#[test]
fn labels_say_something_and_right_sized_plates_hold_no_more() {
    for page in handouts() {
        assert!(!page.served.patches.is_empty(), "{}", page.title);
        for patch in &page.served.patches {
            assert!(patch.volume_ml.likely > 0.0 && !patch.size_words.contains(" 0 "));
            assert!(patch.label.chars().count() <= 45, "{}", patch.label);
        }
        for row in &page.amounts {
            let (Some(fitted), served) = (row.fitted, row.served().likely) else {
                continue;
            };
            let held = fitted <= served * 1.001 + 1e-9;
            assert!(held, "{}: {:?}", page.title, row.name());
        }
    }
}
