import { expect, it } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { type Random, randomFrom } from '../../support/random.ts';
import { worldOf } from '../../support/world.ts';
import { expectAsAnew } from '../keeping/as-anew.ts';

/*
 * What hangs on a source rests on what that reaches: loads, motors, coils, guards, what a conductor is for. Links of a
 * machine that has some of all of these are led elsewhere, and each time everything is said of it that would be said anew.
 */

const FILE = 'm.machine.yaml';
const ROUNDS = 6;
const EDITS = 8;

/** Two rails of drives, one of everything else, and a spindle on the mains. */
const PARTS = `machine: Two of each
mains: 230 V 50 Hz
conventions: { wire-colours: IEC }
parts:
  breaker: { sheet: generic/circuit-breaker-16a }
  earth: { sheet: generic/earth-bar-24 }
  power-a: { sheet: generic/supply-48v, set: { output-voltage: 44.0 V } }
  power-b: { sheet: generic/supply-48v, set: { output-voltage: 44.0 V } }
  logic: { sheet: generic/supply-24v }
  fuse-a: { sheet: generic/fuse-holder-6a }
  fuse-b: { sheet: generic/fuse-holder-6a }
  drive-a: { sheet: generic/microstep-drive-50v, set: { phase-current: 3.2 A } }
  drive-b: { sheet: generic/microstep-drive-50v, set: { phase-current: 3.2 A } }
  motor-a: { sheet: generic/stepper-57mm-2nm }
  motor-b: { sheet: generic/stepper-57mm-2nm }
  controller: { sheet: generic/controller-2-axis }
  button: { sheet: generic/push-button }
  relay: { sheet: generic/relay-24v }
  fan: { sheet: generic/fan-24v }
  converter: { sheet: generic/frequency-converter-1ph }
  spindle: { sheet: generic/spindle-2-pole-800w }
  heater: { class: load, terminals: { t: [A, B] }, circuits: { body: { resistor: [A, B], resistance: 24 ohm } } }
wiring:
`;

const LINKS = [
  ['mains.L -> breaker.1', '2.5 mm2 BN'],
  ...['power-a', 'power-b', 'logic', 'converter'].flatMap((part) => [
    [`breaker.2 -> ${part}.L`, '1.5 mm2 BN'],
    [`mains.N -> ${part}.N`, '1.5 mm2 BU'],
    [`earth.E1 -> ${part}.PE`, '2.5 mm2 GNYE'],
  ]),
  ['mains.PE -> earth.E2', '2.5 mm2 GNYE'],
  ...['a', 'b'].flatMap((x) => [
    [`power-${x}.V+ -> fuse-${x}.IN`, '1.5 mm2 BK'],
    [`fuse-${x}.OUT -> drive-${x}.V+`, '0.25 mm2 BK'],
    [`power-${x}.V- -> drive-${x}.V-`, '1.5 mm2 BK'],
    ...['A+', 'A-', 'B+', 'B-'].map((end) => [`drive-${x}.${end} -> motor-${x}.${end}`, '0.75 mm2 BN']),
    [`controller.5V -> drive-${x}.PUL+`, '0.25 mm2 BU'],
    [`controller.${x === 'a' ? 'X' : 'Y'}P -> drive-${x}.PUL-`, '0.25 mm2 BU'],
  ]),
  ['logic.V+ -> controller.DC+', '0.75 mm2 BU'],
  ['logic.V- -> controller.DC-', '0.75 mm2 BU'],
  ['logic.V+ -> button.C1', '0.5 mm2 BU'],
  ['button.C2 -> relay.A1', '0.5 mm2 BU'],
  ['relay.A2 -> logic.V-', '0.5 mm2 BU'],
  ['relay.14 -> fan.F+', '0.5 mm2 BU'],
  ['logic.V+ -> relay.11', '0.5 mm2 BU'],
  ['fan.F- -> logic.V-', '0.5 mm2 BU'],
  ['logic.V+ -> heater.A', '0.5 mm2 BU'],
  ['heater.B -> logic.V-', '0.5 mm2 BU'],
  ...['U', 'V', 'W'].map((end) => [`converter.${end} -> spindle.${end}`, '1.5 mm2 BK']),
  ['earth.E3 -> spindle.PE', '2.5 mm2 GNYE'],
];

const MACHINE =
  PARTS +
  LINKS.map(
    ([link, wire], n) => `  - { link: ${link}, wire: ${wire}, length: ${1 + (n % 5)} m, label: W${n} }\n`,
  ).join('');

/** What is exchanged in the parts: settings and sheets on which currents, limits and voltages rest, and where fuses are. */
const FIGURES = [
  ['44.0 V', '40.0 V'],
  ['3.2 A', '1.0 A'],
  ['fuse-holder-6a', 'fuse-holder-1a'],
  ['fuse-holder-6a }', 'fuse-holder-6a, at: cabinet }'],
  ['fuse-holder-6a, at: cabinet }', 'fuse-holder-6a, at: bed }'],
  ['supply-48v', 'supply-36v'],
  ['supply-24v', 'supply-24v-5a'],
  ['24 ohm', '240 ohm'],
] as const;

function edit(text: string, random: Random): string {
  const lines = text.split('\n');
  const links = [...lines.keys()].filter((line) => lines[line]?.includes(' -> '));
  const far = (line: number): string => / -> ([^,]+),/.exec(lines[line] ?? '')?.[1] ?? '';
  const lead = (line: number, end: string): void => {
    lines[line] = (lines[line] ?? '').replace(/ -> [^,]+,/, () => ` -> ${end},`);
  };
  const [one, other] = [random.oneOf(links), random.oneOf(links)];
  switch (random.below(6)) {
    case 0: {
      const [from, to] = random.oneOf(FIGURES);
      return text.includes(from) ? text.replace(from, to) : text.replace(to, from);
    }
    case 1:
      lines.splice(one, 1);
      break;
    case 2:
      lines.splice(one, 0, (lines[other] ?? '').replace('label: W', 'label: V'));
      break;
    case 3: {
      const [end, otherEnd] = [far(one), far(other)];
      lead(one, otherEnd);
      lead(other, end);
      break;
    }
    default:
      lead(one, far(other));
  }
  return lines.join('\n');
}

it.each(Array.from({ length: ROUNDS }, (_, seed) => seed + 1))(
  'whatever is led elsewhere, all is said as it would be said anew (%i)',
  (seed) => {
    const random = randomFrom(seed);
    const fettle = createFettle(worldOf(new Map()));
    let text = MACHINE;
    for (let each = 0; each < EDITS; each++) {
      // Few versions are asked for everything and some for nothing, and what was led elsewhere is often led back.
      if (random.below(4) === 0) fettle.findings(fettle.analyse(FILE, text));
      else expectAsAnew(fettle, new Map([[FILE, text]]), FILE, `${each} edits:\n${text}`, false);
      text = random.below(4) === 0 ? MACHINE : edit(text, random);
    }
  },
);

it('the machine is one of which much is known', () => {
  const analysis = createFettle(worldOf(new Map())).analyse(FILE, MACHINE);
  const addresses = [...analysis.values.byAddress.keys()];
  for (const kind of [/^wires\.W\d+\.drop-share$/, /^parts\..*\.load-share$/, /^parts\..*\.drop$/])
    expect(addresses.filter((address) => kind.test(address)).length).toBeGreaterThan(2);
});
