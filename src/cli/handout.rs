//! `trencher handout`: a page to print or send.

use super::arguments::{DayArgs, DishArgs, Units};
use super::meal::MealArgs;
use super::out_file::write_whole;
use super::plate::plates;
use super::plated::{Prepared, day_words, personal};
use super::{Failure, Outcome, note, whose};
use crate::pages::drawing::{Picture, Style, sheet};
use crate::pages::handout::{
    Handout, MOST_PLATES, Options, Paper, booklet, card_svg, comparison, page, pages, quiz,
};
use crate::pages::plating::handout;
use crate::store::Library;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Lettering of drawings in large print.
const LARGE_TEXT: f64 = 1.35;
/// Width of a picture of one plate, pixels.
#[cfg(feature = "png")]
const PNG_WIDTH_EACH: u32 = 1000;
/// Most plates side by side in one drawing.
const MOST_DRAWN: usize = 4;

/// What the file is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum HandoutFormat {
    /// A page for screen and printer
    Html,
    /// The plates alone, as a drawing
    Svg,
    /// The plates alone, as a picture
    Png,
}

/// Paper to print on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum PaperArg {
    /// 210 by 297 mm
    A4,
    /// 8.5 by 11 inches
    Letter,
}

/// `handout`.
#[derive(Debug, Clone, Args)]
#[allow(clippy::struct_excessive_bools)] // switches of a command line
pub(crate) struct HandoutArgs {
    /// Which dishes
    #[command(flatten)]
    pub dish: DishArgs,
    /// File to write; `-` for standard output
    #[arg(short, long, value_name = "FILE")]
    pub output: PathBuf,
    /// What to write; without it the end of FILE's name decides
    #[arg(long, value_enum)]
    pub format: Option<HandoutFormat>,
    /// Two dishes facing each other on one page
    #[arg(long, group = "form")]
    pub two: bool,
    /// A contents page, then a page for each dish; the whole library when no dish is named
    #[arg(long, group = "form")]
    pub booklet: bool,
    /// For teaching: guess the amounts of each plate, then turn the page
    #[arg(long, group = "form")]
    pub quiz: bool,
    /// A picture for a phone, 1080 by 1920: the plate, four shares of the day, what to eat
    #[arg(long, group = "form")]
    pub card: bool,
    /// Title of a booklet or quiz
    #[arg(long, value_name = "TEXT")]
    pub title: Option<String>,
    /// Larger letters; a dish then takes up to two printed pages
    #[arg(long)]
    pub large_print: bool,
    /// Paper to print on; a dish takes one page of either
    #[arg(long, value_enum, default_value = "a4")]
    pub paper: PaperArg,
    /// Write over a file that is there already
    #[arg(long)]
    pub force: bool,
    /// The diner it is for: the same as --diner
    #[arg(long = "for", value_name = "NAME", conflicts_with_all = ["diner", "energy"])]
    pub for_diner: Option<String>,
    /// Which meal
    #[command(flatten)]
    pub meal: MealArgs,
    /// Whose day
    #[command(flatten)]
    pub day: DayArgs,
    /// Cups, spoons and word senses
    #[arg(long, value_enum, default_value = "us")]
    pub units: Units,
}

pub(super) fn run(args: &HandoutArgs) -> Result<Outcome, Failure> {
    let format = format(args);
    if format == HandoutFormat::Png && !cfg!(feature = "png") {
        return Err(Failure::Request(
            "this build draws no PNG\n  = write .svg, or install with `cargo install --path . --features png`"
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
    let plates = plates(&named(args)?, args.units, &catalogue)?;
    let day = day_words(&whose);
    let own = personal(&whose, args.day.energy.is_some());
    let mut complete = true;
    let mut handouts = Vec::new();
    for plate in plates {
        let prepared = Prepared::new(plate, &whose, own, &meal, &catalogue);
        complete &= prepared.is_complete();
        handouts.push(handout(prepared.plated(&day, &whose), &catalogue));
    }
    let bytes = match format {
        HandoutFormat::Html => html(&handouts, args)?.into_bytes(),
        HandoutFormat::Svg => drawing(&handouts, args)?.into_bytes(),
        HandoutFormat::Png => picture(&drawing(&handouts, args)?, &handouts, args.card)?,
    };
    if args.output.as_os_str() == "-" {
        use std::io::Write;
        std::io::stdout().lock().write_all(&bytes)?;
    } else {
        write_whole(&args.output, &bytes, args.force)?;
        note(&format!("wrote `{}`", args.output.display()));
    }
    for line in &whose.notes {
        note(line);
    }
    Ok(if complete {
        Outcome::Done
    } else {
        Outcome::Partly
    })
}

fn day_args(args: &HandoutArgs) -> DayArgs {
    let mut day = args.day.clone();
    day.diner = args.for_diner.clone().or(day.diner);
    day
}

/// As asked for, or as the file's name ends.
fn format(args: &HandoutArgs) -> HandoutFormat {
    args.format.unwrap_or_else(|| {
        let end = args
            .output
            .extension()
            .map(std::ffi::OsStr::to_ascii_lowercase);
        match end.as_ref().and_then(|e| e.to_str()) {
            Some("svg") => HandoutFormat::Svg,
            Some("png") => HandoutFormat::Png,
            _ => HandoutFormat::Html,
        }
    })
}

/// The dishes named, or for a booklet of no dish in particular the whole library.
fn named(args: &HandoutArgs) -> Result<DishArgs, Failure> {
    let mut dish = args.dish.clone();
    if args.booklet && dish.dishes.is_empty() && dish.items.is_empty() {
        let library = Library::with_folder(dish.library.as_deref())?;
        dish.dishes = library.entries().iter().map(|e| e.name.clone()).collect();
    }
    Ok(dish)
}

fn html(handouts: &[Handout], args: &HandoutArgs) -> Result<String, Failure> {
    let options = Options {
        paper: match args.paper {
            PaperArg::A4 => Paper::A4,
            PaperArg::Letter => Paper::Letter,
        },
        large_print: args.large_print,
    };
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
        _ if args.booklet => booklet(&title("Dishes and what they hold"), handouts, options),
        _ if args.quiz => quiz(&title("How much is on the plate?"), handouts, options),
        [one] => page(one, options),
        _ => pages(&title("Dishes and what they hold"), handouts, options),
    };
    written.map_err(|e| Failure::File(e.to_string()))
}

fn drawing(handouts: &[Handout], args: &HandoutArgs) -> Result<String, Failure> {
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
