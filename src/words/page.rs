//! The page's own words.
#![allow(missing_docs, reason = "each constant is its own text")]

use crate::desk::Screen;
use crate::facts::Field;
use crate::formula::{Area, Audience, Pack, PhaseKind, Use};
use crate::quantity::MassUnit;
use crate::rules::Grade;
use crate::sheet::{BatchBasis, FillBy, Premixes};
use crate::shelf::{Family, FieldGroup, Kept};

pub const SKIP: &str = "Skip to the work";
pub const PLACES: &str = "Places";
pub const FORMULAS: &str = "Your formulas";
pub const NEW_FORMULA: &str = "New formula";
pub const FIND_FORMULA: &str = "Find a formula";
pub const UNTITLED: &str = "Untitled formula";
pub const DUPLICATE: &str = "Duplicate";
pub const TO_BIN: &str = "Move to bin";
pub const RESTORE: &str = "Restore";
pub const BIN: &str = "Bin (kept for 30 days of use)";
pub const NONE_FOUND: &str = "No formula has that in its title.";
pub const CLOSE: &str = "Close";
pub const UNDO: &str = "Undo";
pub const OPEN: &str = "Open";
pub const REDO: &str = "Redo";
pub const SAVED: &str = "Saved";
pub const SAVING: &str = "Saving\u{2026}";
pub const NOT_SAVED: &str = "Not saved. Your work is on screen: export it now. The browser said: ";
pub const ONLY_MIRROR: &str =
    "Kept in the quick copy only; the browser may lose the last minute of it. Export what matters.";
pub const CONFLICT: &str =
    "Another tab changed this formula. Nothing was overwritten: your copy goes on here under a name of its own.";
pub const SHELF_JOINED: &str = "Another tab changed the shelf too. Both were joined.";
pub const CLEARED: &str = "This browser has cleared what was stored for this page. What is open was stored again, and what the quick copies still had. Look through the list, and export what matters.";
pub const SHELF_CHANGED: &str = "Another tab changed the shelf.";
pub const OTHER_COPY: &str = " (copy from another tab)";
pub const COPY: &str = " (copy)";
pub const TITLE: &str = "Title";
pub const ABOUT: &str = "About this formula";
pub const USE: &str = "Use";
pub const AREA: &str = "Area";
pub const AUDIENCE: &str = "For";
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
pub const FILLS_UP: &str = "fills up (q.s.)";
pub const WILL_FILL_UP: &str = "Enter makes this the line that fills up to 100.";
pub const FILL_UP: &str = "Fill up to 100 (q.s.)";
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
    "A formula is a hundred parts in phases. Start with the water phase, and let the water fill up what is missing.";
pub const START_PHASES: &str = "Start with water, oil and cool-down phase";
pub const LINE_KEYS: &str =
    "In a line: Enter goes on, arrows choose or change line, Alt with an arrow moves the line, q.s. fills up.";
pub const SQUARE: &str = "Hundred square";
pub const FINDINGS: &str = "Findings";
pub const SOURCE: &str = "Source: ";
pub const UNVERIFIED: &str = " (unverified)";
pub const NOT_CHECKED: &str = "What is checked follows the law of the European Union as known on the day of the rules, with what differs elsewhere named. No check shows that a product is safe. Follow your local rules and your suppliers\u{2019} documents, and ask a qualified assessor before you sell.";
pub const TOTAL: &str = "Total";
pub const SO_FAR: &str = " so far";
pub const VERSIONS: &str = "Versions";
pub const SAVE_VERSION: &str = "Save version";
pub const NO_VERSIONS: &str = "Save a version before you change something that works. Every saved version is kept.";
pub const COMPARE: &str = "Compare with now";
pub const BRING_BACK: &str = "Bring back";
pub const BEFORE: &str = "Then";
pub const NOW: &str = "Now";
pub const CHANGE: &str = "Change";
pub const ADDED: &str = "added";
pub const GONE: &str = "gone";
pub const MOVED: &str = "moved";
pub const SAME: &str = "same";
pub const PASS_ON: &str = "Pass on";
pub const EXPORT_ONE: &str = "Export this formula";
pub const EXPORT_ALL: &str = "Export everything";
pub const IMPORT: &str = "Import a file";
pub const MAKE_LINK: &str = "Make a link";
pub const WITH_NOTES: &str = "with my notes, the texts for the papers, and my answers to findings";
pub const SIGN: &str = "Plus or minus";
pub const LINK_HOLDS: &str = "The link holds the title, what it is for, phases, lines, the batch plan, and name and INCI of your own ingredients. It leaves out the pH log, versions, and what else your shelf says of suppliers and lots. It goes to no server; whoever has it can read it.";
pub const LINK: &str = "Link";
pub const COPY_LINK: &str = "Copy link";
pub const COPIED: &str = "Copied";
pub const NO_LINK: &str = "This formula is too long for a link. Export a file instead.";
pub const LINK_LONG: &str = "This link is long and some messengers cut it. Export a file instead.";
pub const QR: &str = "QR code of this formula";
pub const QR_TOO_LONG: &str =
    "This formula is too long for a QR code that can be read by hand. Use the link or a file.";
