//! One problem as an item: what is declared, what is shown, how it is marked.

use pumpwright_engine::figures::{Frame, Scene, View, list, scene, svg};
use pumpwright_engine::problems::Problem;

use super::File;
use super::body;
use super::lines::{self, Lines};
use super::rules::{default_number, figure, handed_in, name, set, sum, when};
use super::xml::{Element, element};

/// The namespace of items and tests.
pub const SPACE: &str = "http://www.imsglobal.org/xsd/imsqtiasi_v3p0";

/// The frame of a figure.
const FRAME: Frame = Frame {
    columns: 76,
    rows: 22,
};

/// An item.
pub struct Item {
    /// Its identifier: its place and its family. The seed of a problem is not in it.
    pub id: String,
    /// The element.
    pub element: Element,
    /// Its figure.
    pub figure: Option<File>,
}

impl Item {
    /// Where it lies.
    pub fn path(&self) -> String {
        format!("items/{}.xml", self.id)
    }
}

/// A problem as the item at this place.
pub fn item(place: usize, problem: &Problem) -> Item {
    let id = format!("q{place:03}-{}", problem.code.family);
    let drawn = scene(problem, &View::before(problem), FRAME);
    let path = format!("figures/{id}.svg");
    let shown = drawn.as_ref().map(|scene| body::Drawn {
        source: format!("../{path}"),
        said: said(scene),
    });
    let lines = lines::lines(problem);
    let marks = f64::from(problem.marks());
    let element = element("qti-assessment-item")
        .with("xmlns", SPACE)
        .with("identifier", id.as_str())
        .with("title", problem.family.title.as_str())
        .with("adaptive", "false")
        .with("time-dependent", "false")
        .with("xml:lang", "en-US")
        .with("tool-name", "pumpwright")
        .all(lines.responses.iter().cloned())
        .put(points("SCORE", 0.0).with("normal-maximum", figure(marks)))
        .put(points("MAXSCORE", marks))
        .all(lines.outcomes.iter().cloned())
        .put(named("SOLUTION"))
        .put(body::body(problem, &lines, shown.as_ref()))
        .put(processing(&lines));
    let figure = drawn.map(|scene| File {
        path,
        text: svg(&scene),
    });
    Item {
        id,
        element,
        figure,
    }
}

/// What a figure shows, in words; the caution stands in the item already.
fn said(scene: &Scene) -> String {
    let lines = list(scene).into_iter();
    let lines = lines.filter(|line| !line.starts_with("caution: "));
    lines.collect::<Vec<_>>().join(". ")
}

/// An outcome that is a figure.
pub fn points(id: &str, value: f64) -> Element {
    element("qti-outcome-declaration")
        .with("identifier", id)
        .with("cardinality", "single")
        .with("base-type", "float")
        .put(default_number(value))
}

/// An outcome that is the name of what is shown.
pub fn named(id: &str) -> Element {
    element("qti-outcome-declaration")
        .with("identifier", id)
        .with("cardinality", "single")
        .with("base-type", "identifier")
}

/// The rules of the lines, their sum, and the solution once the item is handed in.
fn processing(lines: &Lines) -> Element {
    let solved = set("SOLUTION", name("solution"));
    element("qti-response-processing")
        .all(lines.rules.iter().cloned())
        .put(set("SCORE", sum(lines.scores.iter().map(String::as_str))))
        .put(when(handed_in(), [solved]))
}
