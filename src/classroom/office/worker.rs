//! The thread that does the orders, one after the other.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::mpsc::Sender;

use pumpwright_engine::classes::difficulty::Spread;
use pumpwright_engine::classes::seal::ClassKey;
use pumpwright_engine::marking::Manner;
use pumpwright_screens::{Answered, Given, Keyed, Order, Samples, Told};

use super::Stock;
use super::heard::{heard, noted, sentence};
use super::pages::Counting;
use super::places::{at, is_papers, latest};
use super::{now, pages};
use crate::classroom::answers::AnswerFile;
use crate::classroom::folder::{ClassFolder, list_faults, read_list};
use crate::classroom::paper::PaperFolder;
use crate::cli;
use crate::commands;
use crate::console::Console;
use crate::failure::Failure;
use crate::news::News;

/// The class that is open.
#[derive(Debug)]
pub struct Open {
    /// Its folder.
    pub class: PathBuf,
    /// The papers of the plan that is looked at, where there is one.
    pub papers: Option<PaperFolder>,
}

/// What comes of an order.
pub type Done<T = ()> = Result<T, Failure>;

/// Who does the orders.
pub struct Worker {
    /// What papers are drawn from.
    pub stock: Stock,
    /// The class that is open.
    pub open: Option<Open>,
    /// Where it is told what came of an order.
    pub tell: Sender<Told>,
    /// What could not be kept where nobody listens any more.
    pub news: News,
    /// The pages that are being counted.
    pub pages: Counting,
}

impl Worker {
    /// Does an order, and tells what came of it.
    pub fn take(&mut self, order: Order, manner: Manner) {
        let done = match order {
            Order::Open(folder) => self.open(&folder, manner),
            Order::List { folder, file } => self.list(&folder, &file, manner),
            Order::Plan(file) => self.plan(&file, manner),
            Order::Samples => self.samples(),
            Order::Print => self.assign(None, manner),
            Order::MakeUp { person, one_more } => self.assign(Some((person, one_more)), manner),
            Order::Report => self.report(manner),
            Order::Read(place) => self.read(&place, manner),
            Order::Key(keyed) => return self.key(keyed, manner),
            Order::Give(file) => self.give(&file),
            Order::Answer(answered) => return self.answer(answered),
            Order::Decide(decision) => self.papers().and_then(|papers| {
                let mut decisions = papers.decisions()?;
                decision.lay_into(&mut decisions);
                papers.keep_decisions(&decisions)?;
                // What is decided stands, also where its marks cannot be written.
                let marked = self.mark(&[], manner);
                self.now(manner)?;
                marked.map(|_| ())
            }),
        };
        if let Err(failure) = done {
            self.say(Told::Refused(sentence(&failure)));
        }
    }

    /// Nobody listens where the trainer was left.
    fn say(&self, told: Told) {
        if let Err(unheard) = self.tell.send(told)
            && let Some(lost) = super::not_kept(unheard.0)
        {
            self.news.say(lost);
        }
    }

    fn papers(&self) -> Done<PaperFolder> {
        let open = self.open.as_ref().and_then(|open| open.papers.clone());
        open.ok_or_else(|| Failure::Input("this class has no plan yet".to_owned()))
    }

    fn open(&mut self, folder: &str, manner: Manner) -> Done {
        let path = at(folder);
        let papers = is_papers(&path).then(|| PaperFolder::at(path.clone()));
        let class = match (&papers, path.parent()) {
            (Some(_), Some(class)) => class.to_owned(),
            _ => path.clone(),
        };
        if !class.join("roster.json").is_file() {
            let shown = path.display();
            if path.exists() && !path.is_dir() {
                return Err(Failure::Input(format!(
                    "{shown} is no folder; name the folder of a class"
                )));
            }
            let why = if path.is_dir() {
                format!("{shown} is none of a class yet: name its list")
            } else {
                format!("{shown} is not there yet: name the list of the class")
            };
            self.say(Told::NoClass {
                folder: path.display().to_string(),
                why,
            });
            return Ok(());
        }
        let papers = papers.or_else(|| latest(&class));
        self.open = Some(Open { class, papers });
        self.now(manner)
    }

