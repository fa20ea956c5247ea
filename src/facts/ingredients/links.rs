//! What a row of the table has in the other tables.

/// The ids of the rows in the other tables that tell more about this material.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Links<'a> {
    /// Fatty acids, saponification and iodine value.
    pub fat: Option<&'a str>,
    /// Preservative limits and activity.
    pub preservative: Option<&'a str>,
    /// Dissociation constants.
    pub acid_base: Option<&'a str>,
    /// Classification and handling.
    pub hazard: Option<&'a str>,
}
