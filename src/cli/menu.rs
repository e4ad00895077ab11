//! `trencher menu`.

use super::menu_args::{MenuArgs, MenuFormat, MenuInput};
use super::menu_held::held_against;
use super::menu_sink::{Delivery, Progress};
use super::menu_summary::{draw, report};
use super::out_file::write_whole;
use super::{Failure, Outcome, note, warn, whose};
use crate::menu::{
    BeginError, CsvRows, Encoding, Ended, Field, Filter, InputForm, Job, Kitchens, Order, Output,
    Rows, Setting, Sorter, Source, Summary, can_tell, learn, open, run as run_menu,
};
use crate::pages::menu_report;

use crate::store::target::{Target, all_apart};
use crate::store::{KnownDishes, Library};
use std::io::IsTerminal;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

pub(super) fn run(args: &MenuArgs) -> Result<Outcome, Failure> {
    let args = &to_standard_output(args);
    let whose = whose::day(&args.day)?;
    let held = held_against(args, &whose)?;
    let (filter, order) = (filter(args)?, order(args)?);
    let catalogue = super::corrections::catalogue()?;
    let dishes = KnownDishes::of(&Library::with_folder(args.library.as_deref())?);
    look_at_files(args)?;
    let name = args.file.display().to_string();
    let mut source = opened(args, &name)?;
    let format = format(args, source.form)?;
    let setting = Setting {
        catalogue: &catalogue,
        dishes: &dishes,
        day: whose.day(),
        room: &held.room,
        units: args.units.into(),
        as_written: args.as_written,
        service: args.service.map(Into::into),
        kitchens: None,
    };
    let kitchens = kitchens(&mut source, setting, args);
    let progress = Progress::new(args.output.is_some(), source.size, source.read.clone());
    let rows = begin(source, &name)?;
    let (asks_words, on_page) = (asks_words(filter.as_ref()), format == MenuFormat::Html);
    let stop = Arc::new(AtomicBool::new(false));
    let job = Job {
        setting: Setting {
            kitchens: kitchens.as_ref(),
            ..setting
        },
        filter,
        order,
        rest: held.rest.as_ref(),
        encoding: encoding(format),
        keyed: args.keyed,
        skip: args.resume.unwrap_or(0),
        threads: threads(args),
        stop: &stop,
    };
    let mut delivery = deliver_to(args, format, &rows, &job, progress)?;
    stop_on_interrupt(&stop);
    let ended = match run_menu(rows, &job, &mut delivery) {
        Ok(ended) => ended,
        Err(error) => return Err(delivery.broke_off(&error, args)),
    };
    let summary = delivery.finish(&ended, args)?;
    ask_how_it_serves(&summary, &job);
    let mut page = report(&summary, args, &held, &whose, (asks_words, on_page));
    if on_page {
        draw(&mut page, &summary, job.setting);
    }
    summarise(args, format, &page)?;
    how_it_ended(ended, &name)?;
    let whole = summary.bad == 0 && summary.incomplete == 0 && !stop.load(Ordering::Relaxed);
    Ok(Outcome::done_if(whole))
}

/// `-` is standard output, as for handouts, and not a file of that name.
fn to_standard_output(args: &MenuArgs) -> MenuArgs {
    MenuArgs {
        output: args.output.clone().filter(|out| out != Path::new("-")),
        ..args.clone()
    }
}

fn opened(args: &MenuArgs, name: &str) -> Result<Source, Failure> {
    let source = open(&args.file, args.input.map(InputForm::from));
    source.map_err(|e| Failure::File(format!("cannot read {name}: {e}")))
}

/// Whether the filter looks for words; if so, says what that cannot do.
fn asks_words(filter: Option<&Filter>) -> bool {
    let asks = filter.is_some_and(Filter::asks_words);
    if asks {
        note(ALLERGENS);
    }
    asks
}

fn encoding(format: MenuFormat) -> Encoding {
    match format {
        MenuFormat::Text | MenuFormat::Html => Encoding::Nothing,
        MenuFormat::Csv => Encoding::Csv,
        #[cfg(feature = "parquet")]
        MenuFormat::Parquet => Encoding::Csv,
        MenuFormat::Ndjson => Encoding::Ndjson,
    }
}

/// Reads the header, and says what of it is not used.
fn begin(source: Source, name: &str) -> Result<Rows, Failure> {
    let rows = Rows::begin(source).map_err(|e| match e {
        BeginError::Header(e) => Failure::Request(format!("{name}: {e}")),
        BeginError::Input(e) => Failure::File(format!("cannot read {name}: {e}")),
    })?;
    if let Some(header) = rows.header().filter(|h| !h.unused.is_empty()) {
        let columns = header.unused.join("`, `");
        note(&format!("{name}: not used: columns `{columns}`"));
    }
    Ok(rows)
}

