import { z } from 'zod';
import * as figure from './figures.ts';
import { choice, count, role, terminalRef, text, yesNo } from './leaf.ts';
import { kinds, named, optional } from './section.ts';

/** The groups in which the reference lists the kinds. */
export type KindGroup = 'supply' | 'output' | 'input' | 'contact and sensor' | 'element';

/** What a circuit can be: where it stands, and which figures it has. */
export interface CircuitKind {
  readonly group: KindGroup;
  /** What its terminals are, in order; one alone is written without a list. */
  readonly terminals: readonly string[];
  readonly doc: string;
  readonly schema: z.ZodObject;
}

const yes = (doc: string) => yesNo().describe(doc);
const ohms = (doc: string) => figure.resistance('0 ohm', '100 Mohm').describe(doc);
const bits = count(1, 32).describe('In how many bits it is resolved, such as `10` for 1024 steps.');
const drop = (doc: string) => figure.voltage('0 V', '20 V').describe(doc);
const most = (doc: string) => figure.current('0 A', '1000 A').describe(doc);
const upTo = (doc: string) => figure.voltage('0.5 V', '1500 V').describe(doc);
const leak = figure
  .smallCurrent('0 mA', '50 mA')
  .describe('The current that still flows while it is off, such as `0.1 mA`.');
const rest = choice({
  open: 'It conducts only while it is operated.',
  closed: 'It conducts until it is operated; a broken wire looks as if it were operated.',
}).describe('Whether it is open or closed while nothing operates it.');
const clamp = yes(
  '`yes` where a diode or the like takes up the voltage that a coil gives when it is switched off.',
);

const outputTiming = {
  'top-rate': figure
    .pulseRate('1 Hz', '50 MHz')
    .describe('The highest rate of pulses that it gives, such as `200 kHz`.'),
  'on-time': figure
    .signalTime('10 ns', '100 ms')
    .describe('How long it stays on for one pulse, such as `2.5 us`.'),
  'off-time': figure
    .signalTime('10 ns', '100 ms')
    .describe('How long it stays off between two pulses, such as `2.5 us`.'),
  lead: figure
    .signalTime('10 ns', '1 s')
    .describe(
      'For a direction output: how long it is steady before the pulse, where no setting says so, such as `5 us`.',
    ),
  hold: figure
    .signalTime('10 ns', '1 s')
    .describe('For a direction output: how long it stays steady after the pulse, such as `5 us`.'),
};

const inputTiming = {
  'top-rate': figure
    .pulseRate('1 Hz', '50 MHz')
    .describe('The highest rate of pulses that it follows, such as `200 kHz`.'),
  'least-on': figure
    .signalTime('10 ns', '100 ms')
    .describe('How long a pulse must at least be on, such as `2.5 us`.'),
  'least-off': figure
    .signalTime('10 ns', '100 ms')
    .describe('How long it must at least be off between two pulses, such as `2.5 us`.'),
  lead: figure
    .signalTime('50 ns', '1 ms')
    .describe('For a direction input: how long before the pulse it must be steady, such as `5 us`.'),
  hold: figure
    .signalTime('0 us', '1 ms')
    .describe('For a direction input: how long after the pulse it must stay steady, such as `5 us`.'),
  delay: figure
    .signalTime('0 us', '5 s')
    .describe('How long it takes to notice a change, such as `10 ms` for a debounced input.'),
};

const transistor = (falls: string) => ({
  drop: drop(falls),
  current: figure
    .smallCurrent('0 mA', '50 A')
    .describe('The most current that it switches, such as `50 mA`.'),
  leak,
  clamp,
  ...outputTiming,
});

/** Where a circuit stands: one terminal, or a list with a fixed place for each. */
function placesOf(places: readonly string[]): z.ZodType {
  const [first, ...others] = places.map((place) =>
    terminalRef('part').describe(`The terminal of its ${place} end.`),
  );
  if (!first || others.length === 0) return terminalRef('part');
  return z.tuple([first, ...others]);
}

const described = (places: readonly string[]) =>
  places.length === 1 ? 'The terminal' : `The terminals, in this order: ${places.join(', ')}`;

