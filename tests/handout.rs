//! `trencher handout` as a person runs it: files on disk, exit codes, what a parser reads back.

use assert_cmd::Command;
use predicates::str::contains;
use scraper::{Html, Selector};
use std::path::Path;

fn trencher() -> Command {
    let mut command = Command::cargo_bin("trencher").unwrap();
    command.env_remove("NO_COLOR");
    command
}

fn page(path: &Path) -> Html {
    let text = std::fs::read_to_string(path).unwrap();
    let page = Html::parse_document(&text);
    assert!(page.errors.is_empty(), "{:?}", page.errors);
    page
}

fn count(page: &Html, selector: &str) -> usize {
    page.select(&Selector::parse(selector).unwrap()).count()
}

#[test]
fn a_page_is_written_once_and_replaced_only_when_asked() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("page.html");
    let write = |force: bool| {
        let mut command = trencher();
        command.args(["handout", "fish-and-chips", "--energy", "2000", "-o"]);
        command.arg(&file);
        if force {
            command.arg("--force");
        }
        command.assert()
    };
    write(false).code(0).stderr(contains("page.html"));
    let first = std::fs::read(&file).unwrap();
    write(false).code(2).stderr(contains("--force"));
    write(true).code(0);
    assert_eq!(first, std::fs::read(&file).unwrap(), "the same every time");
    let page = page(&file);
    assert_eq!(count(&page, ".dish"), 1);
    assert_eq!(count(&page, "script, img, link"), 0);
}

#[test]
fn several_dishes_get_a_page_each_and_a_booklet_its_contents() {
    let folder = tempfile::tempdir().unwrap();
    let of = |form: &[&str]| {
        let file = folder.path().join(format!("p{}.html", form.len()));
        let mut command = trencher();
        command.args(["handout", "fish-and-chips", "greek-salad-with-pita"]);
        command.args(form).arg("-o").arg(&file).assert().code(0);
        page(&file)
    };
    let plain = of(&[]);
    assert_eq!((count(&plain, ".dish"), count(&plain, ".contents")), (2, 0));
    let booklet = of(&["--booklet"]);
    assert_eq!(count(&booklet, ".contents li"), 2);
    let quiz = of(&["--quiz", "--paper", "letter"]);
    assert_eq!((count(&quiz, ".guess"), count(&quiz, ".answer")), (2, 2));
    let two = of(&["--two", "--large-print", "--title", "Two"]);
    assert_eq!((count(&two, ".facing"), count(&two, "html.large")), (1, 1));
}

#[test]
fn a_booklet_of_no_dish_in_particular_is_the_library() {
    let out = trencher()
        .args(["handout", "--booklet", "-o", "-"])
        .assert()
        .code(0);
    let text = String::from_utf8(out.get_output().stdout.clone()).unwrap();
    let page = Html::parse_document(&text);
    assert!(page.errors.is_empty());
    assert!(count(&page, ".contents li") >= 60);
    assert_eq!(count(&page, ".contents li"), count(&page, ".dish"));
}

#[test]
fn a_drawing_is_xml_with_both_dishes_at_one_scale() {
    let out = trencher()
        .args([
            "handout",
            "fish-and-chips",
            "beef-pho",
            "--format",
            "svg",
            "-o",
            "-",
        ])
        .assert()
        .code(0);
    let text = String::from_utf8(out.get_output().stdout.clone()).unwrap();
    let drawing = roxmltree::Document::parse(&text).unwrap();
    let foods = drawing
        .descendants()
        .filter(|n| n.has_attribute("data-food"));
    assert!(foods.count() >= 8);
}

#[test]
fn what_cannot_be_made_is_told_with_a_way_out() {
    let refused = |args: &[&str], words: &str| {
        trencher()
            .arg("handout")
            .args(args)
            .assert()
            .code(2)
            .stderr(contains(words));
    };
    refused(
        &["fish-and-chips", "--two", "-o", "-"],
        "--two takes two dishes",
    );
    refused(
        &["fish-and-chips", "--two", "--quiz", "-o", "-"],
        "cannot be used with",
    );
    refused(&["-o", "-"], "no dish was named");
    refused(&["fish-and-chips", "-o", "src"], "is a folder");
    if !cfg!(feature = "png") {
        refused(&["fish-and-chips", "-o", "plate.png"], "--features png");
    }
    trencher()
        .args([
            "handout",
            "fish-and-chips",
            "-o",
            "no-such-folder/page.html",
        ])
        .assert()
        .code(3)
        .stderr(contains("cannot write"));
}

#[test]
fn the_right_sized_plate_is_for_the_meal_asked_for() {
    let captions = |form: &[&str]| {
        let mut command = trencher();
        command
            .args(["handout", "fish-and-chips", "-o", "-"])
            .args(form);
        let out = command.assert().code(0);
        let text = String::from_utf8(out.get_output().stdout.clone()).unwrap();
        let page = Html::parse_document(&text);
        let caption = Selector::parse("figcaption").unwrap();
        let found = page.select(&caption);
        found
            .map(|e| e.text().collect::<String>())
            .collect::<Vec<_>>()
    };
    assert_eq!(captions(&[])[1], "Right-sized for a third of the day");
    assert_eq!(
        captions(&["--share", "50%"])[1],
        "Right-sized for 50 % of the day"
    );
    assert!(captions(&["--meal", "lunch"])[1].starts_with("Right-sized for lunch, "));
    trencher()
        .args([
            "handout",
            "fish-and-chips",
            "-o",
            "-",
            "--meal",
            "elevenses",
        ])
        .assert()
        .code(2)
        .stderr(contains("no meal"));
}

