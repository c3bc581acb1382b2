//! The job document: wire structs, and the way to a [`Job`] and back.

use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

use serde::{Deserialize, Serialize};

use super::node::Node;
use super::stated::{Fraction, Stated};
use crate::error::{Error, ErrorCode};
use crate::label::{
    ActiveSubstance, Basis, Dose, Formulation, Label, LabelOrder, OrderStep, Product, Role, SubstanceContent,
};
use crate::measure::{Amount, Measure, MeasureKind};
use crate::plan::{Job, LastStrip, Loading, Mixing, Profile, Rate, Split};
use crate::quantity::{Kind, System};
use crate::sprayer::{Residual, Sprayer, SprayerKind, Tank};
use crate::text;

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

choices! {
    /// Whose measures the load sheet speaks.
    UnitsWire for System { Metric = "metric", Us = "US", Imperial = "imperial" }
    /// What a dose is counted on.
    BasisWire for Basis { GroundArea = "ground-area", MixVolume = "mix-volume", CarrierVolume = "carrier-volume" }
    /// What an amount is measured with.
    MeasureKindWire for MeasureKind { Vessel = "vessel", Scale = "scale", Pack = "pack" }
    /// The kind of sprayer.
    SprayerKindWire for SprayerKind {
        HandHeld = "hand-held", Knapsack = "knapsack", Boom = "boom", BushAndTree = "bush-and-tree", SemiMobile = "semi-mobile",
    }
    /// How the mix is divided into loads.
    SplitWire for Split { FullThenPart = "full-then-part", Even = "even" }
    /// What a product is in the tank for.
    RoleWire for Role {
        Product = "product", WaterConditioner = "water-conditioner", Buffer = "buffer", AntiFoam = "anti-foam",
        CompatibilityAgent = "compatibility-agent", Surfactant = "surfactant", Oil = "oil", DriftAgent = "drift-agent",
        FoliarNutrient = "foliar-nutrient",
    }
    /// A published mixing order.
    ProfileWire for Profile {
        Suggested = "suggested", Manitoba = "manitoba", SouthDakota = "south-dakota", Wales = "wales", Utah = "utah",
        SeedTrade = "seed-trade",
    }
    /// Which end of the mixing order.
    OrderStepWire for OrderStep { First = "first", Last = "last" }
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

wire! {
    /// A job: everything that a plan is made from.
    #[cfg_attr(feature = "schema", schemars(extend("oneOf" = [
        { "required": ["volume_rate"], "properties": { "carrier_rate": { "type": "null" } } },
        { "required": ["carrier_rate"], "properties": { "volume_rate": { "type": "null" } } },
    ])))]
    struct JobWire {
        /// The format of this document.
        format: JobFormat,
        /// Free text.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        title: Option<String>,
        /// Whose measures the load sheet speaks; follows the volume rate where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        units: Option<UnitsWire>,
        /// The ground to be treated.
        area: Stated,
        /// Volume of mix per ground area, products inside. Exactly one of `volume_rate` and `carrier_rate` is given.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        volume_rate: Option<Stated>,
        /// Volume of carrier per ground area, products on top.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        carrier_rate: Option<Stated>,
        /// Density of the mix: needed for doses in % w/w and for a limit of the carried mass.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        mix_density: Option<Stated>,
        /// The products, in the order in which they go into the tank.
        #[serde(default)]
        products: Vec<ProductWire>,
        /// The measures at hand.
        #[serde(default)]
        measures: Vec<MeasureWire>,
        /// The sprayer.
        sprayer: SprayerWire,
        /// The tank: nominal, brim or both are given.
        tank: TankWire,
        /// How the mix is divided into loads.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        loading: Option<LoadingWire>,
        /// The mixing order; without one the products go into the tank in the order of the job.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        mixing: Option<MixingWire>,
    }

    /// A product at its dose.
    struct ProductWire {
        /// Unique in the job.
        name: String,
        /// Two-letter international code, such as SC.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        formulation: Option<String>,
        /// What it is in the tank for; a product where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        role: Option<RoleWire>,
        /// Per ground area, per volume of mix or of carrier, or per a volume that the label states, such as 20 mL/15 L.
        dose: Stated,
        /// The least dose per ground area beside a dose per volume of mix: the greater of the two holds.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        at_least: Option<Stated>,
        /// What the dose is counted on; follows the dose where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        basis: Option<BasisWire>,
        /// Density of the liquid product.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        density: Option<Stated>,
        /// Density of a dry product's particles: what it displaces.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        particle_density: Option<Stated>,
        /// Density of a dry product's heap: what a vessel of it weighs.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        bulk_density: Option<Stated>,
        /// Whether it does not run out of a measure by itself.
        #[serde(default, skip_serializing_if = "core::ops::Not::not")]
        viscous: bool,
        /// How much of it there is.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        stock: Option<Stated>,
        /// What acts in it.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        active_substances: Vec<SubstanceWire>,
        /// What the label limits.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        label: Option<LabelWire>,
        /// One measure for this product, overriding the list.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        measure: Option<MeasureWire>,
    }

    /// An active substance and its content.
    struct SubstanceWire {
        /// Its name.
        name: String,
        /// Mass per volume or per mass of product.
        content: Stated,
    }

    /// What a label limits.
    struct LabelWire {
        /// The largest dose; the dose itself where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        max_dose: Option<Stated>,
        /// What the largest dose is counted on; follows it where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        max_dose_basis: Option<BasisWire>,
        /// The least volume rate.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        min_volume_rate: Option<Stated>,
        /// The largest volume rate.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        max_volume_rate: Option<Stated>,
        /// Share of the load that the label wants in the tank first.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        first_carrier: Option<Fraction>,
        /// How long to wait after the product, before the next one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        wait: Option<Stated>,
        /// What the label says of the place in the mixing order.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        order: Option<LabelOrderWire>,
        /// Where these limits stand.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        source: Option<String>,
    }

    /// What a label says of a product's place in the mixing order.
    struct LabelOrderWire {
        /// At which end.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        step: Option<OrderStepWire>,
        /// Names of products that it goes in before.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        before: Vec<String>,
        /// Names of products that it goes in after.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        after: Vec<String>,
    }

    /// A vessel, scale or counted pack.
    #[cfg_attr(feature = "schema", schemars(extend("oneOf" = [
        { "required": ["capacity"], "properties": { "kind": { "enum": ["vessel", "scale"] } } },
        { "properties": { "kind": { "const": "pack" }, "capacity": { "type": "null" } } },
    ])))]
    struct MeasureWire {
        /// Unique among the measures.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        name: Option<String>,
        /// What it is.
        kind: MeasureKindWire,
        /// The most it holds or weighs; a pack has none.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        capacity: Option<Stated>,
        /// The smallest step it shows; the content of a pack.
        graduation: Stated,
        /// The unit on its scale; follows the graduation where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        marked_in: Option<String>,
    }

    /// A sprayer without its tank.
    struct SprayerWire {
        /// Its kind.
        kind: SprayerKindWire,
        /// What stays in it after spraying out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        residual: Option<ResidualWire>,
        /// Its mass when empty.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        empty_mass: Option<Stated>,
        /// Limit of its mass when filled.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        carried_mass_limit: Option<Stated>,
    }

    /// What stays in a sprayer after spraying out.
    struct ResidualWire {
        /// The part that mixes with rinse water.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        dilutable: Option<Stated>,
        /// The part that rinsing does not reach.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        non_dilutable: Option<Stated>,
    }

    /// A tank.
    #[cfg_attr(feature = "schema", schemars(extend("anyOf" = [{ "required": ["nominal"] }, { "required": ["brim"] }])))]
    struct TankWire {
        /// The filling that the maker declares for use.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        nominal: Option<Stated>,
        /// What it holds when full to the rim.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        brim: Option<Stated>,
        /// Part of the brim capacity to leave empty.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        headspace: Option<Fraction>,
        /// The step of the tank's own marks.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        graduation: Option<Stated>,
        /// The least volume that the sprayer works with.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        least_working_volume: Option<Stated>,
        /// The unit on the tank's scale; follows the graduation where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        marked_in: Option<String>,
    }

    /// How the mix is divided into loads.
    struct LoadingWire {
        /// Full loads and one part load, or equal loads.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        split: Option<SplitWire>,
        /// Ground left for the rinse water, by area or by volume.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        last_strip: Option<StripWire>,
        /// Fillings of a measure for one amount before a caution.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        max_fillings: Option<f64>,
    }

    /// How the products are mixed.
    struct MixingWire {
        /// The published order that they go by; the suggested one where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        profile: Option<ProfileWire>,
        /// How much mix to try in a jar first.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        jar_test: Option<Stated>,
    }

    /// Ground left for the rinse water: one of the two is given.
    #[cfg_attr(feature = "schema", schemars(extend("oneOf" = [
        { "required": ["area"], "properties": { "volume": { "type": "null" } } },
        { "required": ["volume"], "properties": { "area": { "type": "null" } } },
    ])))]
    struct StripWire {
        /// So much ground.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        area: Option<Stated>,
        /// So much mix held back.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        volume: Option<Stated>,
    }
}

