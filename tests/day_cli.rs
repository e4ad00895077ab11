//! The day log's commands by the real binary: shared dishes, plans, entries mended, pages, what
//! is refused.

mod common_run;

use common_run::{done_at, refused_at, run_at};
use std::path::Path;

const NOW: &str = "2026-11-25T12:30:00-05:00[America/New_York]";

fn done(home: &Path, args: &[&str]) -> String {
    done_at(home, NOW, args)
}

fn refused(home: &Path, args: &[&str]) -> String {
    refused_at(home, NOW, args)
}

fn json(home: &Path, args: &[&str]) -> serde_json::Value {
    let args = [args, &["--format", "json"]].concat();
    serde_json::from_str(&done(home, &args)).unwrap()
}

fn with_two() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for name in ["Ana", "Ben"] {
        done(folder.path(), &["diner", "add", name, "--energy", "2000"]);
    }
    folder
}

fn shares(page: &serde_json::Value) -> Vec<(String, f64)> {
    let row = |row: &serde_json::Value| {
        let diner = row["diner"].as_str().unwrap().to_owned();
        (diner, row["entry"]["share"].as_f64().unwrap())
    };
    page.as_array().unwrap().iter().map(row).collect()
}

#[test]
fn a_shared_dish_is_in_every_diners_log() {
    let folder = with_two();
    let home = folder.path();
    let eat = [
        "day",
        "eat",
        "cobb salad",
        "--diner",
        "Ana",
        "--diner",
        "ben",
    ];
    let both = |share_a, share_b| vec![("Ana".to_owned(), share_a), ("Ben".to_owned(), share_b)];
    assert_eq!(shares(&json(home, &eat)), both(0.5, 0.5));
    let thirds = [&eat[..], &["--share", "2/3", "--share", "1/3"]].concat();
    assert_eq!(shares(&json(home, &thirds)), both(2.0 / 3.0, 1.0 / 3.0));
    let each = [&eat[..], &["--share", "1"]].concat();
    assert_eq!(shares(&json(home, &each)), both(1.0, 1.0));
    for (more, told) in [
        (
            &["--share", "1", "--share", "1", "--share", "1"][..],
            "3 shares for 2 diners",
        ),
        (&["--fit"], "one diner"),
        (&["--diner", "ANA"], "named twice"),
        (&["--diner", "Cy"], "no diner is named `Cy`"),
    ] {
        let error = refused(home, &[&eat[..], more].concat());
        assert!(error.contains(told), "{error}");
    }
    // All or nothing, so three dishes each.
    for name in ["Ana", "Ben"] {
        let day = json(home, &["day", "show", "--diner", name]);
        assert_eq!(day["entries"].as_array().unwrap().len(), 3, "{name}");
    }
}

#[test]
fn what_was_planned_is_eaten_when_it_is() {
    let folder = with_two();
    let home = folder.path();
    let plan = |at: &str| {
        let args = ["day", "plan", "beef pho", "--diner", "Ana", "--at", at];
        json(home, &args)[0]["number"].to_string()
    };
    let time = |page: &serde_json::Value| {
        let entry = &page[0]["entry"];
        format!(
            "{} {}",
            entry["at"]["time"].as_str().unwrap(),
            entry["meal"].as_str().unwrap()
        )
    };
    let (early, late) = (plan("13:00"), plan("19:00"));
    let day = json(home, &["day", "show", "--diner", "Ana"]);
    assert_eq!(day["planned"].as_array().unwrap().len(), 2);
    assert!(day["entries"].as_array().unwrap().is_empty());
    assert!(day["left_if"].is_array());
    // It is half past twelve: what was planned for later is eaten now.
    let eaten = json(home, &["day", "eat", "--planned", &late, "--diner", "Ana"]);
    assert_eq!(time(&eaten), "12:30:00 dinner");
    // At two, what was planned for one was eaten at one.
    let now = "2026-11-25T14:00:00-05:00[America/New_York]";
    let args = [
        "day",
        "eat",
        "--planned",
        &early,
        "--diner",
        "Ana",
        "--share",
        "1/2",
    ];
    let output = run_at(home, now, &[&args[..], &["--format", "json"]].concat());
    let eaten: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(time(&eaten), "13:00:00 lunch");
    assert_eq!(eaten[0]["entry"]["share"], 0.5);
    assert!(refused(home, &args).contains("is not planned"));
    // Times that fit no plan, and dishes beside a plan.
    let at = |text| {
        refused(
            home,
            &["day", "plan", "beef pho", "--diner", "Ana", "--at", text],
        )
    };
    assert!(at("yesterday 19:00").contains("has passed"));
    assert!(at("2030-01-01 12:00").contains("more than a year ahead"));
    assert!(at("tomorrow").contains("no time"));
    let ahead = [
        "day",
        "eat",
        "beef pho",
        "--diner",
        "Ana",
        "--at",
        "next friday 19:00",
    ];
    assert!(refused(home, &ahead).contains("day plan"));
    refused(
        home,
        &["day", "eat", "beef pho", "--planned", "1", "--diner", "Ana"],
    );
}

