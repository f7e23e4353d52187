import { describe, expect, it } from 'vitest';
import { LUMINANCE_WEIGHTS_REC2020 } from '../../../../src/core/color/spaces.ts';
import { composeFilm, createFilm } from '../../../../src/transport/cpu/film.ts';
import { layerNitsAt, lightShares } from '../../../../src/views/frame/overlays/lightShare.ts';

/** Two pixels, four samples each: the first lit 30 and 10 cd/m2 by two lights, the second by none. */
function twoLights() {
  const film = createFilm(2, 1, ['a', 'b']);
  film.samples.fill(4);
  film.layers[0].set([120, 120, 120]);
  film.layers[1].set([40, 40, 40]);
  return film;
}

describe('the share of one light', () => {
  it('is 3/4 and 1/4 of 30 and 10 cd/m2, and 0 where there is no light', () => {
    const gains = new Float32Array(6).fill(1);
    expect([...lightShares(twoLights(), gains, 0)]).toEqual([0.75, 0]);
    expect([...lightShares(twoLights(), gains, 1)]).toEqual([0.25, 0]);
  });

  it('follows dimmer and colour: with the first light at half and the second red, by CIE luminance', () => {
    const gains = Float32Array.of(0.5, 0.5, 0.5, 1, 0, 0);
    const red = 10 * LUMINANCE_WEIGHTS_REC2020[0];
    expect(lightShares(twoLights(), gains, 1)[0]).toBeCloseTo(red / (red + 15), 6);
  });

  it('is 0 for a light that is off or that the film does not know', () => {
    const gains = Float32Array.of(0, 0, 0, 1, 1, 1);
    expect(lightShares(twoLights(), gains, 0)[0]).toBe(0);
    expect(lightShares(twoLights(), gains, -1)[0]).toBe(0);
  });

  it('adds up to what the composed film shows: 30 and 10 of 40 cd/m2', () => {
    const gains = new Float32Array(6).fill(1);
    const film = twoLights();
    const sum = [0, 1].reduce((total, layer) => total + layerNitsAt(film, gains, layer, { u: 0.1, v: 0.5 }, 0), 0);
    expect(sum).toBeCloseTo(composeFilm(film, gains)[0], 4);
    expect(layerNitsAt(film, gains, 0, { u: 0.1, v: 0.5 }, 0)).toBeCloseTo(30, 4);
  });
});
