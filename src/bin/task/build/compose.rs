//! From Trunk's output to the published page: names with a digest, and the texts that refer to them.

use serde::Serialize;
use serde_json::to_string;

use super::site::Site;
use super::{GLUE, LINK, PROGRAM, WAY_OUT, WORKER, digest, is_late, precache};
use crate::failure::{Done, Failure};

const BOOT: &str = "boot.js";
const SHELL: &str = "index.html";
/// What [`LINK`] is called on a host: several do not serve what begins with an underscore, and ours does not either.
const LINK_SENT: &str = "parts.js";
const MANIFEST: &str = "manifest.webmanifest";

/// How the lines begin that the build replaces.
const BOOT_LINE: &str = "const PARTS = ";
const WORKER_LINE: &str = "const RELEASE = ";

/// What `boot.js` must know.
#[derive(Serialize)]
struct Parts<'a> {
    glue: String,
    wasm: String,
    integrity: String,
    worker: &'a str,
}

pub(super) fn compose(mut site: Site) -> Done<Site> {
    if let Some(path) = site.files.keys().find(|path| path.starts_with("snippets/")) {
        // A crate that brings JavaScript of its own: it would need a hashed name and a changed import.
        return Err(fault(format!(
            "{path} is a script that a crate brings along; the build does not know what to do with it"
        )));
    }
    let wasm = site.take(PROGRAM)?;
    let wasm_path = digest::hashed_path(PROGRAM, &wasm);
    let [(glue_path, glue), (link_path, link)] = scripts(&mut site, &wasm_path)?;
    let parts = Parts {
        glue: format!("./{glue_path}"),
        wasm: format!("./{wasm_path}"),
        integrity: digest::integrity(&wasm),
        worker: "./sw.js",
    };
    let boot = replace_line(&without_comments(&site.take_text(BOOT)?), BOOT_LINE, &json(&parts)?)?;
    site.files.insert(BOOT.to_owned(), boot.into_bytes());

    let mut shell = without_trunks_links(&site.take_text(SHELL)?);
    for (path, hashed) in [(PROGRAM, &wasm_path), (GLUE, &glue_path)] {
        shell = refer(&shell, path, hashed);
    }
    let mut manifest = site.take_text(MANIFEST)?;
    let named: Vec<String> = site.files.keys().filter(|path| gets_a_digest(path)).cloned().collect();
    for path in named {
        let bytes = match path.ends_with(".css") {
            true => without_comments(&site.take_text(&path)?).into_bytes(),
            false => site.take(&path)?,
        };
        let hashed = digest::hashed_path(&path, &bytes);
        shell = refer(&shell, &path, &hashed);
        manifest = refer(&manifest, &path, &hashed);
        site.files.insert(hashed, bytes);
    }
    site.files.insert(wasm_path, wasm);
    site.files.insert(glue_path, glue.into_bytes());
    site.files.insert(link_path, link.into_bytes());
    site.files.insert(MANIFEST.to_owned(), manifest.into_bytes());
    site.files.insert(SHELL.to_owned(), shell.into_bytes());

    let data: Vec<String> = site.files.keys().filter(|path| path.ends_with(".schema.json")).cloned().collect();
    for path in data {
        let text = without_comments(&site.take_text(&path)?);
        site.files.insert(path, text.into_bytes());
    }

    let worker = without_comments(&site.take_text(WORKER)?);
    let release = precache::release(&site, &worker);
    let worker = replace_line(&worker, WORKER_LINE, &json(&release)?)?;
    site.files.insert(WORKER.to_owned(), worker.into_bytes());
    Ok(site)
}

