//! What the name of a dish means: one answer for every command.

use super::library::{Entry, Library, NameWords};
use crate::memo::Quick;
use crate::reading::{
    ComponentLine, Dish, MenuLine, Place, ReadingError, Served, UnitSystem, is_told,
    parse_dish_file, parse_menu_line, parse_told,
};
use crate::weighing::{Estimated, MenuContext, Request, estimate_in_section, estimate_with};
use crate::words::words_of;
use std::borrow::Cow;
use std::collections::HashMap;
use std::sync::OnceLock;

/// What a person asked for, as understood.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Meaning {
    /// Components that are listed: by a person, in a file, or in the library.
    Dish {
        /// The dish.
        dish: Dish<ComponentLine>,
        /// It comes with the program: its amounts are those of a typical kitchen, not of the
        /// one that serves the dish.
        built_in: bool,
        /// The library's name for it, where only nearly that was written.
        taken_for: Option<String>,
        /// What of a sentence could not be read.
        unread: Vec<ReadingError>,
    },
    /// A line of a menu.
    Line(MenuLine),
}

impl Meaning {
    /// A dish as a person or a file lists it.
    #[must_use]
    pub(crate) fn listed(dish: Dish<ComponentLine>) -> Self {
        Self::Dish {
            dish,
            built_in: false,
            taken_for: None,
            unread: Vec::new(),
        }
    }

    /// Takes the option that holds `text`, and leaves the others; says whether there was one.
    pub(crate) fn choose(&mut self, text: &str) -> bool {
        match self {
            Self::Line(line) => line.choose(text),
            Self::Dish { dish, .. } => dish.choose(text),
        }
    }

    /// Puts the add-on that holds `text` on the dish; says whether there was one.
    pub(crate) fn with_add_on(&mut self, text: &str) -> bool {
        match self {
            Self::Line(line) => line.with_add_on(text),
            Self::Dish { dish, .. } => dish.with_add_on(text),
        }
    }

    /// All options that are open, as written.
    pub(crate) fn options(&self) -> Vec<&str> {
        match self {
            Self::Line(line) => {
                let options = line.choices.iter().flat_map(|choice| &choice.options);
                options.map(String::as_str).collect()
            }
            Self::Dish { dish, .. } => {
                let choices = &dish.offered.choices;
                let options = choices.iter().flat_map(|choice| &choice.options);
                options.map(|line| line.food.as_str()).collect()
            }
        }
    }

    /// All that can be had on top, as written.
    pub(crate) fn add_ons(&self) -> Vec<&str> {
        match self {
            Self::Line(line) => line.add_ons.iter().map(|a| a.text.as_str()).collect(),
            Self::Dish { dish, .. } => {
                let add_ons = &dish.offered.add_ons;
                add_ons.iter().map(|line| line.food.as_str()).collect()
            }
        }
    }

    /// Energy that a line of a menu prints, kcal: the middle of several.
    #[must_use]
    pub(crate) fn printed_kcal(&self) -> Option<f64> {
        match self {
            Self::Line(line) => line.printed.map(|(low, high)| f64::midpoint(low, high)),
            Self::Dish { .. } => None,
        }
    }

    /// Weighs what is meant. `section` is the heading that a menu prints it under (or nothing);
    /// `served` is what the whole weighs or fills, where the person says
    /// so; it goes before what a file says. Another kitchen's plate weighs what it weighs: the
    /// amounts of a built-in dish say how much is usual.
    #[must_use]
    pub(crate) fn estimate(
        self,
        section: &str,
        served: Option<Served>,
        request: &Request,
        context: MenuContext<'_>,
    ) -> Estimated {
        match self {
            Self::Line(line) => estimate_in_section(&line, section, served, request, context),
            Self::Dish {
                mut dish, built_in, ..
            } => {
                if built_in || served.is_some() {
                    dish.served = served;
                }
                let request = Request {
                    other_kitchen: built_in,
                    ..*request
                };
                let makes = dish.makes;
                let mut estimated = estimate_with(dish, &request, context.finds, context.british);
                estimated.notes.extend(makes.map(|makes| {
                    format!("the amounts as written make {makes} servings; this is one of them")
                }));
                estimated
            }
        }
    }
}

/// A name with its inches in words: `pizza 12"`.
fn in_inches(name: &str) -> Cow<'_, str> {
    const MARKS: [char; 3] = ['"', '\u{2033}', '\u{201d}'];
    let measured = name.trim_end_matches([')', ' ']);
    let figure = measured.trim_end_matches(MARKS);
    if figure.len() < measured.len() && figure.ends_with(|c: char| c.is_ascii_digit()) {
        Cow::Owned(format!("{figure} inch"))
    } else {
        Cow::Borrowed(name)
    }
}

/// A meal told in sentences.
fn told(text: &str, units: UnitSystem) -> Meaning {
    let told = parse_told(text, &Place::new("sentence", 1, 1), units);
    Meaning::Dish {
        dish: Dish {
            components: told.components,
            read: Some(told.read),
            ..Dish::default()
        },
        built_in: false,
        taken_for: None,
        unread: told.errors,
    }
}

/// The dishes of a library by their names, their files read only when they are asked for, and
/// once.
#[derive(Debug, Clone, Default)]
pub struct KnownDishes {
    files: Vec<DishFile>,
    /// Places in `files`, by name as written and in base form and by slug; of several dishes with
    /// one name the first. Made when a name is looked up: components alone name no dish.
    by_name: OnceLock<HashMap<String, usize, Quick>>,
}

