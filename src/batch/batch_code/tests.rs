//! Batch codes against examples by hand, and against the calendar of the crate `time`.

use super::*;
use proptest::prelude::*;
use time::Date;

fn day(text: &str) -> Day {
    Day::read(text).unwrap()
}

fn pattern(text: &str) -> CodePattern {
    CodePattern::read(text).unwrap_or_else(|problem| panic!("{text}: {problem:?}"))
}

fn next(of: &str, on: &str, taken: &[&str]) -> String {
    pattern(of).next(day(on), taken).as_str().to_owned()
}

#[test]
fn pattern_is_filled_with_the_day() {
    for (of, expected) in [
        ("H{dd}{mm}", "H0903"),
        ("{yyyy}-{mm}-{dd}-{n}", "2026-03-09-1"),
        ("{yy}{mm}{dd}/{nn}", "260309/01"),
        ("Lotion_{YY}.{nnn}", "Lotion_26.001"),
        ("{ yy }W{ww}-{n}", "26W11-1"),
        ("  B{n}  ", "B1"),
        ("{nn}X{dd}", "01X09"),
        ("HAND", "HAND"),
        (CodePattern::DEFAULT, "260309-1"),
    ] {
        assert_eq!(next(of, "2026-03-09", &[]), expected, "{of}");
    }
}

#[test]
fn number_goes_on_from_the_greatest_with_the_same_text_around_it() {
    let on = "2026-11-29";
    assert_eq!(next("{yy}{mm}{dd}-{n}", on, &["261129-1", "261129-2", "261128-7"]), "261129-3");
    assert_eq!(next("{yy}{mm}{dd}-{n}", on, &["261129-4"]), "261129-5", "what was given up is not given again");
    assert_eq!(next("h{dd}{nn}", on, &["H2901", " h2909 "]), "h2910");
    assert_eq!(next("h{dd}-{nn}x", on, &["H29-7X", "h29-x", "h29-8", "h29-8xx"]), "h29-08x", "7 is 07");
    assert_eq!(next("{n}", on, &["12", "x13", "", "1e3"]), "13");
    assert_eq!(next("B{n}", on, &["B999999999"]), "B1000000000");
    assert_eq!(next("B{n}", on, &["B999999999", "b1000000000", "b1"]), "B2", "no further, but free");
    assert_eq!(next("B{n}", on, &["B99999999999999999999"]), "B1", "too long to be counted on from");
    assert_eq!(next("A{n}", on, &["Aé", "é"]), "A1", "what was typed before there were rules");
}

#[test]
fn pattern_without_a_number_gets_one_once_it_is_taken() {
    let on = "2026-11-29";
    assert_eq!(next("H{dd}{mm}", on, &["H2811"]), "H2911");
    assert_eq!(next("H{dd}{mm}", on, &["h2911"]), "H2911-2");
    assert_eq!(next("H{dd}{mm}", on, &["h2911", "H2911-2"]), "H2911-3");
    assert_eq!(next("H{dd}{mm}", on, &["H2911-2"]), "H2911-3", "the one without was given up");
    assert_eq!(next("H{dd}{mm}", on, &["H29112", "H2911-", "H2911-a"]), "H2911");
}

#[test]
fn pattern_says_what_is_wrong_with_it() {
    use CodeProblem::*;
    for (text, problem) in [
        ("", Empty),
        ("  ", Empty),
        ("H {dd}", Character(' ')),
        ("Crème{n}", Character('è')),
        ("a:{n}", Character(':')),
        ("{yy", Brace),
        ("yy}", Brace),
        ("{yy{mm}", Brace),
        ("{year}", Placeholder("year".into())),
        ("{}", Placeholder(String::new())),
        ("{nnnn}", Placeholder("nnnn".into())),
        ("{n}-{nn}", TwoNumbers),
        ("{ww}{dd}", WeekBesideDay),
        ("{mm}-{ww}", WeekBesideDay),
        ("{yyyy}{yyyy}{yyyy}{yyyy}{yyyy}{n}x", TooLong { found: 21, most: 20 }),
    ] {
        assert_eq!(CodePattern::read(text), Err(problem), "{text:?}");
    }
    assert!(CodePattern::read("{yyyy}{yyyy}{yyyy}{yyyy}{yyyy}{n}").is_ok());
}

