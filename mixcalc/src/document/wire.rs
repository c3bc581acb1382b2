//! How the structs and enums of documents are declared.

/// Declares a wire enum: words of a document for an enum of the core, in both directions.
macro_rules! choices {
    ($($(#[$doc:meta])* $wire:ident for $core:ident { $($variant:ident = $word:literal),* $(,)? })*) => { $(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        pub(super) enum $wire {
            $(#[serde(rename = $word)] $variant,)*
        }

        impl From<$wire> for $core {
            fn from(wire: $wire) -> Self {
                match wire { $($wire::$variant => Self::$variant,)* }
            }
        }

        impl From<$core> for $wire {
            fn from(core: $core) -> Self {
                match core { $($core::$variant => Self::$variant,)* }
            }
        }
    )* };
}

/// Declares a wire struct: unknown keys are refused, absent ones are left out on the way out.
macro_rules! wire {
    ($($(#[$doc:meta])* struct $name:ident { $($(#[$attribute:meta])* $key:ident: $kind:ty,)* })*) => { $(
        #[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[serde(deny_unknown_fields)]
        $(#[$doc])*
        pub(super) struct $name { $($(#[$attribute])* pub(super) $key: $kind,)* }
    )* };
}

/// Declares a wire struct of the way out.
macro_rules! wire_out {
    ($($(#[$doc:meta])* struct $name:ident { $($(#[$attribute:meta])* $key:ident: $kind:ty,)* })*) => { $(
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq, Serialize)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        pub(super) struct $name { $($(#[$attribute])* $key: $kind,)* }
    )* };
}
