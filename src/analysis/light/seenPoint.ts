import type { Vec3 } from '../../core/vec3.ts';

/** Where a surface is looked at, and from where. */
export interface SeenPoint {
  readonly surfaceIndex: number;
  readonly front: boolean;
  readonly pointM: Vec3;
  /** Unit normal on the viewer's side. */
  readonly normal: Vec3;
  /** Unit, from the point toward the viewer. */
  readonly toViewer: Vec3;
  /** Length of the ray from the lens to here, or more where less detail is needed: sets how finely light is cached. */
  readonly detailM: number;
}
