//! Reading USDA's tables and putting one catalogue row together.

use crate::bounds::{Bounds, widen};
use crate::columns::{Equivalent, Nutrient};
use crate::family;
use crate::solve::Solved;
use anyhow::{Context, Result};
use std::collections::{BTreeMap, HashMap};
use std::fmt::Write as _;
use std::path::Path;

pub const N: usize = Nutrient::ALL.len();
pub const E: usize = Equivalent::ALL.len();
pub type Nutrients = [Option<f64>; N];
pub type Equivalents = [f64; E];

/// Grams of sugars in one teaspoon-equivalent (FPED 2017-2020 methodology).
const GRAMS_PER_TSP_EQ: f64 = 4.2;

pub struct SurveyFood {
    pub category: String,
}

pub struct Staple {
    pub description: String,
    pub group: String,
    pub refuse_pct: Option<f64>,
    /// SR Legacy values where the staples file has them.
    pub nutrients: Option<Nutrients>,
}

pub struct Ingredient {
    pub code: String,
    pub grams: f64,
}

pub struct Recipe {
    pub ingredients: Vec<Ingredient>,
    /// Weight change in cooking, percent of the mix.
    pub moisture_change_pct: f64,
}

pub struct Usda {
    pub survey: BTreeMap<String, SurveyFood>,
    pub survey_nutrients: BTreeMap<String, Nutrients>,
    pub equivalents: BTreeMap<String, Equivalents>,
    pub recipes: BTreeMap<String, Recipe>,
    pub staples: BTreeMap<String, Staple>,
    survey_measures: HashMap<String, Vec<(String, f64)>>,
    staple_measures: HashMap<String, Vec<(String, f64)>>,
}

/// One finished row.
pub struct Row {
    family: &'static str,
    source: String,
    basis: &'static str,
    refuse_pct: Option<f64>,
    nutrients: Nutrients,
    equivalents: Equivalents,
}

fn rows(path: &Path) -> Result<(Vec<String>, Vec<csv::StringRecord>)> {
    let mut reader =
        csv::Reader::from_path(path).with_context(|| format!("cannot read {}", path.display()))?;
    let header = reader.headers()?.iter().map(str::to_owned).collect();
    let records = reader.records().collect::<Result<Vec<_>, _>>()?;
    Ok((header, records))
}

fn column(header: &[String], name: &str) -> Result<usize> {
    header
        .iter()
        .position(|title| title == name)
        .with_context(|| format!("no column `{name}`"))
}

/// SR codes are written with five digits everywhere in the catalogue.
pub fn staple_code(text: &str) -> String {
    format!("{:0>5}", text.trim())
}

const SURVEY_COLUMNS: [Option<&str>; N] = [
    Some("Energy (kcal)"),
    Some("Protein (g)"),
    Some("Total Fat (g)"),
    Some("Fatty acids, total saturated (g)"),
    Some("Carbohydrate (g)"),
    Some("Fiber, total dietary (g)"),
    Some("Sugars, total (g)"),
    None,
    Some("Sodium (mg)"),
    Some("Alcohol (g)"),
    Some("Water (g)"),
    Some("Potassium (mg)"),
    Some("Calcium (mg)"),
    Some("Iron (mg)"),
    Some("Magnesium (mg)"),
    Some("Vitamin A, RAE (mcg_RAE)"),
    Some("Vitamin C (mg)"),
    Some("Vitamin E (alpha-tocopherol) (mg)"),
];

const STAPLE_COLUMNS: [Option<&str>; N] = [
    Some("Energy"),
    Some("Protein"),
    Some("Total fat"),
    Some("Fatty acids, total saturated"),
    Some("Carbohydrate"),
    Some("Fiber"),
    Some("Total Sugars"),
    None,
    Some("Sodium"),
    None,
    None,
    Some("Potassium"),
    Some("Calcium"),
    Some("Iron"),
    Some("Magnesium"),
    Some("Vitamin A, RAE"),
    Some("Vitamin C"),
    Some("Vitamin E"),
];

fn pick(record: &csv::StringRecord, at: &[Option<usize>; N]) -> Nutrients {
    std::array::from_fn(|i| at[i].and_then(|c| record[c].trim().parse().ok()))
}

fn positions(header: &[String], names: &[Option<&str>; N]) -> Result<[Option<usize>; N]> {
    let mut at = [None; N];
    for (slot, name) in at.iter_mut().zip(names) {
        if let Some(name) = name {
            *slot = Some(column(header, name)?);
        }
    }
    Ok(at)
}

