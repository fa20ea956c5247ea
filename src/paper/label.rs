//! What stands on the label, and what is missing for it.
//!
//! Source: Regulation (EC) 1223/2009 Article 19 (read in part), 21 CFR 701.3 and 740.10 (in part from memory), Commission
//! and Irish authority on dates and periods after opening.

use super::durability::durability_date;
use super::{LawWords, law_words};
use crate::facts::{LabelDuty, Months, SubstanceClass, criteria, criterion, figure_height, in_class};
use crate::formula::{Answer, Content, Formula, PaperField, Region};
use crate::quantity::{Day, Mass, Quantity};
use crate::rules::{Finding, Grade, MessageId, Standing, standing};
use crate::sheet::{NominalBounds, Open, Sheet, UsedLot, bounds};

/// A caution that a label or safety sheet must carry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// Releases formaldehyde.
    Formaldehyde,
    /// Not for children under three.
    NotUnderThree,
    /// Not on the nappy area.
    NotNappy,
    /// Not into the eyes.
    Eyes,
    /// Holds vitamin A.
    VitaminA,
    /// Makes skin burn in the sun.
    Sunburn,
    /// Oils in it burn skin in the sun.
    CitrusSun,
    /// Can be lit.
    Flammable,
    /// Not a product whose safety was determined (United States).
    NotDetermined,
}

impl Caution {
    /// All.
    pub const ALL: [Self; 9] = [
        Self::Formaldehyde,
        Self::NotUnderThree,
        Self::NotNappy,
        Self::Eyes,
        Self::VitaminA,
        Self::Sunburn,
        Self::CitrusSun,
        Self::Flammable,
        Self::NotDetermined,
    ];

    /// Its row in the table of wordings.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Formaldehyde => "formaldehyde",
            Self::NotUnderThree => "not-under-three",
            Self::NotNappy => "not-nappy",
            Self::Eyes => "eyes",
            Self::VitaminA => "vitamin-a",
            Self::Sunburn => "sunburn",
            Self::CitrusSun => "citrus-sun",
            Self::Flammable => "flammable",
            Self::NotDetermined => "not-determined",
        }
    }
}

/// How long the product keeps, as the label says it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Keeps {
    /// A date, with the durability in months if that is stated: needed up to thirty months, and always allowed.
    Until(String),
    /// A period after opening, enough by itself above thirty months.
    AfterOpening(Months),
    /// Both.
    Both(String, Months),
    /// Nothing is stated that suffices.
    Missing,
}

/// What a label still lacks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Gap {
    /// A name to answer for it.
    Responsible,
    /// An address.
    Address,
    /// A contact for adverse events (United States).
    Contact,
    /// What is in the pack.
    NetContent,
    /// A batch code.
    BatchCode,
    /// A date, since it keeps thirty months or less, or nobody said how long.
    BestBefore,
    /// Its date, which is not month and year, nor day, month and year.
    DateForm(String),
    /// A period after opening, since it keeps longer.
    AfterOpening,
    /// What it is for.
    Function,
    /// Something about the list of ingredients.
    List(Open),
    /// A Stop that nobody answered.
    OpenStops(usize),
}

impl Gap {
    /// True if nothing is missing, but nobody knows yet whether the list of ingredients says all that it must.
    pub const fn is_open(&self) -> bool {
        use Open::{NamesUnrecognised, Nano, NoStatement, Saponified, Shares, StatementUnread};
        matches!(
            self,
            Self::List(NamesUnrecognised(..) | Nano(_) | NoStatement(_) | Saponified | Shares(_) | StatementUnread(..))
        )
    }

    /// The text that would fill it.
    pub const fn field(&self) -> Option<PaperField> {
        Some(match self {
            Self::Responsible => PaperField::Responsible,
            Self::Address => PaperField::Address,
            Self::Contact => PaperField::Contact,
            Self::NetContent => PaperField::NetContent,
            Self::BatchCode => PaperField::BatchCode,
            Self::BestBefore | Self::DateForm(_) => PaperField::BestBefore,
            Self::AfterOpening => PaperField::AfterOpening,
            Self::Function => PaperField::Function,
            Self::List(Open::Nano(_)) => PaperField::Nano,
            Self::List(_) | Self::OpenStops(_) => return None,
        })
    }
}

