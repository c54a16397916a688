//! Everything that is read: lessons, families, tables and house rules. A faulty
//! file is left out with its faults; the rest works.

mod head;
mod reading;
mod room;
mod stock;
mod top;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, OnceLock};

use super::exam::Exam;
use super::fault::{SourceFile, nearest};
use super::fields::Reader;
use super::glossary::{self, Glossary};
use super::jurisdiction::Jurisdiction;
use super::lesson::Lesson;
use super::node::document;
use super::rule::Rule;
use super::source::{Source, Sources};
use super::table::{TableNote, Tables};
use super::variant::{Family, Variant};
use crate::quantities::System;
use stock::Stock;

/// Everything that was read.
#[derive(Debug, Clone, Default)]
pub struct Library {
    /// What heads each lesson.
    lessons: Vec<LessonHead>,
    families: BTreeMap<String, Shelved>,
    sources: Sources,
    exams: Vec<Exam>,
    /// The folders that have a lesson's file, even a faulty one.
    lesson_folders: BTreeSet<String>,
    /// Whether files were checked before and are read when first asked for.
    waits: bool,
    /// Read with the files, or when a problem or a text is first asked for.
    stock: OnceLock<Stock>,
    /// The files of the stock, where they wait for that.
    stock_waits: Vec<SourceFile>,
    /// Read with the files, or when a word is first looked up.
    glossary: OnceLock<Glossary>,
    /// The file of the glossary, where it waits for that.
    glossary_waits: Option<SourceFile>,
    /// Where each source and family was read from.
    read_from: BTreeMap<String, String>,
}

/// What heads a lesson: as much as a list of lessons needs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LessonHead {
    /// Its id, which is the name of its folder.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Lessons to be read before it.
    pub before: Vec<String>,
    /// Its families, in the order of their ids.
    pub families: Vec<String>,
}

impl LessonHead {
    fn of(lesson: &Lesson) -> Self {
        Self {
            id: lesson.id.clone(),
            title: lesson.title.clone(),
            before: lesson.before.clone(),
            families: lesson.families.clone(),
        }
    }
}

#[derive(Debug, Clone)]
struct Shelved {
    family: Arc<Family>,
    /// Filled when the file is read, or when a problem is first asked of the family.
    variants: OnceLock<Variants>,
    /// The file, where it waits for that.
    waiting: Option<Arc<SourceFile>>,
}

/// A family at each of its levels in both systems.
type Variants = BTreeMap<(u8, System), Arc<Variant>>;

/// The place of a system's face in a pair.
const fn side(system: System) -> usize {
    match system {
        System::Us => 0,
        System::Si => 1,
    }
}

impl Library {
    /// What heads each lesson, in the order of their ids.
    pub fn lesson_heads(&self) -> &[LessonHead] {
        &self.lessons
    }

    /// What heads the lesson of this id.
    pub fn lesson_head(&self, id: &str) -> Option<&LessonHead> {
        self.lessons.iter().find(|lesson| lesson.id == id)
    }

    /// The lessons, in the order of their ids.
    pub fn lessons(&self) -> &[Lesson] {
        &self.stock().lessons
    }

    /// The lesson of this id.
    pub fn lesson(&self, id: &str) -> Option<&Lesson> {
        self.lessons().iter().find(|lesson| lesson.id == id)
    }

    /// What problems and texts rest on.
    fn stock(&self) -> &Stock {
        self.stock.get_or_init(|| {
            let (mut stock, _) = Stock::read(&self.stock_waits, None, &self.sources);
            let _ = stock.link(&self.families);
            stock
        })
    }

    /// The families, in the order of their ids.
    pub fn families(&self) -> impl Iterator<Item = &Arc<Family>> {
        self.families.values().map(|shelved| &shelved.family)
    }

    /// The family of this id.
    pub fn family(&self, id: &str) -> Option<&Arc<Family>> {
        self.families.get(id).map(|shelved| &shelved.family)
    }

