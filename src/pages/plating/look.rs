//! How a food is drawn: looked up in a table by its words and its family.

use crate::pages::drawing::{Form, GlassSort, Look, Rgb};
use std::sync::LazyLock;

/// Where a food goes on the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Goes {
    /// Lies by itself.
    Pile,
    /// Lies on what it dresses.
    Top,
    /// Stands in a little dish, unless it dresses leaves or is in something.
    Dip,
    /// Is drunk from this.
    Glass(GlassSort),
}

/// A row of the table.
#[derive(Debug)]
struct Row {
    /// One of these lists must be there: of each word in it one form.
    words: Vec<Vec<Vec<String>>>,
    family: String,
    form: Form,
    tint: Rgb,
    goes: Goes,
}

/// The table, in order: the first row that fits is taken.
static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| rows(include_str!("looks.csv")));

fn rows(table: &str) -> Vec<Row> {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(table.as_bytes());
    let row = |record: &csv::StringRecord| {
        let field = |at: usize| record.get(at).unwrap_or_default();
        let all = |words: &str| {
            let each = words.split_whitespace();
            each.map(|word| word.split('|').map(stem).collect())
                .collect()
        };
        Some(Row {
            words: field(0).split(';').map(all).collect(),
            family: field(1).to_owned(),
            form: Form::from_key(field(2))?,
            tint: Rgb::hex(u32::from_str_radix(field(3), 16).ok()?),
            goes: goes(field(4))?,
        })
    };
    reader.records().flatten().filter_map(|r| row(&r)).collect()
}

fn goes(word: &str) -> Option<Goes> {
    Some(match word {
        "pile" => Goes::Pile,
        "top" => Goes::Top,
        "dip" => Goes::Dip,
        "wine" => Goes::Glass(GlassSort::Wine),
        "beer" => Goes::Glass(GlassSort::Beer),
        "stemmed" => Goes::Glass(GlassSort::Stemmed),
        "mug" => Goes::Glass(GlassSort::Mug),
        "lidded" => Goes::Glass(GlassSort::Lidded),
        "tumbler" => Goes::Glass(GlassSort::Tumbler),
        "bottle" => Goes::Glass(GlassSort::Bottle),
        _ => return None,
    })
}

/// A word without its plural, lower case.
fn stem(word: &str) -> String {
    let word = word.to_lowercase();
    let plain = match word.strip_suffix("es") {
        Some(head) if head.ends_with("to") || head.ends_with("sh") || head.ends_with("ch") => head,
        _ => word
            .strip_suffix('s')
            .filter(|w| !w.ends_with('s'))
            .unwrap_or(&word),
    };
    plain.to_owned()
}

fn stems(text: &str) -> Vec<String> {
    text.split(|c: char| !c.is_alphanumeric())
        .filter(|w| !w.is_empty())
        .map(stem)
        .collect()
}

/// Words that begin what a food comes with or without: it looks like what stands before them.
const COMES_WITH: [&str; 4] = ["with", "without", "no", "in"];

/// A name up to what the food comes with: `ravioli` of `ravioli with tomato sauce`.
pub(super) fn head(name: &str) -> &str {
    let begins = |word: &str| COMES_WITH.contains(&word) || word == "w/";
    let mut words = name.split([' ', ',']).filter(|w| !w.is_empty());
    // A name that begins so has no head.
    let with = words.next().and_then(|_| words.find(|w| begins(w)));
    let at = with.map(|word| word.as_ptr() as usize - name.as_ptr() as usize);
    at.map_or(name, |at| name[..at].trim_end_matches([' ', ',']))
}

/// How a food of this name and family is drawn, and where it goes.
pub(super) fn look(name: &str, family: &str, count: Option<u32>) -> (Look, Goes) {
    let words = stems(name);
    let says = |forms: &Vec<String>| forms.iter().any(|f| words.contains(f));
    let fits = |row: &&Row| {
        (row.family.is_empty() || row.family == family)
            && row.words.iter().any(|all| all.iter().all(says))
    };
    let (form, tint, goes) = ROWS
        .iter()
        .find(fits)
        .map_or((Form::Chunks, Rgb::hex(0xc2_9a6a), Goes::Pile), |row| {
            (row.form, row.tint, row.goes)
        });
    let look = Look {
        form,
        tint,
        count,
        seed: name.to_owned(),
    };
    (look, goes)
}

#[cfg(test)]
mod tests {
    use super::{Goes, ROWS, head, look};
    use crate::pages::drawing::{Form, GlassSort};

    #[test]
    fn every_row_of_the_table_is_read() {
        let lines = include_str!("looks.csv").lines();
        let rows = lines.filter(|l| !l.starts_with('#')).count() - 1;
        assert_eq!(ROWS.len(), rows);
    }

    #[test]
    fn foods_are_drawn_by_their_words_and_family() {
        let drawn = |name: &str, family: &str| {
            let (look, goes) = look(name, family, None);
            (look.form, goes)
        };
        assert_eq!(
            drawn("french fries, restaurant style", "potato"),
            (Form::Fries, Goes::Pile)
        );
        assert_eq!(
            drawn("red wine", "alcoholic drink"),
            (Form::Liquid, Goes::Glass(GlassSort::Wine))
        );
        assert_eq!(drawn("tartar sauce", "sauce"), (Form::Sauce, Goes::Dip));
        assert_eq!(
            drawn("tomatoes, raw", "vegetable"),
            (Form::TomatoWedges, Goes::Pile)
        );
        assert_eq!(
            drawn("something odd", "mixed dish"),
            (Form::Chunks, Goes::Pile)
        );
    }

    #[test]
    fn a_food_looks_like_what_stands_before_what_it_comes_with() {
        let cases = [
            ("ravioli with tomato sauce", "ravioli"),
            ("beef hot dog, without bun", "beef hot dog"),
            ("garden salad, no dressing", "garden salad"),
            ("shrimp in garlic sauce", "shrimp"),
            ("w/ cheese", "w/ cheese"),
            ("rice", "rice"),
            ("", ""),
        ];
        for (name, expected) in cases {
            assert_eq!(head(name), expected);
        }
    }
}
