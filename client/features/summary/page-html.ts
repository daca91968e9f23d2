import type { Words } from '../../../server/core/language/say.ts';
import { escapeHtml } from '../../../server/core/summary/view.ts';

/** Where the page's files are, as addresses that the page may load. */
export interface PageFiles {
  /** What the content security policy calls the place of these files. */
  readonly source: string;
  readonly script: string;
  readonly style: string;
  readonly worker: string;
  /** A word for this page alone; only scripts that carry it run. */
  readonly nonce: string;
  /** The words of the editor's language; none where it is English. */
  readonly words: Words | undefined;
}

/**
 * The document of the wiring summary page. It is set once; all content comes by messages, but for the words of the
 * language, which the page needs before it can show anything; it names its language by itself. Nothing is allowed but our
 * script, our style sheet, and the layout worker, which is fetched as text and started from a blob.
 */
export function pageHtml({ source, script, style, worker, nonce, words }: PageFiles): string {
  const policy = [
    "default-src 'none'",
    `script-src 'nonce-${nonce}'`,
    `style-src ${source}`,
    `connect-src ${source}`,
    'worker-src blob:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${escapeHtml(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="layout-worker" content="${escapeHtml(worker)}">
<meta name="words" content="${words === undefined ? '' : escapeHtml(JSON.stringify(words))}">
<title>Wiring summary</title>
<link rel="stylesheet" href="${escapeHtml(style)}">
</head>
<body>
<script nonce="${escapeHtml(nonce)}" src="${escapeHtml(script)}"></script>
</body>
</html>
`;
}
