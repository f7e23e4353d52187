import { setConsoleFunction } from 'three';

let quiet = false;

/**
 * Keeps one notice of three out of the console: r3f still makes a clock that three has renamed, once per canvas, and
 * nothing here can mend that. All else three has to say is passed on.
 */
export function quietThree(): void {
  if (quiet) return;
  quiet = true;
  setConsoleFunction((type: 'log' | 'warn' | 'error', message: string, ...rest: unknown[]) => {
    if (message.startsWith('THREE.Clock: This module has been deprecated')) return;
    console[type](message, ...rest);
  });
}
