//! `cargo task papers FILE|- OUT/`: label, safety sheet and assessor's bundle of a document as HTML that prints the same.

mod html;

use std::io::Read;
use std::path::Path;

use crate::failure::{Done, Failure};
use hundred_parts::desk::read_document;
use hundred_parts::facts::Shelf;
use hundred_parts::paper::{LABEL_FORMATS, Paper, bundle_facts, label_facts, safety_facts};
use hundred_parts::{rules, sheet, words};

pub(crate) fn command(arguments: &[String]) -> Done {
    let [source, folder] = arguments else {
        return Err(Failure::usage("cargo task papers needs one FILE (or -) and one FOLDER"));
    };
    let text = read(source)?;
    let papers = papers(&text).map_err(|problem| Failure::usage(problem.to_string()))?;
    let folder = Path::new(folder);
    std::fs::create_dir_all(folder).map_err(|error| Failure::new("making the folder", error))?;
    for (name, paper) in papers {
        let path = folder.join(format!("{name}.html"));
        std::fs::write(&path, html::page(&paper)).map_err(|error| Failure::new("writing a paper", error))?;
        println!("{}", path.display());
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

/// Every paper with the name of its file.
fn papers(text: &str) -> Result<Vec<(String, Paper)>, hundred_parts::desk::ReadProblem> {
    let mut shelf = Shelf::default();
    let state = read_document(text, &mut shelf)?.state;
    let sheet = sheet::compute(&state.formula, &state.plan, &state.lye, &shelf);
    let findings = rules::check(&state.formula, &sheet, &shelf);
    let label = label_facts(&state.formula, &sheet, &findings);
    let mut papers: Vec<(String, Paper)> = LABEL_FORMATS
        .into_iter()
        .map(|format| (format!("label-{}", format.key), words::label_paper(&label, format)))
        .collect();
    let safety = safety_facts(&state.formula, &sheet, &findings, &shelf);
    papers.push(("safety-sheet".to_owned(), words::safety_paper(&safety)));
    let bundle = bundle_facts(&state.formula, &sheet, &findings, &shelf);
    papers.push(("bundle".to_owned(), words::bundle_paper(&bundle)));
    Ok(papers)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn papers_of_the_demo_are_all_there_and_escape_what_was_typed() {
        let text = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/src/desk/demo.json")).unwrap();
        let text = text.replace("Harbour hand lotion", "Harbour <b>&\\\" hand lotion");
        let papers = papers(&text).unwrap();
        assert_eq!(papers.len(), LABEL_FORMATS.len() + 2);
        for (name, paper) in papers {
            let page = html::page(&paper);
            assert!(!page.contains("<b>") && page.contains("Harbour &lt;b&gt;&amp;&quot; hand lotion"), "{name}");
            assert!(page.contains("</html>") && !page.contains("<script"), "{name}");
        }
    }
}
