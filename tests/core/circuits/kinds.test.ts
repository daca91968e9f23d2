import { describe, expect, it } from 'vitest';
import { type BenchPart, benchMachine } from './bench-parts.ts';
import { inputOf, solveText } from './machines.ts';

type Parts = readonly (BenchPart | readonly [string, BenchPart, string?])[];

/** What an input of a small machine sees at rest, and with the first actor that changes it operated. */
function see(parts: Parts, input: string, links: readonly string[]) {
  const solved = inputOf(solveText(benchMachine(parts, links)), input);
  const [first] = solved.operations;
  return {
    rest: solved.rest.value,
    operated: first?.sight.value,
    levels: [solved.rest.level, first?.sight.level],
    acts: [solved.acts, first?.acts],
    actor: first?.actor.name,
    trouble: solved.rest.trouble,
    isTooMuch: first?.sight.isTooMuch ?? solved.rest.isTooMuch,
    idle: solved.idle.map(({ name }) => name),
  };
}

describe('inputs and what acts on them', () => {
  it('a contact on a pulled-down input', () => {
    const seen = see(['reader', 'open'], 'reader.down', ['reader.S24 -> open.A', 'open.B -> reader.DN']);
    expect(seen).toMatchObject({ levels: ['off', 'on'], acts: [false, true], actor: 'open' });
    expect(seen.rest).toBeCloseTo(0, 3);
    expect(seen.operated).toBeCloseTo(24, 6);
  });
  it('a contact on a pulled-up input', () => {
    const seen = see(['reader', 'open'], 'reader.up', ['reader.UP -> open.A', 'open.B -> reader.S0']);
    expect(seen.levels).toEqual(['off', 'on']);
    expect([seen.rest, seen.operated].map((volts) => volts?.toFixed(3))).toEqual(['24.000', '0.000']);
  });
  it('a normally closed contact with the sense turned round', () => {
    const links = ['reader.S24 -> closed.A', 'closed.B -> reader.DN'];
    const seen = see([['reader', 'reader', 'sense: on-when-open'], 'closed'], 'reader.down', links);
    expect(seen).toMatchObject({ levels: ['on', 'off'], acts: [false, true] });
  });
  it('a changeover passes from one terminal to the other', () => {
    const links = ['reader.S24 -> changeover.C', 'changeover.NC -> reader.DN', 'changeover.NO -> reader.UP'];
    expect(see(['reader', 'changeover'], 'reader.down', links).levels).toEqual(['on', 'off']);
  });
  it('a PNP sensor on a pulled-down input loses its drop', () => {
    const links = ['reader.S24 -> pnp.P', 'pnp.M -> reader.S0', 'pnp.O -> reader.DN'];
    const seen = see(['reader', 'pnp'], 'reader.down', links);
    expect(seen.levels).toEqual(['off', 'on']);
    expect(seen.operated).toBeCloseTo(22, 2);
  });
  it('an NPN sensor on a pulled-up input leaves its drop', () => {
    const links = ['reader.S24 -> npn.P', 'npn.M -> reader.S0', 'npn.O -> reader.UP'];
    const seen = see(['reader', 'npn'], 'reader.up', links);
    expect(seen.levels).toEqual(['off', 'on']);
    expect(seen.operated).toBeCloseTo(2, 2);
  });
  it('a two-wire sensor leaks while it is off', () => {
    const links = ['reader.S24 -> two-wire.A', 'two-wire.B -> reader.DN'];
    const seen = see(['reader', 'two-wire'], 'reader.down', links);
    expect(seen.rest).toBeCloseTo(2, 2); // 0.5 mA on 4 kohm
    expect(seen.operated).toBeCloseTo(20, 2); // 24 V less its 4 V
  });
  it('a two-wire sensor works either way round', () => {
    const links = ['reader.S24 -> two-wire.B', 'two-wire.A -> reader.DN'];
    expect(see(['reader', 'two-wire'], 'reader.down', links).levels).toEqual(['off', 'on']);
  });
  it('an opto input between 5 V and a transistor that sinks', () => {
    const seen = see(['reader', 'drive'], 'drive.pulse', ['reader.V5 -> drive.P+', 'reader.OUT -> drive.P-']);
    expect(seen.levels).toEqual(['off', 'on']);
    expect(seen.operated).toBeCloseTo((5 - 0.3 - 1.2) / 350, 6);
  });
  it('an opto input that does not care which way round it is', () => {
    const links = ['reader.V5 -> drive.D-', 'reader.OUT -> drive.D+'];
    expect(see(['reader', 'drive'], 'drive.direction', links).levels).toEqual(['off', 'on']);
  });
  it('an opto input driven by an output that pushes and pulls', () => {
    const seen = see(['reader', 'drive'], 'drive.pulse', ['reader.SRC -> drive.P+', 'reader.G -> drive.P-']);
    expect(seen.levels).toEqual(['off', 'on']);
    expect(seen.operated).toBeCloseTo((5 - 1.2) / (350 + 0.2 / 0.02), 6);
  });
  it('an analog output loaded by an analog input', () => {
    const seen = see(['reader'], 'reader.measure', ['reader.SIG -> reader.AN']);
    expect(seen.operated).toBeCloseTo((10 * 9900) / (9900 + 100), 4);
    expect(seen.levels).toEqual(['unknown', 'unknown']);
  });
  it('an analog input that only one end ties to anything sees nothing to rely on', () => {
    const text = benchMachine(['reader'], ['reader.SIG -> free.AI']).replace(
      'wiring:',
      '  free: { class: converter, terminals: { all: [AI, AC] }, circuits: { speed: { analog-in: [AI, AC], span: 0..10 V } } }\nwiring:',
    );
    const { value, level, trouble } = inputOf(solveText(text), 'free.speed').rest;
    expect([value, level, trouble]).toEqual([undefined, 'unknown', 'floating']);
  });
  it.each([
    ['pull', 'resistance: 4 kohm'],
    ['resistance', 'pull: 24 V'],
  ])('a pulled-up input without its %s sees nothing, and nobody is said to change that', (_, figures) => {
    const links = ['reader.UP -> open.A', 'open.B -> reader.S0'];
    const text = benchMachine(['reader', 'open'], links).replace('pull: 24 V, resistance: 4 kohm', figures);
    const { rest, operations, idle } = inputOf(solveText(text), 'reader.up');
    expect([rest.value, rest.level, rest.trouble]).toEqual([undefined, 'unknown', 'lacks-figures']);
    expect([operations, idle.map(({ name }) => name)]).toEqual([[], ['open']]);
  });
  it('a line pair', () => {
    const seen = see(['reader', 'wheel'], 'reader.line', ['wheel.W+ -> reader.L+', 'wheel.W- -> reader.L-']);
    expect(seen.levels).toEqual(['off', 'on']);
    expect(seen.operated).toBeCloseTo((3 * 120) / 150, 6);
  });
  it('a line pair crossed over is on when it should be off', () => {
    const links = ['wheel.W+ -> reader.L-', 'wheel.W- -> reader.L+'];
    expect(see(['reader', 'wheel'], 'reader.line', links).levels).toEqual(['on', 'off']);
  });
  it('a resistor in the way takes its share', () => {
    const links = ['reader.S24 -> closed.A', 'closed.B -> resistor.A', 'resistor.B -> reader.DN'];
    expect(see(['reader', 'closed', 'resistor'], 'reader.down', links).rest).toBeCloseTo(16, 2);
  });
  it('a fuse conducts', () => {
    const links = ['reader.S24 -> fuse.A', 'fuse.B -> closed.A', 'closed.B -> reader.DN'];
    expect(see(['reader', 'closed', 'fuse'], 'reader.down', links).rest).toBeCloseTo(24, 6);
  });
  it('a wire counts where its gauge and length are known', () => {
    const link = '{ link: closed.B -> reader.DN, wire: 0.5 mm2, length: 1000 m }';
    // 39 ohm per km by IEC 60228 class 5
    const seen = see(['reader', 'closed'], 'reader.down', ['reader.S24 -> closed.A', link]);
    expect(seen.rest).toBeCloseTo((24 * 4000) / 4039, 4);
  });
  it('two contacts in series act one by one', () => {
    const links = ['reader.S24 -> a.A', 'a.B -> b.A', 'b.B -> reader.DN'];
    const parts: Parts = ['reader', ['a', 'closed'], ['b', 'closed']];
    const solved = inputOf(solveText(benchMachine(parts, links)), 'reader.down');
    expect(solved.operations.map(({ actor, sight }) => [actor.name, sight.level])).toEqual([
      ['a', 'off'],
      ['b', 'off'],
    ]);
  });
  it('a contact beside a closed one does nothing', () => {
    const links = ['reader.S24 -> a.A, b.A', 'a.B -> reader.DN', 'b.B -> reader.DN'];
    const parts: Parts = ['reader', ['a', 'closed'], ['b', 'open']];
    expect(see(parts, 'reader.down', links).idle).toContain('b');
  });
  it('an unwired input sees nothing and nothing acts on it', () => {
    const seen = see(['reader'], 'reader.down', []);
    expect(seen).toMatchObject({ actor: undefined, levels: ['off', undefined] });
  });
});

