//! The numbers that stand for closed lists. A list grows at its end: read a number that is not here as "something newer".

use mixcalc::{
    Action, Alleys, Amount, BoomSide, Bound, Confidence, Difference, Force, Kind, MeasureKind, NozzleAdvice,
    OutlierVerdict, Quantity, SetAdvice, Severity, Side, System,
};

use crate::failure::Failure;

/// Declares the numbers of one list, and the function that gives a member its number.
macro_rules! number_of {
    ($function:ident, $list:ty { $($pattern:pat => $number:ident,)* }) => {
        /// Its number; 0 for a member that has none as yet, which a test forbids.
        pub(crate) const fn $function(member: $list) -> u32 {
            #[allow(unreachable_patterns, reason = "some lists are open, others are closed")]
            match member {
                $($pattern => $number,)*
                _ => 0,
            }
        }
    };
}

/// By volume, in liters.
pub const MIXCALC_KIND_VOLUME: u32 = 1;
/// By mass, in kilograms.
pub const MIXCALC_KIND_MASS: u32 = 2;

number_of!(kind, Kind {
    Kind::Volume => MIXCALC_KIND_VOLUME,
    Kind::Mass => MIXCALC_KIND_MASS,
});

/// A jug, cylinder or cup, graduated in volume.
pub const MIXCALC_MEASURE_VESSEL: u32 = 1;
/// A scale, graduated in mass.
pub const MIXCALC_MEASURE_SCALE: u32 = 2;
/// A bag, tablet or bottle that is counted and not divided.
pub const MIXCALC_MEASURE_PACK: u32 = 3;

number_of!(measure, MeasureKind {
    MeasureKind::Vessel => MIXCALC_MEASURE_VESSEL,
    MeasureKind::Scale => MIXCALC_MEASURE_SCALE,
    MeasureKind::Pack => MIXCALC_MEASURE_PACK,
});

/// Fill the tank with the first carrier: carrier_l, mark_l, rest_l.
pub const MIXCALC_ACTION_FILL: u32 = 1;
/// Measure a product, and pour it in unless it is premixed: its fillings are in mixcalc_plan_measured_amount().
pub const MIXCALC_ACTION_MEASURE: u32 = 2;
/// Stir the measured product into carrier_l of carrier, and pour that in.
pub const MIXCALC_ACTION_PREMIX: u32 = 3;
/// Rinse the measure of a product so many times with each_l of carrier, and pour the rinses in.
pub const MIXCALC_ACTION_RINSE: u32 = 4;
/// Agitate until the mix is even.
pub const MIXCALC_ACTION_AGITATE: u32 = 5;
/// Fill up with what is left of the carrier: carrier_l, mark_l, rest_l.
pub const MIXCALC_ACTION_TOP_UP: u32 = 6;
/// Wait until a product is dispersed: from least_wait_s to most_wait_s.
pub const MIXCALC_ACTION_WAIT: u32 = 7;
/// Start the agitator, and let it run until the tank is empty.
pub const MIXCALC_ACTION_START_AGITATOR: u32 = 8;
/// Rinse the containers of a product that the load empties so many times with each_l of carrier, which is a part of the top-up.
pub const MIXCALC_ACTION_RINSE_CONTAINERS: u32 = 9;

number_of!(action, Action {
    Action::Fill { .. } => MIXCALC_ACTION_FILL,
    Action::Measure { .. } => MIXCALC_ACTION_MEASURE,
    Action::Premix { .. } => MIXCALC_ACTION_PREMIX,
    Action::Rinse { .. } => MIXCALC_ACTION_RINSE,
    Action::Agitate => MIXCALC_ACTION_AGITATE,
    Action::TopUp { .. } => MIXCALC_ACTION_TOP_UP,
    Action::Wait { .. } => MIXCALC_ACTION_WAIT,
    Action::StartAgitator => MIXCALC_ACTION_START_AGITATOR,
    Action::RinseContainers { .. } => MIXCALC_ACTION_RINSE_CONTAINERS,
});

/// The plan must not be carried out: it has no measured amounts, no steps and no load sheet.
pub const MIXCALC_SEVERITY_STOP: u32 = 1;
/// Somebody should decide.
pub const MIXCALC_SEVERITY_CAUTION: u32 = 2;
/// Good to know.
pub const MIXCALC_SEVERITY_NOTE: u32 = 3;

number_of!(severity, Severity {
    Severity::Stop => MIXCALC_SEVERITY_STOP,
    Severity::Caution => MIXCALC_SEVERITY_CAUTION,
    Severity::Note => MIXCALC_SEVERITY_NOTE,
});

/// The value may be as large as the limit.
pub const MIXCALC_BOUND_AT_MOST: u32 = 1;
/// The value may be as small as the limit.
pub const MIXCALC_BOUND_AT_LEAST: u32 = 2;

number_of!(bound, Bound {
    Bound::AtMost => MIXCALC_BOUND_AT_MOST,
    Bound::AtLeast => MIXCALC_BOUND_AT_LEAST,
});

