//! A package for other programs as one archive. Nothing is packed tighter: bytes stay the
//! same whatever library packs them.

use std::io::{self, Cursor, Write as _};

use pumpwright_press::qti::Package;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

/// The archive of a package: its list of files first, every date the same.
///
/// # Errors
/// Where the archive grows beyond what its form can hold.
pub fn archive(package: &Package) -> io::Result<Vec<u8>> {
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Stored)
        .last_modified_time(zip::DateTime::default())
        .unix_permissions(0o644);
    for file in &package.files {
        writer.start_file(file.path.as_str(), options)?;
        writer.write_all(file.text.as_bytes())?;
    }
    Ok(writer.finish()?.into_inner())
}
