//! What lies on what: sauces, cheese, butter and the like on what they dress, dips in little
//! dishes.

use super::look::Goes;
use super::rest::Rest;
use crate::pages::drawing::{Form, Mass};

/// One food with others on it.
pub(super) fn on(under: usize, over: Vec<usize>) -> Mass {
    on_mass(
        Mass::Food(under),
        over.into_iter().map(Mass::Food).collect(),
    )
}

pub(super) fn on_mass(under: Mass, over: Vec<Mass>) -> Mass {
    if over.is_empty() {
        under
    } else {
        Mass::On {
            under: Box::new(under),
            over,
        }
    }
}

/// How well a food takes a dressing: the higher the better, 0 not at all.
const fn takes(form: Form, dressing: Form) -> u8 {
    let spread = matches!(dressing, Form::Butter | Form::Smooth);
    match form {
        form if is_pasta(form) && !spread => 9,
        Form::Pancakes | Form::Waffle | Form::Slices | Form::BakedPotato => 9,
        Form::Scoops | Form::Brownie | Form::Cake | Form::Cheesecake | Form::Pie => 8,
        Form::Mash
        | Form::Meatloaf
        | Form::Fillet
        | Form::Steak
        | Form::Chop
        | Form::Breast
        | Form::Roast
        | Form::Ribs
            if !spread =>
        {
            7
        }
        Form::Cakes
        | Form::Rolled
        | Form::Wings
        | Form::Nuggets
        | Form::FriedFillet
        | Form::Fingers
            if !spread =>
        {
            6
        }
        Form::Toast | Form::Roll | Form::Rounds | Form::Bagel if spread => 7,
        form if is_pasta(form) => 5,
        Form::GreenBeans | Form::Spears | Form::Florets | Form::Peas | Form::Steak => 5,
        Form::Beans
        | Form::Rice
        | Form::Strips
        | Form::Shrimp
        | Form::Tortillas
        | Form::Smooth
        | Form::TomatoWedges => 4,
        Form::Cubes | Form::Leaves | Form::Dice | Form::Shreds | Form::Chunks => 3,
        _ => 0,
    }
}

const fn is_pasta(form: Form) -> bool {
    matches!(
        form,
        Form::Noodles | Form::Tubes | Form::Elbows | Form::Ravioli
    )
}

/// What comes on pasta rather than beside it.
const fn lies_on_pasta(form: Form) -> bool {
    matches!(
        form,
        Form::Meatballs
            | Form::Shrimp
            | Form::Ground
            | Form::Strips
            | Form::Breast
            | Form::Bacon
            | Form::BoiledEggs
            | Form::Sausages
            | Form::SausageRounds
            | Form::Mushrooms
            | Form::TomatoWedges
            | Form::Olives
            | Form::Onions
            | Form::Peas
    )
}

/// Whether it dresses rather than being eaten by itself.
const fn dresses(form: Form) -> bool {
    matches!(
        form,
        Form::Sauce
            | Form::Smooth
            | Form::Grated
            | Form::Crumbles
            | Form::Herbs
            | Form::Sugar
            | Form::Butter
            | Form::Dollop
            | Form::Drizzle
            | Form::Nuts
            | Form::Granola
            | Form::Seaweed
            | Form::Sprouts
            | Form::CheeseRounds
            | Form::CheeseSlices
    )
}

/// All that is left, each dressing on what takes it best.
pub(super) fn dressed(rest: &mut Rest<'_>) -> Vec<Mass> {
    let tops = rest.take(|s| s.goes == Goes::Top && dresses(s.look.form));
    let dips = rest.take(|s| s.goes == Goes::Dip);
    let mut tops = tops;
    if rest.left.iter().any(|i| is_pasta(rest.form(*i))) {
        tops.extend(rest.take(|s| lies_on_pasta(s.look.form)));
    }
    let piles = std::mem::take(&mut rest.left);
    let mut over: Vec<Vec<usize>> = vec![Vec::new(); piles.len()];
    let mut loose = Vec::new();
    for top in tops {
        let score = |i: &usize| takes(rest.form(piles[*i]), rest.form(top));
        let ml = |i: &usize| rest.seen[piles[*i]].volume_ml.likely;
        let best = (0..piles.len())
            .filter(|i| score(i) > 0)
            .max_by(|a, b| score(a).cmp(&score(b)).then(ml(a).total_cmp(&ml(b))));
        match best {
            Some(at) => over[at].push(top),
            None => loose.push(top),
        }
    }
    let mut masses: Vec<Mass> = piles
        .iter()
        .zip(over)
        .map(|(pile, over)| bed(rest, *pile, over))
        .collect();
    masses.extend(dips.into_iter().map(Mass::Ramekin));
    masses.extend(loose.into_iter().map(|i| {
        if rest.form(i) == Form::Sauce {
            Mass::Ramekin(i)
        } else {
            Mass::Food(i)
        }
    }));
    masses
}

/// A food with what lies on it; the rest lies on the sauce where there is one.
fn bed(rest: &Rest<'_>, under: usize, over: Vec<usize>) -> Mass {
    let (sauces, others): (Vec<usize>, Vec<usize>) =
        over.into_iter().partition(|i| rest.form(*i) == Form::Sauce);
    match sauces[..] {
        [] => on(under, others),
        [sauce, ref more @ ..] => {
            let pool = on(sauce, others);
            let mut all = vec![pool];
            all.extend(more.iter().copied().map(Mass::Food));
            on_mass(Mass::Food(under), all)
        }
    }
}
