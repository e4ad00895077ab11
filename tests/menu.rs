//! Whole menus through the real binary: what goes in, what comes out, and what happens when
//! something is wrong with either.

use assert_cmd::Command;
use flate2::Compression;
use flate2::read::MultiGzDecoder;
use flate2::write::GzEncoder;
use std::fmt::Write as _;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::Stdio;
use tempfile::TempDir;

fn trencher() -> Command {
    let mut command = Command::cargo_bin("trencher").expect("the binary is built");
    command
        .env("NO_COLOR", "1")
        .env("TRENCHER_HOME", std::env::temp_dir().join("trencher-none"));
    command
}

fn binary() -> PathBuf {
    PathBuf::from(env!("CARGO_BIN_EXE_trencher"))
}

/// What a run printed and how it ended.
struct Ran {
    out: Vec<u8>,
    err: String,
    code: Option<i32>,
}

impl Ran {
    fn text(&self) -> String {
        String::from_utf8(self.out.clone()).expect("UTF-8")
    }

    /// The rows as CSV records with named cells.
    fn rows(&self) -> Vec<std::collections::HashMap<String, String>> {
        csv::Reader::from_reader(self.out.as_slice())
            .deserialize()
            .collect::<Result<_, _>>()
            .unwrap_or_else(|e| panic!("{e}\n{}", self.text()))
    }

    fn items(&self) -> Vec<String> {
        self.rows().iter().map(|r| r["item"].clone()).collect()
    }
}

fn menu(args: &[&str], input: impl Into<Vec<u8>>) -> Ran {
    let output = trencher()
        .arg("menu")
        .args(args)
        .write_stdin(input)
        .output()
        .expect("runs");
    Ran {
        out: output.stdout,
        err: String::from_utf8(output.stderr).expect("UTF-8"),
        code: output.status.code(),
    }
}

fn folder() -> TempDir {
    tempfile::tempdir().expect("a folder")
}

fn path(folder: &TempDir, name: &str) -> String {
    folder.path().join(name).to_string_lossy().into_owned()
}

fn write(folder: &TempDir, name: &str, bytes: impl AsRef<[u8]>) -> String {
    let path = path(folder, name);
    std::fs::write(&path, bytes).expect("writes");
    path
}

fn packed(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::fast());
    encoder.write_all(bytes).expect("packs");
    encoder.finish().expect("packs")
}

fn unpacked(path: impl AsRef<Path>) -> Vec<u8> {
    let mut bytes = Vec::new();
    MultiGzDecoder::new(std::fs::File::open(path).expect("opens"))
        .read_to_end(&mut bytes)
        .expect("unpacks");
    bytes
}

const FOODS: [&str; 12] = [
    "1 cup white rice",
    "grilled chicken breast 5 oz",
    "2 slices bacon",
    "1/2 cup black beans",
    "2 cups romaine",
    "ranch dressing 2 fl oz",
    "1 oz cheddar",
    "half an avocado",
    "3 corn tortillas",
    "salmon 6 oz",
    "1 cup broccoli",
    "french fries 5 oz",
];

/// A menu of so many items; every tenth is bad when `faulty`.
fn many(rows: usize, faulty: bool) -> String {
    let mut text = "item,components,served,energy_kcal\n".to_owned();
    for at in 0..rows {
        let parts: Vec<String> = (0..3)
            .map(|n| FOODS[(at * 5 + n * 7 + at / 11) % FOODS.len()].to_owned())
            .collect();
        let energy = if faulty && at % 10 == 3 {
            "much".to_owned()
        } else {
            (300 + at % 700).to_string()
        };
        let _ = writeln!(text, "Plate {at},\"{}\",,{energy}", parts.join("; "));
    }
    text
}

#[test]
fn one_item_gets_its_figures() {
    let ran = menu(
        &["-", "--format", "csv", "--energy", "2000"],
        "item,components,energy_kcal\nBowl,6 oz grilled chicken breast; 1 cup white rice,300\n",
    );
    assert_eq!(ran.code, Some(0), "{}", ran.err);
    let row = &ran.rows()[0];
    let figure = |name: &str| row[name].parse::<f64>().expect(name);
    assert!((380.0..520.0).contains(&figure("energy_kcal")), "{row:?}");
    assert!(figure("energy_kcal_low") < figure("energy_kcal"));
    assert!(figure("protein_foods_portions") > 5.0);
    assert!((figure("grains_portions") - 2.0).abs() < 0.4, "{row:?}");
    assert_eq!(row["printed"], "below");
    assert_eq!(row["held_by"], "protein_foods");
    // A meal may hold the day's 5.5 ounce-equivalents: they are an amount to reach.
    let fits = figure("fitted_share") * figure("protein_foods_oz_eq");
    assert!((fits - 5.5).abs() < 0.1, "{row:?}");
}

