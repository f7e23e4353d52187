/** Something that the person at the keyboard can mend; shown as one line, exit status 2. */
export class InputError extends Error {
  override readonly name = 'InputError';
}

/** Runs a command line: its status on success, 2 with one line on stderr for bad input; anything else is a crash. */
export async function runCommand(name: string, command: () => Promise<number>): Promise<void> {
  try {
    process.exitCode = await command();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    process.stderr.write(`${name}: ${error.message.replace(/\s*\n\s*/g, ' ')}\n`);
    process.exitCode = 2;
  }
}
