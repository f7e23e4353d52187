/// <reference lib="webworker" />
/** Entry of a browser worker that smooths films, so that the page stays free meanwhile. */
import type { Film } from '../contracts.ts';
import { denoiseFilm } from '../cpu/denoiseFilm.ts';

export interface DenoiseRequest {
  readonly id: number;
  readonly film: Film;
  readonly layerGains: Float32Array;
}

export interface DenoiseAnswer {
  readonly id: number;
  readonly film: Film;
}

const scope = self as unknown as DedicatedWorkerGlobalScope;
scope.onmessage = (event: MessageEvent<DenoiseRequest>) => {
  const { id, film, layerGains } = event.data;
  const answer: DenoiseAnswer = { id, film: denoiseFilm(film, layerGains) };
  scope.postMessage(
    answer,
    answer.film.layers.map((layer) => layer.buffer as ArrayBuffer),
  );
};
