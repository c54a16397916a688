//! The terminal while the trainer runs: taken at the start, given back at the
//! end, after a fault of the program and when it is told to stop.

use std::io::{self, Stdout, Write};
use std::sync::Once;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use crossterm::cursor::{SetCursorStyle, Show};
use crossterm::event::{self, DisableBracketedPaste, EnableBracketedPaste, Event};
use crossterm::terminal::{
    Clear, ClearType, EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode,
};
use crossterm::{execute, queue};
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;
use ratatui::buffer::Buffer;
use ratatui::layout::Position;

use crate::keys::{self, Press};

/// How often the stop flag is looked at while no key comes.
const WAIT: Duration = Duration::from_millis(100);
/// How often what comes from elsewhere is looked for while it is to come.
const SHORT_WAIT: Duration = Duration::from_millis(1);

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
        enter()?;
        let terminal = Terminal::new(CrosstermBackend::new(io::stdout()));
        if terminal.is_err() {
            give_back();
        }
        Ok(Self {
            terminal: terminal?,
        })
    }

    /// Takes the terminal as another program left it, and draws all of it anew.
    fn take_again(&mut self) -> io::Result<()> {
        give_back();
        enter()?;
        self.draw_anew()
    }

    /// Forgets what stands on the screen, so that the next frame is drawn whole. The
    /// library's own way asks the terminal where its cursor is, which not every
    /// terminal answers.
    fn draw_anew(&mut self) -> io::Result<()> {
        execute!(io::stdout(), Clear(ClearType::All))?;
        self.terminal = Terminal::new(CrosstermBackend::new(io::stdout()))?;
        Ok(())
    }
}

fn enter() -> io::Result<()> {
    enable_raw_mode()?;
    TAKEN.store(true, Ordering::SeqCst);
    let entered = execute!(
        io::stdout(),
        EnterAlternateScreen,
        EnableBracketedPaste,
        SetCursorStyle::SteadyUnderScore
    );
    if entered.is_err() {
        give_back();
    }
    entered
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

/// What the system tells the program while it runs, and how it is put to sleep.
pub struct Signals<'a> {
    /// Raised to stop the program.
    pub stop: &'a AtomicBool,
    /// Raised to suspend it.
    pub suspend: &'a AtomicBool,
    /// Raised when it goes on after it was suspended.
    pub resumed: &'a AtomicBool,
    /// Puts the program to sleep until it is called again; says whether it slept.
    pub sleep: &'a dyn Fn() -> bool,
}

/// What runs in the terminal.
pub trait Runs {
    /// Draws; says where the cursor belongs.
    fn draw(&mut self, buffer: &mut Buffer) -> Option<Position>;
    /// Takes a press; says whether to go on.
    fn press(&mut self, press: Press) -> bool;
    /// Takes in what came from elsewhere; says whether anything changed.
    fn news(&mut self) -> bool;
    /// Whether something is to come from elsewhere at any moment.
    fn waits(&self) -> bool;
}

/// Runs until the program ends or is told to stop. Draws after a change only.
pub fn run(program: &mut dyn Runs, signals: &Signals<'_>) -> io::Result<()> {
    let mut guard = Guard::take()?;
    let mut changed = true;
    loop {
        if signals.stop.load(Ordering::SeqCst) {
            return Ok(());
        }
        if signals.suspend.swap(false, Ordering::SeqCst) {
            suspend(&mut guard, signals)?;
            changed = true;
        }
        if signals.resumed.swap(false, Ordering::SeqCst) {
            guard.take_again()?;
            changed = true;
        }
        changed |= program.news();
        if changed {
            draw(&mut guard, program)?;
            changed = false;
        }
        let wait = if program.waits() { SHORT_WAIT } else { WAIT };
        if !event::poll(wait)? {
            continue;
        }
        let event = event::read()?;
        changed = matches!(event, Event::Resize(..));
        for press in keys::read(event) {
            changed = true;
            match press {
                Press::Stop => return Ok(()),
                Press::Redraw => guard.draw_anew()?,
                Press::Suspend if suspend(&mut guard, signals)? => {}
                press if !program.press(press.clone()) => return Ok(()),
                _ => {}
            }
        }
    }
}

/// Gives the terminal back, sleeps, and takes it again; says whether it slept.
fn suspend(guard: &mut Guard, signals: &Signals<'_>) -> io::Result<bool> {
    give_back();
    let slept = (signals.sleep)();
    signals.resumed.store(false, Ordering::SeqCst);
    guard.take_again()?;
    Ok(slept)
}

fn draw(guard: &mut Guard, program: &mut dyn Runs) -> io::Result<()> {
    guard.terminal.draw(|frame| {
        if let Some(cursor) = program.draw(frame.buffer_mut()) {
            frame.set_cursor_position(cursor);
        }
    })?;
    Ok(())
}
