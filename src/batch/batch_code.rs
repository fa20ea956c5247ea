//! The codes that a maker gives to batches, by a pattern of their own such as `H{dd}{mm}` or `{yyyy}-{mm}-{dd}-{n}`.
//!
//! A batch code stands on every jar and names one batch for ever (Regulation (EC) No 1223/2009 Article 19(1)(e) asks for one;
//! from memory), so none is given twice, and none that differs from another in capitals only.

use crate::quantity::Day;

/// What may stand in braces: the year in four digits or two, month, day, the week of ISO 8601, and a running number with at
/// least so many digits.
pub const PLACEHOLDERS: [&str; 8] = ["yyyy", "yy", "mm", "dd", "ww", "n", "nn", "nnn"];

/// What stands between letters and digits, apart from the placeholders.
const MARKS: [char; 4] = ['-', '_', '.', '/'];
/// Longest code, in characters: what fits onto a label and the bottom of a jar. A choice of this program.
const MOST_CODE: usize = 30;
/// Longest code without its number. It leaves room for ten digits, more than there can be batches.
const MOST_REST: usize = 20;
/// Digits of a number that is counted on from. A longer one was typed for something else.
const MOST_DIGITS: usize = 9;

/// Why a text is no batch code, or no pattern of one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CodeProblem {
    /// Nothing was typed.
    Empty,
    /// A character that is no letter from A to Z, no digit and none of `-`, `_`, `.` and `/`.
    Character(char),
    /// An opening brace without a closing one, or the other way round.
    Brace,
    /// What stands in braces is none of [`PLACEHOLDERS`].
    Placeholder(String),
    /// More than one running number.
    TwoNumbers,
    /// A week beside a month or a day: a week belongs to two months, and sometimes to the year before or after its days.
    WeekBesideDay,
    /// Too many characters.
    TooLong {
        /// As many were found, a running number not counted.
        found: usize,
        /// As many may be.
        most: usize,
    },
}

/// The code of one batch: 1 to 30 letters from A to Z, digits, `-`, `_`, `.` and `/`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BatchCode(String);

impl BatchCode {
    /// Reads a code; spaces around it are left out.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn read(text: &str) -> Result<Self, CodeProblem> {
        let text = text.trim();
        if let Some(wrong) = text.chars().find(|c| !fits(*c)) {
            return Err(CodeProblem::Character(wrong));
        }
        match text.len() {
            0 => Err(CodeProblem::Empty),
            found if found > MOST_CODE => Err(CodeProblem::TooLong { found, most: MOST_CODE }),
            _ => Ok(Self(text.to_owned())),
        }
    }

    /// As text.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// True if a text is this code, in capitals or not, with or without spaces around it.
    pub fn is(&self, text: &str) -> bool {
        self.0.eq_ignore_ascii_case(text.trim())
    }
}

fn fits(c: char) -> bool {
    c.is_ascii_alphanumeric() || MARKS.contains(&c)
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum CodePart {
    Plain(char),
    Year,
    ShortYear,
    Month,
    Day,
    Week,
    /// With at least so many digits.
    Number(usize),
}

impl CodePart {
    /// In the order of [`PLACEHOLDERS`].
    const PLACED: [Self; 8] = [
        Self::Year,
        Self::ShortYear,
        Self::Month,
        Self::Day,
        Self::Week,
        Self::Number(1),
        Self::Number(2),
        Self::Number(3),
    ];

    /// How many characters it becomes; a number counts apart.
    const fn length(self) -> usize {
        match self {
            Self::Plain(_) => 1,
            Self::Year => 4,
            Self::Number(_) => 0,
            _ => 2,
        }
    }
}

/// How codes are made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CodePattern {
    parts: Vec<CodePart>,
}

impl CodePattern {
    /// The pattern for makers who have chosen none: `261129-1`. It is in order when sorted, has no more characters than can
    /// be written on a jar, and with two digits for the year it is not taken for a date of durability.
    pub const DEFAULT: &str = "{yy}{mm}{dd}-{n}";

    /// Reads a pattern: placeholders in braces, in capitals or not, and plain characters of a code.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn read(text: &str) -> Result<Self, CodeProblem> {
        let (mut rest, mut parts) = (text.trim(), Vec::new());
        while let Some(first) = rest.chars().next() {
            let (part, behind) = match first {
                '{' => placeholder(rest)?,
                '}' => return Err(CodeProblem::Brace),
                plain if fits(plain) => (CodePart::Plain(plain), rest.get(1..).unwrap_or_default()),
                wrong => return Err(CodeProblem::Character(wrong)),
            };
            parts.push(part);
            rest = behind;
        }
        check(&parts)?;
        Ok(Self { parts })
    }

    /// The code for the next batch of a day: never one of those that are `taken`, in capitals or not.
    ///
    /// A running number goes on from the greatest that was taken with the same text around it, so that the number of a
    /// batch that was given up is not given again. A pattern without a number gets `-2`, `-3` and so on once it is taken.
    pub fn next(&self, day: Day, taken: &[&str]) -> BatchCode {
        let numbering = self.numbering(day);
        let last = taken.iter().filter_map(|code| numbering.number_of(code.trim())).max().unwrap_or_default();
        let is_free = |code: &BatchCode| !taken.iter().any(|taken| code.is(taken));
        let next = numbering.code(last + 1);
        if is_free(&next) {
            return next;
        }
        // Only behind a number of ten digits: one of the first numbers is free, since there are more of them than codes.
        (1..).map(|number| numbering.code(number)).find(is_free).unwrap_or(next)
    }

    /// What stands around the number on a day.
    fn numbering(&self, day: Day) -> Numbering {
        let dated = DatedText::of(day, self.parts.contains(&CodePart::Week));
        let mut found = Numbering { before: String::new(), after: String::new(), digits: None };
        for part in &self.parts {
            let text = if found.digits.is_some() { &mut found.after } else { &mut found.before };
            match part {
                CodePart::Plain(plain) => text.push(*plain),
                CodePart::Year => text.push_str(&dated.year),
                CodePart::ShortYear => text.push_str(dated.year.get(2..).unwrap_or_default()),
                CodePart::Month => text.push_str(&dated.month),
                CodePart::Day => text.push_str(&dated.day),
                CodePart::Week => text.push_str(&dated.week),
                CodePart::Number(digits) => found.digits = Some(*digits),
            }
        }
        found
    }
}

