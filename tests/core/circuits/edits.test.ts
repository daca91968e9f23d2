import { expect, it } from 'vitest';
import { circuitsOf } from '../../../server/core/circuits/solve/solved.ts';
import type { Verdict } from '../../../server/core/circuits/solve/verdict.ts';
import { createFettle, type Fettle } from '../../../server/core/fettle.ts';
import { readPanelSheet } from '../../bench/machines.ts';
import { readExample } from '../../support/example.ts';
import { type Random, randomFrom } from '../../support/random.ts';
import { worldOf } from '../../support/world.ts';
import { BENCH_PARTS, benchMachine } from './bench-parts.ts';
import { SHEETS, withSheets } from './call-otherwise.ts';
import { inputOf } from './machines.ts';
import { solvedAnew, solvedOf } from './plain.ts';
import { randomMachine } from './random-machine.ts';

/*
 * Small machines whose wiring is changed link by link, each version upon the one before: solving only what an edit touched
 * gives what solving everything would have given. They are wired at random, so that their supplies are joined, shorted and
 * parted far more often than in a machine that somebody means to build.
 */

const MACHINES = 24;
const EDITS = 20;

const open = () => createFettle(worldOf(new Map()));

/** Changes one link of a machine, or how a part of it is set. */
function edit(lines: string[], random: Random): void {
  const wiring = lines.indexOf('wiring:') + 1;
  const links = lines.length - 1 - wiring;
  const at = wiring + random.below(Math.max(1, links));
  const ends = lines.flatMap((line) => line.match(/p\d\.[\w+-]+/g) ?? []);
  const end = () => random.oneOf(ends);
  switch (random.below(5)) {
    case 0:
      if (links > 2) lines.splice(at, 1);
      break;
    case 1:
      lines.splice(at, 0, `  - ${end()} -> ${end()}`);
      break;
    case 2:
      lines.splice(
        at,
        0,
        `  - { link: ${end()} -> ${end()}, wire: 0.5 mm2, length: ${1 + random.below(9)} m }`,
      );
      break;
    case 3:
      lines[at] = (lines[at] ?? '').replace(/-> p\d\.[\w+-]+/, `-> ${end()}`);
      break;
    default: {
      const part = 2 + random.below(wiring - 3);
      lines[part] = turn(lines[part] ?? '');
    }
  }
}

/** Turns what a part is at rest, or the voltage of a supply. */
function turn(line: string): string {
  if (line.includes('rest: open')) return line.replace('rest: open', 'rest: closed');
  if (line.includes('rest: closed')) return line.replace('rest: closed', 'rest: open');
  return line.includes('voltage: 24 V')
    ? line.replace('voltage: 24 V', 'voltage: 12 V')
    : line.replace('voltage: 12 V', 'voltage: 24 V');
}

it.each(Array.from({ length: MACHINES }, (_, seed) => seed + 1))(
  'small machine %i is solved after each edit as if it were new',
  (seed) => {
    const random = randomFrom(seed);
    const file = 'm.machine.yaml';
    const lines = randomMachine(random).split('\n');
    const fettle = open();
    fettle.analyse(file, lines.join('\n'));
    for (let each = 0; each < EDITS; each++) {
      edit(lines, random);
      const text = lines.join('\n');
      expect(solvedOf(fettle, file, text), text).toEqual(solvedAnew(open(), file, text));
    }
  },
);

it('does not find the faults again of inputs that a link had nothing to do with', () => {
  const fettle = createFettle(
    worldOf(new Map([['sheets/four-axis-bench-panel.part.yaml', readPanelSheet()]])),
  );
  const faultsOf = (text: string) => {
    const analysis = fettle.analyse('gantry-router.machine.yaml', text);
    if (analysis.kind !== 'machine') throw new Error('not read as a machine');
    return circuitsOf(analysis.machine).faults.flatMap(({ rows }) => rows);
  };
  const text = readExample();
  const before = new Set(faultsOf(text).map(({ fault }) => fault));
  const after = faultsOf(text.replace(/\n.*near-x\.C1.*/, ''));
  const nameOf = ({ input: { at } }: (typeof after)[number]) => `${at.part.name}.${at.circuit.name}`;
  const kept = new Set(after.filter(({ fault }) => before.has(fault)).map(nameOf));
  const anew = new Set(after.filter(({ fault }) => !before.has(fault)).map(nameOf));
  // The switches of the axes are fed from one strip; what has nothing to do with it stays as it was found.
  expect([...anew]).toContain('panel.x-far');
  expect([...kept]).toEqual(expect.arrayContaining(['panel.wheel-a', 'panel.start', 'drive-x.pulse']));
});