#[derive(Debug, Clone)]
struct DishFile {
    entry: Entry,
    name: OnceLock<NameWords>,
    /// In US and in metric cups and spoons.
    read: [OnceLock<Result<Dish<ComponentLine>, ReadingError>>; 2],
}

impl DishFile {
    fn name(&self) -> &NameWords {
        self.name.get_or_init(|| NameWords::of(&self.entry.name))
    }

    fn read(&self, units: UnitSystem) -> Result<&Dish<ComponentLine>, &ReadingError> {
        let read = match units {
            UnitSystem::Us => &self.read[0],
            UnitSystem::Metric => &self.read[1],
        };
        let Entry {
            slug, text, path, ..
        } = &self.entry;
        let origin = || match path {
            Some(path) => path.display().to_string(),
            None => format!("dishes/{slug}.toml"),
        };
        read.get_or_init(|| parse_dish_file(&origin(), text, units))
            .as_ref()
    }
}

impl KnownDishes {
    /// The dishes of a library; of several with one name the first.
    #[must_use]
    pub fn of(library: &Library) -> Self {
        let file = |entry: &Entry| DishFile {
            entry: entry.clone(),
            name: OnceLock::new(),
            read: [OnceLock::new(), OnceLock::new()],
        };
        Self {
            files: library.entries().iter().map(file).collect(),
            by_name: OnceLock::new(),
        }
    }

    fn by_name(&self) -> &HashMap<String, usize, Quick> {
        self.by_name.get_or_init(|| {
            let mut by_name = HashMap::default();
            for (at, file) in self.files.iter().enumerate() {
                let Entry { name, slug, .. } = &file.entry;
                let keys = [
                    Some(name.clone().into_owned()),
                    file.name().key(),
                    Some(slug.clone().into_owned()),
                ];
                for key in keys.into_iter().flatten() {
                    by_name.entry(key).or_insert(at);
                }
            }
            by_name
        })
    }

    /// The dish of exactly this name, whatever the spelling of its words; nothing when there
    /// is none or its file can not be read.
    #[must_use]
    pub(crate) fn exact(&self, name: &str, units: UnitSystem) -> Option<&Dish<ComponentLine>> {
        self.file(name)?.read(units).ok()
    }

    /// As [`Self::exact`], as a look-up for [`MenuContext`].
    pub fn finder(&self, units: UnitSystem) -> impl Fn(&str) -> Option<Dish<ComponentLine>> + '_ {
        move |name| self.exact(name, units).cloned()
    }

    fn file(&self, name: &str) -> Option<&DishFile> {
        let find = |key: &str| self.by_name().get(key).map(|at| &self.files[*at]);
        // Words in base form have neither capitals nor hyphens: such a text can only be a name as
        // written or a slug, and a single look-up is not worth the words of every name.
        let as_written = name.contains(|c: char| c == '-' || c.is_uppercase());
        let first = if as_written && self.by_name.get().is_none() {
            let is = |file: &&DishFile| file.entry.name == name || file.entry.slug == name;
            self.files.iter().find(is)
        } else {
            find(name)
        };
        first.or_else(|| find(&words_of(&in_inches(name)).join(" ")))
    }

    /// The dish whose name is the same but for spelling and order of its words.
    fn near(&self, name: &str) -> Option<&DishFile> {
        let asked = NameWords::of(name);
        let likeness = self.files.iter().map(|file| asked.likeness(file.name()));
        let scored = likeness.zip(&self.files);
        let (score, best) = scored.max_by(|a, b| a.0.total_cmp(&b.0))?;
        (score > 0.0).then_some(best)
    }

    /// What a text means that names a dish or describes one, `description` being what a menu
    /// says beneath its name (or nothing): a dish of the library of exactly that name, one of
    /// nearly that name, else a line of a menu.
    ///
    /// Fails when the dish's file can not be read.
    pub(crate) fn meaning(
        &self,
        name: &str,
        description: &str,
        units: UnitSystem,
    ) -> Result<Meaning, ReadingError> {
        let own = parse_menu_line(name);
        // What a line changes of a dish is more than a dish's name; a price, a tag or a mark behind
        // a dish changes nothing.
        let (own_text, own_parts) = (own.text.clone(), own.parts.len());
        let line = if description.is_empty() {
            own
        } else {
            MenuLine::described(name, description)
        };
        let changed = || {
            let more = |plain: MenuLine| plain.parts.len() > own_parts;
            !description.is_empty() && line.by_name().is_none_or(more)
        };
        let exact = self.file(name).or_else(|| self.file(&own_text));
        let exact = exact.filter(|_| !changed());
        if exact.is_none() && description.is_empty() && is_told(name) {
            return Ok(told(name, units));
        }
        let plain = description.is_empty() && line.is_plain();
        let near = || {
            let file = self.near(&line.text)?;
            Some((file, Some(file.entry.name.clone())))
        };
        let found = exact.map(|file| (file, None));
        let Some((file, taken_for)) = found.or_else(|| plain.then(near)?) else {
            return Ok(Meaning::Line(line));
        };
        Ok(Meaning::Dish {
            dish: file.read(units).map_err(Clone::clone)?.clone(),
            built_in: file.entry.path.is_none(),
            taken_for: taken_for.map(Cow::into_owned),
            unread: Vec::new(),
        })
    }
}
