//! Structs that the caller owns, whose first field says how much of them the caller's release knows.

use std::mem::size_of;

use crate::failure::Failure;

/// A struct that is only ever appended to.
///
/// # Safety
///
/// It is `repr(C)`, its first field is `struct_size: usize`, and any bytes in the rest of it are a value.
pub(crate) unsafe trait Appended: Sized {
    /// Up to the end of the last field of the first release: that release is served for good.
    const LEAST_SIZE: usize;

    /// Whether there is a struct at `this`, and it can be written. None is fine too.
    ///
    /// `this` is NULL or points at a struct as large as its `struct_size` says.
    unsafe fn is_sound(this: *const Self) -> bool {
        // SAFETY: the caller's promise; `struct_size` is the first field of every release.
        this.is_null() || unsafe { *this.cast::<usize>() } >= Self::LEAST_SIZE
    }

    /// Writes what the caller's release knows of `ours`; its `struct_size`, and a tail that we do not know, stay.
    ///
    /// `this` points at a struct as large as its `struct_size` says, and is sound.
    unsafe fn write(this: *mut Self, ours: &Self) {
        let skipped = size_of::<usize>();
        // SAFETY: both structs begin alike and reach at least to `len`; ours is a reference, so they are apart.
        unsafe {
            let len = (*this.cast::<usize>()).min(size_of::<Self>());
            let from = std::ptr::from_ref(ours).byte_add(skipped).cast::<u8>();
            from.copy_to_nonoverlapping(this.byte_add(skipped).cast(), len - skipped);
        }
    }
}

/// Hands `make()` to the caller's `parameter`, which is looked at first.
///
/// `out` is NULL or points at a struct as large as its `struct_size` says.
pub(crate) unsafe fn fill<T: Appended>(
    parameter: &str,
    out: *mut T,
    make: impl FnOnce() -> Result<T, Box<Failure>>,
) -> Result<(), Box<Failure>> {
    if out.is_null() {
        return Err(Failure::null_pointer(parameter));
    }
    // SAFETY: the caller's promise.
    if !unsafe { T::is_sound(out) } {
        return Err(Failure::struct_size(parameter));
    }
    let ours = make()?;
    // SAFETY: the caller's promise, and it is sound.
    unsafe { T::write(out, &ours) };
    Ok(())
}

/// How large a field is, from a way to it.
pub(crate) const fn size_of_field<T, F>(_: fn(&T) -> &F) -> usize {
    size_of::<F>()
}

/// Says with which field the first release of a struct ended.
macro_rules! first_release_ends_with {
    ($($name:ident.$field:ident;)*) => { $(
        // SAFETY: declared `repr(C)` with `struct_size` first; numbers and pointers, for which any bytes are a value.
        unsafe impl $crate::sized::Appended for $name {
            const LEAST_SIZE: usize =
                std::mem::offset_of!(Self, $field) + $crate::sized::size_of_field(|this: &Self| &this.$field);
        }
    )* };
}
pub(crate) use first_release_ends_with;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::status::{MIXCALC_STATUS_NULL_POINTER, MIXCALC_STATUS_STRUCT_SIZE};

    #[derive(Clone, Copy, Debug, Default, PartialEq)]
    #[repr(C)]
    struct First {
        struct_size: usize,
        a: u64,
    }

    /// The same struct, one release later.
    #[derive(Clone, Copy, Debug, Default, PartialEq)]
    #[repr(C)]
    struct Second {
        struct_size: usize,
        a: u64,
        b: f64,
    }

    first_release_ends_with! { Second.a; }

    const OURS: Second = Second { struct_size: size_of::<Second>(), a: 1, b: 2.5 };

    #[test]
    fn an_older_caller_gets_what_it_knows() {
        let mut theirs = [First { struct_size: size_of::<First>(), a: 0 }, First { struct_size: 7, a: 7 }];
        unsafe { fill("out", (&raw mut theirs[0]).cast::<Second>(), || Ok(OURS)) }.unwrap();
        assert_eq!(theirs, [First { struct_size: size_of::<First>(), a: 1 }, First { struct_size: 7, a: 7 }]);
    }

    #[test]
    fn a_newer_caller_keeps_its_tail() {
        #[repr(C)]
        struct Third {
            known: Second,
            c: u64,
        }
        let mut theirs = Third { known: Second { struct_size: size_of::<Third>(), ..Second::default() }, c: 7 };
        unsafe { fill("out", (&raw mut theirs).cast::<Second>(), || Ok(OURS)) }.unwrap();
        assert_eq!(theirs.known, Second { struct_size: size_of::<Third>(), ..OURS });
        assert_eq!(theirs.c, 7);
    }

    #[test]
    fn what_is_too_small_is_left_alone_and_nothing_is_made_for_it() {
        for struct_size in [0, 8, Second::LEAST_SIZE - 1] {
            let mut theirs = Second { struct_size, a: 7, b: 7.0 };
            let refused = unsafe { fill("out", &raw mut theirs, || unreachable!()) }.unwrap_err();
            assert_eq!(refused.code, MIXCALC_STATUS_STRUCT_SIZE);
            assert_eq!(theirs, Second { struct_size, a: 7, b: 7.0 });
        }
        let refused = unsafe { fill::<Second>("out", std::ptr::null_mut(), || unreachable!()) }.unwrap_err();
        assert_eq!(refused.code, MIXCALC_STATUS_NULL_POINTER);
    }
}