    fn list(&mut self, folder: &str, file: &str, manner: Manner) -> Done {
        let class = at(folder);
        let list = read_list(&at(file))?;
        let mut kept = ClassFolder::open(&class)?;
        let deleted = kept.roster.deleted_on(&list);
        if !deleted.is_empty() {
            return Err(list_faults(&at(file), &deleted));
        }
        let admitted = kept.admit(&list)?;
        let papers = latest(&class);
        self.open = Some(Open { class, papers });
        self.now(manner)?;
        let mut lines = Vec::new();
        lines.extend((admitted.renamed.iter()).map(|(person, before)| {
            format!(
                "{} {} was {before}; the paper stays",
                person.id, person.name
            )
        }));
        lines.extend((admitted.absent.iter()).map(|person| {
            format!(
                "{} {} is not on this list, and kept all the same",
                person.id, person.name
            )
        }));
        if !lines.is_empty() {
            self.say(Told::Done(lines));
        }
        Ok(())
    }

    fn samples(&mut self) -> Done {
        let papers = self.papers()?;
        let class = match &self.open {
            Some(open) => ClassFolder::open(&open.class)?,
            None => return Err(Failure::Input("no class is open".to_owned())),
        };
        let mut library = self.stock.library.clone();
        let (plan, _) = commands::plan::read(&papers.path().join("plan.toml"), &mut library)?;
        let papers = commands::plan::trial(&plan, &ClassKey::of([0; 32]), &library)?;
        let expected = papers.iter().map(|paper| paper.expected);
        let samples = Samples {
            spread: Spread::of(expected, plan.marks()),
            plan: plan.clone(),
            papers,
            people: class.roster.present().count(),
            pages: pages::at_first(),
        };
        self.say(Told::Samples(Box::new(samples)));
        self.pages = pages::count((library, plan), class, self.tell.clone());
        Ok(())
    }

    fn plan(&mut self, file: &str, manner: Manner) -> Done {
        let mut library = self.stock.library.clone();
        let (plan, source) = commands::plan::read(&at(file), &mut library)?;
        let Some(open) = &mut self.open else {
            return Err(Failure::Input("no class is open".to_owned()));
        };
        let papers = ClassFolder::open(&open.class)?.papers(&plan, &source)?;
        open.papers = Some(papers);
        self.now(manner)
    }

    /// What the command `assign` does, with the list and the plan that are kept: what is
    /// missing, or one further paper for a person, one more where there is one.
    fn assign(&self, make_up: Option<(String, bool)>, manner: Manner) -> Done {
        let papers = self.papers()?;
        let Some(open) = &self.open else {
            return Ok(());
        };
        let (make_up, one_more) = make_up.unzip();
        let asked = cli::Assign {
            plan: papers.path().join("plan.toml"),
            roster: open.class.join("roster.csv"),
            out: open.class.clone(),
            make_up,
            one_more: one_more.unwrap_or_default(),
            no_pdf: false,
            #[cfg(feature = "pdf")]
            size: None,
        };
        let mut library = self.stock.library.clone();
        let mut lessons = commands::assign::Lessons {
            library: &mut library,
            files: &self.stock.files,
            class: self.stock.class.as_ref(),
        };
        let (done, lines) = heard(|console| commands::assign::run(&asked, &mut lessons, console));
        self.now(manner)?;
        // Of what is refused at once nothing is told but why.
        if !lines.is_empty() {
            self.say(Told::Done(lines));
        }
        done
    }

    fn read(&self, place: &str, manner: Manner) -> Done {
        let path = at(place);
        let mut files = vec![path.clone()];
        if path.is_dir() {
            let cannot = |error: io::Error| {
                Failure::World(format!("{} cannot be read: {error}", path.display()))
            };
            files = (fs::read_dir(&path).map_err(cannot)?)
                .filter_map(|entry| Some(entry.ok()?.path()))
                .filter(|path| {
                    let kind = path.extension().and_then(|kind| kind.to_str());
                    kind.is_some_and(|kind| kind == "json" || kind.eq_ignore_ascii_case("csv"))
                })
                .collect();
            files.sort();
        }
        let lines = self.mark(&files, manner);
        self.now(manner)?;
        self.say(Told::Done(lines?));
        Ok(())
    }

