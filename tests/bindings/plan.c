/*
 * Plans the job document in a file through the C interface.
 *
 *     plan JOB          prints the plan document and exits 0; or prints code, path and message of the error, one a line, and exits 2
 *     plan --view JOB   prints what the structs of the interface say of the plan, in the shape of the plan document
 *     plan --pages JOB  prints load sheet, load sheet with working, findings page, working and job; each after a line "=== name status"
 *
 * The job is planned twice and must come out alike.
 */
#include "mixcalc.h"
#include "must.h"

#include <inttypes.h>

static const char *const measure_kinds[] = {"", "vessel", "scale", "pack"};
static const char *const actions[] = {"", "fill", "measure", "premix", "rinse", "agitate", "top-up", "wait", "start-agitator", "rinse-containers"};
static const char *const severities[] = {"", "stop", "caution", "note"};
static const char *const bounds[] = {"", "at most", "at least"};
static const char *const forces[] = {"", "law", "label", "standard", "advice", "fact"};

static void print_text(const char *text)
{
    const unsigned char *at = (const unsigned char *)text;

    putchar('"');
    for (; *at; at++) {
        if (*at == '"' || *at == '\\')
            printf("\\%c", *at);
        else if (*at < 0x20)
            printf("\\u%04x", *at);
        else
            putchar(*at);
    }
    putchar('"');
}

/* "key": {"value": 1, "unit": "L"}; 17 digits give every double back. */
static void print_value(const char *key, double value, const char *unit)
{
    printf("\"%s\": {\"value\": %.17g, \"unit\": ", key, value);
    print_text(unit);
    printf("}, ");
}

static void print_amount(const char *key, mixcalc_amount amount)
{
    MUST(amount.reserved == 0);
    switch (amount.kind) {
    case 0:
        MUST(amount.volume_l == 0 && amount.mass_kg == 0);
        printf("\"%s\": null, ", key);
        break;
    case MIXCALC_KIND_VOLUME:
        MUST(amount.mass_kg == 0);
        print_value(key, amount.volume_l, "L");
        break;
    default:
        MUST(amount.kind == MIXCALC_KIND_MASS && amount.volume_l == 0);
        print_value(key, amount.mass_kg, "kg");
    }
}

static void print_gap(mixcalc_amount exact, double percent, double l_per_ha, double kg_per_ha)
{
    int by_volume = exact.kind == MIXCALC_KIND_VOLUME;

    printf("\"gap\": {\"percent\": %.17g, ", percent);
    print_value("dose", by_volume ? l_per_ha : kg_per_ha, by_volume ? "L/ha" : "kg/ha");
    printf("\"end\": 0}, ");
    MUST((by_volume ? kg_per_ha : l_per_ha) == 0);
}

static void print_fillings(const mixcalc_measured_amount *amount)
{
    printf("\"fillings\": [");
    if (amount->fillings) {
        printf("{\"count\": %" PRIu64 ", ", amount->fillings);
        print_amount("amount", amount->filling);
        printf("\"end\": 0}");
    }
    if (amount->last_filling.kind) {
        printf(", {\"count\": 1, ");
        print_amount("amount", amount->last_filling);
        printf("\"end\": 0}");
    }
    printf("], ");
}

static void print_step(const mixcalc_plan *plan, size_t load, size_t index)
{
    mixcalc_step step = MIXCALC_STEP_INIT;

    MUST(mixcalc_plan_step(plan, load, index, &step, NULL) == MIXCALC_STATUS_OK);
    MUST(step.action >= MIXCALC_ACTION_FILL && step.action <= MIXCALC_ACTION_RINSE_CONTAINERS && step.reserved == 0);
    printf("{\"do\": \"%s\", ", actions[step.action]);
    if (step.product) {
        printf("\"product\": ");
        print_text(step.product);
        printf(", ");
    }
    if (step.measure) {
        printf("\"measure\": ");
        print_text(step.measure);
        printf(", ");
    }
    switch (step.action) {
    case MIXCALC_ACTION_FILL:
    case MIXCALC_ACTION_TOP_UP:
        print_value("carrier", step.carrier_l, "L");
        if (step.has_mark)
            print_value("mark", step.mark_l, "L");
        else
            printf("\"mark\": null, ");
        if (step.has_rest)
            print_value("rest", step.rest_l, "L");
        else
            printf("\"rest\": null, ");
        break;
    case MIXCALC_ACTION_MEASURE: {
        mixcalc_measured_amount amount = MIXCALC_MEASURED_AMOUNT_INIT;
        MUST(mixcalc_plan_measured_amount(plan, load, step.product_index, &amount, NULL) == MIXCALC_STATUS_OK);
        MUST(strcmp(amount.product, step.product) == 0);
        print_fillings(&amount);
        break;
    }
    case MIXCALC_ACTION_PREMIX:
        print_value("carrier", step.carrier_l, "L");
        break;
    case MIXCALC_ACTION_RINSE_CONTAINERS:
        printf("\"containers\": %" PRIu64 ", ", step.containers);
        /* fall through */
    case MIXCALC_ACTION_RINSE:
        printf("\"times\": %" PRIu64 ", ", step.times);
        print_value("each", step.each_l, "L");
        break;
    case MIXCALC_ACTION_WAIT:
        print_value("least", step.least_wait_s, "s");
        if (step.most_wait_s)
            print_value("most", step.most_wait_s, "s");
        else
            printf("\"most\": null, ");
        break;
    }
    print_value("in_tank", step.in_tank_l, "L");
    printf("\"end\": 0}");
}

