import type { Setup } from '../../document/setup.ts';
import type { TracedJob, TracedProgress } from '../../views/session/index.ts';
import type { HandOverFile } from './handOverProtocol.ts';

export interface TracedRequest {
  readonly job: TracedJob;
  readonly setup: Setup;
  readonly frameId: string;
  /** The setup as it was opened, to lay beside what has become of it. */
  readonly before: Setup;
  /** YYYY-MM-DD, as it is printed. */
  readonly date: string;
  readonly fontWoff2?: Uint8Array;
}

export type TracedReply =
  | { readonly type: 'progress'; readonly progress: TracedProgress }
  | { readonly type: 'file'; readonly file: HandOverFile }
  | { readonly type: 'failure'; readonly message: string };
