import type { Setup } from '../../document/setup.ts';

/** The name itself, or the name with the first free number after it. */
export function freeName(setup: Setup, name: string): string {
  const taken = new Set([...setup.pieces, ...setup.fixtures, ...setup.grip].map((record) => record.name));
  const stem = name.replace(/ \d+$/, '');
  if (!taken.has(name)) return name;
  let number = 2;
  while (taken.has(`${stem} ${number}`)) number += 1;
  return `${stem} ${number}`;
}
