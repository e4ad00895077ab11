//! Dishes that the catalogue holds as one food: a burger, a sandwich, a taco. They are drawn
//! as what they are put together from, in usual parts, so that one sees what it is.

use super::body::Body;
use super::filled::filled;
use super::forms::{Form, Lies, Look, in_rows};
use super::picture::{FilledSort, Patch, StackSort};
use super::sketch::{Chance, Path, Put, Rgb, Sketch, pt};
use super::stacked::stack;
use super::texture::Texture;
use crate::quantity::Range;

/// A food that is a whole dish, its volume in ml, drawn piece by piece; `None` for a food that
/// is no such thing.
pub(super) fn made(look: &Look, ml: f64) -> Option<Sketch> {
    let piece = piece(look.form)?;
    let Lies::Pieces(wide, high, each, most) = look.form.lies() else {
        return None;
    };
    let guessed = (ml / each).round().clamp(1.0, f64::from(most)) as u32;
    let count = look.count.filter(|n| (1..=most).contains(n));
    let mut chance = Chance::of(&look.seed);
    let one = |_: &mut Chance| {
        let mut sketch = Sketch::default();
        piece(&mut sketch, look.tint);
        sketch
    };
    Some(in_rows(
        count.unwrap_or(guessed),
        (wide, high),
        &mut chance,
        &one,
    ))
}

fn piece(form: Form) -> Option<fn(&mut Sketch, Rgb)> {
    Some(match form {
        Form::Burger => burger,
        Form::Sandwich => sandwich,
        Form::LongSandwich => long_sandwich,
        Form::SausageInRoll => sausage_in_roll,
        Form::Taco => taco,
        Form::Wrap => wrap,
        _ => return None,
    })
}

/// A part: its form, its colour, its volume in ml in a usual one (common practice).
type Part = (Form, Rgb, f64);

const LEAF: Part = (Form::Leaves, Rgb::hex(0x96_bd62), 22.0);
const TOMATO: Part = (Form::TomatoRounds, Rgb::hex(0xdd_4b34), 24.0);
const CHEESE: Part = (Form::CheeseSlices, Rgb::hex(0xf2_b545), 20.0);

fn patch((form, tint, ml): &Part) -> Patch {
    Patch {
        label: String::new(),
        size_words: String::new(),
        texture: Texture::Other,
        volume_ml: Range::exact(*ml),
        look: Look {
            form: *form,
            tint: *tint,
            count: None,
            seed: form.key().to_owned(),
        },
    }
}

/// The parts of a body as one sketch about the origin.
fn merged(s: &mut Sketch, body: &Body) {
    let (l, t, r, b) = body.bounds();
    let put = Put::at(-f64::midpoint(l, r), -f64::midpoint(t, b));
    for part in &body.parts {
        s.put(&part.sketch, put);
    }
}

fn stacked(s: &mut Sketch, sort: StackSort, bread: Part, layers: &[Part]) {
    let foods: Vec<Patch> = std::iter::once(&bread).chain(layers).map(patch).collect();
    let places: Vec<usize> = (1..foods.len()).collect();
    merged(s, &stack(sort, 0, &places, &foods));
}

fn shelled(s: &mut Sketch, sort: FilledSort, shell: Part, inside: &[Part]) {
    let foods: Vec<Patch> = std::iter::once(&shell).chain(inside).map(patch).collect();
    let places: Vec<usize> = (1..foods.len()).collect();
    merged(s, &filled(sort, 0, &places, 1, &foods));
}

fn burger(s: &mut Sketch, tint: Rgb) {
    let patty = (Form::Patty, tint, 95.0);
    let bun = (Form::Roll, Rgb::hex(0xd3_9a55), 150.0);
    stacked(s, StackSort::Bun, bun, &[patty, CHEESE, TOMATO, LEAF]);
}

fn sandwich(s: &mut Sketch, tint: Rgb) {
    let meat = (Form::Folded, tint, 60.0);
    let bread = (Form::Toast, Rgb::hex(0xe9_cd9a), 150.0);
    stacked(s, StackSort::Slices, bread, &[meat, CHEESE, TOMATO, LEAF]);
}

fn long_sandwich(s: &mut Sketch, tint: Rgb) {
    let meat = (Form::Folded, tint, 80.0);
    let bread = (Form::Loaf, Rgb::hex(0xe0_ac62), 220.0);
    stacked(s, StackSort::Long, bread, &[meat, CHEESE, TOMATO, LEAF]);
}

/// A sausage that looks out of its roll at both ends.
fn sausage_in_roll(s: &mut Sketch, tint: Rgb) {
    let crust = Rgb::hex(0xe0_ac62);
    s.fill(Path::ellipse(pt(0.0, -0.6), 6.2, 1.7), crust, 1.0);
    s.fill(Path::ellipse(pt(0.0, 0.0), 7.0, 1.2), tint, 1.0);
    let wave: Vec<_> = (0..9)
        .map(|i| {
            let x = f64::from(i).mul_add(1.3, -5.2);
            pt(x, if i % 2 == 0 { -0.75 } else { -0.25 })
        })
        .collect();
    s.draw(Path::smooth(&wave, false), 1.4);
    let front = [
        pt(-6.2, 0.1),
        pt(0.0, 0.55),
        pt(6.2, 0.1),
        pt(5.4, 1.7),
        pt(0.0, 2.2),
        pt(-5.4, 1.7),
    ];
    s.fill(Path::smooth(&front, true), crust, 1.0);
}

fn taco(s: &mut Sketch, tint: Rgb) {
    let shell = (Form::Tortillas, tint, 45.0);
    let meat = (Form::Ground, Rgb::hex(0x8a_5638), 40.0);
    shelled(s, FilledSort::Folded, shell, &[meat, LEAF, TOMATO]);
}

fn wrap(s: &mut Sketch, tint: Rgb) {
    let shell = (Form::Tortillas, tint, 90.0);
    let rice = (Form::Rice, Rgb::hex(0xf7_f1e0), 60.0);
    let meat = (Form::Strips, Rgb::hex(0xb0_7846), 60.0);
    let beans = (Form::Beans, Rgb::hex(0x7a_4a36), 40.0);
    shelled(s, FilledSort::Rolled, shell, &[rice, meat, beans, LEAF]);
}