/// The format of a job document.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(super) enum JobFormat {
    /// The first format.
    #[serde(rename = "mixcalc-job/1")]
    One,
}

mod sealed {
    pub trait Sealed {}
}

/// A job or a part of it, as documents state it: made from a [`Node`], and written as JSON.
pub trait Part: sealed::Sealed + Sized {
    /// Makes it from a table with the keys of documents.
    ///
    /// # Errors
    ///
    /// Those of [`read_job`](super::read_job), each with its place in the table.
    fn from_node(node: &Node) -> Result<Self, Error>;

    /// Writes it as JSON: every quantity as value and unit, in the one unit of its kind.
    fn to_json(&self) -> String;
}

/// Gives each part its wire struct, and the method that makes the part of it.
macro_rules! parts {
    ($($part:ident: $wire:ident.$made:ident;)*) => { $(
        impl sealed::Sealed for $part {}

        impl Part for $part {
            fn from_node(node: &Node) -> Result<Self, Error> {
                node.wire::<$wire>()?.$made()
            }

            fn to_json(&self) -> String {
                super::json(&$wire::of(self))
            }
        }
    )* };
}

parts! {
    Job: JobWire.job;
    Product: ProductWire.product;
    ActiveSubstance: SubstanceWire.substance;
    Label: LabelWire.label;
    Measure: MeasureWire.measure;
    Sprayer: SprayerWire.sprayer;
    Residual: ResidualWire.residual;
    Tank: TankWire.tank;
    Loading: LoadingWire.loading;
    LastStrip: StripWire.last_strip;
    Mixing: MixingWire.mixing;
    LabelOrder: LabelOrderWire.order;
}

