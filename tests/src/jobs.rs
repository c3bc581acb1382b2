//! Random jobs that seek the edges, as proptest strategies: whole loads and a little beside, doses on a graduation and half way
//! between two, doses at their maximum, marks, strips, residuals, packs; from a part of one load to 1e11 of them.
//!
//! A [`Sketch`] holds the numbers of a job in the measures of one trade. It becomes a [`Job`] through text, as a document does,
//! in these measures or in those of another trade.
#![allow(
    clippy::panic,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::missing_panics_doc,
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    reason = "a sketch that makes no job is a fault of the test and has to be seen"
)]

use mixcalc::*;
use proptest::collection::vec;
use proptest::option::weighted;
use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::{RngSeed, TestCaseResult, TestRunner};

/// Runs a property over 10 000 values, or over more where `PROPTEST_CASES` says so, and shrinks the one that breaks it. The values
/// are the same in every run unless `PROPTEST_RNG_SEED` gives others.
pub fn for_all<S: Strategy>(values: &S, property: impl Fn(&S::Value) -> TestCaseResult) {
    let mut config = ProptestConfig::default();
    config.cases = config.cases.max(10_000);
    config.failure_persistence = None;
    if config.rng_seed == RngSeed::Random {
        config.rng_seed = RngSeed::Fixed(1);
    }
    let seed = config.rng_seed;
    let outcome = TestRunner::new(config).run(values, |value| property(&value));
    if let Err(error) = outcome {
        panic!("PROPTEST_RNG_SEED={seed}: {error}");
    }
}

/// Measures: capacity and graduation of each.
type Steps = Vec<(f64, f64)>;

/// Unit words of a trade.
struct Words {
    area: &'static str,
    volume: &'static str,
    mass: &'static str,
    volume_per_area: &'static str,
    mass_per_area: &'static str,
    volume_fraction: &'static str,
    mass_per_volume: &'static str,
    mass_fraction: &'static str,
    ratio: &'static str,
    /// What products are measured in: by volume, by mass, and how many of these are one of the above.
    small: (&'static str, f64, &'static str, f64),
    /// What a volume of water weighs, roughly.
    water: f64,
    /// Vessels and scales, capacity and graduation.
    vessels: &'static [(f64, f64)],
    scales: &'static [(f64, f64)],
    rates: &'static [f64],
    /// Nominal volumes: hand-held, knapsack, machine.
    tanks: [&'static [f64]; 3],
}

const METRIC: Words = Words {
    area: "ha",
    volume: "L",
    mass: "kg",
    volume_per_area: "L/ha",
    mass_per_area: "kg/ha",
    volume_fraction: "% v/v",
    mass_per_volume: "g/L",
    mass_fraction: "% w/w",
    ratio: "%",
    small: ("mL", 1000.0, "g", 1000.0),
    water: 1.0,
    vessels: &[
        (10.0, 0.5),
        (25.0, 1.0),
        (100.0, 2.0),
        (250.0, 5.0),
        (500.0, 10.0),
        (1000.0, 10.0),
        (2000.0, 50.0),
        (5000.0, 100.0),
        (10000.0, 250.0),
    ],
    scales: &[(200.0, 0.1), (500.0, 1.0), (5000.0, 1.0), (5000.0, 5.0), (30000.0, 20.0)],
    rates: &[50.0, 80.0, 100.0, 150.0, 200.0, 300.0, 400.0, 600.0, 1000.0],
    tanks: [&[1.0, 2.0, 5.0, 8.0], &[10.0, 12.0, 15.0, 16.0, 20.0], &[200.0, 400.0, 600.0, 1000.0, 3000.0]],
};

const US: Words = Words {
    area: "ac",
    volume: "US gal",
    mass: "lb",
    volume_per_area: "US gal/ac",
    mass_per_area: "lb/ac",
    volume_fraction: "US fl oz/100 US gal",
    mass_per_volume: "lb/US gal",
    mass_fraction: "oz av/lb",
    ratio: "1",
    small: ("US fl oz", 128.0, "oz av", 16.0),
    water: 8.3,
    vessels: &[(1.0, 0.125), (4.0, 0.25), (16.0, 0.5), (32.0, 1.0), (64.0, 2.0), (128.0, 4.0), (640.0, 16.0)],
    scales: &[(8.0, 0.01), (16.0, 0.05), (160.0, 0.5), (800.0, 1.0)],
    rates: &[5.0, 8.0, 10.0, 15.0, 20.0, 30.0, 40.0, 100.0],
    tanks: [&[0.25, 0.5, 1.0, 2.0], &[3.0, 4.0, 5.0], &[50.0, 100.0, 200.0, 300.0, 500.0]],
};

const IMPERIAL: Words = Words {
    volume: "imp gal",
    mass: "oz av",
    volume_per_area: "imp gal/ac",
    mass_per_area: "oz av/ac",
    volume_fraction: "imp fl oz/imp gal",
    mass_per_volume: "oz av/imp gal",
    mass_fraction: "ppm w/w",
    small: ("imp fl oz", 160.0, "oz av", 1.0),
    water: 160.0,
    vessels: &[(1.0, 0.05), (2.0, 0.1), (10.0, 0.5), (20.0, 0.5), (40.0, 1.0), (160.0, 5.0)],
    rates: &[10.0, 15.0, 20.0, 30.0, 50.0, 100.0],
    tanks: [&[0.25, 0.5, 1.0], &[2.0, 3.0, 4.0], &[50.0, 100.0, 200.0, 400.0]],
    ..US
};

const fn words(units: System) -> &'static Words {
    match units {
        System::Us => &US,
        System::Imperial => &IMPERIAL,
        _ => &METRIC,
    }
}

