//! Make-up papers: who missed the day, or is to write again, has a further paper of the same
//! plan. Its number is the id with `+2` behind it, or `+3`: no id on a class list has that
//! sign, so the number is nobody's id, and tells whose paper it is.

use std::collections::{BTreeMap, BTreeSet};

use super::marks::{ClassMarks, State};
use super::paper::Paper;
use super::roster::Person;
use crate::problems::{Asks, KeptProblem, KeptValue, Problem};

/// What stands between the id and the count in the number of a make-up paper.
const SIGN: char = '+';

/// The number of somebody's paper: of the first the id itself, of the second `019+2`.
pub fn number(id: &str, nth: u32) -> String {
    match nth {
        0 | 1 => id.to_owned(),
        later => format!("{id}{SIGN}{later}"),
    }
}

/// The id of whose paper a number is.
pub fn owner(number: &str) -> &str {
    number.split(SIGN).next().unwrap_or(number)
}

/// Which paper of somebody a number is, from one; none where it is no number of a paper.
pub fn nth(number: &str) -> Option<u32> {
    let Some((_, later)) = number.split_once(SIGN) else {
        return Some(1);
    };
    let digits = later.bytes().all(|byte| byte.is_ascii_digit()) && !later.starts_with('0');
    let later: u32 = later.parse().ok().filter(|_| digits)?;
    (later > 1).then_some(later)
}

/// Whether a number is that of a make-up paper.
pub fn is_make_up(number: &str) -> bool {
    number.contains(SIGN)
}

/// Whose papers there are, in the order of the list: each that is numbered, somebody's
/// further ones behind the first. The name goes with each.
pub fn papers_of<'a>(people: &[Person], numbers: impl Iterator<Item = &'a String>) -> Vec<Person> {
    let mut by_owner: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for number in numbers {
        by_owner.entry(owner(number)).or_default().push(number);
    }
    let of = |person: &Person| {
        let mut own = by_owner.get(&*person.id).cloned().unwrap_or_default();
        own.sort_by_key(|number| nth(number));
        let own = own.into_iter().map(|number| Person {
            id: number.to_owned(),
            name: person.name.clone(),
        });
        own.collect::<Vec<_>>()
    };
    people.iter().flat_map(of).collect()
}

/// Says of papers that somebody has several of which of them stand: each that is in, and a
/// make-up in the place of a first one that is not.
pub(super) fn tell(class: &mut ClassMarks) {
    let is_in = |number: &str, class: &ClassMarks| {
        let own = class.people.iter().find(|own| own.person.id == number);
        own.is_some_and(|own| own.state != State::NotIn)
    };
    let further: Vec<String> = (class.people.iter())
        .map(|own| own.person.id.clone())
        .filter(|number| is_make_up(number))
        .collect();
    for number in &further {
        let of = owner(number).to_owned();
        if let Some(own) = class.people.iter_mut().find(|own| own.person.id == *number) {
            own.notes.push(format!("make-up of {of}"));
        }
    }
    let owners: BTreeSet<&str> = further.iter().map(|number| owner(number)).collect();
    for id in owners {
        let came: Vec<&str> = (further.iter())
            .filter(|number| owner(number) == id && is_in(number, class))
            .map(String::as_str)
            .collect();
        let (Some(last), several) = (came.last(), came.len() > 1) else {
            continue;
        };
        let named = match came.len() {
            1 => (*last).to_owned(),
            _ => came.join(" and "),
        };
        let first_in = is_in(id, class);
        let note = match (first_in, several) {
            (true, false) => format!("the make-up {named} is in, too; both stand"),
            (true, true) => format!("the make-ups {named} are in, too; all stand"),
            (false, false) => format!("the make-up {named} counts in its place"),
            (false, true) => format!("the make-ups {named} count in its place"),
        };
        if let Some(first) = class.people.iter_mut().find(|own| own.person.id == id) {
            first.notes.push(note);
        }
    }
}

/// How many papers are marked, and how many that makes when everybody's are in: one of each
/// person, and each further one that came in beside it.
pub fn counted(class: &ClassMarks) -> (usize, usize) {
    let is_in = |own: &&super::marks::PersonMarks| own.state != State::NotIn;
    let id = |own: &super::marks::PersonMarks| owner(&own.person.id).to_owned();
    let marked = class.people.iter().filter(is_in);
    let with: BTreeSet<String> = marked.clone().map(id).collect();
    let all: BTreeSet<String> = class.people.iter().map(id).collect();
    let marked = marked.count();
    (marked, marked + all.len() - with.len())
}

