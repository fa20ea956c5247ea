//! Bytes as letters of an alphabet of 32 or 64 (RFC 4648, without padding), and back.
//!
//! A library for this brings every alphabet and block size with it, seven kilobytes of the download; a link needs two.

/// An alphabet: how many bits a letter stands for, and the letters.
pub(super) struct Alphabet {
    bits: u32,
    letters: &'static [u8],
}

/// RFC 4648 section 5: letters that need no escape in an address.
pub(super) const BASE64URL: Alphabet =
    Alphabet { bits: 6, letters: b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_" };

/// RFC 4648 section 6: capitals and digits, which a QR code packs tighter.
pub(super) const BASE32: Alphabet = Alphabet { bits: 5, letters: b"ABCDEFGHIJKLMNOPQRSTUVWXYZ234567" };

impl Alphabet {
    /// Bytes as letters; what is left over of the last letter is zero.
    pub(super) fn encode(&self, bytes: &[u8]) -> String {
        let mut text = String::with_capacity(bytes.len() * 2);
        let (mut held, mut count) = (0u32, 0);
        let letter = |value: u32| char::from(self.letters[value as usize & (self.letters.len() - 1)]);
        for byte in bytes {
            held = held << 8 | u32::from(*byte);
            count += 8;
            while count >= self.bits {
                count -= self.bits;
                text.push(letter(held >> count));
            }
        }
        if count > 0 {
            text.push(letter(held << (self.bits - count)));
        }
        text
    }

    /// Letters as bytes; `None` for a foreign letter, or for an end that [`Self::encode`] would not have made.
    pub(super) fn decode(&self, text: &str) -> Option<Vec<u8>> {
        let mut bytes = Vec::with_capacity(text.len());
        let (mut held, mut count) = (0u32, 0);
        for letter in text.bytes() {
            let value = self.letters.iter().position(|known| *known == letter)?;
            held = held << self.bits | value as u32;
            count += self.bits;
            if count >= 8 {
                count -= 8;
                bytes.push((held >> count) as u8);
            }
        }
        let left_over = held & ((1 << count) - 1);
        (count < self.bits && left_over == 0).then_some(bytes)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use data_encoding::{BASE32_NOPAD, BASE64URL_NOPAD};
    use proptest::prelude::*;

    /// Source: RFC 4648 section 10, test vectors, without their padding.
    #[test]
    fn radix_vectors_of_rfc_4648() {
        for (plain, base64, base32) in [
            ("", "", ""),
            ("f", "Zg", "MY"),
            ("fo", "Zm8", "MZXQ"),
            ("foo", "Zm9v", "MZXW6"),
            ("foob", "Zm9vYg", "MZXW6YQ"),
            ("fooba", "Zm9vYmE", "MZXW6YTB"),
            ("foobar", "Zm9vYmFy", "MZXW6YTBOI"),
        ] {
            assert_eq!(BASE64URL.encode(plain.as_bytes()), base64);
            assert_eq!(BASE32.encode(plain.as_bytes()), base32);
            assert_eq!(BASE64URL.decode(base64).as_deref(), Some(plain.as_bytes()));
            assert_eq!(BASE32.decode(base32).as_deref(), Some(plain.as_bytes()));
        }
    }

    proptest! {
        /// Source: the data-encoding library, an independent implementation of RFC 4648.
        #[test]
        fn radix_agrees_with_an_independent_library(bytes in any::<Vec<u8>>(), text in "[A-Za-z0-9_=+ -]{0,40}") {
            prop_assert_eq!(BASE64URL.encode(&bytes), BASE64URL_NOPAD.encode(&bytes));
            prop_assert_eq!(BASE32.encode(&bytes), BASE32_NOPAD.encode(&bytes));
            prop_assert_eq!(BASE64URL.decode(&text), BASE64URL_NOPAD.decode(text.as_bytes()).ok());
            prop_assert_eq!(BASE32.decode(&text), BASE32_NOPAD.decode(text.as_bytes()).ok());
        }
    }
}
