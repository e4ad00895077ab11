//! Drawings of the library's dishes, read back: areas agree with the estimates, both plates of
//! a page have one scale, labels say something.

use std::collections::HashMap;
use trencher::fit::{Hold, Room, right_size};
use trencher::ledger::{Day, PulsesAs, Standard, audit};
use trencher::matching::Catalogue;
use trencher::pages::drawing::{Picture, Style, figures, foods_of};
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
        protein_g: None,
    };
    let room = Room::of_day(day, 1.0 / 3.0, "this meal", Hold::Usual);
    let entries = Library::built_in();
    let pages = entries.entries().iter().map(|entry| {
        let dish = parse_dish_file(&entry.slug, &entry.text, UnitSystem::Us).unwrap();
        let dish = weigh_dish(match_dish(dish, &catalogue, false), &catalogue);
        let audit = audit(&dish, &catalogue, day);
        let sized = right_size(&dish, &catalogue, &room).ok();
        let fitted =
            sized.map(|s| Fitted::of(&s, &dish, "a third of the day", &[], UnitSystem::Us));
        let plated = Plated {
            dish: &dish,
            audit: &audit,
            fitted: fitted.as_ref(),
            day: "a day of 2,000 kcal",
            standard_source: &standard.source,
            notes: &[],
            units: UnitSystem::Us,
        };
        handout(plated, &catalogue)
    });
    pages.collect()
}

/// Cells a unit of the drawing when it is painted for measuring.
const FINE: f64 = 2.0;

/// The numbers and letters of a path as a chain of points for each of its parts.
fn flattened(d: &str) -> Vec<Vec<(f64, f64)>> {
    let mut parts: Vec<Vec<(f64, f64)>> = Vec::new();
    let mut at = (0.0, 0.0);
    let mut rest = d;
    while let Some(command) = rest.chars().next() {
        let end = rest[1..]
            .find(['M', 'l', 'c', 'Z'])
            .map_or(rest.len(), |e| e + 1);
        let numbers: Vec<f64> = rest[1..end]
            .split_whitespace()
            .map(|n| n.parse().unwrap())
            .collect();
        rest = &rest[end..];
        match command {
            'M' => {
                at = (numbers[0], numbers[1]);
                parts.push(vec![at]);
            }
            'l' => {
                at = (at.0 + numbers[0], at.1 + numbers[1]);
                parts.last_mut().unwrap().push(at);
            }
            'c' => {
                let bend = |t: f64, i: usize| {
                    let u = 1.0 - t;
                    3.0 * u * u * t * numbers[i]
                        + 3.0 * u * t * t * numbers[i + 2]
                        + t * t * t * numbers[i + 4]
                };
                for step in 1..=6 {
                    let t = f64::from(step) / 6.0;
                    parts
                        .last_mut()
                        .unwrap()
                        .push((at.0 + bend(t, 0), at.1 + bend(t, 1)));
                }
                at = (at.0 + numbers[4], at.1 + numbers[5]);
            }
            _ => {}
        }
    }
    parts
}

/// Area in cm² that is seen of each food, by its number: everything is painted in the order of
/// the drawing, what is painted over is not seen.
fn seen_areas(svg: &str) -> HashMap<usize, f64> {
    let document = roxmltree::Document::parse(svg).unwrap();
    let root = document.root_element();
    let scale: f64 = root
        .attribute("data-units-per-cm")
        .unwrap()
        .parse()
        .unwrap();
    let view: Vec<f64> = root
        .attribute("viewBox")
        .unwrap()
        .split(' ')
        .map(|n| n.parse().unwrap())
        .collect();
    let (columns, rows) = ((view[2] * FINE) as usize + 1, (view[3] * FINE) as usize + 1);
    let mut painted = vec![0_usize; columns * rows];
    let groups = document
        .descendants()
        .filter(|n| matches!(n.attribute("class"), Some("food" | "vessel")));
    for group in groups {
        let food: usize = group
            .attribute("data-food")
            .map_or(0, |n| n.parse().unwrap());
        let filled = group
            .children()
            .filter(|n| n.attribute("fill").is_some_and(|f| f != "none"));
        for path in filled {
            for part in flattened(path.attribute("d").unwrap()) {
                paint(&mut painted, (columns, rows), &part, food);
            }
        }
    }
    let mut areas = HashMap::new();
    for food in painted.into_iter().filter(|food| *food > 0) {
        *areas.entry(food).or_insert(0.0) += 1.0 / (FINE * FINE * scale * scale);
    }
    areas
}

