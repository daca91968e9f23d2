/** The search of the site. It runs in the reader's browser over a list of sections that lies beside it; nothing is sent. */
import MiniSearch from 'minisearch';

const MOST = 12;
const root = document.currentScript.dataset.root;
const place = document.querySelector('search');
const field = document.querySelector('#search');
const results = document.querySelector('#results');

/** The index, made when somebody first wants to search. */
let index;
function loadIndex() {
  index ??= new Promise((resolve, reject) => {
    const script = document.createElement('script'); // a script, since a page opened as a file may not fetch one
    script.src = `${root}/search-sections.js`;
    script.onerror = reject;
    script.onload = () => {
      const made = new MiniSearch({
        fields: ['title', 'page', 'text'],
        storeFields: ['title', 'page', 'address', 'text'],
        searchOptions: { boost: { title: 4, page: 2 }, prefix: true, fuzzy: 0.15, combineWith: 'AND' },
      });
      made.addAll(globalThis.fettleSections);
      resolve(made);
    };
    document.head.append(script);
  });
  return index;
}

async function search() {
  const query = field.value.trim();
  results.hidden = query === '';
  if (query === '') return;
  const made = await loadIndex();
  if (query !== field.value.trim()) return; // typed on in the meantime
  const found = made.search(query).slice(0, MOST);
  const list = document.createElement('ul');
  list.append(...found.map((hit) => showHit(hit, query)));
  const count = document.createElement('p');
  count.textContent = found.length === 0 ? `Nothing about “${query}”.` : `The best ${found.length}:`;
  results.replaceChildren(count, list);
}

function showHit({ title, page, address, text }, query) {
  const link = document.createElement('a');
  link.href = `${root}/${address}`;
  link.textContent = title === page ? title : `${page}: ${title}`;
  const about = document.createElement('span');
  const at = Math.max(0, text.toLowerCase().indexOf(query.toLowerCase().split(/\s+/)[0]) - 40);
  about.textContent = `${at > 0 ? '…' : ''}${text.slice(at, at + 130)}…`;
  const item = document.createElement('li');
  item.append(link, about);
  return item;
}

function close() {
  results.hidden = true;
}

place.hidden = false;
field.addEventListener('focus', () => void loadIndex().catch(() => {}), { once: true });
field.addEventListener('input', () => void search());
field.addEventListener('focus', () => void search());
place.addEventListener('keydown', (event) => {
  const links = [field, ...results.querySelectorAll('a')];
  const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
  if (event.key === 'Escape') {
    field.focus();
    close();
  } else if (event.key === 'Enter' && event.target === field) links[1]?.click();
  else if (step) {
    const at = links.indexOf(document.activeElement);
    links[Math.min(Math.max(0, at + step), links.length - 1)].focus();
    event.preventDefault();
  }
});
document.addEventListener('pointerdown', ({ target }) => {
  if (!place.contains(target)) close();
});
document.addEventListener('keydown', (event) => {
  if (event.key !== '/' || event.target instanceof HTMLInputElement) return;
  field.focus();
  event.preventDefault();
});