impl Words {
    const fn unit(&self, kind: Kind) -> &'static str {
        match kind {
            Kind::Area => self.area,
            Kind::Volume => self.volume,
            Kind::Mass => self.mass,
            Kind::VolumePerArea => self.volume_per_area,
            Kind::MassPerArea => self.mass_per_area,
            Kind::VolumeFraction => self.volume_fraction,
            Kind::MassPerVolume => self.mass_per_volume,
            Kind::MassFraction => self.mass_fraction,
            _ => self.ratio,
        }
    }
}

/// What is known of the tank, so that its safe fill is the nominal volume or a part of it.
#[derive(Clone, Copy, Debug)]
pub enum Room {
    /// A brim well over nominal.
    Above,
    /// A brim a little over nominal: this many times.
    Tight(f64),
    /// Nominal alone.
    Unknown,
    /// Brim alone.
    Brim,
    /// Nominal alone, and a headspace in percent.
    Headspace(f64),
}

/// What a dose is counted on; a share by mass also on the mass of the mix.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counted {
    /// On ground area.
    Area,
    /// On the volume of mix.
    Mix,
    /// On the volume of carrier.
    Carrier,
    /// On the mass of mix.
    MixMass,
}

/// The most that a label allows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Most {
    /// One figure on the label.
    NotGiven,
    /// This many times the dose.
    Times(f64),
    /// This many times the dose, counted on something of its own; as if a full load were all carrier where that is it.
    TimesOn(f64, Counted),
}

/// A measure of a product's own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Own {
    /// None: one of the list serves.
    None,
    /// The vessel that the dose aims at.
    Vessel,
    /// The scale that the dose aims at.
    Scale,
    /// A pack, of which the dose aims at a few for a full load.
    Pack,
}

/// A product of a sketch.
#[derive(Clone, Debug)]
pub struct ProductSketch {
    /// Dosed by volume, or by mass.
    pub by_volume: bool,
    /// How it is measured and poured.
    pub state: State,
    /// What its dose is counted on.
    pub counted: Counted,
    /// Which measure its dose aims at.
    pub aim: usize,
    /// Which graduation of it, as a part of twice its capacity.
    pub height: f64,
    /// How far beside that graduation, in graduations.
    pub beside: f64,
    /// How far beside that, relative.
    pub nudge: f64,
    /// The most that its label allows.
    pub most: Most,
    /// A measure of its own.
    pub own: Own,
    /// Density of the liquid, of the particles, of the heap, in kg/L.
    pub densities: [Option<f64>; 3],
    /// Stock, as a part of what a full load takes, times the loads.
    pub stock: Option<f64>,
    /// What its label wants in the tank first.
    pub first_carrier: Option<f64>,
    /// Least and largest volume rate of its label, as parts of the job's.
    pub rates: Option<(f64, f64)>,
}

