/*
 * What a sanitizer or valgrind has to find, so that their silence about the other programs says something.
 *
 *     careless overrun    a job that is said to be longer than it is: the library reads past its end
 *     careless leak       a plan and a text that are not given back
 */
#include "mixcalc.h"
#include "../must.h"

int main(int argc, char **argv)
{
    static const char job[] = "format = 'mixcalc-job/1'\narea = '7.4 ha'\nvolume_rate = '200 L/ha'\nsprayer = { kind = 'boom' }\n"
                              "tank = { nominal = '600 L' }\nproducts = []\n";
    mixcalc_plan *plan = NULL;
    char *text = NULL;

    MUST(argc == 2);
    if (strcmp(argv[1], "overrun") == 0) {
        char *cut = (char *)malloc(20);
        MUST(cut != NULL);
        memcpy(cut, job, 20);
        mixcalc_plan_new(cut, 40, &plan, NULL);
        free(cut);
    } else {
        MUST(mixcalc_plan_new(job, sizeof job - 1, &plan, NULL) == MIXCALC_STATUS_OK);
        MUST(mixcalc_plan_json(plan, &text, NULL, NULL) == MIXCALC_STATUS_OK);
    }
    plan = NULL;
    text = NULL;
    return 0;
}
