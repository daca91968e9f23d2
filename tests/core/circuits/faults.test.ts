import { describe, expect, it } from 'vitest';
import { type Fault, type FaultRow, findFaults } from '../../../server/core/circuits/solve/faults.ts';
import { type SolvedMachine, solveMachine } from '../../../server/core/circuits/solve/inputs.ts';
import { type BenchPart, benchMachine } from './bench-parts.ts';
import { exampleMachine, solveText } from './machines.ts';

type Parts = readonly (BenchPart | readonly [string, BenchPart, string?])[];

const nameFault = (fault: Fault): string => {
  switch (fault.kind) {
    case 'broken':
      return `${fault.link.from.part}.${fault.link.from.terminal} broken`;
    case 'shorted':
      return `shorted to ${fault.volts} V`;
    case 'welded':
      return `${fault.part} welded`;
    case 'supply-lost':
      return `${fault.supply.at.part.name}.${fault.supply.at.circuit.name} lost`;
  }
};

const rowsOf = (solved: SolvedMachine): FaultRow[] => findFaults(solved).all.flatMap(({ rows }) => rows);

/** What is believed after each fault of an input, by the fault. */
function believe(parts: Parts, input: string, links: readonly string[]): Record<string, string> {
  const rows = rowsOf(solveText(benchMachine(parts, links)));
  const own = rows.filter(({ input: { at } }) => `${at.part.name}.${at.circuit.name}` === input);
  return Object.fromEntries(own.map(({ fault, verdict }) => [nameFault(fault), verdict]));
}

describe('single faults of a limit input that is pulled down', () => {
  it('normally open: a broken wire is not seen', () => {
    const seen = believe(['reader', 'open'], 'reader.down', ['reader.S24 -> open.A', 'open.B -> reader.DN']);
    expect(seen).toEqual({
      'open.B broken': 'not-seen',
      'reader.S24 broken': 'not-seen',
      'shorted to 24 V': 'at-once',
      'shorted to 0 V': 'next-use', // pressing it shorts the supply then
      'shorted to 5 V': 'next-use',
      'open welded': 'at-once',
      'reader.sense lost': 'not-seen',
    });
  });
  it('normally closed with the sense turned round: a broken wire is seen at once', () => {
    const parts: Parts = [['reader', 'reader', 'sense: on-when-open'], 'closed'];
    const seen = believe(parts, 'reader.down', ['reader.S24 -> closed.A', 'closed.B -> reader.DN']);
    expect(seen).toEqual({
      'closed.B broken': 'at-once',
      'reader.S24 broken': 'at-once',
      'shorted to 24 V': 'not-seen',
      'shorted to 0 V': 'at-once',
      'shorted to 5 V': 'at-once',
      'closed welded': 'not-seen',
      'reader.sense lost': 'at-once',
    });
  });
  it('a PNP sensor also has its minus to lose', () => {
    const links = ['reader.S24 -> pnp.P', 'pnp.M -> reader.S0', 'pnp.O -> reader.DN'];
    const seen = believe(['reader', 'pnp'], 'reader.down', links);
    expect(seen).toMatchObject({
      'pnp.M broken': 'not-seen',
      'pnp.O broken': 'not-seen',
      'reader.S24 broken': 'not-seen',
    });
  });
  it('a link that another one doubles may break', () => {
    const links = ['reader.S24 -> open.A', 'open.A -> reader.S24', 'open.B -> reader.DN'];
    const seen = believe(['reader', 'open'], 'reader.down', links);
    expect(Object.keys(seen).filter((name) => name.endsWith('broken'))).toEqual(['open.B broken']);
  });
  it('an input that is not in use, or never acts, is left alone', () => {
    const links = ['reader.S24 -> open.A', 'open.B -> reader.DN'];
    expect(believe([['reader', 'reader', 'use: off'], 'open'], 'reader.down', links)).toEqual({});
    const npn = ['reader.S24 -> npn.P', 'npn.M -> reader.S0', 'npn.O -> reader.DN'];
    expect(believe(['reader', 'npn'], 'reader.down', npn)).toEqual({});
  });
  it('one wire to several switches is broken for all of them', () => {
    const links = [
      'reader.S24 -> a.A',
      'a.A -> b.A',
      'a.B -> reader.DN',
      'b.B -> other.DN',
      'other.S0 -> reader.S0',
    ];
    const parts: Parts = ['reader', ['other', 'reader'], ['a', 'open'], ['b', 'open']];
    for (const input of ['reader.down', 'other.down']) {
      expect(believe(parts, input, links)['reader.S24 broken']).toBe('not-seen');
    }
    expect(believe(parts, 'reader.down', links)['a.A broken']).toBeUndefined();
  });
});