/// The facts of a label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LabelFacts {
    /// The product's name.
    pub name: String,
    /// The region whose rules it follows.
    pub region: Region,
    /// What it is for.
    pub function: Option<String>,
    /// What the pack holds.
    pub content: Option<Content>,
    /// How far below that a pack may be.
    pub bounds: Option<NominalBounds>,
    /// The list, in order.
    pub ingredients: Vec<String>,
    /// Cautions, each once.
    pub cautions: Vec<Caution>,
    /// What the annexes of the law have printed on it, in their words.
    pub law: Vec<LawWords>,
    /// How long it keeps.
    pub keeps: Keeps,
    /// How to keep it.
    pub storage: Option<String>,
    /// Its batch code.
    pub batch: Option<String>,
    /// The day on which that batch was started, where its code is the one of its record.
    pub made: Option<Day>,
    /// Who answers for it, where, and a contact.
    pub responsible: Vec<String>,
    /// Where it comes from.
    pub origin: Option<String>,
    /// What is missing.
    pub gaps: Vec<Gap>,
    /// Stops that somebody took on, with the reason.
    pub answers: Vec<(Finding, Answer)>,
    /// The lots from which its allergens are counted.
    pub lots: Vec<UsedLot>,
    /// Height of its small letters at least, in micrometres.
    pub letter_um: i64,
    /// Height of the figures of its net content at least, in micrometres.
    pub figure_um: Option<i64>,
}

impl LabelFacts {
    /// With the code of a batch and the day on which it was started, where the maker has typed no code.
    #[must_use]
    pub fn with_batch(mut self, batch: Option<(String, Day)>) -> Self {
        if let Some((code, day)) = batch.filter(|(code, _)| self.batch.is_none() && !code.trim().is_empty()) {
            self.batch = Some(code);
            self.made = Some(day);
            self.gaps.retain(|gap| *gap != Gap::BatchCode);
        }
        self
    }
}

/// Gathers a label.
pub fn label_facts(formula: &Formula, sheet: &Sheet, findings: &[Finding]) -> LabelFacts {
    let (about, papers) = (&formula.about, &formula.papers);
    let said = |field| papers.said(field).map(str::to_owned);
    let us = about.region == Region::Us;
    let content = papers.content();
    let nominal = content.map(as_mass);
    let keeps = keeps(formula);
    let responsible: Vec<String> =
        [PaperField::Responsible, PaperField::Address, PaperField::Contact].into_iter().filter_map(said).collect();
    LabelFacts {
        name: about.title.clone(),
        region: about.region,
        function: said(PaperField::Function),
        content,
        bounds: nominal.and_then(bounds),
        ingredients: sheet.label.ingredients.iter().map(|listed| listed.name.clone()).collect(),
        cautions: cautions(formula, sheet, findings),
        law: law_words(about.region, sheet),
        gaps: gaps(formula, sheet, findings, &keeps, nominal),
        keeps,
        answers: answers(formula, findings),
        lots: sheet.composition.lots.clone(),
        storage: said(PaperField::Storage),
        batch: said(PaperField::BatchCode),
        made: None,
        responsible,
        origin: said(PaperField::Origin),
        letter_um: criterion(if us { criteria::LETTER_US } else { criteria::LETTER_HEIGHT }).value.micrometres(),
        figure_um: nominal.filter(|_| !us).and_then(figure_height),
    }
}

fn answers(formula: &Formula, findings: &[Finding]) -> Vec<(Finding, Answer)> {
    let answer = |finding: &Finding| match standing(finding, formula) {
        Some(Standing::Answered(answer)) => Some((finding.clone(), answer.clone())),
        _ => None,
    };
    findings.iter().filter_map(answer).collect()
}

/// A content as a mass; a millilitre stands as a gram, which is how the table of tolerances counts.
fn as_mass(content: Content) -> Mass {
    match content {
        Content::Mass(mass) => mass,
        Content::Volume(volume) => Mass::from_units(volume.units()),
    }
}

/// A date up to thirty months; above that a period after opening does. A date always may stand there.
fn keeps(formula: &Formula) -> Keeps {
    let papers = &formula.papers;
    let typed = papers.said(PaperField::BestBefore);
    let date = typed.map(|text| durability_date(text).unwrap_or_else(|| text.to_owned()));
    let opened = papers.months(PaperField::AfterOpening);
    let long = papers.months(PaperField::Durability).is_some_and(|months| months > thirty());
    match (date, opened) {
        (Some(date), Some(opened)) => Keeps::Both(date, opened),
        (Some(date), None) => Keeps::Until(date),
        (None, Some(opened)) if long => Keeps::AfterOpening(opened),
        (None, _) => Keeps::Missing,
    }
}

