//! The office behind the class screen: a thread of its own reads and writes the folder,
//! so that no key waits for the disk. What commands do is done by the commands.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread::{self, JoinHandle};

use pumpwright_engine::classes::difficulty::Spread;
use pumpwright_engine::classes::marks::mark_class;
use pumpwright_engine::classes::plan;
use pumpwright_engine::classes::roster::Person;
use pumpwright_engine::classes::seal::ClassKey;
use pumpwright_engine::lessons::{Library, SourceFile};
use pumpwright_engine::marking::Manner;
use pumpwright_screens::{ClassNow, Keyed, Office, Order, PlanNow, Samples, Told};

use super::folder::{ClassFolder, read_list};
use super::paper::PaperFolder;
use crate::cli;
use crate::commands;
use crate::console::Console;
use crate::failure::Failure;
use crate::news::News;

/// Orders to the thread that does them, and that thread.
type Worked = (Sender<(Order, Manner)>, JoinHandle<()>);

/// What papers are drawn from.
#[derive(Debug, Clone)]
pub struct Stock {
    /// The lessons.
    pub library: Library,
    /// Their files.
    pub files: Vec<SourceFile>,
    /// The class's own rules file.
    pub class: Option<SourceFile>,
}

/// Keeps classes in folders. Dropping it waits until all is written.
pub struct FileOffice<'a> {
    stock: Box<dyn Fn() -> Stock + 'a>,
    worker: Option<Worked>,
    tell: Sender<Told>,
    told: Receiver<Told>,
    news: News,
}

impl<'a> FileOffice<'a> {
    /// An office that draws papers from this stock, which is taken at the first order.
    pub fn new(stock: impl Fn() -> Stock + 'a) -> Self {
        let (tell, told) = channel();
        Self {
            stock: Box::new(stock),
            worker: None,
            tell,
            told,
            news: News::default(),
        }
    }

    /// What could not be kept, to be asked when the office is gone.
    pub fn unsaid(&self) -> News {
        self.news.clone()
    }

    /// What comes of an order, waited for; none where nothing is done.
    pub fn wait(&self) -> Option<Told> {
        self.worker.as_ref()?;
        self.told.recv().ok()
    }

    fn start(&self) -> io::Result<Worked> {
        let (orders, ordered) = channel();
        let (stock, tell, news) = ((self.stock)(), self.tell.clone(), self.news.clone());
        let work = move || {
            let mut worker = Worker {
                stock,
                open: None,
                tell,
                news,
            };
            while let Ok((order, manner)) = ordered.recv() {
                worker.take(order, manner);
            }
        };
        let handle = thread::Builder::new()
            .name("class".to_owned())
            .spawn(work)?;
        Ok((orders, handle))
    }

    fn refuse(&self, order: Order, why: String) {
        let told = match order {
            Order::Key(keyed) => Told::NotKept(keyed, why),
            _ => Told::Refused(why),
        };
        // The other end is this office itself.
        let _ = self.tell.send(told);
    }
}

impl Office for FileOffice<'_> {
    fn order(&mut self, order: Order, manner: Manner) {
        if self.worker.is_none() {
            match self.start() {
                Ok(worker) => self.worker = Some(worker),
                Err(error) => return self.refuse(order, error.to_string()),
            }
        }
        let sent = (self.worker.as_ref()).map(|(orders, _)| orders.send((order, manner)));
        if let Some(Err(unsent)) = sent {
            self.refuse(unsent.0.0, "the office has stopped".to_owned());
        }
    }

    fn told(&mut self) -> Option<Told> {
        self.told.try_recv().ok()
    }
}

impl Drop for FileOffice<'_> {
    fn drop(&mut self) {
        if let Some((orders, worker)) = self.worker.take() {
            drop(orders);
            if worker.join().is_err() {
                self.news.say("the office has stopped".to_owned());
            }
        }
        for told in self.told.try_iter() {
            if let Told::NotKept(keyed, why) = told {
                let paper = keyed.paper;
                self.news.say(format!("paper {paper} is not kept: {why}"));
            }
        }
    }
}

/// The class that is open.
#[derive(Debug)]
struct Open {
    /// Its folder.
    class: PathBuf,
    /// The papers of the plan that is looked at, where there is one.
    papers: Option<PaperFolder>,
}

struct Worker {
    stock: Stock,
    open: Option<Open>,
    tell: Sender<Told>,
    news: News,
}

type Done<T = ()> = Result<T, Failure>;

impl Worker {
    fn take(&mut self, order: Order, manner: Manner) {
        let done = match order {
            Order::Open(folder) => self.open(&folder, manner),
            Order::List { folder, file } => self.list(&folder, &file, manner),
            Order::Plan(file) => self.plan(&file, manner),
            Order::Samples => self.samples(),
            Order::Print => self.print(manner),
            Order::Report => self.report(manner),
            Order::Read(place) => self.read(&place, manner),
            Order::Key(keyed) => return self.key(keyed, manner),
            Order::Decide(decision) => self.papers().and_then(|papers| {
                let mut decisions = papers.decisions()?;
                decision.lay_into(&mut decisions);
                papers.keep_decisions(&decisions)?;
                self.mark(&[], manner)?;
                self.now(manner)
            }),
        };
        if let Err(failure) = done {
            self.say(Told::Refused(sentence(&failure)));
        }
    }

