//! Files onto the shelves of the library: in the order in which they need one another,
//! each fault with its place, what is faulty left out.

use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

use super::super::compile::{Shelf, compile};
use super::super::exam;
use super::super::example;
use super::super::fault::{Fault, SourceFile};
use super::super::fields::{Fields, Reader};
use super::super::format_of;
use super::super::glossary;
use super::super::house;
use super::super::jurisdiction;
use super::super::lesson;
use super::super::node::{Block, Item, blocks_of, document, face_of_block};
use super::super::rule;
use super::super::source;
use super::super::table;
use super::super::variant::Family;
use super::head::{folder, read_head};
use super::{Library, Shelved, Variants, side};
use crate::quantities::System;

/// A file of each kind, by its path.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Room {
    Sources,
    Words,
    Sheets,
    Rules,
    Tables,
    Lesson,
    Family,
    Exams,
}
impl Library {
    /// Reads lesson files; faulty ones are left out and reported, in the order of the files.
    pub fn read(files: &[SourceFile]) -> (Self, Vec<Fault>) {
        Self::default().reading(files, None)
    }

    /// Reads lesson files that were checked before, so that a program which carries
    /// them starts quickly: of each family only the head is read now, the rest when
    /// a problem is first asked of it. A fault in that rest is not reported; the
    /// family then has no level.
    pub fn read_checked(files: &[SourceFile]) -> (Self, Vec<Fault>) {
        let waiting = Self {
            families_wait: true,
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
        let mut sorted: Vec<&SourceFile> = files.iter().collect();
        sorted.sort_by(|a, b| a.path.cmp(&b.path));
        for wanted in [
            Room::Sources,
            Room::Words,
            Room::Tables,
            Room::Sheets,
            Room::Rules,
            Room::Lesson,
            Room::Family,
            Room::Exams,
        ] {
            for source in sorted
                .iter()
                .filter(|source| room(&source.path) == Some(wanted))
            {
                if wanted == Room::Words && library.families_wait {
                    library.glossary_waits = Some((*source).clone());
                    continue;
                }
                if wanted == Room::Lesson {
                    library
                        .lesson_folders
                        .insert(folder(&source.path).to_owned());
                }
                let mut reader = Reader::new(source);
                match document(source) {
                    Ok(file) => library.shelve(wanted, &mut reader, &file),
                    Err(found) => {
                        reader.faults = found;
                        match wanted {
                            Room::Rules => library.faulty.add_all_rules(),
                            Room::Sources => library.sources.add_faulty(),
                            _ => {}
                        }
                    }
                }
                faults.append(&mut reader.faults);
            }
            if let Some(class) = class {
                faults.append(&mut library.read_class(wanted, class));
            }
        }
        library.link();
        faults.extend(library.link_examples());
        faults.sort();
        faults.dedup_by(|a, b| a.same_as(b));
        (library, faults)
    }

    fn shelve(&mut self, room: Room, reader: &mut Reader<'_>, file: &Block) {
        match room {
            Room::Sources => self.read_sources(reader, file),
            Room::Words => {
                let glossary = glossary::read(reader, file, &self.sources);
                self.glossary = OnceLock::from(glossary);
            }
            Room::Tables => self.read_tables(reader, file),
            Room::Sheets => self.read_sheets(reader, file),
            Room::Rules => self.read_rules(reader, file),
            Room::Lesson => self.read_lesson(reader, file),
            Room::Family => self.read_family(reader, file),
            Room::Exams => self.read_exams(reader, file),
        }
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

    fn read_tables(&mut self, reader: &mut Reader<'_>, file: &Block) {
        let mut fields = Fields::new(file, "the file of tables");
        format_of(reader, &mut fields);
        for block in fields.blocks(reader, "table") {
            if !units_of_one_kind(reader, block) {
                self.faulty.add(block, "table");
                continue;
            }
            for system in [System::Us, System::Si] {
                let before = reader.faults.len();
                let read = table::read(reader, block, system, &self.sources);
                let (Some((table, note)), true) = (read, reader.faults.len() == before) else {
                    self.faulty.add(block, "table");
                    continue;
                };
                let shelf = &mut self.tables[side(system)];
                if shelf.contains_key(&table.name) {
                    let what = format!("the table \"{}\"", table.name);
                    taken(reader, block, "table", &what, &self.read_from);
                    continue;
                }
                let what = format!("the table \"{}\"", table.name);
                self.read_from.insert(what, reader.source.path.clone());
                shelf.insert(Arc::clone(&table.name), Arc::new(table));
                if system == System::Us {
                    self.notes.push(note);
                }
            }
        }
        fields.finish(reader);
    }

    fn read_sheets(&mut self, reader: &mut Reader<'_>, file: &Block) {
        let mut fields = Fields::new(file, "the file of sheets");
        format_of(reader, &mut fields);
        for block in fields.blocks(reader, jurisdiction::SHEET) {
            self.read_sheet(reader, block);
        }
        fields.finish(reader);
    }

    /// Reads one sheet with its rows and tells its name.
    fn read_sheet(&mut self, reader: &mut Reader<'_>, block: &Block) -> Option<String> {
        let sheet = jurisdiction::read(reader, block, &self.sources)?;
        let what = format!("the sheet \"{}\"", sheet.name);
        if self.jurisdiction(&sheet.name).is_some() {
            taken(reader, block, jurisdiction::SHEET, &what, &self.read_from);
            return None;
        }
        self.read_from.insert(what, reader.source.path.clone());
        jurisdiction::add_rows(reader, block, &sheet.name, &mut self.tables);
        let name = sheet.name.clone();
        self.jurisdictions.push(sheet);
        Some(name)
    }

    /// Reads of a class's own file what belongs to a room: sheets with the sheets, and
    /// values of house rules after the rules.
    fn read_class(&mut self, room: Room, class: &SourceFile) -> Vec<Fault> {
        let mut reader = Reader::new(class);
        let file = match document(class) {
            Ok(file) => file,
            Err(found) if room == Room::Sheets => return found,
            Err(_) => return Vec::new(),
        };
        match room {
            Room::Sheets => {
                let mut fields = Fields::new(&file, "the rules file");
                format_of(&mut reader, &mut fields);
                fields.knows(&house::BLOCKS);
                for block in fields.blocks(&mut reader, jurisdiction::SHEET) {
                    self.read_sheet(&mut reader, block);
                }
                fields.finish(&mut reader);
            }
            Room::Rules => {
                for block in blocks_of(&file, jurisdiction::SHEET) {
                    if let Some(Item::Text { text, .. }) =
                        block.get(jurisdiction::SHEET).map(|node| &node.item)
                    {
                        house::may_be_kept(text, &mut self.rules);
                    }
                }
                for block in Fields::new(&file, "the rules file").blocks(&mut reader, "rule") {
                    let set = house::read(&mut reader, block, &mut self.rules, &self.tables);
                    self.house.extend(set);
                }
            }
            _ => {}
        }
        reader.faults
    }

    /// Reads the `[[rule]]` blocks of a plan: each rule with the place of its value
    /// among the choices, to which a figure of the plan's own is added.
    pub(crate) fn read_plan_rules(
        &mut self,
        reader: &mut Reader<'_>,
        blocks: &[&Block],
    ) -> Vec<(String, usize)> {
        let read = |block: &&Block| house::read(reader, block, &mut self.rules, &self.tables);
        blocks.iter().filter_map(read).collect()
    }

    fn read_rules(&mut self, reader: &mut Reader<'_>, file: &Block) {
        let mut fields = Fields::new(file, "the file of house rules");
        format_of(reader, &mut fields);
        for block in fields.blocks(reader, "rule") {
            let before = reader.faults.len();
            units_of_one_kind(reader, block);
            let faces = [System::Us, System::Si].map(|system| {
                let tables = &self.tables[side(system)];
                rule::read(reader, block, system, tables, &self.sources)
            });
            let ([Some(us), Some(si)], true) = (faces, reader.faults.len() == before) else {
                self.faulty.add(block, "rule");
                continue;
            };
            let what = format!("the house rule \"{}\"", us.name);
            if self.rules[0].iter().any(|known| known.name == us.name) {
                taken(reader, block, "rule", &what, &self.read_from);
                continue;
            }
            self.read_from.insert(what, reader.source.path.clone());
            self.rules[0].push(us);
            self.rules[1].push(si);
        }
        fields.finish(reader);
    }

    fn read_lesson(&mut self, reader: &mut Reader<'_>, file: &Block) {
        let shelves = [0, 1].map(|side| (&self.tables[side], self.rules[side].as_slice()));
        let books = (self.notes.as_slice(), &self.sources);
        let Some(lesson) = lesson::read(reader, file, shelves, books, &self.faulty) else {
            return;
        };
        let claim = example::read(reader, file);
        if !reader.faults.is_empty() {
            return;
        }
        let folder = folder(&reader.source.path);
        if lesson.id != folder {
            let message = format!(
                "the lesson \"{}\" stands in the folder \"{folder}\"",
                lesson.id
            );
            let place = Fields::new(file, "").place_of("lesson");
            reader.refuse(&place, message, "let folder and lesson have one name");
            return;
        }
        self.examples
            .extend(claim.map(|claim| (lesson.id.clone(), claim)));
        self.lessons.push(lesson);
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
        let (variants, waiting) = if self.families_wait {
            let waiting = Arc::new((reader.source.clone(), file.clone()));
            (OnceLock::new(), Some(waiting))
        } else {
            (
                OnceLock::from(self.variants_of(&family, reader, file)),
                None,
            )
        };
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
            waiting,
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
        let mut variants = Variants::new();
        for system in [System::Us, System::Si] {
            let face = face_of_block(file, system);
            for &level in &family.levels {
                let shelf = Shelf {
                    tables: &self.tables[side(system)],
                    notes: &self.notes,
                    rules: &self.rules[side(system)],
                    sources: &self.sources,
                    faulty: &self.faulty,
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
                has_table: &|name| self.tables[0].contains_key(name),
            };
            let read = exam::read(reader, block, &shelf);
            self.exams.extend(read);
        }
        fields.finish(reader);
    }

    /// Tells each lesson its families.
    fn link(&mut self) {
        for lesson in &mut self.lessons {
            let own = self
                .families
                .values()
                .filter(|shelved| shelved.family.lesson == lesson.id);
            lesson.families = own.map(|shelved| shelved.family.id.clone()).collect();
        }
    }

    /// Gives each lesson its example, if one of its families can be that.
    fn link_examples(&mut self) -> Vec<Fault> {
        let mut faults = Vec::new();
        for (id, claim) in std::mem::take(&mut self.examples) {
            let Some(lesson) = self.lessons.iter_mut().find(|lesson| lesson.id == id) else {
                continue;
            };
            let family = self.families.get(&claim.example.family);
            let own = family.filter(|shelved| shelved.family.lesson == id);
            let levels = own.map(|shelved| shelved.family.levels.as_slice());
            match claim.fault(levels, &lesson.families) {
                Some(fault) => faults.push(fault),
                None => lesson.example = Some(claim.example),
            }
        }
        faults
    }
}

fn room(path: &str) -> Option<Room> {
    let path = std::path::Path::new(path);
    if path.extension().is_none_or(|extension| extension != "toml") {
        return None;
    }
    let parent = path.parent().and_then(|parent| parent.file_name());
    match (
        parent.and_then(|name| name.to_str()),
        path.file_name().and_then(|name| name.to_str()),
    ) {
        (Some("sources"), _) => Some(Room::Sources),
        (Some("tables"), _) => Some(Room::Tables),
        (_, Some("rules.toml")) => Some(Room::Rules),
        (_, Some("sheets.toml")) => Some(Room::Sheets),
        (_, Some("exams.toml")) => Some(Room::Exams),
        (_, Some("glossary.toml")) => Some(Room::Words),
        (_, Some("lesson.toml")) => Some(Room::Lesson),
        _ => Some(Room::Family),
    }
}

/// A second thing of one name is left out.
fn taken(
    reader: &mut Reader<'_>,
    block: &Block,
    key: &str,
    what: &str,
    read_from: &BTreeMap<String, String>,
) {
    let place = Fields::new(block, "").place_of(key);
    let first = read_from.get(what).map_or("", String::as_str);
    let message = format!("{what} stands in {first} already");
    reader.refuse(&place, message, "give one of the two another name");
}

/// A pair of units for two kinds of thing would only show as a puzzle in a formula.
fn units_of_one_kind(reader: &mut Reader<'_>, block: &Block) -> bool {
    let before = reader.faults.len();
    if let Some(unit) = block.get("unit") {
        table::one_kind_of_unit(reader, unit);
    }
    if let Some(Item::List(columns)) = block.get("columns").map(|node| &node.item) {
        for column in columns {
            if let Item::List(parts) = &column.item
                && let Some(unit) = parts.get(1)
            {
                table::one_kind_of_unit(reader, unit);
            }
        }
    }
    reader.faults.len() == before
}
