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

static void structs_of_other_releases_are_served(const mixcalc_plan *plan, const mixcalc_plan *stopped)
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

int main(int argc, char **argv)
{
    mixcalc_plan *plan = NULL, *stopped = NULL;
    char *stopped_job;
    size_t stopped_len;

    if (argc != 3) {
        fprintf(stderr, "usage: %s JOB STOPPED\n", argv[0]);
        return 1;
    }
    job = contents(argv[1], &job_len);
    MUST(mixcalc_plan_new(job, job_len, &plan, NULL) == MIXCALC_STATUS_OK);
    stopped_job = contents(argv[2], &stopped_len);
    MUST(mixcalc_plan_new(stopped_job, stopped_len, &stopped, NULL) == MIXCALC_STATUS_OK);
    free(stopped_job); /* the plan does not need it */
    version_is_the_header_s();
    null_is_refused_or_allowed_as_said(plan);
    structs_of_other_releases_are_served(plan, stopped);
    an_index_stays_under_the_count(plan);
    what_is_no_job_gets_a_code_of_the_library();
    what_is_no_number_is_refused_and_nothing_is_written();
    a_stopped_plan_gives_no_amounts_and_no_steps(stopped);
    a_thousand_plans_from_eight_threads(plan);
    MUST(strncmp(mixcalc_job_schema(), "{", 1) == 0 && strstr(mixcalc_job_schema(), "mixcalc-job/1"));
    MUST(strncmp(mixcalc_plan_schema(), "{", 1) == 0 && strstr(mixcalc_plan_schema(), "mixcalc-plan/1"));
    mixcalc_plan_free(plan);
    mixcalc_plan_free(stopped);
    free(job);
    puts("all promises hold");
    return 0;
}