/* A span in a unit, or of pure numbers for NULL; an end that is 0 is none. */
static void print_span(const char *key, double value, double low, double high, const char *unit)
{
    static const char *const ends[] = {"value", "low", "high"};
    const double values[] = {value, low, high};
    size_t i;

    printf("\"%s\": {", key);
    for (i = 0; i < 3; i++) {
        if (values[i] == 0)
            printf("\"%s\": null, ", ends[i]);
        else if (unit)
            print_value(ends[i], values[i], unit);
        else
            printf("\"%s\": %.17g, ", ends[i], values[i]);
    }
    printf("\"end\": 0}, ");
}

static void print_run_out(const mixcalc_plan *plan, size_t load)
{
    mixcalc_run_out run_out = MIXCALC_RUN_OUT_INIT;

    MUST(mixcalc_plan_run_out(plan, load, &run_out, NULL) == MIXCALC_STATUS_OK);
    if (run_out.area_ha == 0) {
        MUST(run_out.area_high_ha == 0 && run_out.length_m == 0 && run_out.passes == 0);
        return;
    }
    printf("\"run_out\": {");
    print_span("area", run_out.area_ha, run_out.area_low_ha, run_out.area_high_ha, "ha");
    if (run_out.length_m != 0)
        print_span("length", run_out.length_m, run_out.length_low_m, run_out.length_high_m, "m");
    if (run_out.passes != 0)
        print_span("passes", run_out.passes, run_out.passes_low, run_out.passes_high, NULL);
    printf("\"end\": 0}, ");
}

static void print_delivered(const mixcalc_plan *plan, size_t load, size_t product)
{
    mixcalc_delivered delivered = MIXCALC_DELIVERED_INIT;

    MUST(mixcalc_plan_delivered(plan, load, product, &delivered, NULL) == MIXCALC_STATUS_OK);
    MUST(delivered.reserved == 0);
    if (!delivered.unit) {
        MUST(delivered.dose == 0 && delivered.high == 0 && !delivered.has_maximum && delivered.aim == 0);
        return;
    }
    printf("\"delivered\": {");
    print_value("dose", delivered.dose, delivered.unit);
    print_value("standard_uncertainty", delivered.standard_uncertainty, delivered.unit);
    printf("\"interval\": {");
    print_value("low", delivered.low, delivered.unit);
    print_value("high", delivered.high, delivered.unit);
    printf("\"end\": 0}, ");
    if (delivered.has_maximum)
        printf("\"probability_over\": %.17g, ", delivered.probability_over);
    else
        printf("\"probability_over\": null, ");
    if (delivered.aim != 0)
        print_value("aim", delivered.aim, delivered.unit);
    else
        printf("\"aim\": null, ");
    printf("\"end\": 0}, ");
}

static void print_uncertainty(const mixcalc_plan *plan, size_t load, size_t product)
{
    mixcalc_uncertainty uncertainty = MIXCALC_UNCERTAINTY_INIT;

    MUST(mixcalc_plan_uncertainty(plan, load, product, &uncertainty, NULL) == MIXCALC_STATUS_OK);
    MUST(uncertainty.reserved == 0);
    if (!uncertainty.is_known) {
        MUST(uncertainty.percent == 0 && uncertainty.amount.kind == 0);
        return;
    }
    printf("\"uncertainty\": {\"percent\": %.17g, ", uncertainty.percent);
    print_amount("amount", uncertainty.amount);
    printf("\"end\": 0}, ");
}

