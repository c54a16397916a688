//! Figures: a scene from a problem's own numbers, and its readers: cells, vector and
//! a plain list. A scene is computed here and nowhere else; a surface only draws it.

mod cells;
mod kinds;
mod list;
mod place;
mod read_off;
mod readings;
mod ruler;
mod scene;
mod sketch;
mod trade;
mod vector;
mod view;

pub use cells::{Grid, Paint, Signs, cells};
pub use list::list;
pub use scene::{Fill, Frame, Ink, Label, Mark, Point, Scene, Shape, Tone, Value};
pub use vector::{svg, svg_inside};
pub use view::{Seen, View};

use crate::problems::Problem;
use readings::Readings;
use sketch::Sketch;

/// Whether a problem has a figure: one that its family binds, or one to be read off.
pub fn has(problem: &Problem) -> bool {
    problem.variant.scene.is_some() || problem.figure.is_some()
}

/// The figure of a problem under a view, in a frame of so many columns and rows at
/// most, but no smaller than the least; none where its family binds none.
pub fn scene(problem: &Problem, view: &View, frame: Frame) -> Option<Scene> {
    let frame = frame.at_least();
    let sketch = match (&problem.variant.scene, &problem.figure) {
        (Some(plan), _) => {
            let readings = Readings::of(problem, view);
            let mut sketch = Sketch::new(plan.kind.title(), frame);
            sketch.values_of(&readings);
            kinds::draw(plan.kind, &readings, &mut sketch);
            sketch
        }
        (None, Some(figure)) => {
            let mut sketch = Sketch::new(&figure.title, frame);
            read_off::draw(problem, figure, view, &mut sketch);
            sketch
        }
        (None, None) => return None,
    };
    Some(Scene {
        caution: problem.caution(),
        ..sketch.done()
    })
}
