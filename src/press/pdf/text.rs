//! Texts made fit for paper.

/// A text without signs that no page can hold: controls become blanks.
pub fn clean(text: &str) -> String {
    let plain = |sign: char| if sign.is_control() { ' ' } else { sign };
    text.chars().map(plain).collect()
}

/// "4 marks", "1 mark".
pub fn marks(count: u32) -> String {
    let noun = if count == 1 { "mark" } else { "marks" };
    format!("{count} {noun}")
}
