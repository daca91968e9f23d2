import { isMainThread, workerData } from 'node:worker_threads';
import { meetPerson } from './command/ask.ts';
import { serveChecks } from './command/check/threads.ts';
import { EXIT, type Streams } from './command/command.ts';
import { runCommand } from './command/run.ts';
import { say } from './core/language/say.ts';
import { sayWhyUnwritten } from './files/write.ts';

const { NO_COLOR, TERM } = process.env; // see no-color.org

// Results go to stdout, talk to stderr, so that a result can be piped on.
const person = meetPerson();
const streams: Streams = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  input: readStandardInput,
  ...(process.stdin.isTTY && process.stderr.isTTY && { ask: person.ask }),
  colour: process.stdout.isTTY && !NO_COLOR && TERM !== 'dumb',
  progress: process.stderr.isTTY && TERM !== 'dumb',
  program: __filename,
};

async function readStandardInput(): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks).toString('utf8');
}

/**
 * Whoever reads the result may have seen enough, as `head` does; that is no fault of anybody. A result that cannot be
 * written, as on a disk that is full, is one, and must not pass for findings.
 */
function endWhenResultIsNotTaken(): void {
  process.stdout.on('error', (failure: NodeJS.ErrnoException) => {
    if (failure.code === 'EPIPE') process.exit();
    streams.err(`fettle: ${say`the result cannot be written: ${sayWhyUnwritten(failure)}.`}\n`);
    process.exit(EXIT.cannot);
  });
}

function isCheckThread(data: unknown): boolean {
  return typeof data === 'object' && data !== null && 'work' in data && data.work === 'check';
}

if (isMainThread) {
  endWhenResultIsNotTaken();
  void runCommand(process.argv.slice(2), streams).then((code) => {
    person.close();
    process.exitCode = code;
  });
} else if (isCheckThread(workerData)) serveChecks();
