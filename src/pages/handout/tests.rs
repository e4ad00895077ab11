//! Pages read back by an HTML parser: well formed, inert, in order, the same every time.

use super::*;
use crate::ledger::{Allowance, Group, LedgerLine, Limit, Subject};
use crate::pages::drawing::{Form, Look, Mass, Patch, Picture, Plate, Rgb, Texture};
use crate::quantity::{Estimate, Range};
use proptest::prelude::*;
use scraper::{Html, Selector};
use std::collections::HashSet;

fn patch(label: &str, size: &str, texture: Texture, volume_ml: f64) -> Patch {
    Patch {
        label: label.to_owned(),
        size_words: size.to_owned(),
        texture,
        volume_ml: Range::new(volume_ml * 0.75, volume_ml, volume_ml * 1.3),
        look: Look {
            form: match texture {
                Texture::Grains => Form::Rice,
                Texture::Vegetables => Form::Florets,
                _ => Form::Breast,
            },
            tint: Rgb::hex(0xd9_b48c),
            count: None,
            seed: label.to_owned(),
        },
    }
}

fn row(subject: impl Into<Subject>, served: Range, fitted: f64, allowance: f64) -> AmountRow {
    let served = Some(Estimate::from_range(served));
    AmountRow {
        line: LedgerLine {
            subject: subject.into(),
            amount: served,
            counted: served,
            takes_pulses: false,
            allowance: Some(Allowance {
                amount: allowance,
                minimum: None,
            }),
            portion: 1.0,
        },
        fitted: Some(fitted),
    }
}

/// The row with another amount on the plate.
fn serve(row: &mut AmountRow, amount: f64) {
    row.line.amount = Some(Estimate::exact(amount));
    row.line.counted = row.line.amount;
}

/// An invented dish with invented figures.
fn supper() -> Handout {
    let served = Picture {
        title: "Chicken with rice, as served".to_owned(),
        plate: Some(Plate {
            diameter_cm: 30.5,
            stated: false,
        }),
        on_plate: (0..3).map(Mass::Food).collect(),
        beside: Vec::new(),
        strip: Vec::new(),
        foods: vec![
            patch("rice", "about 3 cups", Texture::Grains, 710.0),
            patch("chicken", "about 6 oz", Texture::ProteinFoods, 170.0),
            patch("broccoli", "about ½ cup", Texture::Vegetables, 118.0),
        ],
    };
    let mut fitted = served.clone();
    fitted.title = "Chicken with rice, right-sized".to_owned();
    fitted.foods[0].volume_ml = Range::exact(236.0);
    fitted.foods[0].size_words = "about 1 cup".to_owned();
    let amounts = vec![
        row(Group::Grains, Range::new(9.0, 13.0, 17.0), 4.0, 6.0),
        row(Group::ProteinFoods, Range::exact(5.5), 5.5, 5.5),
        row(Group::Vegetables, Range::exact(0.5), 0.5, 2.5),
        row(
            Limit::Sodium,
            Range::new(1900.0, 2600.0, 3400.0),
            1600.0,
            2300.0,
        ),
    ];
    Handout {
        title: "Chicken with rice".to_owned(),
        day: "a day of 2,000 kcal".to_owned(),
        served,
        fitted: Some(fitted),
        fitted_for: Some("a meal of a third of the day".to_owned()),
        not_drawn: Some("Counted but not drawn: cooked in oil (1 tbsp).".to_owned()),
        questions: kitchen_questions(&amounts, true),
        amounts,
        nutrients: Vec::new(),
        portioning: vec![
            Portioning {
                food: "rice".to_owned(),
                served: "3 cups".to_owned(),
                eat: Eat::Part("1 cup".to_owned()),
                boxed: Some("2 cups".to_owned()),
                boxable: true,
            },
            Portioning {
                food: "chicken".to_owned(),
                served: "6 oz".to_owned(),
                eat: Eat::All,
                boxed: None,
                boxable: true,
            },
        ],
        cautions: vec!["Salt added at the table is not counted.".to_owned()],
        sources: vec!["Invented figures for a test.".to_owned()],
    }
}

