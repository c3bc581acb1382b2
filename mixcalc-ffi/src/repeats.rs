//! How often to measure, which repeat does not belong, how nozzles wear, and whether one value is out of the ordinary.

use std::mem::size_of;

use mixcalc::{Effort, Flow, Quantity, Ratio, Time, Wear};

use crate::border::answer;
use crate::choice;
use crate::error::ErrorDetails;
use crate::failure::Failure;
use crate::handle::{free, list, read, room};
use crate::sized::{fill, first_release_ends_with};
use crate::sum::named;
use crate::uncertain::{UncertainHandle, answer_uncertain, percent};

/// How many repeats bring the half-width of a mean's interval down to a part of the mean.
///
/// spread_percent      standard deviation of one repeat, as a part of the mean, %, above 0
/// precision_percent   half-width of the interval, as a part of the mean, %, above 0
/// coverage_percent    the probability with which the interval is to hold the true value, %
/// out_repeats         receives how many, 2 or more
/// error               may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_repeats), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_repeats_needed(
    spread_percent: f64,
    precision_percent: f64,
    coverage_percent: f64,
    out_repeats: *mut u64,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let out = room("out_repeats", out_repeats)?;
        let (spread, precision) = (percent("spread", spread_percent)?, percent("precision", precision_percent)?);
        let repeats = mixcalc::repeats_needed(spread, precision, percent("coverage", coverage_percent)?)?;
        // SAFETY: the caller's promise.
        unsafe { out.write(repeats) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// Whether a mean of repeats is as precise as wanted.
///
/// mean                the mean, as mixcalc_uncertain_from_repeats() makes it
/// precision_percent   half-width of its interval, as a part of it, %, above 0
/// coverage_percent    the probability with which the interval is to hold the true value, %
/// out_is_settled      receives 1 where it is, else 0
/// error               may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (mean, out_is_settled), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_is_settled(
    mean: *const UncertainHandle,
    precision_percent: f64,
    coverage_percent: f64,
    out_is_settled: *mut u32,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let out = room("out_is_settled", out_is_settled)?;
        // SAFETY: the caller's promise.
        let mean = unsafe { read("mean", mean) }?;
        let (precision, coverage) = (percent("precision", precision_percent)?, percent("coverage", coverage_percent)?);
        let is_settled = mean.value.is_settled(precision, coverage)?;
        // SAFETY: as above.
        unsafe { out.write(is_settled.into()) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// What mixcalc_outlier() fills: a test of the value that is farthest from the mean.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct OutlierView {
    /// sizeof(mixcalc_outlier_test) of the caller.
    pub struct_size: usize,
    /// Which value it is, from 0.
    pub farthest: usize,
    /// Its distance from the mean in standard deviations.
    pub residual: f64,
    /// The distance that chance passes with no more than the chosen probability; 0 for fewer than three values.
    pub critical: f64,
    /// What follows: MIXCALC_OUTLIER_NONE, _FOUND or _TOO_FEW.
    pub verdict: u32,
    /// Always 0.
    pub reserved: u32,
}

first_release_ends_with! { OutlierView.verdict; }

/// Numbers of the caller that are all in one unit, whichever: what is asked of them is the same in each.
///
/// `values` is NULL or points at `count` numbers.
unsafe fn numbers(values: *const f64, count: usize) -> Result<Vec<Ratio>, Box<Failure>> {
    // SAFETY: the caller's promise.
    let values = unsafe { list("values", values, count) }?;
    values.iter().enumerate().map(|(i, value)| named(&format!("values[{i}]"), Ratio::from_number(*value))).collect()
}

/// Tests whether the value farthest from the mean is an outlier.
///
/// values         repeats of one value, or nozzles of one kind, all in one unit
/// values_count   how many, 2 or more
/// risk_percent   the probability of calling an outlier where there is none, %
/// out_test       filled; start it with MIXCALC_OUTLIER_TEST_INIT
/// error          may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (values, out_test), _LENGTH (values_count), _MISSING_INPUT, _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (out_test,
/// error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_outlier(
    values: *const f64,
    values_count: usize,
    risk_percent: f64,
    out_test: *mut OutlierView,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        // SAFETY: the caller's promise.
        unsafe {
            fill("out_test", out_test, || {
                let test = mixcalc::outlier(&numbers(values, values_count)?, percent("risk", risk_percent)?)?;
                Ok(OutlierView {
                    struct_size: size_of::<OutlierView>(),
                    farthest: test.farthest,
                    residual: test.residual.number(),
                    critical: test.critical.map_or(0.0, Ratio::number),
                    verdict: choice::outlier_verdict(test.verdict),
                    reserved: 0,
                })
            })
        }
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// How often to measure each of several things, so that a volume rate made of them is known best in the time there is.
///
/// spreads_percent   standard deviation of one repeat of each, as a part of its mean, %, above 0
/// times_min         what one repeat of each takes, min, above 0
/// efforts_count     how many things, 1 or more
/// available_min     time for all of it, min
/// out_repeats       receives for each how often
/// error             may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (spreads_percent, times_min, out_repeats), _LENGTH (efforts_count), _MISSING_INPUT, _NOT_FINITE, _NOT_POSITIVE,
/// _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_best_repeats(
    spreads_percent: *const f64,
    times_min: *const f64,
    efforts_count: usize,
    available_min: f64,
    out_repeats: *mut u64,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let out = room("out_repeats", out_repeats)?;
        // SAFETY: the caller's promise.
        let (spreads, times) = unsafe {
            (list("spreads_percent", spreads_percent, efforts_count)?, list("times_min", times_min, efforts_count)?)
        };
        let mut efforts = Vec::new();
        for (i, (spread, time)) in spreads.iter().zip(times).enumerate() {
            let at = format!("efforts[{i}]");
            let spread = percent(&at, *spread)?;
            efforts.push(Effort { spread, time: named(&at, Time::from_minutes(*time))? });
        }
        let counts = mixcalc::best_repeats(&efforts, named("available", Time::from_minutes(available_min))?)?;
        for (i, count) in counts.into_iter().enumerate() {
            // SAFETY: the caller's promise: there is room for one of each effort.
            unsafe { out.add(i).write(count) };
        }
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// The straight line through the flows of a nozzle over its hours of use. Made by mixcalc_wear_from_flows(), given back with mixcalc_wear_free(). It never
/// changes.
#[derive(Debug)]
pub struct WearHandle(Wear);

/// What mixcalc_wear_reaches() fills: when a flow is reached, in hours of use.
#[derive(Clone, Copy, Debug, Default)]
#[repr(C)]
pub struct WornAtView {
    /// sizeof(mixcalc_worn_at) of the caller.
    pub struct_size: usize,
    /// Where the line meets the limit, h.
    pub expected_h: f64,
    /// The lower end of the interval, h. Before the last flow: it may have been reached already.
    pub earliest_h: f64,
    /// The upper end, h.
    pub latest_h: f64,
    /// 1 where it can be foreseen; 0 where the line does not rise for certain, and then the three above are 0.
    pub is_foreseen: u32,
    /// Always 0.
    pub reserved: u32,
}

first_release_ends_with! { WornAtView.is_foreseen; }

fn hours(parameter: &str, value: f64) -> Result<Time, Box<Failure>> {
    named(parameter, Quantity::from_parts(value, "h").and_then(Quantity::claim))
}

/// The line through three flows or more at their hours of use.
///
/// times_h           hours of use, h, 0 or more
/// flows_l_per_min   flows, all of one pressure and one way to measure, L/min, above 0
/// points_count      how many, 3 or more
/// out_wear          receives the line; give it back with mixcalc_wear_free()
/// error             may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (times_h, flows_l_per_min, out_wear), _LENGTH (points_count), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE,
/// _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_wear_from_flows(
    times_h: *const f64,
    flows_l_per_min: *const f64,
    points_count: usize,
    out_wear: *mut *mut WearHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_wear, error, {
        let times = list("times_h", times_h, points_count)?;
        let flows = list("flows_l_per_min", flows_l_per_min, points_count)?;
        let mut points = Vec::new();
        for (i, (time, flow)) in times.iter().zip(flows).enumerate() {
            let at = format!("points[{i}]");
            points.push((hours(&at, *time)?, named(&at, Flow::from_liters_per_minute(*flow))?));
        }
        Ok(WearHandle(Wear::from_flows(&points)?))
    })
}

