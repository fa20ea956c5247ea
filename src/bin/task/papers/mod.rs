//! `cargo task papers FILE|- OUT/`: label, safety sheet and assessor's bundle of a document as HTML that prints the same.

mod html;

use hundred_parts::quantity::Timestamp;
use std::io::Read;
use std::path::Path;

use crate::failure::{Done, Failure};
use crate::say::say;
use hundred_parts::desk::{DocId, OpenDocument, read_document};
use hundred_parts::facts::Shelf;
use hundred_parts::paper::{LABEL_FORMATS, Paper, Which};
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

/// Every paper with the name of its file.
fn papers(text: &str) -> Result<Vec<(String, Paper)>, hundred_parts::desk::ReadProblem> {
    let mut shelf = Shelf::default();
    let document = read_document(text, &mut shelf)?;
    let open = OpenDocument::new(DocId::random(0), document, shelf.into(), Timestamp::default());
    let derived = open.derive();
    let paper = |which, format| words::paper(which, format, &open, &derived);
    let mut papers: Vec<(String, Paper)> = LABEL_FORMATS
        .into_iter()
        .map(|format| (format!("{}-{}", Which::Label.key(), format.key), paper(Which::Label, format)))
        .collect();
    for which in [Which::Safety, Which::Bundle] {
        papers.push((which.key().to_owned(), paper(which, LABEL_FORMATS[0])));
    }
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