impl Usda {
    pub fn load(dir: &Path, staples_file: &Path) -> Result<Self> {
        let (_, records) = rows(&dir.join("fndds_foods.csv"))?;
        let survey = records
            .iter()
            .map(|r| {
                (
                    r[0].to_owned(),
                    SurveyFood {
                        category: r[4].to_owned(),
                    },
                )
            })
            .collect();
        let (header, records) = rows(&dir.join("fndds_nutrients_per_100g.csv"))?;
        let at = positions(&header, &SURVEY_COLUMNS)?;
        let survey_nutrients = records
            .iter()
            .map(|r| (r[0].to_owned(), pick(r, &at)))
            .collect();
        let (_, records) = rows(&dir.join("fped_per_100g.csv"))?;
        let equivalents = records
            .iter()
            .map(|r| {
                let values = std::array::from_fn(|i| r[i + 2].trim().parse().unwrap_or(0.0));
                (r[0].to_owned(), values)
            })
            .collect();
        let staples = load_staples(dir, staples_file)?;
        Ok(Self {
            survey,
            survey_nutrients,
            equivalents,
            recipes: load_recipes(dir)?,
            staples,
            survey_measures: load_survey_measures(dir)?,
            staple_measures: load_staple_measures(dir)?,
        })
    }

    /// USDA's description of a reference food, for messages.
    pub fn name(&self, code: &str) -> &str {
        self.staples.get(code).map_or("", |s| &s.description)
    }

    /// What FPED's own rows hold at most, by the families of reference foods.
    pub fn bounds(&self, families: &[&str]) -> Bounds {
        let mut bounds = Bounds::new();
        for (code, food) in &self.survey {
            let Ok(row) = self.survey_row(code) else {
                continue;
            };
            let of_survey = family::of_survey(&food.category);
            widen(&mut bounds, families, code, of_survey, &|c| row.figure(c));
        }
        bounds
    }

    /// Household measures of a code: text and grams.
    pub fn measures(&self, code: &str) -> Vec<(String, f64)> {
        let code = MEASURED_AS
            .iter()
            .find(|(own, _)| *own == code)
            .map_or(code, |(_, as_served)| as_served);
        let table = if code.len() == 8 {
            &self.survey_measures
        } else {
            &self.staple_measures
        };
        let mut list = table.get(code).cloned().unwrap_or_default();
        list.retain(|(text, _)| !names_a_maker(text));
        list.dedup();
        list
    }

    /// The finished catalogue row of a code.
    pub fn food(
        &self,
        code: &str,
        solved: &Solved,
        likeness: &BTreeMap<String, String>,
    ) -> Result<Row> {
        if code.len() == 8 {
            self.survey_row(code)
        } else {
            self.staple_row(code, solved, likeness)
        }
    }

    fn survey_row(&self, code: &str) -> Result<Row> {
        let food = self
            .survey
            .get(code)
            .context("not an FNDDS 2021-2023 code")?;
        let mut nutrients = *self
            .survey_nutrients
            .get(code)
            .context("no FNDDS nutrients")?;
        let equivalents = *self
            .equivalents
            .get(code)
            .context("no FPED 2017-2020 row")?;
        nutrients[Nutrient::AddedSugarsG as usize] =
            Some(equivalents[Equivalent::AddedSugarsTsp as usize] * GRAMS_PER_TSP_EQ);
        Ok(Row {
            family: family::of_survey(&food.category),
            source: format!("USDA FNDDS 2021-2023 {code}"),
            basis: "fndds+fped",
            refuse_pct: None,
            nutrients,
            equivalents,
        })
    }

    fn staple_row(
        &self,
        code: &str,
        solved: &Solved,
        likeness: &BTreeMap<String, String>,
    ) -> Result<Row> {
        let staple = self.staples.get(code).context("not an SR28 code")?;
        let solved_nutrients = solved.nutrients.get(code).filter(|n| adds_up(n));
        let (mut nutrients, from_recipes) = match (staple.nutrients, solved_nutrients) {
            (Some(own), _) => (own, false),
            (None, Some(found)) => (found.map(Some), true),
            (None, None) => anyhow::bail!("neither SR Legacy values nor recipes"),
        };
        fill_by_difference(&mut nutrients, &staple.group);
        let (mut equivalents, basis) =
            self.staple_equivalents(code, &nutrients, solved, likeness)?;
        make_consistent(&staple.group, &mut equivalents, &nutrients);
        sweeten(&staple.description, &mut equivalents, &nutrients);
        nutrients[Nutrient::AddedSugarsG as usize] =
            Some(equivalents[Equivalent::AddedSugarsTsp as usize] * GRAMS_PER_TSP_EQ);
        let source = if from_recipes {
            format!("USDA SR28 {code}, values solved from FNDDS 2021-2023 recipes")
        } else {
            format!("USDA SR Legacy {code}")
        };
        Ok(Row {
            family: family::of_staple(&staple.group),
            source,
            basis,
            refuse_pct: staple.refuse_pct.filter(|p| *p > 0.0),
            nutrients,
            equivalents,
        })
    }

