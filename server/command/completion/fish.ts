import { said, say } from '../../core/language/say.ts';
import type { Command } from '../command.ts';
import { type Option, sayAbout, takesValue } from '../options.ts';

/** A completion script for fish. */
export function printFish(commands: readonly Command[]): string {
  const names = commands.map(({ name }) => name).join(' ');
  const lines = commands.flatMap(({ name, about, options }) => [
    `complete -c fettle -n __fish_use_subcommand -f -a ${name} -d ${quote(said(about))}`,
    ...Object.entries(options).map(([key, option]) => describe(name, key, option)),
  ]);
  return `# Completion of fettle for fish. Write to ~/.config/fish/completions/fettle.fish:  fettle completion fish
${lines.join('\n')}
complete -c fettle -n __fish_use_subcommand -f -a help -d ${quote(say`more about a command`)}
complete -c fettle -n '__fish_seen_subcommand_from help' -f -a '${names}'
`;
}

function describe(name: string, key: string, option: Option): string {
  const { about, choices, short } = option;
  const value = choices ? ` -x -a '${choices.join(' ')}'` : takesValue(option) ? ' -r' : '';
  return `complete -c fettle -n '__fish_seen_subcommand_from ${name}' -l ${key}${short ? ` -s ${short}` : ''}${value} -d ${quote(sayAbout(about))}`;
}

function quote(text: string): string {
  return `'${text.replace(/['\\]/g, '\\$&')}'`;
}
