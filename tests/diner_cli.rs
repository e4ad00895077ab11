//! Diners and their days with the real binary: guard rails, shares, midnight, exports.

mod common_run;

use common_run::{NOON, done_at, refused_at, run_at};
use std::path::Path;
use std::process::Output;

fn run(home: &Path, args: &[&str]) -> Output {
    run_at(home, NOON, args)
}

fn refused(home: &Path, args: &[&str]) -> String {
    refused_at(home, NOON, args)
}

fn done(home: &Path, args: &[&str]) -> String {
    done_at(home, NOON, args)
}

fn json(home: &Path, args: &[&str]) -> serde_json::Value {
    serde_json::from_str(&done(home, args)).unwrap()
}

fn empty() -> tempfile::TempDir {
    tempfile::tempdir().unwrap()
}

const ANA: [&str; 15] = [
    "diner",
    "add",
    "Ana",
    "--sex",
    "female",
    "--born",
    "1991-04-02",
    "--height",
    "5 ft 6 in",
    "--weight",
    "150 lb",
    "--activity",
    "low active",
    "--zone",
    "America/New_York",
];

fn with_ana() -> tempfile::TempDir {
    let folder = empty();
    done(folder.path(), &ANA);
    folder
}

fn narrow(text: &str) {
    for line in text.lines() {
        assert!(line.chars().count() <= 80, "wider than 80 columns: {line}");
    }
}

/// National Academies 2023, women 19 and over, low active:
/// 575.77 - 7.01 x 35 + 6.60 x 167.64 + 12.14 x 68.039 = 2262.8.
#[test]
fn a_need_is_shown_with_its_arithmetic() {
    let folder = with_ana();
    let text = done(folder.path(), &["diner", "show", "--why"]);
    assert!(
        text.starts_with("Ana: 2,260 kcal a day (the estimated need"),
        "{text}"
    );
    assert!(text.contains("7.01 x 35 years"), "{text}");
    assert!(text.contains("= 2,263 kcal a day"), "{text}");
    assert!(text.contains("10.17226/26818"), "{text}");
    narrow(&text);
    let page = json(folder.path(), &["diner", "show", "ana", "--format", "json"]);
    assert_eq!(page["level_kcal"], 2200.0);
    let kcal = page["target"]["target_kcal"].as_f64().unwrap();
    assert!((kcal - 2262.8).abs() < 1.0, "{kcal}");
}

#[test]
fn equations_on_request_and_measures_as_people_write_them() {
    let folder = empty();
    let body = |name: &'static str, equation: &'static str| {
        vec![
            "diner",
            "add",
            name,
            "--sex",
            "male",
            "--age",
            "46",
            "--height",
            "1.80m",
            "--weight",
            "82,5 kg",
            "--activity",
            "active",
            "--equation",
            equation,
            "--why",
        ]
    };
    let new = done(folder.path(), &body("A", "eer-2023"));
    let old = done(folder.path(), &body("B", "2005"));
    let mifflin = done(folder.path(), &body("C", "mifflin"));
    assert!(
        new.contains("EER 2023 for male, 46 years, 180 cm, 82.5 kg"),
        "{new}"
    );
    assert!(old.contains("2005 for"), "{old}");
    assert!(
        mifflin.contains("Mifflin") && mifflin.contains("common practice"),
        "{mifflin}"
    );
}

