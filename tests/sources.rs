//! Where figures come from: every source that people read names a document that can be
//! looked up, or says in words that there is none.

#![allow(clippy::expect_used)]

mod common;

use common::{shipped, shipped_files};
use pumpwright_engine::lessons::{Library, Source};
use pumpwright_engine::quantities::System;

/// What a source that names no document says instead: that there is none, that the
/// figures are made up, or from which law of nature or of arithmetic they follow.
const NO_DOCUMENT: [&str; 18] = [
    "common practice, no source",
    "made for this program",
    "from memory",
    "training motors",
    "training tanks",
    "Ohm's law",
    "Boyle's law",
    "Kirchhoff's laws",
    "the same law",
    "hydrostatics",
    "mass balance",
    "geometry",
    "arithmetic",
    "definition",
    "a day has 24 hours",
    "standard atmosphere",
    "house rule",
    "the sheet itself",
];

/// Every source as people read it, with the place where it stands.
fn told(library: &Library) -> Vec<(String, String)> {
    let mut told = Vec::new();
    for family in library.families() {
        told.extend(
            family
                .sources
                .iter()
                .map(|text| (family.file.clone(), text.clone())),
        );
    }
    for lesson in library.lessons() {
        told.extend(
            lesson
                .sources
                .iter()
                .map(|text| (lesson.id.clone(), text.clone())),
        );
    }
    for note in library.table_notes() {
        told.push((note.name.clone(), note.source.clone()));
    }
    for exam in library.exams() {
        told.extend(
            exam.sources
                .iter()
                .map(|text| (exam.id.clone(), text.clone())),
        );
    }
    for sheet in library.jurisdictions() {
        told.push((sheet.name.clone(), sheet.source.clone()));
    }
    for rule in library.rules(System::Us) {
        told.push((rule.name.clone(), rule.source.clone()));
    }
    told
}

#[test]
fn every_source_names_a_document_or_says_that_there_is_none() {
    let library = shipped();
    let documents: Vec<String> = library.sources().map(Source::words).collect();
    let told = told(&library);
    assert!(told.len() > 200, "{} sources are told", told.len());
    let bare: Vec<_> = told
        .iter()
        .filter(|(_, text)| {
            let named = documents.iter().any(|words| text.contains(words.as_str()));
            !named && !NO_DOCUMENT.iter().any(|phrase| text.contains(phrase))
        })
        .collect();
    assert!(bare.is_empty(), "{bare:#?}");
}

#[test]
fn what_people_read_has_no_tag_and_no_open_brace() {
    for (place, text) in told(&shipped()) {
        assert!(
            !text.contains('{') && !text.contains('}'),
            "{place}: {text}"
        );
        assert!(!text.contains("(S-"), "{place}: {text}");
    }
}

/// What is quoted from memory says so wherever it is read, and what was opened has its day.
#[test]
fn memory_is_said_and_reading_has_its_day() {
    let library = shipped();
    let (opened, memory): (Vec<&Source>, Vec<&Source>) =
        library.sources().partition(|source| source.opened);
    assert!(opened.len() > 80 && memory.len() > 5);
    for source in memory {
        assert!(source.words().ends_with("from memory"), "{}", source.id);
        assert!(source.read.is_none(), "{}", source.id);
    }
    for source in opened {
        assert!(!source.words().contains("from memory"), "{}", source.id);
        assert!(source.read.is_some(), "{}", source.id);
    }
}

/// A source that nothing names would be a promise about figures that are not there.
#[test]
fn every_source_is_named_somewhere() {
    let files = shipped_files();
    let idle: Vec<_> = shipped()
        .sources()
        .map(|source| source.id.clone())
        .filter(|id| {
            let named = format!("{{{id}}}");
            !files.iter().any(|file| file.text.contains(&named))
        })
        .collect();
    assert!(idle.is_empty(), "{idle:?}");
}