describe('relays', () => {
  const links = (coil: string) => [
    'psu.V- -> relay.A2, reader.DC-',
    'psu.V+ -> closed.A, relay.11',
    coil,
    'relay.14 -> reader.DN',
  ];
  it('follow their coil', () => {
    const parts: Parts = ['psu', 'reader', 'closed', 'relay'];
    expect(see(parts, 'reader.down', links('closed.B -> relay.A1')).levels[0]).toBe('on');
    expect(see(parts, 'reader.down', links('open.B -> relay.A1')).levels[0]).toBe('off');
  });
  it('are held in by a contact of their own', () => {
    const solved = solveText(
      benchMachine(
        ['psu', 'closed', 'open', 'relay'],
        [
          'psu.V+ -> closed.A',
          'closed.B -> open.A, relay.23',
          'open.B -> relay.A1',
          'relay.24 -> relay.A1',
          'relay.A2 -> psu.V-',
        ],
      ),
    );
    expect([...solved.held]).toEqual(['relay']);
    const coil = inputOf(solved, 'relay.coil');
    expect(coil.rest.value).toBeCloseTo(24, 4);
    expect(coil.operations.map(({ actor, sight }) => [actor.name, sight.level])).toEqual([['closed', 'off']]);
  });
  it('let go when nothing feeds them', () => {
    expect([...solveText(benchMachine(['psu', 'relay'], ['relay.A2 -> psu.V-'])).held]).toEqual([]);
  });
});