/// Law.
pub const MIXCALC_FORCE_LAW: u32 = 1;
/// The product's label.
pub const MIXCALC_FORCE_LABEL: u32 = 2;
/// A technical standard.
pub const MIXCALC_FORCE_STANDARD: u32 = 3;
/// Advice: cautious practice, with its origin.
pub const MIXCALC_FORCE_ADVICE: u32 = 4;
/// What is there: a stock, a graduation, a load.
pub const MIXCALC_FORCE_FACT: u32 = 5;

number_of!(force, Force {
    Force::Law => MIXCALC_FORCE_LAW,
    Force::Label => MIXCALC_FORCE_LABEL,
    Force::Standard => MIXCALC_FORCE_STANDARD,
    Force::Advice => MIXCALC_FORCE_ADVICE,
    Force::Fact => MIXCALC_FORCE_FACT,
});

/// The interval is under the limit.
pub const MIXCALC_SIDE_UNDER: u32 = 1;
/// The interval is over the limit.
pub const MIXCALC_SIDE_OVER: u32 = 2;
/// The interval holds the limit: nothing can be said.
pub const MIXCALC_SIDE_CANNOT_TELL: u32 = 3;

number_of!(side, Side {
    Side::Under => MIXCALC_SIDE_UNDER,
    Side::Over => MIXCALC_SIDE_OVER,
    Side::CannotTell => MIXCALC_SIDE_CANNOT_TELL,
});

/// Liters, kilograms, hectares.
pub const MIXCALC_SYSTEM_METRIC: u32 = 1;
/// US customary measures.
pub const MIXCALC_SYSTEM_US: u32 = 2;
/// Imperial measures.
pub const MIXCALC_SYSTEM_IMPERIAL: u32 = 3;

number_of!(system, System {
    System::Metric => MIXCALC_SYSTEM_METRIC,
    System::Us => MIXCALC_SYSTEM_US,
    System::Imperial => MIXCALC_SYSTEM_IMPERIAL,
});

/// Each alley once, with everything open that the flow is of.
pub const MIXCALC_ALLEYS_EACH: u32 = 1;
/// Each alley twice, once for each side of it.
pub const MIXCALC_ALLEYS_EACH_TWICE: u32 = 2;
/// Every other alley.
pub const MIXCALC_ALLEYS_EVERY_OTHER: u32 = 3;

number_of!(alleys, Alleys {
    Alleys::Each => MIXCALC_ALLEYS_EACH,
    Alleys::EachTwice => MIXCALC_ALLEYS_EACH_TWICE,
    Alleys::EveryOther => MIXCALC_ALLEYS_EVERY_OTHER,
});

/// Nobody stated what the calibration was measured with. Differences are bits: several may be set.
pub const MIXCALC_DIFFERENCE_UNSTATED: u32 = 1;
/// Another sprayer.
pub const MIXCALC_DIFFERENCE_SPRAYER: u32 = 2;
/// Another operator.
pub const MIXCALC_DIFFERENCE_OPERATOR: u32 = 4;
/// Other nozzles.
pub const MIXCALC_DIFFERENCE_NOZZLES: u32 = 8;
/// Another pressure.
pub const MIXCALC_DIFFERENCE_PRESSURE: u32 = 16;
/// Other ground.
pub const MIXCALC_DIFFERENCE_GROUND: u32 = 32;
/// The calibration is older than is accepted.
pub const MIXCALC_DIFFERENCE_TOO_OLD: u32 = 64;
/// The calibration is of a later day than the job.
pub const MIXCALC_DIFFERENCE_LATER_DAY: u32 = 128;

number_of!(difference, Difference {
    Difference::Unstated => MIXCALC_DIFFERENCE_UNSTATED,
    Difference::Sprayer => MIXCALC_DIFFERENCE_SPRAYER,
    Difference::Operator => MIXCALC_DIFFERENCE_OPERATOR,
    Difference::Nozzles => MIXCALC_DIFFERENCE_NOZZLES,
    Difference::Pressure => MIXCALC_DIFFERENCE_PRESSURE,
    Difference::Ground => MIXCALC_DIFFERENCE_GROUND,
    Difference::TooOld => MIXCALC_DIFFERENCE_TOO_OLD,
    Difference::LaterDay => MIXCALC_DIFFERENCE_LATER_DAY,
});

/// The nominal flow of ISO 10625, at 300 kPa.
pub const MIXCALC_SIZE_NOMINAL: u32 = 1;
/// The flow that the number means by custom, at 40 psi.
pub const MIXCALC_SIZE_BY_CUSTOM: u32 = 2;

/// The text of the source, or what is widely printed from it, was seen to agree.
pub const MIXCALC_CONFIDENCE_CERTAIN: u32 = 1;
/// The text of the source was not seen.
pub const MIXCALC_CONFIDENCE_PROBABLE: u32 = 2;

number_of!(confidence, Confidence {
    Confidence::Certain => MIXCALC_CONFIDENCE_CERTAIN,
    Confidence::Probable => MIXCALC_CONFIDENCE_PROBABLE,
});

/// The left side of the sprayer, seen in the direction of travel.
pub const MIXCALC_BOOM_LEFT: u32 = 1;
/// The right side.
pub const MIXCALC_BOOM_RIGHT: u32 = 2;