impl ProductSketch {
    /// Density of the liquid.
    #[must_use]
    pub fn density(&self) -> Option<Density> {
        self.densities[0].map(|x| Density::from_kilograms_per_liter(x).expect("a density"))
    }

    /// Density of the particles.
    #[must_use]
    pub fn particle_density(&self) -> Option<ParticleDensity> {
        self.densities[1].map(|x| ParticleDensity::from_kilograms_per_liter(x).expect("a density"))
    }

    /// Density of the heap.
    #[must_use]
    pub fn bulk_density(&self) -> Option<BulkDensity> {
        self.densities[2].map(|x| BulkDensity::from_kilograms_per_liter(x).expect("a density"))
    }
}

/// The numbers of a job, in the measures of `units`.
#[derive(Clone, Debug)]
pub struct Sketch {
    /// The trade whose measures it is in.
    pub units: System,
    /// Size of the sprayer: hand-held, knapsack, machine.
    pub size: usize,
    /// Nominal volume.
    pub nominal: f64,
    /// What else is known of the tank.
    pub room: Room,
    /// Marks on the tank, as a part of its nominal volume.
    pub mark: Option<f64>,
    /// Least working volume, as a part of nominal.
    pub least: Option<f64>,
    /// Residual, as a part of nominal.
    pub residual: Option<f64>,
    /// Density of the mix in kg/L.
    pub mix_density: Option<f64>,
    /// Empty mass and mass of mix that is carried, as parts of what the nominal volume of water weighs.
    pub masses: Option<(f64, f64)>,
    /// Rate.
    pub rate: f64,
    /// Whether it is one of carrier.
    pub of_carrier: bool,
    /// Full loads that the area is made for,
    pub loads: u64,
    /// a part of one more,
    pub part: f64,
    /// and how far beside that, relative.
    pub nudge: f64,
    /// How they are divided.
    pub split: Split,
    /// Last strip: by area or else by volume, as a part of a full load.
    pub strip: Option<(bool, f64)>,
    /// Fillings before a caution.
    pub max_fillings: u64,
    /// Which measures of the trade are at hand: a bit each.
    pub at_hand: (u16, u8),
    /// The products.
    pub products: Vec<ProductSketch>,
}

/// Names of products. Invented.
const NAMES: [&str; 4] = ["example product A", "example product B", "example product C", "example product D"];

/// Turns the numbers of a sketch into quantities, by way of text.
#[derive(Clone, Copy)]
struct Stated {
    own: System,
    stated: System,
}

impl Stated {
    fn quantity(self, value: f64, unit: &str) -> Quantity {
        let quantity = Quantity::read(&format!("{value} {unit}")).expect("a quantity");
        if self.own == self.stated {
            return quantity;
        }
        let unit = words(self.stated).unit(quantity.kind());
        let value = quantity.to(unit).expect("a unit of the kind");
        Quantity::read(&format!("{value} {unit}")).expect("a quantity")
    }

    fn of<Q: QuantityKind>(self, value: f64, unit: &str) -> Q {
        self.quantity(value, unit).claim().expect("a quantity of the kind")
    }
}

