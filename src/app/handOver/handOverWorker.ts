/// <reference lib="webworker" />
import type { HandOverReply, HandOverRequest } from './handOverProtocol.ts';
import { makeHandOver } from './makeHandOver.ts';

const reply = (message: HandOverReply): void => self.postMessage(message);

/* Lives for one file: the page starts it when something is asked for and ends it when the file is there. */
self.addEventListener('message', ({ data }: MessageEvent<HandOverRequest>) => {
  makeHandOver(data).then(
    (file) => reply({ type: 'file', file }),
    (error: unknown) => reply({ type: 'failure', message: error instanceof Error ? error.message : String(error) }),
  );
});
