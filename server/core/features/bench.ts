import type { Circuit, Sheet } from '../model/sheet.ts';

/*
 * A bench for one part: a machine in which everything else is known, so that what is not computed is for want of a
 * figure on its sheet. It is a text like any other, and what is lacking is found by computing it.
 */

/** The text of a bench for a sheet that stands beside it; undefined for a class that has none. */
export function benchFor({ partClass, circuits }: Sheet, name: string): string | undefined {
  const own = [...circuits.values()];
  const quoted = JSON.stringify(name);
  switch (partClass) {
    case 'drive':
      return makeBench({ drive: quoted, motor: 'generic/stepper-57mm-1nm' }, own);
    case 'motor':
      return makeBench(
        { drive: 'generic/microstep-drive-50v', motor: quoted },
        [],
        [
          ...feed('drive', ['V+', 'V-']),
          '  - panel.V -> drive.PUL+, drive.DIR+',
          '  - panel.pulse -> drive.PUL-',
          '  - panel.direction -> drive.DIR-',
        ],
      );
    default:
      return undefined;
  }
}

const SIGNALS = ['pulse', 'direction', 'enable'] as const;
type Signal = (typeof SIGNALS)[number];

/** What the bench's own controller gives, with every time that a drive may ask for. */
const TIMES: Readonly<Record<Signal, string>> = {
  pulse: 'top-rate: 50 kHz, on-time: 10 us, off-time: 10 us',
  direction: 'lead: 50 us, hold: 50 us',
  enable: 'current: 100 mA',
};

/** The output that suits a kind of input, and how its terminals go to the two ends of that input. */
const PARTNERS: ReadonlyMap<string, (signal: Signal) => Partner> = new Map<
  string,
  (signal: Signal) => Partner
>([
  ['opto-in', (signal) => ({ output: `sink-out: [${signal}, G]`, ends: ['V', signal] })],
  ['pulled-up-in', (signal) => ({ output: `sink-out: [${signal}, G]`, ends: [signal, 'G'] })],
  ['pulled-down-in', (signal) => ({ output: `source-out: [${signal}, V]`, ends: [signal, 'G'] })],
  [
    'line-in',
    (signal) => ({
      output: `line-out: [${signal}, ${signal}-], voltage: 3 V, resistance: 30 ohm`,
      ends: [signal, `${signal}-`],
    }),
  ],
]);

interface Partner {
  readonly output: string;
  readonly ends: readonly string[];
}

function makeBench(
  sheets: { readonly drive: string; readonly motor: string },
  circuits: readonly Circuit[],
  links: readonly string[] = [],
): string {
  const wiring = [...links];
  const outputs = SIGNALS.map((signal) => {
    const input = circuits.find(({ does }) => does?.word === signal);
    const partner = PARTNERS.get(input?.kind ?? '')?.(signal);
    const { output, ends } = partner ?? { output: `sink-out: [${signal}, G]`, ends: [] };
    for (const [index, end] of ends.entries())
      wiring.push(`  - panel.${end} -> drive.${input?.ends[index]?.text ?? ''}`);
    return `${signal}: { ${output}, does: ${signal} X, ${TIMES[signal]} }`;
  });
  const supply = circuits.find(({ kind }) => kind === 'power-in');
  if (supply)
    wiring.push(
      ...feed(
        'drive',
        supply.ends.map(({ text }) => text),
      ),
    );
  return `machine: Bench
parts:
  drive: { sheet: ${sheets.drive} }
  motor: { sheet: ${sheets.motor} }
  psu: { class: supply, terminals: { out: [V+, V-] }, circuits: { out: { power-out: [V+, V-], voltage: ${middleOf(supply)}, current: 20 A } } }
  panel: { class: controller, terminals: { t: [V, G, ${SIGNALS.map((signal) => `${signal}, ${signal}-`).join(', ')}] }, circuits: { five: { power-out: [V, G], voltage: 5 V, current: 1 A }, ${outputs.join(', ')} } }
wiring:
${wiring.join('\n')}
axes:
  X:
    drive: drive
    motor: motor
    travel: 300 mm
    screw: { lead: 5 mm, root: 13 mm, length: 400 mm, ends: fixed-supported, efficiency: 90 %, nut-speed: 3000 rpm }
    mass: 5 kg
    friction: 0.02
    force: 50 N
    feed: 1500 mm/min
    acceleration: 300 mm/s2
    homing: { feed: 600 mm/min, creep: 30 mm/min }
`;
}

function feed(part: string, [plus, minus]: readonly string[]): string[] {
  return [`  - psu.V+ -> ${part}.${plus}`, `  - psu.V- -> ${part}.${minus}`];
}

/** A voltage in the middle of what a part takes; 36 V where its sheet does not say. */
function middleOf(supply: Circuit | undefined): string {
  const span = supply?.figures.span('voltage')?.value;
  return span ? `${(span.least.value + span.most.value) / 2} V` : '36 V';
}
