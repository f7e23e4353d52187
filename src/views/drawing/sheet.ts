import type { CollectionName } from '../../analysis/contracts.ts';
import type { SheetPoint } from './projection.ts';

/** From the lightest construction line to the thick edge of an emitting face. */
export type LineWeight = 'hair' | 'thin' | 'medium' | 'heavy' | 'face';

/** One line of the sheet, in metres at full size. */
export interface SheetLine {
  readonly points: readonly SheetPoint[];
  readonly closed: boolean;
  readonly weight: LineWeight;
  readonly dash?: 'dashed' | 'chain';
}

/** How one record is drawn, and where a hand takes hold of it. */
export interface SheetItem {
  readonly recordId: string;
  /** Null for what is drawn but not moved here (the turntable). */
  readonly collection: CollectionName | null;
  readonly name: string;
  /** Outlines that cover what lies under them. */
  readonly areas: readonly (readonly SheetPoint[])[];
  readonly lines: readonly SheetLine[];
  readonly hull: readonly SheetPoint[];
  /** False for tables and backdrops: they are taken by the edge, so that their inside still moves the sheet. */
  readonly heldInside: boolean;
  readonly anchor: SheetPoint;
  /** Point that it looks at. */
  readonly aim: SheetPoint | null;
  /** A light that is switched on, or anything that is not a light. */
  readonly lit: boolean;
  /** Distance of its nearest point toward the reader, for the order of drawing. */
  readonly nearM: number;
}

export interface SheetRay {
  /** Lens first. */
  readonly points: readonly SheetPoint[];
  /** Where it turns: mirror points and refractions. */
  readonly turns: readonly SheetPoint[];
}

export interface SheetBounds {
  readonly min: SheetPoint;
  readonly max: SheetPoint;
}
