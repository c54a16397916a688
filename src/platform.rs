//! The only platform code: signals, the terminal, the locale.
//! What is decided here is handed down; nothing below asks the system.

use std::io::{self, IsTerminal as _};
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use etcetera::BaseStrategy as _;

/// Whether a person sits at a terminal that can show a screen: both input and
/// output are one, and it does not call itself dumb.
pub fn at_a_terminal() -> bool {
    let dumb = std::env::var("TERM").is_ok_and(|term| term == "dumb");
    !dumb && io::stdin().is_terminal() && io::stdout().is_terminal()
}

/// Where settings stand on this platform; none where it names no folder for them.
pub fn settings_file() -> Option<PathBuf> {
    let folders = etcetera::choose_base_strategy().ok()?;
    Some(
        folders
            .config_dir()
            .join("pumpwright")
            .join("settings.toml"),
    )
}

/// The user of this machine; empty where it has no name.
pub fn user() -> String {
    let names = ["USER", "LOGNAME", "USERNAME"].into_iter();
    let mut names = names.filter_map(|name| std::env::var(name).ok());
    names.find(|name| !name.is_empty()).unwrap_or_default()
}

/// What the system asks of the program while it runs, each a flag that is raised.
#[derive(Debug, Default)]
pub struct Signals {
    /// Stop.
    pub stop: Arc<AtomicBool>,
    /// Suspend.
    pub suspend: Arc<AtomicBool>,
    /// Go on after it was suspended.
    pub resumed: Arc<AtomicBool>,
}

impl Signals {
    /// Takes these signals from the system.
    ///
    /// From then on an interrupt no longer ends the program by itself, so only a
    /// loop that watches the flags may ask for it.
    ///
    /// # Errors
    /// When the system refuses to hand over a signal.
    pub fn taken() -> io::Result<Self> {
        let signals = Self::default();
        #[cfg(unix)]
        {
            use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGTERM, SIGTSTP};
            for (signal, flag) in [
                (SIGTERM, &signals.stop),
                (SIGHUP, &signals.stop),
                (SIGINT, &signals.stop),
                (SIGTSTP, &signals.suspend),
                (SIGCONT, &signals.resumed),
            ] {
                signal_hook::flag::register(signal, Arc::clone(flag))?;
            }
        }
        Ok(signals)
    }

    /// Suspends the program, and whatever was started with it, until the shell calls
    /// it again; says whether it was. Where no shell stands behind it, nothing could
    /// call it, and it goes on.
    #[cfg(unix)]
    pub fn sleep(&self) -> bool {
        use rustix::process::{Signal, getpid, getsid, kill_current_process_group};
        let alone = getsid(None).is_ok_and(|leader| leader == getpid());
        let slept = !alone
            && kill_current_process_group(Signal::TSTP).is_ok()
            && signal_hook::low_level::emulate_default_handler(signal_hook::consts::SIGTSTP)
                .is_ok();
        // The group's own signal came here too; it is answered.
        self.suspend.store(false, Ordering::SeqCst);
        slept
    }

    /// There is no suspending on this platform.
    #[cfg(not(unix))]
    pub fn sleep(&self) -> bool {
        self.suspend.store(false, Ordering::SeqCst);
        false
    }
}

/// What the surroundings ask of the signs and colours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// Signs beyond ASCII may be printed.
    pub unicode: bool,
    /// Colours may be used.
    pub color: bool,
}

impl Look {
    /// The look that the environment asks for.
    pub fn of_this_machine() -> Self {
        Self::from_variables(cfg!(windows), |name| std::env::var(name).ok())
    }

    /// The look that these variables ask for. Where no locale is named, the
    /// system's own is ASCII, but for systems that name none.
    ///
    /// Signs such as `▲` are one cell wide or two where the locale is Chinese,
    /// Japanese or Korean (ambiguous width, Unicode Standard Annex 11), and a
    /// Linux console has a font of few signs, so both get ASCII.
    pub fn from_variables(locale_free: bool, read: impl Fn(&str) -> Option<String>) -> Self {
        let set = |name: &str| read(name).filter(|value| !value.is_empty());
        let locale = ["LC_ALL", "LC_CTYPE", "LANG"].into_iter().find_map(set);
        let fits = locale.map_or(locale_free, |locale| carries_signs(&locale));
        let console = read("TERM").is_some_and(|term| term == "linux");
        Self {
            unicode: fits && !console,
            color: set("NO_COLOR").is_none(),
        }
    }
}

fn carries_signs(locale: &str) -> bool {
    let locale = locale.to_lowercase();
    let utf8 = locale.contains("utf-8") || locale.contains("utf8");
    let wide = ["zh", "ja", "ko"]
        .iter()
        .any(|language| locale.starts_with(language));
    utf8 && !wide
}

#[cfg(test)]
mod tests {
    use super::*;

    fn look(variables: &[(&str, &str)]) -> Look {
        Look::from_variables(false, |name| {
            variables
                .iter()
                .find(|(key, _)| *key == name)
                .map(|(_, value)| (*value).to_owned())
        })
    }

    #[test]
    fn the_first_locale_that_is_set_decides() {
        assert!(look(&[("LANG", "en_US.UTF-8")]).unicode);
        assert!(!look(&[("LC_ALL", "C"), ("LANG", "en_US.UTF-8")]).unicode);
        assert!(look(&[("LC_ALL", ""), ("LC_CTYPE", "C.utf8")]).unicode);
        assert!(!look(&[]).unicode);
    }

    #[test]
    fn signs_of_unsure_width_are_left_out() {
        assert!(!look(&[("LANG", "ja_JP.UTF-8")]).unicode);
        assert!(!look(&[("LANG", "en_CA.UTF-8"), ("TERM", "linux")]).unicode);
    }

    #[test]
    fn no_color_counts_when_it_holds_something() {
        assert!(!look(&[("NO_COLOR", "1")]).color);
        assert!(look(&[("NO_COLOR", "")]).color);
    }
}
