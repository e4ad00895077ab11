//! What somebody who means harm, or a slip of the keyboard, may hand to the program: it keeps
//! standing, says what is wrong, destroys nothing, and takes neither long nor much memory.

mod common_run;

use common_run::{command, printed, told};
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use tempfile::TempDir;

const NOW: &str = "2026-05-20T12:30:00+02:00[Europe/Berlin]";

fn trencher(home: &Path, args: &[&str]) -> Command {
    command(home, NOW, args)
}

/// A run with something on standard input.
fn run(home: &TempDir, args: &[&str], input: &[u8]) -> Output {
    let mut child = trencher(home.path(), args)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stdin = child.stdin.take().unwrap();
    let input = input.to_vec();
    // The program may end before it has read everything.
    let writer = std::thread::spawn(move || drop(stdin.write_all(&input)));
    let output = child.wait_with_output().unwrap();
    writer.join().unwrap();
    output
}

fn home() -> TempDir {
    tempfile::tempdir().unwrap()
}

/// It ended by itself with a code of the list in the manual.
fn stands(output: &Output, what: &str) {
    let code = output.status.code();
    assert!(
        code.is_some_and(|code| code <= 3),
        "{what}: {:?} {}",
        output.status,
        told(output).chars().take(400).collect::<String>()
    );
}

fn path(folder: &TempDir, name: &str) -> String {
    folder.path().join(name).to_string_lossy().into_owned()
}

/// Amounts said again and again, each in a way that a reader may take by calling itself.
fn repeated() -> Vec<String> {
    [
        "1 ",
        "½",
        "2x",
        "1 dozen ",
        "1-",
        "a ",
        "half of ",
        "(",
        "1/",
        "1 x ",
        "two ",
        "1 1/2 ",
        "about ",
        "1 cup ",
        "½ of a ",
        "#8 ",
        "1.",
        "1 and ",
        "1 + ",
        "((1 ",
        "half a dozen ",
    ]
    .iter()
    .flat_map(|piece| [300, 1_200, 20_000].map(|times| piece.repeat(times)))
    .collect()
}

#[test]
fn no_amount_takes_the_program_down_wherever_it_stands() {
    let home = home();
    for amount in repeated() {
        let what = format!(
            "{}... ({} bytes)",
            amount.chars().take(12).collect::<String>(),
            amount.len()
        );
        let long = format!("{amount}soup");
        let csv = format!(
            "item,components,served\nrice,,300 g\n{long},,\nsoup,,\"{amount}\"\nsoup,\"{long}\",\n"
        );
        let ran = run(
            &home,
            &["menu", "-", "--input", "csv", "--format", "csv"],
            csv.as_bytes(),
        );
        stands(&ran, &what);
        assert!(printed(&ran).contains("\nrice,"), "{what}: {}", told(&ran));
        let ld = serde_json::json!({"@type": "Menu", "hasMenuItem": [
            {"name": "rice", "nutrition": {"servingSize": "300 g"}},
            {"name": long, "description": long, "nutrition": {"servingSize": amount, "calories": amount}},
        ]});
        let ran = run(
            &home,
            &["menu", "-", "--input", "jsonld", "--format", "csv"],
            ld.to_string().as_bytes(),
        );
        stands(&ran, &what);
        assert!(printed(&ran).contains("\nrice,"), "{what}: {}", told(&ran));
        let dish = format!(
            "name = \"x\"\nserved = \"{amount}\"\n[[component]]\nfood = \"{long}\"\namount = \"{amount}\"\n"
        );
        let file = path(&home, "dish.toml");
        std::fs::write(&file, dish).unwrap();
        stands(&run(&home, &["audit", &file], b""), &what);
        stands(
            &run(
                &home,
                &["audit", "-"],
                format!("1 cup rice\n{long}\n").as_bytes(),
            ),
            &what,
        );
        if amount.len() < 100_000 {
            stands(&run(&home, &["audit", "--item", &long], b""), &what);
            stands(&run(&home, &["audit", &long], b""), &what);
            stands(&run(&home, &["food", "equal", &long], b""), &what);
        }
    }
}

