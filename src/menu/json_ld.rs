//! schema.org menus in JSON-LD, read as a stream: nested sections, lists and `@graph`, one
//! item at a time, whatever the size of the whole.

use super::item::MOST_HELD;
use crate::store::bounded::{Bounded, Left};
use serde::de::{DeserializeSeed, Deserializer, Error, IgnoredAny, MapAccess, SeqAccess, Visitor};
use serde_json::value::RawValue;
use std::cell::Cell;
use std::fmt;
use std::io::Read;

/// Properties that lead on to items.
const LEADING: [&str; 9] = [
    "@graph",
    "hasMenu",
    "menu",
    "hasMenuSection",
    "menuAddOn",
    "mainEntity",
    "mainEntityOfPage",
    "itemListElement",
    "item",
];

/// Counts the lines that have gone by. It hands on a byte at a time, so that the count is
/// that of the reader behind it.
struct Counted<'c, R> {
    from: R,
    line: &'c Cell<u64>,
    failed: &'c Cell<Option<std::io::Error>>,
}

impl<R: Read> Read for Counted<'_, R> {
    fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
        let most = into.len().min(1);
        match self.from.read(&mut into[..most]) {
            Ok(read) => {
                if read == 1 && into[0] == b'\n' {
                    self.line.set(self.line.get() + 1);
                }
                Ok(read)
            }
            Err(error) => {
                let copy = std::io::Error::new(error.kind(), error.to_string());
                self.failed.set(Some(copy));
                Err(error)
            }
        }
    }
}

/// Why a JSON-LD menu was not read to its end.
#[derive(Debug, thiserror::Error)]
pub enum LdFault {
    /// It is not JSON, or ends early.
    #[error("not JSON-LD from here on: {0}")]
    Json(serde_json::Error),
    /// An item, a name or a key is longer than any is.
    #[error("line {line}: more than 2 MB in one item, which no item is")]
    TooLong {
        /// The line where it is so long, from 1.
        line: u64,
    },
    /// The input failed.
    #[error(transparent)]
    Input(std::io::Error),
}

/// Hands every `MenuItem` of a JSON-LD text to `emit` with the line it ends on; `emit` says
/// whether to go on. Fails where the text stops being JSON; what came before was handed on.
pub fn menu_items<R: Read>(
    from: R,
    emit: &mut dyn FnMut(u64, &str) -> bool,
) -> Result<(), LdFault> {
    let (line, stopped, failed) = (Cell::new(1), Cell::new(false), Cell::new(None));
    let left = Left::of(MOST_HELD as u64);
    let mut deserializer = serde_json::Deserializer::from_reader(Counted {
        from: Bounded::new(std::io::BufReader::new(from), &left),
        line: &line,
        failed: &failed,
    });
    let mut walk = Walk {
        emit,
        line: &line,
        stopped: &stopped,
        sections: Vec::new(),
        left: &left,
    };
    let done = Node(&mut walk)
        .deserialize(&mut deserializer)
        .and_then(|()| deserializer.end());
    match (done, failed.take()) {
        _ if stopped.get() => Ok(()),
        _ if left.is_used_up() => Err(LdFault::TooLong { line: line.get() }),
        (_, Some(error)) => Err(LdFault::Input(error)),
        (Err(error), None) => Err(LdFault::Json(error)),
        (Ok(()), None) => Ok(()),
    }
}

struct Walk<'w> {
    /// Names of the sections around, as written in JSON, the innermost last.
    sections: Vec<String>,
    emit: &'w mut dyn FnMut(u64, &str) -> bool,
    line: &'w Cell<u64>,
    stopped: &'w Cell<bool>,
    /// What the piece that is kept may still take.
    left: &'w Left,
}

impl Walk<'_> {
    /// A key or value that is kept begins.
    fn kept(&self) {
        self.left.begin(MOST_HELD as u64);
    }

    fn item<E: Error>(&mut self, text: &str) -> Result<(), E> {
        let named = match (self.sections.last(), text.strip_prefix('{')) {
            // An item that says its own section keeps it.
            (Some(section), Some(rest)) if !text.contains("\"section\"") => {
                let parted = if rest.trim_start().starts_with('}') {
                    ""
                } else {
                    ","
                };
                Some(format!("{{\"section\":{section}{parted}{rest}"))
            }
            _ => None,
        };
        if (self.emit)(self.line.get(), named.as_deref().unwrap_or(text)) {
            return Ok(());
        }
        self.stopped.set(true);
        Err(E::custom("stopped"))
    }
}

