import { describe, expect, it } from 'vitest';
import { buildNets } from '../../../server/core/circuits/nets.ts';
import { findLoads } from '../../../server/core/circuits/solve/loads.ts';
import { writeNetlists } from '../../../server/core/circuits/solve/netlist.ts';
import { circuitsOf } from '../../../server/core/circuits/solve/solved.ts';
import { deriveCircuits } from '../../../server/core/values/circuits.ts';
import { inputTable } from '../../../server/core/values/input-table.ts';
import { randomFrom } from '../../support/random.ts';
import { BENCH_PARTS, type BenchPart, benchMachine } from './bench-parts.ts';
import { machineOf } from './machines.ts';
import { randomMachine } from './random-machine.ts';

/** Does everything with a machine that can be done with its circuits, and counts the values that came of it. */
function doAll(text: string): number {
  const machine = machineOf(text);
  const nets = buildNets(machine);
  const derived = [...deriveCircuits(machine).derived.values()];
  inputTable(machine, nets);
  findLoads(circuitsOf(machine).solved);
  writeNetlists(machine);
  expect(derived.every(({ si }) => Number.isFinite(si))).toBe(true);
  return derived.length;
}

/** A machine in which a contact feeds a bar with so many inputs, all of which are one group. */
function barOf(count: number): string {
  const parts: [string, BenchPart][] = [['feed', 'closed']];
  const links = ['r0.S24 -> feed.A'];
  for (let each = 0; each < count; each++) {
    parts.push([`r${each}`, 'reader'], [`s${each}`, 'open']);
    links.push(`feed.B -> s${each}.A`, `s${each}.B -> r${each}.DN`, `r${each}.S0 -> r0.S0`);
  }
  return benchMachine(parts, links);
}

describe('large groups', () => {
  it('a group with fifty inputs is solved whole', () => {
    const { solved } = circuitsOf(machineOf(barOf(50)));
    const down = solved.inputs.filter(({ at }) => at.circuit.name === 'down');
    expect(down.length).toBe(50);
    for (const { rest, operations } of down) {
      expect([
        rest.level,
        operations.map(({ actor, sight }) => [actor.part.replace('s', 'r'), sight.level]),
      ]).toEqual(['off', [[expect.any(String), 'on']]]);
    }
  });
  it('one that is too large says so', () => {
    const { solved } = circuitsOf(machineOf(barOf(400)));
    const down = solved.inputs.filter(({ at }) => at.circuit.name === 'down');
    expect(new Set(down.map(({ rest }) => rest.trouble))).toEqual(new Set(['too-large']));
  });
  it('thousands of contacts side by side do not hang it', () => {
    const names = Array.from({ length: 2000 }, (_, each) => `s${each}`);
    const parts: (BenchPart | [string, BenchPart])[] = [
      'reader',
      ...names.map((name): [string, BenchPart] => [name, 'open']),
    ];
    const links = names.flatMap((name) => [`reader.S24 -> ${name}.A`, `${name}.B -> reader.DN`]);
    expect(doAll(benchMachine(parts, links))).toBeGreaterThan(0);
  });
});

describe('odd texts', () => {
  it.each([
    ['', 0],
    ['parts: 7', 0],
    ['parts: { a: { circuits: { x: { contact: [] } } } }', 0],
    ['parts: { a: { circuits: { x: { contact: A }, y: { sensor: [A, B] }, z: { joined: [] } } } }', 0],
    ['wiring: [a.b -> a.b, a.b -> c.d]', 0],
    ['wiring: [{ link: a.b -> c.d, wire: 4 mm2, length: 0 m }]', 0],
  ])('%s gives no values and no exception', (text, count) => {
    expect(doAll(text)).toBe(count);
  });
  it('names that objects have by birth are names like any other', () => {
    const text = benchMachine(
      [
        ['__proto__', 'reader'],
        ['constructor', 'open'],
      ],
      ['__proto__.S24 -> constructor.A', 'constructor.B -> __proto__.DN'],
    );
    expect(doAll(text)).toBeGreaterThan(0);
    const down = circuitsOf(machineOf(text)).solved.inputs.find(({ at }) => at.circuit.name === 'down');
    expect(down?.operations.map(({ actor, sight }) => [actor.name, sight.level])).toEqual([
      ['constructor', 'on'],
    ]);
  });
  it('braces in names do not disturb a formula', () => {
    const text = benchMachine(
      ['reader', ['a}b{c', 'closed']],
      ['reader.S24 -> a}b{c.A', 'a}b{c.B -> reader.DN'],
    );
    const rest = deriveCircuits(machineOf(text)).derived.get('circuits.reader.down.rest');
    expect(rest?.formula).toBe('round reader.S24, abc.contact, reader.down, reader.S0');
  });
  it.each(['-5 ohm', '0 ohm', '1e999 ohm', 'lots', '5 V'])('a resistance of %s is no crash', (ohms) => {
    const reader = `{ class: controller, terminals: { t: [P, M, I] }, circuits: { o: { power-out: [P, M], voltage: 24 V }, i: { pulled-down-in: [I, M], does: home X, resistance: ${ohms}, on-above: 15 V } } }`;
    doAll(
      `machine: m\nparts:\n  r: ${reader}\n  s: ${BENCH_PARTS.closed}\nwiring: [r.P -> s.A, s.B -> r.I]\n`,
    );
  });
});

describe('random machines', () => {
  it('are solved without an exception, and alike when solved again', () => {
    const random = randomFrom(99);
    let values = 0;
    for (let round = 0; round < 300; round++) {
      const text = randomMachine(random);
      const count = doAll(text);
      expect(doAll(text)).toBe(count);
      values += count;
    }
    expect(values).toBeGreaterThan(200);
  });
});
