import type { Finding, Grade } from './contracts.ts';
import { type DrinkReading, readDrink } from './glass/readDrink.ts';
import { type EdgeReading, readEdges } from './glass/readEdges.ts';
import { boxOfUvs } from './places/inFrame.ts';
import { solveGlowCard } from './solvers/kickCard.ts';
import type { FrameStudy, HeroPlace } from './study.ts';
import { nameOfRecord, percentWords, pieceOf, stopsWords } from './words.ts';

/** From this part of the outline on it is worth a note that it is lost. */
const LOST_NOTE_SHARE = 0.3;

/**
 * Does the drink glow, do the edges of the glass read? Luminance through the liquid against what is round the glass, and of
 * the outline against what is right beside it: dark lines on bright ground (bright field), bright lines on dark (dark field).
 */
export function checkGlow(
  study: FrameStudy,
  { remedies = true }: { readonly remedies?: boolean } = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const { scene } = study.input;
  const hero = study.hero();
  if (!hero || pieceOf(scene, hero.recordId)?.kind !== 'glass' || study.light.sources.length === 0)
    return { findings: [], figures: { glow: 'no lit glass for a subject' } };
  const drink = readDrink(study, hero);
  const edges = readEdges(study, hero);
  const outline = summarise(study, edges);
  const findings: Finding[] = [];
  if (drink) findings.push(drinkFinding(study, hero, drink, remedies));
  if (outline) findings.push(edgeFinding(study, hero, edges, outline));
  return {
    findings,
    figures: {
      ...(drink
        ? {
            drinkNits: drink.meanNits,
            throughCentreNits: drink.centreNits,
            surroundingsNits: drink.surroundingsNits,
            overSurroundingsStops: glowStops(study, drink),
            centreOverSurroundingsStops: stopsOver(study, drink.centreNits, drink.surroundingsNits),
          }
        : {}),
      ...(outline
        ? { edgeContrastStops: outline.medianStops, edgeLostShare: outline.lostShare, field: outline.field }
        : {}),
    },
  };
}

/** The drink over its surroundings, stops. */
export const glowStops = (study: Pick<FrameStudy, 'blackNits'>, drink: DrinkReading): number =>
  stopsOver(study, drink.meanNits, drink.surroundingsNits);

const stopsOver = ({ blackNits }: Pick<FrameStudy, 'blackNits'>, nits: number, under: number): number =>
  Math.log2(Math.max(nits, blackNits) / Math.max(under, blackNits));

function drinkFinding(study: FrameStudy, hero: HeroPlace, drink: DrinkReading, withRemedies: boolean): Finding {
  const { limits, scene, view } = study.input;
  const value = glowStops(study, drink);
  const least = limits.glowMinStops;
  const grade: Grade = least !== undefined && value < least ? 'care' : 'ok';
  const side = Math.abs(value) < 0.05 ? 'as bright as' : `${stopsWords(value)} ${value > 0 ? 'over' : 'under'}`;
  const wanted = grade === 'care' && least !== undefined ? `; ${least.toFixed(1)} or more is wanted` : '';
  return {
    id: 'glow:drink',
    check: 'glow',
    grade,
    subject: hero.recordId,
    value,
    unit: 'stops over surroundings',
    limit: least ?? null,
    summary: `Through the drink ${nameOfRecord(scene, hero.recordId)} is ${side} what is beside the glass${wanted}.`,
    where: {
      ...boxOfUvs(drink.cells.map(({ u, v }) => [u, v])),
      pointM: drink.centre.pointM,
      raysM: [[view.originM, drink.centre.pointM]],
    },
    remedies: grade === 'care' && withRemedies ? solveGlowCard(study, hero) : [],
  };
}

interface Outline {
  readonly medianStops: number;
  readonly lostShare: number;
  readonly field: 'bright field' | 'dark field';
}

function summarise(study: FrameStudy, edges: readonly EdgeReading[]): Outline | null {
  if (edges.length === 0) return null;
  const sizes = edges.map(({ stops }) => Math.abs(stops)).sort((a, b) => a - b);
  const signed = edges.reduce((sum, { stops }) => sum + stops, 0);
  const lost = sizes.filter((size) => size < study.input.limits.edgeContrastCareStops).length;
  return {
    medianStops: sizes[sizes.length >> 1],
    lostShare: lost / sizes.length,
    field: signed < 0 ? 'bright field' : 'dark field',
  };
}

function edgeFinding(study: FrameStudy, hero: HeroPlace, edges: readonly EdgeReading[], outline: Outline): Finding {
  const { limits, scene } = study.input;
  const { medianStops, lostShare, field } = outline;
  const grade: Grade =
    medianStops < limits.edgeContrastCareStops ? 'care' : lostShare >= LOST_NOTE_SHARE ? 'note' : 'ok';
  const line = field === 'bright field' ? 'a dark line on bright ground' : 'a bright line on dark ground';
  const name = nameOfRecord(scene, hero.recordId);
  return {
    id: 'glow:edges',
    check: 'glow',
    grade,
    subject: hero.recordId,
    value: medianStops,
    unit: 'stops along the outline',
    limit: limits.edgeContrastCareStops,
    summary:
      grade === 'care'
        ? `The outline of ${name} is lost: ${stopsWords(medianStops)} against what is behind it, ${percentWords(lostShare)} of it under ` +
          `${stopsWords(limits.edgeContrastCareStops)}.`
        : `The outline of ${name} reads as ${line}, ${stopsWords(medianStops)}; ${percentWords(lostShare)} of it is lost.`,
    where: {
      ...boxOfUvs(edges.map(({ u, v }) => [u, v])),
      outlineUv: edges.map(({ u, v }) => [u, v] as const),
    },
    remedies: [],
  };
}
