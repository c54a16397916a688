//! Breaking text at a width counted in cells. Nothing is ever cut.

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// The width of a text in cells.
pub fn cells(text: &str) -> usize {
    text.width()
}

/// The text in rows of at most this many cells: broken at blanks, inside a word
/// only where the word alone is wider than the row. A width of zero counts as one.
pub fn wrap(text: &str, width: usize) -> Vec<String> {
    let width = width.max(1);
    let mut rows = Vec::new();
    for paragraph in text.split('\n') {
        wrap_paragraph(paragraph, width, &mut rows);
    }
    rows
}

fn wrap_paragraph(paragraph: &str, width: usize, rows: &mut Vec<String>) {
    if cells(paragraph) <= width {
        rows.push(paragraph.trim_end().to_owned());
        return;
    }
    let mut row = String::new();
    for word in kept_together(paragraph, width) {
        let joined = cells(&row) + usize::from(!row.is_empty()) + cells(&word);
        if !row.is_empty() && joined > width {
            rows.push(std::mem::take(&mut row));
        }
        if !row.is_empty() {
            row.push(' ');
        }
        if cells(&word) <= width {
            row.push_str(&word);
        } else {
            let mut pieces = chop(&word, width);
            row = pieces.pop().unwrap_or_default();
            rows.append(&mut pieces);
        }
    }
    rows.push(row);
}

/// The words of a text; a figure goes with the word after it, which is its unit
/// as often as not, as far as both have room in one row.
fn kept_together(text: &str, width: usize) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split(' ') {
        let before = words.last_mut().filter(|before| {
            before.ends_with(char::is_numeric) && cells(before) + 1 + cells(word) <= width
        });
        match before {
            Some(before) => {
                before.push(' ');
                before.push_str(word);
            }
            None => words.push(word.to_owned()),
        }
    }
    words
}

/// The text in rows of exactly this many cells, but the last, broken anywhere.
pub fn chop(text: &str, width: usize) -> Vec<String> {
    let width = width.max(1);
    let mut rows = vec![String::new()];
    let mut used = 0;
    for sign in text.chars() {
        let wide = sign.width().unwrap_or(0);
        if used > 0 && used + wide > width {
            rows.push(String::new());
            used = 0;
        }
        used += wide;
        if let Some(row) = rows.last_mut() {
            row.push(sign);
        }
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn breaks_at_blanks_and_keeps_every_word() {
        let text = "both conductors together have 0.396 ohm per 100 ft";
        for width in 1..60 {
            let rows = wrap(text, width);
            assert!(
                rows.iter().all(|row| cells(row) <= width),
                "{width}: {rows:?}"
            );
            let kept: String = rows.concat().chars().filter(|c| *c != ' ').collect();
            assert_eq!(kept, text.replace(' ', ""), "{width}");
        }
    }

    #[test]
    fn a_figure_keeps_its_unit() {
        let text = "At 75 °C a 1-1/2 hp motor, 2 1/4 in wide, draws 11.8 A of 230 V; 5 % are lost.";
        let pairs = ["75 °C", "1-1/2 hp", "2 1/4 in", "11.8 A", "230 V", "5 %"];
        for width in 8..90 {
            let rows = wrap(text, width);
            for pair in pairs {
                let whole = rows.iter().any(|row| row.contains(pair));
                assert!(whole, "{width}: {pair} in {rows:?}");
            }
            assert!(rows.iter().all(|row| cells(row) <= width), "{rows:?}");
            assert_eq!(rows.join(" "), text);
        }
        // Nothing goes with a figure that has no room for it.
        assert_eq!(wrap("5 megohm", 6), ["5", "megohm"]);
    }

    #[test]
    fn counts_cells_and_not_characters() {
        assert_eq!(wrap("水水水", 4), ["水水", "水"]);
        assert_eq!(wrap("a\nb", 10), ["a", "b"]);
    }
}
