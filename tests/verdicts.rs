//! Every command passes the same verdict on a dish: limits that are beyond a day, groups and
//! energy of each library dish from text, JSON, CSV, menu rows, comparisons and handouts.

use assert_cmd::Command;
use scraper::{Html, Selector};
use serde_json::{Deserializer, Value};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

fn run(arguments: &[&str], input: &str) -> String {
    let output = Command::cargo_bin("trencher")
        .expect("the binary is built")
        .env("NO_COLOR", "1")
        .env("TRENCHER_HOME", std::env::temp_dir().join("trencher-none"))
        .args(arguments)
        .write_stdin(input)
        .output()
        .expect("runs");
    assert!(
        matches!(output.status.code(), Some(0 | 1)),
        "{arguments:?}: {output:?}"
    );
    String::from_utf8(output.stdout).expect("UTF-8")
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut list = Vec::new();
    for entry in std::fs::read_dir(folder).expect("the library").flatten() {
        let path = entry.path();
        if path.is_dir() {
            list.extend(files(&path));
        } else if path.extension().is_some_and(|e| e == "toml") {
            list.push(path);
        }
    }
    list.sort();
    list
}

fn library() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("dishes")
}

/// Names of the library's dishes.
fn names() -> Vec<String> {
    let name = |path: &PathBuf| {
        let text = std::fs::read_to_string(path).expect("a dish file");
        let file: toml::Table = text.parse().expect("TOML");
        file["name"].as_str().expect("a name").to_owned()
    };
    files(&library()).iter().map(name).collect()
}

/// What one command says of one dish.
#[derive(Debug, Clone, PartialEq, Default)]
struct Said {
    /// kcal; nothing where not known.
    energy: Option<f64>,
    /// Amount of each group, pulses apart.
    groups: BTreeMap<String, f64>,
    /// Limits that are beyond a day, by key.
    over: Vec<String>,
}

/// Several dishes through one command, so that a library takes seconds.
fn together(command: &str, names: &[String], options: &[&str]) -> String {
    let mut arguments = vec![command];
    arguments.extend(names.iter().map(String::as_str));
    arguments.extend(options);
    run(&arguments, "")
}

fn audited(names: &[String]) -> Vec<Value> {
    let text = together("audit", names, &["--format", "json"]);
    let pages = Deserializer::from_str(&text).into_iter::<Value>();
    pages.map(|page| page.expect("JSON")).collect()
}

fn list_of<'v>(page: &'v Value, key: &str) -> &'v [Value] {
    page[key].as_array().expect("a list")
}

fn over(page: &Value) -> Vec<String> {
    let over = list_of(page, "over").iter();
    over.map(|key| key.as_str().expect("a key").to_owned())
        .collect()
}

fn of_json(page: &Value) -> Said {
    let limits = list_of(page, "limits");
    let energy = limits.iter().find(|l| l["name"] == "energy");
    let groups = list_of(page, "groups").iter();
    let amount = |g: &Value| g["amount"]["likely"].as_f64().expect("an amount");
    let said = Said {
        energy: energy.and_then(|e| e["amount"]["likely"].as_f64()),
        groups: groups
            .map(|g| (g["group"].as_str().expect("a key").to_owned(), amount(g)))
            .collect(),
        over: over(page),
    };
    // Within the page, too: nutrients, shares and words are of the same figures.
    assert_eq!(page["nutrients"]["energy_kcal"].as_f64(), said.energy);
    for row in limits.iter().chain(list_of(page, "groups")) {
        let counted = row.get("portions").unwrap_or(&row["amount"]["likely"]);
        let share = row["share"].as_f64();
        let own = counted.as_f64().zip(row["allowance"].as_f64());
        let own = own.filter(|(_, a)| *a > 0.0).map(|(c, a)| c / a);
        assert_eq!(share.is_some(), own.is_some(), "{row}");
        let near = share
            .zip(own)
            .is_none_or(|(a, b)| (a - b).abs() < 0.01 + 0.005 * a);
        assert!(near, "{row}");
        let beyond = row["verdict"] == "beyond";
        let key = row.get("name").and_then(Value::as_str);
        assert_eq!(
            beyond,
            key.is_some_and(|k| said.over.iter().any(|o| o == k))
        );
    }
    said
}

