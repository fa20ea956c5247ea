//! Numbers of the chemical registry (CAS) and of the European inventory (EC), which stand beside names or instead of them.

/// What was taken out of a text.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct Numbers {
    /// CAS numbers whose check digit holds.
    pub(super) cas: Vec<String>,
    /// What looks like a CAS number and fails its check digit.
    pub(super) mistyped: Option<String>,
    /// EC numbers whose check digit holds.
    pub(super) ec: Vec<String>,
}

/// A number as it stands in a text: its groups of digits, and where it ends.
struct Found {
    text: String,
    end: usize,
}

/// Takes numbers and the words that announce them (`CAS-Nr.`) out of a plain text.
pub(super) fn take(plain: &str) -> (String, Numbers) {
    let mut numbers = Numbers::default();
    let mut kept = String::with_capacity(plain.len());
    let mut rest = plain;
    while let Some(start) = rest.find(|c: char| c.is_ascii_digit()) {
        let (before, after) = rest.split_at(start);
        kept.push_str(before);
        let digits = after.find(|c: char| !c.is_ascii_digit()).unwrap_or(after.len());
        // Digits that hang on a word or on other digits with a hyphen are of a name: `c12-15-1`.
        let hangs = kept.ends_with(|c: char| c.is_alphanumeric() || c == ',')
            || kept.strip_suffix('-').is_some_and(|word| word.ends_with(char::is_alphanumeric));
        match (!hangs).then(|| number(after, digits)).flatten() {
            Some(found) => {
                take_head(&mut kept);
                numbers.add(found.text);
                kept.push(' ');
                rest = after.get(found.end..).unwrap_or_default();
            }
            None => {
                kept.push_str(after.get(..digits).unwrap_or_default());
                rest = after.get(digits..).unwrap_or_default();
            }
        }
    }
    kept.push_str(rest);
    if !numbers.is_empty() {
        take_head(&mut kept);
    }
    (kept, numbers)
}

impl Numbers {
    pub(super) fn is_empty(&self) -> bool {
        self.cas.is_empty() && self.ec.is_empty() && self.mistyped.is_none()
    }

    fn add(&mut self, number: String) {
        if is_ec_shape(&number) {
            if ec_checks(&number) {
                self.ec.push(number);
            }
        } else if cas_checks(&number) {
            self.cas.push(number);
        } else {
            self.mistyped.get_or_insert(number);
        }
    }

    /// Takes what was given as a number beside the name.
    pub(super) fn add_cas(&mut self, number: &str) {
        if !number.is_empty() && !self.cas.iter().any(|known| known == number) {
            self.add(number.to_owned());
        }
    }
}

/// A number that begins at the start of a text with so many digits. Spaces around hyphens come of copying, and count only
/// where the check digit holds: they may be ranges.
fn number(text: &str, digits: usize) -> Option<Found> {
    let (second, spaced) = group(text, digits)?;
    let (third, again) = group(text, second.1)?;
    let spaced = spaced || again;
    let parts = [text.get(..digits)?, text.get(second.0..second.1)?, text.get(third.0..third.1)?];
    let found = Found { text: parts.join("-").trim_start_matches('0').to_owned(), end: third.1 };
    let shape = match (digits, parts.map(str::len)) {
        (8..=10, [_, 2, 1]) => cas_checks(&found.text),
        (3, [_, 3, 1]) => !spaced && ec_checks(&found.text),
        (2..=7, [_, 2, 1]) => !spaced || cas_checks(&found.text),
        _ => false,
    };
    let goes_on = text.get(found.end..)?.starts_with(|c: char| c.is_alphanumeric() || c == '-');
    (shape && !goes_on).then_some(found)
}

/// The digits behind a hyphen, and whether spaces stand around it.
fn group(text: &str, from: usize) -> Option<((usize, usize), bool)> {
    let rest = text.get(from..)?;
    let inner = rest.trim_start().strip_prefix('-')?.trim_start();
    let start = text.len() - inner.len();
    let digits = inner.find(|c: char| !c.is_ascii_digit()).unwrap_or(inner.len());
    (digits > 0).then_some(((start, start + digits), rest.len() - inner.len() > 1))
}

/// Takes the words before a number that say what it is.
fn take_head(kept: &mut String) {
    const HEADS: [&str; 12] =
        ["cas", "casrn", "ec", "einecs", "elincs", "no", "nr", "number", "num", "reg", "listed", "rn"];
    loop {
        let trimmed = kept.trim_end_matches([' ', ':', '.', '#', '-', '(', ';', ',', '/', ')']);
        let word = trimmed.rsplit(|c: char| !c.is_alphanumeric()).next().unwrap_or_default();
        if word.is_empty() || !HEADS.contains(&word) {
            return;
        }
        kept.truncate(trimmed.len() - word.len());
    }
}

fn digits(number: &str) -> Vec<u32> {
    number.chars().filter_map(|c| c.to_digit(10)).collect()
}

/// The check digit of a CAS number: its digits from the right weighted 1, 2, 3 …, modulo ten.
pub(super) fn cas_checks(cas: &str) -> bool {
    let digits = digits(cas);
    let Some((check, body)) = digits.split_last() else { return false };
    let sum: u32 = body.iter().rev().zip(1..).map(|(digit, weight)| digit * weight).sum();
    body.len() > 3 && sum % 10 == *check
}

fn is_ec_shape(number: &str) -> bool {
    let mut parts = number.split('-').map(str::len);
    parts.next() == Some(3) && parts.next() == Some(3)
}

/// The check digit of an EC number: its digits weighted 1 to 6, modulo eleven.
fn ec_checks(ec: &str) -> bool {
    let digits = digits(ec);
    let Some((check, body)) = digits.split_last() else { return false };
    let sum: u32 = body.iter().zip(1..).map(|(digit, weight)| digit * weight).sum();
    sum % 11 == *check
}

#[cfg(test)]
mod tests {
    use super::*;

    fn taken(text: &str) -> (String, Vec<String>, Option<String>) {
        let (rest, numbers) = take(text);
        (rest.split_whitespace().collect::<Vec<_>>().join(" "), numbers.cas, numbers.mistyped)
    }

    #[test]
    fn numbers_are_found_however_they_were_pasted() {
        for (text, rest, cas) in [
            ("linalool 78-70-6 201-134-4", "linalool", "78-70-6"),
            ("linalool (cas-nr. 78-70-6)", "linalool ( )", "78-70-6"),
            ("cas# 119-36-8", "", "119-36-8"),
            ("limonene 5989 - 27 - 5", "limonene", "5989-27-5"),
            ("65381-09-1 caprylic/capric triglyceride", "caprylic/capric triglyceride", "65381-09-1"),
        ] {
            assert_eq!(taken(text), (rest.to_owned(), vec![cas.to_owned()], None), "{text}");
        }
    }

    #[test]
    fn numbers_of_names_stay_and_mistyped_ones_are_told() {
        for text in ["c12-15 alkyl benzoate", "2-bromo-2-nitropropane-1,3-diol", "limonene 20 - 45 - 5"] {
            assert_eq!(taken(text), (text.to_owned(), Vec::new(), None), "{text}");
        }
        assert_eq!(taken("532-23-1").2.as_deref(), Some("532-23-1"));
    }
}
