#!/bin/sh
# emit/write/embed.cmake: the C file that it writes compiles without a warning and holds the
# templates byte for byte: one far over 4 KiB, one with every byte there is, an empty one, none.
set -eu
: "${SOURCE:=$(dirname "$0")/../..}"
cc=${CC:-cc}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

mkdir in out
byte=0
while [ "$byte" -lt 256 ]; do
    printf "\\$(printf %03o "$byte")"
    byte=$((byte + 1))
done >in/every_byte.v
line=0
while [ "$line" -lt 700 ]; do
    echo "// line $line of a long template: \"quotes\", \\ backslashes, ??/ and \${placeholders};"
    line=$((line + 1))
done >in/long.v
: >in/empty.v

cat >write.c <<'END'
#include "write/embedded.h"

#include <stdio.h>

int main(void) {
    for (const EmbeddedTemplate *t = embedded_templates; t->name != NULL; t++) {
        FILE *file = fopen(t->name, "wb");
        if (file == NULL || fwrite(t->bytes, 1, t->length, file) != t->length || fclose(file) != 0)
            return 1;
    }
    return 0;
}
END

# write_c LIST: embeds these files. unpack: compiles the result and writes the files into out/.
write_c() {
    cmake -D OUTPUT="$work/embedded.c" -D "TEMPLATES=$1" -P "$SOURCE/emit/write/embed.cmake"
}
unpack() {
    "$cc" -std=c17 -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror -I "$SOURCE/emit" \
        embedded.c write.c -o write
    rm -rf out
    mkdir out
    (cd out && ../write)
}

write_c "$work/in/every_byte.v;$work/in/long.v;$work/in/empty.v"
unpack
diff -r in out
write_c ""
unpack
[ -z "$(ls out)" ]
: >"in/a name.v"
if write_c "$work/in/a name.v" 2>message; then
    echo "a name with a blank was taken"
    exit 1
fi
grep -q "use letters, digits" message
echo "embedded templates are the files, byte for byte"