impl Sketch {
    fn words(&self) -> &'static Words {
        words(self.units)
    }

    /// The vessels and scales at hand: those that are picked and whose rinses leave room in the tank; one at the least.
    fn at_hand(&self) -> (Steps, Steps) {
        let words = self.words();
        let room = self.nominal * words.small.1 / 6.0;
        let picked = |all: &[(f64, f64)], bits: u16, room: f64| {
            let mut fit: Vec<(f64, f64)> = all.iter().copied().filter(|m| m.0 <= room).collect();
            fit.extend(all.first().filter(|_| fit.is_empty()));
            let fit = fit.into_iter().enumerate();
            let last = fit.len() - 1;
            fit.filter(|(i, _)| *i == last || bits & (1 << i) != 0).map(|(_, measure)| measure).collect::<Vec<_>>()
        };
        (picked(words.vessels, self.at_hand.0, room), picked(words.scales, self.at_hand.1.into(), f64::INFINITY))
    }

    /// The most that the tank may be filled to, near enough to aim at.
    #[must_use]
    pub fn fill(&self) -> f64 {
        let headspace = if self.size < 2 { 0.9 } else { 0.95 };
        let mut fill = match self.room {
            Room::Above => self.nominal,
            Room::Tight(times) if self.size == 2 && times >= 1.05 => self.nominal,
            Room::Tight(times) => self.nominal.min(self.nominal * times * headspace),
            Room::Unknown | Room::Brim => self.nominal * headspace,
            Room::Headspace(percent) => self.nominal * (1.0 - percent / 100.0),
        };
        if let (Some((_, carried)), Some(density)) = (self.masses, self.mix_density) {
            fill = fill.min(self.nominal * carried / density);
        }
        match self.mark {
            Some(mark) => {
                let mark = mark * self.nominal;
                (fill / mark + 1e-9).floor().max(1.0) * mark
            }
            None => fill,
        }
    }

    /// Graduation and capacity that a product aims at, whether by volume, and the amount for a full load; in small units.
    fn aimed(&self, product: &ProductSketch) -> (bool, (f64, f64), f64) {
        let words = self.words();
        let (vessels, scales) = self.at_hand();
        let by_volume = match product.own {
            Own::Vessel => true,
            Own::Scale => false,
            Own::Pack | Own::None => product.by_volume,
        };
        let fill = self.fill();
        let room = 0.1 * if by_volume { fill * words.small.1 } else { fill * words.water * words.small.3 };
        let (capacity, graduation) = if product.own == Own::Pack {
            let content = (room / 10.0 * 1e3).round() / 1e3;
            (content.max(1e-3), content.max(1e-3))
        } else {
            let list = if by_volume { vessels } else { scales };
            list[product.aim % list.len()]
        };
        let most = (room / graduation).floor().max(1.0);
        let marks = (2.0 * capacity / graduation * product.height).round().max(1.0);
        let amount = (marks.min(most) + product.beside) * (1.0 + product.nudge);
        (by_volume, (capacity, graduation), amount * graduation)
    }

    fn dose(&self, product: &ProductSketch, times: f64, counted: Counted, stated: Stated) -> (Quantity, Option<Basis>) {
        let words = self.words();
        let (by_volume, _, amount) = self.aimed(product);
        // Brought from the sort of the measure to that of the dose, near enough.
        let dense = product.densities[0].or(product.densities[2]).unwrap_or(1.0) * words.water;
        let (small_volume, small_mass) = (words.small.1, words.small.3);
        let amount = times
            * match (by_volume, product.by_volume) {
                (true, false) => amount / small_volume * dense * small_mass,
                (false, true) => amount / small_mass / dense * small_volume,
                _ => amount,
            };
        let small = if product.by_volume { words.small.0 } else { words.small.2 };
        let fill = self.fill();
        match counted {
            Counted::Area => (stated.quantity(amount * self.rate / fill, &format!("{small}/{}", words.area)), None),
            Counted::MixMass if !product.by_volume => {
                let mix = fill * words.water * small_mass * self.mix_density.unwrap_or(1.0);
                (stated.quantity(amount / mix * 100.0, "% w/w"), None)
            }
            Counted::Mix | Counted::MixMass => {
                (stated.quantity(amount / fill, &format!("{small}/{}", words.volume)), Some(Basis::MixVolume))
            }
            Counted::Carrier => (
                stated.quantity(amount * 100.0 / fill, &format!("{small}/100 {}", words.volume)),
                Some(Basis::CarrierVolume),
            ),
        }
    }

    fn product(&self, index: usize, stated: Stated) -> Result<Product, Error> {
        let words = self.words();
        let sketch = &self.products[index];
        let claimed = |times, counted| {
            let (quantity, basis) = self.dose(sketch, times, counted, stated);
            Dose::claim(quantity, basis).expect("a dose")
        };
        let (by_volume, (capacity, graduation), amount) = self.aimed(sketch);
        let mut product = Product::new(NAMES[index], claimed(1.0, sketch.counted))?;
        if sketch.state == State::Dry {
            product = product.with_formulation(Formulation::read("WG")?)?;
        } else {
            product = product.with_formulation(Formulation::read("SC")?)?;
        }
        if sketch.state == State::Viscous {
            product = product.viscous();
        }
        let [density, particle, bulk] = sketch.densities;
        if let Some(density) = density {
            product = product.with_density(stated.of(density, "kg/L"))?;
        }
        if let Some(density) = particle {
            product = product.with_particle_density(stated.of(density, "kg/L"))?;
        }
        if let Some(density) = bulk {
            product = product.with_bulk_density(stated.of(density, "kg/L"))?;
        }
        let volume = |value| stated.of::<Volume>(value, words.small.0);
        let mass = |value| stated.of::<Mass>(value, words.small.2);
        if sketch.own != Own::None {
            product = product.with_measure(match (sketch.own, by_volume) {
                (Own::Pack, true) => Measure::pack(volume(graduation))?,
                (Own::Pack, false) => Measure::pack(mass(graduation))?,
                (_, true) => Measure::vessel(volume(capacity), volume(graduation))?,
                (_, false) => Measure::scale(mass(capacity), mass(graduation))?,
            });
        }
        if let Some(part) = sketch.stock {
            let stock = part * amount * (self.loads as f64 + self.part);
            product =
                if sketch.by_volume { product.with_stock(volume(stock))? } else { product.with_stock(mass(stock))? };
        }
        let mut label = Label::new();
        label = match sketch.most {
            Most::NotGiven => label,
            Most::Times(times) => label.with_max_dose(claimed(times, sketch.counted)),
            Most::TimesOn(times, counted) => label.with_max_dose(claimed(times, counted)),
        };
        if let Some(share) = sketch.first_carrier {
            label = label.with_first_carrier(stated.of(share * 100.0, "%"));
        }
        if let Some((least, most)) = sketch.rates {
            let rate = |times: f64| stated.of(self.rate * times, words.volume_per_area);
            label = label.with_min_volume_rate(rate(least)).with_max_volume_rate(rate(most));
        }
        product.with_label(label)
    }

    /// The job, in its own measures.
    ///
    /// # Errors
    ///
    /// Those of making its parts.
    pub fn job(&self) -> Result<Job, Error> {
        self.job_in(self.units)
    }

    /// The job, each quantity stated as text in the measures of a trade.
    ///
    /// # Errors
    ///
    /// Those of making its parts.
    pub fn job_in(&self, units: System) -> Result<Job, Error> {
        let words = self.words();
        let stated = Stated { own: self.units, stated: units };
        let volume = |value| stated.of::<Volume>(value, words.volume);
        let mass = |value: f64| stated.of::<Mass>(value * self.nominal * words.water, words.mass);

        let nominal = volume(self.nominal);
        let mut tank = match self.room {
            Room::Above => Tank::new(Some(nominal), Some(volume(self.nominal * 1.2)))?,
            Room::Tight(times) => Tank::new(Some(nominal), Some(volume(self.nominal * times)))?,
            Room::Unknown => Tank::of_nominal(nominal)?,
            Room::Brim => Tank::of_brim(nominal)?,
            Room::Headspace(percent) => Tank::of_nominal(nominal)?.with_headspace(stated.of(percent, "%"))?,
        };
        if let Some(mark) = self.mark {
            tank = tank.with_graduation(volume(mark * self.nominal))?;
        }
        if let Some(least) = self.least {
            tank = tank.with_least_working_volume(volume(least * self.nominal))?;
        }

        let mut sprayer = Sprayer::new([SprayerKind::HandHeld, SprayerKind::Knapsack, SprayerKind::Boom][self.size]);
        let residual = self.residual.unwrap_or(0.0) * self.nominal;
        if self.residual.is_some() {
            sprayer = sprayer.with_residual(Residual::new(volume(residual * 0.75), volume(residual * 0.25))?);
        }
        if let Some((empty, carried)) = self.masses {
            sprayer = sprayer.with_empty_mass(mass(empty))?;
            if self.mix_density.is_some() {
                sprayer = sprayer.with_carried_mass_limit(mass(empty + carried))?;
            }
        }

        let fill = self.fill();
        let held_back = match self.strip {
            Some((true, part)) => (part * fill - residual).max(0.0),
            Some((false, part)) => part * fill,
            None => 0.0,
        };
        let made = (self.loads as f64 + self.part) * (1.0 + self.nudge) * fill;
        let rate = stated.of(self.rate, words.volume_per_area);
        let mut loading = Loading::new().with_split(self.split).with_max_fillings(self.max_fillings)?;
        loading = match self.strip {
            Some((true, part)) => {
                loading.with_last_strip(LastStrip::Area(stated.of(part * fill / self.rate, words.area)))?
            }
            Some((false, part)) => loading.with_last_strip(LastStrip::Volume(volume(part * fill)))?,
            None => loading,
        };
        let mut job = Job::new(
            stated.of::<Area>((made + held_back) / self.rate, words.area),
            if self.of_carrier { Rate::Carrier(rate) } else { Rate::Volume(rate) },
            sprayer,
            tank,
        )?
        .in_units(units)
        .with_loading(loading);
        if let Some(density) = self.mix_density {
            job = job.with_mix_density(stated.of(density, "kg/L"))?;
        }
        let (vessels, scales) = self.at_hand();
        for (i, (capacity, graduation)) in vessels.into_iter().enumerate() {
            let of = |value| stated.of(value, words.small.0);
            let vessel = Measure::vessel(of(capacity), of(graduation))?;
            job = job.with_measure(vessel.with_name(&format!("vessel {i}"))?)?;
        }
        for (i, (capacity, graduation)) in scales.into_iter().enumerate() {
            let of = |value| stated.of(value, words.small.2);
            let scale = Measure::scale(of(capacity), of(graduation))?;
            job = job.with_measure(scale.with_name(&format!("scale {i}"))?)?;
        }
        for index in 0..self.products.len() {
            job = job.with_product(self.product(index, stated)?)?;
        }
        Ok(job)
    }
}

