//! Simulated apprentices: how the learner model and its choices fare on people that
//! are not there. `cargo run --release --example cohort -- --help` tells the options.
//!
//! This shows that the model tolerates other kinds of learning and forgetting than its
//! own. It does not show that anybody learns.

#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_types,
    clippy::format_push_string,
    reason = "a program of its own beside the engine: it reads its options and prints"
)]

mod apprentice;
mod course;
mod generators;
mod luck;
mod measures;
mod policies;
mod table;
mod world;

use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};

use apprentice::Generator;
use course::Outcome;
use policies::Policy;
use table::Cell;
use world::World;

const HELP: &str = "\
Simulated apprentices through a simulated course, under five ways to choose problems.

  --apprentices N   apprentices in a cohort (default 100)
  --cohorts N       cohorts (default 2)
  --full            1000 apprentices, 3 cohorts
  --only NAME       one kind of apprentice
  --seed N          another curriculum and other cohorts (default 1)
  --lessons FOLDER  the curriculum of these lessons in place of a made-up one
  --strict          with it: every family of the lessons before has to stand, not their mean
";

struct Options {
    apprentices: u64,
    cohorts: u64,
    only: Option<String>,
    seed: u64,
    lessons: Option<std::path::PathBuf>,
    strict: bool,
}

fn options() -> Result<Options, String> {
    let mut found = Options {
        apprentices: 100,
        cohorts: 2,
        only: None,
        seed: 1,
        lessons: None,
        strict: false,
    };
    let mut words = std::env::args().skip(1);
    while let Some(word) = words.next() {
        if word == "--strict" {
            found.strict = true;
            continue;
        }
        let mut value = || words.next().ok_or(format!("{word} needs a value"));
        let number = |text: String| {
            let read = text.parse::<u64>().ok().filter(|number| *number > 0);
            read.ok_or(format!("{text} is not a whole number above 0"))
        };
        match word.as_str() {
            "--apprentices" => found.apprentices = number(value()?)?,
            "--cohorts" => found.cohorts = number(value()?)?,
            "--seed" => found.seed = number(value()?)?,
            "--lessons" => found.lessons = Some(value()?.into()),
            "--only" => found.only = Some(value()?),
            "--full" => (found.apprentices, found.cohorts) = (1000, 3),
            "--help" => return Err(HELP.to_owned()),
            _ => return Err(format!("there is no option {word}\n\n{HELP}")),
        }
    }
    Ok(found)
}

fn main() {
    let options = match options() {
        Ok(options) => options,
        Err(words) => {
            eprintln!("{words}");
            std::process::exit(2);
        }
    };
    let world = match &options.lessons {
        None => Ok(World::new(options.seed)),
        Some(folder) => World::of_lessons(folder, options.strict),
    };
    let world = match world {
        Ok(world) => world,
        Err(words) => {
            eprintln!("{words}");
            std::process::exit(3);
        }
    };
    let kinds = generators::ALL.into_iter();
    let kinds: Vec<_> = kinds
        .filter(|kind| {
            options
                .only
                .as_deref()
                .is_none_or(|only| only == kind.name())
        })
        .collect();
    println!(
        "Simulated apprentices: {} in each of {} cohorts, no person among them.\n",
        options.apprentices, options.cohorts
    );
    for kind in &kinds {
        println!("{:<12}{}", kind.name(), kind.about());
    }
    let cells: Vec<Cell<'_>> = kinds
        .into_iter()
        .map(|kind| cell(&world, kind, &options))
        .collect();
    println!("\n{}", table::print(&cells));
}

/// All courses of one kind, on as many threads as there are.
fn cell<'g>(world: &World, generator: &'g dyn Generator, options: &Options) -> Cell<'g> {
    let people = options.apprentices * options.cohorts;
    let all = people * Policy::ALL.len() as u64;
    let next = AtomicU64::new(0);
    let done: Mutex<Vec<(u64, Outcome)>> = Mutex::new(Vec::new());
    let work = || loop {
        let at = next.fetch_add(1, Ordering::Relaxed);
        if at >= all {
            break;
        }
        let policy = Policy::ALL[(at / people) as usize];
        let person = at % people;
        let cohort = options.seed * 1000 + person / options.apprentices;
        let outcome = course::run(
            world,
            generator,
            policy,
            cohort,
            person % options.apprentices,
        );
        if let Ok(mut done) = done.lock() {
            done.push((at, outcome));
        }
    };
    let threads = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(work);
        }
    });
    let mut done = done.into_inner().unwrap_or_default();
    done.sort_by_key(|(at, _)| *at);
    let mut outcomes: Vec<Vec<Outcome>> = vec![Vec::new(); Policy::ALL.len()];
    for (at, outcome) in done {
        outcomes[(at / people) as usize].push(outcome);
    }
    Cell {
        generator,
        outcomes,
        apprentices: options.apprentices as usize,
    }
}
