/*
 * The promises of the border, tried: every NULL, structs of every size, lengths and indices that cannot be, text that is no job, numbers
 * that are none, threads.
 *
 *     border JOB [STOPPED]    JOB is planned a thousand times from eight threads; STOPPED is a job whose plan has a stop
 */
#include "mixcalc.h"
#include "must.h"

#include <math.h>
#include <pthread.h>
#include <stdint.h>

static char *job;
static size_t job_len;

/* --- Which library it is --- */

static void version_is_the_header_s(void)
{
    char version[32];
    unsigned major, minor, patch;

    snprintf(version, sizeof version, "%d.%d.%d", MIXCALC_VERSION_MAJOR, MIXCALC_VERSION_MINOR, MIXCALC_VERSION_PATCH);
    MUST(strcmp(MIXCALC_VERSION, version) == 0);
    MUST(sscanf(mixcalc_version(), "%u.%u.%u", &major, &minor, &patch) == 3);
    /* As numbers that can be compared: three times the same part, or two in each other's place, would not do. */
    MUST(major * 1000000 + minor * 1000 + patch ==
         MIXCALC_VERSION_MAJOR * 1000000 + MIXCALC_VERSION_MINOR * 1000 + MIXCALC_VERSION_PATCH);
    MUST(mixcalc_abi_version() - MIXCALC_ABI_VERSION == 0);
}

/* --- NULL --- */

#define REFUSES(call, name)                            \
    do {                                               \
        mixcalc_error error = MIXCALC_ERROR_INIT;      \
        mixcalc_error *e = &error;                     \
        MUST((call) == MIXCALC_STATUS_NULL_POINTER);   \
        MUST(error.code == MIXCALC_STATUS_NULL_POINTER && strcmp(error.path, name) == 0); \
        e = NULL;                                      \
        MUST((call) == MIXCALC_STATUS_NULL_POINTER);   \
    } while (0)

static void null_is_refused_or_allowed_as_said(const mixcalc_plan *plan)
{
    mixcalc_plan *made = NULL;
    mixcalc_totals totals = MIXCALC_TOTALS_INIT;
    mixcalc_load load = MIXCALC_LOAD_INIT;
    mixcalc_measured_amount measured = MIXCALC_MEASURED_AMOUNT_INIT;
    mixcalc_measured_total total = MIXCALC_MEASURED_TOTAL_INIT;
    mixcalc_drawn drawn = MIXCALC_DRAWN_INIT;
    mixcalc_step step = MIXCALC_STEP_INIT;
    mixcalc_ledger ledger = MIXCALC_LEDGER_INIT;
    mixcalc_account account = MIXCALC_ACCOUNT_INIT;
    mixcalc_finding finding = MIXCALC_FINDING_INIT;
    mixcalc_caution caution = MIXCALC_CAUTION_INIT;
    mixcalc_amount amount;
    const char *name;
    mixcalc_product product = MIXCALC_PRODUCT_INIT;
    mixcalc_dose dose = MIXCALC_DOSE_INIT;
    mixcalc_substance substance = MIXCALC_SUBSTANCE_INIT;
    mixcalc_reading reading = MIXCALC_READING_INIT;
    mixcalc_mixing mixing = MIXCALC_MIXING_INIT;
    mixcalc_ordered_product ordered = MIXCALC_ORDERED_PRODUCT_INIT;
    char *text = NULL;
    double out = 7;
    uint64_t count = 7;

    REFUSES(mixcalc_plan_new(NULL, 0, &made, e), "job");
    REFUSES(mixcalc_plan_new("{}", 2, NULL, e), "out_plan");
    MUST(made == NULL);
    mixcalc_plan_free(NULL);
    mixcalc_string_free(NULL);

    REFUSES(mixcalc_plan_json(NULL, &text, NULL, e), "plan");
    REFUSES(mixcalc_plan_json(plan, NULL, NULL, e), "out_text");
    REFUSES(mixcalc_plan_job_json(NULL, &text, NULL, e), "plan");
    REFUSES(mixcalc_plan_job_json(plan, NULL, NULL, e), "out_text");
    REFUSES(mixcalc_plan_working_json(NULL, &text, NULL, e), "plan");
    REFUSES(mixcalc_plan_working_json(plan, NULL, NULL, e), "out_text");
    REFUSES(mixcalc_plan_sheet(NULL, &text, NULL, e), "plan");
    REFUSES(mixcalc_plan_sheet(plan, NULL, NULL, e), "out_text");
    REFUSES(mixcalc_plan_sheet_with_working(NULL, &text, NULL, e), "plan");
    REFUSES(mixcalc_plan_sheet_with_working(plan, NULL, NULL, e), "out_text");
    REFUSES(mixcalc_plan_findings_page(NULL, &text, NULL, e), "plan");
    REFUSES(mixcalc_plan_findings_page(plan, NULL, NULL, e), "out_text");
    MUST(text == NULL);

    REFUSES(mixcalc_plan_totals(NULL, &totals, e), "plan");
    REFUSES(mixcalc_plan_totals(plan, NULL, e), "out_totals");
    REFUSES(mixcalc_plan_load(NULL, 0, &load, e), "plan");
    REFUSES(mixcalc_plan_load(plan, 0, NULL, e), "out_load");
    REFUSES(mixcalc_plan_product_name(NULL, 0, &name, e), "plan");
    REFUSES(mixcalc_plan_product_name(plan, 0, NULL, e), "out_name");
    REFUSES(mixcalc_plan_exact_amount(NULL, 0, 0, &amount, e), "plan");
    REFUSES(mixcalc_plan_exact_amount(plan, 0, 0, NULL, e), "out_amount");
    REFUSES(mixcalc_plan_exact_total(NULL, 0, &amount, e), "plan");
    REFUSES(mixcalc_plan_exact_total(plan, 0, NULL, e), "out_amount");
    REFUSES(mixcalc_plan_measured_amount(NULL, 0, 0, &measured, e), "plan");
    REFUSES(mixcalc_plan_measured_amount(plan, 0, 0, NULL, e), "out_amount");
    REFUSES(mixcalc_plan_measured_total(NULL, 0, &total, e), "plan");
    REFUSES(mixcalc_plan_measured_total(plan, 0, NULL, e), "out_total");
    REFUSES(mixcalc_plan_drawn(NULL, 0, 0, &drawn, e), "plan");
    REFUSES(mixcalc_plan_drawn(plan, 0, 0, NULL, e), "out_drawn");
    REFUSES(mixcalc_plan_step(NULL, 0, 0, &step, e), "plan");
    REFUSES(mixcalc_plan_step(plan, 0, 0, NULL, e), "out_step");
    REFUSES(mixcalc_plan_ledger(NULL, &ledger, e), "plan");
    REFUSES(mixcalc_plan_ledger(plan, NULL, e), "out_ledger");
    REFUSES(mixcalc_plan_account(NULL, 0, &account, e), "plan");
    REFUSES(mixcalc_plan_account(plan, 0, NULL, e), "out_account");
    REFUSES(mixcalc_plan_finding(NULL, 0, &finding, e), "plan");
    REFUSES(mixcalc_plan_finding(plan, 0, NULL, e), "out_finding");
    REFUSES(mixcalc_plan_caution(NULL, 0, &caution, e), "plan");
    REFUSES(mixcalc_plan_caution(plan, 0, NULL, e), "out_caution");
    REFUSES(mixcalc_plan_product(NULL, 0, &product, e), "plan");
    REFUSES(mixcalc_plan_product(plan, 0, NULL, e), "out_product");
    REFUSES(mixcalc_plan_dose(NULL, 0, 0, &dose, e), "plan");
    REFUSES(mixcalc_plan_dose(plan, 0, 0, NULL, e), "out_dose");
    REFUSES(mixcalc_plan_substance(NULL, 0, &substance, e), "plan");
    REFUSES(mixcalc_plan_substance(plan, 0, NULL, e), "out_substance");
    REFUSES(mixcalc_plan_reading(NULL, 0, 0, &reading, e), "plan");
    REFUSES(mixcalc_plan_reading(plan, 0, 0, NULL, e), "out_reading");
    REFUSES(mixcalc_plan_mixing(NULL, &mixing, e), "plan");
    REFUSES(mixcalc_plan_mixing(plan, NULL, e), "out_mixing");
    REFUSES(mixcalc_plan_ordered_product(NULL, 0, &ordered, e), "plan");
    REFUSES(mixcalc_plan_ordered_product(plan, 0, NULL, e), "out_product");
    REFUSES(mixcalc_plan_jar_amount(NULL, 0, &amount, e), "plan");
    REFUSES(mixcalc_plan_jar_amount(plan, 0, NULL, e), "out_amount");

    REFUSES(mixcalc_convert(1, NULL, "L", &out, e), "unit");
    REFUSES(mixcalc_convert(1, "L", NULL, &out, e), "to_unit");
    REFUSES(mixcalc_convert(1, "L", "L", NULL, e), "out_value");
    REFUSES(mixcalc_read_quantity(NULL, NULL, "L", &out, e), "text");
    REFUSES(mixcalc_read_quantity("1 L", NULL, NULL, &out, e), "unit");
    REFUSES(mixcalc_read_quantity("1 L", NULL, "L", NULL, e), "out_value");
    REFUSES(mixcalc_mix_l(1, 1, NULL, e), "out_mix_l");
    REFUSES(mixcalc_area_for_mix_ha(1, 1, NULL, e), "out_area_ha");
    REFUSES(mixcalc_liquid_amount_l(1, 1, NULL, e), "out_amount_l");
    REFUSES(mixcalc_solid_amount_kg(1, 1, NULL, e), "out_amount_kg");
    REFUSES(mixcalc_liquid_amount_in_mix_l(1, 1, NULL, e), "out_amount_l");
    REFUSES(mixcalc_solid_amount_in_mix_kg(1, 1, NULL, e), "out_amount_kg");
    REFUSES(mixcalc_liquid_dose_l_per_ha(1, 1, NULL, e), "out_liquid_dose_l_per_ha");
    REFUSES(mixcalc_solid_dose_kg_per_ha(1, 1, NULL, e), "out_solid_dose_kg_per_ha");
    REFUSES(mixcalc_volume_fraction_ml_per_100_l(1, 1, NULL, e), "out_volume_fraction_ml_per_100_l");
    REFUSES(mixcalc_mass_concentration_g_per_100_l(1, 1, NULL, e), "out_mass_concentration_g_per_100_l");
    REFUSES(mixcalc_substance_in_liquid_dose_kg_per_ha(1, 1, NULL, e), "out_substance_kg_per_ha");
    REFUSES(mixcalc_substance_in_solid_dose_kg_per_ha(1, 1, NULL, e), "out_substance_kg_per_ha");
    REFUSES(mixcalc_liquid_mass_kg(1, 1, NULL, e), "out_mass_kg");
    REFUSES(mixcalc_liquid_volume_l(1, 1, NULL, e), "out_volume_l");
    REFUSES(mixcalc_volume_rate_l_per_ha(1, 1, 1, NULL, e), "out_volume_rate_l_per_ha");
    REFUSES(mixcalc_required_flow_l_per_min(1, 1, 1, NULL, e), "out_flow_l_per_min");
    REFUSES(mixcalc_required_speed_km_per_h(1, 1, 1, NULL, e), "out_speed_km_per_h");
    REFUSES(mixcalc_required_swath_m(1, 1, 1, NULL, e), "out_swath_m");
    REFUSES(mixcalc_work_rate_ha_per_h(1, 1, NULL, e), "out_work_rate_ha_per_h");
    REFUSES(mixcalc_spraying_time_s(1, 1, NULL, e), "out_time_s");
    REFUSES(mixcalc_flow_l_per_min(1, 1, NULL, e), "out_flow_l_per_min");
    REFUSES(mixcalc_speed_km_per_h(1, 1, NULL, e), "out_speed_km_per_h");
    REFUSES(mixcalc_safe_fill_l(1, 1, 1, 0, NULL, e), "out_safe_fill_l");
    REFUSES(mixcalc_full_and_part_load(1, 1, NULL, &out, e), "out_full_loads");
    REFUSES(mixcalc_full_and_part_load(1, 1, &count, NULL, e), "out_part_load_l");
    REFUSES(mixcalc_graduations_of_volume(1, 1, 1, NULL, e), "out_graduations");
    REFUSES(mixcalc_graduations_of_mass(1, 1, 1, NULL, e), "out_graduations");
    MUST(out == 7 && count == 7);
}

