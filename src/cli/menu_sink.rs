//! Where the rows of `trencher menu` go while it runs: output, rejects, messages, progress.

use super::menu_args::MenuArgs;
use super::{Failure, note, warn};
use crate::menu::{Batch, Ended, Output, Sink, Sorter, Summary};
use crate::store::target::Draft;
use indicatif::{ProgressBar, ProgressStyle};
use std::fs::File;
use std::io::{BufWriter, IsTerminal, Write};
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

/// Rows that cannot be used of which each is told; of the others only how many.
const TOLD: u64 = 20;

/// A line of progress on a terminal, and nowhere else.
pub(super) struct Progress {
    bar: Option<ProgressBar>,
    read: Arc<AtomicU64>,
}

impl Progress {
    /// Progress of a menu of `size` bytes, of which `read` counts those read; shown when rows
    /// go to a file and standard error is a terminal.
    pub(crate) fn new(to_file: bool, size: Option<u64>, read: Arc<AtomicU64>) -> Self {
        let seen = std::io::stderr().is_terminal() && (to_file || !std::io::stdout().is_terminal());
        let bar = seen.then(|| {
            let (bar, form) = match size {
                Some(size) => (
                    ProgressBar::new(size),
                    "{percent:>3} % {wide_bar} {eta} left, {msg}",
                ),
                None => (ProgressBar::no_length(), "{elapsed} {msg}"),
            };
            bar.set_style(
                ProgressStyle::with_template(form).unwrap_or_else(|_| ProgressStyle::default_bar()),
            );
            bar.enable_steady_tick(Duration::from_millis(200));
            bar
        });
        Self { bar, read }
    }

    fn show(&self, rows: u64, bad: u64) {
        let Some(bar) = &self.bar else { return };
        bar.set_position(self.read.load(Ordering::Relaxed));
        let seconds = bar.elapsed().as_secs_f64().max(0.001);
        let rate = rows as f64 / seconds;
        bar.set_message(format!("{rows} rows, {rate:.0} a second, {bad} bad"));
    }

    fn aside(&self, work: impl FnOnce()) {
        match &self.bar {
            Some(bar) => bar.suspend(work),
            None => work(),
        }
    }

    fn end(&self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}

/// Takes finished batches to where they belong.
pub(super) struct Delivery {
    output: Option<Output>,
    sorter: Option<Sorter>,
    rejects: Option<Rejects>,
    /// Header of the menu, to stand above the rejected rows.
    head: Option<Vec<u8>>,
    name: String,
    progress: Progress,
    summary: Summary,
    /// Rows of the menu that are done with.
    rows: u64,
}

/// Rows that cannot be used, on their way to a file.
struct Rejects {
    to: BufWriter<File>,
    draft: Draft,
    /// Whether an earlier run began it.
    goes_on: bool,
}

impl Rejects {
    /// Begins the file, or goes on with what a run that was stopped left of it.
    fn open(path: &Path, args: &MenuArgs) -> Result<Self, Failure> {
        let goes_on = args.resume.is_some() && Draft::is_left(path);
        let (draft, file) = if goes_on {
            Draft::go_on(path, args.force)?
        } else {
            Draft::begin(path, args.force)?
        };
        let begun = goes_on && file.metadata().is_ok_and(|about| about.len() > 0);
        Ok(Self {
            to: BufWriter::new(file),
            draft,
            goes_on: begun,
        })
    }

    /// A finished run's file takes its own name.
    fn end(mut self, finished: bool) -> std::io::Result<()> {
        self.to.flush()?;
        if finished {
            return self.draft.finish();
        }
        // The note on where to go on names the rows; the rows set aside lie beside them.
        let _ = self.draft.leave();
        Ok(())
    }
}

impl Delivery {
    pub(crate) fn new(
        args: &MenuArgs,
        output: Option<Output>,
        sorter: Option<Sorter>,
        head: Option<Vec<u8>>,
        progress: Progress,
    ) -> Result<Self, Failure> {
        let rejects = args.rejects.as_ref();
        let rejects = rejects.map(|path| Rejects::open(path, args)).transpose()?;
        // What an earlier run set aside has its header already.
        let goes_on = rejects.as_ref().is_some_and(|r| r.goes_on);
        Ok(Self {
            output,
            sorter,
            rejects,
            head: head.filter(|_| !goes_on),
            name: args.file.display().to_string(),
            progress,
            summary: Summary::default(),
            rows: args.resume.unwrap_or(0),
        })
    }

