import { runCommand } from './command/run.ts';

// Results go to stdout, talk to stderr, so that a result can be piped on.
const streams = {
  out: (text: string) => void process.stdout.write(text),
  err: (text: string) => void process.stderr.write(text),
};
void runCommand(process.argv.slice(2), streams).then((code) => {
  process.exitCode = code;
});
