//! Lists the lesson files, so that the program carries them.
//! Nothing is read or checked here: a file that is added is picked up by itself.
//! And says how the program is linked.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

/// The lessons, seen from the folder of this package.
const LESSONS: &str = "lessons";

fn main() -> io::Result<()> {
    println!("cargo::rerun-if-changed={LESSONS}");
    println!("cargo::rerun-if-changed=build.rs");
    // A program that can lie anywhere in memory mends 100,000 addresses at each start, most of
    // them of tables that the typesetter may never read: 5 ms, as long as all else until the
    // first screen. So it lies at one place; `.ci/pack` does the same in its own way.
    if variable("CARGO_CFG_TARGET_OS")? == "linux" && variable("CARGO_CFG_TARGET_ENV")? == "gnu" {
        println!("cargo::rustc-link-arg-bins=-no-pie");
    }
    let home = PathBuf::from(variable("CARGO_MANIFEST_DIR")?);
    let root = home.join(LESSONS);
    let mut files = Vec::new();
    collect(&root, &mut files)?;
    files.sort();
    let list = listing(&root, &files)?;
    fs::write(PathBuf::from(variable("OUT_DIR")?).join("lessons.rs"), list)
}

fn variable(name: &str) -> io::Result<String> {
    env::var(name).map_err(io::Error::other)
}

fn collect(folder: &Path, files: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            collect(&path, files)?;
        } else if path
            .extension()
            .is_some_and(|extension| extension == "toml")
        {
            files.push(path);
        }
    }
    Ok(())
}

/// An array of pairs: the path inside the folder with `/`, and the text.
fn listing(root: &Path, files: &[PathBuf]) -> io::Result<String> {
    let mut list = String::from("[\n");
    for file in files {
        let inside = file.strip_prefix(root).map_err(io::Error::other)?;
        let parts: Vec<_> = inside.iter().map(|part| part.to_string_lossy()).collect();
        let name = parts.join("/");
        writeln!(
            list,
            "({name:?}, include_str!({:?})),",
            file.to_string_lossy()
        )
        .map_err(io::Error::other)?;
    }
    list.push_str("]\n");
    Ok(list)
}
