//! Cells of a CSV file, the one owner for everything that a spreadsheet may open: the
//! logbook's file, rosters, mark sheets. A text that a spreadsheet would run as a formula gets an
//! apostrophe before it, which is taken away again when the file is read in.
//!
//! Which signs begin a formula: OWASP, "CSV Injection", from memory.

/// The apostrophe that makes a cell plain text.
const PLAIN: char = '\'';

/// A text as a cell that no spreadsheet runs.
pub fn harmless(text: &str) -> String {
    if needs_it(text) {
        format!("{PLAIN}{text}")
    } else {
        text.to_owned()
    }
}

fn needs_it(text: &str) -> bool {
    // One that begins with an apostrophe gets another, so that taking away is safe.
    let own = text.starts_with(PLAIN);
    let broken = text.starts_with(|c: char| c.is_control());
    let begins = |c: char| "=+-@\u{ff1d}\u{ff0b}\u{ff0d}\u{ff20}".contains(c);
    own || broken || text.trim_start().starts_with(begins)
}

/// The text of a cell. An apostrophe that made nothing plain is the text's own, as in
/// `'t Hooft`.
pub fn text(cell: &str) -> &str {
    let plain = cell.strip_prefix(PLAIN);
    let plain = plain.filter(|text| text.is_empty() || needs_it(text));
    plain.unwrap_or(cell)
}

/// A text that may be missing: then the cell is empty, and one that is there but
/// empty is an apostrophe.
pub fn perhaps(text: Option<&str>) -> String {
    match text {
        None => String::new(),
        Some("") => PLAIN.to_string(),
        Some(text) => harmless(text),
    }
}

/// The text of a cell that may be missing.
pub fn perhaps_text(cell: &str) -> Option<String> {
    (!cell.is_empty()).then(|| text(cell).to_owned())
}

/// What stands between the cells of a text: a spreadsheet may have saved it with another
/// sign than the comma.
pub fn separator(text: &str) -> u8 {
    let head = text.lines().next().unwrap_or_default();
    let count = |sign: u8| head.bytes().filter(|byte| *byte == sign).count();
    [b';', b'\t'].into_iter().fold(b',', |best, sign| {
        if count(sign) > count(best) {
            sign
        } else {
            best
        }
    })
}

/// The line of a text, from one, on which a row begins that a reader found from this byte on,
/// empty lines before it passed over. The reader's own count is short of it where lines end in
/// two signs, as a spreadsheet ends them.
pub fn line_of(text: &str, start: usize) -> usize {
    let rest = text.get(start..).unwrap_or_default();
    let blank = rest.len() - rest.trim_start_matches(['\r', '\n']).len();
    let before = text.get(..start + blank).unwrap_or_default();
    before.matches('\n').count() + 1
}

/// One row of a CSV text, every cell harmless, with the line end that RFC 4180 wants.
pub fn row<S: AsRef<str>>(cells: impl IntoIterator<Item = S>, separator: char) -> String {
    let cells = cells.into_iter().map(|cell| {
        let cell = harmless(cell.as_ref());
        let quoted = |c: char| c == separator || matches!(c, '"' | '\n' | '\r');
        if cell.contains(quoted) || cell != cell.trim() {
            format!("\"{}\"", cell.replace('"', "\"\""))
        } else {
            cell
        }
    });
    let cells: Vec<String> = cells.collect();
    cells.join(&separator.to_string()) + "\r\n"
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Texts of all sorts: accents, line breaks, quotes, cells that look like formulas.
    fn any_text() -> impl Strategy<Value = String> {
        prop_oneof![
            4 => "\\PC{0,12}",
            2 => "[-=+@'\"\\\\,;|\t\r\n \u{ff1d}a1]{0,8}",
            1 => Just(String::new()),
            1 => Just("é\u{301}ß\u{0} \u{2028}\u{1f527}".to_owned()),
        ]
    }

    #[test]
    fn a_row_is_quoted_where_it_must_be() {
        let row = row(["Ash, R.", "=1", "a \"b\"", ""], ',');
        assert_eq!(row, "\"Ash, R.\",'=1,\"a \"\"b\"\"\",\r\n");
    }

    #[test]
    fn formulas_are_made_plain_and_other_texts_stay() {
        for formula in [
            "=1+1", "+1", "-1", "@SUM(A1)", " =1", "\t=1", "\r1", "'x", "＝1",
        ] {
            assert_eq!(harmless(formula), format!("'{formula}"));
        }
        for plain in ["8.7 V", "a=b", "", "é"] {
            assert_eq!(harmless(plain), plain);
        }
    }

    #[test]
    fn an_apostrophe_of_the_text_stays() {
        for (cell, said) in [
            ("'t Hooft", "'t Hooft"),
            ("''t Hooft", "'t Hooft"),
            ("'=1", "=1"),
            ("'", ""),
        ] {
            assert_eq!(text(cell), said);
        }
    }

    proptest! {
        #[test]
        fn every_text_comes_back_and_none_is_a_formula(words in any_text()) {
            let cell = harmless(&words);
            prop_assert_eq!(text(&cell), &words);
            let first = cell.trim_start().chars().next();
            prop_assert!(!first.is_some_and(|c| "=+-@\t\r＝＋－＠".contains(c)), "{:?}", cell);
            let some = Some(words);
            prop_assert_eq!(perhaps_text(&perhaps(some.as_deref())), some);
            prop_assert_eq!(perhaps_text(&perhaps(None)), None);
        }
    }
}
