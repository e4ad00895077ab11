//! How the foods of a dish lie on the table: what is put together, what lies on what, what
//! stands in a vessel of its own. Common practice throughout, read from the kind and name of
//! the dish and from the forms of its foods; nobody says it.

use super::dressing::{dressed, on, on_mass};
use super::food::Seen;
use super::look::Goes;
use super::rest::{Laying, Rest, Words, is_bread};
use super::whole;
use crate::pages::drawing::{Form, GlassSort, Mass, Plate, foods_of};
use crate::quantity::units::INCH_CM;
use crate::reading::{Dish, Served};
use crate::weighing::WeighedComponent;

/// Usual plate in cm, and the smaller one for sides, starters and desserts (common practice:
/// 10½ and 7¾ inches). A plate that is too small gives way to a larger one.
const PLATE_CM: f64 = 26.5;
const SMALL_PLATE_CM: f64 = 19.5;

/// Part of a heap from which a sauce in it is a pool.
const POOL_FROM: f64 = 0.08;

/// From this many ml a drink that comes with a dish stands beside it; less is poured in.
const GLASS_FROM_ML: f64 = 60.0;

/// A dish laid out: its plate, what is on it and what stands beside it. Foods are named by
/// their place in the list.
pub(super) struct Laid {
    pub plate: Option<Plate>,
    pub on_plate: Vec<Mass>,
    pub beside: Vec<Mass>,
    /// Foods that are cut up.
    pub cut: Vec<usize>,
    /// Foods that are stirred together.
    pub stirred: Vec<usize>,
}

/// Lays the foods of a dish out.
pub(super) fn lay(dish: &Dish<WeighedComponent>, seen: &[Seen]) -> Laid {
    let words = Words::of(dish);
    let mut rest = Rest {
        seen,
        left: (0..seen.len()).collect(),
    };
    let mut laid = Laid {
        plate: None,
        on_plate: Vec::new(),
        beside: Vec::new(),
        cut: Vec::new(),
        stirred: Vec::new(),
    };
    if let Some(glass) = one_drink(&words, &mut rest) {
        let cream = |i: &usize| seen[*i].look.form == Form::Dollop;
        laid.stirred = foods_of(&glass).into_iter().filter(|i| !cream(i)).collect();
        laid.beside.push(glass);
        return laid;
    }
    let bowl = in_a_bowl(dish, &words, &rest);
    drinks(&mut rest, &mut laid, bowl);
    if bowl {
        let mut foods = rest.take(|s| !is_bread(s.look.form));
        if foods.is_empty() {
            foods = std::mem::take(&mut rest.left);
        }
        laid.cut.extend(
            foods
                .iter()
                .copied()
                .filter(|i| words.are(Laying::Soup) || rest.form(*i) != Form::Fillet),
        );
        if words.are(Laying::Blended) {
            laid.stirred.clone_from(&foods);
        }
        laid.beside.push(Mass::Bowl(foods));
    } else {
        for soup in rest.take(|s| s.family == "soup") {
            laid.beside.push(Mass::Bowl(vec![soup]));
        }
        laid.on_plate.extend(whole::whole(&words, &mut rest));
    }
    laid.on_plate
        .extend(spread(&words, &mut rest, &mut laid.cut));
    if !laid.on_plate.is_empty() {
        laid.plate = Some(plate(dish, &words, bowl));
    }
    laid
}

fn plate(dish: &Dish<WeighedComponent>, words: &Words, with_bowl: bool) -> Plate {
    if let Some(Served::Vessel {
        inches: Some(inches),
        ..
    }) = &dish.served
    {
        return Plate {
            diameter_cm: inches * INCH_CM,
            stated: true,
        };
    }
    let small = with_bowl
        || words
            .kind
            .iter()
            .any(|k| ["side", "appetiser", "dessert"].contains(&k.as_str()));
    Plate {
        diameter_cm: if small { SMALL_PLATE_CM } else { PLATE_CM },
        stated: false,
    }
}

/// The whole dish as one drink.
fn one_drink(words: &Words, rest: &mut Rest<'_>) -> Option<Mass> {
    let glasses: Vec<GlassSort> = rest
        .left
        .iter()
        .filter_map(|i| match rest.seen[*i].goes {
            Goes::Glass(sort) => Some(sort),
            _ => None,
        })
        .collect();
    let first = *glasses.first()?;
    let all = glasses.len() == rest.left.len();
    if !all && !words.are(Laying::Drink) {
        return None;
    }
    let sort = if words.say(&["cup"]) && first == GlassSort::Mug {
        GlassSort::Lidded
    } else {
        first
    };
    Some(Mass::Glass {
        sort,
        foods: std::mem::take(&mut rest.left),
    })
}