pub const INCOMING: &str = "Something to import";
pub const INCOMING_TEXT: &str = "This comes from outside and was not checked. Nothing is kept until you add it, and nothing of yours is overwritten.";
pub const ADD_THESE: &str = "Add to your formulas";
pub const LEAVE: &str = "Leave it";
pub const FROM_LINK_BAD: &str = "The link in the address gives no formula: ";
pub const LINK_CUT: &str = "it was cut or changed on the way. Ask for it again, or for a file.";
pub const LINK_TOO_LONG: &str = "it is longer than any link made here.";
pub const LINK_NEWER: &str = "it was made by a newer version. Reload the page while online to get that.";
pub const FILE_BAD: &str = "That file gives no formula: ";
pub const ALREADY: &str = "you have this already";
pub const SAME_TITLE: &str = "you have another one of this title";
pub const NEW_HERE: &str = "new";
pub const LINES: &str = " lines";
pub const SEARCH_SHELF: &str = "Search by name or INCI";
pub const OWN_INGREDIENT: &str = "Add your own ingredient";
pub const NAME: &str = "Name";
pub const ADD: &str = "Add";
pub const NOTHING_IN_STOCK: &str =
    "Nothing is marked as in stock yet. Open an ingredient and write yes under In stock.";
pub const INGREDIENTS: &str = "Ingredients";
pub const WHICH_INGREDIENTS: &str = "Which ingredients";
pub const BY_FUNCTION: &str = "By function";
pub const NOTHING_ON_SHELF: &str = "Nothing on the shelf has that in its name. Add it as your own.";
pub const YOURS: &str = "yours";
pub const OVERRIDDEN: &str = "your value";
pub const TABLE_SAYS: &str = "Table: ";
pub const FROM_MEMORY: &str = "unverified";
pub const DAGGER: &str = " \u{2020} means unverified.";
pub const SHELF_INTRO: &str = "Values come from the tables with their source. Your supplier\u{2019}s sheet beats them: type its value over, and it is marked as yours.";
pub const REMOVE_OWN: &str = "Remove from the shelf";
pub const HOW_MUCH: &str = "How much";
pub const JARS: &str = "Jars";
pub const FILL: &str = "Into each";
/// The unit in which the content of a jar is given.
pub const fn fill_by(by: FillBy) -> &'static str {
    match by {
        FillBy::Mass => "g",
        FillBy::Volume => "mL",
    }
}
pub const DENSITY: &str = "Density of the product";
pub const SHOW_FILL: &str = "Fill by";
pub const LOSS: &str = "Loss, added to what is filled";
pub const BATCH_MASS: &str = "Batch";
pub const IN_HAND: &str = "In hand";
pub const VESSEL: &str = "Vessel holds";
pub const HEAD_ROOM: &str = "Head room";
pub const SCALE: &str = "Your scale";
pub const STEP: &str = "It shows steps of";
/// Standard deviation of ten weighings of the same thing: a balance maker's word.
pub const REPEATABILITY: &str = "Repeatability of the scale, if you know it";
pub const TOLERANCE: &str = "Weighing error you accept";
pub const SHOW_IN: &str = "Show masses in";
pub const WEIGH_SHEET: &str = "Weigh sheet";
pub const WEIGHED: &str = "Weighed";
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
pub const PRINT_CARE: &str = "Hot water and oil burn: hold pans by the handle, keep children and pets away. This sheet is no safety assessment. Follow local rules and your suppliers\u{2019} documents.";
pub const RUNS_OUT: &str = "runs out first";
pub const ALLOWS: &str = "allows ";
pub const OFFLINE_READY: &str = "Ready to work offline.";
pub const UPDATE_READY: &str = "A new version is ready. It is taken by this tab only, after your work is saved.";
pub const CHANGES: &str = "What has changed";
pub const TAKE_UPDATE: &str = "Take it now";
pub const LATER: &str = "Later";
pub const ABOUT_STORED: &str = "About a stored copy: ";
pub const RESCUED: &str =
    "A stored copy of this formula was damaged. What you see is the newest state that could be read.";
