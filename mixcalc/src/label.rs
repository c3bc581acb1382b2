//! Products: formulation, active substances, densities, the dose on any basis, and what the label limits.

pub(crate) mod amount;
mod containers;
mod crop;
mod dose;
mod formulation;
mod limits;
mod product;
mod protection;
mod role;
mod season;
mod substance;
mod water;

pub use amount::*;
pub use containers::Containers;
pub(crate) use containers::{CONTAINER_RINSES, LARGE_RINSE_PERCENT, SMALL_RINSE_PERCENT};
pub(crate) use crop::Stand;
pub use crop::{Crop, PerCrop, Rows, Sides};
pub use dose::{Basis, Dose};
pub(crate) use dose::{Composition, Displacement, Share, needs_mix_density};
pub(crate) use formulation::Unsuited;
pub use formulation::{Formulation, MeasuredBy, MixGroup, State};
pub use limits::{Label, LabelTank};
pub use product::Product;
pub use protection::Protection;
pub use role::{LabelOrder, OrderStep, Role};
pub use season::{Applied, CapBasis, Capped, Date, Parcel, Restriction, Rule, Season, Treatment, Window};
pub use substance::{ActiveSubstance, Equivalent, SubstanceContent};
pub(crate) use water::{AMMONIUM_SULFATE, treated_from};
pub use water::{HardnessClass, Water, ammonium_sulfate};
