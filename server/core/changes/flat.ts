import type { Analysis } from '../analysis.ts';
import { findAll } from '../findings/find.ts';
import { say } from '../language/say.ts';
import { lengthOf } from '../model/link-wire.ts';
import { describeWire } from '../model/wire-text.ts';
import { showValue } from './values.ts';

/**
 * Everything that a comparison would look at as lines of text, one thing a line, in an order that edits elsewhere do
 * not disturb; so that tools which compare lines show consequences.
 */
export function listFacts(analysis: Analysis): string[] {
  const findings = findAll(analysis).map(
    ({ severity, code, message }) => say`finding ${severity} ${code}: ${message}`,
  );
  if (analysis.kind !== 'machine') return findings;
  const { parts, links } = analysis.machine;
  const values = [...analysis.values.byAddress.values()];
  return [
    ...[...parts.values()].map(
      ({ name, sheetName, place }) =>
        say`part ${name}: ${sheetName?.text ?? 'facts of its own'}${place === undefined ? '' : say`, at ${place}`}`,
    ),
    ...links.map((link) => {
      const { from, to, label } = link;
      const words = [describeWire(link), lengthOf(link)?.text, label].filter(
        (word) => word !== undefined && word !== '',
      );
      return say`link ${from.part}.${from.terminal} -> ${to.part}.${to.terminal}${words.length > 0 ? `: ${words.join(', ')}` : ''}`;
    }),
    ...values.map((value) => `${value.address} = ${showValue(value)}`),
    ...findings,
  ];
}