/// Drinks beside the plate; a little of something drinkable is part of the food.
fn drinks(rest: &mut Rest<'_>, laid: &mut Laid, bowl: bool) {
    let poured = |s: &Seen| {
        let milky = bowl && s.family.starts_with("milk");
        matches!(s.goes, Goes::Glass(_)) && s.volume_ml.likely >= GLASS_FROM_ML && !milky
    };
    // A smoothie that fills a bowl is no drink beside it.
    let filling = rest
        .largest(|_| true)
        .filter(|_| bowl)
        .map(|i| rest.seen[i].at);
    for index in rest.take(|s| poured(s) && Some(s.at) != filling) {
        if let Goes::Glass(sort) = rest.seen[index].goes {
            laid.beside.push(Mass::Glass {
                sort,
                foods: vec![index],
            });
        }
    }
}

fn in_a_bowl(dish: &Dish<WeighedComponent>, words: &Words, rest: &Rest<'_>) -> bool {
    use crate::reading::Vessel as V;
    if let Some(Served::Vessel {
        vessel: Some(vessel),
        ..
    }) = &dish.served
    {
        return matches!(
            vessel,
            V::Bowl | V::Cup | V::Tub | V::Ramekin | V::Pail | V::Glass | V::Mug
        );
    }
    if words.are(Laying::Plate) {
        return false;
    }
    let ml = |fits: &dyn Fn(&Seen) -> bool| -> f64 {
        rest.left
            .iter()
            .map(|i| &rest.seen[*i])
            .filter(|s| fits(s))
            .map(|s| s.volume_ml.likely)
            .sum()
    };
    let soupy = ml(&|s| s.family == "soup" || s.look.form == Form::Liquid && s.goes == Goes::Pile);
    let soft = |s: &Seen| {
        matches!(
            s.look.form,
            Form::Smooth
                | Form::Sauce
                | Form::Liquid
                | Form::Custard
                | Form::Sugar
                | Form::Dollop
                | Form::Scramble
        )
    };
    words.are(Laying::Bowl)
        || soupy > 0.5 * ml(&|_| true)
        || words.say(&["dessert"]) && ml(&soft) > 0.85 * ml(&|_| true)
}

/// What is left, on the plate: mixed dishes in one heap, dressings on what they dress, dips in
/// little dishes, the rest side by side.
fn spread(words: &Words, rest: &mut Rest<'_>, cut: &mut Vec<usize>) -> Vec<Mass> {
    let salad = words.say(&["salad"]);
    let mut masses = Vec::new();
    if salad && let Some(leaves) = rest.largest(|s| s.look.form == Form::Leaves) {
        rest.drop(leaves);
        let over = rest.take(|s| !is_bread(s.look.form));
        masses.push(on(leaves, over));
    }
    if words.say(&["nacho"])
        && let Some(chips) = rest.largest(|s| s.look.form == Form::Chips)
    {
        rest.drop(chips);
        masses.push(on(chips, std::mem::take(&mut rest.left)));
    }
    if words.are(Laying::Topped)
        && let Some(slices) = rest.largest(|s| is_breaded(s.look.form))
    {
        rest.drop(slices);
        let over = rest.take(|s| s.goes == Goes::Top);
        masses.push(on(slices, over));
    }
    if words.are(Laying::Mixed) {
        let heap = mixed(words, rest);
        cut.extend(heap.iter().flat_map(foods_of));
        masses.extend(heap);
    }
    masses.extend(dressed(rest));
    masses
}

/// What is fried in crumbs and then topped.
const fn is_breaded(form: Form) -> bool {
    matches!(
        form,
        Form::Aubergine | Form::FriedFillet | Form::Breast | Form::Fingers | Form::Cakes
    )
}

/// The mixed part of a stir-fry or curry; its rice and bread lie beside it unless the dish is
/// named for them.
fn mixed(words: &Words, rest: &mut Rest<'_>) -> Option<Mass> {
    let fried_rice =
        words.name.iter().any(|w| w == "rice") || words.kind.first().is_some_and(|k| k == "rice");
    let beside = |s: &Seen| is_bread(s.look.form) || s.look.form == Form::Rice && !fried_rice;
    let parts = rest.take(|s| !beside(s));
    let base = parts.iter().copied().max_by(|a, b| {
        rest.seen[*a]
            .volume_ml
            .likely
            .total_cmp(&rest.seen[*b].volume_ml.likely)
    })?;
    // What a curry is cooked in is a pool that the rest lies in.
    let ml = |i: &usize| rest.seen[*i].volume_ml.likely;
    let whole: f64 = parts.iter().map(ml).sum();
    let runs = |i: &&usize| rest.form(**i).runs() && **i != base && ml(i) > POOL_FROM * whole;
    let pool = parts
        .iter()
        .filter(runs)
        .max_by(|a, b| ml(a).total_cmp(&ml(b)))
        .copied();
    let over = parts
        .iter()
        .copied()
        .filter(|i| *i != base && Some(*i) != pool);
    let heap = on(base, over.collect());
    Some(match pool {
        Some(sauce) => on_mass(Mass::Food(sauce), vec![heap]),
        None => heap,
    })
}
