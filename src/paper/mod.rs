//! What is printed or handed on, as plain structures: no markup, no page size but that of a label.
//!
//! A paper's facts are gathered here; its sentences, and so its [`Block`]s, are made in `words`.

mod batch_record;
mod blocks;
mod bundle;
mod checked;
mod csv;
mod durability;
mod file_name;
mod label;
mod label_layout;
mod law_words;
mod lye_sheet;
mod material_hazards;
mod pictogram;
mod recall;
mod safety_sheet;
mod weigh_sheet;
mod which;

pub use batch_record::{CourseEntry, RecordDecision, RecordFacts, RecordFills, RecordMaterial, Tone, record_facts};
pub use blocks::{Block, LABEL_FORMATS, LabelFormat, LabelLine, Labels, Paper, Table};
pub use bundle::{BundleFacts, BundleFinding, BundleLye, BundleMaterial, BundleStep, BundleSubstance, bundle_facts};
pub use checked::{Checked, CheckedLine, CheckedSubstance, FoundEntry, checked};
pub use csv::weigh_sheet_csv;
pub use file_name::file_name;
pub use label::{Caution, Gap, Keeps, LabelFacts, is_tiny, label_facts, tally};
pub use label_layout::{LabelTexts, fits};
pub use law_words::{LawWords, law_words};
pub use lye_sheet::{AcidOnPaper, AlkaliOnPaper, FatRowOnPaper, LyeCaution, LyeFacts, lye_facts};
pub use material_hazards::{FoundHazard, MaterialHazards, material_hazards};
pub use pictogram::{DIAMOND, EDGE, OPEN_JAR, Pictogram, pictogram};
pub use recall::{RecallBatch, RecallFacts, recall_facts};
pub use safety_sheet::{SafetyFacts, safety_facts};
pub use weigh_sheet::{AsPremix, PremixRow, WeighFacts, WeighPhase, WeighRow, choice_name, weigh_facts};
pub use which::Which;
