//! The walls between the rooms: who may use whom, and what may stand where.
//!
//! Comments and the code of tests are left out; what is looked for are paths, so
//! the walls hold without building anything.

#![allow(clippy::disallowed_methods, clippy::expect_used)]

mod common;

use std::collections::BTreeSet;

use common::{root, texts};
use pumpwright_engine::lessons::SourceFile;
use pumpwright_engine::problems::TRAINING;

/// The engine's rooms; each may use those before it.
const ROOMS: [&str; 12] = [
    "cells",
    "quantities",
    "formulas",
    "lessons",
    "problems",
    "marking",
    "figures",
    "statistics",
    "papers",
    "learner",
    "entries",
    "classes",
];

/// What the calculations and the engine do without: files, clock, environment,
/// network, other programs, printing, and randomness that no code can repeat.
const FORBIDDEN: [&str; 18] = [
    "std::fs",
    "std::time",
    "std::env",
    "std::net",
    "std::process",
    "std::thread",
    "std::io",
    "env!(",
    "println!",
    "eprintln!",
    "print!(",
    "eprint!(",
    "dbg!(",
    "OsRng",
    "SysRng",
    "ThreadRng",
    "getrandom",
    "rand::",
];

/// What only code for one platform has, written without spaces.
const PLATFORM: [&str; 13] = [
    "cfg(unix",
    "cfg(windows",
    "cfg(not(unix",
    "cfg(not(windows",
    "cfg(target_",
    "cfg!(unix",
    "cfg!(windows",
    "std::os::",
    "current_exe",
    "etcetera::",
    "libc::",
    "rustix::",
    "signal_hook::",
];

/// The parts of `std` that must not come in through a group either.
const PARTS: [&str; 7] = ["fs", "time", "env", "net", "process", "thread", "io"];

/// The sources of a package, without its tests, comments taken out.
fn sources(package: &str) -> Vec<SourceFile> {
    let files = texts(&root().join("src").join(package), "rs");
    let tests = test_modules(&files);
    let is_test = |path: &str| {
        tests
            .iter()
            .any(|test| path == format!("{test}.rs") || path.starts_with(&format!("{test}/")))
    };
    let found: Vec<SourceFile> = files
        .into_iter()
        .filter(|file| !is_test(&file.path))
        .map(|file| SourceFile {
            text: code(&file.text),
            path: file.path,
        })
        .collect();
    assert!(found.len() > 10, "the sources of {package} went missing");
    found
}

/// The modules that are built for tests alone, as paths without their ending.
fn test_modules(files: &[SourceFile]) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for file in files {
        let stem = file.path.trim_end_matches(".rs");
        let folder = match stem.rsplit_once('/') {
            Some((folder, "mod")) => format!("{folder}/"),
            None if stem == "lib" || stem == "main" => String::new(),
            _ => format!("{stem}/"),
        };
        let mut lines = file.text.lines().map(str::trim);
        while let Some(line) = lines.next() {
            let module = line
                .starts_with("#[cfg(test)]")
                .then(|| lines.next())
                .flatten()
                .and_then(|line| line.trim_end_matches(';').rsplit_once("mod "));
            if let Some((_, name)) = module {
                found.insert(format!("{folder}{name}"));
            }
        }
    }
    found
}

/// The code of a file without comments, and without the tests at its end.
fn code(text: &str) -> String {
    let mut kept = String::new();
    let mut lines = text.lines().peekable();
    while let Some(line) = lines.next() {
        let inline = |next: &&str| next.contains("mod ") && next.trim_end().ends_with('{');
        if line.trim() == "#[cfg(test)]" && lines.peek().is_some_and(inline) {
            break;
        }
        kept.push_str(line.split("//").next().unwrap_or_default());
        kept.push('\n');
    }
    kept
}

