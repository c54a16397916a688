//! The files of a paper that is answered: the paper that an instructor gave, and beside the
//! file of answers that is handed in what is half written.

use std::path::{Path, PathBuf};

use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::sit::SitPaper;

use super::folder::text_of;
use crate::failure::Failure;
use crate::{own_file, platform};

/// Where the answers to a paper are kept.
#[derive(Debug, Clone)]
pub struct AnswerFile {
    /// The file that is handed in.
    out: PathBuf,
    /// What is half written.
    draft: PathBuf,
}

/// Reads a paper that an instructor gave.
///
/// # Errors
/// When it cannot be read, or is none.
pub fn read_paper(file: &Path) -> Result<SitPaper, Failure> {
    let text = text_of(file)?;
    SitPaper::read(&text).map_err(|what| Failure::Input(format!("{} {what}", file.display())))
}

/// The name of the file of answers: the next plan's is another.
pub fn own_name(paper: &SitPaper) -> String {
    format!("answers-{}-{}.json", paper.head.plan, paper.person.id)
}

impl AnswerFile {
    /// The answers that are handed in as this file.
    pub fn at(out: PathBuf) -> Self {
        let mut name = out.as_os_str().to_owned();
        name.push(".draft");
        Self {
            draft: PathBuf::from(name),
            out,
        }
    }

    /// The file that is handed in.
    pub fn out(&self) -> &Path {
        &self.out
    }

    /// What is half written.
    pub fn draft(&self) -> &Path {
        &self.draft
    }

    /// The answers to a paper as they were left, or a blank hand-in.
    ///
    /// # Errors
    /// When the paper was handed in, or what is there is none of this paper.
    pub fn begin(&self, paper: &SitPaper) -> Result<Answers, Failure> {
        if self.out.exists() {
            return Err(Failure::Input(format!(
                "{} is there: this paper was handed in; hand that file over, or name another by --out",
                self.out.display()
            )));
        }
        let blank = Answers::to(paper);
        if !self.draft.exists() {
            return Ok(blank);
        }
        let shown = self.draft.display();
        // A draft of another paper, or a broken one, is no reason to lose either.
        match Answers::read(&text_of(&self.draft)?) {
            Ok(kept) if kept.sum == blank.sum => Ok(kept),
            Ok(_) => Err(Failure::Input(format!(
                "{shown} belongs to another paper; name another file by --out"
            ))),
            Err(what) => Err(Failure::Input(format!(
                "{shown} {what}, or take it away to begin anew"
            ))),
        }
    }

    /// Keeps what is half written.
    ///
    /// # Errors
    /// When it cannot be written; what was there stays.
    pub fn keep(&self, answers: &Answers) -> Result<(), Failure> {
        own_file::put(&self.draft, answers.text().as_bytes()).map_err(|error| {
            Failure::World(format!(
                "{} cannot be written: {error}",
                self.draft.display()
            ))
        })
    }

    /// Hands the answers in, with the time of now: they are on the disk before this returns.
    ///
    /// # Errors
    /// When they cannot be written; what is half written stays.
    pub fn hand_in(&self, mut answers: Answers) -> Result<(), Failure> {
        (answers.at, answers.zone) = platform::clock();
        own_file::replace(&self.out, answers.text().as_bytes()).map_err(|error| {
            Failure::World(format!(
                "{} cannot be written: {error}; what you wrote is kept in {}",
                self.out.display(),
                self.draft.display()
            ))
        })?;
        // It is handed in; that its draft may stay is no fault.
        let _ = std::fs::remove_file(&self.draft);
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::Folder;
    use pumpwright_engine::classes::Head;
    use pumpwright_engine::classes::roster::Person;
    use pumpwright_engine::classes::sit::{SitAsks, SitItem, SitLine};

    fn paper(id: &str) -> SitPaper {
        let line = SitLine {
            number: 1,
            label: "run".into(),
            unit: Some("ft".into()),
            form: String::new(),
            marks: 1,
            asks: SitAsks::Figure,
        };
        SitPaper {
            kind: "pumpwright paper".into(),
            format: 1,
            head: Head {
                plan: "week-6".into(),
                title: "Week 6".into(),
                date: None,
                due: None,
                units: "us".into(),
                marks: 1,
                minutes: 2,
                pass_halves: None,
                tables: "No table may be open.".into(),
                marks_by: "steps".into(),
            },
            person: Person {
                id: id.into(),
                name: "D'Arcy, Léa".into(),
            },
            items: vec![SitItem {
                number: 1,
                code: "cable-drop.2us".into(),
                title: "Volts lost".into(),
                caution: None,
                text: vec!["How far?".into()],
                figure: None,
                lines: vec![line],
                marks: 1,
            }],
        }
    }

    fn said(failure: &Failure) -> String {
        failure.sentence().unwrap_or_default()
    }

    #[test]
    fn what_is_half_written_goes_on_and_is_gone_when_it_is_handed_in() {
        let folder = Folder::new("answers-go-on");
        let given = folder.path("019.json");
        std::fs::write(&given, paper("019").text()).expect("a file");
        let paper = read_paper(&given).expect("a paper");
        let file = AnswerFile::at(folder.path(&own_name(&paper)));
        let mut answers = file.begin(&paper).expect("a blank hand-in");
        answers.items[0][0] = "430 ft".into();
        file.keep(&answers).expect("it is kept");
        assert_eq!(file.begin(&paper).expect("as it was left"), answers);
        file.hand_in(answers).expect("it is handed in");
        assert!(!file.draft().exists());
        let out = file.out().display();
        assert_eq!(
            said(&file.begin(&paper).expect_err("it was handed in")),
            format!(
                "{out} is there: this paper was handed in; hand that file over, or name another by --out"
            )
        );
        let text = text_of(file.out()).expect("a text");
        let kept = Answers::read(&text).expect("answers");
        assert_eq!(
            (kept.items, kept.at > 0),
            (vec![vec!["430 ft".to_owned()]], true)
        );
    }

    #[test]
    fn what_belongs_to_another_paper_is_left_alone() {
        let folder = Folder::new("answers-of-another");
        let file = AnswerFile::at(folder.path("answers.json"));
        let draft = file.draft().display().to_string();
        file.keep(&Answers::to(&paper("018"))).expect("it is kept");
        assert_eq!(
            said(&file.begin(&paper("019")).expect_err("another's")),
            format!("{draft} belongs to another paper; name another file by --out")
        );
        std::fs::write(file.draft(), "{").expect("a file");
        assert_eq!(
            said(&file.begin(&paper("019")).expect_err("broken")),
            format!(
                "{draft} is no file of answers of this program; name one that it wrote, or take it away to begin anew"
            )
        );
        let none = folder.path("none.json");
        let fault = said(&read_paper(&none).expect_err("it is not there"));
        assert!(fault.starts_with(&format!("{} cannot be read: ", none.display())));
    }
}