/// Any node: an object, or a list of nodes; anything else leads nowhere.
struct Node<'n, 'w>(&'n mut Walk<'w>);

impl<'de> DeserializeSeed<'de> for Node<'_, '_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_any(self)
    }
}

macro_rules! leads_nowhere {
    ($($name:ident: $kind:ty),*) => {
        $(fn $name<E: Error>(self, _: $kind) -> Result<(), E> {
            Ok(())
        })*
    };
}

impl<'de> Visitor<'de> for Node<'_, '_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a menu in JSON-LD")
    }

    leads_nowhere!(visit_bool: bool, visit_i64: i64, visit_u64: u64, visit_f64: f64, visit_str: &str);

    fn visit_unit<E: Error>(self) -> Result<(), E> {
        Ok(())
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        self.0.kept();
        while list.next_element_seed(Node(self.0))?.is_some() {
            self.0.kept();
        }
        Ok(())
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        // An object may turn out to be an item itself: what an item is made of is kept.
        let mut own = String::new();
        let mut is_item = false;
        let (mut name, mut is_section) = (None, false);
        loop {
            self.0.kept();
            let Some(key) = map.next_key::<String>()? else {
                break;
            };
            self.0.kept();
            let plain = key.rsplit(['/', ':']).next().unwrap_or_default();
            match plain {
                "hasMenuItem" => {
                    let section = name.clone().filter(|_| is_section);
                    let named = section.is_some();
                    self.0.sections.extend(section);
                    map.next_value_seed(Items(self.0))?;
                    if named {
                        self.0.sections.pop();
                    }
                }
                "@type" | "name" | "description" | "nutrition" => {
                    let value = map.next_value::<Box<RawValue>>()?;
                    is_item |= plain == "@type" && value.get().contains("MenuItem");
                    is_section |= plain == "@type" && value.get().contains("MenuSection");
                    if plain == "name" && value.get().starts_with('"') {
                        name = Some(value.get().to_owned());
                    }
                    own.push(if own.is_empty() { '{' } else { ',' });
                    own.push('"');
                    own.push_str(plain);
                    own.push_str("\":");
                    own.push_str(value.get());
                    if own.len() > MOST_HELD {
                        self.0.left.begin(0);
                        return Err(A::Error::custom("too long"));
                    }
                }
                leading if LEADING.contains(&leading) => map.next_value_seed(Node(self.0))?,
                _ => {
                    self.0.left.pass_over();
                    map.next_value::<IgnoredAny>()?;
                }
            }
        }
        if is_item {
            own.push('}');
            self.0.item(&own)?;
        }
        Ok(())
    }
}

/// What stands under `hasMenuItem`: one item or a list, each taken as it is written.
struct Items<'n, 'w>(&'n mut Walk<'w>);

impl<'de> DeserializeSeed<'de> for Items<'_, '_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Items<'_, '_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a menu item or a list of them")
    }

    leads_nowhere!(visit_bool: bool, visit_i64: i64, visit_u64: u64, visit_f64: f64, visit_str: &str);

    fn visit_unit<E: Error>(self) -> Result<(), E> {
        Ok(())
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        loop {
            self.0.kept();
            let Some(raw) = list.next_element::<Box<RawValue>>()? else {
                break;
            };
            if !is_reference(raw.get()) {
                self.0.item(raw.get())?;
            }
        }
        Ok(())
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        let mut text = String::new();
        let mut keys = 0;
        let mut refers = false;
        // One piece, however many its keys.
        self.0.kept();
        while let Some((key, value)) = map.next_entry::<String, Box<RawValue>>()? {
            keys += 1;
            refers |= key == "@id";
            text.push(if text.is_empty() { '{' } else { ',' });
            text.push_str(&serde_json::to_string(&key).map_err(A::Error::custom)?);
            text.push(':');
            text.push_str(value.get());
        }
        if keys == 0 || (keys == 1 && refers) {
            return Ok(());
        }
        text.push('}');
        self.0.item(&text)
    }
}