/// The crate's own paths in a text: what stands behind `crate::`, one for each
/// member of a group.
fn crate_paths(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (at, _) in text.match_indices("crate::") {
        let own = !text[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_');
        if own {
            found.extend(heads(&text[at + "crate::".len()..]));
        }
    }
    found
}

/// The first names of a path, or of each member of a group in braces.
fn heads(path: &str) -> Vec<String> {
    let name = |text: &str| -> String {
        text.trim_start()
            .chars()
            .take_while(|c| c.is_alphanumeric() || *c == '_')
            .collect()
    };
    let Some(group) = path.strip_prefix('{') else {
        return vec![name(path)];
    };
    let mut depth = 0;
    let mut members = vec![String::new()];
    for c in group.chars() {
        match c {
            '{' => depth += 1,
            '}' if depth == 0 => break,
            '}' => depth -= 1,
            ',' if depth == 0 => {
                members.push(String::new());
                continue;
            }
            _ => {}
        }
        if let Some(member) = members.last_mut() {
            member.push(c);
        }
    }
    members.iter().map(|member| name(member)).collect()
}

/// What `super` reaches from a file: the names that stand at the crate's root.
fn super_paths(file: &SourceFile) -> Vec<String> {
    let depth = file.path.trim_end_matches("mod.rs").matches('/').count()
        + usize::from(!file.path.ends_with("mod.rs"));
    let climb = "super::".repeat(depth);
    file.text
        .match_indices(&climb)
        .flat_map(|(at, _)| heads(&file.text[at + climb.len()..]))
        .collect()
}

/// The uses of a later room by an earlier one, in words.
fn upward(file: &SourceFile) -> Vec<String> {
    let room = file.path.split('/').next().unwrap_or_default();
    let Some(own) = ROOMS.iter().position(|known| *known == room) else {
        return Vec::new();
    };
    let paths = crate_paths(&file.text).into_iter().chain(super_paths(file));
    paths
        .filter(|path| ROOMS.iter().skip(own + 1).any(|later| later == path))
        .map(|path| format!("{} uses {path}, a later room", file.path))
        .collect()
}

/// What a text has of the forbidden things.
fn forbidden(file: &SourceFile) -> Vec<String> {
    let plain = FORBIDDEN
        .iter()
        .filter(|what| {
            file.text.match_indices(*what).any(|(at, _)| {
                let before = file.text[..at].chars().next_back();
                !before.is_some_and(|c| c.is_alphanumeric() || c == '_')
            })
        })
        .map(|what| (*what).to_owned());
    let grouped = file
        .text
        .match_indices("std::{")
        .flat_map(|(at, _)| heads(&file.text[at + "std::".len()..]))
        .filter(|head| PARTS.contains(&head.as_str()))
        .map(|head| format!("std::{head}"));
    plain
        .chain(grouped)
        .map(|what| format!("{} has {what}", file.path))
        .collect()
}

/// What a text has of code for one platform.
fn of_a_platform(file: &SourceFile) -> Vec<String> {
    let spaceless: String = file.text.split_whitespace().collect();
    let has = PLATFORM.iter().filter(|what| spaceless.contains(**what));
    has.map(|what| format!("{} has {what}", file.path))
        .collect()
}

/// The types that a state.rs declares.
fn states(text: &str) -> Vec<String> {
    text.lines()
        .filter_map(|line| {
            let line = line.trim_start();
            let rest = line
                .strip_prefix("pub struct ")
                .or_else(|| line.strip_prefix("pub enum "))?;
            Some(heads(rest).concat())
        })
        .collect()
}

/// Whether a text takes one of these types to change it.
fn changes(text: &str, types: &[String]) -> Option<String> {
    text.match_indices("&mut ").find_map(|(at, _)| {
        let rest: &str = text[at + 5..].split([',', ')', '{', ';', '=']).next()?;
        let taken = types.iter().find(|name| {
            rest.split(|c: char| !c.is_alphanumeric() && c != '_')
                .any(|word| word == *name)
        });
        taken.cloned()
    })
}

#[test]
fn no_room_of_the_engine_uses_a_later_one() {
    let found: Vec<String> = sources("engine").iter().flat_map(upward).collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn calculations_and_engine_touch_neither_files_nor_clock_nor_terminal() {
    let found: Vec<String> = ["calc", "engine"]
        .iter()
        .flat_map(|package| sources(package))
        .flat_map(|file| forbidden(&file))
        .collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
}

/// Signals, rights, folders of the system: one file has all of it, so that another
/// platform is one file's work.
#[test]
fn platform_code_stands_in_one_file() {
    let packages = ["calc", "engine", "press", "screens"];
    let own = sources("").into_iter().filter(|file| {
        let first = file.path.split('/').next().unwrap_or_default();
        !packages.contains(&first)
    });
    let all = packages.iter().flat_map(|package| sources(package));
    let (owner, others): (Vec<_>, Vec<_>) =
        own.chain(all).partition(|file| file.path == "platform.rs");
    assert!(owner.iter().any(|file| !of_a_platform(file).is_empty()));
    let found: Vec<String> = others.iter().flat_map(of_a_platform).collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
}

/// A page is a string: who writes it into a file, and when, is the program's business.
#[test]
fn pages_touch_neither_files_nor_clock() {
    let found: Vec<String> = sources("press").iter().flat_map(forbidden).collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
}

/// The manifests keep the packages apart: calculations, engine, press, screens, program.
/// One owner: a sentence that stands twice comes apart some day.
#[test]
fn what_is_said_of_training_figures_stands_once() {
    let files = texts(&root().join("src"), "rs");
    let says = |file: &&SourceFile| file.text.contains(&TRAINING[..30]);
    let owners: Vec<&str> = files.iter().filter(says).map(|file| &*file.path).collect();
    assert_eq!(owners, ["engine/problems/problem.rs"]);
}

#[test]
fn packages_depend_one_way() {
    for (package, never) in [
        (
            "calc",
            [
                "pumpwright-engine",
                "pumpwright-press",
                "pumpwright-screens",
            ]
            .as_slice(),
        ),
        (
            "engine",
            &[
                "pumpwright-press",
                "pumpwright-screens",
                "ratatui",
                "crossterm",
            ],
        ),
        (
            "press",
            &["pumpwright-calc", "pumpwright-screens", "ratatui"],
        ),
        ("screens", &["pumpwright-calc", "pumpwright-press"]),
    ] {
        let path = root().join("src").join(package).join("Cargo.toml");
        let manifest = std::fs::read_to_string(&path).expect("a manifest");
        for name in never {
            assert!(!manifest.contains(name), "{package} depends on {name}");
        }
    }
    for file in sources("screens") {
        assert!(
            !file.text.contains("pumpwright_calc"),
            "{} calculates",
            file.path
        );
    }
}

#[test]
fn views_only_look() {
    let files = sources("screens");
    let mut views = 0;
    for view in files.iter().filter(|file| file.path.ends_with("view.rs")) {
        let state = view.path.replace("view.rs", "state.rs");
        let Some(state) = files.iter().find(|file| file.path == state) else {
            continue;
        };
        let types = states(&state.text);
        assert!(!types.is_empty(), "{} declares no state", state.path);
        assert_eq!(
            changes(&view.text, &types),
            None,
            "{} changes what it shows",
            view.path
        );
        views += 1;
    }
    assert!(views >= 5, "the views went missing");
}

/// Each wall is tried with a text that breaks it.
#[test]
fn the_walls_can_be_broken() {
    let file = |path: &str, text: &str| SourceFile {
        path: path.into(),
        text: code(text),
    };
    for (path, text) in [
        ("formulas/x.rs", "use crate::lessons::Library;"),
        ("quantities/mod.rs", "use super::formulas::Value;"),
        (
            "lessons/compile/steps.rs",
            "super::super::super::problems::draw();",
        ),
        (
            "problems/x.rs",
            "use crate::{lessons::{Library, Rule}, marking};",
        ),
        ("formulas/x.rs", "fn a() { crate::marking::mark() }"),
    ] {
        assert_eq!(upward(&file(path, text)).len(), 1, "{path}: {text}");
    }
    for (path, text) in [
        ("marking/x.rs", "use crate::lessons::Library;"),
        ("formulas/x.rs", "// use crate::lessons::Library;"),
        (
            "formulas/x.rs",
            "#[cfg(test)]\nmod tests {\nuse crate::lessons::Library;\n}",
        ),
        ("formulas/x.rs", "use super::lessons_of_formulas;"),
        (
            "formulas/x.rs",
            "use crate::{quantities::{Unit, System}, formulas::lessons};",
        ),
    ] {
        assert!(upward(&file(path, text)).is_empty(), "{path}: {text}");
    }
    for text in [
        "use std::fs;",
        "let now = std::time::Instant::now();",
        "use std::{collections::BTreeMap, env};",
        "println!(\"x\")",
        "eprintln!(\"x\")",
        "let home = env!(\"HOME\");",
        "use rand::rng;",
        "OsRng.next()",
    ] {
        assert_eq!(forbidden(&file("x.rs", text)).len(), 1, "{text}");
    }
    for text in [
        "use chacha20::ChaCha12Rng;",
        "/// println!(\"x\")",
        "use std::{fmt, ops};",
    ] {
        assert!(forbidden(&file("x.rs", text)).is_empty(), "{text}");
    }
    for (text, found) in [
        ("#[cfg(unix)]\nfn a() {}", 1),
        ("#[cfg( target_os = \"linux\" )]", 1),
        ("if cfg!(windows) { std::os::unix::fs::symlink() }", 2),
        ("#[cfg(feature = \"pdf\")] // cfg(unix)", 0),
    ] {
        assert_eq!(of_a_platform(&file("x.rs", text)).len(), found, "{text}");
    }
    let types = states("pub struct Answer {\n}\npub enum Place { A }");
    assert_eq!(types, ["Answer", "Place"]);
    assert!(changes("fn page(answer: &mut Answer) {", &types).is_some());
    assert!(changes("fn page(answer: &mut super::Answer) {", &types).is_some());
    assert!(changes("fn page(answer: &Answer, page: &mut Page) {", &types).is_none());
}
