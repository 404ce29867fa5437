// Beside the jitter: fibre density of random sites, and the change since another examination of the subject.
import { choice, el, field, fill, number, table } from './dom.js';
import { get } from './api.js';

const signed = (value) => (value === null ? 'not known' : `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(1)}`);

/** Fibre density, on demand: it has no meaning for sites chosen for jitter. @param {string} id @param {number} part @param {any} declared */
export function density(id, part, declared) {
  if (declared.needle !== 'single-fibre' || declared.activation === 'stimulated') return null;
  const place = el('div');
  async function show() {
    const d = await get(`/api/studies/${id}/parts/${part}/density`);
    fill(place, el('p', { role: 'status' }, `Fibre density ${number(d.potentialsPerSite, 2)} potentials a site, ${d.sites.length} sites${d.low === null ? '' : `, 95 % interval ${number(d.low, 2)} to ${number(d.high, 2)}`}. It holds only if the sites were chosen at random, not for jitter.`),
      el('ul', {}, d.notes.map((n) => el('li', {}, n))),
      table('Time-locked potentials at each site', ['Site', 'Potentials', 'Of them composite', 'Rising too slowly to count', 'Motor unit'], d.sites.map((s) => [s.site, s.potentials, s.composites, s.slow, s.motorUnit]), [1, 2, 3]));
  }
  return el('div', {}, el('div', { class: 'row' }, el('button', { onclick: show }, 'Fibre density, if the sites were chosen at random')), place);
}

/** Compares with another kept study of the subject. @param {string} id @param {any} view */
export function course(id, view) {
  if (!view.study.subjectCode || view.parts.length === 0) return null;
  const place = el('div');
  async function show() {
    const others = await get(`/api/studies/${id}/others`);
    if (others.length === 0) { fill(place, el('p', { role: 'status' }, 'No other study of this subject is kept.')); return; }
    const which = choice(others.map((o) => [o.id, `${o.title}, kept ${o.createdAt.slice(0, 10)}`]), others[0].id);
    const found = el('div');
    fill(place, el('div', { class: 'row end' }, field('First examination', which), el('button', { onclick: compare }, 'Show the change')), found);
    async function compare() {
      fill(found);
      const changes = await get(`/api/studies/${id}/change/${which.value}`);
      fill(found, changes.map((c) => {
        const side = (s) => [s.visit.date ?? 'not given', s.signals, number(s.meanJitterUs), s.signalsWithBlocking, s.visit.temperatureDegC ?? 'not given', s.visit.medication ?? 'not given'];
        const interval = (low, high) => (low === null ? 'no interval from so few signals' : `95 % interval ${signed(low)} to ${signed(high)}`);
        return [table(c.study, ['Examination', 'Date', 'Signals', 'Mean jitter, µs', 'With blocking', 'Temperature, °C', 'Medication'], [['first', ...side(c.before)], ['this one', ...side(c.after)]], [2, 3, 4, 5]),
          el('p', {}, `Mean jitter changed by ${signed(c.jitterChangeUs)} µs, ${interval(c.jitterChangeLowUs, c.jitterChangeHighUs)}. Signals with blocking changed by ${signed(c.blockingChangePercent)} percent points, ${interval(c.blockingChangeLowPercent, c.blockingChangeHighPercent)}.`),
          el('p', { class: 'soft' }, 'Other end-plates are met each time; temperature, medication and time of the last dose change jitter too.')];
      }));
    }
  }
  return el('section', {}, el('h2', {}, 'Before and after'),
    el('div', { class: 'row' }, el('button', { onclick: show }, 'Compare with another examination of this subject')), place);
}
