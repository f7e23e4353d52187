import { expect, test } from 'vitest';
import type { Action } from '../../../src/views/search/action.ts';
import { searchActions } from '../../../src/views/search/searchActions.ts';

const action = (name: string, part = 'Part'): Action => ({ id: name, name, part, run: () => {} });
const ACTIONS = [
  action('Line up left edges', 'Selection'),
  action('Show linear light', 'View'),
  action('Add Rosé wine', 'Drinks'),
  action('Softbox: solo', 'Lights'),
  action('Add Wine glass', 'Glasses'),
];
const names = (query: string) => searchActions(ACTIONS, query).map(({ name }) => name);

test('an empty query finds all, in their order', () => {
  expect(names('  ')).toEqual(ACTIONS.map(({ name }) => name));
});
test('names that begin with the words come before names that hold them', () => {
  expect(names('line')).toEqual(['Line up left edges', 'Show linear light']);
});
test('accents and case do not matter, every word must be there, and the part counts', () => {
  expect(names('ROSE wine')).toEqual(['Add Rosé wine']);
  expect(names('lights solo')).toEqual(['Softbox: solo']);
  expect(names('wine left')).toEqual([]);
});
