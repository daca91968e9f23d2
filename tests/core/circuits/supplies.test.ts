import { expect, it } from 'vitest';
import { circuitsOf } from '../../../server/core/circuits/solve/solved.ts';
import { createFettle, type Fettle } from '../../../server/core/fettle.ts';
import { type Random, randomFrom } from '../../support/random.ts';
import { worldOf } from '../../support/world.ts';
import { type BenchPart, benchMachine } from './bench-parts.ts';
import { SHEETS, wireOtherwise, withSheets } from './call-otherwise.ts';
import { solvedAnew, solvedOf } from './plain.ts';

/*
 * Switches that are fed by one of several supplies, which stand upon one another, beside one another or apart: their inputs
 * have faults, the loss of each supply among them. Whatever supplies come to be called or to give, and however they are
 * joined, that is solved as if the text were new.
 */

const MACHINES = 16;
const EDITS = 16;
const FILE = 'm.machine.yaml';

const open = () => createFettle(worldOf(SHEETS));

function faultsOf(fettle: Fettle, text: string) {
  const analysis = fettle.analyse(FILE, text);
  if (analysis.kind !== 'machine') throw new Error('not read as a machine');
  return circuitsOf(analysis.machine).faults;
}

/** Each of some cells has a supply, a switch and an input; the switch is fed by any of the supplies. */
function fedMachine(random: Random): string {
  const cells = Array.from({ length: 2 + random.below(3) }, (_, cell) => cell);
  const parts = cells.flatMap((cell): [string, BenchPart][] => [
    [`s${cell}`, random.oneOf(['psu', 'psu', 'psu48'])],
    [`r${cell}`, 'reader'],
    [`c${cell}`, random.oneOf(['open', 'closed'])],
  ]);
  const feeds = cells.flatMap((cell) => {
    const from = random.oneOf(cells);
    return [`s${from}.V+ -> c${cell}.A`, `c${cell}.B -> r${cell}.DN`, `s${from}.V- -> r${cell}.S0`];
  });
  const joins = Array.from({ length: 1 + random.below(3) }, () => {
    const [one, other] = [random.oneOf(cells), random.oneOf(cells)];
    const upon = [`s${one}.V+ -> s${other}.V-`];
    const beside = [`s${one}.V+ -> s${other}.V+`, `s${one}.V- -> s${other}.V-`];
    return one === other ? [] : random.oneOf([upon, beside, beside.slice(1)]);
  });
  return benchMachine(parts, [...feeds, ...joins.flat()]);
}

/** Sheets stand in files of their own, so that a name or a figure is all that an edit changes. */
function feedOtherwise(text: string, random: Random): string {
  const [name = ''] = random.oneOf([...text.matchAll(/(?<=^ {2})s\d+x?(?=:)/gm)]);
  const [line = ''] = new RegExp(`^  ${name}:.*$`, 'm').exec(text) ?? [];
  switch (random.below(4)) {
    case 0:
      return text.replace(line, line.replace(name, name.endsWith('x') ? name.slice(0, -1) : `${name}x`));
    case 1: {
      const volts = `set: { output-voltage: ${random.oneOf([22, 24, 26, 48])} V }`;
      const bare = line.replace(/, set: \{.*?\}/, '');
      return text.replace(line, bare.replace(/ \}$/, `, ${volts} }`));
    }
    default:
      return wireOtherwise(text, random);
  }
}

it.each(Array.from({ length: MACHINES }, (_, seed) => seed + 1))(
  'fed machine %i is solved as if it were new, whatever its supplies come to give and to be called',
  (seed) => {
    const random = randomFrom(seed);
    let text = withSheets(fedMachine(random));
    const fettle = open();
    fettle.analyse(FILE, text);
    for (let each = 0; each < EDITS; each++) {
      text = feedOtherwise(text, random);
      expect(solvedOf(fettle, FILE, text), text).toEqual(solvedAnew(open(), FILE, text));
    }
  },
);

it('the loss of a supply is among the faults of such machines', () => {
  const seeds = Array.from({ length: MACHINES }, (_, seed) => seed + 1);
  const losses = seeds.flatMap((seed) =>
    faultsOf(open(), withSheets(fedMachine(randomFrom(seed))))
      .flatMap(({ rows }) => rows)
      .filter(({ fault }) => fault.kind === 'supply-lost'),
  );
  expect(losses.length).toBeGreaterThan(MACHINES / 2);
});

it('solves only what hangs on a supply that comes to be called otherwise', () => {
  const cells = ['a', 'b', 'c'];
  const text = withSheets(
    benchMachine(
      cells.flatMap((cell): [string, BenchPart][] => [
        [`s${cell}`, 'psu'],
        [`r${cell}`, 'reader'],
        [`c${cell}`, 'closed'],
      ]),
      cells.flatMap((cell) => [
        `s${cell}.V+ -> c${cell}.A`,
        `c${cell}.B -> r${cell}.DN`,
        `s${cell}.V- -> r${cell}.S0`,
      ]),
    ),
  );
  const fettle = open();
  const before = new Set(faultsOf(fettle, text));
  expect(before.size).toBe(cells.length);
  const after = faultsOf(fettle, text.replace('  sb:', '  sbx:'));
  expect(after.map((faults) => [faults.input.at.part.name, before.has(faults)])).toEqual([
    ['ra', true],
    ['rc', true],
  ]);
});
