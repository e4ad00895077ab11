//! Somebody else's food table as what is matched to: an index built at run time, with the
//! catalogue behind it for what words mean, how they are spelt and how telling they are.

use super::catalogue::Catalogue;
use super::index::{self, Around, Index, NameRow};
use super::matcher::Matcher;
use super::spelling::IndexSpeller;
use crate::foods::CatalogueError;

/// Names to match to. A row's number is its place in the list.
#[derive(Debug, Clone)]
pub struct Targets {
    names: Vec<String>,
    /// The index's block; eight-byte words, so that it is aligned.
    block: Vec<u64>,
}

impl Targets {
    /// Builds the index over `names`.
    #[must_use]
    pub fn new(names: Vec<String>, catalogue: &Catalogue) -> Self {
        let rows: Vec<NameRow> = names
            .iter()
            .zip(0..)
            .map(|(text, item)| NameRow {
                item,
                text: text.clone(),
                prior: 1.0,
                main: None,
            })
            .collect();
        let speller = IndexSpeller {
            index: catalogue.index(),
            larger: None,
        };
        let around = Around {
            speller: &speller,
            larger: Some(catalogue.index()),
        };
        let bytes = index::build(&rows, catalogue.knowledge(), around);
        let mut block = vec![0_u64; bytes.len().div_ceil(8)];
        bytemuck::cast_slice_mut::<u64, u8>(&mut block)[..bytes.len()].copy_from_slice(&bytes);
        Self { names, block }
    }

    /// A name by its row; rows come from this table, a foreign one is empty.
    #[must_use]
    pub fn name(&self, row: u32) -> &str {
        self.names.get(row as usize).map_or("", String::as_str)
    }

    /// Opens the index in place.
    pub fn index(&self) -> Result<Index<'_>, CatalogueError> {
        Index::open(bytemuck::cast_slice(&self.block)).map_err(|e| CatalogueError::new(&e))
    }

    /// A matcher over an opened index of targets.
    #[must_use]
    pub fn matcher<'m, 'b>(index: &'m Index<'b>, catalogue: &'m Catalogue) -> Matcher<'m, 'b> {
        Matcher::beside(index, catalogue.knowledge(), catalogue.index())
    }
}
