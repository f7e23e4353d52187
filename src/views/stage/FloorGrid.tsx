import { useEffect, useMemo } from 'react';
import { BufferAttribute, BufferGeometry } from 'three';

const REACH_M = 2.4;
const STEP_M = 0.1;
/** Every so many lines one is heavier. */
const HEAVY = 5;
/** The table top is at 0; the grid lies a little under it and shows round it. */
const UNDER_M = -0.0015;
const ROOM = [0x14 / 255, 0x12 / 255, 0x10 / 255].map((v) => ((v + 0.055) / 1.055) ** 2.4);
const LINE = 0.011;
const HEAVY_LINE = 0.022;

/** 10 cm and 50 cm squares in the plane of the table top, fading out. */
export function FloorGrid() {
  const geometry = useMemo(makeGrid, []);
  useEffect(() => () => geometry.dispose(), [geometry]);
  return (
    <lineSegments geometry={geometry} raycast={() => null} renderOrder={-1}>
      <lineBasicMaterial vertexColors depthWrite={false} />
    </lineSegments>
  );
}

function makeGrid(): BufferGeometry {
  const positions: number[] = [];
  const colours: number[] = [];
  const count = Math.round(REACH_M / STEP_M);
  const point = (x: number, z: number, strength: number) => {
    positions.push(x, UNDER_M, z);
    const fade = Math.max(0, 1 - Math.hypot(x, z) / REACH_M) ** 1.5;
    for (const base of ROOM) colours.push(base + strength * fade);
  };
  for (let i = -count; i <= count; i++) {
    const strength = i % HEAVY === 0 ? HEAVY_LINE : LINE;
    // In short pieces, so that each can fade.
    for (let k = -count; k < count; k++) {
      point(i * STEP_M, k * STEP_M, strength);
      point(i * STEP_M, (k + 1) * STEP_M, strength);
      point(k * STEP_M, i * STEP_M, strength);
      point((k + 1) * STEP_M, i * STEP_M, strength);
    }
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(positions), 3));
  geometry.setAttribute('color', new BufferAttribute(new Float32Array(colours), 3));
  return geometry;
}