#[test]
fn code_that_is_typed_keeps_the_same_rules() {
    for good in ["1", "H-2911_a.b/c", &"x".repeat(30), " A1 "] {
        assert_eq!(BatchCode::read(good).unwrap().as_str(), good.trim());
    }
    assert_eq!(BatchCode::read(" "), Err(CodeProblem::Empty));
    assert_eq!(BatchCode::read("a b"), Err(CodeProblem::Character(' ')));
    assert_eq!(BatchCode::read(&"x".repeat(31)), Err(CodeProblem::TooLong { found: 31, most: 30 }));
    let code = BatchCode::read("h1").unwrap();
    assert!(code.is("H1 ") && !code.is("h-1"));
}

// Source: the weeks of ISO 8601 by Python's `date.isocalendar`, days around the turn of years with 52 and 53 weeks.
#[test]
fn week_is_that_of_iso_8601() {
    for (on, expected) in [
        ("2005-01-01", "2004-53"),
        ("2005-01-03", "2005-01"),
        ("2008-12-28", "2008-52"),
        ("2008-12-29", "2009-01"),
        ("2010-01-03", "2009-53"),
        ("2010-01-04", "2010-01"),
        ("2026-11-29", "2026-48"),
        ("2026-11-30", "2026-49"),
        ("2027-01-03", "2026-53"),
        ("2024-02-29", "2024-09"),
    ] {
        assert_eq!(next("{yyyy}-{ww}", on, &[]), expected, "{on}");
    }
}

proptest! {
    // Source: the crate `time`, which counts weeks by a table of its own. The days of the year 0000 before its first Monday
    // belong to a year that a code cannot show.
    #[test]
    fn week_is_that_of_the_calendar(number in -719_526i64..=2_932_890) {
        let (year, week, _) = Date::from_julian_day((number + 2_440_588) as i32).unwrap().to_iso_week_date();
        prop_assert_eq!(iso_week(Day::from_number(number)), (format!("{year:04}"), i64::from(week)));
    }

    #[test]
    fn any_text_is_a_pattern_or_has_a_problem(text in "\\PC{0,30}", on in -719_528i64..=2_932_896) {
        if let Ok(pattern) = CodePattern::read(&text) {
            let code = pattern.next(Day::from_number(on), &[&text, "é1"]);
            prop_assert_eq!(BatchCode::read(code.as_str()), Ok(code));
        }
    }

    #[test]
    fn no_code_is_given_twice(
        pieces in prop::collection::vec(prop::sample::select(vec!["{yy}", "{mm}", "{dd}", "a", "B", "-", "1"]), 0..8),
        number in prop::sample::select(vec!["", "{n}", "{nn}", "{nnn}"]),
        place in any::<prop::sample::Index>(),
        on in 0i64..40_000,
        typed in prop::collection::vec("[aB1-]{1,6}", 0..20),
    ) {
        let mut pieces = pieces;
        pieces.insert(place.index(pieces.len() + 1), number);
        let Ok(pattern) = CodePattern::read(&pieces.concat()) else { return Ok(()) };
        let mut taken: Vec<String> = typed;
        for turn in 0..60 {
            let known: Vec<&str> = taken.iter().map(String::as_str).collect();
            let code = pattern.next(Day::from_number(on + turn / 20), &known);
            prop_assert!(!known.iter().any(|known| known.eq_ignore_ascii_case(code.as_str())), "{:?} {:?}", code, known);
            prop_assert!(BatchCode::read(code.as_str()).is_ok_and(|read| read == code), "{:?}", code);
            taken.push(if turn % 2 == 0 { code.as_str().to_uppercase() } else { code.as_str().to_lowercase() });
        }
    }
}

#[test]
fn thousand_codes_are_a_thousand() {
    for of in ["H{dd}{mm}", "{n}", "{yy}{mm}{dd}-{n}", "{nnn}a", "{yyyy}{yyyy}{yyyy}{yyyy}{yyyy}", "{yy}W{ww}"] {
        let pattern = pattern(of);
        let mut taken: Vec<String> = Vec::new();
        for turn in 0..1_000 {
            let known: Vec<&str> = taken.iter().map(String::as_str).collect();
            let code = pattern.next(day("2026-12-28").plus_days(turn / 300), &known);
            assert!(BatchCode::read(code.as_str()).is_ok_and(|read| read == code), "{code:?}");
            taken.push(code.as_str().to_lowercase());
        }
        taken.sort_unstable();
        taken.dedup();
        assert_eq!(taken.len(), 1_000, "{of}");
    }
}
