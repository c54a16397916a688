//! Answers that were typed into a table from paper, held against the papers that there are.
//!
//! The table has a column `paper` and one for each line, named by item and line: `3.2` is
//! line 2 of the third item on the paper. Nothing of it is passed over without a word, but
//! for the column `name`.

use std::collections::BTreeMap;

use csv::{ReaderBuilder, StringRecord};

use super::correct::Place;
use super::marks::{HandIn, Ready, Way};
use crate::cells;
use crate::quantities::echo;

/// The most items of a paper and lines of an item that a column can name.
const MOST: usize = 100;

/// A table of answers that was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Typed {
    /// Its rows on which something is written.
    pub rows: Vec<TypedRow>,
    /// A sentence for each column that is passed over.
    pub notes: Vec<String>,
    /// The lines that it has columns for.
    pub columns: Vec<Place>,
    /// The papers that have a row on which nothing is written, and no other.
    pub empty: Vec<HandIn>,
}

/// A row of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TypedRow {
    /// The number of the paper as it stands there.
    pub paper: String,
    /// What to say of a row that is taken, behind its number.
    pub notes: Vec<String>,
    /// The hand-in; or why there is none.
    pub hand_in: Result<HandIn, String>,
}

/// The papers of a class by their numbers: how many lines each item has, in the order of the
/// paper.
#[derive(Debug, Clone, Default)]
pub struct Shapes(BTreeMap<String, Vec<usize>>);

impl Shapes {
    /// Those of printed papers. An item that cannot be drawn again refuses no line.
    pub fn of(ready: &BTreeMap<String, Ready>) -> Self {
        let lines = |own: &Ready| {
            let problems = own.problems.iter();
            let count = problems.map(|problem| match problem {
                Ok(rebuilt) => rebuilt.problem.asked().count(),
                Err(_) => MOST,
            });
            count.collect()
        };
        let papers = ready.iter();
        Self(papers.map(|(id, own)| (id.clone(), lines(own))).collect())
    }

    /// How many lines each item has on the paper that has most of it.
    fn widest(&self) -> Vec<usize> {
        let mut most: Vec<usize> = Vec::new();
        for lines in self.0.values() {
            most.resize(most.len().max(lines.len()), 0);
            for (most, own) in most.iter_mut().zip(lines) {
                *most = (*most).max(*own);
            }
        }
        most
    }

    /// The number that is meant: a spreadsheet takes the noughts before it away.
    fn meant(&self, typed: &str) -> Result<&str, String> {
        if let Some((exactly, _)) = self.0.get_key_value(typed) {
            return Ok(exactly);
        }
        let short = |id: &str| id.trim_start_matches('0').to_owned();
        let fits = self.0.keys().filter(|id| short(id) == short(typed));
        let fits: Vec<&str> = fits.map(String::as_str).collect();
        match fits.as_slice() {
            [one] => Ok(one),
            [] => Err(match (self.0.first_key_value(), self.0.last_key_value()) {
                (Some((only, _)), Some((last, _))) if only == last => {
                    format!("is not {only}, the only paper in this folder")
                }
                (Some((first, _)), Some((last, _))) => format!(
                    "is none of the {} papers in this folder, {first} to {last}",
                    self.0.len()
                ),
                _ => "is of a folder without papers".to_owned(),
            }),
            several => Err(format!(
                "may be paper {}; write the number as it stands on the paper",
                several.join(" or ")
            )),
        }
    }
}

/// `1.1 to 1.4, 2.1`: the lines of items.
fn heads(lines: &[usize]) -> String {
    let each = (1..).zip(lines).filter_map(|(item, count): (usize, _)| {
        Some(match count {
            0 => return None,
            1 => format!("{item}.1"),
            _ => format!("{item}.1 to {item}.{count}"),
        })
    });
    each.collect::<Vec<_>>().join(", ")
}

fn place(cell: &str) -> Option<Place> {
    let (item, line) = cell.split_once('.')?;
    let number = |text: &str| {
        let number = text.parse::<usize>().ok();
        number.filter(|number| (1..=MOST).contains(number))
    };
    Some((number(item)?, number(line)?))
}

fn has(lines: &[usize], (item, line): Place) -> bool {
    item.checked_sub(1)
        .and_then(|at| lines.get(at))
        .is_some_and(|count| line <= *count)
}

