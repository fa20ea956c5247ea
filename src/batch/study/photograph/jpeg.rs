//! What of a JPEG file is its picture. A camera writes more into it: where and when it was taken, with what, and small copies.
//!
//! Source: ITU-T T.81 (1992), annex B (markers and segments); JFIF 1.02; ICC.1 annex B.4 (memory).

/// The picture of a file, and its size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Jpeg {
    /// A file with nothing but the picture and the profile of its colours.
    pub bytes: Vec<u8>,
    /// In pixels.
    pub width: u32,
    /// In pixels.
    pub height: u32,
}

const START: u8 = 0xd8;
const END: u8 = 0xd9;
const SCAN: u8 = 0xda;

/// What is left of a file without all that is no part of its picture. `None` if it is no whole JPEG file.
pub fn bare(file: &[u8]) -> Option<Jpeg> {
    let mut rest = file.strip_prefix(&[0xff, START])?;
    let (mut bytes, mut size, mut scanned) = (vec![0xff, START], None, false);
    loop {
        let (marker, behind) = next_marker(rest)?;
        if marker == END {
            break;
        }
        let length = usize::from(u16::from_be_bytes([*behind.first()?, *behind.get(1)?]));
        let segment = behind.get(..length).filter(|_| length >= 2)?;
        rest = behind.get(length..)?;
        if is_frame(marker) {
            size = Some((side(segment, 5)?, side(segment, 3)?));
        }
        if is_picture(marker, segment.get(2..)?) {
            bytes.extend([0xff, marker]);
            bytes.extend(segment);
        }
        if marker == SCAN {
            let coded = coded_length(rest)?;
            bytes.extend(rest.get(..coded)?);
            rest = rest.get(coded..)?;
            scanned = true;
        }
    }
    bytes.extend([0xff, END]);
    let (width, height) = size.filter(|(width, height)| scanned && *width > 0 && *height > 0)?;
    Some(Jpeg { bytes, width, height })
}

/// The next marker and what stands behind it. Further bytes of ones may stand before one.
fn next_marker(bytes: &[u8]) -> Option<(u8, &[u8])> {
    let behind = bytes.strip_prefix(&[0xff])?;
    let place = behind.iter().position(|byte| *byte != 0xff)?;
    // A marker without a segment stands only within a scan.
    let marker = behind.get(place).copied().filter(|marker| *marker > 0xbf && !(0xd0..=START).contains(marker))?;
    Some((marker, behind.get(place + 1..)?))
}

/// A length of the frame, by its place in the segment.
fn side(segment: &[u8], at: usize) -> Option<u32> {
    Some(u32::from(u16::from_be_bytes([*segment.get(at)?, *segment.get(at + 1)?])))
}

/// Start of frame: all that begin with C but the tables of Huffman and arithmetic coding and what is reserved.
fn is_frame(marker: u8) -> bool {
    (0xc0..=0xcf).contains(&marker) && !matches!(marker, 0xc4 | 0xc8 | 0xcc)
}

/// Whether a segment is needed to draw the picture with its colours.
fn is_picture(marker: u8, inside: &[u8]) -> bool {
    const PLAIN_JFIF: usize = 14;
    match marker {
        // Without a small copy of the picture.
        0xe0 => inside.starts_with(b"JFIF\0") && inside.len() == PLAIN_JFIF,
        0xe2 => inside.starts_with(b"ICC_PROFILE\0"),
        // Says in which of two ways the colours are coded.
        0xee => inside.starts_with(b"Adobe") && inside.len() == 12,
        0xe1 | 0xe3..=0xef | 0xfe => false,
        _ => true,
    }
}

/// How many bytes of a scan stand before the next marker.
fn coded_length(bytes: &[u8]) -> Option<usize> {
    let inside = |next: u8| next == 0 || (0xd0..=0xd7).contains(&next);
    bytes.windows(2).position(|pair| matches!(pair, [0xff, next] if !inside(*next)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn segment(marker: u8, inside: &[u8]) -> Vec<u8> {
        let length = u16::try_from(inside.len() + 2).unwrap().to_be_bytes();
        [&[0xff, marker], &length[..], inside].concat()
    }

    /// A file as browsers write it, 640 by 480, with these segments behind its head.
    fn file(further: &[Vec<u8>]) -> Vec<u8> {
        let mut file = vec![0xff, START];
        file.extend(segment(0xe0, b"JFIF\0\x01\x01\0\0\x01\0\x01\0\0"));
        file.extend(further.concat());
        file.extend(segment(0xdb, &[0; 65]));
        file.extend(segment(0xc0, &[8, 1, 0xe0, 2, 0x80, 1, 1, 0x11, 0]));
        file.extend(segment(0xc4, &[0; 20]));
        file.extend(segment(SCAN, &[1, 1, 0, 0, 63, 0]));
        file.extend([0x12, 0xff, 0x00, 0x34, 0xff, 0xd0, 0x56, 0xff, END]);
        file
    }

    #[test]
    fn picture_stays_byte_by_byte_and_its_size_is_read() {
        let plain = file(&[segment(0xe2, b"ICC_PROFILE\0\x01\x01colours")]);
        assert_eq!(bare(&plain), Some(Jpeg { bytes: plain.clone(), width: 640, height: 480 }));
    }

    #[test]
    fn what_a_camera_writes_beside_the_picture_goes() {
        let kept = file(&[]);
        for beside in [
            segment(0xe1, b"Exif\0\0MM\0*GPS 59.91 N"),
            segment(0xe1, b"http://ns.adobe.com/xap/1.0/\0<x/>"),
            segment(0xe2, b"MPF\0II*"),
            segment(0xed, b"Photoshop 3.0\0"),
            segment(0xfe, b"at home"),
            segment(0xe0, b"JFXX\0\x10small copy"),
        ] {
            assert_eq!(bare(&file(std::slice::from_ref(&beside))).unwrap().bytes, kept, "{beside:?}");
        }
        // A second picture behind the first one, as phones write it.
        assert_eq!(bare(&[file(&[]), file(&[])].concat()).unwrap().bytes, kept);
    }

    #[test]
    fn what_is_no_whole_file_is_refused_at_every_length() {
        let whole = file(&[segment(0xe1, b"Exif\0\0")]);
        for length in 0..whole.len() {
            assert_eq!(bare(&whole[..length]), None, "{length} bytes");
        }
        assert_eq!(bare(b"\x89PNG\r\n\x1a\n"), None);
        assert_eq!(bare(&[0xff, START, 0xff, END]), None, "no picture");
    }

    proptest! {
        /// Whatever comes: no panic, and what is left is left as it is.
        #[test]
        fn any_bytes_are_read(bytes in prop::collection::vec(any::<u8>(), 0..200), at in 0usize..200, with in any::<u8>()) {
            let _ = bare(&bytes);
            let mut file = file(&[segment(0xe1, &bytes)]);
            let at = at % file.len();
            file[at] = with;
            if let Some(once) = bare(&file) {
                prop_assert_eq!(&bare(&once.bytes).unwrap().bytes, &once.bytes);
            }
        }
    }
}
