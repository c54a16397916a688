//! What next week's plan needs, read out of the report's table.

use csv::ReaderBuilder;

use super::Met;
use super::next::{Findings, Missed};
use crate::cells;

/// What next week's plan needs, out of a table that [`super::table()`] wrote; a spreadsheet may have
/// saved it with other signs between the cells.
///
/// # Errors
/// A sentence that goes behind the name of the file.
pub fn read_table(text: &str) -> Result<Findings, String> {
    let text = text.trim_start_matches('\u{feff}');
    let mut reader = ReaderBuilder::new()
        .delimiter(cells::separator(text))
        .flexible(true)
        .from_reader(text.as_bytes());
    let head = reader.headers().cloned().unwrap_or_default();
    let column = |name: &str| head.iter().position(|cell| cell.trim() == name);
    let wanted = [
        "part", "what", "plan", "family", "level", "name", "words", "count", "of",
    ]
    .map(column);
    let [
        Some(part),
        Some(what),
        Some(plan),
        Some(family),
        Some(level),
        Some(name),
        Some(words),
        Some(count),
        Some(of),
    ] = wanted
    else {
        return Err("is no report.csv of this program; name one that it wrote".to_owned());
    };
    let mut findings = Findings::default();
    for record in reader.records() {
        let record = record.map_err(|error| {
            let line = error.position().map_or(0, csv::Position::line);
            format!("cannot be read from line {line} on; write it anew by pumpwright report")
        })?;
        let start = record.position().map_or(0, |place| place.byte() as usize);
        let line = cells::line_of(text, start);
        let cell = |at: usize| cells::text(record.get(at).unwrap_or_default().trim());
        let whole = |at: usize, what: &str| {
            cell(at).parse::<usize>().map_err(|_| {
                format!(
                    "line {line}: the {what} \"{}\" is no whole number",
                    cell(at)
                )
            })
        };
        let family_level = || {
            let own = u8::try_from(whole(level, "level")?).unwrap_or(u8::MAX);
            Ok::<_, String>((cell(family).to_owned(), own))
        };
        match cell(part) {
            "paper" => {
                cell(plan).clone_into(&mut findings.plan);
                cell(words).clone_into(&mut findings.title);
                cell(name).clone_into(&mut findings.units);
            }
            "met" => {
                let (family, level) = family_level()?;
                let lately = cell(what) == "last paper";
                findings.met.push(Met {
                    family,
                    level,
                    lately,
                });
            }
            "teach" => {
                let (family, level) = family_level()?;
                findings.missed.push(Missed {
                    family,
                    level,
                    did: cell(words).to_owned(),
                    made: whole(count, "count")?,
                    met: whole(of, "of")?,
                });
            }
            _ => {}
        }
    }
    if findings.plan.is_empty() {
        return Err("has no paper in it; write it anew by pumpwright report".to_owned());
    }
    Ok(findings)
}
