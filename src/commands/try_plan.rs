//! The instructor's own try of a plan in plain lines: a draw of it as somebody in the class
//! gets it, marked when it is handed in, and kept nowhere.

use std::path::Path;
use std::time::Instant;

use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::seal::ClassKey;
use pumpwright_engine::classes::sit::SitPaper;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::quantities::DecimalSign;
use pumpwright_screens::{PaperTools, TrialPlain, unseen};

use super::sit::{Asking, Ended, prompt};
use super::{plan, practice};
use crate::console::Console;
use crate::failure::{Failure, shown};

const MINUTE: u64 = 60;

/// Asks a draw of a plan, none of those that `plan show` prints answers of, and marks it.
///
/// # Errors
/// When the plan is faulty, or cannot be drawn.
pub fn run(
    (file, draw): (&Path, Option<u32>),
    decimal: DecimalSign,
    library: &mut Library,
    console: &mut Console,
) -> Result<(), Failure> {
    let (plan, _) = plan::read(file, library)?;
    let papers = plan::trial(&plan, &ClassKey::of([0; 32]), library)?;
    let number = practice::draws(draw)() as usize;
    let Some(paper) = unseen(&papers, number) else {
        return Err(Failure::Input(format!(
            "{} cannot be drawn; pumpwright plan show tells why",
            file.display()
        )));
    };
    console.line(format_args!("paper: {}", plan.title))?;
    console.line("note: your own try of this plan; nothing of it is kept")?;
    let sit = SitPaper::of(paper);
    let answers = Answers::to(&sit);
    let since = Instant::now();
    let mut nowhere = |_: &Answers| Ok(());
    let mut asking = Asking::new(
        (sit, answers),
        PaperTools::new(library, decimal),
        &mut nowhere,
    );
    if asking.work(console)? == Ended::Stopped {
        return console.line("end: stopped before it was handed in; nothing is kept");
    }
    let minutes = since.elapsed().as_secs() / MINUTE;
    let minutes = i64::try_from(minutes).unwrap_or(i64::MAX);
    let written = asking.answers.items;
    let manner = Manner { decimal };
    let mut trial = TrialPlain::of(paper, (written, minutes), manner, !console.unicode);
    for line in trial.marks() {
        console.line(line)?;
    }
    look(&mut trial, console)
}

/// The items worked, as often as one is asked for.
fn look(trial: &mut TrialPlain, console: &mut Console) -> Result<(), Failure> {
    let last = trial.items();
    loop {
        console.line(format_args!(
            "next: A number from 1 to {last} shows that item worked, beside what you wrote. Enter alone ends."
        ))?;
        let typed = prompt(console)?.unwrap_or_default();
        if typed.is_empty() || typed.eq_ignore_ascii_case("?q") {
            return Ok(());
        }
        let item = typed.parse().ok().and_then(|item| trial.worked(item));
        let Some(worked) = item else {
            console.line(format_args!(
                "note: there is no item {}; write a number from 1 to {last}",
                shown(&typed)
            ))?;
            continue;
        };
        for line in worked {
            console.line(line)?;
        }
    }
}

#[cfg(test)]
mod tests {
    use pumpwright_engine::problems::working;

    use super::*;
    use crate::lesson_files::carried;
    use crate::testing::Folder;

    const PLAN: &str = "format = 1\nplan = \"week-6\"\ntitle = \"Week 6\"\npass = 70\n\
        [[item]]\nfamily = \"psi-to-feet\"\n[[item]]\nfamily = \"cable-drop\"\n";

    fn library() -> Library {
        Library::read_checked(&carried().files).0
    }

    /// What a try prints when this is typed.
    fn tried(name: &str, typed: &str) -> Result<String, Failure> {
        let folder = Folder::new(name);
        let file = folder.path("week.toml");
        std::fs::write(&file, PLAN).expect("a file");
        let (mut out, mut err, mut input) = (Vec::new(), Vec::new(), typed.as_bytes());
        let mut console = Console {
            out: &mut out,
            err: &mut err,
            input: &mut input,
            unicode: true,
        };
        run(
            (&file, Some(7)),
            DecimalSign::Point,
            &mut library(),
            &mut console,
        )?;
        assert!(err.is_empty());
        let files = std::fs::read_dir(folder.root()).expect("a folder").count();
        assert_eq!(files, 1, "something is kept");
        Ok(String::from_utf8(out).expect("a text"))
    }

    /// The answers of the paper that a try with this draw asks, item by item.
    fn answers() -> Vec<Vec<String>> {
        let folder = Folder::new("try-answers");
        let file = folder.path("week.toml");
        std::fs::write(&file, PLAN).expect("a file");
        let mut library = library();
        let (plan, _) = plan::read(&file, &mut library).expect("a plan");
        let papers = plan::trial(&plan, &ClassKey::of([0; 32]), &library).expect("papers");
        let paper = unseen(&papers, 7).expect("a paper");
        let item = |problem: &pumpwright_engine::problems::Problem| {
            let worked = working(problem);
            let typed = |id: &str| worked.iter().find(|own| own.id == id).expect("a line");
            let lines = problem.asked();
            lines
                .map(|(_, line)| typed(&line.id).typed.clone())
                .collect()
        };
        paper.items.iter().map(|own| item(&own.problem)).collect()
    }

    #[test]
    fn a_try_is_marked_and_its_items_are_shown_worked() {
        let mut lines: Vec<String> = answers().concat();
        lines.extend(["", "2", "9", ""].map(str::to_owned));
        let said = tried("try-right", &(lines.join("\n") + "\n")).expect("a try");
        for words in [
            "paper: Week 6\nnote: your own try of this plan; nothing of it is kept\nmarks: ",
            "next: Enter hands in.",
            "sheet: PAPER, TRIED, Week 6\n",
            "pass is ",
            ": passed.",
            "You took 0 min, the plan says ",
            "note: there is no item 9; write a number from 1 to 2\n",
            "sheet: JOB SHEET, WORKED, with your figures\n",
            "yours ",
        ] {
            assert!(said.contains(words), "{words} is not in\n{said}");
        }
        assert!(said.ends_with("Enter alone ends.\nwrite: "), "{said}");
        // The worked item comes when it is asked for, not before.
        let (before, after) = said.split_once("next: A number").unwrap_or_default();
        assert!(
            !before.contains("WORKED") && after.contains("WORKED"),
            "{said}"
        );
    }

    #[test]
    fn what_is_wrong_or_left_open_earns_nothing() {
        let said = tried("try-open", "?Z\n?Z\n").expect("a try");
        assert!(said.contains("open: 1.1 2.1 2.2 2.3 2.4\n"), "{said}");
        assert!(said.contains(": not passed."), "{said}");
    }

    #[test]
    fn a_try_that_breaks_off_is_told_and_kept_nowhere() {
        let said = tried("try-stopped", "100 ft\n").expect("a try");
        assert!(
            said.ends_with("end: stopped before it was handed in; nothing is kept\n"),
            "{said}"
        );
        assert!(!said.contains("TRIED"), "{said}");
    }
}
