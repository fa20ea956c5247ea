//! The days of a plan against those of dateutil, whose months end as ours should.

use crate::made::day;
use hundred_parts::batch::study::PullPoint;
use serde_json::Value;

// Source: python-dateutil (tests/vectors/study.py), and the Gregorian rule for leap years: 2000 and 2024 are, 2100 is none.
#[test]
fn days_of_a_plan_are_those_of_another_program() {
    let vectors: Value = serde_json::from_str(include_str!("../vectors/study.json")).unwrap();
    let days = vectors["days"].as_array().unwrap();
    assert!(days.len() > 150, "{}", days.len());
    for row in days {
        let text = |place: usize| row[place].as_str().unwrap();
        let found = PullPoint::parse(text(1)).unwrap().day(day(text(0)));
        assert_eq!(found.text(), text(2), "{row}");
    }
    for expected in ["2024-02-29", "2027-02-28", "2100-02-28", "2028-02-29"] {
        assert!(days.iter().any(|row| row[2] == *expected), "{expected} is among them");
    }
}
