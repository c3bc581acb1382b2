/*
 * Plans the job document in a file through the C interface.
 *
 *     plan JOB        prints the plan and exits 0; or prints code, path and message of the error, one a line, and exits 2
 *
 * The job is planned twice and must come out alike. Before that, the promises of the border are tried: every NULL, a struct
 * of a wrong size, a length that cannot be, text that is no job. A promise that does not hold exits 1 and says where.
 */
#include "mixcalc.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MUST(condition)                                                             \
    do {                                                                            \
        if (!(condition)) {                                                         \
            fprintf(stderr, "%s:%d: must be true: %s\n", __FILE__, __LINE__, #condition); \
            exit(1);                                                                \
        }                                                                           \
    } while (0)

static void version_is_the_header_s(void)
{
    char version[32];
    snprintf(version, sizeof version, "%d.%d.%d", MIXCALC_VERSION_MAJOR, MIXCALC_VERSION_MINOR, MIXCALC_VERSION_PATCH);
    MUST(strcmp(MIXCALC_VERSION, version) == 0);
    MUST(strcmp(mixcalc_version(), version) == 0);
    MUST(mixcalc_abi_version() == MIXCALC_ABI_VERSION);
}

static void null_is_refused_or_allowed_as_said(void)
{
    mixcalc_error error = MIXCALC_ERROR_INIT;
    char *out = NULL;

    MUST(mixcalc_plan_json(NULL, 0, &out, NULL, &error) == MIXCALC_STATUS_NULL_POINTER);
    MUST(error.code == MIXCALC_STATUS_NULL_POINTER);
    MUST(strcmp(error.path, "job") == 0 && strlen(error.message) > 0);
    MUST(mixcalc_plan_json("{}", 2, NULL, NULL, &error) == MIXCALC_STATUS_NULL_POINTER);
    MUST(strcmp(error.path, "out") == 0);
    MUST(mixcalc_plan_json(NULL, 0, NULL, NULL, NULL) == MIXCALC_STATUS_NULL_POINTER);
    MUST(out == NULL);
    mixcalc_string_free(NULL);
}

static void struct_size_and_length_are_checked(void)
{
    mixcalc_error error = MIXCALC_ERROR_INIT;
    struct {
        mixcalc_error known;
        char later[64];
    } grown = {MIXCALC_ERROR_INIT, "untouched"};
    char *out = NULL;

    error.struct_size = sizeof error - 1;
    MUST(mixcalc_plan_json("{}", 2, &out, NULL, &error) == MIXCALC_STATUS_STRUCT_SIZE);
    MUST(error.code == 0 && error.message[0] == 0);
    error.struct_size = 0;
    MUST(mixcalc_plan_json("{}", 2, &out, NULL, &error) == MIXCALC_STATUS_STRUCT_SIZE);

    grown.known.struct_size = sizeof grown;
    MUST(mixcalc_plan_json("{}", SIZE_MAX, &out, NULL, &grown.known) == MIXCALC_STATUS_LENGTH);
    MUST(grown.known.code == MIXCALC_STATUS_LENGTH && strcmp(grown.known.path, "job_len") == 0);
    MUST(grown.known.struct_size == sizeof grown && strcmp(grown.later, "untouched") == 0);
    MUST(out == NULL);
}

static void what_is_no_job_gets_a_code_of_the_library(void)
{
    static const struct {
        const char *text;
        size_t len;
    } bad[] = {{"", 0}, {"{", 1}, {"{}", 2}, {"\xff\xfe", 2}, {"\0", 1}, {"format = 1", 10}, {"{\"format\": null}", 16}};
    size_t i;

    for (i = 0; i < sizeof bad / sizeof *bad; i++) {
        mixcalc_error error = MIXCALC_ERROR_INIT;
        char *out = NULL;
        size_t out_len = 7;
        uint32_t status = mixcalc_plan_json(bad[i].text, bad[i].len, &out, &out_len, &error);
        MUST(status >= 100);
        MUST(status == error.code && error.message[0] != 0 && error.reserved == 0);
        MUST(out == NULL && out_len == 7);
        MUST(mixcalc_plan_json(bad[i].text, bad[i].len, &out, NULL, NULL) == status);
    }
}

static char *contents(const char *path, size_t *len)
{
    FILE *file = fopen(path, "rb");
    char *text;
    long size;

    MUST(file != NULL);
    MUST(fseek(file, 0, SEEK_END) == 0);
    size = ftell(file);
    MUST(size >= 0);
    rewind(file);
    text = malloc((size_t)size + 1);
    MUST(text != NULL);
    *len = fread(text, 1, (size_t)size, file);
    MUST(*len == (size_t)size);
    fclose(file);
    return text;
}

int main(int argc, char **argv)
{
    mixcalc_error error = MIXCALC_ERROR_INIT;
    char *job, *first = NULL, *second = NULL;
    size_t job_len, first_len = 0;
    uint32_t status;

    version_is_the_header_s();
    null_is_refused_or_allowed_as_said();
    struct_size_and_length_are_checked();
    what_is_no_job_gets_a_code_of_the_library();

    if (argc != 2) {
        fprintf(stderr, "usage: %s JOB\n", argv[0]);
        return 1;
    }
    job = contents(argv[1], &job_len);
    status = mixcalc_plan_json(job, job_len, &first, &first_len, &error);
    MUST(mixcalc_plan_json(job, job_len, &second, NULL, NULL) == status);
    free(job);
    if (status != MIXCALC_STATUS_OK) {
        MUST(error.code == status);
        printf("%lu\n%s\n%s\n", (unsigned long)status, error.path, error.message);
        return 2;
    }
    MUST(strlen(first) == first_len && strcmp(first, second) == 0);
    fwrite(first, 1, first_len, stdout);
    mixcalc_string_free(first);
    mixcalc_string_free(second);
    return 0;
}
