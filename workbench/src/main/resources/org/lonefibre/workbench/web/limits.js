// Limits: the published sets, each with its source and how far it may be trusted.
import { el, fill, field, choice, table } from './dom.js';
import { get } from './api.js';

/** @param {HTMLElement} main */
export async function limits(main) {
  const rows = await get('/api/limits');
  const muscles = [...new Set(rows.map((r) => r.muscle))];
  const place = el('div');
  const muscle = choice([['', 'all muscles'], ...muscles.map((m) => [m, m])], '', { onchange: () => draw() });
  function draw() {
    const sets = [...new Set(rows.map((r) => r.set))];
    fill(place, sets.map((set) => {
      const cells = rows.filter((r) => r.set === set && (!muscle.value || r.muscle === muscle.value));
      if (cells.length === 0) return null;
      const first = cells[0];
      return el('section', {}, el('h2', {}, first.setName),
        [...new Set(cells.map((c) => c.source))].map((source) => el('p', {}, source)),
        el('p', { class: 'soft' }, `Set ${set}. Needles: ${first.needles.join(', ')}. ${first.activation}. Single signals: ${first.outlierRule}.${cells.some((c) => c.use !== 'on') ? ' Values from memory are off: read the printed source, then confirm (lonefibre limits confirm).' : ''}`),
        table(`Limits of ${set}`, ['Muscle', 'From age, years', 'Centre', 'Centre limit, µs', 'Single signal, µs', 'Status', 'Note'],
          cells.map((c) => [c.muscle, c.fromAgeYears ?? 'not stated', c.centreStatistic, c.centreUs ?? 'none', c.individualUs ?? 'none', el('span', { class: `word ${c.use === 'on' ? '' : 'mark'}` }, c.use === 'on' ? c.status : c.use), c.note]), [1, 3, 4]));
    }));
  }
  fill(main, el('h1', {}, 'Limits'),
    el('p', { class: 'lead' }, 'Published limits of jitter, and those of the laboratory. A study is compared with one set that holds for its muscle, age, needle and activation; sets are never mixed.'),
    el('div', { class: 'row' }, field('Muscle', muscle)), place);
  draw();
}
