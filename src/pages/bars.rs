//! Shares of a day as bars beside the lines of a table, of plain characters. They repeat what
//! the figures say, for the eye alone.

use super::layout::width;

/// Characters that stand for a whole day, at most and at least.
const DAY: (usize, usize) = (12, 6);
/// Characters beyond a day for each of a day, as a part of it: four.
const BEYOND_PART: usize = 3;

/// Tables with a bar at the end of every line: `shares[table][line]`, the heading's line not
/// among them; 1 is a whole day, nothing where no day is set. All bars are of one length, lines
/// `columns` wide at most. The tables as they are where the widest leaves no room, or a row takes
/// more than a line.
pub(super) fn beside(
    tables: &[String],
    shares: &[Vec<Option<f64>>],
    columns: usize,
) -> Vec<String> {
    let lines = |table: &String| table.lines().count();
    let single = tables
        .iter()
        .zip(shares)
        .all(|(t, s)| lines(t) == s.len() + 1);
    let widest = tables.iter().flat_map(|t| t.lines()).map(width).max();
    let room = columns.saturating_sub(widest.unwrap_or_default() + 2);
    // The mark of the day and what lies beyond it.
    let day = (room * BEYOND_PART / (BEYOND_PART + 1)).min(DAY.0);
    if !single || day < DAY.1 {
        return tables.to_vec();
    }
    let beyond = (room - day - 1).min(day / BEYOND_PART + 1);
    let column = widest.unwrap_or_default() + 2;
    let set = |(table, shares): (&String, &Vec<Option<f64>>)| {
        let any = shares.iter().any(Option::is_some);
        let heading = if any {
            format!("{:>day$}|", "a day")
        } else {
            String::new()
        };
        let heading = std::iter::once(heading);
        let bars = shares
            .iter()
            .map(|share| share.map_or_else(String::new, |share| bar(share, day, beyond)));
        let both = table.lines().zip(heading.chain(bars));
        both.map(|(line, bar)| {
            let gap = " ".repeat(column - width(line));
            format!("{line}{gap}{bar}").trim_end().to_owned() + "\n"
        })
        .collect()
    };
    tables.iter().zip(shares).map(set).collect()
}

/// `######    |` for three fifths of a day, `##########|##` for a fifth more than one; `>` at the
/// end where it goes on.
fn bar(share: f64, day: usize, beyond: usize) -> String {
    let filled = (share.max(0.0) * day as f64).round() as usize;
    // Something is never shown as nothing, and what is more than a day never as one.
    let filled = filled
        .max(usize::from(share >= 0.005))
        .max(if share > 1.05 { day + 1 } else { 0 });
    let within = "#".repeat(filled.min(day));
    let over = filled.saturating_sub(day);
    let past = if over > beyond {
        "#".repeat(beyond.saturating_sub(1)) + ">"
    } else {
        "#".repeat(over)
    };
    format!("{within:<day$}|{past}")
}

#[cfg(test)]
mod tests {
    use super::{bar, beside};

    #[test]
    fn a_bar_says_the_share_and_where_a_day_ends() {
        let cases = [
            (0.0, "          |"),
            (0.01, "#         |"),
            (0.6, "######    |"),
            (1.0, "##########|"),
            (1.08, "##########|#"),
            (1.3, "##########|###"),
            (2.0, "##########|###>"),
        ];
        for (share, expected) in cases {
            assert_eq!(bar(share, 10, 4), expected, "{share}");
        }
    }

    #[test]
    fn bars_of_all_tables_are_level_and_within_the_line() {
        let tables = [
            "name  share\nrice  40 %\n",
            "a much longer heading  share\nx  2\n",
        ];
        let tables = tables.map(str::to_owned);
        let set = beside(&tables, &[vec![Some(0.4)], vec![Some(2.0)]], 79);
        let ends: Vec<usize> = set
            .iter()
            .flat_map(|t| t.lines())
            .filter_map(|line| line.find('|'))
            .collect();
        assert_eq!(ends.len(), 4, "{set:?}");
        assert!(ends.iter().all(|at| *at == ends[0]), "{set:?}");
        assert!(set.iter().flat_map(|t| t.lines()).all(|l| l.len() <= 79));
    }

    #[test]
    fn without_room_or_with_wrapped_rows_nothing_changes() {
        let wide = [format!("{}\nx\n", "w".repeat(75))];
        assert_eq!(beside(&wide, &[vec![Some(1.0)]], 79), wide);
        let wrapped = ["a\nb\nc\n".to_owned()];
        assert_eq!(beside(&wrapped, &[vec![Some(1.0)]], 79), wrapped);
    }
}
