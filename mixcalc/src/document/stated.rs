//! A quantity in a document: text or value and unit on the way in, value and unit on the way out.

use alloc::borrow::Cow;
use alloc::string::{String, ToString};
use core::fmt;

use serde::de::{self, Deserialize, Deserializer, MapAccess, Unexpected, Visitor};
use serde::{Serialize, Serializer};

use super::node::delivered;
use crate::error::{Error, ErrorCode};
use crate::quantity::{
    Expression, Kind, Quantity, QuantityKind, Ratio, Temperature, VolumeFraction, in_unit, missing_unit, read_stated,
    read_unit, suggesting,
};
use crate::text;

/// A quantity as a document states it.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Stated {
    Text(String),
    Parts(Parts),
    /// A quantity of a program's own, and the unit that it was stated in.
    Made(Quantity, String),
    /// A number without a unit: refused where a quantity is due, taken as a fraction where a fraction is.
    Number(f64),
}

/// Value and unit.
#[derive(Clone, Debug, PartialEq, Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct Parts {
    /// The number.
    value: f64,
    /// The unit, such as `L/ha`.
    unit: Cow<'static, str>,
}

impl<Q: Into<Quantity>> From<Q> for Stated {
    fn from(quantity: Q) -> Self {
        let (value, unit) = quantity.into().to_told_parts();
        Self::Parts(Parts { value, unit: unit.into() })
    }
}

impl Stated {
    /// A quantity that the plan makes.
    pub(super) fn of(quantity: impl Into<Quantity>) -> Self {
        quantity.into().into()
    }

    /// The quantity, unclaimed, and the unit that it was stated in.
    pub(super) fn read(&self) -> Result<(Quantity, Expression), Error> {
        match self {
            Self::Text(text) => read_stated(text),
            Self::Parts(Parts { value, unit }) => {
                let expression = read_unit(unit).map_err(|error| error.at("unit"))?;
                Ok((expression.quantity(*value).map_err(|error| error.at("value"))?, expression))
            }
            Self::Made(quantity, unit) => Ok((*quantity, read_unit(unit)?)),
            Self::Number(number) if !number.is_finite() => Err(Error::new(ErrorCode::NotFinite).given(number)),
            Self::Number(number) => Err(missing_unit(number)),
        }
    }

    /// The quantity as a kind.
    pub(super) fn claim<Q: QuantityKind>(&self) -> Result<Q, Error> {
        let own_example = |error: Error| match (error.code(), self) {
            (ErrorCode::MissingUnit, Self::Number(number)) => {
                error.allowed(format_args!("\"{number} {}\"", Q::KIND.unit()))
            }
            (ErrorCode::MissingUnit, Self::Text(number)) => {
                error.allowed(format_args!("\"{number} {}\"", Q::KIND.unit()))
            }
            _ => suggesting(Q::KIND, self.unit_text().unwrap_or_default(), error),
        };
        let (quantity, _) = self.read().map_err(own_example)?;
        quantity.claim().map_err(|error| match error.code() {
            ErrorCode::WrongQuantity => {
                error.given(format_args!("{self}, {}", text::with_article(quantity.kind().words())))
            }
            _ => error,
        })
    }

    /// A difference of temperatures, which is stated in kelvins alone: 8 °C is a temperature.
    pub(super) fn kelvins(&self) -> Result<Temperature, Error> {
        match self.unit_text() {
            Some("K") => self.claim(),
            _ => Err(Error::new(ErrorCode::WrongQuantity).given(self).allowed(text::KELVINS)),
        }
    }

    pub(super) fn of_kelvins(kelvins: Temperature) -> Self {
        Self::Parts(Parts { value: kelvins.kelvins(), unit: Cow::Borrowed("K") })
    }

    /// A fraction of a volume: a number, or text in percent; a share of a mass is none.
    pub(super) fn fraction(&self) -> Result<Ratio, Error> {
        match self {
            Self::Number(number) => Ratio::from_number(*number),
            _ if self.read().is_ok_and(|(quantity, _)| quantity.kind() == Kind::MassFraction) => {
                self.claim::<VolumeFraction>().map(VolumeFraction::as_ratio)
            }
            _ => self.claim(),
        }
    }

    /// The text of the unit that it was stated in.
    pub(super) fn unit_text(&self) -> Option<&str> {
        match self {
            Self::Text(text) => text.split_once(' ').map(|(_, unit)| unit),
            Self::Parts(Parts { unit, .. }) => Some(unit),
            Self::Made(_, unit) => Some(unit),
            Self::Number(_) => None,
        }
    }
}

impl fmt::Display for Stated {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Text(text) => f.write_str(text),
            Self::Parts(Parts { value, unit }) => write!(f, "{value} {unit}"),
            Self::Made(quantity, unit) => f.write_str(&in_unit(*quantity, unit)),
            Self::Number(number) => number.fmt(f),
        }
    }
}

impl Serialize for Stated {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Text(text) => text.serialize(serializer),
            Self::Parts(parts) => parts.serialize(serializer),
            Self::Made(quantity, _) => Self::of(*quantity).serialize(serializer),
            Self::Number(number) => number.serialize(serializer),
        }
    }
}

impl<'de> Deserialize<'de> for Stated {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Any;

        impl<'de> Visitor<'de> for Any {
            type Value = Stated;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(text::QUANTITY_FORMS)
            }
            fn visit_str<E>(self, text: &str) -> Result<Stated, E> {
                Ok(Stated::Text(text.to_string()))
            }
            fn visit_f64<E>(self, number: f64) -> Result<Stated, E> {
                Ok(Stated::Number(number))
            }
            fn visit_bytes<E: de::Error>(self, bytes: &[u8]) -> Result<Stated, E> {
                let (quantity, unit) =
                    delivered(bytes).ok_or_else(|| E::invalid_type(Unexpected::Bytes(bytes), &self))?;
                Ok(Stated::Made(quantity, unit.to_string()))
            }
            fn visit_map<A: MapAccess<'de>>(self, table: A) -> Result<Stated, A::Error> {
                Parts::deserialize(de::value::MapAccessDeserializer::new(table)).map(Stated::Parts)
            }
        }

        deserializer.deserialize_any(Any)
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for Stated {
    fn schema_name() -> Cow<'static, str> {
        "Quantity".into()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let parts = generator.subschema_for::<Parts>();
        schemars::json_schema!({
            "description": text::QUANTITY_FORMS,
            "anyOf": [{ "type": "string", "pattern": "^-?[0-9]+(\\.[0-9]+)?([eE][+-]?[0-9]+)? .+$" }, parts]
        })
    }
}

/// A fraction: a number from 0 to 1, or text in percent. A number on the way out.
#[derive(Clone, Debug, PartialEq, serde::Deserialize)]
#[serde(transparent)]
pub(super) struct Fraction(pub(super) Stated);

impl From<Ratio> for Fraction {
    fn from(ratio: Ratio) -> Self {
        Self(Stated::Number(ratio.number()))
    }
}

impl Serialize for Fraction {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.0.serialize(serializer)
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for Fraction {
    fn schema_name() -> Cow<'static, str> {
        "Fraction".into()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let quantity = generator.subschema_for::<Stated>();
        schemars::json_schema!({
            "description": text::FRACTION_FORMS,
            "anyOf": [{ "type": "number", "minimum": 0, "maximum": 1 }, quantity]
        })
    }
}
