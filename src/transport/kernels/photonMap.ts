/** Numbers kept of each photon. */
export const PHOTON_WORDS = 13;
/** Places of a photon's numbers: position, direction of flight, flux per channel, normal there, density (see below). */
export const PHOTON = {
  x: 0,
  y: 1,
  z: 2,
  dx: 3,
  dy: 4,
  dz: 5,
  r: 6,
  g: 7,
  b: 8,
  nx: 9,
  ny: 10,
  nz: 11,
  density: 12,
} as const;

/**
 * Photons of one pass, in a hash grid whose cells are as wide as the gathering disc. `density` of a photon is that of its start
 * over the cosine at the lamp, 1/(m2 sr): light keeps its etendue through glass, so times n^2 and the cosine on
 * arrival it is the density with which photons arrive there per area and solid angle.
 */
export interface PhotonMap {
  /** Photons, PHOTON_WORDS each, grouped by cell after `build`. */
  readonly data: Float64Array;
  /** Film layer of each photon; -1 - layer for those that came to rest inside a cloudy medium. */
  readonly layer: Int32Array;
  count: number;
  radiusM: number;
  clear(radiusM: number): void;
  /** Room for one more: returns the place in `data`, or -1 when full. */
  add(layer: number): number;
  build(): void;
  /** Photon numbers within the radius of a point, into `found`; returns how many (nearby cells only, distance tested). */
  query(x: number, y: number, z: number): number;
  readonly found: Int32Array;
}

export function createPhotonMap(capacity: number): PhotonMap {
  let data = new Float64Array(capacity * PHOTON_WORDS);
  let sorted = new Float64Array(capacity * PHOTON_WORDS);
  let layer = new Int32Array(capacity);
  let sortedLayer = new Int32Array(capacity);
  const cellOf = new Int32Array(capacity);
  const tableBits = Math.max(8, Math.ceil(Math.log2(Math.max(2, capacity))));
  const tableSize = 1 << tableBits;
  const start = new Int32Array(tableSize + 1);
  const box = new Float64Array(6);
  const found = new Int32Array(capacity);

  const hash = (i: number, j: number, k: number): number =>
    (Math.imul(i, 73856093) ^ Math.imul(j, 19349663) ^ Math.imul(k, 83492791)) & (tableSize - 1);

  const map: PhotonMap = {
    get data() {
      return data;
    },
    get layer() {
      return layer;
    },
    count: 0,
    radiusM: 0,
    found,
    clear(radiusM) {
      map.count = 0;
      map.radiusM = radiusM;
    },
    add(photonLayer) {
      if (map.count >= capacity) return -1;
      layer[map.count] = photonLayer;
      return map.count++ * PHOTON_WORDS;
    },
    build() {
      const n = map.count;
      box.set([Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity]);
      start.fill(0);
      const inv = 1 / (2 * map.radiusM);
      for (let i = 0; i < n; i++) {
        const o = i * PHOTON_WORDS;
        for (let k = 0; k < 3; k++) {
          if (data[o + k] < box[k]) box[k] = data[o + k];
          if (data[o + k] > box[k + 3]) box[k + 3] = data[o + k];
        }
        const c = hash(Math.floor(data[o] * inv), Math.floor(data[o + 1] * inv), Math.floor(data[o + 2] * inv));
        cellOf[i] = c;
        start[c + 1]++;
      }
      for (let k = 0; k < 3; k++) {
        box[k] -= map.radiusM;
        box[k + 3] += map.radiusM;
      }
      for (let c = 0; c < tableSize; c++) start[c + 1] += start[c];
      const fill = start.slice(0, tableSize);
      for (let i = 0; i < n; i++) {
        const to = fill[cellOf[i]]++;
        sorted.set(data.subarray(i * PHOTON_WORDS, (i + 1) * PHOTON_WORDS), to * PHOTON_WORDS);
        sortedLayer[to] = layer[i];
      }
      [data, sorted] = [sorted, data];
      [layer, sortedLayer] = [sortedLayer, layer];
    },
    query(x, y, z) {
      if (map.count === 0 || x < box[0] || y < box[1] || z < box[2] || x > box[3] || y > box[4] || z > box[5]) return 0;
      const r = map.radiusM;
      const inv = 1 / (2 * r);
      const r2 = r * r;
      let count = 0;
      const i0 = Math.floor((x - r) * inv);
      const j0 = Math.floor((y - r) * inv);
      const k0 = Math.floor((z - r) * inv);
      const i1 = Math.floor((x + r) * inv);
      const j1 = Math.floor((y + r) * inv);
      const k1 = Math.floor((z + r) * inv);
      for (let i = i0; i <= i1; i++)
        for (let j = j0; j <= j1; j++)
          for (let k = k0; k <= k1; k++) {
            const c = hash(i, j, k);
            for (let p = start[c]; p < start[c + 1]; p++) {
              const o = p * PHOTON_WORDS;
              const px = data[o];
              const py = data[o + 1];
              const pz = data[o + 2];
              const dx = px - x;
              const dy = py - y;
              const dz = pz - z;
              // Two cells may share a slot of the table: take a photon only from its own.
              if (
                dx * dx + dy * dy + dz * dz < r2 &&
                Math.floor(px * inv) === i &&
                Math.floor(py * inv) === j &&
                Math.floor(pz * inv) === k
              )
                found[count++] = p;
            }
          }
      return count;
    },
  };
  return map;
}
