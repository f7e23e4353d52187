import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MAX_SETUP_CHARS, parseSetup, type SetupError, serializeSetup } from '../../src/document/codec.ts';
import { scanJson } from '../../src/document/jsonScan.ts';
import { sampleData, sampleSetup } from './sampleSetup.ts';

function refuse(text: string): SetupError {
  const result = parseSetup(text);
  if (result.ok) throw new Error('was accepted');
  return result.error;
}

type Path = readonly (string | number)[];

/** The sample as text with the value at a path replaced by raw JSON text, or left out when `json` is null. */
function spoil(path: Path, json: string | null): string {
  const marker = '@@spoilt@@';
  const data: unknown = sampleData();
  let place: unknown = data;
  for (const part of path.slice(0, -1)) place = Reflect.get(Object(place), part);
  const last = path[path.length - 1];
  if (json === null) Reflect.deleteProperty(Object(place), last);
  else Reflect.set(Object(place), last, marker);
  return JSON.stringify(data).replace(JSON.stringify(marker), json ?? '');
}

/** Path to spoil, JSON to put there (null: leave it out), and the message that must come of it. */
const BAD_FIELDS: readonly (readonly [Path, string | null, string])[] = [
  [['title'], '""', 'title must not be empty.'],
  [['title'], null, 'title is missing; give text.'],
  [['title'], '7', 'title must be text; it is 7.'],
  [['title'], JSON.stringify('x'.repeat(121)), 'title must have at most 120 letters; it has 121.'],
  [
    ['subject', 'pieceId'],
    '"piece:gone"',
    'subject.pieceId names "piece:gone", which is not among the pieces; give the id of the hero.',
  ],
  [['subject', 'meterPointM'], '[0, 1]', 'subject.meterPointM must have at least 3 entries; it has 2.'],
  [['fixtures', 0, 'output', 'value'], '-5', 'fixtures[0] "Key": output.value must be more than 0; it is -5.'],
  [['fixtures', 0, 'output', 'value'], '0', 'fixtures[0] "Key": output.value must be more than 0; it is 0.'],
  [
    ['fixtures', 0, 'output', 'value'],
    '1e999',
    'fixtures[0] "Key": output.value must be an ordinary number; it is not finite.',
  ],
  [
    ['fixtures', 0, 'output', 'unit'],
    '"watts"',
    'fixtures[0] "Key": output.unit must be one of lumens, peakCandela, luxAtDistance; it is "watts".',
  ],
  [
    ['fixtures', 1, 'output', 'distanceM'],
    null,
    'fixtures[1] "Back spot": output.distanceM is missing; give a number.',
  ],
  [['fixtures', 0, 'widthM'], '-0.3', 'fixtures[0] "Key": widthM must be more than 0; it is -0.3.'],
  [
    ['fixtures', 0, 'kind'],
    '"lazer"',
    'fixtures[0] "Key": kind must be one of panel, spot, bulb, tube, softbox, lantern, measured; it is "lazer".',
  ],
  [
    ['fixtures', 0, 'kind'],
    null,
    'fixtures[0] "Key": kind is missing; give one of panel, spot, bulb, tube, softbox, lantern, measured.',
  ],
  [
    ['fixtures', 0, 'id'],
    '"a b"',
    'fixtures[0] "Key": id must use letters, digits, colon, dash and underscore only; it is "a b".',
  ],
  [
    ['fixtures', 1, 'id'],
    '"piece:hero"',
    'fixtures[1] "Back spot": id "piece:hero" is taken by pieces[0]; give it another.',
  ],
  [['fixtures', 0, 'on'], '"yes"', 'fixtures[0] "Key": on must be true or false; it is "yes".'],
  [['fixtures', 0, 'dimStops'], '1', 'fixtures[0] "Key": dimStops must be at most 0; it is 1.'],
  [['fixtures', 0, 'positionM'], '[0, 101, 0]', 'fixtures[0] "Key": positionM must stay within 100 m of the subject.'],
  [['fixtures', 0, 'positionM'], '"left"', 'fixtures[0] "Key": positionM must be a list; it is "left".'],
  [['fixtures', 0, 'positionM', 1], 'null', 'fixtures[0] "Key": positionM[1] must be a number; it is null.'],
  [
    ['fixtures', 0, 'barndoors'],
    '{}',
    'fixtures[0] "Key": barndoors is not a field that belongs here; check its spelling or leave it out.',
  ],
  [
    ['pieces', 0, 'profile', 'shape'],
    '"amphora"',
    'pieces[0] "Highball": profile.shape must be one of highball, tumbler, doubleTumbler, shot, coupe, conicalStemmed, flute, wine, copa, bottle, carafe, mug, ownProfile; it is "amphora".',
  ],
  [['pieces', 0, 'profile', 'wallM'], '0.1', 'pieces[0] "Highball": profile.wallM must be at most 0.02; it is 0.1.'],
  [
    ['pieces', 0, 'drink', 'absorptionPerM'],
    '[1, -2, 1]',
    'pieces[0] "Highball": drink.absorptionPerM[1] must be at least 0; it is -2.',
  ],
  [['pieces', 0], '17', 'pieces[0] must be an object with its fields; it is 17.'],
  [['pieces', 1, 'finish'], null, 'pieces[1] "Table": finish is missing; give an object with its fields.'],
  [
    ['pieces', 1, 'finish', 'type'],
    '"shiny"',
    'pieces[1] "Table": finish.type must be one of matte, gloss, metal, mirror, translucent, clear, black; it is "shiny".',
  ],
  [['grip', 0, 'reflectanceRgb'], '[1, 1, 2]', 'grip[0] "White card": reflectanceRgb[2] must be at most 1; it is 2.'],
  [['frames'], '[]', 'frames must have at least 1 entry; it has 0.'],
  [['frames', 0, 'kind'], '"movie"', 'frames[0] "Wide": kind must be one of still, turn; it is "movie".'],
  [['frames', 0, 'camera', 'shutterS'], '0', 'frames[0] "Wide": camera.shutterS must be at least 0.00003125; it is 0.'],
  [
    ['frames', 0, 'camera', 'focalLengthMm'],
    '"85mm"',
    'frames[0] "Wide": camera.focalLengthMm must be a number; it is "85mm".',
  ],
  [
    ['frames', 1, 'id'],
    '"frame:wide"',
    'frames[1] "Close-up": id "frame:wide" is taken by frames[0]; give it another.',
  ],
  [
    ['frames', 1, 'hidden', 0],
    '"grip:gone"',
    'frames[1] "Close-up": hidden[0] names "grip:gone", which is not in this setup; leave it out.',
  ],
  [
    ['frames', 1, 'overrides', 0, 'id'],
    '"fixture:gone"',
    'frames[1] "Close-up": overrides[0].id names "fixture:gone", which is not among the fixtures; leave it out.',
  ],
  [
    ['frames', 1, 'overrides', 0, 'collection'],
    '"pieces"',
    'frames[1] "Close-up": overrides[0].id names "fixture:key", which is not among the pieces; leave it out.',
  ],
  [
    ['frames', 1, 'overrides', 0, 'patch', 'dimStops'],
    '3',
    'frames[1] "Close-up": overrides[0].patch.dimStops must be at most 0; it is 3.',
  ],
  [
    ['frames', 1, 'overrides', 0, 'patch', 'dim'],
    '-1',
    'frames[1] "Close-up": overrides[0].patch.dim is not a field that belongs here; check its spelling or leave it out.',
  ],
  [
    ['frames', 1, 'overrides', 0, 'patch', 'id'],
    '"x"',
    'frames[1] "Close-up": overrides[0].patch.id must stay as it is; add a new record instead.',
  ],
  [
    ['turntable', 'carries'],
    '["piece:gone"]',
    'turntable.carries[0] names "piece:gone", which is not among the pieces; give the id of a piece or leave it out.',
  ],
  [['turntable', 'rpm'], '-1', 'turntable.rpm must be at least 0; it is -1.'],
];

