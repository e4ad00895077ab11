//! Plates in one call each, for programs that use the library.
//!
//! [`Plates`] holds the foods, the dishes that come with the program and whose day a plate is
//! held against. It opens no file and reads no clock; any number of threads may share it.

use crate::fit::{Hold, RightSized, Room, Unfit, right_size};
use crate::foods::CatalogueError;
use crate::ledger::{Audit, Day, PulsesAs, Standard, audit};
use crate::matching::Catalogue;
use crate::menu::{Auditor, Item, Row, RowFault, Setting};
use crate::pages::{json, text};
use crate::quantity::Range;
use crate::reading::{Dish, ReadingError, UnitSystem, parse_lines};
use crate::store::{KnownDishes, Library, Meaning};
use crate::weighing::{Estimated, Finds, MenuContext, Request, WeighedComponent};

/// Energy of a day where nobody says another, kcal: the level that food labels use in the
/// United States (21 CFR 101.9).
const USUAL_KCAL: f64 = 2000.0;

/// What plates are audited with: foods, dishes, and whose day it is.
#[derive(Debug)]
pub struct Plates {
    catalogue: Catalogue,
    dishes: KnownDishes,
    standard: Standard,
    energy_kcal: f64,
    units: UnitSystem,
}

/// A plate whose foods are found, weighed and held against a day.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Plate {
    /// Each component with its food and its weight.
    pub dish: Dish<WeighedComponent>,
    /// Limits and food groups against the day.
    pub audit: Audit,
}

/// Why there is no plate.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum NoPlate {
    /// The text, or the dish that it names, can not be read.
    #[error(transparent)]
    Unread(#[from] ReadingError),
    /// Nothing in it means a food.
    #[error("nothing in `{text}` means a food; name a dish or its components")]
    NoFood {
        /// As given.
        text: String,
    },
}

