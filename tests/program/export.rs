//! Packages for other programs from outside: what is written, where, and what is refused.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use crate::class_folder::{ClassFolder, files};
use crate::started::{printed, refused, run};

const CODE: &str = "cable-drop.2us.F91RB4S.XKKPK";

/// A place for a folder that is not there yet.
fn place(name: &str) -> PathBuf {
    let all = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("packages");
    let folder = all.join(format!("{name}-{}", std::process::id()));
    let _ = fs::remove_dir_all(&folder);
    folder
}

#[test]
fn a_package_lies_open_and_in_one_archive() {
    let folders = [place("first"), place("second")];
    for folder in &folders {
        let asked = ["export", "drawdown", "--draw", "3", "--count", "2", "--qti"];
        let said = printed(&[&asked[..], &[folder.to_str().expect("a path")]].concat());
        assert!(
            said.contains("2 items") && said.lines().count() == 3,
            "{said}"
        );
        for file in [
            "package/imsmanifest.xml",
            "package/test.xml",
            "package/items/q001-drawdown.xml",
            "package/items/q002-drawdown.xml",
            "package/figures/q002-drawdown.svg",
        ] {
            assert!(folder.join(file).exists(), "{file}");
        }
    }
    let [first, second] = folders.map(|folder| fs::read(folder.join("package.zip")));
    assert_eq!(first.expect("an archive"), second.expect("an archive"));
}

#[test]
fn what_lies_there_stays() {
    let folder = place("taken");
    fs::create_dir_all(&folder).expect("a folder");
    fs::write(folder.join("mine.txt"), "mine").expect("a file");
    let shown = folder.to_str().expect("a path");
    let sentence =
        format!("{shown} is not empty; name another folder, or one that is not there yet");
    refused(&["export", "cable-drop", "--qti", shown], 2, &sentence);
    assert_eq!(fs::read_dir(&folder).expect("a folder").count(), 1);
    let shown = folder.join("mine.txt");
    let done = run(&[
        "export",
        "cable-drop",
        "--qti",
        shown.to_str().expect("a path"),
    ]);
    assert_eq!(done.code, 3, "{done:?}");
}

#[test]
fn a_code_is_one_problem() {
    let folder = place("never");
    let shown = folder.to_str().expect("a path");
    refused(
        &["export", CODE, "--count", "2", "--qti", shown],
        2,
        "a code names one problem; leave --count out, or name a family",
    );
    assert!(!folder.exists());
}

const PLAN: &str = r#"format = 1
plan = "week-6"
title = "Week 6: head & cable"
order = "shuffled"

[[item]]
family = "psi-to-feet"

[[item]]
family = "cable-drop"
level = 2
marks = 6

[[item]]
family = "lockout-order"
"#;

/// A class with two papers, and a make-up of the second.
fn class(name: &str) -> ClassFolder {
    let class = ClassFolder::new(name, PLAN, "name\n\"D'Arcy, Léa\"\n\"Birch, T.\"\n");
    let (plan, list, out) = (
        class.at("plan.toml"),
        class.at("list.csv"),
        class.at("class"),
    );
    let asked = [
        "assign", &plan, "--roster", &list, "--out", &out, "--no-pdf",
    ];
    printed(&asked);
    printed(&[&asked[..], &["--make-up", "002"]].concat());
    class
}

/// The files of a package with their texts.
fn package(folder: &Path) -> BTreeMap<String, String> {
    let text = |bytes| String::from_utf8(bytes).expect("a text");
    let found = files(&folder.join("package")).into_iter();
    found.map(|(name, bytes)| (name, text(bytes))).collect()
}

