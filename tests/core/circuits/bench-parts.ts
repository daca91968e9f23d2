/** Small invented parts for machines of a few lines; figures are round, so that results can be worked out by hand. */
export const BENCH_PARTS = {
  /** Inputs of each kind, fed from 24 V; their common is joined inside. */
  reader: `{ class: controller, terminals: { all: [DC+, DC-, S24, S0, UP, DN, V5, OUT, SRC, SIG, G, L+, L-, AN] }, circuits: {
      supply: { power-in: [DC+, DC-], voltage: 20..30 V, current: 0.5 A }, ground: { joined: [DC-, S0, G] },
      sense: { power-out: [S24, S0], voltage: 24 V, current: 0.2 A }, logic: { power-out: [V5, G], voltage: 5 V },
      up: { pulled-up-in: [UP, S0], does: home X, pull: 24 V, resistance: 4 kohm, on-below: 5 V, off-above: 15 V },
      down: { pulled-down-in: [DN, S0], does: limit X far, resistance: 4 kohm, on-above: 15 V, off-below: 5 V },
      sink: { sink-out: [OUT, G], does: pulse X, drop: 0.3 V, current: 50 mA },
      push: { push-pull-out: [SRC, V5, G], does: direction X, drop: 0.2 V, current: 20 mA },
      voltage: { analog-out: [SIG, G], does: spindle speed, span: 0..10 V, resistance: 100 ohm, bits: 10 },
      line: { line-in: [L+, L-], does: handwheel A, voltage: 0.2 V, resistance: 120 ohm },
      measure: { analog-in: [AN, G], span: 0..10 V, resistance: 9.9 kohm } },
      settings: { use: { is: input-use, circuit: down, choices: [off, on], default: on }, sense: { is: input-sense, circuit: down, choices: [on-when-closed, on-when-open], default: on-when-closed } } }`,
  drive: `{ class: drive, terminals: { all: [P+, P-, D+, D-] }, circuits: {
      pulse: { opto-in: [P+, P-], does: pulse, forward: 1.2 V, series: 350 ohm, on-at: 6 mA, off-at: 1 mA, most: 20 mA },
      direction: { opto-in: [D+, D-], does: direction, forward: 1.2 V, series: 350 ohm, on-at: 6 mA, off-at: 1 mA, most: 20 mA, either-way: yes } } }`,
  open: `{ class: switch, terminals: { all: [A, B] }, circuits: { contact: { contact: [A, B], rest: open } } }`,
  closed: `{ class: switch, terminals: { all: [A, B] }, circuits: { contact: { contact: [A, B], rest: closed } } }`,
  changeover: `{ class: switch, terminals: { all: [C, NC, NO] }, circuits: { contact: { changeover: [C, NC, NO] } } }`,
  pnp: `{ class: sensor, terminals: { all: [P, M, O] }, circuits: { out: { sensor: [P, M, O], switching: pnp, rest: open, drop: 2 V, voltage: 10..30 V, draws: 10 mA } } }`,
  npn: `{ class: sensor, terminals: { all: [P, M, O] }, circuits: { out: { sensor: [P, M, O], switching: npn, rest: open, drop: 2 V, voltage: 10..30 V, draws: 10 mA } } }`,
  'two-wire': `{ class: sensor, terminals: { all: [A, B] }, circuits: { out: { two-wire-sensor: [A, B], rest: open, drop: 4 V, leak: 0.5 mA } } }`,
  psu: `{ class: supply, terminals: { all: [V+, V-] }, circuits: { output: { power-out: [V+, V-], voltage: 24 V, trim: 22..28 V } },
      settings: { output-voltage: { is: output-voltage, circuit: output, unit: V, span: 22..28 V } } }`,
  psu48: `{ class: supply, terminals: { all: [V+, V-] }, circuits: { output: { power-out: [V+, V-], voltage: 48 V } } }`,
  relay: `{ class: relay, terminals: { all: [A1, A2, 11, 12, 14, 23, 24] }, circuits: { coil: { coil: [A1, A2], voltage: 24 V, resistance: 1 kohm },
      contact: { changeover: [11, 12, 14] }, seal: { contact: [23, 24], rest: open } } }`,
  wheel: `{ class: handwheel, terminals: { all: [W+, W-] }, circuits: { a: { line-out: [W+, W-], does: handwheel A, voltage: 3 V, resistance: 30 ohm } } }`,
  resistor: `{ class: load, terminals: { all: [A, B] }, circuits: { r: { resistor: [A, B], resistance: 2 kohm } } }`,
  fuse: `{ class: fuse, terminals: { all: [A, B] }, circuits: { f: { fuse: [A, B], rating: 1 A } } }`,
} as const;

export type BenchPart = keyof typeof BENCH_PARTS;

/** A machine of bench parts: names by part, then links. Every part is called by its own name unless it says otherwise. */
export function benchMachine(
  parts: readonly (BenchPart | readonly [name: string, part: BenchPart, set?: string])[],
  links: readonly string[],
): string {
  const lines = parts.map((entry) => {
    const [name, part, set] = typeof entry === 'string' ? [entry, entry] : entry;
    const text = BENCH_PARTS[part];
    return `  ${name}: ${set === undefined ? text : text.replace(/\}\s*$/, `, set: { ${set} } }`)}`;
  });
  return ['machine: Bench', 'parts:', ...lines, 'wiring:', ...links.map((link) => `  - ${link}`), ''].join(
    '\n',
  );
}
