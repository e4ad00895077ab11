//! Dish files: one dish as TOML, read and written.

mod offered;

use std::fmt::Write as _;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::bounds;
use super::dish::Dish;
use super::error::{ErrorKind, Place, Problem, ReadingError, Wanted};
use super::line::{ComponentLine, parse_component};
use super::served::parse_served_at;
use super::units::UnitSystem;
use super::whole_amount::parse_amount_at;
use crate::words::is_hidden;

/// Keys of a dish.
const DISH_KEYS: [&str; 9] = [
    "name",
    "kind",
    "served",
    "makes",
    "source",
    "note",
    "component",
    "choice",
    "add_on",
];
/// Keys of a component.
const COMPONENT_KEYS: [&str; 5] = ["food", "amount", "served_as", "goes_along", "note"];

/// Reads a dish file: `name`, `kind`, `served`, `makes`, `source`, `note` and `[[component]]`
/// tables with `food`, `amount`, `served_as`, `goes_along`,
/// `note`. `name` and `food` are required. What is one of several stands in `[[choice]]` tables
/// (`name`, `take`, and `[[choice.option]]` tables with the keys of a component), what can be had
/// on top in `[[add_on]]` tables with the keys of a component.
///
/// The amounts of a file that makes 6 servings are for all six; the dish has those of one.
/// `served` is what one serving weighs or fills.
///
/// Unknown keys are refused by name, so that a slip of the pen is not silently ignored.
pub fn parse_dish_file(
    source_name: &str,
    text: &str,
    units: UnitSystem,
) -> Result<Dish<ComponentLine>, ReadingError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.len() > bounds::TEXT_BYTES {
        let kind = ErrorKind::TextTooLarge(text.len());
        return Err(ReadingError::of_source(kind, source_name));
    }
    let file = File {
        name: source_name,
        text,
        units,
    };
    file.dish()
}

struct File<'a> {
    name: &'a str,
    text: &'a str,
    units: UnitSystem,
}

/// A text value and its bytes in the file, quotes included.
struct Text<'t> {
    value: &'t str,
    start: usize,
    end: usize,
}

