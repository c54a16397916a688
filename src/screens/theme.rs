//! Signs and accents: the only place that knows how a sign looks. Every sign
//! repeats a word that stands in the same row, so nothing is lost without it.

use ratatui::style::{Color, Modifier, Style};

/// How the screen may look.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Look {
    /// Draw with ASCII signs only.
    pub ascii: bool,
    /// Use the three accents of the terminal's own sixteen colors.
    pub colour: bool,
}

/// A sign at the left edge of a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sign {
    /// The pen is here.
    Pen,
    /// What can hurt.
    Caution,
    /// Right.
    Right,
    /// Right, worked from the learner's own earlier figure.
    Follows,
    /// Worth another look.
    Look,
    /// Half of the marks.
    Half,
    /// Nothing was written.
    NotWritten,
}

impl Sign {
    /// Every sign.
    pub const ALL: [Self; 7] = [
        Self::Pen,
        Self::Caution,
        Self::Right,
        Self::Follows,
        Self::Look,
        Self::Half,
        Self::NotWritten,
    ];

    /// The sign as drawn.
    pub const fn glyph(self, look: Look) -> &'static str {
        if look.ascii {
            self.ascii()
        } else {
            self.drawn()
        }
    }

    const fn drawn(self) -> &'static str {
        match self {
            Self::Pen => "▸",
            Self::Caution => "▲",
            Self::Right => "✓",
            Self::Follows => "↳",
            Self::Look => "○",
            Self::Half => "◐",
            Self::NotWritten => "–",
        }
    }

    const fn ascii(self) -> &'static str {
        match self {
            Self::Pen => ">",
            Self::Caution => "*",
            Self::Right => "+",
            Self::Follows => "\"",
            Self::Look => "o",
            Self::Half => "~",
            Self::NotWritten => "-",
        }
    }

    /// The words of which one stands in the same row; the pen's line is named
    /// by the Next row instead.
    pub const fn words(self) -> &'static [&'static str] {
        match self {
            Self::Pen => &[],
            Self::Caution => &["CAUTION"],
            Self::Right => &["right"],
            Self::Follows => &["follows"],
            Self::Look => &[
                "look",
                "off by",
                "rounded",
                "unsafe",
                "not followed",
                "read",
            ],
            Self::Half => &["half", "wanted", "right in part"],
            Self::NotWritten => &["not written"],
        }
    }

    const fn accent(self) -> Option<Color> {
        match self {
            Self::Pen => Some(Color::Cyan),
            Self::Caution => Some(Color::Yellow),
            Self::Right | Self::Follows => Some(Color::Green),
            Self::Look | Self::Half | Self::NotWritten => None,
        }
    }
}

/// How a piece of a row is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Tone {
    /// As the terminal draws text.
    #[default]
    Plain,
    /// Headings, and the word Next.
    Bold,
    /// A sign or its rule line.
    Accent(Sign),
}

impl Look {
    /// The style of a tone.
    pub fn style(self, tone: Tone) -> Style {
        match tone {
            Tone::Plain => Style::default(),
            Tone::Bold => Style::default().add_modifier(Modifier::BOLD),
            Tone::Accent(sign) => match sign.accent() {
                Some(color) if self.colour => Style::default().fg(color),
                _ => Style::default(),
            },
        }
    }

    /// The lines of the frame.
    pub const fn lines(self) -> &'static Lines {
        if self.ascii {
            &ASCII_LINES
        } else {
            &DRAWN_LINES
        }
    }

    /// Text as this look can show it: invisible characters by their names, and
    /// in ASCII the trade's signs by their nearest ASCII spelling.
    pub fn text(self, text: &str) -> String {
        let mut shown = String::with_capacity(text.len());
        for sign in text.chars() {
            match sign {
                '\n' => shown.push('\n'),
                _ if sign.is_ascii() && !sign.is_ascii_control() => shown.push(sign),
                _ => match hidden_name(sign) {
                    Some(name) => shown.push_str(name),
                    None if self.ascii => fold(&mut shown, sign),
                    None => shown.push(sign),
                },
            }
        }
        shown
    }
}

/// The lines of the frame.
#[derive(Debug, PartialEq, Eq)]
pub struct Lines {
    /// Along the top, the foot and between.
    pub across: &'static str,
    /// Down the sides.
    pub down: &'static str,
    /// Top left and right, foot left and right, then the two ends of a rule.
    pub corners: [&'static str; 6],
}

const DRAWN_LINES: Lines = Lines {
    across: "─",
    down: "│",
    corners: ["┌", "┐", "└", "┘", "├", "┤"],
};

const ASCII_LINES: Lines = Lines {
    across: "-",
    down: "|",
    corners: ["+", "+", "+", "+", "+", "+"],
};

/// The name of a character that cannot be seen, or that turns the order of others.
const fn hidden_name(sign: char) -> Option<&'static str> {
    match sign {
        '\t' => Some(" "),
        '\u{200E}' => Some("[left-to-right mark]"),
        '\u{200F}' | '\u{061C}' => Some("[right-to-left mark]"),
        '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' => Some("[direction mark]"),
        '\u{200B}'..='\u{200D}' | '\u{2060}' | '\u{FEFF}' => Some("[zero-width sign]"),
        '\0'..='\u{1F}' | '\u{7F}'..='\u{9F}' => Some("[control sign]"),
        _ => None,
    }
}

/// Writes the ASCII spelling of a sign behind what is there: 2½ is 2-1/2.
fn fold(shown: &mut String, sign: char) {
    let spelled = ascii_for(sign);
    let digit = |sign: char| sign.is_ascii_digit();
    if spelled.starts_with(digit) && shown.ends_with(digit) {
        shown.push('-');
    }
    shown.push_str(spelled);
}

