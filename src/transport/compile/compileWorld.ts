import { rec2020FromRec709 } from '../../core/color/spaces.ts';
import { invariant } from '../../core/result.ts';
import { applyToDirection, applyToPoint, type RigidTransform } from '../../core/rigid.ts';
import { cross, length, sub, type Vec3 } from '../../core/vec3.ts';
import { boundsOfPoints, boundsOfShape, uniteBounds } from '../../scene/bounds.ts';
import type { Bounds, SetModel } from '../../scene/setModel.ts';
import type { EmitterInfo, World } from '../contracts.ts';
import { LAYOUT_HASH, PRIMITIVE, PrimitiveKind, TRANSFORM, VOLUME } from '../layout/schema.ts';
import { buildBvh } from './buildBvh.ts';
import { describeEmitter, emitterWords, profileKindOf } from './emitters.ts';
import { FinishTable } from './finishTable.ts';

export const SURROUND_LAYER = 'surround';

export interface CompileOptions {
  /** Uniform radiance from beyond the set, working RGB cd/m2. Real sets have none; furnace tests do. */
  readonly surroundRgb?: Vec3;
  /** Read record colours as working RGB as they stand, for comparison with renderers that work in their own primaries. */
  readonly rawColour?: boolean;
}

/** Lays a set out as flat arrays for the tracer. Pure; the same set gives the same World to the last bit. */
export function compileWorld(set: SetModel, options: CompileOptions = {}): World {
  const finishes = new FinishTable(options.rawColour ? (rgb) => rgb : rec2020FromRec709);
  const volumeIndex = new Map(set.volumes.map((v, i) => [v.id, i]));
  const transforms: number[] = [];
  const transformIndex = new Map<string, number>();
  const normals: number[] = [];
  const emitters: EmitterInfo[] = [];
  const emitterRows: number[] = [];
  const rows: number[][] = [];
  const boxes: Bounds[] = [];

  const volumeOf = (id: string | undefined): number => {
    if (id === undefined) return -1;
    const index = volumeIndex.get(id);
    invariant(index !== undefined, () => `surface names volume "${id}", which the set does not have`);
    return index;
  };

  const indexOfTransform = ({ rotation, translationM }: RigidTransform): number => {
    const key = [...rotation, ...translationM].join(',');
    let index = transformIndex.get(key);
    if (index === undefined) {
      index = transforms.length / TRANSFORM.strideWords;
      transforms.push(...rotation, ...translationM);
      transformIndex.set(key, index);
    }
    return index;
  };

  set.surfaces.forEach((surface, surfaceIndex) => {
    const finish = finishes.indexOf(surface.finish);
    const front = volumeOf(surface.frontVolume);
    const back = volumeOf(surface.backVolume);
    let emitter = -1;
    if (surface.emission) {
      emitter = emitters.length;
      const layerIndex = set.layerFixtureIds.indexOf(surface.emission.fixtureId);
      invariant(layerIndex >= 0, () => `emitter of fixture "${surface.emission?.fixtureId}" has no film layer`);
      emitters.push(describeEmitter(surface, surfaceIndex, layerIndex));
    }
    const push = (kind: number, data: readonly number[], box: Bounds, normalsAt = -1, transform = -1): void => {
      const patternFrame = surface.patternFrame ? indexOfTransform(surface.patternFrame) : -1;
      rows.push([kind, surfaceIndex, finish, front, back, emitter, transform, normalsAt, patternFrame, ...data]);
      invariant(
        [...box.minM, ...box.maxM].every(Number.isFinite),
        () => `${surface.recordId} ${surface.role}: not a finite shape`,
      );
      boxes.push(box);
    };
    const { shape, worldFromLocal } = surface;
    switch (shape.type) {
      case 'quad': {
        const p = applyToPoint(worldFromLocal, shape.originM);
        const u = applyToDirection(worldFromLocal, shape.edgeUM);
        const v = applyToDirection(worldFromLocal, shape.edgeVM);
        push(PrimitiveKind.quad, [...p, ...u, ...v], boundsOfShape(surface));
        break;
      }
      case 'revolvedLine': {
        const start = shape.azimuth?.startRad ?? 0;
        const span = shape.azimuth ? shape.azimuth.endRad - start : 2 * Math.PI;
        push(
          PrimitiveKind.revolvedLine,
          [shape.r0M, shape.y0M, shape.r1M, shape.y1M, start, span],
          boundsOfShape(surface),
          -1,
          indexOfTransform(worldFromLocal),
        );
        break;
      }
      case 'revolvedArc': {
        const start = shape.azimuth?.startRad ?? 0;
        const span = shape.azimuth ? shape.azimuth.endRad - start : 2 * Math.PI;
        push(
          PrimitiveKind.revolvedArc,
          [shape.centreRM, shape.centreYM, shape.radiusM, shape.angle0Rad, shape.angle1Rad, start, span],
          boundsOfShape(surface),
          -1,
          indexOfTransform(worldFromLocal),
        );
        break;
      }
      case 'mesh': {
        invariant(!surface.emission, () => `${surface.recordId}: a mesh cannot emit`);
        for (let i = 0; i + 2 < shape.indices.length; i += 3) {
          const corner = (k: number): Vec3 => {
            const j = shape.indices[i + k] * 3;
            return applyToPoint(worldFromLocal, [
              shape.positionsM[j],
              shape.positionsM[j + 1],
              shape.positionsM[j + 2],
            ]);
          };
          const [a, b, c] = [corner(0), corner(1), corner(2)];
          const u = sub(b, a);
          const v = sub(c, a);
          if (length(cross(u, v)) < 1e-14) continue;
          let normalsAt = -1;
          if (shape.normals) {
            normalsAt = normals.length;
            for (let k = 0; k < 3; k++) {
              const j = shape.indices[i + k] * 3;
              normals.push(
                ...applyToDirection(worldFromLocal, [shape.normals[j], shape.normals[j + 1], shape.normals[j + 2]]),
              );
            }
          }
          push(PrimitiveKind.triangle, [...a, ...u, ...v], boundsOfPoints([a, b, c]), normalsAt);
        }
        break;
      }
    }
  });

  const { nodeWords, order } = buildBvh(Float64Array.from(boxes.flatMap((b) => [...b.minM, ...b.maxM])));
  const primitiveWords = new Float32Array(rows.length * PRIMITIVE.strideWords);
  const primitiveOfEmitter = new Map<number, number>();
  order.forEach((from, to) => {
    primitiveWords.set(rows[from], to * PRIMITIVE.strideWords);
    const emitter = rows[from][PRIMITIVE.offset.emitter];
    if (emitter >= 0) primitiveOfEmitter.set(emitter, to);
  });
  const profileWords = finishes.profileWords;
  emitters.forEach((emitter, i) => {
    emitterRows.push(
      ...emitterWords(emitter, primitiveOfEmitter.get(i) ?? -1, profileKindOf(emitter.profile, profileWords)),
    );
  });

  return {
    layoutHash: LAYOUT_HASH,
    primitiveWords,
    transformWords: Float32Array.from(transforms),
    nodeWords,
    finishWords: Float32Array.from(finishes.words),
    volumeWords: Float32Array.from(
      set.volumes.flatMap(({ medium, priority }) => [
        medium.index,
        ...medium.absorptionPerM,
        ...(medium.scatteringPerM ?? [0, 0, 0]),
        medium.anisotropy ?? 0,
        priority,
      ]),
    ),
    emitterWords: Float32Array.from(emitterRows),
    normalWords: Float32Array.from(normals),
    profileWords: Float32Array.from(profileWords),
    primitiveCount: rows.length,
    surfaceNames: set.surfaces.map((s) => ({
      recordId: s.recordId,
      role: s.role,
      ...(s.emission ? { fixtureId: s.emission.fixtureId } : {}),
      ...(s.secondarySource ? { secondarySource: true as const } : {}),
    })),
    volumes: set.volumes,
    layerIds: options.surroundRgb ? [...set.layerFixtureIds, SURROUND_LAYER] : [...set.layerFixtureIds],
    emitters,
    clearBoxes: clearBoxesOf(set),
    surroundRgb: options.surroundRgb ?? [0, 0, 0],
  };
}

invariant(VOLUME.strideWords === 9, () => 'volume words are written in the order of the layout');

/** One box per record that has clear surfaces, in the order of first appearance. */
function clearBoxesOf(set: SetModel): Bounds[] {
  const boxes = new Map<string, Bounds>();
  for (const surface of set.surfaces) {
    if (surface.finish.type !== 'clear' || surface.finish.roughness > 0) continue;
    const box = boundsOfShape(surface);
    const known = boxes.get(surface.recordId);
    boxes.set(surface.recordId, known ? uniteBounds(known, box) : box);
  }
  return [...boxes.values()];
}
