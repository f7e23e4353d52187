import { blackBodyEfficacyLmPerW } from '../core/color/source.ts';
import { drinkFigures } from '../scene/drinkVolume.ts';
import type { Piece } from '../scene/records.ts';
import type { Finding, Grade } from './contracts.ts';
import {
  chillHeatJ,
  GLASS_DENSITY_KG_PER_M3,
  GLASS_J_PER_KG_K,
  ICE_DENSITY_KG_PER_M3,
  irradianceWPerM2,
  meltedKg,
  meltTimeS,
} from './heat/iceHeat.ts';
import { findCasters, partsOf, partsPerSide } from './light/casters.ts';
import { DEFAULT_ROOM } from './limits.ts';
import { outlineInFrame } from './places/inFrame.ts';
import type { FrameStudy, HeroPlace } from './study.ts';
import { nameOfRecord } from './words.ts';

/** The drink is past its best when this part of the ice that was put in has melted. Common practice, no source. */
const SPENT_SHARE = 1 / 3;
/** Iced glass against the room: it is near 0 C. */
const GLASS_C = 2;
const WARM_WHITE_K = 3500;

/** What is not known, as a range: least heat, likely, most heat. */
interface Assumption {
  readonly least: number;
  readonly likely: number;
  readonly most: number;
}
/** Still to moving air and moisture on the glass, W/(m2 K): textbook range of free convection, from memory. */
const AIR_W_PER_M2_K: Assumption = { least: 5, likely: 10, most: 25 };
/** Part of the light that falls on the drink and stays in it. Assumed. */
const ABSORPTANCE: Assumption = { least: 0.2, likely: 0.5, most: 0.8 };
/** Part of the first chill that the ice pays for while the glass is in the picture: it is stirred down or pre-chilled. */
const FIRST_CHILL: Assumption = { least: 0, likely: 0.25, most: 1 };
/** White LEDs, lm per watt of radiation: 250 to 350, from memory; daylight-like light from other lamps 95 (computed). */
const LED_LM_PER_W = { least: 350, likely: 300 } as const;
const DAYLIGHT_LM_PER_W = 95;

/**
 * How long the iced hero looks its best: heat of the room and of the lights against the latent heat of its ice. An estimate
 * with its range and assumptions; see docs/checks/heroTime.md.
 */
