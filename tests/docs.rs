//! Every public calculation says in its doc what it computes, where it holds,
//! who says so and what it refuses, with a worked figure; and every function
//! offered by name is such a calculation.

#![cfg(test)]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use pumpwright_calc::registry::functions;

/// A public function: its doc, and whether it returns a `Result`.
#[derive(Debug, Clone, PartialEq)]
struct Documented {
    doc: String,
    can_refuse: bool,
}

/// The public functions at the outermost level of a source text.
fn public_functions(source: &str) -> BTreeMap<String, Documented> {
    let mut found = BTreeMap::new();
    let mut doc = String::new();
    let mut lines = source.lines();
    while let Some(line) = lines.next() {
        if let Some(text) = line.strip_prefix("///") {
            doc.push_str(text);
            doc.push('\n');
        } else if let Some(rest) = line.strip_prefix("pub fn ") {
            let name = rest.split(['(', '<']).next().unwrap_or(rest).to_owned();
            let mut signature = line.to_owned();
            while !signature.contains('{') {
                signature.push_str(lines.next().expect("a signature ends"));
            }
            let can_refuse = signature.contains("-> Result<");
            let doc = std::mem::take(&mut doc);
            found.insert(name, Documented { doc, can_refuse });
        } else if !line.starts_with("#[") {
            doc.clear();
        }
    }
    found
}

/// What a doc lacks.
fn lacks(function: &Documented) -> Vec<&'static str> {
    let mut wanted = vec!["Formula", "Valid for", "Source", "Example"];
    if function.can_refuse {
        wanted.push("Errors");
    }
    let has = |heading: &&str| {
        let mut lines = function.doc.lines().map(str::trim);
        let found = lines.any(|line| line.strip_prefix("# ") == Some(heading));
        // A heading over nothing says nothing.
        found && lines.next().is_some_and(|line| !line.is_empty())
    };
    wanted.retain(|heading| !has(heading));
    if !function.doc.contains("assert") {
        wanted.push("an example that asserts a figure");
    }
    wanted
}

/// The subjects: files of calc that offer functions by name.
fn subjects() -> BTreeMap<String, BTreeMap<String, Documented>> {
    let folder = fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR"))).expect("the folder of calc");
    let paths = folder.map(|entry| entry.expect("an entry").path());
    paths
        .filter(|path| path.extension().is_some_and(|end| end == "rs"))
        .filter_map(|path| {
            let source = fs::read_to_string(&path).expect("a source file");
            let name = path.file_stem()?.to_str()?.to_owned();
            let offers = source.contains("\npub const FUNCTIONS: &[Function]");
            offers.then(|| (name, public_functions(&source)))
        })
        .collect()
}

#[test]
fn every_public_calculation_says_what_it_owes() {
    let mut complaints = Vec::new();
    let mut checked = 0;
    for (subject, functions) in subjects() {
        for (name, function) in functions {
            checked += 1;
            let lacks = lacks(&function);
            if !lacks.is_empty() {
                complaints.push(format!("{subject}::{name} lacks {}", lacks.join(", ")));
            }
        }
    }
    assert!(complaints.is_empty(), "{}", complaints.join("\n"));
    assert!(
        checked >= functions().count(),
        "only {checked} functions were read"
    );
}

#[test]
fn every_function_by_name_is_a_documented_calculation() {
    let subjects = subjects();
    let mut offered = BTreeSet::new();
    for entry in functions() {
        let (subject, name) = entry.name.split_once('.').expect("subject.name");
        let documented = subjects.get(subject).and_then(|subject| subject.get(name));
        assert!(documented.is_some(), "no public function {subject}::{name}");
        offered.insert(subject);
    }
    let read: BTreeSet<&str> = subjects.keys().map(String::as_str).collect();
    assert_eq!(read, offered, "a subject is not in the registry's list");
}

#[test]
fn every_function_by_name_states_source_range_and_law() {
    for entry in functions() {
        for (what, text) in [("title", entry.title), ("valid", entry.valid)] {
            assert!(!text.is_empty(), "{} has no {what}", entry.name);
        }
        assert!(entry.source.len() > 5, "{} has no source", entry.name);
        assert!(entry.edition > 0, "{} has no edition", entry.name);
    }
}

#[test]
fn a_poor_doc_is_complained_of() {
    let source = "/// Halves.\n///\n/// # Formula\n/// h = x / 2\n///\n/// # Source\n///\n\
                  /// # Example\n/// none\n#[must_use]\npub fn half(x: f64) -> Result<f64, E> {\n";
    let functions = public_functions(source);
    let wanted = vec![
        "Valid for",
        "Source",
        "Errors",
        "an example that asserts a figure",
    ];
    assert_eq!(lacks(&functions["half"]), wanted);
}

/// The page is generated: `pumpwright calc --page`, or this test with PUMPWRIGHT_BLESS=1,
/// writes it anew.
#[test]
fn the_reference_page_is_current() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("REFERENCE.md");
    let page = pumpwright_calc::page::page();
    if std::env::var_os("PUMPWRIGHT_BLESS").is_some() {
        fs::write(&file, &page).expect("the file takes the page");
    }
    let kept = fs::read_to_string(&file).expect("the reference page");
    let same = kept.lines().eq(page.lines());
    assert!(
        same,
        "src/calc/REFERENCE.md is old; run this test with PUMPWRIGHT_BLESS=1"
    );
}
