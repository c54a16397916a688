//! Whatever a file or a person brings: nothing panics, nothing takes long, and
//! what is accepted can be drawn, worked, helped with and marked.

#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_types,
    clippy::expect_used
)]

mod common;

use std::sync::LazyLock;
use std::time::{Duration, Instant};

use common::{draw_one, faces, shipped, shipped_files};
use proptest::prelude::*;
use pumpwright_engine::lessons::{Fault, Library, SourceFile};
use pumpwright_engine::marking::{Manner, Response, keep, mark};
use pumpwright_engine::problems::{Code, Problem, Settings, again, help, working};

/// Longer than this no file and no answer may take, on a slow machine and unoptimized.
const LONG: Duration = Duration::from_secs(10);

static FILES: LazyLock<Vec<SourceFile>> = LazyLock::new(shipped_files);
static LIBRARY: LazyLock<Library> = LazyLock::new(shipped);

fn in_time<T>(what: &str, work: impl FnOnce() -> T) -> T {
    let start = Instant::now();
    let found = work();
    let taken = start.elapsed();
    assert!(taken < LONG, "{taken:?} for {what}");
    found
}

/// Shows every fault as an author would see it.
fn show(faults: &[Fault]) {
    for fault in faults {
        assert!(fault.line > 0 && fault.column > 0 && fault.width > 0);
        assert!(!fault.to_string().is_empty());
    }
}

/// Draws, works, helps with and marks a problem.
fn use_it(problem: &Problem) {
    let worked = working(problem);
    for at in 0..problem.lines.len() {
        help(problem, at);
    }
    let answers = worked
        .into_iter()
        .map(|line| (line.id, line.typed))
        .collect();
    let marked = mark(problem, &Response { answers }, Manner::default());
    assert!(marked.score <= marked.out_of);
}

/// Reads a library and uses what of it was accepted.
fn read_and_use(files: &[SourceFile]) {
    let (library, faults) = Library::read(files);
    show(&faults);
    for face in faces(&library) {
        if let Ok(problem) = draw_one(&library, &face, 1, &Settings::default()) {
            use_it(&problem);
        }
    }
}

/// A way to spoil a text.
#[derive(Debug, Clone)]
enum Spoil {
    Delete(usize, usize),
    Double(usize, usize),
    Replace(usize, String),
    Figure(usize, String),
    LineGone(usize),
    LineMoved(usize, usize),
}

fn any_spoil() -> impl Strategy<Value = Spoil> {
    let at = 0_usize..20_000;
    let short = 1_usize..24;
    let bit = prop_oneof![
        "[\\[\\]{}\"'=,|.#\\\\\n-]{1,3}",
        "[a-z_]{1,6}",
        "\\PC{1,3}",
        any::<char>().prop_map(String::from),
    ];
    let figure = prop_oneof![
        Just("0".to_owned()),
        Just("-1".to_owned()),
        Just("1e300".to_owned()),
        Just("nan".to_owned()),
        Just("inf".to_owned()),
        Just("99999999999999999999".to_owned()),
        Just("0.000000001".to_owned()),
        "[0-9]{1,9}",
    ];
    prop_oneof![
        (at.clone(), short.clone()).prop_map(|(at, long)| Spoil::Delete(at, long)),
        (at.clone(), short).prop_map(|(at, long)| Spoil::Double(at, long)),
        (at.clone(), bit).prop_map(|(at, bit)| Spoil::Replace(at, bit)),
        (at.clone(), figure).prop_map(|(at, figure)| Spoil::Figure(at, figure)),
        at.clone().prop_map(Spoil::LineGone),
        (at.clone(), at).prop_map(|(from, to)| Spoil::LineMoved(from, to)),
    ]
}

fn spoiled(text: &str, spoil: &Spoil) -> String {
    let mut letters: Vec<char> = text.chars().collect();
    let mut lines: Vec<&str> = text.split('\n').collect();
    let (long, count) = (letters.len(), lines.len());
    if long == 0 {
        return String::new();
    }
    match spoil {
        Spoil::Delete(at, size) => {
            let at = at % long;
            letters.drain(at..(at + size).min(long));
        }
        Spoil::Double(at, size) => {
            let at = at % long;
            let part: Vec<char> = letters[at..(at + size).min(long)].to_vec();
            letters.splice(at..at, part);
        }
        Spoil::Replace(at, bit) => {
            let at = at % long;
            letters.splice(at..=at, bit.chars());
        }
        Spoil::Figure(at, figure) => {
            let digits: Vec<usize> = (0..long)
                .filter(|at| letters[*at].is_ascii_digit())
                .collect();
            if let Some(first) = digits.get(at % digits.len().max(1)).copied() {
                let end = (first..long)
                    .find(|at| !letters[*at].is_ascii_digit())
                    .unwrap_or(long);
                letters.splice(first..end, figure.chars());
            }
        }
        Spoil::LineGone(at) => {
            lines.remove(at % count);
            return lines.join("\n");
        }
        Spoil::LineMoved(from, to) => {
            let line = lines.remove(from % count);
            lines.insert(to % count, line);
            return lines.join("\n");
        }
    }
    letters.into_iter().collect()
}

