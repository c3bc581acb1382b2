//! The job document: wire structs, and the way to a [`Job`] and back.

use alloc::format;
use alloc::string::{String, ToString};
use alloc::sync::Arc;
use alloc::vec::Vec;

use serde::{Deserialize, Serialize};

use super::calibration::CalibrationWire;
use super::node::Node;
use super::stated::{Fraction, Stated};
use crate::error::{Error, ErrorCode};
use crate::finding::Force;
use crate::label::{
    ActiveSubstance, Applied, Basis, CapBasis, Capped, Containers, Crop, Date, Dose, Equivalent, Formulation, Label,
    LabelOrder, LabelTank, OrderStep, Parcel, Product, Protection, Restriction, Role, Rows, Rule, Season, Sides,
    SubstanceContent, Treatment, Water, Window,
};
use crate::measure::{Amount, Measure, MeasureClass, MeasureKind};
use crate::plan::{
    Buffer, BufferSize, CleanWater, Field, Ground, InTank, Job, LastStrip, Loading, Mixing, Overlap, Pass, Profile,
    Rate, Split, TankStart,
};
use crate::quantity::{Kind, Length, MassPerArea, Speed, System};
use crate::sprayer::{CalibrationRecord, Residual, ScaleCheck, ScalePoint, Sprayer, SprayerKind, Tank};
use crate::text;