impl Plates {
    /// Plates held against 2,000 kcal a day of the Dietary Guidelines' US-style pattern, in US
    /// cups and spoons. Fails only where the program was built from damaged tables.
    ///
    /// ```
    /// let plates = trencher::Plates::new()?;
    /// let plate = plates.plate("chicken Caesar salad")?;
    /// assert!(plate.grams().likely > 200.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn new() -> Result<Self, CatalogueError> {
        let standard = Standard::embedded("us-style");
        let missing = || CatalogueError::new("the US-style pattern is missing");
        Ok(Self {
            catalogue: Catalogue::embedded()?,
            dishes: KnownDishes::of(&Library::built_in()),
            standard: standard.ok_or_else(missing)?,
            energy_kcal: USUAL_KCAL,
            units: UnitSystem::Us,
        })
    }

    /// The same for a person who needs `kcal` a day.
    #[must_use]
    pub fn for_energy(mut self, kcal: f64) -> Self {
        self.energy_kcal = kcal;
        self
    }

    /// The same by another standard.
    #[must_use]
    pub fn by_standard(mut self, standard: Standard) -> Self {
        self.standard = standard;
        self
    }

    /// The same where cups and spoons are those of `units`.
    #[must_use]
    pub fn in_units(mut self, units: UnitSystem) -> Self {
        self.units = units;
        self
    }

    /// Whose day plates are held against.
    #[must_use]
    pub fn day(&self) -> Day<'_> {
        Day {
            standard: &self.standard,
            energy_kcal: self.energy_kcal,
            pulses: PulsesAs::Vegetables,
            protein_g: None,
        }
    }

    /// The plate that a text means: a dish of the library, a line of a menu, or what a person
    /// says of a meal.
    ///
    /// Fails when nothing in it means a food.
    ///
    /// ```
    /// use trencher::ledger::{Group, Limit};
    ///
    /// let plates = trencher::Plates::new()?.for_energy(1800.0);
    /// let plate = plates.plate("8 oz ribeye with mashed potatoes and green beans")?;
    /// let sodium = plate.audit.ledger.line(Limit::Sodium);
    /// let vegetables = plate.audit.ledger.line(Group::Vegetables);
    /// assert!(sodium.share().is_some());
    /// assert!(vegetables.likely().unwrap_or_default() > 0.5);
    ///
    /// assert!(plates.plate("zzqx").is_err());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn plate(&self, text: &str) -> Result<Plate, NoPlate> {
        self.weigh(self.dishes.meaning(text, "", self.units)?, text)
    }

    /// The plate of components, one a line: `2 cups romaine`, `chicken breast, grilled 6 oz`.
    ///
    /// Fails at the first line that can not be read, and when nothing means a food.
    ///
    /// ```
    /// let plates = trencher::Plates::new()?;
    /// let plate = plates.components("200 g cooked rice\n100 g black beans\n1 tbsp olive oil")?;
    /// assert_eq!(plate.dish.components.len(), 3);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn components(&self, lines: &str) -> Result<Plate, NoPlate> {
        let (components, faults) = parse_lines("components", lines, self.units);
        if let Some(fault) = faults.into_iter().next() {
            return Err(fault.into());
        }
        let dish = Dish {
            components,
            ..Dish::default()
        };
        self.weigh(Meaning::listed(dish), lines)
    }

    fn weigh(&self, meaning: Meaning, text: &str) -> Result<Plate, NoPlate> {
        let context = MenuContext {
            finds: &Finds::new(&self.catalogue),
            known: &self.dishes.finder(self.units),
            units: self.units,
            british: self.units == UnitSystem::Metric,
        };
        let request = Request {
            printed_kcal: meaning.printed_kcal(),
            ..Request::default()
        };
        let Estimated { dish, notes, .. } = meaning.estimate("", None, &request, context);
        if dish.components.iter().all(|c| c.matched.food.is_none()) {
            let text = text.to_owned();
            return Err(NoPlate::NoFood { text });
        }
        let mut audit = audit(&dish, &self.catalogue, self.day());
        audit.notes.extend(notes);
        Ok(Plate { dish, audit })
    }

    /// One item of a menu.
    ///
    /// Fails when nothing in it means a food. For many items keep an [`Auditor`], which
    /// remembers what repeats.
    ///
    /// ```
    /// use trencher::menu::Item;
    ///
    /// let plates = trencher::Plates::new()?;
    /// let row = plates.menu_row(&Item {
    ///     name: "Fish tacos".to_owned(),
    ///     description: "three corn tortillas, slaw, chipotle mayo".to_owned(),
    ///     ..Item::default()
    /// })?;
    /// assert!(row.ledger.energy().is_some());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn menu_row(&self, item: &Item) -> Result<Row, RowFault> {
        let room = Room::of_day(self.day(), 1.0 / 3.0, "this meal", Hold::Usual);
        let setting = Setting {
            catalogue: &self.catalogue,
            dishes: &self.dishes,
            day: self.day(),
            room: &room,
            units: self.units,
            as_written: false,
            service: None,
            kitchens: None,
        };
        Auditor::new(setting).row(item)
    }

    /// How much of each component to eat, for the plate to take at most `share` of the day
    /// (above 0, at most 1).
    ///
    /// Fails when nothing of the plate fits.
    ///
    /// ```
    /// let plates = trencher::Plates::new()?;
    /// let plate = plates.plate("spaghetti with meatballs and garlic bread")?;
    /// let fitted = plates.right_size(&plate, 1.0 / 3.0)?;
    /// assert!(fitted.plate.eat_kcal < fitted.plate.served_kcal);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn right_size(&self, plate: &Plate, share: f64) -> Result<RightSized, Unfit> {
        let room = Room::of_day(self.day(), share, "this meal", Hold::Usual);
        right_size(&plate.dish, &self.catalogue, &room)
    }

    /// The plate as the command prints it, 80 columns wide.
    #[must_use]
    pub fn text(&self, plate: &Plate) -> String {
        let look = text::Look {
            accent: false,
            bars: None,
            why: false,
            closing: plate.audit.cautions.clone(),
        };
        text::audit(&plate.audit, &self.catalogue, &look)
    }

    /// The plate as the JSON object of `trencher audit --format json`.
    pub fn json(&self, plate: &Plate) -> Result<String, serde_json::Error> {
        json::audit(&plate.audit, &self.catalogue)
    }
}

impl Plate {
    /// Edible grams as served, with their 80 % range.
    #[must_use]
    pub fn grams(&self) -> Range {
        self.audit.served_grams()
    }

    /// Energy, kcal, with its 80 % range; `None` where a component's is not published.
    #[must_use]
    pub fn energy(&self) -> Option<Range> {
        self.audit.ledger.energy()
    }
}