/// The columns of a table.
struct Columns {
    /// Where the number of the paper stands.
    paper: usize,
    /// Where answers stand, and to which line.
    lines: Vec<(usize, Place)>,
    /// What is passed over.
    notes: Vec<String>,
}

impl Columns {
    /// Reads the first line.
    fn of(
        head: &StringRecord,
        rows: &[StringRecord],
        shapes: &Shapes,
    ) -> Result<Self, Vec<String>> {
        let named = |cell: &str| matches!(cell.trim().to_lowercase().as_str(), "paper" | "id");
        let widest = shapes.widest();
        let there = heads(&widest);
        let mut own = Self {
            paper: 0,
            lines: Vec::new(),
            notes: Vec::new(),
        };
        let mut faults = Vec::new();
        let paper = head.iter().position(named);
        for (at, cell) in head.iter().enumerate() {
            let (cell, column) = (cell.trim(), at + 1);
            let shown = echo(cell);
            if Some(at) == paper || cell.eq_ignore_ascii_case("name") {
                continue;
            }
            match place(cell) {
                Some(place) if has(&widest, place) => {
                    if let Some((first, _)) = own.lines.iter().find(|own| own.1 == place) {
                        faults.push(format!(
                            "line 1 has \"{shown}\" over columns {} and {column}; name each line of an item once",
                            first + 1
                        ));
                    }
                    own.lines.push((at, place));
                }
                // A figure over a column is meant as a line.
                _ if cell.starts_with(|sign: char| sign.is_ascii_digit()) => faults.push(format!(
                    "line 1 has \"{shown}\" over column {column}, a line that no paper here has; the papers have {there}: item and line"
                )),
                _ => {
                    let mut below = rows.iter().filter_map(|row| row.get(at));
                    let written = below.any(|cell| !cell.trim().is_empty());
                    if !cell.is_empty() {
                        own.notes.push(format!(
                            "column {column}, \"{shown}\", is no line of an item and is passed over; lines are {there}"
                        ));
                    } else if written {
                        own.notes.push(format!(
                            "column {column} has nothing over it in line 1 and is passed over; lines are {there}"
                        ));
                    }
                }
            }
        }
        let Some(paper) = paper.filter(|_| !(own.lines.is_empty() && faults.is_empty())) else {
            return Err(vec![
                "line 1 names no column paper, or none for an answer; write paper,1.1,1.2,2.1: item and line"
                    .to_owned(),
            ]);
        };
        own.paper = paper;
        if faults.is_empty() {
            Ok(own)
        } else {
            Err(faults)
        }
    }

    /// What a row says, item by item.
    fn items(&self, row: &StringRecord) -> Vec<Vec<String>> {
        let mut items: Vec<Vec<String>> = Vec::new();
        for (column, (item, own)) in &self.lines {
            let cell = cells::text(row.get(*column).unwrap_or_default().trim());
            if items.len() < *item {
                items.resize(*item, Vec::new());
            }
            let Some(lines) = items.get_mut(*item - 1) else {
                continue;
            };
            if lines.len() < *own {
                lines.resize(*own, String::new());
            }
            if let Some(place) = lines.get_mut(*own - 1) {
                cell.clone_into(place);
            }
        }
        items
    }
}

