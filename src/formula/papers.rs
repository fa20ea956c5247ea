//! What label and papers need beside the formula, and the answers to findings that stop.

use crate::facts::Months;
use crate::quantity::{Day, Mass, Parsed, Percent, Typed, Volume, keyed};

keyed! {
    /// One text of the papers.
    #[derive(Default)]
    PaperField {
        /// Who answers for the product: a name.
        #[default]
        Responsible = "responsible",
        /// Their address.
        Address = "address",
        /// Country of origin, if it comes from outside.
        Origin = "origin",
        /// Where an adverse event is reported: telephone, address or page.
        Contact = "contact",
        /// What the product is for, if that is not plain.
        Function = "function",
        /// What one pack holds, with its unit.
        NetContent = "net_content",
        /// The batch code.
        BatchCode = "batch_code",
        /// The day or month to use it by.
        BestBefore = "best_before",
        /// How long it keeps unopened, in months.
        Durability = "durability_months",
        /// How long it keeps opened, in months.
        AfterOpening = "after_opening_months",
        /// How to keep it.
        Storage = "storage",
        /// Whether the powders that may be in nano form are: `yes` or `no`.
        Nano = "nano",
        /// Water activity, measured.
        WaterActivity = "water_activity",
        /// The preservation test that was passed: what, when, where.
        ChallengeTest = "challenge_test",
        /// How far the stability test has come.
        Stability = "stability",
        /// Who assesses its safety.
        Assessor = "assessor",
        /// The number of the notification.
        Notified = "notified",
    }
}

impl PaperField {
    /// True if the label shows it or asks for it; the others are for the assessor.
    pub const fn on_label(self) -> bool {
        !matches!(self, Self::WaterActivity | Self::ChallengeTest | Self::Stability | Self::Assessor | Self::Notified)
    }
}

/// A written reason for going on in spite of a finding, and who takes it on.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Answer {
    /// The key of the finding.
    pub finding: String,
    /// What was found when it was answered; another value is another finding.
    pub value: String,
    /// Why it is right to go on.
    pub reason: String,
    /// Who takes it on.
    pub person: String,
    /// The day on which it was given.
    pub day: Option<Day>,
}

impl Answer {
    /// As changed on a day, of what is found then: every change stands behind that.
    #[must_use]
    pub fn renewed(self, finding: &str, value: &str, day: Option<Day>) -> Self {
        Self { finding: finding.to_owned(), value: value.to_owned(), day, ..self }
    }

    /// True if it has a reason and a person.
    pub fn is_complete(&self) -> bool {
        !self.reason.trim().is_empty() && !self.person.trim().is_empty()
    }
}

/// What one pack holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Content {
    /// By mass.
    Mass(Mass),
    /// By volume.
    Volume(Volume),
}

/// The texts as typed, and the answers.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Papers {
    texts: Vec<(PaperField, String)>,
    answers: Vec<Answer>,
}

impl Papers {
    /// The text of a field as typed; empty if there is none.
    pub fn text(&self, field: PaperField) -> &str {
        self.texts.iter().find(|(at, _)| *at == field).map_or("", |(_, text)| text)
    }

    /// The text of a field without blanks around it, if there is any.
    pub fn said(&self, field: PaperField) -> Option<&str> {
        Some(self.text(field).trim()).filter(|text| !text.is_empty())
    }

    /// Keeps a text; an empty one takes it away.
    pub fn set(&mut self, field: PaperField, text: String) {
        self.texts.retain(|(at, _)| *at != field);
        if !text.is_empty() {
            let place = self.texts.partition_point(|(at, _)| (*at as usize) < field as usize);
            self.texts.insert(place, (field, text));
        }
    }

    /// All texts, in the order of their fields.
    pub fn texts(&self) -> impl Iterator<Item = (PaperField, &str)> {
        self.texts.iter().map(|(field, text)| (*field, text.as_str()))
    }

    /// A number of months, if one was typed.
    pub fn months(&self, field: PaperField) -> Option<Months> {
        Typed::new(self.text(field)).value()
    }