#[test]
fn figures_are_those_of_audit() {
    let ran = menu(
        &["-", "--format", "ndjson"],
        "item,components\nPlate,2 cups romaine; grilled chicken breast 6 oz; ranch dressing 2 fl oz\n",
    );
    let row: serde_json::Value = serde_json::from_slice(&ran.out).expect("JSON");
    let audit = trencher()
        .args(["audit", "--format", "json"])
        .args(["--item", "2 cups romaine"])
        .args(["--item", "grilled chicken breast 6 oz"])
        .args(["--item", "ranch dressing 2 fl oz"])
        .output()
        .expect("runs");
    let audit: serde_json::Value = serde_json::from_slice(&audit.stdout).expect("JSON");
    for group in audit["groups"].as_array().expect("groups") {
        let key = group["group"].as_str().expect("key");
        for end in ["low", "likely", "high"] {
            let whole = group["amount"][end].as_f64().expect("figure");
            let own = row["groups"][key]["amount"][end].as_f64().expect("figure");
            assert!((whole - own).abs() < 0.0051, "{key} {end}: {whole} {own}");
        }
        match group["share"].as_f64() {
            Some(share) => {
                let own = row["groups"][key]["share"].as_f64().expect("share");
                assert!((share - own).abs() < 0.0051, "{key}");
            }
            None => assert!(row["groups"][key]["share"].is_null()),
        }
    }
    for limit in audit["limits"].as_array().expect("limits") {
        let key = limit["name"].as_str().expect("key");
        let whole = limit["amount"]["likely"].as_f64().expect("figure");
        let own = row["limits"][key]["amount"]["likely"]
            .as_f64()
            .expect("figure");
        assert!((whole - own).abs() < 0.051, "{key}: {whole} {own}");
    }
}

#[test]
fn general_words_are_made_exact_as_in_an_audit() {
    let folder = folder();
    let foods = |json: &serde_json::Value| -> Vec<String> {
        let list = json["components"].as_array().expect("components");
        list.iter().map(|c| c["food"].to_string()).collect()
    };
    let mut all = Vec::new();
    for (name, lines) in [
        (
            "Chicken Caesar salad",
            ["grilled chicken", "romaine", "dressing"],
        ),
        ("House plate", ["grilled chicken", "romaine", "dressing"]),
        ("Burger", ["beef patty", "bun", "cheese"]),
    ] {
        for amount in ["50 g", ""] {
            let mut dish = format!("name = \"{name}\"\n");
            for food in lines {
                let _ = writeln!(dish, "[[component]]\nfood = \"{food}\"");
                if !amount.is_empty() {
                    let _ = writeln!(dish, "amount = \"{amount}\"");
                }
            }
            let file = write(&folder, "dish.toml", dish);
            let audit = trencher()
                .args(["audit", &file, "--format", "json"])
                .output();
            let audit = serde_json::from_slice(&audit.expect("runs").stdout).expect("JSON");
            let parts: Vec<String> = lines.iter().map(|l| format!("{amount} {l}")).collect();
            let row = format!("item,components\n{name},{}\n", parts.join(";"));
            let ran = menu(&["-", "--format", "ndjson"], row);
            let row = serde_json::from_slice(&ran.out).expect("JSON");
            assert_eq!(foods(&row), foods(&audit), "{name}");
            all.push(foods(&row));
        }
    }
    assert!(
        all[0].contains(&"\"Caesar dressing\"".to_owned()),
        "{all:?}"
    );
    assert!(
        !all[2].contains(&"\"Caesar dressing\"".to_owned()),
        "{all:?}"
    );
}

#[test]
fn the_three_forms_say_the_same() {
    let as_csv = menu(
        &["-", "--format", "ndjson"],
        "item,components,served,energy_kcal\nSoup,1 cup lentil soup; 1 bread roll,,330\n",
    );
    let as_lines = menu(
        &["-"],
        "{\"item\":\"Soup\",\"components\":[\"1 cup lentil soup\",\"1 bread roll\"],\"energy_kcal\":330}\n",
    );
    assert_eq!(as_csv.text(), as_lines.text());
    assert_eq!(as_csv.code, Some(0), "{}", as_csv.err);
}

#[test]
fn rows_are_the_same_for_any_number_of_threads() {
    let text = many(3_000, true);
    let one = menu(&["-", "--format", "csv", "--threads", "1"], text.clone());
    let three = menu(&["-", "--format", "csv", "--threads", "3"], text.clone());
    let packed = menu(
        &["-", "--format", "csv", "--threads", "2"],
        packed(text.as_bytes()),
    );
    assert_eq!(one.rows().len(), 2_700);
    assert_eq!(one.out, three.out);
    assert_eq!(one.out, packed.out);
    assert_eq!(one.err, three.err);
    assert_eq!(one.code, Some(1));
}