static void print_emptied(const mixcalc_plan *plan, size_t load, size_t product)
{
    mixcalc_emptied emptied = MIXCALC_EMPTIED_INIT;
    uint64_t number = 0;
    size_t i;

    MUST(mixcalc_plan_emptied(plan, load, product, &emptied, NULL) == MIXCALC_STATUS_OK);
    MUST(emptied.reserved == 0);
    MUST(mixcalc_plan_emptying_load(plan, load, product, emptied.loads, &number, NULL) == MIXCALC_STATUS_INDEX);
    if (!emptied.is_known) {
        MUST(emptied.count == 0 && emptied.loads == 0);
        return;
    }
    printf("\"emptied\": {\"count\": %" PRIu64 ", \"loads\": [", emptied.count);
    for (i = 0; i < emptied.loads; i++) {
        MUST(mixcalc_plan_emptying_load(plan, load, product, i, &number, NULL) == MIXCALC_STATUS_OK);
        printf("%s%" PRIu64, i ? ", " : "", number);
    }
    printf("]}, ");
}

static void print_load(const mixcalc_plan *plan, const mixcalc_totals *totals, size_t index)
{
    mixcalc_load load = MIXCALC_LOAD_INIT;
    mixcalc_mix_uncertainty mix = MIXCALC_MIX_UNCERTAINTY_INIT;
    size_t i;

    MUST(mixcalc_plan_load(plan, index, &load, NULL) == MIXCALC_STATUS_OK);
    printf("{\"first\": %" PRIu64 ", \"last\": %" PRIu64 ", \"count\": %" PRIu64 ", ", load.first, load.last, load.count);
    print_value("mix", load.mix_l, "L");
    MUST(mixcalc_plan_mix_uncertainty(plan, index, &mix, NULL) == MIXCALC_STATUS_OK);
    if (mix.percent != 0) {
        printf("\"mix_uncertainty\": {\"percent\": %.17g, ", mix.percent);
        print_value("amount", mix.mix_l, "L");
        printf("\"end\": 0}, ");
    } else {
        MUST(mix.mix_l == 0);
    }
    print_value("carrier", load.carrier_l, "L");
    print_value("area", load.area_ha, "ha");
    print_run_out(plan, index);
    printf("\"products\": [");
    for (i = 0; i < totals->products; i++) {
        mixcalc_measured_amount amount = MIXCALC_MEASURED_AMOUNT_INIT;
        mixcalc_amount exact;
        const char *name;
        MUST(mixcalc_plan_product_name(plan, i, &name, NULL) == MIXCALC_STATUS_OK);
        MUST(mixcalc_plan_exact_amount(plan, index, i, &exact, NULL) == MIXCALC_STATUS_OK);
        printf("%s{\"name\": ", i ? ", " : "");
        print_text(name);
        printf(", ");
        print_amount("exact", exact);
        if (totals->usable) {
            MUST(mixcalc_plan_measured_amount(plan, index, i, &amount, NULL) == MIXCALC_STATUS_OK);
            MUST(strcmp(amount.product, name) == 0 && memcmp(&amount.exact, &exact, sizeof exact) == 0);
            print_amount("measured", amount.measured);
            print_gap(exact, amount.gap_percent, amount.gap_l_per_ha, amount.gap_kg_per_ha);
            printf("\"measure\": ");
            print_text(amount.measure);
            printf(", \"graduations\": %" PRIu64 ", ", amount.graduations);
            print_fillings(&amount);
            print_delivered(plan, index, i);
            print_uncertainty(plan, index, i);
            print_emptied(plan, index, i);
            MUST(measure_kinds[amount.measure_kind][0] != 0);
        } else {
            MUST(mixcalc_plan_measured_amount(plan, index, i, &amount, NULL) == MIXCALC_STATUS_PLAN_STOPPED);
            MUST(amount.product == NULL && amount.measured.kind == 0);
            printf("\"measured\": null, \"gap\": null, \"measure\": null, \"graduations\": null, \"fillings\": null, ");
        }
        printf("\"end\": 0}");
    }
    printf("], \"steps\": [");
    for (i = 0; i < load.steps; i++) {
        printf("%s", i ? ", " : "");
        print_step(plan, index, i);
    }
    printf("], \"end\": 0}");
}

/* A key with text, or null for NULL. */
static void print_named(const char *key, const char *text)
{
    printf("\"%s\": ", key);
    if (text)
        print_text(text);
    else
        printf("null");
    printf(", ");
}

