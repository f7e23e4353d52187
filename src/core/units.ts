/** Conversions between the units of the trade and SI. Everything inside the core is SI and radians. */

export const radFromDeg = (angleDeg: number): number => (angleDeg * Math.PI) / 180;
export const degFromRad = (angleRad: number): number => (angleRad * 180) / Math.PI;

export const mFromMm = (lengthMm: number): number => lengthMm / 1000;
export const mmFromM = (lengthM: number): number => lengthM * 1000;
export const mFromCm = (lengthCm: number): number => lengthCm / 100;
export const cmFromM = (lengthM: number): number => lengthM * 100;
/** The international inch and foot are exact: 25.4 mm and 304.8 mm. */
export const mFromInches = (lengthIn: number): number => lengthIn * 0.0254;
export const inchesFromM = (lengthM: number): number => lengthM / 0.0254;
export const mFromFeet = (lengthFt: number): number => lengthFt * 0.3048;
export const feetFromM = (lengthM: number): number => lengthM / 0.3048;

/** Stops of a ratio of light: 2 is one stop, 0 is -Infinity, negative is NaN. */
export const stopsFromRatio = (ratio: number): number => Math.log2(ratio);
export const ratioFromStops = (stops: number): number => 2 ** stops;

/** Stops that a density D takes: D / log10(2). */
export const stopsFromDensity = (density: number): number => density / Math.log10(2);
export const densityFromStops = (stops: number): number => stops * Math.log10(2);

/** One footcandle is one lumen per square foot. */
export const luxFromFootcandles = (footcandles: number): number => footcandles / 0.3048 ** 2;
export const footcandlesFromLux = (illuminanceLux: number): number => illuminanceLux * 0.3048 ** 2;

/** Micro reciprocal degrees of a colour temperature. */
export const miredFromKelvin = (cctK: number): number => 1e6 / cctK;
export const kelvinFromMired = (mired: number): number => 1e6 / mired;
