//! Heads of any length: every text lies inside the body, and none over another.

use serde_json::{Value, json};
use typst::layout::{Abs, Frame, FrameItem, Point};

use super::{Pages, Template};

/// A piece of text on a page, in millimeters: left, right, top of the capitals, foot of the
/// letters below the line.
struct Piece {
    text: String,
    x: (f64, f64),
    y: (f64, f64),
}

impl Piece {
    fn told(&self) -> String {
        format!("\"{}\" at {:.1?}, {:.1?}", self.text, self.x, self.y)
    }
}

fn pieces(frame: &Frame, from: Point, found: &mut Vec<Piece>) {
    for (at, item) in frame.items() {
        let at = from + *at;
        match item {
            FrameItem::Group(group) => pieces(&group.frame, at, found),
            FrameItem::Text(text) => {
                let mm = Abs::to_mm;
                found.push(Piece {
                    text: text.text.to_string(),
                    x: (mm(at.x), mm(at.x + text.width())),
                    y: (mm(at.y - text.size * 0.66), mm(at.y + text.size * 0.24)),
                });
            }
            _ => {}
        }
    }
}

/// What is wrong on these pages.
fn wrong(template: Template, data: &Value) -> Vec<String> {
    let pages = Pages::set(template, data).expect("set");
    let (mut wrong, mut seen) = (Vec::new(), 0);
    for page in pages.document.pages() {
        let mut found = Vec::new();
        pieces(&page.frame, Point::zero(), &mut found);
        seen += found.len();
        for (index, one) in found.iter().enumerate() {
            if one.x.0 < 19.9 || one.x.1 > 196.1 || one.y.0 < 20.5 {
                wrong.push(format!("outside: {}", one.told()));
            }
            for other in &found[..index] {
                let over = |a: (f64, f64), b: (f64, f64)| a.0 + 0.1 < b.1 && b.0 + 0.1 < a.1;
                if over(one.x, other.x) && over(one.y, other.y) {
                    wrong.push(format!("{} over {}", one.told(), other.told()));
                }
            }
        }
    }
    assert!(seen > 3, "{seen} pieces of text");
    wrong
}

#[test]
fn no_head_prints_over_itself() {
    let words = "Cable, tank and relief valve, ";
    let titles = [
        "Week 6".to_owned(),
        words.repeat(3),
        words.repeat(14),
        "W".repeat(150),
    ];
    let names = [
        String::new(),
        "Łucja D'Arcy".to_owned(),
        "Aleksandra-Konstancja ".repeat(3),
        "W".repeat(100),
    ];
    let numbers = [String::new(), "019".to_owned(), "W".repeat(100)];
    for title in &titles {
        for name in &names {
            let mut papers = Vec::new();
            let mut slips = Vec::new();
            for number in &numbers {
                for day in ["", "Wednesday, November 27, 2026"] {
                    let head = json!({"title": title, "day": day, "name": name,
                        "number": number, "marks": "24 marks", "foot": ""});
                    papers.push(json!({"head": head, "items": []}));
                    slips.push(json!({"name": name, "number": number, "marks": "3",
                        "out_of": "4", "verdict": "", "items": [], "practice": [], "notes": []}));
                }
            }
            let head = papers[1]["head"].clone();
            let common = json!({"title": title, "author": "", "format": "a4", "day": null,
                "papers": papers, "slips": slips, "items": [], "head": head});
            // A key has no name over it.
            let key = name.is_empty().then_some(Template::Key);
            for template in [Template::Paper, Template::Slips].into_iter().chain(key) {
                let wrong = wrong(template, &common);
                assert!(wrong.is_empty(), "{template:?} {title} {name}: {wrong:#?}");
            }
        }
    }
}
