/* See utf8.h. */
#include "write/utf8.h"

#include <stdbool.h>

/* The least and greatest second byte, by the first (RFC 3629, section 4). */
static bool second_fits(unsigned char first, unsigned char second) {
    unsigned char least = first == 0xE0 ? 0xA0 : first == 0xF0 ? 0x90 : 0x80;
    unsigned char most = first == 0xED ? 0x9F : first == 0xF4 ? 0x8F : 0xBF;
    return second >= least && second <= most;
}

size_t utf8_bytes(const char *text) {
    const unsigned char *byte = (const unsigned char *)text;
    if (byte[0] < 0x80)
        return 1;
    if (byte[0] < 0xC2 || byte[0] > 0xF4 || !second_fits(byte[0], byte[1]))
        return 0;
    size_t bytes = byte[0] < 0xE0 ? 2 : byte[0] < 0xF0 ? 3 : 4;
    for (size_t i = 2; i < bytes; i++)
        if ((byte[i] & 0xC0) != 0x80) /* a NUL ends the text here */
            return 0;
    return bytes;
}

size_t utf8_count(const char *text) {
    size_t count = 0;
    while (*text != '\0') {
        size_t bytes = utf8_bytes(text);
        text += bytes == 0 ? 1 : bytes;
        count++;
    }
    return count;
}
