//! Where the release splits the program in three. `cargo task build` compiles with `--cfg split` and hands the program to
//! the splitter, which moves all that only [`enter`] leads to into a file of its own, all that only [`enter_stove`] leads to
//! into another, and what both lead to into one that comes with either. Any other build is one piece, with the same functions.

/// A part did not come.
#[derive(Debug)]
pub(super) struct Missing;

#[cfg(split)]
pub(super) use split::{enter, enter_stove, fetch, fetch_stove};
#[cfg(not(split))]
pub(super) use whole::{enter, enter_stove, fetch, fetch_stove};

// The splitter finds its places by functions that the linker knows by name: that takes an `unsafe` in its macro.
#[cfg(split)]
#[allow(unsafe_code)]
mod split {
    use super::Missing;
    use crate::ui::desk::Desk;
    use crate::ui::dom::View;
    use crate::ui::lazy::{Request, run};
    use crate::ui::stove;
    use wasm_split_helpers::{SplitLoaderError, wasm_split};

    impl From<SplitLoaderError> for Missing {
        fn from(_: SplitLoaderError) -> Self {
            Self
        }
    }

    #[wasm_split(lazy, fallible, preload(fetch))]
    pub(in crate::ui::lazy) fn enter(desk: Desk, request: Request) -> Result<View, Missing> {
        Ok(run(desk, request))
    }

    #[wasm_split(stove, fallible, preload(fetch_stove))]
    pub(in crate::ui::lazy) fn enter_stove(desk: Desk) -> Result<View, Missing> {
        Ok(stove::place(desk).into())
    }
}

#[cfg(not(split))]
mod whole {
    use super::Missing;
    use crate::ui::desk::Desk;
    use crate::ui::dom::View;
    use crate::ui::lazy::{Request, run};
    use crate::ui::stove;

    pub(in crate::ui::lazy) async fn enter(desk: Desk, request: Request) -> Result<View, Missing> {
        Ok(run(desk, request))
    }

    pub(in crate::ui::lazy) async fn enter_stove(desk: Desk) -> Result<View, Missing> {
        Ok(stove::place(desk).into())
    }

    pub(in crate::ui::lazy) async fn fetch() -> Result<(), Missing> {
        Ok(())
    }

    pub(in crate::ui::lazy) async fn fetch_stove() -> Result<(), Missing> {
        Ok(())
    }
}
