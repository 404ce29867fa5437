// Practice: recordings with known truth. One potential is judged; then the truth, the evidence and the score are shown.
import { el, fill, field, table, number, probability, say } from './dom.js';
import { get, post, person } from './api.js';
import { keys } from './app.js';
import { evidence, potentialFigure } from './evidence.js';
import { figure, scale, ticks, axes, mark } from './plots.js';
import { findings, gradeWords, words } from './site.js';
import { progress } from './studies.js';
import { library } from './pitfalls.js';

const ANSWERS = [['single-fibre', 'One fibre', '1'], ['doubtful', 'Doubtful', '2'], ['composite', 'Composite', '3']];
const PLOTS = [['superimposed', 'Sweeps superimposed'], ['ordered', 'Sweeps in order of time']];

/** @param {HTMLElement} main @param {string} [round] @param {string} [number_] */
export async function practice(main, round, number_) {
  const all = await get(`/api/practice?person=${encodeURIComponent(person())}`);
  if (round) { await oneCase(main, all, Number(round), Number(number_)); return; }
  const next = following(all, null);
  const study = el('div');
  const rounds = [...new Set(all.answers.map((a) => a.round))];
  fill(main, el('h1', {}, 'Practice'),
    el('h2', {}, 'One fibre or more'),
    el('p', { class: 'lead' }, 'Judge one potential at a time: is it one fibre? Where is a second one? Which sweeps are blocked? Then the truth is shown.'),
    el('p', { class: 'soft' }, `${all.source} The truth of a case is sent only after the answer.`),
    el('div', { class: 'row' },
      el('a', { class: 'button main', href: `#/practice/${next.round}/${next.number}` }, all.answers.length ? `Go on: case ${next.number} of ${all.size}, round ${next.round}` : 'Begin'),
      rounds.length ? el('button', { onclick: () => showStudy(study, rounds[rounds.length - 1]) }, 'What my answers do to a study') : null),
    study,
    all.answers.length === 0 ? el('p', {}, 'Nothing was judged yet. A round holds plain and difficult cases; the first answer to each is kept, under the name at the top.')
      : [score(all.answers), overTime(all.answers)],
    await library());
}

/** The part of sweeps between two times. */
function near(d, fromMs, toMs) {
  const first = Math.max(0, Math.ceil((fromMs - d.startMs) / d.stepMs));
  const end = Math.max(first + 2, Math.floor((toMs - d.startMs) / d.stepMs) + 1);
  return { startMs: d.startMs + first * d.stepMs, stepMs: d.stepMs, sweeps: d.sweeps, valuesUv: d.valuesUv.map((row) => row.slice(first, end)) };
}

/** The case after one, or the first that is not answered. */
function following(all, after) {
  const done = new Set(all.answers.map((a) => `${a.round}/${a.number}`));
  let round = after?.round ?? 1; let number_ = after?.number ?? 0;
  do {
    number_ += 1;
    if (number_ > all.size) { round += 1; number_ = 1; }
  } while (done.has(`${round}/${number_}`));
  return { round, number: number_ };
}

function score(answers) {
  const kinds = [...new Set(answers.map((a) => a.kind))].sort();
  const row = (name, list) => {
    const right = list.filter((a) => a.given === a.expected).length;
    const doubtful = list.filter((a) => a.given === 'doubtful').length;
    const marks = list.map((a) => JSON.parse(a.content).mark);
    const places = marks.filter((m) => m.placeRatio !== null);
    const sum = (of) => marks.reduce((s, m) => s + m[of], 0);
    return [name, list.length, right, doubtful, list.length - right - doubtful,
      places.length ? `${places.filter((m) => m.placeRatio === 1).length} of ${places.length}` : 'none asked',
      sum('found') + sum('missed') ? `${sum('found')} of ${sum('found') + sum('missed')}` : 'none blocked', sum('wrong'),
      number(list.reduce((s, a) => s + a.scorePercent, 0) / list.length, 0)];
  };
  return el('section', {}, el('h3', {}, 'Score by kind'),
    table('Score by kind', ['Kind', 'Cases', 'Right', 'Doubtful', 'Wrong', 'Second fibre within 0.1 ms', 'Blocked sweeps found', 'Called blocked and not', 'Score, %'],
      [...kinds.map((kind) => row(kind, answers.filter((a) => a.kind === kind))), row('all', answers)], [1, 2, 3, 4, 5, 6, 7, 8]));
}

