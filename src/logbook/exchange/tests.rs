//! Both forms carry everything, say what is wrong and where, and never break.

use proptest::prelude::*;
use pumpwright_engine::entries::Entry;

use super::*;
use crate::logbook::testing::{any_entry, sheet};

fn sheets(entries: Vec<Entry>) -> Vec<Sheet> {
    let mut sheets: Vec<Sheet> = entries
        .into_iter()
        .map(|entry| Sheet::of(entry).unwrap())
        .collect();
    sheets.sort_by_key(|sheet| sheet.entry.id);
    sheets.dedup_by_key(|sheet| sheet.entry.id);
    sheets
}

fn two() -> Vec<Sheet> {
    sheets(vec![sheet("Ina", 1), sheet("=Tom", 2)])
}

fn faults(text: &str) -> Vec<String> {
    let faults = read(text.as_bytes()).unwrap_err();
    faults.iter().map(ToString::to_string).collect()
}

#[test]
fn a_row_stands_for_a_line_and_is_readable() {
    let text = as_csv(&two()).unwrap();
    assert!(text.starts_with(CSV_BEGINS));
    assert_eq!(text.lines().count(), 5);
    let row = text.lines().nth(1).unwrap();
    for words in [
        "Ina,2026-09-21T14:14:20Z,-300,cable-drop.2us.1,",
        ",2,1,ohms,volts lost,1.5 V,",
    ] {
        assert!(row.contains(words), "{words}: {row}");
    }
    assert!(text.contains(",'=Tom,"), "{text}");
    assert!(as_json_lines(&two()).starts_with(JSON_BEGINS));
}

#[test]
fn what_a_spreadsheet_does_to_the_file_is_read_all_the_same() {
    let text = as_csv(&two()).unwrap();
    // Rows in another order, without the mark, with other ends of lines.
    let mut lines: Vec<&str> = text.trim_start_matches('\u{feff}').lines().collect();
    lines[1..].reverse();
    assert_eq!(read(lines.join("\r\n").as_bytes()), Ok(two()));
    // Semicolons, as where the comma is the decimal sign.
    let mut writer = csv::WriterBuilder::new()
        .delimiter(b';')
        .from_writer(Vec::new());
    let mut reader = csv::Reader::from_reader(lines[0].as_bytes());
    writer.write_record(reader.headers().unwrap()).unwrap();
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    for record in reader.records() {
        writer.write_record(&record.unwrap()).unwrap();
    }
    assert_eq!(read(&writer.into_inner().unwrap()), Ok(two()));
}

#[test]
fn each_fault_of_a_csv_file_has_its_line_and_remedy() {
    let text = as_csv(&two()).unwrap();
    let cases = [
        (
            text.replacen("right,yes", "right,aye", 1),
            "line 3: right is \"aye\", not yes or no",
        ),
        (
            text.replacen("2026-09-21T14:14:20Z", "noon", 1),
            "line 2: at is \"noon\", which is no time",
        ),
        (
            text.replacen("practice", "fun", 1),
            "line 2: purpose is \"fun\"",
        ),
        (
            text.replacen(",-300,", ",1e9,", 1),
            "line 2: zone is \"1e9\", which is no whole number",
        ),
        (
            text.replacen("\n1,", "\n2,", 1),
            "line 2: it is of format 2",
        ),
        (
            text.replacen("person", "whose", 1),
            "line 1: it has no column person",
        ),
        (
            text.replacen(",2,2,volts,", ",2,1,volts,", 1),
            "line 3: line 1 of this sheet came before",
        ),
        (
            text.replacen(",2,2,volts,", ",2,3,volts,", 1),
            "line 3: it is line 3 of 2",
        ),
        (
            text.replacen(",Ina,", ",Ian,", 1),
            "line 3: it has the id of line 2, but differs",
        ),
    ];
    for (text, expected) in cases {
        let faults = faults(&text);
        assert_eq!(faults.len(), 1, "{faults:?}");
        assert!(faults[0].starts_with(expected), "{faults:?}");
        assert!(faults[0].contains("; "), "{faults:?}");
    }
    let cut: Vec<&str> = text.lines().take(4).collect();
    assert!(faults(&cut.join("\n"))[0].contains("its sheet has 1 of its 2 lines here"));
    let torn = faults(&text[..text.len() - 60]);
    assert!(
        torn[0].starts_with("line 5: cells are missing at its end"),
        "{torn:?}"
    );
}

#[test]
fn each_fault_of_json_lines_has_its_line() {
    let text = as_json_lines(&two());
    let faulty = text.replacen("\"level\":2", "\"level\":999", 1);
    let faults_there = faults(&format!("\n{faulty}"));
    assert_eq!(faults_there.len(), 1);
    assert!(
        faults_there[0].starts_with("line 2: invalid value: integer `999`"),
        "{faults_there:?}"
    );
    assert_eq!(faults(&format!("{text}{{}}\n")).len(), 1);
    let bytes = [text.as_bytes(), b"{\xff"].concat();
    assert_eq!(read(&bytes).unwrap_err()[0].line, 3);
    assert_eq!(read(b""), Ok(Vec::new()));
}

proptest! {
    #[test]
    fn both_forms_give_the_sheets_again(entries in prop::collection::vec(any_entry(), 1..6)) {
        let all = sheets(entries);
        let csv = as_csv(&all).unwrap();
        prop_assert_eq!(read(csv.as_bytes()), Ok(all.clone()));
        let json = as_json_lines(&all);
        prop_assert_eq!(read(json.as_bytes()), Ok(all));
    }

    #[test]
    fn no_bytes_are_a_panic(
        bytes in prop::collection::vec(any::<u8>(), 0..200),
        at in 0.0..1.0_f64,
    ) {
        let _ = read(&bytes);
        let csv = as_csv(&two()).unwrap();
        let cut = (csv.len() as f64 * at) as usize;
        let mut torn = csv.into_bytes();
        torn.splice(cut..cut, bytes);
        let _ = read(&torn);
    }
}
