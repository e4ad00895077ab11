//! Menu lines taken apart.

use super::*;

fn parts(text: &str) -> (String, Vec<(String, PartKind)>) {
    let line = parse_menu_line(text);
    (
        line.head,
        line.parts.into_iter().map(|p| (p.text, p.what)).collect(),
    )
}

fn of(text: &str, what: PartKind) -> (String, PartKind) {
    (text.to_owned(), what)
}

#[test]
fn letters_that_change_their_length_move_no_place() {
    // The Kelvin sign is shorter in lower case, the dotted capital I longer.
    let (head, list) =
        parts("\u{212a}\u{130}\u{130} bowl with s\u{212a}ip the \u{130}\u{130}, no rice");
    assert_eq!(head, "\u{212a}\u{130}\u{130} bowl");
    assert_eq!(list[1], of("rice", PartKind::Removed));
}

#[test]
fn a_salad_with_a_side() {
    let text =
        "grilled chicken cobb with avocado, bacon, blue cheese and ranch; garlic bread on the side";
    let (head, list) = parts(text);
    assert_eq!(head, "grilled chicken cobb");
    assert_eq!(
        list,
        [
            of("avocado", PartKind::Named),
            of("bacon", PartKind::Named),
            of("blue cheese", PartKind::Named),
            of("ranch", PartKind::Named),
            of("garlic bread", PartKind::Side),
        ]
    );
    let main = parse_menu_line(text).main;
    assert_eq!(
        main,
        "grilled chicken cobb with avocado, bacon, blue cheese and ranch"
    );
}

#[test]
fn changes() {
    let (head, list) =
        parts("Caesar salad, add shrimp, no croutons, double meat, light dressing, sub fries");
    assert_eq!(head, "Caesar salad");
    assert_eq!(
        list,
        [
            of("shrimp", PartKind::Added),
            of("croutons", PartKind::Removed),
            of("meat", PartKind::Doubled),
            of("dressing", PartKind::Light),
            of("fries", PartKind::InsteadOf(None)),
        ]
    );
    let (_, list) = parts("burger; sub side salad for fries");
    assert_eq!(
        list,
        [of(
            "side salad",
            PartKind::InsteadOf(Some("fries".to_owned()))
        )]
    );
}

#[test]
fn compounds_stay_whole_and_lists_part() {
    assert_eq!(parts("mac and cheese").0, "mac and cheese");
    let (head, list) = parts("turkey and swiss on rye with chips");
    assert_eq!(head, "turkey");
    assert_eq!(
        list,
        [
            of("swiss", PartKind::Named),
            of("rye", PartKind::Under),
            of("chips", PartKind::Named)
        ]
    );
    let (head, list) = parts("Pan-seared salmon served with rice pilaf, green beans");
    assert_eq!(head, "Pan-seared salmon");
    assert_eq!(
        list,
        [
            of("rice pilaf", PartKind::Side),
            of("green beans", PartKind::Side)
        ]
    );
}

#[test]
fn cooking_words_belong_to_the_head() {
    assert_eq!(
        parts("shrimp, breaded and fried").0,
        "breaded and fried shrimp"
    );
    assert_eq!(
        parts("Fish fillet, battered or breaded").0,
        "battered or breaded Fish fillet"
    );
}

#[test]
fn eggs_over_easy_stay_eggs() {
    let (head, list) = parts("two eggs over easy, bacon, toast");
    assert_eq!(head, "two eggs over easy");
    assert_eq!(list.len(), 2);
}

#[test]
fn bare_numbers_count_the_head() {
    let (head, list) = parts("vegetable samosas (2) with mint chutney");
    assert_eq!(head, "2 vegetable samosas");
    assert_eq!(list, [of("mint chutney", PartKind::Named)]);
    // A bare number at the end of a line is its price.
    assert_eq!(parts("fish tacos, 3").0, "fish tacos");
    assert_eq!(parts("fish tacos, 3 pieces").0, "3 fish tacos");
    assert_eq!(parts("burger, 1240").0, "burger");
}

#[test]
fn a_count_in_brackets_is_of_what_stands_before_it() {
    let (head, list) = parts("Salmon bento: rice, gyoza (3), miso soup");
    assert_eq!(head, "Salmon bento");
    assert_eq!(list[1], of("3 gyoza", PartKind::Named));
    assert_eq!(parts("Fish tacos, slaw (3) 14").0, "3 Fish tacos");
}

#[test]
fn two_joints_in_a_row_are_the_second() {
    let (head, list) = parts("salmon, served with fries, slaw");
    assert_eq!(head, "salmon");
    let side = |t| of(t, PartKind::Side);
    assert_eq!(list, [side("fries"), side("slaw")]);
    let (_, list) = parts("burger, on rye, on the side");
    assert_eq!(list[0], of("rye", PartKind::Under));
}

