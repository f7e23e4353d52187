import { describe, expect, it } from 'vitest';
import { applyChanges, type DocumentChange } from '../../src/document/changes.ts';
import { parseSetup, serializeSetup } from '../../src/document/codec.ts';
import { hashText, traceKey } from '../../src/document/hash.ts';
import { resolveFrame } from '../../src/document/resolveFrame.ts';
import type { Setup } from '../../src/document/setup.ts';
import { sampleSetup } from './sampleSetup.ts';

function keyOf(setup: Setup, frame = 'Wide'): string {
  const scene = resolveFrame(setup, frame);
  if (!scene.ok) throw new Error(scene.error[0].message);
  return traceKey(scene.value);
}

function keyAfter(...changes: DocumentChange[]): string {
  const setup = applyChanges(sampleSetup(), changes);
  if (!setup.ok) throw new Error(setup.error[0].message);
  return keyOf(setup.value);
}

const fixture = (patch: Record<string, unknown>): DocumentChange => ({
  op: 'update',
  collection: 'fixtures',
  id: 'fixture:key',
  patch,
});
const camera = (patch: Record<string, unknown>): DocumentChange => ({
  op: 'update',
  collection: 'camera',
  id: 'frame:wide',
  patch,
});
const piece = (patch: Record<string, unknown>): DocumentChange => ({
  op: 'update',
  collection: 'pieces',
  id: 'piece:hero',
  patch,
});

describe('hashText', () => {
  // Test vectors of the FNV draft (IETF draft-eastlake-fnv, appendix C), from memory.
  it.each([
    ['', 'cbf29ce484222325'],
    ['a', 'af63dc4c8601ec8c'],
    ['foobar', '85944171f73967e8'],
  ])('gives the published FNV-1a 64 value of "%s"', (text, hash) => {
    expect(hashText(text)).toBe(hash);
  });

  it('agrees with the definition in big integers over UTF-8 text', () => {
    const text = 'lemon 1/4, glass Ø 64 mm, 5 600 K — 柚子 🍋';
    let expected = 0xcbf29ce484222325n;
    for (const byte of new TextEncoder().encode(text)) {
      expected = BigInt.asUintN(64, (expected ^ BigInt(byte)) * 0x100000001b3n);
    }
    expect(hashText(text)).toBe(expected.toString(16).padStart(16, '0'));
  });
});

describe('traceKey', () => {
  const key = keyOf(sampleSetup());

  it('is the same for the same setup read again from a file with its fields in another order [T1]', () => {
    const opened = parseSetup(serializeSetup(sampleSetup()));
    expect(opened.ok && keyOf(opened.value.setup)).toBe(key);
    const { frames, pieces, ...rest } = sampleSetup();
    const turned = pieces.map((one) => JSON.parse(JSON.stringify(Object.fromEntries(Object.entries(one).reverse()))));
    const reordered = parseSetup(JSON.stringify({ frames, ...rest, pieces: turned }));
    expect(reordered.ok && keyOf(reordered.value.setup)).toBe(key);
  });

  it.each<[string, DocumentChange]>([
    ['fixture on', fixture({ on: false })],
    ['fixture dimStops', fixture({ dimStops: -3 })],
    ['fixture cctK', fixture({ cctK: 3200 })],
    ['fixture duv', fixture({ duv: 0.01 })],
    ['fixture name', fixture({ name: 'Other' })],
    ['fixture powerW', fixture({ powerW: 60 })],
    ['fixture nets', fixture({ nets: [0.5, 1] })],
    ['fixture gels', fixture({ gels: [{ kind: 'cto', strength: 'half' }] })],
    ['camera iso', camera({ iso: 800 })],
    ['camera shutterS', camera({ shutterS: 0.01 })],
    ['camera whiteBalanceK', camera({ whiteBalanceK: 3200 })],
    ['piece name', piece({ name: 'Other' })],
    ['drink name', piece({ drink: { name: 'Soda' } })],
    ['title', { op: 'setTitle', title: 'Other' }],
    ['meter point', { op: 'updateSubject', patch: { meterPointM: [0, 0.1, 0] } }],
    ['another frame', { op: 'updateFrame', id: 'frame:close', patch: { turntableAngleDeg: 30 } }],
  ])('stays the same when %s changes [T2]', (_, change) => {
    expect(keyAfter(change)).toBe(key);
  });

  it.each<[string, DocumentChange]>([
    ['fixture position', fixture({ positionM: [-0.6, 0.8, 0.31] })],
    ['fixture output', fixture({ output: { value: 3001 } })],
    ['barn door', fixture({ barnDoors: { topDeg: 61 } })],
    ['camera position', camera({ positionM: [0, 0.29, 1.3] })],
    ['stop', camera({ apertureFNumber: 5.6 })],
    ['focus', camera({ focusDistanceM: 1.31 })],
    ['drink colour', piece({ drink: { absorptionPerM: [2, 1, 1] } })],
    ['table finish', { op: 'update', collection: 'pieces', id: 'piece:table', patch: { finish: { type: 'black' } } }],
    ['turn of the table', { op: 'updateFrame', id: 'frame:wide', patch: { turntableAngleDeg: 30 } }],
    ['hidden card', { op: 'setHidden', frameId: 'frame:wide', id: 'grip:card', hidden: true }],
    ['order of the fixtures', { op: 'move', collection: 'fixtures', id: 'fixture:key', toIndex: 1 }],
  ])('differs when %s changes [T3]', (_, change) => {
    expect(keyAfter(change)).not.toBe(key);
  });
});
