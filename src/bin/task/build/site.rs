//! The files of the page, in memory.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use crate::failure::{Done, Failure};

/// Path inside the site, with `/` between its parts, and content.
#[derive(Default)]
pub(super) struct Site {
    pub(super) files: BTreeMap<String, Vec<u8>>,
}

impl Site {
    pub(super) fn read(folder: &Path) -> Done<Self> {
        let mut site = Self::default();
        site.gather(folder, "").map_err(|error| Failure::new(format!("reading {}", folder.display()), error))?;
        Ok(site)
    }

    fn gather(&mut self, folder: &Path, prefix: &str) -> std::io::Result<()> {
        for entry in folder.read_dir()? {
            let entry = entry?;
            let path = format!("{prefix}{}", entry.file_name().to_string_lossy());
            if entry.file_type()?.is_dir() {
                self.gather(&entry.path(), &format!("{path}/"))?;
            } else {
                self.files.insert(path, fs::read(entry.path())?);
            }
        }
        Ok(())
    }

    /// Takes a file out.
    pub(super) fn take(&mut self, path: &str) -> Done<Vec<u8>> {
        let missing = || Failure::new("composing dist/", format!("Trunk left no {path}"));
        self.files.remove(path).ok_or_else(missing)
    }

    /// Takes a text out.
    pub(super) fn take_text(&mut self, path: &str) -> Done<String> {
        String::from_utf8(self.take(path)?)
            .map_err(|_| Failure::new("composing dist/", format!("{path} is not a text")))
    }

    /// Writes all of it beside the old one and then changes places, so that no one is served a half.
    pub(super) fn write(&self, folder: &Path) -> Done {
        let fresh = folder.with_extension("new");
        self.write_into(folder, &fresh).map_err(|error| Failure::new(format!("writing {}", folder.display()), error))
    }

    fn write_into(&self, folder: &Path, fresh: &Path) -> std::io::Result<()> {
        remove(fresh)?;
        for (path, bytes) in &self.files {
            let file: PathBuf = fresh.join(path);
            if let Some(parent) = file.parent() {
                fs::create_dir_all(parent)?;
            }
            fs::write(file, bytes)?;
        }
        remove(folder)?;
        fs::rename(fresh, folder)
    }
}

fn remove(folder: &Path) -> std::io::Result<()> {
    match fs::remove_dir_all(folder) {
        Err(error) if error.kind() != std::io::ErrorKind::NotFound => Err(error),
        _ => Ok(()),
    }
}
