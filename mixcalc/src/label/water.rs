//! What is in the water: its hardness, and the ammonium sulfate that binds it.

use crate::error::Error;
use crate::quantity::close::{is_over, is_under};
use crate::quantity::{MassConcentration, Ratio, factor, ordered_sum};
use crate::text;

/// Calcium carbonate that stands for so much calcium and magnesium: ratios of molar masses, 100.087 to 40.078 and to 24.305.
const CARBONATE_OF_CALCIUM: f64 = 2.497;
const CARBONATE_OF_MAGNESIUM: f64 = 4.118;

/// The published equation in its own units: pounds per 100 US gallons for a part per million.
/// North Dakota State University, equation used to calculate the rate of ammonium sulfate, 2015.
const POUNDS_FOR_POTASSIUM: f64 = 0.002;
const POUNDS_FOR_SODIUM: f64 = 0.005;
const POUNDS_FOR_CALCIUM: f64 = 0.009;
const POUNDS_FOR_MAGNESIUM: f64 = 0.014;
const POUNDS_FOR_IRON: f64 = 0.042;

/// Where the classes of hardness end, in mg/L of calcium carbonate. United States Geological Survey.
const SOFT_BELOW: f64 = 60.0;
const MODERATE_TO: f64 = 120.0;
const HARD_TO: f64 = 180.0;

/// What a water analysis says; what it does not say is none.
///
/// ```
/// use mixcalc::{MassConcentration, Water};
///
/// // 100 mg/L of calcium and 30 mg/L of magnesium: 249.7 + 123.54 mg/L of calcium carbonate.
/// let water = Water::new()
///     .with_calcium(MassConcentration::read("100 mg/L")?)?
///     .with_magnesium(MassConcentration::read("30 mg/L")?)?;
/// assert_eq!(water.hardness().to_string(), MassConcentration::read("373.24 mg/L")?.to_string());
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Water {
    potassium: MassConcentration,
    sodium: MassConcentration,
    calcium: MassConcentration,
    magnesium: MassConcentration,
    iron: MassConcentration,
}

text::named! {
    /// How hard water is.
    #[derive(PartialOrd, Ord)]
    HardnessClass {
        /// Under 60 mg/L of calcium carbonate.
        Soft = "soft";
        /// To 120 mg/L.
        Moderate = "moderate";
        /// To 180 mg/L.
        Hard = "hard";
        /// Over 180 mg/L.
        VeryHard = "very-hard";
    }
}

/// The name under which ammonium sulfate is looked for among active substances.
pub(crate) const AMMONIUM_SULFATE: &str = "ammonium sulfate";

/// Hardness from which water is treated, in mg/L of calcium carbonate. Turf advisories of US extension services (probable).
const TREATED_FROM: f64 = 200.0;

/// Hardness from which water is treated, as advice.
pub(crate) fn treated_from() -> MassConcentration {
    milligram_in_liter() * TREATED_FROM
}

macro_rules! ions {
    ($($(#[$doc:meta])* $with:ident $ion:ident;)*) => { $(
        $(#[$doc])*
        ///
        /// # Errors
        ///
        /// [`OutOfRange`](crate::ErrorCode::OutOfRange) for less than nothing, or a size that nobody measures.
        pub fn $with(mut self, $ion: MassConcentration) -> Result<Self, Error> {
            self.$ion = factor($ion, stringify!($ion))?;
            Ok(self)
        }

        $(#[$doc])*
        #[must_use]
        pub const fn $ion(self) -> MassConcentration {
            self.$ion
        }
    )* };
}

impl Water {
    /// Water with nothing in it.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    ions! {
        /// Potassium in it.
        with_potassium potassium;
        /// Sodium in it.
        with_sodium sodium;
        /// Calcium in it.
        with_calcium calcium;
        /// Magnesium in it.
        with_magnesium magnesium;
        /// Iron in it.
        with_iron iron;
    }

    /// Its hardness, as calcium carbonate: `2.497 Ca + 4.118 Mg`.
    ///
    /// # Source
    ///
    /// `docs/numbers.md`, 19.
    #[must_use]
    pub fn hardness(self) -> MassConcentration {
        self.calcium * CARBONATE_OF_CALCIUM + self.magnesium * CARBONATE_OF_MAGNESIUM
    }

    /// The class of its hardness.
    ///
    /// # Source
    ///
    /// United States Geological Survey.
    #[must_use]
    pub fn hardness_class(self) -> HardnessClass {
        let limit = |parts| milligram_in_liter() * parts;
        match self.hardness() {
            hardness if is_under(hardness, limit(SOFT_BELOW)) => HardnessClass::Soft,
            hardness if !is_over(hardness, limit(MODERATE_TO)) => HardnessClass::Moderate,
            hardness if !is_over(hardness, limit(HARD_TO)) => HardnessClass::Hard,
            _ => HardnessClass::VeryHard,
        }
    }

    /// Ammonium sulfate that binds what is in it, per volume of mix: the least that a weak acid needs. A label may ask for more
    /// ([`ammonium_sulfate`]).
    ///
    /// # Example
    ///
    /// 100 ppm of calcium and 30 ppm of magnesium: `0.009 * 100 + 0.014 * 30 = 1.32` lb in 100 US gallons.
    ///
    /// ```
    /// use mixcalc::{MassConcentration, Quantity, Water};
    ///
    /// let water = Water::new()
    ///     .with_calcium(MassConcentration::read("100 mg/L")?)?
    ///     .with_magnesium(MassConcentration::read("30 mg/L")?)?;
    /// let need = Quantity::from(water.ammonium_sulfate_need());
    /// assert!((need.to("lb/100 US gal")? - 1.32).abs() < 1e-12);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// North Dakota State University, 2015: `lb per 100 US gal = 0.002 K + 0.005 Na + 0.009 Ca + 0.014 Mg + 0.042 Fe`, in ppm.
    #[must_use]
    pub fn ammonium_sulfate_need(self) -> MassConcentration {
        let pounds = [
            (self.potassium, POUNDS_FOR_POTASSIUM),
            (self.sodium, POUNDS_FOR_SODIUM),
            (self.calcium, POUNDS_FOR_CALCIUM),
            (self.magnesium, POUNDS_FOR_MAGNESIUM),
            (self.iron, POUNDS_FOR_IRON),
        ];
        ordered_sum(pounds.map(|(ion, pounds)| ion * pounds)) * pound_in_gallons()
    }
}

/// A part per million of water.
fn milligram_in_liter() -> MassConcentration {
    MassConcentration::read("1 mg/L").unwrap_or_default()
}

/// A pound in 100 US gallons, in parts of a milligram in a liter.
fn pound_in_gallons() -> Ratio {
    MassConcentration::read("1 lb/100 US gal").unwrap_or_default() / milligram_in_liter()
}

/// Ammonium sulfate per volume of mix: the greater of what the water needs and what the label asks for.
///
/// * `need`: from [`Water::ammonium_sulfate_need`].
/// * `label`: the label's rate.
///
/// # Errors
///
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for an input below zero, or a size that nobody measures.
///
/// # Example
///
/// ```
/// use mixcalc::{MassConcentration, ammonium_sulfate};
///
/// let (need, label) = (MassConcentration::read("1.5 g/L")?, MassConcentration::read("10 g/L")?);
/// assert_eq!(ammonium_sulfate(need, label)?, label);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// `docs/numbers.md`, 19: the equation is the least that binds the water, the label is the rule.
pub fn ammonium_sulfate(need: MassConcentration, label: MassConcentration) -> Result<MassConcentration, Error> {
    Ok(factor(need, "need")?.max(factor(label, "label")?))
}
