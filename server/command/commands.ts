import { check } from './check/check.ts';
import type { Command } from './command.ts';
import { commission } from './commission/commission.ts';
import { completionOf } from './completion/completion.ts';
import { diff } from './diff/diff.ts';
import { explainValue } from './explain.ts';
import { fmt } from './fmt.ts';
import { netlist } from './netlist.ts';
import { begin } from './new/new.ts';
import { report } from './report.ts';
import { schema } from './schema.ts';
import { settings } from './settings/settings.ts';

/** Every command, in the order in which help lists them. */
// biome-ignore format: one command a line
const LIST: readonly Command[] = [
  begin,
  check,
  report,
  settings,
  commission,
  diff,
  explainValue,
  netlist,
  schema,
  fmt,
];

/** The commands by their names. */
export const COMMANDS: ReadonlyMap<string, Command> = new Map(
  [...LIST, completionOf(LIST)].map((command) => [command.name, command]),
);
