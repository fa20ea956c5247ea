//! The open format's name and versions, which its reader and its writer share.

/// The name of the format in every file.
pub(super) const FORMAT: &str = "hundred-parts";
/// The version that is written.
pub(super) const VERSION: u64 = 1;
/// Counts the values that were added to this version of the format since it was first published. A tab that knows fewer
/// would drop the others: it reads such a file, and leaves such a stored document alone.
pub(super) const ADDITIONS: u64 = LOTS_TO_THE_END;
/// `premixes` of the batch, and the reason for a saponification value that stands out.
pub(super) const PREMIXES_AND_REASONS: u64 = 1;
/// Records of batches, and the references to them.
pub(super) const BATCH_RECORDS: u64 = 2;
/// Names of kept versions.
pub(super) const VERSION_NAMES: u64 = 3;
/// Methods of formulas, and what happens to a batch besides the setting of its pH.
pub(super) const METHODS: u64 = 4;
/// What was delivered, paid and lasts of a lot, prices of ingredients, and what a batch costs beside its materials.
pub(super) const STOCK: u64 = 5;
/// Checks of a meter, and whether a reading was steady.
pub(super) const METER_CHECKS: u64 = 6;
/// Stability studies of batches.
pub(super) const STUDIES: u64 = 7;
/// Photographs of samples.
pub(super) const PHOTOGRAPHS: u64 = 8;
/// For how long a lot is good once it is opened, and the lot that a dose of acid or base was made from.
pub(super) const LOTS_TO_THE_END: u64 = 9;