/// Reads a table of answers that were typed in from paper.
///
/// # Errors
/// A sentence for each fault, with its line.
pub fn read_typed(text: &str, shapes: &Shapes) -> Result<Typed, Vec<String>> {
    let text = text.trim_start_matches('\u{feff}');
    if text.trim().is_empty() {
        return Err(vec![
            "the table is empty; write paper,1.1,1.2,2.1 in its first line, item and line, and a line for each paper"
                .to_owned(),
        ]);
    }
    let mut reader = ReaderBuilder::new()
        .delimiter(cells::separator(text.trim_start()))
        .flexible(true)
        .from_reader(text.as_bytes());
    let head = reader.headers().cloned().unwrap_or_default();
    let records: Vec<StringRecord> = reader.records().filter_map(Result::ok).collect();
    let columns = Columns::of(&head, &records, shapes)?;
    let mut rows = Vec::new();
    let mut faults = Vec::new();
    let mut before: BTreeMap<&str, usize> = BTreeMap::new();
    let mut empty: BTreeMap<&str, HandIn> = BTreeMap::new();
    for record in &records {
        let start = record.position().map_or(0, |place| place.byte() as usize);
        let line = cells::line_of(text, start);
        if record.iter().any(|cell| cell.trim().contains('\n')) {
            faults.push(format!(
                "line {line} begins a cell in quotes that runs over the end of the line; close the quotes"
            ));
            continue;
        }
        // Else an answer with a comma would push every later one into the next column.
        if (record.iter().skip(head.len())).any(|cell| !cell.trim().is_empty()) {
            faults.push(format!(
                "line {line} has more cells than the first line has columns; put an answer with a comma in quotes: \"1,07\""
            ));
            continue;
        }
        let id = cells::text(record.get(columns.paper).unwrap_or_default().trim());
        if id.is_empty() {
            if record.iter().any(|cell| !cell.trim().is_empty()) {
                faults.push(format!("line {line} has no paper; write its number"));
            }
            continue;
        }
        let items = columns.items(record);
        // Whose row is empty has handed nothing in yet, or has answers taken back.
        if items.iter().flatten().all(String::is_empty) {
            if let Ok(paper) = shapes.meant(id) {
                empty.insert(paper, typed(paper, items));
            }
            continue;
        }
        let mut notes = Vec::new();
        let hand_in = shapes.meant(id).and_then(|paper| {
            if paper != id {
                notes.push(format!("is taken as paper {paper}"));
            }
            // Two at once are a slip of somebody's number: no later one mends the first.
            if let Some(first) = before.get(paper) {
                return Err(format!(
                    "has the row in line {first}, which counts, and another in line {line}"
                ));
            }
            let hand_in = fitting(paper, items, shapes)?;
            before.insert(paper, line);
            Ok(hand_in)
        });
        rows.push(TypedRow {
            paper: id.to_owned(),
            notes,
            hand_in,
        });
    }
    if faults.is_empty() {
        empty.retain(|paper, _| !before.contains_key(paper));
        Ok(Typed {
            rows,
            notes: columns.notes,
            columns: columns.lines.into_iter().map(|own| own.1).collect(),
            empty: empty.into_values().collect(),
        })
    } else {
        Err(faults)
    }
}

/// The hand-in of a paper; none where something stands on a line that this paper has not.
fn fitting(paper: &str, items: Vec<Vec<String>>, shapes: &Shapes) -> Result<HandIn, String> {
    let lines = shapes.0.get(paper).map_or(&[][..], Vec::as_slice);
    let written = (1..).zip(&items).flat_map(|(item, own): (usize, _)| {
        let lines = (1..).zip(own).filter(|(_, text)| !text.is_empty());
        lines.map(move |(line, _): (usize, _)| (item, line))
    });
    let mut beyond = written.filter(|place| !has(lines, *place));
    if let Some((item, line)) = beyond.next() {
        return Err(format!(
            "has an answer under {item}.{line}, a line that is not on this paper; it has {}",
            heads(lines)
        ));
    }
    Ok(typed(paper, items))
}

