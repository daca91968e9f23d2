import { said, say } from '../../core/language/say.ts';
import type { Command } from '../command.ts';
import { type Option, sayAbout, takesValue } from '../options.ts';

/** A completion script for zsh. */
export function printZsh(commands: readonly Command[]): string {
  const list = commands.map(({ name, about }) => `    ${quote(`${name}:${said(about)}`)}`);
  const cases = commands.map(
    ({ name, options }) =>
      `    ${name}) _arguments ${[...Object.entries(options).flatMap(([key, option]) => describe(key, option)), "'*:file:_files'"].join(' \\\n      ')} ;;`,
  );
  return `#compdef fettle
# Completion of fettle for zsh. Put into ~/.zshrc, after compinit:  eval "$(fettle completion zsh)"
_fettle() {
  local -a commands
  commands=(
${list.join('\n')}
    ${quote(`help:${say`more about a command`}`)}
  )
  if (( CURRENT == 2 )); then
    _describe 'command' commands
    return
  fi
  local name=$words[2]
  shift words
  (( CURRENT-- ))
  case $name in
    help) _describe 'command' commands ;;
${cases.join('\n')}
  esac
}
compdef _fettle fettle
`;
}

function describe(key: string, option: Option): string[] {
  const { about, choices, short, many } = option;
  const value = choices
    ? `:${key}:(${choices.join(' ')})`
    : takesValue(option)
      ? `:${option.takes ?? key}:_files`
      : '';
  const help = sayAbout(about).replace(/[[\]:\\]/g, '\\$&');
  const names = [`--${key}`, ...(short ? [`-${short}`] : [])];
  return names.map((name) => quote(`${many ? '*' : ''}${name}[${help}]${value}`));
}

function quote(text: string): string {
  return `'${text.replaceAll("'", "'\\''")}'`;
}
