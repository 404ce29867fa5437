// Plots on canvas: sharp on any screen, in the colours of the page, each with a name, a sentence and a table.
import { el } from './dom.js';
import { SvgContext } from './svg.js';

/** Colours in force. */
export function inks() {
  const style = getComputedStyle(document.documentElement);
  let of = (name) => style.getPropertyValue(name).trim();
  if (matchMedia('(forced-colors: active)').matches) {
    // A canvas takes the names of system colours as those of the light scheme; the page knows the ones in force.
    const probe = el('span', { class: 'probe' });
    document.body.append(probe);
    const named = of;
    const known = new Map(['--ink', '--soft', '--faint', '--accent', '--raise', '--mark', '--sheet', '--line'].map((name) => {
      probe.style.color = named(name);
      return [name, getComputedStyle(probe).color];
    }));
    probe.remove();
    of = (name) => known.get(name);
  }
  return { ink: of('--ink'), soft: of('--soft'), faint: of('--faint'), accent: of('--accent'), raise: of('--raise'), mark: of('--mark'), sheet: of('--sheet'), line: of('--line') };
}

/**
 * A figure. `draw` gets the context, width, height and inks, in CSS pixels; it is called again when size or colours change.
 * @param {{name: string, sentence: string, height: number, twin?: HTMLElement | (() => HTMLElement), keys?: (event: KeyboardEvent) => boolean,
 *   point?: (x: number, y: number, width: number, height: number, event: PointerEvent) => void, wheel?: (e: WheelEvent, x: number, width: number) => void, drag?: (by: number, width: number) => void,
 *   draw: (c: CanvasRenderingContext2D, w: number, h: number, inks: any) => void}} plan
 */
export function figure(plan) {
  const canvas = el('canvas', { role: 'img', 'aria-label': `${plan.name}. ${plan.sentence}`, tabindex: plan.keys ? 0 : null });
  const caption = el('span', {}, plan.sentence);
  const demo = () => (document.querySelector('.demo') ? 'DEMO, invented data. ' : '');
  const name = plan.name.toLowerCase().replace(/[^a-z0-9]+/g, '-');
  /** Draws it in lines. @param {(recorder: SvgContext, words: string) => T} take @template T @returns {T} */
  function inLines(take) {
    const width = canvas.clientWidth || 600;
    const recorder = new SvgContext(width, plan.height, canvas.getContext('2d'));
    plan.draw(/** @type {any} */ (recorder), width, plan.height, inks());
    if (demo()) { recorder.fillStyle = inks().mark; recorder.textAlign = 'left'; recorder.textBaseline = 'bottom'; recorder.fillText('DEMO, invented data', 6, plan.height - 2); }
    return take(recorder, demo() + caption.textContent);
  }
  const svg = () => inLines((recorder, words) => new Blob([recorder.text(plan.name, words, inks().sheet)], { type: 'image/svg+xml' }));
  function png() {
    const copy = document.createElement('canvas');
    const c = copy.getContext('2d');
    copy.width = canvas.width; copy.height = canvas.height;
    c.fillStyle = inks().sheet; c.fillRect(0, 0, copy.width, copy.height); c.drawImage(canvas, 0, 0);
    if (demo()) { c.fillStyle = inks().mark; c.font = `${13 * (devicePixelRatio || 1)}px "Noto Sans", "DejaVu Sans", sans-serif`; c.fillText('DEMO, invented data', 6, copy.height - 6); }
    return new Promise((good) => { copy.toBlob(good, 'image/png'); });
  }
  const keep = (kind, make) => el('button', { class: 'small', 'aria-label': `${plan.name} as ${kind.toUpperCase()}`, onclick: async () => save(`${demo() ? 'demo-' : ''}${name}.${kind}`, await make()) }, kind.toUpperCase());
  const told = el('div', {}, typeof plan.twin === 'function' ? null : plan.twin);
  const table = plan.twin ? el('details', {}, el('summary', {}, `${plan.name} as a table`), told) : null;
  const whole = el('figure', {}, canvas, el('figcaption', {}, caption, ' ', el('span', { class: 'keep' }, keep('svg', svg), ' ', keep('png', png))), table);
  let asked = 0;
  function draw() {
    asked = 0;
    const width = canvas.clientWidth || 600;
    const ratio = devicePixelRatio || 1;
    canvas.style.height = `${plan.height}px`;
    if (canvas.width !== Math.round(width * ratio)) canvas.width = Math.round(width * ratio);
    if (canvas.height !== Math.round(plan.height * ratio)) canvas.height = Math.round(plan.height * ratio);
    const c = canvas.getContext('2d');
    c.setTransform(ratio, 0, 0, ratio, 0, 0);
    c.clearRect(0, 0, width, plan.height);
    c.font = '13px "Noto Sans", "DejaVu Sans", sans-serif';
    c.lineJoin = 'round';
    plan.draw(c, width, plan.height, inks());
  }
  whole.redraw = () => { if (!asked) asked = requestAnimationFrame(draw); };
  whole.say = (sentence) => { caption.textContent = sentence; canvas.setAttribute('aria-label', `${plan.name}. ${sentence}`); };
  /** Makes a table anew that is made only when it is looked at. */
  whole.tell = () => { if (table?.open && typeof plan.twin === 'function') told.replaceChildren(plan.twin()); };
  table?.addEventListener('toggle', whole.tell);
  whole.canvas = canvas;
  /** On paper the figure is drawn in lines, not in dots. */
  whole.onPaper = () => {
    whole.offPaper();
    const drawn = inLines((recorder, words) => recorder.element(plan.name, words, inks().sheet));
    drawn.setAttribute('class', 'paper');
    canvas.after(drawn);
  };
  whole.offPaper = () => whole.querySelector('svg.paper')?.remove();
  const place = (event, run) => {
    const box = canvas.getBoundingClientRect();
    run(event.clientX - box.left, event.clientY - box.top, box.width, box.height, event);
  };
  if (plan.point) canvas.addEventListener('click', (event) => place(event, plan.point));
  if (plan.drag) {
    let last = null;
    canvas.addEventListener('pointerdown', (event) => { last = event.clientX; canvas.setPointerCapture(event.pointerId); });
    canvas.addEventListener('pointermove', (event) => {
      if (last === null || event.clientX === last) return;
      plan.drag(event.clientX - last, canvas.clientWidth);
      last = event.clientX;
    });
    for (const end of ['pointerup', 'pointercancel']) canvas.addEventListener(end, () => { last = null; });
  }
  if (plan.keys) canvas.addEventListener('keydown', (event) => { if (plan.keys(event)) { event.preventDefault(); event.stopPropagation(); } });
  if (plan.wheel) canvas.addEventListener('wheel', (event) => { event.preventDefault(); place(event, (x, y, width) => plan.wheel(event, x, width)); }, { passive: false });
  new ResizeObserver(() => whole.redraw()).observe(canvas);
  return whole;
}

