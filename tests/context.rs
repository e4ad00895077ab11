//! What is around a component leans its food: the other components, the dish's name, and
//! whether the words are British or American.

use trencher::matching::{Catalogue, Certainty, Context};
use trencher::reading::{Dish, UnitSystem, parse_lines};
use trencher::weighing::match_dish;

/// The food of the component that is `words`, in a dish of that name with those others.
fn food(dish: Option<&str>, others: &[&str], words: &str, british: bool) -> String {
    let catalogue = Catalogue::embedded().expect("opens");
    let mut lines: Vec<&str> = others.to_vec();
    lines.push(words);
    let (components, errors) = parse_lines("test", &lines.join("\n"), UnitSystem::Us);
    assert!(errors.is_empty(), "{errors:?}");
    let dish = Dish {
        name: dish.map(str::to_owned),
        components,
        ..Dish::default()
    };
    let matched = match_dish(dish, &catalogue, british);
    let last = matched.components.last().expect("one at least");
    last.food
        .map_or(String::new(), |id| catalogue.food(id).name().to_owned())
}

#[test]
fn words_have_their_british_or_american_sense() {
    let catalogue = Catalogue::embedded().expect("opens");
    let find = |words: &str, british: bool| {
        let context = Context {
            british,
            ..Context::default()
        };
        let found = catalogue.find(words, &context, 1);
        let name = found.food.map_or("", |id| catalogue.food(id).name());
        (name.to_owned(), found.certainty)
    };
    for (words, british, american) in [
        ("chips", "french fries", "potato chips"),
        ("biscuits", "cookie", "biscuit"),
        ("squash", "winter squash", "summer squash"),
        ("pudding", "bread pudding", "chocolate pudding"),
        ("jelly", "gelatin", "jelly"),
        ("muffin", "English muffin", "muffin"),
        ("cider", "hard cider", "cider"),
        ("lemonade", "soda", "lemonade"),
        ("bacon", "Canadian bacon", "bacon"),
        ("rocket", "arugula", "arugula"),
        ("aubergine", "eggplant", "eggplant"),
        ("tortilla chips", "tortilla chips", "tortilla chips"),
    ] {
        for (is_british, sense) in [(true, british), (false, american)] {
            let (name, certainty) = find(words, is_british);
            assert!(
                name.contains(sense) && certainty >= Certainty::Likely,
                "`{words}` in {}: {name} ({certainty:?})",
                if is_british { "Britain" } else { "America" }
            );
        }
        if british != american {
            assert_ne!(find(words, true).0, find(words, false).0, "{words}");
        }
    }
}

#[test]
fn the_other_components_lean_the_choice() {
    for (others, words, leaning) in [
        (
            &["romaine", "caesar croutons"][..],
            "dressing",
            "Caesar dressing",
        ),
        (
            &["pho broth", "beef brisket"],
            "noodles",
            "rice noodles, cooked",
        ),
        (
            &["ramen broth", "pork belly"],
            "noodles",
            "egg noodles, cooked",
        ),
        (&["burger patty", "lettuce"], "cheese", "American cheese"),
        (&["hot dog", "mustard"], "bun", "hot dog bun, white"),
    ] {
        assert_eq!(
            food(None, others, words, false),
            leaning,
            "{words} beside {others:?}"
        );
    }
    for (words, alone) in [("dressing", "salad dressing"), ("cheese", "cheese")] {
        assert_eq!(food(None, &["plain crackers"], words, false), alone);
    }
}

#[test]
fn the_name_of_the_dish_leans_the_choice() {
    for (dish, words, leaning) in [
        ("Chicken Caesar salad", "dressing", "Caesar dressing"),
        ("Greek salad", "cheese", "feta cheese"),
        ("Beef tacos", "tortillas", "corn tortilla"),
        ("Caprese", "cheese", "mozzarella cheese"),
    ] {
        assert_eq!(
            food(Some(dish), &[], words, false),
            leaning,
            "{words} in {dish}"
        );
    }
}

#[test]
fn a_name_said_in_full_is_not_leaned_away() {
    let plain = food(Some("Ramen"), &["ramen broth"], "rice noodles", false);
    assert!(plain.contains("rice noodles"), "{plain}");
    let ranch = food(
        Some("Caesar salad"),
        &["caesar croutons"],
        "ranch dressing",
        false,
    );
    assert!(ranch.contains("ranch"), "{ranch}");
}
