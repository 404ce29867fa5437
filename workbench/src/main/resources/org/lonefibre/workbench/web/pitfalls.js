// Practice on the case library: sites with a known pitfall and the same without it. What is to be seen is named; then the truth is told.
import { el, fill, field, choice, table, number, say } from './dom.js';
import { get, post, person } from './api.js';
import { keys } from './app.js';
import { evidence, EVIDENCE } from './evidence.js';
import { ruler } from './ruler.js';
import { findings, sweepsOf } from './site.js';
import { progress } from './studies.js';

const known = () => get(`/api/pitfalls?person=${encodeURIComponent(person())}`);
const wordsOf = (all, code) => all.choices.find((c) => c.code === code)?.words ?? code;
/** The next case that is not answered; where all are, the next. */
function following(all, after = 0) {
  const done = new Set(all.answers.map((a) => a.number));
  const order = Array.from({ length: all.size }, (_, i) => ((after + i) % all.size) + 1);
  return order.find((n) => !done.has(n)) ?? order[0];
}

/** Its part of the Practice screen. */
export async function library() {
  const all = await known();
  const right = all.answers.filter((a) => a.given === a.expected).length;
  const next = all.answers.length === 0 ? 'Take a case of the library' : all.answers.length < all.size ? 'Next case of the library' : 'Take the library once more';
  return el('section', {}, el('h2', {}, 'Pitfalls'),
    el('p', { class: 'lead' }, 'Look at a whole recording: is there a pitfall in it, and which? Then the truth is told, with the reasons of the program.'),
    el('p', { class: 'soft' }, all.source),
    el('div', { class: 'row' }, el('a', { class: 'button', href: `#/practice/library/${following(all)}` }, next)),
    all.answers.length === 0 ? el('p', {}, `None of its ${all.size} cases was judged yet.`) : [
      el('p', {}, `${all.answers.length} of ${all.size} cases are judged, ${right} of them rightly.`),
      table('Cases of the library', ['Case', 'What is true', 'Right was', 'Said', 'Judged'], all.answers.map((a) => [
        el('a', { href: `#/practice/library/${a.number}` }, `case ${a.number}`), a.kind, wordsOf(all, a.expected), wordsOf(all, a.given),
        el('span', { class: `word ${a.given === a.expected ? 'ok' : 'raise'}` }, a.given === a.expected ? 'right' : 'not so')]))]);
}

