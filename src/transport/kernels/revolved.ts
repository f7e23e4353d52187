/**
 * Exact ray intersection with pieces of surfaces of revolution about the local y axis. Everything is in double precision,
 * in the piece's own frame, with a unit ray direction.
 *
 * Rays and roots travel in typed arrays: numbers handed to a function that the engine does not inline are boxed one by one.
 */

const TWO_PI = 2 * Math.PI;
/** Pieces reach this much past their ends, metres, so that no ray slips between two that share an end. */
const SEAM_M = 3e-8;

/** Scratch shared by the root finders: up to four roots in increasing order. */
export const roots = new Float64Array(4);

/** Is the point at azimuth (x, z) within the range? A full turn never asks. */
export const withinAzimuth = (x: number, z: number, startRad: number, spanRad: number): boolean => {
  let a = Math.atan2(z, x) - startRad;
  a -= TWO_PI * Math.floor(a / TWO_PI);
  return a <= spanRad + 1e-9 || a >= TWO_PI - 1e-9;
};

/**
 * Nearest hit in (tMin, tMax) with a straight profile piece turned about y, or -1.
 *
 * @param ray local ray: origin xyz, direction xyz
 * @param data piece words from `at`: r0 y0 r1 y1 azimuthStart azimuthSpan slope isFlat, see `prepareLine`
 */
export function intersectRevolvedLine(
  ray: Float64Array,
  data: Float64Array,
  at: number,
  tMin: number,
  tMax: number,
): number {
  const ox = ray[0];
  const oy = ray[1];
  const oz = ray[2];
  const dx = ray[3];
  const dy = ray[4];
  const dz = ray[5];
  const r0 = data[at];
  const y0 = data[at + 1];
  const r1 = data[at + 2];
  const y1 = data[at + 3];
  const span = data[at + 5];
  if (data[at + 7] !== 0) {
    // Disc or ring.
    const t = (y0 - oy) / dy;
    if (!(t > tMin && t < tMax)) return -1;
    const x = ox + t * dx;
    const z = oz + t * dz;
    const rr = x * x + z * z;
    const low = Math.min(r0, r1) - SEAM_M;
    const high = Math.max(r0, r1) + SEAM_M;
    if (rr > high * high || (low > 0 && rr < low * low)) return -1;
    return span >= TWO_PI || withinAzimuth(x, z, data[at + 4], span) ? t : -1;
  }
  // Cone or cylinder: x^2 + z^2 = (r0 + k (y - y0))^2.
  const k = data[at + 6];
  const s = r0 + k * (oy - y0);
  const kd = k * dy;
  const a = dx * dx + dz * dz - kd * kd;
  const b = ox * dx + oz * dz - kd * s;
  const c = ox * ox + oz * oz - s * s;
  const disc = b * b - a * c;
  if (disc < 0) return -1;
  const root = Math.sqrt(disc);
  const q = b < 0 ? -b + root : -b - root;
  let ta = a !== 0 ? q / a : Number.POSITIVE_INFINITY;
  let tb = q !== 0 ? c / q : ta;
  if (ta > tb) {
    const swap = ta;
    ta = tb;
    tb = swap;
  }
  const low = Math.min(y0, y1) - SEAM_M;
  const high = Math.max(y0, y1) + SEAM_M;
  for (let i = 0; i < 2; i++) {
    const t = i === 0 ? ta : tb;
    if (!(t > tMin && t < tMax)) continue;
    const y = oy + t * dy;
    if (y < low || y > high || s + kd * t < -SEAM_M) continue;
    if (span < TWO_PI && !withinAzimuth(ox + t * dx, oz + t * dz, data[at + 4], span)) continue;
    return t;
  }
  return -1;
}

/**
 * Nearest hit in (tMin, tMax) with a circular profile piece turned about y (part of a torus or sphere), or -1.
 *
 * @param data piece words from `at`: centreR centreY radius angleLow angleSpan azimuthStart azimuthSpan sign
 */
