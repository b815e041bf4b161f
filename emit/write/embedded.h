/* The templates that are part of the program: templates/ at build time, turned into C by
 * embed.cmake. Only template.c reads them. */
#ifndef SUMWRIGHT_WRITE_EMBEDDED_H
#define SUMWRIGHT_WRITE_EMBEDDED_H

#include <stddef.h>

/* length bytes at bytes, not ended by a NUL; the name is the file's, without a folder. */
typedef struct {
    const char *name;
    const unsigned char *bytes;
    size_t length;
} EmbeddedTemplate;

/* Ends with an entry whose name is NULL. */
extern const EmbeddedTemplate embedded_templates[];

#endif
