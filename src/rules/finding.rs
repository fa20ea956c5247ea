//! One finding: the facts of it. Its sentence is made in `words`.

use crate::facts::{Basis, IngredientId, LabelDuty, Provenance, Span, TRIGLYCERIDE_SV, fold, source_text};
use crate::formula::{Choice, Formula, LineId, Pack, PhaseKind, Region};
use crate::quantity::{Day, Mass, ParseProblem, Percent, Ph, Quantity};
use crate::sheet::{LyeNote, NoLye, UsedLot};
use crate::shelf::SheetFinding;

use super::{Amount, Message, MessageId, OnTheScale};

/// How grave a finding is, gravest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Grade {
    /// Do not go on before this is mended.
    Stop,
    /// Think before going on.
    Care,
    /// It could not be judged.
    Unknown,
    /// It was checked and is well.
    Fine,
}

impl Grade {
    /// Its name in files.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Care => "care",
            Self::Unknown => "unknown",
            Self::Fine => "fine",
        }
    }

    /// From that name.
    pub fn from_key(key: &str) -> Option<Self> {
        [Self::Stop, Self::Care, Self::Unknown, Self::Fine].into_iter().find(|grade| grade.key() == key)
    }
}

/// What was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fact {
    /// The shares sum to exactly 100 %.
    SumWhole,
    /// The shares leave this much to 100 %.
    SumShort(Percent),
    /// The shares are this much over 100 %.
    SumOver(Percent),
    /// A share could not be read.
    Unread {
        /// As typed.
        text: String,
        /// Why; `None` if it could mean two numbers.
        problem: Option<ParseProblem>,
    },
    /// A line has no share yet.
    NoShare,
    /// A line has a share but no name.
    Nameless,
    /// A name that the shelf does not know.
    OffShelf(String),
    /// Something to be said about the lye.
    Lye(LyeNote),
    /// There is no lye, and why.
    NoLye(NoLye),
    /// Values from a supplier's sheet that do not fit together.
    SupplierSheet(SheetFinding),
    /// The scale cannot weigh so little within the accepted error.
    TooSmall {
        /// The dose.
        dose: Mass,
        /// What the scale makes of it.
        weighed: Mass,
        /// The least it weighs well.
        least: Mass,
        /// The batch from which on it weighs it well; none where a premix is proposed.
        from: Option<Mass>,
    },
    /// Something about what may harm or what the law asks; what was compared is in the finding.
    Message(Message),
}

/// What a finding proposes: a change that the desk can make.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Remedy {
    /// Another share of a line.
    Share(LineId, Percent),
    /// Away with a line.
    Remove(LineId),
    /// A line into the cool-down phase.
    ToCoolDown(LineId),
    /// A new line in a phase of this kind.
    Add(IngredientId, Percent, PhaseKind),
    /// Another target pH.
    TargetPh(Ph),
    /// This line fills up to 100.
    FillUp(LineId),
    /// Another pack.
    Pack(Pack),
}

/// What is known beside a finding's kind.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Detail {
    /// The substance or thing it is about.
    pub subject: String,
    /// What was found.
    pub value: Option<Amount>,
    /// What it was compared with.
    pub limit: Option<Amount>,
    /// What the label must say because of it.
    pub duty: Option<LabelDuty>,
    /// Where the limit comes from.
    pub source: String,
    /// How well the limit is known.
    pub provenance: Option<Provenance>,
    /// Whether nothing of it rests on memory.
    pub verified: bool,
    /// Whether anything that decides its grade is a custom of the trade or a choice of ours: that advises and never stops.
    pub custom: bool,
    /// The supplier's document that the value rests on.
    pub document: Option<String>,
    /// The lots that it was counted from.
    pub lots: Vec<UsedLot>,
    /// The grade that the criterion asks for; it is shown lower where it rests on memory, on custom or on another region's
    /// law.
    pub asked: Option<Grade>,
    /// The region, if the law that the finding rests on is not known to hold there.
    pub not_law: Option<Region>,
    /// The day since which the limit holds, if that is still to come.
    pub from: Option<Day>,
    /// The scale that makes it so, where the shares as typed say less.
    pub on_the_scale: Option<OnTheScale>,
    /// What can be done at once.
    pub remedies: Vec<Remedy>,
}

/// One result of a check.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// The rule's code.
    pub rule: &'static str,
    /// How grave.
    pub grade: Grade,
    /// The lines it concerns; none if it concerns the whole formula.
    pub lines: Vec<LineId>,
    /// What was found.
    pub fact: Fact,
    /// The numbers and their source, for what the safety rules say.
    pub detail: Detail,
}

impl Finding {
    /// A finding whose facts say everything.
    pub fn new(rule: &'static str, grade: Grade, lines: Vec<LineId>, fact: Fact) -> Self {
        Self { rule, grade, lines, fact, detail: Detail::default() }
    }