#[test]
fn a_paper_is_a_package_of_its_problems_in_their_order() {
    let class = class("export-paper");
    let record = fs::read(class.at("class/week-6/printed/001.json")).expect("a record");
    let record: serde_json::Value = serde_json::from_slice(&record).expect("JSON");
    let families: Vec<&str> = (record["items"].as_array().expect("items").iter())
        .map(|item| item["problem"]["family"].as_str().expect("a family"))
        .collect();
    let folder = class.at("class");
    let (by_record, by_screen) = (
        "class/week-6/printed/001.json",
        "class/week-6/screen/001.json",
    );
    let mut packages = Vec::new();
    for (at, asked) in [
        vec![class.at(by_record)],
        vec![class.at(by_screen)],
        vec![folder.clone(), "--paper".into(), "001".into()],
        vec![folder.clone(), "--paper".into(), "d'arcy, léa".into()],
    ]
    .into_iter()
    .enumerate()
    {
        let to = place(&format!("paper-{at}"));
        let mut arguments = vec!["export"];
        arguments.extend(asked.iter().map(String::as_str));
        arguments.extend(["--qti", to.to_str().expect("a path")]);
        let said = printed(&arguments);
        let codes: Vec<&str> = said.lines().skip(1).collect();
        assert!(said.contains(": 3 items, and "), "{said}");
        // What is said of a problem draws it no second time.
        let faces: Vec<String> = (families.iter())
            .map(|family| match *family {
                "cable-drop" => "  cable-drop.2us".to_owned(),
                other => format!("  {other}.1us"),
            })
            .collect();
        assert_eq!(codes, faces);
        packages.push(package(&to));
    }
    let own = &packages[0];
    assert!(packages.iter().all(|other| other == own));
    assert!(
        own["test.xml"].contains("Week 6: head &amp; cable"),
        "{}",
        own["test.xml"]
    );
    let items: Vec<&String> = own
        .keys()
        .filter(|path| path.starts_with("items/"))
        .collect();
    let wanted: Vec<String> = (1..)
        .zip(&families)
        .map(|(number, family)| format!("items/q{number:03}-{family}.xml"))
        .collect();
    assert_eq!(items, wanted.iter().collect::<Vec<_>>());
    // The job and the marks are those of the paper.
    let screen = fs::read(class.at(by_screen)).expect("a paper");
    let screen: serde_json::Value = serde_json::from_slice(&screen).expect("JSON");
    for (item, path) in screen["items"]
        .as_array()
        .expect("items")
        .iter()
        .zip(&wanted)
    {
        let said = item["text"][0].as_str().expect("a text");
        let start: String = said
            .chars()
            .take(40)
            .take_while(|sign| *sign != '"')
            .collect();
        assert!(
            own[path].contains(start.trim()),
            "{start} is not in\n{}",
            own[path]
        );
    }
    let cable = wanted.iter().find(|path| path.ends_with("cable-drop.xml"));
    let cable = &own[cable.expect("the item")];
    let most = cable.split("\"MAXSCORE\"").nth(1).expect("its marks");
    assert!(
        most.split("<qti-value>")
            .nth(1)
            .is_some_and(|own| own.starts_with("6<"))
    );
    // The make-up has other numbers.
    let to = place("paper-make-up");
    let path = class.at("class/week-6/printed/002+2.json");
    printed(&["export", &path, "--qti", to.to_str().expect("a path")]);
    let make_up = package(&to);
    let mut items = make_up
        .iter()
        .filter(|(path, _)| path.starts_with("items/"));
    assert_eq!(items.clone().count(), 3);
    assert!(items.all(|(path, text)| own.get(path) != Some(text)));
}

#[test]
fn a_paper_that_is_not_at_home_with_its_key_is_refused() {
    let class = class("export-refused");
    let folder = class.at("class");
    fs::copy(
        class.at("class/week-6/screen/001.json"),
        class.at("handed-out.json"),
    )
    .expect("copied");
    fs::write(class.at("other.json"), "{}").expect("a file");
    let to = place("paper-never");
    let shown = to.to_str().expect("a path");
    let is = |asked: &[&str], sentence: &str| {
        let run = run(&[&["export"], asked, &["--qti", shown]].concat());
        let said = run.err.replace(class.path(), "HERE");
        assert_eq!(
            (run.code, said),
            (2, format!("error: {sentence}\n")),
            "{asked:?}"
        );
        assert!(!to.exists());
    };
    is(
        &[&class.at("handed-out.json")],
        "HERE/handed-out.json is sealed: it has no answers, and only the folder of its class, with the class key, has them; name the paper there",
    );
    for name in ["other.json", "none.pdf"] {
        is(
            &[&class.at(name)],
            &format!(
                "HERE/{name} is no paper in the folder of a class; name one in its printed/, or the folder with --paper NUMBER"
            ),
        );
    }
    is(
        &[&class.at("class/week-6/printed/009.json")],
        "paper 009 is not in HERE/class/week-6",
    );
    is(
        &[&folder, "--paper", "Birch, T."],
        "Birch, T. has several papers; name one by its number: 002, 002+2",
    );
    is(
        &[&folder, "--paper", "Nobody"],
        "there is nobody \"Nobody\" in this class; give the id, or the whole name as roster.csv has it",
    );
    let own = [
        ["--count", "2"],
        ["--level", "1"],
        ["--units", "si"],
        ["--draw", "3"],
        ["--rule", "tank.precharge_below=3 psi"],
    ];
    for [option, value] in own {
        is(
            &[&folder, "--paper", "001", option, value],
            "a paper has problems of its own; leave --count, --level, --units, --draw and --rule out",
        );
    }
    fs::remove_file(class.at("class/class.key")).expect("the key");
    is(
        &[&folder, "--paper", "001"],
        "HERE/class has no class.key that can be read; a sealed paper leaves its class only with the key: put it back",
    );
}
