//! Items made up of the dish library's components and the catalogue's names.

use fastrand::Rng;
use std::collections::HashSet;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::io::Write;
use trencher::matching::Catalogue;
use trencher::reading::{UnitSystem, parse_dish_file};
use trencher::store::Library;

/// Words that kitchens put before a food and that change nothing.
const AROUND: [&str; 10] = [
    "fresh", "our own", "local", "house", "hand-cut", "garden", "seasonal", "homemade", "farm",
    "daily",
];

const NAMES: [&str; 8] = [
    "plate", "bowl", "special", "supper", "lunch", "platter", "classic", "board",
];

/// Makes items; the same seed makes the same ones.
pub struct Maker {
    random: Rng,
    /// Components as the library's dishes have them.
    usual: Vec<String>,
    dishes: Vec<String>,
    foods: Vec<String>,
    seen: HashSet<u64>,
    /// Components made.
    pub made: u64,
    /// Components among them that no row before has had.
    pub new: u64,
}

impl Maker {
    /// A maker of made-up items.
    pub fn new(seed: u64) -> Result<Self, Box<dyn std::error::Error>> {
        let library = Library::built_in();
        let mut usual = Vec::new();
        for entry in library.entries() {
            let dish = parse_dish_file(&entry.slug, &entry.text, UnitSystem::Us)?;
            for c in dish.components {
                let text = match &c.amount {
                    Some(amount) => format!("{} {}", amount.text, c.food),
                    None => c.food,
                };
                usual.push(text.replace(';', ","));
            }
        }
        usual.sort();
        usual.dedup();
        let catalogue = Catalogue::embedded()?;
        let mut foods: Vec<String> = catalogue
            .foods()
            .flat_map(|f| {
                std::iter::once(f.name())
                    .chain(f.aliases())
                    .collect::<Vec<_>>()
            })
            .filter(|name| name.len() < 40)
            .map(|name| name.replace(';', ","))
            .collect();
        foods.sort();
        foods.dedup();
        Ok(Self {
            random: Rng::with_seed(seed),
            dishes: library
                .entries()
                .iter()
                .map(|e| e.name.clone().into_owned())
                .collect(),
            usual,
            foods,
            seen: HashSet::new(),
            made: 0,
            new: 0,
        })
    }

    fn component(&mut self, new: f64) -> String {
        let text = if self.random.f64() < new {
            self.unseen()
        } else {
            // Some components are on every second plate, most are rare.
            let at = (self.random.f64().powi(2) * self.usual.len() as f64) as usize;
            self.usual[at.min(self.usual.len() - 1)].clone()
        };
        self.made += 1;
        self.new += u64::from(self.first_time(&text));
        text
    }

    fn unseen(&mut self) -> String {
        loop {
            let text = self.varied();
            let mut hasher = DefaultHasher::new();
            text.hash(&mut hasher);
            if !self.seen.contains(&hasher.finish()) {
                return text;
            }
        }
    }

    fn first_time(&mut self, text: &str) -> bool {
        let mut hasher = DefaultHasher::new();
        text.hash(&mut hasher);
        self.seen.insert(hasher.finish())
    }

    fn varied(&mut self) -> String {
        let mut food = self.foods[self.random.usize(..self.foods.len())].clone();
        if self.random.f64() < 0.5 {
            food = format!("{} {food}", AROUND[self.random.usize(..AROUND.len())]);
        }
        if self.random.f64() < 0.05 {
            food = self.slip(&food);
        }
        let amount = match self.random.u8(..6) {
            0 => format!("{} g", self.random.u32(10..400)),
            1 => format!("{}.{} oz", self.random.u8(1..12), self.random.u8(..10)),
            2 => format!("{} cups", self.random.u8(1..4)),
            3 => format!(
                "{} {}/4 cups",
                self.random.u8(1..3),
                [1, 3][self.random.usize(..2)]
            ),
            4 => format!("{} tbsp", self.random.u8(1..7)),
            _ => format!("{} fl oz", self.random.u8(1..13)),
        };
        if self.random.bool() {
            format!("{amount} {food}")
        } else {
            format!("{food} {amount}")
        }
    }

    /// Two neighbouring letters changed round, as fingers do.
    fn slip(&mut self, text: &str) -> String {
        let mut letters: Vec<char> = text.chars().collect();
        if letters.len() > 4 {
            let at = self.random.usize(1..letters.len() - 2);
            letters.swap(at, at + 1);
        }
        letters.into_iter().collect()
    }

    /// A menu as CSV with its header: `new` is the share of components that no row before has
    /// had, `lines` the share of items that list none.
    pub fn menu(
        &mut self,
        rows: u64,
        new: f64,
        lines: f64,
        out: &mut impl Write,
    ) -> std::io::Result<()> {
        writeln!(out, "item,description,components,served,energy_kcal")?;
        for at in 1..=rows {
            self.row(at, new, lines, out)?;
        }
        out.flush()
    }

    fn row(&mut self, at: u64, new: f64, lines: f64, out: &mut impl Write) -> std::io::Result<()> {
        let name = NAMES[self.random.usize(..NAMES.len())];
        if self.random.f64() < lines {
            let dish = self.dishes[self.random.usize(..self.dishes.len())].clone();
            let food = self.foods[self.random.usize(..self.foods.len())].clone();
            let quoted = food.replace('"', "\"\"");
            return writeln!(
                out,
                "\"{dish}\",\"with {quoted}\",,,{}",
                self.random.u32(200..1500)
            );
        }
        let parts: Vec<String> = (0..self.random.usize(3..7))
            .map(|_| self.component(new))
            .collect();
        let quoted = parts.join("; ").replace('"', "\"\"");
        let energy = self.random.u32(20..150) * 10;
        writeln!(out, "Quayside {name} {at},,\"{quoted}\",,{energy}")
    }
}
