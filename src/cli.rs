//! Commands and options, with the words of their help. Nothing is done here.

mod board;
mod class;
mod export;
#[cfg(feature = "pdf")]
mod handout;
mod logbook;
mod sheet;

use std::ffi::OsString;
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};
use pumpwright_calc::registry::Basis;
use pumpwright_engine::quantities::{DecimalSign, System};

pub use board::Board;
pub use class::{Assign, Class, ClassReport, Mark, OfPlan, Plan, Sit};
pub use export::Export as ExportProblems;
#[cfg(feature = "pdf")]
pub use handout::{Handout, Size};
pub use logbook::{Delete, Export, Import, Logbook, Merge, OfLogbook, Report, Show};
pub use sheet::Sheet;

/// Practice for the pump trade: job sheets with fresh numbers, marked line by line.
#[derive(Debug, Parser)]
#[command(name = "pumpwright", version, after_long_help = AFTER)]
#[command(subcommand_required = false, disable_help_subcommand = true)]
#[command(disable_version_flag = true)]
pub struct Cli {
    /// What to do; left out, the trainer opens.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// Print the versions of program, lessons and file formats
    #[arg(short = 'V', long)]
    pub version: bool,
    /// What holds for every command.
    #[command(flatten)]
    pub global: Global,
}

const AFTER: &str = "\
Exit codes:
  0  done
  1  a check found something, or a file was left out of a marking
  2  what was asked for does not exist or cannot be read
  3  a file, a folder or the terminal failed

Settings:
  Set-up in the trainer (? then U) keeps name, units, decimal sign, signs and
  checking in settings.toml, in a folder pumpwright-data beside the program where there
  is one, else in the folder for the settings of programs; house rules may be written
  there under [rules]. An option comes before the environment, the
  environment before the file, the file before the default. Only the signs are
  otherwise: what the locale allows is their default, and the file comes before it.

Environment:
  PUMPWRIGHT_SETTINGS     another settings file
  PUMPWRIGHT_LOGBOOK      another file for the record
  LC_ALL, LC_CTYPE, LANG  the first that is set decides: not UTF-8 means signs in ASCII
  NO_COLOR                set to anything: no colors
  TERM                    dumb: plain lines instead of a full screen

These are training figures: on a job the nameplate and the local code decide.";

/// Over the options that every command takes, behind its own.
const EVERYWHERE: &str = "For every command";

/// What holds for every command.
#[derive(Debug, Clone, Default, Args)]
pub struct Global {
    /// Read lessons from this folder too
    ///
    /// A file at the same place, or a family of the same name, replaces the
    /// one that the program carries; everything else stays.
    #[arg(long, global = true, value_name = "FOLDER", help_heading = EVERYWHERE)]
    pub lessons: Option<PathBuf>,
    /// Take house rules and sheets of a class from this file
    ///
    /// It comes before the settings file, and --rule comes before it.
    #[arg(long = "rules", global = true, value_name = "FILE", help_heading = EVERYWHERE)]
    pub class: Option<PathBuf>,
    /// Print signs in ASCII
    #[arg(long, global = true, help_heading = EVERYWHERE)]
    pub ascii: bool,
    /// The sign between whole and part, in answers and inputs; left out, point
    #[arg(long, global = true, value_enum, value_name = "SIGN", help_heading = EVERYWHERE)]
    pub decimal: Option<Decimal>,
    /// Read and keep settings in this file
    #[arg(long, global = true, value_name = "FILE", help_heading = EVERYWHERE)]
    pub settings: Option<PathBuf>,
    /// Keep the record in this file
    ///
    /// Left out, it lies in a folder pumpwright-data beside the program where there
    /// is one, else where this machine keeps the data of programs.
    #[arg(long, global = true, value_name = "FILE", help_heading = EVERYWHERE)]
    pub logbook: Option<PathBuf>,
    /// Whose record it is; left out, the name in the settings, else the user's
    #[arg(long = "as", global = true, value_name = "NAME", help_heading = EVERYWHERE)]
    pub person: Option<String>,
}

/// What the settings file says where no option does.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Kept {
    /// The system of units.
    pub units: Option<System>,
    /// House rules, each as NAME=VALUE.
    pub rules: Vec<String>,
}

