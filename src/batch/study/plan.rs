//! What is looked at and when: conditions, and days by the civil calendar.

use super::Viscosity;
use crate::facts::{ConditionRow, Months, stability_conditions, stability_figures};
use crate::quantity::{Celsius, Day, Percent, Ph, Quantity, keyed, sort_by};

keyed! {
    /// How samples are kept.
    ConditionKind {
        /// At room temperature, dark, in the pack.
        Room = "room",
        /// Warm: the usual accelerated condition.
        Warm = "warm",
        /// Hotter: a stress.
        Hot = "hot",
        /// In the refrigerator.
        Cold = "cold",
        /// Frozen and thawed in turns.
        FreezeThaw = "freeze-thaw",
        /// Spun in a centrifuge once.
        Spin = "spin",
        /// In the light of a window or lamp.
        Light = "light",
    }
}

keyed! {
    /// What a point in time is counted in.
    PullUnit {
        /// Days.
        Day = "d",
        /// Weeks of seven days.
        Week = "w",
        /// Months of the calendar.
        Month = "m",
    }
}

/// Most points of one condition.
pub const MOST_POINTS: usize = 40;
/// Greatest count of a point: 20 years in months are less, and so are three years in days.
const MOST_COUNT: u16 = 1_200;

/// A point in time of a study, counted from its beginning.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PullPoint {
    /// How many, 0 to 1200.
    pub count: u16,
    /// Of what.
    pub unit: PullUnit,
}

impl PullPoint {
    /// Reads `7d`, `2w` or `3m`; `None` if it is anything else.
    pub fn parse(text: &str) -> Option<Self> {
        let (count, unit) = text.split_at_checked(text.len().checked_sub(1)?)?;
        let digits = !count.is_empty() && count.bytes().all(|byte| byte.is_ascii_digit());
        let count = count.parse().ok().filter(|count| digits && *count <= MOST_COUNT)?;
        Some(Self { count, unit: PullUnit::from_key(unit)? })
    }

    /// What [`Self::parse`] reads.
    pub fn text(self) -> String {
        format!("{}{}", self.count, self.unit.key())
    }

    /// The day on which it falls. Months are those of the calendar: a month after 31 January is the last day of February.
    pub fn day(self, began: Day) -> Day {
        match self.unit {
            PullUnit::Day => began.plus_days(self.count.into()),
            PullUnit::Week => began.plus_days(i64::from(self.count) * 7),
            PullUnit::Month => began.plus_months(self.count.into()),
        }
    }
}

/// Reads points with blanks or commas between them; `None` if one cannot be read, there is none, or there are too many.
pub fn read_points(text: &str) -> Option<Vec<PullPoint>> {
    let parts = text.split([' ', ',', ';']).map(str::trim).filter(|part| !part.is_empty());
    let points: Vec<PullPoint> = parts.map(|part| PullPoint::parse(&part.to_lowercase())).collect::<Option<_>>()?;
    (1..=MOST_POINTS).contains(&points.len()).then_some(points)
}

/// Points as [`read_points`] reads them.
pub fn points_text(points: &[PullPoint]) -> String {
    points.iter().map(|point| point.text()).collect::<Vec<_>>().join(" ")
}

/// A condition, and when its samples are looked at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StudyCondition {
    /// How samples are kept; a study has each kind once at the most.
    pub kind: ConditionKind,
    /// How warm, where that matters.
    pub celsius: Option<Celsius>,
    /// When.
    pub points: Vec<PullPoint>,
}

/// What the maker wants the product to keep within. What is not stated is not judged by it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct StudyLimits {
    /// The pH, lowest and highest.
    pub ph: Option<(Ph, Ph)>,
    /// The viscosity, lowest and highest.
    pub viscosity: Option<(Viscosity, Viscosity)>,
    /// How and at what the viscosity is measured, in the maker's words; may be empty.
    pub viscosity_method: String,
    /// The most weight that a pack may lose.
    pub weight_loss: Option<Percent>,
}

/// The plan of a study.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StudyPlan {
    /// For how many months.
    pub months: Months,
    /// Under which conditions.
    pub conditions: Vec<StudyCondition>,
    /// Within which limits.
    pub limits: StudyLimits,
}

/// A sample that is to be looked at on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pull {
    /// How it is kept.
    pub condition: ConditionKind,
    /// When, counted from the beginning.
    pub point: PullPoint,
    /// The day that this is.
    pub due: Day,
}

