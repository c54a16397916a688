//! A paper in plain lines: sat question by question, handed in. What a paper has on the
//! screen it has here.

use std::io;
use std::rc::Rc;

use pumpwright_engine::marking::keep;
use pumpwright_engine::papers::Paper;

use super::choosing::Taken;
use super::lines::Came;
use super::session::Session;
use super::written::Written;
use crate::keys::Tool;
use crate::sitting::{Clock, Left, NO_HELP, Sitting, numbers};

/// What takes an answer out again.
const NONE: &str = "-";

/// How one comes away from a question.
enum Away {
    /// To this question.
    To(usize),
    /// To what is open, before the paper is handed in.
    Close,
    /// The time is up.
    Over,
    /// Nothing more is read: what stands is kept.
    Stop,
}

/// What is decided beforehand for a paper in plain lines.
pub struct ExamAsked<'a> {
    /// The paper; none lets the person choose.
    pub paper: Option<Paper>,
    /// The minutes, 0 for no clock; left out, the person or the blueprint decides.
    pub minutes: Option<u32>,
    /// Whether the file of a paper from an instructor can be opened; else why not.
    pub opens: &'a dyn Fn(&str) -> Result<(), String>,
}

impl Session<'_> {
    /// Has a paper sat; gives the file of one that an instructor gave, where that is taken.
    pub(super) fn exam(mut self, asked: ExamAsked<'_>) -> io::Result<Option<String>> {
        if asked.paper.is_none() && self.hand_in_what_is_over()? {
            return Ok(None);
        }
        let taken = match asked.paper {
            Some(paper) => {
                let own = paper.exam.minutes;
                let minutes = asked.minutes.unwrap_or(own);
                Taken::Sitting(Box::new(self.begin(paper, minutes)))
            }
            None => self.choose(asked.minutes, asked.opens)?,
        };
        match taken {
            Taken::Sitting(sitting) => self.sit(*sitting).map(|()| None),
            Taken::Given(file) => Ok(Some(file)),
            Taken::None => Ok(None),
        }
    }

    /// Opens a paper with so many minutes on the clock, 0 for no clock.
    pub(super) fn begin(&mut self, paper: Paper, minutes: u32) -> Sitting {
        let minutes = (minutes > 0).then_some(minutes);
        let manner = self.manner;
        let clerk = self.desk.clerk();
        let clock = Clock::starting(clerk.now().milliseconds, minutes);
        Sitting::new(Rc::new(paper), manner, clock, || clerk.fresh_id())
    }

    /// The sittings that were stopped; what cannot be read is said.
    pub(super) fn left(&mut self) -> io::Result<Vec<Left>> {
        let mut found = Vec::new();
        for draft in self.desk.record().drafts() {
            match Left::of_draft(&draft) {
                Some(Ok(left)) => found.push(left),
                Some(Err(words)) => self.lines.say("note", &words)?,
                None => {}
            }
        }
        Ok(found)
    }

    /// A paper whose time ran out while it lay is handed in as it stands.
    fn hand_in_what_is_over(&mut self) -> io::Result<bool> {
        let now = self.desk.clerk().now().milliseconds;
        let over = self.left()?.into_iter().find(|left| left.is_over(now));
        let Some(left) = over else { return Ok(false) };
        match left.lay_out(self.library, self.manner, now) {
            Ok(sitting) => {
                let words = "Time ran out: the paper that was stopped is handed in as it stands.";
                self.lines.say("note", words)?;
                self.hand_in_paper(sitting)?;
                Ok(true)
            }
            Err(words) => {
                self.lines.say("note", &words)?;
                Ok(false)
            }
        }
    }

    /// Has the questions answered until the paper is handed in or left.
    fn sit(&mut self, mut sitting: Sitting) -> io::Result<()> {
        self.begins(&sitting)?;
        self.keep_sitting(&sitting);
        let mut at = Some(sitting.at);
        loop {
            let away = match at {
                Some(question) => {
                    sitting.open(question);
                    self.question(&mut sitting)?
                }
                None => self.close(&mut sitting)?,
            };
            self.keep_sitting(&sitting);
            match away {
                Away::To(question) if question < sitting.sheets.len() => at = Some(question),
                Away::Close if at.is_none() => return self.hand_in_paper(sitting),
                Away::To(_) | Away::Close => at = None,
                Away::Over => {
                    let words = "Time is up: the paper is handed in as it stands.";
                    self.lines.say("note", words)?;
                    return self.hand_in_paper(sitting);
                }
                Away::Stop => {
                    let words = if self.desk.record().keeps() {
                        "Kept as it stands; the clock runs on. The same command goes on with it."
                    } else {
                        "Nothing is handed in, and nothing is kept after the stop."
                    };
                    return self.lines.say("end", words);
                }
            }
        }
    }

    fn begins(&mut self, sitting: &Sitting) -> io::Result<()> {
        let exam = &sitting.paper.exam;
        self.lines.say("paper", &exam.title)?;
        self.lines.say("code", &sitting.paper.code.to_string())?;
        let size = format!(
            "{} questions, {}",
            sitting.sheets.len(),
            sitting.clock.words()
        );
        self.lines.say("note", &size)?;
        for text in crate::sitting::allowed(sitting) {
            self.lines.say("note", &text)?;
        }
        self.lines.say(
            "note",
            "Write an answer and Enter; Enter alone leaves it. ?A sets aside, ?17 goes to \
             question 17, ?Z hands in, ?Q stops and keeps. @ tables, & works out a sum.",
        )
    }

    fn keep_sitting(&mut self, sitting: &Sitting) {
        if let Some(draft) = sitting.draft() {
            self.desk.clerk().keep(draft);
        }
    }

    /// Lets the clock run; says what is said once, and whether time is left.
    fn has_time(&mut self, sitting: &mut Sitting) -> io::Result<bool> {
        let now = self.desk.clerk().now().milliseconds;
        let (said, _) = sitting.clock.tick(now);
        if let Some(words) = said {
            self.lines.say("clock", &words)?;
        }
        Ok(!sitting.clock.is_up())
    }

    /// Says a question and reads what is done about it.
    fn question(&mut self, sitting: &mut Sitting) -> io::Result<Away> {
        let at = sitting.at;
        let Some(line) = sitting.question().and_then(|own| Some(own.asked()?.0)) else {
            return Ok(Away::To(at + 1));
        };
        self.say_question(sitting)?;
        loop {
            let began = self.desk.clerk().now().milliseconds;
            let came = self.lines.read()?;
            let passed = self.desk.clerk().now().milliseconds - began;
            if let Some(sheet) = sitting.sheet_mut() {
                sheet.spent.add(passed, Some(line));
            }
            if !self.has_time(sitting)? {
                return Ok(Away::Over);
            }
            let Some(sheet) = sitting.sheet() else {
                return Ok(Away::Stop);
            };
            match came {
                Came::End | Came::Letter('q' | 'Q') => return Ok(Away::Stop),
                Came::Letter('a' | 'A') => {
                    sitting.aside.insert(at);
                    let words = format!("question {} is set aside", at + 1);
                    self.lines.say("note", &words)?;
                    return Ok(Away::To(at + 1));
                }
                Came::Letter('z' | 'Z') => return Ok(Away::Close),
                Came::Letter('p' | 'P') => self.say_question(sitting)?,
                Came::Letter('k' | 'K') => self.exam_keys()?,
                Came::Letter(letter) => {
                    match goes_to(&format!("?{letter}"), sitting.sheets.len()) {
                        Some(to) => return Ok(Away::To(to)),
                        None => self.no_tool(letter)?,
                    }
                }
                Came::Ask | Came::Show | Came::Word(_) | Came::CarryOver(_) => {
                    self.lines.say("note", NO_HELP)?;
                }
                Came::Tables(asked) => {
                    let problem = Rc::clone(&sheet.problem);
                    let paper = Rc::clone(&sitting.paper);
                    self.tables((&problem, Some(&paper.exam)), None, &asked)?;
                }
                Came::Sums(sum) => {
                    let mut written = Written::of(sheet);
                    self.sum(&mut written, &sum)?;
                    if let Some(sheet) = sitting.sheet_mut() {
                        sheet.back = written.back;
                    }
                    self.keep_sitting(sitting);
                }
                Came::Text(text) => {
                    if let Some(to) = goes_to(&text, sitting.sheets.len()) {
                        return Ok(Away::To(to));
                    }
                    if let Some(away) = self.answer(sitting, line, &text)? {
                        return Ok(away);
                    }
                }
            }
        }
    }

    /// Takes an answer; nothing where it cannot be read.
    fn answer(
        &mut self,
        sitting: &mut Sitting,
        line: usize,
        text: &str,
    ) -> io::Result<Option<Away>> {
        let at = sitting.at;
        let on = Some(Away::To(at + 1));
        if text.is_empty() {
            return Ok(on);
        }
        let Some(sheet) = sitting.sheet() else {
            return Ok(None);
        };
        if text == NONE && sheet.is_begun() {
            sitting.write(at, "");
            self.lines.say(&format!("kept {}", at + 1), "nothing")?;
            return Ok(on);
        }
        match keep(&sheet.problem, line, text, sheet.manner) {
            Ok(kept) => {
                sitting.write(at, text);
                self.lines.say(&format!("kept {}", at + 1), &kept)?;
                let problem = sitting.sheet().map(|sheet| Rc::clone(&sheet.problem));
                if let Some(asked) = problem.as_deref().and_then(|own| own.lines.get(line)) {
                    self.understood(asked, text)?;
                }
                Ok(on)
            }
            Err(words) => {
                self.lines.say("note", &words)?;
                Ok(None)
            }
        }
    }

    fn say_question(&mut self, sitting: &Sitting) -> io::Result<()> {
        let Some((sheet, (index, line))) = sitting
            .sheet()
            .and_then(|sheet| Some((sheet, sitting.question()?.asked()?)))
        else {
            return Ok(());
        };
        let number = sitting.at + 1;
        let counts = format!(
            "{number} of {}, answered {}, set aside {}, open {}, {}",
            sitting.sheets.len(),
            sitting.answered(),
            sitting.aside.len(),
            sitting.unanswered().len(),
            sitting.clock.words()
        );
        self.lines.say("question", &counts)?;
        self.job(&sheet.problem)?;
        for text in &sheet.problem.sheets {
            self.lines.say("note", text)?;
        }
        self.lines.offers(line)?;
        let asked = super::asked::asked_form(&sheet.problem, line);
        self.lines.say(
            &format!("answer {number}"),
            &format!("{}{asked}", line.label),
        )?;
        if let Some(typed) = sheet.typed(index) {
            let words = format!("It holds {typed}. Enter keeps that, {NONE} alone takes it out.");
            self.lines.say("note", &words)?;
        }
        Ok(())
    }

    fn exam_keys(&mut self) -> io::Result<()> {
        for (key, does) in [
            ("?A", "set aside: leave this question for later"),
            ("?17", "go to question 17, or to any other"),
            ("?Z", "what is open; there once more: hand in"),
            ("?P", "this question once more"),
            ("?Q", "stop; what is written is kept, the clock runs on"),
            (
                "@",
                "the tables; with a number or a word behind it, that one",
            ),
            ("&", "works out the sum behind it; alone, lists the sums"),
        ] {
            self.lines.say(&format!("key {key}"), does)?;
        }
        Ok(())
    }

    fn no_tool(&mut self, letter: char) -> io::Result<()> {
        let words = match Tool::by_letter(letter) {
            Some(row) => format!("{} {} has no use on a paper", row.letter, row.name),
            None => format!("{letter} is no tool; ?K lists them"),
        };
        self.lines.say("note", &words)
    }

    /// Says what is open; a number goes back to a question. Enter alone hands in only where
    /// every question is answered.
    fn close(&mut self, sitting: &mut Sitting) -> io::Result<Away> {
        self.lines
            .say("answered", &sitting.answered().to_string())?;
        self.lines
            .say("set aside", &numbers(&sitting.set_aside()))?;
        self.lines.say("open", &numbers(&sitting.unanswered()))?;
        let open = sitting.is_open();
        let by = if open { "?Z" } else { "Enter" };
        loop {
            let count = sitting.sheets.len();
            self.lines.say(
                "next",
                &format!("{by} hands the whole paper in. A number from 1 to {count} goes back to that question."),
            )?;
            let came = self.lines.read()?;
            if !self.has_time(sitting)? {
                return Ok(Away::Over);
            }
            match came {
                Came::End | Came::Letter('q' | 'Q') => return Ok(Away::Stop),
                Came::Letter('z' | 'Z') => return Ok(Away::Close),
                Came::Text(text) if text.is_empty() && open => self.lines.say(
                    "note",
                    "Questions are open. Enter alone hands nothing in; ?Z does.",
                )?,
                Came::Text(text) if text.is_empty() => return Ok(Away::Close),
                Came::Text(text) => {
                    let text = text.trim_start_matches('?').to_owned();
                    if let Some(to) = goes_to(&format!("?{text}"), count) {
                        return Ok(Away::To(to));
                    }
                    self.lines.say("note", "write the number of a question")?;
                }
                Came::Letter(letter) => match goes_to(&format!("?{letter}"), count) {
                    Some(to) => return Ok(Away::To(to)),
                    None => self.no_tool(letter)?,
                },
                _ => self.lines.say("note", NO_HELP)?,
            }
        }
    }
}

/// `?17`: the place of that question.
fn goes_to(text: &str, count: usize) -> Option<usize> {
    let number: usize = text.strip_prefix('?')?.trim().parse().ok()?;
    (1..=count).contains(&number).then(|| number - 1)
}
