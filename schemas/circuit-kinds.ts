/** The groups in which the reference lists the kinds of circuits. */
type KindGroup = 'supply' | 'output' | 'input' | 'contact and sensor' | 'element';

/** What a circuit can be. Its figures are in circuits.ts. */
export interface CircuitKind {
  readonly group: KindGroup;
  /** What its terminals are, in order; one alone is written without a list. */
  readonly terminals: readonly string[];
  readonly doc: string;
}

function kind(group: KindGroup, terminals: readonly string[], doc: string): CircuitKind {
  return { group, terminals, doc };
}

/** Every kind of circuit by its key, in the order in which the reference lists them. */
export const CIRCUIT_KINDS: ReadonlyMap<string, CircuitKind> = new Map([
  ['power-in', kind('supply', ['plus', 'minus'], 'Where the part takes its supply.')],
  ['power-out', kind('supply', ['plus', 'minus'], 'Where the part gives a supply to others.')],
  ['mains-in', kind('supply', ['live', 'neutral'], 'Where the part is fed from the mains.')],
  ['earth', kind('supply', ['earth'], 'Where the part is joined to protective earth.')],
  [
    'joined',
    kind('supply', ['any', 'any', '…'], 'Terminals that are one inside the part, such as its commons.'),
  ],
  ['sink-out', kind('output', ['out', 'return'], 'A transistor that pulls its output down to the return.')],
  ['source-out', kind('output', ['out', 'plus'], 'A transistor that pulls its output up to the plus.')],
  [
    'push-pull-out',
    kind(
      'output',
      ['out', 'plus', 'minus'],
      'An output that drives both up to the plus and down to the minus.',
    ),
  ],
  [
    'line-out',
    kind(
      'output',
      ['plus', 'minus'],
      'One half of a pair in the style of RS-422: two outputs that are always opposite.',
    ),
  ],
  [
    'line-in',
    kind(
      'input',
      ['plus', 'minus'],
      'The other half of a pair in the style of RS-422: it looks at the difference of two signals.',
    ),
  ],
  ['contact', kind('contact and sensor', ['a', 'b'], 'A contact of metal, as in a switch or a relay.')],
  [
    'changeover',
    kind(
      'contact and sensor',
      ['common', 'closed', 'open'],
      'A contact that joins its common to one of two terminals: to `closed` at rest, to `open` when operated.',
    ),
  ],
  [
    'pulled-up-in',
    kind(
      'input',
      ['in', 'return'],
      'An input that is pulled up inside and turns on when it is pulled down to the return.',
    ),
  ],
  [
    'pulled-down-in',
    kind(
      'input',
      ['in', 'return'],
      'An input that is pulled down inside and turns on when a plus is put on it.',
    ),
  ],
  [
    'opto-in',
    kind(
      'input',
      ['anode', 'cathode'],
      'The lamp of an optocoupler: it turns on when enough current flows from anode to cathode.',
    ),
  ],
  [
    'sensor',
    kind('contact and sensor', ['plus', 'minus', 'out'], 'A sensor on three wires with a transistor output.'),
  ],
  [
    'two-wire-sensor',
    kind(
      'contact and sensor',
      ['a', 'b'],
      'A sensor on two wires, in series with its load. It lives on what leaks through it.',
    ),
  ],
  ['analog-out', kind('output', ['signal', 'return'], 'A voltage that says how much.')],
  ['analog-in', kind('input', ['signal', 'return'], 'It measures a voltage that says how much.')],
  ['coil', kind('element', ['a', 'b'], 'The coil of a relay, contactor or valve.')],
  ['resistor', kind('element', ['a', 'b'], 'A resistor.')],
  ['fuse', kind('element', ['a', 'b'], 'A fuse or a circuit breaker.')],
  ['phase-out', kind('output', ['plus', 'minus'], 'One phase of a stepper drive.')],
  ['winding', kind('element', ['plus', 'minus'], 'One winding of a motor.')],
  ['three-phase-out', kind('output', ['u', 'v', 'w'], 'The output of a frequency converter.')],
  ['three-phase-in', kind('element', ['u', 'v', 'w'], 'A motor with three phases, or a part fed by three.')],
  ['screen', kind('supply', ['screen'], 'Where the screen of a cable can be joined.')],
]);
