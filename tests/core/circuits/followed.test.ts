import { describe, expect, it } from 'vitest';
import { circuitsOf } from '../../../server/core/circuits/solve/solved.ts';
import { createFettle, type Fettle } from '../../../server/core/fettle.ts';
import { worldOf } from '../../support/world.ts';
import { benchMachine } from './bench-parts.ts';
import { SHEETS, withSheets } from './call-otherwise.ts';
import { solvedAnew, solvedOf } from './plain.ts';

/*
 * One thing is edited, and edited back. Each time all that is solved is as if the text were new; and each time what the edit
 * is about is another, and the same again at last.
 */

const FILE = 'm.machine.yaml';
const open = (): Fettle => createFettle(worldOf(SHEETS));

const READ_BY_CONTACT = ['psu.V+ -> closed.A', 'closed.B -> reader.DN', 'psu.V- -> reader.S0'];

/** What is solved before an edit, after it and after it is taken back. */
function follow(before: string, after: string): readonly Record<string, unknown>[] {
  const fettle = open();
  const seen = [before, after, before].map((text) => {
    const solved = solvedOf(fettle, FILE, text);
    expect(solved, text).toEqual(solvedAnew(open(), FILE, text));
    return solved;
  });
  expect(seen[2]).toEqual(seen[0]);
  return seen;
}

function expectOther(before: string, after: string, ...what: readonly string[]): void {
  const [was, is] = follow(withSheets(before), withSheets(after));
  for (const key of what) expect(is?.[key], key).not.toEqual(was?.[key]);
}

describe('a wire', () => {
  const wire = (figures: string) =>
    benchMachine(
      ['psu', 'reader', 'closed'],
      [
        ...READ_BY_CONTACT.filter((link) => !link.startsWith('closed')),
        figures === '' ? 'closed.B -> reader.DN' : `{ link: closed.B -> reader.DN, ${figures} }`,
      ],
    );
  const [SHORT, LONG] = ['wire: 0.5 mm2, length: 1000 m', 'wire: 0.5 mm2, length: 2000 m'];
  it('that comes to have a length has a resistance', () => {
    expectOther(wire('wire: 0.5 mm2'), wire(SHORT), 'inputs', 'faults');
  });
  it('that comes to be as long again loses as much again', () => {
    expectOther(wire(SHORT), wire(LONG), 'inputs', 'faults');
  });
  it('that comes to have a gauge has a resistance', () => {
    expectOther(wire('length: 1000 m'), wire(SHORT), 'inputs', 'faults');
  });
  it('that comes to be led to the other input feeds that one', () => {
    expectOther(wire(SHORT), wire(SHORT).replace('-> reader.DN', '-> reader.UP'), 'inputs', 'faults');
  });
  it('with a resistance that is led between two others leaves those alone that it joined', () => {
    const parts = ['psu', 'reader', 'closed', ['spare', 'closed'], ['other', 'reader']] as const;
    const joining = (from: string, to: string) =>
      benchMachine(parts, [
        'psu.V+ -> closed.A, spare.A',
        'psu.V- -> reader.S0, other.S0',
        `{ link: ${from} -> ${to}, ${SHORT} }`,
      ]);
    expectOther(joining('closed.B', 'reader.DN'), joining('spare.B', 'other.DN'), 'inputs', 'faults');
  });
  it('that is taken out feeds nothing', () => {
    expectOther(wire(SHORT), wire(SHORT).replace(/\n.*closed\.B.*/, ''), 'inputs', 'faults');
  });
  it('that joins two nodes with a wire that has a resistance makes that one carry nothing', () => {
    const beside = wire(SHORT);
    expectOther(beside, `${beside}  - closed.B -> reader.DN\n`, 'inputs', 'faults');
  });
});

describe('a supply', () => {
  const fed = (set: string, links = READ_BY_CONTACT) =>
    withSheets(benchMachine(['psu', 'reader', 'closed', ['spare', 'psu48']], links)).replace(
      'psu: { sheet: psu.part.yaml }',
      `psu: { sheet: psu.part.yaml${set} }`,
    );
  it('that is trimmed gives another voltage', () => {
    expectOther(fed(''), fed(', set: { output-voltage: 26 V }'), 'inputs', 'faults');
  });
  it('that is replaced by another one gives what that gives', () => {
    expectOther(fed(''), fed('').replace('psu: { sheet: psu.', 'psu: { sheet: psu48.'), 'inputs', 'faults');
  });
  it('that loses its sheet gives nothing', () => {
    expectOther(fed(''), fed('').replace('psu: { sheet: psu.', 'psu: { sheet: none.'), 'inputs', 'faults');
  });
  it('that comes to stand on another one is lifted by that', () => {
    const apart = ['psu.V+ -> closed.A', 'closed.B -> reader.DN', 'spare.V- -> reader.S0'];
    expectOther(fed('', apart), fed('', [...apart, 'psu.V- -> spare.V-']), 'inputs', 'faults');
    expectOther(fed('', apart), fed('', [...apart, 'psu.V- -> spare.V+']), 'inputs', 'faults');
  });
  it('whose plus comes to the mains is not solved any more', () => {
    expectOther(fed(''), fed('', [...READ_BY_CONTACT, 'mains.L -> closed.B']), 'inputs');
    const inputs = (links: readonly string[]) =>
      solvedOf(open(), FILE, fed('', [...READ_BY_CONTACT, ...links])).inputs;
    expect(JSON.stringify(inputs(['mains.L -> psu.V+']))).toContain('"trouble":"mains"');
    expect(JSON.stringify(inputs(['mains.PE -> psu.V+']))).not.toContain('"trouble":"mains"');
    expectOther(fed(''), fed('', [...READ_BY_CONTACT, 'mains.L -> psu.V+']), 'inputs');
  });
});

