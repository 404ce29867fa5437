// Studies: the list, and the first run.
import { el, fill, field, table, ask, say } from './dom.js';
import { get, post, watch } from './api.js';

/** @param {HTMLElement} main */
export async function studies(main) {
  const list = el('div');
  const search = el('input', { type: 'search', size: 28, oninput: () => load() });
  const work = el('div');

  async function load() {
    const found = await get(`/api/studies?search=${encodeURIComponent(search.value)}`);
    if (found.length === 0) {
      fill(list, search.value
        ? el('p', {}, 'No study fits this search.')
        : el('div', { class: 'sheet' }, el('h2', {}, 'Nothing is kept yet'),
          el('p', {}, 'Begin with recordings of your own, look at the demo study (invented data of an invented laboratory), or practise on recordings whose truth is known.'),
          el('div', { class: 'row' },
            el('button', { class: 'main', onclick: begin }, 'Open recordings'),
            el('button', { onclick: demo }, 'Open the demo study'),
            el('a', { class: 'button', href: '#/practice' }, 'Practise'))));
      return;
    }
    fill(list, table(`${found.length} ${found.length === 1 ? 'study' : 'studies'}, the last changed first`,
      ['Study', 'Subject', 'State', 'Last changed (UTC)'],
      found.map((s) => [
        el('span', {}, el('a', { href: `#/study/${s.id}` }, s.title), s.provenance === 'demo' ? [' ', el('span', { class: 'demo' }, 'DEMO')] : null),
        s.subjectCode ?? 'no code', el('span', { class: `word ${s.state === 'signed' ? 'ok' : s.state === 'amended' ? 'mark' : ''}` }, s.state),
        s.changedAt.replace('T', ' ').slice(0, 16)])));
  }

  async function begin() {
    const title = el('input', { maxlength: 200 });
    const code = el('input', { maxlength: 40 });
    const age = el('input', { type: 'number', min: 0, max: 130 });
    const wanted = await ask('New study', el('div', { class: 'grid' },
      field('Title', title), field('Subject code, never a name', code), field('Age in years', age)),
    () => title.value.trim() ? { title: title.value, subjectCode: code.value || null, ageYears: age.value ? Number(age.value) : null } : 'Give the study a title.', 'Begin');
    if (wanted) {
      const made = await post('/api/studies', wanted);
      location.hash = `#/study/${made.study.id}`;
    }
  }

  async function demo() {
    const job = await post('/api/demo', {});
    const ended = await progress(work, job.id);
    if (ended.state === 'done') location.hash = `#/study/${ended.study}`;
  }

  fill(main, el('h1', {}, 'Studies'),
    el('div', { class: 'row end' }, field('Search title or subject', search),
      el('button', { class: 'main', onclick: begin }, 'New study'),
      el('button', { onclick: demo }, 'Open the demo study')),
    work, list);
  await load();
}

/** Shows long work with its steps and a cancel. @param {HTMLElement} place @param {string} id */
export async function progress(place, id) {
  const bar = el('progress', { max: 1, value: 0, 'aria-label': 'Progress' });
  const words = el('p');
  fill(place, el('div', { class: 'sheet' }, words, bar,
    el('div', { class: 'row' }, el('button', { onclick: () => post(`/api/jobs/${id}/cancel`, {}) }, 'Cancel: the study stays as it was'))));
  const ended = await watch(id, (p) => {
    bar.max = Math.max(1, p.of);
    bar.value = p.done;
    words.textContent = `${p.step}, ${p.done} of ${p.of}`;
  });
  fill(place);
  say(ended.state === 'done' ? 'Done.' : ended.state === 'cancelled' ? 'Cancelled: nothing was changed.' : `Failed: ${ended.error}`, ended.state === 'failed' ? 'alert' : 'status');
  return ended;
}
