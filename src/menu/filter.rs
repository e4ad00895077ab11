//! Plain expressions that choose rows: `energy below 700 and vegetables at least 1.5`,
//! `contains "shrimp" or sodium > 1500`, `not (grains share > 50%)`.
//!
//! Figures: portions of a group by its name, amounts of a limit by its name (kcal, g, mg),
//! either with `share` for the share of the day, grams of `protein`, `carbohydrate`, `fat`, `fibre`,
//! `fitted`, `grams`, `printed`, `certainty`. A
//! figure that is not known meets no comparison.

use super::field::Field;
use super::item::PrintedIs;
use super::row::Row;
use crate::matching::{Catalogue, Certainty};
use crate::words::words;

/// Why an expression can not be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub(crate) enum FilterError {
    /// It ends where something must follow.
    #[error("`{text}` ends early: {wanted} must follow")]
    Ends {
        /// The expression.
        text: String,
        /// What is wanted.
        wanted: &'static str,
    },
    /// Something stands where it can not.
    #[error("`{found}` at character {at} is not {wanted}")]
    Unexpected {
        /// What stands there.
        found: String,
        /// Where, from 1.
        at: usize,
        /// What is wanted.
        wanted: &'static str,
    },
    /// A figure that does not exist.
    #[error(
        "no figure is called `{name}`; there are: energy, saturated fat, added sugars, sodium, solid fats, alcohol, fruits, vegetables, pulses, grains, protein foods, dairy, oils (each with `share` for the share of a day), protein, carbohydrate, fat, fibre, fitted, grams, printed, certainty"
    )]
    Field {
        /// As written.
        name: String,
    },
    /// Brackets in brackets in brackets.
    #[error("more than {0} brackets or `not` within one another")]
    Deep(usize),
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Compare {
    Less,
    AtMost,
    More,
    AtLeast,
    Equal,
    Unequal,
}

#[derive(Debug, Clone, PartialEq)]
enum Node {
    All(Vec<Node>),
    Any(Vec<Node>),
    Not(Box<Node>),
    Figure(Field, Compare, f64),
    /// Words in base form that stand one after the other.
    Contains(Vec<String>),
}

/// An expression that is true or false of a row.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Filter {
    node: Node,
    asks_words: bool,
}

#[derive(Debug, Clone, PartialEq)]
enum Token {
    Word(String),
    Quoted(String),
    Number(f64),
    Compare(Compare),
    Open,
    Close,
}

/// Most brackets within one another.
const DEEPEST: usize = 40;

impl Filter {
    /// Reads an expression.
    pub(crate) fn parse(text: &str) -> Result<Self, FilterError> {
        let tokens = tokens(text)?;
        let mut parser = Parser {
            text,
            tokens: &tokens,
            at: 0,
            deep: 0,
        };
        let node = parser.any()?;
        if let Some((token, at)) = parser.tokens.get(parser.at) {
            return Err(unexpected(token, *at, "`and` or `or`"));
        }
        let asks_words = tokens
            .iter()
            .any(|(t, _)| matches!(t, Token::Word(w) if w == "contains"));
        Ok(Self { node, asks_words })
    }

    /// Whether it asks for words, so that the caution on allergens belongs beside its answer.
    pub(crate) fn asks_words(&self) -> bool {
        self.asks_words
    }

    /// Whether a row meets it. `description` is the item's own text beside its name.
    pub(crate) fn meets(&self, row: &Row, description: &str, catalogue: &Catalogue) -> bool {
        let text = if self.asks_words {
            spoken(row, description, catalogue)
        } else {
            Vec::new()
        };
        holds(&self.node, row, &text)
    }
}

/// All words that an item says or was taken for, texts apart.
fn spoken(row: &Row, description: &str, catalogue: &Catalogue) -> Vec<Vec<String>> {
    let mut texts = vec![words(&row.item), words(description)];
    for c in &row.components {
        texts.push(words(&c.text));
        if let Some(id) = c.food {
            texts.push(words(catalogue.food(id).name()));
        }
    }
    texts.extend(row.unmatched.iter().map(|t| words(t)));
    texts
}