fn paint(cells: &mut [usize], (columns, rows): (usize, usize), points: &[(f64, f64)], food: usize) {
    let ends = points.iter().cycle().skip(1);
    let edges: Vec<_> = points.iter().zip(ends).collect();
    for row in 0..rows {
        let y = (row as f64 + 0.5) / FINE;
        let mut crossings: Vec<f64> = edges
            .iter()
            .filter(|(a, b)| (a.1 > y) != (b.1 > y))
            .map(|(a, b)| (b.0 - a.0) * (y - a.1) / (b.1 - a.1) + a.0)
            .collect();
        crossings.sort_by(f64::total_cmp);
        for pair in crossings.chunks_exact(2) {
            let from = (pair[0] * FINE - 0.5).ceil().max(0.0) as usize;
            let to = ((pair[1] * FINE - 0.5).floor().max(-1.0) + 1.0) as usize;
            let line = &mut cells[row * columns..(row + 1) * columns];
            line[from.min(columns)..to.min(columns).max(from.min(columns))].fill(food);
        }
    }
}

fn scale(svg: &str) -> String {
    let document = roxmltree::Document::parse(svg).unwrap();
    let scale = document.root_element().attribute("data-units-per-cm");
    scale.unwrap().to_owned()
}

/// Of foods of one plate of which one has at least 1.3 times the volume of the other, the larger
/// one looks larger, but for two in a hundred; measured by painting the drawing.
#[test]
fn what_is_more_looks_larger() {
    let (mut pairs, mut wrong, mut missing) = (0, Vec::new(), Vec::new());
    for page in handouts() {
        let pictures: Vec<&Picture> = std::iter::once(&page.served).chain(&page.fitted).collect();
        let drawings = figures(&pictures, &Style::default());
        let scales: Vec<String> = drawings.iter().map(|d| scale(&d.svg)).collect();
        assert!(scales.windows(2).all(|w| w[0] == w[1]), "{}", page.title);
        for (picture, drawing) in pictures.iter().zip(&drawings) {
            let areas = seen_areas(&drawing.svg);
            let foods: Vec<_> = picture.foods.iter().enumerate().collect();
            for (i, food) in &foods {
                let Some(area) = areas.get(&(i + 1)) else {
                    missing.push(format!("{}: {}", picture.title, food.label));
                    continue;
                };
                for (j, other) in &foods {
                    if food.volume_ml.likely < other.volume_ml.likely * 1.3 {
                        continue;
                    }
                    pairs += 1;
                    if area <= areas.get(&(j + 1)).unwrap_or(&0.0) {
                        wrong.push(format!(
                            "{}: {} and {}",
                            picture.title, food.label, other.label
                        ));
                    }
                }
            }
        }
    }
    println!(
        "{} of {pairs} pairs of foods in the wrong order",
        wrong.len()
    );
    for pair in &wrong {
        println!("  {pair}");
    }
    assert!(missing.is_empty(), "not seen: {missing:?}");
    assert!(pairs > 2000, "{pairs} pairs");
    assert!(wrong.len() * 50 <= pairs, "{} of {pairs}", wrong.len());
}

/// Every food of a picture is laid once.
#[test]
fn every_food_is_laid_once() {
    for page in handouts() {
        let laid = page.served.on_plate.iter().chain(&page.served.beside);
        let mut foods: Vec<usize> = laid.flat_map(foods_of).collect();
        foods.sort_unstable();
        let all: Vec<usize> = (0..page.served.foods.len()).collect();
        assert_eq!(foods, all, "{}", page.title);
    }
}

#[test]
fn labels_say_something_and_right_sized_plates_hold_no_more() {
    for page in handouts() {
        assert!(!page.served.foods.is_empty(), "{}", page.title);
        for patch in &page.served.foods {
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
