//! Days side by side in a terminal: each day's share of the allowance, by group.

use std::fmt::Write as _;

use jiff::civil::Date;
use unicode_width::UnicodeWidthStr;

/// One thing that is plotted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct PlotColumn {
    /// Its name; cut to the width of a cell.
    pub name: String,
    /// The sign its bar is drawn with, one column wide.
    pub texture: char,
}

/// One day of the plot.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct PlotDay {
    /// The date.
    pub date: Date,
    /// A share of the allowance for each column (1 for all of it), or nothing where no share
    /// can be told; no shares at all when nothing was logged.
    pub shares: Option<Vec<Option<f64>>>,
}

/// Signs of a bar up to the whole allowance.
const BAR: usize = 4;
/// A cell: the bar, a sign for what is beyond, three digits of percent.
const CELL: usize = BAR + 1 + 3;
/// Holds `Mon  2 `; the month stands above.
const DAY: usize = 7;

/// Draws one line a day and one cell a column: a bar of four signs for a whole allowance, a
/// `+` beside it when more was eaten, and the percent. As many columns as fit in `width`
/// stand side by side, the others in blocks below. Plain text without colour; a line ends
/// without spaces.
pub(crate) fn plot(columns: &[PlotColumn], days: &[PlotDay], width: usize) -> String {
    let fitting = (width.saturating_sub(DAY) / (CELL + 1)).max(1);
    let mut text = String::new();
    for (block, names) in columns.chunks(fitting).enumerate() {
        if block > 0 {
            text.push('\n');
        }
        heading(&mut text, names);
        let mut month = None;
        for day in days {
            if month != Some(day.date.first_of_month()) {
                month = Some(day.date.first_of_month());
                let _ = writeln!(text, "{}", day.date.strftime("%B %Y"));
            }
            line(&mut text, names, day, block * fitting);
        }
    }
    text
}

fn heading(text: &mut String, columns: &[PlotColumn]) {
    let mut line = " ".repeat(DAY);
    for column in columns {
        let name = cut(&column.name, CELL);
        let gap = CELL + 1 - name.width();
        line.push_str(&name);
        line.push_str(&" ".repeat(gap));
    }
    push_line(text, &line);
}

fn line(text: &mut String, columns: &[PlotColumn], day: &PlotDay, first: usize) {
    let mut line = format!("{:<DAY$}", day.date.strftime("%a %e").to_string());
    match &day.shares {
        None => line.push_str("nothing logged"),
        Some(shares) => {
            for (at, column) in columns.iter().enumerate() {
                let share = shares.get(first + at).copied().flatten();
                line.push_str(&cell(share, column.texture));
                line.push(' ');
            }
        }
    }
    push_line(text, &line);
}

fn cell(share: Option<f64>, texture: char) -> String {
    let Some(share) = share.filter(|share| share.is_finite()) else {
        return format!("{:>CELL$}", "?");
    };
    let percent = (share * 100.0).round().max(0.0);
    // Anything eaten shows, and a whole bar is only drawn for a whole allowance.
    let mut filled = (percent / 100.0 * BAR as f64).floor() as usize;
    if percent > 0.0 {
        filled = filled.clamp(1, BAR);
    }
    let bar: String = (0..BAR)
        .map(|at| if at < filled { texture } else { '·' })
        .collect();
    let beyond = if percent > 100.0 { '+' } else { ' ' };
    let number = if percent > 999.0 {
        // Far beyond: how many times the allowance.
        format!("{:.0}x", share.min(99.0))
    } else {
        format!("{percent:.0}")
    };
    format!("{bar}{beyond}{number:>3}")
}

/// The longest beginning that fits; a dot marks the cut.
fn cut(name: &str, width: usize) -> String {
    if name.width() <= width {
        return name.to_owned();
    }
    let mut short = String::new();
    for sign in name.chars() {
        let mut longer = short.clone();
        longer.push(sign);
        if longer.width() + 1 > width {
            break;
        }
        short = longer;
    }
    format!("{}.", short.trim_end())
}

fn push_line(text: &mut String, line: &str) {
    text.push_str(line.trim_end());
    text.push('\n');
}

#[cfg(test)]
mod tests {
    use jiff::ToSpan;
    use jiff::civil::date;

    use super::*;

    fn column(name: &str, texture: char) -> PlotColumn {
        PlotColumn {
            name: name.to_owned(),
            texture,
        }
    }

    fn columns() -> Vec<PlotColumn> {
        [
            ("energy", '#'),
            ("fruits", 'o'),
            ("vegetables", '%'),
            ("grains", '='),
            ("protein foods", 'x'),
            ("dairy", '~'),
            ("oils", ':'),
            ("sodium", '+'),
        ]
        .map(|(name, texture)| column(name, texture))
        .to_vec()
    }

    #[test]
    fn two_weeks_at_80_columns() {
        let start = date(2026, 2, 27);
        let days: Vec<PlotDay> = (0..4)
            .map(|at| PlotDay {
                date: start.checked_add(at.days()).unwrap(),
                shares: (at != 1).then(|| {
                    let shares = [0.0, 0.004, 0.5, 0.999, 1.0, 1.004, 1.37, 12.0];
                    let turned = (0..8).map(|k| Some(shares[(k + at as usize) % 8]));
                    turned.map(|share| share.filter(|_| at < 3)).collect()
                }),
            })
            .collect();
        let text = plot(&columns(), &days, 80);
        insta::assert_snapshot!(text);
        assert!(text.lines().all(|line| line.width() <= 80));
        assert!(text.lines().all(|line| line.trim_end() == line));
        assert!(!text.contains('\u{1b}'));
    }

    #[test]
    fn what_does_not_fit_goes_below() {
        let mut many = columns();
        many.push(column("a very long group name", '*'));
        let days = [PlotDay {
            date: date(2026, 2, 27),
            shares: Some(
                (1..=9)
                    .map(|tenths| Some(f64::from(tenths) / 10.0))
                    .collect(),
            ),
        }];
        let text = plot(&many, &days, 80);
        let blocks: Vec<&str> = text.split("\n\n").collect();
        assert_eq!(blocks.len(), 2);
        assert!(blocks[0].ends_with("80"), "{}", blocks[0]);
        assert!(blocks[1].contains("a very.") && blocks[1].trim_end().ends_with("***·  90"));
        assert!(plot(&many, &days, 1).lines().count() > 20);
    }
}
