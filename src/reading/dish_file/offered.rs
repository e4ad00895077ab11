//! `[[choice]]` and `[[add_on]]`: what a dish is offered with.

use super::{COMPONENT_KEYS, File, component_toml, push};
use crate::reading::error::{ErrorKind, ReadingError, Wanted};
use crate::reading::line::ComponentLine;
use crate::reading::offered::{DishChoice, Offered};
use std::fmt::Write as _;
use toml::de::{DeTable, DeValue};

/// Keys of a choice.
const CHOICE_KEYS: [&str; 3] = ["name", "take", "option"];
/// Most options of a choice that are eaten together.
const MOST_TAKEN: u8 = 20;

impl File<'_> {
    pub(super) fn offered(&self, table: &DeTable<'_>) -> Result<Offered, ReadingError> {
        let choices = self.tables(table, "choice", "choice")?;
        let add_ons = self.tables(table, "add_on", "add_on")?;
        let choice = |(table, start)| self.choice(table, start);
        let add_on = |(table, start)| self.component(table, start);
        Ok(Offered {
            choices: choices.into_iter().map(choice).collect::<Result<_, _>>()?,
            add_ons: add_ons.into_iter().map(add_on).collect::<Result<_, _>>()?,
        })
    }

    fn choice(&self, table: &DeTable<'_>, start: usize) -> Result<DishChoice, ReadingError> {
        self.check_keys(table, &CHOICE_KEYS)?;
        let rows = self.tables(table, "option", "choice.option")?;
        if rows.len() < 2 {
            let at = rows.first().map_or(start, |(_, start)| *start);
            return Err(self.error(ErrorKind::NoChoice, at, at));
        }
        let take = self.take(table, rows.len())?;
        let option = |(table, start): (&DeTable<'_>, usize)| {
            // Without an amount nobody could say what it counts for.
            if table.get("amount").is_none() {
                self.check_keys(table, &COMPONENT_KEYS)?;
                return Err(self.error(ErrorKind::MissingKey("amount"), start, start));
            }
            self.component(table, start)
        };
        Ok(DishChoice {
            name: self.plain(table, "name")?,
            take,
            options: rows
                .into_iter()
                .map(option)
                .collect::<Result<Vec<ComponentLine>, _>>()?,
        })
    }

    /// How many options are eaten: one, unless the choice says more.
    fn take(&self, table: &DeTable<'_>, options: usize) -> Result<u8, ReadingError> {
        let Some(value) = table.get("take") else {
            return Ok(1);
        };
        let span = value.span();
        let written = match value.get_ref() {
            DeValue::Integer(number) => number.as_str().parse::<u8>().ok(),
            _ => None,
        };
        let most = usize::from(MOST_TAKEN).min(options - 1);
        let fits = written.filter(|take| (1..=most).contains(&usize::from(*take)));
        fits.ok_or_else(|| {
            let kind = ErrorKind::WrongType(Wanted::Taken);
            self.error(kind, span.start, span.end)
        })
    }
}

/// Writes what a dish is offered with, as a dish file has it.
pub(super) fn write(out: &mut String, offered: &Offered) {
    for choice in &offered.choices {
        out.push_str("\n[[choice]]\n");
        push(out, "name", choice.name.as_deref());
        if choice.take != 1 {
            let _ = writeln!(out, "take = {}", choice.take);
        }
        for option in &choice.options {
            out.push_str("\n[[choice.option]]\n");
            component_toml(out, option);
        }
    }
    for add_on in &offered.add_ons {
        out.push_str("\n[[add_on]]\n");
        component_toml(out, add_on);
    }
}
