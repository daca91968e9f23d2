import { describe, expect, it } from 'vitest';
import { findLoads } from '../../../server/core/circuits/solve/loads.ts';
import { benchMachine } from './bench-parts.ts';
import { inputOf, solveText } from './machines.ts';

/*
 * What the figures of a sheet make of a circuit, and what their lack does, worked out by hand. Everything hangs on one supply
 * of 24 V; `load` is looked at between IN and M.
 */

const LOAD =
  'in: { pulled-down-in: [IN, M], does: home X, resistance: 4 kohm, on-above: 15 V, off-below: 5 V }';

/** A machine of a supply, a part with a load, and one part of a class with some circuits and settings. */
function machineWith(
  part: string,
  links: readonly string[],
  { load = LOAD, supply = 'voltage: 24 V' }: { load?: string; supply?: string } = {},
): string {
  return `machine: Bench
parts:
  feed: { class: supply, terminals: { all: [P, M] }, circuits: { out: { power-out: [P, M], ${supply} } } }
  load: { class: controller, terminals: { all: [IN, M] }, circuits: { ${load} } }
  it: ${part}
wiring:
  - feed.M -> load.M
${links.map((link) => `  - ${link}\n`).join('')}`;
}

const part = (partClass: string, terminals: string, circuits: string, more = '') =>
  `{ class: ${partClass}, terminals: { all: [${terminals}] }, circuits: { ${circuits} }${more} }`;

/** What an input sees at rest and operated, its levels, and who does that. */
function see(text: string, name = 'load.in') {
  const { rest, operations, idle } = inputOf(solveText(text), name);
  const [first] = operations;
  return {
    volts: [rest.value, first?.sight.value].map((value) => value && Number(value.toFixed(3))),
    levels: [rest.level, first?.sight.level],
    trouble: rest.trouble,
    actors: operations.map(({ actor }) => actor.name),
    idle: idle.map(({ name: actor }) => actor),
  };
}

/** The most that flows through a circuit in any state, in A. */
const mostThrough = (text: string, name: string) => {
  const loads = findLoads(solveText(text));
  const load = loads.find(({ element: { at } }) => `${at.part.name}.${at.circuit.name}` === name);
  return load && [Number(load.amps.toFixed(6)), load.rated];
};

describe('an output that pulls up', () => {
  const links = ['feed.P -> it.P', 'it.Q -> load.IN'];
  const source = (figures: string) =>
    machineWith(part('driver', 'P, Q', `q: { source-out: [Q, P]${figures} }`), links);
  it('keeps its drop, and leaks while it is off', () => {
    // 0.1 mA on 4 kohm; 24 V less 0.5 V
    expect(see(source(', drop: 0.5 V, leak: 0.1 mA')).volts).toEqual([0.4, 23.5]);
  });
  it('has none of which its sheet says nothing', () => {
    expect(see(source('')).volts).toEqual([0, 24]);
  });
  it('bears what its sheet says', () => {
    expect(mostThrough(source(', current: 5 mA'), 'it.q')).toEqual([0.006, 0.005]);
    expect(mostThrough(source(''), 'it.q')).toEqual([0.006, undefined]);
  });
});

describe('an output that pulls down', () => {
  const load =
    'in: { pulled-up-in: [IN, M], does: home X, pull: 24 V, resistance: 4 kohm, on-below: 5 V, off-above: 15 V }';
  const sink = (figures: string) =>
    machineWith(
      part('driver', 'Q, M', `q: { sink-out: [Q, M]${figures} }`),
      ['it.Q -> load.IN', 'it.M -> feed.M'],
      { load },
    );
  it('leaks while it is off, and keeps its drop while it is on', () => {
    // 1 mA on 4 kohm
    expect(see(sink(', leak: 1 mA, drop: 0.3 V'))).toMatchObject({ volts: [20, 0.3], levels: ['off', 'on'] });
    expect(see(sink('')).volts).toEqual([24, 0]);
  });
});

