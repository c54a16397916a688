//! Which kind of file is which: told by the path alone.

use super::super::fault::SourceFile;

/// A kind of file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Room {
    Sources,
    Words,
    Sheets,
    Rules,
    Tables,
    Lesson,
    Family,
    Exams,
}

/// The files of a kind, in their order.
pub(super) fn of_room(files: &[SourceFile], wanted: Room) -> impl Iterator<Item = &SourceFile> {
    let belongs = move |file: &&SourceFile| room(&file.path) == Some(wanted);
    files.iter().filter(belongs)
}

pub(super) fn room(path: &str) -> Option<Room> {
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
