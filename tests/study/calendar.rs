//! The calendar file: rules of RFC 5545 by their sections, and what another program reads in it.

use crate::made::day;
use hundred_parts::batch::study::{CalendarEntry, calendar_file};
use hundred_parts::quantity::Timestamp;
use serde_json::Value;
use std::path::Path;

const STAMP: &str = "2026-11-30T14:02:00Z";

fn entries() -> Vec<CalendarEntry> {
    let entry = |n: u32, on: &str, summary: &str, text: &str| CalendarEntry {
        uid: format!("study.{n}@hundred-parts"),
        day: day(on),
        summary: summary.into(),
        text: text.into(),
    };
    vec![
        entry(1, "2026-12-04", "Stability study H2811: 4 pulls", "Harbour hand lotion\nRoom, 4 days\nWarm, 4 days"),
        entry(2, "2027-02-28", "Rose; musk, and \\ more", "One line\r\nand another; with, all \\n that is special"),
        entry(
            3,
            "2028-02-29",
            &"Cr\u{e8}me \u{1f9f4} \u{30ed}\u{30fc}\u{30b7}\u{30e7}\u{30f3} ".repeat(12),
            "\t\u{7}bell",
        ),
        entry(4, "2026-12-31", &"x".repeat(300), ""),
    ]
}

fn file() -> String {
    calendar_file(&entries(), Timestamp::read(STAMP).unwrap())
}

fn unfolded(file: &str) -> Vec<String> {
    file.replace("\r\n ", "").split_terminator("\r\n").map(str::to_owned).collect()
}

#[test]
fn lines_end_and_are_folded_by_section_3_1() {
    let file = file();
    assert!(file.ends_with("END:VCALENDAR\r\n"));
    assert_eq!(file.matches('\n').count(), file.matches("\r\n").count(), "no bare line feed");
    assert_eq!(file.matches('\r').count(), file.matches("\r\n").count(), "no bare carriage return");
    for line in file.split_terminator("\r\n") {
        assert!(line.len() <= 75, "{} octets: {line}", line.len());
    }
    assert!(file.lines().any(|line| line.len() == 75), "a line is as long as it may be");
    assert!(file.split("\r\n ").count() > 8, "some go on");
    // What was folded is whole again, so that no character was cut.
    assert!(unfolded(&file).iter().any(|line| line == &format!("SUMMARY:{}", "x".repeat(300))));
}

#[test]
fn properties_are_those_that_the_sections_ask_for() {
    let lines = unfolded(&file());
    // 3.6: PRODID and VERSION once each; 3.6.1: UID and DTSTAMP in each event, and its end behind its beginning.
    for (name, times) in [
        ("PRODID:", 1),
        ("VERSION:2.0", 1),
        ("BEGIN:VEVENT", 4),
        ("END:VEVENT", 4),
        ("UID:", 4),
        ("DTSTAMP:20261130T140200Z", 4),
    ] {
        assert_eq!(lines.iter().filter(|line| line.starts_with(name)).count(), times, "{name}");
    }
    // 3.8.2.4 with 3.3.4: a whole day has a value of type DATE; DTEND is not part of it, over a year's end and a leap day too.
    for (start, end) in
        [("20261204", "20261205"), ("20270228", "20270301"), ("20280229", "20280301"), ("20261231", "20270101")]
    {
        let at = lines.iter().position(|line| line == &format!("DTSTART;VALUE=DATE:{start}")).expect(start);
        assert_eq!(lines[at + 1], format!("DTEND;VALUE=DATE:{end}"));
    }
    // 3.6.6: an alarm that is shown has ACTION, TRIGGER and DESCRIPTION, once each.
    let alarms: Vec<&[String]> = lines.split(|line| line == "BEGIN:VALARM").skip(1).collect();
    assert_eq!(alarms.len(), 4);
    for alarm in alarms {
        let alarm: Vec<&String> = alarm.iter().take_while(|line| *line != "END:VALARM").collect();
        assert_eq!(alarm.len(), 3, "{alarm:?}");
        for name in ["ACTION:DISPLAY", "TRIGGER:PT9H", "DESCRIPTION:"] {
            assert!(alarm.iter().any(|line| line.starts_with(name)), "{name} in {alarm:?}");
        }
    }
    // 3.3.11: backslash, semicolon and comma are escaped, a line feed is \n, a colon is itself.
    assert!(lines.contains(&"SUMMARY:Rose\\; musk\\, and \\\\ more".to_owned()));
    assert!(lines.contains(&"DESCRIPTION:One line\\nand another\\; with\\, all \\\\n that is special".to_owned()));
    assert!(lines.contains(&"SUMMARY:Stability study H2811: 4 pulls".to_owned()));
    assert!(lines.iter().all(|line| !line.contains('\u{7}')), "no control character");
}

// Source: icalendar, a parser of RFC 5545, on the very file that is written here (tests/vectors/study.py).
#[test]
fn another_program_reads_in_it_what_was_written() {
    let kept = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/vectors/study.ics");
    if std::env::var("STUDY").is_ok_and(|mode| mode == "write") {
        std::fs::write(&kept, file()).unwrap();
    }
    assert_eq!(file(), std::fs::read_to_string(kept).unwrap(), "then run tests/vectors/study.py again");
    let vectors: Value = serde_json::from_str(include_str!("../vectors/study.json")).unwrap();
    let read = vectors["events"].as_array().unwrap();
    assert_eq!(read.len(), entries().len());
    for (read, written) in read.iter().zip(entries()) {
        assert_eq!(read["uid"], written.uid);
        assert_eq!(read["day"], written.day.text());
        assert_eq!(read["summary"], written.summary);
        assert_eq!(read["text"], written.text.replace("\r\n", "\n").replace('\u{7}', ""));
        assert_eq!(
            (&read["stamp"], &read["alarm_minutes"], &read["action"]),
            (&STAMP.into(), &540.into(), &"DISPLAY".into())
        );
    }
}
