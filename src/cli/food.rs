//! `trencher food ...`.

use super::arguments::{Common, FoodCommand, Format, Units};
use super::{Failure, Outcome, corrections, note, print};
use crate::catalogue::{Catalogue, Certainty, Context, Equivalent, Food, FoodId, Nutrient};
use crate::estimate::weigh;
use crate::groups::{Group, Per100Kcal, equivalent, nrf9_3};
use crate::pages::number::{grams, kcal, portions};
use crate::pages::text::wrap;
use crate::reading::{Place, parse_component};
use std::fmt::Write as _;
use tabled::builder::Builder;
use tabled::settings::object::Columns;
use tabled::settings::{Alignment, Modify, Padding, Style, Width};

pub(super) fn run(command: FoodCommand) -> Result<Outcome, Failure> {
    let catalogue = corrections::catalogue()?;
    match command {
        FoodCommand::Find {
            words,
            top,
            correct,
            common,
        } => {
            let words = words.join(" ");
            let catalogue = match correct {
                Some(food) => correct_to(catalogue, &words, &food, &common)?,
                None => catalogue,
            };
            find(&catalogue, &words, top, &common)
        }
        FoodCommand::Corrections(command) => corrections::run(&command),
        FoodCommand::Match(args) => super::food_match::run(&args, &catalogue),
        FoodCommand::Show { food, common } => show(&catalogue, &food, &common),
        FoodCommand::Rank { group, top, common } => rank(&catalogue, &group, top, &common),
        FoodCommand::Equal {
            component,
            top,
            common,
        } => equal(&catalogue, &component, top, &common),
    }
}

/// Keeps what the person says that `words` mean, and answers with it from now on.
fn correct_to(
    catalogue: Catalogue,
    words: &str,
    food: &str,
    common: &Common,
) -> Result<Catalogue, Failure> {
    if crate::catalogue::words::words(words).is_empty() {
        return Err(Failure::Request(format!(
            "`{words}` holds no word to correct"
        )));
    }
    let meant = match food.trim() {
        "none" => None,
        food => Some(one(&catalogue, food, common)?),
    };
    let made = corrections::correction(words, meant, corrections::today()?);
    corrections::keep(std::slice::from_ref(&made))?;
    note(&format!(
        "`{words}` is taken for `{}` from now on; take that back with `trencher food corrections remove {words}`",
        made.food
    ));
    let mut all = catalogue.corrections().clone();
    all.add(made);
    Ok(catalogue.corrected_by(all))
}

/// A table of text in the asked format: one shared order of columns for all formats.
pub(super) fn rows(
    header: &[&str],
    rows: &[Vec<String>],
    widths: &[usize],
    format: Format,
) -> Result<String, Failure> {
    let failed = |e: &dyn std::fmt::Display| Failure::File(e.to_string());
    match format {
        Format::Text => {
            let mut table = Builder::default();
            table.push_record(header.iter().copied());
            for row in rows {
                table.push_record(row.clone());
            }
            let mut table = table.build();
            table.with(Style::blank()).with(Padding::new(0, 1, 0, 0));
            for (column, width) in widths.iter().enumerate() {
                table.with(
                    Modify::new(Columns::one(column)).with(Width::wrap(*width).keep_words(true)),
                );
                let numeric = rows
                    .iter()
                    .all(|r| r[column].starts_with(|c: char| c.is_ascii_digit() || c == '-'));
                if numeric && !rows.is_empty() {
                    table.with(Modify::new(Columns::one(column)).with(Alignment::right()));
                }
            }
            Ok(table
                .to_string()
                .lines()
                .map(|l| l.trim_end().to_owned() + "\n")
                .collect())
        }
        Format::Json => {
            let list: Vec<_> = rows
                .iter()
                .map(|row| {
                    let pairs = header
                        .iter()
                        .zip(row)
                        .map(|(k, v)| ((*k).replace(' ', "_"), v.clone().into()));
                    serde_json::Value::Object(pairs.collect())
                })
                .collect();
            Ok(serde_json::to_string_pretty(&list).map_err(|e| failed(&e))? + "\n")
        }
        Format::Csv => {
            let mut writer = csv::Writer::from_writer(Vec::new());
            writer.write_record(header).map_err(|e| failed(&e))?;
            for row in rows {
                writer.write_record(row).map_err(|e| failed(&e))?;
            }
            Ok(String::from_utf8_lossy(&writer.into_inner().map_err(|e| failed(&e))?).into_owned())
        }
    }
}

