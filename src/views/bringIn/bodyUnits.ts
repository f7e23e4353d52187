/** Units that a file may have been drawn in, metres each. glTF says metres; many programs write others all the same. */
export const BODY_UNITS = { m: 1, cm: 0.01, mm: 0.001, in: 0.0254 } as const;
export type BodyUnit = keyof typeof BODY_UNITS;
export const UNIT_WORDS: Readonly<Record<BodyUnit, string>> = {
  m: 'metres',
  cm: 'centimetres',
  mm: 'millimetres',
  in: 'inches',
};
/** Heights of what stands on a tabletop set: the unit that gives one nearest to the middle of this is asked first. */
const USUAL_HEIGHT_M = 0.2;

/** The unit that makes the largest side nearest to that of a bottle. */
export function likelyUnit(size: readonly number[]): BodyUnit {
  const largest = Math.max(...size);
  const off = (unit: BodyUnit): number => Math.abs(Math.log((largest * BODY_UNITS[unit]) / USUAL_HEIGHT_M));
  return (Object.keys(BODY_UNITS) as BodyUnit[]).reduce((best, unit) => (off(unit) < off(best) ? unit : best));
}
