// Limits: the published sets, each with its source and how far it may be trusted; what the laboratory decided.
import { ask, choice, el, field, fill, say, table } from './dom.js';
import { get, post } from './api.js';
import { controls } from './controls.js';

const NO_REASON = 'Say why: it stands in the record of changes.';

/** @param {HTMLElement} main */
export async function limits(main) {
  let rows = await get('/api/limits');
  let laboratory = await get('/api/limits/laboratory');
  const muscles = [...new Set(rows.map((r) => r.muscle))];
  const own = el('section');
  const place = el('div');
  const muscle = choice([['', 'all muscles'], ...muscles.map((m) => [m, m])], '', { onchange: () => draw() });

  async function decided(answer, words) {
    laboratory = answer;
    rows = await get('/api/limits');
    draw();
    say(words);
  }

  function draw() {
    fill(own, el('h2', {}, 'What this laboratory decided'), overlaps(), files(), confirmations());
    const sets = [...new Set(rows.map((r) => r.set))];
    fill(place, sets.map((set) => {
      const cells = rows.filter((r) => r.set === set && (!muscle.value || r.muscle === muscle.value));
      if (cells.length === 0) return null;
      const off = cells.some((c) => c.use !== 'on');
      const all = (of) => [...new Set(cells.map(of))].join('; ');
      return el('section', {}, el('h2', {}, cells[0].setName),
        [...new Set(cells.map((c) => c.source))].map((source) => el('p', {}, source)),
        el('p', { class: 'soft' }, `Set ${set}. Needles: ${all((c) => c.needles.join(', '))}. Activation: ${all((c) => c.activation)}. Single signals: ${all((c) => c.outlierRule)}.${off ? ' Values from memory are off: read the printed source, then confirm.' : ''}`),
        off ? el('button', { onclick: () => confirm(set, cells[0].setName) }, `Confirm values of ${set} …`) : null,
        limitsTable(set, cells));
    }));
  }

  /** Activation and needles of each row where the set holds for several, else once above. */
  function limitsTable(set, cells) {
    const whole = rows.filter((r) => r.set === set);
    const columns = [['Muscle', (c) => c.muscle], ['Activation', (c) => c.activation], ['Needles', (c) => c.needles.join(', ')], ['From age, years', (c) => c.fromAgeYears ?? 'not stated'],
      ['Centre', (c) => c.centreStatistic], ['Centre limit, µs', (c) => c.centreUs ?? 'none'], ['Single signal, µs', (c) => c.individualUs ?? 'none'],
      ['Status', (c) => el('span', { class: `word whole ${c.use === 'on' ? '' : 'mark'}` }, c.use === 'on' ? c.status : 'off')], ['Note', (c) => el('div', { class: 'note' }, c.note)],
    ].filter(([name, of]) => !['Activation', 'Needles'].includes(name) || new Set(whole.map(of)).size > 1);
    const numeric = columns.flatMap(([name], i) => (/years|µs/.test(name) ? [i] : []));
    return table(`Limits of ${set}`, columns.map(([name]) => name), cells.map((c) => columns.map(([, of]) => of(c))), numeric);
  }

  /** Where several sets fit: both names, and which one is used. */
  function overlaps() {
    const all = laboratory.overlaps.filter((o) => !muscle.value || o.muscle === muscle.value);
    if (all.length === 0) return el('p', {}, 'Nowhere do several sets in use fit the same muscle, needle and activation.');
    const open = all.filter((o) => o.chosen === null).length;
    return [el('p', {}, open === 0 ? 'Where several sets fit, one was chosen.' : `Several sets fit in ${all.length} places; in ${open} of them none was chosen, and nothing is compared there unless the study names its set.`),
      table('Where several sets fit', ['Muscle', 'Needle', 'Activation', 'Sets', 'Used', 'Choose'], all.map((o) => [
        o.muscle, o.needle, o.activation, o.sets.map((s) => el('div', {}, s.setName)),
        o.chosen === null ? el('span', { class: 'word mark' }, 'none chosen') : o.sets.find((s) => s.set === o.chosen)?.setName ?? o.chosen,
        el('button', { 'aria-label': `Choose a set for ${o.muscle}, ${o.needle}, ${o.activation}`, onclick: () => choose(o) }, 'Choose')]))];
  }

  async function choose(o) {
    const set = choice(o.sets.map((s) => [s.set, `${s.setName} (${s.set})`]), o.chosen ?? o.sets[0].set);
    const reason = el('input', { maxlength: 500, size: 40 });
    const answer = await ask(`Which set for ${o.muscle}?`, el('div', {},
      el('p', {}, `For ${o.muscle}, ${o.needle} needle, ${o.activation}, more than one set holds. The one chosen here is used from now on; reports name the others too.`),
      field('Limit set', set), field('Why this one', reason)), () => (reason.value.trim() ? true : NO_REASON), 'Use this set');
    if (answer) await decided(await post('/api/limits/choices', { muscle: o.muscle, needle: o.needle, activation: o.activation, set: set.value, reason: reason.value }), `From now on ${set.value} is used there.`);
  }

  function files() {
    const file = el('input', { type: 'file', accept: '.csv,text/csv' });
    return [el('h3', {}, 'Sets of its own'),
      laboratory.files.length === 0 ? el('p', {}, 'None was added.') : table('Files of limit sets', ['File', 'Sets', 'Rows', 'Withdraw'], laboratory.files.map((f) => [
        f.name, f.sets.join(', '), f.rows, el('button', { 'aria-label': `Withdraw ${f.name}`, onclick: () => withdraw(f) }, 'Withdraw …')]), [2]),
      el('div', { class: 'row end' }, field('Add sets from a file (CSV)', file), el('button', { onclick: () => add(file) }, 'Check and add …'))];
  }

  async function add(file) {
    const chosen = file.files[0];
    if (!chosen) { say('Choose a file first.', 'alert'); return; }
    if (chosen.size > 1_000_000) { say('The file is larger than 1 MB: it is no table of limits.', 'alert'); return; }
    const text = await chosen.text();
    const reason = el('input', { maxlength: 500, size: 40 });
    const answer = await ask(`Add ${chosen.name}?`, el('div', {}, el('p', {}, 'Its rows are checked first; a fault is named with its line and column, and nothing is kept then.'),
      field('Where the values come from, and why they are used', reason)), () => (reason.value.trim() ? true : NO_REASON), 'Check and add');
    if (answer) await decided(await post('/api/limits/files', { name: chosen.name, text, reason: reason.value }), `${chosen.name} is kept.`);
  }

  async function withdraw(f) {
    const reason = el('input', { maxlength: 500, size: 40 });
    const answer = await ask(`Use ${f.name} no more?`, field('Why', reason), () => (reason.value.trim() ? true : NO_REASON), 'Withdraw');
    if (answer) await decided(await post('/api/limits/files/withdrawn', { name: f.name, reason: reason.value }), `${f.name} is withdrawn.`);
  }

  function confirmations() {
    return [el('h3', {}, 'Values from memory that were read in print'),
      laboratory.confirmations.length === 0 ? el('p', {}, 'None was confirmed.') : table('Confirmed values', ['Set', 'Muscle', 'By', 'On', 'What was read', 'In force', 'Take back'], laboratory.confirmations.map((c) => [
        c.set, c.muscle ?? 'all', c.confirmedBy, c.confirmedOn, c.read, el('span', { class: `word ${c.holds ? '' : 'mark'}` }, c.holds ? 'yes' : 'no: the program carries other values now'),
        el('button', { 'aria-label': `Take back ${c.set}, ${c.muscle ?? 'all muscles'}`, onclick: () => takeBack(c) }, 'Take back …')]))];
  }

  async function confirm(set, name) {
    const possible = laboratory.confirmable.filter((c) => c.set === set);
    const which = choice(possible.map((c, i) => [String(i), c.muscle ?? 'all muscles of the set']), '0', { onchange: () => show() });
    const read = el('input', { maxlength: 500, size: 40 });
    const seen = el('div');
    const show = () => fill(seen, table('Values to be confirmed', ['Muscle and age', 'Centre and single, µs'], possible[Number(which.value)].values.split('; ').filter(Boolean).map((v) => v.split(': ').map((x) => x.replaceAll('null', 'none')))));
    show();
    const answer = await ask(`Confirm values of ${name}?`, el('div', {},
      el('p', {}, 'These values were written from memory. Compare each with the printed source; only then are they used, and reports say who confirmed them and what was read.'),
      field('Rows', which), seen, field('What was read: edition, page, table', read)), () => (read.value.trim() ? true : 'Say what was read.'), 'They are as printed');
    if (!answer) return;
    const c = possible[Number(which.value)];
    await decided(await post('/api/limits/confirmations', { set, muscle: c.muscle, read: read.value, values: c.values }), `Confirmed: ${set}, ${c.muscle ?? 'all muscles'}.`);
  }

  async function takeBack(c) {
    const reason = el('input', { maxlength: 500, size: 40 });
    const answer = await ask(`Take back ${c.set}, ${c.muscle ?? 'all muscles'}?`, field('Why', reason), () => (reason.value.trim() ? true : NO_REASON), 'Take back');
    if (answer) await decided(await post('/api/limits/confirmations/withdrawn', { set: c.set, muscle: c.muscle, reason: reason.value }), 'The values are off again.');
  }

  fill(main, el('h1', {}, 'Limits'),
    el('p', { class: 'lead' }, 'Published limits of jitter, and those of the laboratory. A study is compared with one set that holds for its muscle, age, needle and activation; sets are never mixed.'),
    el('div', { class: 'row' }, field('Muscle', muscle)), own, await controls(), place);
  draw();
}

/** What each set that holds would say of a study, side by side. @param {string} id @param {number} part */
export function compareSets(id, part) {
  const place = el('div');
  const words = (text) => text.replaceAll('-', ' ');
  async function show() {
    const sets = (await get(`/api/studies/${id}/limits`)).parts[part] ?? [];
    fill(place, sets.length === 0 ? el('p', { role: 'status' }, 'No set holds for this muscle, needle, activation and age.') :
      table('What each set would say', ['Set', 'Centre limit, µs', 'Single signal, µs', 'Above', 'Above or blocking', 'Would say', 'Status'], sets.map((s) => [
        `${s.setName} (${s.limits.set})`, s.limits.centreUs === null ? 'none' : `${s.limits.centreStatistic} ${s.limits.centreUs}`, s.limits.individualUs ?? 'none',
        s.signalsAboveLimit ?? '–', s.signalsAboveLimitOrBlocking ?? '–', s.use === 'on' ? words(s.verdict) : 'nothing', el('span', { class: `word ${s.use === 'on' ? '' : 'mark'}` }, s.use === 'on' ? s.limits.status : s.use)]), [2, 3, 4]));
  }
  return el('div', {}, el('div', { class: 'row' }, el('button', { onclick: show }, 'What each limit set would say')), place);
}