/// The placeholder at the beginning of a text, and what stands behind it.
fn placeholder(text: &str) -> Result<(CodePart, &str), CodeProblem> {
    let (inside, behind) = text.get(1..).and_then(|text| text.split_once('}')).ok_or(CodeProblem::Brace)?;
    let name = inside.trim();
    let known = PLACEHOLDERS.iter().zip(CodePart::PLACED).find(|(known, _)| known.eq_ignore_ascii_case(name));
    match known {
        Some((_, part)) => Ok((part, behind)),
        None if inside.contains('{') => Err(CodeProblem::Brace),
        None => Err(CodeProblem::Placeholder(name.to_owned())),
    }
}

/// What is wrong with the parts together.
fn check(parts: &[CodePart]) -> Result<(), CodeProblem> {
    let has = |wanted: &[CodePart]| parts.iter().any(|part| wanted.contains(part));
    let numbers = parts.iter().filter(|part| matches!(part, CodePart::Number(_))).count();
    let found = parts.iter().map(|part| part.length()).sum::<usize>();
    match (parts.len(), numbers) {
        (0, _) => Err(CodeProblem::Empty),
        (_, 2..) => Err(CodeProblem::TwoNumbers),
        _ if has(&[CodePart::Week]) && has(&[CodePart::Month, CodePart::Day]) => Err(CodeProblem::WeekBesideDay),
        _ if found > MOST_REST => Err(CodeProblem::TooLong { found, most: MOST_REST }),
        _ => Ok(()),
    }
}

/// The text around a running number.
struct Numbering {
    before: String,
    after: String,
    /// The least digits of the number; none where the pattern has none, and the first code goes without.
    digits: Option<usize>,
}

impl Numbering {
    fn code(&self, number: u64) -> BatchCode {
        let (before, after) = (&self.before, &self.after);
        BatchCode(match self.digits {
            Some(digits) => format!("{before}{number:0digits$}{after}"),
            None if number < 2 => before.clone(),
            None => format!("{before}-{number}"),
        })
    }

    /// The number in a code of the same text around it, in capitals or not.
    fn number_of(&self, code: &str) -> Option<u64> {
        let (start, behind) = code.split_at_checked(self.before.len())?;
        if !start.eq_ignore_ascii_case(&self.before) {
            return None;
        }
        let digits = match self.digits {
            Some(_) => {
                let (digits, end) = behind.split_at_checked(behind.len().checked_sub(self.after.len())?)?;
                end.eq_ignore_ascii_case(&self.after).then_some(digits)?
            }
            None if behind.is_empty() => return Some(1),
            None => behind.strip_prefix('-')?,
        };
        let is_number = (1..=MOST_DIGITS).contains(&digits.len()) && digits.bytes().all(|digit| digit.is_ascii_digit());
        is_number.then(|| digits.parse().ok()).flatten()
    }
}

/// A day in the digits of a code.
struct DatedText {
    year: String,
    month: String,
    day: String,
    week: String,
}

impl DatedText {
    /// Of a day; the year is that of its week where a code names the week.
    fn of(day: Day, by_week: bool) -> Self {
        let text = day.text();
        let (of_week, week) = iso_week(day);
        let part = |from: usize, to: usize| text.get(from..to).unwrap_or_default().to_owned();
        let year = if by_week { of_week } else { part(0, 4) };
        Self { year, month: part(5, 7), day: part(8, 10), week: format!("{week:02}") }
    }
}

/// Year and week of ISO 8601: weeks begin on Monday, and belong to the year in which their Thursday lies.
fn iso_week(day: Day) -> (String, i64) {
    // 1970-01-01 was a Thursday, the fourth day from Monday.
    let weekday = (day.number() + 3).rem_euclid(7);
    let thursday = day.plus_days(3 - weekday);
    let text = thursday.text();
    let year = text.get(..4).unwrap_or_default();
    let first = Day::read(&format!("{year}-01-01")).unwrap_or(thursday);
    (year.to_owned(), (thursday.number() - first.number()) / 7 + 1)
}

#[cfg(test)]
mod tests;
