/* The functions over columns: the promises that the header makes of them, then the plain plans of so many rows, some of them hostile, as
 * bytes: the six outputs and the statuses, one after the other.
 *
 * usage: columns ROWS [THREADS]
 */
#include <math.h>
#include <mixcalc.h>
#include <stdint.h>

#include "must.h"

static const double hostile[11] = {NAN, INFINITY, -INFINITY, 0.0, -0.0, 5e-324, 2.2e-308, 1e-300, -1.0, 1e28, 1e300};

/* A number of a column: plain, or each seventh time a hostile one. Rust and Python make the same. */
static double number(uint64_t row, uint64_t column, double scale)
{
    uint64_t mixed = (row * 4 + column + 1) * UINT64_C(0x9E3779B97F4A7C15);

    mixed = (mixed ^ (mixed >> 29)) * UINT64_C(0xBF58476D1CE4E5B9);
    mixed ^= mixed >> 32;
    return mixed % 7 == 0 ? hostile[mixed / 7 % 11] : (double)(mixed >> 11) / 9007199254740992.0 * scale;
}

static void promises(void)
{
    const double area[] = {1.0, 7.0, -2.0, 7.0, 0.5, 7.0}, rate = 200.0;
    const mixcalc_column rates = {&rate, 0}, areas = {area, 2}, none = {NULL, 1};
    mixcalc_column inputs[2];
    mixcalc_error error = MIXCALC_ERROR_INIT;
    double mix[3] = {7, 7, 7};
    uint16_t status[3] = {9, 9, 9};
    size_t refused = 9;

    MUST(mixcalc_columns_mix(rates, areas, 3, 1, mix, status, &refused, &error) == MIXCALC_STATUS_OK);
    MUST(refused == 1 && mix[0] == 200.0 && isnan(mix[1]) && mix[2] == 100.0);
    MUST(status[0] == 0 && status[1] == MIXCALC_STATUS_OUT_OF_RANGE && status[2] == 0);

    inputs[0] = rates;
    inputs[1] = areas;
    MUST(mixcalc_columns_explain("mix", inputs, 2, 3, 0, &error) == MIXCALC_STATUS_OK);
    MUST(mixcalc_columns_explain("mix", inputs, 2, 3, 1, &error) == MIXCALC_STATUS_OUT_OF_RANGE);
    MUST(strcmp(error.path, "area_ha[1]") == 0);
    MUST(mixcalc_columns_explain("mix", inputs, 2, 3, 3, &error) == MIXCALC_STATUS_INDEX);
    MUST(mixcalc_columns_explain("mixture", inputs, 2, 3, 1, &error) == MIXCALC_STATUS_UNKNOWN_CHOICE);
    MUST(strcmp(error.path, "calculation") == 0);
    MUST(mixcalc_columns_explain("mix", inputs, 1, 3, 1, &error) == MIXCALC_STATUS_MISSING_INPUT);
    MUST(mixcalc_columns_explain(NULL, inputs, 2, 3, 1, &error) == MIXCALC_STATUS_NULL_POINTER);

    mix[0] = 7;
    MUST(mixcalc_columns_mix(rates, none, 3, 1, mix, status, &refused, &error) == MIXCALC_STATUS_NULL_POINTER);
    MUST(strcmp(error.path, "area_ha") == 0);
    MUST(mixcalc_columns_mix(rates, areas, 3, 1, NULL, status, &refused, &error) == MIXCALC_STATUS_NULL_POINTER);
    MUST(strcmp(error.path, "out_mix_l") == 0);
    MUST(mixcalc_columns_mix(rates, areas, 3, 1, mix, NULL, &refused, &error) == MIXCALC_STATUS_NULL_POINTER);
    MUST(strcmp(error.path, "out_status") == 0);
    MUST(mixcalc_columns_mix(rates, areas, 3, 1, mix, status, NULL, &error) == MIXCALC_STATUS_NULL_POINTER);
    MUST(strcmp(error.path, "out_refused") == 0);
    MUST(mixcalc_columns_mix(rates, areas, SIZE_MAX, 1, mix, status, &refused, &error) == MIXCALC_STATUS_LENGTH);
    MUST(mix[0] == 7);
    MUST(mixcalc_columns_mix(none, none, 0, 1, NULL, NULL, &refused, NULL) == MIXCALC_STATUS_OK && refused == 0);
}

int main(int count, char **arguments)
{
    static const double scales[4] = {50.0, 400.0, 5.0, 3000.0};
    double *inputs[4], *outputs[6];
    mixcalc_column columns[4];
    uint16_t *status;
    size_t rows, threads, refused, row, seen = 0;
    int i;

    MUST(count == 2 || count == 3);
    promises();
    rows = (size_t)strtoull(arguments[1], NULL, 10);
    threads = count == 3 ? (size_t)strtoull(arguments[2], NULL, 10) : 1;
    for (i = 0; i < 4; i++) {
        MUST((inputs[i] = malloc(rows * sizeof(double) + 1)) != NULL);
        for (row = 0; row < rows; row++)
            inputs[i][row] = number(row, (uint64_t)i, scales[i]);
        columns[i].values = inputs[i];
        columns[i].step = 1;
    }
    for (i = 0; i < 6; i++)
        MUST((outputs[i] = malloc(rows * sizeof(double) + 1)) != NULL);
    MUST((status = malloc(rows * sizeof(uint16_t) + 1)) != NULL);
    MUST(mixcalc_columns_plan(columns[0], columns[1], columns[2], columns[3], rows, threads, outputs[0], outputs[1], outputs[2],
                              outputs[3], outputs[4], outputs[5], status, &refused, NULL) == MIXCALC_STATUS_OK);
    for (row = 0; row < rows; row++)
        seen += status[row] != 0;
    MUST(seen == refused);
    for (i = 0; i < 6; i++) {
        MUST(fwrite(outputs[i], sizeof(double), rows, stdout) == rows);
        free(outputs[i]);
    }
    MUST(fwrite(status, sizeof(uint16_t), rows, stdout) == rows);
    free(status);
    for (i = 0; i < 4; i++)
        free(inputs[i]);
    return 0;
}
