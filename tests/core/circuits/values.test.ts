import { describe, expect, it } from 'vitest';
import { buildNets } from '../../../server/core/circuits/nets.ts';
import { writeNetlists } from '../../../server/core/circuits/solve/netlist.ts';
import { circuitsOf } from '../../../server/core/circuits/solve/solved.ts';
import { readMachineText } from '../../../server/core/model/machine.ts';
import { resolveMachine } from '../../../server/core/model/resolve.ts';
import { createTrees } from '../../../server/core/model/trees.ts';
import { deriveCircuits } from '../../../server/core/values/circuits.ts';
import { inputTable } from '../../../server/core/values/input-table.ts';
import { readExample } from '../../support/example.ts';
import { benchMachine } from './bench-parts.ts';
import { exampleMachine, machineOf, sheetWorld } from './machines.ts';

function deriveOf(machine = exampleMachine()) {
  const { derived, missing } = deriveCircuits(machine);
  return { derived, missing: [...missing.values()] };
}

describe('values of the example', () => {
  const { derived, missing } = deriveOf();
  it('lack nothing', () => {
    expect(missing).toEqual([]);
    expect(derived.size).toBeGreaterThan(150);
  });
  it.each([
    // The sensor loses 2 V; 5 m of 0.34 mm2 are 265 mohm beside 4.7 kohm.
    ['circuits.panel.x-home.rest', 22 * (4700 / 4700.275), 'V'],
    ['circuits.panel.x-home.operated', 0, 'V'],
    ['circuits.panel.x-home.margin', 6, 'V'],
    ['circuits.panel.x-home.broken-wire', 0, 'V'],
    ['circuits.drive-x.pulse.rest', 0, 'mA'],
    // 5 V less the lamp and the transistor, on 330 ohm, 91 mohm of wire and the slope of the transistor
    ['circuits.drive-x.pulse.operated', ((5 - 1.2 - 0.3) / (330 + 0.0912 + 0.01)) * 1e3, 'mA'],
    ['circuits.converter.speed.operated', 10 * (20000 / (20000 + 50 + 0.114)), 'V'],
    ['circuits.panel.start.rest', 5, 'V'],
    ['circuits.panel.start.broken-wire', 5, 'V'],
  ])('%s is %d %s', (address, value, unit) => {
    expect(derived.get(address)?.unit).toBe(unit);
    expect(derived.get(address)?.value).toBeCloseTo(value, 4);
  });
  it('say which way the current takes', () => {
    expect(derived.get('circuits.panel.x-home.rest')).toMatchObject({
      formula: 'round panel.S24, home-x.output, wire W32, panel.x-home, panel.S0',
      working: 'round 24 V, on with 4.681 mA, 265 mohm, 4.7 kohm with 4.681 mA, 0 V = 21.9987 V',
    });
    expect(derived.get('circuits.panel.start.rest')?.working).toBe(
      'no current round 5 V and 2.2 kohm, open = 5 V',
    );
  });
  it('call a rail after the supply in a part of the circuit, whichever supply is written first', () => {
    const links = [
      'psu.V+ -> reader.S24',
      'psu.V- -> reader.S0',
      'reader.S24 -> closed.A',
      'closed.B -> reader.DN',
    ];
    const { derived: own } = deriveOf(machineOf(benchMachine(['psu', 'reader', 'closed'], links)));
    expect(own.get('circuits.reader.down.rest')?.formula).toBe(
      'round reader.S24, closed.contact, reader.down, reader.S0',
    );
  });
  it('name the state and the threshold that bind', () => {
    expect(derived.get('circuits.panel.x-home.margin')).toMatchObject({
      limit: 'operated',
      working: '6 V − 0 V = 6 V',
      formula: 'off-below − seen operated',
    });
  });
  it('have a place in a text for every input that was written down', () => {
    for (const { inputs } of derived.values())
      for (const { address, at, file, name } of inputs)
        if (address === undefined && !/needed|allowed/.test(name))
          expect([name, at && file]).not.toContain(undefined);
  });
});

