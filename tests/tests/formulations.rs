//! The table of formulation types, against a list typed by hand from the published codes.
#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use mixcalc::{ErrorCode, Formulation, MeasuredBy, MixGroup, State};

/// Group, how it is measured, state: the codes.
const MIXED: &[(MixGroup, MeasuredBy, State, &str)] = &[
    (MixGroup::Powder, MeasuredBy::Mass, State::Dry, "WP EP"),
    (MixGroup::Granule, MeasuredBy::Mass, State::Dry, "WG EG"),
    (MixGroup::Granule, MeasuredBy::Count, State::Dry, "WT"),
    (MixGroup::SolubleSolid, MeasuredBy::Mass, State::Dry, "SP SG"),
    (MixGroup::SolubleSolid, MeasuredBy::Count, State::Dry, "ST"),
    (MixGroup::Suspension, MeasuredBy::ShakenVolume, State::Liquid, "SC ZC SE ZE"),
    (MixGroup::Suspension, MeasuredBy::Mass, State::Viscous, "PA"),
    (MixGroup::CapsuleSuspension, MeasuredBy::ShakenVolume, State::Liquid, "CS"),
    (MixGroup::OilDispersion, MeasuredBy::ShakenVolume, State::Liquid, "OD"),
    (MixGroup::Emulsion, MeasuredBy::Volume, State::Liquid, "EW EO"),
    (MixGroup::Emulsion, MeasuredBy::ShakenVolume, State::Liquid, "ZW"),
    (MixGroup::Emulsifiable, MeasuredBy::Volume, State::Liquid, "EC DC ME"),
    (MixGroup::Emulsifiable, MeasuredBy::Mass, State::Viscous, "GL"),
    (MixGroup::Solution, MeasuredBy::Volume, State::Liquid, "SL"),
    (MixGroup::Solution, MeasuredBy::Mass, State::Viscous, "GW"),
    (MixGroup::Oil, MeasuredBy::Volume, State::Liquid, "SO"),
    (MixGroup::SolubleBag, MeasuredBy::Count, State::Dry, "WP-SB WG-SB EG-SB EP-SB SP-SB SG-SB"),
    (MixGroup::SolubleBag, MeasuredBy::Count, State::Viscous, "GL-SB GW-SB"),
];

const NOT_MIXED: &str = "OF OL OP UL SU AL AP DP CP GR FG MG CG RB CB BR DT GD SD HN KN AE FU GA GE VP MC KK KL KP TC TK \
                         DS ES FS LS WS XX";

#[test]
fn every_type_that_is_mixed_has_its_group_and_the_others_a_reason() {
    let mut mixed = 0;
    for (group, measured_by, state, codes) in MIXED {
        for code in codes.split(' ') {
            let read = Formulation::read(code).unwrap();
            assert_eq!((read.group(), read.measured_by(), read.state()), (*group, *measured_by, *state), "{code}");
            assert!(read.code() == code && !read.name().is_empty());
            mixed += 1;
        }
    }
    let codes = Formulation::read("?").unwrap_err().allowed_text().matches(',').count() + 1;
    assert_eq!((mixed, codes), (33, 33), "types by hand, and types there are");
    for code in NOT_MIXED.split_whitespace() {
        let error = Formulation::read(code).unwrap_err();
        assert_eq!(error.code(), ErrorCode::UnsuitedFormulation, "{code}");
        assert!(error.given_text().starts_with(code) && !error.allowed_text().is_empty(), "{error}");
    }
}

#[test]
fn letters_of_labels_are_answered_with_the_code_to_write() {
    for (letters, code) in [("WDG", "WG"), ("DF", "WG"), ("FL", "SC"), ("SN", "SL")] {
        let error = Formulation::read(letters).unwrap_err();
        assert_eq!((error.code(), error.allowed_text()), (ErrorCode::UnknownChoice, code), "{letters}");
    }
    // What means one thing here and another there is not guessed.
    for letters in ["F", "S", "L", "E"] {
        assert_ne!(Formulation::read(letters).unwrap_err().allowed_text().len(), 2, "{letters}");
    }
}
