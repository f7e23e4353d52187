import { normalize, type Vec3 } from '../../src/core/vec3.ts';
import type { SetModel } from '../../src/scene/setModel.ts';
import { compileWorld, createRayQuery } from '../../src/transport/index.ts';

/** Where a ray has been: the filling medium of each stretch, and every set of volumes it was inside of at once. */
export interface Passage {
  readonly media: readonly string[];
  readonly together: ReadonlySet<string>;
}

/**
 * Walks rays through the exact surfaces of a set, keeping the books of what they are inside of. Throws when a surface
 * contradicts them: a volume left that was not entered, entered twice, or never left. That finds open seams, normals turned
 * the wrong way, and bodies of one volume that overlap.
 */
export function createProbe(set: SetModel): (originM: Vec3, toward: Vec3) => Passage {
  const query = createRayQuery(compileWorld(set));
  const priority = new Map(set.volumes.map((v) => [v.id, v.priority]));
  return (originM, toward) => {
    const inside = new Set<string>();
    const media: string[] = ['air'];
    const together = new Set<string>();
    for (const { surfaceIndex, front } of query.hitsAlong(originM, normalize(toward), undefined, 4000)) {
      const s = set.surfaces[surfaceIndex];
      if (s.finish.type !== 'clear' && s.frontVolume === undefined && s.backVolume === undefined) continue;
      const from = front ? s.frontVolume : s.backVolume;
      const to = front ? s.backVolume : s.frontVolume;
      if (from !== undefined && !inside.delete(from))
        throw new Error(`left ${from} at '${s.role}' without being in it`);
      if (to !== undefined) {
        if (inside.has(to)) throw new Error(`entered ${to} at '${s.role}' twice`);
        inside.add(to);
      }
      const names = [...inside].sort();
      for (const a of names) for (const b of names) if (a < b) together.add(`${a} + ${b}`);
      const top = [...inside].sort((a, b) => (priority.get(b) ?? 0) - (priority.get(a) ?? 0))[0] ?? 'air';
      if (top !== media[media.length - 1]) media.push(top);
    }
    if (inside.size > 0) throw new Error(`still in ${[...inside].join(', ')} at the end`);
    return { media, together };
  };
}
