//! What JSON and TOML have in common: a tree, from which the wire structs are read with errors that name the place.
//!
//! Two passes. The text becomes a tree; the tree becomes the wire structs through serde, with an error type of our own. So a
//! misspelt key, a wrong type, a missing or a doubled key arrive as codes with what was given and what is allowed, and not as a
//! parser's English.

use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::fmt;
use core::iter::Enumerate;
use core::slice::Iter;

use serde::de::{
    self, Deserialize, DeserializeSeed, Deserializer, Expected, IntoDeserializer, MapAccess, SeqAccess, Unexpected,
    Visitor,
};
use serde::forward_to_deserialize_any;

use crate::error::{Error, ErrorCode};
use crate::quantity::Quantity;
use crate::text;

/// Longest document that is read: a job of a thousand products is a tenth of it.
const LONGEST: usize = 1 << 20;

/// What the TOML reader says of a doubled key, which it refuses by itself.
const DUPLICATE_IN_TOML: &str = "duplicate key";
/// The one key of the table as which a date of TOML arrives.
const DATE_IN_TOML: &str = "$__toml_private_datetime";

/// A value of JSON or TOML, or of a program that states a job by objects of its own instead of text.
///
/// ```
/// use mixcalc::document::{Node, Part};
/// use mixcalc::{Tank, VolumeRate};
///
/// let tank = Node::read(br#"{"nominal": "16 L"}"#)?;
/// assert_eq!(Tank::from_node(&tank)?.nominal().unwrap().liters(), 16.0);
///
/// // A claimed quantity fits only its slot.
/// let rate = VolumeRate::read("16 L/ha")?.into();
/// let tank = Node::Table(vec![("nominal".into(), Node::Quantity(rate, "L/ha".into()))]);
/// let refused = Tank::from_node(&tank).unwrap_err();
/// assert_eq!(refused.to_string(), r#"nominal: must be a volume such as "15 L", got 16 L/ha, a volume rate"#);
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub enum Node {
    /// Nothing: a key that has it counts as absent, where it may be.
    Null,
    /// True or false.
    Bool(bool),
    /// A number without a unit.
    Number(f64),
    /// Text.
    Text(String),
    /// A quantity, and the unit that it was stated in. No document has one: there it is text, or a table of value and unit.
    Quantity(Quantity, String),
    /// Values in order.
    List(Vec<Node>),
    /// Values by key. It may have a key twice, for the reader to refuse.
    Table(Vec<(String, Node)>),
    /// What no document has, by a name that the error can say.
    Other(String),
}

impl Node {
    /// Reads JSON or TOML, told apart by the first character.
    ///
    /// # Errors
    ///
    /// [`TooLarge`](ErrorCode::TooLarge), [`UnreadableDocument`](ErrorCode::UnreadableDocument), and
    /// [`DuplicateKey`](ErrorCode::DuplicateKey) in TOML.
    pub fn read(document: &[u8]) -> Result<Self, Error> {
        if document.len() > LONGEST {
            let error = Error::new(ErrorCode::TooLarge).given(format_args!("{} bytes", document.len()));
            return Err(error.allowed(format_args!("{LONGEST} bytes")));
        }
        let unreadable = |why: String| Error::new(ErrorCode::UnreadableDocument).given(why);
        let document = document.strip_prefix(b"\xef\xbb\xbf").unwrap_or(document);
        let document = core::str::from_utf8(document).map_err(|error| unreadable(error.to_string()))?;
        if document.trim_start().starts_with('{') {
            serde_json::from_str(document).map_err(|error| unreadable(format!("JSON: {error}")))
        } else {
            toml::from_str(document).map(Self::with_dates_as_text).map_err(|error| {
                let before = error.span().and_then(|span| document.get(..span.start)).unwrap_or_default();
                let line = before.matches('\n').count() + 1;
                let column = before.rsplit('\n').next().unwrap_or_default().chars().count() + 1;
                let place = format!("at line {line} column {column}");
                if error.message() == DUPLICATE_IN_TOML {
                    let key = error.span().and_then(|span| document.get(span));
                    let key = text::quoted(key.unwrap_or_default());
                    return Error::new(ErrorCode::DuplicateKey).given(format!("{key} {place}"));
                }
                let why = error.message().replace('\n', ", ");
                unreadable(format!("TOML: {why} {place}"))
            })
        }
    }

    fn with_dates_as_text(self) -> Self {
        match self {
            Self::List(nodes) => Self::List(nodes.into_iter().map(Self::with_dates_as_text).collect()),
            Self::Table(mut entries) => match entries.as_mut_slice() {
                [(key, Self::Text(date))] if key == DATE_IN_TOML => Self::Text(core::mem::take(date)),
                _ => Self::Table(entries.into_iter().map(|(key, node)| (key, node.with_dates_as_text())).collect()),
            },
            other => other,
        }
    }

