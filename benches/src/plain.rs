//! The peer: the same sums in plain doubles, as one writes them without a library.
//!
//! Liters, kilograms and hectares by agreement, the measure of each product known beforehand. It has full loads and a part load,
//! amounts in whole graduations and not over the maximum, fillings, rinses, first carrier and top-up, and totals. It has no units,
//! no checks of its input, no closeness, no choice of a measure, no findings, and no steps.

/// What a product's dose is counted on.
#[derive(Clone, Copy, Debug)]
pub enum Dose {
    /// Per hectare.
    PerArea(f64),
    /// Per liter of mix.
    PerMix(f64),
}

/// A product and its measure.
#[derive(Clone, Copy, Debug)]
pub struct Product {
    /// The dose, in liters or kilograms.
    pub dose: Dose,
    /// The largest dose.
    pub max_dose: Dose,
    /// The volume that a liter or kilogram takes up in the tank.
    pub room: f64,
    /// The step of the measure.
    pub graduation: f64,
    /// What the measure holds.
    pub capacity: f64,
    /// Carrier for rinsing the measure.
    pub rinse: f64,
}

/// Ground, rate and tank.
#[derive(Clone, Debug)]
pub struct Job {
    /// Hectares.
    pub area: f64,
    /// Liters of mix per hectare.
    pub rate: f64,
    /// Liters that a full load has.
    pub fill: f64,
    /// The products.
    pub products: Vec<Product>,
}

/// What goes into a load of one product.
#[derive(Clone, Copy, Debug)]
pub struct Amount {
    /// Liters or kilograms that the dose asks for.
    pub exact: f64,
    /// Whole steps of the measure.
    pub graduations: u64,
    /// Fillings of the measure.
    pub fillings: u64,
}

/// Equal loads.
#[derive(Clone, Debug)]
pub struct Load {
    /// How many.
    pub count: u64,
    /// Liters of mix in each.
    pub mix: f64,
    /// Liters of carrier before the products.
    pub first: f64,
    /// Liters of carrier after the products.
    pub top_up: f64,
    /// The products.
    pub amounts: Vec<Amount>,
}

/// Loads, and what they take in all.
#[derive(Clone, Debug)]
pub struct Plan {
    /// Full loads and the part load.
    pub loads: Vec<Load>,
    /// Liters or kilograms of each product.
    pub totals: Vec<f64>,
}

/// The sums.
#[must_use]
#[allow(clippy::cast_possible_truncation, clippy::cast_precision_loss, clippy::cast_sign_loss)] // as people write it
pub fn plan(job: &Job) -> Plan {
    let mix = job.area * job.rate;
    let full = (mix / job.fill).floor();
    let runs = [(full as u64, job.fill), (1, mix - full * job.fill)];
    let share = |dose| match dose {
        Dose::PerArea(dose) => dose / job.rate,
        Dose::PerMix(share) => share,
    };
    let amount = |product: &Product, mix: f64| {
        let exact = share(product.dose) * mix;
        let most = (share(product.max_dose) * mix / product.graduation).floor();
        let graduations = (exact / product.graduation).round().min(most);
        Amount {
            exact,
            graduations: graduations as u64,
            fillings: (graduations * product.graduation / product.capacity).ceil() as u64,
        }
    };
    let loads = runs.into_iter().filter(|(count, mix)| *count > 0 && *mix > 0.0).map(|(count, mix)| {
        let amounts: Vec<Amount> = job.products.iter().map(|product| amount(product, mix)).collect();
        let measured = job.products.iter().zip(&amounts);
        let (mut room, mut rinses) = (0.0, 0.0);
        for (product, amount) in measured {
            room += amount.graduations as f64 * product.graduation * product.room;
            rinses += product.rinse;
        }
        let carrier = mix - room;
        let first = (mix / 2.0).min(carrier - rinses);
        Load { count, mix, first, top_up: carrier - rinses - first, amounts }
    });
    let loads: Vec<Load> = loads.collect();
    let total = |(index, product): (usize, &Product)| {
        let counts =
            loads.iter().map(|load| load.count * load.amounts.get(index).map_or(0, |amount| amount.graduations));
        counts.sum::<u64>() as f64 * product.graduation
    };
    let totals = job.products.iter().enumerate().map(total).collect();
    Plan { loads, totals }
}

/// The job that [`job`](crate::job) makes, with the measures that it leads to.
#[must_use]
#[allow(clippy::cast_precision_loss)] // up to 1e11 loads
pub fn job(products: usize, loads: u64) -> Job {
    let jug = |dose, max_dose| Product { dose, max_dose, room: 1.0, graduation: 0.1, capacity: 5.0, rinse: 3.75 };
    let all = [
        jug(Dose::PerArea(1.375), Dose::PerArea(1.5)),
        Product {
            dose: Dose::PerArea(0.4136),
            max_dose: Dose::PerArea(0.5),
            room: 1.0 / 1.6,
            graduation: 0.005,
            capacity: 5.0,
            rinse: 0.0,
        },
        Product { graduation: 0.01, capacity: 1.0, rinse: 0.75, ..jug(Dose::PerMix(0.001), Dose::PerMix(0.0015)) },
    ];
    Job {
        area: 5.0 * (loads as f64 - 0.5),
        rate: 200.0,
        fill: 1000.0,
        products: all.into_iter().take(products).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Peers are peers where they come to the same.
    #[test]
    fn comes_to_what_the_library_comes_to() {
        for (products, loads) in [(1, 10), (3, 10), (3, 10_000), (3, 10_000_000_000)] {
            let (ours, theirs) = (mixcalc::plan(&crate::job(products, loads)).unwrap(), plan(&job(products, loads)));
            let recipes: Vec<_> = ours.cleared().unwrap().recipes().collect();
            assert_eq!(recipes.len(), theirs.loads.len());
            for (recipe, load) in recipes.iter().zip(&theirs.loads) {
                assert_eq!(recipe.load().count(), load.count);
                let ours: Vec<u64> = recipe.amounts().map(|amount| amount.graduations()).collect();
                let theirs: Vec<u64> = load.amounts.iter().map(|amount| amount.graduations).collect();
                assert_eq!(ours, theirs);
                let top_up =
                    recipe.steps().iter().rfind(|step| matches!(step.action(), mixcalc::Action::TopUp { .. })).unwrap();
                assert!((top_up.carrier().liters() - load.top_up).abs() < 1e-9);
            }
        }
    }
}
