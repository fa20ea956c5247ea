//! A table that is built piece by piece, so that a page can do other things in between. Who needs it earlier waits for the rest.

use std::sync::{Mutex, OnceLock, PoisonError};

/// What is built in pieces.
pub(crate) trait InPieces {
    /// Before its first piece.
    fn begin() -> Self;

    /// Builds the next piece; false once there was none left.
    fn build(&mut self) -> bool;
}

/// A table that is built at first use, or before that in pieces.
pub(crate) struct Gradual<T> {
    begun: Mutex<Option<T>>,
    whole: OnceLock<T>,
}

impl<T: InPieces> Gradual<T> {
    pub(crate) const fn new() -> Self {
        Self { begun: Mutex::new(None), whole: OnceLock::new() }
    }

    /// All of it.
    pub(crate) fn whole(&self) -> &T {
        self.whole.get_or_init(|| {
            let begun = self.begun.lock().unwrap_or_else(PoisonError::into_inner).take();
            let mut table = begun.unwrap_or_else(T::begin);
            while table.build() {}
            table
        })
    }

    /// Builds one more piece; false once it is whole.
    pub(crate) fn build(&self) -> bool {
        if self.whole.get().is_some() {
            return false;
        }
        let is_more = self.begun.lock().unwrap_or_else(PoisonError::into_inner).get_or_insert_with(T::begin).build();
        if !is_more {
            self.whole();
        }
        is_more
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Tens(Vec<u32>);

    impl InPieces for Tens {
        fn begin() -> Self {
            Self(Vec::new())
        }

        fn build(&mut self) -> bool {
            let is_more = self.0.len() < 3;
            if is_more {
                self.0.push(10);
            }
            is_more
        }
    }

    #[test]
    fn table_is_the_same_whether_built_at_once_or_in_pieces_or_half() {
        let (once, pieces, half) = (Gradual::<Tens>::new(), Gradual::<Tens>::new(), Gradual::<Tens>::new());
        assert_eq!(core::iter::from_fn(|| pieces.build().then_some(())).count(), 3);
        assert!(!pieces.build() && half.build());
        for table in [&once, &pieces, &half] {
            assert_eq!(table.whole().0, [10, 10, 10]);
            assert!(!table.build());
        }
    }
}
