//! What is on a plate has one answer: every command and every format tells the same of a dish
//! of the library, and what its file serves.

use assert_cmd::Command;
use scraper::{ElementRef, Html, Selector};
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// How far the components may weigh off what the file serves.
const SERVED_TOLERANCE: f64 = 0.05;

fn trencher(args: &[&str], input: &str) -> String {
    let output = Command::cargo_bin("trencher")
        .expect("the binary is built")
        .env("NO_COLOR", "1")
        .env("TRENCHER_HOME", std::env::temp_dir().join("trencher-none"))
        .args(args)
        .write_stdin(input)
        .output()
        .expect("runs");
    assert!(
        output.status.success(),
        "{args:?}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8(output.stdout).expect("UTF-8")
}

fn dish_files() -> Vec<PathBuf> {
    fn below(folder: &Path, list: &mut Vec<PathBuf>) {
        for item in std::fs::read_dir(folder).expect("a folder").flatten() {
            let path = item.path();
            if path.is_dir() {
                below(&path, list);
            } else if path.extension().is_some_and(|e| e == "toml") {
                list.push(path);
            }
        }
    }
    let mut list = Vec::new();
    below(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("dishes"),
        &mut list,
    );
    list.sort();
    list
}

/// Name and served grams of every dish of the library.
fn library() -> Vec<(String, Option<f64>)> {
    let read = |path: &PathBuf| {
        let text = std::fs::read_to_string(path).expect("reads");
        let file: toml::Table = toml::from_str(&text).expect("TOML");
        let served = file
            .get("served")
            .and_then(|s| s.as_str()?.strip_suffix(" g"));
        let grams = served.map(|s| s.trim().parse().expect("a number"));
        (file["name"].as_str().expect("a name").to_owned(), grams)
    };
    dish_files().iter().map(read).collect()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value}"))
}

/// An amount, or what stands for one that nobody knows.
fn amount_of(value: &Value) -> f64 {
    value["likely"].as_f64().unwrap_or(-1.0)
}

/// One group or limit of a dish, as some output tells it.
#[derive(Debug, Clone, PartialEq)]
struct Told {
    amount: f64,
    /// The same with the beans, peas and lentils that count with it.
    counted: f64,
    /// How far the output rounds the amount.
    within: f64,
    share: Option<f64>,
    verdict: Option<String>,
}

/// What an output says of a dish: by key of the group or limit.
type Said = BTreeMap<String, Told>;

fn of_audit(audit: &Value) -> Said {
    let rows = |key: &str| audit[key].as_array().expect("a list").clone();
    let row = |row: Value| {
        let key = row.get("group").unwrap_or(&row["name"]);
        let told = Told {
            amount: amount_of(&row["amount"]),
            counted: amount_of(row.get("counted").unwrap_or(&row["amount"])),
            within: 0.0011,
            share: row["share"].as_f64(),
            verdict: row["verdict"].as_str().map(str::to_owned),
        };
        (key.as_str().expect("a key").to_owned(), told)
    };
    rows("limits")
        .into_iter()
        .chain(rows("groups"))
        .map(row)
        .collect()
}

