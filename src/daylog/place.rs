//! Where the day log lies.

use std::path::PathBuf;

pub(crate) use crate::store::place::PlaceError;
use crate::store::place::{Kind, own_file};
pub(super) use crate::store::place::{WAIT, close_to_others, make_folder, sync_folder};

/// Name of the file in its folder.
pub(crate) const FILE_NAME: &str = "daylog.sqlite";

/// The day log's file: in the folder `TRENCHER_HOME` names, or else in the platform's data
/// folder. Never in the working folder: a relative `TRENCHER_HOME` is refused.
pub(crate) fn database_path() -> Result<PathBuf, PlaceError> {
    own_file(Kind::Data, FILE_NAME)
}
