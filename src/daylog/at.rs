//! When something was eaten or is to be eaten, as people say it.

use jiff::civil::{Date, DateTime, Time, Weekday};
use jiff::fmt::temporal::{DateTimeParser, Pieces};
use jiff::tz::{Disambiguation, OffsetConflict};
use jiff::{SignedDuration, Span, Timestamp, ZonedDateTime};

/// Why a time cannot be taken.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub(crate) enum AtError {
    /// Not one of the forms.
    #[error(
        "`{text}` is no time known here; write for example `12:30`, `7:15 pm`, `yesterday 19:00`, `last friday 20:00`, `tomorrow 8:00`, `2 hours ago` or `2026-03-01 12:30`"
    )]
    Unread {
        /// As written.
        text: String,
    },
    /// A day without a time.
    #[error("`{text}` names a day but no time; write for example `{text} 12:30`")]
    NoTime {
        /// As written.
        text: String,
    },
    /// The clock went forward over it.
    #[error(
        "{wanted} did not occur in {zone}: the clock went forward over it; give the time after"
    )]
    Skipped {
        /// The local time asked.
        wanted: DateTime,
        /// The zone.
        zone: String,
    },
    /// Further ahead than what is eaten can be.
    #[error(
        "`{text}` is {at}, more than a day ahead; check the date, or plan it with `trencher day plan`"
    )]
    Ahead {
        /// As written.
        text: String,
        /// What it was taken for.
        at: DateTime,
    },
    /// Further ahead than anybody plans a meal.
    #[error("`{text}` is {at}, more than a year ahead; check the date")]
    FarAhead {
        /// As written.
        text: String,
        /// What it was taken for.
        at: DateTime,
    },
    /// A plan for what has passed.
    #[error(
        "`{text}` is {at}, which has passed; plan what is to come, or log it with `trencher day eat`"
    )]
    Passed {
        /// As written.
        text: String,
        /// What it was taken for.
        at: DateTime,
    },
}

/// What a time is read for: it decides which way a bare weekday looks, and how far ahead it
/// may lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Sense {
    /// Something eaten: `friday` is the last one; at most a day ahead.
    Eaten,
    /// Something planned: `friday` is the next one; not passed, at most a year ahead.
    Planned,
}

/// Reads a time, held against `now` in the diner's zone.
///
/// A bare time is today's; `yesterday 19:00`, `today 8:00`, `tomorrow 8:00`, a weekday (never
/// today: the last or the next one by `sense`, or as `last` or `next` before it says) or a date
/// with a time; `2 hours ago`, `in 2 hours`; ISO 8601 with an offset (turned to the diner's
/// zone) or with a zone in brackets (kept: the diner was there). A time that occurs twice when
/// the clock goes back is the first of the two. Fails on other forms, on a day without a time,
/// on a time the clock skipped, and outside what `sense` takes.
pub(crate) fn parse_at(
    text: &str,
    now: &ZonedDateTime,
    sense: Sense,
) -> Result<ZonedDateTime, AtError> {
    parse_at_on(text, now.date(), now, sense)
}

/// The same, a bare time being that of another day.
pub(crate) fn parse_at_on(
    text: &str,
    day: Date,
    now: &ZonedDateTime,
    sense: Sense,
) -> Result<ZonedDateTime, AtError> {
    let trimmed = text.trim();
    let at = read(trimmed, day, now, sense)?;
    let ahead = at.timestamp().duration_since(now.timestamp());
    let days = |days: i64| SignedDuration::from_hours(24 * days);
    let (text, datetime) = (trimmed.to_owned(), at.datetime());
    match sense {
        Sense::Eaten if ahead > days(1) => Err(AtError::Ahead { text, at: datetime }),
        Sense::Planned if ahead > days(366) => Err(AtError::FarAhead { text, at: datetime }),
        // The minute that it is has not passed.
        Sense::Planned if ahead < SignedDuration::from_secs(-60) => {
            Err(AtError::Passed { text, at: datetime })
        }
        _ => Ok(at),
    }
}

