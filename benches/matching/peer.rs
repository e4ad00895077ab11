//! The peer: a Python program that gets the same names and queries as JSON and answers with
//! its times and the names it took.

use super::queries::Asked;
use std::io::Write;
use std::process::{Command, Stdio};
use trencher::foods::FoodId;

const PROGRAM: &str = concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/benches/peer/rapidfuzz_peer.py"
);

/// One way in which the peer was asked.
pub struct Row {
    /// Package, version and scorer.
    pub name: String,
    /// Microseconds for one query, on one thread.
    pub us_each: f64,
    /// Queries for which it took a name of the right food.
    pub right: usize,
}

/// What became of it.
pub enum Answer {
    /// Times and answers.
    Ran(Vec<Row>),
    /// Why there are none.
    Absent(String),
}

#[derive(serde::Deserialize)]
struct Reply {
    name: String,
    seconds: f64,
    taken: Vec<Option<usize>>,
}

/// Asks the peer, if it is there.
pub fn run(
    names: &[(String, FoodId)],
    asked: &[Asked],
) -> Result<Answer, Box<dyn std::error::Error>> {
    let python = std::env::var("PEER_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let there = Command::new(&python)
        .args(["-c", "import rapidfuzz"])
        .stderr(Stdio::null())
        .status();
    if !there.is_ok_and(|status| status.success()) {
        return Ok(Answer::Absent(format!(
            "`{python}` cannot import `rapidfuzz` (pip install rapidfuzz; PEER_PYTHON names another interpreter)"
        )));
    }
    let mut child = Command::new(&python)
        .arg(PROGRAM)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()?;
    let request = serde_json::json!({
        "names": names.iter().map(|(name, _)| name).collect::<Vec<_>>(),
        "queries": asked.iter().map(|query| &query.text).collect::<Vec<_>>(),
    });
    if let Some(mut input) = child.stdin.take() {
        input.write_all(request.to_string().as_bytes())?;
    }
    let output = child.wait_with_output()?;
    if !output.status.success() {
        return Ok(Answer::Absent(format!("it ended with {}", output.status)));
    }
    let replies: Vec<Reply> = serde_json::from_slice(&output.stdout)?;
    let row = |reply: Reply| Row {
        us_each: reply.seconds * 1e6 / asked.len() as f64,
        right: asked
            .iter()
            .zip(&reply.taken)
            .filter(|(query, taken)| {
                taken.and_then(|at| names.get(at)).map(|n| n.1) == Some(query.food)
            })
            .count(),
        name: reply.name,
    };
    Ok(Answer::Ran(replies.into_iter().map(row).collect()))
}
