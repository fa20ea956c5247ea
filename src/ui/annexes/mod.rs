//! What the annexes of the law say of the open formula.

mod checking;
mod files;

use super::benches;
use super::desk::{Desk, Overlay};
use super::dom::{El, View, dynamic, el};
use super::field::button;
pub(super) use checking::recompute;
use files::FilesState;
use hundred_parts::compliance::{EntryCheck, LawOutcome};
use hundred_parts::desk::Derived;
use hundred_parts::law;
use hundred_parts::rules::{Grade, of_annexes, of_law};
use hundred_parts::sheet::AnnexCheck;
use hundred_parts::words::{annexes, page};

/// An entry as shown.
#[derive(PartialEq)]
struct EntryShown {
    title: String,
    about: String,
    under: String,
    /// Grade, outcome and words of each condition.
    says: Vec<(Grade, String, String)>,
    notes: Vec<String>,
}

/// What is in the card.
#[derive(PartialEq)]
enum Shown {
    /// Nothing yet, and why.
    Waiting(&'static str),
    /// The data could not be fetched.
    Missing,
    /// What was found.
    Found { unread: Vec<String>, asked: Vec<String>, entries: Vec<EntryShown>, differs: Option<&'static str> },
}

/// Fetches what the card needs, once the page has come to rest.
pub(super) fn fetch_later(desk: Desk) {
    files::fetch_later(desk);
}

/// Whether names can be recognised, tracked: what shows them is drawn again when their tables have come.
pub(super) fn names_are_here() -> bool {
    files::state() == FilesState::Here
}

/// The way to it: what was found, as a sentence.
pub(super) fn row(desk: Desk) -> El {
    let result = move || match files::state() {
        FilesState::Coming => (Grade::Unknown, annexes::COMING.to_owned()),
        FilesState::Missing => (Grade::Unknown, annexes::MISSING.to_owned()),
        FilesState::Here => desk.derived(|derived| match &derived.sheet.annexes {
            None => (Grade::Unknown, annexes::CHECKING.to_owned()),
            Some(found) => (of_annexes(found), annexes::summary(found, derived.sheet.composition.unrecognised().len())),
        }),
    };
    benches::bench(desk, Overlay::Annexes, ("annexes-card", annexes::TITLE), View::nothing(), result)
}

/// What the annexes say.
pub(super) fn inside(desk: Desk) -> View {
    dynamic(move || shown(desk), move |shown| view(desk, shown))
}

fn shown(desk: Desk) -> Shown {
    match files::state() {
        FilesState::Coming => Shown::Waiting(annexes::COMING),
        FilesState::Missing => Shown::Missing,
        FilesState::Here => desk.derived(|derived| match &derived.sheet.annexes {
            None => Shown::Waiting(annexes::CHECKING),
            Some(found) => found_in(desk, derived, found),
        }),
    }
}

fn found_in(desk: Desk, derived: &Derived, check: &AnnexCheck) -> Shown {
    let (mut unread, mut asked) = (Vec::new(), Vec::new());
    desk.now(|open| {
        for (one, candidates) in derived.sheet.composition.unrecognised() {
            match candidates {
                [] => unread.push(one.name.clone()),
                some => asked.push(annexes::question(&one.name, some, open.shelf())),
            }
        }
    });
    let entries = check.entries().into_iter().map(|entry| entry_shown(desk, check, entry)).collect();
    let differs = desk.now(|open| annexes::standing(open.state().formula.about.region));
    Shown::Found { unread, asked, entries, differs }
}

fn entry_shown(desk: Desk, check: &AnnexCheck, entry: &EntryCheck) -> EntryShown {
    let facts = check.rests_on_facts(entry);
    let region = desk.now(|open| open.state().formula.about.region);
    let mut says: Vec<_> = entry.says.iter().collect();
    says.sort_by_key(|said| core::cmp::Reverse(said.outcome));
    let notes = [
        (!entry.by_name).then_some(annexes::BY_NUMBER),
        entry.says.is_empty().then_some(annexes::NO_CONDITION),
        (!facts && entry.outcome() != LawOutcome::Unknown).then_some(annexes::USUAL_SHARES),
    ];
    EntryShown {
        title: annexes::entry_title(entry),
        about: annexes::entry_about(entry),
        under: annexes::under(check, entry, desk.sign),
        says: says
            .into_iter()
            .map(|said| (of_law(said.outcome, facts), annexes::outcome(said, desk.sign), annexes::law_words(said)))
            .collect(),
        notes: notes.into_iter().flatten().map(str::to_owned).chain(annexes::regional(region, entry)).collect(),
    }
}

fn view(desk: Desk, shown: &Shown) -> View {
    match shown {
        Shown::Waiting(why) => el("p").attr("role", "status").text(why).into(),
        Shown::Missing => View::from_iter([
            el("p").attr("role", "alert").text(annexes::MISSING),
            button(page::TRY_AGAIN).class("primary").press(move || files::fetch(desk)),
        ]),
        Shown::Found { unread, asked, entries, differs } => View::from_iter([
            list(annexes::UNREAD, unread),
            list(annexes::ASKED, asked),
            entries_view(entries),
            differs.map(|differs| el("p").text(differs)).into(),
            el("p").class("small").text(&annexes::source(law::shipped().ok())).into(),
            el("p").class("small").text(annexes::PROVISO).into(),
        ]),
    }
}

fn list(title: &str, rows: &[String]) -> View {
    let items = || rows.iter().map(|row| el("li").text(row)).collect::<View>();
    let section = || el("section").class("agent").child(el("h3").text(title)).child(el("ul").child(items()));
    (!rows.is_empty()).then(section).into()
}

fn entries_view(entries: &[EntryShown]) -> View {
    if entries.is_empty() {
        return el("p").text(annexes::NO_ENTRY).into();
    }
    entries.iter().map(entry_view).collect()
}

fn entry_view(entry: &EntryShown) -> El {
    let said = |(grade, outcome, words): &(Grade, String, String)| {
        el("li")
            .child(el("span").class("grade").attr("data-grade", grade.key()).text(outcome))
            .child(el("q").class("law-words").text(words))
    };
    let says = || el("ul").class("law-says").child(entry.says.iter().map(said).collect::<View>());
    el("section")
        .class("agent")
        .child(el("h3").text(&entry.title))
        .child(el("p").class("small").text(&entry.about))
        .child(el("p").text(&entry.under))
        .child((!entry.says.is_empty()).then(says))
        .child(entry.notes.iter().map(|note| el("p").class("small").text(note)).collect::<View>())
}
