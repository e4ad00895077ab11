//! One block of bytes that is ready at start without parsing: numbered sections of plain
//! numbers and text behind a table of offsets.
//!
//! This file is also compiled into the build script, which writes what the program reads.

use std::fmt;

/// First word of every block; the digit is the layout's version.
const MAGIC: u32 = u32::from_le_bytes(*b"trn1");
/// Sections start at multiples of this, so that they can be read as numbers in place.
const ALIGNMENT: usize = 8;

/// Why a block cannot be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct BlobError(pub &'static str);

impl fmt::Display for BlobError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0)
    }
}

impl std::error::Error for BlobError {}

/// Collects sections and writes the block.
#[derive(Debug, Default)]
pub(crate) struct Writer {
    sections: Vec<Vec<u8>>,
}

impl Writer {
    /// Adds a section of plain numbers or bytes and returns its number.
    pub(crate) fn add<T: bytemuck::NoUninit>(&mut self, values: &[T]) -> usize {
        self.sections.push(bytemuck::cast_slice(values).to_vec());
        self.sections.len() - 1
    }

    /// The whole block.
    #[must_use]
    pub(crate) fn finish(self) -> Vec<u8> {
        let mut header: Vec<u32> = vec![MAGIC, self.sections.len() as u32];
        let mut offset = align((2 + 2 * self.sections.len()) * 4);
        for section in &self.sections {
            header.extend([offset as u32, section.len() as u32]);
            offset = align(offset + section.len());
        }
        let mut bytes = Vec::with_capacity(offset);
        bytes.extend_from_slice(bytemuck::cast_slice(&header));
        for section in &self.sections {
            bytes.resize(align(bytes.len()), 0);
            bytes.extend_from_slice(section);
        }
        bytes.resize(align(bytes.len()), 0);
        bytes
    }
}

fn align(offset: usize) -> usize {
    offset.next_multiple_of(ALIGNMENT)
}

/// Reads sections in place.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Reader<'b> {
    bytes: &'b [u8],
}

impl<'b> Reader<'b> {
    /// Takes a block; refuses one that is misaligned, foreign or cut short.
    pub(crate) fn new(bytes: &'b [u8]) -> Result<Self, BlobError> {
        if bytes.as_ptr().align_offset(ALIGNMENT) != 0 {
            return Err(BlobError("the catalogue block is not aligned"));
        }
        let words: &[u32] = bytemuck::try_cast_slice(bytes)
            .map_err(|_| BlobError("the catalogue block is cut short"))?;
        let [magic, count, ..] = words else {
            return Err(BlobError("the catalogue block is empty"));
        };
        if *magic != MAGIC {
            return Err(BlobError("this is not a catalogue block of this version"));
        }
        let table = words
            .get(2..2 + 2 * *count as usize)
            .ok_or(BlobError("the catalogue block is cut short"))?;
        let fits = |pair: &[u32]| pair[0] as usize + pair[1] as usize <= bytes.len();
        if !table.chunks(2).all(fits) {
            return Err(BlobError("the catalogue block is cut short"));
        }
        Ok(Self { bytes })
    }

    /// The bytes of a section; empty when there is no such section.
    #[must_use]
    pub(crate) fn bytes(&self, section: usize) -> &'b [u8] {
        let words: &[u32] = bytemuck::cast_slice(&self.bytes[..8]);
        if section >= words[1] as usize {
            return &[];
        }
        let at = 8 + section * 8;
        let pair: &[u32] = bytemuck::cast_slice(&self.bytes[at..at + 8]);
        &self.bytes[pair[0] as usize..pair[0] as usize + pair[1] as usize]
    }

    /// A section as numbers.
    #[must_use]
    pub(crate) fn numbers<T: bytemuck::AnyBitPattern>(&self, section: usize) -> &'b [T] {
        bytemuck::try_cast_slice(self.bytes(section)).unwrap_or(&[])
    }

    /// A section as text.
    #[must_use]
    pub(crate) fn text(&self, section: usize) -> Text<'b> {
        Text(self.bytes(section))
    }
}

/// A section of text. Pieces are checked when they are read, so that opening a block does not
/// go through all of it.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Text<'b>(&'b [u8]);

/// Text collected in one section, with the place of each piece. Equal pieces are kept
/// once.
#[derive(Debug, Default)]
pub(crate) struct Arena {
    text: String,
    places: std::collections::HashMap<String, Place>,
}

/// Where a piece of text lies in the text section: offset and length in bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub struct Place {
    offset: u32,
    length: u32,
}

impl Arena {
    /// Keeps `piece` and tells where.
    pub(crate) fn keep(&mut self, piece: &str) -> Place {
        if let Some(place) = self.places.get(piece) {
            return *place;
        }
        let place = Place {
            offset: self.text.len() as u32,
            length: piece.len() as u32,
        };
        self.text.push_str(piece);
        self.places.insert(piece.to_owned(), place);
        place
    }

    /// The whole text.
    #[must_use]
    pub(crate) fn into_bytes(self) -> Vec<u8> {
        self.text.into_bytes()
    }
}

impl Place {
    /// The piece that lies here; empty when the place is not inside `text`.
    #[must_use]
    pub(crate) fn of(self, text: Text<'_>) -> &str {
        std::str::from_utf8(self.bytes_of(text)).unwrap_or("")
    }

    /// Whether the piece that lies here is `piece`.
    #[must_use]
    pub(crate) fn is(self, text: Text<'_>, piece: &str) -> bool {
        self.bytes_of(text) == piece.as_bytes()
    }

    fn bytes_of(self, text: Text<'_>) -> &[u8] {
        let start = self.offset as usize;
        text.0
            .get(start..start + self.length as usize)
            .unwrap_or_default()
    }
}
