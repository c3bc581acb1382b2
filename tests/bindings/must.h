/* What the programs that test the C interface share. */
#ifndef MUST_H
#define MUST_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A promise that does not hold ends the program with 1 and says where. */
#define MUST(condition)                                                                   \
    do {                                                                                  \
        if (!(condition)) {                                                               \
            fprintf(stderr, "%s:%d: must be true: %s\n", __FILE__, __LINE__, #condition); \
            exit(1);                                                                      \
        }                                                                                 \
    } while (0)

/* What a file holds, to be given back with free(). */
static inline char *contents(const char *path, size_t *len)
{
    FILE *file = fopen(path, "rb");
    char *text;
    long size;

    MUST(file != NULL);
    MUST(fseek(file, 0, SEEK_END) == 0);
    size = ftell(file);
    MUST(size >= 0);
    rewind(file);
    text = (char *)malloc((size_t)size + 1);
    MUST(text != NULL);
    *len = fread(text, 1, (size_t)size, file);
    MUST(*len == (size_t)size);
    fclose(file);
    return text;
}

#endif
