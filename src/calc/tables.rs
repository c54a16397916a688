//! Reads the tables that lie beside this file: lines that begin with `#` say
//! the source, the next names the columns. No files are opened: the text is
//! part of the program.

/// The row of a table whose first column has this figure, and in it the cell of
/// a named column. Nothing where row, column or figure is absent.
pub(crate) fn look_up(table: &str, key: f64, column: &str) -> Option<f64> {
    let mut lines = table.lines().filter(|line| !line.starts_with('#'));
    let at = lines.next()?.split(',').position(|name| name == column)?;
    let row = lines.find(|line| figure(line, 0).is_some_and(|first| near(first, key)))?;
    figure(row, at)
}

/// The cell in the row whose first column is this word.
pub(crate) fn look_up_word(table: &str, key: &str, column: &str) -> Option<f64> {
    let mut lines = table.lines().filter(|line| !line.starts_with('#'));
    let at = lines.next()?.split(',').position(|name| name == column)?;
    let row = lines.find(|line| line.split(',').next() == Some(key))?;
    figure(row, at)
}

fn figure(line: &str, at: usize) -> Option<f64> {
    line.split(',').nth(at)?.parse().ok()
}

/// Equal but for what changing units leaves behind.
fn near(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-9 * one.abs().max(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TABLE: &str = "# source\nsize,solid,stranded\n14,3.07,3.15\n6,,0.491\n";

    #[test]
    fn a_cell_is_found_by_row_and_column() {
        assert_eq!(look_up(TABLE, 14.0, "stranded"), Some(3.15));
        assert_eq!(look_up(TABLE, 14.000_000_000_1, "solid"), Some(3.07));
    }

    #[test]
    fn a_row_is_found_by_its_word() {
        let table = "# source\nhp,115 V\n1/2,9.8\n1-1/2,20\n";
        assert_eq!(look_up_word(table, "1/2", "115 V"), Some(9.8));
        assert_eq!(look_up_word(table, "1-1/2", "115 V"), Some(20.0));
        assert_eq!(look_up_word(table, "2", "115 V"), None);
        assert_eq!(look_up_word(table, "1/2", "460 V"), None);
    }

    #[test]
    fn what_is_absent_is_nothing() {
        assert_eq!(look_up(TABLE, 6.0, "solid"), None);
        assert_eq!(look_up(TABLE, 7.0, "solid"), None);
        assert_eq!(look_up(TABLE, 6.0, "tinned"), None);
        assert_eq!(look_up(TABLE, f64::NAN, "solid"), None);
        assert_eq!(look_up("", 6.0, "solid"), None);
        assert_eq!(look_up("# only a source", 6.0, "solid"), None);
    }
}