static void print_doses(const mixcalc_plan *plan, size_t index)
{
    mixcalc_product product = MIXCALC_PRODUCT_INIT;
    size_t i;

    MUST(mixcalc_plan_product(plan, index, &product, NULL) == MIXCALC_STATUS_OK);
    printf("\"doses\": [");
    for (i = 0; i < product.doses; i++) {
        mixcalc_dose dose = MIXCALC_DOSE_INIT;
        MUST(mixcalc_plan_dose(plan, index, i, &dose, NULL) == MIXCALC_STATUS_OK);
        printf("%s{", i ? ", " : "");
        print_named("basis", dose.basis);
        print_value("dose", dose.dose, dose.unit);
        printf("\"end\": 0}");
    }
    printf("], ");
    if (!product.largest_dose_unit) {
        MUST(!product.binding && !product.parcel && !product.limit_unit && !product.source);
        MUST(product.largest_dose == 0 && product.limit == 0);
        return;
    }
    printf("\"largest_dose\": {");
    print_value("dose", product.largest_dose, product.largest_dose_unit);
    print_named("binding", product.binding);
    print_named("parcel", product.parcel);
    if (product.limit_unit)
        print_value("limit", product.limit, product.limit_unit);
    else
        printf("\"limit\": null, ");
    print_named("source", product.source);
    printf("\"end\": 0}, ");
}

static void print_substances(const mixcalc_plan *plan, const mixcalc_totals *totals)
{
    size_t i;

    printf("\"active_substances\": [");
    for (i = 0; i < totals->substances; i++) {
        mixcalc_substance substance = MIXCALC_SUBSTANCE_INIT;
        MUST(mixcalc_plan_substance(plan, i, &substance, NULL) == MIXCALC_STATUS_OK);
        MUST(substance.reserved == 0);
        printf("%s{", i ? ", " : "");
        print_named("name", substance.name);
#define PRINT_KNOWN(key, has, value, unit) ((has) ? print_value(key, value, unit) : (void)printf("\"" key "\": null, "))
        PRINT_KNOWN("dose", substance.has_dose, substance.dose_kg_per_ha, "kg/ha");
        PRINT_KNOWN("exact", substance.has_exact, substance.exact_kg, "kg");
        PRINT_KNOWN("measured", substance.has_measured, substance.measured_kg, "kg");
        printf("\"end\": 0}");
    }
    printf("], ");
}

static void print_mixing(const mixcalc_plan *plan, const mixcalc_totals *totals)
{
    mixcalc_mixing mixing = MIXCALC_MIXING_INIT;
    mixcalc_amount amount;
    size_t i;

    MUST(mixcalc_plan_mixing(plan, &mixing, NULL) == MIXCALC_STATUS_OK);
    MUST(mixing.reserved == 0);
    if (!mixing.profile) {
        MUST(!mixing.source && mixing.products == 0 && !mixing.has_jar_test && mixing.jar_mix_l == 0);
        MUST(mixcalc_plan_jar_amount(plan, 0, &amount, NULL) == MIXCALC_STATUS_INDEX);
        return;
    }
    printf("\"mixing\": {");
    print_named("profile", mixing.profile);
    print_named("source", mixing.source);
    printf("\"products\": [");
    for (i = 0; i < mixing.products; i++) {
        mixcalc_ordered_product product = MIXCALC_ORDERED_PRODUCT_INIT;
        const char *name;
        MUST(mixcalc_plan_ordered_product(plan, i, &product, NULL) == MIXCALC_STATUS_OK);
        MUST(mixcalc_plan_product_name(plan, product.product_index, &name, NULL) == MIXCALC_STATUS_OK);
        MUST(strcmp(name, product.product) == 0);
        printf("%s{", i ? ", " : "");
        print_named("name", product.product);
        print_named("group", product.group);
        print_named("reason", product.reason);
        printf("\"end\": 0}");
    }
    printf("], \"jar_test\": ");
    if (mixing.has_jar_test) {
        printf("{");
        print_value("volume", mixing.jar_mix_l, "L");
        print_value("carrier", mixing.jar_carrier_l, "L");
        printf("\"products\": [");
        for (i = 0; i < totals->products; i++) {
            const char *name;
            MUST(mixcalc_plan_product_name(plan, i, &name, NULL) == MIXCALC_STATUS_OK);
            MUST(mixcalc_plan_jar_amount(plan, i, &amount, NULL) == MIXCALC_STATUS_OK);
            printf("%s{", i ? ", " : "");
            print_named("name", name);
            print_amount("exact", amount);
            printf("\"end\": 0}");
        }
        printf("], \"end\": 0}, ");
    } else {
        printf("null, ");
    }
    printf("\"end\": 0}, ");
}

