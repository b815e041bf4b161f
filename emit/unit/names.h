/* The values of each property as the command line writes them, in the order of their enums: one
 * place for parsing, messages, --help and the tables in docs/. */
#ifndef SUMWRIGHT_UNIT_NAMES_H
#define SUMWRIGHT_UNIT_NAMES_H

/* NULL-terminated lists. An entry "" is a value that cannot be written (an enum's UNSET). */
extern const char *const control_names[];
extern const char *const sense_names[];
extern const char *const flag_names[];
extern const char *const overflow_names[];
extern const char *const structure_names[];
extern const char *const detail_names[];
extern const char *const registers_names[];
extern const char *const reset_names[];
extern const char *const level_names[];

#endif