function overTime(answers) {
  const FORMS = { right: 'dot', doubtful: 'square', wrong: 'cross' };
  const of = (a) => (a.given === a.expected ? 'right' : a.given === 'doubtful' ? 'doubtful' : 'wrong');
  const mean = (i) => { const last = answers.slice(Math.max(0, i - 9), i + 1); return last.reduce((s, a) => s + a.scorePercent, 0) / last.length; };
  return el('section', {}, el('h3', {}, 'Score over time'), figure({
    name: 'Score over time', height: 240,
    sentence: `${answers.length} answers in order; dot right, square doubtful, cross wrong. The line is the mean of the last ten: now ${number(mean(answers.length - 1), 0)} %.`,
    twin: table('Score over time', ['Answer', 'Round', 'Case', 'When (UTC)', 'Grade given', 'True grade', 'Score, %'],
      answers.map((a, i) => [i + 1, a.round, a.number, a.answeredAt.replace('T', ' ').slice(0, 16), gradeWords(a.given), gradeWords(a.expected), a.scorePercent]), [0, 1, 2, 6]),
    draw: (c, w, h, inks) => {
      const box = { left: 58, right: w - 12, top: 24, bottom: h - 44 };
      const x = scale(1, Math.max(10, answers.length), box.left + 8, box.right - 8); const y = scale(0, 100, box.bottom - 6, box.top);
      axes(c, inks, x, y, box, 'answer', '%', ticks(1, Math.max(10, answers.length), 8).filter((v) => Number.isInteger(v)), [0, 25, 50, 75, 100]);
      c.strokeStyle = inks.accent; c.lineWidth = 2; c.setLineDash([]);
      c.beginPath(); answers.forEach((a, i) => c.lineTo(x(i + 1), y(mean(i)))); c.stroke();
      answers.forEach((a, i) => { c.fillStyle = c.strokeStyle = of(a) === 'right' ? inks.accent : inks.raise; c.lineWidth = 1.5; mark(c, FORMS[of(a)], x(i + 1), y(a.scorePercent), 4); });
    },
  }));
}

/** What the acceptances do to a study beside those of the truth. */
async function showStudy(place, round) {
  const work = await post(`/api/practice/${round}/making`, {});
  if ((await progress(place, work.id)).state !== 'done') return;
  fill(place, el('p', {}, 'The study is counted …'));
  const found = await get(`/api/practice/${round}/study?person=${encodeURIComponent(person())}`);
  const line = (s) => [s.signals, number(s.meanJitterUs), s.signalsAboveLimit ?? 'not compared', s.signalsWithBlocking, words(s.verdictByFullGrade)];
  const turned = found.byPerson.verdictByFullGrade !== found.byTruth.verdictByFullGrade;
  const compared = found.byPerson.signals > 0 || found.byTruth.signals > 0;
  const verdict = !compared ? 'Nothing is counted yet' : turned ? 'These answers turn the comparison' : 'These answers do not turn the comparison';
  const limits = found.byTruth.limits;
  fill(place, el('section', { class: 'change', 'aria-label': 'The study of these cases' },
    el('h2', {}, `Round ${round} as a study`),
    el('p', {}, `${found.accepted} of ${found.cases} potentials were accepted as one fibre; ${found.oneFibre} are. ${limits ? `Compared with ${limits.set}: single signals ${number(limits.individualUs)} µs${limits.centreUs === null ? '' : `, ${limits.centreStatistic} ${number(limits.centreUs)} µs`}. ` : 'No limit set fits. '}`,
      el('span', { class: `word ${!compared ? '' : turned ? 'raise' : 'ok'}` }, verdict)),
    table(`Round ${round} as a study`, ['Potentials counted', 'Signals', 'Mean jitter, µs', 'Above the limit', 'With blocking', 'Comparison'],
      [['as I accepted', ...line(found.byPerson)], ['those of one fibre', ...line(found.byTruth)]], [1, 2, 3, 4])));
  say(`${verdict}.`);
}

