//! Meters that lie: what a check makes of their readings, what is asked, and when.

use crate::dose::OpenDocument;
use crate::{grams, ph};
use hundred_parts::batch::dose::{Advice, MeterDoubt, ReadingClash, Refusal};
use hundred_parts::batch::{BufferReading, Instrument, MeterCheck, PhEvent, Vessel};
use hundred_parts::quantity::{Quantity, Timestamp};

impl OpenDocument {
    fn note(mut self, event: PhEvent) -> Self {
        self.log.events.push((Timestamp::default(), event));
        self
    }

    /// A check in buffers of 7.00 and 4.01.
    fn buffers(self, seven: &str, four: &str) -> Self {
        let one = |buffer, shown| BufferReading { buffer: ph(buffer), shown: ph(shown) };
        self.note(PhEvent::Buffers(MeterCheck { first: one("7", seven), second: one("4.01", four), done: None }))
    }

    fn moving(self, at: &str) -> Self {
        self.note(PhEvent::Read {
            vessel: Vessel::Batch,
            ph: ph(at),
            instrument: Instrument::Meter,
            dilution: 5,
            taken: grams("2"),
            steady: Some(false),
        })
    }
}

fn start() -> OpenDocument {
    OpenDocument::new("citric-acid", "100", "5.2")
}

fn alone() -> OpenDocument {
    OpenDocument { side_first: false, ..OpenDocument::new("citric-acid", "50", "5.2") }
}

// Worked by hand: a meter that shows 0.3 too much everywhere reads 5.5 where the pH is 5.2.
#[test]
fn offset_that_two_buffers_show_is_taken_off_every_reading() {
    assert_eq!(start().buffers("7.3", "4.31").meter("5.5").advice(), Advice::Stop);
    // Of the reading before it, too: by what was shown a dose would be next, and by what is counted none.
    let before = start().meter("5.5").buffers("7.3", "4.31");
    assert_eq!(before.advice(), Advice::Read(Vessel::Batch), "a batch is left alone by a reading after the check");
    assert_eq!(before.meter("5.5").advice(), Advice::Stop);
    assert!(matches!(start().buffers("7.3", "4.31").meter("5.2").advice(), Advice::Passed(30)));
    let unchecked = start().meter("5.2");
    assert_eq!(unchecked.advice(), Advice::CheckMeter(MeterDoubt::BeforeStop), "without buffers nothing shows it");
}

// A slow electrode that came from its buffer of 7 shows the target of 5.6 in a batch of 4.4: once it was checked, what it showed
// before gives way to what it shows then, and is no contradiction of it.
#[test]
fn first_reading_that_asks_for_nothing_is_made_again_after_the_check() {
    let start = || OpenDocument::new("sodium-hydroxide", "10", "5.6");
    let told = start().meter("5.6");
    assert_eq!(told.advice(), Advice::CheckMeter(MeterDoubt::BeforeStop));
    let checked = told.checked();
    assert_eq!(checked.advice(), Advice::Read(Vessel::Batch));
    let again = checked.meter("4.4");
    assert!(matches!(again.advice(), Advice::TakeSample(_)), "{:?}", again.advice());
}

#[test]
fn meter_that_failed_is_set_anew_before_anything_goes_in() {
    let failed = start().meter("6.4").sample().buffers("7", "4.4");
    assert!(matches!(failed.advice(), Advice::Recalibrate(_)), "{:?}", failed.advice());
    let set = failed.buffers("7", "4.01");
    assert_eq!(set.advice(), Advice::Read(Vessel::Batch), "what it showed before decides nothing");
    let strip = start().buffers("7", "4.4").read(Vessel::Batch, "6.5", Instrument::Strip);
    assert!(!matches!(strip.advice(), Advice::Recalibrate(_)), "a strip takes its place");
}

#[test]
fn reading_that_is_still_moving_decides_nothing() {
    assert_eq!(start().moving("5.2").advice(), Advice::Read(Vessel::Batch));
    assert_eq!(start().moving("6.1").meter("6.4").advice(), Advice::TakeSample(grams("50")));
    // Nor does it contradict a steady one.
    assert_eq!(start().meter("6.4").moving("5.9").advice(), Advice::TakeSample(grams("50")));
}