#[test]
fn an_amount_alone_is_the_heads() {
    assert_eq!(parts("ribeye (12 oz)").0, "12 oz ribeye");
    assert_eq!(parts("wings, 10 pieces, ranch").0, "10 wings");
    assert_eq!(parts("salmon - 6 oz").0, "6 oz salmon");
    assert_eq!(parts("fries - large").0, "large fries");
    assert_eq!(parts("Steak: medium rare").0, "medium rare Steak");
    assert_eq!(parts("chicken (grilled)").0, "grilled chicken");
    let (head, list) = parts("salmon with rice, 6 oz");
    assert_eq!((head.as_str(), list.len()), ("6 oz salmon", 1));
}

#[test]
fn a_name_is_told_from_what_it_means() {
    let lines = [
        "Harbour Plate: salmon, rice, broccoli",
        "Harbour Plate - salmon, rice, broccoli",
        "Harbour Plate \u{2013} salmon, rice, broccoli",
        "Harbour  Plate \u{2014} salmon, rice, broccoli.",
        "Harbour Plate (salmon, rice, broccoli)",
    ];
    let columns = MenuLine::described("Harbour Plate", "salmon, rice, broccoli");
    assert_eq!(columns.head, "Harbour Plate");
    assert_eq!(columns.parts.len(), 3);
    for text in lines {
        let line = parse_menu_line(text);
        assert_eq!(line.title(), "Harbour Plate", "{text}");
        let told = (&line.name, &line.main, &line.head, &line.parts);
        let same = (&columns.name, &columns.main, &columns.head, &columns.parts);
        assert_eq!(told, same, "{text}");
    }
}

#[test]
fn what_only_looks_like_a_name_is_none() {
    for text in [
        "stir-fried beef with half-and-half",
        "samosas (2) with chutney",
        "burger (no cheese)",
        "cobb (egg, bacon) with ranch",
        "burger; side - fries",
        "salmon - 6 oz",
        "11:30 lunch",
        ": rice",
        "rice - ",
        "we open at noon and serve all of our guests until late: soup",
    ] {
        assert_eq!(parse_menu_line(text).name, "", "{text}");
    }
}

#[test]
fn by_its_name_alone_a_dish_keeps_what_is_changed_and_beside_it() {
    let line = parse_menu_line("Cobb: chicken, egg, no bacon, served with garlic bread");
    let plain = line.by_name().unwrap();
    assert_eq!(plain.head, "Cobb");
    assert_eq!(
        plain
            .parts
            .into_iter()
            .map(|p| (p.text, p.what))
            .collect::<Vec<_>>(),
        [
            of("bacon", PartKind::Removed),
            of("garlic bread", PartKind::Side)
        ]
    );
    // How many there are is said by the description only.
    assert_eq!(parse_menu_line("Wings: 10 pieces, ranch").by_name(), None);
}

#[test]
fn extra_virgin_oil_is_no_extra() {
    let (_, list) = parts("bread with extra virgin olive oil");
    assert_eq!(list, [of("extra virgin olive oil", PartKind::Named)]);
}

#[test]
fn a_la_mode_is_with_ice_cream() {
    let (head, list) = parts("apple pie à la mode");
    assert_eq!(head, "apple pie");
    assert_eq!(list, [of("vanilla ice cream", PartKind::Named)]);
}

#[test]
fn nothing_breaks_it() {
    for text in [
        "",
        ";;;",
        ", ,",
        "with",
        "no",
        "sub ",
        "İstanbul kebab with rice",
        "add shrimp",
        "\u{202e}x",
    ] {
        let line = parse_menu_line(text);
        assert!(line.head.len() <= line.text.len());
    }
    assert_eq!(parse_menu_line(&"a, ".repeat(5000)).parts.len(), 0);
}

fn sizes_said(text: &str) -> Vec<String> {
    let line = parse_menu_line(text);
    line.offers.into_iter().map(|offer| offer.said).collect()
}

#[test]
fn several_sizes_of_one_dish() {
    for (text, sizes) in [
        ("House red, glass / bottle", vec!["glass", "bottle"]),
        ("House red glass 9 bottle 34", vec!["glass", "bottle"]),
        (
            "Fries - small, medium, large",
            vec!["small", "medium", "large"],
        ),
        ("Latte 12 oz 4 / 16 oz 5", vec!["12 oz", "16 oz"]),
        ("Chicken wings 6 pc 9 / 12 pc 16", vec!["6 pc", "12 pc"]),
        ("Turkey sandwich, half 7 full 11", vec!["half", "full"]),
        ("Merlot 175ml 6.50 / bottle 24", vec!["175ml", "bottle"]),
        ("Tomato soup cup 5 bowl 8", vec!["cup", "bowl"]),
    ] {
        assert_eq!(sizes_said(text), sizes, "{text}");
    }
}

#[test]
fn what_is_no_choice_of_sizes() {
    for text in [
        "Surf and turf, 6 oz filet, 4 oz lobster tail",
        "Beef brisket, regular, 6 oz",
        "Half turkey sandwich and cup of tomato soup",
        "Chicken tenders 6 pc",
        "Small fries",
    ] {
        assert_eq!(sizes_said(text), Vec::<String>::new(), "{text}");
    }
}