describe('parseSetup: one message for each bad field, naming the field and the mend [F4]', () => {
  it.each(BAD_FIELDS)('%j = %s', (path, json, message) => {
    const error = refuse(spoil(path, json));
    expect(error.kind).toBe('invalid');
    if (error.kind !== 'invalid') return;
    expect(error.issues.map((issue) => issue.message)).toEqual([message]);
    expect(error.message).toBe(message);
  });

  it('gives every fault at once, with the record that each belongs to', () => {
    const data = sampleData();
    data.fixtures[0].output.value = -5;
    data.frames[0].camera.iso = 0;
    data.pieces[1].name = '';
    const error = refuse(JSON.stringify(data));
    expect(error.kind === 'invalid' && error.issues.map(({ path, recordId }) => [path, recordId])).toEqual([
      ['pieces[1].name', 'piece:table'],
      ['fixtures[0].output.value', 'fixture:key'],
      ['frames[0].camera.iso', 'frame:wide'],
    ]);
    expect(error.message).toBe('pieces[1]: name must not be empty. (and 2 more)');
  });
});

describe('parseSetup: what is no setup at all', () => {
  it.each([
    ['', 1, 1, 'expected a value; the file ends here'],
    ['{"a": 1,\n "b": }', 2, 7, 'expected a value; found "}"'],
    ['{"a": 1,\n}', 2, 1, 'expected a field name in double quotes; found "}"'],
    ['[1, 2', 1, 6, 'expected "," or "]"; the file ends here'],
    ['{"a" 1}', 1, 6, 'expected ":" after the field name; found "1"'],
    ['[01]', 1, 3, 'expected "," or "]"; found "1"'],
    ['[NaN]', 1, 2, 'expected a value; found "N"'],
    ['{} {}', 1, 4, 'expected nothing more; found "{"'],
    ['["a\nb"]', 1, 2, 'this text in quotes is not closed or has a character that must be escaped'],
    ['{"a": 1, "\\u0061": 2}', 1, 10, 'the field "a" is given twice'],
  ])('not JSON: %j is faulted at line %i, column %i', (text, line, column, what) => {
    expect(refuse(text)).toEqual({
      kind: 'notJson',
      line,
      column,
      message: `The file is not well-formed JSON: line ${line}, column ${column}: ${what}.`,
    });
  });

  it.each(['null', '[]', '12', '{}', '{"format":"other"}'])('JSON but no setup: %s', (text) => {
    expect(refuse(text)).toMatchObject({ kind: 'notASetup', message: expect.stringContaining('"keyglass-setup"') });
  });

  it.each(['0', '-1', '1.5', '"1"', 'null'])('format version %s is none', (version) => {
    const error = refuse(`{"format":"keyglass-setup","formatVersion":${version}}`);
    expect(error.kind).toBe('notASetup');
    expect(error.message).toMatch(/"formatVersion" must be a whole number from 1 to 1/);
  });

  it('says which version a newer file has, and shows what can be read of it [F5]', () => {
    const newer = { ...sampleData(), formatVersion: 3, weather: 'fog' };
    const error = refuse(JSON.stringify(newer));
    expect(error).toMatchObject({ kind: 'tooNew', fileVersion: 3, knownVersion: 1 });
    expect(error.message).toContain('format version 3');
    expect(error.kind === 'tooNew' && error.readable).toEqual(sampleSetup());
    const strange = refuse(JSON.stringify({ ...newer, fixtures: [{ kind: 'firefly' }] }));
    expect(strange.kind === 'tooNew' && strange.readable).toBeUndefined();
  });

  it('passes over a byte order mark and the "$schema" that editors use', () => {
    const text = `\uFEFF${JSON.stringify({ $schema: '../setup.schema.json', ...sampleData() })}`;
    const result = parseSetup(text);
    expect(result.ok && result.value).toEqual({ setup: sampleSetup(), fromVersion: 1 });
  });
});

