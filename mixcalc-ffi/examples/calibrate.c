/*
 * Calibrates a sprayer from three catches and a timed run, checks three nozzles, and prints what came out.
 *
 *     cc calibrate.c $(pkg-config --cflags --libs mixcalc) -o calibrate && ./calibrate
 *
 * Exits 0; 1 where a question cannot be answered, which it then says.
 */
#include <mixcalc.h>

#include <stdio.h>
#include <stdlib.h>

static mixcalc_error error = MIXCALC_ERROR_INIT;

static void must(uint32_t status)
{
    if (status != MIXCALC_STATUS_OK) {
        fprintf(stderr, "%s\n", error.message);
        exit(1);
    }
}

static void print(const char *what, const mixcalc_uncertain *value, const char *unit)
{
    double middle, low, high;

    must(mixcalc_uncertain_value(value, unit, &middle, &error));
    must(mixcalc_uncertain_interval(value, 95, unit, &low, &high, &error));
    printf("%s: %.4g %s, with 95 %% between %.4g and %.4g\n", what, middle, unit, low, high);
}

static void print_rate(void)
{
    const double caught[] = {598, 602, 600};
    mixcalc_uncertain *catch, *clock, *course, *run, *swath;
    const mixcalc_uncertain *rate;
    mixcalc_calibration *calibration;
    size_t i, count;
    char *working;

    must(mixcalc_uncertain_from_repeats("catches", caught, 3, "mL", &catch, &error));
    must(mixcalc_uncertain_from_resolution("stopwatch, catch", 30, 0.2, "s", &clock, &error));
    must(mixcalc_uncertain_from_tolerance("tape", 50, 0.1, "m", &course, &error));
    must(mixcalc_uncertain_from_resolution("stopwatch, run", 45, 0.2, "s", &run, &error));
    must(mixcalc_uncertain_from_tolerance("swath", 1, 0.02, "m", &swath, &error));
    must(mixcalc_calibration_from_timed_course(catch, clock, course, run, swath, &calibration, &error));
    must(mixcalc_calibration_volume_rate(calibration, &rate, &error));
    print("volume rate", rate, "L/ha");
    must(mixcalc_uncertain_contributions(rate, &count, &error));
    for (i = 0; i < count; i++) {
        mixcalc_contribution part = MIXCALC_CONTRIBUTION_INIT;
        must(mixcalc_uncertain_contribution(rate, i, "L/ha", &part, &error));
        printf("  %s: %.0f %% of its variance\n", part.name, part.share_of_variance_percent);
    }
    must(mixcalc_calibration_working(calibration, MIXCALC_SYSTEM_METRIC, &working, NULL, &error));
    printf("%s\n", working);
    mixcalc_string_free(working);
    mixcalc_calibration_free(calibration);
    mixcalc_uncertain_free(catch);
    mixcalc_uncertain_free(clock);
    mixcalc_uncertain_free(course);
    mixcalc_uncertain_free(run);
    mixcalc_uncertain_free(swath);
}

static void print_nozzles(void)
{
    static const char *const advice[] = {"?", "keep", "clean", "replace", "look for what all share", "cannot tell"};
    const double first[] = {1.207, 1.21, 1.213}, second[] = {1.197, 1.2, 1.203}, third[] = {1.342, 1.345, 1.348};
    const mixcalc_catches catches[] = {{"1", first, 3, 0, 0}, {"2", second, 3, 0, 0}, {"3", third, 3, 0, 0}};
    mixcalc_nozzle_check check = MIXCALC_NOZZLE_CHECK_INIT;
    mixcalc_uncertain *rated;
    mixcalc_checked *set;
    size_t i;

    must(mixcalc_uncertain_exact(1.2, "L/min", &rated, &error));
    check.rated = rated;
    must(mixcalc_check_nozzles(&check, catches, 3, &set, &error));
    for (i = 0; i < 3; i++) {
        mixcalc_checked_nozzle nozzle = MIXCALC_CHECKED_NOZZLE_INIT;
        must(mixcalc_checked_nozzle_at(set, i, &nozzle, &error));
        /* A list may grow: what is not known here is "?". */
        printf("nozzle %s: %s\n", nozzle.name, advice[nozzle.advice < sizeof advice / sizeof *advice ? nozzle.advice : 0]);
        print("  over new", nozzle.of_new, "%");
    }
    mixcalc_checked_free(set);
    mixcalc_uncertain_free(rated);
}

int main(void)
{
    print_rate();
    print_nozzles();
    return 0;
}
