#!/bin/sh
# What docs/ shows is what the program does today: every page with commands in it, and every picture,
# made again and compared byte for byte. A picture that no page has drawn is not the program's.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
sh "$SOURCE/docs/make.sh" "$SUMWRIGHT" "$folder"
pages=0
for page in "$folder"/*.md; do
  diff "$SOURCE/docs/$(basename "$page")" "$page"
  pages=$((pages + 1))
done
[ "$pages" -gt 0 ]
diff -r "$SOURCE/docs/pictures" "$folder/pictures"
diff "$SOURCE/docs/sumwright.1" "$folder/sumwright.1"
diff -r "$SOURCE/docs/completions" "$folder/completions"

# Each picture that a page shows is there, with words for who cannot see it.
for page in "$SOURCE"/docs/*.md; do
  sed -n 's/.*!\[\([^]]*\)\](\([^)]*\)).*/\2 \1/p' "$page" >"$folder/shown"
  while read -r picture words; do
    [ -f "$SOURCE/docs/$picture" ] || { echo "wrong: $page shows $picture, which is not there"; exit 1; }
    [ -n "$words" ] || { echo "wrong: $page shows $picture without words"; exit 1; }
  done <"$folder/shown"
done

# What a page takes from another file, "<!-- from FILE -->" and a block, stands there, line for line.
extracts=0
for page in "$SOURCE"/docs/*.md; do
  awk -v to="$folder/extract" '
    /^<!-- from .* -->$/ { file = $3; next }
    file != "" && /^```/ { inside = !inside; if (inside) { out = to (++count); print file >out } else { file = ""; close(out) } next }
    inside { print >out }' "$page"
  for extract in "$folder"/extract*; do
    [ -f "$extract" ] || continue
    file=$SOURCE/$(head -n 1 "$extract")
    case "$(cat "$file")" in
      *"$(sed 1d "$extract")"*) ;;
      *) echo "wrong: $page shows what is not in $file:"; cat "$extract"; exit 1 ;;
    esac
    extracts=$((extracts + 1))
    rm "$extract"
  done
done
[ "$extracts" -gt 0 ] || { echo "wrong: no listings"; exit 1; }
echo "$pages pages, $(ls "$folder/pictures" | wc -l) pictures and $extracts listings are what they show"