fn context(common: &Common) -> Context {
    Context {
        words: Vec::new(),
        british: common.units == Units::Metric,
    }
}

fn find(
    catalogue: &Catalogue,
    words: &str,
    top: usize,
    common: &Common,
) -> Result<Outcome, Failure> {
    let top = top.clamp(1, 50);
    let found = catalogue.find(words, &context(common), top);
    let mut list = Vec::new();
    if let Some(id) = found.food {
        list.push((id, found.score, found.certainty.word()));
    }
    list.extend(
        found
            .alternatives
            .iter()
            .map(|(id, score)| (*id, *score, "")),
    );
    let table: Vec<Vec<String>> = list
        .iter()
        .map(|(id, score, certainty)| {
            let food = catalogue.food(*id);
            vec![
                food.name().to_owned(),
                food.code().to_owned(),
                (*certainty).to_owned(),
                format!("{score:.2}"),
                food.per_100g(Nutrient::EnergyKcal)
                    .map_or("-".to_owned(), kcal),
            ]
        })
        .collect();
    let header = ["food", "code", "certainty", "score", "kcal per 100 g"];
    let mut text = rows(&header, &table, &[44, 10, 9, 6, 8], common.format)?;
    if common.format == Format::Text {
        if found.certainty == Certainty::None {
            text = format!("nothing fits `{words}`; nearest:\n{text}");
        }
        if common.why {
            text.push_str(&wrap(&found.why));
        }
    }
    print(&text)?;
    Ok(if found.food.is_some() {
        Outcome::Done
    } else {
        Outcome::Partly
    })
}

/// A food by code, or by words that leave no more than a likely doubt.
fn one<'c>(catalogue: &'c Catalogue, words: &str, common: &Common) -> Result<Food<'c>, Failure> {
    if let Some(food) = catalogue.by_code(words.trim()) {
        return Ok(food);
    }
    let found = catalogue.find(words, &context(common), 4);
    match (found.food, found.certainty) {
        (Some(id), Certainty::Sure | Certainty::Likely) => Ok(catalogue.food(id)),
        (id, _) => {
            let near: Vec<&str> = id
                .into_iter()
                .chain(found.alternatives.iter().map(|(id, _)| *id))
                .take(3)
                .map(|id: FoodId| catalogue.food(id).name())
                .collect();
            let near = if near.is_empty() {
                String::new()
            } else {
                format!("\n  = nearest: {}", near.join("; "))
            };
            Err(Failure::Request(format!(
                "no food is clearly meant by `{words}`{near}"
            )))
        }
    }
}

