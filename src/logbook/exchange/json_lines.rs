//! JSON, a sheet a line: what the file itself holds, without its order.

use super::{Fault, Sheet};

/// What a file of these begins with.
pub const BEGINS: &str = "{\"format\":1,\"id\":\"";

/// The lines.
pub fn write(sheets: &[Sheet]) -> String {
    let mut text = String::new();
    for sheet in sheets {
        text.push_str(&sheet.payload);
        text.push('\n');
    }
    text
}

/// The sheets; empty lines are passed over.
pub fn read(text: &str) -> Result<Vec<Sheet>, Vec<Fault>> {
    let mut sheets = Vec::new();
    let mut faults = Vec::new();
    for (at, line) in text.split('\n').enumerate() {
        if line.trim().is_empty() {
            continue;
        }
        match Sheet::read(line) {
            Ok(sheet) => sheets.push(sheet),
            Err(message) => faults.push(Fault {
                line: at as u64 + 1,
                message,
                remedy: "export again, or take this line out".to_owned(),
            }),
        }
    }
    if faults.is_empty() {
        Ok(sheets)
    } else {
        Err(faults)
    }
}
