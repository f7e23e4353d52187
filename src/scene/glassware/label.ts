import type { Diagnostic } from '../../core/diagnostic.ts';
import type { RigidTransform } from '../../core/rigid.ts';
import type { Shape } from '../../core/shape.ts';
import { radFromDeg } from '../../core/units.ts';
import type { SolidPart } from '../parts/solidPart.ts';
import { cannotMake, inMm } from '../problems.ts';
import { offsetPiece, shapeFromPiece, splitProfileAtHeight } from '../profile/index.ts';
import type { Label } from '../records.ts';
import type { GlassBody } from './glassBody.ts';

/** Paper stands this far off the glass: it is held by its paste, not fused. */
export const LABEL_GAP_M = 0.0001;

/** A sheet round the outside of a glass between two heights, following its profile. Fronts look out. */
export function buildLabel(
  recordId: string,
  body: GlassBody,
  label: Label,
  worldFromGlass: RigidTransform,
): { parts: SolidPart[]; diagnostics: Diagnostic[] } {
  const topM = label.bottomM + label.heightM;
  const walls = body.outside.filter((p) => p.role === 'outer wall');
  const lowYM = Math.min(...walls.map((p) => Math.min(p.piece.from.yM, p.piece.to.yM)));
  const highYM = Math.max(...walls.map((p) => Math.max(p.piece.from.yM, p.piece.to.yM)));
  if (label.bottomM < lowYM - 1e-9 || topM > highYM + 1e-9) {
    return {
      parts: [],
      diagnostics: [
        cannotMake(
          recordId,
          'label-off-glass',
          'label.bottomM',
          label.bottomM,
          `label.bottomM and label.heightM must lie on the wall, between ${inMm(lowYM)} and ${inMm(highYM)} above the foot. The label is left out.`,
        ),
      ],
    };
  }
  const middle = radFromDeg(label.azimuthDeg);
  const half = radFromDeg(label.spanDeg) / 2;
  const azimuth = label.spanDeg < 360 ? { startRad: middle - half, endRad: middle + half } : undefined;
  const under = splitProfileAtHeight(walls, topM).below;
  const band = splitProfileAtHeight(under, label.bottomM).above;
  const parts = band.flatMap(({ piece }): SolidPart[] => {
    const off = offsetPiece(piece, -LABEL_GAP_M);
    if (!off) return [];
    const shape: Shape = azimuth ? { ...shapeFromPiece(off), azimuth } : shapeFromPiece(off);
    return [{ role: 'label', shape, worldFromLocal: worldFromGlass }];
  });
  return { parts, diagnostics: [] };
}
