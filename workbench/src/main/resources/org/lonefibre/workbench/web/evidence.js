// Evidence: one plot that the reader switches. A chosen sweep is shown in each.
import { el, table, number } from './dom.js';
import { figure, scale, ticks, axes, scaleBars, roundDown, mark } from './plots.js';
import { sweepsOf } from './site.js';

export const EVIDENCE = [['superimposed', 'Sweeps superimposed'], ['ordered', 'Sweeps in order of time'], ['intervals', 'Interval of each sweep'], ['rate', 'Interval by discharge interval']];
const FORMS = { present: 'dot', blocked: 'cross', obscured: 'square', excluded: 'triangle', 'trigger-absent': 'ring' };

/** The shape of a potential with its variation against noise. @param {any} p */
export function potentialFigure(p) {
  const d = p.drawing;
  const most = Math.max(...d.meanUv.map((v, i) => Math.abs(v) + d.sdUv[i]), 1);
  const ratio = Math.max(...d.sdUv) / Math.max(1e-9, d.noiseUv);
  return figure({
    name: `Shape of potential ${p.id}`, height: 150,
    sentence: `Mean shape (line), variation from sweep to sweep (band) and what noise alone explains (dashes). The variation reaches ${number(ratio)} times the noise.`,
    twin: table(`Shape of potential ${p.id}`, ['Time, µs', 'Mean, µV', 'Variation (SD), µV'], d.meanUv.map((v, i) => [Math.round(d.startUs + i * d.stepUs), number(v), number(d.sdUv[i])]), [0, 1, 2]),
    draw: (c, w, h, inks) => {
      const x = scale(0, d.meanUv.length - 1, 8, w - 8); const y = scale(-most, most, h - 8, 8);
      c.fillStyle = inks.faint; c.beginPath();
      d.meanUv.forEach((v, i) => c.lineTo(x(i), y(v + d.sdUv[i])));
      for (let i = d.meanUv.length - 1; i >= 0; i--) c.lineTo(x(i), y(d.meanUv[i] - d.sdUv[i]));
      c.closePath(); c.fill();
      c.strokeStyle = inks.raise; c.setLineDash([4, 4]); c.lineWidth = 1;
      for (const sign of [1, -1]) { c.beginPath(); d.meanUv.forEach((v, i) => c.lineTo(x(i), y(v + sign * d.noiseUv))); c.stroke(); }
      c.setLineDash([]); c.strokeStyle = inks.accent; c.lineWidth = 2; c.beginPath();
      d.meanUv.forEach((v, i) => c.lineTo(x(i), y(v)));
      c.stroke();
      const pxPerMs = ((w - 16) / (d.meanUv.length - 1)) * (1000 / d.stepUs);
      scaleBars(c, inks, w - 10, h - 10, pxPerMs, (h - 16) / (2 * most), roundDown(((w / 5) / pxPerMs)), roundDown(most / 2));
    },
  });
}

/** @param {any} state @param {any} unit @param {any} pair */
export function evidence(state, unit, pair) {
  if (state.kind === 'superimposed' || state.kind === 'ordered') return traces(state, unit, pair);
  return state.kind === 'intervals' ? intervals(state, pair) : rate(state, pair);
}