/// Puts a place in front of an error's.
trait At<T> {
    fn at(self, place: &str) -> Result<T, Error>;
}

impl<T> At<T> for Result<T, Error> {
    fn at(self, place: &str) -> Self {
        self.map_err(|error| error.at(place))
    }
}

/// Claims an optional quantity, with its key as the place.
macro_rules! claimed {
    ($wire:expr, $key:ident) => {
        $wire.$key.as_ref().map(Stated::claim).transpose().at(stringify!($key))?
    };
}

impl JobWire {
    pub(super) fn job(&self) -> Result<Job, Error> {
        let (key, stated) = match (&self.volume_rate, &self.carrier_rate) {
            (Some(rate), None) => ("volume_rate", rate),
            (None, Some(rate)) => ("carrier_rate", rate),
            (None, None) => {
                return Err(Error::new(ErrorCode::MissingInput)
                    .at("volume_rate")
                    .allowed(text::key_example("volume_rate")));
            }
            (Some(_), Some(_)) => {
                return Err(both_given("volume_rate and carrier_rate").at("volume_rate"));
            }
        };
        let rate = stated.claim().at(key)?;
        let rate = if key == "volume_rate" { Rate::Volume(rate) } else { Rate::Carrier(rate) };
        let system = || stated.read().ok().and_then(|(_, unit)| unit.system).unwrap_or(System::Metric);

        let sprayer = self.sprayer.sprayer().at("sprayer")?;
        let tank = self.tank.tank().at("tank")?;
        let mut job = Job::new(self.area.claim().at("area")?, rate, sprayer, tank)?;
        job = job.in_units(self.units.map_or_else(system, System::from));
        if let Some(title) = &self.title {
            job = job.with_title(title);
        }
        if let Some(density) = claimed!(self, mix_density) {
            job = job.with_mix_density(density)?;
        }
        for (index, product) in self.products.iter().enumerate() {
            job = job.with_product(product.product().at(&format!("products[{index}]"))?)?;
        }
        for (index, measure) in self.measures.iter().enumerate() {
            job = job.with_measure(measure.measure().at(&format!("measures[{index}]"))?)?;
        }
        if let Some(loading) = &self.loading {
            job = job.with_loading(loading.loading().at("loading")?);
        }
        match &self.mixing {
            Some(mixing) => Ok(job.with_mixing(mixing.mixing().at("mixing")?)),
            None => Ok(job),
        }
    }

