//! A row that is typed once more: it mends the cells that its table has columns for, and
//! leaves the others as they were typed before.

use super::marks::HandIn;

/// Item and line, both from one.
pub type Place = (usize, usize);

/// What a later row makes of what was typed before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Correction {
    /// Everything that is typed of the paper now.
    pub hand_in: HandIn,
    /// Whether anything is otherwise than before.
    pub changed: bool,
    /// What to say of it, behind the number of the paper.
    pub note: String,
}

impl Correction {
    /// Lays a row over what was typed of the paper before.
    pub fn of(before: &HandIn, row: &HandIn, columns: &[Place]) -> Self {
        let mut hand_in = before.clone();
        let (mut anew, mut emptied) = (Vec::new(), Vec::new());
        let mut columns = columns.to_vec();
        columns.sort_unstable();
        for place in &columns {
            let text = cell(row, *place);
            if cell(before, *place) == text {
                continue;
            }
            set(&mut hand_in, *place, text);
            let name = format!("{}.{}", place.0, place.1);
            if text.is_empty() {
                emptied.push(name);
            } else {
                anew.push(name);
            }
        }
        let verb = |count: usize| if count == 1 { "is" } else { "are" };
        let mut said = Vec::new();
        if !anew.is_empty() {
            let names = listed(&anew);
            said.push(format!("{names} {} typed anew", verb(anew.len())));
        }
        if !emptied.is_empty() {
            let names = listed(&emptied);
            said.push(format!("{names} {} emptied", verb(emptied.len())));
        }
        let changed = !said.is_empty();
        let stays = (1..).zip(&before.items).any(|(item, lines): (usize, _)| {
            let mut lines = (1..).zip(lines);
            lines.any(|(line, text): (usize, _)| {
                !text.is_empty() && cell(&hand_in, (item, line)) == text
            })
        });
        if stays {
            said.push("the rest stays".to_owned());
        }
        Self {
            hand_in,
            changed,
            note: said.join("; "),
        }
    }

    /// Whether nothing typed would be left.
    pub fn is_empty(&self) -> bool {
        self.hand_in.items.iter().flatten().all(String::is_empty)
    }
}

fn cell(own: &HandIn, (item, line): Place) -> &str {
    let lines = item.checked_sub(1).and_then(|at| own.items.get(at));
    let text = lines.and_then(|lines| lines.get(line.checked_sub(1)?));
    text.map_or("", String::as_str)
}

fn set(own: &mut HandIn, (item, line): Place, text: &str) {
    if own.items.len() < item {
        own.items.resize(item, Vec::new());
    }
    let Some(lines) = item.checked_sub(1).and_then(|at| own.items.get_mut(at)) else {
        return;
    };
    if lines.len() < line {
        lines.resize(line, String::new());
    }
    if let Some(place) = line.checked_sub(1).and_then(|at| lines.get_mut(at)) {
        text.clone_into(place);
    }
}

/// `1.1, 1.2 and 2.1`.
fn listed(names: &[String]) -> String {
    match names {
        [before @ .., last] if !before.is_empty() => format!("{} and {last}", before.join(", ")),
        _ => names.join(""),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::classes::marks::Way;

    fn typed(items: &[&[&str]]) -> HandIn {
        let items = items.iter();
        let lines = |own: &&[&str]| own.iter().map(|text| (*text).to_owned()).collect();
        HandIn {
            paper: "002".into(),
            way: Way::Typed,
            at: None,
            zone: 0,
            items: items.map(lines).collect(),
        }
    }

    #[test]
    fn a_later_row_mends_its_own_columns_alone() {
        let before = typed(&[&["1"], &["38"]]);
        for (row, columns, items, note) in [
            (
                typed(&[&["166"]]),
                vec![(1, 1)],
                vec![vec!["166"], vec!["38"]],
                "1.1 is typed anew; the rest stays",
            ),
            (
                typed(&[&[""], &["38", "7"], &["9"]]),
                vec![(3, 1), (2, 1), (2, 2), (1, 1)],
                vec![vec![""], vec!["38", "7"], vec!["9"]],
                "2.2 and 3.1 are typed anew; 1.1 is emptied; the rest stays",
            ),
            (
                typed(&[&["2"], &["3"]]),
                vec![(1, 1), (2, 1)],
                vec![vec!["2"], vec!["3"]],
                "1.1 and 2.1 are typed anew",
            ),
        ] {
            let own = Correction::of(&before, &row, &columns);
            assert_eq!(
                (own.hand_in.items.clone(), own.note.as_str()),
                (typed_items(&items), note)
            );
            assert!(own.changed && !own.is_empty());
        }
        let same = Correction::of(&before, &typed(&[&["1"]]), &[(1, 1)]);
        assert!(!same.changed && same.hand_in == before);
        let none = Correction::of(&before, &typed(&[]), &[(1, 1), (2, 1)]);
        assert!(none.is_empty() && none.note == "1.1 and 2.1 are emptied");
    }

    fn typed_items(items: &[Vec<&str>]) -> Vec<Vec<String>> {
        let lines = |own: &Vec<&str>| own.iter().map(|text| (*text).to_owned()).collect();
        items.iter().map(lines).collect()
    }
}