    fn staple_equivalents(
        &self,
        code: &str,
        nutrients: &Nutrients,
        solved: &Solved,
        likeness: &BTreeMap<String, String>,
    ) -> Result<(Equivalents, &'static str)> {
        if let Some(like) = likeness.get(code) {
            if like == "none" {
                return Ok(([0.0; E], "rule"));
            }
            // The same form of the same kind counts gram for gram, whatever its solids.
            if let Some(same) = like.strip_prefix('=') {
                let values = self.gram_for_gram(same, nutrients, solved);
                let values =
                    values.with_context(|| format!("likeness of {code}: no `{same}` in FPED"))?;
                return Ok((values, "likeness"));
            }
            let (model, model_nutrients) = self
                .model(like, solved)
                .with_context(|| format!("likeness of {code}: `{like}` has no equivalents"))?;
            return Ok((scaled(&model, &model_nutrients, nutrients), "likeness"));
        }
        let group = self.staples.get(code).map_or("", |s| s.group.as_str());
        if let Some(found) = solved.equivalents.get(code).filter(|e| plausible(group, e)) {
            return Ok((*found, "recipes"));
        }
        anyhow::bail!("no recipe shows its equivalents: name a likeness")
    }

    /// A model food's own equivalents; only its fats go by the fat that there is.
    fn gram_for_gram(&self, like: &str, own: &Nutrients, solved: &Solved) -> Option<Equivalents> {
        let mut values = match self.equivalents.get(like) {
            Some(values) => *values,
            None => *solved.equivalents.get(&staple_code(like))?,
        };
        if let Some((model, model_nutrients)) = self.model(like, solved) {
            let by_fat = scaled(&model, &model_nutrients, own);
            for fat in [Equivalent::OilsG, Equivalent::SolidFatsG] {
                values[fat as usize] = by_fat[fat as usize];
            }
        }
        Some(values)
    }

    fn model(&self, code: &str, solved: &Solved) -> Option<(Equivalents, Nutrients)> {
        if let Some(values) = self.equivalents.get(code) {
            return Some((*values, *self.survey_nutrients.get(code)?));
        }
        let code = staple_code(code);
        let values = solved.equivalents.get(&code)?;
        let nutrients = match self.staples.get(&code).and_then(|s| s.nutrients) {
            Some(own) => own,
            None => solved.nutrients.get(&code)?.map(Some),
        };
        Some((*values, nutrients))
    }
}

/// Each column was solved by itself. Parts make the totals, no food holds more oil or solid
/// fat than fat, and a food of a single group counts for no other.
fn make_consistent(group: &str, values: &mut Equivalents, nutrients: &Nutrients) {
    use Equivalent as E;
    let alone = matches!(
        group,
        "0100" | "0500" | "0700" | "0900" | "1000" | "1100" | "1300" | "1500" | "1600" | "1700"
    );
    if alone {
        for grain in [E::Grains, E::WholeGrains, E::RefinedGrains] {
            values[grain as usize] = 0.0;
        }
    }
    if alone && group != "1100" && group != "1600" {
        for vegetable in [
            E::DarkGreen,
            E::Tomato,
            E::RedOrangeOther,
            E::Potato,
            E::StarchyOther,
            E::VegetablesOther,
        ] {
            values[vegetable as usize] = 0.0;
        }
    }
    // Milk, yogurt and cheese are no part of a cut of meat or fish.
    if matches!(group, "0500" | "1000" | "1300" | "1500" | "1700") {
        for dairy in [E::Dairy, E::Milk, E::Yogurt, E::Cheese] {
            values[dairy as usize] = 0.0;
        }
    }
    let sums: [(E, &[E]); 5] = [
        (E::RedOrange, &[E::Tomato, E::RedOrangeOther]),
        (E::Starchy, &[E::Potato, E::StarchyOther]),
        (
            E::Vegetables,
            &[E::DarkGreen, E::RedOrange, E::Starchy, E::VegetablesOther],
        ),
        (E::Grains, &[E::WholeGrains, E::RefinedGrains]),
        (
            E::Fruits,
            &[E::FruitsCitrusMelonBerry, E::FruitsOther, E::FruitsJuice],
        ),
    ];
    for (total, parts) in sums {
        values[total as usize] = parts.iter().map(|p| values[*p as usize]).sum();
    }
    if let Some(fat) = nutrients[Nutrient::FatG as usize] {
        for column in [E::OilsG, E::SolidFatsG] {
            values[column as usize] = values[column as usize].min(fat);
        }
        let both = values[E::OilsG as usize] + values[E::SolidFatsG as usize];
        if both > fat {
            for column in [E::OilsG, E::SolidFatsG] {
                values[column as usize] *= fat / both;
            }
        }
    }
}

