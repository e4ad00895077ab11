//! What joins the parts of a menu line, and what looks like a joint but is none.

/// Joined words that are one food or dish, so that `and` does not part them.
const WHOLE: [&str; 31] = [
    "mac and cheese",
    "macaroni and cheese",
    "rice and beans",
    "beans and rice",
    "half and half",
    "salt and pepper",
    "oil and vinegar",
    "vinegar and oil",
    "biscuits and gravy",
    "fish and chips",
    "sweet and sour",
    "chips and salsa",
    "chips and guacamole",
    "guacamole and chips",
    "sausage and mash",
    "sausages and mash",
    "steak and chips",
    "steak and fries",
    "bread and butter pudding",
    "surf and turf",
    "spaghetti and meatballs",
    "hot and sour",
    "pork and beans",
    "bangers and mash",
    "black and white",
    "peanut butter and jelly",
    "sour cream and onion",
    "cookies and cream",
    "salt and vinegar",
    "franks and beans",
    "gin and tonic",
];

/// Words that part the components of a dish.
const PARTING: [(&str, Joint); 21] = [
    (" served with ", Joint::Side),
    (" comes with ", Joint::Side),
    (" with a side of ", Joint::Side),
    (" and a side of ", Joint::Side),
    (" side of ", Joint::Side),
    (" alongside ", Joint::Side),
    (" topped with ", Joint::Named),
    (" finished with ", Joint::Named),
    (" tossed with ", Joint::Named),
    (" tossed in ", Joint::Named),
    (" drizzled with ", Joint::Named),
    (" smothered in ", Joint::Named),
    (" stuffed with ", Joint::Named),
    (" filled with ", Joint::Named),
    (" on a bed of ", Joint::Under),
    (" over ", Joint::Under),
    (" on ", Joint::Under),
    (" w/ ", Joint::Named),
    (" with ", Joint::Named),
    (" + ", Joint::Named),
    (", ", Joint::Named),
];

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Joint {
    Named,
    Under,
    Side,
}

/// The pieces of a chunk with what joins each to the one before.
pub(super) fn pieces(chunk: &str) -> Vec<(Joint, String)> {
    let mut rest = chunk.to_owned();
    let mut joint = Joint::Named;
    let mut list = Vec::new();
    loop {
        // ASCII only: other letters may change their length, and places would no longer fit.
        let Some((at, word, found)) = first_joint(&rest.to_ascii_lowercase()) else {
            list.push((joint, rest));
            return list
                .into_iter()
                .filter(|(_, p)| !p.trim().is_empty())
                .collect();
        };
        list.push((joint, rest[..at].trim().to_owned()));
        rest = String::from(rest[at + word.len()..].trim_start());
        // A list after `served with` stays beside the dish.
        joint = if word == ", " && joint == Joint::Side {
            Joint::Side
        } else {
            found
        };
        // `..., served with fries`: two joints, and the second says more.
        if let Some((word, second)) = opening_joint(&rest.to_ascii_lowercase()) {
            rest = String::from(rest[word.len()..].trim_start());
            joint = second;
        }
    }
}

/// The joint that a text begins with.
fn opening_joint(lower: &str) -> Option<(&'static str, Joint)> {
    PARTING
        .iter()
        .map(|(word, joint)| (word.trim_start(), *joint))
        .filter(|(word, _)| word.starts_with(char::is_alphabetic) && lower.starts_with(word))
        .filter(|_| !on_the_side(&format!(" {lower}"), 0))
        .max_by_key(|(word, _)| word.len())
}

fn first_joint(lower: &str) -> Option<(usize, &'static str, Joint)> {
    PARTING
        .iter()
        .filter_map(|(word, joint)| {
            let at = lower
                .match_indices(word)
                .map(|(at, _)| at)
                .find(|at| !on_the_side(lower, *at))?;
            Some((at, *word, *joint))
        })
        .min_by_key(|(at, word, _)| (*at, std::cmp::Reverse(word.len())))
}

/// Whether the `on` found here begins `on the side` or `on top`, which part nothing.
fn on_the_side(lower: &str, at: usize) -> bool {
    [
        " on the side",
        " on side",
        " on top",
        " on the cob",
        " on the half shell",
        " over easy",
        " over medium",
        " over hard",
    ]
    .iter()
    .any(|phrase| lower[at..].starts_with(phrase))
}

/// Parts `a, b and c`, but not `mac and cheese`.
pub(super) fn parted_by_and(piece: &str) -> Vec<String> {
    let lower = piece.to_lowercase().replace('&', "and");
    if !lower.contains(" and ") || WHOLE.iter().any(|w| lower.contains(w)) {
        let piece = piece.trim();
        let bare = piece.strip_prefix("and ").unwrap_or(piece);
        return vec![bare.trim().to_owned()];
    }
    piece
        .replace(" & ", " and ")
        .split(" and ")
        .map(|p| p.trim().trim_start_matches("and ").to_owned())
        .filter(|p| !p.is_empty())
        .collect()
}
