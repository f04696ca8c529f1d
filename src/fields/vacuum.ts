/** The two constants of free space. */

/** µ0 [H/m]. @source codata-2018, relative uncertainty 1.5e-10 */
export const magneticConstant = 1.25663706212e-6;

/** ε0 [F/m]. @source codata-2018, relative uncertainty 1.5e-10 */
export const electricConstant = 8.8541878128e-12;

/** Potential of a point charge at one metre, 1/(4πε0) [V·m/C]. */
export const coulombFactor = 1 / (4 * Math.PI * electricConstant);