    /// A finding of a safety rule, to be completed.
    pub(super) fn said(rule: &'static str, grade: Grade, said: Message, basis: Basis) -> Self {
        let (source, provenance) = (basis.source.to_owned(), Some(basis.provenance));
        let detail = Detail { source, provenance, verified: true, ..Detail::default() };
        Self { rule, grade, lines: Vec::new(), fact: Fact::Message(said), detail }.rests_on(basis)
    }

    /// Something else that decides it, beside the source that is shown: a further figure, the class of a partner.
    pub(super) fn rests_on(mut self, basis: Basis) -> Self {
        self.detail.verified &= basis.holds();
        self.detail.custom |= basis.holds() && !basis.may_stop();
        self
    }

    pub(super) fn on(mut self, lines: impl IntoIterator<Item = LineId>) -> Self {
        for line in lines {
            if !self.lines.contains(&line) {
                self.lines.push(line);
            }
        }
        self
    }

    pub(super) fn about(mut self, subject: impl Into<String>) -> Self {
        self.detail.subject = subject.into();
        self
    }

    pub(super) fn duty(mut self, duty: Option<LabelDuty>) -> Self {
        self.detail.duty = duty;
        self
    }

    pub(super) fn found(mut self, value: Amount) -> Self {
        self.detail.value = Some(value);
        self
    }

    pub(super) fn against(mut self, limit: Amount) -> Self {
        self.detail.limit = Some(limit);
        self
    }

    /// Whether something else that it rests on is known for sure.
    pub(super) fn if_holds(mut self, holds: bool) -> Self {
        self.detail.verified &= holds;
        self
    }

    pub(super) fn read_in(mut self, source: &str) -> Self {
        self.detail.source = source.to_owned();
        self
    }

    pub(super) fn document(mut self, document: Option<String>) -> Self {
        self.detail.document = document;
        self
    }

    pub(super) fn remedy(mut self, remedy: impl IntoIterator<Item = Remedy>) -> Self {
        self.detail.remedies.extend(remedy);
        self
    }

    /// A law of the European Union that holds since a day (none: long since). Great Britain keeps what was law before
    /// it left.
    pub(super) fn by_law(mut self, region: Region, since: Option<Day>) -> Self {
        let holds = match region {
            Region::Eu => true,
            Region::Gb => since.is_none(),
            Region::Us | Region::Elsewhere => false,
        };
        if !holds {
            self.detail.not_law = Some(region);
        }
        self.detail.from = since.filter(|since| *since > super::KNOWN_TO);
        self
    }

    /// Lowers a Stop that rests on memory, on custom, on a law that does not hold in the region, or on one still to come.
    pub(super) fn downgrade(mut self) -> Self {
        if matches!(self.fact, Fact::Message(_)) {
            self.detail.asked = Some(self.grade);
            let Detail { verified, custom, .. } = self.detail;
            let held = verified && !custom && self.detail.not_law.is_none() && self.detail.from.is_none();
            if self.grade == Grade::Stop && !held {
                self.grade = Grade::Care;
            }
            self.lines.sort();
        }
        self
    }

    /// What a safety rule says.
    pub const fn message(&self) -> Option<MessageId> {
        match &self.fact {
            Fact::Message(message) => Some(message.id()),
            _ => None,
        }
    }

    /// Whether both say the same, whatever the numbers.
    pub(super) fn says_the_same(&self, other: &Self) -> bool {
        match (self.message(), other.message()) {
            (Some(message), Some(other)) => message == other,
            _ => self.fact == other.fact,
        }
    }

    /// The value that was compared, as stored answers and reports have it.
    pub fn value(&self) -> Option<String> {
        match &self.fact {
            Fact::SumWhole => Some("100 %".to_owned()),
            Fact::SumShort(by) => Some(format!("{} %", Percent::WHOLE.minus(*by).canonical())),
            Fact::SumOver(by) => Some(format!("{} %", Percent::WHOLE.plus(*by).canonical())),
            Fact::Unread { text, .. } | Fact::OffShelf(text) => Some(text.clone()),
            Fact::Lye(LyeNote::MarginBelowNothing(share))
            | Fact::NoLye(NoLye::Unacknowledged(share) | NoLye::TooStrong { concentration: share, .. }) => {
                Some(format!("{} %", share.canonical()))
            }
            Fact::NoLye(NoLye::SvImpossible(_, value)) => Some(format!("{} mg KOH/g", value.canonical())),
            Fact::NoShare | Fact::Nameless | Fact::Lye(_) | Fact::NoLye(_) | Fact::SupplierSheet(_) => None,
            Fact::TooSmall { dose, .. } => Some(format!("{} g", dose.canonical())),
            Fact::Message(_) => self.detail.value.as_ref().map(Amount::stored_text),
        }
    }