#[test]
fn nesting_takes_the_program_down_nowhere() {
    let home = home();
    for depth in [100, 10_000, 300_000] {
        let lists = format!("{}{}", "[".repeat(depth), "]".repeat(depth));
        let sections = format!(
            "{}1{}",
            "{\"hasMenuSection\":".repeat(depth),
            "}".repeat(depth)
        );
        let values = format!("{{\"item\":\"rice\",\"x\":{lists}}}");
        for (form, text) in [
            ("jsonld", &lists),
            ("jsonld", &sections),
            ("ndjson", &lists),
            ("ndjson", &values),
        ] {
            let ran = run(
                &home,
                &["menu", "-", "--input", form, "--format", "csv"],
                text.as_bytes(),
            );
            stands(&ran, form);
        }
        let dish = path(&home, "dish.toml");
        std::fs::write(&dish, format!("name = {lists}\n")).unwrap();
        stands(&run(&home, &["audit", &dish], b""), "TOML");
        let backup = path(&home, "backup.json");
        std::fs::write(&backup, format!("{{\"version\":1,\"diners\":{lists}}}")).unwrap();
        stands(&run(&home, &["day", "import", &backup], b""), "backup");
        let filter = "not ".repeat(depth.min(10_000)) + "energy below 700";
        stands(
            &run(&home, &["menu", "-", "--where", &filter], b"item\nrice\n"),
            "filter",
        );
        let filter = "(".repeat(depth.min(10_000)) + "energy below 700";
        stands(
            &run(&home, &["menu", "-", "--where", &filter], b"item\nrice\n"),
            "filter",
        );
    }
}

/// Reads and writes of one menu, as somebody at a shell would mix them up.
fn small_menu(folder: &TempDir) -> String {
    let file = path(folder, "menu.csv");
    std::fs::write(&file, "item\nrice\n\"\"\n").unwrap();
    file
}

#[cfg(unix)]
#[test]
fn a_menu_is_never_written_over_nor_two_things_into_one_file() {
    let folder = home();
    let menu = small_menu(&folder);
    let before = std::fs::read(&menu).unwrap();
    let (linked, hard) = (path(&folder, "linked.csv"), path(&folder, "hard.csv"));
    std::os::unix::fs::symlink(&menu, &linked).unwrap();
    std::fs::hard_link(&menu, &hard).unwrap();
    let (new, other) = (path(&folder, "new.csv"), path(&folder, "./new.csv"));
    for args in [
        vec!["-o", &menu],
        vec!["-o", &menu, "--force"],
        vec!["-o", &linked, "--force"],
        vec!["-o", &hard, "--force"],
        vec!["--rejects", &menu, "--force"],
        vec!["--rejects", &linked, "--force"],
        vec!["--summary", &menu, "--force"],
        vec!["-o", &new, "--rejects", &other],
        vec!["-o", &new, "--summary", &new],
        vec!["--rejects", &hard],
    ] {
        let ran = run(
            &folder,
            &[&["menu", &menu, "--format", "csv"], args.as_slice()].concat(),
            b"",
        );
        assert_eq!(ran.status.code(), Some(2), "{args:?}: {}", told(&ran));
        assert!(
            told(&ran).contains("give another name"),
            "{args:?}: {}",
            told(&ran)
        );
        assert_eq!(std::fs::read(&menu).unwrap(), before, "{args:?}");
        assert!(Path::new(&linked).is_symlink());
    }
    // Standard input opened from the file that is to be written.
    let ran = Command::new("sh")
        .args([
            "-c",
            "\"$0\" menu - --format csv --force -o \"$1\" < \"$1\"",
        ])
        .args([env!("CARGO_BIN_EXE_trencher"), &menu])
        .output()
        .unwrap();
    assert_eq!(ran.status.code(), Some(2), "{}", told(&ran));
    assert_eq!(std::fs::read(&menu).unwrap(), before);
    let names = std::fs::read_dir(folder.path()).unwrap().count();
    assert_eq!(names, 3, "nothing was begun");
}