/// The nearest ASCII spelling of a sign that the trade's text uses.
const fn ascii_for(sign: char) -> &'static str {
    match sign {
        '×' | '·' | '⋅' => "x",
        '÷' | '∕' => "/",
        '−' | '–' | '—' | '─' | '\u{2010}' | '\u{2011}' => "-",
        '±' => "+-",
        '≤' => "<=",
        '≥' => ">=",
        '≠' => "!=",
        '≈' => "about",
        '²' => "^2",
        '³' => "^3",
        '⁴' => "^4",
        '⁵' => "^5",
        '°' | 'º' => "deg",
        'ρ' => "rho",
        'Ω' | '\u{2126}' => "ohm",
        '√' => "sqrt",
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '⅕' => "1/5",
        '⅖' => "2/5",
        '⅗' => "3/5",
        '⅘' => "4/5",
        '⅙' => "1/6",
        '⅚' => "5/6",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        '⅒' => "1/10",
        '’' | '‘' => "'",
        'Ā' | 'Ă' | 'Ą' | 'Á' | 'À' | 'Â' | 'Ä' | 'Å' | 'Ã' => "A",
        'ā' | 'ă' | 'ą' | 'ả' | 'ạ' | 'ấ' | 'ầ' | 'ã' | 'á' | 'à' | 'â' | 'ä' | 'å' => {
            "a"
        }
        'Ć' | 'Č' | 'Ç' => "C",
        'ć' | 'č' | 'ç' => "c",
        'Ď' | 'Đ' | 'Ð' => "D",
        'ď' | 'đ' | 'ð' => "d",
        'Ē' | 'Ė' | 'Ę' | 'Ě' | 'É' | 'È' | 'Ê' | 'Ë' => "E",
        'ē' | 'ė' | 'ę' | 'ě' | 'ế' | 'ề' | 'é' | 'è' | 'ê' | 'ë' => "e",
        'Ğ' | 'Ģ' => "G",
        'ğ' | 'ģ' => "g",
        'Ī' | 'İ' | 'Į' | 'Í' | 'Ì' | 'Î' | 'Ï' => "I",
        'ī' | 'ı' | 'į' | 'í' | 'ì' | 'î' | 'ï' => "i",
        'Ķ' => "K",
        'ķ' => "k",
        'Ľ' | 'Ļ' | 'Ł' => "L",
        'ľ' | 'ļ' | 'ł' => "l",
        'Ń' | 'Ň' | 'Ņ' | 'Ñ' => "N",
        'ń' | 'ň' | 'ņ' | 'ñ' => "n",
        'Ø' | 'Ō' | 'Ő' | 'Ó' | 'Ò' | 'Ô' | 'Ö' | 'Õ' => "O",
        'ø' | 'ō' | 'ő' | 'ơ' | 'õ' | 'ó' | 'ò' | 'ô' | 'ö' => "o",
        'Œ' => "OE",
        'œ' => "oe",
        'Ř' => "R",
        'ř' => "r",
        'Ś' | 'Š' | 'Ş' | 'Ș' => "S",
        'ś' | 'š' | 'ş' | 'ș' => "s",
        'Ť' | 'Ţ' | 'Ț' => "T",
        'ť' | 'ţ' | 'ț' => "t",
        'Ū' | 'Ů' | 'Ű' | 'Ų' | 'Ú' | 'Ù' | 'Û' | 'Ü' => "U",
        'ū' | 'ů' | 'ű' | 'ų' | 'ư' | 'µ' | 'μ' | 'ú' | 'ù' | 'û' | 'ü' => "u",
        'Ź' | 'Ż' | 'Ž' => "Z",
        'ź' | 'ż' | 'ž' => "z",
        '“' | '”' => "\"",
        '…' => "...",
        '┼' => "+",
        '■' => "#",
        '→' => "->",
        '\u{A0}' | '\u{2009}' | '\u{202F}' => " ",
        'Æ' => "AE",
        'æ' => "ae",
        'ß' => "ss",
        'ý' | 'ÿ' => "y",
        'Ý' => "Y",
        _ => "?",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ascii_signs_are_ascii_and_all_signs_differ() {
        for look in [
            Look::default(),
            Look {
                ascii: true,
                colour: false,
            },
        ] {
            let glyphs: std::collections::BTreeSet<_> =
                Sign::ALL.iter().map(|sign| sign.glyph(look)).collect();
            assert_eq!(glyphs.len(), Sign::ALL.len());
            assert!(!look.ascii || glyphs.iter().all(|glyph| glyph.is_ascii()));
        }
    }

    #[test]
    fn at_most_three_accents_and_none_without_colour() {
        let look = Look {
            ascii: false,
            colour: true,
        };
        let accents: std::collections::HashSet<_> = Sign::ALL
            .iter()
            .filter_map(|&sign| look.style(Tone::Accent(sign)).fg)
            .collect();
        assert_eq!(accents.len(), 3);
        let plain = Look::default();
        assert!(
            Sign::ALL
                .iter()
                .all(|&sign| plain.style(Tone::Accent(sign)).fg.is_none())
        );
    }

    #[test]
    fn what_cannot_be_seen_is_named() {
        assert_eq!(
            Look::default().text("a\u{202E}b\u{7}c"),
            "a[direction mark]b[control sign]c"
        );
        let ascii = Look {
            ascii: true,
            colour: false,
        };
        assert_eq!(ascii.text("2 × 1.98 ÷ 10"), "2 x 1.98 / 10");
        assert_eq!(ascii.text("2½ in at 75 °C"), "2-1/2 in at 75 degC");
    }
}
