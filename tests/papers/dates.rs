//! Date, open jar, language and plant names of a label.

use crate::workshop::*;
use hundred_parts::desk::Action;
use hundred_parts::formula::{PaperField, Region};
use hundred_parts::paper::{Block, Gap, LABEL_FORMATS};
use hundred_parts::words;

// Article 19(1)(c) and Annex VII, point 2, of Regulation (EC) No 1223/2009: the symbol of an open jar with the months.
#[test]
fn label_draws_the_open_jar_and_does_not_word_it() {
    let made = complete().paper(PaperField::AfterOpening, "12").paper(PaperField::BestBefore, "2027-06-30");
    let paper = words::label_paper(&made.label(), LABEL_FORMATS[4]);
    let Block::Labels(labels) = &paper.parts[0] else { panic!() };
    let jars: Vec<&str> = labels.lines.iter().filter(|line| line.open_jar).map(|line| line.text.as_str()).collect();
    assert_eq!(jars, ["12M \u{b7} Best used before the end of: 30/06/2027"]);
    assert!(!paper.text().contains("months of opening"));
}

#[test]
fn label_asks_for_a_date_that_is_one() {
    let gaps = |date: &str| complete().paper(PaperField::BestBefore, date).label().gaps;
    assert!(gaps("next summer").contains(&Gap::DateForm("next summer".to_owned())));
    assert!(!gaps("06/2027").iter().any(|gap| matches!(gap, Gap::DateForm(_))));
}

// Article 19(5) of Regulation (EC) No 1223/2009; 21 CFR 701.3 (from memory).
#[test]
fn label_tells_of_the_language_and_of_plant_names() {
    let text = |region| words::label_paper(&complete().act(Action::Region(region)).label(), LABEL_FORMATS[4]).text();
    assert!(
        text(Region::Eu).contains("This label is in English.") && !text(Region::Eu).contains("common English name")
    );
    assert!(text(Region::Us).contains("It is not known here for: "));
}