/// On the spot, within the tolerance of closeness (and still so where two of them meet), just outside it.
fn nudge() -> impl Strategy<Value = f64> {
    prop_oneof![
        12 => Just(0.0),
        3 => select(&[3e-16, -3e-16, 1e-15, -1e-15, 3e-13, -3e-13][..]),
        1 => select(&[3e-12, -3e-12, 1e-9, -1e-9][..]),
    ]
}

fn product() -> impl Strategy<Value = ProductSketch> {
    let state = prop_oneof![
        6 => Just((true, State::Liquid)),
        1 => Just((true, State::Viscous)),
        3 => Just((false, State::Dry)),
        1 => Just((false, State::Liquid)),
    ];
    let counted = prop_oneof![
        6 => Just(Counted::Area),
        2 => Just(Counted::Mix),
        1 => Just(Counted::Carrier),
        1 => Just(Counted::MixMass),
    ];
    let height = prop_oneof![3 => 0.02..0.5_f64, 1 => 0.0..1.0_f64];
    let beside = prop_oneof![4 => Just(0.0), 2 => Just(0.5), 3 => 0.0..1.0_f64];
    let on = select(&[Counted::Area, Counted::Mix, Counted::Carrier][..]);
    let most = prop_oneof![
        50 => Just(Most::NotGiven),
        20 => Just(Most::Times(1.0)),
        20 => select(&[1.001, 1.01, 1.1, 2.0][..]).prop_map(Most::Times),
        12 => (select(&[1.001, 1.02, 1.25][..]), on.clone()).prop_map(|(times, on)| Most::TimesOn(times, on)),
        1 => on.prop_map(|on| Most::TimesOn(1.0, on)),
        1 => Just(Most::Times(0.9)),
    ];
    let own = prop_oneof![
        12 => Just(Own::None),
        1 => Just(Own::Vessel),
        1 => Just(Own::Scale),
        1 => Just(Own::Pack),
    ];
    let densities = (weighted(0.7, 0.8..1.4_f64), weighted(0.7, 1.2..1.8_f64), weighted(0.7, 0.3..0.9_f64));
    let label = (
        most,
        weighted(0.1, select(&[0.25, 0.6, 0.75, 1.0][..])),
        weighted(
            0.1,
            prop_oneof![
                12 => Just((0.5, 2.0)),
                2 => Just((1.0, 1.0)),
                1 => select(&[(0.2, 0.7), (1.3, 2.0)][..]),
            ],
        ),
    );
    ((state, counted, 0..16_usize, height, beside, nudge()), (label, own, densities, weighted(0.1, 0.5..2.0_f64)))
        .prop_map(|(aimed, (label, own, densities, stock))| {
            let ((by_volume, state), counted, aim, height, beside, nudge) = aimed;
            let (density, particle, bulk) = densities;
            let dry = state == State::Dry;
            let needs_density = !by_volume || own == Own::Scale;
            ProductSketch {
                by_volume,
                state,
                counted: if by_volume && counted == Counted::MixMass { Counted::Mix } else { counted },
                aim,
                height,
                beside,
                nudge,
                most: label.0,
                own,
                densities: [
                    if dry {
                        None
                    } else if needs_density {
                        density.or(Some(1.1))
                    } else {
                        density
                    },
                    particle.filter(|_| dry),
                    bulk.or(Some(0.5).filter(|_| own == Own::Vessel)).filter(|_| dry),
                ],
                stock,
                first_carrier: label.1,
                rates: label.2,
            }
        })
}

