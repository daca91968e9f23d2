import type { Command } from '../command.ts';
import { takesValue } from '../options.ts';

/** A completion script for bash. */
export function printBash(commands: readonly Command[]): string {
  const values = commands.flatMap(({ name, options }) =>
    Object.entries(options).flatMap(([key, option]) => {
      if (option.choices)
        return [
          `    "${name} --${key}") COMPREPLY=($(compgen -W "${option.choices.join(' ')}" -- "$cur")); return ;;`,
        ];
      if (!takesValue(option)) return [];
      const names = [`"${name} --${key}"`, ...(option.short ? [`"${name} -${option.short}"`] : [])];
      return [`    ${names.join('|')}) COMPREPLY=($(compgen -f -- "$cur")); return ;;`];
    }),
  );
  const switches = commands.map(
    ({ name, options }) =>
      `      ${name}) words="${[...Object.keys(options), 'help'].map((key) => `--${key}`).join(' ')}" ;;`,
  );
  return `# Completion of fettle for bash. Put into ~/.bashrc:  eval "$(fettle completion bash)"
_fettle() {
  local cur=\${COMP_WORDS[COMP_CWORD]} prev=\${COMP_WORDS[COMP_CWORD-1]} words=
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "${commands.map(({ name }) => name).join(' ')} help" -- "$cur"))
    return
  fi
  case "\${COMP_WORDS[1]} $prev" in
    "help help") COMPREPLY=($(compgen -W "${commands.map(({ name }) => name).join(' ')}" -- "$cur")); return ;;
${values.join('\n')}
  esac
  if [[ $cur == -* ]]; then
    case "\${COMP_WORDS[1]}" in
${switches.join('\n')}
    esac
    COMPREPLY=($(compgen -W "$words" -- "$cur"))
    return
  fi
  COMPREPLY=($(compgen -f -- "$cur"))
}
complete -o filenames -F _fettle fettle
`;
}