/// A command for Ana.
fn ana<'w>(args: &[&'w str]) -> Vec<&'w str> {
    [args, &["--diner", "Ana"]].concat()
}

#[test]
fn an_entry_changes_only_in_what_is_asked() {
    let folder = with_two();
    let home = folder.path();
    done(
        home,
        &ana(&["day", "eat", "cobb salad", "--at", "last monday 12:15"]),
    );
    let edit = |more: &[&str]| json(home, &ana(&[&["day", "edit", "1"][..], more].concat()));
    let told = |page: &serde_json::Value| {
        let at = &page["entry"]["at"];
        format!(
            "{} {} {} {} {}",
            page["entry"]["dish"].as_str().unwrap(),
            page["entry"]["share"],
            at["date"].as_str().unwrap(),
            at["time"].as_str().unwrap(),
            page["entry"]["meal"].as_str().unwrap()
        )
    };
    // A time alone is of the entry's day; the usual meal of the hour goes along.
    assert_eq!(
        told(&edit(&["--at", "19:00"])),
        "Cobb salad 1.0 2026-11-23 19:00:00 dinner"
    );
    assert_eq!(
        told(&edit(&["--meal", "snack"])),
        "Cobb salad 1.0 2026-11-23 19:00:00 snack"
    );
    // A meal that was said stays.
    assert_eq!(
        told(&edit(&["--at", "12:00"])),
        "Cobb salad 1.0 2026-11-23 12:00:00 snack"
    );
    assert_eq!(
        told(&edit(&["--share", "1/2"])),
        "Cobb salad 0.5 2026-11-23 12:00:00 snack"
    );
    assert_eq!(
        told(&edit(&["--dish", "beef pho"])),
        "Beef pho 0.5 2026-11-23 12:00:00 snack"
    );
    let item = edit(&["--item", "2 cups romaine", "--share", "1"]);
    assert_eq!(told(&item), "2 cups romaine 1.0 2026-11-23 12:00:00 snack");
    for (more, part) in [
        (&["--meal", "brunch"][..], "no meal `brunch`"),
        (&["--at", "next friday 12:00"], "more than a day ahead"),
        (&["--dish", "3 cups zzyzx"], "zzyzx"),
        (&[], "nothing to change"),
    ] {
        let args = ana(&[&["day", "edit", "1"][..], more].concat());
        let output = run_at(home, NOW, &args);
        assert!(matches!(output.status.code(), Some(1 | 2)), "{more:?}");
        let error = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(error.contains(part), "{error}");
    }
    // Everything is kept, and comes back step by step.
    let changes = json(home, &ana(&["day", "changes"]));
    assert_eq!(changes["changes"].as_array().unwrap().len(), 7);
    assert_eq!(
        changes["changes"][1]["before"]["entry"]["dish"],
        "Cobb salad"
    );
    for _ in 0..6 {
        done(home, &ana(&["day", "undo"]));
    }
    let day = json(home, &ana(&["day", "show", "--date", "last monday"]));
    assert_eq!(
        told(&day["entries"][0]),
        "Cobb salad 1.0 2026-11-23 12:15:00 lunch"
    );
    done(home, &ana(&["day", "undo"]));
    let nothing = done(home, &ana(&["day", "undo"]));
    assert!(nothing.contains("Nothing is logged for Ana"), "{nothing}");
}