/// Who gets no figure: the sentence says whom to see, and no page shows a number.
#[test]
fn no_number_where_one_could_do_harm() {
    let folder = empty();
    let home = folder.path();
    let adult = ["--sex", "female", "--age", "30", "--activity", "low"];
    let cases: [(&str, Vec<&str>, &str); 8] = [
        (
            "under 19",
            vec![
                "--sex",
                "male",
                "--age",
                "16",
                "--height",
                "178 cm",
                "--weight",
                "70 kg",
                "--activity",
                "active",
            ],
            "still growing",
        ),
        (
            "under 19 by birth year",
            vec!["--born", "2007", "--energy", "2000"],
            "still growing",
        ),
        (
            "pregnant",
            [
                &adult[..],
                &[
                    "--height",
                    "165 cm",
                    "--weight",
                    "65 kg",
                    "--pregnant-or-nursing",
                ],
            ]
            .concat(),
            "midwife",
        ),
        (
            "very low weight",
            [&adult[..], &["--height", "170 cm", "--weight", "45 kg"]].concat(),
            "Please see a doctor soon",
        ),
        (
            "low weight, to lose",
            [
                &adult[..],
                &["--height", "170 cm", "--weight", "52 kg", "--aim", "lose"],
            ]
            .concat(),
            "no target for losing",
        ),
        (
            "very high weight",
            [&adult[..], &["--height", "165 cm", "--weight", "130 kg"]].concat(),
            "formulas are too far off",
        ),
        (
            "stated under the floor",
            vec!["--energy", "900"],
            "below 1,200 kcal",
        ),
        (
            "stated under the floor of men",
            vec!["--sex", "male", "--energy", "1400"],
            "below 1,500 kcal",
        ),
    ];
    for (name, options, words) in cases {
        let error = refused(home, &[&["diner", "add", name][..], &options].concat());
        assert!(error.contains(words), "{name}: {error}");
        let whom = ["doctor", "dietitian", "clinician"];
        assert!(whom.iter().any(|w| error.contains(w)), "{name}: {error}");
        assert!(error.contains("nobody was added"), "{name}: {error}");
    }
    assert!(done(home, &["diner", "list"]).contains("no diner yet"));
    // The same floor without a diner.
    let error = refused(home, &["audit", "cobb salad", "--energy", "1000"]);
    assert!(error.contains("below 1,200 kcal"), "{error}");
}

/// An aim that would cross the floor stops at it, and no level below it is used.
#[test]
fn no_level_below_the_floor_is_used() {
    let folder = empty();
    let home = folder.path();
    done(
        home,
        &[
            "diner", "add", "M", "--sex", "male", "--age", "70", "--energy", "1500",
        ],
    );
    let page = json(home, &["diner", "show", "M", "--format", "json"]);
    assert_eq!(page["level_kcal"], 1600.0);
    assert!(page["target"]["target_kcal"] == 1500.0);
    let text = done(
        home,
        &[
            "diner",
            "add",
            "W",
            "--sex",
            "female",
            "--age",
            "60",
            "--height",
            "155 cm",
            "--weight",
            "62 kg",
            "--activity",
            "inactive",
            "--aim",
            "lose",
        ],
    );
    let page = json(home, &["diner", "show", "W", "--format", "json"]);
    let kcal = page["target"]["target_kcal"].as_f64().unwrap();
    assert!((1200.0..1600.0).contains(&kcal), "{kcal}");
    assert!(page["level_kcal"].as_f64().unwrap() >= 1200.0);
    assert!(text.contains("dietitian"), "{text}");
}

/// Someone who had a target and is pregnant now keeps the log, without figures.
#[test]
fn a_log_stays_when_no_figure_can_be_given_any_more() {
    let folder = with_ana();
    let home = folder.path();
    done(home, &["day", "eat", "cobb salad"]);
    let now = [&ANA[..], &["--replace", "--pregnant-or-nursing"]].concat();
    let text = done(home, &now);
    assert!(text.contains("midwife") && !text.contains("kcal"), "{text}");
    let shown = done(home, &["day", "show"]);
    assert!(
        shown.contains("Cobb salad") && !shown.contains("kcal a day"),
        "{shown}"
    );
    assert!(!shown.contains("2,26"), "{shown}");
    for args in [
        &["day", "left"][..],
        &["day", "show", "--format", "json"],
        &["diner", "show", "--format", "json"],
    ] {
        let text = done(home, args);
        assert!(text.contains("midwife"), "{args:?}: {text}");
        assert!(
            !text.contains("energy_kcal") && !text.contains("target_kcal"),
            "{args:?}: {text}"
        );
    }
    for args in [
        &["day", "eat", "cobb salad"][..],
        &["day", "history"],
        &["audit", "cobb salad", "--diner", "Ana"],
    ] {
        assert!(refused(home, args).contains("midwife"), "{args:?}");
    }
}