#[test]
fn files_that_are_there_stay_unless_told_otherwise() {
    let folder = home();
    let menu = small_menu(&folder);
    let files = ["out.csv", "bad.csv", "sum.txt"].map(|name| path(&folder, name));
    let [out, bad, sum] = &files;
    let args = ["menu", &menu, "-o", out, "--rejects", bad, "--summary", sum];
    for at in 0..3 {
        let _ = files.each_ref().map(std::fs::remove_file);
        std::fs::write(&files[at], "mine").unwrap();
        let ran = run(&folder, &args, b"");
        assert_eq!(ran.status.code(), Some(2), "{}", told(&ran));
        assert!(told(&ran).contains("--force"), "{}", told(&ran));
        assert_eq!(std::fs::read_to_string(&files[at]).unwrap(), "mine");
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 2);
    }
    let ran = run(&folder, &[args.as_slice(), &["--force"]].concat(), b"");
    assert_eq!(ran.status.code(), Some(1), "{}", told(&ran));
    for file in &files {
        assert_ne!(std::fs::read_to_string(file).unwrap(), "mine");
    }
    assert_eq!(
        std::fs::read_dir(folder.path()).unwrap().count(),
        4,
        "no draft is left"
    );
}

#[cfg(unix)]
#[test]
fn a_second_run_on_the_same_output_is_told() {
    let folder = home();
    let menu = small_menu(&folder);
    let (pipe, out) = (path(&folder, "pipe"), path(&folder, "out.csv"));
    assert!(
        Command::new("mkfifo")
            .arg(&pipe)
            .status()
            .unwrap()
            .success()
    );
    // The first waits for its menu; it has its output by then, as soon as it read the header.
    let first = trencher(
        folder.path(),
        &["menu", &pipe, "--input", "csv", "-o", &out],
    )
    .stderr(Stdio::piped())
    .spawn()
    .unwrap();
    let mut writer = std::fs::OpenOptions::new().write(true).open(&pipe).unwrap();
    writer.write_all(b"item\nrice\n").unwrap();
    let working = format!("{out}.partial");
    while std::fs::metadata(&working).map_or(0, |m| m.len()) == 0 {
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    for force in [&[][..], &["--force"]] {
        let second = run(
            &folder,
            &[&["menu", &menu, "-o", &out], force].concat(),
            b"",
        );
        assert_eq!(second.status.code(), Some(3), "{}", told(&second));
        assert!(told(&second).contains("another run"), "{}", told(&second));
    }
    drop(writer);
    let first = first.wait_with_output().unwrap();
    assert_eq!(first.status.code(), Some(0), "{}", told(&first));
    assert!(std::fs::read_to_string(&out).unwrap().contains("\nrice,"));
}

#[cfg(unix)]
#[test]
fn links_are_written_through_and_devices_stay_devices() {
    use std::os::unix::fs::FileTypeExt;
    let folder = home();
    let menu = small_menu(&folder);
    let (kept, link, dead) = (
        path(&folder, "kept.csv"),
        path(&folder, "link.csv"),
        path(&folder, "dead.csv"),
    );
    std::fs::write(&kept, "old").unwrap();
    std::os::unix::fs::symlink(&kept, &link).unwrap();
    std::os::unix::fs::symlink(path(&folder, "nowhere"), &dead).unwrap();
    for (command, ending) in [
        (vec!["menu", &menu], "csv"),
        (vec!["handout", "Cheeseburger"], "html"),
    ] {
        std::fs::write(&kept, "old").unwrap();
        let ran = run(
            &folder,
            &[
                command.as_slice(),
                &["--format", ending, "--force", "-o", &link],
            ]
            .concat(),
            b"",
        );
        assert!(
            ran.status.code().is_some_and(|code| code <= 1),
            "{}",
            told(&ran)
        );
        assert!(Path::new(&link).is_symlink(), "{ending}");
        assert!(std::fs::read(&kept).unwrap().len() > 100, "{ending}");
        let ran = run(
            &folder,
            &[
                command.as_slice(),
                &["--format", ending, "--force", "-o", &dead],
            ]
            .concat(),
            b"",
        );
        assert_eq!(ran.status.code(), Some(2), "{}", told(&ran));
        assert!(Path::new(&dead).is_symlink());
        // A pipe is written to and stays one.
        let pipe = path(&folder, &format!("pipe-{ending}"));
        assert!(
            Command::new("mkfifo")
                .arg(&pipe)
                .status()
                .unwrap()
                .success()
        );
        let reader = std::thread::spawn({
            let pipe = pipe.clone();
            move || std::fs::read(pipe).unwrap()
        });
        let ran = run(
            &folder,
            &[
                command.as_slice(),
                &["--format", ending, "--force", "-o", &pipe],
            ]
            .concat(),
            b"",
        );
        assert!(
            ran.status.code().is_some_and(|code| code <= 1),
            "{}",
            told(&ran)
        );
        assert!(reader.join().unwrap().len() > 100);
        assert!(std::fs::metadata(&pipe).unwrap().file_type().is_fifo());
        let ran = run(
            &folder,
            &[
                command.as_slice(),
                &["--format", ending, "--force", "-o", "/dev/null"],
            ]
            .concat(),
            b"",
        );
        assert!(
            ran.status.code().is_some_and(|code| code <= 1),
            "{}",
            told(&ran)
        );
        assert!(
            std::fs::metadata("/dev/null")
                .unwrap()
                .file_type()
                .is_char_device()
        );
    }
}

/// Signs that act on a terminal: escape, bell, a control sign of one byte above 127, marks
/// that turn the direction of letters, and breaks that are no line feed.
const ACTING: &str = "\u{1b}[31m\u{7}\u{9b}2J\u{61c}\u{202e}\u{2066}\u{2028}\u{2029}\u{200f}\r";

/// Whatever was printed holds nothing of it.
fn is_still(output: &Output, what: &str) {
    for text in [printed(output), told(output)] {
        let acts = |c: char| c != '\n' && trencher::reading::is_hidden(c);
        if let Some(at) = text.find(acts) {
            panic!(
                "{what}: {:?}",
                text[at..].chars().take(60).collect::<String>()
            );
        }
    }
}

#[test]
#[allow(clippy::too_many_lines)] // a list of commands and of what they are given
fn nothing_that_reaches_a_terminal_acts_on_it() {
    let home = home();
    let at = |name: &str, text: &str| {
        let file = path(&home, name);
        std::fs::write(&file, text).unwrap();
        file
    };
    let a = ACTING;
    let json = |text: &str| serde_json::Value::from(text).to_string();
    let csv = at(
        "m.csv",
        &format!(
            "item,x{a},components,served\nrice{a},,1 cup rice {a};zz{a},\nb{a},,,{a}\n\"{a}\nc,,,x{a}y\n"
        ),
    );
    let twice = at("twice.csv", &format!("item,Item{a},item\n"));
    let none = at("none.csv", &format!("dish{a},kcal\n"));
    let lines = at(
        "m.ndjson",
        &format!(
            "{{\"item\":{},\"components\":[{}]}}\n{{\"item{a}\":1}}\n{{\"item\":7{a}}}\n",
            json(&format!("rice{a}")),
            json(&format!("zz {a}"))
        ),
    );
    let ld = at(
        "m.jsonld",
        &format!(
            "[{{\"@type\":\"MenuItem\",\"name\":{}}},{{\"x\":{a}",
            json(&format!("rice {a}"))
        ),
    );
    let dish = at(
        "d.toml",
        &format!(
            "name = {}\n[[component]]\nfood = {}\namount = \"1 cup\"\n",
            json(&format!("Soup \u{202e}{}", "x")),
            json("rice")
        ),
    );
    let broken = at("b.toml", &format!("name = \"{a}\nfood{a} = 1"));
    let text = at("d.txt", &format!("1 cup rice {a}\n2 cups zz{a}\n{a}\n"));
    let foods = at(
        "own.csv",
        "name,energy_kcal,like,source\n=rice loaf\u{202e},262,bread,x\u{202e}\n",
    );
    let bad_foods = at("bad.csv", &format!("name,energy_kcal,like{a}\nx,1,y\n"));
    let standard = at("s.toml", &format!("name = {}\n", json(a)));
    let backup = at(
        "b.json",
        &format!(
            "{{\"version\":1,\"diners\":[{{\"name\":{}}}],\"entries\":[]}}",
            json(&format!("Ana{a}"))
        ),
    );
    let table = at("b.csv", &format!("diner{a},x\n1,2\n"));
    let strange = at(&format!("f{}.csv", "\u{1b}[31m\u{202e}"), "dish\n");
    let missing = path(&home, &format!("no{a}.csv"));
    let words = format!("rice {a}");
    std::fs::write(
        path(&home, "corrections.csv"),
        "words,code,food,date\n\"chips \u{202e}x\",,none,2026-01-01\n",
    )
    .unwrap();
    for format in ["text", "json", "csv"] {
        for args in [
            vec!["audit", &dish],
            vec!["audit", &text],
            vec!["audit", &words],
            vec!["audit", "--item", &words],
            vec!["fit", &dish],
            vec!["fit", &text],
            vec!["compare", &dish, &text],
            vec!["food", "find", &words],
            vec!["food", "show", &words],
            vec!["food", "equal", &words],
            vec!["--catalogue", &foods, "food", "find", "rice loaf"],
            vec!["--catalogue", &foods, "food", "show", "=rice loaf\u{202e}"],
            vec!["--catalogue", &foods, "audit", "--item", "1 cup =rice loaf"],
            vec!["food", "corrections", "list"],
            vec!["dish", "list", "--library", &home.path().to_string_lossy()],
            vec!["diner", "show", &words],
            vec!["day", "show", "--date", &words],
            vec!["food", "rank", &words],
        ] {
            let ran = run(
                &home,
                &[args.as_slice(), &["--format", format]].concat(),
                b"",
            );
            stands(&ran, &format!("{args:?}"));
            is_still(&ran, &format!("{args:?} {format}"));
        }
    }
    for menu in [&csv, &twice, &none, &lines, &ld, &strange, &missing] {
        for format in ["text", "csv", "ndjson", "html"] {
            let ran = run(&home, &["menu", menu, "--format", format], b"");
            stands(&ran, menu);
            is_still(&ran, &format!("{menu:?} {format}"));
        }
    }
    for args in [
        vec!["audit", &broken],
        vec!["audit", &missing],
        vec!["dish", "show", &dish],
        vec!["dish", "check", &dish, &broken],
        vec!["dish", "check", &missing],
        vec!["audit", &dish, "--standard", &standard],
        vec!["audit", &dish, "--standard", &words],
        vec!["--catalogue", &bad_foods, "audit", "rice"],
        vec!["day", "import", &backup],
        vec!["day", "import", &table],
        vec!["menu", &csv, "--where", &words],
        vec!["menu", &csv, "--sort", &words],
        vec!["menu", &csv, "--meal", &words],
        vec!["menu", &csv, "-o", &missing, "--summary", &missing],
        vec![&words],
        vec!["audit", &dish, &format!("--x{a}")],
        vec!["audit", &dish, "--format", &words],
        vec!["diner", "add", &words, "--energy", "2000"],
        vec!["diner", "remove", &words],
        vec!["food", "match", &csv],
        vec!["food", "match", &csv, "--column", &words],
        vec!["food", "corrections", "remove", &words],
        vec!["dish", "new", &words, "--into", &missing],
        vec!["food", "find", &words, "--correct", &words],
    ] {
        let args: Vec<&str> = args.into_iter().collect();
        let ran = run(&home, &args, b"1 cup rice\n");
        stands(&ran, &format!("{args:?}"));
        is_still(&ran, &format!("{args:?}"));
    }
}

/// No cell of a table begins with a sign that a spreadsheet takes for a formula.
fn holds_no_formula(output: &Output, what: &str) {
    let text = printed(output);
    for row in csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes())
        .records()
    {
        for cell in &row.unwrap() {
            let number = cell == "-" || cell.parse::<f64>().is_ok();
            let starts = cell.trim_start().starts_with(['=', '+', '-', '@', '＝']);
            assert!(!starts || number, "{what}: {cell}");
        }
    }
    assert!(!text.is_empty(), "{what}: {}", told(output));
}

