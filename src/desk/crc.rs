//! CRC-32 of stored copies and links: finds a cut or damaged text. It proves nothing about who wrote it.

use std::sync::LazyLock;

/// The CRC-32 of ISO-HDLC (polynomial 0x04C11DB7 reflected), as in gzip and PNG, four bytes at a time: a shelf may have
/// megabytes.
///
/// Written here, with tables that are made at the first call: the fast crates bring 16 kB of them that hardly compress.
pub fn crc32(bytes: &[u8]) -> u32 {
    let [one, two, three, four] = &*TABLES;
    let at = |table: &[u32; 256], byte: u8| table[usize::from(byte)];
    let (words, rest) = bytes.as_chunks::<4>();
    let crc = words.iter().fold(!0u32, |crc, word| {
        let [a, b, c, d] = (crc ^ u32::from_le_bytes(*word)).to_le_bytes();
        at(four, a) ^ at(three, b) ^ at(two, c) ^ at(one, d)
    });
    !rest.iter().fold(crc, |crc, byte| (crc >> 8) ^ at(one, crc.to_le_bytes()[0] ^ byte))
}

/// What a byte brings that stands last, or before one, two or three others.
static TABLES: LazyLock<[[u32; 256]; 4]> = LazyLock::new(|| {
    let last: [u32; 256] = core::array::from_fn(|byte| {
        (0..8).fold(byte as u32, |value, _| if value & 1 == 1 { (value >> 1) ^ 0xEDB8_8320 } else { value >> 1 })
    });
    let before = |after: &[u32; 256]| after.map(|value| (value >> 8) ^ last[(value & 0xff) as usize]);
    let two = before(&last);
    let three = before(&two);
    [last, two, three, before(&three)]
});

#[cfg(test)]
mod tests {
    use super::*;

    // Source: the check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRC algorithms, and RFC 1952
    // section 8 (the same polynomial); from memory.
    #[test]
    fn crc_matches_the_published_check_value() {
        assert_eq!(crc32(b"123456789"), 0xCBF4_3926);
        assert_eq!(crc32(b""), 0);
    }

    // Source: the definition, one bit at a time.
    #[test]
    fn crc_of_every_length_is_that_of_its_definition() {
        let bytes: Vec<u8> = (0..100u32).map(|n| (n * 167 + 13) as u8).collect();
        for length in 0..bytes.len() {
            let by_bits = !bytes[..length].iter().fold(!0u32, |crc, byte| {
                let step = |crc: u32, _| if crc & 1 == 1 { (crc >> 1) ^ 0xEDB8_8320 } else { crc >> 1 };
                (0..8).fold(crc ^ u32::from(*byte), step)
            });
            assert_eq!(crc32(&bytes[..length]), by_bits, "{length} bytes");
        }
    }
}
