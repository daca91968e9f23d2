import { expect, it } from 'vitest';
import { circuitsOf } from '../../../server/core/circuits/solve/solved.ts';
import { createFettle } from '../../../server/core/fettle.ts';
import { randomFrom } from '../../support/random.ts';
import { worldOf } from '../../support/world.ts';
import { benchMachine } from './bench-parts.ts';
import { callOtherwise, SHEETS, withSheets } from './call-otherwise.ts';
import { solvedAnew, solvedOf } from './plain.ts';
import { randomMachine } from './random-machine.ts';

/*
 * Parts come to be called otherwise, letter by letter, or lose their sheets while the name of one is typed: terminals stay
 * where they were, and what does not touch them is taken over. It is what would have been solved of the text if it were
 * new, also where two parts exchange their names or their sheets.
 */

const MACHINES = 24;
const EDITS = 24;

const open = () => createFettle(worldOf(SHEETS));

it.each(Array.from({ length: MACHINES }, (_, seed) => seed + 1))(
  'small machine %i is solved as if it were new, whatever its parts and their sheets come to be called',
  (seed) => {
    const random = randomFrom(seed);
    const file = 'm.machine.yaml';
    let text = withSheets(randomMachine(random));
    expect(text).toContain('sheet: ');
    const fettle = open();
    fettle.analyse(file, text);
    for (let each = 0; each < EDITS; each++) {
      text = callOtherwise(text, random);
      expect(solvedOf(fettle, file, text), text).toEqual(solvedAnew(open(), file, text));
    }
  },
);

it('what does not touch a part that loses its sheet stays as it was solved', () => {
  let [lost, groups, kept] = [0, 0, 0];
  for (let seed = 1; seed <= MACHINES; seed++) {
    const text = withSheets(randomMachine(randomFrom(seed)));
    const fettle = open();
    const solve = (version: string) => {
      const analysis = fettle.analyse('m.machine.yaml', version);
      if (analysis.kind !== 'machine') throw new Error('not read as a machine');
      return circuitsOf(analysis.machine).solved;
    };
    const before = solve(text);
    const last = text.lastIndexOf('sheet: ');
    const without = solve(`${text.slice(0, last)}sheet: x${text.slice(last + 'sheet: '.length)}`);
    lost += without.board.elements.filter((element) => !element).length;
    groups += without.groups.length;
    kept += without.groups.filter((group) => before.groups.includes(group)).length;
    expect(solve(text).board.elements).toEqual(before.board.elements);
  }
  expect(lost).toBeGreaterThan(0);
  // The machines are small, and some of the parts are their supplies, from which all the others hang.
  expect(kept).toBeGreaterThan(groups / 4);
});

it('does not hold in a relay that has lost its sheet', () => {
  const text = withSheets(benchMachine(['psu', 'relay'], ['psu.V+ -> relay.A1', 'relay.A2 -> psu.V-']));
  const fettle = open();
  const heldIn = (version: string) => solvedOf(fettle, 'm.machine.yaml', version).held;
  expect(heldIn(text)).toEqual(['relay']);
  expect(heldIn(text.replace('sheet: relay', 'sheet: xrelay'))).toEqual([]);
  expect(heldIn(text)).toEqual(['relay']);
});