/// Gives back a line of wear.
///
/// wear   from mixcalc_wear_from_flows(), not given back before; NULL is allowed and does nothing
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_wear_free(wear: *mut WearHandle) {
    // SAFETY: the caller's promise.
    unsafe { free(wear) };
}

/// Flow and wear at a time of use, on the line.
///
/// wear                 the line
/// time_h               hours of use, h
/// out_flow_l_per_min   receives the flow, L/min
/// out_wear_percent     receives how much more that is than when new, %
/// error                may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (wear, out_flow_l_per_min, out_wear_percent), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_wear_at(
    wear: *const WearHandle,
    time_h: f64,
    out_flow_l_per_min: *mut f64,
    out_wear_percent: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let outs = (room("out_flow_l_per_min", out_flow_l_per_min)?, room("out_wear_percent", out_wear_percent)?);
        // SAFETY: the caller's promise.
        let wear = unsafe { read("wear", wear) }?;
        let time = hours("time", time_h)?;
        let (flow, more) = (wear.0.flow_at(time).liters_per_minute(), wear.0.wear_at(time)?.percent());
        // SAFETY: as above.
        unsafe {
            outs.0.write(flow);
            outs.1.write(more);
        }
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// When a flow is reached that counts as worn.
///
/// wear               the line
/// limit_l_per_min    the flow, L/min, above 0
/// coverage_percent   the probability with which the interval is to hold the time, %
/// out_worn           filled; start it with MIXCALC_WORN_AT_INIT
/// error              may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (wear, out_worn), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (out_worn, error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_wear_reaches(
    wear: *const WearHandle,
    limit_l_per_min: f64,
    coverage_percent: f64,
    out_worn: *mut WornAtView,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        // SAFETY: the caller's promise.
        unsafe {
            fill("out_worn", out_worn, || {
                let limit = named("limit", Flow::from_liters_per_minute(limit_l_per_min))?;
                let worn = read("wear", wear)?.0.reaches(limit, percent("coverage", coverage_percent)?)?;
                let none = WornAtView { struct_size: size_of::<WornAtView>(), ..WornAtView::default() };
                let Some(worn) = worn else { return Ok(none) };
                let told = |time: Time| Quantity::of(time).to("h");
                Ok(WornAtView {
                    expected_h: told(worn.expected)?,
                    earliest_h: told(worn.earliest)?,
                    latest_h: told(worn.latest)?,
                    is_foreseen: 1,
                    ..none
                })
            })
        }
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// What mixcalc_control_chart() fills: the limits between which single values of a steady thing stay, in the unit of the values.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct ControlChartView {
    /// sizeof(mixcalc_chart) of the caller.
    pub struct_size: usize,
    /// The mean.
    pub center: f64,
    /// The lower limit; below zero where values spread widely.
    pub low: f64,
    /// The upper limit.
    pub high: f64,
    /// How many values are outside of the limits.
    pub outside: usize,
}

first_release_ends_with! { ControlChartView.outside; }

/// A chart of individuals over values in the order in which they were measured, such as one nozzle's flow at each check.
///
/// values           the values, all in one unit
/// values_count     how many, 2 or more
/// out_is_outside   receives for each value 1 where it is outside of the limits, else 0; may be NULL
/// out_chart        filled; start it with MIXCALC_CHART_INIT
/// error            may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (values, out_chart), _LENGTH (values_count), _MISSING_INPUT, _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE
/// (out_chart, error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_control_chart(
    values: *const f64,
    values_count: usize,
    out_is_outside: *mut u8,
    out_chart: *mut ControlChartView,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        // SAFETY: the caller's promise.
        unsafe {
            fill("out_chart", out_chart, || {
                let chart = mixcalc::control_chart(&numbers(values, values_count)?)?;
                if !out_is_outside.is_null() {
                    for i in 0..values_count {
                        out_is_outside.add(i).write(chart.outside.contains(&i).into());
                    }
                }
                Ok(ControlChartView {
                    struct_size: size_of::<ControlChartView>(),
                    center: chart.center.number(),
                    low: chart.low.number(),
                    high: chart.high.number(),
                    outside: chart.outside.len(),
                })
            })
        }
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}
