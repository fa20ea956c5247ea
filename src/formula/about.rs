//! What a formula is called and what it is for.

use crate::quantity::{Ph, Typed, keyed};

/// Title, purpose and notes of a formula.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct About {
    /// Its name.
    pub title: String,
    /// Whether it stays on the skin.
    pub purpose: Use,
    /// Where it goes.
    pub area: Area,
    /// For whom.
    pub audience: Audience,
    /// What it is filled into.
    pub pack: Pack,
    /// Where it is given away or sold.
    pub region: Region,
    /// The pH to be reached.
    pub target_ph: Typed<Ph>,
    /// Anything the maker wants to keep with it.
    pub notes: String,
}

keyed! {
    /// Whether the product stays on the skin.
    #[derive(Default)]
    Use {
        /// Stays on.
        #[default]
        LeaveOn = "leave-on",
        /// Washed off.
        RinseOff = "rinse-off",
        /// Soap made here from fats and lye. It is washed off too, but nothing that is true of a lotion holds for it.
        Soap = "soap",
    }
}

keyed! {
    /// The part of the body it is made for.
    #[derive(Default)]
    Area {
        /// The body.
        #[default]
        Body = "body",
        /// The face.
        Face = "face",
        /// The hands.
        Hand = "hand",
        /// The lips.
        Lip = "lip",
        /// The nappy area.
        Nappy = "nappy",
        /// The hair.
        Hair = "hair",
    }
}

keyed! {
    /// For whom it is made.
    #[derive(Default)]
    Audience {
        /// Adults.
        #[default]
        Adult = "adult",
        /// Children of three and more.
        ChildThreePlus = "child-3-plus",
        /// Children under three.
        UnderThree = "under-3",
        /// During pregnancy.
        Pregnant = "pregnant",
    }
}

keyed! {
    /// What it is filled into.
    #[derive(Default)]
    Pack {
        /// A jar.
        #[default]
        Jar = "jar",
        /// A pump bottle.
        Pump = "pump",
        /// A tube.
        Tube = "tube",
        /// A bottle.
        Bottle = "bottle",
        /// A solid bar.
        Bar = "bar",
        /// A spray bottle.
        Spray = "spray",
    }
}

keyed! {
    /// Where a product is given away or sold, and so which rules hold.
    #[derive(Default)]
    Region {
        /// The European Union, and Northern Ireland, which follows its cosmetics law.
        #[default]
        Eu = "eu",
        /// Great Britain.
        Gb = "gb",
        /// The United States.
        Us = "us",
        /// Anywhere else.
        Elsewhere = "elsewhere",
    }
}
