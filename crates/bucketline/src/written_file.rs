//! Files written whole or not at all, over nothing but a file that may be written to.

use std::fs::{Metadata, OpenOptions};
use std::io::Write;
use std::path::{Path, PathBuf};

use crate::failure::Failure;

/// Writes a file whole or not at all: under another name first, then moved into place. A file that was there
/// keeps its permissions, and its owner where the system allows.
pub fn write_file(path: &Path, content: &[u8]) -> Result<(), Failure> {
    let (meant, before) = may_write(path)?;
    let folder = match meant.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let written = || -> std::io::Result<()> {
        // The temporary file's own error would name a path that nobody asked for.
        let mut file =
            new_file().tempfile_in(folder).map_err(|error| std::io::Error::from(error.kind()))?;
        file.write_all(content)?;
        if let Some(before) = &before {
            // In this order: a change of owner takes permissions away.
            keep_owner(file.as_file(), before);
            file.as_file().set_permissions(before.permissions())?;
        }
        file.persist(&meant).map_err(|error| error.error)?;
        Ok(())
    };
    written().map_err(|error| Failure::CannotWrite { path: path.to_owned(), error })
}

/// The file that a path means, with what is there already.
///
/// - Errors: what is there is no regular file, is protected, or is a link out of its folder.
pub fn may_write(path: &Path) -> Result<(PathBuf, Option<Metadata>), Failure> {
    let Ok(there) = path.symlink_metadata() else {
        return Ok((path.to_owned(), None));
    };
    if !there.is_symlink() {
        refuse_unless_ours(path, &there)?;
        return Ok((path.to_owned(), Some(there)));
    }
    // A link within its folder is followed, so that it survives.
    let away = |to: PathBuf| Failure::LinkLeadsAway { path: path.to_owned(), to };
    let meant = path.canonicalize().map_err(|_| away(path.read_link().unwrap_or_default()))?;
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.canonicalize(),
        _ => Path::new(".").canonicalize(),
    };
    if !folder.is_ok_and(|folder| meant.starts_with(folder)) {
        return Err(away(meant));
    }
    let there = (meant.metadata())
        .map_err(|error| Failure::CannotWrite { path: path.to_owned(), error })?;
    refuse_unless_ours(path, &there)?;
    Ok((meant, Some(there)))
}

fn refuse_unless_ours(path: &Path, there: &Metadata) -> Result<(), Failure> {
    if !there.is_file() {
        let what = if there.is_dir() { "a folder" } else { "a device, a pipe or a socket" };
        return Err(Failure::NoFile { path: path.to_owned(), what });
    }
    // Moving a new file into place asks only for the folder; the file's own protection counts too. The system
    // administrator may write to anything, so the permissions are looked at as well.
    let opened = OpenOptions::new().write(true).open(path);
    let denied = opened.is_err_and(|error| error.kind() == std::io::ErrorKind::PermissionDenied);
    if denied || there.permissions().readonly() {
        return Err(Failure::Protected { path: path.to_owned() });
    }
    Ok(())
}

/// A temporary file is private; an answer is as readable as the reader's umask says.
#[cfg(unix)]
fn new_file() -> tempfile::Builder<'static, 'static> {
    use std::os::unix::fs::PermissionsExt;
    let mut builder = tempfile::Builder::new();
    builder.permissions(std::fs::Permissions::from_mode(0o666));
    builder
}

#[cfg(not(unix))]
fn new_file() -> tempfile::Builder<'static, 'static> {
    tempfile::Builder::new()
}

/// Only the administrator may give a file to someone else; anyone may give it to a group of theirs.
#[cfg(unix)]
fn keep_owner(file: &std::fs::File, before: &Metadata) {
    use std::os::unix::fs::{MetadataExt, fchown};
    let _ = fchown(file, None, Some(before.gid()));
    let _ = fchown(file, Some(before.uid()), None);
}

#[cfg(not(unix))]
fn keep_owner(_file: &std::fs::File, _before: &Metadata) {}
