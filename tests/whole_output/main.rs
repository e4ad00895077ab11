//! What each command prints, whole: a change of any word shows in the difference of a snapshot.
//!
//! 80 columns, the clock fixed, no files of a person. `INSTA_UPDATE=always cargo test --test
//! whole_output` writes the snapshots anew; read the difference before it is kept.

use assert_cmd::Command;

/// Commands by the name of their snapshot. Days and diners, which keep something, come after
/// each other in one test below.
const COMMANDS: &[(&str, &str)] = &[
    ("food_free", "food free"),
    ("food_rank_protein", "food rank protein --top 15"),
    ("food_rank_all", "food rank dairy --all --top 8"),
    ("food_equal_fish", "food equal '3 oz salmon'"),
    (
        "day_sheet",
        "handout --day --energy 2000 --format text -o -",
    ),
    ("audit_dish", "audit chicken-caesar-salad"),
    ("audit_line", "audit 'cheeseburger with fries, no bun'"),
    (
        "audit_why",
        "audit --item '2 cups rice' --item '3 oz salmon' --why",
    ),
    ("audit_unread", "audit --item 'xyzzy' --item '1 cup rice'"),
    ("audit_csv", "audit --item '1 cup rice' --format csv"),
    (
        "compare",
        "compare chicken-caesar-salad 'cheeseburger with fries'",
    ),
    ("fit", "fit 'spaghetti with meatballs'"),
    ("fit_why", "fit 'bacon cheeseburger with fries' --why"),
    (
        "swap",
        "swap bacon-cheeseburger-with-fries 'fries=side salad'",
    ),
    (
        "swap_two",
        "swap cobb-salad 'no bacon' 'dressing=on the side'",
    ),
    ("swap_ideas", "swap bacon-cheeseburger-with-fries"),
    ("swap_no_such", "swap cobb-salad 'fries=salad'"),
    ("cautions", "cautions"),
    (
        "low_energy",
        "audit --item '1 cup rice' --item '1 cup kale' --energy 1300",
    ),
    (
        "raw_and_wine",
        "audit --item '4 oz raw tuna' --item '5 fl oz red wine'",
    ),
    ("dish_list", "dish list"),
    ("dish_show", "dish show chicken-caesar-salad"),
    ("food_find", "food find 'squash, winter, acorn'"),
    ("food_show", "food show 'white rice, cooked'"),
    ("food_rank", "food rank --help"),
    ("standard_list", "standard list"),
    ("standard_show", "standard show us-style"),
    ("no_such_dish", "audit zzqx"),
    ("audit_json", "audit --item '1 cup rice' --format json"),
    (
        "compare_csv",
        "compare pancakes 'chicken noodle soup' --format csv",
    ),
    ("fit_json", "fit 'spaghetti with meatballs' --format json"),
    (
        "handout",
        "handout chicken-caesar-salad --output HOME/page.html",
    ),
    ("dish_check", "dish check dishes"),
    ("dish_check_faults", "dish check HOME/faulty"),
    ("food_equal", "food equal '1 cup cooked rice'"),
    ("food_rank_group", "food rank dairy --top 8"),
    ("food_match", "food match HOME/words.csv"),
    ("menu_text", "menu demo-data/menu.csv --format text"),
    ("menu_csv", "menu demo-data/menu.csv --format csv"),
    ("menu_ndjson", "menu demo-data/menu.csv --format ndjson"),
];

fn run(home: &std::path::Path, line: &str) -> String {
    let home_text = home.to_string_lossy();
    let words: Vec<String> = words(line)
        .into_iter()
        .map(|word| word.replace("HOME", &home_text))
        .collect();
    let output = Command::cargo_bin("trencher")
        .expect("the program")
        .args(&words)
        .env("TRENCHER_HOME", home)
        .env("TRENCHER_NOW", "2026-03-02T12:30:00+00:00[UTC]")
        .env("COLUMNS", "80")
        .env("NO_COLOR", "1")
        .output()
        .expect("runs");
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).replace(&*home_text, "HOME");
    format!(
        "$ trencher {line}\n{}--- standard error\n{}--- exit code {}\n",
        text(&output.stdout),
        text(&output.stderr),
        output.status.code().unwrap_or(-1)
    )
}

/// Words of a command line; quotes keep some together.
fn words(line: &str) -> Vec<String> {
    let parts = line.split('\'').enumerate();
    parts
        .flat_map(|(at, part)| match at % 2 {
            0 => part.split_whitespace().map(str::to_owned).collect(),
            _ => vec![part.to_owned()],
        })
        .collect()
}

#[test]
fn commands_print_what_they_did() {
    let home = tempfile::tempdir().expect("a folder");
    let faulty = home.path().join("faulty");
    std::fs::create_dir(&faulty).expect("a folder");
    let dish = "name = \"Rice bowl\"\nserved = \"300 g\"\nsource = \"ours\"\n\
        [[component]]\nfood = \"xyzzy\"\namount = \"1 cup\"\n";
    for (name, text) in [
        ("faulty/rice-bowl.toml", dish),
        (
            "faulty/bread.toml",
            "name = \"Bread\"\ncolour = \"brown\"\n",
        ),
        ("words.csv", "query\nwhole milk\ncooked brown rice\nxyzzy\n"),
    ] {
        std::fs::write(home.path().join(name), text).expect("writes");
    }
    for (name, line) in COMMANDS {
        insta::assert_snapshot!(*name, run(home.path(), line));
    }
}

