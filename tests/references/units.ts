// Each unit in SI. Inch, pound and standard gravity are exact by definition (NIST SP 811, Appendix B.8).
export const MM = 1e-3;
export const INCH = 25.4e-3;
export const MIL = 25.4e-6;
export const FOOT = 0.3048;
export const POUND = 0.45359237;
export const GRAVITY = 9.80665;
export const LBF = POUND * GRAVITY;
export const KGF = GRAVITY;
export const OUNCE_INCH = (LBF / 16) * INCH;
export const DEG = Math.PI / 180;
export const TURN = 2 * Math.PI;
export const RPM = TURN / 60;
export const MINUTE = 60;
export const US = 1e-6;
