import { invariant } from '../core/result.ts';
import { SETUP_FORMAT, SETUP_FORMAT_VERSION, type Setup } from './setup.ts';
import { validateSetup } from './validate.ts';

/** A setup that the program writes itself: what is left out takes its default, and a fault in it is the program's own. */
export function soundSetup(parts: object): Setup {
  const setup = validateSetup({ format: SETUP_FORMAT, formatVersion: SETUP_FORMAT_VERSION, ...parts });
  invariant(setup.ok, () => (setup.ok ? '' : setup.error.map((issue) => issue.message).join(' ')));
  return setup.value;
}
