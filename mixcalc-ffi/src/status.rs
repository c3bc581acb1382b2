//! Codes of the border, 0 to 99; those of the core begin at 100 and are added to the header from its catalogue.

/// The question is answered.
pub const MIXCALC_STATUS_OK: u32 = 0;

/// A pointer that must not be NULL is NULL.
pub const MIXCALC_STATUS_NULL_POINTER: u32 = 1;

/// The struct_size of a struct is smaller than the first release's; such a struct is left as it was.
pub const MIXCALC_STATUS_STRUCT_SIZE: u32 = 2;

/// A length is above PTRDIFF_MAX, which no object has: mostly a negative number turned into a size_t.
pub const MIXCALC_STATUS_LENGTH: u32 = 3;

/// There is no such load, product, step or finding: an index counts from 0 and stays under the count.
pub const MIXCALC_STATUS_INDEX: u32 = 4;

/// There is no kind of quantity of that name.
pub const MIXCALC_STATUS_KIND: u32 = 5;

/// A number that stands for no member of its list, such as MIXCALC_ALLEYS_EACH.
pub const MIXCALC_STATUS_CHOICE: u32 = 6;

/// The caller's model returned another status than MIXCALC_STATUS_OK, which ended the simulation.
pub const MIXCALC_STATUS_MODEL: u32 = 7;

/// A fault of the library, caught at the border. The process may go on.
pub const MIXCALC_STATUS_PANIC: u32 = 99;
