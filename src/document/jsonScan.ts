import { fail, ok, type Result } from '../core/result.ts';

/** A fault in the text of a JSON file. Lines and columns count from 1. */
export type JsonFault =
  | { readonly kind: 'syntax'; readonly line: number; readonly column: number; readonly what: string }
  | { readonly kind: 'tooMuch'; readonly what: string };

export interface JsonBounds {
  readonly maxDepth: number;
  /** Numbers, texts, lists and objects all told. */
  readonly maxValues: number;
  /** Entries of one list or object. */
  readonly maxEntries: number;
}

/** Keys that mean something to the language itself; no honest file has them. */
const RESERVED_KEYS: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /true|false|null/y;
const SPACE = /[ \t\n\r]*/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;

const QUOTE = 0x22;
const BACKSLASH = 0x5c;

interface Level {
  readonly close: ']' | '}';
  entries: number;
  readonly keys: Set<string>;
}

/**
 * Walks JSON text (RFC 8259) once, without building anything and without recursion, so that a hostile file costs time
 * and memory in proportion to its length only. Finds the first fault of syntax by line and column, which the
 * language's own parser words differently everywhere; keys given twice, which that parser passes over in silence;
 * reserved keys; and sizes past the bounds.
 */
export function scanJson(text: string, bounds: JsonBounds): Result<void, JsonFault> {
  const levels: Level[] = [];
  let at = 0;
  let values = 0;

  const skip = (pattern: RegExp): string => {
    pattern.lastIndex = at;
    const found = pattern.exec(text)?.[0] ?? '';
    at += found.length;
    return found;
  };
  /** A text in quotes; empty when it is none. By hand, because a pattern may run out of stack on a long one. */
  const skipText = (): string => {
    let end = at + 1;
    for (;;) {
      const letter = text.charCodeAt(end);
      if (letter === QUOTE) break;
      // Past the end of the text the code is NaN, which is in no range.
      if (!(letter >= 0x20)) return '';
      if (letter === BACKSLASH) {
        ESCAPE.lastIndex = end;
        const sequence = ESCAPE.exec(text);
        if (!sequence) return '';
        end += sequence[0].length;
      } else end += 1;
    }
    const found = text.slice(at, end + 1);
    at = end + 1;
    return found;
  };
  const syntax = (what: string, where = at): Result<never, JsonFault> => {
    const before = text.slice(0, where);
    const lineStart = before.lastIndexOf('\n') + 1;
    let line = 1;
    for (let i = before.indexOf('\n'); i >= 0; i = before.indexOf('\n', i + 1)) line += 1;
    return fail({ kind: 'syntax', line, column: where - lineStart + 1, what });
  };
  const tooMuch = (what: string): Result<never, JsonFault> => fail({ kind: 'tooMuch', what });
  const found = (): string => (at >= text.length ? 'the file ends here' : `found ${JSON.stringify(text[at])}`);

  /** Reads `"key":` of an object. */
  const readKey = (level: Level): Result<void, JsonFault> => {
    const start = at;
    const raw = text[at] === '"' ? skipText() : '';
    if (raw === '') return syntax(`expected a field name in double quotes; ${found()}`);
    const key: unknown = JSON.parse(raw);
    if (typeof key !== 'string') return syntax('expected a field name', start);
    if (RESERVED_KEYS.has(key)) return tooMuch(`it has a field named ${key}, which no setup has`);
    if (level.keys.has(key)) return syntax(`the field ${JSON.stringify(key)} is given twice`, start);
    level.keys.add(key);
    skip(SPACE);
    if (text[at] !== ':') return syntax(`expected ":" after the field name; ${found()}`);
    at += 1;
    skip(SPACE);
    return ok(undefined);
  };

  skip(SPACE);
  for (;;) {
    // One value begins here.
    values += 1;
    if (values > bounds.maxValues) return tooMuch(`it holds more than ${bounds.maxValues} values`);
    const opening = text[at];
    if (opening === '{' || opening === '[') {
      if (levels.length >= bounds.maxDepth) return tooMuch(`it is nested more than ${bounds.maxDepth} deep`);
      const level: Level = { close: opening === '{' ? '}' : ']', entries: 0, keys: new Set() };
      levels.push(level);
      at += 1;
      skip(SPACE);
      if (text[at] !== level.close) {
        level.entries = 1;
        if (level.close === '}') {
          const key = readKey(level);
          if (!key.ok) return key;
        }
        continue;
      }
    } else if (opening === '"') {
      if (skipText() === '') return syntax('this text in quotes is not closed or has a character that must be escaped');
    } else if (skip(NUMBER) === '' && skip(WORD) === '') {
      return syntax(`expected a value; ${found()}`);
    }

    // One value has ended: close what ends with it, or go on to the next entry.
    for (;;) {
      skip(SPACE);
      const level = levels.at(-1);
      if (!level) return at === text.length ? ok(undefined) : syntax(`expected nothing more; ${found()}`);
      if (text[at] === level.close) {
        at += 1;
        levels.pop();
        continue;
      }
      if (text[at] !== ',') return syntax(`expected "," or "${level.close}"; ${found()}`);
      at += 1;
      level.entries += 1;
      if (level.entries > bounds.maxEntries) return tooMuch(`one list has more than ${bounds.maxEntries} entries`);
      skip(SPACE);
      if (level.close === '}') {
        const key = readKey(level);
        if (!key.ok) return key;
      }
      break;
    }
  }
}
