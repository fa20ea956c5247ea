//! Formulas under test, and what the rules say of them.

use hundred_parts::desk::read_document;
use hundred_parts::facts::{Field, IngredientId};
use hundred_parts::formula::Formula;
use hundred_parts::rules::{self, Fact, Finding, Grade};
use hundred_parts::sheet::{LyePlan, Plan, Sheet, compute};
use hundred_parts::shelf::Shelf;
use hundred_parts::words::{self, footnote, verification};

/// A formula under test.
#[derive(Debug, Clone)]
pub(crate) struct Made {
    pub(crate) about: String,
    pub(crate) phases: Vec<(String, Vec<(String, String)>)>,
    pub(crate) extra: String,
    pub(crate) shelf: Shelf,
}

impl Made {
    /// Lines of one phase, `id share` each, of a leave-on body lotion for adults in a pump at pH 5.2, in the European Union.
    pub(crate) fn of(lines: &[&str]) -> Self {
        let mut made = Self { about: String::new(), phases: Vec::new(), extra: String::new(), shelf: Shelf::default() };
        made.phases.push((r#""kind":"water""#.to_owned(), Vec::new()));
        for line in lines {
            made = made.with(line);
        }
        made.set("use", "leave-on")
            .set("area", "body")
            .set("audience", "adult")
            .set("pack", "pump")
            .set("target_ph", "5.2")
    }

    pub(crate) fn set(mut self, key: &str, value: &str) -> Self {
        let start = format!("\"{key}\":");
        let kept: Vec<&str> =
            self.about.split(", ").filter(|part| !part.is_empty() && !part.starts_with(&start)).collect();
        let new = if value.is_empty() { String::new() } else { format!("{start}\"{value}\"") };
        self.about = kept
            .into_iter()
            .map(str::to_owned)
            .chain(Some(new).filter(|new| !new.is_empty()))
            .collect::<Vec<_>>()
            .join(", ");
        self
    }

    pub(crate) fn papers(mut self, json: &str) -> Self {
        self.extra = format!(", \"papers\": {{{json}}}");
        self
    }

    /// Another line in the last phase.
    pub(crate) fn with(mut self, line: &str) -> Self {
        let (id, share) = line.split_once(' ').unwrap();
        self.phases.last_mut().unwrap().1.push((id.to_owned(), share.to_owned()));
        self
    }

    pub(crate) fn without(mut self, id: &str) -> Self {
        for (_, lines) in &mut self.phases {
            lines.retain(|(known, _)| known != id);
        }
        self
    }

    pub(crate) fn phase(mut self, kind: &str, heat: &str, lines: &[&str]) -> Self {
        self.phases.push((format!(r#""kind":"{kind}","heat_c":"{heat}""#), Vec::new()));
        for line in lines {
            self = self.with(line);
        }
        self
    }

    pub(crate) fn shelf(mut self, id: &str, field: Field, text: &str) -> Self {
        assert!(self.shelf.set(&IngredientId::parse(id).unwrap(), field, text), "{id}");
        self
    }

    pub(crate) fn text(&self) -> String {
        let phases: Vec<String> = self
            .phases
            .iter()
            .map(|(head, lines)| {
                let line = |(id, share): &(String, String)| {
                    // What cannot be read is kept as it was typed.
                    let read = share == "fill-up" || share.parse::<f64>().is_ok();
                    let key = if read { "percent" } else { "percent_typed" };
                    // `?` stands before a name that no shelf knows.
                    let (what, name) = id.strip_prefix('?').map_or(("ingredient", &**id), |name| ("name", name));
                    format!(r#"{{"{what}":"{name}","{key}":"{share}"}}"#)
                };
                let lines: Vec<String> = lines.iter().map(line).collect();
                format!(r#"{{{head},"lines":[{}]}}"#, lines.join(","))
            })
            .collect();
        format!(
            r#"{{"format":"hundred-parts","version":1,"formula":{{{}, "phases":[{}]{}}}}}"#,
            self.about,
            phases.join(","),
            self.extra
        )
    }

    pub(crate) fn derive(&self) -> (Formula, Sheet, Vec<Finding>) {
        let mut shelf = self.shelf.clone();
        let document =
            read_document(&self.text(), &mut shelf).unwrap_or_else(|problem| panic!("{problem}: {}", self.text()));
        let formula = document.state.formula;
        let sheet = compute(&formula, &Plan::default(), &LyePlan::default(), &shelf);
        let findings = rules::check(&formula, &sheet, &shelf);
        (formula, sheet, findings)
    }

    pub(crate) fn findings(&self) -> Vec<Finding> {
        self.derive().2
    }

    pub(crate) fn find(&self, said: &str) -> Option<Finding> {
        self.findings().into_iter().find(|finding| key(finding) == said)
    }

    #[track_caller]
    pub(crate) fn says(&self, said: &str, grade: Grade) -> Finding {
        let found = self.find(said).unwrap_or_else(|| panic!("{said} is not among {:#?}", shown(&self.findings())));
        assert_eq!(found.grade, grade, "{said}: {found:#?}");
        assert!(!found.source().is_empty(), "{said} without a source");
        found
    }

    /// The criterion stops, and what it rests on lowers it to Care.
    #[track_caller]
    pub(crate) fn says_lowered(&self, said: &str) -> Finding {
        let found = self.says(said, Grade::Care);
        assert!(found.is_lowered(), "{said}: {found:#?}");
        // What was verified and what was not stands in the finding, in its sentence and below it.
        if found.detail.not_law.is_none() && found.detail.from.is_none() {
            let told = verification(&found);
            assert!(
                !found.verified() && (told.starts_with("Not verified") || told.starts_with("Verified in part")),
                "{told}"
            );
            assert!(footnote(&found).ends_with(told) || found.detail.document.is_some(), "{}", footnote(&found));
            assert!(
                words::finding(&found, &[], words::DecimalSign::Point).contains("so it is graded Care and not Stop"),
                "{said}"
            );
        }
        found
    }

    /// The criterion stops, and is a custom or a choice of ours, so that it advises.
    #[track_caller]
    pub(crate) fn advises(&self, said: &str) -> Finding {
        let found = self.says(said, Grade::Care);
        assert!(found.is_lowered() && found.detail.custom, "{said}: {found:#?}");
        assert!(
            words::finding(&found, &[], words::DecimalSign::Point).contains("so it is graded Care and not Stop"),
            "{said}"
        );
        found
    }

    #[track_caller]
    pub(crate) fn silent(&self, said: &str) {
        let found = self.find(said);
        assert!(found.is_none(), "{found:#?}");
    }
}

pub(crate) fn key(finding: &Finding) -> &'static str {
    match &finding.fact {
        Fact::Message(said) => said.key(),
        Fact::SupplierSheet(odd) => odd.key(),
        _ => finding.rule,
    }
}

pub(crate) fn shown(findings: &[Finding]) -> Vec<String> {
    findings.iter().map(|finding| format!("{:?} {} {:?}", finding.grade, key(finding), finding.value())).collect()
}

pub(crate) fn value(finding: &Finding) -> String {
    finding.value().unwrap_or_default()
}

/// The base example of the rules: a leave-on body lotion at pH 5.2.
pub(crate) fn l1() -> Made {
    Made::of(&["water 73.75", "glycerin 4.00", "xanthan-gum 0.30"])
        .phase(
            "oil",
            "72",
            &["sunflower-high-oleic 10.00", "shea 3.00", "emulsifying-wax-nf 5.00", "cetyl-alcohol 2.00"],
        )
        .phase(
            "cool-down",
            "38",
            &[
                "phenoxyethanol-ethylhexylglycerin 1.00",
                "tocopherol 0.50",
                "lavender-essential-oil 0.30",
                "citric-acid 0.15",
            ],
        )
}

/// Water and nothing else, for rules that look at single substances.
pub(crate) fn water(lines: &[&str]) -> Made {
    let mut made = Made::of(&["water fill-up"]);
    for line in lines {
        made = made.with(line);
    }
    made
}
