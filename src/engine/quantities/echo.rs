//! Showing a piece of what somebody typed without letting it do harm: short, and
//! with every invisible character by its name.

/// Characters shown of a text at most.
const LONGEST_ECHO: usize = 40;

/// The beginning of a text, fit to stand in a message: at most forty of its
/// characters, invisible ones by name in brackets.
pub fn echo(text: &str) -> String {
    let mut shown = String::new();
    for (count, character) in text.chars().enumerate() {
        if count == LONGEST_ECHO {
            shown.push_str("...");
            break;
        }
        match name(character) {
            Some(name) => {
                shown.push('[');
                shown.push_str(&name);
                shown.push(']');
            }
            None => shown.push(character),
        }
    }
    shown
}

/// The name of a character that cannot be seen or that moves what stands around
/// it; nothing for one that may be shown as it is.
pub(super) fn name(character: char) -> Option<String> {
    let known = match character {
        '\0' => "null",
        '\u{7}' => "bell",
        '\u{8}' => "backspace",
        '\t' => "tab",
        '\n' | '\u{2028}' | '\u{2029}' | '\u{85}' => "line break",
        '\r' => "carriage return",
        '\u{1b}' => "escape",
        '\u{7f}' => "delete",
        '\u{ad}' => "soft hyphen",
        '\u{61c}' => "Arabic letter mark",
        '\u{200b}' => "zero width space",
        '\u{200c}' => "zero width non-joiner",
        '\u{200d}' => "zero width joiner",
        '\u{200e}' => "left-to-right mark",
        '\u{200f}' => "right-to-left mark",
        '\u{202a}' => "left-to-right embedding",
        '\u{202b}' => "right-to-left embedding",
        '\u{202c}' => "end of embedding",
        '\u{202d}' => "left-to-right override",
        '\u{202e}' => "right-to-left override",
        '\u{2060}' => "word joiner",
        '\u{2066}' => "left-to-right isolate",
        '\u{2067}' => "right-to-left isolate",
        '\u{2068}' => "first strong isolate",
        '\u{2069}' => "end of isolate",
        '\u{feff}' => "byte order mark",
        _ if hidden(character) => return Some(format!("U+{:04X}", u32::from(character))),
        _ => return None,
    };
    Some(known.to_owned())
}

/// Controls, marks that combine with what stands before, private and tag
/// characters: the ones without a name of their own above.
fn hidden(character: char) -> bool {
    character.is_control()
        || matches!(character,
            '\u{300}'..='\u{36f}' | '\u{180b}'..='\u{180f}' | '\u{1ab0}'..='\u{1aff}'
            | '\u{20d0}'..='\u{20ff}' | '\u{2061}'..='\u{2065}' | '\u{206a}'..='\u{206f}'
            | '\u{e000}'..='\u{f8ff}' | '\u{fe00}'..='\u{fe0f}' | '\u{fe20}'..='\u{fe2f}'
            | '\u{fff0}'..='\u{fffb}' | '\u{e0000}'..='\u{10ffff}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_echo_is_short_and_shows_what_cannot_be_seen() {
        assert_eq!(echo("38 psi"), "38 psi");
        assert_eq!(
            echo("a\u{202e}b\u{1b}[2J"),
            "a[right-to-left override]b[escape][2J"
        );
        assert_eq!(echo("\u{1}\u{f0000}"), "[U+0001][U+F0000]");
        assert_eq!(
            echo(&"x".repeat(1_000_000)),
            format!("{}...", "x".repeat(40))
        );
    }
}
