//! What must hold for the finished page, whoever changed which file: nothing inline, nobody else's server, no reference
//! that leads nowhere. The content policy would stop the first two in the browser; here they stop the build.

use super::site::Site;
use crate::failure::{Done, Failure};
use crate::project::crate_sources;

/// Names of formats that look like addresses. Nothing is fetched from them.
const NAMESPACES: [&str; 6] = [
    "http://www.w3.org/2000/svg",
    "http://www.w3.org/1999/xhtml",
    "http://www.w3.org/1999/xlink",
    "http://www.w3.org/1998/Math/MathML",
    "http://www.w3.org/XML/1998/namespace",
    "http://www.w3.org/2000/xmlns/",
];

pub(super) fn inspect(site: &Site) -> Done {
    let mut faults = Vec::new();
    for (path, bytes) in &site.files {
        let text = String::from_utf8_lossy(bytes);
        if path.ends_with(".html") {
            faults.extend(inline(&text).map(|what| format!("{path}: {what}")));
            faults.extend(dangling(site, &text).map(|to| format!("{path}: {to} is not there")));
            faults.extend(unsent(site, &text).map(|rule| format!("_headers: lacks `{rule}` of the policy in {path}")));
        }
        if [".html", ".css", ".js", ".svg", ".webmanifest"].iter().any(|end| path.ends_with(end)) {
            faults.extend(elsewhere(&text).map(|address| format!("{path}: address of another server: {address}")));
        }
        if path.ends_with(".css") && text.contains("url(") && !text.contains("url(\"data:") {
            faults.push(format!("{path}: url() to a file, which its new folder would break; use a data: address"));
        }
    }
    if let Some(sources) = crate_sources() {
        faults.extend(naming(site, &sources.display().to_string()));
    }
    if faults.is_empty() { Ok(()) } else { Err(Failure::new("checking dist/", faults.join("\n       "))) }
}

/// Programs in which a folder of this machine is named: whoever builds the page need not be.
fn naming(site: &Site, folder: &str) -> impl Iterator<Item = String> {
    let named = |bytes: &[u8]| bytes.windows(folder.len()).any(|part| part == folder.as_bytes());
    let naming = site.files.iter().filter(move |(path, bytes)| path.ends_with(".wasm") && named(bytes));
    naming.map(move |(path, _)| format!("{path}: names {folder}, a folder of this machine"))
}

/// Scripts and styles inside the markup.
fn inline(html: &str) -> impl Iterator<Item = String> {
    tags(html).filter_map(|tag| {
        let lower = tag.to_ascii_lowercase();
        let name = lower.split(|c: char| c.is_whitespace() || c == '/').next().unwrap_or_default();
        let script = name == "script" && !attributes(&lower).any(|(key, _)| key == "src");
        let attribute = attributes(&lower).find(|(key, _)| *key == "style" || key.starts_with("on"));
        match attribute {
            _ if script => Some("a script inside the page".to_owned()),
            _ if name == "style" => Some("a style inside the page".to_owned()),
            Some((key, _)) => Some(format!("the attribute {key}= in <{tag}>")),
            None => None,
        }
    })
}

/// References to files that the site does not have.
fn dangling<'a>(site: &Site, html: &'a str) -> impl Iterator<Item = &'a str> {
    tags(html).flat_map(attributes).filter(|(key, _)| matches!(*key, "src" | "href")).map(|(_, value)| value).filter(
        |value| {
            let path = value.strip_prefix("./").unwrap_or(value);
            !path.starts_with('#') && !site.files.contains_key(path)
        },
    )
}

/// Rules of the page's own content policy that hosts are not told: the two must not drift apart.
fn unsent<'a>(site: &'a Site, html: &'a str) -> impl Iterator<Item = &'a str> {
    let policies = tags(html).flat_map(attributes).filter(|(_, value)| value.starts_with("default-src"));
    let sent = site.files.get("_headers").map(|bytes| String::from_utf8_lossy(bytes)).unwrap_or_default();
    policies.flat_map(|(_, policy)| policy.split(';').map(str::trim)).filter(move |rule| !sent.contains(rule))
}

