//! Lines of the report.

/// One figure.
pub struct Line {
    what: String,
    value: String,
    bar: String,
}

impl Line {
    pub fn new(what: impl Into<String>, value: impl Into<String>, bar: &str) -> Self {
        Self {
            what: what.into(),
            value: value.into(),
            bar: bar.to_owned(),
        }
    }

    pub fn print(&self) {
        println!("{:<86} {:>9}  {}", self.what, self.value, self.bar);
    }
}

pub fn percent(share: f64) -> String {
    format!("{:.1} %", share * 100.0)
}
