//! Which of two doses holds, where a product has a least dose per ground area beside a dose per volume of mix.

use alloc::vec::Vec;

use super::job::Job;
use super::mix::Mix;
use crate::error::Error;
use crate::label::{Product, Share};
use crate::quantity::close::is_under;

/// The job with each product at the dose that holds: the greater one.
///
/// Begins with every least dose. Where a dose per volume comes to no less, it takes its place; that makes the volume rate of mix no less, so
/// that it still comes to no less, and the others are looked at again.
pub(super) fn held(job: &Job) -> Result<Job, Error> {
    if job.products().iter().all(|product| product.at_least().is_none()) {
        return Ok(job.clone());
    }
    let mut products: Vec<Product> = job.products().to_vec();
    for product in &mut products {
        if let Some(least) = product.at_its_least() {
            *product = least;
        }
    }
    loop {
        let held = job.with_products(products.clone());
        let mix = Mix::of(&held)?;
        let (of, mut is_settled) = (mix.composition(&held), true);
        for ((product, given), (share, _)) in products.iter_mut().zip(job.products()).zip(&mix.shares) {
            let by_volume = given.dose().share(&of)?;
            if product.dose() != given.dose() && is_no_less(by_volume, *share) {
                *product = given.clone();
                is_settled = false;
            }
        }
        if is_settled {
            return Ok(held);
        }
    }
}

fn is_no_less(share: Share, than: Share) -> bool {
    match (share, than) {
        (Share::Volume(share), Share::Volume(than)) => !is_under(share, than),
        (Share::Mass(share), Share::Mass(than)) => !is_under(share, than),
        _ => false,
    }
}
