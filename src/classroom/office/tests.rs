//! Orders from the screen against a folder on disk, from the list to the marks.

use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::marks::State;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::quantities::DecimalSign;
use pumpwright_screens::{Answered, ClassNow, Decision, Keyed, Office as _, Order, Told};

use super::{FileOffice, Stock};
use crate::lesson_files::carried;
use crate::testing::Folder;

const MANNER: Manner = Manner {
    decimal: DecimalSign::Point,
};

const PLAN: &str = "format = 1\nplan = \"week-6\"\ntitle = \"Week 6\"\ndate = \"2026-11-18\"\n\
    [[item]]\nfamily = \"psi-to-feet\"\n[[item]]\nfamily = \"cable-drop\"\n";

fn office() -> FileOffice<'static> {
    FileOffice::new(|| {
        let files = carried().files;
        let (library, _) = Library::read_checked(&files);
        Stock {
            library,
            files,
            class: None,
        }
    })
}

/// What comes of an order, to the last word of it.
fn order(office: &mut FileOffice<'_>, order: Order) -> Told {
    office.order(order, MANNER);
    office.wait().expect("something is told")
}

fn now(told: Told) -> ClassNow {
    match told {
        Told::Now(now) => *now,
        other => panic!("{other:?}"),
    }
}

fn refused(told: Told) -> String {
    match told {
        Told::Refused(why) => why,
        other => panic!("{other:?}"),
    }
}

/// A class of two with papers, without PDFs: they are made by the command, and their own
/// tests look at them.
fn class(folder: &Folder) -> FileOffice<'static> {
    std::fs::write(folder.path("list.csv"), "name\nAsh\nBirch\n").expect("a file");
    std::fs::write(folder.path("week.toml"), PLAN).expect("a file");
    let mut office = office();
    let list = Order::List {
        folder: shown(folder, "class"),
        file: shown(folder, "list.csv"),
    };
    let listed = now(order(&mut office, list));
    assert_eq!(listed.people.len(), 2);
    let planned = now(order(&mut office, Order::Plan(shown(folder, "week.toml"))));
    let plan = planned.plan.expect("a plan");
    assert_eq!((plan.items, plan.id.as_str()), (2, "week-6"));
    let asked = crate::cli::Assign {
        make_up: None,
        one_more: false,
        plan: folder.path("class/week-6/plan.toml"),
        roster: folder.path("class/roster.csv"),
        out: folder.path("class"),
        no_pdf: true,
        #[cfg(feature = "pdf")]
        size: None,
    };
    let files = carried().files;
    let (mut library, _) = Library::read_checked(&files);
    let mut lessons = crate::commands::assign::Lessons {
        library: &mut library,
        files: &files,
        class: None,
    };
    let (done, _) =
        super::heard::heard(|console| crate::commands::assign::run(&asked, &mut lessons, console));
    done.expect("papers");
    let made = now(order(&mut office, Order::Open(shown(folder, "class"))));
    assert_eq!(made.papers.len(), 2);
    office
}

fn shown(folder: &Folder, name: &str) -> String {
    folder.path(name).display().to_string()
}

fn keyed(paper: &str, items: [Option<&str>; 2], whole: bool) -> Keyed {
    Keyed {
        paper: paper.into(),
        items: items.map(|item| item.map(str::to_owned)).to_vec(),
        at: 1,
        whole,
    }
}

#[test]
fn a_folder_that_is_none_of_a_class_says_what_is_missing() {
    let folder = Folder::new("office-none");
    let mut office = office();
    let nowhere = shown(&folder, "class");
    match order(&mut office, Order::Open(nowhere.clone())) {
        Told::NoClass { folder, why } => {
            assert_eq!(folder, nowhere);
            assert_eq!(
                why,
                format!("{nowhere} is not there yet: name the list of the class")
            );
        }
        other => panic!("{other:?}"),
    }
    let root = folder.root().display().to_string();
    match order(&mut office, Order::Open(root.clone())) {
        Told::NoClass { why, .. } => {
            assert_eq!(why, format!("{root} is none of a class yet: name its list"));
        }
        other => panic!("{other:?}"),
    }
    std::fs::write(folder.path("file"), "").expect("a file");
    let file = shown(&folder, "file");
    assert_eq!(
        refused(order(&mut office, Order::Open(file.clone()))),
        format!("{file} is no folder; name the folder of a class")
    );
    assert_eq!(
        refused(order(&mut office, Order::Samples)),
        "this class has no plan yet"
    );
    assert_eq!(
        refused(order(&mut office, Order::Plan(shown(&folder, "none.toml"))))
            .split(": ")
            .next(),
        Some(&*format!("{} cannot be read", shown(&folder, "none.toml")))
    );
}

