import fc from 'fast-check';
import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { readPfm, rec709SamplesFromWorking, writePfm, writePng } from '../../../src/deliverables/image/index.ts';

describe('writePng', () => {
  it('keeps 8-bit and 16-bit values in their places (read back with fast-png)', () => {
    const eight = Uint8Array.of(255, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 250);
    expect(decode(writePng({ widthPx: 2, heightPx: 2, rgb: eight }))).toMatchObject({
      width: 2,
      height: 2,
      depth: 8,
      channels: 3,
      data: eight,
    });
    const sixteen = Uint16Array.of(65535, 0, 256, 1, 2, 4660);
    expect(decode(writePng({ widthPx: 1, heightPx: 2, rgb: sixteen }))).toMatchObject({ depth: 16, data: sixteen });
  });

  it('refuses 5 samples for 2 x 1 pixels', () => {
    expect(() => writePng({ widthPx: 2, heightPx: 1, rgb: new Uint8Array(5) })).toThrow('5 samples for 2 x 1 RGB');
  });
});

describe('PFM', () => {
  it('has the header and the bottom row first, little-endian', () => {
    const bytes = writePfm({ widthPx: 1, heightPx: 2, rgb: Float32Array.of(1, 2, 3, 4, 5, 6) });
    const header = 'PF\n1 2\n-1.0\n';
    expect(Buffer.from(bytes.subarray(0, header.length)).toString('latin1')).toBe(header);
    // 4.0 is 0x40800000, 1.0 is 0x3f800000 (IEEE 754 single).
    const data = Buffer.from(bytes.subarray(header.length)).toString('hex');
    expect(data).toBe('000080400000a0400000c0400000803f0000004000004040');
  });

  it('comes back bit for bit', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 6 }),
        fc.integer({ min: 1, max: 6 }),
        fc.infiniteStream(fc.float()),
        (w, h, values) => {
          const image = {
            widthPx: w,
            heightPx: h,
            rgb: Float32Array.from({ length: w * h * 3 }, () => values.next().value),
          };
          expect(readPfm(writePfm(image))).toEqual({ ok: true, value: image });
        },
      ),
      { numRuns: 50, seed: 11 },
    );
  });

  it('reads big-endian files and refuses grey, huge and cut-off ones', () => {
    const text = (s: string) => Buffer.from(s, 'latin1');
    const bigEndian = Buffer.concat([text('PF\n1 1\n1.0\n'), Buffer.from('3f8000004000000040400000', 'hex')]);
    expect(readPfm(bigEndian)).toMatchObject({ ok: true, value: { rgb: Float32Array.of(1, 2, 3) } });
    expect(readPfm(bigEndian.subarray(0, bigEndian.length - 1))).toMatchObject({ error: { code: 'truncated' } });
    expect(readPfm(text('Pf\n1 1\n-1.0\n0000'))).toMatchObject({ error: { code: 'not-this-format' } });
    expect(readPfm(text('PF\n900000 900000\n-1.0\n0000'))).toMatchObject({ error: { code: 'bad-size' } });
  });
});

describe('rec709SamplesFromWorking', () => {
  it('keeps grey and turns BT.2020 red into the Rec. 709 triple of BT.2087', () => {
    // ITU-R BT.2087-0 gives the direction 709 to 2020; its inverse is 1.6605, -0.1246, -0.0182 in the red column.
    const out = rec709SamplesFromWorking(Float32Array.of(80, 80, 80, 1, 0, 0));
    for (const c of [0, 1, 2]) expect(out[c]).toBeCloseTo(80, 4);
    expect(out[3]).toBeCloseTo(1.6605, 4);
    expect(out[4]).toBeCloseTo(-0.1246, 4);
    expect(out[5]).toBeCloseTo(-0.0182, 4);
  });
});