/// A day as people say it: a date, `today`, `yesterday`, `tomorrow`, a weekday (the last one,
/// or as `last` or `next` before it says). Nothing for other words, and beyond the calendar.
pub(crate) fn parse_day(text: &str, now: &ZonedDateTime) -> Option<Date> {
    let lower = text.trim().to_lowercase();
    match day_word(&lower, now, Sense::Eaten) {
        Some((date, "")) => date,
        Some(_) => None,
        None => lower.parse().ok(),
    }
}

fn read(
    text: &str,
    day: Date,
    now: &ZonedDateTime,
    sense: Sense,
) -> Result<ZonedDateTime, AtError> {
    let unread = || AtError::Unread {
        text: text.to_owned(),
    };
    let lower = text.to_lowercase();
    if lower == "now" {
        return Ok(now.clone());
    }
    if lower.ends_with("ago") {
        let span: Span = lower.parse().map_err(|_| unread())?;
        return now.checked_add(span).map_err(|_| unread());
    }
    if let Some(span) = lower.strip_prefix("in ") {
        let span: Span = span.trim().parse().map_err(|_| unread())?;
        let ahead = now.checked_add(span).map_err(|_| unread())?;
        return (ahead >= *now).then_some(ahead).ok_or_else(unread);
    }
    if let Some(time) = clock_time(&lower) {
        return place(day, time, now);
    }
    if let Some((date, rest)) = day_word(&lower, now, sense) {
        let date = date.ok_or_else(unread)?;
        if rest.is_empty() {
            return Err(AtError::NoTime {
                text: text.to_owned(),
            });
        }
        return place(date, clock_time(rest).ok_or_else(unread)?, now);
    }
    // `2026-03-01 8:00`, `2026-03-01 at 7 pm`.
    let (first, rest) = first_word(&lower);
    let rest = rest.trim_start_matches("at ").trim();
    if let (Ok(date), Some(time)) = (first.parse::<Date>(), clock_time(rest)) {
        return place(date, time, now);
    }
    iso(text, now)
}

fn iso(text: &str, now: &ZonedDateTime) -> Result<ZonedDateTime, AtError> {
    let unread = || AtError::Unread {
        text: text.to_owned(),
    };
    // The rules of a named zone may have changed since the text was written; the offset
    // beside it says which instant was meant.
    let parser = DateTimeParser::new().offset_conflict(OffsetConflict::AlwaysOffset);
    if let Ok(zoned) = parser.parse_zoned_datetime(text) {
        return Ok(zoned);
    }
    if let Ok(instant) = text.parse::<Timestamp>() {
        return Ok(instant.to_zoned_datetime(now.time_zone().clone()));
    }
    let pieces = Pieces::parse(text).map_err(|_| unread())?;
    if pieces.offset().is_some() || pieces.time_zone_annotation().is_some() {
        return Err(unread());
    }
    match pieces.time() {
        Some(time) => place(pieces.date(), time, now),
        None => Err(AtError::NoTime {
            text: text.to_owned(),
        }),
    }
}

/// A local time in the diner's zone.
fn place(date: Date, time: Time, now: &ZonedDateTime) -> Result<ZonedDateTime, AtError> {
    let wanted = date.to_datetime(time);
    let zone = now.time_zone();
    let skipped = || AtError::Skipped {
        wanted,
        zone: zone.iana_name().unwrap_or("this zone").to_owned(),
    };
    let ambiguous = zone.to_ambiguous_zoned_datetime(wanted);
    if matches!(ambiguous.offset(), jiff::tz::AmbiguousOffset::Gap { .. }) {
        return Err(skipped());
    }
    ambiguous
        .disambiguate(Disambiguation::Earlier)
        .map_err(|_| skipped())
}