#[test]
fn no_table_holds_a_formula() {
    let home = home();
    let foods = path(&home, "own.csv");
    std::fs::write(&foods, "name,energy_kcal,like,measures,source,family\n=cmd loaf,262,bread,+1 slice = 40,@x,\n-two loaf,262,bread,,,\n").unwrap();
    let names = path(&home, "names.csv");
    std::fs::write(&names, "name\n=cmd loaf\n@rice\n+1\n").unwrap();
    for args in [
        vec!["food", "find", "=cmd loaf"],
        vec!["food", "show", "=cmd loaf"],
        vec![
            "audit",
            "--item",
            "1 cup =cmd loaf",
            "--item",
            "2 cups -two loaf",
        ],
        vec!["fit", "--item", "1 cup =cmd loaf"],
        vec![
            "compare",
            "--item",
            "1 cup =cmd loaf",
            "--item",
            "1 cup rice",
            "cheeseburger",
        ],
        vec!["food", "rank", "grains", "--top", "50"],
        vec!["food", "equal", "1 cup =cmd loaf"],
    ] {
        let ran = run(
            &home,
            &[
                &["--catalogue", &foods],
                args.as_slice(),
                &["--format", "csv"],
            ]
            .concat(),
            b"",
        );
        stands(&ran, &format!("{args:?}"));
        if ran.status.code() != Some(2) {
            holds_no_formula(&ran, &format!("{args:?}"));
        }
    }
    for args in [
        vec!["food", "match", &names],
        vec!["food", "match", &names, "--why"],
        vec!["food", "match", &names, "--targets", &names],
    ] {
        holds_no_formula(
            &run(
                &home,
                &[&["--catalogue", &foods], args.as_slice()].concat(),
                b"",
            ),
            &format!("{args:?}"),
        );
    }
    let menu = b"item,components\n=1,=cmd loaf\n@x,-two loaf\n";
    holds_no_formula(
        &run(
            &home,
            &["--catalogue", &foods, "menu", "-", "--format", "csv"],
            menu,
        ),
        "menu",
    );
    // What a person corrects is kept in a table that they may open.
    for words in ["=cmd|x", "-two", "'=three", "'nduja"] {
        let ran = run(
            &home,
            &["food", "find", "--correct", "none", "--", words],
            b"",
        );
        assert_eq!(ran.status.code(), Some(0), "{}", told(&ran));
    }
    let kept = std::fs::read_to_string(path(&home, "corrections.csv")).unwrap();
    assert!(
        kept.lines().all(|line| !line.starts_with(['=', '-'])),
        "{kept}"
    );
    let listed = printed(&run(
        &home,
        &["food", "corrections", "list", "--format", "json"],
        b"",
    ));
    let listed: serde_json::Value = serde_json::from_str(&listed).unwrap();
    let words: Vec<_> = listed
        .as_array()
        .unwrap()
        .iter()
        .map(|c| c["words"].clone())
        .collect();
    assert_eq!(words, ["=cmd|x", "-two", "'=three", "'nduja"]);
    holds_no_formula(
        &run(
            &home,
            &["food", "corrections", "list", "--format", "csv"],
            b"",
        ),
        "corrections",
    );
}