/// The words of a page, a line an element; drawings are checked elsewhere.
#[test]
fn a_handout_says_what_it_did() {
    let home = tempfile::tempdir().expect("a folder");
    run(
        home.path(),
        "handout 'cheeseburger with fries' --output HOME/page.html",
    );
    let page = std::fs::read_to_string(home.path().join("page.html")).expect("a page");
    let page = scraper::Html::parse_document(&page);
    let body = scraper::Selector::parse("body").expect("a selector");
    let body = page.select(&body).next().expect("a body");
    let words = body.text().map(str::trim).filter(|words| !words.is_empty());
    insta::assert_snapshot!("handout_page", words.collect::<Vec<_>>().join("\n"));
}

#[test]
fn a_day_prints_what_it_did() {
    let home = tempfile::tempdir().expect("a folder");
    let lines = [
        "diner add Ana --sex female --age 34 --height '165 cm' --weight '62 kg' --activity active",
        "diner list",
        "diner show Ana",
        "day eat --diner Ana chicken-caesar-salad",
        "day show --diner Ana",
        "day left --diner Ana",
        "day history --diner Ana",
        "day undo --diner Ana",
        "diner remove Ana --yes",
    ];
    let all: Vec<String> = lines.iter().map(|line| run(home.path(), line)).collect();
    insta::assert_snapshot!("a_day", all.join("\n"));
}

#[test]
fn a_log_that_is_mended_prints_what_it_did() {
    let home = tempfile::tempdir().expect("a folder");
    let lines = [
        "diner add Ana --sex female --age 34 --height '165 cm' --weight '62 kg' --activity active",
        "diner add Ben --energy 2400",
        "day eat --diner Ana 'yogurt and granola bowl' --at 8:15",
        "day eat --diner Ana --diner Ben 'pad thai with shrimp'",
        "day plan --diner Ana 'beef pho' --at 'tomorrow 19:00'",
        "day plan --diner Ana 'cheeseburger with fries' --at 19:00",
        "day show --diner Ana",
        "day left --diner Ana",
        "day show --diner Ana --date tomorrow",
        "day edit 2 --diner Ana --share 1/3",
        "day edit 2 --diner Ana --dish 'chicken caesar salad' --at 13:00",
        "day repeat 1 --diner Ana --at 'last friday 9:00'",
        "day remove 3 --diner Ana",
        "day undo --diner Ana",
        "day undo --diner Ana",
        "day undo --diner Ana",
        "day eat --diner Ana --planned 4 --share 1/2",
        "day eat --diner Ana --planned 4",
        "day edit 9 --diner Ana --share 1/2",
        "day edit 1 --diner Ana",
        "day plan --diner Ana 'beef pho' --at 'yesterday 19:00'",
        "day changes --diner Ana",
        "day undo --diner Ana --diner Ben",
    ];
    let all: Vec<String> = lines.iter().map(|line| run(home.path(), line)).collect();
    insta::assert_snapshot!("a_mended_log", all.join("\n"));
}

#[test]
fn choosing_for_what_is_left_prints_what_it_did() {
    let home = tempfile::tempdir().expect("a folder");
    let menu = home.path().join("menu.csv");
    let items = "item,components\nGrain bowl,1 cup brown rice; 1/2 cup black beans; 1 cup romaine\n\
        Toast,2 slices bread\nThree doughnuts,3 glazed doughnuts\nApple,1 apple\n";
    std::fs::write(&menu, items).expect("written");
    let ranked = format!("menu {} --left --diner Ana", menu.display());
    let lines = [
        "diner add Ana --sex female --age 34 --height '165 cm' --weight '62 kg' --activity active",
        "day eat 'yogurt and granola bowl' --at 8:15",
        "day plan 'cheeseburger with fries' --at 19:00",
        &ranked,
        "audit 'cobb salad' --left --diner Ana",
        "audit 'cobb salad' --share 1/2",
        "fit 'pad thai with shrimp' --left --meal lunch --diner Ana",
    ];
    let all: Vec<String> = lines.iter().map(|line| run(home.path(), line)).collect();
    let all = all[3..].join("\n");
    let all = all.replace(&*home.path().to_string_lossy(), "HOME");
    insta::assert_snapshot!("what_is_left", all);
}

#[test]
fn looking_back_prints_what_it_did() {
    let home = tempfile::tempdir().expect("a folder");
    let lines = [
        "diner add Ana --sex female --age 34 --height '165 cm' --weight '62 kg' --activity active",
        "diner add Ben --energy 2400",
        "diner add Cleo --sex female --age 30 --height '165 cm' --weight '62 kg' --activity active",
        "diner set Cleo --pregnant-or-nursing yes",
        "day history --diner Ana",
        "day eat --diner Ana 'yogurt and granola bowl' --at '2026-02-20 8:00'",
        "day eat --diner Ana 'pad thai with shrimp' --at '2026-02-20 12:00'",
        "day eat --diner Ana 'cheeseburger with fries' --at 'yesterday 19:00'",
        "day eat --diner Ana 'yogurt and granola bowl' --at 'yesterday 8:00'",
        "day eat --diner Ana 'pad thai with shrimp' --at 'last friday 20:00'",
        "day eat --diner Ben 'chicken caesar salad' --share 2",
        "day history --diner Ana --weeks 1",
        "day history --diner Ana",
        "diner overview",
        "diner overview --format csv",
    ];
    let all: Vec<String> = lines.iter().map(|line| run(home.path(), line)).collect();
    insta::assert_snapshot!("looking_back", all[4..].join("\n"));
}
