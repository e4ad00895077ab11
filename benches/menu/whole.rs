//! A made-up menu through the real program: items a second, processor time, peak memory.

use super::maker::Maker;
use super::peer;
use std::error::Error;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// Items of the menu.
const ITEMS: u64 = 10_000;
/// Share of components that no item before has had, and of items read as a line of a menu.
const NEW: f64 = 0.2;
const LINES: f64 = 0.05;
/// Rounds of which the fastest counts: other work on the machine only ever adds time.
const ROUNDS: usize = 5;
/// Clock ticks a second in which Linux counts processor time (`USER_HZ`).
const TICKS: f64 = 100.0;

/// What a run took.
#[derive(Debug, Clone, Copy)]
struct Took {
    wall: Duration,
    /// Processor time, seconds; `None` where the system does not tell.
    used: Option<f64>,
    /// Peak memory, MB; `None` where the system does not tell.
    peak_mb: Option<f64>,
}

/// Times the program on a made-up menu and on one of which every component is new, then the
/// peer on the first.
pub fn compare() -> Result<(), Box<dyn Error>> {
    let folder = tempfile::tempdir()?;
    let usual = folder.path().join("menu.csv");
    let new = folder.path().join("new.csv");
    println!("\n{ITEMS} items");
    let told = make(&usual, NEW, LINES)?;
    let took = best(&usual)?;
    print(&format!("{told:.0} % of the components new"), took);
    make(&new, 1.0, 0.0)?;
    print("every component new", best(&new)?);
    match peer::run(&usual)? {
        peer::Answer::Ran(rows) => {
            for row in rows {
                beside(&row, took);
            }
        }
        peer::Answer::Absent(why) => println!("peer left out: {why}"),
    }
    Ok(())
}

/// Writes a menu; returns the share of components that are really new, in percent.
fn make(path: &Path, new: f64, lines: f64) -> Result<f64, Box<dyn Error>> {
    let mut maker = Maker::new(1)?;
    let mut text = Vec::new();
    maker.menu(ITEMS, new, lines, &mut text)?;
    std::fs::write(path, text)?;
    Ok(maker.new as f64 / maker.made.max(1) as f64 * 100.0)
}

fn best(menu: &Path) -> Result<Took, Box<dyn Error>> {
    let mut best = once(menu)?;
    for _ in 1..ROUNDS {
        let next = once(menu)?;
        if next.wall < best.wall {
            best = next;
        }
    }
    Ok(best)
}

fn once(menu: &Path) -> Result<Took, Box<dyn Error>> {
    let start = Instant::now();
    let mut child = Command::new(env!("CARGO_BIN_EXE_trencher"))
        .arg("menu")
        .arg(menu)
        .args(["--format", "ndjson"])
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()?;
    let (used, peak_mb) = watch(&child);
    child.wait()?;
    Ok(Took {
        wall: start.elapsed(),
        used,
        peak_mb,
    })
}

/// Looks at a running program until it has ended (and is not yet waited for): Linux keeps its
/// processor time till then.
fn watch(child: &Child) -> (Option<f64>, Option<f64>) {
    let folder = format!("/proc/{}", child.id());
    let mut peak_kb = None;
    loop {
        let read = |name: &str| std::fs::read_to_string(format!("{folder}/{name}"));
        let Ok(stat) = read("stat") else {
            return (None, None);
        };
        let kb = read("status").ok().and_then(|text| {
            let line = text.lines().find_map(|l| l.strip_prefix("VmHWM:"))?;
            line.split_whitespace().next()?.parse::<f64>().ok()
        });
        peak_kb = kb.or(peak_kb);
        // The name in brackets may hold spaces; state is the first field behind it.
        let fields: Vec<&str> = stat
            .rsplit(')')
            .next()
            .unwrap_or_default()
            .split_whitespace()
            .collect();
        if fields.first().is_none_or(|state| *state == "Z") {
            let ticks = |at: usize| fields.get(at)?.parse::<f64>().ok();
            let used = ticks(11)
                .zip(ticks(12))
                .map(|(own, system)| (own + system) / TICKS);
            return (used, peak_kb.map(|kb| kb / 1000.0));
        }
        std::thread::sleep(Duration::from_millis(2));
    }
}

fn print(what: &str, took: Took) {
    let items = ITEMS as f64 / took.wall.as_secs_f64();
    let used = took.used.map_or_else(String::new, |used| {
        format!(", {used:.2} s of processor time")
    });
    let peak = took
        .peak_mb
        .map_or_else(String::new, |mb| format!(", peak {mb:.0} MB"));
    println!("trencher, whole audit, {what}: {items:.0} items a second{used}{peak}");
}

fn beside(row: &peer::Row, took: Took) {
    let each = took.wall.as_secs_f64() / ITEMS as f64;
    let used = took.used.map_or_else(String::new, |used| {
        let times = row.used_each / (used / ITEMS as f64);
        format!(", {times:.0} times by processor time")
    });
    println!(
        "{}: {:.1} items a second; trencher is {:.0} times as fast{used}",
        row.name,
        1.0 / row.seconds_each,
        row.seconds_each / each
    );
}
