//! The evening in plain lines: the jobs that the record asks for, with their reasons,
//! one after the other, and an end.

use std::io;
use std::rc::Rc;

use pumpwright_engine::learner::Support;
use pumpwright_engine::problems::Problem;

use super::session::{After, Session};
use super::written::Written;
use crate::guide::Guide;
use crate::tonight::{Planned, plan, showing};
use crate::words;

impl Session<'_> {
    /// Plans the evening, where there is a record that asks for one, and says it.
    pub(super) fn plan_evening(&mut self) -> io::Result<()> {
        if self.desk.record().history().is_empty() {
            return Ok(());
        }
        let now = self.desk.clerk().now();
        let guide = Guide::of(self.library);
        let record = guide.record(self.desk.record().history());
        let jobs = plan(&guide.desk(&record, now), self.library);
        let minutes: u32 = jobs.iter().filter_map(|job| job.minutes).sum();
        let count = words::count(jobs.len(), "job", "jobs");
        self.lines.say(
            "tonight",
            &format!("{count}, in all about {minutes} minutes"),
        )?;
        for job in &jobs {
            self.lines
                .say("tonight", &format!("{}, {}", job.family, job.why))?;
        }
        self.count = Some(jobs.len());
        self.evening = Some(jobs.into());
        Ok(())
    }

    /// A job of the evening: worked first, or half given, where that is what helps.
    pub(super) fn planned(&mut self, job: &Planned) -> io::Result<After> {
        if job.support == Support::Worked
            && let Some(example) = self.drawn_for(job)?
        {
            self.lines
                .say("note", "first one that is filled in, then other numbers")?;
            self.head(&example)?;
            let id = self.desk.clerk().fresh_id();
            let written = Written::new(Rc::new(example), self.manner, false, id);
            self.working(&written)?;
        }
        let Some(problem) = self.drawn_for(job)? else {
            return Ok(After::Next);
        };
        self.head(&problem)?;
        let id = self.desk.clerk().fresh_id();
        let mut written = Written::new(Rc::new(problem), self.manner, self.line_by_line(), id);
        written.purpose = job.purpose;
        let mut from = 1;
        if job.support == Support::Part {
            let mut sheet = written.sheet();
            sheet.give_first_half();
            written = Written::of(&sheet);
            from += sheet.given_ids().len();
            self.given(&written, from)?;
        }
        self.work(written, from)
    }

    /// Says the lines that stand there filled in.
    fn given(&mut self, written: &Written, from: usize) -> io::Result<()> {
        let problem = Rc::clone(&written.problem);
        for (number, line) in problem.asked().take(from - 1) {
            let place = problem.lines.iter().position(|other| other.id == line.id);
            let typed = written.typed(place.unwrap_or(0));
            let unit = words::unit(&problem, line);
            self.lines.say(
                &format!("given {number}"),
                format!("{}: {typed} {unit}", line.label).trim_end(),
            )?;
        }
        Ok(())
    }

    fn drawn_for(&mut self, job: &Planned) -> io::Result<Option<Problem>> {
        let drawn = showing(job.contrast.as_deref(), || {
            self.drawn(&job.family, Some(job.level))
        });
        self.said_against(drawn)
    }
}
