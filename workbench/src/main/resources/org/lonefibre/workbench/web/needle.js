// Needle: the contribution ladder. Fibres in order of distance, what each would give, and what made it so.
import { el, fill, field, choice, table, number } from './dom.js';
import { get, post } from './api.js';
import { figure } from './plots.js';
import { progress } from './studies.js';
import { sectionsFigures, fallOff, filterCost, shoulders, counts, muscleLadder } from './muscle.js';

const FACTORS = [['averaging', 'averaging over the core'], ['insulation', 'insulation behind the core'], ['metal', 'metal of the core'], ['cannula', 'cannula and reference'], ['contact', 'contact of metal and tissue'], ['cable', 'cable and input'], ['filter', 'filter']];
const DASHES = { averaging: [], insulation: [8, 4], metal: [2, 3], cannula: [10, 3, 2, 3], contact: [1, 5], cable: [14, 4], filter: [4, 2, 1, 2] };

/** @param {HTMLElement} main */
export async function needle(main) {
  const known = await get('/api/needles');
  const work = el('div');
  const place = el('div');
  const words = known.map((n) => [n.key, n.name]);
  const first = choice(words, 'single-fibre', { onchange: show });
  const second = choice([['', 'none'], ...words], 'concentric-standard', { onchange: show });
  let turn = 0;

  async function solved(key, part = '') {
    const path = `/api/needles/${key}${part}`;
    try { return await get(path); } catch { /* it is solved now */ }
    const job = await post(path, {});
    const ended = await progress(work, job.id);
    return ended.state === 'done' ? get(path) : null;
  }

  /** A part that is solved when it is asked for. */
  function later(words, part, mine, draw) {
    const inside = el('div');
    const button = el('button', { onclick: async () => {
      button.disabled = true;
      const found = [];
      for (const key of [...new Set([first.value, second.value])].filter(Boolean)) {
        const one = await solved(key, part);
        if (one) found.push([known.find((n) => n.key === key).name, one]);
      }
      if (mine === turn && found.length) fill(inside, draw(found)); else button.disabled = false;
    } }, words);
    fill(inside, el('div', { class: 'row' }, button));
    return inside;
  }

  async function show() {
    const mine = ++turn;
    const documents = [];
    for (const key of [first.value, second.value]) {
      const one = key && (key !== first.value || documents.length === 0) ? await solved(key) : null;
      if (one) documents.push(one);
    }
    if (mine !== turn || documents.length === 0) return;
    fill(place, el('section', {}, el('h2', {}, 'Contribution ladder'),
        el('p', {}, 'Of one unit of a sample muscle: each rung is a fibre and its share of the steep phase.'),
        later('Put into a sample muscle', '/places', mine, (found) => muscleLadder(found.map(([name, places]) => ({ needle: name, places })))),
        el('p', {}, 'Of fibres of one size, one at each distance:'), ladder(documents), counts(documents)),
      el('section', {}, el('h2', {}, 'What makes the signal at each distance'), documents.map(factors)),
      el('section', {}, el('h2', {}, 'Fall-off and lines of equal potential'), fallOff(documents),
        later('Draw the lines of equal potential', '/sections', mine, (found) => found.map(([name, sections]) => sectionsFigures(name, sections)))),
      el('section', {}, el('h2', {}, 'The lowest filter that meets the background'), filterCost(documents),
        table('Reach and noise', ['Needle', 'Reaches 200 µV to, mm', 'Reaches 50 µV to, mm', 'Thermal noise, µV', 'High-pass, Hz', 'Fibre, µm'],
        documents.map((d) => [d.needle, number(d.uptakeMm.at200Uv, 2), number(d.uptakeMm.at50Uv, 2), number(d.noiseUvRms, 2), number(d.highPassHz, 0), number(d.fibreUm, 0)]), [1, 2, 3, 4, 5])),
      el('section', {}, el('h2', {}, 'A second fibre: notch, shoulder, or hidden'), documents.map(shoulders)));
  }

  fill(main, el('h1', {}, 'Needle'),
    el('p', { class: 'lead' }, 'How much each fibre would give, from the nearest outwards: the needle is solved in muscle by its geometry. Absolute sizes are uncertain by perhaps half; ratios and shapes are the message.'),
    el('div', { class: 'row end' }, field('Needle', first), field('Beside it', second)), work, place);
  await show();
}

