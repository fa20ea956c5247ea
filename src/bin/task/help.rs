//! What the commands are.

use crate::failure::Done;
use crate::say::{complain, say};

const HELP: &str = "\
cargo task COMMAND

  setup [--test]            find or install what the build needs; with --test also what the tests need
  build                     set up, then build the release into dist/
  serve [--lan] [--port N]  set up, build, then serve dist/ on this machine (127.0.0.1:8080);
                            --lan serves the local network too, --port 0 takes any free port
        [--no-build]        serve dist/ as it is
        [--dist FOLDER]     serve another folder as it is
  test [--quick]            every check and test; --quick leaves out all that needs a browser or the build
  sheet FILE|-              print the computed sheet of a document as JSON
  names FILE|-              print what each line names as JSON, one object a line
  bench [--host]            time what the maker waits for, on the host and on the finished page, as ratios;
                            --host leaves out the page
        [--scipy PYTHON]    a Python that has scipy is timed on oil swaps too
        [--lighthouse]      what Lighthouse says of the finished page alone; it is installed first (200 MB)
        [--doses] [--full]  the next pH dose on simulated batches alone; 10 000 a row with --full
  papers FILE|- FOLDER      write weigh sheet, lye sheet of a soap, label, safety sheet and assessor's bundle as HTML
                            that prints
  law [--from FOLDER]       make the compact data of the law from the exports in src/law/annexes/; with --from take new
                            exports from a folder, and print what changed in every entry
  soak                      what the tests do in short, at length: all of the following
        --properties        the property tests with many more cases [--cases N] [--seed N]
        --fuzz              every reader of outside text under changed texts [--runs N] [--seed N]
        --faults            the campaigns of faults in a browser, on dist/ as it is
  help                      this text
";

pub(crate) fn show() -> Done {
    say!("{}", HELP.trim_end());
    Ok(())
}

pub(crate) fn complain(command: Option<&str>) {
    match command {
        Some(word) => complain!("cargo task: no command `{word}`\n\n{HELP}"),
        None => complain!("{HELP}"),
    }
}
