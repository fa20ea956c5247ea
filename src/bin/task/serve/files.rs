//! From the path of a request to a file.

use std::path::Path;

/// A file and its media type.
pub(super) struct Found {
    pub(super) kind: &'static str,
    pub(super) bytes: Vec<u8>,
}

/// Finds a file inside `folder`, which must be a canonical path.
pub(super) fn find(folder: &Path, path: &str) -> Option<Found> {
    let mut relative = decode(path)?.trim_start_matches('/').to_owned();
    if relative.is_empty() || relative.ends_with('/') {
        relative.push_str("index.html");
    }
    // A file for the host, such as `_headers`, is not for visitors.
    let is_plain = |part: &str| !part.is_empty() && !part.starts_with(['.', '_']) && !part.contains(['\\', '\0', ':']);
    if !relative.split('/').all(is_plain) {
        return None;
    }
    // A link inside the folder may still lead out of it.
    let file = folder.join(&relative).canonicalize().ok()?;
    let is_inside = file.starts_with(folder) && file.is_file();
    is_inside.then(|| std::fs::read(file).ok()).flatten().map(|bytes| Found { kind: kind(&relative), bytes })
}

fn kind(path: &str) -> &'static str {
    match path.rsplit('.').next() {
        Some("html") => "text/html; charset=utf-8",
        Some("js" | "mjs") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("webmanifest") => "application/manifest+json",
        Some("json") => "application/json",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("woff2") => "font/woff2",
        Some("txt" | "md") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

/// Resolves `%20` and the like; `None` where that gives no text.
fn decode(path: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(path.len());
    let mut rest = path.as_bytes();
    while let Some((&first, after)) = rest.split_first() {
        if first != b'%' {
            bytes.push(first);
            rest = after;
            continue;
        }
        let (digits, after) = after.split_at_checked(2)?;
        if !digits.iter().all(u8::is_ascii_hexdigit) {
            return None;
        }
        bytes.push(u8::from_str_radix(std::str::from_utf8(digits).ok()?, 16).ok()?);
        rest = after;
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::decode;

    #[test]
    fn percent_signs_are_resolved_or_refused() {
        assert_eq!(decode("/a%20b").as_deref(), Some("/a b"));
        assert_eq!(decode("/%2e%2e/x").as_deref(), Some("/../x"));
        for bad in ["/%", "/%2", "/%zz", "/%+1", "/%ff"] {
            assert_eq!(decode(bad), None, "{bad}");
        }
    }
}
