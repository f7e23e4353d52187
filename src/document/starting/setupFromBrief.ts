import { invariant } from '../../core/result.ts';
import { buildSet } from '../../scene/buildSet.ts';
import { defaultGlassProfile, GLASS_NAMES, type GlassShape } from '../../scene/glassDefaults.ts';
import { findShelfItem } from '../../scene/pieceShelf.ts';
import type { Piece } from '../../scene/records.ts';
import type { Setup } from '../setup.ts';
import { soundSetup } from '../soundSetup.ts';
import { type Brief, FORMAT_SENSOR_MM, MOODS, type PictureFormat } from './choices.ts';
import { type MoodLight, moodLight } from './moodLights.ts';

const HERO = 'piece:1';
const FOCAL_MM = 100;
/** Share of the frame's height that the glass takes, by the shape of the frame. */
const HERO_SHARE: Readonly<Record<PictureFormat, number>> = {
  '16:9': 0.56,
  '3:2': 0.5,
  '1:1': 0.5,
  '4:5': 0.46,
  '9:16': 0.36,
};
/** Nearer than this the camera would stand among the lights. */
const NEAREST_M = 0.85;
/** How far over the glass's middle the lens stands, over its distance: a person sits at a table so. */
const LENS_RISE = 0.13;
/** The lens looks this far over or under the middle of the glass, in heights of the glass: room for its foot. */
const AIM_SHARE = 0.5;
/** Glasses that take the drink alone: ice and garnish are made for wide ones. */
const NARROW: readonly GlassShape[] = ['flute', 'coupe', 'conicalStemmed', 'shot', 'bottle', 'carafe', 'ownProfile'];

/**
 * A whole, lit setup from what somebody wants of a picture: the glass with the drink in it, what it stands on, what is
 * behind it, the light of the mood, the camera to the format.
 */
export function setupFromBrief(brief: Brief): Setup {
  const hero = pourHero(brief);
  const heightM = heightOf(hero);
  const light = moodLight(brief.mood, heightM);
  const mood = MOODS.find((entry) => entry.mood === brief.mood);
  const drinkName = hero.name;
  return soundSetup({
    title: `${drinkName}, ${mood?.name.toLowerCase() ?? brief.mood}`.slice(0, 120),
    brief: { mood: mood?.line ?? '', deliverables: `One still, ${brief.format}.` },
    subject: { pieceId: HERO, meterPointM: [0, Number((heightM * 0.5).toFixed(4)), 0] },
    pieces: [hero, ...ground(brief.surfaceId, light)],
    fixtures: light.fixtures,
    grip: light.grip,
    frames: [
      {
        id: 'frame:1',
        name: 'Hero',
        camera: {
          ...cameraPlace(brief.format, heightM),
          ...light.exposure,
          whiteBalanceK: light.whiteBalanceK,
          matteBox: matteBoxFor(brief.format),
        },
        limits: light.limits,
      },
    ],
  });
}

/** The drink as the shelf serves it, or in another glass. */
function pourHero({ drinkId, glass }: Brief): Piece {
  const item = findShelfItem(drinkId);
  invariant(item, () => `${drinkId} is on the shelf`);
  const served = item.make(HERO);
  if (glass === null || served.kind !== 'glass' || served.profile.shape === glass) return served;
  const { ice, garnish, ...rest } = served;
  const wide = !NARROW.includes(glass);
  return {
    ...rest,
    name: `${served.name} in a ${GLASS_NAMES[glass].toLowerCase()}`.slice(0, 120),
    profile: defaultGlassProfile(glass),
    ...(wide && ice ? { ice } : {}),
    ...(wide && garnish ? { garnish } : {}),
  };
}

function heightOf(hero: Piece): number {
  if (hero.kind === 'glass' && 'heightM' in hero.profile) return hero.profile.heightM;
  const set = buildSet({
    pieces: [hero],
    fixtures: [],
    grip: [],
    camera: ANY_CAMERA,
    subject: { pieceId: HERO, meterPointM: [0, 0, 0] },
    turntableAngleDeg: 0,
  });
  return set.boundsByRecord.get(HERO)?.maxM[1] ?? 0.15;
}

