//! Numbers of the chemical registry (CAS) in a line of a supplier's paper.

/// Takes a CAS number out of a line, and the number of the European inventory (EC) that often stands beside it.
pub(super) fn take_cas(line: &str) -> (String, Option<String>) {
    let line = joined_cas(line);
    let (mut cas, mut after) = (None, false);
    let kept: Vec<&str> = line
        .split(LOOSE)
        .filter(|word| {
            let number = word.trim_matches([',', ';', ':', '(', ')', '[', ']']);
            let found = is_cas(number);
            if found && cas.is_none() {
                cas = Some(number.to_owned());
            }
            let word = number.to_ascii_lowercase();
            let word = word.trim_end_matches(['.', ':', '#']);
            let head = ["cas", "cas-no", "cas-nr", "ec", "ec-no", "ec-nr", "einecs"].contains(&word);
            let more = after && ["no", "nr", "number", ""].contains(&word);
            after = head || more;
            !found && !is_ec(number) && !head && !more
        })
        .collect();
    (kept.join(" ").trim().to_owned(), cas)
}

/// What stands between the words of a line.
const LOOSE: [char; 3] = [' ', '\t', '|'];

fn is_cas(word: &str) -> bool {
    let parts: Vec<&str> = word.split('-').collect();
    matches!(parts.as_slice(), [a, b, c] if (2..=7).contains(&a.len()) && b.len() == 2 && c.len() == 1)
        && word.bytes().all(|b| b.is_ascii_digit() || b == b'-')
}

fn is_ec(word: &str) -> bool {
    let parts: Vec<&str> = word.split('-').collect();
    matches!(parts.as_slice(), [a, b, c] if a.len() == 3 && b.len() == 3 && c.len() == 1)
        && word.bytes().all(|b| b.is_ascii_digit() || b == b'-')
}

/// A line in which numbers of the chemical registry that were pasted with spaces or other hyphens are written as usual. Only
/// those of which the check digit is right: anything else may be a range of shares.
fn joined_cas(line: &str) -> String {
    let dash = |c: char| matches!(c, '-' | '\u{2010}' | '\u{2011}' | '\u{2012}' | '\u{2013}' | '\u{2212}');
    let mut text = String::with_capacity(line.len());
    let mut rest = line;
    while let Some(start) = rest.find(|c: char| c.is_ascii_digit()) {
        let (before, after) = rest.split_at(start);
        text.push_str(before);
        let end = after.find(|c: char| !c.is_ascii_digit()).unwrap_or(after.len());
        let group = |text: &'_ str, len: usize| -> Option<usize> {
            let inner = text.trim_start().strip_prefix(dash)?.trim_start();
            let digits = inner.find(|c: char| !c.is_ascii_digit()).unwrap_or(inner.len());
            (digits == len).then_some(text.len() - inner.len() + digits)
        };
        let whole = group(&after[end..], 2).and_then(|two| Some(end + two + group(&after[end + two..], 1)?));
        let number = whole.map(|whole| after[..whole].replace(char::is_whitespace, "").replace(dash, "-"));
        match (whole, number) {
            (Some(whole), Some(number)) if is_cas(&number) && checks(&number) => {
                // Away from a bracket that hangs on the name.
                if text.ends_with(['(', '[']) {
                    let at = text.len() - 1;
                    text.insert(at, ' ');
                }
                text.push_str(&number);
                rest = &after[whole..];
            }
            _ => {
                text.push_str(&after[..end]);
                rest = &after[end..];
            }
        }
    }
    text.push_str(rest);
    text
}

/// The check digit of a number of the chemical registry: its digits from the right weighted 1, 2, 3 …, modulo ten.
fn checks(cas: &str) -> bool {
    let digits: Vec<u32> = cas.chars().filter_map(|c| c.to_digit(10)).collect();
    let Some((check, body)) = digits.split_last() else { return false };
    let sum: u32 = body.iter().rev().zip(1..).map(|(digit, weight)| digit * weight).sum();
    sum % 10 == *check
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cas_numbers_are_found_however_they_were_pasted() {
        for (line, rest, cas) in [
            ("Linalool 78-70-6 201-134-4 12.3", "Linalool 12.3", Some("78-70-6")),
            ("Linalool (CAS-Nr. 78-70-6) 12", "Linalool 12", Some("78-70-6")),
            ("Citronellol, CAS No. 106-22-9 12 %", "Citronellol, 12 %", Some("106-22-9")),
            ("CAS# 119-36-8: 3", "3", Some("119-36-8")),
            ("Limonene 5989 - 27 - 5 45 %", "Limonene 45 %", Some("5989-27-5")),
            ("Limonene 5989\u{2013}27\u{2013}5 45 %", "Limonene 45 %", Some("5989-27-5")),
            // The check digit is wrong: it may be anything, and stays where it is.
            ("Limonene 5989 - 27 - 6 45 %", "Limonene 5989 - 27 - 6 45 %", None),
            ("Limonene 20 - 45 - 5", "Limonene 20 - 45 - 5", None),
            ("Methyl 2-Octynoate 0.1", "Methyl 2-Octynoate 0.1", None),
        ] {
            assert_eq!(take_cas(line), (rest.to_owned(), cas.map(str::to_owned)), "{line}");
        }
    }
}
