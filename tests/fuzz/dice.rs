//! The one source of chance: a seed gives the same runs on every machine.

/// SplitMix64. Source: Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014; constants from
/// memory.
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ mixed >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ mixed >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ mixed >> 31
    }

    /// A number below `end`; 0 where there is none.
    pub(crate) fn below(&mut self, end: usize) -> usize {
        if end == 0 { 0 } else { (self.next() % end as u64) as usize }
    }

    pub(crate) fn pick<'a, T>(&mut self, from: &'a [T]) -> Option<&'a T> {
        from.get(self.below(from.len()))
    }

    /// A stretch of a text, by bytes.
    pub(crate) fn stretch(&mut self, length: usize, most: usize) -> std::ops::Range<usize> {
        let start = self.below(length + 1);
        let end = (start + self.below(most + 1)).min(length);
        start..end
    }
}
