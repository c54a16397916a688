//! Papers, keys, strips and slips as PDF, by a typesetting library with its fonts in the
//! program. The bytes depend on what is handed over and on nothing else: no clock, no
//! file, no font of the machine.
//!
//! What is to be printed comes as plain values and reaches the typesetter as data. No
//! title, name or story is ever read as markup; the only text that the typesetter reads
//! as its own language is a formula that the engine's printer made, whose texts are all
//! in quotes.
//!
//! Every file is tagged for accessibility (PDF/UA-1): headings, words for each figure,
//! formula and blank.
//!
//! The files in the order of what they need: `fonts`, `typesetter`; `text`; `head`,
//! `item`, `paper`; `formula`, `key`; `strip`; `slip`.

mod fonts;
mod formula;
mod head;
mod item;
mod key;
mod paper;
mod slip;
mod strip;
mod text;
mod typesetter;

pub use fonts::unknown_sign;
pub use head::{Format, Head};
pub use item::{Answer, Asked, Card, Item, Points};
pub use key::{Key, KeyItem, KeyStep, key};
pub use paper::{MOST_TOGETHER, Paper, PaperPages, paper, papers};
pub use slip::{Slip, SlipItem, Slips, slips};
pub use strip::{Strip, StripItem, StripRow, Strips, strips};
pub use typesetter::{PdfFault, forget, warm_up};
