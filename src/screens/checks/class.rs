//! A class: the five stages one after the other, marking with the pen, what is kept when.

use insta::assert_snapshot;

use super::bench::{Bench, library, person};
use super::office::{Demo, PAPER, from_the_pen, from_the_screen};
use crate::office::{Order, Pages};
use crate::screen::Screen;
use crate::theme::Look;
use crate::{SetUp, Start};

const ASCII: Look = Look {
    ascii: true,
    colour: false,
};

/// A bench at the class of this office.
fn bench<'a>(
    library: &'a pumpwright_engine::lessons::Library,
    office: &Demo,
    (size, look): ((u16, u16), Look),
) -> Bench<'a> {
    let (mut person, kept) = person(SetUp::default());
    person.office = Box::new(office.clone());
    let start = Start::Class(Some("evening-class".into()));
    Bench::of(library, &[], start, size, look, (person, kept))
}

fn shown(office: &Demo, tape: &str) -> String {
    let library = library();
    let mut shown = Vec::new();
    for size in [(80, 24), (120, 40)] {
        let mut bench = bench(&library, office, (size, ASCII));
        bench.play(tape);
        shown.push(bench.text());
    }
    shown.join("\n\n")
}

#[test]
fn before_a_class_is_there() {
    let library = library();
    let mut bench = Bench::new(&library, Start::Jobs, (80, 24));
    bench.play("?c");
    assert_snapshot!(bench.text());
}

#[test]
fn work_order() {
    let office = Demo::at(3);
    office.0.borrow_mut().filed.push(from_the_screen("002"));
    assert_snapshot!(shown(&office, ""));
}

#[test]
fn work_order_drawn() {
    let library = library();
    let look = Look {
        ascii: false,
        colour: false,
    };
    let mut bench = bench(&library, &Demo::at(3), ((80, 24), look));
    assert_snapshot!(bench.text());
}

#[test]
fn pen_at_the_start_of_an_item() {
    assert_snapshot!(shown(&Demo::at(3), "4⏎⏎⏎"));
}

#[test]
fn pen_with_a_known_turn() {
    assert_snapshot!(shown(&Demo::at(3), "4⏎⏎⏎b"));
}

#[test]
fn pen_with_a_figure_that_stands_there() {
    assert_snapshot!(shown(&Demo::at(3), "4⏎⏎⏎2=0.58"));
}

#[test]
fn pen_over_what_came_as_text() {
    let office = Demo::at(3);
    office.0.borrow_mut().filed.push(from_the_screen("002"));
    assert_snapshot!(shown(&office, "2⏎↓↓"));
}

#[test]
fn pen_with_a_reason() {
    assert_snapshot!(shown(&Demo::at(3), "4⏎⏎⏎?j2.5 told me the unit! & more"));
}

/// A class of which four are in: two took one turn, one another, one none.
fn four_in() -> Demo {
    let office = Demo::at(3);
    let filed = [
        from_the_pen("001", 2, "b"),
        from_the_pen("002", 2, "b"),
        from_the_pen("003", 0, "a"),
        from_the_screen("004"),
    ];
    office.0.borrow_mut().filed.extend(filed);
    office
}

#[test]
fn report() {
    assert_snapshot!(shown(&four_in(), "?r"));
}

#[test]
fn report_of_nobody() {
    assert_snapshot!(shown(&Demo::at(3), "?r"));
}

#[test]
fn a_turn_of_the_report_goes_to_the_board_where_it_shows() {
    let library = library();
    let mut bench = bench(&library, &four_in(), ((120, 40), ASCII));
    bench.play("?r⏎");
    let text = bench.text();
    assert!(
        text.contains("BOARD") && text.contains("one conductor"),
        "{text}"
    );
    // One place back is the report, and B there is the plan.
    bench.play("⎋");
    assert!(bench.text().contains("CLASS REPORT"), "{}", bench.text());
    bench.play("?b");
    assert!(bench.text().contains("PLAN"), "{}", bench.text());
}

#[test]
fn a_class_begins_with_its_list_then_its_plan_then_its_papers() {
    let library = library();
    let office = Demo::at(0);
    let mut bench = bench(&library, &office, ((80, 24), ASCII));
    assert!(bench.text().contains("Enter: name the class list"));
    bench.play("⏎⏎");
    assert!(
        bench
            .text()
            .contains("write the file of the class list first")
    );
    bench.play("class.csv⏎");
    assert!(
        bench.text().contains("6 people, ids made"),
        "{}",
        bench.text()
    );
    bench.play("⏎wrong.toml⏎");
    assert!(bench.text().contains("wrong.toml cannot be read"));
    bench.play("⏎week 6?.toml⏎");
    assert!(bench.text().contains("10 items"), "{}", bench.text());
    assert!(bench.text().contains("Enter: make 6 papers"));
    bench.play("⏎");
    assert!(bench.text().contains("6 papers, 6 new"));
    bench.play("⏎");
    assert!(bench.text().contains("0 of 6 marked"));
    let asked = office.0.borrow().orders.clone();
    assert!(asked.contains(&Order::Plan("week 6?.toml".into())));
    let kept = bench.kept.borrow().all.last().cloned().expect("kept");
    assert_eq!(kept.class.as_deref(), Some("/classes/evening-class"));
}

