import { afterEach, describe, expect, it } from 'vitest';
import { emptySetup } from '../../../src/document/defaults.ts';
import { FIXTURE_PRESETS, fixtureFromPreset } from '../../../src/fixtures/catalog.ts';
import {
  documentStore,
  getCameraView,
  getFrameScene,
  getLayerGains,
  getSetModel,
  INITIAL_SESSION,
  sessionStore,
  updateRecord,
} from '../../../src/views/session/index.ts';

const light = (id: string) =>
  fixtureFromPreset(FIXTURE_PRESETS[0], { id, name: id, positionM: [0.5, 0.6, 0], aimM: [0, 0.1, 0] });

function openTwoLights(): void {
  documentStore.load({ ...emptySetup(), fixtures: [light('a'), light('b')] });
}

afterEach(() => sessionStore.setState(INITIAL_SESSION));

describe('what follows from the document', () => {
  it('keeps the set model when a dimmer, a colour or the shutter changes, since nothing on the set has moved', () => {
    openTwoLights();
    const before = getSetModel();
    documentStore.apply('dim', [updateRecord('fixtures', 'a', { dimStops: -2, cctK: 3200, on: false })]);
    documentStore.apply('shutter', [updateRecord('camera', 'frame:1', { shutterS: 0.01, iso: 800 })]);
    expect(getSetModel()).toBe(before);
  });

  it('builds the set anew when a light is moved by 1 cm', () => {
    openTwoLights();
    const before = getSetModel();
    documentStore.apply('move', [updateRecord('fixtures', 'a', { positionM: [0.51, 0.6, 0] })]);
    expect(getSetModel()).not.toBe(before);
  });

  it('keeps the camera view when a light moves', () => {
    openTwoLights();
    const before = getCameraView();
    documentStore.apply('move', [updateRecord('fixtures', 'a', { positionM: [0.52, 0.6, 0] })]);
    expect(getCameraView()).toBe(before);
  });

  it('gives the same scene object for the same document and frame', () => {
    openTwoLights();
    expect(getFrameScene()).toBe(getFrameScene());
  });
});

describe('solo', () => {
  it('leaves the gain of the soloed light alone and takes the other to 0', () => {
    openTwoLights();
    const open = getLayerGains().slice();
    sessionStore.setState({ soloFixtureIds: ['b'] });
    const soloed = getLayerGains();
    expect([...soloed.slice(0, 3)]).toEqual([0, 0, 0]);
    expect([...soloed.slice(3)]).toEqual([...open.slice(3)]);
    expect(open[0]).toBeGreaterThan(0);
  });

  it('does nothing when the soloed light is not in this frame', () => {
    openTwoLights();
    const open = [...getLayerGains()];
    sessionStore.setState({ soloFixtureIds: ['gone'] });
    expect([...getLayerGains()]).toEqual(open);
  });
});
