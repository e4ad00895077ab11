//! How foods look: about a hundred forms, each a drawing of one piece of it and a way that
//! pieces lie together.

mod bread;
mod fish_eggs;
mod fruit;
mod greens;
mod held;
mod meats;
pub(super) mod solids;
mod starches;
mod sweets;

use super::geometry::Point;
use super::sketch::{Chance, Path, Put, Rgb, Sketch, inside, pt};
use Lies::{Heap, One, Pieces};
use std::f64::consts::TAU;

/// How the pieces of a form lie together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Lies {
    /// A heap, its surface strewn with marks this far apart in cm.
    Heap(f64),
    /// Counted pieces: the room of each across and down in cm, the volume of a usual one in
    /// ml, and how many are drawn at most.
    Pieces(f64, f64, f64, u32),
    /// One thing, drawn as large as its volume.
    One,
}

/// Volume of a counted piece over that of a usual one from which it is not one piece.
const MOST_USUAL: f64 = 8.0;

/// Draws one piece about the origin, its size in cm.
type Piece = fn(&mut Sketch, Rgb, &mut Chance);

macro_rules! forms {
    ($($name:ident $key:literal $lies:expr, $piece:path;)*) => {
        /// The form of a food.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        #[allow(missing_docs)] // The names say it.
        pub enum Form { $($name,)* }

        impl Form {
            /// Every form.
            pub(crate) const ALL: &'static [Self] = &[$(Self::$name,)*];

            /// Its name in the table of forms.
            #[must_use]
            pub(crate) const fn key(self) -> &'static str {
                match self { $(Self::$name => $key,)* }
            }

            /// How its pieces lie together.
            #[must_use]
            pub(crate) const fn lies(self) -> Lies {
                match self { $(Self::$name => $lies,)* }
            }

            const fn piece(self) -> Piece {
                match self { $(Self::$name => $piece,)* }
            }
        }
    };
}