describe('an output that drives both ways', () => {
  const push = (figures: string) =>
    machineWith(part('driver', 'Q, P, M', `q: { push-pull-out: [Q, P, M]${figures} }`), [
      'feed.P -> it.P',
      'it.M -> feed.M',
      'it.Q -> load.IN',
    ]);
  it('loses its drop at its rated current, and in proportion at others', () => {
    // 2 V at 2 mA are 1 kohm, before 4 kohm
    expect(see(push(', drop: 2 V, current: 2 mA')).volts).toEqual([0, 19.2]);
  });
  it('pulls down at rest, through as much', () => {
    const load =
      'in: { pulled-up-in: [IN, M], does: home X, pull: 24 V, resistance: 4 kohm, on-below: 5 V, off-above: 15 V }';
    const links = ['feed.P -> it.P', 'it.M -> feed.M', 'it.Q -> load.IN'];
    const circuits = 'q: { push-pull-out: [Q, P, M], drop: 2 V, current: 2 mA }';
    // A fifth of 24 V
    expect(see(machineWith(part('driver', 'Q, P, M', circuits), links, { load })).volts).toEqual([4.8, 24]);
  });
  it.each([', drop: 2 V', ', current: 2 mA', ', drop: 0 V, current: 2 mA', ', drop: 2 V, current: 0 A'])(
    'loses nothing with%s alone',
    (figures) => {
      expect(see(push(figures)).volts).toEqual([0, 24]);
    },
  );
});

describe('a sensor', () => {
  const sensor = (figures: string) =>
    machineWith(part('sensor', 'P, M, O', `out: { sensor: [P, M, O], ${figures} }`), [
      'feed.P -> it.P',
      'it.M -> feed.M',
      'it.O -> load.IN',
    ]);
  it('that is closed at rest opens when it is operated, and leaks then', () => {
    const seen = see(sensor('switching: pnp, rest: closed, drop: 2 V, leak: 0.1 mA'));
    expect(seen).toMatchObject({ volts: [22, 0.4], levels: ['on', 'off'] });
  });
  it('that is open at rest leaks then', () => {
    expect(see(sensor('switching: pnp, rest: open, drop: 2 V, leak: 0.1 mA')).volts).toEqual([0.4, 22]);
  });
  it('without its span of voltages works on whatever is worth the name', () => {
    expect(see(sensor('switching: pnp, rest: open')).volts).toEqual([0, 24]);
    const low = sensor('switching: pnp, rest: open').replace('voltage: 24 V', 'voltage: 0.9 V');
    expect(see(low).actors).toEqual([]);
    expect(see(low.replace('0.9 V', '1 V')).volts).toEqual([0, 1]);
  });
  it('works from the least of its span on', () => {
    const at = (volts: number) =>
      sensor('switching: pnp, rest: open, voltage: 10..30 V').replace('voltage: 24 V', `voltage: ${volts} V`);
    expect(see(at(10)).volts).toEqual([0, 10]);
    expect(see(at(9.9)).actors).toEqual([]);
  });
  it('whose span is one voltage works at that and above', () => {
    const at = (volts: number) =>
      sensor('switching: pnp, rest: open, voltage: 12..12 V').replace('voltage: 24 V', `voltage: ${volts} V`);
    expect(see(at(12)).volts).toEqual([0, 12]);
    expect(see(at(11.9)).actors).toEqual([]);
  });
  it('draws its current in the middle of its span', () => {
    // 10 mA at 20 V are 2 kohm; the contact before it carries 12 mA for that, and 5.5 mA for its output.
    const text = benchMachine(
      ['psu', 'closed', 'pnp', 'reader'],
      [
        'psu.V+ -> closed.A',
        'closed.B -> pnp.P',
        'psu.V- -> pnp.M',
        'pnp.O -> reader.DN',
        'psu.V- -> reader.S0',
      ],
    );
    expect(mostThrough(text, 'closed.contact')).toEqual([0.0175, undefined]);
    expect(mostThrough(text.replace(', draws: 10 mA', ''), 'closed.contact')).toEqual([0.0055, undefined]);
    expect(mostThrough(text.replace(', voltage: 10..30 V, draws', ', draws'), 'closed.contact')).toEqual([
      0.0055,
      undefined,
    ]);
  });
});

