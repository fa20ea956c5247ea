//! How grave the findings are that speak of one topic, for a card that shows it.

use super::{Finding, Grade};
use crate::compliance::LawOutcome;
use crate::facts::OxidationOutlook;
use crate::quantity::Ph;
use crate::sheet::{AnnexCheck, Sheet, Works};

/// Something that several rules speak of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Topic {
    /// The pH that the formula needs.
    Ph,
    /// Its preservatives.
    Preservation,
    /// Its emulsifiers.
    Emulsion,
}

impl Topic {
    const fn codes(self) -> &'static [&'static str] {
        match self {
            Self::Ph => &["product-ph", "ph-window", "ph-reach", "preservative-ph"],
            Self::Preservation => {
                &["unpreserved", "preservative-maximum", "parabens", "preservative-ph", "undissolved", "spectrum"]
            }
            Self::Emulsion => &["emulsifier"],
        }
    }
}

/// The gravest grade of a topic; `Unknown` if no rule had anything to say of it.
pub fn gravest(findings: &[Finding], topic: Topic) -> Grade {
    gravest_of(findings, topic).unwrap_or(Grade::Unknown)
}

fn gravest_of(findings: &[Finding], topic: Topic) -> Option<Grade> {
    findings.iter().filter(|finding| topic.codes().contains(&finding.rule)).map(|finding| finding.grade).min()
}

/// The same for the pH that a formula needs: windows that do not meet, or that the target is outside of, take care; and a
/// target of which nobody can tell whether the formula reaches it is not well.
pub fn of_ph(findings: &[Finding], sheet: &Sheet, target: Option<Ph>) -> Grade {
    let found = gravest_of(findings, Topic::Ph).unwrap_or(Grade::Fine);
    let estimated = if sheet.ph.is_some() { Grade::Fine } else { Grade::Unknown };
    match target {
        _ if sheet.window.meeting.is_err() => found.min(Grade::Care),
        None => found.min(Grade::Unknown),
        Some(target) if sheet.window.against(target).is_empty() => found.min(estimated),
        Some(_) => found.min(Grade::Care),
    }
}

/// The grade of how long the oils keep; unknown where nothing could be computed.
pub const fn of_outlook(outlook: Option<OxidationOutlook>) -> Grade {
    match outlook {
        None => Grade::Unknown,
        Some(OxidationOutlook::Long | OxidationOutlook::Usual) => Grade::Fine,
        Some(OxidationOutlook::Short | OxidationOutlook::VeryShort) => Grade::Care,
    }
}

/// The grade of one preservative by itself: what does not count may be made up for by another.
pub const fn of_preservative(works: Works) -> Grade {
    match works {
        Works::Yes => Grade::Fine,
        Works::WithCare | Works::No | Works::TooLittle => Grade::Care,
        Works::Unknown => Grade::Unknown,
    }
}

/// The grade of what an entry of the annexes comes to; without facts about the shares nothing is a Stop, and nothing well.
pub const fn of_law(outcome: LawOutcome, rests_on_facts: bool) -> Grade {
    match outcome {
        LawOutcome::Prohibited | LawOutcome::Above if rests_on_facts => Grade::Stop,
        LawOutcome::Prohibited | LawOutcome::Above | LawOutcome::MayBeAbove => Grade::Care,
        LawOutcome::Print | LawOutcome::Indicate => Grade::Care,
        LawOutcome::Within if rests_on_facts => Grade::Fine,
        LawOutcome::Unknown | LawOutcome::Within => Grade::Unknown,
    }
}

/// The gravest grade of all entries; never `Fine`, since a program does not read all of the law.
pub fn of_annexes(check: &AnnexCheck) -> Grade {
    let grades = check.entries().into_iter().map(|entry| of_law(entry.outcome(), check.rests_on_facts(entry)));
    grades.min().unwrap_or(Grade::Unknown).min(Grade::Unknown)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn topic_law_is_no_stop_and_not_well_without_facts() {
        assert_eq!(of_law(LawOutcome::Above, true), Grade::Stop);
        assert_eq!(of_law(LawOutcome::Above, false), Grade::Care);
        assert_eq!(of_law(LawOutcome::Within, false), Grade::Unknown);
        assert_eq!(of_law(LawOutcome::Unknown, true), Grade::Unknown);
    }

    #[test]
    fn topic_annexes_are_never_well_as_a_whole() {
        let nothing = AnnexCheck::of(&crate::sheet::FormulaComposition::default(), &Default::default()).unwrap();
        assert_eq!(of_annexes(&nothing), Grade::Unknown);
    }
    use crate::rules::{Fact, RULES};

    #[test]
    fn topic_names_rules_that_there_are() {
        for topic in [Topic::Ph, Topic::Preservation, Topic::Emulsion] {
            for code in topic.codes() {
                assert!(RULES.iter().any(|rule| rule.code == *code), "{code}");
            }
        }
    }

    #[test]
    fn topic_is_as_grave_as_its_gravest_finding() {
        let finding = |rule, grade| Finding::new(rule, grade, Vec::new(), Fact::NoShare);
        let findings =
            [finding("sum", Grade::Stop), finding("spectrum", Grade::Fine), finding("parabens", Grade::Care)];
        assert_eq!(gravest(&findings, Topic::Preservation), Grade::Care);
        assert_eq!(gravest(&findings, Topic::Emulsion), Grade::Unknown);
    }

    #[test]
    fn outlook_of_oils_that_turn_soon_takes_care_and_of_none_is_unknown() {
        assert_eq!(of_outlook(None), Grade::Unknown);
        assert_eq!(of_outlook(Some(OxidationOutlook::Usual)), Grade::Fine);
        assert_eq!(of_outlook(Some(OxidationOutlook::Short)), Grade::Care);
    }
}
