//! Whether there is room for photographs. They come second: formulas and records must still find room when photographs do not.

/// Bytes that photographs leave free: a thousand times what a formula takes, and more than the records of some hundred batches.
/// A choice of this program.
pub const LEFT_FREE: u64 = 10_000_000;
/// The most bytes of all photographs of a device, and of a file: a file of everything is read whole, and a tablet must have the
/// memory for it. A choice of this program.
pub const MOST_KEPT: u64 = 64_000_000;

/// A number of photographs and their bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tally {
    /// How many.
    pub number: usize,
    /// Of how many bytes in all.
    pub bytes: u64,
}

impl Tally {
    /// One more.
    pub fn add(&mut self, bytes: usize) {
        self.number += 1;
        self.bytes = self.bytes.saturating_add(bytes as u64);
    }

    /// Of photographs of these sizes.
    pub fn of(sizes: impl IntoIterator<Item = usize>) -> Self {
        sizes.into_iter().fold(Self::default(), |mut tally, bytes| {
            tally.add(bytes);
            tally
        })
    }
}

/// What a browser says of the storage of this page, in bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StorageEstimate {
    /// What it takes.
    pub used: u64,
    /// What it may take.
    pub quota: u64,
}

impl StorageEstimate {
    /// What is left of it.
    pub const fn free(self) -> u64 {
        self.quota.saturating_sub(self.used)
    }
}

/// Why there is no room.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoRoom {
    /// The browser has too little left.
    Browser {
        /// What the photographs need, with what is to be left free.
        needs: u64,
        /// What is free.
        free: u64,
    },
    /// It would be more than [`MOST_KEPT`].
    Most {
        /// What the photographs need.
        needs: u64,
        /// What is kept.
        kept: Tally,
    },
}

/// Whether photographs of so many bytes may be kept beside those that are. Where the browser cannot say what it has, only the
/// write shows.
///
/// # Errors
/// Why not.
pub fn has_room(needs: u64, kept: Tally, estimate: Option<StorageEstimate>) -> Result<(), NoRoom> {
    if kept.bytes.saturating_add(needs) > MOST_KEPT {
        return Err(NoRoom::Most { needs, kept });
    }
    match estimate {
        Some(estimate) if estimate.free() < needs.saturating_add(LEFT_FREE) => {
            Err(NoRoom::Browser { needs: needs.saturating_add(LEFT_FREE), free: estimate.free() })
        }
        _ => Ok(()),
    }
}
