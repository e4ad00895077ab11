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
