/*
 * mixcalc: unit-safe arithmetic of mixing, loading and calibrating crop sprayers.
 *
 * This header is the manual of the C interface. Its conventions:
 *
 *   - A function that can fail returns its status, a uint32_t: MIXCALC_STATUS_OK, or why not. Codes from 1 to 99 are of
 *     this border, codes from 100 on are the library's and mean the same in Rust and Python.
 *   - Inputs come first, then outputs named out..., then error. Outputs are written on MIXCALC_STATUS_OK only.
 *   - A NULL is refused with MIXCALC_STATUS_NULL_POINTER, except where NULL is said to be allowed.
 *   - Text is UTF-8. Text coming in has a length and needs no terminator; text going out ends in a zero byte.
 *   - What the library hands out is given back with the function named there, not with free().
 *   - Nothing is kept between calls: every function may be called from any thread at any time.
 *   - Nothing here calls a dose safe. The label in force where you are decides.
 *
 * Made from the sources of mixcalc-ffi: change those, then run `make header`.
 */

#ifndef MIXCALC_H
#define MIXCALC_H

#include <stddef.h>
#include <stdint.h>

/* The version of this header. */
#define MIXCALC_VERSION "0.1.0"
#define MIXCALC_VERSION_MAJOR 0
#define MIXCALC_VERSION_MINOR 1
#define MIXCALC_VERSION_PATCH 0

/* How a mixcalc_error starts. */
#define MIXCALC_ERROR_INIT {sizeof(mixcalc_error), 0, 0, {0}, {0}, {0}, {0}}

/* What can be wrong with the input; the name in lower case, with hyphens, is the one in documents. */
#define MIXCALC_STATUS_NOT_FINITE 101
#define MIXCALC_STATUS_NOT_POSITIVE 102
#define MIXCALC_STATUS_OUT_OF_RANGE 103
#define MIXCALC_STATUS_MISSING_INPUT 105
#define MIXCALC_STATUS_BOTH_GIVEN 106
#define MIXCALC_STATUS_DUPLICATE_NAME 107
#define MIXCALC_STATUS_MISSING_DENSITY 108
#define MIXCALC_STATUS_PRODUCTS_FILL_MIX 109
#define MIXCALC_STATUS_STRIP_COVERS_JOB 110
#define MIXCALC_STATUS_TOO_MANY_LOADS 111
#define MIXCALC_STATUS_BELOW_FIRST_MARK 112
#define MIXCALC_STATUS_UNKNOWN_CHOICE 113
#define MIXCALC_STATUS_NO_MEASURE 114
#define MIXCALC_STATUS_UNCOUNTABLE 115
#define MIXCALC_STATUS_PLAN_STOPPED 116
#define MIXCALC_STATUS_UNKNOWN_UNIT 201
#define MIXCALC_STATUS_WRONG_QUANTITY 202
#define MIXCALC_STATUS_UNREADABLE_QUANTITY 203
#define MIXCALC_STATUS_AMBIGUOUS_UNIT 204
#define MIXCALC_STATUS_MISSING_UNIT 205
#define MIXCALC_STATUS_DECIMAL_COMMA 206
#define MIXCALC_STATUS_UNLIKE_QUANTITIES 207
#define MIXCALC_STATUS_UNREADABLE_DOCUMENT 501
#define MIXCALC_STATUS_UNKNOWN_KEY 502
#define MIXCALC_STATUS_DUPLICATE_KEY 503
#define MIXCALC_STATUS_WRONG_TYPE 504
#define MIXCALC_STATUS_TOO_LARGE 505

/**
 * Room for a message, the zero byte at its end counted.
 */
#define MIXCALC_MESSAGE_SIZE 512

/**
 * Room for each other text of an error, the zero byte at its end counted.
 */
#define MIXCALC_TEXT_SIZE 256

/**
 * The question is answered.
 */
#define MIXCALC_STATUS_OK 0

