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
#define MIXCALC_FINDING_UNIT_SLIP "unit-slip"

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
 * Room for a message, the zero byte at its end counted.
 */
#define MIXCALC_MESSAGE_SIZE 512

/**
 * Room for each other text of an error, the zero byte at its end counted.
 */
#define MIXCALC_TEXT_SIZE 256

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
 * A fault of the library, caught at the border. The process may go on.
 */
#define MIXCALC_STATUS_PANIC 99

/**
 * Counts the changes that a program built before cannot live with. 0 until the interface has settled: within 0, any
 * release may be such a change.
 */
#define MIXCALC_ABI_VERSION 0

/**
 * A job worked out: loads, recipes, steps, ledger, findings. Made by mixcalc_plan_new(), given back with mixcalc_plan_free().
 *
 * It never changes: any number of threads may read one plan at once. Every const char pointer that is read from it is borrowed: it
 * points into the plan and is good until the plan is given back.
 */
typedef struct mixcalc_plan mixcalc_plan;

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
} mixcalc_step;

/** How a mixcalc_step starts. */
#define MIXCALC_STEP_INIT {sizeof(mixcalc_step), 0, 0, 0, 0, NULL, 0, NULL, 0, 0, 0, 0, 0, 0, 0, 0}

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
} mixcalc_ledger;

/** How a mixcalc_ledger starts. */
#define MIXCALC_LEDGER_INIT {sizeof(mixcalc_ledger), 0, 0, 0, 0, 0, 0, 0, 0}

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
} mixcalc_finding;

/** How a mixcalc_finding starts. */
#define MIXCALC_FINDING_INIT {sizeof(mixcalc_finding), 0, 0, 0, 0, NULL, NULL, NULL, 0, 0, NULL, 0, NULL, NULL, 0}

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

#ifdef __cplusplus
extern "C" {
#endif // __cplusplus

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

#ifdef __cplusplus
}  // extern "C"
#endif  // __cplusplus

#endif  /* MIXCALC_H */
