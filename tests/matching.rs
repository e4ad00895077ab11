//! What must hold of matching whatever the words: names find themselves, case and order do
//! not matter, the same words give the same answer.

use proptest::prelude::*;
use trencher::catalogue::{Catalogue, Certainty, Context, Targets};

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

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn matching_is_deterministic_and_blind_to_case(pick in any::<prop::sample::Index>(), cut in 0_usize..4) {
        let catalogue = catalogue();
        let food = catalogue.food(trencher::catalogue::FoodId(pick.index(catalogue.len()) as u32));
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
        let name = |row: usize| catalogue.food(trencher::catalogue::FoodId(row as u32)).name().to_owned();
        let straight: Vec<String> = picks.iter().map(|p| name(*p)).collect();
        let mut turned = straight.clone();
        turned.rotate_left(turn);
        let asked = name(query.index(4000));
        let best = |names: Vec<String>| {
            let targets = Targets::new(names, &catalogue).unwrap();
            let index = targets.index().unwrap();
            let matcher = Targets::matcher(&index, &catalogue);
            let ready = matcher.query(&asked);
            let list = matcher.find(&ready, &Context::default(), 3);
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
