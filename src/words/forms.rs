//! From written words to comparable word forms.
//!
//! This file is also compiled into the build script, which prepares the index with the
//! very same forms.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// Splits text into comparable words: lower case, no accents, one form for singular and
/// plural, American spelling, numbers kept, a percent sign kept with its number.
#[must_use]
pub fn words(text: &str) -> Vec<String> {
    let words = split(text).into_iter();
    words.map(|word| american(singular(word))).collect()
}

/// Splits text into lower-case words without accents, forms untouched. An apostrophe
/// inside a word is dropped (`shepherd's` is `shepherds`); `&` is `and`.
#[must_use]
pub(crate) fn split(text: &str) -> Vec<String> {
    let mut words = Vec::with_capacity(USUAL_WORDS);
    if !text.is_ascii() {
        split_plain(plain_letters(text), &mut words);
    } else if text.bytes().all(is_simple) {
        split_simple(text, &mut words);
    } else {
        split_plain(text.chars().map(|c| c.to_ascii_lowercase()), &mut words);
    }
    fold_without(words)
}

/// Words of a text for which there is room at first.
const USUAL_WORDS: usize = 4;

/// Whether a character is of a word or parts two, whatever stands around it.
fn is_simple(byte: u8) -> bool {
    byte.is_ascii_alphabetic() || !(byte.is_ascii_digit() || matches!(byte, b'\'' | b'&' | b'/'))
}

/// Splits text of nothing but letters and what parts them: most texts are such.
fn split_simple(text: &str, words: &mut Vec<String>) {
    let parts = text.split(|letter: char| !letter.is_ascii_alphabetic());
    words.extend(parts.filter(|part| !part.is_empty()).map(|part| {
        let mut word = String::with_capacity(USUAL_LENGTH.max(part.len()));
        word.push_str(part);
        word.make_ascii_lowercase();
        word
    }));
}

/// Italian and French articles and prepositions that lose their vowel before another.
const ELIDED: [&str; 7] = ["all", "dell", "nell", "dall", "sull", "d", "l"];

/// Room for a word: hardly one is longer.
const USUAL_LENGTH: usize = 16;

fn split_plain(letters: impl Iterator<Item = char>, words: &mut Vec<String>) {
    let mut word = String::new();
    let mut flush = |word: &mut String| {
        if !word.is_empty() {
            words.push(std::mem::take(word));
        }
    };
    for letter in letters {
        match letter {
            'a'..='z' | '0'..='9' => {
                // `85lean` and `6oz` are two words, `b12` is one.
                if letter.is_ascii_alphabetic() && word.ends_with(|c: char| c.is_ascii_digit()) {
                    flush(&mut word);
                }
                if word.is_empty() {
                    word.reserve(USUAL_LENGTH);
                }
                word.push(letter);
            }
            '%' if word.ends_with(|c: char| c.is_ascii_digit()) => {
                word.push('%');
                flush(&mut word);
            }
            // `all'arrabbiata` and `d'agneau` are about arrabbiata and agneau.
            '\'' | '\u{2019}' if ELIDED.contains(&word.as_str()) => word.clear(),
            '\'' | '\u{2019}' => {}
            '&' => {
                flush(&mut word);
                word.push_str("and");
                flush(&mut word);
            }
            '/' if word == "w" => {
                word.clear();
                word.push_str("with");
                flush(&mut word);
            }
            _ => flush(&mut word),
        }
    }
    flush(&mut word);
}

/// `w/o` reads as the words `with` and `o` above (`w/out` as `with` and `out`); together
/// they mean `without`.
fn fold_without(words: Vec<String>) -> Vec<String> {
    if !words
        .iter()
        .any(|word| matches!(word.as_str(), "o" | "out"))
    {
        return words;
    }
    let mut folded: Vec<String> = Vec::with_capacity(words.len());
    for word in words {
        if matches!(word.as_str(), "o" | "out") && folded.last().is_some_and(|last| last == "with")
        {
            folded.pop();
            folded.push("without".to_owned());
        } else {
            folded.push(word);
        }
    }
    folded
}