describe('parseSetup: hostile files are refused with one message [F6]', () => {
  it('refuses 100 MB at once', () => {
    expect(refuse(' '.repeat(100_000_000))).toEqual({
      kind: 'refused',
      message: `The file is too large: a setup has at most ${MAX_SETUP_CHARS / 1e6} million characters.`,
    });
  });

  it.each([
    ['lists', '['],
    ['objects', '{"a":'],
  ])('refuses a depth bomb of a million %s', (_, opening) => {
    expect(refuse(opening.repeat(1_000_000))).toMatchObject({
      kind: 'refused',
      message: expect.stringContaining('deep'),
    });
  });

  it.each(['__proto__', '\\u005f_proto__', 'constructor', 'prototype'])('refuses a field named %s', (key) => {
    const text = spoil(['frames', 1, 'overrides', 0, 'patch'], `{"dimStops": -1, "${key}": {"polluted": true}}`);
    expect(refuse(text)).toMatchObject({ kind: 'refused', message: expect.stringContaining('no setup has') });
    expect(Reflect.get({}, 'polluted')).toBeUndefined();
  });

  it('refuses a list of two million entries and a file of half a million values', () => {
    expect(refuse(spoil(['pieces'], `[${'{},'.repeat(2_000_000)}{}]`)).kind).toBe('refused');
    const wide = `[${'1,'.repeat(1998)}1]`;
    expect(refuse(`[${`${wide},`.repeat(400)}1]`)).toMatchObject({ message: expect.stringContaining('500000 values') });
  });

  it('keeps the list of faults short however many there are, and never repeats a long value in full', () => {
    const error = refuse(spoil(['pieces'], `[${'{},'.repeat(150)}{}]`));
    expect(error.kind === 'invalid' && error.issues.length).toBe(100);
    const long = refuse(spoil(['fixtures', 0, 'kind'], JSON.stringify('x'.repeat(100_000))));
    expect(long.message.length).toBeLessThan(200);
  });

  it.each([
    ['letters', 'x'],
    ['escapes', '\\n'],
  ])('reads through a text of millions of %s without running out of stack', (_, unit) => {
    const long = unit.repeat(3_900_000);
    expect(refuse(`{"format": "${long}"}`).kind).toBe('notASetup');
    expect(refuse(`{"format": "${long}`).kind).toBe('notJson');
  });

  it('never throws on JSON of any shape, nor on text that is none', () => {
    fc.assert(
      fc.property(fc.oneof(fc.json(), fc.string(), fc.string({ unit: 'binary' })), (text) => {
        expect(parseSetup(text).ok).toBe(false);
      }),
      { seed: 1, numRuns: 500 },
    );
  });
});

