/*
 * What a sum and a plan cost through the C interface, beside the same sum in plain C.
 *
 *     cost WHAT COUNT JOB    does WHAT so many times and prints nanoseconds per time
 */
#define _POSIX_C_SOURCE 200809L
#include "mixcalc.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

/* Behind a call that is not seen into, as the library is. */
__attribute__((noinline)) static int plain_mix_l(double volume_rate_l_per_ha, double area_ha, double *out_mix_l)
{
    *out_mix_l = volume_rate_l_per_ha * area_ha;
    return 0;
}

__attribute__((noinline)) static int plain_checked_mix_l(double volume_rate_l_per_ha, double area_ha, double *out_mix_l)
{
    if (!(volume_rate_l_per_ha >= 0 && volume_rate_l_per_ha < 1e30 && area_ha >= 0 && area_ha < 1e30))
        return 1;
    *out_mix_l = volume_rate_l_per_ha * area_ha;
    return 0;
}

__attribute__((noinline)) static int plain_volume_rate(double flow_l_per_min, double speed_km_per_h, double swath_m, double *out)
{
    *out = 600 * flow_l_per_min / (speed_km_per_h * swath_m);
    return 0;
}

static char job[1 << 20];
static size_t len;
static mixcalc_plan *kept;
static volatile double area = 12.4, speed = 8, sink;

static unsigned nothing(void)
{
    sink = area;
    return 0;
}

/* Does a sum, keeps its result, and says whether it failed. */
#define SUM(name, call)             \
    static unsigned name(void)      \
    {                               \
        double out = 0;             \
        unsigned failed = (call);   \
        sink = out;                 \
        return failed;              \
    }

SUM(plain_mix, plain_mix_l(200, area, &out))
SUM(plain_mix_checked, plain_checked_mix_l(200, area, &out))
SUM(mix, mixcalc_mix_l(200, area, &out, NULL))
SUM(plain_rate, plain_volume_rate(38.4, speed, 24, &out))
SUM(rate, mixcalc_volume_rate_l_per_ha(38.4, speed, 24, &out, NULL))
SUM(refused, mixcalc_mix_l(200, -area, &out, NULL) == MIXCALC_STATUS_OK)
SUM(convert, mixcalc_convert(area, "US gal/ac", "L/ha", &out, NULL))

static unsigned plan(void)
{
    mixcalc_plan *made = NULL;
    unsigned failed = mixcalc_plan_new(job, len, &made, NULL);
    mixcalc_plan_free(made);
    return failed;
}

static unsigned json(void)
{
    char *text = NULL;
    unsigned failed = mixcalc_plan_json(kept, &text, NULL, NULL);
    mixcalc_string_free(text);
    return failed;
}

static unsigned amount(void)
{
    mixcalc_measured_amount amount = MIXCALC_MEASURED_AMOUNT_INIT;
    return mixcalc_plan_measured_amount(kept, 0, 0, &amount, NULL);
}

static const struct {
    const char *name;
    unsigned (*once)(void);
} all[] = {{"nothing", nothing},       {"plain-mix", plain_mix},     {"plain-mix-checked", plain_mix_checked},
           {"mix", mix},               {"plain-volume-rate", plain_rate}, {"volume-rate", rate},
           {"refused", refused},       {"convert", convert},         {"plan", plan},
           {"json", json},             {"amount", amount}};

int main(int argc, char **argv)
{
    long count = argc == 4 ? atol(argv[2]) : 0, i;
    FILE *file = argc == 4 ? fopen(argv[3], "rb") : NULL;
    struct timespec from, to;
    unsigned failed = 0;
    size_t which = 0;

    while (count > 0 && which < sizeof all / sizeof *all && strcmp(all[which].name, argv[1]) != 0)
        which++;
    if (!file || count <= 0 || which == sizeof all / sizeof *all)
        return 1;
    len = fread(job, 1, sizeof job, file);
    fclose(file);
    if (mixcalc_plan_new(job, len, &kept, NULL) != MIXCALC_STATUS_OK)
        return 1;
    clock_gettime(CLOCK_MONOTONIC, &from);
    for (i = 0; i < count; i++)
        failed += all[which].once();
    clock_gettime(CLOCK_MONOTONIC, &to);
    mixcalc_plan_free(kept);
    printf("%.3f\n", ((double)(to.tv_sec - from.tv_sec) * 1e9 + (double)(to.tv_nsec - from.tv_nsec)) / (double)count);
    return failed != 0;
}
