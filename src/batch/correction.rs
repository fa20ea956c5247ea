//! What of an entry can be put right by one of its own kind: its figure and its words. What stands in it beside these, such as
//! the line or the vessel, stays as it was.

use super::{Event, PhEvent};
use crate::quantity::{Celsius, Mass, Ph};

/// The figure of an entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EntryFigure {
    /// A mass.
    Mass(Mass),
    /// A temperature.
    Heat(Celsius),
    /// A pH.
    Ph(Ph),
}

impl Event {
    /// Whether a later entry can say that it was a mistake.
    pub const fn can_be_struck(&self) -> bool {
        !matches!(self, Self::Sealed { .. } | Self::Struck { .. })
    }

    /// Its figure, if it has one that can be put right by itself.
    pub fn figure(&self) -> Option<EntryFigure> {
        self.clone().parts().0.map(|part| part.read())
    }

    /// Its words, in the order in which they are asked for.
    pub fn words(&self) -> Vec<String> {
        self.clone().parts().1.into_iter().map(|text| text.clone()).collect()
    }

    /// The same with another figure and other words. `None` where it has none, or where these are not of its kind.
    pub fn put_right(&self, figure: Option<EntryFigure>, words: &[String]) -> Option<Self> {
        let mut event = self.clone();
        let (part, texts) = event.parts();
        if texts.len() != words.len() || part.is_some() != figure.is_some() || (part.is_none() && texts.is_empty()) {
            return None;
        }
        for (text, word) in texts.into_iter().zip(words) {
            text.clone_from(word);
        }
        if let (Some(part), Some(figure)) = (part, figure) {
            part.write(figure)?;
        }
        Some(event)
    }

    fn parts(&mut self) -> (Option<Part<'_>>, Vec<&mut String>) {
        match self {
            Self::Begun { code, maker } => (None, vec![code, maker]),
            Self::Weighed { actual, lot, .. } => (Some(Part::Mass(actual)), vec![lot]),
            Self::Temperature { reading, .. } => (Some(Part::Heat(reading)), Vec::new()),
            Self::PotWeighed { mass, .. } | Self::Filled { mass } | Self::Ph(PhEvent::Sample { mass }) => {
                (Some(Part::Mass(mass)), Vec::new())
            }
            Self::Ph(PhEvent::Dose { mass, lot, .. }) => (Some(Part::Mass(mass)), vec![lot]),
            Self::Ph(PhEvent::Read { ph, .. }) => (Some(Part::Ph(ph)), Vec::new()),
            Self::Added { what, mass } | Self::Lost { what, mass } | Self::Retained { what, mass } => {
                (Some(Part::Mass(mass)), vec![what])
            }
            Self::SplitOff { mass, code, what } => (Some(Part::Mass(mass)), vec![code, what]),
            Self::Deviation { what, decision } => (None, vec![what, decision]),
            Self::Checked { found, .. } => (None, vec![found]),
            Self::Remark { text } => (None, vec![text]),
            Self::StepDone { .. }
            | Self::TimerStarted { .. }
            | Self::Rescaled { .. }
            | Self::PhBegun { .. }
            | Self::Ph(PhEvent::Buffers(_) | PhEvent::Unchecked)
            | Self::Decided { .. }
            | Self::Abandoned { .. }
            | Self::Sealed { .. }
            | Self::Struck { .. } => (None, Vec::new()),
        }
    }
}

/// Where the figure of an event stands.
enum Part<'a> {
    Mass(&'a mut Mass),
    Heat(&'a mut Celsius),
    Ph(&'a mut Ph),
}

impl Part<'_> {
    fn read(&self) -> EntryFigure {
        match self {
            Self::Mass(mass) => EntryFigure::Mass(**mass),
            Self::Heat(heat) => EntryFigure::Heat(**heat),
            Self::Ph(ph) => EntryFigure::Ph(**ph),
        }
    }

    fn write(self, figure: EntryFigure) -> Option<()> {
        match (self, figure) {
            (Self::Mass(at), EntryFigure::Mass(mass)) => *at = mass,
            (Self::Heat(at), EntryFigure::Heat(heat)) => *at = heat,
            (Self::Ph(at), EntryFigure::Ph(ph)) => *at = ph,
            _ => return None,
        }
        Some(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::Pot;
    use crate::quantity::Quantity;

    fn grams(units: i64) -> Mass {
        Mass::micrograms(units * 1_000_000)
    }

    #[test]
    fn figure_and_words_are_put_right_and_the_rest_stays() {
        let lost = Event::Lost { what: "Pot".into(), mass: grams(12) };
        assert_eq!((lost.figure(), lost.words()), (Some(EntryFigure::Mass(grams(12))), vec!["Pot".to_owned()]));
        let right = lost.put_right(Some(EntryFigure::Mass(grams(21))), &["Pot and blender".into()]);
        assert_eq!(right, Some(Event::Lost { what: "Pot and blender".into(), mass: grams(21) }));
        let read = Event::Temperature { pot: Pot::Oil, reading: Celsius::from_units(0) };
        let heat = Celsius::from_units(72_000);
        assert_eq!(
            read.put_right(Some(EntryFigure::Heat(heat)), &[]),
            Some(Event::Temperature { pot: Pot::Oil, reading: heat })
        );
    }

    #[test]
    fn what_is_not_of_its_kind_is_refused() {
        let filled = Event::Filled { mass: grams(50) };
        assert_eq!(filled.put_right(None, &[]), None, "no figure");
        assert_eq!(filled.put_right(Some(EntryFigure::Ph(Ph::from_units(0))), &[]), None, "another kind of figure");
        assert_eq!(filled.put_right(Some(EntryFigure::Mass(grams(51))), &["x".into()]), None, "words that it has not");
        let done = Event::StepDone { step: 1 };
        assert!(done.put_right(None, &[]).is_none() && done.can_be_struck());
        assert!(!Event::Sealed { entries: Vec::new(), digest: String::new() }.can_be_struck());
    }
}
