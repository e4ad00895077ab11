//! Dish files in folders.

use super::library::{Entry, Library};
use std::path::{Path, PathBuf};

/// Largest dish file that is read, bytes.
const LARGEST_FILE: u64 = 1 << 20;

/// Why the library cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum LibraryError {
    /// A folder or file cannot be read.
    #[error("cannot read {path}: {source}")]
    Unreadable {
        /// Which.
        path: PathBuf,
        /// What the system says.
        source: std::io::Error,
    },
    /// A file is too large for a dish.
    #[error("{path} is larger than 1 MB: a dish file holds one dish")]
    TooLarge {
        /// Which.
        path: PathBuf,
    },
    /// A file is not UTF-8 text.
    #[error("{path} is not UTF-8 text (first wrong byte at {at}): save it as UTF-8")]
    NotText {
        /// Which.
        path: PathBuf,
        /// Offset of the first wrong byte, from 0.
        at: usize,
    },
    /// A dish of this name is there already.
    #[error("{path} exists already: choose another name, or remove it first")]
    Exists {
        /// Which.
        path: PathBuf,
    },
}

impl Library {
    /// The built-in dishes and, before them, every `.toml` file of a folder.
    pub fn with_folder(folder: Option<&Path>) -> Result<Self, LibraryError> {
        let Some(folder) = folder else {
            return Ok(Self::built_in());
        };
        let files = toml_files(folder)?;
        let own = files
            .iter()
            .map(|path| entry(path))
            .collect::<Result<_, _>>()?;
        Ok(Self::built_in().after(own))
    }
}

/// Reads a text file of at most 1 MB.
pub fn read_text(path: &Path) -> Result<String, LibraryError> {
    let unreadable = |source| LibraryError::Unreadable {
        path: path.to_owned(),
        source,
    };
    let length = std::fs::metadata(path).map_err(unreadable)?.len();
    if length > LARGEST_FILE {
        return Err(LibraryError::TooLarge {
            path: path.to_owned(),
        });
    }
    let bytes = std::fs::read(path).map_err(unreadable)?;
    String::from_utf8(bytes).map_err(|e| LibraryError::NotText {
        path: path.to_owned(),
        at: e.utf8_error().valid_up_to(),
    })
}

/// Writes a new file whole or not at all; never over another.
pub fn write_new(path: &Path, text: &str) -> Result<(), LibraryError> {
    use std::io::Write;
    if path.exists() {
        return Err(LibraryError::Exists {
            path: path.to_owned(),
        });
    }
    let unreadable = |source| LibraryError::Unreadable {
        path: path.to_owned(),
        source,
    };
    let partial = path.with_extension("toml.partial");
    let write = || -> std::io::Result<()> {
        let mut file = std::fs::File::create_new(&partial)?;
        file.write_all(text.as_bytes())?;
        file.sync_all()?;
        std::fs::rename(&partial, path)
    };
    write().map_err(|error| {
        let _ = std::fs::remove_file(&partial);
        unreadable(error)
    })
}

/// The `.toml` files of a folder, by name.
pub fn toml_files(folder: &Path) -> Result<Vec<PathBuf>, LibraryError> {
    let unreadable = |source| LibraryError::Unreadable {
        path: folder.to_owned(),
        source,
    };
    let mut files = Vec::new();
    for item in std::fs::read_dir(folder).map_err(unreadable)? {
        let path = item.map_err(unreadable)?.path();
        if path.extension().is_some_and(|e| e == "toml") {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
}

/// Name and kind of a dish file, read leniently: the reader reports what is wrong with it.
fn entry(path: &Path) -> Result<Entry, LibraryError> {
    #[derive(serde::Deserialize)]
    struct Head {
        name: Option<String>,
        kind: Option<String>,
    }
    let text = read_text(path)?;
    let slug = path
        .file_stem()
        .map(|s| s.to_string_lossy().into_owned())
        .unwrap_or_default();
    let head: Head = toml::from_str(&text).unwrap_or(Head {
        name: None,
        kind: None,
    });
    Ok(Entry {
        name: head.name.unwrap_or_else(|| slug.replace('-', " ")),
        kind: head.kind.unwrap_or_default(),
        slug,
        text,
        path: Some(path.to_owned()),
    })
}
