//! What can happen to a batch. An entry of its record holds one of these; none is ever changed or removed.

use super::{EntryId, PhEvent};
use crate::quantity::{Celsius, Day, Mass, Minutes, Ph, keyed};

keyed! {
    /// Whose temperature it is.
    Pot {
        /// Water and what is dissolved in it.
        Water = "water",
        /// Oils and what is melted in them.
        Oil = "oil",
        /// Both together.
        Batch = "batch",
    }
}

keyed! {
    /// What is looked at before the batch is released.
    Check {
        /// Bench and tools are clean, and nothing of another product is left.
        Clearance = "clearance",
        /// The scale shows what a known weight weighs.
        Scale = "scale",
        /// How it looks.
        Appearance = "appearance",
        /// How it smells.
        Odour = "odour",
        /// How thick it is, and how that was found.
        Viscosity = "viscosity",
        /// The batch code on the packs is the one of the record.
        CodeOnPack = "code-on-pack",
        /// Anything else.
        Other = "other",
    }
}

keyed! {
    /// What became of a batch.
    Decision {
        /// It may be used or sold.
        Released = "released",
        /// It waits, for a result of a laboratory perhaps.
        Waiting = "waiting",
        /// It goes to no one.
        Rejected = "rejected",
    }
}

keyed! {
    /// How a mass was found.
    MassSource {
        /// Read off the scale and typed.
        Typed = "typed",
        /// Sent by the scale.
        Scale = "scale",
        /// Ticked on the weigh sheet: what was to be weighed, on the maker's word.
        Ticked = "ticked",
    }
}

/// What happened.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Event {
    /// The batch was begun under a code.
    Begun {
        /// Its code.
        code: String,
        /// Who makes it; may be empty.
        maker: String,
    },
    /// A step of the method is done, by its place in what the batch was made from.
    StepDone {
        /// Its place.
        step: usize,
    },
    /// A line was weighed, by its place in what the batch was made from. A later one stands in the place of an earlier one.
    Weighed {
        /// Its place.
        line: usize,
        /// What went in.
        actual: Mass,
        /// How it was found.
        source: MassSource,
        /// The lot; may be empty.
        lot: String,
        /// The day up to which that lot is good.
        expiry: Option<Day>,
        /// Off, and kept as it is: it is not weighed again unless the batch gets another size.
        kept: bool,
    },
    /// A temperature was read.
    Temperature {
        /// Of what.
        pot: Pot,
        /// How hot.
        reading: Celsius,
    },
    /// A time began to run, for a step of the method. A later one for the same step takes its place.
    TimerStarted {
        /// The place of the step.
        step: usize,
        /// How long.
        minutes: Minutes,
    },
    /// The batch was weighed in its vessel, before heat or after it.
    PotWeighed {
        /// With the vessel.
        mass: Mass,
        /// After heating, else before.
        after: bool,
    },
    /// Something that is no line went in, such as water that had boiled off.
    Added {
        /// What.
        what: String,
        /// How much.
        mass: Mass,
    },
    /// Something did not go as it should.
    Deviation {
        /// What.
        what: String,
        /// What was decided, and why.
        decision: String,
    },
    /// The batch is to have another mass from now on: the rest is weighed for that.
    Rescaled {
        /// The mass.
        batch: Mass,
        /// Why.
        reason: String,
    },
    /// A part of it was taken out, to become something of its own.
    SplitOff {
        /// How much.
        mass: Mass,
        /// The code of what it becomes.
        code: String,
        /// What it becomes.
        what: String,
    },
    /// The setting of the pH began. A later one takes the place of an earlier one.
    PhBegun {
        /// The mass of the batch then.
        batch: Mass,
        /// The pH to be reached.
        target: Ph,
    },
    /// A reading, a dose or a side sample.
    Ph(PhEvent),
    /// Something was looked at.
    Checked {
        /// What.
        check: Check,
        /// What was found.
        found: String,
    },
    /// A pack was filled.
    Filled {
        /// Its content.
        mass: Mass,
    },
    /// Some of it was lost or thrown away.
    Lost {
        /// Where it went.
        what: String,
        /// How much.
        mass: Mass,
    },
    /// Some of it was put aside to be kept.
    Retained {
        /// How much, and where it is kept.
        what: String,
        /// Its mass; what a pack holds was filled, and counts there.
        mass: Mass,
    },
    /// What becomes of it. A later one takes the place of an earlier one.
    Decided {
        /// What.
        decision: Decision,
        /// Who decided.
        by: String,
        /// Anything to be said of it.
        remark: String,
    },
    /// It was given up before it was done.
    Abandoned {
        /// Why.
        reason: String,
    },
    /// Something worth writing down.
    Remark {
        /// What.
        text: String,
    },
    /// The record is closed: what was noted until then cannot change without being seen.
    Sealed {
        /// The entries that it is about, in their order.
        entries: Vec<EntryId>,
        /// SHA-256 over them, what the batch was made from, and this entry's own id and time: 64 hexadecimal digits.
        digest: String,
    },
    /// An earlier entry was a mistake.
    Struck {
        /// Which.
        entry: EntryId,
        /// Why, in the maker's words; empty in logs of releases that did not ask.
        reason: String,
    },
}
