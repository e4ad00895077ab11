//! The report as a page, in the style of the handouts: one file, no network, no scripts.

use super::{ListedItem, MenuReport, Plot, ReportItem, not_counted, part};
use crate::pages::drawing::{Figure, Picture, Style, figures};
use crate::pages::handout::{Options, PageError, rendered};
use crate::pages::layout::visible;
use crate::pages::number::thousands;
use minijinja::{Value, context};

/// Items drawn from each end of the menu; the others are listed below them.
pub(crate) const DRAWN: usize = 4;

/// The report as a page.
pub(crate) fn html(report: &MenuReport) -> Result<String, PageError> {
    let more = report.items.saturating_sub(report.listed.len() as u64);
    // All plates of the page at one scale.
    let pictures = report.best.iter().chain(&report.beyond);
    let pictures: Vec<&Picture> = pictures.filter_map(|i| i.picture.as_ref()).collect();
    let style = Style {
        id_prefix: "menu".to_owned(),
        ..Style::default()
    };
    let mut drawn = figures(&pictures, &style).into_iter();
    let mut named = |list: &[ReportItem]| -> Vec<Value> {
        let mut figure = |item: &ReportItem| item.picture.as_ref().and_then(|_| drawn.next());
        list.iter().map(|i| (i, figure(i))).map(shown).collect()
    };
    let (best, beyond) = (named(&report.best), named(&report.beyond));
    let content = context! {
        report => context! {
            best,
            beyond,
            plots => report.plots.iter().filter(|p| !p.bars.is_empty()).map(plotted).collect::<Vec<_>>(),
            printed_column => report.listed.iter().any(|item| item.printed.is_some()),
            listed => report.listed.iter().map(listed).collect::<Vec<_>>(),
            listed_more => (more > 0).then(|| thousands(more as f64)),
            cautions => report.cautions.clone(),
            ..in_words(report)
        },
    };
    rendered("menu.html", &report.title, &Options::default(), content)
}

/// What is said of the menu as a whole.
fn in_words(report: &MenuReport) -> Value {
    let many = |n: u64| thousands(n as f64);
    let over = report.over.iter().map(|(label, count)| {
        context! { name => label, words => format!("{} ({})", many(*count), part(*count, report.items)) }
    });
    let unread_rows = report.unread_rows.iter().map(
        |(line, reason)| context! { name => format!("line {line}"), words => visible(reason) },
    );
    context! {
        items => many(report.items),
        chosen => report.chosen.as_ref().map(|c| format!("items {c}")),
        against => report.against.as_str(),
        most_over => report.over.first().map(|(label, n)| format!("{label}, {} of {}", many(*n), many(report.items))),
        printed => report.printed.map(|[below, within, above]| {
            format!("in the range {}, below {}, above {}", many(within), many(below), many(above))
        }),
        unread => (report.unread + report.incomplete > 0).then(|| not_counted(report)),
        best_title => visible(&report.best_title),
        over => over.collect::<Vec<_>>(),
        unread_rows => unread_rows.collect::<Vec<_>>(),
    }
}

fn shown((item, figure): (&ReportItem, Option<Figure>)) -> Value {
    let groups = item.picture.iter().flat_map(|p| &p.strip);
    let groups: Vec<String> = groups
        .map(|group| format!("{} {}", group.texture.name(), group.amount))
        .collect();
    context! {
        name => visible(&item.name),
        words => item.words.as_str(),
        more => item.more.as_deref(),
        groups => groups.join(", "),
        narrow => figure.as_ref().map(|f| format!("{:.4}", f.narrow_aspect)),
        up => figure.as_ref().map(|f| format!("{:.2}%", -f.narrow_top)),
        svg => figure.map(|f| Value::from_safe_string(f.svg)),
    }
}

fn listed(item: &ListedItem) -> Value {
    context! {
        name => visible(&item.name),
        not_counted => visible(&item.not_counted),
        energy => item.energy.as_str(),
        protein => item.protein.as_str(),
        printed => item.printed.as_deref(),
        most => item.most.as_str(),
        eat => item.eat.as_str(),
        sure => item.sure.as_str(),
    }
}

fn plotted(plot: &Plot) -> Value {
    let most = plot.bars.iter().map(|(_, c)| *c).max().unwrap_or(0).max(1);
    let bars: Vec<Value> = plot
        .bars
        .iter()
        .map(|(range, count)| {
            // Room for the figure beside the longest bar.
            let percent = (count * 80).div_ceil(most);
            context! { range, percent, count => thousands(*count as f64) }
        })
        .collect();
    context! { title => plot.title.as_str(), middle => plot.middle.as_str(), bars }
}
