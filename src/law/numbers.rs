//! Numbers of the chemical registry (CAS) and of the European inventory (EC) within a cell.
//!
//! Both end in a check digit, which says nothing new: the compact data leaves it out where it is right.

/// The check digit of a CAS number: its digits from the right weighted 1, 2, 3 …, modulo ten.
fn cas_check(body: &str) -> Option<u32> {
    let digits = body.chars().filter_map(|c| c.to_digit(10)).rev().zip(1u32..);
    Some(digits.map(|(digit, weight)| digit * weight).sum::<u32>() % 10)
}

/// The check digit of an EC number: its digits from the left weighted 1, 2, 3 …, modulo eleven; there is none for ten.
fn ec_check(body: &str) -> Option<u32> {
    let digits = body.chars().filter_map(|c| c.to_digit(10)).zip(1u32..);
    let check = digits.map(|(digit, weight)| digit * weight).sum::<u32>() % 11;
    (check < 10).then_some(check)
}

/// A piece of a cell: a number that ends in the right check digit, without it, or what stands between.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Piece<'a> {
    Cas(&'a str),
    Ec(&'a str),
    Text(&'a str),
}

/// What a number looks like: the least and most digits of its groups before the check digit.
const CAS: [(usize, usize); 2] = [(2, 7), (2, 2)];
const EC: [(usize, usize); 2] = [(3, 3), (3, 3)];

/// How long the groups of digits at the start of a text are, joined by hyphens.
fn groups(text: &str, shape: [(usize, usize); 2]) -> Option<usize> {
    let digits = |text: &str| text.bytes().take_while(u8::is_ascii_digit).count();
    let [first, second] = shape;
    let a = digits(text);
    let b = digits(text.get(a..)?.strip_prefix('-')?);
    ((first.0..=first.1).contains(&a) && (second.0..=second.1).contains(&b)).then_some(a + 1 + b)
}

/// The number with a right check digit at the start of a text, without the digit.
fn checked(text: &str) -> Option<Piece<'_>> {
    let ends = |body: usize, check: fn(&str) -> Option<u32>| {
        let (number, rest) = text.split_at_checked(body)?;
        let mut after = rest.strip_prefix('-')?.chars();
        let digit = after.next()?.to_digit(10)?;
        let whole = !after.next().is_some_and(|c| c.is_ascii_digit() || c == '-');
        (whole && check(number) == Some(digit)).then_some(number)
    };
    let cas = groups(text, CAS).and_then(|body| ends(body, cas_check)).map(Piece::Cas);
    cas.or_else(|| groups(text, EC).and_then(|body| ends(body, ec_check)).map(Piece::Ec))
}

/// Takes a cell apart.
pub(super) fn pieces(cell: &str) -> Vec<Piece<'_>> {
    let (mut found, mut from, mut at) = (Vec::new(), 0, 0);
    while let Some(rest) = cell.get(at..) {
        let Some(c) = rest.chars().next() else { break };
        let starts = c.is_ascii_digit() && !cell[..at].ends_with(|c: char| c.is_ascii_digit() || c == '-');
        match starts.then(|| checked(rest)).flatten() {
            Some(piece) => {
                let (Piece::Cas(number) | Piece::Ec(number) | Piece::Text(number)) = piece;
                if from < at {
                    found.push(Piece::Text(&cell[from..at]));
                }
                found.push(piece);
                at += number.len() + 2;
                from = at;
            }
            None => at += c.len_utf8(),
        }
    }
    if from < cell.len() {
        found.push(Piece::Text(&cell[from..]));
    }
    found
}

/// A cell with the check digits left out that are right.
pub(super) fn shortened(cell: &str) -> String {
    let text = |piece| match piece {
        Piece::Cas(text) | Piece::Ec(text) | Piece::Text(text) => text,
    };
    pieces(cell).into_iter().map(text).collect()
}

