import type { Finish } from './finish.ts';
import { meanReflectanceRgb } from './finishPattern.ts';
import { dielectricReflectance, diffuseReflectanceInside } from './fresnel.ts';
import { luminousOf } from './reflectance.ts';

const EIGHT_DEGREES_COSINE = Math.cos((8 * Math.PI) / 180);

/**
 * Share of white light that a finish sends back, 0..1, the mean over its pattern: even light from all sides, received 8
 * degrees off the normal, with the gloss counted in. A hundredth of what paint makers call light reflectance value
 * (geometry d:8i of CIE 15, as BS 8493 asks for; from memory). Dust counts, scratches don't.
 *
 * A coat over a matte base by Saunderson, Journal of the Optical Society of America 32, 727 (1942):
 * F + (1 - F)(1 - Ri) R / (1 - Ri R), per channel.
 */
export function luminousReflectance(finish: Finish): number {
  const rgb = meanReflectanceRgb(finish);
  if (finish.type !== 'gloss') return luminousOf(rgb);
  const mirror = dielectricReflectance(EIGHT_DEGREES_COSINE, 1, finish.coatIndex);
  return mirror + (1 - mirror) * luminousUnderCoat(rgb, finish.coatIndex);
}

/** The same without the mirror reflection of a coat: what a flat-lit picture of it meters. 0 for mirrors and clear things. */
export function luminousReflectanceWithoutGloss(finish: Finish): number {
  const rgb = meanReflectanceRgb(finish);
  switch (finish.type) {
    case 'gloss': {
      const mirror = dielectricReflectance(EIGHT_DEGREES_COSINE, 1, finish.coatIndex);
      return (1 - mirror) * luminousUnderCoat(rgb, finish.coatIndex);
    }
    case 'matte':
    case 'translucent':
      return luminousOf(rgb);
    case 'metal':
    case 'mirror':
    case 'clear':
    case 'black':
      return 0;
  }
}

function luminousUnderCoat(rgb: readonly [number, number, number], coatIndex: number): number {
  const inside = diffuseReflectanceInside(coatIndex);
  const out = (r: number): number => ((1 - inside) * r) / (1 - inside * r);
  return luminousOf([out(rgb[0]), out(rgb[1]), out(rgb[2])]);
}