fn of_row(row: &Value) -> Said {
    let groups = row["groups"].as_object().expect("groups").iter();
    Said {
        energy: row["energy_kcal"]["likely"].as_f64(),
        groups: groups
            .map(|(key, g)| (key.clone(), g["amount"]["likely"].as_f64().expect("one")))
            .collect(),
        over: over(row),
    }
}

/// Menu rows round energy to whole kcal and groups to hundredths.
fn assert_near(name: &str, how: &str, one: &Said, other: &Said, energy: f64, group: f64) {
    assert_eq!(one.over, other.over, "{name}, {how}");
    let both = one.energy.zip(other.energy);
    assert_eq!(
        one.energy.is_some(),
        other.energy.is_some(),
        "{name}, {how}"
    );
    assert!(
        both.is_none_or(|(a, b)| (a - b).abs() <= energy),
        "{name}, {how}: {both:?}"
    );
    for (key, amount) in &other.groups {
        let own = one.groups[key];
        let near = (own - amount).abs() <= group;
        assert!(near, "{name}, {how}: {key} {own} and {amount}");
    }
}

#[test]
fn a_menu_says_of_every_dish_what_its_audit_says() {
    let names = names();
    assert!(names.len() > 150, "{}", names.len());
    let items: Vec<String> = names
        .iter()
        .map(|name| serde_json::json!({ "item": name }).to_string())
        .collect();
    let menu = ["menu", "-", "--input", "ndjson", "--format", "ndjson"];
    let rows = run(&menu, &(items.join("\n") + "\n"));
    let rows: Vec<Value> = rows
        .lines()
        .map(|l| serde_json::from_str(l).expect("JSON"))
        .collect();
    let pages = audited(&names);
    assert_eq!((rows.len(), pages.len()), (names.len(), names.len()));
    for ((name, page), row) in names.iter().zip(&pages).zip(&rows) {
        assert_near(name, "menu", &of_json(page), &of_row(row), 0.51, 0.0051);
    }
}

#[test]
fn text_and_csv_say_what_json_says() {
    let names = names();
    let pages = audited(&names);
    let texts = together("audit", &names, &[]);
    // The limits, then weight and energy.
    let starts = texts.lines().skip(1).zip(texts.lines());
    let starts: Vec<(&str, &str)> = starts
        .filter(|(second, _)| second.starts_with("About ") && second.contains(" g, "))
        .collect();
    assert_eq!(starts.len(), names.len());
    let csv = together("audit", &names, &["--format", "csv"]);
    let tables: Vec<&str> = csv.split("row,name,text").skip(1).collect();
    assert_eq!(tables.len(), names.len());
    for (at, name) in names.iter().enumerate() {
        let json = of_json(&pages[at]);
        let (first, second) = starts[at];
        let printed = first.split(" g, ").nth(1).and_then(|t| t.split(' ').next());
        let printed = printed.and_then(|t| t.replace(',', "").parse::<f64>().ok());
        // Text rounds energy to tens above 500 kcal.
        let near = printed.zip(json.energy).map(|(p, e)| (p - e).abs() < 5.01);
        assert!(near.unwrap_or(json.energy.is_none()), "{name}: {first}");
        let beyond = second.starts_with("Beyond a day's limit: ");
        assert_eq!(beyond, !json.over.is_empty(), "{name}: {second}");
        assert_near(name, "csv", &json, &of_csv(tables[at]), 0.0011, 0.0011);
    }
}

fn of_csv(table: &str) -> Said {
    let text = format!("row,name,text{table}");
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let header = reader.headers().expect("a header").clone();
    let mut said = Said::default();
    for record in reader.records() {
        let record = record.expect("a row");
        let cell = |name: &str| {
            let at = header.iter().position(|h| h == name).expect("a column");
            record.get(at).expect("a cell")
        };
        let (key, likely) = (cell("name").to_owned(), cell("likely").parse::<f64>().ok());
        match (cell("row"), cell("verdict")) {
            ("limit", verdict) => {
                if key == "energy" {
                    said.energy = likely;
                }
                if verdict == "beyond" {
                    said.over.push(key);
                }
            }
            ("group", verdict) => {
                assert_ne!(verdict, "beyond");
                said.groups.insert(key, likely.expect("an amount"));
            }
            _ => {}
        }
    }
    said
}

/// Labels of limits as pages print them.
fn label(key: &str) -> String {
    key.replace('_', " ")
}