choices! {
    /// Whose measures the load sheet speaks.
    UnitsWire for System { Metric = "metric", Us = "US", Imperial = "imperial" }
    /// What a dose is counted on.
    BasisWire for Basis {
        GroundArea = "ground-area", MixVolume = "mix-volume", CarrierVolume = "carrier-volume", TreatedArea = "treated-area",
        LeafWallArea = "leaf-wall-area", TreeRowVolume = "tree-row-volume", CrownHeight = "crown-height", RowLength = "row-length",
        Plant = "plant", Spot = "spot",
    }
    /// Which sides of a row the spray reaches.
    SidesWire for Sides { One = "one", Both = "both" }
    /// Which rows are treated.
    RowsWire for Rows { Every = "every", Alternate = "alternate" }
    /// What an amount is measured with.
    MeasureKindWire for MeasureKind { Vessel = "vessel", Scale = "scale", Pack = "pack" }
    /// What sort of vessel or scale it is.
    MeasureClassWire for MeasureClass {
        CylinderA = "cylinder-a", CylinderB = "cylinder-b", PlasticCylinder = "plastic-cylinder", Flask = "flask", Jug = "jug",
        UncheckedJug = "unchecked-jug", Syringe = "syringe", Cup = "cup", Cap = "cap", PowderCup = "powder-cup", Scale = "scale",
    }
    /// The kind of sprayer.
    SprayerKindWire for SprayerKind {
        HandHeld = "hand-held", Knapsack = "knapsack", Boom = "boom", BushAndTree = "bush-and-tree", SemiMobile = "semi-mobile",
    }
    /// What stands behind a limit.
    ForceWire for Force { Law = "law", Label = "label", Standard = "standard", Advice = "advice", Fact = "fact" }
    /// What a cap is counted on.
    CapBasisWire for CapBasis { GroundArea = "ground-area", TreatedArea = "treated-area" }
    /// How the mix is divided into loads.
    SplitWire for Split { FullThenPart = "full-then-part", Even = "even" }
    /// What the tank holds.
    InTankWire for InTank { Water = "water", ThisMix = "this-mix", AnotherMix = "another-mix" }
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

wire! {
    /// A job: everything that a plan is made from.
    #[cfg_attr(feature = "schema", schemars(extend("allOf" = [
        { "oneOf": [
            { "required": ["volume_rate"], "properties": { "carrier_rate": { "type": "null" }, "calibration": { "type": "null" } } },
            { "required": ["carrier_rate"], "properties": { "volume_rate": { "type": "null" }, "calibration": { "type": "null" } } },
            { "required": ["calibration"], "properties": {
                "volume_rate": { "type": "null" }, "carrier_rate": { "type": "null" }, "rate_basis": { "type": "null" },
            } },
        ] },
        { "oneOf": [
            { "required": ["area"], "properties": { "ground": { "type": "null" } } },
            { "required": ["ground"], "properties": { "area": { "type": "null" } } },
        ] },
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
        /// The ground to be treated. Exactly one of `area` and `ground` is given.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        area: Option<Stated>,
        /// The ground by its parts: field, buffers, overlap.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        ground: Option<GroundWire>,
        /// The crop's geometry, which doses and rates on its bases are counted on.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        crop: Option<CropWire>,
        /// Volume of mix per ground area, products inside. Exactly one of `volume_rate`, `carrier_rate` and `calibration` is given.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        volume_rate: Option<Stated>,
        /// Volume of carrier per ground area, products on top.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        carrier_rate: Option<Stated>,
        /// The calibration that the volume rate is worked out from: mix, products inside.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        calibration: Option<CalibrationWire>,
        /// The sprayer's passes over the ground: where loads run out is told in them.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        passes: Option<PassWire>,
        /// What is in the water that is the carrier.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        water: Option<WaterWire>,
        /// What the tank holds before the first load, which tops it up; the tank is empty where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        start: Option<StartWire>,
        /// Asks for the field list, with the clean water that is taken along beside the carrier.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        field_list: Option<CleanWaterWire>,
        /// What the volume rate or the carrier rate is counted on: ground area where absent, or what its unit names.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        rate_basis: Option<BasisWire>,
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
        /// What limits over time are held against.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        season: Option<SeasonWire>,
    }

    /// Clean water that is taken along beside the carrier; what it does not state is as advised.
    struct CleanWaterWire {
        /// For washing hands.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        hands: Option<Stated>,
        /// For flushing eyes.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        eyes: Option<Stated>,
        /// For rinsing the tank after spraying.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        tank_rinse: Option<Stated>,
    }

    /// A water analysis; what it does not state is none.
    struct WaterWire {
        /// Potassium in it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        potassium: Option<Stated>,
        /// Sodium in it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        sodium: Option<Stated>,
        /// Calcium in it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        calcium: Option<Stated>,
        /// Magnesium in it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        magnesium: Option<Stated>,
        /// Iron in it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        iron: Option<Stated>,
    }

    /// What the tank holds before the first load.
    struct StartWire {
        /// Water, what is left of this mix, or another mix.
        holds: InTankWire,
        /// How much of it.
        volume: Stated,
        /// What is in what is left of this mix; where none is stated it is as strong as the plan's own.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        products: Vec<HeldWire>,
    }

    /// How much of a product the tank holds.
    struct HeldWire {
        /// The product.
        name: String,
        /// How much.
        amount: Stated,
    }

    /// A pass of the sprayer.
    struct PassWire {
        /// Treated width.
        swath: Stated,
        /// How long it is.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        length: Option<Stated>,
    }

    /// Ground by its parts: the field is given by its area, or by length and width.
    #[cfg_attr(feature = "schema", schemars(extend("oneOf" = [
        { "required": ["area"], "properties": { "length": { "type": "null" }, "width": { "type": "null" } } },
        { "required": ["length", "width"], "properties": { "area": { "type": "null" } } },
    ])))]
    struct GroundWire {
        /// Area of the field, buffers inside.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        area: Option<Stated>,
        /// One side of a rectangular field.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        length: Option<Stated>,
        /// The side across it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        width: Option<Stated>,
        /// Ground at its edges that stays untreated.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        buffers: Vec<BufferWire>,
        /// How much of the treated ground is sprayed twice.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        overlap: Option<OverlapWire>,
    }

    /// Ground that stays untreated: by its area, or as a strip.
    #[cfg_attr(feature = "schema", schemars(extend("oneOf" = [
        { "required": ["area"], "properties": { "width": { "type": "null" }, "along": { "type": "null" }, "edge_distance": { "type": "null" } } },
        { "required": ["width", "along"], "properties": { "area": { "type": "null" } } },
    ])))]
    struct BufferWire {
        /// What it keeps away from.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        keeps_from: Option<String>,
        /// Its area.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        area: Option<Stated>,
        /// Distance to keep.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        width: Option<Stated>,
        /// Length of the edge that it runs along.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        along: Option<Stated>,
        /// Distance that is there already, from what is kept away from to the edge of the field.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        edge_distance: Option<Stated>,
    }

    /// How much is sprayed twice: as a part of the ground, or by passes that overlap.
    #[cfg_attr(feature = "schema", schemars(extend("oneOf" = [
        { "required": ["share"], "properties": { "width": { "type": "null" }, "swath": { "type": "null" } } },
        { "required": ["width", "swath"], "properties": { "share": { "type": "null" } } },
    ])))]
    struct OverlapWire {
        /// Part of the treated ground that is sprayed twice.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        share: Option<Fraction>,
        /// Width that two passes share.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        width: Option<Stated>,
        /// Treated width per pass.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        swath: Option<Stated>,
    }

    /// The crop's geometry, as far as it is needed.
    struct CropWire {
        /// Distance from row to row.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        row_spacing: Option<Stated>,
        /// Distance from plant to plant along a row.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        plant_spacing: Option<Stated>,
        /// Height of the canopy that is treated, from its lowest leaves to its highest.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        canopy_height: Option<Stated>,
        /// Width of the canopy across the row.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        canopy_width: Option<Stated>,
        /// Width of the band that is treated along each row.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        band_width: Option<Stated>,
        /// Which sides of a row the spray reaches.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        treated_sides: Option<SidesWire>,
        /// Which rows are treated; every row where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        treated_rows: Option<RowsWire>,
        /// How many plants of the job are treated, in place of their spacing.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        plants: Option<f64>,
        /// How many spots of the job are treated.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        spots: Option<f64>,
        /// Ground that a spot takes.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        spot_area: Option<Stated>,
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
        /// The active substance that the dose is stated as: its own name, or that of the acid or element that it is counted as.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        dose_of: Option<String>,
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
        /// What it is sold in, and what there is of that.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        containers: Option<ContainersWire>,
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

    /// Containers of one content.
    struct ContainersWire {
        /// What one holds.
        content: Stated,
        /// How many full ones there are.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        full: Option<f64>,
        /// What is in the one that is open.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        part: Option<Stated>,
        /// Whether emptied ones are rinsed into the tank; those of liquids are, where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        rinse: Option<bool>,
    }

    /// An active substance and its content.
    struct SubstanceWire {
        /// Its name.
        name: String,
        /// Mass per volume or per mass of product.
        content: Stated,
        /// The acid or element that it is counted as.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        equivalent: Option<EquivalentWire>,
    }

    /// The acid or element that a substance is counted as.
    struct EquivalentWire {
        /// The name under which amounts are summed.
        name: String,
        /// Mass of it per mass of the substance as stated.
        factor: Fraction,
    }

    /// What a label limits.
    struct LabelWire {
        /// The least dose of the label's range: a lower one is cautioned.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        min_dose: Option<Stated>,
        /// What the least dose is counted on; follows it where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        min_dose_basis: Option<BasisWire>,
        /// The largest dose; the dose itself where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        max_dose: Option<Stated>,
        /// What the largest dose is counted on; follows it where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        max_dose_basis: Option<BasisWire>,
        /// The largest dose per ground area, which holds beside one on another basis.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        max_ground_dose: Option<Stated>,
        /// The largest concentration in the finished mix, which holds beside a largest dose on another basis.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        max_concentration: Option<Stated>,
        /// What the label says that one tank serves, where it doses by the tank.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        tank: Option<LabelTankWire>,
        /// The least volume rate.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        min_volume_rate: Option<Stated>,
        /// The largest volume rate.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        max_volume_rate: Option<Stated>,
        /// What the volume rates are counted on: ground area where absent, else treated area or leaf wall area.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        volume_rate_basis: Option<BasisWire>,
        /// Share of the load that the label wants in the tank first.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        first_carrier: Option<Fraction>,
        /// How long to wait after the product, before the next one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        wait: Option<Stated>,
        /// Ammonium sulfate that it asks for in the mix; 0 g/L where it asks for what the water needs.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        ammonium_sulfate: Option<Stated>,
        /// What the label says of the place in the mixing order.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        order: Option<LabelOrderWire>,
        /// What the label asks to be worn, in its words.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        protection: Option<ProtectionWire>,
        /// Where these limits stand.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        source: Option<String>,
        /// Most treatments with the product in a season.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        max_treatments: Option<CountLimitWire>,
        /// Least time between treatments with the product, in whole days.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        min_interval: Option<QuantityLimitWire>,
        /// Least time before the harvest, in whole days.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        waiting_period: Option<QuantityLimitWire>,
        /// Earliest growth stage: BBCH, 0 to 99.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        min_growth_stage: Option<CountLimitWire>,
        /// Latest growth stage: BBCH, 0 to 99.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        max_growth_stage: Option<CountLimitWire>,
        /// Time before anybody may enter.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        re_entry: Option<QuantityLimitWire>,
        /// Least wind.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        min_wind: Option<WindLimitWire>,
        /// Most wind.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        max_wind: Option<WindLimitWire>,
        /// Least temperature.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        min_temperature: Option<QuantityLimitWire>,
        /// Largest temperature.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        max_temperature: Option<QuantityLimitWire>,
        /// Least difference between the dry and the wet bulb, in K.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        min_delta_t: Option<QuantityLimitWire>,
        /// Largest difference between the dry and the wet bulb, in K.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        max_delta_t: Option<QuantityLimitWire>,
        /// The most of the product or of a substance in a window of time.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        caps: Vec<CapWire>,
        /// Ground not to be treated.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        buffers: Vec<LabelBufferWire>,
    }

    /// A number that a label limits.
    struct CountLimitWire {
        /// The limit.
        value: f64,
        /// What stands behind it; the label where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        force: Option<ForceWire>,
        /// Where it is written; where the label's limits are, where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        source: Option<String>,
    }

    /// A quantity that a label limits.
    struct QuantityLimitWire {
        /// The limit.
        value: Stated,
        /// What stands behind it; the label where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        force: Option<ForceWire>,
        /// Where it is written; where the label's limits are, where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        source: Option<String>,
    }

    /// Wind that a label limits.
    struct WindLimitWire {
        /// The limit.
        value: Stated,
        /// The height that it is meant at.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        height: Option<Stated>,
        /// What stands behind it; the label where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        force: Option<ForceWire>,
        /// Where it is written; where the label's limits are, where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        source: Option<String>,
    }

    /// Ground not to be treated.
    struct LabelBufferWire {
        /// Beside what, such as water.
        from: String,
        /// How wide.
        value: Stated,
        /// What stands behind it; the label where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        force: Option<ForceWire>,
        /// Where it is written; where the label's limits are, where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        source: Option<String>,
    }

    /// The most of a product or of a substance in a window of time.
    struct CapWire {
        /// The substance, by the name that it is summed under; the product itself where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        substance: Option<String>,
        /// The most per ground area.
        value: Stated,
        /// The window of time.
        over: WindowWire,
        /// What it is counted on; the ground of the parcel where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        on: Option<CapBasisWire>,
        /// What stands behind it; the label where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        force: Option<ForceWire>,
        /// Where it is written; where the label's limits are, where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        source: Option<String>,
    }

    /// A window of time: exactly one of these.
    struct WindowWire {
        /// True: from the start of the season on.
        #[serde(default, skip_serializing_if = "core::ops::Not::not")]
        season: bool,
        /// So many days, the last of which is the date.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        days: Option<f64>,
        /// So many months of the calendar.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        months: Option<f64>,
        /// So many years of the calendar.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        years: Option<f64>,
    }

    /// What limits over time are held against.
    struct SeasonWire {
        /// When the treatment is planned.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        date: Option<String>,
        /// When the harvest is.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        harvest: Option<String>,
        /// The growth stage of the crop: BBCH, 0 to 99.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        growth_stage: Option<f64>,
        /// When the season began: treatments and caps of a season need it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        season_start: Option<String>,
        /// Parts of the ground that have histories of their own.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        parcels: Vec<ParcelWire>,
        /// Treatments that were recorded.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        treatments: Vec<TreatmentWire>,
    }

    /// Ground with a history of its own.
    struct ParcelWire {
        /// Unique in the season.
        name: String,
        /// How large it is.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        area: Option<Stated>,
    }

    /// A treatment that was recorded: product and dose, or substances.
    struct TreatmentWire {
        /// When.
        date: String,
        /// A product of this job.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        product: Option<String>,
        /// Its dose per area of the ground that was treated.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        dose: Option<Stated>,
        /// What any other product brought out.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        substances: Vec<SubstanceDoseWire>,
        /// The parcel that it was on; all of them where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        parcel: Option<String>,
        /// The share of the ground that was treated; all of it where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        treated_share: Option<Fraction>,
    }

    /// An active substance in a treatment.
    struct SubstanceDoseWire {
        /// The name that it is summed under.
        name: String,
        /// Mass of it per area of the ground that was treated.
        dose: Stated,
    }

    /// What a label asks to be worn, in its words.
    struct ProtectionWire {
        /// For mixing.
        #[serde(default)]
        mixing: Vec<String>,
        /// For spraying.
        #[serde(default)]
        spraying: Vec<String>,
    }

    /// So much mix for so much ground.
    struct LabelTankWire {
        /// The finished mix.
        mix: Stated,
        /// The ground that it serves.
        area: Stated,
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
        /// What sort it is, which says how far it may be off.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        class: Option<MeasureClassWire>,
        /// How far it may be off, in place of its class: in each filling, or as a part of what is read in %.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        tolerance: Option<Stated>,
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
        /// What a check of its scale found.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        scale_check: Option<ScaleCheckWire>,
    }

    /// A check of a tank's scale.
    struct ScaleCheckWire {
        /// What was poured in and read, in ascending order.
        points: Vec<ScalePointWire>,
        /// How far off at most what was poured may have been, as a part of it.
        tolerance: Fraction,
    }

    /// What was in a tank when its scale was read.
    struct ScalePointWire {
        /// What had been poured in, in all.
        poured: Stated,
        /// What the scale showed.
        read: Stated,
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
    Ground: GroundWire.ground;
    Buffer: BufferWire.buffer;
    Overlap: OverlapWire.overlap;
    Crop: CropWire.crop;
    LabelTank: LabelTankWire.tank;
    Product: ProductWire.product;
    ActiveSubstance: SubstanceWire.substance;
    Equivalent: EquivalentWire.equivalent;
    Label: LabelWire.label;
    Measure: MeasureWire.measure;
    Sprayer: SprayerWire.sprayer;
    Residual: ResidualWire.residual;
    Tank: TankWire.tank;
    Loading: LoadingWire.loading;
    Season: SeasonWire.season;
    Parcel: ParcelWire.parcel;
    Treatment: TreatmentWire.treatment;
    LastStrip: StripWire.last_strip;
    Mixing: MixingWire.mixing;
    Pass: PassWire.pass;
    TankStart: StartWire.start;
    CalibrationRecord: CalibrationWire.record;
    LabelOrder: LabelOrderWire.order;
}

/// Puts a place in front of an error's.
pub(super) trait At<T> {
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
        let sprayer = self.sprayer.sprayer().at("sprayer")?;
        let tank = self.tank.tank().at("tank")?;
        let ground = match (claimed!(self, area), &self.ground) {
            (Some(area), None) => Ground::new(Field::Area(area))?,
            (None, Some(ground)) => ground.ground().at("ground")?,
            (None, None) => {
                return Err(Error::new(ErrorCode::MissingInput).at("area").allowed(text::key_example("area")));
            }
            (Some(_), Some(_)) => return Err(both_given("area and ground").at("area")),
        };
        let mut job = self.at_its_rate(ground, sprayer, tank)?;
        if let Some(title) = &self.title {
            job = job.with_title(title);
        }
        if let Some(water) = &self.water {
            job = job.with_water(water.water().at("water")?);
        }
        if let Some(water) = &self.field_list {
            job = job.with_field_list(water.clean_water().at("field_list")?);
        }
        if let Some(pass) = &self.passes {
            job = job.with_pass(pass.pass().at("passes")?);
        }
        if let Some(crop) = &self.crop {
            job = job.with_crop(crop.crop().at("crop")?)?;
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
        if let Some(mixing) = &self.mixing {
            job = job.with_mixing(mixing.mixing().at("mixing")?);
        }
        if let Some(season) = &self.season {
            job = job.with_season(season.season().at("season")?);
        }
        if let Some(start) = &self.start {
            job = job.with_start(start.start().at("start")?);
        }
        job.with_checked_season()
    }

    /// The job by its volume rate, its carrier rate or its calibration, in the measures of whichever it is.
    fn at_its_rate(&self, ground: Ground, sprayer: Sprayer, tank: Tank) -> Result<Job, Error> {
        let in_units = |job: Job, of_rate: Option<System>| {
            job.in_units(self.units.map_or(of_rate.unwrap_or(System::Metric), System::from))
        };
        let (key, stated) = match (&self.volume_rate, &self.carrier_rate, &self.calibration) {
            (Some(rate), None, None) => ("volume_rate", rate),
            (None, Some(rate), None) => ("carrier_rate", rate),
            (None, None, Some(calibration)) => {
                if self.rate_basis.is_some() {
                    return Err(both_given("rate_basis and calibration").at("rate_basis"));
                }
                let record = calibration.record().at("calibration")?;
                return Ok(in_units(Job::calibrated(ground, record, sprayer, tank)?, calibration.system()));
            }
            (None, None, None) => {
                return Err(Error::new(ErrorCode::MissingInput)
                    .at("volume_rate")
                    .allowed(text::key_example("volume_rate")));
            }
            (Some(_), Some(_), _) => return Err(both_given("volume_rate and carrier_rate").at("volume_rate")),
            (Some(_), None, Some(_)) => return Err(both_given("volume_rate and calibration").at("volume_rate")),
            (None, Some(_), Some(_)) => return Err(both_given("carrier_rate and calibration").at("carrier_rate")),
        };
        let system = stated.read().ok().and_then(|(_, unit)| unit.system);
        Ok(in_units(Job::new(ground, rate_on(key, stated, self.rate_basis)?, sprayer, tank)?, system))
    }

    pub(super) fn of(job: &Job) -> Self {
        let calibration = job.calibration().map(|(record, _)| CalibrationWire::of(record));
        let rate = calibration.is_none().then(|| Stated::of(job.rate().stated()));
        let (volume_rate, carrier_rate) = match job.rate() {
            Rate::Volume(_) | Rate::VolumePerCrop(_) => (rate, None),
            Rate::Carrier(_) | Rate::CarrierPerCrop(_) => (None, rate),
        };
        let by_parts = job.ground().is_by_parts();
        let basis = job.rate().basis();
        Self {
            format: JobFormat::One,
            title: job.title().map(ToString::to_string),
            units: Some(job.units().into()),
            area: (!by_parts).then(|| Stated::of(job.area())),
            ground: by_parts.then(|| GroundWire::of(job.ground())),
            crop: (*job.crop() != Crop::new()).then(|| CropWire::of(job.crop())),
            volume_rate,
            carrier_rate,
            calibration,
            passes: job.pass().as_ref().map(PassWire::of),
            water: job.water().as_ref().map(WaterWire::of),
            start: job.start().map(StartWire::of),
            field_list: job.field_list().as_ref().map(CleanWaterWire::of),
            rate_basis: (basis != Basis::GroundArea).then(|| basis.into()),
            mix_density: job.mix_density().map(Stated::of),
            products: job.products().iter().map(ProductWire::of).collect(),
            measures: job.measures().iter().map(MeasureWire::of).collect(),
            sprayer: SprayerWire::of(job.sprayer()),
            tank: TankWire::of(job.tank()),
            loading: Some(LoadingWire::of(&job.loading())),
            mixing: job.mixing().as_ref().map(MixingWire::of),
            season: job.season().map(SeasonWire::of),
        }
    }
}

/// A rate on a stated basis, or on the one that its unit names, which is the ground where it names none.
fn rate_on(key: &'static str, stated: &Stated, basis: Option<BasisWire>) -> Result<Rate, Error> {
    let named = || stated.read().ok().and_then(|(quantity, _)| Basis::named_by(quantity.kind()));
    let basis = basis.map(Basis::from).or_else(named).unwrap_or(Basis::GroundArea);
    if basis == Basis::GroundArea {
        let rate = stated.claim().at(key)?;
        return Ok(if key == "volume_rate" { Rate::Volume(rate) } else { Rate::Carrier(rate) });
    }
    let quantity = stated.read().at(key)?.0;
    let rate = if key == "volume_rate" { Rate::volume_on } else { Rate::carrier_on };
    rate(quantity, basis).at(key)
}

impl CleanWaterWire {
    fn clean_water(&self) -> Result<CleanWater, Error> {
        let mut water = CleanWater::new();
        if let Some(hands) = claimed!(self, hands) {
            water = water.with_hands(hands)?;
        }
        if let Some(eyes) = claimed!(self, eyes) {
            water = water.with_eyes(eyes)?;
        }
        if let Some(tank_rinse) = claimed!(self, tank_rinse) {
            water = water.with_tank_rinse(tank_rinse)?;
        }
        Ok(water)
    }

    fn of(water: &CleanWater) -> Self {
        let [hands, eyes, tank_rinse] = water.stated().map(|water| water.map(Stated::of));
        Self { hands, eyes, tank_rinse }
    }
}

impl ProtectionWire {
    fn protection(&self) -> Result<Protection, Error> {
        Protection::new(self.mixing.iter().map(String::as_str), self.spraying.iter().map(String::as_str))
    }

    fn of(protection: &Protection) -> Self {
        Self {
            mixing: protection.mixing().map(ToString::to_string).collect(),
            spraying: protection.spraying().map(ToString::to_string).collect(),
        }
    }
}

impl PassWire {
    fn pass(&self) -> Result<Pass, Error> {
        let pass = Pass::new(self.swath.claim().at("swath")?)?;
        match claimed!(self, length) {
            Some(length) => pass.with_length(length),
            None => Ok(pass),
        }
    }

    fn of(pass: &Pass) -> Self {
        Self { swath: Stated::of(pass.swath()), length: pass.length().map(Stated::of) }
    }
}

impl GroundWire {
    fn ground(&self) -> Result<Ground, Error> {
        let field = match (claimed!(self, area), claimed!(self, length), claimed!(self, width)) {
            (Some(area), None, None) => Field::Area(area),
            (None, Some(length), Some(width)) => Field::Sides { length, width },
            (Some(_), ..) => return Err(both_given("area and length").at("area")),
            _ => return Err(Error::new(ErrorCode::MissingInput).at("area").allowed(text::key_example("ground"))),
        };
        let mut ground = Ground::new(field)?;
        for (index, buffer) in self.buffers.iter().enumerate() {
            ground = ground.with_buffer(buffer.buffer().at(&format!("buffers[{index}]"))?)?;
        }
        match &self.overlap {
            Some(overlap) => ground.with_overlap(overlap.overlap().at("overlap")?),
            None => Ok(ground),
        }
    }

    fn of(ground: &Ground) -> Self {
        let (area, length, width) = match ground.measured_by() {
            Field::Area(area) => (Some(Stated::of(area)), None, None),
            Field::Sides { length, width } => (None, Some(Stated::of(length)), Some(Stated::of(width))),
        };
        let buffers = ground.buffers().iter().map(BufferWire::of).collect();
        Self { area, length, width, buffers, overlap: ground.overlap().as_ref().map(OverlapWire::of) }
    }
}

impl BufferWire {
    fn buffer(&self) -> Result<Buffer, Error> {
        let size = match (claimed!(self, area), claimed!(self, width), claimed!(self, along)) {
            (Some(area), None, None) if self.edge_distance.is_none() => BufferSize::Area(area),
            (None, Some(width), Some(along)) => {
                let edge_distance = claimed!(self, edge_distance).unwrap_or(Length::ZERO);
                BufferSize::Strip { width, along, edge_distance }
            }
            (Some(_), ..) => return Err(both_given("area and width").at("area")),
            _ => return Err(Error::new(ErrorCode::MissingInput).at("area").allowed(text::key_example("buffer"))),
        };
        let buffer = Buffer::new(size)?;
        match &self.keeps_from {
            Some(what) => buffer.keeping_from(what),
            None => Ok(buffer),
        }
    }

    fn of(buffer: &Buffer) -> Self {
        let keeps_from = buffer.keeps_from().map(ToString::to_string);
        match buffer.size() {
            BufferSize::Area(area) => {
                Self { keeps_from, area: Some(Stated::of(area)), width: None, along: None, edge_distance: None }
            }
            BufferSize::Strip { width, along, edge_distance } => Self {
                keeps_from,
                area: None,
                width: Some(Stated::of(width)),
                along: Some(Stated::of(along)),
                edge_distance: (edge_distance > Length::ZERO).then(|| Stated::of(edge_distance)),
            },
        }
    }
}

impl OverlapWire {
    fn overlap(&self) -> Result<Overlap, Error> {
        let share = self.share.as_ref().map(|share| share.0.fraction()).transpose().at("share")?;
        match (share, claimed!(self, width), claimed!(self, swath)) {
            (Some(share), None, None) => Overlap::of_share(share),
            (None, Some(width), Some(swath)) => Overlap::of_passes(width, swath),
            (Some(_), ..) => Err(both_given("share and width").at("share")),
            _ => Err(Error::new(ErrorCode::MissingInput).at("share").allowed(text::key_example("overlap"))),
        }
    }

    fn of(overlap: &Overlap) -> Self {
        match *overlap {
            Overlap::Share(share) => Self { share: Some(share.into()), width: None, swath: None },
            Overlap::Passes { width, swath } => {
                Self { share: None, width: Some(Stated::of(width)), swath: Some(Stated::of(swath)) }
            }
        }
    }
}

impl CropWire {
    fn crop(&self) -> Result<Crop, Error> {
        let mut crop = Crop::new();
        for (length, with) in [
            (claimed!(self, row_spacing), Crop::with_row_spacing as fn(Crop, Length) -> Result<Crop, Error>),
            (claimed!(self, plant_spacing), Crop::with_plant_spacing),
            (claimed!(self, canopy_height), Crop::with_canopy_height),
            (claimed!(self, canopy_width), Crop::with_canopy_width),
            (claimed!(self, band_width), Crop::with_band_width),
        ] {
            crop = length.map_or(Ok(crop), |length| with(crop, length))?;
        }
        if let Some(sides) = self.treated_sides {
            crop = crop.with_treated_sides(sides.into());
        }
        if let Some(rows) = self.treated_rows {
            crop = crop.with_treated_rows(rows.into());
        }
        if let Some(plants) = self.plants {
            crop = crop.with_plants(whole(plants, text::COUNTED).at("plants")?)?;
        }
        if let Some(spots) = self.spots {
            crop = crop.with_spots(whole(spots, text::COUNTED).at("spots")?)?;
        }
        if let Some(area) = claimed!(self, spot_area) {
            crop = crop.with_spot_area(area)?;
        }
        crop.checked().map(|()| crop)
    }

    #[allow(clippy::cast_precision_loss)] // at most a trillion
    fn of(crop: &Crop) -> Self {
        Self {
            row_spacing: crop.row_spacing().map(Stated::of),
            plant_spacing: crop.plant_spacing().map(Stated::of),
            canopy_height: crop.canopy_height().map(Stated::of),
            canopy_width: crop.canopy_width().map(Stated::of),
            band_width: crop.band_width().map(Stated::of),
            treated_sides: crop.treated_sides().map(SidesWire::from),
            treated_rows: Some(crop.treated_rows().into()),
            plants: crop.plants().map(|plants| plants as f64),
            spots: crop.spots().map(|spots| spots as f64),
            spot_area: crop.spot_area().map(Stated::of),
        }
    }
}

impl LabelTankWire {
    fn tank(&self) -> Result<LabelTank, Error> {
        LabelTank::new(self.mix.claim().at("mix")?, self.area.claim().at("area")?)
    }

    fn of(tank: &LabelTank) -> Self {
        Self { mix: Stated::of(tank.mix()), area: Stated::of(tank.area()) }
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

fn dose_on(basis: BasisWire, stated: Option<&Stated>) -> Result<Option<Dose>, Error> {
    stated.map(|stated| dose(stated, Some(basis))).transpose()
}

impl ProductWire {
    fn product(&self) -> Result<Product, Error> {
        let mut substances = Vec::with_capacity(self.active_substances.len());
        for (index, substance) in self.active_substances.iter().enumerate() {
            substances.push(substance.substance().at(&format!("active_substances[{index}]"))?);
        }
        let stated = match &self.dose_of {
            Some(name) => self.dose_of(name, &substances)?,
            None => dose(&self.dose, self.basis).at("dose")?,
        };
        let mut product = Product::new(&self.name, stated)?;
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
        for substance in substances {
            product = product.with_active_substance(substance);
        }
        if let Some(label) = &self.label {
            product = product.with_label(label.label_for(|bound| self.basis_for(bound)).at("label")?)?;
        }
        if let Some(stock) = &self.stock {
            let by_volume = product.dose().is_by_volume();
            let stock = if by_volume { stock.claim().map(Amount::Volume) } else { stock.claim().map(Amount::Mass) };
            product = product.with_stock(stock.at("stock")?)?;
        }
        if let Some(containers) = &self.containers {
            product = product.with_containers(containers.containers().at("containers")?)?;
        }
        if let Some(measure) = &self.measure {
            product = product.with_measure(measure.measure().at("measure")?);
        }
        Ok(product)
    }

    /// The product's dose that brings the dose of an active substance.
    fn dose_of(&self, name: &str, substances: &[ActiveSubstance]) -> Result<Dose, Error> {
        if let Some(basis) = self.basis.map(Basis::from).filter(|basis| *basis != Basis::GroundArea) {
            let error = Error::new(ErrorCode::UnknownChoice).at("basis").given(text::quoted(basis.name()));
            return Err(error.allowed(text::quoted(Basis::GroundArea.name())));
        }
        let stated = self.dose.claim().at("dose")?;
        let doses: Vec<_> = substances.iter().filter_map(|substance| substance.dose_of(name, stated)).collect();
        match <[_; 1]>::try_from(doses) {
            Ok([dose]) => dose.at("dose"),
            Err(_) => {
                let names: Vec<&str> =
                    substances.iter().flat_map(|substance| [substance.name(), substance.summed_name()]).collect();
                let error = Error::new(ErrorCode::UnknownChoice).at("dose_of").given(text::quoted(name));
                Err(error.allowed(text::substance_of(&names)))
            }
        }
    }

    /// A least or largest dose is counted as the dose is, where both are per area, both per volume, or both in one other kind.
    fn basis_for(&self, bound: &Stated) -> Option<BasisWire> {
        // Per area, per volume of mix, or counted in what its unit says.
        let form = |stated: &Stated| {
            use Kind::{
                LiquidDose, MassConcentration, MassFraction, MassPerArea, MassPerVolume, SolidDose, VolumeFraction,
                VolumePerArea,
            };
            let (quantity, _) = stated.read().ok()?;
            Some(match quantity.kind() {
                VolumePerArea | MassPerArea | LiquidDose | SolidDose => LiquidDose,
                MassConcentration | MassFraction | MassPerVolume | VolumeFraction => VolumeFraction,
                other => other,
            })
        };
        self.basis.filter(|_| form(bound) == form(&self.dose))
    }

    fn of(product: &Product) -> Self {
        Self {
            name: product.name().to_string(),
            formulation: product.formulation().map(|formulation| formulation.code().to_string()),
            role: Some(product.role()).filter(|role| *role != Role::Product).map(Into::into),
            dose: Stated::of(product.dose()),
            dose_of: None,
            at_least: product.at_least().map(Stated::of),
            basis: Some(product.dose().basis().into()),
            density: product.density().map(Stated::of),
            particle_density: product.particle_density().map(Stated::of),
            bulk_density: product.bulk_density().map(Stated::of),
            viscous: product.is_marked_viscous(),
            stock: product.stated_stock().map(Stated::of),
            containers: product.containers().map(ContainersWire::of),
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
        let substance = ActiveSubstance::new(&self.name, content)?;
        match &self.equivalent {
            Some(equivalent) => Ok(substance.with_equivalent(equivalent.equivalent().at("equivalent")?)),
            None => Ok(substance),
        }
    }

    fn of(substance: &ActiveSubstance) -> Self {
        let content = match substance.content() {
            SubstanceContent::PerVolume(content) => Stated::of(content),
            SubstanceContent::PerMass(content) => Stated::of(content),
        };
        Self { name: substance.name().to_string(), content, equivalent: substance.equivalent().map(EquivalentWire::of) }
    }
}

impl EquivalentWire {
    fn equivalent(&self) -> Result<Equivalent, Error> {
        Equivalent::new(&self.name, self.factor.0.fraction().at("factor")?)
    }

    fn of(equivalent: &Equivalent) -> Self {
        Self { name: equivalent.name().to_string(), factor: equivalent.factor().into() }
    }
}

impl LabelWire {
    /// The label by itself: its least and largest dose are counted on what it says, or on what its dimension implies.
    fn label(&self) -> Result<Label, Error> {
        let label = self.label_for(|_| None)?;
        label.checked_alone().map(|()| label)
    }

    /// The label of a product, which may say what these doses are counted on where the label does not.
    fn label_for(&self, basis: impl Fn(&Stated) -> Option<BasisWire>) -> Result<Label, Error> {
        let bound = |stated: &Option<Stated>, own: Option<BasisWire>| {
            stated.as_ref().map(|stated| dose(stated, own.or_else(|| basis(stated)))).transpose()
        };
        let mut label = Label {
            min_dose: bound(&self.min_dose, self.min_dose_basis).at("min_dose")?,
            max_dose: bound(&self.max_dose, self.max_dose_basis).at("max_dose")?,
            max_ground_dose: dose_on(BasisWire::GroundArea, self.max_ground_dose.as_ref()).at("max_ground_dose")?,
            max_concentration: dose_on(BasisWire::MixVolume, self.max_concentration.as_ref())
                .at("max_concentration")?,
            tank: self.tank.as_ref().map(LabelTankWire::tank).transpose().at("tank")?,
            min_volume_rate: claimed!(self, min_volume_rate),
            max_volume_rate: claimed!(self, max_volume_rate),
            volume_rate_basis: self.volume_rate_basis.map(Basis::from),
            first_carrier: self
                .first_carrier
                .as_ref()
                .map(|share| share.0.fraction())
                .transpose()
                .at("first_carrier")?,
            wait: claimed!(self, wait),
            ammonium_sulfate: claimed!(self, ammonium_sulfate),
            order: self.order.as_ref().map(LabelOrderWire::order).transpose()?.filter(|order| !order.says_nothing()),
            protection: self.protection.as_ref().map(ProtectionWire::protection).transpose().at("protection")?,
            source: self.source.as_deref().map(Into::into),
            restrictions: Vec::new(),
        };
        for restriction in self.restrictions()? {
            label = label.with_restriction(restriction)?;
        }
        Ok(label)
    }

    fn restrictions(&self) -> Result<Vec<Restriction>, Error> {
        let mut all = Vec::new();
        macro_rules! limits {
            ($($key:ident: $rule:ident($of:expr);)*) => { $(
                if let Some(limit) = &self.$key {
                    let rule = $of(limit).map(Rule::$rule).at("value").at(stringify!($key))?;
                    all.push(restriction(rule, limit.force, limit.source.as_deref()));
                }
            )* };
        }
        limits! {
            max_treatments: MaxTreatments(|limit: &CountLimitWire| small(limit.value));
            min_interval: MinInterval(|limit: &QuantityLimitWire| limit.value.claim());
            waiting_period: WaitingPeriod(|limit: &QuantityLimitWire| limit.value.claim());
            min_growth_stage: MinGrowthStage(|limit: &CountLimitWire| stage(limit.value));
            max_growth_stage: MaxGrowthStage(|limit: &CountLimitWire| stage(limit.value));
            re_entry: ReEntry(|limit: &QuantityLimitWire| limit.value.claim());
            min_temperature: MinTemperature(|limit: &QuantityLimitWire| limit.value.claim());
            max_temperature: MaxTemperature(|limit: &QuantityLimitWire| limit.value.claim());
            min_delta_t: MinDeltaT(|limit: &QuantityLimitWire| limit.value.kelvins());
            max_delta_t: MaxDeltaT(|limit: &QuantityLimitWire| limit.value.kelvins());
        }
        for (key, limit, is_most) in [("min_wind", &self.min_wind, false), ("max_wind", &self.max_wind, true)] {
            if let Some(limit) = limit {
                let speed = limit.value.claim().at("value").at(key)?;
                let height = limit.height.as_ref().map(Stated::claim).transpose().at("height").at(key)?;
                let rule = if is_most { Rule::MaxWind(speed, height) } else { Rule::MinWind(speed, height) };
                all.push(restriction(rule, limit.force, limit.source.as_deref()));
            }
        }
        for (i, cap) in self.caps.iter().enumerate() {
            let capped = match &cap.substance {
                Some(name) => cap.value.claim().map(|most| Capped::Substance(name.as_str().into(), most)),
                None => dose(&cap.value, Some(BasisWire::GroundArea)).map(Capped::Product),
            };
            let at = format!("caps[{i}]");
            let capped = capped.at("value").at(&at)?;
            let rule = Rule::Cap(
                capped,
                cap.over.window().at("over").at(&at)?,
                cap.on.map_or_else(CapBasis::default, Into::into),
            );
            all.push(restriction(rule, cap.force, cap.source.as_deref()));
        }
        for (i, buffer) in self.buffers.iter().enumerate() {
            let width = buffer.value.claim().at("value").at(&format!("buffers[{i}]"))?;
            all.push(restriction(
                Rule::Buffer(buffer.from.as_str().into(), width),
                buffer.force,
                buffer.source.as_deref(),
            ));
        }
        Ok(all)
    }

    fn of(label: &Label) -> Self {
        let mut wire = Self {
            min_dose: label.min_dose.map(Stated::of),
            min_dose_basis: label.min_dose.map(|dose| dose.basis().into()),
            max_dose: label.max_dose.map(Stated::of),
            max_dose_basis: label.max_dose.map(|dose| dose.basis().into()),
            max_ground_dose: label.max_ground_dose.map(Stated::of),
            max_concentration: label.max_concentration.map(Stated::of),
            tank: label.tank.as_ref().map(LabelTankWire::of),
            volume_rate_basis: label.volume_rate_basis.map(BasisWire::from),
            min_volume_rate: label.min_volume_rate.map(Stated::of),
            max_volume_rate: label.max_volume_rate.map(Stated::of),
            first_carrier: label.first_carrier.map(Fraction::from),
            wait: label.wait.map(Stated::of),
            ammonium_sulfate: label.ammonium_sulfate.map(Stated::of),
            order: label.order().map(LabelOrderWire::of),
            protection: label.protection().map(ProtectionWire::of),
            source: label.source.as_deref().map(ToString::to_string),
            max_treatments: None,
            min_interval: None,
            waiting_period: None,
            min_growth_stage: None,
            max_growth_stage: None,
            re_entry: None,
            min_wind: None,
            max_wind: None,
            min_temperature: None,
            max_temperature: None,
            min_delta_t: None,
            max_delta_t: None,
            caps: Vec::new(),
            buffers: Vec::new(),
        };
        for restriction in label.restrictions() {
            wire.add(restriction);
        }
        wire
    }

    fn add(&mut self, restriction: &Restriction) {
        let force = Some(restriction.force().into());
        let source = restriction.source().map(ToString::to_string);
        let number = |value: f64| Some(CountLimitWire { value, force, source: source.clone() });
        let quantity = |value: Stated| Some(QuantityLimitWire { value, force, source: source.clone() });
        let wind = |value: &Speed, height: &Option<Length>| {
            let (value, height) = (Stated::of(*value), height.map(Stated::of));
            Some(WindLimitWire { value, height, force, source: source.clone() })
        };
        match restriction.rule() {
            Rule::MaxTreatments(most) => self.max_treatments = number((*most).into()),
            Rule::MinInterval(time) => self.min_interval = quantity(Stated::of(*time)),
            Rule::WaitingPeriod(time) => self.waiting_period = quantity(Stated::of(*time)),
            Rule::MinGrowthStage(stage) => self.min_growth_stage = number((*stage).into()),
            Rule::MaxGrowthStage(stage) => self.max_growth_stage = number((*stage).into()),
            Rule::ReEntry(time) => self.re_entry = quantity(Stated::of(*time)),
            Rule::MinWind(speed, height) => self.min_wind = wind(speed, height),
            Rule::MaxWind(speed, height) => self.max_wind = wind(speed, height),
            Rule::MinTemperature(value) => self.min_temperature = quantity(Stated::of(*value)),
            Rule::MaxTemperature(value) => self.max_temperature = quantity(Stated::of(*value)),
            Rule::MinDeltaT(value) => self.min_delta_t = quantity(Stated::of_kelvins(*value)),
            Rule::MaxDeltaT(value) => self.max_delta_t = quantity(Stated::of_kelvins(*value)),
            Rule::Buffer(from, width) => {
                self.buffers.push(LabelBufferWire { from: from.to_string(), value: Stated::of(*width), force, source });
            }
            Rule::Cap(capped, window, basis) => {
                let (substance, value) = match capped {
                    Capped::Product(dose) => (None, Stated::of(*dose)),
                    Capped::Substance(name, most) => (Some(name.to_string()), Stated::of(*most)),
                };
                let (over, on) = (WindowWire::of(*window), Some((*basis).into()));
                self.caps.push(CapWire { substance, value, over, on, force, source });
            }
        }
    }
}

fn restriction(rule: Rule, force: Option<ForceWire>, source: Option<&str>) -> Restriction {
    let mut restriction = Restriction::new(rule);
    if let Some(force) = force {
        restriction = restriction.with_force(force.into());
    }
    match source {
        Some(source) => restriction.with_source(source),
        None => restriction,
    }
}

/// A small whole number of a document.
fn small(number: f64) -> Result<u16, Error> {
    let number = whole(number, text::SMALL_NUMBER)?;
    let refused = || Error::new(ErrorCode::OutOfRange).given(number).allowed(text::SMALL_NUMBER);
    u16::try_from(number).ok().filter(|number| *number <= 36_525).ok_or_else(refused)
}

/// A growth stage; the label and the season know its range.
fn stage(number: f64) -> Result<u8, Error> {
    let refused = || Error::new(ErrorCode::OutOfRange).given(number).allowed(text::GROWTH_STAGE);
    let stage = small(number).map_err(|error| error.allowed(text::GROWTH_STAGE))?;
    u8::try_from(stage).ok().filter(|stage| *stage <= 99).ok_or_else(refused)
}

impl WindowWire {
    fn window(&self) -> Result<Window, Error> {
        match (self.season, self.days, self.months, self.years) {
            (true, None, None, None) => Ok(Window::Season),
            (false, Some(days), None, None) => small(days).map(Window::Days).at("days"),
            (false, None, Some(months), None) => small(months).map(Window::Months).at("months"),
            (false, None, None, Some(years)) => small(years).map(Window::Years).at("years"),
            (false, None, None, None) => Err(Error::new(ErrorCode::MissingInput).allowed(text::A_WINDOW)),
            _ => Err(both_given("two windows").allowed(text::A_WINDOW)),
        }
    }

    #[allow(clippy::trivially_copy_pass_by_ref, reason = "as the other parts")]
    fn of(window: Window) -> Self {
        let mut wire = Self { season: false, days: None, months: None, years: None };
        match window {
            Window::Season => wire.season = true,
            Window::Days(days) => wire.days = Some(days.into()),
            Window::Months(months) => wire.months = Some(months.into()),
            Window::Years(years) => wire.years = Some(years.into()),
        }
        wire
    }
}

impl SeasonWire {
    fn season(&self) -> Result<Season, Error> {
        let date = |text: &Option<String>, key: &str| text.as_deref().map(Date::read).transpose().at(key);
        let mut season = Season {
            date: date(&self.date, "date")?,
            harvest: date(&self.harvest, "harvest")?,
            growth_stage: self.growth_stage.map(stage).transpose().at("growth_stage")?,
            season_start: date(&self.season_start, "season_start")?,
            ..Season::default()
        };
        for (i, parcel) in self.parcels.iter().enumerate() {
            season = season.with_parcel(parcel.parcel().at(&format!("parcels[{i}]"))?);
        }
        for (i, treatment) in self.treatments.iter().enumerate() {
            season = season.with_treatment(treatment.treatment().at(&format!("treatments[{i}]"))?);
        }
        Ok(season)
    }

    fn of(season: &Season) -> Self {
        Self {
            date: season.date.map(|date| date.to_string()),
            harvest: season.harvest.map(|date| date.to_string()),
            growth_stage: season.growth_stage.map(Into::into),
            season_start: season.season_start.map(|date| date.to_string()),
            parcels: season.parcels.iter().map(ParcelWire::of).collect(),
            treatments: season.treatments.iter().map(TreatmentWire::of).collect(),
        }
    }
}

impl ParcelWire {
    fn parcel(&self) -> Result<Parcel, Error> {
        let parcel = Parcel::new(&self.name)?;
        match claimed!(self, area) {
            Some(area) => parcel.with_area(area),
            None => Ok(parcel),
        }
    }

    fn of(parcel: &Parcel) -> Self {
        Self { name: parcel.name().to_string(), area: parcel.area().map(Stated::of) }
    }
}

impl TreatmentWire {
    fn treatment(&self) -> Result<Treatment, Error> {
        let applied = match (&self.product, &self.dose, self.substances.as_slice()) {
            (Some(product), Some(stated), []) => {
                Applied::Product(product.as_str().into(), dose(stated, Some(BasisWire::GroundArea)).at("dose")?)
            }
            (Some(_), None, []) => {
                return Err(Error::new(ErrorCode::MissingInput).at("dose").allowed(text::key_example("dose")));
            }
            (None, None, [_, ..]) => {
                let mut substances = Vec::with_capacity(self.substances.len());
                for (i, substance) in self.substances.iter().enumerate() {
                    let amount = substance.dose.claim().at("dose").at(&format!("substances[{i}]"))?;
                    substances.push((substance.name.as_str().into(), amount));
                }
                Applied::Substances(substances)
            }
            (None, None, []) => {
                return Err(Error::new(ErrorCode::MissingInput).at("product").allowed(text::PRODUCT_OF_JOB));
            }
            _ => return Err(both_given(text::word("product or dose, and substances")).at("substances")),
        };
        let mut treatment = Treatment::new(Date::read(&self.date).at("date")?, applied)?;
        if let Some(parcel) = &self.parcel {
            treatment = treatment.on_parcel(parcel);
        }
        match &self.treated_share {
            Some(share) => treatment.with_treated_share(share.0.fraction().at("treated_share")?),
            None => Ok(treatment),
        }
    }

    fn of(treatment: &Treatment) -> Self {
        let (product, dose, substances) = match treatment.applied() {
            Applied::Product(name, dose) => (Some(name.to_string()), Some(Stated::of(*dose)), Vec::new()),
            Applied::Substances(substances) => {
                let wire = |(name, dose): &(Arc<str>, MassPerArea)| SubstanceDoseWire {
                    name: name.to_string(),
                    dose: Stated::of(*dose),
                };
                (None, None, substances.iter().map(wire).collect())
            }
        };
        Self {
            date: treatment.date().to_string(),
            product,
            dose,
            substances,
            parcel: treatment.parcel().map(ToString::to_string),
            treated_share: Some(treatment.treated_share().into()),
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

impl WaterWire {
    fn water(&self) -> Result<Water, Error> {
        Water::new()
            .with_potassium(claimed!(self, potassium).unwrap_or_default())?
            .with_sodium(claimed!(self, sodium).unwrap_or_default())?
            .with_calcium(claimed!(self, calcium).unwrap_or_default())?
            .with_magnesium(claimed!(self, magnesium).unwrap_or_default())?
            .with_iron(claimed!(self, iron).unwrap_or_default())
    }

    fn of(water: &Water) -> Self {
        Self {
            potassium: Some(Stated::of(water.potassium())),
            sodium: Some(Stated::of(water.sodium())),
            calcium: Some(Stated::of(water.calcium())),
            magnesium: Some(Stated::of(water.magnesium())),
            iron: Some(Stated::of(water.iron())),
        }
    }
}

impl StartWire {
    fn start(&self) -> Result<TankStart, Error> {
        let mut start = TankStart::new(self.holds.into(), self.volume.claim().at("volume")?)?;
        for (index, held) in self.products.iter().enumerate() {
            let at = format!("products[{index}]");
            let amount = held.amount.read().and_then(|(quantity, _)| Amount::claim(quantity)).at("amount").at(&at)?;
            start = start.with_amount(&held.name, amount).at(&at)?;
        }
        Ok(start)
    }

    fn of(start: &TankStart) -> Self {
        let held = |(name, amount): (&str, Amount)| HeldWire { name: name.to_string(), amount: Stated::of(amount) };
        Self {
            holds: start.holds().into(),
            volume: Stated::of(start.volume()),
            products: start.amounts().map(held).collect(),
        }
    }
}

impl ContainersWire {
    fn containers(&self) -> Result<Containers, Error> {
        let amount = |stated: &Stated| stated.read().and_then(|(quantity, _)| Amount::claim(quantity));
        let mut containers = Containers::new(amount(&self.content).at("content")?)?;
        if let Some(full) = self.full {
            containers = containers.with_full(whole(full, text::CONTAINERS).at("full")?)?;
        }
        if let Some(part) = &self.part {
            containers = containers.with_part(amount(part).at("part")?)?;
        }
        Ok(self.rinse.map_or(containers, |is_rinsed| containers.rinsed(is_rinsed)))
    }

    #[allow(clippy::cast_precision_loss)] // a thousand million at most
    fn of(containers: &Containers) -> Self {
        Self {
            content: Stated::of(containers.content()),
            full: containers.full().map(|full| full as f64),
            part: containers.part().map(Stated::of),
            rinse: containers.is_rinsed(),
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
        let mut measure = Measure::new(kind, capacity, graduation, unit, self.name.as_deref())?;
        if let Some(class) = self.class {
            measure = measure.with_class(class.into())?;
        }
        match &self.tolerance {
            Some(tolerance) => measure.with_tolerance(tolerance.read().at("tolerance")?.0),
            None => Ok(measure),
        }
    }

    fn of(measure: &Measure) -> Self {
        Self {
            name: Some(measure.name().to_string()),
            kind: measure.kind().into(),
            capacity: (measure.kind() != MeasureKind::Pack).then(|| Stated::of(measure.capacity())),
            graduation: Stated::of(measure.graduation()),
            marked_in: Some(measure.unit().to_string()),
            class: measure.class().map(Into::into),
            tolerance: measure.tolerance().map(Stated::of),
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
        if let Some(check) = &self.scale_check {
            tank = tank.with_scale_check(check.check().at("scale_check")?)?;
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
            scale_check: tank.scale_check().map(ScaleCheckWire::of),
        }
    }
}

impl ScaleCheckWire {
    fn check(&self) -> Result<ScaleCheck, Error> {
        let point = |(index, point): (usize, &ScalePointWire)| point.point().at(&format!("points[{index}]"));
        let points = self.points.iter().enumerate().map(point).collect::<Result<Vec<_>, _>>()?;
        ScaleCheck::new(&points, self.tolerance.0.fraction().at("tolerance")?)
    }

    fn of(check: &ScaleCheck) -> Self {
        Self {
            points: check.points().iter().map(ScalePointWire::of).collect(),
            tolerance: Fraction::from(check.tolerance()),
        }
    }
}

impl ScalePointWire {
    fn point(&self) -> Result<ScalePoint, Error> {
        ScalePoint::new(self.poured.claim().at("poured")?, self.read.claim().at("read")?)
    }

    fn of(point: &ScalePoint) -> Self {
        Self { poured: Stated::of(point.poured()), read: Stated::of(point.read()) }
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
            Some(fillings) => loading.with_max_fillings(whole(fillings, text::FILLINGS).at("max_fillings")?),
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
fn whole(number: f64, allowed: &str) -> Result<u64, Error> {
    if (0.0..1e15).contains(&number) && libm::floor(number).to_bits() == number.to_bits() {
        Ok(number as u64)
    } else {
        Err(Error::new(ErrorCode::OutOfRange).given(number).allowed(allowed))
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