// Volumes of pieces: what such a piece usually weighs on a plate over about 0.9 g a ml,
// from memory; they only decide how many are drawn where nobody counted.
forms! {
    Rice "rice" Heap(0.95), starches::rice;
    Mash "mash" Heap(2.1), starches::mash;
    Fries "fries" Pieces(2.6, 1.1, 13.0, 30), starches::fry;
    Wedges "wedges" Pieces(4.4, 1.7, 30.0, 12), starches::wedge;
    BakedPotato "baked potato" One, starches::baked_potato;
    Hash "hash" Heap(1.3), starches::hash;
    Noodles "noodles" Heap(1.5), starches::noodle;
    Tubes "tubes" Heap(1.9), starches::tube;
    Elbows "elbows" Heap(1.5), starches::elbow;
    Ravioli "ravioli" Pieces(4.2, 2.9, 25.0, 14), starches::ravioli;
    Slices "slices" Pieces(6.6, 4.6, 110.0, 6), bread::bread_slice;
    Toast "toast" Pieces(5.2, 3.0, 50.0, 8), bread::toast_half;
    Roll "roll" Pieces(6.4, 4.0, 140.0, 6), bread::roll;
    Loaf "loaf" One, bread::long_loaf;
    Rounds "bread rounds" Pieces(5.8, 3.3, 60.0, 8), bread::bread_rounds;
    Bagel "bagel" Pieces(8.2, 4.4, 330.0, 3), bread::bagel;
    Flatbread "flatbread" Pieces(6.4, 3.8, 35.0, 8), bread::flatbread;
    Naan "naan" Pieces(10.5, 4.6, 200.0, 3), bread::naan;
    Tortillas "tortillas" One, bread::tortillas;
    Chips "chips" Pieces(2.8, 1.7, 22.0, 34), starches::chip;
    Crisps "crisps" Pieces(2.5, 1.5, 14.0, 26), starches::crisp;
    Crackers "crackers" Pieces(3.2, 2.0, 12.0, 10), bread::cracker;
    Croutons "croutons" Pieces(1.7, 1.5, 5.0, 12), bread::crouton;
    Pancakes "pancakes" One, bread::pancakes;
    Waffle "waffle" One, bread::waffle;
    Fingers "fingers" Pieces(4.6, 2.1, 45.0, 12), starches::finger;
    Rings "rings" Pieces(3.6, 2.2, 30.0, 14), starches::ring;
    GoldenRolls "golden rolls" Pieces(6.6, 2.7, 90.0, 8), bread::golden_roll;
    ClearRolls "clear rolls" Pieces(6.8, 3.1, 95.0, 6), bread::clear_roll;
    Dumplings "dumplings" Pieces(4.4, 2.3, 25.0, 12), bread::dumpling;
    Samosas "samosas" Pieces(5.8, 4.6, 85.0, 6), bread::samosa;
    Granola "granola" Heap(0.9), starches::granola;
    PizzaSlices "pizza slices" Pieces(9.6, 7.6, 230.0, 8), bread::pizza_slice;
    CheesePizza "cheese pizza slices" Pieces(9.6, 7.6, 230.0, 8), bread::cheese_pizza_slice;
    Lasagne "lasagne" One, starches::lasagne;
    Quesadilla "quesadilla" Pieces(7.2, 4.4, 90.0, 8), bread::quesadilla;
    Rolled "rolled" Pieces(8.6, 3.4, 130.0, 6), bread::filled_tortilla;
    Nuggets "nuggets" Pieces(2.2, 1.7, 20.0, 24), starches::popcorn_ball;
    Cakes "round cakes" Pieces(7.6, 4.4, 110.0, 6), starches::patty_round;
    Falafel "falafel" Pieces(3.1, 2.6, 22.0, 10), starches::falafel;
    Fillet "fillet" One, fish_eggs::fillet;
    FriedFillet "fried fillet" Pieces(12.0, 4.6, 130.0, 3), fish_eggs::fried_fillet;
    Steak "steak" One, meats::steak;
    Chop "chop" One, meats::chop;
    Breast "breast" One, meats::breast;
    Strips "strips" Pieces(3.4, 1.5, 16.0, 16), meats::strips;
    Chunks "chunks" Pieces(2.3, 1.7, 18.0, 18), meats::chunk;
    Folded "folded" Pieces(4.2, 1.7, 25.0, 10), meats::folded;
    Drumsticks "drumsticks" Pieces(7.6, 3.6, 70.0, 6), meats::drumstick;
    Wings "wings" Pieces(4.8, 2.4, 28.0, 14), meats::wing;
    Meatballs "meatballs" Pieces(3.4, 3.0, 30.0, 10), meats::meatball;
    Patty "patty" Pieces(9.0, 4.6, 150.0, 4), meats::patty;
    Meatloaf "meatloaf" Pieces(8.0, 4.6, 110.0, 3), meats::meatloaf;
    Ground "ground" Heap(0.95), meats::ground;
    Pulled "pulled" Heap(1.2), meats::pulled;
    Bacon "bacon" Pieces(10.0, 2.0, 10.0, 6), meats::bacon;
    Sausages "sausages" Pieces(8.2, 2.6, 45.0, 6), meats::sausage;
    SausageRounds "sausage rounds" Pieces(2.9, 1.7, 10.0, 12), meats::sausage_rounds;
    Ribs "ribs" One, meats::rib;
    Shrimp "shrimp" Pieces(3.2, 2.5, 13.0, 14), fish_eggs::shrimp;
    FriedEggs "fried eggs" Pieces(7.6, 4.6, 50.0, 4), fish_eggs::fried_egg;
    BoiledEggs "boiled eggs" Pieces(4.4, 2.6, 27.0, 6), fish_eggs::boiled_egg;
    PoachedEggs "poached eggs" Pieces(5.0, 3.0, 50.0, 4), fish_eggs::poached_egg;
    Scramble "scramble" Heap(1.5), fish_eggs::scramble;
    Omelette "omelette" One, fish_eggs::omelette;
    Cubes "cubes" Pieces(2.3, 2.2, 10.0, 18), fish_eggs::cube;
    Nigiri "nigiri" Pieces(5.4, 2.6, 33.0, 10), fish_eggs::nigiri;
    Maki "maki" Pieces(3.7, 3.0, 24.0, 12), fish_eggs::maki;
    Kebab "kebab" Pieces(11.0, 2.6, 90.0, 4), meats::kebab;
    Roast "roast" One, meats::roast;
    SquidRings "squid rings" Pieces(2.6, 1.6, 14.0, 22), fish_eggs::squid_ring;
    Leaves "leaves" Heap(1.9), greens::leaf;
    Herbs "herbs" Heap(1.1), greens::herb;
    Florets "florets" Pieces(2.9, 2.3, 25.0, 16), greens::floret;
    Spears "spears" Pieces(10.0, 1.0, 20.0, 10), greens::spear;
    GreenBeans "green beans" Pieces(4.4, 0.9, 9.0, 22), greens::green_bean;
    Pods "pods" Pieces(4.0, 1.4, 8.0, 20), greens::pod;
    Beans "beans" Heap(1.2), fruit::bean;
    Peas "peas" Heap(1.05), fruit::pea;
    Chickpeas "chickpeas" Heap(1.2), fruit::chickpea;
    Lentils "lentils" Heap(0.8), fruit::lentil;
    Corn "corn" Heap(0.95), fruit::kernel;
    Dice "dice" Heap(1.15), greens::dice;
    Shreds "shreds" Heap(1.15), greens::shred;
    Sprouts "sprouts" Heap(1.2), greens::sprout;
    Seaweed "seaweed" Heap(1.3), greens::seaweed;
    TomatoWedges "tomato wedges" Pieces(3.2, 1.9, 22.0, 10), greens::tomato_wedge;
    TomatoRounds "tomato rounds" Pieces(3.9, 2.4, 30.0, 8), greens::tomato_round;
    Cucumber "cucumber" Pieces(2.9, 1.8, 9.0, 12), greens::cucumber;
    Coins "coins" Pieces(1.9, 1.3, 5.0, 18), greens::coin;
    Batons "batons" Pieces(3.8, 0.9, 7.0, 14), greens::baton;
    Celery "celery" Pieces(6.4, 1.3, 18.0, 8), greens::celery;
    Crescents "crescents" Heap(1.6), greens::crescent;
    Onions "onions" Pieces(2.4, 1.4, 8.0, 12), greens::onion;
    Avocado "avocado" Pieces(4.4, 1.5, 16.0, 8), greens::avocado;
    Olives "olives" Pieces(1.8, 1.4, 4.0, 12), fruit::olive;
    Mushrooms "mushrooms" Pieces(2.6, 2.1, 12.0, 12), greens::mushroom;
    Pickles "pickles" Pieces(2.3, 1.3, 7.0, 8), greens::pickle;
    Strawberries "strawberries" Pieces(2.2, 2.2, 13.0, 12), fruit::strawberry;
    Berries "berries" Pieces(1.35, 1.25, 2.0, 24), fruit::berry;
    Banana "banana" Pieces(2.5, 1.7, 8.0, 12), fruit::banana;
    FruitChunks "fruit chunks" Pieces(1.9, 1.8, 10.0, 16), fruit::fruit_chunk;
    Citrus "citrus" Pieces(3.3, 1.9, 15.0, 8), fruit::citrus;
    WholeFruit "whole fruit" Pieces(6.4, 6.4, 180.0, 4), fruit::whole_fruit;
    Nuts "nuts" Heap(1.1), fruit::nut;
    Aubergine "aubergine" Pieces(4.6, 2.6, 35.0, 8), greens::aubergine;
    CheeseSlices "cheese slices" Pieces(4.4, 2.3, 20.0, 6), sweets::cheese_slice;
    CheeseRounds "cheese rounds" Pieces(4.0, 2.5, 28.0, 8), sweets::cheese_round;
    Grated "grated" Heap(0.95), sweets::grated;
    Crumbles "crumbles" Heap(1.05), sweets::crumble;
    Butter "butter" One, sweets::butter;
    Smooth "smooth" Heap(2.3), sweets::smooth;
    Sauce "sauce" Heap(2.6), sweets::fleck;
    Liquid "liquid" Heap(3.0), sweets::fleck;
    Dollop "dollop" One, sweets::dollop;
    Drizzle "drizzle" One, sweets::drizzle;
    Cookies "cookies" Pieces(6.0, 3.4, 35.0, 6), sweets::cookie;
    Brownie "brownie" One, sweets::brownie;
    Cake "cake" One, sweets::cake;
    Cheesecake "cheesecake" One, sweets::cheesecake;
    Pie "pie" One, sweets::pie;
    Scoops "scoops" Pieces(4.9, 3.6, 80.0, 5), sweets::scoop;
    Churros "churros" Pieces(9.2, 1.7, 30.0, 8), sweets::churro;
    Ladyfingers "ladyfingers" Pieces(6.0, 1.9, 15.0, 8), sweets::ladyfinger;
    Sugar "sugar" Heap(0.7), sweets::sugar;
    Custard "custard" One, sweets::custard;
    Folds "folds" Heap(1.6), meats::folded;
    Cheeseburger "cheeseburger" Pieces(11.0, 7.6, 330.0, 3), held::cheeseburger;
    Hamburger "hamburger" Pieces(11.0, 7.6, 330.0, 3), held::hamburger;
    FilledRoll "filled roll" Pieces(10.6, 6.6, 300.0, 3), held::filled_roll;
    SandwichHalves "sandwich halves" Pieces(7.6, 4.2, 150.0, 6), held::sandwich_half;
    Sub "sub" Pieces(17.0, 5.4, 420.0, 2), held::sub;
    HotDog "hot dog" Pieces(15.0, 5.6, 190.0, 3), held::hot_dog;
    Tacos "tacos" Pieces(8.4, 4.6, 150.0, 5), held::taco;
    Nachos "nachos" Pieces(2.5, 1.5, 18.0, 34), held::nacho;
}

