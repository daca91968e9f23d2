import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { ROOT } from '../support/lsp-client.ts';
import { makeMachine, readPanelSheet } from './machines.ts';
import { readUse, type Use } from './use.ts';

const CLI = path.join(ROOT, 'dist/cli.cjs');
const LINES = 300;
/** Half of the definitions name the sheet of one folder, half that of another: shared sheets, but not one for all. */
const SHOPS = ['north', 'south'];

/** What one run of `fettle check` over many machines took. */
export interface ManyChecked {
  readonly files: number;
  readonly lines: number;
  readonly seconds: number;
  /** Time of the processors, all threads together; undefined where the system does not tell. */
  readonly processor: number | undefined;
  /** The most memory that the process had at once, in MB; undefined where the system does not tell. */
  readonly peak: number | undefined;
}

/** Checks so many generated definitions by one command, on two threads whatever the machine, so that memory can be compared. */
export async function checkMany(files: number): Promise<ManyChecked> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'fettle-many-'));
  try {
    const lines = writeMachines(folder, files);
    const from = performance.now();
    const used = await run(folder);
    return {
      files,
      lines,
      seconds: (performance.now() - from) / 1000,
      processor: used?.processor,
      peak: used?.peak,
    };
  } finally {
    fs.rmSync(folder, { recursive: true });
  }
}

/** Writes machines that differ in their wires, and the sheets that they share. Gives how many lines one has. */
function writeMachines(folder: string, files: number): number {
  for (const shop of SHOPS) {
    fs.mkdirSync(path.join(folder, shop, 'sheets'), { recursive: true });
    fs.writeFileSync(path.join(folder, shop, 'sheets/four-axis-bench-panel.part.yaml'), readPanelSheet());
  }
  const texts = [1, 2, 3, 4, 5].map((seed) => makeMachine(LINES, seed));
  for (let index = 0; index < files; index++) {
    const text = (texts[index % texts.length] ?? '').replace(/^machine:.*/m, `machine: Number ${index}`);
    // Lengths differ from file to file, so that nothing is the same text twice.
    const own = text.replaceAll('length: 0.5 m', `length: 0.5${index} m`);
    fs.writeFileSync(path.join(folder, SHOPS[index % SHOPS.length] ?? '', `${index}.machine.yaml`), own);
  }
  return (texts[0] ?? '').split('\n').length;
}

function run(folder: string): Promise<Use | undefined> {
  return new Promise((done, failed) => {
    const child = spawn(
      process.execPath,
      [CLI, 'check', '*/*.machine.yaml', '--format', 'json', '--threads', '2'],
      {
        cwd: folder,
        stdio: ['ignore', 'ignore', 'pipe'],
      },
    );
    let err = '';
    let used: Use | undefined;
    child.stderr.on('data', (data: Buffer) => {
      err += data.toString();
    });
    const watch = setInterval(() => {
      used = readUse(child.pid) ?? used;
    }, 50);
    child.on('error', failed);
    child.on('close', (code) => {
      clearInterval(watch);
      if (code === 2 || !/files checked/.test(err))
        failed(new Error(`fettle check ended with ${code}: ${err.slice(0, 500)}`));
      else done(used);
    });
  });
}
