import { type Change, describeWhatIf } from '../core/features/what-if.ts';
import { later, say } from '../core/language/say.ts';
import { CommandError, defineCommand, EXIT, type Streams } from './command.ts';
import { sayLacks, saySheetLacks } from './lacks.ts';
import { createLoader, type Loaded } from './load.ts';

/** `fettle explain FILE ADDRESS`: the working of one number, and with `--set` what it would be with other values; without an address, what is not computed. */
export const explainValue = defineCommand({
  name: 'explain',
  operands: 'FILE [ADDRESS]',
  about: later`how a number comes about, e.g. axes.X.top-feed, and what it would be with another value`,
  details: later`Shows the working of one number: the formula with this machine's figures, its source, and what depends on it.

What a spindle does at any speed, and an axis over any move, is asked with " at ": "spindle.wait-margin at 9000 rpm",
spindle.ramp-time, spindle.signal, spindle.signal-count; "axes.X.move-time at 30 mm", axes.X.move-peak.

Without an address it lists what is not computed of a machine, and which figure is lacking for it. A part sheet is put on
a bench where everything else is known, so that only its own figures are lacking.

With --set other values are tried without changing the file: the number before and after, and what else would change,
findings included. The address may then be left out. Paths: axes.X.screw.lead, parts.drive-x.microsteps (a setting),
records.0.within`,
  options: {
    set: { takes: 'PATH=VALUE', many: true, about: later`try another value without changing the file` },
  },
  examples: [
    'fettle explain examples/gantry-router/gantry-router.machine.yaml',
    'fettle explain sheets/drive.part.yaml',
    'fettle explain examples/gantry-router/gantry-router.machine.yaml axes.X.pulses-per-length',
    'fettle explain examples/gantry-router/gantry-router.machine.yaml "spindle.wait-margin at 9000 rpm"',
    'fettle explain examples/gantry-router/gantry-router.machine.yaml axes.X.top-feed --set parts.drive-x.microsteps=16',
  ],
  run: ({ operands, options }, streams) => printExplanation(operands, options.set, streams),
});

async function printExplanation(
  operands: readonly string[],
  set: readonly string[],
  streams: Streams,
): Promise<number> {
  const [file, address, ...others] = operands;
  if (file === undefined || others.length > 0) {
    throw new CommandError(
      say`explain takes a file and an address, e.g. fettle explain router.machine.yaml axes.X.top-feed`,
    );
  }
  const changes = set.map(readChange);
  const loaded = await createLoader()(file);
  const { fettle, analysis } = loaded;
  if (changes.length > 0) return explainChange(loaded, address, changes, streams);
  if (address === undefined) return printNotComputed(loaded, streams);
  const explanation = fettle.explain(analysis, address);
  const text = `${explanation.lines.join('\n')}\n`;
  if (explanation.kind === 'unknown') throw new CommandError(text.trim());
  streams.out(text);
  return explanation.kind === 'value' ? EXIT.clean : EXIT.findings;
}

/** What is lacking in a machine and its sheets, or in a sheet alone, and what is not computed for want of it. */
function printNotComputed({ fettle, analysis }: Loaded, streams: Streams): number {
  const lacks = analysis.kind === 'part' ? saySheetLacks(fettle, analysis) : undefined;
  streams.out(
    lacks ??
      sayLacks(say`${analysis.values.byAddress.size} values are computed`, fettle.notComputed(analysis)),
  );
  return EXIT.clean;
}

/** @throws CommandError for an address that is known neither before nor after, and for a path that is not there */
function explainChange(
  { fettle, analysis }: Loaded,
  address: string | undefined,
  changes: readonly Change[],
  streams: Streams,
): number {
  const tried = fettle.whatIf(analysis, changes);
  if (tried.kind === 'refused') throw new CommandError(tried.why);
  const explanation = address === undefined ? undefined : fettle.explain(tried.after, address);
  const isGone = tried.values.some((value) => value.id === address);
  if (explanation?.kind === 'unknown' && !isGone) throw new CommandError(explanation.lines.join('\n'));
  streams.out(`${describeWhatIf(tried, address).join('\n')}\n`);
  return explanation?.kind === 'missing' ? EXIT.findings : EXIT.clean;
}

/** @throws CommandError for what is not `PATH=VALUE` */
function readChange(text: string): Change {
  const at = text.indexOf('=');
  const [path, value] = [text.slice(0, at).trim(), text.slice(at + 1).trim()];
  if (at < 0 || path === '' || value === '')
    throw new CommandError(
      say`--set takes PATH=VALUE, e.g. --set parts.drive-x.microsteps=16; "${text}" is not.`,
    );
  return { path, value };
}
