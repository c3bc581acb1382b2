/*
 * Runs the conformance vectors of quantities, sums and calibrations through the C interface; vectors.h is made from them.
 *
 *     vectors    prints each quantity that was read as "id number", with 17 digits, and at the end how many cases ran; exits 1 where
 *                one fails
 */
#include "mixcalc.h"
#include "must.h"
#include "vectors.h"

#include <math.h>

static int failed;

static void fail(const char *id, const char *what, double actual, double expected)
{
    fprintf(stderr, "%s: %s: %.17g, not %.17g\n", id, what, actual, expected);
    failed = 1;
}

static int is_within(double actual, double expected, double rel_tol) { return fabs(actual - expected) <= rel_tol * fabs(expected); }

/* A value times a factor of one with a relative standard uncertainty: inputs of one name are one input. */
static mixcalc_uncertain *stated(const char *name, double value, const char *unit, double u_percent)
{
    mixcalc_uncertain *exact, *factor, *made;

    MUST(mixcalc_uncertain_exact(value, unit, &exact, NULL) == MIXCALC_STATUS_OK);
    MUST(mixcalc_uncertain_from_standard_uncertainty(name, 1, u_percent / 100, INFINITY, "1", &factor, NULL) == MIXCALC_STATUS_OK);
    MUST(mixcalc_uncertain_times(exact, factor, &made, NULL) == MIXCALC_STATUS_OK);
    mixcalc_uncertain_free(exact);
    mixcalc_uncertain_free(factor);
    return made;
}

static void calibrate(size_t i)
{
    mixcalc_error error = MIXCALC_ERROR_INIT;
    mixcalc_uncertain *in[sizeof calibrations->in / sizeof *calibrations->in] = {NULL};
    mixcalc_calibration *made[2] = {NULL, NULL};
    const mixcalc_uncertain *rate;
    const char *formula;
    double value, u;
    char *working;
    size_t k;

    for (k = 0; k < calibrations[i].inputs; k++)
        in[k] = stated(calibrations[i].in[k].name, calibrations[i].in[k].value, calibrations[i].in[k].unit, calibrations[i].in[k].u_percent);
    if (calibrations[i].call(in, made, &error) != MIXCALC_STATUS_OK) {
        fail(calibrations[i].id, error.message, error.code, 0);
    } else {
        MUST(mixcalc_calibration_volume_rate(made[0], &rate, NULL) == MIXCALC_STATUS_OK);
        MUST(mixcalc_uncertain_value(rate, calibrations[i].unit, &value, NULL) == MIXCALC_STATUS_OK);
        MUST(mixcalc_uncertain_standard_uncertainty(rate, calibrations[i].unit, &u, NULL) == MIXCALC_STATUS_OK);
        if (!is_within(value, calibrations[i].value, calibrations[i].rel_tol))
            fail(calibrations[i].id, "volume rate", value, calibrations[i].value);
        if (fabs(100 * u / value - calibrations[i].u_percent) > 1e-9)
            fail(calibrations[i].id, "uncertainty in percent", 100 * u / value, calibrations[i].u_percent);
        MUST(mixcalc_calibration_formula(made[0], &formula, NULL) == MIXCALC_STATUS_OK);
        MUST(mixcalc_calibration_working(made[0], MIXCALC_SYSTEM_METRIC, &working, NULL, NULL) == MIXCALC_STATUS_OK);
        MUST(strstr(working, formula) != NULL);
        mixcalc_string_free(working);
    }
    for (k = 0; k < calibrations[i].inputs; k++)
        mixcalc_uncertain_free(in[k]);
    mixcalc_calibration_free(made[0]);
    mixcalc_calibration_free(made[1]);
}

int main(void)
{
    size_t i, ran = 0;

    for (i = 0; i < sizeof quantities / sizeof *quantities; i++, ran++) {
        mixcalc_error error = MIXCALC_ERROR_INIT;
        double value = 7;
        uint32_t status = mixcalc_read_quantity(quantities[i].text, quantities[i].kind, quantities[i].unit, &value, &error);
        if (status != quantities[i].code) {
            fail(quantities[i].id, "status", status, quantities[i].code);
        } else if (status != MIXCALC_STATUS_OK) {
            MUST(value == 7 && error.code == status);
            if (strcmp(error.message, quantities[i].message) != 0)
                fail(quantities[i].id, error.message, 0, 0);
        } else if (!(fabs(value - quantities[i].value) <= quantities[i].rel_tol * fabs(quantities[i].value))) {
            fail(quantities[i].id, "value", value, quantities[i].value);
        } else {
            printf("%s %.17g\n", quantities[i].id, value);
        }
    }
    for (i = 0; i < sizeof sums / sizeof *sums; i++, ran++) {
        mixcalc_error error = MIXCALC_ERROR_INIT;
        double value = 7;
        uint32_t status = sums[i].call(sums[i].in, &value, &error);
        if (status != sums[i].code)
            fail(sums[i].id, "status", status, sums[i].code);
        else if (status != MIXCALC_STATUS_OK)
            MUST(value == 7 && error.code == status && strcmp(error.path, sums[i].path) == 0);
        else if (!(fabs(value - sums[i].value) <= sums[i].rel_tol * fabs(sums[i].value)))
            fail(sums[i].id, "value", value, sums[i].value);
    }
    for (i = 0; i < sizeof calibrations / sizeof *calibrations; i++, ran++)
        calibrate(i);
    printf("%lu cases ran\n", (unsigned long)ran);
    return failed || ran != QUANTITIES + SUMS + CALIBRATIONS;
}
