//! Files onto the shelves of the library: in the order in which they need one another,
//! each fault with its place, what is faulty left out.

use std::sync::{Arc, OnceLock};

use super::super::compile::{Shelf, compile};
use super::super::exam;
use super::super::fault::{Fault, SourceFile};
use super::super::fields::{Fields, Reader};
use super::super::format_of;
use super::super::glossary;
use super::super::node::{Block, blocks_of, document, face_of_block};
use super::super::source;
use super::super::variant::Family;
use super::head::{folder, read_head};
use super::room::{Room, of_room, room};
use super::stock::{self, Stock, taken, units_of_one_kind};
use super::{LessonHead, Library, Shelved, Variants, side, top};
use crate::quantities::System;

/// The order in which files need one another.
const ORDER: [Room; 4] = [Room::Sources, Room::Words, Room::Family, Room::Exams];

impl Library {
    /// Reads lesson files; faulty ones are left out and reported, in the order of the files.
    pub fn read(files: &[SourceFile]) -> (Self, Vec<Fault>) {
        Self::default().reading(files, None)
    }

    /// Reads lesson files that were checked before, so that a program which carries
    /// them starts quickly: of each lesson and family only the head is read now, the
    /// rest when it is first asked for. A fault in that rest is not reported; the
    /// family then has no level.
    pub fn read_checked(files: &[SourceFile]) -> (Self, Vec<Fault>) {
        let waiting = Self {
            waits: true,
            ..Self::default()
        };
        waiting.reading(files, None)
    }

    /// The same under a class's own rules file.
    pub fn read_under(files: &[SourceFile], class: &SourceFile) -> (Self, Vec<Fault>) {
        Self::default().reading(files, Some(class))
    }

    fn reading(self, files: &[SourceFile], class: Option<&SourceFile>) -> (Self, Vec<Fault>) {
        let mut library = self;
        let mut faults = Vec::new();
        let mut sorted: Vec<SourceFile> = files.to_vec();
        sorted.sort_by(|a, b| a.path.cmp(&b.path));
        let folders = of_room(&sorted, Room::Lesson).map(|file| folder(&file.path).to_owned());
        library.lesson_folders = folders.collect();
        for wanted in ORDER {
            if wanted == Room::Family {
                faults.append(&mut library.take_stock(&sorted, class));
            }
            for source in of_room(&sorted, wanted) {
                faults.append(&mut library.read_file(wanted, source));
            }
        }
        faults.extend(library.link());
        faults.sort();
        faults.dedup_by(|a, b| a.same_as(b));
        (library, faults)
    }

    fn read_file(&mut self, room: Room, source: &SourceFile) -> Vec<Fault> {
        if self.waits && room == Room::Words {
            self.glossary_waits = Some(source.clone());
            return Vec::new();
        }
        if self.waits && room == Room::Family && self.read_head_alone(source) {
            return Vec::new();
        }
        let mut reader = Reader::new(source);
        match document(source) {
            Ok(file) => self.shelve(room, &mut reader, &file),
            Err(found) => {
                reader.faults = found;
                if room == Room::Sources {
                    self.sources.add_faulty();
                }
            }
        }
        reader.faults
    }

    fn shelve(&mut self, room: Room, reader: &mut Reader<'_>, file: &Block) {
        match room {
            Room::Sources => self.read_sources(reader, file),
            Room::Words => {
                let glossary = glossary::read(reader, file, &self.sources);
                self.glossary = OnceLock::from(glossary);
            }
            Room::Family => self.read_family(reader, file),
            Room::Exams => self.read_exams(reader, file),
            Room::Tables | Room::Sheets | Room::Rules | Room::Lesson => {}
        }
    }

    /// Reads what problems and texts rest on, or lets it wait behind the heads of the lessons.
    fn take_stock(&mut self, files: &[SourceFile], class: Option<&SourceFile>) -> Vec<Fault> {
        let lessons = || of_room(files, Room::Lesson);
        if self.waits
            && let Some(heads) = lessons().map(top::lesson).collect::<Option<Vec<_>>>()
        {
            self.lessons = heads;
            let of_stock = |file: &&SourceFile| {
                room(&file.path).is_some_and(|room| stock::ROOMS.contains(&room))
            };
            self.stock_waits = files.iter().filter(of_stock).cloned().collect();
            return Vec::new();
        }
        let (stock, faults) = Stock::read(files, class, &self.sources);
        self.lessons = stock.lessons.iter().map(LessonHead::of).collect();
        self.stock = OnceLock::from(stock);
        faults
    }

