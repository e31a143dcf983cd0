//! The command `kaoyi`: see [`kaoyi::cli`].

use std::process::ExitCode;

fn main() -> ExitCode {
    kaoyi::cli::run(std::env::args_os())
}
