//! What names a stored document, and says of which kind it is.

use serde::Serialize;

/// How the ids of records begin.
const BATCH: &str = "batch.";
/// How the ids of studies begin.
const STUDY: &str = "study.";

/// Names a stored document: the key of its copies in every store.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
pub struct DocId(String);

/// What kind of document is stored under an id.
///
/// The id says so and not the meta: a release that does not know a kind may still write the meta of such a document (into
/// the bin, say), and writes back only the fields that it knows. The key of a document is never written anew.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DocumentKind {
    /// A formula with its plan and versions.
    Formula,
    /// The maker's shelf; there is one.
    Shelf,
    /// The record of one batch.
    Batch,
    /// The stability study of one batch.
    Study,
    /// One that a newer release has written: it is left as it is, and neither listed, opened, copied nor removed.
    Unknown,
}

impl DocId {
    /// Of a formula, from 64 random bits, which the page provides.
    pub fn random(bits: u64) -> Self {
        Self(format!("{bits:016x}"))
    }

    /// Of the record of a batch, from 64 random bits, which the page provides.
    pub fn batch(bits: u64) -> Self {
        Self(format!("{BATCH}{bits:016x}"))
    }

    /// Of a stability study, from 64 random bits, which the page provides.
    pub fn study(bits: u64) -> Self {
        Self(format!("{STUDY}{bits:016x}"))
    }

    /// Of the record that the log in a formula of an earlier release became: the same in every tab.
    pub(super) fn batch_of(formula: &Self) -> Self {
        Self(format!("{BATCH}{}", formula.0))
    }

    /// The maker's shelf.
    pub fn shelf() -> Self {
        Self("shelf".to_owned())
    }

    /// As text, for keys.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// What is stored under it. Ids of kinds that came after formulas and the shelf begin with the kind and a full stop.
    pub fn kind(&self) -> DocumentKind {
        match self.0.as_str() {
            "shelf" => DocumentKind::Shelf,
            id if id.starts_with(BATCH) => DocumentKind::Batch,
            id if id.starts_with(STUDY) => DocumentKind::Study,
            id if id.contains('.') => DocumentKind::Unknown,
            _ => DocumentKind::Formula,
        }
    }

    /// True for a formula.
    pub fn is_formula(&self) -> bool {
        self.kind() == DocumentKind::Formula
    }
}

impl From<String> for DocId {
    fn from(text: String) -> Self {
        Self(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kind_is_told_by_the_id() {
        let kind = |id: &str| DocId::from(id.to_owned()).kind();
        assert_eq!(DocId::random(7).kind(), DocumentKind::Formula);
        assert_eq!(DocId::shelf().kind(), DocumentKind::Shelf);
        assert_eq!(kind("00000000000000ff"), DocumentKind::Formula);
        assert_eq!(DocId::batch(7).kind(), DocumentKind::Batch);
        assert_eq!(DocId::study(7).kind(), DocumentKind::Study);
        assert_eq!(DocId::batch_of(&DocId::random(7)), DocId::batch(7));
        for newer in ["supplier.1", "."] {
            assert_eq!(kind(newer), DocumentKind::Unknown, "{newer}");
        }
    }
}
