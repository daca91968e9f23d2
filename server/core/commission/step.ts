import { later } from '../language/say.ts';

/** The stages of bringing a machine up, in the order in which one depends on the other. */
export const STAGES = [
  'isolated',
  'earth',
  'supplies',
  'emergency-stop',
  'inputs',
  'settings',
  'directions',
  'limits',
  'scales',
  'homing',
  'handwheel',
  'spindle',
] as const;
export type Stage = (typeof STAGES)[number];

/** Their headings, and the cautions that hold for every step of a stage. */
export const STAGE_TEXTS: Readonly<
  Record<Stage, { readonly title: string; readonly cautions: readonly string[] }>
> = {
  isolated: {
    title: later`With the power off`,
    cautions: [
      later`Pull the plug or lock the isolator off, wait for capacitors to discharge, and prove that everything is dead with a tester that you have just seen work.`,
    ],
  },
  earth: {
    title: later`Protective earth`,
    cautions: [
      later`Still isolated. Local codes ask for a test by a licensed person before mains is connected for good.`,
    ],
  },
  supplies: {
    title: later`Supplies`,
    cautions: [
      later`Mains is live from here on: one hand, insulated probes, covers on what need not be reached. Switch off and wait before a wire is touched.`,
    ],
  },
  'emergency-stop': {
    title: later`Emergency stop`,
    cautions: [later`Nothing may move yet: motors and spindle unplugged or their supply fuses out.`],
  },
  inputs: {
    title: later`Inputs`,
    cautions: [
      later`Drives and spindle still without power: an input that reads wrongly may start something.`,
    ],
  },
  settings: { title: later`Settings`, cautions: [later`Drives and spindle still without power.`] },
  directions: {
    title: later`Directions`,
    cautions: [
      later`Something moves for the first time: axes in the middle of their travel, hands and hair away, a hand on the emergency stop.`,
    ],
  },
  limits: {
    title: later`Limit switches`,
    cautions: [later`A hand on the emergency stop; slow enough to stop before the hard stop.`],
  },
  scales: {
    title: later`Scales`,
    cautions: [later`Keep the whole path clear, and the tool out of the spindle.`],
  },
  homing: {
    title: later`Homing`,
    cautions: [later`A hand on the emergency stop: a switch that is not seen ends in the hard stop.`],
  },
  handwheel: { title: later`Handwheel`, cautions: [later`Smallest step first.`] },
  spindle: {
    title: later`Spindle`,
    cautions: [
      later`Tool and collet nut out, guard closed, nobody in the plane of rotation. A converter holds dangerous voltage for minutes after it was switched off.`,
    ],
  },
};

/** One thing to read off, and what it should be. */
export interface Expected {
  /** When or where, e.g. `at rest`. */
  readonly when: string;
  readonly shown: string;
  /** How far off is still right, with the reason for the figure. */
  readonly tolerance?: string;
}

/** A line of the commissioning list. */
export interface Step {
  /** Stable over edits, e.g. `input:panel.I2`; records name it. */
  readonly id: string;
  readonly stage: Stage;
  readonly title: string;
  /** What to do. */
  readonly act: string;
  /** Where the meter goes, or which terminals it is about, as `part.terminal`. */
  readonly terminals: readonly string[];
  readonly expected: readonly Expected[];
  /** What to change if it comes out wrong. */
  readonly remedy: string;
  /** Settings that have to do with it, as `part.setting`. */
  readonly settings: readonly string[];
  /** Cautions besides those of the stage. */
  readonly cautions: readonly string[];
  /** Steps that come first. */
  readonly after: readonly string[];
  /** What it is about, as the wiring summary names it: `part:…`, `axis:…` or `terminal:…`; empty for the whole machine. */
  readonly place: string;
  /** What a record of the result looks like; `?` stands where the reading goes. It is English in every language. */
  readonly record: string;
  /** The figures that it expects in one line, as a record keeps them; English as well. */
  readonly recorded: string;
}

/** The figures that a step expects in one line. */
export function expectedText({ expected }: Pick<Step, 'expected'>): string {
  return expected.map(({ when, shown }) => (when === '' ? shown : `${when} ${shown}`)).join('; ');
}
