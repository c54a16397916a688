//! Opens the terminal and the outputs and hands them to the commands.

use std::collections::BTreeSet;
use std::io::{self, BufWriter, Write as _};

use std::path::PathBuf;

use clap::Parser as _;
use pumpwright_engine::lessons::{Fault, Library, SourceFile};
use pumpwright_engine::quantities::{DecimalSign, System};
use pumpwright_screens as screens;
use pumpwright_screens::{NoOffice, Office};

use crate::classroom::{FileOffice, Stock};
use crate::cli;
use crate::cli::{Board, Class, Cli, Command, Decimal, Exam, OfLogbook, OfPlan, Practice, Sit};
use crate::commands;
use crate::console::Console;
use crate::failure::Failure;
use crate::formats;
use crate::hangup;
use crate::lesson_files;
use crate::logbook::{FileClerk, place as logbook};
use crate::news::News;
use crate::platform::{self, Look, Signals};
use crate::settings::{FileKeeper, InUse};

/// Runs what the command line asks for.
///
/// # Errors
/// A [`Failure`] says what to print and with which number to exit.
pub fn from_the_command_line() -> Result<(), Failure> {
    let mut cli = Cli::parse();
    cli.global.stand_in(|name| std::env::var_os(name));
    let look = Look::of_this_machine();
    if cli.version {
        return Ok(io::stdout().write_all(formats::versions().as_bytes())?);
    }
    let settings = match cli.command {
        Some(Command::Check(_) | Command::Completions(_) | Command::Man(_)) => InUse::default(),
        _ => InUse::of(&cli),
    };
    let unicode = match settings.set().signs {
        _ if cli.global.ascii => false,
        Some(signs) => signs == screens::Signs::Drawn,
        None => look.unicode,
    };
    let (mut out, mut err) = (BufWriter::new(io::stdout().lock()), io::stderr().lock());
    let mut input = io::stdin().lock();
    let mut console = Console {
        out: &mut out,
        err: &mut err,
        input: &mut input,
        unicode,
    };
    let done = run(&mut cli, settings, &mut console);
    let flushed = out.flush().map_err(Failure::from);
    done.and(flushed)
}

/// Runs one command.
///
/// # Errors
/// A [`Failure`] says what to print and with which number to exit.
pub fn run(cli: &mut Cli, settings: InUse, console: &mut Console) -> Result<(), Failure> {
    match &cli.command {
        Some(Command::Completions(asked)) => commands::completions::completions(asked, console),
        Some(Command::Man(asked)) => commands::completions::man(asked, console),
        Some(Command::Plan(cli::Plan {
            what: OfPlan::New { file, from: None },
        })) => commands::plan::new(file.as_deref(), console),
        Some(Command::Sit(asked)) if asked.plain || !platform::at_a_terminal() => {
            let read = Read::lessons(cli)?;
            let tools = screens::PaperTools::new(&read.library, decimal(cli, &settings));
            commands::sit::plainly(asked, tools, console)
        }
        Some(Command::Check(asked)) if asked.folder.as_ref().is_some_and(|path| path.is_file()) => {
            let path = asked.folder.clone().unwrap_or_default();
            let mut read = Read::lessons(cli)?;
            commands::check::plan(&path, asked.json, &mut read.library, console)
        }
        Some(Command::Check(asked)) => {
            let folder = asked.folder.as_ref().or(cli.global.lessons.as_ref());
            let files = lesson_files::in_use(folder.map(PathBuf::as_path))?;
            let class = lesson_files::class(cli.global.class.as_deref())?;
            commands::check::run(asked, &files, class.as_ref(), console)
        }
        Some(Command::Calc(_)) => {
            cli.stand_in(&settings.kept());
            say(&settings, console);
            let decimal = decimal(cli, &settings);
            match &cli.command {
                Some(Command::Calc(asked)) => commands::calc::run(asked, decimal, console),
                _ => Ok(()),
            }
        }
        Some(Command::Logbook(asked)) => logbook(cli, &asked.what, &settings, console),
        _ => with_lessons(cli, settings, console),
    }
}

/// The logbook; what somebody can do is told by the lessons, all else needs none.
fn logbook(
    cli: &Cli,
    asked: &OfLogbook,
    settings: &InUse,
    console: &mut Console,
) -> Result<(), Failure> {
    say(settings, console);
    let desk = desk(cli, settings);
    if !commands::logbook::needs_lessons(asked) {
        return commands::logbook::run(asked, &desk, &Library::default(), console);
    }
    let read = Read::lessons(cli)?;
    read.say(console);
    commands::logbook::run(asked, &desk, &read.library, console)
}