#[test]
fn bad_rows_are_told_with_line_and_reason_and_kept_unchanged() {
    let folder = folder();
    let rejects = path(&folder, "bad.csv");
    let text = "item,components,energy_kcal\nA,1 cup rice,much\n\"B, \"\"b\"\"\",1 cup rice,\n,1 cup rice,5\nC,zzyzx qwxv,\nD,1 cup rice,1,2\n";
    let ran = menu(&["-", "--format", "csv", "--rejects", &rejects], text);
    assert_eq!(ran.code, Some(1));
    assert_eq!(ran.items(), ["B, \"b\""]);
    for told in [
        "-:2: `much` is no energy",
        "-:4: `item` is empty",
        "-:5: nothing in it means a food",
        "-:6: 4 cells for 3 columns",
    ] {
        assert!(ran.err.contains(told), "{told}\n{}", ran.err);
    }
    assert_eq!(
        std::fs::read_to_string(&rejects).expect("rejects"),
        "item,components,energy_kcal\nA,1 cup rice,much\n,1 cup rice,5\nC,zzyzx qwxv,\nD,1 cup rice,1,2\n"
    );
}

#[test]
fn a_gzip_cut_short_gives_what_it_holds() {
    let folder = folder();
    let text = many(4_000, false);
    let whole = packed(text.as_bytes());
    let file = write(&folder, "menu.csv.gz", &whole[..whole.len() / 2]);
    let out = path(&folder, "out.csv");
    let ran = menu(&[&file, "-o", &out], "");
    assert_eq!(ran.code, Some(3), "{}", ran.err);
    assert!(ran.err.contains("breaks off"), "{}", ran.err);
    assert!(!Path::new(&out).exists());
    let partial = std::fs::read(path(&folder, "out.csv.partial")).expect("partial");
    let rows = csv::Reader::from_reader(partial.as_slice()).into_records();
    let rows = rows.collect::<Result<Vec<_>, _>>().expect("whole rows");
    assert!(rows.len() > 500 && rows.len() < 4_000, "{}", rows.len());
    let single = menu(&["-", "--format", "csv"], text);
    assert!(single.out.starts_with(&partial));
}

#[test]
fn line_ends_of_every_kind_may_be_mixed() {
    let ran = menu(
        &["-", "--format", "csv"],
        "item,components\r\nA,1 cup rice\nB,\"1 cup\nrice\"\rC,1 cup rice\r\n\r\nD,zzyzx\r\n",
    );
    assert_eq!(ran.items(), ["A", "B", "C"]);
    assert!(ran.err.contains("-:7: nothing"), "{}", ran.err);
}

#[test]
fn a_quote_left_open_costs_its_own_line_only() {
    let ran = menu(
        &["-", "--format", "csv"],
        "item,components\nA,1 cup rice\n\"B,1 cup rice\nC,\"1 cup rice; 1 egg\"\nD,1 cup rice\n",
    );
    assert_eq!(ran.items(), ["A", "C", "D"]);
    assert!(ran.err.contains("-:3: a quote opens here"), "{}", ran.err);
    let last = menu(
        &["-", "--format", "csv"],
        "item,components\nA,1 cup rice\n\"B,1 cup rice\nC,1 cup rice",
    );
    assert_eq!(last.items(), ["A", "C"]);
}

#[test]
fn a_giant_cell_is_set_aside_whole() {
    let folder = folder();
    let rejects = path(&folder, "bad.csv");
    let giant = format!("Giant,\"{}\",1 cup rice\n", "x".repeat(3 << 19));
    let text = format!("item,description,components\nA,,1 cup rice\n{giant}B,,1 cup rice\n");
    let ran = menu(&["-", "--format", "csv", "--rejects", &rejects], text);
    assert_eq!(
        (ran.items(), ran.code),
        (vec!["A".to_owned(), "B".to_owned()], Some(1))
    );
    assert!(ran.err.contains("-:3: 15728"), "{}", ran.err);
    let kept = std::fs::read_to_string(&rejects).expect("rejects");
    assert!(kept.ends_with(&giant));
}

#[test]
fn nul_bytes_and_other_codings_are_refused_by_the_row() {
    let ran = menu(
        &["-", "--format", "csv"],
        b"item,components\nA\0,1 cup rice\nCr\xe8me,1 cup rice\nB,1 cup rice\n".to_vec(),
    );
    assert_eq!(ran.items(), ["B"]);
    assert!(ran.err.contains("-:2: a NUL byte at 2"), "{}", ran.err);
    assert!(
        ran.err
            .contains("-:3: not UTF-8 text (first wrong byte at 3"),
        "{}",
        ran.err
    );
}

#[test]
fn headers_say_what_is_wrong_with_them() {
    let twice = menu(&["-", "--format", "csv"], "item,served,Item\nA,,B\n");
    assert_eq!(twice.code, Some(2));
    assert!(
        twice
            .err
            .contains("two columns are called `Item` (columns 1 and 3)"),
        "{}",
        twice.err
    );
    let none = menu(&["-", "--format", "csv"], "dish,kcal\nA,5\n");
    assert_eq!(none.code, Some(2));
    assert!(
        none.err
            .contains("no column is called `item`; there are: dish, kcal"),
        "{}",
        none.err
    );
    let more = menu(
        &["-", "--format", "csv"],
        "price,item,components,price\n5,A,1 cup rice,6\n",
    );
    assert_eq!((more.code, more.items()), (Some(0), vec!["A".to_owned()]));
    assert!(
        more.err.contains("not used: columns `price`, `price`"),
        "{}",
        more.err
    );
    let empty = menu(&["-", "--format", "csv"], "");
    assert_eq!(empty.code, Some(2));
}

