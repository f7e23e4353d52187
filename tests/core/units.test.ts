import { describe, expect, it } from 'vitest';
import * as u from '../../src/core/units.ts';

describe('units', () => {
  // Definitions: international foot and inch (1959), SI.
  it.each([
    ['90 degrees in radians', u.radFromDeg(90), Math.PI / 2],
    ['1 radian in degrees', u.degFromRad(1), 57.29577951],
    ['36 mm in metres', u.mFromMm(36), 0.036],
    ['0.2 m in millimetres', u.mmFromM(0.2), 200],
    ['85 cm in metres', u.mFromCm(85), 0.85],
    ['0.85 m in centimetres', u.cmFromM(0.85), 85],
    ['12 inches in metres', u.mFromInches(12), 0.3048],
    ['1 m in inches', u.inchesFromM(1), 39.37007874],
    ['4 feet in metres', u.mFromFeet(4), 1.2192],
    ['1 m in feet', u.feetFromM(1), 3.280839895],
    ['1 footcandle in lux', u.luxFromFootcandles(1), 10.76391042],
    ['1000 lx in footcandles', u.footcandlesFromLux(1000), 92.90304],
    ['3200 K in mired', u.miredFromKelvin(3200), 312.5],
    ['178.5714286 mired in kelvin', u.kelvinFromMired(178.5714286), 5600],
    ['a ratio of 8 in stops', u.stopsFromRatio(8), 3],
    ['-1 stop as a ratio', u.ratioFromStops(-1), 0.5],
    ['density 0.3 in stops', u.stopsFromDensity(0.3), 0.996578],
    ['density 0.9 in stops', u.stopsFromDensity(0.9), 2.989735],
    ['2 stops as density', u.densityFromStops(2), 0.60206],
  ])('%s', (_name, value, expected) => {
    expect(Math.abs(value / expected - 1)).toBeLessThan(1e-6);
  });
  it('gives -Infinity stops for no light', () => {
    expect(u.stopsFromRatio(0)).toBe(Number.NEGATIVE_INFINITY);
  });
});
