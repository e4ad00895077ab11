//! `trencher compare` as a person runs it: tables that fit, formats that parse, refusals that
//! help.

use assert_cmd::Command;
use predicates::str::contains;
use serde_json::Value;
use unicode_width::UnicodeWidthStr;

fn compare(args: &[&str]) -> assert_cmd::assert::Assert {
    let mut command = Command::cargo_bin("trencher").unwrap();
    command.arg("compare").args(args).assert()
}

fn output(args: &[&str]) -> String {
    let done = compare(args).code(0);
    String::from_utf8(done.get_output().stdout.clone()).unwrap()
}

const TWO: [&str; 2] = ["fish-and-chips", "greek-salad-with-pita"];

#[test]
fn every_form_fits_80_columns() {
    let forms: [&[&str]; 5] = [
        &TWO,
        &["fish-and-chips", "--fit"],
        &["fish-and-chips", "--day"],
        &["fish-and-chips", "--fit", "--day"],
        &["fish-and-chips", "cobb-salad", "full-english-breakfast"],
    ];
    for form in forms {
        for line in output(form).lines() {
            assert!(line.width() <= 80, "{form:?}: {line}");
        }
    }
}

#[test]
fn shared_foods_face_each_other_and_differences_are_words() {
    let text = output(&["fish-and-chips", "chicken-tenders-with-fries"]);
    let fries = text
        .lines()
        .find(|l| l.starts_with("french fries"))
        .unwrap();
    assert!(fries.ends_with("about the same"), "{fries}");
    assert_eq!(text.matches("french fries").count(), 1, "{text}");
    let sauce = text.lines().find(|l| l.starts_with("coleslaw")).unwrap();
    assert!(sauce.ends_with("only A"), "{sauce}");
    assert!(text.contains("beyond a day"), "{text}");
}

#[test]
fn a_dish_stands_beside_itself_with_itself_no_different() {
    let text = output(&["fish-and-chips", "fish-and-chips", "--format", "json"]);
    let page: Value = serde_json::from_str(&text).unwrap();
    for row in page["components"].as_array().unwrap() {
        assert_eq!(row["difference"], "about the same", "{row}");
        assert_eq!(row["sides"][0], row["sides"][1]);
    }
}

#[test]
fn the_right_sized_plate_holds_no_more_than_the_served_one() {
    let text = output(&["fish-and-chips", "--fit", "--day", "--format", "json"]);
    let page: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(page["version"], 1);
    let kinds: Vec<&str> = page["sides"]
        .as_array()
        .unwrap()
        .iter()
        .map(|s| s["kind"].as_str().unwrap())
        .collect();
    assert_eq!(kinds, ["served", "right_sized", "day"]);
    let likely = |cell: &Value| cell["amount"]["likely"].as_f64().unwrap();
    let rows = page["amounts"].as_array().unwrap();
    let energy = rows.iter().find(|r| r["name"] == "energy").unwrap();
    assert!((likely(&energy["sides"][2]) - 2000.0).abs() < 1e-9);
    assert!(likely(&energy["sides"][1]) <= 2000.0 / 3.0 * 1.01);
    for row in rows {
        assert!(
            likely(&row["sides"][1]) <= likely(&row["sides"][0]) + 1e-9,
            "{row}"
        );
    }
}

#[test]
fn csv_has_a_row_for_each_side_and_json_the_same_figures() {
    let csv_text = output(&[TWO[0], TWO[1], "--format", "csv"]);
    let mut reader = csv::Reader::from_reader(csv_text.as_bytes());
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let json_text = output(&[TWO[0], TWO[1], "--format", "json"]);
    let page: Value = serde_json::from_str(&json_text).unwrap();
    let lines =
        page["components"].as_array().unwrap().len() + page["amounts"].as_array().unwrap().len();
    assert_eq!(rows.len(), 2 * lines);
    let sodium = rows.iter().find(|r| &r[1] == "sodium").unwrap();
    let figure = page["amounts"].as_array().unwrap();
    let figure = figure.iter().find(|r| r["name"] == "sodium").unwrap();
    assert_eq!(
        sodium[7].parse::<f64>().unwrap(),
        figure["sides"][0]["amount"]["likely"].as_f64().unwrap()
    );
}