/// Lower-case letters with accents taken off; everything else as it stands.
pub(crate) fn plain_letters(text: &str) -> impl Iterator<Item = char> + '_ {
    text.nfkd()
        .filter(|c| !is_combining_mark(*c))
        .flat_map(char::to_lowercase)
        .map(|c| match c {
            'ø' => 'o',
            'ł' => 'l',
            'đ' => 'd',
            'ı' => 'i',
            other => other,
        })
}

/// One form for singular and plural, and for British and American spelling.
#[must_use]
pub(crate) fn base_form(word: &str) -> String {
    american(singular(word.to_owned()))
}

/// Words that look plural and are not, or whose plural is irregular; in alphabetical order.
const IRREGULAR: &[(&str, &str)] = &[
    ("anchovies", "anchovy"),
    ("angus", "angus"),
    ("asparagus", "asparagus"),
    ("au", "au"),
    ("bass", "bass"),
    ("boneless", "boneless"),
    ("brownies", "brownie"),
    ("brussel", "brussels"),
    ("brussels", "brussels"),
    ("calories", "calorie"),
    ("calves", "calf"),
    ("cheeses", "cheese"),
    ("chive", "chive"),
    ("chives", "chive"),
    ("citrus", "citrus"),
    ("cloves", "clove"),
    ("cookies", "cookie"),
    ("couscous", "couscous"),
    ("cress", "cress"),
    ("edamames", "edamame"),
    ("endives", "endive"),
    ("foie", "foie"),
    ("frites", "frites"),
    ("gas", "gas"),
    ("glass", "glass"),
    ("gras", "gras"),
    ("green", "green"),
    ("greens", "greens"),
    ("grits", "grits"),
    ("haas", "hass"),
    ("halves", "half"),
    ("haricots", "haricot"),
    ("hass", "hass"),
    ("hibiscus", "hibiscus"),
    ("hoagies", "hoagie"),
    ("hummus", "hummus"),
    ("is", "is"),
    ("juices", "juice"),
    ("jus", "jus"),
    ("knives", "knife"),
    ("leaves", "leaf"),
    ("lentils", "lentil"),
    ("less", "less"),
    ("loaves", "loaf"),
    ("mangoes", "mango"),
    ("molasses", "molasses"),
    ("mousse", "mousse"),
    ("nachos", "nacho"),
    ("oats", "oat"),
    ("octopus", "octopus"),
    ("olives", "olive"),
    ("paninis", "panini"),
    ("panino", "panini"),
    ("peaches", "peach"),
    ("peas", "pea"),
    ("pease", "pea"),
    ("pierogies", "pierogi"),
    ("pierogis", "pierogi"),
    ("pies", "pie"),
    ("plus", "plus"),
    ("potatoes", "potato"),
    ("potpies", "potpie"),
    ("radishes", "radish"),
    ("raviolis", "ravioli"),
    ("sandwiches", "sandwich"),
    ("sauces", "sauce"),
    ("schnapps", "schnapps"),
    ("seedless", "seedless"),
    ("series", "series"),
    ("skinless", "skinless"),
    ("slices", "slice"),
    ("smoothies", "smoothie"),
    ("species", "species"),
    ("spices", "spice"),
    ("sprouts", "sprout"),
    ("squashes", "squash"),
    ("swiss", "swiss"),
    ("swordfishes", "swordfish"),
    ("tamal", "tamale"),
    ("tamales", "tamale"),
    ("tapas", "tapa"),
    ("taquitos", "taquito"),
    ("this", "this"),
    ("tomatoes", "tomato"),
    ("tortas", "torta"),
    ("veggies", "veggie"),
    ("verts", "vert"),
    ("watercress", "watercress"),
    ("weenies", "weenie"),
    ("wings", "wing"),
    ("yoghurts", "yogurt"),
];

/// Where the words of each first letter begin in a table in alphabetical order: most words are in
/// no table, and a few comparisons tell so.
type Starts = [u8; 27];

static IRREGULAR_STARTS: Starts = starts(IRREGULAR);
static SPELLING_STARTS: Starts = starts(SPELLINGS);

const fn starts(table: &[(&str, &str)]) -> Starts {
    let mut all = [table.len() as u8; 27];
    let mut at = table.len();
    while at > 0 {
        at -= 1;
        let letter = table[at].0.as_bytes()[0] - b'a';
        let mut before = 0;
        while before <= letter {
            all[before as usize] = at as u8;
            before += 1;
        }
    }
    all
}

