use super::*;

fn foods(text: &str) -> Vec<(String, String)> {
    assert!(is_told(text), "{text}");
    let told = parse_told(text, &Place::new("test", 1, 1), UnitSystem::Us);
    assert!(told.errors.is_empty(), "{:?}", told.errors);
    told.components
        .into_iter()
        .map(|line| {
            let amount = line.amount.map(|amount| amount.text).unwrap_or_default();
            (amount, line.food)
        })
        .collect()
}

#[test]
fn a_sentence_becomes_its_foods() {
    for (text, expected) in [
        (
            "For lunch I had two slices of pizza and a small cola.",
            &[("two slices", "pizza"), ("a small", "cola")][..],
        ),
        (
            "This morning I treated myself to a hearty 84 g serving of omelette, washed down with a 12 fl oz can of root beer.",
            &[
                ("a 84 g serving", "omelette"),
                ("a 12 fl oz can", "root beer"),
            ],
        ),
        (
            "My dinner consisted of a roll weighing 45g and 240g of tomato soup for a cozy evening.",
            &[("a, 45g", "roll"), ("240g", "tomato soup")],
        ),
    ] {
        let got = foods(text);
        let got: Vec<(&str, &str)> = got.iter().map(|(a, f)| (a.as_str(), f.as_str())).collect();
        assert_eq!(got, expected, "{text}");
    }
}

/// Every letter of the text stands in a phrase, none in two.
#[test]
fn nothing_of_a_sentence_is_dropped_without_a_role() {
    for text in [
        "For lunch I had two slices of pizza and a small cola, then I went home.",
        "I treated myself to a delicious pear that was sweet, with 2 tbsp of honey on top!",
        "We shared some olives. I drank a beer.",
    ] {
        let read = parse_told(text, &Place::new("test", 1, 1), UnitSystem::Us).read;
        let mut done = 0;
        for phrase in &read.phrases {
            assert!(
                phrase.from >= done && phrase.from < phrase.to,
                "{text}: {phrase:?}"
            );
            assert!(
                text[done..phrase.from].trim().is_empty(),
                "{text}: {phrase:?}"
            );
            done = phrase.to;
        }
        assert!(text[done..].trim().is_empty(), "{text}");
        assert!(read.all(PhraseRole::Component).count() >= 2, "{text}");
    }
}

/// The foods of a sentence.
fn names(text: &str) -> Vec<String> {
    let told = parse_told(text, &Place::new("test", 1, 1), UnitSystem::Us);
    assert!(told.errors.is_empty(), "{text}: {:?}", told.errors);
    told.components.into_iter().map(|c| c.food).collect()
}

#[test]
fn lists_without_amounts_are_foods_of_their_own() {
    for (text, count) in [
        ("I had eggs, bacon, toast and coffee.", 4),
        ("For lunch we ate rice, beans and plantains.", 3),
        ("I had egg, cheese and ham on a roll.", 1),
        ("I ate macaroni and cheese.", 1),
        ("I had a ham, cheese and tomato sandwich.", 1),
    ] {
        assert_eq!(names(text).len(), count, "{text}: {:?}", names(text));
    }
}

#[test]
fn what_is_told_around_a_weighed_food_is_of_it() {
    for (text, expected) in [
        (
            "I had a 300 g baked potato and I skipped the peel.",
            vec!["baked potato without peel"],
        ),
        (
            "I had 200 g of fried rice accompanied by chicken.",
            vec!["fried rice with chicken"],
        ),
        (
            "I had two tacos: a 90 g beef taco and a 95 g fish taco.",
            vec!["beef taco", "fish taco"],
        ),
        (
            "I had 30 g each of oat cookie, ginger cookie, and almond cookie.",
            vec!["oat cookie", "ginger cookie", "almond cookie"],
        ),
        (
            "I ate a 57 g hot dog served in a soft roll weighing 52 g.",
            vec!["hot dog", "soft roll"],
        ),
        (
            "I enjoyed an 85 g sandwich for lunch, featuring a sausage on rye.",
            vec!["sandwich with sausage on rye"],
        ),
    ] {
        assert_eq!(names(text), expected, "{text}");
    }
}