async function oneCase(main, all, round, number_) {
  const path = `/api/practice/${round}/${number_}`;
  const making = el('div');
  fill(main, el('p', {}, el('a', { href: '#/practice' }, 'Practice')), el('h1', {}, `Practice: case ${number_} of ${all.size}, round ${round}`), making);
  const work = await post(`${path}/making`, {});
  if ((await progress(making, work.id)).state !== 'done') {
    fill(making, el('p', {}, 'The case was not made.'), el('div', { class: 'row' }, el('button', { onclick: () => oneCase(main, all, round, number_) }, 'Make it')));
    return;
  }
  if (!making.isConnected) return;
  const view = await get(path);
  const before = all.answers.find((a) => a.round === round && a.number === number_);
  const given = { grade: '', secondFibreMs: null, blockedSweeps: new Set() };
  const place = el('div');
  const drawing = view.drawing;
  let answer = null;
  let isClose = false;
  const widthMs = (view.shape.meanUv.length * view.shape.stepUs) / 1000;
  const startMs = view.offsetMs + view.shape.startUs / 1000;
  const state = {
    kind: 'superimposed', sweep: null, pointing: false, dashed: 'blocked',
    asked: { fromMs: startMs, toMs: startMs + widthMs },
    drawing: () => (isClose ? near(drawing, startMs - 0.25, startMs + widthMs + 0.25) : drawing),
    select: (sweep) => { state.sweep = sweep; say(`Sweep ${sweep}${given.blockedSweeps.has(sweep) ? ', marked as blocked' : ''}`); place.querySelectorAll('figure').forEach((f) => f.redraw?.()); },
    missed: (ms) => { state.pointing = false; given.secondFibreMs = ms; given.grade = given.grade || 'composite'; say(`Second fibre at ${ms.toFixed(2)} ms`); draw(); },
  };
  Object.defineProperty(state.asked, 'pointedMs', { get: () => given.secondFibreMs });

  function toggle(sweep) {
    if (!sweep) { say('Choose a sweep first: arrow keys in the plot, or the boxes below it.'); return; }
    if (given.blockedSweeps.has(sweep)) given.blockedSweeps.delete(sweep); else given.blockedSweeps.add(sweep);
    say(`Sweep ${sweep} ${given.blockedSweeps.has(sweep) ? 'is marked as blocked' : 'is no longer marked'}`);
    draw();
  }

  async function decide() {
    if (!given.grade) { say('Say first: one fibre, doubtful or composite.', 'alert'); return; }
    answer = await post(`${path}/answers`, { grade: given.grade, secondFibreMs: given.secondFibreMs, blockedSweeps: [...given.blockedSweeps] });
    draw();
    place.querySelector('#truth')?.focus();
  }

  function judging() {
    const at = el('input', { type: 'number', step: 0.01, min: -20, max: 20, id: 'second', value: given.secondFibreMs === null ? '' : given.secondFibreMs.toFixed(2),
      onchange: (e) => { given.secondFibreMs = e.target.value === '' ? null : Number(e.target.value); place.querySelectorAll('figure').forEach((f) => f.redraw?.()); } });
    return el('section', {}, el('h2', {}, 'Judge'),
      before ? el('p', {}, `Judged before as ${gradeWords(before.given)}; that answer stands, this one is for the eye.`) : null,
      el('div', { class: 'row', role: 'group', 'aria-label': 'The marked potential is' }, ANSWERS.map(([grade, wordsOf]) => el('button', {
        'aria-pressed': String(given.grade === grade), 'data-grade': grade, onclick: () => { given.grade = grade; draw(); place.querySelector(`[data-grade="${grade}"]`)?.focus(); } }, wordsOf))),
      el('div', { class: 'row end' },
        field('A second fibre arrives at, ms from the trigger', at),
        el('button', { onclick: () => { if (state.kind !== 'superimposed') { state.kind = 'superimposed'; draw(); } state.pointing = true; say('Point at the second fibre in the sweeps, or press Escape.'); } }, 'Point at it')),
      el('fieldset', {}, el('legend', {}, 'Sweeps in which the marked potential is blocked'),
        el('div', { class: 'row' }, drawing.sweeps.map((s) => el('span', { class: 'check' },
          el('input', { type: 'checkbox', id: `blocked-${s}`, checked: given.blockedSweeps.has(s), onchange: () => { toggle(s); place.querySelector(`#blocked-${s}`)?.focus(); } }), el('label', { for: `blocked-${s}` }, String(s)))))),
      el('div', { class: 'row' }, el('button', { class: 'main', onclick: decide }, 'Show the truth')));
  }

  function truth() {
    const { truth: t, mark: m, potential: p, pair } = answer;
    const right = given.grade === t.grade;
    const next = following({ ...all, answers: [...all.answers, { round, number: number_ }] }, { round, number: number_ });
    return el('section', {}, el('h2', { id: 'truth', tabindex: -1 }, 'Truth'),
      el('p', { class: 'lead', role: 'status' }, el('span', { class: `word ${right ? 'ok' : 'raise'}` }, right ? 'right' : given.grade === 'doubtful' ? 'doubtful' : 'not so'),
        ` This is ${t.kind}. You said ${gradeWords(given.grade)}. Score ${m.scorePercent} %${answer.isFirst ? '.' : ', not counted: the first answer stands.'}`),
      el('ul', { class: 'findings' },
        m.placeRatio === null ? null : el('li', {}, m.placeErrorMs === null ? `No second fibre was pointed at; it arrives at ${t.fibres.slice(1).map((f) => `${number(f.offsetMs, 2)} ms`).join(', ')}.` : `The second fibre was placed ${number(Math.abs(m.placeErrorMs), 2)} ms ${m.placeErrorMs < 0 ? 'before' : 'behind'} where it arrives.`),
        el('li', {}, t.blockedSweeps.length ? `Blocked: sweeps ${t.blockedSweeps.join(', ')}. Found ${m.found}, missed ${m.missed}, called blocked and not ${m.wrong}.` : `No sweep that is drawn is blocked${m.wrong ? `; ${m.wrong} ${m.wrong === 1 ? 'was' : 'were'} called so` : ''}.`),
        el('li', {}, t.jitterUs === null ? 'The largest fibre has no jitter to tell.' : `Jitter measured ${number(pair.jitterUs)} µs; of the trigger and the ${t.fibres.length > 1 ? 'larger fibre' : 'fibre'} truly ${number(t.jitterUs)} µs.`)),
      table('Fibres that make the potential', ['Fibre', 'Arrives, ms from the trigger', 'Size, µV', 'Jitter of its end-plate, µs', 'Does not fire, %'],
        t.fibres.map((f, i) => [t.fibres.length === 1 ? 'the one' : i === 0 ? 'the larger' : 'second', number(f.offsetMs, 2), number(f.amplitudeUv, 0), number(f.jitterUs), number(f.blockingPercent, 0)]), [1, 2, 3, 4]),
      el('h3', {}, 'Evidence'),
      potentialFigure(p),
      el('p', {}, `The program says ${gradeWords(p.grade)}${p.singleFibreProbability === null ? '' : `, probability of one fibre ${probability(p.singleFibreProbability)}`}; by the rules of thumb alone ${gradeWords(p.gradeByTradeRules)}. Rise ${p.riseTimeUs === null ? 'not told' : `${number(p.riseTimeUs, 0)} µs`}.`,
        p.grade !== t.grade ? el('span', { class: 'word mark' }, 'the program is not right here') : ''),
      findings([...p.findings, ...pair.findings]),
      el('div', { class: 'row' }, el('a', { class: 'button main', href: `#/practice/${next.round}/${next.number}` }, 'Next case'), el('a', { class: 'button', href: '#/practice' }, 'To the score')));
  }

  function draw() {
    const marked = answer ? new Set(answer.truth.blockedSweeps) : given.blockedSweeps;
    const pair = { triggerPotential: 'T', sweeps: drawing.sweeps.length, intervals: drawing.sweeps.map((s) => ({ sweep: s, timeS: 0, intervalUs: null, errorUs: null, state: marked.has(s) ? 'blocked' : 'not marked' })) };
    state.asked.truth = answer ? answer.truth.fibres.map((f) => f.offsetMs) : [];
    const top = scrollY;
    fill(place,
      el('section', {}, el('h2', {}, 'Recording'),
        el('div', { class: 'row', role: 'group', 'aria-label': 'What is plotted' }, PLOTS.map(([kind, wordsOf]) => el('button', { 'aria-pressed': String(state.kind === kind), 'data-kind': kind, onclick: () => { state.kind = kind; draw(); place.querySelector(`[data-kind="${kind}"]`)?.focus(); } }, wordsOf)),
          el('button', { 'aria-pressed': String(isClose), id: 'close', onclick: () => { isClose = !isClose; draw(); place.querySelector('#close')?.focus(); } }, 'The potential alone'),
          el('button', { onclick: () => toggle(state.sweep), disabled: Boolean(answer) }, 'Mark the chosen sweep as blocked, or not')),
        evidence(state, { id: 'practice' }, pair)),
      answer ? truth() : judging());
    scrollTo(0, top);
  }

  for (const [grade, wordsOf, key] of ANSWERS) keys.set(key, { words: `say: ${wordsOf.toLowerCase()}`, run: () => { if (!answer) { given.grade = grade; say(wordsOf); draw(); } } });
  keys.set('b', { words: 'mark the chosen sweep as blocked, or not', run: () => { if (!answer) toggle(state.sweep); } });
  keys.set('t', { words: 'show the truth', run: () => { if (!answer) decide(); } });
  keys.set('n', { words: 'next case', run: () => { const next = following(all, { round, number: number_ }); location.hash = `#/practice/${next.round}/${next.number}`; } });
  keys.set('Escape', { words: 'point at nothing', run: () => { state.pointing = false; } });

  fill(main, el('p', {}, el('a', { href: '#/practice' }, 'Practice')),
    el('h1', {}, `Practice: case ${number_} of ${all.size}, round ${round}`),
    el('p', { class: 'lead' }, `Judge the potential under the bar, ${number(view.offsetMs, 2)} ms from the trigger. Noise ${number(view.noiseUv)} µV.`), place);
  draw();
}