    pub(super) fn of(job: &Job) -> Self {
        let (volume_rate, carrier_rate) = match job.rate() {
            Rate::Volume(rate) => (Some(Stated::of(rate)), None),
            Rate::Carrier(rate) => (None, Some(Stated::of(rate))),
        };
        Self {
            format: JobFormat::One,
            title: job.title().map(ToString::to_string),
            units: Some(job.units().into()),
            area: Stated::of(job.area()),
            volume_rate,
            carrier_rate,
            mix_density: job.mix_density().map(Stated::of),
            products: job.products().iter().map(ProductWire::of).collect(),
            measures: job.measures().iter().map(MeasureWire::of).collect(),
            sprayer: SprayerWire::of(job.sprayer()),
            tank: TankWire::of(job.tank()),
            loading: Some(LoadingWire::of(&job.loading())),
            mixing: job.mixing().as_ref().map(MixingWire::of),
        }
    }
}

fn both_given(keys: &'static str) -> Error {
    Error::new(ErrorCode::BothGiven).given(keys).allowed(text::word("one of them"))
}

/// A quantity as a dose, on a stated basis or on the one that its dimension implies.
fn dose(stated: &Stated, basis: Option<BasisWire>) -> Result<Dose, Error> {
    let (quantity, _) = stated.read()?;
    Dose::claim(quantity, basis.map(Basis::from)).map_err(|error| match error.code() {
        ErrorCode::WrongQuantity => {
            error.given(format_args!("{stated}, {}", text::with_article(quantity.kind().words())))
        }
        _ => error,
    })
}

impl ProductWire {
    fn product(&self) -> Result<Product, Error> {
        let mut product = Product::new(&self.name, dose(&self.dose, self.basis).at("dose")?)?;
        if let Some(least) = &self.at_least {
            product = product.with_at_least(dose(least, None).at("at_least")?)?;
        }
        if let Some(code) = &self.formulation {
            product = product.with_formulation(Formulation::read(code).at("formulation")?)?;
        }
        if let Some(role) = self.role {
            product = product.with_role(role.into());
        }
        if self.viscous {
            product = product.viscous();
        }
        if let Some(density) = claimed!(self, density) {
            product = product.with_density(density)?;
        }
        if let Some(density) = claimed!(self, particle_density) {
            product = product.with_particle_density(density)?;
        }
        if let Some(density) = claimed!(self, bulk_density) {
            product = product.with_bulk_density(density)?;
        }
        for (index, substance) in self.active_substances.iter().enumerate() {
            let place = format!("active_substances[{index}]");
            product = product.with_active_substance(substance.substance().at(&place)?);
        }
        if let Some(label) = &self.label {
            product = product.with_label(label.label_for(|max_dose| self.basis_for(max_dose)).at("label")?)?;
        }
        if let Some(stock) = &self.stock {
            let by_volume = product.dose().is_by_volume();
            let stock = if by_volume { stock.claim().map(Amount::Volume) } else { stock.claim().map(Amount::Mass) };
            product = product.with_stock(stock.at("stock")?)?;
        }
        if let Some(measure) = &self.measure {
            product = product.with_measure(measure.measure().at("measure")?);
        }
        Ok(product)
    }