impl Form {
    /// From its name in the table.
    #[must_use]
    pub(crate) fn from_key(key: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|form| form.key() == key)
    }

    /// The form of the same food cut up for a stir-fry, a soup or a bowl.
    #[must_use]
    pub(crate) const fn cut_up(self) -> Self {
        match self {
            Self::FriedFillet | Self::Fingers | Self::Drumsticks => Self::Nuggets,
            Self::Breast | Self::Steak | Self::Roast | Self::Chop => Self::Strips,
            Self::Fillet => Self::Chunks,
            Self::TomatoWedges | Self::Cucumber | Self::Aubergine => Self::Dice,
            other => other,
        }
    }

    /// Pieces that one of it is cut into.
    const fn cut_into(self) -> u32 {
        match self {
            Self::SandwichHalves => 2,
            _ => 1,
        }
    }

    /// Whether it runs out flat rather than piling up.
    #[must_use]
    pub(crate) const fn runs(self) -> bool {
        matches!(self, Self::Sauce | Self::Liquid)
    }
}

/// A food as it is to be drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Look {
    /// Its form.
    pub form: Form,
    /// Its natural colour.
    pub tint: Rgb,
    /// How many pieces there are, where somebody counted.
    pub count: Option<u32>,
    /// What its small irregularities follow from: the same food is drawn the same again.
    pub seed: String,
}

