/* See layout.h. */
#include "verilog/layout.h"

#include "base/text.h"

static unsigned field_bits(const Unit *unit, Field field) {
    unsigned flags = 0;
    switch (field) {
    case FIELD_CONTROL:
        return unit_control_bits(unit);
    case FIELD_CIN:
        return unit_has(unit, PIN_CIN);
    case FIELD_B:
        return unit_has(unit, PIN_B) ? unit->width : 0;
    case FIELD_FLAGS:
        for (int flag = 0; flag < FLAG_COUNT; flag++)
            flags += unit->flag[flag];
        return flags;
    case FIELD_A:
    case FIELD_RESULT:
    case FIELD_COUNT:
        break;
    }
    return unit->width;
}

Layout layout_of(const Unit *unit) {
    Layout layout = {.bits = 0};
    for (int field = FIELD_COUNT - 1; field >= 0; field--) {
        FieldPlace *place = &layout.field[field];
        place->bits = field_bits(unit, (Field)field);
        place->digits = (place->bits + 3) / 4;
        place->low = layout.bits;
        layout.bits += place->digits * 4;
        if (field == FIELD_RESULT)
            layout.out_bits = layout.bits;
    }
    return layout;
}

/* ---- in words ----------------------------------------------------------------------------- */

static void say(TextBuffer *words, const char *between, const char *text) {
    text_printf(words, "%s%s", words->length == 0 ? "" : between, text);
}

static void say_control(const Unit *unit, TextBuffer *words) {
    if (unit->control == CONTROL_CODE)
        say(words, "_", unit_role(unit, PIN_OP));
    if (unit->control == CONTROL_HIGH || unit->control == CONTROL_LOW)
        say(words, "_", unit_role(unit, PIN_LINE));
    if (unit->control != CONTROL_ONE_HOT)
        return;
    for (int k = unit->choice_count; k-- > 0;)
        say(words, k + 1 == unit->choice_count ? "" : ",",
            unit_role(unit, (Pin)(PIN_DO + (int)unit->choice[k].operation)));
}

static void say_flags(const Unit *unit, TextBuffer *words) {
    const char *between = "_";
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        if (!unit->flag[flag])
            continue;
        say(words, between, unit_role(unit, (Pin)(PIN_FLAG + flag)));
        between = ",";
    }
}

void layout_facts(const Unit *unit, Facts *facts) {
    Layout layout = layout_of(unit);
    TextBuffer words = {0};
    say_control(unit, &words);
    for (int pin = PIN_CIN; pin <= PIN_RESULT; pin++)
        if (unit_has(unit, (Pin)pin))
            say(&words, "_", unit_role(unit, (Pin)pin));
    say_flags(unit, &words);
    facts_text(facts, "layout", "%s", words.text);
    text_free(&words);
    facts_text(facts, "bits", "%u", layout.bits);
    facts_text(facts, "out_bits", "%u", layout.out_bits);
}
