import { degFromRad } from '../../core/units.ts';

/** Whole millimetres: what a tape shows. Never '-0'. */
export const mmWords = (lengthM: number): string => String(Math.round(lengthM * 1000) + 0);

/** '+450', '\u2212240', '0': running dimensions on the edge of a drawing. */
export function signedMmWords(lengthM: number): string {
  const mm = Math.round(lengthM * 1000);
  return mm === 0 ? '0' : `${mm > 0 ? '+' : '\u2212'}${Math.abs(mm)}`;
}

/** '64\u00b0 down', '12\u00b0 up', 'level'. */
export function tiltWords(tiltDownRad: number): string {
  const deg = Math.round(degFromRad(tiltDownRad));
  if (deg === 0) return 'level';
  return `${Math.abs(deg)}\u00b0 ${deg > 0 ? 'down' : 'up'}`;
}

/** '450 right', '450 left', '0'. */
export const sideWords = (rightM: number): string => signedWords(rightM, 'right', 'left');
/** '300 front', '300 back', '0': front is toward the usual camera side. */
export const depthWords = (frontM: number): string => signedWords(frontM, 'front', 'back');

function signedWords(lengthM: number, positive: string, negative: string): string {
  const mm = Math.round(lengthM * 1000);
  return mm === 0 ? '0' : `${Math.abs(mm)} ${mm > 0 ? positive : negative}`;
}
