import { rayThrough } from '../../camera/projection.ts';
import { add, addScaled, cross, distance, dot, lerp, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import { type Caster, findCasters, outlineOf, partsOf, partsPerSide } from '../light/casters.ts';
import { planeResponse } from '../light/gatherSource.ts';
import { penumbraOf } from '../shadows/penumbra.ts';
import type { FrameStudy } from '../study.ts';

/** A soft edge that something throws on something that the lens sees. World, metres. */
export interface CastEdge {
  readonly makerId: string;
  /** Part of a fixture that makes it: 'gobo', 'barn door', 'snoot'; '' for a record by itself. */
  readonly part: string;
  readonly caster: Caster;
  readonly receiverId: string;
  readonly lightM: Vec3;
  /** On the maker, and on the receiver. */
  readonly edgeM: Vec3;
  readonly atM: Vec3;
  /** From the light to the maker, and on to the receiver. */
  readonly toEdgeM: number;
  readonly beyondM: number;
  readonly normal: Vec3;
  /** Unit, on the receiver, across the edge. */
  readonly across: Vec3;
  /** Null when the shadow never ends. */
  readonly penumbraM: number | null;
  /** All light on the lit side over the same without this light. */
  readonly depthStops: number;
}

interface Look {
  readonly pointM: Vec3;
  readonly normal: Vec3;
  readonly recordId: string;
}

const COLUMNS = 28;
const LIFT_M = 1e-5;
const BISECTIONS = 9;
/** Where a second point of an edge is looked for, in steps between places, along it. */
const SIDE_STEPS = [0.5, -0.5, 0.2, -0.2];
const MOST_CROSSINGS = 12;
/** Parts of a fixture that shape its light. */
const SHAPERS = ['gobo', 'barn door', 'snoot'] as const;

/** Every edge that a flag, cutter, gobo or set piece throws of a light onto what the frame shows, the hero's own left out. */
export function castEdges(study: FrameStudy): CastEdge[] {
  const { input } = study;
  const { view, query, set, scene } = input;
  const rows = Math.max(2, Math.round((COLUMNS * view.tanHalfHeight) / view.tanHalfWidth));
  const lightIds = new Set([...scene.fixtures, ...scene.grip].map(({ id }) => id));
  const looks: (Look | null)[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < COLUMNS; column++) {
      const { originM, direction } = rayThrough(view, (column + 0.5) / COLUMNS, (row + 0.5) / rows);
      const hit = query.closestHit(originM, direction);
      const recordId = hit ? set.surfaces[hit.surfaceIndex].recordId : '';
      const shows = hit !== null && recordId !== scene.subject.pieceId && !lightIds.has(recordId);
      looks.push(
        shows ? { pointM: hit.pointM, normal: hit.front ? hit.normal : scale(hit.normal, -1), recordId } : null,
      );
    }
  }
  return findCasters(study).flatMap((caster) => edgesOf(study, caster, looks, rows));
}

function edgesOf(study: FrameStudy, caster: Caster, looks: readonly (Look | null)[], rows: number): CastEdge[] {
  const lightM = middleOfCaster(caster);
  const makers = looks.map((look) => (look ? makerBetween(study, caster, look, lightM) : null));
  const best = new Map<string, { readonly shaded: number; readonly lit: number; readonly away: number }>();
  const consider = (a: number, b: number): void => {
    const [from, to] = [makers[a], makers[b]];
    if (!looks[a] || !looks[b] || looks[a].recordId !== looks[b].recordId || !from || !to) return;
    if ((from.id === '') === (to.id === '')) return;
    const [shaded, lit] = from.id === '' ? [b, a] : [a, b];
    const maker = makers[shaded];
    if (!maker) return;
    const key = `${maker.id} ${maker.part} ${looks[shaded]?.recordId}`;
    const away = Math.hypot((shaded % COLUMNS) / COLUMNS - 0.5, Math.floor(shaded / COLUMNS) / rows - 0.5);
    const known = best.get(key);
    if (!known || away < known.away) best.set(key, { shaded, lit, away });
  };
  for (let i = 0; i < looks.length; i++) {
    if (i % COLUMNS < COLUMNS - 1) consider(i, i + 1);
    if (i + COLUMNS < looks.length) consider(i, i + COLUMNS);
  }
  return [...best.values()].flatMap(({ shaded, lit }) => {
    const edge = measureEdge(study, caster, lightM, looks[shaded], looks[lit]);
    return edge ? [edge] : [];
  });
}

interface Maker {
  /** '' where the light comes through. */
  readonly id: string;
  readonly part: string;
  readonly pointM: Vec3;
}
const NOTHING: Maker = { id: '', part: '', pointM: [0, 0, 0] };

