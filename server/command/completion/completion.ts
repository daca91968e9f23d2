import { later, say } from '../../core/language/say.ts';
import { type Command, CommandError, defineCommand, EXIT, onlyFile } from '../command.ts';
import { LANGUAGE } from '../language.ts';
import { printBash } from './bash.ts';
import { printFish } from './fish.ts';
import { printZsh } from './zsh.ts';

const SHELLS: ReadonlyMap<string, (commands: readonly Command[]) => string> = new Map([
  ['bash', printBash],
  ['zsh', printZsh],
  ['fish', printFish],
]);
const sayTakes = () => say`completion takes one of ${[...SHELLS.keys()].join(', ')}.`;

/** `fettle completion SHELL`: a script that completes commands, options and their words, made from these very commands. */
export function completionOf(others: readonly Command[]): Command {
  const completion = defineCommand({
    name: 'completion',
    operands: 'bash|zsh|fish',
    about: later`a script with which a shell completes commands, options and their words`,
    details: later`  bash  put into ~/.bashrc:  eval "$(fettle completion bash)"
  zsh   put into ~/.zshrc, after compinit:  eval "$(fettle completion zsh)"
  fish  write to ~/.config/fish/completions/fettle.fish`,
    options: {},
    examples: ['fettle completion bash', 'fettle completion fish > ~/.config/fish/completions/fettle.fish'],
    run: ({ operands }, streams) => {
      const print = SHELLS.get(onlyFile(operands, sayTakes()));
      if (!print) throw new CommandError(sayTakes());
      streams.out(
        print(
          [...others, completion].map((each) => ({ ...each, options: { ...each.options, ...LANGUAGE } })),
        ),
      );
      return EXIT.clean;
    },
  });
  return completion;
}