/// Jobs of any size.
pub fn sketches() -> impl Strategy<Value = Sketch> {
    let many = select(&[1_000, 100_000, 1_000_000_000, 10_000_000_000, 30_000_000_000, 70_000_000_000][..]);
    sketches_of(prop_oneof![
        1 => Just(0),
        6 => 1..=3_u64,
        6 => 4..=40_u64,
        2 => many,
    ])
}

/// Jobs of so many full loads, and perhaps a part of one.
pub fn sketches_of(loads: impl Strategy<Value = u64>) -> impl Strategy<Value = Sketch> {
    let units = prop_oneof![
        4 => Just(System::Metric),
        2 => Just(System::Us),
        1 => Just(System::Imperial),
    ];
    let room = prop_oneof![
        12 => Just(Room::Above),
        1 => Just(Room::Tight(1.05)),
        1 => Just(Room::Tight(1.02)),
        1 => Just(Room::Unknown),
        1 => Just(Room::Brim),
        1 => select(&[0.0, 2.0, 5.0, 12.5][..]).prop_map(Room::Headspace),
    ];
    let mark = select(&[1.0, 0.5, 0.25, 0.2, 0.1, 0.1, 0.05, 0.0625, 0.3, 0.07][..]);
    let tank = (
        0..3_usize,
        0..16_usize,
        room,
        weighted(0.45, mark),
        weighted(0.35, select(&[0.1, 0.2, 0.25, 0.5][..])),
        weighted(0.3, select(&[0.0, 0.01, 0.02, 0.025, 0.05][..])),
        weighted(0.4, select(&[1.0, 1.02, 1.1][..])),
        weighted(0.3, (0.2..0.5_f64, select(&[0.75, 0.9, 1.0, 1.25][..]))),
    );
    let part = prop_oneof![
        5 => Just(0.0),
        4 => select(&[0.1, 0.2, 0.25, 0.5, 0.75, 0.9][..]),
        3 => 0.05..1.0_f64,
    ];
    let ground = (
        0..16_usize,
        prop::bool::weighted(0.2),
        loads,
        part,
        nudge(),
        select(Split::all()),
        weighted(0.3, (any::<bool>(), select(&[0.0, 0.02, 0.05, 0.1, 0.5][..]))),
    );
    let measures = (any::<u16>(), any::<u8>());
    let max_fillings = prop_oneof![8 => Just(2_u64), 1 => Just(1), 1 => Just(5)];
    let products = prop_oneof![
        1 => vec(product(), 0..=0),
        12 => vec(product(), 1..=2),
        6 => vec(product(), 3..=4),
    ];
    (units, tank, ground, measures, max_fillings, products).prop_map(
        |(units, tank, ground, at_hand, max_fillings, products)| {
            let (size, tank_size, room, mark, least, residual, mix_density, masses) = tank;
            let (rate, of_carrier, loads, part, nudge, split, strip) = ground;
            let words = words(units);
            let tanks = words.tanks[size];
            let by_mass = products.iter().any(|product| product.counted == Counted::MixMass);
            Sketch {
                units,
                size,
                nominal: tanks[tank_size % tanks.len()],
                room,
                mark,
                least,
                residual,
                mix_density: mix_density.or(Some(1.0).filter(|_| by_mass)),
                masses,
                rate: words.rates[rate % words.rates.len()],
                of_carrier,
                loads,
                part: if loads == 0 { part.max(0.05) } else { part },
                nudge,
                split,
                strip,
                max_fillings,
                at_hand,
                products,
            }
        },
    )
}