describe('a sensor on two wires', () => {
  const sensor = (figures: string) =>
    machineWith(part('sensor', 'A, B', `out: { two-wire-sensor: [A, B], ${figures} }`), [
      'feed.P -> it.A',
      'it.B -> load.IN',
    ]);
  it('that is closed at rest leaks when it is operated', () => {
    expect(see(sensor('rest: closed, drop: 4 V, leak: 0.5 mA')).volts).toEqual([20, 2]);
  });
  it('of which nothing is said conducts as a wire and leaks nothing', () => {
    expect(see(sensor('rest: open')).volts).toEqual([0, 24]);
  });
});

describe('a load on a contact', () => {
  const fed = (figures: string) =>
    mostThrough(
      machineWith(
        part('switch', 'A, B', 'c: { contact: [A, B], rest: closed }'),
        ['feed.P -> it.A', 'it.B -> load.IN'],
        {
          load: `in: { power-in: [IN, M]${figures} }`,
        },
      ),
      'it.c',
    );
  it('draws its current in the middle of its span', () => {
    // 0.5 A at 25 V are 50 ohm.
    expect(fed(', voltage: 20..30 V, current: 0.5 A')).toEqual([0.48, undefined]);
  });
  it.each(['', ', voltage: 20..30 V', ', current: 0.5 A', ', voltage: 20..30 V, current: 0 A'])(
    'draws nothing that anybody knows with%s alone',
    (figures) => {
      expect(fed(figures)).toBeUndefined();
    },
  );
});

describe('a coil', () => {
  const coil = (figures: string, supply = 'voltage: 24 V') =>
    inputOf(
      solveText(
        machineWith(
          part('load', 'A, B', 'r: { resistor: [A, B], resistance: 1 kohm }'),
          ['feed.P -> it.A', 'it.B -> load.IN'],
          {
            load: `in: { coil: [IN, M]${figures} }`,
            supply,
          },
        ),
      ),
      'load.in',
    ).rest;
  it('surely works from 85 % of its voltage, and has let go at 10 %', () => {
    // IEC 60947-4-1; a coil of 3 kohm behind 1 kohm has three quarters of what is given.
    const { value, level, margin } = coil(', voltage: 20 V, resistance: 3 kohm');
    expect([value, margin].map((each) => Number(each?.toFixed(4)))).toEqual([18, 1]);
    expect(level).toBe('on');
    // 6 V of 24 V are between 2.4 V and 20.4 V, and nearer to the former.
    const between = coil(', voltage: 24 V, resistance: 3 kohm', 'voltage: 8 V');
    expect([between.level, Number(between.margin?.toFixed(4))]).toEqual(['uncertain', -3.6]);
    expect(coil(', voltage: 24 V, resistance: 3 kohm', 'voltage: 3 V').level).toBe('off');
  });
  it('bears a tenth more than its voltage', () => {
    const tooMuch = (volts: number) =>
      coil(', voltage: 24 V, resistance: 3 kohm', `voltage: ${volts} V`).isTooMuch;
    // Three quarters of 35.2 V are 26.4 V.
    expect([tooMuch(35), tooMuch(35.4)]).toEqual([false, true]);
  });
  it('has no thresholds where its voltage is not known, and is not solved without its resistance', () => {
    expect(coil(', resistance: 3 kohm')).toMatchObject({
      level: 'unknown',
      isTooMuch: false,
      trouble: undefined,
    });
    expect(coil(', voltage: 24 V')).toMatchObject({ value: undefined, trouble: 'lacks-figures' });
  });
});

