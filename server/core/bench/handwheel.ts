import type { Circuit, Sheet } from '../model/sheet.ts';
import { type Draft, joinDrafts, TRIED } from './draft.ts';
import { endOf, feedAll, voltageFor } from './feeds.ts';

/** A bench for a handwheel: a controller that counts it, and looks at each of its selectors. */
export function handwheelBench(sheet: Sheet): Draft {
  const circuits = [...sheet.circuits.values()];
  const volts = voltageFor(sheet);
  const inputs = circuits.flatMap((circuit, place) => {
    const input = inputFor(circuit, place, volts);
    return input ? [input] : [];
  });
  const controller = `{ class: controller, terminals: { t: [G${inputs.flatMap(({ terminals }) => terminals.map((name) => `, ${name}`)).join('')}] }, circuits: { ${inputs.map(({ text }) => text).join(', ')} }, settings: { step: { is: handwheel-step, unit: mm, default: 0.01 mm } } }`;
  return joinDrafts(feedAll(sheet), {
    parts: inputs.length > 0 ? { panel: controller } : {},
    links: inputs.flatMap(({ links }) => links),
    sections: [`handwheel: { part: ${TRIED}, step: 0.01 mm, spin: 1 rev/s }`],
  });
}

interface Input {
  readonly terminals: readonly string[];
  readonly text: string;
  readonly links: readonly (readonly [string, string])[];
}

/** An input that suits a signal of the wheel; undefined for what is no signal. */
function inputFor(circuit: Circuit, place: number, volts: number): Input | undefined {
  const name = `I${place}`;
  const does = circuit.does
    ? `, does: ${[circuit.does.word, circuit.does.axis, circuit.does.last].filter(Boolean).join(' ')}`
    : '';
  switch (circuit.kind) {
    case 'line-out':
      return {
        terminals: [name, `${name}-`],
        text: `in-${place}: { line-in: [${name}, ${name}-]${does}, voltage: 0.2 V, resistance: 120 ohm }`,
        links: [
          [endOf(circuit, 0), `panel.${name}`],
          [endOf(circuit, 1), `panel.${name}-`],
        ],
      };
    case 'sink-out':
    case 'push-pull-out':
    case 'contact':
      return {
        terminals: [name],
        text: `in-${place}: { pulled-up-in: [${name}, G]${does}, pull: ${volts} V, resistance: 2.2 kohm, on-below: ${volts * 0.3} V, off-above: ${volts * 0.7} V }`,
        links: [
          [endOf(circuit, 0), `panel.${name}`],
          ['psu.V-', 'panel.G'],
          [circuit.kind === 'push-pull-out' ? endOf(circuit, 2) : endOf(circuit, 1), 'panel.G'],
        ],
      };
    default:
      return undefined;
  }
}
