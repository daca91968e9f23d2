import { later, say } from '../../core/language/say.ts';
import { keyInSettings } from '../../core/start/key-in.ts';
import { CARRIERS, type Carrier, MAINS_CHOICES, writeMachine } from '../../core/start/machine.ts';
import { writeSheet } from '../../core/start/sheet.ts';
import { CommandError, defineCommand, EXIT, type Streams } from '../command.ts';
import { saySheetLacks } from '../lacks.ts';
import { createLoader } from '../load.ts';
import { writeFileWhole } from '../output.ts';
import { answer } from './answers.ts';
import { ABOUT_MACHINE, ABOUT_PART } from './questions.ts';

/** `fettle new machine|part [FILE]`: a machine or a part sheet that is begun. */
export const begin = defineCommand({
  name: 'new',
  operands: 'machine|part [FILE]',
  about: later`begin a machine or a part sheet, from options or by answering a few questions`,
  details: later`Writes a machine with generic parts, its axes and the settings that follow, and no errors; or a part sheet with its
terminals. What no option answers is asked on a terminal; elsewhere the usual answer is taken. Without FILE the name is
made from the machine's or part's; - writes to standard output. A file that is there is never overwritten unasked.`,
  options: {
    name: { takes: 'NAME', about: later`what the machine or the part is called` },
    mains: { takes: 'NETWORK', about: () => say`the supply network: ${MAINS_CHOICES.join(', ')}` },
    axes: { takes: 'LETTERS', about: later`its axes, e.g. XYZ or XYZA` },
    carrier: {
      takes: 'CARRIER',
      about: () => say`what carries the linear axes: ${Object.keys(CARRIERS).join(', ')}`,
    },
    spindle: { takes: 'yes|no', about: later`whether it has a spindle with a frequency converter` },
    class: { takes: 'CLASS', about: later`what sort of part a part sheet is of, e.g. drive` },
    source: { takes: 'TEXT', about: later`where the facts of a part sheet are read: title, revision, page` },
    terminals: {
      takes: 'NAMES',
      about: later`the terminals of a part sheet as printed on the part, with blanks between`,
    },
    overwrite: { about: later`write the file even when it is there already` },
  },
  examples: [
    'fettle new machine',
    "fettle new machine router.machine.yaml --name 'Garden router' --axes XYZ --carrier screw-5 --spindle yes",
    "fettle new part drive.part.yaml --name 'Two-amp drive' --class drive --terminals 'PUL+ PUL- DIR+ DIR-'",
  ],
  run: async ({ operands, options }, streams) => {
    const [what, file, ...others] = operands;
    if ((what !== 'machine' && what !== 'part') || others.length > 0)
      throw new CommandError(
        say`new takes machine or part, and a file if you like, e.g. fettle new machine router.machine.yaml`,
      );
    const { title, text, after } =
      what === 'machine' ? await newMachine(options, streams) : await newSheet(options, streams);
    const path = file ?? `${slugOf(title)}.${what}.yaml`;
    if (path !== '-' && !new RegExp(`\\.${what}\\.ya?ml$`, 'i').test(path))
      throw new CommandError(say`${path} would not be known for what it is; call it NAME.${what}.yaml.`);
    if (path === '-') streams.out(text);
    else await writeNew(path, text, options.overwrite, streams);
    if (after !== undefined) streams.err(after);
    return EXIT.clean;
  },
});

interface Given {
  readonly name: string | undefined;
  readonly mains: string | undefined;
  readonly axes: string | undefined;
  readonly carrier: string | undefined;
  readonly spindle: string | undefined;
  readonly class: string | undefined;
  readonly source: string | undefined;
  readonly terminals: string | undefined;
}

/** What was begun. */
interface Begun {
  readonly title: string;
  readonly text: string;
  /** What to know of it once it is written. */
  readonly after?: string;
}

async function newMachine(given: Given, streams: Streams): Promise<Begun> {
  const name = await answer(ABOUT_MACHINE.name, given.name, streams);
  const mains = await answer(ABOUT_MACHINE.mains, given.mains, streams);
  const axes = await answer(ABOUT_MACHINE.axes, given.axes, streams);
  const carrier = await answer(ABOUT_MACHINE.carrier, given.carrier, streams);
  const spindle = await answer(ABOUT_MACHINE.spindle, given.spindle, streams);
  const begun = writeMachine({ name, mains, axes, carrier: carrier as Carrier, spindle });
  return { title: name, text: await keyIn(begun) };
}

/** Keys in what follows, in a world where nothing but the library is read. */
async function keyIn(text: string): Promise<string> {
  const { fettle, analysis } = await createLoader()('new.machine.yaml', text);
  return keyInSettings(text, (now) => fettle.analyse(analysis.file, now));
}

async function newSheet(given: Given, streams: Streams): Promise<Begun> {
  const part = await answer(ABOUT_PART.name, given.name, streams);
  const partClass = await answer(ABOUT_PART.class, given.class, streams);
  const source = await answer(ABOUT_PART.source, given.source, streams);
  const terminals = await answer(ABOUT_PART.terminals, given.terminals, streams);
  const text = writeSheet({ part, partClass, source, terminals });
  return { title: part, text, after: await sayWhatIsLacking(text) };
}

/** What the sheet still lacks, and for which computation, before anybody has opened it. */
async function sayWhatIsLacking(text: string): Promise<string> {
  const { fettle, analysis } = await createLoader()('new.part.yaml', text);
  return `\n${saySheetLacks(fettle, analysis)}`;
}

/** A file name from a title: small letters, figures and hyphens. */
function slugOf(title: string): string {
  const plain = title
    .normalize('NFKD')
    .replace(/\p{Mark}/gu, '')
    .toLowerCase();
  return (
    plain
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '')
      .slice(0, 60) || 'new'
  );
}

async function writeNew(path: string, text: string, overwrite: boolean, { err }: Streams): Promise<void> {
  await writeFileWhole(path, text, overwrite);
  const next = /\.part\.ya?ml$/i.test(path)
    ? say`Wrote ${path}. Next: circuits and settings from its datasheet. "fettle explain ${path}" tells what is still lacking.`
    : say`Wrote ${path}. Next: the sheets of your own parts, then the wiring. "fettle check ${path}" tells what is wrong.`;
  err(`${next}\n`);
}
