import type { Sheet } from '../model/sheet.ts';

/** A setting that parts of a class mostly have, with an entry that would say it. */
export interface UsualSetting {
  readonly is: string;
  readonly axis: string | undefined;
  readonly entry: string;
}

/* What can be set on parts of a class and something is computed from, with the rest of its entry. */

const OF_EACH_AXIS: Readonly<Record<string, string>> = {
  'pulses-per-length': 'unit: /mm, decimals: 3, default: 100 /mm',
  'top-feed': 'unit: mm/min, decimals: 0, default: 1000 mm/min',
  acceleration: 'unit: mm/s2, decimals: 0, default: 100 mm/s2',
  travel: 'unit: mm, decimals: 1, default: 300 mm',
  'home-feed': 'unit: mm/min, decimals: 0, default: 1000 mm/min',
  'home-creep': 'unit: mm/min, decimals: 0, default: 30 mm/min',
};

const OF_CLASS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  drive: {
    microsteps: 'choices: [8], default: 8',
    'phase-current': 'unit: A, choices: [2.0 A], default: 2.0 A',
  },
  converter: {
    'top-frequency': 'unit: Hz, default: 400 Hz',
    'ramp-up': 'unit: s, default: 5 s',
  },
  controller: {
    'spindle-top-speed': 'unit: rpm, default: 24000 rpm',
    'spindle-wait': 'unit: s, default: 6 s',
    'handwheel-step': 'unit: mm, default: 0.01 mm',
  },
};

/** Settings that belong to something that not every part of the class has. */
const GOES_WITH: Readonly<Record<string, string>> = {
  'spindle-top-speed': 'spindle speed',
  'spindle-wait': 'spindle speed',
  'handwheel-step': 'handwheel A',
};

/** A drive whose turn is divided in pulses is a servo: it has neither microsteps nor a phase current to set. */
const NOT_OF_SERVOS: ReadonlySet<string> = new Set(['microsteps', 'phase-current']);

/** The settings that are usual for the class of a sheet and that it has not. */
export function settingsFor(sheet: Sheet): UsualSetting[] {
  const has = (is: string, axis?: string): boolean =>
    [...sheet.settings.values()].some(
      (setting) =>
        setting.is === is && (axis === undefined || setting.axis === undefined || setting.axis === axis),
    );
  const roles = [...sheet.circuits.values()].flatMap(({ does }) => does ?? []);
  const isWanted = (is: string): boolean =>
    !(NOT_OF_SERVOS.has(is) && has('pulses-per-turn')) &&
    (GOES_WITH[is] === undefined || roles.some(({ word }) => word === GOES_WITH[is]));
  const axes =
    sheet.partClass === 'controller'
      ? [...new Set(roles.flatMap(({ word, axis }) => (word === 'pulse' && axis ? [axis] : [])))]
      : [];
  return [
    ...Object.entries(OF_CLASS[sheet.partClass] ?? {}).flatMap(([is, rest]) =>
      has(is) || !isWanted(is) ? [] : [{ is, axis: undefined, entry: `${is}: { is: ${is}, ${rest} }` }],
    ),
    ...axes.flatMap((axis) =>
      Object.entries(OF_EACH_AXIS).flatMap(([is, rest]) =>
        has(is, axis)
          ? []
          : [
              {
                is,
                axis,
                entry: `${is}-${axis.toLowerCase()}: { is: ${is}, axis: ${axis}, ${turned(rest, axis)} }`,
              },
            ],
      ),
    ),
  ];
}

/** On a rotary axis angles take the place of lengths. */
function turned(entry: string, axis: string): string {
  return 'ABC'.includes(axis) ? entry.replaceAll('mm/min', 'deg/min').replaceAll('mm', 'deg') : entry;
}
