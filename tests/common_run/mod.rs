//! Runs of the real binary in a home of its own, with the clock held.
#![allow(dead_code)] // each test takes what it needs of these

use std::ffi::OsStr;
use std::path::Path;
use std::process::{Command, Output, Stdio};

/// Noon where a diner is who lives by no other clock.
pub const NOON: &str = "2026-05-20T12:30:00-04:00[America/New_York]";

/// The command, nothing on its standard input.
pub fn command<S: AsRef<OsStr>>(home: &Path, now: &str, args: &[S]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_trencher"));
    command
        .args(args)
        .env("TRENCHER_HOME", home)
        .env("TRENCHER_NOW", now)
        .env("NO_COLOR", "1")
        .stdin(Stdio::null());
    command
}

/// Runs to the end.
pub fn run_at<S: AsRef<OsStr>>(home: &Path, now: &str, args: &[S]) -> Output {
    command(home, now, args).output().unwrap()
}

/// What it said on standard error.
pub fn told(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// What it printed.
pub fn printed(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// What a run printed that did all that was asked.
pub fn done_at<S: AsRef<OsStr> + std::fmt::Debug>(home: &Path, now: &str, args: &[S]) -> String {
    let output = run_at(home, now, args);
    assert_eq!(output.status.code(), Some(0), "{args:?}: {}", told(&output));
    String::from_utf8(output.stdout).unwrap()
}

/// What was said of a request that is wrong.
pub fn refused_at<S: AsRef<OsStr> + std::fmt::Debug>(home: &Path, now: &str, args: &[S]) -> String {
    let output = run_at(home, now, args);
    assert_eq!(output.status.code(), Some(2), "{args:?}");
    assert!(output.stdout.is_empty(), "{args:?}");
    told(&output)
}
