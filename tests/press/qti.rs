//! The package for other programs: whole, one identifier a thing, nothing pointed at that
//! is not there, and marked as our own marking does. The rules of an item are worked
//! through by `qti_rules`, a small reader of the constructs that we use.

use std::collections::BTreeSet;

use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::{
    Follow, Manner, Marked, MarkedLine, Response, Verdict, follow, mark, mistaken, row_offers,
};
use pumpwright_engine::problems::{Asks, Line, Problem, Settings, again, working};
use pumpwright_engine::quantities::{DecimalSign, System};
use pumpwright_press::qti::package;

use crate::common::{draw_one, faces, shipped, shipped_files};
use crate::qti_rules::{Given, Node, outcomes, read};

/// The draw of each family at each level in each system.
const DRAW: u32 = 3;

fn problems(library: &Library) -> impl Iterator<Item = Problem> + '_ {
    let faces = faces(library).into_iter();
    faces.filter_map(|face| draw_one(library, &face, DRAW, &Settings::default()).ok())
}

/// What an item takes for what is typed at a line.
pub fn given(problem: &Problem, number: usize, line: &Line, typed: &str) -> Vec<(String, Given)> {
    let id = format!("RESPONSE_{number}");
    if typed.is_empty() {
        return Vec::new();
    }
    match &line.asks {
        Asks::Nothing => Vec::new(),
        Asks::Figure => vec![(id, Given::Number(typed.parse().expect("digits")))],
        Asks::Row => {
            let rows = row_offers(problem, line);
            let at = rows.iter().position(|row| row.name == typed);
            let at = at.expect("the row is offered") + 1;
            vec![(id, Given::Name(format!("row-{at}")))]
        }
        Asks::Pick { .. } => vec![(id, Given::Name(format!("offer-{typed}")))],
        Asks::Order { .. } => {
            let marks = typed
                .split(' ')
                .enumerate()
                .filter(|(_, mark)| *mark != "-");
            let number = |mark: &str| Given::Number(mark.parse().expect("a number"));
            marks
                .map(|(at, mark)| (format!("{id}_{}", at + 1), number(mark)))
                .collect()
        }
        Asks::Match { .. } => {
            let marks = typed
                .split(' ')
                .enumerate()
                .filter(|(_, mark)| *mark != "-");
            let pairs = marks.map(|(at, mark)| format!("part-{} meaning-{mark}", at + 1));
            vec![(id, Given::Pairs(pairs.collect()))]
        }
    }
}

/// The right answers as they are typed: of a figure its digits.
pub fn key(problem: &Problem, item: &Node) -> Vec<String> {
    let worked = working(problem);
    let asked = problem.asked();
    let typed = asked.map(|(number, line)| match &line.asks {
        Asks::Figure => item
            .key(&format!("RESPONSE_{number}"))
            .expect("a figure has a key"),
        _ => {
            let worked = worked.iter().find(|worked| worked.id == line.id);
            worked.expect("every line is worked").typed.clone()
        }
    });
    typed.collect()
}

/// These answers as our own marking has them.
pub fn ours(problem: &Problem, answers: &[String]) -> Marked {
    let lines = problem.asked().zip(answers);
    let typed = lines.filter(|(_, typed)| !typed.is_empty());
    let typed = typed.map(|((_, line), typed)| (line.id.clone(), typed.clone()));
    let response = Response {
        answers: typed.collect(),
    };
    let manner = Manner {
        decimal: DecimalSign::Point,
    };
    mark(problem, &response, manner)
}