static void print_readings(const mixcalc_plan *plan, size_t finding, size_t count)
{
    size_t i;

    if (count == 0)
        return;
    printf("\"readings\": [");
    for (i = 0; i < count; i++) {
        mixcalc_reading reading = MIXCALC_READING_INIT;
        MUST(mixcalc_plan_reading(plan, finding, i, &reading, NULL) == MIXCALC_STATUS_OK);
        printf("%s{", i ? ", " : "");
        print_value("value", reading.value, reading.unit);
        print_named("meant", reading.meant);
        print_named("stated", reading.stated);
        printf("\"end\": 0}");
    }
    printf("], ");
}

static void print_helps(const mixcalc_plan *plan, size_t finding, size_t count)
{
    const char *help = NULL;
    size_t i;

    MUST(mixcalc_plan_help(plan, finding, count, &help, NULL) == MIXCALC_STATUS_INDEX);
    if (count == 0)
        return;
    printf("\"help\": [");
    for (i = 0; i < count; i++) {
        MUST(mixcalc_plan_help(plan, finding, i, &help, NULL) == MIXCALC_STATUS_OK);
        printf("%s", i ? ", " : "");
        print_text(help);
    }
    printf("], ");
}

static void print_water(const mixcalc_plan *plan)
{
    mixcalc_water water = MIXCALC_WATER_INIT;

    MUST(mixcalc_plan_water(plan, &water, NULL) == MIXCALC_STATUS_OK);
    if (!water.hardness_class) {
        MUST(water.hardness_g_per_l == 0 && water.ammonium_sulfate_need_g_per_l == 0);
        return;
    }
    printf("\"water\": {");
    print_value("hardness", water.hardness_g_per_l, "g/L");
    print_named("hardness_class", water.hardness_class);
    print_value("ammonium_sulfate_need", water.ammonium_sulfate_need_g_per_l, "g/L");
    printf("\"end\": 0}, ");
}

static void print_listed(const mixcalc_plan *plan, const char *key, uint32_t list, size_t count)
{
    const char *text = NULL;
    size_t i;

    MUST(mixcalc_plan_listed(plan, list, count, &text, NULL) == MIXCALC_STATUS_INDEX);
    printf("\"%s\": [", key);
    for (i = 0; i < count; i++) {
        MUST(mixcalc_plan_listed(plan, list, i, &text, NULL) == MIXCALC_STATUS_OK);
        printf("%s", i ? ", " : "");
        print_text(text);
    }
    printf("], ");
}

static void print_field_list(const mixcalc_plan *plan)
{
    mixcalc_field_list list = MIXCALC_FIELD_LIST_INIT;
    mixcalc_product_to_take product = MIXCALC_PRODUCT_TO_TAKE_INIT;
    size_t i;

    MUST(mixcalc_plan_field_list(plan, &list, NULL) == MIXCALC_STATUS_OK);
    MUST(mixcalc_plan_product_to_take(plan, list.products, &product, NULL) == MIXCALC_STATUS_INDEX);
    if (!list.spill_kit) {
        MUST(list.water_l == 0 && list.products == 0 && list.measures == 0 && list.unstated == 0);
        return;
    }
    printf("\"field_list\": {\"products\": [");
    for (i = 0; i < list.products; i++) {
        MUST(mixcalc_plan_product_to_take(plan, i, &product, NULL) == MIXCALC_STATUS_OK);
        printf("%s{", i ? ", " : "");
        print_named("name", product.product);
        print_amount("amount", product.amount);
#define PRINT_COUNT(key, has, count) \
    ((has) ? (void)printf("\"" key "\": %" PRIu64 ", ", count) : (void)printf("\"" key "\": null, "))
        PRINT_COUNT("containers", product.has_containers, product.containers);
        PRINT_COUNT("buy", product.has_buy, product.buy);
        printf("\"end\": 0}");
    }
    printf("], \"water\": {");
    print_value("total", list.water_l, "L");
    print_value("carrier", list.carrier_l, "L");
    print_value("measure_rinses", list.measure_rinses_l, "L");
    print_value("container_rinses", list.container_rinses_l, "L");
    print_value("tank_rinse", list.tank_rinse_l, "L");
    print_value("hands", list.hands_l, "L");
    print_value("eyes", list.eyes_l, "L");
    printf("\"end\": 0}, ");
    print_listed(plan, "measures", MIXCALC_LIST_MEASURES, list.measures);
    printf("\"protection\": {");
    print_listed(plan, "mixing", MIXCALC_LIST_MIXING, list.mixing);
    print_listed(plan, "spraying", MIXCALC_LIST_SPRAYING, list.spraying);
    print_listed(plan, "unstated", MIXCALC_LIST_UNSTATED, list.unstated);
    printf("\"end\": 0}, ");
    print_named("spill_kit", list.spill_kit);
    printf("\"end\": 0}, ");
}