#[test]
fn a_folder_that_is_none_of_a_class_asks_its_list() {
    let library = library();
    let mut bench = bench(&library, &Demo::at(3), ((80, 24), ASCII));
    bench.play("?c");
    for _ in 0..40 {
        bench.play("⌫");
    }
    bench.play("nowhere⏎");
    assert!(bench.text().contains("nowhere is not there yet"));
    assert!(bench.text().contains("class list"));
    bench.play("⎋");
    assert!(!matches!(bench.top(), Screen::Class(_)));
}

/// Ten items with three wrong lines: ten Enter and three keys.
#[test]
fn ten_items_with_three_wrong_lines_take_thirteen_keys() {
    let library = library();
    let office = Demo::at(3);
    let mut bench = bench(&library, &office, ((80, 24), ASCII));
    bench.play("4⏎");
    let tape = "⏎⏎b⏎⏎1⏎⏎x⏎⏎⏎⏎";
    assert_eq!(tape.chars().count(), 13);
    bench.play(tape);
    assert!(matches!(bench.top(), Screen::Class(_)), "{}", bench.text());
    assert!(
        bench.text().contains("kept: the paper of D'Arcy"),
        "{}",
        bench.text()
    );
    let held = office.0.borrow();
    let filed = held
        .filed
        .iter()
        .find(|own| own.paper == PAPER)
        .expect("filed");
    let keys: Vec<&str> = filed.items.iter().map(|item| item[0].as_str()).collect();
    assert_eq!(keys, ["", "", "b", "", "1", "", "x", "", "", ""]);
    // Each item went to the disk as it was done.
    let kept = held.orders.iter();
    let kept = kept.filter(|order| matches!(order, Order::Key(_)));
    assert_eq!(kept.count(), 10);
}

#[test]
fn escape_comes_back_to_the_same_item() {
    let library = library();
    let office = Demo::at(3);
    let mut bench = bench(&library, &office, ((80, 24), ASCII));
    bench.play("4⏎⏎⏎");
    assert!(bench.text().contains("item 3 of 10"));
    assert!(
        bench.text().contains("kept: 2 items of paper 004"),
        "{}",
        bench.text()
    );
    bench.play("⎋");
    assert!(bench.text().contains("half marked"), "{}", bench.text());
    bench.play("⏎");
    assert!(bench.text().contains("item 3 of 10"), "{}", bench.text());
    bench.play("↑b⏎");
    assert!(bench.text().contains("item 3 of 10"), "{}", bench.text());
}

#[test]
fn a_full_disk_files_nothing_and_says_so() {
    let library = library();
    let office = Demo::at(3);
    let mut bench = bench(&library, &office, ((80, 24), ASCII));
    bench.play("4⏎⏎⏎⏎⏎⏎⏎⏎⏎⏎");
    office.0.borrow_mut().full = true;
    bench.play("⏎");
    assert!(
        bench
            .text()
            .contains("paper 004 is not kept: no space is left")
    );
    assert!(matches!(bench.top(), Screen::Pen(_)));
    office.0.borrow_mut().full = false;
    bench.play("⏎");
    assert!(matches!(bench.top(), Screen::Class(_)));
}

#[test]
fn a_key_that_means_nothing_is_not_taken_and_backspace_takes_back() {
    let library = library();
    let mut bench = bench(&library, &Demo::at(3), ((80, 24), ASCII));
    bench.play("4⏎⏎⏎z⏎");
    assert!(
        bench.text().contains("no turn of this item"),
        "{}",
        bench.text()
    );
    assert!(bench.text().contains("item 3 of 10"));
    bench.play("⌫⏎");
    assert!(bench.text().contains("item 4 of 10"));
}

#[test]
fn a_decision_needs_its_reason_and_is_kept() {
    let library = library();
    let office = Demo::at(3);
    let mut bench = bench(&library, &office, ((80, 24), ASCII));
    bench.play("4⏎?j0.5⏎");
    assert!(
        bench.text().contains("write the reason"),
        "{}",
        bench.text()
    );
    bench.play("⎋?j99 too many⏎");
    assert!(bench.text().contains("are more"), "{}", bench.text());
    bench.play("⎋?j0.5 told me the unit?⏎");
    assert!(
        bench.text().contains("Judged 0.5: told me the unit?"),
        "{}",
        bench.text()
    );
    bench.play("?dthe photo was another⏎");
    assert!(
        bench.text().contains("Dropped: the photo was another"),
        "{}",
        bench.text()
    );
    let decisions = office.0.borrow().decisions.clone();
    assert_eq!((decisions.dropped.len(), decisions.judged.len()), (1, 1));
    bench.play("?d");
    for _ in 0..40 {
        bench.play("⌫");
    }
    bench.play("⏎");
    assert!(office.0.borrow().decisions.dropped.is_empty());
}

