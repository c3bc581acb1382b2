//! The numbers that stand for closed lists. A list grows at its end: read a number that is not here as "something newer".

use mixcalc::{Action, Amount, Bound, Force, Kind, MeasureKind, Quantity, Severity};

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

number_of!(action, Action {
    Action::Fill { .. } => MIXCALC_ACTION_FILL,
    Action::Measure { .. } => MIXCALC_ACTION_MEASURE,
    Action::Premix { .. } => MIXCALC_ACTION_PREMIX,
    Action::Rinse { .. } => MIXCALC_ACTION_RINSE,
    Action::Agitate => MIXCALC_ACTION_AGITATE,
    Action::TopUp { .. } => MIXCALC_ACTION_TOP_UP,
    Action::Wait { .. } => MIXCALC_ACTION_WAIT,
    Action::StartAgitator => MIXCALC_ACTION_START_AGITATOR,
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
            [Amount::from(Volume::ZERO), Amount::from(Mass::ZERO)].map(kind_of).to_vec(),
        ];
        for list in lists {
            assert!(list.iter().enumerate().all(|(i, number)| *number as usize == i + 1), "{list:?}");
        }
    }
}
