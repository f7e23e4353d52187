import { applyToPoint } from '../../core/rigid.ts';
import { addScaled, sub, type Vec3 } from '../../core/vec3.ts';
import { fixtureFrame } from '../../fixtures/placement.ts';
import type { GripItem } from '../../fixtures/records.ts';
import { changeInput } from '../checkInput.ts';
import type { RecordChange, Remedy, WantedEdge } from '../contracts.ts';
import { type CastEdge, castEdges } from '../edges/castEdges.ts';
import { type LightPattern, patternContrast } from '../edges/pattern.ts';
import { wantedEdgeOf } from '../edges/wantedEdge.ts';
import { createFrameStudy } from '../frameStudy.ts';
import { isPointInFrame } from '../places/inFrame.ts';
import type { FrameStudy } from '../study.ts';
import { applyChanges } from './applyChanges.ts';

/** Keeps this far from light and receiver. */
const LEAST_M = 0.05;
const LARGEST_M = 2.4;
const GOBO_FARTHEST_M = 5;

interface EdgeToMend {
  readonly edge: CastEdge;
  readonly pattern: LightPattern | null;
  readonly penumbraM: number | null;
}

/**
 * Moves a flag or card along the line from light to receiver, or a gobo's plate along its axis, grown or shrunk to keep the
 * shape of its shadow, until the penumbra is right: with D from light to receiver and a light s wide, p = s b / (D - b).
 * Tried out on the changed set, which must show the same edge, and no more of the thing than before.
 */
export function solveEdgeWidth(study: FrameStudy, { edge, pattern, penumbraM }: EdgeToMend): Remedy[] {
  const { limits, scene } = study.input;
  if (penumbraM === null || penumbraM <= 0) return [];
  const wholeM = edge.toEdgeM + edge.beyondM;
  // How wide the light counts, in the same measure as the penumbra on the receiver.
  const sizeM = (penumbraM * edge.toEdgeM) / edge.beyondM;
  const wantedM = wantedPenumbraM(
    edge,
    pattern,
    limits.patternContrastCare,
    penumbraM,
    wantedEdgeOf(study.input, edge),
  );
  if (wantedM === null) return [];
  const beyondM = (wholeM * wantedM) / (sizeM + wantedM);
  if (beyondM < LEAST_M || wholeM - beyondM < LEAST_M) return [];
  const grown = (wholeM - beyondM) / edge.toEdgeM;
  const item = scene.grip.find(({ id }) => id === edge.makerId);
  const change = item ? moveItem(study, edge, item, grown) : moveGobo(study, edge, grown);
  if (!change) return [];
  const trial = createFrameStudy(changeInput(study.input, applyChanges(scene, [change])));
  const after = castEdges(trial).find(
    (other) =>
      other.makerId === edge.makerId &&
      other.part === edge.part &&
      other.receiverId === edge.receiverId &&
      other.caster.id === edge.caster.id,
  );
  if (!after || after.penumbraM === null) return [];
  const isMended = penumbraM > wantedM ? after.penumbraM <= wantedM * SLACK : after.penumbraM >= wantedM / SLACK;
  if (!isMended) return [];
  const way = grown > 1 ? 'toward what it shades' : 'toward the light';
  const moveM = Math.abs(edge.beyondM - beyondM);
  const size = `${grown > 1 ? 'a larger' : 'a smaller'} one`;
  const label =
    edge.part === 'gobo'
      ? `Set the gobo ${(wholeM - beyondM).toFixed(2)} m from the lens, ${Math.round(grown * 100)} % of its size`
      : `Move ${item?.name ?? edge.makerId} ${moveM.toFixed(2)} m ${way}, with ${size}`;
  return [{ label, changes: [change] }];
}

/** The edge may come out this much off, for it is met at another place. */
const SLACK = 1.15;
/** Aims this far inside a limit. */
const INSIDE = 0.85;

function wantedPenumbraM(
  edge: CastEdge,
  pattern: LightPattern | null,
  leastContrast: number,
  penumbraM: number,
  asked: Required<WantedEdge>,
): number | null {
  if (asked.wanted === 'crisp' && penumbraM > asked.penumbraM) return asked.penumbraM * INSIDE;
  if (asked.wanted === 'soft' && penumbraM < asked.penumbraM) return asked.penumbraM / INSIDE;
  if (!pattern) return null;
  const grown = (edge.toEdgeM + edge.beyondM) / edge.toEdgeM;
  for (let share = 0.95; share > 0.02; share -= 0.03) {
    const contrast = patternContrast(pattern.gapM * grown, pattern.pitchM * grown, penumbraM * share);
    if (contrast >= leastContrast / INSIDE) return penumbraM * share;
  }
  return null;
}

function moveItem(study: FrameStudy, edge: CastEdge, item: GripItem, grown: number): RecordChange | null {
  // Every point of the sheet moves along its own ray from the light, so the shadow keeps its outline.
  const positionM = addScaled(edge.lightM, sub(item.positionM, edge.lightM), grown);
  const aimM = addScaled(positionM, sub(item.aimM, item.positionM), 1);
  const widthM = item.widthM * grown;
  const heightM = item.heightM * grown;
  if (Math.max(widthM, heightM) > LARGEST_M) return null;
  const moved = { ...item, positionM: rounded(positionM), aimM: rounded(aimM), widthM, heightM };
  const frame = fixtureFrame(moved);
  const shows = [-1, 0, 1].some((x) =>
    [-1, 0, 1].some((y) =>
      isPointInFrame(study.input.view, applyToPoint(frame, [(x * widthM) / 2, (y * heightM) / 2, 0])),
    ),
  );
  if (shows) return null;
  return {
    op: 'update',
    collection: 'grip',
    id: item.id,
    patch: {
      positionM: moved.positionM,
      aimM: moved.aimM,
      widthM: Math.round(widthM * 1e3) / 1e3,
      heightM: Math.round(heightM * 1e3) / 1e3,
    },
  };
}

function moveGobo(study: FrameStudy, edge: CastEdge, grown: number): RecordChange | null {
  const fixture = study.input.scene.fixtures.find(({ id }) => id === edge.makerId);
  if (fixture?.kind !== 'spot' || edge.part !== 'gobo' || !fixture.gobo) return null;
  const { gobo } = fixture;
  const distanceM = gobo.distanceM * grown;
  if (distanceM > GOBO_FARTHEST_M) return null;
  const { pattern } = gobo;
  const scaled =
    pattern.type === 'window'
      ? { ...pattern, barM: Math.min(1, pattern.barM * grown) }
      : pattern.type === 'leaves'
        ? { ...pattern, leafM: Math.min(1, pattern.leafM * grown) }
        : pattern;
  return {
    op: 'update',
    collection: 'fixtures',
    id: fixture.id,
    patch: {
      gobo: { ...gobo, distanceM, widthM: gobo.widthM * grown, heightM: gobo.heightM * grown, pattern: scaled },
    },
  };
}

const rounded = (pointM: Vec3): [number, number, number] => [
  Math.round(pointM[0] * 1e3) / 1e3,
  Math.round(pointM[1] * 1e3) / 1e3,
  Math.round(pointM[2] * 1e3) / 1e3,
];