export function intersectRevolvedArc(
  ray: Float64Array,
  data: Float64Array,
  at: number,
  tMin: number,
  tMax: number,
): number {
  const rc = data[at];
  const radius = data[at + 2];
  const dx = ray[3];
  const dy = ray[4];
  const dz = ray[5];
  // Slide the origin to the point nearest the centre: small numbers, and the cubic term of the quartic goes.
  let px = ray[0];
  let py = ray[1] - data[at + 1];
  let pz = ray[2];
  const shift = -(px * dx + py * dy + pz * dz);
  px += shift * dx;
  py += shift * dy;
  pz += shift * dz;
  const c = px * px + py * py + pz * pz;
  const outer = Math.abs(rc) + radius;
  const reach2 = outer * outer - c;
  if (reach2 < 0) return -1;
  const lowT = tMin - shift;
  const highT = tMax - shift;
  let count: number;
  if (rc === 0) {
    const half = Math.sqrt(reach2);
    roots[0] = -half;
    roots[1] = half;
    count = 2;
  } else {
    const reach = Math.sqrt(reach2);
    const from = lowT > -reach ? lowT : -reach - 1e-9;
    const to = highT < reach ? highT : reach + 1e-9;
    if (!(from < to)) return -1;
    const k = c + rc * rc - radius * radius;
    const four = 4 * rc * rc;
    const p = 2 * k - four * (dx * dx + dz * dz);
    const q = -2 * four * (px * dx + pz * dz);
    const r = k * k - four * (px * px + pz * pz);
    count = solveDepressedQuartic(p, q, r, from, to);
  }
  for (let i = 0; i < count; i++) {
    const t = roots[i];
    if (!(t > lowT && t < highT)) continue;
    const x = px + t * dx;
    const y = py + t * dy;
    const z = pz + t * dz;
    const rr = Math.sqrt(x * x + z * z);
    // The quartic is squared: leave out the mirror image of the profile circle beyond the axis.
    if (rc !== 0 && Math.abs(Math.hypot(rr - rc, y) - radius) > 1e-7) continue;
    let angle = Math.atan2(y, rr - rc) - data[at + 3];
    angle -= TWO_PI * Math.floor(angle / TWO_PI);
    const slack = SEAM_M / radius;
    if (angle > data[at + 4] + slack && angle < TWO_PI - slack) continue;
    if (data[at + 6] < TWO_PI && !withinAzimuth(x, z, data[at + 5], data[at + 6])) continue;
    return t + shift;
  }
  return -1;
}

const turning = new Float64Array(3);

/**
 * Real roots of t^4 + p t^2 + q t + r in [from, to], in order, into `roots`. The turning points (roots of the cubic
 * derivative, bracketed by those of the second derivative) cut the range into stretches on which the quartic is monotone;
 * each holds at most one root, found by Newton steps that fall back on bisection.
 *
 * @returns how many
 */
export function solveDepressedQuartic(p: number, q: number, r: number, from: number, to: number): number {
  let turns = 0;
  if (p < 0) {
    const bend = Math.sqrt(-p / 6);
    turns = cubicRoot(p, q, from, Math.min(-bend, to), turns);
    turns = cubicRoot(p, q, Math.max(-bend, from), Math.min(bend, to), turns);
    turns = cubicRoot(p, q, Math.max(bend, from), to, turns);
  } else turns = cubicRoot(p, q, from, to, turns);
  let count = 0;
  let a = from;
  let fa = ((a * a + p) * a + q) * a + r;
  for (let i = 0; i <= turns; i++) {
    const b = i < turns ? turning[i] : to;
    const fb = ((b * b + p) * b + q) * b + r;
    if (fa === 0) {
      if (count === 0 || roots[count - 1] !== a) roots[count++] = a;
    } else if (fa < 0 !== fb < 0 && fb !== 0) {
      // Newton inside the bracket.
      let low = a;
      let high = b;
      const rising = fb > 0;
      let t = a + (b - a) * (fa / (fa - fb));
      for (let step = 0; step < 60; step++) {
        const f = ((t * t + p) * t + q) * t + r;
        if (f > 0 === rising) high = t;
        else low = t;
        if (f === 0) break;
        const slope = (4 * t * t + 2 * p) * t + q;
        let next = t - f / slope;
        if (!(next > low && next < high)) next = (low + high) / 2;
        if (Math.abs(next - t) <= 1e-15 + 4e-16 * Math.abs(next)) {
          t = next;
          break;
        }
        t = next;
      }
      roots[count++] = t;
    }
    if (fb === 0 && i === turns) roots[count++] = b;
    a = b;
    fa = fb;
  }
  return count;
}

/** Adds the root of 4 t^3 + 2 p t + q in [a, b] (monotone there) to `turning`, if there is one. */
function cubicRoot(p: number, q: number, a: number, b: number, turns: number): number {
  if (!(a < b)) return turns;
  const fa = (4 * a * a + 2 * p) * a + q;
  const fb = (4 * b * b + 2 * p) * b + q;
  if (fa < 0 === fb < 0) return turns;
  const rising = fb > fa;
  let low = a;
  let high = b;
  let t = (a + b) / 2;
  for (let step = 0; step < 60; step++) {
    const f = (4 * t * t + 2 * p) * t + q;
    if (f > 0 === rising) high = t;
    else low = t;
    let next = t - f / (12 * t * t + 2 * p);
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (Math.abs(next - t) <= 1e-14 * (Math.abs(a) + Math.abs(b))) {
      t = next;
      break;
    }
    t = next;
  }
  turning[turns] = t;
  return turns + 1;
}