/// The longest that the limits admit, of what takes longest to understand.
fn longest_rows() -> Vec<(&'static str, serde_json::Value)> {
    let fill = |piece: &str, bytes: usize| {
        let mut text = piece.repeat(bytes / piece.len() + 1);
        let end = (0..=bytes).rev().find(|at| text.is_char_boundary(*at));
        text.truncate(end.unwrap_or(0));
        text
    };
    let mut rows = Vec::new();
    for piece in [
        "a/b ",
        "x",
        "é",
        "chikcen ",
        "rice and beans ",
        "(rice) ",
        "rice or beans ",
        "with rice ",
        "親",
        "' ",
        "rice - ",
        "w/ ",
        "no rice ",
    ] {
        rows.push(("item", serde_json::json!({"item": fill(piece, 1_000)})));
        rows.push((
            "description",
            serde_json::json!({"item": "Plate", "description": fill(piece, 4_000)}),
        ));
        rows.push((
            "served",
            serde_json::json!({"item": "rice", "served": fill(piece, 1_000)}),
        ));
        let parts = vec![fill(piece, 300); 200];
        rows.push((
            "components",
            serde_json::json!({"item": "Plate", "components": parts}),
        ));
    }
    let parts: Vec<_> = (0..200)
        .map(|at| format!("{at} g chikcen{at} with brocoli{at}"))
        .collect();
    rows.push((
        "components",
        serde_json::json!({"item": "Plate", "components": parts}),
    ));
    rows
}

