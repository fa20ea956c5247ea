//! Photographs of samples: what one may be, what it is called by, and whether there is room for it.

mod jpeg;
mod room;

pub use jpeg::{Jpeg, bare};
pub use room::{LEFT_FREE, MOST_KEPT, NoRoom, StorageEstimate, Tally, has_room};

use crate::batch::EntryId;
use crate::batch::study::Pull;
use crate::quantity::Day;
use sha2::{Digest, Sha256};

/// The longest side of a photograph that is kept, in pixels: it fills a tablet's screen, and is 300 dots an inch where it is
/// printed 108 mm wide. A choice of this program.
pub const MOST_SIDE: u32 = 1280;
/// The most bytes of one: a hundred of them are 15 MB, which browsers let a page store without asking. A choice of this program.
pub const MOST_BYTES: usize = 150_000;
/// The media type that all are kept in.
pub const MEDIA_TYPE: &str = "image/jpeg";

/// Names a photograph: the SHA-256 of its bytes. So none can be taken for another one, and what a store gives back can be
/// checked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct PhotographId([u8; 32]);

impl PhotographId {
    /// Of these bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// From 64 digits of base 16 in small letters, as `sha256sum` prints them; `None` for anything else.
    pub fn parse(text: &str) -> Option<Self> {
        let digit = |byte: u8| match byte {
            b'0'..=b'9' => Some(byte - b'0'),
            b'a'..=b'f' => Some(byte - b'a' + 10),
            _ => None,
        };
        let mut digits = text.bytes();
        let mut id = [0; 32];
        for byte in &mut id {
            *byte = digit(digits.next()?)? << 4 | digit(digits.next()?)?;
        }
        digits.next().is_none().then_some(Self(id))
    }

    /// As text.
    pub fn text(&self) -> String {
        self.0.iter().map(|byte| format!("{byte:02x}")).collect()
    }

    /// Its first 64 bits: enough to tell those of one study apart.
    pub fn short(&self) -> u64 {
        self.0.iter().take(8).fold(0, |sum, byte| sum << 8 | u64::from(*byte))
    }
}

/// A photograph as an entry of a study names it: its bytes are kept elsewhere, under its digest.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Photograph {
    /// The digest of its bytes.
    pub id: PhotographId,
    /// How many bytes it has, 1 to [`MOST_BYTES`].
    pub bytes: usize,
    /// Its width in pixels, 1 to [`MOST_SIDE`].
    pub width: u32,
    /// Its height in pixels, likewise.
    pub height: u32,
    /// What it shows, in the maker's words; may be empty.
    pub caption: String,
}

/// Why bytes are no photograph that can be kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PhotographProblem {
    /// They are no whole JPEG file.
    NotJpeg,
    /// There is more in them than the picture, such as where it was taken.
    MoreThanPicture,
    /// There are too many of them.
    TooManyBytes(usize),
    /// It is wider or higher than [`MOST_SIDE`].
    TooLarge(u32, u32),
}

impl Photograph {
    /// Of bytes as they are to be kept.
    ///
    /// # Errors
    /// Why they cannot be.
    pub fn of(bytes: &[u8], caption: String) -> Result<Self, PhotographProblem> {
        if bytes.len() > MOST_BYTES {
            return Err(PhotographProblem::TooManyBytes(bytes.len()));
        }
        let Jpeg { bytes: picture, width, height } = bare(bytes).ok_or(PhotographProblem::NotJpeg)?;
        if picture != bytes {
            return Err(PhotographProblem::MoreThanPicture);
        }
        if width.max(height) > MOST_SIDE {
            return Err(PhotographProblem::TooLarge(width, height));
        }
        Ok(Self { id: PhotographId::of(bytes), bytes: bytes.len(), width, height, caption })
    }

    /// Whether these are its bytes.
    pub fn is_of(&self, bytes: &[u8]) -> bool {
        bytes.len() == self.bytes && PhotographId::of(bytes) == self.id
    }
}

/// A photograph of a sample.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StudyPhotograph {
    /// Of which pull.
    pub pull: Pull,
    /// On which day.
    pub on: Day,
    /// What is kept of it.
    pub photograph: Photograph,
    /// The entry that says so.
    pub entry: EntryId,
    /// Why that was crossed out, if it was. The photograph stays where it is.
    pub struck: Option<String>,
}

/// How a picture of this size is drawn and written, best first: width and height in pixels and the quality in percent. The
/// first that comes to no more than [`MOST_BYTES`] is kept. Nothing is ever enlarged.
pub fn attempts(width: u32, height: u32) -> impl Iterator<Item = (u32, u32, u8)> {
    const SIDES: [u32; 5] = [MOST_SIDE, 1024, 800, 640, 400];
    const QUALITIES: [u8; 3] = [85, 70, 55];
    SIDES.into_iter().flat_map(move |side| {
        let (width, height) = fitted(width, height, side);
        QUALITIES.map(|quality| (width, height, quality))
    })
}

/// A size whose longest side is no more than this one, in the same proportion.
fn fitted(width: u32, height: u32, side: u32) -> (u32, u32) {
    let longest = width.max(height).max(1);
    if longest <= side {
        return (width.max(1), height.max(1));
    }
    let scaled = |length: u32| {
        let nearest = (u64::from(length) * u64::from(side) + u64::from(longest) / 2) / u64::from(longest);
        u32::try_from(nearest.max(1)).unwrap_or(side)
    };
    (scaled(width), scaled(height))
}
