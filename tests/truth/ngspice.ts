import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';

/** A circuit as SPICE text, and the nodes whose voltages are asked for. */
export interface Deck {
  readonly text: string;
  readonly nodes: readonly string[];
}

const PER_RUN = 250;

/**
 * Solves decks with ngspice (Debian package `ngspice`), many in one process.
 * @returns for each deck the voltages by node; a node that ngspice gives no figure for is missing
 */
export function runNgspice(decks: readonly Deck[]): Map<string, number>[] {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'ngspice-'));
  try {
    const results: Map<string, number>[] = [];
    for (let from = 0; from < decks.length; from += PER_RUN)
      results.push(...runBatch(folder, decks.slice(from, from + PER_RUN)));
    return results;
  } finally {
    fs.rmSync(folder, { recursive: true, force: true });
  }
}

function runBatch(folder: string, decks: readonly Deck[]): Map<string, number>[] {
  const commands = decks.flatMap(({ text, nodes }, index) => {
    const file = path.join(folder, `${index}.cir`);
    fs.writeFileSync(file, text);
    const wanted = nodes.map((node) => `v(${node})`).join(' ');
    return [`source ${file}`, 'op', `echo DECK ${index}`, `print ${wanted}`, 'remcirc'];
  });
  const main = path.join(folder, 'main.cir');
  fs.writeFileSync(
    main,
    ['* all decks', '.control', 'set numdgt=14', ...commands, 'quit', '.endc', '.end', ''].join('\n'),
  );
  // Tighter than its defaults, so that what differs is not its own tolerance.
  fs.writeFileSync(
    path.join(folder, '.spiceinit'),
    'option reltol=1e-7\noption abstol=1e-14\noption vntol=1e-9\n',
  );
  const printed = execFileSync('ngspice', ['-b', main], {
    cwd: folder,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  return readPrinted(printed, decks.length);
}

function readPrinted(printed: string, count: number): Map<string, number>[] {
  const results = Array.from({ length: count }, () => new Map<string, number>());
  let current: Map<string, number> | undefined;
  for (const line of printed.split('\n')) {
    const deck = /^DECK (\d+)/.exec(line);
    if (deck) current = results[Number(deck[1])];
    const value = /^v\((\w+)\) = (\S+)/.exec(line);
    if (value?.[1] !== undefined) current?.set(value[1], Number(value[2]));
  }
  return results;
}

/** Whether two figures agree within 1 % or 1 mV, whichever is larger; and how far they are apart. */
export function compare(ours: number, theirs: number | undefined): { agree: boolean; apart: number } {
  const apart = theirs === undefined ? Number.POSITIVE_INFINITY : Math.abs(ours - theirs);
  return { agree: apart <= Math.max(1e-3, 0.01 * Math.abs(theirs ?? 0)), apart };
}
