//! `cargo task papers FILE|- OUT/`: all papers of a document, weigh sheet first, as HTML that prints the same.

mod html;

use hundred_parts::quantity::Timestamp;
use std::io::Read;
use std::path::Path;

use crate::failure::{Done, Failure};
use crate::say::{complain, say};
use hundred_parts::desk::{DocId, OpenDocument, ReadProblem, read_document};
use hundred_parts::paper::{LABEL_FORMATS, Paper, Which};
use hundred_parts::shelf::Shelf;
use hundred_parts::words;

pub(crate) fn command(arguments: &[String]) -> Done {
    let [source, folder] = arguments else {
        return Err(Failure::usage("cargo task papers needs one FILE (or -) and one FOLDER"));
    };
    let text = read(source)?;
    let papers = papers(&text).map_err(|problem| Failure::usage(problem.to_string()))?;
    let folder = Path::new(folder);
    std::fs::create_dir_all(folder).map_err(|error| Failure::new("making the folder", error))?;
    for (name, paper) in papers {
        let paper = match paper {
            Ok(paper) => paper,
            Err(why) => {
                complain!("no {name}: {why}");
                continue;
            }
        };
        let path = folder.join(format!("{name}.html"));
        std::fs::write(&path, html::page(&paper)).map_err(|error| Failure::new("writing a paper", error))?;
        say!("{}", path.display());
    }
    Ok(())
}

fn read(source: &str) -> Done<String> {
    if source != "-" {
        return std::fs::read_to_string(source).map_err(|error| Failure::usage(format!("{source}: {error}")));
    }
    let mut text = String::new();
    std::io::stdin().read_to_string(&mut text).map_err(|error| Failure::new("reading standard input", error))?;
    Ok(text)
}

/// A paper with the name of its file, or why there is none.
type Named = (String, Result<Paper, String>);

/// Every paper that the document asks for; labels on each sheet of labels.
fn papers(text: &str) -> Result<Vec<Named>, ReadProblem> {
    let mut shelf = Shelf::default();
    let document = read_document(text, &mut shelf)?;
    let open = OpenDocument::new(DocId::random(0), document, shelf.into(), Timestamp::default());
    let derived = open.derive();
    let paper = |which, format| words::paper(which, format, &open, &derived);
    let asked = Which::ALL.into_iter().filter(|which| match which {
        Which::Lye => derived.sheet.lye.is_some(),
        Which::Record => open.has_batch(),
        _ => true,
    });
    Ok(asked
        .flat_map(|which| match which {
            Which::Label => {
                LABEL_FORMATS.map(|format| (format!("{}-{}", which.key(), format.key), paper(which, format))).to_vec()
            }
            _ => vec![(which.key().to_owned(), paper(which, LABEL_FORMATS[0]))],
        })
        .collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn papers_of_the_demo_are_all_there_and_escape_what_was_typed() {
        let text = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/src/desk/demo.json")).unwrap();
        let text = text.replace("Harbour hand lotion", "Harbour <b>&\\\" hand lotion");
        let papers = papers(&text).unwrap();
        assert_eq!(papers.len(), LABEL_FORMATS.len() + 3);
        for (name, paper) in papers {
            let page = html::page(&paper.unwrap());
            assert!(!page.contains("<b>") && page.contains("Harbour &lt;b&gt;&amp;&quot; hand lotion"), "{name}");
            assert!(page.contains("</html>") && !page.contains("<script"), "{name}");
        }
    }

    /// The page of a paper of a document, or why there is none.
    fn page_of(name: &str, text: &str) -> Option<Result<String, String>> {
        let (_, paper) = papers(text).unwrap().into_iter().find(|(found, _)| found == name)?;
        Some(paper.map(|paper| html::page(&paper)))
    }

    #[test]
    fn weigh_sheet_of_the_demo_has_each_line_once_with_its_mass() {
        let text = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/src/desk/demo.json")).unwrap();
        let report: serde_json::Value =
            serde_json::from_str(&hundred_parts::report::sheet_report(&text).unwrap()).unwrap();
        let page = page_of("weigh-sheet", &text).unwrap().unwrap();
        assert!(page.contains("<h1>Weigh sheet: Harbour hand lotion</h1>"), "{page}");
        let lines = report["weigh"]["lines"].as_array().unwrap();
        let phases = report["totals"]["phases"].as_array().unwrap();
        let rows = page.matches("<tr>").count();
        assert_eq!(rows, lines.len() + 2 * phases.len(), "a head and a total for each phase");
        let places =
            report["weigh"]["readability_g"].as_str().unwrap().split_once('.').map_or(0, |(_, after)| after.len());
        for line in lines {
            let mass: f64 = line["mass_g"].as_str().unwrap().parse().unwrap();
            assert!(page.contains(&format!("<td class=\"n\">{mass:.places$}\u{202f}g")), "{line}");
        }
        assert!(page_of("lye-sheet", &text).is_none(), "no lotion has one");
    }

    const SOAP: &str = r#"{"format":"hundred-parts","version":1,"formula":{"title":"Bar","use":"soap","phases":[
        {"name":"Fats","kind":"oil","lines":[{"ingredient":"olive","percent":"70"},{"ingredient":"coconut","percent":"30"}]}]},
        "batch":{"mass_g":"500","readability_g":"1"}}"#;

    #[test]
    fn lye_sheet_has_every_caution_before_the_first_gram_of_lye() {
        let page = page_of("lye-sheet", SOAP).unwrap().unwrap();
        let first = page.find("sodium hydroxide (NaOH)</td>").unwrap();
        for caution in hundred_parts::paper::LyeCaution::ALL {
            let told = words::lye::caution(caution);
            assert!(page.find(told).is_some_and(|at| at < first), "{told}");
        }
        assert!(page.contains(words::NO_ASSESSMENT) && page.contains("Olive oil"), "{page}");
        assert!(page_of("weigh-sheet", SOAP).unwrap().is_ok());
    }

    #[test]
    fn papers_that_cannot_be_made_say_why() {
        let unread = SOAP.replace(r#""mass_g":"500""#, r#""basis":"mass""#);
        let why = page_of("weigh-sheet", &unread).unwrap().unwrap_err();
        assert!(!why.is_empty(), "{why}");
        assert!(page_of("lye-sheet", &unread).unwrap().unwrap_err().contains(&why));
        assert!(page_of("bundle", &unread).unwrap().is_ok());
    }
}
