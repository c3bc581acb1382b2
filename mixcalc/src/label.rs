//! Products: formulation, active substances, densities, the dose on any basis, and what the label limits.

mod amount;
mod dose;
mod formulation;
mod limits;
mod product;
mod role;
mod substance;
mod water;

pub use amount::*;
pub use dose::{Basis, Dose};
pub(crate) use dose::{Displacement, Share, needs_mix_density};
pub(crate) use formulation::Unsuited;
pub use formulation::{Formulation, MeasuredBy, MixGroup, State};
pub use limits::Label;
pub use product::Product;
pub use role::{LabelOrder, OrderStep, Role};
pub use substance::{ActiveSubstance, SubstanceContent};
pub use water::{HardnessClass, Water, ammonium_sulfate};
