import {
  cameraExposure,
  ev100FromIlluminance,
  ev100FromLuminance,
  INCIDENT_METER_C_DOME,
  INCIDENT_METER_C_FLAT,
  meterStop,
} from '../camera/exposure.ts';
import { projectPoint, rayThrough } from '../camera/projection.ts';
import { formatStop } from '../camera/stops.ts';
import { luminanceFromRec2020 } from '../core/color/spaces.ts';
import { normalize, type Vec3 } from '../core/vec3.ts';
import type { Finding } from './contracts.ts';
import { createTracer } from './frameStudy.ts';
import type { Illuminance } from './illuminance.ts';
import { keyToFillStops } from './light/meterReading.ts';
import { createScatteredLight } from './light/scatteredLight.ts';
import type { FrameStudy } from './study.ts';
import { gradeAbove, nameOfRecord, percentWords, stopsWords } from './words.ts';

/** What an incident meter says at the hero. */
export interface MeterReading {
  readonly lux: number;
  readonly ev100: number;
  /** Exact, not rounded to a marked stop. */
  readonly fNumber: number;
  readonly marked: string;
}

/** One place in the frame read with a spot meter. */
export interface SpotReading {
  readonly name: string;
  readonly u: number;
  readonly v: number;
  readonly luminanceNits: number;
  /** Stops over middle grey as the camera is set (K / 120 of clipping). */
  readonly overMiddleStops: number;
  readonly ev100: number;
}

/** A meter that reads less than this sees nothing, lx. */
const DARK_LUX = 0.01;
/** Frame places of the named spots. */
const BACKDROP_UV = [0.5, 0.06] as const;
/** How far beside the foot of the hero the base is read, in widths of the hero. */
const BASE_WIDTHS = 1.5;

/**
 * Reads the set as meters do and compares with the camera: dome toward the lens and flat cell toward the key at the meter
 * point, the hero taken away; spots on base and backdrop; part of the frame that clips. Formulas: docs/checks/exposure.md.
 */
export function checkExposure(study: FrameStudy): { findings: Finding[]; figures: Record<string, unknown> } {
  const { scene, view, limits } = study.input;
  const { camera, subject } = scene;
  const settings = cameraExposure(camera);
  const heroId = subject.pieceId;
  const { dome, flat, level } = study.meter();
  const read = (lux: number, c: number): MeterReading => {
    const fNumber = meterStop(lux, camera.iso, camera.shutterS, c);
    return {
      lux,
      ev100: ev100FromIlluminance(lux, c),
      fNumber,
      marked: lux > DARK_LUX ? formatStop(fNumber) : 'no reading',
    };
  };
  const domeReading = read(dome.totalLux, INCIDENT_METER_C_DOME);
  const overStops = 2 * Math.log2(domeReading.fNumber / settings.effectiveFNumber);
  const spots = readSpots(study);
  const clipped = clippedShares(study);
  const findings: Finding[] = [
    incidentFinding(study, dome, domeReading, overStops, settings.effectiveFNumber),
    ...clippingFinding(study, clipped),
  ];
  return {
    findings,
    figures: {
      incidentDome: domeReading,
      incidentFlatTowardLens: read(flat.totalLux, INCIDENT_METER_C_FLAT),
      incidentFlatLevel: read(level.totalLux, INCIDENT_METER_C_FLAT),
      incidentOverSettingStops: finiteOrNull(overStops),
      bounceLux: dome.bounceLux,
      bounceOffSetLux: study.meter().offSetLux,
      fixtureShares: shares(study, dome),
      keyToFillStops: finiteOrNull(keyToFillStops(study.meter())),
      settings: {
        effectiveFNumber: settings.effectiveFNumber,
        closeUpLossStops: settings.closeUpLossStops,
        ev100: settings.ev100,
        clippingNits: settings.saturationLuminanceNits,
        middleNits: settings.middleLuminanceNits,
      },
      spots,
      clippedShare: clipped.share,
      lampShare: clipped.lampShare,
    },
  };

  function incidentFinding(
    { input }: FrameStudy,
    reading: Illuminance,
    meter: MeterReading,
    over: number,
    effectiveFNumber: number,
  ): Finding {
    const dark = reading.totalLux <= DARK_LUX;
    const grade = dark ? 'stop' : gradeAbove(Math.abs(over), limits.exposureCareStops, limits.exposureStopStops);
    const hero = nameOfRecord(input.scene, heroId);
    const difference =
      Math.abs(over) < 0.05 ? 'as the camera is set' : `${stopsWords(over)} ${over > 0 ? 'over' : 'under'} the setting`;
    const projected = projectPoint(view, subject.meterPointM);
    return {
      id: 'exposure:incident',
      check: 'exposure',
      grade,
      subject: heroId,
      value: dark ? -99 : over,
      unit: 'stops over the setting',
      limit: grade === 'stop' ? limits.exposureStopStops : limits.exposureCareStops,
      summary: dark
        ? `No light reaches the meter at ${hero}.`
        : `The dome at ${hero} reads ${meter.marked} with ${Math.round(meter.lux)} lx; the camera is at ` +
          `${formatStop(effectiveFNumber)} effective, so the reading is ${difference}.`,
      where: {
        pointM: subject.meterPointM,
        ...(projected ? { frame: { u: projected.u, v: projected.v, widthU: 0, heightV: 0 } } : {}),
      },
      remedies: [],
    };
  }
}

