import { degFromRad } from '../../core/units.ts';

/** What lengths on paper are said in: whole millimetres, or feet and inches to a sixteenth, as tapes show them. */
export type LengthUnits = 'mm' | 'feet';

/** The inch: 25.4 mm exactly (international yard and pound agreement, 1959). */
const M_PER_INCH = 0.0254;
const PARTS_OF_INCH = 16;
/** Keeps feet, inches and fraction on one line. */
const SPACE = '\u00a0';

/** '1007', or 3' 3 5/8". Never '-0'; a negative length has a minus in front. */
export function lengthWords(lengthM: number, units: LengthUnits = 'mm'): string {
  if (units === 'mm') return String(Math.round(lengthM * 1000) + 0);
  const parts = Math.round((Math.abs(lengthM) / M_PER_INCH) * PARTS_OF_INCH);
  const sign = parts > 0 && lengthM < 0 ? '\u2212' : '';
  const feet = Math.floor(parts / (12 * PARTS_OF_INCH));
  const inches = Math.floor((parts % (12 * PARTS_OF_INCH)) / PARTS_OF_INCH);
  const fraction = fractionWords(parts % PARTS_OF_INCH);
  const inchWords = [inches === 0 && fraction !== '' ? '' : String(inches), fraction]
    .filter((w) => w !== '')
    .join(SPACE);
  return `${sign}${feet > 0 ? `${feet}'${SPACE}` : ''}${inchWords}"`;
}

/** The same with its unit, for running text: '600 mm', or 1' 11 5/8". */
export const lengthWithUnit = (lengthM: number, units: LengthUnits = 'mm'): string =>
  units === 'mm' ? `${lengthWords(lengthM)} mm` : lengthWords(lengthM, units);

function fractionWords(sixteenths: number): string {
  if (sixteenths === 0) return '';
  let [top, bottom] = [sixteenths, PARTS_OF_INCH];
  while (top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return `${top}/${bottom}`;
}

/** '+450', '\u2212240', '0': running dimensions on the edge of a drawing. */
export function signedLengthWords(lengthM: number, units: LengthUnits = 'mm'): string {
  const words = lengthWords(Math.abs(lengthM), units);
  if (words === '0' || words === '0"') return words;
  return `${lengthM > 0 ? '+' : '\u2212'}${words}`;
}

/** '64\u00b0 down', '12\u00b0 up', 'level'. */
export function tiltWords(tiltDownRad: number): string {
  const deg = Math.round(degFromRad(tiltDownRad));
  if (deg === 0) return 'level';
  return `${Math.abs(deg)}\u00b0 ${deg > 0 ? 'down' : 'up'}`;
}

/** '450 right', '450 left', '0'. */
export const sideWords = (rightM: number, units: LengthUnits = 'mm'): string =>
  directedWords(rightM, 'right', 'left', units);
/** '300 front', '300 back', '0': front is toward the usual camera side. */
export const depthWords = (frontM: number, units: LengthUnits = 'mm'): string =>
  directedWords(frontM, 'front', 'back', units);

function directedWords(lengthM: number, positive: string, negative: string, units: LengthUnits): string {
  const words = lengthWords(Math.abs(lengthM), units);
  return words === '0' || words === '0"' ? words : `${words} ${lengthM > 0 ? positive : negative}`;
}
