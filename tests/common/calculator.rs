//! Two plain calculators, as they lie on a desk: one works each key as it comes, the
//! other knows that times comes before plus. Keys that are printed must be right on both.

use std::collections::BTreeMap;

/// Whether times comes before plus.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Calculator {
    Chain,
    Algebraic,
}

/// What the display shows after the lines, with paper beside the calculator.
pub fn pressed(kind: Calculator, lines: &[String]) -> Option<f64> {
    let mut paper: BTreeMap<String, f64> = BTreeMap::new();
    let mut shown = None;
    for line in lines {
        let (keys, note) = line
            .split_once(", note ")
            .map_or((line.as_str(), None), |(keys, note)| (keys, Some(note)));
        let value = display(kind, keys, &paper)?;
        if let Some(note) = note {
            paper.insert(note.to_owned(), value);
        }
        shown = Some(value);
    }
    shown
}

fn display(kind: Calculator, keys: &str, paper: &BTreeMap<String, f64>) -> Option<f64> {
    let mut display = 0.0;
    // Figures with the sign that waits behind each.
    let mut waiting: Vec<(f64, &str)> = Vec::new();
    for key in keys.split(' ') {
        match key {
            "√" => display = f64::sqrt(display),
            "=" => {
                display = settle(&mut waiting, display, 0);
            }
            "+" | "−" | "×" | "÷" | "y^x" => {
                let least = if kind == Calculator::Chain {
                    0
                } else {
                    rank(key)
                };
                display = settle(&mut waiting, display, least);
                waiting.push((display, key));
            }
            figure => display = paper.get(figure).copied().or_else(|| figure.parse().ok())?,
        }
    }
    waiting.is_empty().then_some(display)
}

fn rank(sign: &str) -> u8 {
    match sign {
        "+" | "−" => 1,
        "×" | "÷" => 2,
        _ => 3,
    }
}

/// Works what waits and binds at least so tightly.
fn settle(waiting: &mut Vec<(f64, &str)>, display: f64, least: u8) -> f64 {
    let mut right = display;
    while let Some((left, sign)) = waiting.pop_if(|(_, sign)| rank(sign) >= least) {
        right = match sign {
            "+" => left + right,
            "−" => left - right,
            "×" => left * right,
            "÷" => left / right,
            _ => left.powf(right),
        };
    }
    right
}
