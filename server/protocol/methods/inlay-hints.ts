import { type InlayHint, MarkupKind } from 'vscode-languageserver';
import { say } from '../../core/language/say.ts';
import { toLocation } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Analysed, Session } from '../session.ts';

/** The command of clients that know us which goes to a place, given as a location. */
const GO_TO = 'fettle.goTo';

/** What a hint carries, so that its cause can be looked up when somebody goes for it. */
interface HintData {
  readonly uri: string;
  readonly address: string;
}

/** Computed numbers in the text, of the kinds that the user wants; a click on one goes to what it rests on. */
export function registerInlayHints(session: Session): void {
  const { connection, fettle } = session;
  connection.languages.inlayHint.on(
    guard(connection, 'inlay hints', [], async ({ textDocument: { uri }, range }): Promise<InlayHint[]> => {
      const analysed = await session.analysisOf(uri);
      if (!analysed) return [];
      const { document, analysis } = analysed;
      const shown = await session.options.of(uri);
      const hints = fettle.inlayHints(
        analysis,
        document.offsetAt(range.start),
        document.offsetAt(range.end),
        shown.hints,
      );
      const { resolvesHintPlaces, resolvesHintTooltips } = session.client;
      const addresses = resolvesHintTooltips ? [] : hints.map(({ address }) => address);
      const told = fettle.describeHints(analysis, addresses);
      return hints.map((hint) => ({
        position: document.positionAt(hint.offset),
        label: resolvesHintPlaces ? [{ value: hint.label }] : hint.label,
        paddingLeft: true,
        paddingRight: true,
        ...tooltipOf(told, hint.address),
        data: { uri, address: hint.address } satisfies HintData,
      }));
    }),
  );
  connection.languages.inlayHint.resolve(async (hint, token) => {
    const resolve = guard(connection, 'what is behind an inlay hint', hint, (given: InlayHint) =>
      addRest(session, given),
    );
    return resolve(hint, token);
  });
}

function tooltipOf(told: ReadonlyMap<string, string>, address: string): Pick<InlayHint, 'tooltip'> {
  const value = told.get(address);
  return value === undefined ? {} : { tooltip: { kind: MarkupKind.Markdown, value } };
}

/** Adds what nobody sees before going for a hint: its working, and the way to its cause. */
async function addRest(session: Session, hint: InlayHint): Promise<InlayHint> {
  const { uri, address } = (hint.data ?? {}) as Partial<HintData>;
  if (typeof uri !== 'string' || typeof address !== 'string') return hint;
  const analysed = await session.analysisOf(uri);
  if (!analysed) return hint;
  const told = session.fettle.describeHints(analysed.analysis, [address]);
  return addCause(session, analysed, { ...hint, ...tooltipOf(told, address) }, address);
}

function addCause(session: Session, analysed: Analysed, hint: InlayHint, address: string): InlayHint {
  if (typeof hint.label === 'string') return hint;
  const cause = session.fettle.causeOf(analysed.analysis, address);
  const location = cause && toLocation(session, analysed, cause.file, cause.at);
  if (!location) return hint;
  const way = session.client.linksCommands
    ? { command: { title: say`Go to what it rests on`, command: GO_TO, arguments: [location] } }
    : { location };
  return { ...hint, label: hint.label.map((part) => ({ ...part, ...way })) };
}
