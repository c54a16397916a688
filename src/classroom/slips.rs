//! What everybody gets back: a page each with the marks, what went wrong in words, and what
//! to practice. Nobody is compared with anybody.

use std::collections::BTreeMap;

use pumpwright_engine::classes::day::number_of;
use pumpwright_engine::classes::marks::{
    ClassMarks, MarkedItem, PersonMarks, Ready, State, Way, unread_line,
};
use pumpwright_engine::marking::{MarkedLine, Marks, Turn, Verdict};
use pumpwright_engine::problems::Problem;
use pumpwright_engine::quantities::DecimalSign;
use pumpwright_press::pdf::{Format, Slip, SlipItem, Slips, unknown_sign};

/// As many kinds of job as one can practice in a week. Our own choice, no source.
const MOST_TO_PRACTISE: usize = 3;

/// The slips of those whose papers are in, and the names that cannot be printed: these have
/// their number alone.
pub fn slips(
    class: &ClassMarks,
    ready: &BTreeMap<String, Ready>,
    (format, decimal): (Format, DecimalSign),
) -> (Slips, Vec<String>) {
    let mut unprinted = Vec::new();
    let mut all = Vec::new();
    for person in &class.people {
        let (State::Marked(items), Some(paper)) = (&person.state, ready.get(&person.person.id))
        else {
            continue;
        };
        let mut own = slip(person, items, (paper, decimal));
        if unknown_sign(&own.name).is_some() {
            unprinted.push(std::mem::take(&mut own.name));
        }
        // What was typed, a reason as well as an answer, may have letters that the program
        // does not have.
        let said = own.items.iter_mut().flat_map(|item| &mut item.mistakes);
        for note in own.notes.iter_mut().chain(said) {
            *note = in_our_letters(note);
        }
        all.push(own);
    }
    let head = ready.values().next().map(|ready| &ready.printed.head);
    let date = head.and_then(|head| head.date.as_deref());
    let slips = Slips {
        title: head.map_or_else(String::new, |head| head.title.clone()),
        day: date.and_then(number_of),
        format,
        slips: all,
    };
    (slips, unprinted)
}

/// A text with a question mark for each sign that the program's letters lack.
fn in_our_letters(text: &str) -> String {
    let mut text = text.to_owned();
    while let Some(sign) = unknown_sign(&text) {
        text = text.replace(sign, "?");
    }
    text
}

fn slip(
    person: &PersonMarks,
    items: &[MarkedItem],
    (paper, decimal): (&Ready, DecimalSign),
) -> Slip {
    let shown = |marks: Marks| match decimal {
        DecimalSign::Point => marks.to_string(),
        DecimalSign::Comma => marks.to_string().replace('.', ","),
    };
    let title = |item: &MarkedItem| {
        let own = paper.printed.items.iter();
        let mut own = own.filter(|own| own.number == item.number);
        own.next()
            .map_or_else(|| item.family.clone(), |own| own.title.clone())
    };
    let (score, out_of) = person.total().unwrap_or_default();
    let counted = items.iter().filter(|item| item.out_of > Marks::default());
    let notes = items.iter().flat_map(|item| {
        let notes = item.notes.iter();
        notes.map(|note| format!("Problem {}: {note}.", item.number))
    });
    let own = person.notes.iter().map(|note| format!("{note}."));
    let by_pen = matches!(person.came, Some((Way::Pen, ..)));
    Slip {
        name: person.person.name.clone(),
        number: person.person.id.clone(),
        marks: shown(score),
        out_of: shown(out_of),
        verdict: verdict(score, out_of, paper, &shown),
        items: items
            .iter()
            .map(|item| SlipItem {
                number: item.number,
                title: title(item),
                marks: if item.dropped {
                    String::new()
                } else {
                    shown(item.score)
                },
                out_of: shown(item.out_of),
                mistakes: mistakes(item, problem(paper, item), by_pen),
            })
            .collect(),
        practice: practice(counted, title, &shown),
        notes: own.chain(notes).collect(),
    }
}

/// Passed or not. The share that passes is that of the whole paper, also where an item was
/// dropped.
fn verdict(score: Marks, out_of: Marks, paper: &Ready, shown: &impl Fn(Marks) -> String) -> String {
    let head = &paper.printed.head;
    let Some(pass) = head.pass_halves.filter(|_| head.marks > 0) else {
        return String::new();
    };
    let whole = u64::from(head.marks) * 2;
    let pass = (u64::from(pass) * u64::from(out_of.in_halves())).div_ceil(whole);
    let pass = Marks::halves(pass as u32);
    let word = if score >= pass {
        "passed"
    } else {
        "not passed"
    };
    format!("{word}; the pass mark is {}", shown(pass))
}

