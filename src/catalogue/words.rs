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
    split(text).iter().map(|word| base_form(word)).collect()
}

/// Splits text into lower-case words without accents, forms untouched. An apostrophe
/// inside a word is dropped (`shepherd's` is `shepherds`); `&` is `and`.
#[must_use]
pub fn split(text: &str) -> Vec<String> {
    let mut words = Vec::new();
    let mut word = String::new();
    let mut flush = |word: &mut String| {
        if !word.is_empty() {
            words.push(std::mem::take(word));
        }
    };
    let mut previous = ' ';
    for letter in plain_letters(text) {
        match letter {
            'a'..='z' | '0'..='9' => {
                // `85lean` and `6oz` are two words, `b12` is one.
                if letter.is_ascii_alphabetic() && word.ends_with(|c: char| c.is_ascii_digit()) {
                    flush(&mut word);
                }
                word.push(letter);
            }
            '%' if word.ends_with(|c: char| c.is_ascii_digit()) => {
                word.push('%');
                flush(&mut word);
            }
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
        previous = letter;
    }
    let _ = previous;
    flush(&mut word);
    fold_without(words)
}

/// `w/o` reads as the words `with` and `o` above (`w/out` as `with` and `out`); together
/// they mean `without`.
fn fold_without(words: Vec<String>) -> Vec<String> {
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
pub fn plain_letters(text: &str) -> impl Iterator<Item = char> + '_ {
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
pub fn base_form(word: &str) -> String {
    american(&singular(word))
}

/// Words that look plural and are not, or whose plural is irregular.
const IRREGULAR: &[(&str, &str)] = &[
    ("leaves", "leaf"),
    ("loaves", "loaf"),
    ("halves", "half"),
    ("calves", "calf"),
    ("knives", "knife"),
    ("slices", "slice"),
    ("spices", "spice"),
    ("juices", "juice"),
    ("sauces", "sauce"),
    ("cheeses", "cheese"),
    ("olives", "olive"),
    ("chives", "chive"),
    ("chive", "chive"),
    ("endives", "endive"),
    ("cloves", "clove"),
    ("cookies", "cookie"),
    ("brownies", "brownie"),
    ("smoothies", "smoothie"),
    ("veggies", "veggie"),
    ("calories", "calorie"),
    ("pies", "pie"),
    ("potpies", "potpie"),
    ("hoagies", "hoagie"),
    ("weenies", "weenie"),
    ("anchovies", "anchovy"),
    ("sprouts", "sprout"),
    ("hummus", "hummus"),
    ("asparagus", "asparagus"),
    ("couscous", "couscous"),
    ("molasses", "molasses"),
    ("swiss", "swiss"),
    ("citrus", "citrus"),
    ("octopus", "octopus"),
    ("hibiscus", "hibiscus"),
    ("bass", "bass"),
    ("boneless", "boneless"),
    ("skinless", "skinless"),
    ("seedless", "seedless"),
    ("less", "less"),
    ("glass", "glass"),
    ("gas", "gas"),
    ("peas", "pea"),
    ("pease", "pea"),
    ("haas", "hass"),
    ("hass", "hass"),
    ("watercress", "watercress"),
    ("cress", "cress"),
    ("schnapps", "schnapps"),
    ("au", "au"),
    ("jus", "jus"),
    ("foie", "foie"),
    ("gras", "gras"),
    ("grits", "grits"),
    ("tapas", "tapa"),
    ("taquitos", "taquito"),
    ("potatoes", "potato"),
    ("tomatoes", "tomato"),
    ("mangoes", "mango"),
    ("radishes", "radish"),
    ("peaches", "peach"),
    ("sandwiches", "sandwich"),
    ("squashes", "squash"),
    ("swordfishes", "swordfish"),
    ("this", "this"),
    ("is", "is"),
    ("nachos", "nacho"),
    ("pierogies", "pierogi"),
    ("pierogis", "pierogi"),
    ("raviolis", "ravioli"),
    ("paninis", "panini"),
    ("panino", "panini"),
    ("tamales", "tamale"),
    ("tamal", "tamale"),
    ("tortas", "torta"),
    ("yoghurts", "yogurt"),
    ("mousse", "mousse"),
    ("frites", "frites"),
    ("haricots", "haricot"),
    ("verts", "vert"),
    ("greens", "greens"),
    ("green", "green"),
    ("brussels", "brussels"),
    ("brussel", "brussels"),
    ("oats", "oat"),
    ("lentils", "lentil"),
    ("wings", "wing"),
    ("series", "series"),
    ("species", "species"),
    ("angus", "angus"),
    ("plus", "plus"),
    ("edamames", "edamame"),
];

fn singular(word: &str) -> String {
    if let Some((_, base)) = IRREGULAR.iter().find(|(plural, _)| *plural == word) {
        return (*base).to_owned();
    }
    if word.len() < 4 || !word.ends_with('s') || word.ends_with("ss") || word.ends_with("us") {
        return word.to_owned();
    }
    if let Some(stem) = word.strip_suffix("ies") {
        return format!("{stem}y");
    }
    for ending in ["oes", "shes", "ches", "sses", "xes", "zzes"] {
        if word.ends_with(ending) {
            return word[..word.len() - 2].to_owned();
        }
    }
    word[..word.len() - 1].to_owned()
}

/// Spellings that differ across the Atlantic.
const SPELLINGS: &[(&str, &str)] = &[
    ("yoghurt", "yogurt"),
    ("yoghourt", "yogurt"),
    ("fibre", "fiber"),
    ("flavour", "flavor"),
    ("flavoured", "flavored"),
    ("doughnut", "donut"),
    ("chilli", "chili"),
    ("chile", "chili"),
    ("chilie", "chili"),
    ("catsup", "ketchup"),
    ("omelette", "omelet"),
    ("grey", "gray"),
    ("whisky", "whiskey"),
    ("skimmed", "skim"),
    ("wholemeal", "wholewheat"),
    ("colour", "color"),
    ("savoury", "savory"),
    ("caramelised", "caramelized"),
    ("pasteurised", "pasteurized"),
    ("sulphured", "sulfured"),
    ("barbeque", "barbecue"),
    ("bbq", "barbecue"),
    ("barbecued", "barbecue"),
    ("mayo", "mayonnaise"),
    ("veg", "vegetable"),
    ("veggie", "vegetable"),
    ("tinned", "canned"),
    ("nonfat", "fatfree"),
    ("lowfat", "lowfat"),
    ("aubergine", "eggplant"),
    ("courgette", "zucchini"),
    ("prawn", "shrimp"),
    ("toasted", "toasted"),
];

fn american(word: &str) -> String {
    SPELLINGS
        .iter()
        .find(|(other, _)| *other == word)
        .map_or_else(|| word.to_owned(), |(_, base)| (*base).to_owned())
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
    fn signs_and_numbers() {
        assert_eq!(p("2% milk"), "2% milk");
        assert_eq!(p("85% lean"), "85% lean");
        assert_eq!(p("steak w/o fat"), "steak without fat");
        assert_eq!(p("ham w/ cheese"), "ham with cheese");
        assert_eq!(p("mac & cheese"), "mac and cheese");
        assert_eq!(p("6oz"), "6 oz");
    }
}
