//! Files that are to be written: looked at before anything is, drawn up beside their place,
//! and put there whole. What is not a file is written to and never replaced.

use std::fs::{File, OpenOptions, TryLockError};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Why a file cannot be written where it was asked for. Nothing was changed.
#[derive(Debug, thiserror::Error)]
pub(crate) enum TargetError {
    /// There is one already.
    #[error(
        "`{}` is there already\n  = give another name, or --force to replace it", path.display()
    )]
    Exists {
        /// The file.
        path: PathBuf,
    },
    /// A folder stands there.
    #[error("`{}` is a folder\n  = name a file in it", path.display())]
    Folder {
        /// The folder.
        path: PathBuf,
    },
    /// A link that leads to no file.
    #[error(
        "`{}` is a link to a file that is not there\n  = name the file itself, or take the link away",
        path.display()
    )]
    DeadLink {
        /// The link.
        path: PathBuf,
    },
    /// What an earlier run left when it was stopped.
    #[error(
        "`{}` is there, left by a run that was stopped\n  = go on with it by --resume, take it away, or give --force to begin anew",
        path.display()
    )]
    LeftOver {
        /// The draft.
        path: PathBuf,
    },
    /// Another run is writing it now.
    #[error("another run is writing `{}` now\n  = wait for it, or give another name", path.display())]
    Busy {
        /// The draft.
        path: PathBuf,
    },
    /// Nothing to go on with.
    #[error("there is no {} to go on with\n  = leave --resume out to begin anew", path.display())]
    NothingLeft {
        /// The draft that is missing.
        path: PathBuf,
    },
    /// Two names of one file.
    #[error("{first} and {second} are the same file, `{}`\n  = give another name", path.display())]
    Same {
        /// What the one is for.
        first: &'static str,
        /// What the other is for.
        second: &'static str,
        /// The file.
        path: PathBuf,
    },
    /// The system refused.
    #[error("cannot write {}: {source}", path.display())]
    Io {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
}

impl TargetError {
    /// Whether the system or another run is in the way, and not the request itself.
    #[must_use]
    pub(crate) fn is_of_the_system(&self) -> bool {
        matches!(self, Self::Io { .. } | Self::Busy { .. })
    }
}

/// Where a file is to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Target {
    /// A device or a pipe: written to as it is.
    Special(PathBuf),
    /// A file, by its own name: where the path was a link, what it leads to.
    File {
        /// Its name.
        path: PathBuf,
        /// Whether there is one already.
        exists: bool,
    },
}

impl Target {
    /// Looks at a path. Fails on folders and on links that lead nowhere.
    pub(crate) fn of(path: &Path) -> Result<Self, TargetError> {
        let io = |source| TargetError::Io {
            path: path.to_owned(),
            source,
        };
        let own = match std::fs::symlink_metadata(path) {
            Err(error) if error.kind() == ErrorKind::NotFound => {
                return Ok(Self::File {
                    path: path.to_owned(),
                    exists: false,
                });
            }
            Err(error) => return Err(io(error)),
            // What standard output and its like lead to was opened by whoever called us.
            Ok(_) if path.starts_with("/dev") || path.starts_with("/proc") => {
                return Ok(Self::Special(path.to_owned()));
            }
            Ok(found) if found.is_symlink() => match std::fs::canonicalize(path) {
                Ok(own) => own,
                Err(error) if error.kind() == ErrorKind::NotFound => {
                    let path = path.to_owned();
                    return Err(TargetError::DeadLink { path });
                }
                Err(error) => return Err(io(error)),
            },
            Ok(_) => path.to_owned(),
        };
        let found = std::fs::metadata(&own).map_err(io)?;
        if found.is_dir() {
            let path = path.to_owned();
            return Err(TargetError::Folder { path });
        }
        Ok(if found.is_file() {
            Self::File {
                path: own,
                exists: true,
            }
        } else {
            Self::Special(own)
        })
    }

    /// Fails when there is a file that is not to be replaced.
    pub(crate) fn may_be_written(&self, replace: bool) -> Result<(), TargetError> {
        match self {
            Self::File { path, exists: true } if !replace => {
                Err(TargetError::Exists { path: path.clone() })
            }
            _ => Ok(()),
        }
    }
}