fn show(catalogue: &Catalogue, words: &str, common: &Common) -> Result<Outcome, Failure> {
    let food = one(catalogue, words, common)?;
    if common.format == Format::Json {
        let nutrients: serde_json::Map<_, _> = Nutrient::ALL
            .iter()
            .map(|n| (n.column().to_owned(), food.per_100g(*n).map(tidy).into()))
            .collect();
        let equivalents: serde_json::Map<_, _> = Equivalent::ALL
            .iter()
            .map(|e| {
                (
                    e.column().to_owned(),
                    tidy(food.equivalent_per_100g(*e)).into(),
                )
            })
            .collect();
        let value = serde_json::json!({
            "food": food.name(), "food_id": food.code(), "family": food.family(),
            "source": food.source(), "groups_from": food.basis(),
            "aliases": food.aliases().collect::<Vec<_>>(),
            "refuse_share": food.refuse_share(),
            "per_100_g": nutrients, "equivalents_per_100_g": equivalents,
            "measures": food.measures().map(|m| serde_json::json!({"measure": m.text, "grams": tidy(m.grams)})).collect::<Vec<_>>(),
        });
        let text =
            serde_json::to_string_pretty(&value).map_err(|e| Failure::File(e.to_string()))?;
        return print(&(text + "\n"));
    }
    let mut table = Vec::new();
    for n in Nutrient::ALL {
        let value = food.per_100g(n).map_or("not published".to_owned(), plain);
        table.push(vec![
            "per 100 g".to_owned(),
            n.column().replace('_', " "),
            value,
        ]);
    }
    for e in Equivalent::ALL {
        let value = food.equivalent_per_100g(e);
        if value > 0.0 {
            table.push(vec![
                "per 100 g".to_owned(),
                e.column().replace('_', " "),
                plain(value),
            ]);
        }
    }
    for m in food.measures() {
        let name = if m.text == "unstated" {
            "no amount named"
        } else {
            m.text
        };
        table.push(vec![
            "measure".to_owned(),
            name.to_owned(),
            format!("{} g", plain(m.grams)),
        ]);
    }
    let body = rows(
        &["", "what", "figure"],
        &table,
        &[10, 44, 16],
        common.format,
    )?;
    if common.format == Format::Csv {
        return print(&body);
    }
    let mut text = wrap(&format!(
        "{} ({}, {})",
        food.name(),
        food.code(),
        food.family()
    ));
    let aliases: Vec<&str> = food.aliases().collect();
    if !aliases.is_empty() {
        text.push_str(&wrap(&format!("also: {}", aliases.join("; "))));
    }
    if let Some(refuse) = food.refuse_share() {
        let _ = writeln!(
            text,
            "not eaten: {:.0} % of the weight as bought",
            refuse * 100.0
        );
    }
    text.push('\n');
    text.push_str(&body);
    text.push_str(&wrap(&format!(
        "Source: {}; food groups: {}",
        food.source(),
        basis_words(food.basis())
    )));
    print(&text)
}

/// What the basis of equivalents means, in words.
fn basis_words(basis: &str) -> &'static str {
    match basis {
        "fndds+fped" => "USDA FPED 2017-2020, same code",
        "recipes" => "solved from USDA's recipes (FNDDS 2021-2023, FPED 2017-2020)",
        "likeness" => "carried over from a like food (FPED 2017-2020)",
        "yours" => "as your table has them",
        like if like.starts_with("like `") => "as a like food's of the catalogue",
        _ => "counts for none (FPED 2017-2020)",
    }
}

fn plain(value: f64) -> String {
    let text = format!("{value:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn tidy(value: f64) -> f64 {
    (value * 10_000.0).round() / 10_000.0
}

fn group_named(name: &str) -> Result<Group, Failure> {
    Group::from_words(name).ok_or_else(|| {
        let known = Group::ALL
            .iter()
            .map(|g| g.key())
            .collect::<Vec<_>>()
            .join(", ");
        Failure::Request(format!("no food group `{name}`\n  = use one of {known}"))
    })
}

/// Nutrients of 100 kcal of a food; `None` without energy.
fn per_100_kcal(food: &Food<'_>) -> Option<Per100Kcal> {
    let energy = food.per_100g(Nutrient::EnergyKcal).filter(|e| *e > 0.5)?;
    let of = |n| Some(food.per_100g(n)? * 100.0 / energy);
    Some(Per100Kcal {
        protein_g: of(Nutrient::ProteinG),
        fibre_g: of(Nutrient::FibreG),
        vitamin_a_mcg: of(Nutrient::VitaminAMcg),
        vitamin_c_mg: of(Nutrient::VitaminCMg),
        vitamin_e_mg: of(Nutrient::VitaminEMg),
        calcium_mg: of(Nutrient::CalciumMg),
        iron_mg: of(Nutrient::IronMg),
        potassium_mg: of(Nutrient::PotassiumMg),
        magnesium_mg: of(Nutrient::MagnesiumMg),
        saturated_fat_g: of(Nutrient::SaturatedFatG),
        added_sugars_g: of(Nutrient::AddedSugarsG),
        sodium_mg: of(Nutrient::SodiumMg),
    })
}

/// A food belongs to the group that gives it most of its portions, at a quarter portion per
/// 100 g at least.
fn main_group(food: &Food<'_>) -> Option<Group> {
    Group::ALL
        .iter()
        .map(|g| {
            let amount = food.equivalent_per_100g(equivalent(*g));
            // A portion of oil is 4.5 g, a teaspoon.
            (
                *g,
                if *g == Group::Oils {
                    amount / 27.0
                } else {
                    amount
                },
            )
        })
        .filter(|(_, amount)| *amount >= 0.25)
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(g, _)| g)
}

