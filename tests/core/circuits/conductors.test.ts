import { expect, it } from 'vitest';
import { findConductors } from '../../../server/core/circuits/solve/conductors.ts';
import { circuitsOf } from '../../../server/core/circuits/solve/solved.ts';
import { createFettle } from '../../../server/core/fettle.ts';
import { randomFrom } from '../../support/random.ts';
import { worldOf } from '../../support/world.ts';
import { randomMachine } from './random-machine.ts';

it('the conductors at each terminal are listed as if nothing had been known, however links are moved', () => {
  let taken = 0;
  for (let seed = 1; seed <= 40; seed++) {
    const random = randomFrom(seed);
    const fettle = createFettle(worldOf(new Map()));
    const conductorsOf = (text: string) => {
      const analysis = fettle.analyse('m.machine.yaml', text);
      if (analysis.kind !== 'machine') throw new Error('not read as a machine');
      return circuitsOf(analysis.machine).solved.board;
    };
    let text = randomMachine(random);
    let past = conductorsOf(text).conductors;
    for (let edit = 0; edit < 12; edit++) {
      const ends = [...text.matchAll(/(?:p\d|nowhere)\.[\w+-]+/g)];
      const { 0: end, index } = random.oneOf(ends);
      // An end comes to another terminal, to one that no part has, or to none of a part at all.
      const other = random.oneOf([random.oneOf(ends)[0], `${end}x`, 'nowhere.A']);
      text = text.slice(0, index) + other + text.slice(index + end.length);
      const { machine, conductors } = conductorsOf(text);
      const anew = findConductors(machine);
      expect(conductors.terminals, text).toEqual(anew.terminals);
      expect(conductors.at, text).toEqual(anew.at);
      if (conductors.at.some((list, terminal) => list.length > 0 && list === past.at[terminal])) taken++;
      past = conductors;
    }
  }
  expect(taken).toBeGreaterThan(200);
});