/// What the menu tells of its kitchens. Rows that other software deals out (`--keyed`) come from
/// anywhere: each is answered by itself.
fn kitchens(source: &mut Source, setting: Setting<'_>, args: &MenuArgs) -> Option<Kitchens> {
    if args.keyed || !can_tell(source) {
        return None;
    }
    let kitchens = learn(source, setting, threads(args));
    for (restaurant, kitchen) in kitchens.all() {
        let of = if restaurant.is_empty() {
            String::new()
        } else {
            format!("{restaurant}: ")
        };
        note(&format!(
            "{of}the menu says what {} of its dishes hold: the rest is estimated as this kitchen serves",
            kitchen.dishes()
        ));
    }
    let any = kitchens.all().next().is_some();
    any.then_some(kitchens)
}

/// Items of the longest menu that is one restaurant's.
const ONE_RESTAURANT: u64 = 400;

/// Asks for what would help most where a menu looks like one served at tables and nobody said so.
/// It is not taken for said: the same line would then hold more in a menu than by itself.
fn ask_how_it_serves(summary: &Summary, job: &Job<'_>) {
    let known = job.setting.service.is_some() || job.setting.kitchens.is_some() || job.keyed;
    let only_drinks = summary.with_alcohol == summary.items;
    if known || only_drinks || summary.with_alcohol == 0 || summary.items > ONE_RESTAURANT {
        return;
    }
    note(&format!(
        "drinks with alcohol are on this menu ({}): where guests are served at tables dishes mostly hold about a quarter more than is told here\n  = if they are, give --service table",
        summary.with_alcohol
    ));
}

/// Beside every answer that goes by words.
const ALLERGENS: &str = "words on a menu cannot rule an allergen in or out: ask the kitchen";

fn filter(args: &MenuArgs) -> Result<Option<Filter>, Failure> {
    args.filter
        .as_deref()
        .map(|text| Filter::parse(text).map_err(|e| Failure::Request(format!("--where: {e}"))))
        .transpose()
}

fn order(args: &MenuArgs) -> Result<Option<Order>, Failure> {
    if args.left {
        return Ok(Some(Order {
            field: Field::Rest,
            falling: true,
        }));
    }
    let Some(name) = &args.sort else {
        return Ok(None);
    };
    let field = Field::from_words(name).ok_or_else(|| {
        Failure::Request(format!(
            "--sort: no figure is called `{name}`\n  = energy, sodium, \"saturated fat\", grains, \"grains share\", fitted, grams, printed and their like"
        ))
    })?;
    Ok(Some(Order {
        field,
        falling: args.falling,
    }))
}

impl From<MenuInput> for InputForm {
    fn from(form: MenuInput) -> Self {
        match form {
            MenuInput::Csv => InputForm::Csv,
            MenuInput::Ndjson => InputForm::Ndjson,
            MenuInput::Jsonld => InputForm::JsonLd,
        }
    }
}

/// The form of the answer: as asked, by the file's ending, by who reads it.
fn format(args: &MenuArgs, menu: InputForm) -> Result<MenuFormat, Failure> {
    let format = format_of(args, menu)?;
    if args.keyed && (format, menu) != (MenuFormat::Ndjson, InputForm::Ndjson) {
        return Err(Failure::Request(
            "--keyed goes from NDJSON to NDJSON\n  = give --input ndjson --format ndjson"
                .to_owned(),
        ));
    }
    Ok(format)
}

fn format_of(args: &MenuArgs, menu: InputForm) -> Result<MenuFormat, Failure> {
    if let Some(format) = args.format {
        return Ok(format);
    }
    let as_menu = match menu {
        InputForm::Csv => MenuFormat::Csv,
        InputForm::Ndjson | InputForm::JsonLd => MenuFormat::Ndjson,
    };
    let Some(out) = &args.output else {
        let text = std::io::stdout().is_terminal() && args.sort.is_none() || args.left;
        return Ok(if text { MenuFormat::Text } else { as_menu });
    };
    let name = out.to_string_lossy().to_lowercase();
    let name = name.strip_suffix(".gz").unwrap_or(&name);
    match name.rsplit_once('.').map(|(_, ending)| ending) {
        Some("csv") => Ok(MenuFormat::Csv),
        Some("ndjson" | "jsonl") => Ok(MenuFormat::Ndjson),
        Some("txt") => Ok(MenuFormat::Text),
        #[cfg(feature = "parquet")]
        Some("parquet") => Ok(MenuFormat::Parquet),
        Some("html" | "htm") => Ok(MenuFormat::Html),
        _ if out.starts_with("/dev") => Ok(as_menu),
        _ => Err(Failure::Request(format!(
            "the ending of {} says no form\n  = give --format csv, ndjson, html or text",
            out.display()
        ))),
    }
}

fn threads(args: &MenuArgs) -> usize {
    let cores = || std::thread::available_parallelism().map_or(1, usize::from);
    args.threads.map_or_else(cores, usize::from)
}