#[test]
fn the_longest_row_that_is_admitted_takes_little_time() {
    let home = home();
    // Half a second where the program is built to be used; the debug build is slower.
    let most = if cfg!(debug_assertions) { 12.0 } else { 0.5 };
    let empty = std::time::Instant::now();
    run(
        &home,
        &["menu", "-", "--input", "ndjson", "--format", "csv"],
        b"{\"item\":\"rice\"}\n",
    );
    let start = empty.elapsed().as_secs_f64();
    for (field, row) in longest_rows() {
        let began = std::time::Instant::now();
        let ran = run(
            &home,
            &["menu", "-", "--input", "ndjson", "--format", "csv"],
            format!("{row}\n").as_bytes(),
        );
        let took = began.elapsed().as_secs_f64() - start;
        let text: String = row.to_string().chars().take(60).collect();
        stands(&ran, &text);
        assert!(took < most, "{field}: {took:.2} s for {text}");
    }
    // A little more is refused, with what and how much.
    for (row, part) in [
        (
            serde_json::json!({"item": "x".repeat(1_001)}),
            "`item` holds 1001 bytes",
        ),
        (
            serde_json::json!({"item": "x", "description": "x".repeat(4_001)}),
            "`description` holds 4001 bytes",
        ),
        (
            serde_json::json!({"item": "x", "components": vec!["rice"; 201]}),
            "201 components, more than 200",
        ),
    ] {
        let ran = run(
            &home,
            &["menu", "-", "--input", "ndjson", "--format", "csv"],
            format!("{row}\n").as_bytes(),
        );
        assert_eq!(ran.status.code(), Some(1));
        assert!(told(&ran).contains(part), "{}", told(&ran));
    }
    let lines = "1 cup rice\n".repeat(501);
    let ran = run(&home, &["audit", "-"], lines.as_bytes());
    assert_eq!(ran.status.code(), Some(2), "{}", told(&ran));
    assert!(told(&ran).contains("501 components"), "{}", told(&ran));
    let began = std::time::Instant::now();
    stands(
        &run(&home, &["audit", "-"], &lines.as_bytes()[..11 * 500]),
        "500 lines",
    );
    assert!(began.elapsed().as_secs_f64() - start < most);
}