number_of!(boom_side, BoomSide {
    BoomSide::Left => MIXCALC_BOOM_LEFT,
    BoomSide::Right => MIXCALC_BOOM_RIGHT,
});

/// The nozzle may stay.
pub const MIXCALC_NOZZLE_KEEP: u32 = 1;
/// It gives less than the others: clean it and catch again.
pub const MIXCALC_NOZZLE_CLEAN: u32 = 2;
/// It gives more than the others, or more than a new one: replace it.
pub const MIXCALC_NOZZLE_REPLACE: u32 = 3;
/// It is off a table as all of them are: catch a new nozzle in the same way to tell.
pub const MIXCALC_NOZZLE_SHARED_BIAS: u32 = 4;
/// The catches are not certain enough for the limits: the verdict is withheld.
pub const MIXCALC_NOZZLE_CANNOT_TELL: u32 = 5;

number_of!(nozzle_advice, NozzleAdvice {
    NozzleAdvice::Keep => MIXCALC_NOZZLE_KEEP,
    NozzleAdvice::Clean => MIXCALC_NOZZLE_CLEAN,
    NozzleAdvice::Replace => MIXCALC_NOZZLE_REPLACE,
    NozzleAdvice::SharedBias => MIXCALC_NOZZLE_SHARED_BIAS,
    NozzleAdvice::CannotTell => MIXCALC_NOZZLE_CANNOT_TELL,
});

/// The set may stay.
pub const MIXCALC_SET_KEEP: u32 = 1;
/// All are off a table in the same direction: check gauge, clock and jug.
pub const MIXCALC_SET_CHECK_GAUGE_CLOCK_JUG: u32 = 2;
/// See to single nozzles.
pub const MIXCALC_SET_SINGLE_NOZZLES: u32 = 3;
/// Replace all of them.
pub const MIXCALC_SET_REPLACE: u32 = 4;
/// The verdict is withheld for one nozzle or more.
pub const MIXCALC_SET_CANNOT_TELL: u32 = 5;

number_of!(set_advice, SetAdvice {
    SetAdvice::Keep => MIXCALC_SET_KEEP,
    SetAdvice::CheckGaugeClockJug => MIXCALC_SET_CHECK_GAUGE_CLOCK_JUG,
    SetAdvice::SingleNozzles => MIXCALC_SET_SINGLE_NOZZLES,
    SetAdvice::ReplaceSet => MIXCALC_SET_REPLACE,
    SetAdvice::CannotTell => MIXCALC_SET_CANNOT_TELL,
});

/// No value is so far off that chance does not account for it.
pub const MIXCALC_OUTLIER_NONE: u32 = 1;
/// The value farthest from the mean is an outlier. Look for its cause before leaving it out.
pub const MIXCALC_OUTLIER_FOUND: u32 = 2;
/// There are too few values to tell: measure once more.
pub const MIXCALC_OUTLIER_TOO_FEW: u32 = 3;

number_of!(outlier_verdict, OutlierVerdict {
    OutlierVerdict::None => MIXCALC_OUTLIER_NONE,
    OutlierVerdict::Outlier => MIXCALC_OUTLIER_FOUND,
    OutlierVerdict::TooFew => MIXCALC_OUTLIER_TOO_FEW,
});

/// The member of a closed list that the caller's number stands for.
pub(crate) fn member<T: Copy>(
    parameter: &str,
    given: u32,
    all: &[T],
    number: impl Fn(T) -> u32,
) -> Result<T, Box<Failure>> {
    let known = all.iter().copied().find(|member| number(*member) == given);
    known.ok_or_else(|| Failure::choice(parameter, given))
}

/// The number of an amount's kind.
pub(crate) fn kind_of(amount: Amount) -> u32 {
    kind(Quantity::from(amount).kind())
}

#[cfg(test)]
mod tests {
    use super::*;
    use mixcalc::{Mass, Volume};

    #[test]
    fn every_member_has_a_number_of_its_own() {
        let lists = [
            MeasureKind::all().iter().map(|member| measure(*member)).collect::<Vec<_>>(),
            [Severity::Stop, Severity::Caution, Severity::Note].map(severity).to_vec(),
            [Bound::AtMost, Bound::AtLeast].map(bound).to_vec(),
            [Force::Law, Force::Label, Force::Standard, Force::Advice, Force::Fact].map(force).to_vec(),
            [Side::Under, Side::Over, Side::CannotTell].map(side).to_vec(),
            System::all().iter().map(|member| system(*member)).collect(),
            Alleys::all().iter().map(|member| alleys(*member)).collect(),
            [Confidence::Certain, Confidence::Probable].map(confidence).to_vec(),
            [BoomSide::Left, BoomSide::Right].map(boom_side).to_vec(),
            [Amount::from(Volume::ZERO), Amount::from(Mass::ZERO)].map(kind_of).to_vec(),
        ];
        for list in lists {
            assert!(list.iter().enumerate().all(|(i, number)| *number as usize == i + 1), "{list:?}");
        }
    }
}
