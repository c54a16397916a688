//! The only platform code: signals, the terminal, the locale, the clock, folders, memory
//! and who may read a file. What is decided here is handed down; nothing below asks the
//! system.

use std::fs::{self, DirBuilder, OpenOptions};
use std::io::{self, IsTerminal as _};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{SystemTime, UNIX_EPOCH};

use etcetera::BaseStrategy as _;

/// Papers are set on several threads, which would wait for each other's memory where the
/// program is static.
#[cfg(target_env = "musl")]
#[global_allocator]
static MEMORY: mimalloc::MiMalloc = mimalloc::MiMalloc;

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

/// Where a logbook stands on this platform; none where it names no folder for data.
pub fn logbook_file() -> Option<PathBuf> {
    let folders = etcetera::choose_base_strategy().ok()?;
    Some(folders.data_dir().join("pumpwright").join("logbook.db"))
}

/// A folder of this name beside the program holds record and settings: a stick that
/// carries both goes from machine to machine.
const BESIDE: &str = "pumpwright-data";

/// The folder for data beside the program, where there is one.
pub fn folder_beside() -> Option<PathBuf> {
    folder_in(&program_folder()?)
}

fn folder_in(program: &Path) -> Option<PathBuf> {
    let folder = program.join(BESIDE);
    folder.is_dir().then_some(folder)
}

/// The folder that the program itself lies in. Where the system does not tell, as in a
/// bare root without `/proc`, the path counts by which the program was called.
fn program_folder() -> Option<PathBuf> {
    let called = || {
        let path = PathBuf::from(std::env::args_os().next()?);
        (path.components().count() > 1).then_some(path)
    };
    let program = std::env::current_exe().ok().or_else(called)?;
    program.parent().map(Path::to_owned)
}

/// Whether nobody holds the other end of the input any more.
#[cfg(unix)]
pub fn terminal_is_gone() -> bool {
    use rustix::event::{PollFd, PollFlags, Timespec, poll};
    let stdin = io::stdin();
    let mut watched = [PollFd::new(&stdin, PollFlags::empty())];
    let at_once = Timespec {
        tv_sec: 0,
        tv_nsec: 0,
    };
    let gone = PollFlags::HUP | PollFlags::ERR | PollFlags::NVAL;
    poll(&mut watched, Some(&at_once)).is_ok() && watched[0].revents().intersects(gone)
}

/// Elsewhere the system ends a program whose window is closed.
#[cfg(not(unix))]
pub fn terminal_is_gone() -> bool {
    false
}

/// The clock: milliseconds since 1970 in UTC, and the minutes that the wall clock
/// here is ahead of it.
pub fn clock() -> (i64, i32) {
    let milliseconds = match SystemTime::now().duration_since(UNIX_EPOCH) {
        Ok(since) => i64::try_from(since.as_millis()).unwrap_or(i64::MAX),
        Err(before) => {
            i64::try_from(before.duration().as_millis()).map_or(i64::MIN, |before| -before)
        }
    };
    let moment = jiff::Timestamp::from_millisecond(milliseconds).unwrap_or_default();
    let ahead = jiff::tz::TimeZone::system().to_offset(moment);
    (milliseconds, ahead.seconds() / 60)
}

/// Makes a folder, and those above it, for its owner alone. One that is there stays as it
/// is.
///
/// # Errors
/// What the system says.
pub fn create_private_folder(path: &Path) -> io::Result<()> {
    let mut builder = DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(path)
}

/// Makes a file, and the folders above it, for its owner alone. One that is there
/// stays as it is.
///
/// # Errors
/// What the system says.
pub fn create_private(path: &Path) -> io::Result<()> {
    if path.is_dir() {
        return Err(io::Error::from(io::ErrorKind::IsADirectory));
    }
    if path.exists() {
        return Ok(());
    }
    if let Some(folder) = path.parent() {
        create_private_folder(folder)?;
    }
    let mut options = OpenOptions::new();
    options.write(true).create(true).truncate(false);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(path).map(drop)
}

/// Waits until a folder is on the disk with the names in it, where the platform can.
///
/// # Errors
/// What the system says.
pub fn sync_folder(path: &Path) -> io::Result<()> {
    #[cfg(unix)]
    return fs::File::open(path)?.sync_all();
    #[cfg(not(unix))]
    fs::metadata(path).map(drop)
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
    fn a_folder_for_data_counts_where_it_is_one() {
        let program =
            std::env::temp_dir().join(format!("pumpwright-beside-{}", std::process::id()));
        fs::create_dir_all(&program).unwrap();
        let beside = program.join(BESIDE);
        assert_eq!(folder_in(&program), None);
        fs::write(&beside, "a file").unwrap();
        assert_eq!(folder_in(&program), None);
        fs::remove_file(&beside).unwrap();
        fs::create_dir(&beside).unwrap();
        assert_eq!(folder_in(&program), Some(beside));
        fs::remove_dir_all(&program).unwrap();
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
