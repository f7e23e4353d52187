import type { CollectionName, RecordChange } from '../../analysis/contracts.ts';
import { add, sub, type Vec3 } from '../../core/vec3.ts';
import type { FrameScene } from '../../scene/setModel.ts';
import { type Projection, projectToSheet, type SheetPoint, worldMoveFromSheet } from './projection.ts';

/** What a hand has hold of: the body of a record, or the point that it looks at. */
export interface Hold {
  readonly recordId: string;
  readonly collection: CollectionName;
  readonly part: 'body' | 'aim';
  /** As it stood when it was taken. */
  readonly positionM: Vec3;
  readonly aimM: Vec3 | null;
  /** What else is selected and goes along, bodies only. */
  readonly others?: readonly Hold[];
}

/** A line of the sheet that a held point was drawn onto: everywhere that u, or v, has this value. */
export interface SnapGuide {
  readonly axis: 'u' | 'v';
  readonly atM: number;
}

export interface MoveOptions {
  readonly projection: Projection;
  /** Keep to the axis that has moved more. */
  readonly constrain: boolean;
  /** Lines to snap to, and how near is near. Null switches snapping off. */
  readonly snap: {
    readonly guides: readonly SnapGuide[];
    readonly withinM: number;
    /** Lights, sheets and the camera also come to rest at whole 10 cm from here, on the plan. */
    readonly centre?: SheetPoint | undefined;
  } | null;
}

export interface Move {
  readonly pointM: Vec3;
  readonly snapped: readonly SnapGuide[];
  /** Sets the record to where it is held now. */
  readonly changes: readonly RecordChange[];
}

/** Takes hold of a record of the frame; null when there is none of that name. */
export function holdRecord(scene: FrameScene, recordId: string, part: Hold['part']): Hold | null {
  if (recordId === 'camera') {
    const { positionM, aimM } = scene.camera;
    return { recordId, collection: 'camera', part, positionM, aimM };
  }
  const looking = (collection: 'fixtures' | 'grip'): Hold | null => {
    const found = scene[collection].find(({ id }) => id === recordId);
    return found ? { recordId, collection, part, positionM: found.positionM, aimM: found.aimM } : null;
  };
  const piece = scene.pieces.find(({ id }) => id === recordId);
  if (piece) return { recordId, collection: 'pieces', part: 'body', positionM: piece.positionM, aimM: null };
  return looking('fixtures') ?? looking('grip');
}

/** Takes hold of one record and of all that is selected with it, so that they move as one. */
export function holdTogether(scene: FrameScene, recordId: string, selectedIds: readonly string[]): Hold | null {
  const hold = holdRecord(scene, recordId, 'body');
  if (!hold || !selectedIds.includes(recordId)) return hold;
  const others = selectedIds.flatMap((id) => (id === recordId ? [] : (holdRecord(scene, id, 'body') ?? [])));
  return others.length > 0 ? { ...hold, others } : hold;
}

/**
 * Moves a held point by (du, dv) on the sheet. It keeps its distance from the reader, so a light dragged on the plan
 * keeps its height. Lights and the camera go on looking at their aim point; a sheet of grip keeps its attitude, its
 * aim goes with it. `cameraId` is the id under which the document knows the frame's camera.
 */
export function moveHeld(hold: Hold, move: SheetPoint, cameraId: string, options: MoveOptions): Move {
  const { projection, constrain, snap } = options;
  const startM = hold.part === 'aim' && hold.aimM ? hold.aimM : hold.positionM;
  const free: [number, number] = [move[0], move[1]];
  const kept = Math.abs(free[0]) >= Math.abs(free[1]) ? 0 : 1;
  if (constrain) free[1 - kept] = 0;

  const start = projectToSheet(projection, startM);
  const snapped: SnapGuide[] = [];
  if (snap) {
    for (const i of [0, 1] as const) {
      if (constrain && i !== kept) continue;
      const at = start[i] + free[i];
      const guide = nearestGuide(snap.guides, i === 0 ? 'u' : 'v', at, snap.withinM);
      if (!guide) continue;
      free[i] = guide.atM - start[i];
      snapped.push(guide);
    }
  }
  if (snap?.centre && !constrain && snapped.length === 0) {
    const at: SheetPoint = [start[0] + free[0], start[1] + free[1]];
    const rested = restAtDistance(at, snap.centre, snap.withinM);
    free[0] = rested[0] - start[0];
    free[1] = rested[1] - start[1];
  }
  const pointM = roundM(add(startM, worldMoveFromSheet(projection, free)));
  return { pointM, snapped, changes: moveChanges(hold, pointM, cameraId) };
}

