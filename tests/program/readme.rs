//! What the README and the contributors' guide show must still be so.

use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Code, again};

/// A reader types the codes off the page: each must draw here.
#[test]
fn the_codes_on_the_page_draw() {
    let (library, _) = Library::read(&pumpwright::lesson_files::carried().files);
    let mut found = 0;
    for page in [
        include_str!("../../README.md"),
        include_str!("../../DEVELOPERS.md"),
    ] {
        let codes = page
            .split(|c: char| c.is_whitespace() || c == '`')
            .filter_map(|word| word.parse::<Code>().ok())
            .filter(|code| library.family(&code.family).is_some());
        for code in codes {
            found += 1;
            assert!(
                again(&library, &code).is_ok(),
                "{code}: draw it anew on the page"
            );
        }
    }
    assert!(found >= 3, "the pages show no codes");
}
