//! The application without a browser: documents, the actions on them, undo, stored formats, links and the journal.

mod action;
mod backup;
mod base_n;
mod bin;
mod crc;
mod doc_id;
mod document;
mod export;
mod format;
mod history;
mod link;
mod link_dictionary;
mod load_guard;
mod log;
mod open_document;
mod open_shelf;
mod persist;
mod preview;
mod read;
mod read_cursor;
mod read_plan;
mod read_shelf;
mod rescue;
mod save;
mod screen;
mod shelf_action;
mod shelf_document;
mod store;
mod texts;
mod tracking;
mod undo_target;
mod write;
mod writer;

use action::apply_fill_up_words;
pub use action::{Action, Made, UndoGroup, apply};
pub use backup::Backups;
pub use bin::{BIN_DAYS, BinDays, Binned, empty_bin, put_into_bin};
pub use crc::crc32;
pub use doc_id::{DocId, DocumentKind};
pub use document::{Document, State, Version, title_with};
pub use export::{Incoming, collection_text, demo, document_text, is_demo, read_export};
pub use history::{History, Snapshot, StepsChange};
pub use link::{LinkProblem, MOST_LINK_CHARS, decode, encode, encode_for_qr};
pub use load_guard::LoadGuard;
pub use open_document::{Derived, OpenDocument};
pub use persist::{Fresh, Persist, Reopen, Steps};
pub use preview::{LocalMatch, Preview};
pub use read::read_document;
pub use read_cursor::ReadProblem;
pub use rescue::{Opened, open_document};
pub use save::{SaveOutcome, new_commit, newest, save, take_strays};
pub use screen::Screen;
pub use shelf_action::ShelfAction;
pub use shelf_document::{ShelfDocument, stored_shelf};
pub use store::{
    Commit, CommitOutcome, DocumentMeta, Journal, LocalMirror, MemoryJournal, MemoryMirror, StoreError, StoredDocument,
    find_documents,
};
pub use texts::clean;
pub use tracking::{Tracking, Written};
pub use undo_target::UndoTarget;
pub use writer::{News, Writer, WriterHost};
