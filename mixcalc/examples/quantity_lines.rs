//! Reads quantities, one a line as text, a tab and the words of the kind that claims it (or none), and prints for each its kind and its
//! value in the unit of documents, or the code and the sentence of its error: `quantity_lines < LINES`.

use std::io::{self, BufRead};

use mixcalc::{Error, Kind, Quantity};

fn line(text: &str, claim: &str) -> Result<String, Error> {
    let mut quantity = Quantity::read(text)?;
    if let Some(kind) = Kind::all().iter().find(|kind| kind.words() == claim) {
        quantity = quantity.claim_kind(*kind)?;
    }
    let (value, unit) = quantity.documented().to_parts();
    Ok(format!("{}\t{value:?}\t{unit}", quantity.documented().kind().words()))
}

fn main() -> io::Result<()> {
    for input in io::stdin().lock().lines() {
        let input = input?;
        let (text, claim) = input.split_once('\t').unwrap_or((&input, ""));
        match line(text, claim) {
            Ok(told) => println!("{told}"),
            Err(error) => println!("{}\t{error}", error.code().number()),
        }
    }
    Ok(())
}