impl File<'_> {
    fn dish(&self) -> Result<Dish<ComponentLine>, ReadingError> {
        let root = DeTable::parse(self.text).map_err(|error| {
            let span = error.span().unwrap_or(0..0);
            let message = error.message().lines().next().unwrap_or_default();
            self.error(ErrorKind::Toml(message.into()), span.start, span.end)
        })?;
        let table = root.get_ref();
        self.check_keys(table, &DISH_KEYS)?;
        if table.is_empty() {
            return Err(ReadingError::of_source(ErrorKind::Empty, self.name));
        }
        let name = self.plain(table, "name")?;
        if name.is_none() {
            return Err(self.error(ErrorKind::MissingKey("name"), 0, 0));
        }
        let served = match self.text_of(table, "served")? {
            Some(text) => Some(self.inside(&text, |value, place| {
                parse_served_at(value, place, self.units)
            })?),
            None => None,
        };
        let makes = self.makes(table)?;
        let mut components = self.components(table)?;
        let mut offered = self.offered(table)?;
        let options = offered.choices.iter_mut().flat_map(|c| &mut c.options);
        let all = components.iter_mut().chain(options);
        let all = all.chain(&mut offered.add_ons);
        let amounts = all.filter_map(|c| c.amount.as_mut());
        for amount in amounts.filter(|_| makes.is_some()) {
            amount.number = amount.number.times(1.0 / makes.unwrap_or(1.0));
        }
        Ok(Dish {
            name,
            kind: self.plain(table, "kind")?,
            served,
            components,
            source: self.plain(table, "source")?,
            makes,
            note: self.plain(table, "note")?,
            offered,
            ..Dish::default()
        })
    }

    /// How many servings the amounts are for.
    fn makes(&self, table: &DeTable<'_>) -> Result<Option<f64>, ReadingError> {
        let Some(value) = table.get("makes") else {
            return Ok(None);
        };
        let span = value.span();
        let written = match value.get_ref() {
            DeValue::Integer(number) => number.as_str(),
            DeValue::Float(number) => number.as_str(),
            _ => {
                let kind = ErrorKind::WrongType(Wanted::Servings);
                return Err(self.error(kind, span.start, span.end));
            }
        };
        let figure: f64 = written.replace('_', "").parse().unwrap_or(f64::NAN);
        let bound = &bounds::SERVINGS;
        if bound.holds(figure) {
            return Ok(Some(figure));
        }
        let kind = ErrorKind::OutOfBounds { figure, bound };
        Err(self.error(kind, span.start, span.end))
    }

    fn components(&self, table: &DeTable<'_>) -> Result<Vec<ComponentLine>, ReadingError> {
        let rows = self.tables(table, "component", "component")?;
        rows.into_iter()
            .map(|(table, start)| self.component(table, start))
            .collect()
    }

    /// The tables of an array under a key, called `name` from the top of the file, each with where it
    /// starts; none without the key.
    fn tables<'t>(
        &self,
        table: &'t DeTable<'t>,
        key: &str,
        name: &'static str,
    ) -> Result<Vec<(&'t DeTable<'t>, usize)>, ReadingError> {
        let Some(value) = table.get(key) else {
            return Ok(Vec::new());
        };
        let wrong = |span: std::ops::Range<usize>| {
            let kind = ErrorKind::WrongType(Wanted::Tables(name));
            self.error(kind, span.start, span.end)
        };
        let DeValue::Array(list) = value.get_ref() else {
            return Err(wrong(value.span()));
        };
        list.iter()
            .map(|entry| match entry.get_ref() {
                DeValue::Table(table) => Ok((table, entry.span().start)),
                _ => Err(wrong(entry.span())),
            })
            .collect()
    }

    fn component(&self, table: &DeTable<'_>, start: usize) -> Result<ComponentLine, ReadingError> {
        self.check_keys(table, &COMPONENT_KEYS)?;
        let Some(food) = self.text_of(table, "food")? else {
            return Err(self.error(ErrorKind::MissingKey("food"), start, start));
        };
        let stated = self.text_of(table, "amount")?;
        let note = self.plain(table, "note")?;
        let served_as = match self.text_of(table, "served_as")? {
            Some(text) => Some(self.inside(&text, |value, place| {
                parse_amount_at(value, place, self.units)
            })?),
            None => None,
        };
        let mut line = match stated {
            None => self.inside(&food, |value, place| {
                let line = parse_component(value, place.clone(), self.units)?;
                // The words that are left are written back, and must read again.
                if line.amount.is_none() && line.food != value.trim() {
                    parse_component(&line.food, place.clone(), self.units)?;
                }
                Ok(line)
            })?,
            Some(amount) => self.with_amount(&food, &amount)?,
        };
        // For people how it is served is a note like any other.
        let shown = served_as.as_ref().map(|amount| amount.text.clone());
        let notes: Vec<String> = [line.note.take(), shown, note]
            .into_iter()
            .flatten()
            .collect();
        line.note = (!notes.is_empty()).then(|| notes.join("; "));
        line.served_as = served_as.or(line.served_as);
        line.goes_along = self.flag(table, "goes_along")?;
        Ok(line)
    }

    /// A key that is `true` or `false`; false without it.
    fn flag(&self, table: &DeTable<'_>, key: &str) -> Result<bool, ReadingError> {
        let Some(value) = table.get(key) else {
            return Ok(false);
        };
        let DeValue::Boolean(flag) = value.get_ref() else {
            let span = value.span();
            let kind = ErrorKind::WrongType(Wanted::Truth);
            return Err(self.error(kind, span.start, span.end));
        };
        Ok(*flag)
    }

    /// `food` and `amount` apart: the food's words are taken as they are.
    fn with_amount(
        &self,
        food: &Text<'_>,
        amount: &Text<'_>,
    ) -> Result<ComponentLine, ReadingError> {
        let words = food.value.trim();
        self.check_visible(food)?;
        if words.is_empty() {
            return Err(self.error(ErrorKind::NoFood, food.start, food.end));
        }
        let place = self.place(food.start);
        let read = self.inside(amount, |value, place| {
            match parse_amount_at(value, place, self.units) {
                // `half the plate`, and `3` of `chicken wings`: only the whole line tells.
                Ok(_) => parse_component(&format!("{value} {words}"), place.clone(), self.units),
                Err(error) => {
                    parse_component(&format!("{value}: {words}"), place.clone(), self.units)
                        .ok()
                        .filter(|line| line.share.is_some())
                        .ok_or(error)
                }
            }
        });
        let read = read?;
        let amount = match parse_amount_at(amount.value, &place, self.units) {
            Ok(alone) => Some(match read.amount {
                Some(joint) if joint.number == alone.number => super::Amount {
                    text: alone.text,
                    ..joint
                },
                _ => alone,
            }),
            Err(_) => read.amount,
        };
        Ok(ComponentLine {
            text: read.text,
            food: words.to_owned(),
            amount,
            note: None,
            served_as: None,
            goes_along: false,
            place,
            share: read.share,
            chance: None,
        })
    }

    fn check_keys(
        &self,
        table: &DeTable<'_>,
        known: &'static [&'static str],
    ) -> Result<(), ReadingError> {
        let unknown = table
            .keys()
            .filter(|key| !known.contains(&key.get_ref().as_ref()))
            .min_by_key(|key| key.span().start);
        let Some(key) = unknown else {
            return Ok(());
        };
        let nearest = known
            .iter()
            .map(|name| (strsim::osa_distance(name, key.get_ref()), *name))
            .filter(|(distance, name)| *distance <= 2 && *distance < name.len() - 1)
            .min()
            .map(|(_, name)| name);
        let span = key.span();
        Err(self.error(
            ErrorKind::UnknownKey { nearest, known },
            span.start,
            span.end,
        ))
    }

    fn text_of<'t>(
        &self,
        table: &'t DeTable<'_>,
        key: &'static str,
    ) -> Result<Option<Text<'t>>, ReadingError> {
        let Some(value) = table.get(key) else {
            return Ok(None);
        };
        let span = value.span();
        let value: &Spanned<DeValue<'_>> = value;
        match value.get_ref() {
            DeValue::String(text) => Ok(Some(Text {
                value: text,
                start: span.start,
                end: span.end,
            })),
            DeValue::Integer(_) | DeValue::Float(_) if key == "amount" || key == "served" => {
                Err(self.error(ErrorKind::NoUnit, span.start, span.end))
            }
            _ => Err(self.error(ErrorKind::WrongType(Wanted::Text), span.start, span.end)),
        }
    }

    /// Text that is kept as it is. Blank is the same as absent.
    fn plain(
        &self,
        table: &DeTable<'_>,
        key: &'static str,
    ) -> Result<Option<String>, ReadingError> {
        let Some(text) = self.text_of(table, key)? else {
            return Ok(None);
        };
        self.check_visible(&text)?;
        let value = text.value.trim();
        Ok((!value.is_empty()).then(|| value.to_owned()))
    }

    fn check_visible(&self, text: &Text<'_>) -> Result<(), ReadingError> {
        let hidden = text.value.chars().find(|&c| is_hidden(c) && c != '\n');
        match hidden {
            Some(letter) => {
                Err(self.error(ErrorKind::HiddenCharacter(letter), text.start, text.end))
            }
            None => Ok(()),
        }
    }

    /// Reads a value with `read`, and moves its errors to where the value stands. When the
    /// value has escapes, its columns are not those of the file: then all of it is marked.
    fn inside<T>(
        &self,
        text: &Text<'_>,
        read: impl Fn(&str, &Place) -> Result<T, ReadingError>,
    ) -> Result<T, ReadingError> {
        let place = self.place(text.start);
        read(text.value, &place).map_err(|error| {
            let quoted = self.text.get(text.start + 1..text.end.saturating_sub(1));
            let same = quoted == Some(text.value);
            let (from, to) = match (error.place.column.checked_sub(place.column), same) {
                (Some(characters), true) => {
                    let skip = |count: usize| -> usize {
                        text.value.chars().take(count).map(char::len_utf8).sum()
                    };
                    let marked = error.line[error.from..error.to].chars().count();
                    let from = text.start + 1;
                    (from + skip(characters), from + skip(characters + marked))
                }
                _ => (text.start, text.end),
            };
            self.error(*error.kind, from, to)
        })
    }

    fn place(&self, at: usize) -> Place {
        let (number, line_start) = self.line_of(at);
        let column = self.text[line_start..at].chars().count() + 1;
        Place::new(self.name, number, column)
    }

    fn line_of(&self, at: usize) -> (usize, usize) {
        let before = &self.text[..at];
        let start = before.rfind('\n').map_or(0, |newline| newline + 1);
        (before.matches('\n').count() + 1, start)
    }

    /// An error over the bytes `from..to` of the file; only their first line is marked.
    fn error(&self, kind: ErrorKind, from: usize, to: usize) -> ReadingError {
        let from = floor(self.text, from);
        let (number, start) = self.line_of(from);
        let line = self.text[start..].lines().next().unwrap_or_default();
        let end = start + line.len();
        let to = floor(self.text, to.max(from)).min(end.max(from));
        let place = Place::new(self.name, number, 1);
        let within = |at: usize| (at - start).min(line.len());
        Problem::new(kind, within(from), within(to)).at(line, &place)
    }
}

