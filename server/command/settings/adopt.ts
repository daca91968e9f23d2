import { whatIf } from '../../core/features/what-if.ts';
import { say } from '../../core/language/say.ts';
import type { Comparison } from '../../core/summary/settings/compare.ts';
import { CommandError, EXIT, type Streams } from '../command.ts';
import type { Loaded } from '../load.ts';
import { writeFileWhole } from '../output.ts';

/** Writes what was keyed in into the definition, each value in its place; nothing else of the text changes. */
export async function adopt(
  { analysis, path }: Loaded,
  { compared }: Comparison,
  streams: Streams,
): Promise<number> {
  const changes = compared.flatMap((each) =>
    each.kind === 'differs'
      ? [{ path: `parts.${each.row.part}.${each.row.setting}`, value: each.written }]
      : [],
  );
  const refused = compared.filter(({ kind }) => kind === 'unknown' || kind === 'unreadable');
  for (const each of refused)
    streams.err(`fettle: ${say`line ${each.line}: ${each.setting} was left out.`}\n`);
  if (changes.length > 0) {
    const tried = whatIf(analysis, changes);
    if (tried.kind === 'refused') throw new CommandError(tried.why);
    await writeFileWhole(path, tried.after.tree.text, true);
  }
  for (const { path: setting, value } of changes) streams.out(`${setting} ${value}\n`);
  streams.err(
    `${say`${changes.length} ${changes.length === 1 ? 'setting' : 'settings'} written into ${path}.`}\n`,
  );
  return refused.length > 0 ? EXIT.findings : EXIT.clean;
}
