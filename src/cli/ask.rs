//! Asking the person at the terminal which food is meant, where matching is not sure.

use super::arguments::{DishArgs, Units};
use super::corrections::correction;
use super::input::Read_;
use super::plate::NoFood;
use super::{Failure, corrections, plate};
use crate::foods::FoodId;
use crate::matching::{Catalogue, Certainty, Context, Correction, Corrections};
use crate::weighing::{Basis, MatchedComponent};
use jiff::civil::Date;
use std::collections::HashSet;
use std::io::{self, BufRead, IsTerminal, Write};

/// Asks whoever sits at the terminal whether something is to be done; nobody there means no.
pub(super) fn agreed(question: &str) -> Result<bool, Failure> {
    if !io::stdin().is_terminal() {
        return Ok(false);
    }
    let mut out = io::stderr();
    write!(out, "{question} Type yes: ")?;
    out.flush()?;
    let mut answer = String::new();
    let read = io::stdin().lock().read_line(&mut answer);
    read.map_err(|e| Failure::File(format!("cannot read the answer: {e}")))?;
    Ok(matches!(answer.trim().to_lowercase().as_str(), "yes" | "y"))
}

/// Foods offered for one component.
const OFFERED: usize = 5;

/// The catalogue with what the person at the terminal answers.
pub(super) fn settle(
    args: &DishArgs,
    units: Units,
    read: &[Read_],
    catalogue: Catalogue,
) -> Result<Catalogue, Failure> {
    let stdin = std::io::stdin();
    if !stdin.is_terminal() || args.dishes.iter().any(|d| d == "-") {
        return Err(Failure::Request(
            "--interactive asks on the terminal, and standard input is not one here\n  = put the components into a file, or leave --interactive out"
                .to_owned(),
        ));
    }
    let plates = plate::weighed(read.to_vec(), args, units, &catalogue, NoFood::Shown)?;
    let components = plates
        .iter()
        .flat_map(|plate| &plate.dish.components)
        // What is only implied has no words of the person's to correct.
        .filter(|c| c.basis() != Some(Basis::Hidden))
        .map(|c| &c.matched);
    let answers = Asker {
        catalogue: &catalogue,
        british: units == Units::Metric,
        today: corrections::today()?,
        input: stdin.lock(),
        output: std::io::stderr().lock(),
    }
    .ask(components)?;
    if !answers.kept.is_empty() {
        corrections::keep(&answers.kept)?;
    }
    let mut all = catalogue.corrections().clone();
    for made in answers.settled.list() {
        all.add(made.clone());
    }
    Ok(catalogue.corrected_by(all))
}

/// What came of asking.
#[derive(Debug, Default)]
pub(super) struct Answers {
    /// Everything that was answered, for this run.
    pub settled: Corrections,
    /// What is to be kept for next time.
    pub kept: Vec<Correction>,
}

/// One person at one terminal.
pub(super) struct Asker<'a, R, W> {
    pub catalogue: &'a Catalogue,
    pub british: bool,
    pub today: Date,
    pub input: R,
    pub output: W,
}

/// An answer to which food is meant.
enum Choice {
    Food(FoodId),
    NoFood,
    Leave,
    Stop,
}

