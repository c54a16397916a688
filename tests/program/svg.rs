//! A terminal's screen as a vector picture, cell by cell. No terminal and no file here.

use std::fmt::Write as _;

use vt100::{Cell, Color, Screen};

/// Width and height of a cell, where the letters stand in it, and the edge around all.
const CELL: (f64, f64) = (8.4, 16.3);
const BASELINE: f64 = 13.0;
const EDGE: f64 = 12.0;

/// Behind the letters, and the letters where no color is asked for.
const PAPER: &str = "#15181b";
const INK: &str = "#e8e8e6";

/// The terminal's own sixteen accents, as this picture shows them; a terminal has its own.
const ACCENTS: [&str; 16] = [
    "#3b4046", "#ff7b72", "#7ee787", "#f2cc60", "#79c0ff", "#d2a8ff", "#76e3ea", "#c9d1d9",
    "#8b949e", "#ffa198", "#a5f3b0", "#f8e3a1", "#a5d6ff", "#e2c5ff", "#b3f0ff", "#ffffff",
];

/// How letters look that stand together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Look {
    ink: &'static str,
    behind: Option<&'static str>,
    bold: bool,
}

impl Look {
    fn of(cell: &Cell) -> Self {
        let (ink, behind) = (color(cell.fgcolor()), color(cell.bgcolor()));
        let (ink, behind) = if cell.inverse() {
            (behind.or(Some(PAPER)), ink.or(Some(INK)))
        } else {
            (ink, behind)
        };
        Self {
            ink: ink.unwrap_or(if cell.dim() { ACCENTS[8] } else { INK }),
            behind,
            bold: cell.bold(),
        }
    }
}

/// None where the terminal's own is asked for.
fn color(color: Color) -> Option<&'static str> {
    match color {
        Color::Default => None,
        Color::Idx(number) => Some(ACCENTS[usize::from(number) % ACCENTS.len()]),
        Color::Rgb(..) => panic!("the screens set the terminal's own accents only"),
    }
}

/// The picture, with words for who cannot see it.
pub fn picture(screen: &Screen, title: &str) -> String {
    let (rows, columns) = size(screen);
    let width = f64::from(columns) * CELL.0 + 2.0 * EDGE;
    let height = f64::from(rows) * CELL.1 + 2.0 * EDGE;
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width:.1} {height:.1}\" width=\"{width:.0}\" height=\"{height:.0}\" role=\"img\">\n<title>{}</title>\n<rect width=\"100%\" height=\"100%\" rx=\"8\" fill=\"{PAPER}\"/>\n<g font-family=\"'DejaVu Sans Mono','Liberation Mono',Menlo,Consolas,monospace\" font-size=\"14\">\n",
        escaped(title)
    );
    for row in 0..rows {
        for (at, look, text) in runs(screen, row) {
            run(&mut svg, (row, at), look, &text);
        }
    }
    svg.push_str("</g>\n</svg>\n");
    svg
}

/// Rows and columns.
fn size(screen: &Screen) -> (u16, u16) {
    let (rows, columns) = screen.size();
    (rows.get(), columns.get())
}

/// The letters of a row that look alike, with the column where they begin.
fn runs(screen: &Screen, row: u16) -> Vec<(u16, Look, String)> {
    let mut found: Vec<(u16, Look, String)> = Vec::new();
    for column in 0..size(screen).1 {
        let Some(cell) = screen.cell(row, column) else {
            continue;
        };
        let sign = if cell.has_contents() {
            cell.contents()
        } else {
            " "
        };
        let look = Look::of(cell);
        match found.last_mut() {
            Some((_, last, text)) if *last == look => text.push_str(sign),
            _ => found.push((column, look, sign.to_owned())),
        }
    }
    found
}

fn run(svg: &mut String, (row, column): (u16, u16), look: Look, text: &str) {
    let (left, top) = (
        EDGE + f64::from(column) * CELL.0,
        EDGE + f64::from(row) * CELL.1,
    );
    let cells = |text: &str| text.chars().count() as f64 * CELL.0;
    if let Some(behind) = look.behind {
        let width = cells(text);
        let _ = writeln!(
            svg,
            "<rect x=\"{left:.1}\" y=\"{top:.1}\" width=\"{width:.1}\" height=\"{:.1}\" fill=\"{behind}\"/>",
            CELL.1
        );
    }
    let weight = if look.bold {
        " font-weight=\"bold\""
    } else {
        ""
    };
    // Who shows the picture may run spaces together, so a gap parts the letters.
    for (at, written) in words(text) {
        let _ = writeln!(
            svg,
            "<text x=\"{:.1}\" y=\"{:.1}\" textLength=\"{:.1}\" fill=\"{}\"{weight}>{}</text>",
            left + at as f64 * CELL.0,
            top + BASELINE,
            cells(written),
            look.ink,
            escaped(written)
        );
    }
}

/// What stands between gaps of two spaces or more, with the cell where it begins.
fn words(text: &str) -> Vec<(usize, &str)> {
    let (mut found, mut at) = (Vec::new(), 0);
    for part in text.split("  ") {
        let written = part.trim();
        if !written.is_empty() {
            let begins = part.chars().take_while(|sign| *sign == ' ').count();
            found.push((at + begins, written));
        }
        at += part.chars().count() + 2;
    }
    found
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

#[test]
fn a_screen_becomes_a_picture_cell_by_cell() {
    let size = |cells| std::num::NonZeroU16::new(cells).expect("cells");
    let mut parser = vt100::Parser::new(size(2), size(12), 0);
    assert_eq!(words("a b   c  "), [(0, "a b"), (6, "c")]);
    parser.process(b"a <b> \x1b[32mok\x1b[0m\r\n\x1b[1;7m&\x1b[0m");
    let svg = picture(parser.screen(), "A & B");
    for part in [
        "<title>A &amp; B</title>",
        "width=\"125\" height=\"57\"",
        "<text x=\"12.0\" y=\"25.0\" textLength=\"42.0\" fill=\"#e8e8e6\">a &lt;b&gt;</text>",
        "<text x=\"62.4\" y=\"25.0\" textLength=\"16.8\" fill=\"#7ee787\">ok</text>",
        "<rect x=\"12.0\" y=\"28.3\" width=\"8.4\" height=\"16.3\" fill=\"#e8e8e6\"/>",
        "fill=\"#15181b\" font-weight=\"bold\">&amp;</text>",
    ] {
        assert!(svg.contains(part), "{part} is not in\n{svg}");
    }
}
