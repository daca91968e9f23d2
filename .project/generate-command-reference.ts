/** Makes docs/command-line.md from the table of commands. */
import type { Command } from '../server/command/command.ts';
import { COMMANDS } from '../server/command/commands.ts';
import { type Option, sayAbout, takesValue } from '../server/command/options.ts';
import { blocks, code, codes, table } from '../tests/support/markdown.ts';
import { writeGenerated } from './write-generated.ts';

const INTRODUCTION = `# Command line

<!-- Made by .project/generate-command-reference.ts from the table of commands. Do not edit. -->

\`fettle help\` lists the commands, \`fettle help COMMAND\` tells what one takes. Results go to standard output, talk to
standard error. Nothing is sent anywhere, and no command changes a file unless its name or an option says so.

Exit codes, unless a command says otherwise: **0** clean or hints only, **1** findings, **2** the command could not run.

Every command takes \`--language de\`, before its name or behind it, and then says everything in German: findings, values,
reports and help. Without it everything is in English, whatever \`LANG\` says: what is printed is compared, kept and read by
programs, and has to be the same for everybody. Names, codes, keys of JSON and heads of CSV stay as they are, and so do files
that are written, numbers and units.

It computes and compares; it does not certify. Local codes, the makers' manuals and licensed practice decide.`;

/** The text of the reference by its path; always the same for the same commands. */
export function generateCommandReference(): Map<string, string> {
  const commands = [...COMMANDS.values()];
  const rows = commands.map(({ name, about }) => [`[${code(name)}](#fettle-${name})`, about]);
  const text = blocks(INTRODUCTION, table(['command', 'what it does'], rows), ...commands.map(describe));
  return new Map([['docs/command-line.md', `${text}\n`]]);
}

function describe({ name, operands, about, details, options, examples }: Command): string {
  const given = Object.entries(options);
  const call = `fettle ${name}${given.length > 0 ? ' [OPTIONS]' : ''} ${operands}`.trim();
  return blocks(
    `## fettle ${name}`,
    `    ${call}`,
    `${about.charAt(0).toUpperCase()}${about.slice(1)}.`,
    details ? fence(details.replace(/^\n+/, '').trimEnd()) : '',
    given.length > 0 ? table(['option', 'takes', 'what it does'], given.map(describeOption)) : '',
    examples.length > 0 ? fence(examples.join('\n')) : '',
  );
}

/** Details are laid out in lines, as help shows them. */
function fence(text: string): string {
  return `\`\`\`text\n${text}\n\`\`\``;
}

function describeOption([key, option]: [string, Option]): string[] {
  const { takes, choices, many, short, about } = option;
  const value = choices ? `${codes(choices)}; without it ${code(choices[0])}` : (takes ?? '');
  return [
    codes([...(short ? [`-${short}`] : []), `--${key}`]),
    takesValue(option) ? value : '',
    `${sayAbout(about)}${many ? '; may be given several times' : ''}`,
  ];
}

if (import.meta.main) writeGenerated(generateCommandReference());