/// Sets of answers: right, wrong at a line, by mistakes, with lines left empty, rightly
/// worked from a wrong figure.
pub fn attempts(problem: &Problem, key: &[String]) -> Vec<Vec<String>> {
    let lines: Vec<&Line> = problem.asked().map(|(_, line)| line).collect();
    let at = |place: usize, text: String| {
        let mut answers = key.to_vec();
        answers[place] = text;
        answers
    };
    let mut all = vec![key.to_vec(), vec![String::new(); key.len()]];
    let mut last = vec![String::new(); key.len()];
    last[key.len() - 1].clone_from(&key[key.len() - 1]);
    all.push(last);
    for (place, line) in lines.iter().enumerate() {
        match &line.asks {
            Asks::Figure => {
                let right: f64 = key[place].parse().expect("digits");
                all.extend(on_the_grid(problem, key, place));
                for by in [0.25, 0.62, 1.37, 2.2] {
                    all.push(at(place, (right * by).to_string()));
                    let followed = followed(problem, key, place, right * by);
                    let later = place + 1..lines.len();
                    all.extend(later.flat_map(|later| on_the_grid(problem, &followed, later)));
                    all.push(followed);
                }
                let own = problem.mistakes.iter().filter(|live| live.step == line.id);
                for span in own.flat_map(|live| mistaken(problem, line, live)) {
                    all.push(at(place, f64::midpoint(span.from, span.to).to_string()));
                }
                let (below, above) = problem.tolerance(line).expect("a figure has one");
                let value = working(problem)
                    .into_iter()
                    .find(|worked| worked.id == line.id)
                    .and_then(|worked| worked.value)
                    .expect("a figure");
                for share in [0.98, 1.02] {
                    all.push(at(place, (value - below * share).to_string()));
                    all.push(at(place, (value + above * share).to_string()));
                }
            }
            Asks::Pick { offers, .. } => {
                all.extend(offers.iter().map(|offer| at(place, offer.mark.clone())));
            }
            Asks::Row => {
                let rows = row_offers(problem, line);
                all.extend(rows.into_iter().map(|row| at(place, row.name)));
            }
            Asks::Order { .. } | Asks::Match { .. } => {
                let marks: Vec<&str> = key[place].split(' ').collect();
                let count = marks.len();
                for first in 0..count {
                    let mut changed = marks.clone();
                    changed.swap(first, (first + 1) % count);
                    all.push(at(place, changed.join(" ")));
                    let mut open = marks.clone();
                    open[first] = "-";
                    all.push(at(place, open.join(" ")));
                }
                if matches!(line.asks, Asks::Order { .. }) {
                    let shown: Vec<String> = (1..=count).map(|at| at.to_string()).collect();
                    all.push(at(place, shown.join(" ")));
                    all.push(at(place, vec!["1"; count].join(" ")));
                }
            }
            Asks::Nothing => {}
        }
    }
    all
}

/// A wrong figure at a line, and each later line that is a product worked from it.
fn followed(problem: &Problem, key: &[String], place: usize, wrong: f64) -> Vec<String> {
    let mut answers = key.to_vec();
    answers[place] = wrong.to_string();
    let asked: Vec<&Line> = problem.asked().map(|(_, line)| line).collect();
    for (later, line) in asked.iter().enumerate().skip(place + 1) {
        if let Follow::Product {
            lines, from, to, ..
        } = follow(problem, line)
        {
            let product = product(problem, &answers, &lines);
            let factor = f64::midpoint(from.0, to.0);
            answers[later] = (product * factor + f64::midpoint(from.1, to.1)).to_string();
        }
    }
    answers
}

/// The product of what is written at these lines.
fn product(problem: &Problem, answers: &[String], lines: &[usize]) -> f64 {
    let own = lines.iter().map(|at| {
        let id = &problem.lines[*at].id;
        let place = problem.asked().position(|(_, line)| line.id == *id);
        answers[place.expect("asked")]
            .parse::<f64>()
            .expect("digits")
    });
    own.product()
}

/// At a line that is written on a grid: the step that is right by what is written before,
/// a part of a step beside it and the next ones; and what its known mistakes give.
fn on_the_grid(problem: &Problem, answers: &[String], place: usize) -> Vec<Vec<String>> {
    let (_, line) = problem.asked().nth(place).expect("asked");
    let follow = follow(problem, line);
    let Follow::Product {
        lines,
        written: Some(written),
        ..
    } = follow
    else {
        return Vec::new();
    };
    let steps = product(problem, answers, &lines) * written.steps.0 + written.steps.1;
    let parts = [-1.0, -0.7, -0.3, 0.0, 0.3, 0.7, 1.0].into_iter();
    let beside = parts.map(|part| (steps.floor() + part) * written.grid);
    let own = problem.mistakes.iter().filter(|live| live.step == line.id);
    let wrong = own.flat_map(|live| mistaken(problem, line, live));
    let figures = beside.chain(wrong.map(|span| f64::midpoint(span.from, span.to)));
    let tried = figures.map(|figure| {
        let mut tried = answers.to_vec();
        tried[place] = figure.to_string();
        tried
    });
    tried.collect()
}

