import { applyToDirection, applyToPoint, type RigidTransform } from '../../core/rigid.ts';
import type { AzimuthRange, MeshShape, PlacedShape, QuadShape } from '../../core/shape.ts';
import { add, cross, dot, normalize, sub, type Vec3 } from '../../core/vec3.ts';
import { convexHull } from './hull.ts';
import { type Projection, projectToSheet, type SheetPoint, towardReader } from './projection.ts';

/** A drawn line of the sheet, in metres. */
export interface Outline {
  readonly points: readonly SheetPoint[];
  readonly closed: boolean;
}

/** Chord error of circles drawn as polygons: 96 sides miss a circle of 0.1 m radius by 0.05 mm. */
const CIRCLE_SIDES = 96;
const ALONG = 1 - 1e-6;
/** Closer to the axis than this is on it. */
const ON_AXIS_M = 1e-9;
/** Edges between faces that meet at less than this are inside a smooth surface and not drawn. */
const CREASE_COS = Math.cos((30 * Math.PI) / 180);

/** World points on a surface whose convex hull on any sheet is that of the surface itself. */
export function hullPoints({ shape, worldFromLocal }: PlacedShape): Vec3[] {
  switch (shape.type) {
    case 'quad':
      return quadCorners(shape).map((p) => applyToPoint(worldFromLocal, p));
    case 'mesh': {
      const points: Vec3[] = [];
      for (let i = 0; i < shape.positionsM.length; i += 3) points.push(meshPoint(shape, worldFromLocal, i / 3));
      return points;
    }
    default:
      return profile(shape).flatMap(([r, y]) => ring(r, y, worldFromLocal, shape.azimuth));
  }
}

/**
 * Lines that a draughtsman would draw for one surface: edges, contours and creases, seen through the body (nothing is
 * hidden). Turned surfaces stay smooth: no facet lines.
 */
export function surfaceOutlines(placed: PlacedShape, projection: Projection): Outline[] {
  const { shape, worldFromLocal } = placed;
  const flat = (p: Vec3): SheetPoint => projectToSheet(projection, p);
  switch (shape.type) {
    case 'quad':
      return [closedOrEdge(convexHull(quadCorners(shape).map((p) => flat(applyToPoint(worldFromLocal, p)))))];
    case 'mesh':
      return meshOutlines(shape, worldFromLocal, projection);
    default: {
      const points = profile(shape);
      const along = Math.abs(dot(applyToDirection(worldFromLocal, [0, 1, 0]), towardReader(projection)));
      if (shape.azimuth) return sectorOutlines(points, shape.azimuth, worldFromLocal, flat);
      if (along > ALONG) return endRings(points, worldFromLocal, flat);
      if (along < 1 - ALONG) return mirroredProfile(points, worldFromLocal, projection);
      return [closedOrEdge(convexHull(hullPoints(placed).map(flat)))];
    }
  }
}

type ProfilePoint = readonly [rM: number, yM: number];
type Turned = Extract<PlacedShape['shape'], { type: 'revolvedLine' | 'revolvedArc' }>;

/** Radius and height of a turned shape's profile in its local frame; none for other shapes. */
export const profilePoints = (shape: PlacedShape['shape']): ProfilePoint[] =>
  shape.type === 'revolvedLine' || shape.type === 'revolvedArc' ? profile(shape) : [];

function profile(shape: Turned): ProfilePoint[] {
  if (shape.type === 'revolvedLine') {
    return [
      [shape.r0M, shape.y0M],
      [shape.r1M, shape.y1M],
    ];
  }
  const sweep = shape.angle1Rad - shape.angle0Rad;
  const steps = Math.max(4, Math.ceil(Math.abs(sweep) / (Math.PI / 24)));
  return Array.from({ length: steps + 1 }, (_, i): ProfilePoint => {
    const a = shape.angle0Rad + (sweep * i) / steps;
    const rM = shape.centreRM + shape.radiusM * Math.cos(a);
    return [rM > ON_AXIS_M ? rM : 0, shape.centreYM + shape.radiusM * Math.sin(a)];
  });
}

function ring(rM: number, yM: number, worldFromLocal: RigidTransform, azimuth?: AzimuthRange): Vec3[] {
  if (rM === 0) return [applyToPoint(worldFromLocal, [0, yM, 0])];
  const start = azimuth?.startRad ?? 0;
  const sweep = azimuth ? azimuth.endRad - azimuth.startRad : 2 * Math.PI;
  const sides = Math.max(6, Math.ceil((CIRCLE_SIDES * sweep) / (2 * Math.PI)));
  return Array.from({ length: azimuth ? sides + 1 : sides }, (_, i) => {
    const a = start + (sweep * i) / sides;
    return applyToPoint(worldFromLocal, [rM * Math.cos(a), yM, rM * Math.sin(a)]);
  });
}

