//! A scene as a page of SVG: black on white, no font of its own, no script, with a
//! heading and a description for whoever cannot see it.

use std::fmt::Write as _;

use super::list::list;
use super::scene::{Fill, Ink, Mark, Point, Scene, Shape, Tone};
use super::sketch::wrap;

/// A column and a row of text, in the page's units, and the size of the letters.
const COLUMN: f64 = 6.0;
const ROW: f64 = 13.0;
const LETTERS: f64 = 10.0;

/// White around the frame.
const MARGIN: f64 = 6.0;

/// Where letters stand in their row.
const BASE: f64 = 0.76;

/// The scene as a page of SVG of its own.
pub fn svg(scene: &Scene) -> String {
    page(scene, "xmlns=\"http://www.w3.org/2000/svg\" ", "")
}

/// The scene as SVG inside an HTML page. `name` stands before its ids, so that several
/// stand on one page; letters, digits and `-`.
pub fn svg_inside(scene: &Scene, name: &str) -> String {
    page(scene, "", &format!("{name}-"))
}

fn page(scene: &Scene, space: &str, before: &str) -> String {
    let head = caution(scene);
    let rows = scene.frame.rows + head.len() + scene.left_out.len();
    let (wide, high) = (
        (scene.frame.columns as f64).mul_add(COLUMN, 2.0 * MARGIN),
        (rows as f64).mul_add(ROW, 2.0 * MARGIN),
    );
    let mut page = String::new();
    let said = list(scene).join(". ");
    let _ = write!(
        page,
        "<svg {space}width=\"{wide}\" height=\"{high}\" \
         viewBox=\"0 0 {wide} {high}\" role=\"img\" aria-labelledby=\"{before}title {before}desc\">\n\
         <title id=\"{before}title\">{}</title>\n<desc id=\"{before}desc\">{}</desc>\n{}\
         <rect width=\"{wide}\" height=\"{high}\" fill=\"#fff\"/>\n",
        escaped(&scene.title),
        escaped(&said),
        PATTERNS.replace("id=\"", &format!("id=\"{before}")),
    );
    for (row, line) in head.iter().enumerate() {
        page.push_str(&text((0, row as f64), line, Tone::Strong));
    }
    let down = number(head.len() as f64 * ROW);
    let _ = writeln!(page, "<g transform=\"translate(0 {down})\">");
    for shape in &scene.shapes {
        page.push_str(&drawn(shape, before));
    }
    for label in &scene.labels {
        let row = label.row as f64 + label.lower;
        page.push_str(&text((label.column, row), &label.text, label.tone));
    }
    for (index, line) in scene.left_out.iter().enumerate() {
        let row = scene.frame.rows + index;
        page.push_str(&text((0, row as f64), line, Tone::Plain));
    }
    page.push_str("</g>\n</svg>\n");
    page
}

/// The caution over the picture: a figure goes nowhere without it.
fn caution(scene: &Scene) -> Vec<String> {
    let text = scene
        .caution
        .as_ref()
        .map(|text| format!("CAUTION: {text}"));
    text.map_or_else(Vec::new, |text| wrap(&text, scene.frame.columns))
}

/// The fills, told apart by their pattern alone.
const PATTERNS: &str = "<defs>\n\
    <pattern id=\"water\" width=\"8\" height=\"6\" patternUnits=\"userSpaceOnUse\">\
    <path d=\"M0 3h5\" stroke=\"#777\" stroke-width=\"0.6\"/></pattern>\n\
    <pattern id=\"ground\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\">\
    <path d=\"M0 6L6 0\" stroke=\"#999\" stroke-width=\"0.6\"/></pattern>\n\
    <pattern id=\"solid\" width=\"4\" height=\"4\" patternUnits=\"userSpaceOnUse\">\
    <path d=\"M0 4L4 0M0 0L4 4\" stroke=\"#555\" stroke-width=\"0.6\"/></pattern>\n\
    </defs>\n";

fn place((x, y): Point) -> (f64, f64) {
    (x.mul_add(COLUMN, MARGIN), y.mul_add(ROW, MARGIN))
}

/// A number of the page to a hundredth, the same on every machine.
fn number(value: f64) -> String {
    let text = format!("{value:.2}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0" } else { short }.to_owned()
}