/// The day that the first words name, and the rest; the day is missing where it lies beyond
/// the calendar.
fn day_word<'t>(
    lower: &'t str,
    now: &ZonedDateTime,
    sense: Sense,
) -> Option<(Option<Date>, &'t str)> {
    let today = now.date();
    let (word, rest) = first_word(lower);
    let beside = |rest: &'t str| rest.trim_start_matches("at ").trim();
    let step = match word {
        "next" => 1,
        "last" => -1,
        "today" => return Some((Some(today), beside(rest))),
        "yesterday" => return Some((today.yesterday().ok(), beside(rest))),
        "tomorrow" => return Some((today.tomorrow().ok(), beside(rest))),
        name => {
            let step = match sense {
                Sense::Eaten => -1,
                Sense::Planned => 1,
            };
            return Some((today.nth_weekday(step, weekday(name)?).ok(), beside(rest)));
        }
    };
    let (name, rest) = first_word(rest);
    Some((today.nth_weekday(step, weekday(name)?).ok(), beside(rest)))
}

/// The first word without a comma behind it, and what follows.
fn first_word(text: &str) -> (&str, &str) {
    let (word, rest) = text.split_once(char::is_whitespace).unwrap_or((text, ""));
    (word.trim_end_matches(','), rest.trim())
}

fn weekday(name: &str) -> Option<Weekday> {
    const NAMES: [(&str, Weekday); 7] = [
        ("monday", Weekday::Monday),
        ("tuesday", Weekday::Tuesday),
        ("wednesday", Weekday::Wednesday),
        ("thursday", Weekday::Thursday),
        ("friday", Weekday::Friday),
        ("saturday", Weekday::Saturday),
        ("sunday", Weekday::Sunday),
    ];
    let (_, day) = NAMES
        .iter()
        .find(|(full, _)| name.len() >= 3 && full.starts_with(name))?;
    Some(*day)
}

/// `12:30`, `12:30:15`, `7 pm`, `7:15pm`, `noon`.
fn clock_time(lower: &str) -> Option<Time> {
    if lower == "noon" {
        return Time::midnight().with().hour(12).build().ok();
    }
    let (digits, half) = match lower.strip_suffix('m').map(str::trim_end) {
        Some(rest) => {
            let half = rest.chars().next_back()?;
            let digits = rest.strip_suffix(['a', 'p'])?;
            (digits.trim_end(), Some(half))
        }
        None => (lower, None),
    };
    let parts: Vec<&str> = digits.split(':').collect();
    if parts.len() > 3 || (parts.len() == 1 && half.is_none()) {
        return None;
    }
    let number = |text: &str| {
        let plain = (1..=2).contains(&text.len()) && text.bytes().all(|b| b.is_ascii_digit());
        plain.then(|| text.parse::<i8>().ok()).flatten()
    };
    let hour = on_the_day(number(parts[0])?, half)?;
    let minute = parts.get(1).map_or(Some(0), |text| number(text))?;
    let second = parts.get(2).map_or(Some(0), |text| number(text))?;
    Time::new(hour, minute, second, 0).ok()
}

