import { LINEAR_AXES } from '../../../schemas/index.ts';
import { asScalar } from '../findings/common/edits.ts';
import { later } from '../language/say.ts';

/** What carries the linear axes of a new machine. */
export const CARRIERS = {
  'screw-5': { about: later`screw, 5 mm lead`, text: 'screw: { lead: 5 mm }' },
  'screw-10': { about: later`screw, 10 mm lead`, text: 'screw: { lead: 10 mm }' },
  belt: { about: later`toothed belt, 3 mm pitch, 20 teeth`, text: 'belt: { pitch: 3 mm, teeth: 20 }' },
  rack: {
    about: later`rack and pinion, module 1 mm, 20 teeth, geared 5:1`,
    text: 'rack: { module: 1 mm, teeth: 20 }\n    gearing: 5:1',
  },
} as const;
export type Carrier = keyof typeof CARRIERS;

/** Supply networks that are usual; others can be written into the file. */
export const MAINS_CHOICES = ['230 V 50 Hz', '120 V 60 Hz', '3 x 400 V 50 Hz'] as const;

/** What has to be known for beginning a machine. */
export interface MachineAnswers {
  readonly name: string;
  readonly mains: string;
  readonly axes: readonly string[];
  readonly carrier: Carrier;
  readonly spindle: boolean;
}

/** A generic controller with the drives that suit its signals, and the axes that it has. */
const CONTROLLERS = [
  { axes: 'XY', sheet: 'generic/controller-2-axis', drive: 'generic/microstep-drive-50v', current: '2.5 A' },
  {
    axes: 'XYZ',
    sheet: 'generic/controller-3-axis',
    drive: 'generic/microstep-drive-line-inputs',
    current: '2.5 A',
  },
  {
    axes: 'XYZA',
    sheet: 'generic/controller-4-axis-isolated',
    drive: 'generic/microstep-drive-24v-inputs',
    current: '2.7 A',
  },
] as const;

/**
 * The text of a machine that is begun: its parts by generic sheets, its axes, and nothing wired yet, since a wire that
 * nobody has decided on would be a guess. The settings that follow from it are keyed in afterwards (see key-in.ts).
 */
export function writeMachine({ name, mains, axes, carrier, spindle }: MachineAnswers): string {
  const controller = CONTROLLERS.find((each) => axes.every((axis) => each.axes.includes(axis)));
  const { drive, current } = controller ?? CONTROLLERS[0];
  const parts: [string, string][] = [
    ['logic-psu', '{ sheet: generic/supply-24v, at: cabinet }'],
    ['motor-psu', '{ sheet: generic/supply-48v, at: cabinet, set: { output-voltage: 44.0 V } }'],
    ['stop-button', '{ sheet: generic/emergency-stop-button, at: desk }'],
    ...(controller
      ? [['panel', `{ sheet: ${controller.sheet}, at: cabinet-door }`] as [string, string]]
      : []),
    ...axes.flatMap((axis): [string, string][] => [
      [
        `drive-${axis.toLowerCase()}`,
        `{ sheet: ${drive}, at: cabinet, set: { microsteps: 8, phase-current: ${current} } }`,
      ],
      [`motor-${axis.toLowerCase()}`, '{ sheet: generic/stepper-57mm-1nm }'],
    ]),
    ...(spindle
      ? [
          ['converter', '{ sheet: generic/frequency-converter-1ph-750w, at: cabinet }'] as [string, string],
          ['spindle-motor', '{ sheet: generic/spindle-2-pole-800w }'] as [string, string],
        ]
      : []),
  ];
  const widest = Math.max(...parts.map(([part]) => part.length)) + 1;
  return [
    `# Begun with generic parts: put in the sheets of your own, then wire terminal after terminal.`,
    '# Mains voltage, moving machinery and stored energy: local codes and a licensed electrician have the last word.',
    `machine: ${asScalar(name)}`,
    'revision: 1',
    `mains: ${mains}`,
    `conventions: { wire-colours: ${mains.startsWith('120') ? 'NFPA' : 'IEC'} }`,
    '',
    'parts:',
    ...parts.map(([part, value]) => `  ${`${part}:`.padEnd(widest)} ${value}`),
    '',
    ...(axes.length > 0 ? ['axes:', ...axes.flatMap((axis) => writeAxis(axis, carrier))] : []),
    ...(spindle ? ['', 'spindle:', ...SPINDLE] : []),
    '',
  ].join('\n');
}

const SPINDLE = [
  '  converter:   converter',
  '  motor:       spindle-motor',
  '  top-speed:   24000 rpm',
  '  least-speed: 8000 rpm',
];

function writeAxis(axis: string, carrier: Carrier): string[] {
  const name = axis.toLowerCase();
  const start = [`  ${axis}:`, `    drive: drive-${name}`, `    motor: motor-${name}`];
  const isLinear = LINEAR_AXES.some((letter) => letter === axis);
  return isLinear
    ? [
        ...start,
        '    travel: 300 mm',
        `    ${CARRIERS[carrier].text}`,
        '    feed: 1500 mm/min',
        '    acceleration: 200 mm/s2',
      ]
    : [...start, '    travel: 360 deg', '    worm: 72:1', '    feed: 4 rpm', '    acceleration: 60 deg/s2'];
}