pub const NEWER: &str = "This was written by a newer version of this page. It is left as it is and cannot be changed here. Reload the page while online to get the newer version, or download what is stored.";
pub const READ_ONLY: &str = "Read only: a newer version of this page has written here. This tab changes nothing any more. Reload it while online.";
pub const SHELF_DAMAGED: &str = "The stored shelf was damaged. The newest state that could be read is in use.";
pub const SHELF_LOST: &str =
    "The stored shelf cannot be read, and no older state of it either. Only the tables are in use now.";
pub const LOST: &str = "This stored formula cannot be read any more, and no older state of it either.";
pub const BYTES_KEPT: &str = "Its bytes are kept in this browser; download them before they are cleared.";
pub const BYTES_NOT_KEPT: &str =
    "There was no room to put its bytes aside: download them now, before anything is written in their place.";
pub const HELD: &str = "Nothing is written over it until you say so here.";
pub const WRITE_IN_ITS_PLACE: &str = "Write what is in use in its place";
pub const DOWNLOAD_AS_IT_IS: &str = "Download it as it is";
pub const BACKUP_TITLE: &str = "Keep a copy outside this browser";
pub const BACKUP_TEXT: &str = "There are saves since your last export. Browsers can clear what a page stores, and a tablet can break. One file holds all of your formulas and your shelf.";
pub const INSTALL_TITLE: &str = "Put this page on your home screen";
pub const INSTALL_TEXT: &str = "In a tab, this browser clears what a page stores after seven days without use. Export everything first, then choose Share and \u{201c}Add to Home Screen\u{201d}, open the page from there and import the file: it has a storage of its own.";
pub const PROMISED: &str = "This browser has promised to keep your formulas.";
pub const NOT_PROMISED: &str =
    "This browser does not promise to keep your formulas: it may clear them when room is short. Export them.";
pub const PROMISE_UNKNOWN: &str = "This browser was not asked yet, or cannot say, whether it keeps your formulas.";
pub const LAST_EXPORT: &str = "Last export of everything: ";
pub const NO_EXPORT: &str = "Everything was never exported.";
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
pub const NO_LYE: &str = "No lye is computed";
pub const PURITY: &str = "Purity ";
pub const NO_MORE_LINES: &str = "A formula has at most 500 lines.";
pub const REMOVED_LINE: &str = "Line removed.";
pub const REMOVED_PHASE: &str = "Phase removed.";
pub const REMOVED_OWN: &str = "Removed from the shelf.";
pub const DRAG: &str = "Drag to move this line";
pub const BINNED: &str = "Moved to the bin.";
pub const VERSION_SAVED: &str = "Kept as version ";

// Findings, answers, papers.
pub const REGION: &str = "Given away or sold in";
/// While the second part of the program is on its way.
pub const COMING: &str = "Coming \u{2026}";
/// The second part of the program did not come.
pub const PART_MISSING: &str = "A part of the program did not arrive, so findings, batches and papers cannot be shown. What you write is kept. Check the connection and try again.";
/// Fetch it once more.
pub const TRY_AGAIN: &str = "Try again";
pub const JUMP: &str = "Findings: ";
pub const NOTHING_AMISS: &str = "Nothing was found amiss in what was checked.";
pub const CHECKED_WELL: &str = "Checked and well: ";
pub const UNVERIFIED_SOURCE: &str = "Source, unverified";
pub const SOURCE_FOLD: &str = "Source";
pub const MENDED: &str = "Done: ";
pub const TAKE_ON: &str = "Answer in writing";
pub const TAKE_ON_TEXT: &str = "Mending it is better. Whoever can judge it may go on all the same: the papers then show the reason and the name, and another value asks anew. An answer does not make the product safe.";
pub const REASON: &str = "Why it is right to go on";
pub const PERSON: &str = "Who takes it on: name";
pub const STILL_HOLDS: &str = "Confirm for the value of now";
pub const TAKE_BACK: &str = "Take the answer back";
pub const TAKEN_BACK: &str = "The answer is taken back.";
pub const WHICH_PAPER: &str = "Which paper";
pub const LABEL_SHEET: &str = "Sheet of labels";
pub const MISSING: &str = "Missing on the label";
/// What nobody knows yet about the list of ingredients, beside what is missing.
pub const NOT_KNOWN: &str = "Not known yet";
pub const NOTHING_MISSING: &str = "Nothing that is looked for here is missing on the label.";
pub const FOR_LABEL: &str = "For the label";
pub const FOR_ASSESSOR: &str = "For the assessor";
pub const PREVIEW: &str = "As it is printed";
pub const OPEN_JAR: &str = "open jar: months after opening";
pub const PICTOGRAM: &str = "Pictogram: ";
pub const RULER: &str = "Ruler";
pub const ON_LABELS: &str = "on labels: ";
pub const NO_ALLERGEN: &str = "none of the allergens that labels name";
pub const LOTS: &str = "Further lots";
pub const FURTHER_LOT: &str = "Further lot";
pub const LOTS_INTRO: &str = "What a fragrance or oil holds changes from lot to lot. The statement above is for the lot above: give every further lot the one that came with it. The newest by its date counts, unless a formula names another one (Papers).";
pub const LOT_DATE: &str = "Date of its statement";
pub const LOT_STATEMENT: &str = "Allergen statement of this lot";
pub const ADD_LOT: &str = "Add a lot";
pub const REMOVE_LOT: &str = "Remove this lot";
pub const REMOVED_LOT: &str = "The lot was removed.";
pub const LOTS_THAT_COUNT: &str = "Lots that count";
pub const LOTS_THAT_COUNT_INTRO: &str = "Allergens of label, findings and papers are counted from these lots.";
pub const NOT_UNDERSTOOD: &str = "Not understood, and so not counted:";
pub const NOT_RECOGNISED: &str = "Names that are not recognised:";
pub const VERSION: &str = "Version";

