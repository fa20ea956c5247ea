//! The page's own words.
#![allow(missing_docs, reason = "each constant is its own text")]

use crate::desk::Screen;
use crate::facts::Field;
use crate::formula::{Area, Audience, Pack, PhaseKind, Use};
use crate::quantity::MassUnit;
use crate::rules::Grade;
use crate::sheet::{BatchBasis, FillBy, Premixes};

pub const SKIP: &str = "Skip to content";
pub const PLACES: &str = "Main sections";
pub const FORMULAS: &str = "Your formulas";
pub const NEW_FORMULA: &str = "New formula";
pub const FIND_FORMULA: &str = "Find a formula";
pub const UNTITLED: &str = "Untitled formula";
pub const DUPLICATE: &str = "Duplicate";
pub const TO_BIN: &str = "Move to bin";
pub const RESTORE: &str = "Restore";
pub const BIN: &str = "Bin (kept for 30 days of use)";
pub const NONE_FOUND: &str = "No formula title contains that.";
pub const CLOSE: &str = "Close";
pub const UNDO: &str = "Undo";
pub const OPEN: &str = "Open";
pub const REDO: &str = "Redo";
pub const SAVED: &str = "Saved";
pub const SAVING: &str = "Saving\u{2026}";
pub const NOT_SAVED: &str = "Not saved. Your work is still on screen: export it now. Message from the browser: ";
pub const ONLY_MIRROR: &str =
    "Saved only as a quick copy; the browser may lose the last minute of it. Export anything that matters.";
pub const CONFLICT: &str =
    "Another tab changed this formula. Nothing was overwritten: your copy continues here under its own name.";
pub const SHELF_JOINED: &str = "Another tab changed the shelf too. The two were merged.";
pub const CLEARED: &str = "This browser has cleared what was stored for this page. What is open was stored again, and what the quick copies still had. Look through the list, and export what matters.";
pub const SHELF_CHANGED: &str = "Another tab changed the shelf.";
pub const OTHER_COPY: &str = " (copy from another tab)";
pub const COPY: &str = " (copy)";
pub const TITLE: &str = "Title";
pub const ABOUT: &str = "About this formula";
pub const USE: &str = "Use";
pub const AREA: &str = "Area";
pub const AUDIENCE: &str = "Made for";
pub const PACK: &str = "Pack";
pub const TARGET_PH: &str = "Target pH";
pub const NOTES: &str = "Notes";
pub const PHASE_NAME: &str = "Phase name";
pub const HEAT: &str = "Heat to";
pub const CELSIUS: &str = "\u{b0}C";
pub const ADD_LINE: &str = "Add line";
pub const REMOVE_PHASE: &str = "Remove phase";
pub const PHASE_UP: &str = "Phase up";
pub const PHASE_DOWN: &str = "Phase down";
pub const INGREDIENT: &str = "Ingredient";
pub const PERCENT: &str = "Percent";
pub const FILLS_UP: &str = "fill-up (q.s.)";
pub const WILL_FILL_UP: &str = "Enter makes this the fill-up line.";
pub const FILL_UP: &str = "Fill up to 100\u{202f}% (q.s.)";
pub const LINE_MENU: &str = "More for this line";
pub const PHASE_ACTIONS: &str = "More for this phase";
pub const FORMULA_LINES: &str = "Lines of the formula";
pub const MOVE_UP: &str = "Move up";
pub const MOVE_DOWN: &str = "Move down";
pub const MOVE_TO: &str = "Move to ";
pub const REMOVE: &str = "Remove";
pub const NOTE: &str = "Note";
pub const EMPTY_PHASE: &str = "Nothing in this phase yet.";
pub const EMPTY_FORMULA: &str =
    "A formula is a hundred parts in phases. Start with the water phase, and make the water the fill-up line.";
