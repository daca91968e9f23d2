import { spawn } from 'node:child_process';
import path from 'node:path';
import { runCommand } from '../../server/command/run.ts';
import { ROOT } from './lsp-client.ts';

export { makeFolder, writeFile } from './folder.ts';

export const CLI = path.join(ROOT, 'dist/cli.cjs');

/** What a run of the command line gave. */
export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs the command line in this process. */
export async function runHere(args: readonly string[], input = '', colour = false): Promise<Ran> {
  let [out, err] = ['', ''];
  const streams = {
    out: (text: string) => {
      out += text;
    },
    err: (text: string) => {
      err += text;
    },
    input: () => Promise.resolve(input),
    colour,
  };
  return { code: await runCommand(args, streams), out, err };
}

/** Runs a program in a folder, to its end. */
export function runProgram(
  program: string,
  args: readonly string[],
  cwd: string,
  { env = {}, input = '' }: { readonly env?: NodeJS.ProcessEnv; readonly input?: string } = {},
): Promise<Ran> {
  return new Promise((done, failed) => {
    const child = spawn(program, [...args], { cwd, env: { ...process.env, ...env }, timeout: 60_000 });
    let [out, err] = ['', ''];
    child.stdout.on('data', (data: Buffer) => (out += data.toString()));
    child.stderr.on('data', (data: Buffer) => (err += data.toString()));
    child.on('error', failed);
    child.on('close', (code) => done({ code: code ?? -1, out, err }));
    child.stdin.on('error', () => undefined); // it may end without reading
    child.stdin.end(input);
  });
}

/** Runs the built command line in a folder, in a process of its own. */
export const runCli = (args: readonly string[], cwd: string, input = ''): Promise<Ran> =>
  runProgram(process.execPath, [CLI, ...args], cwd, { input });

/** Runs git in a folder, for nobody in particular; throws when it fails. */
export async function git(folder: string, ...args: readonly string[]): Promise<string> {
  const own = [
    '-c',
    'user.name=Nobody',
    '-c',
    'user.email=nobody@example.invalid',
    '-c',
    'init.defaultBranch=main',
  ];
  const ran = await runProgram('git', [...own, ...args], folder, { env: { GIT_CONFIG_GLOBAL: '/dev/null' } });
  if (ran.code !== 0) throw new Error(`git ${args.join(' ')}: ${ran.err}`);
  return ran.out;
}