    /// Nobody listens where the trainer was left.
    fn say(&self, told: Told) {
        if let Err(unheard) = self.tell.send(told)
            && let Told::NotKept(keyed, why) = unheard.0
        {
            let paper = keyed.paper;
            self.news.say(format!("paper {paper} is not kept: {why}"));
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

    fn samples(&self) -> Done {
        let papers = self.papers()?;
        let people = match &self.open {
            Some(open) => ClassFolder::open(&open.class)?.roster.people.len(),
            None => 0,
        };
        let mut library = self.stock.library.clone();
        let (plan, _) = commands::plan::read(&papers.path().join("plan.toml"), &mut library)?;
        let papers = commands::plan::trial(&plan, &ClassKey::of([0; 32]), &library)?;
        let expected = papers.iter().map(|paper| paper.expected);
        self.say(Told::Samples(Box::new(Samples {
            spread: Spread::of(expected, plan.marks()),
            plan,
            papers,
            people,
        })));
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

    /// What the command `assign` does, with the list and the plan that are kept.
    fn print(&self, manner: Manner) -> Done {
        let papers = self.papers()?;
        let Some(open) = &self.open else {
            return Ok(());
        };
        let asked = cli::Assign {
            plan: papers.path().join("plan.toml"),
            roster: open.class.join("roster.csv"),
            out: open.class.clone(),
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
        self.say(Told::Done(lines));
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
        let lines = self.mark(&files, manner)?;
        self.now(manner)?;
        self.say(Told::Done(lines));
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
        let asked = cli::Mark {
            folder: self.papers()?.path().to_owned(),
            answers: files.to_vec(),
            drop: Vec::new(),
            judge: Vec::new(),
            semicolons: false,
            decimal_comma: false,
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
            let marked = self.mark(&[], manner).and_then(|_| self.now(manner));
            if let Err(failure) = marked {
                self.say(Told::Refused(sentence(&failure)));
            }
        }
        self.say(Told::Kept(keyed));
    }

    /// Tells how the class stands.
    fn now(&self, manner: Manner) -> Done {
        let Some(open) = &self.open else {
            return Err(Failure::Input("no class is open".to_owned()));
        };
        let kept = ClassFolder::open(&open.class)?;
        let name = open.class.file_name();
        let mut now = ClassNow {
            folder: open.class.display().to_string(),
            name: name.map_or_else(String::new, |name| name.to_string_lossy().into_owned()),
            people: kept.roster.people,
            ..ClassNow::default()
        };
        if let Some(papers) = &open.papers {
            self.of_papers(papers, &mut now, manner)?;
        }
        self.say(Told::Now(Box::new(now)));
        Ok(())
    }

    fn of_papers(&self, papers: &PaperFolder, now: &mut ClassNow, manner: Manner) -> Done {
        let source = papers.plan()?;
        let mut library = self.stock.library.clone();
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
        let with_papers = now.people.iter().filter(|own| ready.contains_key(&own.id));
        let people: Vec<Person> = with_papers.cloned().collect();
        now.marks = mark_class(&people, &ready, (&hand_ins, &now.decisions), manner);
        for marked in &now.marks.people {
            let counts = hand_ins.iter().rfind(|own| {
                own.paper == marked.person.id && Some((own.way, own.at, own.zone)) == marked.came
            });
            if let Some(own) = counts {
                now.hand_ins.insert(own.paper.clone(), own.clone());
            }
        }
        now.papers = std::sync::Arc::new(ready);
        Ok(())
    }
}

/// The place that a person means, whole, so that it is found again from anywhere.
fn at(typed: &str) -> PathBuf {
    let path = Path::new(typed);
    let home = typed.strip_prefix("~/").zip(std::env::home_dir());
    let path = home.map_or_else(|| path.to_owned(), |(rest, home)| home.join(rest));
    std::path::absolute(&path).unwrap_or(path)
}

fn is_papers(path: &Path) -> bool {
    path.join("printed").is_dir() && path.join("plan.toml").is_file()
}

/// The papers of the plan with the latest day in a class's folder; without days, of the
/// last by name.
fn latest(class: &Path) -> Option<PaperFolder> {
    let entries = fs::read_dir(class).ok()?;
    let paths = entries.filter_map(|entry| Some(entry.ok()?.path()));
    let day = |path: &PathBuf| {
        let text = fs::read_to_string(path.join("plan.toml")).unwrap_or_default();
        let line = text.lines().find(|line| {
            let key = line.split('=').next().unwrap_or_default();
            key.trim() == "date"
        });
        (line.map(str::to_owned), path.clone())
    };
    let latest = paths.filter(|path| is_papers(path)).max_by_key(day)?;
    Some(PaperFolder::at(latest))
}

/// What a command prints, line by line, and how it went.
fn heard(run: impl FnOnce(&mut Console<'_>) -> Done) -> (Done, Vec<String>) {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let mut input = io::empty();
    let mut console = Console {
        out: &mut out,
        err: &mut err,
        input: &mut input,
        unicode: true,
    };
    let done = run(&mut console);
    let mut lines = noted(&out);
    lines.extend(noted(&err));
    (done, lines)
}

/// The lines of an output; what is only a note needs no word for it on a screen.
fn noted(bytes: &[u8]) -> Vec<String> {
    let text = String::from_utf8_lossy(bytes);
    let lines = text.lines();
    lines
        .map(|line| line.strip_prefix("note: ").unwrap_or(line).to_owned())
        .collect()
}

fn sentence(failure: &Failure) -> String {
    failure.sentence().unwrap_or_else(|| "it failed".to_owned())
}