/// A row of `menu`; its verdicts are `over`.
fn of_row(row: &Value) -> Said {
    let over: Vec<&str> = row["over"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(Value::as_str)
        .collect();
    let mut said = Said::new();
    for key in ["limits", "groups"] {
        for (name, line) in row[key].as_object().expect("an object") {
            let amount = amount_of(&line["amount"]);
            let verdict = over.contains(&name.as_str()).then(|| "beyond".to_owned());
            let told = Told {
                amount,
                counted: -1.0,
                within: 0.051,
                share: line["share"].as_f64(),
                verdict,
            };
            said.insert(name.clone(), told);
        }
    }
    said
}

/// Tables of one dish after the other, as `audit --format csv` writes them.
fn of_csv(text: &str) -> Vec<Said> {
    let mut dishes = Vec::new();
    for record in csv::ReaderBuilder::new()
        .flexible(true)
        .from_reader(text.as_bytes())
        .records()
    {
        let record = record.expect("CSV");
        if !["limit", "group"].contains(&&record[0]) {
            continue;
        }
        if &record[1] == "energy" {
            dishes.push(Said::new());
        }
        let told = Told {
            amount: record[8].parse().unwrap_or(-1.0),
            counted: -1.0,
            within: 0.0011,
            share: record[12].parse().ok(),
            verdict: Some(record[13].to_owned()).filter(|v| !v.is_empty()),
        };
        dishes
            .last_mut()
            .expect("a dish")
            .insert(record[1].to_owned(), told);
    }
    dishes
}

/// Key of a label that people read.
fn key_of(label: &str) -> Option<String> {
    let label = label.trim().to_lowercase();
    let label = ["with pulses", "with beans, peas, lentils"]
        .iter()
        .find_map(|end| label.strip_suffix(end))
        .map_or(label.clone(), |label| {
            label.trim_end_matches([',', ' ']).to_owned()
        });
    let known = [
        "energy",
        "saturated fat",
        "added sugars",
        "sodium",
        "solid fats",
        "alcohol",
        "fruits",
        "vegetables",
        "grains",
        "protein foods",
        "dairy",
        "oils",
    ];
    match label.as_str() {
        "beans, peas, lentils" => Some("pulses".to_owned()),
        label => known.contains(&label).then(|| label.replace(' ', "_")),
    }
}

/// Whether a label says that pulses count with its group.
fn with_pulses(label: &str) -> bool {
    label.contains("with pulses") || label.contains("with beans, peas, lentils")
}

/// A figure as shown, and how far it may be rounded: half of its last digit; whole numbers
/// from ten on to the next ten (sodium).
fn shown(figure: &str) -> Option<(f64, f64)> {
    if let Some(below) = figure.strip_prefix('<') {
        let half = below.parse::<f64>().ok()? / 2.0;
        return Some((half, half * 1.02));
    }
    let figure = figure.trim().replace(',', "");
    let value: f64 = figure.parse().ok()?;
    let places = figure.split_once('.').map_or(0, |(_, behind)| behind.len());
    let last = if value >= 10.0 && places == 0 {
        5.0
    } else {
        0.5 * 0.1_f64.powi(i32::try_from(places).unwrap_or(0))
    };
    Some((value, last * 1.02))
}

/// The two tables of one page of `audit`.
fn of_text(page: &str) -> Said {
    let mut said = Said::new();
    for line in page.lines() {
        let Some((label, rest)) = line.split_once("  ") else {
            continue;
        };
        let Some(key) = key_of(label) else { continue };
        let mut words = rest.split_whitespace();
        let amount = match rest.trim_start().strip_prefix("not known") {
            Some(_) => Some((-1.0, 0.0)),
            None => words.next().and_then(shown),
        };
        let Some((amount, within)) = amount else {
            continue;
        };
        let percent = rest.split(" %").next().filter(|_| rest.contains(" %"));
        let share =
            percent.and_then(|p| p.rsplit(' ').next()?.replace(',', "").parse::<f64>().ok());
        let verdict = rest.contains("beyond").then(|| "beyond".to_owned());
        said.insert(
            key,
            Told {
                amount,
                counted: if with_pulses(label) { amount } else { -1.0 },
                within,
                share: share.map(|s| s / 100.0),
                verdict,
            },
        );
    }
    said
}

/// A dish's page of a handout.
fn of_article(article: ElementRef<'_>) -> Said {
    let (row, label) = (selector("table.shares tbody tr"), selector("th"));
    let (figures, words) = (selector(".figures"), selector(".words"));
    let mut said = Said::new();
    for row in article.select(&row) {
        let label = row.select(&label).next().map(text_of).unwrap_or_default();
        let Some(key) = key_of(&label) else { continue };
        let Some(told) = row.select(&figures).next().map(text_of) else {
            continue;
        };
        let Some((amount, within)) = told.split(' ').next().and_then(shown) else {
            continue;
        };
        let words = row.select(&words).next().map(text_of).unwrap_or_default();
        let verdict = words.contains("beyond").then(|| "beyond".to_owned());
        said.insert(
            key,
            Told {
                amount,
                counted: if with_pulses(&label) { amount } else { -1.0 },
                within,
                share: None,
                verdict,
            },
        );
    }
    said
}

fn selector(text: &str) -> Selector {
    Selector::parse(text).expect("a selector")
}

fn text_of(element: ElementRef<'_>) -> String {
    element.text().collect::<String>().trim().to_owned()
}

/// Where an output differs from the audit, as far as it is rounded and says it.
fn differences(audit: &Said, other: &Said) -> Vec<String> {
    let mut list = Vec::new();
    for (key, told) in other {
        let Some(known) = audit.get(key) else {
            list.push(format!("{key}: not in the audit"));
            continue;
        };
        let amount = if told.counted < 0.0 {
            known.amount
        } else {
            known.counted
        };
        if (amount - told.amount).abs() > told.within + 0.0005 * amount.abs() {
            list.push(format!("{key}: {} for {amount}", told.amount));
        }
        if let (Some(known), Some(share)) = (known.share, told.share)
            && (known - share).abs() > 0.0056
        {
            list.push(format!("{key}: share {share} for {known}"));
        }
        let beyond = |told: &Told| told.verdict.as_deref() == Some("beyond");
        if beyond(known) != beyond(told) {
            list.push(format!("{key}: {:?} for {:?}", told.verdict, known.verdict));
        }
    }
    list
}

fn audits(names: &[&str]) -> Vec<Value> {
    let mut args = vec!["audit", "--format", "json"];
    args.extend(names);
    let text = trencher(&args, "");
    serde_json::Deserializer::from_str(&text)
        .into_iter()
        .collect::<Result<_, _>>()
        .expect("JSON")
}

/// Served weights are those of the files: published, or our estimates with a reason.
#[test]
fn every_library_dish_weighs_what_its_file_serves() {
    let library = library();
    let names: Vec<&str> = library.iter().map(|(name, _)| name.as_str()).collect();
    let audits = audits(&names);
    assert_eq!(audits.len(), library.len());
    let mut checked = 0;
    for ((name, served), audit) in library.iter().zip(&audits) {
        let Some(served) = served else { continue };
        let components = audit["components"].as_array().expect("components");
        let grams: f64 = components
            .iter()
            .map(|c| number(&c["grams"]["likely"]))
            .sum();
        assert!(
            (grams / served - 1.0).abs() <= SERVED_TOLERANCE,
            "{name}: {grams} g, served {served} g"
        );
        checked += 1;
    }
    assert!(checked > 150, "{checked} dishes state a weight");
    let told = trencher(&["dish", "check", "dishes"], "");
    assert!(told.contains(" 0 faults"), "{told}");
}

/// What all outputs but one are held against.
struct Reference {
    names: Vec<String>,
    said: Vec<Said>,
}

impl Reference {
    fn of_library() -> Self {
        let names: Vec<String> = library().into_iter().map(|(name, _)| name).collect();
        let said: Vec<Said> = audits(&slices(&names)).iter().map(of_audit).collect();
        assert_eq!(names.len(), said.len());
        assert!(
            said.iter().all(|said| said.len() == 13),
            "7 groups and 6 limits"
        );
        Self { names, said }
    }

    /// Fails where an output, told dish by dish, says anything else.
    fn hold(&self, output: &str, told: &[Said], at_least: usize) {
        assert_eq!(told.len(), self.names.len(), "{output}: dishes told");
        let mut faults = Vec::new();
        for ((name, audit), told) in self.names.iter().zip(&self.said).zip(told) {
            assert!(
                told.len() >= at_least,
                "{output}: {name} has {} rows",
                told.len()
            );
            let list = differences(audit, told);
            if !list.is_empty() {
                faults.push(format!("{name}: {}", list.join("; ")));
            }
        }
        assert!(
            faults.is_empty(),
            "{output} differs in {}:\n{}",
            faults.len(),
            faults.join("\n")
        );
    }
}

fn slices(names: &[String]) -> Vec<&str> {
    names.iter().map(String::as_str).collect()
}

#[test]
fn tables_and_text_say_what_json_says() {
    let reference = Reference::of_library();
    let names = slices(&reference.names);
    let asked = |format: &str| trencher(&[&["audit", "--format", format], &names[..]].concat(), "");
    reference.hold("audit as CSV", &of_csv(&asked("csv")), 13);
    let text = asked("text");
    // Of every dish the table of limits comes first.
    let mut pages = Vec::new();
    for line in text.lines() {
        if line.starts_with("limit (") {
            pages.push(String::new());
        }
        if let Some(page) = pages.last_mut() {
            page.push_str(line);
            page.push('\n');
        }
    }
    let told: Vec<Said> = pages.iter().map(|page| of_text(page)).collect();
    reference.hold("audit as text", &told, 13);
}

#[test]
fn rows_of_a_menu_say_what_audit_says() {
    let reference = Reference::of_library();
    let rows: String = reference
        .names
        .iter()
        .map(|name| serde_json::json!({ "item": name }).to_string() + "\n")
        .collect();
    let menu = trencher(
        &["menu", "-", "--input", "ndjson", "--format", "ndjson"],
        &rows,
    );
    let rows = menu
        .lines()
        .map(|line| serde_json::from_str(line).expect("JSON"));
    let told: Vec<Said> = rows.map(|row: Value| of_row(&row)).collect();
    reference.hold("menu", &told, 13);
}

/// A comparison shows the groups and limits that one of its sides has.
#[test]
fn plates_side_by_side_say_what_audit_says() {
    let reference = Reference::of_library();
    let mut told = Vec::new();
    for some in reference.names.chunks(4) {
        let mut args = vec!["compare", "--format", "json"];
        args.extend(some.iter().map(String::as_str));
        // One dish alone is compared with the day.
        args.extend((some.len() == 1).then_some("--day"));
        let page: Value = serde_json::from_str(&trencher(&args, "")).expect("JSON");
        for at in 0..some.len() {
            let row = |row: &Value| {
                let (side, label) = (&row["sides"][at], row["name"].as_str()?);
                let amount = amount_of(&side["amount"]);
                let told = Told {
                    amount,
                    counted: if with_pulses(label) { amount } else { -1.0 },
                    within: 0.0011,
                    share: side["share"].as_f64(),
                    verdict: side["verdict"].as_str().map(str::to_owned),
                };
                Some((key_of(label)?, told))
            };
            told.push(
                page["amounts"]
                    .as_array()
                    .expect("rows")
                    .iter()
                    .filter_map(row)
                    .collect(),
            );
        }
    }
    reference.hold("compare", &told, 5);
}

/// Beside the table: the sentence about limits, the amounts below a drawing, and what stands
/// by a food in the drawing against what `compare` says of that food.
#[test]
fn a_booklet_says_what_audit_says() {
    let reference = Reference::of_library();
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("booklet.html");
    let out = out.to_str().expect("UTF-8");
    let names = slices(&reference.names);
    trencher(&[&["handout", "--output", out], &names[..]].concat(), "");
    let page = Html::parse_document(&std::fs::read_to_string(out).expect("reads"));
    let dish = selector("article.dish");
    let articles: Vec<ElementRef<'_>> = page.select(&dish).collect();
    let told: Vec<Said> = articles.iter().map(|a| of_article(*a)).collect();
    reference.hold("handout", &told, 3);
    let mut faults = Vec::new();
    for ((name, said), article) in names.iter().zip(&reference.said).zip(&articles) {
        let answers: Vec<String> = article
            .select(&selector(".answers dd"))
            .map(text_of)
            .collect();
        let over = said
            .values()
            .any(|told| told.verdict.as_deref() == Some("beyond"));
        if answers[1].starts_with("Nothing") == over {
            faults.push(format!("{name}: `{}`", answers[1]));
        }
        let drawing = article
            .select(&selector("figure"))
            .next()
            .expect("a drawing");
        let table = of_article(*article);
        for item in drawing.select(&selector(".strip li")) {
            let label = item
                .select(&selector("b"))
                .next()
                .map(text_of)
                .expect("a group");
            let words = item
                .select(&selector("span"))
                .next()
                .map(text_of)
                .expect("an amount");
            let (amount, _) = words.split(' ').next().and_then(shown).expect("a figure");
            let there = table.get(&key_of(&label).expect("a group"));
            if there.is_none_or(|there| there.amount != amount) {
                faults.push(format!(
                    "{name}: {label} {amount} below the drawing, {there:?}"
                ));
            }
        }
    }
    assert!(
        faults.is_empty(),
        "{} differ:\n{}",
        faults.len(),
        faults.join("\n")
    );
}

/// The labels of a drawing, food by food, against the table of a comparison.
#[test]
fn labels_of_drawings_are_the_sizes_of_tables() {
    let reference = Reference::of_library();
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("booklet.html");
    let out = out.to_str().expect("UTF-8");
    trencher(
        &[&["handout", "--output", out], &slices(&reference.names)[..]].concat(),
        "",
    );
    let page = Html::parse_document(&std::fs::read_to_string(out).expect("reads"));
    let (mut labels, mut faults) = (0, Vec::new());
    for (name, article) in reference
        .names
        .iter()
        .zip(page.select(&selector("article.dish")))
    {
        let told = trencher(&["compare", name, "--fit", "--format", "json"], "");
        let told: Value = serde_json::from_str(&told).expect("JSON");
        for (at, figure) in article.select(&selector("figure")).enumerate() {
            for label in figure.select(&selector(".labels li")) {
                let food = label
                    .select(&selector("bdi"))
                    .next()
                    .map(text_of)
                    .expect("a food");
                let size = label
                    .select(&selector(".size"))
                    .next()
                    .map(text_of)
                    .expect("a size");
                let rows = told["components"].as_array().expect("rows").iter();
                let sizes: Vec<&str> = rows
                    .filter(|row| row["name"] == food.as_str())
                    .filter_map(|row| row["sides"][at]["size"].as_str())
                    .collect();
                labels += 1;
                if !sizes
                    .iter()
                    .any(|known| size == *known || size.starts_with(&format!("{known}, ")))
                {
                    faults.push(format!("{name}: {food}: `{size}` for {sizes:?}"));
                }
            }
        }
    }
    assert!(labels > 800, "{labels} labels");
    assert!(
        faults.is_empty(),
        "{} of {labels} differ:\n{}",
        faults.len(),
        faults.join("\n")
    );
}