    /// The measured water activity, 0 to 1, in units of 0.000001.
    pub fn water_activity(&self) -> Option<i64> {
        let typed: Typed<Percent> = Typed::new(self.text(PaperField::WaterActivity));
        typed.value().map(crate::quantity::Quantity::units).filter(|activity| *activity <= 1_000_000)
    }

    /// Whether its powders are in nano form; nothing unless the text is yes or no.
    pub fn nano(&self) -> Option<bool> {
        match self.text(PaperField::Nano).trim().to_ascii_lowercase().as_str() {
            "yes" => Some(true),
            "no" => Some(false),
            _ => None,
        }
    }

    /// What one pack holds, if a mass or a volume was typed.
    pub fn content(&self) -> Option<Content> {
        use crate::quantity::Quantity;
        let text = self.text(PaperField::NetContent);
        match (Mass::read(text), Volume::read(text)) {
            (Parsed::Value(mass), _) => Some(Content::Mass(mass)),
            (_, Parsed::Value(volume)) => Some(Content::Volume(volume)),
            _ => None,
        }
    }

    /// The answer to a finding, whatever it was when it was answered.
    pub fn answer(&self, finding: &str) -> Option<&Answer> {
        self.answers.iter().find(|answer| answer.finding == finding)
    }

    /// Keeps an answer in the place of the one before; one that says nothing takes it away.
    pub fn set_answer(&mut self, answer: Answer) {
        let place = self.answers.partition_point(|known| known.finding < answer.finding);
        let known = self.answers.get(place).is_some_and(|known| known.finding == answer.finding);
        let blank = answer.reason.is_empty() && answer.person.is_empty();
        match (known, blank) {
            (true, true) => {
                self.answers.remove(place);
            }
            (true, false) => self.answers[place] = answer,
            (false, false) => self.answers.insert(place, answer),
            (false, true) => {}
        }
    }

    /// All answers, by the key of their finding.
    pub fn answers(&self) -> &[Answer] {
        &self.answers
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Quantity;

    #[test]
    fn papers_texts_are_kept_in_order_and_taken_away_by_an_empty_one() {
        let mut papers = Papers::default();
        papers.set(PaperField::BatchCode, "B7".into());
        papers.set(PaperField::Responsible, " Marsh Lane Workshop ".into());
        assert_eq!(papers.texts().map(|(field, _)| field.key()).collect::<Vec<_>>(), ["responsible", "batch_code"]);
        assert_eq!(papers.said(PaperField::Responsible), Some("Marsh Lane Workshop"));
        papers.set(PaperField::BatchCode, String::new());
        papers.set(PaperField::Responsible, String::new());
        assert_eq!(papers, Papers::default());
    }

    #[test]
    fn papers_numbers_are_read_from_what_was_typed() {
        let mut papers = Papers::default();
        for (text, content) in [
            ("50 g", Some(Content::Mass(Mass::from_units(50_000_000)))),
            ("100 mL", Some(Content::Volume(Volume::from_units(100_000_000)))),
            ("1.5.2", None),
            ("", None),
        ] {
            papers.set(PaperField::NetContent, text.into());
            assert_eq!(papers.content(), content, "{text}");
        }
        papers.set(PaperField::WaterActivity, "0,72".into());
        assert_eq!(papers.water_activity(), Some(720_000));
        papers.set(PaperField::WaterActivity, "72".into());
        assert_eq!(papers.water_activity(), None);
    }

    #[test]
    fn papers_an_answer_is_replaced_by_the_next_and_taken_away_by_a_blank_one() {
        let answer = |reason: &str| Answer { finding: "a/b".into(), reason: reason.into(), ..Answer::default() };
        let mut papers = Papers::default();
        papers.set_answer(answer("one"));
        papers.set_answer(answer("two"));
        assert_eq!(papers.answers(), [answer("two")]);
        assert!(!answer("two").is_complete());
        papers.set_answer(answer(""));
        papers.set_answer(answer(""));
        assert_eq!(papers, Papers::default());
    }
}