/// Lines such as lesson files have, put together by chance.
fn toml_like() -> impl Strategy<Value = String> {
    let value = prop_oneof![
        "\"[a-z {}:.|]{0,20}\"",
        "'[a-z0-9 +*/()<>=._-]{0,30}'",
        "-?[0-9]{1,6}(\\.[0-9]{1,3})?",
        Just("true".to_owned()),
        Just("[1, 2, 3]".to_owned()),
        Just("[]".to_owned()),
        Just("{ of = [1, 2] }".to_owned()),
        Just("{ us = { from = 1, to = 9, by = 0 }, si = 3 }".to_owned()),
        Just("{ row = \"copper\", where = 'row' }".to_owned()),
        Just("{ some = \"valves\", count = [9, 1] }".to_owned()),
        Just("{ cards = \"below\", show = [0, 99999999] }".to_owned()),
        Just("1979-05-27T07:32:00Z".to_owned()),
        Just("[[[[[[1]]]]]]".to_owned()),
    ];
    let key = proptest::sample::select(vec![
        "format", "family", "lesson", "title", "levels", "home", "sources", "text", "name",
        "label", "unit", "draw", "is", "to", "that", "why", "finds", "write", "within", "sane",
        "ask", "marks", "says", "unsafe", "words", "offer", "order", "match", "does", "card",
        "after", "always", "decoy", "step", "early", "pair", "figures", "omits", "uses", "did",
        "table", "columns", "rows", "names", "rule", "default", "others",
    ]);
    let head = proptest::sample::select(vec![
        "[[story]]",
        "[[given]]",
        "[[require]]",
        "[[step]]",
        "[[card]]",
        "[[mistake]]",
        "[[table]]",
        "[[rule]]",
        "[[part]]",
        "[values]",
        "# a remark",
        "",
    ]);
    let line = prop_oneof![
        3 => (key, value).prop_map(|(key, value)| format!("{key} = {value}")),
        2 => head.prop_map(str::to_owned),
    ];
    proptest::collection::vec(line, 0..40).prop_map(|lines| lines.join("\n"))
}

/// The shelves and the folder of a file, with that file exchanged.
fn with(path: &str, text: String) -> Vec<SourceFile> {
    let folder = |path: &str| path.rsplit_once('/').map(|(folder, _)| folder.to_owned());
    let own = folder(path);
    let mut files = FILES.clone();
    files.retain(|file| {
        let shelf = file.path == "rules.toml"
            || file.path.starts_with("tables/")
            || file.path.starts_with("sources/");
        file.path != path && (shelf || folder(&file.path) == own)
    });
    files.push(SourceFile {
        path: path.to_owned(),
        text,
    });
    files
}

