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