fn rank(
    catalogue: &Catalogue,
    group: &str,
    top: usize,
    common: &Common,
) -> Result<Outcome, Failure> {
    let group = group_named(group)?;
    let mut list: Vec<(f64, Food<'_>)> = catalogue
        .foods()
        .filter(|f| main_group(f) == Some(group))
        .filter_map(|f| Some((nrf9_3(&per_100_kcal(&f)?)?, f)))
        .collect();
    list.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.name().cmp(b.1.name())));
    let table: Vec<Vec<String>> = list
        .iter()
        .take(top.clamp(1, 5000))
        .enumerate()
        .map(|(at, (score, food))| {
            vec![
                (at + 1).to_string(),
                food.name().to_owned(),
                format!("{score:.0}"),
                food.per_100g(Nutrient::EnergyKcal)
                    .map_or("-".to_owned(), kcal),
            ]
        })
        .collect();
    let mut text = rows(
        &["rank", "food", "nrf9.3", "kcal per 100 g"],
        &table,
        &[5, 50, 8, 8],
        common.format,
    )?;
    if common.format == Format::Text {
        text.push_str(&wrap(
            "NRF9.3: nine nutrients to have more of less three to have less of, percent of reference \
             per 100 kcal (Fulgoni et al., J Nutr 2009).",
        ));
    }
    print(&text)
}

