import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { escapeHtml } from '../core/summary/view.ts';

/**
 * One page that needs nothing else: no script, no network, its styles inside.
 * @param body what stands in it, as HTML that was printed from views
 */
export async function printPlainPage(title: string, body: string): Promise<string> {
  const styles = await readFile(join(__dirname, 'page.css'), 'utf8');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escapeHtml(title)}</title>
<style>${styles}</style>
</head>
<body class="report">
<main>
${body}
</main>
</body>
</html>
`;
}