describe('one threshold', () => {
  it.each([
    ['on-above: 15 V', 15, 'on', 'off'],
    ['off-below: 5 V', 5, 'on', 'off'],
  ])('alone, %s, is meant for both ways', (figure, volts) => {
    const at = (supply: number) =>
      see(
        machineWith(
          part('switch', 'A, B', 'c: { contact: [A, B], rest: closed }'),
          ['feed.P -> it.A', 'it.B -> load.IN'],
          {
            load: `in: { pulled-down-in: [IN, M], does: home X, resistance: 4 kohm, ${figure} }`,
            supply: `voltage: ${supply} V`,
          },
        ),
      ).levels[0];
    expect([at(volts + 0.01), at(volts - 0.01)]).toEqual(['on', 'off']);
  });
});

describe('the lamp of an input', () => {
  const lamp = (figures: string, [a, b] = ['IN', 'M']) =>
    inputOf(
      solveText(
        machineWith(
          part('load', 'A, B', 'r: { resistor: [A, B], resistance: 2 kohm }'),
          ['feed.P -> it.A', 'it.B -> load.IN'],
          {
            load: `in: { opto-in: [${a}, ${b}]${figures} }`,
          },
        ),
      ),
      'load.in',
    ).rest;
  const milliamps = (figures: string, ends?: [string, string]) =>
    Number(((lamp(figures, ends).value ?? Number.NaN) * 1e3).toFixed(4));
  it('takes the current that is left of its forward voltage, through its own resistor', () => {
    expect(milliamps(', forward: 1.2 V, series: 1 kohm')).toBe(7.6);
    // Without one it still has a slope of 1 ohm.
    expect(milliamps(', forward: 1.2 V')).toBe(Number((22.8 / 2.001).toFixed(4)));
  });
  it('takes none the wrong way round, unless it has two', () => {
    expect(milliamps(', forward: 1.2 V, series: 1 kohm', ['M', 'IN'])).toBe(0);
    expect(milliamps(', forward: 1.2 V, series: 1 kohm, either-way: yes', ['M', 'IN'])).toBe(7.6);
  });
  it('is not solved without its forward voltage', () => {
    expect(lamp(', series: 1 kohm')).toMatchObject({ value: undefined, trouble: 'lacks-figures' });
  });
  it('gets too much above what it bears', () => {
    const tooMuch = (most: string) => lamp(`, forward: 1.2 V, series: 1 kohm, most: ${most}`).isTooMuch;
    expect([tooMuch('7.7 mA'), tooMuch('7.5 mA')]).toEqual([false, true]);
  });
});

describe('a pair of lines', () => {
  const line = (out: string, input: string) =>
    see(
      machineWith(
        part('driver', 'A, B', `w: { line-out: [A, B]${out} }`),
        ['it.A -> load.IN', 'it.B -> load.M'],
        {
          load: `in: { line-in: [IN, M]${input} }`,
        },
      ),
    );
  it('is below nothing at rest and above it when it drives', () => {
    expect(line(', voltage: 3 V, resistance: 30 ohm', ', voltage: 0.2 V, resistance: 120 ohm')).toMatchObject(
      {
        volts: [-2.4, 2.4],
        levels: ['off', 'on'],
      },
    );
  });
  it('loses nothing where no resistance is stated', () => {
    expect(line(', voltage: 3 V', ', voltage: 0.2 V').volts).toEqual([-3, 3]);
  });
  it('is on for nobody where the receiver does not say from when', () => {
    expect(line(', voltage: 3 V', ', resistance: 120 ohm').levels).toEqual(['unknown', 'unknown']);
  });
  it('without its voltage drives nothing', () => {
    expect(line('', ', voltage: 0.2 V, resistance: 120 ohm')).toMatchObject({
      volts: [0, undefined],
      idle: ['it.w'],
    });
  });
});