/// The two scripts that load the program, with their new names and those of what they load; the files of the program that
/// come later get their new names too.
fn scripts(site: &mut Site, wasm_path: &str) -> Done<[(String, String); 2]> {
    let glue = without_comments(&site.take_text(GLUE)?).replace(PROGRAM, file_name(wasm_path));
    let mut link = without_comments(&site.take_text(LINK)?);
    let late: Vec<String> = site.files.keys().filter(|path| is_late(path)).cloned().collect();
    for name in late {
        let bytes = site.take(&name)?;
        let path = digest::hashed_path(&name, &bytes);
        // Checked by the browser like the first file, which `boot.js` fetches.
        let fetched = format!("fetch(new URL(\"./{name}\", import.meta.url))");
        let checked = format!(
            "fetch(new URL(\"./{}\", import.meta.url), {{ integrity: \"{}\" }})",
            file_name(&path),
            digest::integrity(&bytes)
        );
        if !link.contains(&fetched) {
            return Err(fault(format!("{LINK} does not load {name} in the way that the build knows")));
        }
        link = link.replace(&fetched, &checked);
        site.files.insert(path, bytes);
    }
    // From its bytes, which the check has waited for in any case: compiling from the answer would ask for a media type that
    // not every host sends.
    let streamed = "WebAssembly.instantiateStreaming(src, imports)";
    if !link.contains(streamed) {
        return Err(fault(format!("{LINK} compiles nothing in the way that the build knows")));
    }
    let link = link.replace(streamed, "WebAssembly.instantiate(await (await src).arrayBuffer(), imports)");
    // Each names the other, so both take the digest of the two.
    let both = format!("{glue}{link}");
    let [glue_path, link_path] = [GLUE, LINK_SENT].map(|path| digest::hashed_path(path, both.as_bytes()));
    // Where they are fetched from only: the program knows the second by its old name.
    let from = |path: &str| format!("from \"./{path}\"");
    let glue = glue.replace(&from(LINK), &from(file_name(&link_path)));
    let link = link.replace(&from(GLUE), &from(file_name(&glue_path)));
    Ok([(glue_path, glue), (link_path, link)])
}

/// Files that others know by their address keep it: the shell, the worker, the manifest, and data such as a schema.
fn gets_a_digest(path: &str) -> bool {
    let is_code = [".js", ".css"].iter().any(|end| path.ends_with(end));
    (is_code && path != WORKER && path != WAY_OUT) || path.starts_with("icons/")
}

/// Changes each quoted reference to a file, however Trunk or a person wrote it.
fn refer(text: &str, path: &str, hashed: &str) -> String {
    let new = format!("\"./{hashed}\"");
    ["./", "/", ""].iter().fold(text.to_owned(), |text, start| text.replace(&format!("\"{start}{path}\""), &new))
}

/// Trunk leaves its link to the program in the page when it injects no scripts.
fn without_trunks_links(shell: &str) -> String {
    without_lines(shell, |line| line.contains("data-trunk"))
}

/// Comments and indents are for those who read the sources; comments of wasm-bindgen even carry addresses of other
/// servers. Only whole lines go: what stands beside code, or in a text, stays as it is.
fn without_comments(script: &str) -> String {
    let mut inside = false;
    let mut kept = String::with_capacity(script.len());
    for line in script.lines().map(str::trim) {
        let opens = !inside && line.starts_with("/*");
        let comment = inside || opens || line.starts_with("//");
        inside = (inside || opens) && !line.ends_with("*/");
        if !comment && !line.is_empty() {
            kept.push_str(line);
            kept.push('\n');
        }
    }
    kept
}

fn without_lines(text: &str, unwanted: impl Fn(&str) -> bool) -> String {
    text.split_inclusive('\n').filter(|line| !unwanted(line)).collect()
}

fn replace_line(text: &str, start: &str, value: &str) -> Done<String> {
    let mut count = 0;
    let mut new = String::with_capacity(text.len() + value.len());
    for line in text.lines() {
        if line.starts_with(start) {
            count += 1;
            new.extend([start, value, ";"]);
        } else {
            new.push_str(line);
        }
        new.push('\n');
    }
    if count == 1 { Ok(new) } else { Err(fault(format!("{count} lines begin with `{}`, not one", start.trim()))) }
}

fn json(value: &impl Serialize) -> Done<String> {
    to_string(value).map_err(fault)
}

fn file_name(path: &str) -> &str {
    path.rsplit('/').next().unwrap_or(path)
}

