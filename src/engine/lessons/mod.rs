//! Lesson files: TOML text in, checked lessons out, every fault with its place.
//! No problem is drawn here, and no sum is done but what a formula does.

mod columns;
mod compile;
mod exam;
mod example;
mod fault;
mod faulty;
pub(crate) mod fields;
mod figure;
mod glossary;
mod house;
mod jurisdiction;
mod kind;
mod lesson;
mod library;
pub(crate) mod node;
pub(crate) mod places;
mod printed;
mod revision;
mod rule;
mod scene;
mod source;
mod table;
mod template;
mod variant;

use pumpwright_calc::registry::Basis;

pub use columns::{PrintedColumn, printed_columns};
pub(crate) use exam::{A_FAMILY, share};
pub use exam::{Area, Exam, Safety};
pub use example::Example;
pub use fault::{Fault, SourceFile, nearest};
pub use figure::{FigureColumn, FigurePlan, MarkPlan, SeriesPlan};
pub use glossary::{Glossary, Word};
pub use jurisdiction::{Jurisdiction, SHEET};
pub use kind::Kind;
pub use lesson::{Lesson, Part, paragraphs};
pub use library::{LessonHead, Library};
pub use printed::{Printed, show};
pub use rule::{Choice, Rule};
pub use scene::{Binding, Bound, SceneKind, ScenePlan, ScenePort, Takes};
pub use source::Source;
pub(crate) use source::is_day;
pub use table::{Hidden, TableNote, Tables};
pub use template::Template;
pub use variant::{
    Body, CardPlan, Condition, Draw, Family, GivenPlan, MatchPlan, MistakePlan, Pool, Requirement,
    StepPlan, Variant, Way, Within, Write,
};

use crate::quantities::System;

/// The format of lesson files and plans that is read here.
pub const FORMAT: u32 = 1;

/// The constants that go with a system of units.
pub const fn basis(system: System) -> Basis {
    match system {
        System::Us => Basis::UsTrade,
        System::Si => Basis::SiTrade,
    }
}

/// Every file says in which format it is written.
pub(crate) fn format_of(reader: &mut fields::Reader<'_>, fields: &mut fields::Fields<'_>) {
    let Some(format) = fields.whole(reader, "format") else {
        if !fields.has("format") {
            fields.missing(reader, "format");
        }
        return;
    };
    if format != FORMAT {
        let message =
            format!("this file is written in format {format}; this program reads format {FORMAT}");
        let remedy = "use a newer program, or write format = 1";
        reader.refuse(&fields.place_of("format"), message, remedy);
    }
}