/// Whether an item is not to give what our marking gives at a line, and says so: an own
/// earlier figure, and be it a right one that is rounded, is carried into a product alone.
/// That an item gives more is never excused.
pub fn left_out(problem: &Problem, asked: &Line, marked: &MarkedLine, theirs: f64) -> bool {
    let right = matches!(marked.verdict, Verdict::Right | Verdict::Follows { .. });
    right && follow(problem, asked) == Follow::NotCarried && theirs == 0.0
}

#[test]
fn an_item_is_marked_as_our_own_marking_does() {
    let library = shipped();
    let (mut told, mut carried, mut tried, mut others) = (0, 0, 0, 0);
    let mut apart = Vec::new();
    for problem in problems(&library) {
        let files = package("A title", std::slice::from_ref(&problem)).files;
        let item = files.iter().find(|file| file.path.starts_with("items/"));
        let item = read(&item.expect("an item").text);
        let key = key(&problem, &item);
        for answers in attempts(&problem, &key) {
            let asked: Vec<(usize, &Line)> = problem.asked().collect();
            let marked = ours(&problem, &answers);
            let typed = asked.iter().zip(&answers);
            let given =
                typed.flat_map(|((number, line), typed)| given(&problem, *number, line, typed));
            let found = outcomes(&item, &given.collect(), 1);
            tried += 1;
            for (line, (number, asked)) in marked.lines.iter().zip(&asked) {
                let ours = line.marks.number();
                let theirs = found.number(&format!("SCORE_{number}"));
                let follows = matches!(line.verdict, Verdict::Follows { .. });
                told += usize::from(
                    found
                        .name(&format!("TURN_{number}"))
                        .is_some_and(|name| name != "none"),
                );
                if ours == theirs {
                    carried += usize::from(follows && ours > 0.0);
                    continue;
                }
                if left_out(&problem, asked, line, theirs) {
                    others += 1;
                    continue;
                }
                apart.push(format!(
                    "{} {answers:?} line {number}: {ours} by us, {:?}; {theirs} by the item",
                    problem.code, line.verdict
                ));
            }
            let total: f64 = marked.lines.iter().map(|line| line.marks.number()).sum();
            if answers == key {
                assert_eq!(found.number("SCORE"), total, "{}", problem.code);
                assert_eq!(total, f64::from(problem.marks()), "{}", problem.code);
            }
        }
    }
    assert!(
        tried > 2_000 && told > 500 && carried > 100,
        "{tried} {told} {carried} {others}"
    );
    assert!(
        apart.is_empty(),
        "{} of {tried}:\n{}",
        apart.len(),
        apart[..apart.len().min(40)].join("\n")
    );
}

/// The shipped lessons with so many more motors below and above those that the supplier has.
fn with_more_motors(more: usize) -> Library {
    let row = |name: String, figure: String| {
        format!("  [\"{name} hp | {name} kW\", \"{figure} | {figure}\"],\n")
    };
    let small = (1..=more).map(|at| row(format!("{at}/999"), format!("0.00{at:02}")));
    let large = (1..=more).map(|at| row(format!("{at}00"), format!("{at}00")));
    let mut files = shipped_files();
    let mut tables = files.iter_mut();
    let table = tables.find(|file| file.path.ends_with("motor_sizes.toml"));
    let table = table.expect("the table of motors");
    let (head, rows) = table.text.split_once("rows    = [\n").expect("its rows");
    let (rows, foot) = rows.split_once("\n]").expect("their end");
    let (small, large): (String, String) = (small.collect(), large.collect());
    table.text = format!("{head}rows    = [\n{small}{rows}\n{large}]{foot}");
    let (library, faults) = Library::read(&files);
    assert!(faults.is_empty(), "{faults:?}");
    library
}

/// Of a long table some rows are offered; where the right one stands among them is left
/// to chance, and is the same each time.
#[test]
fn the_place_of_a_row_among_its_offers_tells_nothing() {
    let library = with_more_motors(30);
    let mut places = BTreeSet::new();
    for draw in 0..60 {
        let face = ("brake-horsepower".to_owned(), 2, System::Us);
        let problem = draw_one(&library, &face, draw, &Settings::default()).expect("drawn");
        let rows = |problem: &Problem| {
            let mut asked = problem.asked().map(|(_, line)| line);
            let line = asked.find(|line| line.asks == Asks::Row);
            row_offers(problem, line.expect("a row is asked"))
        };
        let offered = rows(&problem);
        assert_eq!(offered.len(), 24);
        let again = again(&library, &problem.code).expect("drawn again");
        assert_eq!(offered, rows(&again), "{}", problem.code);
        let right = offered.iter().position(|row| row.right);
        places.insert(right.expect("the right row is offered"));
    }
    assert!(places.len() > 12, "always among {places:?}");
}

