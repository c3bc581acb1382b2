/*
 * mixcalc: unit-safe arithmetic of mixing, loading and calibrating crop sprayers.
 *
 * This header is the manual of the C interface. Its conventions:
 *
 *   - A function that can fail returns its status, a uint32_t: MIXCALC_STATUS_OK, or why not. Codes from 1 to 99 are of
 *     this border, codes from 100 on are the library's and mean the same in Rust and Python.
 *   - Inputs come first, then outputs named out..., then error. Outputs are written on MIXCALC_STATUS_OK only.
 *   - A NULL is refused with MIXCALC_STATUS_NULL_POINTER, except where NULL is said to be allowed.
 *   - Numbers have their unit in their name. Inputs of a sum are one number each, not checked against each other: plan a job where
 *     limits matter.
 *   - Text is UTF-8. Documents coming in have a length and need no terminator; unit words and the like end in a zero byte, as does
 *     all text going out. A zero byte within a name shows as U+FFFD.
 *   - What the library hands out is given back with the function named there, not with free(). What is borrowed from a plan (const
 *     char *) is good until that plan is given back, and not given back itself.
 *   - A struct that the caller owns starts as its _INIT macro, which says how large it is. Later releases append fields and write no
 *     more of them than the caller's struct has; lists of numbers (MIXCALC_ACTION_FILL and so on) grow at their end.
 *   - mixcalc_columns_... work out rows: an input is a mixcalc_column, outputs and out_status have room for as many numbers as there are
 *     rows, and no output lies where an input or another output does. Each row is its sum of one number to the last bit; out_status
 *     receives for each 0, or the status that the sum would return, and such a row is not a number in every output, is counted in
 *     out_refused, and stops no other. On threads, 1 for that of the caller, nothing changes but the time. Inputs of 0 rows and outputs
 *     for them may be NULL.
 *   - Nothing is kept between calls: every function may be called from any thread at any time, and any number of threads may read
 *     one plan. Sums allocate nothing unless they fail.
 *   - Nothing here calls a dose safe. The label in force where you are decides.
 *
 * Made from the sources of mixcalc-ffi: change those, then run `make header`.
 */

#ifndef MIXCALC_H
#define MIXCALC_H

#include <stddef.h>
#include <stdint.h>

/* The version of this header. */
#define MIXCALC_VERSION "0.1.0"
#define MIXCALC_VERSION_MAJOR 0
#define MIXCALC_VERSION_MINOR 1
#define MIXCALC_VERSION_PATCH 0

/* What can be wrong with the input; the name in lower case, with hyphens, is the one in documents. */
#define MIXCALC_STATUS_NOT_FINITE 101
#define MIXCALC_STATUS_NOT_POSITIVE 102
#define MIXCALC_STATUS_OUT_OF_RANGE 103
#define MIXCALC_STATUS_MISSING_INPUT 105
#define MIXCALC_STATUS_BOTH_GIVEN 106
#define MIXCALC_STATUS_DUPLICATE_NAME 107
#define MIXCALC_STATUS_MISSING_DENSITY 108
#define MIXCALC_STATUS_PRODUCTS_FILL_MIX 109
#define MIXCALC_STATUS_STRIP_COVERS_JOB 110
#define MIXCALC_STATUS_TOO_MANY_LOADS 111
#define MIXCALC_STATUS_BELOW_FIRST_MARK 112
#define MIXCALC_STATUS_UNKNOWN_CHOICE 113
#define MIXCALC_STATUS_NO_MEASURE 114
#define MIXCALC_STATUS_UNCOUNTABLE 115
#define MIXCALC_STATUS_PLAN_STOPPED 116
#define MIXCALC_STATUS_UNSUITED_FORMULATION 131
#define MIXCALC_STATUS_ORDER_IN_CIRCLE 132
#define MIXCALC_STATUS_UNKNOWN_UNIT 201
#define MIXCALC_STATUS_WRONG_QUANTITY 202
#define MIXCALC_STATUS_UNREADABLE_QUANTITY 203
#define MIXCALC_STATUS_AMBIGUOUS_UNIT 204
#define MIXCALC_STATUS_MISSING_UNIT 205
#define MIXCALC_STATUS_DECIMAL_COMMA 206
#define MIXCALC_STATUS_UNLIKE_QUANTITIES 207
#define MIXCALC_STATUS_UNREADABLE_DOCUMENT 501
#define MIXCALC_STATUS_UNKNOWN_KEY 502
#define MIXCALC_STATUS_DUPLICATE_KEY 503
#define MIXCALC_STATUS_WRONG_TYPE 504
#define MIXCALC_STATUS_TOO_LARGE 505

/* The codes of findings. */
#define MIXCALC_FINDING_OVER_MAXIMUM_DOSE "over-maximum-dose"
#define MIXCALC_FINDING_VOLUME_RATE_BELOW_MINIMUM "volume-rate-below-minimum"
#define MIXCALC_FINDING_VOLUME_RATE_ABOVE_MAXIMUM "volume-rate-above-maximum"
#define MIXCALC_FINDING_TOO_MANY_TREATMENTS "too-many-treatments"
#define MIXCALC_FINDING_INTERVAL_TOO_SHORT "interval-too-short"
#define MIXCALC_FINDING_CAP_PASSED "cap-passed"
#define MIXCALC_FINDING_WAITING_PERIOD_NOT_KEPT "waiting-period-not-kept"
#define MIXCALC_FINDING_GROWTH_STAGE_OUTSIDE "growth-stage-outside"
#define MIXCALC_FINDING_AMOUNT_BELOW_GRADUATION "amount-below-graduation"
#define MIXCALC_FINDING_RINSES_EXCEED_CARRIER "rinses-exceed-carrier"
#define MIXCALC_FINDING_HEADSPACE_BELOW_FIVE_PERCENT "headspace-below-five-percent"
#define MIXCALC_FINDING_PART_LOAD_BELOW_WORKING_VOLUME "part-load-below-working-volume"
#define MIXCALC_FINDING_STRIP_ABOVE_TEN_PERCENT "strip-above-ten-percent"
#define MIXCALC_FINDING_RESIDUAL_EXCEEDS_STRIP "residual-exceeds-strip"
#define MIXCALC_FINDING_COARSE_GRADUATION "coarse-graduation"
#define MIXCALC_FINDING_PACKS_OFF_DOSE "packs-off-dose"
#define MIXCALC_FINDING_MANY_FILLINGS "many-fillings"
#define MIXCALC_FINDING_CARRIED_MASS_ABOVE_ADVICE "carried-mass-above-advice"
#define MIXCALC_FINDING_STOCK_SHORT "stock-short"
#define MIXCALC_FINDING_RESIDUAL_LEAVES_GROUND_SHORT "residual-leaves-ground-short"
#define MIXCALC_FINDING_DISPLACEMENT_NOT_COUNTED "displacement-not-counted"
#define MIXCALC_FINDING_LABEL_TANK_DISAGREES "label-tank-disagrees"
#define MIXCALC_FINDING_DOSE_ON_PART_OF_GROUND "dose-on-part-of-ground"
#define MIXCALC_FINDING_OVERLAP_DOUBLES_DOSE "overlap-doubles-dose"
#define MIXCALC_FINDING_SUBSTANCE_NOT_COUNTED "substance-not-counted"
#define MIXCALC_FINDING_CAP_NEARLY_USED "cap-nearly-used"
#define MIXCALC_FINDING_LIMIT_NOT_CHECKED "limit-not-checked"
#define MIXCALC_FINDING_CHECK_BEFORE_SPRAYING "check-before-spraying"
#define MIXCALC_FINDING_MIXING_ORDER_DIFFERS "mixing-order-differs"
#define MIXCALC_FINDING_LEAST_DOSE_HOLDS "least-dose-holds"
#define MIXCALC_FINDING_DOSE_TAKEN_AS_MAXIMUM "dose-taken-as-maximum"
#define MIXCALC_FINDING_BELOW_MINIMUM_DOSE "below-minimum-dose"
#define MIXCALC_FINDING_CALIBRATION_DIFFERS "calibration-differs"
#define MIXCALC_FINDING_CALIBRATION_TOO_OLD "calibration-too-old"
#define MIXCALC_FINDING_DOSE_MAY_PASS_MAXIMUM "dose-may-pass-maximum"
#define MIXCALC_FINDING_CALIBRATION_DOUBT_MISSING "calibration-doubt-missing"
#define MIXCALC_FINDING_UNIT_SLIP "unit-slip"
#define MIXCALC_FINDING_AMOUNT_HARD_TO_MEASURE "amount-hard-to-measure"
#define MIXCALC_FINDING_TOLERANCE_UNVERIFIED "tolerance-unverified"
#define MIXCALC_FINDING_HARD_WATER "hard-water"
#define MIXCALC_FINDING_AMMONIUM_SULFATE_SHORT "ammonium-sulfate-short"
#define MIXCALC_FINDING_TANK_HOLDS_ANOTHER_MIX "tank-holds-another-mix"
#define MIXCALC_FINDING_TANK_HOLDS_TOO_MUCH "tank-holds-too-much"
#define MIXCALC_FINDING_TANK_HOLDS_MORE "tank-holds-more"
#define MIXCALC_FINDING_TANK_SCALE_OFF "tank-scale-off"
#define MIXCALC_FINDING_SCALE_CHECK_SHORT "scale-check-short"

/**
 * By volume, in liters.
 */
#define MIXCALC_KIND_VOLUME 1

/**
 * By mass, in kilograms.
 */
#define MIXCALC_KIND_MASS 2

/**
 * A jug, cylinder or cup, graduated in volume.
 */
#define MIXCALC_MEASURE_VESSEL 1

/**
 * A scale, graduated in mass.
 */
#define MIXCALC_MEASURE_SCALE 2

/**
 * A bag, tablet or bottle that is counted and not divided.
 */
#define MIXCALC_MEASURE_PACK 3

/**
 * Fill the tank with the first carrier: carrier_l, mark_l, rest_l.
 */
#define MIXCALC_ACTION_FILL 1

/**
 * Measure a product, and pour it in unless it is premixed: its fillings are in mixcalc_plan_measured_amount().
 */
#define MIXCALC_ACTION_MEASURE 2

/**
 * Stir the measured product into carrier_l of carrier, and pour that in.
 */
#define MIXCALC_ACTION_PREMIX 3

/**
 * Rinse the measure of a product so many times with each_l of carrier, and pour the rinses in.
 */
#define MIXCALC_ACTION_RINSE 4

/**
 * Agitate until the mix is even.
 */
#define MIXCALC_ACTION_AGITATE 5

/**
 * Fill up with what is left of the carrier: carrier_l, mark_l, rest_l.
 */
#define MIXCALC_ACTION_TOP_UP 6

/**
 * Wait until a product is dispersed: from least_wait_s to most_wait_s.
 */
#define MIXCALC_ACTION_WAIT 7

/**
 * Start the agitator, and let it run until the tank is empty.
 */
#define MIXCALC_ACTION_START_AGITATOR 8

/**
 * Rinse the containers of a product that the load empties so many times with each_l of carrier, which is a part of the top-up.
 */
#define MIXCALC_ACTION_RINSE_CONTAINERS 9

/**
 * The plan must not be carried out: it has no measured amounts, no steps and no load sheet.
 */
#define MIXCALC_SEVERITY_STOP 1

/**
 * Somebody should decide.
 */
#define MIXCALC_SEVERITY_CAUTION 2

/**
 * Good to know.
 */
#define MIXCALC_SEVERITY_NOTE 3

/**
 * The value may be as large as the limit.
 */
#define MIXCALC_BOUND_AT_MOST 1

/**
 * The value may be as small as the limit.
 */
#define MIXCALC_BOUND_AT_LEAST 2

/**
 * Law.
 */
#define MIXCALC_FORCE_LAW 1

/**
 * The product's label.
 */
#define MIXCALC_FORCE_LABEL 2

/**
 * A technical standard.
 */
#define MIXCALC_FORCE_STANDARD 3

/**
 * Advice: cautious practice, with its origin.
 */
#define MIXCALC_FORCE_ADVICE 4

/**
 * What is there: a stock, a graduation, a load.
 */
#define MIXCALC_FORCE_FACT 5

/**
 * The interval is under the limit.
 */
#define MIXCALC_SIDE_UNDER 1

/**
 * The interval is over the limit.
 */
#define MIXCALC_SIDE_OVER 2

/**
 * The interval holds the limit: nothing can be said.
 */
#define MIXCALC_SIDE_CANNOT_TELL 3

/**
 * Liters, kilograms, hectares.
 */
#define MIXCALC_SYSTEM_METRIC 1

/**
 * US customary measures.
 */
#define MIXCALC_SYSTEM_US 2

/**
 * Imperial measures.
 */
#define MIXCALC_SYSTEM_IMPERIAL 3

/**
 * Each alley once, with everything open that the flow is of.
 */
#define MIXCALC_ALLEYS_EACH 1

/**
 * Each alley twice, once for each side of it.
 */
#define MIXCALC_ALLEYS_EACH_TWICE 2

/**
 * Every other alley.
 */
#define MIXCALC_ALLEYS_EVERY_OTHER 3

/**
 * Nobody stated what the calibration was measured with. Differences are bits: several may be set.
 */
#define MIXCALC_DIFFERENCE_UNSTATED 1

/**
 * Another sprayer.
 */
#define MIXCALC_DIFFERENCE_SPRAYER 2

/**
 * Another operator.
 */
#define MIXCALC_DIFFERENCE_OPERATOR 4

/**
 * Other nozzles.
 */
#define MIXCALC_DIFFERENCE_NOZZLES 8

/**
 * Another pressure.
 */
#define MIXCALC_DIFFERENCE_PRESSURE 16

/**
 * Other ground.
 */
#define MIXCALC_DIFFERENCE_GROUND 32

/**
 * The calibration is older than is accepted.
 */
#define MIXCALC_DIFFERENCE_TOO_OLD 64

/**
 * The calibration is of a later day than the job.
 */
#define MIXCALC_DIFFERENCE_LATER_DAY 128

/**
 * The nominal flow of ISO 10625, at 300 kPa.
 */
#define MIXCALC_SIZE_NOMINAL 1

/**
 * The flow that the number means by custom, at 40 psi.
 */
#define MIXCALC_SIZE_BY_CUSTOM 2

/**
 * The text of the source, or what is widely printed from it, was seen to agree.
 */
#define MIXCALC_CONFIDENCE_CERTAIN 1

/**
 * The text of the source was not seen.
 */
#define MIXCALC_CONFIDENCE_PROBABLE 2

/**
 * The left side of the sprayer, seen in the direction of travel.
 */
#define MIXCALC_BOOM_LEFT 1

/**
 * The right side.
 */
#define MIXCALC_BOOM_RIGHT 2

/**
 * The nozzle may stay.
 */
#define MIXCALC_NOZZLE_KEEP 1

/**
 * It gives less than the others: clean it and catch again.
 */
#define MIXCALC_NOZZLE_CLEAN 2

/**
 * It gives more than the others, or more than a new one: replace it.
 */
#define MIXCALC_NOZZLE_REPLACE 3

/**
 * It is off a table as all of them are: catch a new nozzle in the same way to tell.
 */
#define MIXCALC_NOZZLE_SHARED_BIAS 4

/**
 * The catches are not certain enough for the limits: the verdict is withheld.
 */
#define MIXCALC_NOZZLE_CANNOT_TELL 5

/**
 * The set may stay.
 */
#define MIXCALC_SET_KEEP 1

/**
 * All are off a table in the same direction: check gauge, clock and jug.
 */
#define MIXCALC_SET_CHECK_GAUGE_CLOCK_JUG 2

/**
 * See to single nozzles.
 */
#define MIXCALC_SET_SINGLE_NOZZLES 3

/**
 * Replace all of them.
 */
#define MIXCALC_SET_REPLACE 4

/**
 * The verdict is withheld for one nozzle or more.
 */
#define MIXCALC_SET_CANNOT_TELL 5

/**
 * No value is so far off that chance does not account for it.
 */
#define MIXCALC_OUTLIER_NONE 1

/**
 * The value farthest from the mean is an outlier. Look for its cause before leaving it out.
 */
#define MIXCALC_OUTLIER_FOUND 2

/**
 * There are too few values to tell: measure once more.
 */
#define MIXCALC_OUTLIER_TOO_FEW 3

/**
 * Room for a message, the zero byte at its end counted.
 */
#define MIXCALC_MESSAGE_SIZE 512

/**
 * Room for each other text of an error, the zero byte at its end counted.
 */
#define MIXCALC_TEXT_SIZE 256

/**
 * How many standard nozzle sizes there are.
 */
#define MIXCALC_NOZZLE_SIZES 16

/**
 * The question is answered.
 */
#define MIXCALC_STATUS_OK 0

/**
 * A pointer that must not be NULL is NULL.
 */
#define MIXCALC_STATUS_NULL_POINTER 1

/**
 * The struct_size of a struct is smaller than the first release's; such a struct is left as it was.
 */
#define MIXCALC_STATUS_STRUCT_SIZE 2

/**
 * A length is above PTRDIFF_MAX, which no object has: mostly a negative number turned into a size_t.
 */
#define MIXCALC_STATUS_LENGTH 3

/**
 * There is no such load, product, step or finding: an index counts from 0 and stays under the count.
 */
#define MIXCALC_STATUS_INDEX 4

/**
 * There is no kind of quantity of that name.
 */
#define MIXCALC_STATUS_KIND 5

/**
 * A number that stands for no member of its list, such as MIXCALC_ALLEYS_EACH.
 */
#define MIXCALC_STATUS_CHOICE 6

/**
 * The caller's model returned another status than MIXCALC_STATUS_OK, which ended the simulation.
 */
#define MIXCALC_STATUS_MODEL 7

/**
 * A fault of the library, caught at the border. The process may go on.
 */
#define MIXCALC_STATUS_PANIC 99

/**
 * Counts the changes that a program built before cannot live with. 0 until the interface has settled: within 0, any
 * release may be such a change.
 */
#define MIXCALC_ABI_VERSION 0

/**
 * The measures that amounts are measured with.
 */
#define MIXCALC_LIST_MEASURES 1

/**
 * What labels ask to be worn for mixing.
 */
#define MIXCALC_LIST_MIXING 2

/**
 * What labels ask to be worn for spraying.
 */
#define MIXCALC_LIST_SPRAYING 3

/**
 * Products of which the job does not state what to wear.
 */
#define MIXCALC_LIST_UNSTATED 4

/**
 * A measured volume rate: the value with its uncertainty, how it was reached, and what it holds for. Made by mixcalc_calibration_from_flow() and the
 * functions beside it, given back with mixcalc_calibration_free(). It never changes: any number of threads may read one at once.
 */
typedef struct mixcalc_calibration mixcalc_calibration;

/**
 * What a check says of a set of nozzles. Made by mixcalc_check_nozzles(), given back with mixcalc_checked_free(). It never changes: any number of
 * threads may read one at once, and what is read from it is borrowed until it is given back.
 */
typedef struct mixcalc_checked mixcalc_checked;

/**
 * A nozzle: its flow of water at a reference pressure, and how the flow goes with pressure. Made by mixcalc_nozzle_new() and the functions beside it, given
 * back with mixcalc_nozzle_free(). It never changes: what is stated of it makes another one.
 */
typedef struct mixcalc_nozzle mixcalc_nozzle;

/**
 * A job worked out: loads, recipes, steps, ledger, findings. Made by mixcalc_plan_new(), given back with mixcalc_plan_free().
 *
 * It never changes: any number of threads may read one plan at once. Every const char pointer that is read from it is borrowed: it
 * points into the plan and is good until the plan is given back.
 */
typedef struct mixcalc_plan mixcalc_plan;

/**
 * What came out of a simulation. Made by mixcalc_simulate(), given back with mixcalc_simulation_free(). It never changes: any number of threads may read
 * one at once.
 */
typedef struct mixcalc_simulation mixcalc_simulation;

/**
 * One trial of a simulation: a world in which every input has one value. It is good within the call of the model that it was handed to, in that thread.
 */
typedef struct mixcalc_trial mixcalc_trial;

/**
 * A value with its uncertainty and with what each input contributes to it. Made by mixcalc_uncertain_exact() and the functions beside it, given back with
 * mixcalc_uncertain_free().
 *
 * It never changes: any number of threads may read one at once. The name of an input is its identity: what two values share, such as one stopwatch, is an
 * input of one name in both, and counts once.
 */
typedef struct mixcalc_uncertain mixcalc_uncertain;

/**
 * The straight line through the flows of a nozzle over its hours of use. Made by mixcalc_wear_from_flows(), given back with mixcalc_wear_free(). It never
 * changes.
 */
typedef struct mixcalc_wear mixcalc_wear;

/**
 * Why a call failed. The caller owns it, one for each thread, starts it with
 *
 *     mixcalc_error error = MIXCALC_ERROR_INIT;
 *
 * and hands a pointer to it, or NULL, to any function that takes one. It is written when that function fails and left as
 * it was when it succeeds. Later releases append fields and write no more of them than struct_size covers.
 * Text that is too long for its field is cut at the end of a character; every text ends in a zero byte.
 */
typedef struct mixcalc_error {
  /**
   * sizeof(mixcalc_error) of the caller; never written.
   */
  size_t struct_size;
  /**
   * The status that the function returned.
   */
  uint32_t code;
  /**
   * Always 0: keeps the fields after it where they are on every machine.
   */
  uint32_t reserved;
  /**
   * What is wrong, what was given, what is allowed, and how to mend it, in one sentence that begins with the path.
   */
  char message[MIXCALC_MESSAGE_SIZE];
  /**
   * The field that it is about, such as `products[1].label.max_dose`, or the parameter; empty where there is none.
   */
  char path[MIXCALC_TEXT_SIZE];
  /**
   * What was given.
   */
  char given[MIXCALC_TEXT_SIZE];
  /**
   * What would be allowed instead.
   */
  char allowed[MIXCALC_TEXT_SIZE];
} mixcalc_error;

/** How a mixcalc_error starts. */
#define MIXCALC_ERROR_INIT {sizeof(mixcalc_error), 0, 0, {0}, {0}, {0}, {0}}

/**
 * What a calibration was measured with and where, or what it is to be used with. Texts end in a zero byte, are read and not kept.
 */
typedef struct mixcalc_setting {
  /**
   * sizeof(mixcalc_setting) of the caller.
   */
  size_t struct_size;
  /**
   * The sprayer's name.
   */
  const char *sprayer;
  /**
   * Who sprays: a carried sprayer is calibrated with its operator. ("operator" is a word of C++.)
   */
  const char *operator_name;
  /**
   * The nozzles.
   */
  const char *nozzles;
  /**
   * The ground: its surface and slope.
   */
  const char *ground;
  /**
   * The day, as "2026-05-01".
   */
  const char *date;
  /**
   * Pressure at the gauge, kPa.
   */
  double pressure_kpa;
} mixcalc_setting;

/** How a mixcalc_setting starts. */
#define MIXCALC_SETTING_INIT {sizeof(mixcalc_setting), NULL, NULL, NULL, NULL, NULL, 0}

/**
 * The numbers of an input, in the unit that its name ends in. This struct never changes.
 */
typedef struct mixcalc_column {
  /**
   * The number of the first row.
   */
  const double *values;
  /**
   * How many numbers further the next row stands: 1 where they lie side by side, 0 for one number for all rows.
   */
  size_t step;
} mixcalc_column;

/**
 * What mixcalc_rated_flow() fills: a flow of water at a pressure, as a standard or a custom states it.
 */
typedef struct mixcalc_rated {
  /**
   * sizeof(mixcalc_rated) of the caller.
   */
  size_t struct_size;
  /**
   * The flow, L/min.
   */
  double flow_l_per_min;
  /**
   * The pressure at which it is stated, kPa.
   */
  double pressure_kpa;
  /**
   * Where it stands; good for good.
   */
  const char *source;
  /**
   * MIXCALC_CONFIDENCE_CERTAIN or _PROBABLE.
   */
  uint32_t confidence;
  /**
   * Always 0.
   */
  uint32_t reserved;
} mixcalc_rated;

