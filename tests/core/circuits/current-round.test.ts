import { describe, expect, it } from 'vitest';
import { trace, traceIn } from './trace.ts';

/*
 * Where what drives a current is an input or an output itself, no supply carries any of it: the current goes round, from a
 * terminal back to the same one. The input `up` is pulled up to 24 V through 4 kohm, and looks at UP against S0.
 */

describe('a pulled-up input with a contact to its own return', () => {
  const ROUND = [
    'from reader.S0',
    'reader.up to reader.UP',
    'wire to closed.A',
    'closed.contact to closed.B',
    'wire to reader.S0',
  ];

  it.each([
    ['onwards', ['reader.UP -> closed.A', 'closed.B -> reader.S0']],
    ['backwards', ['closed.A -> reader.UP', 'reader.S0 -> closed.B']],
    ['both away from the contact', ['closed.A -> reader.UP', 'closed.B -> reader.S0']],
    ['both away from the input', ['reader.UP -> closed.A', 'reader.S0 -> closed.B']],
  ])('drives its current out of its terminal, with links written %s', (_, links) => {
    const { way, voltsIn, input } = trace(['reader', 'closed'], links, 'reader.up');
    expect(way).toEqual(ROUND);
    // Closed, all of 24 V is lost inside; open, all of it stands before the contact.
    expect(voltsIn(input.solution)).toEqual([0, 0, 0, 0, 0]);
    expect(voltsIn(input.operations[0]?.solution)).toEqual([0, 24, 24, 0, 0]);
  });

  it('does so through a contact that is open at rest', () => {
    const links = ['open.B -> reader.UP', 'open.A -> reader.S0'];
    const { way, voltsIn, input } = trace(['reader', 'open'], links, 'reader.up');
    expect(way).toEqual([
      'from reader.S0',
      'reader.up to reader.UP',
      'wire to open.B',
      'open.contact to open.A',
      'wire to reader.S0',
    ]);
    expect(voltsIn(input.solution)).toEqual([0, 24, 24, 0, 0]);
    expect(voltsIn(input.operations[0]?.solution)).toEqual([0, 0, 0, 0, 0]);
  });

  it('does so over wires that have a resistance, whichever way round they are written', () => {
    // 39 ohm per km by IEC 60228 class 5
    const wire = 'wire: 0.5 mm2, length: 1000 m';
    for (const link of ['reader.UP -> closed.A', 'closed.A -> reader.UP']) {
      const links = [`{ link: ${link}, ${wire} }`, 'closed.B -> reader.S0'];
      const { way, voltsIn, input } = trace(['reader', 'closed'], links, 'reader.up');
      expect(way).toEqual(ROUND);
      expect(voltsIn(input.solution)).toEqual([0, Math.round((24e3 * 39) / 4039) / 1000, 0, 0, 0]);
    }
  });

  it('goes back along the wires of the return, from contact to contact', () => {
    const links = ['reader.UP -> open.A', 'open.B -> closed.B', 'closed.B -> reader.S0'];
    const { way } = trace(['reader', 'closed', 'open'], links, 'reader.up');
    expect(way.slice(-3)).toEqual(['open.contact to open.B', 'wire to closed.B', 'wire to reader.S0']);
  });

  it('goes over a wire alone', () => {
    const { way, voltsIn, input } = trace(['reader'], ['reader.UP -> reader.S0'], 'reader.up');
    expect(way).toEqual(['from reader.S0', 'reader.up to reader.UP', 'wire to reader.S0']);
    expect(voltsIn(input.solution)).toEqual([0, 0, 0]);
  });

  it('goes through the changeover of a relay that works', () => {
    const links = [
      'reader.UP -> relay.14',
      'relay.11 -> reader.S0',
      'relay.A1 -> reader.S24',
      'relay.A2 -> open.A',
      'open.B -> reader.S0',
    ];
    const { way } = trace(['reader', 'relay', 'open'], links, 'reader.up');
    expect(way).toEqual([
      'from reader.S0',
      'reader.up to reader.UP',
      'wire to relay.14',
      'relay.contact to relay.11',
      'wire to reader.S0',
    ]);
  });
});

