// Sites side by side: the sweeps of each on its trigger, moved and zoomed together.
import { el, fill, field, say, table } from './dom.js';
import { get } from './api.js';
import { figure, scale, scaleBars, roundDown } from './plots.js';

const LONGEST_MS = 40;

/** @param {string} id study @param {number} part */
export function sideBySide(id, part) {
  const place = el('div');
  const button = el('button', { onclick: async () => {
    button.disabled = true;
    const drawings = await get(`/api/studies/${id}/parts/${part}/drawings`);
    fill(place, linked(id, part, drawings));
    say(`${drawings.length} sites side by side.`);
  } }, 'Show the sites side by side');
  fill(place, el('div', { class: 'row' }, button));
  return place;
}

function linked(id, part, drawings) {
  const kept = drawings.map((d, i) => ({ ...d, at: i })).filter((d) => d.drawing && d.drawing.sweeps.length);
  if (kept.length === 0) return el('p', {}, 'No sweeps are kept to be drawn.');
  const startMs = Math.min(...kept.map((d) => d.drawing.startMs));
  const endMs = Math.max(...kept.map((d) => d.drawing.startMs + (d.drawing.valuesUv[0].length - 1) * d.drawing.stepMs));
  const shown = { from: startMs, to: endMs };
  const plots = [];
  function move(from, span) {
    const width = Math.max(0.2, Math.min(LONGEST_MS, span, endMs - startMs));
    shown.from = Math.max(startMs, Math.min(endMs - width, from)); shown.to = shown.from + width;
    fromField.value = shown.from.toFixed(2); toField.value = shown.to.toFixed(2);
    plots.forEach((p) => p.redraw());
  }
  const zoom = (factor, around = (shown.from + shown.to) / 2) => { const span = (shown.to - shown.from) * factor; move(around - ((around - shown.from) / (shown.to - shown.from)) * span, span); };
  const fromField = el('input', { type: 'number', step: 0.01, value: shown.from.toFixed(2), onchange: (e) => move(Number(e.target.value), shown.to - shown.from) });
  const toField = el('input', { type: 'number', step: 0.01, value: shown.to.toFixed(2), onchange: (e) => move(shown.from, Math.max(0.2, Number(e.target.value) - shown.from)) });
  for (const d of kept) {
    const { drawing } = d;
    let most = 1;
    for (const row of drawing.valuesUv) for (const v of row) most = Math.max(most, Math.abs(v));
    const one = figure({
      name: `Site ${d.site}`, height: 150, sentence: `${drawing.sweeps.length} sweeps${d.unit ? ` of unit ${d.unit}` : ''}, up to ${Math.round(most)} µV.`,
      twin: () => table(`Sweeps of site ${d.site}`, ['Sweep', 'Lowest, µV', 'Highest, µV'], drawing.sweeps.map((s, i) => [s, Math.min(...drawing.valuesUv[i]).toFixed(0), Math.max(...drawing.valuesUv[i]).toFixed(0)]), [1, 2]),
      drag: (by, width) => move(shown.from - (by * (shown.to - shown.from)) / width, shown.to - shown.from),
      wheel: (event, x, width) => zoom(event.deltaY > 0 ? 1.25 : 0.8, shown.from + ((shown.to - shown.from) * x) / width),
      keys: (event) => {
        const span = shown.to - shown.from;
        if (event.key === 'ArrowLeft') move(shown.from - span / 5, span);
        else if (event.key === 'ArrowRight') move(shown.from + span / 5, span);
        else if (event.key === '+') zoom(0.5);
        else if (event.key === '-') zoom(2);
        else return false;
        return true;
      },
      draw: (c, w, h, inks) => {
        const x = scale(shown.from, shown.to, 6, w - 6); const y = scale(-most, most, h - 8, 8);
        const first = Math.max(0, Math.floor((shown.from - drawing.startMs) / drawing.stepMs));
        c.save(); c.beginPath(); c.rect(0, 0, w, h); c.clip();
        c.strokeStyle = inks.accent; c.lineWidth = 1; c.globalAlpha = 0.6; c.setLineDash([]);
        c.beginPath();
        for (const row of drawing.valuesUv) {
          const end = Math.min(row.length, Math.ceil((shown.to - drawing.startMs) / drawing.stepMs) + 2);
          for (let k = first; k < end; k++) { const px = x(drawing.startMs + k * drawing.stepMs); if (k === first) c.moveTo(px, y(row[k])); else c.lineTo(px, y(row[k])); }
        }
        c.stroke(); c.globalAlpha = 1; c.restore();
        const pxPerMs = (w - 12) / (shown.to - shown.from);
        scaleBars(c, inks, w - 8, h - 8, pxPerMs, (h - 16) / (2 * most), roundDown(w / 5 / pxPerMs), roundDown(most / 2));
      },
    });
    plots.push(one);
    d.figure = el('div', { class: 'sheet' }, el('h3', {}, el('a', { href: `#/study/${id}/${part}/${d.at}` }, d.site)), one);
  }
  const missing = drawings.length - kept.length;
  return el('section', { 'aria-label': 'Sites side by side' }, el('h3', {}, 'Sites side by side'),
    el('p', {}, `Each site on its trigger or stimulus. They move together: arrow keys, plus and minus in a plot, the wheel, or the fields.${missing ? ` ${missing} without sweeps ${missing === 1 ? 'is' : 'are'} left out.` : ''}`),
    el('div', { class: 'row end' }, field('From, ms', fromField), field('to, ms', toField),
      el('button', { onclick: () => zoom(0.5) }, 'Closer'), el('button', { onclick: () => zoom(2) }, 'Wider'), el('button', { onclick: () => move(startMs, endMs - startMs) }, 'All')),
    el('div', { class: 'cards' }, kept.map((d) => d.figure)));
}
