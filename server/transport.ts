import { VERSION } from './command/version.ts';

const HELP = `fettle-language-server [--stdio | --node-ipc | --socket=PORT | --pipe=NAME]

Speaks the Language Server Protocol with an editor, over standard input and output unless told otherwise.
The command line is called fettle.
`;

/**
 * What the server was started for: to serve, with the arguments that the connection reads, or to say a text and end.
 * A person who starts it by hand sees what it is in place of a program that seems to hang.
 */
export function readTransport(
  given: readonly string[],
  isTerminal: boolean,
):
  | { readonly kind: 'serve'; readonly args: readonly string[] }
  | { readonly kind: 'say'; readonly text: string; readonly code: number } {
  if (given.includes('--version')) return { kind: 'say', text: `${VERSION}\n`, code: 0 };
  if (given.includes('--help') || given.includes('-h')) return { kind: 'say', text: HELP, code: 0 };
  if (given.some((word) => /^--(?:stdio|node-ipc|socket|pipe)\b/.test(word)))
    return { kind: 'serve', args: given };
  return isTerminal ? { kind: 'say', text: HELP, code: 2 } : { kind: 'serve', args: [...given, '--stdio'] };
}
