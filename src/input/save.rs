//! Writes a file whole or not at all.

use std::io::Write;
use std::path::Path;

use tempfile::{Builder, NamedTempFile};

use crate::error::{FileError, plain_reason};

/// Whether a file that exists already may be replaced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Overwrite {
    /// Refuse.
    No,
    /// Replace it.
    Yes,
}

/// Writes a file: either all of it stands there afterwards, or nothing has changed.
///
/// # Errors
/// [`FileError::Exists`] when the file is there and may not be replaced,
/// [`FileError::Unwritable`] when the system refuses.
pub fn write_file(path: &Path, content: &[u8], overwrite: Overwrite) -> Result<(), FileError> {
    let refused = |error: std::io::Error| match error.kind() {
        std::io::ErrorKind::AlreadyExists => FileError::Exists { path: path.to_owned() },
        _ => FileError::Unwritable { path: path.to_owned(), reason: plain_reason(&error) },
    };
    if path.is_dir() {
        return Err(FileError::Directory { path: path.to_owned() });
    }
    if overwrite == Overwrite::No && path.symlink_metadata().is_ok() {
        return Err(FileError::Exists { path: path.to_owned() });
    }
    let mut file = beside(path).map_err(refused)?;
    file.write_all(content).map_err(refused)?;
    file.as_file().sync_all().map_err(refused)?;
    let persisted = match overwrite {
        Overwrite::No => file.persist_noclobber(path),
        Overwrite::Yes => file.persist(path),
    };
    persisted.map(|_| ()).map_err(|error| refused(error.error))
}

/// An unfinished file in the directory of `path`, readable as the user's other files are.
fn beside(path: &Path) -> std::io::Result<NamedTempFile> {
    let directory = match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    let mut builder = Builder::new();
    builder.prefix(".unfinished-");
    #[cfg(unix)]
    let permissions = {
        use std::os::unix::fs::PermissionsExt;
        std::fs::Permissions::from_mode(0o666)
    };
    #[cfg(unix)]
    builder.permissions(permissions);
    builder.tempfile_in(directory)
}

#[cfg(test)]
#[path = "save_tests.rs"]
mod tests;