pub const START_PHASES: &str = "Start with water, oil and cool-down phases";
pub const LINE_KEYS: &str = "In a line: Enter goes to the next field, arrows pick a name or change line, Alt with an arrow moves it, q.s. makes it the fill-up line.";
pub const SQUARE: &str = "Hundred square";
pub const FINDINGS: &str = "Findings";
pub const SOURCE: &str = "Source: ";
pub const UNVERIFIED: &str = " (unverified)";
pub const NOT_CHECKED: &str = "These checks follow European Union law as known on the date above, and name what differs elsewhere. No check shows that a product is safe. Follow your local rules and your suppliers\u{2019} documents, and ask a qualified assessor before you sell it or give it away.";
pub const TOTAL: &str = "Total";
pub const SO_FAR: &str = " so far";
pub const VERSIONS: &str = "Versions";
pub const SAVE_VERSION: &str = "Save version";
pub const NO_VERSIONS: &str = "Save a version before you change something that works. Every saved version is kept.";
pub const COMPARE: &str = "Compare with current";
pub const BRING_BACK: &str = "Restore this version";
pub const BEFORE: &str = "Before";
pub const NOW: &str = "Now";
pub const CHANGE: &str = "Change";
pub const ADDED: &str = "added";
pub const GONE: &str = "removed";
pub const MOVED: &str = "moved";
pub const SAME: &str = "same";
pub const PASS_ON: &str = "Export and share";
pub const EXPORT_ONE: &str = "Export this formula";
pub const EXPORT_ALL: &str = "Export everything";
pub const IMPORT: &str = "Import a file";
pub const MAKE_LINK: &str = "Make a link";
pub const WITH_NOTES: &str = "Include my notes, the texts for the papers, and my answers to findings";
pub const SIGN: &str = "Plus or minus";
pub const LINK_HOLDS: &str = "The link contains the title, what the product is for, phases, lines, the batch plan, and the name and INCI of your own ingredients. It leaves out the pH log, versions, and everything else on your shelf about suppliers and lots. It is not sent to any server; anyone who has the link can read it.";
pub const LINK: &str = "Link";
pub const COPY_LINK: &str = "Copy link";
pub const COPIED: &str = "Copied";
pub const NO_LINK: &str = "This formula is too long for a link. Export a file instead.";
pub const LINK_LONG: &str = "This link is long, and some messaging apps cut it short. Export a file instead.";
pub const QR: &str = "QR code of this formula";
pub const QR_TOO_LONG: &str =
    "This formula is too long for a QR code that a hand-held camera can read. Use the link or a file.";
