import { said, say } from '../../core/language/say.ts';
import { CARRIERS, MAINS_CHOICES } from '../../core/start/machine.ts';
import { PART_CLASSES } from '../../core/start/sheet.ts';
import { type Question, readAxes, readNetwork, readText, readWord, readYes } from './answers.ts';

const CARRIER_WORDS = Object.keys(CARRIERS);
const CLASS_WORDS = PART_CLASSES.map(([name]) => name);

/** What has to be known for a machine that is begun. */
export const ABOUT_MACHINE = {
  name: { option: 'name', prompt: () => say`What is the machine called`, usual: undefined, read: readText },
  mains: {
    option: 'mains',
    prompt: () => say`Supply network (${MAINS_CHOICES.join(', ')})`,
    usual: MAINS_CHOICES[0],
    read: readNetwork,
  },
  axes: { option: 'axes', prompt: () => say`Axes`, usual: 'XYZ', read: readAxes },
  carrier: {
    option: 'carrier',
    prompt: () =>
      say`Carrier of the linear axes (${Object.entries(CARRIERS)
        .map(([word, { about }]) => `${word}: ${said(about)}`)
        .join('; ')})`,
    usual: 'screw-5',
    read: readWord(CARRIER_WORDS),
  },
  spindle: {
    option: 'spindle',
    prompt: () => say`A spindle with a frequency converter`,
    usual: 'no',
    read: readYes,
  },
} as const satisfies Readonly<Record<string, Question<unknown>>>;

/** What has to be known for a part sheet that is begun. */
export const ABOUT_PART = {
  name: {
    option: 'name',
    prompt: () => say`What does its datasheet call the part`,
    usual: undefined,
    read: readText,
  },
  class: {
    option: 'class',
    prompt: () => say`What sort of part (${CLASS_WORDS.join(', ')})`,
    usual: undefined,
    read: readWord(CLASS_WORDS),
  },
  source: {
    option: 'source',
    prompt: () => say`Where are its facts read (title, revision, page)`,
    usual: 'its datasheet',
    read: readText,
  },
  terminals: {
    option: 'terminals',
    prompt: () => say`Its terminals as printed on it, with blanks between`,
    usual: '',
    read: (text: string) => ({ value: text.split(/[\s,]+/).filter(Boolean) }),
  },
} as const satisfies Readonly<Record<string, Question<unknown>>>;