    /// A largest dose per volume is counted as the dose is, where that is per volume too.
    fn basis_for(&self, max_dose: &Stated) -> Option<BasisWire> {
        let is_per_area = |stated: &Stated| {
            use Kind::{LiquidDose, MassPerArea, SolidDose, VolumePerArea};
            stated.read().is_ok_and(|(quantity, _)| {
                matches!(quantity.kind(), VolumePerArea | MassPerArea | LiquidDose | SolidDose)
            })
        };
        self.basis.filter(|_| is_per_area(max_dose) == is_per_area(&self.dose))
    }

    fn of(product: &Product) -> Self {
        Self {
            name: product.name().to_string(),
            formulation: product.formulation().map(|formulation| formulation.code().to_string()),
            role: Some(product.role()).filter(|role| *role != Role::Product).map(Into::into),
            dose: Stated::of(product.dose()),
            at_least: product.at_least().map(Stated::of),
            basis: Some(product.dose().basis().into()),
            density: product.density().map(Stated::of),
            particle_density: product.particle_density().map(Stated::of),
            bulk_density: product.bulk_density().map(Stated::of),
            viscous: product.is_marked_viscous(),
            stock: product.stock().map(Stated::of),
            active_substances: product.active_substances().iter().map(SubstanceWire::of).collect(),
            label: (*product.label() != Label::new()).then(|| LabelWire::of(product.label())),
            measure: product.measure().map(MeasureWire::of),
        }
    }
}

impl SubstanceWire {
    fn substance(&self) -> Result<ActiveSubstance, Error> {
        let content = match self.content.read() {
            Ok((quantity, _)) if quantity.kind() == Kind::MassFraction => SubstanceContent::PerMass(quantity.claim()?),
            _ => SubstanceContent::PerVolume(self.content.claim().at("content")?),
        };
        ActiveSubstance::new(&self.name, content)
    }

    fn of(substance: &ActiveSubstance) -> Self {
        let content = match substance.content() {
            SubstanceContent::PerVolume(content) => Stated::of(content),
            SubstanceContent::PerMass(content) => Stated::of(content),
        };
        Self { name: substance.name().to_string(), content }
    }
}

impl LabelWire {
    /// The label by itself: its largest dose is counted on what it says, or on what its dimension implies.
    fn label(&self) -> Result<Label, Error> {
        let label = self.label_for(|_| None)?;
        label.checked_alone().map(|()| label)
    }

    /// The label of a product, which may say what a largest dose is counted on where the label does not.
    fn label_for(&self, basis: impl Fn(&Stated) -> Option<BasisWire>) -> Result<Label, Error> {
        let max_dose = self.max_dose.as_ref().map(|stated| dose(stated, self.max_dose_basis.or_else(|| basis(stated))));
        Ok(Label {
            max_dose: max_dose.transpose().at("max_dose")?,
            min_volume_rate: claimed!(self, min_volume_rate),
            max_volume_rate: claimed!(self, max_volume_rate),
            first_carrier: self
                .first_carrier
                .as_ref()
                .map(|share| share.0.fraction())
                .transpose()
                .at("first_carrier")?,
            wait: claimed!(self, wait),
            order: self.order.as_ref().map(LabelOrderWire::order).transpose()?.filter(|order| !order.says_nothing()),
            source: self.source.as_deref().map(Into::into),
        })
    }