impl Global {
    /// Lets the environment stand where no option says otherwise; an empty variable is none.
    ///
    /// Not by the parser: that would take what the environment says for typed, and show it in
    /// the usage of every command.
    pub fn stand_in(&mut self, variable: impl Fn(&str) -> Option<OsString>) {
        let path = |name| {
            let value = variable(name).filter(|value| !value.is_empty());
            value.map(PathBuf::from)
        };
        self.settings = self.settings.take().or_else(|| path(SETTINGS));
        self.logbook = self.logbook.take().or_else(|| path(LOGBOOK));
    }
}

/// The variable that names another settings file.
const SETTINGS: &str = "PUMPWRIGHT_SETTINGS";
/// The variable that names another file for the record.
const LOGBOOK: &str = "PUMPWRIGHT_LOGBOOK";

impl Cli {
    /// Lets what is kept stand where no option says otherwise.
    pub fn stand_in(&mut self, kept: &Kept) {
        let units = kept.units.map(Units::of);
        match &mut self.command {
            Some(Command::Practice(asked)) => asked.drawn.kept = kept.clone(),
            Some(Command::Exam(asked)) => asked.kept = kept.clone(),
            Some(Command::Problem(asked)) => asked.drawn.kept = kept.clone(),
            Some(Command::Figure(asked)) => asked.drawn.kept = kept.clone(),
            Some(Command::Sheet(asked)) => asked.drawn.kept = kept.clone(),
            #[cfg(feature = "pdf")]
            Some(Command::Handout(asked)) => asked.drawn.kept = kept.clone(),
            Some(Command::Board(asked)) => asked.drawn.kept = kept.clone(),
            Some(Command::Export(asked)) => asked.drawn.kept = kept.clone(),
            Some(Command::Lessons(asked)) => asked.units = asked.units.or(units),
            Some(Command::Calc(asked)) => asked.units = asked.units.or(units),
            _ => {}
        }
    }
}

/// The decimal sign.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, ValueEnum)]
pub enum Decimal {
    /// 1.5
    #[default]
    Point,
    /// 1,5
    Comma,
}

/// The system of units.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, ValueEnum)]
pub enum Units {
    /// Feet, psi, US gallons
    #[default]
    Us,
    /// Meters, kilopascals, liters
    Si,
}

impl Units {
    /// The two letters that stand for it.
    pub const fn letters(self) -> &'static str {
        self.system().letters()
    }

    /// As the command line names it.
    pub const fn of(system: System) -> Self {
        match system {
            System::Us => Self::Us,
            System::Si => Self::Si,
        }
    }

    /// As the engine names it.
    pub const fn system(self) -> System {
        match self {
            Self::Us => System::Us,
            Self::Si => System::Si,
        }
    }

    /// The trade's figures of this system.
    pub const fn basis(self) -> Basis {
        match self {
            Self::Us => Basis::UsTrade,
            Self::Si => Basis::SiTrade,
        }
    }
}

impl Decimal {
    /// As the engine names it.
    pub const fn sign(self) -> DecimalSign {
        match self {
            Self::Point => DecimalSign::Point,
            Self::Comma => DecimalSign::Comma,
        }
    }
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// List the lessons, or print one with its families
    Lessons(Lessons),
    /// Print a problem
    Problem(Problem),
    /// Draw the figure of a problem
    Figure(Figure),
    /// Mark a response to a problem
    Answer(Answer),
    /// Work problems one after another
    Practice(Practice),
    /// Put a problem on the board, one line of its working a key
    Board(Board),
    /// Write problems as a page for a phone, to work away from the machine
    Sheet(Sheet),
    /// Print problems as a PDF to hand out, with a key
    #[cfg(feature = "pdf")]
    Handout(Handout),
    /// Write problems in an open standard, for another program to ask and to mark
    Export(ExportProblems),
    /// Sit a paper with a clock, without help
    Exam(Exam),
    /// Open the work order of a class: list, plan, print, mark, report
    Class(Class),
    /// Write the plan of a class's paper, or show one
    Plan(Plan),
    /// Make a paper for each person of a class, sealed and alike
    Assign(Assign),
    /// Answer a paper that an instructor gave as a file
    Sit(Sit),
    /// Mark the papers of a class
    Mark(Mark),
    /// Say what a class's marks tell: what to teach again, how the marks are spread
    #[command(name = "report")]
    ClassReport(ClassReport),
    /// Read every lesson file, draw every family many times, and report each fault
    Check(Check),
    /// Look a word of the trade up, or list all words
    Words(Words),
    /// Work one of the trade's formulas
    Calc(Calc),
    /// The record: look at it, take it along, look after it
    Logbook(Logbook),
    /// Print a completion script for a shell
    Completions(Completions),
    /// Print a manual page
    Man(Man),
}

