//! Where the user's own files lie, and making them there so that only their owner can read
//! them.

use std::ffi::OsString;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use etcetera::AppStrategy;
use etcetera::app_strategy::{AppStrategyArgs, choose_native_strategy};

/// The variable that names another folder for all of them.
pub(crate) const HOME_VARIABLE: &str = "TRENCHER_HOME";

/// How long a change to one of them waits for another process to finish its own.
pub(crate) const WAIT: Duration = Duration::from_secs(20);
/// Between two attempts at a lock.
const PAUSE: Duration = Duration::from_millis(5);

/// Which of the platform's folders a file belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    /// What the program keeps of a person.
    Data,
    /// What a person tells the program about itself.
    Configuration,
}

impl Kind {
    fn word(self) -> &'static str {
        match self {
            Kind::Data => "data",
            Kind::Configuration => "configuration",
        }
    }
}

/// Why there is no place for a file.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub(crate) enum PlaceError {
    /// The variable is set to something else than a full path.
    #[error(
        "`{HOME_VARIABLE}` is `{}`, which depends on the working folder; give a full path such as `/home/me/trencher`",
        given.display()
    )]
    Relative {
        /// As given.
        given: PathBuf,
    },
    /// The platform tells no such folder.
    #[error(
        "this system tells no {} folder; set `{HOME_VARIABLE}` to a folder for `{file}`",
        kind.word()
    )]
    NoFolder {
        /// Which folder.
        kind: Kind,
        /// The file that was to lie there.
        file: &'static str,
    },
}

/// A file of the user's own: in the folder `TRENCHER_HOME` names, or else in the platform's
/// folder of that kind. Never in the working folder: a relative `TRENCHER_HOME` is refused.
pub(crate) fn own_file(kind: Kind, file: &'static str) -> Result<PathBuf, PlaceError> {
    path_for(std::env::var_os(HOME_VARIABLE), kind, file, || usual(kind))
}

fn path_for(
    variable: Option<OsString>,
    kind: Kind,
    file: &'static str,
    usual: impl FnOnce() -> Option<PathBuf>,
) -> Result<PathBuf, PlaceError> {
    let folder = match variable.filter(|value| !value.is_empty()) {
        Some(value) => PathBuf::from(value),
        None => usual()
            .filter(|folder| folder.is_absolute())
            .ok_or(PlaceError::NoFolder { kind, file })?,
    };
    if folder.is_absolute() {
        Ok(folder.join(file))
    } else {
        Err(PlaceError::Relative { given: folder })
    }
}

fn usual(kind: Kind) -> Option<PathBuf> {
    let arguments = AppStrategyArgs {
        top_level_domain: String::new(),
        author: String::new(),
        app_name: env!("CARGO_PKG_NAME").to_owned(),
    };
    let strategy = choose_native_strategy(arguments).ok()?;
    Some(match kind {
        Kind::Data => strategy.data_dir(),
        Kind::Configuration => strategy.config_dir(),
    })
}

/// Makes the folder (0700) with its parents where it is missing; a folder that is there keeps
/// its rights, for it may hold other things.
pub(crate) fn make_folder(folder: &Path) -> io::Result<()> {
    if folder.is_dir() {
        return Ok(());
    }
    let mut builder = fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(folder)
}

/// Takes others' rights from a file that was made or copied here with more than 0600. What a
/// link leads to keeps its own.
pub(crate) fn close_to_others(file: &Path) -> io::Result<()> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let found = fs::symlink_metadata(file)?;
        let mode = found.permissions().mode();
        if found.is_file() && mode & 0o077 != 0 {
            return fs::set_permissions(file, fs::Permissions::from_mode(mode & 0o700));
        }
    }
    #[cfg(not(unix))]
    let _ = file;
    Ok(())
}

/// Waits for the lock of that name and holds it until the returned file is dropped, also by
/// a crash or a kill. The file stays: taking it away would let two runs lock two files.
///
/// Fails with `TimedOut` when another process holds it for longer than [`WAIT`].
pub(crate) fn lock(path: &Path) -> io::Result<fs::File> {
    lock_within(path, WAIT)
}

fn lock_within(path: &Path, wait: Duration) -> io::Result<fs::File> {
    let mut options = fs::OpenOptions::new();
    options.write(true).create(true).truncate(false);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let file = options.open(path)?;
    let end = Instant::now() + wait;
    loop {
        match file.try_lock() {
            Ok(()) => return Ok(file),
            Err(fs::TryLockError::Error(error)) => return Err(error),
            Err(fs::TryLockError::WouldBlock) if Instant::now() >= end => {
                let told = format!(
                    "another run has been changing it for {} s; try again when it is done",
                    wait.as_secs()
                );
                return Err(io::Error::new(io::ErrorKind::TimedOut, told));
            }
            Err(fs::TryLockError::WouldBlock) => std::thread::sleep(PAUSE),
        }
    }
}

/// Makes a new name in a folder last through a power cut.
pub(crate) fn sync_folder(folder: &Path) -> io::Result<()> {
    #[cfg(unix)]
    fs::File::open(folder)?.sync_all()?;
    #[cfg(not(unix))]
    let _ = folder;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn with(variable: Option<&str>, usual: Option<&str>) -> Result<PathBuf, PlaceError> {
        path_for(variable.map(OsString::from), Kind::Data, "x.db", || {
            usual.map(PathBuf::from)
        })
    }

    #[test]
    fn the_variable_wins_and_an_empty_one_counts_as_unset() {
        let own = with(Some("/somewhere/mine"), Some("/data/t")).unwrap();
        assert_eq!(own, Path::new("/somewhere/mine/x.db"));
        for unset in [None, Some("")] {
            let usual = with(unset, Some("/data/t")).unwrap();
            assert_eq!(usual, Path::new("/data/t/x.db"));
        }
    }

    #[test]
    fn the_working_folder_is_never_taken() {
        for relative in [".", "logs", "../x"] {
            let error = with(Some(relative), Some("/data/t")).unwrap_err();
            assert!(error.to_string().contains(relative), "{error}");
        }
        for usual in [Some("data"), None] {
            let error = with(None, usual).unwrap_err().to_string();
            assert!(
                error.contains("x.db") && error.contains("data folder"),
                "{error}"
            );
        }
    }

    #[test]
    fn a_lock_is_for_one_and_free_when_dropped() {
        let root = tempfile::tempdir().unwrap();
        let path = root.path().join(".lock");
        let held = lock(&path).unwrap();
        let error = lock_within(&path, Duration::from_millis(20)).unwrap_err();
        assert_eq!(error.kind(), io::ErrorKind::TimedOut);
        assert!(error.to_string().contains("another run"), "{error}");
        drop(held);
        lock_within(&path, Duration::from_millis(20)).unwrap();
    }

    #[cfg(unix)]
    #[test]
    fn a_new_folder_is_closed_and_an_old_one_left_as_it_is() {
        use std::os::unix::fs::PermissionsExt;
        let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
        let root = tempfile::tempdir().unwrap();
        let made = root.path().join("a/b");
        make_folder(&made).unwrap();
        assert_eq!(mode(&made), 0o700);
        fs::set_permissions(&made, fs::Permissions::from_mode(0o755)).unwrap();
        make_folder(&made).unwrap();
        assert_eq!(mode(&made), 0o755);
        let file = made.join("x");
        fs::write(&file, "x").unwrap();
        fs::set_permissions(&file, fs::Permissions::from_mode(0o644)).unwrap();
        close_to_others(&file).unwrap();
        assert_eq!(mode(&file), 0o600);
    }
}