/** What keeps a light off a place: the opaque thing nearest to the light; null where the place faces away or lies in the hero's shade. */
function makerBetween(study: FrameStudy, caster: Caster, look: Look, lightM: Vec3): Maker | null {
  const { query, set, scene } = study.input;
  const d = sub(lightM, look.pointM);
  const lengthM = Math.sqrt(dot(d, d));
  const direction = scale(d, 1 / lengthM);
  if (dot(direction, look.normal) < 0.02) return null;
  let fromM = addScaled(look.pointM, look.normal, LIFT_M);
  let leftM = lengthM;
  let found: Maker = NOTHING;
  for (let i = 0; i < MOST_CROSSINGS; i++) {
    const hit = query.closestHit(fromM, direction, leftM * (1 - 1e-6));
    if (!hit) return found;
    const { recordId, role, finish } = set.surfaces[hit.surfaceIndex];
    const isOwn = recordId === caster.id;
    const part = isOwn ? (SHAPERS.find((shaper) => role.startsWith(shaper)) ?? '') : '';
    if (recordId === scene.subject.pieceId || recordId === look.recordId) return null;
    if (finish.type !== 'clear' && (!isOwn || part !== '')) found = { id: recordId, part, pointM: hit.pointM };
    else if (isOwn) return found;
    fromM = hit.pointM;
    leftM -= hit.tM;
  }
  return found;
}

function measureEdge(
  study: FrameStudy,
  caster: Caster,
  lightM: Vec3,
  shaded: Look | null,
  lit: Look | null,
): CastEdge | null {
  if (!shaded || !lit) return null;
  const { normal } = shaded;
  const found = edgeBetween(study, caster, lightM, shaded, shaded.pointM, lit.pointM);
  if (!found) return null;
  // A second point of the edge, a little along it, says which way it runs.
  const crossing = normalize(sub(lit.pointM, shaded.pointM));
  const sideways = cross(normal, crossing);
  const reachM = distance(shaded.pointM, lit.pointM);
  let across = crossing;
  for (const share of SIDE_STEPS) {
    const step = scale(sideways, share * reachM);
    // Wide enough for an edge that runs aslant.
    const from = addScaled(add(found.atM, step), crossing, -reachM);
    const to = addScaled(add(found.atM, step), crossing, reachM);
    const second = edgeBetween(study, caster, lightM, shaded, from, to);
    if (!second || second.maker.id !== found.maker.id) continue;
    const along = normalize(sub(second.atM, found.atM));
    const square = cross(along, normal);
    across = dot(square, crossing) >= 0 ? square : scale(square, -1);
    break;
  }
  const { maker, atM } = found;
  const outline = outlineOf(study, caster, maker.pointM);
  return {
    makerId: maker.id,
    part: maker.part,
    caster,
    receiverId: shaded.recordId,
    lightM,
    edgeM: maker.pointM,
    atM,
    toEdgeM: distance(lightM, maker.pointM),
    beyondM: distance(maker.pointM, atM),
    normal,
    across,
    penumbraM: penumbraOf(outline, maker.pointM, { pointM: atM, normal }, across),
    depthStops: depthAt(study, caster, lit),
  };
}

/** Where between a shaded and a lit place the shade ends, and what makes it; null where it is not so. */
function edgeBetween(
  study: FrameStudy,
  caster: Caster,
  lightM: Vec3,
  like: Look,
  darkM: Vec3,
  brightM: Vec3,
): { readonly atM: Vec3; readonly maker: Maker } | null {
  const makerAt = (pointM: Vec3): Maker | null => makerBetween(study, caster, { ...like, pointM }, lightM);
  let [dark, bright] = [darkM, brightM];
  let maker = makerAt(dark);
  if (!maker || maker.id === '' || makerAt(bright)?.id !== '') return null;
  for (let i = 0; i < BISECTIONS; i++) {
    const middle = lerp(dark, bright, 0.5);
    const at = makerAt(middle);
    if (at && at.id !== '') {
      dark = middle;
      maker = at;
    } else bright = middle;
  }
  return { atM: dark, maker };
}

/** Stops between all light at a lit place and the same without one light. */
function depthAt(study: FrameStudy, caster: Caster, { pointM, normal }: Look): number {
  const fromM = addScaled(pointM, normal, LIFT_M);
  let all = 0;
  let own = 0;
  for (const other of findCasters(study)) {
    const parts = partsOf(study, other, fromM, normal, planeResponse, (source) =>
      Math.min(3, partsPerSide(source, fromM)),
    );
    for (const part of parts) {
      if (study.input.query.blocked(fromM, part.pointM)) continue;
      all += part.lux;
      if (other.id === caster.id) own += part.lux;
    }
  }
  return all > 0 ? Math.log2(all / Math.max(all - own, all * 1e-4)) : 0;
}

/** Middle of what shines, by area. */
function middleOfCaster({ sources, patches }: Caster): Vec3 {
  let sum: Vec3 = [0, 0, 0];
  let areaM2 = 0;
  for (const { emitter } of sources) {
    sum = addScaled(sum, emitter.centreM, emitter.areaM2);
    areaM2 += emitter.areaM2;
  }
  if (areaM2 === 0) {
    for (const patch of patches) {
      sum = addScaled(sum, patch.pointM, patch.areaM2);
      areaM2 += patch.areaM2;
    }
  }
  return scale(sum, 1 / areaM2);
}
