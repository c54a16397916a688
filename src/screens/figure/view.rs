//! How a figure is shown over its sheet.

use pumpwright_engine::figures::{Frame, cells, list, scene};

use super::Figure;
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::sheet::caution;

/// The rows of a figure that lies over a sheet: what a screen of 24 has room for.
const ROWS: usize = 19;

/// The page of the figure in so many columns.
pub fn page(figure: &Figure, width: usize) -> Page {
    let frame = Frame {
        columns: width,
        rows: ROWS,
    };
    let scene = scene(&figure.problem, &figure.view, frame);
    let rows = scene
        .as_ref()
        .map(|scene| cells(scene, figure.signs).rows());
    let rows = rows.unwrap_or_default().into_iter();
    let drawn = rows.map(|row| Entry::of(Role::Drawing, vec![Cell::rest(row).kept()]));
    let below = scene.iter().flat_map(|scene| &scene.left_out);
    let below = below.map(|text| Entry::text(Role::Note, text.as_str()));
    Page {
        title: "FIGURE".into(),
        place: figure.place().into(),
        fixed: caution(&figure.problem),
        flow: drawn.chain(below).collect(),
        said: scene.as_ref().map(list).unwrap_or_default(),
        next: "Enter: put the figure away, back to where you were".into(),
        strip: vec![
            hint(Key::Enter, "put away"),
            hint(Key::UpDown, "scroll"),
            hint(Key::Ask, "ask"),
            hint(Key::Escape, "put away"),
        ],
        ..Page::default()
    }
}
