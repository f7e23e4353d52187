const QUIET_S = 5;

/** One line that is written over on a terminal; elsewhere a new line now and then. */
export function createProgressLine(stream: NodeJS.WriteStream): {
  show(text: string, elapsedS: number): void;
  end(): void;
} {
  let lastS = -QUIET_S;
  let held = '';
  return {
    show(text, elapsedS) {
      if (stream.isTTY) {
        stream.write(`\r\x1b[K${text}`);
        held = text;
      } else if (elapsedS - lastS >= QUIET_S) {
        stream.write(`${text}\n`);
        lastS = elapsedS;
        held = '';
      } else {
        held = text;
      }
    },
    end() {
      if (stream.isTTY || held !== '') stream.write(stream.isTTY ? '\n' : `${held}\n`);
      held = '';
    },
  };
}

/** Grain of a picture: error of a pixel against the mean of the frame. */
export function describeGrain(relative: number): string {
  return Number.isFinite(relative) ? `estimated error ${(100 * relative).toFixed(1)} %` : 'error not known yet';
}
