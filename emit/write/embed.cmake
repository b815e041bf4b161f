# Writes a C file that holds the templates as byte arrays (see embedded.h), run while building:
#   cmake -D OUTPUT=embedded_templates.c -D "TEMPLATES=a;b" -P embed.cmake
# Arrays and not string literals: ISO C promises only 4095 characters in a literal.
cmake_minimum_required(VERSION 3.22)

if(NOT DEFINED OUTPUT OR NOT DEFINED TEMPLATES)
  message(FATAL_ERROR "embed.cmake needs -D OUTPUT=FILE and -D TEMPLATES=LIST")
endif()

set(arrays "")
set(rows "")
set(index 0)
foreach(template IN LISTS TEMPLATES)
  get_filename_component(name "${template}" NAME)
  if(NOT name MATCHES "^[A-Za-z0-9_.-]+$")
    message(FATAL_ERROR "template '${name}': use letters, digits, _ . - in its name")
  endif()
  file(READ "${template}" hex HEX)
  string(LENGTH "${hex}" digits)
  math(EXPR bytes "${digits} / 2")
  if(bytes EQUAL 0)
    set(hex 00) # ISO C has no empty arrays; the length says that nothing is there
  endif()
  string(REGEX REPLACE "(................................)" "\\1\n" hex "${hex}")
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," hex "${hex}")
  string(APPEND arrays "static const unsigned char bytes_${index}[] = {\n${hex}};\n\n")
  string(APPEND rows "    {\"${name}\", bytes_${index}, ${bytes}},\n")
  math(EXPR index "${index} + 1")
endforeach()

file(WRITE "${OUTPUT}" "/* Written by embed.cmake from templates/. */
#include \"write/embedded.h\"

${arrays}const EmbeddedTemplate embedded_templates[] = {
${rows}    {0, 0, 0},
};
")