/// Which logbook, and whose record.
fn desk(cli: &Cli, settings: &InUse) -> commands::logbook::Desk {
    let file = logbook::file(&cli.global);
    commands::logbook::Desk {
        person: logbook::person(&cli.global, settings, file.as_deref()),
        file,
        named: cli.global.person.is_some(),
        system: settings.kept().units.unwrap_or(System::Us),
    }
}

fn with_lessons(cli: &mut Cli, mut settings: InUse, console: &mut Console) -> Result<(), Failure> {
    let sits = match &cli.command {
        None | Some(Command::Practice(_) | Command::Exam(_) | Command::Sit(_)) => true,
        // In plain lines the board keeps nothing.
        Some(Command::Board(asked)) => !asked.plain && platform::at_a_terminal(),
        Some(Command::Class(asked)) => {
            asked.leaver.is_none() && !asked.plain && platform::at_a_terminal()
        }
        _ => false,
    };
    let opening = sits.then(|| {
        // The record is opened while the lessons are read.
        let whose = logbook::Whose::of(&cli.global, &settings);
        FileClerk::begin(logbook::file(&cli.global).as_deref(), whose)
    });
    let read = Read::lessons(cli)?;
    settings.check_rules(&read.library);
    cli.stand_in(&settings.kept());
    let practice = match &cli.command {
        None => Some(Work::Practice(&Practice::of(settings.kept()))),
        Some(Command::Practice(asked)) => Some(Work::Practice(asked)),
        Some(Command::Exam(asked)) => Some(Work::Exam(asked)),
        Some(Command::Board(asked)) => Some(Work::Board(asked)),
        Some(Command::Class(asked)) if asked.leaver.is_none() => Some(Work::Class(asked)),
        Some(Command::Sit(asked)) => Some(Work::Sit(asked)),
        _ => None,
    };
    if let (Some(asked), Some(opening)) = (practice, opening) {
        return practise(cli, asked, (read, settings, opening.wait()), console);
    }
    say(&settings, console);
    read.say(console);
    match &cli.command {
        Some(
            Command::Plan(_) | Command::Assign(_) | Command::Mark(_) | Command::ClassReport(_),
        ) => return for_a_class(cli, decimal(cli, &settings), read, console),
        Some(Command::Class(asked)) if asked.leaver.is_some() => {
            return for_a_class(cli, decimal(cli, &settings), read, console);
        }
        _ => {}
    }
    let library = &read.library;
    match &cli.command {
        Some(Command::Class(asked)) => {
            let last = settings.settings.set.class.as_deref();
            let office = FileOffice::new(|| read.stock());
            let decimal = decimal(cli, &settings);
            commands::class::plainly(asked, last, decimal, office, console)
        }
        Some(Command::Lessons(asked)) => commands::lessons::run(asked, library, console),
        Some(Command::Problem(asked)) => commands::problem::run(asked, library, console),
        Some(Command::Figure(asked)) => commands::figure::run(asked, library, console),
        Some(Command::Board(asked)) => commands::board::plainly(asked, library, console),
        Some(Command::Export(asked)) => commands::export::run(asked, library, console),
        Some(Command::Words(asked)) => commands::words::run(asked, library, console),
        Some(Command::Answer(asked)) => {
            let desk = desk(cli, &settings);
            let decimal = decimal(cli, &settings);
            commands::answer::run(asked, decimal, (library, &desk), console)
        }
        Some(Command::Sheet(asked)) => {
            let desk = desk(cli, &settings);
            commands::sheet::run(asked, &desk, library, console)
        }
        #[cfg(feature = "pdf")]
        Some(Command::Handout(asked)) => commands::handout::run(asked, library, console),
        _ => Ok(()),
    }
}

