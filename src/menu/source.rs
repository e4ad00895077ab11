//! Where a menu comes from: a file or standard input, packed or not, in which form.

use flate2::bufread::MultiGzDecoder;
use std::fs::File;
use std::io::{BufRead, BufReader, Read};
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

/// Bytes looked at to tell the form.
const LOOK: usize = 8 << 10;

/// How a menu is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum InputForm {
    /// A header, then one item a row.
    Csv,
    /// One JSON object a line.
    Ndjson,
    /// schema.org `Menu`, `MenuSection` and `MenuItem`.
    JsonLd,
}

/// A menu ready to be read.
pub(crate) struct Source {
    /// The text, unpacked.
    pub text: Box<dyn BufRead + Send>,
    /// Its form.
    pub form: InputForm,
    /// Its first bytes, still to be read.
    pub start: Vec<u8>,
    /// Bytes of the file, packed or not; `None` for standard input.
    pub size: Option<u64>,
    /// Bytes of it read so far.
    pub read: Arc<AtomicU64>,
}

/// Counts what is read.
struct Gauge<R>(R, Arc<AtomicU64>);

impl<R: Read> Read for Gauge<R> {
    fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
        let read = self.0.read(into)?;
        self.1.fetch_add(read as u64, Ordering::Relaxed);
        Ok(read)
    }
}

/// Opens a file, or standard input for `-`. Gzip is told by its first bytes, the form by the
/// file's ending or else by its first bytes, unless `form` says it.
///
/// Fails when the file cannot be opened or its start cannot be read.
pub(crate) fn open(path: &Path, form: Option<InputForm>) -> std::io::Result<Source> {
    let read = Arc::new(AtomicU64::new(0));
    let (raw, size): (Box<dyn Read + Send>, _) = if path.as_os_str() == "-" {
        (Box::new(std::io::stdin()), None)
    } else {
        let file = File::open(path)?;
        let about = file.metadata()?;
        if about.is_dir() {
            return Err(std::io::Error::other("it is a folder: name a file in it"));
        }
        (Box::new(file), about.is_file().then_some(about.len()))
    };
    let mut packed = BufReader::with_capacity(64 << 10, Gauge(raw, read.clone()));
    let magic = packed.fill_buf()?;
    let mut text: Box<dyn BufRead + Send> = if magic.starts_with(&[0x1f, 0x8b]) {
        Box::new(BufReader::with_capacity(
            64 << 10,
            MultiGzDecoder::new(packed),
        ))
    } else {
        Box::new(packed)
    };
    // A packed file that is cut off within its first bytes has no start, which is told later.
    let start = text.fill_buf().unwrap_or_default();
    let start = start[..start.len().min(LOOK)].to_vec();
    let form = form
        .or_else(|| by_ending(path))
        .unwrap_or_else(|| by_start(&start));
    Ok(Source {
        text,
        form,
        start,
        size,
        read,
    })
}

fn by_ending(path: &Path) -> Option<InputForm> {
    let name = path.file_name()?.to_string_lossy().to_lowercase();
    let name = name.strip_suffix(".gz").unwrap_or(&name);
    match name.rsplit_once('.')?.1 {
        "csv" | "tsv" => Some(InputForm::Csv),
        "ndjson" | "jsonl" => Some(InputForm::Ndjson),
        "jsonld" => Some(InputForm::JsonLd),
        _ => None,
    }
}

/// JSON that speaks of a context, a type or a graph is JSON-LD, other objects are lines.
fn by_start(start: &[u8]) -> InputForm {
    let text = String::from_utf8_lossy(start);
    let text = text.trim_start_matches('\u{feff}').trim_start();
    let linked = ["\"@context\"", "\"@type\"", "\"@graph\""];
    match text.as_bytes().first() {
        Some(b'[') => InputForm::JsonLd,
        Some(b'{') if linked.iter().any(|key| text.contains(key)) => InputForm::JsonLd,
        Some(b'{') => InputForm::Ndjson,
        _ => InputForm::Csv,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forms_are_told_by_ending_then_by_start() {
        let ending = |name: &str| by_ending(Path::new(name));
        assert_eq!(ending("x/menu.CSV.gz"), Some(InputForm::Csv));
        assert_eq!(ending("menu.jsonl"), Some(InputForm::Ndjson));
        assert_eq!(ending("menu.json"), None);
        assert_eq!(ending("-"), None);
        let start = |text: &str| by_start(text.as_bytes());
        assert_eq!(start("\u{feff}item,served\n"), InputForm::Csv);
        assert_eq!(start(" {\"item\":\"a\"}\n"), InputForm::Ndjson);
        assert_eq!(start("[{\"@type\":\"Menu\"}]"), InputForm::JsonLd);
        assert_eq!(start("{\"@context\": 1}"), InputForm::JsonLd);
        assert_eq!(start(""), InputForm::Csv);
    }
}
