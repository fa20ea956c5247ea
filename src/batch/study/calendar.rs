//! Pulls as a calendar file: iCalendar, RFC 5545. Written here: a calendar of whole days with one alarm each is some sixty
//! lines, where a crate for it brings time zones, recurrence and a parser into a download.

use crate::quantity::{Day, Timestamp};

/// One whole day with an alarm.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CalendarEntry {
    /// Names it: the same in every file, so that a calendar takes a newer one in its place.
    pub uid: String,
    /// The day.
    pub day: Day,
    /// What a calendar shows.
    pub summary: String,
    /// What it tells when it is opened.
    pub text: String,
}

/// Most octets of a line, without its end (RFC 5545, section 3.1).
const MOST_OCTETS: usize = 75;
/// When the alarm comes: nine in the morning, counted from the beginning of the day (RFC 5545, section 3.8.6.3).
const ALARM: &str = "TRIGGER:PT9H";

/// The file. `made` is when it was written.
pub fn calendar_file(entries: &[CalendarEntry], made: Timestamp) -> String {
    let mut file = String::new();
    let mut line = |text: &str| fold_into(&mut file, text);
    for head in ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Hundred Parts//Stability study//EN", "CALSCALE:GREGORIAN"]
    {
        line(head);
    }
    let stamp = format!("DTSTAMP:{}", basic(&made.text()));
    for entry in entries {
        let day = |name: &str, day: Day| format!("{name};VALUE=DATE:{}", basic(&day.text()));
        line("BEGIN:VEVENT");
        line(&format!("UID:{}", escape(&entry.uid)));
        line(&stamp);
        line(&day("DTSTART", entry.day));
        // The end is the first day that no longer belongs to it (section 3.6.1).
        line(&day("DTEND", entry.day.plus_days(1)));
        line(&format!("SUMMARY:{}", escape(&entry.summary)));
        line(&format!("DESCRIPTION:{}", escape(&entry.text)));
        line("TRANSP:TRANSPARENT");
        for part in ["BEGIN:VALARM", "ACTION:DISPLAY"] {
            line(part);
        }
        line(&format!("DESCRIPTION:{}", escape(&entry.summary)));
        for part in [ALARM, "END:VALARM", "END:VEVENT"] {
            line(part);
        }
    }
    line("END:VCALENDAR");
    file
}

/// A day or instant without hyphens and colons: the basic form.
fn basic(text: &str) -> String {
    text.chars().filter(|c| !matches!(c, '-' | ':')).collect()
}

/// A value of type TEXT (section 3.3.11). Other control characters may not stand in one.
fn escape(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for c in text.replace("\r\n", "\n").chars() {
        match c {
            '\\' | ';' | ',' => {
                escaped.push('\\');
                escaped.push(c);
            }
            '\n' | '\r' => escaped.push_str("\\n"),
            c if c.is_control() && c != '\t' => {}
            c => escaped.push(c),
        }
    }
    escaped
}

/// A line and its end; what is longer goes on behind a space (section 3.1), and never in the middle of a character.
fn fold_into(file: &mut String, text: &str) {
    let mut octets = 0;
    for c in text.chars() {
        if octets + c.len_utf8() > MOST_OCTETS {
            file.push_str("\r\n ");
            octets = 1;
        }
        file.push(c);
        octets += c.len_utf8();
    }
    file.push_str("\r\n");
}