export function checkHeroTime(study: FrameStudy): { findings: Finding[]; figures: Record<string, unknown> } {
  const { scene, limits, room = DEFAULT_ROOM, view } = study.input;
  const hero = study.hero();
  const piece = scene.pieces.find(({ id }) => id === scene.subject.pieceId);
  const volumes = piece?.kind === 'glass' ? drinkFigures(piece) : undefined;
  if (!hero || piece?.kind !== 'glass' || !volumes || !(volumes.iceMl > 0))
    return { findings: [], figures: { heroTime: 'no ice in the subject' } };

  const iceKg = (volumes.iceMl / 1e6) * ICE_DENSITY_KG_PER_M3;
  const drinkKg = volumes.drinkMl / 1000;
  const glassKg = glassMassKg(piece, hero);
  const areaM2 = 2 * Math.PI * hero.radiusM * hero.heightM + Math.PI * hero.radiusM ** 2;
  const facingM2 = 2 * hero.radiusM * hero.heightM;
  const lights = lightOnGlass(study, hero);
  const firstJ =
    chillHeatJ(drinkKg, room.drinkC) + glassKg * GLASS_J_PER_KG_K * Math.max(0, room.temperatureC - GLASS_C);

  const minutesAt = (end: keyof Assumption): { minutes: number; roomW: number; lightW: number } => {
    const roomW = AIR_W_PER_M2_K[end] * areaM2 * Math.max(0, room.temperatureC - GLASS_C);
    const lightW =
      ABSORPTANCE[end] *
      facingM2 *
      lights.reduce((sum, { lux, cctK }) => sum + irradianceWPerM2(lux, efficacyAt(end, cctK)), 0);
    const spentKg = Math.max(0, SPENT_SHARE * iceKg - FIRST_CHILL[end] * meltedKg(firstJ));
    return { minutes: meltTimeS(spentKg, roomW + lightW) / 60, roomW, lightW };
  };
  const [short, likely, long] = [minutesAt('most'), minutesAt('likely'), minutesAt('least')];
  const value = Math.min(likely.minutes, 999);
  const grade: Grade = value < limits.heroTimeStopMin ? 'stop' : value < limits.heroTimeCareMin ? 'care' : 'ok';
  const name = nameOfRecord(scene, hero.recordId);
  const lightShare = likely.lightW / Math.max(1e-9, likely.lightW + likely.roomW);
  return {
    findings: [
      {
        id: 'heroTime:ice',
        check: 'heroTime',
        grade,
        subject: hero.recordId,
        value,
        unit: 'min (estimate)',
        limit: grade === 'stop' ? limits.heroTimeStopMin : limits.heroTimeCareMin,
        summary:
          `${name} holds for about ${minuteWords(value)} (estimate, ${minuteWords(short.minutes)} to ` +
          `${minuteWords(long.minutes)}): then a third of its ${Math.round(iceKg * 1000)} g of ice is gone. ` +
          `The lights bring ${Math.round(lightShare * 100)} % of the heat.`,
        where: { pointM: hero.topM, ...outlineInFrame(view, [hero.bounds.minM, hero.bounds.maxM]) },
        remedies: [],
      },
    ],
    figures: {
      likelyMin: value,
      shortestMin: short.minutes,
      longestMin: Math.min(long.minutes, 999),
      iceG: iceKg * 1000,
      drinkG: drinkKg * 1000,
      glassG: glassKg * 1000,
      lightOnGlassLux: lights.reduce((sum, { lux }) => sum + lux, 0),
      heatOfRoomW: likely.roomW,
      heatOfLightsW: likely.lightW,
      firstChillMeltsG: meltedKg(firstJ) * 1000,
      assumed: {
        roomC: room.temperatureC,
        drinkC: room.drinkC,
        heatTransferWPerM2K: AIR_W_PER_M2_K,
        absorptance: ABSORPTANCE,
        partOfFirstChill: FIRST_CHILL,
      },
    },
  };
}

const minuteWords = (minutes: number): string => {
  if (minutes >= 120) return '2 hours or more';
  return minutes >= 9.5 ? `${Math.round(minutes)} min` : `${minutes.toFixed(1)} min`;
};

/** Lumens per watt of what a lamp radiates: least heat if it is an LED, most if it is a filament or like daylight. */
function efficacyAt(end: keyof Assumption, cctK: number): number {
  if (end !== 'most') return LED_LM_PER_W[end];
  return cctK < WARM_WHITE_K ? blackBodyEfficacyLmPerW(cctK) : DAYLIGHT_LM_PER_W;
}

/** Illuminance square to each light in the middle of the glass, the glass taken away, with the colour of its lamp. */
function lightOnGlass(study: FrameStudy, hero: HeroPlace): { readonly lux: number; readonly cctK: number }[] {
  const { scene, set, query } = study.input;
  const pointM = scene.subject.meterPointM;
  const isHero = (surface: number): boolean => set.surfaces[surface].recordId === hero.recordId;
  const cctOf = (id: string): number => scene.fixtures.find((fixture) => fixture.id === id)?.cctK ?? WARM_WHITE_K;
  return findCasters(study).map((caster) => {
    const parts = partsOf(
      study,
      caster,
      pointM,
      [0, 1, 0],
      () => 1,
      (source) => partsPerSide(source, pointM),
    );
    const seen = parts.filter((part) => !query.blocked(pointM, part.pointM, isHero));
    return { lux: seen.reduce((sum, { lux }) => sum + lux, 0), cctK: cctOf(caster.id) };
  });
}

/** Walls and base as a straight glass of the hero's size would have them. */
function glassMassKg(piece: Extract<Piece, { kind: 'glass' }>, hero: HeroPlace): number {
  const { profile } = piece;
  const wallM = 'wallM' in profile ? profile.wallM : 0.002;
  const baseM = 'baseThicknessM' in profile ? profile.baseThicknessM : 0.005;
  const volumeM3 =
    2 * Math.PI * hero.radiusM * hero.heightM * wallM + Math.PI * hero.footRadiusM ** 2 * Math.max(0, baseM - wallM);
  return volumeM3 * GLASS_DENSITY_KG_PER_M3;
}