pub const INCOMING: &str = "Review before importing";
pub const INCOMING_TEXT: &str = "This comes from outside and has not been checked. Nothing is kept until you add it, and nothing of yours is overwritten.";
pub const ADD_THESE: &str = "Add to your formulas";
pub const LEAVE: &str = "Do not import";
pub const FROM_LINK_BAD: &str = "No formula could be read from this link: ";
pub const LINK_CUT: &str = "it was cut short or changed on the way. Ask for it again, or ask for a file.";
pub const LINK_TOO_LONG: &str = "it is longer than any link that this page makes.";
pub const LINK_NEWER: &str = "it was made by a newer version. Reload the page while online to get that version.";
pub const FILE_BAD: &str = "No formula could be read from this file: ";
pub const ALREADY: &str = "you already have this";
pub const SAME_TITLE: &str = "you have another one with this title";
pub const NEW_HERE: &str = "new";
pub const SEARCH_SHELF: &str = "Search by name or INCI";
pub const OWN_INGREDIENT: &str = "Add your own ingredient";
pub const NAME: &str = "Name";
pub const ADD: &str = "Add";
pub const NOTHING_ON_SHELF: &str = "Nothing on the shelf has that in its name. Add it as your own ingredient.";
pub const YOURS: &str = "yours";
pub const OVERRIDDEN: &str = "your value";
pub const TABLE_SAYS: &str = "Table: ";
pub const FROM_MEMORY: &str = "unverified";
pub const SHELF_INTRO: &str = "Values come from tables, each with its source. Your supplier\u{2019}s data sheet overrides them: type its value in, and it is marked as yours.";
pub const REMOVE_OWN: &str = "Remove from the shelf";
pub const HOW_MUCH: &str = "How much to make";
pub const JARS: &str = "Number of jars";
pub const FILL: &str = "Fill per jar";
/// The unit in which the content of a jar is given.
pub const fn fill_by(by: FillBy) -> &'static str {
    match by {
        FillBy::Mass => "g",
        FillBy::Volume => "mL",
    }
}
pub const DENSITY: &str = "Density of the product";
pub const SHOW_FILL: &str = "Measure the fill by";
pub const LOSS: &str = "Allowance for loss, added to the fill";
pub const BATCH_MASS: &str = "Batch size";
pub const IN_HAND: &str = "In stock";
pub const VESSEL: &str = "Vessel capacity";
pub const HEAD_ROOM: &str = "Headroom";
pub const STEP: &str = "Smallest step it shows";
/// Standard deviation of ten weighings of the same thing: a balance maker's word.
pub const REPEATABILITY: &str = "Repeatability of the scale, if you know it";
pub const TOLERANCE: &str = "Weighing error you accept";
pub const SHOW_IN: &str = "Show masses in";
pub const WEIGH_SHEET: &str = "Weigh sheet";
pub const WEIGHED: &str = "Weigh out";
pub const WEIGHED_BLANK: &str = "Weighed, g";
pub const PREMIXES: &str = "Premixes";
/// Which doses are diluted first.
pub const fn premixes(wish: Premixes) -> &'static str {
    match wish {
        Premixes::Needed => "only where needed",
        Premixes::Wanted => "wherever they help",
        Premixes::Without => "none",
    }
}
pub const LOT: &str = "Lot";
pub const ROUNDING: &str = "Rounding";
pub const PRINT: &str = "Print weigh sheet";
pub const CSV: &str = "Weigh sheet as CSV";
pub const PREMIX: &str = "Premix first";
pub const PREMIX_CARE: &str = "A premix keeps only if it is preserved. Label and date it, or make it fresh.";
pub const PRINT_CARE: &str = "Hot water and oil burn: hold pans by the handle, keep children and pets away. This sheet is not a safety assessment. Follow local rules and your suppliers\u{2019} documents.";
pub const RUNS_OUT: &str = "runs out first";
pub const ALLOWS: &str = "enough for ";
pub const OFFLINE_READY: &str = "Ready to work offline.";
pub const UPDATE_READY: &str = "A new version is ready. Only this tab switches to it, after your work is saved.";
pub const CHANGES: &str = "What has changed";
pub const TAKE_UPDATE: &str = "Update now";
pub const LATER: &str = "Later";
pub const ABOUT_STORED: &str = "Problem with a stored copy: ";
pub const RESCUED: &str = "A stored copy of this formula was damaged. You see the newest state that could be read.";
pub const NEWER: &str = "This was written by a newer version of this page. It is left unchanged and cannot be edited here. Reload the page while online to get the newer version, or download what is stored.";
pub const READ_ONLY: &str = "Read-only: a newer version of this page has saved changes here. This tab no longer changes anything. Reload it while online.";
pub const SHELF_DAMAGED: &str = "The stored shelf was damaged. The newest state that could be read is in use.";
pub const SHELF_LOST: &str =
    "The stored shelf can no longer be read, and neither can any older state of it. Only the tables are in use now.";
pub const LOST: &str = "This stored formula can no longer be read, and neither can any older state of it.";
pub const BYTES_KEPT: &str = "Its data is kept in this browser; download it before it is cleared.";
pub const BYTES_NOT_KEPT: &str =
    "There was no room to set its data aside: download it now, before anything is written in its place.";
pub const HELD: &str = "Nothing is written over it until you say so here.";
pub const WRITE_IN_ITS_PLACE: &str = "Replace it with what is in use";
pub const DOWNLOAD_AS_IT_IS: &str = "Download as stored";
pub const BACKUP_TITLE: &str = "Keep a copy outside this browser";
pub const BACKUP_TEXT: &str = "You have saved changes since your last export. Browsers can clear what a page stores, and a tablet can break. One file holds all of your formulas and your shelf.";
pub const INSTALL_TITLE: &str = "Put this page on your home screen";
pub const INSTALL_TEXT: &str = "In a tab, this browser clears what a page stores after seven days without use. Export everything first, then choose Share and \u{201c}Add to Home Screen\u{201d}, open the page from there and import the file: there it has its own storage.";
pub const PROMISED: &str = "This browser has promised to keep your formulas.";
pub const NOT_PROMISED: &str =
    "This browser does not promise to keep your formulas: it may clear them when storage runs short. Export them.";
pub const PROMISE_UNKNOWN: &str =
    "This browser has not been asked yet, or cannot say, whether it will keep your formulas.";
