//! The logbook on disk: every sheet that was handed in, added once and never changed,
//! and what is half written. One SQLite file, several persons, more than one program
//! at a time.
//!
//! What stands in an entry is the engine's business (`pumpwright_engine::entries`);
//! here is how it lies and how it is kept. The files in the order of what they need:
//! `trouble`, `beside`; `connect`, `schema`; `sheet`; `store`; `writer`,
//! `clerk`; `times`, `exchange`; `union`; `examine`, `carve`, `salvage`; `place`.

mod beside;
mod carve;
mod clerk;
mod connect;
pub mod examine;
pub mod exchange;
pub mod place;
pub mod salvage;
pub mod schema;
mod sheet;
mod store;
#[cfg(test)]
mod testing;
pub mod times;
mod trouble;
pub mod union;
mod writer;

pub use clerk::{FileClerk, Opening};
pub use sheet::Sheet;
pub use store::{Added, DraftChange, Logbook};
pub use trouble::{Kind, Result, Trouble};