#[test]
fn answers_files_are_read_from_the_class_and_odd_ones_have_their_lines() {
    let library = library();
    let mut bench = bench(&library, &Demo::at(3), ((80, 24), ASCII));
    bench.play("?m~/in & out/004.json⏎");
    assert!(
        bench.text().contains("~/in & out/004.json is damaged"),
        "{}",
        bench.text()
    );
}

#[test]
fn make_up_is_asked() {
    assert_snapshot!(shown(&Demo::at(3), "2?n"));
}

#[test]
fn the_slip_of_the_class() {
    assert_snapshot!(shown(&Demo::at(3), "?"));
}

#[test]
fn a_make_up_paper_is_made_when_enter_says_so() {
    let library = library();
    let office = Demo::at(3);
    let mut bench = bench(&library, &office, ((80, 24), ASCII));
    let ordered = |person: &str, one_more| Order::MakeUp {
        person: person.into(),
        one_more,
    };
    let orders = || {
        let held = office.0.borrow();
        let orders = held.orders.iter();
        let own = orders.filter(|order| matches!(order, Order::MakeUp { .. }));
        own.cloned().collect::<Vec<_>>()
    };
    bench.play("2?nx");
    let said = "Enter makes the paper, Esc makes none";
    assert!(bench.text().contains(said), "{}", bench.text());
    bench.play("⎋⎋");
    assert_eq!(orders(), []);
    bench.play("?c2?n⏎");
    assert!(
        bench.text().contains("paper 002+2 is made"),
        "{}",
        bench.text()
    );
    assert_eq!(orders(), [ordered("002", false)]);
    // Of somebody who has one it is said, and on the line of that one, too.
    office.0.borrow_mut().made_up = true;
    bench.play("⏎?n");
    bench.play("⎋?c⏎3?n");
    let there = "Paper 002+2 is there already: this is one more.";
    assert!(bench.text().contains(there), "{}", bench.text());
    assert!(
        bench
            .text()
            .contains("Enter: make a make-up paper for Birch"),
        "{}",
        bench.text()
    );
    bench.play("⏎");
    assert_eq!(orders().last(), Some(&ordered("002", true)));
}

#[test]
fn a_make_up_needs_a_line_and_a_first_paper() {
    let library = library();
    let mut no_papers = bench(&library, &Demo::at(2), ((80, 24), ASCII));
    no_papers.play("?n");
    let said = "N next numbers has no use here";
    assert!(no_papers.text().contains(said), "{}", no_papers.text());
    let office = Demo::at(3);
    let mut other = bench(&library, &office, ((80, 24), ASCII));
    other.play("9?n");
    let said = "write a line number first, 1 to 6";
    assert!(other.text().contains(said), "{}", other.text());
    // A late joiner's first paper comes first.
    office.0.borrow_mut().late = true;
    let mut late = bench(&library, &office, ((80, 24), ASCII));
    late.play("7?n");
    let said = "Gale, Ines has no paper yet: Enter makes the first one";
    assert!(late.text().contains(said), "{}", late.text());
}

#[test]
fn plan() {
    assert_snapshot!(shown(&Demo::at(3), "?b3"));
}

#[test]
fn pages_stand_on_the_plan_when_they_are_counted() {
    let library = library();
    let counted = |least, about| Pages::Counted {
        least,
        most: 4,
        together: 24,
        about,
    };
    let none = "Pages come with papers; this build has no typesetter for them.";
    for (pages, said) in [
        (None, "Working out pages."),
        (
            Some(counted(4, false)),
            "4 pages a paper; for 6 people 24, each on a leaf of its own.",
        ),
        (
            Some(counted(3, true)),
            "3 to 4 pages a paper; for 6 people about 24, each on a leaf of its own.",
        ),
        (Some(Pages::Unknown(none.into())), none),
    ] {
        let office = Demo::at(3);
        office.0.borrow_mut().pages = pages;
        let mut bench = bench(&library, &office, ((80, 24), ASCII));
        bench.play("?b⇟⇟");
        assert!(bench.text().contains(said), "{said}: {}", bench.text());
    }
}

#[test]
fn sample_of_an_item() {
    assert_snapshot!(shown(&Demo::at(3), "?b3⏎"));
}

#[test]
fn the_next_sample_comes_and_what_is_printed_comes_from_the_plan_too() {
    let library = library();
    let office = Demo::at(2);
    let mut bench = bench(&library, &office, ((80, 24), ASCII));
    bench.play("?b↓?n");
    assert!(
        bench.text().contains("ITEM 2, SAMPLE B"),
        "{}",
        bench.text()
    );
    bench.play("⎋");
    assert!(
        bench.text().contains("see sample B of item 2"),
        "{}",
        bench.text()
    );
    bench.play("?i");
    assert!(bench.text().contains("6 papers, 6 new"), "{}", bench.text());
}