fn holds(node: &Node, row: &Row, text: &[Vec<String>]) -> bool {
    match node {
        Node::All(list) => list.iter().all(|n| holds(n, row, text)),
        Node::Any(list) => list.iter().any(|n| holds(n, row, text)),
        Node::Not(inner) => !holds(inner, row, text),
        Node::Figure(field, compare, than) => field.of(row).is_some_and(|value| match compare {
            Compare::Less => value < *than,
            Compare::AtMost => value <= *than,
            Compare::More => value > *than,
            Compare::AtLeast => value >= *than,
            Compare::Equal => (value - than).abs() < 1e-9,
            Compare::Unequal => (value - than).abs() >= 1e-9,
        }),
        Node::Contains(asked) => text
            .iter()
            .any(|t| t.windows(asked.len()).any(|part| part == asked)),
    }
}

struct Parser<'t> {
    text: &'t str,
    tokens: &'t [(Token, usize)],
    at: usize,
    deep: usize,
}

impl Parser<'_> {
    fn any(&mut self) -> Result<Node, FilterError> {
        let mut list = vec![self.all()?];
        while self.takes("or") {
            list.push(self.all()?);
        }
        Ok(one_or(list, Node::Any))
    }

    fn all(&mut self) -> Result<Node, FilterError> {
        let mut list = vec![self.one()?];
        while self.takes("and") {
            list.push(self.one()?);
        }
        Ok(one_or(list, Node::All))
    }

    fn one(&mut self) -> Result<Node, FilterError> {
        self.deep += 1;
        if self.deep > DEEPEST {
            return Err(FilterError::Deep(DEEPEST));
        }
        let node = self.inner();
        self.deep -= 1;
        node
    }

    fn inner(&mut self) -> Result<Node, FilterError> {
        if self.takes("not") {
            return Ok(Node::Not(Box::new(self.one()?)));
        }
        if let Some((Token::Open, _)) = self.tokens.get(self.at) {
            self.at += 1;
            let node = self.any()?;
            return match self.next("a closing bracket")? {
                (Token::Close, _) => Ok(node),
                (token, at) => Err(unexpected(&token, at, "a closing bracket")),
            };
        }
        if self.takes("contains") {
            return self.contains();
        }
        self.figure()
    }

    fn contains(&mut self) -> Result<Node, FilterError> {
        const WANTED: &str = "a word in quotes";
        let (token, at) = self.next(WANTED)?;
        let (Token::Quoted(text) | Token::Word(text)) = &token else {
            return Err(unexpected(&token, at, WANTED));
        };
        let asked = words(text);
        if asked.is_empty() {
            return Err(unexpected(&token, at, WANTED));
        }
        Ok(Node::Contains(asked))
    }

    fn figure(&mut self) -> Result<Node, FilterError> {
        let mut name = Vec::new();
        let field = loop {
            let (token, at) = self.next("a comparison such as `below 700`")?;
            match token {
                Token::Word(word) => name.push(word),
                Token::Compare(compare) if !name.is_empty() => break (name.join(" "), compare),
                other => return Err(unexpected(&other, at, "the name of a figure")),
            }
        };
        let (name, compare) = field;
        let field = Field::from_words(&name).ok_or(FilterError::Field { name })?;
        let (token, at) = self.next("a number")?;
        let (field, than) = match (&token, field) {
            (Token::Number(number), field) => (field, *number),
            (Token::Word(word), Field::Certainty) => {
                let all = [
                    Certainty::None,
                    Certainty::Guess,
                    Certainty::Likely,
                    Certainty::Sure,
                ];
                let found = all.into_iter().find(|c| c.word() == word);
                let certainty =
                    found.ok_or_else(|| unexpected(&token, at, "sure, likely, guess or none"))?;
                (field, Field::certainty_figure(certainty))
            }
            (Token::Word(word), Field::Printed) => {
                let all = [PrintedIs::Below, PrintedIs::Within, PrintedIs::Above];
                let found = all.into_iter().find(|p| p.word() == word);
                let is = found.ok_or_else(|| unexpected(&token, at, "below, in or above"))?;
                (Field::PrintedIs, Field::printed_figure(is))
            }
            _ => return Err(unexpected(&token, at, "a number")),
        };
        if !field.unit().is_empty() {
            self.takes(field.unit());
        }
        Ok(Node::Figure(field, compare, than))
    }

    fn takes(&mut self, word: &str) -> bool {
        let there = matches!(self.tokens.get(self.at), Some((Token::Word(w), _)) if w == word);
        self.at += usize::from(there);
        there
    }

    fn next(&mut self, wanted: &'static str) -> Result<(Token, usize), FilterError> {
        let token = self.tokens.get(self.at).cloned();
        self.at += 1;
        token.ok_or_else(|| FilterError::Ends {
            text: self.text.to_owned(),
            wanted,
        })
    }
}

