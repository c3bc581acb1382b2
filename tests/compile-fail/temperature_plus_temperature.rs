//! Temperatures added: 20 °C and 20 °C are not 40 °C.

use mixcalc::Temperature;

fn main() {
    let morning = Temperature::from_degrees_celsius(20.0).unwrap();
    let _ = morning + morning;
}
