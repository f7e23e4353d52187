import type { CheckInput } from '../../analysis/contracts.ts';
import { createFrameStudy, type FrameStudy } from '../../analysis/frameStudy.ts';
import { measureIlluminance, type Receptor } from '../../analysis/illuminance.ts';
import { ev100FromIlluminance, INCIDENT_METER_C_DOME, INCIDENT_METER_C_FLAT } from '../../camera/exposure.ts';
import { addScaled, normalize, sub, type Vec3 } from '../../core/vec3.ts';
import { findBackdropPoints, findBasePoints } from './meterPoints.ts';

/** A place where the incident meter is held, and how. */
export interface MeterPoint {
  readonly id: string;
  readonly name: string;
  /** 'dome toward the lens', 'flat, level'. */
  readonly held: string;
  readonly pointM: Vec3;
  readonly receptor: Receptor;
  /** Calibration constant of the receptor (ISO 2720). */
  readonly meterC: number;
  /** The hero is taken away for a reading in its place. */
  readonly heroAway: boolean;
}

/** What the meter should read there, lx. */
export interface PredictedReading {
  readonly point: MeterPoint;
  /** All lights as they are set. */
  readonly totalLux: number;
  /** Each light alone as it is set, what bounces included, in the order of the frame's fixtures. */
  readonly fixtureLux: readonly number[];
  /** Part of the total that comes by way of cards, cloths and the set. */
  readonly bounceLux: number;
  /** Null in the dark. */
  readonly ev100: number | null;
}

/** Less than a meter sees, lx. */
const DARK_LUX = 0.01;
/** The cell stands this far off the surface that it is held against. */
const CELL_OFF_M = 0.002;

/** The usual places: at the subject with dome and flat cell, on the base round it, and a grid over the backdrop. */
export function meterPointsOf(input: CheckInput): MeterPoint[] {
  const { scene, view } = input;
  const { meterPointM } = scene.subject;
  const towardLens = normalize(sub(view.originM, meterPointM));
  const flat = (id: string, name: string, held: string, pointM: Vec3, normal: Vec3, heroAway: boolean): MeterPoint => ({
    id,
    name,
    held,
    pointM,
    receptor: { type: 'plane', normal },
    meterC: INCIDENT_METER_C_FLAT,
    heroAway,
  });
  const against = (id: string, name: string, held: string, surface: { pointM: Vec3; normal: Vec3 }): MeterPoint =>
    flat(id, name, held, addScaled(surface.pointM, surface.normal, CELL_OFF_M), surface.normal, false);
  return [
    {
      id: SUBJECT_DOME_ID,
      name: 'Subject',
      held: 'dome toward the lens',
      pointM: meterPointM,
      receptor: { type: 'dome', axis: towardLens },
      meterC: INCIDENT_METER_C_DOME,
      heroAway: true,
    },
    flat('subject-flat', 'Subject', 'flat toward the lens', meterPointM, towardLens, true),
    flat('subject-level', 'Subject', 'flat, level, facing up', meterPointM, [0, 1, 0], true),
    ...findBasePoints(input).map((p) => against(`base-${p.id}`, `Base, ${p.name}`, 'flat on the base', p)),
    ...findBackdropPoints(input).map((p) =>
      against(`backdrop-${p.id}`, `Backdrop, ${p.name}`, 'flat against the backdrop', p),
    ),
  ];
}

export const SUBJECT_DOME_ID = 'subject-dome';

/**
 * What an incident meter would read at each point, by the same light that the checks read: direct, by way of bounce cards
 * and diffusion cloth, and sent back by the broad matte parts of the set.
 */
export function predictReadings(input: CheckInput, points = meterPointsOf(input)): PredictedReading[] {
  const study = createFrameStudy(input);
  return points.map((point) => predictAt(study, point));
}

function predictAt(study: FrameStudy, point: MeterPoint): PredictedReading {
  const { input, light } = study;
  const { set, scene } = input;
  const heroId = scene.subject.pieceId;
  const reading = measureIlluminance(light, point.pointM, point.receptor, {
    patches: study.allPatches(),
    ...(point.heroAway ? { ignore: (surface: number) => set.surfaces[surface].recordId === heroId } : {}),
  });
  const byLayer = new Map(light.layerFixtureIds.map((id, i) => [id, reading.layerLux[i]]));
  return {
    point,
    totalLux: reading.totalLux,
    fixtureLux: scene.fixtures.map(({ id }) => byLayer.get(id) ?? 0),
    bounceLux: reading.bounceLux,
    ev100: evOf(reading.totalLux, point.meterC),
  };
}

export const evOf = (lux: number, meterC: number): number | null =>
  lux > DARK_LUX ? ev100FromIlluminance(lux, meterC) : null;
