//! Dish files in folders.

use super::library::{Entry, Library};
use std::path::{Path, PathBuf};

/// Why the library cannot be used.
#[derive(Debug, thiserror::Error)]
pub(crate) enum LibraryError {
    /// A folder or file cannot be read.
    #[error("cannot read {path}: {source}")]
    Unreadable {
        /// Which.
        path: PathBuf,
        /// What the system says.
        source: std::io::Error,
    },
    /// A file cannot be written.
    #[error("cannot write {path}: {source}")]
    Unwritable {
        /// Which.
        path: PathBuf,
        /// What the system says.
        source: std::io::Error,
    },
    /// A file is too large for what it should hold.
    #[error("{path} is larger than {} MB: {}", holds.most_mb(), holds.words())]
    TooLarge {
        /// Which.
        path: PathBuf,
        /// What it should hold.
        holds: Holds,
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

/// What a text file holds, which says how large it may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Holds {
    /// One dish, or the lines of one.
    Dish,
    /// A standard.
    Standard,
    /// A person's own foods.
    Foods,
    /// A person's corrections.
    Corrections,
}

impl Holds {
    /// The most, MB.
    const fn most_mb(self) -> u64 {
        match self {
            Self::Dish | Self::Standard => 1,
            // 20,000 foods with every figure, name and measure.
            Self::Foods => 32,
            Self::Corrections => 16,
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Self::Dish => "a file of this kind holds one dish",
            Self::Standard => "a file of this kind holds one standard",
            Self::Foods => "a table holds 20,000 foods at most, which take less",
            Self::Corrections => "this many corrections cannot be",
        }
    }
}

impl Library {
    /// The built-in dishes and, before them, every `.toml` file of a folder.
    pub(crate) fn with_folder(folder: Option<&Path>) -> Result<Self, LibraryError> {
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

/// Reads the text file of a dish, of at most 1 MB.
pub(crate) fn read_text(path: &Path) -> Result<String, LibraryError> {
    read_text_of(path, Holds::Dish)
}

/// Reads a text file of at most the size that what it holds may have; a pipe or a device
/// gives no more than that either.
pub(crate) fn read_text_of(path: &Path, holds: Holds) -> Result<String, LibraryError> {
    use std::io::Read;
    let unreadable = |source| LibraryError::Unreadable {
        path: path.to_owned(),
        source,
    };
    let file = std::fs::File::open(path).map_err(unreadable)?;
    let most = holds.most_mb() << 20;
    let mut bytes = Vec::new();
    let read = file.take(most + 1).read_to_end(&mut bytes);
    read.map_err(unreadable)?;
    if bytes.len() as u64 > most {
        return Err(LibraryError::TooLarge {
            path: path.to_owned(),
            holds,
        });
    }
    String::from_utf8(bytes).map_err(|e| LibraryError::NotText {
        path: path.to_owned(),
        at: e.utf8_error().valid_up_to(),
    })
}

/// Writes a new file whole or not at all; never over another.
pub(crate) fn write_new(path: &Path, text: &str) -> Result<(), LibraryError> {
    use std::io::{Error, ErrorKind, Write};
    let write = || -> std::io::Result<()> {
        let folder = path.parent().filter(|p| !p.as_os_str().is_empty());
        let mut builder = tempfile::Builder::new();
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            // As any new file: what the user's mask leaves of this.
            builder.permissions(std::fs::Permissions::from_mode(0o666));
        }
        let draft = builder
            .prefix(".dish-")
            .tempfile_in(folder.unwrap_or(Path::new(".")));
        let mut draft = draft?;
        draft.write_all(text.as_bytes())?;
        draft.as_file().sync_all()?;
        draft.persist_noclobber(path).map_err(Error::from)?;
        Ok(())
    };
    write().map_err(|source| match source.kind() {
        ErrorKind::AlreadyExists => LibraryError::Exists {
            path: path.to_owned(),
        },
        _ => LibraryError::Unwritable {
            path: path.to_owned(),
            source,
        },
    })
}

/// The `.toml` files of a folder, by name.
pub(crate) fn toml_files(folder: &Path) -> Result<Vec<PathBuf>, LibraryError> {
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
        name: head.name.unwrap_or_else(|| slug.replace('-', " ")).into(),
        kind: head.kind.unwrap_or_default().into(),
        slug: slug.into(),
        text: text.into(),
        path: Some(path.to_owned()),
    })
}