it('what an NPN sensor draws for itself, more than it switches, is not on the way of what it switches', () => {
  const links = ['reader.S24 -> npn.P', 'npn.M -> reader.S0', 'npn.O -> reader.UP'];
  const { way, voltsIn, input } = trace(['reader', 'npn'], links, 'reader.up');
  expect(way).toEqual([
    'from reader.S0',
    'reader.up to reader.UP',
    'wire to npn.O',
    'npn.out to npn.M',
    'wire to reader.S0',
  ]);
  expect(voltsIn(input.solution)).toEqual([0, 24, 24, 0, 0]);
  // It draws 12 mA from S24; through its output, which keeps 2 V, flow 5.5 mA.
  expect(voltsIn(input.operations[0]?.solution)).toEqual([0, 2, 2, 0, 0]);
});

it('a pulled-up input that is held up by a supply takes a current from rail to rail', () => {
  const links = ['reader.UP -> closed.A', 'closed.B -> psu48.V+', 'psu48.V- -> reader.S0'];
  expect(trace(['reader', 'closed', 'psu48'], links, 'reader.up').way).toEqual([
    'from psu48.V+',
    'wire to closed.B',
    'closed.contact to closed.A',
    'wire to reader.UP',
    'reader.up to reader.S0',
  ]);
});

describe('an output that drives an input', () => {
  it('drives it from its higher terminal to its lower one', () => {
    const links = ['wheel.W+ -> reader.L+', 'reader.L- -> wheel.W-'];
    const { way, voltsIn, input } = trace(['reader', 'wheel'], links, 'reader.line');
    // At rest W- is above W+: of 3 V behind 30 ohm 2.4 V are left on 120 ohm.
    expect(way).toEqual([
      'from wheel.W+',
      'wheel.a to wheel.W-',
      'wire to reader.L-',
      'reader.line to reader.L+',
      'wire to wheel.W+',
    ]);
    expect(voltsIn(input.solution)).toEqual([2.4, 0, 0, 2.4, 2.4]);
  });

  it('closes its loop inside the part that both of them are in', () => {
    const { way, voltsIn, input } = trace(['reader'], ['reader.AN -> reader.SIG'], 'reader.measure');
    expect(way).toEqual([
      'from reader.G',
      'reader.voltage to reader.SIG',
      'wire to reader.AN',
      'reader.measure to reader.G',
    ]);
    // 10 V behind 100 ohm, on 9.9 kohm
    expect(voltsIn(input.operations[0]?.solution)).toEqual([0, 9.9, 9.9, 0]);
  });
});

describe('two pulled-up inputs with one return, which hangs on no supply', () => {
  const machineWith = (a: string, b: string) => `machine: Bench
parts:
  pair: { class: converter, terminals: { all: [F, R, C] }, circuits: {
    forward: { pulled-up-in: [F, C], does: run, pull: 24 V, resistance: 4 kohm, on-below: 5 V, off-above: 15 V },
    reverse: { pulled-up-in: [R, C], does: reverse, pull: 24 V, resistance: ${b}, on-below: 5 V, off-above: 15 V } } }
  one: { class: switch, terminals: { all: [A, B] }, circuits: { contact: { contact: [A, B], rest: closed } } }
  two: { class: switch, terminals: { all: [A, B] }, circuits: { contact: { contact: [A, B], rest: closed } } }
wiring:
  - pair.F -> one.A
  - pair.R -> two.A
  - two.B -> one.B
  - ${a}
`;
  const roundOf = (name: string, from: string, contact: string) => [
    'from pair.C',
    `pair.${name} to pair.${from}`,
    `wire to ${contact}.A`,
    `${contact}.contact to ${contact}.B`,
  ];

  it.each(['4 kohm', '2 kohm', '8 kohm'])(
    'go each through a contact of its own, with the other one at %s',
    (ohms) => {
      for (const last of ['one.B -> pair.C', '{ link: pair.C -> one.B, wire: 0.5 mm2, length: 10 m }']) {
        const text = machineWith(last, ohms);
        expect(traceIn(text, 'pair.forward').way).toEqual([
          ...roundOf('forward', 'F', 'one'),
          'wire to pair.C',
        ]);
        expect(traceIn(text, 'pair.reverse').way).toEqual([
          ...roundOf('reverse', 'R', 'two'),
          'wire to one.B',
          'wire to pair.C',
        ]);
      }
    },
  );
});
