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
    assert_eq!(parts("shrimp, breaded and fried").0, "fried breaded shrimp");
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
    assert_eq!(parts("fish tacos, 3").0, "3 fish tacos");
    assert_eq!(parts("burger, 1240").0, "burger");
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
