//! Files of every schema that there was, kept beside the tests: each opens, and says
//! what it said. `PUMPWRIGHT_BLESS=1` writes the file of the newest schema where there
//! is none yet; a file that is there is never written again.

use std::fs;
use std::path::{Path, PathBuf};

use pumpwright::logbook::Logbook;

use super::{add, folder, handed_in, printed, text};
use crate::inside::library;

/// How many schemas there were.
const SCHEMAS: usize = 1;

fn kept(schema: usize) -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/logbooks");
    folder.join(format!("schema-{schema}.db"))
}

#[test]
fn a_logbook_of_each_schema_is_read() {
    if std::env::var_os("PUMPWRIGHT_BLESS").is_some() && !kept(SCHEMAS).exists() {
        fs::create_dir_all(kept(SCHEMAS).parent().expect("a folder")).expect("a folder");
        add(&kept(SCHEMAS), handed_in(&library(), "Ina Åberg", 6));
    }
    for schema in 1..=SCHEMAS {
        let copy = folder(&format!("schema-{schema}")).join("logbook.db");
        fs::copy(kept(schema), &copy).expect("the kept file");
        let said = printed(&copy, &["logbook", "check"]);
        assert!(
            said.ends_with("nothing is wrong. 6 sheets of 1 person, 0 half written\n"),
            "{said}"
        );
        let logbook = Logbook::open(&copy).expect("a logbook");
        let sheets = logbook.sheets(Some("Ina Åberg")).expect("sheets");
        let tries = sheets
            .iter()
            .map(|sheet| sheet.entry.response().tries.len());
        assert_eq!(tries.sum::<usize>(), 13, "schema {schema}");
        assert_eq!(logbook.history("Ina Åberg").expect("a history").len(), 6);
        let merged = copy.with_file_name("merged.db");
        let said = printed(&merged, &["logbook", "merge", text(&kept(schema))]);
        assert_eq!(said, "6 sheets taken in; 0 there already\n");
    }
    assert!(!kept(SCHEMAS + 1).exists(), "raise SCHEMAS");
}