impl Look {
    fn one(&self, chance: &mut Chance) -> Sketch {
        let mut sketch = Sketch::default();
        self.form.piece()(&mut sketch, self.tint, chance);
        sketch
    }

    /// The food by itself, its volume in ml; about its true size, to be brought to it exactly.
    #[must_use]
    pub(crate) fn alone(&self, ml: f64) -> Sketch {
        let mut chance = Chance::of(&self.seed);
        match self.form.lies() {
            One => self.one(&mut chance),
            Pieces(wide, high, each, most) => {
                let guessed = (ml / each).round().clamp(1.0, f64::from(most)) as u32;
                // One order of something small is no count of its pieces.
                let of_pieces = |n: &u32| ml / f64::from(*n) < each * MOST_USUAL;
                let count = self.count.map(|n| n.saturating_mul(self.form.cut_into()));
                let count = count.filter(|n| (1..=most).contains(n));
                let count = count.filter(of_pieces);
                self.pieces(count.unwrap_or(guessed), (wide, high), &mut chance)
            }
            Heap(apart) => {
                let wide = (ml / super::view::SEEN_CM * 1.9).sqrt().max(2.0);
                let outline = self.heap(wide, apart, &mut chance);
                self.strewn(outline, apart, &mut chance)
            }
        }
    }

    /// Some pieces round the origin, that peep out of what lies on them.
    #[must_use]
    pub(crate) fn peeping(&self, many: u32, (rx, ry): (f64, f64)) -> Sketch {
        let mut chance = Chance::of(&self.seed);
        let mut sketch = Sketch::default();
        for i in 0..many {
            let (sin, cos) = (f64::from(i) / f64::from(many) * TAU).sin_cos();
            sketch.put(&self.one(&mut chance), Put::at(rx * cos, ry * sin));
        }
        sketch
    }