    fn bad_rows(&mut self, batch: &Batch) -> std::io::Result<()> {
        for bad in &batch.bad {
            if let Some(fault) = &bad.fault {
                let reason = fault.to_string();
                self.summary.add_bad(bad.line, &reason);
                if self.summary.bad <= TOLD {
                    let text = format!("{}:{}: {reason}", self.name, bad.line);
                    self.progress.aside(|| warn(&text));
                }
            }
            if let Some(Rejects { to: rejects, .. }) = &mut self.rejects {
                if let Some(head) = self.head.take() {
                    rejects.write_all(&head)?;
                    rejects.write_all(b"\n")?;
                }
                let (bytes, ends) = batch.raw(bad);
                rejects.write_all(bytes)?;
                if ends {
                    rejects.write_all(b"\n")?;
                }
            }
        }
        Ok(())
    }

    /// Says how many rows that cannot be used were not told one by one.
    fn tell_the_rest(&self, args: &MenuArgs) {
        let more = self.summary.bad.saturating_sub(TOLD);
        if more == 0 {
            return;
        }
        let rows = if more == 1 { "row" } else { "rows" };
        let kept = match &args.rejects {
            Some(path) => format!("every such row is in {}", path.display()),
            None => "--rejects FILE keeps every such row".to_owned(),
        };
        warn(&format!(
            "{}: {more} more {rows} cannot be used\n  = {kept}",
            self.name
        ));
    }

    /// Ends the output; returns what the menu comes to.
    pub(crate) fn finish(mut self, ended: &Ended, args: &MenuArgs) -> Result<Summary, Failure> {
        self.progress.end();
        self.tell_the_rest(args);
        let finished = matches!(ended, Ended::Whole);
        let rejects = self.rejects.take().map(|rejects| rejects.end(finished));
        if let (Some(sorter), Some(output)) = (self.sorter.take(), &mut self.output) {
            sorter.finish(&mut |row| output.rows(row))?;
        }
        let partial = match self.output.take() {
            Some(output) => output.end(finished)?,
            None => None,
        };
        rejects.transpose()?;
        let left = partial.map_or_else(String::new, |path| {
            format!("; what is done is in {}", path.display())
        });
        match ended {
            Ended::Stopped if args.sort.is_some() => {
                note(&format!("stopped after {} rows{left}", self.rows));
            }
            Ended::Stopped => note(&format!(
                "stopped after {} rows{left}: go on with --resume {}",
                self.rows, self.rows
            )),
            _ if !left.is_empty() => note(left.trim_start_matches("; ")),
            _ => {}
        }
        Ok(self.summary)
    }

    /// The output failed: says what is kept of it and where to go on.
    pub(crate) fn broke_off(mut self, error: &std::io::Error, args: &MenuArgs) -> Failure {
        self.progress.end();
        if error.kind() == std::io::ErrorKind::BrokenPipe {
            return Failure::Closed;
        }
        self.tell_the_rest(args);
        // The output has failed already; ending it can only fail again.
        let _ = self.rejects.take().map(|rejects| rejects.end(false));
        let partial = self.output.take().and_then(|o| o.end(false).ok().flatten());
        let kept = partial
            .filter(|_| args.sort.is_none())
            .map_or_else(String::new, |path| {
                format!(
                    "\n  = the rows before are in {}: make room and go on with --resume {}",
                    path.display(),
                    self.rows
                )
            });
        Failure::File(format!("cannot write: {error}{kept}"))
    }
}

impl Sink for Delivery {
    fn take(&mut self, batch: &Batch) -> std::io::Result<()> {
        match (&mut self.sorter, &mut self.output) {
            (Some(sorter), _) => sorter.take(&batch.out, &batch.kept)?,
            (None, Some(output)) => output.rows(&batch.out)?,
            (None, None) => {}
        }
        self.bad_rows(batch)?;
        for brief in &batch.briefs {
            self.summary.add(brief);
        }
        self.rows = batch.rows_so_far;
        self.progress.show(self.rows, self.summary.bad);
        Ok(())
    }
}
