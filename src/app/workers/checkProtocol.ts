import type { Finding } from '../../analysis/contracts.ts';
import type { CheckSettings } from '../../document/checkSettings.ts';
import type { FrameScene } from '../../scene/setModel.ts';
import type { World } from '../../transport/contracts.ts';

/** One frame to build and check. The worker answers with the world when that is new, then the result or a failure. */
export interface CheckRequest {
  readonly jobId: number;
  /** Trace key of `scene`: the world is built again only when it differs from the last one. */
  readonly key: string;
  readonly scene: FrameScene;
  /** Limits, marks, room and capture that the document states for this frame. */
  readonly settings: CheckSettings;
  /** False while something is held: finding remedies takes longer than finding faults. */
  readonly remedies: boolean;
}

export type CheckReply =
  | { readonly type: 'world'; readonly jobId: number; readonly key: string; readonly world: World }
  | {
      readonly type: 'result';
      readonly jobId: number;
      readonly findings: readonly Finding[];
      readonly figures: Readonly<Record<string, unknown>>;
    }
  /** A newer request came in before the end of this one. */
  | { readonly type: 'stopped'; readonly jobId: number }
  | { readonly type: 'failure'; readonly jobId: number; readonly message: string };
