//! Hundred Parts: from a formula in percent to weighed jars.
//!
//! The domain, without a browser, a clock, randomness or input and output. Data flows one way:
//! typed text → exact [`quantity`] → [`formula`] → [`sheet`] (everything computed) → [`rules`] (findings) →
//! [`batch`] (what happens to one) → [`paper`],
//! and [`desk`] holds it all together as documents, actions, undo, stored formats and links. [`facts`] are the reference
//! tables, [`law`] the annexes of the law, [`names`] the recogniser of names, [`shelf`] what the maker has and says of it,
//! [`compliance`] what the annexes say of a product; [`words`] are the sentences, and [`report`] exports the sheet with them.
//! Each room imports only from those declared before it here.

pub mod quantity;

pub mod facts;

pub mod law;

pub mod names;

pub mod shelf;

pub mod formula;

pub mod compliance;

pub mod sheet;

pub mod rules;

pub mod batch;

pub mod paper;

pub mod desk;

pub mod words;

pub mod report;
