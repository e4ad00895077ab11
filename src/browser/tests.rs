use super::*;
use serde_json::{Value, json};

fn asked(request: &Value) -> Value {
    let engine = Engine::new().unwrap();
    serde_json::from_str(&engine.answer(&request.to_string())).unwrap()
}

fn setting() -> Value {
    json!({"units": "us", "now": "2026-03-29T12:30:00+02:00[Europe/Berlin]"})
}

#[test]
fn a_plate_has_its_audit_and_its_drawing() {
    let answer = asked(&json!({"ask": "plate", "text": "fish and chips", "setting": setting()}));
    assert_eq!(answer["audit"]["version"], 1, "{answer}");
    assert!(
        answer["page"]["plates"][0]["drawing"]["svg"]
            .as_str()
            .unwrap()
            .starts_with("<svg")
    );
    let labels = answer["page"]["plates"][0]["drawing"]["labels"]
        .as_array()
        .unwrap();
    assert_eq!(labels.len(), answer["labelled"].as_array().unwrap().len());
    assert_eq!(answer["eaten"], Value::Null);
}

#[test]
fn a_plate_is_the_same_out_of_its_link() {
    let engine = Engine::new().unwrap();
    let asked = |request: Value| -> Value {
        serde_json::from_str(&engine.answer(&request.to_string())).unwrap()
    };
    let changes = json!([{"at": 0, "text": "", "part": 0.5}]);
    let text = "8 oz ribeye with mashed potatoes and green beans";
    let plate = asked(json!({"ask": "plate", "text": text, "setting": setting()}));
    let link = asked(json!({"ask": "link", "text": text, "setting": setting()}));
    let shared = &link["dish"];
    let again = asked(json!({"ask": "plate", "shared": shared, "setting": setting()}));
    let likely = |plate: &Value| plate["audit"]["served_grams"]["likely"].as_f64().unwrap();
    // Links hold tenths of a gram.
    assert!((likely(&plate) - likely(&again)).abs() < 0.5);
    assert_eq!(
        plate["components"][0]["name"],
        again["components"][0]["name"]
    );
    // A change that names other words than the component has meets nothing.
    let other = asked(json!({"ask": "plate", "text": text, "changes": changes,
        "setting": setting()}));
    assert_eq!(
        other["refused"].as_array().unwrap().len(),
        1,
        "{}",
        other["refused"]
    );
}

#[test]
fn changes_meet_their_component_alone() {
    let engine = Engine::new().unwrap();
    let asked = |changes: Value| -> Value {
        let request = json!({"ask": "plate", "text": "200 g cooked white rice\n100 g black beans",
            "changes": changes, "setting": setting()});
        serde_json::from_str(&engine.answer(&request.to_string())).unwrap()
    };
    let plain = asked(json!([]));
    let words = plain["components"][0]["text"].clone();
    let grams = |plate: &Value, what: &str| plate[what]["components"][0]["grams"]["likely"].clone();
    assert_eq!(grams(&plain, "audit"), 200.0);
    let half = asked(json!([{"at": 0, "text": words, "part": 0.5}]));
    assert_eq!(
        (grams(&half, "audit"), grams(&half, "eaten")),
        (json!(200.0), json!(100.0))
    );
    let more = asked(json!([{"at": 0, "text": words, "amount": "300 g"}]));
    assert_eq!(
        (grams(&more, "audit"), &more["eaten"]),
        (json!(300.0), &Value::Null)
    );
    let other = asked(json!([{"at": 0, "text": words, "amount": "a few moons"}]));
    assert_eq!(other["refused"].as_array().unwrap().len(), 1);
    assert_eq!(grams(&other, "audit"), 200.0);
}

#[test]
fn nobody_gets_a_figure_that_could_do_harm() {
    let person =
        |form: Value| asked(&json!({"ask": "person", "now": setting()["now"], "form": form}));
    let adult = json!({"name": "Ana", "sex": "female", "age": "35", "height": "5 ft 6 in",
        "weight": "150 lb", "activity": "low active"});
    assert!(person(adult.clone())["kept"]["energy_kcal"].as_f64() > Some(1800.0));
    let with = |key: &str, value: Value| {
        let mut form = adult.clone();
        form[key] = value;
        person(form)
    };
    for (key, value) in [
        ("age", json!("17")),
        ("pregnant_or_nursing", json!(true)),
        ("weight", json!("80 lb")),
        ("energy", json!("900 kcal")),
    ] {
        let answer = with(key, value);
        assert!(answer["refused"].is_string(), "{key}: {answer}");
    }
    assert!(with("weight", json!("heavy"))["error"].is_string());
}

#[test]
fn an_entry_with_half_of_it_has_half_of_every_figure() {
    let person = asked(&json!({"ask": "person", "now": setting()["now"],
        "form": {"name": "Me", "energy": "2000 kcal"}}));
    let mut own = setting();
    own["diner"] = person["kept"]["diner"].clone();
    let eaten = asked(
        &json!({"ask": "eat", "text": "12 fl oz cola and fish and chips",
        "uid": "0a", "setting": own}),
    );
    let record = &eaten["record"];
    assert_eq!(record["diner"], "Me", "{eaten}");
    let half = asked(&json!({"ask": "edit", "record": record, "share": 0.5, "setting": own}));
    let entry = |answer: &Value| answer["record"]["entry"].clone();
    let (whole, half) = (entry(&eaten), entry(&half));
    for path in [
        "/grams/likely",
        "/limits/energy/amount/high",
        "/nutrients/protein_g",
        "/components/0/energy_kcal",
    ] {
        let figure = |entry: &Value| entry.pointer(path).and_then(Value::as_f64).unwrap();
        assert!(
            (figure(&whole) - 2.0 * figure(&half)).abs() < 1e-5 * figure(&whole),
            "{path}"
        );
    }
    // Logged as half from the start it is the same.
    let again = asked(
        &json!({"ask": "eat", "text": "12 fl oz cola and fish and chips",
        "uid": "0a", "share": 0.5, "setting": own}),
    );
    // Log entries keep six digits.
    let near = |a: f64, b: f64| (a - b).abs() < 1e-5 * b;
    assert!(near(
        entry(&again)["grams"]["high"].as_f64().unwrap(),
        half["grams"]["high"].as_f64().unwrap()
    ));
}