    fn heap(&self, wide: f64, apart: f64, chance: &mut Chance) -> Path {
        if self.form.runs() {
            return super::sketch::blob(pt(0.0, 0.0), wide / 2.0, wide * 0.29, (7, 0.05), chance);
        }
        let lumps = ((wide / apart * 1.3) as usize).clamp(6, 22);
        solids::mound(wide, wide * 0.62, (lumps, 0.035), chance)
    }

    /// Counted pieces in rows, those behind first.
    fn pieces(&self, count: u32, (wide, high): (f64, f64), chance: &mut Chance) -> Sketch {
        let n = f64::from(count);
        let columns = (n * 1.5 * high / wide).sqrt().ceil().max(1.0);
        let rows = (n / columns).ceil() as u32;
        let mut sketch = Sketch::default();
        let mut left = count;
        for row in 0..rows {
            // The last rows may be short; all rows as even as can be.
            let here = left.div_ceil(rows - row);
            left -= here;
            for i in 0..here {
                let loose = if here + rows > 3 { 0.12 } else { 0.0 };
                let x = (f64::from(i) - f64::from(here - 1) / 2.0) * wide
                    + chance.between(-loose, loose) * wide
                    + if row % 2 == 1 && here > 1 {
                        wide * 0.2
                    } else {
                        0.0
                    };
                let y = f64::from(row) * high * 0.92 + chance.between(-loose, loose) * high;
                sketch.put(&self.one(chance), Put::at(x, y));
            }
        }
        sketch
    }

    /// A shape strewn with pieces.
    fn strewn(&self, outline: Path, apart: f64, chance: &mut Chance) -> Sketch {
        let polygon = outline.flat();
        let mut sketch = Sketch::default();
        let ground = match self.form {
            Form::Leaves | Form::Herbs | Form::Ground | Form::Nuts | Form::Granola => {
                self.tint.dark()
            }
            Form::Beans | Form::Lentils => self.tint.dark().dark(),
            _ => self.tint,
        };
        sketch.fill(outline, ground, 1.0);
        self.strew(&mut sketch, &polygon, apart, chance);
        sketch
    }

    fn strew(&self, sketch: &mut Sketch, polygon: &[Point], apart: f64, chance: &mut Chance) {
        let (l, t, r, b) = edges(polygon);
        let (dx, dy) = (apart, apart * 0.72);
        let rows = ((b - t) / dy).ceil() as usize;
        let columns = ((r - l) / dx).ceil() as usize + 1;
        // Where a mark must not stick out of the shape.
        let reach = if self.form.runs() { 0.6 } else { 0.42 * apart };
        for row in 0..rows {
            let y = (row as f64 + 0.5).mul_add(dy, t) + chance.between(-0.2, 0.2) * dy;
            for column in 0..columns {
                let shift = if row % 2 == 0 { 0.25 } else { 0.75 };
                let x = (column as f64 + shift).mul_add(dx, l) + chance.between(-0.22, 0.22) * dx;
                let clear = [
                    (0.0, 0.0),
                    (reach, 0.0),
                    (-reach, 0.0),
                    (0.0, reach * 0.7),
                    (0.0, -reach * 0.7),
                ];
                if clear.iter().all(|(a, b)| inside(polygon, pt(x + a, y + b))) {
                    sketch.put(&self.one(chance), Put::at(x, y));
                }
            }
        }
    }

    /// The food filling a shape, as in a bowl or on a bed.
    #[must_use]
    pub(crate) fn within(&self, polygon: &[Point]) -> Sketch {
        let mut chance = Chance::of(&self.seed);
        let outline = Path::smooth(polygon, true);
        let flat = outline.flat();
        let mut sketch = Sketch::default();
        match self.form.lies() {
            Heap(apart) => sketch = self.strewn(outline, apart, &mut chance),
            Pieces(wide, _, _, _) => {
                sketch.fill(outline, self.tint.dark(), 1.0);
                let (l, t, r, b) = edges(&flat);
                let size = ((r - l).min((b - t) * 1.4) / wide / 1.6).min(1.0);
                self.strew_sized(&mut sketch, &flat, wide, size, &mut chance);
            }
            One => {
                let one = self.one(&mut chance);
                let (l, t, r, b) = edges(&flat);
                let (ol, ot, or, ob) = one.bounds();
                let size = ((r - l) / (or - ol)).min((b - t) / (ob - ot)).max(0.05);
                let by = pt(
                    f64::midpoint(l, r) - size * f64::midpoint(ol, or),
                    f64::midpoint(t, b) - size * f64::midpoint(ot, ob),
                );
                sketch.put(
                    &one,
                    Put {
                        at: by,
                        size: (size, size),
                        turn: 0.0,
                    },
                );
            }
        }
        sketch
    }

