//! A picture for a phone: one plate, shares of the day, one sentence. 1080 by 1920.

use super::Style;
use super::figure::{self, EM, PAPER, WIDTH};
use super::lettering::{self, BOLD};
use super::picture::Picture;
use super::sheet::{FONTS, INK, Line, labels, text};
use super::sketch::Short;
use crate::pages::escape;
use std::fmt::Write as _;

/// Width and height in pixels: an upright telephone.
pub(crate) const CARD: (f64, f64) = (1080.0, 1920.0);
const MARGIN: f64 = 60.0;
/// Room that the plate may take at most.
const PLATE_HIGH: f64 = 780.0;
/// White beside it; its words seldom reach it.
const PLATE_MARGIN: f64 = 5.0;
const BAR_HIGH: f64 = 34.0;
/// Labels against those of a page: 11 px where the card is 360 px wide, no larger, so that
/// a word of twelve letters stays whole.
const LABELS: f64 = 1.018;

/// A share of the day on a card.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct CardShare {
    /// Of what: energy, a group or a limit.
    pub name: String,
    /// 1 for a whole day.
    pub share: f64,
    /// The amount and the share in words.
    pub words: String,
}

/// What stands on a card.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Card<'c> {
    /// The dish.
    pub title: &'c str,
    /// Whose day, such as `a day of 2,000 kcal`.
    pub day: &'c str,
    /// The plate as served.
    pub picture: &'c Picture,
    /// Shares of the day, energy first.
    pub shares: Vec<CardShare>,
    /// What to eat.
    pub sentence: &'c str,
    /// What holds for every estimate.
    pub note: &'c str,
}

/// The card as one SVG, complete in itself.
#[must_use]
pub(crate) fn card(card: &Card<'_>) -> String {
    let style = Style {
        text_scale: LABELS,
        ..Style::default()
    };
    let laid = figure::laid(&[card.picture]);
    let figures = figure::figures(&laid, figure::units_per_cm(&laid), &style);
    let mut inner = String::new();
    let mut y = paragraph(&mut inner, card.title, 120.0, (64.0, true), 2);
    let day = format!("One serving against {}. Estimates.", card.day);
    y = paragraph(&mut inner, &day, y + 62.0, (34.0, false), 2);
    let description = figures.first().map_or("", |f| f.description.as_str());
    for figure in &figures {
        let scale = ((CARD.0 - 2.0 * PLATE_MARGIN) / WIDTH).min(PLATE_HIGH / figure.height);
        let x = (CARD.0 - WIDTH * scale) / 2.0;
        let _ = write!(
            inner,
            r#"<g transform="translate({} {}) scale({})">{}"#,
            Short(x),
            Short(y + 50.0),
            Short(scale),
            figure.inner
        );
        labels(&mut inner, figure, card.picture, style.text_scale);
        inner.push_str("</g>");
        y += figure.height.mul_add(scale, 90.0);
    }
    for share in &card.shares {
        y = bar(&mut inner, share, y + 36.0);
    }
    y = paragraph(&mut inner, card.sentence, y + 104.0, (46.0, true), 5);
    paragraph(
        &mut inner,
        card.note,
        (y + 30.0).max(CARD.1 - 110.0),
        (33.0, false),
        2,
    );
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" class="trencher" width="{0}" height="{1}" viewBox="0 0 {0} {1}" role="img" aria-labelledby="card-title" aria-describedby="card-desc" color="{INK}" font-family="{FONTS}"><title id="card-title">{2}</title><desc id="card-desc">{3} {4}</desc><rect class="paper" width="100%" height="100%" fill="{PAPER}"/>{inner}</svg>"#,
        CARD.0,
        CARD.1,
        escape::svg(card.title),
        escape::svg(description),
        escape::svg(card.sentence),
    )
}

/// Words over the width from a first base line down; returns the last base line.
fn paragraph(svg: &mut String, words: &str, y: f64, (size, bold): (f64, bool), most: usize) -> f64 {
    let wide = (CARD.0 - 2.0 * MARGIN) / size / if bold { BOLD } else { 1.0 };
    let lines = lettering::lines(words, wide, most);
    for (i, line) in lines.iter().enumerate() {
        let y = size.mul_add(1.22 * i as f64, y);
        left(svg, line, y, (size, bold));
    }
    size.mul_add(1.22 * lines.len().saturating_sub(1) as f64, y)
}

fn left(svg: &mut String, words: &str, y: f64, (size, bold): (f64, bool)) {
    let line = Line {
        x: MARGIN,
        y,
        size,
        bold,
        anchor: "start",
        words,
    };
    text(svg, &line);
}

/// A share: its name, its bar with a line at the whole day, its words; returns its lower edge.
fn bar(svg: &mut String, share: &CardShare, y: f64) -> f64 {
    let base = y + EM * 4.0;
    left(svg, &share.name, base, (40.0, true));
    let words = Line {
        x: CARD.0 - MARGIN,
        y: base,
        size: 33.0,
        bold: false,
        anchor: "end",
        words: &share.words,
    };
    text(svg, &words);
    // The day is at three quarters of the width, so that what lies beyond can be seen.
    let day = (CARD.0 - 2.0 * MARGIN) * 0.75;
    let long = (share.share.max(0.0) * day).min(CARD.0 - 2.0 * MARGIN);
    let top = base + 14.0;
    let _ = write!(
        svg,
        r#"<rect x="{MARGIN}" y="{0}" width="{1}" height="{BAR_HIGH}" fill="none" stroke="currentColor" stroke-width="1.5"/><rect x="{MARGIN}" y="{0}" width="{2}" height="{BAR_HIGH}" fill="currentColor" fill-opacity=".3" stroke="currentColor" stroke-width="2"/><path d="M{3} {4}v{5}" stroke="currentColor" stroke-width="5"/>"#,
        Short(top),
        Short(day),
        Short(long),
        Short(MARGIN + day),
        Short(top - 6.0),
        Short(BAR_HIGH + 12.0),
    );
    top + BAR_HIGH
}