    /// The unit that it states a quantity in, where it does.
    ///
    /// ```
    /// use mixcalc::document::Node;
    ///
    /// assert_eq!(Node::Text("12 US fl oz/ac".into()).unit(), Some("US fl oz/ac"));
    /// assert_eq!(Node::read(br#"{"value": 300, "unit": "L/ha"}"#)?.unit(), Some("L/ha"));
    /// assert_eq!(Node::Number(0.1).unit(), None);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    #[must_use]
    pub fn unit(&self) -> Option<&str> {
        match self {
            Self::Text(text) => text.split_once(' ').map(|(_, unit)| unit),
            Self::Quantity(_, unit) => Some(unit),
            Self::Table(entries) => entries.iter().find_map(|(key, node)| match node {
                Self::Text(unit) if key == "unit" => Some(unit.as_str()),
                _ => None,
            }),
            _ => None,
        }
    }

    /// Reads a wire struct; an error names the place.
    pub(super) fn wire<'de, T: Deserialize<'de>>(&'de self) -> Result<T, Error> {
        T::deserialize(Tree(self)).map_err(|error| error.0)
    }
}

impl<'de> Deserialize<'de> for Node {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Any;

        impl<'de> Visitor<'de> for Any {
            type Value = Node;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a value")
            }
            fn visit_unit<E>(self) -> Result<Node, E> {
                Ok(Node::Null)
            }
            fn visit_bool<E>(self, value: bool) -> Result<Node, E> {
                Ok(Node::Bool(value))
            }
            #[allow(clippy::cast_precision_loss)] // a document's numbers are doubles
            fn visit_i64<E>(self, value: i64) -> Result<Node, E> {
                Ok(Node::Number(value as f64))
            }
            #[allow(clippy::cast_precision_loss)] // a document's numbers are doubles
            fn visit_u64<E>(self, value: u64) -> Result<Node, E> {
                Ok(Node::Number(value as f64))
            }
            fn visit_f64<E>(self, value: f64) -> Result<Node, E> {
                Ok(Node::Number(value))
            }
            fn visit_str<E>(self, value: &str) -> Result<Node, E> {
                Ok(Node::Text(value.into()))
            }
            fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Node, A::Error> {
                let mut nodes = Vec::new();
                while let Some(node) = list.next_element()? {
                    nodes.push(node);
                }
                Ok(Node::List(nodes))
            }
            fn visit_map<A: MapAccess<'de>>(self, mut table: A) -> Result<Node, A::Error> {
                let mut entries = Vec::new();
                while let Some(entry) = table.next_entry()? {
                    entries.push(entry);
                }
                Ok(Node::Table(entries))
            }
        }

        deserializer.deserialize_any(Any)
    }
}

/// A node, for serde to read from.
#[derive(Clone, Copy)]
struct Tree<'de>(&'de Node);

impl<'de> Deserializer<'de> for Tree<'de> {
    type Error = WireError;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, WireError> {
        match self.0 {
            Node::Null => visitor.visit_unit(),
            Node::Bool(value) => visitor.visit_bool(*value),
            Node::Number(value) => visitor.visit_f64(*value),
            Node::Text(value) => visitor.visit_borrowed_str(value),
            Node::Quantity(quantity, unit) => visitor.visit_bytes(&carried(*quantity, unit)),
            Node::List(nodes) => visitor.visit_seq(Items(nodes.iter().enumerate())),
            Node::Table(entries) => visitor.visit_map(Entries { rest: entries.iter(), value: None }),
            Node::Other(name) => Err(de::Error::invalid_type(Unexpected::Other(name), &visitor)),
        }
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, WireError> {
        if *self.0 == Node::Null { visitor.visit_none() } else { visitor.visit_some(self) }
    }

    /// Choices are words.
    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, WireError> {
        match self.0 {
            Node::Text(word) => word.as_str().into_deserializer().deserialize_enum(name, variants, visitor),
            other => Err(de::Error::invalid_type(other.unexpected(), &text::one_of(variants).as_str())),
        }
    }

    /// A table; serde would also take a list, as a table whose keys are left out.
    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, WireError> {
        match self.0 {
            Node::Table(_) => self.deserialize_any(visitor),
            other => Err(de::Error::invalid_type(other.unexpected(), &visitor)),
        }
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit unit_struct newtype_struct
        seq tuple tuple_struct map identifier ignored_any
    }
}

/// The items of a list; an error in one gets its number.
struct Items<'de>(Enumerate<Iter<'de, Node>>);

impl<'de> SeqAccess<'de> for Items<'de> {
    type Error = WireError;

    fn next_element_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, WireError> {
        let item = self.0.next();
        item.map(|(index, node)| seed.deserialize(Tree(node)).map_err(|error| error.at(&format!("[{index}]"))))
            .transpose()
    }
}

/// The entries of a table; an error in a key or its value gets the key.
struct Entries<'de> {
    rest: Iter<'de, (String, Node)>,
    value: Option<&'de (String, Node)>,
}