    /// What the command `report` says.
    fn report(&self, manner: Manner) -> Done {
        let papers = self.papers()?;
        let folder = [papers.path()];
        let library = &self.stock.library;
        let (mut report, mut notes) = (None, Vec::new());
        let (done, lines) = heard(|console| {
            let read = commands::report::of_folders(&folder, manner.decimal, library, console)?;
            report = Some(read.report);
            Ok(())
        });
        notes.extend(lines);
        done?;
        if let Some(mut report) = report {
            report.notes.extend(notes);
            self.say(Told::Report(Box::new(report)));
        }
        Ok(())
    }

    /// What the command `mark` does; gives what it says beside the marks.
    fn mark(&self, files: &[PathBuf], manner: Manner) -> Done<Vec<String>> {
        let papers = self.papers()?;
        let form = papers.form()?;
        let asked = cli::Mark {
            folder: papers.path().to_owned(),
            answers: files.to_vec(),
            drop: Vec::new(),
            judge: Vec::new(),
            semicolons: form.semicolons,
            decimal_comma: form.decimal_comma,
            no_pdf: false,
        };
        let mut library = self.stock.library.clone();
        let mut lessons = commands::assign::Lessons {
            library: &mut library,
            files: &self.stock.files,
            class: self.stock.class.as_ref(),
        };
        let mut notes = Vec::new();
        let mut input = io::empty();
        let mut out = io::sink();
        let mut console = Console {
            out: &mut out,
            err: &mut notes,
            input: &mut input,
            unicode: true,
        };
        let done = commands::mark::run(&asked, manner.decimal, &mut lessons, &mut console);
        match done {
            // What was found stands in the notes.
            Ok(()) | Err(Failure::Found) => {}
            Err(failure) => return Err(failure),
        }
        let count = match files.len() {
            1 => "1 file read".to_owned(),
            count => format!("{count} files read"),
        };
        let mut lines = vec![count];
        lines.extend(noted(&notes));
        Ok(lines)
    }

    fn key(&self, keyed: Keyed, manner: Manner) {
        let kept = self.papers().and_then(|papers| papers.keep_keyed(&keyed));
        if let Err(failure) = kept {
            return self.say(Told::NotKept(keyed, sentence(&failure)));
        }
        let whole = keyed.whole;
        if whole {
            let marked = self.mark(&[], manner);
            if let Err(failure) = self.now(manner).and(marked) {
                self.say(Told::Refused(sentence(&failure)));
            }
        }
        self.say(Told::Kept(keyed));
    }

    /// Opens a paper that was given as a file; its answers lie beside it.
    fn give(&self, file: &str) -> Done {
        let file = at(file);
        let beside = file.parent().unwrap_or_else(|| Path::new(""));
        let (paper, answers, kept) = commands::sit::open(&file, None, beside)?;
        self.say(Told::Given(Box::new(Given {
            paper,
            answers,
            out: kept.out().display().to_string(),
        })));
        Ok(())
    }

    /// Keeps what is written on such a paper, or hands it in.
    fn answer(&self, answered: Box<Answered>) {
        let file = AnswerFile::at(PathBuf::from(&answered.out));
        let done = if answered.whole {
            file.hand_in(answered.answers.clone())
        } else {
            file.keep(&answered.answers)
        };
        self.say(match done {
            Ok(()) => Told::Answered(answered),
            Err(failure) => Told::NotAnswered(answered, sentence(&failure)),
        });
    }

    /// Tells how the class stands.
    fn now(&self, manner: Manner) -> Done {
        let Some(open) = &self.open else {
            return Err(Failure::Input("no class is open".to_owned()));
        };
        let now = now::of_class(open, &self.stock.library, manner)?;
        self.say(Told::Now(Box::new(now)));
        Ok(())
    }
}
