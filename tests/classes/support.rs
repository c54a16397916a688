//! A class to try things on: the shipped lessons, a plan, a key and people.

use std::sync::LazyLock;

use pumpwright_engine::classes::plan::{self, Plan};
use pumpwright_engine::classes::printed::{LessonText, PrintedPaper};
use pumpwright_engine::classes::roster::Person;
use pumpwright_engine::classes::seal::ClassKey;
use pumpwright_engine::classes::sit::SitPaper;
use pumpwright_engine::classes::{Drawing, Paper};
use pumpwright_engine::lessons::{Library, SourceFile};

use crate::common::{root, texts};

/// The plan of most tests, and of the bench of a class.
pub const PLAN: &str = include_str!("week-6.toml");

pub static FILES: LazyLock<Vec<SourceFile>> = LazyLock::new(|| {
    let files = texts(&root().join("lessons"), "toml").into_iter();
    let at_home = |file: SourceFile| SourceFile {
        path: format!("lessons/{}", file.path),
        ..file
    };
    files.map(at_home).collect()
});

pub fn source(text: &str) -> SourceFile {
    SourceFile {
        path: "plan.toml".into(),
        text: text.into(),
    }
}

/// A class of so many, with its plan.
pub struct Class {
    pub library: Library,
    pub plan: Plan,
    pub key: ClassKey,
    pub people: Vec<Person>,
    pub text: LessonText,
}

impl Class {
    pub fn new(plan: &str, count: usize) -> Self {
        Self::over(&FILES, plan, count)
    }

    pub fn over(files: &[SourceFile], plan: &str, count: usize) -> Self {
        let (mut library, faults) = Library::read(files);
        assert!(faults.is_empty(), "{faults:?}");
        let source = source(plan);
        let plan = plan::read(&mut library, &source).unwrap_or_else(|faults| {
            let said: Vec<String> = faults.iter().map(ToString::to_string).collect();
            panic!("{}", said.join("\n"))
        });
        let text = LessonText::of(files, &library, (&plan, &source), None);
        Self {
            library,
            plan,
            key: ClassKey::of([9; 32]),
            people: people(count),
            text,
        }
    }

    pub fn papers(&self) -> Vec<Paper> {
        let mut drawing = Drawing::new(&self.library, &self.plan, &self.key).unwrap();
        let people = self.people.iter();
        people
            .map(|person| drawing.paper(person).unwrap())
            .collect()
    }

    pub fn printed(&self, paper: &Paper) -> PrintedPaper {
        PrintedPaper::of(paper, &self.text.sum(), &SitPaper::of(paper).sum())
    }
}

pub fn people(count: usize) -> Vec<Person> {
    let person = |at: usize| Person {
        id: format!("{at:03}"),
        name: format!("Person {at}"),
    };
    (1..=count).map(person).collect()
}