/* --- Structs of other releases --- */

/* The struct as an older, a newer and a wrong caller would have it. `last` is the field that the first release ended with. */
#define EVERY_SIZE(type, init, last, call)                                                                     \
    do {                                                                                                       \
        struct {                                                                                               \
            type known;                                                                                        \
            char later[64];                                                                                    \
        } grown = {init, "untouched"};                                                                         \
        type out = init, blank = init;                                                                         \
        mixcalc_error error = MIXCALC_ERROR_INIT;                                                              \
        size_t least = offsetof(type, last) + sizeof out.last;                                                 \
        type *o = &out;                                                                                        \
        MUST((call) == MIXCALC_STATUS_OK);                                                                     \
        MUST(out.struct_size == sizeof out && memcmp(&out, &blank, sizeof out) != 0);                          \
        o = &grown.known; /* newer: what it knows and we do not stays as it is */                              \
        grown.known.struct_size = sizeof grown;                                                                \
        MUST((call) == MIXCALC_STATUS_OK);                                                                     \
        MUST(grown.known.struct_size == sizeof grown && strcmp(grown.later, "untouched") == 0);                \
        MUST(memcmp((char *)&grown + sizeof(size_t), (char *)&out + sizeof(size_t), sizeof out - sizeof(size_t)) == 0); \
        o = &out; /* the first release: served for good */                                                     \
        out = blank;                                                                                           \
        out.struct_size = least;                                                                               \
        MUST((call) == MIXCALC_STATUS_OK && out.struct_size == least);                                         \
        out = blank; /* short, and not a struct at all: left as it is */                                       \
        out.struct_size = least - 1;                                                                           \
        MUST((call) == MIXCALC_STATUS_STRUCT_SIZE && error.code == MIXCALC_STATUS_STRUCT_SIZE);                \
        out.struct_size = 0;                                                                                   \
        MUST((call) == MIXCALC_STATUS_STRUCT_SIZE);                                                            \
        out.struct_size = sizeof out;                                                                          \
        MUST(memcmp(&out, &blank, sizeof out) == 0);                                                           \
    } while (0)

