//! The job for a Spark cluster against a standalone master with two workers on this machine,
//! one of which is killed in the middle. Skipped, and said so, without `PySpark` or Java.
#![cfg(unix)]

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

const PARTITIONS: usize = 12;

/// A process that ends with the test.
struct Running(Child);

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

struct Spark {
    python: String,
    home: PathBuf,
}

/// Where `PySpark` lies, if both it and Java are at hand.
fn spark() -> Option<Spark> {
    let python = std::env::var("TRENCHER_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let says = "import os, pyspark; print(os.path.dirname(pyspark.__file__))";
    let found = Command::new(&python).args(["-c", says]).output().ok()?;
    let java = Command::new("java").arg("-version").output().ok()?;
    let home = PathBuf::from(String::from_utf8(found.stdout).ok()?.trim());
    (found.status.success() && java.status.success()).then_some(Spark { python, home })
}

impl Spark {
    fn command(&self, program: &str) -> Command {
        let mut command = Command::new(self.home.join("bin").join(program));
        command
            .env("SPARK_HOME", &self.home)
            .env("SPARK_LOCAL_IP", "127.0.0.1")
            .env("PYSPARK_PYTHON", &self.python)
            .stdin(Stdio::null());
        command
    }

    /// A master or a worker whose words go to a file.
    fn serve(&self, class: &str, args: &[&str], words: &Path) -> Running {
        let file = std::fs::File::create(words).unwrap();
        let child = self
            .command("spark-class")
            .arg(format!("org.apache.spark.deploy.{class}"))
            .args(args)
            .stdout(file.try_clone().unwrap())
            .stderr(file)
            .spawn()
            .unwrap();
        Running(child)
    }

    fn submit(&self, master: &str, args: &[&str]) -> Running {
        let job = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/spark/menu_job.py");
        let child = self
            .command("spark-submit")
            .args([
                "--master",
                master,
                "--conf",
                "spark.ui.enabled=false",
                "--files",
            ])
            .arg(env!("CARGO_BIN_EXE_trencher"))
            .arg(job)
            .args(args)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        Running(child)
    }
}

fn ended(running: Running) -> (bool, String) {
    let mut running = std::mem::ManuallyDrop::new(running);
    let mut out = String::new();
    let (mut stdout, mut stderr) = (
        running.0.stdout.take().unwrap(),
        running.0.stderr.take().unwrap(),
    );
    let words = std::thread::spawn(move || {
        let mut text = String::new();
        std::io::Read::read_to_string(&mut stderr, &mut text).map(|_| text)
    });
    std::io::Read::read_to_string(&mut stdout, &mut out).unwrap();
    let status = running.0.wait().unwrap();
    (status.success(), out + &words.join().unwrap().unwrap())
}

/// Waits until a file holds a word, and returns the file.
fn wait_for(file: &Path, word: &str) -> String {
    let end = Instant::now() + Duration::from_mins(3);
    loop {
        let text = std::fs::read_to_string(file).unwrap_or_default();
        if text.contains(word) {
            return text;
        }
        assert!(Instant::now() < end, "no `{word}` in {text}");
        std::thread::sleep(Duration::from_millis(50));
    }
}

/// What is under a folder, however deep.
fn files(folder: &Path) -> usize {
    let list = std::fs::read_dir(folder).into_iter().flatten().flatten();
    list.map(|item| {
        if item.path().is_dir() {
            files(&item.path())
        } else {
            1
        }
    })
    .sum()
}

/// Rows by key, as JSON, of the Parquet that the job wrote.
fn read(spark: &Spark, out: &str) -> BTreeMap<String, serde_json::Value> {
    let says = "import sys, json\nfrom pyspark.sql import SparkSession\n\
        s = SparkSession.builder.master('local[1]').config('spark.ui.enabled', 'false').getOrCreate()\n\
        for part in ('rows', 'rejects'):\n\
        \x20   for line in s.read.parquet(sys.argv[1] + '/' + part).toJSON().collect():\n\
        \x20       print('ROW' + line)\n";
    let ran = Command::new(&spark.python)
        .args(["-c", says, out])
        .env("SPARK_LOCAL_IP", "127.0.0.1")
        .output()
        .unwrap();
    let text = String::from_utf8(ran.stdout).unwrap();
    let mut rows = BTreeMap::new();
    for line in text.lines().filter_map(|line| line.strip_prefix("ROW")) {
        let row: serde_json::Value = serde_json::from_str(line).unwrap();
        let twice = rows.insert(row["key"].as_str().unwrap().to_owned(), row);
        assert!(twice.is_none(), "a row is there twice: {twice:?}");
    }
    rows
}

fn menu(rows: usize) -> String {
    let foods = [
        "1 cup white rice",
        "2 slices bacon",
        "salmon 6 oz",
        "2 cups romaine",
    ];
    let mut text = String::new();
    for at in 0..rows {
        let item = if at % 25 == 0 {
            serde_json::json!({"id": at, "item": ""})
        } else {
            let parts = [foods[at % 4], foods[(at / 4) % 4]];
            serde_json::json!({"id": at, "item": format!("Plate {at}"), "components": parts})
        };
        let _ = writeln!(text, "{item}");
    }
    text
}

#[test]
#[expect(clippy::too_many_lines, reason = "one cluster, from start to end")]
fn a_worker_is_killed_and_no_row_is_lost_or_doubled() {
    let Some(spark) = spark() else {
        eprintln!("skipped: no python3 with pyspark, or no Java");
        return;
    };
    let asked = std::env::var("TRENCHER_SPARK_ROWS")
        .ok()
        .and_then(|rows| rows.parse().ok());
    let rows: usize = asked.unwrap_or(2_400);
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let text = |name: &str| at(name).to_string_lossy().into_owned();
    std::fs::write(at("menu.ndjson"), menu(rows)).unwrap();
    let _master = spark.serve(
        "master.Master",
        &["--host", "127.0.0.1", "--port", "0", "--webui-port", "0"],
        &at("master.log"),
    );
    let said = wait_for(&at("master.log"), "Starting Spark master at spark://");
    let master = said.split("Starting Spark master at ").nth(1).unwrap();
    let master = master.split_whitespace().next().unwrap().to_owned();
    let worker = |name: &str| {
        let work = text(name);
        let args = [
            "--host",
            "127.0.0.1",
            "--cores",
            "1",
            "--memory",
            "1g",
            "--webui-port",
            "0",
            "--work-dir",
            &work,
            &master,
        ];
        spark.serve("worker.Worker", &args, &at(&format!("{name}.log")))
    };
    let (first, _second) = (worker("first"), worker("second"));
    for name in ["first.log", "second.log"] {
        wait_for(&at(name), "Successfully registered with master");
    }
    let (out, parts) = (text("out"), PARTITIONS.to_string());
    let began = Instant::now();
    let job = spark.submit(
        &master,
        &[
            "--menu",
            &text("menu.ndjson"),
            "--out",
            &out,
            "--key",
            "id",
            "--partitions",
            &parts,
        ],
    );
    // Some of it is done, some is not.
    let end = Instant::now() + Duration::from_mins(5);
    while files(&at("out")) < 4 && Instant::now() < end {
        std::thread::sleep(Duration::from_millis(20));
    }
    drop(first);
    let (fine, words) = ended(job);
    assert!(fine, "{words}");
    eprintln!(
        "{rows} rows, one of two workers killed, in {:.0} s",
        began.elapsed().as_secs_f64()
    );
    let found = read(&spark, &out);
    assert_eq!(found.len(), rows, "{words}");
    // The same rows as a single run, and the same reasons.
    let single = Command::new(env!("CARGO_BIN_EXE_trencher"))
        .args([
            "menu",
            &text("menu.ndjson"),
            "--input",
            "ndjson",
            "--format",
            "ndjson",
        ])
        .output()
        .unwrap();
    let single = String::from_utf8(single.stdout).unwrap();
    let mut used = 0;
    for line in single.lines() {
        let row: serde_json::Value = serde_json::from_str(line).unwrap();
        let id = row["item"]
            .as_str()
            .unwrap()
            .trim_start_matches("Plate ")
            .to_owned();
        for field in ["item", "certainty", "fitted_share", "held_by"] {
            let both = (&found[&id][field], &row[field]);
            assert_eq!(
                both.0.to_string().replace(".0", ""),
                both.1.to_string().replace(".0", ""),
                "{field} of {id}"
            );
        }
        for end in ["low", "likely", "high"] {
            let both = (&found[&id]["energy_kcal"][end], &row["energy_kcal"][end]);
            assert_eq!(both.0.as_f64(), both.1.as_f64(), "{end} of {id}");
        }
        used += 1;
    }
    let rejects = found
        .values()
        .filter(|row| row["reason"].is_string())
        .count();
    assert_eq!(used + rejects, rows);
    // A binary that fails takes the job down with its own words.
    let job = spark.submit(
        "local[1]",
        &[
            "--menu",
            &text("menu.ndjson"),
            "--out",
            &text("bad"),
            "--",
            "--standard",
            "nowhere",
        ],
    );
    let (fine, words) = ended(job);
    assert!(
        !fine && words.contains("no standard and no file is called `nowhere`"),
        "{words}"
    );
}