static void print_containers(const mixcalc_plan *plan, size_t product)
{
    mixcalc_containers used = MIXCALC_CONTAINERS_INIT;

    MUST(mixcalc_plan_containers(plan, product, &used, NULL) == MIXCALC_STATUS_OK);
    if (!used.is_known) {
        MUST(used.content.kind == 0 && used.opened == 0 && !used.has_buy);
        return;
    }
    printf("\"containers\": {");
    print_amount("content", used.content);
    printf("\"opened\": %" PRIu64 ", \"emptied\": %" PRIu64 ", \"take\": %" PRIu64 ", ", used.opened, used.emptied, used.take);
    print_amount("left", used.left);
    PRINT_COUNT("buy", used.has_buy, used.buy);
    printf("\"end\": 0}, ");
}

static void print_total(const mixcalc_plan *plan, const mixcalc_totals *totals, size_t product)
{
    mixcalc_measured_total total = MIXCALC_MEASURED_TOTAL_INIT;
    mixcalc_amount exact;
    const char *name;
    size_t i;

    MUST(mixcalc_plan_product_name(plan, product, &name, NULL) == MIXCALC_STATUS_OK);
    MUST(mixcalc_plan_exact_total(plan, product, &exact, NULL) == MIXCALC_STATUS_OK);
    printf("%s{\"name\": ", product ? ", " : "");
    print_text(name);
    printf(", ");
    print_doses(plan, product);
    print_amount("exact", exact);
    if (totals->usable) {
        MUST(mixcalc_plan_measured_total(plan, product, &total, NULL) == MIXCALC_STATUS_OK);
        MUST(strcmp(total.product, name) == 0);
        print_amount("measured", total.measured);
        print_gap(exact, total.gap_percent, total.gap_l_per_ha, total.gap_kg_per_ha);
        printf("\"drawn\": [");
        for (i = 0; i < total.measures; i++) {
            mixcalc_drawn drawn = MIXCALC_DRAWN_INIT;
            MUST(mixcalc_plan_drawn(plan, product, i, &drawn, NULL) == MIXCALC_STATUS_OK);
            printf("%s{\"measure\": ", i ? ", " : "");
            print_text(drawn.measure);
            printf(", ");
            print_amount("graduation", drawn.graduation);
            printf("\"count\": %" PRIu64 "}", drawn.graduations);
        }
        printf("], ");
        print_containers(plan, product);
    } else {
        mixcalc_drawn drawn = MIXCALC_DRAWN_INIT;
        MUST(mixcalc_plan_measured_total(plan, product, &total, NULL) == MIXCALC_STATUS_PLAN_STOPPED);
        MUST(mixcalc_plan_drawn(plan, product, 0, &drawn, NULL) == MIXCALC_STATUS_PLAN_STOPPED);
        MUST(drawn.measure == NULL && total.product == NULL);
        printf("\"measured\": null, \"gap\": null, \"drawn\": null, ");
    }
    printf("\"end\": 0}");
}