fn all_pages(handout: &Handout, options: &Options) -> Vec<String> {
    let two = [handout.clone(), handout.clone()];
    vec![
        page(handout, options).unwrap(),
        comparison(&[handout, &two[1]], false, options).unwrap(),
        comparison(&[handout, &two[1], handout, handout], true, options).unwrap(),
        booklet("A booklet", &two, options).unwrap(),
        quiz("A quiz", &two, options).unwrap(),
    ]
}

fn select(text: &str) -> Selector {
    Selector::parse(text).unwrap()
}

/// Whether an attribute makes a browser fetch or open something outside the page. A dish may
/// be called `://`: as words in a label that is harmless, as an address it is not.
fn loads_from_outside(name: &str, value: &str) -> bool {
    const ADDRESSES: [&str; 11] = [
        "src",
        "srcset",
        "href",
        "xlink:href",
        "action",
        "formaction",
        "poster",
        "data",
        "background",
        "cite",
        "ping",
    ];
    let inside = value.is_empty() || value.starts_with('#');
    let fetches =
        value.contains("url(") && !value.split("url(").skip(1).all(|u| u.starts_with('#'));
    let styles = !matches!(name, "aria-label" | "alt" | "title" | "content");
    (ADDRESSES.contains(&name) && !inside) || (styles && fetches)
}

#[test]
fn addresses_are_told_from_words() {
    assert!(!loads_from_outside("aria-label", "://"));
    assert!(!loads_from_outside("href", "#dish-1"));
    assert!(!loads_from_outside("fill", "url(#weave)"));
    assert!(loads_from_outside("src", "x.png"));
    assert!(loads_from_outside("href", "//host/page"));
    assert!(loads_from_outside("style", "background: url(x.png)"));
    assert!(loads_from_outside("fill", "url(https://host/x.svg#a)"));
}

/// Parses and checks what every page must hold.
fn checked(page: &str) -> Html {
    let parsed = Html::parse_document(page);
    assert!(parsed.errors.is_empty(), "{:?}", parsed.errors);
    for unwanted in [
        "script",
        "img",
        "iframe",
        "link",
        "object",
        "image",
        "foreignObject",
        "form",
        "base",
    ] {
        assert_eq!(parsed.select(&select(unwanted)).count(), 0, "{unwanted}");
    }
    let mut ids = HashSet::new();
    for element in parsed.select(&select("*")) {
        for (name, value) in element.value().attrs() {
            assert!(!name.starts_with("on"), "{name}");
            assert!(!loads_from_outside(name, value), "{name}={value}");
            if name == "id" {
                assert!(ids.insert(value.to_owned()), "id {value} twice");
            }
        }
    }
    for element in parsed.select(&select("[aria-labelledby], [aria-describedby]")) {
        for name in ["aria-labelledby", "aria-describedby"] {
            if let Some(id) = element.value().attr(name) {
                assert!(ids.contains(id), "{id} is not there");
            }
        }
    }
    for link in parsed.select(&select("a[href]")) {
        let id = link.value().attr("href").unwrap().trim_start_matches('#');
        assert!(ids.contains(id), "link to {id} leads nowhere");
    }
    let mut level = 0;
    for heading in parsed.select(&select("h1, h2, h3, h4")) {
        let this: i32 = heading.value().name()[1..].parse().unwrap();
        assert!(this <= level + 1, "h{this} after h{level}");
        level = this;
    }
    assert_eq!(parsed.select(&select("h1")).count(), 1);
    assert_eq!(parsed.select(&select("html[lang=en]")).count(), 1);
    parsed
}

fn words(parsed: &Html, selector: &str) -> Vec<String> {
    parsed
        .select(&select(selector))
        .map(|e| {
            e.text()
                .collect::<String>()
                .split_whitespace()
                .collect::<Vec<_>>()
                .join(" ")
        })
        .collect()
}

#[test]
fn every_page_is_well_formed() {
    for large_print in [false, true] {
        for paper in [Paper::A4, Paper::Letter] {
            let options = Options {
                paper,
                large_print,
                ..Options::default()
            };
            for page in all_pages(&supper(), &options) {
                let parsed = checked(&page);
                assert_eq!(
                    parsed.select(&select("html.large")).count(),
                    usize::from(large_print)
                );
                assert!(page.contains(&format!("size: {}", paper.css_name())));
            }
        }
    }
}

