import { degFromRad } from '../core/units.ts';
import type { Vec3 } from '../core/vec3.ts';
import type { Finding, Grade, Remedy } from './contracts.ts';
import { outlineInFrame } from './places/inFrame.ts';
import { castHeroShadows, type HeroShadow } from './shadows/castShadow.ts';
import { groupShadows } from './shadows/groupShadows.ts';
import { solveShadowCount } from './solvers/thinShadows.ts';
import type { FrameStudy, HeroPlace } from './study.ts';
import { directionOnTable, lengthWords, nameOfRecord, stopsWords, surfaceWords } from './words.ts';

/** A fixture that gives less than this share of the light on the table does not count as spill. */
const SPILL_SHARE = 0.01;

/**
 * Which lights reach the table at the subject, and the shadow that each throws of the hero: direction, length, depth
 * against all the light there, and the width of its soft edge at the foot and at the tip.
 */
export function checkSpillAndShadows(
  study: FrameStudy,
  { remedies = true }: { readonly remedies?: boolean } = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const hero = study.hero();
  if (!hero) return { findings: [], figures: { shadowCount: 0, shadows: [] } };
  const { limits } = study.input;
  const shadows = castHeroShadows(study, hero);
  const groups = groupShadows(shadows, limits);
  const count = groups.length;
  const extra = Math.max(0, count - limits.shadowCount);
  const findings: Finding[] = shadows.length > 0 ? [countFinding(study, hero, groups, extra, remedies)] : [];
  for (const group of extra > 0 ? groups.slice(limits.shadowCount) : []) findings.push(shadowFinding(study, group[0]));
  return {
    findings,
    figures: {
      shadowCount: count,
      spillLux: Object.fromEntries(
        shadows.filter(({ share }) => share >= SPILL_SHARE).map(({ caster, lux }) => [caster.id, lux]),
      ),
      shadows: shadows.filter(({ share }) => share >= SPILL_SHARE).map((shadow) => figuresOf(study, shadow)),
    },
  };
}

function countFinding(
  study: FrameStudy,
  hero: HeroPlace,
  groups: readonly (readonly HeroShadow[])[],
  extra: number,
  withRemedies: boolean,
): Finding {
  const { scene, limits, view } = study.input;
  const table = hero.support ? surfaceWords(scene, hero.support.recordId) : 'table';
  const grade: Grade = extra === 0 ? 'ok' : extra === 1 ? 'care' : 'stop';
  const shown = groups.flatMap((group) => group[0].outlineM);
  const each = groups.map(([shadow]) => `${shadow.caster.name}: ${shadowWords(study, shadow)}`).join('; ');
  const number = groups.length === 1 ? '1 shadow' : `${groups.length} shadows`;
  const name = nameOfRecord(scene, hero.recordId);
  return {
    id: 'spillAndShadows:count',
    check: 'spillAndShadows',
    grade,
    subject: groups[0]?.[0].caster.id ?? hero.recordId,
    value: groups.length,
    unit: groups.length === 1 ? 'shadow' : 'shadows',
    limit: limits.shadowCount,
    summary:
      groups.length === 0
        ? `${name} throws no shadow on the ${table} that reads.`
        : `${number} of ${name} on the ${table}${extra > 0 ? `, wanted ${limits.shadowCount}` : ''}. ${each}.`,
    where: {
      ...outlineInFrame(view, shown.length > 0 ? shown : [hero.footM]),
      pointM: groups[0]?.[0].coreM ?? hero.footM,
      raysM: groups.map(([shadow]) => rayOf(hero, shadow)),
    },
    remedies: withRemedies && extra > 0 ? solveShadowCount(study, groups) : [],
  };
}

/** One shadow too many, with its own place in the frame. */
function shadowFinding(study: FrameStudy, shadow: HeroShadow): Finding {
  const { limits, view } = study.input;
  const hero = study.hero();
  const remedies: Remedy[] = [];
  return {
    id: `spillAndShadows:${shadow.caster.id}`,
    check: 'spillAndShadows',
    grade: 'note',
    subject: shadow.caster.id,
    value: shadow.depthStops,
    unit: 'stops deep',
    limit: limits.shadowSeenStops,
    summary: `${shadow.caster.name} throws a shadow of its own: ${shadowWords(study, shadow)}.`,
    where: {
      ...outlineInFrame(view, shadow.outlineM),
      pointM: shadow.coreM,
      raysM: hero ? [rayOf(hero, shadow)] : [],
    },
    remedies,
  };
}

/** Light, top of the hero, tip of the shadow; without a tip, light and foot. */
const rayOf = (hero: HeroPlace, { lightM, tipM, coreM }: HeroShadow): Vec3[] =>
  tipM ? [lightM, hero.topM, tipM] : [lightM, coreM];

function shadowWords(study: FrameStudy, shadow: HeroShadow): string {
  const length = shadow.lengthM === null ? 'without end' : `${lengthWords(shadow.lengthM)} long`;
  const edge =
    shadow.tipPenumbraM === null ? 'no edge at the tip' : `${lengthWords(shadow.tipPenumbraM)} soft at the tip`;
  const { input } = study;
  return `${directionOnTable(input.view, shadow.direction)}, ${length}, ${stopsWords(shadow.depthStops)} deep, ${edge}`;
}

const figuresOf = (study: FrameStudy, shadow: HeroShadow) => ({
  fixtureId: shadow.caster.id,
  lux: shadow.lux,
  share: shadow.share,
  directionDeg: headingDeg(shadow.direction),
  falls: directionOnTable(study.input.view, shadow.direction),
  elevationDeg: degFromRad(shadow.elevationRad),
  lengthM: shadow.lengthM,
  depthStops: shadow.depthStops,
  contactPenumbraM: shadow.contactPenumbraM,
  tipPenumbraM: shadow.tipPenumbraM,
});

/** On the plan, from camera-right (+x) counter-clockwise as seen from above. */
const headingDeg = (direction: Vec3): number => degFromRad(Math.atan2(-direction[2], direction[0]));
