//! Papers, keys, strips and slips as PDF. With `PUMPWRIGHT_PAPERS=FOLDER` the files are
//! kept, to be looked at and held against other programs.

use std::path::PathBuf;

use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Problem, Settings};
use pumpwright_engine::quantities::System;
use pumpwright_press::pdf::{
    Format, Head, Item, Key, KeyItem, Paper, PdfFault, Slip, SlipItem, Slips, Strip, StripItem,
    StripRow, Strips, key, paper, papers, slips, strips,
};

use crate::common::{draw_one, faces, shipped};

/// A problem of each kind, those with drawings and long cautions among them.
const KINDS: [&str; 6] = [
    "cable-drop",
    "standing-water",
    "pump-curve-read",
    "insulation-order",
    "parts-match",
    "fault-choice",
];

fn keep(name: &str, bytes: &[u8]) {
    if let Some(folder) = std::env::var_os("PUMPWRIGHT_PAPERS") {
        std::fs::write(PathBuf::from(folder).join(name), bytes).expect("written");
    }
}

fn head(name: &str, number: usize, format: Format) -> Head {
    Head {
        title: "Week 6: cable, tank, relief".to_owned(),
        day: 20_784,
        name: name.to_owned(),
        number: format!("{number:03}"),
        format,
        tables: Some(true),
    }
}

fn problem(library: &Library, family: &str, system: System, draw: u32) -> Problem {
    let level = faces(library).into_iter().find(|(id, ..)| id == family);
    let (_, level, _) = level.unwrap_or_else(|| panic!("no family {family}"));
    let face = (family.to_owned(), level, system);
    draw_one(library, &face, draw, &Settings::default()).expect("drawn")
}

#[test]
fn one_paper() {
    let library = shipped();
    let items: Vec<Item> = library
        .families()
        .enumerate()
        .filter_map(|(at, family)| {
            let problem = problem(&library, &family.id, System::Us, 3);
            Some(Item::of(&problem, at + 1, problem.marks()))
        })
        .collect();
    let bytes = paper(&Paper {
        head: head("D'Arcy-Muñoz, Łucja", 19, Format::A4),
        items,
    });
    keep("all.pdf", &bytes.expect("set"));
}

#[test]
fn one_key() {
    let library = shipped();
    let items: Vec<KeyItem> = library
        .families()
        .map(|family| {
            let problem = problem(&library, &family.id, System::Us, 3);
            KeyItem::of(&problem, "Paper 019, problem 3".to_owned())
        })
        .collect();
    let bytes = key(&Key {
        head: head("", 19, Format::A4),
        items,
    });
    keep("key.pdf", &bytes.expect("set"));
}
