//! What problems and texts rest on: tables, jurisdiction sheets, house rules and the
//! texts of lessons, in the order in which they need one another.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::super::example;
use super::super::fault::{Fault, SourceFile};
use super::super::faulty::Faulty;
use super::super::fields::{Fields, Reader};
use super::super::format_of;
use super::super::house;
use super::super::jurisdiction::{self, Jurisdiction};
use super::super::lesson::{self, Lesson};
use super::super::node::{Block, Item, blocks_of, document};
use super::super::rule::{self, Rule};
use super::super::source::Sources;
use super::super::table::{self, TableNote, Tables};
use super::head::folder;
use super::room::{Room, of_room};
use super::{Shelved, side};
use crate::quantities::System;

/// The rooms whose files are in stock, in the order in which they are read.
pub(super) const ROOMS: [Room; 4] = [Room::Tables, Room::Sheets, Room::Rules, Room::Lesson];

/// What problems and texts rest on.
#[derive(Debug, Clone, Default)]
pub(super) struct Stock {
    pub lessons: Vec<Lesson>,
    pub tables: [Tables; 2],
    pub notes: Vec<TableNote>,
    pub jurisdictions: Vec<Jurisdiction>,
    pub rules: [Vec<Rule>; 2],
    pub faulty: Faulty,
    /// Values of house rules that a class's own file sets, each by its place among the choices.
    pub house: Vec<(String, usize)>,
    /// The examples of lessons, until they are held against the families.
    examples: Vec<(String, example::Claim)>,
    /// Where each table, sheet and house rule was read from.
    read_from: BTreeMap<String, String>,
}

impl Stock {
    /// Reads what there is of it among these files, which stand in the order of their paths.
    pub fn read(
        files: &[SourceFile],
        class: Option<&SourceFile>,
        sources: &Sources,
    ) -> (Self, Vec<Fault>) {
        let mut stock = Self::default();
        let mut faults = Vec::new();
        for wanted in ROOMS {
            for source in of_room(files, wanted) {
                let mut reader = Reader::new(source);
                match document(source) {
                    Ok(file) => stock.shelve(wanted, &mut reader, (&file, sources)),
                    Err(found) => {
                        reader.faults = found;
                        if wanted == Room::Rules {
                            stock.faulty.add_all_rules();
                        }
                    }
                }
                faults.append(&mut reader.faults);
            }
            if let Some(class) = class {
                faults.append(&mut stock.read_class(wanted, class, sources));
            }
        }
        (stock, faults)
    }

    fn shelve(&mut self, room: Room, reader: &mut Reader<'_>, file: (&Block, &Sources)) {
        match room {
            Room::Tables => self.read_tables(reader, file),
            Room::Sheets => self.read_sheets(reader, file),
            Room::Rules => self.read_rules(reader, file),
            Room::Lesson => self.read_lesson(reader, file),
            Room::Sources | Room::Words | Room::Family | Room::Exams => {}
        }
    }

    /// Gives each lesson its families, and its example if one of them can be that.
    pub fn link(&mut self, families: &BTreeMap<String, Shelved>) -> Vec<Fault> {
        for lesson in &mut self.lessons {
            let own = families.values();
            let own = own.filter(|shelved| shelved.family.lesson == lesson.id);
            lesson.families = own.map(|shelved| shelved.family.id.clone()).collect();
        }
        let mut faults = Vec::new();
        for (id, claim) in std::mem::take(&mut self.examples) {
            let Some(lesson) = self.lessons.iter_mut().find(|lesson| lesson.id == id) else {
                continue;
            };
            let family = families.get(&claim.example.family);
            let own = family.filter(|shelved| shelved.family.lesson == id);
            let levels = own.map(|shelved| shelved.family.levels.as_slice());
            match claim.fault(levels, &lesson.families) {
                Some(fault) => faults.push(fault),
                None => lesson.example = Some(claim.example),
            }
        }
        faults
    }

    fn read_tables(&mut self, reader: &mut Reader<'_>, (file, sources): (&Block, &Sources)) {
        let mut fields = Fields::new(file, "the file of tables");
        format_of(reader, &mut fields);
        for block in fields.blocks(reader, "table") {
            if !units_of_one_kind(reader, block) {
                self.faulty.add(block, "table");
                continue;
            }
            for system in [System::Us, System::Si] {
                let before = reader.faults.len();
                let read = table::read(reader, block, system, sources);
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

    fn read_sheets(&mut self, reader: &mut Reader<'_>, (file, sources): (&Block, &Sources)) {
        let mut fields = Fields::new(file, "the file of sheets");
        format_of(reader, &mut fields);
        for block in fields.blocks(reader, jurisdiction::SHEET) {
            self.read_sheet(reader, (block, sources));
        }
        fields.finish(reader);
    }

    /// Reads one sheet with its rows and tells its name.
    fn read_sheet(
        &mut self,
        reader: &mut Reader<'_>,
        (block, sources): (&Block, &Sources),
    ) -> Option<String> {
        let sheet = jurisdiction::read(reader, block, sources)?;
        let what = format!("the sheet \"{}\"", sheet.name);
        if self
            .jurisdictions
            .iter()
            .any(|known| known.name == sheet.name)
        {
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
    fn read_class(&mut self, room: Room, class: &SourceFile, sources: &Sources) -> Vec<Fault> {
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
                    self.read_sheet(&mut reader, (block, sources));
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
    pub(super) fn read_plan_rules(
        &mut self,
        reader: &mut Reader<'_>,
        blocks: &[&Block],
    ) -> Vec<(String, usize)> {
        let read = |block: &&Block| house::read(reader, block, &mut self.rules, &self.tables);
        blocks.iter().filter_map(read).collect()
    }

    fn read_rules(&mut self, reader: &mut Reader<'_>, (file, sources): (&Block, &Sources)) {
        let mut fields = Fields::new(file, "the file of house rules");
        format_of(reader, &mut fields);
        for block in fields.blocks(reader, "rule") {
            let before = reader.faults.len();
            units_of_one_kind(reader, block);
            let faces = [System::Us, System::Si].map(|system| {
                let tables = &self.tables[side(system)];
                rule::read(reader, block, system, tables, sources)
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

    fn read_lesson(&mut self, reader: &mut Reader<'_>, (file, sources): (&Block, &Sources)) {
        let shelves = [0, 1].map(|side| (&self.tables[side], self.rules[side].as_slice()));
        let books = (self.notes.as_slice(), sources);
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
}

/// A second thing of one name is left out.
pub(super) fn taken(
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
pub(super) fn units_of_one_kind(reader: &mut Reader<'_>, block: &Block) -> bool {
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