    /// A family at a level in a system.
    pub fn variant(&self, family: &str, level: u8, system: System) -> Option<&Arc<Variant>> {
        let shelved = self.families.get(family)?;
        let variants = shelved.variants.get_or_init(|| {
            let read = |source: &Arc<SourceFile>| {
                let file = document(source).ok()?;
                Some(self.variants_of(&shelved.family, &mut Reader::new(source), &file))
            };
            shelved.waiting.as_ref().and_then(read).unwrap_or_default()
        });
        variants.get(&(level, system))
    }

    /// The families whose skills the steps of a family exercise at its home level, beside
    /// its own.
    pub fn skills(&self, family: &str) -> Vec<String> {
        let Some(shelved) = self.families.get(family) else {
            return Vec::new();
        };
        let home = shelved.family.home;
        let waiting = shelved.waiting.as_ref();
        let waiting = waiting.filter(|_| shelved.variants.get().is_none());
        if let Some(skills) = waiting.and_then(|source| top::skills(source, home)) {
            return skills;
        }
        let variant = self.variant(family, home, System::Us);
        let steps = variant.iter().flat_map(|variant| &variant.steps);
        let counted = steps.filter(|step| step.ask && step.marks > 0);
        counted.filter_map(|step| step.skill.clone()).collect()
    }

    /// The house rules, in the order of their file, as a system sees them.
    pub fn rules(&self, system: System) -> &[Rule] {
        &self.stock().rules[side(system)]
    }

    /// The tables as a system sees them.
    pub fn tables(&self, system: System) -> &Tables {
        &self.stock().tables[side(system)]
    }

    /// The documents that figures come from, in the order of their ids.
    pub fn sources(&self) -> impl Iterator<Item = &Source> {
        self.sources.all()
    }

    /// The exams, in the order of their file.
    pub fn exams(&self) -> &[Exam] {
        &self.exams
    }

    /// What the words of the trade mean.
    pub fn glossary(&self) -> &Glossary {
        self.glossary.get_or_init(|| {
            let waiting = self.glossary_waits.as_ref();
            let read = waiting.and_then(|source| {
                let file = document(source).ok()?;
                Some(glossary::read(
                    &mut Reader::new(source),
                    &file,
                    &self.sources,
                ))
            });
            read.unwrap_or_default()
        })
    }

    /// The lessons that explain each word, by the word.
    pub fn lessons_by_word(&self) -> BTreeMap<String, Vec<String>> {
        let mut found: BTreeMap<String, Vec<String>> = BTreeMap::new();
        for lesson in self.lessons() {
            for word in lesson
                .terms
                .iter()
                .flat_map(|term| self.glossary().exactly(term))
            {
                let lessons = found.entry(word.term.clone()).or_default();
                if !lessons.contains(&lesson.id) {
                    lessons.push(lesson.id.clone());
                }
            }
        }
        found
    }

    /// The jurisdiction sheets, in the order of their files.
    pub fn jurisdictions(&self) -> &[Jurisdiction] {
        &self.stock().jurisdictions
    }

    /// The jurisdiction sheet of this name.
    pub fn jurisdiction(&self, name: &str) -> Option<&Jurisdiction> {
        self.jurisdictions().iter().find(|sheet| sheet.name == name)
    }

    /// What a class's own rules file sets: each rule with the place of its value.
    pub fn class_rules(&self) -> &[(String, usize)] {
        // Files that wait have no class beside them.
        self.stock.get().map_or(&[], |stock| &stock.house)
    }

    /// What is said about each table.
    pub fn table_notes(&self) -> &[TableNote] {
        &self.stock().notes
    }

    /// The families nearest to a wrong name.
    pub fn nearest_family(&self, wrong: &str) -> Vec<String> {
        nearest(wrong, self.families.keys().map(String::as_str))
    }

    /// The lessons nearest to a wrong name.
    pub fn nearest_lesson(&self, wrong: &str) -> Vec<String> {
        nearest(wrong, self.lessons.iter().map(|lesson| lesson.id.as_str()))
    }
}
