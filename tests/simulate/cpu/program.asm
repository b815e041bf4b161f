; What the harbour logger's CPU does with a day of readings, all invented: 24 observed and 24
; predicted levels in millimetres above the datum, 16 bits each, their low and high bytes apart.
;
;   lda add adc sub sbc rsb   accumulator = accumulator - value, ...; value is #number, a place, or
;                             a place,x
;   inc dec neg clr           accumulator alone
;   cmp cpc tst               the flags of sub, of sbc, of lda
;   ldx inx dex cpx           the same with the index
;   sta                       store: no flag changes; nor with lda and ldx
;   ldf                       accumulator = the flags
;   if_set if_clear           jump on a flag

; ---- what is given
observed_low    = 0x000
observed_high   = 0x020
predicted_low   = 0x040
predicted_high  = 0x060
left            = 0x080         ; sixteen pairs of bytes
right           = 0x090

; ---- what comes of it
residual_low    = 0x0a0
residual_high   = 0x0c0
residuals       = 0x0e0         ; 32 bits: their sum
all_observed    = 0x0e4
all_predicted   = 0x0e8
difference      = 0x0ec         ; of these two
agree           = 0x0f0         ; 1: difference and residuals are the same
extension       = 0x0f1
highest         = 0x0f2         ; 16 bits, observed
largest         = 0x0f4         ; 16 bits, signed, residual
below           = 0x0f6         ; hours with a residual below 0
by_carry        = 0x0f7         ; hours in which observed against predicted gives carry 1
clear_below     = 0x0f8         ; hours with one below -100 mm

; ---- the surge residual of each hour: observed - predicted
        ldx #0
hour:   lda observed_low,x
        sub predicted_low,x
        sta residual_low,x
        lda observed_high,x
        sbc predicted_high,x
        sta residual_high,x
        inx
        cpx #24
        if_clear zero hour

; ---- their sum in 32 bits; the sign goes into the upper bytes
        ldx #0
sum:    clr
        sta extension
        tst residual_high,x
        if_clear negative not_below
        lda #0xff
        sta extension
        lda below
        inc
        sta below
not_below:
        lda residual_low,x
        add residuals+0
        sta residuals+0
        lda residual_high,x
        adc residuals+1
        sta residuals+1
        lda extension
        adc residuals+2
        sta residuals+2
        lda extension
        adc residuals+3
        sta residuals+3
        inx
        cpx #24
        if_clear zero sum

; ---- the sums of both levels in 32 bits, which have no sign
        ldx #24
levels: dex
        lda observed_low,x
        add all_observed+0
        sta all_observed+0
        lda observed_high,x
        adc all_observed+1
        sta all_observed+1
        lda #0
        adc all_observed+2
        sta all_observed+2
        lda #0
        adc all_observed+3
        sta all_observed+3
        lda predicted_low,x
        add all_predicted+0
        sta all_predicted+0
        lda predicted_high,x
        adc all_predicted+1
        sta all_predicted+1
        lda #0
        adc all_predicted+2
        sta all_predicted+2
        lda #0
        adc all_predicted+3
        sta all_predicted+3
        cpx #0
        if_clear zero levels

; ---- their difference must be the sum of the differences
        lda all_observed+0
        sub all_predicted+0
        sta difference+0
        lda all_observed+1
        sbc all_predicted+1
        sta difference+1
        lda all_observed+2
        sbc all_predicted+2
        sta difference+2
        lda all_observed+3
        sbc all_predicted+3
        sta difference+3
        ldx #0
same:   lda difference,x
        cmp residuals,x
        if_clear zero differ
        inx
        cpx #4
        if_clear zero same
        lda #1
        sta agree
differ:

; ---- the highest level: an unsigned comparison of 16 bits
        ldx #0
level:  lda highest+0
        cmp observed_low,x
        lda highest+1
        cpc observed_high,x
        if_clear less_unsigned lower
        lda observed_low,x
        sta highest+0
        lda observed_high,x
        sta highest+1
; and by carry, whose meaning after a subtraction is a matter of the unit's sense
lower:  lda observed_low,x
        cmp predicted_low,x
        lda observed_high,x
        cpc predicted_high,x
        if_clear carry no_carry
        lda by_carry
        inc
        sta by_carry
no_carry:
        inx
        cpx #24
        if_clear zero level

; ---- the largest surge, and the hours below -100 mm: signed comparisons of 16 bits
        lda residual_low
        sta largest+0
        lda residual_high
        sta largest+1
        ldx #0
surge:  lda largest+0
        cmp residual_low,x
        lda largest+1
        cpc residual_high,x
        if_clear less_signed no_surge
        lda residual_low,x
        sta largest+0
        lda residual_high,x
        sta largest+1
no_surge:
        lda residual_low,x
        cmp #0x9c
        lda residual_high,x
        cpc #0xff
        if_clear less_signed not_clear
        lda clear_below
        inc
        sta clear_below
not_clear:
        inx
        cpx #24
        if_clear zero surge

; ---- every operation on sixteen pairs of bytes: its result and its flags
        ldx #0
pair:   lda left,x
        add right,x
        sta 0x200,x
        ldf
        sta 0x210,x
        clr                     ; the carry pin 0
        lda left,x
        adc right,x
        sta 0x220,x
        ldf
        sta 0x230,x
        lda #0xff
        add #1                  ; the carry pin 1
        lda left,x
        adc right,x
        sta 0x240,x
        ldf
        sta 0x250,x
        lda left,x
        sub right,x
        sta 0x260,x
        ldf
        sta 0x270,x
        clr
        lda left,x
        sbc right,x
        sta 0x280,x
        ldf
        sta 0x290,x
        lda #0xff
        add #1
        lda left,x
        sbc right,x
        sta 0x2a0,x
        ldf
        sta 0x2b0,x
        lda left,x
        rsb right,x
        sta 0x2c0,x
        ldf
        sta 0x2d0,x
        lda left,x
        inc
        sta 0x2e0,x
        ldf
        sta 0x2f0,x
        lda left,x
        dec
        sta 0x300,x
        ldf
        sta 0x310,x
        lda left,x
        neg
        sta 0x320,x
        ldf
        sta 0x330,x
        tst left,x
        ldf
        sta 0x340,x
        clr
        sta 0x350,x
        ldf
        sta 0x360,x
        inx
        cpx #16
        if_clear zero pair

; ---- both branches on every flag, after a comparison of the same pairs: 1 goes to the upper table
; to the upper table, where it is 0, to the lower
        ldx #15
branch: lda left,x
        cmp right,x
        lda #1                  ; no flag changes
        if_clear carry c0
        sta 0x400,x
c0:     if_set carry c1
        sta 0x500,x
c1:     if_clear overflow v0
        sta 0x410,x
v0:     if_set overflow v1
        sta 0x510,x
v1:     if_clear zero z0
        sta 0x420,x
z0:     if_set zero z1
        sta 0x520,x
z1:     if_clear negative n0
        sta 0x430,x
n0:     if_set negative n1
        sta 0x530,x
n1:     if_clear less_signed s0
        sta 0x440,x
s0:     if_set less_signed s1
        sta 0x540,x
s1:     if_clear less_unsigned u0
        sta 0x450,x
u0:     if_set less_unsigned u1
        sta 0x550,x
u1:     if_clear parity p0
        sta 0x460,x
p0:     if_set parity p1
        sta 0x560,x
p1:     if_clear half_carry h0
        sta 0x470,x
h0:     if_set half_carry h1
        sta 0x570,x
h1:     dex                     ; from 0 it goes to 255
        cpx #255
        if_clear zero branch
        hlt