static void print_ledger(const mixcalc_plan *plan, const mixcalc_totals *totals)
{
    mixcalc_ledger ledger = MIXCALC_LEDGER_INIT;
    mixcalc_account account = MIXCALC_ACCOUNT_INIT;
    size_t i;

    if (!totals->usable) {
        MUST(mixcalc_plan_ledger(plan, &ledger, NULL) == MIXCALC_STATUS_PLAN_STOPPED);
        MUST(mixcalc_plan_account(plan, 0, &account, NULL) == MIXCALC_STATUS_PLAN_STOPPED);
        printf("\"ledger\": null, ");
        return;
    }
    MUST(mixcalc_plan_ledger(plan, &ledger, NULL) == MIXCALC_STATUS_OK);
    printf("\"ledger\": {\"products\": [");
    for (i = 0; i < totals->products; i++) {
        MUST(mixcalc_plan_account(plan, i, &account, NULL) == MIXCALC_STATUS_OK);
        printf("%s{\"name\": ", i ? ", " : "");
        print_text(account.product);
        printf(", ");
        print_amount("stock", account.stock);
        print_amount("drawn", account.drawn);
        print_amount("in_loads", account.in_loads);
        print_amount("spilled", account.spilled);
        print_amount("left", account.left);
        printf("\"end\": 0}");
    }
    printf("], \"carrier\": {");
    print_value("drawn", ledger.carrier_drawn_l, "L");
    print_value("first", ledger.carrier_first_l, "L");
    print_value("premixed", ledger.carrier_premixed_l, "L");
    print_value("rinses", ledger.carrier_rinses_l, "L");
    print_value("topped_up", ledger.carrier_topped_up_l, "L");
    MUST(ledger.reserved == 0);
    if (ledger.has_container_rinses)
        print_value("container_rinses", ledger.container_rinses_l, "L");
    printf("\"end\": 0}, \"mix\": {");
    print_value("made", ledger.mix_made_l, "L");
    print_value("sprayed", ledger.mix_sprayed_l, "L");
    print_value("residual", ledger.mix_residual_l, "L");
    printf("\"end\": 0}, \"end\": 0}, ");
}

static void print_finding(const mixcalc_plan *plan, size_t index)
{
    mixcalc_finding finding = MIXCALC_FINDING_INIT;

    MUST(mixcalc_plan_finding(plan, index, &finding, NULL) == MIXCALC_STATUS_OK);
    MUST(finding.severity >= MIXCALC_SEVERITY_STOP && finding.severity <= MIXCALC_SEVERITY_NOTE);
    printf("%s{\"severity\": \"%s\", \"code\": ", index ? ", " : "", severities[finding.severity]);
    print_text(finding.code);
    printf(", \"path\": ");
    print_text(finding.path);
    printf(", \"message\": ");
    print_text(finding.message);
    printf(", \"load\": ");
    if (finding.load)
        printf("%" PRIu64 ", ", finding.load);
    else
        printf("null, ");
    if (finding.actual_unit)
        print_value("actual", finding.actual, finding.actual_unit);
    else
        printf("\"actual\": null, ");
    if (finding.limit_unit) {
        printf("\"limit\": {\"bound\": \"%s\", ", bounds[finding.bound]);
        print_value("value", finding.limit, finding.limit_unit);
        printf("\"force\": \"%s\", \"source\": ", forces[finding.force]);
        print_text(finding.source);
        printf("}, ");
    } else {
        MUST(finding.bound == 0 && finding.force == 0 && finding.source == NULL);
        printf("\"limit\": null, ");
    }
    print_readings(plan, index, finding.readings);
    print_helps(plan, index, finding.helps);
    printf("\"end\": 0}");
}