static void structs_of_other_releases_are_served(const mixcalc_plan *plan, const mixcalc_plan *stopped, const mixcalc_plan *calibrated)
{
    mixcalc_error error = MIXCALC_ERROR_INIT;
    mixcalc_error *e = &error;
    mixcalc_plan *made = NULL;
    struct {
        mixcalc_error known;
        char later[64];
    } grown = {MIXCALC_ERROR_INIT, "untouched"};

    EVERY_SIZE(mixcalc_totals, MIXCALC_TOTALS_INIT, cautions, mixcalc_plan_totals(plan, o, &error));
    EVERY_SIZE(mixcalc_load, MIXCALC_LOAD_INIT, steps, mixcalc_plan_load(plan, 0, o, &error));
    EVERY_SIZE(mixcalc_measured_amount, MIXCALC_MEASURED_AMOUNT_INIT, gap_kg_per_ha,
               mixcalc_plan_measured_amount(plan, 0, 0, o, &error));
    EVERY_SIZE(mixcalc_measured_total, MIXCALC_MEASURED_TOTAL_INIT, measures, mixcalc_plan_measured_total(plan, 0, o, &error));
    EVERY_SIZE(mixcalc_drawn, MIXCALC_DRAWN_INIT, graduations, mixcalc_plan_drawn(plan, 0, 0, o, &error));
    EVERY_SIZE(mixcalc_step, MIXCALC_STEP_INIT, in_tank_l, mixcalc_plan_step(plan, 0, 0, o, &error));
    EVERY_SIZE(mixcalc_ledger, MIXCALC_LEDGER_INIT, mix_residual_l, mixcalc_plan_ledger(plan, o, &error));
    EVERY_SIZE(mixcalc_account, MIXCALC_ACCOUNT_INIT, left, mixcalc_plan_account(plan, 0, o, &error));
    EVERY_SIZE(mixcalc_finding, MIXCALC_FINDING_INIT, source, mixcalc_plan_finding(stopped, 0, o, &error));
    EVERY_SIZE(mixcalc_product, MIXCALC_PRODUCT_INIT, source, mixcalc_plan_product(plan, 0, o, &error));
    EVERY_SIZE(mixcalc_dose, MIXCALC_DOSE_INIT, unit, mixcalc_plan_dose(plan, 0, 0, o, &error));
    EVERY_SIZE(mixcalc_run_out, MIXCALC_RUN_OUT_INIT, passes_high, mixcalc_plan_run_out(calibrated, 0, o, &error));
    EVERY_SIZE(mixcalc_delivered, MIXCALC_DELIVERED_INIT, aim, mixcalc_plan_delivered(calibrated, 0, 0, o, &error));
    EVERY_SIZE(mixcalc_caution, MIXCALC_CAUTION_INIT, text, mixcalc_plan_caution(plan, 0, o, &error));
    MUST(sizeof(mixcalc_amount) == 24 && offsetof(mixcalc_amount, mass_kg) == 16);

    error.struct_size = sizeof error - 1;
    MUST(mixcalc_plan_new("{}", 2, &made, e) == MIXCALC_STATUS_STRUCT_SIZE);
    MUST(error.code == 0 && error.message[0] == 0);
    error.struct_size = 0;
    MUST(mixcalc_plan_new("{}", 2, &made, e) == MIXCALC_STATUS_STRUCT_SIZE);

    grown.known.struct_size = sizeof grown;
    MUST(mixcalc_plan_new("{}", SIZE_MAX, &made, &grown.known) == MIXCALC_STATUS_LENGTH);
    MUST(grown.known.code == MIXCALC_STATUS_LENGTH && strcmp(grown.known.path, "job_len") == 0);
    MUST(grown.known.struct_size == sizeof grown && strcmp(grown.later, "untouched") == 0);
    MUST(made == NULL);
}

/* --- Indices --- */

static void an_index_stays_under_the_count(const mixcalc_plan *plan)
{
    mixcalc_totals totals = MIXCALC_TOTALS_INIT;
    mixcalc_load load = MIXCALC_LOAD_INIT;
    mixcalc_measured_total total = MIXCALC_MEASURED_TOTAL_INIT;
    mixcalc_measured_amount measured = MIXCALC_MEASURED_AMOUNT_INIT;
    mixcalc_drawn drawn = MIXCALC_DRAWN_INIT;
    mixcalc_step step = MIXCALC_STEP_INIT;
    mixcalc_account account = MIXCALC_ACCOUNT_INIT;
    mixcalc_finding finding = MIXCALC_FINDING_INIT;
    mixcalc_caution caution = MIXCALC_CAUTION_INIT;
    mixcalc_product product = MIXCALC_PRODUCT_INIT;
    mixcalc_dose dose = MIXCALC_DOSE_INIT;
    mixcalc_substance substance = MIXCALC_SUBSTANCE_INIT;
    mixcalc_reading reading = MIXCALC_READING_INIT;
    mixcalc_ordered_product ordered = MIXCALC_ORDERED_PRODUCT_INIT;
    mixcalc_error error = MIXCALC_ERROR_INIT;
    mixcalc_amount amount = {7, 0, 7, 7};
    const char *name = "untouched";
    size_t past[2] = {0, SIZE_MAX};
    int i;

    MUST(mixcalc_plan_totals(plan, &totals, NULL) == MIXCALC_STATUS_OK);
    MUST(mixcalc_plan_load(plan, totals.load_entries - 1, &load, NULL) == MIXCALC_STATUS_OK && load.last == totals.load_count);
    MUST(mixcalc_plan_measured_total(plan, totals.products - 1, &total, NULL) == MIXCALC_STATUS_OK);
    MUST(mixcalc_plan_product(plan, 0, &product, NULL) == MIXCALC_STATUS_OK && product.doses > 0);
    for (i = 0; i < 2; i++) {
#define PAST(count) (past[i] ? past[i] : (count))
#define NO_SUCH(call, name) \
    MUST((call) == MIXCALC_STATUS_INDEX && error.code == MIXCALC_STATUS_INDEX && strcmp(error.path, name) == 0)
        NO_SUCH(mixcalc_plan_load(plan, PAST(totals.load_entries), &load, &error), "load");
        NO_SUCH(mixcalc_plan_product_name(plan, PAST(totals.products), &name, &error), "product");
        NO_SUCH(mixcalc_plan_exact_amount(plan, PAST(totals.load_entries), 0, &amount, &error), "load");
        NO_SUCH(mixcalc_plan_exact_amount(plan, 0, PAST(totals.products), &amount, &error), "product");
        NO_SUCH(mixcalc_plan_exact_total(plan, PAST(totals.products), &amount, &error), "product");
        NO_SUCH(mixcalc_plan_measured_amount(plan, PAST(totals.load_entries), 0, &measured, &error), "load");
        NO_SUCH(mixcalc_plan_measured_amount(plan, 0, PAST(totals.products), &measured, &error), "product");
        NO_SUCH(mixcalc_plan_measured_total(plan, PAST(totals.products), &total, &error), "product");
        NO_SUCH(mixcalc_plan_drawn(plan, PAST(totals.products), 0, &drawn, &error), "product");
        NO_SUCH(mixcalc_plan_drawn(plan, totals.products - 1, PAST(total.measures), &drawn, &error), "measure");
        NO_SUCH(mixcalc_plan_step(plan, PAST(totals.load_entries), 0, &step, &error), "load");
        NO_SUCH(mixcalc_plan_step(plan, totals.load_entries - 1, PAST(load.steps), &step, &error), "step");
        NO_SUCH(mixcalc_plan_account(plan, PAST(totals.products), &account, &error), "product");
        NO_SUCH(mixcalc_plan_finding(plan, PAST(totals.findings), &finding, &error), "finding");
        NO_SUCH(mixcalc_plan_caution(plan, PAST(totals.cautions), &caution, &error), "caution");
        NO_SUCH(mixcalc_plan_product(plan, PAST(totals.products), &product, &error), "product");
        NO_SUCH(mixcalc_plan_dose(plan, PAST(totals.products), 0, &dose, &error), "product");
        NO_SUCH(mixcalc_plan_dose(plan, 0, PAST(product.doses), &dose, &error), "dose");
        NO_SUCH(mixcalc_plan_substance(plan, PAST(totals.substances), &substance, &error), "substance");
        NO_SUCH(mixcalc_plan_reading(plan, PAST(totals.findings), 0, &reading, &error), "finding");
        NO_SUCH(mixcalc_plan_ordered_product(plan, PAST((size_t)0), &ordered, &error), "place");
        NO_SUCH(mixcalc_plan_jar_amount(plan, PAST((size_t)0), &amount, &error), "product");
    }
    MUST(amount.kind == 7 && strcmp(name, "untouched") == 0 && drawn.measure == NULL && step.action == 0);
}

/* --- What is no job, and no number --- */

static void what_is_no_job_gets_a_code_of_the_library(void)
{
    static const struct {
        const char *text;
        size_t len;
    } bad[] = {{"", 0}, {"{", 1}, {"{}", 2}, {"\xff\xfe", 2}, {"\0", 1}, {"format = 1", 10}, {"{\"format\": null}", 16}};
    size_t i;

    for (i = 0; i < sizeof bad / sizeof *bad; i++) {
        mixcalc_error error = MIXCALC_ERROR_INIT;
        mixcalc_plan *plan = NULL;
        uint32_t status = mixcalc_plan_new(bad[i].text, bad[i].len, &plan, &error);
        MUST(status >= 100);
        MUST(status == error.code && error.message[0] != 0 && error.reserved == 0);
        MUST(plan == NULL);
        MUST(mixcalc_plan_new(bad[i].text, bad[i].len, &plan, NULL) == status);
    }
    /* Cut short at every byte: an error or, where a blank or a comment was cut off, a plan; never anything else. */
    for (i = 0; i < job_len; i++) {
        char *cut = malloc(i + 1); /* of its exact size, so that a byte too far is seen */
        mixcalc_plan *plan = NULL;
        uint32_t status;
        MUST(cut != NULL);
        memcpy(cut, job, i);
        status = mixcalc_plan_new(cut, i, &plan, NULL);
        MUST((status == MIXCALC_STATUS_OK) == (plan != NULL) && (status == 0 || status >= 100));
        mixcalc_plan_free(plan);
        free(cut);
    }
}

