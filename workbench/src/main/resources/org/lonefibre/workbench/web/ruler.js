// The whole recording as a ruler to move in, and a window of it; it can be heard.
import { el, field, choice, say, number, table } from './dom.js';
import { getBytes } from './api.js';
import { figure, scale, scaleBars, roundDown, ticks } from './plots.js';

/**
 * @param {string} path address of the site
 * @param {any} view the site
 * @param {any} state selection: sweep, change(), sweeps()
 */
export function ruler(path, view, state) {
  const { startS, endS } = view.site;
  const shown = { from: startS, to: endS };
  let whole = null;
  let part = null;
  let turn = 0;
  let cursorS = null;
  let scaleUv = null;
  let sound = null;

  async function load(from, to, columns) {
    const bytes = await (await getBytes(`${path}/strip?startS=${Math.max(0, from)}&endS=${to}&columns=${columns}`)).arrayBuffer();
    return { from, to, values: new Float32Array(bytes) };
  }

  /** Draws the columns that lie between two times. */
  function trace(c, data, x, y, ink, fromS, toS) {
    c.fillStyle = ink;
    const count = data.values.length / 2;
    const perS = count / (data.to - data.from);
    const first = Math.max(0, Math.floor((fromS - data.from) * perS));
    const end = Math.min(count, Math.ceil((toS - data.from) * perS));
    for (let i = first; i < end; i++) {
      const low = data.values[2 * i]; const high = data.values[2 * i + 1];
      if (low !== low) continue;
      const left = x(data.from + ((data.to - data.from) * i) / count);
      const top = y(high);
      c.fillRect(left, top, Math.max(1, x(data.from + ((data.to - data.from) * (i + 1)) / count) - left), Math.max(1, y(low) - top));
    }
  }

  function reach(data) {
    let most = 1;
    for (const v of data.values) if (v === v) most = Math.max(most, Math.abs(v));
    return most;
  }

  let picture = null;
  /** The whole recording behind the frame: drawn once for a size and colour, then copied. */
  function behind(c, w, h, ink, x) {
    const most = reach(whole);
    const draw = (on) => trace(on, whole, x, scale(-most, most, h - 2, 2), ink, startS, endS);
    if (!(c instanceof CanvasRenderingContext2D)) { draw(c); return; }
    const ratio = devicePixelRatio || 1;
    const key = `${w} ${h} ${ratio} ${ink}`;
    if (picture?.key !== key || picture.of !== whole) {
      const canvas = document.createElement('canvas');
      canvas.width = Math.round(w * ratio); canvas.height = Math.round(h * ratio);
      const on = canvas.getContext('2d');
      on.setTransform(ratio, 0, 0, ratio, 0, 0);
      draw(on);
      picture = { key, of: whole, canvas };
    }
    c.drawImage(picture.canvas, 0, 0, w, h);
  }

  /** What lies between two times, in twenty stretches. */
  function stretches(name, data, fromS, toS) {
    const of = (k) => fromS + ((toS - fromS) * k) / 20;
    return table(name, ['Time, s', 'Lowest, µV', 'Highest, µV', 'Sweeps', 'of these excluded'], Array.from({ length: 20 }, (_, k) => {
      let low = Infinity; let high = -Infinity;
      const perS = data ? data.values.length / 2 / (data.to - data.from) : 0;
      for (let i = Math.max(0, Math.floor((of(k) - (data?.from ?? 0)) * perS)); data && i < Math.min(data.values.length / 2, Math.ceil((of(k + 1) - data.from) * perS)); i++) {
        if (data.values[2 * i] === data.values[2 * i]) { low = Math.min(low, data.values[2 * i]); high = Math.max(high, data.values[2 * i + 1]); }
      }
      const within = state.sweeps().filter((s) => s.timeS >= of(k) && s.timeS < of(k + 1));
      return [`${of(k).toFixed(3)} to ${of(k + 1).toFixed(3)}`, low > high ? 'no signal' : number(low, 0), low > high ? 'no signal' : number(high, 0), within.length, within.filter((s) => s.state === 'excluded').length];
    }), [1, 2, 3, 4]);
  }

  const overview = figure({
    name: 'Whole recording', height: 64, sentence: `${number(endS - startS, 1)} s from edge to edge; the frame is what is shown below.`, twin: () => stretches('Whole recording', whole, startS, endS),
    point: (x, y, width) => { const at = startS + ((endS - startS) * x) / width; move(at - (shown.to - shown.from) / 2, shown.to - shown.from); },
    draw: (c, w, h, inks) => {
      if (!whole) return;
      const x = scale(startS, endS, 0, w);
      behind(c, w, h, inks.soft, x);
      c.strokeStyle = inks.mark; c.lineWidth = 2;
      c.strokeRect(x(shown.from) + 1, 1, Math.max(6, x(shown.to) - x(shown.from) - 2), h - 2);
      for (const s of state.sweeps()) if (s.state === 'excluded') { c.fillStyle = inks.raise; c.fillRect(x(s.timeS) - 1, h - 6, 3, 6); }
    },
  });

  const detail = figure({
    name: 'Recording, the part shown', height: 170, sentence: 'Arrow keys move, plus and minus zoom.', twin: () => stretches('Recording, the part shown', part ?? whole, shown.from, shown.to),
    drag: (by, width) => { if (shown.to - shown.from < endS - startS) move(shown.from - (by * (shown.to - shown.from)) / width, shown.to - shown.from); },
    wheel: (event, x, width) => zoom(event.deltaY > 0 ? 1.25 : 0.8, shown.from + ((shown.to - shown.from) * x) / width),
    point: (px, y, width) => {
      const at = shown.from + ((shown.to - shown.from) * px) / width;
      cursorS = at;
      const near = state.sweeps().reduce((best, s) => (Math.abs(s.timeS - at) < Math.abs((best?.timeS ?? Infinity) - at) ? s : best), null);
      if (near && (Math.abs(near.timeS - at) * width) / (shown.to - shown.from) < 24) state.select(near.sweep);
      else detail.redraw();
    },
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
      const data = part ?? whole;
      if (!data) return;
      const x = scale(shown.from, shown.to, 0, w); const most = scaleUv ?? reach(data);
      const y = scale(-most, most, h - 26, 14);
      let lastAt = -1; let lastState = '';
      for (const s of state.sweeps()) {
        if (s.timeS < shown.from || s.timeS > shown.to) continue;
        const chosen = s.sweep === state.sweep;
        // Marks that fall on one pixel are drawn once; the chosen one always, and excluded ones beside others.
        const pixel = Math.round(x(s.timeS));
        if (!chosen && pixel === lastAt && s.state === lastState) continue;
        lastAt = pixel; lastState = s.state;
        c.fillStyle = chosen ? inks.mark : s.state === 'excluded' ? inks.raise : inks.faint;
        c.fillRect(x(s.timeS) - (chosen ? 1.5 : 0.5), 14, chosen ? 3 : 1, h - 40);
        if (chosen) { c.textAlign = 'center'; c.textBaseline = 'top'; c.fillText(`sweep ${s.sweep}`, Math.min(w - 210, Math.max(34, x(s.timeS))), 0); }
      }
      c.save(); c.beginPath(); c.rect(0, 12, w, h - 36); c.clip();
      if (whole && data !== whole) {
        if (shown.from < data.from) trace(c, whole, x, y, inks.line, shown.from, Math.min(shown.to, data.from));
        if (shown.to > data.to) trace(c, whole, x, y, inks.line, Math.max(shown.from, data.to), shown.to);
      }
      trace(c, data, x, y, inks.accent, shown.from, shown.to);
      c.restore();
      c.fillStyle = inks.soft; c.textBaseline = 'bottom'; c.textAlign = 'center';
      for (const t of ticks(shown.from, shown.to, 8)) { c.fillRect(x(t), h - 24, 1, 6); c.fillText(`${Number(t.toFixed(4))} s`, Math.min(w - 24, Math.max(24, x(t))), h - 2); }
      c.textAlign = 'right'; c.textBaseline = 'top';
      c.fillText(`± ${most >= 1000 ? `${(most / 1000).toFixed(1)} mV` : `${most.toFixed(0)} µV`}`, w - 4, 1);
      const pxPerMs = w / (1000 * (shown.to - shown.from)); const pxPerUv = (h - 40) / (2 * most);
      scaleBars(c, inks, w - 8, h - 30, pxPerMs, pxPerUv, roundDown(w / 8 / pxPerMs), roundDown(most / 2), { right: w - 78, bottom: 15 });
      if (cursorS !== null) { c.fillStyle = inks.raise; c.fillRect(x(cursorS), 0, 1.5, h - 22); }
    },
  });

  let loading = false;
  /** What is there is drawn at once; one request at a time brings the rest. */
  async function refresh() {
    const mine = ++turn;
    overview.redraw(); detail.redraw();
    if (loading) return;
    loading = true;
    try {
      const columns = Math.min(4000, Math.round(detail.canvas.clientWidth * (devicePixelRatio || 1)) || 1000);
      part = await load(shown.from, shown.to, columns);
      detail.redraw();
      detail.tell();
    } finally { loading = false; }
    if (mine !== turn) refresh();
  }
  /** Loads the signal again: it is filtered otherwise now. */
  async function reload() {
    detail.say('The recording is read: the first time this takes a while for a long one.');
    whole = await load(startS, endS, 1600);
    part = null;
    detail.say('Arrow keys move, plus and minus zoom.');
    overview.say(`${number(endS - startS, 1)} s from edge to edge, up to ${number(reach(whole), 0)} µV; the frame is what is shown below.`);
    overview.tell();
    element.dataset.strip = 'there';
    refresh();
  }
  function move(from, span) {
    const width = Math.min(span, endS - startS);
    shown.from = Math.max(startS, Math.min(endS - width, from));
    shown.to = shown.from + width;
    fromField.value = shown.from.toFixed(3); toField.value = shown.to.toFixed(3);
    refresh();
  }
  function zoom(factor, around = (shown.from + shown.to) / 2) {
    const span = Math.max(0.002, Math.min(endS - startS, (shown.to - shown.from) * factor));
    move(around - ((around - shown.from) / (shown.to - shown.from)) * span, span);
  }
  /** Brings a time into view. */
  function bring(timeS) { if (timeS < shown.from || timeS > shown.to) move(timeS - (shown.to - shown.from) / 2, shown.to - shown.from); else { overview.redraw(); detail.redraw(); } }

  const speed = choice([['1', 'as recorded'], ['0.5', 'half speed'], ['0.25', 'quarter speed']], '1');
  const loud = el('input', { type: 'range', min: 0, max: 100, value: 40 });
  const play = el('button', { onclick: () => (sound ? stop() : start()) }, 'Hear it');
  function stop() { sound?.close(); sound = null; play.textContent = 'Hear it'; detail.redraw(); }
  async function start() {
    const response = await getBytes(`${path}/sound?startS=${cursorS ?? shown.from}`);
    const rate = Number(response.headers.get('Lonefibre-Rate-Hz'));
    const samples = new Int16Array(await response.arrayBuffer());
    sound = new AudioContext();
    const mine = sound;
    const at = cursorS ?? shown.from;
    const buffer = sound.createBuffer(1, samples.length, Math.min(192000, Math.max(8000, rate)));
    const channel = buffer.getChannelData(0);
    for (let i = 0; i < samples.length; i++) channel[i] = samples[i] / 32768;
    const source = sound.createBufferSource();
    const gain = sound.createGain();
    const limit = sound.createDynamicsCompressor();
    source.buffer = buffer;
    source.playbackRate.value = Number(speed.value);
    gain.gain.value = Number(loud.value) / 100;
    loud.oninput = () => { gain.gain.value = Number(loud.value) / 100; };
    source.connect(gain).connect(limit).connect(sound.destination);
    source.onended = () => { if (sound === mine) stop(); };
    const begun = sound.currentTime;
    source.start();
    play.textContent = 'Stop';
    say('Playing the conditioned recording.');
    const follow = () => {
      if (sound !== mine) return;
      cursorS = at + (mine.currentTime - begun) * Number(speed.value);
      if (cursorS > shown.to && cursorS < endS) move(cursorS, shown.to - shown.from); else detail.redraw();
      requestAnimationFrame(follow);
    };
    follow();
  }

  const heights = choice([['', 'as high as fits'], ...[20, 50, 100, 200, 500, 1000, 2000, 5000].map((v) => [String(v), v >= 1000 ? `± ${v / 1000} mV` : `± ${v} µV`])], '',
    { onchange: (e) => { scaleUv = e.target.value ? Number(e.target.value) : null; detail.redraw(); } });
  const fromField = el('input', { type: 'number', step: 0.001, value: startS.toFixed(3), onchange: (e) => move(Number(e.target.value), shown.to - shown.from) });
  const toField = el('input', { type: 'number', step: 0.001, value: endS.toFixed(3), onchange: (e) => move(shown.from, Math.max(0.002, Number(e.target.value) - shown.from)) });
  const element = el('section', { 'aria-label': 'Recording' }, overview, detail,
    el('div', { class: 'row end' },
      field('Shown from, s', fromField), field('to, s', toField), field('Scale', heights),
      el('button', { onclick: () => zoom(0.5) }, 'Closer'), el('button', { onclick: () => zoom(2) }, 'Wider'),
      el('button', { onclick: () => move(startS, endS - startS) }, 'All'),
      state.excludeStretch ? el('button', { onclick: () => state.excludeStretch(shown.from, shown.to) }, 'Exclude the stretch shown …') : null),
    el('div', { class: 'row end' }, play, field('Speed', speed), field('Loudness', loud)));
  reload().catch((fault) => { detail.say(fault.message); });
  return { element, bring, shown, stop, reload, redraw: () => { overview.redraw(); detail.redraw(); overview.tell(); detail.tell(); } };
}