describe('mistakes show as numbers', () => {
  it('an NPN sensor on a pulled-down input never turns it on', () => {
    const links = ['reader.S24 -> npn.P', 'npn.M -> reader.S0', 'npn.O -> reader.DN'];
    const solved = inputOf(solveText(benchMachine(['reader', 'npn'], links)), 'reader.down');
    expect(solved.rest.value).toBeCloseTo(0, 3);
    expect(solved.operations).toEqual([]);
    expect(solved.idle.map(({ name }) => name)).toEqual(['npn']);
  });
  it('an opto input the wrong way round never turns on', () => {
    const solved = inputOf(
      solveText(benchMachine(['reader', 'drive'], ['reader.V5 -> drive.P-', 'reader.OUT -> drive.P+'])),
      'drive.pulse',
    );
    expect([solved.rest.level, ...solved.operations]).toEqual(['off']);
  });
  it('an opto input without its common never turns on', () => {
    const solved = inputOf(
      solveText(benchMachine(['reader', 'drive'], ['reader.OUT -> drive.P-'])),
      'drive.pulse',
    );
    expect([solved.rest.level, ...solved.operations]).toEqual(['off']);
  });
  it('24 V on an opto input for 5 V is more than it bears', () => {
    const links = ['reader.S24 -> drive.P+', 'reader.OUT -> drive.P-'];
    const seen = see(['reader', 'drive'], 'drive.pulse', links);
    expect(seen.isTooMuch).toBe(true);
    expect(seen.operated).toBeCloseTo((24 - 0.3 - 1.2) / 350, 4);
  });
  it('a sensor from another supply without a common gives nothing', () => {
    const links = ['psu.V+ -> pnp.P', 'psu.V- -> pnp.M', 'pnp.O -> reader.DN'];
    expect(see(['reader', 'psu', 'pnp'], 'reader.down', links).levels).toEqual(['off', undefined]);
    const cured = [...links, 'psu.V- -> reader.S0'];
    expect(see(['reader', 'psu', 'pnp'], 'reader.down', cured).levels).toEqual(['off', 'on']);
  });
  it.each([
    ['without its minus', ['reader.S24 -> pnp.P']],
    ['without its plus', ['pnp.M -> reader.S0']],
    ['with plus and minus exchanged', ['reader.S24 -> pnp.M', 'pnp.P -> reader.S0']],
    ['on too low a supply', ['reader.V5 -> pnp.P', 'pnp.M -> reader.S0']],
  ])('a sensor %s is dead', (_, links) => {
    const seen = see(['reader', 'pnp'], 'reader.down', [...links, 'pnp.O -> reader.DN']);
    expect(seen.levels).toEqual(['off', undefined]);
  });
  it('two supplies in parallel at different voltages are a conflict', () => {
    const links = ['psu.V+ -> psu48.V+', 'psu.V- -> psu48.V-'];
    const { conflicts } = solveText(benchMachine(['psu', 'psu48'], links)).board.rails;
    expect(conflicts.map(({ supply, heldAt }) => [supply.at.part.name, supply.volts, heldAt])).toEqual([
      ['psu48', 48, 24],
    ]);
  });
  it('a shorted supply is a conflict', () => {
    const { conflicts } = solveText(benchMachine(['psu'], ['psu.V+ -> psu.V-'])).board.rails;
    expect(conflicts.map(({ supply, heldAt }) => [supply.at.part.name, heldAt])).toEqual([['psu', 0]]);
  });
  it('a contact that joins the rails is a contradiction when it closes', () => {
    const links = ['reader.S24 -> open.A', 'open.B -> reader.DN, closed.A', 'closed.B -> reader.S0'];
    const { rest, operations } = inputOf(
      solveText(benchMachine(['reader', 'open', 'closed'], links)),
      'reader.down',
    );
    expect([rest.level, rest.trouble]).toEqual(['off', undefined]);
    expect(operations.map(({ actor, sight }) => [actor.name, sight.trouble])).toEqual([
      ['open', 'contradiction'],
    ]);
  });
  it('an analog input on too low a span gets too much', () => {
    const reader = `{ class: converter, terminals: { all: [AI, AC] }, circuits: { speed: { analog-in: [AI, AC], span: 0..10 V, resistance: 20 kohm } },
      settings: { ref: { is: speed-reference, circuit: speed, choices: [0..5 V, 0..10 V], default: 0..10 V } }`;
    const see = (set: string) =>
      inputOf(
        solveText(
          benchMachine(['reader'], ['reader.SIG -> c.AI', 'reader.G -> c.AC']).replace(
            'parts:',
            `parts:\n  c: ${reader}${set} }`,
          ),
        ),
        'c.speed',
      ).operations[0]?.sight.isTooMuch;
    expect([see(''), see(', set: { ref: 0..5 V }')]).toEqual([false, true]);
  });
  it('an input that the mains reach is not solved', () => {
    const text = benchMachine(['reader', 'open'], ['mains.L -> open.A', 'open.B -> reader.DN']);
    expect(inputOf(solveText(text), 'reader.down').rest.trouble).toBe('mains');
  });
  it('supplies follow their trim', () => {
    const links = ['psu.V+ -> closed.A', 'closed.B -> reader.DN', 'psu.V- -> reader.S0'];
    const parts: Parts = ['reader', 'closed', ['psu', 'psu', 'output-voltage: 26 V']];
    expect(see(parts, 'reader.down', links).rest).toBeCloseTo(26, 6);
  });
});
