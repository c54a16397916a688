//! Reading every lesson file and drawing every family: each fault with its place
//! and what to do about it. What counts as a fault is the engine's to say.

use std::path::Path;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex};
use std::thread;

use pumpwright_engine::classes::plan;
use pumpwright_engine::lessons::{self, Family, Library, SourceFile};
use pumpwright_engine::problems::{Survey, survey};
use pumpwright_engine::quantities::System;

use super::json;
use crate::classroom::text_of;
use crate::cli::Check;
use crate::console::Console;
use crate::failure::Failure;
use crate::lesson_files::{Files, family_of};

/// How many families are drawn at a time.
const THREADS: usize = 2;

/// Checks lesson files and prints what is found.
///
/// # Errors
/// [`Failure::Found`] when anything is.
pub fn run(
    asked: &Check,
    files: &Files,
    class: Option<&SourceFile>,
    console: &mut Console,
) -> Result<(), Failure> {
    let (library, faults) = match class {
        Some(class) => Library::read_under(&files.files, class),
        None => Library::read(&files.files),
    };
    let own = |family: &&Arc<Family>| {
        asked.all || files.own().iter().any(|file| file.path == family.file)
    };
    let drawn: Vec<Arc<Family>> = library.families().filter(own).cloned().collect();
    let found = Found {
        files,
        faults,
        surveys: draw_all(&library, &drawn, asked.draws),
        left: library.families().count() - drawn.len(),
        library,
    };
    if asked.json {
        console.json(&found.as_json())?;
    } else {
        found.print(console)?;
    }
    if found.count() > 0 {
        Err(Failure::Found)
    } else {
        Ok(())
    }
}

/// Checks a plan and prints what is found, or what it comes to.
///
/// # Errors
/// [`Failure::Found`] when it has a fault.
pub fn plan(
    path: &Path,
    as_json: bool,
    library: &mut Library,
    console: &mut Console,
) -> Result<(), Failure> {
    let source = SourceFile {
        path: path.display().to_string(),
        text: text_of(path)?,
    };
    if !plan::is_plan(&source.text) {
        return Err(Failure::Input(format!(
            "{} is no plan: it has no line plan = \"…\"; name a plan, or a folder of lessons",
            source.path
        )));
    }
    let read = plan::read(library, &source);
    let faults = read.as_ref().err().cloned().unwrap_or_default();
    if as_json {
        console.json(&json::Check {
            format: json::FORMAT,
            files: 1,
            families: library.families().count(),
            faults: faults.iter().map(fault).collect(),
            surveys: Vec::new(),
        })?;
    } else {
        for fault in &faults {
            console.line(format_args!("{fault}\n"))?;
        }
        match &read {
            Ok(plan) => console.line(format_args!(
                "plan {}: {} items, {} marks, about {} min, 0 faults",
                plan.id,
                plan.count(),
                plan.marks(),
                plan.minutes()
            ))?,
            Err(_) => {
                let noun = if faults.len() == 1 { "fault" } else { "faults" };
                console.line(format_args!("{} {noun}", faults.len()))?;
            }
        }
    }
    if faults.is_empty() {
        Ok(())
    } else {
        Err(Failure::Found)
    }
}

/// Families at every level and in every system, drawn so many times each.
fn draw_all(library: &Library, families: &[Arc<Family>], draws: u32) -> Vec<Survey> {
    let mut wanted = Vec::new();
    for family in families {
        for &level in &family.levels {
            wanted.extend(System::BOTH.map(|system| (family.id.as_str(), level, system)));
        }
    }
    let next = AtomicUsize::new(0);
    let done = Mutex::new(Vec::new());
    let work = || {
        while let Some((family, level, system)) = wanted.get(next.fetch_add(1, Ordering::Relaxed)) {
            let own = survey(library, family, *level, *system, draws);
            done.lock()
                .unwrap_or_else(std::sync::PoisonError::into_inner)
                .extend(own);
        }
    };
    thread::scope(|scope| {
        for _ in 0..THREADS {
            scope.spawn(work);
        }
    });
    let mut surveys = done
        .into_inner()
        .unwrap_or_else(std::sync::PoisonError::into_inner);
    surveys.sort_by(|a, b| {
        let key = |survey: &Survey| (survey.family.clone(), survey.level, survey.system);
        key(a).cmp(&key(b)).then_with(|| a.rule.cmp(&b.rule))
    });
    surveys
}