fn thirty() -> Months {
    criterion(criteria::DURABILITY_MONTHS).value
}

fn cautions(formula: &Formula, sheet: &Sheet, findings: &[Finding]) -> Vec<Caution> {
    let says = |said: MessageId| findings.iter().any(|finding| finding.message() == Some(said));
    let mut cautions = Vec::new();
    if says(MessageId::FormaldehydeLabel) || says(MessageId::FormaldehydeBarred) || says(MessageId::FormaldehydeUnknown)
    {
        cautions.push(Caution::Formaldehyde);
    }
    let preservatives = sheet.composition.substances.iter().filter_map(|substance| substance.preservative()?.label);
    for duty in preservatives.chain(findings.iter().filter_map(|finding| finding.detail.duty)) {
        cautions.extend(match duty {
            LabelDuty::VitaminA => Some(Caution::VitaminA),
            LabelDuty::UnderThree => Some(Caution::NotUnderThree),
            LabelDuty::Nappy => Some(Caution::NotNappy),
            LabelDuty::Eyes => Some(Caution::Eyes),
            // Said by its own rule, which counts how much is released.
            LabelDuty::Formaldehyde => None,
        });
    }
    if says(MessageId::Sunburn) {
        cautions.push(Caution::Sunburn);
    }
    if says(MessageId::Phototoxic) || says(MessageId::PhototoxicWithin) {
        cautions.push(Caution::CitrusSun);
    }
    let alcohol = sheet.composition.most(&|substance| in_class(SubstanceClass::Alcohol, &substance.key).is_some());
    if alcohol > criterion(criteria::ALCOHOL_EXEMPT).value {
        cautions.push(Caution::Flammable);
    }
    if formula.about.region == Region::Us && formula.papers.said(PaperField::Assessor).is_none() {
        cautions.push(Caution::NotDetermined);
    }
    cautions.sort_unstable();
    cautions.dedup();
    cautions
}

fn gaps(formula: &Formula, sheet: &Sheet, findings: &[Finding], keeps: &Keeps, nominal: Option<Mass>) -> Vec<Gap> {
    let papers = &formula.papers;
    let mut gaps = Vec::new();
    let mut need = |field, gap| {
        if papers.said(field).is_none() {
            gaps.push(gap);
        }
    };
    need(PaperField::Responsible, Gap::Responsible);
    need(PaperField::Address, Gap::Address);
    if formula.about.region == Region::Us {
        need(PaperField::Contact, Gap::Contact);
    }
    need(PaperField::BatchCode, Gap::BatchCode);
    need(PaperField::Function, Gap::Function);
    // Below five grams or millilitres no content need be named; one that was typed but not read is missing all the same.
    if nominal.is_none() {
        gaps.push(Gap::NetContent);
    }
    if let Keeps::Until(date) | Keeps::Both(date, _) = keeps
        && durability_date(date).is_none()
    {
        gaps.push(Gap::DateForm(date.clone()));
    }
    if *keeps == Keeps::Missing {
        let long = papers.months(PaperField::Durability).is_some_and(|months| months > thirty());
        gaps.push(if long { Gap::AfterOpening } else { Gap::BestBefore });
    }
    gaps.extend(sheet.label.open.iter().cloned().map(Gap::List));
    let open = findings
        .iter()
        .filter_map(|finding| standing(finding, formula))
        .filter(|standing| !matches!(standing, Standing::Answered(_)))
        .count();
    if open > 0 {
        gaps.push(Gap::OpenStops(open));
    }
    gaps
}

/// Whether a content is so small that it need not be named.
pub fn is_tiny(content: Content) -> bool {
    as_mass(content) < criterion(criteria::CONTENT_LEAST).value
}

/// The grades in order with how many findings have each.
pub fn tally(findings: &[Finding]) -> [(Grade, usize); 4] {
    [Grade::Stop, Grade::Care, Grade::Unknown, Grade::Fine]
        .map(|grade| (grade, findings.iter().filter(|finding| finding.grade == grade).count()))
}