#[test]
fn the_three_answers_come_first() {
    let parsed = checked(&page(&supper(), &Options::default()).unwrap());
    assert_eq!(
        words(&parsed, ".answers dd"),
        [
            "Grains 13 oz-eq, protein foods 5.5 oz-eq, vegetables 0.5 cup-eq.",
            "▲ Sodium 1.1 times a day’s share (0.8 to 1.5).",
            "1 cup of the rice; all of the chicken. Box what is left."
        ]
    );
    assert_eq!(parsed.select(&select("figure svg[role=img]")).count(), 2);
    assert_eq!(parsed.select(&select(".questions li")).count(), 3);
}

#[test]
fn a_dish_within_the_day_says_so() {
    let mut light = supper();
    for row in &mut light.amounts {
        serve(row, row.line.allowed().unwrap() * 0.5);
    }
    light.portioning.clear();
    light.fitted = None;
    let parsed = checked(&page(&light, &Options::default()).unwrap());
    let answers = words(&parsed, ".answers dd");
    assert!(answers[1].starts_with("Nothing:"));
    assert_eq!(
        answers[2],
        "No right-sized plate was worked out for this dish."
    );
    assert!(!words(&parsed, "body")[0].contains('▲'));
}

#[test]
fn two_dishes_face_each_other_in_words() {
    let mut other = supper();
    other.title = "Chicken salad".to_owned();
    serve(&mut other.amounts[0], 2.0);
    other.amounts.remove(1);
    let parsed = checked(&comparison(&[&supper(), &other], false, &Options::default()).unwrap());
    let rows = words(&parsed, ".facing tbody td:last-child");
    assert_eq!(
        rows,
        [
            "A 6.5 times as much",
            "only A",
            "about the same",
            "about the same"
        ]
    );
}

#[test]
fn four_dishes_are_told_apart_by_letters() {
    let dishes: Vec<Handout> = [1.0, 2.0, 8.0, 8.2]
        .into_iter()
        .map(|served| {
            let mut dish = supper();
            dish.title = format!("Dish of {served}");
            serve(&mut dish.amounts[0], served);
            dish
        })
        .collect();
    let all: Vec<&Handout> = dishes.iter().collect();
    let parsed = checked(&comparison(&all, false, &Options::default()).unwrap());
    let heads = words(&parsed, ".facing thead th");
    assert_eq!(
        heads[1..5],
        [
            "A: Dish of 1",
            "B: Dish of 2",
            "C: Dish of 8",
            "D: Dish of 8.2"
        ]
    );
    let rows = words(&parsed, ".facing tbody td:last-child");
    assert_eq!(rows[0], "D 8.2 ≈ C 8.0 > B 2.0 > A 1.0");
    assert_eq!(rows[1], "about the same");
    // What holds for all is said once.
    let cautions = words(&parsed, ".cautions li");
    assert_eq!(cautions.len(), 1, "{cautions:?}");
}

#[test]
fn a_booklet_lists_and_holds_every_dish() {
    let dishes: Vec<Handout> = (0..5)
        .map(|i| Handout {
            title: format!("Dish {i}"),
            ..supper()
        })
        .collect();
    let parsed = checked(&booklet("Five dishes", &dishes, &Options::default()).unwrap());
    assert_eq!(words(&parsed, ".contents a").len(), 5);
    assert_eq!(words(&parsed, ".dish > header h2")[4], "Dish 4");
    assert_eq!(words(&parsed, ".contents .at")[4], "page 6");
    assert_eq!(parsed.select(&select(".contents .scene svg")).count(), 5);
    assert_eq!(
        parsed.select(&select(".back a[href='#contents1']")).count(),
        5
    );
}

#[test]
fn contents_take_as_many_pages_as_they_say() {
    let dishes = vec![supper(); 61];
    let parsed = checked(&booklet("Many", &dishes, &Options::default()).unwrap());
    assert_eq!(parsed.select(&select(".cover")).count(), 2);
    assert_eq!(words(&parsed, ".contents .at")[60], "page 63");
    assert_eq!(
        parsed.select(&select(".back a[href='#contents2']")).count(),
        1
    );
    let large = Options {
        large_print: true,
        ..Options::default()
    };
    let parsed = checked(&booklet("Many", &dishes, &large).unwrap());
    assert_eq!(words(&parsed, ".contents .at").len(), 0, "pages not known");
}

