import type { Finish } from './finish.ts';
import { meanPatternMix, type Pattern, type PatternNumbers, patternNumbers } from './pattern.ts';
import { scratchCoverage } from './patterns/scratches.ts';
import { meanPictureRgb } from './picture.ts';
import { mixReflectance, type ReflectanceRgb } from './reflectance.ts';

/** House dust, matte. Invented: pale grey a little on the warm side. */
export const DUST_RGB: ReflectanceRgb = [0.46, 0.44, 0.41];
/** GGX alpha of the coat inside a scratch. Invented: it spreads a highlight over some 25 degrees. */
export const SCRATCH_ROUGHNESS = 0.35;

/** What a kernel needs of a finish's patterns: plain numbers. Null where there is none. */
export interface FinishPattern {
  /** Mixes `secondRgb` into the reflectance. */
  readonly base: PatternNumbers | null;
  /** Where its mix is 1 the surface is a Lambertian speck of `secondRgb` lying on the coat. */
  readonly dust: PatternNumbers | null;
  /** Where its mix is 1 the coat has the roughness SCRATCH_ROUGHNESS, or its own if that is more. */
  readonly scratches: PatternNumbers | null;
}

const PLAIN: FinishPattern = { base: null, dust: null, scratches: null };

/** Patterns of a finish as numbers. Equal finishes give equal numbers. */
export function finishPattern(finish: Finish): FinishPattern {
  if (finish.type !== 'matte' && finish.type !== 'gloss' && finish.type !== 'metal') return PLAIN;
  const base = finish.pattern ? patternNumbers(finish.pattern) : null;
  if (finish.type !== 'gloss') return { ...PLAIN, base };
  return {
    base,
    dust: finish.dust ? patternNumbers(dustPattern(finish.dust)) : null,
    scratches: finish.scratches ? patternNumbers(scratchPattern(finish.scratches)) : null,
  };
}

/** Motes 0.3 to 2 mm apart, denser with the share. */
const dustPattern = (share: number): Pattern => ({
  type: 'speckle',
  scaleM: 0.0022,
  seed: 11,
  secondRgb: DUST_RGB,
  share,
});

/** More lines and wider ones with the wear, up to 60 micrometres; their area grows in proportion to it. */
const scratchPattern = (wear: number): Extract<Pattern, { type: 'scratches' }> => ({
  type: 'scratches',
  scaleM: 0.024,
  seed: 12,
  secondRgb: [1, 1, 1],
  widthM: Math.max(0.000005, 0.00006 * Math.sqrt(wear)),
  density: Math.sqrt(wear),
});

/** Share of a gloss surface that is rough line at a wear of 0..1: 1.2 % when well worn. */
export function scratchedShare(wear: number): number {
  const { scaleM, widthM, density } = scratchPattern(wear);
  return scratchCoverage(1 / scaleM, widthM / 2, density);
}

/**
 * Reflectance that a patterned finish has on the mean over a large area, in the meaning of its `reflectanceRgb` (the base
 * under the coat for gloss), so that it can stand in wherever one even colour is wanted. Dust counts by its share, as if
 * it lay under the coat: right to the loss at the coat, a few per cent of the dust's own part.
 */
export function meanReflectanceRgb(finish: Finish): ReflectanceRgb {
  switch (finish.type) {
    case 'matte':
      return finish.picture ? meanPictureRgb(finish.picture) : meanOfBase(finish.reflectanceRgb, finish.pattern);
    case 'metal':
      return meanOfBase(finish.reflectanceRgb, finish.pattern);
    case 'gloss':
      return mixReflectance(meanOfBase(finish.reflectanceRgb, finish.pattern), DUST_RGB, finish.dust ?? 0);
    case 'mirror':
    case 'translucent':
      return finish.reflectanceRgb;
    case 'clear':
    case 'black':
      return [0, 0, 0];
  }
}

const meanOfBase = (reflectanceRgb: ReflectanceRgb, pattern: Pattern | undefined): ReflectanceRgb =>
  pattern ? mixReflectance(reflectanceRgb, pattern.secondRgb, meanPatternMix(pattern)) : reflectanceRgb;
