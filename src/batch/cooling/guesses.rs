//! Guesses at how a pot cools, each weighed by how well it goes with the readings (Bayes' rule).
//!
//! The time to a temperature follows from three unknowns: the room, the pot's excess over it at the first reading, and the
//! rate. For a rate that is held fast the model is linear in the other two, so the least squares and the spread of both
//! follow in closed form. Rates are laid out evenly in their logarithm, and laid out closer three times where the weight is.
//! Nothing iterates towards a best fit, so nothing diverges, and few readings leave a wide answer by themselves.

/// A reading: minutes since the first one, and °C.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct PotReading {
    pub(super) minutes: f64,
    pub(super) celsius: f64,
}

/// What is believed of the room's temperature before any reading: a normal distribution with another spread on either side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct RoomBelief {
    /// Most likely, °C.
    pub(super) usual: f64,
    /// Standard deviation below it, °C.
    pub(super) below: f64,
    /// Standard deviation above it, °C.
    pub(super) above: f64,
    /// How much is given to this belief among several.
    pub(super) weight: f64,
}

/// What the guesses rest on.
#[derive(Debug, Clone)]
pub(super) struct Assumed {
    /// Beliefs about the room.
    pub(super) rooms: Vec<RoomBelief>,
    /// Standard error of a reading, °C.
    pub(super) error: f64,
    /// Least and greatest rate, 1/min.
    pub(super) rates: (f64, f64),
}

/// One guess.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Guess {
    /// The place of the belief about the room that it is of.
    belief: usize,
    /// The room, °C.
    room: f64,
    /// The pot above it at the first reading, °C.
    excess: f64,
    /// 1/min.
    rate: f64,
    /// Natural logarithm of its weight.
    log_weight: f64,
    /// Sum of the squares of what the readings differ from the best guess with this room and rate, °C².
    misfit: f64,
}

impl Guess {
    /// Its weight beside the likeliest one.
    fn weight(&self, best: f64) -> f64 {
        (self.log_weight - best).exp()
    }

    /// The temperature after so many minutes.
    pub(super) fn celsius(&self, minutes: f64) -> f64 {
        self.room + self.excess * (-self.rate * minutes).exp()
    }

    /// The minutes until a temperature; infinite where the room is not below it.
    pub(super) fn minutes_to(&self, celsius: f64) -> f64 {
        let left = celsius - self.room;
        if left > 0.0 { (self.excess / left).ln() / self.rate } else { f64::INFINITY }
    }
}

/// Guesses with their weights.
#[derive(Debug, Clone)]
pub(super) struct Guesses {
    all: Vec<Guess>,
    best: f64,
}

/// How many rates are tried, how often they are laid out, and below which weight (e^-12) none is worth another look.
const RATES: i32 = 40;
const LAYOUTS: usize = 4;
const FORGOTTEN: f64 = 12.0;

/// The room is tried at so many places on either side of its likeliest value for a rate, so many standard deviations apart.
const ROOMS: i32 = 5;
const ROOM_STRIDE: f64 = 0.8;

/// The excess at its mean and at ±√3 standard deviations, with their weights: exact for what is a cubic of it.
const EXCESSES: [(f64, f64); 3] =
    [(-1.732_050_807_568_877_2, 1.0 / 6.0), (0.0, 2.0 / 3.0), (1.732_050_807_568_877_2, 1.0 / 6.0)];

impl Guesses {
    /// All guesses worth having; `None` where none goes with a pot that cools.
    pub(super) fn of(readings: &[PotReading], assumed: &Assumed) -> Option<Self> {
        let (mut low, mut high) = (assumed.rates.0.ln(), assumed.rates.1.ln());
        let mut found = Self { all: Vec::new(), best: 0.0 };
        for _ in 0..LAYOUTS {
            let stride = (high - low) / f64::from(RATES);
            let rates = (0..=RATES).map(|n| low + stride * f64::from(n));
            let all: Vec<Guess> = rates.flat_map(|rate| guesses_at(&Sums::of(readings, rate.exp()), assumed)).collect();
            let best = all.iter().map(|guess| guess.log_weight).reduce(f64::max)?;
            let kept = all.iter().filter(|guess| guess.log_weight > best - FORGOTTEN).map(|guess| guess.rate.ln());
            let (least, greatest) = kept.fold((high, low), |(least, most), rate| (least.min(rate), most.max(rate)));
            (low, high) = ((least - stride).max(low), (greatest + stride).min(high));
            found = Self { all, best };
        }
        found.all.retain(|guess| guess.log_weight > found.best - FORGOTTEN);
        Some(found)
    }