    fn of(label: &Label) -> Self {
        Self {
            max_dose: label.max_dose.map(Stated::of),
            max_dose_basis: label.max_dose.map(|dose| dose.basis().into()),
            min_volume_rate: label.min_volume_rate.map(Stated::of),
            max_volume_rate: label.max_volume_rate.map(Stated::of),
            first_carrier: label.first_carrier.map(Fraction::from),
            wait: label.wait.map(Stated::of),
            order: label.order().map(LabelOrderWire::of),
            source: label.source.as_deref().map(ToString::to_string),
        }
    }
}

impl LabelOrderWire {
    #[allow(clippy::unnecessary_wraps, reason = "as every part is made")]
    fn order(&self) -> Result<LabelOrder, Error> {
        let names = |names: &[String]| names.iter().map(|name| name.as_str().into()).collect();
        Ok(LabelOrder { step: self.step.map(Into::into), before: names(&self.before), after: names(&self.after) })
    }

    fn of(order: &LabelOrder) -> Self {
        Self {
            step: order.step().map(Into::into),
            before: order.before().map(ToString::to_string).collect(),
            after: order.after().map(ToString::to_string).collect(),
        }
    }
}

impl MeasureWire {
    fn measure(&self) -> Result<Measure, Error> {
        let kind = MeasureKind::from(self.kind);
        let amount = |stated: &Stated| match kind {
            MeasureKind::Vessel => stated.claim().map(Amount::Volume),
            MeasureKind::Scale => stated.claim().map(Amount::Mass),
            MeasureKind::Pack => stated.read().and_then(|(quantity, _)| Amount::claim(quantity)),
        };
        let graduation = amount(&self.graduation).at("graduation")?;
        let capacity = match (&self.capacity, kind) {
            (None, MeasureKind::Pack) => graduation,
            (Some(_), MeasureKind::Pack) => {
                return Err(both_given("capacity and graduation").at("capacity"));
            }
            (Some(capacity), _) => amount(capacity).at("capacity")?,
            (None, _) => {
                return Err(Error::new(ErrorCode::MissingInput).at("capacity").allowed(text::key_example("capacity")));
            }
        };
        let unit = self.marked_in.as_deref().or(self.graduation.unit_text());
        Measure::new(kind, capacity, graduation, unit, self.name.as_deref())
    }

    fn of(measure: &Measure) -> Self {
        Self {
            name: Some(measure.name().to_string()),
            kind: measure.kind().into(),
            capacity: (measure.kind() != MeasureKind::Pack).then(|| Stated::of(measure.capacity())),
            graduation: Stated::of(measure.graduation()),
            marked_in: Some(measure.unit().to_string()),
        }
    }
}

impl SprayerWire {
    fn sprayer(&self) -> Result<Sprayer, Error> {
        let mut sprayer = Sprayer::new(self.kind.into());
        if let Some(residual) = &self.residual {
            let residual = residual.residual().at("residual")?;
            sprayer = sprayer.with_residual(residual);
        }
        if let Some(mass) = claimed!(self, empty_mass) {
            sprayer = sprayer.with_empty_mass(mass)?;
        }
        if let Some(mass) = claimed!(self, carried_mass_limit) {
            sprayer = sprayer.with_carried_mass_limit(mass)?;
        }
        Ok(sprayer)
    }

    fn of(sprayer: &Sprayer) -> Self {
        Self {
            kind: sprayer.kind().into(),
            residual: sprayer.residual().as_ref().map(ResidualWire::of),
            empty_mass: sprayer.empty_mass().map(Stated::of),
            carried_mass_limit: sprayer.carried_mass_limit().map(Stated::of),
        }
    }
}

impl ResidualWire {
    fn residual(&self) -> Result<Residual, Error> {
        Residual::new(claimed!(self, dilutable).unwrap_or_default(), claimed!(self, non_dilutable).unwrap_or_default())
    }

