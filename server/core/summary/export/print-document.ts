import { languageCode } from '../../language/say.ts';
import { escapeHtml } from '../view.ts';

/**
 * One HTML page that needs nothing else: no script, no network, its styles inside.
 * @param title as plain text
 * @param body what stands in it, as HTML that was printed from views
 */
export function printDocument(title: string, styles: string, body: string): string {
  return `<!doctype html>
<html lang="${escapeHtml(languageCode())}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escapeHtml(title)}</title>
<style>${styles}</style>
</head>
<body class="report">
${body}
</body>
</html>
`;
}
