import { Line } from '@react-three/drei';
import type { Vec3 } from '../../core/vec3.ts';

interface StageLineProps {
  readonly points: readonly Vec3[];
  readonly colour: string;
  readonly opacity?: number;
  readonly widthPx?: number;
  /** Lengths of dash and gap, metres. */
  readonly dashM?: readonly [number, number];
  /** Shows through whatever stands before it. */
  readonly onTop?: boolean;
}

/** A quiet line in the set; it takes no pointer. */
export function StageLine({ points, colour, opacity = 1, widthPx = 1, dashM, onTop = false }: StageLineProps) {
  return (
    <Line
      points={points.map((p) => [p[0], p[1], p[2]] as const)}
      color={colour}
      lineWidth={widthPx}
      transparent
      opacity={opacity}
      dashed={dashM !== undefined}
      dashSize={dashM?.[0] ?? 1}
      gapSize={dashM?.[1] ?? 0}
      depthWrite={false}
      depthTest={!onTop}
      renderOrder={onTop ? 5 : 1}
      raycast={() => null}
    />
  );
}

export const PAPER = '#f0e6d6';
export const ACCENT = '#e2a356';
