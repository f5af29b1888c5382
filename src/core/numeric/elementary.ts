/**
 * The elementary functions of core. JavaScript engines may differ in the last digit of `Math.sin`, `Math.exp` and
 * their kin, so core uses one port of FDLIBM/Cephes (the @stdlib packages) and the architecture test bans the `Math`
 * ones. `Math.sqrt`, `abs`, `floor`, `round`, `min`, `max`, `sign`, `trunc`, `imul` and `hypot`-free arithmetic are exact in every engine.
 */
import stdAcos from '@stdlib/math-base-special-acos';
import stdAsin from '@stdlib/math-base-special-asin';
import stdAsinh from '@stdlib/math-base-special-asinh';
import stdAtan from '@stdlib/math-base-special-atan';
import stdAtan2 from '@stdlib/math-base-special-atan2';
import stdCos from '@stdlib/math-base-special-cos';
import stdCosh from '@stdlib/math-base-special-cosh';
import stdExp from '@stdlib/math-base-special-exp';
import stdHypot from '@stdlib/math-base-special-hypot';
import stdLn from '@stdlib/math-base-special-ln';
import stdLog2 from '@stdlib/math-base-special-log2';
import stdLog10 from '@stdlib/math-base-special-log10';
import stdPow from '@stdlib/math-base-special-pow';
import stdSin from '@stdlib/math-base-special-sin';
import stdSinh from '@stdlib/math-base-special-sinh';
import stdTan from '@stdlib/math-base-special-tan';
import stdTanh from '@stdlib/math-base-special-tanh';

type Unary = (x: number) => number;
type Binary = (x: number, y: number) => number;

/** Sine of an angle in radians. */
export const sin: Unary = stdSin;
/** Cosine of an angle in radians. */
export const cos: Unary = stdCos;
/** Tangent of an angle in radians. */
export const tan: Unary = stdTan;
/** Arc sine in radians; NaN outside -1..1. */
export const asin: Unary = stdAsin;
/** Arc cosine in radians; NaN outside -1..1. */
export const acos: Unary = stdAcos;
/** Arc tangent in radians. */
export const atan: Unary = stdAtan;
/** Angle in radians of the point (x, y). */
export const atan2: Binary = stdAtan2;
/** Inverse hyperbolic sine. */
export const asinh: Unary = stdAsinh;
/** Hyperbolic sine. */
export const sinh: Unary = stdSinh;
/** Hyperbolic cosine. */
export const cosh: Unary = stdCosh;
/** Hyperbolic tangent. */
export const tanh: Unary = stdTanh;
/** e to the power x. */
export const exp: Unary = stdExp;
/** Natural logarithm; NaN below 0. */
export const ln: Unary = stdLn;
/** Logarithm to base 10; NaN below 0. */
export const log10: Unary = stdLog10;
/** Logarithm to base 2; NaN below 0. */
export const log2: Unary = stdLog2;
/** x to the power y. */
export const pow: Binary = stdPow;
/** Length of the vector (x, y). */
export const hypot: Binary = stdHypot;
