/** Something that the person at the keyboard can mend; shown as one line, exit status 2. */
export class InputError extends Error {
  override readonly name = 'InputError';
}

/** Status of a mistake of the program itself, so that nobody takes it for an answer (sysexits.h, EX_SOFTWARE). */
const CRASH_STATUS = 70;

/** Runs a command line: its own status, 2 with one line on stderr for bad input, 70 with the trace when it breaks. */
export async function runCommand(name: string, command: () => Promise<number>): Promise<void> {
  try {
    process.exitCode = await command();
  } catch (error) {
    if (error instanceof InputError) {
      process.stderr.write(`${name}: ${error.message.replace(/\s*\n\s*/g, ' ')}\n`);
      process.exitCode = 2;
    } else {
      console.error(error);
      process.exitCode = CRASH_STATUS;
    }
  }
}