#[cfg(target_os = "linux")]
#[test]
fn no_input_takes_much_memory() {
    use flate2::{Compression, write::GzEncoder};
    const MB: usize = 1 << 20;
    let home = home();
    // 100 MB of one thing, packed: within a name, a key, a cell, a line, a list, an image.
    for (name, before, filling, after) in [
        (
            "name.jsonld",
            "[{\"@type\":\"MenuItem\",\"name\":\"",
            "x",
            "\"}]",
        ),
        ("key.jsonld", "[{\"", "x", "\":1}]"),
        (
            "item.jsonld",
            "{\"hasMenuItem\":[{\"name\":\"a\",\"x\":[",
            "1,",
            "1]}]}",
        ),
        (
            "image.jsonld",
            "[{\"image\":\"",
            "x",
            "\",\"@type\":\"MenuItem\",\"name\":\"rice\"}]",
        ),
        ("cell.csv", "item\nrice\n\"", "x", "\"\nrice\n"),
        ("line.ndjson", "{\"item\":\"", "x", "\"}\n"),
        ("cells.csv", "item\nrice\n", "x,", "\n"),
        ("header.csv", "item,", "x,", "\nrice\n"),
        ("blank.csv", "item\n", "\n", "rice\n"),
    ] {
        let file = path(&home, &format!("{name}.gz"));
        let mut packed = GzEncoder::new(std::fs::File::create(&file).unwrap(), Compression::fast());
        packed.write_all(before.as_bytes()).unwrap();
        let block = filling.repeat(MB / filling.len());
        for _ in 0..100 {
            packed.write_all(block.as_bytes()).unwrap();
        }
        packed.write_all(after.as_bytes()).unwrap();
        packed.finish().unwrap();
        let mut child = trencher(
            home.path(),
            &["menu", &file, "--format", "csv", "--threads", "4"],
        )
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
        let status = format!("/proc/{}/status", child.id());
        let mut most_kb = 0_u64;
        let ended = loop {
            let text = std::fs::read_to_string(&status).unwrap_or_default();
            let line = text.lines().find_map(|line| line.strip_prefix("VmHWM:"));
            let kb = line.and_then(|line| line.trim().trim_end_matches(" kB").parse().ok());
            most_kb = most_kb.max(kb.unwrap_or(0));
            if let Some(ended) = child.try_wait().unwrap() {
                break ended;
            }
            std::thread::sleep(std::time::Duration::from_millis(5));
        };
        assert!(
            ended.code().is_some_and(|code| code <= 3),
            "{name}: {ended}"
        );
        eprintln!("{name}: {} MB", most_kb / 1024);
        assert!(most_kb < 80 * 1024, "{name}: {} MB", most_kb / 1024);
    }
}
