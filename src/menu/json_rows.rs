//! Items written in JSON: one object a line, or a schema.org `MenuItem`.

use super::csv_rows::check_text;
use super::item::{Item, RowFault, printed_energy, push_line, shortened};
use serde::Deserialize;
use serde_json::value::RawValue;
use std::borrow::Cow;

/// A field that people write as text, as a number or as a list of texts.
#[derive(Debug, Deserialize)]
#[serde(untagged)]
enum Loose<'t> {
    Text(#[serde(borrow)] Cow<'t, str>),
    Number(f64),
    List(#[serde(borrow)] Vec<Cow<'t, str>>),
}

#[derive(Debug, Deserialize)]
struct Line<'t> {
    #[serde(borrow, default)]
    key: Option<Loose<'t>>,
    #[serde(borrow, default)]
    item: Option<Cow<'t, str>>,
    #[serde(borrow, default)]
    section: Option<Cow<'t, str>>,
    #[serde(borrow, default)]
    description: Option<Cow<'t, str>>,
    #[serde(borrow, default)]
    components: Option<Loose<'t>>,
    #[serde(borrow, default)]
    served: Option<Cow<'t, str>>,
    #[serde(borrow, default)]
    energy_kcal: Option<Loose<'t>>,
    #[serde(borrow, default)]
    restaurant: Option<Loose<'t>>,
}

/// Reads a line of NDJSON into an item. `components` is a list, or one text parted by `;`;
/// other fields than ours are left aside.
pub fn from_line(row: &[u8], item: &mut Item) -> Result<(), RowFault> {
    item.clear();
    let text = check_text(row)?.trim_start_matches('\u{feff}');
    // A list would be taken for the fields in their order.
    if text.trim_start().starts_with('[') {
        return Err(RowFault::Json("a list, not an object".to_owned()));
    }
    let line: Line<'_> = serde_json::from_str(text).map_err(|e| json(&e))?;
    item.key = line.key.and_then(|key| match key {
        Loose::Text(text) => Some(text.into_owned()),
        Loose::Number(number) => Some(number.to_string()),
        Loose::List(_) => None,
    });
    take(&mut item.name, line.item.as_deref());
    take(&mut item.section, line.section.as_deref());
    take(&mut item.description, line.description.as_deref());
    take(&mut item.served, line.served.as_deref());
    match line.restaurant {
        Some(Loose::Text(text)) => take(&mut item.restaurant, Some(&text)),
        Some(Loose::Number(number)) => take(&mut item.restaurant, Some(&number.to_string())),
        Some(Loose::List(_)) | None => {}
    }
    match line.components {
        Some(Loose::Text(text)) => push_line(&mut item.components, &text),
        Some(Loose::List(list)) => join(&mut item.components, &list),
        Some(Loose::Number(number)) => {
            return Err(RowFault::Json(format!(
                "`components` is the number {number}"
            )));
        }
        None => {}
    }
    item.printed = energy(line.energy_kcal)?;
    named(item)
}

fn energy(field: Option<Loose<'_>>) -> Result<Option<(f64, f64)>, RowFault> {
    match field {
        Some(Loose::Text(text)) => printed_energy(&text),
        Some(Loose::Number(number)) => printed_energy(&number.to_string()),
        Some(Loose::List(list)) => Err(RowFault::Energy(shortened(&list.join(", ")))),
        None => Ok(None),
    }
}

fn join(into: &mut String, list: &[Cow<'_, str>]) {
    for text in list {
        if !into.is_empty() {
            into.push(';');
        }
        // A list has its own parting: a semicolon within is none.
        into.extend(text.trim().chars().map(|c| if c == ';' { ',' } else { c }));
    }
}

fn take(into: &mut String, text: Option<&str>) {
    push_line(into, text.unwrap_or_default());
}

fn named(item: &Item) -> Result<(), RowFault> {
    if item.name.is_empty() {
        return Err(RowFault::NoName);
    }
    Ok(())
}

fn json(error: &serde_json::Error) -> RowFault {
    let text = error.to_string();
    // serde names line 1 of a row; the row's own line is told beside it.
    RowFault::Json(text.replace(" at line 1 column ", " at character "))
}

#[derive(Debug, Deserialize)]
struct MenuItem<'t> {
    #[serde(borrow, default)]
    name: Option<&'t RawValue>,
    #[serde(borrow, default)]
    section: Option<&'t RawValue>,
    #[serde(borrow, default)]
    description: Option<&'t RawValue>,
    #[serde(borrow, default)]
    nutrition: Option<&'t RawValue>,
}

