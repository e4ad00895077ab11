//! What time it is, and which day it is for a diner.

use jiff::ZonedDateTime;
use jiff::tz::TimeZone;

/// Where the time comes from; tests put their own in its place.
pub(crate) trait Clock {
    /// The moment, in the zone of whoever sits at the machine.
    fn now(&self) -> ZonedDateTime;
}

#[cfg(feature = "cli")]
/// The machine's clock and zone.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct SystemClock;

#[cfg(feature = "cli")]
impl Clock for SystemClock {
    fn now(&self) -> ZonedDateTime {
        ZonedDateTime::now()
    }
}

/// A zone that nobody knows.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("no time zone is named `{name}`; write for example `America/New_York` or `Europe/Berlin`")]
pub(crate) struct ZoneError {
    /// As given.
    pub name: String,
}

/// The moment in a diner's own zone, or in the machine's where none is given.
pub(crate) fn now_for(clock: &dyn Clock, zone: Option<&str>) -> Result<ZonedDateTime, ZoneError> {
    let now = clock.now();
    let Some(name) = zone else { return Ok(now) };
    let zone = TimeZone::get(name).map_err(|_| ZoneError {
        name: name.to_owned(),
    })?;
    Ok(now.with_time_zone(zone))
}

#[cfg(test)]
mod tests {
    use jiff::Timestamp;
    use jiff::civil::{Date, date};

    use super::*;

    struct At(ZonedDateTime);

    impl Clock for At {
        fn now(&self) -> ZonedDateTime {
            self.0.clone()
        }
    }

    fn today_for(clock: &dyn Clock, zone: Option<&str>) -> Result<Date, ZoneError> {
        Ok(now_for(clock, zone)?.date())
    }

    fn day(instant: &str, zone: &str) -> Date {
        let instant: Timestamp = instant.parse().unwrap();
        today_for(&At(instant.to_zoned_datetime(TimeZone::UTC)), Some(zone)).unwrap()
    }

    #[test]
    fn midnight_is_the_diners_own() {
        assert_eq!(
            day("2026-06-01T03:59:59Z", "America/New_York"),
            date(2026, 5, 31)
        );
        assert_eq!(
            day("2026-06-01T04:00:00Z", "America/New_York"),
            date(2026, 6, 1)
        );
        assert_eq!(
            day("2026-05-31T21:59:59Z", "Europe/Berlin"),
            date(2026, 5, 31)
        );
        assert_eq!(
            day("2026-05-31T22:00:00Z", "Europe/Berlin"),
            date(2026, 6, 1)
        );
        // Half and three-quarter hours, and the far sides of the date line.
        assert_eq!(
            day("2026-06-01T18:14:59Z", "Asia/Kathmandu"),
            date(2026, 6, 1)
        );
        assert_eq!(
            day("2026-06-01T18:15:00Z", "Asia/Kathmandu"),
            date(2026, 6, 2)
        );
        assert_eq!(
            day("2026-06-01T10:30:00Z", "Pacific/Kiritimati"),
            date(2026, 6, 2)
        );
        assert_eq!(
            day("2026-06-01T10:30:00Z", "Pacific/Pago_Pago"),
            date(2026, 5, 31)
        );
    }

    #[test]
    fn midnight_moves_with_daylight_saving() {
        // New York, 8 March 2026: the clock goes from 02:00 to 03:00; that day has 23 hours.
        assert_eq!(
            day("2026-03-08T04:59:59Z", "America/New_York"),
            date(2026, 3, 7)
        );
        assert_eq!(
            day("2026-03-08T05:00:00Z", "America/New_York"),
            date(2026, 3, 8)
        );
        assert_eq!(
            day("2026-03-09T03:59:59Z", "America/New_York"),
            date(2026, 3, 8)
        );
        assert_eq!(
            day("2026-03-09T04:00:00Z", "America/New_York"),
            date(2026, 3, 9)
        );
        // Berlin, 25 October 2026: from 03:00 back to 02:00; that day has 25 hours.
        assert_eq!(
            day("2026-10-24T22:00:00Z", "Europe/Berlin"),
            date(2026, 10, 25)
        );
        assert_eq!(
            day("2026-10-25T22:59:59Z", "Europe/Berlin"),
            date(2026, 10, 25)
        );
        assert_eq!(
            day("2026-10-25T23:00:00Z", "Europe/Berlin"),
            date(2026, 10, 26)
        );
        // Santiago, 6 September 2026: midnight itself is skipped, the day starts at 01:00.
        assert_eq!(
            day("2026-09-06T03:59:59Z", "America/Santiago"),
            date(2026, 9, 5)
        );
        assert_eq!(
            day("2026-09-06T04:00:00Z", "America/Santiago"),
            date(2026, 9, 6)
        );
    }

    #[test]
    fn an_unknown_zone_is_said() {
        let clock = At(Timestamp::UNIX_EPOCH.to_zoned_datetime(TimeZone::UTC));
        let error = today_for(&clock, Some("Atlantis/Capital")).unwrap_err();
        assert!(error.to_string().contains("`Atlantis/Capital`"));
        assert_eq!(today_for(&clock, None), Ok(date(1970, 1, 1)));
    }

    #[cfg(feature = "cli")]
    #[test]
    fn the_machine_has_a_clock() {
        assert!(SystemClock.now().date() > date(2020, 1, 1));
    }
}
