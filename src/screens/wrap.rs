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
    for word in paragraph.split(' ') {
        let joined = cells(&row) + usize::from(!row.is_empty()) + cells(word);
        if !row.is_empty() && joined > width {
            rows.push(std::mem::take(&mut row));
        }
        if !row.is_empty() {
            row.push(' ');
        }
        if cells(word) <= width {
            row.push_str(word);
        } else {
            let mut pieces = chop(word, width);
            row = pieces.pop().unwrap_or_default();
            rows.append(&mut pieces);
        }
    }
    rows.push(row);
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
    fn counts_cells_and_not_characters() {
        assert_eq!(wrap("水水水", 4), ["水水", "水"]);
        assert_eq!(wrap("a\nb", 10), ["a", "b"]);
    }
}