#[test]
fn unknown_names_are_answered_with_the_known() {
    let folder = with_ana();
    let home = folder.path();
    assert!(refused(home, &["audit", "cobb salad", "--diner", "Anna"]).contains("known: Ana"));
    assert!(
        refused(home, &["day", "eat", "cobb salad", "--meal", "tea"])
            .contains("breakfast, lunch, dinner, snack")
    );
    assert!(refused(home, &ANA).contains("--replace"));
    done(home, &["diner", "add", "Bo", "--energy", "2400"]);
    let error = refused(home, &["day", "left"]);
    assert!(
        error.contains("--diner") && error.contains("Ana, Bo"),
        "{error}"
    );
    let bare = refused(home, &["diner", "add", "C", "--sex", "female"]);
    assert!(bare.contains("age, height, weight, activity"), "{bare}");
    let outside = refused(
        home,
        &[
            "diner",
            "add",
            "C",
            "--energy",
            "2000",
            "--zone",
            "Mars/Base",
        ],
    );
    assert!(outside.contains("America/New_York"), "{outside}");
    // Looking for somebody makes no file.
    let nobody = empty();
    let inside = nobody.path().join("data");
    assert!(refused(&inside, &["day", "show"]).contains("diner add"));
    assert!(!inside.exists());
}

#[test]
fn a_coach_sets_standard_portions_pulses_and_meals() {
    let folder = empty();
    let home = folder.path();
    let text = done(
        home,
        &[
            "diner",
            "add",
            "Bo",
            "--energy",
            "2000",
            "--standard",
            "dash",
            "--pulses",
            "protein",
            "--portions",
            "vegetables=5",
            "--meals",
            "lunch 40%, dinner 60%",
        ],
    );
    assert!(
        text.contains("DASH") && text.contains("with protein foods"),
        "{text}"
    );
    assert!(text.contains("set by the coach"), "{text}");
    assert!(text.contains("lunch 40 % (800 kcal)"), "{text}");
    // Five half-cup portions.
    let page = json(
        home,
        &["audit", "cobb salad", "--diner", "Bo", "--format", "json"],
    );
    assert_eq!(page["groups"][1]["allowance"], 5.0);
    assert_eq!(page["today"]["meal"]["name"], "lunch");
    let own = json(
        home,
        &[
            "audit",
            "cobb salad",
            "--energy",
            "2000",
            "--format",
            "json",
        ],
    );
    assert_eq!(own["groups"][1]["allowance"], 2.5);
    assert!(own.get("today").is_none());
    let error = refused(
        home,
        &[
            "diner",
            "add",
            "C",
            "--energy",
            "2000",
            "--portions",
            "cake=2",
        ],
    );
    assert!(error.contains("vegetables"), "{error}");
}

/// The answer at the table: does it fit, and what is left.
#[test]
fn an_audit_for_a_diner_says_first_whether_it_fits() {
    let folder = with_ana();
    let home = folder.path();
    let big = done(
        home,
        &[
            "audit",
            "green curry with chicken and rice",
            "--diner",
            "Ana",
        ],
    );
    let lines: Vec<&str> = big.lines().collect();
    assert!(
        lines[..3]
            .iter()
            .any(|line| line.starts_with("Does not fit lunch (680 kcal): energy 1.5 times")),
        "{big}"
    );
    narrow(&big);
    let small = done(
        home,
        &[
            "audit",
            "--diner",
            "Ana",
            "--item",
            "2 cups romaine",
            "--item",
            "2 oz grilled chicken breast",
        ],
    );
    assert!(
        small
            .lines()
            .nth(1)
            .unwrap()
            .starts_with("Fits lunch (680 kcal): energy"),
        "{small}"
    );
    done(home, &["day", "eat", "spaghetti with meat sauce"]);
    let after = json(
        home,
        &["audit", "cobb salad", "--diner", "Ana", "--format", "json"],
    );
    let left = after["today"]["left"].as_array().unwrap();
    let energy = left.iter().find(|row| row["key"] == "energy").unwrap();
    let dish = energy["dish"].as_f64().unwrap();
    let rest = energy["left"].as_f64().unwrap();
    assert!(rest < 2000.0 && (energy["share"].as_f64().unwrap() - dish / rest).abs() < 1e-9);
    assert_eq!(after["today"]["entries"], 1);
    assert_eq!(after["today"]["meal"]["entries"], 1);
}

