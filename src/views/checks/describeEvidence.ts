import type { Finding } from '../../analysis/contracts.ts';
import { length, sub, type Vec3 } from '../../core/vec3.ts';

/** What proves a finding, in a few words: the ray and the place. '' where there is nothing to see. */
export function describeEvidence({ where }: Finding): string {
  const [ray] = where.raysM ?? [];
  return [ray ? describeRay(ray) : '', where.pointM ? describePlace(where.pointM) : ''].filter(Boolean).join('; ');
}

/** A chain of points, lens first, as its turns and its length. */
function describeRay(points: readonly Vec3[]): string {
  let lengthM = 0;
  for (let i = 1; i < points.length; i++) lengthM += length(sub(points[i], points[i - 1]));
  const turns = Math.max(0, points.length - 2);
  const by = turns === 0 ? 'straight' : turns === 1 ? 'over one surface' : `over ${turns} surfaces`;
  return `ray ${by}, ${lengthM.toFixed(2)} m`;
}

/** A place against the hero's foot: '12 cm right, 4 cm up, 30 cm back'. What is under half a centimetre is left out. */
export function describePlace([x, y, z]: Vec3): string {
  const parts = [
    part(x, 'right', 'left'),
    part(y, 'up', 'under the table top'),
    part(z, 'to the front', 'to the back'),
  ].filter((text) => text !== '');
  return parts.length > 0 ? parts.join(', ') : 'at the foot of the hero';
}

const part = (valueM: number, over: string, under: string): string => {
  const cm = Math.round(Math.abs(valueM) * 100);
  return cm === 0 ? '' : `${cm} cm ${valueM > 0 ? over : under}`;
};
