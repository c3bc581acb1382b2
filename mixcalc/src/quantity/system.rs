//! The private system of quantities: `uom`'s dimension algebra over four base quantities, without its table of units.
//!
//! Nothing here is public. The kinds wrap these types, and the compiler refuses an identity between kinds whose
//! dimensions are wrong. `uom`'s own units are left out because several of them are rounded (its acre is 4e-6 off the
//! international acre) and because they cost ten seconds of compile time.

// `uom` writes every storage type's constructors, of which the kinds use none.
#![allow(missing_docs, unreachable_pub, dead_code, unused_imports)]

#[macro_use]
mod length {
    quantity! {
        quantity: Length; "length";
        dimension: MixcalcDimensions<P1, Z0, Z0, Z0>;
        units { @meter: 1.0; "m", "meter", "meters"; }
    }
}
#[macro_use]
mod mass {
    quantity! {
        quantity: Mass; "mass";
        dimension: MixcalcDimensions<Z0, P1, Z0, Z0>;
        units { @kilogram: 1.0; "kg", "kilogram", "kilograms"; }
    }
}
#[macro_use]
mod time {
    quantity! {
        quantity: Time; "time";
        dimension: MixcalcDimensions<Z0, Z0, P1, Z0>;
        units { @second: 1.0; "s", "second", "seconds"; }
    }
}
#[macro_use]
mod temperature {
    quantity! {
        quantity: Temperature; "temperature";
        dimension: MixcalcDimensions<Z0, Z0, Z0, P1>;
        units { @kelvin: 1.0; "K", "kelvin", "kelvins"; }
    }
}

system! {
    quantities: MixcalcDimensions {
        length: meter, L;
        mass: kilogram, M;
        time: second, T;
        temperature: kelvin, Th;
    }
    units: MixcalcUnits {
        mod length::Length,
        mod mass::Mass,
        mod time::Time,
        mod temperature::Temperature,
    }
}

use core::marker::PhantomData;
use uom::typenum::{Integer, N1, N2, P1, P2, P3, Z0};

/// A double in the coherent SI unit of a dimension: length, mass, time, temperature.
pub(super) type Si<L, M, T, K> = Quantity<MixcalcDimensions<L, M, T, K, dyn uom::Kind>, MixcalcUnits<f64>, f64>;

pub(super) type Length = Si<P1, Z0, Z0, Z0>;
pub(super) type Area = Si<P2, Z0, Z0, Z0>;
pub(super) type Volume = Si<P3, Z0, Z0, Z0>;
pub(super) type Mass = Si<Z0, P1, Z0, Z0>;
pub(super) type Time = Si<Z0, Z0, P1, Z0>;
pub(super) type Temperature = Si<Z0, Z0, Z0, P1>;
pub(super) type Speed = Si<P1, Z0, N1, Z0>;
pub(super) type AreaPerTime = Si<P2, Z0, N1, Z0>;
pub(super) type VolumePerTime = Si<P3, Z0, N1, Z0>;
pub(super) type Pressure = Si<N1, P1, N2, Z0>;
pub(super) type MassPerLength = Si<N1, P1, Z0, Z0>;
pub(super) type MassPerArea = Si<N2, P1, Z0, Z0>;
pub(super) type MassPerVolume = Si<uom::typenum::N3, P1, Z0, Z0>;
pub(super) type Ratio = Si<Z0, Z0, Z0, Z0>;

/// What a kind needs of its private value: in and out of the coherent unit, and its dimension's exponents.
pub(super) trait Coherent: Copy {
    const EXPONENTS: [i8; 4];
    fn coherent(value: f64) -> Self;
    fn value(self) -> f64;
}

impl<L: Integer, M: Integer, T: Integer, K: Integer> Coherent for Si<L, M, T, K> {
    const EXPONENTS: [i8; 4] = [L::I8, M::I8, T::I8, K::I8];
    fn coherent(value: f64) -> Self {
        Self { dimension: PhantomData, units: PhantomData, value }
    }
    fn value(self) -> f64 {
        self.value
    }
}

/// Zero of any dimension, in a constant.
pub(super) const fn zero<L: Integer, M: Integer, T: Integer, K: Integer>() -> Si<L, M, T, K> {
    Si { dimension: PhantomData, units: PhantomData, value: 0.0 }
}