/** How a mixcalc_rated starts. */
#define MIXCALC_RATED_INIT {sizeof(mixcalc_rated), 0, 0, NULL, 0, 0}

/**
 * What was caught from one nozzle: one to many repeats, all at one pressure. This struct never changes.
 */
typedef struct mixcalc_catches {
  /**
   * Its name or number on the boom; ends in a zero byte.
   */
  const char *name;
  /**
   * The catches as flows, L/min.
   */
  const double *repeats_l_per_min;
  /**
   * How many.
   */
  size_t repeats_count;
  /**
   * MIXCALC_BOOM_LEFT or _RIGHT; 0 where it is not said.
   */
  uint32_t side;
  /**
   * Always 0.
   */
  uint32_t reserved;
} mixcalc_catches;

/**
 * How nozzles are to be checked. What is 0 or NULL is as advised, or not stated; one of rated and caught must be there, and not both.
 */
typedef struct mixcalc_nozzle_check {
  /**
   * sizeof(mixcalc_nozzle_check) of the caller.
   */
  size_t struct_size;
  /**
   * What a new nozzle gives at the pressure of the catches, as a table or a standard says. Gauge, clock and jug stand between it and the catches.
   */
  const struct mixcalc_uncertain *rated;
  /**
   * A new nozzle that was caught in the same way, at the same gauge, with the same clock and jug: what they do to all catches cancels. Its side is not
   * looked at.
   */
  const struct mixcalc_catches *caught;
  /**
   * What all catches share, as a factor of about one: jug, clock, gauge.
   */
  const struct mixcalc_uncertain *common;
  /**
   * Standard deviation of one catch as a part of it, %, known from earlier work: for single catches.
   */
  double repeatability_percent;
  /**
   * Most that a nozzle may be off the mean of the set, %; advised are 5.
   */
  double of_mean_percent;
  /**
   * Most that a nozzle may be over a new one, %; advised are 10.
   */
  double over_new_percent;
  /**
   * Most that the sides may be apart, %; 10 in a standard.
   */
  double sides_percent;
  /**
   * Where the three above are written; must be there where one of them is.
   */
  const char *limits_source;
  /**
   * How far from new an inspection allows a nozzle to be, %; 0 where no law is stated.
   */
  double reject_percent;
  /**
   * Which law says so; must be there where reject_percent is.
   */
  const char *reject_law;
} mixcalc_nozzle_check;

/** How a mixcalc_nozzle_check starts. */
#define MIXCALC_NOZZLE_CHECK_INIT {sizeof(mixcalc_nozzle_check), NULL, NULL, NULL, 0, 0, 0, 0, NULL, 0, NULL}

/**
 * What mixcalc_checked_summary() fills: the set as a whole. Differences are parts of what is compared with.
 */
typedef struct mixcalc_checked_set {
  /**
   * sizeof(mixcalc_checked_set) of the caller.
   */
  size_t struct_size;
  /**
   * What to do: MIXCALC_SET_KEEP and so on.
   */
  uint32_t advice;
  /**
   * Whether one nozzle is an outlier among them: MIXCALC_OUTLIER_NONE and so on; 0 for fewer than two nozzles.
   */
  uint32_t outlier_verdict;
  /**
   * The nozzle that is farthest from the mean, from 0, where a verdict is.
   */
  size_t outlier_farthest;
  /**
   * How many nozzles: entries of mixcalc_checked_nozzle_at().
   */
  size_t nozzles;
  /**
   * The mean flow; borrowed from the set.
   */
  const struct mixcalc_uncertain *mean;
  /**
   * How far the mean is from a new nozzle; borrowed from the set.
   */
  const struct mixcalc_uncertain *of_new;
  /**
   * The part of that which all nozzles have, where all differ in one direction; borrowed from the set; NULL for none.
   */
  const struct mixcalc_uncertain *shared;
  /**
   * How far left and right are apart; borrowed from the set; NULL unless both sides are stated.
   */
  const struct mixcalc_uncertain *sides;
  /**
   * Standard deviation of one catch, as a part of it, %.
   */
  double repeatability_percent;
  /**
   * Whether that is over its limit: MIXCALC_SIDE_UNDER and so on; 0 unless both sides are stated.
   */
  uint32_t sides_side;
  /**
   * Always 0.
   */
  uint32_t reserved;
} mixcalc_checked_set;

/** How a mixcalc_checked_set starts. */
#define MIXCALC_CHECKED_SET_INIT {sizeof(mixcalc_checked_set), 0, 0, 0, 0, NULL, NULL, NULL, NULL, 0, 0, 0}

/**
 * What mixcalc_checked_nozzle_at() fills: what a check says of one nozzle. Differences are parts of what is compared with.
 */
typedef struct mixcalc_checked_nozzle {
  /**
   * sizeof(mixcalc_checked_nozzle) of the caller.
   */
  size_t struct_size;
  /**
   * Its name; borrowed from the set.
   */
  const char *name;
  /**
   * Its flow; borrowed from the set.
   */
  const struct mixcalc_uncertain *flow;
  /**
   * How far it is from the mean of the set; borrowed from the set.
   */
  const struct mixcalc_uncertain *of_mean;
  /**
   * How far it is from a new nozzle; borrowed from the set.
   */
  const struct mixcalc_uncertain *of_new;
  /**
   * What to do: MIXCALC_NOZZLE_KEEP and so on.
   */
  uint32_t advice;
  /**
   * Whether it is beyond what an inspection allows: MIXCALC_SIDE_UNDER and so on; 0 where no law was stated.
   */
  uint32_t rejected;
  /**
   * Which of its repeats is farthest from their mean, from 0, where a verdict is.
   */
  size_t outlier_farthest;
  /**
   * Whether that one is an outlier: MIXCALC_OUTLIER_NONE and so on; 0 for fewer than two repeats.
   */
  uint32_t outlier_verdict;
  /**
   * Always 0.
   */
  uint32_t reserved;
} mixcalc_checked_nozzle;

/** How a mixcalc_checked_nozzle starts. */
#define MIXCALC_CHECKED_NOZZLE_INIT {sizeof(mixcalc_checked_nozzle), NULL, NULL, NULL, NULL, 0, 0, 0, 0, 0}

/**
 * What mixcalc_outlier() fills: a test of the value that is farthest from the mean.
 */
typedef struct mixcalc_outlier_test {
  /**
   * sizeof(mixcalc_outlier_test) of the caller.
   */
  size_t struct_size;
  /**
   * Which value it is, from 0.
   */
  size_t farthest;
  /**
   * Its distance from the mean in standard deviations.
   */
  double residual;
  /**
   * The distance that chance passes with no more than the chosen probability; 0 for fewer than three values.
   */
  double critical;
  /**
   * What follows: MIXCALC_OUTLIER_NONE, _FOUND or _TOO_FEW.
   */
  uint32_t verdict;
  /**
   * Always 0.
   */
  uint32_t reserved;
} mixcalc_outlier_test;

/** How a mixcalc_outlier_test starts. */
#define MIXCALC_OUTLIER_TEST_INIT {sizeof(mixcalc_outlier_test), 0, 0, 0, 0, 0}

/**
 * What mixcalc_wear_reaches() fills: when a flow is reached, in hours of use.
 */
typedef struct mixcalc_worn_at {
  /**
   * sizeof(mixcalc_worn_at) of the caller.
   */
  size_t struct_size;
  /**
   * Where the line meets the limit, h.
   */
  double expected_h;
  /**
   * The lower end of the interval, h. Before the last flow: it may have been reached already.
   */
  double earliest_h;
  /**
   * The upper end, h.
   */
  double latest_h;
  /**
   * 1 where it can be foreseen; 0 where the line does not rise for certain, and then the three above are 0.
   */
  uint32_t is_foreseen;
  /**
   * Always 0.
   */
  uint32_t reserved;
} mixcalc_worn_at;

/** How a mixcalc_worn_at starts. */
#define MIXCALC_WORN_AT_INIT {sizeof(mixcalc_worn_at), 0, 0, 0, 0, 0}

/**
 * What mixcalc_control_chart() fills: the limits between which single values of a steady thing stay, in the unit of the values.
 */
typedef struct mixcalc_chart {
  /**
   * sizeof(mixcalc_chart) of the caller.
   */
  size_t struct_size;
  /**
   * The mean.
   */
  double center;
  /**
   * The lower limit; below zero where values spread widely.
   */
  double low;
  /**
   * The upper limit.
   */
  double high;
  /**
   * How many values are outside of the limits.
   */
  size_t outside;
} mixcalc_chart;

/** How a mixcalc_chart starts. */
#define MIXCALC_CHART_INIT {sizeof(mixcalc_chart), 0, 0, 0, 0}

/**
 * From the values of one trial, by mixcalc_trial_of(), to the result in that trial. It returns MIXCALC_STATUS_OK, and anything else to end the simulation. It
 * must return: nothing may be thrown or jumped through it.
 */
typedef uint32_t (*mixcalc_model)(struct mixcalc_trial *trial, void *context, double *out_value);

/**
 * What mixcalc_uncertain_contribution() fills: what one input adds to a standard uncertainty.
 */
typedef struct mixcalc_contribution {
  /**
   * sizeof(mixcalc_contribution) of the caller.
   */
  size_t struct_size;
  /**
   * Name of the input; borrowed from the uncertain value.
   */
  const char *name;
  /**
   * The standard uncertainty that the value would have from this input alone, in the unit that was asked for.
   */
  double standard_uncertainty;
  /**
   * Its part of the squared standard uncertainty, %; these add up to 100.
   */
  double share_of_variance_percent;
} mixcalc_contribution;

/** How a mixcalc_contribution starts. */
#define MIXCALC_CONTRIBUTION_INIT {sizeof(mixcalc_contribution), NULL, 0, 0}

/**
 * What mixcalc_plan_totals() fills: the plan as a whole.
 */
typedef struct mixcalc_totals {
  /**
   * sizeof(mixcalc_totals) of the caller.
   */
  size_t struct_size;
  /**
   * 1 where the plan may be carried out; 0 where a stop stands, and then there are no measured amounts, no steps, no sheet.
   */
  uint32_t usable;
  /**
   * 1 where a last strip is kept, else 0.
   */
  uint32_t has_last_strip;
  /**
   * The most that the tank may be filled to, L.
   */
  double safe_fill_l;
  /**
   * Ground of the job, ha.
   */
  double area_ha;
  /**
   * Volume of mix per ground area, L/ha.
   */
  double volume_rate_l_per_ha;
  /**
   * Volume of carrier per ground area, L/ha.
   */
  double carrier_rate_l_per_ha;
  /**
   * Volume of mix in all loads, L.
   */
  double mix_l;
  /**
   * Volume of carrier in all loads, L; beside the exact amounts where a stop stands.
   */
  double carrier_l;
  /**
   * Ground that the mix is made for, ha.
   */
  double area_made_for_ha;
  /**
   * What stays in the sprayer after spraying out, L; 0 where none is stated.
   */
  double residual_l;
  /**
   * Ground at the end that goes short by the residual, ha; 0 where a last strip is kept.
   */
  double ground_short_ha;
  /**
   * Mix that is not made, since the last strip takes rinse water instead, L; 0 without one.
   */
  double held_back_l;
  /**
   * Ground of the last strip, ha; 0 without one.
   */
  double last_strip_ha;
  /**
   * How many loads: fillings of the tank.
   */
  uint64_t load_count;
  /**
   * How many entries mixcalc_plan_load() has: equal loads that follow each other are one.
   */
  size_t load_entries;
  /**
   * How many products.
   */
  size_t products;
  /**
   * How many findings.
   */
  size_t findings;
  /**
   * How many cautions for people.
   */
  size_t cautions;
  /**
   * 1 where the job states its ground by parts, else 0: the field, its buffers, overlap.
   */
  uint32_t has_ground;
  /**
   * Always 0.
   */
  uint32_t reserved;
  /**
   * The field, buffers inside, ha; 0 without ground by parts, as are the two below.
   */
  double field_ha;
  /**
   * Ground that the buffers take, ha.
   */
  double buffers_ha;
  /**
   * Ground that overlap sprays twice, ha.
   */
  double sprayed_twice_ha;
  /**
   * How many active substances: entries of mixcalc_plan_substance().
   */
  size_t substances;
} mixcalc_totals;

/** How a mixcalc_totals starts. */
#define MIXCALC_TOTALS_INIT {sizeof(mixcalc_totals), 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0}

/**
 * What mixcalc_plan_load() fills: equal loads that follow each other.
 */
typedef struct mixcalc_load {
  /**
   * sizeof(mixcalc_load) of the caller.
   */
  size_t struct_size;
  /**
   * Number of the first of them, from 1.
   */
  uint64_t first;
  /**
   * Number of the last of them.
   */
  uint64_t last;
  /**
   * How many they are.
   */
  uint64_t count;
  /**
   * Volume of mix in each, L.
   */
  double mix_l;
  /**
   * Volume of carrier in each, L; beside the exact amounts where a stop stands.
   */
  double carrier_l;
  /**
   * Ground that each serves, ha.
   */
  double area_ha;
  /**
   * How many steps each takes; 0 where a stop stands.
   */
  size_t steps;
} mixcalc_load;

/** How a mixcalc_load starts. */
#define MIXCALC_LOAD_INIT {sizeof(mixcalc_load), 0, 0, 0, 0, 0, 0, 0}

/**
 * An amount of a product: by volume or by mass, as kind says; the other is 0. This struct never changes.
 */
typedef struct mixcalc_amount {
  /**
   * MIXCALC_KIND_VOLUME or MIXCALC_KIND_MASS; 0 where there is no amount.
   */
  uint32_t kind;
  /**
   * Always 0.
   */
  uint32_t reserved;
  /**
   * Volume in liters, where kind is MIXCALC_KIND_VOLUME.
   */
  double volume_l;
  /**
   * Mass in kilograms, where kind is MIXCALC_KIND_MASS.
   */
  double mass_kg;
} mixcalc_amount;

/**
 * What mixcalc_plan_measured_amount() fills: one product in each of some equal loads.
 */
typedef struct mixcalc_measured_amount {
  /**
   * sizeof(mixcalc_measured_amount) of the caller.
   */
  size_t struct_size;
  /**
   * Name of the product; borrowed from the plan.
   */
  const char *product;
  /**
   * Name of the measure; borrowed from the plan.
   */
  const char *measure;
  /**
   * MIXCALC_MEASURE_VESSEL, _SCALE or _PACK.
   */
  uint32_t measure_kind;
  /**
   * Always 0.
   */
  uint32_t reserved;
  /**
   * What the dose asks for.
   */
  struct mixcalc_amount exact;
  /**
   * What the measure shows, in the kind that the product is dosed in.
   */
  struct mixcalc_amount measured;
  /**
   * The smallest step of the measure, in the measure's kind: a product dosed by mass may be measured in a vessel.
   */
  struct mixcalc_amount graduation;
  /**
   * Whole graduations of the measure, in all of its fillings.
   */
  uint64_t graduations;
  /**
   * How many equal fillings of the measure are poured; for packs, how many packs.
   */
  uint64_t fillings;
  /**
   * What each of these fillings shows, in the measure's kind.
   */
  struct mixcalc_amount filling;
  /**
   * What one more filling after them shows; its kind is 0 where there is none.
   */
  struct mixcalc_amount last_filling;
  /**
   * Measured less exact, in percent of exact.
   */
  double gap_percent;
  /**
   * Measured less exact, per ground area, for a product dosed by volume, L/ha; else 0.
   */
  double gap_l_per_ha;
  /**
   * Measured less exact, per ground area, for a product dosed by mass, kg/ha; else 0.
   */
  double gap_kg_per_ha;
} mixcalc_measured_amount;

/** How a mixcalc_measured_amount starts. */
#define MIXCALC_MEASURED_AMOUNT_INIT {sizeof(mixcalc_measured_amount), NULL, NULL, 0, 0, {0, 0, 0, 0}, {0, 0, 0, 0}, {0, 0, 0, 0}, 0, 0, {0, 0, 0, 0}, {0, 0, 0, 0}, 0, 0, 0}

/**
 * What mixcalc_plan_measured_total() fills: one product in all loads.
 */
typedef struct mixcalc_measured_total {
  /**
   * sizeof(mixcalc_measured_total) of the caller.
   */
  size_t struct_size;
  /**
   * Name of the product; borrowed from the plan.
   */
  const char *product;
  /**
   * What the dose asks for.
   */
  struct mixcalc_amount exact;
  /**
   * What the measures show.
   */
  struct mixcalc_amount measured;
  /**
   * Measured less exact, in percent of exact.
   */
  double gap_percent;
  /**
   * Measured less exact, per ground area, for a product dosed by volume, L/ha; else 0.
   */
  double gap_l_per_ha;
  /**
   * Measured less exact, per ground area, for a product dosed by mass, kg/ha; else 0.
   */
  double gap_kg_per_ha;
  /**
   * How many measures it is drawn with: entries of mixcalc_plan_drawn().
   */
  size_t measures;
} mixcalc_measured_total;

/** How a mixcalc_measured_total starts. */
#define MIXCALC_MEASURED_TOTAL_INIT {sizeof(mixcalc_measured_total), NULL, {0, 0, 0, 0}, {0, 0, 0, 0}, 0, 0, 0, 0}

/**
 * What mixcalc_plan_drawn() fills: whole graduations of one measure, in all loads.
 */
typedef struct mixcalc_drawn {
  /**
   * sizeof(mixcalc_drawn) of the caller.
   */
  size_t struct_size;
  /**
   * Name of the measure; borrowed from the plan.
   */
  const char *measure;
  /**
   * MIXCALC_MEASURE_VESSEL, _SCALE or _PACK.
   */
  uint32_t measure_kind;
  /**
   * Always 0.
   */
  uint32_t reserved;
  /**
   * The smallest step of the measure.
   */
  struct mixcalc_amount graduation;
  /**
   * How many of them: recipe times count, summed in integers.
   */
  uint64_t graduations;
} mixcalc_drawn;

/** How a mixcalc_drawn starts. */
#define MIXCALC_DRAWN_INIT {sizeof(mixcalc_drawn), NULL, 0, 0, {0, 0, 0, 0}, 0}

/**
 * What mixcalc_plan_step() fills: one thing to do. What its action does not have is 0 or NULL.
 */
typedef struct mixcalc_step {
  /**
   * sizeof(mixcalc_step) of the caller.
   */
  size_t struct_size;
  /**
   * MIXCALC_ACTION_FILL and so on.
   */
  uint32_t action;
  /**
   * 1 where mark_l is a mark to fill to, else 0.
   */
  uint32_t has_mark;
  /**
   * 1 where rest_l is to be measured, else 0.
   */
  uint32_t has_rest;
  /**
   * Always 0.
   */
  uint32_t reserved;
  /**
   * Name of the product; borrowed from the plan; NULL for a step without one.
   */
  const char *product;
  /**
   * Index of the product, where product is not NULL.
   */
  size_t product_index;
  /**
   * Name of the measure that is used or rinsed; borrowed from the plan; NULL for another step.
   */
  const char *measure;
  /**
   * The carrier that it takes, L; of a rinse, all of its times together.
   */
  double carrier_l;
  /**
   * The tank's mark to fill to, L.
   */
  double mark_l;
  /**
   * What is measured on top of the mark, or in all where there is no mark to use, L.
   */
  double rest_l;
  /**
   * How often a measure is rinsed.
   */
  uint64_t times;
  /**
   * How much carrier each time, L.
   */
  double each_l;
  /**
   * What the tank then holds, L.
   */
  double in_tank_l;
  /**
   * How long is waited at least, s.
   */
  double least_wait_s;
  /**
   * How long is waited at most as a rule, s; 0 where a label says how long.
   */
  double most_wait_s;
  /**
   * How many containers one of the loads empties at most, where they are rinsed.
   */
  uint64_t containers;
} mixcalc_step;

/** How a mixcalc_step starts. */
#define MIXCALC_STEP_INIT {sizeof(mixcalc_step), 0, 0, 0, 0, NULL, 0, NULL, 0, 0, 0, 0, 0, 0, 0, 0, 0}

/**
 * What mixcalc_plan_ledger() fills: where carrier and mix came from and went.
 */
typedef struct mixcalc_ledger {
  /**
   * sizeof(mixcalc_ledger) of the caller.
   */
  size_t struct_size;
  /**
   * Carrier in all, L: the sum of the four below.
   */
  double carrier_drawn_l;
  /**
   * Carrier into the tank before the products, L.
   */
  double carrier_first_l;
  /**
   * Carrier for premixes, L.
   */
  double carrier_premixed_l;
  /**
   * Carrier for rinsing the measures, L.
   */
  double carrier_rinses_l;
  /**
   * Carrier into the tank after the products, L.
   */
  double carrier_topped_up_l;
  /**
   * Mix made, L: sprayed and residual together.
   */
  double mix_made_l;
  /**
   * Mix that leaves the nozzles, L.
   */
  double mix_sprayed_l;
  /**
   * Mix that stays in the sprayer, L.
   */
  double mix_residual_l;
  /**
   * What of topped_up is for rinses of emptied containers, L.
   */
  double container_rinses_l;
  /**
   * 1 where containers are rinsed, else 0.
   */
  uint32_t has_container_rinses;
  /**
   * Always 0.
   */
  uint32_t reserved;
} mixcalc_ledger;

/** How a mixcalc_ledger starts. */
#define MIXCALC_LEDGER_INIT {sizeof(mixcalc_ledger), 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0}

/**
 * What mixcalc_plan_account() fills: where a product came from and went.
 */
typedef struct mixcalc_account {
  /**
   * sizeof(mixcalc_account) of the caller.
   */
  size_t struct_size;
  /**
   * Name of the product; borrowed from the plan.
   */
  const char *product;
  /**
   * Taken out of containers: in_loads and spilled together.
   */
  struct mixcalc_amount drawn;
  /**
   * Measured into loads.
   */
  struct mixcalc_amount in_loads;
  /**
   * Spilled: nothing, in a plan.
   */
  struct mixcalc_amount spilled;
  /**
   * What there was; its kind is 0 where the job does not say.
   */
  struct mixcalc_amount stock;
  /**
   * What is left of the stock, below zero where it is short; its kind is 0 where there is no stock.
   */
  struct mixcalc_amount left;
} mixcalc_account;

/** How a mixcalc_account starts. */
#define MIXCALC_ACCOUNT_INIT {sizeof(mixcalc_account), NULL, {0, 0, 0, 0}, {0, 0, 0, 0}, {0, 0, 0, 0}, {0, 0, 0, 0}, {0, 0, 0, 0}}

/**
 * What mixcalc_plan_finding() fills: a sentence about the plan.
 */
typedef struct mixcalc_finding {
  /**
   * sizeof(mixcalc_finding) of the caller.
   */
  size_t struct_size;
  /**
   * MIXCALC_SEVERITY_STOP, _CAUTION or _NOTE.
   */
  uint32_t severity;
  /**
   * MIXCALC_BOUND_AT_MOST or _AT_LEAST; 0 where there is no limit.
   */
  uint32_t bound;
  /**
   * What stands behind the limit: MIXCALC_FORCE_LAW and so on; 0 where there is no limit.
   */
  uint32_t force;
  /**
   * Always 0.
   */
  uint32_t reserved;
  /**
   * Stable code, such as MIXCALC_FINDING_STOCK_SHORT; compare it with strcmp(). Borrowed from the plan.
   */
  const char *code;
  /**
   * The field of the job that it concerns, such as `products[1].dose`; empty for none. Borrowed from the plan.
   */
  const char *path;
  /**
   * The sentence, in the measures of the job. Borrowed from the plan.
   */
  const char *message;
  /**
   * Number of the first load that it concerns, from 1; 0 where it concerns none.
   */
  uint64_t load;
  /**
   * What was found, in actual_unit.
   */
  double actual;
  /**
   * Unit of actual, such as L/ha; NULL where there is no such value. Borrowed from the plan.
   */
  const char *actual_unit;
  /**
   * What it is held against, in limit_unit.
   */
  double limit;
  /**
   * Unit of limit; NULL where there is no limit. Borrowed from the plan.
   */
  const char *limit_unit;
  /**
   * Where the limit stands; NULL where there is no limit. Borrowed from the plan.
   */
  const char *source;
  /**
   * How many things the value may have been meant as: entries of mixcalc_plan_reading().
   */
  size_t readings;
  /**
   * How many things would help: entries of mixcalc_plan_help().
   */
  size_t helps;
} mixcalc_finding;

