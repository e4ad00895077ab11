//! Where rows go: standard output or a file, packed or not, never half a row if it can be
//! helped.
//!
//! A file is written beside its place under the name `OUT.partial` and takes its own name
//! when all is done. What stands in it at any time is whole rows, so that a run that was
//! stopped can be gone on with.

use flate2::Compression;
use flate2::write::GzEncoder;
use std::fs::{File, OpenOptions};
use std::io::Write;
use std::path::{Path, PathBuf};

/// Rows on their way out.
pub struct Output {
    to: To,
    /// The file under its working name and under its own.
    names: Option<(PathBuf, PathBuf)>,
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
    #[must_use]
    pub fn standard() -> Self {
        Self {
            to: To::Standard(std::io::stdout()),
            names: None,
            whole: 0,
        }
    }

    /// A file; packed when its name ends in `.gz`. With `go_on`, rows are added to what an
    /// earlier run left under the working name.
    ///
    /// Fails when the file cannot be made, or when there is nothing to go on with.
    pub fn file(path: &Path, go_on: bool) -> std::io::Result<Self> {
        let packed = path.extension().is_some_and(|e| e == "gz");
        // A device or a pipe has no name to take when all is done.
        let special = std::fs::metadata(path).is_ok_and(|m| !m.is_file());
        let working = if special {
            path.to_owned()
        } else {
            working_name(path)
        };
        let mut options = OpenOptions::new();
        if go_on {
            options.append(true);
        } else {
            options.write(true).create(!special).truncate(!special);
        }
        let file = options.open(&working)?;
        let whole = file.metadata()?.len();
        Ok(Self {
            to: if packed {
                To::Packed(Box::new(GzEncoder::new(file, Compression::default())))
            } else {
                To::File(file)
            },
            names: (!special).then(|| (working, path.to_owned())),
            whole,
        })
    }

    /// A Parquet file; its rows are given as CSV. Even an unfinished one can be read.
    #[cfg(feature = "parquet")]
    pub fn parquet(path: &Path) -> std::io::Result<Self> {
        let working = working_name(path);
        let rows = super::parquet_out::ParquetRows::new(File::create(&working)?)?;
        Ok(Self {
            to: To::Parquet(Box::new(rows)),
            names: Some((working, path.to_owned())),
            whole: 0,
        })
    }

    /// Writes whole rows. When that fails, a file is cut back to the rows before.
    pub fn rows(&mut self, bytes: &[u8]) -> std::io::Result<()> {
        let written = match &mut self.to {
            To::Standard(out) => out.lock().write_all(bytes),
            To::File(file) => file.write_all(bytes),
            To::Packed(encoder) => encoder.write_all(bytes),
            #[cfg(feature = "parquet")]
            To::Parquet(rows) => rows.rows(bytes),
        };
        match (&written, &self.to) {
            (Ok(()), _) => self.whole += bytes.len() as u64,
            (Err(_), To::File(file)) if self.names.is_some() => {
                // The first error is the one to tell.
                let _ = file.set_len(self.whole);
            }
            _ => {}
        }
        written
    }

    /// Ends the output. A finished file takes its own name; an unfinished one keeps its
    /// working name, which is returned.
    pub fn end(self, finished: bool) -> std::io::Result<Option<PathBuf>> {
        match self.to {
            To::Standard(out) => out.lock().flush()?,
            To::File(mut file) => file.flush()?,
            To::Packed(encoder) => encoder.finish()?.flush()?,
            #[cfg(feature = "parquet")]
            To::Parquet(rows) => rows.finish()?,
        }
        match self.names {
            Some((working, own)) if finished => {
                std::fs::rename(&working, own)?;
                Ok(None)
            }
            Some((working, _)) => Ok(Some(working)),
            None => Ok(None),
        }
    }
}

/// The name that a file has until it is finished.
#[must_use]
pub fn working_name(path: &Path) -> PathBuf {
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(".partial");
    path.with_file_name(name)
}