#[test]
fn a_package_is_whole_and_points_at_nothing_that_is_not_there() {
    let library = shipped();
    for problem in problems(&library) {
        let package = package("A <title> & more", &[problem.clone(), problem.clone()]);
        let paths: BTreeSet<&str> = package.files.iter().map(|file| &*file.path).collect();
        assert_eq!(paths.len(), package.files.len(), "two files at one place");
        let mut listed = BTreeSet::new();
        for file in &package.files {
            let root = read(&file.text);
            let folder = file.path.rsplit_once('/').map_or("", |(folder, _)| folder);
            root.every(&mut |node| {
                let pointed = [node.get("href"), node.get("src")];
                for to in pointed
                    .into_iter()
                    .flatten()
                    .filter(|to| !to.starts_with('#'))
                {
                    let to = match to.strip_prefix("../") {
                        Some(rest) => rest.to_owned(),
                        None if folder.is_empty() => to.to_owned(),
                        None => format!("{folder}/{to}"),
                    };
                    assert!(paths.contains(&*to), "{}: {to} is not there", file.path);
                    if file.path == "imsmanifest.xml" {
                        listed.insert(to);
                    }
                }
            });
            if file.path.starts_with("items/") {
                is_an_item(&root, &problem);
            }
            let code = problem.code.to_string();
            let seed = code.split('.').nth(2).expect("a code has a seed");
            assert!(!file.text.contains(seed), "a seed in {}", file.path);
        }
        let others = paths.iter().filter(|path| **path != "imsmanifest.xml");
        assert!(
            others.clone().all(|path| listed.contains(*path)),
            "a file is not listed"
        );
    }
}

/// Declared once, used as declared; the caution before the lines.
fn is_an_item(root: &Node, problem: &Problem) {
    let mut declared = BTreeSet::new();
    let mut shown: Vec<(String, String)> = Vec::new();
    root.every(&mut |node| {
        if matches!(
            &*node.name,
            "qti-response-declaration" | "qti-outcome-declaration"
        ) {
            let id = node.get("identifier").expect("an identifier");
            assert!(declared.insert(id.to_owned()), "{id} is declared twice");
        }
    });
    root.every(&mut |node| match &*node.name {
        "qti-variable" | "qti-set-outcome-value" | "qti-correct" | "qti-map-response" => {
            let id = node.get("identifier").expect("an identifier");
            assert!(
                declared.contains(id) || id == "numAttempts",
                "{id} is not declared"
            );
        }
        "qti-feedback-block" => {
            let outcome = node.get("outcome-identifier").expect("an outcome");
            assert!(declared.contains(outcome), "{outcome} is not declared");
            let id = node.get("identifier").expect("an identifier");
            shown.push((outcome.to_owned(), id.to_owned()));
        }
        "img" => assert!(node.get("alt").is_some_and(|alt| alt.len() > 10)),
        _ => {
            if let Some(id) = node.get("response-identifier") {
                assert!(declared.contains(id), "{id} is not declared");
            }
        }
    });
    let all = shown.len();
    shown.sort();
    shown.dedup();
    assert_eq!(all, shown.len(), "two texts under one name");
    let text = root.text();
    if let Some(caution) = problem.caution() {
        let at = text.find(caution.trim()).expect("the caution stands there");
        let first = text
            .find(&*problem.story[0])
            .expect("the story stands there");
        assert!(at < first, "the caution stands before numbers");
    }
    for sheet in &problem.sheets {
        let at = text.find(sheet.trim()).expect("the sheet stands there");
        let solution = text.find("Worked solution").expect("a solution");
        assert!(at < solution, "the sheet stands before the solution alone");
    }
}

#[test]
fn the_same_problems_give_the_same_bytes() {
    let library = shipped();
    let problems: Vec<Problem> = problems(&library).take(4).collect();
    let package = || package("Week 6", &problems);
    assert_eq!(package(), package());
    let first = package().files.remove(0);
    assert_eq!(
        first.path, "imsmanifest.xml",
        "the list of files stands first"
    );
}