/// List the lessons, or print one.
#[derive(Debug, Args)]
pub struct Lessons {
    /// The lesson to print; left out, all are listed
    pub lesson: Option<String>,
    /// The system of units; left out, us
    #[arg(long, value_enum)]
    pub units: Option<Units>,
    /// Name the draw of the worked example: the same name gives the same numbers; left
    /// out, fresh numbers
    #[arg(long, value_name = "N")]
    pub draw: Option<u32>,
}

/// Which numbers a problem gets.
#[derive(Debug, Clone, Default, Args)]
pub struct Drawn {
    /// How hard; left out, the family's home level
    #[arg(long, value_name = "1|2|3", value_parser = clap::value_parser!(u8).range(1..=9))]
    pub level: Option<u8>,
    /// The system of units; left out, us
    #[arg(long, value_enum)]
    pub units: Option<Units>,
    /// Name a draw: the same name gives the same numbers; left out, fresh numbers
    #[arg(long, value_name = "N")]
    pub draw: Option<u32>,
    /// Set a house rule, as in --rule "tank.precharge_below=3 psi"; may be repeated
    #[arg(long = "rule", value_name = "NAME=VALUE")]
    pub rules: Vec<String>,
    /// What the settings file says where no option does.
    #[arg(skip)]
    pub kept: Kept,
}

impl Drawn {
    /// The system of units: as asked for, else as kept, else US.
    pub fn system(&self) -> System {
        let asked = self.units.map(Units::system);
        asked.or(self.kept.units).unwrap_or(System::Us)
    }
}

/// Print a problem.
#[derive(Debug, Args)]
pub struct Problem {
    /// A family, for fresh numbers, or the code of a problem, for the same again
    #[arg(value_name = "FAMILY|CODE")]
    pub what: String,
    /// Which numbers.
    #[command(flatten)]
    pub drawn: Drawn,
    /// Show the working and the known mistakes
    #[arg(long)]
    pub worked: bool,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
}

/// Draw the figure of a problem.
#[derive(Debug, Args)]
pub struct Figure {
    /// A family, for fresh numbers, or the code of a problem, for the same again
    #[arg(value_name = "FAMILY|CODE")]
    pub what: String,
    /// Which numbers.
    #[command(flatten)]
    pub drawn: Drawn,
    /// Show what the sheet asks, too
    #[arg(long)]
    pub worked: bool,
    /// Write the figure into this file, as SVG
    #[arg(long, value_name = "FILE")]
    pub svg: Option<PathBuf>,
    /// Print its numbers as a list, to hear
    #[arg(long, conflicts_with = "svg")]
    pub list: bool,
    /// So many columns wide; left out, 76
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(34..=200))]
    pub width: Option<u16>,
}

/// Mark a response.
#[derive(Debug, Args)]
pub struct Answer {
    /// The code of the problem
    pub code: String,
    /// An answer to a step, as in run=320 or "drop=8.7 V"
    ///
    /// A step goes by its name or by its number on the sheet. A bare number is
    /// read in the unit of its line. An offer goes by its letter; jobs in order
    /// by their numbers from top to bottom, - for one left out; parts by the
    /// letters of their meanings from top to bottom. A step left out is marked
    /// as not written.
    #[arg(value_name = "STEP=ANSWER")]
    pub answers: Vec<String>,
    /// It was worked on paper: put it into the logbook, too
    #[arg(long)]
    pub paper: bool,
    /// The solution was opened before the answers stood: it counts as help
    #[arg(long, requires = "paper")]
    pub looked: bool,
    /// So many lines, from the top, were given on the page: they are filled in and bear no marks
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=20))]
    pub given: Option<u8>,
    /// How many minutes it took
    #[arg(long, value_name = "N", requires = "paper", value_parser = clap::value_parser!(u32).range(1..=600))]
    pub minutes: Option<u32>,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
}

/// Work problems one after another.
#[derive(Debug, Default, Args)]
pub struct Practice {
    /// Only families of this lesson
    #[arg(long, conflicts_with = "family")]
    pub lesson: Option<String>,
    /// Only this family
    #[arg(long)]
    pub family: Option<String>,
    /// How many problems; left out, until you stop
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    pub count: Option<u32>,
    /// Plain lines instead of a full screen: to hear, or to drive from a script
    ///
    /// Without a terminal, and with --lesson, --count or --level, there are
    /// plain lines in any case.
    #[arg(long)]
    pub plain: bool,
    /// Which numbers.
    #[command(flatten)]
    pub drawn: Drawn,
}

