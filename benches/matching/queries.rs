//! The queries: names and other names of the catalogue as hurried people would write them.
//! Seeded, so that every run asks the same; which food is right is known by construction.

use fastrand::Rng;
use std::collections::HashSet;
use trencher::foods::FoodId;
use trencher::matching::Catalogue;

/// How many queries.
pub const QUERIES: usize = 1000;
const SEED: u64 = 20_261;

/// Words of menus and shopping lists that leave the food what it is.
const AROUND: [&str; 16] = [
    "house-made",
    "fresh",
    "organic",
    "locally sourced",
    "seasonal",
    "homemade",
    "artisan",
    "side of",
    "bowl of",
    "our own",
    "sliced",
    "diced",
    "chopped",
    "farm fresh",
    "premium",
    "traditional",
];

/// Rows of a keyboard: neighbours are taken for each other.
const KEYS: [&str; 3] = ["qwertyuiop", "asdfghjkl", "zxcvbnm"];

/// Words and the food they mean.
pub struct Asked {
    /// As written, lower case.
    pub text: String,
    /// The food whose name was changed.
    pub food: FoodId,
}

/// Every name and other name with its food, in the catalogue's order.
pub fn names(catalogue: &Catalogue) -> Vec<(String, FoodId)> {
    let mut list = Vec::new();
    for food in catalogue.foods() {
        for name in std::iter::once(food.name()).chain(food.aliases()) {
            list.push((name.to_lowercase(), food.id()));
        }
    }
    list
}

/// A fifth each: a slip of the finger, words turned round, kitchen words around, one and many
/// changed, all of the last three. None is a name of the catalogue as it stands.
pub fn queries(names: &[(String, FoodId)]) -> Vec<Asked> {
    let known: HashSet<&str> = names.iter().map(|(name, _)| name.as_str()).collect();
    let mut rng = Rng::with_seed(SEED);
    let mut list = Vec::with_capacity(QUERIES);
    while list.len() < QUERIES {
        let (name, food) = &names[rng.usize(..names.len())];
        let text = match list.len() % 5 {
            0 => slip(name, &mut rng),
            1 => turn(name, &mut rng),
            2 => Some(around(name, &mut rng)),
            3 => number(name, &mut rng),
            _ => turn(name, &mut rng)
                .and_then(|text| slip(&text, &mut rng))
                .map(|text| around(&text, &mut rng)),
        };
        let Some(text) = text.filter(|text| !known.contains(text.as_str())) else {
            continue;
        };
        list.push(Asked { text, food: *food });
    }
    list
}

/// One slip in one word of five letters or more: two letters swapped, one left out, one
/// doubled, or the key beside.
fn slip(name: &str, rng: &mut Rng) -> Option<String> {
    let mut words: Vec<String> = name.split(' ').map(str::to_owned).collect();
    let long: Vec<usize> = (0..words.len())
        .filter(|at| words[*at].len() >= 5 && words[*at].bytes().all(|b| b.is_ascii_lowercase()))
        .collect();
    let word = &mut words[*rng.choice(&long)?];
    let mut letters: Vec<char> = word.chars().collect();
    // The first letter is rarely missed.
    let at = rng.usize(1..letters.len() - 1);
    match rng.u8(..4) {
        0 => letters.swap(at, at + 1),
        1 => {
            letters.remove(at);
        }
        2 => letters.insert(at, letters[at]),
        _ => letters[at] = beside(letters[at], rng),
    }
    *word = letters.into_iter().collect();
    Some(words.join(" "))
}

fn beside(letter: char, rng: &mut Rng) -> char {
    let row = KEYS.iter().find(|row| row.contains(letter));
    let row: Vec<char> = row.map_or(vec![letter], |row| row.chars().collect());
    let at = row.iter().position(|key| *key == letter).unwrap_or(0);
    let right = at + 1 < row.len() && (at == 0 || rng.bool());
    row[if right { at + 1 } else { at.saturating_sub(1) }]
}

/// Parts between commas in another order, without the commas.
fn turn(name: &str, rng: &mut Rng) -> Option<String> {
    let mut parts: Vec<&str> = name.split(", ").collect();
    if parts.len() < 2 {
        return None;
    }
    let by = rng.usize(1..parts.len());
    parts.rotate_left(by);
    Some(parts.join(" "))
}

fn around(name: &str, rng: &mut Rng) -> String {
    let word = AROUND[rng.usize(..AROUND.len())];
    format!("{word} {name}")
}

/// One word gains or loses the `s` of the plural.
fn number(name: &str, rng: &mut Rng) -> Option<String> {
    let mut words: Vec<String> = name.split(' ').map(str::to_owned).collect();
    let able: Vec<usize> = (0..words.len())
        .filter(|at| {
            let word = words[*at].trim_end_matches(',');
            word.len() >= 4
                && word.bytes().all(|b| b.is_ascii_lowercase())
                && !word.ends_with("ss")
                && !word.ends_with("es")
                && !word.ends_with("us")
                && !word.ends_with('y')
                && !word.ends_with("ed")
                && !word.ends_with("sh")
                && !word.ends_with("ch")
        })
        .collect();
    let at = *rng.choice(&able)?;
    let comma = if words[at].ends_with(',') { "," } else { "" };
    let word = words[at].trim_end_matches(',').to_owned();
    let changed = word
        .strip_suffix('s')
        .map_or(format!("{word}s"), str::to_owned);
    words[at] = format!("{changed}{comma}");
    Some(words.join(" "))
}