fn deliver_to(
    args: &MenuArgs,
    format: MenuFormat,
    rows: &Rows,
    job: &Job<'_>,
    progress: Progress,
) -> Result<Delivery, Failure> {
    let mut output = match (&args.output, format) {
        (_, MenuFormat::Text | MenuFormat::Html) => None,
        #[cfg(feature = "parquet")]
        (to, MenuFormat::Parquet) => Some(parquet(to.as_deref(), args)?),
        (None, _) => Some(Output::standard()),
        (Some(path), _) => Some(Output::file(path, args.resume.is_some(), args.force)?),
    };
    if let Some(output) = output.as_mut().filter(|_| args.resume.is_none())
        && format == MenuFormat::Csv
    {
        let mut head = Vec::new();
        let mut writer = CsvRows::new(job.setting.catalogue, job.rest.is_some(), &mut head);
        let _ = writer.header().and_then(|()| writer.finish());
        output.rows(&head).map_err(Failure::from)?;
    }
    let sorter = job.order.map(|order| Sorter::new(order.falling, args.top));
    let head = rows.header().map(|h| h.raw.clone());
    Delivery::new(args, output, sorter, head, progress)
}

/// A Parquet file ends with its table of contents: nothing can be added to it.
#[cfg(feature = "parquet")]
fn parquet(to: Option<&Path>, args: &MenuArgs) -> Result<Output, Failure> {
    match to {
        Some(path) if args.resume.is_none() => Ok(Output::parquet(path, args.force)?),
        Some(_) => Err(Failure::Request(
            "a Parquet file cannot be gone on with\n  = leave --resume out, or give another --format"
                .to_owned(),
        )),
        None => Err(Failure::Request(
            "Parquet goes to a file\n  = name it with -o OUT.parquet".to_owned(),
        )),
    }
}

/// Before anything is read: no file is written over, and none is two things at once.
fn look_at_files(args: &MenuArgs) -> Result<(), Failure> {
    let written = [
        ("-o", &args.output),
        ("--rejects", &args.rejects),
        ("--summary", &args.summary),
    ];
    let written = written
        .iter()
        .filter_map(|(what, path)| Some((*what, path.as_deref()?)));
    let written: Vec<_> = written.collect();
    for (_, path) in &written {
        Target::of(path)?.may_be_written(args.force)?;
    }
    // Standard input may have been opened from a file that is to be written.
    let menu = if args.file.as_os_str() == "-" {
        Path::new("/dev/stdin")
    } else {
        &args.file
    };
    let all: Vec<_> = std::iter::once(("the menu", menu)).chain(written).collect();
    Ok(all_apart(&all)?)
}

/// The first Ctrl-C, hang-up or request to end lets the rows under way be finished; a second
/// one ends at once. A run that was started to outlive its terminal goes on.
fn stop_on_interrupt(stop: &Arc<AtomicBool>) {
    use signal_hook::consts::{SIGINT, SIGTERM};
    use signal_hook::flag::{register, register_conditional_shutdown};
    let mut signals = vec![SIGINT, SIGTERM];
    #[cfg(unix)]
    if !hang_up_is_ignored() {
        signals.push(signal_hook::consts::SIGHUP);
    }
    for signal in signals {
        // Without a handler the signal ends the program at once: nothing worse than that.
        let _ = register_conditional_shutdown(signal, 128 + signal, stop.clone());
        let _ = register(signal, stop.clone());
    }
}

/// Whether whoever started the program asked it to outlive the terminal (`nohup`), as far as
/// the system tells.
#[cfg(unix)]
fn hang_up_is_ignored() -> bool {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let ignored = status.lines().find_map(|line| line.strip_prefix("SigIgn:"));
    let mask = ignored.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok());
    // Signal 1 is the lowest bit.
    mask.is_some_and(|mask| mask & 1 == 1)
}

fn summarise(
    args: &MenuArgs,
    format: MenuFormat,
    page: &menu_report::MenuReport,
) -> Result<(), Failure> {
    let text = menu_report::text(page);
    if let Some(path) = &args.summary {
        write_whole(path, text.as_bytes(), args.force)?;
    }
    let own = match format {
        MenuFormat::Text => text,
        MenuFormat::Html => menu_report::html(page).map_err(|e| Failure::File(e.to_string()))?,
        _ => {
            if args.output.is_some() && std::io::stderr().is_terminal() {
                // The rows are where they were asked to be: what cannot be shown is no loss.
                let _ = std::io::Write::write_all(&mut std::io::stderr(), text.as_bytes());
            }
            return Ok(());
        }
    };
    match &args.output {
        Some(path) => write_whole(path, own.as_bytes(), args.force),
        None => super::print(&own).map(|_| ()),
    }
}

fn how_it_ended(ended: Ended, name: &str) -> Result<(), Failure> {
    match ended {
        Ended::Whole | Ended::Stopped => Ok(()),
        Ended::Failed(error) => Err(Failure::File(format!(
            "{name} breaks off: {error}\n  = every whole row before that was used"
        ))),
        Ended::BrokenJson(error) => {
            warn(&format!(
                "{name}: {error}\n  = every item before that was used"
            ));
            Err(Failure::File(format!(
                "{name} could not be read to its end"
            )))
        }
    }
}