fn floor(text: &str, at: usize) -> usize {
    let mut at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// Writes a dish as a dish file. What [`parse_dish_file`] reads back is the same dish.
#[must_use]
pub fn to_toml(dish: &Dish<ComponentLine>) -> String {
    let mut out = String::new();
    let served = dish.served.as_ref().map(|served| served.text().to_owned());
    for (key, value) in [
        ("name", &dish.name),
        ("kind", &dish.kind),
        ("served", &served),
        ("source", &dish.source),
        ("note", &dish.note),
    ] {
        push(&mut out, key, value.as_deref());
    }
    if let Some(makes) = dish.makes {
        let _ = writeln!(out, "makes = {makes}");
    }
    for component in &dish.components {
        out.push_str("\n[[component]]\n");
        component_toml(&mut out, component);
    }
    offered::write(&mut out, &dish.offered);
    out
}

/// Whether food and amount read again as they are when each stands under its key: an amount from
/// within a word (`a(4=7;b`) leaves words that do not, and some say an amount only beside a food
/// (`lg`).
fn reads_apart(food: &str, amount: &str) -> bool {
    let mut own = String::from("name = \"one component\"\n[[component]]\n");
    push(&mut own, "food", Some(food));
    push(&mut own, "amount", Some(amount));
    let Ok(dish) = parse_dish_file("component", &own, UnitSystem::Us) else {
        return false;
    };
    let said = |c: &ComponentLine| {
        let amount = c.amount.as_ref().map(|amount| amount.text.clone());
        amount.or_else(|| c.share.as_ref().map(|share| share.text.clone()))
    };
    dish.components
        .first()
        .is_some_and(|c| c.food == food && said(c).as_deref() == Some(amount))
}

/// Writes the keys of a component.
fn component_toml(out: &mut String, component: &ComponentLine) {
    let amount = match (&component.amount, &component.share) {
        (Some(amount), _) => Some(amount.text.as_str()),
        (None, Some(share)) => Some(share.text.as_str()),
        (None, None) => None,
    };
    if amount.is_none_or(|amount| reads_apart(&component.food, amount)) {
        push(out, "food", Some(&component.food));
        push(out, "amount", amount);
    } else {
        push(out, "food", Some(&component.text));
    }
    let served_as = component.served_as.as_ref().map(|a| a.text.as_str());
    push(out, "served_as", served_as);
    if component.goes_along {
        out.push_str("goes_along = true\n");
    }
    // The note begins with how it is served.
    let note = component.note.as_deref();
    let rest = note.map(|note| {
        let after = served_as.and_then(|text| note.strip_prefix(text));
        after.map_or(note, |rest| rest.trim_start_matches("; "))
    });
    push(out, "note", rest.filter(|rest| !rest.is_empty()));
}

fn push(out: &mut String, key: &str, value: Option<&str>) {
    if let Some(value) = value {
        let _ = writeln!(out, "{key} = {}", toml::Value::from(value));
    }
}
