//! Sheets found in the bytes of a file whose tables cannot be read any more. Each
//! payload stands in one piece behind its sum, so what is whole can be told from
//! what is not.

use pumpwright_engine::entries::Entry;

use super::sheet::{SUM, Sheet};
use super::store::sound;

/// How every payload begins.
const BEGINS: &[u8] = b"{\"format\":";

/// A longer one lies in several pieces.
const LONGEST: usize = 64 * 1024;

/// The sheets in these bytes.
pub fn sheets(bytes: &[u8]) -> Vec<Sheet> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(next) = position(&bytes[at..]) {
        let start = at + next;
        at = start + BEGINS.len();
        if let Some(sheet) = one(bytes, start) {
            at = start + sheet.payload.len();
            found.push(sheet);
        }
    }
    found
}

fn position(bytes: &[u8]) -> Option<usize> {
    bytes
        .windows(BEGINS.len())
        .position(|window| window == BEGINS)
}

/// The sheet that begins here, if it is whole.
fn one(bytes: &[u8], start: usize) -> Option<Sheet> {
    let stands = bytes.get(start.checked_sub(SUM)?..start)?;
    let rest = &bytes[start..bytes.len().min(start + LONGEST)];
    let mut entries = serde_json::Deserializer::from_slice(rest).into_iter::<Entry>();
    entries.next()?.ok()?;
    let payload = std::str::from_utf8(&rest[..entries.byte_offset()]).ok()?;
    sound(payload, stands).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::logbook::testing::sheet;

    fn bytes(sheet: &Sheet) -> Vec<u8> {
        [&sheet.sum(), sheet.payload.as_bytes()].concat()
    }

    #[test]
    fn whole_sheets_are_found_between_noise_and_torn_ones_are_not() {
        let all = [1, 2, 3].map(|number| Sheet::of(sheet("Ína", number)).unwrap());
        let torn = &bytes(&all[1])[..200];
        let mut changed = bytes(&all[2]);
        let place = changed.len() - 40;
        changed[place] ^= 1;
        let found = sheets(
            &[
                b"{\"format\":\xff",
                torn,
                &bytes(&all[0]),
                &changed,
                b"{\"format\":",
                &bytes(&all[1]),
                b"{\"forma",
            ]
            .concat(),
        );
        assert_eq!(found, all[..2]);
        assert!(sheets(b"").is_empty());
        assert!(
            sheets(all[0].payload.as_bytes()).is_empty(),
            "no sum before it"
        );
    }
}
