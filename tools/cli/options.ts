import { type ParseArgsConfig, parseArgs } from 'node:util';
import { InputError } from './inputError.ts';

/** Exactly one positional argument and the given options; anything else is an {@link InputError} that shows `usage`. */
export function parseCommandLine<const T extends NonNullable<ParseArgsConfig['options']>>(
  args: readonly string[],
  options: T,
  usage: string,
) {
  const parsed = parseOrExplain(args, options, usage);
  const [file, ...rest] = parsed.positionals;
  if (file === undefined) throw new InputError(`no setup file given; use: ${usage}`);
  if (rest.length > 0)
    throw new InputError(`one setup file at a time, found also "${rest.join('", "')}"; use: ${usage}`);
  return { file, values: parsed.values };
}

/** One positional argument or more, and the given options. */
export function parseFilesAndOptions<const T extends NonNullable<ParseArgsConfig['options']>>(
  args: readonly string[],
  options: T,
  usage: string,
) {
  const { positionals, values } = parseOrExplain(args, options, usage);
  if (positionals.length === 0) throw new InputError(`no file given; use: ${usage}`);
  return { files: positionals, values };
}

function parseOrExplain<const T extends NonNullable<ParseArgsConfig['options']>>(
  args: readonly string[],
  options: T,
  usage: string,
) {
  try {
    return parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
  } catch (error) {
    const reason = error instanceof Error ? (error.message.split(/[.\n]/)[0] ?? '') : String(error);
    throw new InputError(`${reason}; use: ${usage}`);
  }
}

/** Whole number of `min` to `max` from an option's text; undefined stays undefined. */
export function wholeNumber(flag: string, text: string | undefined, min: number, max: number): number | undefined {
  if (text === undefined) return undefined;
  const value = /^\d+$/.test(text) ? Number(text) : Number.NaN;
  if (!(value >= min && value <= max)) {
    throw new InputError(`${flag} ${text}: give a whole number from ${min} to ${max}`);
  }
  return value;
}

/** Number over 0, up to `max`, from an option's text; undefined stays undefined. */
export function positiveNumber(flag: string, text: string | undefined, max: number): number | undefined {
  if (text === undefined) return undefined;
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (!(value > 0 && value <= max)) throw new InputError(`${flag} ${text}: give a number over 0, up to ${max}`);
  return value;
}
