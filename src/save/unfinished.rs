//! Files under unfinished names: held by whoever writes them, removed by the next one when nobody holds them any more.

use std::fs::{File, OpenOptions, Permissions};
use std::io::{self, Write};
use std::path::Path;

use tempfile::{Builder, NamedTempFile};

/// How unfinished names begin.
const PREFIX: &str = ".unfinished-";
/// Random letters and digits after it.
const RANDOM: usize = 12;

/// A file beside its target, held and synced, with all that is to stand in it.
pub(super) fn with_content(
    folder: &Path,
    content: &[u8],
    permissions: Option<Permissions>,
) -> io::Result<NamedTempFile> {
    let mut file = named(folder, |path| {
        let file = OpenOptions::new().write(true).create_new(true).open(path)?;
        // Where there are no locks, no file is taken for one that nobody holds either.
        let _ = file.lock();
        Ok(file)
    })?;
    file.write_all(content)?;
    if let Some(permissions) = permissions {
        file.as_file().set_permissions(permissions)?;
    }
    file.as_file().sync_all()?;
    Ok(file)
}

/// The content of a file once more beside it, to put it back: a second name where the system gives one, else a copy.
pub(super) fn second_name(file: &Path, folder: &Path) -> io::Result<NamedTempFile> {
    let linked = named(folder, |path| {
        let held = File::open(file)?;
        // The user's own programs may hold it; then nobody takes the second name away meanwhile.
        let _ = held.try_lock();
        std::fs::hard_link(file, path)?;
        Ok(held)
    });
    linked.or_else(|_| {
        let permissions = file.metadata()?.permissions();
        with_content(folder, &std::fs::read(file)?, Some(permissions))
    })
}

/// An unfinished name in a folder, for what `make` makes there. Made anew where another process took it away before it was held.
fn named(
    folder: &Path,
    mut make: impl FnMut(&Path) -> io::Result<File>,
) -> io::Result<NamedTempFile> {
    Builder::new().prefix(PREFIX).rand_bytes(RANDOM).make_in(folder, |path| {
        let file = make(path)?;
        path.symlink_metadata().map_err(|_| io::ErrorKind::AlreadyExists)?;
        Ok(file)
    })
}

/// Removes unfinished files of a folder that nobody holds any more. What cannot be removed stays for the next time.
pub(super) fn remove_left_behind(folder: &Path) {
    let Ok(entries) = folder.read_dir() else { return };
    for entry in entries.flatten() {
        let is_file = entry.file_type().is_ok_and(|kind| kind.is_file());
        if !is_file || !is_unfinished(&entry.file_name().to_string_lossy()) {
            continue;
        }
        if let Ok(file) = File::open(entry.path())
            && file.try_lock().is_ok()
        {
            let _ = std::fs::remove_file(entry.path());
        }
    }
}

/// Whether a name was given by [`named`].
fn is_unfinished(name: &str) -> bool {
    name.strip_prefix(PREFIX)
        .is_some_and(|rest| rest.len() == RANDOM && rest.bytes().all(|b| b.is_ascii_alphanumeric()))
}
