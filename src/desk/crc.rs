//! CRC-32 of stored copies and links: finds a cut or damaged text. It proves nothing about who wrote it.

/// The CRC-32 of ISO-HDLC (polynomial 0x04C11DB7 reflected), as in gzip and PNG.
///
/// Written here with a table of sixteen entries: the fast crates bring 16 kB of tables that hardly compress, and what is
/// checked here is a few kilobytes.
pub fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!0u32, |crc, byte| {
        let low = (crc >> 4) ^ TABLE[((crc ^ u32::from(*byte)) & 15) as usize];
        (low >> 4) ^ TABLE[((low ^ (u32::from(*byte) >> 4)) & 15) as usize]
    })
}

const TABLE: [u32; 16] = {
    let mut table = [0u32; 16];
    let mut n = 0;
    while n < 16 {
        let mut value = n as u32;
        let mut bit = 0;
        while bit < 4 {
            value = if value & 1 == 1 { (value >> 1) ^ 0xEDB8_8320 } else { value >> 1 };
            bit += 1;
        }
        table[n] = value;
        n += 1;
    }
    table
};

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
}