/// Everything that a check found.
struct Found<'a> {
    files: &'a Files,
    library: Library,
    faults: Vec<lessons::Fault>,
    surveys: Vec<Survey>,
    /// How many families of the program were left undrawn.
    left: usize,
}

impl Found<'_> {
    fn count(&self) -> usize {
        let findings: usize = self
            .surveys
            .iter()
            .map(|survey| survey.findings.len())
            .sum();
        self.files.unread.len() + self.faults.len() + findings
    }

    fn print(&self, console: &mut Console) -> Result<(), Failure> {
        for sentence in &self.files.unread {
            console.line(format_args!("error: {sentence}\n"))?;
        }
        for fault in &self.faults {
            console.line(format_args!("{fault}\n"))?;
        }
        for survey in &self.surveys {
            for finding in &survey.findings {
                console.line(format_args!("error: {finding}"))?;
                console.line(format_args!("  {}\n", self.place(survey)))?;
            }
        }
        for survey in self.surveys.iter().filter(|survey| survey.rule.is_none()) {
            console.line(format_args!("{}: {}", name(survey), rates(survey)))?;
        }
        if let Some(line) = self.undrawn() {
            console.line(line)?;
        }
        let (files, count) = (self.files.files.len(), self.count());
        let families = self.library.families().count();
        let noun = if count == 1 { "fault" } else { "faults" };
        console.line(format_args!(
            "{files} files, {families} families, {count} {noun}"
        ))
    }

    /// What is said of the program's own families, where a folder is checked: whether what
    /// the folder changes could reach them.
    fn undrawn(&self) -> Option<String> {
        let count = match self.left {
            0 => return None,
            1 => "1 family of the program is not drawn".to_owned(),
            left => format!("{left} families of the program are not drawn"),
        };
        let reaches = |file: &SourceFile| {
            let alone = file.path.ends_with("/lesson.toml") || file.path.contains("/sources/");
            !alone && family_of(&file.text).is_none()
        };
        let though = if self.files.own().iter().any(reaches) {
            ", though this folder has tables or rules that they may use"
        } else {
            ""
        };
        Some(format!("{count}{though}; --all draws them, too"))
    }

    /// The file of a survey's family, and what was drawn.
    fn place(&self, survey: &Survey) -> String {
        let file = self
            .library
            .family(&survey.family)
            .map_or("", |family| family.file.as_str());
        format!("{file}, {}", name(survey))
    }

    fn as_json(&self) -> json::Check {
        let unread = self.files.unread.iter().map(|sentence| unread(sentence));
        json::Check {
            format: json::FORMAT,
            files: self.files.files.len(),
            families: self.library.families().count(),
            faults: unread.chain(self.faults.iter().map(fault)).collect(),
            surveys: self.surveys.iter().map(surveyed).collect(),
        }
    }
}

fn name(survey: &Survey) -> String {
    let rule = survey.rule.as_ref().map(|rule| format!(", {rule}"));
    let Survey {
        family,
        level,
        system,
        ..
    } = survey;
    format!(
        "{family}, level {level}, {system}{}",
        rule.unwrap_or_default()
    )
}

fn rates(survey: &Survey) -> String {
    format!(
        "{} drawn; {:.0} % of tries meet every requirement; a mistake would be right in {:.1} %",
        survey.drawn,
        100.0 * survey.accepted(),
        100.0 * survey.guard_rate()
    )
}

fn surveyed(survey: &Survey) -> json::Surveyed {
    json::Surveyed {
        family: survey.family.clone(),
        level: survey.level,
        units: survey.system.letters().to_owned(),
        rule: survey.rule.clone(),
        drawn: survey.drawn,
        tries: survey.tries,
        accepted: survey.accepted(),
        guarded: survey.guard_rate(),
        findings: survey.findings.clone(),
    }
}

fn fault(fault: &lessons::Fault) -> json::Fault {
    json::Fault {
        file: fault.file.clone(),
        line: Some(fault.line),
        column: Some(fault.column),
        message: fault.message.clone(),
        remedy: fault.remedy.clone(),
        text: fault.to_string(),
    }
}

fn unread(sentence: &str) -> json::Fault {
    json::Fault {
        file: sentence.split(" is ").next().unwrap_or(sentence).to_owned(),
        line: None,
        column: None,
        message: sentence.to_owned(),
        remedy: None,
        text: format!("error: {sentence}"),
    }
}
