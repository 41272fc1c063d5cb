//! Files that stand ready under unfinished names take their final ones, all or none.

use std::io;
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

use super::SaveError;
use super::folder::NewFolders;
use super::target::Target;
use super::unfinished;

/// Files that stand ready. Dropped without [`Prepared::commit`] they are gone, and the folders made for them.
#[derive(Debug)]
pub(super) struct Prepared {
    files: Vec<(Target, NamedTempFile)>,
    folders: NewFolders,
}

/// A file that has its final name.
pub(super) struct Done {
    target: Target,
    /// What stood there before; kept under a second name for all but the last file, after which nothing can fail.
    former: Option<NamedTempFile>,
}

impl Prepared {
    /// Makes the folders, removes what was left behind where the files go, and writes them beside their targets.
    pub fn of(files: Vec<(Target, Vec<u8>)>, folders: &[PathBuf]) -> Result<Self, SaveError> {
        let mut made = NewFolders::default();
        for folder in folders {
            made.make(folder)?;
        }
        for folder in folders_of(files.iter().map(|(target, _)| target)) {
            unfinished::remove_left_behind(folder);
        }
        let mut prepared = Self { files: Vec::new(), folders: made };
        for (target, content) in files {
            let file = unfinished::with_content(target.folder(), &content, target.permissions())
                .map_err(|error| SaveError::unwritable(&target.asked, &error))?;
            prepared.files.push((target, file));
        }
        Ok(prepared)
    }

    /// Gives every file its final name; where one is refused, those before it are put back.
    pub fn commit(self) -> Result<(), SaveError> {
        let last = self.files.len().saturating_sub(1);
        let mut done: Vec<Done> = Vec::new();
        for (index, (target, file)) in self.files.into_iter().enumerate() {
            match put(target, file, index < last) {
                Ok(one) => done.push(one),
                Err(cause) => return Err(put_back(done, cause)),
            }
        }
        self.folders.keep();
        for folder in folders_of(done.iter().map(|one| &one.target)) {
            sync(folder);
        }
        Ok(())
    }
}

/// Gives one file its final name, with a second name for what stood there where it may have to be put back.
pub(super) fn put(
    target: Target,
    file: NamedTempFile,
    may_be_put_back: bool,
) -> Result<Done, SaveError> {
    let failed = |error: io::Error| match error.kind() {
        io::ErrorKind::AlreadyExists => SaveError::Exists { paths: vec![target.asked.clone()] },
        _ => SaveError::unwritable(&target.asked, &error),
    };
    let former = (may_be_put_back && target.exists())
        .then(|| unfinished::second_name(&target.path, target.folder()))
        .transpose()
        .map_err(failed)?;
    // What came after the check was not asked about.
    let put = if target.exists() {
        file.persist(&target.path)
    } else {
        file.persist_noclobber(&target.path)
    };
    put.map_err(|error| failed(error.error))?;
    Ok(Done { target, former })
}

/// Puts back what was done, the last first, and says what stays changed.
pub(super) fn put_back(done: Vec<Done>, cause: SaveError) -> SaveError {
    let mut left = Vec::new();
    for Done { target, former } in done.into_iter().rev() {
        match former {
            None if std::fs::remove_file(&target.path).is_ok() => {}
            None => left.push((target.asked, None)),
            Some(former) => {
                if let Err(error) = former.persist(&target.path) {
                    let kept = set_aside(error.file, &target.path);
                    left.push((target.asked, kept));
                }
            }
        }
    }
    if left.is_empty() { cause } else { SaveError::NotPutBack { cause: Box::new(cause), left } }
}

/// Gives what stood in a file a name that nobody takes for an unfinished one: `NAME.former`.
fn set_aside(former: NamedTempFile, file: &Path) -> Option<PathBuf> {
    let mut name = file.file_name()?.to_owned();
    name.push(".former");
    let aside = file.with_file_name(name);
    match former.persist_noclobber(&aside) {
        Ok(_) => Some(aside),
        Err(error) => error.file.keep().ok().map(|(_, path)| path),
    }
}

/// Every folder of some targets, once.
fn folders_of<'a>(targets: impl Iterator<Item = &'a Target>) -> Vec<&'a Path> {
    let mut folders: Vec<&Path> = Vec::new();
    for target in targets {
        if !folders.contains(&target.folder()) {
            folders.push(target.folder());
        }
    }
    folders
}

/// Puts the names of a folder on the disk. Where the system cannot, they are as safe as any others of it.
pub(super) fn sync(folder: &Path) {
    #[cfg(unix)]
    let _ = std::fs::File::open(folder).and_then(|folder| folder.sync_all());
    #[cfg(not(unix))]
    let _ = folder;
}