fn drawn(shape: &Shape, before: &str) -> String {
    match shape {
        Shape::Path { points, ink } => path(points, *ink),
        Shape::Area { from, to, fill } => {
            let name = match fill {
                Fill::Water => "water",
                Fill::Ground => "ground",
                Fill::Solid => "solid",
            };
            let ((x, y), (right, low)) = (place(*from), place(*to));
            format!(
                "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"url(#{before}{name})\"/>\n",
                number(x),
                number(y),
                number(right - x),
                number(low - y)
            )
        }
        Shape::Mark { at, mark } => marked(place(*at), *mark),
    }
}

fn path(points: &[Point], ink: Ink) -> String {
    let (stroke, width, dashes) = match ink {
        Ink::Line => ("#000", "1", ""),
        Ink::Heavy => ("#000", "2", ""),
        Ink::Dashed => ("#000", "1", " stroke-dasharray=\"4 3\""),
        Ink::Guide => ("#666", "0.6", " stroke-dasharray=\"1 2\""),
    };
    let corners: Vec<String> = points
        .iter()
        .map(|point| {
            let (x, y) = place(*point);
            format!("{},{}", number(x), number(y))
        })
        .collect();
    format!(
        "<polyline points=\"{}\" fill=\"none\" stroke=\"{stroke}\" stroke-width=\"{width}\" \
         stroke-linejoin=\"round\"{dashes}/>\n",
        corners.join(" ")
    )
}

fn marked((x, y): (f64, f64), mark: Mark) -> String {
    let corners = |points: [(f64, f64); 3], fill: &str| {
        let points = points.map(|(dx, dy)| format!("{},{}", number(x + dx), number(y + dy)));
        format!(
            "<polygon points=\"{}\" fill=\"{fill}\" stroke=\"#000\" stroke-width=\"0.8\"/>\n",
            points.join(" ")
        )
    };
    match mark {
        Mark::Dot => format!(
            "<circle cx=\"{}\" cy=\"{}\" r=\"3\" fill=\"#000\"/>\n",
            number(x),
            number(y)
        ),
        Mark::Cross => format!(
            "<path d=\"M{0} {1}l6 6m0 -6l-6 6\" stroke=\"#000\" stroke-width=\"1.2\"/>\n",
            number(x - 3.0),
            number(y - 3.0)
        ),
        Mark::Up => corners([(-3.0, 3.0), (3.0, 3.0), (0.0, -3.0)], "#000"),
        Mark::Down => corners([(-3.0, -3.0), (3.0, -3.0), (0.0, 3.0)], "#000"),
        Mark::Left => corners([(3.0, -3.0), (3.0, 3.0), (-3.0, 0.0)], "#000"),
        Mark::Right => corners([(-3.0, -3.0), (-3.0, 3.0), (3.0, 0.0)], "#000"),
        Mark::Level => corners([(-4.0, -6.0), (4.0, -6.0), (0.0, 0.0)], "#fff"),
    }
}

/// A text on white, squeezed into its cells whatever the font.
fn text((column, row): (usize, f64), text: &str, tone: Tone) -> String {
    let (x, y) = place((column as f64, row));
    let wide = super::scene::wide(text) as f64 * COLUMN;
    let (weight, fill) = match tone {
        Tone::Title | Tone::Strong => ("bold", "#000"),
        Tone::Plain => ("normal", "#000"),
        Tone::Faint => ("normal", "#444"),
    };
    format!(
        "<rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\" fill=\"#fff\"/>\n\
         <text x=\"{x}\" y=\"{base}\" font-family=\"monospace\" font-size=\"{LETTERS}\" \
         font-weight=\"{weight}\" fill=\"{fill}\" textLength=\"{w}\" \
         lengthAdjust=\"spacingAndGlyphs\" xml:space=\"preserve\">{text}</text>\n",
        x = number(x),
        y = number(y + 0.5),
        w = number(wide),
        h = number(ROW - 1.0),
        base = number(BASE.mul_add(ROW, y)),
        text = escaped(text),
    )
}

/// A text that a page can hold: nothing in it is read as a part of the page.
fn escaped(text: &str) -> String {
    let mut out = String::new();
    for sign in text.chars() {
        match sign {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            // XML has no way to write the other controls.
            sign if sign.is_control() => out.push(' '),
            sign => out.push(sign),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_cannot_become_parts_of_the_page() {
        assert_eq!(
            escaped("a<b> & \"c\"\u{1}"),
            "a&lt;b&gt; &amp; &quot;c&quot; "
        );
    }

    #[test]
    fn numbers_are_short() {
        assert_eq!(number(-0.001), "0");
        assert_eq!(number(12.5), "12.5");
    }
}
