import { rec2020FromRec709 } from '../../core/color/spaces.ts';
import { invariant } from '../../core/result.ts';
import { applyToDirection, applyToPoint, type RigidTransform } from '../../core/rigid.ts';
import type { Vec3 } from '../../core/vec3.ts';
import { boundsOfShape, uniteBounds } from '../../scene/bounds.ts';
import type { Bounds, SetModel } from '../../scene/setModel.ts';
import type { EmitterInfo, World } from '../contracts.ts';
import { LAYOUT_HASH, PRIMITIVE, PrimitiveKind, TRANSFORM, VOLUME } from '../layout/schema.ts';
import { buildBvh } from './buildBvh.ts';
import { describeEmitter, emitterWords, profileKindOf } from './emitters.ts';
import { FinishTable } from './finishTable.ts';
import { BOX_WORDS, meshRowsOf, TRIANGLE_WORDS } from './meshRows.ts';

export const SURROUND_LAYER = 'surround';
/** Words of a primitive before those of its own kind. */
const HEAD_WORDS = 9;

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
  const primitiveCount = set.surfaces.reduce(
    (sum, surface) => sum + (surface.shape.type === 'mesh' ? meshRowsOf(surface).count : 1),
    0,
  );
  const normalWords = new Float32Array(
    set.surfaces.reduce((sum, s) => sum + (s.shape.type === 'mesh' ? (meshRowsOf(s).normals?.length ?? 0) : 0), 0),
  );
  let normalCount = 0;
  const emitters: EmitterInfo[] = [];
  const emitterRows: number[] = [];
  // In the order of the set; the tree puts them in its own.
  const rows = new Float32Array(primitiveCount * PRIMITIVE.strideWords);
  const boxes = new Float64Array(primitiveCount * BOX_WORDS);
  const emitterOfRow = new Int32Array(primitiveCount);
  let rowCount = 0;

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
    const patternFrame = surface.patternFrame ? indexOfTransform(surface.patternFrame) : -1;
    const layRow = (kind: number, transform: number, normalsAt: number): number => {
      const at = rowCount * PRIMITIVE.strideWords;
      rows[at] = kind;
      rows[at + 1] = surfaceIndex;
      rows[at + 2] = finish;
      rows[at + 3] = front;
      rows[at + 4] = back;
      rows[at + 5] = emitter;
      rows[at + 6] = transform;
      rows[at + 7] = normalsAt;
      rows[at + 8] = patternFrame;
      for (let k = 0; k < BOX_WORDS; k++)
        invariant(
          Number.isFinite(boxes[rowCount * BOX_WORDS + k]),
          () => `${surface.recordId} ${surface.role}: not a finite shape`,
        );
      emitterOfRow[rowCount] = emitter;
      rowCount++;
      return at + HEAD_WORDS;
    };
    const push = (kind: number, data: readonly number[], { minM, maxM }: Bounds, transform = -1): void => {
      boxes.set(minM, rowCount * BOX_WORDS);
      boxes.set(maxM, rowCount * BOX_WORDS + 3);
      rows.set(data, layRow(kind, transform, -1));
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
          indexOfTransform(worldFromLocal),
        );
        break;
      }
      case 'mesh': {
        invariant(!surface.emission, () => `${surface.recordId}: a mesh cannot emit`);
        const { count, triangles, boxes: own, normals } = meshRowsOf(surface);
        boxes.set(own, rowCount * BOX_WORDS);
        if (normals) normalWords.set(normals, normalCount);
        for (let i = 0; i < count; i++) {
          const at = layRow(PrimitiveKind.triangle, -1, normals ? normalCount + i * 9 : -1);
          for (let k = 0; k < TRIANGLE_WORDS; k++) rows[at + k] = triangles[i * TRIANGLE_WORDS + k];
        }
        normalCount += normals?.length ?? 0;
        break;
      }
    }
  });

  const { nodeWords, order } = buildBvh(boxes);
  const primitiveWords = new Float32Array(rows.length);
  const stride = PRIMITIVE.strideWords;
  const primitiveOfEmitter = new Map<number, number>();
  order.forEach((from, to) => {
    for (let k = 0; k < stride; k++) primitiveWords[to * stride + k] = rows[from * stride + k];
    const emitter = emitterOfRow[from];
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
    normalWords,
    profileWords: Float32Array.from(profileWords),
    primitiveCount,
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