#[test]
fn drawings_and_pages_parse() {
    let svg = output(&["fish-and-chips", "--fit", "--format", "svg"]);
    roxmltree::Document::parse(&svg).unwrap();
    let html = output(&[TWO[0], TWO[1], "--format", "html"]);
    assert!(scraper::Html::parse_document(&html).errors.is_empty());
}

/// What is said of four plates is the same wherever it is said.
#[test]
fn four_plates_stand_on_a_page() {
    let four = [
        "beef-pho",
        "cobb-salad",
        "fish-and-chips",
        "lasagne-with-meat",
    ];
    let of = |format: &str| output(&[&four[..], &["--format", format]].concat());
    let html = of("html");
    let page = scraper::Html::parse_document(&html);
    assert!(page.errors.is_empty());
    let count = |selector: &str| {
        page.select(&scraper::Selector::parse(selector).unwrap())
            .count()
    };
    assert_eq!(count(".plates section svg.trencher"), 4);
    assert_eq!(count(".facing thead th"), 6);
    let json: Value = serde_json::from_str(&of("json")).unwrap();
    let letters: Vec<&str> = json["sides"]
        .as_array()
        .unwrap()
        .iter()
        .map(|s| s["name"].as_str().unwrap())
        .collect();
    assert_eq!(letters, ["A", "B", "C", "D"]);
    let svg = of("svg");
    roxmltree::Document::parse(&svg).unwrap();
}

#[test]
fn what_cannot_be_compared_is_told_with_a_way_out() {
    let refused = |args: &[&str], words: &str| {
        compare(args).code(2).stderr(contains(words));
    };
    refused(&["fish-and-chips"], "--fit or --day");
    refused(&["fish-and-chips", "cobb-salad", "--fit"], "name one dish");
    let four = [
        "beef-pho",
        "cobb-salad",
        "fish-and-chips",
        "lasagne-with-meat",
    ];
    refused(&four, "do not fit side by side in a terminal");
    let five = [&four[..], &["beef-pho", "--format", "html"]].concat();
    refused(&five, "4 at most");
}

#[test]
fn a_day_and_a_right_sized_plate_stand_in_every_format() {
    for (form, columns) in [
        (&["cobb-salad", "--day"][..], ["A day", "leaves "]),
        (
            &["cobb-salad", "--fit", "--day"][..],
            ["Right-sized", " of "],
        ),
        (
            &["cobb-salad", "beef-pho", "--day"][..],
            ["A day", "times as much"],
        ),
    ] {
        let html = output(&[form, &["--format", "html"]].concat());
        for words in columns {
            assert!(html.contains(words), "{form:?}: {words}");
        }
        let svg = output(&[form, &["--format", "svg"]].concat());
        assert!(svg.contains("a day 2.5 cup-eq"), "{form:?}");
        let plates = svg.matches("All at one scale").count();
        assert_eq!(plates, 1, "{form:?}");
    }
}

#[test]
fn text_and_page_rank_dishes_alike() {
    let three = ["fish-and-chips", "cobb-salad", "beef-pho"];
    let json = output(&[&three[..], &["--format", "json"]].concat());
    let page: Value = serde_json::from_str(&json).unwrap();
    let html = output(&[&three[..], &["--format", "html"]].concat());
    let rows = page["amounts"].as_array().expect("rows");
    assert!(rows.len() > 5);
    for row in rows {
        let said = row["difference"].as_str().unwrap();
        let words = said.split(';').next().unwrap();
        let escaped = words.replace('>', "&gt;");
        assert!(html.contains(&escaped), "{row}");
    }
}
