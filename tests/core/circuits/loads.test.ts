import { describe, expect, it } from 'vitest';
import { solveMachine } from '../../../server/core/circuits/solve/inputs.ts';
import { findClashes, findLoads } from '../../../server/core/circuits/solve/loads.ts';
import { circuitsOf } from '../../../server/core/circuits/solve/solved.ts';
import { createFettle } from '../../../server/core/fettle.ts';
import { worldOf } from '../../support/world.ts';
import { benchMachine } from './bench-parts.ts';
import { exampleMachine, solveText } from './machines.ts';

function loadOf(text: string, name: string) {
  const solved = solveText(text);
  const load = findLoads(solved).find(({ element: { at } }) => `${at.part.name}.${at.circuit.name}` === name);
  return {
    amps: load?.amps,
    rated: load?.rated,
    operated: load?.operated.map((actor) => actor.name),
    clashes: findClashes(solved),
  };
}

describe('currents in outputs and contacts', () => {
  it('two outputs against each other carry more than either bears', () => {
    const text = benchMachine(['reader'], ['reader.SRC -> reader.OUT']);
    const sink = loadOf(text, 'reader.sink');
    // 5 V less the drop of the one, through the 10 ohm of the other and the slope of the transistor
    expect(sink.amps).toBeCloseTo((5 - 0.3) / (0.2 / 0.02 + 0.01), 3);
    expect(sink.operated).toEqual(['reader.sink', 'reader.push']);
    expect(sink.amps ?? 0).toBeGreaterThan(sink.rated ?? Infinity);
  });
  it('two outputs against each other have a current to show, though the drop of one is not stated', () => {
    const text = benchMachine(['reader'], ['reader.SRC -> reader.OUT']).replace('drop: 0.2 V, ', '');
    const sink = loadOf(text, 'reader.sink');
    // A transistor of which nothing is known has 10 mohm, as the other one has.
    expect(sink.amps).toBeCloseTo((5 - 0.3) / (0.01 + 0.01), 3);
    expect(sink.clashes).toEqual([]);
  });
  it('an output with its proper load carries what the load takes', () => {
    const text = benchMachine(['reader', 'drive'], ['reader.V5 -> drive.P+', 'reader.OUT -> drive.P-']);
    expect(loadOf(text, 'reader.sink')).toMatchObject({
      rated: 0.05,
      operated: ['reader.sink'],
      clashes: [],
    });
    expect(loadOf(text, 'reader.sink').amps).toBeCloseTo(0.01, 6);
  });
  it('a contact carries the current of its input', () => {
    const text = benchMachine(['reader', 'closed'], ['reader.S24 -> closed.A', 'closed.B -> reader.DN']);
    expect(loadOf(text, 'closed.contact').amps).toBeCloseTo(24 / 4000, 6);
  });
  it('a sensor carries the current at its output, not what it draws itself', () => {
    const links = ['reader.S24 -> pnp.P', 'pnp.M -> reader.S0', 'pnp.O -> reader.DN'];
    expect(loadOf(benchMachine(['reader', 'pnp'], links), 'pnp.out').amps).toBeCloseTo(22 / 4000, 5);
  });
  it('a contact that shorts a supply is a clash', () => {
    const { clashes } = loadOf(
      benchMachine(['psu', 'open'], ['psu.V+ -> open.A', 'open.B -> psu.V-']),
      'open.contact',
    );
    expect(clashes.map(({ operated }) => operated.map(({ name }) => name))).toEqual([['open']]);
  });
  it('what flows in a circuit that an edit left alone is not worked out again', () => {
    const machineAt = (metres: number) =>
      benchMachine(
        ['psu', 'reader', 'open', 'closed'],
        [
          'psu.V+ -> open.A, closed.A',
          'psu.V- -> reader.S0',
          'open.B -> reader.DN',
          `{ link: closed.B -> reader.AN, wire: 0.5 mm2, length: ${metres} m }`,
        ],
      );
    const fettle = createFettle(worldOf(new Map()));
    const [short, long] = [1, 1000].map((metres) => {
      const analysis = fettle.analyse('m.machine.yaml', machineAt(metres));
      if (analysis.kind !== 'machine') throw new Error('not read as a machine');
      const loads = findLoads(circuitsOf(analysis.machine).solved);
      return (part: string) => loads.find(({ element }) => element.at.part.name === part);
    });
    expect(long?.('open')).toBe(short?.('open'));
    expect(long?.('open')?.amps).toBeCloseTo(24 / 4000, 6);
    // 39 ohm per km by IEC 60228 class 5, before 9.9 kohm
    expect(short?.('closed')?.amps).toBeCloseTo(24 / 9900.039, 8);
    expect(long?.('closed')?.amps).toBeCloseTo(24 / 9939, 8);
  });
  it('nothing in the example carries more than it bears, and nothing clashes', () => {
    const solved = solveMachine(exampleMachine());
    const loads = findLoads(solved);
    expect(loads.length).toBeGreaterThan(20);
    expect(loads.filter(({ amps, rated }) => rated !== undefined && amps > rated)).toEqual([]);
    expect(findClashes(solved)).toEqual([]);
  });
});