    /// What it was compared with.
    pub fn limit(&self) -> Option<String> {
        match &self.fact {
            Fact::SumWhole | Fact::SumShort(_) | Fact::SumOver(_) => Some("100 %".to_owned()),
            Fact::TooSmall { least, .. } => Some(format!("{} g", least.canonical())),
            Fact::Lye(LyeNote::MarginBelowNothing(_)) | Fact::NoLye(NoLye::Unacknowledged(_)) => {
                Some("above 0 %".to_owned())
            }
            Fact::NoLye(NoLye::TooStrong { most, .. }) => Some(format!("{} %", most.canonical())),
            Fact::NoLye(NoLye::SvImpossible(..)) => {
                let Span { low, high } = TRIGLYCERIDE_SV;
                Some(format!("{} to {} mg KOH/g", low.canonical(), high.canonical()))
            }
            Fact::Unread { .. } | Fact::NoShare | Fact::Nameless | Fact::OffShelf(_) => None,
            Fact::Lye(_) | Fact::NoLye(_) | Fact::SupplierSheet(_) => None,
            Fact::Message(_) => self.detail.limit.as_ref().map(Amount::stored_text),
        }
    }

    /// Where the limit comes from.
    pub fn source(&self) -> &str {
        match &self.fact {
            Fact::TooSmall { .. } => source_text("usp41"),
            Fact::OffShelf(_) | Fact::SupplierSheet(_) => source_text("own-shelf"),
            Fact::Lye(_) | Fact::NoLye(_) => source_text("lye-values"),
            Fact::Message(_) => &self.detail.source,
            _ => source_text("whole"),
        }
    }

    /// Whether nothing that it rests on is from memory.
    pub const fn verified(&self) -> bool {
        match &self.fact {
            Fact::TooSmall { .. } | Fact::Lye(_) | Fact::NoLye(_) => false,
            Fact::Message(_) => self.detail.verified,
            _ => true,
        }
    }

    /// True if it would be a Stop but for what it rests on.
    pub fn is_lowered(&self) -> bool {
        self.detail.asked == Some(Grade::Stop) && self.grade == Grade::Care
    }

    /// A key that names the same finding again after the formula was stored and opened: rule, kind, subject, ingredients.
    pub fn key(&self, formula: &Formula) -> String {
        let kind = match &self.fact {
            Fact::Message(said) => said.key(),
            Fact::SumWhole | Fact::SumShort(_) | Fact::SumOver(_) => "sum",
            Fact::Unread { .. } => "unread",
            Fact::NoShare => "no-share",
            Fact::Nameless => "nameless",
            Fact::OffShelf(_) => "off-shelf",
            Fact::TooSmall { .. } => "too-small",
            Fact::Lye(note) => note.key(),
            Fact::NoLye(why) => why.key(),
            Fact::SupplierSheet(odd) => odd.key(),
        };
        let mut names: Vec<String> = self
            .lines
            .iter()
            .filter_map(|id| formula.line(*id))
            .map(|line| match &line.choice {
                Choice::Known(id) => id.as_str().to_owned(),
                Choice::Named(name) => fold(name).trim().to_owned(),
            })
            .collect();
        names.sort();
        names.dedup();
        format!("{}/{kind}/{}/{}", self.rule, fold(&self.detail.subject).trim(), names.join("+"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::{CsvTable, criteria};

    fn stop(basis: Basis) -> Finding {
        Finding::said("rule", Grade::Stop, Message::NoPh, basis)
    }

    /// Whatever the table of figures calls a custom advises, whether a finding shows it as its source or only rests on it.
    #[test]
    fn finding_that_rests_on_any_custom_figure_never_stops() {
        let seen = Basis::verified("A law");
        assert_eq!(stop(seen).downgrade().grade, Grade::Stop);
        let (mut customs, mut spared) = (0, 0);
        for row in CsvTable::read(include_str!("../facts/data/criteria.csv")).rows() {
            let key = row.get("key").unwrap();
            let basis = criteria::all().iter().find(|one| one.key == key).unwrap().basis;
            let (alone, beside) = (stop(basis).downgrade(), stop(seen).rests_on(basis).downgrade());
            let held = match row.get("seen").unwrap() {
                "custom" => {
                    customs += 1;
                    assert!(alone.detail.custom && alone.is_lowered() && alone.verified(), "{row:?}");
                    false
                }
                "allowance" => {
                    spared += 1;
                    true
                }
                other => other == "stored",
            };
            for finding in [alone, beside] {
                assert_eq!(finding.grade, if held { Grade::Stop } else { Grade::Care }, "{row:?}");
            }
        }
        assert!(customs > 25 && spared == 6, "{customs} {spared}");
    }
}
