//! How a class stands: its people, its plan, its papers, what came in and what it earned.

use std::sync::Arc;

use pumpwright_engine::classes::make_up;
use pumpwright_engine::classes::marks::mark_class;
use pumpwright_engine::classes::plan;
use pumpwright_engine::classes::roster::Person;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::Manner;
use pumpwright_screens::{ClassNow, PlanNow};

use super::worker::{Done, Open};
use crate::classroom::folder::ClassFolder;
use crate::classroom::paper::PaperFolder;

/// How the class stands that is open.
///
/// # Errors
/// When its folder cannot be read.
pub fn of_class(open: &Open, library: &Library, manner: Manner) -> Done<ClassNow> {
    let kept = ClassFolder::open(&open.class)?;
    let name = open.class.file_name();
    let mut now = ClassNow {
        folder: open.class.display().to_string(),
        name: name.map_or_else(String::new, |name| name.to_string_lossy().into_owned()),
        people: kept.roster.present().cloned().collect(),
        ..ClassNow::default()
    };
    if let Some(papers) = &open.papers {
        of_papers(papers, &mut now, library, manner)?;
    }
    Ok(now)
}

fn of_papers(papers: &PaperFolder, now: &mut ClassNow, library: &Library, manner: Manner) -> Done {
    let source = papers.plan()?;
    let mut library = library.clone();
    let (ready, notes) = papers.ready()?;
    match plan::read(&mut library, &source) {
        Ok(plan) => {
            now.plan = Some(PlanNow {
                id: plan.id.clone(),
                title: plan.title.clone(),
                date: plan.date.clone(),
                items: plan.count() as usize,
                marks: plan.marks(),
                minutes: plan.minutes(),
                versions: plan.versions.to_string(),
            });
        }
        // A lesson that is gone takes no paper with it: they say themselves what
        // they are.
        Err(_) => {
            now.plan = ready.values().next().map(|own| {
                let head = &own.printed.head;
                PlanNow {
                    id: head.plan.clone(),
                    title: head.title.clone(),
                    date: head.date.clone(),
                    items: own.printed.items.len(),
                    marks: head.marks,
                    minutes: head.minutes,
                    versions: String::new(),
                }
            });
            now.notes
                .push("today's lessons do not have all jobs of this plan".to_owned());
        }
    }
    now.notes.extend(notes);
    let (hand_ins, unread) = papers.hand_ins()?;
    now.notes.extend(unread);
    now.decisions = papers.decisions()?;
    let (keyed, unread) = papers.keyed();
    now.keyed = keyed;
    now.notes.extend(unread);
    let people = make_up::papers_of(&now.people, ready.keys());
    // Whoever has several papers has a line for each.
    let make_ups = people.iter().filter(|own| make_up::is_make_up(&own.id));
    let all = std::mem::take(&mut now.people).into_iter();
    now.people = all
        .flat_map(|person| {
            let own = make_ups.clone();
            let own = own.filter(|own| make_up::owner(&own.id) == person.id);
            let further: Vec<Person> = own.cloned().collect();
            std::iter::once(person).chain(further)
        })
        .collect();
    now.marks = mark_class(&people, &ready, (&hand_ins, &now.decisions), manner);
    for marked in &now.marks.people {
        let counts = hand_ins.iter().rfind(|own| {
            own.paper == marked.person.id && Some((own.way, own.at, own.zone)) == marked.came
        });
        if let Some(own) = counts {
            now.hand_ins.insert(own.paper.clone(), own.clone());
        }
    }
    now.papers = Arc::new(ready);
    Ok(())
}