/// Addresses with a server in them.
fn elsewhere(text: &str) -> impl Iterator<Item = &str> {
    text.match_indices("://").filter_map(|(at, _)| {
        let head = &text[..at];
        let start = head.rfind(|c: char| !c.is_ascii_alphabetic()).map_or(0, |before| before + 1);
        let rest = &text[start..];
        let end = rest.find(|c: char| c.is_whitespace() || "\"'`)<>;".contains(c)).unwrap_or(rest.len());
        let address = &rest[..end];
        (start < at && !NAMESPACES.contains(&address)).then_some(address)
    })
}

/// The inside of each opening tag.
fn tags(html: &str) -> impl Iterator<Item = &str> {
    html.split('<').skip(1).filter(|part| part.starts_with(|c: char| c.is_ascii_alphabetic())).map(|part| {
        let mut quoted = false;
        let end = part.find(|c: char| {
            quoted ^= c == '"';
            c == '>' && !quoted
        });
        &part[..end.unwrap_or(part.len())]
    })
}

/// Names and values of a tag's attributes. The page is our own and quotes with `"` or not at all.
fn attributes(tag: &str) -> impl Iterator<Item = (&str, &str)> {
    let mut rest = tag.find(|c: char| c.is_whitespace() || c == '/').map_or("", |end| &tag[end..]);
    std::iter::from_fn(move || {
        rest = rest.trim_start_matches(|c: char| c.is_whitespace() || c == '/');
        let end = rest.find(|c: char| c.is_whitespace() || c == '=').unwrap_or(rest.len());
        let (name, after) = rest.split_at(end);
        let value = match after.strip_prefix('=') {
            None => {
                rest = after;
                ""
            }
            Some(quoted) if quoted.starts_with('"') => {
                let (value, behind) = quoted[1..].split_once('"').unwrap_or((&quoted[1..], ""));
                rest = behind;
                value
            }
            Some(bare) => {
                let (value, behind) = bare.split_at(bare.find(char::is_whitespace).unwrap_or(bare.len()));
                rest = behind;
                value
            }
        };
        (!name.is_empty()).then_some((name, value))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn faults(path: &str, text: &str) -> Option<String> {
        let site = Site { files: [(path.to_owned(), text.as_bytes().to_vec())].into() };
        inspect(&site).err().map(|failure| failure.cause().to_owned())
    }

    #[test]
    fn inline_code_is_found() {
        for html in [
            "<script>run()</script>",
            "<script type=module>run()</script>",
            "<STYLE>p{}</STYLE>",
            "<p class=\"a > b\" style=\"color:red\">",
            "<img alt=x ONERROR=\"run()\">",
            "<br/onclick=run()>",
        ] {
            assert!(faults("index.html", html).is_some(), "{html}");
        }
        assert_eq!(faults("index.html", "<p data-on=\"1\" class=\"on style=\">one = two</p>"), None);
    }

    #[test]
    fn other_servers_are_found() {
        assert!(faults("a.js", "fetch('https://example.org/x')").is_some());
        assert!(faults("a.css", "@import \"http://example.org\";").is_some());
        assert_eq!(faults("a.js", "createElementNS('http://www.w3.org/2000/svg', 'p')"), None);
    }

    #[test]
    fn the_policy_is_also_sent() {
        let html = "<meta content=\"default-src 'none'; img-src 'self'\">";
        assert!(faults("index.html", html).is_some_and(|cause| cause.contains("img-src")));
        assert_eq!(faults("index.html", "<meta content=\"no policy\">"), None);
    }

    #[test]
    fn folders_of_this_machine_are_found() {
        let sources = crate_sources().unwrap();
        let text = format!("panicked at {}/registry-1/serde-1.0.0/src/lib.rs", sources.display());
        assert!(faults("a.wasm", &text).is_some_and(|cause| cause.contains("folder of this machine")));
        assert_eq!(faults("a.wasm", "panicked at serde-1.0.0/src/lib.rs"), None);
    }

    #[test]
    fn references_lead_somewhere() {
        assert!(faults("index.html", "<link href=\"./gone.css\">").is_some());
        assert_eq!(faults("index.html", "<a href=\"#top\"></a><a href=\"./index.html\"></a>"), None);
    }
}