fn typed(paper: &str, items: Vec<Vec<String>>) -> HandIn {
    HandIn {
        paper: paper.to_owned(),
        way: Way::Typed,
        at: None,
        zone: 0,
        items,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shapes(papers: &[(&str, &[usize])]) -> Shapes {
        let papers = papers.iter();
        Shapes(
            papers
                .map(|(id, lines)| ((*id).to_owned(), lines.to_vec()))
                .collect(),
        )
    }

    fn read(text: &str) -> Result<Typed, Vec<String>> {
        let two: &[usize] = &[2, 1];
        read_typed(text, &shapes(&[("016", two), ("017", two), ("018", &[1])]))
    }

    fn taken(text: &str) -> Vec<HandIn> {
        let rows = read(text).unwrap().rows.into_iter();
        rows.map(|row| row.hand_in.unwrap()).collect()
    }

    #[test]
    fn a_typed_table_is_read_whatever_the_order_of_its_columns() {
        let text = "\u{feff}name;2.1;Paper;1.2;1.1\r\nAsh;'-5 ft;016;1,07;430\r\n;;;;\r\n";
        let own = taken(text);
        assert_eq!(own.len(), 1);
        assert_eq!(own[0].paper, "016");
        assert_eq!(own[0].items, [vec!["430", "1,07"], vec!["-5 ft"]]);
        assert!(read(text).unwrap().notes.is_empty());
        assert_eq!(
            read("paper,1.1\n,430\n").unwrap_err(),
            ["line 2 has no paper; write its number"]
        );
        assert_eq!(
            read("paper,1.1,1.2\n016,1,07,430\n017,\"5\n018,6,7\n").unwrap_err(),
            [
                "line 2 has more cells than the first line has columns; put an answer with a comma in quotes: \"1,07\"",
                "line 3 begins a cell in quotes that runs over the end of the line; close the quotes"
            ]
        );
        let own = read("paper,1.1\n016,\n017,4\n17,\n").unwrap();
        assert_eq!((own.rows.len(), own.columns), (1, vec![(1, 1)]));
        let empty = own.empty.iter().map(|own| own.paper.as_str());
        assert_eq!(empty.collect::<Vec<_>>(), ["016"]);
        for text in ["", "\u{feff} \n"] {
            assert_eq!(
                read(text).unwrap_err(),
                [
                    "the table is empty; write paper,1.1,1.2,2.1 in its first line, item and line, and a line for each paper"
                ]
            );
        }
        assert_eq!(
            read("name,answer\nAsh,1\n").unwrap_err(),
            [
                "line 1 names no column paper, or none for an answer; write paper,1.1,1.2,2.1: item and line"
            ]
        );
    }

    /// Lines are those of the file, however they end and whatever is left empty between them.
    #[test]
    fn lines_are_told_as_the_file_has_them() {
        let text = "paper,1.1,1.2\n\n,430\n016,1,07,430\n";
        for text in [text.to_owned(), text.replace('\n', "\r\n")] {
            assert_eq!(
                read(&text).unwrap_err(),
                [
                    "line 3 has no paper; write its number",
                    "line 4 has more cells than the first line has columns; put an answer with a comma in quotes: \"1,07\"",
                ],
                "{text:?}"
            );
        }
        for text in [
            "paper,1.1\n\n017,430\n017,1\n",
            "paper,1.1\r\n\r\n017,430\r\n017,1\r\n",
        ] {
            assert_eq!(
                read(text).unwrap().rows[1].hand_in.as_ref().unwrap_err(),
                "has the row in line 3, which counts, and another in line 4",
                "{text:?}"
            );
        }
    }

    #[test]
    fn a_column_that_no_paper_has_is_refused_and_a_word_is_told() {
        assert_eq!(
            read("paper,1.1,1.3,7.1,\"1,2\",1.1\n016,1,2,3,4,5\n").unwrap_err(),
            [
                "line 1 has \"1.3\" over column 3, a line that no paper here has; the papers have 1.1 to 1.2, 2.1: item and line",
                "line 1 has \"7.1\" over column 4, a line that no paper here has; the papers have 1.1 to 1.2, 2.1: item and line",
                "line 1 has \"1,2\" over column 5, a line that no paper here has; the papers have 1.1 to 1.2, 2.1: item and line",
                "line 1 has \"1.1\" over columns 2 and 6; name each line of an item once",
            ]
        );
        let typed = read("paper,banana,1.1,,\n016,x,4,5,\n").unwrap();
        assert_eq!(
            typed.notes,
            [
                "column 2, \"banana\", is no line of an item and is passed over; lines are 1.1 to 1.2, 2.1",
                "column 4 has nothing over it in line 1 and is passed over; lines are 1.1 to 1.2, 2.1",
            ]
        );
        assert_eq!(typed.rows.len(), 1);
        let short = &read("paper,1.1,1.2\n018,1,2\n").unwrap().rows[0];
        assert_eq!(
            short.hand_in.as_ref().unwrap_err(),
            "has an answer under 1.2, a line that is not on this paper; it has 1.1"
        );
    }

    #[test]
    fn noughts_that_a_spreadsheet_took_are_put_back_where_one_paper_fits() {
        let typed = read("paper,1.1\n16,1\n016,2\n19,3\n").unwrap();
        let papers = typed.rows.iter().map(|row| match &row.hand_in {
            Ok(own) => own.paper.as_str(),
            Err(why) => why,
        });
        assert_eq!(
            papers.collect::<Vec<_>>(),
            [
                "016",
                "has the row in line 2, which counts, and another in line 3",
                "is none of the 3 papers in this folder, 016 to 018"
            ]
        );
        assert_eq!(typed.rows[0].notes, ["is taken as paper 016"]);
        let both = shapes(&[("08", &[1]), ("008", &[1])]);
        let typed = read_typed("paper,1.1\n8,1\n", &both).unwrap();
        assert_eq!(
            typed.rows[0].hand_in.as_ref().unwrap_err(),
            "may be paper 008 or 08; write the number as it stands on the paper"
        );
    }
}
