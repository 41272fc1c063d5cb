//! Folders that are made for files, and taken away again when the files are not written.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::SaveError;
use crate::error::plain_reason;

/// Folders that were made, removed when dropped unless [`NewFolders::keep`] is called.
#[derive(Debug, Default)]
pub(super) struct NewFolders(Vec<PathBuf>);

impl NewFolders {
    /// Makes a folder and those above it, where there are none.
    pub fn make(&mut self, folder: &Path) -> Result<(), SaveError> {
        let missing =
            folder.ancestors().take_while(|above| !above.as_os_str().is_empty() && !above.is_dir());
        let mut missing: Vec<&Path> = missing.collect();
        missing.reverse();
        for one in missing {
            match fs::create_dir(one) {
                Ok(()) => self.0.push(one.to_owned()),
                Err(_) if one.is_dir() => {}
                Err(error) => {
                    let reason = match error.kind() {
                        io::ErrorKind::AlreadyExists => "a file of that name is there".to_owned(),
                        _ => plain_reason(&error),
                    };
                    return Err(SaveError::Folder { path: folder.to_owned(), reason });
                }
            }
        }
        Ok(())
    }

    /// Leaves them where they are.
    pub fn keep(mut self) {
        self.0.clear();
    }
}

impl Drop for NewFolders {
    fn drop(&mut self) {
        for folder in self.0.iter().rev() {
            // One that others have put files into stays.
            let _ = fs::remove_dir(folder);
        }
    }
}
