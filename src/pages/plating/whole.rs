//! Dishes that are one thing put together: burgers, sandwiches, wraps, tacos, pizzas.

use super::dressing::on;
use super::food::Seen;
use super::look::Goes;
use super::rest::{Laying, Rest, Words};
use crate::pages::drawing::{FilledSort, Form, Mass, StackSort};

/// The put-together part of a dish, its foods taken out of what is left to lay.
pub(super) fn whole(words: &Words, rest: &mut Rest<'_>) -> Option<Mass> {
    if words.say(&["pizza"]) {
        return pizza(rest);
    }
    if words.say(&["taco"]) && !words.say(&["salad"]) {
        return filled(
            words,
            rest,
            FilledSort::Folded,
            &[Form::Tortillas],
            words.count().unwrap_or(3),
        );
    }
    if words.say(&["quesadilla"]) {
        return filled(words, rest, FilledSort::Wedges, &[Form::Tortillas], 4);
    }
    if words.say(&["enchilada"]) {
        return enchiladas(words, rest);
    }
    if words.say(&["burrito", "wrap"]) {
        return filled(words, rest, FilledSort::Rolled, &[Form::Tortillas], 1);
    }
    if words.say(&["roll"]) && !words.say(&["egg"]) {
        let clear = filled(words, rest, FilledSort::Rolled, &[Form::ClearRolls], 2);
        return clear.or_else(|| filled(words, rest, FilledSort::Rounds, &[Form::Rice], 8));
    }
    if words.say(&["pita", "gyro"])
        && let Some(mass) = filled(words, rest, FilledSort::Folded, &[Form::Flatbread], 1)
    {
        return Some(mass);
    }
    if words.say(&["omelette", "omelet"]) {
        return filled(
            words,
            rest,
            FilledSort::Folded,
            &[Form::Scramble, Form::Omelette],
            1,
        );
    }
    if words.say(&["lasagne", "lasagna", "tiramisu", "moussaka"]) {
        return slab(rest);
    }
    stacked(words, rest)
}

fn is_one_of(forms: &[Form]) -> impl Fn(&Seen) -> bool + '_ {
    |s| forms.contains(&s.look.form)
}

/// Foods that never are a filling: they come with the dish.
fn comes_with(words: &Words, seen: &Seen) -> bool {
    let named = || {
        seen.name
            .split([' ', ','])
            .any(|w| words.with.iter().any(|x| x == w))
    };
    match seen.look.form {
        Form::Fries
        | Form::Wedges
        | Form::Crisps
        | Form::Chips
        | Form::Rings
        | Form::Mash
        | Form::BakedPotato
        | Form::Liquid => true,
        Form::Shreds
        | Form::Dice
        | Form::Beans
        | Form::Rice
        | Form::Leaves
        | Form::Smooth
        | Form::Toast
        | Form::Hash => named(),
        _ => false,
    }
}

/// A sauce for what comes with the dish, fries above all.
fn dip_beside(rest: &Rest<'_>, seen: &Seen) -> bool {
    let fries = rest
        .left
        .iter()
        .any(|i| matches!(rest.form(*i), Form::Fries | Form::Rings | Form::Wedges));
    fries && seen.name.contains("ketchup")
}

fn pizza(rest: &mut Rest<'_>) -> Option<Mass> {
    let base = rest.largest(is_one_of(&[
        Form::Loaf,
        Form::Toast,
        Form::Flatbread,
        Form::Naan,
        Form::Roll,
    ]))?;
    rest.drop(base);
    let over = rest.take(|s| s.look.form != Form::Leaves);
    Some(Mass::Pizza { base, over })
}

fn filled(
    words: &Words,
    rest: &mut Rest<'_>,
    sort: FilledSort,
    shells: &[Form],
    count: u32,
) -> Option<Mass> {
    let shell = rest.largest(is_one_of(shells))?;
    rest.drop(shell);
    let dipped = matches!(sort, FilledSort::Wedges | FilledSort::Rounds);
    let mut inside = rest.take(|s| {
        let beside = dipped && s.goes == Goes::Dip;
        !beside && !comes_with(words, s) && !is_potato_side(s, shells)
    });
    // Nothing in it: it lies by itself.
    if inside.is_empty() {
        rest.left.push(shell);
        return None;
    }
    inside.sort_by_key(|i| rank(rest.form(*i)));
    Some(Mass::Filled {
        sort,
        shell,
        inside,
        count,
    })
}