/// What an instructor asks for.
fn for_a_class(
    cli: &Cli,
    decimal: DecimalSign,
    mut read: Read,
    console: &mut Console,
) -> Result<(), Failure> {
    let mut lessons = commands::assign::Lessons {
        library: &mut read.library,
        files: &read.files,
        class: read.class.as_ref(),
    };
    match &cli.command {
        Some(Command::Plan(asked)) => match &asked.what {
            OfPlan::Show { file } => commands::plan::show(file, lessons.library, console),
            OfPlan::Try { file, draw } => {
                commands::try_plan::run((file, *draw), decimal, lessons.library, console)
            }
            OfPlan::New { file, from } => {
                let (file, from) = (file.as_deref(), from.as_deref());
                commands::report::next(file, from, decimal, lessons.library, console)
            }
        },
        Some(Command::Assign(asked)) => commands::assign::run(asked, &mut lessons, console),
        Some(Command::Mark(asked)) => commands::mark::run(asked, decimal, &mut lessons, console),
        Some(Command::ClassReport(asked)) => {
            commands::report::run(asked, decimal, lessons.library, console)
        }
        Some(Command::Class(asked)) => commands::leaver::run(asked, decimal, &mut lessons, console),
        _ => Ok(()),
    }
}

/// The decimal sign: as asked for, else as kept, else a point.
fn decimal(cli: &Cli, settings: &InUse) -> DecimalSign {
    let asked = cli.global.decimal.map(Decimal::sign);
    asked
        .or(settings.set().decimal)
        .unwrap_or(Decimal::default().sign())
}

/// Says beside the output that the settings file is left out; defaults serve.
fn say(settings: &InUse, console: &mut Console) {
    if let Some(fault) = &settings.fault {
        console.note(fault);
        console.note("note: the settings file is left as it is; every setting is at its default");
    }
}

/// What was read, and what is wrong with what was not.
struct Read {
    library: Library,
    files: Vec<SourceFile>,
    class: Option<SourceFile>,
    faults: Vec<Fault>,
    unread: Vec<String>,
}

impl Read {
    fn lessons(cli: &Cli) -> Result<Self, Failure> {
        let files = lesson_files::in_use(cli.global.lessons.as_deref())?;
        let class = lesson_files::class(cli.global.class.as_deref())?;
        let (library, faults) = match (&class, &cli.global.lessons) {
            (Some(class), _) => Library::read_under(&files.files, class),
            (None, Some(_)) => Library::read(&files.files),
            // What the program carries alone was checked before it was built in.
            (None, None) => Library::read_checked(&files.files),
        };
        // Whoever names a rules file wants its rules: without them nothing is drawn.
        if let Some(fault) = class
            .as_ref()
            .and_then(|class| faults.iter().find(|fault| fault.file == class.path))
        {
            let sentence = fault.to_string();
            let sentence = sentence.strip_prefix("error: ").unwrap_or(&sentence);
            return Err(Failure::Input(sentence.to_owned()));
        }
        Ok(Self {
            library,
            files: files.files,
            class,
            faults,
            unread: files.unread,
        })
    }

    /// What a class's papers are drawn from.
    fn stock(&self) -> Stock {
        Stock {
            library: self.library.clone(),
            files: self.files.clone(),
            class: self.class.clone(),
        }
    }

    /// Says beside the output what is left out; everything else works.
    fn say(&self, console: &mut Console) {
        for sentence in &self.unread {
            console.note(format_args!("note: {sentence}; it is left out"));
        }
        for fault in &self.faults {
            console.note(fault);
        }
        let files: BTreeSet<&str> = self.faults.iter().map(|own| own.file.as_str()).collect();
        match (files.len(), files.first()) {
            (1, Some(file)) => console.note(format_args!(
                "note: {file} is left out; everything else works"
            )),
            (0, _) | (_, None) => {}
            (count, _) => console.note(format_args!(
                "note: {count} files are left out; everything else works"
            )),
        }
    }
}