fn one_or(mut list: Vec<Node>, many: fn(Vec<Node>) -> Node) -> Node {
    match list.pop() {
        Some(only) if list.is_empty() => only,
        Some(last) => {
            list.push(last);
            many(list)
        }
        None => many(list),
    }
}

fn unexpected(token: &Token, at: usize, wanted: &'static str) -> FilterError {
    let found = match token {
        Token::Word(word) => word.clone(),
        Token::Quoted(text) => format!("\"{text}\""),
        Token::Number(number) => number.to_string(),
        Token::Compare(_) => "comparison".to_owned(),
        Token::Open => "(".to_owned(),
        Token::Close => ")".to_owned(),
    };
    FilterError::Unexpected { found, at, wanted }
}

/// The comparison of a sign, with `=` behind it or not.
fn comparison(sign: char, equal: bool) -> Option<Compare> {
    Some(match (sign, equal) {
        ('<', false) => Compare::Less,
        ('<', true) | ('≤', _) => Compare::AtMost,
        ('>', false) => Compare::More,
        ('>', true) | ('≥', _) => Compare::AtLeast,
        ('!', true) => Compare::Unequal,
        ('!', false) => return None,
        _ => Compare::Equal,
    })
}

fn tokens(text: &str) -> Result<Vec<(Token, usize)>, FilterError> {
    let letters: Vec<char> = text.chars().collect();
    let mut list = Vec::new();
    let mut at = 0;
    while at < letters.len() {
        let start = at;
        let letter = letters[at];
        at += 1;
        let token = match letter {
            c if c.is_whitespace() => continue,
            '(' => Token::Open,
            ')' => Token::Close,
            '"' | '\'' | '“' => {
                let close = if letter == '“' { '”' } else { letter };
                let Some(length) = letters[at..].iter().position(|c| *c == close) else {
                    return Err(FilterError::Ends {
                        text: text.to_owned(),
                        wanted: "a closing quote",
                    });
                };
                let inner = letters[at..at + length].iter().collect();
                at += length + 1;
                Token::Quoted(inner)
            }
            '<' | '>' | '=' | '!' | '≤' | '≥' => {
                let equal = letters.get(at) == Some(&'=');
                at += usize::from(equal);
                let Some(compare) = comparison(letter, equal) else {
                    let token = Token::Word("!".to_owned());
                    return Err(unexpected(&token, start + 1, "a comparison"));
                };
                Token::Compare(compare)
            }
            c if c.is_ascii_digit() || c == '.' => {
                let more = |c: &&char| c.is_ascii_digit() || **c == '.';
                at += letters[at..].iter().take_while(more).count();
                number(
                    &letters[start..at],
                    start,
                    letters.get(at) == Some(&'%'),
                    &mut at,
                )?
            }
            c if c.is_alphabetic() || c == '_' => {
                let more = |c: &&char| c.is_alphabetic() || matches!(**c, '_' | '-');
                at += letters[at..].iter().take_while(more).count();
                Token::Word(letters[start..at].iter().collect::<String>().to_lowercase())
            }
            other => {
                let token = Token::Word(other.to_string());
                return Err(unexpected(&token, start + 1, "part of an expression"));
            }
        };
        list.push((token, start + 1));
    }
    Ok(compared_in_words(&list))
}

fn number(
    digits: &[char],
    start: usize,
    percent: bool,
    at: &mut usize,
) -> Result<Token, FilterError> {
    let text: String = digits.iter().collect();
    let Ok(value) = text.parse::<f64>() else {
        return Err(unexpected(&Token::Word(text), start + 1, "a number"));
    };
    if percent {
        *at += 1;
        return Ok(Token::Number(value / 100.0));
    }
    Ok(Token::Number(value))
}