#[test]
fn names_and_date_stand_apart_from_what_is_around_them() {
    let mut dish = supper();
    dish.day = "שירה’s day of 1,800 kcal".to_owned();
    let options = Options {
        signed: Signed {
            client: Some("שירה".to_owned()),
            coach: Some("<b>Mia".to_owned()),
            date: Some("1 Mar 2026".to_owned()),
        },
        ..Options::default()
    };
    for page in all_pages(&dish, &options) {
        let parsed = checked(&page);
        let signed = words(&parsed, ".signed");
        assert_eq!(signed[0], "For שירה, from <b>Mia, 1 Mar 2026");
        assert!(words(&parsed, ".signed bdi").len() >= 2);
        assert!(!words(&parsed, ".day bdi").is_empty(), "the day’s name too");
    }
}

#[test]
fn a_plate_at_life_size_is_a_plan_and_its_sheets() {
    for paper in [Paper::A4, Paper::Letter] {
        let options = Options {
            paper,
            ..Options::default()
        };
        let parsed = checked(&fold_out(&supper(), &options).unwrap());
        assert_eq!(words(&parsed, ".key b"), ["rice", "chicken", "broccoli"]);
        let sheets = parsed.select(&select("svg.life")).count();
        assert_eq!(sheets, 2, "a plate of 30.5 cm and a fork");
        let drawn = words(&parsed, "svg.life text");
        let rule = paper.rule().words;
        assert!(drawn.contains(&format!("Sheet 2 of {sheets}: row 1, column 2")));
        assert_eq!(drawn.iter().filter(|w| w.contains(rule)).count(), sheets);
        let uses = parsed.select(&select("use[href='#life']")).count();
        assert_eq!(uses, sheets + 1);
    }
}

#[test]
fn a_quiz_keeps_its_answers_for_the_next_page() {
    let parsed = checked(&quiz("Guess", &[supper()], &Options::default()).unwrap());
    let asked = words(&parsed, ".guess")[0].clone();
    assert!(
        !asked.contains("3 cups") && !asked.contains("beyond the day"),
        "{asked}"
    );
    assert!(words(&parsed, ".answer")[0].contains("about 3 cups"));
    let told = words(&parsed, ".told li");
    assert!(told[0].starts_with("The plate is 3"), "{told:?}");
    assert!(
        told[1].starts_with("Rice: ") && told[1].ends_with("of the food that is seen."),
        "{told:?}"
    );
    assert_eq!(parsed.select(&select("input[aria-label]")).count(), 4);
}

#[test]
fn hostile_text_is_letters_only() {
    let nasty =
        "\"><script>alert(1)</script>{{ 7*7 }}{% raw %}<img src=x onerror=alert(1)>\u{202e}&#x3c;";
    let mut handout = supper();
    handout.title = nasty.to_owned();
    handout.day = nasty.to_owned();
    handout.served.title = nasty.to_owned();
    handout.served.foods[0].label = nasty.to_owned();
    handout.served.foods[1].size_words = nasty.to_owned();
    handout.portioning[0].food = nasty.to_owned();
    handout.questions[0] = nasty.to_owned();
    handout.cautions.push(nasty.to_owned());
    handout
        .sources
        .push("שלום خبز 👩\u{200d}🍳 ".repeat(3) + &"W".repeat(300));
    for page in all_pages(&handout, &Options::default()) {
        let parsed = checked(&page);
        assert!(!page.contains('\u{202e}'));
        let text: String = parsed.root_element().text().collect();
        assert!(text.contains("<script>alert(1)</script>{{ 7*7 }}{% raw %}"));
    }
}

#[test]
fn the_page_of_a_dish_is_as_agreed() {
    let page = page(&supper(), &Options::default()).unwrap();
    // The style sheet has its own file and no surprises; the snapshot keeps to the content.
    let (_, body) = page.split_once("<body>").unwrap();
    insta::assert_snapshot!(body);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn any_text_gives_the_same_well_formed_page_twice(text in any::<String>(), number in 0.0..1e6f64) {
        let mut handout = supper();
        handout.title.clone_from(&text);
        handout.served.foods[0].label.clone_from(&text);
        handout.cautions.push(text);
        serve(&mut handout.amounts[0], number);
        let options = Options::default();
        let pages = all_pages(&handout, &options);
        prop_assert_eq!(&pages, &all_pages(&handout, &options));
        for page in pages {
            checked(&page);
        }
    }
}