/// Added sugars are sugars: no food holds more of them than sugars in all, and one that is
/// called unsweetened holds none. A sweetened fruit carried over from a plain one holds the
/// sugars that the plain one lacks, and so much less fruit.
fn sweeten(description: &str, values: &mut Equivalents, nutrients: &Nutrients) {
    use Equivalent as E;
    /// Sugars of a plain fruit by its cup-equivalents, g (USDA SR: strawberries 4.9 g at 0.69
    /// cups of 100 g, blueberries 10 g at 0.69, raspberries 4.4 g at 0.81).
    const SUGARS_OF_A_CUP_G: f64 = 9.0;
    let Some(sugars) = nutrients[Nutrient::SugarsG as usize] else {
        return;
    };
    let name = description.to_lowercase();
    let added = E::AddedSugarsTsp as usize;
    let plain = name.contains("unsweetened") || name.contains("without added sugar");
    if plain {
        values[added] = 0.0;
    } else if name.contains("sweetened") && values[added] == 0.0 && values[E::Fruits as usize] > 0.0
    {
        let own = values[E::Fruits as usize] * SUGARS_OF_A_CUP_G;
        let sugar = (sugars - own).clamp(0.0, 40.0);
        for fruit in [
            E::Fruits,
            E::FruitsCitrusMelonBerry,
            E::FruitsOther,
            E::FruitsJuice,
        ] {
            values[fruit as usize] *= 1.0 - sugar / 100.0;
        }
        values[added] = sugar / GRAMS_PER_TSP_EQ;
    }
    values[added] = values[added].min(sugars / GRAMS_PER_TSP_EQ);
}

/// Two ingredients that always come together cannot be told apart by recipes: what was
/// solved for them is arbitrary, and shows as energy that its parts do not explain.
fn adds_up(solved: &[f64; N]) -> bool {
    let of = |n: Nutrient| solved[n as usize];
    let energy = of(Nutrient::EnergyKcal);
    let parts = 4.0 * of(Nutrient::ProteinG)
        + 9.0 * of(Nutrient::FatG)
        + 4.0 * of(Nutrient::CarbohydrateG)
        + 6.93 * of(Nutrient::AlcoholG);
    (energy - parts).abs() <= 15.0 + 0.3 * energy.max(parts)
        && (energy > 3.0 || parts < 3.0)
        && (energy > 0.5 || of(Nutrient::WaterG) > 90.0 || of(Nutrient::SodiumMg) > 1000.0)
}

/// Equivalents that a food of this reference group can have: an ounce of meat or fish is
/// an ounce-equivalent at most once cooked down, and no fruit or vegetable counts for
/// nothing.
fn plausible(group: &str, solved: &Equivalents) -> bool {
    let of = |e: Equivalent| solved[e as usize];
    match group {
        "0500" | "0700" | "1000" | "1300" | "1500" | "1700" => {
            (0.0..5.3).contains(&of(Equivalent::Protein))
                && of(Equivalent::Protein) + of(Equivalent::SolidFatsG) + of(Equivalent::OilsG)
                    > 1.0
        }
        "0900" | "1100" => {
            of(Equivalent::Fruits)
                + of(Equivalent::Vegetables)
                + of(Equivalent::Pulses)
                + of(Equivalent::OilsG)
                > 0.1
        }
        _ => true,
    }
}

/// Solids of a like food may differ by this factor and still be the same form of it.
const SAME_FORM: f64 = 1.7;

