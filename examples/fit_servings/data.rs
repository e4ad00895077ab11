//! The items that restaurants print, with what their words say and what their parts come to.

use serde::Deserialize;
use std::collections::HashSet;
use std::path::Path;
use trencher::matching::Catalogue;
use trencher::reading::{MenuLine, parse_menu_line};
use trencher::weighing::servings::{Parts, Said, ServingText, Traits, What, features};
use trencher::weighing::{MenuContext, Request, energy, estimate_in_section};
use trencher::words::words;

/// A serving as its file says it.
#[derive(Debug, Default, Deserialize)]
pub struct Row {
    restaurant: String,
    item: String,
    #[serde(default)]
    section: String,
    #[serde(default)]
    description: String,
    #[serde(default)]
    category: String,
    #[serde(default)]
    served_g: Option<f64>,
    #[serde(default)]
    served_ml: Option<f64>,
    #[serde(default)]
    sodium_mg: Option<f64>,
    energy_kcal: Option<f64>,
    /// Whether it was surveyed, not printed.
    #[serde(skip)]
    surveyed: bool,
}

impl Row {
    /// A serving that somebody ate or weighed.
    pub fn surveyed(source: String, item: String, grams: f64, kcal: f64) -> Self {
        Self {
            restaurant: source,
            item,
            served_g: Some(grams),
            energy_kcal: Some(kcal),
            surveyed: true,
            ..Self::default()
        }
    }
}

/// One printed item.
pub struct Item {
    pub name: String,
    /// As it is read.
    pub line: MenuLine,
    pub section: String,
    pub description: String,
    pub restaurant: String,
    /// What its words say.
    pub said: Said,
    /// What its parts come to.
    pub parts: Option<Parts>,
    /// What speaks for its energy.
    pub features: Vec<(What, String, f64)>,
    /// Printed energy, kcal.
    pub kcal: f64,
    /// Printed weight, g.
    pub grams: Option<f64>,
    /// What a drink holds, g: its printed weight, or its printed volume.
    pub cup_grams: Option<f64>,
    /// Printed sodium, mg.
    pub sodium: Option<f64>,
    /// Whether the restaurant counts it as a drink; `None` where it says no category.
    pub beverage: Option<bool>,
    /// What makes it like other dishes of its kitchen.
    pub traits: Traits,
    /// Whether it was surveyed, not printed.
    pub surveyed: bool,
}

/// Energy below which a logarithm says nothing of amounts, kcal.
const LEAST_KCAL: f64 = 5.0;

/// Millilitres in a US fluid ounce (NIST Handbook 44); grams in a millilitre of a sweet drink
/// (USDA SR28 14400, cola: 30.7 g a fl oz).
const ML_IN_A_FLUID_OUNCE: f64 = 29.57;
const DRINK_G_PER_ML: f64 = 1.04;

/// Reads both files of printed items and takes what was surveyed along.
pub fn read(
    printed: &Path,
    servings: &Path,
    surveyed: Vec<Row>,
    context: MenuContext<'_>,
) -> Result<Vec<Item>, Box<dyn std::error::Error>> {
    let vocabulary = Vocabulary::of(context.finds.catalogue());
    let mut rows = surveyed;
    for path in [printed, servings] {
        for row in csv::Reader::from_path(path)?.deserialize::<Row>() {
            rows.push(row?);
        }
    }
    rows.retain(|row| row.energy_kcal.is_some_and(|kcal| kcal >= LEAST_KCAL));
    let items = rows.into_iter().map(|row| item(row, context, &vocabulary));
    // What people drink of one cup says nothing of what a cup holds.
    Ok(items
        .filter(|item| !(item.surveyed && item.said.drink))
        .collect())
}

fn item(row: Row, context: MenuContext<'_>, vocabulary: &Vocabulary) -> Item {
    let line = if row.description.is_empty() {
        parse_menu_line(&row.item)
    } else {
        MenuLine::described(&row.item, &row.description)
    };
    let said = Said::read(ServingText::of(&line, &row.section));
    let parts = parts(&line, &row.section, context);
    let mut list = Vec::new();
    features(&said, parts, |what, of, figure| {
        if vocabulary.holds(what, of) {
            list.push((what, of.to_owned(), figure));
        }
    });
    let ounces = said.stated.fluid_ounces.or(said.stated.ounces);
    let millilitres = row.served_ml.or(ounces.map(|oz| oz * ML_IN_A_FLUID_OUNCE));
    let cup_grams = row.served_g.or(millilitres.map(|ml| ml * DRINK_G_PER_ML));
    let text = ServingText::of(&line, &row.section);
    Item {
        traits: Traits::of(Said::read(text)),
        surveyed: row.surveyed,
        cup_grams: cup_grams.filter(|_| said.drink),
        sodium: row.sodium_mg,
        beverage: (!row.category.is_empty()).then(|| row.category == "Beverages"),
        name: row.item,
        section: row.section,
        description: row.description,
        restaurant: row.restaurant,
        said,
        parts,
        features: list,
        kcal: row.energy_kcal.unwrap_or_default(),
        grams: row.served_g,
        line,
    }
}

/// What the parts of an item come to when they are weighed one by one.
fn parts(line: &MenuLine, section: &str, context: MenuContext<'_>) -> Option<Parts> {
    let request = Request {
        parts_only: true,
        ..Request::default()
    };
    let list = estimate_in_section(line, section, None, &request, context)
        .dish
        .components;
    let grams = list.iter().filter_map(|c| Some(c.grams()?.mean));
    let (count, grams) = (grams.clone().count(), grams.sum());
    let kcal = energy(&list, context.finds.catalogue()).mean;
    (kcal > 0.0).then_some(Parts { count, kcal, grams })
}

/// Words that tables may hold: those of foods, kinds and sizes. A restaurant's own words and
/// trademarks are none of them.
struct Vocabulary(HashSet<String>);

impl Vocabulary {
    fn of(catalogue: &Catalogue) -> Self {
        let foods = catalogue.foods().flat_map(|food| {
            let names = std::iter::once(food.name()).chain(food.aliases());
            names.flat_map(words).collect::<Vec<_>>()
        });
        let own = [
            include_str!("../../src/weighing/tables/serving_kinds.csv"),
            include_str!("../../src/weighing/tables/size_words.csv"),
            include_str!("../../src/weighing/tables/dish_kinds.csv"),
        ];
        Self(
            foods
                .chain(own.iter().flat_map(|text| words(text)))
                .collect(),
        )
    }

    fn holds(&self, what: What, of: &str) -> bool {
        !what.is_of_words() || of.split([' ', '|']).all(|word| self.0.contains(word))
    }
}