function ladder(documents) {
  const rungs = documents[0].contributions.map((c) => c.distanceMm);
  const step = 30;
  const share = (d, i) => d.contributions[i].total / d.contributions.reduce((sum, c) => sum + c.total, 0);
  const most = Math.max(...documents.flatMap((d) => d.contributions.map((c, i) => share(d, i))));
  return figure({
    name: 'Contribution ladder', height: 54 + step * rungs.length,
    sentence: `One fibre at each of ${rungs.length} distances from the core, the nearest on top; each rung is its share of the sum of their peak-to-peak sizes. ${documents.map((d) => `${d.needle}: the nearest makes ${number(100 * share(d, 0), 0)} %`).join('; ')}.`,
    twin: table('Contribution ladder', ['Distance, mm', ...documents.flatMap((d) => [`${d.needle}, µV`, `${d.needle}, share in %`])],
      rungs.map((mm, i) => [mm, ...documents.flatMap((d) => [number(d.contributions[i].total), number(100 * share(d, i))])]), rungs.map((r, i) => i)),
    draw: (c, w, h, inks) => {
      const middle = 70; const column = (w - middle - 20) / documents.length;
      c.textBaseline = 'middle';
      documents.forEach((d, k) => {
        const left = middle + 10 + k * column;
        const reach = column - 110;
        c.fillStyle = inks.ink; c.textAlign = 'left'; c.fillText(d.needle, left, 14);
        c.strokeStyle = inks.line; c.lineWidth = 2; c.setLineDash([]);
        c.beginPath(); c.moveTo(left, 30); c.lineTo(left, h - 12); c.stroke();
        d.contributions.forEach((part, i) => {
          const y = 44 + i * step;
          const length = Math.max(1, (share(d, i) / most) * reach);
          c.fillStyle = k === 0 ? inks.accent : inks.sheet; c.strokeStyle = inks.accent; c.lineWidth = 1.5;
          c.fillRect(left, y - 8, length, 16); c.strokeRect(left, y - 8, length, 16);
          c.fillStyle = inks.ink; c.textAlign = 'left';
          c.fillText(`${number(100 * share(d, i), share(d, i) < 0.01 ? 1 : 0)} %`, left + length + 6, y);
        });
      });
      c.fillStyle = inks.soft; c.textAlign = 'right';
      rungs.forEach((mm, i) => c.fillText(`${mm} mm`, middle, 44 + i * step));
    },
  });
}

function without(used) {
  const rest = FACTORS.filter(([key]) => !used.some(([k]) => k === key)).map(([, name]) => name);
  return rest.length ? `Changing it by less than half a percent and not drawn: ${rest.join(', ')}.` : '';
}

function factors(d) {
  const all = d.contributions;
  const used = FACTORS.filter(([key]) => all.some((c) => Math.abs(c[key] - 1) > 0.005));
  const top = Math.max(1.1, ...all.flatMap((c) => used.map(([key]) => c[key])));
  return figure({
    name: `Factors of needle ${d.needle}`, height: 260,
    sentence: `${d.needle}: what a point would record at each distance is multiplied by these factors. ${without(used)}`,
    twin: table(`Factors of needle ${d.needle}`, ['Distance, mm', 'Point, µV', ...FACTORS.map(([, name]) => name), 'Total, µV'],
      all.map((c) => [c.distanceMm, number(c.point), ...FACTORS.map(([key]) => number(c[key], 3)), number(c.total)]), all.map((c, i) => i)),
    draw: (c, w, h, inks) => {
      const x = (mm) => 50 + ((Math.log(mm) - Math.log(all[0].distanceMm)) / (Math.log(all[all.length - 1].distanceMm) - Math.log(all[0].distanceMm))) * (w - 290);
      const y = (v) => h - 34 - (v / top) * (h - 60);
      c.strokeStyle = inks.line; c.beginPath(); c.moveTo(50, 16); c.lineTo(50, h - 34); c.lineTo(w - 230, h - 34); c.stroke();
      c.fillStyle = inks.soft; c.textBaseline = 'top'; c.textAlign = 'center';
      all.forEach((p) => { c.fillRect(x(p.distanceMm), h - 34, 1, 4); });
      [0.05, 0.1, 0.2, 0.5, 1, 2].forEach((mm) => c.fillText(`${mm}`, x(mm), h - 28));
      c.textAlign = 'right'; c.fillText('distance, mm', w - 230, h - 14);
      c.textBaseline = 'middle';
      [0, 0.5, 1].forEach((v) => { c.fillText(String(v), 44, y(v)); c.fillRect(46, y(v), 4, 1); });
      used.forEach(([key, name], i) => {
        c.strokeStyle = i % 2 ? inks.raise : inks.accent; c.lineWidth = 2; c.setLineDash(DASHES[key]);
        c.beginPath(); all.forEach((p) => c.lineTo(x(p.distanceMm), y(p[key]))); c.stroke();
        c.beginPath(); c.moveTo(w - 215, 26 + i * 22); c.lineTo(w - 185, 26 + i * 22); c.stroke();
        c.setLineDash([]); c.fillStyle = inks.ink; c.textAlign = 'left'; c.fillText(name, w - 178, 26 + i * 22);
      });
    },
  });
}
