/** The pages of the site cut into sections, for its search. */

/** Sections of a made page: what they are called, where they stand, and their text without marks. */
export function cutIntoSections(address, html) {
  const text = html.slice(html.indexOf('<main'), html.indexOf('</main>'));
  const page = plain(text.match(/<h1[^>]*>(.*?)<\/h1>/s)?.[1] ?? 'Fettle');
  const pieces = text.split(/(?=<h[123] id=")/).filter((piece) => /^<h[123]/.test(piece));
  return pieces.map((piece) => {
    const [, id = '', title = ''] = piece.match(/^<h[123] id="([^"]+)"[^>]*>(.*?)<\/h[123]>/s) ?? [];
    const isTop = piece.startsWith('<h1');
    return {
      title: plain(title),
      page,
      address: isTop ? address : `${address}#${id}`,
      text: plain(piece.replace(/^.*?<\/h[123]>/s, '')),
    };
  });
}

const ENTITIES = { amp: '&', lt: '<', gt: '>', quot: '"' };

const plain = (html) =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replace(/&(amp|lt|gt|quot);/g, (_, name) => ENTITIES[name])
    .replace(/\s+/g, ' ')
    .trim();