pub const LAST_EXPORT: &str = "Last full export: ";
pub const NO_EXPORT: &str = "No full export yet.";
pub const CSV_HEADS: [&str; 8] = [
    "Phase",
    "Ingredient",
    "INCI",
    "Percent",
    "Grams to weigh",
    "Grams of it in the batch",
    "Error in percent",
    "Note",
];
/// What a file of a formula without a title is called, and how the name of its weigh sheet ends.
pub const NAMELESS_FILE: &str = "formula";
pub const CSV_END: &str = "-weigh-sheet.csv";
/// The phase of the lye and what stands beside it in the CSV of a soap.
pub const LYE: &str = "Lye";
pub const NO_LYE: &str = "No lye is calculated";
pub const PURITY: &str = "Purity ";
pub const NO_MORE_LINES: &str = "A formula can have at most 500 lines.";
pub const REMOVED_LINE: &str = "Line removed.";
pub const REMOVED_PHASE: &str = "Phase removed.";
pub const REMOVED_OWN: &str = "Removed from the shelf.";
pub const DRAG: &str = "Drag to move this line";
pub const BINNED: &str = "Moved to the bin.";
pub const VERSION_SAVED: &str = "Saved as version ";

// Findings, answers, papers.
pub const REGION: &str = "Where you sell it or give it away";
/// While the second part of the program is on its way.
pub const COMING: &str = "Loading \u{2026}";
/// The second part of the program did not come.
pub const PART_MISSING: &str = "Part of the program did not load, so findings, batches and papers cannot be shown. What you write is kept. Check the connection and try again.";
/// Fetch it once more.
pub const TRY_AGAIN: &str = "Try again";
pub const JUMP: &str = "Findings: ";
pub const NOTHING_AMISS: &str = "No problem was found in what was checked.";
pub const CHECKED_WELL: &str = "Checked and fine: ";
pub const UNVERIFIED_SOURCE: &str = "Source, unverified";
pub const SOURCE_FOLD: &str = "Source";
pub const MENDED: &str = "Done: ";
pub const TAKE_ON: &str = "Answer this finding";
pub const TAKE_ON_TEXT: &str = "Changing the formula is better. Someone able to judge it can still decide to go ahead: the papers then show the reason and the name, and a different value asks again. An answer does not make the product safe.";
pub const REASON: &str = "Reason for going ahead";
pub const PERSON: &str = "Name of the person who decides";
pub const STILL_HOLDS: &str = "Confirm for the current value";
pub const TAKE_BACK: &str = "Withdraw the answer";
pub const TAKEN_BACK: &str = "Answer withdrawn.";
pub const WHICH_PAPER: &str = "Paper";
pub const LABEL_SHEET: &str = "Label sheet";
pub const MISSING: &str = "Missing from the label";
/// What nobody knows yet about the list of ingredients, beside what is missing.
pub const NOT_KNOWN: &str = "Not known yet";
pub const NOTHING_MISSING: &str = "Nothing that this program looks for is missing from the label.";
pub const FOR_LABEL: &str = "For the label";
pub const FOR_ASSESSOR: &str = "For the assessor";
pub const PREVIEW: &str = "Print preview";
pub const OPEN_JAR: &str = "open jar: months after opening";
pub const PICTOGRAM: &str = "Pictogram: ";
pub const RULER: &str = "Ruler";
pub const ON_LABELS: &str = "on labels: ";
pub const NO_ALLERGEN: &str = "not an allergen that labels name";
pub const LOTS: &str = "Lots";
pub const FURTHER_LOT: &str = "Lot";
pub const LOTS_INTRO: &str = "One for each delivery: what came, what was paid, and until when it is good. What a fragrance or oil contains changes from lot to lot, so each has the statement that came with it; the one above is for the lot above. The newest counts, for label and cost, unless a formula names another (under Papers).";
pub const LOT_DATE: &str = "Date of the statement";
pub const LOT_STATEMENT: &str = "Allergen statement of this lot";
pub const ADD_LOT: &str = "Add a lot";
pub const REMOVE_LOT: &str = "Remove this lot";
pub const REMOVED_LOT: &str = "Lot removed.";
pub const LOTS_THAT_COUNT: &str = "Lots used";
pub const LOTS_THAT_COUNT_INTRO: &str =
    "The allergens on the label and in findings and papers are counted from these lots.";
pub const NOT_UNDERSTOOD: &str = "Not recognised, so not counted:";
pub const NOT_RECOGNISED: &str = "Names not recognised:";
pub const VERSION: &str = "Version";

