//! Where the release splits the program in two. `cargo task build` compiles with `--cfg split` and hands the program to
//! the splitter, which moves all that only [`enter`] leads to into a file of its own. Any other build is one piece, with
//! the same two functions.

/// The second part did not come.
#[derive(Debug)]
pub(super) struct Missing;

#[cfg(split)]
pub(super) use split::{enter, fetch};
#[cfg(not(split))]
pub(super) use whole::{enter, fetch};

// The splitter finds its place by two functions that the linker knows by name: that takes an `unsafe` in its macro.
#[cfg(split)]
#[allow(unsafe_code)]
mod split {
    use super::Missing;
    use crate::ui::desk::Desk;
    use crate::ui::dom::View;
    use crate::ui::lazy::{Request, run};
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
}

#[cfg(not(split))]
mod whole {
    use super::Missing;
    use crate::ui::desk::Desk;
    use crate::ui::dom::View;
    use crate::ui::lazy::{Request, run};

    pub(in crate::ui::lazy) async fn enter(desk: Desk, request: Request) -> Result<View, Missing> {
        Ok(run(desk, request))
    }

    pub(in crate::ui::lazy) async fn fetch() -> Result<(), Missing> {
        Ok(())
    }
}
