//! Python objects as the tree that the core reads parts of a job from.

use std::borrow::Cow;

use mixcalc::document::Node;
use pyo3::prelude::*;
use pyo3::types::{PyBool, PyDict, PyList, PyMapping, PyString, PyTuple};

use crate::part;
use crate::quantity::{Quantity, foreign, number, quantity_of};

/// Deeper than any job, and shallow enough for every stack.
const DEEPEST: usize = 32;

/// A tree of what a document could hold, quantities and parts among them; what no document could hold is named, for the core to
/// refuse at its place.
pub(crate) fn node(value: &Bound<'_, PyAny>) -> PyResult<Node> {
    node_at(value, 0)
}

fn node_at(value: &Bound<'_, PyAny>, depth: usize) -> PyResult<Node> {
    if value.is_none() {
        return Ok(Node::Null);
    }
    if let Ok(text) = value.cast::<PyString>() {
        return Ok(match text.to_cow() {
            Ok(text) => Node::Text(text.into_owned()),
            Err(_) => Node::Other("a text with half of a surrogate pair".into()),
        });
    }
    if let Some(Quantity { core, unit }) = quantity_of(value) {
        return Ok(Node::Quantity(core, unit.into_owned()));
    }
    if let Ok(truth) = value.cast::<PyBool>() {
        return Ok(Node::Bool(truth.is_true()));
    }
    if depth == DEEPEST {
        return Ok(Node::Other("a value that is nested too deeply".into()));
    }
    if let Ok(table) = value.cast::<PyMapping>() {
        return table_of(table, depth);
    }
    if value.is_instance_of::<PyList>() || value.is_instance_of::<PyTuple>() {
        let nodes: PyResult<_> = value.try_iter()?.map(|item| node_at(&item?, depth + 1)).collect();
        return Ok(Node::List(nodes?));
    }
    // A scalar of numpy is what it holds.
    if value.get_type().module()?.to_string_lossy() == "numpy"
        && value.getattr_opt("ndim")?.is_some_and(|ndim| ndim.eq(0).unwrap_or(false))
    {
        return node_at(&value.call_method0("item")?, depth + 1);
    }
    if let Some(node) = part::node_of(value) {
        return Ok(node);
    }
    if let Some(number) = number(value)? {
        return Ok(Node::Number(number));
    }
    if let Some(Quantity { core, unit }) = foreign(value)? {
        return Ok(Node::Quantity(core, unit.into_owned()));
    }
    // A day of the calendar is the text of it; a time of the day stays in that text, for the core to refuse.
    if value.is_instance(&value.py().import("datetime")?.getattr("date")?)? {
        return Ok(Node::Text(value.call_method0("isoformat")?.extract()?));
    }
    Ok(Node::Other(format!("an object of type {}", value.get_type().name()?)))
}

fn table_of(table: &Bound<'_, PyMapping>, depth: usize) -> PyResult<Node> {
    let entries: PyResult<_> = table
        .items()?
        .iter()
        .map(|entry| {
            let (key, value) = entry.extract::<(Bound<'_, PyAny>, Bound<'_, PyAny>)>()?;
            let key = match key.cast::<PyString>() {
                Ok(text) => text.to_string_lossy().into_owned(),
                Err(_) => key.repr()?.to_string_lossy().into_owned(),
            };
            Ok((key, node_at(&value, depth + 1)?))
        })
        .collect();
    Ok(Node::Table(entries?))
}

/// A key of documents as a keyword: what is a word of the language ends in an underscore (PEP 8).
pub(crate) fn keyword(key: &str) -> Cow<'_, str> {
    if key == "class" { "class_".into() } else { key.into() }
}

/// The entries of keyword arguments; `None` is a [`Node::Null`].
pub(crate) fn changes(fields: Option<&Bound<'_, PyDict>>) -> PyResult<Vec<(String, Node)>> {
    let entries = fields.into_iter().flatten();
    let text = |key: &Bound<'_, PyAny>| {
        let key = key.cast::<PyString>()?.to_string_lossy().into_owned();
        Ok::<_, PyErr>(if key == "class_" { "class".into() } else { key })
    };
    entries.map(|(key, value)| Ok((text(&key)?, node_at(&value, 1)?))).collect()
}
