//! Names with brackets: another name of the same, a remark, or a part of the name.

use super::key::{key, words};
use super::lexicon::{NameHit, find};
use super::reading::{Meaning, Sureness};
use super::recogniser::{Effort, name};
use super::{blends, plants, remarks};

/// A text outside of its brackets, and what stands in each.
fn parted(text: &str) -> (String, Vec<String>) {
    let (mut outside, mut insides, mut depth) = (String::new(), Vec::<String>::new(), 0usize);
    for c in text.chars() {
        match (c, depth) {
            ('(', 0) => insides.push(String::new()),
            (')', 1) => outside.push(' '),
            (_, 0) => outside.push(if c == ')' { ' ' } else { c }),
            _ => {
                if let Some(inside) = insides.last_mut() {
                    inside.push(c);
                }
            }
        }
        match c {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ => {}
        }
    }
    (outside, insides)
}

/// What a text with brackets stands for.
pub(super) fn read(text: &str, effort: &mut Effort) -> Option<NameHit> {
    let (outside, insides) = parted(text);
    let outside = remarks::tidy(&outside);
    let insides: Vec<String> =
        insides.iter().map(|inside| remarks::tidy(inside)).filter(|inside| !remarks::is_remark(inside)).collect();
    if remarks::is_remark(&outside) {
        return match insides.as_slice() {
            [one] => name(one, effort),
            _ => None,
        };
    }
    let mut hit = name(&outside, effort)?;
    let of_plant = plants::is_plant(&words(&outside).collect::<Vec<_>>());
    for inside in &insides {
        // Where a substance of no plant's name came from.
        if !of_plant && plants::is_source(&words(inside).collect::<Vec<_>>()) && find(&key(inside)).is_none() {
            continue;
        }
        if is_length(inside) {
            continue;
        }
        // `safflower oil (high oleic)` is `high oleic safflower oil`.
        if let Some(whole) = find(&key(&format!("{inside} {outside}"))) {
            hit = whole;
            continue;
        }
        let told = find(&key(inside)).or_else(|| name(inside, effort)).or_else(|| blends::one(inside, effort));
        hit = joined(hit, told);
    }
    Some(if insides.is_empty() { hit } else { hit.at_most(Sureness::Synonym) })
}

/// Whether a text says how long chains of carbon are: `C16`, `C12-15`.
fn is_length(text: &str) -> bool {
    let figures = text.strip_prefix('c').unwrap_or_default();
    (1..=5).contains(&figures.len()) && figures.chars().all(|c| c.is_ascii_digit() || c == '-' || c == '/')
}

/// A name with what stands in brackets behind it: the meanings that both have. Words that nobody knows may change what it is.
fn joined(hit: NameHit, told: Option<NameHit>) -> NameHit {
    let Some(told) = told else { return hit.asked() };
    let common: Vec<Meaning> = hit.means.iter().filter(|one| told.means.contains(one)).cloned().collect();
    if common.is_empty() {
        let means = hit.means.iter().chain(&told.means).cloned().collect();
        return NameHit { means, sureness: hit.sureness, ask: true };
    }
    let ask = common.len() > 1;
    NameHit { means: common, sureness: hit.sureness.max(told.sureness), ask }
}