impl<R: BufRead, W: Write> Asker<'_, R, W> {
    /// Asks about every component that is not sure, the same words once. An end of input
    /// leaves the rest as it is.
    pub(crate) fn ask<'c>(
        &mut self,
        components: impl Iterator<Item = &'c MatchedComponent>,
    ) -> io::Result<Answers> {
        let mut answers = Answers::default();
        let mut asked = HashSet::new();
        for component in components.filter(|c| c.certainty != Certainty::Sure) {
            let words = component.line.food.trim();
            let corrected = self.catalogue.correction(words).is_some();
            if words.is_empty() || corrected || !asked.insert(words.to_lowercase()) {
                continue;
            }
            let food = match self.choose(component, words)? {
                Choice::Food(id) => Some(id),
                Choice::NoFood => None,
                Choice::Leave => continue,
                Choice::Stop => break,
            };
            let made = correction(words, food.map(|id| self.catalogue.food(id)), self.today);
            answers.settled.add(made.clone());
            if self.keep(&made)? {
                answers.kept.push(made);
            }
        }
        Ok(answers)
    }

    fn choose(&mut self, component: &MatchedComponent, words: &str) -> io::Result<Choice> {
        let mut offered: Vec<FoodId> = component
            .food
            .into_iter()
            .chain(component.alternatives.iter().copied())
            .collect();
        if offered.len() < OFFERED {
            self.fill(&mut offered, words);
        }
        offered.truncate(OFFERED);
        match component.food {
            Some(id) => {
                let name = self.catalogue.food(id).name();
                let sure = component.certainty.word();
                writeln!(self.output, "\n`{words}` is taken for `{name}` ({sure}).")?;
            }
            None => writeln!(self.output, "\nNo food fits `{words}`.")?,
        }
        loop {
            for (number, id) in offered.iter().enumerate() {
                writeln!(
                    self.output,
                    "  {}  {}",
                    number + 1,
                    self.catalogue.food(*id).name()
                )?;
            }
            write!(
                self.output,
                "Which is meant? Number, other words, n for none, Enter to leave it: "
            )?;
            let Some(answer) = self.line()? else {
                writeln!(self.output)?;
                return Ok(Choice::Stop);
            };
            match answer.as_str() {
                "" => return Ok(Choice::Leave),
                "n" | "N" | "none" => return Ok(Choice::NoFood),
                _ => {}
            }
            if let Ok(number) = answer.parse::<usize>() {
                match number.checked_sub(1).and_then(|at| offered.get(at)) {
                    Some(id) => return Ok(Choice::Food(*id)),
                    None => writeln!(self.output, "There is no {number} in the list.")?,
                }
                continue;
            }
            let mut others = Vec::new();
            self.fill(&mut others, &answer);
            if others.is_empty() {
                writeln!(self.output, "Nothing fits `{answer}`.")?;
            } else {
                offered = others;
            }
        }
    }

    /// Adds what matching offers for `words`, up to the number that is shown.
    fn fill(&self, offered: &mut Vec<FoodId>, words: &str) {
        let context = Context {
            british: self.british,
            ..Context::default()
        };
        let found = self.catalogue.find(words, &context, OFFERED);
        let alternatives = found.alternatives.iter().map(|(id, _)| *id);
        for id in found.food.into_iter().chain(alternatives) {
            if offered.len() < OFFERED && !offered.contains(&id) {
                offered.push(id);
            }
        }
    }

    fn keep(&mut self, correction: &Correction) -> io::Result<bool> {
        write!(
            self.output,
            "Take `{}` for `{}` from now on? [y/N]: ",
            correction.words, correction.food
        )?;
        let answer = self.line()?.unwrap_or_default().to_lowercase();
        Ok(matches!(answer.as_str(), "y" | "yes"))
    }

    /// A line without the space around it; `None` at the end of input.
    fn line(&mut self) -> io::Result<Option<String>> {
        self.output.flush()?;
        let mut line = String::new();
        if self.input.read_line(&mut line)? == 0 {
            return Ok(None);
        }
        Ok(Some(line.trim().to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::{Dish, UnitSystem, parse_lines};
    use crate::weighing::match_dish;
    use jiff::civil::date;

    /// What is answered, and what was shown, when `typed` is typed.
    fn ask(lines: &str, typed: &str) -> (Answers, String) {
        let catalogue = Catalogue::embedded().unwrap();
        let (components, errors) = parse_lines("test", lines, UnitSystem::Us);
        assert!(errors.is_empty());
        let dish = Dish {
            components,
            ..Dish::default()
        };
        let matched = match_dish(dish, &catalogue, false);
        let mut shown = Vec::new();
        let mut asker = Asker {
            catalogue: &catalogue,
            british: false,
            today: date(2026, 11, 25),
            input: typed.as_bytes(),
            output: &mut shown,
        };
        let answers = asker.ask(matched.components.iter()).unwrap();
        (answers, String::from_utf8(shown).unwrap())
    }

    /// Words that no table knows, so that no change of the matcher makes them sure.
    const UNSURE: &str = "100 g zorblax chicken\n";

    #[test]
    fn what_is_sure_is_not_asked() {
        let (answers, shown) = ask("100 g banana\n", "1\ny\n");
        assert!(shown.is_empty(), "{shown}");
        assert!(answers.settled.list().is_empty());
    }

    #[test]
    fn a_number_takes_that_food_and_yes_keeps_it() {
        let (answers, shown) = ask(UNSURE, "2\ny\n");
        let second = shown.lines().find_map(|l| l.strip_prefix("  2  ")).unwrap();
        let made = answers.settled.get("zorblax chicken").unwrap();
        assert_eq!(made.food, second);
        assert_eq!(answers.kept, answers.settled.list());
    }

    #[test]
    fn anything_but_yes_holds_for_this_run_only() {
        for no in ["n\n", "\n", ""] {
            let (answers, _) = ask(UNSURE, &format!("1\n{no}"));
            assert_eq!(answers.settled.list().len(), 1);
            assert!(answers.kept.is_empty());
        }
    }

    #[test]
    fn none_enter_and_the_end_of_input() {
        let (answers, _) = ask(UNSURE, "n\ny\n");
        assert_eq!(answers.kept[0].code, None);
        for leave in ["\n", ""] {
            let (answers, _) = ask(UNSURE, leave);
            assert!(answers.settled.list().is_empty());
        }
    }

    #[test]
    fn other_words_are_looked_up_and_wrong_numbers_asked_again() {
        let (answers, shown) = ask(UNSURE, "99\nbanana\n1\nn\n");
        assert!(shown.contains("There is no 99"), "{shown}");
        let made = answers.settled.get("zorblax chicken").unwrap();
        assert!(made.food.starts_with("banana"), "{}", made.food);
    }

    #[test]
    fn the_same_words_are_asked_once() {
        let twice = format!("{UNSURE}50 g Zorblax chicken\n");
        let (answers, shown) = ask(&twice, "1\nn\n2\ny\n");
        assert_eq!(shown.matches("Which is meant?").count(), 1, "{shown}");
        assert_eq!(answers.settled.list().len(), 1);
    }
}