/**
 * A pointer that must not be NULL is NULL.
 */
#define MIXCALC_STATUS_NULL_POINTER 1

/**
 * The struct_size of a struct is smaller than the first release's; such a struct is left as it was.
 */
#define MIXCALC_STATUS_STRUCT_SIZE 2

/**
 * A length is above PTRDIFF_MAX, which no object has: mostly a negative number turned into a size_t.
 */
#define MIXCALC_STATUS_LENGTH 3

/**
 * A fault of the library, caught at the border. The process may go on.
 */
#define MIXCALC_STATUS_PANIC 99

/**
 * Counts the changes that a program built before cannot live with. 0 until the interface has settled: within 0, any
 * release may be such a change.
 */
#define MIXCALC_ABI_VERSION 0

/**
 * Why a call failed. The caller owns it, one for each thread, starts it with
 *
 *     mixcalc_error error = MIXCALC_ERROR_INIT;
 *
 * and hands a pointer to it, or NULL, to any function that takes one. It is written when that function fails and left as
 * it was when it succeeds. Later releases append fields and write no more of them than struct_size covers.
 * Text that is too long for its field is cut at the end of a character; every text ends in a zero byte.
 */
typedef struct mixcalc_error {
  /**
   * sizeof(mixcalc_error) of the caller; never written.
   */
  size_t struct_size;
  /**
   * The status that the function returned.
   */
  uint32_t code;
  /**
   * Always 0: keeps the fields after it where they are on every machine.
   */
  uint32_t reserved;
  /**
   * What is wrong, what was given, what is allowed, and how to mend it, in one sentence that begins with the path.
   */
  char message[MIXCALC_MESSAGE_SIZE];
  /**
   * The field that it is about, such as `products[1].label.max_dose`, or the parameter; empty where there is none.
   */
  char path[MIXCALC_TEXT_SIZE];
  /**
   * What was given.
   */
  char given[MIXCALC_TEXT_SIZE];
  /**
   * What would be allowed instead.
   */
  char allowed[MIXCALC_TEXT_SIZE];
} mixcalc_error;

#ifdef __cplusplus
extern "C" {
#endif // __cplusplus

/**
 * Plans a job: loads, recipes in whole graduations, steps, ledger and findings.
 *
 * job       the job document, "mixcalc-job/1", as JSON or TOML; its first character that is not blank tells which
 * job_len   length of job in bytes
 * out       receives the plan document, "mixcalc-plan/1", as JSON; give it back with mixcalc_string_free()
 * out_len   receives the length of *out in bytes, the zero byte at its end not counted; may be NULL
 * error     receives why there is no plan; may be NULL
 *
 * MIXCALC_STATUS_OK means that the question is answered, not that the plan may be used: where a finding of severity
 * "stop" stands, "usable" is false and the plan holds no measured amounts and no steps. The same job gives the same
 * bytes here, in Rust and in Python.
 *
 * Returns MIXCALC_STATUS_OK, _NULL_POINTER (job, out), _STRUCT_SIZE (error), _LENGTH (job_len), _PANIC, or what is wrong
 * with the job, 100 or above.
 */
uint32_t mixcalc_plan_json(const char *job,
                           size_t job_len,
                           char **out,
                           size_t *out_len,
                           struct mixcalc_error *error);

/**
 * Gives back a text that a function of this library handed out.
 *
 * text   from this library, not changed and not given back before; NULL is allowed and does nothing
 */
void mixcalc_string_free(char *text);

/**
 * Version of the library that the program runs with, such as "0.1.0"; MIXCALC_VERSION is the one it was built with.
 *
 * The text is the library's and lives as long as the program: do not give it back.
 */
const char *mixcalc_version(void);

/**
 * MIXCALC_ABI_VERSION of the library that the program runs with.
 */
uint32_t mixcalc_abi_version(void);

#ifdef __cplusplus
}  // extern "C"
#endif  // __cplusplus

#endif  /* MIXCALC_H */
