//! Labels, hints and longer texts of the place Proof.
#![allow(missing_docs, reason = "each constant is its own text")]

pub const TITLE: &str = "Stability study";
pub const NONE_YET: &str = "No study yet";
pub const TEACH: &str = "A stability study looks at samples of one batch over months: kept at room temperature, warm, cold, frozen and thawed, and in light. Each look is compared with what you saw on day 0.";
pub const TEACH_HOW: &str = "Fill at least one pack for every condition, and one as a control that stays cold and dark. Leave about a third of each jar empty (unverified). Label each with batch, condition and date.";
pub const NEEDS_BATCH: &str = "A study begins from the record of a batch. Make a batch first.";
pub const NEEDS_FORMULA_OF_BATCH: &str =
    "The record of this batch does not say what it was made from, so no study can begin from it.";
pub const TO_BATCH: &str = "Go to the batch";
pub const FOR_HOW_LONG: &str = "For how long";
pub const IN_MONTHS: &str = "months";
pub const MONTHS_CHOICES: [i64; 4] = [3, 6, 12, 24];
pub const BEGIN: &str = "Begin the study";
pub const BEGIN_ANOTHER: &str = "Begin a study of this batch";
pub const BEGUN: &str = "Study begun. Today is day 0.";
pub const NOT_BEGUN: &str = "The study was not begun. Wait until everything is saved, then try again.";
pub const NOT_NOTED: &str = "This was not recorded. Open the study again.";
pub const COMING: &str = "Opening the study\u{2026}";
pub const UNREADABLE: &str = "This study cannot be read here. It is kept as it is.";
pub const STUDY_LOST: &str = "A stability study is damaged and cannot be read.";
pub const STUDIES_LEFT: &str = "The stability studies of the file could not be saved. Import the file again.";
pub const STUDIES: &str = "Your studies";
pub const PULLS: &str = "Pulls";
pub const OPEN: &str = "Open";
pub const ALL_SEEN: &str = "Every pull of the plan has been looked at.";
pub const RECORD: &str = "Record this pull";
pub const RECORD_AGAIN: &str = "Cross out and record this";
pub const CANCEL: &str = "Cancel";
pub const WHY: &str = "Why the earlier entry was wrong";
pub const RECORDED: &str = "Pull recorded.";
pub const NOTHING_SEEN: &str = "Nothing has been filled in yet.";
pub const NOT_READ: &str = "A figure cannot be read. Correct it first.";
pub const ON_DAY: &str = "Looked at on";
pub const DAY_HINT: &str = "A day such as 2026-12-04.";
pub const SCORE_HINT: &str = "0 is like the cold control, 5 is quite different.";
pub const NOT_LOOKED: &str = "Not looked at";
pub const NOTE: &str = "Note";
pub const WEIGHT: &str = "Weight with pack";
pub const VERDICTS: &str = "What was seen";
pub const VERDICT_CARE: &str = "This describes the samples that were looked at, on the days they were looked at. It is no promise for others, or for later.";
pub const PLOTS: &str = "Over time";
pub const KEEPS: &str = "How long does it keep?";
pub const LOTS: &str = "Lots and their end dates";
pub const LOTS_SAY: &str = "The shelf is read as it is now: the day up to which a lot is good, and when it was opened. The earliest day counts. What you type here is noted for this batch alone.";
pub const LOT_END: &str = "Good until";
pub const KEEP_LOT: &str = "Record the end dates";
pub const LOTS_KEPT: &str = "End dates recorded.";
pub const RULE: &str = "Use within";
pub const RULE_HINT: &str = "Months after making, by your own rule. Leave it empty for none.";
pub const KEEP_RULE: &str = "Record the rule";
pub const RULE_KEPT: &str = "Rule recorded.";
pub const NO_END: &str = "No end is known: give the end date of a lot, or a rule of your own.";
pub const TO_LABEL: &str = "Put this date on the label";
pub const ON_LABEL: &str = "The date is on the label.";
pub const CALENDAR: &str = "Calendar file";
pub const CALENDAR_GIVEN: &str = "The calendar file has every pull that is still to come.";
pub const NO_CALENDAR: &str = "No pull is still to come.";
pub const PLAN: &str = "Change the plan";
pub const PLAN_HINT: &str = "Days, weeks and months after the beginning: 7d 2w 3m. An empty field leaves the condition out. What was recorded stays.";
pub const KEEP_PLAN: &str = "Use this plan";
pub const PLAN_KEPT: &str = "Plan changed.";
pub const PLAN_UNREAD: &str =
    "One of these fields cannot be read, or a lowest value is above its highest. Nothing has changed.";
pub const STUDY_MONTHS: &str = "Length of the study";
pub const PH_LOW: &str = "Lowest pH";
pub const PH_HIGH: &str = "Highest pH";
pub const VISCOSITY_METHOD: &str = "How viscosity is measured";
pub const VISCOSITY_LOW: &str = "Lowest viscosity";
pub const VISCOSITY_HIGH: &str = "Highest viscosity";
pub const MOST_LOSS: &str = "Most weight that a pack may lose";
pub const CONTENT_UNKNOWN: &str =
    "A loss of weight is not calculated: the record of the batch does not say how much one pack holds.";
pub const EVENTS: &str = "Record an event";
pub const WHAT: &str = "What happened";
pub const IN_WORDS: &str = "In words";
pub const KEEP_EVENT: &str = "Record the event";
pub const EVENT_KEPT: &str = "Event recorded.";
pub const MEANS: &str = "What warm storage can and cannot tell";
pub const MEANS_TEXT: [&str; 4] = [
    "Warm storage finds weak emulsions early: what separates at 40\u{202f}\u{b0}C in a month is unlikely to last on a shelf. That nothing separates shows no more than that.",
    "Waxes and butters melt, emulsifiers can turn and gels can thin when warm: some products fail warm that would never fail at room temperature. Microbes and rancidity follow no such rule at all.",
    "Three months warm are often taken for a year at room temperature. That is a convention, called Q10 or accelerated ageing; a study of 65 emulsions (Bournemouth University, 2018) doubted it for emulsions. Samples at room temperature decide.",
    "No standard sets conditions or limits for a cosmetic (ISO/TR 18811:2018). Conditions and limits here are custom or choices of this program unless you change them; a qualified assessor decides what is enough.",
];
pub const EVIDENCE: &str = "Stability seen so far";
pub const OUTLOOK: &str = "Oil phase, outlook";
pub const OUTLOOK_IS_NO_DATE: &str = "This is a class by fatty acids and gives no date, so it does not bind.";
pub const NO_RECORD: &str = "The record of this batch is not on this device: its lots are those that the study took over, and the outlook of its oils is not known here.";
pub const AFTER_OPENING: &str = "After opening";
pub const NO_DATE: &str = "No best-before date follows: a room sample was outside its limits. Find out why first.";
pub const NOT_A_PROMISE: &str = "A date on a label is your decision as the one who answers for the product. It needs evidence that an assessor can read.";