/// The hour of the day from one on a dial of twelve, or of twenty-four.
fn on_the_day(hour: i8, half: Option<char>) -> Option<i8> {
    match half {
        None => Some(hour),
        Some(_) if !(1..=12).contains(&hour) => None,
        Some('a') => Some(hour % 12),
        Some(_) => Some(hour % 12 + 12),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A Sunday, half past noon.
    fn read(text: &str) -> Result<String, AtError> {
        read_at(text, "2026-03-29T12:30:00+02:00[Europe/Berlin]")
    }

    fn read_at(text: &str, now: &str) -> Result<String, AtError> {
        let now: ZonedDateTime = now.parse().unwrap();
        parse_at(text, &now, Sense::Eaten).map(|zoned| zoned.to_string())
    }

    fn now() -> ZonedDateTime {
        "2026-03-29T12:30:00+02:00[Europe/Berlin]".parse().unwrap()
    }

    fn planned(text: &str) -> Result<String, AtError> {
        parse_at(text, &now(), Sense::Planned).map(|at| at.datetime().to_string())
    }

    #[track_caller]
    fn is(text: &str, expected: &str) {
        assert_eq!(read(text).as_deref(), Ok(expected), "`{text}`");
    }

    #[test]
    fn times_as_people_say_them() {
        is("now", "2026-03-29T12:30:00+02:00[Europe/Berlin]");
        is("08:15", "2026-03-29T08:15:00+02:00[Europe/Berlin]");
        is("8:15:30", "2026-03-29T08:15:30+02:00[Europe/Berlin]");
        is("7 pm", "2026-03-29T19:00:00+02:00[Europe/Berlin]");
        is("7:05PM", "2026-03-29T19:05:00+02:00[Europe/Berlin]");
        is("12am", "2026-03-29T00:00:00+01:00[Europe/Berlin]");
        is("12 pm", "2026-03-29T12:00:00+02:00[Europe/Berlin]");
        is("noon", "2026-03-29T12:00:00+02:00[Europe/Berlin]");
        is("today 9:00", "2026-03-29T09:00:00+02:00[Europe/Berlin]");
        // Yesterday had another offset.
        is(
            "yesterday 19:00",
            "2026-03-28T19:00:00+01:00[Europe/Berlin]",
        );
        is(
            "Yesterday at 7pm",
            "2026-03-28T19:00:00+01:00[Europe/Berlin]",
        );
        is("sat 8:00", "2026-03-28T08:00:00+01:00[Europe/Berlin]");
        is("Sunday 8:00", "2026-03-22T08:00:00+01:00[Europe/Berlin]");
        is("2 hours ago", "2026-03-29T10:30:00+02:00[Europe/Berlin]");
        is("90 minutes ago", "2026-03-29T11:00:00+02:00[Europe/Berlin]");
    }

    /// 29 March 2026 is a Sunday.
    #[test]
    fn days_before_and_to_come() {
        is(
            "last Friday 20:00",
            "2026-03-27T20:00:00+01:00[Europe/Berlin]",
        );
        is(
            "last sunday, 8:00",
            "2026-03-22T08:00:00+01:00[Europe/Berlin]",
        );
        is("tomorrow 8:00", "2026-03-30T08:00:00+02:00[Europe/Berlin]");
        for text in ["next Friday 20:00", "tomorrow at 13:00", "in 2 days"] {
            assert!(matches!(read(text), Err(AtError::Ahead { .. })), "{text}");
        }
        let at = |text| planned(text).unwrap();
        assert_eq!(at("tomorrow 19:00"), "2026-03-30T19:00:00");
        assert_eq!(at("Tomorrow at noon"), "2026-03-30T12:00:00");
        assert_eq!(at("next Friday 7 pm"), "2026-04-03T19:00:00");
        // Without a word before it, a weekday of a plan is to come, and never today.
        assert_eq!(at("fri 19:00"), "2026-04-03T19:00:00");
        assert_eq!(at("sunday 19:00"), "2026-04-05T19:00:00");
        assert_eq!(at("in 90 minutes"), "2026-03-29T14:00:00");
        assert_eq!(at("19:00"), "2026-03-29T19:00:00");
        assert_eq!(at("2026-12-24 18:00"), "2026-12-24T18:00:00");
        assert_eq!(at("now"), "2026-03-29T12:30:00");
        for text in [
            "8:00",
            "yesterday 19:00",
            "last friday 20:00",
            "2 hours ago",
        ] {
            assert!(
                matches!(planned(text), Err(AtError::Passed { .. })),
                "{text}"
            );
        }
        assert!(matches!(
            planned("2028-01-01 12:00"),
            Err(AtError::FarAhead { .. })
        ));
        for text in [
            "next",
            "last",
            "next 8:00",
            "next week 8:00",
            "in",
            "in -2 hours",
            "in a bit",
        ] {
            assert!(
                matches!(planned(text), Err(AtError::Unread { .. })),
                "`{text}`: {:?}",
                planned(text)
            );
        }
        assert!(matches!(planned("tomorrow"), Err(AtError::NoTime { .. })));
    }

    #[test]
    fn a_bare_time_of_an_entry_is_of_its_day() {
        let day = "2026-03-20".parse().unwrap();
        let on = |text| {
            parse_at_on(text, day, &now(), Sense::Eaten)
                .unwrap()
                .datetime()
        };
        assert_eq!(on("7:30").to_string(), "2026-03-20T07:30:00");
        assert_eq!(on("yesterday 7:30").to_string(), "2026-03-28T07:30:00");
    }

    #[test]
    fn days_without_a_time() {
        let day = |text| parse_day(text, &now()).map(|date| date.to_string());
        assert_eq!(day("Today").as_deref(), Some("2026-03-29"));
        assert_eq!(day("tomorrow").as_deref(), Some("2026-03-30"));
        assert_eq!(day("friday").as_deref(), Some("2026-03-27"));
        assert_eq!(day("next friday").as_deref(), Some("2026-04-03"));
        assert_eq!(day(" 2026-03-01 ").as_deref(), Some("2026-03-01"));
        for text in ["", "soon", "friday 12:00", "2026-02-30", "next"] {
            assert_eq!(day(text), None, "`{text}`");
        }
    }

    #[test]
    fn dates_and_iso() {
        is(
            "2026-03-01 12:30",
            "2026-03-01T12:30:00+01:00[Europe/Berlin]",
        );
        is(
            "2026-03-01 at 7 pm",
            "2026-03-01T19:00:00+01:00[Europe/Berlin]",
        );
        is(
            "2026-03-01, 8:05",
            "2026-03-01T08:05:00+01:00[Europe/Berlin]",
        );
        is(
            "2026-03-01T12:30",
            "2026-03-01T12:30:00+01:00[Europe/Berlin]",
        );
        is(
            "2026-03-01T12:30:00Z",
            "2026-03-01T13:30:00+01:00[Europe/Berlin]",
        );
        is(
            "2026-03-01T12:30-05:00",
            "2026-03-01T18:30:00+01:00[Europe/Berlin]",
        );
        is(
            "2026-03-01T21:30-05:00[America/New_York]",
            "2026-03-01T21:30:00-05:00[America/New_York]",
        );
    }

    #[test]
    fn across_the_changes_of_the_clock() {
        assert_eq!(
            read("02:30").unwrap_err().to_string(),
            "2026-03-29T02:30:00 did not occur in Europe/Berlin: the clock went forward over it; give the time after"
        );
        is("01:59", "2026-03-29T01:59:00+01:00[Europe/Berlin]");
        is("03:00", "2026-03-29T03:00:00+02:00[Europe/Berlin]");
        is("12 hours ago", "2026-03-28T23:30:00+01:00[Europe/Berlin]");
        let autumn = "2026-10-25T12:00:00+01:00[Europe/Berlin]";
        let twice = read_at("02:30", autumn).unwrap();
        assert_eq!(twice, "2026-10-25T02:30:00+02:00[Europe/Berlin]");
        let second = read_at("2026-10-25T02:30+01:00", autumn).unwrap();
        assert_eq!(second, "2026-10-25T02:30:00+01:00[Europe/Berlin]");
        // Just past midnight, yesterday is yesterday.
        let night = "2026-10-25T00:05:00+02:00[Europe/Berlin]";
        let late = read_at("yesterday 23:50", night).unwrap();
        assert_eq!(late, "2026-10-24T23:50:00+02:00[Europe/Berlin]");
    }

    #[test]
    fn what_is_no_time_is_refused() {
        for text in [
            "",
            "lunch",
            "25:00",
            "12:60",
            "7",
            "13pm",
            "0pm",
            "1:2:3:4",
            "yesterday 99:00",
            "tomorow 8:00",
            "m",
            "pm",
            "-1:00",
            "1:+3",
            "ago",
            "x ago",
            "2026-13-01 12:00",
            "99999999999 years ago",
            "éé:12",
        ] {
            assert!(
                matches!(read(text), Err(AtError::Unread { .. })),
                "`{text}`: {:?}",
                read(text)
            );
        }
        for text in ["yesterday", "monday", "2026-03-01"] {
            assert!(
                matches!(read(text), Err(AtError::NoTime { .. })),
                "`{text}`"
            );
        }
        assert!(matches!(
            read("2026-04-01 12:00"),
            Err(AtError::Ahead { .. })
        ));
        // Something planned for the evening is fine.
        is("23:59", "2026-03-29T23:59:00+02:00[Europe/Berlin]");
    }

    proptest::proptest! {
        #[test]
        fn nothing_written_brings_it_down(text in "\\PC{0,24}") {
            let _ = read(&text);
        }
    }
}