describe('a relay', () => {
  const links = ['psu.V+ -> closed.A', 'psu.V- -> relay.A2', 'psu.V+ -> relay.11', 'psu.V- -> reader.S0'];
  const driven = (by: string, contact = '14') =>
    benchMachine(
      ['psu', 'reader', 'closed', 'relay'],
      [...links, `${by} -> relay.A1`, `relay.${contact} -> reader.DN`],
    );
  it('that is fed no more lets go, and what hangs on its contact with it', () => {
    expectOther(driven('closed.B'), driven('spare.B'), 'held', 'inputs', 'faults');
  });
  it('whose other side is used does the opposite', () => {
    expectOther(driven('closed.B'), driven('closed.B', '12'), 'inputs', 'faults');
  });
  it('that is called otherwise without its wires is held no more', () => {
    const text = withSheets(driven('closed.B'));
    expectOther(text, text.replace('  relay: ', '  other: '), 'held', 'inputs');
  });
  it('that is called otherwise with its wires is held by that name', () => {
    const text = withSheets(driven('closed.B'));
    expectOther(text, text.replaceAll(/\brelay(?=[.:](?!part))/g, 'other'), 'held');
  });
});

describe('what is set on a part', () => {
  const text = withSheets(benchMachine(['psu', 'closed'], READ_BY_CONTACT)).replace(
    'wiring:',
    '  reader: { sheet: reader.part.yaml, set: { use: on, sense: on-when-closed } }\nwiring:',
  );
  it.each([
    ['its sense', 'sense: on-when-closed', 'sense: on-when-open'],
    ['its use', 'use: on', 'use: off'],
  ])('%s changes what an input makes of what it sees', (_, from, to) => {
    expectOther(text, text.replace(from, to), 'inputs', 'faults');
  });
});

describe('what is beside a signal', () => {
  /** The core of a signal, and one of another rail, each in a cable. */
  const inCables = (signal: string, rail: string) =>
    benchMachine(
      ['psu', 'reader', 'closed', ['spare', 'psu48'], 'fuse'],
      [
        'psu.V+ -> closed.A',
        'psu.V- -> reader.S0',
        'spare.V- -> psu.V-',
        `{ cable: ${signal}, wire: 4 x 0.5 mm2, links: [closed.B -> reader.DN] }`,
        `{ cable: ${rail}, wire: 4 x 0.5 mm2, links: [spare.V+ -> fuse.A] }`,
      ],
    );
  it('is a rail whose core comes to run in its cable', () => {
    expectOther(inCables('K1', 'K2'), inCables('K1', 'K1'), 'faults');
    expectOther(inCables('K1', 'K2'), inCables('K2', 'K2'), 'faults');
  });
  it('is a rail that comes into a part on its way', () => {
    const rail = inCables('K1', 'K2');
    expectOther(rail, rail.replace('-> fuse.A', '-> closed.C'), 'faults');
  });
  /** A relay whose contact is in the signal and on whose coil a rail of another island is, which the circuit does not feel. */
  const byRelay = (...more: readonly string[]) =>
    withSheets(
      benchMachine(
        ['psu', 'reader', 'closed', ['spare', 'psu'], 'relay'],
        [
          'psu.V+ -> closed.A',
          'psu.V- -> reader.S0',
          'closed.B -> relay.11',
          'relay.12 -> reader.DN',
          'spare.V+ -> relay.A1',
          ...more,
        ],
      ),
    );
  it('is a rail by the name that it comes to have', () => {
    // What a short to the mains does nobody knows, so it is told.
    const text = byRelay('mains.N -> spare.V+');
    expectOther(text, text.replaceAll(/\bspare(?=[.:])/g, 'other'), 'faults');
  });
  it('is a rail to which the mains come', () => {
    expectOther(byRelay(), byRelay('mains.N -> spare.V+'), 'faults');
  });
});