/// A cell with the check digits that were left out.
pub(super) fn lengthened(cell: &str) -> String {
    let (mut text, mut at) = (String::with_capacity(cell.len() + 4), 0);
    while let Some(rest) = cell.get(at..) {
        let Some(c) = rest.chars().next() else { break };
        let starts = c.is_ascii_digit() && !cell[..at].ends_with(|c: char| c.is_ascii_digit() || c == '-');
        let open = |body: &usize| !rest[*body..].starts_with(|c: char| c.is_ascii_digit() || c == '-');
        let number = |shape, check: fn(&str) -> Option<u32>| {
            let body = starts.then(|| groups(rest, shape)).flatten().filter(open)?;
            Some((&rest[..body], check(&rest[..body])?))
        };
        match number(CAS, cas_check).or_else(|| number(EC, ec_check)) {
            Some((number, check)) => {
                text.push_str(number);
                text.push('-');
                text.extend(char::from_digit(check, 10));
                at += number.len();
            }
            None => {
                text.push(c);
                at += c.len_utf8();
            }
        }
    }
    text
}

/// Whether a text is a CAS number with the right check digit.
pub fn is_cas_number(text: &str) -> bool {
    matches!(pieces(text).as_slice(), [Piece::Cas(number)] if number.len() + 2 == text.len())
}

/// The CAS numbers in a cell, whole; those that fail their check digit are left out.
pub fn cas_numbers(cell: &str) -> impl Iterator<Item = String> {
    let with_check = |number: &str| lengthened(number);
    pieces(cell)
        .into_iter()
        .filter_map(|piece| if let Piece::Cas(number) = piece { Some(number) } else { None })
        .map(with_check)
        .collect::<Vec<_>>()
        .into_iter()
}

/// What in a cell looks like a CAS or EC number and fails its check digit.
pub fn broken_numbers(cell: &str) -> Vec<String> {
    let between =
        pieces(cell).into_iter().filter_map(|piece| if let Piece::Text(text) = piece { Some(text) } else { None });
    let words = between.flat_map(|text| text.split(|c: char| !c.is_ascii_digit() && c != '-'));
    let shaped = |word: &&str| {
        let body = groups(word, CAS).or_else(|| groups(word, EC));
        body.is_some_and(|body| word.len() == body + 2)
    };
    words.filter(shaped).map(str::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    // Annex II/8, II/1507, III/250 (its CAS fails) and III/353 (a CAS in the column of EC numbers), as the files print them.
    #[test]
    fn numbers_lose_their_check_digit_and_get_it_back() {
        for (cell, short) in [
            ("132-60-5 / 5949-18-8", "132-60 / 5949-18"),
            ("205-067-1 / 227-710-5", "205-067 / 227-710"),
            ("50-00-0 [1] / 64-18-6 [2]", "50-00 [1] / 64-18 [2]"),
            ("50-00-1", "50-00-1"),
            ("", ""),
        ] {
            assert_eq!(shortened(cell), short);
            assert_eq!(lengthened(short), cell);
        }
        assert!(is_cas_number("50-00-0") && !is_cas_number("50-00-1") && !is_cas_number("200-001-8"));
        assert_eq!(cas_numbers("50-00-0 [1] / 64-18-6").collect::<Vec<_>>(), ["50-00-0", "64-18-6"]);
        assert_eq!(broken_numbers("50-00-1 / 64-18-6"), ["50-00-1"]);
    }

    proptest! {
        #[test]
        fn numbers_pieces_hold_the_whole_cell(cell in "[0-9\\- /ä]{0,30}") {
            let whole: String = pieces(&cell)
                .into_iter()
                .map(|piece| match piece {
                    Piece::Text(text) => text.to_owned(),
                    Piece::Cas(number) => lengthened(number),
                    Piece::Ec(number) => lengthened(number),
                })
                .collect();
            prop_assert_eq!(whole, cell);
        }
    }
}
