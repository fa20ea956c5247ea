//! Chromium and its driver, for the tests.

use std::path::PathBuf;

use super::{apt, found};
use crate::child;
use crate::failure::{Done, Failure};
use crate::project::Project;

/// The programs.
pub(crate) struct Browser {
    pub(crate) chromium: PathBuf,
    pub(crate) driver: PathBuf,
}

pub(crate) fn provide(project: &Project) -> Done<Browser> {
    // The journeys read the printed pages as text.
    if child::find("pdftotext").is_none() {
        apt::install(project, &["poppler-utils"], "the tests of printed pages", "a few seconds")?;
    }
    if let Some(browser) = ready() {
        found("Chromium", &browser.chromium);
        return Ok(browser);
    }
    apt::install(
        project,
        &["chromium", "chromium-driver", "fonts-dejavu-core"],
        "the tests in a browser",
        "about 2 minutes",
    )?;
    ready().ok_or_else(|| {
        Failure::new("finding Chromium", "neither `chromium` with `chromedriver` on PATH nor named by the environment")
            .by_hand("set CHROMIUM and CHROMEDRIVER to the two programs, of the same version")
    })
}

fn ready() -> Option<Browser> {
    let chromium = child::named("CHROMIUM")
        .or_else(|| ["chromium", "chromium-browser", "google-chrome"].iter().find_map(|name| child::find(name)))?;
    let driver = child::named("CHROMEDRIVER").or_else(|| child::find("chromedriver"))?;
    Some(Browser { chromium, driver })
}
