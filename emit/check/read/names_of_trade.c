/* See names_of_trade.h. Common practice, no source. A new name is a word in a row below. */
#include "check/read/names_of_trade.h"

#include <stdio.h>
#include <string.h>

enum { NAME_BYTES = 64 };

/* Lower case, without underscores, with a blank before and after each. */
static const char *const names[PIN_COUNT] = {
    [PIN_CLK] = " clk clock ck cp sysclk mclk clkin ",
    [PIN_RST] = " rst reset rstn resetn nrst nreset arst areset arstn aresetn rstb resetb srst "
                "clr clear clrn clrb nclr rstl resetl reseti rsti ",
    [PIN_EN] = " en enable ce clken clkenable clockenable ena cen clke load ld ",
    [PIN_LINE] =
        " subtract mode sub m s sel select op ctrl ctl control addsub addnsub naddsub "
        "subadd subnadd subn nsub add addn nadd as aors issub isadd dosub k minus neg opsel "
        "operation func fn f t su choose ",
    [PIN_OP] = " op opcode operation aluop aluoperation opsel sel select s func funct fn f mode m "
               "ctl ctrl control cmd command alucontrol aluctrl aluctl code ",
    [PIN_CIN] = " cin ci c0 carryin cyin cyi bin bi borrowin carry c cy cf borrow incarry ",
    [PIN_A] =
        " a x p ina in0 in1 i0 i1 opa op1 operanda operand1 lhs dataa data1 da srca src1 num1 "
        "numa first left augend minuend aa busa abus worda inputa input1 vala val1 xin ain ",
    [PIN_B] =
        " b y q inb in1 in2 i1 i2 opb op2 operandb operand2 rhs datab data2 db srcb src2 num2 "
        "numb second right addend subtrahend bb busb bbus wordb inputb input2 valb val2 yin "
        "bin ",
    [PIN_RESULT] =
        " result res r s sum diff difference y out o f q z d dout total ans answer aluout "
        "aluresult alures sumdiff sumordiff dataout rout outp output1 value yout zout ",
    [PIN_FLAG + FLAG_CARRY] =
        " carry cout co carryout c cy cf cyout cyo bout bo borrow borrowout cn "
        "carryflag flagc fc cflag couto ",
    [PIN_FLAG + FLAG_OVERFLOW] = " overflow ov ovf v of vf oflow oflo ovfl ovr overflowflag flagv "
                                 "flago fv vflag oflag signedoverflow ",
    [PIN_FLAG + FLAG_ZERO] = " zero z zf zer eq iszero zeroflag flagz fz zflag eqz isz ",
    [PIN_FLAG + FLAG_NEGATIVE] =
        " negative n neg nf sf sign signflag isneg isnegative flagn fn nflag "
        "negativeflag negflag s ",
    [PIN_FLAG + FLAG_LESS_SIGNED] = " lesssigned lt slt less lts ltsigned signedless ",
    [PIN_FLAG + FLAG_LESS_UNSIGNED] = " lessunsigned ltu sltu below ltunsigned unsignedless ",
    [PIN_FLAG + FLAG_PARITY] = " parity p pf par parityflag flagp pflag ",
    [PIN_FLAG + FLAG_HALF_CARRY] = " halfcarry h hc hf ac af aux auxcarry hflag flagh ",
};

/* What a request pin's operation is also called. */
static const char *const operation_words[OP_COUNT] = {
    [OP_ADD] = " add plus addition ",
    [OP_ADC] = " adc addc addcarry ",
    [OP_SUB] = " sub subtract minus ",
    [OP_SBC] = " sbc subc sbb subborrow ",
    [OP_RSB] = " rsb rsub ",
    [OP_INC] = " inc increment ",
    [OP_DEC] = " dec decrement ",
    [OP_NEG] = " neg negate ",
    [OP_PASS] = " pass passa mov move ",
};

/* A name with the blanks of the lists around it, and nothing in it that does not matter. */
static void plain(const char *name, char text[NAME_BYTES]) {
    size_t used = 0;
    text[used++] = ' ';
    for (; *name != '\0' && used < NAME_BYTES - 2; name++) {
        char c = *name >= 'A' && *name <= 'Z' ? (char)(*name - 'A' + 'a') : *name;
        if (c != '_')
            text[used++] = c;
    }
    text[used++] = ' ';
    text[used] = '\0';
}

/* Is it the word itself, or with one of the syllables that go with requests? */
static bool is_request(Operation operation, const char *word) {
    static const char *const before[] = {"", "do", "is", "req", "sel", "op", "en"};
    static const char *const after[] = {"", "req", "en", "sel", "op"};
    char list[NAME_BYTES];
    for (size_t b = 0; b < sizeof before / sizeof before[0]; b++)
        for (size_t a = 0; a < sizeof after / sizeof after[0]; a++) {
            const char *words = operation_words[operation];
            while (*words != '\0' && *++words != '\0') {
                int length = (int)strcspn(words, " ");
                snprintf(list, sizeof list, " %s%.*s%s ", before[b], length, words, after[a]);
                if (strcmp(list, word) == 0)
                    return true;
                words += length;
            }
        }
    return false;
}

static bool fits_plainly(Pin pin, const char *name) {
    char word[NAME_BYTES];
    plain(name, word);
    if (pin >= PIN_DO && pin < PIN_CIN)
        return is_request((Operation)(pin - PIN_DO), word);
    return names[pin] != NULL && strstr(names[pin], word) != NULL;
}

/* The name without one of these endings, in room for it; false when it has none. */
static bool without_ending(const char *name, const char *ending, char text[NAME_BYTES]) {
    size_t length = strlen(name), less = strlen(ending);
    if (length <= less || length >= NAME_BYTES || strcmp(name + length - less, ending) != 0)
        return false;
    snprintf(text, NAME_BYTES, "%.*s", (int)(length - less), name);
    return true;
}

bool trade_name_fits(Pin pin, const char *name) {
    static const char *const endings[] = {"_i", "_o", "_in", "_out", "_pin", "_flag"};
    char shorter[NAME_BYTES];
    if (strlen(name) >= NAME_BYTES - 2)
        return false;
    if (fits_plainly(pin, name))
        return true;
    bool prefixed = (name[0] == 'i' || name[0] == 'o' || name[0] == 'I' || name[0] == 'O') &&
                    name[1] == '_' && name[2] != '\0';
    if (prefixed && fits_plainly(pin, name + 2))
        return true;
    const char *last = strrchr(name, '_'); /* level_a, level_b */
    if ((pin == PIN_A || pin == PIN_B) && last != NULL && strlen(last) == 2 &&
        fits_plainly(pin, last + 1))
        return true;
    for (size_t k = 0; k < sizeof endings / sizeof endings[0]; k++)
        if (without_ending(name, endings[k], shorter) && fits_plainly(pin, shorter))
            return true;
    return false;
}

bool trade_name_of_carry(unsigned width, const char *name) {
    char word[NAME_BYTES], wanted[NAME_BYTES];
    plain(name, word);
    snprintf(wanted, sizeof wanted, " c%u ", width);
    return strcmp(word, wanted) == 0;
}

int trade_flag(const char *name) {
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (trade_name_fits((Pin)(PIN_FLAG + flag), name))
            return flag;
    return -1;
}
