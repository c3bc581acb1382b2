/*
 * Runs the conformance vectors of quantities and sums through the C interface; vectors.h is made from them.
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
    printf("%lu cases ran\n", (unsigned long)ran);
    return failed || ran != QUANTITIES + SUMS;
}