#[test]
fn eaten_shares_fluid_and_undo() {
    let folder = with_ana();
    let home = folder.path();
    let whole = json(home, &["day", "eat", "cobb salad", "--format", "json"]);
    let half = json(
        home,
        &[
            "day",
            "eat",
            "cobb salad",
            "--share",
            "1/2",
            "--at",
            "8:15",
            "--format",
            "json",
        ],
    );
    let grams = |page: &serde_json::Value| page[0]["entry"]["grams"]["likely"].as_f64().unwrap();
    assert!((grams(&half) * 2.0 - grams(&whole)).abs() < 1e-6);
    assert_eq!(half[0]["entry"]["meal"], "breakfast");
    let parts = |page: &serde_json::Value| page[0]["entry"]["components"].as_array().unwrap().len();
    assert!(parts(&half) >= 8 && parts(&half) == parts(&whole));
    assert!(
        half[0]["entry"]["catalogue"]
            .as_str()
            .unwrap()
            .contains("FNDDS")
    );
    // Water is free, and fluid.
    let water = json(
        home,
        &[
            "day",
            "eat",
            "--item",
            "12 fl oz water",
            "--item",
            "8 fl oz infused water",
            "--format",
            "json",
        ],
    );
    let entry = &water[0]["entry"];
    assert!(
        (entry["fluid_ml"].as_f64().unwrap() - 20.0 * 29.57).abs() < 12.0,
        "{entry}"
    );
    assert!(
        entry["limits"]["energy"]["amount"]["likely"]
            .as_f64()
            .unwrap()
            < 5.0
    );
    assert!(
        entry["components"]
            .as_array()
            .unwrap()
            .iter()
            .all(|c| c["free"] == true)
    );
    let juice = json(
        home,
        &[
            "day",
            "eat",
            "--item",
            "8 fl oz orange juice",
            "--format",
            "json",
        ],
    );
    let ml = juice[0]["entry"]["fluid_ml"].as_f64().unwrap();
    assert!((200.0..235.0).contains(&ml), "{ml}");
    assert!(juice[0]["entry"]["nutrients"]["sugars_g"].as_f64().unwrap() > 15.0);
    let beer = json(
        home,
        &["day", "eat", "--item", "12 fl oz beer", "--format", "json"],
    );
    let drinks = beer[0]["entry"]["limits"]["alcohol"]["amount"]["likely"]
        .as_f64()
        .unwrap();
    assert!((0.8..1.2).contains(&drinks), "{drinks}");
    let shown = done(home, &["day", "show"]);
    assert!(shown.contains("of about 2,200 ml"), "{shown}");
    narrow(&shown);
    assert!(done(home, &["day", "undo"]).contains("12 fl oz beer"));
    let page = json(home, &["day", "show", "--format", "json"]);
    assert_eq!(page["entries"].as_array().unwrap().len(), 4);
    for share in ["0", "-1", "1/0", "lots"] {
        refused(
            home,
            &["day", "eat", "cobb salad", &format!("--share={share}")],
        );
    }
}

/// As `fit` would serve it: within the meal, its smaller amounts in the log.
#[test]
fn what_fits_the_meal_is_logged_by_weight() {
    let folder = with_ana();
    let home = folder.path();
    let eat = ["day", "eat", "pad thai with shrimp", "--format", "json"];
    let fitted = json(home, &[&eat[..], &["--fit"]].concat());
    let entry = &fitted[0]["entry"];
    assert_eq!(entry["dish"], "Pad thai with shrimp, right-sized");
    let energy = |page: &serde_json::Value| {
        page[0]["entry"]["limits"]["energy"]["amount"]["likely"]
            .as_f64()
            .unwrap()
    };
    assert!(
        (200.0..=680.0).contains(&energy(&fitted)),
        "{}",
        energy(&fitted)
    );
    // Only the rest of lunch is left for another.
    let again = json(home, &[&eat[..], &["--fit"]].concat());
    let both = energy(&fitted) + energy(&again);
    assert!(both <= 685.0, "{both}");
    let whole = json(home, &[&eat[..], &["--meal", "dinner"]].concat());
    assert!(energy(&whole) > 1.2 * energy(&fitted));
    refused(home, &["day", "eat", "cobb salad", "beef pho", "--fit"]);
    let page = json(home, &["day", "show", "--format", "json"]);
    assert_eq!(page["entries"].as_array().unwrap().len(), 3);
}