describe('scanJson', () => {
  const bounds = { maxDepth: 64, maxValues: 1e6, maxEntries: 1e6 };
  const accepts = (text: string): boolean => scanJson(text, bounds).ok;
  /** The language's own parser is the outside truth; it takes doubled fields, which the scan refuses on purpose. */
  const parses = (text: string): boolean => {
    try {
      JSON.parse(text);
      return true;
    } catch {
      return false;
    }
  };

  it('accepts just what JSON.parse accepts, over 3000 mutilated texts', () => {
    const alphabet = fc.constantFrom(...'{}[]",:0123456789.eE+-truefalsn \\u\n');
    let refused = 0;
    fc.assert(
      fc.property(
        fc.json({ maxDepth: 3 }).filter((text) => accepts(text)),
        fc.nat(),
        fc.option(alphabet),
        (text, position, replacement) => {
          const at = position % (text.length + 1);
          const mutilated = text.slice(0, at) + (replacement ?? '') + text.slice(at + 1);
          const result = scanJson(mutilated, bounds);
          const onPurpose = !result.ok && /twice|which no setup has/.test(result.error.what);
          if (!onPurpose) expect(result.ok).toBe(parses(mutilated));
          if (!result.ok) refused += 1;
        },
      ),
      { seed: 8259, numRuns: 3000 },
    );
    expect(refused).toBeGreaterThan(500);
  });

  it('accepts all that JSON.stringify writes of data without doubled or reserved fields', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 4 }), (value) => {
        const text = JSON.stringify(value, null, 2);
        const result = scanJson(text, bounds);
        expect(result.ok || result.error.what.includes('which no setup has')).toBe(true);
      }),
      { seed: 8260, numRuns: 500 },
    );
  });
});

describe('serializeSetup', () => {
  it('writes two-space JSON with short lists on one line, the same for the same setup [F1]', () => {
    const text = serializeSetup(sampleSetup());
    expect(text).toContain('\n      "positionM": [-0.6, 0.8, 0.3],\n');
    expect(text).toContain('\n          "patch": {\n            "dimStops": -1\n          }\n');
    expect(text.endsWith('}\n')).toBe(true);
    const { frames, fixtures, ...rest } = sampleData();
    const reordered = parseSetup(JSON.stringify({ frames, ...rest, fixtures }));
    expect(reordered.ok && serializeSetup(reordered.value.setup)).toBe(text);
  });

  it('reads back to exactly the same numbers, whatever they are [F2]', () => {
    fc.assert(
      fc.property(fc.double({ min: -100, max: 100, noNaN: true }), (x) => {
        const opened = parseSetup(spoil(['fixtures', 0, 'positionM', 0], JSON.stringify(x)));
        if (!opened.ok) throw new Error(opened.error.message);
        const again = parseSetup(serializeSetup(opened.value.setup));
        expect(again.ok && Object.is(again.value.setup.fixtures[0].positionM[0], x === 0 ? 0 : x)).toBe(true);
      }),
      { seed: 2, numRuns: 300 },
    );
  });
});
