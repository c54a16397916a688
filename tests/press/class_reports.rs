//! The report of a class as a page.

use pumpwright_engine::classes::report::{
    Bin, Item, PlanFigures, Reliability, Report, Sitting, Spread, Step, Turn,
};
use pumpwright_engine::marking::Marks;
use pumpwright_engine::statistics::{EIGHTY, of_share};
use pumpwright_press::class_report;

use crate::html::{body, is_whole, letters};

fn small() -> Report {
    let sitting = Sitting {
        class: "Evening <1>".into(),
        plan: "week-6".into(),
        title: "Week 6".into(),
        date: Some("2026-11-18".into()),
        units: "us".into(),
        papers: 24,
        came_in: 20,
        dropped: vec![3],
        spread: Spread {
            hand_ins: 20,
            left_out: 0,
            of: Marks::whole(10),
            mean: Some(7.25),
            middle: Some(7.5),
            deviation: Some(1.5),
            pass: None,
            bins: vec![Bin {
                from: 6,
                to: 8,
                count: 20,
            }],
        },
    };
    let turn = Turn {
        rank: 1,
        tied: false,
        family: "cable-drop".into(),
        title: "Volts lost on the way down".into(),
        level: 2,
        mistake: "one-way".into(),
        did: "I counted one conductor.".into(),
        says: "Current goes down and comes back.".into(),
        fatal: false,
        made: 9,
        perhaps: 2,
        met: 20,
        between: of_share(0.45, 20.0, EIGHTY),
        seen: vec![Some((9, 20))],
        comes_back: false,
        board: Some("cable-drop.2us.DREKH5F.XKKPK".into()),
    };
    let step = Step {
        plan: "week-6".into(),
        item: 1,
        family: "cable-drop".into(),
        level: 2,
        line: 3,
        step: "loop".into(),
        label: "ohms in the loop".into(),
        met: 20,
        right: 10,
        follows: 1,
        carried: 0,
        missed: 9,
        empty: 0,
        unfollowed: 0,
    };
    let figures = PlanFigures {
        plan: "week-6".into(),
        title: "Week 6".into(),
        label: "week-6".into(),
        of: String::new(),
        classes: 1,
        hand_ins: 20,
        left_out: 0,
        reliability: Reliability::Missing {
            needs: 30,
            here: 20,
        },
        items: vec![Item {
            item: 1,
            families: vec![("cable-drop".into(), 2)],
            bears: Marks::whole(6),
            hand_ins: 20,
            whole: 10,
            figures: None,
        }],
    };
    Report {
        sittings: vec![sitting],
        teach: vec![turn],
        steps: vec![step],
        plans: vec![figures],
        families: Vec::new(),
        notes: Vec::new(),
    }
}

#[test]
fn a_class_report_looks_so() {
    let page = class_report(&small());
    is_whole(&page);
    insta::assert_snapshot!(body(&page));
    let said = letters(&page);
    for words in [
        "it needs 30 hand-ins of this plan, 20 are here",
        "pumpwright board cable-drop.2us.DREKH5F.XKKPK --mistake one-way",
        "Dropped, and counted nowhere: item 3.",
    ] {
        assert!(said.contains(words), "{words} is not in\n{said}");
    }
    assert!(page.contains("Evening &lt;1&gt;"));
}

/// Lines of one item and family are told from each other in the plot, too.
#[test]
fn every_row_of_the_lines_plot_has_its_own_name() {
    let mut report = small();
    let mut other = report.steps[0].clone();
    other.line = 4;
    other.step = "share".into();
    other.label = "drop as a share of the motor's rated volts".into();
    report.steps.push(other);
    let page = class_report(&report);
    let plot = page.split("id=\"lines-desc\"").nth(1).expect("the plot");
    let plot = plot.split("</svg>").next().expect("its end");
    let names: Vec<&str> = (plot.split("text-anchor=\"start\"").skip(1))
        .filter_map(|own| own.split(['>', '<']).nth(1))
        .collect();
    let first = format!("1.3 {}", report.steps[0].label);
    assert_eq!(names, [first.as_str(), "1.4 drop as a share of\u{2026}"]);
}

#[test]
fn several_papers_are_followed_and_none_is_a_page_too() {
    let mut report = small();
    let mut later = report.sittings[0].clone();
    later.plan = "week-7".into();
    report.sittings.push(later);
    report.teach[0].seen = vec![Some((9, 20)), Some((3, 20))];
    let page = class_report(&report);
    is_whole(&page);
    let said = letters(&page);
    assert!(
        said.contains("over 2 papers") && said.contains("3\u{a0}of\u{a0}20"),
        "{said}"
    );
    report = Report {
        sittings: Vec::new(),
        teach: Vec::new(),
        steps: Vec::new(),
        plans: Vec::new(),
        families: Vec::new(),
        notes: Vec::new(),
    };
    is_whole(&class_report(&report));
}