pub const fn screen(screen: Screen) -> &'static str {
    match screen {
        Screen::Formula => "Formula",
        Screen::Shelf => "Shelf",
        Screen::Batch => "Batch",
        Screen::Proof => "Proof",
        Screen::Papers => "Papers",
        Screen::Stove => "Stove",
    }
}

/// The head of a column of masses.
pub const fn masses_in(unit: MassUnit) -> &'static str {
    match unit {
        MassUnit::Gram => "grams",
        MassUnit::Kilogram => "kilograms",
        MassUnit::Ounce => "ounces",
    }
}

pub const fn phase_kind(kind: PhaseKind) -> &'static str {
    match kind {
        PhaseKind::Water => "Water phase",
        PhaseKind::Oil => "Oil phase",
        PhaseKind::CoolDown => "Cool-down phase",
        PhaseKind::Other => "Other phase",
    }
}

pub const fn purpose(value: Use) -> &'static str {
    match value {
        Use::LeaveOn => "leave-on",
        Use::RinseOff => "rinse-off",
        Use::Soap => "soap made with lye",
    }
}

pub const fn area(value: Area) -> &'static str {
    match value {
        Area::Body => "body",
        Area::Face => "face",
        Area::Hand => "hands",
        Area::Lip => "lips",
        Area::Nappy => "nappy (diaper) area",
        Area::Hair => "hair",
    }
}

pub const fn audience(value: Audience) -> &'static str {
    match value {
        Audience::Adult => "adults",
        Audience::ChildThreePlus => "children from 3",
        Audience::UnderThree => "children under 3",
        Audience::Pregnant => "use in pregnancy",
    }
}

pub const fn pack(value: Pack) -> &'static str {
    match value {
        Pack::Jar => "jar",
        Pack::Pump => "pump",
        Pack::Tube => "tube",
        Pack::Bottle => "bottle",
        Pack::Bar => "bar",
        Pack::Spray => "spray bottle",
    }
}

pub const fn basis(basis: BatchBasis) -> &'static str {
    match basis {
        BatchBasis::Jars => "Number of jars",
        BatchBasis::Mass => "Batch size",
        BatchBasis::InHand => "What I have in stock",
        BatchBasis::Vessel => "What fits the vessel",
    }
}

pub const fn grade(grade: Grade) -> &'static str {
    match grade {
        Grade::Stop => "Stop",
        Grade::Care => "Care",
        Grade::Unknown => "Unknown",
        Grade::Fine => "Fine",
    }
}

pub const fn field(field: Field) -> &'static str {
    match field {
        Field::Name => "Name",
        Field::Inci => "INCI",
        Field::Functions => "Functions",
        Field::UsualPhase => "Usual phase",
        Field::UseLow => "Usual dose from, %",
        Field::UseHigh => "Usual dose to, %",
        Field::Max => "Maximum, %",
        Field::PhMin => "pH from",
        Field::PhMax => "pH to",
        Field::HeatMax => "Maximum heat, \u{b0}C",
        Field::RequiredHlb => "Required HLB",
        Field::EmulsifierHlb => "HLB",
        Field::Density => "Density, g/mL at 20\u{202f}\u{b0}C",
        Field::ShelfLifeMonths => "Shelf life, months",
        Field::Solubility => "Dissolves in",
        Field::AllergenSource => "Allergen source",
        Field::ChildPregnancy => "Children, pregnancy",
        Field::Components => "Made of",
        Field::Notes => "Notes",
        Field::AllergenStatement => "Supplier\u{2019}s allergen statement",
        Field::Certificate => "Certificate limits, % by category",
        Field::Document => "Supplier\u{2019}s documents",
        Field::Lot => "Lot",
        Field::InHand => "In stock (yes or no)",
        Field::Price => "Price of 1\u{202f}kg, where its lot has none",
        Field::FatKind => "Kind of fat",
        Field::FattyAcids => "Fatty acids, %",
        Field::SvLow => "Saponification value from, mg KOH/g",
        Field::SvHigh => "Saponification value to",
        Field::IvLow => "Iodine value from",
        Field::IvHigh => "Iodine value to",
        Field::SvReason => "Why this saponification value is right",
        Field::SvConfirmed => "Confirmed saponification value",
        Field::Unsaponifiable => "Unsaponifiables, %",
    }
}