const ANY_CAMERA = {
  positionM: [0, 0, 1] as [number, number, number],
  aimM: [0, 0, 0] as [number, number, number],
  rollDeg: 0,
  sensorWidthMm: 36,
  sensorHeightMm: 24,
  focalLengthMm: FOCAL_MM,
  focusDistanceM: 1,
  apertureFNumber: 8,
  pupilRatio: 1,
  shutterS: 0.02,
  iso: 400,
  whiteBalanceK: 5600,
  frontElementDiameterM: 0.062,
};

/** What it stands on, with its top at the origin, and the wall behind unless the surface runs up behind the glass. */
function ground(surfaceId: string, { wall }: MoodLight): unknown[] {
  const item = findShelfItem(surfaceId);
  invariant(item, () => `${surfaceId} is on the shelf`);
  const surface = item.make('piece:2');
  if (surface.kind === 'sweep') {
    return [{ ...surface, positionM: [0, 0, 0.75], widthM: 2.2, floorDepthM: 1.1, coveRadiusM: 0.45, heightM: 1.4 }];
  }
  const behind = {
    kind: 'wall',
    id: 'piece:3',
    name: wall.name,
    positionM: [0, -0.8, -wall.behindM],
    widthM: 3.2,
    heightM: 2.4,
    finish: wall.finish,
  };
  if (surface.kind === 'sheet') {
    const topM = -surface.thicknessM;
    const table = {
      kind: 'tabletop',
      id: 'piece:4',
      name: 'Table',
      positionM: [0, topM - 0.0002, 0.205],
      widthM: 1.4,
      depthM: 0.95,
      finish: { type: 'matte', reflectanceRgb: [0.04, 0.037, 0.034] },
    };
    return [{ ...surface, positionM: [0, topM, 0.21], widthM: 1.2, depthM: 0.9 }, behind, table];
  }
  if (surface.kind === 'tabletop') {
    return [{ ...surface, positionM: [0, 0, 0.1], widthM: 2, depthM: Math.min(1.3, 2 * wall.behindM) }, behind];
  }
  return [surface, behind];
}

/** Where the camera stands so that the glass takes its share of the frame, a little above it, focused on its near side. */
function cameraPlace(format: PictureFormat, heightM: number) {
  const [sensorWidthMm, sensorHeightMm] = FORMAT_SENSOR_MM[format];
  const shownHeightM = heightM / HERO_SHARE[format];
  // Lens equation for thin lenses: magnification m = f / (d - f), so d = f (1 + 1/m).
  const magnification = sensorHeightMm / 1000 / shownHeightM;
  const wantedM = (FOCAL_MM / 1000) * (1 + 1 / magnification);
  const distanceM = Math.max(NEAREST_M, wantedM);
  const aimM: [number, number, number] = [0, round(heightM * AIM_SHARE), 0];
  return {
    positionM: [0, round(heightM * 0.5 + distanceM * LENS_RISE), round(distanceM)],
    aimM,
    sensorWidthMm,
    sensorHeightMm,
    focalLengthMm: FOCAL_MM,
    focusDistanceM: round(Math.hypot(distanceM, distanceM * LENS_RISE) - 0.02),
  };
}

/** A box that clears the format and keeps light from the sides and above off the lens. */
function matteBoxFor(format: PictureFormat) {
  const [widthMm, heightMm] = FORMAT_SENSOR_MM[format];
  const inner = (sideMm: number) => round(0.052 + (sideMm / FOCAL_MM) * 0.19);
  return { innerWidthM: inner(widthMm), innerHeightM: inner(heightMm), depthM: 0.12, topFlagM: 0.14, sideFlagsM: 0.14 };
}

const round = (value: number): number => Number(value.toFixed(4));