/// `below`, `at least` and their like are comparisons where a number follows.
fn compared_in_words(list: &[(Token, usize)]) -> Vec<(Token, usize)> {
    let mut out: Vec<(Token, usize)> = Vec::with_capacity(list.len());
    for (at, (token, place)) in list.iter().enumerate() {
        let number = matches!(list.get(at + 1), Some((Token::Number(_), _)));
        let before = matches!(out.last(), Some((Token::Word(word), _)) if word == "at");
        let compare = match token {
            Token::Word(word) => match (word.as_str(), before) {
                ("least", true) => Some(Compare::AtLeast),
                ("most", true) => Some(Compare::AtMost),
                ("below" | "under", false) if number => Some(Compare::Less),
                ("above" | "over", false) if number => Some(Compare::More),
                ("is", false) => Some(Compare::Equal),
                _ => None,
            },
            _ => None,
        };
        if before && compare.is_some() {
            out.pop();
        }
        match compare {
            Some(compare) => out.push((Token::Compare(compare), *place)),
            None => out.push((token.clone(), *place)),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ledger::{Allowances, Day, Group, Ledger, Limit, PulsesAs, Standard, Subject};
    use crate::menu::fitted::Fitted;
    use crate::menu::row_component::RowComponent;
    use crate::quantity::Estimate;
    use proptest::prelude::*;
    use std::sync::Arc;

    fn row() -> Row {
        let standard = Standard::embedded("us-style").expect("standard");
        let day = Day {
            standard: &standard,
            energy_kcal: 2_000.0,
            pulses: PulsesAs::Vegetables,
            protein_g: None,
        };
        let amount = |subject| match subject {
            Subject::Limit(Limit::Energy) => Some(Estimate::exact(650.0)),
            Subject::Limit(Limit::SaturatedFat) => Some(Estimate::exact(9.0)),
            Subject::Limit(Limit::Sodium) => None,
            Subject::Group(Group::Vegetables) => Some(Estimate::exact(2.0)),
            _ => Some(Estimate::default()),
        };
        let allowances = Arc::new(Allowances::of(day));
        Row {
            section: String::new(),
            item: "Harbour bowl".to_owned(),
            components: vec![RowComponent {
                unknown_main: false,
                text: "6 prawns, grilled".into(),
                food: None,
                certainty: Certainty::Likely,
                basis: None,
                weight: None,
            }],
            choice: None,
            fitted: Some(Fitted {
                share: 0.95,
                limited_by: None,
                passes_sodium: false,
            }),
            ledger: Ledger::of_amounts(Estimate::default(), amount, amount, &allowances),
            certainty: Certainty::Likely,
            printed: Some((500.0, 500.0)),
            printed_is: Some(PrintedIs::Below),
            not_plausible: Vec::new(),
            unmatched: Vec::new(),
            without_amount: Vec::new(),
        }
    }

    fn meets(text: &str) -> bool {
        let catalogue = Catalogue::embedded().expect("catalogue");
        let filter = Filter::parse(text).unwrap_or_else(|e| panic!("{text}: {e}"));
        filter.meets(&row(), "with chili oil", &catalogue)
    }

    #[test]
    fn expressions_read_as_people_write_them() {
        for yes in [
            "energy < 700 and vegetables >= 1.5",
            "energy below 700 kcal and vegetables at least 1.5 portions",
            "energy at most 650 or sodium > 1",
            "not energy over 700",
            "not (energy > 700 or vegetables < 1)",
            "energy share <= 33%",
            "saturated_fat = 9 g",
            "contains \"prawn\" and contains 'chili oil'",
            "contains bowl",
            "certainty at least likely",
            "certainty >= guess",
            "printed is below and printed = 500",
            "fitted above 90%",
        ] {
            assert!(meets(yes), "{yes}");
        }
        for no in [
            "energy > 700",
            "contains \"squid\"",
            "contains \"grilled prawns\"",
            "energy < 700 and (vegetables > 2 or grains > 0)",
            "sodium < 1000",
            "sodium > 0",
            "certainty is sure",
            "printed is above",
        ] {
            assert!(!meets(no), "{no}");
        }
    }

    #[test]
    fn what_cannot_be_read_says_where() {
        let error = |text: &str| Filter::parse(text).expect_err(text).to_string();
        assert!(error("energy").contains("ends early"));
        assert!(error("zest < 3").contains("no figure is called `zest`"));
        assert!(error("energy < much").contains("`much` at character 10"));
        assert!(error("energy < 3 vegetables > 2").contains("`and` or `or`"));
        assert!(error("contains \"x").contains("closing quote"));
        assert!(error(&"(".repeat(100)).contains("brackets"));
        assert!(error("").contains("ends early"));
    }

    proptest! {
        #[test]
        fn no_expression_breaks_it(text in "[a-z<>=!()\"' 0-9.%]{0,60}") {
            if let Ok(filter) = Filter::parse(&text) {
                let catalogue = Catalogue::embedded().expect("catalogue");
                let _ = filter.meets(&row(), "", &catalogue);
            }
        }
    }
}