#[test]
fn days_weeks_and_clients_are_pages_too() {
    let folder = with_two();
    let home = folder.path();
    done(home, &["diner", "add", "Cy <b>", "--energy", "1800"]);
    for at in ["last monday 12:00", "yesterday 12:00", "12:00"] {
        done(
            home,
            &["day", "eat", "fish and chips", "--at", at, "--diner", "Ana"],
        );
    }
    done(
        home,
        &["day", "plan", "beef pho", "--at", "19:00", "--diner", "Ana"],
    );
    for args in [
        &["day", "show", "--diner", "Ana"][..],
        &["day", "left", "--diner", "Ana"],
        &["day", "history", "--diner", "Ana"],
        &["day", "show", "--diner", "Cy <b>"],
        &["diner", "overview"],
    ] {
        let page = done(home, &[args, &["--format", "html"]].concat());
        let parsed = scraper::Html::parse_document(&page);
        assert!(parsed.errors.is_empty(), "{args:?}: {:?}", parsed.errors);
        assert!(page.starts_with("<!DOCTYPE html>") && !page.contains("<script"));
        assert!(!page.contains("Cy <b>"), "{args:?}");
        let rows = scraper::Selector::parse("tbody th[scope=row]").unwrap();
        assert!(parsed.select(&rows).count() >= 3, "{args:?}");
        assert!(page.contains("Take care"), "{args:?}");
    }
    let overview = json(home, &["diner", "overview"]);
    let clients = overview["clients"].as_array().unwrap();
    let logged: Vec<(&str, u64)> = clients
        .iter()
        .map(|c| {
            (
                c["name"].as_str().unwrap(),
                c["days_logged"].as_u64().unwrap(),
            )
        })
        .collect();
    assert_eq!(logged, [("Ana", 3), ("Ben", 0), ("Cy <b>", 0)]);
    // Fish and chips hold 1,200 kcal, twice a lunch of 600: the averages are those of one.
    let weeks = json(home, &["day", "history", "--weeks", "1", "--diner", "Ana"]);
    let energy = |list: &str| weeks[list][0]["mean"].as_f64();
    let one = json(home, &["audit", "fish and chips"]);
    let kcal = one["nutrients"]["energy_kcal"].as_f64().unwrap();
    assert!((energy("averages").unwrap() - kcal).abs() < 1.0);
    assert_eq!(energy("week"), energy("averages"));
    assert!(weeks["week_before"].as_array().unwrap().is_empty());
    assert_eq!(weeks["meals_beyond"].as_array().unwrap().len(), 3);
    assert_eq!(weeks["meals_beyond"][0]["beyond"][0]["key"], "energy");
}

/// No figure is given in pregnancy: what was logged before is listed, no average is told.
#[test]
fn who_is_given_no_figure_is_given_none_in_any_page() {
    let folder = with_two();
    let home = folder.path();
    done(home, &["day", "eat", "cobb salad", "--diner", "Ana"]);
    done(
        home,
        &["diner", "set", "Ana", "--pregnant-or-nursing", "yes"],
    );
    let page = done(home, &["day", "show", "--diner", "Ana", "--format", "html"]);
    assert!(!page.contains("kcal"), "{page}");
    let overview = done(home, &["diner", "overview"]);
    let line = overview
        .lines()
        .find(|line| line.starts_with("Ana"))
        .unwrap();
    assert!(line.contains("no figure") && !line.contains('%'), "{line}");
    for args in [
        &["day", "eat", "cobb salad"][..],
        &["day", "edit", "1", "--share", "1/2"],
    ] {
        refused(home, &[args, &["--diner", "Ana"]].concat());
    }
    // It can still be mended by taking away.
    done(home, &["day", "remove", "1", "--diner", "Ana"]);
}
