import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/core/rng.ts';
import { createPhotonMap, PHOTON, type PhotonMap } from '../../src/transport/kernels/photonMap.ts';

/** Photons in a flat patch, along a line and all over a metre cube, negative places too; each marked by its flux. */
function fill(map: PhotonMap, count: number, radiusM: number, seed: number): number[][] {
  const random = createRandom(seed);
  const places: number[][] = [];
  map.clear(radiusM);
  for (let i = 0; i < count; i++) {
    const kind = i % 3;
    const spread = kind === 0 ? [0.04, 0, 0.04] : kind === 1 ? [0, 0.2, 0] : [1, 1, 1];
    const place = spread.map((s) => s * (random() - 0.5));
    const o = map.add(kind);
    map.data.set([...place, 0, -1, 0, i, i, i, 0, 1, 0, 1], o);
    places.push(place);
  }
  map.build();
  return places;
}

/** Marks of what a query found, sorted. */
function found(map: PhotonMap, x: number, y: number, z: number): number[] {
  const count = map.query(x, y, z);
  return Array.from(map.found.subarray(0, count), (p) => map.data[p * 13 + PHOTON.r]).sort((a, b) => a - b);
}

const bruteForce = (places: number[][], radiusM: number, at: number[]): number[] =>
  places.flatMap((p, i) => ((p[0] - at[0]) ** 2 + (p[1] - at[1]) ** 2 + (p[2] - at[2]) ** 2 < radiusM ** 2 ? [i] : []));

describe('the photon map', () => {
  for (const radiusM of [0.0005, 0.004, 0.03, 0.5])
    it(`finds within ${radiusM * 1000} mm what a search through all 3000 photons finds, at 400 places`, () => {
      const map = createPhotonMap(3000);
      const places = fill(map, 3000, radiusM, 1);
      const random = createRandom(2);
      let any = 0;
      for (let i = 0; i < 400; i++) {
        // Near a photon, so that most queries find some; every fourth anywhere, outside all of them too.
        const near = places[Math.floor(random() * places.length)];
        const at = [0, 1, 2].map((k) =>
          i % 4 === 0 ? 1.4 * (random() - 0.5) : near[k] + radiusM * 1.5 * (random() - 0.5),
        );
        const wanted = bruteForce(places, radiusM, at);
        expect(found(map, at[0], at[1], at[2])).toEqual(wanted);
        any += wanted.length;
      }
      expect(any).toBeGreaterThan(100);
    });

  it('keeps each photon with its own layer when it sorts them', () => {
    const map = createPhotonMap(300);
    fill(map, 300, 0.01, 3);
    for (let p = 0; p < 300; p++) expect(map.layer[p]).toBe(map.data[p * 13 + PHOTON.r] % 3);
  });

  it('can be filled anew with another radius and forgets what was there', () => {
    const map = createPhotonMap(500);
    fill(map, 500, 0.02, 4);
    const places = fill(map, 90, 0.008, 5);
    expect(map.count).toBe(90);
    for (const at of places) expect(found(map, at[0], at[1], at[2])).toEqual(bruteForce(places, 0.008, at));
  });

  it('takes no more than it has room for, and finds nothing when empty', () => {
    const map = createPhotonMap(2);
    map.clear(0.01);
    expect([map.add(0), map.add(0), map.add(0)]).toEqual([0, 13, -1]);
    map.clear(0.01);
    map.build();
    expect(map.query(0, 0, 0)).toBe(0);
  });
});