describe('a supply that is lost', () => {
  const links = ['one.V+ -> open.A', 'open.B -> reader.DN', 'one.V- -> reader.S0'];
  const lost = (parts: Parts, more: readonly string[]) => {
    const seen = Object.entries(believe(parts, 'reader.down', [...links, ...more]));
    return Object.fromEntries(seen.filter(([name]) => /^(?:one|two)\.output lost$/.test(name)));
  };
  it('takes what it feeds with it', () => {
    expect(lost(['reader', 'open', ['one', 'psu']], [])).toEqual({ 'one.output lost': 'not-seen' });
  });
  it('beside another on the same terminals changes nothing, whichever is written first', () => {
    const beside = ['one.V+ -> two.V+', 'one.V- -> two.V-'];
    expect(lost(['reader', 'open', ['one', 'psu'], ['two', 'psu']], beside)).toEqual({});
    expect(lost(['reader', 'open', ['two', 'psu'], ['one', 'psu']], beside)).toEqual({});
  });
});

describe('functions that drive something', () => {
  const links = ['reader.V5 -> drive.P+', 'reader.OUT -> drive.P-'];
  /** The pulse input of the bench drive as an enable input of either sense. */
  const breaks = (sense: string) => {
    const text = benchMachine(['reader', 'drive'], links)
      .replace('does: pulse,', 'does: enable,')
      .replace(
        'either-way: yes } } }',
        `either-way: yes } }, settings: { s: { is: input-sense, circuit: pulse, choices: [on-when-closed, on-when-open], default: ${sense} } } }`,
      );
    const rows = rowsOf(solveText(text)).filter(({ fault }) => fault.kind === 'broken');
    return new Set(rows.map(({ verdict }) => verdict));
  };
  it('an enable that holds while current flows lets go when its wire breaks', () => {
    expect(breaks('on-when-closed')).toEqual(new Set(['next-use']));
  });
  it('an enable that holds while none flows stays on when its wire breaks, and nobody sees it', () => {
    expect(breaks('on-when-open')).toEqual(new Set(['not-seen']));
  });
});

describe('an inverted guard', () => {
  it('that a broken wire leaves acting is no silent one', () => {
    const links = ['reader.S24 -> open.A', 'open.B -> reader.DN'];
    const seen = believe([['reader', 'reader', 'sense: on-when-open'], 'open'], 'reader.down', links);
    expect(seen['open.B broken']).toBe('next-use');
  });
});

describe('single faults of the example', () => {
  const rows = rowsOf(solveMachine(exampleMachine()));
  const of = (input: string, kind: Fault['kind']) =>
    rows
      .filter(
        ({ input: { at }, fault }) => `${at.part.name}.${at.circuit.name}` === input && fault.kind === kind,
      )
      .map(({ verdict }) => verdict);

  it('every broken wire of a limit, a home switch, the probe and the stop is seen at once', () => {
    const guards = rows.filter(
      ({ input: { at }, fault }) =>
        fault.kind === 'broken' && /^(?:limit|home|probe|emergency-stop)$/.test(at.circuit.does?.word ?? ''),
    );
    expect(guards.length).toBeGreaterThan(30);
    expect(new Set(guards.map(({ verdict }) => verdict))).toEqual(new Set(['at-once']));
  });
  it('any broken wire of the stop chain drops the contactor', () => {
    expect(of('contactor.coil', 'broken')).toEqual(['at-once', 'at-once', 'at-once', 'at-once', 'at-once']);
  });
  it('a stop chain bridged to 24 V is not seen', () => {
    expect(of('contactor.coil', 'shorted')).toContain('not-seen');
  });
  it('a welded contact that its actuator forces open is no fault', () => {
    expect(of('panel.x-near', 'welded')).toEqual([]);
    expect(of('panel.probe', 'welded')).toEqual(['not-seen']);
  });
  it('a broken start button is noticed when it is pressed', () => {
    expect(new Set(of('panel.start', 'broken'))).toEqual(new Set(['next-use']));
  });
});
