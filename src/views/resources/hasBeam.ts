import type { Fixture } from '../../fixtures/records.ts';

/** Does a light go one way? Bare bulbs, lanterns and balls shine all round and have no beam to draw. */
export function hasBeam(fixture: Fixture): boolean {
  switch (fixture.kind) {
    case 'lantern':
      return false;
    case 'bulb':
      return fixture.snoot !== undefined;
    case 'measured':
      return fixture.opening.shape !== 'sphere';
    default:
      return true;
  }
}
