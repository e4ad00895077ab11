//! The dish library: the dishes that come with the program, and folders of dish files; where
//! a person's own files lie.

#[cfg(feature = "cli")]
mod corrections_file;
#[cfg(feature = "cli")]
mod folder;
mod library;
#[cfg(feature = "cli")]
pub mod place;
pub mod target;

#[cfg(feature = "cli")]
pub use corrections_file::{CorrectionsFile, CorrectionsFileError};
<<<<<<< HEAD
#[cfg(feature = "cli")]
pub use folder::{LibraryError, read_text, toml_files, write_new};
pub use library::{Entry, Hit, Library, slug};
=======

use crate::words::words;
use std::path::{Path, PathBuf};

include!(concat!(env!("OUT_DIR"), "/library.rs"));

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
            .find(|e| e.slug == name || e.name == name)
            // A name in letters of another script has none of our words, as many others.
            .or_else(|| {
                let mut all = self.entries.iter().filter(|_| !asked.is_empty());
                all.find(|e| words(&e.name) == asked)
            });
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

/// What a text file holds, which says how large it may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holds {
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

/// Reads the text file of a dish, of at most 1 MB.
pub fn read_text(path: &Path) -> Result<String, LibraryError> {
    read_text_of(path, Holds::Dish)
}

/// Reads a text file of at most the size that what it holds may have; a pipe or a device
/// gives no more than that either.
pub fn read_text_of(path: &Path, holds: Holds) -> Result<String, LibraryError> {
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
pub fn write_new(path: &Path, text: &str) -> Result<(), LibraryError> {
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

/// Longest file name of a dish, signs.
const LONGEST_SLUG: usize = 80;

/// File name for a dish's name: lower-case words joined by hyphens, in its own letters where
/// it has none of ours; empty when it has no letter of any script.
#[must_use]
pub fn slug(name: &str) -> String {
    let ours = crate::words::split(name).join("-").replace('%', "");
    let slug = if ours.is_empty() {
        in_own_letters(name)
    } else {
        ours
    };
    slug.chars().take(LONGEST_SLUG).collect()
}

fn in_own_letters(name: &str) -> String {
    let words = name.split(|c: char| !c.is_alphanumeric() && !is_mark(c));
    let words = words.filter(|word| word.contains(char::is_alphanumeric));
    words.collect::<Vec<_>>().join("-").to_lowercase()
}

/// Whether a sign belongs to the letter before it, as vowels do in many scripts.
fn is_mark(c: char) -> bool {
    unicode_normalization::char::is_combining_mark(c) || matches!(c, '\u{200c}' | '\u{200d}')
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
        assert_eq!(slug("親子丼 (大)"), "親子丼-大");
        assert_eq!(slug("Борщ с мясом"), "борщ-с-мясом");
        assert_eq!(slug("समोसा चाट"), "समोसा-चाट");
        assert_eq!(slug("../.. /"), "");
        assert!(slug(&"ж".repeat(5_000)).len() < 200);
    }
}
>>>>>>> 3024681 (Backups of any size stream in and out; what reaches nobody says what was kept; limits are named for what is read)