/// What cannot be counted is listed, and the exit code says so; nothing at all is refused.
#[test]
fn what_is_not_counted_is_said() {
    let folder = with_ana();
    let home = folder.path();
    let output = run(
        home,
        &[
            "day",
            "eat",
            "--item",
            "2 cups romaine",
            "--item",
            "3 cups zzyzx",
        ],
    );
    assert_eq!(output.status.code(), Some(1));
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.contains("not counted: 3 cups zzyzx"), "{text}");
    let error = refused(home, &["day", "eat", "--item", "3 cups zzyzx"]);
    assert!(error.contains("nothing was logged"), "{error}");
    let page = json(home, &["day", "show", "--format", "json"]);
    assert_eq!(page["entries"].as_array().unwrap().len(), 1);
}

/// Local date, time and offset of an apple eaten at a moment.
fn eaten_on(home: &Path, now: &str, args: &[&str]) -> String {
    let args = [
        &["day", "eat", "--item", "1 apple", "--format", "json"][..],
        args,
    ]
    .concat();
    let page: serde_json::Value = serde_json::from_str(&done_at(home, now, &args)).unwrap();
    let at = &page[0]["entry"]["at"];
    let text = |key: &str| at[key].as_str().unwrap().to_owned();
    format!(
        "{} {} {}",
        text("date"),
        text("time"),
        at["utc_offset_seconds"]
    )
}

/// Germany 2026: on 29 March the clock goes from 2 to 3, on 25 October from 3 back to 2.
/// Midnight is the diner's own, wherever the machine is.
#[test]
fn today_is_the_diners_own_date_also_when_the_clock_changes() {
    let folder = empty();
    let home = folder.path();
    done(
        home,
        &[
            "diner",
            "add",
            "Uta",
            "--energy",
            "2000",
            "--zone",
            "Europe/Berlin",
        ],
    );
    let eaten_on = |now: &str, args: &[&str]| eaten_on(home, now, args);
    // A machine in New York, shortly before and at the diner's midnight.
    assert_eq!(
        eaten_on("2026-03-28T18:59:59-04:00[America/New_York]", &[]),
        "2026-03-28 23:59:59 3600"
    );
    assert_eq!(
        eaten_on("2026-03-28T19:00:00-04:00[America/New_York]", &[]),
        "2026-03-29 00:00:00 3600"
    );
    // The spring day of 23 hours.
    assert_eq!(
        eaten_on("2026-03-29T00:59:59Z[UTC]", &[]),
        "2026-03-29 01:59:59 3600"
    );
    assert_eq!(
        eaten_on("2026-03-29T01:00:00Z[UTC]", &[]),
        "2026-03-29 03:00:00 7200"
    );
    assert_eq!(
        eaten_on("2026-03-29T21:59:59Z[UTC]", &[]),
        "2026-03-29 23:59:59 7200"
    );
    assert_eq!(
        eaten_on("2026-03-29T22:00:00Z[UTC]", &[]),
        "2026-03-30 00:00:00 7200"
    );
    assert_eq!(
        eaten_on("2026-03-30T06:00:00Z[UTC]", &["--at", "yesterday 1:30"]),
        "2026-03-29 01:30:00 3600"
    );
    let skipped = run_at(
        home,
        "2026-03-29T10:00:00Z[UTC]",
        &["day", "eat", "--item", "1 apple", "--at", "2:30"],
    );
    assert_eq!(skipped.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&skipped.stderr).contains("the clock went forward"));
    // The autumn day of 25 hours; the hour that comes twice.
    assert_eq!(
        eaten_on("2026-10-25T00:30:00Z[UTC]", &[]),
        "2026-10-25 02:30:00 7200"
    );
    assert_eq!(
        eaten_on("2026-10-25T01:30:00Z[UTC]", &[]),
        "2026-10-25 02:30:00 3600"
    );
    assert_eq!(
        eaten_on("2026-10-25T22:59:59Z[UTC]", &[]),
        "2026-10-25 23:59:59 3600"
    );
    assert_eq!(
        eaten_on("2026-10-25T23:00:00Z[UTC]", &[]),
        "2026-10-26 00:00:00 3600"
    );
    let entries = |date: &str| {
        let args = ["day", "show", "--date", date, "--format", "json"];
        let text = done_at(home, "2026-10-26T10:00:00Z[UTC]", &args);
        let page: serde_json::Value = serde_json::from_str(&text).unwrap();
        page["entries"].as_array().unwrap().len()
    };
    let days = [
        "2026-03-28",
        "2026-03-29",
        "2026-03-30",
        "2026-10-25",
        "yesterday",
        "today",
    ];
    assert_eq!(days.map(entries), [1, 5, 1, 3, 3, 1]);
    // In time order, also within the hour that came twice.
    let text = done_at(
        home,
        "2026-10-26T10:00:00Z[UTC]",
        &["day", "history", "--weeks", "1"],
    );
    assert!(text.contains("on 2 of 7 days"), "{text}");
    narrow(&text);
}

