import { expect, it } from 'vitest';
import { exampleMachines, machineOf } from '../core/circuits/machines.ts';
import { randomMachine } from '../core/circuits/random-machine.ts';
import { randomFrom } from '../support/random.ts';
import { type Agreement, holdAgainstNgspice, statesOf } from './agreement.ts';

const examples = exampleMachines();

const report = (what: string, { solved, others, compared, worst, wrong }: Agreement) => {
  const unsolved = [...others].map(([kind, count]) => `${count} ${kind}`).join(', ') || 'none';
  console.log(
    `${what}: ${solved} states solved (without a solution: ${unsolved}), ${compared} voltages compared, ${wrong.length} apart, worst by ${(worst * 1e3).toPrecision(3)} mV`,
  );
};

it('looks at an example', () => {
  expect(examples.length).toBeGreaterThan(0);
});

it.each(examples)(
  '%s: agrees with ngspice on every group in every state, within 1 % or 1 mV',
  (file, machine) => {
    const agreement = holdAgainstNgspice(statesOf(machine));
    report(file, agreement);
    expect(agreement.wrong).toEqual([]);
    expect([...agreement.others]).toEqual([]);
    expect(agreement.compared).toBeGreaterThan(100);
  },
);

it('agrees with ngspice on 300 machines of every kind of circuit, wired at random', () => {
  const random = randomFrom(4711);
  const states = Array.from({ length: 300 }, () => statesOf(machineOf(randomMachine(random)))).flat();
  const agreement = holdAgainstNgspice(states);
  report('random machines', agreement);
  expect(agreement.wrong).toEqual([]);
  expect([...agreement.others.keys()].filter((kind) => kind !== 'contradiction')).toEqual([]);
  expect(agreement.compared).toBeGreaterThan(2000);
}, 120_000);
