/*
 * Plans a job and prints what to measure: the findings, each load with its amounts and steps, and the totals.
 *
 *     cc demo.c $(pkg-config --cflags --libs mixcalc) -o demo && ./demo ../../docs/examples/demo.toml
 *
 * Exits 0; 1 where a stop stands; 2 where there is no plan.
 */
#include <mixcalc.h>

#include <inttypes.h>
#include <stdio.h>

static void print_amount(const char *what, mixcalc_amount amount)
{
    if (amount.kind == MIXCALC_KIND_VOLUME)
        printf("%s %g L", what, amount.volume_l);
    else if (amount.kind == MIXCALC_KIND_MASS)
        printf("%s %g kg", what, amount.mass_kg);
}

static void print_load(const mixcalc_plan *plan, size_t index, size_t products)
{
    mixcalc_load load = MIXCALC_LOAD_INIT;
    size_t i;

    mixcalc_plan_load(plan, index, &load, NULL);
    printf("\nloads %" PRIu64 " to %" PRIu64 ": %g L of mix each, for %g ha\n", load.first, load.last, load.mix_l, load.area_ha);
    for (i = 0; i < products; i++) {
        mixcalc_measured_amount amount = MIXCALC_MEASURED_AMOUNT_INIT;
        if (mixcalc_plan_measured_amount(plan, index, i, &amount, NULL) != MIXCALC_STATUS_OK)
            return; /* a stop stands: there is nothing to measure */
        printf("  %s:", amount.product);
        print_amount("", amount.measured);
        printf(" in the %s, %" PRIu64 " graduations;", amount.measure, amount.graduations);
        print_amount(" exactly", amount.exact);
        printf("\n");
    }
    for (i = 0; i < load.steps; i++) {
        mixcalc_step step = MIXCALC_STEP_INIT;
        if (mixcalc_plan_step(plan, index, i, &step, NULL) != MIXCALC_STATUS_OK)
            return;
        switch (step.action) {
        case MIXCALC_ACTION_FILL:
        case MIXCALC_ACTION_TOP_UP:
            printf("  %zu. %s %g L of carrier", i + 1, step.action == MIXCALC_ACTION_FILL ? "fill in" : "top up with", step.carrier_l);
            if (step.has_mark)
                printf(", to the %g L mark", step.mark_l);
            break;
        case MIXCALC_ACTION_MEASURE:
            printf("  %zu. measure %s with the %s", i + 1, step.product, step.measure);
            break;
        case MIXCALC_ACTION_PREMIX:
            printf("  %zu. premix %s with %g L of carrier, and pour it in", i + 1, step.product, step.carrier_l);
            break;
        case MIXCALC_ACTION_RINSE:
            printf("  %zu. rinse the %s %" PRIu64 " times with %g L each, and pour it in", i + 1, step.measure, step.times, step.each_l);
            break;
        case MIXCALC_ACTION_WAIT:
            printf("  %zu. wait %g s for %s", i + 1, step.least_wait_s, step.product);
            break;
        case MIXCALC_ACTION_START_AGITATOR:
            printf("  %zu. start the agitator", i + 1);
            break;
        case MIXCALC_ACTION_AGITATE:
            printf("  %zu. agitate", i + 1);
            break;
        default: /* of a later release */
            printf("  %zu. see the load sheet", i + 1);
        }
        printf("; then %g L in the tank\n", step.in_tank_l);
    }
}

int main(int argc, char **argv)
{
    static char job[1 << 20];
    mixcalc_error error = MIXCALC_ERROR_INIT;
    mixcalc_totals totals = MIXCALC_TOTALS_INIT;
    mixcalc_plan *plan = NULL;
    FILE *file = argc == 2 ? fopen(argv[1], "rb") : NULL;
    size_t len, i;

    if (!file) {
        fprintf(stderr, "usage: demo JOB\n");
        return 2;
    }
    len = fread(job, 1, sizeof job, file);
    fclose(file);

    if (mixcalc_plan_new(job, len, &plan, &error) != MIXCALC_STATUS_OK) {
        fprintf(stderr, "%s\n", error.message);
        return 2;
    }
    mixcalc_plan_totals(plan, &totals, NULL);
    for (i = 0; i < totals.cautions; i++) {
        mixcalc_caution caution = MIXCALC_CAUTION_INIT;
        mixcalc_plan_caution(plan, i, &caution, NULL);
        printf("! %s\n", caution.text);
    }
    for (i = 0; i < totals.findings; i++) {
        mixcalc_finding finding = MIXCALC_FINDING_INIT;
        mixcalc_plan_finding(plan, i, &finding, NULL);
        printf("%s: %s\n", finding.severity == MIXCALC_SEVERITY_STOP ? "STOP" : "-", finding.message);
    }
    for (i = 0; i < totals.load_entries; i++)
        print_load(plan, i, totals.products);
    printf("\n%" PRIu64 " loads, %g L of mix for %g ha\n", totals.load_count, totals.mix_l, totals.area_made_for_ha);
    mixcalc_plan_free(plan);
    return totals.usable ? 0 : 1;
}