proptest! {
    #![proptest_config(ProptestConfig { cases: ProptestConfig::default().cases, failure_persistence: None, ..ProptestConfig::default() })]

    /// A shipped file with a few spoiled places is read, and what is left of it works.
    #[test]
    fn a_spoiled_file_is_met_with_faults(which in any::<usize>(), spoils in proptest::collection::vec(any_spoil(), 1..4)) {
        let file = &FILES[which % FILES.len()];
        let text = spoils.iter().fold(file.text.clone(), |text, spoil| spoiled(&text, spoil));
        in_time(&file.path, || read_and_use(&with(&file.path, text)));
    }

    /// What only looks like a lesson file is read the same way, in any place.
    #[test]
    fn what_looks_like_a_lesson_file_is_met_with_faults(text in toml_like(), place in 0_usize..4) {
        let path = ["new/new.toml", "tables/new.toml", "rules.toml", "new/lesson.toml"][place];
        let text = format!("format = 1\n{text}\n");
        in_time(path, || {
            let (_, faults) = Library::read(&with(path, text));
            show(&faults);
        });
    }

    /// Any text at all, under any name.
    #[test]
    fn any_text_is_met_with_faults(text in any::<String>(), path in "\\PC{0,20}(\\.toml)?") {
        in_time(&path, || {
            let (_, faults) = Library::read(&[SourceFile { path: path.clone(), text }]);
            show(&faults);
        });
    }

    /// A code with slips is refused or draws; nothing else happens.
    #[test]
    fn a_spoiled_code_is_refused_or_drawn(which in any::<usize>(), number in 0_u32..1000, spoils in proptest::collection::vec(any_spoil(), 0..3), rules in "(\\+[a-z._]{0,20}=?[a-z0-9%. -]{0,12}){0,3}") {
        let faces = faces(&LIBRARY);
        let face = &faces[which % faces.len()];
        let problem = draw_one(&LIBRARY, face, number, &Settings::default()).expect("a problem");
        let code = problem.code.to_string() + &rules;
        let code = spoils.iter().fold(code, |code, spoil| spoiled(&code, spoil));
        in_time(&code, || {
            match code.parse::<Code>() {
                Ok(code) => match again(&LIBRARY, &code) {
                    Ok(problem) => use_it(&problem),
                    Err(error) => assert!(!error.to_string().is_empty()),
                },
                Err(fault) => assert!(!fault.to_string().is_empty()),
            }
        });
    }

    /// An answer is kept with what it is read as, or met with what can be read.
    #[test]
    fn an_answer_is_kept_or_met_with_a_sentence(which in any::<usize>(), line in 0_usize..9, typed in prop_oneof![any::<String>(), "\\PC{0,30}", "[-0-9., a-z/%()]{0,30}", "[0-9]{300,500}"]) {
        let faces = faces(&LIBRARY);
        let face = &faces[which % faces.len()];
        let problem = draw_one(&LIBRARY, face, 1, &Settings::default()).expect("a problem");
        in_time(&typed, || {
            let said = keep(&problem, line, &typed, Manner::default());
            let text = said.unwrap_or_else(|sentence| sentence);
            assert!(text.chars().count() < 500, "{text}");
        });
    }

    /// A house rule is set to one of its values, or the sentence names them.
    #[test]
    fn a_house_rule_is_set_or_refused(name in "[a-z._]{0,24}", value in "\\PC{0,20}", which in any::<usize>()) {
        let rules = LIBRARY.rules(pumpwright_engine::quantities::System::Us);
        let rule = &rules[which % rules.len()].name;
        for name in [name.as_str(), rule.as_str()] {
            if let Err(fault) = Settings::default().set(&LIBRARY, name, &value) {
                prop_assert!(!fault.to_string().is_empty());
            }
        }
    }
}

/// Depth and length that only malice brings.
#[test]
fn depth_and_length_are_bounded() {
    let deep = |open: &str, close: &str, times: usize| {
        format!(
            "format = 1\nx = {}1{}\n",
            open.repeat(times),
            close.repeat(times)
        )
    };
    let long_text = format!("format = 1\ntitle = \"{}\"\n", "{x}".repeat(200_000));
    let many = format!("format = 1\n{}", "[[step]]\nfinds = \"x\"\n".repeat(20_000));
    let formula = format!(
        "format = 1\n[[step]]\nfinds = \"x\"\nis = '{}1'\n",
        "(".repeat(300)
    );
    let wide = "[[table]]\ntable = \"x\"\nnames = \"x\"\ncolumns = [[\"x\", \"word\"]]\nrows = [";
    let wide = format!("format = 1\n{wide}{}]\n", "[\"a\"], ".repeat(100_000));
    for text in [
        deep("[", "]", 50_000),
        deep("{ a = ", " }", 50_000),
        deep("[", "", 100_000),
        long_text,
        many,
        formula,
        wide,
        "\0".repeat(10_000),
        "[".repeat(100_000),
        "a.".repeat(50_000),
        "\u{feff}format = 1\n".to_owned(),
    ] {
        let head: String = text.chars().take(40).collect();
        for path in [
            "new/new.toml",
            "tables/new.toml",
            "rules.toml",
            "new/lesson.toml",
        ] {
            in_time(&head, || {
                let (_, faults) = Library::read(&with(path, text.clone()));
                show(&faults);
                assert!(
                    !faults.is_empty() || text.contains('\u{feff}'),
                    "{path}: {head}"
                );
            });
        }
    }
}

/// A stranger's family may ask for the impossible; drawing gives up in time.
#[test]
fn a_family_that_never_draws_gives_up_in_time() {
    let text = FILES
        .iter()
        .find(|file| file.path.ends_with("setback.toml"))
        .expect("the file")
        .text
        .replace("distance > 0.6 * required", "distance < 0 ft");
    let (library, faults) = Library::read(&with("siting-and-setbacks/setback.toml", text));
    assert!(faults.is_empty(), "{faults:?}");
    let face = ("setback".to_owned(), 2, "us".parse().expect("a system"));
    let said = in_time("a family without draws", || {
        draw_one(&library, &face, 1, &Settings::default()).map(|problem| problem.code)
    });
    let said = said.expect_err("no problem").to_string();
    assert_eq!(
        said,
        "setback gave no problem in 200 tries; run pumpwright check on its file"
    );
}
