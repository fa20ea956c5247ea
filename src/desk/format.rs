//! The open format's name and versions, which its reader and its writer share.

/// The name of the format in every file.
pub(super) const FORMAT: &str = "hundred-parts";
/// The version that is written.
pub(super) const VERSION: u64 = 1;
/// Counts the values that were added to this version of the format since it was first published. A tab that knows fewer
/// would drop the others: it reads such a file, and leaves such a stored document alone.
pub(super) const ADDITIONS: u64 = BATCH_RECORDS;
/// `premixes` of the batch, and the reason for a saponification value that stands out.
pub(super) const PREMIXES_AND_REASONS: u64 = 1;
/// Records of batches, and the references to them.
pub(super) const BATCH_RECORDS: u64 = 2;
