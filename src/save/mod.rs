//! The one writer of files: all files of a set are written, or none is.
//!
//! Everything is at hand before the first file is touched. Every target is checked, every file is
//! written and synced under an unfinished name beside its target, and only then all are renamed.
//! Where a rename fails, those before it are put back. A process that is killed leaves no half
//! file under a final name; what it leaves unfinished the next one that writes into the same
//! folder removes.
//!
//! ```
//! use planewright::save::{FileSet, Overwrite};
//!
//! let folder = tempfile::tempdir()?;
//! let mut files = FileSet::new(Overwrite::No);
//! files.add(folder.path().join("a.txt"), "first");
//! files.add(folder.path().join("b.txt"), "second");
//! files.write()?;
//! assert_eq!(std::fs::read_to_string(folder.path().join("b.txt"))?, "second");
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod error;
mod exchange;
mod folder;
mod growing;
mod target;
mod unfinished;

use std::path::{Path, PathBuf};

pub use error::SaveError;
use exchange::Prepared;
pub use growing::{Growing, Mark};
use target::Target;

/// Whether files that exist already may be replaced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Overwrite {
    /// Refuse.
    No,
    /// Replace them.
    Yes,
}

impl Overwrite {
    /// As asked for with `--force`.
    #[must_use]
    pub const fn forced(force: bool) -> Self {
        if force { Self::Yes } else { Self::No }
    }
}

/// Files that are written together.
#[derive(Debug)]
pub struct FileSet {
    overwrite: Overwrite,
    inputs: Vec<PathBuf>,
    folders: Vec<PathBuf>,
    files: Vec<(PathBuf, Vec<u8>)>,
}

impl FileSet {
    /// A set without files.
    #[must_use]
    pub const fn new(overwrite: Overwrite) -> Self {
        Self { overwrite, inputs: Vec::new(), folders: Vec::new(), files: Vec::new() }
    }

    /// Names files that are read, which no file of the set may replace.
    pub fn protect(&mut self, inputs: impl IntoIterator<Item = PathBuf>) {
        self.inputs.extend(inputs);
    }

    /// A folder to be made, with those above it, where there is none.
    pub fn make_folder(&mut self, folder: impl Into<PathBuf>) {
        self.folders.push(folder.into());
    }

    /// One more file with all that is to stand in it.
    pub fn add(&mut self, path: impl Into<PathBuf>, content: impl Into<Vec<u8>>) {
        self.files.push((path.into(), content.into()));
    }

    /// The files as they were named.
    pub fn paths(&self) -> impl Iterator<Item = &Path> {
        self.files.iter().map(|(path, _)| path.as_path())
    }

    /// Refuses files that could not be written as part of this set, before their content is computed.
    ///
    /// # Errors
    /// As [`FileSet::write`], as far as names tell.
    pub fn check<'a>(&self, paths: impl IntoIterator<Item = &'a Path>) -> Result<(), SaveError> {
        self.targets(paths).map(|_| ())
    }

    /// Writes all files: all of them stand there afterwards, or nothing has changed.
    ///
    /// # Errors
    /// Nothing was written, except where [`SaveError::NotPutBack`] says otherwise:
    /// [`SaveError::Exists`] when files are there and may not be replaced,
    /// [`SaveError::NotAFile`] for a target that is no regular file, [`SaveError::Input`] for one
    /// that is read, [`SaveError::Twice`] for one that is named twice, [`SaveError::Folder`] and
    /// [`SaveError::Unwritable`] when the system refuses.
    pub fn write(self) -> Result<(), SaveError> {
        self.prepare()?.commit()
    }

    /// Everything but the renaming.
    fn prepare(self) -> Result<Prepared, SaveError> {
        let targets = self.targets(self.paths())?;
        let files = targets.into_iter().zip(self.files.into_iter().map(|(_, content)| content));
        Prepared::of(files.collect(), &self.folders)
    }

    /// What the paths stand for; refused where one of them cannot be written.
    fn targets<'a>(
        &self,
        paths: impl IntoIterator<Item = &'a Path>,
    ) -> Result<Vec<Target>, SaveError> {
        let mut targets: Vec<Target> = Vec::new();
        for path in paths {
            let target = Target::of(path)?;
            target.refuse_inputs(&self.inputs)?;
            if targets.iter().any(|other| other.is_same(&target)) {
                return Err(SaveError::Twice { path: target.asked });
            }
            targets.push(target);
        }
        let in_the_way = targets.iter().filter(|target| target.exists());
        let in_the_way: Vec<_> = in_the_way.map(|target| target.asked.clone()).collect();
        if self.overwrite == Overwrite::No && !in_the_way.is_empty() {
            return Err(SaveError::Exists { paths: in_the_way });
        }
        Ok(targets)
    }
}

#[cfg(test)]
mod tests;
