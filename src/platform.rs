//! The only platform code: signals, the terminal, the locale.
//! What is decided here is handed down; nothing below asks the system.

use std::io::{self, IsTerminal as _};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Whether a person sits at a terminal: both input and output are one.
pub fn at_a_terminal() -> bool {
    io::stdin().is_terminal() && io::stdout().is_terminal()
}

/// A flag that is raised when the system asks the program to stop.
///
/// From then on an interrupt no longer ends the program by itself, so only a
/// loop that watches the flag may ask for it.
///
/// # Errors
/// When the system refuses to hand over a signal.
pub fn stop_flag() -> io::Result<Arc<AtomicBool>> {
    let flag = Arc::new(AtomicBool::new(false));
    #[cfg(unix)]
    for signal in [
        signal_hook::consts::SIGTERM,
        signal_hook::consts::SIGHUP,
        signal_hook::consts::SIGINT,
    ] {
        signal_hook::flag::register(signal, Arc::clone(&flag))?;
    }
    Ok(flag)
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