static void print_view(const mixcalc_plan *plan)
{
    mixcalc_totals totals = MIXCALC_TOTALS_INIT;
    size_t i;

    MUST(mixcalc_plan_totals(plan, &totals, NULL) == MIXCALC_STATUS_OK);
    printf("{\"usable\": %s, ", totals.usable ? "true" : "false");
    print_value("safe_fill", totals.safe_fill_l, "L");
    print_value("area", totals.area_ha, "ha");
    MUST(totals.reserved == 0);
    if (totals.has_ground) {
        printf("\"ground\": {");
        print_value("field", totals.field_ha, "ha");
        print_value("buffers", totals.buffers_ha, "ha");
        print_value("sprayed_twice", totals.sprayed_twice_ha, "ha");
        printf("\"end\": 0}, ");
    } else {
        MUST(totals.field_ha == 0 && totals.buffers_ha == 0 && totals.sprayed_twice_ha == 0);
    }
    print_mixing(plan, &totals);
    print_water(plan);
    print_field_list(plan);
    print_value("volume_rate", totals.volume_rate_l_per_ha, "L/ha");
    print_value("carrier_rate", totals.carrier_rate_l_per_ha, "L/ha");
    printf("\"last_strip\": ");
    if (totals.has_last_strip) {
        printf("{");
        print_value("held_back", totals.held_back_l, "L");
        print_value("area", totals.last_strip_ha, "ha");
        printf("\"end\": 0}, ");
    } else {
        MUST(totals.held_back_l == 0 && totals.last_strip_ha == 0);
        printf("null, ");
    }
    printf("\"residual\": ");
    if (totals.residual_l > 0) {
        printf("{");
        print_value("volume", totals.residual_l, "L");
        if (totals.has_last_strip)
            printf("\"ground_short\": null, ");
        else
            print_value("ground_short", totals.ground_short_ha, "ha");
        printf("\"end\": 0}, ");
    } else {
        printf("null, ");
    }
    printf("\"totals\": {\"loads\": %" PRIu64 ", ", totals.load_count);
    print_value("mix", totals.mix_l, "L");
    print_value("carrier", totals.carrier_l, "L");
    print_value("area", totals.area_made_for_ha, "ha");
    printf("\"products\": [");
    for (i = 0; i < totals.products; i++)
        print_total(plan, &totals, i);
    printf("], ");
    if (totals.substances)
        print_substances(plan, &totals);
    printf("\"end\": 0}, \"loads\": [");
    for (i = 0; i < totals.load_entries; i++) {
        printf("%s", i ? ", " : "");
        print_load(plan, &totals, i);
    }
    printf("], ");
    print_ledger(plan, &totals);
    printf("\"findings\": [");
    for (i = 0; i < totals.findings; i++)
        print_finding(plan, i);
    printf("], \"cautions\": [");
    for (i = 0; i < totals.cautions; i++) {
        mixcalc_caution caution = MIXCALC_CAUTION_INIT;
        MUST(mixcalc_plan_caution(plan, i, &caution, NULL) == MIXCALC_STATUS_OK);
        printf("%s{\"code\": ", i ? ", " : "");
        print_text(caution.code);
        printf(", \"text\": ");
        print_text(caution.text);
        printf("}");
    }
    printf("], \"end\": 0}\n");
}

typedef uint32_t page(const mixcalc_plan *, char **, size_t *, mixcalc_error *);

static void print_page(const mixcalc_plan *plan, const char *name, page *write)
{
    mixcalc_error error = MIXCALC_ERROR_INIT;
    char *text = NULL;
    size_t len = 7;
    uint32_t status = write(plan, &text, &len, &error);

    printf("=== %s %lu\n", name, (unsigned long)status);
    if (status == MIXCALC_STATUS_OK) {
        MUST(strlen(text) == len);
        fwrite(text, 1, len, stdout);
        printf("\n");
    } else {
        MUST(text == NULL && len == 7 && error.code == status);
        printf("%s\n", error.message);
    }
    mixcalc_string_free(text);
}

int main(int argc, char **argv)
{
    mixcalc_error error = MIXCALC_ERROR_INIT;
    mixcalc_plan *plan = NULL, *again = NULL;
    char *job, *first = NULL, *second = NULL;
    const char *what = argc == 3 ? argv[1] : "";
    size_t job_len, first_len = 0;
    uint32_t status;

    if (argc < 2 || argc > 3) {
        fprintf(stderr, "usage: %s [--view | --pages] JOB\n", argv[0]);
        return 1;
    }
    job = contents(argv[argc - 1], &job_len);
    status = mixcalc_plan_new(job, job_len, &plan, &error);
    MUST(mixcalc_plan_new(job, job_len, &again, NULL) == status);
    free(job);
    if (status != MIXCALC_STATUS_OK) {
        MUST(error.code == status && plan == NULL && again == NULL);
        printf("%lu\n%s\n%s\n", (unsigned long)status, error.path, error.message);
        return 2;
    }
    MUST(mixcalc_plan_json(plan, &first, &first_len, &error) == MIXCALC_STATUS_OK);
    MUST(mixcalc_plan_json(again, &second, NULL, NULL) == MIXCALC_STATUS_OK);
    MUST(strlen(first) == first_len && strcmp(first, second) == 0);
    mixcalc_plan_free(again);
    if (strcmp(what, "--view") == 0) {
        print_view(plan);
    } else if (strcmp(what, "--pages") == 0) {
        print_page(plan, "sheet", mixcalc_plan_sheet);
        print_page(plan, "sheet with working", mixcalc_plan_sheet_with_working);
        print_page(plan, "findings page", mixcalc_plan_findings_page);
        print_page(plan, "working", mixcalc_plan_working_json);
        print_page(plan, "job", mixcalc_plan_job_json);
    } else {
        fwrite(first, 1, first_len, stdout);
    }
    mixcalc_string_free(first);
    mixcalc_string_free(second);
    mixcalc_plan_free(plan);
    return 0;
}
