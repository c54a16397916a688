//! The colors of a page, by day and by night. Nothing is said by color alone.

/// The colors of a page.
#[derive(Debug, Clone, Copy)]
pub struct Colors {
    /// Behind everything.
    pub paper: &'static str,
    /// Letters and lines.
    pub ink: &'static str,
    /// Letters that matter less.
    pub faint: &'static str,
    /// What is plotted; links.
    pub mark: &'static str,
    /// The inside of an interval that a line bounds on both sides.
    pub band: &'static str,
    /// Behind what is set apart.
    pub set_apart: &'static str,
    /// The edge of a caution.
    pub caution: &'static str,
}

/// By day.
pub const DAY: Colors = Colors {
    paper: "#ffffff",
    ink: "#1c1c1c",
    faint: "#555555",
    mark: "#1f5a94",
    band: "#d3e2f1",
    set_apart: "#f2f2ef",
    caution: "#a33b00",
};

/// By night.
pub const NIGHT: Colors = Colors {
    paper: "#15181b",
    ink: "#e8e8e6",
    faint: "#b0b4b8",
    mark: "#8abdf0",
    band: "#24394d",
    set_apart: "#22262a",
    caution: "#ffa366",
};

impl Colors {
    /// As variables of a style.
    pub fn variables(&self) -> String {
        format!(
            "--paper:{};--ink:{};--faint:{};--mark:{};--band:{};--apart:{};--caution:{};",
            self.paper, self.ink, self.faint, self.mark, self.band, self.set_apart, self.caution
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance and contrast ratio. Source: W3C, Web Content Accessibility
    /// Guidelines 2.1 (2018), definitions of both, from memory.
    fn luminance(color: &str) -> f64 {
        let part = |at: usize| {
            let share = f64::from(u8::from_str_radix(&color[at..at + 2], 16).unwrap()) / 255.0;
            if share <= 0.03928 {
                share / 12.92
            } else {
                let base: f64 = (share + 0.055) / 1.055;
                // To the power of 2.4 by way of squares and fifth roots is not worth it.
                libm_pow(base, 2.4)
            }
        };
        0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
    }

    #[allow(clippy::disallowed_methods)]
    fn libm_pow(base: f64, exponent: f64) -> f64 {
        base.powf(exponent)
    }

    fn contrast(one: &str, other: &str) -> f64 {
        let (one, other) = (luminance(one), luminance(other));
        (one.max(other) + 0.05) / (one.min(other) + 0.05)
    }

    #[test]
    fn the_contrast_is_enough_by_day_and_by_night() {
        assert!((contrast("#000000", "#ffffff") - 21.0).abs() < 1e-9);
        assert!(contrast("#777777", "#ffffff") < 4.5);
        for colors in [DAY, NIGHT] {
            for behind in [colors.paper, colors.set_apart, colors.band] {
                for letters in [colors.ink, colors.faint, colors.mark, colors.caution] {
                    let contrast = contrast(letters, behind);
                    assert!(contrast >= 4.5, "{letters} on {behind}: {contrast:.2}");
                }
            }
        }
    }
}