describe('a voltage that says how much', () => {
  const analog = (out: string, input = ', span: 0..10 V, resistance: 9.9 kohm') =>
    see(
      machineWith(
        part('driver', 'S, G', `v: { analog-out: [S, G]${out} }`),
        ['it.S -> load.IN', 'it.G -> load.M'],
        {
          load: `in: { analog-in: [IN, M]${input} }`,
        },
      ),
    );
  it('goes from the least of its span to the most', () => {
    expect(analog(', span: 2..10 V, resistance: 100 ohm').volts).toEqual([1.98, 9.9]);
    expect(analog(', span: 2..10 V').volts).toEqual([2, 10]);
  });
  it('is seen in full where the one who looks takes nothing', () => {
    expect(analog(', span: 2..10 V, resistance: 100 ohm', ', span: 0..10 V').volts).toEqual([2, 10]);
  });
  it('without its span drives nothing', () => {
    expect(analog(', resistance: 100 ohm')).toMatchObject({ volts: [0, undefined], idle: ['it.v'] });
  });
});

describe('a contact', () => {
  const contact = (rest: string, set = '') => {
    const settings =
      ', settings: { c: { is: contact, circuit: k, choices: [normally-open, normally-closed, open, closed] } }';
    return see(
      machineWith(part('switch', 'A, B', `k: { contact: [A, B]${rest} }`, `${settings}${set}`), [
        'feed.P -> it.A',
        'it.B -> load.IN',
      ]),
    ).volts[0];
  };
  it.each([
    ['', '', 0],
    [', rest: open', '', 0],
    [', rest: closed', '', 24],
    [', rest: open', 'normally-closed', 24],
    [', rest: open', 'closed', 24],
    [', rest: closed', 'normally-open', 0],
    [', rest: closed', 'open', 0],
  ])('with%s in its sheet, set to "%s", lets %d V through', (rest, set, volts) => {
    expect(contact(rest, set && `, set: { c: ${set} }`)).toBe(volts);
  });
});

describe('of several actors', () => {
  const LIFTED = ['reader.S24 -> a.A', 'a.B -> reader.DN', 'reader.V5 -> b.A', 'b.B -> reader.DN'];
  it('the one that changes most comes first, and one that sets supplies against each other before all', () => {
    const actorsOf = (parts: Parameters<typeof benchMachine>[0], links: readonly string[]) =>
      inputOf(solveText(benchMachine(parts, links)), 'reader.down').operations.map(({ actor, sight }) => [
        actor.name,
        sight.value && Number(sight.value.toFixed(3)),
        sight.trouble,
      ]);
    expect(actorsOf(['reader', ['b', 'closed'], ['a', 'open']], LIFTED)).toEqual([
      ['a', undefined, 'contradiction'],
      ['b', 0, undefined],
    ]);
    expect(actorsOf(['reader', ['b', 'open'], ['a', 'open']], LIFTED)).toEqual([
      ['a', 24, undefined],
      ['b', 5, undefined],
    ]);
  });
  it('one that changes less than a thousandth changes nothing', () => {
    /** A resistor beside the input, which draws the voltage behind a resistor of 1 ohm down when it is switched on. */
    const idleBeside = (ohms: string) =>
      see(
        `machine: Bench
parts:
  feed: { class: supply, terminals: { all: [P, M] }, circuits: { out: { power-out: [P, M], voltage: 24 V } } }
  load: { class: controller, terminals: { all: [IN, M] }, circuits: { ${LOAD} } }
  series: ${part('load', 'A, B', 'r: { resistor: [A, B], resistance: 1 ohm }')}
  beside: ${part('load', 'A, B', `r: { resistor: [A, B], resistance: ${ohms} }`)}
  it: ${part('switch', 'A, B', 'c: { contact: [A, B], rest: open }')}
wiring:
  - feed.P -> series.A
  - series.B -> load.IN, it.A
  - it.B -> beside.A
  - beside.B -> feed.M, load.M
`,
      ).idle;
    // 1 ohm before 900 ohm loses 1.1 thousandths, before 1100 ohm 0.9 thousandths.
    expect([idleBeside('900 ohm'), idleBeside('1100 ohm')]).toEqual([[], ['it']]);
  });
});