function traces(state, unit, pair) {
  const d = state.drawing(unit);
  if (!d || d.sweeps.length === 0) return el('p', {}, 'No sweeps are kept to be drawn.');
  const marks = new Map(sweepsOf(pair).map((s) => [s.sweep, s.state]));
  const ordered = state.kind === 'ordered';
  let most = 1;
  d.valuesUv.forEach((row) => row.forEach((v) => { most = Math.max(most, Math.abs(v)); }));
  const width = d.valuesUv[0].length;
  const height = ordered ? Math.max(300, 22 * d.sweeps.length + 40) : 320;
  const yOf = (h, i) => (ordered ? scale(-most, most, 26 + i * 22 + 30, 26 + i * 22 - 30) : scale(-most, most, h - 34, 12));
  return figure({
    name: ordered ? 'Sweeps in order of time' : 'Sweeps superimposed', height,
    sentence: `${d.sweeps.length} of ${pair.sweeps} sweeps, spread over the site, on the ${pair.triggerPotential ? `trigger potential ${pair.triggerPotential}` : 'stimulus'}. The chosen sweep is drawn bold${state.sweep && !d.sweeps.includes(state.sweep) ? `; sweep ${state.sweep} lies at the edge of the recording and is not drawn` : ''}; ${state.dashed ?? 'excluded'} ones are dashed.${state.asked ? ' The bar on top marks the potential to be judged.' : ''}`,
    twin: table('Sweeps drawn', ['Sweep', 'State', 'Largest, µV'], d.sweeps.map((s, i) => [s, marks.get(s) ?? '', number(Math.max(...d.valuesUv[i].map(Math.abs)), 0)]), [0, 2]),
    keys: (event) => stepKeys(event, state, d.sweeps),
    point: (px, py, w, h) => {
      let best = null; let least = Infinity;
      const x = scale(0, width - 1, 10, w - 10);
      if (state.pointing && !ordered) { state.missed(d.startMs + x.back(px) * d.stepMs); return; }
      d.valuesUv.forEach((row, i) => {
        const at = Math.max(0, Math.min(width - 1, Math.round(x.back(px))));
        const away = Math.abs(yOf(h, i)(row[at]) - py);
        if (away < least) { least = away; best = d.sweeps[i]; }
      });
      if (best !== null && least < 24) state.select(best);
    },
    draw: (c, w, h, inks) => {
      const x = scale(0, width - 1, 10, w - 10);
      const draw = (i, chosen) => {
        const y = yOf(h, i);
        const out = marks.get(d.sweeps[i]) === (state.dashed ?? 'excluded');
        c.strokeStyle = chosen ? inks.mark : out ? inks.raise : inks.accent;
        c.lineWidth = chosen ? 3 : 1;
        c.globalAlpha = chosen || ordered ? 1 : 0.6;
        c.setLineDash(out ? [5, 4] : []);
        c.beginPath();
        d.valuesUv[i].forEach((v, k) => c.lineTo(x(k), y(v)));
        c.stroke();
        if (ordered) { c.fillStyle = chosen ? inks.mark : inks.soft; c.textAlign = 'left'; c.textBaseline = 'bottom'; c.fillText(String(d.sweeps[i]), 4, y(0)); }
      };
      d.sweeps.forEach((s, i) => { if (s !== state.sweep) draw(i, false); });
      const at = d.sweeps.indexOf(state.sweep);
      if (at >= 0) draw(at, true);
      c.setLineDash([]); c.globalAlpha = 1;
      if (state.asked) judged(c, h, inks, state.asked, (ms) => x((ms - d.startMs) / d.stepMs));
      const zero = x(-d.startMs / d.stepMs);
      c.strokeStyle = inks.line; c.setLineDash([2, 4]); c.lineWidth = 1;
      c.beginPath(); c.moveTo(zero, 4); c.lineTo(zero, h - 20); c.stroke(); c.setLineDash([]);
      c.fillStyle = inks.soft; c.textAlign = 'center'; c.textBaseline = 'bottom';
      if (zero >= 0) c.fillText(pair.triggerPotential ? 'trigger' : 'stimulus', Math.max(30, zero), h - 4);
      const pxPerMs = (w - 20) / ((width - 1) * d.stepMs);
      scaleBars(c, inks, w - 12, h - 10, pxPerMs, ordered ? 30 / most : (h - 46) / (2 * most), roundDown(w / 6 / pxPerMs), roundDown(most / 2));
    },
  });
}

/** A bar over the potential to be judged, where a second fibre was pointed at, and where fibres truly arrive. */
function judged(c, h, inks, asked, x) {
  c.fillStyle = inks.mark; c.fillRect(x(asked.fromMs), 2, x(asked.toMs) - x(asked.fromMs), 5);
  const line = (ms, wordsOf, ink, dash, top) => {
    c.strokeStyle = ink; c.lineWidth = 2; c.setLineDash(dash);
    c.beginPath(); c.moveTo(x(ms), 8); c.lineTo(x(ms), h - 20); c.stroke(); c.setLineDash([]);
    c.fillStyle = ink; c.textAlign = 'left'; c.textBaseline = 'top'; c.fillText(wordsOf, x(ms) + 4, top);
  };
  asked.truth.forEach((ms, i) => line(ms, i === 0 ? (asked.truth.length > 1 ? 'larger fibre' : 'fibre') : 'second fibre', inks.ink, i === 0 ? [] : [7, 4], 10 + 16 * i));
  if (asked.pointedMs !== null) line(asked.pointedMs, 'as pointed at', inks.raise, [2, 3], 42);
}