    /// Reads of a family what stands above its first block; says whether that was enough.
    fn read_head_alone(&mut self, source: &SourceFile) -> bool {
        let Some(family) = top::family(source, &self.sources) else {
            return false;
        };
        if self.families.contains_key(&family.id) {
            return false;
        }
        let what = format!("the family \"{}\"", family.id);
        self.read_from.insert(what, source.path.clone());
        let shelved = Shelved {
            family: Arc::new(family),
            variants: OnceLock::new(),
            waiting: Some(Arc::new(source.clone())),
        };
        self.families.insert(shelved.family.id.clone(), shelved);
        true
    }

    fn read_sources(&mut self, reader: &mut Reader<'_>, file: &Block) {
        let mut fields = Fields::new(file, "the file of sources");
        format_of(reader, &mut fields);
        for block in fields.blocks(reader, "source") {
            let Some(source) = source::read(reader, block) else {
                self.sources.add_faulty();
                continue;
            };
            let what = format!("the source \"{}\"", source.id);
            if self.sources.has(&source.id) {
                taken(reader, block, "id", &what, &self.read_from);
                continue;
            }
            self.read_from.insert(what, reader.source.path.clone());
            self.sources.add(source);
        }
        fields.finish(reader);
    }

    fn read_family(&mut self, reader: &mut Reader<'_>, file: &Block) {
        let Some(family) = read_head(reader, file, &self.sources) else {
            return;
        };
        let mut fit = true;
        for block in blocks_of(file, "given").chain(blocks_of(file, "step")) {
            fit &= units_of_one_kind(reader, block);
        }
        if !fit {
            return;
        }
        let variants = OnceLock::from(self.variants_of(&family, reader, file));
        if !reader.faults.is_empty() {
            return;
        }
        let what = format!("the family \"{}\"", family.id);
        if self.families.contains_key(&family.id) {
            taken(reader, file, "family", &what, &self.read_from);
            return;
        }
        self.read_from.insert(what, reader.source.path.clone());
        let shelved = Shelved {
            family: Arc::new(family),
            variants,
            waiting: None,
        };
        self.families.insert(shelved.family.id.clone(), shelved);
    }

    /// A family's file compiled for each of its levels in both systems.
    pub(super) fn variants_of(
        &self,
        family: &Family,
        reader: &mut Reader<'_>,
        file: &Block,
    ) -> Variants {
        let stock = self.stock();
        let mut variants = Variants::new();
        for system in [System::Us, System::Si] {
            let face = face_of_block(file, system);
            for &level in &family.levels {
                let shelf = Shelf {
                    tables: &stock.tables[side(system)],
                    notes: &stock.notes,
                    rules: &stock.rules[side(system)],
                    sources: &self.sources,
                    faulty: &stock.faulty,
                    system,
                    level,
                };
                if let Some(variant) = compile(shelf, reader, &face) {
                    variants.insert((level, system), Arc::new(variant));
                }
            }
        }
        variants
    }

    fn read_exams(&mut self, reader: &mut Reader<'_>, file: &Block) {
        let mut fields = Fields::new(file, "the file of exams");
        format_of(reader, &mut fields);
        let mut families: exam::Families = self
            .lessons
            .iter()
            .map(|lesson| (lesson.id.clone(), Vec::new()))
            .collect();
        for shelved in self.families.values() {
            let family = &shelved.family;
            if let Some(own) = families.get_mut(&family.lesson) {
                own.push(family.id.clone());
            }
        }
        for block in fields.blocks(reader, "exam") {
            let shelf = exam::Shelf {
                sources: &self.sources,
                families: &families,
                folders: &self.lesson_folders,
                before: &self.exams,
                has_table: &|name| self.may_have_table(name),
            };
            let read = exam::read(reader, block, &shelf);
            self.exams.extend(read);
        }
        fields.finish(reader);
    }

    /// Whether there is such a table; where the tables wait they were checked before.
    fn may_have_table(&self, name: &str) -> bool {
        let stock = self.stock.get();
        stock.is_none_or(|stock| stock.tables[0].contains_key(name))
    }

    /// Reads the `[[rule]]` blocks of a plan: each rule with the place of its value
    /// among the choices, to which a figure of the plan's own is added.
    pub(crate) fn read_plan_rules(
        &mut self,
        reader: &mut Reader<'_>,
        blocks: &[&Block],
    ) -> Vec<(String, usize)> {
        self.stock();
        let stock = self.stock.get_mut();
        stock.map_or_else(Vec::new, |stock| stock.read_plan_rules(reader, blocks))
    }

    /// Tells each lesson its families.
    fn link(&mut self) -> Vec<Fault> {
        for lesson in &mut self.lessons {
            let own = self.families.values();
            let own = own.filter(|shelved| shelved.family.lesson == lesson.id);
            lesson.families = own.map(|shelved| shelved.family.id.clone()).collect();
        }
        let stock = self.stock.get_mut();
        stock.map_or_else(Vec::new, |stock| stock.link(&self.families))
    }
}
