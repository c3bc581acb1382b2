//! Python interface.