impl<'de> MapAccess<'de> for Entries<'de> {
    type Error = WireError;

    fn next_key_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, WireError> {
        self.value = self.rest.next();
        let key = self.value.map(|(key, _)| key.as_str());
        key.map(|key| seed.deserialize(key.into_deserializer()).map_err(|error: WireError| error.at(&shown(key))))
            .transpose()
    }

    fn next_value_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, WireError> {
        // serde asks for a value after its key alone.
        let Some((key, node)) = self.value.take() else {
            return Err(de::Error::custom(text::A_TABLE));
        };
        seed.deserialize(Tree(node)).map_err(|error| error.at(&shown(key)))
    }
}

/// A key as a place shows it.
fn shown(key: &str) -> String {
    let quoted = text::quoted(key);
    quoted.get(1..quoted.len() - 1).unwrap_or_default().into()
}

impl Node {
    fn unexpected(&self) -> Unexpected<'_> {
        match self {
            Self::Null => Unexpected::Unit,
            Self::Bool(value) => Unexpected::Bool(*value),
            Self::Number(value) => Unexpected::Float(*value),
            Self::Text(value) => Unexpected::Str(value),
            Self::List(_) => Unexpected::Seq,
            Self::Table(_) => Unexpected::Map,
            Self::Quantity(..) => Unexpected::Other(text::A_QUANTITY),
            Self::Other(name) => Unexpected::Other(name),
        }
    }
}

impl<'de> IntoDeserializer<'de, WireError> for Tree<'de> {
    type Deserializer = Self;
    fn into_deserializer(self) -> Self {
        self
    }
}

/// A quantity and its unit as bytes, which serde can carry and which no document has.
fn carried(quantity: Quantity, unit: &str) -> Vec<u8> {
    quantity.to_bytes().into_iter().chain(unit.bytes()).collect()
}

/// What [`carried`] made into bytes.
pub(super) fn delivered(bytes: &[u8]) -> Option<(Quantity, &str)> {
    let (quantity, unit) = bytes.split_first_chunk()?;
    Some((Quantity::from_bytes(*quantity)?, core::str::from_utf8(unit).ok()?))
}

/// What a document has where something else is due.
fn as_given(given: Unexpected<'_>) -> String {
    match given {
        Unexpected::Str(words) => format!("{} {}", text::word("the text"), text::quoted(words)),
        Unexpected::Float(number) => format!("{} {number}", text::word("the number")),
        Unexpected::Bool(value) => format!("{value}"),
        Unexpected::Unit => "null".into(),
        Unexpected::Seq => text::A_LIST.into(),
        Unexpected::Map => text::A_TABLE.into(),
        Unexpected::Bytes(_) => text::A_QUANTITY.into(),
        Unexpected::Other(name) => text::quoted(name).trim_matches('"').into(),
        other => format!("{other}"),
    }
}

/// What serde expects, in the words of documents.
fn in_words(expected: &dyn Expected) -> String {
    let expected = expected.to_string();
    text::word(match expected.as_str() {
        "f64" => "a number",
        "a string" => "a text",
        "a boolean" => "true or false",
        "a sequence" => text::A_LIST,
        name if name.starts_with("struct ") => text::A_TABLE,
        _ => return expected,
    })
    .to_string()
}

/// The crate's error, as serde makes it.
#[derive(Debug)]
pub(super) struct WireError(pub(super) Error);

impl WireError {
    fn at(self, place: &str) -> Self {
        Self(self.0.at(place))
    }
}

impl fmt::Display for WireError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl core::error::Error for WireError {}

impl de::Error for WireError {
    fn custom<T: fmt::Display>(message: T) -> Self {
        Self(Error::new(ErrorCode::UnreadableDocument).given(message))
    }

    fn invalid_type(given: Unexpected<'_>, expected: &dyn Expected) -> Self {
        Self(Error::new(ErrorCode::WrongType).given(as_given(given)).allowed(in_words(expected)))
    }

    fn invalid_value(given: Unexpected<'_>, expected: &dyn Expected) -> Self {
        Self::invalid_type(given, expected)
    }

    fn unknown_variant(given: &str, choices: &'static [&'static str]) -> Self {
        Self(Error::new(ErrorCode::UnknownChoice).given(text::quoted(given)).allowed(text::one_of(choices)))
    }

    fn unknown_field(given: &str, keys: &'static [&'static str]) -> Self {
        let allowed =
            text::nearest(given, keys.iter().copied()).map_or_else(|| text::one_of(keys), ToString::to_string);
        Self(Error::new(ErrorCode::UnknownKey).given(text::quoted(given)).allowed(allowed))
    }

    fn missing_field(key: &'static str) -> Self {
        Self(Error::new(ErrorCode::MissingInput).at(key).allowed(text::key_example(key)))
    }

    fn duplicate_field(key: &'static str) -> Self {
        Self(Error::new(ErrorCode::DuplicateKey).at(key).given(text::quoted(key)))
    }
}
