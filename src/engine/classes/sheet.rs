//! The mark sheet of a class as a spreadsheet has it.

use super::day::day_of;
use super::marks::{ClassMarks, PersonMarks, State, Way};
use crate::cells;
use crate::marking::Marks;
use crate::quantities::DecimalSign;

/// How a mark sheet is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SheetForm {
    /// The sign between cells.
    pub separator: char,
    /// The sign that parts the decimals.
    pub decimal: DecimalSign,
}

impl Default for SheetForm {
    fn default() -> Self {
        Self {
            separator: ',',
            decimal: DecimalSign::Point,
        }
    }
}

/// What a mark sheet begins with: the mark tells a spreadsheet that accents are UTF-8.
pub const BEGINS: &str = "\u{feff}id";

/// The mark sheet: a row a person in the order of the list, a column an item of the plan.
pub fn mark_sheet(class: &ClassMarks, items: usize, form: SheetForm) -> String {
    let head = ["id", "name", "came in"].map(str::to_owned).into_iter();
    let head = head.chain((1..=items).map(|item| format!("item {item}")));
    let head = head.chain(["marks", "out of", "notes"].map(str::to_owned));
    let mut text = String::from("\u{feff}");
    text.push_str(&cells::row(head, form.separator));
    for person in &class.people {
        text.push_str(&cells::row(row(person, items, form), form.separator));
    }
    text
}

fn row(person: &PersonMarks, items: usize, form: SheetForm) -> Vec<String> {
    let marks = |marks: Marks| match form.decimal {
        DecimalSign::Point => marks.to_string(),
        DecimalSign::Comma => marks.to_string().replace('.', ","),
    };
    let came = match person.came {
        None => "not in".to_owned(),
        Some((_, Some(at), zone)) => day_of(at, zone),
        Some((Way::Pen, None, _)) => "marked with the pen".to_owned(),
        Some((_, None, _)) => "typed in".to_owned(),
    };
    let mut row = vec![person.person.id.clone(), person.person.name.clone(), came];
    let own = match &person.state {
        State::Marked(own) => own.as_slice(),
        State::NotIn => &[],
    };
    for item in 1..=items {
        let of_item = own.iter().find(|own| own.item == item);
        // A dropped item has no mark; a nought would be one.
        let counts = of_item.filter(|own| own.out_of > Marks::default());
        row.push(counts.map_or_else(String::new, |own| marks(own.score)));
    }
    let (score, out_of) = match person.total() {
        Some((score, out_of)) => (marks(score), marks(out_of)),
        None => (String::new(), String::new()),
    };
    row.extend([score, out_of]);
    let of_items = own.iter().flat_map(|item| {
        let notes = item.notes.iter();
        notes.map(|note| format!("item {}: {note}", item.item))
    });
    let notes = person.notes.iter().cloned().chain(of_items);
    let notes: Vec<String> = notes.chain(person.unread()).collect();
    row.push(notes.join("; "));
    row
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::classes::roster::Person;

    #[test]
    fn a_name_on_the_mark_sheet_runs_nothing_and_nobody_in_has_no_mark() {
        let class = ClassMarks {
            people: vec![PersonMarks {
                person: Person {
                    id: "001".into(),
                    name: "=1+1".into(),
                },
                came: None,
                state: State::NotIn,
                notes: Vec::new(),
            }],
            notes: Vec::new(),
        };
        let form = SheetForm {
            separator: ';',
            decimal: DecimalSign::Comma,
        };
        assert_eq!(
            mark_sheet(&class, 2, form),
            "\u{feff}id;name;came in;item 1;item 2;marks;out of;notes\r\n001;'=1+1;not in;;;;;\r\n"
        );
    }
}