#[test]
fn what_is_keyed_is_kept_half_and_filed_whole() {
    let folder = Folder::new("office-pen");
    let mut office = class(&folder);
    let half = keyed("002", [Some("1"), None], false);
    assert!(matches!(order(&mut office, Order::Key(half.clone())), Told::Kept(own) if own == half));
    let before = now(order(&mut office, Order::Open(shown(&folder, "class"))));
    assert_eq!(before.keyed.get("002"), Some(&half));
    let whole = keyed("002", [Some("1"), Some("")], true);
    let after = now(order(&mut office, Order::Key(whole.clone())));
    assert!(after.keyed.is_empty() && after.hand_ins.contains_key("002"));
    assert!(matches!(office.wait(), Some(Told::Kept(own)) if own == whole));
    let marked = after
        .marks
        .people
        .iter()
        .filter(|own| own.state != State::NotIn);
    assert_eq!(marked.count(), 1);
    // A half that cannot be read is told, and stops nothing else.
    std::fs::write(folder.path("class/week-6/pen/001.json"), "{").expect("a file");
    let told = now(order(&mut office, Order::Open(shown(&folder, "class"))));
    let damaged = shown(&folder, "class/week-6/pen/001.json");
    assert_eq!(
        told.notes,
        [format!(
            "{damaged} breaks off or is damaged in line 1; put it back as it was"
        )]
    );
}

#[test]
fn a_decision_is_kept_and_taken_back() {
    let folder = Folder::new("office-decisions");
    let mut office = class(&folder);
    let drop = |reason: &str| {
        Order::Decide(Decision::Drop {
            item: 2,
            reason: reason.into(),
        })
    };
    let dropped = now(order(&mut office, drop("the photo was another")));
    assert_eq!(dropped.decisions.dropped.len(), 1);
    let again = now(order(&mut office, drop("")));
    assert!(again.decisions.dropped.is_empty());
}

#[test]
fn a_make_up_paper_stands_behind_the_first_and_is_told() {
    let folder = Folder::new("office-make-up");
    let mut office = class(&folder);
    let make_up = |person: &str, one_more| Order::MakeUp {
        person: person.into(),
        one_more,
    };
    let mut ordered = |own: Order| {
        let now = now(order(&mut office, own));
        let numbers: Vec<String> = now.people.iter().map(|own| own.id.clone()).collect();
        assert!(now.papers.keys().eq(&numbers), "{numbers:?}");
        (numbers.join(" "), office.wait())
    };
    for (one_more, number, all) in [
        (false, "002+2", "001 002 002+2"),
        (true, "002+3", "001 002 002+2 002+3"),
    ] {
        let (numbers, told) = ordered(make_up("002", one_more));
        assert_eq!(numbers, all);
        let Some(Told::Done(lines)) = told else {
            panic!("{told:?}");
        };
        let papers = shown(&folder, "class/week-6");
        assert_eq!(lines[0], format!("paper {number} for Birch, in {papers}"));
    }
    // What is refused has nothing else to tell, and makes nothing.
    let (numbers, told) = ordered(make_up("009", false));
    assert_eq!(numbers, "001 002 002+2 002+3");
    assert_eq!(
        refused(told.expect("a sentence")),
        "there is nobody \"009\" in this class; give the id, or the whole name as roster.csv has it"
    );
}

#[test]
fn the_form_of_the_mark_sheet_stays_as_the_command_had_it() {
    let folder = Folder::new("office-form");
    let mut office = class(&folder);
    let papers = crate::classroom::PaperFolder::at(folder.path("class/week-6"));
    papers
        .keep_form(crate::classroom::Form {
            semicolons: true,
            decimal_comma: true,
        })
        .expect("kept");
    let whole = keyed("001", [Some(""), Some("1")], true);
    let _ = now(order(&mut office, Order::Key(whole)));
    let sheet = std::fs::read_to_string(folder.path("class/week-6/marks.csv")).expect("a sheet");
    assert!(sheet.contains(";name;came in;item 1;"), "{sheet}");
}

#[test]
fn a_paper_is_given_kept_and_handed_in_beside_its_file() {
    let folder = Folder::new("office-answers");
    let mut office = class(&folder);
    let paper = shown(&folder, "class/week-6/screen/001.json");
    let given = match order(&mut office, Order::Give(paper.clone())) {
        Told::Given(given) => *given,
        other => panic!("{other:?}"),
    };
    let out = shown(&folder, "class/week-6/screen/answers-week-6-001.json");
    assert_eq!(
        (given.out.as_str(), given.paper.items.len()),
        (out.as_str(), 2)
    );
    let mut answered = Answered {
        out: out.clone(),
        answers: given.answers,
        whole: false,
    };
    answered.answers.items[0][0] = "100 ft".into();
    let half = order(&mut office, Order::Answer(Box::new(answered.clone())));
    assert!(matches!(half, Told::Answered(own) if *own == answered));
    let again = order(&mut office, Order::Give(paper.clone()));
    assert!(matches!(again, Told::Given(own) if own.answers == answered.answers));
    answered.whole = true;
    let whole = order(&mut office, Order::Answer(Box::new(answered)));
    assert!(matches!(whole, Told::Answered(_)));
    let text = std::fs::read_to_string(&out).expect("answers");
    assert_eq!(Answers::read(&text).expect("answers").items[0][0], "100 ft");
    assert_eq!(
        refused(order(&mut office, Order::Give(paper))),
        format!(
            "{out} is there: this paper was handed in; hand that file over, or name another by --out"
        )
    );
}

