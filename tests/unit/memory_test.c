/* Memory that is asked for, and what happens when there is none (base/memory.h, base/text.h). A
 * lack of memory is had by asking for more bytes than can be counted. */
#include "base/memory.h"

#include "base/text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

static void test_zeroed(void **state) {
    (void)state;
    char *block = memory_zeroed(100, 1);
    for (int k = 0; k < 100; k++)
        assert_int_equal(block[k], 0);
    memory_free(block);
    memory_free(memory_zeroed(0, 8)); /* no things: a block all the same */
    memory_free(memory_resize(NULL, 0, 8));
    memory_free(NULL);
}

/* Room at least doubles, what is there stays, and nothing moves while there is room. */
static void test_grow(void **state) {
    (void)state;
    size_t room = 0, moves = 0;
    int *list = NULL;
    for (size_t count = 0; count < 5000; count++) {
        size_t before = room;
        list = memory_grow(list, &room, count + 1, sizeof *list);
        moves += room != before;
        assert_true(room > count && (room == before || room >= 2 * before));
        list[count] = (int)count;
    }
    assert_true(moves < 12);
    for (size_t k = 0; k < 5000; k++)
        assert_int_equal(list[k], (int)k);
    list = memory_grow(list, &room, 10 * room, sizeof *list); /* much more at once */
    assert_int_equal(list[4999], 4999);
    memory_free(list);
}

static void test_text(void **state) {
    (void)state;
    TextBuffer buffer = {NULL, 0, 0};
    char *text = text_take(&buffer);
    assert_string_equal(text, "");
    memory_free(text);
    text_add(&buffer, "level ");
    text_printf(&buffer, "%d mm, %s", -12, "residual");
    text_add_bytes(&buffer, ", rising", 2);
    assert_string_equal(buffer.text, "level -12 mm, residual, ");
    assert_int_equal(buffer.length, strlen(buffer.text));
    for (int k = 0; k < 1000; k++)
        text_printf(&buffer, "%04d", k);
    assert_int_equal(buffer.length, 24 + 4000);
    text = text_take(&buffer);
    assert_null(buffer.text);
    assert_string_equal(text + 24 + 3996, "0999");
    memory_free(text);
    text_add(&buffer, "gone");
    text_free(&buffer);
    assert_null(buffer.text);
}

/* ---- no memory ----------------------------------------------------------------------------- */

typedef struct {
    size_t blocks; /* to take first */
    bool too_much; /* then more than there is */
    char *kept;
} Work;

static void take_blocks(void *context) {
    Work *work = context;
    char *last = NULL;
    for (size_t k = 0; k < work->blocks; k++) {
        char *block = memory_text("block %zu", k);
        if (k % 3 == 0)
            memory_free(block);
        else
            last = memory_resize(block, 100 + k, 1);
    }
    if (work->too_much)
        memory_zeroed(SIZE_MAX / 2, 2);
    work->kept = last;
}

/* Leaks would be found by the sanitizers. */
static void test_try(void **state) {
    (void)state;
    MemoryPool pool = {NULL}, other = {NULL};
    Work work = {.blocks = 50};
    assert_true(memory_try(&pool, take_blocks, &work));
    assert_string_equal(work.kept, "block 49");
    assert_non_null(pool.first);

    Work fails = {.blocks = 50, .too_much = true};
    assert_false(memory_try(&other, take_blocks, &fails));
    assert_null(other.first);
    assert_string_equal(work.kept, "block 49"); /* of the pool that nothing failed in */
    memory_empty(&pool);
    assert_null(pool.first);
    memory_free(memory_zeroed(1, 1)); /* in no pool again */
}

static void inner(void *context) {
    MemoryPool pool = {NULL};
    Work fails = {.blocks = 5, .too_much = true};
    char *before = memory_text("before");
    assert_false(memory_try(&pool, take_blocks, &fails));
    memory_free(before); /* the outer pool is in force again */
    take_blocks(context);
}

static void test_try_in_try(void **state) {
    (void)state;
    MemoryPool pool = {NULL};
    Work work = {.blocks = 5};
    assert_true(memory_try(&pool, inner, &work));
    memory_empty(&pool);
    Work fails = {.blocks = 5, .too_much = true};
    assert_false(memory_try(&pool, inner, &fails));
}

static void jump(void *context) {
    longjmp(*(jmp_buf *)context, 1);
}

static bool room_for(size_t count, bool resize) {
    jmp_buf back;
    memory_on_lack(jump, &back);
    if (setjmp(back) != 0)
        return false;
    memory_free(resize ? memory_resize(NULL, count, 8) : memory_zeroed(count, 8));
    return true;
}

static void test_hook(void **state) {
    (void)state;
    static const size_t too_many[] = {SIZE_MAX, SIZE_MAX / 8 + 1};
    for (size_t k = 0; k < sizeof too_many / sizeof too_many[0]; k++) {
        assert_false(room_for(too_many[k], false));
        assert_false(room_for(too_many[k], true));
    }
    assert_true(room_for(8, false) && room_for(8, true));
    memory_on_lack(NULL, NULL);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_zeroed),     cmocka_unit_test(test_grow),
        cmocka_unit_test(test_text),       cmocka_unit_test(test_try),
        cmocka_unit_test(test_try_in_try), cmocka_unit_test(test_hook),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