#[test]
fn everything_comes_back_from_an_export_and_nothing_stays_after_removal() {
    let folder = with_ana();
    let home = folder.path();
    done(home, &["diner", "add", "Bo", "--energy", "2400"]);
    done(
        home,
        &[
            "day",
            "eat",
            "cobb salad",
            "--diner",
            "Ana",
            "--share",
            "1/3",
        ],
    );
    done(home, &["day", "eat", "beef pho", "--diner", "Bo"]);
    done(home, &["day", "eat", "--item", "1 apple", "--diner", "Ana"]);
    done(home, &["day", "undo", "--diner", "Ana"]);
    let all = done(home, &["day", "export"]);
    let table = done(home, &["day", "export", "--format", "csv"]);
    let other = empty();
    let files = empty();
    let (as_json, as_csv) = (files.path().join("all.json"), files.path().join("all.csv"));
    std::fs::write(&as_json, &all).unwrap();
    std::fs::write(&as_csv, &table).unwrap();
    let name = |path: &Path| path.to_str().unwrap().to_owned();
    done(other.path(), &["day", "import", &name(&as_json)]);
    assert_eq!(done(other.path(), &["day", "export"]), all);
    assert_eq!(
        done(other.path(), &["day", "export", "--format", "csv"]),
        table
    );
    // Once more changes nothing, from either form.
    for path in [&as_json, &as_csv] {
        let said = done(other.path(), &["day", "import", &name(path)]);
        assert!(said.contains("here already: 3 entries"), "{said}");
    }
    assert_eq!(done(other.path(), &["day", "export"]), all);
    // One person's own.
    let own = json(home, &["diner", "export", "ana"]);
    assert_eq!(own["diners"].as_array().unwrap().len(), 1);
    assert_eq!(own["entries"].as_array().unwrap().len(), 2);
    assert!(own["diners"][0]["weight_kg"].as_f64().unwrap() > 68.0);
    // Removed: nobody was asked, so only with --yes.
    assert!(refused(home, &["diner", "remove", "Ana"]).contains("--yes"));
    assert!(done(home, &["diner", "remove", "ana", "--yes"]).contains("2 entries went with them"));
    let bytes = std::fs::read(home.join("daylog.sqlite")).unwrap();
    let holds = |words: &str| bytes.windows(words.len()).any(|w| w == words.as_bytes());
    assert!(!holds("Ana") && !holds("Cobb salad") && !holds("1991"));
    assert!(holds("Beef pho"));
    assert_eq!(
        json(home, &["day", "export"])["entries"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
}

#[cfg(unix)]
#[test]
fn the_file_is_its_owners_alone_and_not_in_the_working_folder() {
    use std::os::unix::fs::PermissionsExt;
    let folder = with_ana();
    let file = folder.path().join("daylog.sqlite");
    let mode = std::fs::metadata(file).unwrap().permissions().mode();
    assert_eq!(mode & 0o777, 0o600);
    let output = run(Path::new("."), &["diner", "list"]);
    assert_eq!(output.status.code(), Some(3));
    assert!(String::from_utf8_lossy(&output.stderr).contains("give a full path"));
}

/// National Academies 2023, women 19 and over, low active, at 82 kg:
/// 575.77 - 7.01 x 35 + 6.60 x 167.64 + 12.14 x 82 = 2432.3.
#[test]
fn one_detail_is_changed_and_all_else_stays() {
    let folder = with_ana();
    let home = folder.path();
    done(home, &["day", "eat", "cobb salad"]);
    let export = |home: &Path| json(home, &["diner", "export", "Ana"]);
    let before = export(home);
    let text = done(home, &["diner", "set", "ana", "--weight", "82 kg"]);
    assert!(text.starts_with("Changed for Ana: weight\n"), "{text}");
    assert!(
        text.contains("Energy: 2,260 kcal a day before, 2,430 kcal a day now"),
        "{text}"
    );
    assert!(
        text.contains("Ana: 2,430 kcal a day (the estimated need"),
        "{text}"
    );
    narrow(&text);
    let after = export(home);
    assert_eq!(before["entries"], after["entries"]);
    let mut expected = before["diners"][0].clone();
    expected["weight_kg"] = serde_json::json!(82.0);
    assert_eq!(after["diners"][0], expected);
    // A stated energy, what it does to later changes, and the way back.
    done(home, &["diner", "set", "Ana", "--energy", "1900"]);
    let text = done(
        home,
        &[
            "diner",
            "set",
            "Ana",
            "--weight",
            "80 kg",
            "--activity",
            "active",
        ],
    );
    assert!(
        text.starts_with("Changed for Ana: weight, activity\n"),
        "{text}"
    );
    assert!(text.contains("1,900 kcal a day, as before"), "{text}");
    assert!(text.contains("--estimated-energy"), "{text}");
    let text = done(home, &["diner", "set", "Ana", "--estimated-energy"]);
    assert!(text.contains("1,900 kcal a day before"), "{text}");
    // Portions put and taken back, a name, and a page for programs.
    done(
        home,
        &[
            "diner",
            "set",
            "Ana",
            "--portions",
            "vegetables=5",
            "--portions",
            "dairy=2",
        ],
    );
    done(
        home,
        &[
            "diner",
            "set",
            "Ana",
            "--portions",
            "dairy=usual",
            "--rename",
            "Anna",
        ],
    );
    let anna = json(home, &["diner", "export", "Anna"]);
    assert_eq!(
        anna["diners"][0]["group_portions"].to_string(),
        "{\"vegetables\":5.0}"
    );
    assert_eq!(anna["entries"].as_array().map(Vec::len), Some(1));
    let page = json(
        home,
        &["diner", "set", "Anna", "--aim", "lose", "--format", "json"],
    );
    assert!(
        page["target"]["target_kcal"].as_f64()
            < page["target"]["need"]["kcal"].as_f64().or(Some(1e9))
    );
}

#[test]
fn changes_keep_the_guard_rails() {
    let folder = with_ana();
    let home = folder.path();
    let export = || done(home, &["diner", "export", "Ana"]);
    let before = export();
    for (args, words) in [
        (&["--energy", "900"][..], "kcal"),
        (&["--weight", "1 kg"], "kg"),
        (&["--age", "12"], "19"),
        (&["--standard", "nonesuch"], "nonesuch"),
        (&["--portions", "vegetables=900"], "portions"),
        (&["--pregnant-or-nursing", "maybe"], "yes or no"),
        (&["--zone", "Atlantis/Capital"], "Atlantis"),
        (&[], "nothing to change"),
    ] {
        let all = [&["diner", "set", "Ana"][..], args].concat();
        let output = run(home, &all);
        let told = String::from_utf8_lossy(&output.stderr).into_owned()
            + &String::from_utf8_lossy(&output.stdout);
        assert!(told.contains(words), "{args:?}: {told}");
        if output.status.code() == Some(0) {
            // Kept with their log, but no figure is given any more.
            assert!(told.contains("no figure now"), "{args:?}: {told}");
            let back = ["diner", "set", "Ana", "--born", "1991-04-02"];
            done(home, &back);
        } else {
            assert_eq!(output.status.code(), Some(2), "{args:?}");
        }
        assert_eq!(export(), before, "{args:?}");
    }
    assert!(refused(home, &["diner", "set", "Nobody", "--aim", "lose"]).contains("Nobody"));
    let text = done(
        home,
        &["diner", "set", "Ana", "--pregnant-or-nursing", "yes"],
    );
    assert!(text.contains("no figure now"), "{text}");
    let text = done(
        home,
        &["diner", "set", "Ana", "--pregnant-or-nursing", "no"],
    );
    assert!(
        text.contains("no figure before, 2,260 kcal a day now"),
        "{text}"
    );
}
