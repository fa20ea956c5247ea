//! What the commands print. All of it goes through here, for one reason: who reads may stop reading (`cargo task sheet … |
//! head`), and then there is nothing to complain of.
//!
//! Rust leaves it to each write to notice that the pipe is closed, and `println!` panics there. The lints of `main.rs` keep
//! it out.

use std::fmt::Arguments;
use std::io::{self, ErrorKind, Write};
use std::process::ExitStatus;

/// What a shell sees of a program that a closed pipe has ended: 128 and the number of the signal, 13.
const CLOSED_PIPE: i32 = 141;

/// A line on standard output.
macro_rules! say {
    ($($words:tt)*) => { $crate::say::line(&mut std::io::stdout().lock(), format_args!($($words)*)) };
}
/// A line on standard error.
macro_rules! complain {
    ($($words:tt)*) => { $crate::say::line(&mut std::io::stderr().lock(), format_args!($($words)*)) };
}
pub(crate) use {complain, say};

/// Writes a line, or ends the process: quietly where nobody reads any more.
pub(crate) fn line(to: &mut impl Write, words: Arguments<'_>) {
    let Err(error) = writeln!(to, "{words}").and_then(|()| to.flush()) else { return };
    if error.kind() != ErrorKind::BrokenPipe {
        // If not even that can be said, the status has to.
        let _ = writeln!(io::stderr(), "cargo task cannot write: {error}");
        std::process::exit(1);
    }
    std::process::exit(CLOSED_PIPE);
}

/// Ends as a child did that wrote to the same closed pipe.
pub(crate) fn end_with(child: ExitStatus) {
    #[cfg(unix)]
    let signal = std::os::unix::process::ExitStatusExt::signal(&child);
    #[cfg(not(unix))]
    let signal = None;
    if child.code() == Some(CLOSED_PIPE) || signal == Some(CLOSED_PIPE - 128) {
        std::process::exit(CLOSED_PIPE);
    }
}
