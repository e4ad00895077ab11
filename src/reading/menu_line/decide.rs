//! What a person decides of a line: one option of a choice, an add-on.

use super::line::{AddOn, MenuLine, MenuPart, PartKind};

impl MenuLine {
    /// Takes the option that holds `text`, and leaves the others; says whether there was one.
    pub(crate) fn choose(&mut self, text: &str) -> bool {
        let wanted = text.trim().to_lowercase();
        let found = self.choices.iter().enumerate().find_map(|(at, choice)| {
            let exact = choice
                .options
                .iter()
                .position(|option| option.to_lowercase() == wanted);
            let near = || {
                choice
                    .options
                    .iter()
                    .position(|option| option.to_lowercase().contains(&wanted))
            };
            Some((at, exact.or_else(near)?))
        });
        let Some((at, option)) = found.filter(|_| !wanted.is_empty()) else {
            return false;
        };
        let choice = &mut self.choices[at];
        let taken = choice.options.remove(option);
        choice.eaten = choice.eaten.saturating_sub(1);
        let done = choice.eaten == 0 || choice.options.is_empty();
        let what = choice.what.clone();
        if done {
            self.choices.remove(at);
        }
        match what {
            Some(what) => self.parts.push(MenuPart { text: taken, what }),
            None if self.head.is_empty() => {
                self.main = format!("{taken}{}", self.main);
                self.head = taken;
            }
            None => {
                self.main = format!("{taken} {}", self.main);
                self.head = format!("{taken} {}", self.head);
            }
        }
        true
    }

    /// Puts the add-on that holds `text` on the dish; says whether there was one.
    pub(crate) fn with_add_on(&mut self, text: &str) -> bool {
        let wanted = text.trim().to_lowercase();
        let holds = |add_on: &AddOn| add_on.text.to_lowercase().contains(&wanted);
        let Some(at) = self
            .add_ons
            .iter()
            .position(holds)
            .filter(|_| !wanted.is_empty())
        else {
            return false;
        };
        let add_on = self.add_ons.remove(at);
        let lower = add_on.text.to_lowercase();
        let extra = lower.strip_prefix("extra ").is_some();
        let text = if extra {
            add_on.text["extra ".len()..].to_owned()
        } else {
            add_on.text
        };
        let what = if extra {
            PartKind::Extra
        } else {
            PartKind::Added
        };
        self.parts.push(MenuPart { text, what });
        true
    }
}

#[cfg(test)]
mod tests {
    use super::super::parse_menu_line;

    #[test]
    fn a_choice_is_decided_and_an_add_on_put_on() {
        let mut line =
            parse_menu_line("Burger 12 with fries or side salad, add egg 2, extra cheese 1");
        assert_eq!(line.choices[0].options, ["fries", "side salad"]);
        assert!(!line.choose("soup"));
        assert!(line.choose("salad"));
        assert!(line.choices.is_empty());
        assert!(line.with_add_on("egg") && line.with_add_on("cheese") && !line.with_add_on("egg"));
        let texts: Vec<_> = line.parts.iter().map(|part| part.text.as_str()).collect();
        assert_eq!(texts, ["side salad", "egg", "cheese"]);
        let mut head = parse_menu_line("Soup or salad 6");
        assert!(head.choose("soup"));
        assert_eq!(head.head, "Soup");
        let mut shared = parse_menu_line("Chicken or beef burrito");
        assert!(shared.choose("beef"));
        assert_eq!(shared.head, "beef burrito");
    }
}
