//! Monte Carlo over a timed course, for `benches/python/monte_carlo_beside_numpy.py`: prints trials a second, and the interval of the rate.
//!
//!     cargo run --release --package mixcalc-benches --example monte_carlo -- TRIALS REPEATS

use std::time::Instant;

use mixcalc::{Error, Length, Ratio, Time, Uncertain, Volume, simulate};

fn main() -> Result<(), Error> {
    let mut arguments = std::env::args().skip(1);
    let mut number = |default: u32| arguments.next().and_then(|text| text.parse().ok()).unwrap_or(default);
    let (trials, repeats) = (number(1_000_000), number(5));

    let milliliters = |value| Volume::from_milliliters(value);
    let one = Ratio::from_number(1.0)?;
    let percent = Ratio::from_percent;
    let repeated = Uncertain::from_repeats(
        "catches",
        &[milliliters(396.0)?, milliliters(402.0)?, milliliters(399.0)?, milliliters(403.0)?],
    )?;
    let catch = repeated.times::<_, Volume>(&Uncertain::from_tolerance("jug", one, percent(2.5)?)?)?;
    let stopwatch = Uncertain::from_tolerance("stopwatch", one, percent(1.0)?)?;
    let timed = |name, seconds| {
        Uncertain::from_tolerance(name, Time::from_seconds(seconds)?, Time::from_seconds(0.3)?)?
            .times::<_, Time>(&stopwatch)
    };
    let (catch_time, course_time) = (timed("catch time", 30.0)?, timed("course time", 36.0)?);
    let course = Uncertain::from_tolerance("course", Length::from_meters(50.0)?, Length::from_meters(0.2)?)?;
    let swath = Uncertain::exact(Length::from_meters(0.5)?)?;

    let mut best = f64::INFINITY;
    let mut ends = [0.0; 2];
    for seed in 0..u64::from(repeats) {
        let begin = Instant::now();
        let rate = simulate(trials, seed, |trial| {
            let flow = trial.of(&catch)? / trial.of(&catch_time)?;
            let speed = trial.of(&course)? / trial.of(&course_time)?;
            Ok(flow / (speed * trial.of(&swath)?))
        })?;
        let interval = rate.interval(percent(95.0)?)?;
        best = best.min(begin.elapsed().as_secs_f64());
        ends = [interval.low(), interval.high()].map(mixcalc::VolumePerArea::liters_per_hectare);
    }
    println!("{} {} {}", f64::from(trials) / best, ends[0], ends[1]);
    Ok(())
}