    fn of(residual: &Residual) -> Self {
        Self {
            dilutable: Some(Stated::of(residual.dilutable())),
            non_dilutable: Some(Stated::of(residual.non_dilutable())),
        }
    }
}

impl TankWire {
    fn tank(&self) -> Result<Tank, Error> {
        let mut tank = Tank::new(claimed!(self, nominal), claimed!(self, brim))?;
        if let Some(headspace) = &self.headspace {
            tank = tank.with_headspace(headspace.0.fraction().at("headspace")?)?;
        }
        if let Some(graduation) = claimed!(self, graduation) {
            tank = tank.with_graduation(graduation)?;
        }
        if let Some(unit) = self.marked_in.as_deref().or(self.graduation.as_ref().and_then(Stated::unit_text)) {
            tank = tank.marked_in(unit)?;
        }
        if let Some(volume) = claimed!(self, least_working_volume) {
            tank = tank.with_least_working_volume(volume)?;
        }
        Ok(tank)
    }

    fn of(tank: &Tank) -> Self {
        Self {
            nominal: tank.nominal().map(Stated::of),
            brim: tank.brim().map(Stated::of),
            headspace: tank.headspace().map(Fraction::from),
            graduation: tank.graduation().map(Stated::of),
            least_working_volume: tank.least_working_volume().map(Stated::of),
            marked_in: tank.unit().map(ToString::to_string),
        }
    }
}

impl LoadingWire {
    fn loading(&self) -> Result<Loading, Error> {
        let mut loading = Loading::new();
        if let Some(split) = self.split {
            loading = loading.with_split(split.into());
        }
        if let Some(strip) = &self.last_strip {
            loading = loading.with_last_strip(strip.last_strip().at("last_strip")?)?;
        }
        match self.max_fillings {
            Some(fillings) => loading.with_max_fillings(whole(fillings).at("max_fillings")?),
            None => Ok(loading),
        }
    }

    fn of(loading: &Loading) -> Self {
        Self {
            split: Some(loading.split().into()),
            last_strip: loading.last_strip().as_ref().map(StripWire::of),
            #[allow(clippy::cast_precision_loss)] // a few
            max_fillings: Some(loading.max_fillings() as f64),
        }
    }
}

impl MixingWire {
    fn mixing(&self) -> Result<Mixing, Error> {
        let mixing = Mixing::new().with_profile(self.profile.map_or_else(Profile::default, Profile::from));
        match claimed!(self, jar_test) {
            Some(volume) => mixing.with_jar_test(volume),
            None => Ok(mixing),
        }
    }

    fn of(mixing: &Mixing) -> Self {
        Self { profile: Some(mixing.profile().into()), jar_test: mixing.jar_test().map(Stated::of) }
    }
}

/// A whole number of a document; the job knows its range.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // within the range that is checked
fn whole(number: f64) -> Result<u64, Error> {
    if (0.0..1e15).contains(&number) && libm::floor(number).to_bits() == number.to_bits() {
        Ok(number as u64)
    } else {
        Err(Error::new(ErrorCode::OutOfRange).given(number).allowed(text::FILLINGS))
    }
}

impl StripWire {
    fn last_strip(&self) -> Result<LastStrip, Error> {
        match (claimed!(self, area), claimed!(self, volume)) {
            (Some(area), None) => Ok(LastStrip::Area(area)),
            (None, Some(volume)) => Ok(LastStrip::Volume(volume)),
            (None, None) => {
                Err(Error::new(ErrorCode::MissingInput).at("area").allowed(text::key_example("last_strip")))
            }
            (Some(_), Some(_)) => Err(both_given("area and volume")),
        }
    }

    fn of(strip: &LastStrip) -> Self {
        match *strip {
            LastStrip::Area(area) => Self { area: Some(Stated::of(area)), volume: None },
            LastStrip::Volume(volume) => Self { area: None, volume: Some(Stated::of(volume)) },
        }
    }
}
