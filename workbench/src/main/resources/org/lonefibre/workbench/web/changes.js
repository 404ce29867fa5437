// Record of changes: who did what, when, from what to what, why.
import { el, fill, table, say } from './dom.js';
import { get } from './api.js';

/** A decision in words, hashes by their beginning, the rest as it is. @param {string} text */
function plain(text) {
  const short = (t) => (t.length > 160 ? `${t.slice(0, 160)} …` : t).replace(/\b([0-9a-f]{16})[0-9a-f]{48}\b/g, '$1…');
  if (!text.startsWith('{')) return short(text);
  try {
    const words = (name) => name.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`);
    return short(Object.entries(JSON.parse(text)).filter(([name]) => name !== 'reason').map(([name, value]) => (name === 'kind' ? value : `${words(name)} ${typeof value === 'object' ? JSON.stringify(value) : value}`)).join(', '));
  } catch { return short(text); }
}

/** @param {HTMLElement} main @param {string} [study] */
export async function changes(main, study = '') {
  const list = await get(`/api/changes?study=${study ?? ''}`);
  const verdict = el('p', { role: 'status' });
  fill(main, el('h1', {}, study ? 'Record of changes of this study' : 'Record of changes'),
    el('p', { class: 'lead' }, 'Entries are only ever added; each carries the hash of the one before, so that none can be altered or taken away unseen.'),
    el('div', { class: 'row' },
      study ? el('a', { href: `#/study/${study}` }, 'Back to the study') : null,
      el('button', { onclick: async () => {
        const wrong = (await get('/api/verification')).wrong;
        verdict.textContent = wrong.length ? `Not as it was kept: ${wrong.join('; ')}` : 'Every entry, document, seal and recording is as it was kept.';
        say(verdict.textContent, wrong.length ? 'alert' : 'status');
      } }, 'Verify everything that is kept')), verdict,
    list.length === 0 ? el('p', {}, 'Nothing was changed yet.') :
      table(`${list.length} entries, the newest first`, ['Number', 'When (UTC)', 'Who', 'What', 'From', 'To', 'Why', 'Hash'],
        list.map((c) => [c.sequence, el('time', { datetime: c.changedAt }, c.changedAt.replace('T', ' ').slice(0, 19)), c.actor, c.action, plain(c.from), plain(c.to), c.reason || '–', c.hash.slice(0, 12)]), [0]));
}