static void what_is_no_number_is_refused_and_nothing_is_written(void)
{
    static const double bad[] = {NAN, INFINITY, -INFINITY, -1, 1e300, -1e300, 1e-300};
    size_t i;

    for (i = 0; i < sizeof bad / sizeof *bad; i++) {
        mixcalc_error error = MIXCALC_ERROR_INIT;
        double out = 7;
        uint64_t count = 7;
        uint32_t expected = isfinite(bad[i]) ? MIXCALC_STATUS_OUT_OF_RANGE : MIXCALC_STATUS_NOT_FINITE;
        uint32_t divided = bad[i] == -1 || bad[i] == -1e300 ? MIXCALC_STATUS_NOT_POSITIVE : expected;
        MUST(mixcalc_mix_l(bad[i], 1, &out, &error) == expected);
        MUST(error.code == expected && strcmp(error.path, "volume_rate") == 0);
        MUST(strncmp(error.message, "volume_rate: must be ", 21) == 0);
        MUST(mixcalc_mix_l(1, bad[i], &out, NULL) == expected);
        MUST(mixcalc_volume_rate_l_per_ha(1, bad[i], 1, &out, &error) == divided && strcmp(error.path, "speed") == 0);
        MUST(mixcalc_volume_rate_l_per_ha(1, 1, bad[i], &out, &error) == divided && strcmp(error.path, "swath") == 0);
        MUST(mixcalc_safe_fill_l(bad[i], 0, 5, 0, &out, NULL) >= 100 && mixcalc_safe_fill_l(16, 0, bad[i], 0, &out, NULL) >= (bad[i] == 1e-300 ? 0 : 100));
        MUST(mixcalc_full_and_part_load(bad[i], 1, &count, &out, NULL) == divided || bad[i] == 1e300);
        MUST(mixcalc_graduations_of_volume(bad[i], 1, 1, &count, NULL) >= 100);
        MUST(mixcalc_graduations_of_mass(1, bad[i], 1, &count, NULL) >= 100);
        MUST(count == 7);
    }
    {
        mixcalc_error error = MIXCALC_ERROR_INIT;
        double out = 7;
        MUST(mixcalc_convert(1, "gal", "L", &out, &error) == MIXCALC_STATUS_AMBIGUOUS_UNIT && strstr(error.allowed, "US gal"));
        MUST(mixcalc_convert(1, "L", "kg", &out, &error) == MIXCALC_STATUS_WRONG_QUANTITY);
        MUST(mixcalc_convert(1, "\xff", "kg", &out, &error) == MIXCALC_STATUS_UNKNOWN_UNIT);
        MUST(mixcalc_convert(NAN, "L", "L", &out, &error) == MIXCALC_STATUS_NOT_FINITE);
        MUST(mixcalc_read_quantity("1 L/ha", "volume rat", "L/ha", &out, &error) == MIXCALC_STATUS_KIND);
        MUST(strstr(error.allowed, "volume rate") && strcmp(error.path, "kind") == 0);
        MUST(mixcalc_read_quantity("1 kg/ha", "volume rate", "L/ha", &out, &error) == MIXCALC_STATUS_WRONG_QUANTITY);
        MUST(out == 7);
    }
}

/* --- Stops --- */

static void a_stopped_plan_gives_no_amounts_and_no_steps(const mixcalc_plan *plan)
{
    mixcalc_error error = MIXCALC_ERROR_INIT;
    mixcalc_totals totals = MIXCALC_TOTALS_INIT;
    mixcalc_load load = MIXCALC_LOAD_INIT;
    mixcalc_measured_amount measured = MIXCALC_MEASURED_AMOUNT_INIT;
    mixcalc_measured_total total = MIXCALC_MEASURED_TOTAL_INIT;
    mixcalc_drawn drawn = MIXCALC_DRAWN_INIT;
    mixcalc_step step = MIXCALC_STEP_INIT;
    mixcalc_ledger ledger = MIXCALC_LEDGER_INIT;
    mixcalc_account account = MIXCALC_ACCOUNT_INIT;
    mixcalc_finding finding = MIXCALC_FINDING_INIT;
    mixcalc_amount exact;
    char *text = NULL;
    size_t i;

    MUST(mixcalc_plan_totals(plan, &totals, NULL) == MIXCALC_STATUS_OK && totals.usable == 0);
    MUST(totals.mix_l > 0 && totals.load_count > 0 && totals.load_entries > 0 && totals.products > 0 && totals.findings > 0);
    MUST(mixcalc_plan_exact_amount(plan, 0, 0, &exact, NULL) == MIXCALC_STATUS_OK && exact.kind != 0);
    for (i = 0; i < totals.load_entries; i++)
        MUST(mixcalc_plan_load(plan, i, &load, NULL) == MIXCALC_STATUS_OK && load.steps == 0);
    for (i = 0; i < 3; i++) { /* whatever the index */
        size_t index = i == 2 ? SIZE_MAX : i;
        MUST(mixcalc_plan_measured_amount(plan, index, index, &measured, &error) == MIXCALC_STATUS_PLAN_STOPPED);
        MUST(mixcalc_plan_measured_total(plan, index, &total, &error) == MIXCALC_STATUS_PLAN_STOPPED);
        MUST(mixcalc_plan_drawn(plan, index, index, &drawn, &error) == MIXCALC_STATUS_PLAN_STOPPED);
        MUST(mixcalc_plan_step(plan, index, index, &step, &error) == MIXCALC_STATUS_PLAN_STOPPED);
        MUST(mixcalc_plan_account(plan, index, &account, &error) == MIXCALC_STATUS_PLAN_STOPPED);
    }
    MUST(mixcalc_plan_ledger(plan, &ledger, &error) == MIXCALC_STATUS_PLAN_STOPPED);
    MUST(mixcalc_plan_sheet(plan, &text, NULL, &error) == MIXCALC_STATUS_PLAN_STOPPED);
    MUST(mixcalc_plan_sheet_with_working(plan, &text, NULL, &error) == MIXCALC_STATUS_PLAN_STOPPED);
    MUST(text == NULL && measured.product == NULL && total.product == NULL && step.action == 0 && ledger.mix_made_l == 0);
    MUST(mixcalc_plan_finding(plan, 0, &finding, NULL) == MIXCALC_STATUS_OK && finding.severity == MIXCALC_SEVERITY_STOP);
    MUST(strstr(error.message, finding.message) != NULL);
    MUST(mixcalc_plan_findings_page(plan, &text, NULL, NULL) == MIXCALC_STATUS_OK && strlen(text) > 0);
    mixcalc_string_free(text);
}

/* --- Threads --- */

enum { THREADS = 8, PLANS = 125 };

static const mixcalc_plan *shared;
static const char *shared_json;

static void *plan_again_and_again(void *of)
{
    int i;

    for (i = 0; i < PLANS; i++) {
        mixcalc_totals totals = MIXCALC_TOTALS_INIT;
        mixcalc_error error = MIXCALC_ERROR_INIT;
        mixcalc_plan *plan = NULL;
        char *own = NULL, *text = NULL;
        double mix_l = 0;
        MUST(mixcalc_plan_new(job, job_len, &plan, &error) == MIXCALC_STATUS_OK);
        MUST(mixcalc_plan_json(plan, &own, NULL, &error) == MIXCALC_STATUS_OK && strcmp(own, shared_json) == 0);
        MUST(mixcalc_plan_json(shared, &text, NULL, &error) == MIXCALC_STATUS_OK && strcmp(text, shared_json) == 0);
        MUST(mixcalc_plan_totals(shared, &totals, NULL) == MIXCALC_STATUS_OK && totals.usable == 1);
        MUST(mixcalc_mix_l(totals.volume_rate_l_per_ha, totals.area_ha, &mix_l, NULL) == MIXCALC_STATUS_OK && mix_l >= totals.mix_l);
        MUST(mixcalc_plan_new("{}", 2, &plan, &error) == MIXCALC_STATUS_MISSING_INPUT && error.code == MIXCALC_STATUS_MISSING_INPUT);
        mixcalc_string_free(own);
        mixcalc_string_free(text);
        mixcalc_plan_free(plan);
    }
    return of;
}

