//! How much states change a food, and how well two of them go together: our judgement.

/// How much the states of a dimension change what is in the food, percent (our judgement).
pub(super) fn dimension_weight(dimension: &str) -> u8 {
    match dimension {
        "make" => 250,
        "coat" => 200,
        "fat" => 180,
        "sweet" => 130,
        "colour" => 70,
        "salt" => 60,
        _ => 100,
    }
}

/// How well a name that does not state a dimension goes with a state of it, percent: saying nothing
/// means the usual version (our judgement).
pub(super) fn unstated_credit(dimension: &str, value: &str) -> u8 {
    match (dimension, value) {
        ("make", _) => 55,
        ("fat", "free") => 70,
        ("fat", "low" | "extralean") => 80,
        ("fat", "reduced" | "light" | "lean") | ("caffeine", _) => 90,
        ("sweet", "sugarfree" | "reduced") => 85,
        ("grain", "whole" | "multigrain") | ("keep", "dried" | "pickled") => 88,
        ("form", "powdered" | "concentrated") => 75,
        _ => 100,
    }
}

/// How well two different values of a dimension go together, percent (our judgement).
pub(super) fn agreement(dimension: &str, ours: &str, theirs: &str) -> u8 {
    match dimension {
        "cook" => cooking_agreement(ours, theirs),
        "fat" => fat_agreement(ours, theirs),
        "sweet" | "pack" => 70,
        "coat" => 60,
        "colour" => 75,
        "meat" | "make" => 50,
        "keep" | "age" => 85,
        _ => 80,
    }
}

fn cooking_agreement(a: &str, b: &str) -> u8 {
    let fried = |v: &str| v.contains("fried") || v == "sauteed";
    let moist = |v: &str| {
        matches!(
            v,
            "boiled" | "steamed" | "poached" | "simmered" | "stewed" | "braised"
        )
    };
    match (a, b) {
        ("raw", _) | (_, "raw") => 80,
        ("cooked", other) | (other, "cooked") => {
            if fried(other) {
                90
            } else {
                98
            }
        }
        _ if fried(a) && fried(b) => 95,
        _ if fried(a) != fried(b) => 75,
        _ if moist(a) == moist(b) => 95,
        _ => 88,
    }
}

/// Words for less fat say much the same on a label; none of them says full.
fn fat_agreement(a: &str, b: &str) -> u8 {
    let step = |v: &str| match v {
        "full" => 0,
        "reduced" | "light" | "lean" => 2,
        "low" | "extralean" => 3,
        _ => 4,
    };
    match u8::abs_diff(step(a), step(b)) {
        0 => 97,
        1 => 90,
        2 => 72,
        3 => 55,
        _ => 45,
    }
}
