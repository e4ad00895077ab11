//! What certainty must mean: plain words of a menu are sure, what is read into words is not,
//! and an answer that is less than sure says why.

use proptest::prelude::*;
use trencher::foods::FoodId;
use trencher::matching::{Catalogue, Certainty, Context, Targets};

fn certainty(catalogue: &Catalogue, words: &str) -> Certainty {
    catalogue.find(words, &Context::default(), 1).certainty
}

#[test]
fn plain_words_of_a_menu_are_sure() {
    let catalogue = Catalogue::embedded().unwrap();
    for words in [
        "chicken breast",
        "grilled chicken",
        "brown rice",
        "white rice",
        "olive oil",
        "butter",
        "grilled salmon",
        "steamed broccoli",
        "mashed potatoes",
        "french fries",
        "black beans",
        "flour tortilla",
        "cheddar cheese",
        "scrambled eggs",
        "fried egg",
        "orange juice",
        "ground beef",
        "bacon",
        "sour cream",
        "guacamole",
        "spaghetti",
        "garlic bread",
        "apple pie",
        "coffee",
        "ranch dressing",
        "romaine lettuce",
        "avocado",
        "hummus",
        "quinoa",
        "asparagus",
    ] {
        assert_eq!(certainty(&catalogue, words), Certainty::Sure, "{words}");
    }
}

#[test]
fn slips_of_spelling_leave_plain_words_sure() {
    let catalogue = Catalogue::embedded().unwrap();
    for words in [
        "brocoli",
        "letuce",
        "icecream",
        "spagetti",
        "chiken brest",
        "avacado",
        "tomatos",
        "zuchini",
    ] {
        assert_eq!(certainty(&catalogue, words), Certainty::Sure, "{words}");
    }
}

#[test]
fn a_name_understood_as_the_words_does_not_come_before_the_words_themselves() {
    let catalogue = Catalogue::embedded().unwrap();
    for (words, wanted) in [
        ("chicken breast, grilled", "chicken breast, grilled"),
        ("turkey breast, roasted", "turkey breast, roasted"),
    ] {
        let found = catalogue.find(words, &Context::default(), 1);
        let name = found.food.map_or("", |id| catalogue.food(id).name());
        assert!(name.starts_with(wanted), "{words}: {name}");
    }
}

#[test]
fn the_nearest_food_for_another_is_not_sure() {
    let catalogue = Catalogue::embedded().unwrap();
    for words in ["labneh", "manchego", "chimichurri", "halloumi", "zaatar"] {
        let found = certainty(&catalogue, words);
        assert!(found < Certainty::Sure, "{words}: {found:?}");
        assert!(found > Certainty::None, "{words}: {found:?}");
    }
}

#[test]
fn words_passed_over_lower_the_certainty() {
    let catalogue = Catalogue::embedded().unwrap();
    for words in [
        "Tea, hot, with milk, from a kiosk",
        "Tuna salad sandwich on white, with cheese",
        "Pizza, with meat other than pepperoni, stuffed crust",
        "Waffle, plain, frozen, from a kiosk",
        "Fajita, ostrich",
    ] {
        let found = certainty(&catalogue, words);
        assert!(found < Certainty::Sure, "{words}: {found:?}");
    }
}

#[test]
fn an_answer_that_is_less_than_sure_says_what_lowered_it() {
    let catalogue = Catalogue::embedded().unwrap();
    for (words, reason) in [
        ("labneh", "the words are taken for another name"),
        (
            "Waffle, plain, frozen, from a kiosk",
            "words asked for are not in the name",
        ),
        (
            "milk, chocolate or plain",
            "another food fits nearly as well",
        ),
        ("unicorn steak, grilled", "the words meet in part only"),
    ] {
        let found = catalogue.find(words, &Context::default(), 1);
        assert!(found.certainty < Certainty::Sure, "{words}: {}", found.why);
        let (_, lowered) = found.why.split_once("less than sure: ").unwrap_or_default();
        assert!(lowered.contains(reason), "{words}: {}", found.why);
    }
    let sure = catalogue.find("olive oil", &Context::default(), 1);
    assert!(!sure.why.contains("less than sure"), "{}", sure.why);
}

#[test]
fn a_head_noun_met_by_its_sort_must_share_more() {
    let catalogue = Catalogue::embedded().unwrap();
    let names = ["plant based fish fillet", "roasted almonds", "whole milk"];
    let targets = Targets::new(names.map(str::to_owned).to_vec(), &catalogue);
    let index = targets.index().unwrap();
    let matcher = Targets::matcher(&index, &catalogue);
    for (words, fits) in [
        ("fish, halibut, atlantic and pacific, raw", false),
        ("fish, salmon, sockeye, canned, drained solids", false),
        ("almonds, dry roasted", true),
    ] {
        let query = matcher.query(words);
        let answer = matcher.answer(&query, 3, &|a, b| a == b);
        assert_eq!(answer.certainty > Certainty::None, fits, "{words}");
        assert!(!answer.candidates.is_empty(), "{words}");
    }
}

#[test]
fn foods_alike_on_the_plate_are_alike_both_ways() {
    let catalogue = Catalogue::embedded().unwrap();
    let all = catalogue.len() as u32;
    for a in (0..all).step_by(97) {
        assert!(catalogue.alike(a, a));
        for b in (0..all).step_by(89) {
            assert_eq!(catalogue.alike(a, b), catalogue.alike(b, a), "{a} {b}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn how_many_are_asked_for_does_not_change_the_certainty(
        row in any::<prop::sample::Index>(),
        drop in 0_usize..6,
        top in 2_usize..9,
    ) {
        let catalogue = Catalogue::embedded().unwrap();
        let food = catalogue.food(FoodId(row.index(catalogue.len()) as u32));
        let mut words: Vec<&str> = food.name().split(' ').collect();
        if words.len() > 1 {
            words.remove(drop % words.len());
        }
        let text = words.join(" ");
        let one = catalogue.find(&text, &Context::default(), 1);
        let more = catalogue.find(&text, &Context::default(), top);
        prop_assert_eq!(one.food, more.food);
        prop_assert_eq!(one.certainty, more.certainty, "{}", text);
    }
}
