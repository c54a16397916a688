//! American wire sizes as the trade writes them: 2/0 where the formulas count on with -1.

/// The size that a text names: "12", "#12", "12 AWG", "2/0".
pub(super) fn read(typed: &str) -> Option<f64> {
    let small = typed.trim().to_ascii_lowercase();
    let bare = small.trim_start_matches('#').trim_end_matches("awg").trim();
    let Some(aughts) = bare.strip_suffix("/0") else {
        return bare.parse::<i8>().ok().map(f64::from);
    };
    let count = aughts.trim().parse::<u8>().ok()?;
    (count > 0).then(|| 1.0 - f64::from(count))
}

/// The size as it is written: "12 AWG", "2/0 AWG"; nothing for what is no size.
pub(super) fn write(size: f64) -> Option<String> {
    if size.fract() != 0.0 || size.abs() > 40.0 {
        None
    } else if size > 0.0 {
        Some(format!("{size} AWG"))
    } else {
        Some(format!("{}/0 AWG", 1.0 - size))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_read_as_the_trade_writes_them_and_written_back() {
        for (typed, size, written) in [
            ("12", 12.0, "12 AWG"),
            ("#10", 10.0, "10 AWG"),
            ("14 awg", 14.0, "14 AWG"),
            ("1/0", 0.0, "1/0 AWG"),
            ("4/0 AWG", -3.0, "4/0 AWG"),
            ("-1", -1.0, "2/0 AWG"),
        ] {
            assert_eq!(read(typed), Some(size), "{typed}");
            assert_eq!(write(size).as_deref(), Some(written));
        }
    }

    #[test]
    fn what_is_no_size_is_none() {
        for typed in ["", "0/0", "12.5", "twelve", "12 mm2", "1e999", "/0"] {
            assert_eq!(read(typed), None, "{typed}");
        }
        assert_eq!(write(f64::NAN), None);
        assert_eq!(write(12.5), None);
    }
}
