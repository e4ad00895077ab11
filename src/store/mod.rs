//! The dish library: the dishes that come with the program, and folders of dish files.

mod corrections_file;
pub mod place;
pub mod target;

pub use corrections_file::{CorrectionsFile, CorrectionsFileError};

use crate::words::words;
use std::path::{Path, PathBuf};

include!(concat!(env!("OUT_DIR"), "/library.rs"));

/// Largest dish file that is read, bytes.
const LARGEST_FILE: u64 = 1 << 20;

/// A dish file in the library, unread.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// File name without ending.
    pub slug: String,
    /// Name of the dish.
    pub name: String,
    /// Kind of dish.
    pub kind: String,
    /// The file's text.
    pub text: String,
    /// The file, for a dish that does not come with the program.
    pub path: Option<PathBuf>,
}

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

/// What a name found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Hit {
    /// The dish of that name.
    Exact(Entry),
    /// A dish whose name is nearly that.
    Near(Entry),
    /// Nothing near.
    None,
}

/// Dishes to choose from: a folder's first, then those that come with the program.
#[derive(Debug, Clone)]
pub struct Library {
    entries: Vec<Entry>,
}

impl Library {
    /// The dishes that come with the program.
    #[must_use]
    pub fn built_in() -> Self {
        let entries = DISHES
            .iter()
            .map(|(slug, name, kind, text)| Entry {
                slug: (*slug).to_owned(),
                name: (*name).to_owned(),
                kind: (*kind).to_owned(),
                text: (*text).to_owned(),
                path: None,
            })
            .collect();
        Self { entries }
    }

    /// The built-in dishes and, before them, every `.toml` file of a folder.
    pub fn with_folder(folder: Option<&Path>) -> Result<Self, LibraryError> {
        let mut library = Self::built_in();
        if let Some(folder) = folder {
            let mut own = Vec::new();
            for path in toml_files(folder)? {
                own.push(entry(&path)?);
            }
            own.append(&mut library.entries);
            library.entries = own;
        }
        Ok(library)
    }

    /// All dishes in order.
    #[must_use]
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// Finds a dish by slug, by name, or by nearly its name (every word of the shorter
    /// name in the longer one but for spelling).
    #[must_use]
    pub fn find(&self, name: &str) -> Hit {
        let asked = words(name);
        let exact = self
            .entries
            .iter()
            .find(|e| e.slug == name || words(&e.name) == asked);
        if let Some(entry) = exact {
            return Hit::Exact(entry.clone());
        }
        let count = counts(name);
        let best = self
            .entries
            .iter()
            .filter(|e| count.is_empty() || counts(&e.name) == count)
            .map(|e| (likeness(&asked, &words(&e.name)), e))
            .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.name.cmp(&a.1.name)));
        match best {
            Some((score, entry)) if score >= NEAR => Hit::Near(entry.clone()),
            _ => Hit::None,
        }
    }

    /// Dishes whose name is nearly that of `entry`.
    #[must_use]
    pub fn near_duplicates(&self, entry: &Entry) -> Vec<&Entry> {
        let own = words(&entry.name);
        self.entries
            .iter()
            .filter(|e| e.slug != entry.slug && likeness(&own, &words(&e.name)) >= 0.95)
            .collect()
    }
}

/// Likeness from which a name is taken for another.
const NEAR: f64 = 0.8;

/// Numbers and shares in a name, numbers in figures: `10 french fries` is not one serving of
/// French fries.
fn counts(name: &str) -> Vec<String> {
    const WORDS: [&str; 12] = [
        "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
        "twelve",
    ];
    let figures = |word: &str| {
        let said = WORDS.iter().position(|w| *w == word);
        said.map_or_else(|| word.to_owned(), |at| (at + 1).to_string())
    };
    name.to_lowercase()
        .split_whitespace()
        .map(figures)
        .filter(|word| {
            word.starts_with(|c: char| c.is_ascii_digit())
                || matches!(word.as_str(), "half" | "quarter" | "third")
        })
        .collect()
}

/// Share of words in common, each by its spelling, from 0 to 1.
fn likeness(a: &[String], b: &[String]) -> f64 {
    let plain = |list: &[String]| -> Vec<String> {
        list.iter()
            .filter(|w| !matches!(w.as_str(), "with" | "and" | "a" | "the"))
            .cloned()
            .collect()
    };
    let (a, b) = (plain(a), plain(b));
    if a.is_empty() || b.is_empty() {
        return 0.0;
    }
    let best = |word: &String, others: &[String]| {
        others
            .iter()
            .map(|o| strsim::jaro_winkler(word, o))
            .fold(0.0, f64::max)
    };
    let met = |from: &[String], to: &[String]| {
        from.iter()
            .map(|w| best(w, to))
            .map(|s| if s > 0.84 { s } else { 0.0 })
            .sum::<f64>()
    };
    (met(&a, &b) + met(&b, &a)) / (a.len() + b.len()) as f64
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

/// File name for a dish's name: lower-case words joined by hyphens.
#[must_use]
pub fn slug(name: &str) -> String {
    crate::words::split(name).join("-").replace('%', "")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dishes_are_found_by_name_slug_and_nearly() {
        let library = Library::built_in();
        assert!(library.entries().len() >= 60);
        assert!(matches!(
            library.find("chicken Caesar salad"),
            Hit::Exact(_)
        ));
        assert!(matches!(
            library.find("chicken-caesar-salad"),
            Hit::Exact(_)
        ));
        assert!(matches!(library.find("chiken cesar salad"), Hit::Near(_)));
        assert_eq!(library.find("xylophone soufflé"), Hit::None);
    }

    #[test]
    fn slugs_are_plain() {
        assert_eq!(slug("Crème brûlée & co."), "creme-brulee-and-co");
    }
}
