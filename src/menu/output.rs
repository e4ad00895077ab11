//! Where rows go: standard output or a file, packed or not, never half a row if it can be
//! helped.

use crate::store::target::{Draft, TargetError};
use flate2::Compression;
use flate2::write::GzEncoder;
use std::fs::File;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Rows on their way out.
pub(crate) struct Output {
    to: To,
    /// The file, until it is finished.
    draft: Option<Draft>,
    /// Bytes of whole rows in an unpacked file.
    whole: u64,
}

enum To {
    Standard(std::io::Stdout),
    File(File),
    Packed(Box<GzEncoder<File>>),
    #[cfg(feature = "parquet")]
    Parquet(Box<super::parquet_out::ParquetRows>),
}

impl Output {
    /// Standard output.
    pub(crate) fn standard() -> Self {
        Self {
            to: To::Standard(std::io::stdout()),
            draft: None,
            whole: 0,
        }
    }

    /// A file; packed when its name ends in `.gz`. With `go_on`, rows are added to what an
    /// earlier run left under the working name; with `replace`, a file that is there goes
    /// when all is done.
    ///
    /// Fails when the file cannot be made, or when there is nothing to go on with.
    pub(crate) fn file(path: &Path, go_on: bool, replace: bool) -> Result<Self, TargetError> {
        let (draft, file) = if go_on {
            Draft::go_on(path, replace)?
        } else {
            Draft::begin(path, replace)?
        };
        let about = file.metadata().map_err(|source| TargetError::Io {
            path: path.to_owned(),
            source,
        })?;
        let packed = path.extension().is_some_and(|e| e == "gz");
        Ok(Self {
            to: if packed {
                To::Packed(Box::new(GzEncoder::new(file, Compression::default())))
            } else {
                To::File(file)
            },
            draft: Some(draft),
            whole: about.len(),
        })
    }

    /// A Parquet file; its rows are given as CSV. Even an unfinished one can be read.
    #[cfg(feature = "parquet")]
    pub(crate) fn parquet(path: &Path, replace: bool) -> Result<Self, TargetError> {
        let (draft, file) = Draft::begin(path, replace)?;
        let rows = super::parquet_out::ParquetRows::new(file);
        let rows = rows.map_err(|source| TargetError::Io {
            path: path.to_owned(),
            source,
        })?;
        Ok(Self {
            to: To::Parquet(Box::new(rows)),
            draft: Some(draft),
            whole: 0,
        })
    }

    /// Writes whole rows. When that fails, a file is cut back to the rows before.
    pub(crate) fn rows(&mut self, bytes: &[u8]) -> std::io::Result<()> {
        let written = match &mut self.to {
            To::Standard(out) => out.lock().write_all(bytes),
            To::File(file) => file.write_all(bytes),
            To::Packed(encoder) => encoder.write_all(bytes),
            #[cfg(feature = "parquet")]
            To::Parquet(rows) => rows.rows(bytes),
        };
        match (&written, &self.to) {
            (Ok(()), _) => self.whole += bytes.len() as u64,
            (Err(_), To::File(file)) if self.draft.as_ref().is_some_and(Draft::is_file) => {
                // The first error is the one to tell.
                let _ = file.set_len(self.whole);
            }
            _ => {}
        }
        written
    }

    /// Ends the output. A finished file takes its own name; an unfinished one keeps its
    /// working name, which is returned.
    pub(crate) fn end(self, finished: bool) -> std::io::Result<Option<PathBuf>> {
        let on_disk = self.draft.as_ref().is_some_and(Draft::is_file);
        let ended = match self.to {
            To::Standard(out) => out.lock().flush(),
            // A device keeps nothing that could be made sure of.
            To::File(file) if on_disk => file.sync_all(),
            To::File(mut file) => file.flush(),
            To::Packed(encoder) => encoder.finish().and_then(|mut file| {
                if on_disk {
                    file.sync_all()
                } else {
                    file.flush()
                }
            }),
            #[cfg(feature = "parquet")]
            To::Parquet(rows) => rows.finish(),
        };
        match self.draft {
            Some(draft) if finished && ended.is_ok() => draft.finish().map(|()| None),
            // What came before a fault is kept.
            Some(draft) => {
                let left = draft.leave();
                ended.map(|()| left)
            }
            None => ended.map(|()| None),
        }
    }
}