/** Seen along the axis: the first and last circle of the profile. */
function endRings(
  points: readonly ProfilePoint[],
  worldFromLocal: RigidTransform,
  flat: (p: Vec3) => SheetPoint,
): Outline[] {
  const widest = Math.max(...points.map(([r]) => r));
  const radii = new Set([points[0][0], points[points.length - 1][0], widest]);
  return [...radii]
    .filter((r) => r > 0)
    .map((r) => ({ points: ring(r, points[0][1], worldFromLocal).map(flat), closed: true }));
}

/** Seen square to the axis: the profile on both sides, or one line across for a disc seen edge-on. */
function mirroredProfile(
  points: readonly ProfilePoint[],
  worldFromLocal: RigidTransform,
  projection: Projection,
): Outline[] {
  const axis = applyToDirection(worldFromLocal, [0, 1, 0]);
  const across = normalize(cross(axis, towardReader(projection)));
  const centre = worldFromLocal.translationM;
  const at = (r: number, y: number): SheetPoint =>
    projectToSheet(projection, [
      centre[0] + axis[0] * y + across[0] * r,
      centre[1] + axis[1] * y + across[1] * r,
      centre[2] + axis[2] * y + across[2] * r,
    ]);
  const y0 = points[0][1];
  if (points.every(([, y]) => Math.abs(y - y0) < 1e-9)) {
    const r = Math.max(...points.map(([radius]) => radius));
    return [{ points: [at(-r, y0), at(r, y0)], closed: false }];
  }
  const right = points.map(([r, y]) => at(r, y));
  const left = points.map(([r, y]) => at(-r, y));
  // A profile that reaches the axis runs on into its own mirror image.
  if (points[0][0] === 0) return [{ points: [...[...left].reverse(), ...right.slice(1)], closed: false }];
  if (points[points.length - 1][0] === 0) {
    return [{ points: [...right, ...[...left].reverse().slice(1)], closed: false }];
  }
  return [
    { points: right, closed: false },
    { points: left, closed: false },
  ];
}

/** Part of a turn: its two end profiles and the arcs that join their ends. */
function sectorOutlines(
  points: readonly ProfilePoint[],
  azimuth: AzimuthRange,
  worldFromLocal: RigidTransform,
  flat: (p: Vec3) => SheetPoint,
): Outline[] {
  const meridian = (a: number): Outline => ({
    points: points.map(([r, y]) => flat(applyToPoint(worldFromLocal, [r * Math.cos(a), y, r * Math.sin(a)]))),
    closed: false,
  });
  const arc = ([r, y]: ProfilePoint): Outline => ({
    points: ring(r, y, worldFromLocal, azimuth).map(flat),
    closed: false,
  });
  return [meridian(azimuth.startRad), meridian(azimuth.endRad), arc(points[0]), arc(points[points.length - 1])].filter(
    ({ points: line }) => extentM(line) > 1e-7,
  );
}

const extentM = (line: readonly SheetPoint[]): number =>
  Math.max(...line.map((p) => Math.hypot(p[0] - line[0][0], p[1] - line[0][1])));

const closedOrEdge = (points: readonly SheetPoint[]): Outline => ({ points, closed: points.length > 2 });

const quadCorners = (quad: QuadShape): Vec3[] => [
  quad.originM,
  add(quad.originM, quad.edgeUM),
  add(add(quad.originM, quad.edgeUM), quad.edgeVM),
  add(quad.originM, quad.edgeVM),
];

const meshPoint = (mesh: MeshShape, worldFromLocal: RigidTransform, i: number): Vec3 =>
  applyToPoint(worldFromLocal, [mesh.positionsM[3 * i], mesh.positionsM[3 * i + 1], mesh.positionsM[3 * i + 2]]);

/** Open edges, creases, and contours where the surface turns from the reader. Corners are joined by position. */
function meshOutlines(mesh: MeshShape, worldFromLocal: RigidTransform, projection: Projection): Outline[] {
  const reader = towardReader(projection);
  const key = (p: Vec3): string => p.map((v) => Math.round(v * 1e6)).join(',');
  const edges = new Map<string, { a: Vec3; b: Vec3; normals: Vec3[] }>();
  for (let t = 0; t < mesh.indices.length; t += 3) {
    const corners = [0, 1, 2].map((k) => meshPoint(mesh, worldFromLocal, mesh.indices[t + k]));
    const normal = normalize(cross(sub(corners[1], corners[0]), sub(corners[2], corners[0])));
    for (let k = 0; k < 3; k++) {
      const a = corners[k];
      const b = corners[(k + 1) % 3];
      const name = [key(a), key(b)].sort().join(' ');
      const edge = edges.get(name);
      if (edge) edge.normals.push(normal);
      else edges.set(name, { a, b, normals: [normal] });
    }
  }
  const lines: Outline[] = [];
  for (const { a, b, normals } of edges.values()) {
    const [first, second] = normals;
    const drawn =
      normals.length !== 2 ||
      dot(first, second) < CREASE_COS ||
      Math.sign(dot(first, reader)) !== Math.sign(dot(second, reader));
    const points = [projectToSheet(projection, a), projectToSheet(projection, b)];
    if (drawn && extentM(points) > 1e-7) lines.push({ points, closed: false });
  }
  return lines;
}
