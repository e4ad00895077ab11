//! What must hold of matching whatever the words: names find themselves, case and order do
//! not matter, the same words give the same answer.

use proptest::prelude::*;
use trencher::matching::{Catalogue, Certainty, Context, Targets};

fn catalogue() -> Catalogue {
    Catalogue::embedded().unwrap()
}

#[test]
fn every_name_and_alias_finds_its_food_and_is_sure() {
    let catalogue = catalogue();
    let mut wrong = Vec::new();
    let mut names = 0;
    for food in catalogue.foods() {
        for name in std::iter::once(food.name()).chain(food.aliases()) {
            names += 1;
            let found = catalogue.find(name, &Context::default(), 2);
            if found.food != Some(food.id()) || found.certainty != Certainty::Sure {
                let got = found.food.map(|id| catalogue.food(id).name());
                wrong.push(format!(
                    "{} `{name}` finds {got:?} ({:?})",
                    food.code(),
                    found.certainty
                ));
            }
        }
    }
    assert!(names > 12_000, "only {names} names");
    assert!(
        wrong.is_empty(),
        "{} of {names}:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
}

#[test]
fn the_best_are_the_same_however_many_are_asked_for() {
    let catalogue = catalogue();
    let matcher = catalogue.matcher();
    // The second half of one name behind the first half of another.
    let halves: Vec<(&str, &str)> = catalogue
        .foods()
        .map(|food| food.name().split_at(food.name().floor_char_boundary(12)))
        .collect();
    let mut rivals = 0;
    for (at, (first, _)) in halves.iter().enumerate().step_by(3) {
        let (_, second) = halves[(at * 7 + 11) % halves.len()];
        let query = matcher.query(&format!("{first}{second}"));
        // So many that no name is passed over for being worse than those before it.
        let all = matcher.find(&query, 200);
        for top in [1, 2, 5] {
            let best = matcher.find(&query, top);
            assert_eq!(best, all[..best.len()], "{first}{second}");
            assert_eq!(best.len(), top.min(all.len()), "{first}{second}");
        }
        rivals += usize::from(all.len() > 5 && all[5].score > 0.3);
    }
    assert!(
        rivals > 500,
        "only {rivals} queries with many names that fit"
    );
}

/// The name found for words, empty where nothing fits.
fn name_of(catalogue: &Catalogue, words: &str, context: &Context) -> String {
    let found = catalogue.find(words, context, 2);
    found
        .food
        .map(|id| catalogue.food(id).name().to_owned())
        .unwrap_or_default()
}

#[test]
fn what_is_only_excluded_is_nothing() {
    let catalogue = catalogue();
    for words in [
        "no mayo",
        "No Mayo",
        "hold the mayo",
        "without skin",
        "w/o skin",
        "hold the cheese",
        "minus onions",
        "sans fromage",
        "sin queso",
        "senza formaggio",
        "ohne Speck",
        "skip the bacon",
        "nix the pickles",
        "no cheese please",
        "without any cheese",
        "no-cheese",
        "leave off the onions",
        "leave out the butter",
        "not with milk",
        "no cheese or bacon",
        "without onions and peppers",
    ] {
        let found = catalogue.find(words, &Context::default(), 2);
        assert_eq!(found.certainty, Certainty::None, "{words}: {}", found.why);
    }
}

#[test]
fn what_is_excluded_is_not_in_what_is_found() {
    let catalogue = catalogue();
    for (words, wanted, excluded) in [
        ("burger, no cheese", "hamburger", "cheese"),
        ("burger hold the cheese", "hamburger", "cheese"),
        ("burger no cheese or bacon", "hamburger", "cheese"),
        ("hamburguesa sin queso", "hamburger", "cheese"),
        ("cheese-free pizza", "without cheese", "cheese pizza"),
        ("pizza, no cheese", "without cheese", "cheese pizza"),
        ("turkey sandwich no mayo", "turkey sandwich", "mayo"),
        (
            "chicken breast without skin",
            "skin not eaten",
            "skin eaten",
        ),
        ("skinless chicken breast", "skin not eaten", "skin eaten"),
        (
            "chicken thigh, skin removed",
            "skin not eaten",
            "skin eaten",
        ),
        (
            "fried chicken breast, skin and breading peeled off",
            "removed",
            "coating eaten",
        ),
        ("salad, hold the dressing", "no dressing", "with"),
        ("caesar salad w/out croutons", "Caesar salad", "crouton"),
        ("hot dog, no bun", "without bun", "on white bun"),
        ("burger (no bun)", "beef patty", "bun"),
        ("omelette minus cheese", "omelet", "cheese"),
        ("spaghetti, no meat", "pasta", "meat"),
        ("nachos, leave off the cheese", "nachos", "cheese"),
        ("latte dairy-free", "non-dairy", "whole milk"),
        ("dairy-free cheese", "soy cheese", "cheddar"),
        ("decaf coffee", "decaffeinated", "regular"),
    ] {
        let name = name_of(&catalogue, words, &Context::default());
        assert!(name.contains(wanted), "`{words}` finds `{name}`");
        assert!(!name.contains(excluded), "`{words}` finds `{name}`");
    }
}

#[test]
fn contradictions_part_near_names() {
    let catalogue = catalogue();
    for (words, wanted) in [
        ("raw carrots", "carrots, raw"),
        ("whole milk", "whole milk"),
        ("skimmed milk", "fat-free"),
        ("80/20 ground beef", "80% lean"),
        ("75% lean ground beef", "75% lean"),
        ("tuna in water", "tuna, canned"),
        ("unsweetened almond milk", "almond milk, unsweetened"),
        ("milk chocolate", "milk chocolate"),
        ("chocolate milk", "chocolate milk"),
        ("sweet potato", "sweet potato"),
        ("grilled chicken thigh", "chicken thigh, grilled"),
        ("imitation crab", "imitation crab"),
        ("Fish, tuna, raw", "tuna, raw"),
        ("Pie, cherry", "cherry pie"),
        ("Bread, cheese", "cheese bread"),
    ] {
        let name = name_of(&catalogue, words, &Context::default());
        assert!(name.contains(wanted), "`{words}` finds `{name}`");
    }
}

#[test]
fn misspelt_words_are_read_beside_their_neighbours() {
    let catalogue = catalogue();
    for (words, wanted) in [
        ("chickn brest", "chicken breast"),
        ("brocoli", "broccoli, cooked"),
        ("omlete", "omelet"),
        ("candyfloss", "candy"),
        ("peanut bittle", "peanut brittle"),
        ("zuchini", "zucchini"),
        ("parmesean", "parmesan"),
        ("burger withuot bun", "beef patty"),
        ("sweetpotato", "sweet potato"),
        ("beet root", "beets"),
        ("chesse burger", "cheeseburger"),
        ("samon", "salmon"),
    ] {
        let name = name_of(&catalogue, words, &Context::default());
        assert!(name.contains(wanted), "`{words}` finds `{name}`");
    }
}

#[test]
fn the_dish_never_outranks_what_is_asked_for() {
    let catalogue = catalogue();
    let context = Context {
        words: ["cooked", "chicken", "skin"].map(str::to_owned).to_vec(),
        british: false,
    };
    let stewed = name_of(&catalogue, "stewed chicken breast, no skin", &context);
    assert_eq!(stewed, "chicken breast, stewed, skin not eaten");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn matching_is_deterministic_and_blind_to_case(pick in any::<prop::sample::Index>(), cut in 0_usize..4) {
        let catalogue = catalogue();
        let food = catalogue.food(trencher::foods::FoodId(pick.index(catalogue.len()) as u32));
        // Part of a name is a query with several near answers.
        let words: Vec<&str> = food.name().split(' ').collect();
        let text = words[cut.min(words.len() - 1)..].join(" ");
        let once = catalogue.find(&text, &Context::default(), 5);
        prop_assert_eq!(&once, &catalogue.find(&text, &Context::default(), 5));
        let upper = catalogue.find(&text.to_uppercase(), &Context::default(), 5);
        prop_assert_eq!(once.food, upper.food);
        prop_assert_eq!(once.certainty, upper.certainty);
        prop_assert_eq!(once.alternatives, upper.alternatives);
    }

    #[test]
    fn any_text_is_answered(text in "\\PC{0,60}") {
        let found = catalogue().find(&text, &Context::default(), 3);
        prop_assert!((0.0..=1.0).contains(&found.score), "{}", found.score);
    }

    #[test]
    fn order_of_targets_does_not_matter(
        picks in prop::collection::btree_set(any::<prop::sample::Index>().prop_map(|i| i.index(4000)), 5..30),
        turn in 1_usize..5,
        query in any::<prop::sample::Index>(),
    ) {
        let catalogue = catalogue();
        let name = |row: usize| catalogue.food(trencher::foods::FoodId(row as u32)).name().to_owned();
        let straight: Vec<String> = picks.iter().map(|p| name(*p)).collect();
        let mut turned = straight.clone();
        turned.rotate_left(turn);
        let asked = name(query.index(4000));
        let best = |names: Vec<String>| {
            let targets = Targets::new(names, &catalogue);
            let index = targets.index().unwrap();
            let matcher = Targets::matcher(&index, &catalogue);
            let ready = matcher.query(&asked);
            let list = matcher.find(&ready, 3);
            let score = list.first().map(|c| c.score);
            let mut equals: Vec<String> = list
                .iter()
                .filter(|c| Some(c.score) == score)
                .map(|c| targets.name(c.item).to_owned())
                .collect();
            equals.sort();
            (score, equals.first().cloned())
        };
        let (straight, turned) = (best(straight), best(turned));
        prop_assert_eq!(straight.0, turned.0);
    }
}

#[test]
fn a_name_written_exactly_so_wins_over_one_of_the_same_words() {
    let catalogue = Catalogue::embedded().unwrap();
    let names = [
        "egg",
        "Eggs",
        "chile",
        "chilli",
        "tomato, raw",
        "Tomatoes, raw",
        "BBQ sauce",
        "barbecue sauce",
    ];
    let targets = Targets::new(names.map(str::to_owned).to_vec(), &catalogue);
    let index = targets.index().unwrap();
    let matcher = Targets::matcher(&index, &catalogue);
    for name in names {
        for said in [name.to_owned(), name.to_uppercase(), format!(" {name} ")] {
            let found = matcher.find(&matcher.query(&said), 2);
            assert_eq!(targets.name(found[0].item), name, "{said}");
        }
    }
}

#[test]
fn what_stands_behind_the_category_decides() {
    let catalogue = Catalogue::embedded().unwrap();
    // Descriptions in the style of USDA's SR28, category first, and what their foods are.
    for (said, food) in [
        ("Fish, pike, walleye, raw", "walleye"),
        ("Fish, roughy, orange, raw", "orange roughy"),
        ("Squash, winter, acorn, raw", "acorn squash"),
        ("Squash, winter, spaghetti, raw", "spaghetti squash"),
    ] {
        let found = catalogue.find(said, &Context::default(), 1);
        let name = found.food.map_or("", |id| catalogue.food(id).name());
        assert!(name.contains(food), "{said}: {name}");
    }
}