impl StudyPlan {
    /// Its pulls by day, and on one day in the order of its conditions. What falls behind its end is left out; where two
    /// points of a condition fall on one day there is one pull.
    pub fn pulls(&self, began: Day) -> Vec<Pull> {
        let end = self.months.after(began);
        let mut pulls: Vec<Pull> = Vec::new();
        for condition in &self.conditions {
            for point in &condition.points {
                let pull = Pull { condition: condition.kind, point: *point, due: point.day(began) };
                let known = pulls.iter().any(|known| known.condition == pull.condition && known.due == pull.due);
                if pull.due <= end && !known {
                    pulls.push(pull);
                }
            }
        }
        sort_by(&mut pulls, |a, b| a.due.cmp(&b.due));
        pulls
    }

    /// One of its conditions.
    pub fn condition(&self, kind: ConditionKind) -> Option<&StudyCondition> {
        self.conditions.iter().find(|condition| condition.kind == kind)
    }
}

/// A condition as the table has it.
pub fn usual_condition(kind: ConditionKind) -> Option<(StudyCondition, &'static ConditionRow)> {
    let row = stability_conditions().iter().find(|row| row.id == kind.key())?;
    Some((StudyCondition { kind, celsius: row.celsius, points: read_points(row.points)? }, row))
}

/// The plan that a study begins with: the usual conditions, the pH as far around the target as common practice lets it drift,
/// and the usual loss of weight.
pub fn usual_plan(months: Months, target: Option<Ph>) -> StudyPlan {
    let usual = ConditionKind::ALL.iter().filter_map(|kind| usual_condition(*kind)).filter(|(_, row)| row.usual);
    let figures = stability_figures();
    let around = |ph: Ph| {
        let care = figures?.ph_care.units();
        let within = |units: i64| Ph::from_units(units.clamp(Ph::MIN, Ph::MAX));
        Some((within(ph.units() - care), within(ph.units() + care)))
    };
    StudyPlan {
        months,
        conditions: usual.map(|(condition, _)| condition).collect(),
        limits: StudyLimits {
            ph: target.and_then(around),
            weight_loss: figures.map(|figures| figures.weight_loss),
            ..StudyLimits::default()
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_condition_has_a_row_that_can_be_read() {
        for kind in ConditionKind::ALL {
            let (condition, _) = usual_condition(*kind).unwrap();
            assert_eq!(read_points(&points_text(&condition.points)), Some(condition.points));
        }
        let kinds: Vec<_> = usual_plan(Months::from_units(3), None).conditions.iter().map(|c| c.kind).collect();
        use ConditionKind::*;
        assert_eq!(kinds, [Room, Warm, Cold, FreezeThaw, Spin, Light]);
    }

    #[test]
    fn points_are_read_as_they_are_typed() {
        assert_eq!(read_points("0D, 7d 2w;3m").map(|points| points_text(&points)).as_deref(), Some("0d 7d 2w 3m"));
        for bad in ["", " ", "7", "d", "7x", "-1d", "+1d", "1201d", "7d 2\u{e9}", "99999999d"] {
            assert_eq!(read_points(bad), None, "{bad:?}");
        }
        assert_eq!(read_points(&"1d ".repeat(MOST_POINTS + 1)), None);
    }

    #[test]
    fn plan_ends_where_the_study_does_and_has_one_pull_a_day() {
        let mut plan = usual_plan(Months::from_units(3), Some(Ph::from_units(520)));
        assert_eq!(plan.limits.ph, Some((Ph::from_units(470), Ph::from_units(570))));
        let began = Day::read("2026-11-30").unwrap();
        let room = |plan: &StudyPlan| -> Vec<String> {
            let pulls = plan.pulls(began).into_iter().filter(|pull| pull.condition == ConditionKind::Room);
            pulls.map(|pull| pull.due.text()).collect()
        };
        assert_eq!(room(&plan), ["2026-11-30", "2026-12-01", "2026-12-07", "2026-12-30", "2027-01-30", "2027-02-28"]);
        plan.conditions[0].points = read_points("14d 2w 1m").unwrap();
        assert_eq!(room(&plan), ["2026-12-14", "2026-12-30"]);
        assert!(plan.pulls(began).is_sorted_by_key(|pull| pull.due));
    }
}