static void a_thousand_plans_from_eight_threads(const mixcalc_plan *plan)
{
    pthread_t threads[THREADS];
    char *text = NULL;
    int i;

    MUST(mixcalc_plan_json(plan, &text, NULL, NULL) == MIXCALC_STATUS_OK);
    shared = plan;
    shared_json = text;
    for (i = 0; i < THREADS; i++)
        MUST(pthread_create(&threads[i], NULL, plan_again_and_again, NULL) == 0);
    for (i = 0; i < THREADS; i++) {
        MUST(pthread_join(threads[i], NULL) == 0);
    }
    mixcalc_string_free(text);
}

/* --- Calibration --- */

static uint32_t narrower(mixcalc_trial *trial, void *context, double *out_value)
{
    const mixcalc_uncertain *const *swaths = context;
    double left, right;
    uint32_t status = mixcalc_trial_of(trial, swaths[0], "m", &left, NULL);

    if (status == MIXCALC_STATUS_OK)
        status = mixcalc_trial_of(trial, swaths[1], "m", &right, NULL);
    *out_value = left < right ? left : right;
    return status;
}

static uint32_t gives_up(mixcalc_trial *trial, void *context, double *out_value)
{
    (void)trial, (void)context, (void)out_value;
    return 42;
}

static uint32_t gives_nothing(mixcalc_trial *trial, void *context, double *out_value)
{
    MUST(mixcalc_trial_of(NULL, NULL, "m", out_value, NULL) == MIXCALC_STATUS_NULL_POINTER);
    MUST(mixcalc_trial_of(trial, NULL, "m", out_value, NULL) == MIXCALC_STATUS_NULL_POINTER);
    (void)context;
    *out_value = NAN;
    return MIXCALC_STATUS_OK;
}

#define MADE(call) MUST((call) == MIXCALC_STATUS_OK)
#define REFUSED(status, place, call)                       \
    do {                                                   \
        mixcalc_error error = MIXCALC_ERROR_INIT;          \
        mixcalc_error *e = &error;                         \
        MUST((call) == (status) && error.code == (status)); \
        MUST(strcmp(error.path, place) == 0);              \
    } while (0)

static void uncertain_values_are_made_combined_and_refused(void)
{
    const double repeats[] = {1.19, 1.2, 1.21};
    mixcalc_uncertain *flow = NULL, *tolerance, *resolution, *expanded, *certain, *made = NULL, *none = NULL;
    mixcalc_contribution contribution = MIXCALC_CONTRIBUTION_INIT;
    const mixcalc_uncertain *all[3];
    double value = 7, low = 7, high = 7;
    size_t count = 7;
    uint32_t side = 7;

    REFUSES(mixcalc_uncertain_exact(1, NULL, &made, e), "unit");
    REFUSES(mixcalc_uncertain_exact(1, "m", NULL, e), "out_uncertain");
    REFUSES(mixcalc_uncertain_from_repeats(NULL, repeats, 3, "L/min", &made, e), "name");
    REFUSES(mixcalc_uncertain_from_repeats("flow", NULL, 3, "L/min", &made, e), "repeats");
    REFUSES(mixcalc_uncertain_from_tolerance("speed", 1, 1, NULL, &made, e), "unit");
    REFUSED(MIXCALC_STATUS_LENGTH, "repeats_count", mixcalc_uncertain_from_repeats("flow", repeats, SIZE_MAX, "L/min", &made, e));
    REFUSED(MIXCALC_STATUS_LENGTH, "repeats_count", mixcalc_uncertain_from_repeats("flow", repeats, SIZE_MAX / 8, "L/min", &made, e));
    MUST(mixcalc_uncertain_from_repeats("flow", repeats, 0, "L/min", &made, NULL) != MIXCALC_STATUS_OK);
    MUST(mixcalc_uncertain_from_repeats("flow", repeats, 1, "L/min", &made, NULL) != MIXCALC_STATUS_OK);
    REFUSED(MIXCALC_STATUS_NOT_FINITE, "value", mixcalc_uncertain_exact(NAN, "m", &made, e));
    REFUSED(MIXCALC_STATUS_UNKNOWN_UNIT, "value", mixcalc_uncertain_exact(1, "cubit", &made, e));
    MUST(mixcalc_uncertain_from_standard_uncertainty("x", 1, 0.1, NAN, "m", &made, NULL) == MIXCALC_STATUS_NOT_FINITE);
    MUST(mixcalc_uncertain_from_standard_uncertainty("x", 1, -0.1, 3, "m", &made, NULL) != MIXCALC_STATUS_OK);
    MUST(mixcalc_uncertain_from_standard_uncertainty("x", 1, 0.1, 0, "m", &made, NULL) == MIXCALC_STATUS_OUT_OF_RANGE);
    MUST(made == NULL);
    mixcalc_uncertain_free(NULL);

    MADE(mixcalc_uncertain_from_repeats("flow", repeats, 3, "L/min", &flow, NULL));
    MADE(mixcalc_uncertain_from_tolerance("jug", 1, 0.02, "L/min", &tolerance, NULL));
    MADE(mixcalc_uncertain_from_resolution("display", 1, 0.01, "L/min", &resolution, NULL));
    MADE(mixcalc_uncertain_from_expanded_uncertainty("meter", 1, 0.02, 2, INFINITY, "L/min", &expanded, NULL));
    MADE(mixcalc_uncertain_exact(2, "1", &certain, NULL));
    MADE(mixcalc_uncertain_standard_uncertainty(expanded, "L/min", &value, NULL));
    MUST(fabs(value - 0.01) < 1e-15);
    MADE(mixcalc_uncertain_degrees_of_freedom(flow, &value, NULL));
    MUST(fabs(value - 2) < 1e-12);
    MADE(mixcalc_uncertain_degrees_of_freedom(expanded, &value, NULL));
    MUST(isinf(value));

    all[0] = flow, all[1] = tolerance, all[2] = NULL;
    REFUSES(mixcalc_uncertain_sum(all, 3, &made, e), "values[2]");
    REFUSES(mixcalc_uncertain_mean(NULL, 3, &made, e), "values");
    REFUSED(MIXCALC_STATUS_LENGTH, "values_count", mixcalc_uncertain_harmonic_mean(all, SIZE_MAX, &made, e));
    REFUSED(MIXCALC_STATUS_MISSING_INPUT, "values", mixcalc_uncertain_sum(NULL, 0, &made, e));
    REFUSES(mixcalc_uncertain_plus(NULL, flow, &made, e), "a");
    REFUSES(mixcalc_uncertain_over(flow, NULL, &made, e), "b");
    MUST(mixcalc_uncertain_plus(flow, certain, &made, NULL) == MIXCALC_STATUS_UNLIKE_QUANTITIES);
    MUST(mixcalc_uncertain_power(flow, certain, &made, NULL) != MIXCALC_STATUS_OK && made == NULL);

    all[2] = resolution;
    MADE(mixcalc_uncertain_sum(all, 3, &made, NULL));
    MADE(mixcalc_uncertain_value(made, "L/min", &value, NULL));
    MUST(fabs(value - 3.2) < 1e-12);
    MADE(mixcalc_uncertain_contributions(made, &count, NULL));
    MUST(count == 3);
    MADE(mixcalc_uncertain_contribution(made, 0, "L/min", &contribution, NULL));
    MUST(strcmp(contribution.name, "jug") == 0 && contribution.share_of_variance_percent > 50);
    REFUSED(MIXCALC_STATUS_INDEX, "index", mixcalc_uncertain_contribution(made, 3, "L/min", &contribution, e));
    EVERY_SIZE(mixcalc_contribution, MIXCALC_CONTRIBUTION_INIT, share_of_variance_percent,
               mixcalc_uncertain_contribution(made, 0, "L/min", o, &error));
    MADE(mixcalc_uncertain_interval(made, 95, "L/min", &low, &high, NULL));
    MUST(low < value && value < high);
    MUST(mixcalc_uncertain_interval(made, 100, "L/min", &low, &high, NULL) == MIXCALC_STATUS_OUT_OF_RANGE);
    MUST(mixcalc_uncertain_interval(made, NAN, "L/min", &low, &high, NULL) == MIXCALC_STATUS_NOT_FINITE);
    MUST(mixcalc_uncertain_value(made, "ha", &low, NULL) != MIXCALC_STATUS_OK);
    REFUSES(mixcalc_uncertain_interval(made, 95, "L/min", NULL, &high, e), "out_low");
    MADE(mixcalc_uncertain_probability_over_percent(made, 3.2, "L/min", &high, NULL));
    MUST(fabs(high - 50) < 1e-6);
    MADE(mixcalc_uncertain_side_of(made, 4, "L/min", 95, &side, NULL));
    MUST(side == MIXCALC_SIDE_UNDER);
    MADE(mixcalc_uncertain_side_of(made, 3.2, "L/min", 95, &side, NULL));
    MUST(side == MIXCALC_SIDE_CANNOT_TELL);
    MADE(mixcalc_uncertain_aim_under(made, 3.2, "L/min", 5, &high, NULL));
    MUST(high < 3.2 && high > 3);
    MUST(mixcalc_uncertain_aim_under(made, 3.2, "L/min", 50, &high, NULL) == MIXCALC_STATUS_OUT_OF_RANGE);

    MADE(mixcalc_uncertain_clone(made, &none, NULL));
    mixcalc_uncertain_free(made);
    MADE(mixcalc_uncertain_minus(none, none, &made, NULL));
    MADE(mixcalc_uncertain_standard_uncertainty(made, "L/min", &value, NULL));
    MUST(value == 0);
    mixcalc_uncertain_free(none);
    REFUSED(MIXCALC_STATUS_KIND, "kind", mixcalc_uncertain_claim(flow, "wetness", &none, e));
    mixcalc_uncertain_free(made);
    mixcalc_uncertain_free(flow), mixcalc_uncertain_free(tolerance), mixcalc_uncertain_free(resolution);
    mixcalc_uncertain_free(expanded), mixcalc_uncertain_free(certain);
}

