//! What an instructor asks for, and how a paper is answered, with the words of the help.

use std::path::PathBuf;

use clap::{Args, Subcommand};

/// The plan of a paper.
#[derive(Debug, Args)]
pub struct Plan {
    /// What to do with it.
    #[command(subcommand)]
    pub what: OfPlan,
}

/// What to do with a plan.
#[derive(Debug, Subcommand)]
pub enum OfPlan {
    /// Write a plan to start from, every key explained
    New {
        /// The file, which must not be there yet; left out, it is printed
        file: Option<PathBuf>,
        /// Next week's plan, out of a report.csv, or of a folder of marked papers
        ///
        /// The mistakes to teach again, and jobs that were not met lately.
        #[arg(long, value_name = "REPORT")]
        from: Option<PathBuf>,
    },
    /// Show a plan: three samples of each item, marks, minutes, pages, how alike papers are
    Show {
        /// The plan
        file: PathBuf,
    },
    /// Try a plan: answer a paper of it as somebody in the class gets it, in plain lines
    ///
    /// It is marked when it is handed in, and kept nowhere. On the screen it is ? then X at the
    /// plan of a class.
    Try {
        /// The plan
        file: PathBuf,
        /// Name the draw: the same name gives the same paper; left out, any
        #[arg(long, value_name = "N")]
        draw: Option<u32>,
    },
}

/// Make a paper for each person of a class.
///
/// The folder keeps the secret of the class, everybody's id, and every paper as it was
/// printed: a PDF for each, print.pdf with all of them, key.pdf and strips.pdf for you
/// alone, and files for answering on screen. Called again, it makes what is missing and changes nothing that is there:
/// for late joiners, or after it was stopped.
#[derive(Debug, Args)]
pub struct Assign {
    /// The plan
    pub plan: PathBuf,
    /// Who is in the class: a CSV file with a column name, or last name and first name
    ///
    /// Comma, semicolon or tab, columns in any order; a column id where you have your
    /// own.
    #[arg(long, value_name = "CSV")]
    pub roster: PathBuf,
    /// The folder of the class
    #[arg(long, value_name = "FOLDER")]
    pub out: PathBuf,
    /// Make one further paper, for somebody who missed the day or is to write again
    ///
    /// The jobs and levels of the plan with other numbers, as hard as the others, and nothing
    /// of this person's earlier papers. Its number is the id with +2 behind it; it has a PDF,
    /// a file for the screen, a key and a strip of its own. Nothing else changes. Name the
    /// person by id, or by the whole name.
    #[arg(long, value_name = "NAME|ID")]
    pub make_up: Option<String>,
    /// With --make-up: make another one, though this person has one
    #[arg(long, requires = "make_up")]
    pub one_more: bool,
    /// Make no PDFs: only the files for answering on screen
    #[arg(long)]
    pub no_pdf: bool,
    /// The paper in the printer; left out, as the last time, at first letter with US units
    /// and A4 with metric ones
    #[cfg(feature = "pdf")]
    #[arg(long, value_enum, conflicts_with_all = ["no_pdf", "make_up"])]
    pub size: Option<super::Size>,
}

/// Open the work order of a class.
///
/// Class list, plan, print, mark with the pen or from files of answers, report: the first
/// thing that waits is taken first. Where there is no terminal, its lines are printed.
#[derive(Debug, Args)]
pub struct Class {
    /// The folder of the class, or of one plan's papers in it; left out, the last one
    pub folder: Option<PathBuf>,
    /// Print how the class stands, in plain lines
    #[arg(long)]
    pub plain: bool,
    /// Say what the folder has of one person, who leaves the class: name or id
    ///
    /// With --export it is written for that person to take along, with --delete it is
    /// deleted, and with both first the one, then the other.
    #[arg(
        long,
        value_name = "NAME|ID",
        requires = "folder",
        conflicts_with = "plain"
    )]
    pub leaver: Option<String>,
    /// With --leaver: write papers, answers and marks into a file FILE.zip, or a folder
    ///
    /// No solutions are among it: it may be handed on.
    #[arg(long, value_name = "FILE.zip|FOLDER", requires = "leaver")]
    pub export: Option<PathBuf>,
    /// With --leaver: delete everything of this person from the folder
    ///
    /// Papers, answers, marks, what was decided, and the name; it asks twice. What is made of
    /// several papers is made anew without it. The id stays taken, so that nobody else's
    /// paper changes. On the list once more, the same name is somebody new, with a new id.
    #[arg(long, requires = "leaver")]
    pub delete: bool,
    /// Do not ask; needed where nobody sits at a terminal
    #[arg(long, requires = "delete")]
    pub without_asking: bool,
}

/// Answer a paper that an instructor gave as a file.
///
/// As sheets on the screen, or in plain lines, where ?K lists the words. What is written is
/// kept beside the file of answers until it is handed in, so that you can stop and go on.
///
/// In the trainer, ? and E lists it under the exams.
#[derive(Debug, Args)]
pub struct Sit {
    /// The paper
    pub file: PathBuf,
    /// Plain lines instead of a full screen: to hear, or to drive from a script
    #[arg(long)]
    pub plain: bool,
    /// The file of answers that is handed in; left out, answers-PLAN-PAPER.json here
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
}

/// Mark the papers of a class.
///
/// What is taken in is kept in the folder; every marking reads all of it anew and writes
/// marks.csv, report.html and report.csv there, and slips.pdf with a page for each to give
/// back.
#[derive(Debug, Args)]
pub struct Mark {
    /// The folder of the class, or of one plan's papers in it
    pub folder: PathBuf,
    /// Files of answers to take in, or a CSV table with paper,1.1,1.2,2.1 as first line
    #[arg(long, value_name = "FILE", num_args = 1..)]
    pub answers: Vec<PathBuf>,
    /// Let an item of the plan count for nobody, as in --drop "5=the photo was another"
    ///
    /// --drop "5=" alone takes it back: the item counts again.
    #[arg(long, value_name = "ITEM=REASON")]
    pub drop: Vec<String>,
    /// Set the marks of an item by hand, as in --judge "019.3=2.5 told me the unit"
    ///
    /// The number of the paper, the item's number in the plan, the marks, the reason. --judge
    /// "019.3=" alone takes it back: the marks that are worked out stand again.
    #[arg(long, value_name = "PAPER.ITEM=MARKS REASON")]
    pub judge: Vec<String>,
    /// Write the mark sheet with semicolons between cells
    #[arg(long)]
    pub semicolons: bool,
    /// Write marks with a comma, as in 2,5, on mark sheet and slips; answers are read as
    /// --decimal says
    #[arg(long)]
    pub decimal_comma: bool,
    /// Make no slips.pdf
    #[arg(long)]
    pub no_pdf: bool,
}

/// Say what a class's marks tell: what to teach again first.
///
/// Nobody is named. Several folders are pooled: papers of one class over the weeks, or the
/// same plan over classes and years. What came in is marked anew; nothing is taken in.
#[derive(Debug, Args)]
pub struct ClassReport {
    /// Folders of papers, or the folder of a class for all of its papers
    #[arg(required = true, num_args = 1.., value_name = "FOLDER")]
    pub folders: Vec<PathBuf>,
    /// Write it as a page, too
    #[arg(long, value_name = "FILE")]
    pub html: Option<PathBuf>,
    /// Write it as a table for a spreadsheet, too
    #[arg(long, value_name = "FILE")]
    pub csv: Option<PathBuf>,
    /// Write the table with semicolons between cells
    #[arg(long, requires = "csv")]
    pub semicolons: bool,
}
