import { applyToDirection, fromHeading } from '../../core/rigid.ts';
import { radFromDeg } from '../../core/units.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { Gobo } from '../../fixtures/modifierRecords.ts';
import { fixtureFrame } from '../../fixtures/placement.ts';
import type { FrameScene } from '../../scene/setModel.ts';

/** A pattern that is cut out of light: openings at a pitch. */
export interface LightPattern {
  readonly gapM: number;
  /** From one opening to the next; infinite for a single one. */
  readonly pitchM: number;
  /** Across the bars, world; null where they run every way. */
  readonly across: Vec3 | null;
  /** 'slats', 'panes', 'leaves', 'doorway', 'reeds', 'holes'. */
  readonly words: string;
}

/** The pattern of a maker of shadows, or null for a plain edge. */
export function patternOf(scene: FrameScene, makerId: string, part: string): LightPattern | null {
  const fixture = scene.fixtures.find(({ id }) => id === makerId);
  if (fixture) {
    const gobo = fixture.kind === 'spot' && part === 'gobo' ? fixture.gobo : undefined;
    if (!gobo) return null;
    const roll = radFromDeg(gobo.rollDeg);
    const frame = fixtureFrame(fixture);
    const across: Vec3 = applyToDirection(frame, [-Math.sin(roll), Math.cos(roll), 0]);
    const along: Vec3 = applyToDirection(frame, [Math.cos(roll), Math.sin(roll), 0]);
    return patternOfGobo(gobo, along, across);
  }
  const piece = scene.pieces.find(({ id }) => id === makerId);
  if (!piece) return null;
  const localX = applyToDirection(fromHeading([0, 0, 0], radFromDeg(piece.headingDeg)), [1, 0, 0]);
  switch (piece.kind) {
    case 'reedScreen':
      return { gapM: Math.max(0, piece.pitchM - piece.reedM), pitchM: piece.pitchM, across: localX, words: 'reeds' };
    case 'slatScreen': {
      const shutM = piece.slatWidthM * Math.abs(Math.cos(radFromDeg(piece.tiltDeg)));
      const across: Vec3 = piece.direction === 'level' ? [0, 1, 0] : localX;
      return { gapM: Math.max(0, piece.pitchM - shutM), pitchM: piece.pitchM, across, words: 'slats' };
    }
    case 'windowCutter': {
      if (piece.shape === 'doorway')
        return { gapM: piece.openingWidthM, pitchM: Number.POSITIVE_INFINITY, across: localX, words: 'doorway' };
      const pitchM = Math.min(piece.openingWidthM / piece.columns, piece.openingHeightM / piece.rows);
      return { gapM: Math.max(0, pitchM - piece.barM), pitchM, across: null, words: 'panes' };
    }
    case 'dappleCutter': {
      const words = piece.cut === 'leaves' ? 'leaves' : 'holes';
      return { gapM: piece.sizeM * (1 - piece.cover), pitchM: piece.sizeM, across: null, words };
    }
    case 'branch':
    case 'plant':
      return { gapM: piece.leafLengthM / 2, pitchM: piece.leafLengthM, across: null, words: 'leaves' };
    default:
      return null;
  }
}

function patternOfGobo({ pattern, widthM, heightM }: Gobo, along: Vec3, across: Vec3): LightPattern {
  switch (pattern.type) {
    case 'slats': {
      const isLevel = pattern.run === 'level';
      const pitchM = (isLevel ? heightM : widthM) / pattern.count;
      return { gapM: pattern.openShare * pitchM, pitchM, across: isLevel ? across : along, words: 'slats' };
    }
    case 'window': {
      const pitchM = Math.min(widthM / pattern.columns, heightM / pattern.rows);
      return { gapM: Math.max(0, pitchM - pattern.barM), pitchM, across: null, words: 'panes' };
    }
    case 'doorway':
      return {
        gapM: pattern.openWidthShare * widthM,
        pitchM: Number.POSITIVE_INFINITY,
        across: along,
        words: 'doorway',
      };
    case 'leaves':
      return { gapM: pattern.leafM / 2, pitchM: pattern.leafM, across: null, words: 'leaves' };
  }
}

/**
 * Contrast, (most - least) / (most + least), that a pattern of openings keeps when a soft edge of width p smears it: the part
 * that is open of a window p wide, where it is most and where it is least. All sizes on the receiver. An even light as
 * wide as the penumbra is assumed.
 */
export function patternContrast(gapM: number, pitchM: number, penumbraM: number): number {
  if (gapM <= 0) return 0;
  if (penumbraM <= 0) return 1;
  if (!Number.isFinite(pitchM)) return 1;
  const barM = pitchM - gapM;
  const whole = Math.floor(penumbraM / pitchM);
  const rest = penumbraM - whole * pitchM;
  const most = (whole * gapM + Math.min(rest, gapM)) / penumbraM;
  const least = (whole * gapM + Math.max(0, rest - barM)) / penumbraM;
  return most + least > 0 ? (most - least) / (most + least) : 0;
}
