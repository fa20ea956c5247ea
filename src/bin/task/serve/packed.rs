//! What is sent compressed, as static hosts send it: each file once, and kept.

use std::collections::HashMap;
use std::io::Write;
use std::sync::Mutex;

/// A level that hosts take for what they compress while they send it.
const QUALITY: u32 = 9;
/// A window of 4 MiB, as large as the largest file needs.
const WINDOW: u32 = 22;

/// Whether files of this kind are sent compressed: pictures and faces are already.
pub(super) fn packs(kind: &str) -> bool {
    kind.starts_with("text/")
        || ["application/wasm", "application/json", "application/manifest+json", "image/svg+xml"].contains(&kind)
}

/// What was compressed by now.
#[derive(Default)]
pub(super) struct Packed(Mutex<HashMap<Vec<u8>, Vec<u8>>>);

impl Packed {
    /// A file, compressed; a second visitor does not wait for it.
    pub(super) fn of(&self, bytes: Vec<u8>) -> Vec<u8> {
        let Ok(mut known) = self.0.lock() else { return compressed(&bytes) };
        known.entry(bytes).or_insert_with_key(|bytes| compressed(bytes)).clone()
    }
}

fn compressed(bytes: &[u8]) -> Vec<u8> {
    let mut packed = Vec::new();
    let mut writer = brotli::CompressorWriter::new(&mut packed, 4096, QUALITY, WINDOW);
    // Writing into memory cannot fail.
    let _ = writer.write_all(bytes);
    drop(writer);
    packed
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Read;

    #[test]
    fn what_is_packed_comes_out_again() {
        let packed = Packed::default();
        let text = b"twelve jars of lotion ".repeat(200);
        for _ in 0..2 {
            let small = packed.of(text.clone());
            assert!(small.len() < text.len() / 10);
            let mut back = Vec::new();
            brotli::Decompressor::new(small.as_slice(), 4096).read_to_end(&mut back).unwrap();
            assert_eq!(back, text);
        }
        assert!(packs("application/wasm") && packs("text/css; charset=utf-8") && !packs("font/woff2"));
    }
}
