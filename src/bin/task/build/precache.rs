//! The list by which the service worker fetches and checks its offline copy.

use serde::Serialize;

use super::digest::sha256;
use super::site::Site;

/// Files that are not part of the copy: the worker itself, the one that ends it, and what only a host reads.
const LEFT_OUT: [&str; 3] = ["sw.js", super::WAY_OUT, "_headers"];

#[derive(Serialize)]
pub(super) struct Release {
    version: String,
    files: Vec<Entry>,
}

#[derive(Serialize)]
struct Entry {
    url: String,
    sha256: String,
    bytes: usize,
}

/// The list for a site that is complete but for its worker, whose text counts for the version too: two workers must
/// never share one cache.
pub(super) fn release(site: &Site, worker: &str) -> Release {
    let listed = site.files.iter().filter(|(path, _)| !LEFT_OUT.contains(&path.as_str()));
    let files: Vec<Entry> =
        listed.map(|(path, bytes)| Entry { url: url(path), sha256: sha256(bytes), bytes: bytes.len() }).collect();
    let mut all = worker.to_owned();
    for entry in &files {
        all.push_str(&entry.url);
        all.push_str(&entry.sha256);
    }
    Release { version: sha256(all.as_bytes())[..16].to_owned(), files }
}

/// The shell is fetched by the folder's address, since some hosts answer `index.html` with a redirection to it, and a
/// redirected answer cannot open a page.
fn url(path: &str) -> String {
    if path == "index.html" { "./".to_owned() } else { format!("./{path}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn site(files: &[(&str, &str)]) -> Site {
        Site { files: files.iter().map(|(path, text)| ((*path).to_owned(), text.as_bytes().to_vec())).collect() }
    }

    #[test]
    fn the_shell_goes_by_its_folder_and_the_worker_stays_out() {
        let release = release(&site(&[("index.html", "x"), ("sw.js", "y"), ("_headers", ""), ("a/b.json", "{}")]), "y");
        let urls: Vec<&str> = release.files.iter().map(|entry| entry.url.as_str()).collect();
        assert_eq!(urls, ["./a/b.json", "./"]);
    }

    #[test]
    fn the_version_follows_the_files_and_the_worker() {
        let version = |text, worker| release(&site(&[("index.html", text)]), worker).version;
        assert_eq!(version("x", "w"), version("x", "w"));
        assert_ne!(version("x", "w"), version("y", "w"));
        assert_ne!(version("x", "w"), version("x", "v"));
    }
}