static void calibrations_say_what_they_hold_for(void)
{
    mixcalc_uncertain *flow, *slow, *fast, *swath, *rate = NULL;
    mixcalc_calibration *calibration = NULL, *with = NULL;
    mixcalc_setting may = MIXCALC_SETTING_INIT, july;
    const mixcalc_uncertain *lent = NULL;
    uint32_t differences = 7;
    double value;

    MADE(mixcalc_uncertain_exact(1.2, "L/min", &flow, NULL));
    MADE(mixcalc_uncertain_exact(8, "km/h", &slow, NULL));
    MADE(mixcalc_uncertain_exact(10, "km/h", &fast, NULL));
    MADE(mixcalc_uncertain_exact(0.5, "m", &swath, NULL));
    REFUSES(mixcalc_calibration_from_flow(NULL, slow, swath, &calibration, e), "flow");
    REFUSES(mixcalc_calibration_from_flow(flow, slow, NULL, &calibration, e), "swath");
    REFUSES(mixcalc_calibration_from_flow(flow, slow, swath, NULL, e), "out_calibration");
    REFUSED(MIXCALC_STATUS_WRONG_QUANTITY, "speed", mixcalc_calibration_from_flow(flow, swath, swath, &calibration, e));
    REFUSED(MIXCALC_STATUS_CHOICE, "alleys", mixcalc_calibration_from_alleys(flow, slow, swath, 0, &calibration, e));
    REFUSED(MIXCALC_STATUS_CHOICE, "alleys", mixcalc_calibration_from_alleys(flow, slow, swath, 4, &calibration, e));
    REFUSES(mixcalc_calibration_from_band(flow, slow, swath, swath, &calibration, NULL, e), "out_field");
    MUST(calibration == NULL);
    MADE(mixcalc_calibration_from_flow(flow, slow, swath, &calibration, NULL));
    MADE(mixcalc_calibration_after_speed(calibration, slow, fast, &rate, NULL));
    MADE(mixcalc_uncertain_value(rate, "L/ha", &value, NULL));
    MUST(fabs(value - 144) < 1e-9);
    MUST(mixcalc_calibration_after_flow(calibration, slow, fast, &rate, NULL) == MIXCALC_STATUS_WRONG_QUANTITY);
    REFUSES(mixcalc_calibration_volume_rate(NULL, &lent, e), "calibration");
    {
        char *text = NULL;
        REFUSED(MIXCALC_STATUS_CHOICE, "system", mixcalc_calibration_working(calibration, 9, &text, NULL, e));
        MUST(text == NULL);
    }

    may.sprayer = "knapsack 2", may.operator_name = "A", may.nozzles = "4 x 03", may.pressure_kpa = 200;
    may.ground = "level stubble", may.date = "2026-05-01";
    july = may;
    july.operator_name = "B", july.date = "2026-07-01";
    MADE(mixcalc_calibration_differences(calibration, &july, 30, &differences, NULL));
    MUST(differences == MIXCALC_DIFFERENCE_UNSTATED);
    MADE(mixcalc_calibration_with_setting(calibration, &may, &with, NULL));
    MADE(mixcalc_calibration_differences(with, &july, 30, &differences, NULL));
    MUST(differences == (MIXCALC_DIFFERENCE_OPERATOR | MIXCALC_DIFFERENCE_TOO_OLD));
    MADE(mixcalc_calibration_differences(with, &may, 30, &differences, NULL));
    MUST(differences == 0);
    REFUSES(mixcalc_calibration_differences(with, NULL, 30, &differences, e), "use_in");
    july.date = NULL;
    REFUSES(mixcalc_calibration_differences(with, &july, 30, &differences, e), "use_in.date");
    july.date = "2026-02-30";
    MUST(mixcalc_calibration_differences(with, &july, 30, &differences, NULL) == MIXCALC_STATUS_OUT_OF_RANGE);
    july = may;
    july.struct_size--;
    REFUSED(MIXCALC_STATUS_STRUCT_SIZE, "use_in", mixcalc_calibration_differences(with, &july, 30, &differences, e));
    MUST(mixcalc_calibration_differences(with, &may, NAN, &differences, NULL) == MIXCALC_STATUS_NOT_FINITE);

    mixcalc_calibration_free(NULL);
    mixcalc_calibration_free(calibration);
    mixcalc_calibration_free(with);
    mixcalc_uncertain_free(flow), mixcalc_uncertain_free(slow), mixcalc_uncertain_free(fast);
    mixcalc_uncertain_free(swath), mixcalc_uncertain_free(rate);
}