#[test]
fn unchecked_meter_is_asked_about_before_the_batch_gets_what_a_side_sample_told() {
    let told = || start().meter("6.4").sample().dose(Vessel::Side, "10", "0.35").side("5.22");
    assert_eq!(told().advice(), Advice::CheckMeter(MeterDoubt::BeforeBatch));
    let on = told().note(PhEvent::Unchecked);
    assert!(matches!(on.advice(), Advice::Add(_)), "{:?}", on.advice());
    // Checked then, both vessels are read anew.
    let checked = told().buffers("7", "4.01");
    assert_eq!(checked.advice(), Advice::Read(Vessel::Batch));
    let again = checked.meter("6.4");
    assert_eq!(again.advice(), Advice::Read(Vessel::Side));
    assert!(matches!(again.side("5.22").advice(), Advice::Add(_)));
    let before = start().buffers("7", "4.01").meter("6.4").sample().dose(Vessel::Side, "10", "0.35").side("5.22");
    assert!(matches!(before.advice(), Advice::Add(_)), "{:?}", before.advice());
}

#[test]
fn unchecked_meter_is_asked_about_before_the_third_dose() {
    let one = || alone().meter("6.4").dose(Vessel::Batch, "50", "0.1").meter("6.2");
    assert!(matches!(one().advice(), Advice::Add(_)), "{:?}", one().advice());
    let two = || one().dose(Vessel::Batch, "50", "0.1").meter("6");
    assert_eq!(two().advice(), Advice::CheckMeter(MeterDoubt::DosesOnTrust));
    assert!(matches!(two().note(PhEvent::Unchecked).advice(), Advice::Add(_)));
    let mut struck = two();
    struck.log.struck = vec![1, 2];
    assert!(matches!(struck.advice(), Advice::Add(_)), "a dose that was a mistake is none");
}

// Worked: 1.6 g of citric acid of 50 % in 500 g is 8.3 mmol/kg, some 21 meq/kg at pH 6.2; it moved the pH by 0.2, where three
// pools of 30 mmol/kg at their constants take up 10 meq/kg, and by as much as both readings may be wrong 6 more.
#[test]
fn course_that_something_hidden_or_a_slow_electrode_explains_is_asked_about_at_once() {
    let slow = alone().meter("6.4").dose(Vessel::Batch, "50", "1.6").meter("6.2");
    assert_eq!(slow.advice(), Advice::CheckMeter(MeterDoubt::Strong));
    let checked = alone().buffers("7", "4.01").meter("6.4").dose(Vessel::Batch, "50", "1.6").meter("6.2");
    let Advice::Add(proposal) = checked.advice() else { panic!("{:?}", checked.advice()) };
    assert!(proposal.strong, "a checked meter leaves the hidden buffer");
}

#[test]
fn two_readings_of_one_state_that_are_apart_are_told_from_a_slow_electrode() {
    let dosed = || alone().buffers("7", "4.01").meter("6.4").dose(Vessel::Batch, "50", "0.2").meter("6.1");
    assert_eq!(dosed().meter("5.8").advice(), Advice::Refuse(Refusal::Contradiction(3, 4, ReadingClash::Slow)));
    assert_eq!(dosed().meter("6.4").advice(), Advice::Refuse(Refusal::Contradiction(3, 4, ReadingClash::Moved)));
}

// Common practice, no source: 0.05 g of citric acid takes about 100 g of a lotion from about pH 6 to about 5. Half of that in
// the batch is the first pair of readings; from it the second dose is the rest, with some held back.
#[test]
fn second_dose_after_the_pair_of_the_trade_is_what_is_missing() {
    let first = OpenDocument { side_first: false, ..OpenDocument::new("citric-acid", "100", "5") }
        .buffers("7", "4.01")
        .meter("6")
        .dose(Vessel::Batch, "100", "0.125")
        .meter("5.5");
    let Advice::Add(proposal) = first.advice() else { panic!("{:?}", first.advice()) };
    let pure = proposal.portion.mass.share(proposal.portion.strength);
    assert!(pure >= grams("0.06") && pure <= grams("0.14"), "{}", pure.canonical());
    // Readings are taken of 2 g in 8 g of distilled water.
    let taken = hundred_parts::batch::SAMPLING_METHODS[0];
    assert_eq!(taken, (5, grams("2")));
}
