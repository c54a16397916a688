//! The list that a class's folder keeps, where everybody has an id that is made once and
//! never changes; `list` reads the one that comes in.

mod list;

pub use list::{Listed, RosterFault, read};

use serde::{Deserialize, Serialize};

use crate::cells;

/// The format of the list that is kept.
pub const FORMAT: u32 = 1;

/// No class has so many, so that a school's long number is not counted on from: our own
/// choice, no source.
const MOST_PEOPLE: u64 = 1_000_000;

/// Somebody in a class.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Person {
    /// The id: the number of every paper of this person.
    pub id: String,
    /// The name; none is left of somebody whose data were deleted.
    pub name: String,
}

impl Person {
    /// Whether this person's data were deleted, so that only the id is left.
    pub const fn is_gone(&self) -> bool {
        self.name.is_empty()
    }
}

/// The list that is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Roster {
    /// The format of the file.
    pub format: u32,
    /// Everybody who ever was on a list, in the order in which they came.
    pub people: Vec<Person>,
}

impl Default for Roster {
    fn default() -> Self {
        Self {
            format: FORMAT,
            people: Vec::new(),
        }
    }
}

/// What a list did to the one that is kept.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Admitted {
    /// Everybody on the list, in its order.
    pub members: Vec<Person>,
    /// Those who were not known before.
    pub joined: Vec<Person>,
    /// Those whose name is another now, with the name before.
    pub renamed: Vec<(Person, String)>,
    /// Those who are kept and not on this list.
    pub absent: Vec<Person>,
}

/// Names are the same whatever their capitals.
fn same_name(name: &str) -> String {
    name.to_lowercase()
}

impl Roster {
    /// Takes a list: whoever is known keeps the id, whoever is not gets the next one.
    /// A person is known by the id on the list, else by the name.
    pub fn admit(&mut self, list: &[Listed]) -> Admitted {
        let mut admitted = Admitted::default();
        // An id on the list is somebody's for sure, so a name alone never takes it.
        let named = |id: &str| {
            let ids = list.iter().filter_map(|listed| listed.id.as_deref());
            ids.into_iter().any(|own| own.eq_ignore_ascii_case(id))
        };
        for listed in list {
            let known = self.people.iter().position(|person| match &listed.id {
                Some(id) => person.id.eq_ignore_ascii_case(id),
                None => same_name(&person.name) == same_name(&listed.name) && !named(&person.id),
            });
            let person = match known.and_then(|at| self.people.get_mut(at)) {
                Some(person) => {
                    if person.name != listed.name {
                        let before = std::mem::replace(&mut person.name, listed.name.clone());
                        admitted.renamed.push((person.clone(), before));
                    }
                    person.clone()
                }
                None => {
                    let person = Person {
                        id: listed.id.clone().unwrap_or_else(|| self.next_id(list)),
                        name: listed.name.clone(),
                    };
                    self.people.push(person.clone());
                    admitted.joined.push(person.clone());
                    person
                }
            };
            admitted.members.push(person);
        }
        let absent = self.people.iter();
        let absent = absent.filter(|person| !person.is_gone());
        let absent = absent.filter(|person| admitted.members.iter().all(|own| own.id != person.id));
        admitted.absent = absent.cloned().collect();
        admitted
    }

    /// The lines of a list that have an id of somebody whose data were deleted.
    pub fn deleted_on(&self, listed: &[Listed]) -> Vec<RosterFault> {
        let gone = self.people.iter().filter(|person| person.is_gone());
        let gone: Vec<&str> = gone.map(|person| person.id.as_str()).collect();
        let fault = |listed: &Listed| {
            let id = listed.id.as_ref()?;
            gone.iter().find(|own| own.eq_ignore_ascii_case(id))?;
            let message = format!("has the id {id}, whose data were deleted");
            let remedy = "take the line out, or give another id";
            Some(list::at(listed.line, message, remedy))
        };
        listed.iter().filter_map(fault).collect()
    }

    /// Everybody whose data are there.
    pub fn present(&self) -> impl Iterator<Item = &Person> + Clone {
        self.people.iter().filter(|person| !person.is_gone())
    }

    /// The number after the greatest that anybody has, here or on the list.
    fn next_id(&self, list: &[Listed]) -> String {
        let kept = self.people.iter().map(|person| person.id.as_str());
        let listed = list.iter().filter_map(|listed| listed.id.as_deref());
        let numbers = kept.chain(listed).filter_map(|id| id.parse::<u64>().ok());
        // An id of more digits than a school has people is no number to count on from.
        let last = numbers.filter(|number| *number < MOST_PEOPLE).max();
        format!("{:03}", last.unwrap_or(0) + 1)
    }

    /// The person of an id.
    pub fn person(&self, id: &str) -> Option<&Person> {
        self.people.iter().find(|person| person.id == id)
    }

    /// The list as a spreadsheet reads it, with the ids; every cell is harmless.
    pub fn as_csv(people: &[Person], separator: char) -> String {
        let rows = people
            .iter()
            .map(|person| cells::row([&person.id, &person.name], separator));
        let head = cells::row(["id", "name"], separator);
        std::iter::once(head).chain(rows).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_are_made_once_and_a_late_joiner_gets_the_next() {
        let mut roster = Roster::default();
        let first = roster.admit(&read("name\nCole\nAsh\n").unwrap());
        let ids = |people: &[Person]| people.iter().map(|one| one.id.clone()).collect::<Vec<_>>();
        assert_eq!(ids(&first.members), ["001", "002"]);
        let second = roster.admit(&read("name\nAdams\nash\n").unwrap());
        assert_eq!(ids(&second.members), ["003", "002"]);
        assert_eq!(ids(&second.joined), ["003"]);
        assert_eq!(ids(&second.absent), ["001"]);
        assert_eq!(second.renamed[0].1, "Ash");
        let third = roster.admit(&read("id,name\n12,Fern\n,Gale\n").unwrap());
        assert_eq!(ids(&third.members), ["12", "013"]);
    }

    #[test]
    fn on_the_way_out_no_cell_is_run_and_on_the_way_in_it_is_the_name_again() {
        let people = [Person {
            id: "001".into(),
            name: "=HYPERLINK(\"x\"), A.".into(),
        }];
        let text = Roster::as_csv(&people, ';');
        assert_eq!(text, "id;name\r\n001;\"'=HYPERLINK(\"\"x\"\"), A.\"\r\n");
        assert_eq!(read(&text).unwrap()[0].name, people[0].name);
    }
}
