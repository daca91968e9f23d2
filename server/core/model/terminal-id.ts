/** A terminal of a machine, `part.terminal`. */
export type TerminalId = string;

/** The names of terminals by part. */
const names = new Map<string, Map<string, TerminalId>>();

/** So many parts are remembered; more are in no open machine, but in those that were open before. */
const MOST_PARTS = 20_000;

/**
 * Names a terminal of a part. Each name is made once, since putting texts together and hashing them anew at every look-up
 * was a tenth of the work of an edit.
 */
export function terminalId(part: string, terminal: string): TerminalId {
  let ofPart = names.get(part);
  if (!ofPart) {
    if (names.size >= MOST_PARTS) names.clear();
    ofPart = new Map();
    names.set(part, ofPart);
  }
  let name = ofPart.get(terminal);
  if (name === undefined) {
    name = `${part}.${terminal}`;
    ofPart.set(terminal, name);
  }
  return name;
}
