//! The list of packages with their licenses, against what is built in.

use std::collections::BTreeSet;
use std::path::Path;
use std::process::Command;

const LISTING: &str = include_str!("../../docs/PACKAGES.csv");
const LOCK: &str = include_str!("../../Cargo.lock");

/// Package, version, license and where it is used, of each row.
fn rows() -> Vec<[&'static str; 4]> {
    let mut lines = LISTING.lines();
    assert_eq!(lines.next(), Some("package,version,license,in"));
    let row = |line: &'static str| {
        let cells: Vec<&str> = line.split(',').collect();
        <[&str; 4]>::try_from(cells).expect("four cells")
    };
    lines.map(row).collect()
}

#[test]
fn the_list_has_the_packages_of_the_lock_file_and_no_other() {
    let lock: toml::Table = LOCK.parse().expect("a lock file");
    let packages = lock["package"].as_array().expect("packages");
    let from_outside = packages.iter().filter(|one| one.get("source").is_some());
    let text = |one: &toml::Value, key: &str| one[key].as_str().expect("a text").to_owned();
    let locked: BTreeSet<_> = from_outside
        .map(|one| (text(one, "name"), text(one, "version")))
        .collect();
    let listed: BTreeSet<_> = rows()
        .iter()
        .map(|[name, version, ..]| ((*name).to_owned(), (*version).to_owned()))
        .collect();
    let missing: Vec<_> = locked.difference(&listed).collect();
    let surplus: Vec<_> = listed.difference(&locked).collect();
    assert!(
        missing.is_empty() && surplus.is_empty(),
        "not listed: {missing:?}, no longer locked: {surplus:?}; `.ci/licenses --write`, and read it"
    );
    assert!(listed.len() > 300, "the list is short");
}

/// What a command of the toolchain prints.
fn told(program: &str, arguments: &[&str]) -> String {
    let done = Command::new(program)
        .args(arguments)
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")))
        .output()
        .expect("the toolchain is there");
    let said = String::from_utf8_lossy(&done.stderr);
    assert!(done.status.success(), "{program}: {said}");
    String::from_utf8(done.stdout).expect("UTF-8")
}

/// The licenses are those that the packages name themselves. Only packages for this
/// platform are sure to be on the machine; `.ci/licenses` looks at those of all.
#[test]
fn each_license_is_as_the_package_names_it() {
    let version = told("rustc", &["-vV"]);
    let host = version.lines().find_map(|line| line.strip_prefix("host: "));
    let mut asked = vec!["metadata", "--format-version=1", "--locked", "--offline"];
    asked.extend(["--filter-platform", host.expect("a host")]);
    let told: serde_json::Value = serde_json::from_str(&told(env!("CARGO"), &asked)).expect("JSON");
    let packages = told["packages"].as_array().expect("packages");
    let mut compared = 0;
    for [name, version, license, place] in rows() {
        assert!(
            matches!(place, "program" | "building and tests"),
            "{name}: {place}"
        );
        let of = packages
            .iter()
            .find(|of| of["name"] == name && of["version"] == version);
        let Some(of) = of else { continue };
        assert_eq!(of["license"], license, "{name} {version}");
        compared += 1;
    }
    assert!(compared > 300, "only {compared} packages were compared");
}