/// Carries a model food's equivalents over. Foods in the same form (solids within a
/// factor of [`SAME_FORM`]) count the same, because a cup is a cup; a drier or wetter form
/// counts by its solids (protein + carbohydrate). Oils and solid fats go by fat.
fn scaled(model: &Equivalents, model_nutrients: &Nutrients, own: &Nutrients) -> Equivalents {
    let solids = |n: &Nutrients| {
        n[Nutrient::ProteinG as usize].unwrap_or(0.0)
            + n[Nutrient::CarbohydrateG as usize].unwrap_or(0.0)
    };
    let fat = |n: &Nutrients| n[Nutrient::FatG as usize].unwrap_or(0.0);
    let ratio = |own: f64, model: f64| {
        if model > 0.5 {
            (own / model).clamp(0.0, 12.0)
        } else {
            1.0
        }
    };
    let by_solids = match ratio(solids(own), solids(model_nutrients)) {
        same if (1.0 / SAME_FORM..=SAME_FORM).contains(&same) => 1.0,
        other => other,
    };
    let by_fat = ratio(fat(own), fat(model_nutrients));
    std::array::from_fn(|i| {
        let by = if i == Equivalent::OilsG as usize || i == Equivalent::SolidFatsG as usize {
            by_fat
        } else {
            by_solids
        };
        model[i] * by
    })
}

/// SR Legacy in the staples file has neither water nor alcohol. Alcohol is the energy that
/// protein, fat and carbohydrate do not explain, in drinks where that is more than a trace;
/// water is what everything else leaves (ash counted in).
fn fill_by_difference(nutrients: &mut Nutrients, group: &str) {
    const TRACE_KCAL: f64 = 15.0;
    // Outside drinks only an extract in alcohol leaves so much unexplained.
    const EXTRACT_KCAL: f64 = 100.0;
    const ALCOHOL_KCAL_PER_G: f64 = 6.93;
    let of = |n: Nutrient| nutrients[n as usize];
    let (Some(energy), Some(protein), Some(fat), Some(carbohydrate)) = (
        of(Nutrient::EnergyKcal),
        of(Nutrient::ProteinG),
        of(Nutrient::FatG),
        of(Nutrient::CarbohydrateG),
    ) else {
        return;
    };
    let unexplained = energy - 4.0 * protein - 9.0 * fat - 4.0 * carbohydrate;
    let alcohol = if (group == "1400" && unexplained > TRACE_KCAL) || unexplained > EXTRACT_KCAL {
        unexplained / ALCOHOL_KCAL_PER_G
    } else {
        0.0
    };
    nutrients[Nutrient::AlcoholG as usize].get_or_insert(alcohol);
    let water = (100.0 - protein - fat - carbohydrate - alcohol).max(0.0);
    let known = nutrients[Nutrient::WaterG as usize].get_or_insert(water);
    // A solved figure cannot be more than what is left.
    *known = known.min(water);
}

impl Row {
    /// Its family.
    pub fn family(&self) -> &'static str {
        self.family
    }

    /// Whether its equivalents were solved or carried over.
    pub fn is_derived(&self) -> bool {
        self.basis != "fndds+fped"
    }

    /// A figure by its column.
    pub fn figure(&self, column: &str) -> Option<f64> {
        let nutrient = Nutrient::ALL.iter().position(|n| n.column() == column);
        if let Some(at) = nutrient {
            return self.nutrients[at];
        }
        let at = Equivalent::ALL.iter().position(|e| e.column() == column)?;
        Some(self.equivalents[at])
    }

    pub fn write_row(&self, code: &str, out: &mut String) -> Result<()> {
        let refuse = self.refuse_pct.map(|p| number(p, 1)).unwrap_or_default();
        let source = if self.source.contains(',') {
            format!("\"{}\"", self.source)
        } else {
            self.source.clone()
        };
        write!(
            out,
            "{code},{},{source},{},{refuse}",
            self.family, self.basis
        )?;
        for value in self.nutrients {
            write!(out, ",{}", value.map(|v| number(v, 3)).unwrap_or_default())?;
        }
        for value in self.equivalents {
            write!(out, ",{}", number(value, 4))?;
        }
        out.push('\n');
        Ok(())
    }
}

