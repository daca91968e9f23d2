import { runCommand } from './command/run.ts';

// Results go to stdout, talk to stderr, so that a result can be piped on.
process.exitCode = await runCommand(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
});
