//! `Cobb salad and iced tea`: two things that are ordered, joined by `and` or a comma.

use super::draft::MenuContext;
use crate::foods::Food;
use crate::reading::{MenuLine, MenuPart, PartKind};
use crate::weighing::kinds::{KindHit, kind_of};
use crate::weighing::servings::{ServingKind, is_drink};
use crate::weighing::usual::{Role, usual};
use crate::words::words_of;

/// What joins two things.
const JOINTS: [&str; 3] = [" and ", " & ", ", "];

/// The line of the first thing with the second beside it; `None` where `and` joins words of one
/// dish (`chips and salsa`, `steak and cheese sub`).
pub(super) fn parted(line: &MenuLine, context: MenuContext<'_>) -> Option<MenuLine> {
    let (dish, beside) = JOINTS
        .iter()
        .find_map(|joint| line.main.rsplit_once(joint))?;
    let alone = match &line.parts[..] {
        [] => line.head == line.main,
        [part] => part.what == PartKind::Named && line.head == dish && part.text == beside,
        _ => false,
    };
    if !alone || !line.name.is_empty() {
        return None;
    }
    (is_another(dish, beside, context) && !is_one_dish(&line.main, context)).then(|| MenuLine {
        main: dish.to_owned(),
        head: dish.to_owned(),
        parts: vec![MenuPart {
            text: beside.to_owned(),
            what: PartKind::Side,
        }],
        ..line.clone()
    })
}

fn is_one_dish(head: &str, context: MenuContext<'_>) -> bool {
    kind_of(head).is_some_and(|hit| hit.joined) || (context.known)(head).is_some()
}

/// Whether `beside` is ordered besides `dish`: a drink, or a dish as well.
fn is_another(dish: &str, beside: &str, context: MenuContext<'_>) -> bool {
    let kind = |text: &str| kind_of(text).is_some_and(|hit| KindHit::is_last(&hit));
    let known = |text: &str| (context.known)(text).is_some();
    if is_drink(beside) {
        return !is_drink(dish) && (kind(dish) || known(dish));
    }
    (known(dish) || is_held(dish)) && is_bowl(beside)
        || known(dish) && (kind(beside) || known(beside))
}

/// Whether a food is a drink.
pub(super) fn is_poured(food: Food<'_>) -> bool {
    let name = food.name().split(',').next().unwrap_or_default();
    is_drink(name) || usual("", Some(food)).role == Role::Drink
}

/// Kinds that come in a bowl of their own beside what is held in the hand.
const BOWLS: [&str; 2] = ["soup", "salad"];

/// Whether it is a soup or a salad, a dish of its own beside another.
pub(super) fn is_bowl(text: &str) -> bool {
    ServingKind::named_last(&words_of(text)).is_some_and(|kind| kind.lies_within(&BOWLS))
}

/// Least share of bread in what is held in the hand (own choice).
const HELD: f64 = 0.2;

/// Whether it is a sandwich, a burger, a wrap.
fn is_held(dish: &str) -> bool {
    let hit = kind_of(dish).filter(KindHit::is_last);
    hit.is_some_and(|hit| hit.kind.share(Role::Bread) >= HELD)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::matching::Catalogue;
    use crate::reading::{Dish, UnitSystem, parse_menu_line};
    use crate::weighing::finds::Finds;

    #[test]
    fn what_is_ordered_besides_is_no_part_of_the_dish() {
        let catalogue = Catalogue::embedded().unwrap();
        let context = MenuContext {
            finds: &Finds::new(&catalogue),
            known: &|name| (name == "BLT").then(Dish::default),
            units: UnitSystem::Us,
            british: false,
        };
        let beside = |text: &str| {
            let line = parted(&parse_menu_line(text), context)?;
            Some((line.head, line.parts[0].text.clone()))
        };
        let both = |dish: &str, beside: &str| Some((dish.to_owned(), beside.to_owned()));
        assert_eq!(
            beside("Cobb salad and iced tea"),
            both("Cobb salad", "iced tea")
        );
        assert_eq!(
            beside("Chicken burrito & a beer"),
            both("Chicken burrito", "beer")
        );
        assert_eq!(beside("BLT and tomato soup"), both("BLT", "tomato soup"));
        assert_eq!(
            beside("Turkey club and tomato soup"),
            both("Turkey club", "tomato soup")
        );
        for one in [
            "Gin and tonic",
            "Chicken and rice soup",
            "Pasta and bean soup",
            "Steak and potato soup",
            "Steak and cheese sub",
            "Spaghetti and meatballs",
            "Rice and beans",
        ] {
            assert_eq!(beside(one), None, "{one}");
        }
    }
}
