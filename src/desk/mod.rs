//! The application without a browser: documents, the actions on them, undo, stored formats, links and the journal.

mod action;
mod backup;
mod bench;
mod crc;
mod cupboard;
mod document;
mod export;
mod history;
mod keeper;
mod link;
mod log;
mod moment;
mod preview;
mod radix;
mod read;
mod read_plan;
mod read_shelf;
mod rescue;
mod screen;
mod seen;
mod shelf_side;
mod store;
mod words_of_links;
mod write;
mod writer;

use action::settle_words;
pub use action::{Action, Made, ShelfAction, Spot, apply};
pub use backup::Backups;
pub use bench::{Bench, Derived};
pub use crc::crc32;
pub use cupboard::{Cupboard, stored_shelf};
pub use document::{Document, State, Version, title_with};
pub use export::{Incoming, collection_text, demo, document_text, is_demo, read_export};
pub use history::{History, Snapshot, StepsChange};
pub use keeper::{Binned, Kept, empty_bin, keep, newest, put_into_bin, take_strays};
pub use link::{LinkProblem, MOST_LINK_CHARS, decode, encode, encode_for_qr};
pub use moment::Moment;
pub use preview::{Known, Preview};
pub use read::{ReadProblem, read_document};
pub use rescue::{Opened, open_document};
pub use screen::Screen;
pub use seen::Seen;
pub use store::{
    BIN_DAYS, Commit, DocId, Echo, Head, Journal, MemoryEcho, MemoryJournal, Slot, StoreError, Verdict, find_heads,
};
pub use writer::{News, Room, Writer};
