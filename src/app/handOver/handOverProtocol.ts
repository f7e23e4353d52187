import type { Camera } from '../../camera/records.ts';
import type { Setup } from '../../document/setup.ts';
import type { Film } from '../../transport/contracts.ts';
import type { HandOverKind } from '../../views/session/index.ts';

/** The picture on screen as light, with what it is developed by. */
export interface TracedPicture {
  readonly film: Film;
  /** Smoothed copy of the same film, if there is one. */
  readonly smooth?: Film;
  /** layers x 3, working RGB. */
  readonly layerGains: Float32Array;
  readonly camera: Camera;
}

export interface HandOverRequest {
  readonly kind: HandOverKind;
  readonly setup: Setup;
  readonly frameId: string;
  /** YYYY-MM-DD, as it is printed. */
  readonly date: string;
  /** For a client page only. */
  readonly picture?: TracedPicture;
  readonly fontWoff2?: Uint8Array;
}

export interface HandOverFile {
  readonly fileName: string;
  readonly mimeType: string;
  readonly content: string | Uint8Array;
}

export type HandOverReply =
  | { readonly type: 'file'; readonly file: HandOverFile }
  | { readonly type: 'failure'; readonly message: string };