// Only figures that are shown: a listener of each would keep all that were ever drawn.
addEventListener('lonefibre-theme', () => document.querySelectorAll('figure').forEach((f) => f.redraw?.()));

let themeBefore = null;
addEventListener('beforeprint', () => {
  themeBefore = document.documentElement.dataset.theme;
  document.documentElement.dataset.theme = 'light';
  document.querySelectorAll('figure').forEach((f) => f.onPaper?.());
});
addEventListener('afterprint', () => {
  document.querySelectorAll('figure').forEach((f) => f.offPaper?.());
  if (themeBefore) document.documentElement.dataset.theme = themeBefore;
});

/** Hands a file to the person. @param {string} name @param {Blob} blob */
export function save(name, blob) {
  const url = URL.createObjectURL(blob);
  const link = el('a', { href: url, download: name });
  document.body.append(link); link.click(); link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 10000);
}

/** A straight scale from values to pixels. */
export function scale(low, high, from, to) {
  const span = high - low || 1;
  const map = (v) => from + ((v - low) / span) * (to - from);
  map.back = (p) => low + ((p - from) / (to - from)) * span;
  return map;
}

/** Round values within a range. */
export function ticks(low, high, about = 7) {
  const raw = (high - low) / about || 1;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map((m) => m * power).find((s) => s >= raw) ?? raw;
  const all = [];
  for (let v = Math.ceil(low / step) * step; v <= high + step * 1e-9; v += step) all.push(Math.abs(v) < step * 1e-9 ? 0 : v);
  return all;
}

/** Axes with words and units. */
export function axes(c, inks, x, y, box, xName, yName, xs, ys) {
  c.strokeStyle = inks.line;
  c.fillStyle = inks.soft;
  c.lineWidth = 1;
  c.beginPath();
  c.moveTo(box.left, box.top); c.lineTo(box.left, box.bottom); c.lineTo(box.right, box.bottom);
  c.stroke();
  c.textAlign = 'center'; c.textBaseline = 'top';
  for (const v of xs) { c.fillRect(x(v), box.bottom, 1, 5); c.fillText(String(Number(v.toPrecision(6))), x(v), box.bottom + 7); }
  c.textAlign = 'right';
  c.fillText(xName, box.right, box.bottom + 24);
  c.textBaseline = 'middle';
  for (const v of ys) { c.fillRect(box.left - 5, y(v), 5, 1); c.fillText(String(Number(v.toPrecision(6))), box.left - 8, y(v)); }
  c.textAlign = 'left'; c.textBaseline = 'top';
  c.fillText(yName, 8, 4);
}

/** Bars that say how long and how high: time across, size up. Their words may stand elsewhere, to cover nothing. */
export function scaleBars(c, inks, right, bottom, pxPerMs, pxPerUv, ms, uv, words = null) {
  c.strokeStyle = inks.ink; c.fillStyle = inks.ink; c.lineWidth = 2;
  const w = ms * pxPerMs; const h = uv * pxPerUv;
  c.beginPath(); c.moveTo(right - w, bottom); c.lineTo(right, bottom); c.lineTo(right, bottom - h); c.stroke();
  c.textAlign = 'right'; c.textBaseline = 'bottom';
  c.fillText(`${ms >= 1000 ? `${ms / 1000} s` : ms >= 1 ? `${ms} ms` : `${ms * 1000} µs`}, ${uv >= 1000 ? `${uv / 1000} mV` : `${uv} µV`}`, words?.right ?? right, words?.bottom ?? bottom - h - 4);
}

/** The largest of 1, 2, 5, 10, … not above a value. */
export function roundDown(value) {
  const power = 10 ** Math.floor(Math.log10(Math.max(1e-9, value)));
  return [5, 2, 1].map((m) => m * power).find((v) => v <= value) ?? power;
}

/** A mark whose form says what it is, not only its colour. */
export function mark(c, form, x, y, size) {
  c.beginPath();
  if (form === 'dot') { c.arc(x, y, size, 0, 7); c.fill(); return; }
  if (form === 'ring') { c.arc(x, y, size + 1, 0, 7); c.stroke(); return; }
  if (form === 'cross') { c.moveTo(x - size, y - size); c.lineTo(x + size, y + size); c.moveTo(x + size, y - size); c.lineTo(x - size, y + size); c.stroke(); return; }
  if (form === 'square') { c.strokeRect(x - size, y - size, 2 * size, 2 * size); return; }
  c.moveTo(x, y - size - 1); c.lineTo(x + size + 1, y + size); c.lineTo(x - size - 1, y + size); c.closePath(); c.stroke();
}
