//! `trencher audit`.

use super::arguments::{AuditArgs, Bars, Format};
use super::plate::NoFood;
use super::{Failure, Outcome, ask, cautions, corrections, plate, print, today, whose};
use crate::ledger::{Audit, audit};
use crate::matching::Catalogue;
use crate::pages::today::Today;
use crate::pages::{csv_page, json, text};
use std::io::IsTerminal;
use terminal_size::{Width, terminal_size_of};

pub(super) fn run(args: &AuditArgs) -> Result<Outcome, Failure> {
    let whose = whose::day(&args.day)?;
    let standing = today::now_for_page(&whose, args.meal.as_deref(), args.left)?;
    let mut catalogue = corrections::catalogue()?;
    let plates = if args.interactive {
        let read = plate::read(&args.dish, args.common.units)?;
        catalogue = ask::settle(&args.dish, args.common.units, &read, catalogue)?;
        plate::weighed(
            read,
            &args.dish,
            args.common.units,
            &catalogue,
            NoFood::Shown,
        )?
    } else {
        let read = plate::read(&args.dish, args.common.units)?;
        plate::weighed(
            read,
            &args.dish,
            args.common.units,
            &catalogue,
            NoFood::Shown,
        )?
    };
    let mut outcome = Outcome::Done;
    let last = plates.len().saturating_sub(1);
    for (at, mut plate) in plates.into_iter().enumerate() {
        if at > 0 && args.common.format == Format::Text {
            print("\n")?;
        }
        if let Some(share) = args.share {
            plate.take_share(share);
        }
        let mut result = audit(&plate.dish, &catalogue, whose.day());
        result.notes.extend(plate.notes);
        result.notes.extend(whose.notes.clone());
        let today = standing
            .as_ref()
            .map(|standing| Today::of(&result, standing));
        let text = args.common.format == Format::Text;
        // Once a run, below the last dish.
        let closing = if text && at == last {
            cautions::closing()
        } else {
            Vec::new()
        };
        print(&render(
            &result,
            &catalogue,
            today.as_ref(),
            &closing,
            args,
        )?)?;
        let doubted = !result.unmatched.is_empty() || !result.not_plausible.is_empty();
        if !plate.complete || doubted || result.components.is_empty() {
            outcome = Outcome::Partly;
        }
    }
    Ok(outcome)
}

fn render(
    result: &Audit,
    catalogue: &Catalogue,
    today: Option<&Today>,
    closing: &[String],
    args: &AuditArgs,
) -> Result<String, Failure> {
    match args.common.format {
        Format::Text => {
            let accent = std::env::var_os("NO_COLOR").is_none() && std::io::stdout().is_terminal();
            Ok(text::audit_for(
                result,
                catalogue,
                &text::Look {
                    accent,
                    bars: bars(args.bars),
                    why: args.common.why,
                    closing: closing.to_vec(),
                },
                today,
            ))
        }
        Format::Json => Ok(json::audit_for(result, catalogue, today)?),
        Format::Csv => Ok(csv_page::audit_for(result, catalogue, today)?),
    }
}

/// Columns at most of a line with a bar.
const WIDEST: usize = 100;

/// Columns that lines with bars may take: bars are for the eye, and repeat what is said.
fn bars(when: Bars) -> Option<usize> {
    match when {
        Bars::Always => Some(WIDEST),
        Bars::Never => None,
        Bars::Auto => {
            let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
            let (Width(columns), _) = terminal_size_of(std::io::stdout())?;
            (!dumb).then(|| WIDEST.min(usize::from(columns).saturating_sub(1)))
        }
    }
}