describe('what carries a current is told', () => {
  it('of outputs, contacts and sensors, in the order of the machine', () => {
    const links = [
      'reader.S24 -> a.A',
      'a.B -> b.A',
      'b.B -> resistor.A',
      'resistor.B -> reader.DN',
      'reader.UP -> between.A',
      'between.B -> reader.S0',
    ];
    const parts = [['a', 'closed'], ['between', 'closed'], 'resistor', ['b', 'closed'], 'reader'] as const;
    const loads = findLoads(solveText(benchMachine(parts, links)));
    const told = loads.map(({ element: { at }, amps }) => [at.part.name, Number((amps * 1e3).toFixed(6))]);
    // The outputs that nothing is joined to have nothing to carry.
    expect(told.filter(([, milliamps]) => milliamps !== 0)).toEqual([
      ['a', 4],
      ['between', 6],
      ['b', 4],
    ]);
  });
});

describe('what is operated is called', () => {
  const actors = (partClass: string, circuits: string) =>
    see(
      machineWith(part(partClass, 'A, B, C, D', circuits), [
        'feed.P -> it.A, it.C',
        'it.B -> load.IN',
        'it.D -> load.IN',
      ]),
    ).actors;
  const two = (does: readonly [string, string]) =>
    `one: { contact: [A, B], rest: open${does[0]} }, two: { contact: [C, D], rest: open${does[1]} }`;
  it('by the part alone where its contacts move together', () => {
    expect(actors('switch', two(['', '']))).toEqual(['it']);
  });
  it('by the circuit too where a contact is there for something', () => {
    expect(actors('switch', two([', does: axis-select X', ', does: axis-select Y']))).toEqual([
      'it.one',
      'it.two',
    ]);
  });
  it('by the circuit of a controller, whose contacts are its outputs', () => {
    expect(actors('controller', two([', does: spindle run', ', does: spindle reverse']))).toEqual([
      'it.one',
      'it.two',
    ]);
  });
});

describe('a supply', () => {
  const supplied = (circuits: string, set: string, settings: string) =>
    see(
      `machine: Bench
parts:
  feed: { class: supply, terminals: { all: [P, M, Q] }, circuits: { ${circuits} }, settings: { ${settings} }${set} }
  load: { class: controller, terminals: { all: [IN, M] }, circuits: { ${LOAD} } }
  it: ${part('switch', 'A, B', 'c: { contact: [A, B], rest: closed }')}
wiring:
  - feed.M -> load.M
  - feed.P -> it.A
  - it.B -> load.IN
`,
    ).volts[0];
  const ONE = 'out: { power-out: [P, M], voltage: 24 V, trim: 20..28 V }';
  const TWO = `${ONE}, other: { power-out: [Q, M], voltage: 5 V }`;
  const volts = (circuit: string) => `v: { is: output-voltage${circuit}, unit: V, span: 0..28 V }`;
  it('gives what it is set to, by the circuit or as the only one of its part', () => {
    expect(supplied(ONE, ', set: { v: 26 V }', volts(', circuit: out'))).toBe(26);
    expect(supplied(ONE, ', set: { v: 26 V }', volts(''))).toBe(26);
    expect(supplied(TWO, ', set: { v: 26 V }', volts(', circuit: out'))).toBe(26);
  });
  it('gives what its sheet says where the setting could be that of another, is nothing, or is not set', () => {
    expect(supplied(TWO, ', set: { v: 26 V }', volts(''))).toBe(24);
    expect(supplied(ONE, ', set: { v: 0 V }', volts(''))).toBe(24);
    expect(supplied(ONE, '', volts(''))).toBe(24);
  });
});
