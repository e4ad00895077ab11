//! The file of a person's corrections: read whole, written whole, by one run at a time, its
//! owner's only.

use super::place::{Kind, PlaceError, close_to_others, lock, make_folder, own_file, sync_folder};
use super::{Holds, LibraryError, read_text_of};
use crate::matching::{Corrections, CorrectionsError};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

const FILE_NAME: &str = "corrections.csv";
/// Held while the file is changed: the file itself is replaced, so a lock on it would not
/// keep the next run out.
const LOCK_NAME: &str = ".corrections.lock";

/// Why the corrections cannot be read or kept. What was there before is still there.
#[derive(Debug, thiserror::Error)]
pub(crate) enum CorrectionsFileError {
    /// There is no place for the file.
    #[error(transparent)]
    Place(#[from] PlaceError),
    /// The file cannot be read.
    #[error("cannot read your corrections in `{}`: {source}", path.display())]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        source: io::Error,
    },
    /// The file cannot be written.
    #[error("cannot keep the correction in `{}`: {source}", path.display())]
    Unwritable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        source: io::Error,
    },
    /// A line of the file cannot be used.
    #[error(
        "your corrections in `{}`: {source}\n  = mend or take out the line, or move the file away",
        path.display()
    )]
    Damaged {
        /// The file.
        path: PathBuf,
        /// Which line, and what is wrong with it.
        source: CorrectionsError,
    },
}

/// The file of a person's corrections.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct CorrectionsFile {
    path: PathBuf,
}

impl CorrectionsFile {
    /// The person's own: in the folder `TRENCHER_HOME` names, or in the platform's
    /// configuration folder. It need not be there yet.
    pub(crate) fn own() -> Result<Self, PlaceError> {
        let path = own_file(Kind::Configuration, FILE_NAME)?;
        Ok(Self { path })
    }

    /// A file of any name.
    #[cfg(test)]
    pub(crate) fn at(path: PathBuf) -> Self {
        Self { path }
    }

    /// Where it lies.
    #[must_use]
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    /// The corrections in it; none where there is no file.
    pub(crate) fn load(&self) -> Result<Corrections, CorrectionsFileError> {
        let text = match read_text_of(&self.path, Holds::Corrections) {
            Ok(text) => text,
            Err(LibraryError::Unreadable { source, .. })
                if source.kind() == io::ErrorKind::NotFound =>
            {
                return Ok(Corrections::default());
            }
            Err(error) => {
                let path = self.path.clone();
                let source = match error {
                    LibraryError::Unreadable { source, .. } => source,
                    other => io::Error::other(other.to_string()),
                };
                return Err(CorrectionsFileError::Unreadable { path, source });
            }
        };
        Corrections::parse(&text).map_err(|source| CorrectionsFileError::Damaged {
            path: self.path.clone(),
            source,
        })
    }

    /// Reads the file, changes what is in it, and writes it anew.
    ///
    /// A power cut leaves the old file or the new one. Runs that change it at the same time
    /// take turns, so that what each keeps is kept.
    pub(crate) fn change<T>(
        &self,
        change: impl FnOnce(&mut Corrections) -> T,
    ) -> Result<T, CorrectionsFileError> {
        let unwritable = |source| CorrectionsFileError::Unwritable {
            path: self.path.clone(),
            source,
        };
        // A link to a file kept elsewhere stays a link.
        let path = std::fs::canonicalize(&self.path).unwrap_or_else(|_| self.path.clone());
        let folder = path.parent().unwrap_or(Path::new("."));
        make_folder(folder).map_err(unwritable)?;
        let _turn = lock(&folder.join(LOCK_NAME)).map_err(unwritable)?;
        let mut corrections = self.load()?;
        let result = change(&mut corrections);
        write(&path, folder, &corrections.to_text()).map_err(unwritable)?;
        Ok(result)
    }
}

/// Puts `text` in the place of the file, whole or not at all.
fn write(path: &Path, folder: &Path, text: &str) -> io::Result<()> {
    let mut draft = tempfile::Builder::new()
        .prefix(".corrections-")
        .tempfile_in(folder)?;
    draft.write_all(text.as_bytes())?;
    draft.as_file().sync_all()?;
    close_to_others(draft.path())?;
    draft.persist(path).map_err(|lost| lost.error)?;
    sync_folder(folder)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::matching::Correction;
    use jiff::civil::date;

    fn none(words: &str) -> Correction {
        Correction::to_no_food(words, date(2026, 11, 25))
    }

    #[test]
    fn a_missing_file_holds_none_and_is_made_with_its_folder() {
        let root = tempfile::tempdir().unwrap();
        let file = CorrectionsFile::at(root.path().join("a/b/corrections.csv"));
        assert!(file.load().unwrap().list().is_empty());
        file.change(|c| c.add(none("x"))).unwrap();
        file.change(|c| c.add(none("y"))).unwrap();
        assert_eq!(file.load().unwrap().list().len(), 2);
        let folder = std::fs::read_dir(root.path().join("a/b")).unwrap();
        let mut names: Vec<_> = folder.map(|entry| entry.unwrap().file_name()).collect();
        names.sort();
        assert_eq!(names, [LOCK_NAME, FILE_NAME], "a draft was left behind");
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            let mode = std::fs::metadata(file.path()).unwrap().permissions().mode();
            assert_eq!(mode & 0o777, 0o600);
        }
    }

    #[test]
    fn a_damaged_file_is_named_with_its_line_and_left_alone() {
        let root = tempfile::tempdir().unwrap();
        let file = CorrectionsFile::at(root.path().join("corrections.csv"));
        let text = "words,code,food,date\nchips,1,x,2026-11-25\nbisc";
        std::fs::write(file.path(), text).unwrap();
        let error = file.change(|c| c.add(none("x"))).unwrap_err().to_string();
        assert!(
            error.contains("corrections.csv") && error.contains("line 3 does not"),
            "{error}"
        );
        assert_eq!(std::fs::read_to_string(file.path()).unwrap(), text);
    }

    #[cfg(unix)]
    #[test]
    fn a_link_stays_a_link() {
        let root = tempfile::tempdir().unwrap();
        let kept = root.path().join("kept.csv");
        std::fs::write(&kept, "").unwrap();
        let file = CorrectionsFile::at(root.path().join("corrections.csv"));
        std::os::unix::fs::symlink(&kept, file.path()).unwrap();
        file.change(|c| c.add(none("x"))).unwrap();
        assert!(file.path().is_symlink());
        assert!(std::fs::read_to_string(&kept).unwrap().contains("x,,none"));
    }
}
