import { createInterface, type Interface } from 'node:readline';

/** A person at a terminal who can be asked. */
export interface Person {
  /** Asks and waits for a line; undefined when there will be none any more. */
  readonly ask: (prompt: string) => Promise<string | undefined>;
  /** Lets go of standard input, so that the program can end. */
  readonly close: () => void;
}

/** Asks on standard error, so that the result on standard output stays clean. Lines typed ahead answer later questions. */
export function meetPerson(): Person {
  const lines: string[] = [];
  const waiting: ((line: string | undefined) => void)[] = [];
  let [reader, isClosed]: [Interface | undefined, boolean] = [undefined, false];
  const open = (): void => {
    reader = createInterface({ input: process.stdin, output: process.stderr });
    reader.on('line', (line) => {
      const next = waiting.shift();
      if (next) next(line);
      else lines.push(line);
    });
    reader.on('close', () => {
      isClosed = true;
      for (const next of waiting) next(undefined);
    });
  };
  return {
    ask: (prompt) => {
      if (!reader) open();
      reader?.setPrompt(prompt);
      if (!isClosed) reader?.prompt();
      const ahead = lines.shift();
      if (ahead !== undefined || isClosed) return Promise.resolve(ahead);
      return new Promise((done) => waiting.push(done));
    },
    close: () => reader?.close(),
  };
}