#[test]
fn hostile_words_in_a_dish_stay_words() {
    let folder = tempfile::tempdir().unwrap();
    let dish = folder.path().join("odd.toml");
    std::fs::write(
        &dish,
        "name = \"<script>alert(1)</script> & co\"\n[[component]]\nfood = \"rice\"\namount = \"2 cups\"\nnote = \"<img src=x>\"\n",
    )
    .unwrap();
    let file = folder.path().join("odd.html");
    trencher()
        .arg("handout")
        .arg(&dish)
        .arg("-o")
        .arg(&file)
        .assert()
        .code(0);
    let page = page(&file);
    assert_eq!(count(&page, "script, img"), 0);
    let text: String = page.root_element().text().collect();
    assert!(text.contains("<script>alert(1)</script>"));
}

/// A phone's screen upright is 1080 by 1920 pixels.
#[test]
fn a_card_is_one_picture_with_four_shares_and_what_to_eat() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("card.svg");
    let card = |dishes: &[&str], file: &Path| {
        let mut command = trencher();
        command.arg("handout").args(dishes).args(["--card", "-o"]);
        command.arg(file).assert()
    };
    card(&["fish-and-chips"], &file).code(0);
    let svg = std::fs::read_to_string(&file).unwrap();
    let drawn = roxmltree::Document::parse(&svg).unwrap();
    let root = drawn.root_element();
    assert_eq!(root.attribute("viewBox"), Some("0 0 1080 1920"));
    let texts = drawn.descendants().filter(|n| n.has_tag_name("text"));
    let words: Vec<&str> = texts.filter_map(|n| n.text()).collect();
    let shares = words.iter().filter(|w| w.ends_with(" a day"));
    assert_eq!(shares.count(), 4, "{words:?}");
    assert!(words.iter().any(|w| w.contains("kcal")), "{words:?}");
    assert!(words.iter().any(|w| w.contains("allergen")), "{words:?}");
    let lowest = drawn
        .descendants()
        .filter(|n| n.has_tag_name("text"))
        .filter_map(|n| n.attribute("y")?.parse::<f64>().ok());
    assert!(lowest.fold(0.0, f64::max) < 1900.0);
    let two = folder.path().join("two.svg");
    card(&["fish-and-chips", "greek-salad-with-pita"], &two)
        .code(2)
        .stderr(contains("one dish"));
    card(&["fish-and-chips"], &folder.path().join("card.html"))
        .code(2)
        .stderr(contains(".svg"));
}

#[test]
fn life_size_takes_one_dish_and_a_form_that_has_a_size() {
    let run = |args: &[&str]| {
        let mut command = trencher();
        command.args(["handout", "--life-size", "-o"]);
        command.args(args).assert()
    };
    run(&["-", "cobb-salad", "fish-and-chips"])
        .code(2)
        .stderr(contains("name one dish"));
    run(&["x.png", "cobb-salad"])
        .code(2)
        .stderr(contains(".svg"));
    let svg = run(&["-", "cobb-salad", "--format", "svg"]).code(0);
    let svg = String::from_utf8(svg.get_output().stdout.clone()).unwrap();
    let document = roxmltree::Document::parse(&svg).unwrap();
    let root = document.root_element();
    let wide = root.attribute("width").unwrap();
    let view = root.attribute("viewBox").unwrap();
    let unit = view.split(' ').nth(2).unwrap();
    assert_eq!(wide, format!("{unit}mm"), "a unit is a millimetre");
    for food in ["romaine lettuce", "bacon", "This line is 10 cm long."] {
        assert!(svg.contains(food), "{food}");
    }
}

#[test]
fn a_page_carries_the_coach_and_the_date() {
    let run = |date: &str| {
        let mut command = trencher();
        command.env("TRENCHER_NOW", "2026-03-29T12:30:00+02:00[Europe/Berlin]");
        command.args([
            "handout",
            "cobb-salad",
            "--from",
            "Mia",
            "--date",
            date,
            "-o",
            "-",
        ]);
        command.assert()
    };
    run("today")
        .code(0)
        .stdout(contains("From <bdi>Mia</bdi>, 29 Mar 2026"));
    run("some day")
        .code(2)
        .stderr(contains("`some day` is no day known here"));
}

#[test]
fn metric_pages_tell_no_cups() {
    let out = trencher()
        .args([
            "handout",
            "chicken-tikka-masala-with-rice",
            "--units",
            "metric",
            "-o",
            "-",
        ])
        .output()
        .unwrap();
    let page = Html::parse_document(&String::from_utf8(out.stdout).unwrap());
    let cells = Selector::parse(".labels .size, .portioning td").unwrap();
    let told: Vec<String> = page.select(&cells).map(|e| e.text().collect()).collect();
    let cups = |text: &&String| {
        text.split([' ', ','])
            .any(|w| ["cup", "cups", "oz", "tbsp"].contains(&w))
    };
    assert_eq!(told.iter().find(cups), None);
    assert!(told.iter().any(|text| text.contains(" g")), "{told:?}");
}