/** How a mixcalc_finding starts. */
#define MIXCALC_FINDING_INIT {sizeof(mixcalc_finding), 0, 0, 0, 0, NULL, NULL, NULL, 0, 0, NULL, 0, NULL, NULL, 0, 0}

/**
 * What mixcalc_plan_caution() fills: a caution for people that goes with every plan.
 */
typedef struct mixcalc_caution {
  /**
   * sizeof(mixcalc_caution) of the caller.
   */
  size_t struct_size;
  /**
   * Stable code, such as label-decides. Borrowed from the plan.
   */
  const char *code;
  /**
   * The caution. Borrowed from the plan.
   */
  const char *text;
} mixcalc_caution;

/** How a mixcalc_caution starts. */
#define MIXCALC_CAUTION_INIT {sizeof(mixcalc_caution), NULL, NULL}

/**
 * What mixcalc_plan_run_out() fills: where each of some equal loads runs out. All is 0 where the job has neither a calibration nor a pass.
 */
typedef struct mixcalc_run_out {
  /**
   * sizeof(mixcalc_run_out) of the caller.
   */
  size_t struct_size;
  /**
   * After so much ground at the volume rate of the plan, ha.
   */
  double area_ha;
  /**
   * The least, ha; 0 without a calibration.
   */
  double area_low_ha;
  /**
   * The most, ha; 0 without a calibration, and where its doubt does not bound it.
   */
  double area_high_ha;
  /**
   * After such a length with the boom open, m; 0 where the job states no pass.
   */
  double length_m;
  /**
   * The least, m; 0 as for the ground.
   */
  double length_low_m;
  /**
   * The most, m; 0 as for the ground.
   */
  double length_high_m;
  /**
   * After so many passes; 0 where the job does not state their length.
   */
  double passes;
  /**
   * The least; 0 as for the ground.
   */
  double passes_low;
  /**
   * The most; 0 as for the ground.
   */
  double passes_high;
} mixcalc_run_out;

/** How a mixcalc_run_out starts. */
#define MIXCALC_RUN_OUT_INIT {sizeof(mixcalc_run_out), 0, 0, 0, 0, 0, 0, 0, 0, 0}

/**
 * What mixcalc_plan_delivered() fills: the dose that each of some equal loads really delivers, as far as the calibration, the measure and the tank's scale tell.
 */
typedef struct mixcalc_delivered {
  /**
   * sizeof(mixcalc_delivered) of the caller.
   */
  size_t struct_size;
  /**
   * The unit of the doses, "L/ha" or "kg/ha"; borrowed from the plan; NULL without a calibration, and then all below is 0.
   */
  const char *unit;
  /**
   * Per ground area, in one pass.
   */
  double dose;
  /**
   * Its standard uncertainty.
   */
  double standard_uncertainty;
  /**
   * The lower end of its interval, with the coverage of the calibration.
   */
  double low;
  /**
   * The upper end.
   */
  double high;
  /**
   * 1 where a maximum is allowed per ground area, which it is held against, else 0.
   */
  uint32_t has_maximum;
  /**
   * Always 0.
   */
  uint32_t reserved;
  /**
   * The probability that it is over the maximum, from 0 to 1.
   */
  double probability_over;
  /**
   * What to aim at to keep to the risk of the calibration; 0 where it states none.
   */
  double aim;
} mixcalc_delivered;

/** How a mixcalc_delivered starts. */
#define MIXCALC_DELIVERED_INIT {sizeof(mixcalc_delivered), NULL, 0, 0, 0, 0, 0, 0, 0, 0}

/**
 * What mixcalc_plan_product() fills: what the plan says of a product as a whole. A stopped plan has it too.
 */
typedef struct mixcalc_product {
  /**
   * sizeof(mixcalc_product) of the caller.
   */
  size_t struct_size;
  /**
   * Name of the product. Borrowed from the plan, as is every text below.
   */
  const char *name;
  /**
   * On how many bases the job says enough to tell its dose: entries of mixcalc_plan_dose().
   */
  size_t doses;
  /**
   * The largest dose that the limits given leave on the planned date, in largest_dose_unit: a sum, and no permission.
   */
  double largest_dose;
  /**
   * Its unit; NULL without a season, and where a limit could not be checked. Then all below is NULL or 0.
   */
  const char *largest_dose_unit;
  /**
   * Which limit it comes from: max-treatments, min-interval, waiting-period, growth-stage, max-dose or cap.
   */
  const char *binding;
  /**
   * The parcel on which it binds; NULL where parcels have no names.
   */
  const char *parcel;
  /**
   * The limit itself, in limit_unit.
   */
  double limit;
  /**
   * Its unit; NULL where the limit is no amount.
   */
  const char *limit_unit;
  /**
   * Where it stands.
   */
  const char *source;
} mixcalc_product;

/** How a mixcalc_product starts. */
#define MIXCALC_PRODUCT_INIT {sizeof(mixcalc_product), NULL, 0, 0, NULL, NULL, NULL, 0, NULL, NULL}

/**
 * What mixcalc_plan_dose() fills: a dose on a basis.
 */
typedef struct mixcalc_dose {
  /**
   * sizeof(mixcalc_dose) of the caller.
   */
  size_t struct_size;
  /**
   * What it is counted on: ground-area and so on. Borrowed from the plan.
   */
  const char *basis;
  /**
   * The dose, in unit.
   */
  double dose;
  /**
   * Its unit, such as L/ha. Borrowed from the plan.
   */
  const char *unit;
} mixcalc_dose;

/** How a mixcalc_dose starts. */
#define MIXCALC_DOSE_INIT {sizeof(mixcalc_dose), NULL, 0, NULL}

/**
 * What mixcalc_plan_substance() fills: what the plan brings out of an active substance, summed across products by name.
 */
typedef struct mixcalc_substance {
  /**
   * sizeof(mixcalc_substance) of the caller.
   */
  size_t struct_size;
  /**
   * The substance, or the acid or element that it is counted as. Borrowed from the plan.
   */
  const char *name;
  /**
   * 1 where dose_kg_per_ha is known; 0 where a density is missing.
   */
  uint32_t has_dose;
  /**
   * 1 where exact_kg is known; 0 where a density is missing.
   */
  uint32_t has_exact;
  /**
   * 1 where measured_kg is known; 0 where a density is missing or a stop stands.
   */
  uint32_t has_measured;
  /**
   * Always 0.
   */
  uint32_t reserved;
  /**
   * Per ground area, kg/ha.
   */
  double dose_kg_per_ha;
  /**
   * In what the doses ask for, kg.
   */
  double exact_kg;
  /**
   * In what the measures show, kg.
   */
  double measured_kg;
} mixcalc_substance;

/** How a mixcalc_substance starts. */
#define MIXCALC_SUBSTANCE_INIT {sizeof(mixcalc_substance), NULL, 0, 0, 0, 0, 0, 0, 0}

/**
 * What mixcalc_plan_reading() fills: what a value that looks like a slip of the unit may have been meant as.
 */
typedef struct mixcalc_reading {
  /**
   * sizeof(mixcalc_reading) of the caller.
   */
  size_t struct_size;
  /**
   * The value that it would be, in unit.
   */
  double value;
  /**
   * Its unit. Borrowed from the plan, as is every text below.
   */
  const char *unit;
  /**
   * What was meant.
   */
  const char *meant;
  /**
   * What was stated instead.
   */
  const char *stated;
} mixcalc_reading;

/** How a mixcalc_reading starts. */
#define MIXCALC_READING_INIT {sizeof(mixcalc_reading), 0, NULL, NULL, NULL}

/**
 * What mixcalc_plan_mixing() fills: the order in which the products go into the tank. It is one of several that are published.
 */
typedef struct mixcalc_mixing {
  /**
   * sizeof(mixcalc_mixing) of the caller.
   */
  size_t struct_size;
  /**
   * The profile that it follows where no label says otherwise; NULL where the job asks for none, and then all below is NULL or 0.
   * Borrowed from the plan.
   */
  const char *profile;
  /**
   * Who says so. Borrowed from the plan.
   */
  const char *source;
  /**
   * How many products: entries of mixcalc_plan_ordered_product().
   */
  size_t products;
  /**
   * 1 where a jar test is asked for and no stop stands, else 0.
   */
  uint32_t has_jar_test;
  /**
   * Always 0.
   */
  uint32_t reserved;
  /**
   * Volume of mix in the jar, L.
   */
  double jar_mix_l;
  /**
   * Volume of carrier in the jar, L.
   */
  double jar_carrier_l;
} mixcalc_mixing;

/** How a mixcalc_mixing starts. */
#define MIXCALC_MIXING_INIT {sizeof(mixcalc_mixing), NULL, NULL, 0, 0, 0, 0, 0}

/**
 * What mixcalc_plan_ordered_product() fills: a product's place in the mixing order.
 */
typedef struct mixcalc_ordered_product {
  /**
   * sizeof(mixcalc_ordered_product) of the caller.
   */
  size_t struct_size;
  /**
   * Its index, as in mixcalc_plan_product_name().
   */
  size_t product_index;
  /**
   * Name of the product. Borrowed from the plan, as is every text below.
   */
  const char *product;
  /**
   * What it goes in with, such as suspension.
   */
  const char *group;
  /**
   * Why it stands there, and who says so.
   */
  const char *reason;
} mixcalc_ordered_product;

/** How a mixcalc_ordered_product starts. */
#define MIXCALC_ORDERED_PRODUCT_INIT {sizeof(mixcalc_ordered_product), 0, NULL, NULL, NULL}

/**
 * What mixcalc_plan_uncertainty() fills: how uncertain a measured amount is, with a coverage factor of 2.
 */
typedef struct mixcalc_uncertainty {
  /**
   * sizeof(mixcalc_uncertainty) of the caller.
   */
  size_t struct_size;
  /**
   * 1 where the measure states a class or a tolerance, else 0, and all below is 0.
   */
  uint32_t is_known;
  /**
   * Always 0.
   */
  uint32_t reserved;
  /**
   * In percent of the amount.
   */
  double percent;
  /**
   * The same as an amount.
   */
  struct mixcalc_amount amount;
} mixcalc_uncertainty;

/** How a mixcalc_uncertainty starts. */
#define MIXCALC_UNCERTAINTY_INIT {sizeof(mixcalc_uncertainty), 0, 0, 0, {0, 0, 0, 0}}

/**
 * What mixcalc_plan_mix_uncertainty() fills: how uncertain the mix in each of some loads is, read on the tank's scale, with a coverage factor
 * of 2.
 */
typedef struct mixcalc_mix_uncertainty {
  /**
   * sizeof(mixcalc_mix_uncertainty) of the caller.
   */
  size_t struct_size;
  /**
   * In percent of the mix; 0 where no mark is reached, as is the volume.
   */
  double percent;
  /**
   * The same as a volume, L.
   */
  double mix_l;
} mixcalc_mix_uncertainty;

/** How a mixcalc_mix_uncertainty starts. */
#define MIXCALC_MIX_UNCERTAINTY_INIT {sizeof(mixcalc_mix_uncertainty), 0, 0}

/**
 * What mixcalc_plan_emptied() fills: the containers of a product that some equal loads empty.
 */
typedef struct mixcalc_emptied {
  /**
   * sizeof(mixcalc_emptied) of the caller.
   */
  size_t struct_size;
  /**
   * 1 where the job states the product's containers, else 0, and all below is 0.
   */
  uint32_t is_known;
  /**
   * Always 0.
   */
  uint32_t reserved;
  /**
   * How many.
   */
  uint64_t count;
  /**
   * How many loads mixcalc_plan_emptying_load() names: one for each container, the first twenty.
   */
  size_t loads;
} mixcalc_emptied;

/** How a mixcalc_emptied starts. */
#define MIXCALC_EMPTIED_INIT {sizeof(mixcalc_emptied), 0, 0, 0, 0}

/**
 * What mixcalc_plan_containers() fills: what the job does with the containers of a product. The one that is open is used up first.
 */
typedef struct mixcalc_containers {
  /**
   * sizeof(mixcalc_containers) of the caller.
   */
  size_t struct_size;
  /**
   * 1 where the job states the product's containers, else 0, and all below is 0.
   */
  uint32_t is_known;
  /**
   * 1 where buy is known, else 0: it is not stated how many there are.
   */
  uint32_t has_buy;
  /**
   * What one holds.
   */
  struct mixcalc_amount content;
  /**
   * How many full ones are opened.
   */
  uint64_t opened;
  /**
   * How many are emptied, the one that was open among them.
   */
  uint64_t emptied;
  /**
   * What is left over in the last one that is opened.
   */
  struct mixcalc_amount left;
  /**
   * How many full ones to take along, of those there are.
   */
  uint64_t take;
  /**
   * How many to buy.
   */
  uint64_t buy;
} mixcalc_containers;

/** How a mixcalc_containers starts. */
#define MIXCALC_CONTAINERS_INIT {sizeof(mixcalc_containers), 0, 0, {0, 0, 0, 0}, 0, 0, {0, 0, 0, 0}, 0, 0}

/**
 * What mixcalc_plan_water() fills: what the water analysis of the job comes to.
 */
typedef struct mixcalc_water {
  /**
   * sizeof(mixcalc_water) of the caller.
   */
  size_t struct_size;
  /**
   * Its hardness, as calcium carbonate, g/L.
   */
  double hardness_g_per_l;
  /**
   * soft, moderate, hard or very-hard; NULL where the job states no analysis, and then the numbers are 0. Borrowed from the plan.
   */
  const char *hardness_class;
  /**
   * Ammonium sulfate per volume of mix that binds what is in it, g/L.
   */
  double ammonium_sulfate_need_g_per_l;
} mixcalc_water;

/** How a mixcalc_water starts. */
#define MIXCALC_WATER_INIT {sizeof(mixcalc_water), 0, NULL, 0}

/**
 * What mixcalc_plan_load_size() fills: a size of loads with which every amount can be measured.
 */
typedef struct mixcalc_load_size {
  /**
   * sizeof(mixcalc_load_size) of the caller.
   */
  size_t struct_size;
  /**
   * Volume of mix in each of these loads, L.
   */
  double mix_l;
  /**
   * How many of them.
   */
  uint64_t count;
  /**
   * Volume of mix in the load after them, L; 0 where they make the whole.
   */
  double rest_l;
  /**
   * What is measured into each of them, of the product that is hard to measure.
   */
  struct mixcalc_amount amount;
  /**
   * What is measured into the load after them; its kind is 0 where there is none.
   */
  struct mixcalc_amount rest_amount;
  /**
   * The dose that this makes in each of them, in dose_unit.
   */
  double dose;
  /**
   * Its unit. Borrowed from the plan.
   */
  const char *dose_unit;
  /**
   * How uncertain the amount is, in percent of it; 0 where its measure does not say so.
   */
  double uncertainty_percent;
} mixcalc_load_size;

/** How a mixcalc_load_size starts. */
#define MIXCALC_LOAD_SIZE_INIT {sizeof(mixcalc_load_size), 0, 0, 0, {0, 0, 0, 0}, {0, 0, 0, 0}, 0, NULL, 0}

/**
 * What mixcalc_plan_field_list() fills: what to take along beside the products, and how many there are of everything.
 */
typedef struct mixcalc_field_list {
  /**
   * sizeof(mixcalc_field_list) of the caller.
   */
  size_t struct_size;
  /**
   * What a spill kit holds. NULL where the job does not ask for a field list or a stop stands, and then all below is 0. Borrowed from the plan.
   */
  const char *spill_kit;
  /**
   * Clean water in all, L.
   */
  double water_l;
  /**
   * For all loads, L: the carrier, the rinses below among it.
   */
  double carrier_l;
  /**
   * What of that is for rinsing measures, L.
   */
  double measure_rinses_l;
  /**
   * What of that is for rinsing emptied containers, L.
   */
  double container_rinses_l;
  /**
   * For rinsing the tank after spraying, L.
   */
  double tank_rinse_l;
  /**
   * For washing hands, L.
   */
  double hands_l;
  /**
   * For flushing eyes, L.
   */
  double eyes_l;
  /**
   * How many products: entries of mixcalc_plan_product_to_take().
   */
  size_t products;
  /**
   * How many measures: entries of mixcalc_plan_listed() of MIXCALC_LIST_MEASURES.
   */
  size_t measures;
  /**
   * How many things to wear for mixing: entries of MIXCALC_LIST_MIXING.
   */
  size_t mixing;
  /**
   * How many things to wear for spraying: entries of MIXCALC_LIST_SPRAYING.
   */
  size_t spraying;
  /**
   * Of how many products the job does not state what to wear: entries of MIXCALC_LIST_UNSTATED.
   */
  size_t unstated;
} mixcalc_field_list;

/** How a mixcalc_field_list starts. */
#define MIXCALC_FIELD_LIST_INIT {sizeof(mixcalc_field_list), NULL, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0}

/**
 * What mixcalc_plan_product_to_take() fills: a product to take along.
 */
typedef struct mixcalc_product_to_take {
  /**
   * sizeof(mixcalc_product_to_take) of the caller.
   */
  size_t struct_size;
  /**
   * Name of the product. Borrowed from the plan.
   */
  const char *product;
  /**
   * What all loads take of it.
   */
  struct mixcalc_amount amount;
  /**
   * 1 where containers is known, else 0: the job states none.
   */
  uint32_t has_containers;
  /**
   * 1 where buy is known, else 0: it is not stated how many there are.
   */
  uint32_t has_buy;
  /**
   * How many of its containers go along, the one that is open among them.
   */
  uint64_t containers;
  /**
   * How many of them are still to be bought.
   */
  uint64_t buy;
} mixcalc_product_to_take;

/** How a mixcalc_product_to_take starts. */
#define MIXCALC_PRODUCT_TO_TAKE_INIT {sizeof(mixcalc_product_to_take), NULL, {0, 0, 0, 0}, 0, 0, 0, 0}

