//! Words that mean another food in Britain than in America: `chips`, `biscuit`, `squash`.

use super::forms::words;
use std::borrow::Cow;
use std::collections::HashMap;
use std::sync::OnceLock;

/// Words, what they mean in Britain, and the source. A meaning that is the words themselves
/// keeps a longer name together (`tortilla chips` hold no `chips`).
const TABLE: &str = include_str!("tables/british.csv");

/// Longest phrase of the table, in words.
const LONGEST: usize = 4;

/// Words behind which what follows is another food: a sense holds for what is named, not for
/// what only stands before a name (`bacon cheeseburger`).
const JOINERS: [&str; 12] = [
    "and", "or", "with", "without", "in", "on", "over", "no", "for", "from", "to", "of",
];

/// Phrases in base form and what they mean.
pub(crate) type Senses = HashMap<String, &'static str>;

pub(crate) fn senses() -> &'static Senses {
    static SENSES: OnceLock<Senses> = OnceLock::new();
    SENSES.get_or_init(|| {
        TABLE
            .lines()
            .skip(1)
            .filter_map(|line| {
                let mut fields = line.split(',');
                let phrase = words(fields.next()?).join(" ");
                Some((phrase, fields.next()?))
            })
            .collect()
    })
}

/// Words that in the plural mean another food, which base forms can not tell apart: peppers are
/// a vegetable, pepper is a spice (common practice).
const PLURALS: [(&str, &str); 2] = [
    ("peppers", "bell peppers"),
    ("mixed peppers", "bell peppers"),
];

/// What the whole text means where its plural means another food.
#[must_use]
pub(crate) fn plural_sense(text: &str) -> Option<&'static str> {
    let text = text.trim();
    let same = |(said, _): &&(&str, &str)| said.eq_ignore_ascii_case(text);
    PLURALS.iter().find(same).map(|(_, meant)| *meant)
}

/// A word of a text: where it stands, in base form, and whether it hangs together with the
/// word before it.
struct Word {
    start: usize,
    end: usize,
    base: String,
    joined: bool,
}

/// The text as an American would write it; borrowed where nothing differs.
#[must_use]
pub(crate) fn american(text: &str) -> Cow<'_, str> {
    let list = split(text);
    let mut out = String::new();
    let mut copied = 0;
    let mut at = 0;
    while at < list.len() {
        let Some((length, meaning)) = sense_at(&list[at..]) else {
            at += 1;
            continue;
        };
        let (first, last) = (&list[at], &list[at + length - 1]);
        if words(meaning).join(" ") != words(&text[first.start..last.end]).join(" ") {
            out.push_str(&text[copied..first.start]);
            out.push_str(meaning);
            copied = last.end;
        }
        at += length;
    }
    if copied == 0 {
        return Cow::Borrowed(text);
    }
    out.push_str(&text[copied..]);
    Cow::Owned(out)
}

/// The longest phrase at the start that has a sense of its own here and is what is named.
fn sense_at(list: &[Word]) -> Option<(usize, &'static str)> {
    let mut phrase = String::new();
    let mut best = None;
    for (at, word) in list.iter().take(LONGEST).enumerate() {
        if at > 0 {
            if !word.joined {
                break;
            }
            phrase.push(' ');
        }
        phrase.push_str(&word.base);
        let named = list
            .get(at + 1)
            .is_none_or(|next| !next.joined || JOINERS.contains(&next.base.as_str()));
        if let Some(meaning) = senses().get(&phrase).filter(|_| named) {
            best = Some((at + 1, *meaning));
        }
    }
    best
}

fn split(text: &str) -> Vec<Word> {
    let mut list: Vec<Word> = Vec::new();
    let mut start = None;
    let letters = text.char_indices().chain([(text.len(), ' ')]);
    for (at, letter) in letters {
        let inside = letter.is_alphanumeric() || matches!(letter, '\'' | '\u{2019}' | '%');
        match (inside, start) {
            (true, None) => start = Some(at),
            (false, Some(from)) => {
                let before = list.last().map_or(0, |word| word.end);
                let gap = &text[before..from];
                let base = words(&text[from..at]).join(" ");
                list.push(Word {
                    start: from,
                    end: at,
                    base,
                    joined: gap.chars().all(|c| c.is_whitespace() || c == '-'),
                });
                start = None;
            }
            _ => {}
        }
    }
    list
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_is_named_takes_its_british_sense() {
        for (british, meant) in [
            ("chips", "french fries"),
            ("Chips and gravy", "french fries and gravy"),
            ("cod, chips, mushy peas", "cod, french fries, mushy peas"),
            ("chocolate biscuits", "chocolate cookie"),
            ("orange squash", "fruit drink"),
            ("smoked bacon", "smoked back bacon"),
            (
                "raspberry jelly with cream",
                "raspberry gelatin dessert with cream",
            ),
        ] {
            assert_eq!(american(british), meant);
        }
    }

    #[test]
    fn longer_names_and_what_only_stands_before_a_name_are_left() {
        for same in [
            "tortilla chips",
            "Potato chips, salted",
            "bacon cheeseburger",
            "biscuit base",
            "jelly babies",
            "digestive biscuits",
            "black pudding",
            "blueberry muffin",
            "",
            "\u{1f35f}",
        ] {
            assert!(matches!(american(same), Cow::Borrowed(_)), "{same}");
        }
    }

    #[test]
    fn the_table_is_whole() {
        assert!(senses().len() >= 50, "{}", senses().len());
        for line in TABLE.lines() {
            assert_eq!(line.split(',').count(), 3, "{line}");
        }
        for phrase in senses().keys() {
            assert!(phrase.split(' ').count() <= LONGEST, "{phrase}");
        }
    }

    proptest! {
        #[test]
        fn any_text_is_answered(text in "\\PC{0,40}") {
            let said = american(&format!("{text}, chips")).into_owned();
            prop_assert!(said.ends_with("french fries"), "{}", said);
        }
    }
}