/// `{"@id": ".."}` only points to an item that stands elsewhere.
fn is_reference(text: &str) -> bool {
    #[derive(serde::Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Reference {
        #[serde(rename = "@id")]
        _id: String,
    }
    serde_json::from_str::<Reference>(text).is_ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn items(text: &str) -> (Vec<(u64, String)>, bool) {
        let mut list = Vec::new();
        let done = menu_items(text.as_bytes(), &mut |line, item| {
            list.push((line, item.to_owned()));
            true
        });
        (list, done.is_ok())
    }

    #[test]
    fn nested_sections_and_single_items() {
        let (list, fine) = items(
            "{\"@context\":\"https://schema.org\",\"@type\":\"Menu\",\"name\":\"Lunch\",
             \"hasMenuSection\":[{\"@type\":\"MenuSection\",
               \"hasMenuItem\":[{\"name\":\"A\"},\n{\"name\":\"B\"}],
               \"hasMenuSection\":{\"hasMenuItem\":{\"name\":\"C\",\"x\":[1]}}}]}",
        );
        assert!(fine);
        let texts: Vec<_> = list.iter().map(|(_, t)| t.as_str()).collect();
        assert_eq!(
            texts,
            [
                "{\"name\":\"A\"}",
                "{\"name\":\"B\"}",
                "{\"name\":\"C\",\"x\":[1]}"
            ]
        );
        assert_eq!(list[1].0, list[0].0 + 1);
    }

    #[test]
    fn items_carry_the_name_of_their_section() {
        let (list, fine) = items(
            r#"{"hasMenuSection":[{"@type":"MenuSection","name":"Sides","hasMenuItem":[{"name":"Slaw"}]},
               {"@type":"MenuSection","name":"Mains","hasMenuItem":{"name":"Pie"}}]}"#,
        );
        assert!(fine);
        let texts: Vec<_> = list.iter().map(|(_, t)| t.as_str()).collect();
        assert_eq!(
            texts,
            [
                r#"{"section":"Sides","name":"Slaw"}"#,
                r#"{"section":"Mains","name":"Pie"}"#
            ]
        );
    }

    #[test]
    fn lists_graphs_and_references() {
        let (list, fine) = items(
            r##"[{"@graph":[{"@type":"Restaurant","hasMenu":{"hasMenuItem":[{"@id":"#a"}]}},
               {"@type":["Thing","MenuItem"],"@id":"#a","name":"A","nutrition":{"calories":"5"}}]},
               {"@type":"MenuItem","name":"B"}, 7, null]"##,
        );
        assert!(fine);
        assert_eq!(list.len(), 2, "{list:?}");
        assert!(list[0].1.contains("\"name\":\"A\"") && list[0].1.contains("calories"));
    }

    #[test]
    fn nothing_longer_than_an_item_is_held() {
        let long = "x".repeat(MOST_HELD + 10);
        for text in [
            format!(r#"[{{"@type":"MenuItem","name":"A"}},{{"name":"{long}"}}]"#),
            format!(r#"[{{"@type":"MenuItem","name":"A"}},{{"{long}":1}}]"#),
            format!(r#"{{"hasMenuItem":[{{"name":"A"}},{{"x":"{long}"}}]}}"#),
        ] {
            let mut list = Vec::new();
            let done = menu_items(text.as_bytes(), &mut |_, item| {
                list.push(item.to_owned());
                true
            });
            assert!(
                matches!(done, Err(LdFault::TooLong { line: 1 })),
                "{done:?}"
            );
            assert_eq!(list.len(), 1);
        }
        // What is not kept may be of any length.
        let (list, fine) = items(&format!(
            r#"[{{"image":"{long}","@type":"MenuItem","name":"A"}}]"#
        ));
        assert!(fine);
        assert_eq!(list.len(), 1);
    }

    #[test]
    fn what_came_before_a_fault_is_kept() {
        let (list, fine) = items(r#"{"hasMenuItem":[{"name":"A"},{"name":"B""#);
        assert!(!fine);
        assert_eq!(list.len(), 1);
    }
}
