//! Files written whole or not at all.

use super::Failure;
use crate::store::target::{Target, TargetError};
use std::io::{ErrorKind, Write};
use std::path::Path;

/// Writes a file in one go: beside its place first, then moved there. An existing file stays
/// as it is unless `replace`.
pub(super) fn write_whole(path: &Path, bytes: &[u8], replace: bool) -> Result<(), Failure> {
    let own = match Target::of(path)? {
        // A device or a pipe cannot be put in place of itself.
        Target::Special(path) => {
            let written = std::fs::write(&path, bytes);
            return written
                .map_err(|e| Failure::File(format!("cannot write `{}`: {e}", path.display())));
        }
        Target::File { path, exists } => {
            if exists && !replace {
                return Err(TargetError::Exists { path }.into());
            }
            path
        }
    };
    let path = own.as_path();
    let shown = path.display();
    let failed =
        |error: &dyn std::fmt::Display| Failure::File(format!("cannot write `{shown}`: {error}"));
    let exists = || -> Failure {
        let path = path.to_owned();
        TargetError::Exists { path }.into()
    };
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty());
    let mut file = beside(folder.unwrap_or(Path::new("."))).map_err(|e| failed(&e))?;
    file.write_all(bytes).map_err(|e| failed(&e))?;
    file.as_file().sync_all().map_err(|e| failed(&e))?;
    if replace {
        file.persist(path).map_err(|e| failed(&e.error))?;
        return Ok(());
    }
    // Somebody may have made the file since: it is not written over either.
    match file.persist_noclobber(path) {
        Ok(_) => Ok(()),
        Err(error) if error.error.kind() == ErrorKind::AlreadyExists => Err(exists()),
        Err(error) => Err(failed(&error.error)),
    }
}

fn beside(folder: &Path) -> std::io::Result<tempfile::NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".trencher-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // As any new file: what the user's mask leaves of this.
        builder.permissions(std::fs::Permissions::from_mode(0o666));
        builder.tempfile_in(folder)
    }
    #[cfg(not(unix))]
    builder.tempfile_in(folder)
}

#[cfg(test)]
mod tests {
    use super::write_whole;

    #[test]
    fn a_file_is_replaced_only_when_asked() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("page.html");
        write_whole(&path, b"one", false).unwrap();
        let refused = write_whole(&path, b"two", false).unwrap_err().to_string();
        assert!(refused.contains("--force"), "{refused}");
        assert_eq!(std::fs::read(&path).unwrap(), b"one");
        write_whole(&path, b"two", true).unwrap();
        assert_eq!(std::fs::read(&path).unwrap(), b"two");
        let names = std::fs::read_dir(folder.path()).unwrap().count();
        assert_eq!(names, 1, "nothing half written is left");
    }

    #[test]
    fn a_missing_folder_is_told() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("none").join("page.html");
        let told = write_whole(&path, b"x", false).unwrap_err().to_string();
        assert!(told.contains("cannot write"), "{told}");
    }
}