function kindOf(
  name: string,
  group: KindGroup,
  terminals: readonly string[],
  doc: string,
  figures: Readonly<Record<string, z.ZodType>>,
  schema: z.ZodType = placesOf(terminals),
): [string, CircuitKind] {
  const keys = {
    [name]: schema.describe(`${doc} ${described(terminals)}.`),
    ...optional({
      does: role().describe('What the part uses it for, such as `pulse X` or `emergency-stop`.'),
      about: text().describe('What the datasheet says about it, in a line.'),
      ...figures,
    }),
  };
  return [name, { group, terminals, doc, schema: z.strictObject(keys).describe(doc) }];
}

const joined = z.array(terminalRef('part')).min(2);

/** Every kind of circuit, in the order in which the reference lists them. */
export const CIRCUIT_KINDS: ReadonlyMap<string, CircuitKind> = new Map([
  kindOf('power-in', 'supply', ['plus', 'minus'], 'Where the part takes its supply.', {
    voltage: figure.voltageSpan('0.5 V', '1500 V').describe('The voltage that it takes, such as `18..32 V`.'),
    current: most('The current that it draws at most, such as `0.6 A`.'),
    inrush: most('The current that it draws for a moment when it is switched on, such as `20 A`.'),
  }),
  kindOf('power-out', 'supply', ['plus', 'minus'], 'Where the part gives a supply to others.', {
    voltage: upTo('The voltage that it gives, such as `24 V`.'),
    current: most('The current that it gives at most, such as `5 A`.'),
    trim: figure
      .voltageSpan('0.5 V', '1500 V')
      .describe('Within which voltages it can be trimmed, such as `22..28 V`.'),
    ripple: figure
      .voltage('0 V', '20 V')
      .describe('How far the voltage swings, peak to peak, such as `150 mV`.'),
  }),
  kindOf('mains-in', 'supply', ['live', 'neutral'], 'Where the part is fed from the mains.', {
    voltage: figure
      .voltageSpan('10 V', '1000 V')
      .describe('The mains voltage that it takes, such as `100..240 V`.'),
    current: most('The current that it draws from the mains at most, such as `1.3 A`.'),
  }),
  kindOf('earth', 'supply', ['earth'], 'Where the part is joined to protective earth.', {}),
  kindOf(
    'joined',
    'supply',
    ['any', 'any', '…'],
    'Terminals that are one inside the part, such as its commons.',
    {},
    joined,
  ),
  kindOf(
    'sink-out',
    'output',
    ['out', 'return'],
    'A transistor that pulls its output down to the return.',
    transistor('The voltage left across it while it is on, such as `0.3 V`.'),
  ),
  kindOf(
    'source-out',
    'output',
    ['out', 'plus'],
    'A transistor that pulls its output up to the plus.',
    transistor('The voltage lost across it while it is on, such as `0.5 V`.'),
  ),
  kindOf(
    'push-pull-out',
    'output',
    ['out', 'plus', 'minus'],
    'An output that drives both up to the plus and down to the minus.',
    {
      drop: drop('The voltage lost across it either way, such as `0.4 V`.'),
      current: figure
        .smallCurrent('0 mA', '50 A')
        .describe('The most current that it drives either way, such as `20 mA`.'),
      ...outputTiming,
    },
  ),
  kindOf(
    'line-out',
    'output',
    ['plus', 'minus'],
    'One half of a pair in the style of RS-422: two outputs that are always opposite.',
    {
      voltage: upTo('The voltage between the two, such as `2 V`.'),
      resistance: ohms('The resistance inside it, such as `30 ohm`.'),
      ...outputTiming,
    },
  ),
  kindOf(
    'line-in',
    'input',
    ['plus', 'minus'],
    'The other half of a pair in the style of RS-422: it looks at the difference of two signals.',
    {
      voltage: figure
        .voltage('0 V', '50 V')
        .describe('The difference from which on it is sure, such as `0.2 V`.'),
      resistance: ohms('The resistance between the two, such as `120 ohm`.'),
      ...inputTiming,
    },
  ),
  kindOf('contact', 'contact and sensor', ['a', 'b'], 'A contact of metal, as in a switch or a relay.', {
    rest,
    voltage: upTo('The most voltage that it switches, such as `30 V`.'),
    current: most('The most current that it switches, such as `5 A`.'),
    'direct-opening': yes(
      '`yes` where the actuator forces the contact open even when it has welded, as IEC 60947-5-1 asks of emergency stops.',
    ),
    delay: figure
      .duration('0 ms', '5 s')
      .describe('How long it takes to follow, such as `10 ms` for a relay.'),
  }),
  kindOf(
    'changeover',
    'contact and sensor',
    ['common', 'closed', 'open'],
    'A contact that joins its common to one of two terminals: to `closed` at rest, to `open` when operated.',
    {
      voltage: upTo('The most voltage that it switches, such as `250 V`.'),
      current: most('The most current that it switches, such as `5 A`.'),
      delay: figure.duration('0 ms', '5 s').describe('How long it takes to follow, such as `10 ms`.'),
    },
  ),
  kindOf(
    'pulled-up-in',
    'input',
    ['in', 'return'],
    'An input that is pulled up inside and turns on when it is pulled down to the return.',
    {
      pull: figure
        .voltage('0.5 V', '100 V')
        .describe('The voltage to which it is pulled up, such as `24 V`.'),
      resistance: ohms('The resistance through which it is pulled up, such as `4.7 kohm`.'),
      'on-below': figure
        .voltage('0 V', '100 V')
        .describe('Below which voltage it is surely on, such as `5 V`.'),
      'off-above': figure
        .voltage('0 V', '100 V')
        .describe('Above which voltage it is surely off, such as `15 V`.'),
      ...inputTiming,
    },
  ),
  kindOf(
    'pulled-down-in',
    'input',
    ['in', 'return'],
    'An input that is pulled down inside and turns on when a plus is put on it.',
    {
      resistance: ohms('The resistance through which it is pulled down, such as `4.7 kohm`.'),
      'on-above': figure
        .voltage('0 V', '100 V')
        .describe('Above which voltage it is surely on, such as `15 V`.'),
      'off-below': figure
        .voltage('0 V', '100 V')
        .describe('Below which voltage it is surely off, such as `5 V`.'),
      ...inputTiming,
    },
  ),
  kindOf(
    'opto-in',
    'input',
    ['anode', 'cathode'],
    'The lamp of an optocoupler: it turns on when enough current flows from anode to cathode.',
    {
      forward: figure
        .voltage('0.5 V', '10 V')
        .describe('The voltage across the lamp while it is on, such as `1.2 V`.'),
      series: ohms('The resistance in series with the lamp inside the part, such as `270 ohm`.'),
      'on-at': figure
        .smallCurrent('10 uA', '100 mA')
        .describe('From which current on it is surely on, such as `6 mA`.'),
      'off-at': figure
        .smallCurrent('0 mA', '100 mA')
        .describe('Up to which current it is surely off, such as `1 mA`.'),
      most: figure
        .smallCurrent('0.1 mA', '500 mA')
        .describe('The most current that it bears, such as `20 mA`.'),
      'either-way': yes('`yes` where two lamps face opposite ways, so that the direction does not matter.'),
      ...inputTiming,
    },
  ),
  kindOf(
    'sensor',
    'contact and sensor',
    ['plus', 'minus', 'out'],
    'A sensor on three wires with a transistor output.',
    {
      switching: choice({
        pnp: 'It puts its plus on the output: it sources.',
        npn: 'It puts its minus on the output: it sinks.',
      }).describe('Which way its output switches.'),
      rest,
      drop: drop('The voltage lost across its output while it is on, such as `1.5 V`.'),
      voltage: figure
        .voltageSpan('0.5 V', '300 V')
        .describe('The supply voltage that it takes, such as `10..30 V`.'),
      current: figure
        .smallCurrent('0 mA', '50 A')
        .describe('The most current that its output switches, such as `200 mA`.'),
      draws: figure
        .smallCurrent('0 mA', '1 A')
        .describe('The current that it draws itself, such as `10 mA`.'),
      leak,
      delay: figure.duration('0 ms', '5 s').describe('How long it takes to follow, such as `1 ms`.'),
    },
  ),
  kindOf(
    'two-wire-sensor',
    'contact and sensor',
    ['a', 'b'],
    'A sensor on two wires, in series with its load. It lives on what leaks through it.',
    {
      rest,
      drop: drop('The voltage left across it while it is on, such as `4 V`.'),
      leak,
      least: figure
        .smallCurrent('0 mA', '1 A')
        .describe('The current that must flow at least while it is on, such as `3 mA`.'),
      voltage: figure
        .voltageSpan('0.5 V', '300 V')
        .describe('The supply voltage that it takes, such as `10..30 V`.'),
      current: figure
        .smallCurrent('0 mA', '50 A')
        .describe('The most current that it switches, such as `100 mA`.'),
      delay: figure.duration('0 ms', '5 s').describe('How long it takes to follow, such as `1 ms`.'),
    },
  ),
  kindOf('analog-out', 'output', ['signal', 'return'], 'A voltage that says how much.', {
    span: figure
      .voltageSpan('-50 V', '50 V')
      .describe('From which voltage to which it goes, such as `0..10 V`.'),
    resistance: ohms('The resistance inside it, such as `100 ohm`.'),
    bits,
  }),
  kindOf('analog-in', 'input', ['signal', 'return'], 'It measures a voltage that says how much.', {
    span: figure.voltageSpan('-50 V', '50 V').describe('Which voltages it takes, such as `0..10 V`.'),
    resistance: ohms('The resistance between signal and return, such as `47 kohm`.'),
    bits,
  }),
  kindOf('coil', 'element', ['a', 'b'], 'The coil of a relay, contactor or valve.', {
    voltage: upTo('The voltage that it is made for, such as `24 V`.'),
    resistance: ohms('Its resistance, such as `576 ohm`.'),
    clamp,
  }),
  kindOf('resistor', 'element', ['a', 'b'], 'A resistor.', {
    resistance: ohms('Its resistance, such as `1.8 kohm`.'),
    power: figure.power('1 mW', '10 kW').describe('The power that it bears, such as `0.5 W`.'),
  }),
  kindOf('fuse', 'element', ['a', 'b'], 'A fuse or a circuit breaker.', {
    rating: figure.current('10 mA', '1000 A').describe('Its rated current, such as `6.3 A`.'),
    curve: text().describe('How quickly it trips, as printed on it, such as `C`, `gG` or `T`.'),
  }),
  kindOf('phase-out', 'output', ['plus', 'minus'], 'One phase of a stepper drive.', {
    current: most(
      'The most current that it gives, such as `4.2 A`; the sheet’s `current-basis` says peak or rms.',
    ),
    resistance: ohms('The resistance inside it, such as `0.1 ohm`.'),
    inductance: figure
      .inductance('0.01 mH', '1 H')
      .describe('The least inductance that it works with, such as `1 mH`.'),
  }),
  kindOf('winding', 'element', ['plus', 'minus'], 'One winding of a motor.', {
    current: most('Its rated current, such as `4.2 A`; the sheet’s `current-basis` says peak or rms.'),
    resistance: ohms('Its resistance, such as `0.9 ohm`.'),
    inductance: figure.inductance('0.01 mH', '1 H').describe('Its inductance, such as `3.2 mH`.'),
  }),
  kindOf('three-phase-out', 'output', ['u', 'v', 'w'], 'The output of a frequency converter.', {
    voltage: upTo('The voltage between two phases, such as `230 V`.'),
    current: most('The current that it gives at most, such as `7 A`.'),
  }),
  kindOf('three-phase-in', 'element', ['u', 'v', 'w'], 'A motor with three phases, or a part fed by three.', {
    voltage: figure
      .voltageSpan('10 V', '1000 V')
      .describe('The voltage between two phases that it takes, such as `220 V`.'),
    current: most('The current that it draws at most, such as `6 A`.'),
  }),
  kindOf('screen', 'supply', ['screen'], 'Where the screen of a cable can be joined.', {}),
]);

const kindSchemas = [...CIRCUIT_KINDS.values()].map((kind) => kind.schema);

const circuit = z.union(kindSchemas);
kinds.add(circuit, { of: 'circuit' });
circuit.register(z.globalRegistry, { id: 'circuit' });

/** What is inside the part, between its terminals. */
export const circuits = named(
  circuit.describe('One circuit of the part: what it is, between which terminals, and its figures.'),
);