/// What a person sits down to.
#[derive(Clone, Copy)]
enum Work<'a> {
    Practice(&'a Practice),
    Exam(&'a Exam),
    Board(&'a Board),
    Class(&'a Class),
    Sit(&'a Sit),
}

impl Work<'_> {
    const fn needs_plain_lines(self) -> bool {
        match self {
            Self::Practice(asked) => asked.needs_plain_lines(),
            Self::Exam(asked) => asked.plain,
            Self::Board(asked) => asked.plain,
            Self::Class(asked) => asked.plain,
            Self::Sit(asked) => asked.plain,
        }
    }
}

/// On the screen where a person sits at it, else in plain lines.
fn practise(
    cli: &Cli,
    asked: Work<'_>,
    (read, settings, clerk): (Read, InUse, FileClerk),
    console: &mut Console,
) -> Result<(), Failure> {
    let decimal = decimal(cli, &settings);
    if asked.needs_plain_lines() || !platform::at_a_terminal() {
        say(&settings, console);
        read.say(console);
        let keeper = FileKeeper::new(settings.path.clone());
        let unsaid = [keeper.unsaid(), clerk.unsaid()];
        let library = &read.library;
        let person = person(
            cli,
            settings,
            (keeper, clerk),
            Box::new(NoOffice::default()),
        );
        match asked {
            Work::Practice(asked) => {
                commands::practice::plainly(asked, decimal, library, person, console)?;
            }
            Work::Exam(asked) => {
                commands::exam::plainly(asked, decimal, library, person, console)?;
            }
            Work::Board(asked) => commands::board::plainly(asked, library, console)?,
            // Without a terminal they need no record, and were done before.
            Work::Class(_) | Work::Sit(_) => {}
        }
        say_unsaid(&unsaid, console);
        return Ok(());
    }
    let look = screens::Look {
        ascii: !console.unicode,
        colour: Look::of_this_machine().color,
    };
    // Who has settings was here before, and begins at the front page.
    let start = match cli.command {
        None if !settings.found => screens::Start::First,
        _ => screens::Start::Jobs,
    };
    let keeper = FileKeeper::new(settings.path.clone());
    let office = FileOffice::new(|| read.stock());
    let unsaid = [keeper.unsaid(), clerk.unsaid(), office.unsaid()];
    let person = person(cli, settings, (keeper, clerk), Box::new(office));
    let library = &read.library;
    let mut options = match asked {
        Work::Practice(asked) => {
            commands::practice::for_the_screen(asked, decimal, library, (look, start), person)?
        }
        Work::Exam(asked) => commands::exam::for_the_screen(asked, decimal, library, look, person)?,
        Work::Board(asked) => {
            commands::board::for_the_screen(asked, decimal, library, look, person)?
        }
        Work::Class(asked) => commands::class::for_the_screen(asked, decimal, look, person),
        Work::Sit(asked) => commands::sit::for_the_screen(asked, decimal, look, person)?,
    };
    options.draws = breaking_on_purpose(options.draws);
    let unheard = |error| Failure::World(format!("signals cannot be watched: {error}"));
    let signals = Signals::taken().map_err(unheard)?;
    hangup::watch(&signals.stop);
    let told = screens::Signals {
        stop: &signals.stop,
        suspend: &signals.suspend,
        resumed: &signals.resumed,
        sleep: &|| signals.sleep(),
    };
    let ending = screens::train(&read.library, &read.faults, options, &told)
        .map_err(|error| Failure::World(format!("the terminal fails: {error}")))?;
    console.line(ending.line)?;
    say_unsaid(&unsaid, console);
    Ok(())
}

/// Says what could not be kept, if that was not said before.
fn say_unsaid(unsaid: &[News], console: &mut Console) {
    for news in unsaid {
        while let Some(sentence) = news.next() {
            console.note(format_args!("note: {sentence}"));
        }
    }
}

/// The person at the screen, as the settings and this machine know them.
fn person<'a>(
    cli: &Cli,
    settings: InUse,
    (keeper, clerk): (FileKeeper, FileClerk),
    office: Box<dyn Office + 'a>,
) -> screens::Person<'a> {
    let signs = if Look::of_this_machine().unicode {
        screens::Signs::Drawn
    } else {
        screens::Signs::Ascii
    };
    screens::Person {
        default: screens::Choices {
            signs,
            ..screens::Choices::default()
        },
        user: platform::user(),
        asked: settings.found,
        fault: settings.fault,
        set: settings.settings.set,
        keeper: Box::new(keeper),
        clerk: Box::new(clerk),
        office,
        called: cli.global.person.clone(),
    }
}

/// In a build for testing, and only where the environment asks for it, the first
/// draw breaks: a test sees that the terminal is given back all the same.
fn breaking_on_purpose<'a>(draws: Box<dyn FnMut() -> u32 + 'a>) -> Box<dyn FnMut() -> u32 + 'a> {
    let asked = cfg!(debug_assertions) && std::env::var_os("PUMPWRIGHT_TEST_PANIC").is_some();
    if !asked {
        return draws;
    }
    #[expect(clippy::panic, reason = "a panic is what the test asks for")]
    Box::new(|| panic!("broken on purpose"))
}