/** @param {HTMLElement} main @param {string} number_ */
export async function pitfall(main, number_) {
  const all = await known();
  const n = Number(number_);
  const path = `/api/pitfalls/${n}`;
  const making = el('div');
  const heading = () => [el('p', {}, el('a', { href: '#/practice' }, 'Practice')), el('h1', {}, `Practice: case ${n} of ${all.size} of the library`)];
  fill(main, heading(), making);
  const work = await post(`${path}/making`, {});
  if ((await progress(making, work.id)).state !== 'done') {
    fill(making, el('p', {}, 'The case was not made.'), el('div', { class: 'row' }, el('button', { onclick: () => pitfall(main, number_) }, 'Make it')));
    return undefined;
  }
  if (!making.isConnected) return undefined;
  const view = await get(path);
  const before = all.answers.find((a) => a.number === n);
  const place = el('div');
  let answer = null;
  let said = '';
  const units = view.units.filter((u) => u.pairs.length > 0);
  const state = {
    unit: 0, signal: null, sweep: null, kind: 'superimposed',
    current: () => units[state.unit] ?? null,
    pair: () => state.current()?.pairs.find((p) => p.id === state.signal) ?? state.current()?.pairs[0] ?? null,
    sweeps: () => (state.pair() ? sweepsOf(state.pair()) : []),
    drawing: (unit) => unit.drawing,
    select: (sweep) => {
      state.sweep = sweep;
      const one = state.sweeps().find((s) => s.sweep === sweep);
      if (one) { strip.bring(one.timeS); say(`Sweep ${sweep}: ${one.state}${one.valueUs === null ? '' : `, ${one.valueUs.toFixed(1)} µs`}`); }
      strip.redraw();
      place.querySelectorAll('figure').forEach((f) => f.redraw?.());
    },
  };
  const strip = ruler(path, view, state);

  async function decide() {
    if (!said) { say('Say first what is to be seen, or that it is none of these.', 'alert'); return; }
    answer = await post(`${path}/answers`, { choice: said });
    draw();
    place.querySelector('#truth')?.focus();
  }

  function judging() {
    return el('section', {}, el('h2', {}, 'Judge'),
      before ? el('p', {}, `Judged before as: ${wordsOf(all, before.given)}. That answer stands, this one is for the eye.`) : null,
      el('fieldset', {}, el('legend', {}, 'What is to be seen in this recording?'), all.choices.map((c) => el('div', { class: 'check' },
        el('input', { type: 'radio', name: 'pitfall', id: `pitfall-${c.code}`, value: c.code, checked: said === c.code, onchange: () => { said = c.code; } }),
        el('label', { for: `pitfall-${c.code}` }, el('strong', {}, c.words), `: ${c.sign}`)))),
      el('div', { class: 'row' }, el('button', { class: 'main', onclick: decide }, 'Show the truth')));
  }

  function truth() {
    const expected = all.choices.find((c) => c.code === answer.expected);
    const asked = all.choices.find((c) => c.code === answer.asked);
    const raised = answer.findings.filter((f) => f.code === answer.asked);
    const others = answer.findings.filter((f) => f.code !== answer.asked);
    const list = (some) => findings(some.map((f) => ({ ...f, text: `${f.of}: ${f.text}` })));
    const next = following({ ...all, answers: [...all.answers, { number: n }] }, n);
    return el('section', {}, el('h2', { id: 'truth', tabindex: -1 }, 'Truth'),
      el('p', { class: 'lead', role: 'status' }, el('span', { class: `word ${answer.isRight ? 'ok' : 'raise'}` }, answer.isRight ? 'right' : 'not so'),
        ` What is true: ${answer.truth}. You said: ${wordsOf(all, said)}${answer.isRight ? '' : `; right is: ${expected.words}`}.${answer.isFirst ? '' : ' Not counted: the first answer stands.'}`),
      el('p', {}, answer.isThere ? `How it shows: ${expected.sign}.` : `How ${asked.words} would show: ${asked.sign}. Here ${expected.sign}.`),
      el('h3', {}, 'What the program says'),
      el('p', {}, `${answer.isRaised ? 'It raises' : 'It does not raise'} the finding ${answer.asked}. `,
        el('span', { class: `word ${answer.isRaised === answer.isThere ? 'ok' : 'mark'}` }, answer.isRaised === answer.isThere ? 'the program is right here' : 'the program is not right here')),
      list(raised),
      others.length ? el('details', {}, el('summary', {}, `${others.length} other ${others.length === 1 ? 'finding' : 'findings'} of the program`), list(others)) : null,
      el('div', { class: 'row' }, el('a', { class: 'button main', href: `#/practice/library/${next}` }, 'Next case'), el('a', { class: 'button', href: '#/practice' }, 'To the score')));
  }

  function draw() {
    const unit = state.current();
    const pair = state.pair();
    state.signal = pair?.id ?? null;
    const top = scrollY;
    fill(place,
      units.length > 1 || (unit && unit.pairs.length > 1) ? el('div', { class: 'row end' },
        units.length > 1 ? field('Motor unit', choice(units.map((u, i) => [String(i), `unit ${u.id}`]), String(state.unit), { onchange: (e) => { state.unit = Number(e.target.value); state.signal = null; state.sweep = null; draw(); } })) : null,
        unit && unit.pairs.length > 1 ? field('Signal', choice(unit.pairs.map((p) => [p.id, `${p.id}, ${number(p.meanIntervalUs ?? p.meanLatencyUs ?? null, 0)} µs`]), pair.id, { onchange: (e) => { state.signal = e.target.value; draw(); } })) : null) : null,
      el('section', {}, el('h2', {}, 'Evidence'), pair ? [
        el('div', { class: 'row', role: 'group', 'aria-label': 'What is plotted' }, EVIDENCE.map(([kind, text]) => el('button', {
          'aria-pressed': String(state.kind === kind), 'data-kind': kind, onclick: () => { state.kind = kind; draw(); place.querySelector(`[data-kind="${kind}"]`)?.focus(); } }, text))),
        evidence(state, unit, pair)] : el('p', {}, 'No signal was found in it.')),
      answer ? truth() : judging());
    scrollTo(0, top);
    strip.redraw();
  }
  const step = (by) => {
    const sweeps = state.sweeps();
    const at = sweeps.findIndex((s) => s.sweep === state.sweep);
    if (sweeps.length) state.select(sweeps[Math.max(0, Math.min(sweeps.length - 1, at < 0 ? 0 : at + by))].sweep);
  };
  keys.set('j', { words: 'next sweep', run: () => step(1) });
  keys.set('k', { words: 'sweep before', run: () => step(-1) });
  keys.set('t', { words: 'show the truth', run: () => { if (!answer) decide(); } });
  keys.set('n', { words: 'next case', run: () => { location.hash = `#/practice/library/${following(all, n)}`; } });

  fill(main, heading(), el('p', { class: 'lead' }, `${view.isStimulated ? 'Stimulated' : 'Voluntary'}; noise ${number(view.noiseUv)} µV. Nothing the program thinks of it is shown before you have answered.`), strip.element, place);
  draw();
  return () => strip.stop();
}
