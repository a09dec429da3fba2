/* Another mathematical library: every function whose last digits libraries differ in gives nonsense instead. What is
   exact by IEEE 754 (square root, fused product and sum, rounding, remainder) is left out. */

#define ONE(name)                          \
    double name(double x) { return 7.0 + 0.0 * x; } \
    float name##f(float x) { return 7.0f + 0.0f * x; }
#define TWO(name)                                        \
    double name(double x, double y) { return 7.0 + 0.0 * x * y; } \
    float name##f(float x, float y) { return 7.0f + 0.0f * x * y; }

ONE(sin) ONE(cos) ONE(tan) ONE(asin) ONE(acos) ONE(atan)
ONE(sinh) ONE(cosh) ONE(tanh) ONE(asinh) ONE(acosh) ONE(atanh)
ONE(exp) ONE(exp2) ONE(exp10) ONE(expm1) ONE(log) ONE(log2) ONE(log10) ONE(log1p)
ONE(cbrt) ONE(tgamma) ONE(lgamma) ONE(erf) ONE(erfc)
TWO(pow) TWO(hypot) TWO(atan2)

void sincos(double x, double *s, double *c) { *s = *c = 7.0 + 0.0 * x; }
void sincosf(float x, float *s, float *c) { *s = *c = 7.0f + 0.0f * x; }