describe('what cannot be computed says what it lacks', () => {
  it('a sheet without the figure that is needed', () => {
    const text = benchMachine(['closed'], ['r.P -> closed.A', 'closed.B -> r.I']).replace(
      'parts:',
      'parts:\n  r: { class: controller, terminals: { t: [P, M, I] }, circuits: { o: { power-out: [P, M], voltage: 24 V }, i: { pulled-down-in: [I, M], does: home X, on-above: 15 V } } }',
    );
    expect(deriveOf(machineOf(text)).missing).toContainEqual({
      address: 'circuits.r.i.rest',
      needs: 'resistance on the sheet of r',
    });
  });
  it('an input on which nothing acts', () => {
    const { missing } = deriveOf(machineOf(benchMachine(['reader'], ['reader.S24 -> reader.DN'])));
    expect(missing.map(({ address }) => address)).toEqual(['circuits.reader.down.operated']);
  });
});

describe('the margin between the thresholds', () => {
  it('is below zero and names the nearer one', () => {
    // 24 V on 2 kohm and 4 kohm leave 16 V; on-above 15 V is met by 1 V, so a second resistor makes it 12 V.
    const links = ['reader.S24 -> closed.A', 'closed.B -> a.A', 'a.B -> b.A', 'b.B -> reader.DN'];
    const text = benchMachine(['reader', 'closed', ['a', 'resistor'], ['b', 'resistor']], links);
    const margin = deriveOf(machineOf(text)).derived.get('circuits.reader.down.margin');
    expect(margin?.value).toBeCloseTo(-3, 4);
    expect(margin?.limit).toBe('at rest');
    expect(margin?.formula).toBe('seen at rest − on-above');
  });
});

describe('the table of inputs', () => {
  const machine = exampleMachine();
  const rows = inputTable(machine, buildNets(machine));
  const row = (name: string) => rows.find(({ part, circuit }) => `${part}.${circuit}` === name);
  it('has a row for each wired input and none for others', () => {
    expect(rows.length).toBe(40);
    expect(row('panel.a-near')).toBeUndefined();
    expect(row('contactor.coil')).toBeUndefined();
  });
  it('tells what each sees and believes', () => {
    expect(row('panel.x-far')).toEqual({
      part: 'panel',
      circuit: 'x-far',
      terminal: 'I2',
      does: 'limit X far',
      inUse: true,
      actor: 'far-x',
      rest: { shown: '24 V', level: 'on', acts: false },
      operated: { shown: '0 V', level: 'off', acts: true },
      broken: { shown: '0 V', level: 'off', acts: true, wire: 'W31', seen: 'at-once' },
    });
    expect(row('panel.start')?.broken?.seen).toBe('next-use');
    expect(row('drive-x.pulse')?.operated?.shown).toBe('10.6 mA');
  });
});

describe('an edit', () => {
  const trees = createTrees();
  const analyse = (text: string) => {
    const tree = trees.read('m.machine.yaml', text);
    return circuitsOf(resolveMachine('m.machine.yaml', readMachineText(tree.root), sheetWorld, trees));
  };
  const text = readExample();
  const first = analyse(text);
  it('that changes nothing electrical takes over what was solved, with the parts of its own version', () => {
    const again = analyse(text.replace('c3-1: 5000 mm/min', 'c3-1: 4000 mm/min'));
    expect(again.solved.board).toBe(first.solved.board);
    expect(again.solved.inputs.map(({ rest }) => rest)).toEqual(first.solved.inputs.map(({ rest }) => rest));
    const panel = again.solved.inputs.find(({ at }) => at.part.name === 'panel')?.at.part;
    expect(panel?.assigned.get('c3-1')?.value?.text).toBe('4000 mm/min');
    expect(again.faults.find(({ input }) => input.at.part.name === 'panel')?.input.at.part).toBe(panel);
  });
  it.each([
    [
      'a contact',
      'near-x:          { sheet: generic/roller-switch,                at: gantry, set: { contact: normally-closed',
      'near-x:          { sheet: generic/roller-switch,                at: gantry, set: { contact: normally-open',
    ],
    ['a sense', 'c10-1: on-when-open', 'c10-1: on-when-closed'],
    ['a link', 'near-x.C2 -> panel.I1', 'near-x.C2 -> panel.I2'],
    [
      'a length',
      '{ cable: W30, wire: 2 x 0.5 mm2,  length: 5.0 m',
      '{ cable: W30, wire: 2 x 0.5 mm2,  length: 6.0 m',
    ],
    ['a supply', 'output-voltage: 44.0 V', 'output-voltage: 45.0 V'],
  ])('of %s solves anew', (_, from, to) => {
    analyse(text);
    const changed = text.replace(from, to);
    expect(changed).not.toBe(text);
    const again = analyse(changed);
    expect(again.solved.board).not.toBe(first.solved.board);
    const values = (circuits: typeof first) =>
      circuits.solved.inputs.map(({ rest, operations, acts }) => [rest.value, acts, operations.length]);
    const anew = circuitsOf(machineOf(changed));
    expect(values(again)).toEqual(values(anew));
  });
});

