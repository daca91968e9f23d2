import { type Change, describeWhatIf } from '../core/features/what-if.ts';
import { type Arguments, CommandError, EXIT, type Streams } from './command.ts';
import { createLoader, type Loaded } from './load.ts';

/** `fettle explain FILE ADDRESS`: the working of one number, and with `--set` what it would be with other values. */
export async function explainValue({ files, set }: Arguments, streams: Streams): Promise<number> {
  const [file, address, ...others] = files;
  if (file === undefined || (address === undefined && set.length === 0) || others.length > 0) {
    throw new CommandError(
      'explain takes a file and an address, e.g. fettle explain router.machine.yaml axes.X.top-feed',
    );
  }
  const changes = set.map(readChange);
  const loaded = await createLoader()(file);
  const { fettle, analysis } = loaded;
  if (changes.length > 0) return explainChange(loaded, address, changes, streams);
  const explanation = fettle.explain(analysis, address ?? '');
  const text = `${explanation.lines.join('\n')}\n`;
  if (explanation.kind === 'unknown') throw new CommandError(text.trim());
  streams.out(text);
  return explanation.kind === 'value' ? EXIT.clean : EXIT.findings;
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
  const isGone = tried.values.some((value) => value.address === address);
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
      `--set takes PATH=VALUE, e.g. --set parts.drive-x.microsteps=16; "${text}" is not.`,
    );
  return { path, value };
}
