import type { Finding } from '../../analysis/contracts.ts';
import type { CameraView } from '../../camera/view.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { FrameScene, SetModel } from '../../scene/setModel.ts';
import { type Dimension, dimensionsOf } from './dimensions.ts';
import { drawCamera } from './drawCamera.ts';
import { drawFixture, drawGripItem } from './drawFixture.ts';
import { drawPiece, drawTurntable } from './drawPiece.ts';
import { convexHull } from './hull.ts';
import { type Placement, placementOf } from './placement.ts';
import { type Projection, projectToSheet, type SheetPoint } from './projection.ts';
import type { SheetBounds, SheetItem, SheetRay } from './sheet.ts';

export interface DrawingModel {
  readonly projection: Projection;
  /** Farthest from the reader first. */
  readonly items: readonly SheetItem[];
  readonly rays: readonly SheetRay[];
  /** The region that a surface mirrors to the lens, when the active finding is about it. */
  readonly region: readonly SheetPoint[];
  /** Of the selected record. */
  readonly dimensions: readonly Dimension[];
  readonly placement: Placement | null;
  /** Where the meter is held. */
  readonly subject: SheetPoint;
  /** What the sheet is fitted to. */
  readonly bounds: SheetBounds;
}

export interface DrawingInput {
  readonly scene: FrameScene;
  readonly set: SetModel;
  readonly view: CameraView;
  readonly projection: Projection;
  readonly selectedId: string | null;
  readonly activeFinding: Finding | null;
}

/** Everything on one sheet, in metres at full size: what is drawn, what is measured, what the checks point at. */
export function drawingModelFromScene(input: DrawingInput): DrawingModel {
  const { scene, set, view, projection, selectedId, activeFinding } = input;
  const surfacesOf = groupByRecord(set);
  const items: SheetItem[] = [
    ...scene.pieces.map((piece) => drawPieceOnce(piece, scene, surfacesOf, projection)),
    ...scene.fixtures.map((fixture) => drawFixture(fixture, surfacesOf(fixture.id), projection)),
    ...scene.grip.map((item) => drawGripItem(item, surfacesOf(item.id), projection)),
    drawCamera(scene.camera, surfacesOf('camera'), view, projection),
  ];
  if (scene.turntable) items.push(drawTurntable(scene.turntable, projection));
  items.sort((a, b) => a.nearM - b.nearM);

  const placement = selectedId === null ? null : placementOf(scene, selectedId);
  const selected = items.find(({ recordId }) => recordId === selectedId);
  const rays = chainsOf(activeFinding).map((chain): SheetRay => {
    const points = chain.map((p) => projectToSheet(projection, p));
    return chain.length === 1 ? { points: [], turns: points } : { points, turns: points.slice(1, -1) };
  });
  const subject = projectToSheet(projection, scene.subject.meterPointM);
  return {
    projection,
    items,
    rays,
    region: activeFinding?.check === 'familyOfAngles' ? regionOf(activeFinding, projection) : [],
    dimensions: placement ? dimensionsOf(placement, projection, selected?.hull) : [],
    placement,
    subject,
    bounds: boundsOfItems(items, subject),
  };
}

/** The rays of a finding; where it has none, the one point that it is about. */
function chainsOf(finding: Finding | null): readonly (readonly Vec3[])[] {
  const { raysM, pointM } = finding?.where ?? {};
  if (raysM && raysM.length > 0) return raysM;
  return pointM ? [[pointM]] : [];
}

/** Hull of what lies beyond the mirroring surface along the corner rays of its family of angles. */
const regionOf = ({ where }: Finding, projection: Projection): SheetPoint[] =>
  convexHull((where.raysM ?? []).flatMap((ray) => ray.slice(1).map((p) => projectToSheet(projection, p))));

interface DrawnPiece {
  readonly projection: Projection;
  readonly turntable: FrameScene['turntable'];
  readonly turntableAngleDeg: number;
  readonly item: SheetItem;
}

/** Pieces are drawn again only when they or the turntable change, not while a light is dragged past them. */
const drawnPieces = new WeakMap<FrameScene['pieces'][number], DrawnPiece>();

function drawPieceOnce(
  piece: FrameScene['pieces'][number],
  { turntable, turntableAngleDeg }: FrameScene,
  surfacesOf: (recordId: string) => SetModel['surfaces'],
  projection: Projection,
): SheetItem {
  const known = drawnPieces.get(piece);
  if (
    known?.projection === projection &&
    known.turntable === turntable &&
    known.turntableAngleDeg === turntableAngleDeg
  ) {
    return known.item;
  }
  const item = drawPiece(piece, surfacesOf(piece.id), projection);
  drawnPieces.set(piece, { projection, turntable, turntableAngleDeg, item });
  return item;
}

function groupByRecord(set: SetModel): (recordId: string) => SetModel['surfaces'] {
  const groups = new Map<string, SetModel['surfaces'][number][]>();
  for (const surface of set.surfaces) {
    const group = groups.get(surface.recordId);
    if (group) group.push(surface);
    else groups.set(surface.recordId, [surface]);
  }
  return (recordId) => groups.get(recordId) ?? [];
}

/** What a sheet is fitted to: lights, grip, camera and what stands on the table. Tables and backdrops may run off it. */
function boundsOfItems(items: readonly SheetItem[], subject: SheetPoint): SheetBounds {
  const points = items.filter(({ heldInside }) => heldInside).flatMap((item) => [...item.hull, item.anchor]);
  const us = [subject, ...points].map(([u]) => u);
  const vs = [subject, ...points].map(([, v]) => v);
  return { min: [Math.min(...us), Math.min(...vs)], max: [Math.max(...us), Math.max(...vs)] };
}
