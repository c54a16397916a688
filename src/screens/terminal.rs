//! The terminal while the trainer runs: taken at the start, given back at the
//! end, after a fault of the program and when it is told to stop.

use std::io::{self, Stdout, Write};
use std::sync::Once;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use crossterm::cursor::{SetCursorStyle, Show};
use crossterm::event::{self, DisableBracketedPaste, EnableBracketedPaste, Event};
use crossterm::terminal::{
    EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode,
};
use crossterm::{execute, queue};
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;
use ratatui::buffer::Buffer;
use ratatui::layout::Position;

use crate::keys::{self, Press};

/// How often the stop flag is looked at while no key comes.
const WAIT: Duration = Duration::from_millis(100);

/// Whether a terminal is taken at this moment.
static TAKEN: AtomicBool = AtomicBool::new(false);
static HOOK: Once = Once::new();

/// The terminal, taken: raw keys, its other screen, a steady cursor. Dropping it
/// gives the terminal back.
struct Guard {
    terminal: Terminal<CrosstermBackend<Stdout>>,
}

impl Guard {
    fn take() -> io::Result<Self> {
        HOOK.call_once(|| {
            let before = std::panic::take_hook();
            std::panic::set_hook(Box::new(move |fault| {
                give_back();
                before(fault);
            }));
        });
        enable_raw_mode()?;
        TAKEN.store(true, Ordering::SeqCst);
        let taken = Self::enter();
        if taken.is_err() {
            give_back();
        }
        taken
    }

    fn enter() -> io::Result<Self> {
        execute!(
            io::stdout(),
            EnterAlternateScreen,
            EnableBracketedPaste,
            SetCursorStyle::SteadyUnderScore
        )?;
        Ok(Self {
            terminal: Terminal::new(CrosstermBackend::new(io::stdout()))?,
        })
    }
}

impl Drop for Guard {
    fn drop(&mut self) {
        give_back();
    }
}

/// Gives the terminal back, once. Where it is gone there is nobody left to tell.
fn give_back() {
    if TAKEN.swap(false, Ordering::SeqCst) {
        let mut out = io::stdout();
        let _ = queue!(
            out,
            SetCursorStyle::DefaultUserShape,
            DisableBracketedPaste,
            LeaveAlternateScreen,
            Show
        );
        let _ = out.flush();
        let _ = disable_raw_mode();
    }
}

/// What runs in the terminal.
pub trait Runs {
    /// Draws; says where the cursor belongs.
    fn draw(&mut self, buffer: &mut Buffer) -> Option<Position>;
    /// Takes a press; says whether to go on.
    fn press(&mut self, press: Press) -> bool;
}

/// Runs until the program ends or is told to stop. Draws after a change only.
pub fn run(program: &mut dyn Runs, stop: &AtomicBool) -> io::Result<()> {
    let mut guard = Guard::take()?;
    let mut changed = true;
    loop {
        if stop.load(Ordering::SeqCst) {
            return Ok(());
        }
        if changed {
            draw(&mut guard, program)?;
            changed = false;
        }
        if !event::poll(WAIT)? {
            continue;
        }
        let event = event::read()?;
        changed = matches!(event, Event::Resize(..));
        for press in keys::read(event) {
            changed = true;
            match press {
                Press::Stop => return Ok(()),
                Press::Redraw => guard.terminal.clear()?,
                press if !program.press(press.clone()) => return Ok(()),
                _ => {}
            }
        }
    }
}

fn draw(guard: &mut Guard, program: &mut dyn Runs) -> io::Result<()> {
    guard.terminal.draw(|frame| {
        if let Some(cursor) = program.draw(frame.buffer_mut()) {
            frame.set_cursor_position(cursor);
        }
    })?;
    Ok(())
}