#[test]
fn formulas_in_names_stay_text() {
    let ran = menu(
        &["-", "--format", "csv"],
        "item,components\n\"=HYPERLINK(\"\"x\"\")\",1 cup rice\n@SUM(A1),1 cup rice;=1+1 zzyzx\n+1,1 cup rice\n-2,1 cup rice\n",
    );
    for row in ran.rows() {
        for cell in row.values() {
            assert!(
                !cell.starts_with(['=', '+', '-', '@', '\t']),
                "{cell} in {row:?}"
            );
        }
    }
    assert_eq!(ran.items()[0], "'=HYPERLINK(\"x\")");
}

#[test]
fn linked_data_may_be_nested_or_a_list() {
    let nested = r#"{"@context":"https://schema.org","@type":"Menu","hasMenuSection":[
        {"@type":"MenuSection","name":"Mains","hasMenuItem":[
          {"@type":"MenuItem","name":"Grilled salmon","description":"Grilled salmon with white rice","nutrition":{"calories":"640 calories"}},
          {"@type":"MenuItem","description":"nameless"}],
         "hasMenuSection":{"hasMenuItem":{"@type":"MenuItem","name":"Chicken Caesar salad"}}}]}"#;
    let folder = folder();
    let rejects = path(&folder, "bad.jsonl");
    let ran = menu(&["-", "--format", "csv", "--rejects", &rejects], nested);
    assert!(ran.err.contains("`item` is empty"), "{}", ran.err);
    let kept = std::fs::read_to_string(&rejects).expect("rejects");
    assert!(
        kept.contains("\"@type\":\"MenuItem\",\"description\":\"nameless\"}\n"),
        "{kept}"
    );
    let list = format!("[{nested},{{\"@graph\":[{{\"@type\":\"MenuItem\",\"name\":\"Soup\"}}]}}]");
    let more = menu(&["-", "--format", "csv"], list);
    assert_eq!(ran.code, Some(1));
    assert_eq!(
        more.err.matches("`item` is empty").count(),
        1,
        "{}",
        more.err
    );
    let broken = menu(&["-", "--format", "csv"], &nested[..nested.len() - 30]);
    assert_eq!(broken.code, Some(3), "{}", broken.err);
}

#[test]
#[cfg(target_os = "linux")]
fn a_full_disk_is_told_and_nothing_panics() {
    let folder = folder();
    let file = write(&folder, "menu.csv", many(3_000, false));
    let full = menu(&[&file, "-o", "/dev/full"], "");
    assert_eq!(full.code, Some(3));
    assert!(full.err.contains("No space left"), "{}", full.err);
    let device = std::fs::OpenOptions::new()
        .write(true)
        .open("/dev/full")
        .expect("device");
    let status = std::process::Command::new(binary())
        .args(["menu", &file, "--format", "csv"])
        .stdout(device)
        .stderr(Stdio::null())
        .status()
        .expect("runs");
    assert_eq!(status.code(), Some(3));
}