describe('solved circuits', () => {
  const look = (fettle: Fettle, text: string) => {
    const analysis = fettle.analyse(FILE, text);
    if (analysis.kind !== 'machine') throw new Error('not read as a machine');
    return { ...circuitsOf(analysis.machine), machine: analysis.machine };
  };
  const text = withSheets(benchMachine(['psu', 'reader', 'closed'], READ_BY_CONTACT));

  it('stay as they are while nothing electrical is edited, and know the parts of the present text', () => {
    const fettle = open();
    const before = look(fettle, text);
    const after = look(fettle, text.replace('closed.part.yaml }', 'closed.part.yaml, type: long }'));
    expect(after.solved.board).toBe(before.solved.board);
    expect(after.solved.groups).toBe(before.solved.groups);
    const inputOf = ({ solved }: typeof before) => solved.inputs.find(({ at }) => at.circuit.name === 'down');
    expect(inputOf(after)?.solution).toBe(inputOf(before)?.solution);
    for (const { solved, faults, machine } of [before, after])
      for (const { at } of [...solved.inputs, ...faults.map(({ input }) => input)])
        expect(at.part).toBe(machine.parts.get(at.part.name));
  });

  it('know the parts of the present text also where the input that was solved is one of them', () => {
    const fettle = open();
    const before = look(fettle, text);
    const after = look(fettle, text.replace('reader.part.yaml }', 'reader.part.yaml, type: long }'));
    expect(after.solved.board).toBe(before.solved.board);
    expect(after.faults.length).toBeGreaterThan(0);
    for (const { input, rows } of after.faults) {
      expect(input.at.part).toBe(after.machine.parts.get('reader'));
      for (const row of rows) expect(row.input).toBe(input);
    }
    for (const { at } of after.solved.inputs) expect(at.part).toBe(after.machine.parts.get(at.part.name));
  });

  it('keep the faults of an input that a further wire on its rail does not touch', () => {
    const fettle = open();
    const machine = (...links: string[]) =>
      withSheets(benchMachine(['psu', 'reader', 'closed', 'fuse'], [...READ_BY_CONTACT, ...links]));
    const before = look(fettle, machine());
    const after = look(fettle, machine('psu.V+ -> fuse.A'));
    expect(after.solved.board).not.toBe(before.solved.board);
    expect(before.faults.length).toBe(1);
    expect(after.faults).toEqual(before.faults);
    expect(after.faults[0]?.rows).toBe(before.faults[0]?.rows);
  });

  it('of a machine that has one part more are others', () => {
    const fettle = open();
    const before = look(fettle, text);
    const more = look(fettle, text.replace('wiring:', '  open: { sheet: open.part.yaml }\nwiring:'));
    expect(more.solved.board.elements.length).toBe(before.solved.board.elements.length + 1);
    expect(look(fettle, text).solved.board.elements.length).toBe(before.solved.board.elements.length);
  });

  it('of one file are not taken for those of another', () => {
    const fettle = open();
    const other = text.replace('closed.B -> reader.DN', 'closed.B -> reader.UP');
    const looks = [FILE, 'other.machine.yaml', 'third.machine.yaml', FILE].map((file, each) =>
      solvedOf(fettle, file, each === 1 ? other : text),
    );
    expect(looks[1]).toEqual(solvedAnew(open(), FILE, other));
    for (const each of [0, 2, 3]) expect(looks[each]).toEqual(solvedAnew(open(), FILE, text));
  });
});

it('a supply of which nobody knows the voltage any more holds no rail, so that a wire on it has its resistance', () => {
  const sheet =
    '{ part: Bare, class: supply, terminals: { all: [P, M] }, circuits: { out: { power-out: [P, M] } }, settings: { v: { is: output-voltage, circuit: out, unit: V, span: 0..48 V } } }\n';
  const world = worldOf(new Map([...SHEETS, ['bare.part.yaml', sheet]]));
  // 24 V behind 4 kohm, on a wire of 39 ohm (IEC 60228 class 5) to a contact that is closed.
  const links = [
    '{ link: reader.UP -> closed.A, wire: 0.5 mm2, length: 1000 m }',
    'closed.B -> reader.S0',
    'bare.P -> reader.UP',
  ];
  const machineWith = (set: string) =>
    withSheets(benchMachine(['reader', 'closed'], links)).replace(
      'wiring:',
      `  bare: { sheet: bare.part.yaml${set} }\nwiring:`,
    );
  const fettle = createFettle(world);
  let before = 0;
  for (const set of ['', ', set: { v: 12 V }', '', ', set: { v: 12 V }']) {
    const text = machineWith(set);
    expect(solvedOf(fettle, FILE, text)).toEqual(solvedAnew(createFettle(world), FILE, text));
    const analysis = fettle.analyse(FILE, text);
    if (analysis.kind !== 'machine') throw new Error('not read as a machine');
    const { solved } = circuitsOf(analysis.machine);
    const seen = solved.inputs.find(({ at }) => at.circuit.name === 'up')?.rest.value;
    if (set === '') before = solved.board.rails.holds.size;
    if (set === '') expect(seen).toBeCloseTo((24 * 39) / 4039, 4);
    else expect(solved.board.rails.holds.size).toBe(before + 2);
  }
});