    /// The misfit of the likeliest guess, °C².
    pub(super) fn misfit(&self) -> Option<f64> {
        self.all.iter().find(|guess| guess.log_weight >= self.best).map(|guess| guess.misfit)
    }

    /// Which part of the weight the guesses have that are of the belief at a place.
    pub(super) fn share_of(&self, belief: usize) -> f64 {
        let sum = |all: &mut dyn Iterator<Item = &Guess>| all.map(|guess| guess.weight(self.best)).sum::<f64>();
        sum(&mut self.all.iter().filter(|guess| guess.belief == belief)) / sum(&mut self.all.iter())
    }

    /// The values of `of` below which these parts of the weight lie; `parts` in rising order.
    pub(super) fn quantiles<const N: usize>(&self, of: impl Fn(&Guess) -> f64, parts: [f64; N]) -> [f64; N] {
        let mut weighed: Vec<(f64, f64)> = self.all.iter().map(|guess| (of(guess), guess.weight(self.best))).collect();
        crate::quantity::sort_by(&mut weighed, |a, b| a.0.total_cmp(&b.0));
        let whole: f64 = weighed.iter().map(|(_, weight)| weight).sum();
        parts.map(|part| {
            let mut below = 0.0;
            let reached = weighed.iter().find(|(_, weight)| {
                below += weight;
                below >= part * whole
            });
            reached.or(weighed.last()).map_or(f64::INFINITY, |(value, _)| *value)
        })
    }
}

/// What least squares need of the readings at one rate. e is e^(−rate × minutes), y the temperature.
struct Sums {
    rate: f64,
    n: f64,
    e: f64,
    ee: f64,
    y: f64,
    ye: f64,
    yy: f64,
}

impl Sums {
    fn of(readings: &[PotReading], rate: f64) -> Self {
        let mut sums = Self { rate, n: 0.0, e: 0.0, ee: 0.0, y: 0.0, ye: 0.0, yy: 0.0 };
        for PotReading { minutes, celsius } in readings {
            let e = (-rate * minutes).exp();
            sums.n += 1.0;
            sums.e += e;
            sums.ee += e * e;
            sums.y += celsius;
            sums.ye += celsius * e;
            sums.yy += celsius * celsius;
        }
        sums
    }

    /// The best excess for a room, and what is left of the readings then.
    fn fit(&self, room: f64) -> (f64, f64) {
        let excess = (self.ye - room * self.e) / self.ee;
        let left = self.yy - 2.0 * room * self.y + room * room * self.n - excess * excess * self.ee;
        (excess, left.max(0.0))
    }
}

/// The guesses at one rate.
fn guesses_at(sums: &Sums, assumed: &Assumed) -> Vec<Guess> {
    let error = assumed.error;
    // Of the room alone, with the best excess for each: precision of the readings, and precision times mean.
    let precision = (sums.n - sums.e * sums.e / sums.ee).max(0.0) / error.powi(2);
    let pull = (sums.y - sums.ye * sums.e / sums.ee) / error.powi(2);
    let mut found = Vec::new();
    for (place, belief) in assumed.rooms.iter().enumerate() {
        let own = belief.below.max(belief.above).powi(-2);
        let (mean, spread) = ((pull + belief.usual * own) / (precision + own), (precision + own).sqrt().recip());
        for n in -ROOMS..=ROOMS {
            let room = mean + spread * ROOM_STRIDE * f64::from(n);
            let (excess, misfit) = sums.fit(room);
            let likely = -misfit / (2.0 * error.powi(2)) - sums.ee.ln() / 2.0;
            let log_weight = likely + belief.log_density(room) + spread.ln();
            found.extend(EXCESSES.iter().filter_map(|(off, part)| {
                let excess = excess + off * error / sums.ee.sqrt();
                let log_weight = log_weight + part.ln();
                (excess > 0.0).then_some(Guess { belief: place, room, excess, rate: sums.rate, log_weight, misfit })
            }));
        }
    }
    found
}

impl RoomBelief {
    /// Logarithm of how likely it holds a room, up to what is the same for all.
    fn log_density(&self, room: f64) -> f64 {
        let off = room - self.usual;
        let spread = if off < 0.0 { self.below } else { self.above };
        self.weight.ln() - (self.below + self.above).ln() - (off / spread).powi(2) / 2.0
    }
}