    fn strew_sized(
        &self,
        sketch: &mut Sketch,
        polygon: &[Point],
        wide: f64,
        size: f64,
        chance: &mut Chance,
    ) {
        let mut loose = Sketch::default();
        let larger: Vec<Point> = polygon.iter().map(|p| pt(p.x / size, p.y / size)).collect();
        self.strew(&mut loose, &larger, wide * 0.8, chance);
        sketch.put(&loose, Put::at(0.0, 0.0).sized(size));
    }

    /// The food as one layer of something stacked: `wide` by `thick` cm, its middle at the
    /// origin.
    #[must_use]
    pub(crate) fn layer(&self, wide: f64, thick: f64) -> Sketch {
        let mut chance = Chance::of(&self.seed);
        let (w, t) = (wide / 2.0, thick / 2.0);
        let wave = match self.form {
            Form::Leaves | Form::Herbs | Form::Bacon => 0.5,
            Form::Sauce | Form::Dollop | Form::CheeseSlices | Form::Grated => 0.3,
            _ => 0.12,
        } * thick.min(0.9);
        let steps = 14;
        let mut points = Vec::new();
        for i in 0..=steps {
            let x = -w + wide * f64::from(i) / f64::from(steps);
            points.push(pt(x, -t + 0.1 * wave * if i % 2 == 0 { 1.0 } else { -1.0 }));
        }
        for i in (0..=steps).rev() {
            let x = -w + wide * f64::from(i) / f64::from(steps);
            let dip = if i % 2 == 0 { wave } else { -wave };
            points.push(pt(x, t + dip));
        }
        let outline = Path::smooth(&points, true);
        let polygon = outline.flat();
        let mut sketch = Sketch::default();
        sketch.fill(outline, self.tint, 1.0);
        if thick > 0.8 {
            let apart = match self.form.lies() {
                Heap(apart) => apart,
                Pieces(wide, ..) => wide * 0.5,
                One => 0.0,
            };
            if apart > 0.0 && !self.form.runs() {
                let size = (thick / 2.4).min(1.0);
                self.strew_sized(&mut sketch, &polygon, apart * 1.25, size, &mut chance);
            }
        }
        sketch
    }
}

/// Left, top, right, bottom.
pub(super) fn edges(points: &[Point]) -> (f64, f64, f64, f64) {
    points.iter().fold(
        (f64::MAX, f64::MAX, f64::MIN, f64::MIN),
        |(l, t, r, b), p| (l.min(p.x), t.min(p.y), r.max(p.x), b.max(p.y)),
    )
}

#[cfg(test)]
mod tests {
    use super::{Form, Look};
    use crate::pages::drawing::sketch::Rgb;
    use std::collections::HashSet;

    #[test]
    fn forms_have_names_of_their_own() {
        let keys: HashSet<_> = Form::ALL.iter().map(|f| f.key()).collect();
        assert_eq!(keys.len(), Form::ALL.len());
        for form in Form::ALL {
            assert_eq!(Form::from_key(form.key()), Some(*form));
        }
    }

    #[test]
    fn every_form_draws_something_at_any_size() {
        for form in Form::ALL {
            for ml in [5.0, 60.0, 240.0, 900.0] {
                let look = Look {
                    form: *form,
                    tint: Rgb(200, 160, 90),
                    count: None,
                    seed: "x".to_owned(),
                };
                assert!(look.alone(ml).area() > 0.1, "{} at {ml}", form.key());
                assert!(
                    look.layer(9.0, 1.2).area() > 5.0,
                    "{} as a layer",
                    form.key()
                );
            }
        }
    }
}
