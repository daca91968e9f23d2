import { printMarkdown } from '../../core/changes/markdown.ts';
import { keyOf } from '../../files/keys.ts';
import { guard } from '../guard.ts';
import { CONSEQUENCES, type Consequences, type ConsequencesParams } from '../private.ts';
import type { Session } from '../session.ts';

/** What follows from the difference between an open document and how it and its sheets were. */
export function registerConsequences(session: Session): void {
  const { connection, fettle, files } = session;
  connection.onRequest(
    CONSEQUENCES,
    guard(
      connection,
      'consequences',
      null,
      async ({ uri, texts }: ConsequencesParams): Promise<Consequences | null> => {
        const analysed = await session.analysisOf(uri);
        if (!analysed) return null;
        const before = new Map(texts.map((text) => [keyOf(text.uri), text.text]));
        const compare = () => fettle.compareWithTexts(analysed.analysis, before);
        let compared = compare();
        // The version before may have named sheets that nothing names now.
        if (await files.fetch(compared.wants)) compared = compare();
        return { markdown: printMarkdown(compared.changes) };
      },
    ),
  );
}