impl Practice {
    /// What the trainer is told where no command stands.
    pub fn of(kept: Kept) -> Self {
        let drawn = Drawn {
            kept,
            ..Drawn::default()
        };
        Self {
            drawn,
            ..Self::default()
        }
    }

    /// Whether nothing is asked for beforehand, so that the record may choose.
    pub const fn leaves_the_choice(&self) -> bool {
        let drawn = self.drawn.level.is_some() || self.drawn.draw.is_some();
        self.lesson.is_none() && self.family.is_none() && self.count.is_none() && !drawn
    }

    /// The screen lets the person choose; what chooses beforehand is for plain lines.
    pub const fn needs_plain_lines(&self) -> bool {
        let chooses = self.lesson.is_some() || self.count.is_some() || self.drawn.level.is_some();
        self.plain || chooses
    }
}

/// Sit a paper.
#[derive(Debug, Args)]
pub struct Exam {
    /// An exam, for a fresh paper, or the code of a paper, for the same again
    ///
    /// Left out, you choose from the list; a paper that was stopped stands in it.
    #[arg(value_name = "EXAM|CODE")]
    pub exam: Option<String>,
    /// Plain lines instead of a full screen: to hear, or to drive from a script
    #[arg(long)]
    pub plain: bool,
    /// So many minutes on the clock, 0 for no clock; left out, as the exam has it
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(0..=600))]
    pub minutes: Option<u32>,
    /// The system of units; left out, us
    #[arg(long, value_enum)]
    pub units: Option<Units>,
    /// Name a draw: the same name gives the same paper; left out, a fresh one
    #[arg(long, value_name = "N")]
    pub draw: Option<u32>,
    /// Set a house rule, as in --rule "tank.precharge_below=3 psi"; may be repeated
    #[arg(long = "rule", value_name = "NAME=VALUE")]
    pub rules: Vec<String>,
    /// What the settings file says where no option does.
    #[arg(skip)]
    pub kept: Kept,
}

impl Exam {
    /// Which numbers its questions get.
    pub fn drawn(&self) -> Drawn {
        Drawn {
            level: None,
            units: self.units,
            draw: self.draw,
            rules: self.rules.clone(),
            kept: self.kept.clone(),
        }
    }
}

/// Read every lesson file and draw every family.
///
/// With a folder of your own, its families are drawn, and of the others only the files are
/// read: they were checked before they were built in.
#[derive(Debug, Args)]
pub struct Check {
    /// The folder to check, laid over the lessons that the program carries; or a plan
    pub folder: Option<PathBuf>,
    /// Draws of each family at each level and in each system of units; with few, shares are unsure
    #[arg(long, value_name = "N", default_value_t = 1000, value_parser = clap::value_parser!(u32).range(1..=100_000))]
    pub draws: u32,
    /// With a folder: draw the families of the program under it, too
    #[arg(long)]
    pub all: bool,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
}

/// Look a word of the trade up.
#[derive(Debug, Args)]
pub struct Words {
    /// The word, or its first letters; left out, all are listed
    pub word: Option<String>,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
}

/// Work one of the trade's formulas.
#[derive(Debug, Args)]
pub struct Calc {
    /// The formula, as in head.from_pressure; left out, all are listed
    pub name: Option<String>,
    /// An input, as in "pressure=40 psi"; a bare number is read in the unit that is listed
    #[arg(value_name = "INPUT=VALUE")]
    pub inputs: Vec<String>,
    /// The system of units whose formula counts; left out, us
    #[arg(long, value_enum)]
    pub units: Option<Units>,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
    /// Print the reference page of all formulas
    #[arg(long, conflicts_with_all = ["name", "json", "units"])]
    pub page: bool,
}

/// Print a completion script.
#[derive(Debug, Args)]
pub struct Completions {
    /// The shell
    #[arg(value_enum)]
    pub shell: clap_complete::Shell,
}

/// Print a manual page.
#[derive(Debug, Args)]
pub struct Man {
    /// The command whose page is printed; left out, the page of the program
    pub command: Option<String>,
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory as _;

    #[test]
    fn the_commands_and_options_do_not_contradict_each_other() {
        Cli::command().debug_assert();
    }
}
