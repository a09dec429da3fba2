//! Figures, each against its bar.

#![allow(dead_code, reason = "no program has bars of every kind")]

use std::error::Error;

pub type Done<T> = Result<T, Box<dyn Error>>;

pub struct Row {
    what: String,
    value: f64,
    bar: Bar,
    unit: &'static str,
}

pub enum Bar {
    AtLeast(f64),
    AtMost(f64),
    /// Told, not judged.
    None,
}

impl Row {
    fn holds(&self) -> bool {
        match self.bar {
            Bar::AtLeast(least) => self.value >= least,
            Bar::AtMost(most) => self.value <= most,
            Bar::None => true,
        }
    }

    fn told(&self) -> String {
        let bar = match self.bar {
            Bar::AtLeast(least) => format!(">= {least}"),
            Bar::AtMost(most) => format!("<= {most}"),
            Bar::None => String::new(),
        };
        let holds = if matches!(self.bar, Bar::None) { "" } else { ["NO", "yes"][usize::from(self.holds())] };
        format!("{:<64} {:>12.1} {:>12} {:<16} {holds}", self.what, self.value, bar, self.unit)
    }
}

pub fn row(what: &str, value: f64, bar: Bar, unit: &'static str) -> Row {
    Row { what: what.to_owned(), value, bar, unit }
}

/// Prints all of them.
///
/// # Errors
/// One of them does not hold.
pub fn judged(rows: &[Row]) -> Done<()> {
    println!("{:<64} {:>12} {:>12} {:<16} holds", "what", "value", "bar", "unit");
    rows.iter().for_each(|row| println!("{}", row.told()));
    if rows.iter().all(Row::holds) { Ok(()) } else { Err("a bar does not hold".into()) }
}

pub fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or_default()
}