function stepKeys(event, state, sweeps) {
  const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
  if (!by) return false;
  const at = sweeps.indexOf(state.sweep);
  state.select(sweeps[Math.max(0, Math.min(sweeps.length - 1, at < 0 ? 0 : at + by))]);
  return true;
}

function points(state, list, name, sentence, xName, twin) {
  const values = list.filter((p) => p.y !== null).map((p) => p.y);
  const low = Math.min(...values); const high = Math.max(...values);
  const pad = Math.max(5, (high - low) * 0.08);
  const xs = list.map((p) => p.x);
  const box = (w, h) => ({ left: 62, right: w - 12, top: 24, bottom: h - 44 });
  const scales = (w, h) => { const b = box(w, h); return [scale(Math.min(...xs), Math.max(...xs), b.left + 6, b.right - 6), scale(low - pad, high + pad, b.bottom - 14, b.top), b]; };
  return figure({
    name, sentence, height: 300, twin,
    keys: (event) => stepKeys(event, state, list.map((p) => p.sweep)),
    point: (px, py, w, h) => {
      const [x, y, b] = scales(w, h);
      let best = null; let least = 24;
      for (const p of list) {
        const away = Math.hypot(x(p.x) - px, (p.y === null ? b.bottom - 6 : y(p.y)) - py);
        if (away < least) { least = away; best = p; }
      }
      if (best) state.select(best.sweep);
    },
    draw: (c, w, h, inks) => {
      if (values.length === 0) { c.fillStyle = inks.soft; c.fillText('No sweep has an interval.', 70, h / 2); return; }
      const [x, y, b] = scales(w, h);
      axes(c, inks, x, y, b, xName, 'µs', ticks(Math.min(...xs), Math.max(...xs), 8), ticks(low, high, 8));
      for (const p of list) {
        const chosen = p.sweep === state.sweep;
        c.fillStyle = c.strokeStyle = chosen ? inks.mark : p.state === 'present' ? inks.accent : inks.raise;
        c.lineWidth = 1.5;
        mark(c, FORMS[p.state] ?? 'ring', x(p.x), p.y === null ? b.bottom - 6 : y(p.y), chosen ? 5 : 2.5);
        if (chosen) { c.lineWidth = 2; c.beginPath(); c.arc(x(p.x), p.y === null ? b.bottom - 6 : y(p.y), 10, 0, 7); c.stroke(); }
      }
    },
  });
}

const LEGEND = 'Dots are present; without a place on the axis, below: cross blocked, square obscured, triangle excluded, ring trigger absent.';

function intervals(state, pair) {
  const list = sweepsOf(pair).map((s) => ({ sweep: s.sweep, x: s.sweep, y: s.valueUs, state: s.state }));
  return points(state, list, 'Interval of each sweep', `${pair.presentSweeps} of ${pair.sweeps} sweeps with an interval, mean ${number(pair.meanIntervalUs ?? pair.meanLatencyUs, 0)} µs. ${LEGEND}`, 'sweep',
    table('Interval of each sweep', ['Sweep', 'Time, s', 'Interval, µs', 'State'], sweepsOf(pair).map((s) => [s.sweep, number(s.timeS, 3), s.valueUs === null ? 'none' : number(s.valueUs), s.state]), [0, 1, 2]));
}

function rate(state, pair) {
  const all = sweepsOf(pair);
  const list = all.map((s, i) => ({ sweep: s.sweep, x: i === 0 ? null : 1000 * (s.timeS - all[i - 1].timeS), y: s.valueUs, state: s.state })).filter((p) => p.x !== null && p.x < 500);
  if (list.length === 0) return el('p', {}, 'There are no discharge intervals.');
  return points(state, list, 'Interval by discharge interval', `The interval of each sweep against the inter-discharge interval before it; those over 500 ms are left out. ${LEGEND}`, 'inter-discharge interval before, ms',
    table('Interval by discharge interval', ['Sweep', 'Discharge interval before, ms', 'Interval, µs', 'State'], list.map((p) => [p.sweep, number(p.x), p.y === null ? 'none' : number(p.y), p.state]), [0, 1, 2]));
}