static void nozzles_are_rated_fitted_and_checked(void)
{
    const double pressures[] = {100, 200, 300, 400}, flows[] = {0.7, 0.98, 1.21, 1.39};
    const double first[] = {1.207, 1.21, 1.213}, second[] = {1.197, 1.2, 1.203}, worn[] = {1.342, 1.345, 1.348};
    mixcalc_catches catches[] = {
        {"1", first, 3, MIXCALC_BOOM_LEFT, 0}, {"2", second, 3, MIXCALC_BOOM_RIGHT, 0}, {"3", worn, 3, MIXCALC_BOOM_RIGHT, 0}};
    mixcalc_nozzle_check check = MIXCALC_NOZZLE_CHECK_INIT;
    mixcalc_checked_set summary = MIXCALC_CHECKED_SET_INIT;
    mixcalc_checked_nozzle nozzle_of = MIXCALC_CHECKED_NOZZLE_INIT;
    mixcalc_rated rated = MIXCALC_RATED_INIT;
    mixcalc_nozzle *nozzle = NULL, *fitted = NULL, *ranged = NULL;
    mixcalc_uncertain *new_flow, *pressure, *flow;
    mixcalc_checked *set = NULL;
    const char *names[MIXCALC_NOZZLE_SIZES];
    double kpa[MIXCALC_NOZZLE_SIZES], value;
    size_t count;
    uint32_t bound;

    MADE(mixcalc_rated_flow("03", MIXCALC_SIZE_NOMINAL, &rated, NULL));
    MUST(rated.flow_l_per_min == 1.2 && rated.pressure_kpa == 300 && rated.confidence == MIXCALC_CONFIDENCE_CERTAIN);
    MUST(strstr(rated.source, "ISO 10625") != NULL);
    REFUSED(MIXCALC_STATUS_CHOICE, "definition", mixcalc_rated_flow("03", 3, &rated, e));
    REFUSED(MIXCALC_STATUS_UNKNOWN_CHOICE, "size", mixcalc_rated_flow("0300", MIXCALC_SIZE_NOMINAL, &rated, e));
    REFUSES(mixcalc_rated_flow(NULL, MIXCALC_SIZE_NOMINAL, &rated, e), "size");
    EVERY_SIZE(mixcalc_rated, MIXCALC_RATED_INIT, confidence, mixcalc_rated_flow("03", MIXCALC_SIZE_BY_CUSTOM, o, &error));
    MADE(mixcalc_required_sizes(1, 200, 400, names, kpa, MIXCALC_NOZZLE_SIZES, &count, NULL));
    MUST(count == 2 && strcmp(names[0], "025") == 0 && strcmp(names[1], "03") == 0 && fabs(kpa[0] - 300) < 1e-9);
    names[1] = NULL;
    MADE(mixcalc_required_sizes(1, 200, 400, names, kpa, 1, &count, NULL));
    MUST(count == 2 && names[1] == NULL);
    MADE(mixcalc_required_sizes(1, 200, 400, NULL, NULL, 0, &count, NULL));
    REFUSES(mixcalc_required_sizes(1, 200, 400, NULL, kpa, 1, &count, e), "out_names");

    MADE(mixcalc_nozzle_rated("03", MIXCALC_SIZE_NOMINAL, &nozzle, NULL));
    MADE(mixcalc_uncertain_exact(75, "kPa", &pressure, NULL));
    MADE(mixcalc_nozzle_flow_at(nozzle, pressure, &flow, NULL));
    MADE(mixcalc_uncertain_value(flow, "L/min", &value, NULL));
    MUST(fabs(value - 0.6) < 1e-12);
    mixcalc_uncertain_free(flow);
    MADE(mixcalc_nozzle_from_points("test", pressures, flows, 4, &fitted, NULL));
    MADE(mixcalc_nozzle_exponent(fitted, &flow, NULL));
    MADE(mixcalc_uncertain_value(flow, "1", &value, NULL));
    MUST(value > 0.45 && value < 0.55);
    REFUSES(mixcalc_nozzle_from_points("test", pressures, NULL, 4, &fitted, e), "flows_l_per_min");
    MUST(mixcalc_nozzle_from_points("test", pressures, flows, 2, &ranged, NULL) == MIXCALC_STATUS_OUT_OF_RANGE);
    REFUSES(mixcalc_nozzle_with_exponent(nozzle, NULL, &ranged, e), "exponent");
    MADE(mixcalc_nozzle_with_pressure_range(nozzle, 150, 400, "maker", &ranged, NULL));
    MADE(mixcalc_nozzle_broken_limit(ranged, 100, &bound, &value, NULL));
    MUST(bound == MIXCALC_BOUND_AT_LEAST && fabs(value - 150) < 1e-9);
    MADE(mixcalc_nozzle_broken_limit(ranged, 300, &bound, &value, NULL));
    MUST(bound == 0 && value == 0);
    MUST(mixcalc_fan_width_m(UINT32_MAX, 0.5, &value, NULL) == MIXCALC_STATUS_OUT_OF_RANGE);
    MUST(mixcalc_fan_width_m(256 + 110, 0.5, &value, NULL) == MIXCALC_STATUS_OUT_OF_RANGE);
    MADE(mixcalc_boom_height_m(110, 0.5, 100, &value, NULL));
    MUST(fabs(value - 0.35) < 5e-4);

    MADE(mixcalc_uncertain_exact(1.2, "L/min", &new_flow, NULL));
    REFUSES(mixcalc_check_nozzles(&check, catches, 3, &set, e), "check.rated");
    REFUSES(mixcalc_check_nozzles(NULL, catches, 3, &set, e), "check");
    check.rated = new_flow;
    check.caught = &catches[0];
    REFUSED(MIXCALC_STATUS_BOTH_GIVEN, "check.rated", mixcalc_check_nozzles(&check, catches, 3, &set, e));
    check.caught = NULL;
    REFUSES(mixcalc_check_nozzles(&check, NULL, 3, &set, e), "catches");
    REFUSED(MIXCALC_STATUS_LENGTH, "catches_count", mixcalc_check_nozzles(&check, catches, SIZE_MAX, &set, e));
    REFUSED(MIXCALC_STATUS_MISSING_INPUT, "catches", mixcalc_check_nozzles(&check, NULL, 0, &set, e));
    check.of_mean_percent = 4;
    REFUSES(mixcalc_check_nozzles(&check, catches, 3, &set, e), "check.limits_source");
    check.of_mean_percent = 0, check.reject_percent = 10;
    REFUSES(mixcalc_check_nozzles(&check, catches, 3, &set, e), "check.reject_law");
    check.reject_law = "example law";
    catches[1].side = 3;
    REFUSED(MIXCALC_STATUS_CHOICE, "catches[1].side", mixcalc_check_nozzles(&check, catches, 3, &set, e));
    catches[1].side = MIXCALC_BOOM_RIGHT, catches[1].name = NULL;
    REFUSES(mixcalc_check_nozzles(&check, catches, 3, &set, e), "catches[1].name");
    catches[1].name = "2", catches[2].repeats_l_per_min = NULL;
    REFUSES(mixcalc_check_nozzles(&check, catches, 3, &set, e), "catches[2].repeats_l_per_min");
    catches[2].repeats_l_per_min = worn;
    MUST(set == NULL);
    MADE(mixcalc_check_nozzles(&check, catches, 3, &set, NULL));
    MADE(mixcalc_checked_summary(set, &summary, NULL));
    MUST(summary.nozzles == 3 && summary.mean != NULL && summary.of_new != NULL && summary.sides != NULL);
    MUST(summary.advice == MIXCALC_SET_SINGLE_NOZZLES && summary.sides_side == MIXCALC_SIDE_OVER);
    MADE(mixcalc_checked_nozzle_at(set, 2, &nozzle_of, NULL));
    MUST(strcmp(nozzle_of.name, "3") == 0 && nozzle_of.advice == MIXCALC_NOZZLE_REPLACE);
    MUST(nozzle_of.rejected == MIXCALC_SIDE_OVER && nozzle_of.outlier_verdict == MIXCALC_OUTLIER_TOO_FEW);
    MADE(mixcalc_uncertain_value(nozzle_of.of_new, "%", &value, NULL));
    MUST(fabs(value - 100 * (1.345 / 1.2 - 1)) < 1e-9);
    REFUSED(MIXCALC_STATUS_INDEX, "index", mixcalc_checked_nozzle_at(set, 3, &nozzle_of, e));
    EVERY_SIZE(mixcalc_checked_set, MIXCALC_CHECKED_SET_INIT, sides_side, mixcalc_checked_summary(set, o, &error));
    EVERY_SIZE(mixcalc_checked_nozzle, MIXCALC_CHECKED_NOZZLE_INIT, outlier_verdict, mixcalc_checked_nozzle_at(set, 0, o, &error));
    mixcalc_checked_free(set);
    check.rated = NULL, check.caught = &catches[1];
    MADE(mixcalc_check_nozzles(&check, catches, 3, &set, NULL));
    mixcalc_checked_free(set);
    check.struct_size--;
    REFUSED(MIXCALC_STATUS_STRUCT_SIZE, "check", mixcalc_check_nozzles(&check, catches, 3, &set, e));

    mixcalc_checked_free(NULL), mixcalc_nozzle_free(NULL);
    mixcalc_nozzle_free(nozzle), mixcalc_nozzle_free(fitted), mixcalc_nozzle_free(ranged);
    mixcalc_uncertain_free(new_flow), mixcalc_uncertain_free(pressure), mixcalc_uncertain_free(flow);
}

