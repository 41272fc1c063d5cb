//! What a path stands for: a regular file, or one that is to be.

use std::fs::{FileType, Metadata, Permissions};
use std::path::{Path, PathBuf};

use same_file::Handle;

use super::SaveError;

/// Symbolic links that are followed one after the other.
const MOST_LINKS: usize = 40;

/// A file to be written.
#[derive(Debug)]
pub(super) struct Target {
    /// As it was named.
    pub asked: PathBuf,
    /// The same behind all symbolic links of its last part.
    pub path: PathBuf,
    /// What stands there.
    former: Option<Metadata>,
}

impl Target {
    /// The target behind a path; refused where something other than a regular file stands there.
    pub fn of(asked: &Path) -> Result<Self, SaveError> {
        let former = match asked.metadata() {
            Ok(found) if found.is_file() => {
                refuse_own_output(asked)?;
                Some(found)
            }
            Ok(found) => {
                let kind = kind_of(found.file_type());
                return Err(SaveError::NotAFile { path: asked.to_owned(), kind });
            }
            Err(_) => None,
        };
        let ends_as_a_folder = asked.to_string_lossy().ends_with(std::path::is_separator);
        if ends_as_a_folder || asked.file_name().is_none() {
            return Err(SaveError::NotAFile { path: asked.to_owned(), kind: "directory" });
        }
        let mut path = asked.to_owned();
        for _ in 0..MOST_LINKS {
            let Ok(to) = path.read_link() else {
                return Ok(Self { asked: asked.to_owned(), path, former });
            };
            path = folder_of(&path).join(to);
        }
        let reason = "its symbolic links lead back to themselves".to_owned();
        Err(SaveError::Unwritable { path: asked.to_owned(), reason })
    }

    /// Whether a file stands there.
    pub const fn exists(&self) -> bool {
        self.former.is_some()
    }

    /// The permissions of the file that stands there.
    pub fn permissions(&self) -> Option<Permissions> {
        self.former.as_ref().map(Metadata::permissions)
    }

    /// The folder that it stands in.
    pub fn folder(&self) -> &Path {
        folder_of(&self.path)
    }

    /// Refuses a target that is one of these files, by whatever name or link.
    pub fn refuse_inputs(&self, inputs: &[PathBuf]) -> Result<(), SaveError> {
        // What is no file, such as a pipe, would wait to be opened.
        let is_this = |input: &&PathBuf| {
            input.is_file() && same_file::is_same_file(&self.path, input).unwrap_or(false)
        };
        match inputs.iter().filter(|_| self.exists()).find(is_this) {
            Some(input) => Err(SaveError::Input { path: self.asked.clone(), input: input.clone() }),
            None => Ok(()),
        }
    }

    /// Whether both are one file, be it there already or not.
    pub fn is_same(&self, other: &Self) -> bool {
        if self.exists() && other.exists() {
            return same_file::is_same_file(&self.path, &other.path).unwrap_or(false);
        }
        let place = |target: &Self| {
            let folder = target.folder();
            folder.canonicalize().unwrap_or_else(|_| folder.to_owned())
        };
        self.path.file_name() == other.path.file_name() && place(self) == place(other)
    }
}

/// Refuses a file that the printed output of this process goes to: it would be gone with the file.
fn refuse_own_output(asked: &Path) -> Result<(), SaveError> {
    let Ok(file) = Handle::from_path(asked) else { return Ok(()) };
    let streams = [Handle::stdout(), Handle::stderr()];
    if streams.into_iter().flatten().any(|stream| stream == file) {
        let reason = "what is printed here goes to it".to_owned();
        return Err(SaveError::Unwritable { path: asked.to_owned(), reason });
    }
    Ok(())
}

/// The folder that a path stands in.
fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    }
}

/// What is no regular file, in a word.
fn kind_of(kind: FileType) -> &'static str {
    #[cfg(unix)]
    {
        use std::os::unix::fs::FileTypeExt;
        if kind.is_fifo() {
            return "pipe";
        }
        if kind.is_socket() {
            return "socket";
        }
    }
    if kind.is_dir() { "directory" } else { "device" }
}