#[derive(Debug, Deserialize)]
struct Nutrition<'t> {
    #[serde(borrow, default)]
    calories: Option<Loose<'t>>,
    #[serde(borrow, default, rename = "servingSize")]
    serving_size: Option<Cow<'t, str>>,
}

/// Texts of JSON-LD: plain, as `{"@value": ..}`, or the first of a list of these.
#[derive(Debug, Deserialize)]
#[serde(untagged)]
enum Text {
    Plain(String),
    Value {
        #[serde(rename = "@value")]
        value: String,
    },
    List(Vec<Text>),
}

impl Text {
    fn first(self) -> Option<String> {
        match self {
            Text::Plain(text) | Text::Value { value: text } => Some(text),
            Text::List(list) => list.into_iter().find_map(Text::first),
        }
    }
}

fn ld_text(raw: Option<&RawValue>, into: &mut String) -> Result<(), RowFault> {
    let Some(raw) = raw else {
        return Ok(());
    };
    let text: Option<Text> = serde_json::from_str(raw.get()).map_err(|e| json(&e))?;
    take(into, text.and_then(Text::first).as_deref());
    Ok(())
}

/// Reads a schema.org `MenuItem` object: `name`, `description`, and of `nutrition` the
/// `calories` and, when it is an amount that can be read, the `servingSize`.
pub fn from_menu_item(row: &[u8], item: &mut Item) -> Result<(), RowFault> {
    item.clear();
    let read: MenuItem<'_> = serde_json::from_str(check_text(row)?).map_err(|e| json(&e))?;
    ld_text(read.name, &mut item.name)?;
    ld_text(read.section, &mut item.section)?;
    ld_text(read.description, &mut item.description)?;
    if let Some(raw) = read.nutrition {
        let nutrition = serde_json::from_str::<Option<Nutrition<'_>>>(raw.get())
            .or_else(|_| {
                let list: Vec<Nutrition<'_>> = serde_json::from_str(raw.get())?;
                Ok(list.into_iter().next())
            })
            .map_err(|e| json(&e))?;
        if let Some(nutrition) = nutrition {
            item.printed = energy(nutrition.calories)?;
            take(&mut item.served, nutrition.serving_size.as_deref());
        }
    }
    named(item)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(text: &str) -> Result<Item, RowFault> {
        let mut item = Item::default();
        from_line(text.as_bytes(), &mut item).map(|()| item)
    }

    #[test]
    fn lines_take_lists_and_texts_numbers_and_nulls() {
        let found = line(
            r#"{"item":"Bowl \"A\"","components":["1 cup rice","tofu; firm"],"energy_kcal":640,"served":null,"price":[1]}"#,
        )
        .expect("reads");
        assert_eq!(found.name, "Bowl \"A\"");
        assert_eq!(found.components, "1 cup rice;tofu, firm");
        assert_eq!(found.printed, Some((640.0, 640.0)));
        let other = line(r#"{"item":"Soup","components":"broth; leek","energy_kcal":"540/680"}"#);
        assert_eq!(other.expect("reads").printed, Some((540.0, 680.0)));
    }

    #[test]
    fn lines_that_are_no_item_say_why() {
        assert_eq!(line(r#"{"dish":"Soup"}"#), Err(RowFault::NoName));
        for wrong in [
            "[1]",
            "{\"item\":\"a\",\"item\":\"b\"}",
            "{\"item\":7}",
            "{",
        ] {
            assert!(matches!(line(wrong), Err(RowFault::Json(_))), "{wrong}");
        }
    }

    #[test]
    fn menu_items_are_read_as_pages_publish_them() {
        let mut item = Item::default();
        let text = r#"{"@type":"MenuItem","name":{"@value":"Soup","@language":"en"},
            "description":["with leek"],"offers":{"price":"7"},
            "nutrition":[{"@type":"NutritionInformation","calories":"240 calories","servingSize":"12 fl oz"}]}"#;
        from_menu_item(text.as_bytes(), &mut item).expect("reads");
        assert_eq!(
            (item.name.as_str(), item.description.as_str()),
            ("Soup", "with leek")
        );
        assert_eq!(item.printed, Some((240.0, 240.0)));
        assert_eq!(item.served, "12 fl oz");
    }
}