#ifdef __cplusplus
extern "C" {
#endif // __cplusplus

/**
 * From flow, speed and swath.
 *
 * flow              of the nozzles over the swath; for a boom the mean of its nozzles
 * speed             over the ground
 * swath             for the mean of a boom's nozzles, their spacing
 * out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
 * error             may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (an input, out_calibration), _WRONG_QUANTITY (an input of another kind), _NOT_POSITIVE, _DUPLICATE_NAME (one name
 * for different inputs), _OUT_OF_RANGE, _NOT_FINITE, _STRUCT_SIZE (error) or _PANIC. The error's path names the input.
 */
uint32_t mixcalc_calibration_from_flow(const struct mixcalc_uncertain *flow,
                                       const struct mixcalc_uncertain *speed,
                                       const struct mixcalc_uncertain *swath,
                                       struct mixcalc_calibration **out_calibration,
                                       struct mixcalc_error *error);

/**
 * From a timed catch and a timed course. Where one stopwatch timed both, give both times its input: it cancels.
 *
 * catch             volume caught
 * catch_time        how long
 * course            length driven or walked
 * course_time       how long
 * swath             of the nozzles that were caught
 * out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
 * error             may be NULL
 *
 * Returns what mixcalc_calibration_from_flow() returns.
 */
uint32_t mixcalc_calibration_from_timed_course(const struct mixcalc_uncertain *catch_,
                                               const struct mixcalc_uncertain *catch_time,
                                               const struct mixcalc_uncertain *course,
                                               const struct mixcalc_uncertain *course_time,
                                               const struct mixcalc_uncertain *swath,
                                               struct mixcalc_calibration **out_calibration,
                                               struct mixcalc_error *error);

/**
 * From a catch that takes as long as a course.
 *
 * catch             caught in the time of the course
 * course            its length
 * swath             of the nozzles that were caught; for a band its width
 * out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
 * error             may be NULL
 *
 * Returns what mixcalc_calibration_from_flow() returns.
 */
uint32_t mixcalc_calibration_from_catch_over_course(const struct mixcalc_uncertain *catch_,
                                                    const struct mixcalc_uncertain *course,
                                                    const struct mixcalc_uncertain *swath,
                                                    struct mixcalc_calibration **out_calibration,
                                                    struct mixcalc_error *error);

/**
 * From a catch that takes as long as an area.
 *
 * catch             caught in the time that the area takes
 * area              of the course
 * out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
 * error             may be NULL
 *
 * Returns what mixcalc_calibration_from_flow() returns.
 */
uint32_t mixcalc_calibration_from_catch_over_area(const struct mixcalc_uncertain *catch_,
                                                  const struct mixcalc_uncertain *area,
                                                  struct mixcalc_calibration **out_calibration,
                                                  struct mixcalc_error *error);

/**
 * From what refills the tank to the mark after a test area.
 *
 * refill            poured to the mark again
 * area              sprayed
 * out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
 * error             may be NULL
 *
 * Returns what mixcalc_calibration_from_flow() returns.
 */
uint32_t mixcalc_calibration_from_refill(const struct mixcalc_uncertain *refill,
                                         const struct mixcalc_uncertain *area,
                                         struct mixcalc_calibration **out_calibration,
                                         struct mixcalc_error *error);

/**
 * From a tank that was sprayed out.
 *
 * filled            what the tank and the lines held at the start
 * residual          what stayed in them, 0 or more
 * area              sprayed
 * out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
 * error             may be NULL
 *
 * Returns what mixcalc_calibration_from_flow() returns.
 */
uint32_t mixcalc_calibration_from_emptied_tank(const struct mixcalc_uncertain *filled,
                                               const struct mixcalc_uncertain *residual,
                                               const struct mixcalc_uncertain *area,
                                               struct mixcalc_calibration **out_calibration,
                                               struct mixcalc_error *error);

/**
 * From a hand gun or lance: a spot is treated as always, timed, and then caught.
 *
 * catch             volume caught
 * catch_time        how long
 * spot              area treated
 * spot_time         how long
 * out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
 * error             may be NULL
 *
 * Returns what mixcalc_calibration_from_flow() returns.
 */
uint32_t mixcalc_calibration_from_spot(const struct mixcalc_uncertain *catch_,
                                       const struct mixcalc_uncertain *catch_time,
                                       const struct mixcalc_uncertain *spot,
                                       const struct mixcalc_uncertain *spot_time,
                                       struct mixcalc_calibration **out_calibration,
                                       struct mixcalc_error *error);

/**
 * From the volume that plants take each.
 *
 * volume            mean per plant
 * ground            of one plant
 * out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
 * error             may be NULL
 *
 * Returns what mixcalc_calibration_from_flow() returns.
 */
uint32_t mixcalc_calibration_from_plants(const struct mixcalc_uncertain *volume,
                                         const struct mixcalc_uncertain *ground,
                                         struct mixcalc_calibration **out_calibration,
                                         struct mixcalc_error *error);

/**
 * From the flows of both sides of an orchard sprayer, each alley driven once.
 *
 * left              flow of all open nozzles of the left side
 * right             of the right side
 * speed             over the ground
 * row_spacing       from row to row
 * out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
 * error             may be NULL
 *
 * Returns what mixcalc_calibration_from_flow() returns.
 */
uint32_t mixcalc_calibration_from_sides(const struct mixcalc_uncertain *left,
                                        const struct mixcalc_uncertain *right,
                                        const struct mixcalc_uncertain *speed,
                                        const struct mixcalc_uncertain *row_spacing,
                                        struct mixcalc_calibration **out_calibration,
                                        struct mixcalc_error *error);

/**
 * From the flow over one band: two rates, on treated and on field ground.
 *
 * flow          of all nozzles of one row together
 * speed         over the ground
 * band          treated width in each row
 * row_spacing   from row to row; not under the band
 * out_band      receives the rate per area of treated band: what most label doses are on; give it back with mixcalc_calibration_free()
 * out_field     receives the rate per area of field: what the tank is filled for; likewise
 * error         may be NULL
 *
 * Returns what mixcalc_calibration_from_flow() returns.
 */
uint32_t mixcalc_calibration_from_band(const struct mixcalc_uncertain *flow,
                                       const struct mixcalc_uncertain *speed,
                                       const struct mixcalc_uncertain *band,
                                       const struct mixcalc_uncertain *row_spacing,
                                       struct mixcalc_calibration **out_band,
                                       struct mixcalc_calibration **out_field,
                                       struct mixcalc_error *error);

/**
 * From the flow of an orchard sprayer.
 *
 * flow              of all nozzles that are open in a pass
 * speed             over the ground
 * row_spacing       from row to row
 * alleys            which are driven: MIXCALC_ALLEYS_EACH, _EACH_TWICE or _EVERY_OTHER
 * out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
 * error             may be NULL
 *
 * Returns what mixcalc_calibration_from_flow() returns, and _CHOICE (alleys).
 */
uint32_t mixcalc_calibration_from_alleys(const struct mixcalc_uncertain *flow,
                                         const struct mixcalc_uncertain *speed,
                                         const struct mixcalc_uncertain *row_spacing,
                                         uint32_t alleys,
                                         struct mixcalc_calibration **out_calibration,
                                         struct mixcalc_error *error);

/**
 * Gives back a calibration. What was borrowed from it ends with it.
 *
 * calibration   handed out by this library, not given back before, and read by no other thread any more; NULL is allowed and does nothing
 */
void mixcalc_calibration_free(struct mixcalc_calibration *calibration);

/**
 * The volume rate of a calibration, with its uncertainty.
 *
 * calibration   the calibration
 * out_rate      receives the rate; borrowed from the calibration
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (calibration, out_rate), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_calibration_volume_rate(const struct mixcalc_calibration *calibration,
                                         const struct mixcalc_uncertain **out_rate,
                                         struct mixcalc_error *error);

/**
 * The formula by which a calibration was reached, such as "Q / (v * w)".
 *
 * calibration   the calibration
 * out_formula   receives the formula; borrowed from the calibration
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (calibration, out_formula), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_calibration_formula(const struct mixcalc_calibration *calibration,
                                     const char **out_formula,
                                     struct mixcalc_error *error);

/**
 * How a calibration was reached, on one line: its formula, what stands in it, and where it is written.
 *
 * calibration   the calibration
 * system        the measures to show: MIXCALC_SYSTEM_METRIC, _US or _IMPERIAL
 * out_text      receives the text; give it back with mixcalc_string_free()
 * out_len       receives its length in bytes; may be NULL
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (calibration, out_text), _CHOICE (system), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_calibration_working(const struct mixcalc_calibration *calibration,
                                     uint32_t system,
                                     char **out_text,
                                     size_t *out_len,
                                     struct mixcalc_error *error);

/**
 * The same calibration, with what it was measured with and where.
 *
 * calibration       the calibration; it stays as it is
 * setting           sprayer, operator, nozzles, pressure, ground, day; start it with MIXCALC_SETTING_INIT
 * out_calibration   receives the calibration with its setting; give it back with mixcalc_calibration_free()
 * error             may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (calibration, setting or a text of it, out_calibration), _NOT_FINITE, _OUT_OF_RANGE (date),
 * _STRUCT_SIZE (setting, error) or _PANIC.
 */
uint32_t mixcalc_calibration_with_setting(const struct mixcalc_calibration *calibration,
                                          const struct mixcalc_setting *setting,
                                          struct mixcalc_calibration **out_calibration,
                                          struct mixcalc_error *error);

/**
 * What differs between the setting that a calibration was measured in and one that it is to be used in: each a reason to calibrate again.
 *
 * calibration       the calibration
 * use_in            the setting of the job; start it with MIXCALC_SETTING_INIT
 * oldest_days       the age up to which a calibration is accepted, d; there is no default
 * out_differences   receives MIXCALC_DIFFERENCE_SPRAYER and so on, added up; 0 where nothing differs
 * error             may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (calibration, use_in or a text of it, out_differences), _NOT_FINITE, _OUT_OF_RANGE (date),
 * _STRUCT_SIZE (use_in, error) or _PANIC.
 */
uint32_t mixcalc_calibration_differences(const struct mixcalc_calibration *calibration,
                                         const struct mixcalc_setting *use_in,
                                         double oldest_days,
                                         uint32_t *out_differences,
                                         struct mixcalc_error *error);

/**
 * The volume rate after the flow changes, all else as calibrated. A pressure changes the flow: mixcalc_nozzle_flow_at() gives both.
 *
 * calibration   the calibration
 * from          the flow when calibrated
 * to            the flow that it is to be
 * out_rate      receives the rate; give it back with mixcalc_uncertain_free()
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (calibration, from, to, out_rate), _WRONG_QUANTITY, _NOT_POSITIVE, _DUPLICATE_NAME, _OUT_OF_RANGE,
 * _NOT_FINITE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_calibration_after_flow(const struct mixcalc_calibration *calibration,
                                        const struct mixcalc_uncertain *from,
                                        const struct mixcalc_uncertain *to,
                                        struct mixcalc_uncertain **out_rate,
                                        struct mixcalc_error *error);

/**
 * The volume rate after the speed changes, all else as calibrated.
 *
 * Parameters and result are those of mixcalc_calibration_after_flow(), with speeds.
 */
uint32_t mixcalc_calibration_after_speed(const struct mixcalc_calibration *calibration,
                                         const struct mixcalc_uncertain *from,
                                         const struct mixcalc_uncertain *to,
                                         struct mixcalc_uncertain **out_rate,
                                         struct mixcalc_error *error);

/**
 * The volume rate after the swath or the nozzle spacing changes, all else as calibrated.
 *
 * Parameters and result are those of mixcalc_calibration_after_flow(), with lengths.
 */
uint32_t mixcalc_calibration_after_swath(const struct mixcalc_calibration *calibration,
                                         const struct mixcalc_uncertain *from,
                                         const struct mixcalc_uncertain *to,
                                         struct mixcalc_uncertain **out_rate,
                                         struct mixcalc_error *error);

/**
 * How far two sides are apart, as a part of their mean; above 0 where the left gives more.
 *
 * left, right      flows of the sides
 * out_difference   receives the ratio; give it back with mixcalc_uncertain_free()
 * error            may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (left, right, out_difference), _WRONG_QUANTITY, _NOT_POSITIVE, _DUPLICATE_NAME, _OUT_OF_RANGE, _NOT_FINITE,
 * _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_side_difference(const struct mixcalc_uncertain *left,
                                 const struct mixcalc_uncertain *right,
                                 struct mixcalc_uncertain **out_difference,
                                 struct mixcalc_error *error);

/**
 * The ground on which US fluid ounces are US gallons per acre: 1/128 acre.
 *
 * out_area_ha   receives the area, ha
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_area_ha), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_one_128th_acre_ha(double *out_area_ha, struct mixcalc_error *error);

/**
 * Length of the course that makes an area of a swath.
 *
 * area_ha        of the course, ha, 0 or more
 * swath_m        of the nozzles that are caught: spacing, band, or row, m, above 0
 * out_length_m   receives the length, m
 * error          may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_length_m), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_course_length_m(double area_ha,
                                 double swath_m,
                                 double *out_length_m,
                                 struct mixcalc_error *error);

/**
 * Density of air-free water at one atmosphere.
 *
 * temperature_c          °C, from 0 to 40
 * out_density_kg_per_l   receives the density, kg/L
 * error                  may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_density_kg_per_l), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_water_density_kg_per_l(double temperature_c,
                                        double *out_density_kg_per_l,
                                        struct mixcalc_error *error);

/**
 * Volume of a catch from its weight in air.
 *
 * mass         what the scale showed, less the empty vessel
 * density      of the liquid at its temperature; of water mixcalc_water_density_kg_per_l()
 * out_volume   receives the volume; give it back with mixcalc_uncertain_free()
 * error        may be NULL
 *
 * Returns what mixcalc_side_difference() returns.
 */
uint32_t mixcalc_volume_of_catch(const struct mixcalc_uncertain *mass,
                                 const struct mixcalc_uncertain *density,
                                 struct mixcalc_uncertain **out_volume,
                                 struct mixcalc_error *error);

/**
 * Dose of a liquid product that is really delivered. How likely it is over the label's most: mixcalc_uncertain_probability_over_percent(); what to aim at:
 * mixcalc_uncertain_aim_under(). None of it allows a dose over the label's.
 *
 * amount        volume of the product in the load
 * mix           in the tank
 * volume_rate   as calibrated
 * out_dose      receives the dose; give it back with mixcalc_uncertain_free()
 * error         may be NULL
 *
 * Returns what mixcalc_side_difference() returns.
 */
uint32_t mixcalc_delivered_liquid_dose(const struct mixcalc_uncertain *amount,
                                       const struct mixcalc_uncertain *mix,
                                       const struct mixcalc_uncertain *volume_rate,
                                       struct mixcalc_uncertain **out_dose,
                                       struct mixcalc_error *error);

/**
 * Dose of a product by mass that is really delivered.
 *
 * amount        mass of the product in the load
 * mix           in the tank
 * volume_rate   as calibrated
 * out_dose      receives the dose; give it back with mixcalc_uncertain_free()
 * error         may be NULL
 *
 * Returns what mixcalc_side_difference() returns.
 */
uint32_t mixcalc_delivered_solid_dose(const struct mixcalc_uncertain *amount,
                                      const struct mixcalc_uncertain *mix,
                                      const struct mixcalc_uncertain *volume_rate,
                                      struct mixcalc_uncertain **out_dose,
                                      struct mixcalc_error *error);

/**
 * Why a row of a function over columns was refused: the error of its sum, whose path is the name of the input with
 * the row in brackets behind it.
 *
 * calculation    name of the function after mixcalc_columns_, such as "mix"
 * inputs         its inputs, in its order
 * inputs_count   how many
 * rows           how many rows they have
 * row            which, from 0
 * error          may be NULL; receives the sentence
 *
 * Returns the status of the row, MIXCALC_STATUS_OK where it is not refused; MIXCALC_STATUS_NULL_POINTER (calculation, inputs), _LENGTH (inputs),
 * _INDEX (row), _UNKNOWN_CHOICE (calculation), _MISSING_INPUT (inputs), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_explain(const char *calculation,
                                 const struct mixcalc_column *inputs,
                                 size_t inputs_count,
                                 size_t rows,
                                 size_t row,
                                 struct mixcalc_error *error);

/**
 * The loads of one liquid product at a volume rate: mix, product, full loads and the part load after them, and the product in each. Nothing is measured here, and no limit of a label is known.
 *
 * area_ha                                      ground to be treated, ha, above 0
 * volume_rate_l_per_ha                         volume of mix per ground area, the product inside, L/ha, above 0
 * dose_l_per_ha                                volume of product per ground area, L/ha, above 0 and below the volume rate
 * safe_fill_l                                  the most that the tank may be filled to, L, above 0
 * out_mix_l                                    receives finished mix for the area, L
 * out_product_l                                receives product for the area, L
 * out_full_loads                               receives how many loads are filled to the safe fill
 * out_part_load_l                              receives the part load after them, L; 0 where there is none
 * out_product_in_full_load_l                   receives product in a load at the safe fill, L
 * out_product_in_part_load_l                   receives product in the part load, L
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_plan(struct mixcalc_column area_ha,
                              struct mixcalc_column volume_rate_l_per_ha,
                              struct mixcalc_column dose_l_per_ha,
                              struct mixcalc_column safe_fill_l,
                              size_t rows,
                              size_t threads,
                              double *out_mix_l,
                              double *out_product_l,
                              double *out_full_loads,
                              double *out_part_load_l,
                              double *out_product_in_full_load_l,
                              double *out_product_in_part_load_l,
                              uint16_t *out_status,
                              size_t *out_refused,
                              struct mixcalc_error *error);

/**
 * Volume of mix for an area at a volume rate.
 *
 * volume_rate_l_per_ha                         volume of mix per ground area, L/ha, 0 or more
 * area_ha                                      ground to be treated, ha, 0 or more
 * out_mix_l                                    receives finished mix, L
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_mix(struct mixcalc_column volume_rate_l_per_ha,
                             struct mixcalc_column area_ha,
                             size_t rows,
                             size_t threads,
                             double *out_mix_l,
                             uint16_t *out_status,
                             size_t *out_refused,
                             struct mixcalc_error *error);

/**
 * Ground that a volume of mix serves.
 *
 * mix_l                                        finished mix, L, 0 or more
 * volume_rate_l_per_ha                         volume of mix per ground area, L/ha, above 0
 * out_area_ha                                  receives ground that it serves, ha
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_area_for_mix(struct mixcalc_column mix_l,
                                      struct mixcalc_column volume_rate_l_per_ha,
                                      size_t rows,
                                      size_t threads,
                                      double *out_area_ha,
                                      uint16_t *out_status,
                                      size_t *out_refused,
                                      struct mixcalc_error *error);

/**
 * Full loads, and the volume of the part load after them.
 *
 * mix_l                                        finished mix, L, above 0
 * safe_fill_l                                  the most that the tank may be filled to, L, above 0
 * out_full_loads                               receives how many loads are filled to the safe fill
 * out_part_load_l                              receives the part load after them, L; 0 where there is none
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_full_and_part_load(struct mixcalc_column mix_l,
                                            struct mixcalc_column safe_fill_l,
                                            size_t rows,
                                            size_t threads,
                                            double *out_full_loads,
                                            double *out_part_load_l,
                                            uint16_t *out_status,
                                            size_t *out_refused,
                                            struct mixcalc_error *error);

/**
 * The most that a tank may be filled to, by what is known of it: the lesser of the nominal volume and the brim capacity without the headspace, down to a mark of the tank.
 *
 * nominal_l                                    nominal volume, L; 0 where it is not known
 * brim_l                                       brim capacity, L; 0 where it is not known
 * headspace_percent                            part of the brim capacity left empty on purpose, %, 0 or more and below 100
 * graduation_l                                 the step of the tank's own marks, L; 0 for a tank without
 * out_safe_fill_l                              receives the safe fill, L
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_safe_fill(struct mixcalc_column nominal_l,
                                   struct mixcalc_column brim_l,
                                   struct mixcalc_column headspace_percent,
                                   struct mixcalc_column graduation_l,
                                   size_t rows,
                                   size_t threads,
                                   double *out_safe_fill_l,
                                   uint16_t *out_status,
                                   size_t *out_refused,
                                   struct mixcalc_error *error);

/**
 * Whole graduations nearest to a volume, a half going down, and never over the maximum.
 *
 * amount_l                                     what the dose asks for, L, at least one graduation and at most the maximum
 * graduation_l                                 the smallest step that the measure shows, L, above 0
 * maximum_l                                    the most that the label allows, L; the amount itself where it allows no more
 * out_graduations                              receives how many graduations to measure
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_graduations_of_volume(struct mixcalc_column amount_l,
                                               struct mixcalc_column graduation_l,
                                               struct mixcalc_column maximum_l,
                                               size_t rows,
                                               size_t threads,
                                               double *out_graduations,
                                               uint16_t *out_status,
                                               size_t *out_refused,
                                               struct mixcalc_error *error);

/**
 * Whole graduations nearest to a mass, a half going down, and never over the maximum.
 *
 * amount_kg                                    what the dose asks for, kg, at least one graduation and at most the maximum
 * graduation_kg                                the smallest step that the measure shows, kg, above 0
 * maximum_kg                                   the most that the label allows, kg; the amount itself where it allows no more
 * out_graduations                              receives how many graduations to measure
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_graduations_of_mass(struct mixcalc_column amount_kg,
                                             struct mixcalc_column graduation_kg,
                                             struct mixcalc_column maximum_kg,
                                             size_t rows,
                                             size_t threads,
                                             double *out_graduations,
                                             uint16_t *out_status,
                                             size_t *out_refused,
                                             struct mixcalc_error *error);

/**
 * Volume of a product for an area, at a dose by volume.
 *
 * liquid_dose_l_per_ha                         volume of product per ground area, L/ha, 0 or more
 * area_ha                                      ground to be treated, ha, 0 or more
 * out_amount_l                                 receives product, L
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_liquid_amount(struct mixcalc_column liquid_dose_l_per_ha,
                                       struct mixcalc_column area_ha,
                                       size_t rows,
                                       size_t threads,
                                       double *out_amount_l,
                                       uint16_t *out_status,
                                       size_t *out_refused,
                                       struct mixcalc_error *error);

/**
 * Mass of a product for an area, at a dose by mass.
 *
 * solid_dose_kg_per_ha                         mass of product per ground area, kg/ha, 0 or more
 * area_ha                                      ground to be treated, ha, 0 or more
 * out_amount_kg                                receives product, kg
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_solid_amount(struct mixcalc_column solid_dose_kg_per_ha,
                                      struct mixcalc_column area_ha,
                                      size_t rows,
                                      size_t threads,
                                      double *out_amount_kg,
                                      uint16_t *out_status,
                                      size_t *out_refused,
                                      struct mixcalc_error *error);

/**
 * Volume of a product in a volume of mix, at a dose per volume of finished mix.
 *
 * volume_fraction_ml_per_100_l                 product per finished mix, mL/100 L, 0 or more
 * mix_l                                        finished mix, the product inside, L, 0 or more
 * out_amount_l                                 receives product, L
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_liquid_amount_in_mix(struct mixcalc_column volume_fraction_ml_per_100_l,
                                              struct mixcalc_column mix_l,
                                              size_t rows,
                                              size_t threads,
                                              double *out_amount_l,
                                              uint16_t *out_status,
                                              size_t *out_refused,
                                              struct mixcalc_error *error);

/**
 * Mass of a product in a volume of mix, at a dose per volume of finished mix.
 *
 * mass_concentration_g_per_100_l               product per finished mix, g/100 L, 0 or more
 * mix_l                                        finished mix, the product inside, L, 0 or more
 * out_amount_kg                                receives product, kg
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_solid_amount_in_mix(struct mixcalc_column mass_concentration_g_per_100_l,
                                             struct mixcalc_column mix_l,
                                             size_t rows,
                                             size_t threads,
                                             double *out_amount_kg,
                                             uint16_t *out_status,
                                             size_t *out_refused,
                                             struct mixcalc_error *error);

/**
 * Dose by volume per ground area that a dose per volume of mix comes to.
 *
 * volume_fraction_ml_per_100_l                 product per finished mix, mL/100 L, 0 or more
 * volume_rate_l_per_ha                         volume of mix per ground area, L/ha, 0 or more
 * out_liquid_dose_l_per_ha                     receives volume of product per ground area, L/ha
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_liquid_dose(struct mixcalc_column volume_fraction_ml_per_100_l,
                                     struct mixcalc_column volume_rate_l_per_ha,
                                     size_t rows,
                                     size_t threads,
                                     double *out_liquid_dose_l_per_ha,
                                     uint16_t *out_status,
                                     size_t *out_refused,
                                     struct mixcalc_error *error);

/**
 * Dose by mass per ground area that a dose per volume of mix comes to.
 *
 * mass_concentration_g_per_100_l               product per finished mix, g/100 L, 0 or more
 * volume_rate_l_per_ha                         volume of mix per ground area, L/ha, 0 or more
 * out_solid_dose_kg_per_ha                     receives mass of product per ground area, kg/ha
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_solid_dose(struct mixcalc_column mass_concentration_g_per_100_l,
                                    struct mixcalc_column volume_rate_l_per_ha,
                                    size_t rows,
                                    size_t threads,
                                    double *out_solid_dose_kg_per_ha,
                                    uint16_t *out_status,
                                    size_t *out_refused,
                                    struct mixcalc_error *error);

/**
 * Dose per volume of finished mix that a dose by volume per ground area comes to.
 *
 * liquid_dose_l_per_ha                         volume of product per ground area, L/ha, 0 or more
 * volume_rate_l_per_ha                         volume of mix per ground area, L/ha, above 0
 * out_volume_fraction_ml_per_100_l             receives product per finished mix, mL/100 L
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_volume_fraction(struct mixcalc_column liquid_dose_l_per_ha,
                                         struct mixcalc_column volume_rate_l_per_ha,
                                         size_t rows,
                                         size_t threads,
                                         double *out_volume_fraction_ml_per_100_l,
                                         uint16_t *out_status,
                                         size_t *out_refused,
                                         struct mixcalc_error *error);

/**
 * Dose per volume of finished mix that a dose by mass per ground area comes to.
 *
 * solid_dose_kg_per_ha                         mass of product per ground area, kg/ha, 0 or more
 * volume_rate_l_per_ha                         volume of mix per ground area, L/ha, above 0
 * out_mass_concentration_g_per_100_l           receives product per finished mix, g/100 L
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_mass_concentration(struct mixcalc_column solid_dose_kg_per_ha,
                                            struct mixcalc_column volume_rate_l_per_ha,
                                            size_t rows,
                                            size_t threads,
                                            double *out_mass_concentration_g_per_100_l,
                                            uint16_t *out_status,
                                            size_t *out_refused,
                                            struct mixcalc_error *error);

/**
 * Active substance per ground area in a dose by volume.
 *
 * content_g_per_l                              active substance in the product, g/L, 0 or more
 * liquid_dose_l_per_ha                         volume of product per ground area, L/ha, 0 or more
 * out_substance_kg_per_ha                      receives active substance per ground area, kg/ha
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_substance_in_liquid_dose(struct mixcalc_column content_g_per_l,
                                                  struct mixcalc_column liquid_dose_l_per_ha,
                                                  size_t rows,
                                                  size_t threads,
                                                  double *out_substance_kg_per_ha,
                                                  uint16_t *out_status,
                                                  size_t *out_refused,
                                                  struct mixcalc_error *error);

/**
 * Active substance per ground area in a dose by mass.
 *
 * content_g_per_kg                             active substance in the product, g/kg, 0 or more
 * solid_dose_kg_per_ha                         mass of product per ground area, kg/ha, 0 or more
 * out_substance_kg_per_ha                      receives active substance per ground area, kg/ha
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_substance_in_solid_dose(struct mixcalc_column content_g_per_kg,
                                                 struct mixcalc_column solid_dose_kg_per_ha,
                                                 size_t rows,
                                                 size_t threads,
                                                 double *out_substance_kg_per_ha,
                                                 uint16_t *out_status,
                                                 size_t *out_refused,
                                                 struct mixcalc_error *error);

/**
 * Dose by volume that gives an amount of active substance per ground area.
 *
 * content_g_per_l                              active substance in the product, g/L, above 0
 * substance_kg_per_ha                          active substance per ground area, kg/ha, 0 or more
 * out_liquid_dose_l_per_ha                     receives volume of product per ground area, L/ha
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_liquid_dose_of_substance(struct mixcalc_column content_g_per_l,
                                                  struct mixcalc_column substance_kg_per_ha,
                                                  size_t rows,
                                                  size_t threads,
                                                  double *out_liquid_dose_l_per_ha,
                                                  uint16_t *out_status,
                                                  size_t *out_refused,
                                                  struct mixcalc_error *error);

/**
 * Dose by mass that gives an amount of active substance per ground area.
 *
 * content_g_per_kg                             active substance in the product, g/kg, above 0
 * substance_kg_per_ha                          active substance per ground area, kg/ha, 0 or more
 * out_solid_dose_kg_per_ha                     receives mass of product per ground area, kg/ha
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_solid_dose_of_substance(struct mixcalc_column content_g_per_kg,
                                                 struct mixcalc_column substance_kg_per_ha,
                                                 size_t rows,
                                                 size_t threads,
                                                 double *out_solid_dose_kg_per_ha,
                                                 uint16_t *out_status,
                                                 size_t *out_refused,
                                                 struct mixcalc_error *error);

/**
 * Mass of a volume of a liquid.
 *
 * density_kg_per_l                             density of the liquid, kg/L, above 0
 * volume_l                                     its volume, L, 0 or more
 * out_mass_kg                                  receives its mass, kg
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_liquid_mass(struct mixcalc_column density_kg_per_l,
                                     struct mixcalc_column volume_l,
                                     size_t rows,
                                     size_t threads,
                                     double *out_mass_kg,
                                     uint16_t *out_status,
                                     size_t *out_refused,
                                     struct mixcalc_error *error);

/**
 * Volume of a mass of a liquid.
 *
 * mass_kg                                      mass of the liquid, kg, 0 or more
 * density_kg_per_l                             its density, kg/L, above 0
 * out_volume_l                                 receives its volume, L
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_liquid_volume(struct mixcalc_column mass_kg,
                                       struct mixcalc_column density_kg_per_l,
                                       size_t rows,
                                       size_t threads,
                                       double *out_volume_l,
                                       uint16_t *out_status,
                                       size_t *out_refused,
                                       struct mixcalc_error *error);

/**
 * Volume rate at a flow, a speed over the ground and a swath.
 *
 * flow_l_per_min                               flow of all open nozzles together, L/min, 0 or more
 * speed_km_per_h                               speed over the ground, km/h, above 0
 * swath_m                                      treated width per pass, m, above 0
 * out_volume_rate_l_per_ha                     receives volume of mix per ground area, L/ha
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_volume_rate(struct mixcalc_column flow_l_per_min,
                                     struct mixcalc_column speed_km_per_h,
                                     struct mixcalc_column swath_m,
                                     size_t rows,
                                     size_t threads,
                                     double *out_volume_rate_l_per_ha,
                                     uint16_t *out_status,
                                     size_t *out_refused,
                                     struct mixcalc_error *error);

/**
 * Flow of all open nozzles that a volume rate takes.
 *
 * volume_rate_l_per_ha                         volume of mix per ground area, L/ha, 0 or more
 * speed_km_per_h                               speed over the ground, km/h, 0 or more
 * swath_m                                      treated width per pass, m, 0 or more
 * out_flow_l_per_min                           receives flow of all open nozzles together, L/min
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_required_flow(struct mixcalc_column volume_rate_l_per_ha,
                                       struct mixcalc_column speed_km_per_h,
                                       struct mixcalc_column swath_m,
                                       size_t rows,
                                       size_t threads,
                                       double *out_flow_l_per_min,
                                       uint16_t *out_status,
                                       size_t *out_refused,
                                       struct mixcalc_error *error);

/**
 * Speed over the ground at which a flow gives a volume rate.
 *
 * flow_l_per_min                               flow of all open nozzles together, L/min, 0 or more
 * volume_rate_l_per_ha                         volume of mix per ground area, L/ha, above 0
 * swath_m                                      treated width per pass, m, above 0
 * out_speed_km_per_h                           receives speed over the ground, km/h
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_required_speed(struct mixcalc_column flow_l_per_min,
                                        struct mixcalc_column volume_rate_l_per_ha,
                                        struct mixcalc_column swath_m,
                                        size_t rows,
                                        size_t threads,
                                        double *out_speed_km_per_h,
                                        uint16_t *out_status,
                                        size_t *out_refused,
                                        struct mixcalc_error *error);

/**
 * Swath over which a flow gives a volume rate at a speed.
 *
 * flow_l_per_min                               flow of all open nozzles together, L/min, 0 or more
 * volume_rate_l_per_ha                         volume of mix per ground area, L/ha, above 0
 * speed_km_per_h                               speed over the ground, km/h, above 0
 * out_swath_m                                  receives treated width per pass, m
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_required_swath(struct mixcalc_column flow_l_per_min,
                                        struct mixcalc_column volume_rate_l_per_ha,
                                        struct mixcalc_column speed_km_per_h,
                                        size_t rows,
                                        size_t threads,
                                        double *out_swath_m,
                                        uint16_t *out_status,
                                        size_t *out_refused,
                                        struct mixcalc_error *error);

/**
 * Ground treated in a time. Turning and filling are not in it.
 *
 * speed_km_per_h                               speed over the ground, km/h, 0 or more
 * swath_m                                      treated width per pass, m, 0 or more
 * out_work_rate_ha_per_h                       receives ground treated in a time, ha/h
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_work_rate(struct mixcalc_column speed_km_per_h,
                                   struct mixcalc_column swath_m,
                                   size_t rows,
                                   size_t threads,
                                   double *out_work_rate_ha_per_h,
                                   uint16_t *out_status,
                                   size_t *out_refused,
                                   struct mixcalc_error *error);

/**
 * Time that the nozzles are open over an area. Turning and filling are not in it.
 *
 * area_ha                                      ground to be treated, ha, 0 or more
 * work_rate_ha_per_h                           ground treated in a time, ha/h, above 0
 * out_time_s                                   receives time that the nozzles are open, s
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_spraying_time(struct mixcalc_column area_ha,
                                       struct mixcalc_column work_rate_ha_per_h,
                                       size_t rows,
                                       size_t threads,
                                       double *out_time_s,
                                       uint16_t *out_status,
                                       size_t *out_refused,
                                       struct mixcalc_error *error);

/**
 * Flow from a volume that was caught in a time.
 *
 * volume_l                                     volume that was caught, L, 0 or more
 * time_s                                       time for which it was caught, s, above 0
 * out_flow_l_per_min                           receives flow, L/min
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_flow(struct mixcalc_column volume_l,
                              struct mixcalc_column time_s,
                              size_t rows,
                              size_t threads,
                              double *out_flow_l_per_min,
                              uint16_t *out_status,
                              size_t *out_refused,
                              struct mixcalc_error *error);

/**
 * Speed from a distance that was covered in a time.
 *
 * distance_m                                   distance over the ground, m, 0 or more
 * time_s                                       time that it took, s, above 0
 * out_speed_km_per_h                           receives speed over the ground, km/h
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_speed(struct mixcalc_column distance_m,
                               struct mixcalc_column time_s,
                               size_t rows,
                               size_t threads,
                               double *out_speed_km_per_h,
                               uint16_t *out_status,
                               size_t *out_refused,
                               struct mixcalc_error *error);

/**
 * Length of a course that a swath treats an area on.
 *
 * area_ha                                      ground of the course, ha, 0 or more
 * swath_m                                      treated width per pass, m, above 0
 * out_course_length_m                          receives length of the course, m
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_course_length(struct mixcalc_column area_ha,
                                       struct mixcalc_column swath_m,
                                       size_t rows,
                                       size_t threads,
                                       double *out_course_length_m,
                                       uint16_t *out_status,
                                       size_t *out_refused,
                                       struct mixcalc_error *error);

/**
 * One point of an as-applied log: ground that the swath treats, mix that went on it, mix that the target asks for on it, and the applied rate as a part of the target.
 *
 * distance_m                                   travelled since the point before, m, 0 or more
 * swath_m                                      width of the open sections, m, 0 or more; 0 where the boom is closed
 * overlap_m                                    what of the swath lies on ground treated before, where such ground is counted once, m, at most the swath; 0 where it is counted each time
 * applied_l_per_ha                             volume rate over the swath, as logged, L/ha, 0 or more
 * target_l_per_ha                              volume rate that was asked for, L/ha, above 0
 * out_area_ha                                  receives ground that the swath treats, without the overlap, ha
 * out_mix_l                                    receives mix that went on it, L
 * out_target_mix_l                             receives mix that the target asks for on it, L
 * out_to_target                                receives the applied rate as a part of the target
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_applied_point(struct mixcalc_column distance_m,
                                       struct mixcalc_column swath_m,
                                       struct mixcalc_column overlap_m,
                                       struct mixcalc_column applied_l_per_ha,
                                       struct mixcalc_column target_l_per_ha,
                                       size_t rows,
                                       size_t threads,
                                       double *out_area_ha,
                                       double *out_mix_l,
                                       double *out_target_mix_l,
                                       double *out_to_target,
                                       uint16_t *out_status,
                                       size_t *out_refused,
                                       struct mixcalc_error *error);

/**
 * Density of pure water at a temperature from 0 to 40 °C.
 *
 * temperature_c                                temperature of the water, °C, from 0 to 40
 * out_density_kg_per_l                         receives its density, kg/L
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_water_density(struct mixcalc_column temperature_c,
                                       size_t rows,
                                       size_t threads,
                                       double *out_density_kg_per_l,
                                       uint16_t *out_status,
                                       size_t *out_refused,
                                       struct mixcalc_error *error);

/**
 * Flow of a nozzle at a pressure, by the square root of the pressure, from its flow at one pressure.
 *
 * rated_flow_l_per_min                         flow of the nozzle at the rated pressure, L/min, above 0
 * rated_pressure_kpa                           pressure at which it has that flow, kPa, above 0
 * pressure_kpa                                 pressure that is asked about, kPa, above 0
 * out_flow_l_per_min                           receives flow at that pressure, L/min
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_flow_at_pressure(struct mixcalc_column rated_flow_l_per_min,
                                          struct mixcalc_column rated_pressure_kpa,
                                          struct mixcalc_column pressure_kpa,
                                          size_t rows,
                                          size_t threads,
                                          double *out_flow_l_per_min,
                                          uint16_t *out_status,
                                          size_t *out_refused,
                                          struct mixcalc_error *error);

/**
 * Pressure at which a nozzle has a flow, by the square root of the pressure, from its flow at one pressure.
 *
 * rated_flow_l_per_min                         flow of the nozzle at the rated pressure, L/min, above 0
 * rated_pressure_kpa                           pressure at which it has that flow, kPa, above 0
 * flow_l_per_min                               flow that is asked for, L/min, above 0
 * out_pressure_kpa                             receives pressure that gives it, kPa
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_required_pressure(struct mixcalc_column rated_flow_l_per_min,
                                           struct mixcalc_column rated_pressure_kpa,
                                           struct mixcalc_column flow_l_per_min,
                                           size_t rows,
                                           size_t threads,
                                           double *out_pressure_kpa,
                                           uint16_t *out_status,
                                           size_t *out_refused,
                                           struct mixcalc_error *error);

/**
 * Dose by volume that reaches the ground, and its standard uncertainty, from what was measured into a mix and what the sprayer puts out.
 *
 * amount_l                                     product in the mix, L, above 0
 * amount_standard_uncertainty_l                its standard uncertainty, L, 0 or more
 * mix_l                                        finished mix, L, above 0
 * mix_standard_uncertainty_l                   its standard uncertainty, L, 0 or more
 * volume_rate_l_per_ha                         volume of mix per ground area, as calibrated, L/ha, above 0
 * volume_rate_standard_uncertainty_l_per_ha    its standard uncertainty, L/ha, 0 or more
 * out_liquid_dose_l_per_ha                     receives volume of product per ground area, L/ha
 * out_liquid_dose_standard_uncertainty_l_per_ha receives its standard uncertainty, L/ha
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_delivered_liquid_dose(struct mixcalc_column amount_l,
                                               struct mixcalc_column amount_standard_uncertainty_l,
                                               struct mixcalc_column mix_l,
                                               struct mixcalc_column mix_standard_uncertainty_l,
                                               struct mixcalc_column volume_rate_l_per_ha,
                                               struct mixcalc_column volume_rate_standard_uncertainty_l_per_ha,
                                               size_t rows,
                                               size_t threads,
                                               double *out_liquid_dose_l_per_ha,
                                               double *out_liquid_dose_standard_uncertainty_l_per_ha,
                                               uint16_t *out_status,
                                               size_t *out_refused,
                                               struct mixcalc_error *error);

/**
 * Dose by mass that reaches the ground, and its standard uncertainty, from what was measured into a mix and what the sprayer puts out.
 *
 * amount_kg                                    product in the mix, kg, above 0
 * amount_standard_uncertainty_kg               its standard uncertainty, kg, 0 or more
 * mix_l                                        finished mix, L, above 0
 * mix_standard_uncertainty_l                   its standard uncertainty, L, 0 or more
 * volume_rate_l_per_ha                         volume of mix per ground area, as calibrated, L/ha, above 0
 * volume_rate_standard_uncertainty_l_per_ha    its standard uncertainty, L/ha, 0 or more
 * out_solid_dose_kg_per_ha                     receives mass of product per ground area, kg/ha
 * out_solid_dose_standard_uncertainty_kg_per_ha receives its standard uncertainty, kg/ha
 *
 * What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
 * _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_columns_delivered_solid_dose(struct mixcalc_column amount_kg,
                                              struct mixcalc_column amount_standard_uncertainty_kg,
                                              struct mixcalc_column mix_l,
                                              struct mixcalc_column mix_standard_uncertainty_l,
                                              struct mixcalc_column volume_rate_l_per_ha,
                                              struct mixcalc_column volume_rate_standard_uncertainty_l_per_ha,
                                              size_t rows,
                                              size_t threads,
                                              double *out_solid_dose_kg_per_ha,
                                              double *out_solid_dose_standard_uncertainty_kg_per_ha,
                                              uint16_t *out_status,
                                              size_t *out_refused,
                                              struct mixcalc_error *error);

/**
 * The flow that a standard nozzle size stands for.
 *
 * size         its name, such as "015"; ends in a zero byte
 * definition   MIXCALC_SIZE_NOMINAL or MIXCALC_SIZE_BY_CUSTOM: one number means two flows, 1.3 % apart; say which one a table was made from
 * out_rated    filled; start it with MIXCALC_RATED_INIT
 * error        may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (size, out_rated), _UNKNOWN_CHOICE (size), _CHOICE (definition), _STRUCT_SIZE (out_rated, error) or _PANIC.
 */
uint32_t mixcalc_rated_flow(const char *size,
                            uint32_t definition,
                            struct mixcalc_rated *out_rated,
                            struct mixcalc_error *error);

/**
 * The standard sizes that give a flow of water at a pressure between two, by the nominal flows of ISO 10625; smallest first.
 *
 * flow_l_per_min      the flow, L/min, above 0
 * lowest_kpa          the lowest pressure, kPa, above 0
 * highest_kpa         the highest, kPa, above 0
 * out_names           receives up to room names, good for good
 * out_pressures_kpa   receives for each the pressure that it takes, kPa
 * room_for            how many fit into both; there are no more than MIXCALC_NOZZLE_SIZES
 * out_count           receives how many there are, also where that is more than fit
 * error               may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_names and out_pressures_kpa unless room_for is 0, out_count), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE,
 * _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_required_sizes(double flow_l_per_min,
                                double lowest_kpa,
                                double highest_kpa,
                                const char **out_names,
                                double *out_pressures_kpa,
                                size_t room_for,
                                size_t *out_count,
                                struct mixcalc_error *error);

/**
 * A nozzle of a known flow of water at a pressure at its tip. Its exponent is that of a fixed orifice, 0.5, until another is stated.
 *
 * flow         of water
 * pressure     at its tip
 * out_nozzle   receives the nozzle; give it back with mixcalc_nozzle_free()
 * error        may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (flow, pressure, out_nozzle), _WRONG_QUANTITY, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_nozzle_new(const struct mixcalc_uncertain *flow,
                            const struct mixcalc_uncertain *pressure,
                            struct mixcalc_nozzle **out_nozzle,
                            struct mixcalc_error *error);

/**
 * A nozzle of a standard size, taken as it stands.
 *
 * size         its name, such as "015"; ends in a zero byte
 * definition   MIXCALC_SIZE_NOMINAL or MIXCALC_SIZE_BY_CUSTOM
 * out_nozzle   receives the nozzle; give it back with mixcalc_nozzle_free()
 * error        may be NULL
 *
 * Returns what mixcalc_rated_flow() returns, and _NULL_POINTER (out_nozzle).
 */
uint32_t mixcalc_nozzle_rated(const char *size,
                              uint32_t definition,
                              struct mixcalc_nozzle **out_nozzle,
                              struct mixcalc_error *error);

/**
 * A nozzle of two measured points. Inputs that both share, such as a jug, cancel in the exponent.
 *
 * first_pressure, first_flow     the first point
 * second_pressure, second_flow   the second, at another pressure
 * out_nozzle                     receives the nozzle; give it back with mixcalc_nozzle_free()
 * error                          may be NULL
 *
 * Returns what mixcalc_nozzle_new() returns, and _NOT_FINITE for two points at one pressure, _DUPLICATE_NAME.
 */
uint32_t mixcalc_nozzle_from_two_points(const struct mixcalc_uncertain *first_pressure,
                                        const struct mixcalc_uncertain *first_flow,
                                        const struct mixcalc_uncertain *second_pressure,
                                        const struct mixcalc_uncertain *second_flow,
                                        struct mixcalc_nozzle **out_nozzle,
                                        struct mixcalc_error *error);

/**
 * A nozzle of three measured points or more: exponent and flow by least squares, with the uncertainty that the scatter shows.
 *
 * name             whose inputs they are; ends in a zero byte
 * pressures_kpa    at the tip, kPa, above 0
 * flows_l_per_min  of water there, L/min, above 0
 * points_count     how many points, 3 or more
 * out_nozzle       receives the nozzle; give it back with mixcalc_nozzle_free()
 * error            may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (name, pressures_kpa, flows_l_per_min, out_nozzle), _LENGTH, _MISSING_INPUT (a blank name), _NOT_FINITE,
 * _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_nozzle_from_points(const char *name,
                                    const double *pressures_kpa,
                                    const double *flows_l_per_min,
                                    size_t points_count,
                                    struct mixcalc_nozzle **out_nozzle,
                                    struct mixcalc_error *error);

/**
 * Gives back a nozzle.
 *
 * nozzle   handed out by this library, not given back before; NULL is allowed and does nothing
 */
void mixcalc_nozzle_free(struct mixcalc_nozzle *nozzle);

/**
 * The same nozzle with an exponent of the pressure.
 *
 * nozzle       the nozzle; it stays as it is
 * exponent     a ratio above 0
 * out_nozzle   receives the nozzle; give it back with mixcalc_nozzle_free()
 * error        may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (an input, out_nozzle), _WRONG_QUANTITY, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_nozzle_with_exponent(const struct mixcalc_nozzle *nozzle,
                                      const struct mixcalc_uncertain *exponent,
                                      struct mixcalc_nozzle **out_nozzle,
                                      struct mixcalc_error *error);

/**
 * The same nozzle with what the pressure loses between gauge and tip.
 *
 * Parameters and result are those of mixcalc_nozzle_with_exponent(), with a pressure of 0 or more.
 */
uint32_t mixcalc_nozzle_with_pressure_loss(const struct mixcalc_nozzle *nozzle,
                                           const struct mixcalc_uncertain *pressure_loss,
                                           struct mixcalc_nozzle **out_nozzle,
                                           struct mixcalc_error *error);

/**
 * The same nozzle for another liquid than water, by mixcalc_density_factor().
 *
 * Parameters and result are those of mixcalc_nozzle_with_exponent().
 */
uint32_t mixcalc_nozzle_with_density_factor(const struct mixcalc_nozzle *nozzle,
                                            const struct mixcalc_uncertain *density_factor,
                                            struct mixcalc_nozzle **out_nozzle,
                                            struct mixcalc_error *error);

/**
 * The same nozzle with the part of the time that a pulsing valve is open.
 *
 * Parameters and result are those of mixcalc_nozzle_with_exponent(), with a ratio of at most 100 %.
 */
uint32_t mixcalc_nozzle_with_duty_cycle(const struct mixcalc_nozzle *nozzle,
                                        const struct mixcalc_uncertain *duty_cycle,
                                        struct mixcalc_nozzle **out_nozzle,
                                        struct mixcalc_error *error);

/**
 * The same nozzle with the pressures at the gauge between which it may be used.
 *
 * nozzle        the nozzle; it stays as it is
 * lowest_kpa    the lowest, kPa, above 0
 * highest_kpa   the highest, kPa, not under the lowest
 * source        where that is written; ends in a zero byte
 * out_nozzle    receives the nozzle; give it back with mixcalc_nozzle_free()
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (nozzle, source, out_nozzle), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_nozzle_with_pressure_range(const struct mixcalc_nozzle *nozzle,
                                            double lowest_kpa,
                                            double highest_kpa,
                                            const char *source,
                                            struct mixcalc_nozzle **out_nozzle,
                                            struct mixcalc_error *error);

/**
 * The end of its pressure range that a pressure at the gauge is beyond.
 *
 * nozzle          the nozzle
 * pressure_kpa    at the gauge, kPa
 * out_bound       receives MIXCALC_BOUND_AT_LEAST or _AT_MOST; 0 within the range, or where none was stated
 * out_limit_kpa   receives the end of the range, kPa; 0 likewise
 * error           may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (nozzle, out_bound, out_limit_kpa), _NOT_FINITE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_nozzle_broken_limit(const struct mixcalc_nozzle *nozzle,
                                     double pressure_kpa,
                                     uint32_t *out_bound,
                                     double *out_limit_kpa,
                                     struct mixcalc_error *error);

/**
 * The exponent of the pressure with which the flow of a nozzle goes.
 *
 * nozzle         the nozzle
 * out_exponent   receives the ratio; give it back with mixcalc_uncertain_free()
 * error          may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (nozzle, out_exponent), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_nozzle_exponent(const struct mixcalc_nozzle *nozzle,
                                 struct mixcalc_uncertain **out_exponent,
                                 struct mixcalc_error *error);

/**
 * The flow of a nozzle at a pressure at the gauge.
 *
 * nozzle     the nozzle
 * pressure   at the gauge, above the pressure loss
 * out_flow   receives the flow; give it back with mixcalc_uncertain_free()
 * error      may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (nozzle, pressure, out_flow), _WRONG_QUANTITY, _OUT_OF_RANGE, _DUPLICATE_NAME, _NOT_FINITE, _STRUCT_SIZE
 * (error) or _PANIC.
 */
uint32_t mixcalc_nozzle_flow_at(const struct mixcalc_nozzle *nozzle,
                                const struct mixcalc_uncertain *pressure,
                                struct mixcalc_uncertain **out_flow,
                                struct mixcalc_error *error);

/**
 * The pressure at the gauge that a flow of a nozzle takes.
 *
 * nozzle         the nozzle
 * flow           above 0
 * out_pressure   receives the pressure; give it back with mixcalc_uncertain_free()
 * error          may be NULL
 *
 * Returns what mixcalc_nozzle_flow_at() returns, and _NOT_POSITIVE (flow).
 */
uint32_t mixcalc_nozzle_required_pressure(const struct mixcalc_nozzle *nozzle,
                                          const struct mixcalc_uncertain *flow,
                                          struct mixcalc_uncertain **out_pressure,
                                          struct mixcalc_error *error);

/**
 * How much more a nozzle takes of water than of a denser liquid at one pressure.
 *
 * liquid       density of what is sprayed
 * water        density of water
 * out_factor   receives the ratio; give it back with mixcalc_uncertain_free()
 * error        may be NULL
 *
 * Returns what mixcalc_side_difference() returns.
 */
uint32_t mixcalc_density_factor(const struct mixcalc_uncertain *liquid,
                                const struct mixcalc_uncertain *water,
                                struct mixcalc_uncertain **out_factor,
                                struct mixcalc_error *error);

/**
 * Width of a fan at a height above its target. Real fans bend: it is the most that the geometry gives.
 *
 * fan_angle_degrees   from 1 to 179
 * height_m            above the target, m, 0 or more
 * out_width_m         receives the width, m
 * error               may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_width_m), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_fan_width_m(uint32_t fan_angle_degrees,
                             double height_m,
                             double *out_width_m,
                             struct mixcalc_error *error);

/**
 * Height of the boom above its target at which fans overlap.
 *
 * fan_angle_degrees   from 1 to 179
 * spacing_m           from nozzle to nozzle, m, above 0; or the width of a band
 * overlap_percent     width of the fan less the spacing, in parts of the spacing, %, 0 or more
 * out_height_m        receives the height, m
 * error               may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_height_m), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_boom_height_m(uint32_t fan_angle_degrees,
                               double spacing_m,
                               double overlap_percent,
                               double *out_height_m,
                               struct mixcalc_error *error);

/**
 * Judges the catches of the nozzles of a sprayer against a new nozzle and against their mean.
 *
 * check           what to check against; start it with MIXCALC_NOZZLE_CHECK_INIT
 * catches         what was caught from each nozzle
 * catches_count   how many nozzles, 1 or more
 * out_set         receives what the check says; give it back with mixcalc_checked_free()
 * error           may be NULL
 *
 * Repeats of all nozzles together give one repeatability; where no nozzle has two, it must be stated. Verdicts are made from intervals of 95 %.
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER, _LENGTH, _CHOICE (a side), _MISSING_INPUT, _BOTH_GIVEN (check.rated), _DUPLICATE_NAME, _WRONG_QUANTITY, _NOT_POSITIVE, _NOT_FINITE,
 * _OUT_OF_RANGE, _STRUCT_SIZE (check, error) or _PANIC. The error's path names the field.
 */
uint32_t mixcalc_check_nozzles(const struct mixcalc_nozzle_check *check,
                               const struct mixcalc_catches *catches,
                               size_t catches_count,
                               struct mixcalc_checked **out_set,
                               struct mixcalc_error *error);

/**
 * Gives back what a check said. What was borrowed from it ends with it.
 *
 * set   from mixcalc_check_nozzles(), not given back before, and read by no other thread any more; NULL is allowed and does nothing
 */
void mixcalc_checked_free(struct mixcalc_checked *set);

/**
 * What a check says of the set as a whole.
 *
 * set           the set
 * out_summary   filled; start it with MIXCALC_CHECKED_SET_INIT
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (set, out_summary), _STRUCT_SIZE (out_summary, error) or _PANIC.
 */
uint32_t mixcalc_checked_summary(const struct mixcalc_checked *set,
                                 struct mixcalc_checked_set *out_summary,
                                 struct mixcalc_error *error);

/**
 * What a check says of one nozzle.
 *
 * set          the set
 * index        which nozzle, from 0, in the order of the catches
 * out_nozzle   filled; start it with MIXCALC_CHECKED_NOZZLE_INIT
 * error        may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (set, out_nozzle), _INDEX, _STRUCT_SIZE (out_nozzle, error) or _PANIC.
 */
uint32_t mixcalc_checked_nozzle_at(const struct mixcalc_checked *set,
                                   size_t index,
                                   struct mixcalc_checked_nozzle *out_nozzle,
                                   struct mixcalc_error *error);

/**
 * Plans a job: loads, recipes in whole graduations, steps, ledger and findings.
 *
 * job        the job document, "mixcalc-job/1", as JSON or TOML; its first character that is not blank tells which
 * job_len    length of job in bytes
 * out_plan   receives the plan; give it back with mixcalc_plan_free()
 * error      receives why there is no plan; may be NULL
 *
 * MIXCALC_STATUS_OK means that the question is answered, not that the plan may be carried out: look at the field usable of
 * mixcalc_plan_totals(), or ask for amounts and be refused. The job is read and is not needed afterwards.
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (job, out_plan), _STRUCT_SIZE (error), _LENGTH (job_len), _PANIC, or what is
 * wrong with the job, 100 or above.
 */
uint32_t mixcalc_plan_new(const char *job,
                          size_t job_len,
                          struct mixcalc_plan **out_plan,
                          struct mixcalc_error *error);

/**
 * Gives back a plan. Every text that was borrowed from it ends with it.
 *
 * plan   from mixcalc_plan_new(), not given back before, and read by no other thread any more; NULL is allowed and does nothing
 */
void mixcalc_plan_free(struct mixcalc_plan *plan);

/**
 * The plan document, "mixcalc-plan/1", as JSON: the same bytes here, in Rust and in Python.
 *
 * plan       from mixcalc_plan_new()
 * out_text   receives the document; give it back with mixcalc_string_free()
 * out_len    receives its length in bytes, the zero byte at its end not counted; may be NULL
 * error      may be NULL
 *
 * A plan with a stop has no measured amounts, no steps and no ledger here either.
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_text), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_plan_json(const struct mixcalc_plan *plan,
                           char **out_text,
                           size_t *out_len,
                           struct mixcalc_error *error);

/**
 * The job of a plan as a document, "mixcalc-job/1", as JSON, every quantity in the one unit of its kind.
 *
 * Parameters, result and thread safety are those of mixcalc_plan_json().
 */
uint32_t mixcalc_plan_job_json(const struct mixcalc_plan *plan,
                               char **out_text,
                               size_t *out_len,
                               struct mixcalc_error *error);

/**
 * How every number of a plan was reached, as a JSON list: place, value, formula, inputs, source.
 *
 * Parameters, result and thread safety are those of mixcalc_plan_json().
 */
uint32_t mixcalc_plan_working_json(const struct mixcalc_plan *plan,
                                   char **out_text,
                                   size_t *out_len,
                                   struct mixcalc_error *error);

/**
 * The load sheet as text of at most 80 columns: what to read first, what to measure into each load, and in which steps.
 *
 * Parameters and thread safety are those of mixcalc_plan_json(). Returns what it returns, or MIXCALC_STATUS_PLAN_STOPPED where a
 * stop stands, and error then says which: such a plan has a findings page and no load sheet.
 */
uint32_t mixcalc_plan_sheet(const struct mixcalc_plan *plan,
                            char **out_text,
                            size_t *out_len,
                            struct mixcalc_error *error);

/**
 * The load sheet, and at its end how every number of the plan was reached.
 *
 * Parameters, result and thread safety are those of mixcalc_plan_sheet().
 */
uint32_t mixcalc_plan_sheet_with_working(const struct mixcalc_plan *plan,
                                         char **out_text,
                                         size_t *out_len,
                                         struct mixcalc_error *error);

/**
 * The findings page of any plan as text: no amounts and no steps. That of a stopped plan says first that it must not be mixed.
 *
 * Parameters, result and thread safety are those of mixcalc_plan_json().
 */
uint32_t mixcalc_plan_findings_page(const struct mixcalc_plan *plan,
                                    char **out_text,
                                    size_t *out_len,
                                    struct mixcalc_error *error);

/**
 * A number in another unit, by exact legal factors: to the last digit what Python says, and what a document that holds it says.
 *
 * value       the number
 * unit        its unit, such as "US gal/ac"; ends in a zero byte
 * to_unit     the unit that is asked for, such as "L/ha"; ends in a zero byte
 * out_value   receives the number in to_unit
 * error       may be NULL
 *
 * Unit words are those of documents. One with more than one meaning ("gal", "pt", "oz", "t") is refused with its readings. Both units must
 * measure the same; a dose and a volume rate do, and which of them it is only its place says.
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (unit, to_unit, out_value), _NOT_FINITE, _UNKNOWN_UNIT, _AMBIGUOUS_UNIT,
 * _WRONG_QUANTITY, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_convert(double value,
                         const char *unit,
                         const char *to_unit,
                         double *out_value,
                         struct mixcalc_error *error);

/**
 * Reads text such as "20 US gal/ac", "150 mL/100 L" or "0.25 % v/v" as a kind of quantity, and gives its number in a unit.
 *
 * text        a number with a decimal point, a blank and a unit; ends in a zero byte
 * kind        what it is claimed to be: "volume rate", "liquid dose", "area" and so on, the words of the library for its kinds; NULL
 *             claims nothing
 * unit        the unit that is asked for, such as "L/ha"; ends in a zero byte
 * out_value   receives the number in unit
 * error       may be NULL; its path is empty where it is the text that cannot be read
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (text, unit, out_value), _KIND, _NOT_FINITE, _UNKNOWN_UNIT, _WRONG_QUANTITY,
 * _UNREADABLE_QUANTITY, _AMBIGUOUS_UNIT, _MISSING_UNIT, _DECIMAL_COMMA, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_read_quantity(const char *text,
                               const char *kind,
                               const char *unit,
                               double *out_value,
                               struct mixcalc_error *error);

/**
 * How many repeats bring the half-width of a mean's interval down to a part of the mean.
 *
 * spread_percent      standard deviation of one repeat, as a part of the mean, %, above 0
 * precision_percent   half-width of the interval, as a part of the mean, %, above 0
 * coverage_percent    the probability with which the interval is to hold the true value, %
 * out_repeats         receives how many, 2 or more
 * error               may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_repeats), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_repeats_needed(double spread_percent,
                                double precision_percent,
                                double coverage_percent,
                                uint64_t *out_repeats,
                                struct mixcalc_error *error);

/**
 * Whether a mean of repeats is as precise as wanted.
 *
 * mean                the mean, as mixcalc_uncertain_from_repeats() makes it
 * precision_percent   half-width of its interval, as a part of it, %, above 0
 * coverage_percent    the probability with which the interval is to hold the true value, %
 * out_is_settled      receives 1 where it is, else 0
 * error               may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (mean, out_is_settled), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_is_settled(const struct mixcalc_uncertain *mean,
                            double precision_percent,
                            double coverage_percent,
                            uint32_t *out_is_settled,
                            struct mixcalc_error *error);

/**
 * Tests whether the value farthest from the mean is an outlier.
 *
 * values         repeats of one value, or nozzles of one kind, all in one unit
 * values_count   how many, 2 or more
 * risk_percent   the probability of calling an outlier where there is none, %
 * out_test       filled; start it with MIXCALC_OUTLIER_TEST_INIT
 * error          may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (values, out_test), _LENGTH (values_count), _MISSING_INPUT, _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (out_test,
 * error) or _PANIC.
 */
uint32_t mixcalc_outlier(const double *values,
                         size_t values_count,
                         double risk_percent,
                         struct mixcalc_outlier_test *out_test,
                         struct mixcalc_error *error);

/**
 * How often to measure each of several things, so that a volume rate made of them is known best in the time there is.
 *
 * spreads_percent   standard deviation of one repeat of each, as a part of its mean, %, above 0
 * times_min         what one repeat of each takes, min, above 0
 * efforts_count     how many things, 1 or more
 * available_min     time for all of it, min
 * out_repeats       receives for each how often
 * error             may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (spreads_percent, times_min, out_repeats), _LENGTH (efforts_count), _MISSING_INPUT, _NOT_FINITE, _NOT_POSITIVE,
 * _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_best_repeats(const double *spreads_percent,
                              const double *times_min,
                              size_t efforts_count,
                              double available_min,
                              uint64_t *out_repeats,
                              struct mixcalc_error *error);

/**
 * The line through three flows or more at their hours of use.
 *
 * times_h           hours of use, h, 0 or more
 * flows_l_per_min   flows, all of one pressure and one way to measure, L/min, above 0
 * points_count      how many, 3 or more
 * out_wear          receives the line; give it back with mixcalc_wear_free()
 * error             may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (times_h, flows_l_per_min, out_wear), _LENGTH (points_count), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE,
 * _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_wear_from_flows(const double *times_h,
                                 const double *flows_l_per_min,
                                 size_t points_count,
                                 struct mixcalc_wear **out_wear,
                                 struct mixcalc_error *error);

/**
 * Gives back a line of wear.
 *
 * wear   from mixcalc_wear_from_flows(), not given back before; NULL is allowed and does nothing
 */
void mixcalc_wear_free(struct mixcalc_wear *wear);

/**
 * Flow and wear at a time of use, on the line.
 *
 * wear                 the line
 * time_h               hours of use, h
 * out_flow_l_per_min   receives the flow, L/min
 * out_wear_percent     receives how much more that is than when new, %
 * error                may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (wear, out_flow_l_per_min, out_wear_percent), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_wear_at(const struct mixcalc_wear *wear,
                         double time_h,
                         double *out_flow_l_per_min,
                         double *out_wear_percent,
                         struct mixcalc_error *error);

/**
 * When a flow is reached that counts as worn.
 *
 * wear               the line
 * limit_l_per_min    the flow, L/min, above 0
 * coverage_percent   the probability with which the interval is to hold the time, %
 * out_worn           filled; start it with MIXCALC_WORN_AT_INIT
 * error              may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (wear, out_worn), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (out_worn, error) or _PANIC.
 */
uint32_t mixcalc_wear_reaches(const struct mixcalc_wear *wear,
                              double limit_l_per_min,
                              double coverage_percent,
                              struct mixcalc_worn_at *out_worn,
                              struct mixcalc_error *error);

/**
 * A chart of individuals over values in the order in which they were measured, such as one nozzle's flow at each check.
 *
 * values           the values, all in one unit
 * values_count     how many, 2 or more
 * out_is_outside   receives for each value 1 where it is outside of the limits, else 0; may be NULL
 * out_chart        filled; start it with MIXCALC_CHART_INIT
 * error            may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (values, out_chart), _LENGTH (values_count), _MISSING_INPUT, _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE
 * (out_chart, error) or _PANIC.
 */
uint32_t mixcalc_control_chart(const double *values,
                               size_t values_count,
                               uint8_t *out_is_outside,
                               struct mixcalc_chart *out_chart,
                               struct mixcalc_error *error);

/**
 * What a job document may hold, as JSON Schema 2020-12.
 *
 * The text is the library's and lives as long as the program: do not give it back.
 */
const char *mixcalc_job_schema(void);

/**
 * What a plan document may hold, as JSON Schema 2020-12.
 *
 * The text is the library's and lives as long as the program: do not give it back.
 */
const char *mixcalc_plan_schema(void);

/**
 * Works a model out many times, each time with other values of its inputs, drawn as they are distributed. The same seed gives the same digits on every
 * machine, and those of Rust.
 *
 * trials           a million settles 95 % intervals to two or three digits; from 1000 to ten million
 * seed             any number; another one shows how far the digits have settled
 * model            called once for each trial, in the thread of the caller
 * context          handed to the model as it is; may be NULL
 * unit             the unit of what the model gives; ends in a zero byte
 * out_simulation   receives the results; give them back with mixcalc_simulation_free()
 * error            may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (model, unit, out_simulation), _MODEL (the model ended it; error's given is its status), _OUT_OF_RANGE (trials, or a
 * result), _NOT_FINITE, _UNKNOWN_UNIT, _AMBIGUOUS_UNIT, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_simulate(uint32_t trials,
                          uint64_t seed,
                          mixcalc_model model,
                          void *context,
                          const char *unit,
                          struct mixcalc_simulation **out_simulation,
                          struct mixcalc_error *error);

/**
 * An uncertain value as it is in a trial. Inputs that values share are drawn once.
 *
 * trial       the trial that the model was called with
 * uncertain   the value
 * unit        the unit that is asked for; ends in a zero byte
 * out_value   receives the number in unit
 * error       may be NULL
 *
 * Returns what mixcalc_uncertain_value() returns, _NULL_POINTER (trial), and _DUPLICATE_NAME where one name stands for different inputs.
 */
uint32_t mixcalc_trial_of(struct mixcalc_trial *trial,
                          const struct mixcalc_uncertain *uncertain,
                          const char *unit,
                          double *out_value,
                          struct mixcalc_error *error);

/**
 * Gives back the results of a simulation.
 *
 * simulation   from mixcalc_simulate(), not given back before, and read by no other thread any more; NULL is allowed and does nothing
 */
void mixcalc_simulation_free(struct mixcalc_simulation *simulation);

/**
 * The median of the results.
 *
 * simulation   the results
 * unit         the unit that is asked for; ends in a zero byte
 * out_value    receives the number in unit
 * error        may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (simulation, unit, out_value), _UNKNOWN_UNIT, _AMBIGUOUS_UNIT, _WRONG_QUANTITY, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_simulation_median(const struct mixcalc_simulation *simulation,
                                   const char *unit,
                                   double *out_value,
                                   struct mixcalc_error *error);

/**
 * The mean of the results; NAN where it does not settle, since an input has two degrees of freedom or fewer.
 *
 * Parameters and result are those of mixcalc_simulation_median().
 */
uint32_t mixcalc_simulation_mean(const struct mixcalc_simulation *simulation,
                                 const char *unit,
                                 double *out_value,
                                 struct mixcalc_error *error);

/**
 * The standard deviation of the results; NAN as for mixcalc_simulation_mean().
 *
 * Parameters and result are those of mixcalc_simulation_median().
 */
uint32_t mixcalc_simulation_standard_uncertainty(const struct mixcalc_simulation *simulation,
                                                 const char *unit,
                                                 double *out_value,
                                                 struct mixcalc_error *error);

/**
 * The interval that holds a share of the results, with as many below it as above.
 *
 * simulation         the results
 * coverage_percent   the share, %
 * unit               the unit that is asked for; ends in a zero byte
 * out_low            receives the lower end in unit
 * out_high           receives the upper end in unit
 * error              may be NULL
 *
 * Returns what mixcalc_simulation_median() returns, and _NOT_FINITE, _OUT_OF_RANGE (coverage).
 */
uint32_t mixcalc_simulation_interval(const struct mixcalc_simulation *simulation,
                                     double coverage_percent,
                                     const char *unit,
                                     double *out_low,
                                     double *out_high,
                                     struct mixcalc_error *error);

/**
 * Volume of mix for an area at a volume rate.
 *
 * volume_rate_l_per_ha   volume of mix per ground area, L/ha, 0 or more
 * area_ha                ground to be treated, ha, 0 or more
 * out_mix_l              receives the volume, L
 * error                  may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_mix_l), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_mix_l(double volume_rate_l_per_ha,
                       double area_ha,
                       double *out_mix_l,
                       struct mixcalc_error *error);

/**
 * Ground that a volume of mix serves.
 *
 * mix_l                  finished mix, L, 0 or more
 * volume_rate_l_per_ha   volume of mix per ground area, L/ha, above 0
 * out_area_ha            receives the ground, ha
 * error                  may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_area_ha), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE
 * (error) or _PANIC.
 */
uint32_t mixcalc_area_for_mix_ha(double mix_l,
                                 double volume_rate_l_per_ha,
                                 double *out_area_ha,
                                 struct mixcalc_error *error);

/**
 * Volume of a product for an area, at a dose by volume.
 *
 * liquid_dose_l_per_ha   volume of product per ground area, L/ha, 0 or more
 * area_ha                ground to be treated, ha, 0 or more
 * out_amount_l           receives the volume of product, L
 * error                  may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_amount_l), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or
 * _PANIC.
 */
uint32_t mixcalc_liquid_amount_l(double liquid_dose_l_per_ha,
                                 double area_ha,
                                 double *out_amount_l,
                                 struct mixcalc_error *error);

/**
 * Mass of a product for an area, at a dose by mass.
 *
 * solid_dose_kg_per_ha   mass of product per ground area, kg/ha, 0 or more
 * area_ha                ground to be treated, ha, 0 or more
 * out_amount_kg          receives the mass of product, kg
 * error                  may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_amount_kg), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or
 * _PANIC.
 */
uint32_t mixcalc_solid_amount_kg(double solid_dose_kg_per_ha,
                                 double area_ha,
                                 double *out_amount_kg,
                                 struct mixcalc_error *error);

/**
 * Volume of a product in a volume of mix, at a dose per volume of finished mix.
 *
 * volume_fraction_ml_per_100_l   product per finished mix, mL/100 L, 0 or more
 * mix_l                          finished mix, the product inside, L, 0 or more
 * out_amount_l                   receives the volume of product, L
 * error                          may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_amount_l), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or
 * _PANIC.
 */
uint32_t mixcalc_liquid_amount_in_mix_l(double volume_fraction_ml_per_100_l,
                                        double mix_l,
                                        double *out_amount_l,
                                        struct mixcalc_error *error);

/**
 * Mass of a product in a volume of mix, at a dose per volume of finished mix.
 *
 * mass_concentration_g_per_100_l   product per finished mix, g/100 L, 0 or more
 * mix_l                            finished mix, the product inside, L, 0 or more
 * out_amount_kg                    receives the mass of product, kg
 * error                            may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_amount_kg), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or
 * _PANIC.
 */
uint32_t mixcalc_solid_amount_in_mix_kg(double mass_concentration_g_per_100_l,
                                        double mix_l,
                                        double *out_amount_kg,
                                        struct mixcalc_error *error);

/**
 * Dose by volume per ground area that a dose per volume of mix comes to.
 *
 * volume_fraction_ml_per_100_l   product per finished mix, mL/100 L, 0 or more
 * volume_rate_l_per_ha           volume of mix per ground area, L/ha, 0 or more
 * out_liquid_dose_l_per_ha       receives the dose, L/ha
 * error                          may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_liquid_dose_l_per_ha), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE
 * (error) or _PANIC.
 */
uint32_t mixcalc_liquid_dose_l_per_ha(double volume_fraction_ml_per_100_l,
                                      double volume_rate_l_per_ha,
                                      double *out_liquid_dose_l_per_ha,
                                      struct mixcalc_error *error);

/**
 * Dose by mass per ground area that a dose per volume of mix comes to.
 *
 * mass_concentration_g_per_100_l   product per finished mix, g/100 L, 0 or more
 * volume_rate_l_per_ha             volume of mix per ground area, L/ha, 0 or more
 * out_solid_dose_kg_per_ha         receives the dose, kg/ha
 * error                            may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_solid_dose_kg_per_ha), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE
 * (error) or _PANIC.
 */
uint32_t mixcalc_solid_dose_kg_per_ha(double mass_concentration_g_per_100_l,
                                      double volume_rate_l_per_ha,
                                      double *out_solid_dose_kg_per_ha,
                                      struct mixcalc_error *error);

/**
 * Volume of a product per volume of mix, at a dose by volume.
 *
 * liquid_dose_l_per_ha               volume of product per ground area, L/ha, 0 or more
 * volume_rate_l_per_ha               volume of mix per ground area, L/ha, above 0
 * out_volume_fraction_ml_per_100_l   receives product per finished mix, mL/100 L
 * error                              may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_volume_fraction_ml_per_100_l), _NOT_FINITE, _NOT_POSITIVE,
 * _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_volume_fraction_ml_per_100_l(double liquid_dose_l_per_ha,
                                              double volume_rate_l_per_ha,
                                              double *out_volume_fraction_ml_per_100_l,
                                              struct mixcalc_error *error);

/**
 * Mass of a product per volume of mix, at a dose by mass.
 *
 * solid_dose_kg_per_ha                 mass of product per ground area, kg/ha, 0 or more
 * volume_rate_l_per_ha                 volume of mix per ground area, L/ha, above 0
 * out_mass_concentration_g_per_100_l   receives product per finished mix, g/100 L
 * error                                may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_mass_concentration_g_per_100_l), _NOT_FINITE, _NOT_POSITIVE,
 * _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_mass_concentration_g_per_100_l(double solid_dose_kg_per_ha,
                                                double volume_rate_l_per_ha,
                                                double *out_mass_concentration_g_per_100_l,
                                                struct mixcalc_error *error);

/**
 * Active substance per ground area in a dose by volume.
 *
 * content_g_per_l           active substance per volume of product, g/L, 0 or more
 * liquid_dose_l_per_ha      volume of product per ground area, L/ha, 0 or more
 * out_substance_kg_per_ha   receives the mass of active substance per ground area, kg/ha
 * error                     may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_substance_kg_per_ha), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE
 * (error) or _PANIC.
 */
uint32_t mixcalc_substance_in_liquid_dose_kg_per_ha(double content_g_per_l,
                                                    double liquid_dose_l_per_ha,
                                                    double *out_substance_kg_per_ha,
                                                    struct mixcalc_error *error);

/**
 * Active substance per ground area in a dose by mass.
 *
 * content_g_per_kg          active substance per mass of product, g/kg, 0 or more
 * solid_dose_kg_per_ha      mass of product per ground area, kg/ha, 0 or more
 * out_substance_kg_per_ha   receives the mass of active substance per ground area, kg/ha
 * error                     may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_substance_kg_per_ha), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE
 * (error) or _PANIC.
 */
uint32_t mixcalc_substance_in_solid_dose_kg_per_ha(double content_g_per_kg,
                                                   double solid_dose_kg_per_ha,
                                                   double *out_substance_kg_per_ha,
                                                   struct mixcalc_error *error);

/**
 * Dose by volume of a product that brings so much active substance.
 *
 * content_g_per_l           active substance per volume of product, g/L, above 0
 * substance_kg_per_ha       mass of active substance per ground area, kg/ha, 0 or more
 * out_liquid_dose_l_per_ha  receives the volume of product per ground area, L/ha
 * error                     may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_liquid_dose_l_per_ha), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or
 * _PANIC.
 */
uint32_t mixcalc_liquid_dose_of_substance_l_per_ha(double content_g_per_l,
                                                   double substance_kg_per_ha,
                                                   double *out_liquid_dose_l_per_ha,
                                                   struct mixcalc_error *error);

/**
 * Dose by mass of a product that brings so much active substance.
 *
 * content_g_per_kg          active substance per mass of product, g/kg, above 0
 * substance_kg_per_ha       mass of active substance per ground area, kg/ha, 0 or more
 * out_solid_dose_kg_per_ha  receives the mass of product per ground area, kg/ha
 * error                     may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_solid_dose_kg_per_ha), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or
 * _PANIC.
 */
uint32_t mixcalc_solid_dose_of_substance_kg_per_ha(double content_g_per_kg,
                                                   double substance_kg_per_ha,
                                                   double *out_solid_dose_kg_per_ha,
                                                   struct mixcalc_error *error);

/**
 * Mass of a volume of a liquid product.
 *
 * density_kg_per_l   of the liquid, kg/L, above 0
 * volume_l           of the liquid, L, 0 or more
 * out_mass_kg        receives the mass, kg
 * error              may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_mass_kg), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE
 * (error) or _PANIC.
 */
uint32_t mixcalc_liquid_mass_kg(double density_kg_per_l,
                                double volume_l,
                                double *out_mass_kg,
                                struct mixcalc_error *error);

/**
 * Volume of a mass of a liquid product.
 *
 * mass_kg            of the liquid, kg, 0 or more
 * density_kg_per_l   of the liquid, kg/L, above 0
 * out_volume_l       receives the volume, L
 * error              may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_volume_l), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE
 * (error) or _PANIC.
 */
uint32_t mixcalc_liquid_volume_l(double mass_kg,
                                 double density_kg_per_l,
                                 double *out_volume_l,
                                 struct mixcalc_error *error);

/**
 * Volume rate from flow, speed and swath.
 *
 * flow_l_per_min             of all open nozzles together, L/min, 0 or more
 * speed_km_per_h             over the ground, km/h, above 0
 * swath_m                    treated width per pass, m, above 0
 * out_volume_rate_l_per_ha   receives the volume rate, L/ha
 * error                      may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_volume_rate_l_per_ha), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE,
 * _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_volume_rate_l_per_ha(double flow_l_per_min,
                                      double speed_km_per_h,
                                      double swath_m,
                                      double *out_volume_rate_l_per_ha,
                                      struct mixcalc_error *error);

/**
 * Flow of all open nozzles that a volume rate takes.
 *
 * volume_rate_l_per_ha   volume of mix per ground area, L/ha, 0 or more
 * speed_km_per_h         over the ground, km/h, 0 or more
 * swath_m                treated width per pass, m, 0 or more
 * out_flow_l_per_min     receives the flow, L/min
 * error                  may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_flow_l_per_min), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or
 * _PANIC.
 */
uint32_t mixcalc_required_flow_l_per_min(double volume_rate_l_per_ha,
                                         double speed_km_per_h,
                                         double swath_m,
                                         double *out_flow_l_per_min,
                                         struct mixcalc_error *error);

/**
 * Speed at which a flow gives a volume rate.
 *
 * flow_l_per_min         of all open nozzles together, L/min, 0 or more
 * volume_rate_l_per_ha   volume of mix per ground area, L/ha, above 0
 * swath_m                treated width per pass, m, above 0
 * out_speed_km_per_h     receives the speed over the ground, km/h
 * error                  may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_speed_km_per_h), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE,
 * _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_required_speed_km_per_h(double flow_l_per_min,
                                         double volume_rate_l_per_ha,
                                         double swath_m,
                                         double *out_speed_km_per_h,
                                         struct mixcalc_error *error);

/**
 * Swath over which a flow gives a volume rate at a speed.
 *
 * flow_l_per_min         of all open nozzles together, L/min, 0 or more
 * volume_rate_l_per_ha   volume of mix per ground area, L/ha, above 0
 * speed_km_per_h         over the ground, km/h, above 0
 * out_swath_m            receives the treated width per pass, m
 * error                  may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_swath_m), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE
 * (error) or _PANIC.
 */
uint32_t mixcalc_required_swath_m(double flow_l_per_min,
                                  double volume_rate_l_per_ha,
                                  double speed_km_per_h,
                                  double *out_swath_m,
                                  struct mixcalc_error *error);

/**
 * Ground treated in a time; turning and filling are not in it.
 *
 * speed_km_per_h           over the ground, km/h, 0 or more
 * swath_m                  treated width per pass, m, 0 or more
 * out_work_rate_ha_per_h   receives the work rate, ha/h
 * error                    may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_work_rate_ha_per_h), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE
 * (error) or _PANIC.
 */
uint32_t mixcalc_work_rate_ha_per_h(double speed_km_per_h,
                                    double swath_m,
                                    double *out_work_rate_ha_per_h,
                                    struct mixcalc_error *error);

/**
 * Time that the nozzles are open over an area; turning and filling are not in it.
 *
 * area_ha              ground to be treated, ha, 0 or more
 * work_rate_ha_per_h   ground treated in a time, ha/h, above 0
 * out_time_s           receives the time, s
 * error                may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_time_s), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE
 * (error) or _PANIC.
 */
uint32_t mixcalc_spraying_time_s(double area_ha,
                                 double work_rate_ha_per_h,
                                 double *out_time_s,
                                 struct mixcalc_error *error);

/**
 * Flow from a volume that was caught in a time.
 *
 * volume_l             caught, L, 0 or more
 * time_s               for which it was caught, s, above 0
 * out_flow_l_per_min   receives the flow, L/min
 * error                may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_flow_l_per_min), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE,
 * _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_flow_l_per_min(double volume_l,
                                double time_s,
                                double *out_flow_l_per_min,
                                struct mixcalc_error *error);

/**
 * Speed from a distance that was covered in a time.
 *
 * distance_m           covered over the ground, m, 0 or more
 * time_s               that it took, s, above 0
 * out_speed_km_per_h   receives the speed, km/h
 * error                may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_speed_km_per_h), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE,
 * _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_speed_km_per_h(double distance_m,
                                double time_s,
                                double *out_speed_km_per_h,
                                struct mixcalc_error *error);

/**
 * Full loads, and the part load after them, of a volume of mix.
 *
 * mix_l             finished mix, L, above 0
 * safe_fill_l       the most that the tank may be filled to, L, above 0
 * out_full_loads    receives how many loads are filled to the safe fill
 * out_part_load_l   receives the volume of the load after them, L; 0 where there is none
 * error             may be NULL
 *
 * A volume that is a whole number of loads but for rounding has no part load. Marks of the tank and a least working volume are what
 * plans have.
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_full_loads, out_part_load_l), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE,
 * _TOO_MANY_LOADS, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_full_and_part_load(double mix_l,
                                    double safe_fill_l,
                                    uint64_t *out_full_loads,
                                    double *out_part_load_l,
                                    struct mixcalc_error *error);

/**
 * The most that a tank may be filled to: the lesser of nominal and of what the headspace leaves of the brim; of nominal where the brim
 * is not known; then down to a mark.
 *
 * nominal_l           the filling that the maker declares, L; 0 where it is not known
 * brim_l              what the tank holds when full to the rim, L; 0 where it is not known; one of the two must be
 * headspace_percent   part to be left empty, %, from 0 to under 100; a plan takes 10 for carried sprayers and 5 for machines where
 *                     its job does not say
 * graduation_l        the step of the tank's own marks, L; 0 for a tank without
 * out_safe_fill_l     receives the safe fill, L
 * error               may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_safe_fill_l), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _MISSING_INPUT (neither
 * nominal nor brim), _BELOW_FIRST_MARK, _UNCOUNTABLE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_safe_fill_l(double nominal_l,
                             double brim_l,
                             double headspace_percent,
                             double graduation_l,
                             double *out_safe_fill_l,
                             struct mixcalc_error *error);

/**
 * Whole graduations nearest to a volume, a half going down, and never over the maximum.
 *
 * amount_l          what the dose asks for, L, above 0
 * graduation_l      the smallest step that the measure shows, L, above 0
 * maximum_l         the most that the label allows, L; the amount itself where it allows no more
 * out_graduations   receives how many graduations to measure
 * error             may be NULL
 *
 * An amount below one graduation cannot be measured and is out of range, as is one over the maximum.
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_graduations), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _UNCOUNTABLE,
 * _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_graduations_of_volume(double amount_l,
                                       double graduation_l,
                                       double maximum_l,
                                       uint64_t *out_graduations,
                                       struct mixcalc_error *error);

/**
 * Whole graduations nearest to a mass, a half going down, and never over the maximum.
 *
 * amount_kg         what the dose asks for, kg, above 0
 * graduation_kg     the smallest step that the scale shows, kg, above 0
 * maximum_kg        the most that the label allows, kg; the amount itself where it allows no more
 * out_graduations   receives how many graduations to measure
 * error             may be NULL
 *
 * What is refused, and the result, are those of mixcalc_graduations_of_volume().
 */
uint32_t mixcalc_graduations_of_mass(double amount_kg,
                                     double graduation_kg,
                                     double maximum_kg,
                                     uint64_t *out_graduations,
                                     struct mixcalc_error *error);

/**
 * Gives back a text that a function of this library handed out.
 *
 * text   from this library, not changed and not given back before; NULL is allowed and does nothing
 */
void mixcalc_string_free(char *text);

/**
 * A value that is taken as it stands.
 *
 * value           the number
 * unit            its unit, such as "US gal/ac"; "1" or "%" for a ratio; ends in a zero byte
 * out_uncertain   receives the value; give it back with mixcalc_uncertain_free()
 * error           may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (unit, out_uncertain), _NOT_FINITE, _UNKNOWN_UNIT, _AMBIGUOUS_UNIT, _OUT_OF_RANGE, _WRONG_QUANTITY (a
 * temperature), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_uncertain_exact(double value,
                                 const char *unit,
                                 struct mixcalc_uncertain **out_uncertain,
                                 struct mixcalc_error *error);

/**
 * A value with a standard uncertainty, such as a certificate states it.
 *
 * name                   of the input; ends in a zero byte
 * value                  the number
 * standard_uncertainty   its standard uncertainty, in the same unit, 0 or more
 * degrees_of_freedom     how well that is known, 1 or more; INFINITY where it is taken as certain
 * unit                   the unit of both; ends in a zero byte
 * out_uncertain          receives the value; give it back with mixcalc_uncertain_free()
 * error                  may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (name, unit, out_uncertain), _NOT_FINITE, _UNKNOWN_UNIT, _AMBIGUOUS_UNIT, _MISSING_INPUT (a blank name),
 * _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_uncertain_from_standard_uncertainty(const char *name,
                                                     double value,
                                                     double standard_uncertainty,
                                                     double degrees_of_freedom,
                                                     const char *unit,
                                                     struct mixcalc_uncertain **out_uncertain,
                                                     struct mixcalc_error *error);

/**
 * The mean of two or more repeats of one value, with the standard uncertainty that their spread shows.
 *
 * name            of the input; ends in a zero byte
 * repeats         the numbers
 * repeats_count   how many
 * unit            the unit of all; ends in a zero byte
 * out_uncertain   receives the mean; give it back with mixcalc_uncertain_free()
 * error           may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (name, repeats, unit, out_uncertain), _LENGTH (repeats_count), _MISSING_INPUT (a blank name, fewer than two
 * repeats), _NOT_FINITE, _UNKNOWN_UNIT, _AMBIGUOUS_UNIT, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_uncertain_from_repeats(const char *name,
                                        const double *repeats,
                                        size_t repeats_count,
                                        const char *unit,
                                        struct mixcalc_uncertain **out_uncertain,
                                        struct mixcalc_error *error);

/**
 * A value that may be off by a tolerance to either side, anywhere within it alike.
 *
 * name            of the input; ends in a zero byte
 * value           the number
 * half_width      the most that it is off, in the same unit, 0 or more
 * unit            the unit of both; ends in a zero byte
 * out_uncertain   receives the value; give it back with mixcalc_uncertain_free()
 * error           may be NULL
 *
 * Returns what mixcalc_uncertain_from_standard_uncertainty() returns.
 */
uint32_t mixcalc_uncertain_from_tolerance(const char *name,
                                          double value,
                                          double half_width,
                                          const char *unit,
                                          struct mixcalc_uncertain **out_uncertain,
                                          struct mixcalc_error *error);

/**
 * A value that was read from a display or a scale: off by half of a step to either side.
 *
 * name            of the input; ends in a zero byte
 * value           the number
 * resolution      the step, in the same unit, 0 or more
 * unit            the unit of both; ends in a zero byte
 * out_uncertain   receives the value; give it back with mixcalc_uncertain_free()
 * error           may be NULL
 *
 * Returns what mixcalc_uncertain_from_standard_uncertainty() returns.
 */
uint32_t mixcalc_uncertain_from_resolution(const char *name,
                                           double value,
                                           double resolution,
                                           const char *unit,
                                           struct mixcalc_uncertain **out_uncertain,
                                           struct mixcalc_error *error);

/**
 * A value with an expanded uncertainty, as most certificates state it.
 *
 * name                   of the input; ends in a zero byte
 * value                  the number
 * expanded_uncertainty   half the width of its interval, in the same unit, 0 or more
 * coverage_factor        how many standard uncertainties that is, above 0; mostly 2
 * degrees_of_freedom     how well that is known, 1 or more; INFINITY where it is taken as certain
 * unit                   the unit of both; ends in a zero byte
 * out_uncertain          receives the value; give it back with mixcalc_uncertain_free()
 * error                  may be NULL
 *
 * Returns what mixcalc_uncertain_from_standard_uncertainty() returns, and _NOT_POSITIVE (coverage_factor).
 */
uint32_t mixcalc_uncertain_from_expanded_uncertainty(const char *name,
                                                     double value,
                                                     double expanded_uncertainty,
                                                     double coverage_factor,
                                                     double degrees_of_freedom,
                                                     const char *unit,
                                                     struct mixcalc_uncertain **out_uncertain,
                                                     struct mixcalc_error *error);

/**
 * The same value once more, with a life of its own.
 *
 * uncertain       the value
 * out_uncertain   receives the copy; give it back with mixcalc_uncertain_free()
 * error           may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (uncertain, out_uncertain), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_uncertain_clone(const struct mixcalc_uncertain *uncertain,
                                 struct mixcalc_uncertain **out_uncertain,
                                 struct mixcalc_error *error);

/**
 * Gives back an uncertain value. Every name that was borrowed from it ends with it.
 *
 * uncertain   handed out by this library, not lent by another handle, not given back before, and read by no other thread any more; NULL is allowed and
 *             does nothing
 */
void mixcalc_uncertain_free(struct mixcalc_uncertain *uncertain);

/**
 * Claims a value as of a kind: a volume per area as a volume rate, say.
 *
 * uncertain       the value
 * kind            "volume rate", "liquid dose", "area" and so on, the words of the library for its kinds; ends in a zero byte
 * out_uncertain   receives the value; give it back with mixcalc_uncertain_free()
 * error           may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (uncertain, kind, out_uncertain), _KIND, _WRONG_QUANTITY, _AMBIGUOUS_UNIT, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_uncertain_claim(const struct mixcalc_uncertain *uncertain,
                                 const char *kind,
                                 struct mixcalc_uncertain **out_uncertain,
                                 struct mixcalc_error *error);

/**
 * The sum of two values.
 *
 * a, b            the values, of one kind
 * out_uncertain   receives the sum; give it back with mixcalc_uncertain_free()
 * error           may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (a, b, out_uncertain), _UNLIKE_QUANTITIES, _DUPLICATE_NAME (one name for different inputs),
 * _OUT_OF_RANGE, _NOT_FINITE, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_uncertain_plus(const struct mixcalc_uncertain *a,
                                const struct mixcalc_uncertain *b,
                                struct mixcalc_uncertain **out_uncertain,
                                struct mixcalc_error *error);

/**
 * The difference of two values; of a value and itself, exactly nothing.
 *
 * Parameters and result are those of mixcalc_uncertain_plus().
 */
uint32_t mixcalc_uncertain_minus(const struct mixcalc_uncertain *a,
                                 const struct mixcalc_uncertain *b,
                                 struct mixcalc_uncertain **out_uncertain,
                                 struct mixcalc_error *error);

/**
 * The product of two values, of the kind that the identities of quantities give it.
 *
 * Parameters and result are those of mixcalc_uncertain_plus(); the values may be of any kinds.
 */
uint32_t mixcalc_uncertain_times(const struct mixcalc_uncertain *a,
                                 const struct mixcalc_uncertain *b,
                                 struct mixcalc_uncertain **out_uncertain,
                                 struct mixcalc_error *error);

/**
 * The quotient of two values, a over b, of the kind that the identities of quantities give it.
 *
 * Parameters and result are those of mixcalc_uncertain_times(), and _NOT_FINITE where b is zero.
 */
uint32_t mixcalc_uncertain_over(const struct mixcalc_uncertain *a,
                                const struct mixcalc_uncertain *b,
                                struct mixcalc_uncertain **out_uncertain,
                                struct mixcalc_error *error);

/**
 * A ratio to a power, which may be uncertain itself.
 *
 * ratio           above 0
 * exponent        a ratio
 * out_uncertain   receives the power; give it back with mixcalc_uncertain_free()
 * error           may be NULL
 *
 * Returns what mixcalc_uncertain_plus() returns, and _WRONG_QUANTITY, _NOT_POSITIVE (ratio).
 */
uint32_t mixcalc_uncertain_power(const struct mixcalc_uncertain *ratio,
                                 const struct mixcalc_uncertain *exponent,
                                 struct mixcalc_uncertain **out_uncertain,
                                 struct mixcalc_error *error);

/**
 * The natural logarithm of a ratio.
 *
 * ratio           above 0
 * out_uncertain   receives the logarithm; give it back with mixcalc_uncertain_free()
 * error           may be NULL
 *
 * Returns what mixcalc_uncertain_power() returns.
 */
uint32_t mixcalc_uncertain_logarithm(const struct mixcalc_uncertain *ratio,
                                     struct mixcalc_uncertain **out_uncertain,
                                     struct mixcalc_error *error);

/**
 * The sum of any number of values; their order changes no digit.
 *
 * values          the values, of one kind
 * values_count    how many, 1 or more
 * out_uncertain   receives the sum; give it back with mixcalc_uncertain_free()
 * error           may be NULL
 *
 * Returns what mixcalc_uncertain_plus() returns, and _LENGTH (values_count), _MISSING_INPUT (no values).
 */
uint32_t mixcalc_uncertain_sum(const struct mixcalc_uncertain *const *values,
                               size_t values_count,
                               struct mixcalc_uncertain **out_uncertain,
                               struct mixcalc_error *error);

/**
 * The mean of different values, such as the flows of the nozzles on a boom. For repeats of one value: mixcalc_uncertain_from_repeats().
 *
 * Parameters and result are those of mixcalc_uncertain_sum().
 */
uint32_t mixcalc_uncertain_mean(const struct mixcalc_uncertain *const *values,
                                size_t values_count,
                                struct mixcalc_uncertain **out_uncertain,
                                struct mixcalc_error *error);

/**
 * The harmonic mean of different values: of speeds over courses of equal length the speed that counts.
 *
 * Parameters and result are those of mixcalc_uncertain_sum(), and _NOT_POSITIVE for a value that is not above 0.
 */
uint32_t mixcalc_uncertain_harmonic_mean(const struct mixcalc_uncertain *const *values,
                                         size_t values_count,
                                         struct mixcalc_uncertain **out_uncertain,
                                         struct mixcalc_error *error);

/**
 * The value itself.
 *
 * uncertain   the value
 * unit        the unit that is asked for; ends in a zero byte
 * out_value   receives the number in unit
 * error       may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (uncertain, unit, out_value), _UNKNOWN_UNIT, _AMBIGUOUS_UNIT, _WRONG_QUANTITY, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_uncertain_value(const struct mixcalc_uncertain *uncertain,
                                 const char *unit,
                                 double *out_value,
                                 struct mixcalc_error *error);

/**
 * Its standard uncertainty.
 *
 * Parameters and result are those of mixcalc_uncertain_value().
 */
uint32_t mixcalc_uncertain_standard_uncertainty(const struct mixcalc_uncertain *uncertain,
                                                const char *unit,
                                                double *out_value,
                                                struct mixcalc_error *error);

/**
 * How well its standard uncertainty is known: the effective degrees of freedom.
 *
 * uncertain                the value
 * out_degrees_of_freedom   receives how many; INFINITY where there is no end of them
 * error                    may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (uncertain, out_degrees_of_freedom), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_uncertain_degrees_of_freedom(const struct mixcalc_uncertain *uncertain,
                                              double *out_degrees_of_freedom,
                                              struct mixcalc_error *error);

/**
 * How many standard uncertainties reach from the value to the end of its interval.
 *
 * uncertain             the value
 * coverage_percent      the probability with which the interval is to hold the true value, %, above 0 and at most 99.9999
 * out_coverage_factor   receives the factor
 * error                 may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (uncertain, out_coverage_factor), _NOT_FINITE, _OUT_OF_RANGE (coverage), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_uncertain_coverage_factor(const struct mixcalc_uncertain *uncertain,
                                           double coverage_percent,
                                           double *out_coverage_factor,
                                           struct mixcalc_error *error);

/**
 * Half the width of its interval.
 *
 * uncertain          the value
 * coverage_percent   the probability with which the interval is to hold the true value, %, above 0 and at most 99.9999
 * unit               the unit that is asked for; ends in a zero byte
 * out_value          receives the number in unit
 * error              may be NULL
 *
 * Returns what mixcalc_uncertain_value() returns, and _NOT_FINITE, _OUT_OF_RANGE (coverage).
 */
uint32_t mixcalc_uncertain_expanded_uncertainty(const struct mixcalc_uncertain *uncertain,
                                                double coverage_percent,
                                                const char *unit,
                                                double *out_value,
                                                struct mixcalc_error *error);

/**
 * From where to where it lies.
 *
 * uncertain          the value
 * coverage_percent   the probability with which the interval is to hold the true value, %, above 0 and at most 99.9999
 * unit               the unit that is asked for; ends in a zero byte
 * out_low            receives the lower end in unit
 * out_high           receives the upper end in unit
 * error              may be NULL
 *
 * Returns what mixcalc_uncertain_expanded_uncertainty() returns.
 */
uint32_t mixcalc_uncertain_interval(const struct mixcalc_uncertain *uncertain,
                                    double coverage_percent,
                                    const char *unit,
                                    double *out_low,
                                    double *out_high,
                                    struct mixcalc_error *error);

/**
 * How many inputs contribute to its uncertainty.
 *
 * uncertain   the value
 * out_count   receives how many
 * error       may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (uncertain, out_count), _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_uncertain_contributions(const struct mixcalc_uncertain *uncertain,
                                         size_t *out_count,
                                         struct mixcalc_error *error);

/**
 * What one input contributes, the largest first.
 *
 * uncertain          the value
 * index              which, from 0
 * unit               the unit that its standard uncertainty is asked for in; ends in a zero byte
 * out_contribution   filled; start it with MIXCALC_CONTRIBUTION_INIT
 * error              may be NULL
 *
 * Returns what mixcalc_uncertain_value() returns, and _INDEX, _STRUCT_SIZE (out_contribution).
 */
uint32_t mixcalc_uncertain_contribution(const struct mixcalc_uncertain *uncertain,
                                        size_t index,
                                        const char *unit,
                                        struct mixcalc_contribution *out_contribution,
                                        struct mixcalc_error *error);

/**
 * The probability that the true value is over a limit.
 *
 * uncertain                 the value
 * limit                     the limit, of the kind of the value
 * unit                      its unit; ends in a zero byte
 * out_probability_percent   receives the probability, %
 * error                     may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (uncertain, unit, out_probability_percent), _NOT_FINITE, _UNKNOWN_UNIT, _AMBIGUOUS_UNIT, _WRONG_QUANTITY,
 * _UNLIKE_QUANTITIES, _STRUCT_SIZE (error) or _PANIC.
 */
uint32_t mixcalc_uncertain_probability_over_percent(const struct mixcalc_uncertain *uncertain,
                                                    double limit,
                                                    const char *unit,
                                                    double *out_probability_percent,
                                                    struct mixcalc_error *error);

/**
 * On which side of a limit its interval is.
 *
 * uncertain          the value
 * limit              the limit, of the kind of the value
 * unit               its unit; ends in a zero byte
 * coverage_percent   the probability with which the interval is to hold the true value, %, above 0 and at most 99.9999
 * out_side           receives MIXCALC_SIDE_UNDER, _OVER or _CANNOT_TELL
 * error              may be NULL
 *
 * Returns what mixcalc_uncertain_probability_over_percent() returns, and _OUT_OF_RANGE (coverage).
 */
uint32_t mixcalc_uncertain_side_of(const struct mixcalc_uncertain *uncertain,
                                   double limit,
                                   const char *unit,
                                   double coverage_percent,
                                   uint32_t *out_side,
                                   struct mixcalc_error *error);

/**
 * What to aim at, so that the true value is over a limit with no more than a chosen probability. It is never over the limit, and does not allow what the
 * label forbids.
 *
 * uncertain      the value, above 0
 * limit          the most that is allowed, of the kind of the value, above 0
 * unit           its unit; ends in a zero byte
 * risk_percent   the probability of being over the limit that is accepted, %, above 0 and under 50
 * out_aim        receives the aim in unit
 * error          may be NULL
 *
 * Returns what mixcalc_uncertain_probability_over_percent() returns, and _NOT_POSITIVE, _OUT_OF_RANGE (risk).
 */
uint32_t mixcalc_uncertain_aim_under(const struct mixcalc_uncertain *uncertain,
                                     double limit,
                                     const char *unit,
                                     double risk_percent,
                                     double *out_aim,
                                     struct mixcalc_error *error);

/**
 * Version of the library that the program runs with, such as "0.1.0"; MIXCALC_VERSION is the one it was built with.
 *
 * The text is the library's and lives as long as the program: do not give it back.
 */
const char *mixcalc_version(void);

/**
 * MIXCALC_ABI_VERSION of the library that the program runs with.
 */
uint32_t mixcalc_abi_version(void);

/**
 * The plan as a whole: whether it is usable, its totals, and how many there are of everything.
 *
 * plan         from mixcalc_plan_new()
 * out_totals   starts as MIXCALC_TOTALS_INIT and receives the totals
 * error        may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_totals), _STRUCT_SIZE (out_totals, error) or _PANIC.
 */
uint32_t mixcalc_plan_totals(const struct mixcalc_plan *plan,
                             struct mixcalc_totals *out_totals,
                             struct mixcalc_error *error);

/**
 * Equal loads that follow each other, in the order in which they are filled.
 *
 * plan       from mixcalc_plan_new()
 * load       index of the entry: from 0, under the field load_entries of mixcalc_plan_totals()
 * out_load   starts as MIXCALC_LOAD_INIT and receives the load
 * error      may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_load), _STRUCT_SIZE (out_load, error), _INDEX (load) or _PANIC.
 */
uint32_t mixcalc_plan_load(const struct mixcalc_plan *plan,
                           size_t load,
                           struct mixcalc_load *out_load,
                           struct mixcalc_error *error);

/**
 * Name of a product, in the order of the job.
 *
 * plan       from mixcalc_plan_new()
 * product    index of the product: from 0, under the field products of mixcalc_plan_totals()
 * out_name   receives the name, borrowed from the plan
 * error      may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_name), _STRUCT_SIZE (error), _INDEX (product) or _PANIC.
 */
uint32_t mixcalc_plan_product_name(const struct mixcalc_plan *plan,
                                   size_t product,
                                   const char **out_name,
                                   struct mixcalc_error *error);

/**
 * What the dose of a product asks for in each of some equal loads, before anything is measured. A stopped plan has it too, to be
 * studied and not to be measured.
 *
 * plan         from mixcalc_plan_new()
 * load         index of the load, as in mixcalc_plan_load()
 * product      index of the product, as in mixcalc_plan_product_name()
 * out_amount   receives the amount
 * error        may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_amount), _STRUCT_SIZE (error), _INDEX (load, product) or _PANIC.
 */
uint32_t mixcalc_plan_exact_amount(const struct mixcalc_plan *plan,
                                   size_t load,
                                   size_t product,
                                   struct mixcalc_amount *out_amount,
                                   struct mixcalc_error *error);

/**
 * What the dose of a product asks for in all loads, before anything is measured. A stopped plan has it too, to be studied and not
 * to be measured.
 *
 * plan         from mixcalc_plan_new()
 * product      index of the product, as in mixcalc_plan_product_name()
 * out_amount   receives the amount
 * error        may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_amount), _STRUCT_SIZE (error), _INDEX (product) or _PANIC.
 */
uint32_t mixcalc_plan_exact_total(const struct mixcalc_plan *plan,
                                  size_t product,
                                  struct mixcalc_amount *out_amount,
                                  struct mixcalc_error *error);

/**
 * What is measured of a product into each of some equal loads: whole graduations of a measure, never over the maximum.
 *
 * plan         from mixcalc_plan_new()
 * load         index of the load, as in mixcalc_plan_load()
 * product      index of the product, as in mixcalc_plan_product_name()
 * out_amount   starts as MIXCALC_MEASURED_AMOUNT_INIT and receives the amount
 * error        may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_amount), _STRUCT_SIZE (out_amount, error), _INDEX (load, product),
 * _PLAN_STOPPED where a stop stands, or _PANIC.
 */
uint32_t mixcalc_plan_measured_amount(const struct mixcalc_plan *plan,
                                      size_t load,
                                      size_t product,
                                      struct mixcalc_measured_amount *out_amount,
                                      struct mixcalc_error *error);

/**
 * What is measured of a product into all loads.
 *
 * plan        from mixcalc_plan_new()
 * product     index of the product, as in mixcalc_plan_product_name()
 * out_total   starts as MIXCALC_MEASURED_TOTAL_INIT and receives the total
 * error       may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_total), _STRUCT_SIZE (out_total, error), _INDEX (product),
 * _PLAN_STOPPED where a stop stands, or _PANIC.
 */
uint32_t mixcalc_plan_measured_total(const struct mixcalc_plan *plan,
                                     size_t product,
                                     struct mixcalc_measured_total *out_total,
                                     struct mixcalc_error *error);

/**
 * How often a measure is filled to its graduation in all loads: what is drawn of a product, in integers.
 *
 * plan        from mixcalc_plan_new()
 * product     index of the product, as in mixcalc_plan_product_name()
 * measure     index of the measure: from 0, under the field measures of mixcalc_plan_measured_total()
 * out_drawn   starts as MIXCALC_DRAWN_INIT and receives what is drawn
 * error       may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_drawn), _STRUCT_SIZE (out_drawn, error), _INDEX (product, measure),
 * _PLAN_STOPPED where a stop stands, or _PANIC.
 */
uint32_t mixcalc_plan_drawn(const struct mixcalc_plan *plan,
                            size_t product,
                            size_t measure,
                            struct mixcalc_drawn *out_drawn,
                            struct mixcalc_error *error);

/**
 * One step of each of some equal loads, in the order in which they are done.
 *
 * plan       from mixcalc_plan_new()
 * load       index of the load, as in mixcalc_plan_load()
 * step       index of the step: from 0, under the field steps of mixcalc_plan_load()
 * out_step   starts as MIXCALC_STEP_INIT and receives the step
 * error      may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_step), _STRUCT_SIZE (out_step, error), _INDEX (load, step),
 * _PLAN_STOPPED where a stop stands, or _PANIC.
 */
uint32_t mixcalc_plan_step(const struct mixcalc_plan *plan,
                           size_t load,
                           size_t step,
                           struct mixcalc_step *out_step,
                           struct mixcalc_error *error);

/**
 * Where the carrier and the mix came from and went.
 *
 * plan         from mixcalc_plan_new()
 * out_ledger   starts as MIXCALC_LEDGER_INIT and receives the accounts
 * error        may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_ledger), _STRUCT_SIZE (out_ledger, error), _PLAN_STOPPED where a
 * stop stands, or _PANIC.
 */
uint32_t mixcalc_plan_ledger(const struct mixcalc_plan *plan,
                             struct mixcalc_ledger *out_ledger,
                             struct mixcalc_error *error);

/**
 * Where a product came from and went.
 *
 * plan          from mixcalc_plan_new()
 * product       index of the product, as in mixcalc_plan_product_name()
 * out_account   starts as MIXCALC_ACCOUNT_INIT and receives the account
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_account), _STRUCT_SIZE (out_account, error), _INDEX (product),
 * _PLAN_STOPPED where a stop stands, or _PANIC.
 */
uint32_t mixcalc_plan_account(const struct mixcalc_plan *plan,
                              size_t product,
                              struct mixcalc_account *out_account,
                              struct mixcalc_error *error);

/**
 * What is to be said of a plan: stops first, then cautions, then notes.
 *
 * plan          from mixcalc_plan_new()
 * finding       index of the finding: from 0, under the field findings of mixcalc_plan_totals()
 * out_finding   starts as MIXCALC_FINDING_INIT and receives the finding
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_finding), _STRUCT_SIZE (out_finding, error), _INDEX (finding) or _PANIC.
 */
uint32_t mixcalc_plan_finding(const struct mixcalc_plan *plan,
                              size_t finding,
                              struct mixcalc_finding *out_finding,
                              struct mixcalc_error *error);

/**
 * A caution for people that goes with every plan: show all of them beside whatever you show of it.
 *
 * plan          from mixcalc_plan_new()
 * caution       index of the caution: from 0, under the field cautions of mixcalc_plan_totals()
 * out_caution   starts as MIXCALC_CAUTION_INIT and receives the caution
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_caution), _STRUCT_SIZE (out_caution, error), _INDEX (caution) or _PANIC.
 */
uint32_t mixcalc_plan_caution(const struct mixcalc_plan *plan,
                              size_t caution,
                              struct mixcalc_caution *out_caution,
                              struct mixcalc_error *error);

/**
 * Where each of some equal loads runs out: how much ground, length and passes it covers, and between what the calibration leaves that.
 *
 * plan          from mixcalc_plan_new()
 * load          index of the load, as in mixcalc_plan_load()
 * out_run_out   starts as MIXCALC_RUN_OUT_INIT and receives it
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_run_out), _STRUCT_SIZE (out_run_out, error), _INDEX (load) or _PANIC.
 */
uint32_t mixcalc_plan_run_out(const struct mixcalc_plan *plan,
                              size_t load,
                              struct mixcalc_run_out *out_run_out,
                              struct mixcalc_error *error);

/**
 * The dose of a product that each of some equal loads really delivers, as far as the calibration, the measure and the tank's scale tell: what states no uncertainty is taken as it stands.
 *
 * plan            from mixcalc_plan_new()
 * load            index of the load, as in mixcalc_plan_load()
 * product         index of the product, as in mixcalc_plan_product_name()
 * out_delivered   starts as MIXCALC_DELIVERED_INIT and receives the dose
 * error           may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_delivered), _STRUCT_SIZE (out_delivered, error), _INDEX (load, product),
 * _PLAN_STOPPED where a stop stands, or _PANIC.
 */
uint32_t mixcalc_plan_delivered(const struct mixcalc_plan *plan,
                                size_t load,
                                size_t product,
                                struct mixcalc_delivered *out_delivered,
                                struct mixcalc_error *error);

/**
 * What the plan says of a product as a whole: on how many bases its dose is told, and the largest dose that the limits given leave.
 *
 * plan          from mixcalc_plan_new()
 * product       index of the product: from 0, under the field products of mixcalc_plan_totals()
 * out_product   starts as MIXCALC_PRODUCT_INIT and receives the product
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_product), _STRUCT_SIZE (out_product, error), _INDEX (product) or _PANIC.
 */
uint32_t mixcalc_plan_product(const struct mixcalc_plan *plan,
                              size_t product,
                              struct mixcalc_product *out_product,
                              struct mixcalc_error *error);

/**
 * The dose of a product on one basis: on ground area, on mix, and on what else the job says enough of.
 *
 * plan       from mixcalc_plan_new()
 * product    index of the product, as in mixcalc_plan_product()
 * dose       index of the dose: from 0, under the field doses of mixcalc_plan_product()
 * out_dose   starts as MIXCALC_DOSE_INIT and receives the dose
 * error      may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_dose), _STRUCT_SIZE (out_dose, error), _INDEX (product, dose) or _PANIC.
 */
uint32_t mixcalc_plan_dose(const struct mixcalc_plan *plan,
                           size_t product,
                           size_t dose,
                           struct mixcalc_dose *out_dose,
                           struct mixcalc_error *error);

/**
 * What the plan brings out of an active substance.
 *
 * plan            from mixcalc_plan_new()
 * substance       index of the substance: from 0, under the field substances of mixcalc_plan_totals()
 * out_substance   starts as MIXCALC_SUBSTANCE_INIT and receives the substance
 * error           may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_substance), _STRUCT_SIZE (out_substance, error), _INDEX (substance) or
 * _PANIC.
 */
uint32_t mixcalc_plan_substance(const struct mixcalc_plan *plan,
                                size_t substance,
                                struct mixcalc_substance *out_substance,
                                struct mixcalc_error *error);

/**
 * What a value may have been meant as, the likeliest first.
 *
 * plan          from mixcalc_plan_new()
 * finding       index of the finding, as in mixcalc_plan_finding()
 * reading       index of the reading: from 0, under the field readings of mixcalc_plan_finding()
 * out_reading   starts as MIXCALC_READING_INIT and receives the reading
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_reading), _STRUCT_SIZE (out_reading, error), _INDEX (finding, reading) or
 * _PANIC.
 */
uint32_t mixcalc_plan_reading(const struct mixcalc_plan *plan,
                              size_t finding,
                              size_t reading,
                              struct mixcalc_reading *out_reading,
                              struct mixcalc_error *error);

/**
 * The order in which the products go into the tank, and what goes into a jar before.
 *
 * plan         from mixcalc_plan_new()
 * out_mixing   starts as MIXCALC_MIXING_INIT and receives the order
 * error        may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_mixing), _STRUCT_SIZE (out_mixing, error) or _PANIC.
 */
uint32_t mixcalc_plan_mixing(const struct mixcalc_plan *plan,
                             struct mixcalc_mixing *out_mixing,
                             struct mixcalc_error *error);

/**
 * A product's place in the mixing order, with its reason.
 *
 * plan          from mixcalc_plan_new()
 * place         index of the place: from 0, under the field products of mixcalc_plan_mixing()
 * out_product   starts as MIXCALC_ORDERED_PRODUCT_INIT and receives the product
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_product), _STRUCT_SIZE (out_product, error), _INDEX (place) or _PANIC.
 */
uint32_t mixcalc_plan_ordered_product(const struct mixcalc_plan *plan,
                                      size_t place,
                                      struct mixcalc_ordered_product *out_product,
                                      struct mixcalc_error *error);

/**
 * What goes into the jar of a jar test of a product, as its dose asks for.
 *
 * plan         from mixcalc_plan_new()
 * product      index of the product, as in mixcalc_plan_product_name()
 * out_amount   receives the amount
 * error        may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_amount), _STRUCT_SIZE (error), _INDEX (product; every index without a jar
 * test) or _PANIC.
 */
uint32_t mixcalc_plan_jar_amount(const struct mixcalc_plan *plan,
                                 size_t product,
                                 struct mixcalc_amount *out_amount,
                                 struct mixcalc_error *error);

/**
 * How uncertain the measured amount of a product in each of some equal loads is.
 *
 * plan              from mixcalc_plan_new()
 * load              index of the load, as in mixcalc_plan_load()
 * product           index of the product, as in mixcalc_plan_product_name()
 * out_uncertainty   starts as MIXCALC_UNCERTAINTY_INIT and receives the uncertainty
 * error             may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_uncertainty), _STRUCT_SIZE (out_uncertainty, error), _INDEX (load, product),
 * _PLAN_STOPPED where a stop stands, or _PANIC.
 */
uint32_t mixcalc_plan_uncertainty(const struct mixcalc_plan *plan,
                                  size_t load,
                                  size_t product,
                                  struct mixcalc_uncertainty *out_uncertainty,
                                  struct mixcalc_error *error);

/**
 * How uncertain the mix in each of some equal loads is, read on the tank's scale: by its check, or by what that of a new tank may be off.
 *
 * plan              from mixcalc_plan_new()
 * load              index of the load, as in mixcalc_plan_load()
 * out_uncertainty   starts as MIXCALC_MIX_UNCERTAINTY_INIT and receives the uncertainty
 * error             may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_uncertainty), _STRUCT_SIZE (out_uncertainty, error), _INDEX (load) or _PANIC.
 */
uint32_t mixcalc_plan_mix_uncertainty(const struct mixcalc_plan *plan,
                                      size_t load,
                                      struct mixcalc_mix_uncertainty *out_uncertainty,
                                      struct mixcalc_error *error);

/**
 * The containers of a product that some equal loads empty.
 *
 * plan          from mixcalc_plan_new()
 * load          index of the load, as in mixcalc_plan_load()
 * product       index of the product, as in mixcalc_plan_product_name()
 * out_emptied   starts as MIXCALC_EMPTIED_INIT and receives the containers
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_emptied), _STRUCT_SIZE (out_emptied, error), _INDEX (load, product), _PLAN_STOPPED
 * where a stop stands, or _PANIC.
 */
uint32_t mixcalc_plan_emptied(const struct mixcalc_plan *plan,
                              size_t load,
                              size_t product,
                              struct mixcalc_emptied *out_emptied,
                              struct mixcalc_error *error);

/**
 * The number of a load that empties a container.
 *
 * plan       from mixcalc_plan_new()
 * load       index of the load, as in mixcalc_plan_load()
 * product    index of the product, as in mixcalc_plan_product_name()
 * emptied    index of the container: from 0, under the field loads of mixcalc_plan_emptied()
 * out_load   receives the number of the load, from 1
 * error      may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_load), _STRUCT_SIZE (error), _INDEX (load, product, emptied), _PLAN_STOPPED where a
 * stop stands, or _PANIC.
 */
uint32_t mixcalc_plan_emptying_load(const struct mixcalc_plan *plan,
                                    size_t load,
                                    size_t product,
                                    size_t emptied,
                                    uint64_t *out_load,
                                    struct mixcalc_error *error);

/**
 * What the job does with the containers of a product.
 *
 * plan             from mixcalc_plan_new()
 * product          index of the product, as in mixcalc_plan_product_name()
 * out_containers   starts as MIXCALC_CONTAINERS_INIT and receives the containers
 * error            may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_containers), _STRUCT_SIZE (out_containers, error), _INDEX (product), _PLAN_STOPPED
 * where a stop stands, or _PANIC.
 */
uint32_t mixcalc_plan_containers(const struct mixcalc_plan *plan,
                                 size_t product,
                                 struct mixcalc_containers *out_containers,
                                 struct mixcalc_error *error);

/**
 * What the water analysis of the job comes to. A stopped plan has it too.
 *
 * plan        from mixcalc_plan_new()
 * out_water   starts as MIXCALC_WATER_INIT and receives it
 * error       may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_water), _STRUCT_SIZE (out_water, error) or _PANIC.
 */
uint32_t mixcalc_plan_water(const struct mixcalc_plan *plan,
                            struct mixcalc_water *out_water,
                            struct mixcalc_error *error);

/**
 * A size of loads with which every amount can be measured, where one is hard to measure; the nearest to the plan's own first.
 *
 * plan       from mixcalc_plan_new()
 * size       index of the size: from 0; there are three at most
 * out_size   starts as MIXCALC_LOAD_SIZE_INIT and receives the size
 * error      may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_size), _STRUCT_SIZE (out_size, error), _INDEX (size; every index where nothing is hard
 * to measure, where no size does, and where a stop stands) or _PANIC.
 */
uint32_t mixcalc_plan_load_size(const struct mixcalc_plan *plan,
                                size_t size,
                                struct mixcalc_load_size *out_size,
                                struct mixcalc_error *error);

/**
 * What would help with an amount that is hard to measure.
 *
 * plan       from mixcalc_plan_new()
 * finding    index of the finding, as in mixcalc_plan_finding()
 * help       index of the sentence: from 0, under the field helps of mixcalc_plan_finding()
 * out_help   receives the sentence, borrowed from the plan
 * error      may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_help), _STRUCT_SIZE (error), _INDEX (finding, help) or _PANIC.
 */
uint32_t mixcalc_plan_help(const struct mixcalc_plan *plan,
                           size_t finding,
                           size_t help,
                           const char **out_help,
                           struct mixcalc_error *error);

/**
 * Everything to take along, where the job asks for it and no stop stands.
 *
 * plan       from mixcalc_plan_new()
 * out_list   starts as MIXCALC_FIELD_LIST_INIT and receives the list
 * error      may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_list), _STRUCT_SIZE (out_list, error) or _PANIC.
 */
uint32_t mixcalc_plan_field_list(const struct mixcalc_plan *plan,
                                 struct mixcalc_field_list *out_list,
                                 struct mixcalc_error *error);

/**
 * A product to take along.
 *
 * plan          from mixcalc_plan_new()
 * product       index of the product: from 0, under the field products of mixcalc_plan_field_list()
 * out_product   starts as MIXCALC_PRODUCT_TO_TAKE_INIT and receives the product
 * error         may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_product), _STRUCT_SIZE (out_product, error), _INDEX (product; every index without a
 * field list) or _PANIC.
 */
uint32_t mixcalc_plan_product_to_take(const struct mixcalc_plan *plan,
                                      size_t product,
                                      struct mixcalc_product_to_take *out_product,
                                      struct mixcalc_error *error);

/**
 * An entry of one of the lists of texts of the field list.
 *
 * plan       from mixcalc_plan_new()
 * list       MIXCALC_LIST_MEASURES, _MIXING, _SPRAYING or _UNSTATED
 * entry      index of the entry: from 0, under the field of mixcalc_plan_field_list() that counts them
 * out_text   receives the text, borrowed from the plan
 * error      may be NULL
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_text), _STRUCT_SIZE (error), _INDEX (entry; every index without a field list, and in
 * a list that is not known) or _PANIC.
 */
uint32_t mixcalc_plan_listed(const struct mixcalc_plan *plan,
                             uint32_t list,
                             size_t entry,
                             const char **out_text,
                             struct mixcalc_error *error);

#ifdef __cplusplus
}  // extern "C"
#endif  // __cplusplus

#endif  /* MIXCALC_H */
