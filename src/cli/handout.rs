//! `trencher handout`: a page to print or send.

use super::arguments::DishArgs;
use super::handout_args::{HandoutArgs, HandoutFormat, day_args, format, write};
use super::plate::plates_for_pages;
use super::plated::{Prepared, personal};
use super::{Failure, Outcome, note, whose};
use crate::pages::drawing::{Picture, Style, sheet};
use crate::pages::handout::{
    Handout, MOST_PLATES, Options, booklet, card_svg, comparison, fold_out, life_size_svg, page,
    pages, quiz,
};
use crate::pages::plating::handout;
use crate::store::Library;

/// Lettering of drawings in large print.
const LARGE_TEXT: f64 = 1.35;
/// Width of a picture of one plate, pixels.
#[cfg(feature = "png")]
const PNG_WIDTH_EACH: u32 = 1000;
/// Most plates side by side in one drawing.
const MOST_DRAWN: usize = 4;

pub(super) fn run(args: &HandoutArgs) -> Result<Outcome, Failure> {
    let format = format(args);
    if (args.week || args.by_meal) && !args.day_sheet {
        return Err(Failure::Request(
            "--week and --by-meal set the boxes of a day sheet\n  = add --day".to_owned(),
        ));
    }
    if args.day_sheet {
        return super::day_sheet::run(args, format);
    }
    if format == HandoutFormat::Png && !cfg!(feature = "png") {
        return Err(Failure::Request(
            "this build draws no PNG: its renderer takes minutes to build\n  = write .svg, which any browser opens, or install with `cargo install --path . --features png`"
                .to_owned(),
        ));
    }
    if args.life_size && format == HandoutFormat::Png {
        return Err(Failure::Request(
            "pixels have no size on paper\n  = name a file that ends in .html (sheets) or .svg (one drawing)"
                .to_owned(),
        ));
    }
    if args.card && format == HandoutFormat::Html {
        return Err(Failure::Request(
            "a card is a picture\n  = name a file that ends in .svg or .png".to_owned(),
        ));
    }
    let whose = whose::day(&day_args(args))?;
    let meal = args.meal.meal(&whose)?;
    let catalogue = super::corrections::catalogue()?;
    let plates = plates_for_pages(&named(args)?, args.units, &catalogue)?;
    let day = whose.words();
    let own = personal(&whose, args.day.energy.is_some());
    let mut complete = true;
    let mut handouts = Vec::new();
    for plate in plates {
        let prepared = Prepared::new(plate, &whose, own, &meal, &catalogue, args.units.into());
        complete &= prepared.is_complete();
        handouts.push(handout(prepared.plated(&day, &whose), &catalogue));
    }
    let mut options = args.page.options(whose.diner.as_ref())?;
    options.large_print = args.large_print;
    let bytes = match format {
        HandoutFormat::Html => html(&handouts, args, &options)?.into_bytes(),
        HandoutFormat::Svg => drawing(&handouts, args)?.into_bytes(),
        HandoutFormat::Png => picture(&drawing(&handouts, args)?, &handouts, args.card)?,
        HandoutFormat::Text => {
            return Err(Failure::Request(
                "as text there are day sheets only\n  = add --day, or use `trencher audit`"
                    .to_owned(),
            ));
        }
    };
    write(args, &bytes)?;
    for line in &whose.notes {
        note(line);
    }
    Ok(Outcome::done_if(complete))
}

/// The dishes named, or for a booklet of no dish in particular the whole library.
fn named(args: &HandoutArgs) -> Result<DishArgs, Failure> {
    let mut dish = args.dish.clone();
    if args.booklet && dish.dishes.is_empty() && dish.items.is_empty() {
        let library = Library::with_folder(dish.library.as_deref())?;
        dish.dishes = library
            .entries()
            .iter()
            .map(|e| e.name.clone().into_owned())
            .collect();
    }
    Ok(dish)
}

fn html(handouts: &[Handout], args: &HandoutArgs, options: &Options) -> Result<String, Failure> {
    let title = |usual: &str| args.title.clone().unwrap_or_else(|| usual.to_owned());
    let written = match handouts {
        several if args.two && (2..=MOST_PLATES).contains(&several.len()) => {
            let several: Vec<&Handout> = several.iter().collect();
            comparison(&several, false, options)
        }
        _ if args.two => {
            return Err(Failure::Request(format!(
                "--two takes two dishes, {MOST_PLATES} at most, not {}",
                handouts.len()
            )));
        }
        [one] if args.life_size => fold_out(one, options),
        _ if args.life_size => return Err(one_plate(handouts.len())),
        _ if args.booklet => booklet(&title("Dishes and what they hold"), handouts, options),
        _ if args.quiz => quiz(&title("How much is on the plate?"), handouts, options),
        [one] => page(one, options),
        _ => pages(&title("Dishes and what they hold"), handouts, options),
    };
    written.map_err(|e| Failure::File(e.to_string()))
}

fn one_plate(many: usize) -> Failure {
    Failure::Request(format!(
        "--life-size shows one plate, not {many}\n  = name one dish"
    ))
}

fn drawing(handouts: &[Handout], args: &HandoutArgs) -> Result<String, Failure> {
    if args.life_size {
        return match handouts {
            [one] => Ok(life_size_svg(one, args.page.page.paper())),
            _ => Err(one_plate(handouts.len())),
        };
    }
    if args.card {
        return match handouts {
            [one] => Ok(card_svg(one)),
            _ => Err(Failure::Request(format!(
                "--card shows one dish, not {}",
                handouts.len()
            ))),
        };
    }
    let pictures: Vec<&Picture> = match handouts {
        [one] => std::iter::once(&one.served).chain(&one.fitted).collect(),
        many => many.iter().map(|h| &h.served).collect(),
    };
    if pictures.len() > MOST_DRAWN {
        return Err(Failure::Request(format!(
            "one drawing holds {MOST_DRAWN} plates at most, not {}\n  = write .html for more",
            pictures.len()
        )));
    }
    let style = Style {
        text_scale: if args.large_print { LARGE_TEXT } else { 1.0 },
        ..Style::default()
    };
    Ok(sheet(&pictures, &style))
}

#[cfg(feature = "png")]
fn picture(svg: &str, handouts: &[Handout], card: bool) -> Result<Vec<u8>, Failure> {
    use crate::pages::drawing::{CARD, Fonts, png};
    let plates = match handouts {
        [one] => 1 + usize::from(one.fitted.is_some()),
        many => many.len(),
    };
    let wide = if card {
        CARD.0 as u32
    } else {
        PNG_WIDTH_EACH * plates as u32
    };
    png(svg, wide, &Fonts::installed()).map_err(|e| Failure::File(e.to_string()))
}

#[cfg(not(feature = "png"))]
fn picture(_svg: &str, _handouts: &[Handout], _card: bool) -> Result<Vec<u8>, Failure> {
    Err(Failure::Request("this build draws no PNG".to_owned()))
}
