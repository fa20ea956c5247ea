//! Digests: for names, for the precache list, for the browser's integrity check.

use data_encoding::{BASE64, HEXLOWER};
use sha2::{Digest, Sha256, Sha384};

/// SHA-256 in hexadecimal digits.
pub(super) fn sha256(bytes: &[u8]) -> String {
    HEXLOWER.encode(&Sha256::digest(bytes))
}

/// What an `integrity` option of the browser's `fetch` takes.
pub(super) fn integrity(bytes: &[u8]) -> String {
    format!("sha384-{}", BASE64.encode(&Sha384::digest(bytes)))
}

/// The path of a file under `assets/`, with a part of its digest in the name: a changed file gets a new address, so a
/// file at an address never changes and may be kept for ever.
pub(super) fn hashed_path(path: &str, bytes: &[u8]) -> String {
    let name = path.rsplit('/').next().unwrap_or(path);
    let (stem, extension) = name.rsplit_once('.').unwrap_or((name, "bin"));
    let digest = sha256(bytes);
    format!("assets/{stem}-{}.{extension}", &digest[..12])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digests_are_those_of_the_standard() {
        assert_eq!(sha256(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assert_eq!(integrity(b"abc"), "sha384-ywB1P0WjXou1oD1pmsZQBycsMqsO3tFjGotgWkP/W+2AhgcroefMI1i67KE0yCWn");
    }

    #[test]
    fn a_name_keeps_its_ends() {
        assert_eq!(hashed_path("icons/icon-192.png", b"abc"), "assets/icon-192-ba7816bf8f01.png");
    }
}
