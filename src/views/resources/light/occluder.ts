import type { Vec3 } from '../../../core/vec3.ts';

/** Something simple that stands in the way of light. */
export type Occluder = SheetOccluder | CylinderOccluder | BoxOccluder | ShellOccluder | ApertureOccluder;

interface OccluderCommon {
  readonly recordId: string;
  /** Share of the light that passes. */
  readonly transmittance: number;
  /** Part of a thing with other parts that lie in its shadow; as a rule a thing does not shade itself. */
  readonly shadesItself?: true;
  /** Plane of a backdrop or table: it is in the way only of lights behind it (where this is negative). */
  readonly front?: { readonly pointM: Vec3; readonly normal: Vec3 };
}

/** A thin rectangle: flag, card, cloth, barn door. */
export interface SheetOccluder extends OccluderCommon {
  readonly kind: 'sheet';
  readonly originM: Vec3;
  readonly edgeUM: Vec3;
  readonly edgeVM: Vec3;
}

/** An upright or leaning cylinder with level ends: round plinth, glass, reed. */
export interface CylinderOccluder extends OccluderCommon {
  readonly kind: 'cylinder';
  /** Centre of its foot. */
  readonly footM: Vec3;
  readonly radiusM: number;
  readonly heightM: number;
  /** How far the axis goes toward x and z per metre of height; upright when left out. */
  readonly lean?: readonly [x: number, z: number];
}

/** An upright box; its width runs along `across`, a level unit vector. */
export interface BoxOccluder extends OccluderCommon {
  readonly kind: 'box';
  readonly centreM: Vec3;
  readonly halfM: Vec3;
  readonly across: Vec3;
}

/** The side of an upright cylinder alone, a lamp inside it: the shade of a lantern. */
export interface ShellOccluder extends OccluderCommon {
  readonly kind: 'shell';
  readonly footM: Vec3;
  readonly radiusM: number;
  readonly heightM: number;
  readonly closedTop: boolean;
  readonly closedBottom: boolean;
}

/** A round opening that is the only way out: the end of a snoot. */
export interface ApertureOccluder extends OccluderCommon {
  readonly kind: 'aperture';
  readonly centreM: Vec3;
  /** Unit, outward. */
  readonly normal: Vec3;
  readonly radiusM: number;
}