it.each([
  ['into use', 'use: off', 'use: on'],
  ['out of use', 'use: on', 'use: off'],
  ['to the other sense', 'sense: on-when-closed', 'sense: on-when-open'],
])('judges the faults of an input anew that comes %s', (_, before, after) => {
  const file = 'm.machine.yaml';
  // Two wires to each terminal, so that no single break is felt. The sheet is a file of its own, so that it stays the same.
  const links = ['reader.S24 -> open.A', 'open.B -> reader.DN'];
  const machineWith = (set: string) =>
    benchMachine(['psu', 'open'], [...links, ...links]).replace(
      'wiring:',
      `  reader: { sheet: reader.part.yaml, set: { ${set} } }\nwiring:`,
    );
  const world = worldOf(new Map([['reader.part.yaml', `{ part: Reader, ${BENCH_PARTS.reader.slice(1)}\n`]]));
  const fettle = createFettle(world);
  const faultsOf = (text: string) => solvedOf(fettle, file, text).faults;
  const was = faultsOf(machineWith(before));
  const is = faultsOf(machineWith(after));
  expect(is).not.toEqual(was);
  expect(is).toEqual(solvedAnew(createFettle(world), file, machineWith(after)).faults);
});

it('tells anew what the loss of a supply does where others no longer stand in for it', () => {
  // Two of 12 V upon one another beside one of 24 V; without the lower one the upper one holds nothing by itself.
  const links = [
    'psu.V- -> reader.S0',
    'psu.V+ -> closed.A',
    'closed.B -> reader.DN',
    'high.V+ -> psu.V+',
    'low.V- -> psu.V-',
    'low.V+ -> high.V-',
  ];
  const machineWith = (wired: readonly string[]) =>
    benchMachine(
      [['low', 'psu48'], ['high', 'psu48'], 'psu', ['reader', 'reader', 'sense: on-when-open'], 'closed'],
      wired,
    ).replaceAll('48 V', '12 V');
  const lossesOf = lossesOfPsu(open());
  expect(lossesOf(machineWith(links))).toEqual([]);
  expect(lossesOf(machineWith(links.slice(0, -1)))).toEqual(['at-once']);
  expect(lossesOf(machineWith(links))).toEqual([]);
});

it('tells anew what the loss of a supply does where one between others comes to be called otherwise', () => {
  // Up by 48 V, down by 48 V and up by 24 V stand in for the one of 24 V; the one in the middle has no rail with it in common.
  const text = withSheets(
    benchMachine(
      [['up', 'psu48'], ['top', 'psu'], 'psu', 'reader', 'closed', ['down', 'psu48']],
      [
        'psu.V- -> reader.S0',
        'psu.V+ -> closed.A',
        'closed.B -> reader.DN',
        'up.V- -> psu.V-',
        'down.V+ -> up.V+',
        'top.V- -> down.V-',
        'top.V+ -> psu.V+',
      ],
    ).replace(BENCH_PARTS.reader, '{ sheet: reader.part.yaml, set: { sense: on-when-open } }'),
  );
  const lossesOf = lossesOfPsu(createFettle(worldOf(SHEETS)));
  expect(lossesOf(text)).toEqual([]);
  expect(lossesOf(text.replace('down:', 'downwards:'))).toEqual(['at-once']);
  expect(lossesOf(text)).toEqual([]);
});

/** What the loss of the supply `psu` does to the inputs of one text after another. */
function lossesOfPsu(fettle: Fettle): (text: string) => readonly Verdict[] {
  return (text) => {
    const analysis = fettle.analyse('m.machine.yaml', text);
    if (analysis.kind !== 'machine') throw new Error('not read as a machine');
    return circuitsOf(analysis.machine)
      .faults.flatMap(({ rows }) => rows)
      .flatMap(({ fault, verdict }) =>
        fault.kind === 'supply-lost' && fault.supply.at.part.name === 'psu' ? [verdict] : [],
      );
  };
}

it('solves a machine anew where a sheet is edited and its own text is not', () => {
  const file = 'm.machine.yaml';
  const sheet = (rest: string) =>
    `part: Switch\nclass: switch\nterminals: { all: [A, B] }\ncircuits: { contact: { contact: [A, B], rest: ${rest} } }\n`;
  const text = benchMachine(['reader'], ['reader.S24 -> stop.A', 'stop.B -> reader.DN']).replace(
    'wiring:',
    '  stop: { sheet: switch.part.yaml }\nwiring:',
  );
  const files = new Map([['switch.part.yaml', sheet('open')]]);
  const fettle = createFettle(worldOf(files));
  const levelOf = () => {
    const analysis = fettle.analyse(file, text);
    if (analysis.kind !== 'machine') throw new Error('not read as a machine');
    return inputOf(circuitsOf(analysis.machine).solved, 'reader.down').rest.level;
  };
  expect(levelOf()).toBe('off');
  files.set('switch.part.yaml', sheet('closed'));
  expect(levelOf()).toBe('on');
});