#[test]
fn answers_that_cannot_be_written_are_told_also_when_nobody_listens() {
    let folder = Folder::new("office-lost");
    let mut office = class(&folder);
    let paper = shown(&folder, "class/week-6/screen/001.json");
    let given = match order(&mut office, Order::Give(paper)) {
        Told::Given(given) => *given,
        other => panic!("{other:?}"),
    };
    let out = shown(&folder, "nowhere/answers.json");
    let answered = Box::new(Answered {
        out: out.clone(),
        answers: given.answers,
        whole: false,
    });
    match order(&mut office, Order::Answer(answered.clone())) {
        Told::NotAnswered(own, why) => {
            assert_eq!(own, answered);
            assert!(
                why.starts_with(&format!("{out}.draft cannot be written: ")),
                "{why}"
            );
        }
        other => panic!("{other:?}"),
    }
    let unsaid = office.unsaid();
    office.order(Order::Answer(answered), MANNER);
    drop(office);
    let said = unsaid.next().expect("a sentence");
    assert!(
        said.starts_with(&format!("the answers in {out} are not kept: ")),
        "{said}"
    );
}

#[cfg(feature = "pdf")]
#[test]
fn pages_are_counted_behind_the_samples() {
    use pumpwright_screens::Pages;

    let folder = Folder::new("office-pages");
    let mut office = class(&folder);
    match order(&mut office, Order::Samples) {
        Told::Samples(samples) => {
            assert_eq!((samples.people, &samples.pages), (2, &Pages::Awaited));
        }
        other => panic!("{other:?}"),
    }
    match office.wait() {
        Some(Told::Pages(
            plan,
            Pages::Counted {
                least,
                most,
                together,
                about,
            },
        )) => {
            assert_eq!((plan.as_str(), about), ("week-6", false));
            assert!(least > 0 && least <= most);
            // The second paper begins on a leaf of its own.
            let first = least.next_multiple_of(2)..=most.next_multiple_of(2);
            assert!(first.contains(&(together - least)) || first.contains(&(together - most)));
        }
        other => panic!("{other:?}"),
    }
}

/// The lines of what was done, behind how the class then stands.
#[cfg(feature = "pdf")]
fn printed(office: &mut FileOffice<'_>) -> String {
    let _ = now(order(office, Order::Print));
    match office.wait() {
        Some(Told::Done(lines)) => lines.join("\n"),
        other => panic!("{other:?}"),
    }
}

#[cfg(feature = "pdf")]
#[test]
fn for_a_late_joiner_only_what_is_missing_is_printed() {
    let folder = Folder::new("office-late");
    std::fs::write(folder.path("list.csv"), "name\nAsh\n").expect("a file");
    std::fs::write(folder.path("week.toml"), PLAN).expect("a file");
    let mut office = office();
    let list = || Order::List {
        folder: shown(&folder, "class"),
        file: shown(&folder, "list.csv"),
    };
    let _ = now(order(&mut office, list()));
    let _ = now(order(&mut office, Order::Plan(shown(&folder, "week.toml"))));
    let first = printed(&mut office);
    assert!(
        first.contains("1 paper, 1 new") && first.contains("4 PDFs written"),
        "{first}"
    );
    let written = |name: &str| {
        let meta = std::fs::metadata(folder.path(name)).expect("it is there");
        meta.modified().expect("a time")
    };
    let ash = "class/week-6/papers/001.pdf";
    let before = written(ash);
    std::fs::write(folder.path("list.csv"), "name\nAsh\nBirch\n").expect("a file");
    let _ = now(order(&mut office, list()));
    let second = printed(&mut office);
    // Her own, and the three files in which all stand.
    assert!(
        second.contains("2 papers, 1 new") && second.contains("4 PDFs written"),
        "{second}"
    );
    assert_eq!(written(ash), before, "the paper of Ash was made anew");
    let third = printed(&mut office);
    assert!(
        third.contains("2 papers, 0 new") && third.contains("0 PDFs written"),
        "{third}"
    );
}