fn fault(cause: impl std::fmt::Display) -> Failure {
    Failure::new("composing dist/", cause)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn staged() -> Site {
        let files = [
            (
                "index.html",
                "<link href=\"./hundred-parts_bg.wasm\"><link href=\"./hundred-parts.js\">\n\
                 <script src=\"./boot.js\"></script><link href=\"./base.css\"><link href=\"icons/i.svg\">\n\
                 <link data-trunk rel=\"rust\" href=\"Cargo.toml\">\n",
            ),
            ("manifest.webmanifest", "{\"src\": \"./icons/i.svg\"}"),
            ("boot.js", "{\n  // a note\n  const PARTS = {};\n}\n"),
            ("sw.js", "const RELEASE = {};\n"),
            ("sw-off.js", "// out\n"),
            ("base.css", "p{}"),
            ("icons/i.svg", "<svg/>"),
            ("formula.schema.json", "{}"),
            (
                GLUE,
                "import * as link from \"./__wasm_split.js\"\n{\"./__wasm_split.js\": link}\nnew URL('hundred-parts_bg.wasm')",
            ),
            (
                LINK,
                "import { initSync } from \"./hundred-parts.js\";\nsrc = fetch(new URL(\"./split_lazy.wasm\", import.meta.url));\n\
                 src = fetch(new URL(\"./chunk_1.wasm\", import.meta.url));\n\
                 WebAssembly.instantiateStreaming(src, imports)",
            ),
            (PROGRAM, "\0asm"),
            ("split_lazy.wasm", "\0asm lazy"),
            ("chunk_1.wasm", "\0asm of both"),
        ];
        Site { files: files.iter().map(|(path, text)| ((*path).to_owned(), text.as_bytes().to_vec())).collect() }
    }

    fn text(site: &Site, path: &str) -> String {
        String::from_utf8(site.files[path].clone()).unwrap()
    }

    #[test]
    fn every_reference_follows_its_file() {
        let site = compose(staged()).unwrap();
        let shell = text(&site, "index.html");
        let paths: Vec<&String> = site.files.keys().filter(|path| path.starts_with("assets/")).collect();
        assert_eq!(paths.len(), 8);
        let found_by_scripts = |path: &str| ["/parts-", "_lazy", "/chunk_"].iter().any(|part| path.contains(part));
        for path in paths.iter().filter(|path| !found_by_scripts(path)) {
            assert!(shell.contains(&format!("\"./{path}\"")), "{path} in {shell}");
        }
        assert!(text(&site, "manifest.webmanifest").contains("./assets/i-"));
        assert!(site.files.contains_key("formula.schema.json"));
        assert!(!shell.contains("Cargo.toml"));
    }

    #[test]
    fn the_scripts_of_the_program_find_each_other_and_their_files() {
        let site = compose(staged()).unwrap();
        let find = |part: &str| site.files.keys().find(|path| path.contains(part)).unwrap();
        let (glue, link) = (find("hundred-parts-"), find("/parts-"));
        let (lazy, chunk) = (find("split_lazy-"), find("chunk_1-"));
        let glue_text = text(&site, glue);
        assert!(
            glue_text.contains(file_name(link)) && glue_text.contains("\"./__wasm_split.js\": link"),
            "{glue_text}"
        );
        let link = text(&site, link);
        assert!(
            link.contains(file_name(glue))
                && link.contains(file_name(lazy))
                && link.contains(file_name(chunk))
                && link.contains("sha384-")
                && !link.contains("Streaming"),
            "{link}"
        );
    }

    #[test]
    fn comments_go_by_whole_lines_only() {
        let script = "/* a\n   b */\n  let x = 1; // stays\n\n/** c */\n// gone\nlet y = \"/* no */\";\n";
        assert_eq!(without_comments(script), "let x = 1; // stays\nlet y = \"/* no */\";\n");
    }

    #[test]
    fn the_worker_lists_what_the_boot_script_names() {
        let site = compose(staged()).unwrap();
        let worker = text(&site, "sw.js");
        let boot = site.files.keys().find(|path| path.starts_with("assets/boot-")).unwrap();
        let wasm = site.files.keys().find(|path| path.ends_with(".wasm")).unwrap();
        assert!(worker.contains(&format!("\"./{boot}\"")) && worker.contains(&format!("\"./{wasm}\"")));
        assert!(text(&site, boot).contains("sha384-") && !text(&site, boot).contains("a note"));
        assert!(!worker.contains("\"./sw.js\"") && !worker.contains("sw-off"));
        assert!(site.files.contains_key("sw-off.js"), "under its own name, for whoever needs it");
    }

    #[test]
    fn a_lost_placeholder_stops_the_build() {
        let mut site = staged();
        site.files.insert("sw.js".to_owned(), b"// nothing".to_vec());
        assert!(compose(site).is_err());
    }
}