/// Potatoes and bread are beside an omelette, in a burrito.
fn is_potato_side(seen: &Seen, shells: &[Form]) -> bool {
    shells.contains(&Form::Scramble)
        && matches!(
            seen.look.form,
            Form::Dice | Form::Hash | Form::Toast | Form::Roll | Form::Butter
        )
}

fn enchiladas(words: &Words, rest: &mut Rest<'_>) -> Option<Mass> {
    let over: Vec<usize> =
        rest.take(|s| s.look.form == Form::Sauce || s.name.contains("sour cream"));
    let count = words.count().unwrap_or(3);
    let Some(under) = filled(words, rest, FilledSort::Rolled, &[Form::Tortillas], count) else {
        rest.left.extend(over);
        return None;
    };
    if over.is_empty() {
        return Some(under);
    }
    Some(Mass::On {
        under: Box::new(under),
        over: over.into_iter().map(Mass::Food).collect(),
    })
}

fn slab(rest: &mut Rest<'_>) -> Option<Mass> {
    let holder = rest.largest(is_one_of(&[
        Form::Noodles,
        Form::Tubes,
        Form::Ladyfingers,
        Form::Aubergine,
    ]))?;
    rest.drop(holder);
    let mut layers = rest.take(|_| true);
    layers.sort_by_key(|i| rank(rest.form(*i)));
    Some(Mass::Stack {
        sort: StackSort::Slices,
        holder,
        layers,
    })
}

/// What a sandwich is held by.
const HOLDERS: [Form; 7] = [
    Form::Roll,
    Form::Toast,
    Form::Loaf,
    Form::Bagel,
    Form::Rounds,
    Form::Flatbread,
    Form::Naan,
];

fn stacked(words: &Words, rest: &mut Rest<'_>) -> Option<Mass> {
    let is_muffin = |s: &Seen| s.look.form == Form::Rounds && s.name.contains("muffin");
    if !words.are(Laying::Stacked) && rest.largest(is_muffin).is_none() {
        return None;
    }
    let holder = rest.largest(is_one_of(&HOLDERS))?;
    let form = rest.form(holder);
    if matches!(form, Form::Flatbread | Form::Naan) {
        return filled(words, rest, FilledSort::Folded, &[form], 1);
    }
    let open = form == Form::Rounds
        || words.name.iter().any(|w| w == "toast") && !words.say(&["sandwich"]);
    rest.drop(holder);
    let beside = |i: &usize| {
        let s = &rest.seen[*i];
        let potatoes = s.family == "potato" && s.look.form == Form::Dice;
        comes_with(words, s) || dip_beside(rest, s) || potatoes
    };
    let (beside, mut layers): (Vec<usize>, Vec<usize>) =
        rest.left.iter().copied().partition(beside);
    rest.left = beside;
    if layers.is_empty() {
        rest.left.push(holder);
        return None;
    }
    layers.sort_by_key(|i| rank(rest.form(*i)));
    if open && matches!(form, Form::Toast | Form::Rounds) {
        return Some(on(holder, layers));
    }
    let sort = match form {
        _ if open => StackSort::Open,
        Form::Loaf => StackSort::Long,
        Form::Roll if rest.seen[holder].name.contains("hoagie") => StackSort::Long,
        Form::Toast => StackSort::Slices,
        _ => StackSort::Bun,
    };
    Some(Mass::Stack {
        sort,
        holder,
        layers,
    })
}

/// From below to above as such things are put together.
const fn rank(form: Form) -> u8 {
    match form {
        Form::Rice | Form::Beans | Form::Mash => 0,
        Form::Patty
        | Form::Breast
        | Form::Steak
        | Form::FriedFillet
        | Form::Meatballs
        | Form::Strips
        | Form::Pulled
        | Form::Ground
        | Form::Folded
        | Form::Scramble
        | Form::Nuggets
        | Form::Fingers
        | Form::Falafel
        | Form::SausageRounds => 1,
        Form::CheeseSlices | Form::Grated | Form::CheeseRounds | Form::Crumbles => 2,
        Form::Bacon | Form::FriedEggs | Form::PoachedEggs | Form::BoiledEggs => 3,
        Form::Avocado
        | Form::Crescents
        | Form::Onions
        | Form::Pickles
        | Form::Cucumber
        | Form::Shreds
        | Form::Batons => 4,
        Form::TomatoWedges | Form::TomatoRounds => 5,
        Form::Leaves | Form::Herbs => 6,
        _ => 7,
    }
}
