//! The `trencher` command.

use std::process::ExitCode;

fn main() -> ExitCode {
    trencher::cli::run()
}
