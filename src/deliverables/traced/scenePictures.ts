import { cameraView } from '../../camera/projection.ts';
import { layerGains } from '../../fixtures/gain.ts';
import { buildSet } from '../../scene/buildSet.ts';
import type { FrameScene } from '../../scene/setModel.ts';
import { compileWorld } from '../../transport/compile/compileWorld.ts';
import type { Film, TraceJob } from '../../transport/contracts.ts';
import { denoiseFilm } from '../../transport/cpu/denoiseFilm.ts';
import { composeFilm } from '../../transport/cpu/film.ts';
import type { FramePicture } from '../contactSheet/contactSheet.ts';
import type { FrameSet } from '../frameSet.ts';
import { type PictureFacts, traceFactsOf } from '../image/pictureFacts.ts';
import { writePng } from '../image/png.ts';
import { developedRgb8, type LightImage } from '../still/developedPixels.ts';
import { buildUpSteps } from './buildUpSteps.ts';
import { mergeMoments } from './mergeMoments.ts';

/** Traces a job on whatever the host has: threads of Node or workers of the page. `what` names it for progress. */
export type TraceScene = (job: TraceJob, what: string) => Promise<Film>;

export interface PictureSettings {
  readonly widthPx: number;
  readonly samples: number;
  readonly seed: number;
  /** Takes the grain out; true when left out. */
  readonly smooth?: boolean;
  readonly programVersion?: string;
}

/** A frame as light, with what its file says of it. */
export interface TracedPicture {
  readonly light: LightImage;
  readonly facts: PictureFacts;
}

/** One picture of the build-up of the light. */
export interface BuildUpPicture {
  readonly name: string;
  readonly png: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface ScenePictures {
  /** The frame as light; traced once however often it is asked for. */
  lightOf(frameSet: FrameSet): Promise<TracedPicture>;
  /** The frame as the camera shows it, PNG. */
  ofFrame(frameSet: FrameSet): Promise<FramePicture>;
  /** Every light alone and then together with those before it: sums over the layers of one and the same film. */
  buildUpOf(frameSet: FrameSet): Promise<BuildUpPicture[]>;
  /** One exposure over several moments of a scene that moves, each for an equal part of the time. */
  ofMoments(scenes: readonly FrameScene[], what: string): Promise<{ light: LightImage; film: Film }>;
}

const MAX_DEPTH = 24;

/** Height that goes with a width in the shape of the sensor. */
export const pictureHeightPx = (widthPx: number, camera: FrameScene['camera']): number =>
  Math.max(1, Math.round((widthPx * camera.sensorHeightMm) / camera.sensorWidthMm));

/** Pictures of frames by the tracer of the host. Films are kept for as long as the maker lives. */
export function createScenePictures(trace: TraceScene, settings: PictureSettings): ScenePictures {
  const { widthPx, samples, seed, smooth = true, programVersion } = settings;
  const films = new Map<FrameSet, Promise<Film>>();
  const pictures = new Map<FrameSet, Promise<FramePicture>>();

  const filmOf = (scene: FrameScene, samplesPerPixel: number, ownSeed: number, what: string): Promise<Film> => {
    const heightPx = pictureHeightPx(widthPx, scene.camera);
    return trace(
      {
        world: compileWorld(buildSet(scene)),
        view: cameraView(scene.camera, widthPx / heightPx),
        widthPx,
        heightPx,
        seed: ownSeed,
        samplesPerPixel,
        maxDepth: MAX_DEPTH,
        layerGains: layerGains(scene.fixtures),
      },
      what,
    );
  };
  const shown = (film: Film, gains: Float32Array): Film => (smooth ? denoiseFilm(film, gains) : film);
  const lightFrom = (film: Film, gains: Float32Array): LightImage => ({
    widthPx: film.widthPx,
    heightPx: film.heightPx,
    rgb: composeFilm(film, gains),
  });

  const tracedOf = (frameSet: FrameSet): Promise<Film> => {
    const { scene, frame } = frameSet;
    const known = films.get(frameSet) ?? filmOf(scene, samples, seed, frame.name);
    films.set(frameSet, known);
    return known;
  };
  const factsOf = ({ setup, frame, scene }: FrameSet, film: Film): PictureFacts => ({
    setupTitle: setup.title,
    frameName: frame.name,
    camera: scene.camera,
    ...traceFactsOf(film),
    smoothed: smooth,
    ...(programVersion === undefined ? {} : { programVersion }),
  });
  const lightOf = async (frameSet: FrameSet): Promise<TracedPicture> => {
    const film = await tracedOf(frameSet);
    const gains = layerGains(frameSet.scene.fixtures);
    return { light: lightFrom(shown(film, gains), gains), facts: factsOf(frameSet, film) };
  };

  return {
    lightOf,
    ofFrame(frameSet) {
      const known =
        pictures.get(frameSet) ??
        lightOf(frameSet).then(({ light, facts }) => ({
          frameSet,
          png: writePng(developedRgb8(light, frameSet.scene.camera), facts),
          widthPx: light.widthPx,
          heightPx: light.heightPx,
        }));
      pictures.set(frameSet, known);
      return known;
    },
    async buildUpOf(frameSet) {
      const { scene } = frameSet;
      const film = await tracedOf(frameSet);
      // Smoothed once, by the picture as it is lit, so that the parts still add up to it.
      const layers = shown(film, layerGains(scene.fixtures));
      const facts = factsOf(frameSet, film);
      return buildUpSteps(frameSet).map(({ name, fixtures }) => {
        const light = lightFrom(layers, layerGains(fixtures));
        const png = writePng(developedRgb8(light, scene.camera), {
          ...facts,
          frameName: `${facts.frameName}, ${name}`,
        });
        return { name, png, widthPx: light.widthPx, heightPx: light.heightPx };
      });
    },
    async ofMoments(scenes, what) {
      const each = Math.max(1, Math.ceil(samples / scenes.length));
      const moments: Film[] = [];
      for (const [i, scene] of scenes.entries()) moments.push(await filmOf(scene, each, seed + i, what));
      const film = mergeMoments(moments);
      const gains = layerGains(scenes[0].fixtures);
      return { light: lightFrom(shown(film, gains), gains), film };
    },
  };
}