static void repeats_wear_and_trials(void)
{
    const double catches[] = {600, 604, 680, 602}, spreads[] = {1, 5}, times[] = {2, 3};
    const double hours[] = {0, 10, 20, 30, 40}, flows[] = {1, 1.011, 1.019, 1.031, 1.039}, same[] = {1, 1, 1};
    const double steady[] = {1.2, 1.21, 1.2, 1.22, 1.21, 9};
    mixcalc_outlier_test test = MIXCALC_OUTLIER_TEST_INIT;
    mixcalc_worn_at worn = MIXCALC_WORN_AT_INIT;
    mixcalc_chart chart = MIXCALC_CHART_INIT;
    mixcalc_simulation *simulation = NULL, *again = NULL;
    mixcalc_uncertain *mean, *swaths[2];
    mixcalc_wear *wear = NULL;
    uint64_t repeats[2] = {7, 7};
    uint8_t outside[6];
    uint32_t settled = 7;
    double value, other, low, high;

    MADE(mixcalc_repeats_needed(5, 5, 95, repeats, NULL));
    MUST(repeats[0] == 7);
    MUST(mixcalc_repeats_needed(NAN, 5, 95, repeats, NULL) == MIXCALC_STATUS_NOT_FINITE && repeats[0] == 7);
    MADE(mixcalc_best_repeats(spreads, times, 2, 30, repeats, NULL));
    MUST(repeats[0] == 3 && repeats[1] == 8);
    REFUSES(mixcalc_best_repeats(spreads, NULL, 2, 30, repeats, e), "times_min");
    MUST(mixcalc_best_repeats(NULL, NULL, 0, 30, repeats, NULL) == MIXCALC_STATUS_MISSING_INPUT);
    MADE(mixcalc_outlier(catches, 4, 5, &test, NULL));
    MUST(test.verdict == MIXCALC_OUTLIER_FOUND && test.farthest == 2 && test.residual > test.critical);
    REFUSES(mixcalc_outlier(NULL, 4, 5, &test, e), "values");
    REFUSED(MIXCALC_STATUS_LENGTH, "values_count", mixcalc_outlier(catches, SIZE_MAX, 5, &test, e));
    EVERY_SIZE(mixcalc_outlier_test, MIXCALC_OUTLIER_TEST_INIT, verdict, mixcalc_outlier(catches, 4, 5, o, &error));
    MADE(mixcalc_uncertain_from_repeats("catches", catches, 2, "mL", &mean, NULL));
    MADE(mixcalc_is_settled(mean, 10, 95, &settled, NULL));
    MUST(settled == 1);
    MADE(mixcalc_is_settled(mean, 1, 95, &settled, NULL));
    MUST(settled == 0);
    mixcalc_uncertain_free(mean);

    REFUSES(mixcalc_wear_from_flows(hours, NULL, 5, &wear, e), "flows_l_per_min");
    MUST(mixcalc_wear_from_flows(hours, flows, 2, &wear, NULL) == MIXCALC_STATUS_OUT_OF_RANGE && wear == NULL);
    MADE(mixcalc_wear_from_flows(hours, flows, 5, &wear, NULL));
    MADE(mixcalc_wear_at(wear, 50, &value, &other, NULL));
    MUST(value > 1.045 && value < 1.055 && other > 4.5 && other < 5.5);
    MADE(mixcalc_wear_reaches(wear, 1.1, 95, &worn, NULL));
    MUST(worn.is_foreseen && worn.earliest_h > 85 && fabs(worn.expected_h - 101) < 1 && worn.latest_h < 125);
    EVERY_SIZE(mixcalc_worn_at, MIXCALC_WORN_AT_INIT, is_foreseen, mixcalc_wear_reaches(wear, 1.1, 95, o, &error));
    mixcalc_wear_free(wear);
    MADE(mixcalc_wear_from_flows(hours, same, 3, &wear, NULL));
    MADE(mixcalc_wear_reaches(wear, 1.1, 95, &worn, NULL));
    MUST(!worn.is_foreseen && worn.expected_h == 0);
    mixcalc_wear_free(wear), mixcalc_wear_free(NULL);
    MADE(mixcalc_control_chart(steady, 5, outside, &chart, NULL));
    MUST(fabs(chart.high - 1.24125) < 1e-9 && chart.outside == 0 && outside[4] == 0);
    MADE(mixcalc_control_chart(steady, 2, NULL, &chart, NULL));
    EVERY_SIZE(mixcalc_chart, MIXCALC_CHART_INIT, outside, mixcalc_control_chart(steady, 6, NULL, o, &error));

    MADE(mixcalc_uncertain_from_tolerance("left swath", 2, 0.1, "m", &swaths[0], NULL));
    MADE(mixcalc_uncertain_from_tolerance("right swath", 2, 0.1, "m", &swaths[1], NULL));
    REFUSES(mixcalc_simulate(1000, 1, NULL, NULL, "m", &simulation, e), "model");
    REFUSES(mixcalc_simulate(1000, 1, narrower, swaths, NULL, &simulation, e), "unit");
    REFUSED(MIXCALC_STATUS_MODEL, "model", mixcalc_simulate(1000, 1, gives_up, NULL, "m", &simulation, e));
    MUST(mixcalc_simulate(1000, 1, gives_nothing, NULL, "m", &simulation, NULL) == MIXCALC_STATUS_NOT_FINITE);
    MUST(mixcalc_simulate(999, 1, narrower, swaths, "m", &simulation, NULL) == MIXCALC_STATUS_OUT_OF_RANGE);
    MUST(simulation == NULL);
    MADE(mixcalc_simulate(10000, 1, narrower, swaths, "m", &simulation, NULL));
    MADE(mixcalc_simulate(10000, 1, narrower, swaths, "m", &again, NULL));
    MADE(mixcalc_simulation_mean(simulation, "m", &value, NULL));
    MADE(mixcalc_simulation_mean(again, "m", &other, NULL));
    MUST(value == other && fabs(value - (2 - 0.1 / 3)) < 2e-3);
    MADE(mixcalc_simulation_median(simulation, "m", &value, NULL));
    MADE(mixcalc_simulation_interval(simulation, 95, "m", &low, &high, NULL));
    MUST(1.9 <= low && low < value && value < high && high <= 2.1);
    MADE(mixcalc_simulation_standard_uncertainty(simulation, "m", &value, NULL));
    MUST(value > 0.04 && value < 0.06);
    mixcalc_simulation_free(simulation), mixcalc_simulation_free(again), mixcalc_simulation_free(NULL);
    mixcalc_uncertain_free(swaths[0]), mixcalc_uncertain_free(swaths[1]);
}

/* The plan of the job in a file, which the plan does not need afterwards. */
static mixcalc_plan *planned(const char *path)
{
    size_t len;
    char *text = contents(path, &len);
    mixcalc_plan *plan = NULL;

    MUST(mixcalc_plan_new(text, len, &plan, NULL) == MIXCALC_STATUS_OK);
    free(text);
    return plan;
}

int main(int argc, char **argv)
{
    mixcalc_plan *plan, *stopped, *calibrated;

    if (argc != 4) {
        fprintf(stderr, "usage: %s JOB STOPPED CALIBRATED\n", argv[0]);
        return 1;
    }
    job = contents(argv[1], &job_len);
    plan = planned(argv[1]);
    stopped = planned(argv[2]);
    calibrated = planned(argv[3]);
    version_is_the_header_s();
    null_is_refused_or_allowed_as_said(plan);
    structs_of_other_releases_are_served(plan, stopped, calibrated);
    an_index_stays_under_the_count(plan);
    what_is_no_job_gets_a_code_of_the_library();
    what_is_no_number_is_refused_and_nothing_is_written();
    a_stopped_plan_gives_no_amounts_and_no_steps(stopped);
    uncertain_values_are_made_combined_and_refused();
    calibrations_say_what_they_hold_for();
    nozzles_are_rated_fitted_and_checked();
    repeats_wear_and_trials();
    a_thousand_plans_from_eight_threads(plan);
    MUST(strncmp(mixcalc_job_schema(), "{", 1) == 0 && strstr(mixcalc_job_schema(), "mixcalc-job/1"));
    MUST(strncmp(mixcalc_plan_schema(), "{", 1) == 0 && strstr(mixcalc_plan_schema(), "mixcalc-plan/1"));
    mixcalc_plan_free(plan);
    mixcalc_plan_free(stopped);
    mixcalc_plan_free(calibrated);
    free(job);
    puts("all promises hold");
    return 0;
}
