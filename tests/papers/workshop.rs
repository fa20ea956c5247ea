//! The worked example with what label and papers need.

use hundred_parts::desk::{Action, DocId, OpenDocument, ShelfDocument, demo};
use hundred_parts::facts::{Field, IngredientId};
use hundred_parts::formula::PaperField;
use hundred_parts::paper::{LabelFacts, bundle_facts, label_facts, safety_facts};
use hundred_parts::quantity::Timestamp;
use hundred_parts::rules::{self, Finding};
use hundred_parts::sheet::{Sheet, compute};
use hundred_parts::shelf::Shelf;
use hundred_parts::words;

/// The demo on a bench, with the maker's shelf beside it.
pub(crate) struct Workshop {
    pub(crate) open: OpenDocument,
    pub(crate) shelf: Shelf,
}

impl Workshop {
    pub(crate) fn new() -> Self {
        let open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), Timestamp::from_millis(0));
        Self { open, shelf: Shelf::default() }
    }

    pub(crate) fn act(mut self, action: Action) -> Self {
        self.open.act(action, Timestamp::from_millis(0));
        self
    }

    pub(crate) fn paper(self, field: PaperField, text: &str) -> Self {
        self.act(Action::Paper(field, text.to_owned()))
    }

    pub(crate) fn derive(&self) -> (Sheet, Vec<Finding>) {
        let state = self.open.state();
        let sheet = compute(&state.formula, &state.plan, &state.lye, &self.shelf);
        let findings = rules::check(&state.formula, &sheet, &self.shelf);
        (sheet, findings)
    }

    pub(crate) fn label(&self) -> LabelFacts {
        let (sheet, findings) = self.derive();
        label_facts(&self.open.state().formula, &sheet, &findings)
    }

    pub(crate) fn safety(&self) -> String {
        let (sheet, findings) = self.derive();
        words::safety_paper(&safety_facts(&self.open.state().formula, &sheet, &findings, &self.shelf)).text()
    }

    pub(crate) fn bundle(&self) -> String {
        let (sheet, findings) = self.derive();
        let formula = &self.open.state().formula;
        let steps = words::method::steps(formula, &self.shelf, sheet.lye.is_some());
        words::bundle_paper(&bundle_facts(formula, &sheet, &findings, &self.shelf), &steps).text()
    }
}

/// Everything that a label needs in the European Union.
pub(crate) fn complete() -> Workshop {
    Workshop::new()
        .paper(PaperField::Responsible, "Marsh Lane Workshop")
        .paper(PaperField::Address, "3 Marsh Lane, Saltby")
        .paper(PaperField::NetContent, "100 g")
        .paper(PaperField::BatchCode, "H-07")
        .paper(PaperField::BestBefore, "06/2027")
        .paper(PaperField::Function, "Hand lotion")
}

/// An ingredient of the maker's own with this label name, in the last phase.
pub(crate) fn add_own(made: &mut Workshop, name: &str, inci: &str, share: &str) {
    let id = made.shelf.add_own(name);
    made.shelf.set(&id, Field::Inci, inci);
    add(made, id.as_str(), share);
}

/// Another line in the last phase.
pub(crate) fn add(made: &mut Workshop, id: &str, share: &str) {
    let phase = made.open.state().formula.phases()[2].id;
    let now = Timestamp::from_millis(0);
    let hundred_parts::desk::Made::Line(line) = made.open.act(Action::AddLine(phase, 99), now) else { panic!() };
    made.open.act(Action::ChooseLine(line, IngredientId::parse(id).unwrap()), now);
    made.open.act(Action::ShareLine(line, share.to_owned()), now);
}
