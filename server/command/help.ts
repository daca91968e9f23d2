import { said, say } from '../core/language/say.ts';
import type { Command } from './command.ts';
import { LANGUAGE } from './language.ts';
import { type Option, sayAbout, takesValue } from './options.ts';

const WIDTH = 110;

/** What `fettle help` shows: every command in a line, and the exit codes. */
export function printHelp(commands: Iterable<Command>): string {
  const lines = [...commands].map(({ name, operands, about }) => [
    `fettle ${name} ${operands}`.trim(),
    said(about),
  ]);
  return say`Checks and explains definitions of small CNC machines.

${columns([...lines, ['fettle help COMMAND', say`more about a command, with examples`]])}
For every command:
${columns([describeOption('language', LANGUAGE.language)])}
Exit codes: 0 clean or hints only, 1 findings, 2 the command could not run.
Results go to standard output, talk to standard error.
It computes and compares; it does not certify. Local codes, the makers' manuals and licensed practice decide.
`;
}

/** What `fettle help COMMAND` shows: how to call it, its options, and examples that can be typed as they stand. */
export function printCommandHelp({ name, operands, about, details, options, examples }: Command): string {
  const given = Object.entries(options);
  const synopsis = `fettle ${name}${given.length > 0 ? ' [OPTIONS]' : ''} ${operands}`.trim();
  return [
    `${synopsis}\n\n${capital(said(about))}.\n`,
    ...(details ? [`\n${said(details).trimEnd()}\n`] : []),
    ...(given.length > 0
      ? [`\n${say`Options:`}\n${columns(given.map(([key, option]) => describeOption(key, option)))}`]
      : []),
    ...(examples.length > 0
      ? [`\n${say`Examples:`}\n${examples.map((example) => `  ${example}\n`).join('')}`]
      : []),
  ].join('');
}

function describeOption(key: string, option: Option): [string, string] {
  const { takes, choices, many, short, about } = option;
  const value = takesValue(option) ? ` ${takes ?? key.toUpperCase()}` : '';
  const words = choices ? say`: ${choices.join(', ')} (without it ${choices[0]})` : '';
  return [
    `${short ? `-${short}, ` : ''}--${key}${value}`,
    `${sayAbout(about)}${words}${many ? say`; may be given several times` : ''}`,
  ];
}

/** Two columns: names, and what they are, wrapped. */
function columns(rows: readonly (readonly string[])[]): string {
  const widest = Math.min(38, Math.max(...rows.map(([left = '']) => left.length)));
  const indent = ' '.repeat(widest + 4);
  return rows
    .map(([left = '', right = '']) => {
      const start = left.length > widest ? `  ${left}\n${indent}` : `  ${left.padEnd(widest + 2)}`;
      return `${start}${wrap(right, WIDTH - indent.length).join(`\n${indent}`)}\n`;
    })
    .join('');
}

function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= width)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