#[test]
fn comparisons_say_what_the_audits_say() {
    let names = names();
    let pages = audited(&names);
    for (four, pages) in names.chunks_exact(4).zip(pages.chunks_exact(4)) {
        let text = together("compare", four, &["--format", "json"]);
        let page: Value = serde_json::from_str(&text).expect("JSON");
        for (at, audit) in pages.iter().enumerate() {
            let own = of_json(audit);
            let mut beyond = Vec::new();
            for row in list_of(&page, "amounts") {
                let cell = &row["sides"][at];
                let name = row["name"].as_str().expect("a name");
                if name == "energy" {
                    let energy = cell["amount"]["likely"].as_f64();
                    assert_eq!(energy, own.energy, "{}", four[at]);
                }
                if cell["verdict"] == "beyond" {
                    beyond.push(name.to_owned());
                }
            }
            let over: Vec<String> = own.over.iter().map(|key| label(key)).collect();
            assert_eq!(beyond, over, "{}", four[at]);
        }
    }
}

#[test]
fn no_handout_says_nothing_above_a_line_that_says_otherwise() {
    let names = names();
    let pages = audited(&names);
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("all.html");
    let file_name = file.to_str().expect("a path");
    together("handout", &names, &["-o", file_name]);
    let html = std::fs::read_to_string(&file).expect("a page");
    let html = Html::parse_document(&html);
    let select = |text: &str| Selector::parse(text).expect("a selector");
    let (dishes, answers) = (select("article.dish"), select(".answers dd"));
    let articles: Vec<_> = html.select(&dishes).collect();
    assert_eq!(articles.len(), names.len());
    for ((article, name), page) in articles.iter().zip(&names).zip(&pages) {
        let told = article.select(&answers);
        let told: Vec<String> = told.map(|e| e.text().collect::<String>()).collect();
        let over: Vec<String> = of_json(page).over.iter().map(|key| label(key)).collect();
        assert_eq!(
            told[1].starts_with("Nothing: every limit stays within"),
            over.is_empty(),
            "{name}: {told:?}"
        );
        let said = told[1].to_lowercase();
        let named = over.iter().filter(|label| said.contains(label.as_str()));
        assert!(named.count() >= over.len().min(3), "{name}: {told:?}");
        if over.is_empty() {
            let excess = told[1].contains(" times ");
            assert!(!excess, "{name}: {told:?}");
        }
        let marks = article.select(&select("tr.beyond")).count();
        assert_eq!(marks, over.len(), "{name}");
    }
}

/// Three cups of broccoli are more than a day asks for (2.5 cups at 2,000 kcal, Dietary
/// Guidelines 2020-2025, table A3-2): told as reached, never as too much.
#[test]
fn vegetables_are_never_beyond_a_day() {
    let text = run(&["audit", "--item", "3 cups broccoli"], "");
    let head: Vec<&str> = text.lines().take(3).collect();
    assert!(
        head[1].contains("groups reached: vegetables 121 %"),
        "{head:?}"
    );
    assert!(!text.to_lowercase().contains("beyond"), "{text}");
    let json = run(
        &["audit", "--item", "3 cups broccoli", "--format", "json"],
        "",
    );
    let page: Value = serde_json::from_str(&json).expect("JSON");
    assert_eq!(over(&page), [""; 0]);
    let groups = list_of(&page, "groups");
    let vegetables = groups.iter().find(|g| g["group"] == "vegetables");
    assert_eq!(
        vegetables.map(|g| &g["verdict"]),
        Some(&"more than the day".into())
    );
}

/// 170 g of cooked black beans, counted where they are asked to count, and never twice.
#[test]
fn pulses_are_counted_once_and_a_key_says_where() {
    for (pulses, takes) in [("vegetables", "vegetables"), ("protein", "protein_foods")] {
        let beans = ["audit", "--item", "170 g black beans", "--pulses", pulses];
        let json = run(&[&beans[..], &["--format", "json"]].concat(), "");
        let page: Value = serde_json::from_str(&json).expect("JSON");
        for group in list_of(&page, "groups") {
            let counts = group["group"] == takes;
            assert_eq!(group["pulses_counted"], counts, "{pulses}: {group}");
            let counted = group["counted"]["likely"].as_f64().expect("an amount");
            let amount = group["amount"]["likely"].as_f64().expect("an amount");
            assert_eq!(counted > amount + 0.005, counts, "{pulses}: {group}");
            // Portions of this standard are single equivalents.
            let portions = group["portions"].as_f64().expect("portions");
            assert!((portions - counted).abs() < 0.0011, "{group}");
        }
    }
}