#[test]
fn a_closed_pipe_is_quiet() {
    let folder = folder();
    let file = write(&folder, "menu.csv", many(30_000, false));
    let mut child = std::process::Command::new(binary())
        .args(["menu", &file, "--format", "ndjson"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("runs");
    let mut first = [0; 100];
    let mut out = child.stdout.take().expect("piped");
    out.read_exact(&mut first).expect("reads");
    drop(out);
    let ended = child.wait_with_output().expect("ends");
    assert_eq!(ended.status.code(), Some(0));
    assert!(
        ended.stderr.is_empty(),
        "{}",
        String::from_utf8_lossy(&ended.stderr)
    );
}

#[test]
fn of_many_bad_rows_the_first_are_told_and_all_are_kept() {
    let folder = folder();
    let told = |ran: &Ran| ran.err.lines().filter(|l| l.contains("`much`")).count();
    let file = write(&folder, "menu.csv", many(500, true));
    let rejects = path(&folder, "bad.csv");
    let ran = menu(&[&file, "--format", "csv", "--rejects", &rejects], "");
    assert_eq!(ran.code, Some(1));
    assert_eq!(told(&ran), 20, "{}", ran.err);
    assert!(
        ran.err.contains("30 more rows cannot be used"),
        "{}",
        ran.err
    );
    assert!(ran.err.contains(&rejects), "{}", ran.err);
    let kept = std::fs::read_to_string(&rejects).expect("rejects");
    assert_eq!(kept.lines().count(), 51, "the header and 50 rows");
    let bare = menu(&["-", "--format", "csv"], many(210, true));
    assert_eq!(told(&bare), 20, "{}", bare.err);
    assert!(bare.err.contains("1 more row cannot"), "{}", bare.err);
    assert!(bare.err.contains("--rejects FILE"), "{}", bare.err);
    let few = menu(&["-", "--format", "csv"], many(200, true));
    assert_eq!(told(&few), 20, "{}", few.err);
    assert!(!few.err.contains("more row"), "{}", few.err);
}

/// Under a heading of drinks a colour or a fruit is the drink, not the food of that name.
#[test]
fn under_a_heading_of_drinks_names_are_drinks() {
    let ran = menu(
        &["-", "--format", "ndjson"],
        "item,section\n\"White, 6 oz\",Wine\nStrawberry,Smoothies\n\"Pepper, 20 fl oz\",Drinks\nHouse salad,Drinks and salads\n",
    );
    let foods: Vec<String> = ran
        .text()
        .lines()
        .map(|line| {
            let item: serde_json::Value = serde_json::from_str(line).expect("JSON");
            item["components"][0]["food"]
                .as_str()
                .unwrap_or_default()
                .to_owned()
        })
        .collect();
    assert_eq!(foods[..2], ["white wine", "fruit smoothie"], "{}", ran.err);
    assert!(
        foods[2].contains("soda") && foods[3].contains("greens"),
        "{foods:?}"
    );
}

/// What a drink holds beyond its cup is sugar, not a bucket of it; an espresso is a shot.
#[test]
fn no_drink_is_larger_than_its_cup() {
    let rows = "item\nKombucha\nRistretto\nEspresso\nMoscow mule\nCortado\nLarge caramel frappe\n";
    for row in menu(&["-"], rows).rows() {
        let grams: f64 = row["grams"].parse().expect("a number");
        assert!((30.0..900.0).contains(&grams), "{}: {grams} g", row["item"]);
    }
    let espresso = menu(&["-"], "item\nEspresso\n").rows();
    assert!(espresso[0]["grams"].parse::<f64>().expect("a number") < 100.0);
}

/// Twice as many pieces are twice as much, whatever restaurants print of such servings.
#[test]
fn counts_of_a_line_multiply() {
    let rows = "item\n3 beef tacos\n6 beef tacos\nGlass of red wine\n2 glasses of red wine\n1 slice pepperoni pizza\n4 slices pepperoni pizza\n";
    let rows = menu(&["-"], rows).rows();
    let grams = |at: usize| rows[at]["grams"].parse::<f64>().expect("a number");
    for (one, more, times) in [(0, 1, 2.0), (2, 3, 2.0), (4, 5, 4.0)] {
        let name = &rows[more]["item"];
        assert!(
            (grams(more) / grams(one) / times - 1.0).abs() < 0.02,
            "{name}"
        );
    }
}

/// Fries beside what is held in the hand are a serving of their own, not a part of the sandwich.
#[test]
fn fries_beside_a_sandwich_come_on_top_of_it() {
    let rows = "item\nTurkey club sandwich\nTurkey club sandwich with fries\nMushroom burger\n\"Mushroom burger, onion rings\"\n";
    let ran = menu(&["-"], rows);
    let kcal: Vec<f64> = ran
        .rows()
        .iter()
        .map(|row| row["energy_kcal"].parse().expect("a number"))
        .collect();
    assert!(
        kcal[1] > 1.25 * kcal[0] && kcal[3] > 1.25 * kcal[2],
        "{kcal:?}"
    );
}

#[test]
fn what_cannot_be_gone_on_with_is_refused() {
    let folder = folder();
    let file = write(&folder, "menu.csv", many(20, false));
    let out = path(&folder, "out.csv");
    let sorted = ["-o", &out, "--sort", "energy", "--resume", "5"];
    let ran = menu(&[&[file.as_str()], sorted.as_slice()].concat(), "");
    assert_eq!(ran.code, Some(2), "{}", ran.err);
    let names_both = ran.err.contains("--resume") && ran.err.contains("--sort");
    assert!(names_both, "{}", ran.err);
    assert!(!Path::new(&out).exists());
    #[cfg(feature = "parquet")]
    {
        let out = path(&folder, "out.parquet");
        let ran = menu(&[&file, "-o", &out, "--resume", "5"], "");
        assert_eq!(ran.code, Some(2), "{}", ran.err);
        assert!(ran.err.contains("leave --resume out"), "{}", ran.err);
    }
}

#[test]
#[cfg(unix)]
fn a_stopped_run_goes_on_to_the_same_bytes() {
    let folder = folder();
    let text = many(60_000, true);
    let file = write(&folder, "menu.csv", &text);
    for (out, rejects) in [("out.csv", "bad.csv"), ("out.csv.gz", "bad2.csv")] {
        let (out, rejects) = (path(&folder, out), path(&folder, rejects));
        let child = std::process::Command::new(binary())
            .args([
                "menu",
                &file,
                "-o",
                &out,
                "--rejects",
                &rejects,
                "--threads",
                "2",
            ])
            .stderr(Stdio::piped())
            .spawn()
            .expect("runs");
        let working = format!("{out}.partial");
        // As soon as rows are there, not the header alone.
        while std::fs::metadata(&working).map_or(0, |m| m.len()) < 4_000 {
            std::thread::sleep(std::time::Duration::from_millis(5));
        }
        let sent = std::process::Command::new("kill")
            .args(["-INT", &child.id().to_string()])
            .status()
            .expect("kill runs");
        assert!(sent.success());
        let ended = child.wait_with_output().expect("ends");
        let told = String::from_utf8_lossy(&ended.stderr).into_owned();
        assert_eq!(ended.status.code(), Some(1), "{told}");
        let at = told
            .split("--resume ")
            .nth(1)
            .and_then(|t| t.split_whitespace().next())
            .unwrap_or_else(|| panic!("says where to go on: {told}"));
        let done: usize = at.parse().expect("a number");
        assert!(done > 0 && done < 60_000, "{done}");
        let ran = menu(
            &[&file, "-o", &out, "--rejects", &rejects, "--resume", at],
            "",
        );
        assert_eq!(ran.code, Some(1), "{}", ran.err);
        let once = path(&folder, "once.csv");
        let bad = path(&folder, "once-bad.csv");
        menu(&[&file, "-o", &once, "--rejects", &bad, "--force"], "");
        let both = if Path::new(&out).extension().is_some_and(|e| e == "gz") {
            unpacked(&out)
        } else {
            std::fs::read(&out).expect("out")
        };
        assert!(both == std::fs::read(&once).expect("once"), "rows differ");
        assert_eq!(
            std::fs::read(&rejects).expect("rejects"),
            std::fs::read(&bad).expect("rejects")
        );
        assert!(!Path::new(&working).exists());
    }
    let none = menu(
        &[&file, "-o", &path(&folder, "new.csv"), "--resume", "5"],
        "",
    );
    assert_eq!(none.code, Some(2), "{}", none.err);
}

#[test]
fn filters_choose_and_sorting_orders() {
    let text = many(500, false);
    let all = menu(&["-", "--format", "csv"], text.clone());
    let energy = |row: &std::collections::HashMap<String, String>| {
        row["energy_kcal"].parse::<f64>().expect("energy")
    };
    let low = menu(
        &["-", "--format", "csv", "--where", "energy below 500"],
        text.clone(),
    );
    let expected = all.rows().iter().filter(|r| energy(r) < 500.0).count();
    assert!(expected > 10 && low.rows().len().abs_diff(expected) <= 1);
    let sorted = menu(
        &["-", "--format", "csv", "--sort", "energy", "--falling"],
        text.clone(),
    );
    let figures: Vec<f64> = sorted.rows().iter().map(energy).collect();
    assert_eq!(figures.len(), 500);
    assert!(figures.windows(2).all(|w| w[0] >= w[1]));
    let top = menu(
        &[
            "-",
            "--format",
            "csv",
            "--sort",
            "energy",
            "--falling",
            "--top",
            "7",
        ],
        text.clone(),
    );
    assert_eq!(top.items(), sorted.items()[..7]);
    let wrong = menu(&["-", "--where", "energy is low"], text);
    assert_eq!(wrong.code, Some(2));
    assert!(wrong.err.contains("`low` at character 11"), "{}", wrong.err);
}

#[test]
fn words_asked_for_bring_the_caution_on_allergens() {
    let ran = menu(
        &["-", "--format", "csv", "--where", "not contains \"bacon\""],
        "item,components\nA,2 slices bacon\nB,1 cup rice\n",
    );
    assert_eq!(ran.items(), ["B"]);
    assert!(
        ran.err.contains("cannot rule an allergen in or out"),
        "{}",
        ran.err
    );
}

#[test]
fn the_summary_names_both_ends_and_what_was_not_read() {
    let ran = menu(&["demo-data/lunch-menu.csv", "--format", "text"], "");
    let text = ran.text();
    for part in [
        "Fit this meal best",
        "Furthest beyond a day",
        "More than a whole day of",
        "Energy, kcal an item",
        "Sodium, mg an item",
        "Allergens cannot be ruled out",
    ] {
        assert!(text.contains(part), "{part}\n{text}");
    }
    assert!(text.lines().all(|l| l.chars().count() <= 80), "{text}");
}

#[test]
fn a_dash_is_standard_output_and_no_file() {
    let folder = TempDir::new().expect("folder");
    let output = trencher()
        .current_dir(folder.path())
        .args(["menu", "-", "-o", "-", "--format", "csv"])
        .write_stdin("item\nhummus\n")
        .output()
        .expect("runs");
    assert_eq!(
        output.stdout,
        menu(&["-", "--format", "csv"], "item\nhummus\n").out
    );
    assert!(!output.stdout.is_empty());
    let left = std::fs::read_dir(folder.path()).expect("folder").count();
    assert_eq!(left, 0);
}

#[test]
fn keys_go_along_and_nothing_is_lost_on_the_way() {
    let text =
        "{\"key\":\"a7\",\"item\":\"rice\"}\n{\"key\":8,\"item\":\"\"}\n{\"item\":\"zzyzx\"}\n";
    let ndjson = ["-", "--input", "ndjson", "--format", "ndjson", "--keyed"];
    let ran = menu(&ndjson, text);
    assert_eq!(ran.code, Some(1), "{}", ran.err);
    let rows: Vec<serde_json::Value> = ran
        .text()
        .lines()
        .map(|line| serde_json::from_str(line).expect("JSON"))
        .collect();
    assert_eq!(rows.len(), 3);
    assert_eq!(
        (&rows[0]["key"], &rows[0]["item"]),
        (&"a7".into(), &"rice".into())
    );
    assert_eq!(rows[1]["key"], "8");
    assert!(
        rows[1]["reason"]
            .as_str()
            .expect("a reason")
            .contains("`item` is empty")
    );
    assert_eq!(rows[1]["row"], "{\"key\":8,\"item\":\"\"}");
    assert!(rows[2]["key"].is_null() && rows[2]["reason"].is_string());
    let ran = menu(&["-", "--format", "csv", "--keyed"], "item\nrice\n");
    assert_eq!(ran.code, Some(2), "{}", ran.err);
}

#[test]
fn a_menu_that_repeats_says_the_same_each_time() {
    let once = many(300, true);
    let (head, rows) = once.split_once('\n').expect("a header");
    let first = menu(&["-", "--format", "csv"], once.clone());
    let ran = menu(
        &["-", "--format", "csv"],
        format!("{head}\n{}", rows.repeat(5)),
    );
    let text = first.text();
    let expected = text.split_once('\n').expect("a header").1.repeat(5);
    assert_eq!(ran.text().split_once('\n').expect("a header").1, expected);
}

#[test]
fn the_report_is_a_page_of_its_own() {
    let folder = folder();
    let page = path(&folder, "report.html");
    let ran = menu(&["demo-data/menu.csv", "-o", &page, "--energy", "2000"], "");
    assert_eq!(ran.code, Some(0), "{}", ran.err);
    let text = std::fs::read_to_string(&page).expect("page");
    assert!(text.starts_with("<!DOCTYPE html>"), "{text}");
    for part in ["Fit this meal best", "Energy, kcal an item", "Take care"] {
        assert!(text.contains(part), "{part}");
    }
    // A drawing names its namespace, which nothing fetches.
    let text = text.replace("http://www.w3.org/2000/svg", "");
    assert!(!text.contains("http://") && !text.contains("https://"));
}

/// The names in a part of a page, in order.
fn named(page: &scraper::Html, part: &str) -> Vec<String> {
    let selector = scraper::Selector::parse(part).expect("a selector");
    let found = page.select(&selector);
    found.map(|e| e.text().collect::<String>()).collect()
}

#[test]
fn the_page_draws_both_ends_and_no_item_stands_at_both() {
    let folder = folder();
    let page = path(&folder, "Lunch_at noon.html");
    let menu_file = "demo-data/lunch-menu.csv";
    let ran = menu(&[menu_file, "-o", &page], "");
    assert_eq!(ran.code, Some(0), "{}", ran.err);
    let text = std::fs::read_to_string(&page).expect("page");
    let page = scraper::Html::parse_document(&text);
    assert_eq!(named(&page, "h1"), ["lunch-menu"]);
    let ends = named(&page, ".end bdi");
    assert!(ends.len() > 8, "{ends:?}");
    let once: std::collections::HashSet<&String> = ends.iter().collect();
    assert_eq!(once.len(), ends.len(), "{ends:?}");
    let drawn = named(&page, ".cards svg title");
    assert_eq!(drawn.len(), named(&page, ".cards li").len());
    assert!(!drawn.is_empty() && drawn.len() <= 8, "{drawn:?}");
    // All plates at one scale.
    let scale = scraper::Selector::parse(".cards svg").expect("a selector");
    let scales: std::collections::HashSet<&str> = page
        .select(&scale)
        .filter_map(|svg| svg.value().attr("data-units-per-cm"))
        .collect();
    assert_eq!(scales.len(), 1);
    assert!(named(&page, ".every thead th").contains(&"Printed kcal".to_owned()));
}

#[test]
fn the_page_says_what_was_not_counted_and_leaves_out_what_nobody_printed() {
    let folder = folder();
    let page = path(&folder, "report.html");
    let text = "item,components\nTwo things,1 cup rice;3 oz zzyzx qwerty\n";
    let ran = menu(&["-", "-o", &page], text);
    assert_eq!(ran.code, Some(1), "{}", ran.err);
    let text = std::fs::read_to_string(&page).expect("page");
    let page = scraper::Html::parse_document(&text);
    assert_eq!(named(&page, "h1"), ["Menu"]);
    assert_eq!(
        named(&page, ".every .omitted"),
        ["not counted: 3 oz zzyzx qwerty"]
    );
    assert!(!named(&page, ".every thead th").contains(&"Printed kcal".to_owned()));
}

/// Names and descriptions as menus print them; ours.
const DESCRIBED: [(&str, &str); 20] = [
    (
        "Harbour Plate",
        "grilled salmon, brown rice, steamed broccoli",
    ),
    (
        "Harvest Bowl",
        "roasted sweet potato, quinoa, kale, chickpeas, tahini dressing",
    ),
    ("The Farmhouse", "two eggs, bacon, toast, hash browns"),
    ("Cobb Salad", "chicken, bacon, egg, avocado, blue cheese"),
    (
        "Fish and Chips",
        "beer-battered cod, served with fries and tartar sauce",
    ),
    ("Caesar Salad", "romaine, parmesan, croutons, add shrimp"),
    ("Cobb Salad", "no egg, garlic bread on the side"),
    (
        "Corner Club",
        "turkey, bacon, lettuce and tomato on toasted white bread",
    ),
    ("Shoreline Tacos", "3 fish tacos, slaw, chipotle mayo"),
    (
        "Mushroom Risotto",
        "arborio rice, mushrooms, parmesan, white wine",
    ),
    ("Garden Omelette", "with spinach, tomato, goat cheese"),
    (
        "Pasta of the Day",
        "penne, marinara, italian sausage, mozzarella",
    ),
    (
        "Mill Street Burger",
        "beef patty, cheddar, lettuce, tomato, brioche bun, fries",
    ),
    (
        "Grilled Chicken",
        "over rice pilaf, served with green beans",
    ),
    (
        "Poke Bowl",
        "tuna, sushi rice, edamame, cucumber, spicy mayo",
    ),
    (
        "Breakfast Burrito",
        "scrambled eggs, black beans, cheese, salsa, flour tortilla",
    ),
    ("Lentil Soup", "lentils, carrots, celery, olive oil"),
    (
        "Sunday Roast",
        "roast beef, roasted potatoes, gravy, yorkshire pudding",
    ),
    (
        "Pad Thai",
        "rice noodles, shrimp, egg, peanuts, bean sprouts",
    ),
    (
        "Berry Waffle",
        "waffle, strawberries, whipped cream, maple syrup",
    ),
];

/// A name and its description mean the same dish, whether they stand in two columns, in one
/// cell, or in what a person types.
#[test]
fn a_described_item_is_the_same_dish_however_it_is_printed() {
    let mut rows = String::from("item,description\n");
    let mut typed = Vec::new();
    for (name, described) in DESCRIBED {
        let list = described.contains(',');
        let forms = [
            format!("{name}: {described}"),
            format!("{name} - {described}"),
            format!("{name} \u{2013} {described}"),
            if list {
                format!("{name} ({described})")
            } else {
                format!("{name}: {described}")
            },
        ];
        let _ = writeln!(rows, "{name},\"{described}\"");
        for form in &forms {
            let _ = writeln!(rows, "\"{form}\",");
        }
        typed.extend(forms.into_iter().take(1));
    }
    let ran = menu(&["-", "--format", "ndjson"], rows);
    let text = ran.text();
    let items: Vec<serde_json::Value> = text
        .lines()
        .map(|line| serde_json::from_str(line).expect("JSON"))
        .collect();
    assert_eq!(items.len(), 5 * DESCRIBED.len(), "{}", ran.err);
    let output = trencher()
        .args(["audit", "--format", "json"])
        .args(&typed)
        .output()
        .expect("runs");
    let audits: Vec<serde_json::Value> = serde_json::Deserializer::from_slice(&output.stdout)
        .into_iter()
        .collect::<Result<_, _>>()
        .expect("JSON");
    assert_eq!(audits.len(), DESCRIBED.len());
    for ((five, audit), (name, _)) in items.chunks(5).zip(&audits).zip(DESCRIBED) {
        let [columns, one_cell @ ..] = five else {
            panic!("{name}")
        };
        for other in one_cell {
            for figure in [
                "grams",
                "energy_kcal",
                "groups",
                "limits",
                "components",
                "certainty",
            ] {
                assert_eq!(columns[figure], other[figure], "{}", other["item"]);
            }
        }
        assert_eq!(audit["dish"], *name);
        for end in ["low", "likely", "high"] {
            let typed = audit["served_grams"][end].as_f64().expect("grams");
            let row = columns["grams"][end].as_f64().expect("grams");
            assert!((typed - row).abs() <= 0.051, "{name}: {typed} g, {row} g");
        }
        let typed = audit["nutrients"]["energy_kcal"].as_f64().expect("kcal");
        let row = columns["energy_kcal"]["likely"].as_f64().expect("kcal");
        assert!(
            (typed - row).abs() <= 0.51,
            "{name}: {typed} kcal, {row} kcal"
        );
    }
}
