//! Reads quantities, one a line as `{"text": "300 L/ha", "claim": "volume rate", "unit": "L/ha"}`, and prints each, as a document has it,
//! in its unit with all its digits, so that other languages can be held against them. `claim` may be null.

use std::error::Error;
use std::io::{BufRead, stdin};

use mixcalc::{Kind, Quantity};
use serde_json::Value;

fn main() -> Result<(), Box<dyn Error>> {
    for line in stdin().lock().lines() {
        let asked: Value = serde_json::from_str(&line?)?;
        let word = |key: &str| asked.get(key).and_then(Value::as_str);
        let mut quantity = Quantity::read(word("text").unwrap_or_default())?;
        if let Some(kind) = Kind::all().iter().find(|kind| Some(kind.words()) == word("claim")) {
            quantity = quantity.claim_kind(*kind)?;
        }
        println!("{:?}", quantity.documented().to(word("unit").unwrap_or_default())?);
    }
    Ok(())
}
