//! The curriculum that the shipped lessons make.

use pumpwright_engine::learner::{
    Blueprint, Curriculum, Desk, Dice, Evening, Moment, Place, Record, Why,
};

use crate::common::shipped;

#[test]
fn every_family_can_be_reached_from_the_start() {
    let library = shipped();
    let curriculum = Curriculum::of(&library);
    let families = curriculum.families();
    assert_eq!(families.len(), library.families().count());
    let mut reached = vec![false; families.len()];
    loop {
        let open = |at: &usize| {
            let before = families[*at].after.iter().flatten();
            let mut all = before.chain(&families[*at].needs);
            !reached[*at] && all.all(|need| reached[*need])
        };
        let Some(next) = (0..families.len()).find(open) else {
            break;
        };
        reached[next] = true;
    }
    let locked: Vec<&str> = (0..families.len())
        .filter(|at| !reached[*at])
        .map(|at| families[at].id.as_str())
        .collect();
    assert!(locked.is_empty(), "these need one another: {locked:?}");
    for (own, facts) in families.iter().enumerate() {
        assert_eq!(curriculum.place(&facts.id), Some(own));
        assert!(facts.skills.contains(&own));
        assert_eq!(curriculum.offset(own, facts.home), 0.0);
        let library_family = library.family(&facts.id).expect("a family");
        assert_eq!(facts.levels, library_family.levels);
    }
}

#[test]
fn a_step_counts_for_the_family_that_it_names() {
    let curriculum = Curriculum::of(&shipped());
    let place = |id: &str| curriculum.place(id).expect(id);
    let own = &curriculum.families()[place("tdh")];
    assert!(own.skills.contains(&place("psi-to-feet")), "{own:?}");
    assert!(own.needs.contains(&place("psi-to-feet")), "{own:?}");
}

#[test]
fn the_first_evening_offers_something_new() {
    let curriculum = Curriculum::of(&shipped());
    let blueprint = Blueprint::even(&curriculum, 75, 0.7);
    let record = Record::new(&curriculum);
    let now = Moment { seconds: 0, day: 0 };
    let desk = Desk {
        curriculum: &curriculum,
        record: &record,
        blueprint: &blueprint,
        now,
    };
    let plan = desk.evening(4, &mut Dice::of(1));
    assert_eq!(plan.len(), 4);
    assert!(plan.iter().all(|choice| choice.why == Why::New));
    let alone = desk.next(&Evening::of(&record, now), Place::First, &mut Dice::of(1));
    assert_eq!(alone, Some(plan[0]));
}