/// The problem of an item; none where it cannot be made again.
fn problem<'a>(paper: &'a Ready, item: &MarkedItem) -> Option<&'a Problem> {
    let own = paper.printed.items.iter().zip(&paper.problems);
    let mut own = own.filter(|(own, _)| own.number == item.number);
    own.next()
        .and_then(|(_, rebuilt)| Some(&rebuilt.as_ref().ok()?.problem))
}

/// A line by its number and its name.
fn named(line: &MarkedLine, problem: Option<&Problem>) -> String {
    let own = problem.into_iter().flat_map(|problem| &problem.lines);
    let own = own.into_iter().find(|own| own.id == line.id);
    let name = own.map_or_else(String::new, |own| format!(", {}", own.label));
    format!("Line {}{name}", line.number)
}

/// What went wrong on an item, line by line in the words of the sheet, and what was written
/// there: the pen keeps the turn that was taken, not what stands on the paper.
fn mistakes(item: &MarkedItem, problem: Option<&Problem>, by_pen: bool) -> Vec<String> {
    if item.dropped {
        return vec!["Left out for the whole class.".to_owned()];
    }
    let lines = item.marked.iter().flat_map(|marked| &marked.lines);
    if item.marked.is_some() && lines.clone().all(|line| line.typed.is_empty()) {
        return vec!["Nothing is written.".to_owned()];
    }
    let wrong = lines.filter(|line| line.verdict.asks_for_a_look());
    wrong
        .map(|line| {
            let says = |turn: &Turn| match &turn.look {
                Some(look) => format!("{} {look}", turn.says),
                None => turn.says.clone(),
            };
            // Of mistakes that give one figure only one was made.
            let several = if line.alternatives { " Or: " } else { " " };
            let turns: Vec<String> = line.turns.iter().map(says).collect();
            let own = named(line, problem);
            let written = if by_pen {
                own.clone()
            } else {
                format!("{own}, \u{201c}{}\u{201d}", line.typed)
            };
            match (turns.is_empty(), line.typed.is_empty()) {
                (true, true) => format!("{own}: nothing is written."),
                (false, true) => format!("{own}: {}", turns.join(several)),
                (false, false) => format!("{written}: {}", turns.join(several)),
                (true, false) if line.verdict == Verdict::Unreadable => {
                    format!("{own}: {}.", unread_line(line))
                }
                (true, false) => format!("{written}: {}.", line.words),
            }
        })
        .collect()
}