describe('netlists', () => {
  it('are found by any circuit of their group, in any state', () => {
    const of = (group?: string, operated?: string) => writeNetlists(exampleMachine(), group, operated);
    const rest = of('far-x.contact');
    expect(Array.isArray(rest) && rest.map(({ group }) => group)).toEqual(['panel.x-far']);
    const operated = of('panel.x-far', 'far-x');
    expect(operated).not.toEqual(rest);
    const unknown = of('nowhere');
    expect('missing' in unknown && [unknown.missing, unknown.known]).toEqual([
      'group',
      expect.arrayContaining(['panel.x-far', 'drive-x.pulse']),
    ]);
    expect(of('panel.x-far', 'near-x')).toEqual({ missing: 'actor', known: ['far-x'] });
  });
  it('are written of each group in which something looks at something, at rest or with one actor operated', () => {
    const links = [
      'reader.S24 -> closed.A',
      'closed.B -> reader.DN',
      'psu.V+ -> open.A',
      'open.B -> resistor.A',
    ];
    const machine = machineOf(benchMachine(['reader', 'closed', 'psu', 'open', 'resistor'], links));
    const written = (group?: string, operated?: string) => {
      const netlists = writeNetlists(machine, group, operated);
      return 'missing' in netlists
        ? netlists
        : netlists.map((each) => [each.group, each.text.split('\n')[0]]);
    };
    const looking = ['reader.up', 'reader.down', 'reader.line', 'reader.measure'];
    expect(written()).toEqual(looking.map((name) => [name, `* ${name}, at rest`]));
    expect(written(undefined, 'closed')).toEqual([['reader.down', '* reader.down, closed operated']]);
    expect(written('resistor.r', 'open')).toEqual([['open.contact', '* open.contact, open operated']]);
    expect(written('nowhere')).toEqual({ missing: 'group', known: looking });
    const [, notes] = (() => {
      const netlists = writeNetlists(machine, 'reader.down');
      return 'missing' in netlists ? [] : (netlists[0]?.text.split('\n') ?? []);
    })();
    expect(notes).toBe('* parts: reader, closed');
  });
  it('say of every resistance that is a wire which one it is', () => {
    const links = [
      'reader.S24 -> closed.A',
      '{ link: closed.B -> reader.DN, wire: 0.5 mm2, length: 1000 m, label: W7 }',
    ];
    const netlists = writeNetlists(machineOf(benchMachine(['reader', 'closed'], links)), 'reader.down');
    if ('missing' in netlists) throw new Error('no netlists');
    // 39 ohm per km by IEC 60228 class 5
    expect(netlists[0]?.text).toMatch(/^R\d+ n\d+ n\d+ 39 {2}; wire W7$/m);
  });
  it('say of every branch which circuit it belongs to, in which state', () => {
    const links = ['reader.S24 -> closed.A', 'closed.B -> resistor.A', 'resistor.B -> reader.DN'];
    const text = benchMachine(['reader', 'closed', 'resistor'], links);
    const netlists = writeNetlists(machineOf(text), 'reader.down');
    if ('missing' in netlists) throw new Error('no netlists');
    const notes = netlists[0]?.text.match(/(?<=^[RV]\d+ .*; ).*$/gm);
    expect(notes).toEqual(['rail', 'rail', 'reader.down rest', 'closed.contact rest', 'resistor.r rest']);
    // 24 V on 2 kohm and 4 kohm
    expect(netlists[0]?.text).toMatch(/^\* n\d+ is reader\.DN resistor\.B, solved to 16\.0000 V$/m);
  });
  it('cannot be broken out of by a name', () => {
    const text = benchMachine(['reader', ['"a\\nV9 x 0 1"', 'closed']], ['reader.S24 -> reader.DN']);
    const netlists = writeNetlists(machineOf(text));
    if ('missing' in netlists) throw new Error('no netlists');
    const lines = netlists.flatMap((each) => each.text.split('\n'));
    expect(lines.filter((line) => line.startsWith('V9'))).toEqual([]);
  });
});
