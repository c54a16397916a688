//! Tables of cases for reading, printing and factors, and properties over all
//! units at once.

mod factors;
mod printing;
mod reading;
mod round_trips;
