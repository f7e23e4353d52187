import type { SheetPoint } from './projection.ts';
import type { Outline } from './surfaceOutline.ts';

const key = (p: SheetPoint): string => `${Math.round(p[0] * 1e6)},${Math.round(p[1] * 1e6)}`;

/**
 * Joins lines end to end where exactly two meet, and drops what was drawn twice (faces share their edges), so that
 * dashes run on and corners are mitred.
 */
export function mergeLines(lines: readonly Outline[]): Outline[] {
  const segments = new Map<string, readonly [SheetPoint, SheetPoint]>();
  for (const { points, closed } of lines) {
    const count = closed ? points.length : points.length - 1;
    for (let i = 0; i < count; i++) {
      const a = points[i];
      const b = points[(i + 1) % points.length];
      const [ka, kb] = [key(a), key(b)];
      if (ka !== kb) segments.set(ka < kb ? `${ka} ${kb}` : `${kb} ${ka}`, [a, b]);
    }
  }
  const touching = new Map<string, string[]>();
  for (const [name, ends] of segments) {
    for (const end of ends) {
      const k = key(end);
      touching.set(k, [...(touching.get(k) ?? []), name]);
    }
  }
  const used = new Set<string>();
  const walk = (from: SheetPoint, first: string): SheetPoint[] => {
    const points = [from];
    let name: string | undefined = first;
    while (name !== undefined) {
      used.add(name);
      const ends = segments.get(name);
      if (!ends) break;
      const last = points[points.length - 1];
      const next = key(ends[0]) === key(last) ? ends[1] : ends[0];
      points.push(next);
      const here = touching.get(key(next)) ?? [];
      name = here.length === 2 ? here.find((other) => !used.has(other)) : undefined;
    }
    return points;
  };
  const merged: Outline[] = [];
  // Chains first, from ends and forks; what is left over are rings.
  for (const [k, names] of touching) {
    if (names.length === 2) continue;
    for (const name of names) {
      if (used.has(name)) continue;
      const ends = segments.get(name);
      if (ends) merged.push({ points: walk(key(ends[0]) === k ? ends[0] : ends[1], name), closed: false });
    }
  }
  for (const [name, [start]] of segments) {
    if (!used.has(name)) merged.push({ points: walk(start, name).slice(0, -1), closed: true });
  }
  return merged;
}
