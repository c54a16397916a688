//! The letters of papers: six font files in the program. Their licenses stand beside
//! them, in `fonts/LICENSES.txt`.

use std::sync::LazyLock;

use typst::foundations::Bytes;
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;

/// The font files: text upright, bold and italic, formulas, and the letters of figures.
const FILES: [&[u8]; 6] = [
    include_bytes!("fonts/LibertinusSerif-Regular.otf"),
    include_bytes!("fonts/LibertinusSerif-Bold.otf"),
    include_bytes!("fonts/LibertinusSerif-Italic.otf"),
    include_bytes!("fonts/NewCMMath-Regular.otf"),
    include_bytes!("fonts/DejaVuSansMono.ttf"),
    include_bytes!("fonts/DejaVuSansMono-Bold.ttf"),
];

/// The fonts, read once.
pub static FONTS: LazyLock<Vec<Font>> = LazyLock::new(|| {
    let files = FILES.iter().map(|file| Bytes::new(*file));
    files.flat_map(Font::iter).collect()
});

/// What the typesetter asks about them.
pub static BOOK: LazyLock<LazyHash<FontBook>> =
    LazyLock::new(|| LazyHash::new(FontBook::from_fonts(FONTS.iter())));

/// The first sign of a text that no font has.
pub fn unknown_sign(text: &str) -> Option<char> {
    let known = |sign: char| {
        sign.is_ascii()
            || FONTS
                .iter()
                .any(|font| font.info().coverage.contains(u32::from(sign)))
    };
    text.chars().find(|sign| !known(*sign))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_is_a_font() {
        assert_eq!(FONTS.len(), FILES.len());
    }

    #[test]
    fn names_of_half_the_world_can_be_printed() {
        assert_eq!(unknown_sign("D'Arcy, Øyvind Ñuñez-Žák ’ Ελένη Юрий"), None);
        assert_eq!(unknown_sign("李"), Some('李'));
    }
}