const DISTANCE_STEP_M = 0.1;

/** The point pulled in or out to the nearest whole step of distance, where that is near; itself where it is not. */
function restAtDistance(at: SheetPoint, centre: SheetPoint, withinM: number): SheetPoint {
  const [du, dv] = [at[0] - centre[0], at[1] - centre[1]];
  const distanceM = Math.hypot(du, dv);
  const restM = Math.round(distanceM / DISTANCE_STEP_M) * DISTANCE_STEP_M;
  if (restM === 0 || Math.abs(restM - distanceM) > withinM) return at;
  return [centre[0] + (du * restM) / distanceM, centre[1] + (dv * restM) / distanceM];
}

/** Where distances are counted from on the plan; none for pieces, which stand in the picture and not round it. */
export const snapCentre = (scene: FrameScene, hold: Hold, projection: Projection): SheetPoint | undefined =>
  projection === 'plan' && hold.part === 'body' && hold.collection !== 'pieces'
    ? projectToSheet(projection, scene.subject.meterPointM)
    : undefined;

/** Lines through the subject; and, on the elevations, the table top for pieces that stand on it. */
export function snapGuides(scene: FrameScene, hold: Hold, projection: Projection): SnapGuide[] {
  const subject = projectToSheet(projection, scene.subject.meterPointM);
  const guides: SnapGuide[] = [
    { axis: 'u', atM: subject[0] },
    { axis: 'v', atM: subject[1] },
  ];
  if (projection !== 'plan' && hold.collection === 'pieces') return [guides[0], { axis: 'v', atM: 0 }];
  return guides;
}

/**
 * Sets what is held, and all that goes along, to where the held point is now. Several things move as one: lights among
 * them keep their direction; a light by itself goes on looking at its aim.
 */
export function moveChanges(hold: Hold, pointM: Vec3, cameraId: string): RecordChange[] {
  const startM = hold.part === 'aim' && hold.aimM ? hold.aimM : hold.positionM;
  const { others = [] } = hold;
  if (others.length === 0) return changesOf(hold, startM, pointM, cameraId);
  const moveM = sub(pointM, startM);
  return [hold, ...others].map((each): RecordChange => {
    const id = each.collection === 'camera' ? cameraId : each.recordId;
    const along = each.aimM ? { aimM: roundM(add(each.aimM, moveM)) } : {};
    const patch = { positionM: roundM(add(each.positionM, moveM)), ...along };
    return { op: 'update', collection: each.collection, id, patch };
  });
}

function changesOf(hold: Hold, startM: Vec3, pointM: Vec3, cameraId: string): RecordChange[] {
  const id = hold.collection === 'camera' ? cameraId : hold.recordId;
  const update = (patch: Readonly<Record<string, unknown>>): RecordChange[] => [
    { op: 'update', collection: hold.collection, id, patch },
  ];
  if (hold.part === 'aim') return update({ aimM: pointM });
  if (hold.collection === 'grip' && hold.aimM) {
    return update({ positionM: pointM, aimM: roundM(add(hold.aimM, sub(pointM, startM))) });
  }
  return update({ positionM: pointM });
}

function nearestGuide(
  guides: readonly SnapGuide[],
  axis: SnapGuide['axis'],
  atM: number,
  withinM: number,
): SnapGuide | undefined {
  return guides
    .filter((guide) => guide.axis === axis && Math.abs(guide.atM - atM) <= withinM)
    .sort((a, b) => Math.abs(a.atM - atM) - Math.abs(b.atM - atM))[0];
}

/** Whole tenths of a millimetre are kept; adding 0 turns -0 into 0. */
const roundM = (p: Vec3): Vec3 => [roundStep(p[0]), roundStep(p[1]), roundStep(p[2])];
const roundStep = (v: number): number => Number(v.toFixed(4)) + 0;
