//! Files as one archive: a package for other programs, what somebody takes along. Nothing is packed tighter: bytes stay the
//! same whatever library packs them.

use std::io::{self, Cursor, Write as _};

use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

/// An archive of files, each with its path there, in their order; every date the same.
///
/// # Errors
/// Where the archive grows beyond what its form can hold.
pub fn archive<'a>(files: impl IntoIterator<Item = (&'a str, &'a [u8])>) -> io::Result<Vec<u8>> {
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Stored)
        .last_modified_time(zip::DateTime::default())
        .unix_permissions(0o644);
    for (path, bytes) in files {
        writer.start_file(path, options)?;
        writer.write_all(bytes)?;
    }
    Ok(writer.finish()?.into_inner())
}