/// A problem as one is met again: the job in its words, its numbers, and what is put in
/// order, matched or picked among, wherever it stands.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Job {
    family: String,
    story: Vec<String>,
    givens: Vec<(String, KeptValue)>,
    parts: BTreeSet<String>,
}

impl Job {
    /// The job of a problem.
    pub fn of(problem: &Problem) -> Self {
        let parts = problem.asked().flat_map(|(_, line)| match &line.asks {
            Asks::Pick { offers, .. } => offers.iter().map(|offer| offer.text.clone()).collect(),
            Asks::Order { cards } => cards.iter().map(|card| card.text.clone()).collect(),
            Asks::Match { parts, .. } => parts.iter().map(|(part, _)| part.clone()).collect(),
            Asks::Figure | Asks::Row | Asks::Nothing => Vec::new(),
        });
        Self {
            family: problem.family.id.clone(),
            story: problem.story.clone(),
            givens: KeptProblem::of(problem).givens,
            parts: parts.collect(),
        }
    }
}

/// The numbers of the items of a paper that ask a job of an earlier one, to the last number.
pub fn asked_before(paper: &Paper, earlier: &[Paper]) -> Vec<usize> {
    let jobs = |paper: &Paper| -> Vec<Job> {
        let items = paper.items.iter();
        items.map(|item| Job::of(&item.problem)).collect()
    };
    let known: Vec<Job> = earlier.iter().flat_map(jobs).collect();
    let own = paper.items.iter().zip(jobs(paper));
    own.filter(|(_, job)| known.contains(job))
        .map(|(item, _)| item.number)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::classes::marks::PersonMarks;

    #[test]
    fn a_number_tells_whose_paper_it_is_and_which() {
        assert_eq!(number("019", 1), "019");
        assert_eq!(number("019", 2), "019+2");
        assert_eq!((owner("A-7+12"), nth("A-7+12")), ("A-7", Some(12)));
        assert_eq!((owner("019-2"), nth("019-2")), ("019-2", Some(1)));
        for odd in ["019+", "019+1", "019+02", "019+-3", "019+2+3", "019+x"] {
            assert_eq!(nth(odd), None, "{odd}");
        }
    }

    fn row(number: &str, is_in: bool) -> PersonMarks {
        PersonMarks {
            person: Person {
                id: number.into(),
                name: "Ash".into(),
            },
            came: None,
            state: if is_in {
                State::Marked(Vec::new())
            } else {
                State::NotIn
            },
            notes: Vec::new(),
        }
    }

    #[test]
    fn a_make_up_stands_for_a_paper_that_is_not_in_and_beside_one_that_is() {
        for (rows, said, counts) in [
            (vec![("1", false), ("1+2", false)], "", (0, 1)),
            (
                vec![("1", false), ("1+2", true)],
                "the make-up 1+2 counts in its place",
                (1, 1),
            ),
            (
                vec![("1", true), ("1+2", true)],
                "the make-up 1+2 is in, too; both stand",
                (2, 2),
            ),
            (vec![("1", true), ("1+2", false)], "", (1, 1)),
            (
                vec![("1", false), ("1+2", true), ("1+3", true)],
                "the make-ups 1+2 and 1+3 count in its place",
                (2, 2),
            ),
            (
                vec![("1", true), ("1+2", true), ("1+3", true)],
                "the make-ups 1+2 and 1+3 are in, too; all stand",
                (3, 3),
            ),
        ] {
            let people = rows.iter().map(|(number, is_in)| row(number, *is_in));
            let mut class = ClassMarks {
                people: people.collect(),
                notes: Vec::new(),
            };
            tell(&mut class);
            assert_eq!(class.people[0].notes.join(", "), said);
            assert_eq!(class.people[1].notes, ["make-up of 1"]);
            assert_eq!(counted(&class), counts, "{rows:?}");
        }
    }

    #[test]
    fn further_papers_stand_behind_the_first_in_the_order_of_the_list() {
        let people = ["2", "1", "3"].map(|id| row(id, false).person);
        let numbers = ["1", "1+10", "1+2", "2"].map(str::to_owned);
        let papers = papers_of(&people, numbers.iter());
        let papers: Vec<String> = papers.into_iter().map(|own| own.id).collect();
        assert_eq!(papers, ["2", "1", "1+2", "1+10"]);
    }
}