/// Fails when two of the files that a run reads and writes are one and the same, whatever
/// they are called. Devices and pipes may be given more than once.
pub(crate) fn all_apart(files: &[(&'static str, &Path)]) -> Result<(), TargetError> {
    for (at, (second, path)) in files.iter().enumerate() {
        for (first, other) in &files[..at] {
            if is_same(path, other) {
                return Err(TargetError::Same {
                    first,
                    second,
                    path: (*path).to_owned(),
                });
            }
        }
    }
    Ok(())
}

fn is_same(a: &Path, b: &Path) -> bool {
    match (std::fs::metadata(a), std::fs::metadata(b)) {
        (Ok(of_a), Ok(of_b)) => of_a.is_file() && one_file(&of_a, &of_b, a, b),
        (Err(_), Err(_)) => matches!((full(a), full(b)), (Some(a), Some(b)) if a == b),
        _ => false,
    }
}

#[cfg(unix)]
fn one_file(of_a: &std::fs::Metadata, of_b: &std::fs::Metadata, _: &Path, _: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    (of_a.dev(), of_a.ino()) == (of_b.dev(), of_b.ino())
}

#[cfg(not(unix))]
fn one_file(_: &std::fs::Metadata, _: &std::fs::Metadata, a: &Path, b: &Path) -> bool {
    matches!((a.canonicalize(), b.canonicalize()), (Ok(a), Ok(b)) if a == b)
}

/// The full name of a file that need not be there yet.
fn full(path: &Path) -> Option<PathBuf> {
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty());
    let folder = folder.unwrap_or(Path::new(".")).canonicalize().ok()?;
    Some(folder.join(path.file_name()?))
}

/// A file that is written under the name `OUT.partial` until it is done, by one run at a
/// time. What stands in it at any time is what was written so far, so that a run that was
/// stopped can be gone on with.
#[derive(Debug)]
pub(crate) struct Draft {
    /// `None` for a device or a pipe, which has no name to take when all is done.
    names: Option<Names>,
    /// Begun by this run: taken away when nothing comes of it.
    fresh: bool,
}

impl Drop for Draft {
    fn drop(&mut self) {
        if let Some(names) = self.names.take().filter(|_| self.fresh) {
            // Nobody waits for it: what cannot be taken away is only in the way.
            let _ = std::fs::remove_file(names.working);
        }
    }
}

#[derive(Debug)]
struct Names {
    working: PathBuf,
    own: PathBuf,
    replace: bool,
}

impl Draft {
    /// Begins a file, or a device as it is; with `replace` what is there may go when all is
    /// done. The file is held against other runs as long as it is open.
    pub(crate) fn begin(path: &Path, replace: bool) -> Result<(Self, File), TargetError> {
        let target = Target::of(path)?;
        target.may_be_written(replace)?;
        let Some(names) = names(&target, replace) else {
            return special(&target);
        };
        let working = names.working.clone();
        let file = match OpenOptions::new()
            .write(true)
            .create_new(true)
            .open(&working)
        {
            Ok(file) => held(file, &working)?,
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {
                let file = held(reopened(&working)?, &working)?;
                if !replace {
                    return Err(TargetError::LeftOver { path: working });
                }
                file.set_len(0).map_err(|e| refused(&working, e))?;
                file
            }
            Err(error) => return Err(refused(path, error)),
        };
        Ok((Self::of(names, true), file))
    }

    fn of(names: Names, fresh: bool) -> Self {
        Self {
            names: Some(names),
            fresh,
        }
    }

    /// Opens what an earlier run left of a file, to add to it.
    pub(crate) fn go_on(path: &Path, replace: bool) -> Result<(Self, File), TargetError> {
        let target = Target::of(path)?;
        target.may_be_written(replace)?;
        let Some(names) = names(&target, replace) else {
            return special(&target);
        };
        let file = held(reopened(&names.working)?, &names.working)?;
        Ok((Self::of(names, false), file))
    }

    /// Whether a run left something to go on with.
    #[must_use]
    pub(crate) fn is_left(path: &Path) -> bool {
        working_name(path).is_file()
    }

    /// Whether it is a file, which can be cut back to what was whole.
    #[must_use]
    pub(crate) fn is_file(&self) -> bool {
        self.names.is_some()
    }

    /// Gives the finished file its own name. What was put there meanwhile is not written over
    /// unless that was allowed.
    pub(crate) fn finish(mut self) -> io::Result<()> {
        let Some(names) = self.names.take() else {
            return Ok(());
        };
        if names.replace {
            return std::fs::rename(&names.working, &names.own);
        }
        match std::fs::hard_link(&names.working, &names.own) {
            Ok(()) => std::fs::remove_file(&names.working),
            Err(error) if error.kind() == ErrorKind::AlreadyExists || names.own.exists() => {
                Err(io::Error::other(format!(
                    "`{}` was made by another program meanwhile; what is done is in `{}`",
                    names.own.display(),
                    names.working.display()
                )))
            }
            // A file system without such links.
            Err(_) => std::fs::rename(&names.working, &names.own),
        }
    }

    /// Leaves the unfinished file under its working name, which is returned.
    #[must_use]
    pub(crate) fn leave(mut self) -> Option<PathBuf> {
        self.names.take().map(|names| names.working)
    }
}

fn names(target: &Target, replace: bool) -> Option<Names> {
    let Target::File { path, .. } = target else {
        return None;
    };
    Some(Names {
        working: working_name(path),
        own: path.clone(),
        replace,
    })
}

fn refused(path: &Path, source: io::Error) -> TargetError {
    let path = path.to_owned();
    TargetError::Io { path, source }
}

fn special(target: &Target) -> Result<(Draft, File), TargetError> {
    let (Target::Special(path) | Target::File { path, .. }) = target;
    let opened = OpenOptions::new().write(true).open(path);
    let file = opened.map_err(|e| refused(path, e))?;
    let draft = Draft {
        names: None,
        fresh: false,
    };
    Ok((draft, file))
}

/// A draft that is there, itself and no link in its place, to be added to.
fn reopened(working: &Path) -> Result<File, TargetError> {
    match std::fs::symlink_metadata(working) {
        Ok(found) if found.is_file() => {}
        Ok(_) => {
            let path = working.to_owned();
            return Err(TargetError::Exists { path });
        }
        Err(error) if error.kind() == ErrorKind::NotFound => {
            let path = working.to_owned();
            return Err(TargetError::NothingLeft { path });
        }
        Err(error) => return Err(refused(working, error)),
    }
    let opened = OpenOptions::new().append(true).open(working);
    opened.map_err(|e| refused(working, e))
}

/// Holds a draft against other runs until the file is closed.
fn held(file: File, working: &Path) -> Result<File, TargetError> {
    match file.try_lock() {
        Err(TryLockError::WouldBlock) => Err(TargetError::Busy {
            path: working.to_owned(),
        }),
        // A file system that knows no locks: the name alone has to do.
        Ok(()) | Err(TryLockError::Error(_)) => Ok(file),
    }
}

/// The name that a file has until it is finished.
#[must_use]
pub(crate) fn working_name(path: &Path) -> PathBuf {
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(".partial");
    path.with_file_name(name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Write as _;

    #[test]
    fn a_draft_takes_its_name_when_done_and_no_other_run_joins_in() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("out.csv");
        let (draft, mut file) = Draft::begin(&path, false).unwrap();
        assert!(!path.exists());
        let second = Draft::begin(&path, true).unwrap_err();
        assert!(matches!(second, TargetError::Busy { .. }), "{second}");
        file.write_all(b"x").unwrap();
        drop(file);
        draft.finish().unwrap();
        assert_eq!(std::fs::read(&path).unwrap(), b"x");
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
        let again = Draft::begin(&path, false).unwrap_err();
        assert!(matches!(again, TargetError::Exists { .. }), "{again}");
    }

    #[test]
    fn what_a_stopped_run_left_is_neither_lost_nor_taken_for_done() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("out.csv");
        let (draft, mut file) = Draft::begin(&path, false).unwrap();
        file.write_all(b"one").unwrap();
        drop(file);
        assert_eq!(draft.leave(), Some(working_name(&path)));
        let anew = Draft::begin(&path, false).unwrap_err();
        assert!(matches!(anew, TargetError::LeftOver { .. }), "{anew}");
        let (draft, mut file) = Draft::go_on(&path, false).unwrap();
        file.write_all(b" two").unwrap();
        drop(file);
        // Somebody makes the file meanwhile: it stays.
        std::fs::write(&path, "theirs").unwrap();
        let told = draft.finish().unwrap_err().to_string();
        assert!(told.contains("out.csv.partial"), "{told}");
        assert_eq!(std::fs::read(&path).unwrap(), b"theirs");
        assert_eq!(std::fs::read(working_name(&path)).unwrap(), b"one two");
    }

    #[cfg(unix)]
    #[test]
    fn one_file_is_known_by_any_of_its_names() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        std::fs::write(at("a"), "a").unwrap();
        std::fs::hard_link(at("a"), at("b")).unwrap();
        std::os::unix::fs::symlink(at("a"), at("c")).unwrap();
        std::fs::write(at("d"), "a").unwrap();
        for (one, other, same) in [
            ("a", "b", true),
            ("a", "c", true),
            ("a", "d", false),
            ("new", "./new", true),
            ("new", "other", false),
        ] {
            let (one, other) = (at(one), at(other));
            let apart = all_apart(&[("the menu", &one), ("-o", &other)]);
            assert_eq!(
                apart.is_err(),
                same,
                "{} {}",
                one.display(),
                other.display()
            );
        }
        let null = Path::new("/dev/null");
        assert!(all_apart(&[("-o", null), ("--rejects", null)]).is_ok());
    }
}