/// What a table in alphabetical order says of a word.
fn listed(
    table: &[(&'static str, &'static str)],
    starts: &Starts,
    word: &str,
) -> Option<&'static str> {
    let first = usize::from(word.as_bytes().first()?.wrapping_sub(b'a'));
    let (from, to) = (*starts.get(first)?, *starts.get(first + 1)?);
    let begun = &table[usize::from(from)..usize::from(to)];
    let row = begun.iter().find(|(from, _)| *from == word)?;
    Some(row.1)
}

fn singular(mut word: String) -> String {
    if let Some(base) = listed(IRREGULAR, &IRREGULAR_STARTS, &word) {
        base.clone_into(&mut word);
        return word;
    }
    if word.len() < 4 || !word.ends_with('s') || word.ends_with("ss") || word.ends_with("us") {
        return word;
    }
    let shorter = |by: usize| word.len() - by;
    if word.ends_with("ies") {
        word.truncate(shorter(3));
        word.push('y');
        return word;
    }
    let endings = ["oes", "shes", "ches", "sses", "xes", "zzes"];
    let two = endings.iter().any(|ending| word.ends_with(ending));
    word.truncate(shorter(if two { 2 } else { 1 }));
    word
}

/// Spellings that differ across the Atlantic; in alphabetical order.
const SPELLINGS: &[(&str, &str)] = &[
    ("aubergine", "eggplant"),
    ("barbecued", "barbecue"),
    ("barbeque", "barbecue"),
    ("bbq", "barbecue"),
    ("caramelised", "caramelized"),
    ("catsup", "ketchup"),
    ("chile", "chili"),
    ("chilie", "chili"),
    ("chilli", "chili"),
    ("colour", "color"),
    ("courgette", "zucchini"),
    ("doughnut", "donut"),
    ("fibre", "fiber"),
    ("flavour", "flavor"),
    ("flavoured", "flavored"),
    ("grey", "gray"),
    ("lasagne", "lasagna"),
    ("lasagnes", "lasagna"),
    ("lowfat", "lowfat"),
    ("mayo", "mayonnaise"),
    ("nonfat", "fatfree"),
    ("omelette", "omelet"),
    ("pasteurised", "pasteurized"),
    ("prawn", "shrimp"),
    ("savoury", "savory"),
    ("skimmed", "skim"),
    ("sulphured", "sulfured"),
    ("tinned", "canned"),
    ("toasted", "toasted"),
    ("veg", "vegetable"),
    ("veggie", "vegetable"),
    ("whisky", "whiskey"),
    ("wholemeal", "wholewheat"),
    ("yoghourt", "yogurt"),
    ("yoghurt", "yogurt"),
];

fn american(mut word: String) -> String {
    if let Some(base) = listed(SPELLINGS, &SPELLING_STARTS, &word) {
        base.clone_into(&mut word);
    }
    word
}

#[cfg(test)]
mod tests {
    use super::*;

    fn p(text: &str) -> String {
        words(text).join(" ")
    }

    #[test]
    fn forms_meet() {
        assert_eq!(p("Cherry Tomatoes, halved"), p("cherry tomato halved"));
        assert_eq!(p("jalapeño"), "jalapeno");
        assert_eq!(p("Crème fraîche"), "creme fraiche");
        assert_eq!(p("radishes"), "radish");
        assert_eq!(p("hummus"), "hummus");
        assert_eq!(p("yoghurt"), "yogurt");
        assert_eq!(p("shepherd's pie"), "shepherd pie");
    }

    #[test]
    fn tables_are_in_order() {
        for table in [IRREGULAR, SPELLINGS] {
            assert!(table.is_sorted_by(|a, b| a.0 < b.0));
        }
    }

    #[test]
    fn signs_and_numbers() {
        assert_eq!(p("2% milk"), "2% milk");
        assert_eq!(p("85% lean"), "85% lean");
        assert_eq!(p("steak w/o fat"), "steak without fat");
        assert_eq!(p("ham w/ cheese"), "ham with cheese");
        assert_eq!(p("mac & cheese"), "mac and cheese");
        assert_eq!(p("6oz"), "6 oz");
    }
}