fn equal(
    catalogue: &Catalogue,
    component: &str,
    top: usize,
    common: &Common,
) -> Result<Outcome, Failure> {
    let line = parse_component(
        component,
        Place::new("command line", 1, 1),
        common.units.into(),
    )
    .map_err(|e| Failure::Request(e.to_string()))?;
    let food = one(catalogue, &line.food, common)?;
    let group = main_group(&food).ok_or_else(|| {
        Failure::Request(format!(
            "`{}` counts for no food group, so nothing is like it",
            food.name()
        ))
    })?;
    let amount = line
        .amount
        .as_ref()
        .and_then(|a| weigh(&food, a, &line.food))
        .map(|w| w.grams.likely);
    let weight = amount.ok_or_else(|| {
        Failure::Request(format!("`{component}` has no amount that can be weighed\n  = write it like `2 slices` or `100 g`"))
    })?;
    let portion = food.equivalent_per_100g(equivalent(group)) * weight / 100.0;
    let mut others: Vec<(u32, f64, Food<'_>)> = catalogue
        .foods()
        .filter(|f| f.id() != food.id() && main_group(f) == Some(group) && is_plain(f, group))
        .map(|f| {
            (
                closeness(&food, &f),
                f.equivalent_per_100g(equivalent(group)),
                f,
            )
        })
        .collect();
    others.sort_by(|a, b| {
        b.0.cmp(&a.0)
            .then(a.2.name().len().cmp(&b.2.name().len()))
            .then(a.2.name().cmp(b.2.name()))
    });
    let mut families: Vec<(String, usize)> = Vec::new();
    let mut table = Vec::new();
    for (_, per_100g, other) in others {
        if !room_for(&mut families, &other) {
            continue;
        }
        let same = portion / per_100g * 100.0;
        let energy = other
            .per_100g(Nutrient::EnergyKcal)
            .map(|e| e * same / 100.0);
        table.push(vec![
            other.name().to_owned(),
            grams(same),
            household(&other, same),
            energy.map_or("-".to_owned(), kcal),
        ]);
        if table.len() >= top.clamp(1, 200) {
            break;
        }
    }
    let header = ["food", "grams", "about", "kcal"];
    let mut text = rows(&header, &table, &[40, 6, 22, 6], common.format)?;
    if common.format == Format::Text {
        let looks = looks_like(group, portion);
        let head = format!(
            "{component} ({}, {} g) is {} {} of {}{looks}. As much of the same group:",
            food.name(),
            grams(weight),
            portions(portion),
            group.unit().word(),
            group.label()
        );
        text = wrap(&head) + "\n" + &text;
    }
    print(&text)
}

/// No mixed dish: nothing of another group worth naming.
fn is_plain(food: &Food<'_>, group: Group) -> bool {
    let own = food.equivalent_per_100g(equivalent(group));
    Group::ALL
        .iter()
        .filter(|g| **g != group && **g != Group::Oils)
        .all(|g| food.equivalent_per_100g(equivalent(*g)) < 0.15 * own)
        && food.equivalent_per_100g(Equivalent::AddedSugarsTsp) < 1.0
}

/// Same family first.
fn closeness(food: &Food<'_>, other: &Food<'_>) -> u32 {
    u32::from(food.family() == other.family())
}

/// At most two foods of a kind (first word of the name), so that the list has variety.
fn room_for(kinds: &mut Vec<(String, usize)>, food: &Food<'_>) -> bool {
    let kind = food
        .name()
        .split([',', ' '])
        .next()
        .unwrap_or_default()
        .to_owned();
    match kinds.iter_mut().find(|(k, _)| *k == kind) {
        Some((_, many)) if *many >= 2 => false,
        Some((_, many)) => {
            *many += 1;
            true
        }
        None => {
            kinds.push((kind, 1));
            true
        }
    }
}

/// The weight in the food's own household measure, to the nearest quarter.
fn household(food: &Food<'_>, weight: f64) -> String {
    let usable = |text: &str| {
        !text.starts_with("Guideline")
            && text != "unstated"
            && !text.contains("yield")
            && !text.contains("cubic inch")
            && !text.contains("surface inch")
            && !text.contains("oz,")
            && !text.ends_with(" oz")
    };
    let best = food
        .measures()
        .filter(|m| usable(m.text) && m.text.starts_with("1 "))
        .map(|m| (weight / m.grams, m.text))
        .filter(|(times, _)| *times >= 0.2)
        .min_by(|a, b| distance(a.0).total_cmp(&distance(b.0)));
    best.map_or(String::new(), |(times, text)| {
        format!(
            "{} x {}",
            plain((times * 4.0).round() / 4.0),
            text.trim_start_matches("1 ")
        )
    })
}

/// How far from a handy number of measures.
fn distance(times: f64) -> f64 {
    let quarter = (times * 4.0).round() / 4.0;
    (times - quarter).abs() + if times > 6.0 { 1.0 } else { 0.0 }
}

/// An everyday size for portions of a group (NHLBI serving size card; USDA-credited table
/// of visual sizes).
fn looks_like(group: Group, portion: f64) -> String {
    let (each, words) = match group {
        Group::ProteinFoods => (3.0, "a deck of cards for every 3 oz-eq of meat or fish"),
        Group::Grains => (
            1.0,
            "half a baseball of cooked rice or pasta for every oz-eq",
        ),
        Group::Fruits => (1.0, "a baseball for every cup-eq"),
        Group::Vegetables => (1.0, "a baseball for every cup-eq, two for raw leaves"),
        Group::Pulses => (0.5, "half a baseball for every half cup-eq"),
        Group::Dairy => (1.0, "six stacked dice of cheese for every cup-eq"),
        Group::Oils => (4.5, "the tip of a thumb for every teaspoon"),
    };
    if portion < each * 0.2 {
        String::new()
    } else {
        format!(" (to the eye: {words})")
    }
}
