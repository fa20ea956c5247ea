//! Two states of a formula side by side.

use super::{Choice, Formula, Line, LineId, MethodStep, Phase, Share, StepField, StepKind};
use crate::quantity::Percent;

/// How one ingredient differs between two formulas.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Change {
    /// Only in the newer one.
    Added,
    /// Only in the older one.
    Gone,
    /// In both, with another share or in another phase.
    Changed {
        /// By how much the share grew, where both are read.
        by: Option<Percent>,
        /// It stands in another phase now.
        moved: bool,
    },
    /// The same in both.
    Same,
}

/// One row of a comparison.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Comparison {
    /// What it is about.
    pub choice: Choice,
    /// Phase name and share in the older one.
    pub before: Option<(String, Option<Percent>)>,
    /// Phase name and share in the newer one.
    pub after: Option<(String, Option<Percent>)>,
    /// The difference.
    pub change: Change,
}

/// Compares line by line: first the newer formula's lines in order, then those that are gone.
///
/// Lines belong together if they name the same ingredient; the second line of one ingredient belongs to the second.
/// The share of a fill-up line is what is missing to 100 of the shares that could be read, and nothing above 100.
pub fn compare(before: &Formula, after: &Formula) -> Vec<Comparison> {
    let mut old: Vec<Option<Side<'_>>> = sides(before).map(Some).collect();
    let mut rows = Vec::new();
    for new in sides(after) {
        let twin = old.iter_mut().find(|side| side.as_ref().is_some_and(|side| side.line.choice == new.line.choice));
        rows.push(row(twin.and_then(Option::take), Some(new)));
    }
    rows.extend(old.into_iter().flatten().map(|side| row(Some(side), None)));
    rows
}

/// Whether two formulas have different methods of their own, by what their steps say and which ingredients they name.
pub fn method_differs(before: &Formula, after: &Formula) -> bool {
    let said = |formula: &Formula| -> Vec<(StepKind, Vec<String>, Vec<Choice>)> {
        let step = |(step, lines): (&MethodStep, Vec<LineId>)| {
            let texts = StepField::ALL.iter().map(|field| step.field(*field).to_owned()).collect();
            // The rest of a phase differs with its lines, which the comparison tells by itself.
            let named = if step.lines.is_empty() { Vec::new() } else { lines };
            let choices = named.iter().filter_map(|id| formula.line(*id)).map(|line| line.choice.clone()).collect();
            (step.kind, texts, choices)
        };
        formula.method().iter().zip(formula.lines_of_steps()).map(step).collect()
    };
    said(before) != said(after)
}

struct Side<'a> {
    phase: &'a Phase,
    line: &'a Line,
    share: Option<Percent>,
}

fn sides(formula: &Formula) -> impl Iterator<Item = Side<'_>> {
    let read = |line: &Line| line.share.typed().and_then(|typed| typed.value());
    let rest = Percent::WHOLE.minus(formula.lines().filter_map(|(_, line)| read(line)).sum()).max(Percent::ZERO);
    formula.lines().filter(|(_, line)| !line.is_blank()).map(move |(phase, line)| Side {
        phase,
        line,
        share: if matches!(line.share, Share::FillUp) { Some(rest) } else { read(line) },
    })
}

fn row(before: Option<Side<'_>>, after: Option<Side<'_>>) -> Comparison {
    let change = match (&before, &after) {
        (Some(old), Some(new)) => difference(old, new),
        (None, _) => Change::Added,
        (_, None) => Change::Gone,
    };
    let shown = |side: &Side<'_>| (side.phase.name.clone(), side.share);
    let choice =
        after.as_ref().or(before.as_ref()).map_or(Choice::Named(String::new()), |side| side.line.choice.clone());
    Comparison { choice, before: before.as_ref().map(shown), after: after.as_ref().map(shown), change }
}

fn difference(old: &Side<'_>, new: &Side<'_>) -> Change {
    let moved = old.phase.name != new.phase.name;
    let by = old.share.zip(new.share).map(|(old, new)| new.minus(old));
    if !moved && old.share == new.share { Change::Same } else { Change::Changed { by, moved } }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formula::{NewStep, PhaseKind};
    use crate::quantity::Quantity;

    fn formula(lines: &[(&str, &str)]) -> Formula {
        let mut formula = Formula::default();
        let phase = formula.add_phase(PhaseKind::Water, "Water", 0);
        for (n, (name, share)) in lines.iter().enumerate() {
            let id = formula.add_line(phase, n).unwrap();
            let line = formula.line_mut(id).unwrap();
            line.choice = Choice::Named((*name).to_owned());
            line.share = Share::read(share);
        }
        formula
    }

    #[test]
    fn compare_names_added_gone_changed_and_by_how_much() {
        let before = formula(&[("water", "qs"), ("gum", "0.3"), ("oil", "10")]);
        let after = formula(&[("water", "qs"), ("oil", "12"), ("wax", "2")]);
        let rows = compare(&before, &after);
        let found: Vec<_> = rows.iter().map(|row| (&row.choice, &row.change)).collect();
        let named = |name: &str| Choice::Named(name.to_owned());
        let by = |units| Change::Changed { by: Some(Percent::from_units(units)), moved: false };
        assert_eq!(
            found,
            [
                (&named("water"), &by(-3_700_000)),
                (&named("oil"), &by(2_000_000)),
                (&named("wax"), &Change::Added),
                (&named("gum"), &Change::Gone),
            ]
        );
    }

    #[test]
    fn method_differs_by_what_its_steps_say_and_not_by_their_ids() {
        let step = |text: &str| NewStep { text: text.to_owned(), ..NewStep::default() };
        let (mut before, mut after) = (formula(&[("water", "qs")]), formula(&[("water", "qs"), ("oil", "2")]));
        assert!(!method_differs(&before, &after), "neither has one of its own");
        before.set_method([step("Stir.")]);
        assert!(method_differs(&before, &after));
        after.set_method([step("Stir.")]);
        assert!(!method_differs(&before, &after));
        let id = after.method()[0].id;
        after.step_mut(id).unwrap().set(StepField::Minutes, "5".to_owned());
        assert!(method_differs(&before, &after));
    }

    #[test]
    fn compare_fill_up_line_of_too_much_is_nothing_and_never_less() {
        let rows = compare(
            &formula(&[("water", "qs"), ("oil", "90")]),
            &formula(&[("water", "qs"), ("oil", "90"), ("wax", "20")]),
        );
        assert_eq!(rows[0].after.as_ref().unwrap().1, Some(Percent::ZERO));
        assert_eq!(
            rows[0].change,
            Change::Changed { by: Some(Percent::from_units(-10_000_000)), moved: false },
            "ten parts went, not twenty"
        );
    }

    #[test]
    fn compare_same_ingredient_twice_pairs_in_order() {
        let before = formula(&[("oil", "5"), ("oil", "7")]);
        let after = formula(&[("oil", "5"), ("oil", "8")]);
        let changes: Vec<_> = compare(&before, &after).into_iter().map(|row| row.change).collect();
        assert_eq!(changes, [Change::Same, Change::Changed { by: Some(Percent::from_units(1_000_000)), moved: false }]);
    }
}