function clippingFinding(study: FrameStudy, clipped: ReturnType<typeof clippedShares>): Finding[] {
  const { share, box } = clipped;
  const limit = study.input.limits.clippedCareShare;
  if (share <= limit || !box) return [];
  return [
    {
      id: 'exposure:clipping',
      check: 'exposure',
      grade: 'care',
      subject: study.input.scene.subject.pieceId,
      value: share,
      unit: 'share of the frame',
      limit,
      summary: `${percentWords(share)} of the frame clips, lamps in view left out.`,
      where: { frame: box },
      remedies: [],
    },
  ];
}

/** Part of the frame over the clipping luminance, and part that looks straight at a lamp. */
function clippedShares(study: FrameStudy) {
  const { columns, rows, totalNits, lampSurface } = study.grid();
  let clipped = 0;
  let lamps = 0;
  const extent = { c0: columns, c1: -1, r0: rows, r1: -1 };
  for (let cell = 0; cell < totalNits.length; cell++) {
    if (lampSurface[cell] >= 0) lamps++;
    else if (totalNits[cell] >= study.clippingNits) {
      clipped++;
      const [c, r] = [cell % columns, Math.floor(cell / columns)];
      extent.c0 = Math.min(extent.c0, c);
      extent.c1 = Math.max(extent.c1, c + 1);
      extent.r0 = Math.min(extent.r0, r);
      extent.r1 = Math.max(extent.r1, r + 1);
    }
  }
  return {
    share: clipped / totalNits.length,
    lampShare: lamps / totalNits.length,
    box:
      clipped > 0
        ? {
            u: (extent.c0 + extent.c1) / 2 / columns,
            v: (extent.r0 + extent.r1) / 2 / rows,
            widthU: (extent.c1 - extent.c0) / columns,
            heightV: (extent.r1 - extent.r0) / rows,
          }
        : null,
  };
}

/** Each fixture's part of the reading, largest first. */
function shares(study: FrameStudy, reading: Illuminance) {
  const { scene } = study.input;
  return study.light.layerFixtureIds
    .map((fixtureId, i) => ({
      fixtureId,
      name: nameOfRecord(scene, fixtureId),
      lux: reading.layerLux[i],
      share: reading.totalLux > 0 ? reading.layerLux[i] / reading.totalLux : 0,
    }))
    .sort((a, b) => b.lux - a.lux);
}

function readSpots(study: FrameStudy): SpotReading[] {
  const { input, light, table } = study;
  const places: { name: string; u: number; v: number }[] = [
    { name: 'backdrop, top of frame', u: BACKDROP_UV[0], v: BACKDROP_UV[1] },
  ];
  const base = basePoint(study);
  const at = base ? projectPoint(input.view, base) : null;
  if (at && at.u >= 0 && at.u <= 1 && at.v >= 0 && at.v <= 1)
    places.push({ name: 'base beside the subject', u: at.u, v: at.v });
  // Every spot for itself, not from the cache.
  const scattered = createScatteredLight(light, table, study.patches(), { cellPerDistance: 0 });
  const { tree } = createTracer(input, light, table, scattered, { blackNits: study.blackNits });
  const middle = cameraExposure(input.scene.camera).middleLuminanceNits;
  return places.map((place) => {
    const { originM, direction } = rayThrough(input.view, place.u, place.v);
    tree.follow(originM, direction, () => {});
    const luminanceNits = luminanceFromRec2020([tree.totalRgb[0], tree.totalRgb[1], tree.totalRgb[2]]);
    return {
      ...place,
      luminanceNits,
      overMiddleStops: luminanceNits > 0 ? Math.log2(luminanceNits / middle) : -99,
      ev100: luminanceNits > 0 ? ev100FromLuminance(luminanceNits) : -99,
    };
  });
}

/** On the table beside the hero's foot, on camera right. */
function basePoint(study: FrameStudy): Vec3 | null {
  const { scene, set, view } = study.input;
  const bounds = set.boundsByRecord.get(scene.subject.pieceId);
  if (!bounds) return null;
  const widthM = Math.max(bounds.maxM[0] - bounds.minM[0], bounds.maxM[2] - bounds.minM[2]);
  const [x, z] = [(bounds.minM[0] + bounds.maxM[0]) / 2, (bounds.minM[2] + bounds.maxM[2]) / 2];
  const level = normalize([view.right[0], 0, view.right[2]]);
  const offsetM = BASE_WIDTHS * widthM;
  return [x + level[0] * offsetM, bounds.minM[1], z + level[2] * offsetM];
}

const finiteOrNull = (value: number): number | null => (Number.isFinite(value) ? value : null);