pub const fn screen(screen: Screen) -> &'static str {
    match screen {
        Screen::Formula => "Formula",
        Screen::Shelf => "Shelf",
        Screen::Batch => "Batch",
        Screen::Papers => "Papers",
    }
}

/// A part of the shelf.
pub const fn kept(kept: Kept) -> &'static str {
    match kept {
        Kept::InStock => "In stock",
        Kept::Own => "Yours",
        Kept::All => "All",
    }
}

/// What ingredients are for.
pub const fn family(family: Family) -> &'static str {
    match family {
        Family::Everything => "Everything",
        Family::Fats => "Oils and butters",
        Family::Emulsifiers => "Emulsifiers",
        Family::Preservatives => "Preservatives",
        Family::Humectants => "Humectants",
        Family::Thickeners => "Thickeners",
        Family::Surfactants => "Surfactants",
        Family::Scents => "Scents",
        Family::Acids => "Acids and bases",
    }
}

/// The heading of a group of fields.
pub const fn field_group(group: FieldGroup) -> &'static str {
    match group {
        FieldGroup::Stock => "In stock",
        FieldGroup::Identity => "What it is",
        FieldGroup::Bounds => "How much, how hot, at which pH",
        FieldGroup::Figures => "Figures",
        FieldGroup::Fat => "As a fat",
        FieldGroup::Remarks => "Remarks",
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
        BatchBasis::Jars => "So many jars",
        BatchBasis::Mass => "A batch of so much",
        BatchBasis::InHand => "What I have",
        BatchBasis::Vessel => "What the vessel takes",
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
        Field::UseLow => "Usual use from, %",
        Field::UseHigh => "Usual use to, %",
        Field::Max => "Most, %",
        Field::PhMin => "pH from",
        Field::PhMax => "pH to",
        Field::HeatMax => "Heat at most, \u{b0}C",
        Field::RequiredHlb => "Required HLB",
        Field::EmulsifierHlb => "HLB",
        Field::Density => "Density, g/mL at 20\u{202f}\u{b0}C",
        Field::ShelfLifeMonths => "Keeps, months",
        Field::Solubility => "Dissolves in",
        Field::AllergenSource => "Allergen source",
        Field::ChildPregnancy => "Children, pregnancy",
        Field::Components => "Made of",
        Field::Notes => "Notes",
        Field::AllergenStatement => "Supplier\u{2019}s allergen statement",
        Field::Certificate => "Certificate limits, % by category",
        Field::Document => "Supplier\u{2019}s documents",
        Field::Lot => "Lot",
        Field::InHand => "In hand (yes or no)",
        Field::FatKind => "Kind of fat",
        Field::FattyAcids => "Fatty acids, %",
        Field::SvLow => "Saponification value from, mg KOH/g",
        Field::SvHigh => "Saponification value to",
        Field::IvLow => "Iodine value from",
        Field::IvHigh => "Iodine value to",
        Field::SvReason => "Why this saponification value is right",
        Field::SvConfirmed => "Saponification value that was confirmed",
        Field::Unsaponifiable => "Unsaponifiables, %",
    }
}
