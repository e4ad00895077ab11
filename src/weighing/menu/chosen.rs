//! Choices of a menu line: the likely value is the middle of the options, the range spans them.

use super::draft::Draft;
use crate::reading::{Choice, MenuLine, PartKind};
use crate::weighing::component::WeighedComponent;
use crate::weighing::kinds::DishKind;
use crate::weighing::offered::{open_choice, perhaps};
use crate::weighing::typical::{Setting, fill};
use crate::weighing::usual::Role;
use crate::words::{words, words_of};

/// What is offered with a filled bread in a bowl, never in the bread, and the size of it that is
/// served beside a dish.
const OFFERED_BESIDE: [(&str, &str); 2] = [("soup", "cup of soup"), ("salad", "side salad")];

impl Draft<'_> {
    /// Puts the options of every choice on the plate, each at its part.
    pub(super) fn choose(&mut self, line: &MenuLine) {
        for choice in &line.choices {
            if choice.what.is_none() && choice.behind.is_empty() {
                continue;
            }
            self.choice(choice);
        }
    }

    fn choice(&mut self, choice: &Choice) {
        let options: Vec<&str> = choice.options.iter().map(String::as_str).collect();
        if let ([only], true) = (&options[..], choice.said) {
            self.notes.push(format!(
                "`{only}` are to be chosen and not counted: name them"
            ));
            return;
        }
        let options = self.without_other_parts(choice, options);
        let part = f64::from(choice.eaten).min(options.len() as f64) / options.len() as f64;
        let told = open_choice(&options, choice.eaten, part);
        self.notes.push(format!("{told}; decide with --choose"));
        // `ranch, italian or blue cheese dressing`: the last option's noun is that of all.
        let noun = options
            .last()
            .and_then(|last| last.rsplit_once(' '))
            .map(|(_, noun)| noun);
        let under = choice.what == Some(PartKind::Under);
        let beside = !under && options.iter().any(|text| self.is_offered_beside(text));
        for text in &options {
            let with_noun = noun
                .filter(|_| !text.contains(' '))
                .map(|noun| format!("{text} {noun}"));
            let bread = under.then(|| self.under(text));
            let meant = bread
                .or(with_noun)
                .filter(|both| self.means_more(both, text))
                .unwrap_or_else(|| (*text).to_owned());
            if beside {
                self.option_beside(&meant, part);
                continue;
            }
            self.option(text, &meant, part, &told);
        }
    }

    /// `rice, beans, chicken or beef`: what does something else in the dish is no option, but a
    /// part of it.
    fn without_other_parts<'c>(&mut self, choice: &Choice, options: Vec<&'c str>) -> Vec<&'c str> {
        if choice.said || options.len() <= 2 {
            return options;
        }
        let role = options.last().map(|last| self.role(last));
        let (own, other): (Vec<&str>, Vec<&str>) = options
            .iter()
            .partition(|text| Some(self.role(text)) == role);
        if own.len() < 2 {
            return options;
        }
        for text in other {
            self.part(text, choice.what.as_ref().unwrap_or(&PartKind::Named));
        }
        own
    }

    /// `Turkey club, fries or fruit`: whether an option lies beside the dish, and so all of them do.
    fn is_offered_beside(&self, text: &str) -> bool {
        let named = words_of(text);
        let last = named.last().map(String::as_str);
        let bowl = OFFERED_BESIDE.iter().any(|(own, _)| last == Some(own));
        self.is_beside_the_main(text)
            || self.is_filled_bread() && (bowl || self.role(text) == Role::Fruit)
    }

    /// Puts one option beside the dish, a serving of its own at its chance.
    fn option_beside(&mut self, text: &str, chance: f64) {
        let sized = OFFERED_BESIDE.iter().find(|(own, _)| *own == text);
        let first = self.sides.len();
        self.push_side(sized.map_or(text, |(_, sized)| sized));
        for side in &mut self.sides[first..] {
            side.matched.line.chance = Some(chance);
        }
    }

    /// Puts one option on the plate: `text` as written, `meant` with the noun of all.
    fn option(&mut self, text: &str, meant: &str, part: f64, told: &str) {
        let Some(read) = self.read_or_note(meant) else {
            return;
        };
        let mut list = self.weighed(vec![(*read).clone()]);
        list.retain(|c| c.matched.food.is_some());
        if list.is_empty() {
            self.notes
                .push(format!("`{text}` is no food that is known"));
            return;
        }
        // An option is all of its role's part of the dish where nothing else plays that role: beside eggs,
        // bacon is what it usually is.
        let fills = |kind: &DishKind, role: Role| {
            let same = |c: &WeighedComponent| kind.role(self.role_of(c)) == kind.role(role);
            kind.share(role) > 0.0 && !self.main.iter().any(same)
        };
        let kind = self
            .kind
            .filter(|kind| !self.whole && list.iter().all(|c| fills(kind, self.role_of(c))));
        let share = kind.map(|kind| {
            list.iter()
                .map(|c| kind.share(self.role_of(c)) * kind.served_g)
                .sum::<f64>()
        });
        let catalogue = self.context.catalogue();
        fill(&mut list, None, Setting::Restaurant, catalogue);
        for c in &mut list {
            fit(c, share, part, told);
        }
        self.options.extend(list);
    }

    /// Whether words with the last option's noun name a food better than alone (`ranch dressing`).
    fn means_more(&self, both: &str, alone: &str) -> bool {
        let (both, one) = (self.find(both), self.find(alone));
        both.food.is_some() && both.certainty > one.certainty && !words(alone).is_empty()
    }

    /// The dish itself is a choice: `soup or salad`.
    pub(super) fn head_options(line: &MenuLine) -> Option<Choice> {
        let choice = line
            .choices
            .iter()
            .find(|choice| choice.what.is_none() && choice.behind.is_empty());
        choice
            .filter(|choice| line.head.is_empty() && !choice.options.is_empty())
            .cloned()
    }

    /// Begins a dish that is one of several; the part of each option that is counted.
    pub(super) fn begin_choice(&mut self, choice: &Choice) -> f64 {
        let part = f64::from(choice.eaten) / choice.options.len() as f64;
        let told = open_choice(&choice.options, 1, part);
        self.notes.push(format!("{told}; decide with --choose"));
        self.whole = true;
        part.min(1.0)
    }

    /// Leaves each component of an option at its part.
    pub(super) fn take_option(&mut self, list: Vec<WeighedComponent>, part: f64, told: &str) {
        for mut c in list {
            fit(&mut c, None, part, told);
            self.main.push(c);
        }
    }
}

/// An option at its part of what it would weigh: `share` grams where the kind of dish says so.
fn fit(c: &mut WeighedComponent, share: Option<f64>, part: f64, told: &str) {
    c.change(told.to_owned(), |grams| {
        let whole = share.map_or(grams, |share| grams.times(share / grams.mean.max(1e-9)));
        perhaps(whole, part)
    });
}
