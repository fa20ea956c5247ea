//! The data files: tables that are no part of the program, which the page fetches once it has come to rest.
//!
//! Their names and digests are told to the compiler, so the program asks for those of its own release and takes no others.

use std::process::Command;

use hundred_parts::facts::DataFile;
use hundred_parts::{law, names};

use super::digest;
use super::site::Site;
use crate::failure::{Done, Failure};

/// The variable that `src/ui/annexes/files.rs` reads as it is compiled, and the file.
const FILES: [(&str, &DataFile); 2] = [("HP_DATA_LAW", &law::FILE), ("HP_DATA_NAMES", &names::FILE)];

/// Tells the compiler where the page finds each file, and its digest.
pub(super) fn tell(compiler: &mut Command) {
    for (variable, file) in FILES {
        let text = file.written();
        compiler.env(variable, format!("{} {}", path(file, &text), digest::integrity(text.as_bytes())));
    }
}

/// Puts the files into the site.
///
/// # Errors
/// If no part of the program knows one of them.
pub(super) fn add(site: &mut Site) -> Done {
    for (_, file) in FILES {
        let text = file.written();
        let path = path(file, &text);
        let knows = |bytes: &Vec<u8>| bytes.windows(path.len()).any(|part| part == path.as_bytes());
        if !site.files.iter().any(|(name, bytes)| name.ends_with(".wasm") && knows(bytes)) {
            return Err(Failure::new("composing dist/", format!("the program does not ask for {path}")));
        }
        site.files.insert(path, text.into_bytes());
    }
    Ok(())
}

fn path(file: &DataFile, text: &str) -> String {
    digest::hashed_path(&format!("{}.txt", file.name()), text.as_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn data_files_go_where_the_program_looks_for_them() {
        let mut command = Command::new("none");
        tell(&mut command);
        let told: Vec<String> =
            command.get_envs().filter_map(|(_, value)| value?.to_str().map(str::to_owned)).collect();
        let mut site = Site::default();
        assert!(add(&mut site).is_err(), "a program that knows none of them");
        site.files.insert("split_lazy.wasm".to_owned(), told.join("\0").into_bytes());
        add(&mut site).unwrap();
        for one in told {
            let (path, digest) = one.split_once(' ').unwrap();
            assert_eq!(digest, digest::integrity(&site.files[path]));
        }
    }
}
