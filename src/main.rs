//! The program: hands its arguments to [`latewood::cli::run`] and the answer to the shell.

use std::process::ExitCode;

fn main() -> ExitCode {
    ExitCode::from(latewood::cli::run())
}
