import type { Diagnostic } from '../../core/diagnostic.ts';
import type { GlassBody } from '../glassware/glassBody.ts';
import { cannotMake, inMm, madeWithin } from '../problems.ts';
import type { Ice } from '../records.ts';
import { meltIce } from './meltIce.ts';

const PIECES: Readonly<Record<NonNullable<Ice['form']>, string>> = {
  cube: 'ice cubes',
  block: 'blocks of ice',
  sphere: 'balls of ice',
  spear: 'spears of ice',
  cracked: 'pieces of cracked ice',
  crushed: 'pieces of crushed ice',
};

/** What is to be said about the ice of a glass once it is packed. */
export function iceDiagnostics(
  recordId: string,
  ice: Ice,
  body: GlassBody,
  placed: number,
  inDrink: boolean,
): Diagnostic[] {
  if (ice.bevelM > ice.edgeM / 2) {
    return [
      cannotMake(
        recordId,
        'ice-bevel-too-large',
        'ice.bevelM',
        ice.bevelM,
        'ice.bevelM is more than half of ice.edgeM: keep it at half or less. The ice is left out.',
      ),
    ];
  }
  if (ice.count === 0) return [];
  if (!meltIce(ice, inDrink)) {
    return [
      madeWithin(
        recordId,
        'ice-melted-away',
        'ice.meltMin',
        ice.meltMin,
        'ice.meltMin is longer than ice of this size lasts: shorten it or make ice.edgeM larger. No ice is left.',
      ),
    ];
  }
  const diagnostics: Diagnostic[] = [];
  if (placed < ice.count) {
    diagnostics.push(
      madeWithin(
        recordId,
        'ice-does-not-fit',
        'ice.count',
        ice.count,
        `Only ${placed} of ${ice.count} ${PIECES[ice.form ?? 'cube']} fit: lower ice.count to ${placed} or make ice.edgeM smaller.`,
      ),
    );
  }
  const mouthM = 2 * (body.inside[0]?.piece.from.rM ?? 0);
  if (body.convexUpToYM < body.rimYM && ice.edgeM > mouthM) {
    diagnostics.push(
      madeWithin(
        recordId,
        'ice-wider-than-neck',
        'ice.edgeM',
        ice.edgeM,
        `ice.edgeM is more than the neck, which is ${inMm(mouthM)} wide inside: such pieces can't get into the vessel. Make them smaller.`,
      ),
    );
  }
  return diagnostics;
}
