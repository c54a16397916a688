//! The kinds of simulated apprentices. None of them is the model that is tried on
//! them; on the last three no constant was fitted.

mod actr;
mod bktf;
mod crowd;
mod power;
mod two_stores;

use crate::apprentice::Generator;

/// All kinds, in the order of the table. Add yours here.
pub const ALL: [&dyn Generator; 5] = [
    &actr::ActivationTraces,
    &bktf::KnownOrNot,
    &power::PowerLaw,
    &two_stores::TwoStores,
    &crowd::Crowding,
];
