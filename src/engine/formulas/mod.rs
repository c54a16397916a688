//! The little language in which lessons say their sums: parsed with positions,
//! checked for dimension, evaluated, printed. Nothing here knows a lesson.

mod value;

pub use value::{Column, Name, Row, Rows, Scope, Table, Type, Value};