/// A decimal without trailing zeros.
pub fn number(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text.is_empty() || text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

/// Staples measured as the same food of the survey is: SR28's half fillet of salmon (178 g) is part
/// of the side of a fish, the survey's fillets (140 and 210 g) are portions.
const MEASURED_AS: [(&str, &str); 1] = [("15237", "26137160")];

/// Rows of SR Legacy (USDA, SR28's abbreviated file) that the staples file lacks, in its columns.
const MORE_STAPLES: &str = "examples/rebuild_catalogue/more_staples.csv";

fn load_staples(dir: &Path, staples_file: &Path) -> Result<BTreeMap<String, Staple>> {
    let mut by_name = HashMap::new();
    for file in [Path::new(MORE_STAPLES), staples_file] {
        let (header, records) = rows(file)?;
        let at = positions(&header, &STAPLE_COLUMNS)?;
        let (name, kind) = (column(&header, "foodName")?, column(&header, "data_type")?);
        for record in records.iter().filter(|r| &r[kind] == "sr_legacy_food") {
            by_name.insert(record[name].to_lowercase(), pick(record, &at));
        }
    }
    let (_, records) = rows(&dir.join("sr28_foods.csv"))?;
    Ok(records
        .iter()
        .map(|r| {
            let staple = Staple {
                description: r[2].to_owned(),
                group: r[1].to_owned(),
                refuse_pct: r[4].trim().parse().ok(),
                nutrients: by_name.get(&r[2].to_lowercase()).copied(),
            };
            (staple_code(&r[0]), staple)
        })
        .collect())
}

fn load_recipes(dir: &Path) -> Result<BTreeMap<String, Recipe>> {
    let (_, records) = rows(&dir.join("fndds_ingredients.csv"))?;
    let mut recipes: BTreeMap<String, Recipe> = BTreeMap::new();
    for r in &records {
        let code = if r[2].len() == 8 {
            r[2].to_owned()
        } else {
            staple_code(&r[2])
        };
        let recipe = recipes.entry(r[0].to_owned()).or_insert_with(|| Recipe {
            ingredients: Vec::new(),
            moisture_change_pct: r[5].trim().parse().unwrap_or(0.0),
        });
        recipe.ingredients.push(Ingredient {
            code,
            grams: r[4].trim().parse()?,
        });
    }
    Ok(recipes)
}

/// Capitalised words in USDA's measure texts that are no maker's name.
const COMMON: [&str; 36] = [
    "NFS",
    "NS",
    "Guideline",
    "NLEA",
    "FO",
    "Belgian",
    "Bagel",
    "English",
    "French",
    "Skin",
    "Moon",
    "Cake",
    "Juice",
    "Topping",
    "Texas",
    "Toast",
    "Vienna",
    "Potato",
    "Bowl",
    "Chips",
    "Napoleon",
    "Italian",
    "Spanish",
    "Naan",
    "Kaiser",
    "Hawaiian",
    "Zwieback",
    "Bread",
    "Muffin",
    "Fig",
    "Yield",
    "Serving",
    "Graham",
    "Bag",
    "Pizza",
    "Jerk",
];

/// Whether a measure is somebody's product by name: such measures are left out.
fn names_a_maker(text: &str) -> bool {
    text.split(|c: char| !(c.is_alphanumeric() || c == '\''))
        .filter(|word| word.starts_with(char::is_uppercase))
        .any(|word| !COMMON.contains(&word))
}

fn load_survey_measures(dir: &Path) -> Result<HashMap<String, Vec<(String, f64)>>> {
    let (_, records) = rows(&dir.join("fndds_portions.csv"))?;
    let mut table: HashMap<String, Vec<(String, f64)>> = HashMap::new();
    for r in &records {
        let grams: f64 = r[3].trim().parse()?;
        if grams > 0.0 {
            let measure = if r[2].starts_with("Quantity not specified") {
                "unstated".to_owned()
            } else {
                r[2].trim().to_owned()
            };
            table
                .entry(r[0].to_owned())
                .or_default()
                .push((measure, grams));
        }
    }
    Ok(table)
}

fn load_staple_measures(dir: &Path) -> Result<HashMap<String, Vec<(String, f64)>>> {
    let (_, records) = rows(&dir.join("sr28_measures.csv"))?;
    let mut table: HashMap<String, Vec<(String, f64)>> = HashMap::new();
    for r in &records {
        let (amount, grams): (f64, f64) = (r[1].trim().parse()?, r[3].trim().parse()?);
        if grams > 0.0 && amount > 0.0 {
            let measure = format!("{} {}", number(amount, 3), r[2].trim());
            table
                .entry(staple_code(&r[0]))
                .or_default()
                .push((measure, grams));
        }
    }
    Ok(table)
}