/// The kinds of job on which marks were lost, the most first: there practice earns most.
fn practice<'a>(
    items: impl Iterator<Item = &'a MarkedItem>,
    title: impl Fn(&MarkedItem) -> String,
    shown: &impl Fn(Marks) -> String,
) -> Vec<String> {
    let mut lost: Vec<(&str, String, u32)> = Vec::new();
    for item in items {
        let less = item
            .out_of
            .in_halves()
            .saturating_sub(item.score.in_halves());
        match lost.iter_mut().find(|(family, ..)| *family == item.family) {
            Some((_, _, known)) => *known += less,
            None => lost.push((&item.family, title(item), less)),
        }
    }
    lost.retain(|(_, _, less)| *less > 0);
    // One that was lost as much stands in the order of the paper.
    lost.sort_by_key(|(_, _, less)| std::cmp::Reverse(*less));
    lost.into_iter()
        .take(MOST_TO_PRACTISE)
        .map(|(family, title, less)| {
            let noun = if less == 2 { "mark" } else { "marks" };
            let less = shown(Marks::halves(less));
            format!("{title}: {less} {noun} lost. pumpwright practice --family {family}")
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use pumpwright_engine::classes::Head;
    use pumpwright_engine::classes::printed::PrintedPaper;
    use pumpwright_engine::classes::roster::Person;
    use pumpwright_engine::marking::{Marked, MarkedLine};

    fn paper(pass: Option<u32>) -> Ready {
        let person = Person {
            id: "019".into(),
            name: "D'Arcy, Léa".into(),
        };
        let printed = PrintedPaper {
            format: 1,
            head: Head {
                plan: "week-6".into(),
                title: "Week 6".into(),
                date: None,
                due: None,
                units: "us".into(),
                marks: 10,
                minutes: 20,
                pass_halves: pass,
                tables: String::new(),
                marks_by: "steps".into(),
            },
            person,
            version: None,
            lessons: String::new(),
            sit: String::new(),
            expected: 7.0,
            items: Vec::new(),
        };
        Ready {
            printed,
            problems: Vec::new(),
        }
    }

    /// An item that earned so many half marks of so many.
    fn item(number: usize, family: &str, (score, out_of): (u32, u32)) -> MarkedItem {
        MarkedItem {
            number,
            item: number,
            family: family.into(),
            level: 1,
            marked: None,
            score: Marks::halves(score),
            out_of: Marks::halves(out_of),
            bears: Marks::halves(out_of),
            dropped: false,
            notes: Vec::new(),
        }
    }

    fn line(number: usize, typed: &str, verdict: Verdict, turns: &[&str]) -> MarkedLine {
        let turn = |says: &&str| Turn {
            mistake: "known".into(),
            did: "I did.".into(),
            says: (*says).to_owned(),
            look: None,
            fatal: false,
        };
        MarkedLine {
            id: format!("line-{number}"),
            number,
            typed: typed.into(),
            read_as: None,
            verdict,
            words: "look here".into(),
            marks: Marks::default(),
            out_of: Marks::whole(1),
            turns: turns.iter().map(turn).collect(),
            alternatives: turns.len() > 1,
            note: None,
        }
    }

    fn of(items: &[MarkedItem], paper: &Ready) -> Slip {
        let person = PersonMarks {
            person: paper.printed.person.clone(),
            came: None,
            state: State::Marked(items.to_vec()),
            notes: vec!["late: came in on 2026-11-24, due 2026-11-23".into()],
        };
        slip(&person, items, (paper, DecimalSign::Comma))
    }

    /// Seven of ten pass. Where two marks of the ten are dropped it is 5.6 of eight, up to 6.
    #[test]
    fn whoever_has_the_pass_mark_has_passed() {
        let paper = paper(Some(14));
        for (score, out_of, said) in [
            (14, 20, "passed; the pass mark is 7"),
            (13, 20, "not passed; the pass mark is 7"),
            (12, 16, "passed; the pass mark is 6"),
            (11, 16, "not passed; the pass mark is 6"),
            (0, 0, "passed; the pass mark is 0"),
            (4, 5, "passed; the pass mark is 2"),
        ] {
            let own = of(&[item(1, "cable-drop", (score, out_of))], &paper);
            assert_eq!(own.verdict, said, "{score} of {out_of}");
        }
        let own = of(&[item(1, "cable-drop", (14, 20))], &self::paper(None));
        assert_eq!(own.verdict, "");
        assert_eq!((own.marks.as_str(), own.out_of.as_str()), ("7", "10"));
        let own = of(&[item(1, "cable-drop", (13, 20))], &paper);
        assert_eq!(own.marks, "6,5");
    }

    /// What lost most comes first, three kinds at most; what counts for nobody is none.
    #[test]
    fn practice_begins_where_most_was_lost() {
        let mut dropped = item(5, "lockout-order", (0, 0));
        dropped.dropped = true;
        dropped.notes = vec!["dropped: it was read out".into()];
        let items = vec![
            item(1, "psi-to-feet", (0, 2)),
            item(2, "cable-drop", (1, 4)),
            item(3, "box-parts", (2, 2)),
            item(4, "cable-drop", (2, 4)),
            dropped,
            item(6, "tank-precharge", (1, 2)),
            item(7, "read-curve", (0, 4)),
        ];
        let own = of(&items, &paper(None));
        assert_eq!(
            own.practice,
            [
                "cable-drop: 2,5 marks lost. pumpwright practice --family cable-drop",
                "read-curve: 2 marks lost. pumpwright practice --family read-curve",
                "psi-to-feet: 1 mark lost. pumpwright practice --family psi-to-feet",
            ]
        );
        assert_eq!(own.items[4].mistakes, ["Left out for the whole class."]);
        assert_eq!(own.items[4].marks, "");
        assert_eq!(
            own.notes,
            [
                "late: came in on 2026-11-24, due 2026-11-23.",
                "Problem 5: dropped: it was read out."
            ]
        );
    }

    #[test]
    fn what_went_wrong_is_said_line_by_line() {
        let marked = |lines: Vec<MarkedLine>| MarkedItem {
            marked: Some(Marked {
                lines,
                score: Marks::default(),
                out_of: Marks::whole(4),
                explained: Vec::new(),
            }),
            ..item(1, "cable-drop", (0, 8))
        };
        let wrong = marked(vec![
            line(1, "430 ft", Verdict::Right, &[]),
            line(
                2,
                "0.5",
                Verdict::Mistake,
                &["Current comes back.", "Look at the sheet."],
            ),
            line(3, "9", Verdict::LookHere, &[]),
            line(4, "", Verdict::NotWritten, &[]),
            line(5, "6O9", Verdict::Unreadable, &[]),
        ]);
        let empty = marked(vec![
            line(1, "", Verdict::NotWritten, &[]),
            line(2, "", Verdict::NotWritten, &[]),
        ]);
        let own = of(&[wrong, empty], &paper(None));
        assert_eq!(
            own.items[0].mistakes,
            [
                "Line 2, \u{201c}0.5\u{201d}: Current comes back. Or: Look at the sheet.",
                "Line 3, \u{201c}9\u{201d}: look here.",
                "Line 4: nothing is written.",
                "Line 5: `6O9` cannot be read.",
            ]
        );
        assert_eq!(own.items[1].mistakes, ["Nothing is written."]);
    }
}
